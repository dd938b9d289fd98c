//! What would help: how far focus may stray, how small the drawing may be, and which beam serves it best.
//!
//! Each answer is found by trying: the drawing is exposed and marked anew, and looked at for faults, as a
//! [`PreflightPlan`] does. Between a try that holds and one that does not, halving closes in. What is told is always a
//! try that held.
//!
//! A try whose scan lines lie farther apart than the model takes, 2.5 of its least spot radius, does not hold: its fills
//! come apart into lines. A drawing that is so as it is, is refused.

use super::dose_window::DoseWindow;
use super::drawing::DrawingUse;
use super::preflight::{Preflight, PreflightPlan};
use super::scan::Scan;
use super::spot_map::SpotMap;
use super::watch::Watch;
use crate::error::{Error, Param, check_length};
use crate::model::math;
use crate::model::optics::{Beam, beam_parameters};

/// What must hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Demand {
    /// Strokes whole and counters open. Code 1.
    Legible,
    /// Neighbours apart as well. Code 2.
    Apart,
}

impl Demand {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(self) -> u32 {
        match self {
            Self::Legible => 1,
            Self::Apart => 2,
        }
    }

    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub const fn from_code(code: u32) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Legible),
            2 => Ok(Self::Apart),
            value => Err(Error::UnknownChoice { param: Param::Demand, value }),
        }
    }
}

/// Room for trying: the exposure of every pixel, and 64-bit words to work in.
#[derive(Debug)]
pub struct TrialRoom<'r> {
    /// One number for each pixel.
    pub exposure: &'r mut [u16],
    /// As many words as the function's own `…_words` says.
    pub words: &'r mut [u64],
}

/// How far focus may be moved before the drawing no longer holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusReach {
    /// Farthest that the waist may lie nearer to the lens than it is, in metres; NaN if the drawing does not hold as it
    /// is.
    pub toward_lens: f64,
    /// Farthest that it may lie farther from the lens; NaN likewise.
    pub away_from_lens: f64,
    /// Whether it held as far toward the lens as was tried.
    pub toward_lens_is_open: bool,
    /// Whether it held as far away from the lens as was tried.
    pub away_from_lens_is_open: bool,
}

/// Steps of a quarter Rayleigh range that are tried to each side.
const FOCUS_STEPS: u32 = 16;
/// Halvings of the step in which holding ends: to 1/128 of the Rayleigh range.
const FOCUS_HALVINGS: u32 = 5;

impl<'a> Preflight<'a> {
    fn with_focus(&self, focus_z: f64) -> Self {
        let mut other = *self;
        other.exposing.focus_z = focus_z;
        other
    }

    fn with_beam(&self, beam: Beam, focus_z: f64) -> Self {
        let mut other = self.with_focus(focus_z);
        other.exposing.beam = beam;
        other
    }

    /// The drawing made larger or smaller about its middle. The lines of a raster that is burnt as it is go with its rows.
    fn scaled(&self, scale: f64) -> Self {
        let mut other = *self;
        let drawing = &mut other.drawing;
        let (width, height) =
            (drawing.width as f64 * drawing.pitch_x, drawing.height as f64 * drawing.pitch_y);
        drawing.left_x += 0.5 * width * (1.0 - scale);
        drawing.top_y += 0.5 * height * (1.0 - scale);
        drawing.pitch_x *= scale;
        drawing.pitch_y *= scale;
        if let (DrawingUse::BurntRaster, Scan::AlongRows { line_interval, first_line }) =
            (drawing.drawing_use, &mut other.exposing.scan)
        {
            *line_interval *= scale;
            *first_line *= scale;
        }
        // What is a speck of the drawing stays one.
        other.speck_area *= scale * scale;
        other
    }

