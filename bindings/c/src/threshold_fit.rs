//! Spot and threshold from the caller's own test marks.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::error::spotwise_error;
use crate::fit_arrays::FitArrays;
use crate::status::spotwise_status;
use crate::text::{sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::Error;
use spotwise::model::learn::{
    ReadingWeights, TestMarks, ThresholdFit, ThresholdFitOptions, ThresholdWarnings, fit_threshold,
};

/// Fewer than three different doses, or than four marks: nothing tells whether squared widths follow
/// a line.
pub const SPOTWISE_THRESHOLD_WARNING_UNTRIED: u32 = 1;
/// The squares stray from a line, with a chance below 1 %: heat, or another law.
pub const SPOTWISE_THRESHOLD_WARNING_NO_LINE: u32 = 2;
/// The least dose lies farther above the threshold than below the greatest, by their ratios.
pub const SPOTWISE_THRESHOLD_WARNING_FAR_ABOVE: u32 = 4;
/// The marks scatter more than their deviations say.
pub const SPOTWISE_THRESHOLD_WARNING_SCATTER: u32 = 8;
/// The marks scatter less than their deviations say.
pub const SPOTWISE_THRESHOLD_WARNING_LITTLE_SCATTER: u32 = 16;
/// At least one mark was left out as an outlier.
pub const SPOTWISE_THRESHOLD_WARNING_OUTLIERS: u32 = 32;

const _: () = {
    assert!(SPOTWISE_THRESHOLD_WARNING_UNTRIED == ThresholdWarnings::UNTRIED.bits());
    assert!(SPOTWISE_THRESHOLD_WARNING_NO_LINE == ThresholdWarnings::NO_LINE.bits());
    assert!(SPOTWISE_THRESHOLD_WARNING_FAR_ABOVE == ThresholdWarnings::FAR_ABOVE.bits());
    assert!(SPOTWISE_THRESHOLD_WARNING_SCATTER == ThresholdWarnings::SCATTER.bits());
    assert!(SPOTWISE_THRESHOLD_WARNING_LITTLE_SCATTER == ThresholdWarnings::LITTLE_SCATTER.bits());
    assert!(SPOTWISE_THRESHOLD_WARNING_OUTLIERS == ThresholdWarnings::OUTLIERS.bits());
};

/// How spotwise_fit_threshold() fits.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_threshold_fit_options {
    /// Size of this struct; spotwise_threshold_fit_options_init() sets it.
    pub struct_size: u32,
    /// How a mark weighs: SPOTWISE_READING_WEIGHTS_*; refined is what to use.
    pub weights: u32,
    /// Standard deviations beyond which a mark is left out, 3 is usual, INFINITY keeps all; range:
    /// SPOTWISE_PARAM_OUTLIER_LIMIT.
    pub outlier_limit: f64,
    /// Share of cases in which a range is to hold the truth, 0.95 is usual; range:
    /// SPOTWISE_PARAM_CONFIDENCE.
    pub confidence: f64,
}
plain!(
    spotwise_threshold_fit_options, 24 bytes,
    words: [weights],
    numbers: [outlier_limit, confidence]
);

impl TryFrom<spotwise_threshold_fit_options> for ThresholdFitOptions {
    type Error = Error;

    fn try_from(options: spotwise_threshold_fit_options) -> Result<Self, Error> {
        Ok(Self {
            weights: ReadingWeights::from_code(options.weights)?,
            outlier_limit: options.outlier_limit,
            confidence: options.confidence,
        })
    }
}

/// Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_threshold_fit_options_init(options: *mut spotwise_threshold_fit_options) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(options) }
}

