//! The functions of the list on the field of a scan head, called through the typed layer.

use super::{beam, bits, offset, z};
use spotwise::units::{m, rad};
use spotwise::*;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "scan_field_at" => {
            let place = FieldPlace { x: m(i[9]), y: m(i[10]) };
            let spot = lens(&i[3..9])?.spot_at(&beam(i)?, place, offset(i[11])?)?;
            vec![
                spot.radius.value,
                spot.field_angle.value,
                spot.incidence.value,
                z(spot.tangential_focus),
                z(spot.sagittal_focus),
                spot.diameter_along_radius.value,
                spot.diameter_across_radius.value,
                spot.growth_along_radius,
                spot.growth_across_radius,
                spot.irradiance_ratio,
                spot.line_dose_ratio_along_radius,
                spot.line_dose_ratio_across_radius,
                spot.grazing_ratio,
                spot.half_angle.value,
                bits(spot.validity),
            ]
        }
        "scan_field_extent" => {
            let extent = lens(&i[3..9])?.field_within_growth(&beam(i)?, offset(i[9])?, i[10])?;
            vec![
                extent.radius.value,
                extent.square_side.value,
                f64::from(extent.whole_field),
                extent.grazing_ratio,
                extent.half_angle.value,
                bits(extent.validity),
            ]
        }
        "scan_field_focus" => {
            let focus = lens(&i[3..9])?.best_table(&beam(i)?, m(i[9]))?;
            vec![
                z(focus.best),
                focus.greatest_defocus.value,
                focus.centre_growth,
                focus.edge_growth_along_radius,
                focus.edge_growth_across_radius,
                focus.grazing_ratio,
                focus.half_angle.value,
                bits(focus.validity),
            ]
        }
        _ => return Ok(None),
    }))
}

fn lens(i: &[f64]) -> Result<ScanLens, Error> {
    Ok(ScanLens {
        focal_length: m(i[0]),
        field_radius: m(i[1]),
        edge_tangential_focus: offset(i[2])?,
        edge_sagittal_focus: offset(i[3])?,
        edge_incidence: rad(i[4]),
        edge_spot_ratio: i[5],
    })
}
