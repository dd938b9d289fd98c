//! Focus, spot and dose from the caller's own marks at stepped heights.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::error::spotwise_error;
use crate::fit_arrays::FitArrays;
use crate::status::spotwise_status;
use crate::text::{sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::Error;
use spotwise::model::learn::{
    Estimate, FurtherMarks, MarkFit, MarkFitCautions, MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter,
    fit_mark_widths,
};
use spotwise::model::mark::MarkKind;

/// What stated deviations of widths are worth: they are taken at their word.
pub const SPOTWISE_WIDTH_SCATTER_STATED: u32 = 1;
/// What stated deviations of widths are worth: only their ratios are; how far the marks scatter, the fit
/// finds.
pub const SPOTWISE_WIDTH_SCATTER_FOUND: u32 = 2;

/// Caution of a fit: marks were left out as outliers.
pub const SPOTWISE_MARK_FIT_OUTLIERS: u32 = 1;
/// Caution of a fit: the marks scatter more than is stated; a chi squared so great is met in less than
/// 1 % of cases.
pub const SPOTWISE_MARK_FIT_SCATTER: u32 = 2;
/// Caution of a fit: M squared lies below 1 by more than its range. Wavelength, scale or kind of the
/// marks are wrong, or they heat and melt.
pub const SPOTWISE_MARK_FIT_M2_BELOW_ONE: u32 = 4;
/// Caution of a fit: spot and dose are hard to tell apart. The values of the sizes are rough; read their
/// ranges, which may be open.
pub const SPOTWISE_MARK_FIT_WEAK_SIZE: u32 = 8;
/// Caution of a fit: the deviation of the height of the waist exceeds 0.15 Rayleigh ranges.
pub const SPOTWISE_MARK_FIT_WEAK_PLACE: u32 = 16;
/// Caution of a fit: another waist, farther off than two deviations, fits about as well.
pub const SPOTWISE_MARK_FIT_SECOND_SOLUTION: u32 = 32;
/// Caution of a fit: fewer than two heights lie beyond the waist on one of its sides.
pub const SPOTWISE_MARK_FIT_ONE_SIDED: u32 = 64;

/// Further marks that would help: at heights nearer to the lens.
pub const SPOTWISE_FURTHER_MARKS_TOWARD_LENS: u32 = 1;
/// Further marks that would help: at heights farther from the lens.
pub const SPOTWISE_FURTHER_MARKS_AWAY_FROM_LENS: u32 = 2;
/// Further marks that would help: at the same heights with twice the power.
pub const SPOTWISE_FURTHER_MARKS_TWICE_THE_POWER: u32 = 4;
/// Further marks that would help: with less power, or out to where the marks vanish.
pub const SPOTWISE_FURTHER_MARKS_UNTIL_THEY_VANISH: u32 = 8;
/// Further marks that would help: those that were left out, once more.
pub const SPOTWISE_FURTHER_MARKS_REPEATS: u32 = 16;

const _: () = {
    assert!(SPOTWISE_WIDTH_SCATTER_STATED == WidthScatter::Stated as u32);
    assert!(SPOTWISE_WIDTH_SCATTER_FOUND == WidthScatter::Found as u32);
    assert!(WidthScatter::ALL.len() == 2);
    assert!(SPOTWISE_MARK_FIT_OUTLIERS == MarkFitCautions::OUTLIERS.bits());
    assert!(SPOTWISE_MARK_FIT_SCATTER == MarkFitCautions::SCATTER.bits());
    assert!(SPOTWISE_MARK_FIT_M2_BELOW_ONE == MarkFitCautions::M2_BELOW_ONE.bits());
    assert!(SPOTWISE_MARK_FIT_WEAK_SIZE == MarkFitCautions::WEAK_SIZE.bits());
    assert!(SPOTWISE_MARK_FIT_WEAK_PLACE == MarkFitCautions::WEAK_PLACE.bits());
    assert!(SPOTWISE_MARK_FIT_SECOND_SOLUTION == MarkFitCautions::SECOND_SOLUTION.bits());
    assert!(SPOTWISE_MARK_FIT_ONE_SIDED == MarkFitCautions::ONE_SIDED.bits());
    assert!(MarkFitCautions::ALL.len() == 7);
    assert!(SPOTWISE_FURTHER_MARKS_TOWARD_LENS == FurtherMarks::TOWARD_LENS.bits());
    assert!(SPOTWISE_FURTHER_MARKS_AWAY_FROM_LENS == FurtherMarks::AWAY_FROM_LENS.bits());
    assert!(SPOTWISE_FURTHER_MARKS_TWICE_THE_POWER == FurtherMarks::TWICE_THE_POWER.bits());
    assert!(SPOTWISE_FURTHER_MARKS_UNTIL_THEY_VANISH == FurtherMarks::UNTIL_THEY_VANISH.bits());
    assert!(SPOTWISE_FURTHER_MARKS_REPEATS == FurtherMarks::REPEATS.bits());
    assert!(FurtherMarks::ALL.len() == 5);
};

/// What is known of a series of marks, and how a fit is to judge them: an input of
/// spotwise_fit_mark_widths().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_series {
    /// Size of this struct; spotwise_mark_series_init() sets it.
    pub struct_size: u32,
    /// What makes the marks, one of SPOTWISE_MARK_*.
    pub mark_kind: u32,
    /// What the stated deviations are worth, one of SPOTWISE_WIDTH_SCATTER_*.
    pub scatter: u32,
    /// Not read; keeps the numbers aligned.
    pub reserved: u32,
    /// Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
    pub wavelength_m: f64,
    /// M squared, not read if its deviation is INFINITY; range: SPOTWISE_PARAM_M2. A rough one helps much.
    pub m2: f64,
    /// Its deviation over itself, INFINITY where it is not known; range: SPOTWISE_PARAM_PRIOR_DEVIATION.
    pub relative_m2_deviation: f64,
    /// Waist diameter in metres, 1/e^2, not read if its deviation is INFINITY; range:
    /// SPOTWISE_PARAM_WAIST_DIAMETER.
    pub waist_diameter_m: f64,
    /// Its deviation over itself, INFINITY where it is not known; range: SPOTWISE_PARAM_PRIOR_DEVIATION.
    pub relative_waist_diameter_deviation: f64,
    /// Deviations beyond which a mark is left out, 3 is usual, INFINITY keeps all; range:
    /// SPOTWISE_PARAM_OUTLIER_LIMIT.
    pub outlier_limit: f64,
    /// Share of cases in which each range is to hold the truth, such as 0.95; range:
    /// SPOTWISE_PARAM_CONFIDENCE.
    pub confidence: f64,
}
plain!(
    spotwise_mark_series, 72 bytes,
    words: [mark_kind, scatter, reserved],
    numbers: [
        wavelength_m,
        m2,
        relative_m2_deviation,
        waist_diameter_m,
        relative_waist_diameter_deviation,
        outlier_limit,
        confidence,
    ]
);

