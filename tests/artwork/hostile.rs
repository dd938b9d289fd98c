//! Input that is wrong, or right and odd: a clear error or a right answer, and never a panic.

use crate::plate::{PITCH, burnt, exact, farthest, fast, level, lines, shapes, strokes};
use crate::preflight::run;
use proptest::prelude::*;
use spotwise::artwork::{
    Answer, Drawing, DrawingUse, Exposing, ExposurePlan, Preflight, PreflightPlan, SampleKind, Scan, Watch,
};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Bulge, Surface};
use spotwise::{Error, Param};

fn refused(drawing: &Drawing<'_>, exposing: &Exposing<'_>) -> Error {
    ExposurePlan::new(drawing, exposing, &mut Watch::quiet()).expect_err("this must be refused")
}

/// Every number of a drawing, by name and in the order of its fields. A gigantic size is refused before a sample is
/// looked at.
#[test]
fn wrong_drawings_are_refused_by_name() {
    let samples = [255; 12 * 10];
    let right = burnt(&samples, 12);
    let exposing = level(3.0, Scan::Unknown);
    let huge = [
        (Drawing { width: 0, ..right }, Param::DrawingWidth),
        (Drawing { width: 65_536, row_stride: usize::MAX, ..right }, Param::DrawingWidth),
        (Drawing { width: usize::MAX, row_stride: usize::MAX, ..right }, Param::DrawingWidth),
        (Drawing { height: 0, ..right }, Param::DrawingHeight),
        (Drawing { height: 65_536, ..right }, Param::DrawingHeight),
        (Drawing { height: usize::MAX, ..right }, Param::DrawingHeight),
        (Drawing { row_stride: 11, ..right }, Param::RowStride),
        (Drawing { row_stride: 0, ..right }, Param::RowStride),
        (Drawing { row_stride: usize::MAX, ..right }, Param::RowStride),
        (Drawing { width: 65_535, height: 65_535, row_stride: 65_535, ..right }, Param::DrawingPixels),
        (Drawing { width: 16_385, height: 16_384, row_stride: 16_385, ..right }, Param::DrawingPixels),
        (Drawing { width: 16_384, height: 16_384, row_stride: 16_384, ..right }, Param::DrawingSamples),
        (Drawing { samples: &samples[..119], ..right }, Param::DrawingSamples),
        (Drawing { samples: &[], ..right }, Param::DrawingSamples),
        (Drawing { row_stride: 13, ..right }, Param::DrawingSamples),
        (Drawing { row_stride: 4_294_967_295, ..right }, Param::DrawingSamples),
    ];
    for (drawing, param) in huge {
        let error = refused(&drawing, &exposing);
        assert!(matches!(error, Error::OutOfRange { .. }), "{error}");
        assert_eq!(error.param(), param, "{error}");
    }
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let wrong = [
            (Drawing { pitch_x: bad, ..right }, Param::PitchX),
            (Drawing { pitch_y: bad, ..right }, Param::PitchY),
            (Drawing { left_x: bad, ..right }, Param::DrawingX),
            (Drawing { top_y: bad, ..right }, Param::DrawingY),
        ];
        for (drawing, param) in wrong {
            let error = refused(&drawing, &exposing);
            assert!(matches!(error, Error::NotFinite { .. }), "{error}");
            assert_eq!(error.param(), param);
        }
    }
    for bad in [0.0, -1e-5, 9e-10, 1.1] {
        assert_eq!(refused(&Drawing { pitch_x: bad, ..right }, &exposing).param(), Param::PitchX);
        assert_eq!(refused(&Drawing { pitch_y: bad, ..right }, &exposing).param(), Param::PitchY);
    }
    // The last row needs no more samples than it has columns.
    let last = Drawing { width: 11, height: 10, samples: &samples[..119], ..right };
    assert!(ExposurePlan::new(&last, &exposing, &mut Watch::quiet()).is_ok());
}

