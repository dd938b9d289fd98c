//! A round beam about its waist.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, blank, length_fault, numbers, numbers_mut};
use crate::cone::spotwise_cone;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::model::optics::{
    Beam, BeamParameters, BeamSection, Cone, beam_at, beam_parameters, diameters_at, m2_from_divergence,
    waist_from_divergence, waist_from_rayleigh_range,
};

/// A round beam, described at its waist.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_beam {
    /// Size of this struct; spotwise_beam_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
    pub wavelength_m: f64,
    /// Beam propagation ratio M^2, 1 for a Gaussian beam; range: SPOTWISE_PARAM_M2.
    pub m2: f64,
    /// Waist diameter in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER.
    pub waist_diameter_m: f64,
}
plain!(spotwise_beam, 32 bytes, words: [reserved], numbers: [wavelength_m, m2, waist_diameter_m]);

impl From<spotwise_beam> for Beam {
    fn from(beam: spotwise_beam) -> Self {
        Self { wavelength: beam.wavelength_m, m2: beam.m2, waist_diameter: beam.waist_diameter_m }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_beam_init(beam: *mut spotwise_beam) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(beam) }
}

/// What follows from a beam alone: the result of spotwise_beam_parameters().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_beam_parameters_result {
    /// Size of this struct; spotwise_beam_parameters_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Distance from the waist at which the diameter has grown by sqrt(2), in metres.
    pub rayleigh_range_m: f64,
    /// Far-field half angle in radians.
    pub divergence_half_angle_rad: f64,
    /// Far-field full angle in radians.
    pub divergence_full_angle_rad: f64,
    /// Waist radius times half angle, in metre radians.
    pub beam_parameter_product_m_rad: f64,
}
plain!(
    spotwise_beam_parameters_result, 40 bytes,
    words: [validity],
    numbers: [
        rayleigh_range_m,
        divergence_half_angle_rad,
        divergence_full_angle_rad,
        beam_parameter_product_m_rad,
    ]
);

impl From<BeamParameters> for spotwise_beam_parameters_result {
    fn from(result: BeamParameters) -> Self {
        Self {
            validity: result.validity.bits(),
            rayleigh_range_m: result.rayleigh_range,
            divergence_half_angle_rad: result.divergence_half_angle,
            divergence_full_angle_rad: result.divergence_full_angle,
            beam_parameter_product_m_rad: result.beam_parameter_product,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_beam_parameters_result_init(
    parameters: *mut spotwise_beam_parameters_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(parameters) }
}

/// A beam at one place along its axis.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_beam_section {
    /// Size of this struct; spotwise_beam_section_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Diameter in metres, 1/e^2 (D4 sigma).
    pub diameter_m: f64,
    /// Curvature of the wavefront 1/R; 0 at the waist, + where the wave diverges along +z.
    pub wavefront_curvature_per_m: f64,
    /// Radius of curvature of the wavefront in metres; infinite at the waist.
    pub wavefront_radius_m: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_beam_section, 40 bytes,
    words: [validity],
    numbers: [diameter_m, wavefront_curvature_per_m, wavefront_radius_m, half_angle_rad]
);

impl From<BeamSection> for spotwise_beam_section {
    fn from(result: BeamSection) -> Self {
        Self {
            validity: result.validity.bits(),
            diameter_m: result.diameter,
            wavefront_curvature_per_m: result.wavefront_curvature,
            wavefront_radius_m: result.wavefront_radius,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_beam_section_init(section: *mut spotwise_beam_section) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(section) }
}

/// Rayleigh range, divergence and beam parameter product of a beam.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[out] parameters result; set with spotwise_beam_parameters_result_init(); not NULL. On any
///                        status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: ISO 11146-1, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_beam_parameters(
    beam: *const spotwise_beam,
    parameters: *mut spotwise_beam_parameters_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(parameters, error, || Ok(beam_parameters(&input(beam)?.into())?.into())) }
}

/// Diameter and wavefront of a beam at a distance from its waist.
///
/// @param[in]  beam    beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  z_m     distance from the waist in metres, + along the light; range:
///                     SPOTWISE_PARAM_Z.
/// @param[out] section result; set with spotwise_beam_section_init(); not NULL. On any status
///                     other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error   what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: diameter at most 3 ulp, wavefront at most 1.1 ulp
///           (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_beam_at(
    beam: *const spotwise_beam,
    z_m: f64,
    section: *mut spotwise_beam_section,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(section, error, || Ok(beam_at(&input(beam)?.into(), z_m)?.into())) }
}

