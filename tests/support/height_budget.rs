//! The functions of the list on what the heights of a surface ask of the focus, called through the model.

use super::{astigmatic, beam, bits};
use spotwise::Error;
use spotwise::model::surface::{
    DepthEnds, FocusAim, cylinder_strip, focus_between, focus_between_astigmatic, height_bands, refocus_plan,
    spot_through,
};

/// The most bands or stages of a row.
const MOST: usize = 6;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "focus_between" => {
            let best = focus_between(&beam(i), i[3], i[4])?;
            [&[best.focus_z, best.half_range][..], &super::off_focus(&best.worst)].concat()
        }
        "focus_between_astigmatic" => {
            let best = focus_between_astigmatic(&astigmatic(i), i[7], i[8])?;
            vec![
                best.focus_z,
                best.worst_diameter,
                best.highest_diameter_x,
                best.highest_diameter_y,
                best.lowest_diameter_x,
                best.lowest_diameter_y,
                best.half_angle,
                bits(best.validity),
            ]
        }
        "height_bands" => {
            let (mut limits, mut focus) = ([f64::INFINITY; MOST + 1], [f64::INFINITY; MOST]);
            let bands = height_bands(i[0], i[1], &ends(&i[2..4]), i[4], &mut limits, &mut focus)?;
            let found = [f64::from(bands.count), bands.band_height, bands.share_of_depth];
            [&found[..], &limits, &focus].concat()
        }
        "cylinder_strip" => {
            let strip = cylinder_strip(i[0], &ends(&i[1..3]), aim(i[3])?)?;
            vec![
                strip.half_chord,
                strip.full_chord,
                strip.arc_length,
                strip.edge_sag,
                strip.edge_incidence,
                strip.edge_irradiance_ratio,
                strip.focus_z,
                f64::from(strip.whole_upper_half),
            ]
        }
        "refocus_plan" => {
            let mut focus = [f64::INFINITY; MOST];
            let aim = aim(i[4])?;
            let plan = refocus_plan(i[0], i[1], &ends(&i[2..4]), aim, &mut focus)?;
            let found = [
                f64::from(plan.passes),
                plan.reached_depth,
                f64::from(plan.passes_per_stage),
                f64::from(plan.stages),
                f64::from(plan.last_stage_passes),
                plan.stage_depth,
                plan.usable_depth,
                f64::from(plan.stays_in_focus),
            ];
            [&found[..], &focus].concat()
        }
        "spot_through" => {
            let through = spot_through(&beam(i), i[3], i[4])?;
            vec![
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
                bits(through.validity),
            ]
        }
        _ => return Ok(None),
    }))
}

fn ends(i: &[f64]) -> DepthEnds {
    DepthEnds { toward_lens_z: i[0], away_from_lens_z: i[1] }
}

fn aim(code: f64) -> Result<FocusAim, Error> {
    FocusAim::from_code(code as u32)
}
