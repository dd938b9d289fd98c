//! How far the surface may move and lean: z-offset, tilt and depth of focus.

use crate::exchange::{answer, flags, range};
use crate::optics::astigmatic;
use spotwise::Error;
use spotwise::model::focus::{self, Defocus, DepthCriterion};
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

/// The seven outputs of a beam off its waist.
pub(crate) fn off_waist(d: &Defocus) -> [f64; 7] {
    [
        d.diameter,
        d.growth,
        d.growth_minus_one,
        d.irradiance_ratio,
        d.line_dose_ratio,
        d.half_angle,
        flags(d.validity),
    ]
}

/// As [`focus::defocus`].
#[wasm_bindgen]
pub fn defocus(wavelength: f64, m2: f64, waist_diameter: f64, z_offset: f64) -> u32 {
    answer(focus::defocus(&Beam { wavelength, m2, waist_diameter }, z_offset).map(|d| off_waist(&d)))
}

/// As [`focus::astigmatic_defocus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn astigmatic_defocus(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
    z: f64,
) -> u32 {
    let beam =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    answer(focus::astigmatic_defocus(&beam, z).map(|d| {
        [
            d.growth_x,
            d.growth_y,
            d.irradiance_ratio,
            d.line_dose_ratio_along_x,
            d.line_dose_ratio_along_y,
            d.half_angle,
            flags(d.validity),
        ]
    }))
}

/// As [`focus::tilted_spot`].
#[wasm_bindgen]
pub fn tilted_spot(wavelength: f64, m2: f64, waist_diameter: f64, z_offset: f64, tilt: f64) -> u32 {
    answer(focus::tilted_spot(&Beam { wavelength, m2, waist_diameter }, z_offset, tilt).map(|t| {
        [
            t.diameter_across,
            t.diameter_along,
            t.contour_along,
            t.contour_shift,
            t.irradiance_ratio,
            t.line_dose_ratio,
            t.grazing_ratio,
            t.half_angle,
            flags(t.validity),
        ]
    }))
}

/// As [`focus::offsets_for_diameter`].
#[wasm_bindgen]
pub fn offsets_for_diameter(wavelength: f64, m2: f64, waist_diameter: f64, diameter: f64) -> u32 {
    answer(focus::offsets_for_diameter(&Beam { wavelength, m2, waist_diameter }, diameter).map(range))
}

/// As [`focus::offsets_for_growth`].
#[wasm_bindgen]
pub fn offsets_for_growth(wavelength: f64, m2: f64, waist_diameter: f64, growth: f64) -> u32 {
    answer(focus::offsets_for_growth(&Beam { wavelength, m2, waist_diameter }, growth).map(range))
}

/// As [`focus::depth_of_focus`].
#[wasm_bindgen]
pub fn depth_of_focus(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
) -> u32 {
    let depth = || -> Result<_, Error> {
        let criterion = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)?;
        focus::depth_of_focus(&Beam { wavelength, m2, waist_diameter }, criterion)
    };
    answer(depth().map(range))
}

/// As [`focus::astigmatic_depth_of_focus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn astigmatic_depth_of_focus(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
) -> u32 {
    let beam =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    let depth = || -> Result<_, Error> {
        let criterion = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)?;
        focus::astigmatic_depth_of_focus(&beam, criterion)
    };
    answer(depth().map(range))
}
