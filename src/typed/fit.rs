//! Spot and threshold from the user's own marks.

use super::length;
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::mark;
use uom::si::f64::Length;

/// Test marks: `doses[i]` made a mark of `widths_m[i]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestMarks<'a> {
    /// Pulse energies, powers or doses, in any one unit.
    pub doses: &'a [f64],
    /// Widths (**diameters**) of the marks in **metres**.
    pub widths_m: &'a [f64],
    /// Standard deviations of the widths in **metres**.
    pub deviations_m: &'a [f64],
}

/// Spot and threshold that fit a set of [`TestMarks`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFit {
    /// Spot on the surface.
    pub spot: BeamWidth,
    /// Standard deviation of its 1/e² **diameter**.
    pub spot_diameter_deviation: Length,
    /// Threshold, in the unit of the doses.
    pub threshold: f64,
    /// Its standard deviation over itself.
    pub relative_threshold_deviation: f64,
    /// Correlation of spot diameter and logarithm of the threshold.
    pub correlation: f64,
    /// χ²/ν: about 1 where the marks scatter as their deviations say.
    pub reduced_chi_squared: f64,
    /// Slope over its deviation.
    pub significance: f64,
    /// How many marks were used.
    pub marks_used: u32,
}

/// Spot and threshold from test marks of several doses; `used` says on return which marks were used. As
/// [`model::mark::fit_threshold`](crate::model::mark::fit_threshold).
///
/// `outlier_limit` is in standard deviations, from 2 on; 3 is usual, +∞ keeps every mark.
///
/// # Errors
/// As there: [`Error::Undetermined`] where the marks cannot tell.
///
/// # Example
/// ```
/// use spotwise::{TestMarks, fit_threshold};
/// // Dots of a spot of 60 µm with a threshold of 20 µJ: b = 60 µm·√(ln(E/20)/2).
/// let doses = [30.0, 60.0, 120.0, 240.0];
/// let widths = doses.map(|e: f64| 60e-6 * ((e / 20.0).ln() / 2.0).sqrt());
/// let marks = TestMarks { doses: &doses, widths_m: &widths, deviations_m: &[1e-6; 4] };
/// let fit = fit_threshold(marks, 3.0, &mut [false; 4])?;
/// assert_eq!((fit.spot.diameter_1e2().value * 1e12).round(), 60_000_000.0);
/// assert_eq!((fit.threshold * 1e6).round(), 20_000_000.0); // in µJ, as the doses
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "D squared method")]
#[doc(alias = "Liu plot")]
pub fn fit_threshold(
    marks: TestMarks<'_>,
    outlier_limit: f64,
    used: &mut [bool],
) -> Result<ThresholdFit, Error> {
    let marks =
        mark::TestMarks { doses: marks.doses, widths: marks.widths_m, deviations: marks.deviations_m };
    let fit = mark::fit_threshold(&marks, outlier_limit, used)?;
    Ok(ThresholdFit {
        spot: BeamWidth::computed(fit.spot_diameter),
        spot_diameter_deviation: length(fit.spot_diameter_deviation),
        threshold: fit.threshold,
        relative_threshold_deviation: fit.relative_threshold_deviation,
        correlation: fit.correlation,
        reduced_chi_squared: fit.reduced_chi_squared,
        significance: fit.significance,
        marks_used: fit.marks_used,
    })
}
