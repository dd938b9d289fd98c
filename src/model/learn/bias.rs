//! By how much a fit by least squares is off on the average, because its law is curved.
//!
//! b = −½·C·Σ Jᵢ·tr(Hᵢ·C)     \[1\]
//!
//! to second order in the deviations, with the first derivatives Jᵢ and the second ones Hᵢ of the residuals over their
//! deviations, and the covariance C of the unknowns: each law is off by half its curvature times the covariance, and the
//! fit takes that for data. Residuals that are linear add nothing. Exact as the deviations go to 0; it holds for errors of
//! any law whose mean is 0 and whose deviations are those stated.
//!
//! With T² = bᵀ·C⁻¹·b, no unknown is off by more than T of its deviations. Where T is large the next orders count as much,
//! and b, worked out at a point that is far off itself, errs with it. So b is given times (1 + (T/½)⁴)^−¼: all of it where T
//! is small, half a deviation at the most. (Simulated: a spot of 85 µm marked at one power, q = 8, H = 2 zR, 5 µm, where T
//! is 1.2 to 8 in half of the runs: the whole of b makes the scatter of ln q twice as large, this keeps it.)
//!
//! \[1\] M. J. Box, "Bias in nonlinear estimation", *J. R. Statist. Soc. B* 33, 171 (1971), from memory.

use super::solver::Matrix;
use crate::model::math;

/// T beyond which the expansion says little.
pub(super) const LARGE: f64 = 0.5;

/// The bias of each unknown, of residuals with these first and second derivatives, and T. The covariance of the unknowns
/// is `scale` times the inverse of JᵀJ.
pub(super) fn second_order_bias<const N: usize>(
    residuals: impl Iterator<Item = ([f64; N], Matrix<N>)>,
    inverse: &Matrix<N>,
    scale: f64,
) -> ([f64; N], f64) {
    let mut pull = [0.0; N];
    for (first, second) in residuals {
        let shift = 0.5 * product(&second, inverse);
        for (pull, slope) in pull.iter_mut().zip(first) {
            *pull -= slope * shift;
        }
    }
    let bias = inverse.map(|row| row.iter().zip(pull).map(|(number, pull)| number * pull).sum::<f64>());
    // Of b over `scale`, and the pull that makes it.
    let squared = scale * bias.iter().zip(pull).map(|(bias, pull)| bias * pull).sum::<f64>();
    let large = squared / (LARGE * LARGE);
    let held = scale / math::sqrt(math::sqrt(1.0 + large * large));
    (bias.map(|bias| held * bias), math::sqrt(math::greater(squared, 0.0)))
}

/// tr(A·B) of symmetric matrices.
fn product<const N: usize>(one: &Matrix<N>, other: &Matrix<N>) -> f64 {
    let terms = one.as_flattened().iter().zip(other.as_flattened());
    terms.map(|(one, other)| one * other).sum()
}
