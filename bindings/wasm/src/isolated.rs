//! The mark of one pulse or line by itself.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::mark::{self, MarkKind};
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`mark::mark_width`].
#[wasm_bindgen]
pub fn mark_width(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    mark_kind: u32,
    dose_ratio: f64,
    z_offset: f64,
) -> u32 {
    let width = || -> Result<_, Error> {
        let kind = MarkKind::from_code(mark_kind)?;
        mark::mark_width(&Beam { wavelength, m2, waist_diameter }, kind, dose_ratio, z_offset)
    };
    answer(width().map(|m| {
        [f64::from(m.marks), m.width, m.dose_ratio, m.spot_diameter, m.half_angle, flags(m.validity)]
    }))
}

/// As [`mark::mark_limits`].
#[wasm_bindgen]
pub fn mark_limits(wavelength: f64, m2: f64, waist_diameter: f64, mark_kind: u32, dose_ratio: f64) -> u32 {
    let limits = || -> Result<_, Error> {
        let kind = MarkKind::from_code(mark_kind)?;
        mark::mark_limits(&Beam { wavelength, m2, waist_diameter }, kind, dose_ratio)
    };
    answer(limits().map(|l| {
        [
            f64::from(l.marks),
            l.width_in_waist,
            l.widest_offset,
            l.greatest_width,
            l.vanishing_offset,
            l.focus_insensitive_dose_ratio,
            l.half_angle,
            flags(l.validity),
        ]
    }))
}