/// Diameters of one beam at many distances from its waist: diameter_m[i] belongs to z_m[i].
///
/// Each is the same bits as spotwise_beam_at() gives.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  z_m        count distances from the waist in metres, + along the light; not NULL
///                        unless count is 0; range: SPOTWISE_PARAM_Z.
/// @param[in]  count      length of both arrays; may be 0.
/// @param[out] diameter_m count diameters in metres, 1/e^2 (D4 sigma); not NULL unless count is 0.
///                        It must not overlap z_m. On any status other than SPOTWISE_OK all of it
///                        is set to quiet NaNs, but for a count that no array can have: then
///                        nothing is written to it.
/// @param[out] cone       cone of the beam and its flags; set with spotwise_cone_init(); not NULL. On
///                        any status other than SPOTWISE_OK its number is set to a quiet NaN.
/// @param[out] error      what was refused, which of z_m is the first one; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 3 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_diameters_at(
    beam: *const spotwise_beam,
    z_m: *const f64,
    count: usize,
    diameter_m: *mut f64,
    cone: *mut spotwise_cone,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for `count` numbers, as the header demands.
    unsafe {
        let last_fault = pointer_fault(cone).or(error_pointer_fault(error));
        report(cone, error, || Ok(fill_diameters(beam, z_m, count, diameter_m, last_fault)?.into()))
    }
}

/// Fills the array: with diameters, whose cone it returns, or with NaN on a fault.
///
/// # Safety
/// Pointers are NULL or valid, those to arrays for `count` numbers.
unsafe fn fill_diameters(
    beam: *const spotwise_beam,
    z: *const f64,
    count: usize,
    diameters: *mut f64,
    last_fault: Option<Fault>,
) -> Result<Cone, Fault> {
    let arrays = array_fault(&[Extent::of(z, count)], &[Extent::of(diameters, count)]);
    // SAFETY: NULL or readable, as the caller vouches.
    let beam = unsafe { input(beam) };
    let pointers = beam.and_then(|beam| arrays.or(last_fault).map_or(Ok(Beam::from(beam)), Err));
    // No array is so long, so there is none to make blank.
    if let Some(fault) = length_fault(Param::Output, count) {
        return pointers.and(Err(fault));
    }
    // SAFETY: NULL or writable for `count` numbers, as the caller vouches.
    unsafe { blank(diameters, count) }
    let beam = pointers?;
    // SAFETY: not NULL unless empty, valid for `count` numbers as the caller vouches, apart, blank.
    let (z, diameters) = unsafe { (numbers(z, count), numbers_mut(diameters, count)) };
    Ok(diameters_at(&beam, z, diameters)?)
}

/// Waist diameter of the beam that has this Rayleigh range.
///
/// @param[in]  wavelength_m     vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  m2               beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
/// @param[in]  rayleigh_range_m Rayleigh range in metres; range: SPOTWISE_PARAM_RAYLEIGH_RANGE.
/// @param[out] waist_diameter_m waist diameter in metres, 1/e^2 (D4 sigma); not NULL. On any status
///                              other than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error            what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (waist out of range, or half angle
///         above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: ISO 11146-1, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_waist_from_rayleigh_range(
    wavelength_m: f64,
    m2: f64,
    rayleigh_range_m: f64,
    waist_diameter_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(waist_diameter_m, error, || Ok(waist_from_rayleigh_range(wavelength_m, m2, rayleigh_range_m)?))
    }
}

/// Waist diameter of the beam that has this far-field full angle.
///
/// @param[in]  wavelength_m              vacuum wavelength in metres; range:
///                                       SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  m2                        beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
/// @param[in]  divergence_full_angle_rad far-field full angle in radians; range:
///                                       SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE.
/// @param[out] waist_diameter_m          waist diameter in metres, 1/e^2 (D4 sigma); not NULL. On
///                                       any status other than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error                     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (waist out of range, or half angle
///         above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: ISO 11146-1, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_waist_from_divergence(
    wavelength_m: f64,
    m2: f64,
    divergence_full_angle_rad: f64,
    waist_diameter_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(waist_diameter_m, error, || {
            Ok(waist_from_divergence(wavelength_m, m2, divergence_full_angle_rad)?)
        })
    }
}

/// M^2 of the beam with this waist diameter and far-field full angle.
///
/// Below 1 no beam can be: one of the three measurements is then wrong, often a radius taken for
/// a diameter or a half angle for the full one.
///
/// @param[in]  wavelength_m              vacuum wavelength in metres; range:
///                                       SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  waist_diameter_m          waist diameter in metres, 1/e^2 (D4 sigma); range:
///                                       SPOTWISE_PARAM_WAIST_DIAMETER.
/// @param[in]  divergence_full_angle_rad far-field full angle in radians; range:
///                                       SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE.
/// @param[out] m2                        beam propagation ratio M^2; not NULL. On any status other
///                                       than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error                     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (M^2 would be out of range).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: ISO 11146-1, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_m2_from_divergence(
    wavelength_m: f64,
    waist_diameter_m: f64,
    divergence_full_angle_rad: f64,
    m2: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(m2, error, || {
            Ok(m2_from_divergence(wavelength_m, waist_diameter_m, divergence_full_angle_rad)?)
        })
    }
}
