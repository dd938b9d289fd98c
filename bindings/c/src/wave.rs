//! The rigorous focus of a clipped, aberrated, partially coherent beam.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, blank, length_fault, numbers, numbers_mut};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::model::optics::{
    FocusMeasure, Wave, WaveFocus, WaveIrradiance, WaveMap, WavePower, WaveWidths, wave_focus,
    wave_irradiance, wave_map, wave_map_workspace, wave_power, wave_widths,
};

/// A converging wave as a lens hands it on. State a clear aperture where there is one: it saves time
/// besides being true.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave {
    /// Size of this struct; spotwise_wave_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
    pub wavelength_m: f64,
    /// Beam propagation ratio M^2 before aperture and aberration, of a Gaussian Schell-model beam;
    /// range: SPOTWISE_PARAM_M2. Here at most 5.
    pub m2: f64,
    /// Diameter at the lens before the aperture in metres, 1/e^2 (D4 sigma); range:
    /// SPOTWISE_PARAM_DIAMETER_AT_LENS.
    pub diameter_at_lens_m: f64,
    /// Diameter of the clear aperture in metres, INFINITY for none; range:
    /// SPOTWISE_PARAM_CLEAR_APERTURE.
    pub clear_aperture_m: f64,
    /// From the lens to where the unaberrated wave would converge in metres; range:
    /// SPOTWISE_PARAM_LENS_TO_FOCUS. It is a member of spotwise_singlet_focus.
    pub lens_to_focus_m: f64,
    /// Quartic wavefront aberration at the 1/e^2 radius in radians, + where the edge focuses nearer the
    /// lens; range: SPOTWISE_PARAM_ABERRATION_PHASE. Here -6 to 6.
    pub aberration_phase_rad: f64,
}
plain!(
    spotwise_wave, 56 bytes,
    words: [reserved],
    numbers: [
        wavelength_m,
        m2,
        diameter_at_lens_m,
        clear_aperture_m,
        lens_to_focus_m,
        aberration_phase_rad,
    ]
);

impl From<spotwise_wave> for Wave {
    fn from(wave: spotwise_wave) -> Self {
        Self {
            wavelength: wave.wavelength_m,
            m2: wave.m2,
            diameter_at_lens: wave.diameter_at_lens_m,
            clear_aperture: wave.clear_aperture_m,
            lens_to_focus: wave.lens_to_focus_m,
            aberration_phase: wave.aberration_phase_rad,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_init(wave: *mut spotwise_wave) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(wave) }
}

/// Irradiance of a wave at one point: the result of spotwise_wave_irradiance().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave_irradiance_result {
    /// Size of this struct; spotwise_wave_irradiance_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
    pub validity: u32,
    /// Irradiance over that at the focus of the same beam without aperture and aberration.
    pub irradiance_ratio: f64,
    /// Irradiance for each watt before the aperture, in 1/m^2.
    pub irradiance_per_watt_per_m2: f64,
    /// Bound on the numerical error of irradiance_ratio.
    pub error_bound: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_wave_irradiance_result, 40 bytes,
    words: [validity],
    numbers: [irradiance_ratio, irradiance_per_watt_per_m2, error_bound, half_angle_rad]
);

