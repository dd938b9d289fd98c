//! What is refused, and what the refusal says.

use crate::{PITCH, drawn, frame, polygon, px, refused};
use proptest::prelude::*;
use spotwise::artwork::{
    Bounds, FillRule, Frame, InkPath, Inking, MOST_POINTS, PathStep, SampleKind, Sheet, Step, Stroke,
    StrokeCap, StrokeJoin, VectorError, Watch, draw_path, pitch_for_spot,
};
use spotwise::{Error, Param};

const NON_ZERO: Inking = Inking::Fill(FillRule::NonZero);

fn param(error: VectorError) -> Param {
    match error {
        VectorError::Refused(error) => error.param(),
        other => panic!("{other}"),
    }
}

#[test]
fn numbers_of_a_path() {
    for bad in [f64::NAN, f64::INFINITY, -f64::INFINITY, 1000.1] {
        let mut paths: Vec<InkPath> = vec![InkPath::new(); 5];
        paths[0].move_to([bad, 0.0]).line_to([0.0, 0.0]);
        paths[1].move_to([0.0, 0.0]).line_to([bad, 0.0]);
        paths[2].move_to([0.0, 0.0]).quad_to([bad, 0.0], [0.0, 0.0]);
        paths[3].move_to([0.0, 0.0]).cubic_to([0.0, 0.0], [bad, 0.0], [0.0, 0.0]);
        paths[4].move_to([0.0, 0.0]).line_to([0.0, bad]);
        for (i, path) in paths.iter().enumerate() {
            let want = if i == 4 { Param::DrawingY } else { Param::DrawingX };
            assert_eq!(param(refused(path, NON_ZERO)), want, "{bad} in path {i}");
            assert_eq!(param(refused(path, Inking::Stroke(Stroke::new(1e-5)))), want);
            assert_eq!(param(path.bounds().unwrap_err()), want);
        }
    }
}

#[test]
fn paths_that_draw_nothing() {
    let mut path = InkPath::new();
    assert_eq!(refused(&path, NON_ZERO), VectorError::NothingToDraw);
    assert_eq!(path.bounds(), Err(VectorError::NothingToDraw));
    path.move_to([0.0, 0.0]).move_to([1.0, 0.0]);
    assert_eq!(refused(&path, NON_ZERO), VectorError::NothingToDraw);
    let mut path = InkPath::new();
    path.line_to([0.0, 0.0]);
    assert_eq!(refused(&path, NON_ZERO), VectorError::NoStart);
}

#[test]
fn strokes() {
    let line = polygon(&[[1.0, 1.0], [5.0, 5.0]], false);
    for width in [0.0, -1e-3, f64::NAN, 11.0] {
        let error = refused(&line, Inking::Stroke(Stroke::new(width)));
        assert_eq!(param(error), Param::DrawnWidth, "{width}");
    }
    for value in [0.99, f64::NAN, 1001.0] {
        let stroke = Stroke { width: 1e-5, cap: StrokeCap::Butt, join: StrokeJoin::Miter { limit: value } };
        let error = refused(&line, Inking::Stroke(stroke));
        assert!(matches!(error, VectorError::MiterLimit { .. }), "{error}");
    }
}

#[test]
fn frames() {
    let good = frame(8, 8);
    for (frame, want) in [
        (Frame { width: 0, ..good }, Param::DrawingWidth),
        (Frame { width: 65_536, ..good }, Param::DrawingWidth),
        (Frame { height: 0, ..good }, Param::DrawingHeight),
        (Frame { height: usize::MAX, ..good }, Param::DrawingHeight),
        (Frame { width: 65_535, height: 65_535, ..good }, Param::DrawingPixels),
        (Frame { pitch_x: 0.0, ..good }, Param::PitchX),
        (Frame { pitch_y: f64::NAN, ..good }, Param::PitchY),
        (Frame { left_x: f64::INFINITY, ..good }, Param::DrawingX),
        (Frame { top_y: 1001.0, ..good }, Param::DrawingY),
    ] {
        assert_eq!(param(Sheet::new(frame).unwrap_err()), want, "{frame:?}");
    }
    let bounds = Bounds { left_x: 0.0, top_y: 0.0, right_x: 1.0, bottom_y: 1e-3 };
    assert_eq!(Frame::around(bounds, 0.0, 1e-6).unwrap_err().param(), Param::DrawingWidth);
    assert_eq!(Frame::around(bounds, f64::NAN, 1e-3).unwrap_err().param(), Param::DrawingX);
    assert_eq!(Frame::around(bounds, 0.0, 0.0).unwrap_err().param(), Param::PitchX);
    let frame = Frame::around(bounds, 1e-3, 1e-3).unwrap();
    assert_eq!((frame.width, frame.height), (1002, 3));
}

#[test]
fn samples_that_do_not_fit() {
    let path = polygon(&[[1.0, 1.0], [5.0, 5.0], [1.0, 5.0]], true);
    let draw = |samples: &mut [u8], stride| {
        draw_path(&path, NON_ZERO, frame(8, 8), samples, stride, &mut Watch::quiet())
    };
    assert_eq!(param(draw(&mut [0; 64], 7).unwrap_err()), Param::RowStride);
    assert_eq!(param(draw(&mut [0; 63], 8).unwrap_err()), Param::DrawingSamples);
    // A stride beyond the width, and nothing touched between the rows.
    let mut samples = [7; 7 * 11 + 8];
    draw(&mut samples, 11).unwrap();
    assert!(samples.chunks(11).all(|row| row.iter().skip(8).all(|&s| s == 7)));
    let whole = drawn(&path, NON_ZERO, frame(8, 8));
    let mut bare = [0; 7 * 11 + 8];
    draw(&mut bare, 11).unwrap();
    for (row, want) in bare.chunks(11).zip(whole.samples().chunks(8)) {
        assert_eq!(&row[..8], want);
    }
}

