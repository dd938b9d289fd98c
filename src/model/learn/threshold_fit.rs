//! Spot and threshold from the user's own marks at several doses: squared width against the logarithm of dose.
//!
//! | symbol | meaning                                                              | unit | valid          |
//! |--------|----------------------------------------------------------------------|------|----------------|
//! | E      | what was varied: pulse energy, power or dose, in any unit            | any  | 1e-12 … 1e18   |
//! | b, σ   | width (**diameter**) of the mark, its standard deviation             | m    | 1e-9 … 10, 1e-12 … 10 |
//! | E₀     | threshold of E                                                       | as E |                |
//! | d      | spot **diameter**, 1/e²                                              | m    |                |
//! | m      | slope of b² against ln E                                             | m²   |                |
//! | χ²     | sum of squared residuals of b² by their weights                      | 1    |                |
//! | ν      | marks used less two                                                  | 1    |                |
//!
//! b² = (d²/2)·ln(E/E₀), so d = √(2m), and E₀ where the line crosses zero              \[1\]
//!
//! It holds for dots against pulse energy and for lines against power at one speed alike, in focus and
//! out of it: d is the spot on the surface.
//!
//! Weights: [`Measured`](ReadingWeights::Measured) takes 1/(2bσ)² with the width as it was read.
//! [`Refined`](ReadingWeights::Refined) takes σ² from b², whose mean it raises, and 1/(4·B²·σ² + 2·σ⁴) with the fitted
//! width B, again and again until B stays: a mark that came out small by chance then gains no weight. It has the lesser bias
//! and is what to use; the other is the straight formula of the textbooks.
//!
//! Deviations are enlarged by √(χ²/ν) where that exceeds 1, so that marks that scatter more than σ says do not look
//! better than they are; ranges are then Student's t times that to either side, else the normal factor: of the spot even
//! about its diameter, of the threshold about its logarithm.
//!
//! **Bias.** Squares about a line of known weights are free of bias, yet the results are curved functions of that line:
//! with v = (σ_m/m)² the mean of d is low by d·v/8, that of ln E₀ by v·ln(E_w/E₀), E_w being the mean dose by the weights.
//! With refined weights the fit puts that right and says by how much; the weights of widths as they were read have a bias
//! of their own, three times σ² in every square, and are left as they are.
//!
//! Outliers: the mark without which χ² falls most is left out if it falls by more than `outlier_limit`²
//! times the larger of 1 and (χ² without it)/(ν − 1); and again, while at least four marks remain, up to a quarter
//! of them. The answer says which were used. A mark that alone holds the slope cannot be judged, and stays.
//!
//! \[1\] J. M. Liu, *Optics Letters* 7, 196 (1982), from memory. The straight line, its weights and deviations: any
//! textbook of weighted least squares.
//! Not modelled: errors of E, and marks that heat or melt have widened; where three or more doses tell, the latter show as
//! [`ThresholdWarnings::NO_LINE`].

use super::curve::Curve;
use super::estimate::Estimate;
use super::squares::{FittedSquares, ReadingWeights, Squares, Width, Widths, different, significant};
use super::statistics::{chi_squared_chance, normal_factor, student_factor};
use crate::error::{Error, Param, check, check_unless_infinite, undetermined, within_model};
use crate::flags::flags;
use crate::model::math;
use core::f64::consts::SQRT_2;

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

/// How [`fit_threshold`] fits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFitOptions {
    /// How a mark weighs.
    pub weights: ReadingWeights,
    /// Standard deviations beyond which a mark is left out, from 2 on; 3 is usual, +∞ keeps every one.
    pub outlier_limit: f64,
    /// Share of cases in which a range is to hold the truth, ½ to 1 − 1e-12; 0.95 is usual.
    pub confidence: f64,
}

/// What [`fit_threshold`] warns of. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[must_use = "a warning that nobody reads helps nobody"]
pub struct ThresholdWarnings(u32);

flags!(ThresholdWarnings);

impl ThresholdWarnings {
    /// Fewer than three different doses, or than four marks: nothing tells whether the squares follow a line.
    pub const UNTRIED: Self = Self(1);
    /// The squares stray from a line, with a chance below 1 %.
    pub const NO_LINE: Self = Self(2);
    /// The least dose lies farther above the threshold than below the greatest, by their ratios: the threshold is far
    /// extrapolated.
    pub const FAR_ABOVE: Self = Self(4);
    /// χ² as great has a chance below 1 %: the marks scatter more than their deviations say.
    pub const SCATTER: Self = Self(8);
    /// χ² as small has a chance below 1 %: the deviations are larger than the scatter.
    pub const LITTLE_SCATTER: Self = Self(16);
    /// At least one mark was left out as an outlier.
    pub const OUTLIERS: Self = Self(32);

