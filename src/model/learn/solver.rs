//! The least point of a sum of squares in a few unknowns: Newton's method, damped after Levenberg and Marquardt.
//!
//! F is half the sum of squares, g its gradient, H its second derivatives and T the part of them that comes from
//! the first derivatives of the residuals alone, JᵀJ. A step p solves (H + μ·diag T)·p = −g near the least point,
//! where H is positive definite, and else (T + μ·diag T)·p = −g; one that is longer than wanted is cut short. A step that
//! lowers F is taken, and μ falls by 10; another is not, and μ grows by 10. At the end, where F no longer tells better
//! from worse in doubles, undamped steps go on while their decrement gᵀH⁻¹g falls: they converge quadratically, for H is
//! exact.
//!
//! Source: any textbook of optimisation; the damping by the diagonal is Marquardt's, *J. SIAM* 11, 431 (1963), from memory.
//! Tested on NIST's 16 reference sets for nonlinear regression of up to four unknowns, from both of their starts
//! (`tests/learn/solver_nist.rs`): from the near start all are solved to 9 digits at the least, from the far one all but three,
//! whose valleys lead elsewhere (BoxBOD, Eckerle4, MGH10).

#![expect(clippy::needless_range_loop, reason = "of matrices; each index is below N, as the compiler sees")]

use crate::model::math;

/// A fall by less than this share of F is one near the least point.
const NEAR: f64 = 0.1;
/// Damping after a step that did not help.
const LEAST_DAMPING: f64 = 1e-8;
/// Damping that shortens a step but slightly.
const SLIGHT: f64 = 0.02;
/// Damping beyond which no step helps.
const GREATEST_DAMPING: f64 = 1e10;
/// So small a fall is none, of residuals in units of their deviations.
const NOTHING_LEFT: f64 = 1e-24;
/// Most undamped steps at the end.
const LAST_STEPS: u32 = 6;
/// A pivot that has lost so much of its diagonal is none: the unknown depends on those before it.
const LEAST_PIVOT: f64 = 1e-15;

/// A square matrix.
pub(crate) type Matrix<const N: usize> = [[f64; N]; N];

/// What a problem tells of one point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Local<const N: usize> {
    /// F, half the sum of squares; not finite where the problem has no value.
    pub(crate) value: f64,
    /// g.
    pub(crate) gradient: [f64; N],
    /// H.
    pub(crate) curvature: Matrix<N>,
    /// T.
    pub(crate) tangent: Matrix<N>,
}

impl<const N: usize> Local<N> {
    pub(crate) const NOTHING: Self =
        Self { value: 0.0, gradient: [0.0; N], curvature: [[0.0; N]; N], tangent: [[0.0; N]; N] };

    /// Adds half the square of a residual r with these first and second derivatives.
    pub(crate) fn add(&mut self, r: f64, first: &[f64; N], second: &Matrix<N>) {
        self.value += 0.5 * r * r;
        for i in 0..N {
            self.gradient[i] += r * first[i];
            for j in 0..N {
                // Only one half is added up; `completed` has the other.
                if j <= i {
                    let tangent = first[i] * first[j];
                    self.tangent[i][j] += tangent;
                    self.curvature[i][j] += tangent + r * second[i][j];
                }
            }
        }
    }

    /// The sum of two, each with both halves of its matrices or neither.
    pub(crate) fn plus(mut self, other: &Self) -> Self {
        self.value += other.value;
        for i in 0..N {
            self.gradient[i] += other.gradient[i];
            for j in 0..N {
                self.tangent[i][j] += other.tangent[i][j];
                self.curvature[i][j] += other.curvature[i][j];
            }
        }
        self
    }

    /// With both halves of the matrices.
    pub(crate) fn completed(mut self) -> Self {
        for i in 0..N {
            for j in 0..N {
                if j > i {
                    self.tangent[i][j] = self.tangent[j][i];
                    self.curvature[i][j] = self.curvature[j][i];
                }
            }
        }
        self
    }
}

/// A least point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Least<const N: usize> {
    pub(crate) at: [f64; N],
    pub(crate) local: Local<N>,
}

/// A point downhill from `start` from which F can fall by no more than the share `enough` of it, to the second order.
///
/// `None` where the problem has no value at the start, where `most_steps` do not lead there, those that are not taken
/// included, and where `gives_up` says so of a point and of the F that is foretold. No step changes an unknown by
/// more than `farthest`.
pub(crate) fn descend<const N: usize>(
    mut problem: impl FnMut(&[f64; N]) -> Local<N>,
    start: [f64; N],
    most_steps: u32,
    farthest: f64,
    enough: f64,
    gives_up: impl Fn(&[f64; N], f64) -> bool,
) -> Option<Least<N>> {
    let mut here = Least { at: start, local: problem(&start) };
    if !here.local.value.is_finite() {
        return None;
    }
    let mut damping = 1e-3;
    // Far off, T leads downhill more safely than H; near the least point, H is the one that is exact.
    let mut near = false;
    for _ in 0..most_steps {
        if damping > GREATEST_DAMPING {
            // No step lowers F.
            return Some(here);
        }
        let Some(step) = damped_step(&here.local, near, damping, farthest) else {
            damping *= 10.0;
            continue;
        };
        if step.foretold <= enough * here.local.value + NOTHING_LEFT && damping <= 1.0 {
            return Some(here);
        }
        // Far off, or with much damping, what is foretold says nothing of the least point.
        let floor = if near && damping < SLIGHT {
            here.local.value - step.foretold_in_full
        } else {
            f64::NEG_INFINITY
        };
        if gives_up(&here.at, floor) {
            return None;
        }
        let next = moved(&here.at, &step.by, 1.0);
        let local = problem(&next);
        let fall = here.local.value - local.value;
        // Fails for a value that is not a number.
        if fall > 0.0 {
            near = fall < NEAR * here.local.value;
            here = Least { at: next, local };
            damping *= 0.1;
        } else {
            damping = math::greater(10.0 * damping, LEAST_DAMPING);
        }
    }
    None
}

