//! The beam from its widths at several heights.

use super::divergence::Divergence;
use super::estimate::Estimate;
use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::learn::{self, BeamWarnings, ReadingWeights};
use uom::si::f64::{Angle, Length};

/// The width of the beam at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamReading {
    /// Height from any one datum, at most 1000 m.
    pub height: Offset,
    /// Width of the beam there.
    pub width: BeamWidth,
    /// Standard deviation of its 1/e² (D4σ) **diameter**, 1e-12 to 10 m.
    pub deviation: Length,
}

/// How [`fit_beam`] fits. The default: refined weights, outliers beyond 3 deviations left out, 95 % confidence, widths of
/// the beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamFitOptions {
    /// How a reading weighs.
    pub weights: ReadingWeights,
    /// Standard deviations beyond which a reading is left out, from 2 on; +∞ keeps every one.
    pub outlier_limit: f64,
    /// Share of cases in which a range is to hold the truth, ½ to 1 − 1e-12.
    pub confidence: f64,
    /// Dose over threshold, if the widths are those of marks and it is known: the fit then says that they are no widths
    /// of the beam.
    pub mark_dose_ratio: Option<f64>,
}

impl Default for BeamFitOptions {
    fn default() -> Self {
        Self { weights: ReadingWeights::Refined, outlier_limit: 3.0, confidence: 0.95, mark_dose_ratio: None }
    }
}

/// A beam that fits a set of [`BeamReading`]s, as [`model::learn::BeamFit`](crate::model::learn::BeamFit).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamFit {
    /// Height of the waist from the datum of the readings.
    pub waist_z: Estimate<Offset, Length>,
    /// The waist; deviation and bias are of its 1/e² (D4σ) **diameter**.
    pub waist: Estimate<BeamWidth, Length>,
    /// Rayleigh range.
    pub rayleigh_range: Estimate<Length>,
    /// Divergence; deviation and bias are of its **full** angle.
    pub divergence: Estimate<Divergence, Angle>,
    /// Beam propagation ratio M²; below 1 it is flagged.
    pub m_squared: Estimate,
    /// Correlation of the height and the diameter of the waist.
    pub z_diameter_correlation: f64,
    /// Correlation of the height of the waist and the Rayleigh range.
    pub z_range_correlation: f64,
    /// Correlation of waist diameter and Rayleigh range.
    pub diameter_range_correlation: f64,
    /// χ²: squared residuals of the squared diameters by their weights.
    pub chi_squared: f64,
    /// Readings used less three.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² as great or greater.
    pub chi_squared_chance: f64,
    /// Chance of terms of third and fourth order as great or greater, if the widths do follow a hyperbola.
    pub higher_terms_chance: f64,
    /// How many readings were used.
    pub readings_used: u32,
    /// How many of them lie within one Rayleigh range of the waist.
    pub readings_near: u32,
    /// How many of them lie two Rayleigh ranges from the waist, or farther.
    pub readings_far: u32,
    /// What to be wary of; [`BeamWarnings::texts`] says it in sentences.
    pub warnings: BeamWarnings,
}

/// Waist, Rayleigh range, divergence and M² from the widths of a beam at several heights, with deviations, ranges and
/// warnings; widths of marks are told from widths of a beam where they can be. As
/// [`model::learn::fit_beam`](crate::model::learn::fit_beam), where method, sources and limits stand.
///
/// On return `residuals` holds for every reading the width read less that of the least-squares curve, and `used` says which were used.
///
/// # Errors
/// As there: [`Error::Undetermined`] where the readings cannot tell, by the name of what they lack.
///
/// # Example
/// ```
/// use spotwise::units::{m, mm, um};
/// use spotwise::{BeamFitOptions, BeamReading, BeamWidth, Offset, fit_beam};
/// // A beam of 80 µm in its waist at +0.1 mm, z_R = 4 mm: M² = π·80²/(4·1.064·4000) = 1.1810.
/// let mut readings = Vec::new();
/// for z in -5..=5 {
///     let z = 2.0 * f64::from(z);
///     let diameter = 80.0 * (1.0 + ((z - 0.1) / 4.0).powi(2)).sqrt();
///     readings.push(BeamReading {
///         height: Offset::from_z_away_from_lens(mm(z))?,
///         width: BeamWidth::from_diameter_1e2(um(diameter))?,
///         deviation: um(0.001),
///     });
/// }
/// let (mut residuals, mut used) = ([m(0.0); 11], [false; 11]);
/// let fit = fit_beam(&readings, um(1.064), &BeamFitOptions::default(), &mut residuals, &mut used)?;
/// assert_eq!((fit.waist.value.diameter_1e2().value * 1e9).round(), 80_000.0);
/// assert_eq!((fit.m_squared.value * 1e4).round(), 11_810.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "caustic")]
#[doc(alias = "ISO 11146")]
pub fn fit_beam(
    readings: &[BeamReading],
    wavelength: Length,
    options: &BeamFitOptions,
    residuals: &mut [Length],
    used: &mut [bool],
) -> Result<BeamFit, Error> {
    let at = |place: usize| {
        readings.get(place).map_or(NO_READING, |reading| learn::beam_fit::BeamReading {
            height: reading.height.metres(),
            diameter: reading.width.diameter_1e2().value,
            deviation: reading.deviation.value,
        })
    };
    let options = learn::BeamFitOptions {
        weights: options.weights,
        outlier_limit: options.outlier_limit,
        confidence: options.confidence,
        mark_dose_ratio: options.mark_dose_ratio.unwrap_or(0.0),
    };
    let count = readings.len();
    let fit = learn::beam_fit::fit_readings(count, at, wavelength.value, &options, residuals, length, used)?;
    Ok(BeamFit {
        waist_z: Estimate::of_length(fit.waist_z, Offset::from_metres),
        waist: Estimate::of_length(fit.waist_diameter, BeamWidth::computed),
        rayleigh_range: Estimate::of_length(fit.rayleigh_range, length),
        divergence: Estimate::of(fit.divergence_full_angle, Divergence::from_radians_full, angle),
        m_squared: Estimate::of_number(fit.m2),
        z_diameter_correlation: fit.z_diameter_correlation,
        z_range_correlation: fit.z_range_correlation,
        diameter_range_correlation: fit.diameter_range_correlation,
        chi_squared: fit.chi_squared,
        degrees_of_freedom: fit.degrees_of_freedom,
        chi_squared_chance: fit.chi_squared_chance,
        higher_terms_chance: fit.higher_terms_chance,
        readings_used: fit.readings_used,
        readings_near: fit.readings_near,
        readings_far: fit.readings_far,
        warnings: fit.warnings,
    })
}

/// What no place of the readings holds.
const NO_READING: learn::beam_fit::BeamReading =
    learn::beam_fit::BeamReading { height: f64::NAN, diameter: f64::NAN, deviation: f64::NAN };
