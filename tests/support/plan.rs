//! The functions of the list on planned series of test pieces, called through the model.

use super::{beam, bits};
use spotwise::Error;
use spotwise::model::learn::{
    PieceLayout, PlannedPiece, RepeatedWidth, SeriesAxis, SeriesPurpose, SeriesRequest, SweepDirection,
    plan_series, series_drift,
};

/// Room for pieces in a row.
const ROOM: usize = 15;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "plan_series" => {
            let request = request(&i[3..])?;
            let mut pieces = [PlannedPiece::BLANK; ROOM];
            let plan = plan_series(&beam(i), &request, &mut pieces)?;
            let mut all = vec![
                plan.step,
                f64::from(plan.steps_per_side),
                plan.half_range,
                f64::from(plan.steps_toward_lens),
                f64::from(plan.steps_away_from_lens),
                f64::from(plan.pieces),
                f64::from(plan.engraved),
                plan.pre_travel,
                plan.rayleigh_range,
                plan.vanishing_offset.unwrap_or(f64::NAN),
                f64::from(plan.columns),
                f64::from(plan.rows),
                plan.width,
                plan.height,
                plan.half_angle,
                bits(plan.validity),
            ];
            for (place, p) in pieces.iter().enumerate() {
                let is_piece = place < plan.pieces as usize;
                let role = if is_piece { p.role as u32 } else { 0 };
                let skipped = p.skipped.map_or(0, |reason| reason as u32);
                all.extend([p.z, p.approach_z, f64::from(role), f64::from(skipped)]);
                all.extend([p.x, p.y, p.label_x, p.label_y]);
            }
            all
        }
        "series_drift" => {
            let [first_width, first_deviation, last_width, last_deviation] = [i[0], i[1], i[2], i[3]];
            let repeats = RepeatedWidth { first_width, first_deviation, last_width, last_deviation };
            let drift = series_drift(&repeats, i[4])?;
            let drifted = f64::from(drift.drifted);
            vec![drift.change, drift.change_deviation, drift.significance, drift.chance, drifted]
        }
        _ => return Ok(None),
    }))
}

fn request(i: &[f64]) -> Result<SeriesRequest, Error> {
    Ok(SeriesRequest {
        purpose: SeriesPurpose::from_code(i[0] as u32, i[1] as u32, i[2])?,
        expected_focus_z: i[3],
        focus_uncertainty: i[4],
        step: i[5],
        half_range: i[6],
        axis: SeriesAxis {
            axis_step: i[7],
            backlash: i[8],
            direction: SweepDirection::from_code(i[9] as u32)?,
            clearance: i[10],
            least_clearance: i[11],
            travel_toward_lens: i[12],
            travel_away_from_lens: i[13],
        },
        layout: PieceLayout {
            piece_width: i[14],
            piece_height: i[15],
            label_width: i[16],
            label_height: i[17],
            gap: i[18],
            row_width: i[19],
        },
    })
}
