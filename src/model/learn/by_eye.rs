//! Focus from a series of test pieces that only an eye has judged.
//!
//! Each piece of a series stands at a height of its own. Two ways to judge it, neither of which needs a ruler:
//! whether it shows a mark at all (a series of little power, whose mark vanishes off focus), or a rank
//! ([`PieceRank`]). Light is alike on either side of focus, so a good run lies about it: focus is midway between
//! the two ends of the run.
//!
//! | symbol | meaning                                                                     | unit |
//! |--------|-----------------------------------------------------------------------------|------|
//! | zᵢ, pᵢ | heights of the series, in order, and the share of good pieces at each: 0, 1 | m, 1 |
//! | e₁, e₂ | ends of the run, toward the lens and away from it                           | m    |
//! | h      | half of the run, (e₂ − e₁)/2                                                | m    |
//! | δ      | relative standard deviation of a judgement: of the spot that an eye sees, or of the dose from piece to piece | 1 |
//! | n      | how the dose falls with the spot: 1 for ranks and lines, 2 for pulses       | 1    |
//! | σ      | what δ makes of a height at the end of a run, a standard deviation          | m    |
//! | s, k   | step between heights there, and pieces at each of them                      | m, 1 |
//!
//! e₁ = Σ (pᵢ₊₁ − pᵢ)·(zᵢ + zᵢ₊₁)/2, from the outermost height to the middle of the run         \[1\]
//! focus = (e₁ + e₂)/2; of ranks the mean over the sharp run and that of acceptable pieces or better, as far as
//! each is bounded on both sides
//! σ = δ·(z_R² + h²)/(n·h), from u² = 1 + (z/z_R)² at z = h
//! variance of an end = s²·(r/(k·√π) + f(r)), r = σ/s                                     derived here
//! f(r) = Σ exp(−4π²j²r²)/(2π²j²), j = 1, 2, … = 1/12 − r/√π + r² − …, by Poisson's summation
//!
//! The first part of the variance is what chance does to the pieces near an end, the second what is left of the
//! step, s²/12 without any chance. It holds on average over all places of focus between two heights; where nothing
//! is left to chance, the error at one place may be anything up to half a step.
//!
//! δ is given, not found: a run whose pieces are in order looks the same for any small δ. Judge the same series again, best by
//! another eye, to have it: the standard deviation of an end, where it is larger than the step, is σ, and δ = n·h·σ/(z_R² + h²).
//!
//! Where pieces of one run are out of order (a poor one among good ones), the sum for an end takes them as they
//! are: each moves the end by one step. The middle of the run is that of the good pieces, counted.
//!
//! How well it does, by 5000 simulated series each (`tests/learn_by_eye.rs`; in Rayleigh ranges z_R; eleven
//! pieces in steps of 0.4 z_R, an eye that calls sharp what is up to 1.1 times the smallest spot and acceptable
//! what is up to 1.4 times): standard deviation of focus 0.037 with a perfect eye, 0.085 with δ = 5 %, 0.13 with
//! 10 %; the ranges stated for 95 % hold in 92.5 to 95.5 % of the series for δ = 2 to 10 %, be it ranks or vanishing marks;
//! less than one series in a thousand is refused.
//!
//! \[1\] C. Spearman, *British Journal of Psychology* 2, 227 (1908); G. Kärber, *Archiv für experimentelle
//! Pathologie und Pharmakologie* 162, 480 (1931), from memory: the mean of a threshold from yes and no at even
//! steps, of which this takes the two sides each by itself.
//! Not modelled: an eye that judges the pieces above focus otherwise than those below it, astigmatic light, and
//! heights that are not where the series says.

use super::statistics::normal_factor;
use crate::error::{Error, Param, check, undetermined, within_model};
use crate::flags::flags;
use crate::model::mark::MarkKind;
use crate::model::math;
use crate::model::surface::fits;
use crate::model::twofold::Twofold;
use core::cmp::Ordering;
use core::f64::consts::PI;

