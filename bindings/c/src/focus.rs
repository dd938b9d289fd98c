//! How far the surface may move: z-offset and depth of focus.

use crate::abi::{Plain, init, input, plain, report};
use crate::astigmatic::spotwise_astigmatic_beam;
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Error;
use spotwise::model::focus::{
    AstigmaticDefocus, Defocus, DepthCriterion, FocusRange, astigmatic_defocus, astigmatic_depth_of_focus,
    defocus, depth_of_focus, offsets_for_diameter, offsets_for_growth,
};

/// A round beam on a surface that is off the waist: the result of spotwise_defocus().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_defocus_result {
    /// Size of this struct; spotwise_defocus_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Spot diameter on the surface in metres, 1/e^2 (D4 sigma).
    pub diameter_m: f64,
    /// Spot diameter over waist diameter, at least 1.
    pub growth: f64,
    /// Growth less one, with all its digits however small it is.
    pub growth_minus_one: f64,
    /// Irradiance on the axis over that at the waist, at most 1.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist, at most 1.
    pub line_dose_ratio: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_defocus_result, 56 bytes,
    words: [validity],
    numbers: [
        diameter_m,
        growth,
        growth_minus_one,
        irradiance_ratio,
        line_dose_ratio,
        half_angle_rad,
    ]
);

impl From<Defocus> for spotwise_defocus_result {
    fn from(result: Defocus) -> Self {
        Self {
            validity: result.validity.bits(),
            diameter_m: result.diameter,
            growth: result.growth,
            growth_minus_one: result.growth_minus_one,
            irradiance_ratio: result.irradiance_ratio,
            line_dose_ratio: result.line_dose_ratio,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_defocus_result_init(result: *mut spotwise_defocus_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(result) }
}

/// An astigmatic beam on a surface: the result of spotwise_astigmatic_defocus().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_astigmatic_defocus_result {
    /// Size of this struct; spotwise_astigmatic_defocus_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Diameter in x over the waist diameter in x, at least 1.
    pub growth_x: f64,
    /// Diameter in y over the waist diameter in y, at least 1.
    pub growth_y: f64,
    /// Irradiance on the axis over that of both waists at one place, at most 1.
    pub irradiance_ratio: f64,
    /// Peak dose of a line scanned along x over that at the waist in y, at most 1.
    pub line_dose_ratio_along_x: f64,
    /// Peak dose of a line scanned along y over that at the waist in x, at most 1.
    pub line_dose_ratio_along_y: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_astigmatic_defocus_result, 56 bytes,
    words: [validity],
    numbers: [
        growth_x,
        growth_y,
        irradiance_ratio,
        line_dose_ratio_along_x,
        line_dose_ratio_along_y,
        half_angle_rad,
    ]
);

impl From<AstigmaticDefocus> for spotwise_astigmatic_defocus_result {
    fn from(result: AstigmaticDefocus) -> Self {
        Self {
            validity: result.validity.bits(),
            growth_x: result.growth_x,
            growth_y: result.growth_y,
            irradiance_ratio: result.irradiance_ratio,
            line_dose_ratio_along_x: result.line_dose_ratio_along_x,
            line_dose_ratio_along_y: result.line_dose_ratio_along_y,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_astigmatic_defocus_result_init(
    result: *mut spotwise_astigmatic_defocus_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(result) }
}

/// What must hold for a height to count as in focus. Only the number that the criterion names is
/// read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_depth_criterion {
    /// Size of this struct; spotwise_depth_criterion_init() sets it.
    pub struct_size: u32,
    /// One of SPOTWISE_CRITERION_*.
    pub criterion: u32,
    /// Diameter over waist diameter, at least 1; for SPOTWISE_CRITERION_GROWTH; range:
    /// SPOTWISE_PARAM_GROWTH_RATIO.
    pub growth_ratio: f64,
    /// Share lost, 0.2 for a fifth; for SPOTWISE_CRITERION_IRRADIANCE_DROP and
    /// SPOTWISE_CRITERION_LINE_DOSE_DROP; range: SPOTWISE_PARAM_IRRADIANCE_DROP or
    /// SPOTWISE_PARAM_LINE_DOSE_DROP.
    pub drop: f64,
    /// Diameter in metres, 1/e^2 (D4 sigma); for SPOTWISE_CRITERION_LARGEST_DIAMETER; range:
    /// SPOTWISE_PARAM_LARGEST_DIAMETER.
    pub largest_diameter_m: f64,
}
plain!(
    spotwise_depth_criterion, 32 bytes,
    words: [criterion],
    numbers: [growth_ratio, drop, largest_diameter_m]
);

impl TryFrom<spotwise_depth_criterion> for DepthCriterion {
    type Error = Error;

