//! Filled shapes.

use crate::{PITCH, area, drawn, frame, polygon, px};
use proptest::prelude::*;
use spotwise::artwork::{FillRule, Frame, InkPath, Inking};
use std::f64::consts::PI;

const NON_ZERO: Inking = Inking::Fill(FillRule::NonZero);
const EVEN_ODD: Inking = Inking::Fill(FillRule::EvenOdd);

/// Each pixel of an upright rectangle holds the product of two lengths.
#[test]
fn a_rectangle_covers_shares_of_pixels() {
    let (x0, y0, x1, y1) = (1.25, 2.5, 6.75, 5.125);
    let mut path = InkPath::new();
    path.rectangle(px(x0, y0), px(x1, y1));
    let sheet = drawn(&path, NON_ZERO, frame(9, 8));
    let overlap = |from: f64, to: f64, i: usize| (to.min(i as f64 + 1.0) - from.max(i as f64)).max(0.0);
    for (i, &sample) in sheet.samples().iter().enumerate() {
        let share = overlap(x0, x1, i % 9) * overlap(y0, y1, i / 9);
        assert!((f64::from(sample) - 255.0 * share).abs() <= 1.0, "pixel {i}: {sample} for {share}");
    }
}

/// Half of a pixel is ink from its middle on: 128.
#[test]
fn half_a_pixel_is_ink() {
    let mut path = InkPath::new();
    path.rectangle(px(0.0, 0.0), px(2.5, 1.0));
    assert_eq!(drawn(&path, NON_ZERO, frame(4, 1)).samples(), [255, 255, 128, 0]);
}

#[test]
fn a_circle_has_its_area() {
    for radius in [0.7, 3.0, 20.0, 133.0, 600.5] {
        let size = (2.0 * radius + 4.0) as usize;
        let mut path = InkPath::new();
        path.circle(px(radius + 1.3, radius + 1.6), radius * PITCH);
        let got = area(&drawn(&path, NON_ZERO, frame(size, size)));
        // Four cubic curves: 0.028 % outside the circle at most, so 0.056 % of its area; then the pixels.
        let budget = 5.6e-4 * PI * radius * radius + 2.0 * PI * radius / 128.0;
        assert!((got - PI * radius * radius).abs() < budget, "radius {radius}: {got}");
    }
}

/// Two circles of one sense: a ring by even-odd, a disc by non-zero; turned against each other a ring by both.
#[test]
fn rules_differ_where_they_should() {
    let (outer, inner) = (40.0, 25.0);
    let middle = px(50.0, 50.0);
    let mut same = InkPath::new();
    same.circle(middle, outer * PITCH).circle(middle, inner * PITCH);
    let ring = PI * (outer * outer - inner * inner);
    let disc = PI * outer * outer;
    let near = |got: f64, want: f64| assert!((got - want).abs() < 5e-3 * want, "{got} for {want}");
    near(area(&drawn(&same, EVEN_ODD, frame(100, 100))), ring);
    near(area(&drawn(&same, NON_ZERO, frame(100, 100))), disc);
    let mut against = InkPath::new();
    // A negative radius turns the other way.
    against.circle(middle, outer * PITCH).rectangle(px(50.0, 30.0), px(30.0, 70.0));
    near(area(&drawn(&against, NON_ZERO, frame(100, 100))), disc - 20.0 * 40.0);
}

/// A five-pointed star drawn in one line: its tips reach R, its inner corners R·cos 72°/cos 36°.
#[test]
fn a_star_is_hollow_by_even_odd() {
    let r = 90.0;
    let tip = |i: usize| {
        let angle = 2.0 * PI * (2 * i) as f64 / 5.0 + 0.1;
        [100.0 + r * angle.cos(), 100.0 + r * angle.sin()]
    };
    let path = polygon(&[tip(0), tip(1), tip(2), tip(3), tip(4)], true);
    let inner = r * (0.4 * PI).cos() / (0.2 * PI).cos();
    let star = 5.0 * r * inner * (0.2 * PI).sin();
    let pentagon = 2.5 * inner * inner * (0.4 * PI).sin();
    let non_zero = area(&drawn(&path, NON_ZERO, frame(200, 200)));
    let even_odd = area(&drawn(&path, EVEN_ODD, frame(200, 200)));
    assert!((non_zero - star).abs() < 10.0, "{non_zero} for {star}");
    assert!((even_odd - (star - pentagon)).abs() < 10.0, "{even_odd} for {}", star - pentagon);
}

