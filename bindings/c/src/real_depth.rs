//! Depth of focus of clipped and aberrated beams.

use crate::abi::{Plain, init, input, plain, report};
use crate::error::spotwise_error;
use crate::focus::spotwise_depth_criterion;
use crate::status::spotwise_status;
use crate::wave::spotwise_wave;
use spotwise::model::focus::{ClippedDepth, WaveDepth, clipped_depth_of_focus, wave_depth_of_focus};

/// Depth of focus of a clipped beam. Heights count from the focal point, + away from the lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_clipped_depth {
    /// Size of this struct; spotwise_clipped_depth_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// The end nearer the lens in metres.
    pub toward_lens_z_m: f64,
    /// The end farther from the lens in metres.
    pub away_from_lens_z_m: f64,
    /// From one end to the other in metres.
    pub full_m: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// The brightest place on the axis in metres.
    pub brightest_z_m: f64,
    /// Clear aperture over 1/e^2 beam diameter; infinite without an aperture.
    pub clipping_ratio: f64,
    /// Rayleigh range 4 * wavelength * f^2/(pi * D^2), D being the narrower of beam and aperture,
    /// over the focal length: a number behind SPOTWISE_VALIDITY_FOCUS_SHIFTED.
    pub relative_rayleigh_range: f64,
    /// Half of the full range over the focal length: the other number behind that flag.
    pub relative_half_depth: f64,
}
plain!(
    spotwise_clipped_depth, 72 bytes,
    words: [validity],
    numbers: [
        toward_lens_z_m,
        away_from_lens_z_m,
        full_m,
        half_angle_rad,
        brightest_z_m,
        clipping_ratio,
        relative_rayleigh_range,
        relative_half_depth,
    ]
);

impl From<ClippedDepth> for spotwise_clipped_depth {
    fn from(result: ClippedDepth) -> Self {
        Self {
            validity: result.range.validity.bits(),
            toward_lens_z_m: result.range.toward_lens_z,
            away_from_lens_z_m: result.range.away_from_lens_z,
            full_m: result.range.full,
            half_angle_rad: result.range.half_angle,
            brightest_z_m: result.brightest_z,
            clipping_ratio: result.clipping_ratio,
            relative_rayleigh_range: result.relative_rayleigh_range,
            relative_half_depth: result.relative_half_depth,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_clipped_depth_init(depth: *mut spotwise_clipped_depth) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(depth) }
}

/// Depth of focus of a wave, about its best focus.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave_depth {
    /// Size of this struct; spotwise_wave_depth_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// From where the unaberrated wave would converge to the best focus in metres, + away from the
    /// lens.
    pub best_z_m: f64,
    /// The end nearer the lens in metres, counted from the best focus, + away from the lens. The two
    /// ends differ in length where the lens aberrates.
    pub toward_lens_z_m: f64,
    /// The end farther from the lens in metres, counted from the best focus.
    pub away_from_lens_z_m: f64,
    /// From one end to the other in metres.
    pub full_m: f64,
    /// Bound on the numerical error of the ends in metres.
    pub error_bound_m: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_wave_depth, 56 bytes,
    words: [validity],
    numbers: [best_z_m, toward_lens_z_m, away_from_lens_z_m, full_m, error_bound_m, half_angle_rad]
);

