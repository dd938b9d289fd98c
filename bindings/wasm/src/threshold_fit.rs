//! Spot and threshold from the user's own marks at several doses.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::learn::{self, ReadingWeights, TestMarks, ThresholdFitOptions};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`learn::fit_threshold`], for any number of marks; `used` says with 1 which of them were used.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn fit_threshold(
    doses: &[f64],
    widths: &[f64],
    deviations: &[f64],
    weights: u32,
    outlier_limit: f64,
    confidence: f64,
    residuals: &mut [f64],
    used: &mut [u8],
) -> u32 {
    let mut which = vec![false; used.len()];
    let mut fitted = || -> Result<_, Error> {
        let weights = ReadingWeights::from_code(weights)?;
        let options = ThresholdFitOptions { weights, outlier_limit, confidence };
        learn::fit_threshold(&TestMarks { doses, widths, deviations }, &options, residuals, &mut which)
    };
    let fit = fitted();
    for (byte, which) in used.iter_mut().zip(which) {
        *byte = u8::from(which);
    }
    answer(fit.map(|f| {
        [
            f.spot_diameter.value,
            f.spot_diameter.deviation,
            f.spot_diameter.least,
            f.spot_diameter.greatest,
            f.spot_diameter.bias,
            f.threshold.value,
            f.threshold.deviation,
            f.threshold.least,
            f.threshold.greatest,
            f.threshold.bias,
            f.correlation,
            f.significance,
            f.chi_squared,
            f64::from(f.degrees_of_freedom),
            f.chi_squared_chance,
            f.curvature_chance,
            f64::from(f.marks_used),
            f64::from(f.warnings.bits()),
        ]
    }))
}
