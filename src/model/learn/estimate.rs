//! A number with what is known of it, and how several hang together.

use crate::model::math;

/// What a fit found of a number: the number, freed of bias, how far it may be trusted, and the range that holds it.
///
/// A fit by least squares is off on the average, however good the data, where the law is curved: by about the curvature
/// times half the variance, which the fit can work out (M. J. Box, *J. R. Statist. Soc. B* 33, 171, 1971, from memory).
/// The value is the plain least-squares number less that `bias`, and less any other that a fit knows of;
/// [`Estimate::least_squares`] puts it back, as every other program gives the number. Which mean is freed of it, that of
/// the number or that of its logarithm, each fit says: it is the one about which the range is even. No more is taken off
/// than one deviation; where so much is, the data are too weak for such a correction, and the range is to be read rather
/// than the value. A range that is found from χ² itself, as [`fit_mark_widths`](super::fit_mark_widths) does of bent laws, is
/// even about nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The number.
    pub value: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// Least of the range that holds the truth with the confidence asked for.
    pub least: f64,
    /// Greatest of that range.
    pub greatest: f64,
    /// What was taken off the plain least-squares number.
    pub bias: f64,
}

/// A logarithm of a range beyond this would not be a number.
const GREATEST_LOG_RANGE: f64 = 600.0;

impl Estimate {
    /// The plain least-squares number: what makes χ² least.
    #[must_use]
    pub fn least_squares(&self) -> f64 {
        self.value + self.bias
    }

    /// With a range of so many deviations to either side.
    pub(super) fn even(least_squares: f64, bias: f64, deviation: f64, factor: f64) -> Self {
        let bias = one_deviation_at_most(bias, deviation);
        let value = least_squares - bias;
        let reach = factor * deviation;
        Self { value, deviation, least: value - reach, greatest: value + reach, bias }
    }

    /// Of a number that is known by its logarithm, about which the range is even.
    pub(super) fn of_logarithm(least_squares: f64, bias: f64, deviation: f64, factor: f64) -> Self {
        let bias = one_deviation_at_most(bias, deviation);
        let value = least_squares * math::exp(-bias);
        let reach = math::exp(math::lesser(factor * deviation, GREATEST_LOG_RANGE));
        Self {
            value,
            deviation: value * deviation,
            least: value / reach,
            greatest: value * reach,
            bias: -least_squares * math::expm1(-bias),
        }
    }

    /// With ends of the range that were found in another way, where they were. The value stays within.
    pub(super) fn with_ends(self, least: Option<f64>, greatest: Option<f64>) -> Self {
        let (least, greatest) = (least.unwrap_or(self.least), greatest.unwrap_or(self.greatest));
        let least_squares = self.least_squares();
        let value = math::greater(math::lesser(self.value, greatest), least);
        Self { value, least, greatest, bias: least_squares - value, ..self }
    }
}

fn one_deviation_at_most(bias: f64, deviation: f64) -> f64 {
    math::greater(math::lesser(bias, deviation), -deviation)
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

    pub(super) fn variance(&self) -> f64 {
        self.product(self)
    }

    pub(super) fn deviation(&self) -> f64 {
        math::sqrt(self.variance())
    }

    pub(super) fn correlation(&self, other: &Self) -> f64 {
        self.product(other) / (self.deviation() * other.deviation())
    }
}
