//! How far it is along its own row from each pixel to the nearest one of a kind, for the rows around an output row.
//!
//! One dimension of the exact Euclidean distance, which splits into a distance along the row and one from row to row
//! (names from memory: Saito and Toriwaki; Felzenszwalb and Huttenlocher). Along the row, d(x) becomes
//! min(d(x), d(x − s) + s, d(x + s) + s) for s = 1, 2, 4 …; after the steps up to s every way of up to 2·s − 1 pixels
//! has been tried, as its length is a sum of distinct steps. All loops are plain and become vectors of bytes.

use crate::artwork::bitmap::{Bitmap, words_in_row};
use crate::artwork::workspace::{Workspace, words_for};
use crate::error::Error;

/// To which pixels distances run.
///
/// Outside the mask every pixel counts as clear: a distance to the nearest set pixel never ends outside, one to
/// the nearest clear pixel may.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Nearest {
    /// The nearest pixel that is set.
    Set,
    /// The nearest pixel that is not set.
    Clear,
}

/// Pixels that are skipped or worked on together.
pub(crate) const CHUNK: usize = 256;
/// Pixels beside a row that its longest step looks at.
const MARGIN: usize = 128;

/// What is kept of a distance along the row.
pub(crate) trait Across: Copy + bytemuck::NoUninit + bytemuck::AnyBitPattern + PartialEq {
    /// No pixel of the kind within reach.
    const FAR: Self;
    /// From a distance, of which those beyond `reach` are far; 255 always is.
    fn of(distance: u8, reach: u8) -> Self;
}

/// The distance itself.
impl Across for u8 {
    const FAR: u8 = u8::MAX;
    #[inline(always)]
    fn of(distance: u8, _: u8) -> u8 {
        distance
    }
}

/// Its square.
impl Across for u16 {
    const FAR: u16 = u16::MAX;
    #[inline(always)]
    fn of(distance: u8, reach: u8) -> u16 {
        let wide = u16::from(distance);
        if distance > reach { Self::FAR } else { wide * wide }
    }
}

/// The byte of each bit of a byte: 0 where it is set, 255 elsewhere.
const BYTES: [[u8; 8]; 256] = {
    let mut bytes = [[u8::MAX; 8]; 256];
    let mut byte = 0;
    while byte < 256 {
        let mut bit = 0;
        while bit < 8 {
            if byte >> bit & 1 == 1 {
                bytes[byte][bit] = 0;
            }
            bit += 1;
        }
        byte += 1;
    }
    bytes
};

/// Distances along the row of as many rows as fit, each in the place of the row that many before.
pub(crate) struct RowsAcross<'w, T> {
    rows: &'w mut [T],
    /// Of each chunk of each row, whether there is anything but [`Across::FAR`] in it.
    near: &'w mut [u8],
    now: &'w mut [u8],
    next: &'w mut [u8],
    stride: usize,
    count: usize,
    reach: u8,
    nearest: Nearest,
}

/// Pixels of a row, up to whole words of a mask.
pub(crate) const fn stride(width: usize) -> usize {
    words_in_row(width) * 64
}

/// Words of room for [`RowsAcross::new`].
pub(crate) const fn rows_across_words<T>(width: usize, count: usize) -> usize {
    let stride = stride(width);
    words_for::<T>(stride * count)
        + words_for::<u8>(stride.div_ceil(CHUNK) * count)
        + 2 * words_for::<u8>(stride + 2 * MARGIN)
}

impl<'w, T: Across> RowsAcross<'w, T> {
    pub(crate) fn new(
        workspace: &mut Workspace<'w>,
        width: usize,
        count: usize,
        nearest: Nearest,
        reach: u8,
    ) -> Result<Self, Error> {
        let stride = stride(width);
        let rows = workspace.take(stride * count)?;
        let near = workspace.take(stride.div_ceil(CHUNK) * count)?;
        let now = workspace.take::<u8>(stride + 2 * MARGIN)?;
        let next = workspace.take::<u8>(stride + 2 * MARGIN)?;
        let outside = match nearest {
            Nearest::Set => u8::MAX,
            Nearest::Clear => 0,
        };
        now.fill(outside);
        next.fill(outside);
        Ok(RowsAcross { rows, near, now, next, stride, count, reach, nearest })
    }

    /// Works out row `y` of the mask.
    #[inline(always)]
    pub(crate) fn work_out(&mut self, mask: Bitmap<'_>, y: usize) {
        let place = y % self.count;
        let chunks = self.stride.div_ceil(CHUNK);
        let row = self.rows.get_mut(place * self.stride..(place + 1) * self.stride).unwrap_or(&mut []);
        let near = self.near.get_mut(place * chunks..(place + 1) * chunks).unwrap_or(&mut []);
        let words = mask.row(y);
        if words.iter().all(|word| *word == 0) {
            let (value, flag) = match self.nearest {
                Nearest::Set => (T::FAR, 0),
                Nearest::Clear => (T::of(0, self.reach), 1),
            };
            row.fill(value);
            near.fill(flag);
            return;
        }
        let flip = match self.nearest {
            Nearest::Set => 0,
            Nearest::Clear => u64::MAX,
        };
        let middle = self.now.get_mut(MARGIN..MARGIN + self.stride).unwrap_or(&mut []);
        for (word, bytes) in words.iter().zip(middle.chunks_exact_mut(64)) {
            for (byte, eight) in (word ^ flip).to_le_bytes().iter().zip(bytes.chunks_exact_mut(8)) {
                eight.copy_from_slice(&BYTES[usize::from(*byte)]);
            }
        }
        let mut step = 1;
        while step <= usize::from(self.reach).min(MARGIN) {
            let at = |offset: usize| self.now.get(offset..offset + self.stride).unwrap_or(&[]);
            let (left, here, right) = (at(MARGIN - step), at(MARGIN), at(MARGIN + step));
            let next = self.next.get_mut(MARGIN..MARGIN + self.stride).unwrap_or(&mut []);
            for (((next, left), here), right) in next.iter_mut().zip(left).zip(here).zip(right) {
                *next = (*here).min((*left).min(*right).saturating_add(step as u8));
            }
            core::mem::swap(&mut self.now, &mut self.next);
            step *= 2;
        }
        let middle = self.now.get(MARGIN..MARGIN + self.stride).unwrap_or(&[]);
        let chunks = row.chunks_mut(CHUNK).zip(middle.chunks(CHUNK)).zip(near);
        for ((row, distances), near) in chunks {
            let mut least = u8::MAX;
            for (out, distance) in row.iter_mut().zip(distances) {
                *out = T::of(*distance, self.reach);
                least = least.min(*distance);
            }
            *near = u8::from(least <= self.reach && least < u8::MAX);
        }
    }

    /// A piece of row `y`; none if nothing of the kind is within reach of any of its pixels.
    #[inline(always)]
    pub(crate) fn near(&self, y: usize, chunk: usize) -> Option<&[T]> {
        let place = y % self.count;
        let chunks = self.stride.div_ceil(CHUNK);
        if self.near.get(place * chunks + chunk) != Some(&1) {
            return None;
        }
        let start = place * self.stride + chunk * CHUNK;
        self.rows.get(start..(start + CHUNK).min((place + 1) * self.stride))
    }
}