#[test]
fn wrong_numbers_of_what_exposes_are_refused_by_name() {
    let samples = [255; 12 * 10];
    let drawing = burnt(&samples, 12);
    let right = level(3.0, Scan::Unknown);
    let plane = |slope_x, slope_y| Surface::Plane { slope_x, slope_y };
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let Beam { wavelength, m2, waist_diameter } = right.beam;
        let beam = |wavelength, m2, waist_diameter| Beam { wavelength, m2, waist_diameter };
        let wrong = [
            (Exposing { beam: beam(bad, m2, waist_diameter), ..right }, Param::Wavelength),
            (Exposing { beam: beam(wavelength, bad, waist_diameter), ..right }, Param::M2),
            (Exposing { beam: beam(wavelength, m2, bad), ..right }, Param::WaistDiameter),
            (Exposing { focus_z: bad, ..right }, Param::FocusZ),
            (Exposing { surface: plane(bad, 0.0), ..right }, Param::SlopeX),
            (Exposing { surface: plane(0.0, bad), ..right }, Param::SlopeY),
            (Exposing { blur_along: bad, ..right }, Param::BlurAlong),
            (Exposing { blur_across: bad, ..right }, Param::BlurAcross),
            (
                Exposing { scan: Scan::AlongRows { line_interval: bad, first_line: 0.0 }, ..right },
                Param::LineInterval,
            ),
            (
                Exposing { scan: Scan::AlongRows { line_interval: 1e-5, first_line: bad }, ..right },
                Param::FirstLine,
            ),
        ];
        for (exposing, param) in wrong {
            let error = refused(&drawing, &exposing);
            assert_eq!((error.param(), matches!(error, Error::NotFinite { .. })), (param, true), "{error}");
        }
    }
    for (scan, param) in [
        (Scan::AlongRows { line_interval: 0.0, first_line: 0.0 }, Param::LineInterval),
        (Scan::AlongRows { line_interval: 1e-5, first_line: 1.1e-5 }, Param::FirstLine),
        (Scan::AlongRows { line_interval: 1e-5, first_line: -1e-9 }, Param::FirstLine),
        // The rows of a raster are its lines.
        (Scan::AlongRows { line_interval: 1.00001e-5, first_line: 0.0 }, Param::LineInterval),
        (Scan::AlongRows { line_interval: 0.5e-5, first_line: 0.0 }, Param::LineInterval),
    ] {
        assert_eq!(refused(&drawing, &Exposing { scan, ..right }).param(), param);
    }
    // To one part in a million they are the same.
    let rounded = Scan::AlongRows { line_interval: 1.000_000_9e-5, first_line: 0.5e-5 };
    let same = Scan::AlongRows { line_interval: 1e-5, first_line: 0.5e-5 };
    let [rounded, same] = [rounded, same].map(|scan| fast(&drawing, &Exposing { scan, ..right }));
    assert!(rounded == same);
    for wrong in [Exposing { blur_along: -1e-9, ..right }, Exposing { blur_across: 11.0, ..right }] {
        assert!(matches!(refused(&drawing, &wrong), Error::OutOfRange { .. }));
    }
    // An infinite probe is no missing one.
    let ends = [0.0, 1.0];
    let grid = Surface::Grid { x: &ends, y: &ends, z: &[0.0, f64::INFINITY, 0.0, 0.0] };
    assert_eq!(refused(&drawing, &Exposing { surface: grid, ..right }).param(), Param::ProbedHeight);
    // Spots that are far finer or wider than pixels.
    for (pixels, fits) in [(0.09, false), (0.11, true), (9_900.0, true), (10_100.0, false)] {
        let exposing = level(pixels, Scan::Unknown);
        let plan = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet());
        match plan {
            Ok(_) => assert!(fits, "{pixels}"),
            Err(error) => {
                assert!(
                    !fits && matches!(error, Error::OutsideModel { param: Param::PixelsPerRadius, .. }),
                    "{error}"
                );
            }
        }
    }
}

#[test]
fn wrong_numbers_of_a_preflight_are_refused_by_name() {
    let samples = [255; 12 * 10];
    let right = Preflight {
        drawing: burnt(&samples, 12),
        exposing: level(3.0, Scan::Unknown),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: PITCH,
        speck_area: 0.0,
    };
    let logarithmic =
        |penetration_depth, visible_depth| Answer::LogarithmicBulk { penetration_depth, visible_depth };
    let linear = |threshold_depth, visible_depth| Answer::LinearBulk { threshold_depth, visible_depth };
    for bad in [f64::NAN, f64::INFINITY, -1.0, 1e9] {
        let wrong = [
            (Preflight { dose_ratio: bad, ..right }, Param::AnyDoseRatio),
            (Preflight { edge_tolerance: bad, ..right }, Param::EdgeTolerance),
            (Preflight { speck_area: bad, ..right }, Param::SpeckArea),
            (Preflight { answer: logarithmic(bad, 0.0), ..right }, Param::PenetrationDepth),
            (Preflight { answer: logarithmic(1e-5, bad), ..right }, Param::VisibleDepth),
            (Preflight { answer: linear(bad, 0.0), ..right }, Param::ThresholdDepth),
            (Preflight { answer: linear(1e-5, bad), ..right }, Param::VisibleDepth),
            (Preflight { answer: Answer::Melt { bridge: bad }, ..right }, Param::MeltBridge),
        ];
        for (preflight, param) in wrong {
            let error = PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap_err();
            assert_eq!(error.param(), param, "{bad}");
        }
    }
    // Farther than distances are measured.
    for (preflight, fits) in [
        (Preflight { edge_tolerance: 254.0 * PITCH, ..right }, true),
        (Preflight { edge_tolerance: 256.0 * PITCH, ..right }, false),
        (Preflight { answer: Answer::Melt { bridge: 506.0 * PITCH }, ..right }, true),
        (Preflight { answer: Answer::Melt { bridge: 514.0 * PITCH }, ..right }, false),
    ] {
        assert_eq!(PreflightPlan::new(&preflight, &mut Watch::quiet()).is_ok(), fits);
    }
}

