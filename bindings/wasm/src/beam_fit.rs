//! The beam from its widths at several heights.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::learn::{self, BeamFitOptions, BeamReadings, ReadingWeights};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`learn::fit_beam`], for any number of readings; `used` says with 1 which of them were used.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn fit_beam(
    heights: &[f64],
    diameters: &[f64],
    deviations: &[f64],
    wavelength: f64,
    weights: u32,
    outlier_limit: f64,
    confidence: f64,
    mark_dose_ratio: f64,
    residuals: &mut [f64],
    used: &mut [u8],
) -> u32 {
    let mut which = vec![false; used.len()];
    let mut fitted = || -> Result<_, Error> {
        let weights = ReadingWeights::from_code(weights)?;
        let options = BeamFitOptions { weights, outlier_limit, confidence, mark_dose_ratio };
        let readings = BeamReadings { heights, diameters, deviations };
        learn::fit_beam(&readings, wavelength, &options, residuals, &mut which)
    };
    let fit = fitted();
    for (byte, which) in used.iter_mut().zip(which) {
        *byte = u8::from(which);
    }
    answer(fit.map(|f| {
        [
            f.waist_z.value,
            f.waist_z.deviation,
            f.waist_z.least,
            f.waist_z.greatest,
            f.waist_z.bias,
            f.waist_diameter.value,
            f.waist_diameter.deviation,
            f.waist_diameter.least,
            f.waist_diameter.greatest,
            f.waist_diameter.bias,
            f.rayleigh_range.value,
            f.rayleigh_range.deviation,
            f.rayleigh_range.least,
            f.rayleigh_range.greatest,
            f.rayleigh_range.bias,
            f.divergence_full_angle.value,
            f.divergence_full_angle.deviation,
            f.divergence_full_angle.least,
            f.divergence_full_angle.greatest,
            f.divergence_full_angle.bias,
            f.m2.value,
            f.m2.deviation,
            f.m2.least,
            f.m2.greatest,
            f.m2.bias,
            f.z_diameter_correlation,
            f.z_range_correlation,
            f.diameter_range_correlation,
            f.chi_squared,
            f64::from(f.degrees_of_freedom),
            f.chi_squared_chance,
            f.higher_terms_chance,
            f64::from(f.readings_used),
            f64::from(f.readings_near),
            f64::from(f.readings_far),
            f64::from(f.warnings.bits()),
        ]
    }))
}
