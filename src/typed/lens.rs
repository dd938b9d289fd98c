//! The ideal lens.

use super::astigmatic::AstigmaticBeam;
use super::beam::Beam;
use super::divergence::Divergence;
use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::{Error, Param, check_distance};
use crate::model::optics::{self, FocusedBeam};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// Where the raw beam's waist lies relative to the lens.
///
/// ```
/// use spotwise::{WaistPosition, units::mm};
/// let position = WaistPosition::BeforeLens(mm(1500.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
pub enum WaistPosition {
    /// At the lens: the beam arrives collimated.
    AtLens,
    /// So far upstream, between laser and lens; 0 to 1e7 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::before_lens"))]
    BeforeLens(Length),
    /// So far downstream, where the beam would converge to without the lens; 0 to 1e7 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::behind_lens"))]
    BehindLens(Length),
}

impl WaistPosition {
    /// From a distance of the model's, + when the waist lies upstream.
    pub(crate) fn from_metres_to_lens(waist_to_lens: f64) -> Self {
        if waist_to_lens < 0.0 {
            Self::BehindLens(length(-waist_to_lens))
        } else {
            Self::BeforeLens(length(waist_to_lens))
        }
    }

    /// From the waist to the lens in metres, + when the waist lies upstream.
    pub(crate) fn metres_to_lens(self) -> Result<f64, Error> {
        let checked = |distance: Length| check_distance(Param::WaistToLens, distance.value);
        match self {
            Self::AtLens => Ok(0.0),
            Self::BeforeLens(distance) => checked(distance),
            Self::BehindLens(distance) => checked(distance).map(|distance| -distance),
        }
    }
}

/// An ideal thin lens.
///
/// # Example
/// ```
/// use spotwise::{Beam, BeamParts, BeamWidth, Lens, WaistPosition, units::{inch, mm, um}};
/// let raw = Beam::new(BeamParts {
///     wavelength: um(10.6),
///     m_squared: 1.2,
///     waist: BeamWidth::from_diameter_1e2(mm(7.0))?,
/// })?;
/// let focus = Lens::new(inch(1.5)).focus(&raw, WaistPosition::AtLens)?;
/// assert_eq!((focus.spot.diameter_1e2().value * 1e9).round(), 88_143.0); // 88.1 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
///
/// A bare number is no focal length, since it might be of inches:
///
/// ```compile_fail,E0308
/// use spotwise::Lens;
/// let lens = Lens::new(1.5);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(remote = "Self", deny_unknown_fields))]
pub struct Lens {
    /// Focal length, + converging.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::focal_length"))]
    pub focal_length: Length,
}

/// What a [`Lens`] makes of a beam.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Focus {
    /// Width at the waist behind the lens: the spot in focus.
    pub spot: BeamWidth,
    /// Rayleigh range behind the lens.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub rayleigh_range: Length,
    /// Divergence of the focused cone.
    pub divergence: Divergence,
    /// Spot over raw waist.
    pub magnification: f64,
    /// From the focal point of the lens to the waist.
    pub focus_shift: Offset,
    /// From the lens to the waist; negative for a virtual waist.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub lens_to_waist: Length,
    /// Width of the raw beam where it meets the lens.
    pub width_at_lens: BeamWidth,
    /// Greatest 1/e² half angle before and behind the lens.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::angle::serialize"))]
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted, for the raw and the focused cone.
    #[cfg_attr(
        feature = "serde",
        serde(rename = "cautions", serialize_with = "super::serde_text::cautions")
    )]
    pub validity: Validity,
}

/// What a [`Lens`] makes of an [`AstigmaticBeam`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticFocus {
    /// The focused beam, its zero at the focal point of the lens.
    pub beam: AstigmaticBeam,
    /// Greatest 1/e² half angle before and behind the lens, of either axis.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

impl Focus {
    pub(crate) fn from_model(focused: &FocusedBeam) -> Self {
        Self {
            spot: BeamWidth::computed(focused.waist_diameter),
            rayleigh_range: length(focused.rayleigh_range),
            divergence: Divergence::from_radians_full(focused.divergence_full_angle),
            magnification: focused.magnification,
            focus_shift: Offset::from_metres(focused.focus_shift),
            lens_to_waist: length(focused.lens_to_waist),
            width_at_lens: BeamWidth::computed(focused.diameter_at_lens),
            half_angle: angle(focused.half_angle),
            validity: focused.validity,
        }
    }
}

impl Lens {
    /// A lens of this focal length, + converging.
    #[must_use]
    pub const fn new(focal_length: Length) -> Self {
        Self { focal_length }
    }

    /// The waist that the lens makes of a raw beam. As
    /// [`model::optics::focus_through_lens`](crate::model::optics::focus_through_lens); with the
    /// waist [`AtLens`](WaistPosition::AtLens) it is
    /// [`focus_collimated`](crate::model::optics::focus_collimated).
    ///
    /// # Errors
    /// As there; a distance in `waist` must not be negative.
    pub fn focus(&self, raw: &Beam, waist: WaistPosition) -> Result<Focus, Error> {
        optics::focus_through_lens(raw.as_model(), waist.metres_to_lens()?, self.focal_length.value)
            .map(|focused| Focus::from_model(&focused))
    }

    /// The beam behind the lens, its zero at the new waist. The waist is rounded to a double on the
    /// way, so that its Rayleigh range may differ from that of [`Self::focus`] in the last place.
    ///
    /// # Errors
    /// As [`Self::focus`].
    pub fn focused_beam(&self, raw: &Beam, waist: WaistPosition) -> Result<Beam, Error> {
        let focus = self.focus(raw, waist)?;
        Beam::with_waist(raw.wavelength(), raw.m_squared(), focus.spot.metres_1e2())
    }

    /// The beam that the lens makes of an astigmatic one. `raw` has its zero at the lens; the
    /// result has its zero at the focal point. As
    /// [`model::optics::focus_astigmatic`](crate::model::optics::focus_astigmatic).
    ///
    /// # Errors
    /// As there.
    pub fn focus_astigmatic(&self, raw: &AstigmaticBeam) -> Result<AstigmaticFocus, Error> {
        let found = optics::focus_astigmatic(raw.as_model(), self.focal_length.value)?;
        Ok(AstigmaticFocus {
            beam: AstigmaticBeam::from_model(found.beam)?,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
