//! A depth of focus, by criterion and by its two named ends.

use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::model::focus::{self, DepthCriterion};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// What must hold for a height to count as in focus. Formulas in
/// [`model::focus`](crate::model::focus).
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[non_exhaustive]
pub enum Criterion {
    /// The spot is at most this many times as wide as the waist; from 1 to 1e9.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::growth_ratio"))]
    GrowthRatio(f64),
    /// The spot is at most √2 times as wide as the waist: one Rayleigh range each way.
    Rayleigh,
    /// The irradiance on the axis falls by at most this share, 0.2 for a fifth.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::irradiance_drop"))]
    IrradianceDrop(f64),
    /// The spot is at most this wide.
    LargestSpot(BeamWidth),
    /// The peak dose of a scanned line falls by at most this share, 0.2 for a fifth.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::line_dose_drop"))]
    LineDoseDrop(f64),
}

impl Criterion {
    pub(crate) fn into_model(self) -> DepthCriterion {
        match self {
            Self::GrowthRatio(ratio) => DepthCriterion::Growth { ratio },
            Self::Rayleigh => DepthCriterion::Rayleigh,
            Self::IrradianceDrop(drop) => DepthCriterion::IrradianceDrop { drop },
            Self::LargestSpot(width) => DepthCriterion::LargestDiameter { diameter: width.metres_1e2() },
            Self::LineDoseDrop(drop) => DepthCriterion::LineDoseDrop { drop },
        }
    }
}

/// A range of heights by its two ends; there is no "the depth" that might be half or full.
///
/// ```compile_fail,E0308
/// use spotwise::FocusRange;
/// use uom::si::f64::Length;
/// fn half(range: FocusRange) -> Length { range.toward_lens() } // an end is not a length
/// ```
///
/// ```
/// use spotwise::FocusRange;
/// use uom::si::f64::Length;
/// fn full(range: FocusRange) -> Length { range.full() }
/// fn half(range: FocusRange) -> Length { range.toward_lens().distance() }
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct FocusRange {
    toward_lens: Offset,
    away_from_lens: Offset,
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    full: Length,
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::angle::serialize"))]
    half_angle: Angle,
    #[cfg_attr(
        feature = "serde",
        serde(rename = "cautions", serialize_with = "super::serde_text::cautions")
    )]
    validity: Validity,
}

impl FocusRange {
    pub(crate) fn from_model(range: focus::FocusRange) -> Self {
        Self {
            toward_lens: Offset::from_metres(range.toward_lens_z),
            away_from_lens: Offset::from_metres(range.away_from_lens_z),
            full: length(range.full),
            half_angle: angle(range.half_angle),
            validity: range.validity,
        }
    }

    /// The end nearer the lens, from the waist of a round beam or the zero of an astigmatic one.
    #[must_use]
    pub const fn toward_lens(&self) -> Offset {
        self.toward_lens
    }

    /// The end farther from the lens.
    #[must_use]
    pub const fn away_from_lens(&self) -> Offset {
        self.away_from_lens
    }

    /// From one end to the other.
    #[must_use]
    pub const fn full(&self) -> Length {
        self.full
    }

    /// Greatest 1/e² half angle of the beams involved.
    #[must_use]
    pub const fn half_angle(&self) -> Angle {
        self.half_angle
    }

    /// How far the paraxial formulas may be trusted, and whether a second range exists.
    pub const fn validity(&self) -> Validity {
        self.validity
    }

    /// Whether a height lies within the range, its ends included.
    #[must_use]
    pub fn contains(&self, height: Offset) -> bool {
        height >= self.toward_lens && height <= self.away_from_lens
    }
}
