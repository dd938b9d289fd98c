//! Flat windows and plates in a converging beam, and focus inside a transparent part.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::optics::{InsideFocus, PlateFocus, focus_behind_plate, focus_inside};

/// What a flat plate does to a focus behind it.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_plate_focus {
    /// Size of this struct; spotwise_plate_focus_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// How far the waist moves in metres, + away from the lens.
    pub focus_shift_m: f64,
    /// How far the crossing of the rays at the 1/e^2 cone moves in metres, + away from the lens.
    pub edge_focus_shift_m: f64,
    /// Quartic wavefront aberration of the plate at the 1/e^2 radius in radians, negative: of the
    /// opposite sign to that of a converging singlet.
    pub aberration_phase_rad: f64,
    /// Magnitude of the aberration phase over M^2.
    pub normalised_aberration: f64,
    /// Half angle of the cone in air in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_plate_focus, 48 bytes,
    words: [validity],
    numbers: [
        focus_shift_m,
        edge_focus_shift_m,
        aberration_phase_rad,
        normalised_aberration,
        half_angle_rad,
    ]
);

impl From<PlateFocus> for spotwise_plate_focus {
    fn from(result: PlateFocus) -> Self {
        Self {
            validity: result.validity.bits(),
            focus_shift_m: result.focus_shift,
            edge_focus_shift_m: result.edge_focus_shift,
            aberration_phase_rad: result.aberration_phase,
            normalised_aberration: result.normalised_aberration,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_plate_focus_init(focus: *mut spotwise_plate_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// A focus inside a transparent part.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_inside_focus {
    /// Size of this struct; spotwise_inside_focus_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// From the face of the part to the waist in metres.
    pub depth_m: f64,
    /// From the face to the crossing of the rays at the 1/e^2 cone in metres.
    pub edge_depth_m: f64,
    /// Rayleigh range inside the part in metres; the waist diameter is that in air.
    pub rayleigh_range_m: f64,
    /// Quartic wavefront aberration at the 1/e^2 radius in radians, negative.
    pub aberration_phase_rad: f64,
    /// Magnitude of the aberration phase over M^2.
    pub normalised_aberration: f64,
    /// Half angle of the cone in air in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_inside_focus, 56 bytes,
    words: [validity],
    numbers: [
        depth_m,
        edge_depth_m,
        rayleigh_range_m,
        aberration_phase_rad,
        normalised_aberration,
        half_angle_rad,
    ]
);

impl From<InsideFocus> for spotwise_inside_focus {
    fn from(result: InsideFocus) -> Self {
        Self {
            validity: result.validity.bits(),
            depth_m: result.depth,
            edge_depth_m: result.edge_depth,
            rayleigh_range_m: result.rayleigh_range,
            aberration_phase_rad: result.aberration_phase,
            normalised_aberration: result.normalised_aberration,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_inside_focus_init(focus: *mut spotwise_inside_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// What a flat plate at right angles to a converging beam does to the focus behind it.
///
/// It does not matter where between lens and focus the plate stands; waist diameter, M^2 and cone
/// stay. What the aberration phase does to the spot is told by spotwise_aberration_growth(). A tilted
/// plate is not modelled.
///
/// @param[in]  beam        focused beam in air; set with spotwise_beam_init(); not NULL.
/// @param[in]  thickness_m thickness of the plate in metres; range: SPOTWISE_PARAM_THICKNESS.
/// @param[in]  index       refractive index of the plate; range: SPOTWISE_PARAM_REFRACTIVE_INDEX.
/// @param[out] focus       result; set with spotwise_plate_focus_init(); not NULL. On any status other
///                         than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error       what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, or
///         aberration phase above 1e4 rad).
///
/// Accuracy: at most 0.75 ulp (1.5 for a length below 1e-260 m), the edge at most 4 ulp (units in the last place) of the exact result;
///           the quartic phase is within 1.3 % of the exact one for an index from 1.5, within 3.1 %
///           for any.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: Snell's law; the phase derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_behind_plate(
    beam: *const spotwise_beam,
    thickness_m: f64,
    index: f64,
    focus: *mut spotwise_plate_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focus, error, || Ok(focus_behind_plate(&input(beam)?.into(), thickness_m, index)?.into()))
    }
}

/// Where a beam comes to focus inside a transparent part, when its lens is lowered from focus on the
/// face of the part.
///
/// The depth is the index times the way of the lens. The waist diameter in the part is that in air.
///
/// @param[in]  beam              focused beam in air; set with spotwise_beam_init(); not NULL.
/// @param[in]  lens_lowered_by_m way of the lens toward the part in metres; range:
///                               SPOTWISE_PARAM_LENS_LOWERED_BY.
/// @param[in]  index             refractive index of the part; range:
///                               SPOTWISE_PARAM_REFRACTIVE_INDEX.
/// @param[out] focus             result; set with spotwise_inside_focus_init(); not NULL. On any
///                               status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error             what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, or
///         aberration phase above 1e4 rad).
///
/// Accuracy: at most 0.75 ulp (1.5 for a length below 1e-260 m), the edge at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: Snell's law; the phase as that of a plate as thick as the depth.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_inside(
    beam: *const spotwise_beam,
    lens_lowered_by_m: f64,
    index: f64,
    focus: *mut spotwise_inside_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focus, error, || Ok(focus_inside(&input(beam)?.into(), lens_lowered_by_m, index)?.into()))
    }
}