impl From<WaveIrradiance> for spotwise_wave_irradiance_result {
    fn from(result: WaveIrradiance) -> Self {
        Self {
            validity: result.validity.bits(),
            irradiance_ratio: result.irradiance_ratio,
            irradiance_per_watt_per_m2: result.irradiance_per_watt,
            error_bound: result.error,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_irradiance_result_init(
    irradiance: *mut spotwise_wave_irradiance_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(irradiance) }
}

/// Power of a wave inside a circle about the axis: the result of spotwise_wave_power().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave_power_result {
    /// Size of this struct; spotwise_wave_power_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
    pub validity: u32,
    /// Share of the power before the aperture.
    pub share: f64,
    /// Share of the power that passes the aperture.
    pub share_of_transmitted: f64,
    /// Bound on the numerical error of share.
    pub error_bound: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_wave_power_result, 40 bytes,
    words: [validity],
    numbers: [share, share_of_transmitted, error_bound, half_angle_rad]
);

impl From<WavePower> for spotwise_wave_power_result {
    fn from(result: WavePower) -> Self {
        Self {
            validity: result.validity.bits(),
            share: result.share,
            share_of_transmitted: result.share_of_transmitted,
            error_bound: result.error,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_power_result_init(power: *mut spotwise_wave_power_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(power) }
}

/// Widths of a wave in one plane: the result of spotwise_wave_widths().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave_widths_result {
    /// Size of this struct; spotwise_wave_widths_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
    pub validity: u32,
    /// Irradiance on the axis over that at the focus of the same beam without aperture and aberration.
    pub irradiance_ratio: f64,
    /// Diameter of the outermost circle at 1/e^2 of the greatest irradiance in this plane, in metres.
    pub diameter_1e2_m: f64,
    /// Diameter of the outermost circle at half the greatest irradiance in this plane, in metres.
    pub fwhm_m: f64,
    /// Diameter that holds 86.4665 % of the transmitted power, in metres.
    pub diameter_power86_m: f64,
    /// Share of the power that passes the aperture.
    pub transmitted: f64,
    /// Bound on the relative numerical error of the diameters.
    pub error_bound: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_wave_widths_result, 64 bytes,
    words: [validity],
    numbers: [
        irradiance_ratio,
        diameter_1e2_m,
        fwhm_m,
        diameter_power86_m,
        transmitted,
        error_bound,
        half_angle_rad,
    ]
);

impl From<WaveWidths> for spotwise_wave_widths_result {
    fn from(result: WaveWidths) -> Self {
        Self {
            validity: result.validity.bits(),
            irradiance_ratio: result.irradiance_ratio,
            diameter_1e2_m: result.diameter_1e2,
            fwhm_m: result.fwhm,
            diameter_power86_m: result.diameter_power86,
            transmitted: result.transmitted,
            error_bound: result.error,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_widths_result_init(widths: *mut spotwise_wave_widths_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(widths) }
}

/// The best focus of a wave by one measure: the result of spotwise_wave_focus().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave_focus_result {
    /// Size of this struct; spotwise_wave_focus_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
    pub validity: u32,
    /// From where the unaberrated wave would converge to this plane in metres, + away from the lens.
    pub z_m: f64,
    /// Irradiance on the axis there over that at the focus of the same beam without aperture and
    /// aberration.
    pub irradiance_ratio: f64,
    /// Diameter that holds 86.4665 % of the transmitted power there, in metres.
    pub diameter_power86_m: f64,
    /// Second-moment (D4 sigma) diameter there in metres; NaN for a clipped beam, which has none.
    pub diameter_d4sigma_m: f64,
    /// Bound on the relative numerical error of the least diameter or greatest irradiance.
    pub error_bound: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_wave_focus_result, 56 bytes,
    words: [validity],
    numbers: [
        z_m,
        irradiance_ratio,
        diameter_power86_m,
        diameter_d4sigma_m,
        error_bound,
        half_angle_rad,
    ]
);

impl From<WaveFocus> for spotwise_wave_focus_result {
    fn from(result: WaveFocus) -> Self {
        Self {
            validity: result.validity.bits(),
            z_m: result.z,
            irradiance_ratio: result.irradiance_ratio,
            diameter_power86_m: result.diameter_power86,
            diameter_d4sigma_m: result.diameter_d4sigma,
            error_bound: result.error,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_focus_result_init(focus: *mut spotwise_wave_focus_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// What is known of a whole map of irradiances: the result of spotwise_wave_map().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_wave_map_result {
    /// Size of this struct; spotwise_wave_map_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
    pub validity: u32,
    /// Bound on the numerical error of every irradiance ratio of the map.
    pub error_bound: f64,
    /// Half angle of the cone behind the aperture in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_wave_map_result, 24 bytes,
    words: [validity],
    numbers: [error_bound, half_angle_rad]
);

impl From<WaveMap> for spotwise_wave_map_result {
    fn from(result: WaveMap) -> Self {
        Self {
            validity: result.validity.bits(),
            error_bound: result.error,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_wave_map_result_init(map: *mut spotwise_wave_map_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(map) }
}

/// Irradiance of a wave at one point, by the radial Fresnel integral.
///
/// Vector effects, places off the axis of the lens, other aberrations and mixtures of modes other than
/// Gaussian Schell are not modelled.
///
/// @param[in]  wave       wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  radius_m   distance from the axis in metres; range: SPOTWISE_PARAM_RADIUS.
/// @param[in]  z_m        from where the unaberrated wave would converge to the point in metres, + away
///                        from the lens; range: SPOTWISE_PARAM_Z.
/// @param[out] irradiance result; set with spotwise_wave_irradiance_result_init(); not NULL. On any
///                        status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (once the wave is checked: clipping ratio
///         below 0.2, half angle above 0.3 rad; once radius_m and z_m are: a plane at or before the lens
///         or beyond SPOTWISE_PARAM_NORMALISED_DEFOCUS, a radius beyond
///         SPOTWISE_PARAM_NORMALISED_RADIUS).
///
/// Accuracy: error_bound, at most 1e-11 of the ratio of an ideal focus. It bounds the numerical error
///           of the integral and says nothing of how well that describes a real beam.
/// No allocation, no globals, no errno; any thread or interrupt that has 52 kB of stack left; up to 1 ms
/// on a desktop core in ordinary cases. Since ABI 1.
/// Source: J. W. Goodman, Introduction to Fourier Optics, and L. Mandel, E. Wolf, Optical Coherence
/// and Quantum Optics, both from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_irradiance(
    wave: *const spotwise_wave,
    radius_m: f64,
    z_m: f64,
    irradiance: *mut spotwise_wave_irradiance_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(irradiance, error, || Ok(wave_irradiance(&input(wave)?.into(), radius_m, z_m)?.into())) }
}

/// Power of a wave inside a circle about the axis.
///
/// @param[in]  wave     wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  radius_m radius of the circle in metres; range: SPOTWISE_PARAM_RADIUS.
/// @param[in]  z_m      from where the unaberrated wave would converge to the plane in metres, + away
///                      from the lens; range: SPOTWISE_PARAM_Z.
/// @param[out] power    result; set with spotwise_wave_power_result_init(); not NULL. On any status
///                      other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_wave_irradiance().
///
/// Accuracy: error_bound, 1e-12 near the focus, 3e-9 at the greatest radius.
/// No allocation, no globals, no errno; any thread or interrupt that has 52 kB of stack left; up to 1 ms
/// on a desktop core in ordinary cases. Since ABI 1.
/// Source: as spotwise_wave_irradiance().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_power(
    wave: *const spotwise_wave,
    radius_m: f64,
    z_m: f64,
    power: *mut spotwise_wave_power_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(power, error, || Ok(wave_power(&input(wave)?.into(), radius_m, z_m)?.into())) }
}

/// Widths of a wave in one plane.
///
/// Those at 1/e^2 and at half are the outermost circles at which the irradiance falls through that share
/// of the greatest irradiance in the plane, on or off the axis; where a ring of an aberrated beam rises
/// above the share as z changes, they jump.
///
/// @param[in]  wave   wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  z_m    from where the unaberrated wave would converge to the plane in metres, + away
///                    from the lens; range: SPOTWISE_PARAM_Z.
/// @param[out] widths result; set with spotwise_wave_widths_result_init(); not NULL. On any status
///                    other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error  what was refused; may be NULL.
/// @return as spotwise_wave_irradiance().
///
/// Accuracy: error_bound, 1e-11 in usual planes; it grows without limit where a ring just touches the
///           share of a width.
/// No allocation, no globals, no errno; any thread or interrupt that has 52 kB of stack left; up to 3 ms
/// on a desktop core in ordinary cases. Since ABI 1.
/// Source: as spotwise_wave_irradiance().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_widths(
    wave: *const spotwise_wave,
    z_m: f64,
    widths: *mut spotwise_wave_widths_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(widths, error, || Ok(wave_widths(&input(wave)?.into(), z_m)?.into())) }
}

/// The best focus of a wave by one measure.
///
/// An aberrated wave has no single best focus: with t the phase in radians, and counted toward the lens in
/// Rayleigh ranges of M^2 = 1, the smallest second moment lies at 2t, the smallest 86.5 % spot at about
/// 2.2t and the brightest point at about 4t, for a small t.
///
/// @param[in]  wave    wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  measure what makes a plane the best: one of SPOTWISE_BEST_*.
/// @param[out] focus   result; set with spotwise_wave_focus_result_init(); not NULL. On any status
///                     other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error   what was refused; may be NULL.
/// @return as spotwise_wave_irradiance(), SPOTWISE_E_UNKNOWN_CHOICE (measure), and
///         SPOTWISE_E_OUTSIDE_MODEL also for SPOTWISE_BEST_SECOND_MOMENT with a clipping ratio below 5,
///         or if the best focus is not within SPOTWISE_PARAM_NORMALISED_DEFOCUS.
///
/// Accuracy: error_bound for the measure; the place agrees within 2e-7 Rayleigh ranges of M^2 = 1
///           with those found by other means.
/// No allocation, no globals, no errno; any thread or interrupt that has 58 kB of stack left; 0.4 to 50 ms
/// on a desktop core in ordinary cases, seconds with 6 rad and no aperture. Since ABI 1.
/// Source: as spotwise_wave_irradiance().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_focus(
    wave: *const spotwise_wave,
    measure: u32,
    focus: *mut spotwise_wave_focus_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focus, error, || {
            let wave = input(wave)?.into();
            Ok(wave_focus(&wave, FocusMeasure::from_code(measure)?)?.into())
        })
    }
}

