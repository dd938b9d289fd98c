//! Crisp or smooth: edge and ripple of a fill against focus.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::mark::{self, FillQuality, Taste};
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

fn layout(q: &FillQuality) -> [f64; 6] {
    [q.offset, q.spot_diameter, q.edge_width, q.ripple_contrast, q.half_angle, flags(q.validity)]
}

/// As [`mark::fill_quality`].
#[wasm_bindgen]
pub fn fill_quality(wavelength: f64, m2: f64, waist_diameter: f64, line_interval: f64, z_offset: f64) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(mark::fill_quality(&beam, line_interval, z_offset).map(|quality| layout(&quality)))
}

/// As [`mark::offset_for_taste`].
#[wasm_bindgen]
pub fn offset_for_taste(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    line_interval: f64,
    taste: u32,
    largest_edge: f64,
    crispness_weight: f64,
) -> u32 {
    let quality = || -> Result<_, Error> {
        let taste = Taste::from_code(taste, largest_edge, crispness_weight)?;
        mark::offset_for_taste(&Beam { wavelength, m2, waist_diameter }, line_interval, taste)
    };
    answer(quality().map(|quality| layout(&quality)))
}
