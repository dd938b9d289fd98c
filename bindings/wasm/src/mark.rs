//! What the spot leaves behind: details and contrast.

use crate::exchange::answer;
use spotwise::model::mark;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::smallest_details`].
#[wasm_bindgen]
pub fn smallest_details(spot_diameter: f64, dose_ratio: f64) -> u32 {
    answer(
        mark::smallest_details(spot_diameter, dose_ratio)
            .map(|d| [d.bar, d.gap, d.dot_diameter, d.hole_diameter, d.square, d.edge_shift]),
    )
}

/// As [`mark::largest_spot_for_details`].
#[wasm_bindgen]
pub fn largest_spot_for_details(finest_stroke: f64, finest_gap: f64, dose_ratio: f64) -> u32 {
    answer(mark::largest_spot_for_details(finest_stroke, finest_gap, dose_ratio).map(|spot| [spot]))
}

/// As [`mark::detail_exposure`].
#[wasm_bindgen]
pub fn detail_exposure(spot_diameter: f64, detail_size: f64) -> u32 {
    answer(mark::detail_exposure(spot_diameter, detail_size).map(|e| [e.bar, e.gap, e.square, e.dot, e.hole]))
}

/// As [`mark::contrast_at_pitch`].
#[wasm_bindgen]
pub fn contrast_at_pitch(spot_diameter: f64, pitch: f64) -> u32 {
    answer(mark::contrast_at_pitch(spot_diameter, pitch).map(|c| [c.sine, c.bars, c.dose_window]))
}

/// As [`mark::pitch_for_contrast`].
#[wasm_bindgen]
pub fn pitch_for_contrast(spot_diameter: f64, contrast: f64) -> u32 {
    answer(mark::pitch_for_contrast(spot_diameter, contrast).map(|pitch| [pitch.sine, pitch.bars]))
}
