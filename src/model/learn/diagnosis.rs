//! Focus or power? What a mark says that came out otherwise than a good one of the same settings.
//!
//! | symbol | meaning                                                                 | unit | valid |
//! |--------|-------------------------------------------------------------------------|------|-------|
//! | n      | 2 for a pulse, 1 for a line                                             | 1    |       |
//! | q₀     | dose ratio of the good mark, which was made in focus                    | 1    | 1.000001 … 1e6 |
//! | B      | width of the mark over that of the good one                             | 1    |       |
//! | D      | depth of the mark over that of the good one                             | 1    |       |
//! | q      | dose ratio of the mark where it lies                                    | 1    | up to 1e6 |
//! | g      | growth of the spot, √(1 + (z/z_R)²)                                     | 1    | up to 1e9 |
//! | ρ      | power ratio: dose that the settings now give over what they gave before | 1    |       |
//! | z      | offset of the surface from the waist                                    | m    |       |
//!
//! depth of a logarithmic law: D = ln q/ln q₀; of a linear law: D = (q − 1)/(q₀ − 1)
//! B² = g²·ln q/ln q₀, so that g = B·√(ln q₀/ln q)
//! q = q₀·ρ/gⁿ, so that ρ = gⁿ·q/q₀
//! |z| = z_R·√(g² − 1)
//!
//! Width and depth are two equations for two faults, so that they part focus from power. What they leave
//! open is on which side of the focus the surface lies, for both sides mark alike, and which of power, speed
//! and threshold has changed the dose. In a melt heat widens the mark as well, and depth follows no law of
//! dose: over-power, a slow scan and defocus all look alike there.
//!
//! **Contrast.** A stain has no depth, yet it darkens with dose. Where its optical density log₁₀(R₀/R), R being the
//! reflectance of the mark and R₀ that of the bare material, grows by ln q, as it does over the straight part of a
//! characteristic curve \[1\], the density counts as a depth of the logarithmic law; its deviation is 0.434·σ_R/R. The contrast
//! itself, 1 − R/R₀, follows neither law: a stain of the density 0.42 that has lost a third of its dose to defocus would
//! pass for one a tenth nearer to focus and of 7 % more power (`tests/diagnosis.rs`). Marks of a power series tell
//! whether a material's density keeps to a law; for one that does not, a width alone is the honest reading
//! ([`diagnose_width`](super::diagnose_width)).
//!
//! Deviations are carried to g and ρ by their logarithms, the errors of widths, depths and q₀ being independent;
//! of the good mark and of this one alike. Ranges are g·exp(± k·u), k being the factor of a normal law for the coverage
//! probability. An offset goes by the square root of g² − 1, which has no slope in focus: its range is what
//! the range of g makes of it, from 0 where that reaches 1, and no ± is given. Cut off so, the range holds
//! the true offset as often as is asked for, and in focus half as often missed: at 95 % in 97.5 % of cases
//! (`tests/diagnosis.rs`). That is why a fault that is not seen is no proof of focus: a width that is known to 5 %
//! cannot tell the waist from a third of a Rayleigh range.
//!
//! [`compensate`](crate::model::mark::compensate) makes up for the offset found here where the surface cannot be
//! moved; it needs no sign.
//!
//! \[1\] F. Hurter, V. C. Driffield, *Journal of the Society of Chemical Industry* 9, 455 (1890), from memory, of
//! photographic plates; that stains of a laser keep to it is for the user to see.
//! Derived here from the laws of [`isolated`](crate::model::mark::isolated) and
//! [`material`](crate::model::mark::material). Not modelled: errors of the beam and of the coverage; a good
//! mark that was out of focus itself, which shows only where this one is too narrow for any focus.

use super::causes::{Ambiguities, FurtherTest, MarkCause};
use super::statistics::normal_factor;
use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::mark::MarkKind;
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::validity::Validity;

/// Greatest standard deviation of a width, a depth or ln q₀ over itself with which a diagnosis is made: beyond,
/// the logarithms in which it reckons are none of a normal law.
pub const GREATEST_RELATIVE_DEVIATION: f64 = 0.3;

/// How depth, or the optical density of a stain, goes with the dose ratio. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum DepthLaw {
    /// By ln q: a bulk into which the dose falls off by an exponential law.
    Logarithmic = 1,
    /// By q − 1: a bulk of which every joule above the threshold removes its share.
    Linear = 2,
}

