//! Roots and minima of smooth functions of one number.

use crate::model::math::sqrt;

/// Where `f` changes sign between `a` and `b`, at which it is `fa` and `fb`, until steps are within
/// `tolerance`.
///
/// Ridders' method (from memory): each step fits an exponential through the ends and the middle and
/// at least halves the bracket. If both ends have the same sign, the end with the lesser magnitude.
pub(crate) fn root(
    (mut a, mut fa): (f64, f64),
    (mut b, mut fb): (f64, f64),
    tolerance: f64,
    mut f: impl FnMut(f64) -> f64,
) -> f64 {
    let mut last = f64::INFINITY;
    for _ in 0..60 {
        if fa == 0.0 || fb == 0.0 || (fa < 0.0) == (fb < 0.0) || (b - a).abs() <= tolerance {
            break;
        }
        let middle = 0.5 * (a + b);
        let fm = f(middle);
        let spread = sqrt(fm * fm - fa * fb);
        // Too small for its square to be a number: the middle is the root as far as can be told.
        if spread == 0.0 {
            return middle;
        }
        let step = (middle - a) * fm / spread;
        let x = if fa > 0.0 { middle + step } else { middle - step };
        if (x - last).abs() <= tolerance {
            return x;
        }
        last = x;
        let fx = f(x);
        // The new bracket: x and whichever of the middle and the ends lies across the root.
        if (fm < 0.0) != (fx < 0.0) {
            (a, fa, b, fb) = (middle, fm, x, fx);
        } else if (fa < 0.0) != (fx < 0.0) {
            (b, fb) = (x, fx);
        } else {
            (a, fa) = (x, fx);
        }
    }
    if fa.abs() < fb.abs() { a } else { b }
}

/// How often [`minimum`] halves its step.
pub(super) const HALVINGS: u32 = 6;

/// Where `f` is least near `middle`, given that it is no less at `middle` ± `step`.
///
/// The step is halved [`HALVINGS`] times about the least value, and the last five points are joined by a
/// polynomial of degree 4, whose derivative places the minimum far more sharply than values could.
/// Returns the place and the curvature of `f` there.
pub(super) fn minimum(
    (mut middle, mut least): (f64, f64),
    mut step: f64,
    mut f: impl FnMut(f64) -> f64,
) -> (f64, f64) {
    for _ in 0..HALVINGS {
        step *= 0.5;
        let (before, after) = (f(middle - step), f(middle + step));
        if before < least && before <= after {
            (middle, least) = (middle - step, before);
        } else if after < least {
            (middle, least) = (middle + step, after);
        }
    }
    let [b2, b1, a1, a2] = [-2.0, -1.0, 1.0, 2.0].map(|n| f(middle + n * step));
    // Derivatives of the polynomial, in units of the step.
    let first = (b2 - a2 + 8.0 * (a1 - b1)) / 12.0;
    let second = (16.0 * (b1 + a1) - (b2 + a2) - 30.0 * least) / 12.0;
    let third = 0.5 * (a2 - b2) - (a1 - b1);
    let fourth = b2 + a2 - 4.0 * (b1 + a1) + 6.0 * least;
    let curvature = second / (step * step);
    if second <= 0.0 {
        return (middle, curvature);
    }
    let mut t = 0.0;
    for _ in 0..8 {
        let slope = first + t * (second + t * (0.5 * third + t * fourth / 6.0));
        t -= slope / (second + t * (third + 0.5 * t * fourth));
    }
    if t > -2.0 && t < 2.0 { (middle + t * step, curvature) } else { (middle, curvature) }
}
