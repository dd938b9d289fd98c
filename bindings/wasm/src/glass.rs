//! Refractive index of lens materials, and lenses in other light.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::optics::{self, Glass, LensShape};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::refractive_index`].
#[wasm_bindgen]
pub fn refractive_index(glass: u32, wavelength: f64) -> u32 {
    let index = || -> Result<_, Error> { optics::refractive_index(Glass::from_code(glass)?, wavelength) };
    answer(index().map(|found| [found.index, found.dispersion]))
}

/// As [`optics::lens_at_wavelength`].
#[wasm_bindgen]
pub fn lens_at_wavelength(
    glass: u32,
    lens_shape: u32,
    shape_factor: f64,
    focal_length: f64,
    design_wavelength: f64,
    wavelength: f64,
) -> u32 {
    let lens = || -> Result<_, Error> {
        let glass = Glass::from_code(glass)?;
        let shape = LensShape::from_code(lens_shape, shape_factor)?;
        optics::lens_at_wavelength(glass, shape, focal_length, design_wavelength, wavelength)
    };
    answer(lens().map(|l| {
        [
            l.design_index,
            l.index,
            l.focal_length,
            l.focal_shift,
            l.shape_factor,
            l.blur_coefficient,
            l.wavefront_coefficient,
        ]
    }))
}
