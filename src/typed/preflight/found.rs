//! What a preflight finds.

use super::set_up::Preflight;
use crate::artwork::{
    self, Bitmap, BitmapMut, CentreShare, Change, ChangeKind, Judgement, PixelBox, PreflightOutput,
    PreflightPlan, Region, RegionTotals, Topology, Watch, judge, words_in_row,
};
use crate::error::Error;
use crate::model::mark::TextGrades;
use crate::typed::beam::Cone;
use crate::typed::shape::TablePlace;
use crate::typed::width::BeamWidth;
use crate::typed::{area, known, length};
use alloc::vec;
use alloc::vec::Vec;
use uom::si::f64::Length;

/// A mask of the drawing's size, one bit for each pixel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mask {
    words: Vec<u64>,
    width: usize,
    height: usize,
}

impl Mask {
    /// A mask of nothing.
    #[must_use]
    pub fn new(width: usize, height: usize) -> Self {
        Self { words: vec![0; words_in_row(width) * height], width, height }
    }

    /// Its pixels, to read.
    ///
    /// # Errors
    /// None; its words are of the right number.
    pub fn pixels(&self) -> Result<Bitmap<'_>, Error> {
        Bitmap::new(&self.words, self.width, self.height)
    }

    pub(super) fn pixels_mut(&mut self) -> Result<BitmapMut<'_>, Error> {
        BitmapMut::new(&mut self.words, self.width, self.height)
    }

    /// Whether a pixel is set; none is outside.
    #[must_use]
    pub fn get(&self, column: usize, row: usize) -> bool {
        self.pixels().is_ok_and(|pixels| pixels.get(column, row))
    }
}

/// The doses between which a drawing keeps what it shows, over the threshold dose.
pub use crate::artwork::DoseWindow;

/// A place where something is lost or filled: pixels that hang together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Its pixels.
    pub pixels: u32,
    /// Its area.
    pub size: uom::si::f64::Area,
    /// The box around it, in pixels of the drawing.
    pub extent: PixelBox,
    /// Its worst pixel.
    pub worst_pixel: (u32, u32),
    /// Where that lies on the table.
    pub worst: TablePlace,
    /// From there to the nearest mark where something is lost, to the nearest unmarked place where it is filled.
    pub depth: Length,
}

/// A piece or a hole of the drawing that changed.
pub use crate::artwork::Change as PartChange;

/// What a mark keeps of its drawing. Places without a known height count for nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkReport {
    /// Pixels with ink.
    pub ink_pixels: u64,
    /// Pixels that are marked.
    pub mark_pixels: u64,
    /// Pixels with ink that are not marked.
    pub missing_pixels: u64,
    /// Marked pixels without ink.
    pub extra_pixels: u64,
    /// Area of a pixel.
    pub pixel_area: uom::si::f64::Area,
    /// How far an edge may stray before it counts as lost or filled.
    pub edge_tolerance: Length,
    /// Where ink is lost: farther than the tolerance from any mark.
    pub lost: RegionTotals,
    /// Where ground is filled: farther than the tolerance from any unmarked place.
    pub filled: RegionTotals,
    /// What became of pieces and holes, but for specks.
    pub topology: Topology,
    /// Pieces that are not ignored of which less than half of the centre-line is marked.
    pub components_starved: u32,
    /// Centre-lines of strokes, and how much of them is marked.
    pub stroke_centres: CentreShare,
    /// Centre-lines of gaps, and how much of them stays clear.
    pub gap_centres: CentreShare,
    /// Smallest stroke from which on nothing is lost.
    pub smallest_stroke_kept: Option<Length>,
    /// Largest stroke up to which nothing is kept.
    pub largest_stroke_lost: Option<Length>,
    /// Smallest gap from which on nothing is filled.
    pub smallest_gap_kept: Option<Length>,
    /// Largest gap up to which nothing stays clear.
    pub largest_gap_lost: Option<Length>,
    /// Median over the centre-lines of strokes of the exposure relative to a wide even fill.
    pub typical_stroke_exposure: Option<f64>,
    /// Least spot over the ink, without blur, and where.
    pub least_spot: Option<(BeamWidth, TablePlace)>,
    /// Greatest spot over the ink, without blur, and where.
    pub greatest_spot: Option<(BeamWidth, TablePlace)>,
    /// Pixels with ink where the surface has no known height.
    pub unknown_ink_pixels: u64,
    /// Fewest pixels in a spot **radius**.
    pub pixels_per_radius: f64,
    /// Expected greatest error of the exposure for want of pixels, as a share of full dose.
    pub expected_error: f64,
    /// Whether the drawing should be drawn finer to be sure.
    pub too_few_pixels: bool,
    /// Half angle and validity of the beam.
    pub cone: Cone,
}

