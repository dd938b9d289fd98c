//! Student's t and χ²: from the scatter of a fit to ranges that hold in a stated share of cases, and to the chance
//! that a fit is as bad as this.
//!
//! | symbol | meaning                                                              | unit | valid          |
//! |--------|----------------------------------------------------------------------|------|----------------|
//! | p      | confidence: share of cases in which the range holds the truth        | 1    | ½ … 1 − 1e-12  |
//! | ν      | degrees of freedom: readings used less parameters fitted             | 1    | whole, 1 … 1e5 |
//! | t      | half width of the range over the standard deviation                  | 1    |                |
//! | χ²     | sum of squared residuals over their variances                        | 1    | 0 … 1e100      |
//! | T, Q   | share of cases beyond ±t; chance of a χ² as great or greater         | 1    |                |
//!
//! With θ = atan(t/√ν), κ₁ = 2/π, κ₂ = ½, κ_{ν+2} = κ_ν·(ν + 1)/(ν + 2)
//! T_ν = κ_ν·sin θ·cos^ν θ + T_{ν+2} at the same θ           \[1\] 26.7.3 and 26.7.4, continued without end
//! and for many degrees, with y² = ν·ln(1 + t²/ν),
//! T_ν = ∫_y^∞ e^{−s²/2}·h(s²/ν) ds / ∫_0^∞ the same, h(w) = √(w/(1 − e^{−w}))         derived here
//! all terms of which are positive but for a few small ones of the power series of h, so that nothing cancels.
//! t for T = 1 − p by Newton's method on ln T against ln t, which is concave, so that it cannot stray.
//!
//! Q = e^{−h}·Σ h^r/r!, r < ν/2, for even ν, h = χ²/2                                    \[1\] 26.4.5
//! Q = erfc(√h) + 2·√(h/π)·e^{−h}·Σ h^r/(3/2·5/2 … (r + ½)), r < (ν − 1)/2, for odd ν     \[1\] 26.4.4
//!
//! \[1\] M. Abramowitz, I. A. Stegun, *Handbook of Mathematical Functions*, from memory.
//! Not modelled: errors that are not normal.

use crate::error::{Error, Param, check, check_whole};
use crate::model::math;
use core::f64::consts::{FRAC_2_PI, PI, SQRT_2};

/// Powers of w in h(w) = √(w/(1 − e^{−w})).
const POWERS: [f64; 18] = [
    1.0,
    0.25,
    0.010_416_666_666_666_666,
    -0.002_604_166_666_666_666_7,
    -0.000_097_656_25,
    0.000_051_540_798_611_111_11,
    1.275_602_471_891_534_4e-6,
    -1.110_097_087_880_291e-6,
    -1.967_058_400_418_182_3e-8,
    2.483_631_988_471_567_6e-8,
    3.396_661_996_038_674_5e-10,
    -5.690_071_833_942_188e-10,
    -6.337_230_155_667_13e-12,
    1.325_131_515_587_890_4e-11,
    1.246_835_896_099_680_3e-13,
    -3.122_999_378_063_188e-13,
    -2.546_988_626_356_897e-15,
    7.426_702_350_918_159e-15,
];
/// From here on the degrees of freedom are many.
const MANY: f64 = 40.0;
/// Up to here the powers of w tell h(w) to the last digit.
const WITHIN_POWERS: f64 = 0.7;
/// Newton's method needs six steps at the most; more would not help it.
const STEPS: usize = 40;
/// A sum is brought down where it gets this large.
const LARGE: f64 = 1e100;

/// Half width of a range over the standard deviation, where that is known from scatter alone: Student's t.
///
/// The range ± t deviations holds the truth with this confidence, if errors are normal and their size was
/// found from a scatter of so many degrees of freedom. For many degrees it is the half width of the normal law: 1.96 at
/// 95 %. Formulas and source in the [module](self).
///
/// Accuracy: at most 8 ulp (`tests/vectors/student_factor.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the confidence, then for the degrees of freedom, which must be
/// a whole number.
///
/// # Example
/// ```
/// use spotwise::model::learn::student_factor;
/// // Printed in every table of t: 2.306 for 95 % and 8 degrees of freedom.
/// assert_eq!((student_factor(0.95, 8.0)? * 1e3).round(), 2306.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "coverage factor")]
#[doc(alias = "t quantile")]
pub fn student_factor(confidence: f64, degrees_of_freedom: f64) -> Result<f64, Error> {
    check(Param::Confidence, confidence)?;
    check_whole(Param::DegreesOfFreedom, degrees_of_freedom)?;
    let degrees = degrees_of_freedom;
    let outside = 1.0 - confidence;
    // Where a normal law of y has as much outside.
    let y = normal_factor(confidence);
    let mut t = math::sqrt(degrees * math::expm1(y * y / degrees));
    for _ in 0..STEPS {
        let beyond = Beyond::of(t, degrees);
        // d ln T/d ln t = −ν·κ_ν·sin θ·cos^ν θ/T
        let step = math::log(beyond.share / outside) * beyond.share / (degrees * beyond.first_term);
        t += t * math::expm1(step);
        if math::fabs(step) < 1e-15 {
            break;
        }
    }
    Ok(t)
}

/// Half width over the deviation of the range of a normal law that holds this share.
pub(super) fn normal_factor(confidence: f64) -> f64 {
    SQRT_2 * math::inverse_erf(confidence, 1.0 - confidence)
}

