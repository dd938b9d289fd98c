//! The single-piece lens and the spot it really makes.

use crate::exchange::{answer, flags};
use crate::optics::focused;
use spotwise::Error;
use spotwise::model::optics::{self, AberratedWaist, Beam, LensShape, Singlet, SingletFocus, SpotMeasure};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a real focus besides the ideal one, without its flags.
pub(crate) const REAL: usize = 20;

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
            flags(g.validity),
        ]
    }))
}

/// As [`optics::focus_singlet`]; after the outputs of the list, the flags of the ideal focus.
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

/// Ideal focus, real focus, flags of the real one, flags of the ideal one.
fn layout(focus: &SingletFocus) -> [f64; 7 + REAL + 2] {
    let [waist, rayleigh_range, divergence, magnification, focus_shift, lens_to_waist, at_lens, ideal_flags] =
        focused(&focus.ideal);
    let mut all = [f64::NAN; 7 + REAL + 2];
    let parts: [&[f64]; 3] = [
        &[waist, rayleigh_range, divergence, magnification, focus_shift, lens_to_waist, at_lens],
        &real(focus),
        &[flags(focus.validity), ideal_flags],
    ];
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
        f.lens_to_focus,
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
    answer(spot().map(|s| [s.diameter_at_lens, s.spot_diameter, s.aberration_phase, flags(s.validity)]))
}
