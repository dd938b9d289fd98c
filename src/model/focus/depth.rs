//! Depth of focus: the range of heights within which a stated criterion holds.
//!
//! | criterion          | holds while                            | half range           |
//! |--------------------|----------------------------------------|----------------------|
//! | growth ratio g     | d(z) ≤ g·d₀                            | z_R·√((g − 1)(g + 1)) |
//! | Rayleigh           | d(z) ≤ √2·d₀                           | z_R                  |
//! | irradiance drop p  | I(z) ≥ (1 − p)·I(0) on the axis        | z_R·√(p/(1 − p))     |
//! | largest diameter D | d(z) ≤ D                               | z_R·√((D/d₀ − 1)(D/d₀ + 1)) |
//! | line dose drop p   | H(z) ≥ (1 − p)·H(0), peak of a line    | z_R·√(p·(2 − p))/(1 − p) |
//!
//! Each follows from d(z) = d₀·√(1 + (z/z_R)²) of [`model::optics`](crate::model::optics). That
//! the Rayleigh range is the distance to √2 of the waist diameter is ISO 11145 (from memory). No
//! standard that we could read defines "depth of focus"; so the criterion is always named, and
//! the answer is always two named ends, never one length that might be half or full.
//!
//! An equal growth scales with the square of the focal length, a fixed largest diameter nearly
//! with the focal length: shops mean the second more often than the first.

use super::offset::{rayleigh_ranges_for, rayleigh_ranges_for_diameter};
use crate::error::{Error, Param, check};
use crate::model::optics::{Beam, CheckedBeam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::{Cone, Validity};

/// What must hold for a height to count as in focus.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum DepthCriterion {
    /// The diameter is at most this many waist diameters. Code 1.
    Growth {
        /// Diameter over waist diameter, at least 1.
        ratio: f64,
    },
    /// The diameter is at most √2 waist diameters: one Rayleigh range each way. Code 2.
    Rayleigh,
    /// The irradiance on the axis falls by at most this share. Code 3.
    IrradianceDrop {
        /// Share lost, 0.2 for a fifth.
        drop: f64,
    },
    /// The diameter is at most this, in metres. Code 4.
    LargestDiameter {
        /// 1/e² (D4σ) **diameter** in metres.
        diameter: f64,
    },
    /// The peak dose of a scanned line falls by at most this share. Code 5.
    LineDoseDrop {
        /// Share lost, 0.2 for a fifth.
        drop: f64,
    },
}

impl DepthCriterion {
    /// Permanent number of this criterion, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Growth { .. } => 1,
            Self::Rayleigh => 2,
            Self::IrradianceDrop { .. } => 3,
            Self::LargestDiameter { .. } => 4,
            Self::LineDoseDrop { .. } => 5,
        }
    }

    /// The criterion with this permanent code, taking its limit from the one argument that the
    /// code names and ignoring the others.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The limit is checked when it is used.
    pub fn from_code(code: u32, growth_ratio: f64, drop: f64, largest_diameter: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Growth { ratio: growth_ratio }),
            2 => Ok(Self::Rayleigh),
            3 => Ok(Self::IrradianceDrop { drop }),
            4 => Ok(Self::LargestDiameter { diameter: largest_diameter }),
            5 => Ok(Self::LineDoseDrop { drop }),
            value => Err(Error::UnknownChoice { param: Param::DepthCriterion, value }),
        }
    }

    /// The parameter that holds the limit.
    pub(crate) const fn param(&self) -> Param {
        match self {
            Self::Growth { .. } | Self::Rayleigh => Param::GrowthRatio,
            Self::IrradianceDrop { .. } => Param::IrradianceDrop,
            Self::LargestDiameter { .. } => Param::LargestDiameter,
            Self::LineDoseDrop { .. } => Param::LineDoseDrop,
        }
    }
}

/// A range of heights, by its two ends. Heights count from the waist of a round beam, or from the
/// z = 0 of an astigmatic one, + away from the lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusRange {
    /// The end nearer the lens, in metres.
    pub toward_lens_z: f64,
    /// The end farther from the lens, in metres.
    pub away_from_lens_z: f64,
    /// From one end to the other, in metres.
    pub full: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted, and whether a second range exists.
    pub validity: Validity,
}

impl FocusRange {
    /// The same distance each way from the waist.
    pub(crate) fn about_waist(half: Twofold, cone: Cone) -> Self {
        let half = half.to_f64();
        let Cone { half_angle, validity } = cone;
        Self { toward_lens_z: -half, away_from_lens_z: half, full: 2.0 * half, half_angle, validity }
    }

