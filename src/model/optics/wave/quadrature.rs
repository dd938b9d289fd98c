//! The rule of quadrature and interpolation on which the wave is computed, and its error bound.
//!
//! Gauss–Legendre with 24 points; the nodes serve as points of interpolation too. Both errors are
//! bounded beforehand, from the growth of the integrand off the real axis, with no second rule to
//! compare with. Let f be analytic inside the ellipse with foci ±1 and half axes (ρ ± 1/ρ)/2, and
//! |f| ≤ M there. Its Chebyshev coefficients obey |aₖ| ≤ 2M/ρᵏ. The rule is exact up to degree 47
//! and odd terms vanish, while for even k ≥ 48 the rule and the integral of Tₖ differ by at most
//! 2.001; so
//!
//! ```text
//! |∫f − rule|      ≤ 4.002·M·ρ⁻⁴⁸/(1 − ρ⁻²)
//! |f − interpolant| ≤ (1 + Λ)·2·M·ρ⁻²³/(ρ − 1),   Λ = 8.768, the Lebesgue constant of the nodes
//! ```
//!
//! Nodes, weights, barycentric weights and Λ: computed to 60 digits by Newton's method on the Legendre
//! polynomial, checked against the moments. Barycentric formula: from memory; the weights agree with
//! their definition Π 1/(xⱼ − xₘ) to 50 digits.

/// Points of the rule.
pub(super) const POINTS: usize = 24;

/// One number for each point.
pub(super) type Values = [f64; POINTS];

/// Ellipse of analyticity for a panel from −1 to 1.
pub(super) struct Ellipse {
    /// Half axis along the real axis.
    pub(super) along: f64,
    /// Half axis across it.
    pub(super) across: f64,
    /// ln(4.002·ρ⁻⁴⁸/(1 − ρ⁻²)).
    pub(super) ln_quadrature: f64,
    /// ln(2·(1 + Λ)·ρ⁻²³/(ρ − 1)).
    pub(super) ln_interpolation: f64,
}

/// The ellipses that are tried; the bound is the least of theirs.
pub(super) const ELLIPSES: [Ellipse; 7] = [
    // ρ = 1.5
    Ellipse { along: 1.083333, across: 0.416667, ln_quadrature: -17.4877, ln_interpolation: -5.6603 },
    // ρ = 2
    Ellipse { along: 1.25, across: 0.75, ln_quadrature: -31.5966, ln_interpolation: -12.9701 },
    // ρ = 3
    Ellipse { along: 1.666667, across: 1.333333, ln_quadrature: -51.2288, ln_interpolation: -22.9890 },
    // ρ = 4
    Ellipse { along: 2.125, across: 1.875, ln_quadrature: -65.0908, ln_interpolation: -30.0111 },
    // ρ = 6
    Ellipse { along: 3.083333, across: 2.916667, ln_quadrature: -84.5895, ln_interpolation: -39.8476 },
    // ρ = 9
    Ellipse { along: 4.555556, across: 4.444444, ln_quadrature: -104.0676, ln_interpolation: -49.6433 },
    // ρ = 14
    Ellipse { along: 7.035714, across: 6.964286, ln_quadrature: -125.2828, ln_interpolation: -60.2910 },
];

/// Points of the rule on −1 … 1.
pub(super) const NODES: Values = [
    -0.9951872199970213,
    -0.9747285559713095,
    -0.9382745520027328,
    -0.8864155270044011,
    -0.820001985973903,
    -0.7401241915785544,
    -0.6480936519369755,
    -0.5454214713888396,
    -0.4337935076260451,
    -0.3150426796961634,
    -0.1911188674736163,
    -0.06405689286260563,
    0.06405689286260563,
    0.1911188674736163,
    0.3150426796961634,
    0.4337935076260451,
    0.5454214713888396,
    0.6480936519369755,
    0.7401241915785544,
    0.820001985973903,
    0.8864155270044011,
    0.9382745520027328,
    0.9747285559713095,
    0.9951872199970213,
];

/// Weights of the rule.
pub(super) const WEIGHTS: Values = [
    0.0123412297999872,
    0.028531388628933663,
    0.04427743881741981,
    0.05929858491543678,
    0.0733464814110803,
    0.08619016153195327,
    0.09761865210411388,
    0.10744427011596563,
    0.1155056680537256,
    0.12167047292780339,
    0.1258374563468283,
    0.12793819534675216,
    0.12793819534675216,
    0.1258374563468283,
    0.12167047292780339,
    0.1155056680537256,
    0.10744427011596563,
    0.09761865210411388,
    0.08619016153195327,
    0.0733464814110803,
    0.05929858491543678,
    0.04427743881741981,
    0.028531388628933663,
    0.0123412297999872,
];

/// Barycentric weights of interpolation between the points, up to a common factor.
const BARYCENTRIC: Values = [
    0.010886018092749267,
    -0.03773376906301917,
    0.07278317857127145,
    -0.11271983118795029,
    0.1550098978152556,
    -0.1974248862003398,
    0.23794188470065153,
    -0.27473852367497636,
    0.3062191702345144,
    -0.3310505226228438,
    0.348196875883835,
    -0.35694989620662454,
    0.35694989620662454,
    -0.348196875883835,
    0.3310505226228438,
    -0.3062191702345144,
    0.27473852367497636,
    -0.23794188470065153,
    0.1974248862003398,
    -0.1550098978152556,
    0.11271983118795029,
    -0.07278317857127145,
    0.03773376906301917,
    -0.010886018092749267,
];

/// Where two functions given at the points lie at `t`, from −1 to 1.
pub(super) fn interpolate_both(first: &Values, second: &Values, t: f64) -> (f64, f64) {
    let (mut sum, mut first_sum, mut second_sum) = (0.0, 0.0, 0.0);
    for (((node, weight), a), b) in NODES.iter().zip(&BARYCENTRIC).zip(first).zip(second) {
        let apart = t - node;
        if apart == 0.0 {
            return (*a, *b);
        }
        let share = weight / apart;
        sum += share;
        first_sum += share * a;
        second_sum += share * b;
    }
    (first_sum / sum, second_sum / sum)
}

/// As [`interpolate_both`], for one function.
pub(super) fn interpolate(values: &Values, t: f64) -> f64 {
    interpolate_both(values, values, t).0
}
