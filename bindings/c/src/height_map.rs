//! From a map of heights to a map of what the spot does there.

use crate::abi::{Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, blank, blank_flags, flags_mut, length_fault, numbers, numbers_mut};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::focus::spotwise_depth_criterion;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::model::focus::DepthCriterion;
use spotwise::model::optics::Beam;
use spotwise::model::surface::{FocusMask, HeightMap, HeightQuantity, in_focus_mask, map_heights};

/// Quantity of a map: spot diameter over waist diameter.
pub const SPOTWISE_HEIGHT_GROWTH: u32 = 1;
/// Quantity of a map: spot diameter in metres, 1/e^2 (D4 sigma).
pub const SPOTWISE_HEIGHT_DIAMETER: u32 = 2;
/// Quantity of a map: irradiance on the axis over that at the waist.
pub const SPOTWISE_HEIGHT_IRRADIANCE_RATIO: u32 = 3;
/// Quantity of a map: peak dose of a scanned line over that at the waist.
pub const SPOTWISE_HEIGHT_LINE_DOSE_RATIO: u32 = 4;
/// Quantity of a map: width in metres of the finest long stroke that a fill holds; reads the dose ratio.
pub const SPOTWISE_HEIGHT_SMALLEST_STROKE: u32 = 5;

const _: () = {
    let stroke = HeightQuantity::SmallestStroke { dose_ratio: 0.0 };
    assert!(SPOTWISE_HEIGHT_GROWTH == HeightQuantity::Growth.code());
    assert!(SPOTWISE_HEIGHT_DIAMETER == HeightQuantity::Diameter.code());
    assert!(SPOTWISE_HEIGHT_IRRADIANCE_RATIO == HeightQuantity::IrradianceRatio.code());
    assert!(SPOTWISE_HEIGHT_LINE_DOSE_RATIO == HeightQuantity::LineDoseRatio.code());
    assert!(SPOTWISE_HEIGHT_SMALLEST_STROKE == stroke.code());
    assert!(SPOTWISE_HEIGHT_SMALLEST_STROKE as f64 == Param::HeightQuantity.range().1);
};

/// What a map holds as a whole: the result of spotwise_map_heights().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_height_map {
    /// Size of this struct; spotwise_height_map_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// How many places have a height.
    pub measured: u64,
    /// How many have none.
    pub missing: u64,
    /// First place of the least number in the map, from 0; 0 if nothing was measured.
    pub least_index: u64,
    /// First place of the greatest number in the map, from 0; 0 if nothing was measured.
    pub greatest_index: u64,
    /// The least number of the map, in its unit; a quiet NaN if nothing was measured.
    pub least: f64,
    /// The greatest number of the map, in its unit; a quiet NaN if nothing was measured.
    pub greatest: f64,
    /// 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_height_map, 64 bytes,
    words: [validity],
    counts: [measured, missing, least_index, greatest_index],
    numbers: [least, greatest, half_angle_rad]
);

impl From<HeightMap> for spotwise_height_map {
    fn from(map: HeightMap) -> Self {
        Self {
            validity: map.validity.bits(),
            measured: map.measured as u64,
            missing: map.missing as u64,
            least_index: map.least_index as u64,
            greatest_index: map.greatest_index as u64,
            least: map.least,
            greatest: map.greatest,
            half_angle_rad: map.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, every number to a quiet NaN and every count to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_height_map_init(map: *mut spotwise_height_map) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(map) }
}

/// How much of a surface is in focus: the result of spotwise_in_focus_mask().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_focus_mask {
    /// Size of this struct; spotwise_focus_mask_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// How many places are in focus.
    pub in_focus: u64,
    /// How many lie nearer the lens than the range that is in focus: too high.
    pub too_near_lens: u64,
    /// How many lie farther from the lens than that range: too low.
    pub too_far_from_lens: u64,
    /// How many have no height.
    pub missing: u64,
    /// The end of the range nearer the lens, as a height in metres.
    pub toward_lens_z_m: f64,
    /// The end of the range farther from the lens, as a height in metres.
    pub away_from_lens_z_m: f64,
    /// 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_focus_mask, 64 bytes,
    words: [validity],
    counts: [in_focus, too_near_lens, too_far_from_lens, missing],
    numbers: [toward_lens_z_m, away_from_lens_z_m, half_angle_rad]
);

