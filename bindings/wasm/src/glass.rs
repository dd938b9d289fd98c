//! Refractive index of lens materials.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::optics::{self, Glass};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::refractive_index`].
#[wasm_bindgen]
pub fn refractive_index(glass: u32, wavelength: f64) -> u32 {
    let index = || -> Result<_, Error> { optics::refractive_index(Glass::from_code(glass)?, wavelength) };
    answer(index().map(|found| [found.index, found.dispersion]))
}

/// As [`optics::lens_at_wavelength`].
#[wasm_bindgen]
pub fn lens_at_wavelength(glass: u32, focal_length: f64, design_wavelength: f64, wavelength: f64) -> u32 {
    let lens = || -> Result<_, Error> {
        optics::lens_at_wavelength(Glass::from_code(glass)?, focal_length, design_wavelength, wavelength)
    };
    answer(lens().map(|l| [l.design_index, l.index, l.focal_length, l.focal_shift]))
}
