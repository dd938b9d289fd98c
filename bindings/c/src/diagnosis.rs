//! Focus or power: what a mark says against a good one.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{UNKNOWN, sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::Error;
use spotwise::model::learn::{
    Ambiguities, DepthLaw, DepthReading, FurtherTest, GoodMark, MarkCause, MarkDiagnosis, PossibleHeight,
    WidthDiagnosis, diagnose_mark, diagnose_width,
};
use spotwise::model::mark::MarkKind;

/// Depth law: by ln q, q being the dose ratio: a bulk into which the dose falls off by an exponential law.
pub const SPOTWISE_DEPTH_LOGARITHMIC: u32 = 1;
/// Depth law: by q - 1: a bulk of which every joule above the threshold removes its share.
pub const SPOTWISE_DEPTH_LINEAR: u32 = 2;

/// Cause: no change shows.
pub const SPOTWISE_CAUSE_NOTHING: u32 = 1;
/// Cause: focus has changed.
pub const SPOTWISE_CAUSE_FOCUS: u32 = 2;
/// Cause: the dose has changed.
pub const SPOTWISE_CAUSE_POWER: u32 = 3;
/// Cause: both have changed.
pub const SPOTWISE_CAUSE_FOCUS_AND_POWER: u32 = 4;
/// Cause: one of them has changed, and the width alone cannot tell which.
pub const SPOTWISE_CAUSE_FOCUS_OR_POWER: u32 = 5;
/// Cause: the dose must have changed, for no height explains the mark; focus may have as well.
pub const SPOTWISE_CAUSE_POWER_PERHAPS_FOCUS: u32 = 6;
/// Cause: what was taken for good was not in focus, or the laws are others.
pub const SPOTWISE_CAUSE_NOT_AS_ASSUMED: u32 = 7;

/// Further test: none is needed.
pub const SPOTWISE_TEST_NOTHING: u32 = 1;
/// Further test: the same mark a step nearer and a step farther; spotwise_settle_by_heights() reads it.
pub const SPOTWISE_TEST_HEIGHTS_EITHER_SIDE: u32 = 2;
/// Further test: a solid patch and a thin line in one job; spotwise_settle_by_patch() reads it.
pub const SPOTWISE_TEST_SOLID_PATCH: u32 = 3;
/// Further test: the same line once more with the power doubled; spotwise_settle_by_power() reads it.
pub const SPOTWISE_TEST_DOUBLE_POWER: u32 = 4;

/// What stays open: on which side of the focus the surface lies.
pub const SPOTWISE_AMBIGUITY_SIDE: u32 = 1;
/// What stays open: which of two heights it is.
pub const SPOTWISE_AMBIGUITY_TWO_HEIGHTS: u32 = 2;
/// What stays open: whether focus or the dose has changed.
pub const SPOTWISE_AMBIGUITY_FOCUS_OR_POWER: u32 = 4;
/// What stays open: whether heat has widened the mark, should the material melt.
pub const SPOTWISE_AMBIGUITY_MELT: u32 = 8;
/// What stays open: what has changed the dose.
pub const SPOTWISE_AMBIGUITY_POWER_OR_SPEED: u32 = 16;
/// What stays open: whether the surface is in focus, for at this dose the width hardly reacts to it.
pub const SPOTWISE_AMBIGUITY_INSENSITIVE: u32 = 32;