/// What lies between rows is never looked at.
#[test]
fn a_stride_may_be_longer_than_a_row() {
    let (width, height, stride) = (150, 40, 211);
    let samples = strokes(width, height, 41);
    let mut apart = vec![255; stride * (height - 1) + width];
    for (to, from) in apart.chunks_mut(stride).zip(samples.chunks(width)) {
        to[..width].copy_from_slice(from);
    }
    let drawing = burnt(&samples, width);
    let wide = Drawing { samples: &apart, row_stride: stride, height, ..burnt(&apart, width) };
    let tilt = Surface::Plane { slope_x: 0.5, slope_y: 0.1 };
    for exposing in [
        level(3.0, lines(1.0, 0.2)),
        level(40.0, Scan::Unknown),
        Exposing { surface: tilt, ..level(2.0, Scan::Unknown) },
    ] {
        assert!(fast(&drawing, &exposing) == fast(&wide, &exposing));
        assert!(exact(&drawing, &exposing) == exact(&wide, &exposing));
        let preflight = |drawing| {
            let edge_tolerance = PITCH;
            let run = run(&Preflight {
                drawing,
                exposing,
                answer: Answer::Coating,
                dose_ratio: 2.0,
                edge_tolerance,
                speck_area: 0.0,
            });
            format!("{:?} {:?} {:?}", run.report, run.window, run.mark)
        };
        assert_eq!(preflight(drawing), preflight(wide));
    }
}

/// One pixel, one row and one column, for fine and wide spots: the exposure of one pixel is what its share of the spot
/// is, erf(1/(√2·w))² in its middle, as `detail_exposure` tells for a square.
#[test]
fn one_pixel_has_the_exposure_of_a_square() {
    for radius in [0.3, 1.0, 4.0, 50.0] {
        let square = spotwise::model::mark::detail_exposure(2.0 * radius * PITCH, PITCH).unwrap().square;
        let exposing = level(radius, Scan::Unknown);
        assert!((exact(&burnt(&[255], 1), &exposing)[0] - square).abs() < 1e-15);
        assert!((fast(&burnt(&[255], 1), &exposing)[0] - square).abs() < 3e-4);
    }
}

/// Ink on every other pixel, like a checkerboard, is half a fill to a spot of a few pixels; all ink is a fill, none is
/// nothing.
#[test]
fn checkers_fills_and_bare_plates() {
    let (width, height) = (200, 170);
    let checkers: Vec<u8> =
        (0..width * height).map(|n| if (n % width + n / width) % 2 == 0 { 255 } else { 0 }).collect();
    let exposing = level(6.0, Scan::Unknown);
    let middle = |map: Vec<f64>| map[height / 2 * width + width / 2];
    // What is left of a ripple at the pitch of the pixels, exp(−π²·w²/(2·4)) for each way, is nothing at w = 6.
    assert!((middle(exact(&burnt(&checkers, width), &exposing)) - 0.5).abs() < 1e-12);
    assert!((middle(fast(&burnt(&checkers, width), &exposing)) - 0.5).abs() < 3e-4);
    let all = vec![255; width * height];
    assert!((middle(fast(&burnt(&all, width), &exposing)) - 1.0).abs() < 3e-4);
    let none = vec![0; width * height];
    assert!(fast(&burnt(&none, width), &exposing).iter().all(|&share| share == 0.0));
    // A sample of 1 is ink where there are two values only, and next to nothing of coverage.
    let faint = vec![1; width * height];
    let bilevel = Drawing { kind: SampleKind::Bilevel, ..burnt(&faint, width) };
    assert!((middle(exact(&bilevel, &exposing)) - 1.0).abs() < 1e-12);
    assert!((middle(exact(&shapes(&faint, width), &exposing)) - 1.0 / 255.0).abs() < 1e-12);
}

