//! The quick answer never says otherwise than the preflight, nor than the exposure in doubles, whatever it is told; and it
//! says something where it should.

use crate::cases;
use crate::masks::{Mask, unit};
use crate::plate::{PITCH, beam, bilevel, burnt, exact, level, levels, lines, shapes, strokes};
use crate::preflight::of_case;
use crate::quick_bound::bound;
use crate::quick_bound_holds::elements;
use spotwise::artwork::{
    Answer, BoundInput, Drawing, Exposing, FULL_DOSE, Preflight, PreflightPlan, QuickAnswer, QuickVerdict,
    Report, Scan, Step, Watch, quick_answer, quick_answer_words,
};
use spotwise::model::surface::{Bulge, Surface};
use spotwise::{Error, Param};
use std::f64::consts::E as EULER;

fn quick(preflight: &Preflight<'_>) -> QuickAnswer {
    let watch = &mut Watch::quiet();
    let mut room = vec![u64::MAX; quick_answer_words(preflight, 1, watch).unwrap()];
    quick_answer(preflight, &mut room, watch).unwrap()
}

/// Finds nothing in a report that the answer excludes.
fn check_report(found: &QuickAnswer, report: &Report, said: &str) {
    let parts = &report.topology;
    let (counts, changes) = (&found.counts, (parts.components_lost, parts.components_merged));
    let holes = (parts.holes_closed, parts.holes_opened);
    match found.verdict {
        QuickVerdict::NothingAtRisk => {
            assert_eq!((changes, holes, report.components_starved), ((0, 0), (0, 0), 0), "{said}");
        }
        QuickVerdict::SomethingLost => assert!(!report.holds(), "{said}"),
        _ => {}
    }
    assert_eq!((counts.components, counts.holes), (parts.components_drawing, parts.holes_drawing), "{said}");
    assert!(counts.components_lost <= parts.components_lost, "{said}");
    assert!(counts.holes_closed <= parts.holes_closed && counts.holes_opened <= parts.holes_opened, "{said}");
    assert!(counts.components_merged == 0 || parts.components_merged > 0, "{said}");
    assert!(parts.components_lost <= counts.components_maybe_lost, "{said}");
    assert!(parts.holes_opened <= counts.holes_maybe_opened, "{said}");
}

/// The least dose over the threshold dose that shows: Beer and Lambert, and joules that remove, by hand.
fn least_dose(answer: &Answer) -> f64 {
    match *answer {
        Answer::LogarithmicBulk { penetration_depth, visible_depth } => {
            EULER.powf(visible_depth / penetration_depth)
        }
        Answer::LinearBulk { threshold_depth, visible_depth } => 1.0 + visible_depth / threshold_depth,
        _ => 1.0,
    }
}

/// No pixel that the answer's light decides is otherwise in doubles, nor in the map.
fn check_pixels(preflight: &Preflight<'_>, found: &QuickAnswer, said: &str) {
    let (drawing, light) = (&preflight.drawing, &found.light);
    let (width, height) = (drawing.width, drawing.height);
    let mut masks = [(); 3].map(|()| Mask::empty(width, height));
    let [ink, solid, touched] = &mut masks;
    let [mut ink, mut solid, mut touched] = [ink, solid, touched]
        .map(|mask| spotwise::artwork::BitmapMut::new(&mut mask.words, width, height).unwrap());
    drawing.ink_masks(Some(&mut ink), Some(&mut solid), Some(&mut touched)).unwrap();
    let (marked, clear, _) = bound(&BoundInput {
        ink: masks[0].view(),
        solid: masks[1].view(),
        touched: masks[2].view(),
        pitch_x: drawing.pitch_x,
        pitch_y: drawing.pitch_y,
        greatest_spot_diameter: light.greatest_spot_diameter,
        least_dose_ratio: light.least_dose_ratio,
        greatest_dose_ratio: light.greatest_dose_ratio,
        line_interval: light.line_interval,
        least_spot_diameter: light.least_spot_diameter,
    });
    let shows = least_dose(&preflight.answer) / preflight.dose_ratio;
    let map = levels(drawing, &preflight.exposing);
    for (n, share) in exact(drawing, &preflight.exposing).into_iter().enumerate() {
        let (x, y) = (n % width, n / width);
        let mapped = f64::from(map[n]) / f64::from(FULL_DOSE);
        // Where the height is not known, nothing is marked, and the answer leaves it out.
        if share.is_nan() {
            continue;
        }
        let (marks, stays) = (marked.view().get(x, y), clear.view().get(x, y));
        assert!(!marks || (share >= shows && mapped >= shows), "{said} ({x}, {y}): {share} {mapped} {shows}");
        assert!(!stays || (share < shows && mapped < shows), "{said} ({x}, {y}): {share} {mapped} {shows}");
    }
}

