//! The whole preflight: drawing in, mark and findings out.
//!
//! The data's way: [`ExposurePlan::expose`] gives the exposure of every pixel, [`Answer`] says which of them mark, and
//! the mark is held against the drawing: areas beyond a tolerance, pieces and holes, centre-lines, widths. The dose
//! window repeats the last steps for other doses over the same exposure.

use super::bands::{Bands, Sum};
use super::bitmap::{Bitmap, BitmapMut, words_in_row};
use super::changes::Change;
use super::disc::{Disc, closed, closed_words, disc_words, filled, lost};
use super::distance::Ruler;
use super::dose_window::{DoseWindow, Faults, find_window};
use super::exposure::ExposurePlan;
use super::mark::{Answer, least_level, mark_from};
use super::median::{MEDIAN_WORDS, median_along};
use super::regions::{Region, RegionTotals};
use super::report::{Report, broken, depth_ruler, find_regions, find_regions_words};
use super::runs::{rows_at_a_time, run_capacity};
use super::specks::least_pixels;
use super::strokes::{
    CentreShare, Middles, Widths, add_component_shares, middles, starved_components, widths, widths_words,
};
use super::topology::{Parts, Topology, compare, compare_words, find_parts, parts_words};
use super::watch::Watch;
use super::workspace::{Workspace, words_for};
use super::{Drawing, Exposing, Nearest, Side};
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
    pub(super) exposure: ExposurePlan<'a>,
    pub(super) drawing: Drawing<'a>,
    pub(super) answer: Answer,
    pub(super) dose_ratio: f64,
    /// Pixels below which a piece or a hole is a speck.
    speck_pixels: u32,
    tolerance: Disc,
    /// What closes the gaps of a melt.
    pub(super) bridge: Option<Disc>,
    /// For centre-lines where no stroke, or gap, is more than six spot radii wide.
    pub(super) short: Ruler,
    /// For centre-lines of wider strokes, and for depths.
    pub(super) long: Ruler,
}

/// Spot radii that the short ruler of centre-lines reaches.
const REACH: f64 = 3.0;
/// Least and greatest reach of that ruler in pixels.
const SHORT_REACH: [f64; 2] = [8.0, 254.0];
/// Greatest dose ratio: beyond it, exposures that are wrong by 5e-4 of full dose could be a tenth of what marks.
pub const MOST_DOSE_RATIO: f64 = 200.0;

/// What is known of the drawing before any mark is looked at; in the caller's room.
pub(super) struct Known<'w> {
    pub(super) ink: Bitmap<'w>,
    /// Where the surface has no known height.
    pub(super) unknown: Bitmap<'w>,
    pub(super) parts: Parts<'w>,
    /// What is in the middle of the ink, once it is found.
    pub(super) centres: BitmapMut<'w>,
    pub(super) shares: &'w mut [CentreShare],
}

impl<'a> PreflightPlan<'a> {
    /// Checks everything and surveys the spots.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for the numbers of the drawing, the answer, the dose ratio and the
    /// tolerance; then as [`ExposurePlan::new`].
    pub fn new(preflight: &Preflight<'a>, watch: &mut Watch<'_>) -> Result<Self, Error> {
        Self::by(preflight, |drawing, exposing| ExposurePlan::new(drawing, exposing, watch))
    }

