//! The exposure of a drawing.

use super::drawing::spotwise_drawing;
use super::exposing::{Scene, spotwise_exposing};
use super::memory::{Output, first, mask_mut};
use super::watch::{spotwise_tell, watched};
use crate::abi::{Fault, Plain, error_pointer_fault, init, plain, pointer_fault, report, report_alone};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::artwork::{ExposurePlan, InkSpots, Watch};
use spotwise::{Error, Param};

/// The spot over the ink of a drawing, 1/e^2 and without blur.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_ink_spots {
    /// Size of this struct; spotwise_ink_spots_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Pixels with ink.
    pub ink_pixels: u64,
    /// Pixels of the drawing where the surface has no known height.
    pub unknown_pixels: u64,
    /// How many of them have ink.
    pub unknown_ink_pixels: u64,
    /// Least spot DIAMETER over ink in metres; NaN, as all that follow, without any ink of known height.
    pub least_diameter_m: f64,
    /// The first pixel that has it, in x; metres on the surface.
    pub least_x_m: f64,
    /// That pixel in y.
    pub least_y_m: f64,
    /// Greatest spot diameter over ink in metres.
    pub greatest_diameter_m: f64,
    /// The first pixel that has it, in x.
    pub greatest_x_m: f64,
    /// That pixel in y.
    pub greatest_y_m: f64,
}
plain!(
    spotwise_ink_spots, 80 bytes,
    words: [reserved],
    counts: [ink_pixels, unknown_pixels, unknown_ink_pixels],
    numbers: [least_diameter_m, least_x_m, least_y_m, greatest_diameter_m, greatest_x_m, greatest_y_m]
);

impl From<InkSpots> for spotwise_ink_spots {
    fn from(spots: InkSpots) -> Self {
        Self {
            ink_pixels: spots.ink_pixels,
            unknown_pixels: spots.unknown_pixels,
            unknown_ink_pixels: spots.unknown_ink_pixels,
            least_diameter_m: spots.least_diameter,
            least_x_m: spots.least_x,
            least_y_m: spots.least_y,
            greatest_diameter_m: spots.greatest_diameter,
            greatest_x_m: spots.greatest_x,
            greatest_y_m: spots.greatest_y,
            ..Self::BLANK
        }
    }
}

impl From<spotwise_ink_spots> for InkSpots {
    fn from(spots: spotwise_ink_spots) -> Self {
        Self {
            ink_pixels: spots.ink_pixels,
            unknown_pixels: spots.unknown_pixels,
            unknown_ink_pixels: spots.unknown_ink_pixels,
            least_diameter: spots.least_diameter_m,
            least_x: spots.least_x_m,
            least_y: spots.least_y_m,
            greatest_diameter: spots.greatest_diameter_m,
            greatest_x: spots.greatest_x_m,
            greatest_y: spots.greatest_y_m,
        }
    }
}

/// Sets struct_size, every number to a quiet NaN and every count to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_ink_spots_init(spots: *mut spotwise_ink_spots) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(spots) }
}

/// The spots of an exposure, and how far to trust it: the result of spotwise_expose() and
/// spotwise_expose_exactly().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_exposure_survey {
    /// Size of this struct; spotwise_exposure_survey_init() sets it, and that of spots.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if the drawing should be drawn finer to be sure: fewer than 3 pixels in a spot RADIUS for coverage, 8 for
    /// bilevel shapes; never of a raster that is burnt as it is.
    pub too_few_pixels: u32,
    /// 0.
    pub reserved: u32,
    /// Fewest pixels in a spot RADIUS, blur included, anywhere on the drawing and in either direction.
    pub pixels_per_radius: f64,
    /// Most pixels in a spot radius, blur included.
    pub most_pixels_per_radius: f64,
    /// Expected greatest error of the exposure for want of pixels, as a share of full dose.
    pub expected_error: f64,
    /// 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// The spots over the ink.
    pub spots: spotwise_ink_spots,
}
plain!(
    spotwise_exposure_survey, 128 bytes,
    words: [validity, too_few_pixels, reserved],
    numbers: [pixels_per_radius, most_pixels_per_radius, expected_error, half_angle_rad],
    nested: [spots: spotwise_ink_spots]
);

impl From<&ExposurePlan<'_>> for spotwise_exposure_survey {
    fn from(plan: &ExposurePlan<'_>) -> Self {
        let cone = plan.cone();
        Self {
            validity: cone.validity.bits(),
            too_few_pixels: plan.too_few_pixels().into(),
            pixels_per_radius: plan.pixels_per_radius(),
            most_pixels_per_radius: plan.most_pixels_per_radius(),
            expected_error: plan.expected_error(),
            half_angle_rad: cone.half_angle,
            spots: (*plan.ink_spots()).into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of spots, flags and counts to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_exposure_survey_init(survey: *mut spotwise_exposure_survey) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(survey) }
}

