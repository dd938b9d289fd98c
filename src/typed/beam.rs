//! A round beam about its waist.

use super::depth::{Criterion, FocusRange};
use super::divergence::Divergence;
use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::focus;
use crate::model::optics::{self, BeamParameters};
use crate::validity::Validity;
use uom::si::curvature::radian_per_meter;
use uom::si::f64::{Angle, Curvature, Length};

/// What a [`Beam`] is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamParts {
    /// Vacuum wavelength, 10 nm to 10 mm.
    pub wavelength: Length,
    /// Beam propagation ratio M², at least 1.
    pub m_squared: f64,
    /// Width at the waist.
    pub waist: BeamWidth,
}

/// A beam known by its divergence, for [`Beam::from_divergence`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Divergent {
    /// Vacuum wavelength.
    pub wavelength: Length,
    /// Beam propagation ratio M².
    pub m_squared: f64,
    /// Far-field divergence.
    pub divergence: Divergence,
}

/// A beam known by its Rayleigh range, for [`Beam::from_rayleigh_range`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranged {
    /// Vacuum wavelength.
    pub wavelength: Length,
    /// Beam propagation ratio M².
    pub m_squared: f64,
    /// Distance from the waist to √2 of its diameter.
    pub rayleigh_range: Length,
}

/// A round beam, checked once when it is built.
///
/// # Example
/// ```
/// use spotwise::{Beam, BeamParts, BeamWidth, Offset, units::{mm, um}};
/// let beam = Beam::new(BeamParts {
///     wavelength: um(10.6),
///     m_squared: 1.2,
///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
/// })?;
/// let half_a_millimetre_low = beam.defocus(Offset::away_from_lens(mm(0.5))?)?;
/// assert_eq!((half_a_millimetre_low.growth * 1e4).round(), 14_469.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
///
/// Wavelength and waist cannot change places, since a waist is not a length:
///
/// ```compile_fail,E0308
/// use spotwise::{Beam, BeamParts, BeamWidth, units::um};
/// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist: um(44.0) });
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    beam: optics::Beam,
    waist: BeamWidth,
    parameters: BeamParameters,
}

/// Waist radius times half angle of divergence.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BeamParameterProduct {
    metre_radians: f64,
}

impl BeamParameterProduct {
    /// In metre radians.
    #[must_use]
    pub const fn in_m_rad(self) -> f64 {
        self.metre_radians
    }

    /// In millimetre milliradians, as data sheets give it.
    #[must_use]
    pub fn in_mm_mrad(self) -> f64 {
        self.metre_radians * 1e6
    }
}

/// The widest cone that a column of numbers rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
#[must_use = "a caution that nobody reads helps nobody"]
pub struct Cone {
    /// Greatest 1/e² half angle of the beams involved.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Cone {
    pub(super) fn from_model(cone: optics::Cone) -> Self {
        Self { half_angle: angle(cone.half_angle), validity: cone.validity }
    }
}

/// A [`Beam`] at one place along its axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamSection {
    /// Width there.
    pub width: BeamWidth,
    /// Curvature of the wavefront; 0 at the waist, + where the wave diverges away from the lens.
    pub wavefront_curvature: Curvature,
    /// Radius of curvature of the wavefront; infinite at the waist.
    pub wavefront_radius: Length,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// A [`Beam`] on a surface that is off its waist.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Defocus {
    /// Spot on the surface.
    pub spot: BeamWidth,
    /// Spot width over waist width, at least 1.
    pub growth: f64,
    /// Growth less one, exact however small.
    pub growth_minus_one: f64,
    /// Irradiance on the axis over that at the waist.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist.
    pub line_dose_ratio: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

impl Defocus {
    pub(crate) fn from_model(defocus: &focus::Defocus) -> Self {
        Self {
            spot: BeamWidth::computed(defocus.diameter),
            growth: defocus.growth,
            growth_minus_one: defocus.growth_minus_one,
            irradiance_ratio: defocus.irradiance_ratio,
            line_dose_ratio: defocus.line_dose_ratio,
            half_angle: angle(defocus.half_angle),
            validity: defocus.validity,
        }
    }
}

impl Beam {
    /// A beam from its waist.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a part outside its range;
    /// [`Error::OutsideModel`] if the half angle of the cone exceeds 0.3 rad.
    pub fn new(parts: BeamParts) -> Result<Self, Error> {
        let beam = optics::Beam {
            wavelength: parts.wavelength.value,
            m2: parts.m_squared,
            waist_diameter: parts.waist.metres_1e2(),
        };
        Ok(Self { beam, waist: parts.waist, parameters: optics::beam_parameters(&beam)? })
    }

    /// The beam with this divergence. As
    /// [`model::optics::waist_from_divergence`](crate::model::optics::waist_from_divergence).
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn from_divergence(known: Divergent) -> Result<Self, Error> {
        let waist = optics::waist_from_divergence(
            known.wavelength.value,
            known.m_squared,
            known.divergence.radians_full(),
        )?;
        Self::with_waist(known.wavelength, known.m_squared, waist)
    }

