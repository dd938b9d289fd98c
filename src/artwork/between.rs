//! What is sure of every mark that lies between a least and a greatest one.
//!
//! | symbol | meaning                                                                            |
//! |--------|------------------------------------------------------------------------------------|
//! | D      | the ink of the drawing                                                             |
//! | S      | the least mark: all that is surely marked                                          |
//! | C      | all that surely stays clear; the greatest mark is the rest, U                      |
//! | M      | any mark with S ⊆ M ⊆ U: the true one is among them                                |
//!
//! Proven of every M, as sets of pixels and whatever D is (derived here):
//!
//! - A piece of D that shares a pixel with S shares it with M: it is not lost.
//! - A piece of M hangs together in U as well, and so lies in one piece of U: if no piece of U holds pixels of two pieces of
//!   D, none of M does, and no two merge.
//! - A hole of D that shares a pixel with C has one that M leaves clear: it is not closed.
//! - Ground that is joined to the outside in M is so in S as well, where there is more of it: if in S no hole of D is
//!   open to the outside, none is in M.
//! - Of a piece's centre-line M marks no less than S does: if S marks half of it, the piece is not starved. The
//!   centre-line is that of the longest ruler. A shorter one finds the same where no stroke reaches its end; what lies
//!   deeper than the longest is marked by S, or counts as in the middle and not marked.
//! - If the pixels of a piece that are in S are in one piece of S, they are in one piece of M.
//!
//! Not proven: that a piece is not split. M may have a part more of it, all of undecided pixels: S and U tell nothing of
//! how these hang together. How large such a part may be is bounded: no pixel of it is in S, and if all ink is near to S,
//! the part is.

use super::centre_line::{CentreSearch, Side, centre_line_words};
use super::disc::{Disc, disc_words, lost, pixels_in_word};
use super::distance::{Ruler, Square};
use super::runs::{rows_at_a_time, run_capacity};
use super::strokes::{CentreShare, add_component_shares, starved_components};
use super::topology::{Parts, Topology, compare, compare_words, find_parts, parts_words};
use super::watch::Watch;
use super::workspace::{Workspace, words_for};
use super::{Bitmap, BitmapMut, words_in_row};
use crate::error::Error;
use core::ops::Range;

/// A drawing, and the marks between which the true one lies.
#[derive(Clone, Copy)]
pub(crate) struct Between<'m> {
    pub(crate) ink: Bitmap<'m>,
    /// The least mark.
    pub(crate) marked: Bitmap<'m>,
    /// What the greatest mark leaves clear.
    pub(crate) clear: Bitmap<'m>,
}

/// What distances are measured with.
pub(crate) struct Rulers {
    /// In strokes and in gaps, for their middles.
    pub(crate) strokes: Ruler,
    pub(crate) gaps: Ruler,
    /// Ink beyond this disc around it is far from the least mark.
    pub(crate) beside: Disc,
}

/// What stays in doubt.
pub(crate) struct Doubts {
    pub(crate) strokes: Middles,
    pub(crate) gaps: Middles,
    /// What becomes of the drawing in the least mark, and in the greatest.
    pub(crate) sure: Topology,
    pub(crate) possible: Topology,
    /// Pieces of which the least mark has less than half of the middle.
    pub(crate) starved: u32,
    /// Pixels of ink that are far from the least mark.
    pub(crate) far_ink: u64,
}

/// Pixels in the middle of strokes or gaps, and how many of them are not decided.
#[derive(Clone, Copy)]
pub(crate) struct Middles {
    pub(crate) pixels: u64,
    pub(crate) doubtful: u64,
}

impl Rulers {
    /// Words of room for one thread.
    pub(crate) fn share_words(&self, width: usize, height: usize) -> usize {
        centre_line_words(width, height, &self.strokes)
            .max(centre_line_words(width, height, &self.gaps))
            .max(disc_words(width, height, &self.beside))
    }

    /// Words of room for [`Between::doubts`] with so many threads, each of which takes a share.
    pub(crate) fn words(&self, width: usize, height: usize, share: usize, threads: usize) -> usize {
        let threads = threads.max(1);
        // Ink and ground are compared side by side.
        let comparing = compare_words(width, height) * threads.min(2);
        own_words(width, height).saturating_add(share.saturating_mul(threads).max(comparing))
    }
}

/// Room for what is kept: a mask, shares, pieces and holes of the drawing.
fn own_words(width: usize, height: usize) -> usize {
    words_in_row(width) * height
        + words_for::<CentreShare>(run_capacity(width, height))
        + parts_words(width, height)
}

