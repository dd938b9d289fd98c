//! Where the workpiece really is: the shape of its surface.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, length_fault, numbers};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::mem::{offset_of, size_of};
use core::ptr::null;
use spotwise::Param;
use spotwise::model::surface::{
    Bulge, Region, Surface, SurfaceExtremes, SurfaceNumbers, SurfacePlace, surface_at, surface_extremes,
};

/// Shape of a surface: flat, level or tilted; reads slope_x and slope_y.
pub const SPOTWISE_SURFACE_PLANE: u32 = 1;
/// Shape of a surface: a lying cylinder; reads every number, and no array.
pub const SPOTWISE_SURFACE_CYLINDER: u32 = 2;
/// Shape of a surface: a sphere, dome or bowl; reads every number but axis_angle_rad, and no array.
pub const SPOTWISE_SURFACE_SPHERE: u32 = 3;
/// Shape of a surface: level strips across x, endless in y; reads x_m for their edges, z_m for their heights.
pub const SPOTWISE_SURFACE_STEPS: u32 = 4;
/// Shape of a surface: heights that a probe found on a grid, bilinear between; reads the arrays.
pub const SPOTWISE_SURFACE_GRID: u32 = 5;

/// Bulge of a cylinder or sphere: toward the lens, a bar or dome. Its crown is the place nearest the lens.
pub const SPOTWISE_BULGE_TOWARD_LENS: u32 = 1;
/// Bulge of a cylinder or sphere: away from the lens, a trough or bowl.
pub const SPOTWISE_BULGE_AWAY_FROM_LENS: u32 = 2;

const _: () = {
    let (slope_x, slope_y, radius, crown_x, crown_y) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let (bulge, axis_angle) = (Bulge::TowardLens, 0.0);
    let cylinder = Surface::Cylinder { radius, bulge, crown_x, crown_y, axis_angle, slope_x, slope_y };
    let sphere = Surface::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y };
    assert!(SPOTWISE_SURFACE_PLANE == Surface::Plane { slope_x, slope_y }.code());
    assert!(SPOTWISE_SURFACE_CYLINDER == cylinder.code());
    assert!(SPOTWISE_SURFACE_SPHERE == sphere.code());
    assert!(SPOTWISE_SURFACE_STEPS == Surface::Steps { edges: &[], z: &[] }.code());
    assert!(SPOTWISE_SURFACE_GRID == Surface::Grid { x: &[], y: &[], z: &[] }.code());
    assert!(SPOTWISE_SURFACE_GRID as f64 == Param::SurfaceShape.range().1);

    assert!(SPOTWISE_BULGE_TOWARD_LENS == Bulge::TowardLens.code());
    assert!(SPOTWISE_BULGE_AWAY_FROM_LENS == Bulge::AwayFromLens.code());
    assert!(SPOTWISE_BULGE_AWAY_FROM_LENS as f64 == Param::Bulge.range().1);
};

