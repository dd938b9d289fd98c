//! The mark of one pulse or of one line by itself.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{MarkKind, MarkLimits, MarkWidth, mark_limits, mark_width};

/// A mark at one height: the result of spotwise_mark_width().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_width_result {
    /// Size of this struct; spotwise_mark_width_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if it marks at all; else 0.
    pub marks: u32,
    /// 0.
    pub reserved: u32,
    /// Width of the line or diameter of the dot in metres; 0 without a mark.
    pub width_m: f64,
    /// Dose ratio at this height.
    pub dose_ratio: f64,
    /// Spot diameter at this height in metres, 1/e^2 (D4 sigma).
    pub spot_diameter_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_mark_width_result, 48 bytes,
    words: [validity, marks, reserved],
    numbers: [width_m, dose_ratio, spot_diameter_m, half_angle_rad]
);

impl From<MarkWidth> for spotwise_mark_width_result {
    fn from(result: MarkWidth) -> Self {
        Self {
            validity: result.validity.bits(),
            marks: u32::from(result.marks),
            width_m: result.width,
            dose_ratio: result.dose_ratio,
            spot_diameter_m: result.spot_diameter,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_width_result_init(mark: *mut spotwise_mark_width_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(mark) }
}

/// Where a mark is widest, and where it vanishes: the result of spotwise_mark_limits(). Offsets
/// count from the waist, alike on either side.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_limits_result {
    /// Size of this struct; spotwise_mark_limits_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if there is a mark in the waist; if 0, there is none anywhere, and widths and offsets are 0.
    pub marks: u32,
    /// 0.
    pub reserved: u32,
    /// Width of the mark in the waist in metres.
    pub width_in_waist_m: f64,
    /// Offset from the waist at which the mark is widest in metres; 0 if that is the waist.
    pub widest_offset_m: f64,
    /// Width of the mark there in metres.
    pub greatest_width_m: f64,
    /// Offset from the waist at which the mark vanishes in metres.
    pub vanishing_offset_m: f64,
    /// Dose ratio in the waist at which the width would not react to focus to second order: sqrt(e)
    /// for a line, e for a pulse.
    pub focus_insensitive_dose_ratio: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_mark_limits_result, 64 bytes,
    words: [validity, marks, reserved],
    numbers: [
        width_in_waist_m,
        widest_offset_m,
        greatest_width_m,
        vanishing_offset_m,
        focus_insensitive_dose_ratio,
        half_angle_rad,
    ]
);

impl From<MarkLimits> for spotwise_mark_limits_result {
    fn from(result: MarkLimits) -> Self {
        Self {
            validity: result.validity.bits(),
            marks: u32::from(result.marks),
            width_in_waist_m: result.width_in_waist,
            widest_offset_m: result.widest_offset,
            greatest_width_m: result.greatest_width,
            vanishing_offset_m: result.vanishing_offset,
            focus_insensitive_dose_ratio: result.focus_insensitive_dose_ratio,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_limits_result_init(limits: *mut spotwise_mark_limits_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(limits) }
}

/// Width of the mark of one pulse or line at an offset from the waist.
///
/// d sqrt(L/2) with L = ln(q) - n ln(g), g being the growth of the spot and n 2 for a pulse, 1 for
/// a line. No mark is no error: the width is then 0 and marks 0. Heat that stays or spreads, incubation
/// and an elliptic spot are not modelled. C does not notice if the dose ratio and the offset are swapped.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  mark_kind  what makes the mark: one of SPOTWISE_MARK_*.
/// @param[in]  dose_ratio dose in the waist over the dose at which the material just marks; range:
///                        SPOTWISE_PARAM_ANY_DOSE_RATIO.
/// @param[in]  z_offset_m offset of the surface from the waist in metres, + away from the lens;
///                        range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[out] mark       result; set with spotwise_mark_width_result_init(); not NULL. On any
///                        status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                        codes and flags to 0.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
///         (half angle above 0.3 rad).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result; the width at most 4 ulp
///           times 1 + (1 + |ln q|)/L, which is large where the mark is about to vanish.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a line at twice the threshold, 10.6 um, M^2 = 1.2, waist 88 um: 51.8 um wide in the
///          waist, gone beyond 0.828 mm.
/// Source: derived by the authors; for pulses J. M. Liu, Optics Letters 7, 196 (1982), from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_mark_width(
    beam: *const spotwise_beam,
    mark_kind: u32,
    dose_ratio: f64,
    z_offset_m: f64,
    mark: *mut spotwise_mark_width_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(mark, error, || {
            let beam = input(beam)?.into();
            Ok(mark_width(&beam, MarkKind::from_code(mark_kind)?, dose_ratio, z_offset_m)?.into())
        })
    }
}

/// Where the mark of a pulse or line is widest and where it vanishes.
///
/// It vanishes z_R sqrt(q^(2/n) - 1) from the waist. For ln(q) > n/2 it is widest z_R
/// sqrt(q^(2/n)/e - 1) from it, and sqrt(n) (d/2) q^(1/n)/sqrt(e) wide there; else it is widest in
/// the waist, d sqrt(ln(q)/2). At q = sqrt(e) for a line and q = e for a pulse the width does not
/// react to focus to second order: robust in production, useless for finding focus. For q up to 1 there
/// is no mark at any height, which is no error: marks is then 0.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  mark_kind  what makes the mark: one of SPOTWISE_MARK_*.
/// @param[in]  dose_ratio dose in the waist over the dose at which the material just marks; range:
///                        SPOTWISE_PARAM_ANY_DOSE_RATIO.
/// @param[out] limits     result; set with spotwise_mark_limits_result_init(); not NULL. On any
///                        status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                        codes and flags to 0.
/// @param[out] error      what was refused; may be NULL.
/// @return as spotwise_mark_width().
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result; the offset of the widest
///           mark at most 4 ulp times 1 + 1/(q^(2/n)/e - 1), which is large where it leaves the
///           waist.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a line at 4 times the threshold, waist 88 um: 73.3 um wide in the waist, at most 106.7
///          um.
/// Source: as spotwise_mark_width().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_mark_limits(
    beam: *const spotwise_beam,
    mark_kind: u32,
    dose_ratio: f64,
    limits: *mut spotwise_mark_limits_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(limits, error, || {
            let beam = input(beam)?.into();
            Ok(mark_limits(&beam, MarkKind::from_code(mark_kind)?, dose_ratio)?.into())
        })
    }
}
