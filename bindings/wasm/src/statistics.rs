//! Student's t and χ².

use crate::exchange::answer;
use spotwise::model::learn;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`learn::student_factor`].
#[wasm_bindgen]
pub fn student_factor(confidence: f64, degrees_of_freedom: f64) -> u32 {
    answer(learn::student_factor(confidence, degrees_of_freedom).map(|factor| [factor]))
}

/// As [`learn::chi_squared_chance`].
#[wasm_bindgen]
pub fn chi_squared_chance(chi_squared: f64, degrees_of_freedom: f64) -> u32 {
    answer(learn::chi_squared_chance(chi_squared, degrees_of_freedom).map(|chance| [chance]))
}
