//! The ripple of a raster fill: how even the dose is across the lines.
//!
//! | symbol | meaning                                   | unit | valid       |
//! |--------|-------------------------------------------|------|-------------|
//! | d, w   | spot **diameter** 1/e² and its half       | m    | 1e-9 ≤ d ≤ 10 |
//! | p      | line interval                             | m    | 1e-9 … 1    |
//! | r      | p/w                                       | 1    | ≤ 20        |
//! | C      | contrast of the ripple                    | 1    | 0 … 1; 1e-12 … 0.999999 for its inverse |
//! | Q      | exp(−π²/(2r²))                            | 1    |             |
//!
//! dose across the lines over its mean = θ₃(π·y/p, Q), Jacobi's theta function              \[1\]
//! greatest, on a line = θ₃(0, Q) = 1 + 2·(Q + Q⁴ + Q⁹ + …)
//! least, midway = θ₄(0, Q) = 1 − 2·(Q − Q⁴ + Q⁹ − …)
//! C = (max − min)/(max + min) = 2·(Q + Q⁹ + …)/(1 + 2·(Q⁴ + Q¹⁶ + …)), without cancellation
//! the same by Poisson's sum, for r > 1.6: with a = √(2/π)·r,
//! greatest = a·(1 + 2·(e^(−2r²) + e^(−8r²) + …)), least = 2a·(e^(−r²/2) + e^(−9r²/2) + …)
//!
//! Fill dose over threshold at which no gap is left between lines:
//! 1/least where the doses of neighbours add up;
//! exp(r²/2)/a where each line must mark by itself over a width of p, as if nothing added up.
//! Real materials lie between the two.
//!
//! \[1\] The sum of Gaussians √(2/π)·(p/w)·exp(−2(y − kp)²/w²) over all lines k, by Poisson's sum;
//! derived here. Theta functions: NIST Digital Library of Mathematical Functions, 20.2, 20.7(viii).
//! An interval of the spot radius leaves a ripple of 1.4 %, one of the diameter 57 %: that the first is
//! invisible and the second shows stripes is common practice, no source. What an edge is worth then stands in
//! [`crisp`](super::crisp).
//! Not modelled: pulses along the line (the same law with the pulse pitch for p), jitter of the lines.

use super::contrast::exp_of_minus;
use crate::error::{Error, Param, check, within_model};
use crate::model::twofold::Twofold;

/// The dose of a raster fill across its lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RasterRipple {
    /// Greatest dose over the mean, on a line.
    pub greatest_over_mean: f64,
    /// Least dose over the mean, midway between lines.
    pub least_over_mean: f64,
    /// (max − min)/(max + min).
    pub contrast: f64,
    /// Mean fill dose over threshold at which no gap is left, where doses of neighbouring lines add up.
    pub gap_free_dose_ratio: f64,
    /// The same where each line must mark by itself.
    pub gap_free_dose_ratio_without_memory: f64,
    /// Line interval over spot radius.
    pub interval_over_radius: f64,
}

/// r at which the two sums change over: each has all its digits there.
const CHANGE_OVER: f64 = 1.6;

/// r of a spot and interval already checked.
fn over_radius(spot_diameter: f64, line_interval: f64) -> Twofold {
    Twofold::from(2.0 * line_interval) / Twofold::from(spot_diameter)
}

/// Dose on the middle of one line by itself over the mean of the fill, √(2/π)·r.
fn one_line(r: Twofold) -> f64 {
    ((Twofold::from(2.0) / Twofold::PI).square_root() * r).to_f64()
}

/// Refuses an interval, already checked by itself, that is too wide for a fill with this spot.
pub(crate) fn check_fill(spot_diameter: f64, line_interval: f64) -> Result<(), Error> {
    within_model(Param::IntervalOverRadius, 2.0 * line_interval / spot_diameter)?;
    Ok(())
}

/// Greatest and least dose over the mean, and contrast, at this r.
fn ripple(r: Twofold) -> (f64, f64, f64) {
    let half = Twofold::from(0.5);
    if r.to_f64() <= CHANGE_OVER {
        // Qᵏ for k = n²
        let term = |n: f64| exp_of_minus((Twofold::PI * Twofold::from(n) / r).squared() * half);
        let odd = 2.0 * (term(1.0) + (term(3.0) + term(5.0)));
        let even_less_one = 2.0 * (term(2.0) + term(4.0));
        let even = 1.0 + even_less_one;
        (even + odd, 1.0 - (odd - even_less_one), odd / even)
    } else {
        // e^(−r²·k²/2)
        let term = |k: f64| exp_of_minus((r * Twofold::from(k)).squared() * half);
        let alone = one_line(r);
        let on_line = 1.0 + 2.0 * (term(2.0) + term(4.0));
        let midway = 2.0 * (term(1.0) + (term(3.0) + term(5.0)));
        let contrast = (on_line - midway) / (on_line + midway);
        (alone * on_line, alone * midway, contrast)
    }
}

