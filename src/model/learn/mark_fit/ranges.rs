//! Ranges by the likelihood, for series whose marks hardly tell spot and dose apart.
//!
//! There the law is so bent that k deviations of the tangents hold too little: d² may be as small as you like, the dose
//! growing without end, and the marks nearly stay. Then ranges are what χ² itself says (`learn/likelihood.rs`), and open where
//! no spot is too small: at H = 0, the edge of what a spot can be, marks are as wide as √(b₀²·U).
//!
//! Near a dose ratio of 1 a range is open on the other side: zR and with it d may be as large as you like, b² being a parabola
//! of the height then.
//!
//! Marks that vanished count. Where one comes to vanish, the second derivatives of χ² jump, and an end is harder to find.

use super::Mark;
use super::law::UNKNOWNS;
use super::series::Series;
use crate::model::learn::likelihood::{Number, Reached, Sought, end};
use crate::model::learn::solver::{Least, Local, Matrix, descend};
use crate::model::math;

/// Longest step in place and logarithm of the range.
const FARTHEST: f64 = 0.5;
/// Most steps to the least χ² of no spot.
const MOST_STEPS: u32 = 50;
/// The search ends where F can fall by this share of it.
const ENOUGH: f64 = 1e-9;
/// Greatest part of H or b₀² that a step may take away, and the most it may add to it.
const MOST_LESS: f64 = 0.6;
const MOST_MORE: f64 = 2.0;
/// Logarithm of the Rayleigh range over half a run from which on it is without bounds.
const LONGEST: f64 = 6.0;
/// A spot with so small a part of H is none.
const NO_SPOT: f64 = 1e-3;

/// How far a number may go to either side; `None` where no end was found.
pub(super) struct Ends {
    pub(super) least: Option<f64>,
    pub(super) greatest: Option<f64>,
}

/// Ends in the units of the law. Those of H, H/b₀² and H/zR are 0 where no spot is too small.
pub(super) struct Ranges {
    pub(super) waist: Ends,
    pub(super) log_rayleigh: Ends,
    pub(super) half_square: Ends,
    /// H/b₀² = 1/ln q.
    pub(super) over_log_dose: Ends,
    /// H/zR, to which M² is proportional.
    pub(super) half_square_over_rayleigh: Ends,
}

