//! Dose: how much energy a scan puts on each part of the surface.
//!
//! | symbol | meaning                                             | unit | valid        |
//! |--------|-----------------------------------------------------|------|--------------|
//! | P      | power on the surface, averaged over pulses          | W    | 1e-9 … 1e6   |
//! | v      | speed of the spot along the line                    | m/s  | 1e-9 … 1e4   |
//! | p      | line interval                                       | m    | 1e-9 … 1     |
//! | f      | repetition rate                                     | Hz   | 1e-3 … 1e12  |
//! | dₐ, d_l | spot **diameter** 1/e² across and along the line   | m    | 1e-9 … 10    |
//! | w      | half of either                                      | m    |              |
//! | H, H_t | dose, and the dose at which the material just marks | J/m² | 1e-12 … 1e18 |
//! | n      | lines (dots) to the inch                            | 1    | 0.0254 … 2.54e7 |
//!
//! peak line dose = √(2/π)·P/(v·wₐ), the dose on the middle of one line
//! mean fill dose = P/(v·p), whatever the spot
//! peak irradiance = 2·P/(π·wₐ·w_l)
//! dwell = √(π/2)·w_l/v, the time for which the peak irradiance would give the line dose
//! pulse energy = P/f, peak fluence = 2·E/(π·wₐ·w_l)
//! pulse pitch = v/f, overlap = 1 − pitch/d_l, negative where the dots do not touch
//! pulses per diameter = d_l/pitch; effective pulses = √(π/2)·w_l/pitch, by which the peak fluence of one
//! makes the line dose
//! dose ratio q = H/H_t
//! p = 25.4 mm/n, n = 25.4 mm/p                                                       \[1\]
//!
//! Derived here by integrating the Gaussian irradiance 2P/(π·wₐ·w_l)·exp(−2x²/w_l² − 2y²/wₐ²) along the
//! line, over the surface and over time. Effective pulses are also counted as one spot diameter over the
//! pitch (common practice, no source), which is 1.6 times as many. That a material marks from one dose on is
//! the model of a threshold, on which all marks of this crate rest (common practice, no source).
//! \[1\] The inch is 25.4 mm exactly: international yard and pound agreement of 1959, from memory.
//! Not modelled: reflection, absorption and losses behind the power that is given.

use crate::error::{Error, Param, check};
use core::f64::consts::PI;

/// √(2/π).
const ROOT_TWO_OVER_PI: f64 = 0.797_884_560_802_865_4;
/// √(π/8).
pub(crate) const ROOT_EIGHTH_PI: f64 = 0.626_657_068_657_750_1;

/// A beam that scans a surface, line by line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scan {
    /// Power on the surface in watts, averaged over pulses.
    pub power: f64,
    /// Speed of the spot along the line in m/s.
    pub speed: f64,
    /// Spot **diameter** across the line in metres, 1/e² (D4σ).
    pub diameter_across: f64,
    /// Spot **diameter** along the line in metres, 1/e² (D4σ).
    pub diameter_along: f64,
    /// From one line to the next in metres.
    pub line_interval: f64,
}

/// Dose of a [`Scan`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanDose {
    /// Dose on the middle of one line by itself, in J/m².
    pub line_dose: f64,
    /// Mean dose of a fill of such lines, in J/m². It does not depend on the spot.
    pub fill_dose: f64,
    /// Irradiance on the axis of the spot in W/m².
    pub peak_irradiance: f64,
    /// Line dose over peak irradiance, in seconds.
    pub dwell: f64,
}

/// What the pulses of a [`Scan`] do one by one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulseDose {
    /// Energy of one pulse in joules.
    pub pulse_energy: f64,
    /// Fluence of one pulse on the axis of the spot in J/m².
    pub peak_fluence: f64,
    /// From one pulse to the next along the line, in metres.
    pub pulse_pitch: f64,
    /// One less the pitch over the diameter; negative where the dots of neighbours do not touch.
    pub overlap: f64,
    /// Spot diameter over pitch.
    pub pulses_per_diameter: f64,
    /// Line dose over peak fluence.
    pub effective_pulses: f64,
}

/// A scan that passed its checks.
fn checked_scan(scan: &Scan) -> Result<(), Error> {
    check(Param::Power, scan.power)?;
    check(Param::Speed, scan.speed)?;
    check(Param::DiameterAcross, scan.diameter_across)?;
    check(Param::DiameterAlong, scan.diameter_along)?;
    check(Param::LineInterval, scan.line_interval)?;
    Ok(())
}

/// 2/(π·wₐ·w_l) = 8/(π·dₐ·d_l), the peak of a Gaussian that holds one unit.
fn peak_of_unit(scan: &Scan) -> f64 {
    8.0 / (PI * scan.diameter_across) / scan.diameter_along
}

