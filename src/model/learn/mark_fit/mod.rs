//! Focus, spot and dose from the widths of marks at stepped heights.
//!
//! Symbols and the law of the widths in `law.rs`: a mark is √2·w·√L wide, where w is the spot's 1/e² **radius**
//! at its height and L the logarithm of dose over threshold there. Its width is not a width of the beam: it falls
//! where the dose falls, and past b = 0 the mark vanishes.
//!
//! χ² = Σ ((b − s)/σ)² over the marks that were seen, + Σ (max(0, s)/σ)² over those that vanished, + ((ln M² −
//! known)/deviation)² and ((ln d − known)/deviation)² where known. M² = π·d²/(4·λ·zR).
//! For each z₀ and zR the best d and q follow by Newton's method, which does not miss them, for what the marks add to χ²
//! is convex in d² and d²·ln q. What is left is looked for in z₀ and zR alone, from the best places of a coarse grid (`solver.rs`): from
//! one, if the least point found there fits and is well known, else from three or, while none fits, five.
//!
//! Covariance of z₀, ln d, ln zR and ln q: (JᵀJ)⁻¹ of the marks that were seen and of what is known, as deviations of the
//! widths are stated ([`WidthScatter::Stated`]); times χ²/ν where only their ratios are known ([`WidthScatter::Found`]). ν
//! counts the marks that were seen and used and what was known before, less four. Marks that vanished help to find the
//! least point and add to χ², but not to ν nor to the certainty.
//! From z₀ and from the logarithms their bias is taken: that of second order (`bias.rs`), and what marks that vanished
//! pull, which is to one side only (`correction.rs`). Ranges are ± k deviations of these about what is left; k from the
//! normal law, or from Student's t with ν where the scatter is found. χ² and the residuals are those of the least point
//! itself.
//!
//! Outliers: the mark without which χ² would fall most, as far as the tangent at the least point tells, is left out
//! if it falls by more than `outlier_limit`² times the larger of 1 and (χ² without it)/(ν − 1), then all is fitted
//! again; and again, while ν is at least 2, up to a quarter of the marks.
//!
//! | refused as ([`Error::Undetermined`])  | where                                                     | what helps |
//! |---------------------------------------|-----------------------------------------------------------|------------|
//! | [`Param::MarksUsed`]                  | fewer than 5 marks were seen, less one for each of M² and d that is known | more marks |
//! | [`Param::DistinctHeights`]            | fewer than three heights                                  | more heights |
//! | [`Param::ShapeSignificance`]          | the widths do not change with height by 4 deviations: √(χ² of a width that depends on power alone, less χ²), over √(χ²/ν) where that exceeds 1 | less power, or heights out to where marks vanish |
//! | [`Param::WaistWithinHeights`]         | the waist lies outside the heights                        | marks beyond that end |
//! | [`Param::WaistZCertainty`]            | half the run is less than twice the deviation of z₀       | less power, or heights out to where marks vanish |
//! | [`Param::SizeCertainty`]              | d is less than its deviation, or d and q cannot be told apart | the same heights at twice the power, or M² |
//!
//! Sources: the law in `mark_width`; weighted least squares in any textbook. Not modelled: errors of the heights,
//! astigmatism, aberration, marks that heat has widened.

mod answer;
mod cautions;
mod checks;
mod correction;
mod law;
mod marks;
mod outliers;
mod ranges;
mod search;
mod series;
mod shape;
mod spot;
mod starts;

use crate::error::{Error, Param};
pub use answer::MarkFit;
use answer::answer;
pub use cautions::{FurtherMarks, MarkFitCautions};
use checks::checked_law;
use law::Place;
pub(crate) use marks::Mark;
pub use marks::{MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter};
use outliers::without_outliers;
use series::{Series, scaled};

