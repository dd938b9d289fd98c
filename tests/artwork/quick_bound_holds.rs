//! Where the quick bound passes, no mark in doubles has what that excludes; and it passes where it should.

use crate::cases;
use crate::masks::{Mask, any_mask, unit};
use crate::plate::{PITCH, bilevel, exact, level, lines};
use crate::quick_bound::{bound, input};
use proptest::prelude::*;
use spotwise::artwork::{
    BoundInput, BoundSummary, CentreShare, Drawing, Exposing, Ruler, Scan, Side, Watch, add_component_shares,
    centre_line, centre_line_words, compare, compare_words, find_parts, label_ink, label_words, parts_words,
    starved_components,
};

/// The label of the piece in which each pixel is; 0 for ground.
fn labels(mask: &Mask) -> Vec<u32> {
    let mut room = vec![0; label_words(mask.width, mask.height)];
    let pieces = label_ink(&mask.view(), &mut room, &mut Watch::quiet()).unwrap();
    let mut labels = vec![0; mask.width * mask.height];
    for (y, row) in labels.chunks_mut(mask.width).enumerate() {
        pieces.row(y).for_each(|run| row[run.start..run.end].fill(run.label));
    }
    labels
}

/// Finds nothing in a mark that a passed bound excludes.
fn check_excluded(ink: &Mask, sure: &Mask, mark: &Mask, pitch: (f64, f64)) {
    let (width, height) = (ink.width, ink.height);
    let watch = &mut Watch::quiet();
    let mut own = vec![0; parts_words(width, height)];
    let parts = find_parts(&ink.view(), &mut own, watch).unwrap();
    let mut room = vec![0; compare_words(width, height)];
    let found = compare(&parts, &mark.view(), &mut room, &mut [], watch).unwrap();
    assert_eq!((found.components_lost, found.components_merged), (0, 0));
    assert_eq!((found.holes_closed, found.holes_opened), (0, 0));

    let ruler = Ruler::new(pitch.0, pitch.1, 255).unwrap();
    let mut line = Mask::empty(width, height);
    let mut room = vec![0; centre_line_words(width, height, &ruler)];
    let mut out = spotwise::artwork::BitmapMut::new(&mut line.words, width, height).unwrap();
    centre_line(ink.view(), Side::Ink, &ruler, &mut out, &mut room, watch).unwrap();
    let mut shares = vec![CentreShare::default(); parts.ink.count() as usize];
    for y in 0..height {
        let runs = parts.ink.row(y).map(|run| (run.start, run.end, run.label));
        add_component_shares(line.view().row(y), mark.view().row(y), runs, &mut shares);
    }
    assert_eq!(starved_components(&shares), 0);

    // What is sure of a piece is in one piece of the mark.
    let (of_ink, of_mark) = (labels(ink), labels(mark));
    let mut main = vec![0; 1 + parts.ink.count() as usize];
    for (place, (x, y)) in ink.pixels().enumerate().filter(|(_, (x, y))| sure.view().get(*x, *y)) {
        let main = &mut main[of_ink[place] as usize];
        assert!(of_mark[place] != 0 && [0, of_mark[place]].contains(main), "({x}, {y})");
        *main = of_mark[place];
    }
}

/// Exposes in doubles by an even fill, or by lines, and checks every dose at which the bound passes. Tells which do.
fn check_doses(
    drawing: &Drawing<'_>,
    ink: &Mask,
    input: &BoundInput<'_>,
    scan: Scan,
    doses: &[f64],
) -> Vec<bool> {
    let radius = 0.5 * input.greatest_spot_diameter / PITCH;
    let exposing: Exposing<'_> = level(radius, scan);
    let mut exposure = Vec::new();
    let mut check = |dose_ratio: f64| {
        let input = BoundInput { least_dose_ratio: dose_ratio, greatest_dose_ratio: dose_ratio, ..*input };
        let (sure, _, summary) = bound(&input);
        if summary.holds() {
            if exposure.is_empty() {
                exposure = exact(drawing, &exposing);
            }
            let marks = |x, y| dose_ratio * exposure[y * ink.width + x] >= 1.0;
            check_excluded(ink, &sure, &Mask::from_fn(ink.width, ink.height, marks), (PITCH, PITCH));
        }
        summary.holds()
    };
    doses.iter().map(|&dose_ratio| check(dose_ratio)).collect()
}

