//! NULL, wrong sizes and texts. Each function's own refusals are in `tests/c/face.c`; here are the
//! rules that all share, and the texts against the core's.

use super::header::ARRAYS;
use super::raw::words_of;
use crate::abi::{Fault, Plain, init, input, report};
use crate::beam::{spotwise_beam, spotwise_beam_section};
use crate::compensation::spotwise_limit_text;
use crate::diagnosis::{spotwise_ambiguity_text, spotwise_cause_text, spotwise_further_test_text};
use crate::error::spotwise_error;
use crate::glass::{spotwise_glass_name, spotwise_glass_range, spotwise_glass_source};
use crate::parameter::{spotwise_parameter_name, spotwise_parameter_range, spotwise_parameter_unit};
use crate::settling::spotwise_height_verdict_text;
use crate::status::*;
use crate::text::{
    spotwise_caution_text, spotwise_outcome_text, spotwise_reason_text, spotwise_validity_level,
    spotwise_validity_text, spotwise_version_string,
};
use crate::typeface::{spotwise_text_grade_name, spotwise_typeface_name};
use spotwise::model::check::{Outcome, Reasons};
use spotwise::model::learn::{Ambiguities, FurtherTest, HeightVerdict, MarkCause};
use spotwise::model::mark::{CompensationLimits, TextGrade, Typeface};
use spotwise::model::optics::Glass;
use spotwise::{Error, Param, Validity};
use std::ffi::{CStr, c_char};
use std::ptr::{null, null_mut};

/// A result that is not blank.
const SECTION: spotwise_beam_section =
    spotwise_beam_section { validity: 1, diameter_m: 1.0, ..spotwise_beam_section::BLANK };
const REFUSED: Fault = Fault::Refused(Error::UnknownChoice { param: Param::RawBeam, value: 9 });

/// The status, the output and the report of one call.
fn run(
    mut out: spotwise_beam_section,
    mut error: spotwise_error,
    answer: Result<spotwise_beam_section, Fault>,
) -> (u32, Vec<u32>, Vec<u32>) {
    // SAFETY: both are whole structs.
    let status = unsafe { report(&mut out, &mut error, || answer) };
    (status, words_of(&out), words_of(&error))
}

#[test]
fn an_answer_is_written_and_the_report_cleared() {
    let stale = spotwise_error { code: 5, parameter: 6, value: 7.0, ..spotwise_error::BLANK };
    let (status, out, error) = run(spotwise_beam_section::BLANK, stale, Ok(SECTION));
    assert_eq!(status, SPOTWISE_OK);
    assert_eq!(out, words_of(&SECTION));
    assert_eq!(error, words_of(&spotwise_error::BLANK));
}

#[test]
fn a_refusal_blanks_the_output_and_fills_the_report() {
    let (status, out, error) = run(SECTION, spotwise_error::BLANK, Err(REFUSED));
    assert_eq!(status, SPOTWISE_E_UNKNOWN_CHOICE);
    assert_eq!(out, words_of(&spotwise_beam_section::BLANK));
    let (least, greatest) = Param::RawBeam.range();
    let parameter = Param::RawBeam as u32;
    let expected = spotwise_error {
        code: SPOTWISE_E_UNKNOWN_CHOICE,
        parameter,
        value: 9.0,
        least,
        greatest,
        ..spotwise_error::BLANK
    };
    assert_eq!(error, words_of(&expected));
}

#[test]
fn a_struct_of_another_size_is_left_alone() {
    for struct_size in [0, 1, size_of::<spotwise_beam_section>() as u32 - 1, u32::MAX] {
        let strange = spotwise_beam_section { struct_size, ..SECTION };
        for answer in [Ok(SECTION), Err(REFUSED)] {
            let (status, out, error) = run(strange, spotwise_error::BLANK, answer);
            assert_eq!(status, SPOTWISE_E_STRUCT_SIZE);
            assert_eq!(out, words_of(&strange));
            assert_eq!(error[1], SPOTWISE_E_STRUCT_SIZE);
        }
    }
    let strange = spotwise_error { struct_size: 8, code: 7, ..spotwise_error::BLANK };
    let (status, out, error) = run(SECTION, strange, Ok(SECTION));
    assert_eq!(status, SPOTWISE_E_STRUCT_SIZE);
    assert_eq!(out, words_of(&spotwise_beam_section::BLANK));
    assert_eq!(error, words_of(&strange));
}

