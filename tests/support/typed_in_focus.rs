//! The functions of the list on surfaces in focus, called through the typed layer.

use super::typed_shape::{NUMBERS, region, surface};
use super::{beam, bits, criterion, offset};
use spotwise::{CellsPerSide, Error, FocusHeight, HeightBand};

fn cells(number: f64) -> CellsPerSide {
    CellsPerSide(number as u32)
}

/// The four numbers of a focus height.
fn height(height: &FocusHeight) -> [f64; 4] {
    let focus = height.focus.z_away_from_lens().value;
    [focus, height.worst_growth, height.mean_area_growth, height.share_in_focus]
}

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "region_heights" => {
            let rest = &i[NUMBERS..];
            let found = surface(i)?.heights(region(rest), cells(rest[4]))?;
            let [mean, highest, lowest] =
                [found.mean, found.highest, found.lowest].map(|height| height.z_away_from_lens().value);
            vec![mean, found.deviation.value, highest, lowest, found.unknown_share]
        }
        "share_in_focus" => {
            let rest = &i[NUMBERS..];
            let band = HeightBand { toward_lens: offset(rest[5])?, away_from_lens: offset(rest[6])? };
            let found = surface(i)?.share_in_focus(region(rest), cells(rest[4]), band)?;
            vec![found.in_focus, found.toward_lens, found.away_from_lens, found.unknown_share]
        }
        "focus_for_surface" => {
            let (shape, rest) = (&i[7..], &i[7 + NUMBERS..]);
            let found = beam(i)?.focus_for_surface(
                criterion(&i[3..])?,
                &surface(shape)?,
                region(rest),
                cells(rest[4]),
            )?;
            let heights = [found.least_worst, found.least_mean_area, found.most_in_focus];
            let mut outputs: Vec<f64> = heights.iter().flat_map(height).collect();
            outputs.extend([found.unknown_share, found.half_angle.value, bits(found.validity)]);
            outputs
        }
        _ => return Ok(None),
    }))
}
