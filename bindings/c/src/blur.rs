//! The blur budget: everything that widens the spot before the material sees it.

use crate::abi::{Plain, init, input, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{Blur, BlurBudget, blur_budget};

/// What blurs a scan.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_blur {
    /// Size of this struct; spotwise_blur_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Spot diameter across the scan in metres, 1/e^2 (D4 sigma); range:
    /// SPOTWISE_PARAM_DIAMETER_ACROSS.
    pub diameter_across_m: f64,
    /// Spot diameter along the scan in metres, 1/e^2 (D4 sigma); range:
    /// SPOTWISE_PARAM_DIAMETER_ALONG.
    pub diameter_along_m: f64,
    /// Speed along the scan in m/s; range: SPOTWISE_PARAM_SPEED.
    pub speed_m_per_s: f64,
    /// Thermal diffusivity of the part in m^2/s; 0 to leave heat out; range:
    /// SPOTWISE_PARAM_DIFFUSIVITY.
    pub diffusivity_m2_per_s: f64,
    /// Side of the square pixels that are burnt as boxes in metres; 0 for none; range:
    /// SPOTWISE_PARAM_PIXEL.
    pub pixel_m: f64,
    /// Standard deviation of the jitter of the spot in metres, each way; range:
    /// SPOTWISE_PARAM_JITTER_DEVIATION.
    pub jitter_deviation_m: f64,
    /// Rise time of the power from 10 % to 90 % in seconds; range: SPOTWISE_PARAM_RISE_TIME.
    pub rise_time_s: f64,
    /// By how much the power lags behind the motion in seconds; range: SPOTWISE_PARAM_SWITCH_DELAY.
    pub switch_delay_s: f64,
}
plain!(
    spotwise_blur, 72 bytes,
    words: [reserved],
    numbers: [
        diameter_across_m,
        diameter_along_m,
        speed_m_per_s,
        diffusivity_m2_per_s,
        pixel_m,
        jitter_deviation_m,
        rise_time_s,
        switch_delay_s,
    ]
);

impl From<spotwise_blur> for Blur {
    fn from(blur: spotwise_blur) -> Self {
        Self {
            diameter_across: blur.diameter_across_m,
            diameter_along: blur.diameter_along_m,
            speed: blur.speed_m_per_s,
            diffusivity: blur.diffusivity_m2_per_s,
            pixel: blur.pixel_m,
            jitter_deviation: blur.jitter_deviation_m,
            rise_time: blur.rise_time_s,
            switch_delay: blur.switch_delay_s,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_blur_init(blur: *mut spotwise_blur) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(blur) }
}

/// The sum of what blurs a scan: the result of spotwise_blur_budget().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_blur_budget_result {
    /// Size of this struct; spotwise_blur_budget_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Dwell sqrt(pi/2) w/v in seconds.
    pub dwell_s: f64,
    /// Diffusion length sqrt(4 k t) over the dwell in metres.
    pub diffusion_length_m: f64,
    /// Spot diameter across the scan with all blurs in metres, 1/e^2.
    pub diameter_across_m: f64,
    /// Spot diameter along the scan with all blurs in metres, 1/e^2.
    pub diameter_along_m: f64,
    /// Width of an edge that runs along the scan, 10 % to 90 % of the dose, in metres.
    pub edge_across_m: f64,
    /// Width of an edge that lies across the scan, 10 % to 90 % of the dose, in metres.
    pub edge_along_m: f64,
    /// Way of the spot while the power rises in metres.
    pub rise_smear_m: f64,
    /// Way of the spot while the power lags, by which an edge is shifted, in metres.
    pub delay_shift_m: f64,
    /// Offset of edges between lines burnt to and fro in metres.
    pub two_way_comb_m: f64,
}
plain!(
    spotwise_blur_budget_result, 80 bytes,
    words: [reserved],
    numbers: [
        dwell_s,
        diffusion_length_m,
        diameter_across_m,
        diameter_along_m,
        edge_across_m,
        edge_along_m,
        rise_smear_m,
        delay_shift_m,
        two_way_comb_m,
    ]
);

impl From<BlurBudget> for spotwise_blur_budget_result {
    fn from(result: BlurBudget) -> Self {
        Self {
            dwell_s: result.dwell,
            diffusion_length_m: result.diffusion_length,
            diameter_across_m: result.diameter_across,
            diameter_along_m: result.diameter_along,
            edge_across_m: result.edge_across,
            edge_along_m: result.edge_along,
            rise_smear_m: result.rise_smear,
            delay_shift_m: result.delay_shift,
            two_way_comb_m: result.two_way_comb,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_blur_budget_result_init(budget: *mut spotwise_blur_budget_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(budget) }
}

/// Adds up what blurs a scan, across and along.
///
/// Squares of radii add up: w^2 = (d/2)^2 + 8 k t + a^2/3 + 4 s^2, along the scan also 4 (v t_r/ln
/// 9)^2; k being the diffusivity, t the dwell, a the pixel, s the jitter and t_r the rise time. An
/// edge is 1.2816 w wide. That the sum acts as a Gaussian is an approximation where box or rise are
/// not small, and that heat spreads for the dwell is a rule of order. Heat left by earlier lines
/// and melt flow are not modelled.
///
/// @param[in]  blur   blur to read; set with spotwise_blur_init(); not NULL.
/// @param[out] budget result; set with spotwise_blur_budget_result_init(); not NULL. On any status
///                    other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error  what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 1.09e-7 m^2/s at 20 mm/s under a spot of 100 um: heat spreads 36.96 um, the spot acts
///          as one of 144.7 um.
/// Source: derived by the authors; heat kernel: H. S. Carslaw, J. C. Jaeger, Conduction of Heat in
///         Solids, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_blur_budget(
    blur: *const spotwise_blur,
    budget: *mut spotwise_blur_budget_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(budget, error, || Ok(blur_budget(&input(blur)?.into())?.into())) }
}
