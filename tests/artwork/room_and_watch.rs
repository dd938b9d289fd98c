//! Room, watches and what is left after an error.

use crate::plate::{PITCH, burnt, level, lines, mask_words, strokes};
use spotwise::artwork::{
    Answer, BitmapMut, Change, ChangeKind, DoseWindow, Exposing, ExposurePlan, Preflight, PreflightOutput,
    PreflightPlan, Region, Report, Scan, Step, Watch,
};
use spotwise::model::surface::Surface;
use spotwise::{Error, Param};

const WIDTH: usize = 300;
const HEIGHT: usize = 180;

/// Fine and wide spots, one and many, each with what needs the most room of its kind.
fn preflights(samples: &[u8]) -> Vec<Preflight<'_>> {
    let drawing = burnt(samples, WIDTH);
    let usual = Preflight {
        drawing,
        exposing: level(3.0, Scan::Unknown),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: 1.5 * PITCH,
        speck_area: 0.0,
    };
    let tilt = Surface::Plane { slope_x: 1.5, slope_y: -0.7 };
    vec![
        usual,
        Preflight { answer: Answer::Melt { bridge: 20.0 * PITCH }, edge_tolerance: 40.0 * PITCH, ..usual },
        Preflight { exposing: Exposing { surface: tilt, ..level(2.0, lines(1.0, 0.1)) }, ..usual },
        Preflight { exposing: Exposing { surface: tilt, ..level(14.0, Scan::Unknown) }, ..usual },
        Preflight { exposing: level(70.0, Scan::Unknown), edge_tolerance: 0.0, ..usual },
        Preflight { speck_area: 40.0 * PITCH * PITCH, ..usual },
    ]
}

/// Everything that a preflight writes, prefilled with garbage.
struct Outputs {
    exposure: Vec<u16>,
    masks: [Vec<u64>; 3],
    lost: Vec<Region<f64>>,
    filled: Vec<Region<f64>>,
    changes: Vec<Change>,
}

impl Outputs {
    fn garbage() -> Self {
        let region = Region { pixels: 3, ..Region::default() };
        let change = Change { kind: ChangeKind::HoleClosed, ..Change::NONE };
        Self {
            exposure: vec![7; WIDTH * HEIGHT],
            masks: std::array::from_fn(|_| mask_words(WIDTH, HEIGHT)),
            lost: vec![region; 20],
            filled: vec![region; 20],
            changes: vec![change; 20],
        }
    }

