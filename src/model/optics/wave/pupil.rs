//! The coherent integral: what reaches one plane from the aperture of the lens.
//!
//! U(v) = 2·∫₀^X x·exp(−x²)·exp(i·(αx⁴ − βx²))·J₀(vx) dx is summed over panels, each as long as the
//! bound of [`quadrature`](super::quadrature) allows. On the ellipse about a panel, z = x + iy,
//!
//! |z·exp(−z²)| ≤ |z|·exp(y² − x²), |J₀(vz)| ≤ exp(v|y|), |Im z²| = 2|xy| and
//! |Im z⁴| = 4|xy|·|x² − y²|,
//!
//! so that panels grow longer where exp(−x²) is small, and no node is spent on what cannot be seen.

use super::quadrature::{ELLIPSES, Ellipse, NODES, WEIGHTS};
use crate::model::math::{exp, expm1, greater, j0, lesser, sincos, sqrt};

/// How far a computation is driven.
#[derive(Clone, Copy)]
pub(super) struct Effort {
    /// Where the integral over an unclipped beam ends, in beam radii.
    pub(super) reach: f64,
    /// ln of the error allowed to the quadrature for each unit of x.
    pub(super) ln_quadrature: f64,
    /// ln of the error allowed to interpolation in a table of the field.
    pub(super) ln_interpolation: f64,
}

/// For single numbers: exp(−5.6²) = 2.4e-14, 1e-15, 3e-13.
pub(super) const FINE: Effort = Effort { reach: 5.6, ln_quadrature: -34.5, ln_interpolation: -28.8 };
/// For maps: exp(−4.9²) = 3.7e-11, 1e-12, 1e-11.
pub(super) const LIGHT: Effort = Effort { reach: 4.9, ln_quadrature: -27.6, ln_interpolation: -25.3 };

/// Half the spacing of doubles just above 1: the greatest relative error of one operation.
pub(super) const ROUNDING: f64 = f64::EPSILON / 2.0;

/// The light in the aperture, as one plane sees it.
#[derive(Clone, Copy)]
pub(super) struct Pupil {
    /// Aberration phase α.
    pub(super) alpha: f64,
    /// Normalised defocus β.
    pub(super) beta: f64,
    /// Where the integral ends: the aperture, or where exp(−x²) is nothing.
    pub(super) reach: f64,
    /// Bound on what lies beyond.
    tail: f64,
    ln_quadrature: f64,
}

/// Part of the integral over x.
#[derive(Clone, Copy)]
pub(super) struct Panel {
    pub(super) middle: f64,
    pub(super) half: f64,
}

impl Panel {
    /// Points x of the rule with their weights for ∫ 2x·exp(−x²)… dx.
    pub(super) fn points(self) -> impl Iterator<Item = (f64, f64)> {
        NODES.iter().zip(&WEIGHTS).map(move |(node, weight)| {
            let x = self.middle + self.half * node;
            (x, self.half * weight * 2.0 * x * exp(-x * x))
        })
    }
}

/// The panels of one integral, from the axis outward.
pub(super) struct Panels {
    pupil: Pupil,
    /// Greatest v that the panels serve.
    v: f64,
    /// Where the next panel begins.
    from: f64,
    /// Half the length that the next panel tries first.
    half: f64,
}

impl Panels {
    /// Whether one panel resolves the integrand.
    fn resolved(&self, panel: Panel) -> bool {
        let Pupil { alpha, beta, .. } = self.pupil;
        let enough = |ellipse: &Ellipse| {
            let y = ellipse.across * panel.half;
            let least = panel.middle - ellipse.along * panel.half;
            let least = greater(least, 0.0);
            let greatest = panel.middle + ellipse.along * panel.half;
            let square = if greatest > y { greatest * greatest } else { y * y };
            let rate = self.v + greatest * (2.0 * beta.abs() + 4.0 * alpha.abs() * square);
            // ln(2|z|) ≤ 2|z|/e
            let ln_size = 0.74 * (greatest + y) - least * least + y * y + y * rate;
            ellipse.ln_quadrature + ln_size <= self.pupil.ln_quadrature
        };
        ELLIPSES.iter().any(enough)
    }
}

impl Iterator for Panels {
    type Item = Panel;

    fn next(&mut self) -> Option<Panel> {
        let left = self.pupil.reach - self.from;
        if left <= 0.0 {
            return None;
        }
        let whole = 0.5 * left;
        let mut half = lesser(self.half, whole);
        let mut panel = Panel { middle: self.from + half, half };
        // 0.8¹⁰⁰ of any reach is far below the shortest panel within the model's ranges.
        for _ in 0..100 {
            if self.resolved(panel) {
                break;
            }
            half *= 0.8;
            panel = Panel { middle: self.from + half, half };
        }
        self.from = if half == whole { self.pupil.reach } else { self.from + 2.0 * half };
        self.half = 2.0 * half;
        Some(panel)
    }
}

impl Pupil {
    /// `clip` is the clipping ratio X, infinite for no aperture.
    pub(super) fn new(alpha: f64, beta: f64, clip: f64, effort: &Effort) -> Self {
        let (reach, tail) =
            if clip > effort.reach { (effort.reach, exp(-effort.reach * effort.reach)) } else { (clip, 0.0) };
        Self { alpha, beta, reach, tail, ln_quadrature: effort.ln_quadrature }
    }

    /// Panels that serve every |v| up to this.
    pub(super) fn panels(&self, v: f64) -> Panels {
        Panels { pupil: *self, v, from: 0.0, half: f64::INFINITY }
    }

    /// αx⁴ − βx².
    pub(super) fn phase(&self, x: f64) -> f64 {
        let square = x * x;
        square * (self.alpha * square - self.beta)
    }

    /// U at each of these v, real and imaginary parts.
    pub(super) fn field<const N: usize>(&self, v: &[f64; N]) -> ([f64; N], [f64; N]) {
        let greatest = v.iter().fold(0.0, |most: f64, v| greater(*v, most));
        let (mut real, mut imaginary) = ([0.0; N], [0.0; N]);
        for (x, weight) in self.panels(greatest).flat_map(Panel::points) {
            let (sin, cos) = sincos(self.phase(x));
            let (cos, sin) = (weight * cos, weight * sin);
            for ((v, real), imaginary) in v.iter().zip(&mut real).zip(&mut imaginary) {
                let bessel = j0(v * x);
                *real += cos * bessel;
                *imaginary += sin * bessel;
            }
        }
        (real, imaginary)
    }

    /// Bound on |U|: ∫ 2x·exp(−x²) dx = 1 − exp(−X²).
    pub(super) fn amplitude(&self) -> f64 {
        -expm1(-self.reach * self.reach)
    }

    /// Bound on the error of U up to this v: the quadrature's, what lies beyond its end, and rounding.
    ///
    /// Rounding: each point adds one rounding of the sum; the weight 2x·exp(−x²) averages x² to 1
    /// and x⁴ to 2 in the phase, whose own rounding is half a unit of its value, and J₀ of a rounded
    /// vx errs by at most √(vx) units.
    pub(super) fn error(&self, v: f64) -> f64 {
        let points = 24 * self.panels(v).count();
        let phase = 2.0 * self.beta.abs() + 8.0 * self.alpha.abs();
        let rounding = ROUNDING * (points as f64 + 20.0 + phase + 2.0 * sqrt(v)) * self.amplitude();
        exp(self.ln_quadrature) * self.reach + self.tail + rounding
    }
}