/// Undamped steps, as long as each is clearly shorter than the one before.
pub(crate) fn settled<const N: usize>(
    problem: impl Fn(&[f64; N]) -> Local<N>,
    mut here: Least<N>,
) -> Least<N> {
    let undamped = |local: &Local<N>| damped_step(local, true, 0.0, f64::INFINITY);
    let Some(mut step) = undamped(&here.local) else { return here };
    for _ in 0..LAST_STEPS {
        let at = moved(&here.at, &step.by, 1.0);
        let next = Least { at, local: problem(&at) };
        let Some(next_step) = undamped(&next.local) else { return here };
        if next_step.foretold.is_nan() || next_step.foretold >= 0.25 * step.foretold {
            return here;
        }
        (here, step) = (next, next_step);
    }
    here
}

/// A share of a step away from a point.
pub(crate) fn moved<const N: usize>(at: &[f64; N], step: &[f64; N], share: f64) -> [f64; N] {
    let mut next = *at;
    for i in 0..N {
        next[i] += share * step[i];
    }
    next
}

/// A step, and by how much F should fall on it.
struct Step<const N: usize> {
    by: [f64; N],
    foretold: f64,
    /// As `foretold`, if the step were not cut short.
    foretold_in_full: f64,
}

/// The step for this damping, no unknown of it longer than `farthest`, and by how much F should fall.
fn damped_step<const N: usize>(local: &Local<N>, near: bool, damping: f64, farthest: f64) -> Option<Step<N>> {
    let by = |matrix| damped_inverse(matrix, &local.tangent, damping);
    let exact = if near { by(&local.curvature) } else { None };
    let (inverse, damped) = exact.or_else(|| by(&local.tangent))?;
    let mut step = [0.0; N];
    let mut slope = 0.0;
    for i in 0..N {
        for j in 0..N {
            step[i] -= inverse[i][j] * local.gradient[j];
        }
        slope += step[i] * local.gradient[i];
    }
    let (mut held, mut longest) = (0.0, 0.0);
    for i in 0..N {
        held += damped[i] * step[i] * step[i];
        longest = math::greater(longest, math::fabs(step[i]));
    }
    let share = if longest > farthest { farthest / longest } else { 1.0 };
    for i in 0..N {
        step[i] *= share;
    }
    // F falls by −t·gᵀp − ½·t²·pᵀH·p for the share t of p, with (H + μD)·p = −g.
    let fall = |share: f64| share * (0.5 * share * (slope + held) - slope);
    let step = Step { by: step, foretold: fall(share), foretold_in_full: fall(1.0) };
    (step.foretold.is_finite() && step.foretold >= 0.0).then_some(step)
}

/// (matrix + μ·diag T)⁻¹ and the diagonal of μ·diag T.
fn damped_inverse<const N: usize>(
    matrix: &Matrix<N>,
    tangent: &Matrix<N>,
    damping: f64,
) -> Option<(Matrix<N>, [f64; N])> {
    let mut held = [0.0; N];
    let mut sum = *matrix;
    for i in 0..N {
        held[i] = damping * tangent[i][i];
        sum[i][i] += held[i];
    }
    Some((inverse(&sum)?, held))
}

/// The inverse of a symmetric, positive definite matrix; `None` for another, or one that is singular in doubles.
///
/// By Gauss and Jordan on the matrix scaled to a diagonal of 1, for which no rows need to change places.
pub(crate) fn inverse<const N: usize>(matrix: &Matrix<N>) -> Option<Matrix<N>> {
    let mut scale = [0.0; N];
    for i in 0..N {
        if matrix[i][i].is_nan() || matrix[i][i] <= 0.0 {
            return None;
        }
        scale[i] = 1.0 / math::sqrt(matrix[i][i]);
    }
    let mut left = *matrix;
    for i in 0..N {
        for j in 0..N {
            left[i][j] *= scale[i] * scale[j];
        }
    }
    // Each column is swept once: what stands in its place becomes that of the inverse.
    for k in 0..N {
        let pivot = left[k][k];
        if pivot.is_nan() || pivot <= LEAST_PIVOT {
            return None;
        }
        let row = left[k];
        let over = 1.0 / pivot;
        for i in 0..N {
            if i == k {
                continue;
            }
            let factor = left[i][k] * over;
            for j in 0..N {
                if j != k {
                    left[i][j] -= factor * row[j];
                }
            }
            left[i][k] = -factor;
        }
        for j in 0..N {
            left[k][j] = row[j] * over;
        }
        left[k][k] = over;
    }
    for i in 0..N {
        for j in 0..N {
            left[i][j] *= scale[i] * scale[j];
        }
    }
    Some(left)
}

#[cfg(test)]
#[path = "../../../tests/learn/solver_nist.rs"]
mod nist;
