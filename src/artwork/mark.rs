//! From exposure to mark: what answers to the dose, and how deep.
//!
//! | symbol | meaning                                                              | unit |
//! |--------|----------------------------------------------------------------------|------|
//! | E      | exposure relative to the inside of an even fill                      | 1    |
//! | q      | dose ratio: dose inside an even fill over the threshold dose         | 1    |
//! | ℓ      | penetration depth: the depth over which the dose falls by e          | m    |
//! | h      | threshold depth: threshold dose over the energy that removes a volume | m    |
//! | D      | visible depth: the depth from which on a place counts as marked      | m    |
//!
//! | what answers         | depth           | marked where       | source                                     |
//! |----------------------|-----------------|--------------------|--------------------------------------------|
//! | coating, melt        | none            | q·E ≥ 1            | threshold response; `model::mark::dose`    |
//! | bulk, logarithmic    | ℓ·ln(q·E)       | q·E ≥ exp(D/ℓ)     | Beer and Lambert; `model::mark::material`  |
//! | bulk, linear         | h·(q·E − 1)     | q·E ≥ 1 + D/h      | every joule above removes its share; there |
//!
//! A melt closes gaps: what a disc of the bridge's diameter cannot enter from the ground is marked as well.
//! Not modelled: heat left by earlier lines, and coatings in which the doses of neighbouring lines add up in part.

use super::bitmap::{BitmapMut, pack_row};
use super::exposure::FULL_DOSE;
use super::watch::Watch;
use crate::error::{Error, Param, check, check_length, check_within};
use crate::model::math;

/// What answers to the dose of a preflight.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Answer {
    /// A coating that is removed above the threshold, and no further. Code 1.
    Coating,
    /// A bulk into which the dose falls off by an exponential law. Code 2.
    LogarithmicBulk {
        /// Depth at which the dose has fallen by e, in metres.
        penetration_depth: f64,
        /// Depth from which on a place counts as marked, in metres; 0 for any.
        visible_depth: f64,
    },
    /// A bulk of which every joule above the threshold removes its share. Code 3.
    LinearBulk {
        /// Threshold dose over the energy that removes one volume, in metres: the depth that doubling the dose adds
        /// to what just marks.
        threshold_depth: f64,
        /// Depth from which on a place counts as marked, in metres; 0 for any.
        visible_depth: f64,
    },
    /// A melt, which closes gaps up to a width. Code 4.
    Melt {
        /// Width of the gaps that close, in metres; 0 for none.
        bridge: f64,
    },
}

impl Answer {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Coating => 1,
            Self::LogarithmicBulk { .. } => 2,
            Self::LinearBulk { .. } => 3,
            Self::Melt { .. } => 4,
        }
    }

    /// The choice with this permanent code, ignoring the arguments that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The numbers are checked when they are used.
    pub fn from_code(
        code: u32,
        penetration_depth: f64,
        threshold_depth: f64,
        visible_depth: f64,
        bridge: f64,
    ) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Coating),
            2 => Ok(Self::LogarithmicBulk { penetration_depth, visible_depth }),
            3 => Ok(Self::LinearBulk { threshold_depth, visible_depth }),
            4 => Ok(Self::Melt { bridge }),
            value => Err(Error::UnknownChoice { param: Param::Response, value }),
        }
    }

    /// Checks the numbers of the answer.
    pub(crate) fn checked(self) -> Result<Self, Error> {
        match self {
            Self::Coating => {}
            Self::LogarithmicBulk { penetration_depth: depth, visible_depth } => {
                check(Param::PenetrationDepth, depth)?;
                // Beyond, no dose ratio that is allowed would mark.
                check_within(Param::VisibleDepth, visible_depth, 0.0, DEEPEST * depth)?;
            }
            Self::LinearBulk { threshold_depth: depth, visible_depth } => {
                check(Param::ThresholdDepth, depth)?;
                check_within(Param::VisibleDepth, visible_depth, 0.0, DEEPEST * depth)?;
            }
            Self::Melt { bridge } => {
                check(Param::MeltBridge, bridge)?;
            }
        }
        Ok(self)
    }

    /// The dose over the threshold dose from which on a place counts as marked.
    pub(crate) fn least_dose(&self) -> f64 {
        match *self {
            Self::Coating | Self::Melt { .. } => 1.0,
            Self::LogarithmicBulk { penetration_depth, visible_depth } => {
                math::exp(visible_depth / penetration_depth)
            }
            Self::LinearBulk { threshold_depth, visible_depth } => 1.0 + visible_depth / threshold_depth,
        }
    }

    /// Depth that this dose over the threshold dose leaves; none for a coating or a melt.
    pub(crate) fn depth(&self, dose: f64) -> f64 {
        let beyond = if dose > 1.0 { dose - 1.0 } else { 0.0 };
        match *self {
            Self::Coating | Self::Melt { .. } => 0.0,
            Self::LogarithmicBulk { penetration_depth, .. } => penetration_depth * math::log1p(beyond),
            Self::LinearBulk { threshold_depth, .. } => threshold_depth * beyond,
        }
    }
}

/// Greatest visible depth over penetration depth or threshold depth.
const DEEPEST: f64 = 10.0;

/// Least exposure, in units of [`FULL_DOSE`], that marks: the exposure is whole, so the limit is rounded up.
///
/// One more than the greatest exposure where no exposure marks.
pub(crate) fn least_level(dose_ratio: f64, answer: &Answer) -> u32 {
    let level = math::ceil(f64::from(FULL_DOSE) * answer.least_dose() / dose_ratio);
    // At least 1, so that no dose marks where no light falls.
    if level < 1.0 {
        1
    } else if level > f64::from(u16::MAX) {
        1 + u32::from(u16::MAX)
    } else {
        level as u32
    }
}

/// Marks every pixel whose exposure is at least `least`. Takes one word of room for each thread.
pub(crate) fn mark_from(
    exposure: &[u16],
    least: u32,
    mark: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    let Ok(least) = u16::try_from(least) else {
        mark.words_mut().fill(0);
        return Ok(());
    };
    let width = mark.view().width();
    mark.fill_by_rows(room, watch, |y, words| {
        let levels = exposure.get(y * width..(y + 1) * width).unwrap_or(&[]);
        pack_row(levels, words, |level| level >= least);
    })
}

/// Depth of the mark at every pixel in metres, from the exposure of a preflight; 0 for a coating or a melt.
///
/// Formulas in the module of [`Answer`]. Depths below the visible one are told as they are, and none is deeper than two
/// doses of an even fill go: see [`FULL_DOSE`].
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the numbers of the answer or the dose ratio;
/// [`Error::LengthMismatch`] if `depths` is not as long as `exposure`.
pub fn depth_map(
    exposure: &[u16],
    answer: &Answer,
    dose_ratio: f64,
    depths: &mut [f32],
) -> Result<(), Error> {
    depths.fill(f32::NAN);
    let answer = answer.checked()?;
    let dose_ratio = check(Param::AnyDoseRatio, dose_ratio)?;
    check_length(Param::Output, depths.len(), exposure.len())?;
    for (depth, &level) in depths.iter_mut().zip(exposure) {
        *depth = answer.depth(dose_ratio * f64::from(level) / f64::from(FULL_DOSE)) as f32;
    }
    Ok(())
}
