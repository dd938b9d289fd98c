//! Text: which letters a spot can still write.

use crate::abi::{Plain, init, init_as, input, plain, report};
use crate::beam::spotwise_beam;
use crate::choices::{SPOTWISE_GRADE_CRISP, SPOTWISE_TYPEFACE_SANS};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{UNKNOWN, texts};
use core::ffi::{CStr, c_char};
use spotwise::Error;
use spotwise::model::mark::{
    SmallestText, TextGrade, TextGrades, TextOffset, TextQuality, Typeface, TypefaceShares, offset_for_text,
    smallest_text, text_quality, typeface_shares,
};

/// A kind of typeface, or one that you have measured. The numbers are shares of the em, read only
/// for SPOTWISE_TYPEFACE_MEASURED.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_typeface {
    /// Size of this struct; spotwise_typeface_init() sets it.
    pub struct_size: u32,
    /// One of SPOTWISE_TYPEFACE_*.
    pub typeface: u32,
    /// Width of an upright stem in ems; range: SPOTWISE_PARAM_STEM_SHARE.
    pub stem: f64,
    /// The stroke to which the typeface amounts in ems; range: SPOTWISE_PARAM_STROKE_SHARE.
    pub effective_stroke: f64,
    /// The gap to which its counters amount in ems; range: SPOTWISE_PARAM_COUNTER_SHARE.
    pub effective_counter: f64,
    /// The gap to which its counters and the gaps between letters amount in ems; range:
    /// SPOTWISE_PARAM_GAP_SHARE.
    pub effective_gap: f64,
}
plain!(
    spotwise_typeface, 40 bytes,
    words: [typeface],
    numbers: [stem, effective_stroke, effective_counter, effective_gap]
);

impl TryFrom<spotwise_typeface> for Typeface {
    type Error = Error;

    fn try_from(typeface: spotwise_typeface) -> Result<Self, Error> {
        let spotwise_typeface { stem, effective_stroke, effective_counter, effective_gap, .. } = typeface;
        Self::from_code(typeface.typeface, stem, effective_stroke, effective_counter, effective_gap)
    }
}

/// Sets struct_size, the typeface to 0, which is none, and every number to a quiet NaN. NULL does
/// nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_typeface_init(typeface: *mut spotwise_typeface) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(typeface) }
}

/// Where the grades of text begin. The defaults were set to agree with common practice, and are not
/// otherwise validated.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_text_grades {
    /// Size of this struct; spotwise_text_grades_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Share of the fill dose that the middle of a stem must get to be crisp, 0.98 by default;
    /// range: SPOTWISE_PARAM_CRISP_EXPOSURE.
    pub crisp_exposure: f64,
    /// Least dose window of good text, 2 by default; range: SPOTWISE_PARAM_DOSE_WINDOW.
    pub good_window: f64,
    /// Least dose window of readable text, 1.1 by default; range: SPOTWISE_PARAM_DOSE_WINDOW.
    pub readable_window: f64,
}
plain!(
    spotwise_text_grades, 32 bytes,
    words: [reserved],
    numbers: [crisp_exposure, good_window, readable_window]
);

impl From<spotwise_text_grades> for TextGrades {
    fn from(grades: spotwise_text_grades) -> Self {
        Self {
            crisp_exposure: grades.crisp_exposure,
            good_window: grades.good_window,
            readable_window: grades.readable_window,
        }
    }
}

