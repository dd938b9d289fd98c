//! One, two and three threads give the same bits.

use crate::masks::Mask;
use crate::plate::{PITCH, burnt, level, lines, mask_words, strokes};
use crate::quick_bound::input;
use spotwise::artwork::{
    Answer, BitmapMut, Change, Drawing, Exposing, Preflight, PreflightOutput, PreflightPlan, Region, Scan,
    Step, Watch, quick_answer, quick_answer_words, quick_bound, quick_bound_words,
};
use spotwise::model::surface::Surface;
use spotwise::{Error, Param};

/// Several rows of tiles, and of the bands in which masks are worked on.
const WIDTH: usize = 700;
const HEIGHT: usize = 900;

/// All that a preflight says on a pool of so many threads with room for so many, as text.
fn told(preflight: &Preflight<'_>, threads: usize, rooms: usize) -> (Vec<u16>, Vec<Vec<u64>>, String) {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    pool.install(|| {
        assert_eq!(spotwise::artwork::threads(), threads);
        let plan = PreflightPlan::new(preflight, &mut Watch::quiet()).unwrap();
        let mut room = vec![u64::MAX; plan.words(rooms)];
        let Drawing { width, height, .. } = preflight.drawing;
        let mut exposure = vec![7; width * height];
        let mut masks = vec![mask_words(width, height); 3];
        let [mark, lost, filled] = masks.get_disjoint_mut([0, 1, 2]).unwrap();
        let [mark, lost, filled] =
            [mark, lost, filled].map(|words| BitmapMut::new(words, width, height).unwrap());
        let (mut lost_regions, mut filled_regions) = ([Region::default(); 50], [Region::default(); 50]);
        let mut changes = [Change::NONE; 50];
        let mut output = PreflightOutput {
            exposure: &mut exposure,
            mark,
            lost,
            filled,
            lost_regions: &mut lost_regions,
            filled_regions: &mut filled_regions,
            changes: &mut changes,
        };
        let mut last = 0.0;
        let mut tell = |done: f64| {
            assert!(done >= last && done <= 1.0, "from {last} to {done}");
            last = done;
            Step::GoOn
        };
        let report = plan.run(&mut output, &mut room, &mut Watch::new(&mut tell)).unwrap();
        let window = plan.dose_window(&exposure, &mut room, &mut Watch::quiet()).unwrap();
        // Debug text of a number is as long as it must be to tell it from every other.
        let text = format!("{report:?} {window:?} {lost_regions:?} {filled_regions:?} {changes:?}");
        (exposure, masks, text)
    })
}

fn preflights(samples: &[u8], width: usize) -> [Preflight<'_>; 5] {
    let usual = Preflight {
        drawing: burnt(samples, width),
        exposing: level(3.0, lines(1.0, 0.5)),
        answer: Answer::Coating,
        dose_ratio: 2.0,
        edge_tolerance: 1.5 * PITCH,
        speck_area: 0.0,
    };
    let tilt = Surface::Plane { slope_x: 1.5, slope_y: -0.7 };
    [
        usual,
        Preflight { answer: Answer::Melt { bridge: 12.0 * PITCH }, ..usual },
        Preflight { exposing: Exposing { surface: tilt, ..level(2.0, Scan::Unknown) }, ..usual },
        Preflight { exposing: level(40.0, Scan::Unknown), ..usual },
        Preflight { speck_area: 40.0 * PITCH * PITCH, ..usual },
    ]
}

#[test]
fn threads_change_no_bit() {
    let samples = strokes(WIDTH, HEIGHT, 31);
    for preflight in preflights(&samples, WIDTH) {
        let one = told(&preflight, 1, 1);
        // As many threads as rooms, fewer rooms, and more.
        for (threads, rooms) in [(2, 2), (3, 3), (3, 1), (3, 2), (2, 5)] {
            assert!(told(&preflight, threads, rooms) == one, "{threads} threads in {rooms} rooms");
        }
    }
}

/// Of the widest drawing too, of which a row is much work and there are few, and where pitches differ.
#[test]
fn threads_change_no_bit_of_a_wide_drawing() {
    const WIDEST: usize = 65_535;
    let samples = strokes(WIDEST, 24, 33);
    let tilt = Surface::Plane { slope_x: 0.02, slope_y: -0.7 };
    let usual = preflights(&samples, WIDEST)[0];
    let oblong = Drawing { pitch_y: 1.3 * PITCH, ..usual.drawing };
    for preflight in [
        usual,
        Preflight { exposing: Exposing { surface: tilt, ..level(2.0, Scan::Unknown) }, ..usual },
        Preflight {
            drawing: oblong,
            exposing: level(3.0, Scan::Unknown),
            answer: Answer::Melt { bridge: 5.0 * PITCH },
            ..usual
        },
    ] {
        let one = told(&preflight, 1, 1);
        for (threads, rooms) in [(2, 2), (3, 2)] {
            assert!(told(&preflight, threads, rooms) == one, "{threads} threads in {rooms} rooms");
        }
    }
}

