//! Exact Euclidean distances from pixel centre to pixel centre, up to a reach.
//!
//! | symbol  | meaning                                                  | unit   |
//! |---------|----------------------------------------------------------|--------|
//! | a, b    | pitch of the pixels in x and in y                        | m      |
//! | R       | reach: beyond it distances are not told apart            | pixels |
//! | g(x, y) | distance in row y from column x to the nearest pixel     | pixels |
//!
//! d²(x, y) = min over j of a²·g²(x, y + j) + b²·j², and at most (R·min(a, b))².
//!
//! With equal pitches all is counted in whole squares of pixels, exactly. With unequal ones it is f64: two products
//! and a sum, so within 2 ulp. The search over j stops as soon as b²·j² is no less than the greatest d² of the
//! pixels that are worked on together.

use crate::artwork::across::{CHUNK, Nearest, RowsAcross, rows_across_words, stride};
use crate::artwork::bands::Pace;
use crate::artwork::bitmap::Bitmap;
use crate::artwork::simd::vectorised;
use crate::artwork::watch::Watch;
use crate::artwork::workspace::{Workspace, words_for};
use crate::error::{Error, Param, check};
use crate::model::math;
use core::ops::Range;

/// How distances are measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ruler {
    pitch_x: f64,
    pitch_y: f64,
    reach: u8,
}

impl Ruler {
    /// A ruler for pixels of this pitch in x and in y (metres) that tells distances apart up to `reach` times the
    /// smaller pitch. A reach of 0 is taken as 1.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a pitch.
    pub fn new(pitch_x: f64, pitch_y: f64, reach: u8) -> Result<Self, Error> {
        check(Param::PitchX, pitch_x)?;
        check(Param::PitchY, pitch_y)?;
        Ok(Ruler { pitch_x, pitch_y, reach: reach.max(1) })
    }

    /// The pitch in x in metres.
    #[must_use]
    pub fn pitch_x(&self) -> f64 {
        self.pitch_x
    }

    /// The pitch in y in metres.
    #[must_use]
    pub fn pitch_y(&self) -> f64 {
        self.pitch_y
    }

    /// The reach in metres.
    #[must_use]
    pub fn reach(&self) -> f64 {
        f64::from(self.reach) * math::lesser(self.pitch_x, self.pitch_y)
    }

    /// Whether distances are whole squares of pixels.
    pub(crate) fn counts_pixels(&self) -> bool {
        self.pitch_x == self.pitch_y
    }

    pub(crate) fn reach_pixels(&self) -> u8 {
        self.reach
    }

    /// Rows above and below that are within reach.
    fn rows_within(&self) -> usize {
        let rows = self.reach() / self.pitch_y;
        let whole = rows as usize;
        let up = if whole as f64 == rows { whole } else { whole + 1 };
        up.min(usize::from(self.reach))
    }

    /// About how many nanoseconds a pixel takes at most.
    pub(crate) fn nanoseconds(&self) -> usize {
        1 + usize::from(self.reach) / if self.counts_pixels() { 8 } else { 2 }
    }
}

/// A square of a distance.
pub(crate) trait Square: Copy + PartialOrd + bytemuck::NoUninit + bytemuck::AnyBitPattern {
    /// Least of all.
    const ZERO: Self;
    /// The square of the reach, which stands for all beyond.
    fn of_reach(ruler: &Ruler) -> Self;
    /// The square of so many rows.
    fn of_rows(ruler: &Ruler, rows: usize) -> Self;
    /// From the square of a number of columns.
    fn of_columns(ruler: &Ruler, columns: u16) -> Self;
    /// A sum that stays at the greatest number if it would exceed it.
    fn plus(self, other: Self) -> Self;
    /// The lesser of two.
    fn least(self, other: Self) -> Self;
    /// The greater of two.
    fn most(self, other: Self) -> Self;
    /// The distance in metres.
    fn metres(self, ruler: &Ruler) -> f64;
}

