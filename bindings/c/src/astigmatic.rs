//! A simple astigmatic beam: two axes, each with a waist of its own.

use crate::abi::{Plain, init, input, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::optics::{
    AstigmaticBeam, AstigmaticParameters, AstigmaticSection, Axis, astigmatic_at, astigmatic_parameters,
};

/// A simple astigmatic beam: its two axes are fixed and at right angles.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_astigmatic_beam {
    /// Size of this struct; spotwise_astigmatic_beam_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
    pub wavelength_m: f64,
    /// Beam propagation ratio M^2 in x; range: SPOTWISE_PARAM_M2_X.
    pub m2_x: f64,
    /// Waist diameter in x in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER_X.
    pub waist_diameter_x_m: f64,
    /// Where the waist in x lies in metres, + along the light (for a focused beam: away from the
    /// lens); range: SPOTWISE_PARAM_WAIST_Z_X. A raw waist upstream of the lens is therefore
    /// negative, where the waist_to_lens_m of a round beam is positive.
    pub waist_z_x_m: f64,
    /// Beam propagation ratio M^2 in y; range: SPOTWISE_PARAM_M2_Y.
    pub m2_y: f64,
    /// Waist diameter in y in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER_Y.
    pub waist_diameter_y_m: f64,
    /// Where the waist in y lies in metres, + along the light (for a focused beam: away from the
    /// lens); range: SPOTWISE_PARAM_WAIST_Z_Y. A raw waist upstream of the lens is therefore
    /// negative, where the waist_to_lens_m of a round beam is positive.
    pub waist_z_y_m: f64,
}
plain!(
    spotwise_astigmatic_beam, 64 bytes,
    words: [reserved],
    numbers: [
        wavelength_m,
        m2_x,
        waist_diameter_x_m,
        waist_z_x_m,
        m2_y,
        waist_diameter_y_m,
        waist_z_y_m,
    ]
);

impl From<spotwise_astigmatic_beam> for AstigmaticBeam {
    fn from(beam: spotwise_astigmatic_beam) -> Self {
        Self {
            wavelength: beam.wavelength_m,
            x: Axis { m2: beam.m2_x, waist_diameter: beam.waist_diameter_x_m, waist_z: beam.waist_z_x_m },
            y: Axis { m2: beam.m2_y, waist_diameter: beam.waist_diameter_y_m, waist_z: beam.waist_z_y_m },
        }
    }
}

impl From<AstigmaticBeam> for spotwise_astigmatic_beam {
    fn from(beam: AstigmaticBeam) -> Self {
        Self {
            wavelength_m: beam.wavelength,
            m2_x: beam.x.m2,
            waist_diameter_x_m: beam.x.waist_diameter,
            waist_z_x_m: beam.x.waist_z,
            m2_y: beam.y.m2,
            waist_diameter_y_m: beam.y.waist_diameter,
            waist_z_y_m: beam.y.waist_z,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_astigmatic_beam_init(beam: *mut spotwise_astigmatic_beam) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(beam) }
}

/// What follows from an astigmatic beam alone: the result of spotwise_astigmatic_parameters().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_astigmatic_parameters_result {
    /// Size of this struct; spotwise_astigmatic_parameters_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Rayleigh range in x in metres.
    pub rayleigh_range_x_m: f64,
    /// Rayleigh range in y in metres.
    pub rayleigh_range_y_m: f64,
    /// From the waist in x to the waist in y in metres, + along the light.
    pub waist_separation_m: f64,
    /// Magnitude of the separation over the mean of the two Rayleigh ranges.
    pub relative_astigmatism: f64,
    /// sqrt(M^2 in x * M^2 in y).
    pub m2_effective: f64,
    /// Where the effective diameter is smallest in metres, + along the light.
    pub effective_waist_z_m: f64,
    /// Smallest effective diameter sqrt((dx^2 + dy^2)/2) in metres.
    pub effective_waist_diameter_m: f64,
    /// Distance at which the effective diameter has grown by sqrt(2), in metres.
    pub effective_rayleigh_range_m: f64,
    /// Where the irradiance on the axis is greatest in metres, + along the light. Ill-defined, and
    /// good to fewer digits, where the top is flat.
    pub brightest_z_m: f64,
    /// The irradiance there over that of the two waists at one place.
    pub brightest_irradiance_ratio: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_astigmatic_parameters_result, 96 bytes,
    words: [validity],
    numbers: [
        rayleigh_range_x_m,
        rayleigh_range_y_m,
        waist_separation_m,
        relative_astigmatism,
        m2_effective,
        effective_waist_z_m,
        effective_waist_diameter_m,
        effective_rayleigh_range_m,
        brightest_z_m,
        brightest_irradiance_ratio,
        half_angle_rad,
    ]
);