#[test]
fn paths_that_are_too_long() {
    // A curve that would need more chords than points are allowed: 1000 m at pixels of a nanometre.
    let mut path = InkPath::new();
    path.move_to([0.0, 0.0]).quad_to([1000.0, 1000.0], [-1000.0, 0.0]);
    let fine = Frame { pitch_x: 1e-9, pitch_y: 1e-9, ..frame(8, 8) };
    let error = Sheet::new(fine).unwrap().draw(&path, NON_ZERO).unwrap_err();
    assert_eq!(error, VectorError::TooManyPoints);
    let mut path = InkPath::new();
    path.move_to([0.0, 0.0]);
    for i in 0..MOST_POINTS {
        path.line_to(px(i as f64 % 8.0, 1.0));
    }
    assert_eq!(refused(&path, NON_ZERO), VectorError::TooManyPoints);
    assert_eq!(refused(&path, Inking::Stroke(Stroke::new(1e-5))), VectorError::TooManyPoints);
}

#[test]
fn the_watch_is_heard() {
    let path = polygon(&[[1.0, 1.0], [5.0, 5.0], [1.0, 5.0]], true);
    let mut shares = Vec::new();
    let mut tell = |share| {
        shares.push(share);
        if share < 0.4 { Step::GoOn } else { Step::Stop }
    };
    let mut samples = vec![0; 8 * 1000];
    let error = draw_path(&path, NON_ZERO, frame(8, 1000), &mut samples, 8, &mut Watch::new(&mut tell));
    assert_eq!(error, Err(VectorError::Refused(Error::Stopped { done: 0.512 })));
    assert_eq!(shares, [0.0, 0.256, 0.512]);
}

/// Four samples to the radius with coverage, eight with bilevel ones.
#[test]
fn the_pitch_that_a_spot_demands() {
    assert_eq!(pitch_for_spot(85e-6, SampleKind::Coverage).unwrap(), 85e-6 / 2.0 / 4.0);
    assert_eq!(pitch_for_spot(85e-6, SampleKind::Bilevel).unwrap(), 85e-6 / 2.0 / 8.0);
    assert_eq!(pitch_for_spot(0.0, SampleKind::Coverage).unwrap_err().param(), Param::SpotDiameter);
    assert_eq!(pitch_for_spot(f64::NAN, SampleKind::Coverage).unwrap_err().param(), Param::SpotDiameter);
    assert_eq!(pitch_for_spot(2e-9, SampleKind::Coverage).unwrap_err().param(), Param::PitchX);
}

/// Coordinates where arithmetic tends to fail: edges of tiles and their neighbours, and both ends of what is allowed.
fn hostile() -> impl Strategy<Value = f64> {
    let tile = 256.0 * PITCH;
    prop_oneof![
        prop::sample::select(vec![
            0.0,
            -0.0,
            1000.0,
            -1000.0,
            5e-324,
            -1e-300,
            tile,
            -PITCH,
            tile + PITCH,
            tile.next_up(),
            tile.next_down(),
            (tile + PITCH).next_up(),
            0.5 * PITCH,
            PITCH / 512.0,
            300.0 * PITCH,
        ]),
        -1e-3..5e-3_f64,
        -1000.0..1000.0_f64,
    ]
}

fn hostile_step() -> impl Strategy<Value = PathStep> {
    let point = || (hostile(), hostile()).prop_map(|(x, y)| [x, y]);
    prop_oneof![
        point().prop_map(|to| PathStep::Move { to }),
        point().prop_map(|to| PathStep::Line { to }),
        (point(), point()).prop_map(|(control, to)| PathStep::Quad { control, to }),
        (point(), point(), point()).prop_map(|(first, second, to)| PathStep::Cubic { first, second, to }),
        Just(PathStep::Close),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// No path does harm: it is drawn, or refused for a reason that is true of it.
    #[test]
    fn no_path_does_harm(
        steps in prop::collection::vec(hostile_step(), 1..9), even_odd: bool, width in 1e-9..10.0_f64, kind in 0_usize..9,
    ) {
        let mut path = InkPath::new();
        steps.iter().for_each(|step| { path.step(*step); });
        let cap = [StrokeCap::Butt, StrokeCap::Round, StrokeCap::Square][kind % 3];
        let join = [StrokeJoin::Bevel, StrokeJoin::Round, StrokeJoin::Miter { limit: 1000.0 }][kind / 3];
        let rule = if even_odd { FillRule::EvenOdd } else { FillRule::NonZero };
        for inking in [Inking::Fill(rule), Inking::Stroke(Stroke { width, cap, join })] {
            let outcome = Sheet::new(frame(300, 270)).unwrap().draw(&path, inking);
            let begins = matches!(steps[0], PathStep::Move { .. });
            let draws = steps.iter().any(|step| !matches!(step, PathStep::Move { .. }));
            match outcome {
                Ok(()) => prop_assert!(begins && draws),
                Err(VectorError::NoStart) => prop_assert!(!begins),
                Err(VectorError::NothingToDraw) => prop_assert!(!draws),
                Err(VectorError::TooManyPoints) => {} // curves of a thousand metres
                Err(other) => prop_assert!(false, "{other}"),
            }
        }
    }
}
