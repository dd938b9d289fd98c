//! Exposure at the centre of a detail.

use crate::abi::{Plain, init, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{DetailExposure, detail_exposure};

/// Exposure at the centre of details of one size, over that of a wide fill: the result of
/// spotwise_detail_exposure().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_detail_exposure_result {
    /// Size of this struct; spotwise_detail_exposure_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// A long stroke of that width.
    pub bar: f64,
    /// A long gap of that width in a fill.
    pub gap: f64,
    /// A filled square of that side.
    pub square: f64,
    /// A filled disc of that diameter.
    pub dot: f64,
    /// An open disc of that diameter in a fill.
    pub hole: f64,
}
plain!(
    spotwise_detail_exposure_result, 48 bytes,
    words: [reserved],
    numbers: [bar, gap, square, dot, hole]
);

impl From<DetailExposure> for spotwise_detail_exposure_result {
    fn from(result: DetailExposure) -> Self {
        Self {
            bar: result.bar,
            gap: result.gap,
            square: result.square,
            dot: result.dot,
            hole: result.hole,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_detail_exposure_result_init(
    exposure: *mut spotwise_detail_exposure_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(exposure) }
}

/// Exposure at the centre of a bar, gap, square, dot and hole of one size, over that of a wide
/// fill.
///
/// With x = sqrt(2) size/diameter: erf(x), erfc(x), erf(x)^2, 1 - exp(-x^2), exp(-x^2). A detail is
/// kept while the dose ratio times this is at least 1, a gap or hole while it is below 1. C does
/// not notice if spot and size are swapped.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  detail_size_m   width, side or diameter of the detail in metres; range:
///                             SPOTWISE_PARAM_DETAIL_SIZE.
/// @param[out] exposure        result; set with spotwise_detail_exposure_result_init(); not NULL.
///                             On any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, the square at most 6 ulp;
///           gap and hole at most 4 ulp times 1 + 2 (size/spot diameter)^2.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: details as wide as the spot: a bar gets 0.9545, a dot 0.8647.
/// Source: derived by the authors, a strip, square or disc convolved with a Gaussian spot.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_detail_exposure(
    spot_diameter_m: f64,
    detail_size_m: f64,
    exposure: *mut spotwise_detail_exposure_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(exposure, error, || Ok(detail_exposure(spot_diameter_m, detail_size_m)?.into())) }
}