    /// Whether the drawing holds as it is, with at most so many pixels of ink of unknown height: of these nothing can be
    /// said.
    fn holds(
        &self,
        demand: Demand,
        most_unknown: u64,
        room: &mut TrialRoom<'_>,
        watch: &mut Watch<'_>,
    ) -> Result<bool, Error> {
        let plan = match self.plan(&mut watch.part(0.0, 0.1)) {
            Err(error) if lines_are_too_far_apart(&error) => return Ok(false),
            plan => plan?,
        };
        if plan.exposure().ink_spots().unknown_ink_pixels > most_unknown {
            return Ok(false);
        }
        let faults = plan.faults(room.exposure, room.words, &mut watch.part(0.1, 1.0))?;
        Ok(!faults.broken && !faults.filled && (demand == Demand::Legible || !faults.touching))
    }

    /// Room for a try: enough for any spot, as that of a spot between two others may be more than either's.
    fn words(&self, threads: usize, watch: &mut Watch<'_>) -> Result<usize, Error> {
        let plan = match self.plan(&mut watch.part(0.0, 0.5)) {
            // This is not tried, but what lies between it and another may be. Lines take no room.
            Err(error) if lines_are_too_far_apart(&error) => {
                let mut other = *self;
                other.exposing.scan = Scan::Unknown;
                other.plan(&mut watch.part(0.5, 1.0))?
            }
            plan => plan?,
        };
        Ok(plan.most_words(threads))
    }

