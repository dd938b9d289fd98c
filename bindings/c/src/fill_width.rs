//! How wide a filled stroke comes out.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{FillLimits, FillWidth, fill_limits, fill_width};

/// A filled stroke at one height: the result of spotwise_fill_width().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_fill_width_result {
    /// Size of this struct; spotwise_fill_width_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if it marks at all; else 0.
    pub marks: u32,
    /// 0.
    pub reserved: u32,
    /// Width that marks in metres; 0 if nothing does.
    pub width_m: f64,
    /// That width less the drawn one in metres, + where the stroke grows.
    pub growth_m: f64,
    /// Exposure on the middle of the stroke over that of a wide fill.
    pub exposure: f64,
    /// Spot diameter at this height in metres, 1/e^2 (D4 sigma).
    pub spot_diameter_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_fill_width_result, 56 bytes,
    words: [validity, marks, reserved],
    numbers: [width_m, growth_m, exposure, spot_diameter_m, half_angle_rad]
);

impl From<FillWidth> for spotwise_fill_width_result {
    fn from(result: FillWidth) -> Self {
        Self {
            validity: result.validity.bits(),
            marks: u32::from(result.marks),
            width_m: result.width,
            growth_m: result.growth,
            exposure: result.exposure,
            spot_diameter_m: result.spot_diameter,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_fill_width_result_init(fill: *mut spotwise_fill_width_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(fill) }
}

/// Where a filled stroke is widest, and where it vanishes: the result of spotwise_fill_limits().
/// Offsets count from the waist, alike on either side.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_fill_limits_result {
    /// Size of this struct; spotwise_fill_limits_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if the stroke marks in the waist; if 0, it marks nowhere, and widths and offsets are 0.
    pub marks: u32,
    /// 0.
    pub reserved: u32,
    /// Width in the waist in metres.
    pub width_in_waist_m: f64,
    /// Offset from the waist at which the stroke is widest in metres; 0 if that is the waist.
    pub widest_offset_m: f64,
    /// Width there in metres.
    pub greatest_width_m: f64,
    /// Offset from the waist at which the stroke vanishes in metres.
    pub vanishing_offset_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_fill_limits_result, 56 bytes,
    words: [validity, marks, reserved],
    numbers: [width_in_waist_m, widest_offset_m, greatest_width_m, vanishing_offset_m, half_angle_rad]
);

impl From<FillLimits> for spotwise_fill_limits_result {
    fn from(result: FillLimits) -> Self {
        Self {
            validity: result.validity.bits(),
            marks: u32::from(result.marks),
            width_in_waist_m: result.width_in_waist,
            widest_offset_m: result.widest_offset,
            greatest_width_m: result.greatest_width,
            vanishing_offset_m: result.vanishing_offset,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_fill_limits_result_init(limits: *mut spotwise_fill_limits_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(limits) }
}

/// Width of a long filled stroke at an offset from the waist.
///
/// The width 2 y at whose edges q (erf(sqrt(2) (y + h)/w) - erf(sqrt(2) (y - h)/w))/2 = 1, h being
/// half the drawn width and w half the spot diameter. The fill dose does not change with focus,
/// only the blur does. A stroke that is lost is no error: the width is then 0 and marks 0; so it is for
/// every stroke below a dose ratio of 1.000001. The fill is taken for even; neighbours and heat are not
/// modelled. C does not notice if drawn width and offset are swapped.
///
/// @param[in]  beam          beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  drawn_width_m width of the stroke as it is drawn in metres; range:
///                           SPOTWISE_PARAM_DRAWN_WIDTH.
/// @param[in]  dose_ratio    fill dose over the dose at which the material just marks; range:
///                           SPOTWISE_PARAM_ANY_DOSE_RATIO.
/// @param[in]  z_offset_m    offset of the surface from the waist in metres, + away from the lens;
///                           range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[out] fill          result; set with spotwise_fill_width_result_init(); not NULL. On any
///                           status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                           codes and flags to 0.
/// @param[out] error         what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: width and growth at most 8 ulp (units in the last place) of the larger of drawn width
///           and spot, and times that over the width where the stroke comes out narrower: about to
///           vanish, its width hangs on the last digit of the dose. Exposure at most 4 ulp of the
///           exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 1 mm at 2.7 times the threshold under a spot of 88 um: 14.558 um wider than drawn.
/// Source: derived by the authors, a strip convolved with a Gaussian spot.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fill_width(
    beam: *const spotwise_beam,
    drawn_width_m: f64,
    dose_ratio: f64,
    z_offset_m: f64,
    fill: *mut spotwise_fill_width_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(fill, error, || {
            Ok(fill_width(&input(beam)?.into(), drawn_width_m, dose_ratio, z_offset_m)?.into())
        })
    }
}

/// Where a long filled stroke is widest and where it vanishes.
///
/// It vanishes where the spot is sqrt(2) a/erfinv(1/q) wide, a being the drawn width. Up to q = 2
/// it is widest in the waist. Below q = 1.000001 no stroke marks at any height, which is no error: marks
/// is then 0. C does not notice if drawn width and dose ratio are swapped.
///
/// @param[in]  beam          beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  drawn_width_m width of the stroke as it is drawn in metres; range:
///                           SPOTWISE_PARAM_DRAWN_WIDTH.
/// @param[in]  dose_ratio    fill dose over the dose at which the material just marks; range:
///                           SPOTWISE_PARAM_ANY_DOSE_RATIO.
/// @param[out] limits        result; set with spotwise_fill_limits_result_init(); not NULL. On any
///                           status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                           codes and flags to 0.
/// @param[out] error         what was refused; may be NULL.
/// @return as spotwise_fill_width().
///
/// Accuracy: the width in the waist as that of spotwise_fill_width(); the greatest width, off the
///           waist, at most 16 ulp (units in the last place) of the exact result; offsets at most
///           16 ulp times r^2/(r^2 - 1), r being the growth of the spot there.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 100 um at twice the threshold, 10.6 um, M^2 = 1.2, waist 88 um: lost beyond 1.5386 mm.
/// Source: as spotwise_fill_width().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fill_limits(
    beam: *const spotwise_beam,
    drawn_width_m: f64,
    dose_ratio: f64,
    limits: *mut spotwise_fill_limits_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(limits, error, || Ok(fill_limits(&input(beam)?.into(), drawn_width_m, dose_ratio)?.into()))
    }
}
