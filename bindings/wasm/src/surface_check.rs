//! One job on a surface with a shape in, one verdict out.

use crate::check::{ALL, JOB, job_of, layout};
use crate::exchange::answer;
use crate::in_focus::with_cells;
use crate::shape::{self, EXTREMES};
use spotwise::Error;
use spotwise::model::check::{self, SurfaceVerdict};
use spotwise::model::surface::{Region, Surface, SurfaceNumbers};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a surface but for its lists, of a region, and how many cells are laid over it.
const PART: usize = 8 + 4 + 1;
/// The verdict as [`check::focus_check`] has it, extremes, and what else is told of the surface.
const FOUND: usize = ALL + EXTREMES + 8;

/// As [`check::surface_check`], for lists of any length. `numbers` are those of the job as `focus_check` takes
/// them, of the surface and of the region as `surface_extremes` does but for the lists, and the cells per side.
#[wasm_bindgen]
pub fn surface_check(numbers: &[f64], x: &[f64], y: &[f64], z: &[f64]) -> u32 {
    let found = || -> Result<_, Error> {
        let (job, part) = split(numbers);
        let job = job_of(&job)?;
        let [code, bulge, slope_x, slope_y, radius, crown_x, crown_y, axis_angle, region @ .., cells] = part;
        let bulge = bulge as u32;
        let numbers =
            SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
        let surface = Surface::from_code(code as u32, &numbers)?;
        let [x_least, x_greatest, y_least, y_greatest] = region;
        let region = Region { x_least, x_greatest, y_least, y_greatest };
        with_cells(cells, |cells| check::surface_check(&job, &surface, &region, cells))
    };
    answer(found().map(|found| whole(&found)))
}

/// The numbers of a job and those of a part. What is missing is NaN, which is refused.
fn split(numbers: &[f64]) -> ([f64; JOB], [f64; PART]) {
    let mut job = [f64::NAN; JOB];
    let mut part = [f64::NAN; PART];
    for (place, number) in job.iter_mut().chain(&mut part).zip(numbers) {
        *place = *number;
    }
    (job, part)
}

fn whole(found: &SurfaceVerdict) -> [f64; FOUND] {
    let beside = [
        found.worst_x,
        found.worst_y,
        found.worst_z,
        found.share_in_depth,
        found.share_that_holds,
        f64::from(found.bands.unwrap_or(0)),
        found.steepest_stretch,
        found.steepest_irradiance_factor,
    ];
    let parts: [&[f64]; 3] = [&layout(&found.verdict), &shape::layout(&found.extremes), &beside];
    let mut all = [f64::NAN; FOUND];
    for (output, value) in all.iter_mut().zip(parts.into_iter().flatten()) {
        *output = *value;
    }
    all
}
