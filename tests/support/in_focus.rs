//! The functions of the list on surfaces in focus, called through the model.

use super::shape::{NUMBERS, region, surface};
use super::{beam, criterion};
use spotwise::Error;
use spotwise::model::surface::{FocusHeight, focus_for_surface, region_heights, share_in_focus};

/// The four numbers of a focus height.
fn height(height: &FocusHeight) -> [f64; 4] {
    [height.focus_z, height.worst_growth, height.mean_area_growth, height.share_in_focus]
}

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "region_heights" => {
            let rest = &i[NUMBERS..];
            let h = region_heights(&surface(i)?, &region(rest), rest[4] as u32)?;
            vec![h.mean_z, h.z_deviation, h.highest_z, h.lowest_z, h.unknown_share]
        }
        "share_in_focus" => {
            let rest = &i[NUMBERS..];
            let s = share_in_focus(&surface(i)?, &region(rest), rest[4] as u32, rest[5], rest[6])?;
            vec![s.in_focus, s.toward_lens, s.away_from_lens, s.unknown_share]
        }
        "focus_for_surface" => {
            let criterion = criterion(&i[3..7])?;
            let (shape, rest) = (&i[7..], &i[7 + NUMBERS..]);
            let f = focus_for_surface(&beam(i), criterion, &surface(shape)?, &region(rest), rest[4] as u32)?;
            let heights = [f.least_worst, f.least_mean_area, f.most_in_focus];
            let mut outputs: Vec<f64> = heights.iter().flat_map(height).collect();
            outputs.extend([f.unknown_share, f.half_angle, super::bits(f.validity)]);
            outputs
        }
        _ => return Ok(None),
    }))
}
