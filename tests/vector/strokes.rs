//! Strokes: their areas follow from width, caps and joins.

use crate::{PITCH, area, drawn, frame, polygon, px};
use proptest::prelude::*;
use spotwise::artwork::{Frame, InkPath, Inking, Stroke, StrokeCap, StrokeJoin};
use std::f64::consts::{PI, SQRT_2};

/// A stroke of a width in pixels.
fn stroke(width: f64, cap: StrokeCap, join: StrokeJoin) -> Inking {
    Inking::Stroke(Stroke { width: width * PITCH, cap, join })
}

const MITER: StrokeJoin = StrokeJoin::Miter { limit: 4.0 };

fn near(got: f64, want: f64, budget: f64, what: &str) {
    assert!((got - want).abs() <= budget, "{what}: {got} for {want}");
}

#[test]
fn caps_add_their_area() {
    // 100 pixels long (a 3-4-5 triangle's side), 12 wide.
    let line = polygon(&[[20.3, 20.6], [80.3, 100.6]], false);
    for (cap, ends) in
        [(StrokeCap::Butt, 0.0), (StrokeCap::Square, 12.0 * 12.0), (StrokeCap::Round, PI * 6.0 * 6.0)]
    {
        let got = area(&drawn(&line, stroke(12.0, cap, MITER), frame(130, 130)));
        near(got, 1200.0 + ends, 2.5, &format!("{cap:?}"));
    }
}

#[test]
fn thin_strokes_keep_their_width() {
    for width in [0.1, 0.37, 1.0, 2.2] {
        let line = polygon(&[[10.0, 20.2], [210.0, 60.9]], false);
        let got = area(&drawn(&line, stroke(width, StrokeCap::Butt, MITER), frame(220, 80)));
        let long = 200.0_f64.hypot(40.7);
        near(got, long * width, long / 128.0, &format!("{width}"));
    }
}

#[test]
fn joins_differ_at_a_corner() {
    // A right angle: the two bars share a square of half widths; outside lies the corner.
    let corner = polygon(&[[20.0, 20.0], [80.0, 20.0], [80.0, 80.0]], false);
    let half: f64 = 7.0;
    let bars = 2.0 * 60.0 * 2.0 * half - half * half;
    for (join, outside) in [
        (StrokeJoin::Bevel, 0.5 * half * half),
        (StrokeJoin::Round, 0.25 * PI * half * half),
        (MITER, half * half),
        (StrokeJoin::Miter { limit: SQRT_2 + 1e-9 }, half * half),
        (StrokeJoin::Miter { limit: 1.4 }, 0.5 * half * half),
    ] {
        let got = area(&drawn(&corner, stroke(2.0 * half, StrokeCap::Butt, join), frame(100, 100)));
        near(got, bars + outside, 0.6, &format!("{join:?}"));
    }
}

/// A closed square has no ends, and every corner its join.
#[test]
fn a_closed_square_is_a_frame() {
    for clockwise in [true, false] {
        let mut corners = vec![[30.0, 30.0], [90.0, 30.0], [90.0, 90.0], [30.0, 90.0]];
        if clockwise {
            corners.reverse();
        }
        let path = polygon(&corners, true);
        let got = area(&drawn(&path, stroke(10.0, StrokeCap::Round, MITER), frame(120, 120)));
        near(got, 70.0 * 70.0 - 50.0 * 50.0, 0.5, "mitre");
        let got = area(&drawn(&path, stroke(10.0, StrokeCap::Round, StrokeJoin::Round), frame(120, 120)));
        near(got, 70.0 * 70.0 - 50.0 * 50.0 - (4.0 - PI) * 25.0, 1.0, "round");
        // Wider than the square: no hole is left.
        let got = area(&drawn(&path, stroke(59.0, StrokeCap::Butt, MITER), frame(120, 120)));
        near(got, 119.0 * 119.0 - 1.0, 1.2, "nearly closed");
        let got = area(&drawn(&path, stroke(60.0, StrokeCap::Butt, MITER), frame(120, 120)));
        near(got, 120.0 * 120.0, 0.5, "closed");
    }
}

