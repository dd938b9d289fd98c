//! The single-piece lens: shape, aberration, and the spot it really makes.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::lens::spotwise_focused_beam;
use crate::status::spotwise_status;
use spotwise::Error;
use spotwise::model::optics::{
    AberratedWaist, AberrationGrowth, LensAberration, LensForm, LensShape, Singlet, SingletFocus,
    SmallestSpot, SpotMeasure, aberration_growth, focus_singlet, lens_aberration, lens_from_radii,
    smallest_spot,
};

/// A single-piece thin lens with spherical surfaces.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_singlet {
    /// Size of this struct; spotwise_singlet_init() sets it.
    pub struct_size: u32,
    /// One of SPOTWISE_SHAPE_*.
    pub lens_shape: u32,
    /// Refractive index at the working wavelength, as spotwise_refractive_index() tells it; range:
    /// SPOTWISE_PARAM_REFRACTIVE_INDEX.
    pub index: f64,
    /// Shape factor (R2 + R1)/(R2 - R1): 0 is equiconvex, +1 has its curved side toward the laser;
    /// for SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
    pub shape_factor: f64,
    /// Focal length at the working wavelength in metres, + converging; range:
    /// SPOTWISE_PARAM_FOCAL_LENGTH.
    pub focal_length_m: f64,
}
plain!(
    spotwise_singlet, 32 bytes,
    words: [lens_shape],
    numbers: [index, shape_factor, focal_length_m]
);

impl TryFrom<spotwise_singlet> for Singlet {
    type Error = Error;

    fn try_from(lens: spotwise_singlet) -> Result<Self, Error> {
        Ok(Self {
            index: lens.index,
            shape: LensShape::from_code(lens.lens_shape, lens.shape_factor)?,
            focal_length: lens.focal_length_m,
        })
    }
}

/// Sets struct_size, the shape to 0, which is none, and every number to a quiet NaN. NULL does
/// nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_singlet_init(lens: *mut spotwise_singlet) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(lens) }
}

/// A thin lens as its two radii make it.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_lens_form {
    /// Size of this struct; spotwise_lens_form_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Focal length in metres, + converging.
    pub focal_length_m: f64,
    /// Shape factor (R2 + R1)/(R2 - R1).
    pub shape_factor: f64,
}
plain!(spotwise_lens_form, 24 bytes, words: [reserved], numbers: [focal_length_m, shape_factor]);

impl From<LensForm> for spotwise_lens_form {
    fn from(form: LensForm) -> Self {
        Self { focal_length_m: form.focal_length, shape_factor: form.shape_factor, ..Self::BLANK }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_lens_form_init(form: *mut spotwise_lens_form) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(form) }
}

/// Third-order spherical aberration of a lens for a distant source: the result of
/// spotwise_lens_aberration().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_lens_aberration_result {
    /// Size of this struct; spotwise_lens_aberration_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Shape factor.
    pub shape_factor: f64,
    /// k in blur = k * D^3 / f^2, the circle of least confusion of a sharp-edged bundle of diameter D.
    pub blur_coefficient: f64,
    /// C4 in W = C4 * r^4, the wavefront error in metres at the distance r from the axis, in 1/m^3.
    pub wavefront_coefficient_per_m3: f64,
}
plain!(
    spotwise_lens_aberration_result, 32 bytes,
    words: [reserved],
    numbers: [shape_factor, blur_coefficient, wavefront_coefficient_per_m3]
);

