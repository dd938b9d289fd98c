//! The tests that settle focus or power, read.
//!
//! | symbol | meaning                                                              | unit | valid |
//! |--------|----------------------------------------------------------------------|------|-------|
//! | n      | 2 for a pulse, 1 for a line                                          | 1    |       |
//! | q₀     | dose ratio that the line has, or had, in focus                       | 1    | 1.000001 … 1e6 |
//! | z, δ   | offset of the surface from the waist, step of height                 | m    |       |
//! | d, d₀  | spot **diameter** on the surface, in the waist                       | m    |       |
//! | g, ρ   | growth d/d₀, power ratio                                             | 1    |       |
//! | f      | power of a second line over that of the first                        | 1    | 1.01 … 100 |
//! | b₁, b₂ | widths of both                                                       | m    |       |
//!
//! **Patch and line** in one job: the dose inside a solid patch does not change with focus, so that its depth gives ρ
//! by the laws of [`diagnosis`](super::diagnosis). The width of the line with that dose then gives the height, as in
//! [`from_width`](super::from_width).
//!
//! **The power stepped up**: b² = (d²/2)·ln q, so that b₂² − b₁² = (d²/2)·ln f: d without a good mark to compare with,
//! q = exp(b₁²·ln f/(b₂² − b₁²)) and ρ = gⁿ·q/q₀. \[1\]
//!
//! **Heights on either side**: a reading that goes by the dose, depth or darkness, is r = a + s·F(z), F being −ln g by a
//! logarithmic law and g⁻ⁿ by a linear one. It is greatest in focus. If the middle one of the readings at z − δ, z
//! and z + δ is the greatest, the waist is no farther than δ/2 from it, and
//! (r₊ − r₋)/(2r₀ − r₊ − r₋) = (F(z + δ) − F(z − δ))/(2F(z) − F(z + δ) − F(z − δ))
//! tells where, whatever a and s are. If one at a side is greater, the waist lies more than δ/2 to that side.
//!
//! \[1\] J. M. Liu, *Optics Letters* 7, 196 (1982), from memory, for pulses. The rest is derived here. Not modelled: errors
//! of the beam, of f and of δ; heat that builds up inside a patch; marks that vanish.

use super::causes::{Ambiguities, FurtherTest, MarkCause};
use super::diagnosis::{
    CheckedGood, DepthLaw, DepthReading, GoodMark, checked_coverage_factor, checked_dose, checked_growth,
    exponent, hypot, measured_width, offset_of,
};
use super::from_width::{Heights, MOST_LOG_DOSE, PossibleHeight, PossiblePower, Spread, Width};
use crate::error::{Error, Param, check, undetermined, within_model};
use crate::model::mark::MarkKind;
use crate::model::math::{self, greater, lesser};
use crate::model::optics::{Beam, checked_beam};
use crate::validity::{LEAST_SIGNIFICANCE, Validity};

/// What a solid patch and a thin line say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatchSettlement {
    /// What has changed.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// The dose now over what it was.
    pub power: PossiblePower,
    /// The height between the waist and where the line is widest.
    pub near: Option<PossibleHeight>,
    /// The height beyond where the line is widest.
    pub far: Option<PossibleHeight>,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Focus or power, from a solid patch and a thin line of one job against good ones.
