//! Lens materials: refractive index against wavelength.

use crate::abi::{Plain, init, plain, pointer_fault, report};
use crate::error::spotwise_error;
use crate::status::{SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_GLASS_ZINC_SELENIDE, SPOTWISE_OK, spotwise_status};
use crate::text::{UNKNOWN, texts};
use core::ffi::{CStr, c_char};
use spotwise::model::optics::{
    Glass, GlassIndex, LensAtWavelength, LensShape, lens_at_wavelength, refractive_index,
};

/// Every glass's name, in the order of the codes.
const fn names() -> [&'static str; Glass::ALL.len()] {
    let mut names = [""; Glass::ALL.len()];
    let mut i = 0;
    while i < names.len() {
        names[i] = Glass::ALL[i].name();
        i += 1;
    }
    names
}

/// Every glass's source, in the order of the codes.
const fn sources() -> [&'static str; Glass::ALL.len()] {
    let mut sources = [""; Glass::ALL.len()];
    let mut i = 0;
    while i < sources.len() {
        sources[i] = Glass::ALL[i].source();
        i += 1;
    }
    sources
}

texts!(NAMES, names());
texts!(SOURCES, sources());

fn text_of(table: &[&'static CStr], glass: u32) -> *const c_char {
    let place = glass.wrapping_sub(SPOTWISE_GLASS_ZINC_SELENIDE) as usize;
    table.get(place).map_or(UNKNOWN, |text| *text).as_ptr()
}

/// Name of a glass in plain words, such as "zinc selenide"; "unknown" for any other number.
///
/// @param[in] glass one of SPOTWISE_GLASS_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_glass_name(glass: u32) -> *const c_char {
    text_of(&NAMES, glass)
}

/// Where the dispersion formula of a glass was published; "unknown" for any other number.
///
/// @param[in] glass one of SPOTWISE_GLASS_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_glass_source(glass: u32) -> *const c_char {
    text_of(&SOURCES, glass)
}

/// Least and greatest vacuum wavelength of a glass's published formula, both included, in metres.
///
/// @param[in]  glass      one of SPOTWISE_GLASS_*.
/// @param[out] least_m    least wavelength in metres; not NULL.
/// @param[out] greatest_m greatest wavelength in metres; not NULL. On any status other than
///                        SPOTWISE_OK both are set to a quiet NaN.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_UNKNOWN_CHOICE.
///
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_glass_range(
    glass: u32,
    least_m: *mut f64,
    greatest_m: *mut f64,
) -> spotwise_status {
    // SAFETY: NULL or writable, as the header demands.
    let faults = unsafe { [pointer_fault(least_m), pointer_fault(greatest_m)] };
    let (status, range) = match (faults[0].or(faults[1]), Glass::from_code(glass)) {
        (Some(fault), _) => (fault.status(), None),
        (None, Err(_)) => (SPOTWISE_E_UNKNOWN_CHOICE, None),
        (None, Ok(glass)) => (SPOTWISE_OK, Some(glass.wavelengths())),
    };
    let (lower, upper) = range.unwrap_or((f64::BLANK, f64::BLANK));
    for (end, value) in [(least_m, lower), (greatest_m, upper)] {
        if !end.is_null() {
            // SAFETY: not NULL, and writable as the header demands.
            unsafe { end.write(value) }
        }
    }
    status
}

/// Index of a glass at one wavelength.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_glass_index {
    /// Size of this struct; spotwise_glass_index_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Refractive index.
    pub index: f64,
    /// Change of the index with wavelength, in 1/m.
    pub dispersion_per_m: f64,
}
plain!(spotwise_glass_index, 24 bytes, words: [reserved], numbers: [index, dispersion_per_m]);

impl From<GlassIndex> for spotwise_glass_index {
    fn from(result: GlassIndex) -> Self {
        Self { index: result.index, dispersion_per_m: result.dispersion, ..Self::BLANK }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_glass_index_init(index: *mut spotwise_glass_index) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(index) }
}

/// A thin lens at another wavelength than the one for which its focal length is stated: the result
/// of spotwise_lens_at_wavelength().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_lens_at_wavelength_result {
    /// Size of this struct; spotwise_lens_at_wavelength_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Refractive index at the design wavelength.
    pub design_index: f64,
    /// Refractive index at the other wavelength.
    pub index: f64,
    /// Focal length at the other wavelength in metres.
    pub focal_length_m: f64,
    /// Focal length at the other wavelength less that at the design wavelength in metres, + where
    /// the other light focuses farther from the lens.
    pub focal_shift_m: f64,
    /// Shape factor, which is a matter of the radii and the same for all light.
    pub shape_factor: f64,
    /// k in blur = k * D^3 / f^2 at the other wavelength, f being the focal length there.
    pub blur_coefficient: f64,
    /// C4 in W = C4 * r^4 at the other wavelength, as in spotwise_lens_aberration_result, in 1/m^3.
    pub wavefront_coefficient_per_m3: f64,
}
plain!(
    spotwise_lens_at_wavelength_result, 64 bytes,
    words: [reserved],
    numbers: [
        design_index,
        index,
        focal_length_m,
        focal_shift_m,
        shape_factor,
        blur_coefficient,
        wavefront_coefficient_per_m3,
    ]
);

