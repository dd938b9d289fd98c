//! Z-offset and depth of focus behind a real single-piece lens.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::focus::spotwise_depth_criterion;
use crate::singlet::spotwise_singlet;
use crate::status::spotwise_status;
use spotwise::model::focus::{SingletDefocus, SingletDepth, singlet_defocus, singlet_depth_of_focus};
use spotwise::model::optics::SpotMeasure;

/// A surface off the focus of a single-piece lens: the result of spotwise_singlet_defocus().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_singlet_defocus_result {
    /// Size of this struct; spotwise_singlet_defocus_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply, those of the lens among them.
    pub validity: u32,
    /// Spot diameter on the surface in metres, by the measure asked for.
    pub diameter_m: f64,
    /// Spot diameter over waist diameter, at least 1.
    pub growth: f64,
    /// Growth less one, with all its digits however small it is.
    pub growth_minus_one: f64,
    /// Irradiance on the axis over that at the waist, at most 1.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist, at most 1.
    pub line_dose_ratio: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// Magnitude of the aberration phase over M^2: the number behind the flags of aberration.
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens, infinite without an aperture: the number behind
    /// the flags of clipping.
    pub clipping_ratio: f64,
    /// Magnitude of the focus shift of the ideal lens over its focal length: a number behind
    /// SPOTWISE_VALIDITY_FOCUS_SHIFTED.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens: the other
    /// number behind that flag.
    pub relative_rayleigh_range: f64,
}
plain!(
    spotwise_singlet_defocus_result, 88 bytes,
    words: [validity],
    numbers: [
        diameter_m,
        growth,
        growth_minus_one,
        irradiance_ratio,
        line_dose_ratio,
        half_angle_rad,
        normalised_aberration,
        clipping_ratio,
        relative_focus_shift,
        relative_rayleigh_range,
    ]
);

impl From<SingletDefocus> for spotwise_singlet_defocus_result {
    fn from(result: SingletDefocus) -> Self {
        let SingletDefocus { defocus, numbers } = result;
        Self {
            validity: defocus.validity.bits(),
            diameter_m: defocus.diameter,
            growth: defocus.growth,
            growth_minus_one: defocus.growth_minus_one,
            irradiance_ratio: defocus.irradiance_ratio,
            line_dose_ratio: defocus.line_dose_ratio,
            half_angle_rad: defocus.half_angle,
            normalised_aberration: numbers.normalised_aberration,
            clipping_ratio: numbers.clipping_ratio,
            relative_focus_shift: numbers.relative_focus_shift,
            relative_rayleigh_range: numbers.relative_rayleigh_range,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_singlet_defocus_result_init(result: *mut spotwise_singlet_defocus_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(result) }
}

/// Depth of focus behind a single-piece lens. Heights count from the waist of the measure asked for, + away
/// from the lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_singlet_depth {
    /// Size of this struct; spotwise_singlet_depth_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply, those of the lens among them.
    pub validity: u32,
    /// The end nearer the lens in metres.
    pub toward_lens_z_m: f64,
    /// The end farther from the lens in metres.
    pub away_from_lens_z_m: f64,
    /// From one end to the other in metres.
    pub full_m: f64,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// Magnitude of the aberration phase over M^2: the number behind the flags of aberration.
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens, infinite without an aperture: the number behind
    /// the flags of clipping.
    pub clipping_ratio: f64,
    /// Magnitude of the focus shift of the ideal lens over its focal length: a number behind
    /// SPOTWISE_VALIDITY_FOCUS_SHIFTED.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens: the other
    /// number behind that flag.
    pub relative_rayleigh_range: f64,
}
plain!(
    spotwise_singlet_depth, 72 bytes,
    words: [validity],
    numbers: [
        toward_lens_z_m,
        away_from_lens_z_m,
        full_m,
        half_angle_rad,
        normalised_aberration,
        clipping_ratio,
        relative_focus_shift,
        relative_rayleigh_range,
    ]
);

impl From<SingletDepth> for spotwise_singlet_depth {
    fn from(result: SingletDepth) -> Self {
        let SingletDepth { range, numbers } = result;
        Self {
            validity: range.validity.bits(),
            toward_lens_z_m: range.toward_lens_z,
            away_from_lens_z_m: range.away_from_lens_z,
            full_m: range.full,
            half_angle_rad: range.half_angle,
            normalised_aberration: numbers.normalised_aberration,
            clipping_ratio: numbers.clipping_ratio,
            relative_focus_shift: numbers.relative_focus_shift,
            relative_rayleigh_range: numbers.relative_rayleigh_range,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_singlet_depth_init(depth: *mut spotwise_singlet_depth) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(depth) }
}

/// Spot diameter, growth, irradiance and line dose behind a single-piece lens, on a surface that is off
/// the waist of this measure.
///
/// Irradiance and dose are over those in that waist. The beam is taken for a hyperbola about it: its
/// diameter is exact for second moments; for 86.5 % of the power the growth off focus is off by as much as
/// SPOTWISE_VALIDITY_ABERRATED says. Irradiance and dose are those of a Gaussian beam by either measure;
/// SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS says how far they are off. The result carries the flags of the lens, its aperture and its focus,
/// and the numbers behind them.
///
/// @param[in]  raw              raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  waist_to_lens_m  from the raw waist to the lens in metres, + when the waist lies
///                              upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS.
/// @param[in]  lens             lens; set with spotwise_singlet_init(); not NULL.
/// @param[in]  clear_aperture_m diameter of the clear aperture of lens or mount in metres, INFINITY
///                              for none; range: SPOTWISE_PARAM_CLEAR_APERTURE.
/// @param[in]  measure          SPOTWISE_SPOT_SECOND_MOMENT or SPOTWISE_SPOT_POWER_86;
///                              SPOTWISE_SPOT_HANDBOOK is refused as an unknown choice.
/// @param[in]  z_offset_m       offset of the surface from that waist in metres, + away from the lens;
///                              range: SPOTWISE_PARAM_Z_OFFSET.
/// @param[out] result           result; set with spotwise_singlet_defocus_result_init(); not NULL. On
///                              any status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error            what was refused; may be NULL.
/// @return as spotwise_focus_singlet(), with the offset checked last, and SPOTWISE_E_UNKNOWN_CHOICE also
///         for the measure, after the shape. SPOTWISE_E_OUTSIDE_MODEL also where the 86.5 %-power spot is
///         refused (SPOTWISE_VALIDITY_NO_POWER_86), as SPOTWISE_PARAM_NORMALISED_ABERRATION,
///         SPOTWISE_PARAM_CLIPPING_RATIO or SPOTWISE_PARAM_RAYLEIGH_RANGE.
///
/// Accuracy of evaluation: at most 4 ulp (units in the last place).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: those of spotwise_focus_singlet() and spotwise_defocus().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_singlet_defocus(
    raw: *const spotwise_beam,
    waist_to_lens_m: f64,
    lens: *const spotwise_singlet,
    clear_aperture_m: f64,
    measure: u32,
    z_offset_m: f64,
    result: *mut spotwise_singlet_defocus_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(result, error, || {
            let raw = input(raw)?.into();
            let lens = input(lens)?.try_into()?;
            let measure = SpotMeasure::from_code(measure)?;
            Ok(singlet_defocus(&raw, waist_to_lens_m, &lens, clear_aperture_m, measure, z_offset_m)?.into())
        })
    }
}

