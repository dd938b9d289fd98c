//! The functions of the list on planned series of test pieces, called through the typed layer.

use super::{beam, bits, offset, unknown, z};
use spotwise::units::m;
use spotwise::*;
use uom::si::f64::Length;

/// Room for pieces in a row.
const ROOM: usize = 15;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "plan_series" => {
            let request = request(&i[3..])?;
            let mut pieces = Vec::new();
            let plan = beam(i)?.plan_series(&request, |piece| pieces.push(piece))?;
            if plan.pieces > ROOM {
                let (value, expected) = (ROOM, plan.pieces);
                return Err(Error::LengthMismatch { param: Param::PlannedPieces, value, expected });
            }
            let mut all = vec![
                plan.step.value,
                f64::from(plan.steps_per_side),
                plan.half_range.value,
                f64::from(plan.steps_toward_lens),
                f64::from(plan.steps_away_from_lens),
                plan.pieces as f64,
                f64::from(plan.engraved),
                plan.pre_travel.value,
                plan.rayleigh_range.value,
                plan.vanishing_offset.map_or(f64::NAN, |offset| offset.value),
                f64::from(plan.columns),
                f64::from(plan.rows),
                plan.width.value,
                plan.height.value,
                plan.half_angle.value,
                bits(plan.validity),
            ];
            for piece in &pieces {
                all.push(z(piece.height));
                match piece.engraved {
                    Ok(on) => {
                        all.extend([z(on.approach), f64::from(piece.role as u32), 0.0]);
                        all.extend(
                            [on.corner, on.label_corner].iter().flat_map(|at| [at.x.value, at.y.value]),
                        );
                    }
                    Err(reason) => {
                        all.extend([f64::NAN, f64::from(piece.role as u32), f64::from(reason as u32)]);
                        all.extend([f64::NAN; 4]);
                    }
                }
            }
            for _ in pieces.len()..ROOM {
                all.extend([f64::NAN, f64::NAN, 0.0, 0.0, f64::NAN, f64::NAN, f64::NAN, f64::NAN]);
            }
            all
        }
        "series_drift" => {
            let measured = |width, deviation| MeasuredWidth { width: m(width), deviation: m(deviation) };
            let drift = series_drift(measured(i[0], i[1]), measured(i[2], i[3]), i[4])?;
            let drifted = f64::from(drift.drifted);
            vec![drift.change.value, drift.change_deviation.value, drift.significance, drift.chance, drifted]
        }
        _ => return Ok(None),
    }))
}

fn request(i: &[f64]) -> Result<SeriesRequest, Error> {
    let chosen = |number: f64| (number != 0.0).then(|| m(number));
    let endless = |number: f64| -> Option<Length> { (number != f64::INFINITY).then(|| m(number)) };
    Ok(SeriesRequest {
        purpose: match i[0] as u32 {
            1 => SeriesPurpose::Widths,
            2 => {
                let kind = match i[1] as u32 {
                    1 => MarkKind::Pulse,
                    2 => MarkKind::Line,
                    _ => return Err(unknown(Param::MarkKind, i[1])),
                };
                SeriesPurpose::Vanishing { kind, dose_ratio: i[2] }
            }
            _ => return Err(unknown(Param::SeriesPurpose, i[0])),
        },
        expected_focus: offset(i[3])?,
        focus_uncertainty: m(i[4]),
        step: chosen(i[5]),
        half_range: chosen(i[6]),
        axis: SeriesAxis {
            axis_step: chosen(i[7]),
            backlash: m(i[8]),
            direction: SweepDirection::from_code(i[9] as u32)?,
            clearance: m(i[10]),
            least_clearance: m(i[11]),
            travel_toward_lens: endless(i[12]),
            travel_away_from_lens: endless(i[13]),
        },
        layout: PieceLayout {
            piece_width: m(i[14]),
            piece_height: m(i[15]),
            label_width: m(i[16]),
            label_height: m(i[17]),
            gap: m(i[18]),
            row_width: endless(i[19]),
        },
    })
}
