//! The single-piece lens, the spot it really makes, and what that spot does off focus.

use crate::exchange::{answer, flags, range};
use crate::focus::off_waist;
use crate::optics::focused;
use spotwise::Error;
use spotwise::model::focus::{self, DepthCriterion, LensNumbers};
use spotwise::model::optics::{self, AberratedWaist, Beam, LensShape, Singlet, SingletFocus, SpotMeasure};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a real focus besides the ideal one, without its flags.
pub(crate) const REAL: usize = 22;

/// As [`optics::lens_from_radii`].
#[wasm_bindgen]
pub fn lens_from_radii(index: f64, first_radius: f64, second_radius: f64) -> u32 {
    answer(
        optics::lens_from_radii(index, first_radius, second_radius)
            .map(|form| [form.focal_length, form.shape_factor]),
    )
}

/// As [`optics::lens_aberration`].
#[wasm_bindgen]
pub fn lens_aberration(index: f64, lens_shape: u32, shape_factor: f64, focal_length: f64) -> u32 {
    let aberration = || -> Result<_, Error> {
        let shape = LensShape::from_code(lens_shape, shape_factor)?;
        optics::lens_aberration(&Singlet { index, shape, focal_length })
    };
    answer(aberration().map(|a| [a.shape_factor, a.blur_coefficient, a.wavefront_coefficient]))
}

/// As [`optics::aberration_growth`].
#[wasm_bindgen]
pub fn aberration_growth(m2: f64, aberration_phase: f64) -> u32 {
    answer(optics::aberration_growth(m2, aberration_phase).map(|g| {
        [
            g.second_moment_m2,
            g.second_moment_growth,
            g.second_moment_shift,
            g.power86_growth,
            g.power86_shift,
            g.handbook_growth,
            g.quadrature_growth,
            g.peak_irradiance_ratio,
            g.normalised_aberration,
            flags(g.validity),
        ]
    }))
}

/// As [`optics::focus_singlet`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn focus_singlet(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    waist_to_lens: f64,
    index: f64,
    lens_shape: u32,
    shape_factor: f64,
    focal_length: f64,
    clear_aperture: f64,
) -> u32 {
    let focus = || -> Result<_, Error> {
        let shape = LensShape::from_code(lens_shape, shape_factor)?;
        let raw = Beam { wavelength, m2, waist_diameter };
        optics::focus_singlet(&raw, waist_to_lens, &Singlet { index, shape, focal_length }, clear_aperture)
    };
    answer(focus().map(|focus| layout(&focus)))
}

/// Ideal focus with its flags, real focus, its flags.
fn layout(focus: &SingletFocus) -> [f64; 9 + REAL + 1] {
    let mut all = [f64::NAN; 9 + REAL + 1];
    let parts: [&[f64]; 3] = [&focused(&focus.ideal), &real(focus), &[flags(focus.validity)]];
    for (output, value) in all.iter_mut().zip(parts.into_iter().flatten()) {
        *output = *value;
    }
    all
}

/// What a real focus says besides the ideal one, without its flags.
pub(crate) fn real(f: &SingletFocus) -> [f64; REAL] {
    let AberratedWaist { waist_diameter, m2, rayleigh_range, shift, lens_to_waist } = f.second_moment;
    let power86 = f.power86;
    [
        waist_diameter,
        m2,
        rayleigh_range,
        shift,
        lens_to_waist,
        power86.waist_diameter,
        power86.m2,
        power86.rayleigh_range,
        power86.shift,
        power86.lens_to_waist,
        f.handbook_diameter,
        f.quadrature_diameter,
        f.peak_irradiance_ratio,
        f.shape_factor,
        f.aberration_phase,
        f.normalised_aberration,
        f.clipping_ratio,
        f.transmitted,
        f.relative_focus_shift,
        f.relative_rayleigh_range,
        f.lens_to_focus,
        f.half_angle,
    ]
}

/// As [`optics::smallest_spot`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn smallest_spot(
    wavelength: f64,
    m2: f64,
    index: f64,
    lens_shape: u32,
    shape_factor: f64,
    focal_length: f64,
    measure: u32,
) -> u32 {
    let spot = || -> Result<_, Error> {
        let shape = LensShape::from_code(lens_shape, shape_factor)?;
        let measure = SpotMeasure::from_code(measure)?;
        optics::smallest_spot(wavelength, m2, &Singlet { index, shape, focal_length }, measure)
    };
    answer(spot().map(|s| {
        [
            s.diameter_at_lens,
            s.spot_diameter,
            s.aberration_phase,
            s.normalised_aberration,
            s.relative_rayleigh_range,
            s.half_angle,
            flags(s.validity),
        ]
    }))
}

/// How many numbers stand behind the flags of a lens, besides its half angle.
const LENS_NUMBERS: usize = 4;

fn lens_numbers(n: &LensNumbers) -> [f64; LENS_NUMBERS] {
    [n.normalised_aberration, n.clipping_ratio, n.relative_focus_shift, n.relative_rayleigh_range]
}

/// As [`focus::singlet_defocus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn singlet_defocus(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    waist_to_lens: f64,
    index: f64,
    lens_shape: u32,
    shape_factor: f64,
    focal_length: f64,
    clear_aperture: f64,
    measure: u32,
    z_offset: f64,
) -> u32 {
    let off = || -> Result<_, Error> {
        let lens = Singlet { index, shape: LensShape::from_code(lens_shape, shape_factor)?, focal_length };
        let measure = SpotMeasure::from_code(measure)?;
        let raw = Beam { wavelength, m2, waist_diameter };
        focus::singlet_defocus(&raw, waist_to_lens, &lens, clear_aperture, measure, z_offset)
    };
    answer(off().map(|found| {
        let mut all = [f64::NAN; 7 + LENS_NUMBERS];
        let parts = off_waist(&found.defocus).into_iter().chain(lens_numbers(&found.numbers));
        all.iter_mut().zip(parts).for_each(|(output, value)| *output = value);
        all
    }))
}

/// As [`focus::singlet_depth_of_focus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn singlet_depth_of_focus(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    waist_to_lens: f64,
    index: f64,
    lens_shape: u32,
    shape_factor: f64,
    focal_length: f64,
    clear_aperture: f64,
    measure: u32,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
) -> u32 {
    let depth = || -> Result<_, Error> {
        let lens = Singlet { index, shape: LensShape::from_code(lens_shape, shape_factor)?, focal_length };
        let measure = SpotMeasure::from_code(measure)?;
        let criterion = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)?;
        let raw = Beam { wavelength, m2, waist_diameter };
        focus::singlet_depth_of_focus(&raw, waist_to_lens, &lens, clear_aperture, measure, criterion)
    };
    answer(depth().map(|found| {
        let mut all = [f64::NAN; 5 + LENS_NUMBERS];
        let parts = range(found.range).into_iter().chain(lens_numbers(&found.numbers));
        all.iter_mut().zip(parts).for_each(|(output, value)| *output = value);
        all
    }))
}
