//! Which lens serves a job best, why, and where another would.
//!
//! | symbol | meaning                                                           | unit | valid    |
//! |--------|-------------------------------------------------------------------|------|----------|
//! |        | rise, fall of the surface about its datum                         | m    | 0 … 1e3  |
//! | t      | set-up tolerance: half width of all errors of height together     | m    | 0 … 1e3  |
//! | h      | half span: how far the worst places lie from the waist            | m    | ≤ 1e3    |
//! | s      | working distance: from the head's lowest part to a flat in focus  | m    | 0 … 1e4  |
//! | z×     | offset at which the spots of two lenses are equally large         | m    |          |
//!
//! Every lens has its focus at mid-height of the surface, (fall − rise)/2 from the datum, where the larger of
//! the two end spots is least; then h = (rise + fall)/2 + t. What a lens does there is what
//! [`focus_check`] says of the same job on a surface that reaches h to either side of the waist. The clearance
//! left is s − h.
//!
//! The order, the best first:
//! 1. lenses that serve: every detail holds at the worst places and the clearance is enough;
//! 2. lenses of which only the clearance is too small;
//! 3. lenses with which a detail or the text is lost, the fill breaks up into its lines, or nothing marks;
//! 4. lenses whose light the model cannot follow.
//!
//! Within each, the smaller spot at the worst places goes first, then the greater depth of focus, then the one
//! that was named first. (Of the third kind that is the one which fails by least: the largest spot in which
//! details hold is one for all lenses of a job, except that lines which do not meet ask for a larger spot.)
//!
//! The first two in order swap their spots where their caustics cross, see
//! [`focus::crossing`](crate::model::focus::crossing): on a surface that spans 2·(z× − t) with the same
//! tolerance.
//!
//! A real lens is judged by its 86.5 %-power spot, an ideal one by 1/e²: for a Gaussian the two are one, and
//! a lens that is taken for ideal looks better than the same lens taken as it is. Compare like with like. What
//! [`focus_check`] does not model is not in the order either.

use super::check::{FocusSetting, Job, JobLens, Outcome, Place, Reasons, Verdict};
use super::check::{beam_of, check_all_but_lens, focus_check};
use super::focus::{Crossing, FocusRange, crossing_of};
use super::math::lesser;
use super::optics::{CheckedBeam, LensShape, check_clear_aperture};
use super::twofold::Twofold;
use crate::error::{Error, Param, check, within_model};
use crate::flags::flags;
use crate::validity::Validity;

/// The most lenses of one call.
pub const MOST_LENSES: usize = 8;

/// A lens that might serve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensCandidate {
    /// Focal length in metres, at the working wavelength.
    pub focal_length: f64,
    /// What else is known of the lens.
    pub lens: JobLens,
    /// From the lowest part of lens, mount and nozzle to a flat surface in focus, in metres. One greater than from
    /// the lens to its focus is flagged: [`LensReasons::WORKING_DISTANCE_BEYOND_FOCUS`].
    pub working_distance: f64,
}

/// What comes on top of the surface, and what must be left of the working distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetUp {
    /// Half width of all errors of height together in metres, not negative: it widens the surface at both ends. A
    /// [`tolerance_stack`](crate::model::surface::tolerance_stack) tells it, as the greater distance of its two ends,
    /// worst or expanded, from zero: its half width alone leaves the bias out.
    pub tolerance: f64,
    /// Least clearance over the highest place in metres, not negative.
    pub least_clearance: f64,
}

/// Why a lens stands where it does: a set of reasons. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LensReasons(u32);

flags!(LensReasons);