/// The most pieces of one series.
pub const MOST_PIECES: usize = 256;

/// How good an eye finds a test piece. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum PieceRank {
    /// Not good enough to be sold.
    Poor = 1,
    /// Good enough, though not the best.
    Acceptable = 2,
    /// As good as the best.
    Sharp = 3,
}

impl PieceRank {
    /// Every rank, in the order of its code.
    pub const ALL: [Self; 3] = [Self::Poor, Self::Acceptable, Self::Sharp];

    /// The rank with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|rank| *rank as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::PieceRank, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    ///
    /// ```
    /// use spotwise::model::learn::PieceRank;
    /// assert_eq!(PieceRank::from_code(3)?.name(), "sharp");
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Poor => "poor",
            Self::Acceptable => "acceptable",
            Self::Sharp => "sharp",
        }
    }
}

/// What is known of the eye and the light, and how sure the answer is to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeJudgement {
    /// Rayleigh range of the beam in metres, as it is expected; it only turns δ into heights.
    pub rayleigh_range: f64,
    /// δ, a relative standard deviation, 0 to 1: of ranks, by how much the same eye differs in the width of spot at
    /// which it changes its mind; of vanishing marks, by how much power and material differ from piece to piece.
    /// 0.05 is a steady hand, 0.1 a hasty one (our choice, no source).
    pub relative_deviation: f64,
    /// Share of all series whose focus the stated range is to hold, such as 0.95.
    pub coverage_probability: f64,
}

/// What to beware of in an answer that an eye gave: a set of warnings. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct EyeWarnings(u32);

flags!(EyeWarnings);

impl EyeWarnings {
    /// Pieces are out of order.
    pub const OUT_OF_ORDER: Self = Self(1);
    /// σ exceeds half of a run.
    pub const COARSE_JUDGEMENT: Self = Self(2);
    /// A step at an end of a run exceeds half of it.
    pub const COARSE_STEPS: Self = Self(4);
    /// Of ranks: the acceptable run has no end toward the lens.
    pub const USABLE_OPEN_TOWARD_LENS: Self = Self(8);
    /// Of ranks: the acceptable run has no end away from the lens.
    pub const USABLE_OPEN_AWAY_FROM_LENS: Self = Self(16);
    /// Of ranks: no piece is sharp.
    pub const NONE_SHARP: Self = Self(32);

    /// Every warning, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 6] = [
        (
            Self::OUT_OF_ORDER,
            "A worse piece lies among better ones: judge again, or engrave every height twice.",
        ),
        (
            Self::COARSE_JUDGEMENT,
            "The judgement is too coarse for so short a run: the range may be too narrow; engrave every height twice, or raise the power a little where marks vanish.",
        ),
        (Self::COARSE_STEPS, "The steps are coarse against the run: finer steps would tell more."),
        (
            Self::USABLE_OPEN_TOWARD_LENS,
            "The usable range has no end toward the lens: add pieces there to learn it.",
        ),
        (
            Self::USABLE_OPEN_AWAY_FROM_LENS,
            "The usable range has no end away from the lens: add pieces there to learn it.",
        ),
        (Self::NONE_SHARP, "No piece is sharp, so that focus goes by the acceptable ones alone."),
    ];
}

/// Focus height by an eye.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeFocus {
    /// Height of focus in metres, counted as those of the pieces.
    pub focus_z: f64,
    /// Its standard deviation in metres.
    pub focus_z_deviation: f64,
    /// The range for the coverage probability, its end toward the lens, in metres.
    pub least_z: f64,
    /// Its end away from the lens, in metres.
    pub greatest_z: f64,
}

/// One end of a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunEnd {
    /// Its height in metres.
    pub z: f64,
    /// Its standard deviation in metres.
    pub deviation: f64,
}

