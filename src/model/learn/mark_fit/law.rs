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
//!
//! Past the place where a mark vanishes m is negative. The fit compares b with s(m): √m where m ≥ σ², and below it
//! the tangent there, s = (m + σ²)/(2σ), for a width of less than its deviation cannot be foretold, and √m would
//! bend without end. A mark that vanished pulls only where s says that it should have been seen: its residual is
//! max(0, s)/σ.
//!
//! The unknowns are z₀ and the logarithms of d, zR and q, so that none can leave its range.

use super::Mark;
use crate::model::learn::solver::{Local, Matrix};
use crate::model::math;

/// How many unknowns there are: z₀, ln d, ln zR, ln q.
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
    /// n/2.
    pub(super) half_exponent: f64,
    /// Sums of the unknowns that are known, each of known coefficients.
    pub(super) known: [Known; 2],
}

/// ln M² or ln d, as it was known before: coefficients·unknowns = target, with this deviation; infinite for none.
#[derive(Debug, Clone, Copy)]
pub(super) struct Known {
    pub(super) coefficients: [f64; UNKNOWNS],
    pub(super) target: f64,
    pub(super) deviation: f64,
}

impl Known {
    /// The residual, and its derivatives.
    fn residual(&self, at: &[f64; UNKNOWNS]) -> (f64, [f64; UNKNOWNS]) {
        let mut sum = -self.target;
        for (coefficient, unknown) in self.coefficients.iter().zip(at) {
            sum += coefficient * unknown;
        }
        (sum / self.deviation, self.coefficients.map(|coefficient| coefficient / self.deviation))
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
    waist: f64,
    rayleigh: f64,
    half_square: f64,
    log_dose: f64,
}

impl Place {
    pub(super) fn of(at: &[f64; UNKNOWNS]) -> Self {
        let [waist, log_diameter, log_rayleigh, log_dose] = *at;
        Self {
            waist,
            rayleigh: math::exp(log_rayleigh),
            half_square: 0.5 * math::exp(2.0 * log_diameter),
            log_dose,
        }
    }
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
            height: (mark.height - self.middle) / self.reach,
            width: mark.width / self.widest,
            deviation: mark.deviation / self.widest,
            log_power,
        }
    }

    /// (s − b)/σ without its derivatives, where m is known; of a mark that vanished, 0 where it should have.
    pub(super) fn left(m: f64, mark: &Scaled) -> f64 {
        let (s, ..) = width_by_square(m, mark.deviation);
        if mark.width == 0.0 && s <= 0.0 { 0.0 } else { (s - mark.width) / mark.deviation }
    }

    /// `None` of a mark that vanished where it should have.
    pub(super) fn residual(&self, place: &Place, mark: &Scaled) -> Option<Residual> {
        let n = self.half_exponent;
        let away = (mark.height - place.waist) / place.rayleigh;
        let v = away * away;
        let growth = 1.0 + v;
        let log = place.log_dose + mark.log_power - n * math::log1p(v);
        let half = place.half_square;
        let m = half * growth * log;
        let (s, slope, bend) = width_by_square(m, mark.deviation);
        if mark.width == 0.0 && s <= 0.0 {
            return None;
        }
        // v by z₀ and ln zR
        let v_z = -2.0 * away / place.rayleigh;
        let v_r = -2.0 * v;
        let v_zz = 2.0 / (place.rayleigh * place.rayleigh);
        let v_zr = -2.0 * v_z;
        let v_rr = 4.0 * v;
        // m by v, ln d and ln q
        let m_v = half * (log - n);
        let m_vv = -half * n / growth;
        let (m_d, m_dd) = (2.0 * m, 4.0 * m);
        let (m_q, m_dq) = (half * growth, 2.0 * half * growth);
        let (m_z, m_r) = (m_v * v_z, m_v * v_r);
        let m_zz = m_vv * v_z * v_z + m_v * v_zz;
        let m_zr = m_vv * v_z * v_r + m_v * v_zr;
        let m_rr = m_vv * v_r * v_r + m_v * v_rr;
        let (m_zq, m_rq) = (half * v_z, half * v_r);
        let first = [m_z, m_d, m_r, m_q];
        let second = [
            [m_zz, 2.0 * m_z, m_zr, m_zq],
            [2.0 * m_z, m_dd, 2.0 * m_r, m_dq],
            [m_zr, 2.0 * m_r, m_rr, m_rq],
            [m_zq, m_dq, m_rq, 0.0],
        ];
        let over = 1.0 / mark.deviation;
        let (slope, bend) = (slope * over, bend * over);
        let mut residual =
            Residual { value: (s - mark.width) * over, first: first.map(|d| slope * d), second };
        for (row, first_i) in residual.second.iter_mut().zip(first) {
            for (place, first_j) in row.iter_mut().zip(first) {
                *place = slope * *place + bend * first_i * first_j;
            }
        }
        Some(residual)
    }

    /// Adds what was known before.
    pub(super) fn add_known(&self, at: &[f64; UNKNOWNS], local: &mut Local<UNKNOWNS>) {
        for known in self.known.iter().filter(|known| known.deviation.is_finite()) {
            let (value, first) = known.residual(at);
            local.add(value, &first, &[[0.0; UNKNOWNS]; UNKNOWNS]);
        }
    }

    /// The squares of what was known before.
    pub(super) fn known_squares(&self, at: &[f64; UNKNOWNS]) -> f64 {
        let mut sum = 0.0;
        for known in self.known.iter().filter(|known| known.deviation.is_finite()) {
            let (value, _) = known.residual(at);
            sum += value * value;
        }
        sum
    }
}
