//! An offset along the axis, built by the side it points to.

use super::length;
use crate::error::{Error, Param, check, check_distance};
use uom::si::f64::Length;

/// An offset along the beam's axis, toward the lens or away from it.
///
/// There is no conversion from a bare length, so that the sign is always said in words:
///
/// ```compile_fail,E0308
/// use spotwise::{Beam, Offset, units::mm};
/// fn spot(beam: &Beam) {
///     let _ = beam.defocus(mm(0.5)); // up or down?
/// }
/// ```
///
/// ```
/// use spotwise::{Beam, Offset, units::mm};
/// fn spot(beam: &Beam) {
///     let _ = beam.defocus(Offset::toward_lens(mm(0.5)).unwrap());
/// }
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(into = "super::serde_text::OffsetText"))]
pub struct Offset {
    /// In metres, + away from the lens.
    z: f64,
}

/// Which way an [`Offset`] points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Toward the lens.
    TowardLens,
    /// Neither way: the offset is zero.
    Neither,
    /// Away from the lens.
    AwayFromLens,
}

impl Offset {
    /// No offset.
    pub const ZERO: Self = Self { z: 0.0 };

    /// So far toward the lens.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the distance must be from 0 to 1e7 m. A
    /// negative one is refused, since it would point the other way.
    pub fn toward_lens(distance: Length) -> Result<Self, Error> {
        check_distance(Param::ZOffset, distance.value).map(|z| Self { z: -z })
    }

    /// So far away from the lens.
    ///
    /// # Errors
    /// As [`Self::toward_lens`].
    pub fn away_from_lens(distance: Length) -> Result<Self, Error> {
        check_distance(Param::ZOffset, distance.value).map(|z| Self { z })
    }

    /// From a signed coordinate that is **positive away from the lens**, as the model counts.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] beyond ±1e7 m.
    pub fn from_z_away_from_lens(z: Length) -> Result<Self, Error> {
        check(Param::ZOffset, z.value).map(|z| Self { z })
    }

    pub(crate) const fn from_metres(z: f64) -> Self {
        Self { z }
    }

    pub(crate) const fn metres(self) -> f64 {
        self.z
    }

    /// How far, whichever way.
    #[must_use]
    pub fn distance(self) -> Length {
        length(if self.z < 0.0 { -self.z } else { self.z })
    }

    /// Which way.
    #[must_use]
    pub fn side(self) -> Side {
        if self.z < 0.0 {
            Side::TowardLens
        } else if self.z > 0.0 {
            Side::AwayFromLens
        } else {
            Side::Neither
        }
    }

    /// As a signed coordinate that is **positive away from the lens**.
    #[must_use]
    pub fn z_away_from_lens(self) -> Length {
        length(self.z)
    }
}
