//! Pieces less holes, counted without looking for either.

use super::simd::vectorised;
use super::{Bitmap, words_in_row};

/// Components of ink less holes, for ink that hangs together over eight neighbours.
///
/// χ = (Q₁ − Q₃ − 2·Q_D) / 4, where Q₁ and Q₃ count the squares of 2 × 2 pixels of which one or three are set, and
/// Q_D those of which two are set that touch at a corner alone; squares reach one pixel beyond the edge of the mask.
/// Bit quads of S. B. Gray, *Local properties of binary images in two dimensions* (1971), cited from memory; the tests
/// hold it against components and holes that were counted one by one.
#[must_use]
pub fn euler_number(mask: &Bitmap) -> i64 {
    // The square in whose lower right corner a pixel lies, for all pixels of the rows and one row and column more.
    let sum = |y: usize| {
        let above = y.checked_sub(1).map_or(&[][..], |above| mask.row(above));
        vectorised(|| row_of_squares(above, mask.row(y), mask.width()))
    };
    (0..=mask.height()).map(sum).sum::<i64>() / 4
}

/// Q₁ − Q₃ − 2·Q_D of the squares between two rows.
#[inline(always)]
fn row_of_squares(above: &[u64], here: &[u64], width: usize) -> i64 {
    let word = |row: &[u64], n: usize| row.get(n).copied().unwrap_or(0);
    let (mut odd, mut three, mut diagonal) = (0, 0, 0);
    let (mut above_before, mut here_before) = (0, 0);
    // The squares at the right edge have their lower right corner in the column after the last.
    for n in 0..words_in_row(width + 1) {
        let (b, d) = (word(above, n), word(here, n));
        let (a, c) = (b << 1 | above_before, d << 1 | here_before);
        (above_before, here_before) = (b >> 63, d >> 63);
        let one_or_three = a ^ b ^ c ^ d;
        odd += i64::from(one_or_three.count_ones());
        three += i64::from((one_or_three & (a & b | c & d)).count_ones());
        diagonal += i64::from((!(a ^ d) & !(b ^ c) & (a ^ b)).count_ones());
    }
    odd - 2 * three - 2 * diagonal
}