/// What is drawn by chance: elements of some pixels each, up to four times as large, or strokes with soft edges.
fn drawn(seed: u64) -> (Vec<u8>, usize) {
    let times = 1 + (unit(seed, 0, 20) * 4.0) as usize;
    if unit(seed, 1, 20) < 0.3 {
        return (strokes(90, 60, seed), 90);
    }
    let mask = elements(seed);
    let (width, height) = (times * mask.width, times * mask.height);
    let ink = Mask::from_fn(width, height, |x, y| mask.view().get(x / times, y / times));
    let dust = |x: usize, y: usize| unit(seed, 2, 20) < 0.3 && unit(seed ^ 7, x, y) < 2e-4;
    (ink.pixels().map(|(x, y)| 255 * u8::from(ink.view().get(x, y) != dust(x, y))).collect(), width)
}

const PROBES: [f64; 9] = [0.0, 3e-5, -2e-5, 5e-5, 1e-5, 0.0, 2e-5, f64::NAN, 4e-5];
const LEVEL_PROBES: [f64; 9] = [0.0, 3e-5, -2e-5, 5e-5, 1e-5, 0.0, 2e-5, 1e-5, 4e-5];

/// What becomes of seeds: 300 whole preflights of what is drawn by chance, on surfaces of every shape, with blur, lines,
/// every answer, specks, and doses from too little to too much.
#[test]
fn no_preflight_is_contradicted() {
    let mut verdicts = [0; 3];
    for seed in 0..300 {
        let draw = |what: usize| unit(seed, what, 21);
        let (samples, width) = drawn(seed);
        let radius = 0.7 * (1.7 * draw(0)).exp();
        let drawing = match (draw(1) * 4.0) as u32 {
            0 => burnt(&samples, width),
            1 => shapes(&samples, width),
            _ => bilevel(&samples, width),
        };
        let drawing = Drawing { pitch_y: PITCH * (0.7 + 0.6 * draw(2)), ..drawing };
        let (wide, high) = (width as f64 * drawing.pitch_x, drawing.height as f64 * drawing.pitch_y);
        let [x, y] = [wide, high].map(|side| [0.0, 0.4 * side, side]);
        let tilt = |what: usize| if draw(3) < 0.4 { 0.0 } else { 0.6 * draw(what) - 0.3 };
        let (slope_x, slope_y, crown_x, crown_y) = (tilt(4), tilt(5), draw(6) * wide, draw(7) * high);
        let bent = 0.6 * (wide + high) / (0.1 + draw(8));
        let bulge = if draw(9) < 0.5 { Bulge::TowardLens } else { Bulge::AwayFromLens };
        let surface = match (draw(10) * 7.0) as u32 {
            0..3 => Surface::Plane { slope_x, slope_y },
            3 => Surface::Cylinder {
                radius: bent,
                bulge,
                crown_x,
                crown_y,
                axis_angle: 6.0 * draw(11),
                slope_x,
                slope_y,
            },
            4 => Surface::Sphere { radius: bent, bulge, crown_x, crown_y, slope_x, slope_y },
            5 => Surface::Grid { x: &x, y: &y, z: &PROBES },
            _ => Surface::Grid { x: &x, y: &y, z: &LEVEL_PROBES },
        };
        let blur = |what: usize| if draw(12) < 0.5 { 0.0 } else { 2.0 * radius * PITCH * draw(what) };
        let burnt = drawing.drawing_use == spotwise::artwork::DrawingUse::BurntRaster;
        let interval = if burnt { drawing.pitch_y } else { 0.3 * radius * PITCH * draw(13) + 1e-7 };
        let scan = if draw(14) < 0.4 && interval < 2.4 * radius * PITCH {
            Scan::AlongRows { line_interval: interval, first_line: draw(15) * interval }
        } else {
            Scan::Unknown
        };
        let depth = 20e-6 * draw(16);
        let answer = match (draw(17) * 5.0) as u32 {
            0 | 1 => Answer::Coating,
            2 => Answer::LogarithmicBulk { penetration_depth: 20e-6, visible_depth: depth },
            3 => Answer::LinearBulk { threshold_depth: 20e-6, visible_depth: depth },
            _ => Answer::Melt { bridge: 10.0 * PITCH * draw(18) },
        };
        let exposing = Exposing {
            focus_z: 60.0 * radius * PITCH * (draw(19) - 0.5),
            surface,
            incidence_loss: draw(20) < 0.8,
            blur_along: blur(21),
            blur_across: blur(22),
            ..level(radius, scan)
        };
        let preflight = Preflight {
            drawing,
            exposing,
            answer,
            dose_ratio: 0.8 * (2.0 * draw(23)).exp() * least_dose(&answer),
            edge_tolerance: PITCH,
            speck_area: if draw(24) < 0.5 { 0.0 } else { 3.0 * PITCH * PITCH },
        };
        let said = format!("{seed}: {exposing:?} {answer:?} {}", preflight.dose_ratio);
        let found = quick(&preflight);
        let report = only_report(&preflight);
        check_report(&found, &report, &said);
        assert_eq!(found.counts.unknown_ink_pixels, report.spots.unknown_ink_pixels, "{said}");
        if samples.len() < 6000 && seed % 2 == 0 {
            check_pixels(&preflight, &found, &said);
        }
        verdicts[found.verdict as usize - 1] += 1;
    }
    println!("{verdicts:?} of nothing at risk, something lost, unsure");
    assert!(verdicts.iter().all(|&count| count >= 20), "{verdicts:?}");
}

