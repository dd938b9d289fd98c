//! The laws of planned series of test pieces.

use proptest::prelude::*;
use spotwise::model::learn::{
    HeightLabel, PieceLayout, PieceRole, PlannedPiece, RepeatedWidth, SeriesAxis, SeriesPlan, SeriesPurpose,
    SeriesRequest, SkipReason, SweepDirection, plan_series, series_drift,
};
use spotwise::model::mark::{MarkKind, mark_limits};
use spotwise::model::optics::{Beam, beam_parameters, focus_through_lens};
use spotwise::{Error, Param};

fn beam() -> impl Strategy<Value = Beam> {
    (0.3e-6..11e-6, 1.0..3.0, 20.0..100.0).prop_map(|(wavelength, m2, spots): (f64, f64, f64)| Beam {
        wavelength,
        m2,
        waist_diameter: spots * m2 * wavelength,
    })
}

fn request() -> impl Strategy<Value = SeriesRequest> {
    let purpose = prop_oneof![
        Just(SeriesPurpose::Widths),
        (1.05..3.0).prop_map(|dose_ratio| SeriesPurpose::Vanishing { kind: MarkKind::Line, dose_ratio }),
        (1.05..3.0).prop_map(|dose_ratio| SeriesPurpose::Vanishing { kind: MarkKind::Pulse, dose_ratio }),
    ];
    let direction = prop_oneof![Just(SweepDirection::AwayFromLens), Just(SweepDirection::TowardLens)];
    let endless = || prop_oneof![Just(f64::INFINITY), 1e-3..50e-3];
    let axis = (
        prop_oneof![Just(0.0), 1e-6..1e-3],
        0.0..0.3e-3,
        direction,
        5e-3..60e-3,
        0.0..5e-3,
        endless(),
        endless(),
    );
    let layout = (
        1e-3..10e-3,
        1e-3..10e-3,
        1e-3..10e-3,
        1e-3..3e-3,
        0.0..3e-3,
        prop_oneof![Just(f64::INFINITY), 11e-3..0.2],
    );
    (purpose, -1.0..1.0, prop_oneof![Just(0.0), 0.0..5e-3], axis, layout).prop_map(
        |(purpose, expected_focus_z, focus_uncertainty, axis, layout)| SeriesRequest {
            purpose,
            expected_focus_z,
            focus_uncertainty,
            step: 0.0,
            half_range: 0.0,
            axis: SeriesAxis {
                axis_step: axis.0,
                backlash: axis.1,
                direction: axis.2,
                clearance: axis.3,
                least_clearance: axis.4,
                travel_toward_lens: axis.5,
                travel_away_from_lens: axis.6,
            },
            layout: PieceLayout {
                piece_width: layout.0,
                piece_height: layout.1,
                label_width: layout.2,
                label_height: layout.3,
                gap: layout.4,
                row_width: layout.5,
            },
        },
    )
}

fn planned(beam: &Beam, request: &SeriesRequest) -> Result<(SeriesPlan, Vec<PlannedPiece>), Error> {
    let mut pieces = vec![PlannedPiece::BLANK; 245];
    let plan = plan_series(beam, request, &mut pieces)?;
    pieces.truncate(plan.pieces as usize);
    Ok((plan, pieces))
}

