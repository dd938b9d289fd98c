//! The centre-line of strokes and of gaps: where the distance to the other side is greatest across.
//!
//! A pixel of the shape belongs to it if its distance to the nearest pixel of the other side is no less than those of
//! both neighbours in one of four directions and more than one of them, or no less than those of all eight
//! neighbours. Such a line has spurs into corners and is two pixels wide in strokes of an even width; shares of it are
//! what counts, not its length. Where the distance reaches the ruler's reach, the shape is simply wide and
//! has no centre-line.

use crate::artwork::across::{Nearest, stride};
use crate::artwork::bands::{Bands, Sum};
use crate::artwork::bitmap::{Bitmap, BitmapMut, packed, words_in_row};
use crate::artwork::distance::{Ruler, Search, Square, same_size, search_words};
use crate::artwork::simd::vectorised;
use crate::artwork::watch::Watch;
use crate::artwork::workspace::{Workspace, words_for};
use crate::error::Error;
use core::ops::Range;

/// Of which side of a drawing a centre-line runs in the middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Of the ink: the middle of strokes. Outside the drawing there is no ink.
    Ink,
    /// Of the ground: the middle of gaps. The edge of the drawing bounds no gap.
    Ground,
}

impl Side {
    fn nearest(self) -> Nearest {
        match self {
            Side::Ink => Nearest::Clear,
            Side::Ground => Nearest::Set,
        }
    }
}

/// The search for a centre-line.
#[derive(Clone, Copy)]
pub(crate) struct CentreSearch<'m> {
    pub(crate) ink: Bitmap<'m>,
    pub(crate) side: Side,
    pub(crate) ruler: Ruler,
}

/// Words of room for [`CentreSearch::rows`].
fn rows_words<S>(width: usize, height: usize, reach: u8) -> usize {
    3 * words_for::<S>(stride(width) + 2 * BESIDE)
        + words_in_row(width)
        + search_words::<S>(width, height, reach)
}

/// Places left and right of a row of distances; one would do, but so the rows stay where vectors like them.
const BESIDE: usize = 8;

impl CentreSearch<'_> {
    /// Words of room for one thread.
    pub(crate) fn words(&self) -> usize {
        let (width, height) = (self.ink.width(), self.ink.height());
        if self.ruler.counts_pixels() {
            rows_words::<u16>(width, height, self.ruler.reach_pixels())
        } else {
            rows_words::<f64>(width, height, self.ruler.reach_pixels())
        }
    }

    pub(crate) fn bands(&self) -> Bands {
        let (width, height) = (self.ink.width(), self.ink.height());
        Bands::of(width, height, self.ruler.nanoseconds() + 1, self.words())
    }

    /// Tells `each` of every wanted row the words of the centre-line and the squares of the distances.
    pub(crate) fn rows<S: Square>(
        &self,
        wanted: Range<usize>,
        workspace: &mut Workspace<'_>,
        watch: &mut Watch<'_>,
        mut each: impl FnMut(usize, &[u64], &[S]),
    ) -> Result<(), Error> {
        let (width, height) = (self.ink.width(), self.ink.height());
        let length = stride(width) + 2 * BESIDE;
        let far = S::of_reach(&self.ruler);
        // Outside, the ink ends; a gap there is as wide as can be.
        let outside = match self.side {
            Side::Ink => S::ZERO,
            Side::Ground => far,
        };
        let mut rows =
            [workspace.take::<S>(length)?, workspace.take::<S>(length)?, workspace.take::<S>(length)?];
        for row in &mut rows {
            row.fill(outside);
        }
        let line = workspace.take::<u64>(words_in_row(width))?;
        let only = match self.side {
            Side::Ink => Some(self.ink),
            Side::Ground => None,
        };
        let search = Search { mask: self.ink, nearest: self.side.nearest(), only, ruler: self.ruler };
        let around = wanted.start.saturating_sub(1)..(wanted.end + 1).min(height);
        let mut step = |y: usize, row: Option<&[S]>| {
            rows.rotate_left(1);
            let [above, middle, below] = &mut rows;
            let inside = below.get_mut(BESIDE..BESIDE + width).unwrap_or(&mut []);
            match row {
                Some(row) => inside.copy_from_slice(row),
                None => inside.fill(outside),
            }
            // The row told is the one below that of which the centre-line can be found.
            let Some(y) = y.checked_sub(1).filter(|y| wanted.contains(y)) else { return };
            vectorised(
                #[inline(always)]
                || self.row(y, [above, middle, below], far, line),
            );
            each(y, line, middle.get(BESIDE..BESIDE + width).unwrap_or(&[]));
        };
        search.rows::<S>(around, workspace, watch, |y, row| step(y, Some(row)))?;
        if wanted.end >= height {
            step(height, None);
        }
        Ok(())
    }

    #[inline(always)]
    fn row<S: Square>(&self, y: usize, rows: [&[S]; 3], far: S, line: &mut [u64]) {
        for ((index, word), ink) in line.iter_mut().enumerate().zip(self.ink.row(y)) {
            let pixels = crate::artwork::disc::pixels_in_word(self.ink.width(), index);
            let shape = match self.side {
                Side::Ink => *ink,
                Side::Ground => !ink & pixels,
            };
            *word = if shape == 0 { 0 } else { shape & centres(rows, BESIDE + index * 64, far) };
        }
    }
}