impl Between<'_> {
    /// Finds what stays in doubt.
    pub(crate) fn doubts(
        &self,
        rulers: &Rulers,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Doubts, Error> {
        let (width, height) = (self.ink.width(), self.ink.height());
        let (own, room) = room.split_at_mut(own_words(width, height).min(room.len()));
        let mut own = Workspace::new(own, own_words(width, height))?;
        let mask = own.take(words_in_row(width) * height)?;
        let mut mask = BitmapMut::new(mask, width, height)?;
        let shares = own.take(run_capacity(width, height))?;
        let parts = find_parts(&self.ink, own.into_rest(), &mut watch.part(0.0, 0.2))?;

        let (side, ruler) = (Side::Ground, rulers.gaps);
        let gaps = self.middles(side, ruler, &mut mask, room, &mut watch.part(0.2, 0.35))?;
        let (side, ruler) = (Side::Ink, rulers.strokes);
        let strokes = self.middles(side, ruler, &mut mask, room, &mut watch.part(0.35, 0.48))?;
        let starved = self.starved(mask.view(), &parts, shares, &mut watch.part(0.48, 0.5))?;

        let sure = compare(&parts, &self.marked, room, &mut [], &mut watch.part(0.5, 0.7))?;
        for (row, clear) in mask.rows_mut().zip(self.clear.words().chunks(words_in_row(width))) {
            for (index, (word, clear)) in row.iter_mut().zip(clear).enumerate() {
                *word = !clear & pixels_in_word(width, index);
            }
        }
        let possible = compare(&parts, &mask.view(), room, &mut [], &mut watch.part(0.7, 0.9))?;
        lost(self.ink, self.marked, &rulers.beside, &mut mask, room, &mut watch.part(0.9, 1.0))?;
        let far_ink = mask.view().count();
        Ok(Doubts { strokes, gaps, sure, possible, starved, far_ink })
    }

    /// Pieces of which less than half of these middles is surely marked.
    fn starved(
        &self,
        middles: Bitmap<'_>,
        parts: &Parts<'_>,
        shares: &mut [CentreShare],
        watch: &mut Watch<'_>,
    ) -> Result<u32, Error> {
        let shares = shares.get_mut(..parts.ink.count() as usize).unwrap_or_default();
        let height = self.ink.height();
        let piece = rows_at_a_time(self.ink.width());
        for first in (0..height).step_by(piece) {
            for y in first..height.min(first + piece) {
                let runs = parts.ink.row(y).map(|run| (run.start, run.end, run.label));
                add_component_shares(middles.row(y), self.marked.row(y), runs, shares);
            }
            watch.done(first as f64 / height as f64)?;
        }
        Ok(starved_components(shares) as u32)
    }

    /// Sets what is in the middle of a side: its centre-line, and of what lies so far inside that it has none, that which is
    /// not decided. Far inside is decided too, unless edges are so soft that it is far from what is ink all over, or bare.
    pub(crate) fn middles(
        &self,
        side: Side,
        ruler: Ruler,
        out: &mut BitmapMut<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Middles, Error> {
        let search = CentreSearch { ink: self.ink, side, ruler };
        let decided = match side {
            Side::Ink => self.marked,
            Side::Ground => self.clear,
        };
        search.bands().run(out.words_mut(), room, watch, |wanted, out, room, watch| {
            let mut workspace = Workspace::new(room, search.words())?;
            if ruler.counts_pixels() {
                write_middles::<u16>(&search, decided, wanted, out, &mut workspace, watch)
            } else {
                write_middles::<f64>(&search, decided, wanted, out, &mut workspace, watch)
            }
        })?;
        let mut middles = Middles { pixels: 0, doubtful: 0 };
        for (middle, decided) in out.view().words().iter().zip(decided.words()) {
            middles.pixels += u64::from(middle.count_ones());
            middles.doubtful += u64::from((middle & !decided).count_ones());
        }
        Ok(middles)
    }
}

fn write_middles<S: Square>(
    search: &CentreSearch<'_>,
    decided: Bitmap<'_>,
    wanted: Range<usize>,
    out: &mut [u64],
    workspace: &mut Workspace<'_>,
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    let far = S::of_reach(&search.ruler);
    let width = search.ink.width();
    let mut rows = out.chunks_exact_mut(words_in_row(width).max(1));
    search.rows::<S>(wanted, workspace, watch, |y, line, squares| {
        let words = rows.next().unwrap_or(&mut []).iter_mut().zip(line);
        let masks = search.ink.row(y).iter().zip(decided.row(y)).zip(squares.chunks(64));
        for (index, ((out, line), ((ink, decided), squares))) in words.zip(masks).enumerate() {
            let shape = match search.side {
                Side::Ink => *ink,
                Side::Ground => !ink & pixels_in_word(width, index),
            };
            *out = *line;
            let rest = shape & !line & !decided;
            if rest != 0 {
                for (place, square) in squares.iter().enumerate() {
                    *out |= rest & u64::from(*square >= far) << place;
                }
            }
        }
    })
}