/// The area under the parabola y = h·4·t·(1 − t) over a chord is ⅔ of the box: a quadratic curve's.
#[test]
fn a_quadratic_curve_is_a_parabola() {
    let mut path = InkPath::new();
    path.move_to(px(10.0, 310.0)).quad_to(px(160.0, -190.0), px(310.0, 310.0)).close();
    let got = area(&drawn(&path, NON_ZERO, frame(320, 320)));
    assert!((got - 2.0 / 3.0 * 300.0 * 250.0).abs() < 8.0, "{got}");
}

/// Open parts are closed by a straight line, and a line after a close begins where the closed part began.
#[test]
fn parts_are_closed() {
    let open = polygon(&[[1.0, 1.0], [9.0, 1.0], [9.0, 9.0]], false);
    let closed = polygon(&[[1.0, 1.0], [9.0, 1.0], [9.0, 9.0]], true);
    let as_drawn = |path| drawn(path, NON_ZERO, frame(10, 10)).samples().to_vec();
    assert_eq!(as_drawn(&open), as_drawn(&closed));
    let mut on = closed.clone();
    on.line_to(px(9.0, 9.0)).line_to(px(1.0, 9.0)).close();
    let both = drawn(&on, NON_ZERO, frame(10, 10));
    assert!((area(&both) - 64.0).abs() < 0.1);
}

/// Whatever lies beyond the frame, however far, leaves the same ink within it.
#[test]
fn what_is_far_away_is_cut_off() {
    // A half plane below a line of slope 1/2, whose corners lie 300 m away; the pixels are a micrometre.
    let far = 300.0;
    let mut path = InkPath::new();
    path.move_to([-far, -0.5 * far])
        .line_to([far, 0.5 * far])
        .line_to([far, far])
        .line_to([-far, far])
        .close();
    let frame = Frame { width: 300, height: 300, pitch_x: 1e-6, pitch_y: 1e-6, left_x: 0.0, top_y: 0.0 };
    let sheet = drawn(&path, NON_ZERO, frame);
    for (y, row) in sheet.samples().chunks(300).enumerate() {
        let inked: f64 = row.iter().map(|&s| f64::from(s) / 255.0).sum();
        // Row y, from y to y + 1, is inked where x < 2·y, on average over the row 2·y + 1.
        assert!((inked - (2 * y + 1).min(300) as f64).abs() < 0.6, "row {y}: {inked}");
    }
}

/// Two inks on one pixel: 1 − ½·½, where each half is 128 of 255, and 255 − 127²/255 = 191.7.
#[test]
fn paths_cover_like_independent_inks() {
    let mut path = InkPath::new();
    path.rectangle(px(0.0, 0.0), px(0.5, 1.0));
    let mut sheet = drawn(&path, NON_ZERO, frame(1, 1));
    sheet.draw(&path, NON_ZERO).unwrap();
    assert_eq!(sheet.samples(), [192]);
}

/// A million turns in one pixel: neither an overflow nor a wrong answer beside it.
#[test]
fn many_turns_in_one_pixel() {
    let mut path = InkPath::new();
    path.move_to(px(2.1, 2.1));
    for _ in 0..250_000 {
        path.line_to(px(2.9, 2.1)).line_to(px(2.9, 2.9)).line_to(px(2.1, 2.9)).line_to(px(2.1, 2.1));
    }
    let sheet = drawn(&path, NON_ZERO, frame(5, 5));
    let beside: u32 =
        sheet.samples().iter().enumerate().filter(|(i, _)| *i != 12).map(|(_, &s)| u32::from(s)).sum();
    assert_eq!(beside, 0);
}

