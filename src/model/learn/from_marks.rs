//! From a fit of marks to a calibration: what a series of lines told, in the terms in which a calibrated set-up takes it.
//!
//! Numbers are handed on as they are, but for the deviation of the dose ratio, which is wanted over the ratio: that of its
//! logarithm. What is new here is a check: a calibration needs the factor of a 95 % range, and so the ranges of the fit must
//! be such.

use super::calibration::{LearnedFocus, LearnedLine, NORMAL_FACTOR_95};
use super::mark_fit::MarkFit;
use super::statistics::student_factor;
use crate::error::{Error, Param, check};
use crate::model::math;

/// What a fit of marks told, as far as a calibration needs it: [`From`] a [`MarkFit`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesFindings {
    /// Height of the waist in metres, from the datum of the heights, + away from the lens.
    pub waist_z: f64,
    /// Its standard deviation in metres.
    pub waist_z_deviation: f64,
    /// Waist **diameter** in metres, 1/e².
    pub waist_diameter: f64,
    /// Its standard deviation in metres.
    pub waist_diameter_deviation: f64,
    /// M²; it may be below 1 by noise.
    pub m2: f64,
    /// Its standard deviation.
    pub m2_deviation: f64,
    /// Dose over threshold in the waist.
    pub dose_ratio: f64,
    /// Its standard deviation.
    pub dose_ratio_deviation: f64,
    /// Correlation of the logarithms of waist diameter and dose ratio.
    pub correlation: f64,
    /// Half width of a range over the deviation, for a confidence of 95 %.
    pub range_factor: f64,
    /// Degrees of freedom of the fit.
    pub degrees_of_freedom: u32,
}

impl From<&MarkFit> for SeriesFindings {
    fn from(fit: &MarkFit) -> Self {
        let [_, _, _, _, correlation, _] = fit.correlations;
        Self {
            waist_z: fit.waist_z.value,
            waist_z_deviation: fit.waist_z.deviation,
            waist_diameter: fit.waist_diameter.value,
            waist_diameter_deviation: fit.waist_diameter.deviation,
            m2: fit.m2.value,
            m2_deviation: fit.m2.deviation,
            dose_ratio: fit.dose_ratio.value,
            dose_ratio_deviation: fit.dose_ratio.deviation,
            correlation,
            range_factor: fit.range_factor,
            degrees_of_freedom: fit.degrees_of_freedom,
        }
    }
}

/// How the lines of a series were marked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkedLines {
    /// Vacuum wavelength in metres.
    pub wavelength: f64,
    /// Focal length of the lens in metres, at the working wavelength.
    pub focal_length: f64,
    /// Power of reference on the surface in watts, averaged over pulses.
    pub power: f64,
    /// Speed along the lines in m/s.
    pub speed: f64,
}

/// What a series of lines told of a machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedMachine {
    /// Height of focus in metres, from the datum of the heights of the marks, + away from the lens.
    pub focus_z: f64,
    /// Beam and focus, for [`calibrated_set_up`](super::calibrated_set_up).
    pub focus: LearnedFocus,
    /// The line in the waist, for [`learned_threshold`](super::learned_threshold).
    pub line: LearnedLine,
}

/// Relative difference within which a factor is the one that is wanted; that of the wrong confidence differs by more.
const SAME: f64 = 1e-9;

