//! Beam widths by their definitions, and the power inside an aperture.

use crate::abi::report;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::optics::{WidthDefinition, convert_width, diameter_for_power, power_through_aperture};

/// The same Gaussian beam's diameter by another definition of width.
///
/// For a Gaussian profile only: a beam with M^2 > 1 has another profile, whose widths stand in
/// other proportions. C does not notice if from and to are swapped: the definition of diameter_m
/// comes first.
///
/// @param[in]  diameter_m  diameter by the definition from, in metres; range:
///                         SPOTWISE_PARAM_BEAM_DIAMETER.
/// @param[in]  from        one of SPOTWISE_WIDTH_*.
/// @param[in]  to          one of SPOTWISE_WIDTH_*.
/// @param[out] converted_m diameter by the definition to, in metres; not NULL. On any status other
///                         than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error       what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: A. E. Siegman, Lasers (1986), section 17.1, from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_convert_width(
    diameter_m: f64,
    from: u32,
    to: u32,
    converted_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(converted_m, error, || {
            let from = WidthDefinition::from_code(from)?;
            let to = WidthDefinition::from_code(to)?;
            Ok(convert_width(diameter_m, from, to)?)
        })
    }
}

/// Share of a Gaussian beam's power that passes a centred round aperture.
///
/// Diffraction at the aperture is not modelled. C does not notice if the two diameters are swapped:
/// the beam's comes first.
///
/// @param[in]  beam_diameter_m     1/e^2 (D4 sigma) diameter in metres; range:
///                                 SPOTWISE_PARAM_BEAM_DIAMETER.
/// @param[in]  aperture_diameter_m diameter of the aperture in metres; range:
///                                 SPOTWISE_PARAM_APERTURE_DIAMETER.
/// @param[out] power_share         share of the power, from 0 to 1; not NULL. On any status other
///                                 than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error               what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 2 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: A. E. Siegman, Lasers (1986), section 17.1, from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_power_through_aperture(
    beam_diameter_m: f64,
    aperture_diameter_m: f64,
    power_share: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(power_share, error, || Ok(power_through_aperture(beam_diameter_m, aperture_diameter_m)?))
    }
}

/// Diameter of the centred round aperture that passes this share of a Gaussian beam's power.
///
/// @param[in]  beam_diameter_m     1/e^2 (D4 sigma) diameter in metres; range:
///                                 SPOTWISE_PARAM_BEAM_DIAMETER.
/// @param[in]  power_share         share of the power, from 0 to below 1; range:
///                                 SPOTWISE_PARAM_POWER_SHARE.
/// @param[out] aperture_diameter_m diameter of the aperture in metres; not NULL. On any status
///                                 other than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error               what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 2 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: A. E. Siegman, Lasers (1986), section 17.1, from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_diameter_for_power(
    beam_diameter_m: f64,
    power_share: f64,
    aperture_diameter_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(aperture_diameter_m, error, || Ok(diameter_for_power(beam_diameter_m, power_share)?)) }
}