/// Depth of focus behind a single-piece lens, about the waist of this measure.
///
/// What the beam is taken for is told at spotwise_singlet_defocus(). So both ends lie equally far from
/// that waist; the true ends differ where the lens aberrates: spotwise_wave_depth_of_focus() finds them.
///
/// @param[in]  raw              raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  waist_to_lens_m  from the raw waist to the lens in metres, + when the waist lies
///                              upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS.
/// @param[in]  lens             lens; set with spotwise_singlet_init(); not NULL.
/// @param[in]  clear_aperture_m diameter of the clear aperture of lens or mount in metres, INFINITY
///                              for none; range: SPOTWISE_PARAM_CLEAR_APERTURE.
/// @param[in]  measure          SPOTWISE_SPOT_SECOND_MOMENT or SPOTWISE_SPOT_POWER_86;
///                              SPOTWISE_SPOT_HANDBOOK is refused as an unknown choice.
/// @param[in]  criterion        what counts as in focus; set with spotwise_depth_criterion_init(); not
///                              NULL.
/// @param[out] depth            result, counted from that waist; set with spotwise_singlet_depth_init();
///                              not NULL. On any status other than SPOTWISE_OK its numbers are set to a
///                              quiet NaN.
/// @param[out] error            what was refused; may be NULL.
/// @return as spotwise_singlet_defocus(), with the number in the criterion checked last;
///         SPOTWISE_E_UNKNOWN_CHOICE also for the criterion, after shape and measure, but before
///         SPOTWISE_SPOT_HANDBOOK is refused; SPOTWISE_E_UNREACHABLE (largest diameter below the waist).
///
/// Accuracy of evaluation: at most 4 ulp (units in the last place); for a largest diameter, that times
///                         r^2/(r^2 - 1), r being that diameter over the waist.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: those of spotwise_focus_singlet() and spotwise_depth_of_focus().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_singlet_depth_of_focus(
    raw: *const spotwise_beam,
    waist_to_lens_m: f64,
    lens: *const spotwise_singlet,
    clear_aperture_m: f64,
    measure: u32,
    criterion: *const spotwise_depth_criterion,
    depth: *mut spotwise_singlet_depth,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(depth, error, || {
            // Every pointer before any choice.
            let (raw, lens, criterion) = (input(raw)?, input(lens)?, input(criterion)?);
            let lens = lens.try_into()?;
            let measure = SpotMeasure::from_code(measure)?;
            let criterion = criterion.try_into()?;
            let depth = singlet_depth_of_focus(
                &raw.into(),
                waist_to_lens_m,
                &lens,
                clear_aperture_m,
                measure,
                criterion,
            )?;
            Ok(depth.into())
        })
    }
}
