//! Student's t and chi squared.

use crate::abi::report;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::learn::{chi_squared_chance, student_factor};

/// Half width of a range over the standard deviation that holds the truth with this confidence, where
/// the deviation is known from scatter alone: Student's t.
///
/// Errors that are not normal are not modelled. For many degrees of freedom it is the half width of
/// the normal law, 1.96 at 95 %.
///
/// @param[in]  confidence         share of cases in which the range is to hold the truth; range:
///                                SPOTWISE_PARAM_CONFIDENCE.
/// @param[in]  degrees_of_freedom readings used less parameters fitted; range:
///                                SPOTWISE_PARAM_DEGREES_OF_FREEDOM.
/// @param[out] factor             half width over standard deviation; not NULL. On any status other
///                                than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 8 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 95 % and 8 degrees of freedom: 2.306.
/// Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4, from
///         memory; for many degrees derived here.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_student_factor(
    confidence: f64,
    degrees_of_freedom: u32,
    factor: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(factor, error, || Ok(student_factor(confidence, f64::from(degrees_of_freedom))?)) }
}

/// Chance of a chi squared as great as this or greater, where readings scatter as their deviations
/// say.
///
/// Near 0 the fit is bad: the model is wrong, or the deviations are too small. Near 1 it is too good:
/// the deviations are too large. It takes a step for every second degree of freedom. Chances below the
/// smallest double are 0.
///
/// @param[in]  chi_squared        sum of squared residuals over their variances; range:
///                                SPOTWISE_PARAM_CHI_SQUARED.
/// @param[in]  degrees_of_freedom readings used less parameters fitted; range:
///                                SPOTWISE_PARAM_DEGREES_OF_FREEDOM.
/// @param[out] chance             the chance; not NULL. On any status other than SPOTWISE_OK it is
///                                set to a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 12 ulp (units in the last place) of the exact result, times 1 + |d ln(chance)/d
///           ln(chi squared)|.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 15.507 with 8 degrees of freedom: 0.05.
/// Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5, from
///         memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_chi_squared_chance(
    chi_squared: f64,
    degrees_of_freedom: u32,
    chance: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(chance, error, || Ok(chi_squared_chance(chi_squared, f64::from(degrees_of_freedom))?)) }
}