/// The report alone.
fn only_report(preflight: &Preflight<'_>) -> Report {
    let plan = PreflightPlan::new(preflight, &mut Watch::quiet()).unwrap();
    let (width, height) = (preflight.drawing.width, preflight.drawing.height);
    let mut exposure = vec![0; width * height];
    let mut masks = [(); 3].map(|()| Mask::empty(width, height));
    let [mark, lost, filled] = &mut masks;
    let [mark, lost, filled] = [mark, lost, filled]
        .map(|mask| spotwise::artwork::BitmapMut::new(&mut mask.words, width, height).unwrap());
    let mut output = spotwise::artwork::PreflightOutput {
        exposure: &mut exposure,
        mark,
        lost,
        filled,
        lost_regions: &mut [],
        filled_regions: &mut [],
        changes: &mut [],
    };
    plan.run(&mut output, &mut vec![0; plan.words(1)], &mut Watch::quiet()).unwrap()
}

/// The light by hand, worked with bc: each part of it is what the preflight's worst pixel has, on the safe side.
#[test]
fn the_light_by_hand() {
    let samples = vec![255; 100 * 60];
    let near = |got: f64, wanted: f64| assert!((got / wanted - 1.0).abs() < 1e-12, "{got} {wanted}");
    let of = |exposing: Exposing<'_>, answer: Answer| {
        let drawing = shapes(&samples, 100);
        let preflight =
            Preflight { drawing, exposing, answer, dose_ratio: 2.5, edge_tolerance: PITCH, speck_area: 0.0 };
        quick(&preflight).light
    };
    // In focus on the level: 1/(1/2.5 + 0.0005) and 1/(1/2.5 − 0.0005 − 0.00032).
    let light = of(level(3.0, Scan::Unknown), Answer::Coating);
    near(light.greatest_spot_diameter, 60e-6);
    near(light.least_spot_diameter, 60e-6);
    near(light.least_dose_ratio, 2.496_878_901_373_283);
    near(light.greatest_dose_ratio, 2.505_135_527_831_054);
    assert_eq!(light.line_interval.to_bits(), 0.0_f64.to_bits());
    // Blur of 80 µm across: √(60² + 80²) = 100 µm; along, of 25 µm: 65 µm.
    let blurred = Exposing { blur_along: 25e-6, blur_across: 80e-6, ..level(3.0, lines(0.7, 0.1)) };
    let light = of(blurred, Answer::Coating);
    near(light.greatest_spot_diameter, 100e-6);
    near(light.least_spot_diameter, 100e-6);
    near(light.line_interval, 7e-6);
    near(of(Exposing { blur_along: 80e-6, ..blurred }, Answer::Coating).greatest_spot_diameter, 100e-6);
    // A slope of 3/4 along x: the cosine is 0.8, and the plate falls by 0.75 mm over its 1 mm, half a Rayleigh range of
    // 1.5 mm: 60·√1.25 µm at the lower edge.
    let slope =
        Exposing { surface: Surface::Plane { slope_x: 0.75, slope_y: 0.0 }, ..level(3.0, Scan::Unknown) };
    let light = of(slope, Answer::Coating);
    near(light.greatest_spot_diameter, 60e-6 * 1.25_f64.sqrt());
    near(light.least_spot_diameter, 60e-6);
    near(light.least_dose_ratio, 1.998_001_998_001_998);
    near(light.greatest_dose_ratio, 2.003_285_388_036_38);
    let thick = of(Exposing { incidence_loss: false, ..slope }, Answer::Coating);
    near(thick.least_dose_ratio, 2.496_878_901_373_283);
    // A visible depth of a quarter of the threshold depth takes 1.25 of the threshold dose: 2 are left.
    let bulk = Answer::LinearBulk { threshold_depth: 20e-6, visible_depth: 5e-6 };
    let light = of(level(3.0, Scan::Unknown), bulk);
    near(light.least_dose_ratio, 1.998_001_998_001_998);
    near(light.greatest_dose_ratio, 2.003_285_388_036_38);
    // On a bowl of 5 mm, its crown in the middle, 0.5 mm by 0.3 mm off at the corners: 1/cos of the steepest slope is
    // 5/√(25 − 0.34), and no slope at the crown.
    let bowl = Surface::Sphere {
        radius: 5e-3,
        bulge: Bulge::AwayFromLens,
        crown_x: 0.5e-3,
        crown_y: 0.3e-3,
        slope_x: 0.0,
        slope_y: 0.0,
    };
    let light = of(Exposing { surface: bowl, ..level(3.0, Scan::Unknown) }, Answer::Coating);
    let cosine = (25.0_f64 - 0.34).sqrt() / 5.0;
    near(light.least_dose_ratio, 1.0 / (1.0 / (2.5 * cosine) + 5e-4));
    near(light.greatest_dose_ratio, 2.505_135_527_831_054);
}

