//! A Gaussian beam clipped by a round aperture at an ideal lens.

use crate::exchange::{answer, flags, range};
use spotwise::model::{focus, optics};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::focus_clipped`].
#[wasm_bindgen]
pub fn focus_clipped(wavelength: f64, diameter_at_lens: f64, clear_aperture: f64, focal_length: f64) -> u32 {
    answer(optics::focus_clipped(wavelength, diameter_at_lens, clear_aperture, focal_length).map(|c| {
        [
            c.clipping_ratio,
            c.transmitted,
            c.diameter_1e2,
            c.fwhm,
            c.diameter_power86,
            c.peak_irradiance_ratio,
            c.relative_rayleigh_range,
            c.half_angle,
            flags(c.validity),
        ]
    }))
}

/// As [`focus::clipped_depth_of_focus`].
#[wasm_bindgen]
pub fn clipped_depth_of_focus(
    wavelength: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    focal_length: f64,
    irradiance_drop: f64,
) -> u32 {
    let depth = focus::clipped_depth_of_focus(
        wavelength,
        diameter_at_lens,
        clear_aperture,
        focal_length,
        irradiance_drop,
    );
    answer(depth.map(|d| {
        let [toward_lens_z, away_from_lens_z, full, half_angle, flags] = range(d.range);
        [
            toward_lens_z,
            away_from_lens_z,
            full,
            half_angle,
            flags,
            d.brightest_z,
            d.clipping_ratio,
            d.relative_rayleigh_range,
            d.relative_half_depth,
        ]
    }))
}
