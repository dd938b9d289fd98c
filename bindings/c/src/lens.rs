//! The ideal lens acting on a beam.

use crate::abi::{Plain, init, input, plain, report};
use crate::astigmatic::spotwise_astigmatic_beam;
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::optics::{
    AstigmaticFocus, FocusedBeam, focus_astigmatic, focus_collimated, focus_through_lens,
};

/// A beam behind a lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_focused_beam {
    /// Size of this struct; spotwise_focused_beam_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply to the raw or the focused cone.
    pub validity: u32,
    /// Waist diameter behind the lens in metres, 1/e^2 (D4 sigma): the spot in focus.
    pub waist_diameter_m: f64,
    /// Rayleigh range behind the lens in metres.
    pub rayleigh_range_m: f64,
    /// Far-field full angle of the focused cone in radians.
    pub divergence_full_angle_rad: f64,
    /// New waist over raw waist.
    pub magnification: f64,
    /// From the focal point to the waist in metres, + away from the lens.
    pub focus_shift_m: f64,
    /// From the lens to the waist in metres; negative for a virtual waist.
    pub lens_to_waist_m: f64,
    /// Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
    pub diameter_at_lens_m: f64,
    /// Greatest 1/e^2 half angle before and behind the lens in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_focused_beam, 72 bytes,
    words: [validity],
    numbers: [
        waist_diameter_m,
        rayleigh_range_m,
        divergence_full_angle_rad,
        magnification,
        focus_shift_m,
        lens_to_waist_m,
        diameter_at_lens_m,
        half_angle_rad,
    ]
);

impl From<FocusedBeam> for spotwise_focused_beam {
    fn from(result: FocusedBeam) -> Self {
        Self {
            validity: result.validity.bits(),
            waist_diameter_m: result.waist_diameter,
            rayleigh_range_m: result.rayleigh_range,
            divergence_full_angle_rad: result.divergence_full_angle,
            magnification: result.magnification,
            focus_shift_m: result.focus_shift,
            lens_to_waist_m: result.lens_to_waist,
            diameter_at_lens_m: result.diameter_at_lens,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_focused_beam_init(focused: *mut spotwise_focused_beam) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focused) }
}

/// An astigmatic beam behind an ideal lens: the result of spotwise_focus_astigmatic().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_astigmatic_focus {
    /// Size of this struct; spotwise_astigmatic_focus_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply to the raw or the focused cone of either axis.
    pub validity: u32,
    /// Greatest 1/e^2 half angle before and behind the lens in either axis in radians: the number
    /// behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// The focused beam; its z = 0 lies at the focal point of the lens.
    pub beam: spotwise_astigmatic_beam,
}
plain!(
    spotwise_astigmatic_focus, 80 bytes,
    words: [validity],
    numbers: [half_angle_rad],
    nested: [beam: spotwise_astigmatic_beam]
);

impl From<AstigmaticFocus> for spotwise_astigmatic_focus {
    fn from(result: AstigmaticFocus) -> Self {
        Self {
            validity: result.validity.bits(),
            half_angle_rad: result.half_angle,
            beam: result.beam.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the beam, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_astigmatic_focus_init(focused: *mut spotwise_astigmatic_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focused) }
}

/// The waist that an ideal lens makes of a raw beam whose waist is known.
///
/// Aberration, clipping and the thickness of the lens are not modelled. C does not notice if the two
/// lengths are swapped; spotwise_focus_check() takes them as named members.
///
/// @param[in]  raw             raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  waist_to_lens_m from the raw waist to the lens in metres, + when the waist lies
///                             upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS. The waist_z_x_m of an
///                             astigmatic beam counts the other way round.
/// @param[in]  focal_length_m  focal length in metres, + converging; range:
///                             SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] focused         result; set with spotwise_focused_beam_init(); not NULL. On any
///                             status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or focused half angle above
///         0.3 rad, or a waist outside 1e-9 to 10 m).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_through_lens(
    raw: *const spotwise_beam,
    waist_to_lens_m: f64,
    focal_length_m: f64,
    focused: *mut spotwise_focused_beam,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focused, error, || {
            Ok(focus_through_lens(&input(raw)?.into(), waist_to_lens_m, focal_length_m)?.into())
        })
    }
}

/// The waist that an ideal lens makes of a collimated beam: one whose waist lies at the lens.
///
/// As spotwise_focus_through_lens() with waist_to_lens_m = 0. C does not notice if the diameter and
/// the focal length are swapped; spotwise_focus_check() takes them as named members.
///
/// @param[in]  wavelength_m       vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  m2                 beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
/// @param[in]  diameter_at_lens_m diameter at the lens in metres, 1/e^2 (D4 sigma); range:
///                                SPOTWISE_PARAM_DIAMETER_AT_LENS.
/// @param[in]  focal_length_m     focal length in metres, + converging; range:
///                                SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] focused            result; set with spotwise_focused_beam_init(); not NULL. On any
///                                status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or focused half angle above
///         0.3 rad, or a waist outside 1e-9 to 10 m).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_collimated(
    wavelength_m: f64,
    m2: f64,
    diameter_at_lens_m: f64,
    focal_length_m: f64,
    focused: *mut spotwise_focused_beam,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focused, error, || {
            Ok(focus_collimated(wavelength_m, m2, diameter_at_lens_m, focal_length_m)?.into())
        })
    }
}

/// The beam that an ideal lens makes of a simple astigmatic raw beam, axis by axis.
///
/// The raw beam has its z = 0 at the lens, so that a raw waist upstream has a negative z. The focused
/// one has its z = 0 at the focal point of the lens. Both count + along the light.
///
/// @param[in]  raw            raw beam; set with spotwise_astigmatic_beam_init(), z = 0 at the
///                            lens; not NULL.
/// @param[in]  focal_length_m focal length in metres, + converging; range:
///                            SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] focused        result; set with spotwise_astigmatic_focus_init(); not NULL. raw may be
///                            its beam. On any status other than SPOTWISE_OK its numbers are set to a
///                            quiet NaN.
/// @param[out] error          what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or focused half angle above
///         0.3 rad, or a waist outside 1e-9 to 10 m).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_astigmatic(
    raw: *const spotwise_astigmatic_beam,
    focal_length_m: f64,
    focused: *mut spotwise_astigmatic_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(focused, error, || Ok(focus_astigmatic(&input(raw)?.into(), focal_length_m)?.into())) }
}
