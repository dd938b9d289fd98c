//! How much of a surface is in focus, and where focus serves it best.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::focus::spotwise_depth_criterion;
use crate::shape::{spotwise_region, spotwise_surface, surface_of};
use crate::status::spotwise_status;
use spotwise::model::surface::{
    FocusHeight, Region, RegionHeights, ShareInFocus, Surface, SurfaceFocus, focus_for_surface,
    region_heights, share_in_focus,
};

/// How the heights of a surface are spread over the area of a region: the result of spotwise_region_heights().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_region_heights_result {
    /// Size of this struct; spotwise_region_heights_result_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// Mean height in metres, + away from the lens.
    pub mean_z_m: f64,
    /// Standard deviation of the height in metres.
    pub z_deviation_m: f64,
    /// Height of the place nearest the lens in metres: the LEAST z.
    pub highest_z_m: f64,
    /// Height of the place farthest from the lens in metres: the GREATEST z.
    pub lowest_z_m: f64,
    /// Share of the region's area about which nothing is known.
    pub unknown_share: f64,
}
plain!(
    spotwise_region_heights_result, 48 bytes,
    words: [reserved],
    numbers: [mean_z_m, z_deviation_m, highest_z_m, lowest_z_m, unknown_share]
);

impl From<RegionHeights> for spotwise_region_heights_result {
    fn from(heights: RegionHeights) -> Self {
        Self {
            mean_z_m: heights.mean_z,
            z_deviation_m: heights.z_deviation,
            highest_z_m: heights.highest_z,
            lowest_z_m: heights.lowest_z,
            unknown_share: heights.unknown_share,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_region_heights_result_init(heights: *mut spotwise_region_heights_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(heights) }
}

/// How the area of a surface divides between heights: the result of spotwise_share_in_focus().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_share_in_focus_result {
    /// Size of this struct; spotwise_share_in_focus_result_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// Share of the known area that lies between the two heights, the ends included.
    pub in_focus: f64,
    /// Share of the known area that lies nearer to the lens.
    pub toward_lens: f64,
    /// Share of the known area that lies farther from the lens.
    pub away_from_lens: f64,
    /// Share of the region's area about which nothing is known.
    pub unknown_share: f64,
}
plain!(
    spotwise_share_in_focus_result, 40 bytes,
    words: [reserved],
    numbers: [in_focus, toward_lens, away_from_lens, unknown_share]
);

impl From<ShareInFocus> for spotwise_share_in_focus_result {
    fn from(share: ShareInFocus) -> Self {
        Self {
            in_focus: share.in_focus,
            toward_lens: share.toward_lens,
            away_from_lens: share.away_from_lens,
            unknown_share: share.unknown_share,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_share_in_focus_result_init(share: *mut spotwise_share_in_focus_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(share) }
}

/// A height at which focus may be set, and what it does.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_focus_height {
    /// Size of this struct; the init function of the struct around it sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// Where the waist is in metres, + away from the lens.
    pub focus_z_m: f64,
    /// Spot diameter over waist diameter where it is worst.
    pub worst_growth: f64,
    /// Mean over the known area of the area of the spot over that of the waist.
    pub mean_area_growth: f64,
    /// Share of the known area that lies within the depth of focus.
    pub share_in_focus: f64,
}
plain!(
    spotwise_focus_height, 40 bytes,
    words: [reserved],
    numbers: [focus_z_m, worst_growth, mean_area_growth, share_in_focus]
);

impl From<FocusHeight> for spotwise_focus_height {
    fn from(height: FocusHeight) -> Self {
        Self {
            focus_z_m: height.focus_z,
            worst_growth: height.worst_growth,
            mean_area_growth: height.mean_area_growth,
            share_in_focus: height.share_in_focus,
            ..Self::BLANK
        }
    }
}

/// The best focus heights for a surface: the result of spotwise_focus_for_surface().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_surface_focus {
    /// Size of this struct; spotwise_surface_focus_init() sets it.
    pub struct_size: u32,
    /// Flags SPOTWISE_VALIDITY_*.
    pub validity: u32,
    /// Makes the worst spot least: half-way between the highest and the lowest place.
    pub least_worst: spotwise_focus_height,
    /// Makes the mean area of the spot least: the mean height.
    pub least_mean_area: spotwise_focus_height,
    /// Keeps most of the area within the depth of focus.
    pub most_in_focus: spotwise_focus_height,
    /// Share of the region's area about which nothing is known.
    pub unknown_share: f64,
    /// Greatest 1/e^2 HALF angle of the beams involved, in radians.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_surface_focus, 144 bytes,
    words: [validity],
    nested: [
        least_worst: spotwise_focus_height,
        least_mean_area: spotwise_focus_height,
        most_in_focus: spotwise_focus_height,
    ],
    numbers: [unknown_share, half_angle_rad]
);

impl From<SurfaceFocus> for spotwise_surface_focus {
    fn from(focus: SurfaceFocus) -> Self {
        Self {
            validity: focus.validity.bits(),
            least_worst: focus.least_worst.into(),
            least_mean_area: focus.least_mean_area.into(),
            most_in_focus: focus.most_in_focus.into(),
            unknown_share: focus.unknown_share,
            half_angle_rad: focus.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the nested structs, flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_surface_focus_init(focus: *mut spotwise_surface_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// The surface and the region behind two pointers. Faults of pointers come before refused choices and lengths.
///
/// # Safety
/// Pointers are NULL or valid, those to arrays for their items while `'a` lasts.
unsafe fn surface_and_region<'a>(
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    last_fault: Option<Fault>,
) -> Result<(Surface<'a>, Region), Fault> {
    // SAFETY: as the caller vouches.
    let (surface, region_fault) = unsafe { (surface_of(surface), pointer_fault(region)) };
    let surface = match (surface, region_fault.or(last_fault)) {
        (Ok(_) | Err(Fault::Refused(_) | Fault::TooLong { .. }), Some(fault)) => return Err(fault),
        (surface, _) => surface?,
    };
    // SAFETY: as the caller vouches.
    Ok((surface, unsafe { input(region)? }.into()))
}

/// Mean and spread of a surface's height over a region.
///
/// Steps, grids and planes are measured exactly, as bilinear cells; over a cylinder or sphere so many equal
/// cells are laid in x and in y, with their corners on it. Where part of the region is unknown, the numbers are
/// those of the rest.
///
/// @param[in]  surface        surface, set with spotwise_surface_init() and filled in; not NULL.
/// @param[in]  region         region, set with spotwise_region_init() and filled in; not NULL.
/// @param[in]  cells_per_side cells over a cylinder or sphere, 1 to 1000; 128 is plenty.
/// @param[out] heights        result; set with spotwise_region_heights_result_init(); not NULL. On any status
///                            other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error          what was refused; may be NULL.
/// @return as spotwise_surface_extremes(); SPOTWISE_E_OUT_OF_RANGE for the cells, as
///         SPOTWISE_PARAM_CELLS_PER_SIDE.
///
/// Accuracy: of the cells, 0.3 % of the range of heights with 16 a side, 0.005 % with 128; of the numbers, some
/// ulp of the range. Two passes over the cells.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a plane with slope_x 0.01 over 60 mm by 40 mm: mean 0.3 mm, deviation 0.6 mm/sqrt(12) = 173.2 um.
/// Source: moments of a bilinear function; derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_region_heights(
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    cells_per_side: u32,
    heights: *mut spotwise_region_heights_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(heights).or(error_pointer_fault(error));
        report(heights, error, || {
            let (surface, region) = surface_and_region(surface, region, last_fault)?;
            Ok(region_heights(&surface, &region, cells_per_side)?.into())
        })
    }
}

/// Share of a surface's area that lies between two heights, such as the ends of a depth of focus.
///
/// Shares are of the area whose height is known, as seen from the lens, and add up to one. Exact within each
/// bilinear cell, also of one that is nearly plane; cells as in spotwise_region_heights().
///
/// @param[in]  surface          surface, set with spotwise_surface_init() and filled in; not NULL.
/// @param[in]  region           region, set with spotwise_region_init() and filled in; not NULL.
/// @param[in]  cells_per_side   cells over a cylinder or sphere, 1 to 1000; 128 is plenty.
/// @param[in]  toward_lens_z_m  end nearer the lens in metres, + away from the lens; range:
///                              SPOTWISE_PARAM_TOWARD_LENS_Z.
/// @param[in]  away_from_lens_z_m end farther from the lens in metres, not less than the other; range:
///                              SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
/// @param[out] share            result; set with spotwise_share_in_focus_result_init(); not NULL. On any status
///                              other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error            what was refused; may be NULL.
/// @return as spotwise_region_heights(); SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE for an end.
///
/// Accuracy: some ulp of the whole; of the cells, 3 % of the area with 16 a side in the worst case, a band that
/// just takes in the crown, 0.2 % with 64, 0.05 % with 128. One pass over the cells.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a square of which one corner stands 1 mm off the other three, z = 1 mm u v; within 0 to 0.2 mm lies
///          0.2 (1 - ln 0.2) = 52.19 % of it.
/// Source: integral of a quotient of straight lines; derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_share_in_focus(
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    cells_per_side: u32,
    toward_lens_z_m: f64,
    away_from_lens_z_m: f64,
    share: *mut spotwise_share_in_focus_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(share).or(error_pointer_fault(error));
        report(share, error, || {
            let (surface, region) = surface_and_region(surface, region, last_fault)?;
            Ok(share_in_focus(&surface, &region, cells_per_side, toward_lens_z_m, away_from_lens_z_m)?.into())
        })
    }
}