/// Square pixels.
impl Square for u16 {
    const ZERO: u16 = 0;
    #[inline(always)]
    fn of_reach(ruler: &Ruler) -> u16 {
        u16::from(ruler.reach) * u16::from(ruler.reach)
    }
    #[inline(always)]
    fn of_rows(_: &Ruler, rows: usize) -> u16 {
        rows.min(255) as u16 * rows.min(255) as u16
    }
    #[inline(always)]
    fn of_columns(_: &Ruler, columns: u16) -> u16 {
        columns
    }
    #[inline(always)]
    fn plus(self, other: u16) -> u16 {
        self.saturating_add(other)
    }
    #[inline(always)]
    fn least(self, other: u16) -> u16 {
        self.min(other)
    }
    #[inline(always)]
    fn most(self, other: u16) -> u16 {
        self.max(other)
    }
    #[inline(always)]
    fn metres(self, ruler: &Ruler) -> f64 {
        math::sqrt(f64::from(self)) * ruler.pitch_x
    }
}

/// Square metres.
impl Square for f64 {
    const ZERO: f64 = 0.0;
    #[inline(always)]
    fn of_reach(ruler: &Ruler) -> f64 {
        ruler.reach() * ruler.reach()
    }
    #[inline(always)]
    fn of_rows(ruler: &Ruler, rows: usize) -> f64 {
        let distance = rows as f64 * ruler.pitch_y;
        distance * distance
    }
    #[inline(always)]
    fn of_columns(ruler: &Ruler, columns: u16) -> f64 {
        f64::from(columns) * (ruler.pitch_x * ruler.pitch_x)
    }
    #[inline(always)]
    fn plus(self, other: f64) -> f64 {
        self + other
    }
    #[inline(always)]
    fn least(self, other: f64) -> f64 {
        if other < self { other } else { self }
    }
    #[inline(always)]
    fn most(self, other: f64) -> f64 {
        if other > self { other } else { self }
    }
    #[inline(always)]
    fn metres(self, _: &Ruler) -> f64 {
        math::sqrt(self)
    }
}

/// A search for the nearest pixel of a kind, from the pixels of which the distance is wanted.
#[derive(Clone, Copy)]
pub(crate) struct Search<'m> {
    pub(crate) mask: Bitmap<'m>,
    pub(crate) nearest: Nearest,
    /// Where the distances are wanted; elsewhere they may be the reach to set pixels, 0 to clear ones. None:
    /// everywhere.
    pub(crate) only: Option<Bitmap<'m>>,
    pub(crate) ruler: Ruler,
}

const fn rows_kept(height: usize, reach: u8) -> usize {
    let window = 2 * reach as usize + 1;
    if window < height { window } else { height }
}

/// Words of room for [`Search::rows`].
pub(crate) const fn search_words<S>(width: usize, height: usize, reach: u8) -> usize {
    rows_across_words::<u16>(width, rows_kept(height, reach)) + words_for::<S>(stride(width))
}