impl From<TextGrades> for spotwise_text_grades {
    fn from(grades: TextGrades) -> Self {
        Self {
            crisp_exposure: grades.crisp_exposure,
            good_window: grades.good_window,
            readable_window: grades.readable_window,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to its default. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_text_grades_init(grades: *mut spotwise_text_grades) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(grades, TextGrades::default().into()) }
}

/// Measured shares of a kind of typeface, in ems: the result of spotwise_typeface_shares().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_typeface_shares_result {
    /// Size of this struct; spotwise_typeface_shares_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Height of capitals.
    pub cap_height: f64,
    /// Height of small letters without ascender.
    pub x_height: f64,
    /// Height of digits.
    pub digit_height: f64,
    /// Width of an upright stem.
    pub stem: f64,
    /// Thinnest stroke of any letter or digit.
    pub thinnest_stroke: f64,
    /// Diameter of the largest circle in the smallest counter.
    pub smallest_counter: f64,
    /// The stroke to which the typeface amounts.
    pub effective_stroke: f64,
    /// The gap to which its counters amount.
    pub effective_counter: f64,
    /// The gap to which its counters and the gaps between letters amount.
    pub effective_gap: f64,
}
plain!(
    spotwise_typeface_shares_result, 80 bytes,
    words: [reserved],
    numbers: [
        cap_height,
        x_height,
        digit_height,
        stem,
        thinnest_stroke,
        smallest_counter,
        effective_stroke,
        effective_counter,
        effective_gap,
    ]
);