impl LensReasons {
    /// Every detail holds over the whole surface, tolerance included, and the clearance is enough.
    pub const SERVES: Self = Self(1);
    /// The finest stroke or gap is lost even in the waist.
    pub const SPOT_TOO_LARGE: Self = Self(2);
    /// Stroke and gap hold in the waist, but one is lost at the worst places.
    pub const DEPTH_TOO_SHORT: Self = Self(4);
    /// The text lacks its grade even in the waist.
    pub const TEXT_TOO_SMALL: Self = Self(8);
    /// The text keeps its grade in the waist, but not at the worst places.
    pub const TEXT_LOST_OFF_FOCUS: Self = Self(16);
    /// The lines of the fill leave gaps in the waist, where the spot is smallest.
    pub const FILL_HAS_GAPS: Self = Self(32);
    /// The dose is too little for the material.
    pub const NOTHING_MARKS: Self = Self(64);
    /// The worst places are outside the depth of focus.
    pub const OUT_OF_FOCUS: Self = Self(128);
    /// The clearance over the highest place is less than the least.
    pub const CLEARANCE_TOO_SMALL: Self = Self(256);
    /// The model cannot judge this lens on this job, its light, its fill or a collision with the surface; the entry
    /// says why.
    pub const REFUSED: Self = Self(512);
    /// No lens has a smaller spot in focus.
    pub const SMALLEST_IN_FOCUS: Self = Self(1024);
    /// No lens has a smaller spot at the worst places.
    pub const SMALLEST_ON_SURFACE: Self = Self(2048);
    /// No lens has a greater depth of focus.
    pub const DEEPEST: Self = Self(4096);
    /// The working distance is greater than from the lens to its focus. So it may be of a group of lenses, whose
    /// principal plane may lie below its mount; of a single lens one of the two lengths is wrong, and then the
    /// clearance is too. It does not change the order.
    pub const WORKING_DISTANCE_BEYOND_FOCUS: Self = Self(8192);

    /// Every reason, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 14] = [
        (
            Self::SERVES,
            "It serves: every detail holds over the whole surface, tolerance included, and the clearance is enough.",
        ),
        (
            Self::SPOT_TOO_LARGE,
            "Its spot is too large for the finest stroke or gap even in perfect focus: a shorter lens or a larger raw beam makes it smaller.",
        ),
        (
            Self::DEPTH_TOO_SHORT,
            "Its spot holds the finest stroke and gap in focus but not at the ends of the surface: a flatter part or less tolerance would help, and a longer lens may.",
        ),
        (Self::TEXT_TOO_SMALL, "The text is too small for its spot even in perfect focus."),
        (Self::TEXT_LOST_OFF_FOCUS, "The text keeps its grade in focus but not at the ends of the surface."),
        (Self::FILL_HAS_GAPS, "Its spot is so small that the lines of the fill leave gaps in focus."),
        (Self::NOTHING_MARKS, "The dose is too little for the material, with any lens."),
        (Self::OUT_OF_FOCUS, "The ends of the surface are outside its depth of focus."),
        (Self::CLEARANCE_TOO_SMALL, "Its mount comes too close to the highest place of the surface."),
        (Self::REFUSED, "The model cannot judge this lens on this job; the entry says why."),
        (Self::SMALLEST_IN_FOCUS, "No other lens has a smaller spot in focus."),
        (Self::SMALLEST_ON_SURFACE, "No other lens has a smaller spot at the ends of the surface."),
        (Self::DEEPEST, "No other lens has a greater depth of focus."),
        (
            Self::WORKING_DISTANCE_BEYOND_FOCUS,
            "Its working distance is greater than from the lens to its focus: so it may be of a group of lenses, but of a single lens one of the two is wrong, and the clearance with it.",
        ),
    ];
}

/// What a lens does on the surface, focus at mid-height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensFindings {
    /// What [`focus_check`] says of it.
    pub outcome: Outcome,
    /// Waist **diameter** in metres: 1/e² (D4σ), for a real lens that of 86.5 % of the power.
    pub waist_diameter: f64,
    /// Distance from the waist at which the diameter has grown by √2, in metres.
    pub rayleigh_range: f64,
    /// From the lens to the waist in metres.
    pub lens_to_waist: f64,
    /// The depth of focus by the job's criterion; none if the waist is larger than the largest diameter allowed.
    pub depth: Option<FocusRange>,
    /// The worst places, a half span from the waist on either side.
    pub worst: Place,
    /// By how much farther the surface might reach to either side with stroke, gap and text still holding, in
    /// metres; negative by how much too far it does. None if they do not even hold in the waist.
    pub spare_half_span: Option<f64>,
    /// What is left between the lowest part of the head and the highest place of the surface, in metres;
    /// negative if they collide.
    pub clearance: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Where a lens stands among the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensRanking {
    /// Its place in the order, 1 for the best; 0 if the call failed.
    pub rank: u32,
    /// Why.
    pub reasons: LensReasons,
    /// What it does; why the model cannot tell, or why the call failed.
    pub found: Result<LensFindings, Error>,
}