fn old_rule(summary: &BoundSummary) -> bool {
    summary.doubtful_strokes == 0 && summary.doubtful_gaps == 0
}

const DOSES: [f64; 5] = [1.15, 1.5, 2.0, 2.7, 4.5];

/// The drawings of the cases in spots of 0.6 to 4 pixels: text, figures, bars, dots and holes, of a few pixels each.
#[test]
fn no_finding_of_the_cases_is_excluded_wrongly() {
    let (mut passes, mut tries) = (0, 0);
    for case in cases::all() {
        let ink = Mask { words: case.ink_words(), width: case.width, height: case.height };
        let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
        for radius in [0.6, 1.0, 1.5, 2.2, 4.0] {
            let input = input(&ink, (PITCH, PITCH), 2.0 * radius * PITCH, 2.0);
            let found = check_doses(&bilevel(&samples, ink.width), &ink, &input, Scan::Unknown, &DOSES);
            passes += found.iter().filter(|&&holds| holds).count();
            tries += found.len();
        }
        // As the case itself exposes it, by the numbers of other hands.
        let (w, q) = (case.facts["w_max_mm"].as_f64().unwrap(), case.facts["q"].as_f64().unwrap());
        let pitch = case.facts["pixel_mm"].as_f64().unwrap() * 1e-3;
        let (_, _, summary) = bound(&input(&ink, (pitch, pitch), 2e-3 * w, q));
        if summary.holds() {
            for name in ["components_lost", "components_merged", "holes_closed", "holes_opened"] {
                assert_eq!(case.metric(name), 0, "{} {name}", case.name);
            }
        }
    }
    println!("{passes} of {tries} pass");
    assert!(passes > 40 && passes < tries, "{passes} of {tries}");
}

/// What dots, holes and gaps of a few pixels need is near to what the bound asks of them: a dot, a hole in a plate, two bars
/// with a gap, and a slanting ring, each or not, of any sizes.
pub fn elements(seed: u64) -> Mask {
    let draw = |what: usize, least: usize, most: usize| {
        least + (unit(seed, what, 7) * (most - least + 1) as f64) as usize
    };
    let [dot, plate, bars, ring] = [0, 1, 2, 3].map(|what| unit(seed, what, 8) < 0.55);
    let (dot_x, dot_y) = (draw(0, 1, 9), draw(1, 1, 9));
    let (hole_x, hole_y) = (draw(2, 1, 9), draw(3, 1, 9));
    let (thick, gap) = (draw(4, 1, 6), draw(5, 1, 8));
    let (inner, across) = (draw(6, 1, 5) as f64, draw(7, 1, 4) as f64);
    let within = |x: usize, y: usize, left: usize, top: usize, wide: usize, high: usize| {
        (left..left + wide).contains(&x) && (top..top + high).contains(&y)
    };
    Mask::from_fn(84, 26, |x, y| {
        let away = (x as f64 - 73.3).hypot(y as f64 - 12.6) - inner;
        dot && within(x, y, 4, 4, dot_x, dot_y)
            || plate && within(x, y, 18, 3, 19, 19) && !within(x, y, 24, 9, hole_x, hole_y)
            || bars && within(x, y, 42, 2, thick, 22)
            || bars && within(x, y, 42 + thick + gap, 2, 2, 22)
            || ring && (0.0..across).contains(&away)
    })
}

