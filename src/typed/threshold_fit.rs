//! Spot and threshold from the user's own marks at several doses.

use super::estimate::Estimate;
use super::length;
use super::units::{j_per_m2, joule, w};
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::learn::{self, ReadingWeights, ThresholdWarnings, threshold_fit};
use uom::si::f64::{Energy, Length, Power, RadiantExposure};

/// What may be varied from one test mark to the next: a pulse energy, a power, a dose, or a pure number such as
/// a share of one of them. The marks of one fit are all of one kind:
///
/// ```compile_fail,E0308
/// use spotwise::units::{joule, m, um, w};
/// use spotwise::{TestMark, ThresholdFitOptions, fit_threshold};
/// let marks = [
///     TestMark { dose: joule(30e-6), width: um(27.0), deviation: um(1.0) },
///     TestMark { dose: w(3.0), width: um(44.5), deviation: um(1.0) }, // a power among energies
/// ];
/// # let _ = fit_threshold(&marks, &ThresholdFitOptions::default(), &mut [m(0.0); 2], &mut [false; 2]);
/// ```
pub trait VariedDose: Copy + sealed::InSi {}

impl<T: Copy + sealed::InSi> VariedDose for T {}

mod sealed {
    /// A quantity by its number in SI.
    pub trait InSi {
        fn in_si(self) -> f64;
        fn from_si(number: f64) -> Self;
    }
}

macro_rules! varied_doses {
    ($($quantity:ty: $of:path;)+) => { $(
        impl sealed::InSi for $quantity {
            fn in_si(self) -> f64 {
                self.value
            }

            fn from_si(number: f64) -> Self {
                $of(number)
            }
        }
    )+ };
}

varied_doses! {
    Energy: joule;
    Power: w;
    RadiantExposure: j_per_m2;
}

impl sealed::InSi for f64 {
    fn in_si(self) -> f64 {
        self
    }

    fn from_si(number: f64) -> Self {
        number
    }
}

/// One test mark of the user's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestMark<Varied> {
    /// What was varied: 1e-12 to 1e18 in its SI unit.
    pub dose: Varied,
    /// Width of the line, or **diameter** of the dot; 1e-9 to 10 m.
    pub width: Length,
    /// Standard deviation of the width, 1e-12 to 10 m.
    pub deviation: Length,
}

/// How [`fit_threshold`] fits. The default: refined weights, outliers beyond 3 deviations left out, 95 % confidence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFitOptions {
    /// How a mark weighs.
    pub weights: ReadingWeights,
    /// Standard deviations beyond which a mark is left out, from 2 on; +∞ keeps every one.
    pub outlier_limit: f64,
    /// Share of cases in which a range is to hold the truth, ½ to 1 − 1e-12.
    pub confidence: f64,
}

impl Default for ThresholdFitOptions {
    fn default() -> Self {
        Self { weights: ReadingWeights::Refined, outlier_limit: 3.0, confidence: 0.95 }
    }
}

/// Spot and threshold that fit a set of [`TestMark`]s, as
/// [`model::learn::ThresholdFit`](crate::model::learn::ThresholdFit).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFit<Varied> {
    /// Spot on the surface.
    pub spot: Estimate<BeamWidth, Length>,
    /// Threshold of what was varied; its range is even about its logarithm.
    pub threshold: Estimate<Varied>,
    /// Correlation of spot diameter and logarithm of the threshold.
    pub correlation: f64,
    /// Slope over its deviation.
    pub significance: f64,
    /// χ²: squared residuals of the squared widths by their weights.
    pub chi_squared: f64,
    /// Marks used less two.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² as great or greater.
    pub chi_squared_chance: f64,
    /// Chance of a curvature as great or greater, if squared widths do follow a line over the logarithm of dose.
    pub curvature_chance: f64,
    /// How many marks were used.
    pub marks_used: u32,
    /// What to be wary of; [`ThresholdWarnings::texts`] says it in sentences.
    pub warnings: ThresholdWarnings,
}

/// Spot and threshold from test marks of several doses, with deviations, ranges and warnings. As
/// [`model::learn::fit_threshold`](crate::model::learn::fit_threshold), where method, sources and limits stand.
///
/// On return `residuals` holds for every mark the width read less the width fitted, and `used` says which were used.
///
/// # Errors
/// As there: [`Error::Undetermined`] where the marks cannot tell, [`Error::OutsideModel`] where they follow another
/// law.
///
/// # Example
/// ```
/// use spotwise::units::{joule, m, um};
/// use spotwise::{TestMark, ThresholdFitOptions, fit_threshold};
/// // Dots of a spot of 60 µm with a threshold of 20 µJ: b = 60 µm·√(ln(E/20)/2).
/// let marks = [30.0, 60.0, 120.0, 240.0].map(|e: f64| TestMark {
///     dose: joule(e * 1e-6),
///     width: um(60.0 * ((e / 20.0).ln() / 2.0).sqrt()),
///     deviation: um(0.001),
/// });
/// let (mut residuals, mut used) = ([m(0.0); 4], [false; 4]);
/// let fit = fit_threshold(&marks, &ThresholdFitOptions::default(), &mut residuals, &mut used)?;
/// assert_eq!((fit.spot.value.diameter_1e2().value * 1e9).round(), 60_000.0);
/// assert_eq!((fit.threshold.value.value * 1e9).round(), 20_000.0); // 20 µJ
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "D squared method")]
#[doc(alias = "Liu plot")]
pub fn fit_threshold<Varied: VariedDose>(
    marks: &[TestMark<Varied>],
    options: &ThresholdFitOptions,
    residuals: &mut [Length],
    used: &mut [bool],
) -> Result<ThresholdFit<Varied>, Error> {
    let at = |place: usize| {
        marks.get(place).map_or(NO_MARK, |mark| threshold_fit::TestMark {
            dose: mark.dose.in_si(),
            width: mark.width.value,
            deviation: mark.deviation.value,
        })
    };
    let options = learn::ThresholdFitOptions {
        weights: options.weights,
        outlier_limit: options.outlier_limit,
        confidence: options.confidence,
    };
    let fit = threshold_fit::fit_marks(marks.len(), at, &options, residuals, length, used)?;
    Ok(ThresholdFit {
        spot: Estimate::of_length(fit.spot_diameter, BeamWidth::computed),
        threshold: Estimate::of(fit.threshold, Varied::from_si, Varied::from_si),
        correlation: fit.correlation,
        significance: fit.significance,
        chi_squared: fit.chi_squared,
        degrees_of_freedom: fit.degrees_of_freedom,
        chi_squared_chance: fit.chi_squared_chance,
        curvature_chance: fit.curvature_chance,
        marks_used: fit.marks_used,
        warnings: fit.warnings,
    })
}

/// What no place of the marks holds.
const NO_MARK: threshold_fit::TestMark =
    threshold_fit::TestMark { dose: f64::NAN, width: f64::NAN, deviation: f64::NAN };