    pub(crate) fn between(toward_lens: Twofold, away_from_lens: Twofold, cone: Cone) -> Self {
        Self {
            toward_lens_z: toward_lens.to_f64(),
            away_from_lens_z: away_from_lens.to_f64(),
            full: (away_from_lens - toward_lens).to_f64(),
            half_angle: cone.half_angle,
            validity: cone.validity,
        }
    }

    /// Whether a height lies within the range, its ends included.
    #[must_use]
    pub fn contains(&self, z: f64) -> bool {
        z >= self.toward_lens_z && z <= self.away_from_lens_z
    }
}

/// Checks the number in a criterion.
pub(crate) fn checked_criterion(criterion: DepthCriterion) -> Result<DepthCriterion, Error> {
    match criterion {
        DepthCriterion::Growth { ratio: limit }
        | DepthCriterion::IrradianceDrop { drop: limit }
        | DepthCriterion::LargestDiameter { diameter: limit }
        | DepthCriterion::LineDoseDrop { drop: limit } => {
            check(criterion.param(), limit)?;
        }
        DepthCriterion::Rayleigh => {}
    }
    Ok(criterion)
}

/// Offset in Rayleigh ranges at which the line dose has dropped: √(p·(2 − p))/(1 − p).
pub(super) fn rayleigh_ranges_for_line_dose(drop: f64) -> Twofold {
    let p = Twofold::from(drop);
    (p * (Twofold::from(2.0) - p)).square_root() / (Twofold::ONE - p)
}

/// Half the range over z_R.
fn half_in_rayleigh_ranges(beam: &CheckedBeam, criterion: DepthCriterion) -> Result<Twofold, Error> {
    Ok(match criterion {
        DepthCriterion::Growth { ratio } => rayleigh_ranges_for(Twofold::from(ratio)),
        DepthCriterion::Rayleigh => Twofold::ONE,
        DepthCriterion::IrradianceDrop { drop } => {
            let p = Twofold::from(drop);
            (p / (Twofold::ONE - p)).square_root()
        }
        DepthCriterion::LargestDiameter { diameter } => reach(beam, Param::LargestDiameter, diameter)?,
        DepthCriterion::LineDoseDrop { drop } => rayleigh_ranges_for_line_dose(drop),
    })
}

/// Offset in Rayleigh ranges at which the spot is this wide, refused if the waist is wider.
fn reach(beam: &CheckedBeam, param: Param, diameter: f64) -> Result<Twofold, Error> {
    if diameter < beam.waist_diameter {
        let (_, greatest) = param.range();
        return Err(Error::Unreachable { param, value: diameter, least: beam.waist_diameter, greatest });
    }
    Ok(rayleigh_ranges_for_diameter(beam, diameter))
}

/// The range in which the spot is at most this wide.
pub(crate) fn range_for_diameter(
    beam: &CheckedBeam,
    param: Param,
    diameter: f64,
) -> Result<FocusRange, Error> {
    let half = beam.rayleigh_range * reach(beam, param, diameter)?;
    Ok(FocusRange::about_waist(half, beam.cone))
}

/// Half the range, before it was rounded.
pub(crate) fn half_range_of(beam: &CheckedBeam, criterion: DepthCriterion) -> Result<Twofold, Error> {
    Ok(beam.rayleigh_range * half_in_rayleigh_ranges(beam, criterion)?)
}

pub(crate) fn range_of(beam: &CheckedBeam, criterion: DepthCriterion) -> Result<FocusRange, Error> {
    Ok(FocusRange::about_waist(half_range_of(beam, criterion)?, beam.cone))
}

/// Depth of focus of a round beam, from its end toward the lens to its end away from it.
///
/// Formulas for each criterion in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/depth_of_focus.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for the number in
/// the criterion; [`Error::Unreachable`] if the largest diameter is below the waist diameter;
/// [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::{focus::{depth_of_focus, DepthCriterion}, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let depth = depth_of_focus(&beam, DepthCriterion::IrradianceDrop { drop: 0.2 })?;
/// assert_eq!((depth.away_from_lens_z * 1e9).round(), 239_077.0); // 0.239 mm each way
/// assert_eq!((depth.full * 1e9).round(), 478_154.0);             // 0.478 mm in all
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "DOF")]
#[doc(alias = "usable range")]
#[must_use = "the range is the result"]
pub fn depth_of_focus(beam: &Beam, criterion: DepthCriterion) -> Result<FocusRange, Error> {
    let checked = checked_beam(beam)?;
    range_of(&checked, checked_criterion(criterion)?)
}
