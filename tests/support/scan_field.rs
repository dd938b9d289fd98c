//! The functions of the list on the field of a scan head, called through the model.

use super::{beam, bits};
use spotwise::Error;
use spotwise::model::surface::{ScanLens, scan_field_at, scan_field_extent, scan_field_focus};

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "scan_field_at" => {
            let spot = scan_field_at(&beam(i), &lens(&i[3..9]), i[9], i[10], i[11])?;
            vec![
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
                bits(spot.validity),
            ]
        }
        "scan_field_extent" => {
            let extent = scan_field_extent(&beam(i), &lens(&i[3..9]), i[9], i[10])?;
            vec![
                extent.radius,
                extent.square_side,
                f64::from(extent.whole_field),
                extent.grazing_ratio,
                extent.half_angle,
                bits(extent.validity),
            ]
        }
        "scan_field_focus" => {
            let focus = scan_field_focus(&beam(i), &lens(&i[3..9]), i[9])?;
            vec![
                focus.best_z,
                focus.greatest_defocus,
                focus.centre_growth,
                focus.edge_growth_along_radius,
                focus.edge_growth_across_radius,
                focus.grazing_ratio,
                focus.half_angle,
                bits(focus.validity),
            ]
        }
        _ => return Ok(None),
    }))
}

fn lens(i: &[f64]) -> ScanLens {
    ScanLens {
        focal_length: i[0],
        field_radius: i[1],
        edge_tangential_z: i[2],
        edge_sagittal_z: i[3],
        edge_incidence: i[4],
        edge_spot_ratio: i[5],
    }
}
