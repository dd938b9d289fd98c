//! A beam through a list of elements.

use crate::abi::{Fault, Plain, init, input, plain, report};
use crate::astigmatic::spotwise_astigmatic_beam;
use crate::error::spotwise_error;
use crate::status::{SPOTWISE_PATH_MOST_ELEMENTS, spotwise_status};
use spotwise::model::optics::{Element, PathBeam, beam_after_path, beam_along_path};
use spotwise::{Error, Param};

/// One element of a beam path. Only the numbers that its kind names are read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_path_element {
    /// Size of this struct; spotwise_path_element_init() sets it.
    pub struct_size: u32,
    /// One of SPOTWISE_ELEMENT_*.
    pub element: u32,
    /// Length of a space, or thickness of a window, in metres; range: SPOTWISE_PARAM_SPACE_LENGTH or
    /// SPOTWISE_PARAM_THICKNESS.
    pub length_m: f64,
    /// Focal length of a thin lens or a singlet in metres, + converging; range:
    /// SPOTWISE_PARAM_FOCAL_LENGTH.
    pub focal_length_m: f64,
    /// Refractive index of a window or a singlet; range: SPOTWISE_PARAM_REFRACTIVE_INDEX.
    pub index: f64,
    /// Beam diameter behind an expander over that before it, below 1 for a reducer; range:
    /// SPOTWISE_PARAM_MAGNIFICATION.
    pub magnification: f64,
    /// By how much an expander converges collimated light, in 1/m: 0 when set to infinity, +
    /// converging; range: SPOTWISE_PARAM_EXIT_POWER.
    pub exit_power_per_m: f64,
    /// Shape factor of a singlet, as in spotwise_singlet; range: SPOTWISE_PARAM_SHAPE_FACTOR.
    pub shape_factor: f64,
}
plain!(
    spotwise_path_element, 56 bytes,
    words: [element],
    numbers: [length_m, focal_length_m, index, magnification, exit_power_per_m, shape_factor]
);

impl TryFrom<spotwise_path_element> for Element {
    type Error = Error;

    fn try_from(given: spotwise_path_element) -> Result<Self, Error> {
        Self::from_code(
            given.element,
            given.length_m,
            given.focal_length_m,
            given.index,
            given.magnification,
            given.exit_power_per_m,
            given.shape_factor,
        )
    }
}

/// Sets struct_size, the kind to 0, which is none, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_path_element_init(element: *mut spotwise_path_element) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(element) }
}

/// A beam at one place of its path.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_path_beam {
    /// Size of this struct; spotwise_path_beam_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply to the path up to here.
    pub validity: u32,
    /// Diameter in x there in metres, 1/e^2 (D4 sigma).
    pub diameter_x_m: f64,
    /// Diameter in y there in metres, 1/e^2 (D4 sigma).
    pub diameter_y_m: f64,
    /// Distance from the start of the path in metres.
    pub distance_m: f64,
    /// Sum over the singlets and windows passed of the normalised aberration, in the axis where each is
    /// greater: the number behind SPOTWISE_VALIDITY_ABERRATED.
    pub normalised_aberration: f64,
    /// Greatest 1/e^2 half angle along the path up to there in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// The beam there; its z = 0 lies at this place. Inside a window it is the beam in air that has
    /// the same waist diameter and cone. Behind a singlet it is told by second moments; where
    /// SPOTWISE_VALIDITY_ABERRATED stands, do not hand it on for irradiances and doses, which would take
    /// it for Gaussian and come without that flag.
    pub beam: spotwise_astigmatic_beam,
}
plain!(
    spotwise_path_beam, 112 bytes,
    words: [validity],
    numbers: [diameter_x_m, diameter_y_m, distance_m, normalised_aberration, half_angle_rad],
    nested: [beam: spotwise_astigmatic_beam]
);