impl From<WaveDepth> for spotwise_wave_depth {
    fn from(result: WaveDepth) -> Self {
        Self {
            validity: result.range.validity.bits(),
            best_z_m: result.best_z,
            toward_lens_z_m: result.range.toward_lens_z,
            away_from_lens_z_m: result.range.away_from_lens_z,
            full_m: result.range.full,
            error_bound_m: result.error,
            half_angle_rad: result.range.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_depth_init(depth: *mut spotwise_wave_depth) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(depth) }
}

/// Depth of focus of a collimated Gaussian beam (M^2 = 1) behind an aperture at an ideal lens: where
/// the irradiance on the axis is below its greatest by at most this share. Heights count from the focal
/// point.
///
/// Exact for the Fresnel integral, for a long focus too: the two ends differ, since light is brighter
/// nearer the lens, and SPOTWISE_VALIDITY_FOCUS_SHIFTED says only that they do so visibly. In a long focus
/// both ends may lie on the lens side of the focal point. For M^2 above 1 or aberration use
/// spotwise_wave_depth_of_focus(). C does not notice if two of the lengths are swapped: beam,
/// aperture, lens.
///
/// @param[in]  wavelength_m       vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  diameter_at_lens_m diameter of the beam before the aperture in metres, 1/e^2; range:
///                                SPOTWISE_PARAM_DIAMETER_AT_LENS.
/// @param[in]  clear_aperture_m   diameter of the aperture in metres, INFINITY for none; range:
///                                SPOTWISE_PARAM_CLEAR_APERTURE.
/// @param[in]  focal_length_m     focal length in metres, converging; range:
///                                SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[in]  irradiance_drop    share lost, 0.2 for a fifth; range: SPOTWISE_PARAM_IRRADIANCE_DROP.
///                                Here 0.01 to 0.9.
/// @param[out] depth              result; set with spotwise_clipped_depth_init(); not NULL. On any status
///                                other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error              what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (clipping ratio below 0.2, or half angle
///         above 0.3 rad, both before irradiance_drop is looked at).
///
/// Accuracy: at most 8 ulp (units in the last place) times 1 + c, where c is what the problem makes of an
///           error in the irradiance: near 1/(2 * irradiance_drop) in a sharp focus, and large only for
///           an end that happens to lie at the focal point.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors from the Fresnel integral on the axis.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_clipped_depth_of_focus(
    wavelength_m: f64,
    diameter_at_lens_m: f64,
    clear_aperture_m: f64,
    focal_length_m: f64,
    irradiance_drop: f64,
    depth: *mut spotwise_clipped_depth,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(depth, error, || {
            let depth = clipped_depth_of_focus(
                wavelength_m,
                diameter_at_lens_m,
                clear_aperture_m,
                focal_length_m,
                irradiance_drop,
            )?;
            Ok(depth.into())
        })
    }
}

/// Depth of focus of a clipped, aberrated, partially coherent wave, about its best focus.
///
/// Growth, Rayleigh and largest diameter are told by the diameter that holds 86.5 % of the transmitted
/// power, about the plane where that is smallest; irradiance drop by the irradiance on the axis, about
/// its brightest plane. The range is the connected one that holds the best focus;
/// SPOTWISE_VALIDITY_SECOND_RANGE says that the criterion is met again farther off.
///
/// @param[in]  wave      wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not NULL.
///                       SPOTWISE_CRITERION_LINE_DOSE_DROP is refused as an unknown choice.
/// @param[out] depth     result; set with spotwise_wave_depth_init(); not NULL. On any status other
///                       than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error     what was refused; may be NULL.
/// @return as spotwise_wave_irradiance(), SPOTWISE_E_UNKNOWN_CHOICE (criterion), and
///         SPOTWISE_E_UNREACHABLE (largest diameter below the least). SPOTWISE_E_OUTSIDE_MODEL also if
///         an end lies beyond SPOTWISE_PARAM_NORMALISED_DEFOCUS.
///
/// Accuracy: error_bound_m.
/// No allocation, no globals, no errno; any thread or interrupt that has 58 kB of stack left; 1 ms to
/// 0.2 s on a desktop core in ordinary cases. Since ABI 1.
/// Source: as spotwise_wave_irradiance().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_depth_of_focus(
    wave: *const spotwise_wave,
    criterion: *const spotwise_depth_criterion,
    depth: *mut spotwise_wave_depth,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(depth, error, || {
            let wave = input(wave)?.into();
            let criterion = input(criterion)?.try_into()?;
            Ok(wave_depth_of_focus(&wave, criterion)?.into())
        })
    }
}