/// A drawing far more intricate than any that is burnt is refused or answered in bounded room: a checkerboard of single
/// pixels has as many runs as half its pixels.
#[test]
fn intricate_drawings_are_answered_or_refused() {
    for (width, height) in [(64, 64), (1023, 700), (3000, 2900)] {
        let checkers: Vec<u8> =
            (0..width * height).map(|n| if (n % width + n / width) % 2 == 0 { 255 } else { 0 }).collect();
        let preflight = Preflight {
            drawing: burnt(&checkers, width),
            exposing: level(0.4, Scan::Unknown),
            answer: Answer::Coating,
            dose_ratio: 1.2,
            edge_tolerance: 0.0,
            speck_area: 0.0,
        };
        let plan = PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap();
        // Eight bytes each.
        assert!(plan.words(1) < 20 * width * height + 200_000, "{}", plan.words(1));
        let mut room = vec![u64::MAX; plan.words(1)];
        let mut exposure = vec![0; width * height];
        plan.exposure().expose(&mut exposure, &mut room, &mut Watch::quiet()).unwrap();
        match plan.dose_window(&exposure, &mut room, &mut Watch::quiet()) {
            Ok(window) => assert!(window.least_dose_ratio > 0.0),
            Err(error) => {
                assert!(width * height > 1 << 21, "{error}");
                assert!(matches!(error, Error::OutOfRange { param: Param::PixelRuns, .. }), "{error}");
            }
        }
    }
}

/// Numbers of any kind, the wrong ones too.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        2 => prop::num::f64::ANY,
        1 => Just(0.0),
        1 => Just(f64::NAN),
        4 => -1e-3..1e-3_f64,
        4 => (-9.0..1.0_f64).prop_map(|exponent| 10_f64.powf(exponent)),
    ]
}

/// Twelve numbers as they may be, and up to three of them replaced by any.
fn numbers() -> impl Strategy<Value = [f64; 12]> {
    let usual = (
        [5e-6..2e-5_f64, 5e-6..2e-5, -1e-3..1e-3, -1e-3..1e-3, 1e-7..1e-5, 1e-5..1e-3],
        [-1e-3..1e-3_f64, 0.0..1e-4, 0.0..1e-4, 1e-3..1.5, -1e-3..1e-3, 1e-6..5e-5],
    );
    let wrong = prop::collection::vec((0..12_usize, any_number()), 0..4);
    (usual, wrong).prop_map(|((first, last), wrong)| {
        let mut numbers = [0.0; 12];
        numbers.iter_mut().zip(first.into_iter().chain(last)).for_each(|(to, from)| *to = from);
        wrong.into_iter().for_each(|(n, number)| numbers[n] = number);
        numbers
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Whatever the numbers, a plan is refused or its exposure has neither NaN nor a share beyond what a map holds, and
    /// in doubles agrees with it. About half are accepted.
    #[test]
    fn any_numbers_are_refused_or_exposed(
        seed: u64, width in 1..20_usize, height in 1..12_usize, numbers in numbers(),
        shape in 0..4_u32, lined: bool, use_shapes: bool,
    ) {
        let samples = strokes(width, height, seed);
        let [pitch_x, pitch_y, left_x, top_y, wavelength, waist, focus_z, blur_along, blur_across, one, two, three] =
            numbers;
        let drawing = Drawing {
            pitch_x, pitch_y, left_x, top_y,
            drawing_use: if use_shapes { DrawingUse::Shapes } else { DrawingUse::BurntRaster },
            ..burnt(&samples, width)
        };
        let surface = match shape {
            0 => Surface::Plane { slope_x: one, slope_y: two },
            1 => Surface::Cylinder {
                radius: one, bulge: Bulge::AwayFromLens, crown_x: two, crown_y: 0.0, axis_angle: three, slope_x: 0.1,
                slope_y: 0.0,
            },
            2 => Surface::Sphere {
                radius: one, bulge: Bulge::TowardLens, crown_x: two, crown_y: three, slope_x: 0.0, slope_y: 0.0,
            },
            _ => Surface::Plane { slope_x: 0.0, slope_y: 0.0 },
        };
        let scan = Scan::AlongRows { line_interval: three, first_line: 0.0 };
        let exposing = Exposing {
            beam: Beam { wavelength, m2: 1.2, waist_diameter: waist },
            focus_z, surface, incidence_loss: true, blur_along, blur_across,
            scan: if lined { scan } else { Scan::Unknown },
        };
        if let Ok(plan) = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()) {
            // Of wide spots and lines that are far finer than rows the doubles would take minutes.
            let fine = lined && three < 1e-2 * pitch_y;
            if plan.most_pixels_per_radius() < 300.0 && !fine {
                let exact = exact(&drawing, &exposing).iter().map(|share| {
                    if share.is_nan() { 0.0 } else { *share }
                }).collect::<Vec<_>>();
                let apart = farthest(&exact, &fast(&drawing, &exposing));
                prop_assert!(apart < 1e-3, "{apart:e}");
            } else {
                fast(&drawing, &exposing);
            }
        }
    }
}