/// The cases: what other hands found in their marks is not contradicted, nor what comes of finer spots, of which some
/// surely bring out all.
#[test]
fn the_cases_are_not_contradicted() {
    let mut verdicts = [0; 3];
    for case in cases::all() {
        for finer in [1.0, 2.5, 5.0] {
            let mut preflight = of_case(&case);
            preflight.exposing.beam.waist_diameter /= finer;
            preflight.exposing.beam.wavelength /= finer * finer;
            let found = quick(&preflight);
            if finer == 1.0 && found.verdict == QuickVerdict::NothingAtRisk {
                for name in ["components_lost", "components_merged", "holes_closed", "holes_opened"] {
                    assert_eq!(case.metric(name), 0, "{} {name}", case.name);
                }
            }
            check_report(&found, &only_report(&preflight), &case.name);
            verdicts[found.verdict as usize - 1] += 1;
        }
    }
    assert!(verdicts[0] > 0 && verdicts[2] > 0, "{verdicts:?}");
}

/// A melt of which the greatest mark leaves a gap of a few pixels closes it; without closing, the bound would pass.
#[test]
fn a_bridge_is_reckoned_with() {
    let ink = Mask::from_fn(120, 80, |x, y| {
        (10..70).contains(&y) && ((10..50).contains(&x) || (70..110).contains(&x))
    });
    let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
    let of = |bridge: f64| {
        let preflight = Preflight {
            drawing: bilevel(&samples, 120),
            exposing: level(3.0, Scan::Unknown),
            answer: Answer::Melt { bridge: bridge * PITCH },
            dose_ratio: 2.0,
            edge_tolerance: PITCH,
            speck_area: 0.0,
        };
        let found = quick(&preflight);
        check_report(&found, &only_report(&preflight), &bridge.to_string());
        found
    };
    // By hand: the least mark begins 3·√(ln(2)/2) + 0.71 = 2.47 pixels inside the bars, or 2.48 with what a map may be off:
    // at the pixel that is the third from the nearest bare one; likewise the greatest ends after the second pixel outside.
    // Between the bars 20 pixels are bare: 16 in the greatest mark, 24 in the least.
    assert_eq!(of(0.0).verdict, QuickVerdict::NothingAtRisk);
    assert_eq!(of(15.0).verdict, QuickVerdict::NothingAtRisk);
    assert_eq!(of(20.0).verdict, QuickVerdict::Unsure);
    let closed = of(27.0);
    assert_eq!((closed.verdict, closed.counts.components_merged), (QuickVerdict::SomethingLost, 1));
}

