//! The beam from its widths at several heights.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::error::spotwise_error;
use crate::fit_arrays::FitArrays;
use crate::status::spotwise_status;
use crate::text::{sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::Error;
use spotwise::model::learn::{BeamFit, BeamFitOptions, BeamReadings, BeamWarnings, ReadingWeights, fit_beam};

/// By the width as it was read: 1/(2 D sigma)^2.
pub const SPOTWISE_READING_WEIGHTS_MEASURED: u32 = 1;
/// By the fitted width, with sigma^2 taken from D^2.
pub const SPOTWISE_READING_WEIGHTS_REFINED: u32 = 2;

/// Fewer than ten different heights.
pub const SPOTWISE_BEAM_WARNING_FEW_HEIGHTS: u32 = 1;
/// Less than three tenths of the readings within one Rayleigh range of the waist.
pub const SPOTWISE_BEAM_WARNING_FEW_NEAR: u32 = 2;
/// Less than three tenths of the readings beyond two Rayleigh ranges.
pub const SPOTWISE_BEAM_WARNING_FEW_FAR: u32 = 4;
/// The waist lies outside the readings: focus is extrapolated.
pub const SPOTWISE_BEAM_WARNING_WAIST_OUTSIDE: u32 = 8;
/// Fewer than two readings on one side of the waist.
pub const SPOTWISE_BEAM_WARNING_ONE_SIDED: u32 = 16;
/// M^2 below 1.
pub const SPOTWISE_BEAM_WARNING_M2_BELOW_ONE: u32 = 32;
/// M^2 below 1 by more than its range: no beam has such widths at this wavelength.
pub const SPOTWISE_BEAM_WARNING_NO_BEAM: u32 = 64;
/// The readings stray from a hyperbola, with a chance below 1 %.
pub const SPOTWISE_BEAM_WARNING_NO_HYPERBOLA: u32 = 128;
/// The widths look like those of marks, or were reported as such.
pub const SPOTWISE_BEAM_WARNING_MARK_WIDTHS: u32 = 256;
/// The readings scatter more than their deviations say.
pub const SPOTWISE_BEAM_WARNING_SCATTER: u32 = 512;
/// The readings scatter less than their deviations say.
pub const SPOTWISE_BEAM_WARNING_LITTLE_SCATTER: u32 = 1024;
/// The half angle exceeds 0.15 rad.
pub const SPOTWISE_BEAM_WARNING_WIDE_CONE: u32 = 2048;

const _: () = {
    assert!(SPOTWISE_READING_WEIGHTS_MEASURED == ReadingWeights::Measured as u32);
    assert!(SPOTWISE_READING_WEIGHTS_REFINED == ReadingWeights::Refined as u32);
    assert!(SPOTWISE_BEAM_WARNING_FEW_HEIGHTS == BeamWarnings::FEW_HEIGHTS.bits());
    assert!(SPOTWISE_BEAM_WARNING_FEW_NEAR == BeamWarnings::FEW_NEAR.bits());
    assert!(SPOTWISE_BEAM_WARNING_FEW_FAR == BeamWarnings::FEW_FAR.bits());
    assert!(SPOTWISE_BEAM_WARNING_WAIST_OUTSIDE == BeamWarnings::WAIST_OUTSIDE.bits());
    assert!(SPOTWISE_BEAM_WARNING_ONE_SIDED == BeamWarnings::ONE_SIDED.bits());
    assert!(SPOTWISE_BEAM_WARNING_M2_BELOW_ONE == BeamWarnings::M2_BELOW_ONE.bits());
    assert!(SPOTWISE_BEAM_WARNING_NO_BEAM == BeamWarnings::NO_BEAM.bits());
    assert!(SPOTWISE_BEAM_WARNING_NO_HYPERBOLA == BeamWarnings::NO_HYPERBOLA.bits());
    assert!(SPOTWISE_BEAM_WARNING_MARK_WIDTHS == BeamWarnings::MARK_WIDTHS.bits());
    assert!(SPOTWISE_BEAM_WARNING_SCATTER == BeamWarnings::SCATTER.bits());
    assert!(SPOTWISE_BEAM_WARNING_LITTLE_SCATTER == BeamWarnings::LITTLE_SCATTER.bits());
    assert!(SPOTWISE_BEAM_WARNING_WIDE_CONE == BeamWarnings::WIDE_CONE.bits());
};

/// How spotwise_fit_beam() fits.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_beam_fit_options {
    /// Size of this struct; spotwise_beam_fit_options_init() sets it.
    pub struct_size: u32,
    /// How a reading weighs: SPOTWISE_READING_WEIGHTS_*; refined is what to use.
    pub weights: u32,
    /// Standard deviations beyond which a reading is left out, 3 is usual, INFINITY keeps all;
    /// range: SPOTWISE_PARAM_OUTLIER_LIMIT.
    pub outlier_limit: f64,
    /// Share of cases in which a range is to hold the truth, 0.95 is usual; range:
    /// SPOTWISE_PARAM_CONFIDENCE.
    pub confidence: f64,
    /// Dose over threshold, if the widths are those of marks and it is known; 0 if they are of the
    /// beam. It enters no number. Range: 0, or SPOTWISE_PARAM_ANY_DOSE_RATIO.
    pub mark_dose_ratio: f64,
}
plain!(
    spotwise_beam_fit_options, 32 bytes,
    words: [weights],
    numbers: [outlier_limit, confidence, mark_dose_ratio]
);

