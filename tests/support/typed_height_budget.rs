//! The functions of the list on what the heights of a surface ask of the focus, called through the typed layer.

use super::{astigmatic, beam, bits, metres, offset, unknown, z};
use spotwise::units::m;
use spotwise::*;

/// The most bands or stages of a row.
const MOST: usize = 6;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "focus_between" => {
            let best = beam(i)?.focus_between(heights(&i[3..5])?)?;
            vec![
                z(best.focus),
                best.half_range.value,
                metres(best.worst.spot),
                best.worst.growth,
                best.worst.growth_minus_one,
                best.worst.irradiance_ratio,
                best.worst.line_dose_ratio,
                best.worst.half_angle.value,
                bits(best.worst.validity),
            ]
        }
        "focus_between_astigmatic" => {
            let best = astigmatic(i)?.focus_between(heights(&i[7..9])?)?;
            vec![
                z(best.focus),
                metres(best.worst),
                metres(best.highest_x),
                metres(best.highest_y),
                metres(best.lowest_x),
                metres(best.lowest_y),
                best.half_angle.value,
                bits(best.validity),
            ]
        }
        "height_bands" => {
            let (mut limits, mut focus) = ([f64::INFINITY; MOST + 1], [f64::INFINITY; MOST]);
            let columns =
                BandColumns { limits_away_from_lens_m: &mut limits, focus_away_from_lens_m: &mut focus };
            let bands = height_bands(heights(&i[0..2])?, depth(&i[2..4])?, i[4], columns)?;
            let found = [f64::from(bands.count), bands.band_height.value, bands.share_of_depth];
            [&found[..], &limits, &focus].concat()
        }
        "cylinder_strip" => {
            let aim = aim(i[3])?;
            let strip = RoundSize::Radius(m(i[0])).strip_in_focus(depth(&i[1..3])?, aim)?;
            vec![
                strip.half_chord.value,
                strip.full_chord.value,
                strip.arc_length.value,
                strip.edge_sag.value,
                strip.edge_incidence.value,
                strip.edge_irradiance_ratio,
                z(strip.focus),
                f64::from(strip.whole_upper_half),
            ]
        }
        "refocus_plan" => {
            let mut focus = [f64::INFINITY; MOST];
            let engraving = DeepEngraving { total_depth: m(i[0]), depth_per_pass: m(i[1]) };
            let plan = engraving.refocus_plan(depth(&i[2..4])?, aim(i[4])?, &mut focus)?;
            let found = [
                f64::from(plan.passes),
                plan.reached_depth.value,
                f64::from(plan.passes_per_stage),
                f64::from(plan.stages),
                f64::from(plan.last_stage_passes),
                plan.stage_depth.value,
                plan.usable_depth.value,
                f64::from(plan.stays_in_focus),
            ];
            [&found[..], &focus].concat()
        }
        "spot_through" => {
            let cut = ThroughCut { focus: offset(i[3])?, thickness: m(i[4]) };
            let through = beam(i)?.spot_through(cut)?;
            vec![
                metres(through.top),
                metres(through.bottom),
                metres(through.widest),
                metres(through.narrowest),
                through.worst_growth,
                through.taper_ratio,
                through.taper_half_angle.value,
                z(through.best_focus),
                through.best_worst_growth,
                through.half_angle.value,
                bits(through.validity),
            ]
        }
        _ => return Ok(None),
    }))
}

fn heights(i: &[f64]) -> Result<SurfaceEnds, Error> {
    Ok(SurfaceEnds { highest: offset(i[0])?, lowest: offset(i[1])? })
}

fn depth(i: &[f64]) -> Result<FocusDepth, Error> {
    Ok(FocusDepth { toward_lens: offset(i[0])?, away_from_lens: offset(i[1])? })
}

fn aim(code: f64) -> Result<FocusAim, Error> {
    FocusAim::ALL
        .into_iter()
        .find(|aim| f64::from(*aim as u32) == code)
        .ok_or_else(|| unknown(Param::FocusAim, code))
}
