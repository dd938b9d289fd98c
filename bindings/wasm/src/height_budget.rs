//! What the heights of a surface ask of the focus.

use crate::exchange::{answer, flags};
use crate::focus::off_waist;
use crate::optics::astigmatic;
use spotwise::model::optics::Beam;
use spotwise::model::surface::{self, DepthEnds, FocusAim};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`surface::focus_between`].
#[wasm_bindgen]
pub fn focus_between(wavelength: f64, m2: f64, waist_diameter: f64, highest_z: f64, lowest_z: f64) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(surface::focus_between(&beam, highest_z, lowest_z).map(|best| {
        let [diameter, growth, less_one, irradiance, line_dose, half_angle, flags] = off_waist(&best.worst);
        [best.focus_z, best.half_range, diameter, growth, less_one, irradiance, line_dose, half_angle, flags]
    }))
}

/// As [`surface::focus_between_astigmatic`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn focus_between_astigmatic(
    wavelength: f64,
    m2_x: f64,
    waist_diameter_x: f64,
    waist_z_x: f64,
    m2_y: f64,
    waist_diameter_y: f64,
    waist_z_y: f64,
    highest_z: f64,
    lowest_z: f64,
) -> u32 {
    let beam =
        astigmatic(wavelength, [m2_x, waist_diameter_x, waist_z_x], [m2_y, waist_diameter_y, waist_z_y]);
    answer(surface::focus_between_astigmatic(&beam, highest_z, lowest_z).map(|best| {
        [
            best.focus_z,
            best.worst_diameter,
            best.highest_diameter_x,
            best.highest_diameter_y,
            best.lowest_diameter_x,
            best.lowest_diameter_y,
            best.half_angle,
            flags(best.validity),
        ]
    }))
}

/// As [`surface::height_bands`]; limits and focus heights lie in the two arrays, the rest in the outputs.
#[wasm_bindgen]
pub fn height_bands(
    highest_z: f64,
    lowest_z: f64,
    toward_lens_z: f64,
    away_from_lens_z: f64,
    margin: f64,
    limits: &mut [f64],
    focus_heights: &mut [f64],
) -> u32 {
    let depth = DepthEnds { toward_lens_z, away_from_lens_z };
    let bands = surface::height_bands(highest_z, lowest_z, &depth, margin, limits, focus_heights);
    answer(bands.map(|bands| [f64::from(bands.count), bands.band_height, bands.share_of_depth]))
}

/// As [`surface::cylinder_strip`].
#[wasm_bindgen]
pub fn cylinder_strip(part_radius: f64, toward_lens_z: f64, away_from_lens_z: f64, aim: u32) -> u32 {
    let depth = DepthEnds { toward_lens_z, away_from_lens_z };
    let strip = FocusAim::from_code(aim).and_then(|aim| surface::cylinder_strip(part_radius, &depth, aim));
    answer(strip.map(|strip| {
        [
            strip.half_chord,
            strip.full_chord,
            strip.arc_length,
            strip.edge_sag,
            strip.edge_incidence,
            strip.edge_irradiance_ratio,
            strip.focus_z,
            f64::from(strip.whole_upper_half),
        ]
    }))
}

/// As [`surface::refocus_plan`]; the focus heights lie in the array, the rest in the outputs.
#[wasm_bindgen]
pub fn refocus_plan(
    total_depth: f64,
    depth_per_pass: f64,
    toward_lens_z: f64,
    away_from_lens_z: f64,
    aim: u32,
    focus_heights: &mut [f64],
) -> u32 {
    let depth = DepthEnds { toward_lens_z, away_from_lens_z };
    let plan = FocusAim::from_code(aim)
        .and_then(|aim| surface::refocus_plan(total_depth, depth_per_pass, &depth, aim, focus_heights));
    answer(plan.map(|plan| {
        [
            f64::from(plan.passes),
            plan.reached_depth,
            f64::from(plan.passes_per_stage),
            f64::from(plan.stages),
            f64::from(plan.last_stage_passes),
            plan.stage_depth,
            plan.usable_depth,
            f64::from(plan.stays_in_focus),
        ]
    }))
}

/// As [`surface::spot_through`].
#[wasm_bindgen]
pub fn spot_through(wavelength: f64, m2: f64, waist_diameter: f64, focus_z: f64, thickness: f64) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    answer(surface::spot_through(&beam, focus_z, thickness).map(|through| {
        [
            through.top_diameter,
            through.bottom_diameter,
            through.widest,
            through.narrowest,
            through.worst_growth,
            through.taper_ratio,
            through.taper_half_angle,
            through.best_focus_z,
            through.best_worst_growth,
            through.half_angle,
            flags(through.validity),
        ]
    }))
}
