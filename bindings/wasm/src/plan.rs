//! A series of test pieces, planned; and its drift.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::learn::{
    self, PieceLayout, PlannedPiece, RepeatedWidth, SeriesAxis, SeriesPurpose, SeriesRequest, SweepDirection,
};
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a beam and a request.
const PLAN: usize = 23;
/// Numbers of one piece.
const PIECE: usize = 8;

/// As [`learn::plan_series`]; `numbers` are those of the list, `pieces` has room for eight of each piece.
#[wasm_bindgen]
pub fn plan_series(numbers: &[f64], pieces: &mut [f64]) -> u32 {
    pieces.fill(f64::NAN);
    let (out, _) = pieces.as_chunks_mut::<PIECE>();
    let room = out.len();
    let planned = read(numbers).and_then(|(beam, request)| {
        request.plan(&beam, room, |place, piece| {
            out.get_mut(place).into_iter().for_each(|out| *out = layout(&piece));
        })
    });
    answer(planned.map(|plan| {
        [
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
            flags(plan.validity),
        ]
    }))
}

/// The codes come from the TypeScript, as small whole numbers.
fn read(numbers: &[f64]) -> Result<(Beam, SeriesRequest), Error> {
    let mut all = [f64::NAN; PLAN];
    for (place, number) in all.iter_mut().zip(numbers) {
        *place = *number;
    }
    let [wavelength, m2, waist_diameter, purpose, mark_kind, dose_ratio, expected_focus_z, rest @ ..] = all;
    let [focus_uncertainty, step, half_range, axis_step, backlash, direction, clearance, rest @ ..] = rest;
    let [least_clearance, travel_toward_lens, travel_away_from_lens, piece_width, piece_height, rest @ ..] =
        rest;
    let [label_width, label_height, gap, row_width] = rest;
    let request = SeriesRequest {
        purpose: SeriesPurpose::from_code(purpose as u32, mark_kind as u32, dose_ratio)?,
        expected_focus_z,
        focus_uncertainty,
        step,
        half_range,
        axis: SeriesAxis {
            axis_step,
            backlash,
            direction: SweepDirection::from_code(direction as u32)?,
            clearance,
            least_clearance,
            travel_toward_lens,
            travel_away_from_lens,
        },
        layout: PieceLayout { piece_width, piece_height, label_width, label_height, gap, row_width },
    };
    Ok((Beam { wavelength, m2, waist_diameter }, request))
}

fn layout(piece: &PlannedPiece) -> [f64; PIECE] {
    [
        piece.z,
        piece.approach_z,
        f64::from(piece.role as u32),
        f64::from(piece.skipped.map_or(0, |reason| reason as u32)),
        piece.x,
        piece.y,
        piece.label_x,
        piece.label_y,
    ]
}

/// As [`learn::series_drift`].
#[wasm_bindgen]
pub fn series_drift(
    first_width: f64,
    first_deviation: f64,
    last_width: f64,
    last_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let repeats = RepeatedWidth { first_width, first_deviation, last_width, last_deviation };
    answer(learn::series_drift(&repeats, coverage_probability).map(|drift| {
        let drifted = f64::from(u32::from(drift.drifted));
        [drift.change, drift.change_deviation, drift.significance, drift.chance, drifted]
    }))
}