/// How many numbers of working space spotwise_wave_map() needs for these places.
///
/// Some 50 000 to 170 000 for a live plot without an aperture, a tenth of that with one; 1.6 million at
/// the most.
///
/// @param[in]  wave     wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  radius_m radii distances from the axis in metres; not NULL unless radii is 0; range:
///                      SPOTWISE_PARAM_RADIUS.
/// @param[in]  radii    length of radius_m; may be 0.
/// @param[in]  z_m      planes distances from where the unaberrated wave would converge in metres, +
///                      away from the lens; not NULL unless planes is 0; range: SPOTWISE_PARAM_Z.
/// @param[in]  planes   length of z_m; may be 0.
/// @param[out] length   that many numbers; not NULL. On any status other than SPOTWISE_OK it is set to
///                      0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_wave_irradiance(), all radii before all planes, and SPOTWISE_E_LENGTH_MISMATCH
///         (an array is longer than memory can hold).
///
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_map_workspace(
    wave: *const spotwise_wave,
    radius_m: *const f64,
    radii: usize,
    z_m: *const f64,
    planes: usize,
    length: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their numbers, as the header demands.
    unsafe {
        report(length, error, || {
            let wave = input(wave)?.into();
            let inputs = [Extent::of(radius_m, radii), Extent::of(z_m, planes)];
            let too_long = || length_fault(Param::Output, radii).or(length_fault(Param::Output, planes));
            match array_fault(&inputs, &[]).or_else(too_long) {
                None => Ok(wave_map_workspace(&wave, numbers(radius_m, radii), numbers(z_m, planes))?),
                Some(fault) => Err(fault),
            }
        })
    }
}

