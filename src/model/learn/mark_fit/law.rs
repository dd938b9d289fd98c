//! The width of a mark against height, as a function of what a fit is to find, with its derivatives.
//!
//! | symbol | meaning                                                              | unit |
//! |--------|----------------------------------------------------------------------|------|
//! | z, z₀  | height, and that of the waist, + away from the lens                  | m    |
//! | d      | waist **diameter**, 1/e²                                             | m    |
//! | zR     | Rayleigh range                                                       | m    |
//! | q      | dose over threshold in the waist, at the power of reference          | 1    |
//! | ρ      | power over the power of reference                                    | 1    |
//! | n      | 1 for lines, 2 for pulses: the dose falls as u⁻ⁿ                     | 1    |
//! | b, σ   | width of the mark, and its standard deviation                        | m    |
//!
//! v = ((z − z₀)/zR)², U = u² = 1 + v, L = ln q + ln ρ − (n/2)·ln U
//! b² = (d²/2)·U·L = m                                     `mark_width`, squared
//! With H = d²/2, b₀² = H·ln q and l = L − ln q that is m = U·(b₀² + H·l); b₀ is the width in the waist.
//!
//! Past the place where a mark vanishes m is negative. The fit compares b with s(m): √m where m ≥ σ², and below it
//! the tangent there, s = (m + σ²)/(2σ), for a width of less than its deviation cannot be foretold, and √m would
//! bend without end. A mark that vanished pulls only where s says that it should have been seen: its residual is
//! max(0, s)/σ.
//!
//! The unknowns are z₀, ln zR, H and b₀²: m is linear in the last two.

use super::Mark;
use crate::model::learn::solver::{Local, Matrix};
use crate::model::math;

/// How many unknowns there are: z₀, ln zR, H, b₀².
pub(super) const UNKNOWNS: usize = 4;

/// What the marks have in common, in units that bring all numbers near 1.
#[derive(Debug, Clone, Copy)]
pub(super) struct Law {
    /// Where heights count from, in metres.
    pub(super) middle: f64,
    /// Half the run of heights, in metres.
    pub(super) reach: f64,
    /// Greatest width, in metres.
    pub(super) widest: f64,
    /// 1/reach and 1/widest.
    pub(super) over_reach: f64,
    pub(super) over_widest: f64,
    /// n/2.
    pub(super) half_exponent: f64,
    /// What is known of the beam before.
    pub(super) known: [Known; 2],
}

/// ln M² or ln d, as it was known before: coefficients·(ln d, ln zR) = target, with this deviation; infinite for none.
#[derive(Debug, Clone, Copy)]
pub(super) struct Known {
    pub(super) coefficients: [f64; 2],
    pub(super) target: f64,
    pub(super) deviation: f64,
}

impl Known {
    /// The H for which it holds.
    pub(super) fn half_square(&self, log_rayleigh: f64) -> f64 {
        let [d, r] = self.coefficients;
        0.5 * math::exp(2.0 * (self.target - r * log_rayleigh) / d)
    }

    /// The residual, and its first and second derivatives.
    fn residual(&self, at: &[f64; UNKNOWNS]) -> (f64, [f64; UNKNOWNS], Matrix<UNKNOWNS>) {
        let [_, log_rayleigh, half, _] = *at;
        let [d, r] = self.coefficients;
        let sum = d * 0.5 * math::log(2.0 * half) + r * log_rayleigh - self.target;
        let over = 1.0 / self.deviation;
        let slope = 0.5 * d * over / half;
        let mut second = [[0.0; UNKNOWNS]; UNKNOWNS];
        second[2][2] = -slope / half;
        (sum * over, [0.0, r * over, slope, 0.0], second)
    }
}

/// One mark in the units of [`Law`], with ln ρ.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scaled {
    pub(super) height: f64,
    pub(super) width: f64,
    pub(super) deviation: f64,
    pub(super) log_power: f64,
}

/// The unknowns, and what each mark needs of them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    pub(super) waist: f64,
    pub(super) over_rayleigh: f64,
    pub(super) half_square: f64,
    pub(super) waist_square: f64,
}

impl Place {
    /// v.
    pub(super) fn excess(&self, mark: &Scaled) -> f64 {
        excess(mark, self.waist, self.over_rayleigh)
    }

    pub(super) fn of(at: &[f64; UNKNOWNS]) -> Self {
        let [waist, log_rayleigh, half_square, waist_square] = *at;
        Self { waist, over_rayleigh: math::exp(-log_rayleigh), half_square, waist_square }
    }

    /// ln q.
    pub(super) fn log_dose(&self) -> f64 {
        self.waist_square / self.half_square
    }
}

/// v.
pub(super) fn excess(mark: &Scaled, waist: f64, over_rayleigh: f64) -> f64 {
    let away = (mark.height - waist) * over_rayleigh;
    away * away
}

