//! Progress of long work, and the order to stop it.

use crate::error::Error;
use crate::model::math;

/// What a [`Watch`] answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Go on.
    GoOn,
    /// Stop: the work ends with [`Error::Stopped`].
    Stop,
}

/// Tells the caller how much is done, and asks whether to go on.
///
/// The function gets the share of the work that is done, from 0 to 1, never less than before. It is called on the
/// caller's own thread, between two pieces of work that take a few milliseconds each: 30 ms at most between two
/// questions were measured over pages of 4096 × 4096 and 65 535 × 256 pixels, level and bowed, with gaps closed over
/// 400 pixels, on one thread and two (`cargo bench --bench preflight --features parallel -- --gaps`).
pub struct Watch<'w> {
    tell: Option<&'w mut dyn FnMut(f64) -> Step>,
    /// The part of the whole over which this work runs.
    from: f64,
    to: f64,
}

impl<'w> Watch<'w> {
    /// Tells nobody, and never stops.
    #[must_use]
    pub fn quiet() -> Self {
        Watch { tell: None, from: 0.0, to: 1.0 }
    }

    /// Tells `tell`.
    pub fn new(tell: &'w mut dyn FnMut(f64) -> Step) -> Self {
        Watch { tell: Some(tell), from: 0.0, to: 1.0 }
    }

    /// The watch over a part of the work, which runs from `from` to `to` of the whole.
    #[must_use]
    pub fn part(&mut self, from: f64, to: f64) -> Watch<'_> {
        let (start, end) = (self.at(from), self.at(to));
        let tell = self.tell.as_mut().map(|tell| &mut **tell as &mut dyn FnMut(f64) -> Step);
        Watch { tell, from: start, to: end }
    }

    /// The share of the whole. No part ends beyond the start of the next, whatever is rounded.
    fn at(&self, share: f64) -> f64 {
        math::lesser(self.from + (self.to - self.from) * share, self.to)
    }

    /// Says that this share of this work is done.
    ///
    /// # Errors
    /// [`Error::Stopped`] if the caller says so.
    pub(crate) fn done(&mut self, share: f64) -> Result<(), Error> {
        let done = self.at(share);
        match self.tell.as_mut().map_or(Step::GoOn, |tell| tell(done)) {
            Step::GoOn => Ok(()),
            Step::Stop => Err(Error::Stopped { done }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Step, Watch};

    /// Of parts within parts, with ends that no double holds, none tells less than the one before.
    #[test]
    fn progress_never_goes_back() {
        let mut told = 0.0;
        let mut tell = |done: f64| {
            assert!(done >= told && done <= 1.0, "{done} after {told}");
            told = done;
            Step::GoOn
        };
        let mut watch = Watch::new(&mut tell);
        for outer in 0..45 {
            let share = |number: u32| f64::from(number) / 45.0;
            let mut part = watch.part(share(outer), share(outer + 1));
            for (from, to) in [(0.0, 0.1), (0.1, 0.7), (0.7, 1.0)] {
                let mut inner = part.part(from, to);
                for step in 0..=7 {
                    inner.done(f64::from(step) / 7.0).unwrap();
                }
            }
        }
        assert_eq!(told, 1.0);
    }
}
