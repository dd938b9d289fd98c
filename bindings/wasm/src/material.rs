//! How a material answers to dose.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::mark::{self, Material, Response};
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
