//! Everything that widens the spot before the material sees it.

use crate::exchange::answer;
use spotwise::model::mark::{self, Blur};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::blur_budget`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn blur_budget(
    diameter_across: f64,
    diameter_along: f64,
    speed: f64,
    diffusivity: f64,
    pixel: f64,
    jitter_deviation: f64,
    rise_time: f64,
    switch_delay: f64,
) -> u32 {
    let blur = Blur {
        diameter_across,
        diameter_along,
        speed,
        diffusivity,
        pixel,
        jitter_deviation,
        rise_time,
        switch_delay,
    };
    answer(mark::blur_budget(&blur).map(|b| {
        [
            b.dwell,
            b.diffusion_length,
            b.diameter_across,
            b.diameter_along,
            b.edge_across,
            b.edge_along,
            b.rise_smear,
            b.delay_shift,
            b.two_way_comb,
        ]
    }))
}
