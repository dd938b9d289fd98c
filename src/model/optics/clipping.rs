//! A Gaussian beam (M² = 1) clipped by a round aperture at an ideal lens.
//!
//! | symbol | meaning                                     | unit | valid         |
//! |--------|---------------------------------------------|------|---------------|
//! | D      | 1/e² **diameter** of the beam at the lens   | m    | 1e-9 … 10     |
//! | a      | **diameter** of the clear aperture          | m    | 1e-9 … 100, ∞ |
//! | X, T   | clipping ratio a/D and its reciprocal D/a   | 1    | X ≥ 0.2       |
//! | Y      | X²                                          | 1    |               |
//! | K      | spot diameter over λ·f/a                    | 1    |               |
//!
//! transmitted = 1 − exp(−2X²), peak irradiance = (1 − exp(−X²))²               exact, \[1\]
//! K of 1/e² = 1.63451 + 0.07116/T + 0.01789/T² + 0.10201/T³ + 0.00971/T⁴ − 0.00726/T⁵  for T > 0.36
//! K of FWHM = 1.02537 + 0.02425/T + 0.04401/T² + 0.02894/T³ + 0.01299/T⁴ − 0.00449/T⁵  for T > 0.36
//! K of 86.5 % = 2.46939 − 1.05955/T + 0.05853/T² + 0.46793/T³ − 0.11122/T⁴   for 0.5 < T ≤ 1.25
//! K = 4/(π·T), times √(ln 2/2) for FWHM, for a smaller T: the beam unclipped
//!
//! The polynomials are ours, fitted to the diffraction integral of [`wave`](super::wave). Greatest
//! errors over the whole domain, which `tests/closed_forms.rs` enforces: 1/e² 0.1 %, FWHM 0.11 %,
//! 86.5 % 0.13 %. Two sets of handbook coefficients (from memory) that are in use for 1/e² err by
//! 3 % at T = 0.5 and 1.6 % at T = 0.42, and the first diverges below T = 0.4.
//!
//! Beyond T = 1.25 no 86.5 % diameter is given: the edge of that power nears the first dark ring, where a
//! little less power inside means a much larger diameter (it jumps between T = 2.2 and 2.5). Under uniform light (T → ∞) K tends to 1.64 for 1/e²
//! and to 1.029 for FWHM; T = 5 is the end of the domain.
//!
//! All are those of the focal plane. Where the light is brightest, nearer the lens, the widths are smaller by up to
//! 1.7 times the Rayleigh range over the focal length and the irradiance is higher by up to 1.6 times that share:
//! below the 5 % from which [`Validity::FOCUS_SHIFTED`] stands, by no more than 8.5 %.
//!
//! Not modelled: M² > 1 and aberration, for which use [`wave_widths`](super::wave_widths); an
//! aperture elsewhere than at the lens, a decentred one.
//!
//! \[1\] Fresnel integral over a truncated Gaussian; J. W. Goodman, *Introduction to Fourier Optics*,
//! from memory; derived again and checked in `tests/wave.rs`.

use super::beam::{ROUND, checked_cone};
use super::singlet::{check_clear_aperture, clipped};
use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::twofold::Twofold;
use crate::validity::{Cone, REFUSED_LONG_FOCUS, Validity};

/// The focus of a clipped Gaussian beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClippedFocus {
    /// Clear aperture over 1/e² beam diameter.
    pub clipping_ratio: f64,
    /// Share of the power that passes.
    pub transmitted: f64,
    /// Diameter at 1/e² of the irradiance in metres.
    pub diameter_1e2: f64,
    /// Full width at half maximum in metres.
    pub fwhm: f64,
    /// Diameter that holds 86.4665 % of the **transmitted** power in metres; NaN if refused.
    pub diameter_power86: f64,
    /// Irradiance on the axis in focus over that of the same beam unclipped.
    pub peak_irradiance_ratio: f64,
    /// The Rayleigh range, 4·λ·f²/(π·D²) with the aperture for D where that is narrower, over the focal length.
    pub relative_rayleigh_range: f64,
    /// Half angle of the cone behind the aperture, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Greatest T for which the 1/e² width and the FWHM are those of an unclipped beam.
const UNCLIPPED_CORE: f64 = 0.36;
/// Greatest T for which the 86.5 % diameter is that of an unclipped beam.
const UNCLIPPED_POWER: f64 = 0.5;
/// Greatest T for which the 86.5 % diameter is fitted.
const LARGEST_POWER: f64 = 1.25;

/// The polynomials in 1/T, constant term first.
const INVERSE_E_SQUARED: [f64; 6] = [1.634_51, 0.071_16, 0.017_89, 0.102_01, 0.009_71, -0.007_26];
const FWHM: [f64; 6] = [1.025_37, 0.024_25, 0.044_01, 0.028_94, 0.012_99, -0.004_49];
const POWER86: [f64; 5] = [2.469_39, -1.059_55, 0.058_53, 0.467_93, -0.111_22];

