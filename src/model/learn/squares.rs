//! A polynomial through the squares of widths: how each weighs, and which are outliers.
//!
//! A width b read with the deviation σ has a square with the mean B² + σ² and the variance 4·B²·σ² + 2·σ⁴, B being the
//! width as it is. Fits of a beam and of marks at several doses are such polynomials.

use super::curve::{Curve, Point, Sums, Term, Traced};
use crate::error::{Error, Param, undetermined};
use crate::model::math;
use core::ops::Range;

/// How a width weighs in a fit of squares. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u32)]
pub enum ReadingWeights {
    /// By the width as it was read: 1/(2bσ)².
    Measured = 1,
    /// By the fitted width, with σ² taken from b².
    Refined = 2,
}

impl ReadingWeights {
    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Measured),
            2 => Ok(Self::Refined),
            _ => Err(Error::UnknownChoice { param: Param::ReadingWeights, value: code }),
        }
    }
}

/// Steps of refining the weights; each leaves a small share of the change before it.
const STEPS: usize = 100;
/// Change of the fitted squares, over themselves, at which they stay.
const STAYS: f64 = 1e-13;
/// Squares that are kept at hand; those beyond, of a longer series, are worked out anew each time that they are asked for.
const AT_HAND: usize = 24;

/// A width at x, both of any unit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Width {
    pub(super) x: f64,
    pub(super) width: f64,
    pub(super) deviation: f64,
}

/// Widths by their place, to be fitted by a polynomial; asked below `count` only.
pub(super) struct Widths<At> {
    pub(super) count: usize,
    pub(super) at: At,
    pub(super) weights: ReadingWeights,
    /// 1 or 2.
    pub(super) degree: u32,
}

/// The square of a width.
#[derive(Debug, Clone, Copy)]
struct Square {
    /// Of no weight if it is not used.
    traced: Traced,
    /// σ².
    variance: f64,
    /// The square that its weight is of: as it was read, or as it was fitted.
    weighed_as: f64,
}

impl Square {
    const NONE: Self = Self { traced: Traced::NONE, variance: 0.0, weighed_as: 0.0 };

    /// By the curve that it is traced along; tells by how much that changes, over itself.
    fn weigh(&mut self) -> f64 {
        let fitted = self.traced.value;
        let change = math::fabs(fitted - self.weighed_as) / (math::fabs(fitted) + self.variance);
        self.weighed_as = fitted;
        let variance = (4.0 * math::greater(fitted, 0.0) + 2.0 * self.variance) * self.variance;
        self.traced.point.weight = 1.0 / variance;
        change
    }
}

/// The squares of widths, and which of them are used.
pub(super) struct Squares<'a, At> {
    widths: Widths<At>,
    used: &'a mut [bool],
    /// The curve through them, as far as it has been fitted.
    curve: Curve,
    /// The first of them, traced along it.
    at_hand: [Square; AT_HAND],
    /// The curve that they are weighed by; none if they are as they were read.
    weighed_by: Option<Curve>,
}

impl<'a, At: Fn(usize) -> Width> Squares<'a, At> {
    /// All used.
    pub(super) fn of(widths: Widths<At>, used: &'a mut [bool]) -> Self {
        used.fill(true);
        let at_hand = [Square::NONE; AT_HAND];
        let mut squares = Self { widths, used, curve: Curve::NONE, at_hand, weighed_by: None };
        squares.weigh_as_read();
        squares
    }

    /// Which are used.
    pub(super) fn used(&self) -> &[bool] {
        self.used
    }

    /// The curve through them.
    pub(super) fn curve(&self) -> &Curve {
        &self.curve
    }

    /// x of those that are used.
    pub(super) fn used_at(&self) -> impl Iterator<Item = f64> {
        let all = self.traced().zip(self.used.iter());
        all.filter(|(_, used)| **used).map(|(traced, _)| traced.point.x)
    }

    /// Of all widths in their order, traced along the curve; those that are not used have no weight.
    pub(super) fn traced(&self) -> impl Iterator<Item = Traced> {
        let at_hand = self.at_hand.iter().take(self.widths.count).map(|square| square.traced);
        at_hand.chain(self.places_beyond().map(|place| self.beyond(place).traced))
    }

    /// Of those that are not at hand.
    fn places_beyond(&self) -> Range<usize> {
        AT_HAND..self.widths.count
    }

    /// One that is not at hand, traced along the curve.
    ///
    /// Apart, because few series have such: the loops that ask for it stay small, and fast.
    #[inline(never)]
    fn beyond(&self, place: usize) -> Square {
        let mut square = self.as_read(place);
        if let (Some(curve), true) = (&self.weighed_by, self.is_used(place)) {
            square.traced = curve.traced(square.traced.point);
            square.weigh();
        }
        square.traced = self.curve.traced(square.traced.point);
        square
    }

    /// Weighed by the width as it was read.
    fn as_read(&self, place: usize) -> Square {
        let Width { x, width, deviation } = (self.widths.at)(place);
        let variance = deviation * deviation;
        let read = width * width;
        let y = match self.widths.weights {
            ReadingWeights::Measured => read,
            ReadingWeights::Refined => read - variance,
        };
        let weight = if self.is_used(place) { 1.0 / (4.0 * read * variance) } else { 0.0 };
        Square { traced: Traced::of(Point { x, y, weight }), variance, weighed_as: read }
    }

    fn is_used(&self, place: usize) -> bool {
        self.used.get(place).is_some_and(|used| *used)
    }

    fn weigh_as_read(&mut self) {
        self.weighed_by = None;
        for place in 0..self.widths.count.min(AT_HAND) {
            let square = self.as_read(place);
            if let Some(at_hand) = self.at_hand.get_mut(place) {
                *at_hand = square;
            }
        }
    }