/// What is left of a mark: (s − b)/σ, with its derivatives.
#[derive(Debug, Clone, Copy)]
pub(super) struct Residual {
    pub(super) value: f64,
    pub(super) first: [f64; UNKNOWNS],
    pub(super) second: Matrix<UNKNOWNS>,
}

/// s, its slope and its bend by m.
fn width_by_square(m: f64, deviation: f64) -> (f64, f64, f64) {
    if m >= deviation * deviation {
        let s = math::sqrt(m);
        let slope = 0.5 / s;
        (s, slope, -0.5 * slope / m)
    } else {
        let slope = 0.5 / deviation;
        (slope * m + 0.5 * deviation, slope, 0.0)
    }
}

impl Law {
    pub(super) fn scaled(&self, mark: &Mark, log_power: f64) -> Scaled {
        Scaled {
            height: (mark.height - self.middle) * self.over_reach,
            width: mark.width * self.over_widest,
            deviation: mark.deviation * self.over_widest,
            log_power,
        }
    }

    /// (s − b)/σ without its derivatives, where m is known; of a mark that vanished, 0 where it should have.
    pub(super) fn left(m: f64, mark: &Scaled) -> f64 {
        Self::left_over(m, mark).map_or(0.0, |(value, ..)| value)
    }

    /// (s − b)/σ, its slope and its bend by m; `None` of a mark that vanished where it should have.
    pub(super) fn left_over(m: f64, mark: &Scaled) -> Option<(f64, f64, f64)> {
        let (s, slope, bend) = width_by_square(m, mark.deviation);
        if mark.width == 0.0 && s <= 0.0 {
            return None;
        }
        let over = 1.0 / mark.deviation;
        Some(((s - mark.width) * over, slope * over, bend * over))
    }

    /// l, what is left of L where ln q is taken away.
    pub(super) fn log(&self, mark: &Scaled, excess: f64) -> f64 {
        mark.log_power - self.half_exponent * math::log(1.0 + excess)
    }

    /// `None` of a mark that vanished where it should have; `log` is l.
    pub(super) fn residual(&self, place: &Place, mark: &Scaled, log: f64) -> Option<Residual> {
        let n = self.half_exponent;
        let away = (mark.height - place.waist) * place.over_rayleigh;
        let v = away * away;
        let growth = 1.0 + v;
        let half = place.half_square;
        let m = growth * (place.waist_square + half * log);
        let (value, slope, bend) = Self::left_over(m, mark)?;
        // v by z₀ and ln zR
        let v_z = -2.0 * away * place.over_rayleigh;
        let v_r = -2.0 * v;
        let v_zz = 2.0 * place.over_rayleigh * place.over_rayleigh;
        let v_zr = -2.0 * v_z;
        let v_rr = 4.0 * v;
        // m by v, H and b₀²
        let m_v = place.waist_square + half * (log - n);
        let m_vv = -half * n / growth;
        let m_vh = log - n;
        let m_h = growth * log;
        let (m_z, m_r) = (m_v * v_z, m_v * v_r);
        let m_zz = m_vv * v_z * v_z + m_v * v_zz;
        let m_zr = m_vv * v_z * v_r + m_v * v_zr;
        let m_rr = m_vv * v_r * v_r + m_v * v_rr;
        let first = [m_z, m_r, m_h, growth];
        let second = [
            [m_zz, m_zr, m_vh * v_z, v_z],
            [m_zr, m_rr, m_vh * v_r, v_r],
            [m_vh * v_z, m_vh * v_r, 0.0, 0.0],
            [v_z, v_r, 0.0, 0.0],
        ];
        let mut residual = Residual { value, first: first.map(|d| slope * d), second };
        for (row, first_i) in residual.second.iter_mut().zip(first) {
            for (place, first_j) in row.iter_mut().zip(first) {
                *place = slope * *place + bend * first_i * first_j;
            }
        }
        Some(residual)
    }

    /// What was known before: residuals with their first and second derivatives.
    pub(super) fn known_residuals(
        &self,
        at: &[f64; UNKNOWNS],
    ) -> impl Iterator<Item = (f64, [f64; UNKNOWNS], Matrix<UNKNOWNS>)> {
        self.known.iter().filter(|known| known.deviation.is_finite()).map(|known| known.residual(at))
    }

    /// Adds what was known before.
    pub(super) fn add_known(&self, at: &[f64; UNKNOWNS], local: &mut Local<UNKNOWNS>) {
        for (value, first, second) in self.known_residuals(at) {
            local.add(value, &first, &second);
        }
    }

    /// The squares of what was known before.
    pub(super) fn known_squares(&self, at: &[f64; UNKNOWNS]) -> f64 {
        self.known_residuals(at).fold(0.0, |sum, (value, ..)| sum + value * value)
    }
}