const _: () = {
    assert!(SPOTWISE_DEPTH_LOGARITHMIC == DepthLaw::Logarithmic as u32);
    assert!(SPOTWISE_DEPTH_LINEAR == DepthLaw::Linear as u32);
    assert!(DepthLaw::ALL.len() == 2);

    assert!(SPOTWISE_CAUSE_NOTHING == MarkCause::Nothing as u32);
    assert!(SPOTWISE_CAUSE_FOCUS == MarkCause::Focus as u32);
    assert!(SPOTWISE_CAUSE_POWER == MarkCause::Power as u32);
    assert!(SPOTWISE_CAUSE_FOCUS_AND_POWER == MarkCause::FocusAndPower as u32);
    assert!(SPOTWISE_CAUSE_FOCUS_OR_POWER == MarkCause::FocusOrPower as u32);
    assert!(SPOTWISE_CAUSE_POWER_PERHAPS_FOCUS == MarkCause::PowerPerhapsFocus as u32);
    assert!(SPOTWISE_CAUSE_NOT_AS_ASSUMED == MarkCause::NotAsAssumed as u32);
    assert!(MarkCause::ALL.len() == 7);

    assert!(SPOTWISE_TEST_NOTHING == FurtherTest::Nothing as u32);
    assert!(SPOTWISE_TEST_HEIGHTS_EITHER_SIDE == FurtherTest::HeightsEitherSide as u32);
    assert!(SPOTWISE_TEST_SOLID_PATCH == FurtherTest::SolidPatch as u32);
    assert!(SPOTWISE_TEST_DOUBLE_POWER == FurtherTest::DoublePower as u32);
    assert!(FurtherTest::ALL.len() == 4);

    assert!(SPOTWISE_AMBIGUITY_SIDE == Ambiguities::SIDE.bits());
    assert!(SPOTWISE_AMBIGUITY_TWO_HEIGHTS == Ambiguities::TWO_HEIGHTS.bits());
    assert!(SPOTWISE_AMBIGUITY_FOCUS_OR_POWER == Ambiguities::FOCUS_OR_POWER.bits());
    assert!(SPOTWISE_AMBIGUITY_MELT == Ambiguities::MELT.bits());
    assert!(SPOTWISE_AMBIGUITY_POWER_OR_SPEED == Ambiguities::POWER_OR_SPEED.bits());
    assert!(SPOTWISE_AMBIGUITY_INSENSITIVE == Ambiguities::INSENSITIVE.bits());
    assert!(Ambiguities::ALL.len() == 6);
};

/// A good mark: made in focus, of known dose.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_good_mark {
    /// Size of this struct; spotwise_good_mark_init() sets it.
    pub struct_size: u32,
    /// What makes the mark: one of SPOTWISE_MARK_*.
    pub mark_kind: u32,
    /// Its dose over the dose at which the material just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself, 0 if it counts as exact, at most 0.3 ln(dose_ratio); range:
    /// SPOTWISE_PARAM_DOSE_RATIO_DEVIATION.
    pub dose_ratio_deviation: f64,
    /// Its width in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
    pub width_m: f64,
    /// Standard deviation of the width in metres, at most 0.3 of it; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
    pub width_deviation_m: f64,
}
plain!(
    spotwise_good_mark, 40 bytes,
    words: [mark_kind],
    numbers: [dose_ratio, dose_ratio_deviation, width_m, width_deviation_m]
);

impl TryFrom<spotwise_good_mark> for GoodMark {
    type Error = Error;

    fn try_from(good: spotwise_good_mark) -> Result<Self, Error> {
        Ok(Self {
            kind: MarkKind::from_code(good.mark_kind)?,
            dose_ratio: good.dose_ratio,
            dose_ratio_deviation: good.dose_ratio_deviation,
            width: good.width_m,
            width_deviation: good.width_deviation_m,
        })
    }
}

/// Sets struct_size, the kind of mark to 0, which is none, and every number to a quiet NaN. NULL
/// does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_good_mark_init(good: *mut spotwise_good_mark) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(good) }
}

/// Depths, or optical densities of a stain that go by the same law, in any one unit.
///
/// A contrast 1 - R/R0, of the reflectances R of the mark and R0 of the bare material, follows neither
/// law: turn it into the density log10(R0/R) first, with the deviation 0.434 sigma/R. Over the straight
/// part of its characteristic curve it goes by SPOTWISE_DEPTH_LOGARITHMIC.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_depth_reading {
    /// Size of this struct; spotwise_depth_reading_init() sets it.
    pub struct_size: u32,
    /// How depth goes with dose: one of SPOTWISE_DEPTH_*.
    pub depth_law: u32,
    /// Depth of the good mark; range: SPOTWISE_PARAM_MARK_DEPTH.
    pub good_depth: f64,
    /// Its standard deviation, at most 0.3 of it; range: SPOTWISE_PARAM_DEPTH_DEVIATION.
    pub good_depth_deviation: f64,
    /// Depth now; range: SPOTWISE_PARAM_MARK_DEPTH.
    pub depth: f64,
    /// Its standard deviation, at most 0.3 of it; range: SPOTWISE_PARAM_DEPTH_DEVIATION.
    pub depth_deviation: f64,
}
plain!(
    spotwise_depth_reading, 40 bytes,
    words: [depth_law],
    numbers: [good_depth, good_depth_deviation, depth, depth_deviation]
);

