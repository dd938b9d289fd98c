//! Pulsed marks: dots in a row, craters and grooves.

use crate::abi::{Plain, init, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{self, ConnectedSpeed, Crater, Groove, PulsedLine, connected_speed, pulsed_line};

/// A row of dots: the result of spotwise_pulsed_line().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_pulsed_line_result {
    /// Size of this struct; spotwise_pulsed_line_result_init() sets it.
    pub struct_size: u32,
    /// 1 if a dot marks at all, if only after so many pulses; else 0, as are its diameter and the scallop.
    pub marks: u32,
    /// 1 if dots overlap, so that the line has no gaps; else 0.
    pub connected: u32,
    /// 0.
    pub reserved: u32,
    /// Threshold after so many pulses over that of one, at most 1.
    pub threshold_ratio: f64,
    /// Peak fluence over that lowered threshold.
    pub dose_ratio: f64,
    /// Diameter of a dot in metres, 0 without a mark.
    pub dot_diameter_m: f64,
    /// How far the edge dents between dots in metres; the radius of a dot where they do not touch.
    pub scallop_m: f64,
}
plain!(
    spotwise_pulsed_line_result, 48 bytes,
    words: [marks, connected, reserved],
    numbers: [threshold_ratio, dose_ratio, dot_diameter_m, scallop_m]
);