/// Line dose, fill dose, peak irradiance and dwell of a scan.
///
/// Formulas and derivation in the [module](self). A continuous beam and the mean of a pulsed one are told
/// alike; for single pulses see [`pulse_dose`].
///
/// Accuracy: at most 4 ulp (`tests/vectors/scan_dose.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the fields.
///
/// # Example
/// ```
/// use spotwise::model::mark::{scan_dose, Scan};
/// // 20 W at 0.5 m/s with a spot of 100 µm, lines 50 µm apart.
/// let scan = Scan {
///     power: 20.0, speed: 0.5, diameter_across: 100e-6, diameter_along: 100e-6, line_interval: 50e-6,
/// };
/// let dose = scan_dose(&scan)?;
/// assert_eq!(dose.fill_dose.round(), 800_000.0); // 20/(0.5·50e-6) = 0.8 J/mm²
/// assert_eq!(dose.line_dose.round(), 638_308.0); // √(2/π)·20/(0.5·50e-6)
/// assert_eq!((dose.peak_irradiance / 1e6).round(), 5093.0); // 2·20/(π·50e-6²) = 5.093e9 W/m²
/// assert_eq!((dose.dwell * 1e9).round(), 125_331.0); // √(π/2)·50e-6/0.5 = 125.331 µs
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "energy density")]
#[must_use = "the dose is the result"]
pub fn scan_dose(scan: &Scan) -> Result<ScanDose, Error> {
    checked_scan(scan)?;
    let Scan { power, speed, diameter_across, diameter_along, line_interval } = *scan;
    Ok(ScanDose {
        // √(2/π)·P/(v·w), w = d/2
        line_dose: 2.0 * ROOT_TWO_OVER_PI * (power / speed / diameter_across),
        fill_dose: power / speed / line_interval,
        peak_irradiance: power * peak_of_unit(scan),
        // √(π/2)·w/v
        dwell: ROOT_EIGHTH_PI * (diameter_along / speed),
    })
}

/// Energy, fluence, pitch and overlap of the pulses of a scan.
///
/// Formulas and derivation in the [module](self). The scallop that the dots leave is told by
/// [`pulsed_line`](super::pulsed_line), the ripple of the dose along the line by
/// [`raster_ripple`](super::raster_ripple) with the pulse pitch as interval.
///
/// Accuracy: at most 4 ulp; the overlap, where it is small, at most 4 ulp times 1/|overlap|
/// (`tests/vectors/pulse_dose.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], for the fields of the scan in order, then for the
/// repetition rate.
///
/// # Example
/// ```
/// use spotwise::model::mark::{pulse_dose, Scan};
/// // 20 W in 50 000 pulses a second, at 1 m/s with a spot of 50 µm.
/// let scan = Scan {
///     power: 20.0, speed: 1.0, diameter_across: 50e-6, diameter_along: 50e-6, line_interval: 20e-6,
/// };
/// let pulses = pulse_dose(&scan, 50e3)?;
/// assert_eq!(pulses.pulse_energy, 0.4e-3);
/// assert_eq!(pulses.peak_fluence.round(), 407_437.0); // 8·0.4e-3/(π·50e-6²) J/m²
/// assert!((pulses.overlap - 0.6).abs() < 1e-15);      // 20 µm from dot to dot
/// assert!((pulses.pulses_per_diameter - 2.5).abs() < 1e-15);
/// assert_eq!((pulses.effective_pulses * 1e4).round(), 15_666.0); // √(π/2)·25/20 = 1.5666
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the dose is the result"]
pub fn pulse_dose(scan: &Scan, repetition_rate: f64) -> Result<PulseDose, Error> {
    checked_scan(scan)?;
    let rate = check(Param::RepetitionRate, repetition_rate)?;
    let pulse_energy = scan.power / rate;
    let pitch = scan.speed / rate;
    let pulses_per_diameter = scan.diameter_along / pitch;
    Ok(PulseDose {
        pulse_energy,
        peak_fluence: pulse_energy * peak_of_unit(scan),
        pulse_pitch: pitch,
        overlap: (scan.diameter_along - pitch) / scan.diameter_along,
        pulses_per_diameter,
        // √(π/2)·w/pitch
        effective_pulses: ROOT_EIGHTH_PI * pulses_per_diameter,
    })
}

/// Dose over the dose at which a material just marks: the dimensionless handle of all else here.
///
/// q = H/H_t, the definition of the [module](self). Above 1 the material marks. Dose and threshold must be of
/// one kind: line doses, fill doses or peak fluences, both in J/m².
///
/// Accuracy: at most 0.5 ulp (`tests/vectors/dose_over_threshold.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::dose_over_threshold;
/// assert_eq!(dose_over_threshold(0.8e6, 0.32e6)?, 2.5);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the ratio is the result"]
pub fn dose_over_threshold(dose: f64, threshold: f64) -> Result<f64, Error> {
    Ok(check(Param::Dose, dose)? / check(Param::Threshold, threshold)?)
}

/// Metres in an inch.
const INCH: f64 = 0.0254;

/// Line interval in metres of so many lines (dots) to the inch.
///
/// p = 25.4 mm/n, source in the [module](self).
///
/// Accuracy: at most 1 ulp (`tests/vectors/line_interval.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`].
///
/// # Example
/// ```
/// use spotwise::model::mark::line_interval;
/// assert_eq!((line_interval(500.0)? * 1e9).round(), 50_800.0); // 50.8 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "DPI")]
#[must_use = "the interval is the result"]
pub fn line_interval(dots_per_inch: f64) -> Result<f64, Error> {
    Ok(INCH / check(Param::DotsPerInch, dots_per_inch)?)
}

/// Lines (dots) to the inch of a line interval in metres.
///
/// n = 25.4 mm/p, the inverse of [`line_interval`]; source in the [module](self).
///
/// Accuracy: at most 1 ulp (`tests/vectors/dots_per_inch.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`].
///
/// # Example
/// ```
/// use spotwise::model::mark::dots_per_inch;
/// assert_eq!((dots_per_inch(50.8e-6)? * 1e9).round(), 500e9); // 25.4 mm/50.8 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the density is the result"]
pub fn dots_per_inch(line_interval: f64) -> Result<f64, Error> {
    Ok(INCH / check(Param::LineInterval, line_interval)?)
}