impl TryFrom<spotwise_depth_reading> for DepthReading {
    type Error = Error;

    fn try_from(depths: spotwise_depth_reading) -> Result<Self, Error> {
        Ok(Self {
            law: DepthLaw::from_code(depths.depth_law)?,
            good_depth: depths.good_depth,
            good_depth_deviation: depths.good_depth_deviation,
            depth: depths.depth,
            depth_deviation: depths.depth_deviation,
        })
    }
}

/// Sets struct_size, the law to 0, which is none, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_depth_reading_init(depths: *mut spotwise_depth_reading) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(depths) }
}

/// What width and depth of a mark say: the result of spotwise_diagnose_mark().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_diagnosis {
    /// Size of this struct; spotwise_mark_diagnosis_init() sets it.
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
    /// Growth of the spot; below 1 where errors of measurement or the good mark make it so.
    pub growth: f64,
    /// Standard deviation of the growth over itself.
    pub growth_deviation: f64,
    /// Distance of the surface from the waist in metres, on either side; 0 for a growth up to 1.
    pub offset_m: f64,
    /// Least distance, of the coverage asked for; 0 where the waist is not ruled out.
    pub least_offset_m: f64,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset_m: f64,
    /// Dose that the settings give now over what they gave.
    pub power_ratio: f64,
    /// Standard deviation of the power ratio over itself.
    pub power_ratio_deviation: f64,
    /// Least power ratio, of the coverage asked for.
    pub least_power_ratio: f64,
    /// Greatest power ratio, of the coverage asked for.
    pub greatest_power_ratio: f64,
    /// Correlation of the logarithms of growth and power ratio.
    pub correlation: f64,
    /// Dose ratio of the mark where it lies.
    pub dose_ratio: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_mark_diagnosis, 120 bytes,
    words: [cause, further_test, ambiguities, validity, reserved],
    numbers: [
        growth,
        growth_deviation,
        offset_m,
        least_offset_m,
        greatest_offset_m,
        power_ratio,
        power_ratio_deviation,
        least_power_ratio,
        greatest_power_ratio,
        correlation,
        dose_ratio,
        half_angle_rad,
    ]
);

impl From<MarkDiagnosis> for spotwise_mark_diagnosis {
    fn from(found: MarkDiagnosis) -> Self {
        Self {
            cause: found.cause as u32,
            further_test: found.further_test as u32,
            ambiguities: found.ambiguities.bits(),
            validity: found.validity.bits(),
            growth: found.growth,
            growth_deviation: found.growth_deviation,
            offset_m: found.offset,
            least_offset_m: found.least_offset,
            greatest_offset_m: found.greatest_offset,
            power_ratio: found.power_ratio,
            power_ratio_deviation: found.power_ratio_deviation,
            least_power_ratio: found.least_power_ratio,
            greatest_power_ratio: found.greatest_power_ratio,
            correlation: found.correlation,
            dose_ratio: found.dose_ratio,
            half_angle_rad: found.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_diagnosis_init(diagnosis: *mut spotwise_mark_diagnosis) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(diagnosis) }
}

/// Focus or power, from width and depth of a mark against those of a good one.
///
/// With B and D, width and depth over those of the good mark, and q0, its dose ratio: ln q = D ln q0 by a logarithmic law,
/// q = 1 + D (q0 - 1) by a linear one, growth g = B sqrt(ln q0/ln q), power ratio g^n q/q0, n being 2 for a pulse and 1 for a
/// line, distance from the waist z_R sqrt(g^2 - 1). On which side of the focus the surface lies stays open, and in a
/// melt heat widens the mark as well. Ranges are those of a normal law of the logarithms; that of the distance begins
/// at 0 where the waist is not ruled out. spotwise_compensate() makes up for the distance; it needs no sign.
///
/// @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  good                 the good mark to read; set with spotwise_good_mark_init(); not NULL.
/// @param[in]  depths               depths to read; set with spotwise_depth_reading_init(); not NULL.
/// @param[in]  width_m              width now in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
/// @param[in]  width_deviation_m    its standard deviation in metres, at most 0.3 of it; range:
///                                  SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] diagnosis            result; set with spotwise_mark_diagnosis_init(); not NULL. On any status
///                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
///                                  and flags to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         kind of mark, then the depth law), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
///         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, dose ratio of the mark above 1e6, growth above 1e9).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln q0 + what relative errors of the
///           inputs make of it.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 20 % wider and half as deep as a line of q0 = 4, 10.6 um, M^2 = 1.2, waist 88 um: growth 1.6971, 0.656 mm
///          off, power ratio 0.8485.
/// Source: derived by the authors from the laws of spotwise_mark_width() and spotwise_material_mark().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_diagnose_mark(
    beam: *const spotwise_beam,
    good: *const spotwise_good_mark,
    depths: *const spotwise_depth_reading,
    width_m: f64,
    width_deviation_m: f64,
    coverage_probability: f64,
    diagnosis: *mut spotwise_mark_diagnosis,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(diagnosis, error, || {
            let (beam, good, depths) = (input(beam)?.into(), input(good)?, input(depths)?);
            let (good, depths) = (good.try_into()?, depths.try_into()?);
            Ok(diagnose_mark(&beam, &good, &depths, width_m, width_deviation_m, coverage_probability)?.into())
        })
    }
}