/// What a preflight finds. It is advice: a test piece comes first.
#[derive(Debug, Clone, PartialEq)]
pub struct PreflightVerdict {
    /// What the mark keeps at its dose, and what not.
    pub report: MarkReport,
    /// Between which doses all is kept.
    pub window: DoseWindow,
    /// The grade, and why.
    pub judgement: Judgement,
    /// The mark.
    pub mark: Mask,
    /// Ink that is lost beyond the tolerance.
    pub lost: Mask,
    /// Ground that is filled beyond the tolerance.
    pub filled: Mask,
    /// Pixels at which the surface has no known height.
    pub unknown: Mask,
    /// Exposure of every pixel in units of 1/[`FULL_DOSE`](crate::artwork::FULL_DOSE).
    pub exposure: Vec<u16>,
    /// Where ink is lost, those of most pixels first; at most [`PreflightVerdict::MOST`].
    pub lost_areas: Vec<Area>,
    /// Where ground is filled, likewise.
    pub filled_areas: Vec<Area>,
    /// Pieces and holes that changed, kind by kind; at most [`PreflightVerdict::MOST`].
    pub changes: Vec<Change>,
}

impl PreflightVerdict {
    /// Areas and changes that are listed; the report counts all of them.
    pub const MOST: usize = 1000;

    /// The changes of one kind.
    pub fn changes_of(&self, kind: ChangeKind) -> impl Iterator<Item = &Change> {
        self.changes.iter().filter(move |change| change.kind == kind)
    }
}

