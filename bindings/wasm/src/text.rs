//! Quantities as text, checks of signs that a name already tells, and texts about choices and the package.

use crate::exchange::{answer, status};
use spotwise::model::check::{Outcome, Reasons};
use spotwise::model::learn::{Ambiguities, FurtherTest, HeightVerdict, MarkCause};
use spotwise::model::learn::{BeamWarnings, ThresholdWarnings};
use spotwise::model::learn::{EyeWarnings, HeightLabel, SkipReason};
use spotwise::model::learn::{FurtherMarks, MarkFitCautions};
use spotwise::model::lens_choice::LensReasons;
use spotwise::model::mark::{CompensationLimits, TextGrades};
use spotwise::model::optics::Glass;
use spotwise::text::{
    AngleText, DiffusivityText, DoseText, LengthText, PowerText, ReciprocalLengthText, RemovalEnergyText,
    SpeedText, parse_angle, parse_diffusivity, parse_dose, parse_length, parse_power,
    parse_reciprocal_length, parse_removal_energy, parse_speed,
};
use spotwise::{Param, Validity, check_distance};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`parse_length`].
#[wasm_bindgen]
pub fn length(text: &str) -> u32 {
    answer(parse_length(text).map(|length| [length]))
}

/// As [`parse_angle`].
#[wasm_bindgen]
pub fn angle(text: &str) -> u32 {
    answer(parse_angle(text).map(|angle| [angle]))
}

/// As [`parse_reciprocal_length`].
#[wasm_bindgen]
pub fn curvature(text: &str) -> u32 {
    answer(parse_reciprocal_length(text).map(|curvature| [curvature]))
}

/// As [`parse_power`].
#[wasm_bindgen]
pub fn power(text: &str) -> u32 {
    answer(parse_power(text).map(|power| [power]))
}

/// As [`parse_speed`].
#[wasm_bindgen]
pub fn speed(text: &str) -> u32 {
    answer(parse_speed(text).map(|speed| [speed]))
}

/// As [`parse_dose`].
#[wasm_bindgen]
pub fn dose(text: &str) -> u32 {
    answer(parse_dose(text).map(|dose| [dose]))
}

/// As [`parse_diffusivity`].
#[wasm_bindgen]
pub fn diffusivity(text: &str) -> u32 {
    answer(parse_diffusivity(text).map(|diffusivity| [diffusivity]))
}

/// As [`parse_removal_energy`].
#[wasm_bindgen]
pub fn removal_energy(text: &str) -> u32 {
    answer(parse_removal_energy(text).map(|energy| [energy]))
}

/// As [`LengthText`].
#[wasm_bindgen]
#[must_use]
pub fn length_text(length: f64) -> String {
    LengthText(length).to_string()
}

/// As [`AngleText`].
#[wasm_bindgen]
#[must_use]
pub fn angle_text(angle: f64) -> String {
    AngleText(angle).to_string()
}

/// As [`ReciprocalLengthText`].
#[wasm_bindgen]
#[must_use]
pub fn curvature_text(curvature: f64) -> String {
    ReciprocalLengthText(curvature).to_string()
}

/// As [`PowerText`].
#[wasm_bindgen]
#[must_use]
pub fn power_text(power: f64) -> String {
    PowerText(power).to_string()
}

/// As [`SpeedText`].
#[wasm_bindgen]
#[must_use]
pub fn speed_text(speed: f64) -> String {
    SpeedText(speed).to_string()
}

/// As [`DoseText`].
#[wasm_bindgen]
#[must_use]
pub fn dose_text(dose: f64) -> String {
    DoseText(dose).to_string()
}

/// As [`DiffusivityText`].
#[wasm_bindgen]
#[must_use]
pub fn diffusivity_text(diffusivity: f64) -> String {
    DiffusivityText(diffusivity).to_string()
}

/// As [`RemovalEnergyText`].
#[wasm_bindgen]
#[must_use]
pub fn removal_energy_text(energy: f64) -> String {
    RemovalEnergyText(energy).to_string()
}

/// Refuses a distance from the waist that is negative or not a finite number: its direction is
/// in the name of the TypeScript function that takes it, so that a sign would say it twice.
#[wasm_bindgen]
pub fn distance(value: f64) -> u32 {
    status(check_distance(Param::ZOffset, value).map(drop))
}

/// As [`distance`], for the distance of the raw beam's waist from the lens.
#[wasm_bindgen]
pub fn distance_from_lens(value: f64) -> u32 {
    status(check_distance(Param::WaistToLens, value).map(drop))
}

/// Refuses a radius that is negative or not a finite number: which way the surface bulges is in the
/// name of the TypeScript function that takes it, so that a sign would say it twice.
#[wasm_bindgen]
pub fn radius_of_surface(value: f64) -> u32 {
    status(check_distance(Param::FirstRadius, value).map(drop))
}

/// Version of the package and of the model in it.
#[wasm_bindgen]
#[must_use]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}

/// As [`Glass::name`]; empty for a code that stands for none.
#[wasm_bindgen]
#[must_use]
pub fn glass_name(glass: u32) -> String {
    Glass::from_code(glass).map_or_else(|_| String::new(), |glass| glass.name().to_owned())
}

