//! How a material answers to dose, and what the user's own test marks tell of it.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::mark::{self, Material, Response, TestMarks};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::material_mark`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn material_mark(
    threshold: f64,
    incubation: f64,
    response: u32,
    penetration_depth: f64,
    removal_energy: f64,
    diffusivity: f64,
    dose: f64,
    exposures: f64,
    spot_diameter: f64,
    dwell: f64,
) -> u32 {
    let marked = || -> Result<_, Error> {
        let response = Response::from_code(response, penetration_depth, removal_energy, diffusivity)?;
        let material = Material { threshold, incubation, response };
        mark::material_mark(&material, dose, exposures, spot_diameter, dwell)
    };
    answer(marked().map(|m| [m.threshold, m.dose_ratio, f64::from(m.marks), m.depth, m.seen_diameter]))
}

/// As [`mark::fit_threshold`], for any number of marks; `used` says with 1 which of them were used.
#[wasm_bindgen]
pub fn fit_threshold(
    doses: &[f64],
    widths: &[f64],
    deviations: &[f64],
    outlier_limit: f64,
    used: &mut [u8],
) -> u32 {
    let mut which = vec![false; used.len()];
    let fit = mark::fit_threshold(&TestMarks { doses, widths, deviations }, outlier_limit, &mut which);
    for (byte, which) in used.iter_mut().zip(which) {
        *byte = u8::from(which);
    }
    answer(fit.map(|f| {
        [
            f.spot_diameter,
            f.spot_diameter_deviation,
            f.threshold,
            f.relative_threshold_deviation,
            f.correlation,
            f.reduced_chi_squared,
            f.significance,
            f64::from(f.marks_used),
        ]
    }))
}