    /// Every warning with its sentence, in the order of the bits.
    pub const ALL: [(Self, &'static str); 6] = [
        (
            Self::UNTRIED,
            "too few marks or doses to see whether squared widths follow a line: add other doses",
        ),
        (
            Self::NO_LINE,
            "squared widths do not follow a line over the logarithm of dose: heat, or another law",
        ),
        (Self::FAR_ABOVE, "the threshold lies far below all marks: add some of lower dose"),
        (Self::SCATTER, "the marks scatter more than their deviations say"),
        (Self::LITTLE_SCATTER, "the marks scatter less than their deviations say"),
        (Self::OUTLIERS, "at least one mark was left out: look at it again"),
    ];
}

/// Spot and threshold that fit a set of [`TestMarks`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFit {
    /// Spot **diameter** on the surface in metres, 1/e².
    pub spot_diameter: Estimate,
    /// Threshold, in the unit of the doses; its range is even about its logarithm, and it is the mean of that which is
    /// freed of bias.
    pub threshold: Estimate,
    /// Correlation of spot diameter and ln E₀.
    pub correlation: f64,
    /// Slope over its deviation.
    pub significance: f64,
    /// χ²: squared residuals of b² by their weights.
    pub chi_squared: f64,
    /// ν: marks used less two.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² as great or greater.
    pub chi_squared_chance: f64,
    /// Chance of a curvature as great or greater, either way, if the squares do follow a line; 1 with fewer than four marks
    /// or three different doses, which cannot tell.
    pub curvature_chance: f64,
    /// How many marks were used.
    pub marks_used: u32,
    /// What to be wary of.
    pub warnings: ThresholdWarnings,
}

/// Chance below which the shape or the scatter is called wrong.
const UNLIKELY: f64 = 0.01;
/// Fewest marks, and fewest different doses, of which the third tells whether they lie on a line.
const FEWEST: usize = 3;

/// One test mark in the units of [`TestMarks`].
#[derive(Clone, Copy)]
pub(crate) struct TestMark {
    pub(crate) dose: f64,
    pub(crate) width: f64,
    pub(crate) deviation: f64,
}