/// T·K(T), which is the spot diameter over λ·f/D.
fn times_polynomial(coefficients: &[f64], clipping_ratio: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * clipping_ratio + c) / clipping_ratio
}

/// A Gaussian beam before an aperture and a lens, checked.
pub(crate) struct CheckedClipping {
    pub(crate) clipping_ratio: f64,
    pub(crate) transmitted: f64,
    /// The Rayleigh range over the focal length.
    pub(crate) relative_rayleigh_range: f64,
    /// The cone, with the flags of a long focus.
    pub(crate) cone: Cone,
}

/// Checks wavelength, beam, aperture and lens in this order, then what follows from them.
pub(crate) fn checked_clipping(
    wavelength: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    focal_length: f64,
) -> Result<CheckedClipping, Error> {
    check(Param::Wavelength, wavelength)?;
    let diameter = check(Param::DiameterAtLens, diameter_at_lens)?;
    let aperture = check_clear_aperture(clear_aperture)?;
    let f = check(Param::FocalLength, focal_length)?;
    let (clipping_ratio, transmitted) = clipped(aperture, Twofold::from(diameter))?;
    let widest = math::lesser(aperture, diameter);
    let cone = checked_cone(&ROUND, 0.5 * widest / f)?;
    // 4·λ·f/(π·D²), the Rayleigh range over the focal length, with the aperture where it is narrower
    let long_focus = 4.0 * wavelength * f / (core::f64::consts::PI * widest * widest);
    if long_focus > REFUSED_LONG_FOCUS {
        let (least, _) = Param::RayleighRange.range();
        let greatest = REFUSED_LONG_FOCUS * f;
        return Err(Error::OutsideModel {
            param: Param::RayleighRange,
            value: long_focus * f,
            least,
            greatest,
        });
    }
    let cone = cone.flagged(Validity::of_focus_shift(long_focus));
    Ok(CheckedClipping { clipping_ratio, transmitted, relative_rayleigh_range: long_focus, cone })
}

/// The focus of a collimated Gaussian beam (M² = 1) behind an aperture at an ideal lens.
///
/// d = K·λ·f/a, with K, its domain and its measured error in the [module](self). The formula contains
/// the aperture, so that clipping raises no flag but [`Validity::NO_POWER86`]. The focus is taken for sharp:
/// its Rayleigh range, 4·λ·f²/(π·D²) with the aperture for D where that is narrower, is flagged
/// ([`Validity::FOCUS_SHIFTED`]) above 5 % of the focal length and refused above 20 %.
///
/// Accuracy of evaluation: at most 8 ulp (`tests/vectors/focus_clipped.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments (an infinite aperture
/// is none; the focal length must be positive); [`Error::OutsideModel`] for a clipping ratio below 0.2
/// and for a cone above 0.3 rad (half angle of beam or aperture, whichever is narrower), and for a
/// Rayleigh range above a fifth of the focal length.
///
/// # Example
/// ```
/// use spotwise::model::optics::focus_clipped;
/// // 1.064 µm, 10 mm beam, 10 mm aperture, 100 mm lens.
/// let focus = focus_clipped(1.064e-6, 10e-3, 10e-3, 0.1)?;
/// assert_eq!((focus.transmitted * 1e4).round(), 8647.0);
/// // The diffraction integral gives K = 1.8292, thus 19.46 µm; unclipped it would be 13.55 µm.
/// assert!((focus.diameter_1e2 / 19.463e-6 - 1.0).abs() < 1e-3);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "truncation")]
#[must_use = "the focus is the result"]
pub fn focus_clipped(
    wavelength: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    focal_length: f64,
) -> Result<ClippedFocus, Error> {
    let CheckedClipping { clipping_ratio: x, transmitted, relative_rayleigh_range, cone } =
        checked_clipping(wavelength, diameter_at_lens, clear_aperture, focal_length)?;
    const UNCLIPPED: f64 = 4.0 / core::f64::consts::PI;
    let gaussian_fwhm = UNCLIPPED * math::sqrt(0.5 * core::f64::consts::LN_2);
    let (one_over_e2, half) = if 1.0 <= UNCLIPPED_CORE * x {
        (UNCLIPPED, gaussian_fwhm)
    } else {
        (times_polynomial(&INVERSE_E_SQUARED, x), times_polynomial(&FWHM, x))
    };
    let power86 = if 1.0 <= UNCLIPPED_POWER * x {
        UNCLIPPED
    } else if 1.0 <= LARGEST_POWER * x {
        times_polynomial(&POWER86, x)
    } else {
        f64::NAN
    };
    // λ·f/D
    let scale = wavelength * focal_length / diameter_at_lens;
    let passed = math::expm1(-x * x);
    Ok(ClippedFocus {
        clipping_ratio: x,
        transmitted,
        diameter_1e2: one_over_e2 * scale,
        fwhm: half * scale,
        diameter_power86: power86 * scale,
        peak_irradiance_ratio: passed * passed,
        relative_rayleigh_range,
        half_angle: cone.half_angle,
        validity: cone.validity.union(Validity::when(power86.is_nan(), Validity::NO_POWER86)),
    })
}
