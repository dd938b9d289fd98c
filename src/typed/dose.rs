//! Dose of a scan, and the interval of its lines.

use super::length;
use super::units::{j_per_m2, joule, s, w_per_m2};
use super::width::BeamWidth;
use crate::error::{Error, Param, check};
use crate::model::mark;
use uom::si::f64::{Energy, Frequency, HeatFluxDensity, Length, Power, RadiantExposure, Time, Velocity};

/// From one line of a raster fill to the next, built from a length or from lines (dots) to the inch.
///
/// A number of dots per inch grows where the interval shrinks, so neither can be taken for the other:
///
/// ```compile_fail,E0308
/// use spotwise::{BeamWidth, LineInterval, raster_ripple, units::um};
/// fn ripple(spot: BeamWidth) {
///     let _ = raster_ripple(spot, 500.0); // micrometres? dots per inch?
/// }
/// ```
///
/// ```
/// use spotwise::{BeamWidth, LineInterval, raster_ripple, units::um};
/// let interval = LineInterval::from_dots_per_inch(500.0)?;
/// assert_eq!((interval.length().value * 1e9).round(), 50_800.0); // 25.4 mm/500
/// let ripple = raster_ripple(BeamWidth::from_diameter_1e2(um(100.0))?, interval)?;
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct LineInterval {
    metres: f64,
}

impl LineInterval {
    /// From the length between neighbouring lines, 1e-9 to 1 m.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`].
    pub fn from_length(interval: Length) -> Result<Self, Error> {
        check(Param::LineInterval, interval.value).map(Self::computed)
    }

    /// From lines (dots) to the inch. As [`model::mark::line_interval`](crate::model::mark::line_interval).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: from 0.0254 to 2.54e7.
    #[doc(alias = "DPI")]
    pub fn from_dots_per_inch(dots_per_inch: f64) -> Result<Self, Error> {
        mark::line_interval(dots_per_inch).map(Self::computed)
    }

    /// An interval that the model computed; a function that takes it checks it again.
    pub(super) const fn computed(metres: f64) -> Self {
        Self { metres }
    }

    pub(super) const fn metres(self) -> f64 {
        self.metres
    }

    /// Length between neighbouring lines.
    #[must_use]
    pub fn length(self) -> Length {
        length(self.metres)
    }

    /// Lines (dots) to the inch. As [`model::mark::dots_per_inch`](crate::model::mark::dots_per_inch).
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a computed interval above 1 m.
    pub fn dots_per_inch(self) -> Result<f64, Error> {
        mark::dots_per_inch(self.metres)
    }
}

/// A beam that scans a surface, line by line.
///
/// A speed where the power belongs does not compile:
///
/// ```compile_fail,E0308
/// use spotwise::units::{m_per_s, w};
/// fn swapped(scan: spotwise::Scan) -> spotwise::Scan {
///     spotwise::Scan { power: m_per_s(0.5), speed: w(20.0), ..scan }
/// }
/// ```
///
/// # Example
/// ```
/// use spotwise::units::{hz, m_per_s, um, w};
/// use spotwise::{BeamWidth, LineInterval, Scan};
/// let spot = BeamWidth::from_diameter_1e2(um(100.0))?;
/// let scan = Scan {
///     power: w(20.0),
///     speed: m_per_s(0.5),
///     spot_across: spot,
///     spot_along: spot,
///     line_interval: LineInterval::from_length(um(50.0))?,
/// };
/// let dose = scan.dose()?;
/// assert_eq!(dose.fill_dose.value.round(), 800_000.0); // 20/(0.5·50e-6) = 0.8 J/mm²
/// assert_eq!(dose.line_dose.value.round(), 638_308.0); // √(2/π)·20/(0.5·50e-6)
/// let pulses = scan.pulses(hz(20e3))?;
/// assert_eq!((pulses.overlap * 1e3).round(), 750.0); // 25 µm from dot to dot
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scan {
    /// Power on the surface, averaged over pulses, 1e-9 to 1e6 W.
    pub power: Power,
    /// Speed of the spot along the line, 1e-9 to 1e4 m/s.
    pub speed: Velocity,
    /// Spot width across the line.
    pub spot_across: BeamWidth,
    /// Spot width along the line.
    pub spot_along: BeamWidth,
    /// From one line to the next.
    pub line_interval: LineInterval,
}

