//! How far a fitted curve may be off at a height: errors carried from the fit's parameters to first order
//! (JCGM 100:2008, 5.2, from memory), with slopes by central differences.

use crate::series_file::Series;
use spotwise::units::m;
use spotwise::uom::si::f64::Length;
use spotwise::{Beam, Error, MarkFit, MarkKind, Offset, Ranged};

/// Share of a deviation by which a parameter is moved to see the slope.
const STEP: f64 = 1e-3;

/// Width of the mark at a height, and its standard deviation as far as the fit's parameters make it.
pub fn width_of(
    series: &Series,
    fit: &MarkFit,
    surface: Offset,
    power_ratio: f64,
) -> Result<(Length, Length), Error> {
    // In the order of the correlations: height of the waist, and the logarithms of diameter, range and dose ratio.
    let deviations = [
        fit.waist_height.deviation.value,
        fit.waist.deviation.value / fit.waist.value.diameter_1e2().value,
        (fit.rayleigh_range.deviation / fit.rayleigh_range.value).value,
        fit.dose_ratio.deviation / fit.dose_ratio.value,
    ];
    let width = |moved: [f64; 4]| -> Result<f64, Error> {
        let [waist, diameter, range, dose] = moved;
        // The caustic goes by the product of wavelength and M squared: d squared over the Rayleigh range.
        let wavelength = series.laser.wavelength * fit.m_squared.value * (2.0 * diameter - range).exp();
        let rayleigh_range = fit.rayleigh_range.value * range.exp();
        let beam = Beam::from_rayleigh_range(Ranged { wavelength, m_squared: 1.0, rayleigh_range })?;
        let from_waist = surface.z_away_from_lens() - fit.waist_height.value.z_away_from_lens() - m(waist);
        let dose_ratio = fit.dose_ratio.value * power_ratio * dose.exp();
        let from_waist = Offset::from_z_away_from_lens(from_waist)?;
        Ok(beam.mark_width(MarkKind::Line, dose_ratio, from_waist)?.width.value)
    };
    let mut by_deviation = [0.0; 4];
    for (place, (slope, deviation)) in by_deviation.iter_mut().zip(deviations).enumerate() {
        let moved = |by: f64| {
            let mut moved = [0.0; 4];
            moved[place] = by * deviation;
            width(moved)
        };
        *slope = (moved(STEP)? - moved(-STEP)?) / (2.0 * STEP);
    }
    let mut variance = 0.0;
    for (one, a) in by_deviation.iter().enumerate() {
        for (other, b) in by_deviation.iter().enumerate() {
            variance += a * b * correlation(&fit.correlations, one, other);
        }
    }
    Ok((m(width([0.0; 4])?), m(variance.max(0.0).sqrt())))
}

/// Of the six that a fit tells: (0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3).
fn correlation(told: &[f64; 6], one: usize, other: usize) -> f64 {
    match (one.min(other), one.max(other)) {
        (0, 0) | (1, 1) | (2, 2) | (3, 3) => 1.0,
        (0, at) => told[at - 1],
        (1, at) => told[at + 1],
        _ => told[5],
    }
}
