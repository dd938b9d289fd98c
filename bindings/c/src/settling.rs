//! The tests that settle focus or power, read.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::diagnosis::{choice_sentences, height, spotwise_depth_reading, spotwise_good_mark};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{UNKNOWN, texts};
use core::ffi::c_char;
use spotwise::Error;
use spotwise::model::learn::{
    DepthLaw, HeightReadings, HeightSettlement, HeightVerdict, PatchSettlement, PowerSettlement, PowerStep,
    settle_by_heights, settle_by_patch, settle_by_power,
};
use spotwise::model::mark::MarkKind;

/// Heights: worse on both sides, focus lies within half a step of the middle height.
pub const SPOTWISE_HEIGHTS_FOCUS_WITHIN: u32 = 1;
/// Heights: better a step nearer the lens, the surface lies too far from it.
pub const SPOTWISE_HEIGHTS_FOCUS_TOWARD_LENS: u32 = 2;
/// Heights: better a step farther from the lens, the surface lies too near it.
pub const SPOTWISE_HEIGHTS_FOCUS_AWAY_FROM_LENS: u32 = 3;
/// Heights: the readings do not differ enough.
pub const SPOTWISE_HEIGHTS_NO_DIFFERENCE: u32 = 4;
/// Heights: better on both sides, which no focus makes.
pub const SPOTWISE_HEIGHTS_CONTRADICTION: u32 = 5;

const _: () = {
    assert!(SPOTWISE_HEIGHTS_FOCUS_WITHIN == HeightVerdict::FocusWithin as u32);
    assert!(SPOTWISE_HEIGHTS_FOCUS_TOWARD_LENS == HeightVerdict::FocusTowardLens as u32);
    assert!(SPOTWISE_HEIGHTS_FOCUS_AWAY_FROM_LENS == HeightVerdict::FocusAwayFromLens as u32);
    assert!(SPOTWISE_HEIGHTS_NO_DIFFERENCE == HeightVerdict::NoDifference as u32);
    assert!(SPOTWISE_HEIGHTS_CONTRADICTION == HeightVerdict::Contradiction as u32);
    assert!(HeightVerdict::ALL.len() == 5);
};

/// What a solid patch and a thin line say: the result of spotwise_settle_by_patch().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_patch_settlement {
    /// Size of this struct; spotwise_patch_settlement_init() sets it.
    pub struct_size: u32,
    /// What has changed: one of SPOTWISE_CAUSE_*.
    pub cause: u32,
    /// The one further test that settles what stays open: one of SPOTWISE_TEST_*.
    pub further_test: u32,
    /// What stays open: SPOTWISE_AMBIGUITY_* bits.
    pub ambiguities: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 0.
    pub reserved: u32,
    /// The dose now over what it was.
    pub power_ratio: f64,
    /// Least power ratio, of the coverage asked for.
    pub least_power_ratio: f64,
    /// Greatest power ratio, of the coverage asked for.
    pub greatest_power_ratio: f64,
    /// Growth at the height between the waist and where the line is widest; NaN, as the three that follow, where no such
    /// height explains its width.
    pub near_growth: f64,
    /// Distance of that height from the waist in metres, on either side.
    pub near_offset_m: f64,
    /// Least distance, of the coverage asked for.
    pub near_least_offset_m: f64,
    /// Greatest distance, of the coverage asked for.
    pub near_greatest_offset_m: f64,
    /// Growth at the height beyond where the line is widest; NaN, as the three that follow, where none explains its width.
    pub far_growth: f64,
    /// Distance of that height from the waist in metres, on either side.
    pub far_offset_m: f64,
    /// Least distance, of the coverage asked for.
    pub far_least_offset_m: f64,
    /// Greatest distance, of the coverage asked for.
    pub far_greatest_offset_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_patch_settlement, 120 bytes,
    words: [cause, further_test, ambiguities, validity, reserved],
    numbers: [
        power_ratio,
        least_power_ratio,
        greatest_power_ratio,
        near_growth,
        near_offset_m,
        near_least_offset_m,
        near_greatest_offset_m,
        far_growth,
        far_offset_m,
        far_least_offset_m,
        far_greatest_offset_m,
        half_angle_rad,
    ]
);