/// The focus heights that serve a surface best: for the worst spot, for the mean spot, for the area in focus.
///
/// The worst spot is least with focus half-way between the highest and the lowest place, the mean area of the
/// spot with focus at the mean height. The height that keeps most area within the depth is found by search, and then
/// proven: no other keeps more by over 1.1e-5 of the area. (Where parts of the surface lie one depth apart to a
/// millionth of the depth, or to 2^-44 of the range, whether both fit is told for level parts only.) Of a range of
/// heights that keep as much its middle is told, of several such ranges that nearest the lens.
///
/// @param[in]  beam           beam; set with spotwise_beam_init() and filled in; not NULL.
/// @param[in]  criterion      what counts as in focus; set with spotwise_depth_criterion_init(); not NULL.
/// @param[in]  surface        surface, set with spotwise_surface_init() and filled in; not NULL.
/// @param[in]  region         region, set with spotwise_region_init() and filled in; not NULL.
/// @param[in]  cells_per_side cells over a cylinder or sphere, 1 to 1000; take few on a controller.
/// @param[out] focus          result; set with spotwise_surface_focus_init(); not NULL. On any status other than
///                            SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error          what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (the beam's half angle is
///         above 0.3 rad), SPOTWISE_E_UNREACHABLE (the largest diameter is below that of the waist); then as
///         spotwise_region_heights().
///
/// Accuracy: heights by formula to some ulp of the range; that by search, of a surface of so many cells, to
/// 1e-11 of the depth of focus. About 30 + 4 (range/depth) passes over the cells, each for 16 heights, and never
/// more than 900.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: strips at 0 (200 mm wide) and at 2 mm (100 mm wide), beam of 10.6 um, M2 1.2, 88 um, Rayleigh
///          criterion: half-way at 1 mm nothing is in focus; mean 0.667 mm; most in focus at 0: 66.7 %.
/// Source: minimax of an even function; parallel axis theorem; the search is the authors'.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_for_surface(
    beam: *const spotwise_beam,
    criterion: *const spotwise_depth_criterion,
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    cells_per_side: u32,
    focus: *mut spotwise_surface_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(focus).or(error_pointer_fault(error));
        report(focus, error, || {
            let (beam, criterion) = (input(beam)?.into(), input(criterion)?);
            let shape = surface_and_region(surface, region, last_fault);
            // The criterion is refused before the surface, pointers before either.
            let criterion = match (shape, criterion.try_into()) {
                (Ok(_) | Err(Fault::Refused(_) | Fault::TooLong { .. }), Err(refused)) => {
                    return Err(Fault::Refused(refused));
                }
                (_, criterion) => criterion,
            };
            let (surface, region) = shape?;
            Ok(focus_for_surface(&beam, criterion?, &surface, &region, cells_per_side)?.into())
        })
    }
}