/// Too little dose loses every piece that counts, and no speck.
#[test]
fn too_little_dose_is_told_at_once() {
    let ink =
        Mask::from_fn(60, 40, |x, y| x == 50 && y == 20 || (10..30).contains(&x) && (10..30).contains(&y));
    let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
    let of = |dose_ratio: f64, specks: f64| {
        let preflight = Preflight {
            drawing: bilevel(&samples, 60),
            exposing: level(2.0, Scan::Unknown),
            answer: Answer::Coating,
            dose_ratio,
            edge_tolerance: PITCH,
            speck_area: specks * PITCH * PITCH,
        };
        let found = quick(&preflight);
        check_report(&found, &only_report(&preflight), &dose_ratio.to_string());
        found
    };
    for dose_ratio in [1e-6, 0.5, 0.998] {
        let found = of(dose_ratio, 0.0);
        assert_eq!((found.verdict, found.counts.components_lost), (QuickVerdict::SomethingLost, 2));
        assert_eq!(of(dose_ratio, 2.0).counts.components_lost, 1);
    }
    // Within what a map may be off, nothing is sure.
    assert_eq!(of(0.9995, 2.0).verdict, QuickVerdict::Unsure);
    // By itself the single pixel gets 2/(π·2²) = 0.16 of full dose, too little; as a speck it does not count.
    assert_eq!((of(2.0, 0.0).verdict, of(2.0, 0.0).counts.components_lost), (QuickVerdict::SomethingLost, 1));
    assert_eq!(of(2.0, 2.0).verdict, QuickVerdict::NothingAtRisk);
}

#[test]
fn nothing_is_at_risk_where_nothing_is_drawn() {
    let samples = [0; 64];
    let preflight = Preflight {
        drawing: bilevel(&samples, 8),
        exposing: level(2.0, Scan::Unknown),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: PITCH,
        speck_area: 0.0,
    };
    assert_eq!(quick(&preflight).verdict, QuickVerdict::NothingAtRisk);
    assert!(only_report(&preflight).holds());
}