impl LensRanking {
    /// What stands in an array before it is filled.
    pub const BLANK: Self = Self::refused(Error::NotFinite { param: Param::Output, value: f64::NAN });

    const fn refused(error: Error) -> Self {
        Self { rank: 0, reasons: LensReasons(0), found: Err(error) }
    }

    /// In which part of the order it stands; see the [module](self).
    fn class(&self) -> u32 {
        let reasons = self.reasons;
        if reasons.contains(LensReasons::SERVES) {
            0
        } else if reasons.contains(LensReasons::REFUSED) {
            3
        } else if matches!(&self.found, Ok(found) if holds(found.outcome)) {
            1
        } else {
            2
        }
    }

    /// Whether it stands before another one that was named after it.
    fn is_no_worse_than(&self, later: &Self) -> bool {
        if self.class() != later.class() {
            return self.class() < later.class();
        }
        let (Ok(one), Ok(other)) = (&self.found, &later.found) else {
            return true;
        };
        if one.worst.diameter != other.worst.diameter {
            return one.worst.diameter < other.worst.diameter;
        }
        depth_or_none(one) >= depth_or_none(other)
    }
}

/// What a choice of lenses comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensChoice {
    /// How many lenses serve.
    pub serving: u32,
    /// The place of the first in order among the candidates, from 0 on. It serves if any does.
    pub best: usize,
    /// Where focus is set relative to the datum, in metres, + away from the lens: at mid-height.
    pub focus_z: f64,
    /// How far the worst places lie from the waist, in metres, tolerance included.
    pub half_span: f64,
    /// Where the spots of the first two in order are equally large; none if one is smaller everywhere, or if
    /// there are not two.
    pub crossing: Option<Crossing>,
    /// The span of the surface, from its highest to its lowest place without the tolerance, at which the worst
    /// spots of these two swap, in metres; none if no span does that.
    pub flip_span: Option<f64>,
}

fn holds(outcome: Outcome) -> bool {
    matches!(outcome, Outcome::Holds | Outcome::HoldsOutOfFocus)
}

fn depth_or_none(found: &LensFindings) -> f64 {
    found.depth.map_or(0.0, |depth| depth.full)
}

/// The job with this lens, on a surface that reaches `half_span` to either side of the waist.
fn job_with(job: &Job, candidate: &LensCandidate, half_span: f64) -> Job {
    Job {
        focal_length: candidate.focal_length,
        lens: candidate.lens,
        focus: FocusSetting::FromDatum { focus_z: 0.0 },
        surface_rise: half_span,
        surface_fall: half_span,
        ..*job
    }
}

/// Checks the plain numbers of a lens: a slip among them is no finding.
fn check_candidate(candidate: &LensCandidate) -> Result<(), Error> {
    check(Param::FocalLength, candidate.focal_length)?;
    if let JobLens::Singlet { shape, clear_aperture, .. } = candidate.lens {
        if let LensShape::ShapeFactor { factor } = shape {
            check(Param::ShapeFactor, factor)?;
        }
        check_clear_aperture(clear_aperture)?;
    }
    check(Param::WorkingDistance, candidate.working_distance)?;
    Ok(())
}

