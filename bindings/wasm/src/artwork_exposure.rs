//! The exposure of a drawing by itself, and the depth of its mark.

use crate::artwork::{inputs_and_exposure, spots};
use crate::artwork_job::{
    Lists, Progress, bytes, bytes_of_words, exposing, first, mask, mask_words, material, room, watched,
};
use crate::exchange::{answer, flags, status};
use spotwise::artwork::{
    self, DrawingUse, ExposurePlan, FULL_DOSE, SampleKind, expected_exposure_error as expected_error,
};
use std::cell::RefCell;
use std::mem::take;
use wasm_bindgen::prelude::wasm_bindgen;

/// What waits to be taken.
#[derive(Default)]
struct Found {
    width: usize,
    exposure: Vec<u16>,
    exact: Vec<f64>,
    unknown: Vec<u64>,
}

thread_local! {
    static FOUND: RefCell<Found> = RefCell::default();
}

/// As [`ExposurePlan::expose`], or [`ExposurePlan::expose_exactly`] if it is to be exact. The numbers are the first of a
/// preflight's, up to the scan.
#[wasm_bindgen]
pub fn expose_drawing(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    exact: bool,
    progress: Option<Progress>,
) -> u32 {
    FOUND.take();
    answer(watched(progress.as_ref(), |watch| {
        let (drawing, exposing) = exposing(Lists { samples, x, y, z }, numbers)?;
        let plan = ExposurePlan::new(&drawing, &exposing, &mut watch.part(0.0, 0.1))?;
        let pixels = drawing.width * drawing.height;
        let mut found = Found { width: drawing.width, ..Found::default() };
        let mut words = room(if exact { plan.exact_words() } else { plan.words(1) }, 0)?;
        let mut watch = watch.part(0.1, 1.0);
        if exact {
            found.exact = room(pixels, 0.0)?;
            plan.expose_exactly(&mut found.exact, &mut words, &mut watch)?;
        } else {
            found.exposure = room(pixels, 0)?;
            plan.expose(&mut found.exposure, &mut words, &mut watch)?;
        }
        drop(words);
        let ink = plan.ink_spots();
        if ink.unknown_pixels > 0 {
            found.unknown = room(mask_words(&drawing), 0)?;
            plan.unknown(&mut mask(&mut found.unknown, &drawing)?, &mut watch.part(1.0, 1.0))?;
        }
        FOUND.replace(found);
        let cone = plan.cone();
        let [s0, s1, s2, s3, s4, s5, s6, s7, s8] = spots(ink);
        let finest = plan.pixels_per_radius();
        let most = plan.most_pixels_per_radius();
        let too_few = f64::from(u8::from(plan.too_few_pixels()));
        let error = plan.expected_error();
        Ok([
            s0,
            s1,
            s2,
            s3,
            s4,
            s5,
            s6,
            s7,
            s8,
            finest,
            most,
            error,
            too_few,
            cone.half_angle,
            flags(cone.validity),
        ])
    }))
}

/// Bytes that [`expose_drawing`] takes of the module's memory, its inputs included and what it hands over not.
#[wasm_bindgen]
pub fn expose_drawing_bytes(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    exact: bool,
    progress: Option<Progress>,
) -> u32 {
    let lists = Lists { samples, x, y, z };
    answer(watched(progress.as_ref(), |watch| {
        let (drawing, exposing) = exposing(lists, numbers)?;
        let plan = ExposurePlan::new(&drawing, &exposing, watch)?;
        let inputs = inputs_and_exposure(lists, &drawing);
        let words = mask_words(&drawing);
        if exact {
            // Four numbers of 16 bits in each of 64; one more for each pixel was counted with the inputs.
            let exposure = (drawing.width * drawing.height * 3).div_ceil(4);
            return Ok([inputs + bytes_of_words(words + exposure + plan.exact_words())]);
        }
        Ok([inputs + bytes_of_words(words + plan.words(1))])
    }))
}

/// Hands over the exposure in units of a full dose's 1/32 768.
#[wasm_bindgen]
#[must_use]
pub fn drawing_exposure() -> Vec<u16> {
    FOUND.with_borrow_mut(|found| take(&mut found.exposure))
}

/// Hands over the exact exposure as a share of full dose.
#[wasm_bindgen]
#[must_use]
pub fn exact_drawing_exposure() -> Vec<f64> {
    FOUND.with_borrow_mut(|found| take(&mut found.exact))
}

/// Hands over where no height is known, 1 for such a pixel; empty if it is known everywhere.
#[wasm_bindgen]
#[must_use]
pub fn unknown_heights() -> Vec<u8> {
    let (words, width) = FOUND.with_borrow_mut(|found| (take(&mut found.unknown), found.width));
    bytes(&words, width)
}

/// The dose of a wide even fill in the units of an exposure.
#[wasm_bindgen]
#[must_use]
pub fn full_dose() -> u32 {
    u32::from(FULL_DOSE)
}

/// As [`artwork::expected_exposure_error`].
#[wasm_bindgen]
pub fn expected_exposure_error(kind: u32, drawing_use: u32, pixels_per_radius: f64) -> u32 {
    answer(
        SampleKind::from_code(kind).and_then(|kind| {
            Ok([expected_error(kind, DrawingUse::from_code(drawing_use)?, pixels_per_radius)?])
        }),
    )
}

/// As [`artwork::depth_map`]; `answer` is that of a preflight, with the dose ratio behind it.
#[wasm_bindgen]
pub fn depth_map(exposure: &[u16], answer: &[f64], depths: &mut [f32]) -> u32 {
    let [answer @ .., dose_ratio] = first::<6>(answer);
    let answer = material(answer);
    if answer.is_err() {
        depths.fill(f32::NAN);
    }
    status(answer.and_then(|answer| artwork::depth_map(exposure, &answer, dose_ratio, depths)))
}
