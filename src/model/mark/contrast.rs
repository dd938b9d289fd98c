//! Contrast of a grating of equal bars and gaps under a Gaussian spot.
//!
//! | symbol | meaning                                | unit | valid         |
//! |--------|----------------------------------------|------|---------------|
//! | d, w   | spot **diameter** 1/e² and its half    | m    | 1e-9 ≤ d ≤ 10 |
//! | Λ      | pitch, one bar and one gap             | m    | 1e-9 … 10     |
//! | C      | contrast (max − min)/(max + min)       | 1    | 1e-12 … 0.999999999999 where it is given |
//!
//! sine pattern: C = exp(−π²·w²/(2·Λ²)), so Λ = π·w/√(−2·ln C)
//! bars and gaps: C = (4/π)·Σₖ (−1)ᵏ/(2k + 1)·exp(−π²·w²·(2k + 1)²/(2·Λ²))
//! the same by Poisson's sum: 1 − C = 2·Σₖ (−1)ᵏ·erfc((k/2 + 1/4)·√2·Λ/w)
//! dose window = (1 + C)/(1 − C): largest over smallest dose at which bars and gaps both hold
//!
//! Derived here: the Fourier series of a square wave, each harmonic weighed by the transform of
//! exp(−2r²/w²). The first sum is used for w/Λ ≥ 0.4 and the second below, where each loses
//! nothing; they meet there within rounding. Beyond w/Λ = 20 C is 0 and the dose window 1, which a double
//! cannot tell from the sums: exp(−π²·20²/2) is 5e-858.

use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::twofold::Twofold;

/// Contrast of a grating at one pitch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GratingContrast {
    /// Contrast of a sinusoidal pattern.
    pub sine: f64,
    /// Contrast of equal bars and gaps.
    pub bars: f64,
    /// Largest over smallest dose at which equal bars and gaps both hold; +∞ where the gaps stay
    /// clear at any dose a double can tell.
    pub dose_window: f64,
}

/// w/Λ above which the exposure is even to the last digit of a double, and contrast nil.
const NOTHING_LEFT: f64 = 20.0;
/// w/Λ at which the two sums change over.
const CHANGE_OVER: f64 = 0.4;
/// Terms after which either sum has converged for every ratio it serves.
const TERMS: u32 = 6;

/// Contrast of a sine pattern and of equal bars and gaps at this pitch, and the dose window.
///
/// Formulas and derivation in the [module](self).
///
/// Accuracy: the contrasts at most 3 ulp, the dose window at most 6 ulp, for w/Λ up to 11.9
/// (`tests/vectors/contrast_at_pitch.csv`); beyond, contrasts are below 1e-303 and soon subnormal.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::contrast_at_pitch;
/// let c = contrast_at_pitch(100e-6, 100e-6)?; // bars half a spot wide
/// assert_eq!((c.sine * 1e4).round(), 2912.0); // exp(−π²/8)
/// assert_eq!((c.bars * 1e4).round(), 3708.0); // (4/π)·(0.291213 − 0.291213⁹/3 + …)
/// assert_eq!((c.dose_window * 1e3).round(), 2179.0); // 1.3708/0.6292
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "MTF")]
#[doc(alias = "modulation transfer function")]
#[must_use = "the contrast is the result"]
pub fn contrast_at_pitch(spot_diameter: f64, pitch: f64) -> Result<GratingContrast, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let pitch = check(Param::Pitch, pitch)?;
    // w/Λ
    let ratio = Twofold::from(0.5) * Twofold::from(d) / Twofold::from(pitch);
    if ratio.to_f64() > NOTHING_LEFT {
        return Ok(GratingContrast { sine: 0.0, bars: 0.0, dose_window: 1.0 });
    }
    let sine = harmonic(ratio, 1);
    if ratio.to_f64() >= CHANGE_OVER {
        let bars = harmonics(ratio);
        Ok(GratingContrast { sine, bars, dose_window: (1.0 + bars) / (1.0 - bars) })
    } else {
        let loss = contrast_loss(ratio);
        Ok(GratingContrast { sine, bars: 1.0 - loss, dose_window: (2.0 - loss) / loss })
    }
}