/// Why the lens of a verdict fails, if it does. The waist is the datum of its job.
fn reasons_of(verdict: &Verdict) -> LensReasons {
    let given = |reasons: &[Reasons]| reasons.iter().any(|reason| verdict.reasons.contains(*reason));
    let too_fine = given(&[Reasons::STROKE_TOO_FINE, Reasons::GAP_TOO_FINE]);
    let lost = given(&[Reasons::STROKE_LOST_LOW, Reasons::GAP_FILLED_LOW]);
    let text_too_small = given(&[Reasons::TEXT_TOO_SMALL]);
    let mut reasons = LensReasons::default();
    reasons.add(LensReasons::SPOT_TOO_LARGE, too_fine);
    reasons.add(LensReasons::DEPTH_TOO_SHORT, lost && !too_fine);
    reasons.add(LensReasons::TEXT_TOO_SMALL, text_too_small);
    reasons.add(LensReasons::TEXT_LOST_OFF_FOCUS, given(&[Reasons::TEXT_LOST_LOW]) && !text_too_small);
    reasons.add(LensReasons::FILL_HAS_GAPS, given(&[Reasons::FILL_HAS_GAPS]));
    reasons.add(LensReasons::NOTHING_MARKS, given(&[Reasons::NOTHING_MARKS]));
    reasons.add(LensReasons::OUT_OF_FOCUS, given(&[Reasons::LOW_OUT_OF_FOCUS]));
    reasons
}

/// By how much farther than a half span the details hold; none if they do not even in the waist.
fn spare_half_span(verdict: &Verdict, half_span: Twofold) -> Option<f64> {
    if verdict.reasons.contains(Reasons::TEXT_TOO_SMALL) {
        return None;
    }
    let for_details = verdict.detail_range?.away_from_lens_z;
    // Text that has no range is not asked for any grade.
    let for_text = verdict.text_range.map_or(for_details, |range| range.away_from_lens_z);
    Some((Twofold::from(lesser(for_details, for_text)) - half_span).to_f64())
}

/// One lens by itself, before it is compared. Kept out of line, for the verdict takes much of a controller's stack.
#[inline(never)]
fn examine(job: &Job, candidate: &LensCandidate, half_span: Twofold, least_clearance: f64) -> LensRanking {
    let verdict = match focus_check(&job_with(job, candidate, half_span.to_f64())) {
        Ok(verdict) => verdict,
        Err(error) => {
            return LensRanking { reasons: LensReasons::REFUSED, ..LensRanking::refused(error) };
        }
    };
    let clearance = (Twofold::from(candidate.working_distance) - half_span).to_f64();
    let mut reasons = reasons_of(&verdict);
    reasons.add(LensReasons::CLEARANCE_TOO_SMALL, clearance < least_clearance);
    reasons.add(LensReasons::SERVES, holds(verdict.outcome) && clearance >= least_clearance);
    let (waist_diameter, rayleigh_range, lens_to_waist) = match &verdict.real {
        Some(real) => (real.power86.waist_diameter, real.power86.rayleigh_range, real.power86.lens_to_waist),
        None => {
            let focused = &verdict.focused;
            (focused.waist_diameter, focused.rayleigh_range, focused.lens_to_waist)
        }
    };
    reasons.add(LensReasons::WORKING_DISTANCE_BEYOND_FOCUS, candidate.working_distance > lens_to_waist);
    let findings = LensFindings {
        outcome: verdict.outcome,
        waist_diameter,
        rayleigh_range,
        lens_to_waist,
        depth: verdict.depth,
        worst: verdict.lowest,
        spare_half_span: spare_half_span(&verdict, half_span),
        clearance,
        validity: verdict.validity,
    };
    LensRanking { rank: 0, reasons, found: Ok(findings) }
}

/// Gives every lens its rank, and says which are the first by one number.
fn rank(rankings: &mut [LensRanking]) {
    let compared = rankings.iter().filter(|lens| lens.found.is_ok()).count() > 1;
    for i in 0..rankings.len() {
        let Some((rank, reasons)) = standing(rankings, i, compared) else { return };
        if let Some(lens) = rankings.get_mut(i) {
            lens.rank = rank;
            lens.reasons = reasons;
        }
    }
}

