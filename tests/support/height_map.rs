//! The functions of the list on maps of heights, called through the model.

use super::{beam, bits};
use spotwise::Error;
use spotwise::model::focus::DepthCriterion;
use spotwise::model::surface::{HeightQuantity, in_focus_mask, map_heights};

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "map_heights" => {
            let quantity = HeightQuantity::from_code(i[4] as u32, i[5])?;
            let mut out = [0.0; 6];
            let map = map_heights(&beam(i), i[3], quantity, &i[6..12], &mut out)?;
            let found = [
                map.measured as f64,
                map.missing as f64,
                map.least,
                map.least_index as f64,
                map.greatest,
                map.greatest_index as f64,
                map.half_angle,
                bits(map.validity),
            ];
            [&out[..], &found].concat()
        }
        "in_focus_mask" => {
            let criterion = DepthCriterion::from_code(i[4] as u32, i[5], i[6], i[7])?;
            let mut in_focus = [false; 6];
            let mask = in_focus_mask(&beam(i), i[3], criterion, &i[8..14], &mut in_focus)?;
            let found = [
                mask.in_focus as f64,
                mask.too_near_lens as f64,
                mask.too_far_from_lens as f64,
                mask.missing as f64,
                mask.toward_lens_z,
                mask.away_from_lens_z,
                mask.half_angle,
                bits(mask.validity),
            ];
            [&in_focus.map(f64::from)[..], &found].concat()
        }
        _ => return Ok(None),
    }))
}
