//! A polynomial through the squares of widths: how each weighs, and which are outliers.
//!
//! A width b read with the deviation σ has a square with the mean B² + σ² and the variance 4·B²·σ² + 2·σ⁴, B being the
//! width as it is. Fits of a beam and of marks at several doses are such polynomials.

use super::curve::{Curve, Point};
use crate::error::{Error, Param, undetermined};
use crate::model::math;

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

impl<At: Fn(usize) -> Width> Widths<At> {
    pub(super) fn all(&self) -> impl Iterator<Item = Width> + Clone {
        (0..self.count).map(&self.at)
    }

    /// Those that are used.
    pub(super) fn used<'a>(&'a self, used: &'a [bool]) -> impl Iterator<Item = Width> + Clone + 'a {
        self.all().zip(used).filter(|(_, used)| **used).map(|(width, _)| width)
    }

    /// The points of those that are used, weighted by a curve through them, or as they were read.
    pub(super) fn points<'a>(
        &'a self,
        used: &'a [bool],
        fitted: Option<&'a Curve>,
    ) -> impl Iterator<Item = Point> + Clone + 'a {
        self.used(used).map(move |Width { x, width, deviation }| {
            let variance = deviation * deviation;
            let read = width * width;
            match (self.weights, fitted) {
                (ReadingWeights::Measured, _) => Point { x, y: read, weight: 1.0 / (4.0 * read * variance) },
                (ReadingWeights::Refined, None) => {
                    Point { x, y: read - variance, weight: 1.0 / (4.0 * read * variance) }
                }
                (ReadingWeights::Refined, Some(fitted)) => {
                    let squared = math::greater(fitted.at(x).0, 0.0);
                    let weight = 1.0 / (4.0 * squared * variance + 2.0 * variance * variance);
                    Point { x, y: read - variance, weight }
                }
            }
        })
    }

    /// Through those that are used, which stand at more places than the degree says.
    fn fitted(&self, used: &[bool]) -> Result<FittedSquares, Error> {
        let mut weighed_by = None;
        let mut curve = Curve::through(self.points(used, None), self.degree);
        if self.weights == ReadingWeights::Refined {
            let mut stays = false;
            for _ in 0..STEPS {
                let next = Curve::through(self.points(used, Some(&curve)), self.degree);
                let change = self.used(used).fold(0.0, |most, Width { x, deviation, .. }| {
                    let (before, after) = (curve.at(x).0, next.at(x).0);
                    let scale = math::fabs(after) + deviation * deviation;
                    math::greater(most, math::fabs(after - before) / scale)
                });
                weighed_by = Some(curve);
                curve = next;
                stays = change < STAYS;
                if stays {
                    break;
                }
            }
            if !stays {
                return Err(undetermined(Param::SteadyWeights, 0.0));
            }
        }
        let points = self.points(used, weighed_by.as_ref());
        let chi_squared = curve.chi_squared(points);
        let count = self.used(used).fold(0, |count: u32, _| count.saturating_add(1));
        Ok(FittedSquares { curve, weighed_by, chi_squared, count, unknowns: self.degree.saturating_add(1) })
    }

    /// Through those that are used once outliers are not.
    ///
    /// The one without which χ² falls most is left out if it falls by more than `outlier_limit`² times the larger of 1
    /// and (χ² without it)/(ν − 1); and again, while two more remain than the polynomial has unknowns, up to a quarter.
    pub(super) fn without_outliers(
        &self,
        outlier_limit: f64,
        used: &mut [bool],
    ) -> Result<FittedSquares, Error> {
        used.fill(true);
        let mut fitted = self.fitted(used)?;
        for _ in 0..self.count / 4 {
            if fitted.degrees() <= 2.0 {
                break;
            }
            match self.worst(&fitted, used) {
                Some((place, case)) if case > outlier_limit * outlier_limit => {
                    if let Some(used) = used.get_mut(place) {
                        *used = false;
                    }
                    fitted = self.fitted(used)?;
                }
                _ => break,
            }
        }
        Ok(fitted)
    }

    /// The one whose leaving out is most called for, with what speaks for it.
    fn worst(&self, fitted: &FittedSquares, used: &[bool]) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut greatest = 0.0;
        let places = used.iter().enumerate().filter(|(_, used)| **used).map(|(place, _)| place);
        for (place, point) in places.zip(self.points(used, fitted.weighed_by.as_ref())) {
            let residual = point.y - fitted.curve.at(point.x).0;
            // 1 − leverage: what is left of its own residual
            let free = 1.0 - point.weight * fitted.curve.variance(point.x);
            // One that alone holds the curve cannot be judged.
            if free < 1e-9 {
                continue;
            }
            let gain = point.weight * residual * residual / free;
            let rest = (fitted.chi_squared - gain) / (fitted.degrees() - 1.0);
            let case = gain / math::greater(rest, 1.0);
            if case > greatest {
                greatest = case;
                worst = Some((place, case));
            }
        }
        worst
    }
}

/// A polynomial through the squares of widths, and the weights that it was fitted with.
pub(super) struct FittedSquares {
    pub(super) curve: Curve,
    /// The curve that the weights are of.
    pub(super) weighed_by: Option<Curve>,
    pub(super) chi_squared: f64,
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
}

/// Refuses what is not clear; what is not a number is not.
pub(super) fn significant(param: Param, value: f64) -> Result<(), Error> {
    let (least, _) = param.range();
    let found = if value.is_nan() { 0.0 } else { value };
    if found < least { Err(undetermined(param, found)) } else { Ok(()) }
}