/// How many 64-bit words of workspace spotwise_expose() needs.
///
/// @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[in]  tell     told of progress, may stop the work; may be NULL.
/// @param[in]  user     given to tell as it is; not looked at.
/// @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_expose(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Looks at each pixel once. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_expose_workspace(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    threads: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    words: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(words).or(error_pointer_fault(error));
        let scene = Scene::read(drawing, exposing);
        report(words, error, || {
            watched(tell, user, |watch| Ok(planned(scene, last_fault, watch)?.words(threads)))
        })
    }
}

/// How many 64-bit words of workspace spotwise_expose_exactly() needs: twice the longer side, and where the spot is
/// the same everywhere one for each pixel.
///
/// @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  tell     told of progress, may stop the work; may be NULL.
/// @param[in]  user     given to tell as it is; not looked at.
/// @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_expose(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Looks at each pixel once. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_expose_exactly_workspace(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    tell: spotwise_tell,
    user: *mut c_void,
    words: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(words).or(error_pointer_fault(error));
        let scene = Scene::read(drawing, exposing);
        report(words, error, || {
            watched(tell, user, |watch| Ok(planned(scene, last_fault, watch)?.exact_words()))
        })
    }
}

/// The exposure of a drawing: the dose at the centre of every pixel relative to that of a wide even fill.
///
/// Each pixel is exposed by the spot that it has at the height of the surface there, blur included, while the beam
/// crosses ink; along the rows as a box or a point of the width of a pixel, across them by lines at their true places.
///
/// @param[in]  drawing        drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing       what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[out] exposure       the exposures, row by row without gaps, in units of 1/SPOTWISE_FULL_DOSE, at most
///                            65535; 0 where the surface has no known height. On any status other than SPOTWISE_OK
///                            all of it is 0, but for a length that no array can have: then nothing is written to it.
/// @param[in]  pixels         length of exposure: width times height.
/// @param[out] workspace      room to work in, which need not be set; what it holds afterwards means nothing. It and
///                            exposure must not overlap each other or an input.
/// @param[in]  workspace_words its length, at least what spotwise_expose_workspace() says.
/// @param[in]  tell           told of progress, may stop the work; may be NULL.
/// @param[in]  user           given to tell as it is; not looked at.
/// @param[out] survey         spots, and how far to trust the exposure; set with spotwise_exposure_survey_init(); not
///                            NULL. On any status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
///                            counts and flags to 0.
/// @param[out] error          what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
///         long for memory; pixels, as SPOTWISE_PARAM_OUTPUT; too little room, as SPOTWISE_PARAM_WORKSPACE; surface as
///         spotwise_surface_at()), SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
///         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a spot radius of too few or too many pixels, as
///         SPOTWISE_PARAM_PIXELS_PER_RADIUS), SPOTWISE_E_UNDETERMINED (no height at any pixel, as
///         SPOTWISE_PARAM_KNOWN_PROBES), SPOTWISE_E_STOPPED.
///
/// Accuracy: 5e-4 of full dose, besides expected_error of the survey.
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: Gaussian spots added up; the sum of the doses of lines, any handbook.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_expose(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    exposure: *mut u16,
    pixels: usize,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    survey: *mut spotwise_exposure_survey,
    error: *mut spotwise_error,
) -> spotwise_status {
    let exposure = Output { start: exposure, count: pixels };
    let workspace = Output { start: workspace, count: workspace_words };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(survey).or(error_pointer_fault(error));
        let scene = Scene::read(drawing, exposing);
        report(survey, error, || {
            let scene = writing(scene, exposure, 0, workspace, last_fault)?;
            watched(tell, user, |watch| {
                exposed(scene, watch, |plan, watch| plan.expose(exposure.items(), workspace.items(), watch))
            })
        })
    }
}

