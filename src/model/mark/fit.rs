//! Spot and threshold from the user's own marks: squared width against the logarithm of dose.
//!
//! | symbol | meaning                                                              | unit |
//! |--------|----------------------------------------------------------------------|------|
//! | E      | what was varied: pulse energy, power or dose, in any unit            | any  |
//! | b, σ   | width (**diameter**) of the mark, and its standard deviation         | m    |
//! | E₀     | threshold of E                                                       | as E |
//! | d      | spot **diameter**, 1/e²                                              | m    |
//! | m      | slope of b² against ln E                                             | m²   |
//! | χ²     | sum of squared residuals over their deviations                       | 1    |
//! | ν      | marks used less two                                                  | 1    |
//!
//! b² = (d²/2)·ln(E/E₀), so d = √(2m), and E₀ where the line crosses zero              \[1\]
//! each b² has the deviation 2b·σ
//!
//! It holds for dots against pulse energy and for lines against power at one speed alike, in focus and
//! out of it: d is the spot on the surface. Deviations of the results are those of the straight line,
//! enlarged by √(χ²/ν) where that exceeds 1, so that marks that scatter more than σ says do not look
//! better than they are.
//!
//! Outliers: the mark without which χ² falls most is left out if it falls by more than `outlier_limit`²
//! times the larger of 1 and (χ² without it)/(ν − 1); and again, while at least four marks remain, up to a quarter
//! of them. The answer says which were used. A mark that alone holds the slope cannot be judged, and stays.
//!
//! The fit is refused ([`Error::Undetermined`]) with fewer than three marks, and where the slope is less than
//! [`LEAST_SIGNIFICANCE`] times its deviation: then the marks do not grow with the dose, or not clearly; and
//! where the threshold is less than [`LEAST_CERTAINTY`] times its deviation: then all marks lie far above it. Where the
//! doses are more than 1e6 times the threshold, on average, or the spot is none of the model's
//! ([`Error::OutsideModel`]), the marks follow another law.
//!
//! \[1\] J. M. Liu, *Optics Letters* 7, 196 (1982), from memory. The straight line: any textbook of
//! weighted least squares; its centred form, which does not cancel, is used.
//! Not modelled: errors of E, and marks that heat or melt have widened.

use crate::error::{Error, Param, check, check_unless_infinite, within_model};
use crate::model::math;
pub use crate::validity::{LEAST_CERTAINTY, LEAST_SIGNIFICANCE};

/// Test marks: `doses[i]` made a mark of `widths[i]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestMarks<'a> {
    /// Pulse energies, powers or doses, in any one unit.
    pub doses: &'a [f64],
    /// Widths (**diameters**) of the marks in metres.
    pub widths: &'a [f64],
    /// Standard deviations of the widths in metres.
    pub deviations: &'a [f64],
}

/// Spot and threshold that fit a set of [`TestMarks`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFit {
    /// Spot **diameter** on the surface in metres, 1/e².
    pub spot_diameter: f64,
    /// Its standard deviation in metres.
    pub spot_diameter_deviation: f64,
    /// Threshold, in the unit of the doses.
    pub threshold: f64,
    /// Its standard deviation over itself, that of ln E₀.
    pub relative_threshold_deviation: f64,
    /// Correlation of spot diameter and ln E₀.
    pub correlation: f64,
    /// χ²/ν: about 1 where the marks scatter as their deviations say.
    pub reduced_chi_squared: f64,
    /// Slope over its deviation.
    pub significance: f64,
    /// How many marks were used.
    pub marks_used: u32,
}

/// A straight line through the marks that are used.
struct Line {
    weight: f64,
    mean_x: f64,
    mean_y: f64,
    sum_xx: f64,
    slope: f64,
    chi_squared: f64,
    count: u32,
}

/// One mark as a point of the line: ln(E/E_first), b² and 1/(2bσ)².
#[derive(Clone, Copy)]
struct Point {
    x: f64,
    y: f64,
    weight: f64,
}

/// One test mark in the units of [`TestMarks`].
#[derive(Clone, Copy)]
pub(crate) struct TestMark {
    pub(crate) dose: f64,
    pub(crate) width: f64,
    pub(crate) deviation: f64,
}

/// Marks by their place, however the caller keeps them; asked below `count` only.
struct Marks<At> {
    count: usize,
    at: At,
}