/// Shape of a surface: heights z, + away from the lens, over x and y. A cylinder or sphere may lean: its slopes
/// are added to it, its crown stays at z = 0. The arrays stay yours and are only read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_surface {
    /// Size of this struct; spotwise_surface_init() sets it.
    pub struct_size: u32,
    /// Shape; one of SPOTWISE_SURFACE_*.
    pub surface: u32,
    /// Which way a cylinder or sphere bulges; one of SPOTWISE_BULGE_*.
    pub bulge: u32,
    /// Set to 0.
    pub reserved: u32,
    /// How far it drops away from the lens on each length in x; 0 is level; range: SPOTWISE_PARAM_SLOPE_X.
    pub slope_x: f64,
    /// Likewise in y; range: SPOTWISE_PARAM_SLOPE_Y.
    pub slope_y: f64,
    /// RADIUS of a cylinder or sphere in metres; range: SPOTWISE_PARAM_CURVATURE_RADIUS.
    pub curvature_radius_m: f64,
    /// Its crown, or for a cylinder a place on its crown line, in metres; range: SPOTWISE_PARAM_CROWN_X.
    pub crown_x_m: f64,
    /// That place in y; range: SPOTWISE_PARAM_CROWN_Y.
    pub crown_y_m: f64,
    /// Angle of a cylinder's axis from the x axis toward + y in radians; range: SPOTWISE_PARAM_AXIS_ANGLE.
    pub axis_angle_rad: f64,
    /// Edges of steps, one more than there are strips, or columns of a grid, in metres, ascending by at least
    /// 1e-9 m; the spacing may vary; range: SPOTWISE_PARAM_STEP_EDGE or SPOTWISE_PARAM_GRID_X.
    pub x_m: *const f64,
    /// Rows of a grid in metres, likewise; range: SPOTWISE_PARAM_GRID_Y.
    pub y_m: *const f64,
    /// Heights in metres, + away from the lens: one for each strip, or those of a grid row after row, the first
    /// of each column at the first y, and so on, NAN where the probe found nothing; range:
    /// SPOTWISE_PARAM_STEP_HEIGHT or SPOTWISE_PARAM_PROBED_HEIGHT.
    pub z_m: *const f64,
    /// Length of x_m.
    pub x_count: usize,
    /// Length of y_m.
    pub y_count: usize,
    /// Length of z_m.
    pub z_count: usize,
}

/// Where the pointers begin, and their size: 4 or 8 bytes, by the target.
const POINTERS_AT: usize = 64;
const POINTER: usize = size_of::<*const f64>();

const _: () = {
    assert!(offset_of!(spotwise_surface, struct_size) == 0);
    assert!(offset_of!(spotwise_surface, surface) == 4);
    assert!(offset_of!(spotwise_surface, bulge) == 8);
    assert!(offset_of!(spotwise_surface, reserved) == 12);
    assert!(offset_of!(spotwise_surface, slope_x) == 16);
    assert!(offset_of!(spotwise_surface, slope_y) == 24);
    assert!(offset_of!(spotwise_surface, curvature_radius_m) == 32);
    assert!(offset_of!(spotwise_surface, crown_x_m) == 40);
    assert!(offset_of!(spotwise_surface, crown_y_m) == 48);
    assert!(offset_of!(spotwise_surface, axis_angle_rad) == 56);
    assert!(offset_of!(spotwise_surface, x_m) == POINTERS_AT);
    assert!(offset_of!(spotwise_surface, y_m) == POINTERS_AT + POINTER);
    assert!(offset_of!(spotwise_surface, z_m) == POINTERS_AT + 2 * POINTER);
    assert!(offset_of!(spotwise_surface, x_count) == POINTERS_AT + 3 * POINTER);
    assert!(offset_of!(spotwise_surface, y_count) == POINTERS_AT + 4 * POINTER);
    assert!(offset_of!(spotwise_surface, z_count) == POINTERS_AT + 5 * POINTER);
    assert!(size_of::<spotwise_surface>() == POINTERS_AT + 6 * POINTER);
};

impl Plain for spotwise_surface {
    const BLANK: Self = Self {
        struct_size: size_of::<Self>() as u32,
        surface: 0,
        bulge: 0,
        reserved: 0,
        slope_x: f64::NAN,
        slope_y: f64::NAN,
        curvature_radius_m: f64::NAN,
        crown_x_m: f64::NAN,
        crown_y_m: f64::NAN,
        axis_angle_rad: f64::NAN,
        x_m: null(),
        y_m: null(),
        z_m: null(),
        x_count: 0,
        y_count: 0,
        z_count: 0,
    };

    unsafe fn is_known(this: *const Self) -> bool {
        // SAFETY: the caller vouches for `this`; only its first member is read.
        unsafe { (&raw const (*this).struct_size).read() == Self::BLANK.struct_size }
    }
}

