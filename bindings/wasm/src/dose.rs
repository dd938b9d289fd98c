//! How much energy a scan puts on the surface.

use crate::exchange::answer;
use spotwise::model::mark::{self, Scan, ScanDose};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::scan_dose`].
#[wasm_bindgen]
pub fn scan_dose(
    power: f64,
    speed: f64,
    diameter_across: f64,
    diameter_along: f64,
    line_interval: f64,
) -> u32 {
    let scan = Scan { power, speed, diameter_across, diameter_along, line_interval };
    answer(mark::scan_dose(&scan).map(|dose| layout(&dose)))
}

/// The four outputs of a scan's dose.
pub(crate) fn layout(d: &ScanDose) -> [f64; 4] {
    [d.line_dose, d.fill_dose, d.peak_irradiance, d.dwell]
}

/// As [`mark::pulse_dose`].
#[wasm_bindgen]
pub fn pulse_dose(
    power: f64,
    speed: f64,
    diameter_across: f64,
    diameter_along: f64,
    line_interval: f64,
    repetition_rate: f64,
) -> u32 {
    let scan = Scan { power, speed, diameter_across, diameter_along, line_interval };
    answer(mark::pulse_dose(&scan, repetition_rate).map(|p| {
        [p.pulse_energy, p.peak_fluence, p.pulse_pitch, p.overlap, p.pulses_per_diameter, p.effective_pulses]
    }))
}

/// As [`mark::dose_over_threshold`].
#[wasm_bindgen]
pub fn dose_over_threshold(dose: f64, threshold: f64) -> u32 {
    answer(mark::dose_over_threshold(dose, threshold).map(|ratio| [ratio]))
}

/// As [`mark::line_interval`].
#[wasm_bindgen]
pub fn line_interval(dots_per_inch: f64) -> u32 {
    answer(mark::line_interval(dots_per_inch).map(|interval| [interval]))
}

/// As [`mark::dots_per_inch`].
#[wasm_bindgen]
pub fn dots_per_inch(line_interval: f64) -> u32 {
    answer(mark::dots_per_inch(line_interval).map(|density| [density]))
}