    /// The plan of a try, in which the tolerance of edges plays no part.
    fn plan(&self, watch: &mut Watch<'_>) -> Result<PreflightPlan<'a>, Error> {
        let mut other = *self;
        other.edge_tolerance = 0.0;
        PreflightPlan::new(&other, watch)
    }

    /// Pixels of ink of unknown height.
    fn unknown_ink(&self, watch: &mut Watch<'_>) -> Result<u64, Error> {
        Ok(self.plan(watch)?.exposure().ink_spots().unknown_ink_pixels)
    }
}

/// Whether scan lines are the reason for which the model does not take a try.
fn lines_are_too_far_apart(error: &Error) -> bool {
    matches!(error, Error::OutsideModel { param: Param::LineInterval, .. })
}

/// 64-bit words of room that [`focus_reach`] needs for so many threads.
///
/// # Errors
/// As [`focus_reach`].
pub fn focus_reach_words(
    preflight: &Preflight<'_>,
    threads: usize,
    watch: &mut Watch<'_>,
) -> Result<usize, Error> {
    let farthest = f64::from(FOCUS_STEPS) * focus_step(&preflight.exposing.beam)?;
    let ends = [-farthest, farthest].map(|offset| preflight.with_focus(preflight.exposing.focus_z + offset));
    let mut words = preflight.plan(&mut watch.part(0.0, 1.0 / 3.0))?.most_words(threads);
    for (number, end) in (1_u32..).zip(ends) {
        let share = f64::from(number) / 3.0;
        words = words.max(end.words(threads, &mut watch.part(share, share + 1.0 / 3.0))?);
    }
    Ok(words)
}

fn focus_step(beam: &Beam) -> Result<f64, Error> {
    Ok(0.25 * beam_parameters(beam)?.rayleigh_range)
}

/// How far the focus may be moved to either side before the drawing no longer holds at its dose.
///
/// Steps of a quarter Rayleigh range, up to four Rayleigh ranges, find the first that does not hold; halving
/// then finds the end to 1/128 of it. Where scan lines lie farther apart than 2.5 of the least spot radius, which may be
/// so nearer to focus only, the drawing does not hold.
///
/// # Errors
/// As [`PreflightPlan::new`] and [`PreflightPlan::run`]. The focus may not be moved out of the range of
/// [`Param::FocusZ`].
pub fn focus_reach(
    preflight: &Preflight<'_>,
    demand: Demand,
    room: &mut TrialRoom<'_>,
    watch: &mut Watch<'_>,
) -> Result<FocusReach, Error> {
    let step = focus_step(&preflight.exposing.beam)?;
    let unknown = preflight.unknown_ink(&mut watch.part(0.0, 0.02))?;
    let watch = &mut watch.part(0.02, 1.0);
    let mut tries = Tries::new(1 + 2 * (FOCUS_STEPS + FOCUS_HALVINGS), watch);
    if !tries.next(|watch| preflight.holds(demand, unknown, room, watch))? {
        let nowhere = f64::NAN;
        return Ok(FocusReach {
            toward_lens: nowhere,
            away_from_lens: nowhere,
            toward_lens_is_open: false,
            away_from_lens_is_open: false,
        });
    }
    let mut one_side = |sign: f64| -> Result<(f64, bool), Error> {
        let mut holds = |steps: f64| {
            let moved = preflight.with_focus(preflight.exposing.focus_z + sign * steps * step);
            tries.next(|watch| moved.holds(demand, unknown, room, watch))
        };
        let mut held = 0.0;
        for steps in 1..=FOCUS_STEPS {
            if !holds(f64::from(steps))? {
                let end = halve(held, f64::from(steps), FOCUS_HALVINGS, &mut holds)?;
                return Ok((end * step, false));
            }
            held = f64::from(steps);
        }
        Ok((held * step, true))
    };
    let (toward_lens, toward_lens_is_open) = one_side(-1.0)?;
    let (away_from_lens, away_from_lens_is_open) = one_side(1.0)?;
    Ok(FocusReach { toward_lens, away_from_lens, toward_lens_is_open, away_from_lens_is_open })
}

/// The height of the waist that makes the greatest spot over the ink least: half-way between the highest and the lowest
/// place with ink, as the spot grows alike to both sides.
///
/// # Errors
/// As [`ExposurePlan::new`](super::ExposurePlan::new); [`Error::Undetermined`] naming [`Param::InkPixels`] for a drawing
/// without ink of known height.
pub fn best_focus_z(preflight: &Preflight<'_>, watch: &mut Watch<'_>) -> Result<f64, Error> {
    let drawing = preflight.drawing.checked()?;
    let (least, greatest) = SpotMap::checked(&drawing, &preflight.exposing)?.ink_heights(&drawing, watch)?;
    if least <= greatest {
        Ok(0.5 * (least + greatest))
    } else {
        let (least, greatest) = Param::InkPixels.range();
        Err(Error::Undetermined { param: Param::InkPixels, value: 0.0, least, greatest })
    }
}

/// Octaves of the smallest and of the largest scale that is tried, and in what steps.
const OCTAVES: f64 = 2.0;
const OCTAVE_STEP: f64 = 0.5;
/// Halvings of a step: to 1.1 % of the scale.
const SCALE_HALVINGS: u32 = 5;

/// The farthest of the octaves to one side that the model takes: far enough from one, pixels are too fine or too coarse
/// for the spot, a bridge too wide for the pixels, or specks too large.
fn farthest_octaves(preflight: &Preflight<'_>, side: f64, watch: &mut Watch<'_>) -> Result<f64, Error> {
    let mut octaves = OCTAVES;
    while octaves > 0.0 {
        match preflight.scaled(math::pow(2.0, side * octaves)).plan(&mut watch.part(0.0, 0.0)) {
            Ok(_) => break,
            // It is tried, and does not hold.
            Err(error) if lines_are_too_far_apart(&error) => break,
            Err(stopped @ Error::Stopped { .. }) => return Err(stopped),
            Err(_) => octaves -= OCTAVE_STEP,
        }
    }
    Ok(side * octaves)
}

/// 64-bit words of room that [`smallest_scale`] needs for so many threads.
///
/// # Errors
/// As [`smallest_scale`].
pub fn smallest_scale_words(
    preflight: &Preflight<'_>,
    threads: usize,
    watch: &mut Watch<'_>,
) -> Result<usize, Error> {
    let mut words = preflight.plan(&mut watch.part(0.0, 0.2))?.most_words(threads);
    for (side, from) in [(-1.0, 0.2), (1.0, 0.6)] {
        let octaves = farthest_octaves(preflight, side, &mut watch.part(from, from + 0.1))?;
        let scaled = preflight.scaled(math::pow(2.0, octaves));
        words = words.max(scaled.words(threads, &mut watch.part(from + 0.1, from + 0.4))?);
    }
    Ok(words)
}

/// The smallest scale of the drawing about its middle at which it holds, 0.25 to 4, to 1.1 %; above 1 it must be made
/// larger. Steps of half an octave, down from 1 if it holds there and up if not, find where that changes; 0.25 if it
/// holds down to that, NaN if it holds nowhere up to 4. Where the model does not take these, because of the pixels, a
/// bridge or the area of specks, the ends are nearer to 1.
///
/// The lines of a raster that is burnt as it is go with its rows, and the dose ratio stays that of its fills; those of
/// other drawings stay as they are. Specks keep their pixels. The tolerance of edges plays no part in it. The pixels grow
/// with the drawing: far above 1 they may be too coarse. A drawing that reaches places of unknown height that it did not
/// reach before does not hold.
///
/// # Errors
/// As [`PreflightPlan::new`] and [`PreflightPlan::run`].
pub fn smallest_scale(
    preflight: &Preflight<'_>,
    demand: Demand,
    room: &mut TrialRoom<'_>,
    watch: &mut Watch<'_>,
) -> Result<f64, Error> {
    let unknown = preflight.unknown_ink(&mut watch.part(0.0, 0.02))?;
    let smallest = farthest_octaves(preflight, -1.0, &mut watch.part(0.02, 0.04))?;
    let largest = farthest_octaves(preflight, 1.0, &mut watch.part(0.04, 0.06))?;
    let watch = &mut watch.part(0.06, 1.0);
    let mut tries = Tries::new(1 + (OCTAVES / OCTAVE_STEP) as u32 + SCALE_HALVINGS, watch);
    let mut holds = |octaves: f64| {
        let scaled = preflight.scaled(math::pow(2.0, octaves));
        tries.next(|watch| scaled.holds(demand, unknown, room, watch))
    };
    if holds(0.0)? {
        // Ever smaller, up to the first that does not hold.
        let mut held = 0.0;
        while held > smallest {
            let next = held - OCTAVE_STEP;
            if !holds(next)? {
                return Ok(math::pow(2.0, halve(held, next, SCALE_HALVINGS, &mut holds)?));
            }
            held = next;
        }
        return Ok(math::pow(2.0, held));
    }
    // Ever larger, up to the first that holds: one much larger may reach beyond the surface.
    let mut not = 0.0;
    while not < largest {
        let next = not + OCTAVE_STEP;
        if holds(next)? {
            return Ok(math::pow(2.0, halve(next, not, SCALE_HALVINGS, &mut holds)?));
        }
        not = next;
    }
    Ok(f64::NAN)
}

/// A beam to choose from, and where its waist would be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamCandidate {
    /// The focused beam.
    pub beam: Beam,
    /// Height of its waist in metres, + away from the lens.
    pub focus_z: f64,
}

