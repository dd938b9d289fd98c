//! From a fit of marks to a calibration.

use crate::abi::{Plain, init, input, plain, report};
use crate::calibration::{spotwise_learned_focus, spotwise_learned_line};
use crate::error::spotwise_error;
use crate::mark_fit::spotwise_mark_fit;
use crate::status::spotwise_status;
use spotwise::model::learn::{LearnedMachine, MarkedLines, SeriesFindings, calibration_from_marks};

/// What a series of lines told of a machine: the result of spotwise_calibration_from_marks().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_learned_machine {
    /// Size of this struct; spotwise_learned_machine_init() sets it.
    pub struct_size: u32,
    /// 0; keeps the numbers aligned.
    pub reserved: u32,
    /// Height of focus in metres, from the datum of the heights of the marks, + away from the lens.
    pub focus_z_m: f64,
    /// Beam and focus, for spotwise_calibrated_set_up().
    pub focus: spotwise_learned_focus,
    /// The line in the waist, for spotwise_learned_threshold().
    pub line: spotwise_learned_line,
}
plain!(
    spotwise_learned_machine, 160 bytes,
    words: [reserved],
    numbers: [focus_z_m],
    nested: [focus: spotwise_learned_focus, line: spotwise_learned_line]
);

impl From<LearnedMachine> for spotwise_learned_machine {
    fn from(learned: LearnedMachine) -> Self {
        Self {
            focus_z_m: learned.focus_z,
            focus: learned.focus.into(),
            line: learned.line.into(),
            ..Self::BLANK
        }
    }
}

impl From<spotwise_mark_fit> for SeriesFindings {
    fn from(fit: spotwise_mark_fit) -> Self {
        Self {
            waist_z: fit.waist_z_m,
            waist_z_deviation: fit.waist_z_deviation_m,
            waist_diameter: fit.waist_diameter_m,
            waist_diameter_deviation: fit.waist_diameter_deviation_m,
            m2: fit.m2,
            m2_deviation: fit.m2_deviation,
            dose_ratio: fit.dose_ratio,
            dose_ratio_deviation: fit.dose_ratio_deviation,
            correlation: fit.correlation_diameter_dose,
            range_factor: fit.range_factor,
            degrees_of_freedom: fit.degrees_of_freedom,
        }
    }
}

/// Sets struct_size, also of the structs within, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_learned_machine_init(learned: *mut spotwise_learned_machine) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(learned) }
}

/// What a fit of lines tells of a machine: the step from spotwise_fit_mark_widths() to
/// spotwise_calibrated_set_up() and spotwise_learned_threshold(), which take its members as they are.
///
/// The waist is taken to lie in the focal point of the lens: a series of marks does not tell how far the
/// lens is. Marks of single pulses tell beam and focus as well, but no line: their power and speed mean
/// nothing.
///
/// @param[in]  fit            what the marks told, with ranges for a confidence of 0.95; not NULL.
/// @param[in]  wavelength_m   vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  focal_length_m focal length of the lens in metres, at the working wavelength; range:
///                            SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[in]  power_w        power of reference on the surface in watts, averaged over pulses; range:
///                            SPOTWISE_PARAM_POWER.
/// @param[in]  speed_m_per_s  speed along the lines in m/s; range: SPOTWISE_PARAM_SPEED.
/// @param[out] learned        result; set with spotwise_learned_machine_init(); not NULL. On any status
///                            other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error          what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE (what was found, in the order of spotwise_learned_focus and
///         spotwise_learned_line; the other arguments; as SPOTWISE_PARAM_COVERAGE_FACTOR_95 a fit whose
///         ranges are for another confidence).
///
/// Accuracy: numbers are handed on; the relative deviation of the dose ratio is correctly rounded.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a dose ratio of 4.2 with the deviation 0.126 in a waist of 95 um, from lines of 18 W at
///          0.4 m/s: a relative deviation of 0.03, and a threshold of 179 974 J/m^2.
/// Source: the factors of 95 % ranges are those of spotwise_student_factor() and of a normal law.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_calibration_from_marks(
    fit: *const spotwise_mark_fit,
    wavelength_m: f64,
    focal_length_m: f64,
    power_w: f64,
    speed_m_per_s: f64,
    learned: *mut spotwise_learned_machine,
    error: *mut spotwise_error,
) -> spotwise_status {
    let lines = MarkedLines {
        wavelength: wavelength_m,
        focal_length: focal_length_m,
        power: power_w,
        speed: speed_m_per_s,
    };
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(learned, error, || Ok(calibration_from_marks(&input(fit)?.into(), &lines)?.into())) }
}
