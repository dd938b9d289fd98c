//! A simple astigmatic beam.

use super::depth::{Criterion, FocusRange};
use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::{focus, optics};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// One axis of an [`AstigmaticBeam`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisParts {
    /// Beam propagation ratio M² in this axis, at least 1.
    pub m_squared: f64,
    /// Width at this axis's waist.
    pub waist: BeamWidth,
    /// Where the waist lies, from the beam's zero.
    pub waist_at: Offset,
}

/// What an [`AstigmaticBeam`] is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticParts {
    /// Vacuum wavelength, 10 nm to 10 mm.
    pub wavelength: Length,
    /// The first axis.
    pub x: AxisParts,
    /// The second axis.
    pub y: AxisParts,
}

/// A beam with a waist of its own in each of two axes, checked once when it is built.
///
/// # Example
/// ```
/// use spotwise::{AstigmaticBeam, AstigmaticParts, AxisParts, BeamWidth, Criterion, Offset};
/// use spotwise::units::{mm, nm, um};
/// let waist = BeamWidth::from_d4sigma(um(30.0))?;
/// let beam = AstigmaticBeam::new(AstigmaticParts {
///     wavelength: nm(450.0),
///     x: AxisParts { m_squared: 5.0, waist, waist_at: Offset::ZERO },
///     y: AxisParts { m_squared: 5.0, waist, waist_at: Offset::away_from_lens(mm(0.2))? },
/// })?;
/// let depth = beam.depth_of_focus(Criterion::Rayleigh)?;
/// assert_eq!((depth.full().value * 1e9).round(), 428_319.0); // 0.428 mm, ends not alike
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticBeam {
    beam: optics::AstigmaticBeam,
}

/// What follows from an [`AstigmaticBeam`] alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticParameters {
    /// Rayleigh range in x.
    pub rayleigh_range_x: Length,
    /// Rayleigh range in y.
    pub rayleigh_range_y: Length,
    /// The waist in y as seen from the waist in x.
    pub waist_separation: Offset,
    /// Distance between the waists over the mean of the two Rayleigh ranges.
    pub relative_astigmatism: f64,
    /// √(M²x·M²y).
    pub m_squared_effective: f64,
    /// Where the effective width √((dx² + dy²)/2) is smallest.
    pub effective_waist_at: Offset,
    /// The effective width there.
    pub effective_waist: BeamWidth,
    /// Distance at which the effective width has grown by √2.
    pub effective_rayleigh_range: Length,
    /// Where the irradiance on the axis is greatest.
    pub brightest_at: Offset,
    /// The irradiance there over that of both waists at one place.
    pub brightest_irradiance_ratio: f64,
    /// Half angle of the cone in the axis where it is wider.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// An [`AstigmaticBeam`] at one place along its axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticSection {
    /// Width in x.
    pub width_x: BeamWidth,
    /// Width in y.
    pub width_y: BeamWidth,
    /// Smaller over larger width.
    pub ellipticity: f64,
    /// Whether the profile counts as circular (ellipticity above 0.87).
    pub circular: bool,
    /// √((dx² + dy²)/2), the effective diameter of ISO 11146.
    pub effective_width: BeamWidth,
    /// √(dx·dy), the circle of equal area.
    pub equal_area_width: BeamWidth,
    /// Half angle of the cone in the axis where it is wider.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// An [`AstigmaticBeam`] on a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticDefocus {
    /// Width in x over the waist in x.
    pub growth_x: f64,
    /// Width in y over the waist in y.
    pub growth_y: f64,
    /// Irradiance on the axis over that of both waists at one place.
    pub irradiance_ratio: f64,
    /// Peak dose of a line scanned along x over that at the waist in y.
    pub line_dose_ratio_along_x: f64,
    /// Peak dose of a line scanned along y over that at the waist in x.
    pub line_dose_ratio_along_y: f64,
    /// Half angle of the cone in the axis where it is wider.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

fn axis(parts: AxisParts) -> optics::Axis {
    optics::Axis {
        m2: parts.m_squared,
        waist_diameter: parts.waist.metres_1e2(),
        waist_z: parts.waist_at.metres(),
    }
}

impl AstigmaticBeam {
    /// A beam from its two waists.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a part outside its range;
    /// [`Error::OutsideModel`] if the half angle of an axis exceeds 0.3 rad.
    pub fn new(parts: AstigmaticParts) -> Result<Self, Error> {
        Self::from_model(optics::AstigmaticBeam {
            wavelength: parts.wavelength.value,
            x: axis(parts.x),
            y: axis(parts.y),
        })
    }