/// What a candidate does for a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RankedBeam {
    /// Its place among the candidates, from 0.
    pub candidate: usize,
    /// The doses between which the drawing keeps what it shows.
    pub window: DoseWindow,
    /// Greatest spot **diameter** over the ink in metres.
    pub greatest_diameter: f64,
}

impl RankedBeam {
    /// Fills a slice before [`rank_beams`] writes to it.
    pub const NONE: Self = RankedBeam {
        candidate: 0,
        window: DoseWindow {
            least_dose_ratio: f64::NAN,
            greatest_dose_ratio: f64::NAN,
            greatest_dose_ratio_for_counters: f64::NAN,
        },
        greatest_diameter: f64::NAN,
    };

    /// Whether this one serves better.
    fn is_better_than(&self, other: &Self) -> bool {
        // NaN, where no dose keeps the strokes, is less than any window.
        let key = |beam: &Self| {
            [beam.window.ratio(), beam.window.ratio_for_counters()]
                .map(|ratio| if ratio.is_nan() { -1.0 } else { ratio })
        };
        let ([all, counters], [other_all, other_counters]) = (key(self), key(other));
        let (spot, other_spot) = (self.greatest_diameter, other.greatest_diameter);
        all > other_all
            || all == other_all
                && (counters > other_counters || counters == other_counters && spot < other_spot)
    }
}