impl Search<'_> {
    /// Tells `each` the squares of the distances of each wanted row, from the first to the last.
    pub(crate) fn rows<S: Square>(
        &self,
        wanted: Range<usize>,
        workspace: &mut Workspace<'_>,
        watch: &mut Watch<'_>,
        mut each: impl FnMut(usize, &[S]),
    ) -> Result<(), Error> {
        let (width, height) = (self.mask.width(), self.mask.height());
        let reach = self.ruler.reach_pixels();
        let count = rows_kept(height, reach);
        let mut across = RowsAcross::<u16>::new(workspace, width, count, self.nearest, reach)?;
        let squares = workspace.take::<S>(stride(width))?;
        let around = self.ruler.rows_within();
        let mut worked_out = 0;
        let mut pace = Pace::new();
        for y in wanted.clone() {
            let done = (y - wanted.start) as f64 / wanted.len() as f64;
            if self.only.is_some_and(|only| only.row(y).iter().all(|word| *word == 0)) {
                squares.fill(self.unwanted());
                if pace.is_due(width / 64) {
                    watch.done(done)?;
                }
            } else {
                // Rows that no wanted pixel is near to are passed over.
                worked_out = worked_out.max(y.saturating_sub(around));
                while worked_out < (y + around + 1).min(height) {
                    vectorised(
                        #[inline(always)]
                        || across.work_out(self.mask, worked_out),
                    );
                    worked_out += 1;
                    if pace.is_due(width) {
                        watch.done(done)?;
                    }
                }
                vectorised(
                    #[inline(always)]
                    || self.row(&across, y, around, squares),
                );
                if pace.is_due(width * self.ruler.nanoseconds()) {
                    watch.done(done)?;
                }
            }
            each(y, squares.get(..width).unwrap_or(&[]));
        }
        watch.done(1.0)
    }

    /// What stands for the distance where none is wanted.
    fn unwanted<S: Square>(&self) -> S {
        match self.nearest {
            Nearest::Set => S::of_reach(&self.ruler),
            Nearest::Clear => S::ZERO,
        }
    }

    #[inline(always)]
    fn row<S: Square>(&self, across: &RowsAcross<'_, u16>, y: usize, around: usize, squares: &mut [S]) {
        let far = S::of_reach(&self.ruler);
        let height = self.mask.height();
        let start = match self.nearest {
            Nearest::Set => far,
            // The rows just outside are clear.
            Nearest::Clear => far.least(S::of_rows(&self.ruler, (y + 1).min(height - y))),
        };
        let unwanted = self.unwanted();
        let mut wanted = self.only.map(|only| only.row(y).chunks(CHUNK / 64));
        for (index, squares) in squares.chunks_mut(CHUNK).enumerate() {
            let words = wanted.as_mut().map(|wanted| wanted.next().unwrap_or(&[]));
            if words.is_some_and(|words| words.iter().all(|word| *word == 0)) {
                squares.fill(unwanted);
            } else {
                self.chunk(across, y, index, around, start, squares);
            }
        }
    }

    #[inline(always)]
    fn chunk<S: Square>(
        &self,
        across: &RowsAcross<'_, u16>,
        y: usize,
        index: usize,
        around: usize,
        start: S,
        squares: &mut [S],
    ) {
        let mut most = S::ZERO;
        if let Some(own) = across.near(y, index) {
            for (square, columns) in squares.iter_mut().zip(own) {
                *square = start.least(S::of_columns(&self.ruler, *columns));
                most = most.most(*square);
            }
        } else {
            squares.fill(start);
            most = start;
        }
        for rows in 1..=around {
            let added = S::of_rows(&self.ruler, rows);
            if added >= most {
                break;
            }
            let above = if rows <= y { across.near(y - rows, index) } else { None };
            let below = if y + rows < self.mask.height() { across.near(y + rows, index) } else { None };
            match (above, below) {
                (Some(above), Some(below)) => {
                    most = S::ZERO;
                    for ((square, above), below) in squares.iter_mut().zip(above).zip(below) {
                        let columns = S::of_columns(&self.ruler, (*above).min(*below));
                        *square = square.least(columns.plus(added));
                        most = most.most(*square);
                    }
                }
                (Some(one), None) | (None, Some(one)) => {
                    most = S::ZERO;
                    for (square, columns) in squares.iter_mut().zip(one) {
                        *square = square.least(S::of_columns(&self.ruler, *columns).plus(added));
                        most = most.most(*square);
                    }
                }
                (None, None) => {}
            }
        }
    }
}

/// Distances of the pixels of one row.
#[derive(Debug, Clone, Copy)]
pub struct DistanceRow<'r> {
    squares: Squares<'r>,
    ruler: Ruler,
}