///
/// `good` is the good line, `width` and `width_deviation` are those of the line now; `patch` has the depths inside the
/// patches, `patch_dose_ratio` is the dose ratio inside the good one. The error of the dose ratio of the good line, which is
/// mostly that of the threshold, is taken to be that of the patch as well. Formulas in the [module](self).
///
/// Accuracy: at most 4 ulp times 1 + the logarithms of both dose ratios + what relative errors of the inputs make of the
/// number (`tests/vectors/settle_by_patch.csv`). Coverage, each of 20 000 simulated jobs with errors of 2 %: the ranges at
/// 95 % hold the truth in 94.6 to 95.4 % (`tests/diagnosis.rs`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, of the good line, of the patch, then for the
/// arguments; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad, if the dose ratio inside the
/// patch leaves 1 … 1e6, or if that of the line in focus would leave 1.000001 … 1e6 with it: then both contradict each other.
///
/// # Example
/// ```
/// use spotwise::model::learn::{DepthLaw, DepthReading, GoodMark, MarkCause, settle_by_patch};
/// use spotwise::model::{mark::MarkKind, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let good = GoodMark {
///     kind: MarkKind::Line, dose_ratio: 4.0, dose_ratio_deviation: 0.0,
///     width: 73.265e-6, width_deviation: 1e-6,
/// };
/// // The patch is as deep as ever, the line 20 % wider: it is focus, at 1.36057 times the spot (see
/// // `diagnose_width`) and so 0.478154 mm·√(1.36057² − 1) = 0.4411 mm off.
/// let patch = DepthReading {
///     law: DepthLaw::Logarithmic,
///     good_depth: 40e-6, good_depth_deviation: 0.5e-6, depth: 40e-6, depth_deviation: 0.5e-6,
/// };
/// let found = settle_by_patch(&beam, &good, &patch, 5.0, 1.2 * 73.265e-6, 1e-6, 0.95)?;
/// assert_eq!((found.cause, found.power.ratio), (MarkCause::Focus, 1.0));
/// assert_eq!((found.near.unwrap().offset * 1e7).round(), 4411.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the answer is the result"]
pub fn settle_by_patch(
    beam: &Beam,
    good: &GoodMark,
    patch: &DepthReading,
    patch_dose_ratio: f64,
    width: f64,
    width_deviation: f64,
    coverage_probability: f64,
) -> Result<PatchSettlement, Error> {
    let checked = checked_beam(beam)?;
    let good = CheckedGood::of(good)?;
    let depth = patch.compared()?;
    let patch_q = check(Param::DoseRatio, patch_dose_ratio)?;
    let ratio = good.compared(width, width_deviation)?;
    let k = checked_coverage_factor(coverage_probability)?;

    // ln ρ, of a patch D times as deep, whose ln q₀ is this much greater than was thought.
    let log_power = |depth_ratio: f64, more: f64| {
        let log_good = math::log(patch_q) + more;
        let q = if more == 0.0 { patch_q } else { patch_q * math::exp(more) };
        match (patch.law, depth_ratio == 1.0) {
            (_, true) => 0.0,
            (DepthLaw::Logarithmic, _) => (depth_ratio - 1.0) * log_good,
            (DepthLaw::Linear, _) => math::log1p((depth_ratio - 1.0) * (q - 1.0) / q),
        }
    };
    // Moved by its deviations, the dose inside the patch stays within the model.
    let moved_power = |depth_ratio: f64, more: f64| {
        lesser(log_power(depth_ratio, more), MOST_LOG_DOSE - math::log(patch_q))
    };
    let twice_log_ratio = 2.0 * math::log(ratio.ratio);
    let middle =
        Width { twice_log_ratio, log_dose: good.log_dose, log_power: log_power(depth.ratio, 0.0), n: good.n };
    within_model(Param::AnyDoseRatio, patch_q * math::exp(middle.log_power))?;
    within_model(Param::DoseRatio, good.q * math::exp(middle.log_power))?;
    let by_width = middle.moved(k, ratio.deviation);
    let by_dose = [-1.0, 1.0].map(|way| {
        let log_dose = good.log_dose * math::exp(way * k * good.deviation / good.log_dose);
        // The patch's goes with it, no farther than a good mark allows.
        let more = greater(log_dose - good.log_dose, -0.999 * math::log(patch_q));
        Width { log_dose, log_power: moved_power(depth.ratio, more), ..middle }
    });
    let by_depth = [-1.0, 1.0].map(|way| Width {
        log_power: moved_power(depth.ratio * math::exp(way * k * depth.deviation), 0.0),
        ..middle
    });
    let moved = [by_width, by_dose, by_depth];
    let heights = Heights::of(middle, moved, checked.rayleigh_range.to_f64());
    let power = Spread::of(middle.log_power, moved.map(|pair| pair.map(|width| width.log_power)));
    let power_changed = power.leaves_out(0.0);

    let focus = heights.explained && heights.changed;
    let ambiguities = Ambiguities::of([
        (Ambiguities::SIDE, focus),
        (Ambiguities::TWO_HEIGHTS, heights.near.is_some() && heights.far.is_some()),
        (Ambiguities::MELT, twice_log_ratio > 2.0 * k * ratio.deviation),
        (Ambiguities::POWER_OR_SPEED, power_changed),
        (Ambiguities::INSENSITIVE, heights.insensitive),
    ]);
    let cause = if heights.explained {
        MarkCause::of(heights.changed, power_changed)
    } else {
        MarkCause::NotAsAssumed
    };
    let further_test = if !heights.explained {
        FurtherTest::DoublePower
    } else if heights.changed || heights.insensitive {
        FurtherTest::HeightsEitherSide
    } else {
        FurtherTest::Nothing
    };
    Ok(PatchSettlement {
        cause,
        further_test,
        ambiguities,
        power: PossiblePower::of(&power),
        near: heights.near,
        far: heights.far,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}

/// Two marks, alike but for the power: widths and their standard deviations in metres, each at most 0.3 of the width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerStep {
    /// Pulse or line.
    pub kind: MarkKind,
    /// Dose ratio that the first is meant to have in focus.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself; 0 if it counts as exact. At most 0.3·ln q₀.
    pub dose_ratio_deviation: f64,
    /// Power of the second over that of the first, 2 as a rule.
    pub power_step: f64,
    /// Width of the first.
    pub width: f64,
    /// Its standard deviation.
    pub width_deviation: f64,
    /// Width of the second.
    pub stepped_width: f64,
    /// Its standard deviation.
    pub stepped_width_deviation: f64,
}

/// What two marks of different power say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerSettlement {
    /// What is other than it should be.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// Spot **diameter** on the surface in metres.
    pub spot_diameter: f64,
    /// Its standard deviation in metres.
    pub spot_diameter_deviation: f64,
    /// Growth of the spot; below 1 where errors of measurement or the beam make it so.
    pub growth: f64,
    /// Distance of the surface from the waist in metres, on either side; 0 for a growth up to 1.
    pub offset: f64,
    /// Least distance, of the coverage asked for; 0 where the waist is not ruled out.
    pub least_offset: f64,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset: f64,
    /// Dose ratio of the first mark where it lies.
    pub dose_ratio: f64,
    /// The dose over what the dose ratio in focus means.
    pub power: PossiblePower,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Focus or power, from the same line once more at another power, twice as a rule.
///
/// Needs no good mark, only the beam: how much the mark widens tells the spot on the surface. Formulas in
/// the [module](self). `coverage_probability` is that of each range.
///
/// Accuracy: at most 4 ulp times 1 + ln q₀ + what relative errors of the inputs make of the number
/// (`tests/vectors/settle_by_power.csv`). Coverage, each of 20 000 simulated pairs with errors of 1.5 µm: the ranges at 95 %
/// hold the truth in 94.7 to 95.7 %; the answers lean by less than a sixteenth of their deviation (`tests/diagnosis.rs`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, of the step in order, then for the coverage;
/// [`Error::Undetermined`] where the second mark is wider by less than 3 standard deviations: more power would help, or
/// a second pair; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad, if the spot exceeds its
/// range or has grown by more than 1e9, or if the dose ratio exceeds 1e6.
///
/// # Example
/// ```
/// use spotwise::model::learn::{MarkCause, PowerStep, settle_by_power};
/// use spotwise::model::{mark::MarkKind, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let step = PowerStep {
///     kind: MarkKind::Line, dose_ratio: 3.2, dose_ratio_deviation: 0.0, power_step: 2.0,
///     width: 82e-6, width_deviation: 1e-6, stepped_width: 113e-6, stepped_width_deviation: 1e-6,
/// };
/// // d = √(2·(113² − 82²)/ln 2) = 132.07 µm, so it has grown by 1.50078, at 0.5351 mm;
/// let found = settle_by_power(&beam, &step, 0.95)?;
/// assert_eq!((found.spot_diameter * 1e8).round(), 13_207.0);
/// assert_eq!((found.offset * 1e7).round(), 5351.0);
/// // q = exp(2·(82/132.07)²) = 2.1619, and 1.50078·2.1619/3.2 = 1.0139: the dose is as it should be, within its range.
/// assert_eq!((found.power.ratio * 1e4).round(), 10_139.0);
/// assert_eq!(found.cause, MarkCause::Focus);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the answer is the result"]
pub fn settle_by_power(
    beam: &Beam,
    step: &PowerStep,
    coverage_probability: f64,
) -> Result<PowerSettlement, Error> {
    let checked = checked_beam(beam)?;
    let n = exponent(step.kind);
    let (_, log_good, good_deviation) = checked_dose(step.dose_ratio, step.dose_ratio_deviation)?;
    let power_step = check(Param::PowerStep, step.power_step)?;
    let (first, first_deviation) = measured_width(step.width, step.width_deviation)?;
    let (second, second_deviation) = measured_width(step.stepped_width, step.stepped_width_deviation)?;
    let k = checked_coverage_factor(coverage_probability)?;

    let log_step = math::log(power_step);
    let rise = (second - first) * (second + first);
    let rise_deviation = 2.0 * hypot(second * second_deviation, first * first_deviation);
    let significance = rise / rise_deviation;
    if significance < LEAST_SIGNIFICANCE {
        return Err(undetermined(Param::Significance, significance));
    }
    let diameter = |rise: f64| math::sqrt(2.0 * greater(rise, 0.0) / log_step);
    let spot_diameter = within_model(Param::SpotDiameter, diameter(rise))?;
    let waist = checked.waist_diameter;
    let growth = checked_growth(spot_diameter / waist)?;
    let log_dose = first * first * log_step / rise;
    let dose_ratio = within_model(Param::AnyDoseRatio, math::exp(log_dose))?;

    // ln ρ from both widths and ln q₀, no more than the model knows where the widths come out alike.
    let log_power = |first: f64, second: f64, log_good: f64| {
        let rise = (second - first) * (second + first);
        let log_dose = if rise > 0.0 { first * first * log_step / rise } else { MOST_LOG_DOSE };
        let grown = if rise > 0.0 { math::log(diameter(rise) / waist) } else { 0.0 };
        n * grown + lesser(log_dose, MOST_LOG_DOSE) - log_good
    };
    let ways = [-1.0, 1.0];
    let power = Spread::of(
        log_power(first, second, log_good),
        [
            ways.map(|way| log_power(first + way * k * first_deviation, second, log_good)),
            ways.map(|way| log_power(first, second + way * k * second_deviation, log_good)),
            ways.map(|way| log_power(first, second, log_good + way * k * good_deviation)),
        ],
    );
    let least_growth = diameter(rise - k * rise_deviation) / waist;
    let greatest_growth = diameter(rise + k * rise_deviation) / waist;
    let focus = least_growth > 1.0;
    let too_small = greatest_growth < 1.0;
    let power_changed = power.leaves_out(0.0);

    let ambiguities = Ambiguities::of([
        (Ambiguities::SIDE, focus),
        (Ambiguities::POWER_OR_SPEED, power_changed && !too_small),
    ]);
    let rayleigh_range = checked.rayleigh_range.to_f64();
    Ok(PowerSettlement {
        cause: if too_small { MarkCause::NotAsAssumed } else { MarkCause::of(focus, power_changed) },
        further_test: if focus { FurtherTest::HeightsEitherSide } else { FurtherTest::Nothing },
        ambiguities,
        spot_diameter,
        spot_diameter_deviation: 0.5 * spot_diameter / significance,
        growth,
        offset: offset_of(rayleigh_range, growth),
        least_offset: offset_of(rayleigh_range, least_growth),
        greatest_offset: offset_of(rayleigh_range, greatest_growth),
        dose_ratio,
        power: PossiblePower::of(&power),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}

/// What the same mark at three heights says. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum HeightVerdict {
    /// Worse on both sides: focus lies within half a step of the middle height.
    FocusWithin = 1,
    /// Better a step nearer the lens: the surface lies too far from it.
    FocusTowardLens = 2,
    /// Better a step farther from the lens: the surface lies too near it.
    FocusAwayFromLens = 3,
    /// The readings do not differ enough.
    NoDifference = 4,
    /// Better on both sides, which no focus makes.
    Contradiction = 5,
}

impl HeightVerdict {
    /// Every verdict, in the order of its code.
    pub const ALL: [Self; 5] = [
        Self::FocusWithin,
        Self::FocusTowardLens,
        Self::FocusAwayFromLens,
        Self::NoDifference,
        Self::Contradiction,
    ];

    /// One sentence for the person at the machine.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::FocusWithin => {
                "Worse on both sides: focus lies within half a step; if the mark is still not as it should be, it is the dose."
            }
            Self::FocusTowardLens => {
                "Better nearer the lens: focus is the fault; move the surface toward the lens by a step and test again."
            }
            Self::FocusAwayFromLens => {
                "Better farther from the lens: focus is the fault; move the surface away from the lens by a step and test again."
            }
            Self::NoDifference => "The marks do not differ enough: test again with twice the step.",
            Self::Contradiction => {
                "Better on both sides, which no focus makes: read depth or darkness, not width, and test again."
            }
        }
    }
}

