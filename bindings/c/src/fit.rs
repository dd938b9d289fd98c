//! Spot and threshold from the caller's own test marks.

use crate::abi::{Fault, Plain, error_pointer_fault, init, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, blank_flags, flags_mut, length_fault, numbers};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::model::mark::{TestMarks, ThresholdFit, fit_threshold};

/// Spot and threshold that fit a set of test marks: the result of spotwise_fit_threshold().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_threshold_fit {
    /// Size of this struct; spotwise_threshold_fit_init() sets it.
    pub struct_size: u32,
    /// How many marks were used.
    pub marks_used: u32,
    /// Spot diameter on the surface in metres, 1/e^2.
    pub spot_diameter_m: f64,
    /// Its standard deviation in metres.
    pub spot_diameter_deviation_m: f64,
    /// Threshold, in the unit of the doses.
    pub threshold: f64,
    /// Its standard deviation over itself.
    pub relative_threshold_deviation: f64,
    /// Correlation of the spot diameter and the logarithm of the threshold.
    pub correlation: f64,
    /// Sum of squared residuals over their deviations, over the marks used less two: about 1 where
    /// the marks scatter as their deviations say.
    pub reduced_chi_squared: f64,
    /// Slope of squared width against the logarithm of dose, over its deviation; at least 3.
    pub significance: f64,
}
plain!(
    spotwise_threshold_fit, 64 bytes,
    words: [marks_used],
    numbers: [
        spot_diameter_m,
        spot_diameter_deviation_m,
        threshold,
        relative_threshold_deviation,
        correlation,
        reduced_chi_squared,
        significance,
    ]
);

impl From<ThresholdFit> for spotwise_threshold_fit {
    fn from(result: ThresholdFit) -> Self {
        Self {
            marks_used: result.marks_used,
            spot_diameter_m: result.spot_diameter,
            spot_diameter_deviation_m: result.spot_diameter_deviation,
            threshold: result.threshold,
            relative_threshold_deviation: result.relative_threshold_deviation,
            correlation: result.correlation,
            reduced_chi_squared: result.reduced_chi_squared,
            significance: result.significance,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_threshold_fit_init(fit: *mut spotwise_threshold_fit) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(fit) }
}

/// Spot diameter and threshold from the widths of test marks of several doses.
///
/// Squared width b^2 = (d^2/2) ln(E/E0) against the logarithm of E, a weighted straight line. It
/// holds for dots against pulse energy and for lines against power at one speed alike, in focus and
/// out of it. Where the marks scatter more than their deviations say, the deviations of the results
/// are enlarged to match.
///
/// Outliers: the mark whose leaving out lowers the squared residuals most is left out if they fall
/// by more than outlier_limit^2 times their new mean (or 1), while at least four marks remain, up
/// to a quarter of them.
///
/// Errors of the doses, and marks that heat or melt have widened, are not modelled.
///
/// @param[in]  dose          marks pulse energies, powers or doses, in any one unit; not NULL
///                           unless marks is 0; range: SPOTWISE_PARAM_DOSE.
/// @param[in]  width_m       marks widths (diameters) of the marks in metres; not NULL unless marks
///                           is 0; range: SPOTWISE_PARAM_MARK_WIDTH.
/// @param[in]  deviation_m   marks standard deviations of the widths in metres; not NULL unless
///                           marks is 0; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  marks         length of each array, at least 3.
/// @param[in]  outlier_limit standard deviations beyond which a mark is left out, 3 is usual,
///                           INFINITY keeps all; range: SPOTWISE_PARAM_OUTLIER_LIMIT.
/// @param[out] used          marks numbers, 1 for a mark that was used, else 0; not NULL unless
///                           marks is 0, and apart from the other arrays. On any status other than
///                           SPOTWISE_OK all of it is set to 0, but for a length that no array can
///                           have: then nothing is written to it.
/// @param[out] fit           result; set with spotwise_threshold_fit_init(); not NULL. On any
///                           status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                           codes and flags to 0.
/// @param[out] error         what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE (all doses, all widths, all deviations, the limit),
///         SPOTWISE_E_UNDETERMINED (fewer than three marks as SPOTWISE_PARAM_MARKS_USED; a slope of
///         less than 3 times its deviation as SPOTWISE_PARAM_SIGNIFICANCE: the marks do not grow
///         with the dose, or not clearly; a threshold less than its deviation as
///         SPOTWISE_PARAM_CERTAINTY), SPOTWISE_E_OUTSIDE_MODEL (doses on average beyond the range of
///         SPOTWISE_PARAM_ANY_DOSE_RATIO thresholds, or a spot beyond that of
///         SPOTWISE_PARAM_SPOT_DIAMETER: the marks follow another law).
///
/// Accuracy: 1e-12 for marks whose doses span a factor of two.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: dots of 27.02, 44.47, 56.79 and 66.88 um from 30, 60, 120 and 240 uJ: spot 60 um,
///          threshold 20 uJ.
/// Source: J. M. Liu, Optics Letters 7, 196 (1982), from memory; the straight line: any textbook of
///         weighted least squares.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fit_threshold(
    dose: *const f64,
    width_m: *const f64,
    deviation_m: *const f64,
    marks: usize,
    outlier_limit: f64,
    used: *mut u8,
    fit: *mut spotwise_threshold_fit,
    error: *mut spotwise_error,
) -> spotwise_status {
    let arrays = Arrays { dose, width_m, deviation_m, marks, used };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(fit).or(error_pointer_fault(error));
        report(fit, error, || Ok(fitted(&arrays, outlier_limit, last_fault)?.into()))
    }
}

/// The arrays of one call.
struct Arrays {
    dose: *const f64,
    width_m: *const f64,
    deviation_m: *const f64,
    marks: usize,
    used: *mut u8,
}

/// Fits, and marks what was used: nothing on a fault.
///
/// # Safety
/// Pointers are NULL or valid for their items.
unsafe fn fitted(
    arrays: &Arrays,
    outlier_limit: f64,
    last_fault: Option<Fault>,
) -> Result<ThresholdFit, Fault> {
    let count = arrays.marks;
    let inputs = [arrays.dose, arrays.width_m, arrays.deviation_m].map(|start| Extent::of(start, count));
    let pointers = array_fault(&inputs, &[Extent::of(arrays.used, count)]).or(last_fault);
    // No array is so long, so there is none to make blank.
    if let Some(fault) = length_fault(Param::Output, count) {
        return Err(pointers.unwrap_or(fault));
    }
    // SAFETY: NULL or writable for its items, as the caller vouches.
    unsafe { blank_flags(arrays.used, count) };
    if let Some(fault) = pointers {
        return Err(fault);
    }
    // SAFETY: not NULL unless empty, valid for their items as the caller vouches, apart, blank.
    let (marks, used) = unsafe {
        let [doses, widths, deviations] =
            [arrays.dose, arrays.width_m, arrays.deviation_m].map(|start| numbers(start, count));
        (TestMarks { doses, widths, deviations }, flags_mut(arrays.used, count))
    };
    Ok(fit_threshold(&marks, outlier_limit, used)?)
}
