//! The field of a scan head with a flat-field lens that its user has measured.

use crate::exchange::{answer, flags};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{self, ScanLens};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`surface::scan_field_at`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn scan_field_at(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    focal_length: f64,
    field_radius: f64,
    edge_tangential_z: f64,
    edge_sagittal_z: f64,
    edge_incidence: f64,
    edge_spot_ratio: f64,
    field_x: f64,
    field_y: f64,
    z_offset: f64,
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    let edge = [edge_tangential_z, edge_sagittal_z, edge_incidence, edge_spot_ratio];
    let lens = scan_lens(focal_length, field_radius, edge);
    answer(surface::scan_field_at(&beam, &lens, field_x, field_y, z_offset).map(|spot| {
        [
            spot.radius,
            spot.field_angle,
            spot.incidence,
            spot.tangential_focus_z,
            spot.sagittal_focus_z,
            spot.diameter_along_radius,
            spot.diameter_across_radius,
            spot.growth_along_radius,
            spot.growth_across_radius,
            spot.irradiance_ratio,
            spot.line_dose_ratio_along_radius,
            spot.line_dose_ratio_across_radius,
            spot.grazing_ratio,
            spot.half_angle,
            flags(spot.validity),
        ]
    }))
}

/// As [`surface::scan_field_extent`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn scan_field_extent(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    focal_length: f64,
    field_radius: f64,
    edge_tangential_z: f64,
    edge_sagittal_z: f64,
    edge_incidence: f64,
    edge_spot_ratio: f64,
    z_offset: f64,
    growth_ratio: f64,
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    let edge = [edge_tangential_z, edge_sagittal_z, edge_incidence, edge_spot_ratio];
    let lens = scan_lens(focal_length, field_radius, edge);
    answer(surface::scan_field_extent(&beam, &lens, z_offset, growth_ratio).map(|extent| {
        [
            extent.radius,
            extent.square_side,
            f64::from(extent.whole_field),
            extent.grazing_ratio,
            extent.half_angle,
            flags(extent.validity),
        ]
    }))
}

/// As [`surface::scan_field_focus`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn scan_field_focus(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    focal_length: f64,
    field_radius: f64,
    edge_tangential_z: f64,
    edge_sagittal_z: f64,
    edge_incidence: f64,
    edge_spot_ratio: f64,
    radius: f64,
) -> u32 {
    let beam = Beam { wavelength, m2, waist_diameter };
    let edge = [edge_tangential_z, edge_sagittal_z, edge_incidence, edge_spot_ratio];
    let lens = scan_lens(focal_length, field_radius, edge);
    answer(surface::scan_field_focus(&beam, &lens, radius).map(|focus| {
        [
            focus.best_z,
            focus.greatest_defocus,
            focus.centre_growth,
            focus.edge_growth_along_radius,
            focus.edge_growth_across_radius,
            focus.grazing_ratio,
            focus.half_angle,
            flags(focus.validity),
        ]
    }))
}

fn scan_lens(focal_length: f64, field_radius: f64, edge: [f64; 4]) -> ScanLens {
    let [edge_tangential_z, edge_sagittal_z, edge_incidence, edge_spot_ratio] = edge;
    ScanLens {
        focal_length,
        field_radius,
        edge_tangential_z,
        edge_sagittal_z,
        edge_incidence,
        edge_spot_ratio,
    }
}
