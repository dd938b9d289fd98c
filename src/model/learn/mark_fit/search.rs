//! The least point of χ², downhill from several starts, and a second one that fits about as well.

use super::Mark;
use super::law::{Place, Scaled, UNKNOWNS};
use super::series::Series;
use super::spot::profile;
use crate::model::learn::solver::{Least, Local, descend, inverse, settled};
use crate::model::math;

/// Most steps from one start.
const MOST_STEPS: u32 = 50;
/// The search ends where F can fall by this share of it.
const ENOUGH: f64 = 1e-9;
/// Longest step in either unknown: half a run of heights, or a factor of e in range.
const FARTHEST: f64 = 1.0;
/// Points whose unknowns all differ by less than this lead to one least point.
const SAME_PLACE: f64 = 1e-2;
/// So many starts are usually enough.
const USUAL_STARTS: usize = 3;
/// Deviations up to which place and range are well known.
const KNOWN_PLACE: f64 = 0.05;
const KNOWN_RANGE: f64 = 0.15;
/// Farther off than this, no way is said to lead to a least point that is known.
const NEAR_BY: f64 = 0.1;
/// A start is given up where half of χ² is foretold to stay so far above the least one found.
const HOPELESS: f64 = 50.0;
/// Places of the waist, in half runs, and logarithms of its range over half a run, beyond this are not looked at.
const FARTHEST_WAIST: f64 = 6.0;
/// Logarithms beyond this are none of the model's.
const GREATEST_LOGARITHM: f64 = 60.0;

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// F by all four unknowns, with l of each mark by its place and v.
    pub(super) fn local(
        &self,
        at: &[f64; UNKNOWNS],
        log: impl Fn(usize, &Scaled, f64) -> f64,
    ) -> Local<UNKNOWNS> {
        let mut local = Local::NOTHING;
        let place = Place::of(at);
        for (index, mark) in self.used() {
            if let Some(residual) = self.law.residual(&place, &mark, log(index, &mark, place.excess(&mark))) {
                local.add(residual.value, &residual.first, &residual.second);
            }
        }
        self.law.add_known(at, &mut local);
        local.completed()
    }

    /// F by the place and the range of the waist, with the spot and the dose that fit best there.
    fn of_waist(&self, at: &[f64; 2], room: &mut [f64]) -> Local<2> {
        let within = at.iter().all(|unknown| math::fabs(*unknown) < FARTHEST_WAIST);
        let best = if within { self.best_spot(at, room) } else { None };
        best.filter(|best| Place::of(&best.at).half_square > 0.0)
            .and_then(|best| profile(&best.local))
            .unwrap_or(Local { value: f64::NAN, ..Local::NOTHING })
    }

    /// Whether a least point fits as well as the deviations promise.
    fn fits(&self, least: &Least<2>) -> bool {
        let (seen, _) = self.counts();
        let expected = f64::from(seen);
        2.0 * least.local.value < expected + 3.0 * math::sqrt(2.0 * expected)
    }

    /// The least point of χ², and the next one, if it has another height and fits about as well.
    pub(super) fn least(&self, room: &mut [f64]) -> Option<(Least<UNKNOWNS>, Option<Least<2>>)> {
        let mut best: Option<Least<2>> = None;
        let mut second: Option<Least<2>> = None;
        for (tried, start) in self.starts(room).into_iter().enumerate() {
            let enough =
                best.is_some_and(|best| self.fits(&best) && (tried >= USUAL_STARTS || is_well_known(&best)));
            if enough {
                break;
            }
            let is_idle = |at: &[f64; 2], foretold: f64| {
                best.is_some_and(|best| {
                    leads_to(at, &best) || foretold > best.local.value + HOPELESS && self.fits(&best)
                })
            };
            let found =
                descend(|at| self.of_waist(at, room), start.at, MOST_STEPS, FARTHEST, ENOUGH, is_idle);
            let Some(found) = found else { continue };
            // A spot or a dose that is none of the model's is no answer.
            let within = self.best_spot(&found.at, room).is_some_and(|least| {
                let place = Place::of(&least.at);
                place.half_square > 0.0 && math::fabs(place.log_dose()) < GREATEST_LOGARITHM
            });
            if !within {
                continue;
            }
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
        let least = self.best_spot(&best?.at, room)?;
        Some((settled(|at| self.local(at, |_, mark, excess| self.law.log(mark, excess)), least), second))
    }
}

/// The greatest difference between two sets of unknowns.
fn distance(one: &[f64; 2], other: &[f64; 2]) -> f64 {
    one.iter().zip(other).fold(0.0, |most, (a, b)| math::greater(most, math::fabs(a - b)))
}

/// Whether the way from here leads to a least point that is known: within a deviation of it, by F, and not far.
fn leads_to(at: &[f64; 2], least: &Least<2>) -> bool {
    let ([z, r], [least_z, least_r]) = (*at, least.at);
    let [[zz, zr], [_, rr]] = least.local.curvature;
    let (z, r) = (z - least_z, r - least_r);
    distance(at, &least.at) < NEAR_BY && zz * z * z + 2.0 * zr * z * r + rr * r * r < 1.0
}

/// Whether place and range are so well known that there is no need to look for another least point.
fn is_well_known(least: &Least<2>) -> bool {
    inverse(&least.local.curvature)
        .is_some_and(|[[zz, _], [_, rr]]| zz < KNOWN_PLACE * KNOWN_PLACE && rr < KNOWN_RANGE * KNOWN_RANGE)
}