/// The surface behind an input pointer, with its arrays. Arrays that the shape does not read are not looked at.
///
/// # Safety
/// `surface` is NULL, or aligned and readable, and so are its arrays for their items while `'a` lasts.
pub(crate) unsafe fn surface_of<'a>(surface: *const spotwise_surface) -> Result<Surface<'a>, Fault> {
    // SAFETY: as the caller vouches.
    let given = unsafe { input(surface)? };
    let (rows, heights) = match given.surface {
        SPOTWISE_SURFACE_STEPS => (0, Param::StepHeights),
        SPOTWISE_SURFACE_GRID => (given.y_count, Param::ProbedHeights),
        _ => (0, Param::ProbedHeights),
    };
    let has_arrays = matches!(given.surface, SPOTWISE_SURFACE_STEPS | SPOTWISE_SURFACE_GRID);
    let [columns, z_count] = [given.x_count, given.z_count].map(|count| if has_arrays { count } else { 0 });
    let extents = [(given.x_m, columns), (given.y_m, rows), (given.z_m, z_count)];
    let columns_param = if rows == 0 { Param::StepEdges } else { Param::GridColumns };
    let too_long = length_fault(columns_param, columns)
        .or(length_fault(Param::GridRows, rows))
        .or(length_fault(heights, z_count));
    if let Some(fault) =
        array_fault(&extents.map(|(start, count)| Extent::of(start, count)), &[]).or(too_long)
    {
        return Err(fault);
    }
    // SAFETY: not NULL unless empty, valid for their items as the caller vouches.
    let [x, y, z] = extents.map(|(start, count)| unsafe { numbers(start, count) });
    let numbers = SurfaceNumbers {
        slope_x: given.slope_x,
        slope_y: given.slope_y,
        radius: given.curvature_radius_m,
        bulge: given.bulge,
        crown_x: given.crown_x_m,
        crown_y: given.crown_y_m,
        axis_angle: given.axis_angle_rad,
        x,
        y,
        z,
    };
    Ok(Surface::from_code(given.surface, &numbers)?)
}

/// Sets struct_size, codes, pointers and lengths to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_surface_init(surface: *mut spotwise_surface) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(surface) }
}

/// The part of the table that is marked.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_region {
    /// Size of this struct; spotwise_region_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// End of least x in metres; range: SPOTWISE_PARAM_REGION_X.
    pub x_least_m: f64,
    /// End of greatest x in metres, at least 1e-9 m beyond; range: SPOTWISE_PARAM_REGION_X.
    pub x_greatest_m: f64,
    /// End of least y in metres; range: SPOTWISE_PARAM_REGION_Y.
    pub y_least_m: f64,
    /// End of greatest y in metres, at least 1e-9 m beyond; range: SPOTWISE_PARAM_REGION_Y.
    pub y_greatest_m: f64,
}
plain!(
    spotwise_region, 40 bytes,
    words: [reserved],
    numbers: [x_least_m, x_greatest_m, y_least_m, y_greatest_m]
);

impl From<spotwise_region> for Region {
    fn from(region: spotwise_region) -> Self {
        Self {
            x_least: region.x_least_m,
            x_greatest: region.x_greatest_m,
            y_least: region.y_least_m,
            y_greatest: region.y_greatest_m,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_region_init(region: *mut spotwise_region) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(region) }
}

/// A surface at one place: the result of spotwise_surface_at().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_surface_place {
    /// Size of this struct; spotwise_surface_place_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// Height in metres, + away from the lens.
    pub z_m: f64,
    /// How far the surface drops away from the lens on each length in x.
    pub slope_x: f64,
    /// Likewise in y.
    pub slope_y: f64,
    /// Angle in radians between the normal of the surface and the beam axis.
    pub incidence_rad: f64,
    /// Length of the spot along the slope over its diameter.
    pub stretch: f64,
    /// Irradiance for each area of the surface over that on a level one.
    pub irradiance_factor: f64,
}
plain!(
    spotwise_surface_place, 56 bytes,
    words: [reserved],
    numbers: [z_m, slope_x, slope_y, incidence_rad, stretch, irradiance_factor]
);

