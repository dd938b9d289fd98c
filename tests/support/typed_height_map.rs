//! The functions of the list on maps of heights, called through the typed layer.

use super::{beam, bits, criterion, offset, unknown, z};
use spotwise::*;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "map_heights" => {
            let mut out = [0.0; 6];
            let map = beam(i)?.map_heights(offset(i[3])?, quantity(&i[4..6])?, &i[6..12], &mut out)?;
            let extreme = |of: Option<MapExtreme>| of.map_or([f64::NAN, 0.0], |e| [e.value, e.index as f64]);
            let counts = [map.measured as f64, map.missing as f64];
            let cone = [map.half_angle.value, bits(map.validity)];
            [&out[..], &counts, &extreme(map.least), &extreme(map.greatest), &cone].concat()
        }
        "in_focus_mask" => {
            let mut in_focus = [false; 6];
            let mask =
                beam(i)?.in_focus_mask(offset(i[3])?, criterion(&i[4..8])?, &i[8..14], &mut in_focus)?;
            let found = [
                mask.in_focus as f64,
                mask.too_near_lens as f64,
                mask.too_far_from_lens as f64,
                mask.missing as f64,
                z(mask.toward_lens),
                z(mask.away_from_lens),
                mask.half_angle.value,
                bits(mask.validity),
            ];
            [&in_focus.map(f64::from)[..], &found].concat()
        }
        _ => return Ok(None),
    }))
}

fn quantity(i: &[f64]) -> Result<HeightQuantity, Error> {
    Ok(match i[0] as u32 {
        1 => HeightQuantity::Growth,
        2 => HeightQuantity::Diameter,
        3 => HeightQuantity::IrradianceRatio,
        4 => HeightQuantity::LineDoseRatio,
        5 => HeightQuantity::SmallestStroke { dose_ratio: i[1] },
        _ => return Err(unknown(Param::HeightQuantity, i[0])),
    })
}
