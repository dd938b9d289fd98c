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
        let queue = Queue { pieces, busy: 0, finished: 0, sum: S::default(), fault: None, stopped: false };
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
                        let mut tell = |_: f64| if shared.is_stopped() { Step::Stop } else { Step::GoOn };
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

#[cfg(all(test, feature = "parallel"))]
mod tests {
    use super::share_out;
    use crate::artwork::watch::{Step, Watch};
    use crate::error::Error;
    use core::sync::atomic::{AtomicBool, AtomicUsize, Ordering::SeqCst};
    use core::time::Duration;
    use std::time::Instant;

    /// Waits for what another thread does; a minute is far more than it takes.
    fn wait_for(mut happened: impl FnMut() -> bool) {
        let start = Instant::now();
        while !happened() {
            assert!(start.elapsed() < Duration::from_secs(60), "it never happens");
            std::thread::sleep(Duration::from_millis(1));
        }
    }

    /// Two pieces, one for each of two threads. That of the caller ends at once; what `help` does is the other.
    fn with_a_helper(
        tell: &mut (dyn FnMut() -> Step + Send),
        help: impl Fn(&mut Watch<'_>) -> Result<(), Error> + Sync,
    ) -> Result<(), Error> {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(2).build().unwrap();
        let helped = AtomicBool::new(false);
        pool.install(|| {
            let caller = std::thread::current().id();
            let mut tell = |_: f64| tell();
            let watch = &mut Watch::new(&mut tell);
            share_out(2, 0..2, [(), ()].into_iter(), watch, |_, (), watch| {
                if std::thread::current().id() == caller {
                    wait_for(|| helped.load(SeqCst));
                    return Ok(());
                }
                helped.store(true, SeqCst);
                help(watch)
            })
        })
    }

    /// While another thread is at work, the caller's asks its watch again and again.
    #[test]
    fn the_caller_asks_while_others_work() {
        let asked = AtomicUsize::new(0);
        let mut tell = || {
            asked.fetch_add(1, SeqCst);
            Step::GoOn
        };
        let done = with_a_helper(&mut tell, |_| {
            let before = asked.load(SeqCst);
            wait_for(|| asked.load(SeqCst) > before + 3);
            Ok(())
        });
        assert_eq!(done, Ok(()));
    }

    /// What the caller's watch says then is heard by the other thread at its next question, and nobody asks again.
    #[test]
    fn an_order_to_stop_reaches_the_others() {
        let mut asked = 0;
        let mut tell = || {
            asked += 1;
            if asked > 3 { Step::Stop } else { Step::GoOn }
        };
        let stopped = AtomicBool::new(false);
        let done = with_a_helper(&mut tell, |watch| {
            let mut heard = Ok(());
            wait_for(|| {
                heard = watch.done(0.5);
                heard.is_err()
            });
            stopped.store(true, SeqCst);
            heard
        });
        // Of two pieces, the caller's is done.
        assert_eq!(done, Err(Error::Stopped { done: 0.5 }));
        assert!(stopped.load(SeqCst));
        assert_eq!(asked, 4);
    }

    /// What is wrong with a piece ends the others too.
    #[test]
    fn a_fault_of_a_helper_is_told() {
        let wrong = Error::Stopped { done: 0.25 };
        let done = with_a_helper(&mut || Step::GoOn, |_| Err(wrong));
        assert_eq!(done, Err(wrong));
    }
}