/// The exposure of a drawing in doubles, without truncation, for comparison: slow.
///
/// For pixels of one spot it takes width * height * (width + height) additions, else width * height * 169 w^2, w being
/// the spot radius in pixels.
///
/// @param[in]  drawing        drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing       what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[out] exposure       the exposures as shares of full dose, row by row without gaps; NaN where the surface has
///                            no known height. On any status other than SPOTWISE_OK all of it is set to quiet NaNs,
///                            but for a length that no array can have: then nothing is written to it.
/// @param[in]  pixels         length of exposure: width times height.
/// @param[out] workspace      room to work in, which need not be set; what it holds afterwards means nothing. It and
///                            exposure must not overlap each other or an input.
/// @param[in]  workspace_words its length, at least what spotwise_expose_exactly_workspace() says.
/// @param[in]  tell           told of progress, may stop the work; may be NULL.
/// @param[in]  user           given to tell as it is; not looked at.
/// @param[out] survey         as of spotwise_expose(); not NULL.
/// @param[out] error          what was refused; may be NULL.
/// @return as spotwise_expose().
///
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: as spotwise_expose().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_expose_exactly(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    exposure: *mut f64,
    pixels: usize,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    survey: *mut spotwise_exposure_survey,
    error: *mut spotwise_error,
) -> spotwise_status {
    let exposure = Output { start: exposure, count: pixels };
    let workspace = Output { start: workspace, count: workspace_words };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(survey).or(error_pointer_fault(error));
        let scene = Scene::read(drawing, exposing);
        report(survey, error, || {
            let scene = writing(scene, exposure, f64::BLANK, workspace, last_fault)?;
            watched(tell, user, |watch| {
                exposed(scene, watch, |plan, watch| {
                    plan.expose_exactly(exposure.items(), workspace.items(), watch)
                })
            })
        })
    }
}

/// Where the surface has no known height: a mask as that of spotwise_ink_masks().
///
/// @param[in]  drawing    drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing   what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[out] unknown    the mask; not NULL unless mask_words is 0. On any status other than SPOTWISE_OK it is 0, but
///                        for a length that no array can have: then nothing is written to it.
/// @param[in]  mask_words its length: height times (width + 63) / 64.
/// @param[in]  tell       told of progress, may stop the work; may be NULL.
/// @param[in]  user       given to tell as it is; not looked at.
/// @param[out] error      what was refused; may be NULL.
/// @return as spotwise_expose().
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_unknown_mask(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    unknown: *mut u64,
    mask_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    error: *mut spotwise_error,
) -> spotwise_status {
    let unknown = Output { start: unknown, count: mask_words };
    let no_room = Output { start: core::ptr::null_mut(), count: 0 };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let scene = Scene::read(drawing, exposing);
        report_alone(error, || {
            let scene = writing(scene, unknown, 0, no_room, error_pointer_fault(error))?;
            let (drawing, exposing) = scene.parts()?;
            watched(tell, user, |watch| {
                let plan = ExposurePlan::new(&drawing, &exposing, &mut watch.part(0.0, 0.5))?;
                let mut mask = mask_mut(unknown.items(), drawing.width, drawing.height)?;
                plan.unknown(&mut mask, &mut watch.part(0.5, 1.0)).inspect_err(|_| unknown.fill(0))
            })?;
            Ok(())
        })
    }
}

/// The plan of an exposure, if no pointer is at fault.
fn planned<'a>(
    scene: Scene<'a>,
    last_fault: Option<Fault>,
    watch: &mut Watch<'_>,
) -> Result<ExposurePlan<'a>, Fault> {
    if let Some(fault) = scene.pointer_fault().or(last_fault) {
        return Err(fault);
    }
    let (drawing, exposing) = scene.parts()?;
    Ok(ExposurePlan::new(&drawing, &exposing, watch)?)
}

/// Makes an output blank; hands the scene on if no pointer or length is at fault.
///
/// # Safety
/// Pointers are NULL or valid for their items.
unsafe fn writing<'a, T: Copy>(
    scene: Scene<'a>,
    output: Output<T>,
    blank: T,
    workspace: Output<u64>,
    last_fault: Option<Fault>,
) -> Result<Scene<'a>, Fault> {
    let overlap = scene.overlap_fault(&[], &[output.extent(), workspace.extent()]);
    let pointers = first([scene.pointer_fault(), overlap, last_fault]);
    if let Some(fault) = output.length_fault(Param::Output).or(workspace.length_fault(Param::Workspace)) {
        return Err(pointers.unwrap_or(fault));
    }
    // SAFETY: NULL or writable, as the caller vouches.
    unsafe { output.fill(blank) };
    pointers.map_or(Ok(scene), Err)
}

/// Plans and exposes.
fn exposed(
    scene: Scene<'_>,
    watch: &mut Watch<'_>,
    expose: impl FnOnce(&ExposurePlan<'_>, &mut Watch<'_>) -> Result<(), Error>,
) -> Result<spotwise_exposure_survey, Fault> {
    let (drawing, exposing) = scene.parts()?;
    let plan = ExposurePlan::new(&drawing, &exposing, &mut watch.part(0.0, 0.1))?;
    expose(&plan, &mut watch.part(0.1, 1.0))?;
    Ok((&plan).into())
}
