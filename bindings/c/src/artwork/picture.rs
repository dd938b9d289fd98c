//! The predicted mark and what is wrong with it, as a picture.

use super::memory::{Input, Output, first, mask, pointer_fault_of, pointing};
use crate::abi::{error_pointer_fault, init, input, pointer_fault, report, report_alone};
use crate::arrays::array_fault;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{UNKNOWN, texts};
use core::ffi::c_char;
use spotwise::artwork::{
    Bitmap, PictureColour, PictureLayers, PictureView, PixelBox, draw_box, draw_picture,
};
use spotwise::{Error, Param};

/// Colour of a picture: no ink, and no mark. White.
pub const SPOTWISE_PICTURE_BARE: u32 = 1;
/// Colour of a picture: ink that marks. Black.
pub const SPOTWISE_PICTURE_KEPT: u32 = 2;
/// Colour of a picture: ink that does not mark, but lies within the tolerance of the mark. Pale yellow.
pub const SPOTWISE_PICTURE_WORN_EDGE: u32 = 3;
/// Colour of a picture: marked without ink, but within the tolerance of what stays clear. Dark blue.
pub const SPOTWISE_PICTURE_GROWN_EDGE: u32 = 4;
/// Colour of a picture: ink that does not mark, farther than the tolerance from any mark. Orange.
pub const SPOTWISE_PICTURE_LOST: u32 = 5;
/// Colour of a picture: marked without ink, farther than the tolerance from what stays clear. Blue.
pub const SPOTWISE_PICTURE_FILLED: u32 = 6;
/// Colour of a picture: the height of the surface is not known here. Pale grey.
pub const SPOTWISE_PICTURE_UNKNOWN: u32 = 7;
/// Colour of a picture: a frame around a finding. Magenta.
pub const SPOTWISE_PICTURE_BOX: u32 = 8;

const _: () = {
    assert!(SPOTWISE_PICTURE_BARE == PictureColour::Bare.code());
    assert!(SPOTWISE_PICTURE_KEPT == PictureColour::Kept.code());
    assert!(SPOTWISE_PICTURE_WORN_EDGE == PictureColour::WornEdge.code());
    assert!(SPOTWISE_PICTURE_GROWN_EDGE == PictureColour::GrownEdge.code());
    assert!(SPOTWISE_PICTURE_LOST == PictureColour::Lost.code());
    assert!(SPOTWISE_PICTURE_FILLED == PictureColour::Filled.code());
    assert!(SPOTWISE_PICTURE_UNKNOWN == PictureColour::Unknown.code());
    assert!(SPOTWISE_PICTURE_BOX == PictureColour::Box.code());
    assert!(PictureColour::ALL.len() == 8);
};

/// What a picture shows: masks as those of spotwise_ink_masks() and spotwise_preflight(), which stay yours and are
/// only read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_picture_layers {
    /// Size of this struct; spotwise_picture_layers_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// What is to be marked.
    pub ink: *const u64,
    /// What will be marked.
    pub mark: *const u64,
    /// Ink that is lost.
    pub lost: *const u64,
    /// Ground that is filled.
    pub filled: *const u64,
    /// Where the height is unknown, as spotwise_unknown_mask() says; NULL for nowhere.
    pub unknown: *const u64,
    /// Length of each mask: height times (width + 63) / 64.
    pub mask_words: usize,
    /// Pixels in a row; range: SPOTWISE_PARAM_DRAWING_WIDTH.
    pub width: usize,
    /// Rows; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
    pub height: usize,
}
pointing!(
    spotwise_picture_layers,
    words: [reserved],
    numbers: [],
    nested: [],
    pointers: [ink, mark, lost, filled, unknown],
    lengths: [mask_words, width, height],
);

/// Sets struct_size, and pointers and lengths to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_picture_layers_init(layers: *mut spotwise_picture_layers) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(layers) }
}