/// Spot diameter and threshold from test marks of several doses, with deviations, ranges and warnings.
///
/// On return `residuals` holds for every mark, also those left out, the width read less the width fitted, in metres, where a
/// mark below the threshold that was found is fitted by a width of 0; `used` says which marks were used. Residuals and χ²
/// belong to the plain least squares. Method, sources and bias: see the [module](self). On any error `residuals` is all NaN
/// and `used` all false.
///
/// Bias and coverage, simulated (5, 8 and 12 marks of a spot of 60 µm at 1.5 to 12 times the threshold, σ 1, 2 and 4 µm,
/// refined weights, 2000 runs each; `tests/learn.rs`): the ranges of 95 % hold the truth in 94.6 to 97.1 % of runs, in 93.3 to
/// 94.9 % where deviations are stated three times too small. Spot and ln E₀ are biased by less than 0.05 of their deviation,
/// the plain least squares by up to 0.08 and 0.12 of it. At most 1 run of 2000 was refused. Of 8 marks with σ 1 µm one that
/// is 20 µm too wide was left out in every run: ln E₀ was then found to 0.038, against 0.034 without it and 0.30 where it was
/// kept. Widths that do not depend on the dose were never answered. Marks of the law were flagged
/// [`NO_LINE`](ThresholdWarnings::NO_LINE) in 0.8 % of runs, such as heat had widened by √(225 µm²·E/E₀), in squares, in 98 %.
///
/// Accuracy of evaluation: spot 40 ulp, threshold 120, residuals and ranges 50 times their condition numbers, the rest 2000
/// (`tests/vectors/fit_threshold.csv`)
/// where doubles can tell: for marks that stray from their line by a thousandth of b² or more, whose weights differ by less
/// than 1e12.
///
/// # Errors
/// [`Error::LengthMismatch`] if the arrays differ in length; [`Error::NotFinite`] or [`Error::OutOfRange`] for
/// a dose, then a width, then a deviation, then the options; [`Error::Undetermined`] where the marks cannot tell:
///
/// | parameter | why | what helps |
/// | --- | --- | --- |
/// | [`Param::MarksUsed`] | fewer than three | more marks |
/// | [`Param::Significance`] | the slope is less than three times its deviation: the marks do not grow with the dose, or not clearly; 0 where all doses are alike | other doses, farther apart |
/// | [`Param::Certainty`] | the threshold is less than its deviation: all marks lie far above it | marks of lower dose |
/// | [`Param::SteadyWeights`] | the weights do not settle: the deviations are as large as the widths | wider marks, or more exact ones |
///
/// [`Error::OutsideModel`] if the mean dose by the weights, geometric, is beyond the range of [`Param::AnyDoseRatio`] over
/// the threshold, or the spot beyond that of [`Param::SpotDiameter`]: the marks follow another law.
///
/// # Example
/// ```
/// use spotwise::model::learn::{ReadingWeights, TestMarks, ThresholdFitOptions, fit_threshold};
/// // Dots of a spot of 60 µm with a threshold of 20 µJ: b = 60 µm·√(ln(E/20)/2).
/// let doses = [30e-6, 60e-6, 120e-6, 240e-6];
/// let widths = doses.map(|e: f64| 60e-6 * ((e / 20e-6).ln() / 2.0).sqrt());
/// let marks = TestMarks { doses: &doses, widths: &widths, deviations: &[0.1e-6; 4] };
/// let options = ThresholdFitOptions {
///     weights: ReadingWeights::Measured,
///     outlier_limit: 3.0,
///     confidence: 0.95,
/// };
/// let fit = fit_threshold(&marks, &options, &mut [0.0; 4], &mut [false; 4])?;
/// assert_eq!((fit.spot_diameter.value * 1e12).round(), 60_000_000.0);
/// assert_eq!((fit.threshold.value * 1e12).round(), 20_000_000.0);
/// assert_eq!(fit.marks_used, 4);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "D squared method")]
#[doc(alias = "Liu plot")]
pub fn fit_threshold(
    marks: &TestMarks<'_>,
    options: &ThresholdFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    let count = marks.doses.len();
    for (param, value) in [(Param::Widths, marks.widths.len()), (Param::Deviations, marks.deviations.len())] {
        if value != count {
            residuals.fill(f64::NAN);
            used.fill(false);
            return Err(Error::LengthMismatch { param, value, expected: count });
        }
    }
    let number = |list: &[f64], place: usize| list.get(place).copied().unwrap_or(f64::NAN);
    let at = |place| TestMark {
        dose: number(marks.doses, place),
        width: number(marks.widths, place),
        deviation: number(marks.deviations, place),
    };
    fit_marks(count, at, options, residuals, |residual| residual, used)
}

/// As [`fit_threshold`], of marks that the caller keeps in another form: `at` gives the mark at each place below `count`,
/// and a residual is kept as `kept` makes it.
pub(crate) fn fit_marks<Residual>(
    count: usize,
    at: impl Fn(usize) -> TestMark,
    options: &ThresholdFitOptions,
    residuals: &mut [Residual],
    kept: impl Fn(f64) -> Residual,
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    let fit = checked_fit(count, &at, options, residuals, &kept, used);
    if fit.is_err() {
        for residual in residuals {
            *residual = kept(f64::NAN);
        }
        used.fill(false);
    }
    fit
}

fn check_marks(
    count: usize,
    at: &impl Fn(usize) -> TestMark,
    options: &ThresholdFitOptions,
    outputs: [usize; 2],
) -> Result<(), Error> {
    for value in outputs {
        if value != count {
            return Err(Error::LengthMismatch { param: Param::Output, value, expected: count });
        }
    }
    for place in 0..count {
        check(Param::Dose, at(place).dose)?;
    }
    for place in 0..count {
        check(Param::MarkWidth, at(place).width)?;
    }
    for place in 0..count {
        check(Param::WidthDeviation, at(place).deviation)?;
    }
    check_unless_infinite(Param::OutlierLimit, options.outlier_limit)?;
    check(Param::Confidence, options.confidence)?;
    Ok(())
}

fn checked_fit<Residual>(
    count: usize,
    at: &impl Fn(usize) -> TestMark,
    options: &ThresholdFitOptions,
    residuals: &mut [Residual],
    kept: &impl Fn(f64) -> Residual,
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    check_marks(count, at, options, [residuals.len(), used.len()])?;
    if count < FEWEST {
        return Err(undetermined(Param::MarksUsed, count as f64));
    }
    let first_dose = at(0).dose;
    let width = |place| {
        let mark = at(place);
        Width { x: math::log(mark.dose / first_dose), width: mark.width, deviation: mark.deviation }
    };
    let widths = Widths { count, at: width, weights: options.weights, degree: 1 };
    let mut squares = Squares::of(widths, used);
    if different::<2>(squares.used_at()) < 2 {
        return Err(undetermined(Param::Significance, 0.0));
    }
    let fitted = squares.without_outliers(options.outlier_limit)?;
    let mut fit = answer(squares.curve(), &fitted, first_dose, options);
    if let Ok(fit) = &mut fit {
        warn(fit, &squares, &fitted);
        for ((place, traced), residual) in squares.traced().enumerate().zip(residuals) {
            *residual = kept(at(place).width - math::sqrt(math::greater(traced.value, 0.0)));
        }
    }
    fit
}

