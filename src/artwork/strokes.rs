//! What is kept of strokes and gaps: shares of their centre-lines, as a whole, by component and by width.

use crate::artwork::bands::Sum;
use crate::artwork::bitmap::{Bitmap, BitmapMut, packed, words_in_row};
use crate::artwork::centre_line::{CentreSearch, Side, centre_line_words};
use crate::artwork::disc::pixels_in_word;
use crate::artwork::distance::{Ruler, Square, same_size};
use crate::artwork::simd::vectorised;
use crate::artwork::watch::Watch;
use crate::artwork::workspace::Workspace;
use crate::error::Error;
use crate::model::math;
use core::ops::Range;

/// Pixels of a centre-line, and how many of them are kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct CentreShare {
    /// Pixels of the centre-line.
    pub pixels: u32,
    /// Those that are kept: marked on a stroke, unmarked in a gap.
    pub kept: u32,
}

impl CentreShare {
    /// The share that is lost, 0 to 1: for strokes, what the trade calls the length of strokes lost. 0 if there is
    /// no centre-line.
    #[must_use]
    pub fn lost_share(&self) -> f64 {
        match self.pixels {
            0 => 0.0,
            pixels => f64::from(pixels - self.kept.min(pixels)) / f64::from(pixels),
        }
    }

    /// Whether less than half is kept.
    #[must_use]
    pub fn is_starved(&self) -> bool {
        2 * u64::from(self.kept) < u64::from(self.pixels)
    }

    fn add(&mut self, other: CentreShare) {
        self.pixels += other.pixels;
        self.kept += other.kept;
    }

    fn of_words<'w>(words: impl Iterator<Item = (&'w u64, &'w u64)>, side: Side) -> CentreShare {
        let mut share = CentreShare::default();
        for (line, mark) in words {
            share.pixels += line.count_ones();
            share.kept += (line & kept(*mark, side)).count_ones();
        }
        share
    }
}

/// The pixels where what belongs to a side is kept.
fn kept(mark: u64, side: Side) -> u64 {
    match side {
        Side::Ink => mark,
        Side::Ground => !mark,
    }
}

/// How much of a centre-line of this side is kept by a mark.
///
/// # Errors
/// [`Error::LengthMismatch`] for masks of different sizes.
pub fn centre_share(line: Bitmap<'_>, mark: Bitmap<'_>, side: Side) -> Result<CentreShare, Error> {
    same_size(line, mark)?;
    Ok(CentreShare::of_words(line.words().iter().zip(mark.words()), side))
}

/// Adds one row of the centre-line of the ink to the shares of the components that it runs through.
///
/// `line` and `mark` are the row's words, `runs` the row's runs of ink: first column, column after the last, and the
/// label of the component, of which label 1 is the first of `shares`. Runs of other labels are left out.
pub fn add_component_shares(
    line: &[u64],
    mark: &[u64],
    runs: impl IntoIterator<Item = (usize, usize, u32)>,
    shares: &mut [CentreShare],
) {
    for (start, end, label) in runs {
        let index = (label as usize).checked_sub(1);
        let Some(share) = index.and_then(|index| shares.get_mut(index)) else { continue };
        for index in start / 64..end.div_ceil(64) {
            let (Some(line), Some(mark)) = (line.get(index), mark.get(index)) else { continue };
            let from = start.saturating_sub(index * 64).min(63);
            let run = pixels_in_word(end, index) & (u64::MAX << from);
            share.add(CentreShare::of_words([(&(line & run), mark)].into_iter(), Side::Ink));
        }
    }
}

/// How many components are starved: less than half of their centre-line is kept.
#[must_use]
pub fn starved_components(shares: &[CentreShare]) -> usize {
    shares.iter().filter(|share| share.is_starved()).count()
}

/// Widths that are told apart: twice the distances within the longest reach.
const WIDTHS: usize = 2 * 255 + 1;

/// What is kept of the centre-line by the width of the stroke or gap.
///
/// The width at a pixel of the centre-line is 2·d, d its distance to the other side, rounded down to whole multiples of
/// the smaller pitch. The true width of pixels in a row is that or, where their number is odd, one pixel less.
#[derive(Debug, Clone, PartialEq)]
pub struct Widths {
    shares: [CentreShare; WIDTHS],
    unit: f64,
}

impl Default for Widths {
    fn default() -> Self {
        Widths { shares: [CentreShare::default(); WIDTHS], unit: 0.0 }
    }
}

impl Sum for Widths {
    fn add(&mut self, other: Widths) {
        for (share, other) in self.shares.iter_mut().zip(other.shares) {
            share.add(other);
        }
    }
}