/// Ripple of a raster fill, and the dose that leaves no gap.
///
/// Formulas and sources in the [module](self). The mean dose does not depend on the spot, so that a fill
/// out of focus is as strong, and smoother.
///
/// Accuracy: at most 5 ulp (`tests/vectors/raster_ripple.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments; [`Error::OutsideModel`]
/// if the interval exceeds 20 spot radii: that is no fill.
///
/// # Example
/// ```
/// use spotwise::model::mark::raster_ripple;
/// // With 30 digits, elsewhere. An interval of one radius:
/// let fill = raster_ripple(100e-6, 50e-6)?;
/// assert_eq!((fill.contrast * 1e8).round(), 1_438_377.0); // 1.4 %
/// assert_eq!((fill.gap_free_dose_ratio * 1e4).round(), 10_146.0);
/// // Of one diameter:
/// let stripes = raster_ripple(100e-6, 100e-6)?;
/// assert_eq!((stripes.contrast * 1e4).round(), 5742.0); // 57 %
/// assert_eq!((stripes.greatest_over_mean * 1e4).round(), 15_968.0);
/// assert_eq!((stripes.least_over_mean * 1e4).round(), 4319.0);
/// assert_eq!((stripes.gap_free_dose_ratio * 1e3).round(), 2315.0); // 1/0.4319
/// assert_eq!((stripes.gap_free_dose_ratio_without_memory * 1e3).round(), 4630.0); // e²/(2·√(2/π))
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "line spacing")]
#[doc(alias = "hatch distance")]
#[must_use = "the ripple is the result"]
pub fn raster_ripple(spot_diameter: f64, line_interval: f64) -> Result<RasterRipple, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let p = check(Param::LineInterval, line_interval)?;
    let r = over_radius(d, p);
    let interval_over_radius = within_model(Param::IntervalOverRadius, r.to_f64())?;
    let (greatest_over_mean, least_over_mean, contrast) = ripple(r);
    let exponent = r.squared() * Twofold::from(0.5);
    Ok(RasterRipple {
        greatest_over_mean,
        least_over_mean,
        contrast,
        gap_free_dose_ratio: 1.0 / least_over_mean,
        gap_free_dose_ratio_without_memory: exp_of_minus(-exponent) / one_line(r),
        interval_over_radius,
    })
}

/// The contrast of the ripple of a spot and interval already checked, whose ratio may be any.
pub(crate) fn ripple_contrast(spot_diameter: f64, line_interval: f64) -> f64 {
    let (_, _, contrast) = ripple(over_radius(spot_diameter, line_interval));
    contrast
}

/// Least dose over the mean of a spot and interval already checked.
pub(crate) fn least_over_mean(spot_diameter: f64, line_interval: f64) -> f64 {
    let (_, least, _) = ripple(over_radius(spot_diameter, line_interval));
    least
}

/// dC/dr at this r.
pub(crate) fn ripple_slope(r: f64) -> f64 {
    let half = Twofold::from(0.5);
    let exact = Twofold::from(r);
    // Each sum with its derivative, 2·Σ tₖ and 2·Σ tₖ′.
    let summed = |numbers: [f64; 3], term: &dyn Fn(f64) -> (f64, f64)| {
        let (mut sum, mut slope) = (0.0, 0.0);
        for n in numbers {
            let (value, change) = term(n);
            sum += 2.0 * value;
            slope += 2.0 * change;
        }
        (sum, slope)
    };
    if r <= CHANGE_OVER {
        let term = |n: f64| {
            let value = exp_of_minus((Twofold::PI * Twofold::from(n) / exact).squared() * half);
            let over = core::f64::consts::PI * n / r;
            (value, over * over / r * value)
        };
        let (odd, odd_slope) = summed([5.0, 3.0, 1.0], &term);
        let (even_less_one, even_slope) = summed([6.0, 4.0, 2.0], &term);
        let even = 1.0 + even_less_one;
        (odd_slope * even - odd * even_slope) / (even * even)
    } else {
        let term = |k: f64| {
            let value = exp_of_minus((exact * Twofold::from(k)).squared() * half);
            (value, -k * k * r * value)
        };
        let (on_line_less_one, on_line_slope) = summed([6.0, 4.0, 2.0], &term);
        let (midway, midway_slope) = summed([5.0, 3.0, 1.0], &term);
        let on_line = 1.0 + on_line_less_one;
        let both = on_line + midway;
        2.0 * (on_line_slope * midway - on_line * midway_slope) / (both * both)
    }
}

/// Largest line interval in metres whose ripple has at most this contrast.
///
/// The r of this contrast C times w: the inverse of [`raster_ripple`], by halving; sources in the
/// [module](self).
///
/// Accuracy: at most 4 ulp (`tests/vectors/interval_for_ripple.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::interval_for_ripple;
/// let p = interval_for_ripple(100e-6, 0.014_383_766_634_69)?;
/// assert_eq!((p * 1e12).round(), 50_000_000.0); // the contrast of one radius, by θ₂/θ₃ with 30 digits
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the interval is the result"]
pub fn interval_for_ripple(spot_diameter: f64, contrast: f64) -> Result<f64, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let contrast = check(Param::RippleContrast, contrast)?;
    // The contrast rises with r, from 6e-18 at 0.35 to 1 − 8e-22 at 10.
    let (mut low, mut high) = (0.35, 10.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        let (greatest, least, found) = ripple(Twofold::from(middle));
        let reached = if contrast <= 0.5 {
            found <= contrast
        } else {
            // What is missing of 1 keeps more digits: 1 − C = 2·min/(max + min).
            2.0 * least / (greatest + least) >= 1.0 - contrast
        };
        if reached {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(0.25 * (low + high) * d)
}
