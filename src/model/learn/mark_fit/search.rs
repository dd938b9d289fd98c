//! The least point of χ², downhill from several starts, and a second one that fits about as well.

use super::Mark;
use super::law::{Place, UNKNOWNS};
use super::series::Series;
use crate::model::learn::solver::{Least, Local, minimise};
use crate::model::math;

/// Most steps from one start.
const MOST_STEPS: u32 = 200;
/// Points whose unknowns all differ by less than this lead to one least point.
const SAME_PLACE: f64 = 1e-2;
/// A start is given up where half of χ² is foretold to stay so far above the least one found.
const HOPELESS: f64 = 50.0;
/// Logarithms beyond this are none of the model's.
pub(super) const GREATEST_LOGARITHM: f64 = 60.0;

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// The problem of the solver.
    fn local(&self, at: &[f64; UNKNOWNS]) -> Local<UNKNOWNS> {
        let mut local = Local::NOTHING;
        if !at.iter().all(|unknown| math::fabs(*unknown) < GREATEST_LOGARITHM) {
            local.value = f64::NAN;
            return local;
        }
        let place = Place::of(at);
        for (_, mark) in self.used() {
            if let Some(residual) = self.law.residual(&place, &mark) {
                local.add(residual.value, &residual.first, &residual.second);
            }
        }
        self.law.add_known(at, &mut local);
        local.completed()
    }

    /// The least point of χ², and the next one, if it has another height and fits about as well.
    pub(super) fn least(&self, room: &mut [f64]) -> Option<(Least<UNKNOWNS>, Option<Least<UNKNOWNS>>)> {
        let mut best: Option<Least<UNKNOWNS>> = None;
        let mut second: Option<Least<UNKNOWNS>> = None;
        for (start, _) in self.starts(room).into_iter().flatten() {
            let is_idle = |at: &[f64; UNKNOWNS], foretold: f64| {
                best.is_some_and(|best| {
                    foretold > best.local.value + HOPELESS || distance(at, &best.at) < SAME_PLACE
                })
            };
            let Some(found) = minimise(|at| self.local(at), start, MOST_STEPS, is_idle) else { continue };
            let Some(kept) = best else {
                best = Some(found);
                continue;
            };
            if distance(&found.at, &kept.at) < SAME_PLACE {
                continue;
            }
            if found.local.value < kept.local.value {
                (best, second) = (Some(found), Some(kept));
            } else if second.is_none_or(|other| found.local.value < other.local.value) {
                second = Some(found);
            }
        }
        Some((best?, second))
    }
}

/// The greatest difference between two sets of unknowns.
fn distance(one: &[f64; UNKNOWNS], other: &[f64; UNKNOWNS]) -> f64 {
    one.iter().zip(other).fold(0.0, |most, (a, b)| math::greater(most, math::fabs(a - b)))
}