/// Which of the 64 pixels from `start` on are on the centre-line.
#[inline(always)]
fn centres<S: Square>(rows: [&[S]; 3], start: usize, far: S) -> u64 {
    let [above, middle, below] = rows;
    let at = |row: &'_ [S], from: usize| -> [S; 64] {
        row.get(from..from + 64).and_then(|row| row.try_into().ok()).unwrap_or([far; 64])
    };
    let here = at(middle, start);
    let mut within = 0;
    for here in &here {
        within |= u8::from(*here < far);
    }
    if within == 0 {
        return 0;
    }
    let mut across = [0; 64];
    let mut greatest = [u8::MAX; 64];
    let pairs = [
        (at(middle, start - 1), at(middle, start + 1)),
        (at(above, start), at(below, start)),
        (at(above, start - 1), at(below, start + 1)),
        (at(above, start + 1), at(below, start - 1)),
    ];
    for (one, other) in &pairs {
        let flags = across.iter_mut().zip(greatest.iter_mut());
        for (((across, greatest), here), (one, other)) in flags.zip(&here).zip(one.iter().zip(other)) {
            let no_less = u8::from(here >= one) & u8::from(here >= other);
            *across |= no_less & (u8::from(here > one) | u8::from(here > other));
            *greatest &= no_less;
        }
    }
    for ((across, greatest), here) in across.iter_mut().zip(&greatest).zip(&here) {
        *across = (*across | *greatest) & u8::from(*here < far);
    }
    packed(&across)
}

impl Sum for u64 {
    fn add(&mut self, other: u64) {
        *self += other;
    }
}

/// 64-bit words of room for [`centre_line`] with one thread; with the feature `parallel`, as many threads work as the
/// room has whole shares of this length.
#[must_use]
pub fn centre_line_words(width: usize, height: usize, ruler: &Ruler) -> usize {
    if ruler.counts_pixels() {
        rows_words::<u16>(width, height, ruler.reach_pixels())
    } else {
        rows_words::<f64>(width, height, ruler.reach_pixels())
    }
}

/// The centre-line of a side of a drawing, and how many pixels it has.
///
/// # Errors
/// [`Error::LengthMismatch`] for an output of another size or less room than [`centre_line_words`];
/// [`Error::Stopped`] by the watch.
pub fn centre_line(
    ink: Bitmap<'_>,
    side: Side,
    ruler: &Ruler,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<u64, Error> {
    same_size(ink, out.view())?;
    let search = CentreSearch { ink, side, ruler: *ruler };
    search.bands().run(out.words_mut(), room, watch, |wanted, out, room, watch| {
        let mut workspace = Workspace::new(room, search.words())?;
        if ruler.counts_pixels() {
            copied::<u16>(&search, wanted, out, &mut workspace, watch)
        } else {
            copied::<f64>(&search, wanted, out, &mut workspace, watch)
        }
    })
}

/// Writes the centre-line of some rows and counts its pixels.
fn copied<S: Square>(
    search: &CentreSearch<'_>,
    wanted: Range<usize>,
    out: &mut [u64],
    workspace: &mut Workspace<'_>,
    watch: &mut Watch<'_>,
) -> Result<u64, Error> {
    let mut rows = out.chunks_exact_mut(words_in_row(search.ink.width()).max(1));
    let mut pixels = 0;
    search.rows::<S>(wanted, workspace, watch, |_, line, _| {
        for (to, from) in rows.next().unwrap_or(&mut []).iter_mut().zip(line) {
            *to = *from;
            pixels += u64::from(from.count_ones());
        }
    })?;
    Ok(pixels)
}