impl From<PulsedLine> for spotwise_pulsed_line_result {
    fn from(result: PulsedLine) -> Self {
        Self {
            marks: u32::from(result.marks),
            connected: u32::from(result.connected),
            threshold_ratio: result.threshold_ratio,
            dose_ratio: result.dose_ratio,
            dot_diameter_m: result.dot_diameter,
            scallop_m: result.scallop,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_pulsed_line_result_init(line: *mut spotwise_pulsed_line_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(line) }
}

/// What one pulse digs: the result of spotwise_crater().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_crater_result {
    /// Size of this struct; spotwise_crater_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Diameter at the surface in metres.
    pub diameter_m: f64,
    /// Depth in the middle in metres.
    pub depth_m: f64,
    /// Depth at the radius asked for in metres; 0 outside the crater.
    pub depth_at_radius_m: f64,
    /// Volume in m^3.
    pub volume_m3: f64,
}
plain!(
    spotwise_crater_result, 40 bytes,
    words: [reserved],
    numbers: [diameter_m, depth_m, depth_at_radius_m, volume_m3]
);

impl From<Crater> for spotwise_crater_result {
    fn from(result: Crater) -> Self {
        Self {
            diameter_m: result.diameter,
            depth_m: result.depth,
            depth_at_radius_m: result.depth_at_radius,
            volume_m3: result.volume,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_crater_result_init(crater: *mut spotwise_crater_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(crater) }
}

/// What a row of pulses digs: the result of spotwise_groove().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_groove_result {
    /// Size of this struct; spotwise_groove_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Width at the surface in metres.
    pub width_m: f64,
    /// Mean depth along the middle in metres.
    pub depth_m: f64,
    /// Mean depth at the distance asked for in metres; 0 outside the groove.
    pub depth_aside_m: f64,
    /// Area of the mean cross-section in m^2.
    pub area_m2: f64,
}
plain!(
    spotwise_groove_result, 40 bytes,
    words: [reserved],
    numbers: [width_m, depth_m, depth_aside_m, area_m2]
);

impl From<Groove> for spotwise_groove_result {
    fn from(result: Groove) -> Self {
        Self {
            width_m: result.width,
            depth_m: result.depth,
            depth_aside_m: result.depth_aside,
            area_m2: result.area,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_groove_result_init(groove: *mut spotwise_groove_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(groove) }
}

/// The fastest scan that leaves no more than a given scallop: the result of
/// spotwise_connected_speed().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_connected_speed_result {
    /// Size of this struct; spotwise_connected_speed_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Largest pulse pitch in metres.
    pub pulse_pitch_m: f64,
    /// Effective pulses on one place at that pitch, at least 1.
    pub pulses: f64,
    /// Largest speed in m/s.
    pub speed_m_per_s: f64,
}
plain!(
    spotwise_connected_speed_result, 32 bytes,
    words: [reserved],
    numbers: [pulse_pitch_m, pulses, speed_m_per_s]
);

impl From<ConnectedSpeed> for spotwise_connected_speed_result {
    fn from(result: ConnectedSpeed) -> Self {
        Self {
            pulse_pitch_m: result.pulse_pitch,
            pulses: result.pulses,
            speed_m_per_s: result.speed,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_connected_speed_result_init(
    connected: *mut spotwise_connected_speed_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(connected) }
}

/// The dots of a pulsed line: their size after incubation, and the scallop of the edge.
///
/// Threshold ratio N^(S - 1); dot diameter d sqrt(L/2), L being the logarithm of the dose ratio
/// after N pulses; scallop (p^2/4)/(rho + sqrt(rho^2 - p^2/4)), rho being the radius of a dot. A single
/// pulse below the threshold may still mark after many. No mark is no error: marks is then 0. Heat that
/// accumulates is not modelled. C does not notice if spot and pitch are swapped.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dose_ratio      peak fluence of one pulse over the fluence at which one pulse just
///                             marks; range: SPOTWISE_PARAM_ANY_DOSE_RATIO.
/// @param[in]  pulse_pitch_m   from one pulse to the next along the line in metres; range:
///                             SPOTWISE_PARAM_PULSE_PITCH.
/// @param[in]  incubation      incubation S; 1 for none; range: SPOTWISE_PARAM_INCUBATION.
/// @param[in]  pulses          how many pulses N fall on one place, such as effective_pulses of
///                             spotwise_pulse_dose(), but at least 1; range: SPOTWISE_PARAM_PULSES.
/// @param[out] line            result; set with spotwise_pulsed_line_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN, its codes and flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result; conditioned, and so more,
///           where dots just touch, incubation is strong or only incubation makes a pulse mark
///           (tests/vectors/README.md has the factors).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a spot of 50 um at e^2 times the threshold, dots 30 um apart: 50 um wide, scallop 5 um.
///          0.9 times the threshold, 100 pulses on each place, incubation 0.85: the dose ratio is 1.7957.
/// Source: scallop derived by the authors; dots: J. M. Liu, Optics Letters 7, 196 (1982);
///         incubation: Y. Jee, M. F. Becker, R. M. Walser, J. Opt. Soc. Am. B 5, 648 (1988), an
///         empirical law; both from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_pulsed_line(
    spot_diameter_m: f64,
    dose_ratio: f64,
    pulse_pitch_m: f64,
    incubation: f64,
    pulses: f64,
    line: *mut spotwise_pulsed_line_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(line, error, || {
            Ok(pulsed_line(spot_diameter_m, dose_ratio, pulse_pitch_m, incubation, pulses)?.into())
        })
    }
}

/// Depth and volume of the crater of one pulse, and its depth at a distance from the middle.
///
/// Depth l (L - 2 r^2/w^2), volume pi w^2 l L^2/4, L being the logarithm of the dose ratio. Plasma
/// shielding, walls that reflect and debris are not modelled. C does not notice if the lengths are
/// swapped.
///
/// @param[in]  spot_diameter_m     spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                                 SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dose_ratio          peak fluence of one pulse over the fluence at which one pulse
///                                 just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  penetration_depth_m depth at which the fluence has fallen by e, in metres; range:
///                                 SPOTWISE_PARAM_PENETRATION_DEPTH.
/// @param[in]  radius_m            distance from the middle in metres; range:
///                                 SPOTWISE_PARAM_RADIUS.
/// @param[out] crater              result; set with spotwise_crater_result_init(); not NULL. On any
///                                 status other than SPOTWISE_OK its numbers are set to a quiet
///                                 NaN.
/// @param[out] error               what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 6 ulp (units in the last place) of the exact result; the depth at a radius
///           that times L/(L - 2 r^2/w^2).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a spot of 50 um at e times the threshold, 20 nm for each e-fold: 20 nm deep, 9.817e-18
///          m^3.
/// Source: derived by the authors from Beer and Lambert's law.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_crater(
    spot_diameter_m: f64,
    dose_ratio: f64,
    penetration_depth_m: f64,
    radius_m: f64,
    crater: *mut spotwise_crater_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(crater, error, || {
            Ok(mark::crater(spot_diameter_m, dose_ratio, penetration_depth_m, radius_m)?.into())
        })
    }
}

/// Mean depth and cross-section of the groove of a row of pulses, and its depth at a distance
/// aside.
///
/// Craters added up along the row, as if every pulse met a flat surface: depth 8 l (w^2 L/2 -
/// y^2)^(3/2)/(3 p w^2). It holds while several pulses fall on each place; a pitch wider than a dot, which
/// leaves craters apart and no groove, is refused. C does not notice if the lengths are swapped.
///
/// @param[in]  spot_diameter_m     spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                                 SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dose_ratio          peak fluence of one pulse over the fluence at which one pulse
///                                 just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  penetration_depth_m depth at which the fluence has fallen by e, in metres; range:
///                                 SPOTWISE_PARAM_PENETRATION_DEPTH.
/// @param[in]  pulse_pitch_m       from one pulse to the next along the line in metres, here at most
///                                 the diameter of a dot; range: SPOTWISE_PARAM_PULSE_PITCH.
/// @param[in]  aside_m             distance from the middle in metres; range:
///                                 SPOTWISE_PARAM_RADIUS.
/// @param[out] groove              result; set with spotwise_groove_result_init(); not NULL. On any
///                                 status other than SPOTWISE_OK its numbers are set to a quiet
///                                 NaN.
/// @param[out] error               what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 6 ulp (units in the last place) of the exact result; the depth aside that
///           times 1 + 3/(1 - y^2/rho^2).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: the crater of spotwise_crater() every 5 um: 94.28 nm deep.
/// Source: as spotwise_crater().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_groove(
    spot_diameter_m: f64,
    dose_ratio: f64,
    penetration_depth_m: f64,
    pulse_pitch_m: f64,
    aside_m: f64,
    groove: *mut spotwise_groove_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(groove, error, || {
            let found =
                mark::groove(spot_diameter_m, dose_ratio, penetration_depth_m, pulse_pitch_m, aside_m);
            Ok(found?.into())
        })
    }
}

