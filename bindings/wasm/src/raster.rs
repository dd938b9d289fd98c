//! The ripple of a raster fill.

use crate::exchange::answer;
use spotwise::model::mark;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::raster_ripple`].
#[wasm_bindgen]
pub fn raster_ripple(spot_diameter: f64, line_interval: f64) -> u32 {
    answer(mark::raster_ripple(spot_diameter, line_interval).map(|r| {
        [
            r.greatest_over_mean,
            r.least_over_mean,
            r.contrast,
            r.gap_free_dose_ratio,
            r.gap_free_dose_ratio_without_memory,
            r.interval_over_radius,
        ]
    }))
}

/// As [`mark::interval_for_ripple`].
#[wasm_bindgen]
pub fn interval_for_ripple(spot_diameter: f64, ripple_contrast: f64) -> u32 {
    answer(mark::interval_for_ripple(spot_diameter, ripple_contrast).map(|interval| [interval]))
}
