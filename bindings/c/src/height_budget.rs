//! What the heights of a surface ask of the focus.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, blank, length_fault, numbers_mut};
use crate::astigmatic::spotwise_astigmatic_beam;
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::surface::{
    AstigmaticFocusBetween, CylinderStrip, DepthEnds, FocusAim, FocusBetween, HeightBands, RefocusPlan,
    SpotThrough, cylinder_strip, focus_between, focus_between_astigmatic, height_bands, refocus_plan,
    spot_through,
};
use spotwise::{Error, Param};

/// Focus aim: on the highest place, such as the crown of a round part or the surface before the first
/// pass; only the part of the depth of focus away from the lens is used.
pub const SPOTWISE_AIM_HIGHEST_PLACE: u32 = 1;
/// Focus aim: below the highest place, so that the whole depth of focus is used; its middle lies
/// midway down.
pub const SPOTWISE_AIM_MIDWAY: u32 = 2;

const _: () = {
    assert!(SPOTWISE_AIM_HIGHEST_PLACE == FocusAim::HighestPlace as u32);
    assert!(SPOTWISE_AIM_MIDWAY == FocusAim::Midway as u32);
    assert!(FocusAim::ALL.len() == 2 && SPOTWISE_AIM_MIDWAY as f64 == Param::FocusAim.range().1);
};

/// The focus height that is least bad over a surface: the result of spotwise_focus_between().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_focus_between_result {
    /// Size of this struct; spotwise_focus_between_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Where to set focus in metres, from the datum of the heights, + away from the lens.
    pub focus_z_m: f64,
    /// From there to either end of the surface in metres.
    pub half_range_m: f64,
    /// Spot diameter at either end in metres, 1/e^2 (D4 sigma): the worst on the surface.
    pub diameter_m: f64,
    /// That diameter over the waist diameter.
    pub growth: f64,
    /// Growth less one, exact however small it is.
    pub growth_minus_one: f64,
    /// Irradiance on the axis there over that at the waist.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line there over that at the waist.
    pub line_dose_ratio: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_focus_between_result, 72 bytes,
    words: [validity],
    numbers: [
        focus_z_m,
        half_range_m,
        diameter_m,
        growth,
        growth_minus_one,
        irradiance_ratio,
        line_dose_ratio,
        half_angle_rad,
    ]
);

