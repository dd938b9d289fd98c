//! Where to set focus over a surface that is not flat, and what a depth of focus is there.
//!
//! | symbol | meaning                                                        | unit |
//! |--------|----------------------------------------------------------------|------|
//! | h, l   | heights of the highest and the lowest place, + away from the lens, h ≤ l | m |
//! | f      | focus height: where the waist (of an astigmatic beam its z = 0) lies    | m |
//! | t, a   | ends of the depth of focus toward the lens and away from it, counted from there | m |
//!
//! f = (h + l)/2
//!
//! The diameter of a round beam is even in z − f and grows with its magnitude, so that the worst place is
//! an end of the surface and the least bad focus has both ends equally far off.
//! To have the heights from s to e share a depth of focus evenly: f = (s + e)/2 − (t + a)/2.
//!
//! Derived here. Which heights a surface has between its ends does not matter to the worst place; it
//! does to the mean.

use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::focus::{Defocus, FocusRange, checked_defocus};
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;

/// Ends of a depth of focus, from wherever it is known: computed or found by trial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthEnds {
    /// The end nearer the lens in metres, from the focus, + away from the lens; so mostly negative.
    pub toward_lens_z: f64,
    /// The end farther from the lens in metres, from the focus, + away from the lens.
    pub away_from_lens_z: f64,
}

impl From<FocusRange> for DepthEnds {
    fn from(range: FocusRange) -> Self {
        Self { toward_lens_z: range.toward_lens_z, away_from_lens_z: range.away_from_lens_z }
    }
}

/// What focus is set on where a surface recedes from its highest place. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum FocusAim {
    /// On the highest place, such as the crown of a round part or the surface before the first pass:
    /// only the part of the depth of focus away from the lens is used.
    HighestPlace = 1,
    /// Below it, so that the whole depth of focus is used: its middle lies midway down.
    Midway = 2,
}

impl FocusAim {
    /// Every aim, in the order of its code.
    pub const ALL: [Self; 2] = [Self::HighestPlace, Self::Midway];

    /// The aim with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::HighestPlace),
            2 => Ok(Self::Midway),
            value => Err(Error::UnknownChoice { param: Param::FocusAim, value }),
        }
    }
}

/// A depth of focus that passed its checks.
#[derive(Debug, Clone, Copy)]
pub(super) struct CheckedDepth {
    toward_lens_z: f64,
    away_from_lens_z: f64,
    pub(super) full: Twofold,
}

impl CheckedDepth {
    /// Checks both ends, then that they lie apart and in this order.
    pub(super) fn of(depth: &DepthEnds) -> Result<Self, Error> {
        let toward_lens_z = check(Param::TowardLensZ, depth.toward_lens_z)?;
        let away_from_lens_z = check(Param::AwayFromLensZ, depth.away_from_lens_z)?;
        let full = Twofold::sum(away_from_lens_z, -toward_lens_z);
        within_model(Param::UsableDepth, full.to_f64())?;
        Ok(Self { toward_lens_z, away_from_lens_z, full })
    }

    /// How far a surface may recede from its highest place and stay within the depth.
    pub(super) fn usable(&self, aim: FocusAim) -> Result<Twofold, Error> {
        match aim {
            FocusAim::HighestPlace => {
                // Else the highest place itself is out of focus.
                let (least, _) = Param::TowardLensZ.range();
                check_within(Param::TowardLensZ, self.toward_lens_z, least, 0.0)?;
                Ok(Twofold::from(within_model(Param::UsableDepth, self.away_from_lens_z)?))
            }
            FocusAim::Midway => Ok(self.full),
        }
    }

    /// −t: the focus below a place that lies at the end of the depth toward the lens.
    pub(super) fn below_toward_end(&self) -> Twofold {
        Twofold::from(0.0 - self.toward_lens_z)
    }

    /// t + a, twice the middle of the depth.
    pub(super) fn both_ends(&self) -> Twofold {
        Twofold::sum(self.toward_lens_z, self.away_from_lens_z)
    }
}

