//! What a spot surely marks and surely leaves clear, without any exposure.

use crate::artwork_job::{Progress, bytes, bytes_of_words, drawing, first, mask, mask_words, room, watched};
use crate::exchange::answer;
use spotwise::Error;
use spotwise::artwork::{self, Bitmap, BoundInput, Drawing, quick_bound_words};
use std::cell::RefCell;
use std::mem::take;
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers behind those of the drawing: greatest spot diameter, least and greatest dose ratio, line interval, least spot
/// diameter.
const LIGHT: usize = 5;

thread_local! {
    /// The masks that wait to be taken, and their width: what surely marks, what surely stays clear.
    static FOUND: RefCell<(usize, [Vec<u64>; 2])> = RefCell::default();
}

/// Ink, what is ink all over, what has any ink.
fn masks(drawing: &Drawing<'_>) -> Result<[Vec<u64>; 3], Error> {
    drawing.checked()?;
    let words = mask_words(drawing);
    let mut masks = [room(words, 0)?, room(words, 0)?, room(words, 0)?];
    let [ink, solid, touched] = &mut masks;
    let [mut ink, mut solid, mut touched] =
        [mask(ink, drawing)?, mask(solid, drawing)?, mask(touched, drawing)?];
    drawing.ink_masks(Some(&mut ink), Some(&mut solid), Some(&mut touched))?;
    Ok(masks)
}

fn input<'m>(
    masks: &'m [Vec<u64>; 3],
    drawing: &Drawing<'_>,
    numbers: &[f64],
) -> Result<BoundInput<'m>, Error> {
    let numbers = numbers.get(crate::artwork_job::DRAWING..).unwrap_or(&[]);
    let [greatest_spot_diameter, least_dose_ratio, greatest_dose_ratio, line_interval, least_spot_diameter] =
        first::<LIGHT>(numbers);
    let [ink, solid, touched] = masks;
    let view = |words: &'m [u64]| Bitmap::new(words, drawing.width, drawing.height);
    Ok(BoundInput {
        ink: view(ink)?,
        solid: view(solid)?,
        touched: view(touched)?,
        pitch_x: drawing.pitch_x,
        pitch_y: drawing.pitch_y,
        greatest_spot_diameter,
        least_dose_ratio,
        greatest_dose_ratio,
        line_interval,
        least_spot_diameter,
    })
}

/// As [`artwork::quick_bound`]; the numbers are those of the drawing, the greatest spot diameter, the least and
/// greatest dose ratio, and the line interval (0 for an even fill) with the least spot diameter.
#[wasm_bindgen]
pub fn quick_bound(samples: &[u8], numbers: &[f64], progress: Option<Progress>) -> u32 {
    FOUND.take();
    answer(watched(progress.as_ref(), |watch| {
        let drawing = drawing(samples, numbers)?;
        let masks = masks(&drawing)?;
        let input = input(&masks, &drawing, numbers)?;
        let mut words = room(quick_bound_words(&input, 1)?, 0)?;
        let [mut marked, mut clear] = [room(mask_words(&drawing), 0)?, room(mask_words(&drawing), 0)?];
        let found = artwork::quick_bound(
            &input,
            &mut mask(&mut marked, &drawing)?,
            &mut mask(&mut clear, &drawing)?,
            &mut words,
            watch,
        )?;
        FOUND.replace((drawing.width, [marked, clear]));
        Ok([
            found.marked,
            found.clear,
            found.undecided,
            found.stroke_pixels,
            found.doubtful_strokes,
            found.gap_pixels,
            found.doubtful_gaps,
            found.far_ink,
            found.components.into(),
            found.components_maybe_lost.into(),
            found.components_maybe_split.into(),
            found.components_maybe_merged.into(),
            found.components_maybe_starved.into(),
            found.holes.into(),
            found.holes_maybe_closed.into(),
            found.holes_maybe_opened.into(),
            found.holds().into(),
        ]
        .map(|count| count as f64))
    }))
}

/// Bytes that [`quick_bound`] takes of the module's memory, its inputs included and what it hands over not.
#[wasm_bindgen]
pub fn quick_bound_bytes(samples: &[u8], numbers: &[f64]) -> u32 {
    let bytes = || -> Result<_, Error> {
        let drawing = drawing(samples, numbers)?;
        let masks = masks(&drawing)?;
        let words = quick_bound_words(&input(&masks, &drawing, numbers)?, 1)?;
        Ok([samples.len() as f64 + bytes_of_words(words + 5 * mask_words(&drawing))])
    };
    answer(bytes())
}

/// Hands over a mask, 0 or 1 for each pixel: 0 what surely marks, 1 what surely stays clear.
#[wasm_bindgen]
#[must_use]
pub fn quick_bound_mask(which: usize) -> Vec<u8> {
    let (words, width) =
        FOUND.with_borrow_mut(|(width, masks)| (masks.get_mut(which).map(take).unwrap_or_default(), *width));
    bytes(&words, width)
}
