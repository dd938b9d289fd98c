//! Focus, spot and dose from the user's own marks at stepped heights.

use super::estimate::Estimate;
use super::length;
use super::offset::Offset;
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::learn::{self, FurtherMarks, MarkFitCautions, WidthScatter, mark_fit};
use crate::model::mark::MarkKind;
use uom::si::f64::Length;

/// One mark of a series at stepped heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesMark {
    /// Height of the surface, from any one datum.
    pub height: Offset,
    /// Width of the line, or **diameter** of the dot, 1e-9 to 10 m; `None` for a mark that vanished.
    pub width: Option<Length>,
    /// Standard deviation of the width, 1e-12 to 10 m; of a mark that vanished, the width that might have been
    /// overlooked.
    pub deviation: Length,
    /// Power over the power of reference, 0.001 to 1000; 1 in a series at one power.
    pub power_ratio: f64,
}

/// A value that is known beforehand, and how well.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prior<Value> {
    /// The value.
    pub value: Value,
    /// Its standard deviation over itself, 1e-6 to 10.
    pub relative_deviation: f64,
}

/// What is known of a series of marks before they are read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesKnown {
    /// What makes the marks.
    pub kind: MarkKind,
    /// Vacuum wavelength.
    pub wavelength: Length,
    /// Beam propagation ratio M², if known. A rough one helps much.
    pub m_squared: Option<Prior<f64>>,
    /// The waist, if known, with the deviation of its diameter.
    pub waist: Option<Prior<BeamWidth>>,
}

/// How a [`MarkFit`] is to judge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkFitOptions {
    /// Deviations beyond which a mark is left out, from 2 on; 3 is usual, +∞ keeps every mark.
    pub outlier_limit: f64,
    /// Share of cases in which each range is to hold the truth, 0.5 to 1 − 1e-12.
    pub confidence: f64,
    /// What the stated deviations are worth.
    pub scatter: WidthScatter,
}

/// What a series of marks tells, as [`model::learn::MarkFit`](crate::model::learn::MarkFit).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkFit {
    /// Height of the waist, from the datum of the heights.
    pub waist_height: Estimate<Offset, Length>,
    /// The waist.
    pub waist: Estimate<BeamWidth, Length>,
    /// Rayleigh range.
    pub rayleigh_range: Estimate<Length>,
    /// Dose over threshold in the waist, at the power of reference.
    pub dose_ratio: Estimate,
    /// M².
    pub m_squared: Estimate,
    /// Correlations of height, ln d, ln zR and ln q in the order (z, d), (z, zR), (z, q), (d, zR), (d, q), (zR, q).
    pub correlations: [f64; 6],
    /// Half width of a range over the deviation.
    pub range_factor: f64,
    /// χ².
    pub chi_squared: f64,
    /// Marks seen and used, and what was known before, less four.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² so great or greater.
    pub chance: f64,
    /// By how many deviations the widths change with height.
    pub shape_significance: f64,
    /// How many marks were used that were seen.
    pub marks_used: u32,
    /// How many marks were used that vanished.
    pub vanished_used: u32,
    /// What to beware of.
    pub cautions: MarkFitCautions,
    /// Which further marks would make the answer better.
    pub further: FurtherMarks,
}

/// Focus, spot, Rayleigh range and dose from the widths of marks at stepped heights; `used` says on return which
/// marks were used, `residuals` by how many deviations each is wider than the fit. As
/// [`model::learn::fit_mark_widths`](crate::model::learn::fit_mark_widths).
///
/// Where spot and dose are hard to tell apart, a range goes as far as the marks allow, and may be open: to 0 for the waist
/// and M², to 1 for the dose ratio, or to the greatest that the model knows.
///
/// # Errors
/// As there: [`Error::Undetermined`] where the marks cannot tell, with what would help in its sentence.
///
/// # Example
/// ```
/// use spotwise::units::{mm, um};
/// use spotwise::{MarkFitOptions, MarkKind, Offset, SeriesKnown, SeriesMark, WidthScatter, fit_mark_widths};
/// // Lines of a spot of 80 µm, zR = 0.4 mm, in focus at the datum, 4 times the threshold: b = 80·u·√(ln(4/u)/2) µm.
/// let mut marks = Vec::new();
/// for step in -5..=5 {
///     let z = 0.2 * f64::from(step);
///     let u = 1.0_f64.hypot(z / 0.4);
///     marks.push(SeriesMark {
///         height: Offset::from_z_away_from_lens(mm(z))?,
///         width: Some(um(80.0 * u * ((4.0 / u).ln() / 2.0).sqrt())),
///         deviation: um(0.001),
///         power_ratio: 1.0,
///     });
/// }
/// let known = SeriesKnown { kind: MarkKind::Line, wavelength: um(10.6), m_squared: None, waist: None };
/// let options = MarkFitOptions { outlier_limit: 3.0, confidence: 0.95, scatter: WidthScatter::Stated };
/// let fit = fit_mark_widths(&marks, &known, &options, &mut [0.0; 11], &mut [false; 11])?;
/// assert_eq!((fit.waist.value.diameter_1e2().value * 1e12).round(), 80_000_000.0);
/// assert!(fit.waist_height.value.distance() < mm(1e-9));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "focus ladder")]
pub fn fit_mark_widths(
    marks: &[SeriesMark],
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    let at = |index: usize| {
        marks.get(index).map_or(NO_MARK, |mark| mark_fit::Mark {
            height: mark.height.metres(),
            width: mark.width.map_or(0.0, |width| width.value),
            deviation: mark.deviation.value,
            power_ratio: mark.power_ratio,
        })
    };
    let model_known = learn::SeriesKnown {
        kind: known.kind,
        wavelength: known.wavelength.value,
        m2: known.m_squared.map_or(f64::NAN, |prior| prior.value),
        relative_m2_deviation: known.m_squared.map_or(f64::INFINITY, |prior| prior.relative_deviation),
        waist_diameter: known.waist.map_or(f64::NAN, |prior| prior.value.diameter_1e2().value),
        relative_waist_diameter_deviation: known
            .waist
            .map_or(f64::INFINITY, |prior| prior.relative_deviation),
    };
    let model_options = learn::MarkFitOptions {
        outlier_limit: options.outlier_limit,
        confidence: options.confidence,
        scatter: options.scatter,
    };
    let fit = mark_fit::fit_series(marks.len(), at, &model_known, &model_options, residuals, used)?;
    Ok(MarkFit {
        waist_height: Estimate::of_length(fit.waist_z, Offset::from_metres),
        waist: Estimate::of_length(fit.waist_diameter, BeamWidth::computed),
        rayleigh_range: Estimate::of_length(fit.rayleigh_range, length),
        dose_ratio: Estimate::of_number(fit.dose_ratio),
        m_squared: Estimate::of_number(fit.m2),
        correlations: fit.correlations,
        range_factor: fit.range_factor,
        chi_squared: fit.chi_squared,
        degrees_of_freedom: fit.degrees_of_freedom,
        chance: fit.chance,
        shape_significance: fit.shape_significance,
        marks_used: fit.marks_used,
        vanished_used: fit.vanished_used,
        cautions: fit.cautions,
        further: fit.further,
    })
}

/// What no place of the marks holds.
const NO_MARK: mark_fit::Mark =
    mark_fit::Mark { height: f64::NAN, width: f64::NAN, deviation: f64::NAN, power_ratio: f64::NAN };
