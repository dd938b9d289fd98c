//! One bilinear cell of a surface: its mean height, its spread, and how its area divides between heights.
//!
//! | symbol        | meaning                                                              | unit |
//! |---------------|----------------------------------------------------------------------|------|
//! | u, v          | place in the cell, each from 0 to 1                                  | 1    |
//! | z₀₀ z₁₀ z₀₁ z₁₁ | heights of its corners, first digit u, + away from the lens        | m    |
//! | a, b          | two heights, a ≤ b                                                   | m    |
//!
//! z(u, v) = (1 − v)·z₀(u) + v·z₁(u), z₀ and z₁ being straight lines along the two sides
//!
//! mean     = (z₀₀ + z₁₀ + z₀₁ + z₁₁)/4
//! variance = p²/3 + q²/3 + r²/9,  p = (z₁₀ + z₁₁ − z₀₀ − z₀₁)/4, q likewise in v, r = (z₀₀ + z₁₁ − z₁₀ − z₀₁)/4
//!
//! The extremes of a bilinear cell are at its corners.
//!
//! # Shares
//! At one u the surface is a straight line in v from z₀ to z₁, and the share of it in a band of heights is the length
//! n that the band has in common with z₀…z₁, over |z₁ − z₀|. Where z₀ and z₁ keep their bands both lengths are straight
//! lines in u, so the square is cut where either passes a or b: at most five pieces. On a piece where z₀ and z₁ lie in
//! one band, that band has it all. On any other, with g = |z₁ − z₀| from g₀ at its larger to g₁ at its smaller end,
//!
//! ∫n/g over the piece = Δu·(n₀·A + n₁·B)/g₀,  ρ = (g₀ − g₁)/g₀,  L = −ln(1 − ρ)/ρ
//! A = (1 − (1 − ρ)·L)/ρ                       B = (L − 1)/ρ
//!
//! which is elementary; g is written as the sum of the lengths n of all bands. Everything is a sum of positive
//! terms, so that no share loses digits, and the shares add up to one. A and B themselves would lose digits where g
//! hardly changes, as on a cell that is nearly plane: there, with y = (g₀ − g₁)/(g₀ + g₁) < 1/3,
//!
//! A/g₀ = (M₀ − M₁)/(g₀ + g₁)    B/g₀ = (M₀ + M₁)/(g₀ + g₁)    M₁ = y·Σ y^(2k)/(2k + 3)    M₀ = 1 + y·M₁
//!
//! the integrals of 1 and s over 1 − y·s, from −1 to 1. Derived here; checked against mpmath at 50 digits, where
//! the usual form, (t − a − b·u)/(c + d·u) with its logarithm, has digits enough to subtract.

use crate::model::math;

/// The cell, by its corners: the first digit counts along x, the second along y.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cell {
    pub(super) area: f64,
    pub(super) z00: f64,
    pub(super) z10: f64,
    pub(super) z01: f64,
    pub(super) z11: f64,
}

/// How the area of a cell, or of many, divides between heights nearer to the lens than a band, within it, and beyond.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Split {
    pub(crate) toward_lens: f64,
    pub(crate) within: f64,
    pub(crate) away_from_lens: f64,
}

impl Split {
    /// Adds `weight` times the other.
    pub(super) fn add(&mut self, weight: f64, other: Self) {
        self.toward_lens += weight * other.toward_lens;
        self.within += weight * other.within;
        self.away_from_lens += weight * other.away_from_lens;
    }

    /// All of it over an area.
    pub(super) fn over(self, area: f64) -> Self {
        Self {
            toward_lens: self.toward_lens / area,
            within: self.within / area,
            away_from_lens: self.away_from_lens / area,
        }
    }
}

const ALL_TOWARD_LENS: Split = Split { toward_lens: 1.0, within: 0.0, away_from_lens: 0.0 };
const ALL_WITHIN: Split = Split { toward_lens: 0.0, within: 1.0, away_from_lens: 0.0 };
const ALL_AWAY_FROM_LENS: Split = Split { toward_lens: 0.0, within: 0.0, away_from_lens: 1.0 };

/// A band of heights, its ends included.
#[derive(Debug, Clone, Copy)]
pub(super) struct Band {
    pub(super) toward_lens_z: f64,
    pub(super) away_from_lens_z: f64,
}

impl Band {
    /// A band that is relative to a height, about it.
    pub(super) fn about(self, z: f64) -> Self {
        Self { toward_lens_z: z + self.toward_lens_z, away_from_lens_z: z + self.away_from_lens_z }
    }
}

impl Cell {
    /// Mean height.
    pub(super) fn mean(&self) -> f64 {
        0.25 * ((self.z00 + self.z11) + (self.z10 + self.z01))
    }

    /// Mean square of the height less its mean, over the square of a length that keeps squares from vanishing.
    pub(super) fn variance_over(&self, length: f64) -> f64 {
        // The differences first: they lose nothing, where the sums would.
        let (low, high) = ((self.z10 - self.z00) / length, (self.z11 - self.z01) / length);
        let (left, right) = ((self.z01 - self.z00) / length, (self.z11 - self.z10) / length);
        let p = 0.25 * (low + high);
        let q = 0.25 * (left + right);
        let r = 0.25 * (high - low);
        (p * p + q * q) / 3.0 + r * r / 9.0
    }

