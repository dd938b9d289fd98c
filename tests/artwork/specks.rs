//! Specks: what is left out, against a flood fill, against the drawing without them, and as a law.

use crate::naive::{Pixels, met};
use crate::plate::{PITCH, burnt, level};
use crate::preflight::run;
use crate::topology::{naive_topology, two_masks};
use proptest::prelude::*;
use spotwise::artwork::{
    Answer, Bitmap, Change, ChangeKind, Demand, Drawing, FocusReach, MarkGrade, Preflight, Scan, Topology,
    TrialRoom, Watch, compare, compare_words, find_parts, focus_reach, focus_reach_words, judge, parts_words,
    smallest_scale, smallest_scale_words, specks_words,
};
use spotwise::model::mark::TextGrades;
use spotwise::{Error, Param};
use std::collections::BTreeSet;

fn without_specks(drawing: &Pixels, mark: &Pixels, least: u32) -> (Topology, Vec<Change>) {
    let (width, height) = (drawing.width, drawing.height);
    let (drawing, mark) = (drawing.words(), mark.words());
    let drawing = Bitmap::new(&drawing, width, height).unwrap();
    let mark = Bitmap::new(&mark, width, height).unwrap();
    let watch = &mut Watch::quiet();
    let mut room = vec![u64::MAX; parts_words(width, height)];
    let mut parts = find_parts(&drawing, &mut room, watch).unwrap();
    parts.ignore_specks(least, &mut vec![u64::MAX; specks_words(width, height)], watch).unwrap();
    let mut changes = vec![Change::NONE; 10_000];
    let mut room = vec![u64::MAX; compare_words(width, height)];
    let found = compare(&parts, &mark, &mut room, &mut changes, watch).unwrap();
    changes.truncate(found.changes() as usize);
    (found, changes)
}

/// Pixels of each label from 1 on.
fn sizes(labels: &[u32], count: u32) -> Vec<u32> {
    (1..=count).map(|label| labels.iter().filter(|&&at| at == label).count() as u32).collect()
}

/// What becomes of one side, ink or ground, as the definitions say: counts of the drawing and of the mark, what is
/// ignored of each, then drawing's lost, open to the outside, parted, and the mark's joined and new.
fn naive_side(drawing: &Pixels, mark: &Pixels, ink: bool, least: u32) -> [u32; 9] {
    let both = |at: usize| drawing.set[at] == ink && mark.set[at] == ink;
    let ((of_drawing, drawn), (of_mark, marked)) = (drawing.labels(ink), mark.labels(ink));
    let (drawn_sizes, mark_sizes) = (sizes(&of_drawing, drawn), sizes(&of_mark, marked));
    let counts = |label: u32| label > 0 && drawn_sizes[label as usize - 1] >= least;
    let mut told = [0; 9];
    for (met, size) in met(&of_drawing, drawn, &of_mark, both).iter().zip(&drawn_sizes) {
        if *size < least {
            told[2] += 1;
            continue;
        }
        told[0] += 1;
        if !ink && met.contains(&0) {
            told[5] += 1;
        } else if met.is_empty() {
            told[4] += 1;
        } else if met.len() > 1 {
            told[6] += 1;
        }
    }
    for (met, size) in met(&of_mark, marked, &of_drawing, both).iter().zip(&mark_sizes) {
        let all: BTreeSet<u32> = met.iter().copied().filter(|&label| label > 0).collect();
        let counting = all.iter().filter(|&&label| counts(label)).count();
        if counting == 0 && (!all.is_empty() || *size < least) {
            told[3] += 1;
            continue;
        }
        told[1] += 1;
        match counting {
            0 => told[8] += 1,
            1 => {}
            _ => told[7] += 1,
        }
    }
    told
}