impl<At: Fn(usize) -> TestMark> Marks<At> {
    fn all(&self) -> impl Iterator<Item = TestMark> {
        (0..self.count).map(&self.at)
    }

    fn first_dose(&self) -> f64 {
        self.all().next().map_or(1.0, |mark| mark.dose)
    }

    /// The points of the marks that are used, with their place.
    fn points(&self, used: &[bool]) -> impl Iterator<Item = (usize, Point)> {
        let first_dose = self.first_dose();
        self.all().zip(used).enumerate().filter(|(_, (_, used))| **used).map(move |(index, (mark, _))| {
            let spread = 2.0 * mark.width * mark.deviation;
            let weight = 1.0 / (spread * spread);
            (index, Point { x: math::log(mark.dose / first_dose), y: mark.width * mark.width, weight })
        })
    }

    fn line(&self, used: &[bool]) -> Line {
        let (mut count, mut weight, mut sum_x, mut sum_y) = (0, 0.0, 0.0, 0.0);
        for (_, point) in self.points(used) {
            count += 1;
            weight += point.weight;
            sum_x += point.weight * point.x;
            sum_y += point.weight * point.y;
        }
        let (mean_x, mean_y) = (sum_x / weight, sum_y / weight);
        let (mut sum_xx, mut sum_xy) = (0.0, 0.0);
        for (_, point) in self.points(used) {
            let x = point.x - mean_x;
            sum_xx += point.weight * x * x;
            sum_xy += point.weight * x * (point.y - mean_y);
        }
        let slope = sum_xy / sum_xx;
        let mut chi_squared = 0.0;
        for (_, point) in self.points(used) {
            let residual = (point.y - mean_y) - slope * (point.x - mean_x);
            chi_squared += point.weight * residual * residual;
        }
        Line { weight, mean_x, mean_y, sum_xx, slope, chi_squared, count }
    }

    /// The mark whose leaving out is most called for, with what speaks for it.
    fn worst(&self, line: &Line, used: &[bool]) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut greatest = 0.0;
        for (index, point) in self.points(used) {
            let x = point.x - line.mean_x;
            let residual = (point.y - line.mean_y) - line.slope * x;
            // 1 − leverage: what is left of the mark's own residual
            let free = 1.0 - point.weight * (1.0 / line.weight + x * x / line.sum_xx);
            // A mark that alone holds the slope cannot be judged.
            if free < 1e-9 {
                continue;
            }
            let gain = point.weight * residual * residual / free;
            let rest = (line.chi_squared - gain) / f64::from(line.count - 3);
            let case = gain / math::greater(rest, 1.0);
            if case > greatest {
                greatest = case;
                worst = Some((index, case));
            }
        }
        worst
    }
}

fn undetermined(param: Param, value: f64, least: f64) -> Error {
    let (_, greatest) = param.range();
    Error::Undetermined { param, value, least, greatest }
}

/// Spot diameter and threshold from test marks of several doses.
///
/// `used` says on return which marks were used. `outlier_limit` is in standard deviations, from 2 on; 3 is
/// usual, +∞ keeps every mark. Method and sources in the [module](self). On any error `used` is all false.
///
/// Accuracy of evaluation: spot, threshold and correlation 50 ulp, the rest 3000 ulp (`tests/vectors/fit_threshold.csv`)
/// where doubles can tell: for marks that stray from their line by a thousandth of b² or more, whose weights
/// 1/(2bσ)² differ by less than 1e12.
///
/// # Errors
/// [`Error::LengthMismatch`] if the arrays differ in length; [`Error::NotFinite`] or [`Error::OutOfRange`] for
/// a dose, then a width, then a deviation, then the outlier limit; [`Error::Undetermined`] where the marks
/// cannot tell; [`Error::OutsideModel`] if the geometric mean of the doses, each by its weight, is beyond the range of
/// [`Param::AnyDoseRatio`] over the threshold, or the spot beyond that of [`Param::SpotDiameter`].
///
/// # Example
/// ```
/// use spotwise::model::mark::{fit_threshold, TestMarks};
/// // Dots of a spot of 60 µm with a threshold of 20 µJ: b = 60 µm·√(ln(E/20)/2).
/// let doses = [30e-6, 60e-6, 120e-6, 240e-6];
/// let widths = doses.map(|e: f64| 60e-6 * ((e / 20e-6).ln() / 2.0).sqrt());
/// let marks = TestMarks { doses: &doses, widths: &widths, deviations: &[1e-6; 4] };
/// let fit = fit_threshold(&marks, 3.0, &mut [false; 4])?;
/// assert_eq!((fit.spot_diameter * 1e12).round(), 60_000_000.0);
/// assert_eq!((fit.threshold * 1e12).round(), 20_000_000.0);
/// assert_eq!(fit.marks_used, 4);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "D squared method")]
#[doc(alias = "Liu plot")]
pub fn fit_threshold(
    marks: &TestMarks<'_>,
    outlier_limit: f64,
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    let count = marks.doses.len();
    for (param, value) in [(Param::Widths, marks.widths.len()), (Param::Deviations, marks.deviations.len())] {
        if value != count {
            used.fill(false);
            return Err(Error::LengthMismatch { param, value, expected: count });
        }
    }
    let number = |list: &[f64], index: usize| list.get(index).copied().unwrap_or(f64::NAN);
    let at = |index| TestMark {
        dose: number(marks.doses, index),
        width: number(marks.widths, index),
        deviation: number(marks.deviations, index),
    };
    fit_marks(count, at, outlier_limit, used)
}

