//! Shapes of a surface.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::surface::{self, Region, Surface, SurfaceExtremes, SurfaceNumbers};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`surface::surface_at`], for lists of any length.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn surface_at(
    surface: u32,
    bulge: u32,
    slope_x: f64,
    slope_y: f64,
    radius: f64,
    crown_x: f64,
    crown_y: f64,
    axis_angle: f64,
    x: &[f64],
    y: &[f64],
    z: &[f64],
    place_x: f64,
    place_y: f64,
) -> u32 {
    let numbers = SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
    let place = || -> Result<_, Error> {
        surface::surface_at(&Surface::from_code(surface, &numbers)?, place_x, place_y)
    };
    answer(place().map(|p| [p.z, p.slope_x, p.slope_y, p.incidence, p.stretch, p.irradiance_factor]))
}

/// As [`surface::surface_extremes`], for lists of any length.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn surface_extremes(
    surface: u32,
    bulge: u32,
    slope_x: f64,
    slope_y: f64,
    radius: f64,
    crown_x: f64,
    crown_y: f64,
    axis_angle: f64,
    x: &[f64],
    y: &[f64],
    z: &[f64],
    x_least: f64,
    x_greatest: f64,
    y_least: f64,
    y_greatest: f64,
) -> u32 {
    let numbers = SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
    let region = Region { x_least, x_greatest, y_least, y_greatest };
    let extremes = || -> Result<_, Error> {
        surface::surface_extremes(&Surface::from_code(surface, &numbers)?, &region)
    };
    answer(extremes().map(|e| layout(&e)))
}

/// Numbers of extremes.
pub(crate) const EXTREMES: usize = 12;

pub(crate) fn layout(e: &SurfaceExtremes) -> [f64; EXTREMES] {
    [
        e.highest_z,
        e.highest_x,
        e.highest_y,
        e.lowest_z,
        e.lowest_x,
        e.lowest_y,
        e.range,
        e.steepest_incidence,
        e.steepest_x,
        e.steepest_y,
        f64::from(e.missing_probes),
        e.unknown_share,
    ]
}