#[test]
fn faults_of_pointers_come_first_and_in_the_order_of_the_arguments() {
    let mut out = SECTION;
    // SAFETY: NULL or whole structs.
    unsafe {
        let out = &raw mut out;
        assert_eq!(report(out, null_mut(), || Err(Fault::Overlap)), SPOTWISE_E_OVERLAP);
        assert_eq!(report(null_mut::<f64>(), null_mut(), || Err(REFUSED)), SPOTWISE_E_NULL);
        assert_eq!(report(null_mut::<f64>(), null_mut(), || Err(Fault::StructSize)), SPOTWISE_E_STRUCT_SIZE);
        (*out).struct_size = 0;
        assert_eq!(report(out, null_mut(), || Err(Fault::Null)), SPOTWISE_E_NULL);
    }
}

#[test]
fn inputs_are_read_only_if_they_are_whole() {
    // SAFETY: NULL or whole structs.
    unsafe {
        assert!(matches!(input(null::<spotwise_beam>()), Err(Fault::Null)));
        let mut beam = spotwise_beam::BLANK;
        assert!(input(&beam).is_ok());
        beam.struct_size += 1;
        assert!(matches!(input(&beam), Err(Fault::StructSize)));
        init(null_mut::<spotwise_beam>());
        init(&mut beam);
        assert_eq!(words_of(&beam), words_of(&spotwise_beam::BLANK));
    }
}

fn text(pointer: *const c_char) -> &'static str {
    // SAFETY: every text function returns a constant text with its NUL.
    unsafe { CStr::from_ptr(pointer) }.to_str().unwrap()
}

#[test]
fn texts_are_those_of_the_core() {
    for param in Param::ALL {
        let code = *param as u32;
        assert_eq!(text(spotwise_parameter_name(code)), param.name());
        assert_eq!(text(spotwise_parameter_unit(code)), param.unit());
        let (mut least, mut greatest) = (0.0, 0.0);
        // SAFETY: both are numbers.
        assert_eq!(unsafe { spotwise_parameter_range(code, &mut least, &mut greatest) }, SPOTWISE_OK);
        if ARRAYS.contains(param) {
            assert!(least.is_nan() && greatest.is_nan());
        } else {
            assert_eq!((least, greatest), param.range());
        }
    }
    for outcome in Outcome::ALL {
        assert_eq!(text(spotwise_outcome_text(outcome as u32)), outcome.text());
    }
    for (reason, sentence) in Reasons::ALL {
        assert_eq!(text(spotwise_reason_text(reason.bits())), sentence);
    }
    for (flag, sentence) in Validity::ALL {
        assert_eq!(text(spotwise_validity_text(flag.bits())), sentence);
        assert_eq!(spotwise_validity_level(flag.bits()), flag.level() as u32);
        // Bits that stand for no flag are not looked at.
        assert_eq!(spotwise_validity_level(flag.bits() | 1 << 31), flag.level() as u32);
    }
    for glass in Glass::ALL {
        let code = glass as u32;
        assert_eq!(text(spotwise_glass_name(code)), glass.name());
        assert_eq!(text(spotwise_glass_source(code)), glass.source());
        let (mut least, mut greatest) = (0.0, 0.0);
        // SAFETY: both are numbers.
        assert_eq!(unsafe { spotwise_glass_range(code, &mut least, &mut greatest) }, SPOTWISE_OK);
        assert_eq!((least, greatest), glass.wavelengths());
    }
    for (limit, sentence) in CompensationLimits::ALL {
        assert_eq!(text(spotwise_limit_text(limit.bits())), sentence);
    }
    for cause in MarkCause::ALL {
        assert_eq!(text(spotwise_cause_text(cause as u32)), cause.text());
    }
    for test in FurtherTest::ALL {
        assert_eq!(text(spotwise_further_test_text(test as u32)), test.text());
    }
    for (ambiguity, sentence) in Ambiguities::ALL {
        assert_eq!(text(spotwise_ambiguity_text(ambiguity.bits())), sentence);
    }
    for verdict in HeightVerdict::ALL {
        assert_eq!(text(spotwise_height_verdict_text(verdict as u32)), verdict.text());
    }
    for grade in TextGrade::ALL {
        assert_eq!(text(spotwise_text_grade_name(grade as u32)), grade.name());
    }
    for code in 1..=6 {
        let typeface = Typeface::from_code(code, 0.1, 0.1, 0.1, 0.1).unwrap();
        assert_eq!(text(spotwise_typeface_name(code)), typeface.name());
    }
    assert_eq!(text(spotwise_caution_text()), spotwise::CAUTIONS.trim());
    assert_eq!(text(spotwise_version_string()), env!("CARGO_PKG_VERSION"));
}