    pub(crate) fn from_model(beam: optics::AstigmaticBeam) -> Result<Self, Error> {
        optics::checked_astigmatic(&beam)?;
        Ok(Self { beam })
    }

    pub(crate) const fn as_model(&self) -> &optics::AstigmaticBeam {
        &self.beam
    }

    /// What the beam is made of.
    #[must_use]
    pub fn parts(&self) -> AstigmaticParts {
        let parts = |axis: &optics::Axis| AxisParts {
            m_squared: axis.m2,
            waist: BeamWidth::computed(axis.waist_diameter),
            waist_at: Offset::from_metres(axis.waist_z),
        };
        AstigmaticParts {
            wavelength: length(self.beam.wavelength),
            x: parts(&self.beam.x),
            y: parts(&self.beam.y),
        }
    }

    /// Rayleigh ranges, astigmatism, effective waist and brightest place. As
    /// [`model::optics::astigmatic_parameters`](crate::model::optics::astigmatic_parameters).
    ///
    /// # Errors
    /// None for a beam that exists; the model's own check is passed through.
    pub fn parameters(&self) -> Result<AstigmaticParameters, Error> {
        let p = optics::astigmatic_parameters(&self.beam)?;
        Ok(AstigmaticParameters {
            rayleigh_range_x: length(p.rayleigh_range_x),
            rayleigh_range_y: length(p.rayleigh_range_y),
            waist_separation: Offset::from_metres(p.waist_separation),
            relative_astigmatism: p.relative_astigmatism,
            m_squared_effective: p.m2_effective,
            effective_waist_at: Offset::from_metres(p.effective_waist_z),
            effective_waist: BeamWidth::computed(p.effective_waist_diameter),
            effective_rayleigh_range: length(p.effective_rayleigh_range),
            brightest_at: Offset::from_metres(p.brightest_z),
            brightest_irradiance_ratio: p.brightest_irradiance_ratio,
            half_angle: angle(p.half_angle),
            validity: p.validity,
        })
    }

    /// Widths and ellipticity at a place. As
    /// [`model::optics::astigmatic_at`](crate::model::optics::astigmatic_at).
    ///
    /// # Errors
    /// None for a beam and a place that exist; the model's own check is passed through.
    pub fn at(&self, place: Offset) -> Result<AstigmaticSection, Error> {
        let section = optics::astigmatic_at(&self.beam, place.metres())?;
        Ok(AstigmaticSection {
            width_x: BeamWidth::computed(section.diameter_x),
            width_y: BeamWidth::computed(section.diameter_y),
            ellipticity: section.ellipticity,
            circular: section.circular,
            effective_width: BeamWidth::computed(section.effective_diameter),
            equal_area_width: BeamWidth::computed(section.equal_area_diameter),
            half_angle: angle(section.half_angle),
            validity: section.validity,
        })
    }

    /// Growth, irradiance and line dose on a surface. As
    /// [`model::focus::astigmatic_defocus`](crate::model::focus::astigmatic_defocus).
    ///
    /// # Errors
    /// None for a beam and an offset that exist; the model's own check is passed through.
    pub fn defocus(&self, surface: Offset) -> Result<AstigmaticDefocus, Error> {
        let defocus = focus::astigmatic_defocus(&self.beam, surface.metres())?;
        Ok(AstigmaticDefocus {
            growth_x: defocus.growth_x,
            growth_y: defocus.growth_y,
            irradiance_ratio: defocus.irradiance_ratio,
            line_dose_ratio_along_x: defocus.line_dose_ratio_along_x,
            line_dose_ratio_along_y: defocus.line_dose_ratio_along_y,
            half_angle: angle(defocus.half_angle),
            validity: defocus.validity,
        })
    }

    /// Depth of focus by a named criterion. As
    /// [`model::focus::astigmatic_depth_of_focus`](crate::model::focus::astigmatic_depth_of_focus).
    ///
    /// # Errors
    /// [`Error::Unreachable`] if no height meets the criterion.
    pub fn depth_of_focus(&self, criterion: Criterion) -> Result<FocusRange, Error> {
        focus::astigmatic_depth_of_focus(&self.beam, criterion.into_model()).map(FocusRange::from_model)
    }
}
