//! A calibrated set-up: what test pieces told of a machine, as a document, and jobs on that machine.

use super::beam::Beam;
use super::job::{FocusSetting, Job, JobDose, JobLens, JobScan, Laser, RawBeam};
use super::lens::{Lens, WaistPosition};
use super::mark_fit::MarkFit;
use super::offset::Offset;
use super::tolerance::{Contribution, Distribution};
use super::units::j_per_m2;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::learn::{self, LearnedFocus, LearnedLine, MarkedLines, SeriesFindings};
use crate::model::surface::ToleranceSource;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length, Power, RadiantExposure, Velocity};

/// What test pieces told of a machine. With the feature `serde` it is a document with units in text, which a shop
/// keeps beside its jobs.
///
/// [`Job::with_calibration`] puts it into a job, and every check of that job then speaks of the shop's own machine:
/// [`Job::check`], [`Job::check_on`], [`Job::choose_lens`], the preflight of a drawing.
/// [`Self::focus_contribution`] is what its height of focus may be off by, for [`tolerance_stack`](crate::tolerance_stack).
///
/// `focus_shift` (zero), `coverage_factor_95` (1.959964) and `line` may be left out.
///
/// ```
/// # #[cfg(feature = "serde")] {
/// use spotwise::{Calibration, Job};
/// let calibration: Calibration = serde_json::from_str(r#"{
///     "wavelength": "10.6 um",
///     "focal_length": "1.5 in",
///     "focus": { "away_from_lens": "0.23 mm" },
///     "focus_deviation": "20 um",
///     "waist": { "diameter_1e2": "95 um" },
///     "waist_diameter_deviation": "1.5 um",
///     "m_squared": 1.2,
///     "m_squared_deviation": 0.05,
///     "coverage_factor_95": 2.306,
///     "line": {
///         "power": "18 W",
///         "speed": "400 mm/s",
///         "dose_ratio": 4.2,
///         "relative_deviation": "3 %",
///         "correlation": -0.6
///     }
/// }"#)?;
/// // The job as it was planned, from the data sheets.
/// let job: Job = serde_json::from_str(r#"{
///     "laser": { "wavelength": "10.6 um", "m_squared": 1.1 },
///     "raw_beam": { "width_at_lens": { "diameter_1e2": "7 mm" } },
///     "lens": { "focal_length": "1.5 in" },
///     "focus": { "from_datum": "zero" },
///     "surface": { "rise": "0.3 mm", "fall": "0.3 mm" },
///     "depth_criterion": "rayleigh",
///     "drawing": { "finest_stroke": "0.1 mm", "finest_gap": "0.1 mm" },
///     "dose": { "scan": {
///         "power": "20 W", "speed": "500 mm/s", "line_interval": "50 um", "threshold": "0.3 J/mm2"
///     } }
/// }"#)?;
/// let verdict = job.with_calibration(&calibration)?.check()?;
/// assert_eq!((verdict.focus.spot.diameter_1e2().value * 1e12).round(), 95e6); // as measured, not 81 µm
/// assert_eq!((verdict.focus_from_datum.z_away_from_lens().value * 1e9).round(), 230_000.0);
/// // √(8/π)·18/(0.4·95e-6·4.2) = 179 974 J/m², so that 0.8 J/mm² is 4.4451 times as much.
/// assert_eq!((verdict.dose_ratio * 1e4).round(), 44_451.0);
/// # }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct Calibration {
    /// Vacuum wavelength, 10 nm to 10 mm.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::wavelength"))]
    pub wavelength: Length,
    /// Focal length of the lens that was used, at the working wavelength, 1e-5 to 1e4 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::focal_length"))]
    pub focal_length: Length,
    /// Where the waist lies, from the focal point of the lens: [`Offset::ZERO`] unless the distance from the lens to the
    /// waist was measured too. It changes the raw beam, and with the same lens nothing else.
    #[cfg_attr(feature = "serde", serde(default))]
    pub focus_shift: Offset,
    /// Where the waist lies, from the height that the heights of the test pieces count from: the datum of the jobs
    /// on this machine. Zero where the machine has been set to what the test pieces told.
    pub focus: Offset,
    /// Standard deviation of the height of focus, 0 to 1000 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::focus_deviation"))]
    pub focus_deviation: Length,
    /// Width at the waist as measured, 1 nm to 10 m.
    pub waist: BeamWidth,
    /// Standard deviation of its 1/e² **diameter**, 0 to 10 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::waist_diameter_deviation"))]
    pub waist_diameter_deviation: Length,
    /// M² as measured, 0.01 to 1e4; it may be below 1 by noise, and then counts as 1.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::m_squared"))]
    pub m_squared: f64,
    /// Standard deviation of M², 0 to 1e4.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::m_squared_deviation"))]
    pub m_squared_deviation: f64,
    /// Half width of a 95 % range over the deviations, 1.9 to 13:
    /// [`NORMAL_FACTOR_95`](crate::model::learn::NORMAL_FACTOR_95) where the deviations of the marks were known, the
    /// factor of Student's t where the scatter of the marks told them.
    #[cfg_attr(
        feature = "serde",
        serde(
            default = "super::serde_text::calibration::normal_factor_95",
            with = "super::serde_text::calibration::coverage_factor_95"
        )
    )]
    pub coverage_factor_95: f64,
    /// What the test pieces told of a line that marks the material; none if they told the beam alone.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub line: Option<CalibratedLine>,
}

