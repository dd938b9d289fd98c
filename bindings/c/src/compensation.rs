//! Compensation for a known defocus.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::Error;
use spotwise::model::mark::{
    Compensation, CompensationLimits, CompensationRule, MarkKind, MarkSetting, compensate,
};

/// How a mark is made in focus, and how far power and speed may go.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_setting {
    /// Size of this struct; spotwise_mark_setting_init() sets it.
    pub struct_size: u32,
    /// What makes the mark: one of SPOTWISE_MARK_*.
    pub mark_kind: u32,
    /// Dose in the waist over the dose at which the material just marks; range:
    /// SPOTWISE_PARAM_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Power in watts; range: SPOTWISE_PARAM_POWER.
    pub power_w: f64,
    /// Speed in m/s; range: SPOTWISE_PARAM_SPEED.
    pub speed_m_per_s: f64,
    /// Greatest power in watts, at least power_w; range: SPOTWISE_PARAM_GREATEST_POWER.
    pub greatest_power_w: f64,
    /// Least speed in m/s, at most speed_m_per_s; range: SPOTWISE_PARAM_LEAST_SPEED.
    pub least_speed_m_per_s: f64,
    /// Greatest speed in m/s, at least speed_m_per_s; range: SPOTWISE_PARAM_GREATEST_SPEED.
    pub greatest_speed_m_per_s: f64,
    /// Least irradiance on the axis over that in the waist before; 0 if it does not matter; range:
    /// SPOTWISE_PARAM_LEAST_IRRADIANCE_RATIO.
    pub least_irradiance_ratio: f64,
}
plain!(
    spotwise_mark_setting, 64 bytes,
    words: [mark_kind],
    numbers: [
        dose_ratio,
        power_w,
        speed_m_per_s,
        greatest_power_w,
        least_speed_m_per_s,
        greatest_speed_m_per_s,
        least_irradiance_ratio,
    ]
);

impl TryFrom<spotwise_mark_setting> for MarkSetting {
    type Error = Error;

    fn try_from(setting: spotwise_mark_setting) -> Result<Self, Error> {
        Ok(Self {
            kind: MarkKind::from_code(setting.mark_kind)?,
            dose_ratio: setting.dose_ratio,
            power: setting.power_w,
            speed: setting.speed_m_per_s,
            greatest_power: setting.greatest_power_w,
            least_speed: setting.least_speed_m_per_s,
            greatest_speed: setting.greatest_speed_m_per_s,
            least_irradiance_ratio: setting.least_irradiance_ratio,
        })
    }
}

/// Sets struct_size, the kind of mark to 0, which is none, and every number to a quiet NaN. NULL
/// does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_setting_init(setting: *mut spotwise_mark_setting) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(setting) }
}

/// Power and speed that make up for a defocus: the result of spotwise_compensate().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_compensation {
    /// Size of this struct; spotwise_compensation_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// SPOTWISE_LIMIT_* bits of the limits that are met.
    pub limits: u32,
    /// 0.
    pub reserved: u32,
    /// Dose factor that the rule asks for.
    pub wanted_factor: f64,
    /// Dose factor that power and speed below give.
    pub reached_factor: f64,
    /// Power in watts.
    pub power_w: f64,
    /// Speed in m/s.
    pub speed_m_per_s: f64,
    /// Irradiance on the axis over that in the waist before.
    pub irradiance_ratio: f64,
    /// Dose ratio at the offset, with that power and speed.
    pub dose_ratio: f64,
    /// Width of the mark in metres, with that power and speed; 0 if there is none.
    pub mark_width_m: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_compensation, 80 bytes,
    words: [validity, limits, reserved],
    numbers: [
        wanted_factor,
        reached_factor,
        power_w,
        speed_m_per_s,
        irradiance_ratio,
        dose_ratio,
        mark_width_m,
        half_angle_rad,
    ]
);

impl From<Compensation> for spotwise_compensation {
    fn from(result: Compensation) -> Self {
        Self {
            validity: result.validity.bits(),
            limits: result.limits.bits(),
            wanted_factor: result.wanted_factor,
            reached_factor: result.reached_factor,
            power_w: result.power,
            speed_m_per_s: result.speed,
            irradiance_ratio: result.irradiance_ratio,
            dose_ratio: result.dose_ratio,
            mark_width_m: result.mark_width,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_compensation_init(compensation: *mut spotwise_compensation) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(compensation) }
}

/// Power and speed that make up for a known defocus by a rule, within limits.
///
/// Dose factor g^n for the same dose, g^n q^(1/g^2 - 1) for the same width, e^(n/2) g^n/q for the
/// width that does not react to focus; g being the growth of the spot and n 2 for a pulse, 1 for a
/// line. Power is changed first (lowered where less dose is wanted), since only power brings back irradiance,
/// and raised for the least irradiance with the speed raised in step; speed makes up the rest, for a pulse it stays. A rule that cannot be met is no
/// error: the nearest setting is returned, with the limits that bind and the dose factor reached. A raster
/// fill needs no compensation. At the same line dose the irradiance still falls, so that vaporising may
/// turn into melting (common practice, no source). The setting is advice: mark a test piece first, and
/// stay within the machine's manual.
///
/// @param[in]  beam         beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  z_offset_m   offset of the surface from the waist in metres, + away from the lens;
///                          range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[in]  rule         what is to be as it was in focus: one of SPOTWISE_COMPENSATION_*.
/// @param[in]  setting      setting to read; set with spotwise_mark_setting_init(); not NULL.
/// @param[out] compensation result; set with spotwise_compensation_init(); not NULL. On any status
///                          other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
///                          and flags to 0.
/// @param[out] error        what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         rule, then the kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
///         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
///
/// Accuracy: factors, power and speed at most 6 ulp (units in the last place) of the exact result, for the
///           same width times 1 + (1 - 1/g^2) ln q, q being the dose ratio and g the growth;
///           the width of the mark that times 1 + 1/ln(dose ratio at the offset).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a line of 20 W at 0.5 m/s, at most 25 W, 10.6 um, M^2 = 1.2, waist 88 um, 0.5 mm off:
///          25 W at 0.432 m/s.
/// Source: derived by the authors from the laws of spotwise_mark_width().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_compensate(
    beam: *const spotwise_beam,
    z_offset_m: f64,
    rule: u32,
    setting: *const spotwise_mark_setting,
    compensation: *mut spotwise_compensation,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(compensation, error, || {
            let (beam, setting) = (input(beam)?.into(), input(setting)?);
            let rule = CompensationRule::from_code(rule)?;
            Ok(compensate(&beam, z_offset_m, rule, &setting.try_into()?)?.into())
        })
    }
}

const SENTENCES: [&str; CompensationLimits::ALL.len()] = sentences!(CompensationLimits);
texts!(LIMITS, SENTENCES);

/// One sentence for a limit that a compensation meets; "unknown" unless exactly one bit is given.
///
/// @param[in] limit one bit, one of SPOTWISE_LIMIT_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_limit_text(limit: u32) -> *const c_char {
    text_of_bit(&LIMITS, limit)
}