    /// The beam with this Rayleigh range. As
    /// [`model::optics::waist_from_rayleigh_range`](crate::model::optics::waist_from_rayleigh_range).
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn from_rayleigh_range(known: Ranged) -> Result<Self, Error> {
        let waist = optics::waist_from_rayleigh_range(
            known.wavelength.value,
            known.m_squared,
            known.rayleigh_range.value,
        )?;
        Self::with_waist(known.wavelength, known.m_squared, waist)
    }

    pub(crate) fn with_waist(wavelength: Length, m_squared: f64, diameter: f64) -> Result<Self, Error> {
        Self::new(BeamParts { wavelength, m_squared, waist: BeamWidth::computed(diameter) })
    }

    /// M² of a beam whose waist and divergence were measured. As
    /// [`model::optics::m2_from_divergence`](crate::model::optics::m2_from_divergence).
    ///
    /// # Errors
    /// [`Error::OutsideModel`] if it would be below 1: one of the measurements is wrong.
    pub fn m_squared_from(
        wavelength: Length,
        waist: BeamWidth,
        divergence: Divergence,
    ) -> Result<f64, Error> {
        optics::m2_from_divergence(wavelength.value, waist.metres_1e2(), divergence.radians_full())
    }

    pub(crate) const fn as_model(&self) -> &optics::Beam {
        &self.beam
    }

    /// Vacuum wavelength.
    #[must_use]
    pub fn wavelength(&self) -> Length {
        length(self.beam.wavelength)
    }

    /// Beam propagation ratio M².
    #[must_use]
    pub const fn m_squared(&self) -> f64 {
        self.beam.m2
    }

    /// Width at the waist.
    #[must_use]
    pub const fn waist(&self) -> BeamWidth {
        self.waist
    }

    /// Distance from the waist to √2 of its diameter.
    #[must_use]
    pub fn rayleigh_range(&self) -> Length {
        length(self.parameters.rayleigh_range)
    }

    /// Far-field divergence.
    #[must_use]
    pub const fn divergence(&self) -> Divergence {
        Divergence::from_radians_full(self.parameters.divergence_full_angle)
    }

    /// Waist radius times half angle of divergence.
    #[must_use]
    pub const fn beam_parameter_product(&self) -> BeamParameterProduct {
        BeamParameterProduct { metre_radians: self.parameters.beam_parameter_product }
    }

    /// How far the paraxial formulas may be trusted for this beam.
    pub const fn validity(&self) -> Validity {
        self.parameters.validity
    }

    /// Width and wavefront at an offset from the waist. As
    /// [`model::optics::beam_at`](crate::model::optics::beam_at).
    ///
    /// # Errors
    /// None for a beam and an offset that exist; the model's own check is passed through.
    pub fn at(&self, offset: Offset) -> Result<BeamSection, Error> {
        let section = optics::beam_at(&self.beam, offset.metres())?;
        Ok(BeamSection {
            width: BeamWidth::computed(section.diameter),
            wavefront_curvature: Curvature::new::<radian_per_meter>(section.wavefront_curvature),
            wavefront_radius: length(section.wavefront_radius),
            half_angle: angle(section.half_angle),
            validity: section.validity,
        })
    }

    /// Diameters in metres, 1/e², at many signed offsets in metres, + away from the lens: for
    /// plots. As [`model::optics::diameters_at`](crate::model::optics::diameters_at).
    ///
    /// # Errors
    /// As there; on any error every element of `out_m` is NaN.
    pub fn diameters_1e2_at(&self, z_away_from_lens_m: &[f64], out_m: &mut [f64]) -> Result<Cone, Error> {
        optics::diameters_at(&self.beam, z_away_from_lens_m, out_m).map(Cone::from_model)
    }

    /// Spot, growth, irradiance and line dose on a surface at an offset from the waist. As
    /// [`model::focus::defocus`](crate::model::focus::defocus).
    ///
    /// # Errors
    /// As [`Self::at`].
    #[doc(alias = "out of focus")]
    pub fn defocus(&self, surface: Offset) -> Result<Defocus, Error> {
        Ok(Defocus::from_model(&focus::defocus(&self.beam, surface.metres())?))
    }

    /// The two offsets at which the spot is this wide. As
    /// [`model::focus::offsets_for_diameter`](crate::model::focus::offsets_for_diameter).
    ///
    /// # Errors
    /// [`Error::Unreachable`] if it is narrower than the waist.
    pub fn offsets_for_width(&self, spot: BeamWidth) -> Result<FocusRange, Error> {
        focus::offsets_for_diameter(&self.beam, spot.metres_1e2()).map(FocusRange::from_model)
    }

    /// The two offsets at which the spot has grown by this ratio. As
    /// [`model::focus::offsets_for_growth`](crate::model::focus::offsets_for_growth).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the ratio must be from 1 to 1e9.
    pub fn offsets_for_growth(&self, growth: f64) -> Result<FocusRange, Error> {
        focus::offsets_for_growth(&self.beam, growth).map(FocusRange::from_model)
    }

    /// Depth of focus by a named criterion. As
    /// [`model::focus::depth_of_focus`](crate::model::focus::depth_of_focus).
    ///
    /// # Errors
    /// As there.
    #[doc(alias = "usable range")]
    pub fn depth_of_focus(&self, criterion: Criterion) -> Result<FocusRange, Error> {
        focus::depth_of_focus(&self.beam, criterion.into_model()).map(FocusRange::from_model)
    }
}