    /// As [`new`](Self::new), with a plan of the exposure that is made in this way.
    pub(super) fn by(
        preflight: &Preflight<'a>,
        plan: impl FnOnce(&Drawing<'a>, &Exposing<'a>) -> Result<ExposurePlan<'a>, Error>,
    ) -> Result<Self, Error> {
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
        // Last, as it may look at every pixel.
        let exposure = plan(&drawing, exposing)?;
        let [least, most] = SHORT_REACH;
        let reach = math::ceil(REACH * exposure.most_pixels_per_radius());
        let reach = math::lesser(math::greater(reach, least), most);
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
        })
    }

    /// The exposure's own plan.
    #[must_use]
    pub fn exposure(&self) -> &ExposurePlan<'a> {
        &self.exposure
    }

    pub(super) fn size(&self) -> (usize, usize) {
        (self.drawing.width, self.drawing.height)
    }

    pub(super) fn mask_words(&self) -> usize {
        words_in_row(self.drawing.width) * self.drawing.height
    }

    pub(super) fn known_words(&self) -> usize {
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
        let shared = [disc_words(width, height, &self.tolerance), widths_words(width, height, &self.long)];
        let closing = self.bridge.as_ref().map_or(0, |disc| closed_words(width, height, disc));
        let alone = [
            // A mark that is tried, and the one before its gaps are closed.
            2 * self.mask_words() + closing,
            // Ink and ground are compared side by side.
            self.mask_words() + threads.min(2) * compare_words(width, height),
            find_regions_words(width, height, &self.long),
            MEDIAN_WORDS,
            exposing,
        ];
        let shared = shared.into_iter().fold(0, usize::max).saturating_mul(threads);
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
        self.exposure.expose(output.exposure, room, &mut watch.part(0.0, 0.32))?;
        let mut known = self.know(own, room, &mut watch.part(0.32, 0.38))?;
        let (exposure, unknown) = (&*output.exposure, known.unknown);
        let part = &mut watch.part(0.38, 0.42);
        self.mark_at(self.level(), exposure, unknown, &mut output.mark, room, part)?;
        let mark = output.mark.view();
        let strokes = self.find_centres(&mut known, Some(mark), room, &mut watch.part(0.42, 0.56))?;

        lost(known.ink, mark, &self.tolerance, &mut output.lost, room, &mut watch.part(0.56, 0.58))?;
        filled(known.ink, mark, &self.tolerance, &mut output.filled, room, &mut watch.part(0.58, 0.63))?;
        let depths = &self.long;
        let (area, regions) = (output.lost.view(), &mut *output.lost_regions);
        let lost =
            find_regions(area, mark, Nearest::Set, depths, regions, room, &mut watch.part(0.63, 0.65))?;
        let (area, regions) = (output.filled.view(), &mut *output.filled_regions);
        let filled =
            find_regions(area, mark, Nearest::Clear, depths, regions, room, &mut watch.part(0.65, 0.68))?;

        let topology = compare(&known.parts, &mark, room, output.changes, &mut watch.part(0.68, 0.73))?;
        let gaps = widths(known.ink, mark, Side::Ground, &self.short, room, &mut watch.part(0.73, 0.97))?;
        let starved = starved(&mut known, mark, &mut watch.part(0.97, 0.98))?;
        let pixels = Pixels::count(known.ink, mark, room, &mut watch.part(0.98, 0.99))?;
        let (centres, watch) = (known.centres.view(), &mut watch.part(0.99, 1.0));
        let typical = median_along(centres, exposure, room, watch)?;
        let report = self.report(&pixels, topology, starved, (&strokes, &gaps), typical);
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
        let mut known = self.know(own, room, &mut watch.part(0.0, 0.02))?;
        self.find_centres(&mut known, None, room, &mut watch.part(0.02, 0.05))?;
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
    pub(super) fn know<'w>(
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
        self.drawing.ink_in_bands(&mut mask, room, &mut watch.part(0.1, 0.5))?;
        for (ink, unknown) in ink.iter_mut().zip(&*unknown) {
            *ink &= !unknown;
        }
        let ink = Bitmap::new(ink, width, height)?;
        let mut parts = find_parts(&ink, own.into_rest(), &mut watch.part(0.5, 0.9))?;
        // Every part has a pixel.
        if self.speck_pixels > 1 {
            parts.ignore_specks(self.speck_pixels, room, &mut watch.part(0.9, 1.0))?;
        }
        let shares = shares.get_mut(..parts.ink.counting() as usize).unwrap_or_default();
        Ok(Known {
            ink,
            unknown: Bitmap::new(unknown, width, height)?,
            parts,
            centres: BitmapMut::new(centres, width, height)?,
            shares,
        })
    }

    /// Finds what is in the middle of the ink, with the ruler that reaches across every stroke, if any does; and what a
    /// mark keeps of it by the width of the stroke.
    fn find_centres(
        &self,
        known: &mut Known<'_>,
        mark: Option<Bitmap<'_>>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Widths, Error> {
        let mut found = Middles::default();
        for (ruler, (from, to)) in [(&self.short, (0.0, 0.9)), (&self.long, (0.9, 1.0))] {
            found = middles(known.ink, mark, ruler, &mut known.centres, room, &mut watch.part(from, to))?;
            if found.deep == 0 {
                break;
            }
        }
        Ok(found.widths)
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
        let marking = if self.bridge.is_some() { 0.2 } else { 1.0 };
        mark_from(exposure, level, mark, room, &mut watch.part(0.0, marking))?;
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
        pixels: &Pixels,
        topology: Topology,
        starved: u32,
        (strokes, gaps): (&Widths, &Widths),
        typical_stroke_exposure: f64,
    ) -> Report {
        Report {
            ink_pixels: pixels.ink,
            mark_pixels: pixels.mark,
            missing_pixels: pixels.missing,
            extra_pixels: pixels.extra,
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
        let mut known = self.know(own, room, &mut watch.part(0.5, 0.6))?;
        self.find_centres(&mut known, None, room, &mut watch.part(0.6, 0.7))?;
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
        let topology = compare(&known.parts, &mark.view(), room, &mut [], &mut watch.part(0.4, 0.9))?;
        let starved = starved(known, mark.view(), &mut watch.part(0.9, 1.0))?;
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

/// How many pixels are ink, and marked, and only one of both.
#[derive(Default)]
struct Pixels {
    ink: u64,
    mark: u64,
    missing: u64,
    extra: u64,
}

impl Sum for Pixels {
    fn add(&mut self, other: Pixels) {
        self.ink += other.ink;
        self.mark += other.mark;
        self.missing += other.missing;
        self.extra += other.extra;
    }
}

impl Pixels {
    /// Takes one word of room for each thread.
    fn count(
        ink: Bitmap<'_>,
        mark: Bitmap<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Self, Error> {
        Bands::of(ink.width(), ink.height(), 1, 1).read(room, watch, |rows, _, _| {
            let mut pixels = Pixels::default();
            for (ink, mark) in rows.flat_map(|y| ink.row(y).iter().zip(mark.row(y))) {
                pixels.ink += u64::from(ink.count_ones());
                pixels.mark += u64::from(mark.count_ones());
                pixels.missing += u64::from((ink & !mark).count_ones());
                pixels.extra += u64::from((mark & !ink).count_ones());
            }
            Ok(pixels)
        })
    }
}

/// Pieces that are no specks of which less than half of the centre-line is marked.
pub(super) fn starved(known: &mut Known<'_>, mark: Bitmap<'_>, watch: &mut Watch<'_>) -> Result<u32, Error> {
    known.shares.fill(CentreShare::default());
    let centres = known.centres.view();
    let height = mark.height();
    let piece = rows_at_a_time(mark.width());
    for first in (0..height).step_by(piece) {
        for y in first..height.min(first + piece) {
            let runs = known.parts.ink.row(y).map(|run| (run.start, run.end, run.label));
            add_component_shares(centres.row(y), mark.row(y), runs, known.shares);
        }
        watch.done(first as f64 / height as f64)?;
    }
    Ok(starved_components(known.shares) as u32)
}