fn naive(drawing: &Pixels, mark: &Pixels, least: u32) -> Topology {
    let [components_drawing, components_mark, drawn, marked, lost, outside, split, merged, new] =
        naive_side(drawing, mark, true, least);
    assert_eq!(outside, 0);
    let [
        holes_drawing,
        holes_mark,
        holes_ignored_drawing,
        holes_ignored_mark,
        holes_closed,
        holes_opened,
        holes_split,
        holes_merged,
        holes_new,
    ] = naive_side(drawing, mark, false, least);
    Topology {
        components_drawing,
        components_mark,
        components_lost: lost,
        components_split: split,
        components_merged: merged,
        components_new: new,
        holes_drawing,
        holes_mark,
        holes_closed,
        holes_opened,
        holes_split,
        holes_merged,
        holes_new,
        components_ignored_drawing: drawn,
        components_ignored_mark: marked,
        holes_ignored_drawing,
        holes_ignored_mark,
    }
}

/// Pictures whose answer is plain to see, with specks of fewer than three pixels.
#[test]
fn what_is_left_out_is_told_by_pictures() {
    type Told = ([&'static str; 5], [&'static str; 5], &'static [ChangeKind], [u32; 4]);
    let told: [Told; 9] = [
        // A bare pixel in a letter is filled.
        (
            [".......", ".#####.", ".##.##.", ".#####.", "......."],
            [".......", ".#####.", ".#####.", ".#####.", "......."],
            &[],
            [0, 0, 1, 0],
        ),
        // A counter of three is more.
        (
            [".......", ".#####.", ".#...#.", ".#####.", "......."],
            [".......", ".#####.", ".#####.", ".#####.", "......."],
            &[ChangeKind::HoleClosed],
            [0, 0, 0, 0],
        ),
        // A grain beside a bar is lost.
        (
            [".......", ".###.#.", "......#", ".......", "......."],
            [".......", ".###...", ".......", ".......", "......."],
            &[],
            [1, 0, 0, 0],
        ),
        // Or runs into it.
        (
            [".......", ".###.#.", ".......", ".......", "......."],
            [".......", ".#####.", ".......", ".......", "......."],
            &[],
            [1, 0, 0, 0],
        ),
        // Or is marked, larger than what counts.
        (
            [".......", ".###.#.", ".......", ".......", "......."],
            [".......", ".###.##", ".....##", ".......", "......."],
            &[],
            [1, 1, 0, 0],
        ),
        // What the mark has of its own is left out while it is small,
        (
            [".......", ".###...", ".......", ".......", "......."],
            [".......", ".###.##", ".......", ".......", "......."],
            &[],
            [0, 1, 0, 0],
        ),
        (
            [".......", ".###...", ".......", ".......", "......."],
            [".......", ".###.##", ".....#.", ".......", "......."],
            &[ChangeKind::ComponentNew],
            [0, 0, 0, 0],
        ),
        // and so is a gap in its fill.
        (
            [".......", ".#####.", ".#####.", ".#####.", "......."],
            [".......", ".#####.", ".##.##.", ".#####.", "......."],
            &[],
            [0, 0, 0, 1],
        ),
        // Crumbs of a bar are no specks.
        (
            [".......", ".#####.", ".......", ".......", "......."],
            [".......", ".#.#.#.", ".......", ".......", "......."],
            &[ChangeKind::ComponentSplit],
            [0, 0, 0, 0],
        ),
    ];
    for (number, (drawing, mark, kinds, ignored)) in told.into_iter().enumerate() {
        let (found, changes) =
            without_specks(&Pixels::from_picture(&drawing), &Pixels::from_picture(&mark), 3);
        assert_eq!(changes.iter().map(|change| change.kind).collect::<Vec<_>>(), kinds, "{number}");
        let counted = [
            found.components_ignored_drawing,
            found.components_ignored_mark,
            found.holes_ignored_drawing,
            found.holes_ignored_mark,
        ];
        assert_eq!(counted, ignored, "{number}");
    }
}

/// A drawing of blocks of 9 by 9 pixels, of which some have one pixel of the other kind in their middle; the same without
/// these; and a mark that keeps some of these and is wrong in places that do not touch them.
fn with_specks() -> impl Strategy<Value = (Pixels, Pixels, Pixels)> {
    const BLOCKS: usize = 12;
    const WIDTH: usize = 9 * BLOCKS;
    const HEIGHT: usize = 4 * 9;
    let blocks = proptest::collection::vec(any::<[bool; 3]>(), 4 * BLOCKS);
    let flips = proptest::collection::vec(proptest::bool::weighted(0.1), WIDTH * HEIGHT);
    (blocks, flips).prop_map(|(blocks, flips)| {
        let drawn = |of: &dyn Fn([bool; 3], usize, usize) -> bool| {
            let at = |at: usize| (at % WIDTH, at / WIDTH);
            let pixel = |(x, y): (usize, usize)| of(blocks[y / 9 * BLOCKS + x / 9], x, y);
            let set = (0..WIDTH * HEIGHT).map(|pixels| pixel(at(pixels))).collect();
            Pixels { width: WIDTH, height: HEIGHT, set }
        };
        let off = |x: usize, y: usize| (x % 9).abs_diff(4).max((y % 9).abs_diff(4));
        let drawing = drawn(&|[ink, speck, _], x, y| ink ^ (speck && off(x, y) == 0));
        let clean = drawn(&|[ink, ..], _, _| ink);
        let mark = drawn(&|[ink, speck, kept], x, y| match off(x, y) {
            0 => ink ^ (speck && kept),
            1 => ink,
            _ => ink ^ flips[y * WIDTH + x],
        });
        (drawing, clean, mark)
    })
}

proptest! {
    /// All counts against a flood fill, and the changes against the counts.
    #[test]
    fn counts_are_those_of_a_flood_fill((drawing, mark) in two_masks(), least in 0_u32..12) {
        let (found, changes) = without_specks(&drawing, &mark, least);
        prop_assert_eq!(found, naive(&drawing, &mark, least));
        prop_assert_eq!(changes.len() as u32, found.changes());
        for kind in ChangeKind::ALL {
            let told = changes.iter().filter(|change| change.kind == kind).count();
            prop_assert_eq!(told as u32, found.changes_of(kind));
        }
        // What becomes of a piece of the drawing is told of none that is a speck, nor is anything new.
        let of_mark = |kind| matches!(kind, ChangeKind::ComponentsMerged | ChangeKind::HolesMerged);
        prop_assert!(changes.iter().all(|change| of_mark(change.kind) || change.pixels >= least));
    }

    /// Where nothing is a speck, all is as it was, to the box of every change.
    #[test]
    fn without_specks_nothing_changes((drawing, mark) in two_masks()) {
        let old = crate::topology::of_pixels(&drawing, &mark, 10_000);
        prop_assert_eq!(old.0, naive_topology(&drawing, &mark));
        for least in [0, 1] {
            let found = without_specks(&drawing, &mark, least);
            prop_assert_eq!(&found, &old);
        }
    }

    /// The more is left out, the fewer changes there are, of each kind; what is ignored and what counts is always all.
    #[test]
    fn leaving_more_out_never_adds_a_change((drawing, mark) in two_masks(), first in 0_u32..20, more in 0_u32..20) {
        let (all, _) = without_specks(&drawing, &mark, 0);
        let (less, _) = without_specks(&drawing, &mark, first);
        let (least, _) = without_specks(&drawing, &mark, first + more);
        for kind in ChangeKind::ALL {
            prop_assert!(least.changes_of(kind) <= less.changes_of(kind));
            prop_assert!(less.changes_of(kind) <= all.changes_of(kind));
        }
        let sums = |t: &Topology| [
            t.components_drawing + t.components_ignored_drawing,
            t.components_mark + t.components_ignored_mark,
            t.holes_drawing + t.holes_ignored_drawing,
            t.holes_mark + t.holes_ignored_mark,
        ];
        prop_assert_eq!(sums(&less), sums(&all));
        prop_assert_eq!(sums(&least), sums(&all));
        let nothing = without_specks(&drawing, &mark, u32::MAX).0;
        prop_assert_eq!((nothing.changes(), nothing.components_drawing, nothing.holes_mark), (0, 0, 0));
    }

    /// With specks left out, a drawing is as one from which they were taken.
    #[test]
    fn as_if_the_specks_were_not_there((drawing, clean, mark) in with_specks()) {
        let (found, changes) = without_specks(&drawing, &mark, 2);
        let (expected, expected_changes) = without_specks(&clean, &mark, 2);
        let but_for_specks =
            Topology { components_ignored_drawing: 0, holes_ignored_drawing: 0, ..found };
        prop_assert_eq!(but_for_specks, expected);
        // Pixels of what is split or lost are those of the drawing, so that they may differ by specks.
        let boxes = |changes: &[Change]| -> Vec<_> {
            changes.iter().map(|change| (change.kind, change.extent)).collect()
        };
        prop_assert_eq!(boxes(&changes), boxes(&expected_changes));
    }
}

/// Too little room is refused, and a watch stops the search.
#[test]
fn specks_need_their_room() {
    let words = [0b1011_u64; 40];
    let drawing = Bitmap::new(&words, 60, 40).unwrap();
    let mut room = vec![0; parts_words(60, 40)];
    let mut parts = find_parts(&drawing, &mut room, &mut Watch::quiet()).unwrap();
    let expected = specks_words(60, 40);
    let error = parts.ignore_specks(2, &mut vec![0; expected - 1], &mut Watch::quiet()).unwrap_err();
    assert_eq!(error, Error::LengthMismatch { param: Param::Workspace, value: expected - 1, expected });
    let mut stop = |_: f64| spotwise::artwork::Step::Stop;
    let stopped = parts.ignore_specks(2, &mut vec![0; expected], &mut Watch::new(&mut stop));
    assert!(matches!(stopped, Err(Error::Stopped { .. })));
}

const SIDE: usize = 120;

/// A ring with an open counter and a bar, 20 pixels wide, and with them a bare pixel in the bar and a grain of 2 by 2.
fn letters(specks: bool) -> Vec<u8> {
    let inked = |x: usize, y: usize| {
        let (dx, dy) = (x.abs_diff(45), y.abs_diff(60));
        let ring = dx.max(dy) <= 35 && dx.max(dy) > 14;
        let bar = (90..110).contains(&x) && (25..95).contains(&y);
        let bare = specks && (x, y) == (100, 60);
        let grain = specks && (4..6).contains(&x) && (4..6).contains(&y);
        (ring || bar || grain) && !bare
    };
    (0..SIDE * SIDE).map(|at| if inked(at % SIDE, at / SIDE) { 255 } else { 0 }).collect()
}

fn preflight(samples: &[u8], speck_area: f64) -> Preflight<'_> {
    Preflight {
        drawing: burnt(samples, SIDE),
        exposing: level(3.0, Scan::Unknown),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: 1.5 * PITCH,
        speck_area,
    }
}

