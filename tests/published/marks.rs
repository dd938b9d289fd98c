//! Marks, fills and text.

use super::*;
use spotwise::model::mark::{
    Blur, MarkKind, POINT, blur_budget, detail_exposure, line_interval, mark_width, raster_ripple,
};

/// M. Abramowitz, I. A. Stegun, *Handbook of Mathematical Functions*, table 7.1, the error function to
/// ten decimals; from memory. The middle of a bar of width a gets erf(√2·a/d).
#[test]
fn error_function_of_abramowitz_and_stegun() {
    let printed = [
        (0.1, "0.1124629160"),
        (0.5, "0.5204998778"),
        (1.0, "0.8427007929"),
        (1.5, "0.9661051465"),
        (2.0, "0.9953222650"),
    ];
    for (x, erf) in printed {
        rounds_to(detail_exposure(1e-4 * SQRT_2, 1e-4 * x).unwrap().bar, erf);
    }
}

/// Theta constants at the nome e^−π, known in closed form: θ₃ = π^¼/Γ(¾) = 1.0864348112…,
/// θ₄ = θ₃/2^¼ = 0.9135791381…; NIST Digital Library of Mathematical Functions 20.4, from memory.
/// Q is e^−π where the interval is √(π/2) spot radii.
#[test]
fn theta_constants_at_the_lemniscatic_nome() {
    let ripple = raster_ripple(2e-4, 1e-4 * (PI / 2.0).sqrt()).unwrap();
    rounds_to(ripple.greatest_over_mean, "1.08643481121331");
    rounds_to(ripple.least_over_mean, "0.91357913815612");
    // Jacobi's identity θ₃⁴ = θ₂⁴ + θ₄⁴ with θ₂ = θ₄ at this nome.
    let ratio = (ripple.greatest_over_mean / ripple.least_over_mean).powi(4);
    assert!((ratio - 2.0).abs() < 1e-14);
}

/// The upper tenth point of the normal distribution, 1.2815515655: Abramowitz and Stegun, table 26.5, from
/// memory. An edge under a Gaussian is its distribution function with a deviation of a quarter diameter.
#[test]
fn edge_is_a_normal_distribution() {
    let sharp = Blur {
        diameter_across: 4.0,
        diameter_along: 4.0,
        speed: 1.0,
        diffusivity: 0.0,
        pixel: 0.0,
        jitter_deviation: 0.0,
        rise_time: 0.0,
        switch_delay: 0.0,
    };
    rounds_to(blur_budget(&sharp).unwrap().edge_across / 2.0, "1.2815515655");
}

/// The point of PostScript and OpenType is 1/72 inch, 0.352778 mm (from memory); 300, 600 and 1200 dots to
/// the inch are 84.67, 42.33 and 21.17 µm, as in any manual of a printer.
#[test]
fn points_and_dots_per_inch() {
    rounds_to(POINT * 1e3, "0.352778");
    rounds_to(line_interval(300.0).unwrap() * 1e6, "84.67");
    rounds_to(line_interval(600.0).unwrap() * 1e6, "42.33");
    rounds_to(line_interval(1200.0).unwrap() * 1e6, "21.17");
}

/// J. M. Liu, *Optics Letters* 7, 196 (1982), from memory: D² = 2w²·ln(E/E₀), so that at e times the threshold
/// D = √2·w, at e² times the threshold the dot is as wide as the spot (D = 2w), and a plot of D² over ln E
/// has the slope 2w².
#[test]
fn squared_diameter_law_of_liu() {
    let beam = beam(1.064e-6, 1.0, 10e-6);
    let square = |q: f64| mark_width(&beam, MarkKind::Pulse, q, 0.0).unwrap().width.powi(2);
    let w_squared = 10e-6f64.powi(2);
    for (q, want) in [(1f64.exp(), 2.0), (2f64.exp(), 4.0), (3f64.exp(), 6.0)] {
        assert!((square(q) / w_squared - want).abs() < 1e-14);
    }
    let slope = (square(8.0) - square(2.0)) / 4f64.ln();
    assert!((slope / (2.0 * w_squared) - 1.0).abs() < 1e-14);
}
