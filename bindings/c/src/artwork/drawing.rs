//! A drawing in the caller's memory, and its masks.

use super::memory::{Input, Output, first, mask_mut, pointer_fault_of, pointing};
use crate::abi::{Fault, error_pointer_fault, init, input, report_alone};
use crate::arrays::array_fault;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Param;
use spotwise::artwork::{BitmapMut, Drawing, DrawingUse, SampleKind};

/// A drawing: height rows of width 8-bit samples, the first sample of a row row_stride after that of the row before.
/// The centre of the pixel in column i and row j, both from 0, lies at x = drawing_x_m + (i + 1/2) pitch_x_m and
/// y = drawing_y_m + (j + 1/2) pitch_y_m of the surface, as seen along the beam. Outside it there is no ink. The
/// samples stay yours and are only read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_drawing {
    /// Size of this struct; spotwise_drawing_init() sets it.
    pub struct_size: u32,
    /// What a sample says: one of SPOTWISE_SAMPLES_*.
    pub sample_kind: u32,
    /// What the drawing is: one of SPOTWISE_DRAWING_*.
    pub drawing_use: u32,
    /// Set to 0.
    pub reserved: u32,
    /// From pixel to pixel in metres, along a row; range: SPOTWISE_PARAM_PITCH_X.
    pub pitch_x_m: f64,
    /// From row to row in metres; range: SPOTWISE_PARAM_PITCH_Y.
    pub pitch_y_m: f64,
    /// Where the left edge of the first column lies in metres; range: SPOTWISE_PARAM_DRAWING_X.
    pub drawing_x_m: f64,
    /// Where the upper edge of the first row lies in metres; y grows from row to row; range:
    /// SPOTWISE_PARAM_DRAWING_Y.
    pub drawing_y_m: f64,
    /// The samples: at least (height - 1) row_stride + width.
    pub samples: *const u8,
    /// Length of samples.
    pub sample_count: usize,
    /// Pixels in a row; range: SPOTWISE_PARAM_DRAWING_WIDTH, and at most SPOTWISE_PARAM_DRAWING_PIXELS in all.
    pub width: usize,
    /// Rows; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
    pub height: usize,
    /// Samples from row to row, at least width; range: SPOTWISE_PARAM_ROW_STRIDE.
    pub row_stride: usize,
}
pointing!(
    spotwise_drawing,
    words: [sample_kind, drawing_use, reserved],
    numbers: [pitch_x_m, pitch_y_m, drawing_x_m, drawing_y_m],
    nested: [],
    pointers: [samples],
    lengths: [sample_count, width, height, row_stride],
);

impl spotwise_drawing {
    fn samples(&self) -> Input<u8> {
        Input { start: self.samples, count: self.sample_count }
    }
}

/// The drawing behind an input pointer, with its samples.
///
/// # Safety
/// `drawing` is NULL, or aligned and readable, and so are its samples while `'a` lasts.
pub(crate) unsafe fn drawing_of<'a>(drawing: *const spotwise_drawing) -> Result<Drawing<'a>, Fault> {
    // SAFETY: as the caller vouches.
    let given = unsafe { input(drawing)? };
    let samples = given.samples();
    if let Some(fault) = array_fault(&[samples.extent()], &[]).or(samples.length_fault(Param::DrawingSamples))
    {
        return Err(fault);
    }
    Ok(Drawing {
        // SAFETY: not NULL unless empty, readable as the caller vouches.
        samples: unsafe { samples.items() },
        width: given.width,
        height: given.height,
        row_stride: given.row_stride,
        pitch_x: given.pitch_x_m,
        pitch_y: given.pitch_y_m,
        left_x: given.drawing_x_m,
        top_y: given.drawing_y_m,
        kind: SampleKind::from_code(given.sample_kind)?,
        drawing_use: DrawingUse::from_code(given.drawing_use)?,
    })
}

/// Sets struct_size, choices, pointers and lengths to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_drawing_init(drawing: *mut spotwise_drawing) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(drawing) }
}

/// Masks of a drawing: what counts as ink, what is ink all over, and what has any ink in it.
///
/// A mask holds one bit for each pixel, in rows of whole 64-bit words: bit k (of value 2^k) of word n of a row is
/// column 64 n + k; bits beyond the width are 0. It has height times (width + 63) / 64 words. With bilevel samples all
/// three are the same. Masks that are not wanted may be left out.
///
/// @param[in]  drawing    drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[out] ink        mask of what counts as ink; may be NULL.
/// @param[out] solid      mask of what is ink all over; may be NULL.
/// @param[out] touched    mask of what has any ink in it; may be NULL. The masks must not overlap each other or the
///                        samples. On any status other than SPOTWISE_OK they are all 0, but for a length that no
///                        array can have: then nothing is written to them.
/// @param[in]  mask_words length of each mask.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
///         long for memory; or mask_words, as SPOTWISE_PARAM_OUTPUT), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also a stride or a number of samples too small for the
///         drawing).
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_ink_masks(
    drawing: *const spotwise_drawing,
    ink: *mut u64,
    solid: *mut u64,
    touched: *mut u64,
    mask_words: usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // A mask that is left out has no words.
    let masks = [ink, solid, touched]
        .map(|start| Output { start, count: if start.is_null() { 0 } else { mask_words } });
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe { report_alone(error, || masks_of(drawing, masks, error_pointer_fault(error))) }
}

/// # Safety
/// Pointers are NULL or valid, those to arrays for their items.
unsafe fn masks_of(
    drawing: *const spotwise_drawing,
    masks: [Output<u64>; 3],
    last_fault: Option<Fault>,
) -> Result<(), Fault> {
    // SAFETY: as the caller vouches.
    let drawing = unsafe { drawing_of(drawing) };
    let samples = drawing.as_ref().map_or(&[][..], |drawing| drawing.samples);
    let samples = Input { start: samples.as_ptr(), count: samples.len() };
    let overlap = array_fault(&[samples.extent()], &masks.map(Output::extent));
    let pointers = first([pointer_fault_of(&drawing), overlap, last_fault]);
    if let Some(fault) = masks.iter().find_map(|mask| mask.length_fault(Param::Output)) {
        return Err(pointers.unwrap_or(fault));
    }
    for mask in masks {
        // SAFETY: NULL or writable, as the caller vouches.
        unsafe { mask.fill(0) };
    }
    if let Some(fault) = pointers {
        return Err(fault);
    }
    let drawing = drawing?;
    // SAFETY: writable as the caller vouches, apart, all 0.
    let [ink, solid, touched] = masks.map(|mask| unsafe { wanted(mask, &drawing) });
    let (mut ink, mut solid, mut touched) = (ink?, solid?, touched?);
    Ok(drawing.ink_masks(ink.as_mut(), solid.as_mut(), touched.as_mut())?)
}

/// A mask of the drawing's size, unless it is left out.
///
/// # Safety
/// NULL, or writable for its words, which nothing else shares.
unsafe fn wanted<'m>(mask: Output<u64>, drawing: &Drawing<'_>) -> Result<Option<BitmapMut<'m>>, Fault> {
    if mask.start.is_null() {
        return Ok(None);
    }
    // SAFETY: as the caller vouches.
    let words = unsafe { mask.items() };
    Ok(Some(mask_mut(words, drawing.width, drawing.height)?))
}