impl From<FocusMask> for spotwise_focus_mask {
    fn from(mask: FocusMask) -> Self {
        Self {
            validity: mask.validity.bits(),
            in_focus: mask.in_focus as u64,
            too_near_lens: mask.too_near_lens as u64,
            too_far_from_lens: mask.too_far_from_lens as u64,
            missing: mask.missing as u64,
            toward_lens_z_m: mask.toward_lens_z,
            away_from_lens_z_m: mask.away_from_lens_z,
            half_angle_rad: mask.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, every number to a quiet NaN and every count to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_focus_mask_init(mask: *mut spotwise_focus_mask) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(mask) }
}

/// A map of what a beam does on a surface of many heights: out[i] belongs to z_m[i].
///
/// Growth, diameter, irradiance and line dose as spotwise_defocus() tells them, the smallest stroke as
/// the bar of spotwise_smallest_details(). Each height is taken by itself, as if the surface were level
/// there, and gives the same bits whatever the length of the map; diameters about a focus_z_m of 0 are
/// the bits of spotwise_beam_at(). A place that was not measured is NaN, and stays NaN. Slopes, light
/// that is shaded by walls, and what lies between the places are not modelled.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  focus_z_m  height of the waist in metres, from the datum of the heights, + away from the
///                        lens; range: SPOTWISE_PARAM_FOCUS_Z.
/// @param[in]  quantity   one of the SPOTWISE_HEIGHT_* constants.
/// @param[in]  dose_ratio fill dose over the dose at which the material just marks; read only for
///                        SPOTWISE_HEIGHT_SMALLEST_STROKE; range: SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  z_m        count heights in metres, + away from the lens, or NaN; not NULL unless count
///                        is 0; range: SPOTWISE_PARAM_Z.
/// @param[in]  count      length of both arrays; may be 0.
/// @param[out] out        count numbers, lengths in metres; not NULL unless count is 0. It must not
///                        overlap z_m. On any status other than SPOTWISE_OK all of it is set to quiet
///                        NaNs, but for a count that no array can have: then nothing is written to it.
/// @param[out] map        result; set with spotwise_height_map_init(); not NULL. On any status other
///                        than SPOTWISE_OK its numbers are set to a quiet NaN, its counts and flags to 0.
/// @param[out] error      what was refused, which of z_m is the first one; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE (of z_m: infinite), SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
///         (half angle above 0.3 rad).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a beam of 10.6 um, M^2 = 1.2 and a waist of 88 um, in focus at 0.2 mm: at 0.7 mm the growth
///          is 1.4469.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; the rest as there.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_map_heights(
    beam: *const spotwise_beam,
    focus_z_m: f64,
    quantity: u32,
    dose_ratio: f64,
    z_m: *const f64,
    count: usize,
    out: *mut f64,
    map: *mut spotwise_height_map,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for `count` items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(map).or(error_pointer_fault(error));
        report(map, error, || {
            let pointers = array_fault(&[Extent::of(z_m, count)], &[Extent::of(out, count)]);
            // SAFETY: NULL or readable, as the caller vouches.
            let beam = input(beam).and_then(|beam| pointers.or(last_fault).map_or(Ok(Beam::from(beam)), Err));
            // No array is so long, so there is none to make blank.
            if let Some(fault) = length_fault(Param::Output, count) {
                return beam.and(Err(fault));
            }
            blank(out, count);
            let beam = beam?;
            let quantity = HeightQuantity::from_code(quantity, dose_ratio)?;
            let (z, out) = (numbers(z_m, count), numbers_mut(out, count));
            Ok(map_heights(&beam, focus_z_m, quantity, z, out)?.into())
        })
    }
}

/// Which places of a surface are in focus by a criterion: in_focus[i] belongs to z_m[i].
///
/// A height is in focus from one end of spotwise_depth_of_focus() about focus_z_m to the other, both
/// included. A place that was not measured (NaN) is not.
///
/// @param[in]  beam      beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  focus_z_m height of the waist in metres, from the datum of the heights, + away from the
///                       lens; range: SPOTWISE_PARAM_FOCUS_Z.
/// @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not NULL.
/// @param[in]  z_m       count heights in metres, + away from the lens, or NaN; not NULL unless count is
///                       0; range: SPOTWISE_PARAM_Z.
/// @param[in]  count     length of both arrays; may be 0.
/// @param[out] in_focus  count numbers, 1 for a place that is in focus, else 0; not NULL unless count is
///                       0. It must not overlap z_m. On any status other than SPOTWISE_OK all of it is
///                       set to 0, but for a count that no array can have: then nothing is written to it.
/// @param[out] mask      result; set with spotwise_focus_mask_init(); not NULL. On any status other than
///                       SPOTWISE_OK its numbers are set to a quiet NaN, its counts and flags to 0.
/// @param[out] error     what was refused, which of z_m is the first one; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE (of z_m: infinite), SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
///         (half angle above 0.3 rad), SPOTWISE_E_UNREACHABLE (largest diameter below the waist).
///
/// Accuracy: the ends at most 0.75 ulp (units in the last place) of the exact result; each yes or no is
///           exact for the ends that are given.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_in_focus_mask(
    beam: *const spotwise_beam,
    focus_z_m: f64,
    criterion: *const spotwise_depth_criterion,
    z_m: *const f64,
    count: usize,
    in_focus: *mut u8,
    mask: *mut spotwise_focus_mask,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for `count` items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(mask).or(error_pointer_fault(error));
        report(mask, error, || {
            let pointers = array_fault(&[Extent::of(z_m, count)], &[Extent::of(in_focus, count)]);
            let structs = input(beam).and_then(|beam| Ok((Beam::from(beam), input(criterion)?)));
            let structs = structs.and_then(|given| pointers.or(last_fault).map_or(Ok(given), Err));
            // No array is so long, so there is none to make blank.
            if let Some(fault) = length_fault(Param::Output, count) {
                return structs.and(Err(fault));
            }
            blank_flags(in_focus, count);
            let (beam, criterion) = structs?;
            let criterion = DepthCriterion::try_from(criterion)?;
            let (z, in_focus) = (numbers(z_m, count), flags_mut(in_focus, count));
            Ok(in_focus_mask(&beam, focus_z_m, criterion, z, in_focus)?.into())
        })
    }
}