proptest! {
    /// Every engraved piece keeps clearance and travel, is approached in the direction of the sweep from within them, and
    /// every height of the range is told, once in the sweep.
    #[test]
    fn every_piece_can_be_engraved(beam in beam(), request in request()) {
        let Ok((plan, pieces)) = planned(&beam, &request) else { return Ok(()) };
        let axis = &request.axis;
        let sign = if axis.direction == SweepDirection::AwayFromLens { 1.0 } else { -1.0 };
        let allowed = |z: f64| {
            let away = z - request.expected_focus_z;
            let slack = 2e-9 * (away.abs() + axis.clearance) + 1e-15;
            axis.clearance + away >= axis.least_clearance - slack
                && -away <= axis.travel_toward_lens + slack
                && away <= axis.travel_away_from_lens + slack
        };
        let mut engraved = 0;
        for piece in &pieces {
            match piece.skipped {
                None => {
                    engraved += 1;
                    prop_assert!(allowed(piece.z) && allowed(piece.approach_z), "{piece:?}");
                    prop_assert!(sign * (piece.z - piece.approach_z) >= -1e-15);
                    // Backlash is taken up.
                    let pre_travel = if axis.backlash > 0.0 { axis.backlash } else { 0.0 };
                    prop_assert!(sign * (piece.z - piece.approach_z) >= pre_travel.min(plan.step) * 0.999_999);
                }
                Some(reason) => {
                    let approach = piece.z - sign * plan.pre_travel;
                    let near = 1e-8 * (axis.clearance + (piece.z - request.expected_focus_z).abs());
                    prop_assert!(!allowed(piece.z + near) || !allowed(piece.z - near) || !allowed(approach + near) || !allowed(approach - near), "{piece:?}");
                    prop_assert!(!reason.text().is_empty() && piece.approach_z.is_nan() && piece.x.is_nan());
                }
            }
        }
        prop_assert_eq!(engraved, plan.engraved);
        let sweep: Vec<f64> = pieces.iter().filter(|p| p.role == PieceRole::Sweep).map(|p| p.z).collect();
        prop_assert_eq!(sweep.len() as u32, 2 * plan.steps_per_side + 1);
        prop_assert!(sweep.windows(2).all(|pair| (sign * (pair[1] - pair[0]) - plan.step).abs() < 1e-9 * plan.step + 1e-15));
        prop_assert!(plan.steps_toward_lens >= 2 && plan.steps_away_from_lens >= 2);
    }

    /// The first and the last pieces are the same heights, expected focus first.
    #[test]
    fn repeats_stand_before_and_after(beam in beam(), request in request()) {
        let Ok((_, pieces)) = planned(&beam, &request) else { return Ok(()) };
        let of = |role| pieces.iter().filter(move |p| p.role == role).map(|p| p.z).collect::<Vec<_>>();
        prop_assert_eq!(of(PieceRole::FirstRepeat), of(PieceRole::LastRepeat));
        prop_assert_eq!(pieces[0].z, request.expected_focus_z);
        prop_assert_eq!(pieces[0].role, PieceRole::FirstRepeat);
        prop_assert_eq!(pieces[pieces.len() - 1].role, PieceRole::LastRepeat);
    }

    /// Nothing on the drawing touches anything else, and nothing sticks out of it.
    #[test]
    fn pieces_and_labels_do_not_overlap(beam in beam(), request in request()) {
        let Ok((plan, pieces)) = planned(&beam, &request) else { return Ok(()) };
        let layout = &request.layout;
        let mut boxes = Vec::new();
        for p in pieces.iter().filter(|p| p.skipped.is_none()) {
            boxes.push([p.x, p.y, p.x + layout.piece_width, p.y + layout.piece_height]);
            boxes.push([p.label_x, p.label_y, p.label_x + layout.label_width, p.label_y + layout.label_height]);
            prop_assert!(p.label_y + layout.label_height <= p.y + 1e-12, "a label stands below its piece");
        }
        for (i, a) in boxes.iter().enumerate() {
            prop_assert!(a[0] >= 0.0 && a[1] >= 0.0 && a[2] <= plan.width + 1e-12 && a[3] <= plan.height + 1e-12);
            for b in &boxes[i + 1..] {
                let apart = |k: usize| a[k + 2] <= b[k] + 1e-12 || b[k + 2] <= a[k] + 1e-12;
                prop_assert!(apart(0) || apart(1), "{a:?} {b:?}");
            }
        }
        prop_assert!(plan.width <= layout.row_width * (1.0 + 1e-8));
    }

    /// Steps and ranges are those that the module promises.
    #[test]
    fn steps_follow_the_beam(beam in beam(), request in request()) {
        let free = SeriesRequest {
            axis: SeriesAxis { axis_step: 0.0, clearance: 1e3, travel_toward_lens: f64::INFINITY, travel_away_from_lens: f64::INFINITY, ..request.axis },
            focus_uncertainty: 0.0,
            ..request
        };
        let (plan, _) = planned(&beam, &free).unwrap();
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        prop_assert_eq!(plan.rayleigh_range, zr);
        match request.purpose {
            SeriesPurpose::Vanishing { kind, dose_ratio } => {
                let vanishing = mark_limits(&beam, kind, dose_ratio).unwrap().vanishing_offset;
                prop_assert!((plan.vanishing_offset.unwrap() / vanishing - 1.0).abs() < 1e-14);
                prop_assert!((plan.step / vanishing - 0.25).abs() < 1e-14);
                prop_assert_eq!(plan.pieces, 15);
                // The marks vanish within the series, with two heights beyond.
                prop_assert!(plan.half_range - 2.0 * plan.step >= vanishing * (1.0 - 1e-12));
            }
            _ => {
                prop_assert!((plan.step / zr - 0.4).abs() < 1e-14);
                prop_assert_eq!((plan.steps_per_side, plan.pieces, plan.engraved), (5, 15, 15));
            }
        }
        // A coarse axis rounds the step to whole steps of its own.
        let axis_step = 0.37 * plan.step;
        let coarse = SeriesRequest { axis: SeriesAxis { axis_step, ..free.axis }, ..free };
        let (coarse, _) = planned(&beam, &coarse).unwrap();
        prop_assert!((coarse.step / axis_step - 3.0).abs() < 1e-14);
        // And twice the range takes twice the steps.
        let wide = SeriesRequest { step: plan.step, half_range: 10.0 * plan.step, ..free };
        prop_assert_eq!(planned(&beam, &wide).unwrap().0.steps_per_side, 10);
    }

    /// Sweeping the other way only turns the order round.
    #[test]
    fn direction_turns_the_order_round(beam in beam(), request in request()) {
        let roomy = |direction| SeriesRequest {
            axis: SeriesAxis { direction, clearance: 1e3, travel_toward_lens: f64::INFINITY, travel_away_from_lens: f64::INFINITY, ..request.axis },
            ..request
        };
        let sweep = |direction| {
            planned(&beam, &roomy(direction)).map(|(_, pieces)| {
                pieces.into_iter().filter(|p| p.role == PieceRole::Sweep).map(|p| p.z).collect::<Vec<_>>()
            })
        };
        match (sweep(SweepDirection::AwayFromLens), sweep(SweepDirection::TowardLens)) {
            (Ok(away), Ok(mut toward)) => {
                toward.reverse();
                prop_assert_eq!(away, toward);
            }
            (away, toward) => prop_assert_eq!(away.unwrap_err(), toward.unwrap_err()),
        }
    }

    /// A slice that is too short is refused and stays blank; an empty one only asks.
    #[test]
    fn room_is_asked_for(beam in beam(), request in request(), short in 1..14_usize) {
        let Ok((plan, _)) = planned(&beam, &request) else { return Ok(()) };
        prop_assert_eq!(plan_series(&beam, &request, &mut []).unwrap(), plan);
        let mut pieces = vec![PlannedPiece { z: 1.0, ..PlannedPiece::BLANK }; short.min(plan.pieces as usize - 1)];
        let refused = plan_series(&beam, &request, &mut pieces).unwrap_err();
        prop_assert_eq!((refused.code(), refused.param()), (6, Param::PlannedPieces));
        prop_assert_eq!(refused.allowed().0, f64::from(plan.pieces));
        prop_assert!(pieces.iter().all(|p| p.z.is_nan()));
    }

    /// Labels are what the standard library prints.
    #[test]
    fn labels_are_decimal_numbers(micrometres in -1_000_000_000..=1_000_000_000_i64) {
        let expected = match micrometres {
            0 => "0.000".to_owned(),
            _ => format!("{:+.3}", micrometres as f64 / 1000.0),
        };
        let label = HeightLabel::of(micrometres as f64 * 1e-6);
        prop_assert_eq!(label.as_str(), expected);
    }

    /// Drift: antisymmetric, surer with smaller deviations, and as `statrs`' normal law has it at some places below.
    #[test]
    fn drift_is_antisymmetric(first in 10e-6..200e-6, last in 10e-6..200e-6, d1 in 0.5e-6..20e-6, d2 in 0.5e-6..20e-6) {
        let of = |first_width, first_deviation, last_width, last_deviation| {
            series_drift(&RepeatedWidth { first_width, first_deviation, last_width, last_deviation }, 0.95).unwrap()
        };
        let there = of(first, d1, last, d2);
        let back = of(last, d2, first, d1);
        prop_assert_eq!((there.change, there.chance, there.drifted), (-back.change, back.chance, back.drifted));
        prop_assert!(of(first, 0.5 * d1, last, 0.5 * d2).chance <= there.chance);
        prop_assert_eq!(there.drifted, there.significance.abs() > 1.959_963_984_540_054);
    }

    /// Anything at all is planned or refused.
    #[test]
    fn anything_is_planned_or_refused(beam in beam(), request in request(), which in 0..9_usize, value in any::<f64>()) {
        let mut request = request;
        match which {
            0 => request.expected_focus_z = value,
            1 => request.focus_uncertainty = value,
            2 => request.step = value,
            3 => request.half_range = value,
            4 => request.axis.axis_step = value,
            5 => request.axis.backlash = value,
            6 => request.axis.clearance = value,
            7 => request.axis.travel_toward_lens = value,
            _ => request.layout.row_width = value,
        }
        if let Ok((plan, pieces)) = planned(&beam, &request) {
            prop_assert!(pieces.iter().all(|p| p.z.is_finite()) && plan.step.is_finite() && plan.width.is_finite());
        }
    }
}

