//! What is kept of strokes and gaps: shares of their centre-lines, as a whole, by component and by width.

use crate::artwork::bands::Sum;
use crate::artwork::bitmap::Bitmap;
use crate::artwork::centre_line::{CentreSearch, Side, centre_line_words};
use crate::artwork::disc::pixels_in_word;
use crate::artwork::distance::{Ruler, Square, same_size};
use crate::artwork::watch::Watch;
use crate::artwork::workspace::Workspace;
use crate::error::Error;
use crate::model::math;

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
    let unit = math::lesser(ruler.pitch_x(), ruler.pitch_y());
    let mut widths = search.bands().read(room, watch, |wanted, room, watch| {
        let mut workspace = Workspace::new(room, search.words())?;
        let mut widths = Widths::default();
        if ruler.counts_pixels() {
            search.rows::<u16>(wanted, &mut workspace, watch, |y, line, squares| {
                count(&mut widths, mark.row(y), side, line, squares, |square| {
                    whole_root(4 * u32::from(square))
                });
            })?;
        } else {
            search.rows::<f64>(wanted, &mut workspace, watch, |y, line, squares| {
                count(&mut widths, mark.row(y), side, line, squares, |square| {
                    // As far as digits go, a whole number is no less than itself.
                    (2.0 * square.metres(ruler) / unit * (1.0 + 4e-12)) as usize
                });
            })?;
        }
        Ok(widths)
    })?;
    widths.unit = unit;
    Ok(widths)
}

/// Counts the pixels of a row of the centre-line by their width.
fn count<S: Square>(
    widths: &mut Widths,
    mark: &[u64],
    side: Side,
    line: &[u64],
    squares: &[S],
    width: impl Fn(S) -> usize,
) {
    for ((line, mark), squares) in line.iter().zip(mark).zip(squares.chunks(64)) {
        let mut left = *line;
        while left != 0 {
            let place = left.trailing_zeros();
            left &= left - 1;
            let Some(square) = squares.get(place as usize) else { continue };
            if let Some(share) = widths.shares.get_mut(width(*square)) {
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