/// What a fit of lines tells of a machine: the step from [`fit_mark_widths`](super::fit_mark_widths) to
/// [`calibrated_set_up`](super::calibrated_set_up) and [`learned_threshold`](super::learned_threshold).
///
/// The waist is taken to lie in the focal point of the lens: a series of marks does not tell how far the lens is. Marks of
/// single pulses tell beam and focus as well, but no line: their power and speed mean nothing.
///
/// Accuracy: numbers are handed on; the relative deviation of the dose ratio is correctly rounded
/// (`tests/vectors/calibration_from_marks.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for what was found, in the order of the fields, then for the lines.
/// [`Param::CoverageFactor95`] is named where the ranges of the fit are not those of 95 %: neither those of a normal law nor
/// those of Student's t with its degrees of freedom. The fit was asked for another confidence then.
///
/// # Example
/// ```
/// use spotwise::model::learn::{
///     MarkedLines, NORMAL_FACTOR_95, SeriesFindings, calibration_from_marks, learned_threshold,
/// };
/// let findings = SeriesFindings {
///     waist_z: 0.23e-3,
///     waist_z_deviation: 20e-6,
///     waist_diameter: 95e-6,
///     waist_diameter_deviation: 1.5e-6,
///     m2: 1.2,
///     m2_deviation: 0.05,
///     dose_ratio: 4.2,
///     dose_ratio_deviation: 0.126,
///     correlation: -0.6,
///     range_factor: NORMAL_FACTOR_95,
///     degrees_of_freedom: 7,
/// };
/// let lines = MarkedLines { wavelength: 10.6e-6, focal_length: 38.1e-3, power: 18.0, speed: 0.4 };
/// let learned = calibration_from_marks(&findings, &lines)?;
/// assert_eq!((learned.focus_z, learned.focus.measured_m2), (0.23e-3, 1.2));
/// // 0.126/4.2 = 0.03; √(2/π)·18/(0.4·47.5e-6)/4.2 = 179 974 J/m²
/// assert_eq!(learned.line.relative_dose_ratio_deviation, 0.03);
/// assert_eq!(learned_threshold(&learned.line)?.threshold.round(), 179_974.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the calibration is the result"]
pub fn calibration_from_marks(
    findings: &SeriesFindings,
    lines: &MarkedLines,
) -> Result<LearnedMachine, Error> {
    let focus_z = check(Param::FocusZ, findings.waist_z)?;
    let focus_deviation = check(Param::FocusDeviation, findings.waist_z_deviation)?;
    let waist_diameter = check(Param::WaistDiameter, findings.waist_diameter)?;
    let waist_diameter_deviation = check(Param::WaistDiameterDeviation, findings.waist_diameter_deviation)?;
    let measured_m2 = check(Param::MeasuredM2, findings.m2)?;
    let m2_deviation = check(Param::M2Deviation, findings.m2_deviation)?;
    let dose_ratio = check(Param::DoseRatio, findings.dose_ratio)?;
    // The least of negative ones would lose its sign.
    let deviation = findings.dose_ratio_deviation;
    let relative_deviation = if deviation < 0.0 { deviation } else { deviation / dose_ratio };
    let relative_dose_ratio_deviation = check(Param::RelativeDoseRatioDeviation, relative_deviation)?;
    let correlation = check(Param::Correlation, findings.correlation)?;
    let coverage_factor_95 = factor_95(findings.range_factor, findings.degrees_of_freedom)?;
    let wavelength = check(Param::Wavelength, lines.wavelength)?;
    let focal_length = check(Param::FocalLength, lines.focal_length)?;
    let power = check(Param::Power, lines.power)?;
    let speed = check(Param::Speed, lines.speed)?;
    Ok(LearnedMachine {
        focus_z,
        focus: LearnedFocus {
            wavelength,
            measured_m2,
            m2_deviation,
            waist_diameter,
            focal_length,
            focus_shift: 0.0,
            focus_deviation,
            coverage_factor_95,
        },
        line: LearnedLine {
            power,
            speed,
            waist_diameter,
            waist_diameter_deviation,
            dose_ratio,
            relative_dose_ratio_deviation,
            correlation,
            coverage_factor_95,
        },
    })
}

/// Refuses a factor that is not one of 95 %.
fn factor_95(found: f64, degrees_of_freedom: u32) -> Result<f64, Error> {
    check(Param::CoverageFactor95, found)?;
    let is = |wanted: f64| math::fabs(found - wanted) <= SAME * wanted;
    if is(NORMAL_FACTOR_95) {
        return Ok(found);
    }
    let wanted = student_factor(0.95, f64::from(degrees_of_freedom))?;
    if is(wanted) {
        return Ok(found);
    }
    Err(Error::OutOfRange { param: Param::CoverageFactor95, value: found, least: wanted, greatest: wanted })
}
