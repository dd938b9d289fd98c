//! A beam through a list of elements.

use crate::exchange::{answer, flags};
use crate::optics::astigmatic;
use spotwise::Error;
use spotwise::model::optics::{self, Element, PathBeam};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of one element: code, length, focal length, index, magnification, exit power, shape factor.
const ELEMENT: usize = 7;

/// As [`optics::beam_after_path`]; `elements` holds seven numbers for each.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn beam_after_path(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
    elements: &[f64],
) -> u32 {
    let raw =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    let beam = || -> Result<_, Error> { optics::beam_after_path(&raw, &read(elements)?) };
    answer(beam().map(|beam| layout(&beam)))
}

/// As [`optics::beam_along_path`]; `elements` holds seven numbers for each.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn beam_along_path(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
    elements: &[f64],
    distance: f64,
) -> u32 {
    let raw =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    let beam = || -> Result<_, Error> { optics::beam_along_path(&raw, &read(elements)?, distance) };
    answer(beam().map(|beam| layout(&beam)))
}

fn read(elements: &[f64]) -> Result<Vec<Element>, Error> {
    let (elements, _) = elements.as_chunks::<ELEMENT>();
    elements
        .iter()
        .map(|[code, length, focal_length, index, magnification, exit_power, shape_factor]| {
            // The code comes from the TypeScript, as a small whole number.
            let code = *code as u32;
            Element::from_code(
                code,
                *length,
                *focal_length,
                *index,
                *magnification,
                *exit_power,
                *shape_factor,
            )
        })
        .collect()
}

fn layout(b: &PathBeam) -> [f64; 13] {
    [
        b.beam.wavelength,
        b.beam.x.m2,
        b.beam.x.waist_diameter,
        b.beam.x.waist_z,
        b.beam.y.m2,
        b.beam.y.waist_diameter,
        b.beam.y.waist_z,
        b.diameter_x,
        b.diameter_y,
        b.distance,
        b.normalised_aberration,
        b.half_angle,
        flags(b.validity),
    ]
}
