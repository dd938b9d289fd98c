//! Student's t and χ².

use crate::error::Error;
use crate::model::learn;

/// Half width of a range over the standard deviation that holds the truth with this confidence, where the deviation
/// is known from a scatter of so many degrees of freedom. As
/// [`model::learn::student_factor`](crate::model::learn::student_factor).
///
/// # Errors
/// As there: for a confidence outside ½ to 1 − 1e-12, or degrees of freedom outside 1 to 100 000.
///
/// # Example
/// ```
/// use spotwise::student_factor;
/// // Printed in every table of t: 3.182 for 95 % and 3 degrees of freedom.
/// assert_eq!((student_factor(0.95, 3)? * 1e3).round(), 3182.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "t quantile")]
pub fn student_factor(confidence: f64, degrees_of_freedom: u32) -> Result<f64, Error> {
    learn::student_factor(confidence, f64::from(degrees_of_freedom))
}

/// Chance of a χ² as great as this or greater, where readings scatter as their deviations say. As
/// [`model::learn::chi_squared_chance`](crate::model::learn::chi_squared_chance).
///
/// # Errors
/// As there: for a χ² outside 0 to 1e100, or degrees of freedom outside 1 to 100 000.
///
/// # Example
/// ```
/// use spotwise::chi_squared_chance;
/// // Printed in every table of χ²: 1 % lie beyond 6.635 with 1 degree of freedom.
/// assert_eq!((chi_squared_chance(6.635, 1)? * 1e5).round(), 1000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "p value")]
pub fn chi_squared_chance(chi_squared: f64, degrees_of_freedom: u32) -> Result<f64, Error> {
    learn::chi_squared_chance(chi_squared, f64::from(degrees_of_freedom))
}
