//! A job as a person would state it: laser, raw beam, lens, focus, surface, drawing, dose.

use super::depth::Criterion;
use super::dose::LineInterval;
use super::lens::{Lens, WaistPosition};
use super::lettering::TypeSize;
use super::material::Response;
use super::offset::Offset;
use super::path::ExpanderWaist;
use super::verdict::Verdict;
use super::width::{Aperture, BeamWidth};
use crate::error::Error;
use crate::model::check;
use crate::model::mark::{TextGrade, TextGrades, Typeface};
use crate::model::optics::{Glass, LensShape};
use uom::si::f64::{Length, Power, RadiantExposure, ReciprocalLength, Velocity};

/// The laser.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct Laser {
    /// Vacuum wavelength, 10 nm to 10 mm.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::wavelength"))]
    pub wavelength: Length,
    /// Beam propagation ratio M², at least 1.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::m_squared"))]
    pub m_squared: f64,
}

/// The beam before the lens.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[non_exhaustive]
pub enum RawBeam {
    /// Known by its width at the lens, where its wavefront is flat.
    WidthAtLens(BeamWidth),
    /// Known by its waist and where that lies.
    Waist {
        /// Width at the raw waist.
        width: BeamWidth,
        /// Where the raw waist lies relative to the lens.
        #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::position"))]
        position: WaistPosition,
    },
    /// Known by its waist, with a beam expander on its way to the lens.
    Expanded {
        /// Width at the raw waist, before the expander.
        width: BeamWidth,
        /// Where the raw waist lies relative to the expander.
        #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::waist_to_expander"))]
        waist_to_expander: ExpanderWaist,
        /// Beam diameter behind the expander over that before it, 0.01 to 100.
        #[cfg_attr(feature = "serde", serde(with = "super::serde_text::magnification"))]
        magnification: f64,
        /// By how much the expander converges collimated light, within ±1000 1/m; 0 when set to infinity,
        /// negative where it diverges it.
        #[cfg_attr(feature = "serde", serde(with = "super::serde_text::exit_power"))]
        exit_power: ReciprocalLength,
        /// From the expander to the lens, 0 to 1e7 m.
        #[cfg_attr(feature = "serde", serde(with = "super::serde_text::expander_to_lens"))]
        expander_to_lens: Length,
    },
}

/// The lens of a job: ideal, unless it is known to be a single piece of some glass.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct JobLens {
    /// Focal length at the working wavelength, 1e-5 to 1e4 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::focal_length"))]
    pub focal_length: Length,
    /// What is known of a real lens; with none it is taken for ideal.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub singlet: Option<JobSinglet>,
}

/// A single-piece lens, whose aberration and aperture count.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct JobSinglet {
    /// What it is made of; its formula must reach the laser's wavelength.
    pub glass: Glass,
    /// Its shape, and which side is toward the laser.
    pub shape: LensShape,
    /// Its clear aperture, 1 nm to 100 m; none if it is unknown or does not matter.
    #[cfg_attr(
        feature = "serde",
        serde(default, skip_serializing_if = "Option::is_none", with = "super::serde_text::clear_aperture")
    )]
    pub clear_aperture: Option<Aperture>,
}

impl JobLens {
    /// What is known of the lens besides its focal length.
    pub(super) fn as_model(&self) -> check::JobLens {
        match self.singlet {
            None => check::JobLens::Ideal,
            Some(singlet) => check::JobLens::Singlet {
                glass: singlet.glass,
                shape: singlet.shape,
                clear_aperture: Aperture::metres_or_none(singlet.clear_aperture),
            },
        }
    }
}

impl From<Lens> for JobLens {
    /// The ideal lens of this focal length.
    fn from(lens: Lens) -> Self {
        Self { focal_length: lens.focal_length, singlet: None }
    }
}

/// Where focus is set.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[non_exhaustive]
pub enum FocusSetting {
    /// The waist lies at this offset from the datum of the surface.
    FromDatum(Offset),
    /// The lens stands this far from the datum; where the waist lies follows from the optics.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::lens_to_surface"))]
    LensToSurface(Length),
}

/// The surface of the part, about the height that the operator calls zero.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct SurfaceExtent {
    /// How far it comes toward the lens from its datum; not negative.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::rise"))]
    pub rise: Length,
    /// How far it drops away from the lens from its datum; not negative.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::fall"))]
    pub fall: Length,
}

/// What the drawing asks of the spot.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct Drawing {
    /// Width of the finest stroke.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::finest_stroke"))]
    pub finest_stroke: Length,
    /// Width of the finest gap.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::finest_gap"))]
    pub finest_gap: Length,
}

/// How the dose of a job is known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[non_exhaustive]
pub enum JobDose {
    /// By the fill dose over the dose at which the material just marks, from 1e-6 to 1e6; below
    /// 1.000001 nothing marks.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::dose_ratio"))]
    Ratio(f64),
    /// By what the machine is set to and what the material needs.
    Scan(JobScan),
}