impl TryFrom<spotwise_beam_fit_options> for BeamFitOptions {
    type Error = Error;

    fn try_from(options: spotwise_beam_fit_options) -> Result<Self, Error> {
        Ok(Self {
            weights: ReadingWeights::from_code(options.weights)?,
            outlier_limit: options.outlier_limit,
            confidence: options.confidence,
            mark_dose_ratio: options.mark_dose_ratio,
        })
    }
}

/// Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_beam_fit_options_init(options: *mut spotwise_beam_fit_options) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(options) }
}

/// A beam that fits a set of readings: the result of spotwise_fit_beam(). A fit by least squares is off on
/// the average where its law is curved. With refined weights each value is the plain least-squares number
/// less that bias, at most one deviation, and the range is even about it; with measured ones the bias is 0.
/// Value and bias together are what any other program gives, and what residuals and chi_squared belong to.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_beam_fit {
    /// Size of this struct; spotwise_beam_fit_init() sets it.
    pub struct_size: u32,
    /// Readings used less three.
    pub degrees_of_freedom: u32,
    /// How many readings were used.
    pub readings_used: u32,
    /// How many of them lie within one Rayleigh range of the waist.
    pub readings_near: u32,
    /// How many of them lie two Rayleigh ranges from the waist, or farther.
    pub readings_far: u32,
    /// What to be wary of: SPOTWISE_BEAM_WARNING_* bits.
    pub warnings: u32,
    /// Height of the waist in metres, + away from the lens.
    pub waist_z_m: f64,
    /// Its standard deviation.
    pub waist_z_deviation_m: f64,
    /// Least of its range, for the confidence asked for.
    pub waist_z_least_m: f64,
    /// Greatest of its range.
    pub waist_z_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub waist_z_bias_m: f64,
    /// Waist diameter in metres, of the definition that was read.
    pub waist_diameter_m: f64,
    /// Its standard deviation.
    pub waist_diameter_deviation_m: f64,
    /// Least of its range, for the confidence asked for.
    pub waist_diameter_least_m: f64,
    /// Greatest of its range.
    pub waist_diameter_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub waist_diameter_bias_m: f64,
    /// Rayleigh range in metres.
    pub rayleigh_range_m: f64,
    /// Its standard deviation.
    pub rayleigh_range_deviation_m: f64,
    /// Least of its range, for the confidence asked for.
    pub rayleigh_range_least_m: f64,
    /// Greatest of its range.
    pub rayleigh_range_greatest_m: f64,
    /// What was taken off the plain least-squares number.
    pub rayleigh_range_bias_m: f64,
    /// Divergence in radians, full angle.
    pub divergence_full_angle_rad: f64,
    /// Its standard deviation.
    pub divergence_full_angle_deviation_rad: f64,
    /// Least of its range, for the confidence asked for.
    pub divergence_full_angle_least_rad: f64,
    /// Greatest of its range.
    pub divergence_full_angle_greatest_rad: f64,
    /// What was taken off the plain least-squares number.
    pub divergence_full_angle_bias_rad: f64,
    /// Beam propagation ratio M^2; below 1 it is flagged.
    pub m2: f64,
    /// Its standard deviation.
    pub m2_deviation: f64,
    /// Least of its range, for the confidence asked for.
    pub m2_least: f64,
    /// Greatest of its range.
    pub m2_greatest: f64,
    /// What was taken off the plain least-squares number.
    pub m2_bias: f64,
    /// Correlation of the height and the diameter of the waist.
    pub z_diameter_correlation: f64,
    /// Correlation of the height of the waist and the Rayleigh range.
    pub z_range_correlation: f64,
    /// Correlation of waist diameter and Rayleigh range.
    pub diameter_range_correlation: f64,
    /// Squared residuals of the squared diameters by their weights.
    pub chi_squared: f64,
    /// Chance of a chi_squared as great or greater.
    pub chi_squared_chance: f64,
    /// Chance of terms of third and fourth order as great or greater, if the widths do follow a
    /// hyperbola; 1 with fewer than six readings or five different heights, which cannot tell.
    pub higher_terms_chance: f64,
}
plain!(
    spotwise_beam_fit, 272 bytes,
    words: [degrees_of_freedom, readings_used, readings_near, readings_far, warnings],
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
        divergence_full_angle_rad,
        divergence_full_angle_deviation_rad,
        divergence_full_angle_least_rad,
        divergence_full_angle_greatest_rad,
        divergence_full_angle_bias_rad,
        m2,
        m2_deviation,
        m2_least,
        m2_greatest,
        m2_bias,
        z_diameter_correlation,
        z_range_correlation,
        diameter_range_correlation,
        chi_squared,
        chi_squared_chance,
        higher_terms_chance,
    ]
);

