//! Dose: how much energy a scan puts on each part of the surface.

use crate::abi::{Plain, init, input, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{
    self, PulseDose, Scan, ScanDose, dose_over_threshold, line_interval, pulse_dose, scan_dose,
};

/// A beam that scans a surface, line by line.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_scan {
    /// Size of this struct; spotwise_scan_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Power on the surface in watts, averaged over pulses; range: SPOTWISE_PARAM_POWER.
    pub power_w: f64,
    /// Speed of the spot along the line in m/s; range: SPOTWISE_PARAM_SPEED.
    pub speed_m_per_s: f64,
    /// Spot diameter across the line in metres, 1/e^2 (D4 sigma); range:
    /// SPOTWISE_PARAM_DIAMETER_ACROSS.
    pub diameter_across_m: f64,
    /// Spot diameter along the line in metres, 1/e^2 (D4 sigma); range:
    /// SPOTWISE_PARAM_DIAMETER_ALONG.
    pub diameter_along_m: f64,
    /// From one line to the next in metres; range: SPOTWISE_PARAM_LINE_INTERVAL.
    pub line_interval_m: f64,
}
plain!(
    spotwise_scan, 48 bytes,
    words: [reserved],
    numbers: [power_w, speed_m_per_s, diameter_across_m, diameter_along_m, line_interval_m]
);

impl From<spotwise_scan> for Scan {
    fn from(scan: spotwise_scan) -> Self {
        Self {
            power: scan.power_w,
            speed: scan.speed_m_per_s,
            diameter_across: scan.diameter_across_m,
            diameter_along: scan.diameter_along_m,
            line_interval: scan.line_interval_m,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_scan_init(scan: *mut spotwise_scan) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(scan) }
}

/// Dose of a scan: the result of spotwise_scan_dose().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_scan_dose_result {
    /// Size of this struct; spotwise_scan_dose_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Dose on the middle of one line by itself in J/m^2.
    pub line_dose_j_per_m2: f64,
    /// Mean dose of a fill of such lines in J/m^2. It does not depend on the spot.
    pub fill_dose_j_per_m2: f64,
    /// Irradiance on the axis of the spot in W/m^2.
    pub peak_irradiance_w_per_m2: f64,
    /// Line dose over peak irradiance in seconds.
    pub dwell_s: f64,
}
plain!(
    spotwise_scan_dose_result, 40 bytes,
    words: [reserved],
    numbers: [line_dose_j_per_m2, fill_dose_j_per_m2, peak_irradiance_w_per_m2, dwell_s]
);