impl From<FocusBetween> for spotwise_focus_between_result {
    fn from(result: FocusBetween) -> Self {
        Self {
            validity: result.worst.validity.bits(),
            focus_z_m: result.focus_z,
            half_range_m: result.half_range,
            diameter_m: result.worst.diameter,
            growth: result.worst.growth,
            growth_minus_one: result.worst.growth_minus_one,
            irradiance_ratio: result.worst.irradiance_ratio,
            line_dose_ratio: result.worst.line_dose_ratio,
            half_angle_rad: result.worst.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_focus_between_result_init(best: *mut spotwise_focus_between_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(best) }
}

/// The focus height of an astigmatic beam that is least bad over a surface.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_astigmatic_focus_between {
    /// Size of this struct; spotwise_astigmatic_focus_between_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Where to put the beam's z = 0 in metres, from the datum of the heights, + away from the lens.
    pub focus_z_m: f64,
    /// The larger of the two diameters at the worst height in metres, 1/e^2 (D4 sigma).
    pub worst_diameter_m: f64,
    /// Diameter in x at the highest place in metres.
    pub highest_diameter_x_m: f64,
    /// Diameter in y at the highest place in metres.
    pub highest_diameter_y_m: f64,
    /// Diameter in x at the lowest place in metres.
    pub lowest_diameter_x_m: f64,
    /// Diameter in y at the lowest place in metres.
    pub lowest_diameter_y_m: f64,
    /// Greatest 1/e^2 half angle of both axes in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_astigmatic_focus_between, 64 bytes,
    words: [validity],
    numbers: [
        focus_z_m,
        worst_diameter_m,
        highest_diameter_x_m,
        highest_diameter_y_m,
        lowest_diameter_x_m,
        lowest_diameter_y_m,
        half_angle_rad,
    ]
);

impl From<AstigmaticFocusBetween> for spotwise_astigmatic_focus_between {
    fn from(result: AstigmaticFocusBetween) -> Self {
        Self {
            validity: result.validity.bits(),
            focus_z_m: result.focus_z,
            worst_diameter_m: result.worst_diameter,
            highest_diameter_x_m: result.highest_diameter_x,
            highest_diameter_y_m: result.highest_diameter_y,
            lowest_diameter_x_m: result.lowest_diameter_x,
            lowest_diameter_y_m: result.lowest_diameter_y,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_astigmatic_focus_between_init(
    best: *mut spotwise_astigmatic_focus_between,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(best) }
}

/// How a surface is divided into bands of height: the result of spotwise_height_bands().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_height_bands_result {
    /// Size of this struct; spotwise_height_bands_result_init() sets it.
    pub struct_size: u32,
    /// How many bands are needed.
    pub count: u32,
    /// Height of each band in metres.
    pub band_height_m: f64,
    /// Height of each band over the full depth of focus: what is left to 1 is spare.
    pub share_of_depth: f64,
}
plain!(
    spotwise_height_bands_result, 24 bytes,
    words: [count],
    numbers: [band_height_m, share_of_depth]
);

impl From<HeightBands> for spotwise_height_bands_result {
    fn from(result: HeightBands) -> Self {
        Self {
            count: result.count,
            band_height_m: result.band_height,
            share_of_depth: result.share_of_depth,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, the count to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_height_bands_result_init(bands: *mut spotwise_height_bands_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(bands) }
}

/// A strip along the crown of a lying round part: the result of spotwise_cylinder_strip().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_cylinder_strip_result {
    /// Size of this struct; spotwise_cylinder_strip_result_init() sets it.
    pub struct_size: u32,
    /// 1 if the whole upper half of the part is in focus.
    pub whole_upper_half: u32,
    /// From the crown to the edge of the strip in metres, straight across: half the width as a drawing
    /// has it.
    pub half_chord_m: f64,
    /// From edge to edge in metres, straight across.
    pub full_chord_m: f64,
    /// From edge to edge in metres, along the surface.
    pub arc_length_m: f64,
    /// How far the edges lie below the crown in metres.
    pub edge_sag_m: f64,
    /// Angle between the beam and the normal of the surface at the edge in radians.
    pub edge_incidence_rad: f64,
    /// Irradiance at the edge over that on a level surface, by the incidence alone: its cosine.
    pub edge_irradiance_ratio: f64,
    /// Where to set focus in metres, from the crown, + away from the lens.
    pub focus_z_m: f64,
}
plain!(
    spotwise_cylinder_strip_result, 64 bytes,
    words: [whole_upper_half],
    numbers: [
        half_chord_m,
        full_chord_m,
        arc_length_m,
        edge_sag_m,
        edge_incidence_rad,
        edge_irradiance_ratio,
        focus_z_m,
    ]
);

impl From<CylinderStrip> for spotwise_cylinder_strip_result {
    fn from(result: CylinderStrip) -> Self {
        Self {
            whole_upper_half: u32::from(result.whole_upper_half),
            half_chord_m: result.half_chord,
            full_chord_m: result.full_chord,
            arc_length_m: result.arc_length,
            edge_sag_m: result.edge_sag,
            edge_incidence_rad: result.edge_incidence,
            edge_irradiance_ratio: result.edge_irradiance_ratio,
            focus_z_m: result.focus_z,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_cylinder_strip_result_init(strip: *mut spotwise_cylinder_strip_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(strip) }
}

/// How a deep engraving is divided into stages of one focus height each: the result of
/// spotwise_refocus_plan().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_refocus_plan_result {
    /// Size of this struct; spotwise_refocus_plan_result_init() sets it.
    pub struct_size: u32,
    /// Passes in all.
    pub passes: u32,
    /// Passes before focus is set anew.
    pub passes_per_stage: u32,
    /// Stages; the focus is set anew one time less.
    pub stages: u32,
    /// Passes in the last stage, which may be shorter.
    pub last_stage_passes: u32,
    /// 1 if the surface stays in focus; 0 where one pass removes more than the usable depth.
    pub stays_in_focus: u32,
    /// Depth that all passes remove in metres, at least the depth wanted.
    pub reached_depth_m: f64,
    /// Depth that a full stage removes in metres: by how much focus is lowered from one to the next.
    pub stage_depth_m: f64,
    /// Depth of focus that a stage may use in metres.
    pub usable_depth_m: f64,
}
plain!(
    spotwise_refocus_plan_result, 48 bytes,
    words: [passes, passes_per_stage, stages, last_stage_passes, stays_in_focus],
    numbers: [reached_depth_m, stage_depth_m, usable_depth_m]
);

impl From<RefocusPlan> for spotwise_refocus_plan_result {
    fn from(result: RefocusPlan) -> Self {
        Self {
            passes: result.passes,
            passes_per_stage: result.passes_per_stage,
            stages: result.stages,
            last_stage_passes: result.last_stage_passes,
            stays_in_focus: u32::from(result.stays_in_focus),
            reached_depth_m: result.reached_depth,
            stage_depth_m: result.stage_depth,
            usable_depth_m: result.usable_depth,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, counts and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_refocus_plan_result_init(plan: *mut spotwise_refocus_plan_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(plan) }
}

/// The spot from the top of a part to its bottom: the result of spotwise_spot_through().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_spot_through_result {
    /// Size of this struct; spotwise_spot_through_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Spot diameter at the top in metres, 1/e^2 (D4 sigma).
    pub top_diameter_m: f64,
    /// Spot diameter at the bottom in metres.
    pub bottom_diameter_m: f64,
    /// The greatest diameter in the thickness in metres: the larger of the two.
    pub widest_m: f64,
    /// The least diameter in the thickness in metres: the waist where that lies inside.
    pub narrowest_m: f64,
    /// Widest over waist diameter.
    pub worst_growth: f64,
    /// Diameter at the bottom over that at the top.
    pub taper_ratio: f64,
    /// Half angle of the taper in radians, + where the bottom is narrower than the top.
    pub taper_half_angle_rad: f64,
    /// The focus in metres, from the top surface, + away from the lens, that makes the widest spot as
    /// small as can be.
    pub best_focus_z_m: f64,
    /// The greatest growth with that focus.
    pub best_worst_growth: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_spot_through_result, 88 bytes,
    words: [validity],
    numbers: [
        top_diameter_m,
        bottom_diameter_m,
        widest_m,
        narrowest_m,
        worst_growth,
        taper_ratio,
        taper_half_angle_rad,
        best_focus_z_m,
        best_worst_growth,
        half_angle_rad,
    ]
);

impl From<SpotThrough> for spotwise_spot_through_result {
    fn from(result: SpotThrough) -> Self {
        Self {
            validity: result.validity.bits(),
            top_diameter_m: result.top_diameter,
            bottom_diameter_m: result.bottom_diameter,
            widest_m: result.widest,
            narrowest_m: result.narrowest,
            worst_growth: result.worst_growth,
            taper_ratio: result.taper_ratio,
            taper_half_angle_rad: result.taper_half_angle,
            best_focus_z_m: result.best_focus_z,
            best_worst_growth: result.best_worst_growth,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_spot_through_result_init(through: *mut spotwise_spot_through_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(through) }
}

/// The focus height that makes the worst spot on a surface as small as can be, and that spot.
///
/// It is the middle between the highest and the lowest place. Both heights count from one datum, + away
/// from the lens, so that the highest place has the least.
///
/// @param[in]  beam        beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  highest_z_m height of the highest place in metres; range: SPOTWISE_PARAM_HIGHEST_Z.
/// @param[in]  lowest_z_m  height of the lowest place in metres, not less than highest_z_m; range:
///                         SPOTWISE_PARAM_LOWEST_Z.
/// @param[out] best        result; set with spotwise_focus_between_result_init(); not NULL. On any status
///                         other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error       what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: from -0.2 mm to 0.8 mm: focus 0.3 mm below the datum, either end 0.5 mm off focus.
/// Source: derived by the authors from spotwise_defocus().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_between(
    beam: *const spotwise_beam,
    highest_z_m: f64,
    lowest_z_m: f64,
    best: *mut spotwise_focus_between_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(best, error, || Ok(focus_between(&input(beam)?.into(), highest_z_m, lowest_z_m)?.into()))
    }
}

/// The focus height that makes the larger diameter of an astigmatic beam, at the worst height of a
/// surface, as small as can be.
///
/// Both ends of the surface are then equally bad; which axis is the wider one at which end, the four
/// diameters tell. Both heights count from one datum, + away from the lens; focus_z_m is where the
/// beam's own z = 0 is to be put.
///
/// @param[in]  beam        beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
/// @param[in]  highest_z_m height of the highest place in metres; range: SPOTWISE_PARAM_HIGHEST_Z.
/// @param[in]  lowest_z_m  height of the lowest place in metres, not less than highest_z_m; range:
///                         SPOTWISE_PARAM_LOWEST_Z.
/// @param[out] best        result; set with spotwise_astigmatic_focus_between_init(); not NULL. On any
///                         status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error       what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle of an axis above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result; focus_z_m 1 ulp, but where
///           it is the small difference of the surface's height and the beam's.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors from spotwise_astigmatic_at().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_between_astigmatic(
    beam: *const spotwise_astigmatic_beam,
    highest_z_m: f64,
    lowest_z_m: f64,
    best: *mut spotwise_astigmatic_focus_between,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(best, error, || {
            Ok(focus_between_astigmatic(&input(beam)?.into(), highest_z_m, lowest_z_m)?.into())
        })
    }
}

/// Bands of equal height into which a surface must be divided so that each stays within the depth of
/// focus, less a margin of it; their limits and where to set focus for each.
///
/// Ask first how many bands there are, with both lengths 0. Then limit_z_m takes at least count + 1
/// heights, from the highest place to the lowest, and focus_z_m at least count. Either may be left out
/// by a length of 0. A band may exceed what it should be by a part in 1e9, so that 2.1 mm make three
/// bands of 0.7 mm, however these round. All heights are + away from the lens.
///
/// @param[in]  highest_z_m        height of the highest place in metres; range: SPOTWISE_PARAM_HIGHEST_Z.
/// @param[in]  lowest_z_m         height of the lowest place in metres, not less than highest_z_m; range:
///                                SPOTWISE_PARAM_LOWEST_Z.
/// @param[in]  toward_lens_z_m    end of the depth of focus nearer the lens in metres, from the focus,
///                                mostly negative; range: SPOTWISE_PARAM_TOWARD_LENS_Z.
/// @param[in]  away_from_lens_z_m end of the depth of focus farther from the lens in metres; range:
///                                SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
/// @param[in]  band_margin        share of the depth that is kept for errors of set-up; range:
///                                SPOTWISE_PARAM_BAND_MARGIN.
/// @param[out] limit_z_m          limits of the bands in metres; not NULL unless limits is 0.
/// @param[in]  limits             length of limit_z_m; 0 to leave it out.
/// @param[out] focus_z_m          focus heights in metres; not NULL unless focus_heights is 0. What is
///                                longer than needed is set to quiet NaNs. The two arrays must not
///                                overlap. On any status other than SPOTWISE_OK all of both is set to
///                                quiet NaNs, but for a length that no array can have: then nothing is
///                                written to them.
/// @param[in]  focus_heights      length of focus_z_m; 0 to leave it out.
/// @param[out] bands              result; set with spotwise_height_bands_result_init(); not NULL. On any
///                                status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                                count to 0.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (an array that is too short, as SPOTWISE_PARAM_BAND_LIMITS or
///         SPOTWISE_PARAM_FOCUS_HEIGHTS, whose least is what is needed; or one that memory cannot
///         hold), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (ends of the
///         depth less than 1 nm apart, as SPOTWISE_PARAM_USABLE_DEPTH; more than a million bands).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 1.4 mm, 0.25 mm of depth each way, margin 0.1: 4 bands of 0.35 mm.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_height_bands(
    highest_z_m: f64,
    lowest_z_m: f64,
    toward_lens_z_m: f64,
    away_from_lens_z_m: f64,
    band_margin: f64,
    limit_z_m: *mut f64,
    limits: usize,
    focus_z_m: *mut f64,
    focus_heights: usize,
    bands: *mut spotwise_height_bands_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let depth = DepthEnds { toward_lens_z: toward_lens_z_m, away_from_lens_z: away_from_lens_z_m };
    let outputs = [(Param::BandLimits, limit_z_m, limits), (Param::FocusHeights, focus_z_m, focus_heights)];
    // SAFETY: pointers are NULL or valid, those to arrays for their numbers, as the header demands.
    unsafe {
        let last_fault = pointer_fault(bands).or(error_pointer_fault(error));
        report(bands, error, || {
            let [limits, focus_heights] = filled(outputs, last_fault)?;
            Ok(height_bands(highest_z_m, lowest_z_m, &depth, band_margin, limits, focus_heights)?.into())
        })
    }
}

/// The output arrays as slices of quiet NaNs, or what is wrong with the pointers and lengths.
///
/// # Safety
/// Pointers are NULL or writable for their numbers.
unsafe fn filled<'a, const N: usize>(
    outputs: [(Param, *mut f64, usize); N],
    last_fault: Option<Fault>,
) -> Result<[&'a mut [f64]; N], Fault> {
    let pointers =
        array_fault(&[], &outputs.map(|(_, start, count)| Extent::of(start, count))).or(last_fault);
    // No array is so long, so there is none to make blank.
    for (array, _, count) in outputs {
        if let Some(fault) = length_fault(array, count) {
            return Err(pointers.unwrap_or(fault));
        }
    }
    for (_, start, count) in outputs {
        // SAFETY: NULL or writable for its numbers, as the caller vouches.
        unsafe { blank(start, count) };
    }
    if let Some(fault) = pointers {
        return Err(fault);
    }
    // SAFETY: not NULL unless empty, writable as the caller vouches, apart, blank.
    Ok(outputs.map(|(_, start, count)| unsafe { numbers_mut(start, count) }))
}

/// The largest strip of a lying round part that stays in focus.
///
/// By the sagitta of a circle. With focus on the crown the edge of the strip lies at the end of the depth
/// of focus away from the lens; midway, the whole depth is used, and the strip is about sqrt(2) wider.
/// Where the depth exceeds the radius the strip is the whole upper half. That the spot is longer at the
/// edge, and light that the flank reflects, are not modelled.
///
/// @param[in]  part_radius_m      radius of the part in metres; range: SPOTWISE_PARAM_PART_RADIUS.
/// @param[in]  toward_lens_z_m    end of the depth of focus nearer the lens in metres, from the focus, +
///                                away from the lens, so mostly negative; with focus on the crown not
///                                above 0; range: SPOTWISE_PARAM_TOWARD_LENS_Z.
/// @param[in]  away_from_lens_z_m end of the depth of focus farther from the lens in metres; range:
///                                SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
/// @param[in]  aim                SPOTWISE_AIM_HIGHEST_PLACE for the crown, or SPOTWISE_AIM_MIDWAY.
/// @param[out] strip              result; set with spotwise_cylinder_strip_result_init(); not NULL. On
///                                any status other than SPOTWISE_OK its numbers are set to a quiet NaN,
///                                its flags to 0.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (less than 1 nm of
///         depth, as SPOTWISE_PARAM_USABLE_DEPTH).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result; angle and arc 2 ulp.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: radius 25 mm, 0.4 mm of depth each way: 8.91 mm with focus on the crown, 12.55 mm midway.
/// Source: the sagitta of a circle, any handbook.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_cylinder_strip(
    part_radius_m: f64,
    toward_lens_z_m: f64,
    away_from_lens_z_m: f64,
    aim: u32,
    strip: *mut spotwise_cylinder_strip_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let depth = DepthEnds { toward_lens_z: toward_lens_z_m, away_from_lens_z: away_from_lens_z_m };
    let found = || -> Result<_, Error> { cylinder_strip(part_radius_m, &depth, FocusAim::from_code(aim)?) };
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(strip, error, || Ok(found()?.into())) }
}