/// Focus from where marks vanish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VanishingFocus {
    /// Where focus is.
    pub focus: EyeFocus,
    /// Where the mark vanishes toward the lens.
    pub toward_lens: RunEnd,
    /// Where it vanishes away from the lens.
    pub away_from_lens: RunEnd,
    /// From focus to either, in metres; its deviation is that of focus.
    pub half_run: f64,
    /// Dose in focus over threshold dose, by the Rayleigh range: (1 + (h/z_R)²)^(n/2).
    pub dose_ratio: f64,
    /// What to beware of.
    pub warnings: EyeWarnings,
}

/// Focus and usable range from ranks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RankFocus {
    /// Where focus is.
    pub focus: EyeFocus,
    /// End of the run of acceptable pieces or better, toward the lens; none unless the run is bounded on both sides.
    pub usable_toward_lens: Option<RunEnd>,
    /// Its end away from the lens, likewise.
    pub usable_away_from_lens: Option<RunEnd>,
    /// Half of the run of sharp pieces in metres; none if no piece is, or if the run is not bounded.
    pub sharp_half_run: Option<f64>,
    /// What to beware of.
    pub warnings: EyeWarnings,
}

/// Pieces by their place, however the caller keeps them; asked below `count` only.
#[derive(Clone, Copy)]
struct Pieces<At> {
    count: usize,
    height: At,
}

/// All pieces of one height.
struct Level {
    z: f64,
    count: u32,
    good: u32,
}

impl Level {
    /// How the share of good pieces compares with that of another height.
    fn compare(&self, other: &Self) -> Ordering {
        (self.good * other.count).cmp(&(other.good * self.count))
    }

    /// By how much the share of good pieces is greater than at another height.
    fn rise_from(&self, other: &Self) -> Twofold {
        let [good, other_good, both] =
            [self.good * other.count, other.good * self.count, self.count * other.count]
                .map(|count| Twofold::from(f64::from(count)));
        let rise = good - other_good;
        if self.count * other.count == 1 { rise } else { rise / both }
    }
}

/// An end of a run before its deviation is known.
struct End {
    z: Twofold,
    step: f64,
    repeats: f64,
}

/// Which way a run is walked.
#[derive(Clone, Copy)]
enum Walk {
    AwayFromLens,
    TowardLens,
}

impl<At: Fn(usize) -> f64> Pieces<At> {
    /// The next height on a walk after `last`, or the first.
    fn next(&self, walk: Walk, last: Option<f64>, good: &impl Fn(usize) -> bool) -> Option<Level> {
        let along = |z: f64| match walk {
            Walk::AwayFromLens => z,
            Walk::TowardLens => -z,
        };
        let mut level: Option<Level> = None;
        for place in 0..self.count {
            let z = (self.height)(place);
            if last.is_some_and(|last| along(z) <= along(last)) {
                continue;
            }
            let one = u32::from(good(place));
            match &mut level {
                Some(level) if z == level.z => {
                    level.count += 1;
                    level.good += one;
                }
                Some(level) if along(z) > along(level.z) => {}
                _ => level = Some(Level { z, count: 1, good: one }),
            }
        }
        level
    }

    fn good_pieces(&self, good: &impl Fn(usize) -> bool) -> u32 {
        (0..self.count).map(|place| u32::from(good(place))).sum()
    }

    /// The end of the run at which a walk sets out; none where the series has no end of it there.
    fn end(&self, walk: Walk, good: &impl Fn(usize) -> bool) -> Option<End> {
        let half = Twofold::from(0.5);
        let all_good = self.good_pieces(good);
        let mut outer = self.next(walk, None, good)?;
        if outer.good > 0 {
            return None;
        }
        let mut end = End { z: Twofold::ZERO, step: 0.0, repeats: f64::MAX };
        let mut passed = 0;
        while 2 * passed < all_good {
            let mut inner = self.next(walk, Some(outer.z), good)?;
            passed += inner.good;
            if 2 * passed >= all_good {
                // The middle of the run counts as good.
                inner.good = inner.count;
            }
            if inner.compare(&outer).is_ne() {
                end.z = end.z + inner.rise_from(&outer) * (half * Twofold::sum(outer.z, inner.z));
                end.step = math::greater(end.step, math::fabs(inner.z - outer.z));
                end.repeats = math::lesser(end.repeats, f64::from(outer.count.min(inner.count)));
            }
            outer = inner;
        }
        Some(end)
    }

