//! Height bands: how many settings of the focus a surface needs, and where.
//!
//! | symbol | meaning                                                                  | unit |
//! |--------|--------------------------------------------------------------------------|------|
//! | h, l   | heights of the highest and the lowest place, + away from the lens        | m    |
//! | t, a   | ends of the depth of focus toward the lens and away from it              | m    |
//! | μ      | margin: the share of the depth that is kept for errors of set-up         | 1    |
//! | N      | number of bands                                                          | 1    |
//!
//! N = ⌈(l − h)/((a − t)·(1 − μ))⌉, at least 1
//! limits h + i·(l − h)/N, i = 0 … N; focus of each band at its middle less (t + a)/2
//!
//! All bands are equally high, so that what is left of the depth is shared by all of them.
//!
//! Rounding: a band may be higher than it should by a part in 1e9, less than anything that is measured here.
//! Without that, a range of 2.1 in bands of 0.7 would need four of them, because the double nearest to 2.1 is
//! more than three times that nearest to 0.7.
//!
//! Derived here. Not modelled: where on the surface each band lies, which hangs on its shape.

use super::focus_height::{CheckedDepth, DepthEnds, checked_heights, half, parts_needed};
use crate::error::{Error, Param, check};
use crate::model::twofold::Twofold;

/// How a surface is divided into bands of height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightBands {
    /// How many bands are needed.
    pub count: u32,
    /// Height of each band in metres.
    pub band_height: f64,
    /// Height of each band over the full depth of focus: what is left to 1 is spare.
    pub share_of_depth: f64,
}

/// Bands of equal height into which a surface from `highest_z` to `lowest_z` must be divided so that each stays
/// within the depth of focus, less a `margin` of it; their limits and where to set focus for each.
///
/// Ask first, with two empty slices, how many bands there are. Then `limits` takes one number more than that, from
/// the highest place to the lowest, and `focus_heights` one for each band; what is longer is filled with NaN, and
/// either may be left out by an empty slice. All in metres, + away from the lens. On any error all of both is NaN.
///
/// Formulas, and what is done about rounding, in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/height_bands.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for `highest_z`, then `lowest_z`, which must not be less than it,
/// then the two ends of the depth, then `margin`, from 0 to 0.99; [`Error::OutsideModel`] for a depth of less
/// than 1 nm ([`Param::UsableDepth`]) and for more than a million bands; [`Error::LengthMismatch`] for a
/// slice that is too short, naming what is needed ([`Param::BandLimits`], [`Param::FocusHeights`]).
///
/// # Example
/// ```
/// use spotwise::model::surface::{DepthEnds, height_bands};
/// // A step of 1.4 mm, 0.25 mm of depth each way, and a tenth of it for errors of set-up.
/// let depth = DepthEnds { toward_lens_z: -0.25e-3, away_from_lens_z: 0.25e-3 };
/// let bands = height_bands(0.0, 1.4e-3, &depth, 0.1, &mut [], &mut [])?;
/// assert_eq!(bands.count, 4); // 1.4/0.45 = 3.1
/// let (mut limits, mut focus) = ([0.0; 5], [0.0; 4]);
/// height_bands(0.0, 1.4e-3, &depth, 0.1, &mut limits, &mut focus)?;
/// assert_eq!(limits.map(|z| (z * 1e6).round()), [0.0, 350.0, 700.0, 1050.0, 1400.0]);
/// assert_eq!(focus.map(|z| (z * 1e6).round()), [175.0, 525.0, 875.0, 1225.0]);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "refocus steps")]
pub fn height_bands(
    highest_z: f64,
    lowest_z: f64,
    depth: &DepthEnds,
    margin: f64,
    limits: &mut [f64],
    focus_heights: &mut [f64],
) -> Result<HeightBands, Error> {
    limits.fill(f64::NAN);
    focus_heights.fill(f64::NAN);
    let (highest_z, lowest_z) = checked_heights(highest_z, lowest_z)?;
    let depth = CheckedDepth::of(depth)?;
    let margin = check(Param::BandMargin, margin)?;
    let range = Twofold::sum(lowest_z, -highest_z);
    let used = depth.full * Twofold::sum(1.0, -margin);
    let count = parts_needed(Param::HeightBands, range / used)?;
    long_enough(Param::BandLimits, limits, count as usize + 1)?;
    long_enough(Param::FocusHeights, focus_heights, count as usize)?;

    let bands = Twofold::from(f64::from(count));
    // i·l + (N − i)·h over N: where that is nothing, it is so exactly.
    let weighed = |of_lowest: f64, of_highest: f64| {
        Twofold::product(lowest_z, of_lowest) + Twofold::product(highest_z, of_highest)
    };
    for (at, limit) in (0..=count).zip(limits.iter_mut()) {
        *limit = (weighed(f64::from(at), f64::from(count - at)) / bands).to_f64();
    }
    for (at, focus) in (0..count).zip(focus_heights.iter_mut()) {
        // Twice the middle of the band, less that of the depth.
        let passed = 2.0 * f64::from(at) + 1.0;
        let middle = weighed(passed, 2.0 * f64::from(count) - passed) - bands * depth.both_ends();
        *focus = half(middle / bands).to_f64();
    }
    let band_height = range / bands;
    Ok(HeightBands {
        count,
        band_height: band_height.to_f64(),
        share_of_depth: (band_height / depth.full).to_f64(),
    })
}

/// Refuses a slice that is too short; an empty one is left out.
pub(super) fn long_enough(param: Param, slice: &[f64], expected: usize) -> Result<(), Error> {
    let value = slice.len();
    if value > 0 && value < expected {
        return Err(Error::LengthMismatch { param, value, expected });
    }
    Ok(())
}
