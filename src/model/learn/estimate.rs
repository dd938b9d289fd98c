//! A number with what is known of it, and how several hang together.

use crate::model::math;

/// A fitted number with its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedValue {
    /// The number.
    pub value: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// Half width of the range that holds the truth with the confidence asked for: value ± half width.
    pub half_width: f64,
}

impl FittedValue {
    pub(super) fn of(value: f64, deviation: f64, factor: f64) -> Self {
        Self { value, deviation, half_width: factor * deviation }
    }
}

/// How far a number moves for one deviation of each of three others that do not depend on each other.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spread([f64; 3]);

impl Spread {
    pub(super) const fn of(by: [f64; 3]) -> Self {
        Self(by)
    }

    pub(super) fn times(&self, factor: f64) -> Self {
        Self(self.0.map(|by| factor * by))
    }

    pub(super) fn plus(&self, other: &Self) -> Self {
        let ([a, b, c], [d, e, f]) = (self.0, other.0);
        Self([a + d, b + e, c + f])
    }

    pub(super) fn less(&self, other: &Self) -> Self {
        self.plus(&other.times(-1.0))
    }

    fn product(&self, other: &Self) -> f64 {
        self.0.iter().zip(&other.0).map(|(one, other)| one * other).sum()
    }

    pub(super) fn deviation(&self) -> f64 {
        math::sqrt(self.product(self))
    }

    pub(super) fn correlation(&self, other: &Self) -> f64 {
        self.product(other) / (self.deviation() * other.deviation())
    }
}