impl From<PatchSettlement> for spotwise_patch_settlement {
    fn from(found: PatchSettlement) -> Self {
        let [near_growth, near_offset_m, near_least_offset_m, near_greatest_offset_m] = height(found.near);
        let [far_growth, far_offset_m, far_least_offset_m, far_greatest_offset_m] = height(found.far);
        Self {
            cause: found.cause as u32,
            further_test: found.further_test as u32,
            ambiguities: found.ambiguities.bits(),
            validity: found.validity.bits(),
            power_ratio: found.power.ratio,
            least_power_ratio: found.power.least,
            greatest_power_ratio: found.power.greatest,
            near_growth,
            near_offset_m,
            near_least_offset_m,
            near_greatest_offset_m,
            far_growth,
            far_offset_m,
            far_least_offset_m,
            far_greatest_offset_m,
            half_angle_rad: found.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_patch_settlement_init(settlement: *mut spotwise_patch_settlement) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(settlement) }
}

/// Focus or power, from a solid patch and a thin line of one job against good ones.
///
/// The dose inside a patch does not change with focus, so that its depth gives the power ratio; the width of the
/// line with that dose then gives the height, as spotwise_diagnose_width() does for a ratio of 1. The error of the dose ratio of the
/// good line is taken to be that of the patch as well.
///
/// @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  good                 the good line to read; set with spotwise_good_mark_init(); not NULL.
/// @param[in]  patch                depths inside the patches to read; set with spotwise_depth_reading_init(); not NULL.
/// @param[in]  patch_dose_ratio     dose ratio inside the good patch; range: SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  width_m              width of the line now in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
/// @param[in]  width_deviation_m    its standard deviation in metres, at most 0.3 of it; range:
///                                  SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] settlement           result; set with spotwise_patch_settlement_init(); not NULL. On any status
///                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
///                                  and flags to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         kind of mark, then the depth law), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
///         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; dose ratio inside the patch above 1e6; patch and line
///         contradict each other: the line could not mark in focus).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + the logarithms of both dose ratios + what
///           relative errors of the inputs make of it.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: patch as deep as ever, line 20 % wider than one of q0 = 4, 10.6 um, M^2 = 1.2, waist 88 um: focus, 0.441 mm
///          off (or 1.527 mm).
/// Source: derived by the authors from the laws of spotwise_mark_width() and spotwise_material_mark().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_settle_by_patch(
    beam: *const spotwise_beam,
    good: *const spotwise_good_mark,
    patch: *const spotwise_depth_reading,
    patch_dose_ratio: f64,
    width_m: f64,
    width_deviation_m: f64,
    coverage_probability: f64,
    settlement: *mut spotwise_patch_settlement,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(settlement, error, || {
            let (beam, good, patch) = (input(beam)?.into(), input(good)?, input(patch)?);
            let (good, patch) = (good.try_into()?, patch.try_into()?);
            let (width, deviation) = (width_m, width_deviation_m);
            let coverage = coverage_probability;
            Ok(settle_by_patch(&beam, &good, &patch, patch_dose_ratio, width, deviation, coverage)?.into())
        })
    }
}

/// Two marks, alike but for the power.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_power_step {
    /// Size of this struct; spotwise_power_step_init() sets it.
    pub struct_size: u32,
    /// What makes the mark: one of SPOTWISE_MARK_*.
    pub mark_kind: u32,
    /// Dose ratio that the first is meant to have in focus; range: SPOTWISE_PARAM_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself, 0 if it counts as exact, at most 0.3 ln(dose_ratio); range:
    /// SPOTWISE_PARAM_DOSE_RATIO_DEVIATION.
    pub dose_ratio_deviation: f64,
    /// Power of the second over that of the first, 2 as a rule; range: SPOTWISE_PARAM_POWER_STEP.
    pub power_step: f64,
    /// Width of the first in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
    pub width_m: f64,
    /// Its standard deviation in metres, at most 0.3 of it; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
    pub width_deviation_m: f64,
    /// Width of the second in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
    pub stepped_width_m: f64,
    /// Its standard deviation in metres, at most 0.3 of it; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
    pub stepped_width_deviation_m: f64,
}
plain!(
    spotwise_power_step, 64 bytes,
    words: [mark_kind],
    numbers: [
        dose_ratio,
        dose_ratio_deviation,
        power_step,
        width_m,
        width_deviation_m,
        stepped_width_m,
        stepped_width_deviation_m,
    ]
);

impl TryFrom<spotwise_power_step> for PowerStep {
    type Error = Error;

    fn try_from(step: spotwise_power_step) -> Result<Self, Error> {
        Ok(Self {
            kind: MarkKind::from_code(step.mark_kind)?,
            dose_ratio: step.dose_ratio,
            dose_ratio_deviation: step.dose_ratio_deviation,
            power_step: step.power_step,
            width: step.width_m,
            width_deviation: step.width_deviation_m,
            stepped_width: step.stepped_width_m,
            stepped_width_deviation: step.stepped_width_deviation_m,
        })
    }
}

/// Sets struct_size, the kind of mark to 0, which is none, and every number to a quiet NaN. NULL
/// does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_power_step_init(step: *mut spotwise_power_step) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(step) }
}