/// The bare pixel makes the drawing lost, as its counter fills at any dose that keeps the strokes; left out, it does
/// not, and what is told is what would be told of a clean drawing.
#[test]
fn a_bare_pixel_no_longer_loses_the_drawing() {
    let (dirty, clean) = (letters(true), letters(false));
    let grade = |preflight: &Preflight<'_>| {
        let found = run(preflight);
        let judged = judge(&found.report, &found.window, &TextGrades::default());
        (judged.unwrap().grade, found.report, found.window)
    };
    let area = 4.5 * PITCH * PITCH;
    let (lost, with_all, _) = grade(&preflight(&dirty, 0.0));
    let (kept, report, window) = grade(&preflight(&dirty, area));
    let (clean_grade, clean_report, clean_window) = grade(&preflight(&clean, 0.0));
    assert_eq!((lost, with_all.topology.holes_closed, with_all.is_broken()), (MarkGrade::Lost, 1, true));
    assert!(kept == clean_grade && kept != MarkGrade::Lost, "{kept:?}");
    assert!(report.holds() && clean_report.holds());
    let counted = report.topology;
    assert_eq!((counted.components_ignored_drawing, counted.holes_ignored_drawing), (1, 1));
    // But for what is ignored, as of the clean drawing.
    let found = Topology {
        components_ignored_drawing: 0,
        components_ignored_mark: 0,
        holes_ignored_drawing: 0,
        holes_ignored_mark: 0,
        ..counted
    };
    assert_eq!(found, clean_report.topology);
    assert_eq!(report.components_starved, 0);
    // Levels of the exposure are 1/32 768 apart; the bare pixel takes a little of the light around it.
    let near = |one: f64, other: f64| (one / other - 1.0).abs() < 0.05;
    assert!(near(window.least_dose_ratio, clean_window.least_dose_ratio), "{window:?} {clean_window:?}");
    assert!(near(window.greatest_dose_ratio, clean_window.greatest_dose_ratio), "{window:?}");
    // What is said of pixels is said of all, specks or not.
    let of_pixels = |report: &spotwise::artwork::Report| {
        let topology = Topology::default();
        format!("{:?}", spotwise::artwork::Report { topology, components_starved: 0, ..*report })
    };
    assert_eq!(of_pixels(&report), of_pixels(&with_all));
    assert!(report.missing_pixels >= 4 && report.extra_pixels >= 1);
}