/// Readings of the same mark at three heights: depth, or darkness, in any one unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightReadings {
    /// Pulse or line.
    pub kind: MarkKind,
    /// How the reading goes with dose.
    pub law: DepthLaw,
    /// δ: how much nearer the lens, and how much farther, in metres.
    pub height_step: f64,
    /// Reading a step nearer the lens.
    pub toward_lens: f64,
    /// Reading at the middle height.
    pub middle: f64,
    /// Reading a step farther from the lens.
    pub away_from_lens: f64,
    /// Standard deviation of each reading.
    pub deviation: f64,
}

/// Where three heights put the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightSettlement {
    /// What they say.
    pub verdict: HeightVerdict,
    /// Offset of the surface, at the middle height, from the waist in metres, **+ away from the lens**: none unless
    /// focus lies within.
    pub z_offset: Option<f64>,
    /// Its standard deviation in metres, where there is one.
    pub z_offset_deviation: Option<f64>,
    /// Least offset: of the coverage asked for where focus lies within, ½·δ where it lies toward the lens.
    pub least_z_offset: Option<f64>,
    /// Greatest offset: of the coverage asked for where focus lies within, −½·δ where it lies away from the lens.
    pub greatest_z_offset: Option<f64>,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// F at a less F at b, in Rayleigh ranges, where `apart` is b² − a².