fn good() -> SeriesRequest {
    SeriesRequest {
        purpose: SeriesPurpose::Widths,
        expected_focus_z: 0.0,
        focus_uncertainty: 0.0,
        step: 0.0,
        half_range: 0.0,
        axis: SeriesAxis {
            axis_step: 0.0,
            backlash: 0.0,
            direction: SweepDirection::AwayFromLens,
            clearance: 20e-3,
            least_clearance: 1e-3,
            travel_toward_lens: f64::INFINITY,
            travel_away_from_lens: f64::INFINITY,
        },
        layout: PieceLayout {
            piece_width: 8e-3,
            piece_height: 8e-3,
            label_width: 8e-3,
            label_height: 2e-3,
            gap: 2e-3,
            row_width: f64::INFINITY,
        },
    }
}

const BEAM: Beam = Beam { wavelength: 1.064e-6, m2: 1.2, waist_diameter: 60e-6 };

#[test]
fn refusals_say_what_to_change() {
    let refused = |change: fn(&mut SeriesRequest)| {
        let mut request = good();
        change(&mut request);
        plan_series(&BEAM, &request, &mut []).unwrap_err()
    };
    let cramped = refused(|r| r.axis.clearance = 2e-3);
    assert_eq!(cramped.param(), Param::StepsTowardLens);
    assert_eq!(
        cramped.to_string(),
        "steps left toward the lens = 1 is too few (must be at least 2): take smaller steps, or make room on that side"
    );
    assert_eq!(refused(|r| r.axis.travel_away_from_lens = 1e-3).param(), Param::StepsAwayFromLens);
    assert_eq!(refused(|r| r.step = 1e-6).param(), Param::StepsPerSide);
    assert_eq!(refused(|r| r.axis.backlash = -1.0).param(), Param::AxisBacklash);
    assert_eq!(refused(|r| r.axis.axis_step = -1.0).param(), Param::AxisStep);
    assert_eq!(refused(|r| r.axis.clearance = f64::NAN).param(), Param::WorkingDistance);
    assert_eq!(refused(|r| r.axis.least_clearance = -1.0).param(), Param::LeastClearance);
    assert_eq!(refused(|r| r.axis.travel_toward_lens = f64::NAN).param(), Param::AxisTravel);
    assert_eq!(refused(|r| r.layout.label_height = 0.0).param(), Param::PieceSize);
    assert_eq!(refused(|r| r.layout.gap = -1.0).param(), Param::PieceGap);
    assert_eq!(refused(|r| r.layout.row_width = 7e-3).param(), Param::RowWidth);
    assert_eq!(refused(|r| r.half_range = -1.0).param(), Param::SeriesHalfRange);
    assert_eq!(refused(|r| r.focus_uncertainty = -1.0).param(), Param::SetUpTolerance);
    assert_eq!(refused(|r| r.expected_focus_z = 2e3).param(), Param::FocusZ);
    let vanishing = |r: &mut SeriesRequest| {
        r.purpose = SeriesPurpose::Vanishing { kind: MarkKind::Line, dose_ratio: 1.0 };
    };
    assert_eq!(refused(vanishing).param(), Param::DoseRatio);
}