#[derive(Debug, Clone, Copy)]
enum Squares<'r> {
    Pixels(&'r [u16]),
    Metres(&'r [f64]),
}

impl DistanceRow<'_> {
    /// The distance from pixel `x` in metres, at most the reach of the ruler; NaN beyond the row.
    #[must_use]
    pub fn metres(&self, x: usize) -> f64 {
        match self.squares {
            Squares::Pixels(row) => row.get(x).map_or(f64::NAN, |square| square.metres(&self.ruler)),
            Squares::Metres(row) => row.get(x).map_or(f64::NAN, |square| square.metres(&self.ruler)),
        }
    }

    /// The square of the distance from pixel `x` in units of `pitch_x`²: a whole number where the pitches are equal,
    /// and then exact; NaN beyond the row.
    #[must_use]
    pub fn squared_pixels(&self, x: usize) -> f64 {
        let unit = self.ruler.pitch_x * self.ruler.pitch_x;
        match self.squares {
            Squares::Pixels(row) => row.get(x).map_or(f64::NAN, |square| f64::from(*square)),
            Squares::Metres(row) => row.get(x).map_or(f64::NAN, |square| *square / unit),
        }
    }

    /// Squares of all distances in pixels, if the pitches are equal.
    #[must_use]
    pub fn pixels(&self) -> Option<&[u16]> {
        match self.squares {
            Squares::Pixels(row) => Some(row),
            Squares::Metres(_) => None,
        }
    }

    /// Squares of all distances in square metres, if the pitches differ.
    #[must_use]
    pub fn square_metres(&self) -> Option<&[f64]> {
        match self.squares {
            Squares::Metres(row) => Some(row),
            Squares::Pixels(_) => None,
        }
    }
}

/// 64-bit words of room for [`distances`].
#[must_use]
pub fn distances_words(width: usize, height: usize, ruler: &Ruler) -> usize {
    if ruler.counts_pixels() {
        search_words::<u16>(width, height, ruler.reach)
    } else {
        search_words::<f64>(width, height, ruler.reach)
    }
}

/// Distance from each pixel of a mask to the nearest one that is set or clear, told row by row to `each`.
///
/// Exact between the centres of pixels. A pixel at the reach of the ruler or beyond it gets the reach. Outside the
/// mask all is clear. With `only`, the pixels that are not set in it may get another distance than theirs, the reach
/// to set pixels and 0 to clear ones, which saves time; `only` has the size of the mask.
///
/// # Errors
/// [`Error::LengthMismatch`] for less room than [`distances_words`] or another size of `only`;
/// [`Error::Stopped`] by the watch.
pub fn distances(
    mask: Bitmap<'_>,
    nearest: Nearest,
    only: Option<Bitmap<'_>>,
    ruler: &Ruler,
    room: &mut [u64],
    watch: &mut Watch<'_>,
    mut each: impl FnMut(usize, DistanceRow<'_>),
) -> Result<(), Error> {
    if let Some(only) = only {
        same_size(mask, only)?;
    }
    let (width, height) = (mask.width(), mask.height());
    let mut workspace = Workspace::new(room, distances_words(width, height, ruler))?;
    let search = Search { mask, nearest, only, ruler: *ruler };
    let ruler = *ruler;
    if ruler.counts_pixels() {
        search.rows::<u16>(0..height, &mut workspace, watch, |y, row| {
            each(y, DistanceRow { squares: Squares::Pixels(row), ruler });
        })
    } else {
        search.rows::<f64>(0..height, &mut workspace, watch, |y, row| {
            each(y, DistanceRow { squares: Squares::Metres(row), ruler });
        })
    }
}

/// Whether two masks are of one size.
pub(crate) fn same_size(one: Bitmap<'_>, other: Bitmap<'_>) -> Result<(), Error> {
    if one.width() == other.width() && one.height() == other.height() {
        Ok(())
    } else {
        Err(Error::LengthMismatch {
            param: Param::DrawingPixels,
            value: other.width() * other.height(),
            expected: one.width() * one.height(),
        })
    }
}