/// What the machine is set to, and what the material needs.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct JobScan {
    /// Power on the surface, averaged over pulses, 1e-9 to 1e6 W.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::power"))]
    pub power: Power,
    /// Speed along the lines, 1e-9 to 1e4 m/s.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::speed"))]
    pub speed: Velocity,
    /// From one line of the fill to the next.
    pub line_interval: LineInterval,
    /// Fill dose at which the material just marks, 1e-12 to 1e18 J/m².
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::threshold"))]
    pub threshold: RadiantExposure,
    /// How the material answers above it; without incubation. In a melt, details, text and ripple go by the spot as
    /// the material sees it, widened by heat.
    #[cfg_attr(feature = "serde", serde(default, deserialize_with = "super::serde_text::response"))]
    pub response: Response,
}

/// The text of a job.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct JobText {
    /// Kind of typeface, or one that was measured.
    pub typeface: Typeface,
    /// Its size.
    pub size: TypeSize,
    /// The grade that it must keep everywhere; [`TextGrade::Lost`] asks for nothing.
    pub least_grade: TextGrade,
    /// Where the grades begin.
    #[cfg_attr(feature = "serde", serde(default))]
    pub grades: TextGrades,
}

/// Everything that a verdict needs. With the feature `serde` it is a document with units in text.
///
/// An ideal lens, and a beam that arrives collimated:
///
/// ```
/// # #[cfg(feature = "serde")] {
/// let job: spotwise::Job = serde_json::from_str(r#"{
///     "laser": { "wavelength": "10.6 um", "m_squared": 1.2 },
///     "raw_beam": { "width_at_lens": { "diameter_1e2": "7 mm" } },
///     "lens": { "focal_length": "1.5 in" },
///     "focus": { "from_datum": { "toward_lens": "0.1 mm" } },
///     "surface": { "rise": "0.3 mm", "fall": "0.3 mm" },
///     "depth_criterion": "rayleigh",
///     "drawing": { "finest_stroke": "0.1 mm", "finest_gap": "0.1 mm" },
///     "dose": { "ratio": 2.7 }
/// }"#)?;
/// assert_eq!(job.check()?.outcome, spotwise::Outcome::Holds);
/// # }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// A real lens, with a beam expander on the way to it. The glass is named as [`Glass::name`] has it; the
/// shape is `"best form"`, `"curved side first"`, `"flat side first"` or `{ "shape_factor": 1.5 }`; what
/// is left out does not count: without `clear_aperture` nothing is clipped, without `singlet` the lens
/// is ideal. `exit_power` is a reciprocal length, how much the expander converges collimated light.
/// A path without an expander is a `waist` with its distance `before_lens`.
///
/// The dose may be told by what the machine is set to; `line_interval` is a length or
/// `{ "dots_per_inch": 500 }`, `threshold` the fill dose at which the material just marks, from test marks.
/// `response` says how it answers above that: `"coating"`, which it is if left out,
/// `{ "logarithmic_ablation": { "penetration_depth": "2 um" } }`,
/// `{ "linear_ablation": { "removal_energy": "3 J/mm3" } }` or `{ "melt": { "diffusivity": "0.1 mm2/s" } }`.
/// `text` may be left out. Its typeface is `"sans"`, `"bold sans"`, `"light sans"`, `"serif"`,
/// `"monospaced"`, or `{ "measured": { … } }` with `stem`, `effective_stroke`, `effective_counter` and
/// `effective_gap` in ems; `least_grade` is `"crisp"`, `"good"`, `"readable"`, or `"lost"` to ask for
/// nothing; `grades` may move `crisp_exposure`, `good_window` and `readable_window`.
///
/// ```
/// # #[cfg(feature = "serde")] {
/// let job: spotwise::Job = serde_json::from_str(r#"{
///     "laser": { "wavelength": "10.6 um", "m_squared": 1.2 },
///     "raw_beam": { "expanded": {
///         "width": { "d4sigma": "4.2 mm" },
///         "waist_to_expander": { "before_expander": "0.4 m" },
///         "magnification": 2,
///         "exit_power": "0.1 1/m",
///         "expander_to_lens": "1.4 m"
///     } },
///     "lens": {
///         "focal_length": "1.5 in",
///         "singlet": {
///             "glass": "zinc selenide",
///             "shape": "curved side first",
///             "clear_aperture": "18 mm"
///         }
///     },
///     "focus": { "from_datum": "zero" },
///     "surface": { "rise": "0.1 mm", "fall": "0.1 mm" },
///     "depth_criterion": "rayleigh",
///     "drawing": { "finest_stroke": "0.1 mm", "finest_gap": "0.1 mm" },
///     "dose": { "scan": {
///         "power": "18 W",
///         "speed": "400 mm/s",
///         "line_interval": "50 um",
///         "threshold": "0.36 J/mm2"
///     } },
///     "text": { "typeface": "sans", "size": "4 pt", "least_grade": "good" }
/// }"#)?;
/// let verdict = job.check()?;
/// assert_eq!((verdict.outcome, verdict.promised), (spotwise::Outcome::Holds, spotwise::Outcome::Holds));
/// let real = verdict.real.expect("the lens is a real one");
/// assert!(real.power86.unwrap().diameter > real.ideal.spot.diameter_1e2());
/// // 18 W over 0.4 m/s and 50 µm is 0.9 J/mm².
/// assert_eq!((verdict.dose_ratio * 1e9).round(), 2.5e9);
/// assert!(verdict.datum.smallest_text.unwrap().good.points() < 4.0);
/// # }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct Job {
    /// The laser.
    pub laser: Laser,
    /// The beam before the lens.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::raw_beam"))]
    pub raw_beam: RawBeam,
    /// The lens.
    pub lens: JobLens,
    /// Where focus is set.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::focus"))]
    pub focus: FocusSetting,
    /// The surface of the part.
    pub surface: SurfaceExtent,
    /// What counts as in focus.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::criterion"))]
    pub depth_criterion: Criterion,
    /// What the drawing asks of the spot.
    pub drawing: Drawing,
    /// Dose of the fill.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::job_dose"))]
    pub dose: JobDose,
    /// The text in the drawing; none if there is none.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub text: Option<JobText>,
}