/// Sets struct_size, the codes to 0, which are none, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_series_init(series: *mut spotwise_mark_series) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(series) }
}

/// What a series of marks tells: the result of spotwise_fit_mark_widths(). Of each value its standard
/// deviation, and the ends of the range that holds it with the confidence asked for. A fit by least squares
/// is off on the average where its law is curved: each value is the plain least-squares number less that
/// bias, of the height itself and of the logarithms of all else, at most one deviation; what marks that
/// vanished pull, always to one side, is a part of it, and no part of the certainty. Value and bias
/// together are what any other program gives, and what residuals and chi_squared belong to. Where spot and dose
/// are hard to tell apart, a range goes as far as the marks allow, and may be open: to 0 for the waist diameter
/// and M squared, to 1 for the dose ratio, or to the greatest that the model knows.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_fit {
    /// Size of this struct; spotwise_mark_fit_init() sets it.
    pub struct_size: u32,
    /// How many marks were used that were seen.
    pub marks_used: u32,
    /// How many marks were used that vanished.
    pub vanished_used: u32,
    /// Marks seen and used, and what was known before, less four.
    pub degrees_of_freedom: u32,
    /// What to beware of, SPOTWISE_MARK_FIT_* bits.
    pub cautions: u32,
    /// Which further marks would make the answer better, SPOTWISE_FURTHER_MARKS_* bits.
    pub further: u32,
    /// Height of the waist in metres, from the datum of the heights, + away from the lens.
    pub waist_z_m: f64,
    /// Its deviation.
    pub waist_z_deviation_m: f64,
    /// Least of its range.
    pub waist_z_least_m: f64,
    /// Greatest of its range.
    pub waist_z_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub waist_z_bias_m: f64,
    /// Waist diameter in metres, 1/e^2.
    pub waist_diameter_m: f64,
    /// Its deviation.
    pub waist_diameter_deviation_m: f64,
    /// Least of its range.
    pub waist_diameter_least_m: f64,
    /// Greatest of its range.
    pub waist_diameter_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub waist_diameter_bias_m: f64,
    /// Rayleigh range in metres.
    pub rayleigh_range_m: f64,
    /// Its deviation.
    pub rayleigh_range_deviation_m: f64,
    /// Least of its range.
    pub rayleigh_range_least_m: f64,
    /// Greatest of its range.
    pub rayleigh_range_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub rayleigh_range_bias_m: f64,
    /// Dose over threshold in the waist, at the power of reference.
    pub dose_ratio: f64,
    /// Its deviation.
    pub dose_ratio_deviation: f64,
    /// Least of its range.
    pub dose_ratio_least: f64,
    /// Greatest of its range.
    pub dose_ratio_greatest: f64,
    /// What was taken off the plain least-squares number.
    pub dose_ratio_bias: f64,
    /// M squared.
    pub m2: f64,
    /// Its deviation.
    pub m2_deviation: f64,
    /// Least of its range.
    pub m2_least: f64,
    /// Greatest of its range.
    pub m2_greatest: f64,
    /// What was taken off the plain least-squares number.
    pub m2_bias: f64,
    /// Correlation of the height of the waist and the logarithm of its diameter.
    pub correlation_z_diameter: f64,
    /// Correlation of the height of the waist and the logarithm of the Rayleigh range.
    pub correlation_z_range: f64,
    /// Correlation of the height of the waist and the logarithm of the dose ratio.
    pub correlation_z_dose: f64,
    /// Correlation of the logarithms of waist diameter and Rayleigh range.
    pub correlation_diameter_range: f64,
    /// Correlation of the logarithms of waist diameter and dose ratio.
    pub correlation_diameter_dose: f64,
    /// Correlation of the logarithms of Rayleigh range and dose ratio.
    pub correlation_range_dose: f64,
    /// Half width of a range over the deviation.
    pub range_factor: f64,
    /// Sum of squared residuals over their variances.
    pub chi_squared: f64,
    /// Chance of a chi squared so great or greater, if the stated deviations hold.
    pub chance: f64,
    /// By how many deviations the widths change with height; at least 4.
    pub shape_significance: f64,
}
plain!(
    spotwise_mark_fit, 304 bytes,
    words: [marks_used, vanished_used, degrees_of_freedom, cautions, further],
    numbers: [
        waist_z_m,
        waist_z_deviation_m,
        waist_z_least_m,
        waist_z_greatest_m,
        waist_z_bias_m,
        waist_diameter_m,
        waist_diameter_deviation_m,
        waist_diameter_least_m,
        waist_diameter_greatest_m,
        waist_diameter_bias_m,
        rayleigh_range_m,
        rayleigh_range_deviation_m,
        rayleigh_range_least_m,
        rayleigh_range_greatest_m,
        rayleigh_range_bias_m,
        dose_ratio,
        dose_ratio_deviation,
        dose_ratio_least,
        dose_ratio_greatest,
        dose_ratio_bias,
        m2,
        m2_deviation,
        m2_least,
        m2_greatest,
        m2_bias,
        correlation_z_diameter,
        correlation_z_range,
        correlation_z_dose,
        correlation_diameter_range,
        correlation_diameter_dose,
        correlation_range_dose,
        range_factor,
        chi_squared,
        chance,
        shape_significance,
    ]
);