impl From<ScanDose> for spotwise_scan_dose_result {
    fn from(result: ScanDose) -> Self {
        Self {
            line_dose_j_per_m2: result.line_dose,
            fill_dose_j_per_m2: result.fill_dose,
            peak_irradiance_w_per_m2: result.peak_irradiance,
            dwell_s: result.dwell,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_scan_dose_result_init(dose: *mut spotwise_scan_dose_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(dose) }
}

/// What the pulses of a scan do one by one: the result of spotwise_pulse_dose().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_pulse_dose_result {
    /// Size of this struct; spotwise_pulse_dose_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Energy of one pulse in joules.
    pub pulse_energy_j: f64,
    /// Fluence of one pulse on the axis of the spot in J/m^2.
    pub peak_fluence_j_per_m2: f64,
    /// From one pulse to the next along the line in metres.
    pub pulse_pitch_m: f64,
    /// One less the pitch over the diameter; negative where the dots of neighbours do not touch.
    pub overlap: f64,
    /// Spot diameter over pitch.
    pub pulses_per_diameter: f64,
    /// Line dose over peak fluence.
    pub effective_pulses: f64,
}
plain!(
    spotwise_pulse_dose_result, 56 bytes,
    words: [reserved],
    numbers: [
        pulse_energy_j,
        peak_fluence_j_per_m2,
        pulse_pitch_m,
        overlap,
        pulses_per_diameter,
        effective_pulses,
    ]
);

impl From<PulseDose> for spotwise_pulse_dose_result {
    fn from(result: PulseDose) -> Self {
        Self {
            pulse_energy_j: result.pulse_energy,
            peak_fluence_j_per_m2: result.peak_fluence,
            pulse_pitch_m: result.pulse_pitch,
            overlap: result.overlap,
            pulses_per_diameter: result.pulses_per_diameter,
            effective_pulses: result.effective_pulses,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_pulse_dose_result_init(dose: *mut spotwise_pulse_dose_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(dose) }
}

/// Line dose, fill dose, peak irradiance and dwell of a scan.
///
/// Line dose sqrt(2/pi) P/(v w), fill dose P/(v p), peak irradiance 2 P/(pi w w'), dwell sqrt(pi/2)
/// w'/v, w and w' being half the diameters across and along. A continuous beam and the mean of a
/// pulsed one are told alike; for single pulses see spotwise_pulse_dose(). Reflection, absorption
/// and losses behind the power that is given are not modelled.
///
/// @param[in]  scan  scan to read; set with spotwise_scan_init(); not NULL.
/// @param[out] dose  result; set with spotwise_scan_dose_result_init(); not NULL. On any status
///                   other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 20 W at 0.5 m/s, lines 50 um apart: a fill dose of 0.8 J/mm^2.
/// Source: derived by the authors, a Gaussian irradiance added up along the line, over the surface
///         and over time.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_scan_dose(
    scan: *const spotwise_scan,
    dose: *mut spotwise_scan_dose_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(dose, error, || Ok(scan_dose(&input(scan)?.into())?.into())) }
}

/// Energy, fluence, pitch and overlap of the pulses of a scan.
///
/// Pulse energy P/f, peak fluence 2 E/(pi w w'), pulse pitch v/f, overlap 1 - pitch/diameter along,
/// effective pulses sqrt(pi/2) w'/pitch. They are also counted as one diameter over the pitch
/// (common practice, no source), which is 1.6 times as many. The scallop that the dots leave is
/// told by spotwise_pulsed_line(), the ripple of the dose along the line by
/// spotwise_raster_ripple() with the pulse pitch as interval.
///
/// @param[in]  scan               scan to read; set with spotwise_scan_init(); not NULL.
/// @param[in]  repetition_rate_hz pulses in a second; range: SPOTWISE_PARAM_REPETITION_RATE.
/// @param[out] dose               result; set with spotwise_pulse_dose_result_init(); not NULL. On
///                                any status other than SPOTWISE_OK its numbers are set to a quiet
///                                NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE (the scan before the repetition rate).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result; the overlap, where it is
///           small, at most 4 ulp times 1/|overlap|.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 20 W in 50 000 pulses a second at 1 m/s, spot 50 um: 0.4 mJ, 40.74 J/cm^2, pitch 20 um,
///          overlap 0.6.
/// Source: as spotwise_scan_dose().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_pulse_dose(
    scan: *const spotwise_scan,
    repetition_rate_hz: f64,
    dose: *mut spotwise_pulse_dose_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(dose, error, || Ok(pulse_dose(&input(scan)?.into(), repetition_rate_hz)?.into())) }
}

/// Dose over the dose at which a material just marks: the handle of all else here.
///
/// Above 1 the material marks. Dose and threshold must be of one kind: line doses, fill doses or
/// peak fluences. C does not notice if they are swapped.
///
/// @param[in]  dose_j_per_m2      dose in J/m^2; range: SPOTWISE_PARAM_DOSE.
/// @param[in]  threshold_j_per_m2 dose at which the material just marks in J/m^2; range:
///                                SPOTWISE_PARAM_THRESHOLD.
/// @param[out] dose_ratio         dose ratio; not NULL. On any status other than SPOTWISE_OK it is
///                                set to a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 0.5 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 0.8 J/mm^2 where the material marks from 0.32 J/mm^2 on: 2.5.
/// Source: the definition.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_dose_over_threshold(
    dose_j_per_m2: f64,
    threshold_j_per_m2: f64,
    dose_ratio: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(dose_ratio, error, || Ok(dose_over_threshold(dose_j_per_m2, threshold_j_per_m2)?)) }
}

/// Line interval of so many lines (dots) to the inch: 25.4 mm over their number.
///
/// @param[in]  dots_per_inch   lines to the inch; range: SPOTWISE_PARAM_DOTS_PER_INCH.
/// @param[out] line_interval_m from one line to the next in metres; not NULL. On any status other
///                             than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 1 ulp (unit in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 500 lines to the inch: 50.8 um.
/// Source: the inch is 25.4 mm exactly (international yard and pound agreement, 1959).
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_line_interval(
    dots_per_inch: f64,
    line_interval_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(line_interval_m, error, || Ok(line_interval(dots_per_inch)?)) }
}

/// Lines (dots) to the inch of a line interval, the inverse of spotwise_line_interval().
///
/// @param[in]  line_interval_m from one line to the next in metres; range:
///                             SPOTWISE_PARAM_LINE_INTERVAL.
/// @param[out] dots_per_inch   lines to the inch; not NULL. On any status other than SPOTWISE_OK it
///                             is set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 1 ulp (unit in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 50.8 um: 500 lines to the inch.
/// Source: as spotwise_line_interval().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_dots_per_inch(
    line_interval_m: f64,
    dots_per_inch: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(dots_per_inch, error, || Ok(mark::dots_per_inch(line_interval_m)?)) }
}
