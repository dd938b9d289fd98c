//! What lies beyond a distance, without the distance itself: masks of pixels with no pixel of a kind within a disc.
//!
//! A disc of radius e holds, k rows from its centre, the columns up to n(k): the greatest n with
//! (a·n)² + (b·k)² ≤ e². A pixel has none within e if in each row g(x, y + k) > n(k). Opening keeps what a disc
//! inside the mask can reach, closing fills what no disc outside can.

use crate::artwork::across::{CHUNK, Nearest, RowsAcross, rows_across_words};
use crate::artwork::bands::{Bands, Pace};
use crate::artwork::bitmap::{Bitmap, BitmapMut, packed, words_in_row};
use crate::artwork::distance::same_size;
use crate::artwork::simd::vectorised;
use crate::artwork::watch::Watch;
use crate::artwork::workspace::Workspace;
use crate::error::{Error, Param, check, check_within};
use crate::model::math;
use core::ops::Range;

/// Columns and rows that a disc reaches at most.
const LONGEST: usize = 254;
/// A distance that exceeds the radius by less than this share of its square is within, so that a radius of a whole
/// number of pixels holds the pixel at its end whatever the last digits of both are.
const TIE: f64 = 4e-12;

/// A disc of pixels.
#[derive(Debug, Clone, PartialEq)]
pub struct Disc {
    columns: [u8; LONGEST + 1],
    rows: usize,
    radius: f64,
}

impl Disc {
    /// The pixels whose centres are at most `radius` from that of the pixel in the middle; all in metres. `radius` may
    /// be up to 254 times the smaller pitch; `param` is what an error calls it.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a pitch or the radius.
    pub fn new(radius: f64, pitch_x: f64, pitch_y: f64, param: Param) -> Result<Self, Error> {
        check(Param::PitchX, pitch_x)?;
        check(Param::PitchY, pitch_y)?;
        let most = LONGEST as f64 * math::lesser(pitch_x, pitch_y);
        check_within(param, radius, 0.0, most)?;
        let limit = radius * radius * (1.0 + TIE);
        let within = |columns: usize, rows: usize| {
            let (x, y) = (columns as f64 * pitch_x, rows as f64 * pitch_y);
            x * x + y * y <= limit
        };
        let mut disc = Disc { columns: [0; LONGEST + 1], rows: 0, radius };
        let mut columns = LONGEST;
        for (rows, most) in disc.columns.iter_mut().enumerate() {
            if !within(0, rows) {
                break;
            }
            while !within(columns, rows) {
                columns -= 1;
            }
            *most = columns as u8;
            disc.rows = rows;
        }
        Ok(disc)
    }

    /// The radius in metres.
    #[must_use]
    pub fn radius(&self) -> f64 {
        self.radius
    }

    fn widest(&self) -> u8 {
        self.columns[0]
    }

    fn rows_kept(&self, height: usize) -> usize {
        (2 * self.rows + 1).min(height)
    }

    fn share_words(&self, width: usize, height: usize) -> usize {
        rows_across_words::<u8>(width, self.rows_kept(height))
    }

    /// About how many nanoseconds a pixel takes at most.
    fn nanoseconds(&self) -> usize {
        1 + self.rows / 8
    }
}

/// The search for pixels that have none of a kind within a disc.
#[derive(Clone, Copy)]
struct Beyond<'m> {
    mask: Bitmap<'m>,
    nearest: Nearest,
    disc: &'m Disc,
}

impl Beyond<'_> {
    /// Of the pixels that `asked` gives for a row and a word, sets those that have none of the kind within the disc.
    fn rows(
        &self,
        wanted: Range<usize>,
        asked: impl Fn(usize, usize) -> u64,
        out: &mut [u64],
        workspace: &mut Workspace<'_>,
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let (width, height) = (self.mask.width(), self.mask.height());
        let count = self.disc.rows_kept(height);
        let reach = self.disc.widest();
        let mut across = RowsAcross::<u8>::new(workspace, width, count, self.nearest, reach)?;
        let mut worked_out = wanted.start.saturating_sub(self.disc.rows);
        let mut pace = Pace::new();
        let (start, rows) = (wanted.start, wanted.len() as f64);
        for (y, out) in wanted.zip(out.chunks_exact_mut(words_in_row(width).max(1))) {
            let done = (y - start) as f64 / rows;
            while worked_out < (y + self.disc.rows + 1).min(height) {
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
                || {
                    for (index, out) in out.iter_mut().enumerate() {
                        let asked = asked(y, index);
                        *out = if asked == 0 { 0 } else { asked & self.word(&across, y, index) };
                    }
                },
            );
            if pace.is_due(width * self.disc.nanoseconds()) {
                watch.done(done)?;
            }
        }
        Ok(())
    }

    /// Which of 64 pixels have none of the kind within the disc.
    #[inline(always)]
    fn word(&self, across: &RowsAcross<'_, u8>, y: usize, index: usize) -> u64 {
        // Of each pixel the least excess of a row's distance over the columns that the disc has in it.
        let mut excess = [u8::MAX; 64];
        let (chunk, start) = (index * 64 / CHUNK, index * 64 % CHUNK);
        for (rows, columns) in self.disc.columns.iter().enumerate().take(self.disc.rows + 1) {
            let above = if rows <= y { Some(y - rows) } else { None };
            let below = if y + rows < self.mask.height() { Some(y + rows) } else { None };
            for row in [above, below] {
                let Some(row) = row else {
                    // The row outside is clear.
                    if self.nearest == Nearest::Clear {
                        return 0;
                    }
                    continue;
                };
                let near = across.near(row, chunk).and_then(|near| near.get(start..start + 64));
                for (excess, near) in excess.iter_mut().zip(near.unwrap_or(&[])) {
                    *excess = (*excess).min(near.saturating_sub(*columns));
                }
            }
        }
        packed(&excess.map(|excess| u8::from(excess != 0)))
    }
}

