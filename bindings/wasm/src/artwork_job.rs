//! What the preflight of a drawing is told, read from flat numbers; and its room, taken from the heap.

use spotwise::artwork::{
    Answer, BitmapMut, Drawing, DrawingUse, Exposing, Preflight, SampleKind, Scan, Step, Watch,
    usual_edge_tolerance, words_in_row,
};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Surface, SurfaceNumbers};
use spotwise::{Error, Param};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// Numbers of a drawing.
pub(crate) const DRAWING: usize = 9;
/// Numbers of a drawing and what exposes it.
pub(crate) const EXPOSING: usize = DRAWING + 18;
/// Numbers of a preflight.
pub(crate) const JOB: usize = EXPOSING + 9;

#[wasm_bindgen]
extern "C" {
    /// A function of JavaScript that is told the share of the work that is done, and says whether to go on.
    pub type Progress;

    #[wasm_bindgen(method)]
    fn call(this: &Progress, nothing: &JsValue, done: f64) -> bool;
}

/// Does work under the eyes of JavaScript, if it wants to look.
pub(crate) fn watched<T>(
    progress: Option<&Progress>,
    work: impl FnOnce(&mut Watch<'_>) -> Result<T, Error>,
) -> Result<T, Error> {
    let Some(progress) = progress else { return work(&mut Watch::quiet()) };
    let mut tell = |done| if progress.call(&JsValue::UNDEFINED, done) { Step::GoOn } else { Step::Stop };
    work(&mut Watch::new(&mut tell))
}

/// A list of a known length, the first of `numbers`. What is missing is NaN, which is refused.
pub(crate) fn first<const N: usize>(numbers: &[f64]) -> [f64; N] {
    let mut all = [f64::NAN; N];
    for (place, number) in all.iter_mut().zip(numbers) {
        *place = *number;
    }
    all
}

/// A count, of what is no whole number as of what is too large.
pub(crate) fn whole(param: Param, value: f64) -> Result<usize, Error> {
    let count = value as usize;
    let (least, greatest) = param.range();
    if !value.is_finite() {
        Err(Error::NotFinite { param, value })
    } else if count as f64 == value {
        Ok(count)
    } else {
        Err(Error::OutOfRange { param, value, least, greatest })
    }
}

/// A drawing of these samples and numbers.
pub(crate) fn drawing<'d>(samples: &'d [u8], numbers: &[f64]) -> Result<Drawing<'d>, Error> {
    let [width, height, row_stride, pitch_x, pitch_y, left_x, top_y, kind, drawing_use] =
        first::<DRAWING>(numbers);
    Ok(Drawing {
        samples,
        width: whole(Param::DrawingWidth, width)?,
        height: whole(Param::DrawingHeight, height)?,
        row_stride: whole(Param::RowStride, row_stride)?,
        pitch_x,
        pitch_y,
        left_x,
        top_y,
        kind: SampleKind::from_code(kind as u32)?,
        drawing_use: DrawingUse::from_code(drawing_use as u32)?,
    })
}

/// The samples of a drawing, and the lists of its surface.
#[derive(Clone, Copy)]
pub(crate) struct Lists<'a> {
    pub(crate) samples: &'a [u8],
    pub(crate) x: &'a [f64],
    pub(crate) y: &'a [f64],
    pub(crate) z: &'a [f64],
}

/// A drawing, and what exposes it.
pub(crate) fn exposing<'a>(lists: Lists<'a>, numbers: &[f64]) -> Result<(Drawing<'a>, Exposing<'a>), Error> {
    let drawing = drawing(lists.samples, numbers)?;
    let numbers = first::<EXPOSING>(numbers);
    let (_, numbers) = numbers.split_at(DRAWING);
    let [wavelength, m2, waist_diameter, focus_z, rest @ ..] = first::<18>(numbers);
    let [surface, bulge, slope_x, slope_y, radius, crown_x, crown_y, axis_angle, rest @ ..] = rest;
    let [incidence_loss, blur_along, blur_across, scan, line_interval, first_line] = rest;
    let Lists { x, y, z, .. } = lists;
    let bulge = bulge as u32;
    let numbers = SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z };
    let exposing = Exposing {
        beam: Beam { wavelength, m2, waist_diameter },
        focus_z,
        surface: Surface::from_code(surface as u32, &numbers)?,
        incidence_loss: incidence_loss != 0.0,
        blur_along,
        blur_across,
        scan: Scan::from_code(scan as u32, line_interval, first_line)?,
    };
    Ok((drawing, exposing))
}

