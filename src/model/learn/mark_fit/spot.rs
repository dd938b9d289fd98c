//! Spot and dose for a given place and range of the waist, and χ² as a function of these two alone.
//!
//! m = U·(b₀² + H·l) is linear in b₀² and H = d²/2, where l = ln ρ − (n/2)·ln U, and each mark's share of χ² is convex
//! in m: so for every place and range one spot and one dose fit best, and Newton's method cannot miss them. What is left
//! is a function of two unknowns, whose valleys are short: those of four are long and bent, for a larger spot at a
//! smaller dose makes nearly the same marks.
//!
//! With F half of χ², x = (z₀, ln zR), y = (H, b₀²) and F_y near 0, the least F at x and its derivatives are
//! F − ½·F_y·F_yy⁻¹·F_y, F_x − F_xy·F_yy⁻¹·F_y and F_xx − F_xy·F_yy⁻¹·F_yx.
//! Source: G. H. Golub, V. Pereyra, *SIAM J. Numer. Anal.* 10, 413 (1973), from memory.

use super::Mark;
use super::law::{Law, UNKNOWNS, excess};
use super::series::Series;
use crate::model::learn::solver::{Least, Local, Matrix, inverse};
use crate::model::math;

/// Most steps to the best spot and dose.
const MOST_STEPS: u32 = 30;
/// Shortest share of a step.
const LEAST_SHARE: f64 = 1e-5;
/// Spot and dose are near enough where F can fall by this share of it, to the second order.
const NEAR_ENOUGH: f64 = 1e-8;

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// H and b₀² by linear least squares on b². Leaves l of each mark in `room`.
    pub(super) fn rough_spot(&self, at: &[f64; 2], room: &mut [f64]) -> Option<[f64; 2]> {
        let [waist, log_rayleigh] = *at;
        let over_rayleigh = math::exp(-log_rayleigh);
        let (mut bb, mut bh, mut hh, mut by, mut hy) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (index, mark) in self.used() {
            let excess = excess(&mark, waist, over_rayleigh);
            let growth = 1.0 + excess;
            let log = self.law.log(&mark, excess);
            if let Some(place) = room.get_mut(index) {
                *place = log;
            }
            if mark.width == 0.0 {
                continue;
            }
            let spread = mark.width * mark.deviation;
            let weight = 1.0 / (spread * spread);
            let (h, y) = (growth * log, mark.width * mark.width);
            bb += weight * growth * growth;
            bh += weight * growth * h;
            hh += weight * h * h;
            by += weight * growth * y;
            hy += weight * h * y;
        }
        let determinant = bb * hh - bh * bh;
        let spot = [(bb * hy - bh * by) / determinant, (hh * by - bh * hy) / determinant];
        let [half_square, _] = spot;
        // Where the marks alone would have no spot, what is known of it gives one.
        let known = self.law.known.iter().find(|known| known.deviation.is_finite());
        let spot = match known {
            Some(known) if half_square.is_nan() || half_square <= 0.0 => {
                let half_square = known.half_square(log_rayleigh);
                [half_square, (by - bh * half_square) / bb]
            }
            _ => spot,
        };
        spot.iter().all(|number| number.is_finite()).then_some(spot)
    }

    /// χ² with this spot and dose, where `room` has l of each mark.
    pub(super) fn squares(&self, at: &[f64; 2], spot: &[f64; 2], room: &[f64]) -> f64 {
        let ([waist, log_rayleigh], [half_square, waist_square]) = (*at, *spot);
        let over_rayleigh = math::exp(-log_rayleigh);
        let mut squares = self.law.known_squares(&[waist, log_rayleigh, half_square, waist_square]);
        for (index, mark) in self.used() {
            let log = room.get(index).copied().unwrap_or(f64::NAN);
            let m = (1.0 + excess(&mark, waist, over_rayleigh)) * (waist_square + half_square * log);
            let left = Law::left(m, &mark);
            squares += left * left;
        }
        squares
    }

    /// F by H and b₀², where `room` has l of each mark.
    pub(super) fn of_spot(&self, at: &[f64; 2], spot: &[f64; 2], room: &[f64]) -> Local<2> {
        let [waist, log_rayleigh] = *at;
        let [half_square, waist_square] = *spot;
        let over_rayleigh = math::exp(-log_rayleigh);
        let mut local = Local::NOTHING;
        for (index, mark) in self.used() {
            let log = room.get(index).copied().unwrap_or(f64::NAN);
            let growth = 1.0 + excess(&mark, waist, over_rayleigh);
            let (by_h, by_b) = (growth * log, growth);
            let Some((r, slope, bend)) = Law::left_over(by_h * half_square + by_b * waist_square, &mark)
            else {
                continue;
            };
            let first = [slope * by_h, slope * by_b];
            let mixed = bend * by_h * by_b;
            local.add(r, &first, &[[bend * by_h * by_h, mixed], [mixed, bend * by_b * by_b]]);
        }
        // Of what is known, the part that its own curvature cannot spoil.
        let mut whole = Local::NOTHING;
        self.law.add_known(&[waist, log_rayleigh, half_square, waist_square], &mut whole);
        let ([_, _, gradient, _], [_, _, [_, _, curvature, _], _]) = (whole.gradient, whole.tangent);
        let mut known = Local { value: whole.value, ..Local::NOTHING };
        known.gradient = [gradient, 0.0];
        known.curvature = [[curvature, 0.0], [0.0, 0.0]];
        local.completed().plus(&known)
    }

    /// The best spot and dose at this place and range of the waist, and F by all four there.
    pub(super) fn best_spot(&self, at: &[f64; 2], room: &mut [f64]) -> Option<Least<UNKNOWNS>> {
        let mut spot = self.rough_spot(at, room)?;
        let mut local = self.of_spot(at, &spot, room);
        for _ in 0..MOST_STEPS {
            let (step, fall) = newton_step(&local)?;
            if fall <= NEAR_ENOUGH * local.value {
                break;
            }
            match self.lower(at, &spot, &step, &local, room) {
                Some(lower) => (spot, local) = lower,
                None => break,
            }
        }
        let ([waist, log_rayleigh], [half_square, waist_square]) = (*at, spot);
        let at = [waist, log_rayleigh, half_square, waist_square];
        Some(Least { at, local: self.local(&at, |index, _, _| room.get(index).copied().unwrap_or(f64::NAN)) })
    }

    /// The longest of a step, its half, its quarter … that lowers F: where a mark comes to vanish, or no longer does, F
    /// bends more than at the start of the step.
    fn lower(
        &self,
        at: &[f64; 2],
        spot: &[f64; 2],
        step: &[f64; 2],
        local: &Local<2>,
        room: &[f64],
    ) -> Option<([f64; 2], Local<2>)> {
        let ([half_square, waist_square], [by_h, by_b]) = (*spot, *step);
        let mut share = 1.0;
        while share > LEAST_SHARE {
            let next = [half_square + share * by_h, waist_square + share * by_b];
            let there = self.of_spot(at, &next, room);
            // Fails for a value that is not a number.
            if there.value < local.value {
                return Some((next, there));
            }
            share *= 0.5;
        }
        None
    }
}