/// Which pixels of the drawing a picture shows, and how large. The picture has width * zoom by height * zoom pixels.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_picture_view {
    /// Size of this struct; spotwise_picture_view_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// First column shown.
    pub left: usize,
    /// First row shown.
    pub top: usize,
    /// Columns shown; range: SPOTWISE_PARAM_DRAWING_WIDTH.
    pub width: usize,
    /// Rows shown; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
    pub height: usize,
    /// Pixels of the picture along each side of one of the drawing, at least 1; all of the picture's pixels together
    /// are at most SPOTWISE_PARAM_DRAWING_PIXELS.
    pub zoom: usize,
}
pointing!(
    spotwise_picture_view,
    words: [reserved],
    numbers: [],
    nested: [],
    pointers: [],
    lengths: [left, top, width, height, zoom],
);

impl From<spotwise_picture_view> for PictureView {
    fn from(view: spotwise_picture_view) -> Self {
        Self { left: view.left, top: view.top, width: view.width, height: view.height, zoom: view.zoom }
    }
}

/// Sets struct_size, and all else to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_picture_view_init(view: *mut spotwise_picture_view) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(view) }
}

/// How many bytes a picture has: four for each of its pixels.
///
/// @param[in]  view  what is shown, set with spotwise_picture_view_init() and filled in; not NULL.
/// @param[out] bytes that many bytes; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OUT_OF_RANGE.
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_picture_bytes(
    view: *const spotwise_picture_view,
    bytes: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        let last_fault = pointer_fault(bytes).or(error_pointer_fault(error));
        report(bytes, error, || {
            let view = PictureView::from(input(view)?);
            last_fault.map_or(Ok(view.bytes()?), Err)
        })
    }
}

/// Draws the predicted mark and what is wrong with it, row by row, of each pixel red, green, blue and opacity (sRGB).
///
/// Pixels of the view beyond the drawing are bare. Where layers overlap, an unknown height comes before what is lost or
/// filled, and that before the mark. Dark is marked and light is not, as in the work itself; the colours, whose
/// SPOTWISE_PICTURE_* constants are the legend, can be told apart also by the colour-blind and in grey.
///
/// @param[in]  layers what to show, set with spotwise_picture_layers_init() and filled in; not NULL, nor its masks but
///                    unknown.
/// @param[in]  view   which part, set with spotwise_picture_view_init() and filled in; not NULL.
/// @param[out] rgba   the picture; not NULL unless bytes is 0; it must not overlap a mask. On any status other than
///                    SPOTWISE_OK all of it is 0, but for a length that no array can have: then nothing is written.
/// @param[in]  bytes  its length: what spotwise_picture_bytes() says.
/// @param[out] error  what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_draw_picture(
    layers: *const spotwise_picture_layers,
    view: *const spotwise_picture_view,
    rgba: *mut u8,
    bytes: usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    let rgba = Output { start: rgba, count: bytes };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        report_alone(error, || {
            let (layers, view) = (input(layers), input(view));
            let masks = layers.map_or([NO_MASK; 5], |layers| layers.masks());
            let extents = masks.map(Input::extent);
            let pointers = first([
                pointer_fault_of(&layers).or(array_fault(&extents, &[])),
                pointer_fault_of(&view),
                array_fault(&extents, &[rgba.extent()]),
                error_pointer_fault(error),
            ]);
            let [ink, ..] = masks;
            if let Some(fault) = ink.length_fault(Param::Output).or(rgba.length_fault(Param::Output)) {
                return Err(pointers.unwrap_or(fault));
            }
            rgba.fill(0);
            if let Some(fault) = pointers {
                return Err(fault);
            }
            Ok(draw_picture(&layers?.as_model()?, &view?.into(), rgba.items())?)
        })
    }
}