/// What two marks of different power say: the result of spotwise_settle_by_power().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_power_settlement {
    /// Size of this struct; spotwise_power_settlement_init() sets it.
    pub struct_size: u32,
    /// What is other than it should be: one of SPOTWISE_CAUSE_*.
    pub cause: u32,
    /// The one further test that settles what stays open: one of SPOTWISE_TEST_*.
    pub further_test: u32,
    /// What stays open: SPOTWISE_AMBIGUITY_* bits.
    pub ambiguities: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 0.
    pub reserved: u32,
    /// Spot diameter on the surface in metres, 1/e^2.
    pub spot_diameter_m: f64,
    /// Its standard deviation in metres.
    pub spot_diameter_deviation_m: f64,
    /// Growth of the spot; below 1 where errors of measurement or the beam make it so.
    pub growth: f64,
    /// Distance of the surface from the waist in metres, on either side; 0 for a growth up to 1.
    pub offset_m: f64,
    /// Least distance, of the coverage asked for; 0 where the waist is not ruled out.
    pub least_offset_m: f64,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset_m: f64,
    /// Dose ratio of the first mark where it lies.
    pub dose_ratio: f64,
    /// The dose over what the dose ratio in focus means.
    pub power_ratio: f64,
    /// Least power ratio, of the coverage asked for.
    pub least_power_ratio: f64,
    /// Greatest power ratio, of the coverage asked for.
    pub greatest_power_ratio: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_power_settlement, 112 bytes,
    words: [cause, further_test, ambiguities, validity, reserved],
    numbers: [
        spot_diameter_m,
        spot_diameter_deviation_m,
        growth,
        offset_m,
        least_offset_m,
        greatest_offset_m,
        dose_ratio,
        power_ratio,
        least_power_ratio,
        greatest_power_ratio,
        half_angle_rad,
    ]
);

impl From<PowerSettlement> for spotwise_power_settlement {
    fn from(found: PowerSettlement) -> Self {
        Self {
            cause: found.cause as u32,
            further_test: found.further_test as u32,
            ambiguities: found.ambiguities.bits(),
            validity: found.validity.bits(),
            spot_diameter_m: found.spot_diameter,
            spot_diameter_deviation_m: found.spot_diameter_deviation,
            growth: found.growth,
            offset_m: found.offset,
            least_offset_m: found.least_offset,
            greatest_offset_m: found.greatest_offset,
            dose_ratio: found.dose_ratio,
            power_ratio: found.power.ratio,
            least_power_ratio: found.power.least,
            greatest_power_ratio: found.power.greatest,
            half_angle_rad: found.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_power_settlement_init(settlement: *mut spotwise_power_settlement) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(settlement) }
}

/// Focus or power, from the same line once more at another power, twice as a rule.
///
/// Needs no good mark, only the beam: the squares of both widths differ by (d^2/2) ln f, d being the spot diameter on the
/// surface and f the power step.
///
/// @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  step                 both marks to read; set with spotwise_power_step_init(); not NULL.
/// @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] settlement           result; set with spotwise_power_settlement_init(); not NULL. On any status
///                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
///                                  and flags to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_UNDETERMINED (the second
///         mark is wider by less than 3 standard deviations: more power helps), SPOTWISE_E_OUTSIDE_MODEL (half angle above
///         0.3 rad, spot beyond its range or grown by more than 1e9, dose ratio above 1e6).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln(dose_ratio) + what relative errors of
///           the inputs make of it.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 82 um, and 113 um at twice the power, 10.6 um, M^2 = 1.2, waist 88 um: spot 132.07 um, 0.535 mm off.
/// Source: J. M. Liu, Optics Letters 7, 196 (1982), from memory, for pulses; for lines derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_settle_by_power(
    beam: *const spotwise_beam,
    step: *const spotwise_power_step,
    coverage_probability: f64,
    settlement: *mut spotwise_power_settlement,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(settlement, error, || {
            let (beam, step) = (input(beam)?.into(), input(step)?);
            Ok(settle_by_power(&beam, &step.try_into()?, coverage_probability)?.into())
        })
    }
}

/// Readings of the same mark at three heights: depth, or darkness, in any one unit.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_height_readings {
    /// Size of this struct; spotwise_height_readings_init() sets it.
    pub struct_size: u32,
    /// What makes the mark: one of SPOTWISE_MARK_*.
    pub mark_kind: u32,
    /// How the reading goes with dose: one of SPOTWISE_DEPTH_*.
    pub depth_law: u32,
    /// 0.
    pub reserved: u32,
    /// How much nearer the lens, and how much farther, in metres; range: SPOTWISE_PARAM_HEIGHT_STEP.
    pub height_step_m: f64,
    /// Reading a step nearer the lens; range: SPOTWISE_PARAM_MARK_DEPTH.
    pub toward_lens: f64,
    /// Reading at the middle height; range: SPOTWISE_PARAM_MARK_DEPTH.
    pub middle: f64,
    /// Reading a step farther from the lens; range: SPOTWISE_PARAM_MARK_DEPTH.
    pub away_from_lens: f64,
    /// Standard deviation of each reading; range: SPOTWISE_PARAM_DEPTH_DEVIATION.
    pub deviation: f64,
}
plain!(
    spotwise_height_readings, 56 bytes,
    words: [mark_kind, depth_law, reserved],
    numbers: [height_step_m, toward_lens, middle, away_from_lens, deviation]
);