impl Job {
    /// Checks whether the drawing's finest stroke and gap hold over the surface, and its text keeps its
    /// grade, and says why. As
    /// [`model::check::focus_check`](crate::model::check::focus_check).
    ///
    /// # Errors
    /// As there; a distance in a waist position must not be negative.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{inch, mm, um};
    /// use spotwise::{
    ///     BeamWidth, Criterion, Drawing, FocusSetting, Job, JobDose, Laser, Lens, Offset, Outcome, RawBeam,
    ///     SurfaceExtent,
    /// };
    /// let job = Job {
    ///     laser: Laser { wavelength: um(10.6), m_squared: 1.2 },
    ///     raw_beam: RawBeam::WidthAtLens(BeamWidth::from_diameter_1e2(mm(7.0))?),
    ///     lens: Lens::new(inch(1.5)).into(),
    ///     focus: FocusSetting::FromDatum(Offset::ZERO),
    ///     surface: SurfaceExtent { rise: mm(0.3), fall: mm(0.3) },
    ///     depth_criterion: Criterion::Rayleigh,
    ///     drawing: Drawing { finest_stroke: mm(0.1), finest_gap: mm(0.1) },
    ///     dose: JobDose::Ratio(2.7),
    ///     text: None,
    /// };
    /// let verdict = job.check()?;
    /// assert_eq!(verdict.outcome, Outcome::Holds);
    /// assert_eq!((verdict.focus.spot.diameter_1e2().value * 1e9).round(), 88_143.0); // 88.1 µm
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn check(&self) -> Result<Verdict, Error> {
        let verdict = check::focus_check(&self.as_model()?)?;
        let clear_aperture = self.lens.singlet.and_then(|singlet| singlet.clear_aperture);
        Ok(Verdict::from_model(&verdict, self.laser, clear_aperture))
    }

    pub(super) fn as_model(&self) -> Result<check::Job, Error> {
        let raw_beam = match self.raw_beam {
            RawBeam::WidthAtLens(width) => {
                check::RawBeam::Collimated { diameter_at_lens: width.metres_1e2() }
            }
            RawBeam::Waist { width, position } => check::RawBeam::Waist {
                waist_diameter: width.metres_1e2(),
                waist_to_lens: position.metres_to_lens()?,
            },
            RawBeam::Expanded { width, waist_to_expander, magnification, exit_power, expander_to_lens } => {
                check::RawBeam::Expanded {
                    waist_diameter: width.metres_1e2(),
                    waist_to_expander: waist_to_expander.metres_to_expander()?,
                    magnification,
                    exit_power: exit_power.value,
                    expander_to_lens: expander_to_lens.value,
                }
            }
        };
        let focus = match self.focus {
            FocusSetting::FromDatum(offset) => check::FocusSetting::FromDatum { focus_z: offset.metres() },
            FocusSetting::LensToSurface(distance) => {
                check::FocusSetting::LensHeight { lens_to_surface: distance.value }
            }
        };
        let dose = match self.dose {
            JobDose::Ratio(dose_ratio) => check::JobDose::Ratio { dose_ratio },
            JobDose::Scan(scan) => check::JobDose::Scan {
                power: scan.power.value,
                speed: scan.speed.value,
                line_interval: scan.line_interval.metres(),
                threshold: scan.threshold.value,
                response: scan.response.into_model(),
            },
        };
        let text = self.text.map(|text| check::JobText {
            typeface: text.typeface,
            em: text.size.metres(),
            least_grade: text.least_grade,
            grades: text.grades,
        });
        Ok(check::Job {
            wavelength: self.laser.wavelength.value,
            m2: self.laser.m_squared,
            raw_beam,
            focal_length: self.lens.focal_length.value,
            lens: self.lens.as_model(),
            focus,
            surface_rise: self.surface.rise.value,
            surface_fall: self.surface.fall.value,
            criterion: self.depth_criterion.into_model(),
            finest_stroke: self.drawing.finest_stroke.value,
            finest_gap: self.drawing.finest_gap.value,
            dose,
            text,
        })
    }
}