impl From<LensAberration> for spotwise_lens_aberration_result {
    fn from(result: LensAberration) -> Self {
        Self {
            shape_factor: result.shape_factor,
            blur_coefficient: result.blur_coefficient,
            wavefront_coefficient_per_m3: result.wavefront_coefficient,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_lens_aberration_result_init(
    aberration: *mut spotwise_lens_aberration_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(aberration) }
}

/// What quartic aberration does to a focus: the result of spotwise_aberration_growth().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_aberration_growth_result {
    /// Size of this struct; spotwise_aberration_growth_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// M^2 of the aberrated beam by second moments.
    pub second_moment_m2: f64,
    /// Second-moment (D4 sigma) waist over the ideal waist.
    pub second_moment_growth: f64,
    /// From the ideal to the second-moment waist, in ideal Rayleigh ranges, + away from the lens.
    pub second_moment_shift: f64,
    /// Least diameter that holds 86.5 % of the power, over the ideal waist; NaN, as the next, if
    /// refused (SPOTWISE_VALIDITY_NO_POWER_86).
    pub power86_growth: f64,
    /// From the ideal waist to the plane of that least diameter, in ideal Rayleigh ranges, + away
    /// from the lens.
    pub power86_shift: f64,
    /// Handbook upper estimate of that growth: diffraction and blur added.
    pub handbook_growth: f64,
    /// Lower end of the bracket: diffraction and blur added as squares.
    pub quadrature_growth: f64,
    /// Greatest irradiance on the axis over that of the ideal focus; NaN if refused.
    pub peak_irradiance_ratio: f64,
    /// Magnitude of the aberration phase over M^2: the number behind the flags.
    pub normalised_aberration: f64,
}
plain!(
    spotwise_aberration_growth_result, 80 bytes,
    words: [validity],
    numbers: [
        second_moment_m2,
        second_moment_growth,
        second_moment_shift,
        power86_growth,
        power86_shift,
        handbook_growth,
        quadrature_growth,
        peak_irradiance_ratio,
        normalised_aberration,
    ]
);

impl From<AberrationGrowth> for spotwise_aberration_growth_result {
    fn from(result: AberrationGrowth) -> Self {
        Self {
            validity: result.validity.bits(),
            second_moment_m2: result.second_moment_m2,
            second_moment_growth: result.second_moment_growth,
            second_moment_shift: result.second_moment_shift,
            power86_growth: result.power86_growth,
            power86_shift: result.power86_shift,
            handbook_growth: result.handbook_growth,
            quadrature_growth: result.quadrature_growth,
            peak_irradiance_ratio: result.peak_irradiance_ratio,
            normalised_aberration: result.normalised_aberration,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_aberration_growth_result_init(
    growth: *mut spotwise_aberration_growth_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(growth) }
}

/// The focus of a real lens by one measure: a beam about a waist of its own. What it does off focus is
/// told by spotwise_singlet_defocus() and spotwise_singlet_depth_of_focus(), whose results carry the
/// flags of the lens on; a spotwise_beam put together from these numbers would not.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_aberrated_waist {
    /// Size of this struct; set where it is part of a spotwise_singlet_focus.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Waist diameter in metres, by the measure that the name of the member tells.
    pub waist_diameter_m: f64,
    /// M^2 that gives this waist this Rayleigh range.
    pub m2: f64,
    /// Distance from the waist at which its diameter has grown by sqrt(2), in metres.
    pub rayleigh_range_m: f64,
    /// From the ideal waist to this one in metres, + away from the lens.
    pub shift_m: f64,
    /// From the lens to this waist in metres.
    pub lens_to_waist_m: f64,
}
plain!(
    spotwise_aberrated_waist, 48 bytes,
    words: [reserved],
    numbers: [waist_diameter_m, m2, rayleigh_range_m, shift_m, lens_to_waist_m]
);

impl From<AberratedWaist> for spotwise_aberrated_waist {
    fn from(waist: AberratedWaist) -> Self {
        Self {
            waist_diameter_m: waist.waist_diameter,
            m2: waist.m2,
            rayleigh_range_m: waist.rayleigh_range,
            shift_m: waist.shift,
            lens_to_waist_m: waist.lens_to_waist,
            ..Self::BLANK
        }
    }
}

/// What a real single-piece lens makes of a beam.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_singlet_focus {
    /// Size of this struct; spotwise_singlet_focus_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Handbook upper estimate of the spot diameter in metres: diffraction and blur added.
    pub handbook_diameter_m: f64,
    /// Lower end of the bracket in metres: diffraction and blur added as squares.
    pub quadrature_diameter_m: f64,
    /// Greatest irradiance on the axis over that of the ideal focus; NaN if refused.
    pub peak_irradiance_ratio: f64,
    /// Shape factor of the lens.
    pub shape_factor: f64,
    /// Quartic wavefront aberration at the 1/e^2 radius in radians, + where the edge of the beam
    /// focuses nearer the lens.
    pub aberration_phase_rad: f64,
    /// Magnitude of the aberration phase over M^2.
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens; infinite without an aperture.
    pub clipping_ratio: f64,
    /// Share of the power that passes the aperture.
    pub transmitted: f64,
    /// Magnitude of the focus shift of the ideal lens over its focal length.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens.
    pub relative_rayleigh_range: f64,
    /// From the lens to where the beam would converge by rays, without diffraction and aberration, in
    /// metres: the lens_to_focus_m that a spotwise_wave asks for. Infinite where it would be collimated.
    pub lens_to_focus_m: f64,
    /// Greatest 1/e^2 half angle in radians, of the raw beam, the ideal focus or that by second
    /// moments: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// What an ideal lens of the same focal length would have made of it. Its validity is that of
    /// the cones and does not say what the real lens's does.
    pub ideal: spotwise_focused_beam,
    /// The waist by second moments (D4 sigma), exact for a quartic wavefront without clipping.
    pub second_moment: spotwise_aberrated_waist,
    /// The least diameter that holds 86.5 % of the power, by a fitted closed form; NaN if refused
    /// (SPOTWISE_VALIDITY_NO_POWER_86).
    pub power86: spotwise_aberrated_waist,
}
plain!(
    spotwise_singlet_focus, 272 bytes,
    words: [validity],
    numbers: [
        handbook_diameter_m,
        quadrature_diameter_m,
        peak_irradiance_ratio,
        shape_factor,
        aberration_phase_rad,
        normalised_aberration,
        clipping_ratio,
        transmitted,
        relative_focus_shift,
        relative_rayleigh_range,
        lens_to_focus_m,
        half_angle_rad,
    ],
    nested: [
        ideal: spotwise_focused_beam,
        second_moment: spotwise_aberrated_waist,
        power86: spotwise_aberrated_waist,
    ]
);

impl From<SingletFocus> for spotwise_singlet_focus {
    fn from(result: SingletFocus) -> Self {
        Self {
            validity: result.validity.bits(),
            handbook_diameter_m: result.handbook_diameter,
            quadrature_diameter_m: result.quadrature_diameter,
            peak_irradiance_ratio: result.peak_irradiance_ratio,
            shape_factor: result.shape_factor,
            aberration_phase_rad: result.aberration_phase,
            normalised_aberration: result.normalised_aberration,
            clipping_ratio: result.clipping_ratio,
            transmitted: result.transmitted,
            relative_focus_shift: result.relative_focus_shift,
            relative_rayleigh_range: result.relative_rayleigh_range,
            lens_to_focus_m: result.lens_to_focus,
            half_angle_rad: result.half_angle,
            ideal: result.ideal.into(),
            second_moment: result.second_moment.into(),
            power86: result.power86.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the nested structs, flags to 0, and every number to a quiet NaN. NULL
/// does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_singlet_focus_init(focus: *mut spotwise_singlet_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// The beam that a lens focuses to its smallest spot: the result of spotwise_smallest_spot().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_smallest_spot_result {
    /// Size of this struct; spotwise_smallest_spot_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Diameter of the collimated beam at the lens in metres, 1/e^2 (D4 sigma).
    pub diameter_at_lens_m: f64,
    /// The spot diameter that it makes in metres, by the measure asked for.
    pub spot_diameter_m: f64,
    /// Aberration phase at the 1/e^2 radius of that beam in radians.
    pub aberration_phase_rad: f64,
    /// Magnitude of the aberration phase over M^2.
    pub normalised_aberration: f64,
    /// Rayleigh range of the ideal waist over the focal length: the number behind
    /// SPOTWISE_VALIDITY_FOCUS_SHIFTED.
    pub relative_rayleigh_range: f64,
    /// Half angle of the converging cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_smallest_spot_result, 56 bytes,
    words: [validity],
    numbers: [
        diameter_at_lens_m,
        spot_diameter_m,
        aberration_phase_rad,
        normalised_aberration,
        relative_rayleigh_range,
        half_angle_rad,
    ]
);

impl From<SmallestSpot> for spotwise_smallest_spot_result {
    fn from(result: SmallestSpot) -> Self {
        Self {
            validity: result.validity.bits(),
            diameter_at_lens_m: result.diameter_at_lens,
            spot_diameter_m: result.spot_diameter,
            aberration_phase_rad: result.aberration_phase,
            normalised_aberration: result.normalised_aberration,
            relative_rayleigh_range: result.relative_rayleigh_range,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_smallest_spot_result_init(spot: *mut spotwise_smallest_spot_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(spot) }
}

/// Focal length and shape factor of a thin lens with these two spherical surfaces.
///
/// A radius is + where the centre of the sphere lies on the far side of the surface, so that a
/// biconvex lens has a first radius > 0 and a second radius < 0; either infinity is a flat. C does not
/// notice if the two radii are swapped, which turns the lens around.
///
/// @param[in]  index           refractive index; range: SPOTWISE_PARAM_REFRACTIVE_INDEX.
/// @param[in]  first_radius_m  radius of the surface that the light meets first in metres; range:
///                             SPOTWISE_PARAM_FIRST_RADIUS.
/// @param[in]  second_radius_m radius of the other surface in metres; range:
///                             SPOTWISE_PARAM_SECOND_RADIUS.
/// @param[out] form            result; set with spotwise_lens_form_init(); not NULL. On any status
///                             other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (focal length or shape factor out of
///         range, as with two equal radii, which make no lens).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: the equation of a thin lens, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_lens_from_radii(
    index: f64,
    first_radius_m: f64,
    second_radius_m: f64,
    form: *mut spotwise_lens_form,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(form, error, || Ok(lens_from_radii(index, first_radius_m, second_radius_m)?.into())) }
}

/// Third-order spherical aberration of a lens for a distant source.
///
/// @param[in]  lens       lens to read; set with spotwise_singlet_init(); not NULL.
/// @param[out] aberration result; set with spotwise_lens_aberration_result_init(); not NULL. On any
///                        status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (shape),
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the third-order value; a real thick lens
///           differs from it by up to 3 %.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: textbook form of the aberration of a thin lens (for example W. J. Smith, Modern Optical
/// Engineering), from memory; verified by exact ray traces.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_lens_aberration(
    lens: *const spotwise_singlet,
    aberration: *mut spotwise_lens_aberration_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(aberration, error, || Ok(lens_aberration(&input(lens)?.try_into()?)?.into())) }
}

/// What a quartic wavefront aberration does to a focus, relative to the ideal one.
///
/// With t, the magnitude of the phase over M^2: second moments are exact without clipping. The
/// 86.5 %-power values and the peak are fits to the diffraction integral: for M^2 up to 4 and t up to 1
/// the diameter is within -0.9 to +1.3 %, the peak within 0.9 %, the place within 0.14 Rayleigh ranges;
/// above M^2 = 4 the diameter is within 2 %. From t = 1 to 1.7 they are out of domain, beyond 1.7 they
/// are NaN. The two estimates bracket the 86.5 %-power diameter, to within 1 % of it, while t is at most
/// 1 and the clipping ratio at least 1.8; each may be 19 % from it.
///
/// @param[in]  m2                   beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
/// @param[in]  aberration_phase_rad phase at the 1/e^2 radius in radians, + where the edge of the beam
///                                  focuses nearer the lens (a converging singlet), - for a plate;
///                                  range: SPOTWISE_PARAM_ABERRATION_PHASE.
/// @param[out] growth               result; set with spotwise_aberration_growth_result_init(); not
///                                  NULL. On any status other than SPOTWISE_OK its numbers are set to a
///                                  quiet NaN.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy of evaluation: fits at most 4 ulp, all else at most 0.75 ulp (units in the last place).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: after A. E. Siegman, Proc. SPIE 1868, 2 (1993), from memory, proved by the authors; the
/// fits by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_aberration_growth(
    m2: f64,
    aberration_phase_rad: f64,
    growth: *mut spotwise_aberration_growth_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(growth, error, || Ok(aberration_growth(m2, aberration_phase_rad)?.into())) }
}