impl From<TypefaceShares> for spotwise_typeface_shares_result {
    fn from(result: TypefaceShares) -> Self {
        Self {
            cap_height: result.cap_height,
            x_height: result.x_height,
            digit_height: result.digit_height,
            stem: result.stem,
            thinnest_stroke: result.thinnest_stroke,
            smallest_counter: result.smallest_counter,
            effective_stroke: result.effective_stroke,
            effective_counter: result.effective_counter,
            effective_gap: result.effective_gap,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_typeface_shares_result_init(shares: *mut spotwise_typeface_shares_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(shares) }
}

/// The smallest type of each grade: the result of spotwise_smallest_text().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_smallest_text_result {
    /// Size of this struct; spotwise_smallest_text_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// The smallest em at which text is crisp, in metres.
    pub crisp_em_m: f64,
    /// The smallest em at which it is good, in metres.
    pub good_em_m: f64,
    /// The smallest em at which it can be read, in metres.
    pub readable_em_m: f64,
}
plain!(
    spotwise_smallest_text_result, 32 bytes,
    words: [reserved],
    numbers: [crisp_em_m, good_em_m, readable_em_m]
);

impl From<SmallestText> for spotwise_smallest_text_result {
    fn from(result: SmallestText) -> Self {
        Self {
            crisp_em_m: result.crisp_em,
            good_em_m: result.good_em,
            readable_em_m: result.readable_em,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_smallest_text_result_init(text: *mut spotwise_smallest_text_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(text) }
}

/// How text of one size comes out: the result of spotwise_text_quality().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_text_quality_result {
    /// Size of this struct; spotwise_text_quality_result_init() sets it.
    pub struct_size: u32,
    /// The best grade that holds: one of SPOTWISE_GRADE_*; 0 if the call failed.
    pub grade: u32,
    /// Dose on the middle of a stem over that of a wide fill.
    pub stem_exposure: f64,
    /// Least dose ratio at which no stroke is lost.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio at which counters stay open and letters apart; may be infinite.
    pub greatest_dose_ratio: f64,
    /// Greatest dose ratio at which counters stay open; may be infinite.
    pub greatest_dose_ratio_for_counters: f64,
}
plain!(
    spotwise_text_quality_result, 40 bytes,
    words: [grade],
    numbers: [stem_exposure, least_dose_ratio, greatest_dose_ratio, greatest_dose_ratio_for_counters]
);

impl From<TextQuality> for spotwise_text_quality_result {
    fn from(result: TextQuality) -> Self {
        Self {
            grade: result.grade as u32,
            stem_exposure: result.stem_exposure,
            least_dose_ratio: result.least_dose_ratio,
            greatest_dose_ratio: result.greatest_dose_ratio,
            greatest_dose_ratio_for_counters: result.greatest_dose_ratio_for_counters,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_text_quality_result_init(quality: *mut spotwise_text_quality_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(quality) }
}

/// How far text may be out of focus: the result of spotwise_offset_for_text().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_text_offset {
    /// Size of this struct; spotwise_text_offset_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Largest magnitude of the offset from the waist in metres, alike on either side.
    pub offset_m: f64,
    /// Spot diameter there in metres, 1/e^2 (D4 sigma).
    pub spot_diameter_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_text_offset, 32 bytes,
    words: [validity],
    numbers: [offset_m, spot_diameter_m, half_angle_rad]
);

impl From<TextOffset> for spotwise_text_offset {
    fn from(result: TextOffset) -> Self {
        Self {
            validity: result.validity.bits(),
            offset_m: result.offset,
            spot_diameter_m: result.spot_diameter,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_text_offset_init(offset: *mut spotwise_text_offset) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(offset) }
}

/// Measured shares of a kind of typeface; those of a measured one that were not given are NaN.
///
/// Heights, stems and strokes were measured, and the effective shares fitted to simulated letters,
/// from openly licensed fonts.
///
/// @param[in]  typeface typeface to read; set with spotwise_typeface_init(); not NULL.
/// @param[out] shares   result; set with spotwise_typeface_shares_result_init(); not NULL. On any
///                      status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error    what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         typeface), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
///
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: measured by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_typeface_shares(
    typeface: *const spotwise_typeface,
    shares: *mut spotwise_typeface_shares_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(shares, error, || {
            let typeface = input(typeface)?;
            Ok(typeface_shares(typeface.try_into()?)?.into())
        })
    }
}

/// The smallest type that comes out crisp, good and readable with this spot and dose.
///
/// With t = sqrt(2) em/diameter: strokes hold from the dose ratio 1/erf(s (t + sqrt(8))) on, gaps up to
/// 1/erfc(g t), s and g being the effective shares; the dose window is the one over the other.
/// Readable text has counters in that window and the window that the grades ask for; good text,
/// which can always be read, also keeps its letters apart; crisp text also gets the share of the
/// fill dose that the grades ask for on the middle of a stem. Hinting, the raster of the artwork,
/// kerning, and scripts other than Latin are not modelled.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
///                             SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  typeface        typeface to read; set with spotwise_typeface_init(); not NULL.
/// @param[in]  grades          where grades begin; set with spotwise_text_grades_init(), which sets
///                             the defaults; not NULL.
/// @param[out] text            result; set with spotwise_smallest_text_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         typeface), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: of evaluation at most 4 ulp (units in the last place) of the exact result, times 1 + 1/k where
///           a dose window decides, k being the slope d ln(window)/d ln t. How well the law fits a font
///           is another matter: 15 to 45 %, serifs up to 68 %.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors from spotwise_smallest_details().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_smallest_text(
    spot_diameter_m: f64,
    dose_ratio: f64,
    typeface: *const spotwise_typeface,
    grades: *const spotwise_text_grades,
    text: *mut spotwise_smallest_text_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(text, error, || {
            let (typeface, grades) = (input(typeface)?, input(grades)?.into());
            Ok(smallest_text(spot_diameter_m, dose_ratio, typeface.try_into()?, &grades)?.into())
        })
    }
}

/// How text of one size comes out with this spot and dose.
///
/// Formulas as spotwise_smallest_text(). C does not notice if spot and em are swapped.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  em_m            size of the type in metres, see SPOTWISE_POINT_M; range:
///                             SPOTWISE_PARAM_EM.
/// @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
///                             SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  typeface        typeface to read; set with spotwise_typeface_init(); not NULL.
/// @param[in]  grades          where grades begin; set with spotwise_text_grades_init(), which sets
///                             the defaults; not NULL.
/// @param[out] quality         result; set with spotwise_text_quality_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN, its codes and flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_smallest_text().
///
/// Accuracy: of evaluation at most 6 ulp (units in the last place) of the exact result, the
///           greatest dose ratios that times 1 + (g t)^2.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: as spotwise_smallest_text().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_text_quality(
    spot_diameter_m: f64,
    em_m: f64,
    dose_ratio: f64,
    typeface: *const spotwise_typeface,
    grades: *const spotwise_text_grades,
    quality: *mut spotwise_text_quality_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(quality, error, || {
            let (typeface, grades) = (input(typeface)?, input(grades)?.into());
            Ok(text_quality(spot_diameter_m, em_m, dose_ratio, typeface.try_into()?, &grades)?.into())
        })
    }
}