/// A circle's stroke is a ring, 2π·r·w, in pixels of any shape.
#[test]
fn a_circle_is_a_ring() {
    for (pitch_x, pitch_y) in [(1e-5, 1e-5), (1e-5, 2.5e-5), (3e-5, 1e-5)] {
        let mut path = InkPath::new();
        path.circle([2.2e-3, 2.2e-3], 2e-3);
        let frame = Frame {
            width: (4.4e-3 / pitch_x) as usize + 1,
            height: (4.4e-3 / pitch_y) as usize + 1,
            pitch_x,
            pitch_y,
            left_x: 0.0,
            top_y: 0.0,
        };
        let ring = Inking::Stroke(Stroke::new(0.15e-3));
        let got = area(&drawn(&path, ring, frame)) * pitch_x * pitch_y;
        let want = 2.0 * PI * 2e-3 * 0.15e-3;
        near(got / want, 1.0, 0.004, &format!("{pitch_x} {pitch_y}"));
    }
}

#[test]
fn parts_of_no_length_are_dots() {
    let dot = polygon(&[[20.5, 20.5], [20.5, 20.5]], false);
    for (cap, want) in [(StrokeCap::Round, PI * 64.0), (StrokeCap::Square, 256.0), (StrokeCap::Butt, 0.0)] {
        near(area(&drawn(&dot, stroke(16.0, cap, MITER), frame(41, 41))), want, 0.6, &format!("{cap:?}"));
    }
}

/// There and back: a hairpin keeps its ink, with a round or a flat end. The ink of both
/// ways adds up in the pixels through which the round end runs.
#[test]
fn a_hairpin_keeps_its_ink() {
    let pin = polygon(&[[20.0, 30.0], [100.0, 30.0], [20.0, 30.0]], false);
    let flat = area(&drawn(&pin, stroke(10.0, StrokeCap::Butt, MITER), frame(120, 60)));
    near(flat, 800.0, 0.5, "flat");
    let round = area(&drawn(&pin, stroke(10.0, StrokeCap::Butt, StrokeJoin::Round), frame(120, 60)));
    near(round, 800.0 + 0.5 * PI * 25.0, 4.0, "round");
}

fn distance(points: &[[f64; 2]], x: f64, y: f64) -> f64 {
    let each = points.windows(2).map(|ends| {
        let ([x0, y0], [x1, y1]) = (ends[0], ends[1]);
        let (dx, dy) = (x1 - x0, y1 - y0);
        let t = (((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        (x - x0 - t * dx).hypot(y - y0 - t * dy)
    });
    each.fold(f64::INFINITY, f64::min)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// With round ends and joins, ink is what lies nearer to the line than half the width.
    #[test]
    fn round_strokes_are_near_their_line(
        corners in prop::collection::vec((0.0..300.0_f64, 0.0..300.0_f64), 2..7), width in 1.0..60.0_f64,
    ) {
        let points: Vec<[f64; 2]> = corners.into_iter().map(|(x, y)| [x, y]).collect();
        let inking = stroke(width, StrokeCap::Round, StrokeJoin::Round);
        let sheet = drawn(&polygon(&points, false), inking, frame(300, 300));
        for i in (0..300 * 300).step_by(29) {
            let from = distance(&points, (i % 300) as f64 + 0.5, (i / 300) as f64 + 0.5) - 0.5 * width;
            if from.abs() > 0.75 {
                prop_assert_eq!(sheet.samples()[i], if from < 0.0 { 255 } else { 0 }, "pixel {}", i);
            }
        }
    }

    /// A curve's stroke is that of the points along it.
    #[test]
    fn curved_strokes_are_near_their_curve(
        p in prop::collection::vec((20.0..280.0_f64, 20.0..280.0_f64), 4), width in 1.0..40.0_f64,
    ) {
        let mut path = InkPath::new();
        path.move_to(px(p[0].0, p[0].1)).cubic_to(px(p[1].0, p[1].1), px(p[2].0, p[2].1), px(p[3].0, p[3].1));
        let points: Vec<[f64; 2]> = (0..=400).map(|i| {
            let t = f64::from(i) / 400.0;
            let s = 1.0 - t;
            let at = |a: f64, b: f64, c: f64, d: f64| s * s * s * a + 3.0 * s * s * t * b + 3.0 * s * t * t * c + t * t * t * d;
            [at(p[0].0, p[1].0, p[2].0, p[3].0), at(p[0].1, p[1].1, p[2].1, p[3].1)]
        }).collect();
        let inking = stroke(width, StrokeCap::Round, StrokeJoin::Round);
        let sheet = drawn(&path, inking, frame(300, 300));
        for i in (0..300 * 300).step_by(61) {
            let from = distance(&points, (i % 300) as f64 + 0.5, (i / 300) as f64 + 0.5) - 0.5 * width;
            if from.abs() > 0.8 {
                prop_assert_eq!(sheet.samples()[i], if from < 0.0 { 255 } else { 0 }, "pixel {}", i);
            }
        }
    }
}
