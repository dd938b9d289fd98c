//! Surfaces in focus.

use crate::exchange::{answer, flags};
use spotwise::model::focus::DepthCriterion;
use spotwise::model::optics::Beam;
use spotwise::model::surface::{self, FocusHeight, Region, Surface, SurfaceNumbers};
use spotwise::{Error, Param};
use wasm_bindgen::prelude::wasm_bindgen;

/// Calls with a number of cells; what is no whole number is refused in its turn, as it was given.
pub(crate) fn with_cells<T>(given: f64, call: impl FnOnce(u32) -> Result<T, Error>) -> Result<T, Error> {
    let whole = given as u32;
    let is_whole = f64::from(whole) == given;
    let (least, greatest) = Param::CellsPerSide.range();
    // No cells are refused when all before them is right.
    call(if is_whole { whole } else { 0 }).map_err(|error| match error.param() {
        param @ Param::CellsPerSide if given.is_finite() => {
            Error::OutOfRange { param, value: given, least, greatest }
        }
        param @ Param::CellsPerSide => Error::NotFinite { param, value: given },
        _ => error,
    })
}

/// As [`surface::region_heights`], for lists of any length.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn region_heights(
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
    cells_per_side: f64,
) -> u32 {
    let numbers = SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
    let region = Region { x_least, x_greatest, y_least, y_greatest };
    let heights = with_cells(cells_per_side, |cells| {
        surface::region_heights(&Surface::from_code(surface, &numbers)?, &region, cells)
    });
    answer(heights.map(|h| [h.mean_z, h.z_deviation, h.highest_z, h.lowest_z, h.unknown_share]))
}

/// As [`surface::share_in_focus`], for lists of any length.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn share_in_focus(
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
    cells_per_side: f64,
    toward_lens_z: f64,
    away_from_lens_z: f64,
) -> u32 {
    let numbers = SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
    let region = Region { x_least, x_greatest, y_least, y_greatest };
    let share = with_cells(cells_per_side, |cells| {
        let surface = Surface::from_code(surface, &numbers)?;
        surface::share_in_focus(&surface, &region, cells, toward_lens_z, away_from_lens_z)
    });
    answer(share.map(|s| [s.in_focus, s.toward_lens, s.away_from_lens, s.unknown_share]))
}

/// The four numbers of a focus height.
fn height(height: &FocusHeight) -> [f64; 4] {
    [height.focus_z, height.worst_growth, height.mean_area_growth, height.share_in_focus]
}

/// As [`surface::focus_for_surface`], for lists of any length.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn focus_for_surface(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
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
    cells_per_side: f64,
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    let numbers = SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
    let region = Region { x_least, x_greatest, y_least, y_greatest };
    let focus = with_cells(cells_per_side, |cells| {
        let criterion = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)?;
        let surface = Surface::from_code(surface, &numbers)?;
        surface::focus_for_surface(&beam, criterion, &surface, &region, cells)
    });
    answer(focus.map(|f| {
        let [a, b, c] = [f.least_worst, f.least_mean_area, f.most_in_focus].map(|found| height(&found));
        let mut all = [0.0; 15];
        let rest = [f.unknown_share, f.half_angle, flags(f.validity)];
        for (place, value) in all.iter_mut().zip(a.into_iter().chain(b).chain(c).chain(rest)) {
            *place = value;
        }
        all
    }))
}
