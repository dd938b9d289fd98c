//! Work on bands of rows, one after the other or spread over threads.

use crate::artwork::bitmap::words_in_row;
use crate::artwork::queue::share_out;
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

/// How a mask is cut into bands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bands {
    height: usize,
    /// Words in a row of the mask that is written.
    words_in_row: usize,
    /// Rows of one band.
    rows: usize,
    /// Words of room that the work on one band takes, not 0.
    words: usize,
}

/// Nanoseconds of work in a band, about: so few that threads end at nearly the same time, so many that the rows around
/// a band, which are looked at for it too, cost little.
const BAND: usize = 4_000_000;
/// Nanoseconds of work between two questions whether to go on, about.
const BETWEEN: usize = 1_500_000;

/// Counts the work between two questions whether to go on.
pub(crate) struct Pace {
    left: usize,
}

impl Pace {
    pub(crate) fn new() -> Self {
        Pace { left: BETWEEN }
    }

    /// Counts work of about so many nanoseconds. Tells whether it is time to ask.
    pub(crate) fn is_due(&mut self, nanoseconds: usize) -> bool {
        let due = nanoseconds >= self.left;
        self.left = if due { BETWEEN } else { self.left - nanoseconds };
        due
    }
}

impl Bands {
    /// Bands of a mask of this size of which each takes a few milliseconds, where a pixel takes about so many
    /// nanoseconds; `words` of room for the work on one.
    pub(crate) fn of(width: usize, height: usize, nanoseconds: usize, words: usize) -> Self {
        let most = (BAND / (width.max(1) * nanoseconds.max(1))).clamp(16, 1024);
        // All of about one height, and an even number of them, as most machines have an even number of threads.
        let count = height.div_ceil(most).next_multiple_of(2);
        Bands { height, words_in_row: words_in_row(width), rows: height.div_ceil(count.max(1)).max(1), words }
    }

    fn count(self) -> usize {
        self.height.div_ceil(self.rows)
    }

    /// Does `work` on each band: its rows, the words of the mask `out` in them, the room to work in, and the watch over
    /// the band.
    ///
    /// Of the room, one share of [`Bands::words`] is used, with the feature `parallel` as many as there are threads
    /// and whole shares.
    pub(crate) fn run<S: Sum>(
        self,
        out: &mut [u64],
        room: &mut [u64],
        watch: &mut Watch<'_>,
        work: impl Fn(Range<usize>, &mut [u64], &mut [u64], &mut Watch<'_>) -> Result<S, Error> + Sync,
    ) -> Result<S, Error> {
        let rooms = self.rooms(room)?;
        let bands = out.chunks_mut((self.rows * self.words_in_row).max(1)).enumerate();
        share_out(self.count(), bands, rooms, watch, |(number, out), room, watch| {
            work(self.band(number), out, room, watch)
        })
    }

    /// As [`Bands::run`], for work that writes no mask.
    pub(crate) fn read<S: Sum>(
        self,
        room: &mut [u64],
        watch: &mut Watch<'_>,
        work: impl Fn(Range<usize>, &mut [u64], &mut Watch<'_>) -> Result<S, Error> + Sync,
    ) -> Result<S, Error> {
        let rooms = self.rooms(room)?;
        share_out(self.count(), 0..self.count(), rooms, watch, |number, room, watch| {
            work(self.band(number), room, watch)
        })
    }

    /// Rows of the band of this number.
    fn band(self, number: usize) -> Range<usize> {
        let from = number * self.rows;
        from..(from + self.rows).min(self.height)
    }

    /// Shares of the room to work in at a time.
    fn rooms(self, room: &mut [u64]) -> Result<impl Iterator<Item = &mut [u64]>, Error> {
        if room.len() < self.words {
            let (value, expected) = (room.len(), self.words);
            return Err(Error::LengthMismatch { param: Param::Workspace, value, expected });
        }
        Ok(room.chunks_exact_mut(self.words.max(1)).take(threads()))
    }
}

#[cfg(test)]
mod tests {
    use super::{BETWEEN, Bands, Pace};

    /// However the work is cut, no more of it passes between two questions than is meant to, but for the last piece.
    #[test]
    fn questions_come_in_time() {
        for piece in [1, 7_000, 1_400_000, 1_500_000, 9_000_000] {
            let mut pace = Pace::new();
            let mut since = 0;
            for _ in 0..2000 {
                since += piece;
                if pace.is_due(piece) {
                    since = 0;
                }
                assert!(since < BETWEEN);
            }
        }
    }

    /// Every row is in one band, whatever the size.
    #[test]
    fn bands_hold_every_row_once() {
        for (width, height) in [(1, 1), (65_535, 1), (65_535, 128), (4096, 4096), (700, 900), (3, 65_535)] {
            for nanoseconds in [1, 5, 130] {
                let bands = Bands::of(width, height, nanoseconds, 1);
                let rows: usize = (0..bands.count()).map(|number| bands.band(number).len()).sum();
                assert_eq!(rows, height);
                assert!((0..bands.count()).all(|number| !bands.band(number).is_empty()));
            }
        }
    }
}