impl From<SurfacePlace> for spotwise_surface_place {
    fn from(place: SurfacePlace) -> Self {
        Self {
            z_m: place.z,
            slope_x: place.slope_x,
            slope_y: place.slope_y,
            incidence_rad: place.incidence,
            stretch: place.stretch,
            irradiance_factor: place.irradiance_factor,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_surface_place_init(place: *mut spotwise_surface_place) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(place) }
}

/// Height, slope and incidence angle of a surface at one place, and what the slope makes of the spot.
///
/// z = slope_x dx + slope_y dy +- t^2/(R + sqrt(R^2 - t^2)), (dx, dy) being the place less the crown, t its
/// distance from it (or from the crown line), + for a bulge toward the lens. Within a cell of a grid heights
/// are bilinear. Incidence angle: its tangent is the length of the slope; stretch 1/cos, irradiance factor cos.
///
/// On a place of a grid between cells, the slope is that of the cell of greater x and y; where that lacks a
/// probe, of the cell of greater x and lesser y, then of that of lesser x and greater y, then of the last. Each
/// step counts from its first edge; the last one also at its end. All of the surface is checked in every call.
///
/// Walls of steps and shadows are not modelled.
///
/// @param[in]  surface   surface, set with spotwise_surface_init() and filled in; not NULL.
/// @param[in]  place_x_m place in metres; range: SPOTWISE_PARAM_PLACE_X.
/// @param[in]  place_y_m place in metres; range: SPOTWISE_PARAM_PLACE_Y.
/// @param[out] place     result; set with spotwise_surface_place_init(); not NULL. On any status other than
///                       SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL (also for an array that the shape reads), SPOTWISE_E_STRUCT_SIZE,
///         SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_LENGTH_MISMATCH (heights not as many as strips, or as columns
///         times rows), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also a place beside steps or a grid,
///         the range being theirs, fewer than two edges, columns or rows, and a SPOTWISE_PARAM_STEP_WIDTH or
///         SPOTWISE_PARAM_GRID_SPACING below 1e-9 m), SPOTWISE_E_OUTSIDE_MODEL (a place beside a cylinder or
///         sphere, as SPOTWISE_PARAM_DISTANCE_FROM_CROWN), SPOTWISE_E_UNDETERMINED (a cell, or all of a grid,
///         that lacks probes, as SPOTWISE_PARAM_KNOWN_PROBES).
///
/// Accuracy: 0.75 ulp, of the angle 1.5 ulp, besides what the rounded sine and cosine of axis_angle_rad make.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a bar of 15 mm radius along x, 9 mm off its crown line: z 3 mm, slope_y 0.75, factor 0.8.
/// Source: sagitta of an arc, from Pythagoras' theorem; bilinear interpolation.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_surface_at(
    surface: *const spotwise_surface,
    place_x_m: f64,
    place_y_m: f64,
    place: *mut spotwise_surface_place,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe { report(place, error, || Ok(surface_at(&surface_of(surface)?, place_x_m, place_y_m)?.into())) }
}

/// Highest, lowest and steepest place of a surface within a region: the result of spotwise_surface_extremes().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_surface_extremes_result {
    /// Size of this struct; spotwise_surface_extremes_result_init() sets it.
    pub struct_size: u32,
    /// How many probes that bear on the region found nothing.
    pub missing_probes: u32,
    /// Height of the place nearest the lens in metres: the LEAST z.
    pub highest_z_m: f64,
    /// Where that is in metres.
    pub highest_x_m: f64,
    /// That place in y.
    pub highest_y_m: f64,
    /// Height of the place farthest from the lens in metres: the GREATEST z.
    pub lowest_z_m: f64,
    /// Where that is in metres.
    pub lowest_x_m: f64,
    /// That place in y.
    pub lowest_y_m: f64,
    /// From the highest place to the lowest in metres.
    pub range_m: f64,
    /// Steepest incidence angle in radians.
    pub steepest_incidence_rad: f64,
    /// Where that is in metres.
    pub steepest_x_m: f64,
    /// That place in y.
    pub steepest_y_m: f64,
    /// Share of the region's area about which nothing is known: cells that lack a probe, and what lies beside
    /// steps or a grid.
    pub unknown_share: f64,
}
plain!(
    spotwise_surface_extremes_result, 96 bytes,
    words: [missing_probes],
    numbers: [
        highest_z_m,
        highest_x_m,
        highest_y_m,
        lowest_z_m,
        lowest_x_m,
        lowest_y_m,
        range_m,
        steepest_incidence_rad,
        steepest_x_m,
        steepest_y_m,
        unknown_share,
    ]
);

