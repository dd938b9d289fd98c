//! Planned series of test pieces against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with an array of the length that it is told"
)]

use super::agree::beam;
use super::raw::{Expected, choice, compare, near, place, share};
use crate::abi::Plain;
use crate::plan::*;
use proptest::prelude::*;
use spotwise::model::learn::{self, RepeatedWidth, SeriesRequest};

fn request() -> impl Strategy<Value = spotwise_series_request> {
    let choices = (choice(2), choice(2), choice(2));
    let chosen = || prop_oneof![3 => Just(0.0), 1 => near(0.4e-3)];
    let endless = || prop_oneof![Just(f64::INFINITY), near(20e-3)];
    let focus = (near(1.4), place(10e-3), prop_oneof![Just(0.0), near(0.2e-3)], chosen(), chosen());
    let axis = (chosen(), near(0.02e-3), near(60e-3), near(5e-3), endless(), endless());
    let sizes = (near(5e-3), near(5e-3), near(6e-3), near(2e-3), near(1e-3), endless());
    (choices, focus, axis, sizes).prop_map(|(choices, focus, axis, sizes)| spotwise_series_request {
        purpose: choices.0,
        mark_kind: choices.1,
        direction: choices.2,
        dose_ratio: focus.0,
        expected_focus_z_m: focus.1,
        focus_uncertainty_m: focus.2,
        step_m: focus.3,
        half_range_m: focus.4,
        axis_step_m: axis.0,
        backlash_m: axis.1,
        clearance_m: axis.2,
        least_clearance_m: axis.3,
        travel_toward_lens_m: axis.4,
        travel_away_from_lens_m: axis.5,
        piece_width_m: sizes.0,
        piece_height_m: sizes.1,
        label_width_m: sizes.2,
        label_height_m: sizes.3,
        gap_m: sizes.4,
        row_width_m: sizes.5,
        ..spotwise_series_request::BLANK
    })
}

proptest! {
    #[test]
    fn plan_series((c, beam) in beam(), request in request(), room in prop_oneof![Just(0_usize), Just(245), 5..30_usize]) {
        let mut expected = vec![learn::PlannedPiece::BLANK; room];
        let model = SeriesRequest::try_from(request)
            .and_then(|request| learn::plan_series(&beam, &request, &mut expected));
        let filled = model.map_or(0, |plan| (plan.pieces as usize).min(room));
        let mut pieces = vec![spotwise_planned_piece::BLANK; room];
        compare(
            |out, error| unsafe { spotwise_plan_series(&c, &request, pieces.as_mut_ptr(), room, out, error) },
            model.map(|p| {
                let words = [p.steps_per_side, p.steps_toward_lens, p.steps_away_from_lens, p.pieces, p.engraved];
                let words = words.into_iter().chain([p.columns, p.rows, p.validity.bits(), 0]);
                words.fold(Expected::of::<spotwise_series_plan>(), Expected::word).numbers(&[
                    p.step,
                    p.half_range,
                    p.pre_travel,
                    p.rayleigh_range,
                    p.vanishing_offset.unwrap_or(f64::NAN),
                    p.width,
                    p.height,
                    p.half_angle,
                ])
            }),
        )?;
        for (place, (piece, expected)) in pieces.iter().zip(&expected).enumerate() {
            let numbers = [piece.z_m, piece.approach_z_m, piece.x_m, piece.y_m, piece.label_x_m, piece.label_y_m];
            let model = [expected.z, expected.approach_z, expected.x, expected.y, expected.label_x, expected.label_y];
            prop_assert_eq!(numbers.map(f64::to_bits), model.map(f64::to_bits));
            prop_assert_eq!(piece.role, if place < filled { expected.role as u32 } else { 0 });
            prop_assert_eq!(piece.skipped, expected.skipped.map_or(0, |reason| reason as u32));
        }
    }

    #[test]
    fn series_drift(widths in (near(60e-6), near(3e-6), near(70e-6), near(4e-6)), coverage in share()) {
        let (first_width, first_deviation, last_width, last_deviation) = widths;
        let c = spotwise_repeated_width {
            first_width_m: first_width,
            first_deviation_m: first_deviation,
            last_width_m: last_width,
            last_deviation_m: last_deviation,
            ..spotwise_repeated_width::BLANK
        };
        let repeats = RepeatedWidth { first_width, first_deviation, last_width, last_deviation };
        let model = learn::series_drift(&repeats, coverage).map(|d| {
            let word = Expected::of::<spotwise_drift>().word(u32::from(d.drifted));
            word.numbers(&[d.change, d.change_deviation, d.significance, d.chance])
        });
        compare(|out, error| unsafe { spotwise_series_drift(&c, coverage, out, error) }, model)?;
    }
}