/// As [`Glass::source`]; empty for a code that stands for none.
#[wasm_bindgen]
#[must_use]
pub fn glass_source(glass: u32) -> String {
    Glass::from_code(glass).map_or_else(|_| String::new(), |glass| glass.source().to_owned())
}

/// As [`Glass::wavelengths`].
#[wasm_bindgen]
pub fn glass_wavelengths(glass: u32) -> u32 {
    answer(Glass::from_code(glass).map(|glass| {
        let (least, greatest) = glass.wavelengths();
        [least, greatest]
    }))
}

/// The sentence for an outcome's code; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn outcome_text(code: u32) -> String {
    Outcome::ALL
        .into_iter()
        .find(|outcome| *outcome as u32 == code)
        .map_or_else(String::new, |outcome| outcome.text().to_owned())
}

/// The sentence for one reason's bit; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn reason_text(bit: u32) -> String {
    Reasons::ALL
        .into_iter()
        .find(|(reason, _)| reason.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence for one bit of the warnings of a fit; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn beam_warning_text(bit: u32) -> String {
    BeamWarnings::ALL
        .into_iter()
        .find(|(warning, _)| warning.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence for one bit of the warnings of a fit of spot and threshold; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn threshold_warning_text(bit: u32) -> String {
    ThresholdWarnings::ALL
        .into_iter()
        .find(|(warning, _)| warning.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence for one bit of the reasons of a lens; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn lens_reason_text(bit: u32) -> String {
    LensReasons::ALL
        .into_iter()
        .find(|(reason, _)| reason.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence for one bit of the warnings of an eye's answer; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn eye_warning_text(bit: u32) -> String {
    EyeWarnings::ALL
        .into_iter()
        .find(|(warning, _)| warning.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// As [`HeightLabel::of`].
#[wasm_bindgen]
#[must_use]
pub fn height_label(z: f64) -> String {
    HeightLabel::of(z).as_str().to_owned()
}

/// The sentence for why a height of a series is left out; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn skip_reason_text(code: u32) -> String {
    SkipReason::ALL
        .into_iter()
        .find(|reason| *reason as u32 == code)
        .map_or_else(String::new, |reason| reason.text().to_owned())
}

/// The sentence for one bit of the cautions of a fit; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn mark_fit_caution_text(bit: u32) -> String {
    MarkFitCautions::ALL
        .into_iter()
        .find(|(caution, _)| caution.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence for one bit of the further marks that would help; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn further_marks_text(bit: u32) -> String {
    FurtherMarks::ALL
        .into_iter()
        .find(|(further, _)| further.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence for one limit's bit; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn limit_text(bit: u32) -> String {
    CompensationLimits::ALL
        .into_iter()
        .find(|(limit, _)| limit.bits() == bit)
        .map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The cut-offs with which the grades begin unless others are given.
#[wasm_bindgen]
pub fn default_text_grades() -> u32 {
    let TextGrades { crisp_exposure, good_window, readable_window } = TextGrades::default();
    answer(Ok([crisp_exposure, good_window, readable_window]))
}

/// The sentence of one flag of a [`Validity`], by its bit; empty for a bit that is none.
#[wasm_bindgen]
#[must_use]
pub fn validity_text(bit: u32) -> String {
    let flag = Validity::ALL.into_iter().find(|(flag, _)| flag.bits() == bit);
    flag.map_or_else(String::new, |(_, text)| text.to_owned())
}

/// Code of [`Validity::level`] for flags as bits.
#[wasm_bindgen]
#[must_use]
pub fn validity_level(bits: u32) -> u32 {
    Validity::from_bits(bits).level() as u32
}

/// As [`spotwise::CAUTIONS`].
#[wasm_bindgen]
#[must_use]
pub fn caution() -> String {
    spotwise::CAUTIONS.trim_end().to_owned()
}

/// The sentence of a cause; empty for a number that is none.
#[wasm_bindgen]
#[must_use]
pub fn cause_text(code: u32) -> String {
    let cause = MarkCause::ALL.into_iter().find(|cause| *cause as u32 == code);
    cause.map_or_else(String::new, |cause| cause.text().to_owned())
}

/// How to make a further test; empty for a number that is none.
#[wasm_bindgen]
#[must_use]
pub fn further_test_text(code: u32) -> String {
    let test = FurtherTest::ALL.into_iter().find(|test| *test as u32 == code);
    test.map_or_else(String::new, |test| test.text().to_owned())
}

/// The sentence for one bit of what stays open; empty for any other number.
#[wasm_bindgen]
#[must_use]
pub fn ambiguity_text(bit: u32) -> String {
    let ambiguity = Ambiguities::ALL.into_iter().find(|(ambiguity, _)| ambiguity.bits() == bit);
    ambiguity.map_or_else(String::new, |(_, text)| text.to_owned())
}

/// The sentence of a verdict on three heights; empty for a number that is none.
#[wasm_bindgen]
#[must_use]
pub fn height_verdict_text(code: u32) -> String {
    let verdict = HeightVerdict::ALL.into_iter().find(|verdict| *verdict as u32 == code);
    verdict.map_or_else(String::new, |verdict| verdict.text().to_owned())
}