/// Frames a finding in a picture: a line of one pixel of the drawing around its box, with one pixel left free between.
/// What of the line lies beyond the view is left out; an empty box has none.
///
/// @param[in]     left   first column of the box.
/// @param[in]     top    first row of the box.
/// @param[in]     right  last column of the box.
/// @param[in]     bottom last row of the box.
/// @param[in]     view   the view of the picture, set with spotwise_picture_view_init() and filled in; not NULL.
/// @param[in,out] rgba   the picture that spotwise_draw_picture() has drawn; not NULL unless bytes is 0. On any status
///                       other than SPOTWISE_OK it stays as it is.
/// @param[in]     bytes  its length: what spotwise_picture_bytes() says.
/// @param[out]    error  what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_E_OUT_OF_RANGE.
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_draw_box(
    left: u32,
    top: u32,
    right: u32,
    bottom: u32,
    view: *const spotwise_picture_view,
    rgba: *mut u8,
    bytes: usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    let rgba = Output { start: rgba, count: bytes };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        report_alone(error, || {
            let view = input(view)?;
            let pointers = array_fault(&[], &[rgba.extent()]).or(error_pointer_fault(error));
            if let Some(fault) = pointers.or(rgba.length_fault(Param::Output)) {
                return Err(fault);
            }
            Ok(draw_box(&PixelBox { left, top, right, bottom }, &view.into(), rgba.items())?)
        })
    }
}

/// Red, green, blue and opacity of a colour of pictures (sRGB), as the bytes of 0xRRGGBBAA; 0 for a number that is none.
///
/// @param[in] colour one of SPOTWISE_PICTURE_*.
/// @return the colour. Any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_picture_colour_rgba(colour: u32) -> u32 {
    let colour = PictureColour::ALL.into_iter().find(|one| one.code() == colour);
    colour.map_or(0, |colour| u32::from_be_bytes(colour.rgba()))
}

/// Name of a colour of pictures for a legend, such as "worn edge"; "unknown" for any other number.
///
/// @param[in] colour one of SPOTWISE_PICTURE_*.
/// @return a constant text, never NULL. Any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_picture_colour_name(colour: u32) -> *const c_char {
    const COLOURS: [&str; PictureColour::ALL.len()] = {
        let mut names = [""; PictureColour::ALL.len()];
        let mut i = 0;
        while i < names.len() {
            assert!(PictureColour::ALL[i].code() as usize == i + 1);
            names[i] = PictureColour::ALL[i].name();
            i += 1;
        }
        names
    };
    texts!(NAMES, COLOURS);
    let place = colour.wrapping_sub(SPOTWISE_PICTURE_BARE) as usize;
    NAMES.get(place).map_or(UNKNOWN, |text| *text).as_ptr()
}

const NO_MASK: Input<u64> = Input { start: core::ptr::null(), count: 0 };

impl spotwise_picture_layers {
    /// The masks; that of unknown heights may be none.
    fn masks(&self) -> [Input<u64>; 5] {
        let unknown = if self.unknown.is_null() { 0 } else { self.mask_words };
        let all = [self.ink, self.mark, self.lost, self.filled]
            .map(|start| Input { start, count: self.mask_words });
        let [ink, mark, lost, filled] = all;
        [ink, mark, lost, filled, Input { start: self.unknown, count: unknown }]
    }

    /// # Safety
    /// The masks are readable while `'a` lasts.
    unsafe fn as_model<'a>(&self) -> Result<PictureLayers<'a>, Error> {
        // SAFETY: as the caller vouches.
        let [ink, mark_words, lost, filled, unknown] = self.masks().map(|words| unsafe { words.items() });
        let of = |words: &'a [u64]| -> Result<Bitmap<'a>, Error> { mask(words, self.width, self.height) };
        Ok(PictureLayers {
            ink: of(ink)?,
            mark: of(mark_words)?,
            lost: of(lost)?,
            filled: of(filled)?,
            unknown: if self.unknown.is_null() { None } else { Some(of(unknown)?) },
        })
    }
}
