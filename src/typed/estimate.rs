//! A number that a fit found, with what is known of it.

use super::length;
use crate::model::learn;
use uom::si::f64::Length;

/// What a fit found of a quantity: the quantity, freed of bias, how far it may be trusted, and the range that holds it. As
/// [`model::learn::Estimate`](crate::model::learn::Estimate), where it is said what bias is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<Value = f64, Distance = Value> {
    /// The quantity.
    pub value: Value,
    /// Its standard deviation; of a beam's width, that of its 1/e² (D4σ) **diameter**; of a divergence, that of its **full**
    /// angle.
    pub deviation: Distance,
    /// Least of the range that holds the truth with the confidence asked for.
    pub least: Value,
    /// Greatest of that range.
    pub greatest: Value,
    /// What was taken off the plain least-squares quantity, which is `value` and `bias` together; of what the deviation is.
    pub bias: Distance,
}

impl<Value, Distance> Estimate<Value, Distance> {
    pub(crate) fn of(
        found: learn::Estimate,
        value: impl Fn(f64) -> Value,
        distance: impl Fn(f64) -> Distance,
    ) -> Self {
        Self {
            value: value(found.value),
            deviation: distance(found.deviation),
            least: value(found.least),
            greatest: value(found.greatest),
            bias: distance(found.bias),
        }
    }
}

impl<Value> Estimate<Value, Length> {
    pub(crate) fn of_length(found: learn::Estimate, value: impl Fn(f64) -> Value) -> Self {
        Self::of(found, value, length)
    }
}

impl Estimate {
    pub(crate) fn of_number(found: learn::Estimate) -> Self {
        Self::of(found, |value| value, |value| value)
    }
}
