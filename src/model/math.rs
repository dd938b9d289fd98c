//! The only door to mathematics: `sqrt`, which is exact everywhere, and `libm`, whose bits are
//! the same on every target. The platform's own functions differ from target to target in the
//! last bit, so nothing else in the model may call them.
//!
//! Why `libm`: it is plain Rust without heap, and one release of it is pinned, so that an answer has the same
//! bits on a desktop, in a browser and on a microcontroller. Comments in its source bound some of its errors;
//! all of them were measured with `tests/elementary.rs` against mpmath (50 digits), over the whole range of
//! each function (`j0` up to 1e12), at over 500 arguments, among them the hardest of 1.5 million drawn. An
//! ulp is that of the exact value; where that is subnormal, the smallest double.
//!
//! | function of `libm`                         | worst error found                                   |
//! |--------------------------------------------|-----------------------------------------------------|
//! | `erf`                                      | 0.93 ulp                                            |
//! | `erfc`, x < 0                              | 0.85 ulp                                            |
//! | `erfc`, x > 0                              | 2.8 ulp; subnormal (x > 26.54) 1.2                  |
//! | `atan`                                     | 0.84 ulp                                            |
//! | `exp`                                      | 0.88 ulp; subnormal 0.75                            |
//! | `expm1`                                    | 0.82 ulp                                            |
//! | `log`, `log1p`                             | 0.81 ulp                                            |
//! | `sin`, `cos`, and both as `sincos`         | 0.78 ulp                                            |
//! | `sinh`                                     | 1.8 ulp                                             |
//! | `pow`                                      | 0.84 ulp; subnormal 0.72                            |
//! | `j0`                                       | 3.5 ulp below 2; beyond, 4.1 ulp of √(2/(πx)),      |
//! |                                            | the envelope: at its zeros it has no digits to keep |
//! | `ceil`, `fabs`, `round`                    | exact                                               |
//! | `sqrt`, for a crate without `std`          | correctly rounded                                   |
//!
//! What `libm` does not have is ours: [`inverse_erf`], two steps on `erf` and `erfc`, within 2 ulp
//! (`tests/special.rs`); the theta functions θ₃ and θ₄ of `mark/raster.rs`, short sums of `exp`; and, where
//! it would cancel, the difference of two values of erf in `mark/fill_width.rs`, a quadrature of `exp`. Where
//! a small error of an argument is a large one of the result, the caller carries the argument to twice the
//! digits and adds the rest by the slope (`mark/contrast.rs`).

pub(crate) use libm::{
    atan, cos, erf, erfc, exp, expm1, fabs, j0, log, log1p, pow, round, sin, sincos, sinh,
};

#[cfg(feature = "artwork")]
pub(crate) use libm::ceil;

/// The greater of two numbers, neither of them NaN.
pub(crate) fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// The lesser of two numbers, neither of them NaN.
pub(crate) fn lesser(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// Square root, correctly rounded on every target.
///
/// With `std` it is the processor's own instruction; `libm` computes the same bits without one.
pub(crate) fn sqrt(x: f64) -> f64 {
    #[cfg(feature = "std")]
    return x.sqrt();
    #[cfg(not(feature = "std"))]
    return libm::sqrt(x);
}

/// x for which erf(x) = `y`, where `complement` is 1 − `y`.
///
/// The caller gives both, because only the smaller of the two carries x without loss: near
/// y = 1 the difference 1 − y has lost the digits that x depends on.
///
/// A closed approximation (relative error below 3e-3) starts two steps of Halley's method on
/// `erf`, or on `erfc` where y > ½; each step cubes the relative error. Valid for
/// 1e-16 ≤ y ≤ 1 − 1e-13, and at 0 it returns 0. Measured error: at most 2 ulp from the exact
/// inverse of the smaller argument (`tests/special.rs`). On to a complement of 2⁻⁵², which a drawn deviate
/// (`surface/random.rs`) reaches once in 1e15, at most 9 ulp.
pub(crate) fn inverse_erf(y: f64, complement: f64) -> f64 {
    if y == 0.0 {
        return 0.0;
    }
    // Start: S. Winitzki's approximation (from memory): with L = ln(1 − y²) and a = 0.147,
    // x² ≈ √((2/(πa) + L/2)² − L/a) − (2/(πa) + L/2), here without its cancellation.
    const A: f64 = 0.147;
    let l = if y < 0.5 { log1p(-y * y) } else { log(complement) + log1p(y) };
    let b = 2.0 / (core::f64::consts::PI * A) + 0.5 * l;
    let root = sqrt(b * b - l / A);
    let squared = if b > 0.0 { (-l / A) / (root + b) } else { root - b };
    let mut x = sqrt(squared);

    const TWO_OVER_SQRT_PI: f64 = core::f64::consts::FRAC_2_SQRT_PI;
    for _ in 0..2 {
        // Newton's step for erf(x) = y; erfc carries the residual where erf is close to 1.
        let residual = if y <= 0.5 { erf(x) - y } else { complement - erfc(x) };
        let step = residual / (TWO_OVER_SQRT_PI * exp(-x * x));
        // Halley's correction: f″/(2f′) = −x.
        x -= step / (1.0 + x * step);
    }
    x
}