impl DepthLaw {
    /// Every law, in the order of its code.
    pub const ALL: [Self; 2] = [Self::Logarithmic, Self::Linear];

    /// The law with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|law| *law as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::DepthLaw, value: code })
    }
}

/// A good mark: made in focus, of known dose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GoodMark {
    /// Pulse or line.
    pub kind: MarkKind,
    /// Its dose ratio.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself; 0 if it counts as exact. At most 0.3·ln q₀.
    pub dose_ratio_deviation: f64,
    /// Its width in metres.
    pub width: f64,
    /// Standard deviation of its width in metres, at most 0.3 of the width.
    pub width_deviation: f64,
}

/// Depths, or optical densities of a stain that go by the same law, in any one unit. A contrast 1 − R/R₀ is turned into
/// the density log₁₀(R₀/R) first: see the [module](self).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthReading {
    /// How depth goes with dose.
    pub law: DepthLaw,
    /// Depth of the good mark.
    pub good_depth: f64,
    /// Its standard deviation, at most 0.3 of the depth.
    pub good_depth_deviation: f64,
    /// Depth now.
    pub depth: f64,
    /// Its standard deviation, at most 0.3 of the depth.
    pub depth_deviation: f64,
}

/// What width and depth of a mark say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkDiagnosis {
    /// What has changed.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// Growth of the spot; below 1 where errors of measurement or the good mark make it so.
    pub growth: f64,
    /// Standard deviation of the growth over itself.
    pub growth_deviation: f64,
    /// Distance of the surface from the waist in metres, on either side; 0 for a growth up to 1.
    pub offset: f64,
    /// Least distance, of the coverage asked for; 0 where the waist is not ruled out.
    pub least_offset: f64,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset: f64,
    /// Dose that the settings give now over what they gave.
    pub power_ratio: f64,
    /// Standard deviation of the power ratio over itself.
    pub power_ratio_deviation: f64,
    /// Least power ratio, of the coverage asked for.
    pub least_power_ratio: f64,
    /// Greatest power ratio, of the coverage asked for.
    pub greatest_power_ratio: f64,
    /// Correlation of the logarithms of growth and power ratio.
    pub correlation: f64,
    /// Dose ratio of the mark where it lies.
    pub dose_ratio: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A width or depth over that of the good mark, with the standard deviation of its logarithm.
#[derive(Clone, Copy)]
pub(super) struct Compared {
    pub(super) ratio: f64,
    pub(super) deviation: f64,
}

/// A measure and its standard deviation, checked in this order.
fn measured(measure: Param, value: f64, deviation: Param, its: f64) -> Result<(f64, f64), Error> {
    let value = check(measure, value)?;
    let (least, greatest) = deviation.range();
    let most = math::lesser(greatest, GREATEST_RELATIVE_DEVIATION * value);
    let its = check_within(deviation, its, least, most)?;
    Ok((value, its))
}

/// A width in metres and its deviation.
pub(super) fn measured_width(width: f64, deviation: f64) -> Result<(f64, f64), Error> {
    measured(Param::MarkWidth, width, Param::WidthDeviation, deviation)
}

impl Compared {
    fn of((good, good_deviation): (f64, f64), (now, deviation): (f64, f64)) -> Self {
        Self { ratio: now / good, deviation: hypot(deviation / now, good_deviation / good) }
    }
}

/// A good mark after its checks.
pub(super) struct CheckedGood {
    /// n, by which power of the growth its dose falls.
    pub(super) n: f64,
    pub(super) q: f64,
    /// ln q₀, and its standard deviation.
    pub(super) log_dose: f64,
    pub(super) deviation: f64,
    width: (f64, f64),
}

/// q₀, ln q₀ and its standard deviation.
pub(super) fn checked_dose(dose_ratio: f64, deviation: f64) -> Result<(f64, f64, f64), Error> {
    let q = check(Param::DoseRatio, dose_ratio)?;
    let log_dose = math::log(q);
    let (least, greatest) = Param::DoseRatioDeviation.range();
    let most = math::lesser(greatest, GREATEST_RELATIVE_DEVIATION * log_dose);
    Ok((q, log_dose, check_within(Param::DoseRatioDeviation, deviation, least, most)?))
}

impl CheckedGood {
    pub(super) fn of(good: &GoodMark) -> Result<Self, Error> {
        let (q, log_dose, deviation) = checked_dose(good.dose_ratio, good.dose_ratio_deviation)?;
        let width = measured_width(good.width, good.width_deviation)?;
        Ok(Self { n: exponent(good.kind), q, log_dose, deviation, width })
    }