    /// By the curve; tells how far that is from the one before.
    fn weigh(&mut self) -> f64 {
        let mut most = 0.0;
        for (square, used) in self.at_hand.iter_mut().zip(self.used.iter()) {
            if *used {
                most = math::greater(most, square.weigh());
            }
        }
        for place in self.places_beyond() {
            if self.is_used(place) {
                most = math::greater(most, self.beyond(place).weigh());
            }
        }
        self.weighed_by = Some(self.curve);
        most
    }

    /// Fits the curve to those that are used, with the weights that they have.
    fn fit_weighed(&mut self) {
        self.curve.clear();
        for square in self.at_hand.iter_mut().take(self.widths.count) {
            square.traced = Traced::of(square.traced.point);
        }
        for _ in 0..=self.widths.degree {
            self.add(self.next());
        }
    }

    /// The term that comes next.
    ///
    /// In line, the term goes on in registers: a whole fit takes a tenth less time.
    #[inline(always)]
    pub(super) fn next(&self) -> Term {
        let mut sums = Sums::default();
        self.traced().for_each(|traced| sums.add(&traced));
        self.curve.next(sums)
    }

    /// Adds a term to the curve.
    pub(super) fn add(&mut self, term: Term) {
        self.curve.add(term);
        for square in self.at_hand.iter_mut().take(self.widths.count) {
            square.traced.add(&term);
        }
    }

    /// Fits the curve to those that are used, which stand at more places than the degree says.
    fn fit(&mut self) -> Result<FittedSquares, Error> {
        self.fit_weighed();
        if self.widths.weights == ReadingWeights::Refined {
            let mut steps = 0;
            while self.weigh() >= STAYS {
                if steps == STEPS {
                    return Err(undetermined(Param::SteadyWeights, 0.0));
                }
                steps += 1;
                self.fit_weighed();
            }
        }
        let count = self.used.iter().fold(0_u32, |count, used| count.saturating_add(u32::from(*used)));
        let chi_squared = self.traced().fold(0.0, |sum, traced| sum + traced.chi_squared());
        let unknowns = self.widths.degree.saturating_add(1);
        Ok(FittedSquares { chi_squared, count, unknowns })
    }

    /// Through those that are used once outliers are not.
    ///
    /// The one without which χ² falls most is left out if it falls by more than `outlier_limit`² times the larger of 1
    /// and (χ² without it)/(ν − 1); and again, while two more remain than the polynomial has unknowns, up to a quarter.
    pub(super) fn without_outliers(&mut self, outlier_limit: f64) -> Result<FittedSquares, Error> {
        let mut fitted = self.fit()?;
        for _ in 0..self.widths.count / 4 {
            // Without one χ² falls by no more than itself, which is then too little.
            if fitted.degrees() <= 2.0 || fitted.chi_squared <= outlier_limit * outlier_limit {
                break;
            }
            let Some((place, gain)) = self.worst() else { break };
            if gain <= outlier_limit * outlier_limit * fitted.scatter_without(gain, 1.0) {
                break;
            }
            if let Some(used) = self.used.get_mut(place) {
                *used = false;
            }
            self.weigh_as_read();
            fitted = self.fit()?;
        }
        Ok(fitted)
    }

    /// The one without which χ² falls most, with by how much.
    fn worst(&self) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut greatest = 0.0;
        for (place, traced) in self.traced().enumerate() {
            let point = traced.point;
            // 1 − leverage: what is left of its own residual
            let free = 1.0 - point.weight * self.curve.variance(point.x);
            // One that alone holds the curve cannot be judged.
            if free < 1e-9 {
                continue;
            }
            let gain = traced.chi_squared() / free;
            if gain > greatest {
                greatest = gain;
                worst = Some((place, gain));
            }
        }
        worst
    }
}

/// How well the curve fits the squares of widths.
pub(super) struct FittedSquares {
    pub(super) chi_squared: f64,
    /// How many were used.
    pub(super) count: u32,
    unknowns: u32,
}

impl FittedSquares {
    /// ν.
    pub(super) fn degrees_of_freedom(&self) -> u32 {
        self.count.saturating_sub(self.unknowns)
    }

    /// ν as a number.
    pub(super) fn degrees(&self) -> f64 {
        f64::from(self.degrees_of_freedom())
    }

    /// χ² less what `unknowns` more of them gain, over the degrees of freedom that are then left; 1 at the least.
    pub(super) fn scatter_without(&self, gain: f64, unknowns: f64) -> f64 {
        math::greater((self.chi_squared - gain) / (self.degrees() - unknowns), 1.0)
    }
}

/// How many of the values differ, `MOST` at the most.
pub(super) fn different<const MOST: usize>(values: impl Iterator<Item = f64>) -> usize {
    let mut found = [0.0; MOST];
    let mut count = 0;
    let (mut least, mut greatest) = (f64::INFINITY, f64::NEG_INFINITY);
    for value in values {
        let beyond = value < least || value > greatest;
        if beyond || !found.iter().take(count).any(|known| *known == value) {
            let Some(free) = found.get_mut(count) else { break };
            *free = value;
            count += 1;
            least = math::lesser(least, value);
            greatest = math::greater(greatest, value);
        }
    }
    count
}

/// Refuses what is not clear; what is not a number is not.
pub(super) fn significant(param: Param, value: f64) -> Result<(), Error> {
    let (least, _) = param.range();
    let found = if value.is_nan() { 0.0 } else { value };
    if found < least { Err(undetermined(param, found)) } else { Ok(()) }
}