/// As [`fit_threshold`], of marks that the caller keeps in another form: `at` gives the mark at each place
/// below `count`.
pub(crate) fn fit_marks(
    count: usize,
    at: impl Fn(usize) -> TestMark,
    outlier_limit: f64,
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    let fit = checked_fit(&Marks { count, at }, outlier_limit, used);
    if fit.is_err() {
        used.fill(false);
    }
    fit
}

fn checked_fit(
    marks: &Marks<impl Fn(usize) -> TestMark>,
    outlier_limit: f64,
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    let expected = marks.count;
    if used.len() != expected {
        return Err(Error::LengthMismatch { param: Param::Output, value: used.len(), expected });
    }
    for mark in marks.all() {
        check(Param::Dose, mark.dose)?;
    }
    for mark in marks.all() {
        check(Param::MarkWidth, mark.width)?;
    }
    for mark in marks.all() {
        check(Param::WidthDeviation, mark.deviation)?;
    }
    check_unless_infinite(Param::OutlierLimit, outlier_limit)?;
    if expected < 3 {
        return Err(undetermined(Param::MarksUsed, expected as f64, 3.0));
    }

    used.fill(true);
    let mut line = marks.line(used);
    for _ in 0..expected / 4 {
        if line.count <= 4 {
            break;
        }
        match marks.worst(&line, used) {
            Some((index, case)) if case > outlier_limit * outlier_limit => {
                if let Some(used) = used.get_mut(index) {
                    *used = false;
                }
                line = marks.line(used);
            }
            _ => break,
        }
    }
    answer(&line, marks.first_dose())
}

fn answer(line: &Line, first_dose: f64) -> Result<ThresholdFit, Error> {
    let reduced_chi_squared = line.chi_squared / f64::from(line.count - 2);
    let enlarged = math::greater(reduced_chi_squared, 1.0);
    let slope_deviation = math::sqrt(enlarged / line.sum_xx);
    let significance = line.slope / slope_deviation;
    // Not a number where all doses are alike.
    let found = if significance.is_nan() { 0.0 } else { significance };
    if found < LEAST_SIGNIFICANCE {
        return Err(undetermined(Param::Significance, found, LEAST_SIGNIFICANCE));
    }
    let slope = line.slope;
    // ln E₀ = mean x − (mean y)/m
    let reach = line.mean_y / slope;
    let relative = slope_deviation / slope;
    let threshold_variance =
        enlarged / line.weight / (slope * slope) + (reach * relative) * (reach * relative);
    let relative_threshold_deviation = math::sqrt(threshold_variance);
    let certainty = 1.0 / relative_threshold_deviation;
    if certainty < LEAST_CERTAINTY {
        return Err(undetermined(Param::Certainty, certainty, LEAST_CERTAINTY));
    }
    within_model(Param::AnyDoseRatio, math::exp(reach))?;
    let spot_diameter = within_model(Param::SpotDiameter, math::sqrt(2.0 * slope))?;
    Ok(ThresholdFit {
        spot_diameter,
        spot_diameter_deviation: 0.5 * spot_diameter * relative,
        threshold: first_dose * math::exp(line.mean_x - reach),
        relative_threshold_deviation,
        correlation: reach * relative / relative_threshold_deviation,
        reduced_chi_squared,
        significance,
        marks_used: line.count,
    })
}