/// 64-bit words of room for [`lost`] and [`filled`] with one thread; with the feature `parallel`, as many threads
/// work as the room has whole shares of this length.
#[must_use]
pub fn disc_words(width: usize, height: usize, disc: &Disc) -> usize {
    disc.share_words(width, height)
}

fn bands(mask: Bitmap<'_>, disc: &Disc) -> Bands {
    let (width, height) = (mask.width(), mask.height());
    Bands::of(width, height, disc.nanoseconds(), disc.share_words(width, height))
}

fn word_at(mask: Bitmap<'_>, y: usize, index: usize) -> u64 {
    mask.row(y).get(index).copied().unwrap_or(0)
}

/// The bits of a word of a row that are pixels.
pub(crate) fn pixels_in_word(width: usize, index: usize) -> u64 {
    match width.saturating_sub(index * 64) {
        0 => 0,
        left if left >= 64 => u64::MAX,
        left => (1 << left) - 1,
    }
}

/// What is lost: ink from which the nearest mark is farther than the radius of the disc.
///
/// All masks are of one size.
///
/// # Errors
/// [`Error::LengthMismatch`] for masks of different sizes or less room than [`disc_words`];
/// [`Error::Stopped`] by the watch.
pub fn lost(
    ink: Bitmap<'_>,
    mark: Bitmap<'_>,
    disc: &Disc,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    same_size(ink, mark)?;
    same_size(ink, out.view())?;
    let beyond = Beyond { mask: mark, nearest: Nearest::Set, disc };
    bands(ink, disc).run(out.words_mut(), room, watch, |rows, out, room, watch| {
        let mut workspace = Workspace::new(room, disc.share_words(ink.width(), ink.height()))?;
        let asked = |y, index| word_at(ink, y, index) & !word_at(mark, y, index);
        beyond.rows(rows, asked, out, &mut workspace, watch)
    })
}

/// What is filled: ground without ink from which the nearest unmarked place is farther than the radius of the disc.
/// Outside the masks all is unmarked.
///
/// All masks are of one size.
///
/// # Errors
/// [`Error::LengthMismatch`] for masks of different sizes or less room than [`disc_words`];
/// [`Error::Stopped`] by the watch.
pub fn filled(
    ink: Bitmap<'_>,
    mark: Bitmap<'_>,
    disc: &Disc,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    same_size(ink, mark)?;
    same_size(ink, out.view())?;
    let beyond = Beyond { mask: mark, nearest: Nearest::Clear, disc };
    bands(ink, disc).run(out.words_mut(), room, watch, |rows, out, room, watch| {
        let mut workspace = Workspace::new(room, disc.share_words(ink.width(), ink.height()))?;
        let asked = |y, index| word_at(mark, y, index) & !word_at(ink, y, index);
        beyond.rows(rows, asked, out, &mut workspace, watch)
    })
}

/// All pixels of a mask that have none of the kind within the disc.
pub(crate) fn beyond_disc_where(
    mask: Bitmap<'_>,
    nearest: Nearest,
    disc: &Disc,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    same_size(mask, out.view())?;
    beyond_disc(Beyond { mask, nearest, disc }, out, room, watch)
}

fn beyond_disc(
    beyond: Beyond<'_>,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    let mask = beyond.mask;
    bands(mask, beyond.disc).run(out.words_mut(), room, watch, |rows, out, room, watch| {
        let mut workspace = Workspace::new(room, beyond.disc.share_words(mask.width(), mask.height()))?;
        let asked = |y, index| {
            let bits = word_at(mask, y, index);
            match beyond.nearest {
                Nearest::Set => !bits & pixels_in_word(mask.width(), index),
                Nearest::Clear => bits,
            }
        };
        beyond.rows(rows, asked, out, &mut workspace, watch)
    })
}