impl From<LensAtWavelength> for spotwise_lens_at_wavelength_result {
    fn from(result: LensAtWavelength) -> Self {
        Self {
            design_index: result.design_index,
            index: result.index,
            focal_length_m: result.focal_length,
            focal_shift_m: result.focal_shift,
            shape_factor: result.shape_factor,
            blur_coefficient: result.blur_coefficient,
            wavefront_coefficient_per_m3: result.wavefront_coefficient,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_lens_at_wavelength_result_init(
    lens: *mut spotwise_lens_at_wavelength_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(lens) }
}

/// Refractive index of a glass by its published dispersion formula, and how it changes with
/// wavelength.
///
/// Temperature and absorption are not modelled: each formula holds near 20 to 24 degrees Celsius,
/// and makers and melts differ by 1e-4 to 1e-3 of the index (from memory).
///
/// @param[in]  glass        one of SPOTWISE_GLASS_*.
/// @param[in]  wavelength_m vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH. That of the
///                          glass is narrower: spotwise_glass_range().
/// @param[out] index        result; set with spotwise_glass_index_init(); not NULL. On any status
///                          other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error        what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the error carries the glass's range).
///
/// Accuracy: index at most 2 ulp, dispersion at most 4 ulp (units in the last place) of the
///           published formula.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: spotwise_glass_source().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_refractive_index(
    glass: u32,
    wavelength_m: f64,
    index: *mut spotwise_glass_index,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(index, error, || Ok(refractive_index(Glass::from_code(glass)?, wavelength_m)?.into())) }
}

/// Focal length and aberration of a thin lens at another wavelength than the one for which it is
/// stated.
///
/// Tells how far the focus moves from one laser line to another, and where, and how sharp, a visible
/// pointer through the same lens comes to its own. Holds for a lens of one material. The shape is that
/// to which the lens was ground: a best form is one at the design wavelength. C does not notice if the
/// two wavelengths are swapped.
///
/// @param[in]  glass               one of SPOTWISE_GLASS_*.
/// @param[in]  lens_shape          one of SPOTWISE_SHAPE_*.
/// @param[in]  shape_factor        shape factor as in spotwise_singlet, read for
///                                 SPOTWISE_SHAPE_BY_FACTOR only; range: SPOTWISE_PARAM_SHAPE_FACTOR.
/// @param[in]  focal_length_m      focal length at the design wavelength in metres, + converging;
///                                 range: SPOTWISE_PARAM_FOCAL_LENGTH.
/// @param[in]  design_wavelength_m vacuum wavelength for which it is stated, in metres; range:
///                                 SPOTWISE_PARAM_DESIGN_WAVELENGTH. That of the glass is narrower:
///                                 spotwise_glass_range().
/// @param[in]  wavelength_m        the other vacuum wavelength in metres; range:
///                                 SPOTWISE_PARAM_WAVELENGTH. That of the glass is narrower.
/// @param[out] lens                result; set with spotwise_lens_at_wavelength_result_init(); not
///                                 NULL. On any status other than SPOTWISE_OK its numbers are set to a
///                                 quiet NaN.
/// @param[out] error               what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (glass, then
///         shape),
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the error carries the glass's range).
///
/// Accuracy: indices and shape factor at most 2 ulp, all else at most 4 ulp (units in the last place)
///           of the exact result, for any two wavelengths however close.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: spotwise_glass_source(); a thin lens's power is proportional to its index less one; the
/// aberration as spotwise_lens_aberration().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_lens_at_wavelength(
    glass: u32,
    lens_shape: u32,
    shape_factor: f64,
    focal_length_m: f64,
    design_wavelength_m: f64,
    wavelength_m: f64,
    lens: *mut spotwise_lens_at_wavelength_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(lens, error, || {
            let glass = Glass::from_code(glass)?;
            let shape = LensShape::from_code(lens_shape, shape_factor)?;
            Ok(lens_at_wavelength(glass, shape, focal_length_m, design_wavelength_m, wavelength_m)?.into())
        })
    }
}
