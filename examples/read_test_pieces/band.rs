//! The curve of a fit, by least squares, as its residuals count from it: the numbers of the report have their bias taken
//! off, which would move the curve away from the readings. And how far it may be off at a height: errors carried from the fit's parameters to first order
//! (JCGM 100:2008, 5.2, from memory), with slopes by central differences.

use spotwise::units::m;
use spotwise::uom::si::f64::Length;
use spotwise::{Beam, BeamFit, Error, Estimate, MarkFit, MarkKind, Offset, Ranged};
use std::f64::consts::FRAC_PI_4;

/// Share of a deviation by which a parameter is moved to see the slope.
const STEP: f64 = 1e-3;

/// Width of the mark at a height, and half the width of the fit's range about it.
pub fn width_of(fit: &MarkFit, surface: Offset, power_ratio: f64) -> Result<(Length, Length), Error> {
    let (waist, range, dose) = (&fit.waist, &fit.rayleigh_range, &fit.dose_ratio);
    let diameter = waist.value.diameter_1e2();
    // In the order of the correlations: height of the waist, and the logarithms of diameter, range and dose ratio.
    let deviations = [
        fit.waist_height.deviation.value,
        (waist.deviation / diameter).value,
        (range.deviation / range.value).value,
        dose.deviation / dose.value,
    ];
    let width = |[moved, wider, longer, stronger]: [f64; 4]| {
        let beam = beam((diameter + waist.bias) * wider.exp(), (range.value + range.bias) * longer.exp())?;
        let dose_ratio = (dose.value + dose.bias) * power_ratio * stronger.exp();
        let from_waist = from_waist(surface, &fit.waist_height, moved)?;
        Ok(beam.mark_width(MarkKind::Line, dose_ratio, from_waist)?.width.value)
    };
    let [zd, zr, zq, dr, dq, rq] = fit.correlations;
    let correlations = [[1.0, zd, zr, zq], [zd, 1.0, dr, dq], [zr, dr, 1.0, rq], [zq, dq, rq, 1.0]];
    let (width, deviation) = carried(width, deviations, correlations)?;
    Ok((m(width), m(fit.range_factor * deviation)))
}

/// Diameter of the beam at a height, and half the width of the fit's range about it.
pub fn diameter_of(fit: &BeamFit, surface: Offset) -> Result<(Length, Length), Error> {
    let (waist, range) = (&fit.waist, &fit.rayleigh_range);
    let half_widths = [
        (fit.waist_z.greatest.z_away_from_lens() - fit.waist_z.value.z_away_from_lens()).value,
        (waist.greatest.diameter_1e2() - waist.value.diameter_1e2()).value,
        (range.greatest - range.value).value,
    ];
    let diameter = |[moved, wider, longer]: [f64; 3]| {
        let beam =
            beam(waist.value.diameter_1e2() + waist.bias + m(wider), range.value + range.bias + m(longer))?;
        let from_waist = from_waist(surface, &fit.waist_z, moved)?;
        Ok(beam.defocus(from_waist)?.spot.diameter_1e2().value)
    };
    let (zd, zr, dr) = (fit.z_diameter_correlation, fit.z_range_correlation, fit.diameter_range_correlation);
    let (diameter, half_width) =
        carried(diameter, half_widths, [[1.0, zd, zr], [zd, 1.0, dr], [zr, dr, 1.0]])?;
    Ok((m(diameter), m(half_width)))
}

/// The beam of a fit.
pub fn beam_of(fit: &BeamFit) -> Result<Beam, Error> {
    beam(fit.waist.value.diameter_1e2(), fit.rayleigh_range.value)
}

/// The beam of this waist and range. A caustic goes by the product of wavelength and M squared; written as that of
/// another wave with M squared 1 it is there also for one that noise has put below 1.
fn beam(diameter: Length, rayleigh_range: Length) -> Result<Beam, Error> {
    let wavelength = FRAC_PI_4 * diameter * (diameter / rayleigh_range);
    Beam::from_rayleigh_range(Ranged { wavelength, m_squared: 1.0, rayleigh_range })
}

/// Where the surface lies from the waist that least squares give, moved by so many metres.
fn from_waist(surface: Offset, waist: &Estimate<Offset, Length>, moved: f64) -> Result<Offset, Error> {
    let found = waist.value.z_away_from_lens() + waist.bias;
    Offset::from_z_away_from_lens(surface.z_away_from_lens() - found - m(moved))
}

/// A value where no parameter is moved, and how far it may be off when they are by so much.
fn carried<const N: usize>(
    value: impl Fn([f64; N]) -> Result<f64, Error>,
    deviations: [f64; N],
    correlations: [[f64; N]; N],
) -> Result<(f64, f64), Error> {
    let mut slopes = [0.0; N];
    for (place, (slope, deviation)) in slopes.iter_mut().zip(deviations).enumerate() {
        let moved = |by: f64| {
            let mut moved = [0.0; N];
            moved[place] = by * deviation;
            value(moved)
        };
        *slope = (moved(STEP)? - moved(-STEP)?) / (2.0 * STEP);
    }
    let mut variance = 0.0;
    for (one, row) in slopes.iter().zip(correlations) {
        for (other, correlation) in slopes.iter().zip(row) {
            variance += one * other * correlation;
        }
    }
    Ok((value([0.0; N])?, variance.max(0.0).sqrt()))
}
