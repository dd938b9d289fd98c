//! Focus, spot and dose from the user's own marks at stepped heights.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::learn::{self, MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter};
use spotwise::model::mark::MarkKind;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`learn::fit_mark_widths`], for any number of marks; `used` says with 1 which of them were used.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn fit_mark_widths(
    heights: &[f64],
    widths: &[f64],
    deviations: &[f64],
    power_ratios: &[f64],
    mark_kind: u32,
    wavelength: f64,
    m2: f64,
    relative_m2_deviation: f64,
    waist_diameter: f64,
    relative_waist_diameter_deviation: f64,
    outlier_limit: f64,
    confidence: f64,
    scatter: u32,
    residuals: &mut [f64],
    used: &mut [u8],
) -> u32 {
    let mut which = vec![false; used.len()];
    let mut fitted = || -> Result<_, Error> {
        let kind = MarkKind::from_code(mark_kind)?;
        let scatter = WidthScatter::from_code(scatter)?;
        let marks = SeriesMarks { heights, widths, deviations, power_ratios };
        let known = SeriesKnown {
            kind,
            wavelength,
            m2,
            relative_m2_deviation,
            waist_diameter,
            relative_waist_diameter_deviation,
        };
        let options = MarkFitOptions { outlier_limit, confidence, scatter };
        learn::fit_mark_widths(&marks, &known, &options, residuals, &mut which)
    };
    let fit = fitted();
    for (byte, which) in used.iter_mut().zip(which) {
        *byte = u8::from(which);
    }
    answer(fit.map(|f| {
        let [z, d, r, q, m] = [f.waist_z, f.waist_diameter, f.rayleigh_range, f.dose_ratio, f.m2]
            .map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias]);
        let [zd, zr, zq, dr, dq, rq] = f.correlations;
        let bits = |bits: u32| f64::from(bits);
        let tail = [
            f.range_factor,
            f.chi_squared,
            f64::from(f.degrees_of_freedom),
            f.chance,
            f.shape_significance,
            f64::from(f.marks_used),
            f64::from(f.vanished_used),
            bits(f.cautions.bits()),
            bits(f.further.bits()),
        ];
        let mut all = [f64::NAN; 40];
        let numbers = [z, d, r, q, m].into_iter().flatten().chain([zd, zr, zq, dr, dq, rq]).chain(tail);
        for (place, number) in all.iter_mut().zip(numbers) {
            *place = number;
        }
        all
    }))
}
