//! How the dose of one pixel spreads: weights along and across the scan.
//!
//! | symbol | meaning                                                              | unit   |
//! |--------|----------------------------------------------------------------------|--------|
//! | w      | 1/e² **radius** of the spot, blur included, along that direction     | pixels |
//! | k      | from the pixel that gives to the pixel that receives                 | pixels |
//! | p      | line interval                                                        | rows   |
//!
//! box: ½·(erf(√2·(k + ½)/w) − erf(√2·(k − ½)/w)), the beam on while it crosses the pixel
//! point: √(2/π)/w′·exp(−2·k²/w′²), w′² = w² − ⅓: a sample that says how much of the pixel is inked has been blurred by
//! the pixel already, by a variance of 1/12
//! line: p·√(2/π)/w·exp(−2·d²/w²), d from the line to the row's centre
//!
//! All are shares of the dose of a wide even fill. Derived here: the irradiance exp(−2r²/w²) is separable, and the
//! integral of √(2/π)/w·exp(−2x²/w²) is ½·erf(√2·x/w).
//!
//! The fast weights end two radii away (rounded up to a pixel), beyond which 6.3e-5 of the dose lies; they are scaled
//! so that what remains makes up for it.

use super::scan::{Lines, floor};
use crate::model::math;
use core::f64::consts::SQRT_2;

/// √(2/π).
const ROOT_TWO_OVER_PI: f64 = 0.797_884_560_802_865_4;
/// From so many pixels in a radius on, a sample of coverage is a point.
pub(crate) const POINT_FROM: f64 = 1.5;
/// A spot radius that spans more lines than this is exposed by an even band for each row instead of its lines: within
/// 2e-5 of them.
const LINES_ONE_BY_ONE: f64 = 64.0;
/// As far from the centre, in spot radii, exp(−2·6.5²) = 2e-37 is nothing to a double beside the least dose that marks.
pub(crate) const REACH_OF_REFERENCE: f64 = 6.5;

/// ½·(erf(√2·b/w) − erf(√2·a/w)): the share of a line's dose that lies between two distances, a ≤ b.
fn share_between(a: f64, b: f64, w: f64) -> f64 {
    let (a, b) = (SQRT_2 * a / w, SQRT_2 * b / w);
    if a > 0.0 {
        0.5 * (math::erfc(a) - math::erfc(b))
    } else if b < 0.0 {
        0.5 * (math::erfc(-b) - math::erfc(-a))
    } else {
        0.5 * (math::erf(b) - math::erf(a))
    }
}

/// Share that a pixel gives to the one `k` pixels away.
pub(crate) fn pixel_weight(k: f64, w: f64, point: bool) -> f64 {
    if point {
        let squared = w * w - 1.0 / 3.0;
        ROOT_TWO_OVER_PI / math::sqrt(squared) * math::exp(-2.0 * (k * k) / squared)
    } else {
        share_between(k - 0.5, k + 0.5, w)
    }
}

/// Share that a line of ink gives at a distance in rows.
pub(crate) fn line_weight(distance: f64, w: f64, interval: f64) -> f64 {
    let ratio = distance / w;
    interval * ROOT_TWO_OVER_PI / w * math::exp(-2.0 * (ratio * ratio))
}

/// Pixels on either side that the fast weights of a spot radius reach.
pub(crate) fn taps_radius(w: f64) -> usize {
    ceil(2.0 * w) as usize
}

/// Fills the weights of a pixel from its centre outward, scaled by `scale`.
pub(crate) fn fill_pixel_weights(w: f64, point: bool, scale: f64, taps: &mut [f32]) {
    let mut sum = 0.0;
    for k in 0..taps.len() {
        let weight = pixel_weight(k as f64, w, point);
        sum += if k == 0 { weight } else { 2.0 * weight };
    }
    for (k, tap) in taps.iter_mut().enumerate() {
        *tap = (scale * (pixel_weight(k as f64, w, point) / sum)) as f32;
    }
}

/// Fills what each of the rows about `row` gives to it by the lines within: `slots` are the rows from `row` − r to
/// `row` + r.
pub(crate) fn fill_line_weights(lines: &Lines, w: f64, row: f64, slots: &mut [f32]) {
    slots.fill(0.0);
    let reach = (slots.len() / 2) as f64 + 0.5;
    let scale = 1.0 / math::erf(SQRT_2 * reach / w);
    let centre = row + 0.5;
    let first_row = centre - reach;
    if lines.interval * LINES_ONE_BY_ONE < w {
        for (slot, weight) in slots.iter_mut().enumerate() {
            let top = first_row + slot as f64;
            let ends = [top, top + 1.0].map(|y| ceil((y - lines.first) / lines.interval) - 0.5);
            let [above, below] = ends.map(|number| lines.place(number) - centre);
            *weight = (scale * share_between(above, below, w)) as f32;
        }
        return;
    }
    // From the line nearest the centre outward each weight follows from the one before: the ratio of neighbours is
    // itself a geometric sequence.
    let p = lines.interval;
    let nearest = lines.before(centre);
    let square = w * w;
    let shrink = math::exp(-4.0 * (p * p) / square);
    for (start, way) in [(nearest, -1.0), (nearest + 1.0, 1.0)] {
        let distance = way * (lines.place(start) - centre);
        let mut weight = scale * line_weight(distance, w, p);
        let mut ratio = math::exp(-(4.0 * distance * p + 2.0 * (p * p)) / square);
        let mut number = start;
        loop {
            let slot = floor(lines.place(number) - first_row);
            if !(slot >= 0.0 && slot < slots.len() as f64) {
                break;
            }
            if let Some(sum) = slots.get_mut(slot as usize) {
                *sum += weight as f32;
            }
            weight *= ratio;
            ratio *= shrink;
            number += way;
        }
    }
}

/// The least whole number that is not before a number.
fn ceil(x: f64) -> f64 {
    -floor(-x)
}