/// The largest pulse pitch and speed at which the edge of a pulsed line dents by no more than a
/// scallop.
///
/// Pitch 2 sqrt(c (2 rho - c)), c being the scallop and rho the radius of a dot after the effective
/// pulses sqrt(pi/8) d/p, at least 1, that fall on one place at that pitch; speed that times the
/// repetition rate. With a scallop of the whole radius the dots just touch. With incubation the threshold
/// falls as the pulses come closer, so that dots grow as the scan slows down.
///
/// @param[in]  spot_diameter_m    spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                                SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dose_ratio         peak fluence of one pulse over the fluence at which one pulse
///                                just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
/// @param[in]  repetition_rate_hz pulses in a second; range: SPOTWISE_PARAM_REPETITION_RATE.
/// @param[in]  incubation         incubation S; 1 for none; range: SPOTWISE_PARAM_INCUBATION.
/// @param[in]  scallop_m          how far the edge may dent in metres, here at most the radius of a
///                                dot of one pulse; range: SPOTWISE_PARAM_SCALLOP.
/// @param[out] connected          result; set with spotwise_connected_speed_result_init(); not
///                                NULL. On any status other than SPOTWISE_OK its numbers are set to
///                                a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (more pulses than
///         SPOTWISE_PARAM_PULSES allows or a speed outside the range of SPOTWISE_PARAM_SPEED, as those).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a spot of 50 um at e^2 times the threshold, 50 kHz, no incubation, scallop 5 um: pitch 30 um,
///          1.044 pulses on each place, 1.5 m/s.
/// Source: as spotwise_pulsed_line().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_connected_speed(
    spot_diameter_m: f64,
    dose_ratio: f64,
    repetition_rate_hz: f64,
    incubation: f64,
    scallop_m: f64,
    connected: *mut spotwise_connected_speed_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(connected, error, || {
            let found =
                connected_speed(spot_diameter_m, dose_ratio, repetition_rate_hz, incubation, scallop_m);
            Ok(found?.into())
        })
    }
}