    pub(super) fn compared(&self, width: f64, deviation: f64) -> Result<Compared, Error> {
        Ok(Compared::of(self.width, measured_width(width, deviation)?))
    }
}

pub(super) fn exponent(kind: MarkKind) -> f64 {
    match kind {
        MarkKind::Pulse => 2.0,
        MarkKind::Line => 1.0,
    }
}

impl DepthReading {
    pub(super) fn compared(&self) -> Result<Compared, Error> {
        let depth = |value, its| measured(Param::MarkDepth, value, Param::DepthDeviation, its);
        let good = depth(self.good_depth, self.good_depth_deviation)?;
        Ok(Compared::of(good, depth(self.depth, self.depth_deviation)?))
    }
}

impl DepthLaw {
    /// ln q of a mark D times as deep as that of q₀, and by how much it changes with ln D and with ln q₀.
    pub(super) fn log_dose(self, q: f64, log_dose: f64, depth_ratio: f64) -> (f64, f64, f64) {
        match self {
            Self::Logarithmic => (depth_ratio * log_dose, depth_ratio * log_dose, depth_ratio),
            Self::Linear => {
                let beyond = depth_ratio * (q - 1.0);
                let now = 1.0 + beyond;
                (math::log1p(beyond), beyond / now, depth_ratio * q / now)
            }
        }
    }
}

pub(super) fn hypot(a: f64, b: f64) -> f64 {
    math::sqrt(a * a + b * b)
}

/// Half width of a range over its deviation, of a normal law.
pub(super) fn checked_coverage_factor(coverage_probability: f64) -> Result<f64, Error> {
    let p = check(Param::CoverageProbability, coverage_probability)?;
    Ok(normal_factor(p))
}

/// Offset from the waist at which the spot has grown so.
pub(super) fn offset_of(rayleigh_range: f64, growth: f64) -> f64 {
    if growth > 1.0 { rayleigh_range * math::sqrt((growth - 1.0) * (growth + 1.0)) } else { 0.0 }
}

/// Refuses a growth beyond that of the model. Less than 1 is no fault: it is told as such.
pub(super) fn checked_growth(growth: f64) -> Result<f64, Error> {
    let (least, greatest) = Param::GrowthRatio.range();
    if growth <= greatest {
        Ok(growth)
    } else {
        Err(Error::OutsideModel { param: Param::GrowthRatio, value: growth, least, greatest })
    }
}