/// 64-bit words of room for [`opened`] with one thread; each further one takes [`disc_words`] more.
#[must_use]
pub fn opened_words(width: usize, height: usize, disc: &Disc) -> usize {
    words_in_row(width) * height + disc.share_words(width, height)
}

/// The mask opened: all that a disc which lies wholly inside the mask can cover.
///
/// # Errors
/// [`Error::LengthMismatch`] for an output of another size or less room than [`opened_words`];
/// [`Error::Stopped`] by the watch.
pub fn opened(
    mask: Bitmap<'_>,
    disc: &Disc,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    same_size(mask, out.view())?;
    let (width, height) = (mask.width(), mask.height());
    let (centres, room) = split(room, words_in_row(width) * height, opened_words(width, height, disc))?;
    let mut centres = BitmapMut::new(centres, width, height)?;
    beyond_disc(
        Beyond { mask, nearest: Nearest::Clear, disc },
        &mut centres,
        room,
        &mut watch.part(0.0, 0.5),
    )?;
    let reached = Beyond { mask: centres.view(), nearest: Nearest::Set, disc };
    beyond_disc(reached, out, room, &mut watch.part(0.5, 1.0))?;
    for row in out.rows_mut() {
        for (index, word) in row.iter_mut().enumerate() {
            *word = !*word & pixels_in_word(width, index);
        }
    }
    Ok(())
}

/// How far the room for a closing extends beyond the mask: (words at each side, rows above and below).
fn margins(disc: &Disc) -> (usize, usize) {
    (usize::from(disc.widest()).div_ceil(64), disc.rows)
}

/// Size of the mask with its margins.
fn wider(width: usize, height: usize, disc: &Disc) -> (usize, usize) {
    let (words, rows) = margins(disc);
    ((words_in_row(width) + 2 * words) * 64, height + 2 * rows)
}

/// 64-bit words of room for [`closed`] with one thread.
#[must_use]
pub fn closed_words(width: usize, height: usize, disc: &Disc) -> usize {
    let (wide, high) = wider(width, height, disc);
    2 * words_in_row(wide) * high + disc.share_words(wide, high)
}

/// The mask closed: all but what a disc which lies wholly outside the mask can cover.
///
/// The discs may lie beyond the edges of the mask, where all is clear, so that the edges change nothing.
///
/// # Errors
/// [`Error::LengthMismatch`] for an output of another size or less room than [`closed_words`];
/// [`Error::Stopped`] by the watch.
pub fn closed(
    mask: Bitmap<'_>,
    disc: &Disc,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    same_size(mask, out.view())?;
    let (words, rows) = margins(disc);
    let (wide, high) = wider(mask.width(), mask.height(), disc);
    let length = words_in_row(wide) * high;
    let needed = closed_words(mask.width(), mask.height(), disc);
    let (padded, room) = split(room, length, needed)?;
    let (reached, room) = split(room, length, needed - length)?;
    padded.fill(0);
    let mut padded = BitmapMut::new(padded, wide, high)?;
    for (row, y) in padded.rows_mut().skip(rows).zip(0..mask.height()) {
        for (to, from) in row.iter_mut().skip(words).zip(mask.row(y)) {
            *to = *from;
        }
    }
    let mut reached = BitmapMut::new(reached, wide, high)?;
    let beyond = Beyond { mask: padded.view(), nearest: Nearest::Set, disc };
    beyond_disc(beyond, &mut reached, room, &mut watch.part(0.0, 0.5))?;
    reached.words_mut().iter_mut().for_each(|word| *word = !*word);
    let inside = Beyond { mask: reached.view(), nearest: Nearest::Clear, disc };
    beyond_disc(inside, &mut padded, room, &mut watch.part(0.5, 1.0))?;
    for (y, row) in out.rows_mut().enumerate() {
        for (index, (to, from)) in
            row.iter_mut().zip(padded.view().row(y + rows).iter().skip(words)).enumerate()
        {
            *to = *from & pixels_in_word(mask.width(), index);
        }
    }
    Ok(())
}

/// Cuts `length` words off the room, of which `needed` are needed in all.
fn split(room: &mut [u64], length: usize, needed: usize) -> Result<(&mut [u64], &mut [u64]), Error> {
    let given = room.len();
    let short = Error::LengthMismatch { param: Param::Workspace, value: given, expected: needed };
    if given < needed { Err(short) } else { room.split_at_mut_checked(length).ok_or(short) }
}
