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
//! What `libm` does not have is ours: [`inverse_erf`], a step on `erf` or `erfc`, within 2 ulp
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
/// A polynomial (relative error below 4e-7) starts a step of Halley's method on `erf`, or on `erfc` where y > ½; it leaves
/// x²·(x² + 1)/3 times the cube of that error, less than 2e-17. Valid for
/// 1e-16 ≤ y ≤ 1 − 1e-13, and at 0 it returns 0. Measured error: at most 2 ulp from the exact
/// inverse of the smaller argument (`tests/special.rs`). On to a complement of 2⁻⁵², which a drawn deviate
/// (`surface/random.rs`) reaches once in 1e15, at most 9 ulp.
pub(crate) fn inverse_erf(y: f64, complement: f64) -> f64 {
    if y == 0.0 {
        return 0.0;
    }
    // Start: with w = −ln(1 − y²), x/y is a smooth function of w, and for large w, where x → √w, x/(y·√w) one of 1/√w
    // (M. Giles, *GPU Computing Gems* 2, 2011, from memory, but for the 1/√w). The polynomials were fitted here, for the
    // least relative error at w from 0 to 6, and from 5.7 to 39.
    const NEAR: [f64; 8] = [
        1.623_542_352_2,
        0.241_631_631_11,
        -0.005_739_499_526_6,
        -0.000_838_060_908_96,
        0.000_195_963_322_71,
        -1.195_426_124_2e-5,
        -1.967_625_020_2e-6,
        3.367_560_354_7e-7,
    ];
    const FAR: [f64; 8] = [
        0.952_183_098_5,
        -0.189_080_510_94,
        0.147_902_271_7,
        0.624_564_426_39,
        1.593_397_813_7,
        11.555_015_106,
        -9.628_583_091_5,
        -151.706_313_55,
    ];
    let w = -log(complement * (1.0 + y));
    let x = if w < 6.0 {
        y * polynomial(&NEAR, w - 3.0)
    } else {
        let root = sqrt(w);
        y * root * polynomial(&FAR, 1.0 / root - 0.29)
    };

    // Newton's step for erf(x) = y; erfc carries the residual where erf is close to 1.
    const TWO_OVER_SQRT_PI: f64 = core::f64::consts::FRAC_2_SQRT_PI;
    let residual = if y <= 0.5 { erf(x) - y } else { complement - erfc(x) };
    let step = residual / (TWO_OVER_SQRT_PI * exp(-x * x));
    // Halley's correction: f″/(2f′) = −x.
    x - step / (1.0 + x * step)
}

/// Σ c_k·xᵏ.
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}