/// A line that the scan marks in the waist, and how far it is from not marking.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct CalibratedLine {
    /// Power on the surface, averaged over pulses, 1e-9 to 1e6 W.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::power"))]
    pub power: Power,
    /// Speed along the line, 1e-9 to 1e4 m/s.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::speed"))]
    pub speed: Velocity,
    /// Dose on the middle of the line in the waist over that at which the material just marks, 1.000001 to 1e6.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::dose_ratio"))]
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself, 0 to 10.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::calibration::relative_deviation"))]
    pub relative_deviation: f64,
    /// Correlation of the logarithms of waist diameter and dose ratio, −1 to 1; 0 if unknown.
    #[cfg_attr(feature = "serde", serde(default, with = "super::serde_text::calibration::correlation"))]
    pub correlation: f64,
}

/// The set-up in which a job gets the measured focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibratedSetUp {
    /// The laser, its M² as measured, or 1 where noise has put it below.
    pub laser: Laser,
    /// The raw beam that the lens turns into the measured focus: by its waist.
    pub raw_beam: RawBeam,
    /// The lens; ideal, for what a real one does is in the measured waist.
    pub lens: JobLens,
    /// Where focus is.
    pub focus: FocusSetting,
    /// The focused beam, its zero at the waist.
    pub focused: Beam,
    /// Width of the raw beam where it meets the lens.
    pub width_at_lens: BeamWidth,
    /// Rayleigh range of the focus.
    pub rayleigh_range: Length,
    /// Standard deviation of a normal law with the same 95 % range of the height of focus.
    pub focus_deviation: Length,
    /// Greatest 1/e² half angle before and behind the lens.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// The dose at which the material just marks, as test pieces told it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedThreshold {
    /// Line dose at which the material just marks; also its fill dose.
    pub threshold: RadiantExposure,
    /// Standard deviation over the threshold of a normal law with the same 95 % range.
    pub relative_deviation: f64,
}