impl From<SurfaceExtremes> for spotwise_surface_extremes_result {
    fn from(extremes: SurfaceExtremes) -> Self {
        Self {
            missing_probes: extremes.missing_probes,
            highest_z_m: extremes.highest_z,
            highest_x_m: extremes.highest_x,
            highest_y_m: extremes.highest_y,
            lowest_z_m: extremes.lowest_z,
            lowest_x_m: extremes.lowest_x,
            lowest_y_m: extremes.lowest_y,
            range_m: extremes.range,
            steepest_incidence_rad: extremes.steepest_incidence,
            steepest_x_m: extremes.steepest_x,
            steepest_y_m: extremes.steepest_y,
            unknown_share: extremes.unknown_share,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, missing_probes to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_surface_extremes_result_init(
    extremes: *mut spotwise_surface_extremes_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(extremes) }
}

/// Highest, lowest and steepest place of a surface within a region, in closed form: nothing is searched for.
///
/// Where part of the region is unknown, the extremes are those of the rest. Of several places that are equally
/// extreme the one of least y is told, of these the one of least x. Between cells of a grid the steepest of
/// them counts.
///
/// @param[in]  surface  surface, set with spotwise_surface_init() and filled in; not NULL.
/// @param[in]  region   region, set with spotwise_region_init() and filled in; not NULL.
/// @param[out] extremes result; set with spotwise_surface_extremes_result_init(); not NULL. On any status other
///                      than SPOTWISE_OK its numbers are set to a quiet NaN, its count to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_surface_at() for the surface; SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE for an end
///         of the region, and for a width of it below 1e-9 m as SPOTWISE_PARAM_REGION_WIDTH_X and _Y;
///         SPOTWISE_E_OUTSIDE_MODEL (a region that reaches beside a cylinder or sphere, as
///         SPOTWISE_PARAM_DISTANCE_FROM_CROWN), SPOTWISE_E_UNDETERMINED (no strip, or no cell with all its
///         probes, as SPOTWISE_PARAM_KNOWN_PARTS).
///
/// Accuracy: 0.75 ulp, of the angle 1.5 ulp, besides what the rounded sine and cosine of axis_angle_rad make.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a bar of 15 mm radius along x, marked up to 9 mm on either side: highest z 0, range 3 mm.
/// Source: convexity of arcs; derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_surface_extremes(
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    extremes: *mut spotwise_surface_extremes_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(region).or(pointer_fault(extremes)).or(error_pointer_fault(error));
        report(extremes, error, || extremes_of(surface, region, last_fault).map(Into::into))
    }
}

/// # Safety
/// Pointers are NULL or valid.
unsafe fn extremes_of(
    surface: *const spotwise_surface,
    region: *const spotwise_region,
    last_fault: Option<Fault>,
) -> Result<SurfaceExtremes, Fault> {
    // SAFETY: as the caller vouches.
    let surface = match (unsafe { surface_of(surface) }, last_fault) {
        // Pointers come before choices and lengths.
        (Ok(_) | Err(Fault::Refused(_) | Fault::TooLong { .. }), Some(fault)) => return Err(fault),
        (surface, _) => surface?,
    };
    // SAFETY: as the caller vouches.
    let region: Region = unsafe { input(region)? }.into();
    Ok(surface_extremes(&surface, &region)?)
}
