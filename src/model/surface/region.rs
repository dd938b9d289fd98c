//! The part of the table that is marked.

use crate::error::{Error, Param, check};
use crate::model::math;

/// A rectangle across the table, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Region {
    /// Its end of least x.
    pub x_least: f64,
    /// Its end of greatest x, at least 1e-9 m beyond.
    pub x_greatest: f64,
    /// Its end of least y.
    pub y_least: f64,
    /// Its end of greatest y, at least 1e-9 m beyond.
    pub y_greatest: f64,
}

impl Region {
    /// The region, unless it is empty or off the table.
    pub(crate) fn checked(self) -> Result<Self, Error> {
        check(Param::RegionX, self.x_least)?;
        check(Param::RegionX, self.x_greatest)?;
        check(Param::RegionY, self.y_least)?;
        check(Param::RegionY, self.y_greatest)?;
        check(Param::RegionWidthX, self.width_x())?;
        check(Param::RegionWidthY, self.width_y())?;
        Ok(self)
    }

    pub(crate) fn width_x(&self) -> f64 {
        self.x_greatest - self.x_least
    }

    pub(crate) fn width_y(&self) -> f64 {
        self.y_greatest - self.y_least
    }

    /// Its corners, x first.
    pub(crate) fn corners(&self) -> [(f64, f64); 4] {
        [
            (self.x_least, self.y_least),
            (self.x_greatest, self.y_least),
            (self.x_least, self.y_greatest),
            (self.x_greatest, self.y_greatest),
        ]
    }

    /// What two regions have in common; none if that has no area.
    pub(crate) fn common(&self, other: &Self) -> Option<Self> {
        let (x_least, x_greatest) = common(self.x_least, self.x_greatest, other.x_least, other.x_greatest)?;
        let (y_least, y_greatest) = common(self.y_least, self.y_greatest, other.y_least, other.y_greatest)?;
        Some(Self { x_least, x_greatest, y_least, y_greatest })
    }
}

/// What two stretches have in common; none if that has no length.
pub(crate) fn common(least: f64, greatest: f64, other_least: f64, other_greatest: f64) -> Option<(f64, f64)> {
    let least = math::greater(least, other_least);
    let greatest = math::lesser(greatest, other_greatest);
    (least < greatest).then_some((least, greatest))
}
