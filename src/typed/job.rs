//! A job as a person would state it: laser, raw beam, lens, focus, surface, drawing, dose.

use super::depth::Criterion;
use super::lens::{Lens, WaistPosition};
use super::offset::Offset;
use super::verdict::Verdict;
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::check;
use uom::si::f64::Length;

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
pub struct Surface {
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

/// Everything that a verdict needs. With the feature `serde` it is a document with units in text:
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
///     "dose_ratio": 2.7
/// }"#)?;
/// assert_eq!(job.check()?.outcome, spotwise::Outcome::Holds);
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
    pub lens: Lens,
    /// Where focus is set.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::focus"))]
    pub focus: FocusSetting,
    /// The surface of the part.
    pub surface: Surface,
    /// What counts as in focus.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::serde_text::criterion"))]
    pub depth_criterion: Criterion,
    /// What the drawing asks of the spot.
    pub drawing: Drawing,
    /// Fill dose over the dose at which the material just marks, from 1.000001 to 1e6.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::dose_ratio"))]
    pub dose_ratio: f64,
}

impl Job {
    /// Checks whether the drawing's finest stroke and gap hold over the surface, and says why. As
    /// [`model::check::focus_check`](crate::model::check::focus_check).
    ///
    /// # Errors
    /// As there; a distance in a waist position must not be negative.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{inch, mm, um};
    /// use spotwise::{
    ///     BeamWidth, Criterion, Drawing, FocusSetting, Job, Laser, Lens, Offset, Outcome, RawBeam, Surface,
    /// };
    /// let job = Job {
    ///     laser: Laser { wavelength: um(10.6), m_squared: 1.2 },
    ///     raw_beam: RawBeam::WidthAtLens(BeamWidth::from_diameter_1e2(mm(7.0))?),
    ///     lens: Lens::new(inch(1.5)),
    ///     focus: FocusSetting::FromDatum(Offset::ZERO),
    ///     surface: Surface { rise: mm(0.3), fall: mm(0.3) },
    ///     depth_criterion: Criterion::Rayleigh,
    ///     drawing: Drawing { finest_stroke: mm(0.1), finest_gap: mm(0.1) },
    ///     dose_ratio: 2.7,
    /// };
    /// let verdict = job.check()?;
    /// assert_eq!(verdict.outcome, Outcome::Holds);
    /// assert_eq!((verdict.focus.spot.diameter_1e2().value * 1e9).round(), 88_143.0); // 88.1 µm
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn check(&self) -> Result<Verdict, Error> {
        check::focus_check(&self.as_model()?).map(|verdict| Verdict::from_model(&verdict))
    }

    fn as_model(&self) -> Result<check::Job, Error> {
        let raw_beam = match self.raw_beam {
            RawBeam::WidthAtLens(width) => {
                check::RawBeam::Collimated { diameter_at_lens: width.metres_1e2() }
            }
            RawBeam::Waist { width, position } => check::RawBeam::Waist {
                waist_diameter: width.metres_1e2(),
                waist_to_lens: position.metres_to_lens()?,
            },
        };
        let focus = match self.focus {
            FocusSetting::FromDatum(offset) => check::FocusSetting::FromDatum { focus_z: offset.metres() },
            FocusSetting::LensToSurface(distance) => {
                check::FocusSetting::LensHeight { lens_to_surface: distance.value }
            }
        };
        Ok(check::Job {
            wavelength: self.laser.wavelength.value,
            m2: self.laser.m_squared,
            raw_beam,
            focal_length: self.lens.focal_length.value,
            focus,
            surface_rise: self.surface.rise.value,
            surface_fall: self.surface.fall.value,
            criterion: self.depth_criterion.into_model(),
            finest_stroke: self.drawing.finest_stroke.value,
            finest_gap: self.drawing.finest_gap.value,
            dose_ratio: self.dose_ratio,
        })
    }
}