    /// Whether the pieces get no better again once they have got worse.
    fn is_in_order(&self, good: &impl Fn(usize) -> bool) -> bool {
        let mut before = self.next(Walk::AwayFromLens, None, good);
        let mut fell = false;
        while let Some(level) = before {
            before = self.next(Walk::AwayFromLens, Some(level.z), good);
            match before.as_ref().map(|next| next.compare(&level)) {
                Some(Ordering::Greater) if fell => return false,
                Some(Ordering::Less) => fell = true,
                _ => {}
            }
        }
        true
    }
}

/// f(r): what is left of the step in the variance of an end, over the step squared.
fn step_share(r: f64) -> f64 {
    let root_pi = math::sqrt(PI);
    if r < 0.1 {
        // 1/12 − r/√π + r² − 2·(r/√π·exp(−x²) − erfc(x)/2), x = 1/(2r); the rest is below 1e-40
        let x = 0.5 / r;
        let beyond =
            if r > 0.0 { 2.0 * (r / root_pi * math::exp(-x * x) - 0.5 * math::erfc(x)) } else { 0.0 };
        return (1.0 / 12.0 - r / root_pi + r * r) - beyond;
    }
    let mut sum = 0.0;
    // From the smallest on; the eleventh is below 1e-20 of the first.
    for j in (1..=10).rev() {
        let j = f64::from(j);
        let x = 2.0 * PI * j * r;
        sum += math::exp(-x * x) / (j * j);
    }
    sum / (2.0 * PI * PI)
}

/// A run that is bounded on both sides, with what an eye makes of its ends.
struct Run {
    toward: Twofold,
    away: Twofold,
    half: f64,
    toward_variance: f64,
    away_variance: f64,
}

impl Run {
    fn of(
        toward: &End,
        away: &End,
        judgement: &EyeJudgement,
        exponent: f64,
        warnings: &mut EyeWarnings,
    ) -> Self {
        let half = (Twofold::from(0.5) * (away.z - toward.z)).to_f64();
        let height_deviation = height_deviation(judgement, exponent, half);
        let coarsest = math::greater(toward.step, away.step);
        warnings.add(EyeWarnings::COARSE_JUDGEMENT, height_deviation > half);
        warnings.add(EyeWarnings::COARSE_STEPS, !fits(coarsest, Twofold::from(half)));
        Self {
            toward: toward.z,
            away: away.z,
            half,
            toward_variance: end_variance(toward, height_deviation),
            away_variance: end_variance(away, height_deviation),
        }
    }

    fn toward_end(&self) -> RunEnd {
        RunEnd { z: self.toward.to_f64(), deviation: math::sqrt(self.toward_variance) }
    }

    fn away_end(&self) -> RunEnd {
        RunEnd { z: self.away.to_f64(), deviation: math::sqrt(self.away_variance) }
    }
}

/// σ = δ·(z_R² + h²)/(n·h)
fn height_deviation(judgement: &EyeJudgement, exponent: f64, half: f64) -> f64 {
    let zr = judgement.rayleigh_range;
    judgement.relative_deviation * (zr * zr + half * half) / (exponent * half)
}

/// s²·(r/(k·√π) + f(r))
fn end_variance(end: &End, height_deviation: f64) -> f64 {
    let s = end.step;
    s * height_deviation / (end.repeats * math::sqrt(PI)) + s * s * step_share(height_deviation / s)
}