impl Calibration {
    /// The set-up of which the focus is the measured one. As
    /// [`model::learn::calibrated_set_up`](crate::model::learn::calibrated_set_up).
    ///
    /// # Errors
    /// As there: [`Error::OutsideModel`] also for an M² that is below 1 even at the end of its 95 % range.
    pub fn set_up(&self) -> Result<CalibratedSetUp, Error> {
        let found = learn::calibrated_set_up(&LearnedFocus {
            wavelength: self.wavelength.value,
            measured_m2: self.m_squared,
            m2_deviation: self.m_squared_deviation,
            waist_diameter: self.waist.metres_1e2(),
            focal_length: self.focal_length.value,
            focus_shift: self.focus_shift.metres(),
            focus_deviation: self.focus_deviation.value,
            coverage_factor_95: self.coverage_factor_95,
        })?;
        Ok(CalibratedSetUp {
            laser: Laser { wavelength: self.wavelength, m_squared: found.m2 },
            raw_beam: RawBeam::Waist {
                width: BeamWidth::computed(found.raw_waist_diameter),
                position: WaistPosition::from_metres_to_lens(found.waist_to_lens),
            },
            lens: Lens::new(self.focal_length).into(),
            focus: FocusSetting::FromDatum(self.focus),
            focused: Beam::with_waist(self.wavelength, found.m2, self.waist.metres_1e2())?,
            width_at_lens: BeamWidth::computed(found.diameter_at_lens),
            rayleigh_range: length(found.rayleigh_range),
            focus_deviation: length(found.focus_deviation),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// The dose at which the material just marks; none if the calibration tells the beam alone. As
    /// [`model::learn::learned_threshold`](crate::model::learn::learned_threshold).
    ///
    /// # Errors
    /// As there.
    pub fn threshold(&self) -> Result<Option<LearnedThreshold>, Error> {
        let Some(line) = self.line else { return Ok(None) };
        let found = learn::learned_threshold(&LearnedLine {
            power: line.power.value,
            speed: line.speed.value,
            waist_diameter: self.waist.metres_1e2(),
            waist_diameter_deviation: self.waist_diameter_deviation.value,
            dose_ratio: line.dose_ratio,
            relative_dose_ratio_deviation: line.relative_deviation,
            correlation: line.correlation,
            coverage_factor_95: self.coverage_factor_95,
        })?;
        Ok(Some(LearnedThreshold {
            threshold: j_per_m2(found.threshold),
            relative_deviation: found.relative_deviation,
        }))
    }

    /// The calibration that a fit of marks tells, made as lines at this power of reference and this speed through a lens
    /// of this focal length; heights count from the datum of the marks. As
    /// [`model::learn::calibration_from_marks`](crate::model::learn::calibration_from_marks).
    ///
    /// # Errors
    /// As there: [`Error::OutOfRange`] naming [`Param::CoverageFactor95`](crate::Param::CoverageFactor95) if the ranges of
    /// the fit are not those of 95 %.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{inch, mm, mm_per_s, um, w};
    /// use spotwise::{
    ///     Calibration, MarkFitOptions, MarkKind, Offset, SeriesKnown, SeriesMark, WidthScatter, fit_mark_widths,
    /// };
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
    /// let calibration = Calibration::from_marks(&fit, um(10.6), inch(1.5), w(10.0), mm_per_s(500.0))?;
    /// let threshold = calibration.threshold()?.expect("lines were marked").threshold;
    /// // √(8/π)·10/(0.5·80e-6·4) = 99 736 J/m²
    /// assert_eq!(threshold.value.round(), 99_736.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn from_marks(
        fit: &MarkFit,
        wavelength: Length,
        focal_length: Length,
        power: Power,
        speed: Velocity,
    ) -> Result<Self, Error> {
        let [_, _, _, _, correlation, _] = fit.correlations;
        let findings = SeriesFindings {
            waist_z: fit.waist_height.value.metres(),
            waist_z_deviation: fit.waist_height.deviation.value,
            waist_diameter: fit.waist.value.metres_1e2(),
            waist_diameter_deviation: fit.waist.deviation.value,
            m2: fit.m_squared.value,
            m2_deviation: fit.m_squared.deviation,
            dose_ratio: fit.dose_ratio.value,
            dose_ratio_deviation: fit.dose_ratio.deviation,
            correlation,
            range_factor: fit.range_factor,
            degrees_of_freedom: fit.degrees_of_freedom,
        };
        let lines = MarkedLines {
            wavelength: wavelength.value,
            focal_length: focal_length.value,
            power: power.value,
            speed: speed.value,
        };
        let learned = learn::calibration_from_marks(&findings, &lines)?;
        Ok(Self {
            wavelength,
            focal_length,
            focus_shift: Offset::from_metres(learned.focus.focus_shift),
            focus: Offset::from_metres(learned.focus_z),
            focus_deviation: length(learned.focus.focus_deviation),
            waist: fit.waist.value,
            waist_diameter_deviation: length(learned.line.waist_diameter_deviation),
            m_squared: learned.focus.measured_m2,
            m_squared_deviation: learned.focus.m2_deviation,
            coverage_factor_95: learned.focus.coverage_factor_95,
            line: Some(CalibratedLine {
                power,
                speed,
                dose_ratio: learned.line.dose_ratio,
                relative_deviation: learned.line.relative_dose_ratio_deviation,
                correlation: learned.line.correlation,
            }),
        })
    }

    /// What the height of focus may be off by, as a contribution to a
    /// [`tolerance_stack`](crate::tolerance_stack): a normal law with the same 95 % range. It names the height gauge
    /// as its source, for its zero is what the test pieces found.
    ///
    /// # Errors
    /// As [`Self::set_up`].
    ///
    /// # Example
    /// ```
    /// use spotwise::model::learn::NORMAL_FACTOR_95;
    /// use spotwise::units::{inch, mm, um};
    /// use spotwise::{
    ///     BeamWidth, Calibration, Contribution, Distribution, Offset, ToleranceSource, tolerance_stack,
    /// };
    /// let calibration = Calibration {
    ///     wavelength: um(10.6),
    ///     focal_length: inch(1.5),
    ///     focus_shift: Offset::ZERO,
    ///     focus: Offset::away_from_lens(mm(0.23))?,
    ///     focus_deviation: um(40.0),
    ///     waist: BeamWidth::from_diameter_1e2(um(95.0))?,
    ///     waist_diameter_deviation: um(1.5),
    ///     m_squared: 1.2,
    ///     m_squared_deviation: 0.05,
    ///     coverage_factor_95: NORMAL_FACTOR_95,
    ///     line: None,
    /// };
    /// let bow = Contribution {
    ///     source: ToleranceSource::PartBow,
    ///     distribution: Distribution::Normal { half_width: um(30.0), coverage_factor: 1.0 },
    ///     mean: Offset::ZERO,
    /// };
    /// let stack = tolerance_stack(&[bow, calibration.focus_contribution()?], 0.95)?;
    /// assert_eq!((stack.deviation.value * 1e9).round(), 50_000.0); // √(30² + 40²) µm
    /// assert_eq!(stack.dominant.place, 1);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn focus_contribution(&self) -> Result<Contribution, Error> {
        let half_width = self.set_up()?.focus_deviation;
        Ok(Contribution {
            source: ToleranceSource::HeightGauge,
            distribution: Distribution::Normal { half_width, coverage_factor: 1.0 },
            mean: Offset::ZERO,
        })
    }
}

impl Job {
    /// This job on the machine of a calibration: its M², raw beam, lens and focus are taken from there, and the
    /// threshold of its scan if the calibration tells one. Everything else stays.
    ///
    /// The focus of the job is replaced by where the test pieces found the waist. If the machine has since been set to
    /// that, let [`Calibration::focus`] be zero; to ask for another focus, set the field of the job that comes back.
    ///
    /// [`Self::choose_lens`] looks at neither lens nor focus of a job: of the calibration it keeps raw beam, M² and
    /// threshold. What the aberration of the measured lens adds to its spot is then in the raw beam, and the
    /// candidates' own come on top.
    ///
    /// # Errors
    /// As [`Calibration::set_up`] and [`Calibration::threshold`]; then [`Error::OutOfRange`] if the job has another
    /// wavelength.
    pub fn with_calibration(&self, calibration: &Calibration) -> Result<Self, Error> {
        let CalibratedSetUp { laser, raw_beam, lens, focus, .. } = calibration.set_up()?;
        let learned = calibration.threshold()?;
        LearnedFocus::check_same_wavelength(laser.wavelength.value, self.laser.wavelength.value)?;
        let dose = match (self.dose, learned) {
            (JobDose::Scan(scan), Some(LearnedThreshold { threshold, .. })) => {
                JobDose::Scan(JobScan { threshold, ..scan })
            }
            (dose, _) => dose,
        };
        Ok(Self { laser, raw_beam, lens, focus, dose, ..*self })
    }
}
