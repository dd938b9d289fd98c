//! A lens that travels along a gantry.

use crate::exchange::{answer, flags};
use spotwise::model::optics::{self, Beam, GantrySpread};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::focus_along_gantry`]; spots and shifts lie in the two arrays, the cone in the outputs.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn focus_along_gantry(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    waist_to_lens: &[f64],
    focal_length: f64,
    spot_diameters: &mut [f64],
    focus_shifts: &mut [f64],
) -> u32 {
    let raw = Beam { wavelength, m2, waist_diameter };
    let along = optics::focus_along_gantry(&raw, waist_to_lens, focal_length, spot_diameters, focus_shifts);
    answer(along.map(|cone| [cone.half_angle, flags(cone.validity)]))
}

/// As [`optics::gantry_spread`].
#[wasm_bindgen]
pub fn gantry_spread(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    nearest: f64,
    farthest: f64,
    focal_length: f64,
) -> u32 {
    let raw = Beam { wavelength, m2, waist_diameter };
    answer(optics::gantry_spread(&raw, nearest, farthest, focal_length).map(|spread| layout(&spread)))
}

/// As [`optics::even_out_gantry`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn even_out_gantry(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    waist_to_expander: f64,
    magnification: f64,
    nearest: f64,
    farthest: f64,
    focal_length: f64,
) -> u32 {
    let raw = Beam { wavelength, m2, waist_diameter };
    let even =
        optics::even_out_gantry(&raw, waist_to_expander, magnification, nearest, farthest, focal_length);
    answer(even.map(|even| {
        let [smallest, largest, ratio, least_shift, greatest_shift, wander, half_angle, flags] =
            layout(&even.spread);
        [
            even.exit_power,
            even.waist_diameter,
            even.expander_to_waist,
            f64::from(even.ends_equal),
            smallest,
            largest,
            ratio,
            least_shift,
            greatest_shift,
            wander,
            half_angle,
            flags,
        ]
    }))
}

fn layout(s: &GantrySpread) -> [f64; 8] {
    [
        s.smallest_spot,
        s.largest_spot,
        s.spot_ratio,
        s.least_focus_shift,
        s.greatest_focus_shift,
        s.focus_wander,
        s.half_angle,
        flags(s.validity),
    ]
}
