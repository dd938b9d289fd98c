//! Crisp or smooth: the edge of a fill and its ripple against focus.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Error;
use spotwise::model::mark::{FillQuality, Taste, fill_quality, offset_for_taste};

/// What you want of a fill. The library never says which taste is better. Numbers that the taste
/// does not name are not read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_taste {
    /// Size of this struct; spotwise_taste_init() sets it.
    pub struct_size: u32,
    /// One of SPOTWISE_TASTE_*.
    pub taste: u32,
    /// Greatest width of an edge, 10 % to 90 % of the dose, in metres; for
    /// SPOTWISE_TASTE_SMOOTHEST_WITHIN; range: SPOTWISE_PARAM_LARGEST_EDGE.
    pub largest_edge_m: f64,
    /// Weight of crispness; for SPOTWISE_TASTE_COMPROMISE; range: SPOTWISE_PARAM_CRISPNESS_WEIGHT.
    pub crispness_weight: f64,
}
plain!(
    spotwise_taste, 24 bytes,
    words: [taste],
    numbers: [largest_edge_m, crispness_weight]
);

impl TryFrom<spotwise_taste> for Taste {
    type Error = Error;

    fn try_from(taste: spotwise_taste) -> Result<Self, Error> {
        Self::from_code(taste.taste, taste.largest_edge_m, taste.crispness_weight)
    }
}

/// Sets struct_size, the taste to 0, which is none, and every number to a quiet NaN. NULL does
/// nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_taste_init(taste: *mut spotwise_taste) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(taste) }
}

/// Edge and ripple of a fill at one offset: the result of spotwise_fill_quality() and
/// spotwise_offset_for_taste().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_fill_quality_result {
    /// Size of this struct; spotwise_fill_quality_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Magnitude of the offset from the waist in metres; it serves alike on either side.
    pub offset_m: f64,
    /// Spot diameter there in metres, 1/e^2 (D4 sigma).
    pub spot_diameter_m: f64,
    /// Width of an edge from 10 % to 90 % of the dose in metres.
    pub edge_width_m: f64,
    /// Contrast of the ripple of the fill.
    pub ripple_contrast: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_fill_quality_result, 48 bytes,
    words: [validity],
    numbers: [offset_m, spot_diameter_m, edge_width_m, ripple_contrast, half_angle_rad]
);

impl From<FillQuality> for spotwise_fill_quality_result {
    fn from(result: FillQuality) -> Self {
        Self {
            validity: result.validity.bits(),
            offset_m: result.offset,
            spot_diameter_m: result.spot_diameter,
            edge_width_m: result.edge_width,
            ripple_contrast: result.ripple_contrast,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_fill_quality_result_init(quality: *mut spotwise_fill_quality_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(quality) }
}

/// Edge width and ripple of a fill at an offset from the waist.
///
/// The edge is 0.6408 d wide, the ripple that of spotwise_raster_ripple(): out of focus the one
/// grows and the other fades. C does not notice if interval and offset are swapped.
///
/// @param[in]  beam            beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  line_interval_m from one line to the next in metres; range:
///                             SPOTWISE_PARAM_LINE_INTERVAL.
/// @param[in]  z_offset_m      offset of the surface from the waist in metres, + away from the
///                             lens; range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[out] quality         result; set with spotwise_fill_quality_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN, its codes and flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; an interval
///         above 20 radii of the waist as SPOTWISE_PARAM_INTERVAL_OVER_RADIUS).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result; the ripple at most 8 ulp
///           times 1 + (pi/r)^2 where r, the interval over the spot radius, is below 1.6.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a waist of 88 um: an edge of 56.388 um.
/// Source: derived by the authors, an edge convolved with a Gaussian spot; as
///         spotwise_raster_ripple().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fill_quality(
    beam: *const spotwise_beam,
    line_interval_m: f64,
    z_offset_m: f64,
    quality: *mut spotwise_fill_quality_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(quality, error, || Ok(fill_quality(&input(beam)?.into(), line_interval_m, z_offset_m)?.into()))
    }
}

/// The offset from focus at which a fill best serves a taste.
///
/// The crispest edge is in the waist; the smoothest fill whose edge stays under a limit is where
/// the edge reaches it; a compromise has the least cost s (g - 1) + (1 - s) C, s being the weight
/// of crispness, g the growth of the edge and C the contrast of the ripple.
///
/// @param[in]  beam            beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  line_interval_m from one line to the next in metres; range:
///                             SPOTWISE_PARAM_LINE_INTERVAL.
/// @param[in]  taste           taste to read; set with spotwise_taste_init(); not NULL.
/// @param[out] quality         result; set with spotwise_fill_quality_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN, its codes and flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         taste), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (as
///         spotwise_fill_quality()), SPOTWISE_E_UNREACHABLE (a largest edge below that of the
///         waist).
///
/// Accuracy: the offset at most 8 ulp (units in the last place) of the exact result times r^2/(r^2
///           - 1), r being the growth there; that of a compromise at most 4 ulp times a factor that grows where its cost is flat.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 10.6 um, M^2 = 1.2, waist 88 um, edges of up to 70 um: 0.3517 mm off focus.
/// Source: as spotwise_fill_quality().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_offset_for_taste(
    beam: *const spotwise_beam,
    line_interval_m: f64,
    taste: *const spotwise_taste,
    quality: *mut spotwise_fill_quality_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(quality, error, || {
            let (beam, taste) = (input(beam)?.into(), input(taste)?);
            Ok(offset_for_taste(&beam, line_interval_m, taste.try_into()?)?.into())
        })
    }
}
