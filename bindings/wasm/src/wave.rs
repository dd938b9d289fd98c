//! The rigorous focus of a clipped, aberrated, partially coherent beam.

use crate::exchange::{answer, flags, range};
use spotwise::model::focus::{self, DepthCriterion};
use spotwise::model::optics::{self, FocusMeasure, Wave};
use spotwise::{Error, Param};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`optics::wave_irradiance`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn wave_irradiance(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    lens_to_focus: f64,
    aberration_phase: f64,
    radius: f64,
    z: f64,
) -> u32 {
    let wave = Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
    answer(
        optics::wave_irradiance(&wave, radius, z)
            .map(|w| [w.irradiance_ratio, w.irradiance_per_watt, w.error, w.half_angle, flags(w.validity)]),
    )
}

/// As [`optics::wave_power`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn wave_power(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    lens_to_focus: f64,
    aberration_phase: f64,
    radius: f64,
    z: f64,
) -> u32 {
    let wave = Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
    answer(
        optics::wave_power(&wave, radius, z)
            .map(|w| [w.share, w.share_of_transmitted, w.error, w.half_angle, flags(w.validity)]),
    )
}

/// As [`optics::wave_widths`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn wave_widths(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    lens_to_focus: f64,
    aberration_phase: f64,
    z: f64,
) -> u32 {
    let wave = Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
    answer(optics::wave_widths(&wave, z).map(|w| {
        [
            w.irradiance_ratio,
            w.diameter_1e2,
            w.fwhm,
            w.diameter_power86,
            w.transmitted,
            w.error,
            w.half_angle,
            flags(w.validity),
        ]
    }))
}

/// As [`optics::wave_focus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn wave_focus(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    lens_to_focus: f64,
    aberration_phase: f64,
    focus_measure: u32,
) -> u32 {
    let wave = Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
    let focus = || -> Result<_, Error> { optics::wave_focus(&wave, FocusMeasure::from_code(focus_measure)?) };
    answer(focus().map(|f| {
        [
            f.z,
            f.irradiance_ratio,
            f.diameter_power86,
            f.diameter_d4sigma,
            f.error,
            f.half_angle,
            flags(f.validity),
        ]
    }))
}

/// As [`focus::wave_depth_of_focus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn wave_depth_of_focus(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    lens_to_focus: f64,
    aberration_phase: f64,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
) -> u32 {
    let wave = Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
    let depth = || -> Result<_, Error> {
        let criterion = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)?;
        focus::wave_depth_of_focus(&wave, criterion)
    };
    answer(depth().map(|d| {
        let [toward_lens_z, away_from_lens_z, full, half_angle, flags] = range(d.range);
        [d.best_z, toward_lens_z, away_from_lens_z, full, d.error, half_angle, flags]
    }))
}

/// As [`optics::wave_map`], with working space of its own; the map lies in `irradiance_ratios`, its
/// error and cone in the outputs.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn wave_map(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    lens_to_focus: f64,
    aberration_phase: f64,
    radii: &[f64],
    z: &[f64],
    irradiance_ratios: &mut [f64],
) -> u32 {
    let wave = Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
    let mut map = || -> Result<_, Error> {
        let needed = optics::wave_map_workspace(&wave, radii, z)?;
        let mut workspace = Vec::new();
        // A map too large for the memory is refused, not a trap.
        let short = |_| Error::LengthMismatch { param: Param::Workspace, value: 0, expected: needed };
        workspace.try_reserve_exact(needed).map_err(short)?;
        workspace.resize(needed, 0.0);
        optics::wave_map(&wave, radii, z, &mut workspace, irradiance_ratios)
    };
    answer(map().map(|map| [map.error, map.half_angle, flags(map.validity)]))
}