impl TryFrom<spotwise_height_readings> for HeightReadings {
    type Error = Error;

    fn try_from(readings: spotwise_height_readings) -> Result<Self, Error> {
        Ok(Self {
            kind: MarkKind::from_code(readings.mark_kind)?,
            law: DepthLaw::from_code(readings.depth_law)?,
            height_step: readings.height_step_m,
            toward_lens: readings.toward_lens,
            middle: readings.middle,
            away_from_lens: readings.away_from_lens,
            deviation: readings.deviation,
        })
    }
}

/// Sets struct_size, kind and law to 0, which are none, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_height_readings_init(readings: *mut spotwise_height_readings) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(readings) }
}

/// Where three heights put the surface: the result of spotwise_settle_by_heights().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_height_settlement {
    /// Size of this struct; spotwise_height_settlement_init() sets it.
    pub struct_size: u32,
    /// What they say: one of SPOTWISE_HEIGHTS_*.
    pub verdict: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 0.
    pub reserved: u32,
    /// Offset of the surface, at the middle height, from the waist in metres, + away from the lens; NaN unless focus lies
    /// within.
    pub z_offset_m: f64,
    /// Its standard deviation in metres; NaN unless focus lies within.
    pub z_offset_deviation_m: f64,
    /// Least offset: of the coverage asked for where focus lies within, half a step where it lies toward the lens, else NaN.
    pub least_z_offset_m: f64,
    /// Greatest offset: of the coverage asked for where focus lies within, less half a step where it lies away from the
    /// lens, else NaN.
    pub greatest_z_offset_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_height_settlement, 56 bytes,
    words: [verdict, validity, reserved],
    numbers: [z_offset_m, z_offset_deviation_m, least_z_offset_m, greatest_z_offset_m, half_angle_rad]
);

impl From<HeightSettlement> for spotwise_height_settlement {
    fn from(found: HeightSettlement) -> Self {
        Self {
            verdict: found.verdict as u32,
            validity: found.validity.bits(),
            z_offset_m: found.z_offset.unwrap_or(f64::NAN),
            z_offset_deviation_m: found.z_offset_deviation.unwrap_or(f64::NAN),
            least_z_offset_m: found.least_z_offset.unwrap_or(f64::NAN),
            greatest_z_offset_m: found.greatest_z_offset.unwrap_or(f64::NAN),
            half_angle_rad: found.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_height_settlement_init(settlement: *mut spotwise_height_settlement) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(settlement) }
}

/// Where focus lies, from the same mark at the height in question, a step nearer the lens and a step farther.
///
/// A reading is one that is greatest in focus: depth, or the darkness of a stain, never a width, which a strong mark
/// grows out of focus. If the middle one is the greatest, focus is no farther than half a step, and the three tell where,
/// whatever their scale and zero. Better and worse mean by more than the coverage factor times the deviation of a
/// difference; focus is placed only where the middle reading stands out by 3 deviations.
///
/// @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  readings             readings to read; set with spotwise_height_readings_init(); not NULL.
/// @param[in]  coverage_probability coverage of the range, and of each difference; range:
///                                  SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] settlement           result; set with spotwise_height_settlement_init(); not NULL. On any status
///                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
///                                  and flags to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         kind of mark, then the depth law), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
///         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + what relative errors of the inputs make
///           of it.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: deeper by 8 um a step of 0.3 mm nearer the lens: the surface is too low by 0.15 mm or more.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_settle_by_heights(
    beam: *const spotwise_beam,
    readings: *const spotwise_height_readings,
    coverage_probability: f64,
    settlement: *mut spotwise_height_settlement,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(settlement, error, || {
            let (beam, readings) = (input(beam)?.into(), input(readings)?);
            Ok(settle_by_heights(&beam, &readings.try_into()?, coverage_probability)?.into())
        })
    }
}

const HEIGHT_SENTENCES: [&str; HeightVerdict::ALL.len()] = choice_sentences!(HeightVerdict);
texts!(HEIGHT_VERDICTS, HEIGHT_SENTENCES);

/// One sentence for the person at the machine; "unknown" for a number that is no verdict.
///
/// @param[in] verdict one of SPOTWISE_HEIGHTS_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_height_verdict_text(verdict: u32) -> *const c_char {
    HEIGHT_VERDICTS.get(verdict.wrapping_sub(1) as usize).map_or(UNKNOWN, |text| *text).as_ptr()
}