#[test]
fn no_finding_of_elements_is_excluded_wrongly() {
    let mut passes = 0;
    for seed in 0..700 {
        let ink = elements(seed);
        let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
        let radius = 0.5 * (2.2 * unit(seed, 1, 1)).exp();
        let input = input(&ink, (PITCH, PITCH), 2.0 * radius * PITCH, 2.0);
        let doses = [1.1, 1.6, 2.2, 3.0, 6.0].map(|dose_ratio| dose_ratio * (1.0 + 0.3 * unit(seed, 2, 2)));
        let (drawing, apart) = (bilevel(&samples, ink.width), 0.3 * radius * unit(seed, 3, 3));
        let found = check_doses(&drawing, &ink, &input, Scan::Unknown, &doses);
        let lined = BoundInput {
            line_interval: apart * PITCH,
            least_spot_diameter: input.greatest_spot_diameter,
            ..input
        };
        let by_lines = check_doses(&drawing, &ink, &lined, lines(apart, unit(seed, 4, 4) * apart), &doses);
        assert!(found.iter().zip(&by_lines).all(|(even, lined)| *even || !lined), "{seed}");
        passes += found.iter().chain(&by_lines).filter(|&&holds| holds).count();
    }
    println!("{passes} of 7000 pass");
    assert!(passes > 700, "{passes}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn no_finding_is_excluded_wrongly(
        ink in any_mask(60, 40), log_radius in -1.0..1.2_f64, log_dose in 0.05..1.8_f64,
    ) {
        let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
        let input = input(&ink, (PITCH, PITCH), 2.0 * log_radius.exp() * PITCH, 2.0);
        check_doses(&bilevel(&samples, ink.width), &ink, &input, Scan::Unknown, &[log_dose.exp()]);
    }

    /// The parts of the summary by a plain search, and no mark between the least and the greatest has what they exclude,
    /// whatever it is.
    #[test]
    fn parts_of_the_summary(
        ink in any_mask(40, 30), log_radius in -1.0..1.5_f64, log_dose in -0.1..1.8_f64, seed in any::<u64>(),
        log_ratio in -0.7..0.7_f64,
    ) {
        let (pitch, radius) = ((PITCH, PITCH * log_ratio.exp()), log_radius.exp() * PITCH);
        let (sure, clear, summary) = bound(&input(&ink, pitch, 2.0 * radius, log_dose.exp()));
        let (inks, marks) = (labels(&ink), labels(&sure));
        let pieces = inks.iter().max().copied().unwrap_or(0);
        prop_assert_eq!(summary.components, pieces);
        let lost = (1..=pieces).filter(|piece| {
            !inks.iter().zip(&marks).any(|(ink, mark)| ink == piece && *mark != 0)
        });
        prop_assert_eq!(summary.components_maybe_lost as usize, lost.count());
        let beside = 2.0 * radius + 0.5 * pitch.0.hypot(pitch.1);
        let far = ink.pixels().filter(|&(x, y)| {
            ink.view().get(x, y) && !sure.pixels().any(|(i, j)| {
                let (dx, dy) = ((x as f64 - i as f64) * pitch.0, (y as f64 - j as f64) * pitch.1);
                sure.view().get(i, j) && dx.hypot(dy) <= beside * (1.0 + 1e-12)
            })
        });
        prop_assert_eq!(summary.far_ink, far.count() as u64);
        if summary.holds() {
            let share = unit(seed, 0, 0);
            let marks = |x, y| sure.view().get(x, y) || !clear.view().get(x, y) && unit(seed, x, y) < share;
            check_excluded(&ink, &sure, &Mask::from_fn(ink.width, ink.height, marks), pitch);
        }
    }
}

/// A dumb-bell whose neck is a hair: the small blob may come out by itself, far from what is sure.
#[test]
fn a_part_that_may_be_split_off_is_far_ink() {
    let ink = Mask::from_fn(120, 60, |x, y| {
        let big = (x as f64 - 30.0).hypot(y as f64 - 30.0) < 20.0;
        let small = (x as f64 - 95.0).hypot(y as f64 - 30.0) < 3.4;
        big || small || (30..95).contains(&x) && y == 30
    });
    let (_, _, summary) = bound(&input(&ink, (PITCH, PITCH), 12.0 * PITCH, 2.0));
    assert_eq!(
        (summary.components, summary.components_maybe_lost, summary.components_maybe_split),
        (1, 0, 0)
    );
    assert!(summary.far_ink > 30 && !summary.holds(), "{summary:?}");
}

