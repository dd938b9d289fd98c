//! Dots in a row, craters and grooves.

use crate::exchange::answer;
use spotwise::model::mark;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::pulsed_line`].
#[wasm_bindgen]
pub fn pulsed_line(
    spot_diameter: f64,
    dose_ratio: f64,
    pulse_pitch: f64,
    incubation: f64,
    pulses: f64,
) -> u32 {
    answer(mark::pulsed_line(spot_diameter, dose_ratio, pulse_pitch, incubation, pulses).map(|l| {
        [
            f64::from(l.marks),
            l.threshold_ratio,
            l.dose_ratio,
            l.dot_diameter,
            f64::from(l.connected),
            l.scallop,
        ]
    }))
}

/// As [`mark::crater`].
#[wasm_bindgen]
pub fn crater(spot_diameter: f64, dose_ratio: f64, penetration_depth: f64, radius: f64) -> u32 {
    answer(
        mark::crater(spot_diameter, dose_ratio, penetration_depth, radius)
            .map(|c| [c.diameter, c.depth, c.depth_at_radius, c.volume]),
    )
}

/// As [`mark::groove`].
#[wasm_bindgen]
pub fn groove(
    spot_diameter: f64,
    dose_ratio: f64,
    penetration_depth: f64,
    pulse_pitch: f64,
    aside: f64,
) -> u32 {
    answer(
        mark::groove(spot_diameter, dose_ratio, penetration_depth, pulse_pitch, aside)
            .map(|g| [g.width, g.depth, g.depth_aside, g.area]),
    )
}

/// As [`mark::connected_speed`].
#[wasm_bindgen]
pub fn connected_speed(
    spot_diameter: f64,
    dose_ratio: f64,
    repetition_rate: f64,
    incubation: f64,
    scallop: f64,
) -> u32 {
    answer(
        mark::connected_speed(spot_diameter, dose_ratio, repetition_rate, incubation, scallop)
            .map(|fastest| [fastest.pulse_pitch, fastest.pulses, fastest.speed]),
    )
}