/// What lies beyond ±t.
struct Beyond {
    /// T_ν.
    share: f64,
    /// κ_ν·sin θ·cos^ν θ.
    first_term: f64,
}

impl Beyond {
    fn of(t: f64, degrees: f64) -> Self {
        // w = ln(1 + t²/ν) = −2·ln cos θ
        let w = math::log1p(t * t / degrees);
        let squared_cosine = degrees / (degrees + t * t);
        let sine = t / math::sqrt(degrees + t * t);
        let first_term = factor(degrees) * sine * math::exp(-0.5 * degrees * w);
        let (mut term, mut sum, mut order) = (first_term, 0.0, degrees);
        let in_powers = w < WITHIN_POWERS;
        while if in_powers { order < MANY } else { term > 1e-18 * sum } {
            sum += term;
            term *= squared_cosine * (order + 1.0) / (order + 2.0);
            order += 2.0;
        }
        let rest = if in_powers { of_many(order, w) } else { 0.0 };
        Self { share: sum + rest, first_term }
    }
}

/// κ_ν.
fn factor(degrees: f64) -> f64 {
    if degrees >= MANY {
        // ν·κ_ν is the slope of the share within ±t at θ = 0.
        return math::sqrt(1.0 / degrees) / all_of_many(degrees);
    }
    let (mut order, mut factor) = if is_odd(degrees) { (1.0, FRAC_2_PI) } else { (2.0, 0.5) };
    while order < degrees {
        factor *= (order + 1.0) / (order + 2.0);
        order += 2.0;
    }
    factor
}

/// Whether a whole number of the range of degrees of freedom is odd.
fn is_odd(degrees: f64) -> bool {
    degrees as u32 & 1 == 1
}

/// T_ν for many degrees.
fn of_many(degrees: f64, w: f64) -> f64 {
    let squared = degrees * w;
    let y = math::sqrt(squared);
    let density = math::exp(-0.5 * squared);
    // ∫_y^∞ s^{2k}·e^{−s²/2} ds/ν^k, from k − 1 by parts
    let mut moment = math::sqrt(0.5 * PI) * math::erfc(y / SQRT_2);
    let mut edge = y * density;
    let mut sum = 0.0;
    let mut order = 1.0;
    for power in POWERS {
        sum += power * moment;
        moment = (edge + order * moment) / degrees;
        edge *= w;
        order += 2.0;
    }
    sum / all_of_many(degrees)
}

/// ∫_0^∞ of what [`of_many`] integrates: √(π/2)·Σ c_k·(2k − 1)!!/ν^k.
fn all_of_many(degrees: f64) -> f64 {
    let mut moment = math::sqrt(0.5 * PI);
    let mut sum = 0.0;
    let mut order = 1.0;
    for power in POWERS {
        sum += power * moment;
        moment *= order / degrees;
        order += 2.0;
    }
    sum
}

/// Chance of a χ² as great as this or greater, where the readings scatter as their deviations say.
///
/// Near 0 the fit is bad: the model is wrong, or the deviations are too small. Near 1 it is too good: the
/// deviations are too large. Formulas and source in the [module](self); it takes a step for every second degree of
/// freedom. Chances below the smallest double are 0.
///
/// Accuracy: at most 12 ulp times the condition number, which is 1 + abs(d ln Q/d ln χ²)
/// (`tests/vectors/chi_squared_chance.csv`, up to 2001 degrees).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for χ², then for the degrees of freedom, which must be a whole
/// number.
///
/// # Example
/// ```
/// use spotwise::model::learn::chi_squared_chance;
/// // Printed in every table of χ²: 5 % lie beyond 15.507 with 8 degrees of freedom.
/// assert_eq!((chi_squared_chance(15.507, 8.0)? * 1e4).round(), 500.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "goodness of fit")]
#[doc(alias = "p value")]
pub fn chi_squared_chance(chi_squared: f64, degrees_of_freedom: f64) -> Result<f64, Error> {
    check(Param::ChiSquared, chi_squared)?;
    check_whole(Param::DegreesOfFreedom, degrees_of_freedom)?;
    let half = 0.5 * chi_squared;
    let chance = if is_odd(degrees_of_freedom) {
        let first = 2.0 * math::sqrt(half / PI);
        let sum = damped_sum(half, first, 0.5, 0.5 * (degrees_of_freedom - 1.0));
        math::erfc(math::sqrt(half)) + sum
    } else {
        damped_sum(half, 1.0, 0.0, 0.5 * degrees_of_freedom)
    };
    // A sum of many terms may end some last digits above.
    Ok(math::lesser(chance, 1.0))
}

/// e^{−h}·first·Σ h^r/((1 + shift)·(2 + shift) … (r + shift)), so many terms from r = 0 on.
fn damped_sum(half: f64, first: f64, shift: f64, terms: f64) -> f64 {
    let (mut term, mut sum, mut order) = (first, 0.0, 0.0);
    // What of the exponent is still to be taken from the sum; at once, the exponential might vanish.
    let mut rest = half;
    let damping = |rest: &mut f64| {
        let piece = math::lesser(*rest, 512.0);
        *rest -= piece;
        math::exp(-piece)
    };
    while order < terms && term > 1e-18 * sum {
        sum += term;
        order += 1.0;
        term *= half / (order + shift);
        if sum > LARGE {
            let damping = damping(&mut rest);
            sum *= damping;
            term *= damping;
        }
    }
    while rest > 0.0 && sum > 0.0 {
        sum *= damping(&mut rest);
    }
    sum
}