/// Focus, spot, Rayleigh range and dose from the widths of marks at stepped heights.
///
/// `used` says on return which marks were used, `residuals` how far each mark lies from the fit, (b − s)/σ in
/// deviations; that of a mark that vanished is negative where it should have been seen, and else 0. Those left out
/// have theirs too. Both are those of the least point, not of the values, which have their bias taken off. On any error `used` is all false and `residuals` all NaN. Law, method, sources and refusals in
/// the [module](self).
///
/// Accuracy of evaluation (`tests/vectors/fit_mark_widths.csv`), in deviations of the values themselves: 1e-12; the
/// deviations to 1e-9 of themselves where the marks tell all four unknowns apart. SciPy's `curve_fit` finds the same
/// to 1e-13 and 1e-8, and with `brentq` the ranges of bent laws to 1e-7 deviations (`tests/mark_fit.rs`).
///
/// How well it does, by 4000 seeded series of a spot of 85 µm each (`tests/mark_fit.rs`): coverage of the ranges for 95 %,
/// the largest bias of z₀ and of the logarithms in deviations, and the share refused; H is half the run in Rayleigh
/// ranges, q the dose ratio.
///
/// | series                            | noise | coverage       | bias  | refused |
/// |-----------------------------------|-------|----------------|-------|---------|
/// | two powers                        | 2 µm  | 94.3 to 95.7 % | 0.04  | none    |
/// | two powers                        | 5 µm  | 94.3 to 95.8 % | 0.04  | none    |
/// | two powers                        | 10 µm | 94.8 to 95.3 % | 0.03  | 1.4 %   |
/// | M² known to 10 %, q = 8           | 5 µm  | 94.2 to 95.8 % | 0.02  | 0.15 %  |
/// | M² known to 10 %, q = 3           | 2 µm  | 94.2 to 95.5 % | 0.02  | 0.35 %  |
/// | M² known to 10 %, q = 1.3, H = 1  | 2 µm  | 94.7 to 95.9 % | 0.12* | 0.15 %  |
/// | one power, past vanishing (H = 3) | 1 µm  | 94.7 to 95.4 % | 0.03  | none    |
/// | one power, past vanishing (H = 3) | 5 µm  | 95.0 to 96.0 % | 0.03  | none    |
/// | one power, past vanishing (H = 3) | 10 µm | 95.1 to 96.7 % | 0.05  | 0.3 %   |
/// | one power, q = 8, H = 2           | 1 µm  | 94.4 to 95.2 % | 0.05  | none    |
/// | one power, q = 8, H = 2           | 2 µm  | 94.4 to 95.4 % | 0.17* | 0.1 %   |
/// | one power, q = 8, H = 2           | 5 µm  | 94.8 to 97.9 % | 0.26* | 14 %    |
/// | one power, q = 1.5, H = 1.5       | 2 µm  | 95.8 to 96.7 % | 0.20* | 15 %    |
/// | one power, q = 3, H = 2           | 5 µm  |                |       | 77 %    |
///
/// The plain least-squares values of the same series are off by up to 0.22 deviations, with two powers and 10 µm.
/// \* Spot and dose can hardly be told apart there, and [`MarkFitCautions::WEAK_SIZE`] says so in 96 to 100 % of the fits: the
/// dose or the spot may grow without end, so that the mean of its logarithm means little, though the ranges hold. At
/// q = 8 and 5 µm those of the diameter hold 97.9 %, for they end at 0. The height of the waist is off by no more than 0.04
/// in any series. Of series of noise alone, fewer than one in a thousand is fitted.
///
/// # Errors
/// [`Error::LengthMismatch`] for an array of another length than the heights; [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for the heights, then the widths, deviations and power ratios, the wavelength, M² and the
/// waist diameter, each after its deviation, the outlier limit and the confidence; [`Error::Undetermined`] where
/// the marks cannot tell, as the table in the [module](self) says; [`Error::OutsideModel`] where the waist, the
/// Rayleigh range or the dose ratio that fit are none of the model's.
///
/// # Example
/// ```
/// use spotwise::model::learn::{
///     MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter, fit_mark_widths,
/// };
/// use spotwise::model::mark::MarkKind;
/// // Lines of a spot of 80 µm with a Rayleigh range of 0.4 mm, focus at +0.1 mm, 4 times the threshold:
/// // b = 80 µm·u·√(ln(4/u)/2), u² = 1 + ((z − 0.1 mm)/0.4 mm)².
/// let heights: [f64; 11] = core::array::from_fn(|i| (i as f64 - 5.0) * 0.2e-3);
/// let widths = heights.map(|z| {
///     let u = 1.0_f64.hypot((z - 0.1e-3) / 0.4e-3);
///     80e-6 * u * ((4.0 / u).ln() / 2.0).sqrt()
/// });
/// let marks = SeriesMarks {
///     heights: &heights,
///     widths: &widths,
///     deviations: &[1e-6; 11],
///     power_ratios: &[1.0; 11],
/// };
/// let known = SeriesKnown {
///     kind: MarkKind::Line,
///     wavelength: 10.6e-6,
///     m2: f64::NAN,
///     relative_m2_deviation: f64::INFINITY,
///     waist_diameter: f64::NAN,
///     relative_waist_diameter_deviation: f64::INFINITY,
/// };
/// let options = MarkFitOptions { outlier_limit: 3.0, confidence: 0.95, scatter: WidthScatter::Stated };
/// let fit = fit_mark_widths(&marks, &known, &options, &mut [0.0; 11], &mut [false; 11])?;
/// // These marks do not scatter; from some that do the bias would be taken off.
/// assert_eq!((fit.waist_z.least_squares() * 1e9).round(), 100_000.0);
/// assert_eq!((fit.waist_diameter.least_squares() * 1e12).round(), 80_000_000.0);
/// assert_eq!((fit.rayleigh_range.least_squares() * 1e9).round(), 400_000.0);
/// assert_eq!((fit.dose_ratio.least_squares() * 1e6).round(), 4_000_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "focus ladder")]
#[doc(alias = "Levenberg-Marquardt")]
pub fn fit_mark_widths(
    marks: &SeriesMarks<'_>,
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    let count = marks.heights.len();
    let lengths = [
        (Param::Widths, marks.widths.len()),
        (Param::Deviations, marks.deviations.len()),
        (Param::PowerRatios, marks.power_ratios.len()),
    ];
    for (param, value) in lengths {
        if value != count {
            used.fill(false);
            residuals.fill(f64::NAN);
            return Err(Error::LengthMismatch { param, value, expected: count });
        }
    }
    let number = |list: &[f64], index: usize| list.get(index).copied().unwrap_or(f64::NAN);
    let at = |index| Mark {
        height: number(marks.heights, index),
        width: number(marks.widths, index),
        deviation: number(marks.deviations, index),
        power_ratio: number(marks.power_ratios, index),
    };
    fit_series(count, at, known, options, residuals, used)
}

/// As [`fit_mark_widths`], of marks that the caller keeps in another form: `at` gives the mark at each place below
/// `count`.
pub(crate) fn fit_series(
    count: usize,
    at: impl Fn(usize) -> Mark,
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    let fit = checked_fit(count, at, known, options, residuals, used);
    if fit.is_err() {
        used.fill(false);
        residuals.fill(f64::NAN);
    }
    fit
}

fn checked_fit(
    count: usize,
    at: impl Fn(usize) -> Mark,
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    for value in [residuals.len(), used.len()] {
        if value != count {
            return Err(Error::LengthMismatch { param: Param::Output, value, expected: count });
        }
    }
    let law = checked_law(count, &at, known, options)?;
    used.fill(true);
    let mut series = Series { count, at, law, used };
    let standing = without_outliers(&mut series, options.outlier_limit, residuals)?;
    let fit = answer(&series, &standing, known.wavelength, options)?;
    let place = Place::of(&standing.least.at);
    for (residual, (_, mark)) in residuals.iter_mut().zip(scaled(&series.at, &series.law, series.count)) {
        *residual = series
            .law
            .residual(&place, &mark, series.law.log(&mark, place.excess(&mark)))
            .map_or(0.0, |left| -left.value);
    }
    Ok(fit)
}
