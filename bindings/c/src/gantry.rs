//! A lens that travels along a gantry.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, blank, length_fault, numbers, numbers_mut};
use crate::beam::spotwise_beam;
use crate::cone::spotwise_cone;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::model::optics::{
    Beam, Cone, EvenGantry, GantrySpread, even_out_gantry, focus_along_gantry, gantry_spread,
};

/// How much the focus varies over the travel of a lens: the result of spotwise_gantry_spread().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_gantry_spread_result {
    /// Size of this struct; spotwise_gantry_spread_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Smallest spot diameter on the travel in metres, 1/e^2 (D4 sigma).
    pub smallest_spot_m: f64,
    /// Largest spot diameter on the travel in metres, 1/e^2 (D4 sigma).
    pub largest_spot_m: f64,
    /// Largest over smallest spot.
    pub spot_ratio: f64,
    /// Least focus shift on the travel in metres, from the focal point, + away from the lens.
    pub least_focus_shift_m: f64,
    /// Greatest focus shift on the travel in metres.
    pub greatest_focus_shift_m: f64,
    /// Greatest less least focus shift in metres: how far the focus wanders in height.
    pub focus_wander_m: f64,
    /// Greatest 1/e^2 half angle before and behind the lens in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_gantry_spread_result, 64 bytes,
    words: [validity],
    numbers: [
        smallest_spot_m,
        largest_spot_m,
        spot_ratio,
        least_focus_shift_m,
        greatest_focus_shift_m,
        focus_wander_m,
        half_angle_rad,
    ]
);

impl From<GantrySpread> for spotwise_gantry_spread_result {
    fn from(result: GantrySpread) -> Self {
        Self {
            validity: result.validity.bits(),
            smallest_spot_m: result.smallest_spot,
            largest_spot_m: result.largest_spot,
            spot_ratio: result.spot_ratio,
            least_focus_shift_m: result.least_focus_shift,
            greatest_focus_shift_m: result.greatest_focus_shift,
            focus_wander_m: result.focus_wander,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_gantry_spread_result_init(spread: *mut spotwise_gantry_spread_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(spread) }
}

/// The setting of a beam expander that evens out the spot over the travel of a lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_even_gantry {
    /// Size of this struct; spotwise_even_gantry_init() sets it.
    pub struct_size: u32,
    /// 1 if the spots at both ends of the travel are equal; 0 if the beam is too thin to carry its
    /// waist to mid-travel, so that this setting only makes them least unequal.
    pub ends_equal: u32,
    /// By how much the expander must converge collimated light, in 1/m.
    pub exit_power_per_m: f64,
    /// Waist diameter behind the expander in metres, 1/e^2 (D4 sigma).
    pub waist_diameter_m: f64,
    /// From the expander to that waist in metres, + along the light.
    pub expander_to_waist_m: f64,
    /// How the focus then varies; the SPOTWISE_VALIDITY_* bits are in it.
    pub spread: spotwise_gantry_spread_result,
}
plain!(
    spotwise_even_gantry, 96 bytes,
    words: [ends_equal],
    numbers: [exit_power_per_m, waist_diameter_m, expander_to_waist_m],
    nested: [spread: spotwise_gantry_spread_result]
);

impl From<EvenGantry> for spotwise_even_gantry {
    fn from(result: EvenGantry) -> Self {
        Self {
            ends_equal: u32::from(result.ends_equal),
            exit_power_per_m: result.exit_power,
            waist_diameter_m: result.waist_diameter,
            expander_to_waist_m: result.expander_to_waist,
            spread: result.spread.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the spread, flags to 0, and every number to a quiet NaN. NULL does
/// nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_even_gantry_init(even: *mut spotwise_even_gantry) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(even) }
}

/// The focus of an ideal lens at many places along a gantry: spot_diameter_m[i] and focus_shift_m[i]
/// belong to waist_to_lens_m[i].
///
/// Each is the same bits as waist diameter and focus shift of spotwise_focus_through_lens().
///
/// @param[in]  raw             raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  waist_to_lens_m count distances from the raw waist to the lens in metres, + when the
///                             waist lies upstream; not NULL unless count is 0; range:
///                             SPOTWISE_PARAM_WAIST_TO_LENS.
/// @param[in]  count           length of the three arrays; may be 0.
/// @param[in]  focal_length_m  focal length in metres, + converging; range:
///                             SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] spot_diameter_m count spot diameters in metres, 1/e^2 (D4 sigma); not NULL unless count
///                             is 0.
/// @param[out] focus_shift_m   count distances from the focal point to the waist in metres, + away from
///                             the lens; not NULL unless count is 0. The two outputs must overlap
///                             neither each other nor the input. On any status other than SPOTWISE_OK
///                             all of both is set to quiet NaNs, but for a count that no array can
///                             have: then nothing is written to them.
/// @param[out] cone            widest cone, of the raw beam and of every focus, with the flags of all; set
///                             with spotwise_cone_init(); not NULL. On any status other than SPOTWISE_OK
///                             its number is set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE (raw beam, distances, focal length), SPOTWISE_E_OUTSIDE_MODEL (as
///         spotwise_focus_through_lens(), for the first distance that is refused).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_along_gantry(
    raw: *const spotwise_beam,
    waist_to_lens_m: *const f64,
    count: usize,
    focal_length_m: f64,
    spot_diameter_m: *mut f64,
    focus_shift_m: *mut f64,
    cone: *mut spotwise_cone,
    error: *mut spotwise_error,
) -> spotwise_status {
    let places = Places { waist_to_lens_m, count, spot_diameter_m, focus_shift_m };
    // SAFETY: pointers are NULL or valid, those to arrays for `count` numbers, as the header demands.
    unsafe {
        let last_fault = pointer_fault(cone).or(error_pointer_fault(error));
        report(cone, error, || Ok(fill_places(raw, &places, focal_length_m, last_fault)?.into()))
    }
}

/// The arrays of one call.
struct Places {
    waist_to_lens_m: *const f64,
    count: usize,
    spot_diameter_m: *mut f64,
    focus_shift_m: *mut f64,
}

/// Fills the outputs: with spots and shifts, whose widest cone it returns, or with NaN on a fault.
///
/// # Safety
/// Pointers are NULL or valid, those to arrays for `count` numbers.
unsafe fn fill_places(
    raw: *const spotwise_beam,
    places: &Places,
    focal_length: f64,
    last_fault: Option<Fault>,
) -> Result<Cone, Fault> {
    let count = places.count;
    let inputs = [Extent::of(places.waist_to_lens_m, count)];
    let outputs = [Extent::of(places.spot_diameter_m, count), Extent::of(places.focus_shift_m, count)];
    let arrays = array_fault(&inputs, &outputs);
    // SAFETY: NULL or readable, as the caller vouches.
    let raw = unsafe { input(raw) };
    let pointers = raw.and_then(|raw| arrays.or(last_fault).map_or(Ok(Beam::from(raw)), Err));
    // No array is so long, so there is none to make blank.
    if let Some(fault) = length_fault(Param::Output, count) {
        return pointers.and(Err(fault));
    }
    for output in [places.spot_diameter_m, places.focus_shift_m] {
        // SAFETY: NULL or writable for `count` numbers, as the caller vouches.
        unsafe { blank(output, count) }
    }
    let raw = pointers?;
    // SAFETY: not NULL unless empty, valid for `count` numbers as the caller vouches, apart, blank.
    let (distances, spots, shifts) = unsafe {
        (
            numbers(places.waist_to_lens_m, count),
            numbers_mut(places.spot_diameter_m, count),
            numbers_mut(places.focus_shift_m, count),
        )
    };
    Ok(focus_along_gantry(&raw, distances, focal_length, spots, shifts)?)
}

/// How far the spot and the height of focus vary while a lens travels along a gantry.
///
/// The extremes are exact, wherever on the travel they lie. C does not notice if nearest_m and a
/// smaller focal_length_m are swapped.
///
/// @param[in]  raw            raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  nearest_m      shortest distance from the raw waist to the lens in metres, + when the
///                            waist lies upstream; range: SPOTWISE_PARAM_NEAREST.
/// @param[in]  farthest_m     longest such distance in metres, not less than nearest_m; range:
///                            SPOTWISE_PARAM_FARTHEST.
/// @param[in]  focal_length_m focal length in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] spread         result; set with spotwise_gantry_spread_result_init(); not NULL. On any
///                            status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error          what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, or a spot
///         outside 1e-9 to 10 m).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; the extremes derived by the
/// authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_gantry_spread(
    raw: *const spotwise_beam,
    nearest_m: f64,
    farthest_m: f64,
    focal_length_m: f64,
    spread: *mut spotwise_gantry_spread_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(spread, error, || {
            Ok(gantry_spread(&input(raw)?.into(), nearest_m, farthest_m, focal_length_m)?.into())
        })
    }
}

