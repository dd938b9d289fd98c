//! How much work lies between two questions to the watch, counted rather than timed.

use crate::masks::{Mask, unit};
use crate::plate::{PITCH, burnt, level, lines, mask_words, strokes};
use spotwise::artwork::{
    Answer, BitmapMut, Drawing, Exposing, Nearest, Preflight, PreflightOutput, PreflightPlan, Ruler, Scan,
    Step, Watch, distances, distances_words,
};
use spotwise::model::surface::Surface;
use std::cell::Cell;

/// Of eight million pixels no question comes later than this share of the whole after the one before: some milliseconds.
const LONGEST: f64 = 0.03;

/// Does the work under a watch that sees to it that little of it lies between two questions.
fn ask_often_during(what: &str, work: impl FnOnce(&mut Watch<'_>)) {
    let mut last = 0.0;
    let mut tell = |done: f64| {
        assert!(done - last < LONGEST, "{what}: nothing asked from {last} to {done}");
        last = done;
        Step::GoOn
    };
    work(&mut Watch::new(&mut tell));
}

fn ask_often(preflight: &Preflight<'_>) {
    let Drawing { width, height, .. } = preflight.drawing;
    let mut plan = None;
    let what = |step| format!("{step} of {width} by {height}");
    ask_often_during(&what("plan"), |watch| plan = Some(PreflightPlan::new(preflight, watch).unwrap()));
    let plan = plan.unwrap();
    let mut room = vec![0; plan.words(1)];
    let mut exposure = vec![0; width * height];
    let mut masks = [mask_words(width, height), mask_words(width, height), mask_words(width, height)];
    let [mark, lost, filled] = &mut masks;
    let [mark, lost, filled] =
        [mark, lost, filled].map(|words| BitmapMut::new(words, width, height).unwrap());
    let mut output = PreflightOutput {
        exposure: &mut exposure,
        mark,
        lost,
        filled,
        lost_regions: &mut [],
        filled_regions: &mut [],
        changes: &mut [],
    };
    ask_often_during(&what("run"), |watch| {
        plan.run(&mut output, &mut room, watch).unwrap();
    });
    ask_often_during(&what("window"), |watch| {
        plan.dose_window(&exposure, &mut room, watch).unwrap();
    });
}

/// In a square drawing, the widest and the highest; with all that takes more time than usual.
#[test]
fn a_preflight_asks_after_a_small_share_of_its_work() {
    let work = || {
        for (width, height) in [(2900, 2900), (65_535, 128), (128, 65_535)] {
            let samples = strokes(width, height, 41);
            let usual = Preflight {
                drawing: burnt(&samples, width),
                exposing: level(3.0, lines(1.0, 0.5)),
                answer: Answer::Coating,
                dose_ratio: 2.0,
                edge_tolerance: 1.5 * PITCH,
                speck_area: 0.0,
            };
            let tilt = Surface::Plane { slope_x: 0.0, slope_y: 0.02 };
            ask_often(&usual);
            ask_often(&Preflight {
                exposing: Exposing { surface: tilt, ..level(3.0, Scan::Unknown) },
                drawing: Drawing { pitch_y: 1.1 * PITCH, ..usual.drawing },
                answer: Answer::Melt { bridge: 100.0 * PITCH },
                ..usual
            });
        }
    };
    #[cfg(feature = "parallel")]
    rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap().install(work);
    #[cfg(not(feature = "parallel"))]
    work();
}

/// Of distances with the longest reach, which take the most time of all, one row of the widest drawing is told between
/// two questions; of short ones, as many as take no longer.
#[test]
fn distances_ask_after_few_rows() {
    let (width, height) = (65_535, 40);
    let mask = Mask::from_fn(width, height, |x, y| unit(42, x, y) < 1e-4);
    for (pitch_y, reach, most) in [(PITCH, 16, 12), (PITCH, 255, 1), (1.5 * PITCH, 255, 1)] {
        let ruler = Ruler::new(PITCH, pitch_y, reach).unwrap();
        let mut room = vec![0; distances_words(width, height, &ruler)];
        let rows = Cell::new(0);
        let mut tell = |_: f64| {
            rows.set(0);
            Step::GoOn
        };
        distances(mask.view(), Nearest::Set, None, &ruler, &mut room, &mut Watch::new(&mut tell), |_, _| {
            rows.set(rows.get() + 1);
            assert!(rows.get() <= most, "reach {reach}");
        })
        .unwrap();
    }
}
