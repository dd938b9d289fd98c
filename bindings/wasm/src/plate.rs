//! Flat windows and plates in a converging beam, and focus inside a transparent part.

use crate::exchange::{answer, flags};
use spotwise::model::optics::{self, Beam};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::focus_behind_plate`].
#[wasm_bindgen]
pub fn focus_behind_plate(wavelength: f64, m2: f64, waist_diameter: f64, thickness: f64, index: f64) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(optics::focus_behind_plate(&beam, thickness, index).map(|p| {
        [
            p.focus_shift,
            p.edge_focus_shift,
            p.aberration_phase,
            p.normalised_aberration,
            p.half_angle,
            flags(p.validity),
        ]
    }))
}

/// As [`optics::focus_inside`].
#[wasm_bindgen]
pub fn focus_inside(wavelength: f64, m2: f64, waist_diameter: f64, lens_lowered_by: f64, index: f64) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(optics::focus_inside(&beam, lens_lowered_by, index).map(|f| {
        [
            f.depth,
            f.edge_depth,
            f.rayleigh_range,
            f.aberration_phase,
            f.normalised_aberration,
            f.half_angle,
            flags(f.validity),
        ]
    }))
}
