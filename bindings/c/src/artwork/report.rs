//! What a mark keeps of its drawing.

use super::exposure::spotwise_ink_spots;
use crate::abi::{Plain, init, plain};
use spotwise::Validity;
use spotwise::artwork::{CentreShare, RegionTotals, Report, Topology};
use spotwise::model::optics::Cone;

/// What a mark keeps of its drawing: the result of spotwise_preflight(). Places without a known height count for
/// nothing. Pieces hang together over eight neighbours, holes over four. Widths are NaN where there are none.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_report {
    /// Size of this struct; spotwise_mark_report_init() sets it, and that of spots.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if all holds: no stroke is lost or broken, no counter filled, and neighbours stay apart.
    pub holds: u32,
    /// 1 if strokes are lost or broken.
    pub broken: u32,
    /// 1 if the drawing should be drawn finer to be sure; see spotwise_exposure_survey.
    pub too_few_pixels: u32,
    /// How many places there are where ink is lost: farther than the tolerance from any mark.
    pub lost_regions: u32,
    /// How many there are where ground is filled: farther than the tolerance from any unmarked place.
    pub filled_regions: u32,
    /// How many pieces and holes changed.
    pub changes: u32,
    /// Pieces of the drawing.
    pub components_drawing: u32,
    /// Pieces of the mark.
    pub components_mark: u32,
    /// Pieces of the drawing of which no pixel is marked.
    pub components_lost: u32,
    /// Pieces of the drawing that are marked in two pieces or more.
    pub components_split: u32,
    /// Pieces of the mark that join two pieces of the drawing or more.
    pub components_merged: u32,
    /// Pieces of the mark in which no pixel is drawn.
    pub components_new: u32,
    /// Pieces that are not ignored of which less than half of the centre-line is marked.
    pub components_starved: u32,
    /// Holes of the drawing.
    pub holes_drawing: u32,
    /// Holes of the mark.
    pub holes_mark: u32,
    /// Holes of the drawing of which every pixel is marked.
    pub holes_closed: u32,
    /// Holes of the drawing that are open to the outside in the mark.
    pub holes_opened: u32,
    /// Holes of the drawing that are parted in the mark, none of their parts open to the outside.
    pub holes_split: u32,
    /// Holes of the mark that join two holes of the drawing or more.
    pub holes_merged: u32,
    /// Holes of the mark that share no pixel with a hole of the drawing.
    pub holes_new: u32,
    /// Pieces of the drawing that are specks, smaller than speck_area_m2 of spotwise_marking. What is ignored is counted in
    /// none of the pieces, holes and changes above.
    pub components_ignored_drawing: u32,
    /// Pieces of the mark that share pixels with specks of the drawing alone, or with nothing drawn and are specks.
    pub components_ignored_mark: u32,
    /// Holes of the drawing that are specks.
    pub holes_ignored_drawing: u32,
    /// Holes of the mark that share pixels with holes of the drawing that are specks alone, or with no hole and are specks.
    pub holes_ignored_mark: u32,
    /// Pixels with ink.
    pub ink_pixels: u64,
    /// Pixels that are marked.
    pub mark_pixels: u64,
    /// Pixels with ink that are not marked.
    pub missing_pixels: u64,
    /// Marked pixels without ink.
    pub extra_pixels: u64,
    /// Pixels of all lost regions.
    pub lost_pixels: u64,
    /// Pixels of all filled regions.
    pub filled_pixels: u64,
    /// Pixels of the centre-lines of strokes.
    pub stroke_centre_pixels: u64,
    /// How many of them are marked.
    pub stroke_centres_kept: u64,
    /// Pixels of the centre-lines of gaps.
    pub gap_centre_pixels: u64,
    /// How many of them stay clear.
    pub gap_centres_kept: u64,
    /// Share of the strokes' length that is lost, 0 to 1; 0 without any.
    pub stroke_length_lost: f64,
    /// Share of the gaps' length that is filled, 0 to 1; 0 without any.
    pub gap_length_lost: f64,
    /// Area of one pixel in square metres.
    pub pixel_area_m2: f64,
    /// How far an edge may stray before it counts as lost or filled, in metres.
    pub edge_tolerance_m: f64,
    /// Smallest stroke in metres from which on nothing is lost.
    pub smallest_stroke_kept_m: f64,
    /// Largest stroke in metres up to which nothing is kept.
    pub largest_stroke_lost_m: f64,
    /// Smallest gap in metres from which on nothing is filled.
    pub smallest_gap_kept_m: f64,
    /// Largest gap in metres up to which nothing stays clear.
    pub largest_gap_lost_m: f64,
    /// Median over the centre-lines of strokes of the exposure relative to a wide even fill.
    pub typical_stroke_exposure: f64,
    /// Fewest pixels in a spot RADIUS.
    pub pixels_per_radius: f64,
    /// Expected greatest error of the exposure for want of pixels, as a share of full dose.
    pub expected_error: f64,
    /// 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// The spots over the ink.
    pub spots: spotwise_ink_spots,
}
plain!(
    spotwise_mark_report, 360 bytes,
    words: [
        validity,
        holds,
        broken,
        too_few_pixels,
        lost_regions,
        filled_regions,
        changes,
        components_drawing,
        components_mark,
        components_lost,
        components_split,
        components_merged,
        components_new,
        components_starved,
        holes_drawing,
        holes_mark,
        holes_closed,
        holes_opened,
        holes_split,
        holes_merged,
        holes_new,
        components_ignored_drawing,
        components_ignored_mark,
        holes_ignored_drawing,
        holes_ignored_mark,
    ],
    counts: [
        ink_pixels,
        mark_pixels,
        missing_pixels,
        extra_pixels,
        lost_pixels,
        filled_pixels,
        stroke_centre_pixels,
        stroke_centres_kept,
        gap_centre_pixels,
        gap_centres_kept,
    ],
    numbers: [
        stroke_length_lost,
        gap_length_lost,
        pixel_area_m2,
        edge_tolerance_m,
        smallest_stroke_kept_m,
        largest_stroke_lost_m,
        smallest_gap_kept_m,
        largest_gap_lost_m,
        typical_stroke_exposure,
        pixels_per_radius,
        expected_error,
        half_angle_rad,
    ],
    nested: [spots: spotwise_ink_spots]
);