impl From<BeamFit> for spotwise_beam_fit {
    fn from(result: BeamFit) -> Self {
        Self {
            degrees_of_freedom: result.degrees_of_freedom,
            readings_used: result.readings_used,
            readings_near: result.readings_near,
            readings_far: result.readings_far,
            warnings: result.warnings.bits(),
            waist_z_m: result.waist_z.value,
            waist_z_deviation_m: result.waist_z.deviation,
            waist_z_least_m: result.waist_z.least,
            waist_z_greatest_m: result.waist_z.greatest,
            waist_z_bias_m: result.waist_z.bias,
            waist_diameter_m: result.waist_diameter.value,
            waist_diameter_deviation_m: result.waist_diameter.deviation,
            waist_diameter_least_m: result.waist_diameter.least,
            waist_diameter_greatest_m: result.waist_diameter.greatest,
            waist_diameter_bias_m: result.waist_diameter.bias,
            rayleigh_range_m: result.rayleigh_range.value,
            rayleigh_range_deviation_m: result.rayleigh_range.deviation,
            rayleigh_range_least_m: result.rayleigh_range.least,
            rayleigh_range_greatest_m: result.rayleigh_range.greatest,
            rayleigh_range_bias_m: result.rayleigh_range.bias,
            divergence_full_angle_rad: result.divergence_full_angle.value,
            divergence_full_angle_deviation_rad: result.divergence_full_angle.deviation,
            divergence_full_angle_least_rad: result.divergence_full_angle.least,
            divergence_full_angle_greatest_rad: result.divergence_full_angle.greatest,
            divergence_full_angle_bias_rad: result.divergence_full_angle.bias,
            m2: result.m2.value,
            m2_deviation: result.m2.deviation,
            m2_least: result.m2.least,
            m2_greatest: result.m2.greatest,
            m2_bias: result.m2.bias,
            z_diameter_correlation: result.z_diameter_correlation,
            z_range_correlation: result.z_range_correlation,
            diameter_range_correlation: result.diameter_range_correlation,
            chi_squared: result.chi_squared,
            chi_squared_chance: result.chi_squared_chance,
            higher_terms_chance: result.higher_terms_chance,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_beam_fit_init(fit: *mut spotwise_beam_fit) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(fit) }
}

/// Waist, Rayleigh range, divergence and M^2 from the widths of a beam at several heights, with
/// deviations, ranges and warnings.
///
/// D^2 = A + B z + C z^2, weighted, centred and scaled. Where the readings scatter more than their
/// deviations say, the deviations of the results are enlarged to match, and ranges are Student's.
/// Outliers: the reading whose leaving out lowers chi squared most is left out if it falls by more
/// than outlier_limit^2 times its new mean (or 1), while at least five readings remain, up to a quarter
/// of them. It tells widths of marks from those of a beam where they can be told: see
/// SPOTWISE_BEAM_WARNING_MARK_WIDTHS.
///
/// Errors of the heights, and astigmatism, are not modelled: fit each axis by itself.
///
/// @param[in]  height_m     readings heights in metres, + away from the lens; not NULL unless readings
///                          is 0; range: SPOTWISE_PARAM_PIECE_HEIGHT.
/// @param[in]  diameter_m   readings beam widths (diameters, 1/e^2 or D4 sigma) in metres; not NULL
///                          unless readings is 0; range: SPOTWISE_PARAM_BEAM_DIAMETER.
/// @param[in]  deviation_m  readings standard deviations of the widths in metres; not NULL unless
///                          readings is 0; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
/// @param[in]  readings     length of each array, at least 4; range: SPOTWISE_PARAM_READINGS.
/// @param[in]  wavelength_m vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  options      how to fit; set with spotwise_beam_fit_options_init(); not NULL.
/// @param[out] residual_m   readings numbers, each width read less that of the least-squares curve, in
///                          metres, also of those left out; not NULL unless readings is 0, and apart from the other
///                          arrays. On any status other than SPOTWISE_OK all of it is set to a quiet
///                          NaN, but for a length that no array can have.
/// @param[out] used         readings numbers, 1 for a reading that was used, else 0; not NULL unless
///                          readings is 0, and apart from the other arrays. On any status other than
///                          SPOTWISE_OK all of it is set to 0, but for a length that no array can have.
/// @param[out] fit          result; set with spotwise_beam_fit_init(); not NULL. On any status other
///                          than SPOTWISE_OK its numbers are set to a quiet NaN, its codes and flags
///                          to 0.
/// @param[out] error        what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (all heights, all diameters, all deviations,
///         the wavelength, the options, too many readings), SPOTWISE_E_UNDETERMINED
///         (SPOTWISE_PARAM_READINGS: fewer than four; SPOTWISE_PARAM_DISTINCT_HEIGHTS: fewer than
///         three heights; SPOTWISE_PARAM_CURVATURE_SIGNIFICANCE: no minimum is seen, read farther from
///         focus on either side, and do not fit marks as a beam, whose widths may even fall there, with
///         a value below 0; SPOTWISE_PARAM_WAIST_SIGNIFICANCE: the widths come to a point, read nearer
///         to focus; SPOTWISE_PARAM_STEADY_WEIGHTS: the deviations are as large as the widths),
///         SPOTWISE_E_OUTSIDE_MODEL (waist, Rayleigh range, divergence or M^2 beyond their ranges).
///
/// Accuracy: 1e-12 for readings over two Rayleigh ranges or more to either side; statistics 1e-11.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a beam of 80 um in its waist with a Rayleigh range of 4 mm at 1.064 um, read at ten
///          heights within 2.5 of these: M^2 = 1.181.
/// Source: ISO 11146-1, from memory; weights and deviations: any textbook of weighted least squares;
///         the warnings of wrong data derived here.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_fit_beam(
    height_m: *const f64,
    diameter_m: *const f64,
    deviation_m: *const f64,
    readings: usize,
    wavelength_m: f64,
    options: *const spotwise_beam_fit_options,
    residual_m: *mut f64,
    used: *mut u8,
    fit: *mut spotwise_beam_fit,
    error: *mut spotwise_error,
) -> spotwise_status {
    let arrays = FitArrays {
        inputs: [height_m, diameter_m, deviation_m],
        count: readings,
        residuals: residual_m,
        used,
    };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(fit).or(error_pointer_fault(error));
        report(fit, error, || Ok(fitted(&arrays, wavelength_m, options, last_fault)?.into()))
    }
}