/// Focus as the mean of these ends, whose variances are added up in `variance`.
fn focus_of(ends: Twofold, variance: f64, count: f64, judgement: &EyeJudgement) -> Result<EyeFocus, Error> {
    let focus = ends / Twofold::from(count);
    let deviation = math::sqrt(variance) / count;
    let reach = normal_factor(judgement.coverage_probability) * deviation;
    within_model(Param::HalfWidth, reach)?;
    let reach = Twofold::from(reach);
    Ok(EyeFocus {
        focus_z: focus.to_f64(),
        focus_z_deviation: deviation,
        least_z: (focus - reach).to_f64(),
        greatest_z: (focus + reach).to_f64(),
    })
}

/// Checks what both functions ask for, in the order of their arguments.
fn checked<At: Fn(usize) -> f64>(
    pieces: &Pieces<At>,
    judgements: usize,
    judgement: &EyeJudgement,
) -> Result<(), Error> {
    if judgements != pieces.count {
        return Err(Error::LengthMismatch {
            param: Param::Judgements,
            value: judgements,
            expected: pieces.count,
        });
    }
    check(Param::Pieces, pieces.count as f64)?;
    for place in 0..pieces.count {
        check(Param::PieceHeight, (pieces.height)(place))?;
    }
    check(Param::RayleighRange, judgement.rayleigh_range)?;
    check(Param::JudgementDeviation, judgement.relative_deviation)?;
    check(Param::CoverageProbability, judgement.coverage_probability)?;
    Ok(())
}

/// Focus height from a series of little power, of which only the pieces near focus show a mark.
///
/// `seen[i]` says whether the piece at `heights[i]` shows a mark. Heights count + away from the lens, from any
/// datum, in any order; those of several pieces may be the same. `kind` says what the pieces are made of, lines or
/// dots. Formulas, sources and how well it does in the [module](self).
///
/// Accuracy: focus, ends and half run at most 0.75 ulp, dose ratio and deviations 2 ulp; the range 6 ulp times
/// (abs(focus) + half width)/abs(end) (`tests/vectors/focus_from_vanishing.csv`).
///
/// # Errors
/// [`Error::LengthMismatch`] if `seen` is not as long as `heights` ([`Param::Judgements`]);
/// [`Error::OutOfRange`] for no pieces or more than [`MOST_PIECES`] ([`Param::Pieces`]); [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for a height, then the Rayleigh range, the deviation and the coverage probability.
/// [`Error::Undetermined`] if no piece shows a mark ([`Param::GoodPieces`]: more power, or heights nearer focus),
/// or if the run has no end toward the lens ([`Param::BoundTowardLens`]) or away from it
/// ([`Param::BoundAwayFromLens`]): further pieces on that side would tell. [`Error::OutsideModel`] if half the
/// range for the coverage probability is more than 1 km ([`Param::HalfWidth`]).
///
/// # Example
/// ```
/// use spotwise::model::learn::{EyeJudgement, focus_from_vanishing};
/// use spotwise::model::mark::MarkKind;
/// // Lines in steps of 0.1 mm; the third to the seventh are seen: ends at 0.15 and 0.65 mm.
/// let heights: [f64; 9] = core::array::from_fn(|i| 0.1e-3 * i as f64);
/// let seen = [false, false, true, true, true, true, true, false, false];
/// let judgement =
///     EyeJudgement { rayleigh_range: 0.5e-3, relative_deviation: 0.05, coverage_probability: 0.95 };
/// let found = focus_from_vanishing(&heights, &seen, MarkKind::Line, &judgement)?;
/// assert_eq!((found.focus.focus_z * 1e9).round(), 400_000.0);
/// assert_eq!((found.half_run * 1e9).round(), 250_000.0);
/// // σ = 0.05·(0.5² + 0.25²)/0.25 = 0.0625 mm; √(0.1·0.0625/√π)/√2 = 0.04199 mm.
/// assert_eq!((found.focus.focus_z_deviation * 1e8).round(), 4199.0);
/// assert_eq!((found.dose_ratio * 1e6).round(), 1_118_034.0); // √1.25
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "edge of visibility")]
pub fn focus_from_vanishing(
    heights: &[f64],
    seen: &[bool],
    kind: MarkKind,
    judgement: &EyeJudgement,
) -> Result<VanishingFocus, Error> {
    let height = |place: usize| heights.get(place).copied().unwrap_or(f64::NAN);
    let good = |place: usize| seen.get(place).copied().unwrap_or(false);
    vanishing_of(heights.len(), height, seen.len(), good, kind, judgement)
}