/// What the width of a mark says: the result of spotwise_diagnose_width().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_width_diagnosis {
    /// Size of this struct; spotwise_width_diagnosis_init() sets it.
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
    /// Growth at the height between the waist and where the mark is widest, if the dose is as it was; NaN, as the three
    /// that follow, where no such height explains the width.
    pub near_growth: f64,
    /// Distance of that height from the waist in metres, on either side.
    pub near_offset_m: f64,
    /// Least distance, of the coverage asked for.
    pub near_least_offset_m: f64,
    /// Greatest distance, of the coverage asked for.
    pub near_greatest_offset_m: f64,
    /// Growth at the height beyond where the mark is widest; NaN, as the three that follow, where none explains it.
    pub far_growth: f64,
    /// Distance of that height from the waist in metres, on either side.
    pub far_offset_m: f64,
    /// Least distance, of the coverage asked for.
    pub far_least_offset_m: f64,
    /// Greatest distance, of the coverage asked for.
    pub far_greatest_offset_m: f64,
    /// The dose over what it was, if focus is as it was; NaN, as the two that follow, where a dose ratio of 1e6 would not do.
    pub power_ratio: f64,
    /// Least such ratio, of the coverage asked for.
    pub least_power_ratio: f64,
    /// Greatest such ratio, of the coverage asked for.
    pub greatest_power_ratio: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_width_diagnosis, 120 bytes,
    words: [cause, further_test, ambiguities, validity, reserved],
    numbers: [
        near_growth,
        near_offset_m,
        near_least_offset_m,
        near_greatest_offset_m,
        far_growth,
        far_offset_m,
        far_least_offset_m,
        far_greatest_offset_m,
        power_ratio,
        least_power_ratio,
        greatest_power_ratio,
        half_angle_rad,
    ]
);

/// Growth, distance, least and greatest distance of a height that may not be there.
pub(crate) fn height(found: Option<PossibleHeight>) -> [f64; 4] {
    found.map_or([f64::NAN; 4], |height| {
        [height.growth, height.offset, height.least_offset, height.greatest_offset]
    })
}

