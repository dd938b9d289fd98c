//! The ripple of a raster fill.

use crate::abi::{Plain, init, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{RasterRipple, interval_for_ripple, raster_ripple};

/// The dose of a raster fill across its lines: the result of spotwise_raster_ripple().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_raster_ripple_result {
    /// Size of this struct; spotwise_raster_ripple_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Greatest dose over the mean, on a line.
    pub greatest_over_mean: f64,
    /// Least dose over the mean, midway between lines.
    pub least_over_mean: f64,
    /// (max - min)/(max + min).
    pub contrast: f64,
    /// Mean fill dose over threshold at which no gap is left, where doses of neighbouring lines add
    /// up.
    pub gap_free_dose_ratio: f64,
    /// The same where each line must mark by itself. Real materials lie between the two.
    pub gap_free_dose_ratio_without_memory: f64,
    /// Line interval over spot radius.
    pub interval_over_radius: f64,
}
plain!(
    spotwise_raster_ripple_result, 56 bytes,
    words: [reserved],
    numbers: [
        greatest_over_mean,
        least_over_mean,
        contrast,
        gap_free_dose_ratio,
        gap_free_dose_ratio_without_memory,
        interval_over_radius,
    ]
);

impl From<RasterRipple> for spotwise_raster_ripple_result {
    fn from(result: RasterRipple) -> Self {
        Self {
            greatest_over_mean: result.greatest_over_mean,
            least_over_mean: result.least_over_mean,
            contrast: result.contrast,
            gap_free_dose_ratio: result.gap_free_dose_ratio,
            gap_free_dose_ratio_without_memory: result.gap_free_dose_ratio_without_memory,
            interval_over_radius: result.interval_over_radius,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_raster_ripple_result_init(ripple: *mut spotwise_raster_ripple_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(ripple) }
}

/// Ripple of a raster fill, and the dose that leaves no gap.
///
/// The sum of Gaussians over all lines, Jacobi's theta functions of exp(-pi^2/(2 r^2)), r being the
/// interval over the spot radius; without cancellation. The mean dose does not depend on the spot,
/// so that a fill out of focus is as strong, and smoother. Jitter of the lines is not modelled. C
/// does not notice if spot and interval are swapped.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  line_interval_m from one line to the next in metres; range:
///                             SPOTWISE_PARAM_LINE_INTERVAL.
/// @param[out] ripple          result; set with spotwise_raster_ripple_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (an interval above 20 spot radii,
///         which is no fill, as SPOTWISE_PARAM_INTERVAL_OVER_RADIUS).
///
/// Accuracy: at most 5 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: an interval of the spot radius: 1.4 %; of the diameter: 57 %.
/// Source: derived by the authors with Poisson's sum; theta functions: NIST Digital Library of
///         Mathematical Functions, 20.2, 20.7(viii).
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_raster_ripple(
    spot_diameter_m: f64,
    line_interval_m: f64,
    ripple: *mut spotwise_raster_ripple_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(ripple, error, || Ok(raster_ripple(spot_diameter_m, line_interval_m)?.into())) }
}

/// Largest line interval whose ripple has at most this contrast, the inverse of
/// spotwise_raster_ripple().
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  ripple_contrast (max - min)/(max + min) of the dose; range:
///                             SPOTWISE_PARAM_RIPPLE_CONTRAST.
/// @param[out] line_interval_m from one line to the next in metres; not NULL. On any status other
///                             than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a spot of 100 um and a contrast of 0.01438376663469: 50 um.
/// Source: as spotwise_raster_ripple().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_interval_for_ripple(
    spot_diameter_m: f64,
    ripple_contrast: f64,
    line_interval_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(line_interval_m, error, || Ok(interval_for_ripple(spot_diameter_m, ripple_contrast)?)) }
}
