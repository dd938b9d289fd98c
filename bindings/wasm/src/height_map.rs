//! From a map of heights to a map of what the spot does there.

use crate::exchange::{answer, flags};
use spotwise::model::focus::DepthCriterion;
use spotwise::model::optics::Beam;
use spotwise::model::surface::{self, HeightQuantity};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`surface::map_heights`]; the map lies in `out`, the rest in the outputs.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn map_heights(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    focus_z: f64,
    quantity: u32,
    dose_ratio: f64,
    z: &[f64],
    out: &mut [f64],
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    let quantity = HeightQuantity::from_code(quantity, dose_ratio);
    if quantity.is_err() {
        out.fill(f64::NAN);
    }
    let map = quantity.and_then(|quantity| surface::map_heights(&beam, focus_z, quantity, z, out));
    answer(map.map(|map| {
        [
            map.measured as f64,
            map.missing as f64,
            map.least,
            map.least_index as f64,
            map.greatest,
            map.greatest_index as f64,
            map.half_angle,
            flags(map.validity),
        ]
    }))
}

/// As [`surface::in_focus_mask`]; a byte of `in_focus` is 1 for a place in focus, the rest lies in the outputs.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn in_focus_mask(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    focus_z: f64,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
    z: &[f64],
    in_focus: &mut [u8],
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    let mut which = vec![false; in_focus.len()];
    let mask = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)
        .and_then(|criterion| surface::in_focus_mask(&beam, focus_z, criterion, z, &mut which));
    for (byte, which) in in_focus.iter_mut().zip(which) {
        *byte = u8::from(which);
    }
    answer(mask.map(|mask| {
        [
            mask.in_focus as f64,
            mask.too_near_lens as f64,
            mask.too_far_from_lens as f64,
            mask.missing as f64,
            mask.toward_lens_z,
            mask.away_from_lens_z,
            mask.half_angle,
            flags(mask.validity),
        ]
    }))
}