/// 64-bit words of room that [`rank_beams`] needs for so many threads.
///
/// # Errors
/// As [`rank_beams`].
pub fn rank_beams_words(
    preflight: &Preflight<'_>,
    candidates: &[BeamCandidate],
    threads: usize,
    watch: &mut Watch<'_>,
) -> Result<usize, Error> {
    let mut words = 0;
    for (number, candidate) in candidates.iter().enumerate() {
        let share = |number: usize| number as f64 / candidates.len() as f64;
        let with = preflight.with_beam(candidate.beam, candidate.focus_z);
        words = words.max(with.words(threads, &mut watch.part(share(number), share(number + 1)))?);
    }
    Ok(words)
}

/// Ranks beams, say of several lenses, by the room that they leave the dose; the best comes first.
///
/// First comes the widest dose window for all, then for strokes and counters, then the smaller greatest spot; among
/// equals the earlier candidate. The dose of the preflight plays no part: each beam may need another. Of a beam so fine
/// that the scan lines lie farther apart than 2.5 of its radius all numbers are NaN, and it comes after the others.
///
/// # Errors
/// As [`PreflightPlan::new`] and [`PreflightPlan::run`], for any candidate; [`Error::LengthMismatch`] naming
/// [`Param::Output`] if `ranking` is not as long as `candidates`.
pub fn rank_beams(
    preflight: &Preflight<'_>,
    candidates: &[BeamCandidate],
    ranking: &mut [RankedBeam],
    room: &mut TrialRoom<'_>,
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    ranking.fill(RankedBeam::NONE);
    check_length(Param::Output, ranking.len(), candidates.len())?;
    let done = ranked(preflight, candidates, ranking, room, watch);
    if done.is_err() {
        ranking.fill(RankedBeam::NONE);
    }
    done
}

fn ranked(
    preflight: &Preflight<'_>,
    candidates: &[BeamCandidate],
    ranking: &mut [RankedBeam],
    room: &mut TrialRoom<'_>,
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    let mut tries = Tries::new(u32::try_from(candidates.len()).unwrap_or(u32::MAX), watch);
    for (number, candidate) in candidates.iter().enumerate() {
        let with = preflight.with_beam(candidate.beam, candidate.focus_z);
        let mut found = tries.next(|watch| {
            let plan = match with.plan(&mut watch.part(0.0, 0.05)) {
                Err(error) if lines_are_too_far_apart(&error) => {
                    return Ok(RankedBeam { candidate: number, ..RankedBeam::NONE });
                }
                plan => plan?,
            };
            plan.exposure().expose(room.exposure, room.words, &mut watch.part(0.05, 0.2))?;
            let window = plan.dose_window(room.exposure, room.words, &mut watch.part(0.2, 1.0))?;
            let greatest_diameter = plan.exposure().ink_spots().greatest_diameter;
            Ok(RankedBeam { candidate: number, window, greatest_diameter })
        })?;
        // Each takes its place among those before it, and the last of them the next place, which is still empty.
        for place in ranking.iter_mut().take(number) {
            if found.is_better_than(place) {
                core::mem::swap(place, &mut found);
            }
        }
        if let Some(place) = ranking.get_mut(number) {
            *place = found;
        }
    }
    Ok(())
}

/// Halves between a place that holds and one that does not, and tells the last that held.
fn halve(
    mut held: f64,
    mut not: f64,
    halvings: u32,
    holds: &mut impl FnMut(f64) -> Result<bool, Error>,
) -> Result<f64, Error> {
    for _ in 0..halvings {
        let middle = 0.5 * (held + not);
        if holds(middle)? {
            held = middle;
        } else {
            not = middle;
        }
    }
    Ok(held)
}

/// Tries, each an equal share of the watch.
struct Tries<'w, 'f> {
    watch: &'w mut Watch<'f>,
    most: u32,
    tried: u32,
}

impl<'w, 'f> Tries<'w, 'f> {
    fn new(most: u32, watch: &'w mut Watch<'f>) -> Self {
        Tries { watch, most, tried: 0 }
    }

    fn next<T>(&mut self, attempt: impl FnOnce(&mut Watch<'_>) -> Result<T, Error>) -> Result<T, Error> {
        let share = |tried: u32| f64::from(tried) / f64::from(self.most);
        let (from, to) = (share(self.tried), share(self.tried + 1));
        self.tried += 1;
        attempt(&mut self.watch.part(from, to))
    }
}
