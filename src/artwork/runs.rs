//! Runs: stretches of set, or of clear, pixels in the rows of a mask.
//!
//! A run is two numbers, the column of its first pixel and the column after its last. The runs of a row are written
//! one after the other, so that an even place holds where a run starts and an odd place where it ends.

use super::{Bitmap, words_in_row};
use crate::error::{Error, Param, check};

/// Where a run starts, and the column after its last pixel.
pub(crate) type Run = [u16; 2];

/// Which pixels of a mask are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    /// The set ones.
    Ink,
    /// The clear ones.
    Ground,
}

impl Part {
    /// What turns a word of the mask into one whose set bits are meant.
    fn flip(self) -> u64 {
        match self {
            Self::Ink => 0,
            Self::Ground => u64::MAX,
        }
    }
}

/// Most pixels of a drawing.
const MOST_PIXELS: usize = 1 << 28;
/// Most rows of a drawing.
pub(crate) const MOST_ROWS: usize = 65_535;
/// So many runs are allowed in a mask of any size.
const ALWAYS_ALLOWED: usize = 1 << 20;

/// How many runs there is room for: all that there can be in up to 2 million pixels, then 2²⁰, and in a mask of more
/// than 2²⁵ pixels one for each 32 of them. A page of small text has one for about 100.
pub(crate) const fn run_capacity(width: usize, height: usize) -> usize {
    let pixels = width.saturating_mul(height);
    let pixels = if pixels < MOST_PIXELS { pixels } else { MOST_PIXELS };
    let height = if height < MOST_ROWS { height } else { MOST_ROWS };
    // A row of an odd width may hold half a run more than half its pixels.
    let most = pixels / 2 + height;
    let allowed = if pixels / 32 > ALWAYS_ALLOWED { pixels / 32 } else { ALWAYS_ALLOWED };
    if most < allowed { most } else { allowed }
}

/// The error of a mask that has too many runs.
pub(crate) fn too_many_runs(runs: usize, width: usize, height: usize) -> Error {
    let greatest = run_capacity(width, height) as f64;
    Error::OutOfRange { param: Param::PixelRuns, value: runs as f64, least: 0.0, greatest }
}

/// Refuses a mask of a size that no drawing may have.
pub(crate) fn check_size(width: usize, height: usize) -> Result<(), Error> {
    check(Param::DrawingWidth, width as f64)?;
    check(Param::DrawingHeight, height as f64)?;
    check(Param::DrawingPixels, width as f64 * height as f64)?;
    Ok(())
}

/// Bits of the last word of a row that belong to pixels.
fn last_bits(width: usize) -> u64 {
    u64::MAX >> (64 * words_in_row(width) - width)
}

/// Writes where runs of the row start and end, in turn. Tells how many numbers that are, or nothing if there is no
/// room for them.
#[inline(always)]
pub(crate) fn find_runs(row: &[u64], width: usize, part: Part, edges: &mut [u16]) -> Option<usize> {
    let (flip, last) = (part.flip(), row.len().wrapping_sub(1));
    let (mut found, mut before) = (0, 0);
    for (n, &word) in row.iter().enumerate() {
        let mut pixels = word ^ flip;
        if n == last {
            pixels &= last_bits(width);
        }
        // A bit for each pixel that differs from the one before it.
        let mut changes = pixels ^ (pixels << 1 | before);
        before = pixels >> 63;
        while changes != 0 {
            *edges.get_mut(found)? = (64 * n + changes.trailing_zeros() as usize) as u16;
            found += 1;
            changes &= changes - 1;
        }
    }
    if found % 2 == 1 {
        // The last run goes on to the end of the row.
        *edges.get_mut(found)? = width as u16;
        found += 1;
    }
    Some(found)
}

/// How many runs there are in these rows of a mask.
pub(crate) fn count_runs(mask: &Bitmap, rows: core::ops::Range<usize>, part: Part) -> usize {
    let (width, flip) = (mask.width(), part.flip());
    let count = |y| {
        let row = mask.row(y);
        let (mut runs, mut before) = (0, 0);
        for (n, &word) in row.iter().enumerate() {
            let pixels = if n + 1 == row.len() { (word ^ flip) & last_bits(width) } else { word ^ flip };
            runs += (pixels & !(pixels << 1 | before)).count_ones() as usize;
            before = pixels >> 63;
        }
        runs
    };
    rows.map(count).sum()
}

/// Rows of which a piece of work is made, so that it takes a few milliseconds.
pub(crate) fn rows_at_a_time(width: usize) -> usize {
    ((1 << 20) / width.max(1)).max(1)
}