/// exp(−x). A small error of a large exponent is a large one of the result, so the exponent is carried to
/// twice the digits.
pub(super) fn exp_of_minus(x: Twofold) -> f64 {
    let nearest = x.to_f64();
    let rest = (x - Twofold::from(nearest)).to_f64();
    math::exp(-nearest) * (1.0 - rest)
}

/// exp(−π²·(w/Λ)²·n²/2).
fn harmonic(ratio: Twofold, n: u32) -> f64 {
    exp_of_minus((Twofold::PI * ratio * Twofold::from(f64::from(n))).squared() * Twofold::from(0.5))
}

/// (4/π)·Σₖ (−1)ᵏ/(2k + 1)·exp(…).
fn harmonics(ratio: Twofold) -> f64 {
    let mut sum = 0.0;
    for k in (0..TERMS).rev() {
        let n = 2 * k + 1;
        sum = harmonic(ratio, n) / f64::from(n) - sum;
    }
    sum * (4.0 * core::f64::consts::FRAC_1_PI)
}

/// 1 − C = 2·Σₖ (−1)ᵏ·erfc((k/2 + 1/4)·√2·Λ/w), kept apart from 1 so that it keeps its digits.
fn contrast_loss(ratio: Twofold) -> f64 {
    let step = Twofold::from(2.0).square_root() / ratio;
    let mut sum = 0.0;
    for k in (0..TERMS).rev() {
        let x = step * Twofold::from(0.5 * f64::from(k) + 0.25);
        sum = erfc_of(x) - sum;
    }
    2.0 * sum
}

/// erfc of an argument whose last digits matter: its slope is −2/√π·exp(−x²).
fn erfc_of(x: Twofold) -> f64 {
    let nearest = x.to_f64();
    let rest = (x - Twofold::from(nearest)).to_f64();
    math::erfc(nearest) - core::f64::consts::FRAC_2_SQRT_PI * math::exp(-nearest * nearest) * rest
}

/// Pitches at which a pattern keeps a contrast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ContrastPitch {
    /// Pitch of a sinusoidal pattern in metres.
    pub sine: f64,
    /// Pitch of equal bars and gaps in metres; smaller, since their contrast starts out higher.
    pub bars: f64,
}

/// Contrast of equal bars and gaps less a contrast, and rising with the pitch.
fn bars_above(ratio: f64, contrast: f64) -> f64 {
    let ratio = Twofold::from(ratio);
    if ratio.to_f64() >= CHANGE_OVER {
        harmonics(ratio) - contrast
    } else {
        (1.0 - contrast) - contrast_loss(ratio)
    }
}

/// Pitches in metres at which a sine pattern, and equal bars and gaps, keep this contrast.
///
/// sine: Λ = π·w/√(−2·ln C); bars: by halving of the sums of the [module](self), where they are derived.
///
/// Accuracy: at most 4 ulp (`tests/vectors/pitch_for_contrast.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::pitch_for_contrast;
/// let pitch = pitch_for_contrast(100e-6, 0.5)?;
/// assert_eq!((pitch.sine * 1e9).round(), 133_411.0); // π·50 µm/√(2·ln 2) = 133 µm
/// assert_eq!((pitch.bars * 1e9).round(), 114_897.0); // with 30 digits, elsewhere: the root of C(Λ) = ½
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the pitch is the result"]
pub fn pitch_for_contrast(spot_diameter: f64, contrast: f64) -> Result<ContrastPitch, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let contrast = check(Param::Contrast, contrast)?;
    // w/Λ of the sine pattern; bars keep the same contrast at a finer pitch, yet at no more than 4/π of it.
    let sine = math::sqrt(-2.0 * math::log(contrast)) * core::f64::consts::FRAC_1_PI;
    let (mut coarse, mut fine) = (sine, math::sqrt(sine * sine + 0.05));
    for _ in 0..60 {
        let middle = 0.5 * (coarse + fine);
        if bars_above(middle, contrast) > 0.0 {
            coarse = middle;
        } else {
            fine = middle;
        }
    }
    Ok(ContrastPitch { sine: 0.5 * d / sine, bars: d / (coarse + fine) })
}
