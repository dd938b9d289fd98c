//! Masks of one bit for each pixel.
//!
//! Rows of whole 64-bit words: bit k of word n is column 64·n + k. Bits beyond the width are zero.

use super::bands::Bands;
use super::simd::vectorised;
use super::watch::Watch;
use crate::error::{Error, Param, check_length};

/// 64-bit words in a row of so many pixels.
#[must_use]
pub const fn words_in_row(width: usize) -> usize {
    width.div_ceil(64)
}

/// A mask to read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bitmap<'b> {
    words: &'b [u64],
    width: usize,
    height: usize,
}

/// A mask to write.
#[derive(Debug, PartialEq, Eq)]
pub struct BitmapMut<'b> {
    words: &'b mut [u64],
    width: usize,
    height: usize,
}

fn checked_length(words: usize, width: usize, height: usize) -> Result<(), Error> {
    // No slice is as long as the greatest number there is.
    let expected = words_in_row(width).saturating_mul(height);
    check_length(Param::Output, words, expected)
}

impl<'b> Bitmap<'b> {
    /// A mask over words of which there are just enough; bits beyond the width must be zero.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] for another number of words.
    pub fn new(words: &'b [u64], width: usize, height: usize) -> Result<Self, Error> {
        checked_length(words.len(), width, height)?;
        Ok(Bitmap { words, width, height })
    }

    /// Pixels in a row.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// All words, row by row.
    #[must_use]
    pub fn words(&self) -> &'b [u64] {
        self.words
    }

    /// The words of one row; none beyond the last.
    #[must_use]
    pub fn row(&self, y: usize) -> &'b [u64] {
        if y >= self.height {
            return &[];
        }
        let in_row = words_in_row(self.width);
        self.words.get(y * in_row..(y + 1) * in_row).unwrap_or(&[])
    }

    /// Whether a pixel is set; none is outside.
    #[must_use]
    pub fn get(&self, x: usize, y: usize) -> bool {
        let word = if x < self.width { self.row(y).get(x / 64) } else { None };
        word.is_some_and(|word| word >> (x % 64) & 1 == 1)
    }

    /// How many pixels are set.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.words.iter().map(|word| u64::from(word.count_ones())).sum()
    }
}

impl<'b> BitmapMut<'b> {
    /// As [`Bitmap::new`].
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] for another number of words.
    pub fn new(words: &'b mut [u64], width: usize, height: usize) -> Result<Self, Error> {
        checked_length(words.len(), width, height)?;
        Ok(BitmapMut { words, width, height })
    }

    /// The mask, to read.
    #[must_use]
    pub fn view(&self) -> Bitmap<'_> {
        Bitmap { words: self.words, width: self.width, height: self.height }
    }

    /// All words, row by row.
    pub(crate) fn words_mut(&mut self) -> &mut [u64] {
        self.words
    }

    /// The words of all rows, one row after the other.
    pub fn rows_mut(&mut self) -> impl Iterator<Item = &mut [u64]> {
        self.words.chunks_exact_mut(words_in_row(self.width).max(1))
    }

    /// Does `fill` on the words of every row, in bands over the threads. Takes one word of room for each.
    pub(crate) fn fill_by_rows(
        &mut self,
        room: &mut [u64],
        watch: &mut Watch<'_>,
        fill: impl Fn(usize, &mut [u64]) + Sync,
    ) -> Result<(), Error> {
        let in_row = words_in_row(self.width);
        Bands::of(self.width, self.height, 1, 1).run(self.words, room, watch, |rows, words, _, _| {
            for (y, row) in rows.zip(words.chunks_exact_mut(in_row.max(1))) {
                fill(y, row);
            }
            Ok(())
        })
    }
}

/// One bit for each of these bytes, which are 0 or 1.
#[inline(always)]
pub(crate) fn packed(flags: &[u8; 64]) -> u64 {
    // Bit k of byte j is the flag at 8·k + j …
    let mut bits = 0;
    for (k, eight) in bytemuck::cast::<[u8; 64], [u64; 8]>(*flags).iter().enumerate() {
        bits |= u64::from_le(*eight) << k;
    }
    // … and becomes bit j of byte k: eight rows of eight bits are turned over their diagonal, first in squares of two
    // by two bits, then of four by four, then all (from memory: Warren, Hacker's Delight).
    for (shift, upper) in [(7, 0x00AA_00AA_00AA_00AA), (14, 0x0000_CCCC_0000_CCCC), (28, 0xF0F0_F0F0)] {
        let swapped = (bits ^ bits >> shift) & upper;
        bits ^= swapped ^ swapped << shift;
    }
    bits
}

/// Sets the bits of a row for the samples of which `is_set` says so.
pub(crate) fn pack_row<T: Copy>(samples: &[T], words: &mut [u64], is_set: impl Fn(T) -> bool) {
    vectorised(
        #[inline(always)]
        || {
            for (samples, word) in samples.chunks(64).zip(words) {
                let mut flags = [0; 64];
                for (flag, sample) in flags.iter_mut().zip(samples) {
                    *flag = u8::from(is_set(*sample));
                }
                *word = packed(&flags);
            }
        },
    );
}

#[cfg(test)]
mod tests {
    use super::packed;

    #[test]
    fn each_flag_becomes_its_own_bit() {
        for place in 0..64 {
            let mut flags = [0; 64];
            flags[place] = 1;
            assert_eq!(packed(&flags), 1 << place);
            let others = flags.map(|flag| 1 - flag);
            assert_eq!(packed(&others), !(1 << place));
        }
    }
}
