//! The verdict on a job whose surface has a shape.

use crate::abi::{Plain, init, input, plain, report};
use crate::check::{spotwise_job, spotwise_verdict};
use crate::error::spotwise_error;
use crate::shape::{spotwise_region, spotwise_surface, spotwise_surface_extremes_result, surface_of};
use crate::status::spotwise_status;
use spotwise::model::check::{SurfaceVerdict, surface_check};

/// What spotwise_surface_check() finds.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_surface_verdict {
    /// Size of this struct; spotwise_surface_verdict_init() sets it.
    pub struct_size: u32,
    /// In how many bands of height, each in its own focus, stroke, gap and text would hold everywhere;
    /// 0 if they do not even in the waist, if rise and fall of the job leave no range, if the steepest
    /// place does not mark, or if it would take over a million. A band in which the surface has no height
    /// needs no focus of its own.
    pub bands: u32,
    /// The verdict, with what the shape adds to its reasons. Only heights count that the surface has; its datum
    /// is the one of them nearest to the datum, of two as near the one toward the lens. A fill is judged where
    /// the surface comes nearest to the waist.
    pub verdict: spotwise_verdict,
    /// Highest, lowest and steepest place of the surface.
    pub extremes: spotwise_surface_extremes_result,
    /// Where the spot is worst in metres: at the highest or the lowest place, whichever is farther from
    /// focus, and at the highest if both are as far.
    pub worst_x_m: f64,
    /// That place in y.
    pub worst_y_m: f64,
    /// Its height in metres from the datum, + away from the lens.
    pub worst_z_m: f64,
    /// Share of the known area that stays in the depth of focus, rise and fall of the job included; 0 if
    /// there is no depth.
    pub share_in_depth: f64,
    /// Share of the known area where stroke, gap and text hold, rise and fall included; 0 if they do not
    /// even in the waist. It goes by the heights alone: neither the slope nor lines of a fill that leave gaps
    /// are in it.
    pub share_that_holds: f64,
    /// Length of the spot along the slope over its diameter at the steepest place.
    pub steepest_stretch: f64,
    /// Irradiance, and dose, for each area of the surface over that on a level one, at the steepest place.
    pub steepest_irradiance_factor: f64,
}
plain!(
    spotwise_surface_verdict, 1048 bytes,
    words: [bands],
    nested: [verdict: spotwise_verdict, extremes: spotwise_surface_extremes_result],
    numbers: [
        worst_x_m,
        worst_y_m,
        worst_z_m,
        share_in_depth,
        share_that_holds,
        steepest_stretch,
        steepest_irradiance_factor,
    ]
);

impl From<SurfaceVerdict> for spotwise_surface_verdict {
    fn from(found: SurfaceVerdict) -> Self {
        Self {
            bands: found.bands.unwrap_or(0),
            verdict: found.verdict.into(),
            extremes: found.extremes.into(),
            worst_x_m: found.worst_x,
            worst_y_m: found.worst_y,
            worst_z_m: found.worst_z,
            share_in_depth: found.share_in_depth,
            share_that_holds: found.share_that_holds,
            steepest_stretch: found.steepest_stretch,
            steepest_irradiance_factor: found.steepest_irradiance_factor,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the nested structs, codes, flags and bands to 0, and every number to a quiet NaN.
/// NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_surface_verdict_init(found: *mut spotwise_surface_verdict) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(found) }
}

/// Checks whether a drawing's finest stroke and gap hold, and its text keeps its grade, all over the region of
/// a surface; says where it is worst, how much of the area holds, and what would help.
///
/// As spotwise_focus_check() for the highest and the lowest place of spotwise_surface_extremes(), which count
/// from the datum of the job. Its surface_rise_m and surface_fall_m are then no part of the shape: they are added
/// at its ends, for all by which the surface may lie otherwise than told. Where part of the region is unknown,
/// the verdict is that on the rest, and SPOTWISE_REASON_PARTLY_UNKNOWN says so. A slope lowers the dose by the
/// cosine of its angle: where that leaves too little to mark at the steepest place, the outcome is
/// SPOTWISE_OUTCOME_LOST (SPOTWISE_REASON_TOO_STEEP_TO_MARK); else what it does to spot and dose is not in the
/// verdict but beside it, and above 0.35 rad (20 degrees) SPOTWISE_REASON_STEEP says so.
///
/// @param[in]  job            job to read; set with spotwise_job_init(); not NULL.
/// @param[in]  surface        surface, set with spotwise_surface_init() and filled in; not NULL.
/// @param[in]  region         region, set with spotwise_region_init() and filled in; not NULL.
/// @param[in]  cells_per_side equal cells that are laid over a cylinder or sphere in x and in y to measure
///                            shares of area; 128 is plenty; range: SPOTWISE_PARAM_CELLS_PER_SIDE.
/// @param[out] found          result; set with spotwise_surface_verdict_init(); not NULL. On any status other
///                            than SPOTWISE_OK its numbers are set to a quiet NaN, codes, flags and bands to 0.
/// @param[out] error          what was refused; may be NULL.
/// @return as spotwise_focus_check() for the choices of the job; then as spotwise_surface_extremes(); then
///         SPOTWISE_E_OUT_OF_RANGE for cells_per_side; then as spotwise_focus_check() for its numbers.
///
/// Accuracy: those of spotwise_focus_check(), spotwise_surface_extremes() and spotwise_share_in_focus();
///           stretch and factor 4 ulp times 1 + a tan(a), a being the steepest incidence.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: those of the calls named above.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_surface_check(
    job: *const spotwise_job,
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    cells_per_side: u32,
    found: *mut spotwise_surface_verdict,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        report(found, error, || {
            let job = input(job)?.try_into()?;
            let surface = surface_of(surface)?;
            let region = input(region)?.into();
            Ok(surface_check(&job, &surface, &region, cells_per_side)?.into())
        })
    }
}