/// A backlash that leaves no room before the first height says so.
#[test]
fn no_room_to_approach() {
    let mut request = good();
    request.axis.travel_toward_lens = 4.5e-3;
    request.axis.backlash = 0.2e-3;
    let (plan, pieces) = planned(&BEAM, &request).unwrap();
    assert_eq!((plan.steps_toward_lens, plan.steps_away_from_lens), (4, 5));
    assert_eq!(pieces[2].skipped, Some(SkipReason::NoRoomToApproach));
}

/// From a lens and a rough beam: what the lens makes of it is the beam to plan for.
#[test]
fn from_a_lens_and_a_rough_beam() {
    let raw = Beam { wavelength: 10.6e-6, m2: 1.3, waist_diameter: 6e-3 };
    let focused = focus_through_lens(&raw, 1.0, 50.8e-3).unwrap();
    let beam = Beam { waist_diameter: focused.waist_diameter, ..raw };
    let (plan, _) = planned(&beam, &good()).unwrap();
    // z_R before the lens π·9/13.78 = 2.0518 m; behind it f²·z_R/((d − f)² + z_R²) = 0.0025806·2.0518/5.1109.
    assert!((plan.rayleigh_range / 1.036e-3 - 1.0).abs() < 1e-3, "{}", plan.rayleigh_range);
    assert!((plan.step / (0.4 * plan.rayleigh_range) - 1.0).abs() < 1e-14);
}

/// Why the flank is repeated too: a height that drifts by a fifth of a Rayleigh range changes the spot in focus by 2 %,
/// on the flank by 11 %, six times as much.
#[test]
fn focus_alone_hardly_sees_a_height_that_drifts() {
    let growth = |z: f64| (1.0 + z * z).sqrt();
    let in_focus = growth(0.2) / growth(0.0) - 1.0;
    let on_flank = growth(1.2) / growth(1.0) - 1.0;
    assert!(
        (in_focus - 0.0198).abs() < 1e-4 && (on_flank - 0.1045).abs() < 1e-4 && on_flank > 5.0 * in_focus
    );
}