    fn try_from(given: spotwise_depth_criterion) -> Result<Self, Error> {
        Self::from_code(given.criterion, given.growth_ratio, given.drop, given.largest_diameter_m)
    }
}

/// Sets struct_size, the criterion to 0, which is none, and every number to a quiet NaN. NULL does
/// nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_depth_criterion_init(criterion: *mut spotwise_depth_criterion) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(criterion) }
}

/// A range of heights, by its two ends. Heights count from the waist of a round beam, or from the
/// z = 0 of an astigmatic one, + away from the lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_focus_range {
    /// Size of this struct; spotwise_focus_range_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// The end nearer the lens in metres.
    pub toward_lens_z_m: f64,
    /// The end farther from the lens in metres.
    pub away_from_lens_z_m: f64,
    /// From one end to the other in metres.
    pub full_m: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_focus_range, 40 bytes,
    words: [validity],
    numbers: [toward_lens_z_m, away_from_lens_z_m, full_m, half_angle_rad]
);

impl From<FocusRange> for spotwise_focus_range {
    fn from(result: FocusRange) -> Self {
        Self {
            validity: result.validity.bits(),
            toward_lens_z_m: result.toward_lens_z,
            away_from_lens_z_m: result.away_from_lens_z,
            full_m: result.full,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_focus_range_init(range: *mut spotwise_focus_range) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(range) }
}

/// Spot diameter, growth, irradiance and line dose of a beam on a surface that is off the waist.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  z_offset_m offset of the surface from the waist in metres, + away from the lens;
///                        range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[out] result     result; set with spotwise_defocus_result_init(); not NULL. On any status
///                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result. The diameter may
///           differ in its last digits from that of spotwise_beam_at(), whose form vectorises.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; the line dose derived
/// by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_defocus(
    beam: *const spotwise_beam,
    z_offset_m: f64,
    result: *mut spotwise_defocus_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(result, error, || Ok(defocus(&input(beam)?.into(), z_offset_m)?.into())) }
}

/// Growth, irradiance and line dose of an astigmatic beam on a surface.
///
/// @param[in]  beam   beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
/// @param[in]  z_m    place of the surface on the beam's axis in metres, + away from the lens;
///                    range: SPOTWISE_PARAM_Z.
/// @param[out] result result; set with spotwise_astigmatic_defocus_result_init(); not NULL. On any
///                    status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error  what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory, for each axis.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_astigmatic_defocus(
    beam: *const spotwise_astigmatic_beam,
    z_m: f64,
    result: *mut spotwise_astigmatic_defocus_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(result, error, || Ok(astigmatic_defocus(&input(beam)?.into(), z_m)?.into())) }
}

/// The two offsets, one on each side of the waist, at which the spot has this diameter.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  diameter_m spot diameter in metres, 1/e^2 (D4 sigma); range:
///                        SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[out] range      result; set with spotwise_focus_range_init(); not NULL. On any status
///                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad),
///         SPOTWISE_E_UNREACHABLE (smaller than the waist).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_offsets_for_diameter(
    beam: *const spotwise_beam,
    diameter_m: f64,
    range: *mut spotwise_focus_range,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(range, error, || Ok(offsets_for_diameter(&input(beam)?.into(), diameter_m)?.into())) }
}

/// The two offsets, one on each side of the waist, at which the spot has grown by this ratio.
///
/// @param[in]  beam   beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  growth spot diameter over waist diameter, at least 1; range:
///                    SPOTWISE_PARAM_GROWTH_RATIO.
/// @param[out] range  result; set with spotwise_focus_range_init(); not NULL. On any status other
///                    than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error  what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_offsets_for_growth(
    beam: *const spotwise_beam,
    growth: f64,
    range: *mut spotwise_focus_range,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(range, error, || Ok(offsets_for_growth(&input(beam)?.into(), growth)?.into())) }
}

/// Depth of focus of a round beam, from its end toward the lens to its end away from it.
///
/// @param[in]  beam      beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not
///                       NULL.
/// @param[out] range     result; set with spotwise_focus_range_init(); not NULL. On any status
///                       other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle
///         above 0.3 rad), SPOTWISE_E_UNREACHABLE (largest diameter below the waist).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; no standard that the
/// authors could read defines a depth of focus, so the criterion is always named.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_depth_of_focus(
    beam: *const spotwise_beam,
    criterion: *const spotwise_depth_criterion,
    range: *mut spotwise_focus_range,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(range, error, || {
            let beam = input(beam)?.into();
            let criterion = input(criterion)?.try_into()?;
            Ok(depth_of_focus(&beam, criterion)?.into())
        })
    }
}

/// Depth of focus of an astigmatic beam; heights count from the beam's own z = 0.
///
/// Growth, largest diameter and line dose must hold in both axes, each compared with its own
/// waist. The irradiance is compared with that of the two waists at one place.
///
/// @param[in]  beam      beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
/// @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not
///                       NULL.
/// @param[out] range     result; set with spotwise_focus_range_init(); not NULL. On any status
///                       other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle
///         above 0.3 rad), SPOTWISE_E_UNREACHABLE (no height meets the criterion).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory, for each axis.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_astigmatic_depth_of_focus(
    beam: *const spotwise_astigmatic_beam,
    criterion: *const spotwise_depth_criterion,
    range: *mut spotwise_focus_range,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(range, error, || {
            let beam = input(beam)?.into();
            let criterion = input(criterion)?.try_into()?;
            Ok(astigmatic_depth_of_focus(&beam, criterion)?.into())
        })
    }
}
