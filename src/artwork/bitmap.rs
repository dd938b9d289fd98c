//! Masks of one bit for each pixel.
//!
//! Rows of whole 64-bit words: bit k of word n is column 64·n + k. Bits beyond the width are zero.

use crate::error::{Error, Param};

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
    if words == expected {
        Ok(())
    } else {
        Err(Error::LengthMismatch { param: Param::Output, value: words, expected })
    }
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
}