/// As [`focus_from_vanishing`], of pieces that the caller keeps in another form.
pub(crate) fn vanishing_of(
    count: usize,
    height: impl Fn(usize) -> f64,
    judgements: usize,
    seen: impl Fn(usize) -> bool,
    kind: MarkKind,
    judgement: &EyeJudgement,
) -> Result<VanishingFocus, Error> {
    let pieces = Pieces { count, height };
    checked(&pieces, judgements, judgement)?;
    if pieces.good_pieces(&seen) == 0 {
        return Err(undetermined(Param::GoodPieces, 0.0));
    }
    let toward = pieces.end(Walk::AwayFromLens, &seen).ok_or(undetermined(Param::BoundTowardLens, 0.0))?;
    let away = pieces.end(Walk::TowardLens, &seen).ok_or(undetermined(Param::BoundAwayFromLens, 0.0))?;
    let mut warnings = EyeWarnings::default();
    warnings.add(EyeWarnings::OUT_OF_ORDER, !pieces.is_in_order(&seen));
    let run = Run::of(&toward, &away, judgement, kind.exponent(), &mut warnings);
    let focus = focus_of(run.toward + run.away, run.toward_variance + run.away_variance, 2.0, judgement)?;
    let growth = run.half / judgement.rayleigh_range;
    let grown = 1.0 + growth * growth;
    Ok(VanishingFocus {
        focus,
        toward_lens: run.toward_end(),
        away_from_lens: run.away_end(),
        half_run: run.half,
        dose_ratio: match kind {
            MarkKind::Pulse => grown,
            MarkKind::Line => math::sqrt(grown),
        },
        warnings,
    })
}

/// Focus height and usable range from the ranks of a series of pieces.
///
/// `ranks[i]` is that of the piece at `heights[i]`. Heights count + away from the lens, from any datum, in any
/// order; those of several pieces may be the same. Formulas, sources and how well it does in the [module](self).
/// The usable range is the run of acceptable pieces or better; it may be open, and is then flagged.
///
/// Accuracy: focus, ends and half run at most 0.75 ulp, deviations 2 ulp; the range 6 ulp times (abs(focus) + half
/// width)/abs(end) (`tests/vectors/focus_from_ranks.csv`).
///
/// # Errors
/// As [`focus_from_vanishing`]: [`Param::GoodPieces`] if no piece is acceptable or sharp;
/// [`Param::BoundTowardLens`] or [`Param::BoundAwayFromLens`] if neither run is bounded on both sides, naming the
/// side on which the sharp run (without any sharp piece the acceptable one) has no end.
///
/// # Example
/// ```
/// use spotwise::model::learn::PieceRank::{Acceptable, Poor, Sharp};
/// use spotwise::model::learn::{EyeJudgement, focus_from_ranks};
/// let heights: [f64; 9] = core::array::from_fn(|i| 0.2e-3 * i as f64);
/// let ranks = [Poor, Poor, Acceptable, Sharp, Sharp, Acceptable, Acceptable, Poor, Poor];
/// let judgement =
///     EyeJudgement { rayleigh_range: 0.5e-3, relative_deviation: 0.0, coverage_probability: 0.95 };
/// let found = focus_from_ranks(&heights, &ranks, &judgement)?;
/// // Sharp from 0.5 to 0.9 mm, acceptable from 0.3 to 1.3 mm: midway 0.7 and 0.8 mm.
/// assert_eq!((found.focus.focus_z * 1e9).round(), 750_000.0);
/// assert_eq!((found.usable_toward_lens.unwrap().z * 1e9).round(), 300_000.0);
/// assert_eq!((found.focus.focus_z_deviation * 1e8).round(), 2887.0); // 0.2 mm/√12/2
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn focus_from_ranks(
    heights: &[f64],
    ranks: &[PieceRank],
    judgement: &EyeJudgement,
) -> Result<RankFocus, Error> {
    let height = |place: usize| heights.get(place).copied().unwrap_or(f64::NAN);
    let rank = |place: usize| ranks.get(place).copied().unwrap_or(PieceRank::Poor);
    ranks_of(heights.len(), height, ranks.len(), rank, judgement)
}