fn shoelace(points: &[[f64; 2]]) -> f64 {
    let next = points.iter().cycle().skip(1);
    0.5 * points.iter().zip(next).map(|([x0, y0], [x1, y1])| x0 * y1 - x1 * y0).sum::<f64>()
}

fn length(points: &[[f64; 2]]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|([x0, y0], [x1, y1])| (x1 - x0).hypot(y1 - y0)).sum()
}

/// Turns of a closed polygon around a point.
fn winding(points: &[[f64; 2]], [x, y]: [f64; 2]) -> i32 {
    let next = points.iter().cycle().skip(1);
    let mut turns = 0;
    for ([x0, y0], [x1, y1]) in points.iter().zip(next) {
        if (*y0 <= y) != (*y1 <= y) && x0 + (y - y0) / (y1 - y0) * (x1 - x0) > x {
            turns += if y1 > y0 { 1 } else { -1 };
        }
    }
    turns
}

fn distance(points: &[[f64; 2]], [x, y]: [f64; 2]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let each = points.iter().zip(next).map(|([x0, y0], [x1, y1])| {
        let (dx, dy) = (x1 - x0, y1 - y0);
        let t = (((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        (x - x0 - t * dx).hypot(y - y0 - t * dy)
    });
    each.fold(f64::INFINITY, f64::min)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// A convex polygon across tiles has the area of the shoelace formula.
    #[test]
    fn convex_polygons_have_their_area(
        angles in prop::collection::vec(0.0..1.0_f64, 3..9), (cx, cy) in (200.0..320.0, 200.0..320.0), r in 2.0..190.0_f64,
    ) {
        let total: f64 = angles.iter().map(|a| a + 0.1).sum();
        let mut turn = 0.0;
        let points: Vec<[f64; 2]> = angles.iter().map(|a| {
            turn += (a + 0.1) / total * 2.0 * PI;
            [cx + r * turn.cos(), cy + r * turn.sin()]
        }).collect();
        let got = area(&drawn(&polygon(&points, true), NON_ZERO, frame(520, 520)));
        let budget = length(&points) / 128.0 + 0.05;
        prop_assert!((got - shoelace(&points)).abs() < budget, "{got} for {}", shoelace(&points));
    }

    /// Away from every line, a polygon that crosses itself is inked by its turns.
    #[test]
    fn crossing_polygons_follow_their_rule(
        corners in prop::collection::vec((-30.0..330.0_f64, -30.0..330.0_f64), 3..10),
    ) {
        let points: Vec<[f64; 2]> = corners.into_iter().map(|(x, y)| [x, y]).collect();
        let path = polygon(&points, true);
        let non_zero = drawn(&path, NON_ZERO, frame(300, 300));
        let even_odd = drawn(&path, EVEN_ODD, frame(300, 300));
        for i in (0..300 * 300).step_by(37) {
            let at = [(i % 300) as f64 + 0.5, (i / 300) as f64 + 0.5];
            if distance(&points, at) > 0.75 {
                let turns = winding(&points, at);
                prop_assert_eq!(non_zero.samples()[i], if turns == 0 { 0 } else { 255 });
                prop_assert_eq!(even_odd.samples()[i], if turns % 2 == 0 { 0 } else { 255 });
            }
        }
    }

    /// A window of a drawing shows what the whole drawing does there, though its tiles lie otherwise.
    #[test]
    fn tiles_do_not_show(
        corners in prop::collection::vec((0.0..600.0_f64, 0.0..600.0_f64), 3..6), left in 1_usize..300, top in 1_usize..300,
    ) {
        let points: Vec<[f64; 2]> = corners.into_iter().map(|(x, y)| [x, y]).collect();
        let path = polygon(&points, true);
        let whole = drawn(&path, NON_ZERO, frame(600, 600));
        let window = Frame { left_x: left as f64 * PITCH, top_y: top as f64 * PITCH, ..frame(280, 270) };
        let part = drawn(&path, NON_ZERO, window);
        for (i, &sample) in part.samples().iter().enumerate() {
            let there = whole.samples()[(top + i / 280) * 600 + left + i % 280];
            prop_assert!(sample.abs_diff(there) <= 3, "pixel {i}: {sample} for {there}");
        }
    }
}
