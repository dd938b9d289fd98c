//! Which letters a spot can still write.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::mark::{self, SmallestText, TextGrade, TextGrades, Typeface};
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

/// The three sizes of the smallest text.
pub(crate) fn sizes(text: &SmallestText) -> [f64; 3] {
    [text.crisp_em, text.good_em, text.readable_em]
}

/// As [`mark::typeface_shares`].
#[wasm_bindgen]
pub fn typeface_shares(
    typeface: u32,
    stem: f64,
    effective_stroke: f64,
    effective_counter: f64,
    effective_gap: f64,
) -> u32 {
    let shares = || -> Result<_, Error> {
        let typeface =
            Typeface::from_code(typeface, stem, effective_stroke, effective_counter, effective_gap)?;
        mark::typeface_shares(typeface)
    };
    answer(shares().map(|s| {
        [
            s.cap_height,
            s.x_height,
            s.digit_height,
            s.stem,
            s.thinnest_stroke,
            s.smallest_counter,
            s.effective_stroke,
            s.effective_counter,
            s.effective_gap,
        ]
    }))
}

/// As [`mark::smallest_text`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn smallest_text(
    spot_diameter: f64,
    dose_ratio: f64,
    typeface: u32,
    stem: f64,
    effective_stroke: f64,
    effective_counter: f64,
    effective_gap: f64,
    crisp_exposure: f64,
    good_window: f64,
    readable_window: f64,
) -> u32 {
    let grades = TextGrades { crisp_exposure, good_window, readable_window };
    let text = || -> Result<_, Error> {
        let typeface =
            Typeface::from_code(typeface, stem, effective_stroke, effective_counter, effective_gap)?;
        mark::smallest_text(spot_diameter, dose_ratio, typeface, &grades)
    };
    answer(text().map(|text| sizes(&text)))
}

/// As [`mark::text_quality`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn text_quality(
    spot_diameter: f64,
    em: f64,
    dose_ratio: f64,
    typeface: u32,
    stem: f64,
    effective_stroke: f64,
    effective_counter: f64,
    effective_gap: f64,
    crisp_exposure: f64,
    good_window: f64,
    readable_window: f64,
) -> u32 {
    let grades = TextGrades { crisp_exposure, good_window, readable_window };
    let quality = || -> Result<_, Error> {
        let typeface =
            Typeface::from_code(typeface, stem, effective_stroke, effective_counter, effective_gap)?;
        mark::text_quality(spot_diameter, em, dose_ratio, typeface, &grades)
    };
    answer(quality().map(|q| {
        [
            f64::from(q.grade as u32),
            q.stem_exposure,
            q.least_dose_ratio,
            q.greatest_dose_ratio,
            q.greatest_dose_ratio_for_counters,
        ]
    }))
}

/// As [`mark::offset_for_text`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn offset_for_text(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    em: f64,
    text_grade: u32,
    dose_ratio: f64,
    typeface: u32,
    stem: f64,
    effective_stroke: f64,
    effective_counter: f64,
    effective_gap: f64,
    crisp_exposure: f64,
    good_window: f64,
    readable_window: f64,
) -> u32 {
    let grades = TextGrades { crisp_exposure, good_window, readable_window };
    let offset = || -> Result<_, Error> {
        let grade = TextGrade::from_code(text_grade)?;
        let typeface =
            Typeface::from_code(typeface, stem, effective_stroke, effective_counter, effective_gap)?;
        let beam = Beam { wavelength, m2, waist_diameter };
        mark::offset_for_text(&beam, em, grade, dose_ratio, typeface, &grades)
    };
    answer(offset().map(|o| [o.offset, o.spot_diameter, o.half_angle, flags(o.validity)]))
}
