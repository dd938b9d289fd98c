//! What answers to the dose, and how deep.

use super::memory::{Input, Output, first, pointer_fault_of};
use crate::abi::{Fault, Plain, error_pointer_fault, init_as, input, plain, report_alone};
use crate::arrays::array_fault;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::artwork::{Answer, depth_map};

/// What answers to the dose, the dose, how far an edge may stray, and what is a speck. Numbers that the response does not name are not
/// read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_marking {
    /// Size of this struct; spotwise_marking_init() sets it.
    pub struct_size: u32,
    /// What answers: one of SPOTWISE_RESPONSE_*. A melt closes gaps: what a disc of the bridge's diameter cannot enter
    /// from the ground is marked as well.
    pub response: u32,
    /// Depth at which the dose has fallen by e, in metres; for SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION; range:
    /// SPOTWISE_PARAM_PENETRATION_DEPTH.
    pub penetration_depth_m: f64,
    /// Threshold dose over the energy that removes one volume, in metres: the depth that doubling the dose adds to what
    /// just marks; for SPOTWISE_RESPONSE_LINEAR_ABLATION; range: SPOTWISE_PARAM_THRESHOLD_DEPTH.
    pub threshold_depth_m: f64,
    /// Depth from which on a place counts as marked, in metres, 0 for any, at most ten times the depth before; for
    /// both kinds of ablation; range: SPOTWISE_PARAM_VISIBLE_DEPTH.
    pub visible_depth_m: f64,
    /// Width of the gaps that close, in metres, at most 508 pixels; 0 for none; for SPOTWISE_RESPONSE_MELT; range:
    /// SPOTWISE_PARAM_MELT_BRIDGE.
    pub melt_bridge_m: f64,
    /// Dose inside a wide even fill over the dose at which the material just marks; for a preflight at most
    /// SPOTWISE_MOST_DOSE_RATIO; range: SPOTWISE_PARAM_ANY_DOSE_RATIO.
    pub dose_ratio: f64,
    /// How far an edge may stray before it counts as lost or filled, in metres, at most 254 pixels; a quarter of the
    /// waist diameter is a good start; range: SPOTWISE_PARAM_EDGE_TOLERANCE.
    pub edge_tolerance_m: f64,
    /// Area below which a piece of ink, or a hole in one, is a speck, in square metres; 0 for none, which
    /// spotwise_marking_init() sets. A grain of dust in a scan, or a bare pixel in a letter, is then told of in no count of
    /// pieces and holes but that of what is ignored, and plays no part in the grade, the dose window and what would
    /// help. Lost and filled regions, centre-lines and widths are those of all pixels. The area is one on the surface, of
    /// the drawing as it is; at another scale (spotwise_smallest_scale()) specks stay specks; range:
    /// SPOTWISE_PARAM_SPECK_AREA.
    pub speck_area_m2: f64,
}
plain!(
    spotwise_marking, 64 bytes,
    words: [response],
    numbers: [
        penetration_depth_m,
        threshold_depth_m,
        visible_depth_m,
        melt_bridge_m,
        dose_ratio,
        edge_tolerance_m,
        speck_area_m2,
    ]
);

/// What answers to the dose, behind an input pointer.
pub(crate) struct Marking {
    pub answer: Answer,
    pub dose_ratio: f64,
    pub edge_tolerance: f64,
    pub speck_area: f64,
}

impl Marking {
    /// # Safety
    /// `marking` is NULL, or aligned and readable.
    pub(crate) unsafe fn read(marking: *const spotwise_marking) -> Result<Self, Fault> {
        // SAFETY: as the caller vouches.
        let given = unsafe { input(marking)? };
        let answer = Answer::from_code(
            given.response,
            given.penetration_depth_m,
            given.threshold_depth_m,
            given.visible_depth_m,
            given.melt_bridge_m,
        )?;
        Ok(Self {
            answer,
            dose_ratio: given.dose_ratio,
            edge_tolerance: given.edge_tolerance_m,
            speck_area: given.speck_area_m2,
        })
    }
}

/// Sets struct_size, response and speck_area_m2 to 0, and every other number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_marking_init(marking: *mut spotwise_marking) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(marking, spotwise_marking { speck_area_m2: 0.0, ..spotwise_marking::BLANK }) }
}

/// Depth of the mark at every pixel: depth_m[i] belongs to exposure[i]; 0 for a coating or a melt.
///
/// With q the dose ratio and E the exposure as a share of full dose: penetration_depth_m ln(q E), or
/// threshold_depth_m (q E - 1), and 0 where q E is below 1. Depths below the visible one are told as they are.
///
/// @param[in]  exposure an exposure of spotwise_expose() or spotwise_preflight(); not NULL unless pixels is 0.
/// @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL. Its edge tolerance and
///                      speck area are not read.
/// @param[out] depth_m  depths in metres; not NULL unless pixels is 0. It must not overlap exposure. On any status
///                      other than SPOTWISE_OK all of it is NaN, but for a length that no array can have: then nothing
///                      is written to it.
/// @param[in]  pixels   length of both arrays; may be 0.
/// @param[out] error    what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (pixels
///         is more than memory can hold), SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
/// Source: Beer and Lambert; every joule above the threshold removes its share.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_depth_map(
    exposure: *const u16,
    marking: *const spotwise_marking,
    depth_m: *mut f32,
    pixels: usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    let exposure = Input { start: exposure, count: pixels };
    let depths = Output { start: depth_m, count: pixels };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        report_alone(error, || {
            let missing = exposure.extent();
            let marking = Marking::read(marking);
            let pointers = first([
                array_fault(&[missing], &[]),
                pointer_fault_of(&marking),
                array_fault(&[missing], &[depths.extent()]),
                error_pointer_fault(error),
            ]);
            if let Some(fault) = depths.length_fault(Param::Output) {
                return Err(pointers.unwrap_or(fault));
            }
            depths.fill(f32::NAN);
            if let Some(fault) = pointers {
                return Err(fault);
            }
            let Marking { answer, dose_ratio, .. } = marking?;
            Ok(depth_map(exposure.items(), &answer, dose_ratio, depths.items())?)
        })
    }
}