/// A part of exactly as many pixels as the area holds counts, whatever the last digits of both are.
#[test]
fn what_is_as_large_as_the_area_counts() {
    let samples = letters(true);
    for step in 0..12 {
        let pitch = PITCH * (1.0 + 0.0371 * f64::from(step));
        for (pixels, ignored) in [(0.9, [0, 0]), (1.0, [0, 0]), (1.1, [0, 1]), (4.0, [0, 1]), (4.1, [1, 1])] {
            let usual = preflight(&samples, pixels * pitch * pitch);
            let drawing = Drawing { pitch_x: pitch, pitch_y: pitch, ..usual.drawing };
            let found = run(&Preflight { drawing, ..usual }).report.topology;
            assert_eq!([found.components_ignored_drawing, found.holes_ignored_drawing], ignored, "{pixels}");
        }
    }
}

/// What would help takes specks for what they are, at every scale.
#[test]
fn what_would_help_leaves_specks_out() {
    let (dirty, clean) = (letters(true), letters(false));
    let helped = |preflight: &Preflight<'_>| -> (FocusReach, f64) {
        let watch = &mut Watch::quiet();
        let words = focus_reach_words(preflight, 1, watch).unwrap();
        let words = words.max(smallest_scale_words(preflight, 1, watch).unwrap());
        let (mut exposure, mut words) = (vec![7; SIDE * SIDE], vec![u64::MAX; words]);
        let mut room = TrialRoom { exposure: &mut exposure, words: &mut words };
        let reach = focus_reach(preflight, Demand::Apart, &mut room, watch).unwrap();
        (reach, smallest_scale(preflight, Demand::Apart, &mut room, watch).unwrap())
    };
    let (reach, scale) = helped(&preflight(&dirty, 0.0));
    assert!(reach.toward_lens.is_nan() && (scale.is_nan() || scale > 1.0));
    let (reach, scale) = helped(&preflight(&dirty, 4.5 * PITCH * PITCH));
    let (clean_reach, clean_scale) = helped(&preflight(&clean, 0.0));
    assert!((reach.toward_lens / clean_reach.toward_lens - 1.0).abs() < 0.1, "{reach:?} {clean_reach:?}");
    assert!(scale < 1.0 && (scale / clean_scale - 1.0).abs() < 0.05, "{scale} {clean_scale}");
}

/// Its range is told with the error.
#[test]
fn an_area_out_of_range_is_refused() {
    let samples = letters(false);
    let plan = |area: f64| {
        spotwise::artwork::PreflightPlan::new(&preflight(&samples, area), &mut Watch::quiet()).map(|_| ())
    };
    for fine in [0.0, -0.0, 1e-12, 1e-4] {
        assert_eq!(plan(fine), Ok(()));
    }
    for value in [-1e-15, 1.000_001e-4, 1.0] {
        let wanted = Error::OutOfRange { param: Param::SpeckArea, value, least: 0.0, greatest: 1e-4 };
        assert_eq!(plan(value), Err(wanted));
    }
    for value in [f64::NAN, f64::INFINITY] {
        assert!(matches!(plan(value), Err(Error::NotFinite { param: Param::SpeckArea, .. })));
    }
}