/// What a single-piece lens makes of a raw beam whose waist is known: by second moments, by 86.5 % of
/// the power, and by the handbook.
///
/// Clipping is flagged and its loss told, not computed into the spots: for that see
/// spotwise_wave_widths(). A normalised aberration above 1.7 is no error: the 86.5 %-power members are
/// then NaN under SPOTWISE_VALIDITY_NO_POWER_86. Thickness, aspheric surfaces, aberration off the axis
/// and heat are not modelled. Domain and errors of the fits: spotwise_aberration_growth().
///
/// @param[in]  raw              raw beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  waist_to_lens_m  from the raw waist to the lens in metres, + when the waist lies
///                              upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS.
/// @param[in]  lens             lens; set with spotwise_singlet_init(); not NULL.
/// @param[in]  clear_aperture_m diameter of the clear aperture of lens or mount in metres, INFINITY
///                              for none; range: SPOTWISE_PARAM_CLEAR_APERTURE.
/// @param[out] focus            result; set with spotwise_singlet_focus_init(); not NULL. On any
///                              status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                              flags to 0.
/// @param[out] error            what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (shape),
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (as
///         spotwise_focus_through_lens(); a clipping ratio below 0.2; the aberrated M^2, waist or cone
///         out of range).
///
/// Accuracy of evaluation: fits and transmitted power at most 4 ulp, all else at most 0.75 ulp
///                         (units in the last place).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: those of spotwise_focus_through_lens(), spotwise_lens_aberration() and
/// spotwise_aberration_growth().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_singlet(
    raw: *const spotwise_beam,
    waist_to_lens_m: f64,
    lens: *const spotwise_singlet,
    clear_aperture_m: f64,
    focus: *mut spotwise_singlet_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focus, error, || {
            let raw = input(raw)?.into();
            let lens = input(lens)?.try_into()?;
            Ok(focus_singlet(&raw, waist_to_lens_m, &lens, clear_aperture_m)?.into())
        })
    }
}

