//! The functions of the list on shapes of a surface, called through the model.

use spotwise::Error;
use spotwise::model::surface::{
    Region, Surface, SurfaceExtremes, SurfaceNumbers, surface_at, surface_extremes,
};

/// So many numbers make a surface in the list.
pub const NUMBERS: usize = 34;
/// Most columns and rows that a grid has there.
const SIDE: usize = 4;

/// Lengths of the lists of x, y and z of a surface.
pub fn lengths(i: &[f64]) -> [usize; 3] {
    let [columns, rows] = [i[8], i[9]].map(|count| (count as usize).min(SIDE));
    let heights = match i[0] as u32 {
        4 => columns.saturating_sub(1),
        5 => columns * rows,
        _ => 0,
    };
    [columns, rows, heights]
}

/// The surface of these numbers.
pub fn surface(i: &[f64]) -> Result<Surface<'_>, Error> {
    let [columns, rows, heights] = lengths(i);
    let numbers = SurfaceNumbers {
        slope_x: i[2],
        slope_y: i[3],
        radius: i[4],
        bulge: i[1] as u32,
        crown_x: i[5],
        crown_y: i[6],
        axis_angle: i[7],
        x: &i[10..10 + columns],
        y: &i[14..14 + rows],
        z: &i[18..18 + heights],
    };
    Surface::from_code(i[0] as u32, &numbers)
}

/// The region of these numbers.
pub fn region(i: &[f64]) -> Region {
    Region { x_least: i[0], x_greatest: i[1], y_least: i[2], y_greatest: i[3] }
}

/// Extremes in the order of the list.
pub fn extremes(e: &SurfaceExtremes) -> Vec<f64> {
    vec![
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

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "surface_at" => {
            let place = surface_at(&surface(i)?, i[NUMBERS], i[NUMBERS + 1])?;
            vec![
                place.z,
                place.slope_x,
                place.slope_y,
                place.incidence,
                place.stretch,
                place.irradiance_factor,
            ]
        }
        "surface_extremes" => extremes(&surface_extremes(&surface(i)?, &region(&i[NUMBERS..]))?),
        _ => return Ok(None),
    }))
}
