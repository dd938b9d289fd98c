//! What test pieces told of a machine, in the terms in which jobs are checked.

use crate::abi::{Plain, init, init_as, input, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::learn::{
    CalibratedSetUp, LearnedFocus, LearnedLine, LearnedThreshold, NORMAL_FACTOR_95, calibrated_set_up,
    learned_threshold,
};

/// Half width of a 95 % range over the standard deviation of a normal law.
pub const SPOTWISE_NORMAL_FACTOR_95: f64 = 1.959_963_984_540_054_3;

const _: () = assert!(SPOTWISE_NORMAL_FACTOR_95 == NORMAL_FACTOR_95);

/// What test pieces told of the focused beam and of the height of focus.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_learned_focus {
    /// Size of this struct; spotwise_learned_focus_init() sets it.
    pub struct_size: u32,
    /// Not read; keeps the numbers aligned.
    pub reserved: u32,
    /// Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
    pub wavelength_m: f64,
    /// M^2 as measured, which may be below 1 by noise; range: SPOTWISE_PARAM_MEASURED_M2.
    pub measured_m2: f64,
    /// Standard deviation of M^2; range: SPOTWISE_PARAM_M2_DEVIATION.
    pub m2_deviation: f64,
    /// Waist diameter behind the lens as measured, in metres, 1/e^2 (D4 sigma); range:
    /// SPOTWISE_PARAM_WAIST_DIAMETER.
    pub waist_diameter_m: f64,
    /// Focal length of the lens that was used in metres, converging, at the working wavelength; range:
    /// SPOTWISE_PARAM_FOCAL_LENGTH.
    pub focal_length_m: f64,
    /// From the focal point of the lens to the waist in metres, + away from the lens: 0, which
    /// spotwise_learned_focus_init() sets, unless the distance from the lens to the waist was measured
    /// too. It changes the raw beam, and with the same lens nothing else; range:
    /// SPOTWISE_PARAM_FOCUS_SHIFT.
    pub focus_shift_m: f64,
    /// Standard deviation of the height at which the waist was found, in metres; range:
    /// SPOTWISE_PARAM_FOCUS_DEVIATION.
    pub focus_deviation_m: f64,
    /// Half width of a 95 % range over these deviations: SPOTWISE_NORMAL_FACTOR_95, which
    /// spotwise_learned_focus_init() sets, where the deviations of the marks were known, the factor of
    /// Student's t where the scatter of the marks told them; range: SPOTWISE_PARAM_COVERAGE_FACTOR_95.
    pub coverage_factor_95: f64,
}
plain!(
    spotwise_learned_focus, 72 bytes,
    words: [reserved],
    numbers: [
        wavelength_m,
        measured_m2,
        m2_deviation,
        waist_diameter_m,
        focal_length_m,
        focus_shift_m,
        focus_deviation_m,
        coverage_factor_95,
    ]
);

impl From<spotwise_learned_focus> for LearnedFocus {
    fn from(learned: spotwise_learned_focus) -> Self {
        Self {
            wavelength: learned.wavelength_m,
            measured_m2: learned.measured_m2,
            m2_deviation: learned.m2_deviation,
            waist_diameter: learned.waist_diameter_m,
            focal_length: learned.focal_length_m,
            focus_shift: learned.focus_shift_m,
            focus_deviation: learned.focus_deviation_m,
            coverage_factor_95: learned.coverage_factor_95,
        }
    }
}

impl From<LearnedFocus> for spotwise_learned_focus {
    fn from(learned: LearnedFocus) -> Self {
        Self {
            wavelength_m: learned.wavelength,
            measured_m2: learned.measured_m2,
            m2_deviation: learned.m2_deviation,
            waist_diameter_m: learned.waist_diameter,
            focal_length_m: learned.focal_length,
            focus_shift_m: learned.focus_shift,
            focus_deviation_m: learned.focus_deviation,
            coverage_factor_95: learned.coverage_factor_95,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN, but focus_shift_m to 0 and coverage_factor_95 to
/// SPOTWISE_NORMAL_FACTOR_95. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_learned_focus_init(learned: *mut spotwise_learned_focus) {
    let fresh = spotwise_learned_focus {
        focus_shift_m: 0.0,
        coverage_factor_95: NORMAL_FACTOR_95,
        ..spotwise_learned_focus::BLANK
    };
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(learned, fresh) }
}

/// The set-up in which a job gets the measured focus: the result of spotwise_calibrated_set_up().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_calibrated_set_up_result {
    /// Size of this struct; spotwise_calibrated_set_up_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Beam propagation ratio M^2: as measured, or 1 where noise has put it below; for m2 of a
    /// spotwise_job.
    pub m2: f64,
    /// Raw beam's waist diameter in metres, 1/e^2 (D4 sigma); for waist_diameter_m of a spotwise_job.
    pub raw_waist_diameter_m: f64,
    /// From the raw waist to the lens in metres, + when the waist lies upstream; for waist_to_lens_m of
    /// a spotwise_job.
    pub waist_to_lens_m: f64,
    /// Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
    pub diameter_at_lens_m: f64,
    /// Rayleigh range of the focus in metres.
    pub rayleigh_range_m: f64,
    /// Standard deviation of a normal law with the same 95 % range of the height of focus, in metres;
    /// for half_width_m of a spotwise_contribution of SPOTWISE_DISTRIBUTION_NORMAL with a
    /// coverage_factor of 1.
    pub focus_deviation_m: f64,
    /// Greatest 1/e^2 half angle before and behind the lens in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_calibrated_set_up_result, 64 bytes,
    words: [validity],
    numbers: [
        m2,
        raw_waist_diameter_m,
        waist_to_lens_m,
        diameter_at_lens_m,
        rayleigh_range_m,
        focus_deviation_m,
        half_angle_rad,
    ]
);

