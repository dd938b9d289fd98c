//! Power and speed that make up for a known defocus.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::mark::{self, CompensationRule, MarkKind, MarkSetting};
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::compensate`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn compensate(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    z_offset: f64,
    rule: u32,
    mark_kind: u32,
    dose_ratio: f64,
    power: f64,
    speed: f64,
    greatest_power: f64,
    least_speed: f64,
    greatest_speed: f64,
    least_irradiance_ratio: f64,
) -> u32 {
    let made_up = || -> Result<_, Error> {
        let rule = CompensationRule::from_code(rule)?;
        let kind = MarkKind::from_code(mark_kind)?;
        let setting = MarkSetting {
            kind,
            dose_ratio,
            power,
            speed,
            greatest_power,
            least_speed,
            greatest_speed,
            least_irradiance_ratio,
        };
        mark::compensate(&Beam { wavelength, m2, waist_diameter }, z_offset, rule, &setting)
    };
    answer(made_up().map(|c| {
        [
            c.wanted_factor,
            c.reached_factor,
            c.power,
            c.speed,
            c.irradiance_ratio,
            c.dose_ratio,
            c.mark_width,
            f64::from(c.limits.bits()),
            c.half_angle,
            flags(c.validity),
        ]
    }))
}