fn answer(
    curve: &Curve,
    fitted: &FittedSquares,
    first_dose: f64,
    options: &ThresholdFitOptions,
) -> Result<ThresholdFit, Error> {
    let degrees = fitted.degrees();
    let reduced = fitted.chi_squared / degrees;
    let enlarged = math::greater(reduced, 1.0);
    let [mean, slope] = curve.first_two();
    let slope_variance = enlarged / slope.norm;
    let significance = slope.coefficient / math::sqrt(slope_variance);
    significant(Param::Significance, significance)?;

    // ln E₀ = mean x − (mean y)/m
    let reach = mean.coefficient / slope.coefficient;
    let relative = math::sqrt(slope_variance) / slope.coefficient;
    let by_slope = reach * relative;
    let mean_variance = enlarged / mean.norm / (slope.coefficient * slope.coefficient);
    let log_deviation = math::sqrt(mean_variance + by_slope * by_slope);
    significant(Param::Certainty, 1.0 / log_deviation)?;
    within_model(Param::AnyDoseRatio, math::exp(reach))?;

    let [spot_bias, log_bias] = match options.weights {
        ReadingWeights::Measured => [0.0; 2],
        ReadingWeights::Refined => {
            let relative_variance = relative * relative;
            [-0.125 * relative_variance, -reach * relative_variance]
        }
    };
    let factor = if reduced > 1.0 {
        student_factor(options.confidence, degrees)?
    } else {
        normal_factor(options.confidence)
    };
    let spot = math::sqrt(2.0 * slope.coefficient);
    let spot_diameter = Estimate::even(spot, spot * spot_bias, 0.5 * spot * relative, factor);
    within_model(Param::SpotDiameter, spot_diameter.value)?;
    let threshold = first_dose * math::exp(mean.shift - reach);
    Ok(ThresholdFit {
        spot_diameter,
        threshold: Estimate::of_logarithm(threshold, log_bias, log_deviation, factor),
        correlation: by_slope / log_deviation,
        significance,
        chi_squared: fitted.chi_squared,
        degrees_of_freedom: fitted.degrees_of_freedom(),
        chi_squared_chance: chi_squared_chance(fitted.chi_squared, degrees)?,
        curvature_chance: 1.0,
        marks_used: fitted.count,
        warnings: ThresholdWarnings::default(),
    })
}

/// Tries a curvature, and warns.
fn warn(fit: &mut ThresholdFit, squares: &Squares<'_, impl Fn(usize) -> Width>, fitted: &FittedSquares) {
    let places = || squares.used_at();
    let tried = different::<FEWEST>(places()) >= FEWEST && fitted.degrees_of_freedom() > 1;
    if tried {
        let gain = squares.next().gain();
        let scatter = fitted.scatter_without(gain, 1.0);
        // χ² of one degree of freedom
        fit.curvature_chance = math::erfc(math::sqrt(gain / scatter) / SQRT_2);
    }
    let (mut least, mut greatest) = (f64::MAX, f64::MIN);
    for place in places() {
        least = math::lesser(least, place);
        greatest = math::greater(greatest, place);
    }
    let [mean, slope] = squares.curve().first_two();
    let crossing = mean.shift - mean.coefficient / slope.coefficient;
    let warnings = &mut fit.warnings;
    warnings.add(ThresholdWarnings::UNTRIED, !tried);
    warnings.add(ThresholdWarnings::NO_LINE, fit.curvature_chance < UNLIKELY);
    warnings.add(ThresholdWarnings::FAR_ABOVE, least - crossing > greatest - least);
    warnings.add(ThresholdWarnings::SCATTER, fit.chi_squared_chance < UNLIKELY);
    warnings.add(ThresholdWarnings::LITTLE_SCATTER, fit.chi_squared_chance > 1.0 - UNLIKELY);
    warnings.add(ThresholdWarnings::OUTLIERS, fitted.count as usize != squares.used().len());
}
