//! The functions of the list on shapes of a surface, called through the typed layer.

use super::unknown;
use spotwise::units::{m, rad};
use spotwise::{
    Bulge, Error, Param, ProbedGrid, Region, RoundShape, RoundSize, Steps, Surface, SurfaceExtremes,
    SurfaceHeight, SurfaceSlope, TablePlace,
};

/// So many numbers make a surface in the list.
pub const NUMBERS: usize = 34;
/// Most columns and rows that a grid has there.
const SIDE: usize = 4;

fn place(i: &[f64]) -> TablePlace {
    TablePlace { x: m(i[0]), y: m(i[1]) }
}

fn slope(i: &[f64]) -> SurfaceSlope {
    SurfaceSlope { away_from_lens_along_x: i[0], away_from_lens_along_y: i[1] }
}

fn round_part(i: &[f64]) -> Result<RoundShape, Error> {
    let bulge = Bulge::from_code(i[1] as u32)?;
    Ok(RoundShape { size: RoundSize::Radius(m(i[4])), bulge, crown: place(&i[5..7]), lean: slope(&i[2..4]) })
}

/// The surface of these numbers.
pub fn surface(i: &[f64]) -> Result<Surface<'_>, Error> {
    let [columns, rows] = [i[8], i[9]].map(|count| (count as usize).min(SIDE));
    Ok(match i[0] as u32 {
        1 => Surface::Plane(slope(&i[2..4])),
        2 => Surface::Cylinder { part: round_part(i)?, axis_angle: rad(i[7]) },
        3 => Surface::Sphere(round_part(i)?),
        4 => Surface::Steps(Steps {
            edges_m: &i[10..10 + columns],
            heights_away_from_lens_m: &i[18..18 + columns.saturating_sub(1)],
        }),
        5 => Surface::Grid(ProbedGrid {
            columns_m: &i[10..10 + columns],
            rows_m: &i[14..14 + rows],
            heights_away_from_lens_m: &i[18..18 + columns * rows],
        }),
        _ => return Err(unknown(Param::SurfaceShape, i[0])),
    })
}

/// The region of these numbers.
pub fn region(i: &[f64]) -> Region {
    Region { x_least: m(i[0]), x_greatest: m(i[1]), y_least: m(i[2]), y_greatest: m(i[3]) }
}

fn height(found: SurfaceHeight) -> [f64; 3] {
    [found.height.z_away_from_lens().value, found.at.x.value, found.at.y.value]
}

/// Extremes in the order of the list.
pub fn extremes(found: &SurfaceExtremes) -> Vec<f64> {
    let steepest_at = [found.steepest_at.x.value, found.steepest_at.y.value];
    let rest = [f64::from(found.missing_probes), found.unknown_share];
    [
        &height(found.highest)[..],
        &height(found.lowest),
        &[found.range.value, found.steepest_incidence.value],
        &steepest_at,
        &rest,
    ]
    .concat()
}

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "surface_at" => {
            let found = surface(i)?.at(place(&i[NUMBERS..]))?;
            vec![
                found.height.z_away_from_lens().value,
                found.slope.away_from_lens_along_x,
                found.slope.away_from_lens_along_y,
                found.incidence.value,
                found.stretch,
                found.irradiance_factor,
            ]
        }
        "surface_extremes" => extremes(&surface(i)?.extremes(region(&i[NUMBERS..]))?),
        _ => return Ok(None),
    }))
}