    fn run(
        &mut self,
        plan: &PreflightPlan<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Report, Error> {
        let [mark, lost, filled] = &mut self.masks;
        let [mark, lost, filled] =
            [mark, lost, filled].map(|words| BitmapMut::new(words, WIDTH, HEIGHT).unwrap());
        let mut output = PreflightOutput {
            exposure: &mut self.exposure,
            mark,
            lost,
            filled,
            lost_regions: &mut self.lost,
            filled_regions: &mut self.filled,
            changes: &mut self.changes,
        };
        plan.run(&mut output, room, watch)
    }

    fn is_clear(&self) -> bool {
        self.exposure.iter().all(|&level| level == 0)
            && self.masks.iter().flatten().all(|&word| word == 0)
            && self.lost.iter().chain(&self.filled).all(|region| *region == Region::default())
            && self.changes.iter().all(|change| *change == Change::NONE)
    }

    fn is_same(&self, other: &Self) -> bool {
        // Regions without any pixel have a depth of NaN, perhaps, which is equal to nothing.
        let text = |outputs: &Self| format!("{:?} {:?} {:?}", outputs.lost, outputs.filled, outputs.changes);
        self.exposure == other.exposure && self.masks == other.masks && text(self) == text(other)
    }
}

/// As many words as told suffice, whatever they hold, and more change nothing; one less is refused by name.
#[test]
fn room_is_told_in_advance() {
    let samples = strokes(WIDTH, HEIGHT, 21);
    for preflight in preflights(&samples) {
        let plan = PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap();
        let words = plan.words(1);
        let mut all: Vec<(Outputs, Report, DoseWindow)> = Vec::new();
        for (words, garbage) in [(words, 0), (words, u64::MAX), (2 * words + 5, 0x5555_5555_5555_5555)] {
            let mut room = vec![garbage; words];
            let mut outputs = Outputs::garbage();
            let report = outputs.run(&plan, &mut room, &mut Watch::quiet()).unwrap();
            room.fill(garbage);
            let window = plan.dose_window(&outputs.exposure, &mut room, &mut Watch::quiet()).unwrap();
            all.push((outputs, report, window));
        }
        for (outputs, report, window) in &all[1..] {
            assert!(outputs.is_same(&all[0].0));
            assert_eq!(format!("{report:?} {window:?}"), format!("{:?} {:?}", all[0].1, all[0].2));
        }
        let exposure = all.swap_remove(0).0.exposure;

        let too_small = |error: Error, expected: usize| {
            let wanted = Error::LengthMismatch { param: Param::Workspace, value: expected - 1, expected };
            assert_eq!(error, wanted);
        };
        let mut room = vec![u64::MAX; words - 1];
        let mut outputs = Outputs::garbage();
        too_small(outputs.run(&plan, &mut room, &mut Watch::quiet()).unwrap_err(), words);
        assert!(outputs.is_clear());
        too_small(plan.dose_window(&exposure, &mut room, &mut Watch::quiet()).unwrap_err(), words);

        let plan = plan.exposure();
        let mut room = vec![u64::MAX; plan.words(1) - 1];
        let mut levels = vec![7; WIDTH * HEIGHT];
        too_small(plan.expose(&mut levels, &mut room, &mut Watch::quiet()).unwrap_err(), plan.words(1));
        assert!(levels.iter().all(|&level| level == 0));
        let mut room = vec![u64::MAX; plan.exact_words() - 1];
        let mut doubles = vec![7.0; WIDTH * HEIGHT];
        let error = plan.expose_exactly(&mut doubles, &mut room, &mut Watch::quiet()).unwrap_err();
        too_small(error, plan.exact_words());
        assert!(doubles.iter().all(|share| share.is_nan()));
    }
}

/// Runs `work` under a watch that stops at the call of this number, and tells how often it was called. Progress must
/// run from 0 to 1 and never fall.
fn stopped_at<T>(
    call: usize,
    work: impl FnOnce(&mut Watch<'_>) -> Result<T, Error>,
) -> (Result<T, Error>, usize) {
    let (mut calls, mut last) = (0, 0.0);
    let mut tell = |done: f64| {
        assert!(done >= last && done <= 1.0, "from {last} to {done}");
        last = done;
        calls += 1;
        if calls > call { Step::Stop } else { Step::GoOn }
    };
    let result = work(&mut Watch::new(&mut tell));
    if calls > call {
        assert_eq!(calls, call + 1, "asked again after the order to stop");
    }
    (result, calls)
}

/// Does the work on one thread: how often several ask their watch depends on who is quicker.
fn on_one_thread(work: impl FnOnce() + Send) {
    #[cfg(feature = "parallel")]
    rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap().install(work);
    #[cfg(not(feature = "parallel"))]
    work();
}

/// Stopped at any of its calls, each step ends with that error and clear outputs.
#[test]
fn an_order_to_stop_is_heard_at_every_call() {
    on_one_thread(stop_at_every_call);
}

fn stop_at_every_call() {
    let samples = strokes(WIDTH, HEIGHT, 22);
    for preflight in preflights(&samples) {
        let survey = |call| stopped_at(call, |watch| PreflightPlan::new(&preflight, watch).map(|_| ()));
        let (plan, calls) =
            (PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap(), survey(usize::MAX).1);
        assert!(calls > 5);
        for call in 0..calls {
            assert!(matches!(survey(call).0, Err(Error::Stopped { .. })));
        }

        let mut room = vec![u64::MAX; plan.words(1)];
        let mut outputs = Outputs::garbage();
        let (result, calls) = stopped_at(usize::MAX, |watch| outputs.run(&plan, &mut room, watch));
        result.unwrap();
        let exposure = outputs.exposure;
        assert!(calls > 20, "{calls}");
        for call in 0..calls {
            let mut outputs = Outputs::garbage();
            let (result, _) = stopped_at(call, |watch| outputs.run(&plan, &mut room, watch));
            assert!(matches!(result, Err(Error::Stopped { .. })), "call {call} of {calls}: {result:?}");
            assert!(outputs.is_clear(), "call {call} of {calls}");
        }

        let (window, calls) = stopped_at(usize::MAX, |watch| plan.dose_window(&exposure, &mut room, watch));
        window.unwrap();
        assert!(calls > 20, "{calls}");
        for call in (0..calls).step_by(7) {
            let (window, _) = stopped_at(call, |watch| plan.dose_window(&exposure, &mut room, watch));
            assert!(matches!(window, Err(Error::Stopped { .. })), "call {call} of {calls}");
        }
    }
}

/// The exposure in doubles and the mask of unknown heights, likewise.
#[test]
fn an_order_to_stop_leaves_nothing_half_done() {
    let (width, height) = (60, 90);
    let samples = strokes(width, height, 23);
    let drawing = burnt(&samples, width);
    let across = [0.0, 30.0 * PITCH, 60.0 * PITCH];
    let down = [0.0, 90.0 * PITCH];
    let probes = [f64::NAN, 0.0, 0.0, 0.0, 0.0, 0.0];
    let grid = Surface::Grid { x: &across, y: &down, z: &probes };
    for exposing in [level(2.0, Scan::Unknown), Exposing { surface: grid, ..level(2.0, Scan::Unknown) }] {
        let plan = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).unwrap();
        let mut room = vec![u64::MAX; plan.exact_words()];
        let mut expose = |call| {
            let mut exposure = vec![7.0; width * height];
            let (result, calls) =
                stopped_at(call, |watch| plan.expose_exactly(&mut exposure, &mut room, watch));
            (result, calls, exposure.iter().all(|share| share.is_nan()))
        };
        let calls = expose(usize::MAX).1;
        for call in 0..calls {
            let (result, _, clear) = expose(call);
            assert!(matches!(result, Err(Error::Stopped { .. })) && clear, "call {call} of {calls}");
        }
        let unknown = |call| {
            let mut words = mask_words(width, height);
            let mut mask = BitmapMut::new(&mut words, width, height).unwrap();
            let (result, calls) = stopped_at(call, |watch| plan.unknown(&mut mask, watch));
            (result, calls, mask.view().count() == 0)
        };
        let calls = unknown(usize::MAX).1;
        for call in 0..calls {
            let (result, _, clear) = unknown(call);
            assert!(matches!(result, Err(Error::Stopped { .. })) && clear, "call {call} of {calls}");
        }
    }
}

/// Outputs of another size than the drawing's are refused by name, and cleared.
#[test]
fn outputs_of_another_size_are_refused() {
    let samples = strokes(WIDTH, HEIGHT, 24);
    let preflight = preflights(&samples).swap_remove(0);
    let plan = PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap();
    let mut room = vec![0; plan.words(1)];
    let mut outputs = Outputs::garbage();
    outputs.exposure.pop();
    let error = outputs.run(&plan, &mut room, &mut Watch::quiet()).unwrap_err();
    let (value, expected) = (WIDTH * HEIGHT - 1, WIDTH * HEIGHT);
    assert_eq!(error, Error::LengthMismatch { param: Param::Output, value, expected });
    assert!(outputs.is_clear());

    // A mask of other sides but as many pixels.
    for wrong in 0..3 {
        let mut outputs = Outputs::garbage();
        outputs.masks[wrong] = mask_words(HEIGHT, WIDTH);
        let [mark, lost, filled] = &mut outputs.masks;
        let size = |number| if number == wrong { (HEIGHT, WIDTH) } else { (WIDTH, HEIGHT) };
        let mask = |number, words| BitmapMut::new(words, size(number).0, size(number).1).unwrap();
        let mut output = PreflightOutput {
            exposure: &mut outputs.exposure,
            mark: mask(0, mark),
            lost: mask(1, lost),
            filled: mask(2, filled),
            lost_regions: &mut outputs.lost,
            filled_regions: &mut outputs.filled,
            changes: &mut outputs.changes,
        };
        let error = plan.run(&mut output, &mut room, &mut Watch::quiet()).unwrap_err();
        assert_eq!(error, Error::LengthMismatch { param: Param::Output, value: HEIGHT, expected: WIDTH });
        assert!(outputs.is_clear());
    }
    let error = plan.dose_window(&[0; 5], &mut room, &mut Watch::quiet()).unwrap_err();
    assert_eq!(error, Error::LengthMismatch { param: Param::Output, value: 5, expected: WIDTH * HEIGHT });

    let plan = plan.exposure();
    let mut mask = mask_words(HEIGHT, WIDTH);
    let mut mask = BitmapMut::new(&mut mask, HEIGHT, WIDTH).unwrap();
    let error = plan.unknown(&mut mask, &mut Watch::quiet()).unwrap_err();
    assert!(matches!(error, Error::LengthMismatch { param: Param::Output, .. }));
}
