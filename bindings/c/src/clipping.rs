//! A Gaussian beam clipped by an aperture.

use crate::abi::{Plain, init, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::optics::{ClippedFocus, focus_clipped};

/// The focus of a clipped Gaussian beam.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_clipped_focus {
    /// Size of this struct; spotwise_clipped_focus_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Clear aperture over 1/e^2 beam diameter; infinite without an aperture.
    pub clipping_ratio: f64,
    /// Share of the power that passes.
    pub transmitted: f64,
    /// Diameter at 1/e^2 of the irradiance in metres.
    pub diameter_1e2_m: f64,
    /// Full width at half maximum in metres.
    pub fwhm_m: f64,
    /// Diameter that holds 86.4665 % of the transmitted power in metres; NaN if refused
    /// (SPOTWISE_VALIDITY_NO_POWER_86).
    pub diameter_power86_m: f64,
    /// Irradiance on the axis in focus over that of the same beam unclipped.
    pub peak_irradiance_ratio: f64,
    /// Rayleigh range 4 * wavelength * f^2/(pi * D^2), D being the narrower of beam and aperture,
    /// over the focal length: the number behind SPOTWISE_VALIDITY_FOCUS_SHIFTED.
    pub relative_rayleigh_range: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_clipped_focus, 72 bytes,
    words: [validity],
    numbers: [
        clipping_ratio,
        transmitted,
        diameter_1e2_m,
        fwhm_m,
        diameter_power86_m,
        peak_irradiance_ratio,
        relative_rayleigh_range,
        half_angle_rad,
    ]
);

impl From<ClippedFocus> for spotwise_clipped_focus {
    fn from(result: ClippedFocus) -> Self {
        Self {
            validity: result.validity.bits(),
            clipping_ratio: result.clipping_ratio,
            transmitted: result.transmitted,
            diameter_1e2_m: result.diameter_1e2,
            fwhm_m: result.fwhm,
            diameter_power86_m: result.diameter_power86,
            peak_irradiance_ratio: result.peak_irradiance_ratio,
            relative_rayleigh_range: result.relative_rayleigh_range,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_clipped_focus_init(focus: *mut spotwise_clipped_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// The focus of a collimated Gaussian beam (M^2 = 1) behind an aperture at an ideal lens.
///
/// The formula contains the aperture, so that clipping raises no flag but
/// SPOTWISE_VALIDITY_NO_POWER_86: where the beam is more than 1.25 apertures wide, 86.5 % of the
/// power reach into the first diffraction ring, and no closed form holds. For M^2 above 1 or
/// aberration use spotwise_wave_widths(). C does not notice if two of the lengths are swapped: beam,
/// aperture, lens.
///
/// @param[in]  wavelength_m       vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  diameter_at_lens_m diameter of the beam before the aperture in metres, 1/e^2; range:
///                                SPOTWISE_PARAM_DIAMETER_AT_LENS.
/// @param[in]  clear_aperture_m   diameter of the aperture in metres, INFINITY for none; range:
///                                SPOTWISE_PARAM_CLEAR_APERTURE.
/// @param[in]  focal_length_m     focal length in metres, converging; range:
///                                SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] focus              result; set with spotwise_clipped_focus_init(); not NULL. On any
///                                status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (clipping ratio below 0.2, or the half
///         angle of beam or aperture, whichever is narrower, above 0.3 rad).
///
/// Accuracy: 1/e^2 diameter within 0.1 %, FWHM 0.11 %, 86.5 % diameter 0.13 % of the diffraction
///           integral over the whole domain, transmitted power and peak exact; all evaluated to at
///           most 8 ulp (units in the last place).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: J. W. Goodman, Introduction to Fourier Optics, from memory; the diameters fitted by the
/// authors to the diffraction integral.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_clipped(
    wavelength_m: f64,
    diameter_at_lens_m: f64,
    clear_aperture_m: f64,
    focal_length_m: f64,
    focus: *mut spotwise_clipped_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focus, error, || {
            Ok(focus_clipped(wavelength_m, diameter_at_lens_m, clear_aperture_m, focal_length_m)?.into())
        })
    }
}