/// Two faults at once, too many runs of ink and of ground, are told alike by one thread and by several.
#[test]
fn threads_tell_the_same_fault() {
    // Columns one pixel wide have more runs than there is room for in a drawing of this size.
    let (width, height) = (4095, 520);
    let samples: Vec<u8> = (0..width * height).map(|n| if n % width % 2 == 0 { 255 } else { 0 }).collect();
    let preflight = preflights(&samples, width)[0];
    let fault = |threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| {
            let plan = PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap();
            let mut room = vec![0; plan.words(threads)];
            plan.dose_window(&vec![0; width * height], &mut room, &mut Watch::quiet()).unwrap_err()
        })
    };
    let one = fault(1);
    assert!(matches!(one, Error::OutOfRange { param: Param::PixelRuns, .. }), "{one}");
    for threads in [2, 3] {
        assert_eq!(fault(threads), one);
    }
}

/// An order to stop ends the work of all threads, and leaves nothing.
#[test]
fn all_threads_stop() {
    let samples = strokes(WIDTH, HEIGHT, 32);
    let pool = rayon::ThreadPoolBuilder::new().num_threads(3).build().unwrap();
    for preflight in preflights(&samples, WIDTH) {
        pool.install(|| {
            let plan = PreflightPlan::new(&preflight, &mut Watch::quiet()).unwrap();
            let mut room = vec![u64::MAX; plan.exposure().words(3)];
            for call in [0, 1, 3, 6] {
                let mut exposure = vec![7; WIDTH * HEIGHT];
                let mut calls = 0;
                let mut tell = |_: f64| {
                    calls += 1;
                    if calls > call { Step::Stop } else { Step::GoOn }
                };
                match plan.exposure().expose(&mut exposure, &mut room, &mut Watch::new(&mut tell)) {
                    Ok(()) => assert!(calls <= call),
                    Err(Error::Stopped { .. }) => assert!(exposure.iter().all(|&level| level == 0)),
                    Err(other) => panic!("{other}"),
                }
            }
            let short = plan.exposure().words(1) - 1;
            let error = plan.exposure().expose(
                &mut vec![7; WIDTH * HEIGHT],
                &mut vec![0; short],
                &mut Watch::quiet(),
            );
            assert!(matches!(error, Err(Error::LengthMismatch { param: Param::Workspace, .. })));
        });
    }
}

/// The quick bound, with as much room as it asks for so many threads.
#[test]
fn a_quick_bound_is_the_same_bits() {
    let samples = strokes(WIDTH, HEIGHT, 11);
    let ink = Mask::from_fn(WIDTH, HEIGHT, |x, y| samples[y * WIDTH + x] >= 128);
    let told = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| {
            let input = input(&ink, (PITCH, 1.3 * PITCH), 3.0 * PITCH, 2.0);
            let mut masks = [(); 2].map(|()| mask_words(WIDTH, HEIGHT));
            let [marked, clear] = &mut masks;
            let mut marked = BitmapMut::new(marked, WIDTH, HEIGHT).unwrap();
            let mut clear = BitmapMut::new(clear, WIDTH, HEIGHT).unwrap();
            let mut room = vec![u64::MAX; quick_bound_words(&input, threads).unwrap()];
            let found = quick_bound(&input, &mut marked, &mut clear, &mut room, &mut Watch::quiet()).unwrap();
            (found, masks)
        })
    };
    let one = told(1);
    assert!(one.0.components > 0 && one.0.undecided > 0);
    assert_eq!(told(2), one);
    assert_eq!(told(3), one);
}

/// The quick answer, of a drawing that is in doubt and of one that is not.
#[test]
fn a_quick_answer_is_the_same() {
    let blocks: Vec<u8> =
        (0..WIDTH * HEIGHT).map(|n| 255 * u8::from(n % WIDTH % 60 < 40 && n / WIDTH % 50 < 30)).collect();
    for samples in [strokes(WIDTH, HEIGHT, 11), blocks] {
        let preflight = Preflight {
            drawing: burnt(&samples, WIDTH),
            exposing: level(2.0, Scan::Unknown),
            answer: Answer::Melt { bridge: 3.0 * PITCH },
            dose_ratio: 2.0,
            edge_tolerance: PITCH,
            speck_area: 0.0,
        };
        let told = |threads: usize| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| {
                let watch = &mut Watch::quiet();
                let mut room = vec![u64::MAX; quick_answer_words(&preflight, threads, watch).unwrap()];
                quick_answer(&preflight, &mut room, watch).unwrap()
            })
        };
        let one = told(1);
        assert_eq!(told(2), one);
        assert_eq!(told(3), one);
    }
}
