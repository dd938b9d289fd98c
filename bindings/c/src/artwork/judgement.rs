//! How a drawing comes out: its grade, and the reasons.

use super::codes::SPOTWISE_MARK_GRADE_CRISP;
use super::report::spotwise_mark_report;
use super::window::spotwise_dose_window_result;
use crate::abi::{Plain, init, input, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{UNKNOWN, sentences, text_of_bit, texts};
use crate::typeface::spotwise_text_grades;
use core::ffi::c_char;
use spotwise::artwork::{Judgement, MarkGrade, MarkReasons, judge};

/// The grade of a drawing, and why: the result of spotwise_judge_mark().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_judgement {
    /// Size of this struct; spotwise_judgement_init() sets it.
    pub struct_size: u32,
    /// The grade: one of SPOTWISE_MARK_GRADE_*.
    pub grade: u32,
    /// Why it is no better, and what to know besides: SPOTWISE_MARK_REASON_* bits.
    pub reasons: u32,
    /// 0.
    pub reserved: u32,
}
plain!(spotwise_judgement, 16 bytes, words: [grade, reasons, reserved]);

impl From<Judgement> for spotwise_judgement {
    fn from(judgement: Judgement) -> Self {
        Self { grade: judgement.grade as u32, reasons: judgement.reasons.bits(), ..Self::BLANK }
    }
}

/// Sets struct_size, and all else to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_judgement_init(judgement: *mut spotwise_judgement) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(judgement) }
}

/// Judges a mark by what it keeps at its dose and by the room that the dose has.
///
/// Degraded: strokes and counters hold at this dose, with a window for them of at least readable_window. Good:
/// neighbours are apart as well, with a window for all of at least good_window. Crisp: besides, half of the strokes'
/// length gets at least crisp_exposure of the full dose. The limits are those of text: set to agree with common
/// practice, no source, and not otherwise validated.
///
/// @param[in]  found     what spotwise_preflight() found; not NULL.
/// @param[in]  window    what spotwise_dose_window() found; not NULL.
/// @param[in]  grades    where grades begin, set with spotwise_text_grades_init(), which sets the defaults; not NULL.
/// @param[out] judgement result; set with spotwise_judgement_init(); not NULL. On any status other than SPOTWISE_OK its
///                       grade and reasons are set to 0.
/// @param[out] error     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (of
///         grades).
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_judge_mark(
    found: *const spotwise_mark_report,
    window: *const spotwise_dose_window_result,
    grades: *const spotwise_text_grades,
    judgement: *mut spotwise_judgement,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(judgement, error, || {
            let (found, window) = (input(found)?.into(), input(window)?.into());
            Ok(judge(&found, &window, &input(grades)?.into())?.into())
        })
    }
}

/// Name of a grade of a mark in plain words, such as "degraded"; "unknown" for any other number.
///
/// @return a constant text, never NULL. Any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_mark_grade_name(grade: u32) -> *const c_char {
    texts!(
        GRADES,
        [MarkGrade::Crisp.name(), MarkGrade::Good.name(), MarkGrade::Degraded.name(), MarkGrade::Lost.name()]
    );
    let place = grade.wrapping_sub(SPOTWISE_MARK_GRADE_CRISP) as usize;
    GRADES.get(place).map_or(UNKNOWN, |text| *text).as_ptr()
}

/// One sentence for a reason of a judgement; "unknown" unless exactly one reason is given.
///
/// @param[in] reason one bit, one of SPOTWISE_MARK_REASON_*.
/// @return a constant text, never NULL. Any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_mark_reason_text(reason: u32) -> *const c_char {
    const SENTENCES: [&str; MarkReasons::ALL.len()] = sentences!(MarkReasons);
    texts!(REASONS, SENTENCES);
    text_of_bit(&REASONS, reason)
}