/// The largest offset from focus at which text of one size keeps a grade.
///
/// Formulas as spotwise_smallest_text(); the offset is where the spot has grown to the largest one
/// that keeps the grade.
///
/// @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  em_m       size of the type in metres, see SPOTWISE_POINT_M; range:
///                        SPOTWISE_PARAM_EM.
/// @param[in]  text_grade the grade to keep: SPOTWISE_GRADE_CRISP, SPOTWISE_GRADE_GOOD or
///                        SPOTWISE_GRADE_READABLE.
/// @param[in]  dose_ratio fill dose over the dose at which the material just marks; range:
///                        SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  typeface   typeface to read; set with spotwise_typeface_init(); not NULL.
/// @param[in]  grades     where grades begin; set with spotwise_text_grades_init(), which sets the
///                        defaults; not NULL.
/// @param[out] offset     result; set with spotwise_text_offset_init(); not NULL. On any status
///                        other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes and
///                        flags to 0.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         grade, the typeface; then SPOTWISE_GRADE_LOST, which nothing need keep),
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_UNREACHABLE (the text lacks
///         the grade even in the waist), SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: of evaluation at most 6 ulp (units in the last place) of the exact result, times
///           r^2/(r^2 - 1), r being the growth there.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: as spotwise_smallest_text() and spotwise_offsets_for_diameter().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_offset_for_text(
    beam: *const spotwise_beam,
    em_m: f64,
    text_grade: u32,
    dose_ratio: f64,
    typeface: *const spotwise_typeface,
    grades: *const spotwise_text_grades,
    offset: *mut spotwise_text_offset,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(offset, error, || {
            let (beam, typeface, grades) = (input(beam)?.into(), input(typeface)?, input(grades)?.into());
            let grade = TextGrade::from_code(text_grade)?;
            Ok(offset_for_text(&beam, em_m, grade, dose_ratio, typeface.try_into()?, &grades)?.into())
        })
    }
}

texts!(
    TYPEFACES,
    [
        Typeface::Sans.name(),
        Typeface::BoldSans.name(),
        Typeface::LightSans.name(),
        Typeface::Serif.name(),
        Typeface::Monospaced.name(),
        MEASURED.name(),
    ]
);
/// Its shares do not matter to its name.
const MEASURED: Typeface =
    Typeface::Measured { stem: 0.0, effective_stroke: 0.0, effective_counter: 0.0, effective_gap: 0.0 };
texts!(
    GRADES,
    [TextGrade::Crisp.name(), TextGrade::Good.name(), TextGrade::Readable.name(), TextGrade::Lost.name(),]
);

/// The name of a code, the first of which is `first`.
fn name_of(names: &[&'static CStr], first: u32, code: u32) -> *const c_char {
    let place = code.wrapping_sub(first) as usize;
    names.get(place).map_or(UNKNOWN, |name| *name).as_ptr()
}

/// Name of a kind of typeface, such as "bold sans"; "unknown" for any other number.
///
/// @param[in] typeface one of SPOTWISE_TYPEFACE_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_typeface_name(typeface: u32) -> *const c_char {
    name_of(&TYPEFACES, SPOTWISE_TYPEFACE_SANS, typeface)
}

/// Name of a grade of text, such as "readable"; "unknown" for any other number.
///
/// @param[in] grade one of SPOTWISE_GRADE_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_text_grade_name(grade: u32) -> *const c_char {
    name_of(&GRADES, SPOTWISE_GRADE_CRISP, grade)
}