/// When to set focus anew in a deep engraving of many passes, and where.
///
/// A stage is what is engraved at one focus height; its surface is in focus when its first pass begins
/// and when its last one ends. With the aim on the surface, focus is set on it as each stage finds it;
/// midway it lies below, and half as many stages are needed. Ask first, with a length of 0, how many stages
/// there are. C does not notice if the two depths are swapped.
///
/// @param[in]  total_depth_m      depth wanted in metres; range: SPOTWISE_PARAM_TOTAL_DEPTH.
/// @param[in]  depth_per_pass_m   depth that each pass removes in metres; range:
///                                SPOTWISE_PARAM_DEPTH_PER_PASS.
/// @param[in]  toward_lens_z_m    end of the depth of focus nearer the lens in metres, from the focus, +
///                                away from the lens, so mostly negative; with the aim on the surface not
///                                above 0; range: SPOTWISE_PARAM_TOWARD_LENS_Z.
/// @param[in]  away_from_lens_z_m end of the depth of focus farther from the lens in metres; range:
///                                SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
/// @param[in]  aim                SPOTWISE_AIM_HIGHEST_PLACE for the surface, or SPOTWISE_AIM_MIDWAY.
/// @param[out] focus_z_m          focus height of each stage in metres, from the surface before the first
///                                pass, + away from the lens; not NULL unless focus_heights is 0. What is
///                                longer than needed is set to quiet NaNs, and so is all of it on any
///                                status other than SPOTWISE_OK, but for a length that no array can have:
///                                then nothing is written to it.
/// @param[in]  focus_heights      length of focus_z_m, at least the number of stages; 0 to leave it out.
/// @param[out] plan               result; set with spotwise_refocus_plan_result_init(); not NULL. On any
///                                status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                                counts and flags to 0.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_LENGTH_MISMATCH (an array that is too short, as SPOTWISE_PARAM_FOCUS_HEIGHTS, whose
///         least is what is needed; or one that memory cannot hold), SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (less than 1 nm of depth of focus, as
///         SPOTWISE_PARAM_USABLE_DEPTH; more than a million passes).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 1.3 mm in passes of 0.1 mm, 0.25 mm of depth each way: with the aim on the surface 7 stages
///          of 2 passes, midway 3 stages of 5, focused 0.25, 0.75 and 1.15 mm below it.
/// Source: derived by the authors. To refocus when the removed depth reaches the half range is common
///         practice, no source.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_refocus_plan(
    total_depth_m: f64,
    depth_per_pass_m: f64,
    toward_lens_z_m: f64,
    away_from_lens_z_m: f64,
    aim: u32,
    focus_z_m: *mut f64,
    focus_heights: usize,
    plan: *mut spotwise_refocus_plan_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let depth = DepthEnds { toward_lens_z: toward_lens_z_m, away_from_lens_z: away_from_lens_z_m };
    let outputs = [(Param::FocusHeights, focus_z_m, focus_heights)];
    // SAFETY: pointers are NULL or valid, that to the array for its numbers, as the header demands.
    unsafe {
        let last_fault = pointer_fault(plan).or(error_pointer_fault(error));
        report(plan, error, || {
            let [focus_heights] = filled(outputs, last_fault)?;
            let aim = FocusAim::from_code(aim)?;
            Ok(refocus_plan(total_depth_m, depth_per_pass_m, &depth, aim, focus_heights)?.into())
        })
    }
}

/// The spot through the thickness of a part that is cut or deeply marked, and the best focus for it.
///
/// As in air: light that the walls of the cut guide, block or reflect is not modelled, nor is a
/// transparent part (see spotwise_focus_inside()). The best focus is mid-thickness. The taper is that of
/// straight lines between the spots at both faces. C does not notice if the two lengths are swapped.
///
/// @param[in]  beam        beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  focus_z_m   where focus lies in metres, from the top surface, + away from the lens, that
///                         is into the part; range: SPOTWISE_PARAM_FOCUS_Z.
/// @param[in]  thickness_m thickness in metres; range: SPOTWISE_PARAM_THICKNESS.
/// @param[out] through     result; set with spotwise_spot_through_result_init(); not NULL. On any status
///                         other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error       what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result; the taper's angle 1.5 ulp.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors from spotwise_defocus().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_spot_through(
    beam: *const spotwise_beam,
    focus_z_m: f64,
    thickness_m: f64,
    through: *mut spotwise_spot_through_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(through, error, || Ok(spot_through(&input(beam)?.into(), focus_z_m, thickness_m)?.into()))
    }
}
