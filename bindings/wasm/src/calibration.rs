//! What test pieces told of a machine, in the terms in which jobs are checked.

use crate::exchange::{answer, flags};
use spotwise::model::learn::{self, LearnedFocus, LearnedLine, MarkedLines, SeriesFindings};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`learn::calibrated_set_up`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn calibrated_set_up(
    wavelength: f64,
    measured_m2: f64,
    m2_deviation: f64,
    waist_diameter: f64,
    focal_length: f64,
    focus_shift: f64,
    focus_deviation: f64,
    coverage_factor_95: f64,
) -> u32 {
    let learned = LearnedFocus {
        wavelength,
        measured_m2,
        m2_deviation,
        waist_diameter,
        focal_length,
        focus_shift,
        focus_deviation,
        coverage_factor_95,
    };
    answer(learn::calibrated_set_up(&learned).map(|set_up| {
        [
            set_up.m2,
            set_up.raw_waist_diameter,
            set_up.waist_to_lens,
            set_up.diameter_at_lens,
            set_up.rayleigh_range,
            set_up.focus_deviation,
            set_up.half_angle,
            flags(set_up.validity),
        ]
    }))
}

/// As [`learn::learned_threshold`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn learned_threshold(
    power: f64,
    speed: f64,
    waist_diameter: f64,
    waist_diameter_deviation: f64,
    dose_ratio: f64,
    relative_dose_ratio_deviation: f64,
    correlation: f64,
    coverage_factor_95: f64,
) -> u32 {
    let learned = LearnedLine {
        power,
        speed,
        waist_diameter,
        waist_diameter_deviation,
        dose_ratio,
        relative_dose_ratio_deviation,
        correlation,
        coverage_factor_95,
    };
    answer(learn::learned_threshold(&learned).map(|learned| [learned.threshold, learned.relative_deviation]))
}

/// As [`learn::calibration_from_marks`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn calibration_from_marks(
    waist_z: f64,
    waist_z_deviation: f64,
    waist_diameter: f64,
    waist_diameter_deviation: f64,
    m2: f64,
    m2_deviation: f64,
    dose_ratio: f64,
    dose_ratio_deviation: f64,
    correlation: f64,
    range_factor: f64,
    degrees_of_freedom: f64,
    wavelength: f64,
    focal_length: f64,
    power: f64,
    speed: f64,
) -> u32 {
    let findings = SeriesFindings {
        waist_z,
        waist_z_deviation,
        waist_diameter,
        waist_diameter_deviation,
        m2,
        m2_deviation,
        dose_ratio,
        dose_ratio_deviation,
        correlation,
        range_factor,
        // What is no whole number has no factor.
        degrees_of_freedom: degrees_of_freedom as u32,
    };
    let lines = MarkedLines { wavelength, focal_length, power, speed };
    answer(learn::calibration_from_marks(&findings, &lines).map(|learned| {
        let (focus, line) = (learned.focus, learned.line);
        [
            learned.focus_z,
            focus.wavelength,
            focus.measured_m2,
            focus.m2_deviation,
            focus.waist_diameter,
            focus.focal_length,
            focus.focus_shift,
            focus.focus_deviation,
            focus.coverage_factor_95,
            line.power,
            line.speed,
            line.waist_diameter_deviation,
            line.dose_ratio,
            line.relative_dose_ratio_deviation,
            line.correlation,
        ]
    }))
}
