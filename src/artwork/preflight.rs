//! The whole preflight: drawing in, mark and findings out.
//!
//! The data's way: [`ExposurePlan::expose`] gives the exposure of every pixel, [`Answer`] says which of them mark, and
//! the mark is held against the drawing: areas beyond a tolerance, pieces and holes, centre-lines, widths. The dose
//! window repeats the last steps for other doses over the same exposure.

use super::bitmap::{Bitmap, BitmapMut, words_in_row};
use super::changes::Change;
use super::disc::{Disc, beyond_disc_where, closed, closed_words, disc_words, filled, lost};
use super::distance::Ruler;
use super::dose_window::{DoseWindow, Faults, find_window};
use super::exposure::ExposurePlan;
use super::mark::{Answer, least_level, mark_from};
use super::median::{MEDIAN_WORDS, median_along};
use super::regions::{Region, RegionTotals};
use super::report::{Report, broken, depth_ruler, find_regions, find_regions_words};
use super::runs::run_capacity;
use super::specks::least_pixels;
use super::strokes::{CentreShare, Widths, add_component_shares, starved_components, widths, widths_words};
use super::topology::{Parts, Topology, compare, compare_words, find_parts, parts_words};
use super::watch::Watch;
use super::workspace::{Workspace, words_for};
use super::{Drawing, Exposing, Nearest, Side, centre_line, centre_line_words};
use crate::error::{Error, Param, check, check_length, check_within};
use crate::model::math;
use crate::model::optics::Beam;

/// What a preflight is told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Preflight<'a> {
    /// The drawing.
    pub drawing: Drawing<'a>,
    /// What exposes it.
    pub exposing: Exposing<'a>,
    /// What answers to the dose.
    pub answer: Answer,
    /// Dose inside a wide even fill over the dose at which the material just marks, 1e-6 to [`MOST_DOSE_RATIO`].
    pub dose_ratio: f64,
    /// How far an edge may stray before it counts as lost or filled, in metres, at most 254 pixels; see
    /// [`usual_edge_tolerance`].
    pub edge_tolerance: f64,
    /// Area in square metres below which a piece of ink, or a hole in one, is a speck: a grain of dust in a scan, a bare
    /// pixel in a letter. 0 for none, at most 1e-4 (a square of 10 mm).
    ///
    /// What becomes of specks is told of in no count of pieces and holes, but that of what is ignored
    /// ([`Topology`]), and in no grade, dose window, reach or scale, which rest on these. Areas, centre-lines, widths and
    /// exposures are those of all pixels: where a speck is lost or filled by more than the tolerance of edges, a
    /// region says so, and its stroke or gap counts among the widths.
    ///
    /// A speck is judged by its own pixels, without its holes or what stands in it; a number of pixels times their area
    /// is no less than itself. The area is one on the surface, of the drawing as it is; where its scale is changed
    /// ([`smallest_scale`](super::smallest_scale)), the area changes with it, so that specks stay specks.
    pub speck_area: f64,
}

/// The usual tolerance of edges in metres: half a waist radius, a quarter of the waist diameter.
#[must_use]
pub fn usual_edge_tolerance(beam: &Beam) -> f64 {
    0.25 * beam.waist_diameter
}

/// Where a preflight writes what it finds. All slices belong to the caller.
#[derive(Debug)]
pub struct PreflightOutput<'o> {
    /// The exposure of every pixel in units of 1/[`FULL_DOSE`](super::FULL_DOSE): width·height numbers.
    pub exposure: &'o mut [u16],
    /// The mark.
    pub mark: BitmapMut<'o>,
    /// Ink that is lost beyond the tolerance.
    pub lost: BitmapMut<'o>,
    /// Ground that is filled beyond the tolerance.
    pub filled: BitmapMut<'o>,
    /// Regions of what is lost, those of most pixels first, with depths in metres; as many as find room.
    pub lost_regions: &'o mut [Region<f64>],
    /// Regions of what is filled, likewise.
    pub filled_regions: &'o mut [Region<f64>],
    /// Pieces and holes that changed, as [`compare`](super::compare) writes them.
    pub changes: &'o mut [Change],
}

/// A preflight that is checked, and whose need of room is known.
#[derive(Debug, Clone)]
pub struct PreflightPlan<'a> {
    exposure: ExposurePlan<'a>,
    drawing: Drawing<'a>,
    answer: Answer,
    dose_ratio: f64,
    /// Pixels below which a piece or a hole is a speck.
    speck_pixels: u32,
    tolerance: Disc,
    /// What closes the gaps of a melt.
    bridge: Option<Disc>,
    /// For centre-lines where no stroke, or gap, is more than six spot radii wide.
    short: Ruler,
    /// For centre-lines of wider strokes, and for depths.
    long: Ruler,
    /// What lies farther within a stroke than the reach of either.
    beyond_short: Disc,
    beyond_long: Disc,
}