impl From<MarkFit> for spotwise_mark_fit {
    fn from(fit: MarkFit) -> Self {
        let Estimate { value: waist_z_m, deviation: waist_z_deviation_m, .. } = fit.waist_z;
        let Estimate { value: waist_diameter_m, deviation: waist_diameter_deviation_m, .. } =
            fit.waist_diameter;
        let Estimate { value: rayleigh_range_m, deviation: rayleigh_range_deviation_m, .. } =
            fit.rayleigh_range;
        let [z_diameter, z_range, z_dose, diameter_range, diameter_dose, range_dose] = fit.correlations;
        Self {
            marks_used: fit.marks_used,
            vanished_used: fit.vanished_used,
            degrees_of_freedom: fit.degrees_of_freedom,
            cautions: fit.cautions.bits(),
            further: fit.further.bits(),
            waist_z_m,
            waist_z_deviation_m,
            waist_z_least_m: fit.waist_z.least,
            waist_z_greatest_m: fit.waist_z.greatest,
            waist_z_bias_m: fit.waist_z.bias,
            waist_diameter_m,
            waist_diameter_deviation_m,
            waist_diameter_least_m: fit.waist_diameter.least,
            waist_diameter_greatest_m: fit.waist_diameter.greatest,
            waist_diameter_bias_m: fit.waist_diameter.bias,
            rayleigh_range_m,
            rayleigh_range_deviation_m,
            rayleigh_range_least_m: fit.rayleigh_range.least,
            rayleigh_range_greatest_m: fit.rayleigh_range.greatest,
            rayleigh_range_bias_m: fit.rayleigh_range.bias,
            dose_ratio: fit.dose_ratio.value,
            dose_ratio_deviation: fit.dose_ratio.deviation,
            dose_ratio_least: fit.dose_ratio.least,
            dose_ratio_greatest: fit.dose_ratio.greatest,
            dose_ratio_bias: fit.dose_ratio.bias,
            m2: fit.m2.value,
            m2_deviation: fit.m2.deviation,
            m2_least: fit.m2.least,
            m2_greatest: fit.m2.greatest,
            m2_bias: fit.m2.bias,
            correlation_z_diameter: z_diameter,
            correlation_z_range: z_range,
            correlation_z_dose: z_dose,
            correlation_diameter_range: diameter_range,
            correlation_diameter_dose: diameter_dose,
            correlation_range_dose: range_dose,
            range_factor: fit.range_factor,
            chi_squared: fit.chi_squared,
            chance: fit.chance,
            shape_significance: fit.shape_significance,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_fit_init(fit: *mut spotwise_mark_fit) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(fit) }
}

/// Focus, spot, Rayleigh range and dose from the widths of marks at stepped heights.
///
/// A mark is sqrt(2 L) of the spot's 1/e^2 radius wide, where L is the logarithm of dose over threshold
/// at its height: it is no width of the beam. Where L is not positive the mark vanishes, and that tells
/// something too. Waist height, diameter, Rayleigh range and dose ratio are found by weighted least
/// squares from several starts, with M squared or the waist diameter as further data where known.
///
/// Outliers: the mark without which chi squared would fall most is left out if it falls by more than
/// outlier_limit^2 times its new mean (or 1), and all is fitted again; and again, up to a quarter of the
/// marks.
///
/// Errors of the heights, astigmatism, aberration, and marks that heat has widened are not modelled.
///
/// @param[in]  height_m    marks heights of the surface in metres from any one datum, + away from the
///                         lens; not NULL unless marks is 0; range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[in]  width_m     marks widths (diameters) in metres, exactly 0 for a mark that vanished; not
///                         NULL unless marks is 0; range: SPOTWISE_PARAM_MARK_WIDTH.
/// @param[in]  deviation_m marks standard deviations of the widths in metres, of a mark that vanished
///                         the width that might have been overlooked; not NULL unless marks is 0; range:
///                         SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  power_ratio marks powers over the power of reference, 1 in a series at one power; not
///                         NULL unless marks is 0; range: SPOTWISE_PARAM_POWER_RATIO.
/// @param[in]  marks       length of each array, at least 5, less 1 for each of M squared and waist
///                         diameter that is known.
/// @param[in]  series      what is known, and how to judge; set with spotwise_mark_series_init(); not
///                         NULL.
/// @param[out] residual    marks numbers, by how many deviations each mark is wider than the fit; not
///                         NULL unless marks is 0, and apart from the other arrays. On any status other
///                         than SPOTWISE_OK all of it is set to a quiet NaN.
/// @param[out] used        marks numbers, 1 for a mark that was used, else 0; likewise. On any status
///                         other than SPOTWISE_OK all of it is set to 0. Of a length that no array can
///                         have nothing is written to either.
/// @param[out] fit         result; set with spotwise_mark_fit_init(); not NULL. On any status other
///                         than SPOTWISE_OK its numbers are set to a quiet NaN, its codes and flags to 0.
/// @param[out] error       what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (all heights, all widths, all deviations, all
///         powers, then the series), SPOTWISE_E_UNDETERMINED (too few marks seen as
///         SPOTWISE_PARAM_MARKS_USED; fewer than three heights as SPOTWISE_PARAM_DISTINCT_HEIGHTS;
///         widths that do not clearly change with height as SPOTWISE_PARAM_SHAPE_SIGNIFICANCE: mark with
///         less power, or out to where marks vanish; a waist outside the heights as
///         SPOTWISE_PARAM_WAIST_WITHIN_HEIGHTS: add marks beyond that end; a height of the waist that is
///         too uncertain as SPOTWISE_PARAM_WAIST_Z_CERTAINTY; a spot that cannot be told from the dose
///         as SPOTWISE_PARAM_SIZE_CERTAINTY: mark again at twice the power, or give M squared),
///         SPOTWISE_E_OUTSIDE_MODEL (waist, Rayleigh range or dose ratio that are none of the model's).
///
/// Accuracy: 1e-9 of each deviation for the values, 1e-6 for the deviations.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: the law of spotwise_mark_width(); weighted least squares in any textbook.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fit_mark_widths(
    height_m: *const f64,
    width_m: *const f64,
    deviation_m: *const f64,
    power_ratio: *const f64,
    marks: usize,
    series: *const spotwise_mark_series,
    residual: *mut f64,
    used: *mut u8,
    fit: *mut spotwise_mark_fit,
    error: *mut spotwise_error,
) -> spotwise_status {
    let arrays = FitArrays {
        inputs: [height_m, width_m, deviation_m, power_ratio],
        count: marks,
        residuals: residual,
        used,
    };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(fit).or(error_pointer_fault(error));
        report(fit, error, || Ok(fitted(&arrays, series, last_fault)?.into()))
    }
}