/// Whatever the preflight refuses, the quick answer refuses by the same error; and what is odd has an answer.
#[test]
fn what_is_refused_and_what_is_odd() {
    let samples = vec![255; 40 * 30];
    let good = Preflight {
        drawing: bilevel(&samples, 40),
        exposing: level(2.0, Scan::Unknown),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: PITCH,
        speck_area: 0.0,
    };
    let missing = Surface::Grid { x: &[0.0, 1.0], y: &[0.0, 1.0], z: &[f64::NAN; 4] };
    let changes: [fn(&mut Preflight<'_>); 16] = [
        |p| p.drawing.width = 0,
        |p| p.drawing.width = usize::MAX,
        |p| p.drawing.height = 31,
        |p| p.drawing.row_stride = 39,
        |p| p.drawing.pitch_x = 0.0,
        |p| p.drawing.pitch_y = f64::NAN,
        |p| p.drawing.left_x = f64::INFINITY,
        |p| p.dose_ratio = 0.0,
        |p| p.dose_ratio = 201.0,
        |p| p.edge_tolerance = -1.0,
        |p| p.speck_area = f64::NAN,
        |p| p.answer = Answer::Melt { bridge: 1.0 },
        |p| p.exposing.focus_z = f64::NAN,
        |p| p.exposing.blur_along = -1e-6,
        // Spots far wider than the pixels, and far finer.
        |p| p.exposing.blur_across = 0.3,
        |p| p.exposing.scan = lines(5.1, 0.0),
    ];
    let check = |bad: &Preflight<'_>| {
        let error = PreflightPlan::new(bad, &mut Watch::quiet()).unwrap_err();
        assert_eq!(quick_answer_words(bad, 1, &mut Watch::quiet()), Err(error));
        assert_eq!(quick_answer(bad, &mut [0; 100_000], &mut Watch::quiet()).unwrap_err(), error);
    };
    for change in changes {
        let mut bad = good;
        change(&mut bad);
        check(&bad);
    }
    let mut bad = good;
    bad.exposing.surface = missing;
    check(&bad);
    bad.exposing.surface = Surface::Plane { slope_x: 2.1, slope_y: 0.0 };
    check(&bad);

    let needed = quick_answer_words(&good, 1, &mut Watch::quiet()).unwrap();
    let short = quick_answer(&good, &mut vec![0; needed - 1], &mut Watch::quiet()).unwrap_err();
    assert_eq!(short, Error::LengthMismatch { param: Param::Workspace, value: needed - 1, expected: needed });
    let mut stop = |_| Step::Stop;
    let stopped = quick_answer(&good, &mut vec![0; needed], &mut Watch::new(&mut stop));
    assert!(matches!(stopped, Err(Error::Stopped { .. })));

    // A spot that the bound does not take, pixels of any shape, one pixel, a chessboard, dose beyond any bound.
    let board: Vec<u8> = (0..1200).map(|n| ((n % 40 + n / 40) % 2) as u8).collect();
    let odd: [fn(&mut Preflight<'_>); 5] = [
        |p| p.exposing.blur_across = 0.1,
        |p| p.drawing.pitch_y *= 15.0,
        |p| (p.drawing.width, p.drawing.height) = (1, 1),
        |p| p.dose_ratio = 200.0,
        |p| p.dose_ratio = 1e-6,
    ];
    for change in odd {
        for samples in [&samples, &board] {
            let mut preflight = good;
            preflight.drawing.samples = samples;
            change(&mut preflight);
            check_report(&quick(&preflight), &only_report(&preflight), "odd");
        }
    }
    assert_eq!(beam(2.0), good.exposing.beam);
}

fn of_mask(ink: &Mask, radius: f64) -> QuickAnswer {
    let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
    quick(&Preflight {
        drawing: bilevel(&samples, ink.width),
        exposing: level(radius, Scan::Unknown),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: PITCH,
        speck_area: 0.0,
    })
}

/// What is far from the least mark, and what has little of its middle in it, is in doubt though pieces and holes hold.
#[test]
fn hairs_are_in_doubt() {
    let hair = of_mask(
        &Mask::from_fn(100, 40, |x, y| {
            (10..18).contains(&x) && (14..22).contains(&y) || (18..80).contains(&x) && (17..20).contains(&y)
        }),
        3.0,
    );
    assert!(hair.counts.far_ink > 30 && hair.counts.components_maybe_lost == 0, "{hair:?}");
    assert_eq!((hair.verdict, hair.counts.components_maybe_starved), (QuickVerdict::Unsure, 0));
    // Arms so short that nothing is far, but with more middle than the block between them.
    let arm = |along: usize, across: usize| (6..21).contains(&along) && (12..15).contains(&across);
    let short = of_mask(
        &Mask::from_fn(40, 40, |x, y| {
            (10..17).contains(&x) && (10..17).contains(&y) || arm(x, y) || arm(y, x)
        }),
        3.0,
    );
    assert_eq!(short.counts.far_ink, 0, "{short:?}");
    assert_eq!(
        (short.verdict, short.counts.components_maybe_starved),
        (QuickVerdict::Unsure, 1),
        "{short:?}"
    );
}

/// Lettering with capitals of 20 spot diameters passes on a bar that is bowed by half a Rayleigh range, under lines a tenth
/// of a spot radius apart; with capitals of 3 diameters it stays unsure.
#[cfg(feature = "vector")]
#[test]
fn ample_text_passes_on_a_bar() {
    use spotwise::artwork::{FillRule, Font, Frame, Inking, LetterSize, Sheet};
    let font = Font::new(include_bytes!("../../examples/fonts/DejaVuSans-plate.ttf"), 0).unwrap();
    for (diameters, verdict) in [(20.0, QuickVerdict::NothingAtRisk), (3.0, QuickVerdict::Unsure)] {
        let size = LetterSize::CapHeight(diameters * 8.0 * PITCH);
        let line = font.line("Rain gauge 0123456789 mm", size, 0.0, [0.0, 0.0]).unwrap();
        let frame = Frame::around(line.path.bounds().unwrap(), 32.0 * PITCH, PITCH).unwrap();
        let mut sheet = Sheet::new(frame).unwrap();
        sheet.draw(&line.path, Inking::Fill(FillRule::NonZero)).unwrap();
        let drawing = sheet.drawing();
        let (half, sag) = (0.5 * drawing.width as f64 * PITCH, 0.5 * 50.0 * 4.0 * PITCH);
        let bar = Surface::Cylinder {
            radius: 0.5 * (half * half + sag * sag) / sag * 1.01,
            bulge: Bulge::TowardLens,
            crown_x: drawing.left_x + half,
            crown_y: 0.0,
            axis_angle: std::f64::consts::FRAC_PI_2,
            slope_x: 0.0,
            slope_y: 0.0,
        };
        let preflight = Preflight {
            drawing,
            exposing: Exposing { surface: bar, ..level(4.0, lines(0.4, 0.1)) },
            answer: Answer::Coating,
            dose_ratio: 2.7,
            edge_tolerance: PITCH,
            speck_area: 0.0,
        };
        let found = quick(&preflight);
        assert_eq!(found.verdict, verdict, "{found:?}");
        let report = only_report(&preflight);
        check_report(&found, &report, "text");
        assert!(report.holds() || verdict == QuickVerdict::Unsure);
    }
}

/// Dots of some pixels by themselves: lost is told at once where the closed form 1 − exp(−2·r²/w²) of a disc of the same
/// area is well below the threshold, and never where the mark keeps one.
#[test]
fn lost_dots_are_told_at_once() {
    let mut told = 0;
    for side in 1..=6 {
        for dose_ratio in [1.3, 2.0, 2.5, 4.0] {
            let ink = Mask::from_fn(140, 60, |x, y| {
                let bar = (70..120).contains(&x) && (5..55).contains(&y);
                bar || (20..20 + side).contains(&x) && (30..30 + side).contains(&y)
            });
            let samples: Vec<u8> = ink.pixels().map(|(x, y)| 255 * u8::from(ink.view().get(x, y))).collect();
            for (scan, drawing) in
                [(Scan::Unknown, shapes(&samples, 140)), (lines(1.0, 0.5), burnt(&samples, 140))]
            {
                let preflight = Preflight {
                    drawing,
                    exposing: level(6.0, scan),
                    answer: Answer::Coating,
                    dose_ratio,
                    edge_tolerance: PITCH,
                    speck_area: 0.0,
                };
                let found = quick(&preflight);
                let report = only_report(&preflight);
                check_report(&found, &report, &format!("{side} {dose_ratio}"));
                let area = (side * side) as f64;
                let at_most = 1.0 - (-2.0 * area / (std::f64::consts::PI * 36.0)).exp();
                if dose_ratio * at_most < 0.75 {
                    assert_eq!(found.verdict, QuickVerdict::SomethingLost, "{side} {dose_ratio}");
                    assert_eq!(found.counts.components_lost, 1);
                    told += 1;
                }
            }
        }
    }
    assert!(told > 15, "{told}");
}

/// A bar that crosses a strip of unknown height is two pieces, which nothing in the strip joins.
#[test]
fn what_is_unknown_joins_nothing() {
    let ink = Mask::from_fn(160, 60, |x, y| (10..150).contains(&x) && (10..50).contains(&y));
    let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
    let x = [0.0, 0.4, 0.5, 0.6, 1.0].map(|share| share * 160.0 * PITCH);
    let y = [0.0, 60.0 * PITCH];
    let z = [0.0, 0.0, f64::NAN, 0.0, 0.0, 0.0, 0.0, f64::NAN, 0.0, 0.0];
    let preflight = Preflight {
        drawing: bilevel(&samples, 160),
        exposing: Exposing { surface: Surface::Grid { x: &x, y: &y, z: &z }, ..level(3.0, Scan::Unknown) },
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: PITCH,
        speck_area: 0.0,
    };
    let found = quick(&preflight);
    check_report(&found, &only_report(&preflight), "strip");
    assert_eq!((found.verdict, found.counts.components), (QuickVerdict::NothingAtRisk, 2), "{found:?}");
    assert_eq!(found.counts.unknown_ink_pixels, 32 * 40);
}