/// One sentence for a warning of a fit; "unknown" unless exactly one warning is given.
///
/// @param[in] warning one bit, one of SPOTWISE_BEAM_WARNING_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_beam_warning_text(warning: u32) -> *const c_char {
    const SENTENCES: [&str; BeamWarnings::ALL.len()] = sentences!(BeamWarnings);
    texts!(WARNINGS, SENTENCES);
    text_of_bit(&WARNINGS, warning)
}

/// Fits, and tells residuals and what was used: nothing on a fault.
///
/// # Safety
/// Pointers are NULL or valid, those to arrays for their items.
unsafe fn fitted(
    arrays: &FitArrays<3>,
    wavelength: f64,
    options: *const spotwise_beam_fit_options,
    last_fault: Option<Fault>,
) -> Result<BeamFit, Fault> {
    // SAFETY: NULL or writable for their items, as the caller vouches.
    unsafe { arrays.prepare(last_fault) }?;
    // SAFETY: NULL or readable, as the caller vouches.
    let options = unsafe { input(options) }?.try_into()?;
    // SAFETY: prepared, and valid for their items as the caller vouches.
    let ([heights, diameters, deviations], residuals, used) = unsafe { arrays.open() };
    let readings = BeamReadings { heights, diameters, deviations };
    Ok(fit_beam(&readings, wavelength, &options, residuals, used)?)
}