/// The collimated beam that a lens focuses to the smallest spot: larger ones are spoilt by
/// aberration, smaller ones by diffraction.
///
/// With SPOTWISE_SHAPE_BEST_FORM it is the smallest spot of any singlet of this material and focal
/// length. The focus is taken for the focal point.
///
/// @param[in]  wavelength_m vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
/// @param[in]  m2           beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
/// @param[in]  lens         lens, converging; set with spotwise_singlet_init(); not NULL.
/// @param[in]  measure      which spot is to be smallest: one of SPOTWISE_SPOT_*.
/// @param[out] spot         result; set with spotwise_smallest_spot_result_init(); not NULL. On any
///                          status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error        what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (shape,
///         then measure), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
///         (beam, cone or spot out of range).
///
/// Accuracy of evaluation: at most 4 ulp (units in the last place). By 86.5 % of the power the minimum
///                         is flat: a beam 10 % off gives a spot larger by less than 2 %.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors from spotwise_aberration_growth().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_smallest_spot(
    wavelength_m: f64,
    m2: f64,
    lens: *const spotwise_singlet,
    measure: u32,
    spot: *mut spotwise_smallest_spot_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(spot, error, || {
            let lens = input(lens)?.try_into()?;
            let measure = SpotMeasure::from_code(measure)?;
            Ok(smallest_spot(wavelength_m, m2, &lens, measure)?.into())
        })
    }
}
