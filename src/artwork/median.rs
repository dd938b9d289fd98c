//! The median exposure along centre-lines.

use super::bitmap::Bitmap;
use super::exposure::FULL_DOSE;
use super::runs::rows_at_a_time;
use super::watch::Watch;
use super::workspace::{Workspace, words_for};
use crate::error::Error;

/// Levels of an exposure map.
const LEVELS: usize = 1 + u16::MAX as usize;
/// Room that [`median_along`] needs, in 64-bit words.
pub(crate) const MEDIAN_WORDS: usize = words_for::<u32>(LEVELS);

/// The lower median of the exposure over the pixels of a mask, relative to a wide even fill; NaN if there are none.
pub(crate) fn median_along(
    mask: Bitmap<'_>,
    exposure: &[u16],
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<f64, Error> {
    let counts: &mut [u32] = Workspace::new(room, MEDIAN_WORDS)?.take(LEVELS)?;
    let mut pixels = 0;
    let piece = rows_at_a_time(mask.width());
    for (y, levels) in exposure.chunks_exact(mask.width().max(1)).enumerate() {
        if y % piece == 0 {
            watch.done(y as f64 / mask.height().max(1) as f64)?;
        }
        for (&word, levels) in mask.row(y).iter().zip(levels.chunks(64)) {
            let mut left = word;
            while left != 0 {
                let level = levels.get(left.trailing_zeros() as usize).copied().unwrap_or_default();
                left &= left - 1;
                if let Some(count) = counts.get_mut(usize::from(level)) {
                    *count += 1;
                    pixels += 1;
                }
            }
        }
    }
    let mut below = 0;
    for (level, &count) in counts.iter().enumerate() {
        below += count;
        if 2 * u64::from(below) >= pixels && pixels > 0 {
            return Ok(level as f64 / f64::from(FULL_DOSE));
        }
    }
    Ok(f64::NAN)
}