impl Widths {
    /// Each width in metres at which there is any centre-line, the smallest first, with what is kept at it.
    pub fn shares(&self) -> impl DoubleEndedIterator<Item = (f64, CentreShare)> + '_ {
        let unit = self.unit;
        let all = self.shares.iter().enumerate().map(move |(width, share)| (width as f64 * unit, *share));
        all.filter(|(_, share)| share.pixels > 0)
    }

    /// What is kept at all widths together.
    #[must_use]
    pub fn total(&self) -> CentreShare {
        let mut total = CentreShare::default();
        for share in self.shares {
            total.add(share);
        }
        total
    }

    /// The smallest width in metres from which on, at every width, at least this share of the centre-line is kept;
    /// none if not even at the largest. With a share of 1, from it on nothing at all is lost.
    #[must_use]
    pub fn smallest_kept(&self, share: f64) -> Option<f64> {
        let kept = |of: &CentreShare| f64::from(of.kept) >= share * f64::from(of.pixels);
        self.shares().rev().take_while(|(_, of)| kept(of)).last().map(|(width, _)| width)
    }

    /// The largest width in metres up to which, at every width, at least this share of the centre-line is lost; none
    /// if not even at the smallest. With a share of 1, up to it nothing at all is kept.
    #[must_use]
    pub fn largest_lost(&self, share: f64) -> Option<f64> {
        let lost = |of: &CentreShare| f64::from(of.pixels - of.kept) >= share * f64::from(of.pixels);
        self.shares().take_while(|(_, of)| lost(of)).last().map(|(width, _)| width)
    }
}

/// 64-bit words of room for [`widths`] with one thread; with the feature `parallel`, as many threads work as the room
/// has whole shares of this length.
#[must_use]
pub fn widths_words(width: usize, height: usize, ruler: &Ruler) -> usize {
    centre_line_words(width, height, ruler)
}