fn falls(law: DepthLaw, kind: MarkKind, a: f64, b: f64, apart: f64) -> f64 {
    let (ga, gb) = (math::sqrt(1.0 + a * a), math::sqrt(1.0 + b * b));
    match (law, kind) {
        (DepthLaw::Logarithmic, _) => 0.5 * math::log1p(apart / (ga * ga)),
        (DepthLaw::Linear, MarkKind::Pulse) => apart / (ga * ga * gb * gb),
        (DepthLaw::Linear, MarkKind::Line) => apart / (ga * gb * (ga + gb)),
    }
}

/// F′ at a.
fn slope(law: DepthLaw, kind: MarkKind, a: f64) -> f64 {
    let square = 1.0 + a * a;
    match (law, kind) {
        (DepthLaw::Logarithmic, _) => -a / square,
        (DepthLaw::Linear, MarkKind::Pulse) => -2.0 * a / (square * square),
        (DepthLaw::Linear, MarkKind::Line) => -a / (square * math::sqrt(square)),
    }
}

/// Where focus lies, from the same mark at the height in question, a step nearer and a step farther.
///
/// A reading is one that is greatest in focus: depth, or the darkness of a stain, never a width, which a strong mark
/// grows out of focus. Better and worse mean by more than the coverage factor of `coverage_probability` times the
/// deviation of a difference; focus is placed within half a step only where the middle reading stands out by 3
/// deviations. Formulas in the [module](self).
///
/// Accuracy: at most 4 ulp times 1 + what relative errors of the inputs make of the number
/// (`tests/vectors/settle_by_heights.csv`). Coverage, each of 20 000 simulated tests: the range at 95 % holds the offset in
/// 94.8 to 95.3 % (`tests/diagnosis.rs`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, of the readings in order, then for the
/// coverage; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::learn::{DepthLaw, HeightReadings, HeightVerdict, settle_by_heights};
/// use spotwise::model::{mark::MarkKind, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let mut readings = HeightReadings {
///     kind: MarkKind::Line, law: DepthLaw::Logarithmic, height_step: 0.3e-3,
///     toward_lens: 38e-6, middle: 30e-6, away_from_lens: 18e-6, deviation: 1e-6,
/// };
/// // Deeper nearer the lens: the surface is too low, by half a step at least.
/// let found = settle_by_heights(&beam, &readings, 0.95)?;
/// assert_eq!((found.verdict, found.least_z_offset), (HeightVerdict::FocusTowardLens, Some(0.15e-3)));
/// // A step nearer, the middle is best and both sides are alike: there it is.
/// (readings.middle, readings.away_from_lens) = (42e-6, 38e-6);
/// let found = settle_by_heights(&beam, &readings, 0.95)?;
/// assert_eq!((found.verdict, found.z_offset), (HeightVerdict::FocusWithin, Some(0.0)));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the answer is the result"]
pub fn settle_by_heights(
    beam: &Beam,
    readings: &HeightReadings,
    coverage_probability: f64,
) -> Result<HeightSettlement, Error> {
    let checked = checked_beam(beam)?;
    let HeightReadings { kind, law, .. } = *readings;
    let step = check(Param::HeightStep, readings.height_step)?;
    let toward = check(Param::MarkDepth, readings.toward_lens)?;
    let middle = check(Param::MarkDepth, readings.middle)?;
    let away = check(Param::MarkDepth, readings.away_from_lens)?;
    let deviation = check(Param::DepthDeviation, readings.deviation)?;
    let k = checked_coverage_factor(coverage_probability)?;

    let clear = k * deviation * core::f64::consts::SQRT_2;
    let fall = (middle - toward) + (middle - away);
    let verdict = match (toward - middle > clear, away - middle > clear) {
        (true, true) => HeightVerdict::Contradiction,
        (true, false) => HeightVerdict::FocusTowardLens,
        (false, true) => HeightVerdict::FocusAwayFromLens,
        // The variance of 2r₀ − r₊ − r₋ is six times that of a reading.
        (false, false) if fall > LEAST_SIGNIFICANCE * deviation * math::sqrt(6.0) => {
            HeightVerdict::FocusWithin
        }
        (false, false) => HeightVerdict::NoDifference,
    };
    let mut found = HeightSettlement {
        verdict,
        z_offset: None,
        z_offset_deviation: None,
        least_z_offset: None,
        greatest_z_offset: None,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    };
    match verdict {
        HeightVerdict::FocusTowardLens => found.least_z_offset = Some(0.5 * step),
        HeightVerdict::FocusAwayFromLens => found.greatest_z_offset = Some(-0.5 * step),
        HeightVerdict::FocusWithin => {
            let rayleigh_range = checked.rayleigh_range.to_f64();
            let delta = step / rayleigh_range;
            let lean = away - toward;
            // N(z) = F(z + δ) − F(z − δ) and C(z) = 2F(z) − F(z + δ) − F(z − δ)
            let sides = |z: f64| falls(law, kind, z + delta, z - delta, -4.0 * z * delta);
            let bend = |z: f64| {
                falls(law, kind, z, z + delta, delta * (delta + 2.0 * z))
                    + falls(law, kind, z, z - delta, delta * (delta - 2.0 * z))
            };
            // dR/dz, where R = N/C
            let steepness = |z: f64, r: f64| {
                let (before, here, behind) =
                    (slope(law, kind, z - delta), slope(law, kind, z), slope(law, kind, z + delta));
                ((behind - before) - r * (2.0 * here - behind - before)) / bend(z)
            };
            // lean·C − fall·N rises with z: at −½δ, where r₀ = r₋, it is at most 0, at +½δ at least.
            let (mut low, mut high) = (-0.5 * delta, 0.5 * delta);
            for _ in 0..HALVINGS {
                let z = 0.5 * (low + high);
                if lean * bend(z) - fall * sides(z) < 0.0 {
                    low = z;
                } else {
                    high = z;
                }
            }
            // Halvings leave an error of a 1e16th of the step; one of Newton's leaves none of a small offset either.
            let halved = 0.5 * (low + high);
            let ratio = sides(halved) / bend(halved);
            let inside = math::fabs(lean) < fall;
            let z = match (lean == 0.0, inside) {
                (true, _) => 0.0,
                (_, true) => halved - (ratio - lean / fall) / steepness(halved, ratio),
                (_, false) => halved,
            };
            // ∂R/∂r₊ = (1 + R)/fall, ∂R/∂r₋ = (R − 1)/fall, ∂R/∂r₀ = −2R/fall
            let r = sides(z) / bend(z);
            let of_ratio = deviation / fall * math::sqrt(2.0 + 6.0 * r * r);
            let its = rayleigh_range * of_ratio / math::fabs(steepness(z, r));
            let z = rayleigh_range * z;
            found.z_offset = Some(z);
            found.z_offset_deviation = Some(its);
            found.least_z_offset = Some(z - k * its);
            found.greatest_z_offset = Some(z + k * its);
        }
        HeightVerdict::NoDifference | HeightVerdict::Contradiction => {}
    }
    Ok(found)
}

/// Halvings of a step, down to a 1e16th of it.
const HALVINGS: u32 = 54;
