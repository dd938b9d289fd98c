//! What the light does: widths, beams, lenses.

use crate::exchange::{answer, flags};
use spotwise::model::optics::{
    self, AstigmaticBeam, AstigmaticFocus, Axis, Beam, FocusedBeam, WidthDefinition,
};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::convert_width`].
#[wasm_bindgen]
pub fn convert_width(diameter: f64, from: u32, to: u32) -> u32 {
    let convert = || {
        let from = WidthDefinition::from_code(from)?;
        let to = WidthDefinition::from_code(to)?;
        Ok([optics::convert_width(diameter, from, to)?])
    };
    answer(convert())
}

/// As [`optics::power_through_aperture`].
#[wasm_bindgen]
pub fn power_through_aperture(beam_diameter: f64, aperture_diameter: f64) -> u32 {
    answer(optics::power_through_aperture(beam_diameter, aperture_diameter).map(|share| [share]))
}

/// As [`optics::diameter_for_power`].
#[wasm_bindgen]
pub fn diameter_for_power(beam_diameter: f64, power_share: f64) -> u32 {
    answer(optics::diameter_for_power(beam_diameter, power_share).map(|diameter| [diameter]))
}

/// As [`optics::beam_parameters`].
#[wasm_bindgen]
pub fn beam_parameters(wavelength: f64, m2: f64, waist_diameter: f64) -> u32 {
    answer(optics::beam_parameters(&Beam { wavelength, m2, waist_diameter }).map(|p| {
        [
            p.rayleigh_range,
            p.divergence_half_angle,
            p.divergence_full_angle,
            p.beam_parameter_product,
            flags(p.validity),
        ]
    }))
}

/// As [`optics::beam_at`].
#[wasm_bindgen]
pub fn beam_at(wavelength: f64, m2: f64, waist_diameter: f64, z: f64) -> u32 {
    answer(
        optics::beam_at(&Beam { wavelength, m2, waist_diameter }, z).map(|s| {
            [s.diameter, s.wavefront_curvature, s.wavefront_radius, s.half_angle, flags(s.validity)]
        }),
    )
}

/// As [`optics::diameters_at`]; the diameters lie in `out`, the cone in the outputs.
#[wasm_bindgen]
pub fn diameters_at(wavelength: f64, m2: f64, waist_diameter: f64, z: &[f64], out: &mut [f64]) -> u32 {
    let cone = optics::diameters_at(&Beam { wavelength, m2, waist_diameter }, z, out);
    answer(cone.map(|cone| [cone.half_angle, flags(cone.validity)]))
}

/// As [`optics::waist_from_rayleigh_range`].
#[wasm_bindgen]
pub fn waist_from_rayleigh_range(wavelength: f64, m2: f64, rayleigh_range: f64) -> u32 {
    answer(optics::waist_from_rayleigh_range(wavelength, m2, rayleigh_range).map(|waist| [waist]))
}

/// As [`optics::waist_from_divergence`].
#[wasm_bindgen]
pub fn waist_from_divergence(wavelength: f64, m2: f64, divergence_full_angle: f64) -> u32 {
    answer(optics::waist_from_divergence(wavelength, m2, divergence_full_angle).map(|waist| [waist]))
}

/// As [`optics::m2_from_divergence`].
#[wasm_bindgen]
pub fn m2_from_divergence(wavelength: f64, waist_diameter: f64, divergence_full_angle: f64) -> u32 {
    answer(optics::m2_from_divergence(wavelength, waist_diameter, divergence_full_angle).map(|m2| [m2]))
}

/// The seven numbers of an astigmatic beam, put together.
pub(crate) fn astigmatic(
    wavelength: f64,
    [m2_x, waist_diameter_x, waist_z_x]: [f64; 3],
    [m2_y, waist_diameter_y, waist_z_y]: [f64; 3],
) -> AstigmaticBeam {
    AstigmaticBeam {
        wavelength,
        x: Axis { m2: m2_x, waist_diameter: waist_diameter_x, waist_z: waist_z_x },
        y: Axis { m2: m2_y, waist_diameter: waist_diameter_y, waist_z: waist_z_y },
    }
}

/// As [`optics::astigmatic_parameters`].
#[wasm_bindgen]
pub fn astigmatic_parameters(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
) -> u32 {
    let beam =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    answer(optics::astigmatic_parameters(&beam).map(|p| {
        [
            p.rayleigh_range_x,
            p.rayleigh_range_y,
            p.waist_separation,
            p.relative_astigmatism,
            p.m2_effective,
            p.effective_waist_z,
            p.effective_waist_diameter,
            p.effective_rayleigh_range,
            p.brightest_z,
            p.brightest_irradiance_ratio,
            p.half_angle,
            flags(p.validity),
        ]
    }))
}

/// As [`optics::astigmatic_at`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn astigmatic_at(
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
    answer(optics::astigmatic_at(&beam, z).map(|s| {
        [
            s.diameter_x,
            s.diameter_y,
            s.ellipticity,
            f64::from(s.circular),
            s.effective_diameter,
            s.equal_area_diameter,
            s.half_angle,
            flags(s.validity),
        ]
    }))
}

/// The nine outputs of a focused beam.
pub(crate) fn focused(f: &FocusedBeam) -> [f64; 9] {
    [
        f.waist_diameter,
        f.rayleigh_range,
        f.divergence_full_angle,
        f.magnification,
        f.focus_shift,
        f.lens_to_waist,
        f.diameter_at_lens,
        f.half_angle,
        flags(f.validity),
    ]
}

/// As [`optics::focus_through_lens`].
#[wasm_bindgen]
pub fn focus_through_lens(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    waist_to_lens: f64,
    focal_length: f64,
) -> u32 {
    let raw = Beam { wavelength, m2, waist_diameter };
    answer(optics::focus_through_lens(&raw, waist_to_lens, focal_length).map(|f| focused(&f)))
}

/// As [`optics::focus_collimated`].
#[wasm_bindgen]
pub fn focus_collimated(wavelength: f64, m2: f64, diameter_at_lens: f64, focal_length: f64) -> u32 {
    answer(optics::focus_collimated(wavelength, m2, diameter_at_lens, focal_length).map(|f| focused(&f)))
}

/// As [`optics::focus_astigmatic`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn focus_astigmatic(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
    focal_length: f64,
) -> u32 {
    let raw =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    answer(optics::focus_astigmatic(&raw, focal_length).map(|focus| {
        let AstigmaticFocus { beam: AstigmaticBeam { wavelength, x, y }, half_angle, validity } = focus;
        [
            wavelength,
            x.m2,
            x.waist_diameter,
            x.waist_z,
            y.m2,
            y.waist_diameter,
            y.waist_z,
            half_angle,
            flags(validity),
        ]
    }))
}
