//! How wide a filled stroke comes out.

use crate::exchange::{answer, flags};
use spotwise::model::mark;
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::fill_width()`].
#[wasm_bindgen]
pub fn fill_width(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    drawn_width: f64,
    dose_ratio: f64,
    z_offset: f64,
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(mark::fill_width(&beam, drawn_width, dose_ratio, z_offset).map(|f| {
        [f64::from(f.marks), f.width, f.growth, f.exposure, f.spot_diameter, f.half_angle, flags(f.validity)]
    }))
}

/// As [`mark::fill_limits`].
#[wasm_bindgen]
pub fn fill_limits(wavelength: f64, m2: f64, waist_diameter: f64, drawn_width: f64, dose_ratio: f64) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(mark::fill_limits(&beam, drawn_width, dose_ratio).map(|l| {
        [
            f64::from(l.marks),
            l.width_in_waist,
            l.widest_offset,
            l.greatest_width,
            l.vanishing_offset,
            l.half_angle,
            flags(l.validity),
        ]
    }))
}