/// Checks the two ends of a surface.
pub(super) fn checked_heights(highest_z: f64, lowest_z: f64) -> Result<(f64, f64), Error> {
    let highest_z = check(Param::HighestZ, highest_z)?;
    let (_, greatest) = Param::LowestZ.range();
    let lowest_z = check_within(Param::LowestZ, lowest_z, highest_z, greatest)?;
    Ok((highest_z, lowest_z))
}

/// Half of an exact sum.
pub(super) fn half(sum: Twofold) -> Twofold {
    sum * Twofold::from(0.5)
}

/// Share by which whole parts may fall short of what they divide and still be enough. A tenth of a nanometre
/// in a decimetre is below anything that is measured here, and far above the rounding of 2.1 and 0.7, whose doubles
/// have a quotient of more than 3.
const SLACK: f64 = 1e-9;

/// The least whole number of parts, at least one, that make up `quotient` parts but for [`SLACK`]; refused
/// where `param` does not allow so many.
pub(crate) fn parts_needed(param: Param, quotient: Twofold) -> Result<u32, Error> {
    let needed = (quotient * (Twofold::ONE - Twofold::from(SLACK))).to_f64();
    let (least, greatest) = param.range();
    if needed > greatest {
        return Err(Error::OutsideModel { param, value: needed, least, greatest });
    }
    let below = needed as u32;
    Ok(if f64::from(below) < needed { below + 1 } else { below.max(1) })
}

/// The greatest whole number of parts, from one to `most`, that fit into `quotient` parts but for [`SLACK`].
pub(crate) fn parts_fitting(quotient: Twofold, most: u32) -> u32 {
    let fitting = (quotient * (Twofold::ONE + Twofold::from(SLACK))).to_f64();
    let parts = if fitting >= f64::from(most) { most } else { fitting as u32 };
    // Last, so that whoever divides by it is seen to divide by no zero.
    parts.max(1)
}

/// Whether a part is no longer than a whole but for [`SLACK`].
pub(crate) fn fits(part: f64, whole: Twofold) -> bool {
    part <= (whole * (Twofold::ONE + Twofold::from(SLACK))).to_f64()
}

/// The focus height that is least bad over a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusBetween {
    /// Where to set focus, in metres, + away from the lens.
    pub focus_z: f64,
    /// From there to either end of the surface, in metres.
    pub half_range: f64,
    /// The spot at either end of the surface, which no other focus height betters.
    pub worst: Defocus,
}

/// The focus height that makes the worst spot on a surface from `highest_z` to `lowest_z` as small as can
/// be, and that spot. Both heights count from the same datum, + away from the lens.
///
/// It is the middle of the two; [module](self). *Worst* means widest: the greatest growth, which is also the
/// least irradiance and the least line dose.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/focus_between.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `highest_z`, then for
/// `lowest_z`, which must not be less than it; [`Error::OutsideModel`] if the half angle of the beam exceeds
/// 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::{optics::Beam, surface::focus_between};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// // A plate bowed by a millimetre: 0.2 mm above its datum at the edge, 0.8 mm below it in the middle.
/// let best = focus_between(&beam, -0.2e-3, 0.8e-3)?;
/// assert_eq!((best.focus_z * 1e9).round(), 300_000.0);        // 0.3 mm below the datum
/// assert_eq!((best.half_range * 1e9).round(), 500_000.0);
/// assert_eq!((best.worst.growth * 1e4).round(), 14_469.0);    // as half a millimetre off focus
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "best focus")]
#[must_use = "the focus height is the result"]
pub fn focus_between(beam: &Beam, highest_z: f64, lowest_z: f64) -> Result<FocusBetween, Error> {
    let checked = checked_beam(beam)?;
    let (highest_z, lowest_z) = checked_heights(highest_z, lowest_z)?;
    let half_range = half(Twofold::sum(lowest_z, -highest_z));
    Ok(FocusBetween {
        focus_z: half(Twofold::sum(highest_z, lowest_z)).to_f64(),
        half_range: half_range.to_f64(),
        worst: checked_defocus(&checked, half_range),
    })
}