/// Spot radii that the short ruler of centre-lines reaches.
const REACH: f64 = 3.0;
/// Least and greatest reach of that ruler in pixels.
const SHORT_REACH: [f64; 2] = [8.0, 254.0];
/// Greatest radius of a disc in pixels.
const WIDEST_DISC: f64 = 254.0;
/// Greatest dose ratio: beyond it, exposures that are wrong by 5e-4 of full dose could be a tenth of what marks.
pub const MOST_DOSE_RATIO: f64 = 200.0;

/// What is known of the drawing before any mark is looked at; in the caller's room.
struct Known<'w> {
    ink: Bitmap<'w>,
    /// Where the surface has no known height.
    unknown: Bitmap<'w>,
    parts: Parts<'w>,
    /// Centre-lines of the ink, and what lies deeper in it than they are looked for.
    centres: Bitmap<'w>,
    /// The ruler that reaches across every stroke.
    ruler: Ruler,
    shares: &'w mut [CentreShare],
}

impl<'a> PreflightPlan<'a> {
    /// Checks everything and surveys the spots.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for the numbers of the drawing, the answer, the dose ratio and the
    /// tolerance; then as [`ExposurePlan::new`].
    pub fn new(preflight: &Preflight<'a>, watch: &mut Watch<'_>) -> Result<Self, Error> {
        let Preflight { drawing, exposing, answer, dose_ratio, edge_tolerance, speck_area } = preflight;
        let drawing = drawing.checked()?;
        let answer = answer.checked()?;
        let (least, _) = Param::AnyDoseRatio.range();
        check_within(Param::AnyDoseRatio, *dose_ratio, least, MOST_DOSE_RATIO)?;
        let (pitch_x, pitch_y) = (drawing.pitch_x, drawing.pitch_y);
        let tolerance = Disc::new(*edge_tolerance, pitch_x, pitch_y, Param::EdgeTolerance)?;
        let speck_area = check(Param::SpeckArea, *speck_area)?;
        let bridge = match answer {
            Answer::Melt { bridge } if bridge > 0.0 => {
                Some(Disc::new(0.5 * bridge, pitch_x, pitch_y, Param::MeltBridge)?)
            }
            _ => None,
        };
        // Last, as it looks at every pixel.
        let exposure = ExposurePlan::new(&drawing, exposing, watch)?;
        let [least, most] = SHORT_REACH;
        let reach = math::ceil(REACH * exposure.most_pixels_per_radius());
        let reach = math::lesser(math::greater(reach, least), most);
        let pixel = math::lesser(pitch_x, pitch_y);
        let deeper = |pixels: f64| Disc::new(pixels * pixel, pitch_x, pitch_y, Param::PixelsPerRadius);
        Ok(Self {
            exposure,
            drawing,
            answer,
            dose_ratio: *dose_ratio,
            speck_pixels: least_pixels(speck_area, drawing.pixel_area()),
            tolerance,
            bridge,
            short: Ruler::new(pitch_x, pitch_y, reach as u8)?,
            long: depth_ruler(pitch_x, pitch_y)?,
            beyond_short: deeper(reach)?,
            beyond_long: deeper(WIDEST_DISC)?,
        })
    }