/// What a mark keeps of the strokes of a drawing, or of its gaps, by their width.
///
/// A stroke is kept where the middle of it is marked, a gap where the middle of it is not. What is wider than twice
/// the reach of the ruler is not counted.
///
/// # Errors
/// [`Error::LengthMismatch`] for masks of different sizes or less room than [`widths_words`];
/// [`Error::Stopped`] by the watch.
pub fn widths(
    ink: Bitmap<'_>,
    mark: Bitmap<'_>,
    side: Side,
    ruler: &Ruler,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<Widths, Error> {
    same_size(ink, mark)?;
    let search = CentreSearch { ink, side, ruler: *ruler };
    let mut widths = search.bands().read(room, watch, |wanted, room, watch| {
        let mut workspace = Workspace::new(room, search.words())?;
        let mut widths = Widths::default();
        if ruler.counts_pixels() {
            search.rows::<u16>(wanted, &mut workspace, watch, |y, line, squares| {
                count(&mut widths, mark.row(y), side, ruler, line, squares);
            })?;
        } else {
            search.rows::<f64>(wanted, &mut workspace, watch, |y, line, squares| {
                count(&mut widths, mark.row(y), side, ruler, line, squares);
            })?;
        }
        Ok(widths)
    })?;
    widths.unit = unit(ruler);
    Ok(widths)
}

/// Widths are told in multiples of the smaller pitch.
fn unit(ruler: &Ruler) -> f64 {
    math::lesser(ruler.pitch_x(), ruler.pitch_y())
}

/// What is in the middle of strokes.
#[derive(Default)]
pub(crate) struct Middles {
    /// What is kept of the centre-line by the width of the stroke, if a mark is known.
    pub(crate) widths: Widths,
    /// Pixels that lie as deep in the ink as the ruler reaches, or deeper.
    pub(crate) deep: u64,
}

impl Sum for Middles {
    fn add(&mut self, other: Middles) {
        self.widths.add(other.widths);
        self.deep += other.deep;
    }
}

/// Finds the centre-line of the ink, and what lies as deep in it as the ruler reaches: all of that is in the middle.
/// The same look at the distances tells the widths.
pub(crate) fn middles(
    ink: Bitmap<'_>,
    mark: Option<Bitmap<'_>>,
    ruler: &Ruler,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<Middles, Error> {
    same_size(ink, out.view())?;
    let search = CentreSearch { ink, side: Side::Ink, ruler: *ruler };
    let mut middles = search.bands().run(out.words_mut(), room, watch, |wanted, out, room, watch| {
        let mut workspace = Workspace::new(room, search.words())?;
        if ruler.counts_pixels() {
            middles_of_rows::<u16>(&search, mark, wanted, out, &mut workspace, watch)
        } else {
            middles_of_rows::<f64>(&search, mark, wanted, out, &mut workspace, watch)
        }
    })?;
    middles.widths.unit = unit(ruler);
    Ok(middles)
}

fn middles_of_rows<S: Width>(
    search: &CentreSearch<'_>,
    mark: Option<Bitmap<'_>>,
    wanted: Range<usize>,
    out: &mut [u64],
    workspace: &mut Workspace<'_>,
    watch: &mut Watch<'_>,
) -> Result<Middles, Error> {
    let ruler = &search.ruler;
    let far = S::of_reach(ruler);
    let mut middles = Middles::default();
    let mut rows = out.chunks_exact_mut(words_in_row(search.ink.width()).max(1));
    search.rows::<S>(wanted, workspace, watch, |y, line, squares| {
        if let Some(mark) = mark {
            count(&mut middles.widths, mark.row(y), Side::Ink, ruler, line, squares);
        }
        let out = rows.next().unwrap_or(&mut []);
        vectorised(
            #[inline(always)]
            || {
                let words = out.iter_mut().zip(line).zip(search.ink.row(y)).zip(squares.chunks(64));
                for (((out, line), ink), squares) in words {
                    let deep = if *ink == 0 { 0 } else { ink & as_deep(squares, far) };
                    middles.deep += u64::from(deep.count_ones());
                    *out = line | deep;
                }
            },
        );
    })?;
    Ok(middles)
}

/// Sets pixels in the middle of the ink, of which no more are marked, and no fewer bare, than there are: the centre-line as
/// far as the ruler reaches, and beyond it all that is bare, and of each run of a row its first pixel.
///
/// Where the ruler does not reach, a run has one pixel of the centre-line at least, the first of those with the greatest
/// distance: before it the distance is less, and behind it no more. If all of the run is marked, that one is. Tells how
/// many pixels beyond the ruler's reach are bare: where there are any, a run may be marked in part, and count too much.
pub(crate) fn least_middles(
    ink: Bitmap<'_>,
    mark: Bitmap<'_>,
    ruler: &Ruler,
    out: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<u64, Error> {
    same_size(ink, mark)?;
    same_size(ink, out.view())?;
    let search = CentreSearch { ink, side: Side::Ink, ruler: *ruler };
    search.bands().run(out.words_mut(), room, watch, |wanted, out, room, watch| {
        let mut workspace = Workspace::new(room, search.words())?;
        if ruler.counts_pixels() {
            least_middles_of_rows::<u16>(&search, mark, wanted, out, &mut workspace, watch)
        } else {
            least_middles_of_rows::<f64>(&search, mark, wanted, out, &mut workspace, watch)
        }
    })
}

fn least_middles_of_rows<S: Square>(
    search: &CentreSearch<'_>,
    mark: Bitmap<'_>,
    wanted: Range<usize>,
    out: &mut [u64],
    workspace: &mut Workspace<'_>,
    watch: &mut Watch<'_>,
) -> Result<u64, Error> {
    let far = S::of_reach(&search.ruler);
    let mut bare = 0;
    let mut rows = out.chunks_exact_mut(words_in_row(search.ink.width()).max(1));
    search.rows::<S>(wanted, workspace, watch, |y, line, squares| {
        let out = rows.next().unwrap_or(&mut []);
        vectorised(
            #[inline(always)]
            || {
                // Whether the last pixel before a word is beyond the reach.
                let mut before = 0;
                let masks = search.ink.row(y).iter().zip(mark.row(y)).zip(squares.chunks(64));
                for ((out, line), ((ink, mark), squares)) in out.iter_mut().zip(line).zip(masks) {
                    let deep = if *ink == 0 { 0 } else { ink & as_deep(squares, far) };
                    bare += u64::from((deep & !mark).count_ones());
                    *out = line | deep & (!mark | !(deep << 1 | before));
                    before = deep >> 63;
                }
            },
        );
    })?;
    Ok(bare)
}

/// Which of these distances, at most 64, reach so far.
#[inline(always)]
fn as_deep<S: Square>(squares: &[S], far: S) -> u64 {
    let mut flags = [0; 64];
    for (flag, square) in flags.iter_mut().zip(squares) {
        *flag = u8::from(*square >= far);
    }
    packed(&flags)
}

/// The width of a stroke, or gap, from the distance at its centre-line, in whole multiples of the smaller pitch.
trait Width: Square {
    fn width(self, ruler: &Ruler) -> usize;
}

impl Width for u16 {
    fn width(self, _: &Ruler) -> usize {
        whole_root(4 * u32::from(self))
    }
}

impl Width for f64 {
    fn width(self, ruler: &Ruler) -> usize {
        // As far as digits go, a whole number is no less than itself.
        (2.0 * self.metres(ruler) / unit(ruler) * (1.0 + 4e-12)) as usize
    }
}

/// Counts the pixels of a row of the centre-line by their width.
fn count<S: Width>(
    widths: &mut Widths,
    mark: &[u64],
    side: Side,
    ruler: &Ruler,
    line: &[u64],
    squares: &[S],
) {
    for ((line, mark), squares) in line.iter().zip(mark).zip(squares.chunks(64)) {
        let mut left = *line;
        while left != 0 {
            let place = left.trailing_zeros();
            left &= left - 1;
            let Some(square) = squares.get(place as usize) else { continue };
            if let Some(share) = widths.shares.get_mut(square.width(ruler)) {
                share.pixels += 1;
                share.kept += (kept(*mark, side) >> place & 1) as u32;
            }
        }
    }
}

/// The whole part of a square root.
fn whole_root(square: u32) -> usize {
    // The root of so small a number is too far from the next whole one to be rounded to it.
    math::sqrt(f64::from(square)) as usize
}