/// Irradiance of a wave over radius and height: irradiance_ratio[j * radii + i] belongs to radius_m[i]
/// and z_m[j], over that at the focus of the same beam without aperture and aberration.
///
/// @param[in]  wave             wave to read; set with spotwise_wave_init(); not NULL.
/// @param[in]  radius_m         radii distances from the axis in metres; not NULL unless radii is 0;
///                              range: SPOTWISE_PARAM_RADIUS.
/// @param[in]  radii            length of radius_m; may be 0.
/// @param[in]  z_m              planes distances from where the unaberrated wave would converge in
///                              metres, + away from the lens; not NULL unless planes is 0; range:
///                              SPOTWISE_PARAM_Z.
/// @param[in]  planes           length of z_m; may be 0.
/// @param[out] workspace        working space of workspace_length numbers; not NULL unless that is 0.
///                              What it holds afterwards means nothing.
/// @param[in]  workspace_length at least what spotwise_wave_map_workspace() says.
/// @param[out] irradiance_ratio radii * planes numbers; not NULL unless that is 0. Neither it nor
///                              workspace may overlap another array. On any status other than
///                              SPOTWISE_OK all of it is set to quiet NaNs, but for a length that no
///                              array can have: then nothing is written to the arrays.
/// @param[out] map              bound on the error of the numbers, cone and flags; set with
///                              spotwise_wave_map_result_init(); not NULL. On any status other than
///                              SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error            what was refused; may be NULL.
/// @return as spotwise_wave_irradiance(), all radii before all planes, SPOTWISE_E_OVERLAP, and
///         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold, or too little working space, as
///         SPOTWISE_PARAM_WORKSPACE).
///
/// Accuracy: error_bound of the result, about 1e-10 for a focus of ratio 1.
/// No allocation, no globals, no errno; any thread or interrupt that has 16 kB of stack left; 128 by 128
/// points take 1 to 18 ms on a desktop core, 90 ms for M^2 from 1 to 1.044. Since ABI 1.
/// Source: as spotwise_wave_irradiance().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_wave_map(
    wave: *const spotwise_wave,
    radius_m: *const f64,
    radii: usize,
    z_m: *const f64,
    planes: usize,
    workspace: *mut f64,
    workspace_length: usize,
    irradiance_ratio: *mut f64,
    map: *mut spotwise_wave_map_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let arrays = Map { radius_m, radii, z_m, planes, workspace, workspace_length, irradiance_ratio };
    // SAFETY: pointers are NULL or valid, those to arrays for their numbers, as the header demands.
    unsafe {
        let last_fault = pointer_fault(map).or(error_pointer_fault(error));
        report(map, error, || Ok(fill_map(wave, &arrays, last_fault)?.into()))
    }
}