    /// The shares of the cell's area toward the lens from a band, within it, and away from the lens from it.
    pub(super) fn split(&self, band: Band) -> Split {
        let highest = math::lesser(math::lesser(self.z00, self.z10), math::lesser(self.z01, self.z11));
        let lowest = math::greater(math::greater(self.z00, self.z10), math::greater(self.z01, self.z11));
        if highest >= band.toward_lens_z && lowest <= band.away_from_lens_z {
            return ALL_WITHIN;
        }
        if lowest <= band.toward_lens_z {
            return ALL_TOWARD_LENS;
        }
        if highest >= band.away_from_lens_z {
            return ALL_AWAY_FROM_LENS;
        }
        let first = Side::of(self.z00, self.z10, band);
        let second = Side::of(self.z01, self.z11, band);
        let mut split = Split::default();
        let mut start = 0.0;
        for end in ascending(first.crossings(), second.crossings()) {
            if end > start {
                split.add(end - start, piece(&first, &second, band, start, end));
                start = end;
            }
        }
        split
    }
}

/// The heights along one side of a cell, as they are and over both ends of the band.
struct Side {
    z: (f64, f64),
    over_near: (f64, f64),
    over_far: (f64, f64),
}

/// A height between the ends of a straight line.
fn along(ends: (f64, f64), u: f64) -> f64 {
    ends.0 * (1.0 - u) + ends.1 * u
}

/// Where a straight line passes zero between its ends; 0 if it does not.
fn crossing(ends: (f64, f64)) -> f64 {
    let (start, end) = ends;
    if (start < 0.0 && end > 0.0) || (start > 0.0 && end < 0.0) { start / (start - end) } else { 0.0 }
}

impl Side {
    fn of(start: f64, end: f64, band: Band) -> Self {
        let over = |level| (start - level, end - level);
        Self { z: (start, end), over_near: over(band.toward_lens_z), over_far: over(band.away_from_lens_z) }
    }

    fn crossings(&self) -> (f64, f64) {
        in_order(crossing(self.over_near), crossing(self.over_far))
    }
}

fn in_order(a: f64, b: f64) -> (f64, f64) {
    if a > b { (b, a) } else { (a, b) }
}

/// The cuts of both sides in order, each pair being in order already, and the end of the cell.
fn ascending(first: (f64, f64), second: (f64, f64)) -> [f64; 5] {
    let (least, above_least) = in_order(first.0, second.0);
    let (below_greatest, greatest) = in_order(first.1, second.1);
    let (lower, upper) = in_order(above_least, below_greatest);
    [least, lower, upper, greatest, 1.0]
}

/// The shares of a piece on which both sides keep their bands.
fn piece(first: &Side, second: &Side, band: Band, start: f64, end: f64) -> Split {
    let middle = 0.5 * (start + end);
    // The side nearer the lens; which one it is cannot change here, or both are in one band. Over an end far away
    // the two might look alike.
    let (near, far) =
        if along(first.z, middle) <= along(second.z, middle) { (first, second) } else { (second, first) };
    let near_is_before = along(near.over_near, middle) < 0.0;
    let far_is_before = along(far.over_near, middle) < 0.0;
    let near_is_beyond = along(near.over_far, middle) > 0.0;
    let far_is_beyond = along(far.over_far, middle) > 0.0;
    if far_is_before {
        return ALL_TOWARD_LENS;
    }
    if near_is_beyond {
        return ALL_AWAY_FROM_LENS;
    }
    if !near_is_before && !far_is_beyond {
        return ALL_WITHIN;
    }
    // Rounding may leave a length a hair below zero where it ends.
    let length = |value: f64| math::greater(value, 0.0);
    let lengths_at = |u: f64| Split {
        toward_lens: if near_is_before { length(-along(near.over_near, u)) } else { 0.0 },
        within: match (near_is_before, far_is_beyond) {
            (true, true) => band.away_from_lens_z - band.toward_lens_z,
            (true, false) => length(along(far.over_near, u)),
            _ => length(-along(near.over_far, u)),
        },
        away_from_lens: if far_is_beyond { length(along(far.over_far, u)) } else { 0.0 },
    };
    mean_shares(lengths_at(start), lengths_at(end))
}

/// The mean over a piece of each length over the sum of all three, from the lengths at its ends.
fn mean_shares(start: Split, end: Split) -> Split {
    let all = |lengths: &Split| lengths.toward_lens + lengths.within + lengths.away_from_lens;
    let (larger, smaller) = if all(&start) >= all(&end) { (start, end) } else { (end, start) };
    let (of_larger, of_smaller) = weights(all(&larger), all(&smaller));
    let mut shares = Split::default();
    shares.add(of_larger, larger);
    shares.add(of_smaller, smaller);
    shares
}

/// A/g₀ and B/g₀ of the module's header, for the larger and the smaller end.
fn weights(larger: f64, smaller: f64) -> (f64, f64) {
    /// 1/(2k + 3) from the highest k on; the first term left out is below 2e-18.
    const SERIES: [f64; 17] = [
        1.0 / 35.0,
        1.0 / 33.0,
        1.0 / 31.0,
        1.0 / 29.0,
        1.0 / 27.0,
        1.0 / 25.0,
        1.0 / 23.0,
        1.0 / 21.0,
        1.0 / 19.0,
        1.0 / 17.0,
        1.0 / 15.0,
        1.0 / 13.0,
        1.0 / 11.0,
        1.0 / 9.0,
        1.0 / 7.0,
        1.0 / 5.0,
        1.0 / 3.0,
    ];
    let sum = larger + smaller;
    let difference = larger - smaller;
    if 3.0 * difference < sum {
        let y = difference / sum;
        let m1 = y * SERIES.iter().fold(0.0, |rest, factor| rest * (y * y) + factor);
        let m0 = 1.0 + y * m1;
        return ((m0 - m1) / sum, (m0 + m1) / sum);
    }
    let ratio = smaller / larger;
    if ratio <= 0.0 {
        return (1.0 / larger, 0.0);
    }
    let rho = difference / larger;
    let l = -math::log(ratio) / rho;
    ((1.0 - ratio * l) / rho / larger, (l - 1.0) / rho / larger)
}