/// Dose of a [`Scan`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct ScanDose {
    /// Dose on the middle of one line by itself.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::dose::serialize"))]
    pub line_dose: RadiantExposure,
    /// Mean dose of a fill of such lines, whatever the spot.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::dose::serialize"))]
    pub fill_dose: RadiantExposure,
    /// Irradiance on the axis of the spot.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::irradiance"))]
    pub peak_irradiance: HeatFluxDensity,
    /// Line dose over peak irradiance.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::time"))]
    pub dwell: Time,
}

/// What the pulses of a [`Scan`] do one by one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulseDose {
    /// Energy of one pulse.
    pub pulse_energy: Energy,
    /// Fluence of one pulse on the axis of the spot.
    pub peak_fluence: RadiantExposure,
    /// From one pulse to the next along the line.
    pub pulse_pitch: Length,
    /// One less the pitch over the diameter; negative where the dots of neighbours do not touch.
    pub overlap: f64,
    /// Spot diameter over pitch.
    pub pulses_per_diameter: f64,
    /// Line dose over peak fluence.
    pub effective_pulses: f64,
}

impl ScanDose {
    pub(super) fn from_model(dose: &mark::ScanDose) -> Self {
        Self {
            line_dose: j_per_m2(dose.line_dose),
            fill_dose: j_per_m2(dose.fill_dose),
            peak_irradiance: w_per_m2(dose.peak_irradiance),
            dwell: s(dose.dwell),
        }
    }
}

impl Scan {
    fn as_model(&self) -> mark::Scan {
        mark::Scan {
            power: self.power.value,
            speed: self.speed.value,
            diameter_across: self.spot_across.metres_1e2(),
            diameter_along: self.spot_along.metres_1e2(),
            line_interval: self.line_interval.metres(),
        }
    }

    /// Line dose, fill dose, peak irradiance and dwell. As
    /// [`model::mark::scan_dose`](crate::model::mark::scan_dose).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the fields.
    #[doc(alias = "energy density")]
    pub fn dose(&self) -> Result<ScanDose, Error> {
        mark::scan_dose(&self.as_model()).map(|dose| ScanDose::from_model(&dose))
    }

    /// Energy, fluence, pitch and overlap of the pulses. As
    /// [`model::mark::pulse_dose`](crate::model::mark::pulse_dose).
    ///
    /// # Errors
    /// As [`Self::dose`], then for the repetition rate, 1e-3 to 1e12 Hz.
    pub fn pulses(&self, repetition_rate: Frequency) -> Result<PulseDose, Error> {
        let dose = mark::pulse_dose(&self.as_model(), repetition_rate.value)?;
        Ok(PulseDose {
            pulse_energy: joule(dose.pulse_energy),
            peak_fluence: j_per_m2(dose.peak_fluence),
            pulse_pitch: length(dose.pulse_pitch),
            overlap: dose.overlap,
            pulses_per_diameter: dose.pulses_per_diameter,
            effective_pulses: dose.effective_pulses,
        })
    }
}

/// Dose over the dose at which a material just marks; both of one kind, line doses, fill doses or peak
/// fluences. As [`model::mark::dose_over_threshold`](crate::model::mark::dose_over_threshold).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`]: both from 1e-12 to 1e18 J/m².
///
/// # Example
/// ```
/// use spotwise::{dose_over_threshold, units::j_per_mm2};
/// assert_eq!(dose_over_threshold(j_per_mm2(0.75), j_per_mm2(0.25))?, 3.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn dose_over_threshold(dose: RadiantExposure, threshold: RadiantExposure) -> Result<f64, Error> {
    mark::dose_over_threshold(dose.value, threshold.value)
}