/// Newton's step, and by how much F should fall.
fn newton_step(local: &Local<2>) -> Option<([f64; 2], f64)> {
    let inverse = inverse(&local.curvature)?;
    let [g, h] = local.gradient;
    let step = inverse.map(|[a, b]| -(a * g + b * h));
    let [p, q] = step;
    Some((step, -0.5 * (p * g + q * h)))
}

/// The least F at this place and range of the waist, by these two.
pub(super) fn profile(local: &Local<UNKNOWNS>) -> Option<Local<2>> {
    let blocks = |matrix: &Matrix<UNKNOWNS>| {
        let [[zz, zr, zh, zb], [_, rr, rh, rb], [_, _, hh, hb], [_, _, _, bb]] = *matrix;
        ([[zz, zr], [zr, rr]], [[zh, zb], [rh, rb]], [[hh, hb], [hb, bb]])
    };
    let (xx, xy, yy) = blocks(&local.curvature);
    let (tangent_xx, tangent_xy, tangent_yy) = blocks(&local.tangent);
    let spot_inverse = inverse(&yy).or_else(|| inverse(&tangent_yy))?;
    let [gz, gr, gh, gb] = local.gradient;
    let of = |[a, b]: [f64; 2], matrix: &Matrix<2>| matrix.map(|[c, d]| a * c + b * d);
    let dot = |[a, b]: [f64; 2], [c, d]: [f64; 2]| a * c + b * d;
    let by_spot = of([gh, gb], &spot_inverse);
    let less = |xx: Matrix<2>, xy: Matrix<2>, inverse: &Matrix<2>| {
        let [z, r] = xy;
        let [by_z, by_r] = [of(z, inverse), of(r, inverse)];
        let [[zz, zr], [_, rr]] = xx;
        let mixed = zr - dot(by_z, r);
        [[zz - dot(by_z, z), mixed], [mixed, rr - dot(by_r, r)]]
    };
    let [z, r] = xy;
    Some(Local {
        value: local.value - 0.5 * dot(by_spot, [gh, gb]),
        gradient: [gz - dot(by_spot, z), gr - dot(by_spot, r)],
        curvature: less(xx, xy, &spot_inverse),
        tangent: less(tangent_xx, tangent_xy, &inverse(&tangent_yy)?),
    })
}