impl From<Report> for spotwise_mark_report {
    fn from(report: Report) -> Self {
        let topology = report.topology;
        Self {
            validity: report.cone.validity.bits(),
            holds: report.holds().into(),
            broken: report.is_broken().into(),
            too_few_pixels: report.too_few_pixels.into(),
            lost_regions: report.lost.regions,
            filled_regions: report.filled.regions,
            changes: topology.changes(),
            components_drawing: topology.components_drawing,
            components_mark: topology.components_mark,
            components_lost: topology.components_lost,
            components_split: topology.components_split,
            components_merged: topology.components_merged,
            components_new: topology.components_new,
            components_starved: report.components_starved,
            holes_drawing: topology.holes_drawing,
            holes_mark: topology.holes_mark,
            holes_closed: topology.holes_closed,
            holes_opened: topology.holes_opened,
            holes_split: topology.holes_split,
            holes_merged: topology.holes_merged,
            holes_new: topology.holes_new,
            components_ignored_drawing: topology.components_ignored_drawing,
            components_ignored_mark: topology.components_ignored_mark,
            holes_ignored_drawing: topology.holes_ignored_drawing,
            holes_ignored_mark: topology.holes_ignored_mark,
            ink_pixels: report.ink_pixels,
            mark_pixels: report.mark_pixels,
            missing_pixels: report.missing_pixels,
            extra_pixels: report.extra_pixels,
            lost_pixels: report.lost.pixels,
            filled_pixels: report.filled.pixels,
            stroke_centre_pixels: report.stroke_centres.pixels.into(),
            stroke_centres_kept: report.stroke_centres.kept.into(),
            gap_centre_pixels: report.gap_centres.pixels.into(),
            gap_centres_kept: report.gap_centres.kept.into(),
            stroke_length_lost: report.stroke_centres.lost_share(),
            gap_length_lost: report.gap_centres.lost_share(),
            pixel_area_m2: report.pixel_area,
            edge_tolerance_m: report.edge_tolerance,
            smallest_stroke_kept_m: report.smallest_stroke_kept,
            largest_stroke_lost_m: report.largest_stroke_lost,
            smallest_gap_kept_m: report.smallest_gap_kept,
            largest_gap_lost_m: report.largest_gap_lost,
            typical_stroke_exposure: report.typical_stroke_exposure,
            pixels_per_radius: report.pixels_per_radius,
            expected_error: report.expected_error,
            half_angle_rad: report.cone.half_angle,
            spots: report.spots.into(),
            ..Self::BLANK
        }
    }
}

impl From<spotwise_mark_report> for Report {
    fn from(report: spotwise_mark_report) -> Self {
        // A drawing has at most 2^28 pixels.
        let share = |pixels: u64, kept: u64| CentreShare { pixels: pixels as u32, kept: kept as u32 };
        Self {
            ink_pixels: report.ink_pixels,
            mark_pixels: report.mark_pixels,
            missing_pixels: report.missing_pixels,
            extra_pixels: report.extra_pixels,
            pixel_area: report.pixel_area_m2,
            edge_tolerance: report.edge_tolerance_m,
            lost: RegionTotals { regions: report.lost_regions, pixels: report.lost_pixels },
            filled: RegionTotals { regions: report.filled_regions, pixels: report.filled_pixels },
            topology: Topology {
                components_drawing: report.components_drawing,
                components_mark: report.components_mark,
                components_lost: report.components_lost,
                components_split: report.components_split,
                components_merged: report.components_merged,
                components_new: report.components_new,
                holes_drawing: report.holes_drawing,
                holes_mark: report.holes_mark,
                holes_closed: report.holes_closed,
                holes_opened: report.holes_opened,
                holes_split: report.holes_split,
                holes_merged: report.holes_merged,
                holes_new: report.holes_new,
                components_ignored_drawing: report.components_ignored_drawing,
                components_ignored_mark: report.components_ignored_mark,
                holes_ignored_drawing: report.holes_ignored_drawing,
                holes_ignored_mark: report.holes_ignored_mark,
            },
            components_starved: report.components_starved,
            stroke_centres: share(report.stroke_centre_pixels, report.stroke_centres_kept),
            gap_centres: share(report.gap_centre_pixels, report.gap_centres_kept),
            smallest_stroke_kept: report.smallest_stroke_kept_m,
            largest_stroke_lost: report.largest_stroke_lost_m,
            smallest_gap_kept: report.smallest_gap_kept_m,
            largest_gap_lost: report.largest_gap_lost_m,
            typical_stroke_exposure: report.typical_stroke_exposure,
            spots: report.spots.into(),
            pixels_per_radius: report.pixels_per_radius,
            expected_error: report.expected_error,
            too_few_pixels: report.too_few_pixels != 0,
            cone: Cone { half_angle: report.half_angle_rad, validity: Validity::from_bits(report.validity) },
        }
    }
}

/// Sets struct_size, also of spots, flags and counts to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_report_init(report: *mut spotwise_mark_report) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(report) }
}