impl Preflight<'_> {
    /// Predicts the mark, finds what is lost and filled, the window of doses that keep everything, and the grade.
    /// As [`PreflightPlan::run`], [`PreflightPlan::dose_window`] and [`judge`], by the usual [`TextGrades`].
    ///
    /// # Errors
    /// As there.
    pub fn run(&self, watch: &mut Watch<'_>) -> Result<PreflightVerdict, Error> {
        self.run_by(&TextGrades::default(), watch)
    }

    /// Memory that [`run`](Self::run) takes in bytes, the drawing not counted.
    ///
    /// # Errors
    /// As [`PreflightPlan::new`].
    pub fn memory(&self) -> Result<usize, Error> {
        let plan = PreflightPlan::new(&self.as_model(), &mut Watch::quiet())?;
        let (width, height) = (self.artwork.width, self.artwork.height);
        let masks = 4 * 8 * words_in_row(width) * height;
        Ok(8 * plan.words(artwork::threads()) + 2 * width * height + masks)
    }

    /// As [`run`](Self::run), with limits of one's own for the grades.
    ///
    /// # Errors
    /// As there, then [`Error::OutOfRange`] for a limit.
    pub fn run_by(&self, grades: &TextGrades, watch: &mut Watch<'_>) -> Result<PreflightVerdict, Error> {
        let preflight = self.as_model();
        let plan = PreflightPlan::new(&preflight, &mut watch.part(0.0, 0.05))?;
        let (width, height) = (self.artwork.width, self.artwork.height);
        let mut room = vec![0; plan.words(artwork::threads())];
        let mut exposure = vec![0; width * height];
        let [mut mark, mut lost, mut filled, mut unknown] = [(); 4].map(|()| Mask::new(width, height));
        let [mut lost_regions, mut filled_regions] =
            [(); 2].map(|()| vec![Region::default(); PreflightVerdict::MOST]);
        let mut changes = vec![Change::NONE; PreflightVerdict::MOST];
        let mut output = PreflightOutput {
            exposure: &mut exposure,
            mark: mark.pixels_mut()?,
            lost: lost.pixels_mut()?,
            filled: filled.pixels_mut()?,
            lost_regions: &mut lost_regions,
            filled_regions: &mut filled_regions,
            changes: &mut changes,
        };
        let report = plan.run(&mut output, &mut room, &mut watch.part(0.05, 0.33))?;
        plan.exposure().unknown(&mut unknown.pixels_mut()?, &mut watch.part(0.33, 0.35))?;
        let window = plan.dose_window(&exposure, &mut room, &mut watch.part(0.35, 1.0))?;
        let judgement = judge(&report, &window, grades)?;
        lost_regions.truncate(report.lost.regions as usize);
        filled_regions.truncate(report.filled.regions as usize);
        changes.truncate(report.topology.changes() as usize);
        let areas = |regions: Vec<Region<f64>>| {
            regions.iter().map(|region| Area::of(region, &preflight.drawing)).collect()
        };
        Ok(PreflightVerdict {
            report: MarkReport::of(&report),
            window,
            judgement,
            mark,
            lost,
            filled,
            unknown,
            exposure,
            lost_areas: areas(lost_regions),
            filled_areas: areas(filled_regions),
            changes,
        })
    }
}

impl Area {
    fn of(region: &Region<f64>, drawing: &artwork::Drawing<'_>) -> Self {
        let (x, y) = drawing.place(region.worst_x as usize, region.worst_y as usize);
        Self {
            pixels: region.pixels,
            size: area(f64::from(region.pixels) * drawing.pixel_area()),
            extent: region.extent,
            worst_pixel: (region.worst_x, region.worst_y),
            worst: TablePlace::from_metres(x, y),
            depth: length(region.depth),
        }
    }
}

impl MarkReport {
    fn of(report: &artwork::Report) -> Self {
        let width = |metres| known(metres).map(length);
        let spots = &report.spots;
        let spot = |diameter, x, y| {
            known(diameter).map(|diameter| (BeamWidth::computed(diameter), TablePlace::from_metres(x, y)))
        };
        Self {
            ink_pixels: report.ink_pixels,
            mark_pixels: report.mark_pixels,
            missing_pixels: report.missing_pixels,
            extra_pixels: report.extra_pixels,
            pixel_area: area(report.pixel_area),
            edge_tolerance: length(report.edge_tolerance),
            lost: report.lost,
            filled: report.filled,
            topology: report.topology,
            components_starved: report.components_starved,
            stroke_centres: report.stroke_centres,
            gap_centres: report.gap_centres,
            smallest_stroke_kept: width(report.smallest_stroke_kept),
            largest_stroke_lost: width(report.largest_stroke_lost),
            smallest_gap_kept: width(report.smallest_gap_kept),
            largest_gap_lost: width(report.largest_gap_lost),
            typical_stroke_exposure: known(report.typical_stroke_exposure),
            least_spot: spot(spots.least_diameter, spots.least_x, spots.least_y),
            greatest_spot: spot(spots.greatest_diameter, spots.greatest_x, spots.greatest_y),
            unknown_ink_pixels: spots.unknown_ink_pixels,
            pixels_per_radius: report.pixels_per_radius,
            expected_error: report.expected_error,
            too_few_pixels: report.too_few_pixels,
            cone: Cone::from_model(report.cone),
        }
    }
}