/// Focus or power, from width and depth of a mark against those of a good one.
///
/// `width` and `width_deviation` are those of the mark now, in metres. `coverage_probability` is that of the ranges, of
/// the offset and of the power ratio each, 0.95 as a rule; the cause is told by whether they leave out 0 and 1. Formulas
/// and what stays open in the [module](self). Without any mark now there is nothing to measure:
/// [`mark_limits`](crate::model::mark::mark_limits) tells how far off focus that is.
///
/// Accuracy: at most 4 ulp times 1 + ln q₀ + what relative errors of the inputs make of the number
/// (`tests/vectors/diagnose_mark.csv`). Coverage, each of 20 000 simulated pairs of marks with errors of 3 or 10 %: the
/// ranges at 95 % hold the truth in 94.7 to 95.8 %, in focus in 97.6 to 97.8 %; the answers lean by less than a fifteenth of their
/// deviation. Where nothing has changed, a cause is named in 7 to 9 %, for three things are asked at 95 %. With
/// errors of 3 % a defocus of 0.63 Rayleigh ranges is seen in 93 %, one of 0.21 in 6 % (`tests/diagnosis.rs`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, of the good mark, of the depths in
/// order, then for the arguments; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad, if the mark
/// is so deep that its dose ratio exceeds 1e6, or if the spot had grown by more than 1e9.
///
/// # Example
/// ```
/// use spotwise::model::learn::{DepthLaw, DepthReading, FurtherTest, GoodMark, MarkCause, diagnose_mark};
/// use spotwise::model::{mark::MarkKind, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let good = GoodMark {
///     kind: MarkKind::Line, dose_ratio: 4.0, dose_ratio_deviation: 0.0,
///     width: 73e-6, width_deviation: 1e-6,
/// };
/// // 20 % wider and half as deep: the spot has grown by 1.2/√½ = 1.6971,
/// let depths = DepthReading {
///     law: DepthLaw::Logarithmic,
///     good_depth: 40e-6, good_depth_deviation: 1e-6, depth: 20e-6, depth_deviation: 1e-6,
/// };
/// let found = diagnose_mark(&beam, &good, &depths, 87.6e-6, 1e-6, 0.95)?;
/// assert_eq!((found.growth * 1e4).round(), 16_971.0);
/// // which it does at 0.478154 mm·√(1.44/½ − 1) = 0.6556 mm; by 1.6971·4^(−½) the dose is 15 % short.
/// assert_eq!((found.offset * 1e7).round(), 6556.0);
/// assert_eq!((found.power_ratio * 1e4).round(), 8485.0);
/// assert_eq!((found.cause, found.further_test), (MarkCause::FocusAndPower, FurtherTest::HeightsEitherSide));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the diagnosis is the result"]
pub fn diagnose_mark(
    beam: &Beam,
    good: &GoodMark,
    depths: &DepthReading,
    width: f64,
    width_deviation: f64,
    coverage_probability: f64,
) -> Result<MarkDiagnosis, Error> {
    let checked = checked_beam(beam)?;
    let good = CheckedGood::of(good)?;
    let depth = depths.compared()?;
    let width = good.compared(width, width_deviation)?;
    let k = checked_coverage_factor(coverage_probability)?;

    let (log_dose, by_depth, by_good) = depths.law.log_dose(good.q, good.log_dose, depth.ratio);
    let dose_ratio = within_model(Param::AnyDoseRatio, math::exp(log_dose))?;
    let shrunk = match depths.law {
        DepthLaw::Logarithmic => depth.ratio,
        DepthLaw::Linear => log_dose / good.log_dose,
    };
    let growth = checked_growth(width.ratio / math::sqrt(shrunk))?;
    let to_the_n = if good.n == 2.0 { growth * growth } else { growth };
    let power_ratio = to_the_n * math::exp(log_dose - good.log_dose);

    // What one deviation of B, D and q₀ each makes of ln g and of ln ρ.
    let g_depth = -0.5 * by_depth / log_dose;
    let g_good = match depths.law {
        DepthLaw::Logarithmic => 0.0,
        DepthLaw::Linear => 0.5 * (1.0 / good.log_dose - by_good / log_dose),
    };
    let g = [width.deviation, g_depth * depth.deviation, g_good * good.deviation];
    let p = [
        good.n * width.deviation,
        (good.n * g_depth + by_depth) * depth.deviation,
        (good.n * g_good + by_good - 1.0) * good.deviation,
    ];
    let dot = |a: [f64; 3], b: [f64; 3]| a.into_iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let growth_deviation = math::sqrt(dot(g, g));
    let power_ratio_deviation = math::sqrt(dot(p, p));

    let ends = |middle: f64, deviation: f64| {
        let factor = math::exp(k * deviation);
        (middle / factor, middle * factor)
    };
    let (least_growth, greatest_growth) = ends(growth, growth_deviation);
    let (least_power_ratio, greatest_power_ratio) = ends(power_ratio, power_ratio_deviation);
    let focus = least_growth > 1.0;
    let power = least_power_ratio > 1.0 || greatest_power_ratio < 1.0;
    let too_narrow = greatest_growth < 1.0;

    let ambiguities = Ambiguities::of([
        (Ambiguities::SIDE, focus),
        (Ambiguities::MELT, width.ratio > math::exp(k * width.deviation)),
        (Ambiguities::POWER_OR_SPEED, power && !too_narrow),
    ]);
    let rayleigh_range = checked.rayleigh_range.to_f64();
    Ok(MarkDiagnosis {
        cause: if too_narrow { MarkCause::NotAsAssumed } else { MarkCause::of(focus, power) },
        further_test: match (too_narrow, focus) {
            (true, _) => FurtherTest::DoublePower,
            (_, true) => FurtherTest::HeightsEitherSide,
            _ => FurtherTest::Nothing,
        },
        ambiguities,
        growth,
        growth_deviation,
        offset: offset_of(rayleigh_range, growth),
        least_offset: offset_of(rayleigh_range, least_growth),
        greatest_offset: offset_of(rayleigh_range, greatest_growth),
        power_ratio,
        power_ratio_deviation,
        least_power_ratio,
        greatest_power_ratio,
        correlation: dot(g, p) / (growth_deviation * power_ratio_deviation),
        dose_ratio,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}