/// Rank of one of the lenses, and its reasons with those that compare it; none if there is no such lens.
fn standing(rankings: &[LensRanking], place: usize, compared: bool) -> Option<(u32, LensReasons)> {
    let lens = rankings.get(place)?;
    let others = || rankings.iter().enumerate().filter(|(other, _)| *other != place);
    let better = others().filter(|(other, ranking)| {
        if *other < place { ranking.is_no_worse_than(lens) } else { !lens.is_no_worse_than(ranking) }
    });
    // At most the number of lenses of one call.
    let rank = 1 + better.count() as u32;
    let mut reasons = lens.reasons;
    if let (true, Ok(found)) = (compared, &lens.found) {
        let none_has = |better: fn(&LensFindings, &LensFindings) -> bool| {
            !others().filter_map(|(_, other)| other.found.as_ref().ok()).any(|other| better(other, found))
        };
        let smallest_waist = none_has(|other, found| other.waist_diameter < found.waist_diameter);
        let smallest_spot = none_has(|other, found| other.worst.diameter < found.worst.diameter);
        let deepest = none_has(|other, found| depth_or_none(other) > depth_or_none(found));
        reasons.add(LensReasons::SMALLEST_IN_FOCUS, smallest_waist);
        reasons.add(LensReasons::SMALLEST_ON_SURFACE, smallest_spot);
        reasons.add(LensReasons::DEEPEST, deepest && found.depth.is_some());
    }
    Some((rank, reasons))
}

/// The beam of the lens that stands at this place in the order; none if its light is refused.
fn beam_at_rank(
    job: &Job,
    candidates: &[LensCandidate],
    rankings: &[LensRanking],
    rank: u32,
) -> Option<CheckedBeam> {
    let (_, candidate) =
        rankings.iter().zip(candidates).find(|(lens, _)| lens.rank == rank && lens.found.is_ok())?;
    beam_of(&job_with(job, candidate, 0.0)).ok()
}

/// Ranks the lenses that might serve a job, with reasons, and says where the first two would swap.
///
/// `job` says all but the lens and the focus, which is at mid-height of the surface for every lens: its own
/// lens and focus are not looked at. `rankings[i]` belongs to `candidates[i]`. Order and formulas in the
/// [module](self).
///
/// A lens whose light the model cannot follow spoils nothing: it ranks last, and its entry holds the error. So
/// it is with a glass opaque at the wavelength, a spot that no closed form gives, lines of a scan too far apart for
/// the spot, and a surface that reaches the lens.
///
/// Accuracy: waist, Rayleigh range, place of the waist, crossing, clearance and spans at most 0.75 ulp; depth and
/// worst places as [`focus_check`], the latter's offset being rounded once: growth and diameter at most 1.5 ulp,
/// irradiance and line dose 2.5; what is spare 4 ulp of the range of heights that hold, times the factor that
/// [`focus_check`] tells (`tests/vectors/choose_lens.csv`).
///
/// # Errors
/// On any error every entry of `rankings` holds that error, none is stale.
/// [`Error::OutOfRange`] for no candidates or more than [`MOST_LENSES`] ([`Param::LensCandidates`]);
/// [`Error::LengthMismatch`] if `rankings` is not as long as `candidates`; [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for laser and raw beam, surface, criterion, details, dose and text of the job, then for
/// the set-up, then for focal length, shape factor, aperture and working distance of each candidate;
/// [`Error::OutsideModel`] for what [`focus_check`] refuses of the raw beam and of the dose, and for a half span
/// above 1 km, named [`Param::SurfaceRise`].
///
/// # Example
/// ```
/// use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, RawBeam};
/// use spotwise::model::focus::DepthCriterion;
/// use spotwise::model::lens_choice::{LensCandidate, LensRanking, LensReasons, SetUp, choose_lens};
/// let job = Job {
///     wavelength: 10.6e-6,
///     m2: 1.2,
///     raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
///     focal_length: 38.1e-3,
///     lens: JobLens::Ideal,
///     focus: FocusSetting::FromDatum { focus_z: 0.0 },
///     surface_rise: 0.8e-3, // a bowed part
///     surface_fall: 1.2e-3,
///     criterion: DepthCriterion::Rayleigh,
///     finest_stroke: 0.15e-3,
///     finest_gap: 0.15e-3,
///     dose: JobDose::Ratio { dose_ratio: 2.7 },
///     text: None,
/// };
/// let ideal = |focal_length, working_distance| LensCandidate {
///     focal_length, lens: JobLens::Ideal, working_distance,
/// };
/// let lenses = [ideal(38.1e-3, 25e-3), ideal(63.5e-3, 50e-3)];
/// let mut rankings = [LensRanking::BLANK; 2];
/// let set_up = SetUp { tolerance: 0.2e-3, least_clearance: 3e-3 };
/// let choice = choose_lens(&job, &lenses, &set_up, &mut rankings)?;
/// // Waists of 88.1 and 146.9 µm, Rayleigh ranges of 0.4797 and 1.3322 mm: they cross at √(0.4797·1.3322) mm.
/// assert_eq!((choice.crossing.unwrap().offset * 1e6).round(), 799.0);
/// assert_eq!((choice.half_span * 1e6).round(), 1200.0); // (0.8 + 1.2)/2 + 0.2 mm
/// assert_eq!((choice.best, rankings[1].rank), (1, 1)); // so the longer lens is the better one here
/// assert_eq!((choice.flip_span.unwrap() * 1e6).round(), 1199.0); // 2·(0.7994 − 0.2) mm
/// assert!(rankings[0].reasons.contains(LensReasons::SMALLEST_IN_FOCUS));
/// assert!(rankings[1].reasons.contains(LensReasons::SMALLEST_ON_SURFACE));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "which lens")]
pub fn choose_lens(
    job: &Job,
    candidates: &[LensCandidate],
    set_up: &SetUp,
    rankings: &mut [LensRanking],
) -> Result<LensChoice, Error> {
    let choice = choose(job, candidates, set_up, rankings);
    if let Err(error) = choice {
        rankings.fill(LensRanking::refused(error));
    }
    choice
}