impl From<PathBeam> for spotwise_path_beam {
    fn from(result: PathBeam) -> Self {
        Self {
            validity: result.validity.bits(),
            diameter_x_m: result.diameter_x,
            diameter_y_m: result.diameter_y,
            distance_m: result.distance,
            normalised_aberration: result.normalised_aberration,
            half_angle_rad: result.half_angle,
            beam: result.beam.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the beam, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_path_beam_init(beam: *mut spotwise_path_beam) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(beam) }
}

/// The most elements of one call.
const MOST: usize = SPOTWISE_PATH_MOST_ELEMENTS as usize;

/// Room for the elements of a path, as the model takes them.
const ROOM: [Element; MOST] = [Element::Space { length: 0.0 }; MOST];

/// Reads the elements of a path into `room`. Their pointers and sizes are looked at before any kind.
///
/// # Safety
/// `elements` is NULL, or aligned and readable for `count` elements.
unsafe fn read_path(
    elements: *const spotwise_path_element,
    count: usize,
    room: &mut [Element; MOST],
) -> Result<&[Element], Fault> {
    if count > 0 && elements.is_null() {
        return Err(Fault::Null);
    }
    let too_long = Fault::TooLong { array: Param::PathElement, count, most: MOST };
    let path = room.get_mut(..count).ok_or(too_long)?;
    for i in 0..count {
        // SAFETY: not NULL, and readable for `count` elements as the caller vouches.
        unsafe { input(elements.add(i)) }?;
    }
    for (i, element) in path.iter_mut().enumerate() {
        // SAFETY: as above.
        *element = unsafe { input(elements.add(i)) }?.try_into()?;
    }
    Ok(path)
}

/// The beam behind the last element of a path.
///
/// The path is a list in the order of the light. Spaces and windows have a length; lens, expander and
/// singlet have none. An ideal path keeps M^2; a singlet raises it, by second moments, which are exact
/// for a Gaussian (Schell-model) profile without clipping, so for singlets close to each other, whose
/// wavefront errors are added, and not quite for one behind a focus. The aberration of a window counts for the
/// flags alone. Flat mirrors change nothing: leave them out. Clipping, tilt, thickness and the aberration of
/// expanders are not modelled. An empty path returns the raw beam.
///
/// @param[in]  raw      raw beam, its z = 0 at the start of the path, so that a waist upstream of it
///                      has a negative z; set with spotwise_astigmatic_beam_init(); not NULL. A round
///                      beam has two alike axes.
/// @param[in]  elements count elements, each set with spotwise_path_element_init(); not NULL unless
///                      count is 0.
/// @param[in]  count    number of elements, at most SPOTWISE_PATH_MOST_ELEMENTS; may be 0.
/// @param[out] beam     result; set with spotwise_path_beam_init(); not NULL. On any status other than
///                      SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH (too many
///         elements, as SPOTWISE_PARAM_PATH_ELEMENT), SPOTWISE_E_UNKNOWN_CHOICE (the first unknown
///         kind, before any number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (raw beam, then
///         element by element), SPOTWISE_E_OUTSIDE_MODEL (somewhere along the path a half angle above
///         0.3 rad, a waist outside 1e-9 to 10 m or farther than 1e7 m, or M^2 above 1e4).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. About 1 kB of stack for the list.
/// Since ABI 1.
/// Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; singlets derived by the
/// authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_beam_after_path(
    raw: *const spotwise_astigmatic_beam,
    elements: *const spotwise_path_element,
    count: usize,
    beam: *mut spotwise_path_beam,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(beam, error, || {
            let raw = input(raw)?.into();
            let mut room = ROOM;
            Ok(beam_after_path(&raw, read_path(elements, count, &mut room)?)?.into())
        })
    }
}

/// The beam at a distance along a path.
///
/// Elements without length that stand at that distance count as passed; beyond the last element the
/// beam goes on through empty space. The distance is compared with the exact sum of the lengths: 0.3
/// stands before a lens behind spaces of 0.1 and 0.2, whose sum as doubles is a little more. All else as
/// spotwise_beam_after_path().
///
/// @param[in]  raw        raw beam, its z = 0 at the start of the path; set with
///                        spotwise_astigmatic_beam_init(); not NULL.
/// @param[in]  elements   count elements, each set with spotwise_path_element_init(); not NULL unless
///                        count is 0.
/// @param[in]  count      number of elements, at most SPOTWISE_PATH_MOST_ELEMENTS; may be 0.
/// @param[in]  distance_m distance from the start of the path in metres; range:
///                        SPOTWISE_PARAM_PATH_DISTANCE.
/// @param[out] beam       result; set with spotwise_path_beam_init(); not NULL. On any status other
///                        than SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error      what was refused; may be NULL.
/// @return as spotwise_beam_after_path(); the distance is checked after the elements.
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. About 1 kB of stack for the list.
/// Since ABI 1.
/// Source: as spotwise_beam_after_path().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_beam_along_path(
    raw: *const spotwise_astigmatic_beam,
    elements: *const spotwise_path_element,
    count: usize,
    distance_m: f64,
    beam: *mut spotwise_path_beam,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(beam, error, || {
            let raw = input(raw)?.into();
            let mut room = ROOM;
            Ok(beam_along_path(&raw, read_path(elements, count, &mut room)?, distance_m)?.into())
        })
    }
}