/// As [`focus_from_ranks`], of pieces that the caller keeps in another form.
pub(crate) fn ranks_of(
    count: usize,
    height: impl Fn(usize) -> f64,
    judgements: usize,
    rank: impl Fn(usize) -> PieceRank,
    judgement: &EyeJudgement,
) -> Result<RankFocus, Error> {
    let pieces = Pieces { count, height };
    checked(&pieces, judgements, judgement)?;
    let usable = |place: usize| rank(place) >= PieceRank::Acceptable;
    let sharp = |place: usize| rank(place) == PieceRank::Sharp;
    if pieces.good_pieces(&usable) == 0 {
        return Err(undetermined(Param::GoodPieces, 0.0));
    }
    let mut warnings = EyeWarnings::default();
    let in_order = pieces.is_in_order(&usable) && pieces.is_in_order(&sharp);
    warnings.add(EyeWarnings::OUT_OF_ORDER, !in_order);

    let ends = [pieces.end(Walk::AwayFromLens, &usable), pieces.end(Walk::TowardLens, &usable)];
    let [usable_toward, usable_away] = &ends;
    warnings.add(EyeWarnings::USABLE_OPEN_TOWARD_LENS, usable_toward.is_none());
    warnings.add(EyeWarnings::USABLE_OPEN_AWAY_FROM_LENS, usable_away.is_none());
    let usable_run = usable_toward
        .as_ref()
        .zip(usable_away.as_ref())
        .map(|(toward, away)| Run::of(toward, away, judgement, 1.0, &mut warnings));

    let any_sharp = pieces.good_pieces(&sharp) > 0;
    warnings.add(EyeWarnings::NONE_SHARP, !any_sharp);
    let sharp_run = if any_sharp {
        // A sharp run that is open makes the acceptable one open, too.
        let toward =
            pieces.end(Walk::AwayFromLens, &sharp).ok_or(undetermined(Param::BoundTowardLens, 0.0))?;
        let away = pieces.end(Walk::TowardLens, &sharp).ok_or(undetermined(Param::BoundAwayFromLens, 0.0))?;
        Some(Run::of(&toward, &away, judgement, 1.0, &mut warnings))
    } else {
        usable_toward.as_ref().ok_or(undetermined(Param::BoundTowardLens, 0.0))?;
        usable_away.as_ref().ok_or(undetermined(Param::BoundAwayFromLens, 0.0))?;
        None
    };

    let (mut sum, mut variance, mut count) = (Twofold::ZERO, 0.0, 0.0);
    for run in sharp_run.iter().chain(&usable_run) {
        sum = sum + run.toward + run.away;
        variance += run.toward_variance + run.away_variance;
        count += 2.0;
    }
    Ok(RankFocus {
        focus: focus_of(sum, variance, count, judgement)?,
        usable_toward_lens: usable_run.as_ref().map(Run::toward_end),
        usable_away_from_lens: usable_run.as_ref().map(Run::away_end),
        sharp_half_run: sharp_run.map(|run| run.half),
        warnings,
    })
}