    /// The exposure's own plan.
    #[must_use]
    pub fn exposure(&self) -> &ExposurePlan<'a> {
        &self.exposure
    }

    fn size(&self) -> (usize, usize) {
        (self.drawing.width, self.drawing.height)
    }

    fn mask_words(&self) -> usize {
        words_in_row(self.drawing.width) * self.drawing.height
    }

    fn known_words(&self) -> usize {
        let (width, height) = self.size();
        3 * self.mask_words()
            + parts_words(width, height)
            + words_for::<CentreShare>(run_capacity(width, height))
    }

    /// 64-bit words of room that [`run`](Self::run) and [`dose_window`](Self::dose_window) need for so many threads, at
    /// least one.
    #[must_use]
    pub fn words(&self, threads: usize) -> usize {
        self.words_beside(self.exposure.words(threads), threads)
    }

    /// Room that is enough whatever the spot and the surface are, for a drawing of this size.
    pub(crate) fn most_words(&self, threads: usize) -> usize {
        self.words_beside(self.exposure.most_words(threads), threads)
    }

    fn words_beside(&self, exposing: usize, threads: usize) -> usize {
        let (width, height) = self.size();
        let threads = threads.max(1);
        let shared = [
            disc_words(width, height, &self.tolerance),
            disc_words(width, height, &self.beyond_short),
            disc_words(width, height, &self.beyond_long),
            centre_line_words(width, height, &self.long),
            widths_words(width, height, &self.long),
        ];
        let closing = self.bridge.as_ref().map_or(0, |disc| closed_words(width, height, disc));
        let alone = [
            // A mark that is tried, and the one before its gaps are closed.
            2 * self.mask_words() + closing,
            self.mask_words() + compare_words(width, height),
            find_regions_words(width, height, &self.long),
            MEDIAN_WORDS,
            exposing,
        ];
        let shared = shared.into_iter().fold(0, usize::max).saturating_mul(threads);
        // What lies deep within wide strokes is found beside their centre-lines.
        let shared = shared.saturating_add(self.mask_words());
        alone.into_iter().fold(shared, usize::max).saturating_add(self.known_words())
    }

    /// Exposes, marks, compares and reports.
    ///
    /// On any error the masks are clear, the exposure is 0 and no region or change is left.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] naming [`Param::Output`] for a slice that is not of the drawing's size, and
    /// [`Param::Workspace`] for too little room; [`Error::OutOfRange`] naming [`Param::PixelRuns`] for a drawing or a
    /// mark that is too intricate; [`Error::Stopped`].
    pub fn run(
        &self,
        output: &mut PreflightOutput<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Report, Error> {
        let report = self.ran(output, room, watch);
        if report.is_err() {
            output.clear();
        }
        report
    }

    fn ran(
        &self,
        output: &mut PreflightOutput<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Report, Error> {
        let (width, height) = self.size();
        output.check_size(width, height)?;
        output.clear_findings();
        let (own, room) = self.split(room)?;
        self.exposure.expose(output.exposure, room, &mut watch.part(0.0, 0.3))?;
        let mut known = self.know(own, room, &mut watch.part(0.3, 0.45))?;
        self.mark_at(
            self.level(),
            output.exposure,
            known.unknown,
            &mut output.mark,
            room,
            &mut watch.part(0.45, 0.5),
        )?;
        let mark = output.mark.view();

        lost(known.ink, mark, &self.tolerance, &mut output.lost, room, &mut watch.part(0.5, 0.55))?;
        filled(known.ink, mark, &self.tolerance, &mut output.filled, room, &mut watch.part(0.55, 0.6))?;
        let depths = &self.long;
        let (area, regions) = (output.lost.view(), &mut *output.lost_regions);
        let lost = find_regions(area, mark, Nearest::Set, depths, regions, room, &mut watch.part(0.6, 0.65))?;
        let (area, regions) = (output.filled.view(), &mut *output.filled_regions);
        let filled =
            find_regions(area, mark, Nearest::Clear, depths, regions, room, &mut watch.part(0.65, 0.7))?;

        let topology = compare(&known.parts, &mark, room, output.changes, &mut watch.part(0.7, 0.8))?;
        let starved = starved(&mut known, mark);
        let strokes = widths(known.ink, mark, Side::Ink, &known.ruler, room, &mut watch.part(0.8, 0.9))?;
        let gaps = widths(known.ink, mark, Side::Ground, &self.short, room, &mut watch.part(0.9, 1.0))?;
        let typical = median_along(known.centres, output.exposure, room)?;
        let report = self.report(&known, mark, topology, starved, (&strokes, &gaps), typical);
        Ok(Report { lost, filled, ..report })
    }

    /// The doses between which the drawing keeps what it shows, from the exposure of [`run`](Self::run).
    ///
    /// Each limit is on the safe side and within 0.1 % of where it changes among the levels of the exposure map, which
    /// are 1/32 768 of full dose apart; with the error of the map of at most 5e-4, a limit at a dose ratio of q may be
    /// wrong by the share 5e-4·q.
    ///
    /// # Errors
    /// As [`run`](Self::run).
    pub fn dose_window(
        &self,
        exposure: &[u16],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<DoseWindow, Error> {
        let (width, height) = self.size();
        check_length(Param::Output, exposure.len(), width * height)?;
        let (own, room) = self.split(room)?;
        let mut known = self.know(own, room, &mut watch.part(0.0, 0.05))?;
        find_window(self.answer.least_dose(), &mut watch.part(0.05, 1.0), |level, watch| {
            self.faults_at(level, exposure, &mut known, room, watch)
        })
    }

    /// Least exposure that marks at the dose of the preflight.
    fn level(&self) -> u32 {
        least_level(self.dose_ratio, &self.answer)
    }

    /// The room for what is known of the drawing, and the rest.
    fn split<'w>(&self, room: &'w mut [u64]) -> Result<(&'w mut [u64], &'w mut [u64]), Error> {
        let (value, expected) = (room.len(), self.words(1));
        if value < expected {
            return Err(Error::LengthMismatch { param: Param::Workspace, value, expected });
        }
        Ok(room.split_at_mut(self.known_words()))
    }

    /// Finds what is known of the drawing before any mark is looked at. Ink without a known height is left out.
    fn know<'w>(
        &self,
        own: &'w mut [u64],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Known<'w>, Error> {
        let (width, height) = self.size();
        let mut own = Workspace::new(own, self.known_words())?;
        let [ink, unknown, centres] =
            [own.take(self.mask_words())?, own.take(self.mask_words())?, own.take(self.mask_words())?];
        let shares = own.take(run_capacity(width, height))?;
        let mut mask = BitmapMut::new(unknown, width, height)?;
        self.exposure.unknown(&mut mask, &mut watch.part(0.0, 0.1))?;
        let mut mask = BitmapMut::new(ink, width, height)?;
        self.drawing.ink_in_bands(&mut mask, room, &mut watch.part(0.1, 0.15))?;
        for (ink, unknown) in ink.iter_mut().zip(&*unknown) {
            *ink &= !unknown;
        }
        let ink = Bitmap::new(ink, width, height)?;
        let mut parts = find_parts(&ink, own.into_rest(), &mut watch.part(0.15, 0.45))?;
        // Every part has a pixel.
        if self.speck_pixels > 1 {
            parts.ignore_specks(self.speck_pixels, room, &mut watch.part(0.45, 0.5))?;
        }
        let ruler = self.find_centres(
            ink,
            &mut BitmapMut::new(centres, width, height)?,
            room,
            &mut watch.part(0.5, 1.0),
        )?;
        let shares = shares.get_mut(..parts.ink.counting() as usize).unwrap_or_default();
        Ok(Known {
            ink,
            unknown: Bitmap::new(unknown, width, height)?,
            parts,
            centres: Bitmap::new(centres, width, height)?,
            ruler,
            shares,
        })
    }

    /// Finds the centre-lines of the ink, and what lies deeper within it than they are looked for: all of that is in the
    /// middle. Tells the ruler that reaches across every stroke, if any does.
    fn find_centres(
        &self,
        ink: Bitmap<'_>,
        centres: &mut BitmapMut<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Ruler, Error> {
        let (deep, room) = room.split_at_mut(self.mask_words().min(room.len()));
        let mut deep = BitmapMut::new(deep, self.drawing.width, self.drawing.height)?;
        let deeper_than = |disc: &Disc, deep: &mut BitmapMut<'_>, room: &mut [u64], watch: &mut Watch<'_>| {
            beyond_disc_where(ink, Nearest::Clear, disc, deep, room, watch)
        };
        deeper_than(&self.beyond_short, &mut deep, room, &mut watch.part(0.0, 0.2))?;
        let ruler = if deep.view().count() == 0 {
            self.short
        } else {
            deeper_than(&self.beyond_long, &mut deep, room, &mut watch.part(0.2, 0.4))?;
            self.long
        };
        centre_line(ink, Side::Ink, &ruler, centres, room, &mut watch.part(0.4, 1.0))?;
        for (centre, deep) in centres.words_mut().iter_mut().zip(deep.view().words()) {
            *centre |= deep;
        }
        Ok(ruler)
    }

    /// The mark of this least exposure.
    fn mark_at(
        &self,
        level: u32,
        exposure: &[u16],
        unknown: Bitmap<'_>,
        mark: &mut BitmapMut<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        mark_from(exposure, level, mark, room, &mut watch.part(0.0, 0.2))?;
        let Some(bridge) = &self.bridge else { return Ok(()) };
        let (width, height) = self.size();
        let (open, room) = room.split_at_mut(self.mask_words().min(room.len()));
        open.copy_from_slice(mark.view().words());
        closed(Bitmap::new(open, width, height)?, bridge, mark, room, &mut watch.part(0.2, 1.0))?;
        // A bridge may reach where nothing is known.
        for (mark, unknown) in mark.words_mut().iter_mut().zip(unknown.words()) {
            *mark &= !unknown;
        }
        Ok(())
    }

    fn report(
        &self,
        known: &Known<'_>,
        mark: Bitmap<'_>,
        topology: Topology,
        starved: u32,
        (strokes, gaps): (&Widths, &Widths),
        typical_stroke_exposure: f64,
    ) -> Report {
        let count = |pixels: fn(u64, u64) -> u64| -> u64 {
            known
                .ink
                .words()
                .iter()
                .zip(mark.words())
                .map(|(&ink, &mark)| u64::from(pixels(ink, mark).count_ones()))
                .sum()
        };
        Report {
            ink_pixels: known.ink.count(),
            mark_pixels: mark.count(),
            missing_pixels: count(|ink, mark| ink & !mark),
            extra_pixels: count(|ink, mark| mark & !ink),
            pixel_area: self.drawing.pixel_area(),
            edge_tolerance: self.tolerance.radius(),
            lost: RegionTotals::default(),
            filled: RegionTotals::default(),
            topology,
            components_starved: starved,
            stroke_centres: strokes.total(),
            gap_centres: gaps.total(),
            smallest_stroke_kept: strokes.smallest_kept(1.0).unwrap_or(f64::NAN),
            largest_stroke_lost: strokes.largest_lost(1.0).unwrap_or(f64::NAN),
            smallest_gap_kept: gaps.smallest_kept(1.0).unwrap_or(f64::NAN),
            largest_gap_lost: gaps.largest_lost(1.0).unwrap_or(f64::NAN),
            typical_stroke_exposure,
            spots: *self.exposure.ink_spots(),
            pixels_per_radius: self.exposure.pixels_per_radius(),
            expected_error: self.exposure.expected_error(),
            too_few_pixels: self.exposure.too_few_pixels(),
            cone: self.exposure.cone(),
        }
    }

    /// What the mark at the dose of the preflight does not keep. Writes the exposure.
    pub(crate) fn faults(
        &self,
        exposure: &mut [u16],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Faults, Error> {
        let (own, room) = self.split(room)?;
        self.exposure.expose(exposure, room, &mut watch.part(0.0, 0.5))?;
        let mut known = self.know(own, room, &mut watch.part(0.5, 0.7))?;
        self.faults_at(self.level(), exposure, &mut known, room, &mut watch.part(0.7, 1.0))
    }

    /// What the mark of this least exposure does not keep.
    fn faults_at(
        &self,
        level: u32,
        exposure: &[u16],
        known: &mut Known<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Faults, Error> {
        let (width, height) = self.size();
        let (mask, room) = room.split_at_mut(self.mask_words().min(room.len()));
        let mut mark = BitmapMut::new(mask, width, height)?;
        self.mark_at(level, exposure, known.unknown, &mut mark, room, &mut watch.part(0.0, 0.4))?;
        let topology = compare(&known.parts, &mark.view(), room, &mut [], &mut watch.part(0.4, 1.0))?;
        let starved = starved(known, mark.view());
        Ok(Faults {
            broken: broken(&topology, starved),
            filled: topology.holes_closed > 0,
            touching: topology.components_merged > 0,
        })
    }
}

impl PreflightOutput<'_> {
    /// Leaves nothing of an earlier run.
    fn clear(&mut self) {
        self.exposure.fill(0);
        for mask in [&mut self.mark, &mut self.lost, &mut self.filled] {
            mask.words_mut().fill(0);
        }
        self.clear_findings();
    }

    fn clear_findings(&mut self) {
        for regions in [&mut *self.lost_regions, &mut *self.filled_regions] {
            regions.fill(Region::default());
        }
        self.changes.fill(Change::NONE);
    }

    fn check_size(&self, width: usize, height: usize) -> Result<(), Error> {
        check_length(Param::Output, self.exposure.len(), width * height)?;
        for mask in [&self.mark, &self.lost, &self.filled] {
            let mask = mask.view();
            if mask.width() != width || mask.height() != height {
                check_length(Param::Output, mask.width() * mask.height(), width * height)?;
                check_length(Param::Output, mask.width(), width)?;
            }
        }
        Ok(())
    }
}

/// Pieces that are no specks of which less than half of the centre-line is marked.
fn starved(known: &mut Known<'_>, mark: Bitmap<'_>) -> u32 {
    known.shares.fill(CentreShare::default());
    for y in 0..mark.height() {
        let runs = known.parts.ink.row(y).map(|run| (run.start, run.end, run.label));
        add_component_shares(known.centres.row(y), mark.row(y), runs, known.shares);
    }
    starved_components(known.shares) as u32
}