/// Refuses a number of lenses that no call takes.
fn check_count(count: usize) -> Result<(), Error> {
    check(Param::LensCandidates, count as f64).map(drop)
}

fn choose(
    job: &Job,
    candidates: &[LensCandidate],
    set_up: &SetUp,
    rankings: &mut [LensRanking],
) -> Result<LensChoice, Error> {
    check_count(candidates.len())?;
    if rankings.len() != candidates.len() {
        return Err(Error::LengthMismatch {
            param: Param::Output,
            value: rankings.len(),
            expected: candidates.len(),
        });
    }
    check_all_but_lens(job)?;
    let tolerance = check(Param::SetUpTolerance, set_up.tolerance)?;
    let half = Twofold::from(0.5);
    // h = (rise + fall)/2 + t
    let half_span = half * Twofold::sum(job.surface_rise, job.surface_fall) + Twofold::from(tolerance);
    within_model(Param::SurfaceRise, half_span.to_f64())?;
    let least_clearance = check(Param::LeastClearance, set_up.least_clearance)?;
    for candidate in candidates {
        check_candidate(candidate)?;
    }

    for (lens, candidate) in rankings.iter_mut().zip(candidates) {
        *lens = examine(job, candidate, half_span, least_clearance);
    }
    rank(rankings);
    let first = beam_at_rank(job, candidates, rankings, 1);
    let second = beam_at_rank(job, candidates, rankings, 2);
    let crossing = first.zip(second).and_then(|(first, second)| crossing_of(&first, &second));
    // 2·(z× − t)
    let flip_span = crossing
        .map(|crossing| (Twofold::from(2.0) * (crossing.offset - Twofold::from(tolerance))).to_f64())
        .filter(|span| *span > 0.0);
    let serving = rankings.iter().filter(|lens| lens.reasons.contains(LensReasons::SERVES)).count();
    Ok(LensChoice {
        // At most the number of lenses of one call.
        serving: serving as u32,
        best: rankings.iter().position(|lens| lens.rank == 1).unwrap_or(0),
        focus_z: (half * Twofold::sum(job.surface_fall, -job.surface_rise)).to_f64(),
        half_span: half_span.to_f64(),
        crossing: crossing.map(|point| point.rounded()),
        flip_span,
    })
}