/// Spot and threshold that fit a set of test marks: the result of spotwise_fit_threshold().
///
/// With refined weights a value is the plain least-squares number less its bias, the range of the
/// spot is even about it and that of the threshold about its logarithm; with measured ones the bias
/// is 0. Value and bias together are what any other program gives, and what residuals and chi_squared
/// belong to.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_threshold_fit {
    /// Size of this struct; spotwise_threshold_fit_init() sets it.
    pub struct_size: u32,
    /// How many marks were used.
    pub marks_used: u32,
    /// Marks used less two.
    pub degrees_of_freedom: u32,
    /// What to be wary of: SPOTWISE_THRESHOLD_WARNING_* bits.
    pub warnings: u32,
    /// Spot diameter on the surface in metres, 1/e^2.
    pub spot_diameter_m: f64,
    /// Its standard deviation.
    pub spot_diameter_deviation_m: f64,
    /// Least of its range, for the confidence asked for.
    pub spot_diameter_least_m: f64,
    /// Greatest of its range.
    pub spot_diameter_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub spot_diameter_bias_m: f64,
    /// Threshold, in the unit of the doses.
    pub threshold: f64,
    /// Its standard deviation; over the threshold, that of its logarithm.
    pub threshold_deviation: f64,
    /// Least of its range, for the confidence asked for.
    pub threshold_least: f64,
    /// Greatest of its range.
    pub threshold_greatest: f64,
    /// What was taken off the plain least-squares number.
    pub threshold_bias: f64,
    /// Correlation of the spot diameter and the logarithm of the threshold.
    pub correlation: f64,
    /// Slope of squared width against the logarithm of dose, over its deviation; at least 3.
    pub significance: f64,
    /// Squared residuals of the squared widths by their weights.
    pub chi_squared: f64,
    /// Chance of a chi_squared as great or greater.
    pub chi_squared_chance: f64,
    /// Chance of a curvature as great or greater, either way, if the squares do follow a line; 1 with
    /// fewer than four marks or three different doses, which cannot tell.
    pub curvature_chance: f64,
}
plain!(
    spotwise_threshold_fit, 136 bytes,
    words: [marks_used, degrees_of_freedom, warnings],
    numbers: [
        spot_diameter_m,
        spot_diameter_deviation_m,
        spot_diameter_least_m,
        spot_diameter_greatest_m,
        spot_diameter_bias_m,
        threshold,
        threshold_deviation,
        threshold_least,
        threshold_greatest,
        threshold_bias,
        correlation,
        significance,
        chi_squared,
        chi_squared_chance,
        curvature_chance,
    ]
);

