//! Work on bands of rows, one after the other or spread over threads.

use crate::artwork::threads;
use crate::artwork::watch::Watch;
use crate::error::{Error, Param};
use core::ops::Range;

/// What is found in one band and added up over all, in any order.
pub(crate) trait Sum: Default + Send {
    fn add(&mut self, other: Self);
}

impl Sum for () {
    fn add(&mut self, (): ()) {}
}

/// How a mask is cut into bands. Neither rows nor words may be 0.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bands {
    pub(crate) height: usize,
    /// Words in a row of the mask that is written.
    pub(crate) words_in_row: usize,
    /// Rows of one band.
    pub(crate) rows: usize,
    /// Words of room that the work on one band takes.
    pub(crate) words: usize,
}

impl Bands {
    /// Bands that take a few milliseconds each, where a pixel takes about so many nanoseconds.
    pub(crate) fn rows_for(width: usize, nanoseconds: usize) -> usize {
        (6_000_000 / (width.max(1) * nanoseconds.max(1))).clamp(16, 1024)
    }

    /// Does `work` on each band: its rows, the words of the mask `out` in them, and the room to work in.
    ///
    /// Of the room, one share of [`Bands::words`] is used, with the feature `parallel` as many as there are threads
    /// and whole shares.
    pub(crate) fn run<S: Sum>(
        self,
        out: &mut [u64],
        room: &mut [u64],
        watch: &mut Watch<'_>,
        work: impl Fn(Range<usize>, &mut [u64], &mut [u64]) -> Result<S, Error> + Sync,
    ) -> Result<S, Error> {
        let shares = self.shares(room)?;
        let mut sum = S::default();
        let mut start = 0;
        let piece = (self.rows * self.words_in_row).max(1);
        for out in out.chunks_mut(piece * shares) {
            let band =
                |index: usize, out: &mut [u64], room: &mut [u64]| work(self.band(start, index), out, room);
            sum.add(one_round(out, piece, room, self.words, band)?);
            start += shares * self.rows;
            watch.done(start.min(self.height) as f64 / self.height.max(1) as f64)?;
        }
        Ok(sum)
    }

    /// As [`Bands::run`], for work that writes no mask.
    pub(crate) fn read<S: Sum>(
        self,
        room: &mut [u64],
        watch: &mut Watch<'_>,
        work: impl Fn(Range<usize>, &mut [u64]) -> Result<S, Error> + Sync,
    ) -> Result<S, Error> {
        let shares = self.shares(room)?;
        let mut sum = S::default();
        for start in (0..self.height).step_by(shares * self.rows) {
            // As many words to write as there are bands, so that each gets one.
            let bands = (self.height - start).div_ceil(self.rows).min(shares);
            let mut none = [0; MOST_SHARES];
            let none = none.get_mut(..bands).unwrap_or(&mut []);
            let band = |index: usize, _: &mut [u64], room: &mut [u64]| work(self.band(start, index), room);
            sum.add(one_round(none, 1, room, self.words, band)?);
            let done = (start + shares * self.rows).min(self.height);
            watch.done(done as f64 / self.height as f64)?;
        }
        Ok(sum)
    }

    /// Rows of the band of this number from row `start` on.
    fn band(self, start: usize, index: usize) -> Range<usize> {
        let from = start + index * self.rows;
        from..(from + self.rows).min(self.height)
    }

    /// Shares of the room to work in at a time.
    fn shares(self, room: &[u64]) -> Result<usize, Error> {
        if room.len() < self.words {
            let (value, expected) = (room.len(), self.words);
            return Err(Error::LengthMismatch { param: Param::Workspace, value, expected });
        }
        Ok(threads().min(room.len() / self.words.max(1)).clamp(1, MOST_SHARES))
    }
}

/// More threads than this share no work.
const MOST_SHARES: usize = 64;

#[cfg(not(feature = "parallel"))]
fn one_round<S: Sum>(
    out: &mut [u64],
    piece: usize,
    room: &mut [u64],
    words: usize,
    band: impl Fn(usize, &mut [u64], &mut [u64]) -> Result<S, Error> + Sync,
) -> Result<S, Error> {
    let mut sum = S::default();
    for (index, (out, room)) in out.chunks_mut(piece).zip(room.chunks_exact_mut(words)).enumerate() {
        sum.add(band(index, out, room)?);
    }
    Ok(sum)
}

#[cfg(feature = "parallel")]
fn one_round<S: Sum>(
    out: &mut [u64],
    piece: usize,
    room: &mut [u64],
    words: usize,
    band: impl Fn(usize, &mut [u64], &mut [u64]) -> Result<S, Error> + Sync,
) -> Result<S, Error> {
    use rayon::prelude::*;
    out.par_chunks_mut(piece)
        .zip(room.par_chunks_exact_mut(words))
        .enumerate()
        .map(|(index, (out, room))| band(index, out, room))
        .try_reduce(S::default, |mut sum, one| {
            sum.add(one);
            Ok(sum)
        })
}