impl From<WidthDiagnosis> for spotwise_width_diagnosis {
    fn from(found: WidthDiagnosis) -> Self {
        let [near_growth, near_offset_m, near_least_offset_m, near_greatest_offset_m] = height(found.near);
        let [far_growth, far_offset_m, far_least_offset_m, far_greatest_offset_m] = height(found.far);
        let [power_ratio, least_power_ratio, greatest_power_ratio] =
            found.power.map_or([f64::NAN; 3], |power| [power.ratio, power.least, power.greatest]);
        Self {
            cause: found.cause as u32,
            further_test: found.further_test as u32,
            ambiguities: found.ambiguities.bits(),
            validity: found.validity.bits(),
            near_growth,
            near_offset_m,
            near_least_offset_m,
            near_greatest_offset_m,
            far_growth,
            far_offset_m,
            far_least_offset_m,
            far_greatest_offset_m,
            power_ratio,
            least_power_ratio,
            greatest_power_ratio,
            half_angle_rad: found.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_width_diagnosis_init(diagnosis: *mut spotwise_width_diagnosis) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(diagnosis) }
}

/// Focus or power, from the width of a mark alone against that of a good one.
///
/// Gives the heights that explain it if the dose is as it was, and the dose that explains it if focus is. With B, the width over
/// that of the good mark, q0, its dose ratio, and g, the growth: B^2 = g^2 ln(q0/g^n)/ln q0, n being 2 for a pulse and 1 for a
/// line. Two heights explain a width between that in the waist and the greatest, one explains a lesser width, none a
/// greater one: then the dose must have changed. In focus the power ratio is q0^(B^2 - 1).
///
/// @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  good                 the good mark to read; set with spotwise_good_mark_init(); not NULL.
/// @param[in]  width_m              width now in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
/// @param[in]  width_deviation_m    its standard deviation in metres, at most 0.3 of it; range:
///                                  SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] diagnosis            result; set with spotwise_width_diagnosis_init(); not NULL. On any status
///                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
///                                  and flags to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
///         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln q0 + what relative errors of the
///           inputs make of it.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 20 % wider than a line of q0 = 4, 10.6 um, M^2 = 1.2, waist 88 um: 0.441 mm or 1.527 mm off, or in focus
///          with 1.84 times the dose.
/// Source: derived by the authors from the law of spotwise_mark_width().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_diagnose_width(
    beam: *const spotwise_beam,
    good: *const spotwise_good_mark,
    width_m: f64,
    width_deviation_m: f64,
    coverage_probability: f64,
    diagnosis: *mut spotwise_width_diagnosis,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(diagnosis, error, || {
            let (beam, good) = (input(beam)?.into(), input(good)?);
            let good = good.try_into()?;
            Ok(diagnose_width(&beam, &good, width_m, width_deviation_m, coverage_probability)?.into())
        })
    }
}

/// The sentence of each choice, in the order of the codes, which count from 1 without a gap.
macro_rules! choice_sentences {
    ($choice:ty) => {{
        let mut sentences = [""; <$choice>::ALL.len()];
        let mut i = 0;
        while i < sentences.len() {
            assert!(<$choice>::ALL[i] as usize == i + 1);
            sentences[i] = <$choice>::ALL[i].text();
            i += 1;
        }
        sentences
    }};
}
pub(crate) use choice_sentences;

const CAUSE_SENTENCES: [&str; MarkCause::ALL.len()] = choice_sentences!(MarkCause);
const TEST_SENTENCES: [&str; FurtherTest::ALL.len()] = choice_sentences!(FurtherTest);
const AMBIGUITY_SENTENCES: [&str; Ambiguities::ALL.len()] = sentences!(Ambiguities);
texts!(CAUSES, CAUSE_SENTENCES);
texts!(TESTS, TEST_SENTENCES);
texts!(AMBIGUITIES, AMBIGUITY_SENTENCES);

/// One sentence for the person at the machine; "unknown" for a number that is no cause.
///
/// @param[in] cause one of SPOTWISE_CAUSE_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_cause_text(cause: u32) -> *const c_char {
    CAUSES.get(cause.wrapping_sub(1) as usize).map_or(UNKNOWN, |text| *text).as_ptr()
}

/// How to make a further test, in one sentence; "unknown" for a number that is none.
///
/// @param[in] further_test one of SPOTWISE_TEST_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_further_test_text(further_test: u32) -> *const c_char {
    TESTS.get(further_test.wrapping_sub(1) as usize).map_or(UNKNOWN, |text| *text).as_ptr()
}

/// One sentence for what stays open; "unknown" unless exactly one bit is given.
///
/// @param[in] ambiguity one bit, one of SPOTWISE_AMBIGUITY_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_ambiguity_text(ambiguity: u32) -> *const c_char {
    text_of_bit(&AMBIGUITIES, ambiguity)
}
