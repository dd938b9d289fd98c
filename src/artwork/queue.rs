//! Work in pieces: each is taken by the next thread that is free, and the caller's own thread asks the watch meanwhile.
//!
//! No piece knows who does it, so that no bit depends on threads.

use super::bands::Sum;
use super::watch::Watch;
use crate::error::Error;

/// Does `work` on each of `count` pieces, with as many threads as there are rooms and threads of the pool.
///
/// A piece tells its own watch how much of it is done; what is told to `watch` is the share of all of them. The first
/// room is the caller's. Once `watch` says stop, every thread hears it at the next question of its piece.
#[cfg(not(feature = "parallel"))]
pub(crate) fn share_out<P, R, S: Sum>(
    count: usize,
    pieces: impl Iterator<Item = P>,
    mut rooms: impl Iterator<Item = R>,
    watch: &mut Watch<'_>,
    work: impl Fn(P, &mut R, &mut Watch<'_>) -> Result<S, Error>,
) -> Result<S, Error> {
    let mut sum = S::default();
    let Some(mut room) = rooms.next() else { return Ok(sum) };
    let share = |number: usize| number as f64 / count.max(1) as f64;
    for (number, piece) in pieces.enumerate() {
        sum.add(work(piece, &mut room, &mut watch.part(share(number), share(number + 1)))?);
        watch.done(share(number + 1))?;
    }
    Ok(sum)
}

#[cfg(feature = "parallel")]
pub(crate) use parallel::share_out;

#[cfg(feature = "parallel")]
mod parallel {
    use super::{Error, Sum, Watch};
    use crate::artwork::watch::Step;
    use crate::model::math;
    use core::time::Duration;
    use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

    /// Longest that the caller's thread waits for others without asking its watch.
    const LONGEST_WAIT: Duration = Duration::from_millis(2);

    /// What is left to do, and what came of the rest.
    struct Queue<I, S> {
        pieces: I,
        /// Pieces that threads other than the caller's are working on.
        busy: usize,
        finished: usize,
        sum: S,
        fault: Option<Error>,
        stopped: bool,
    }

    /// A queue, and what wakes the caller when another thread has finished a piece.
    struct Shared<I, S> {
        queue: Mutex<Queue<I, S>>,
        woken: Condvar,
    }

    impl<P, I: Iterator<Item = P>, S: Sum> Shared<I, S> {
        /// A thread that panicked leaves a queue that is still whole: `rayon` passes the panic on when all have ended.
        fn lock(&self) -> MutexGuard<'_, Queue<I, S>> {
            self.queue.lock().unwrap_or_else(PoisonError::into_inner)
        }

        fn is_stopped(&self) -> bool {
            self.lock().stopped
        }

        /// Ends the work with this error, unless it has ended.
        fn fail(&self, error: Error) {
            let mut queue = self.lock();
            if !queue.stopped {
                queue.stopped = true;
                queue.fault = Some(error);
            }
        }

        fn next(&self) -> Option<P> {
            let mut queue = self.lock();
            if queue.stopped { None } else { queue.pieces.next() }
        }

        /// The next piece for a thread that helps.
        fn take(&self) -> Option<(P, Busy<'_, I, S>)> {
            let mut queue = self.lock();
            let piece = if queue.stopped { None } else { queue.pieces.next() }?;
            queue.busy += 1;
            Some((piece, Busy(self)))
        }

        fn finish(&self, found: Result<S, Error>) {
            match found {
                Ok(found) => {
                    let mut queue = self.lock();
                    queue.finished += 1;
                    queue.sum.add(found);
                }
                Err(error) => self.fail(error),
            }
        }
    }

    /// A piece in the hands of a thread that helps; when it is dropped, be it by a panic, the caller waits no longer.
    struct Busy<'q, I, S>(&'q Shared<I, S>);

    impl<I, S> Drop for Busy<'_, I, S> {
        fn drop(&mut self) {
            self.0.queue.lock().unwrap_or_else(PoisonError::into_inner).busy -= 1;
            self.0.woken.notify_all();
        }
    }

    pub(crate) fn share_out<P: Send, R: Send, S: Sum>(
        count: usize,
        pieces: impl Iterator<Item = P> + Send,
        mut rooms: impl Iterator<Item = R>,
        watch: &mut Watch<'_>,
        work: impl Fn(P, &mut R, &mut Watch<'_>) -> Result<S, Error> + Sync,
    ) -> Result<S, Error> {
        let Some(mut own) = rooms.next() else { return Ok(S::default()) };
        let helpers = rayon::current_num_threads().min(count).saturating_sub(1);
        let queue =
            Queue { pieces, busy: 0, finished: 0, sum: S::default(), fault: None, stopped: false };
        let shared = Shared { queue: Mutex::new(queue), woken: Condvar::new() };
        let mut told = 0.0;
        // Asks the watch, with this share of a piece done beside those that are finished.
        let mut ask = |shared: &Shared<_, S>, share: f64| {
            if shared.is_stopped() {
                return Step::Stop;
            }
            let done = (shared.lock().finished as f64 + share) / count.max(1) as f64;
            told = math::greater(told, math::lesser(done, 1.0));
            match watch.done(told) {
                Ok(()) => Step::GoOn,
                Err(stopped) => {
                    shared.fail(stopped);
                    Step::Stop
                }
            }
        };
        rayon::in_place_scope(|scope| {
            for mut room in rooms.take(helpers) {
                let (shared, work) = (&shared, &work);
                scope.spawn(move |_| {
                    while let Some((piece, _busy)) = shared.take() {
                        let mut tell =
                            |_: f64| if shared.is_stopped() { Step::Stop } else { Step::GoOn };
                        shared.finish(work(piece, &mut room, &mut Watch::new(&mut tell)));
                    }
                });
            }
            while let Some(piece) = shared.next() {
                let found = work(piece, &mut own, &mut Watch::new(&mut |share| ask(&shared, share)));
                shared.finish(found);
                ask(&shared, 0.0);
            }
            loop {
                let queue = shared.lock();
                if queue.busy == 0 {
                    break;
                }
                let waited = shared.woken.wait_timeout(queue, LONGEST_WAIT);
                drop(waited.unwrap_or_else(PoisonError::into_inner));
                ask(&shared, 0.0);
            }
        });
        let Queue { sum, fault, .. } = shared.queue.into_inner().unwrap_or_else(PoisonError::into_inner);
        fault.map_or(Ok(sum), Err)
    }
}