/// The answer of a material, of its code and four numbers.
pub(crate) fn material([code, penetration, threshold, visible, bridge]: [f64; 5]) -> Result<Answer, Error> {
    Answer::from_code(code as u32, penetration, threshold, visible, bridge)
}

/// What a preflight is told.
pub(crate) fn job<'a>(lists: Lists<'a>, numbers: &[f64]) -> Result<Preflight<'a>, Error> {
    let (drawing, exposing) = exposing(lists, numbers)?;
    let numbers = first::<JOB>(numbers);
    let (_, numbers) = numbers.split_at(EXPOSING);
    let [answer @ .., dose_ratio, edge_tolerance, usual_tolerance, speck_area] = first::<9>(numbers);
    let edge_tolerance =
        if usual_tolerance == 0.0 { edge_tolerance } else { usual_edge_tolerance(&exposing.beam) };
    Ok(Preflight { drawing, exposing, answer: material(answer)?, dose_ratio, edge_tolerance, speck_area })
}

/// Room for so many items, or an error where the module can have no more memory.
pub(crate) fn room<T: Clone>(length: usize, item: T) -> Result<Vec<T>, Error> {
    let mut room = Vec::new();
    room.try_reserve_exact(length).map_err(|_| Error::LengthMismatch {
        param: Param::Workspace,
        value: 0,
        expected: length,
    })?;
    room.resize(length, item);
    Ok(room)
}

/// Words of a mask.
pub(crate) fn mask_words(drawing: &Drawing<'_>) -> usize {
    words_in_row(drawing.width) * drawing.height
}

/// A mask of a drawing's size over words of the heap.
pub(crate) fn mask<'w>(words: &'w mut [u64], drawing: &Drawing<'_>) -> Result<BitmapMut<'w>, Error> {
    BitmapMut::new(words, drawing.width, drawing.height)
}

/// A mask as bytes, 0 or 1 for each pixel, row by row without gaps.
pub(crate) fn bytes(words: &[u64], width: usize) -> Vec<u8> {
    let rows = words.chunks_exact(words_in_row(width).max(1));
    let mut bytes = Vec::with_capacity(rows.len() * width);
    for row in rows {
        let end = bytes.len() + width;
        for word in row {
            let left = end - bytes.len();
            for (number, bits) in word.to_le_bytes().into_iter().enumerate() {
                let eight = spread(bits);
                bytes.extend_from_slice(eight.get(..left.saturating_sub(8 * number).min(8)).unwrap_or(&[]));
            }
        }
    }
    bytes
}

/// Eight bits as eight bytes of 0 or 1, the lowest first.
fn spread(bits: u8) -> [u8; 8] {
    // Each byte keeps the bit of its own place; adding 127 carries any that is set to the top of its byte.
    let own_bits = (u64::from(bits) * 0x0101_0101_0101_0101) & 0x8040_2010_0804_0201;
    ((own_bits + 0x7F7F_7F7F_7F7F_7F7F) >> 7 & 0x0101_0101_0101_0101).to_le_bytes()
}

/// Bytes that so many words fill.
pub(crate) fn bytes_of_words(words: usize) -> f64 {
    words as f64 * size_of::<u64>() as f64
}

/// The words of a mask that was given as bytes, 0 for what is not set.
pub(crate) fn packed(bytes: &[u8], drawing: &Drawing<'_>) -> Result<Vec<u64>, Error> {
    let expected = drawing.width * drawing.height;
    if bytes.len() != expected {
        return Err(Error::LengthMismatch { param: Param::Output, value: bytes.len(), expected });
    }
    let mut words = room(mask_words(drawing), 0)?;
    let mut rows = bytes.chunks(drawing.width);
    for row in mask(&mut words, drawing)?.rows_mut() {
        for (word, bytes) in row.iter_mut().zip(rows.next().unwrap_or(&[]).chunks(64)) {
            for (bit, &byte) in bytes.iter().enumerate() {
                *word |= u64::from(byte != 0) << bit;
            }
        }
    }
    Ok(words)
}
