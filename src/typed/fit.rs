//! Spot and threshold from the user's own marks.

use super::length;
use super::units::{j_per_m2, joule, w};
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::mark;
use uom::si::f64::{Energy, Length, Power, RadiantExposure};

/// What may be varied from one test mark to the next: a pulse energy, a power, a dose, or a pure number such as
/// a share of one of them. The marks of one fit are all of one kind:
///
/// ```compile_fail,E0308
/// use spotwise::units::{joule, um, w};
/// use spotwise::{TestMark, fit_threshold};
/// let marks = [
///     TestMark { dose: joule(30e-6), width: um(27.0), deviation: um(1.0) },
///     TestMark { dose: w(3.0), width: um(44.5), deviation: um(1.0) }, // a power among energies
/// ];
/// # let _ = fit_threshold(&marks, 3.0, &mut [false; 2]);
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

/// Spot and threshold that fit a set of [`TestMark`]s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThresholdFit<Varied> {
    /// Spot on the surface.
    pub spot: BeamWidth,
    /// Standard deviation of its 1/e² **diameter**.
    pub spot_diameter_deviation: Length,
    /// Threshold of what was varied.
    pub threshold: Varied,
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
/// As there: [`Error::Undetermined`] where the marks cannot tell, [`Error::OutsideModel`] where they follow another
/// law.
///
/// # Example
/// ```
/// use spotwise::units::{joule, um};
/// use spotwise::{TestMark, fit_threshold};
/// // Dots of a spot of 60 µm with a threshold of 20 µJ: b = 60 µm·√(ln(E/20)/2).
/// let marks = [30.0, 60.0, 120.0, 240.0].map(|e: f64| TestMark {
///     dose: joule(e * 1e-6),
///     width: um(60.0 * ((e / 20.0).ln() / 2.0).sqrt()),
///     deviation: um(1.0),
/// });
/// let fit = fit_threshold(&marks, 3.0, &mut [false; 4])?;
/// assert_eq!((fit.spot.diameter_1e2().value * 1e12).round(), 60_000_000.0);
/// assert_eq!((fit.threshold.value * 1e12).round(), 20_000_000.0); // 20 µJ
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "D squared method")]
#[doc(alias = "Liu plot")]
pub fn fit_threshold<Varied: VariedDose>(
    marks: &[TestMark<Varied>],
    outlier_limit: f64,
    used: &mut [bool],
) -> Result<ThresholdFit<Varied>, Error> {
    let at = |index: usize| {
        marks.get(index).map_or(NO_MARK, |mark| mark::fit::TestMark {
            dose: mark.dose.in_si(),
            width: mark.width.value,
            deviation: mark.deviation.value,
        })
    };
    let fit = mark::fit::fit_marks(marks.len(), at, outlier_limit, used)?;
    Ok(ThresholdFit {
        spot: BeamWidth::computed(fit.spot_diameter),
        spot_diameter_deviation: length(fit.spot_diameter_deviation),
        threshold: Varied::from_si(fit.threshold),
        relative_threshold_deviation: fit.relative_threshold_deviation,
        correlation: fit.correlation,
        reduced_chi_squared: fit.reduced_chi_squared,
        significance: fit.significance,
        marks_used: fit.marks_used,
    })
}

/// What no place of the marks holds.
const NO_MARK: mark::fit::TestMark =
    mark::fit::TestMark { dose: f64::NAN, width: f64::NAN, deviation: f64::NAN };
