//! How far a number may go until the fit gets worse by a given amount: ranges by the ratio of likelihoods.
//!
//! F is half of χ², and F(c) the least of it with the number held at c. The range of k deviations ends where F(c) has risen
//! by ½·k² above the least point \[1\]. Where residuals are linear these are the ends of the tangents, value ± k deviations;
//! where they are not, these hold the truth as often as promised when those no longer do, for they do not depend on which
//! function of the number is asked for.
//!
//! With a the slopes of the number, λ = dF/dc and W the second derivatives of F less λ times those of the number, a step is
//! −W⁻¹·g + μ·W⁻¹·a: down to the least F at a c that is t farther off, for μ = (t + aᵀW⁻¹g)/(aᵀW⁻¹a). t is Newton's for
//! the root r = √(2·(F(c) − F)), which is nearly straight: t = (k − r)·r/λ.    \[2\], which takes t from F itself
//!
//! \[1\] S. S. Wilks, *Ann. Math. Statist.* 9, 60 (1938); \[2\] D. J. Venzon, S. H. Moolgavkar, *Appl. Statist.* 37, 87 (1988);
//! both from memory.

use super::solver::{Least, Local, Matrix, inverse, moved};
use crate::model::math;

/// Most steps to an end. Usually four to six lead there.
const MOST_STEPS: u32 = 60;
/// After so many, steps are halved: where second derivatives jump, whole ones may lead to and fro.
const USUAL_STEPS: u32 = 6;
/// Most halvings of a step that leads out too far.
const MOST_HALVINGS: u32 = 8;
/// No step is to lead to more than so many times the rise that is wanted.
const FARTHEST_RISE: f64 = 2.0;
/// So small a part of k is no rise to take a slope from.
const LITTLE: f64 = 0.02;
/// What F can fall by at the same c, in parts of k². From STEEP on, the way leads down first; from NEAR on, whole steps lead
/// to the end again.
const STEEP: f64 = 0.3;
const NEAR: f64 = 1e-3;
/// The end is found where F can fall by no more than this part of k², and where r is k to within this part of it. The
/// last step squares what is left of either.
const LOW_ENOUGH: f64 = 1e-12;
const NEAR_ENOUGH: f64 = 1e-9;
/// How firmly the number is held, over its own certainty, where F bends down along it.
const FIRM: f64 = 10.0;

/// A number as a function of the unknowns, with its derivatives.
pub(super) struct Number<const N: usize> {
    pub(super) value: f64,
    pub(super) first: [f64; N],
    pub(super) second: Matrix<N>,
}

/// Where the range ends, and how to get there.
#[derive(Clone, Copy)]
pub(super) struct Sought {
    /// F at the least point.
    pub(super) floor: f64,
    /// k.
    pub(super) root: f64,
    /// −1 for the lesser end, +1 for the greater one.
    pub(super) side: f64,
}

/// Where a search for an end came to.
pub(super) enum Reached<const N: usize> {
    /// The point where the number has gone as far as it may.
    End([f64; N]),
    /// The unknowns may go beyond all bounds, and F does not rise enough.
    Open,
}

/// The end, starting from a least point; `None` if no steps lead there.
///
/// `share` says how much of a step may be taken at once, for unknowns that have bounds; `is_beyond` where they are without
/// bounds.
pub(super) fn end<const N: usize>(
    problem: impl Fn(&[f64; N]) -> Local<N>,
    number: impl Fn(&[f64; N]) -> Number<N>,
    share: impl Fn(&[f64; N], &[f64; N]) -> f64,
    is_beyond: impl Fn(&[f64; N]) -> bool,
    start: &Least<N>,
    sought: &Sought,
) -> Option<Reached<N>> {
    let squared = sought.root * sought.root;
    let mut here = *start;
    let (mut multiplier, mut is_low) = (0.0, false);
    for taken in 0..MOST_STEPS {
        let number = number(&here.at);
        let inverse = bent_inverse(&here.local, &number, multiplier, is_low)?;
        let (by_number, by_slope) = (times(&inverse, &number.first), times(&inverse, &here.local.gradient));
        let (spread, shift) = (dot(&number.first, &by_number), dot(&number.first, &by_slope));
        // At the same c, F can fall by half of this, and has this slope then.
        let fall = dot(&by_slope, &here.local.gradient) - shift * shift / spread;
        multiplier = shift / spread;
        is_low = fall <= STEEP * squared;
        let root = math::sqrt(2.0 * math::greater(here.local.value - 0.5 * fall - sought.floor, 0.0));
        let missing = sought.root - root;
        if missing > 0.0 && is_beyond(&here.at) {
            return Some(Reached::Open);
        }
        let has_slope = root > LITTLE * sought.root && multiplier * sought.side > 0.0;
        let farther = match (is_low, has_slope) {
            (false, _) => 0.0,
            (true, true) => missing * root / multiplier,
            (true, false) => sought.side * missing * math::sqrt(spread),
        };
        let factor = (farther + shift) / spread;
        let mut step = by_number;
        for (step, by_slope) in step.iter_mut().zip(by_slope) {
            *step = factor * *step - by_slope;
        }
        let is_near = math::fabs(missing) <= NEAR_ENOUGH * sought.root && fall <= LOW_ENOUGH * squared;
        if has_slope && is_near {
            return Some(Reached::End(moved(&here.at, &step, 1.0)));
        }
        let is_usual = taken < USUAL_STEPS || fall <= NEAR * squared;
        let longest = share(&here.at, &step) * if is_usual { 1.0 } else { 0.5 };
        let too_high = math::greater(sought.floor + FARTHEST_RISE * 0.5 * squared, here.local.value);
        here = stepped(&problem, &here.at, &step, longest, too_high)?;
    }
    None
}

/// The longest of a share of a step, its half, its quarter … that leads no higher than this.
fn stepped<const N: usize>(
    problem: &impl Fn(&[f64; N]) -> Local<N>,
    from: &[f64; N],
    step: &[f64; N],
    longest: f64,
    too_high: f64,
) -> Option<Least<N>> {
    let mut share = longest;
    for _ in 0..MOST_HALVINGS {
        let at = moved(from, step, share);
        let local = problem(&at);
        // Fails for a value that is not a number.
        if local.value <= too_high {
            return Some(Least { at, local });
        }
        share *= 0.5;
    }
    None
}

/// W⁻¹, or that of what stands in for W where it is not positive definite.
fn bent_inverse<const N: usize>(
    local: &Local<N>,
    number: &Number<N>,
    multiplier: f64,
    is_low: bool,
) -> Option<Matrix<N>> {
    let mut bent = local.curvature;
    for (row, other) in bent.iter_mut().zip(number.second) {
        for (place, other) in row.iter_mut().zip(other) {
            *place -= multiplier * other;
        }
    }
    if let Some(exact) = inverse(&bent) {
        return Some(exact);
    }
    let tangent = inverse(&local.tangent)?;
    if !is_low {
        return Some(tangent);
    }
    // F may bend down along the number, but not across. Held there, it leads to the same points.
    let held = FIRM / dot(&number.first, &times(&tangent, &number.first));
    for (row, one) in bent.iter_mut().zip(number.first) {
        for (place, other) in row.iter_mut().zip(number.first) {
            *place += held * one * other;
        }
    }
    inverse(&bent).or(Some(tangent))
}

fn dot<const N: usize>(one: &[f64; N], other: &[f64; N]) -> f64 {
    one.iter().zip(other).map(|(one, other)| one * other).sum()
}

fn times<const N: usize>(matrix: &Matrix<N>, vector: &[f64; N]) -> [f64; N] {
    matrix.map(|row| dot(&row, vector))
}