/// The setting of a beam expander that makes the spots at both ends of a gantry's travel equal.
///
/// It evens out the ends; in between the spot may be larger, and the spread tells by how much. The
/// exit power is what an expander of a path or a job takes. On the expander itself, set the light
/// behind it by what it makes at a known distance: 0.5 per metre brings collimated light to a focus
/// 2 m away. C does not notice if two of the lengths are swapped.
///
/// @param[in]  raw                 raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  waist_to_expander_m from the raw waist to the expander in metres, + when the waist lies
///                                 upstream; range: SPOTWISE_PARAM_WAIST_TO_EXPANDER.
/// @param[in]  magnification       beam diameter behind the expander over that before it; range:
///                                 SPOTWISE_PARAM_MAGNIFICATION.
/// @param[in]  nearest_m           shortest distance from the expander to the lens in metres, not
///                                 negative; range: SPOTWISE_PARAM_NEAREST.
/// @param[in]  farthest_m          longest such distance in metres, not less than nearest_m; range:
///                                 SPOTWISE_PARAM_FARTHEST.
/// @param[in]  focal_length_m      focal length in metres, converging; range:
///                                 SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[out] even                result; set with spotwise_even_gantry_init(); not NULL. On any
///                                 status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                                 flags to 0.
/// @param[out] error               what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (exit power above 1e3 per metre in
///         magnitude, half angle above 0.3 rad, or a waist or spot outside 1e-9 to 10 m).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors from spotwise_gantry_spread().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_even_out_gantry(
    raw: *const spotwise_beam,
    waist_to_expander_m: f64,
    magnification: f64,
    nearest_m: f64,
    farthest_m: f64,
    focal_length_m: f64,
    even: *mut spotwise_even_gantry,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(even, error, || {
            let raw = input(raw)?.into();
            let even = even_out_gantry(
                &raw,
                waist_to_expander_m,
                magnification,
                nearest_m,
                farthest_m,
                focal_length_m,
            )?;
            Ok(even.into())
        })
    }
}