/// One sentence for a caution of a fit; "unknown" unless exactly one is given.
///
/// @param[in] caution one bit, one of SPOTWISE_MARK_FIT_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_mark_fit_caution_text(caution: u32) -> *const c_char {
    const SENTENCES: [&str; MarkFitCautions::ALL.len()] = sentences!(MarkFitCautions);
    texts!(CAUTIONS, SENTENCES);
    text_of_bit(&CAUTIONS, caution)
}

/// One sentence for further marks that would help; "unknown" unless exactly one kind is given.
///
/// @param[in] further one bit, one of SPOTWISE_FURTHER_MARKS_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_further_marks_text(further: u32) -> *const c_char {
    const SENTENCES: [&str; FurtherMarks::ALL.len()] = sentences!(FurtherMarks);
    texts!(FURTHER, SENTENCES);
    text_of_bit(&FURTHER, further)
}

impl TryFrom<spotwise_mark_series> for (SeriesKnown, MarkFitOptions) {
    type Error = Error;

    fn try_from(given: spotwise_mark_series) -> Result<Self, Error> {
        let kind = MarkKind::from_code(given.mark_kind)?;
        let scatter = WidthScatter::from_code(given.scatter)?;
        let known = SeriesKnown {
            kind,
            wavelength: given.wavelength_m,
            m2: given.m2,
            relative_m2_deviation: given.relative_m2_deviation,
            waist_diameter: given.waist_diameter_m,
            relative_waist_diameter_deviation: given.relative_waist_diameter_deviation,
        };
        let options =
            MarkFitOptions { outlier_limit: given.outlier_limit, confidence: given.confidence, scatter };
        Ok((known, options))
    }
}

/// Fits, and fills the arrays: nothing on a fault.
///
/// # Safety
/// Pointers are NULL or valid for their items.
unsafe fn fitted(
    arrays: &FitArrays<4>,
    series: *const spotwise_mark_series,
    last_fault: Option<Fault>,
) -> Result<MarkFit, Fault> {
    // SAFETY: NULL or readable, as the caller vouches.
    let series = unsafe { input(series) };
    let series_fault = series.as_ref().err().copied();
    // SAFETY: NULL or writable for their items, as the caller vouches.
    unsafe { arrays.prepare(series_fault.or(last_fault)) }?;
    let (known, options) = series?.try_into()?;
    // SAFETY: prepared, and valid for their items as the caller vouches.
    let ([heights, widths, deviations, power_ratios], residuals, used) = unsafe { arrays.open() };
    let marks = SeriesMarks { heights, widths, deviations, power_ratios };
    Ok(fit_mark_widths(&marks, &known, &options, residuals, used)?)
}