type Function = fn(&[f64; UNKNOWNS]) -> Number<UNKNOWNS>;

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// Of this least point, to where F rises by ½·`root`².
    pub(super) fn ranges(&self, least: &Least<UNKNOWNS>, root: f64) -> Ranges {
        let floor = least.local.value;
        let to = |side: f64| Sought { floor, root, side };
        let edge = self.least_without_spot(least);
        let edge = edge.filter(|edge| edge.local.value < floor + 0.5 * root * root);
        let [waist_z, log_range, fitted, waist_square] = least.at;
        let squared_range = math::exp(2.0 * log_range);
        let start = Least {
            at: [waist_z, log_range, fitted / squared_range, waist_square],
            local: by_bend(&least.local, fitted, squared_range),
        };
        // Where no spot is too small, place and range go on along the edge, and all that is a part of the spot ends there.
        let of_waist = |number: Function, beyond: Option<f64>| {
            let to_side = |side| {
                let along_edge = || end_without_spot(self, edge.as_ref()?, number, &to(side));
                self.end_with_spot(&start, number, &to(side), beyond).or_else(along_edge)
            };
            Ends { least: to_side(-1.0), greatest: to_side(1.0) }
        };
        let of_spot = |number: Function| {
            let to_side = |side| self.end_with_spot(&start, number, &to(side), Some(f64::INFINITY));
            Ends { least: if edge.is_some() { Some(0.0) } else { to_side(-1.0) }, greatest: to_side(1.0) }
        };
        Ranges {
            waist: of_waist(waist, None),
            log_rayleigh: of_waist(log_rayleigh, Some(f64::INFINITY)),
            half_square: of_spot(half_square),
            over_log_dose: of_spot(over_log_dose),
            half_square_over_rayleigh: of_spot(half_square_over_rayleigh),
        }
    }

    /// From the least point, by z₀, ln zR, H/zR² and b₀². `beyond` is what the number comes to where the Rayleigh range is
    /// without bounds, if the number grows with it.
    fn end_with_spot(
        &self,
        start: &Least<UNKNOWNS>,
        number: Function,
        sought: &Sought,
        beyond: Option<f64>,
    ) -> Option<f64> {
        let least_spot = NO_SPOT * half_square(&start.at).value;
        let problem = |at: &[f64; UNKNOWNS]| {
            let [waist, log_rayleigh, bend, waist_square] = *at;
            let squared_range = math::exp(2.0 * log_rayleigh);
            let half_square = bend * squared_range;
            if half_square < least_spot {
                return Local { value: f64::NAN, ..Local::NOTHING };
            }
            let with_spot = [waist, log_rayleigh, half_square, waist_square];
            let local = self.local(&with_spot, |_, mark, excess| self.law.log(mark, excess));
            by_bend(&local, half_square, squared_range)
        };
        let is_beyond = |[_, log_rayleigh, ..]: &[f64; UNKNOWNS]| *log_rayleigh > LONGEST;
        match end(problem, number, share, is_beyond, start, sought)? {
            Reached::End(at) => Some(number(&at).value),
            Reached::Open => beyond.filter(|_| sought.side > 0.0),
        }
    }

    /// The least F without a spot; `None` where something is known of the spot, or none is found.
    fn least_without_spot(&self, least: &Least<UNKNOWNS>) -> Option<Least<3>> {
        if self.law.known.iter().any(|known| known.deviation.is_finite()) {
            return None;
        }
        let [waist, log_rayleigh, _, waist_square] = least.at;
        let start = [waist, log_rayleigh, waist_square];
        descend(|at| self.without_spot(at), start, MOST_STEPS, FARTHEST, ENOUGH, |_, _| false)
    }

    /// F where H = 0, by the other three.
    fn without_spot(&self, at: &[f64; 3]) -> Local<3> {
        let local = self.local(&on_edge(at), |_, mark, excess| self.law.log(mark, excess));
        let kept = |matrix: &Matrix<UNKNOWNS>| {
            let [z, r, _, b] = matrix.map(|row| without_third(&row));
            [z, r, b]
        };
        Local {
            value: local.value,
            gradient: without_third(&local.gradient),
            curvature: kept(&local.curvature),
            tangent: kept(&local.tangent),
        }
    }
}

/// The end of a place or a range, along the edge.
fn end_without_spot(
    series: &Series<'_, impl Fn(usize) -> Mark>,
    edge: &Least<3>,
    number: Function,
    sought: &Sought,
) -> Option<f64> {
    let of_edge = |at: &[f64; 3]| {
        let Number { value, first, .. } = number(&on_edge(at));
        Number { value, first: without_third(&first), second: [[0.0; 3]; 3] }
    };
    let share = |[_, _, waist_square]: &[f64; 3], [by_z, by_r, by_b]: &[f64; 3]| {
        1.0 / math::greater(over_far(*by_z, *by_r), over_much(*waist_square, *by_b))
    };
    match end(|at| series.without_spot(at), of_edge, share, |_| false, edge, sought)? {
        Reached::End(at) => Some(of_edge(&at).value),
        Reached::Open => None,
    }
}

fn on_edge(at: &[f64; 3]) -> [f64; UNKNOWNS] {
    let [waist, log_rayleigh, waist_square] = *at;
    [waist, log_rayleigh, 0.0, waist_square]
}

fn without_third(row: &[f64; UNKNOWNS]) -> [f64; 3] {
    let [first, second, _, fourth] = *row;
    [first, second, fourth]
}

/// How much of a step may be taken.
fn share(at: &[f64; UNKNOWNS], by: &[f64; UNKNOWNS]) -> f64 {
    let ([_, _, bend, waist_square], [by_z, by_r, by_x, by_b]) = (*at, *by);
    let much = math::greater(over_much(bend, by_x), over_much(waist_square, by_b));
    1.0 / math::greater(over_far(by_z, by_r), much)
}