/// The arrays of one call.
struct Map {
    radius_m: *const f64,
    radii: usize,
    z_m: *const f64,
    planes: usize,
    workspace: *mut f64,
    workspace_length: usize,
    irradiance_ratio: *mut f64,
}

impl Map {
    /// Length of the output. One that overflows is longer than any array all the same.
    fn count(&self) -> usize {
        self.radii.saturating_mul(self.planes)
    }

    /// The fault of an array that no memory can hold.
    fn length_fault(&self) -> Option<Fault> {
        let outputs = [self.radii, self.planes, self.count()].into_iter().max().unwrap_or(0);
        length_fault(Param::Output, outputs).or(length_fault(Param::Workspace, self.workspace_length))
    }
}

/// Fills the map: with irradiances, of which it returns what is known, or with NaN on a fault.
///
/// # Safety
/// Pointers are NULL or valid, those to arrays for their numbers.
unsafe fn fill_map(
    wave: *const spotwise_wave,
    map: &Map,
    last_fault: Option<Fault>,
) -> Result<WaveMap, Fault> {
    let count = map.count();
    let inputs = [Extent::of(map.radius_m, map.radii), Extent::of(map.z_m, map.planes)];
    let outputs = [Extent::of(map.workspace, map.workspace_length), Extent::of(map.irradiance_ratio, count)];
    let arrays = array_fault(&inputs, &outputs);
    // SAFETY: NULL or readable, as the caller vouches.
    let wave = unsafe { input(wave) };
    let pointers = wave.and_then(|wave| arrays.or(last_fault).map_or(Ok(Wave::from(wave)), Err));
    // No array is so long, so there is none to make blank.
    if let Some(fault) = map.length_fault() {
        return pointers.and(Err(fault));
    }
    // SAFETY: NULL or writable for their numbers, as the caller vouches.
    unsafe {
        blank(map.workspace, map.workspace_length);
        blank(map.irradiance_ratio, count);
    }
    let wave = pointers?;
    // SAFETY: not NULL unless empty, valid for their numbers as the caller vouches, apart, blank.
    let (radii, z, workspace, irradiance_ratios) = unsafe {
        (
            numbers(map.radius_m, map.radii),
            numbers(map.z_m, map.planes),
            numbers_mut(map.workspace, map.workspace_length),
            numbers_mut(map.irradiance_ratio, count),
        )
    };
    Ok(wave_map(&wave, radii, z, workspace, irradiance_ratios)?)
}
