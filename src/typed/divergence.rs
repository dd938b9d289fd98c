//! A far-field divergence, built and read as full or half angle by name.

use super::angle;
use crate::error::{Error, Param, check};
use uom::si::f64::Angle;

/// Far-field divergence of a beam; inside it is the **full** angle.
///
/// ```
/// use spotwise::{Divergence, units::mrad};
/// assert_eq!(Divergence::from_full_angle(mrad(4.0))?, Divergence::from_half_angle(mrad(2.0))?);
/// # Ok::<(), spotwise::Error>(())
/// ```
///
/// A bare angle does not compile where a divergence belongs:
///
/// ```compile_fail,E0308
/// use spotwise::{Divergence, units::mrad};
/// let divergence: Divergence = mrad(4.0); // full or half?
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(into = "super::serde_text::DivergenceText"))]
pub struct Divergence {
    full_angle: f64,
}

impl Divergence {
    /// From the **full** angle of the cone, 1e-12 … 0.6 rad.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`].
    pub fn from_full_angle(angle: Angle) -> Result<Self, Error> {
        check(Param::DivergenceFullAngle, angle.value).map(Self::from_radians_full)
    }

    /// From the **half** angle of the cone, at most 0.3 rad.
    ///
    /// # Errors
    /// As [`Self::from_full_angle`], of twice the angle.
    pub fn from_half_angle(angle: Angle) -> Result<Self, Error> {
        Self::from_full_angle(2.0 * angle)
    }

    pub(crate) const fn from_radians_full(full_angle: f64) -> Self {
        Self { full_angle }
    }

    pub(crate) const fn radians_full(self) -> f64 {
        self.full_angle
    }

    /// The **full** angle of the cone.
    #[must_use]
    pub fn full_angle(self) -> Angle {
        angle(self.full_angle)
    }

    /// The **half** angle of the cone.
    #[must_use]
    pub fn half_angle(self) -> Angle {
        angle(0.5 * self.full_angle)
    }
}