impl From<ThresholdFit> for spotwise_threshold_fit {
    fn from(result: ThresholdFit) -> Self {
        Self {
            marks_used: result.marks_used,
            degrees_of_freedom: result.degrees_of_freedom,
            warnings: result.warnings.bits(),
            spot_diameter_m: result.spot_diameter.value,
            spot_diameter_deviation_m: result.spot_diameter.deviation,
            spot_diameter_least_m: result.spot_diameter.least,
            spot_diameter_greatest_m: result.spot_diameter.greatest,
            spot_diameter_bias_m: result.spot_diameter.bias,
            threshold: result.threshold.value,
            threshold_deviation: result.threshold.deviation,
            threshold_least: result.threshold.least,
            threshold_greatest: result.threshold.greatest,
            threshold_bias: result.threshold.bias,
            correlation: result.correlation,
            significance: result.significance,
            chi_squared: result.chi_squared,
            chi_squared_chance: result.chi_squared_chance,
            curvature_chance: result.curvature_chance,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_threshold_fit_init(fit: *mut spotwise_threshold_fit) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(fit) }
}

/// Spot diameter and threshold from the widths of test marks of several doses, with deviations,
/// ranges and warnings.
///
/// Squared width b^2 = (d^2/2) ln(E/E0) against the logarithm of E, a weighted straight line. It
/// holds for dots against pulse energy and for lines against power at one speed alike, in focus and
/// out of it. Where the marks scatter more than their deviations say, the deviations of the results
/// are enlarged to match, and ranges are Student's.
///
/// Outliers: the mark whose leaving out lowers chi squared most is left out if it falls by more than
/// outlier_limit^2 times its new mean (or 1), while at least four marks remain, up to a quarter of
/// them.
///
/// Errors of the doses, and marks that heat or melt have widened, are not modelled.
///
/// @param[in]  dose         marks pulse energies, powers or doses, in any one unit; not NULL unless
///                          marks is 0; range: SPOTWISE_PARAM_DOSE.
/// @param[in]  width_m      marks widths (diameters) of the marks in metres; not NULL unless marks is
///                          0; range: SPOTWISE_PARAM_MARK_WIDTH.
/// @param[in]  deviation_m  marks standard deviations of the widths in metres; not NULL unless marks
///                          is 0; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  marks        length of each array, at least 3.
/// @param[in]  options      how to fit; set with spotwise_threshold_fit_options_init(); not NULL.
/// @param[out] residual_m   marks numbers, each width read less the width fitted, in metres, also of
///                          those left out, where a mark below the threshold found is fitted by 0; not
///                          NULL unless marks is 0, and apart from the other arrays. On any status
///                          other than SPOTWISE_OK all of it is set to a quiet NaN, but for a length
///                          that no array can have.
/// @param[out] used         marks numbers, 1 for a mark that was used, else 0; not NULL unless
///                          marks is 0, and apart from the other arrays. On any status other than
///                          SPOTWISE_OK all of it is set to 0, but for a length that no array can
///                          have: then nothing is written to it.
/// @param[out] fit          result; set with spotwise_threshold_fit_init(); not NULL. On any
///                          status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                          codes and flags to 0.
/// @param[out] error        what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (all doses, all widths, all deviations, the
///         options), SPOTWISE_E_UNDETERMINED (SPOTWISE_PARAM_MARKS_USED: fewer than three;
///         SPOTWISE_PARAM_SIGNIFICANCE: a slope of less than 3 times its deviation, the marks do not
///         grow with the dose, or not clearly; SPOTWISE_PARAM_CERTAINTY: a threshold less than its
///         deviation, mark with lower doses; SPOTWISE_PARAM_STEADY_WEIGHTS: the deviations are as large
///         as the widths), SPOTWISE_E_OUTSIDE_MODEL (doses on average beyond the range of
///         SPOTWISE_PARAM_ANY_DOSE_RATIO thresholds, or a spot beyond that of
///         SPOTWISE_PARAM_SPOT_DIAMETER: the marks follow another law).
///
/// Accuracy: 1e-12 for marks whose doses span a factor of two; statistics 1e-11.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: dots of 27.02, 44.47, 56.79 and 66.88 um from 30, 60, 120 and 240 uJ: spot 60 um,
///          threshold 20 uJ.
/// Source: J. M. Liu, Optics Letters 7, 196 (1982), from memory; the straight line: any textbook of
///         weighted least squares; the bias: its second derivatives.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fit_threshold(
    dose: *const f64,
    width_m: *const f64,
    deviation_m: *const f64,
    marks: usize,
    options: *const spotwise_threshold_fit_options,
    residual_m: *mut f64,
    used: *mut u8,
    fit: *mut spotwise_threshold_fit,
    error: *mut spotwise_error,
) -> spotwise_status {
    let arrays =
        FitArrays { inputs: [dose, width_m, deviation_m], count: marks, residuals: residual_m, used };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(fit).or(error_pointer_fault(error));
        report(fit, error, || Ok(fitted(&arrays, options, last_fault)?.into()))
    }
}

/// One sentence for a warning of a fit; "unknown" unless exactly one warning is given.
///
/// @param[in] warning one bit, one of SPOTWISE_THRESHOLD_WARNING_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_threshold_warning_text(warning: u32) -> *const c_char {
    const SENTENCES: [&str; ThresholdWarnings::ALL.len()] = sentences!(ThresholdWarnings);
    texts!(WARNINGS, SENTENCES);
    text_of_bit(&WARNINGS, warning)
}

/// Fits, and tells residuals and what was used: nothing on a fault.
///
/// # Safety
/// Pointers are NULL or valid, those to arrays for their items.
unsafe fn fitted(
    arrays: &FitArrays<3>,
    options: *const spotwise_threshold_fit_options,
    last_fault: Option<Fault>,
) -> Result<ThresholdFit, Fault> {
    // SAFETY: NULL or writable for their items, as the caller vouches.
    unsafe { arrays.prepare(last_fault) }?;
    // SAFETY: NULL or readable, as the caller vouches.
    let options = unsafe { input(options) }?.try_into()?;
    // SAFETY: prepared, and valid for their items as the caller vouches.
    let ([doses, widths, deviations], residuals, used) = unsafe { arrays.open() };
    let marks = TestMarks { doses, widths, deviations };
    Ok(fit_threshold(&marks, &options, residuals, used)?)
}