impl From<AstigmaticParameters> for spotwise_astigmatic_parameters_result {
    fn from(result: AstigmaticParameters) -> Self {
        Self {
            validity: result.validity.bits(),
            rayleigh_range_x_m: result.rayleigh_range_x,
            rayleigh_range_y_m: result.rayleigh_range_y,
            waist_separation_m: result.waist_separation,
            relative_astigmatism: result.relative_astigmatism,
            m2_effective: result.m2_effective,
            effective_waist_z_m: result.effective_waist_z,
            effective_waist_diameter_m: result.effective_waist_diameter,
            effective_rayleigh_range_m: result.effective_rayleigh_range,
            brightest_z_m: result.brightest_z,
            brightest_irradiance_ratio: result.brightest_irradiance_ratio,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_astigmatic_parameters_result_init(
    parameters: *mut spotwise_astigmatic_parameters_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(parameters) }
}

/// An astigmatic beam at one place along its axis.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_astigmatic_section {
    /// Size of this struct; spotwise_astigmatic_section_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if the ellipticity exceeds 0.87, so that ISO 11146 calls the profile circular; else 0.
    pub circular: u32,
    /// 0.
    pub reserved: u32,
    /// Diameter in x in metres, 1/e^2 (D4 sigma).
    pub diameter_x_m: f64,
    /// Diameter in y in metres, 1/e^2 (D4 sigma).
    pub diameter_y_m: f64,
    /// Smaller over larger diameter.
    pub ellipticity: f64,
    /// sqrt((dx^2 + dy^2)/2) in metres, the effective diameter of ISO 11146.
    pub effective_diameter_m: f64,
    /// sqrt(dx * dy) in metres, the diameter of the circle of equal area.
    pub equal_area_diameter_m: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_astigmatic_section, 64 bytes,
    words: [validity, circular, reserved],
    numbers: [
        diameter_x_m,
        diameter_y_m,
        ellipticity,
        effective_diameter_m,
        equal_area_diameter_m,
        half_angle_rad,
    ]
);

impl From<AstigmaticSection> for spotwise_astigmatic_section {
    fn from(result: AstigmaticSection) -> Self {
        Self {
            validity: result.validity.bits(),
            circular: u32::from(result.circular),
            diameter_x_m: result.diameter_x,
            diameter_y_m: result.diameter_y,
            ellipticity: result.ellipticity,
            effective_diameter_m: result.effective_diameter,
            equal_area_diameter_m: result.equal_area_diameter,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_astigmatic_section_init(section: *mut spotwise_astigmatic_section) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(section) }
}

/// Rayleigh ranges, astigmatism, and the waist of the effective diameter of an astigmatic beam.
///
/// Of two places that are equally bright the one farther upstream is returned.
///
/// @param[in]  beam       beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
/// @param[out] parameters result; set with spotwise_astigmatic_parameters_result_init(); not NULL.
///                        On any status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: ISO 11146-1, from memory; the brightest place derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_astigmatic_parameters(
    beam: *const spotwise_astigmatic_beam,
    parameters: *mut spotwise_astigmatic_parameters_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(parameters, error, || Ok(astigmatic_parameters(&input(beam)?.into())?.into())) }
}

/// Diameters and ellipticity of an astigmatic beam at one place.
///
/// @param[in]  beam    beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
/// @param[in]  z_m     place on the beam's axis in metres, + along the light; range:
///                     SPOTWISE_PARAM_Z.
/// @param[out] section result; set with spotwise_astigmatic_section_init(); not NULL. On any status
///                     other than SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error   what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: ISO 11146-1, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_astigmatic_at(
    beam: *const spotwise_astigmatic_beam,
    z_m: f64,
    section: *mut spotwise_astigmatic_section,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(section, error, || Ok(astigmatic_at(&input(beam)?.into(), z_m)?.into())) }
}
