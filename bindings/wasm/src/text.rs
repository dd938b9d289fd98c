//! Quantities as text, and texts about the package.

use crate::exchange::{answer, status};
use spotwise::text::{AngleText, LengthText, parse_angle, parse_length};
use spotwise::{Error, Param};
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

/// Refuses a distance from the waist that is negative or not a finite number: its direction is
/// in the name of the TypeScript function that takes it, so that a sign would say it twice.
#[wasm_bindgen]
pub fn distance(value: f64) -> u32 {
    let param = Param::ZOffset;
    let (least, (_, greatest)) = (0.0, param.range());
    status(if !value.is_finite() {
        Err(Error::NotFinite { param, value })
    } else if value < least || value > greatest {
        Err(Error::OutOfRange { param, value, least, greatest })
    } else {
        Ok(())
    })
}

/// Version of the package and of the model in it.
#[wasm_bindgen]
#[must_use]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}

/// As [`spotwise::CAUTIONS`].
#[wasm_bindgen]
#[must_use]
pub fn caution() -> String {
    spotwise::CAUTIONS.trim_end().to_owned()
}
