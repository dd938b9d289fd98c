//! The predicted mark and its findings as a picture.

use crate::artwork_job::{DRAWING, bytes_of_words, drawing, first, mask, mask_words, packed, room, whole};
use crate::exchange::{answer, status};
use spotwise::artwork::{
    Bitmap, PictureColour, PictureLayers, PictureView, PixelBox, draw_box, draw_picture,
};
use spotwise::{Error, Param};
use std::cell::RefCell;
use wasm_bindgen::Clamped;
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a view, behind those of the drawing: left, top, width, height, zoom.
const VIEW: usize = 5;

thread_local! {
    /// The picture that waits to be taken.
    static PICTURE: RefCell<Vec<u8>> = RefCell::default();
}

fn view(numbers: &[f64]) -> Result<PictureView, Error> {
    let [left, top, width, height, zoom] = first::<VIEW>(numbers.get(DRAWING..).unwrap_or(&[]));
    Ok(PictureView {
        left: whole(Param::DrawingWidth, left)?,
        top: whole(Param::DrawingHeight, top)?,
        width: whole(Param::DrawingWidth, width)?,
        height: whole(Param::DrawingHeight, height)?,
        zoom: whole(Param::DrawingPixels, zoom)?,
    })
}

/// As [`draw_picture`], and [`draw_box`] for each four numbers of `boxes` (left, top, right, bottom). The numbers are
/// those of the drawing and of the view; the masks are bytes, and `unknown` is empty if every height is known.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn mark_picture(
    samples: &[u8],
    numbers: &[f64],
    mark: &[u8],
    lost: &[u8],
    filled: &[u8],
    unknown: &[u8],
    boxes: &[f64],
) -> u32 {
    PICTURE.take();
    let picture = || -> Result<Vec<u8>, Error> {
        let drawing = drawing(samples, numbers)?.checked()?;
        let view = view(numbers)?;
        let words = mask_words(&drawing);
        let mut ink = room(words, 0)?;
        drawing.ink_masks(Some(&mut mask(&mut ink, &drawing)?), None, None)?;
        let [mark, lost, filled] =
            [packed(mark, &drawing)?, packed(lost, &drawing)?, packed(filled, &drawing)?];
        let unknown = if unknown.is_empty() { None } else { Some(packed(unknown, &drawing)?) };
        let layer = |words| Bitmap::new(words, drawing.width, drawing.height);
        let layers = PictureLayers {
            ink: layer(&ink)?,
            mark: layer(&mark)?,
            lost: layer(&lost)?,
            filled: layer(&filled)?,
            unknown: unknown.as_deref().map(layer).transpose()?,
        };
        let mut rgba = room(view.bytes()?, 0)?;
        draw_picture(&layers, &view, &mut rgba)?;
        let (boxes, _) = boxes.as_chunks();
        for edges in boxes {
            let [left, top, right, bottom] = edges.map(|edge: f64| edge as u32);
            draw_box(&PixelBox { left, top, right, bottom }, &view, &mut rgba)?;
        }
        Ok(rgba)
    };
    status(picture().map(|rgba| {
        PICTURE.replace(rgba);
    }))
}

/// Bytes that [`mark_picture`] takes of the module's memory, its inputs included and what it hands over not.
#[wasm_bindgen]
pub fn mark_picture_bytes(samples: &[u8], numbers: &[f64]) -> u32 {
    let bytes = || -> Result<_, Error> {
        let drawing = drawing(samples, numbers)?.checked()?;
        let pixels = drawing.width as f64 * drawing.height as f64;
        let masks = bytes_of_words(5 * mask_words(&drawing)) + 4.0 * pixels;
        Ok([samples.len() as f64 + masks + view(numbers)?.bytes()? as f64])
    };
    answer(bytes())
}

/// Hands over the picture: red, green, blue and opacity of each pixel, row by row.
#[wasm_bindgen]
#[must_use]
pub fn picture_bytes() -> Clamped<Vec<u8>> {
    Clamped(PICTURE.take())
}

/// Red, green, blue and opacity of the colour with this code; empty for none.
#[wasm_bindgen]
#[must_use]
pub fn picture_colour(code: u32) -> Vec<u8> {
    colour(code).map_or_else(Vec::new, |colour| colour.rgba().to_vec())
}

/// Name of the colour with this code; empty for none.
#[wasm_bindgen]
#[must_use]
pub fn picture_colour_name(code: u32) -> String {
    colour(code).map_or_else(String::new, |colour| colour.name().to_owned())
}

fn colour(code: u32) -> Option<PictureColour> {
    PictureColour::ALL.into_iter().find(|colour| colour.code() == code)
}