/// By how many times steps of place and range are too long; 1 at the least.
fn over_far(by_z: f64, by_r: f64) -> f64 {
    math::greater(1.0, math::greater(math::fabs(by_z), math::fabs(by_r)) / FARTHEST)
}

/// The same of a step of what is positive.
fn over_much(positive: f64, by: f64) -> f64 {
    let most = if by < 0.0 { -MOST_LESS * positive } else { MOST_MORE * positive };
    math::greater(1.0, by / most)
}

/// Derivatives by H/zR² in the place of H, where H and zR² are these.
fn by_bend(local: &Local<UNKNOWNS>, h: f64, h_x: f64) -> Local<UNKNOWNS> {
    let [gz, gr, gh, gb] = local.gradient;
    let turned = |matrix: &Matrix<UNKNOWNS>, gh: f64| {
        let [[zz, zr, zh, zb], [_, rr, rh, rb], [_, _, hh, hb], [_, _, _, bb]] = *matrix;
        let (zr, rb) = (zr + 2.0 * h * zh, rb + 2.0 * h * hb);
        let rr = rr + 4.0 * h * (rh + h * hh + gh);
        let rx = h_x * (rh + 2.0 * h * hh + 2.0 * gh);
        let (zx, xx, xb) = (h_x * zh, h_x * h_x * hh, h_x * hb);
        [[zz, zr, zx, zb], [zr, rr, rx, rb], [zx, rx, xx, xb], [zb, rb, xb, bb]]
    };
    Local {
        value: local.value,
        gradient: [gz, gr + 2.0 * h * gh, h_x * gh, gb],
        curvature: turned(&local.curvature, gh),
        tangent: turned(&local.tangent, 0.0),
    }
}

fn waist(at: &[f64; UNKNOWNS]) -> Number<UNKNOWNS> {
    let [waist, ..] = *at;
    Number { value: waist, first: [1.0, 0.0, 0.0, 0.0], second: [[0.0; UNKNOWNS]; UNKNOWNS] }
}

fn log_rayleigh(at: &[f64; UNKNOWNS]) -> Number<UNKNOWNS> {
    let [_, log_rayleigh, ..] = *at;
    Number { value: log_rayleigh, first: [0.0, 1.0, 0.0, 0.0], second: [[0.0; UNKNOWNS]; UNKNOWNS] }
}

/// H/zRᵏ for a `power` of k, of z₀, ln zR, H/zR² and b₀².
fn half_square_over(at: &[f64; UNKNOWNS], power: f64) -> Number<UNKNOWNS> {
    let [_, log_rayleigh, bend, _] = *at;
    let rest = 2.0 - power;
    let by_bend = math::exp(rest * log_rayleigh);
    let value = bend * by_bend;
    let (rr, rx) = (rest * rest * value, rest * by_bend);
    let second = [[0.0; 4], [0.0, rr, rx, 0.0], [0.0, rx, 0.0, 0.0], [0.0; 4]];
    Number { value, first: [0.0, rest * value, by_bend, 0.0], second }
}

fn half_square(at: &[f64; UNKNOWNS]) -> Number<UNKNOWNS> {
    half_square_over(at, 0.0)
}

fn half_square_over_rayleigh(at: &[f64; UNKNOWNS]) -> Number<UNKNOWNS> {
    half_square_over(at, 1.0)
}

/// 1/ln q = H/b₀².
fn over_log_dose(at: &[f64; UNKNOWNS]) -> Number<UNKNOWNS> {
    let [_, _, _, waist_square] = *at;
    let half_square = half_square(at);
    let over = 1.0 / waist_square;
    let value = over * half_square.value;
    let [_, by_range, by_bend, _] = half_square.first.map(|slope| over * slope);
    let [_, [_, rr, rx, _], _, _] = half_square.second.map(|row| row.map(|bend| over * bend));
    let (rb, xb, bb) = (-over * by_range, -over * by_bend, 2.0 * over * over * value);
    Number {
        value,
        first: [0.0, by_range, by_bend, -over * value],
        second: [[0.0; 4], [0.0, rr, rx, rb], [0.0, rx, 0.0, xb], [0.0, rb, xb, bb]],
    }
}
