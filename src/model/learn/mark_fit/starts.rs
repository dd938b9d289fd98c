//! Where to start: a coarse grid over the height of the waist and the Rayleigh range, on which spot and dose follow by
//! linear least squares.

use super::Mark;
use super::law::{Law, Scaled, UNKNOWNS};
use super::search::GREATEST_LOGARITHM;
use super::series::Series;
use crate::model::math;

/// The grid of starts: heights of the waist over half the run, and Rayleigh ranges over it.
const START_HEIGHTS: [f64; 5] = [-0.8, -0.4, 0.0, 0.4, 0.8];
const START_RANGES: [f64; 4] = [0.15, 0.35, 0.8, 1.8];

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// d² and d²·ln q for this place and range of the waist by linear least squares on b², then χ² there. `room`
    /// is for one number of each mark.
    fn start(&self, waist: f64, range: f64, room: &mut [f64]) -> Option<([f64; UNKNOWNS], f64)> {
        let growth = |mark: &Scaled| {
            let away = (mark.height - waist) / range;
            1.0 + away * away
        };
        let (mut bb, mut ba, mut aa, mut by, mut ay) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (index, mark) in self.used() {
            let u = growth(&mark);
            let log = mark.log_power - self.law.half_exponent * math::log(u);
            if let Some(place) = room.get_mut(index) {
                *place = log;
            }
            if mark.width == 0.0 {
                continue;
            }
            let spread = mark.width * mark.deviation;
            let weight = 1.0 / (spread * spread);
            let (x, y) = (u * log, mark.width * mark.width);
            bb += weight * u * u;
            ba += weight * u * x;
            aa += weight * x * x;
            by += weight * u * y;
            ay += weight * x * y;
        }
        let determinant = bb * aa - ba * ba;
        let half_square = (bb * ay - ba * by) / determinant;
        let log_dose = (aa * by - ba * ay) / determinant / half_square;
        // Fails for numbers that are none.
        if !(half_square > 0.0 && math::fabs(log_dose) < GREATEST_LOGARITHM) {
            return None;
        }
        let at = [waist, 0.5 * math::log(2.0 * half_square), math::log(range), log_dose];
        let mut squares = self.law.known_squares(&at);
        for (index, mark) in self.used() {
            let log = room.get(index).copied().unwrap_or(f64::NAN);
            let left = Law::left(half_square * growth(&mark) * (log_dose + log), &mark);
            squares += left * left;
        }
        squares.is_finite().then_some((at, squares))
    }

    /// The three best starts, of different heights.
    pub(super) fn starts(&self, room: &mut [f64]) -> [Option<([f64; UNKNOWNS], f64)>; 3] {
        let mut best: [Option<([f64; UNKNOWNS], f64)>; 3] = [None; 3];
        for waist in START_HEIGHTS {
            let mut here: Option<([f64; UNKNOWNS], f64)> = None;
            for range in START_RANGES {
                if let Some(start) = self.start(waist, range, room)
                    && here.is_none_or(|(_, squares)| start.1 < squares)
                {
                    here = Some(start);
                }
            }
            // Put in its order; the last falls out.
            let mut moving = here;
            for kept in &mut best {
                let better = match (&moving, &kept) {
                    (Some((_, mine)), Some((_, theirs))) => mine < theirs,
                    (Some(_), None) => true,
                    _ => false,
                };
                if better {
                    core::mem::swap(kept, &mut moving);
                }
            }
        }
        best
    }
}