/// One pixel of bridge, one of gap, one of a ring's wall: each is told of by itself.
#[test]
fn doubts_are_told_apart() {
    let at = |ink: &Mask| bound(&input(ink, (PITCH, PITCH), 6.0 * PITCH, 2.0)).2;
    let block = |x: usize, y: usize, left: usize| (left..left + 20).contains(&x) && (10..30).contains(&y);
    let apart = at(&Mask::from_fn(80, 40, |x, y| block(x, y, 10) || block(x, y, 40)));
    assert!(apart.holds() && apart.components == 2 && apart.doubtful_strokes > 0, "{apart:?}");
    let touching = at(&Mask::from_fn(80, 40, |x, y| block(x, y, 10) || block(x, y, 33)));
    assert_eq!((touching.components_maybe_merged, touching.components_maybe_lost), (1, 0));
    let bridged = at(&Mask::from_fn(80, 40, |x, y| {
        block(x, y, 10) || block(x, y, 38) || (30..38).contains(&x) && y == 20
    }));
    assert_eq!((bridged.components, bridged.components_maybe_split, bridged.far_ink), (1, 1, 0));
    let holed = |hole: usize, wall: usize| {
        at(&Mask::from_fn(80, 60, move |x, y| {
            let outer = (20..40 + hole).contains(&x) && (20 - wall..20 + hole + 20).contains(&y);
            outer && !((30..30 + hole).contains(&x) && (20..20 + hole).contains(&y))
        }))
    };
    let open = holed(10, 10);
    assert!(open.holds() && open.holes == 1, "{open:?}");
    assert_eq!((holed(3, 10).holes_maybe_closed, holed(3, 10).holes_maybe_opened), (1, 0));
    let thin = holed(10, 1);
    assert_eq!((thin.holes_maybe_closed, thin.holes_maybe_opened, thin.holds()), (0, 1, false));
    let hair = at(&Mask::from_fn(100, 40, |x, y| {
        (10..18).contains(&x) && (14..22).contains(&y) || (18..80).contains(&x) && (17..20).contains(&y)
    }));
    assert!(hair.components_maybe_starved == 1 && hair.components_maybe_lost == 0, "{hair:?}");
    let none = at(&Mask::empty(40, 40));
    assert!(none.holds() && none.components == 0);
}

/// Lettering and figures with capitals of 20 spot diameters pass at ordinary doses, for an even fill and under fine lines, but
/// for letters of acute corners at low doses; with capitals of 3 diameters nothing does. By the rule that every middle be
/// decided none would pass, as centre-lines run into corners and steps.
#[cfg(feature = "vector")]
#[test]
fn ample_text_passes() {
    use spotwise::artwork::{DrawingUse, FillRule, Font, Frame, Inking, LetterSize, SampleKind, Sheet};
    let font = Font::new(include_bytes!("../../examples/fonts/DejaVuSans-plate.ttf"), 0).unwrap();
    let radius = 4.0;
    let diameter = 2.0 * radius * PITCH;
    let doses = [1.5, 2.0, 2.7, 4.0];
    for (said, diameters, even_passes, lined_passes) in [
        ("Rain gauge 0123456789 mm", 20.0, [true; 4], [true; 4]),
        ("AKMVWXYZ 47 kvwxyz", 20.0, [false, false, true, true], [false, false, false, true]),
        ("3", 3.0, [false; 4], [false; 4]),
    ] {
        let size = LetterSize::CapHeight(diameters * diameter);
        let line = font.line(said, size, 0.0, [0.0, 0.0]).unwrap();
        let frame = Frame::around(line.path.bounds().unwrap(), 4.0 * diameter, PITCH).unwrap();
        let mut sheet = Sheet::new(frame).unwrap();
        sheet.draw(&line.path, Inking::Fill(FillRule::NonZero)).unwrap();
        let (width, height) = (frame.width, frame.height);
        let [ink, solid, touched] = [128, 255, 1]
            .map(|least| Mask::from_fn(width, height, |x, y| sheet.samples()[y * width + x] >= least));
        let drawing = Drawing {
            kind: SampleKind::Coverage,
            drawing_use: DrawingUse::Shapes,
            ..bilevel(sheet.samples(), width)
        };
        let even = BoundInput {
            solid: solid.view(),
            touched: touched.view(),
            ..input(&ink, (PITCH, PITCH), diameter, 2.0)
        };
        let interval = 0.1 * radius;
        let lined = BoundInput { line_interval: interval * PITCH, least_spot_diameter: diameter, ..even };
        for (input, scan, passes) in
            [(even, Scan::Unknown, even_passes), (lined, lines(interval, 0.0), lined_passes)]
        {
            let found = check_doses(&drawing, &ink, &input, scan, &doses);
            assert_eq!(found, passes, "{said}");
            for dose_ratio in doses {
                let input =
                    BoundInput { least_dose_ratio: dose_ratio, greatest_dose_ratio: dose_ratio, ..input };
                assert!(!old_rule(&bound(&input).2), "{said}");
            }
        }
    }
}