impl From<CalibratedSetUp> for spotwise_calibrated_set_up_result {
    fn from(result: CalibratedSetUp) -> Self {
        Self {
            validity: result.validity.bits(),
            m2: result.m2,
            raw_waist_diameter_m: result.raw_waist_diameter,
            waist_to_lens_m: result.waist_to_lens,
            diameter_at_lens_m: result.diameter_at_lens,
            rayleigh_range_m: result.rayleigh_range,
            focus_deviation_m: result.focus_deviation,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_calibrated_set_up_result_init(
    set_up: *mut spotwise_calibrated_set_up_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(set_up) }
}

/// What test pieces told of a line that the scan marks in the waist.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_learned_line {
    /// Size of this struct; spotwise_learned_line_init() sets it.
    pub struct_size: u32,
    /// Not read; keeps the numbers aligned.
    pub reserved: u32,
    /// Power on the surface in watts, averaged over pulses; range: SPOTWISE_PARAM_POWER.
    pub power_w: f64,
    /// Speed along the line in m/s; range: SPOTWISE_PARAM_SPEED.
    pub speed_m_per_s: f64,
    /// Waist diameter as measured, in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER.
    pub waist_diameter_m: f64,
    /// Its standard deviation in metres; range: SPOTWISE_PARAM_WAIST_DIAMETER_DEVIATION.
    pub waist_diameter_deviation_m: f64,
    /// Dose on the middle of the line in the waist over that at which the material just marks; range:
    /// SPOTWISE_PARAM_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself; range:
    /// SPOTWISE_PARAM_RELATIVE_DOSE_RATIO_DEVIATION.
    pub relative_dose_ratio_deviation: f64,
    /// Correlation of the logarithms of waist diameter and dose ratio; 0, which
    /// spotwise_learned_line_init() sets, if unknown; range: SPOTWISE_PARAM_CORRELATION.
    pub correlation: f64,
    /// As in spotwise_learned_focus; spotwise_learned_line_init() sets SPOTWISE_NORMAL_FACTOR_95; range:
    /// SPOTWISE_PARAM_COVERAGE_FACTOR_95.
    pub coverage_factor_95: f64,
}
plain!(
    spotwise_learned_line, 72 bytes,
    words: [reserved],
    numbers: [
        power_w,
        speed_m_per_s,
        waist_diameter_m,
        waist_diameter_deviation_m,
        dose_ratio,
        relative_dose_ratio_deviation,
        correlation,
        coverage_factor_95,
    ]
);

impl From<spotwise_learned_line> for LearnedLine {
    fn from(learned: spotwise_learned_line) -> Self {
        Self {
            power: learned.power_w,
            speed: learned.speed_m_per_s,
            waist_diameter: learned.waist_diameter_m,
            waist_diameter_deviation: learned.waist_diameter_deviation_m,
            dose_ratio: learned.dose_ratio,
            relative_dose_ratio_deviation: learned.relative_dose_ratio_deviation,
            correlation: learned.correlation,
            coverage_factor_95: learned.coverage_factor_95,
        }
    }
}

impl From<LearnedLine> for spotwise_learned_line {
    fn from(learned: LearnedLine) -> Self {
        Self {
            power_w: learned.power,
            speed_m_per_s: learned.speed,
            waist_diameter_m: learned.waist_diameter,
            waist_diameter_deviation_m: learned.waist_diameter_deviation,
            dose_ratio: learned.dose_ratio,
            relative_dose_ratio_deviation: learned.relative_dose_ratio_deviation,
            correlation: learned.correlation,
            coverage_factor_95: learned.coverage_factor_95,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN, but correlation to 0 and coverage_factor_95 to
/// SPOTWISE_NORMAL_FACTOR_95. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_learned_line_init(learned: *mut spotwise_learned_line) {
    let fresh = spotwise_learned_line {
        correlation: 0.0,
        coverage_factor_95: NORMAL_FACTOR_95,
        ..spotwise_learned_line::BLANK
    };
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(learned, fresh) }
}

/// The dose at which the material just marks: the result of spotwise_learned_threshold().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_learned_threshold_result {
    /// Size of this struct; spotwise_learned_threshold_result_init() sets it.
    pub struct_size: u32,
    /// Always 0.
    pub reserved: u32,
    /// Line dose at which the material just marks in J/m^2; also its fill dose, for threshold_j_per_m2
    /// of a spotwise_job.
    pub threshold_j_per_m2: f64,
    /// Standard deviation over the threshold of a normal law with the same 95 % range.
    pub relative_deviation: f64,
}
plain!(
    spotwise_learned_threshold_result, 24 bytes,
    words: [reserved],
    numbers: [threshold_j_per_m2, relative_deviation]
);

impl From<LearnedThreshold> for spotwise_learned_threshold_result {
    fn from(result: LearnedThreshold) -> Self {
        Self {
            threshold_j_per_m2: result.threshold,
            relative_deviation: result.relative_deviation,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_learned_threshold_result_init(
    threshold: *mut spotwise_learned_threshold_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(threshold) }
}

/// The set-up of which the focus is the one that test pieces found.
///
/// Light goes its way backwards as well: the raw beam is what the lens makes of the measured focus, sent
/// back through it. Aberration and clipping are in the measured focus already, so the lens counts as
/// ideal. An M^2 below 1 is taken for 1 where its 95 % range reaches 1.
///
/// A job on this machine: raw_beam SPOTWISE_RAW_BEAM_WAIST with raw_waist_diameter_m as waist_diameter_m
/// and waist_to_lens_m, m2, the wavelength and focal length that were given here, lens
/// SPOTWISE_LENS_IDEAL, focus_setting SPOTWISE_FOCUS_FROM_DATUM with the height at which the waist was
/// found as focus_z_m, and threshold_j_per_m2 from spotwise_learned_threshold(). With another lens the raw
/// beam and M^2 are carried over, but neither the height of focus nor the aberration of either lens.
///
/// @param[in]  learned what was measured; set with spotwise_learned_focus_init(); not NULL.
/// @param[out] set_up  result; set with spotwise_calibrated_set_up_result_init(); not NULL. On any
///                     status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error   what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (an M^2 below 1 even at the end of its 95 %
///         range, as SPOTWISE_PARAM_MEASURED_M2 with the least that its deviation allows: mark widths
///         taken for beam widths, a radius for a diameter, or a deviation stated too small; half angle
///         above 0.3 rad; a waist at the lens or before it, as SPOTWISE_PARAM_LENS_TO_WAIST; a raw beam
///         beyond the range of SPOTWISE_PARAM_WAIST_DIAMETER or SPOTWISE_PARAM_WAIST_TO_LENS).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 10.6 um, M^2 = 1.2, a waist of 95 um behind a lens of 38.1 mm: a raw waist of 6.4953 mm,
///          38.1 mm before the lens.
/// Source: that of spotwise_focus_through_lens(), taken backwards.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_calibrated_set_up(
    learned: *const spotwise_learned_focus,
    set_up: *mut spotwise_calibrated_set_up_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(set_up, error, || Ok(calibrated_set_up(&input(learned)?.into())?.into())) }
}

/// The dose at which the material just marks, from what a line in the waist has of it.
///
/// Threshold = sqrt(8/pi) power/(speed d q), d being the waist diameter and q the dose ratio; its
/// deviation by the full covariance of both, to first order in their logarithms. Where doses of lines
/// add up it is the threshold of a fill as well. An error of the scale of power or speed cancels in jobs
/// that are stated on the same scale; incubation is not modelled.
///
/// @param[in]  learned   what was measured; set with spotwise_learned_line_init(); not NULL.
/// @param[out] threshold result; set with spotwise_learned_threshold_result_init(); not NULL. On any
///                       status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (a threshold beyond the range of
///         SPOTWISE_PARAM_THRESHOLD).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 18 W at 0.4 m/s in a waist of 95 um, 4.2 times what just marks: 179 974 J/m^2.
/// Source: the line dose of spotwise_scan_dose(); JCGM 100:2008 (GUM), 5.2.2, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_learned_threshold(
    learned: *const spotwise_learned_line,
    threshold: *mut spotwise_learned_threshold_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(threshold, error, || Ok(learned_threshold(&input(learned)?.into())?.into())) }
}
