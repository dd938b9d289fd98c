//! Time and memory of the preflight of a page of text, 4096 by 4096 pixels, for a spot radius of 6 pixels (the blur of a
//! Gaussian with σ = 3 pixels). `cargo bench --bench preflight --features artwork` prints divan's table, and before it
//! the whole and its steps; `--features parallel` adds what a second thread gains. `benches/peers/preflight.py`
//! runs this program and the same work done by OpenCV and SciPy in turns.
//!
//! Nothing here is a test: no run fails for being slow.

use divan::{Bencher, black_box};
use spotwise::Param;
use spotwise::artwork::{
    Answer, Bitmap, BitmapMut, Change, Disc, Drawing, DrawingUse, Exposing, ExposurePlan, Nearest,
    PictureLayers, PictureView, Preflight, PreflightOutput, PreflightPlan, QuickVerdict, Region,
    RegionFinder, Report, Ruler, SampleKind, Scan, Side, Step, Topology, Watch, centre_line,
    centre_line_words, compare, compare_words, disc_words, distances, distances_words, draw_picture, filled,
    find_parts, label_ink, label_words, lost, parts_words, quick_answer, quick_answer_words, region_words,
    usual_edge_tolerance, widths, widths_words, words_in_row,
};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Bulge, Surface};
use std::f64::consts::FRAC_PI_2;
use std::io::BufRead;
use std::process::Command;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

const PITCH: f64 = 12.5e-6;
/// A spot radius of 6 pixels.
const BEAM: Beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 12.0 * PITCH };
const FLAT: Surface<'static> = Surface::Plane { slope_x: 0.0, slope_y: 0.0 };
const SIDE: usize = 4096;

/// The upper left of a page, so large that it fills a page of the same size; each pixel ink or bare.
fn enlarged(samples: &[u8], width: usize) -> Vec<u8> {
    const TIMES: usize = 5;
    let ink = |x: usize, y: usize| samples[y / TIMES * width + x / TIMES] >= 128;
    let row = |y: usize| (0..width).map(move |x| 255 * u8::from(ink(x, y)));
    (0..samples.len() / width).flat_map(row).collect()
}

/// Ink by the pixel, 255 for all of it: lines of text cut from the plate of the main job, over and over.
fn page(width: usize, height: usize) -> Vec<u8> {
    const PLATE: &[u8] = include_bytes!("../examples/focus_check/rain_gauge_plate.png");
    /// Rows of a line of text on the plate, and columns of two sentences in 3 and in 4 point type.
    const TOP: usize = 1130;
    const LINE: usize = 140;
    const SENTENCES: [[usize; 2]; 2] = [[60, 1150], [2820, 6480]];
    let mut reader = png::Decoder::new(std::io::Cursor::new(PLATE)).read_info().expect("a picture");
    let mut plate = vec![0; reader.output_buffer_size().expect("a size")];
    let plate_width = reader.next_frame(&mut plate).expect("a picture").width as usize;
    (0..width * height)
        .map(|pixel| {
            let (x, y) = (pixel % width, pixel / width);
            let [from, to] = SENTENCES[y / LINE % 2];
            255 - plate[(TOP + y % LINE) * plate_width + from + x % (to - from)]
        })
        .collect()
}

/// Grey by the pixel without any order, so that nothing is left out for being blank.
fn noise(pixels: usize) -> Vec<u8> {
    (0..pixels as u32).map(|pixel| (pixel.wrapping_mul(2_654_435_761) >> 24) as u8).collect()
}

/// A plate that is bowed toward the lens by about a Rayleigh range, focused on its crown.
fn bowed(width: usize) -> Surface<'static> {
    let half = 0.5 * width as f64 * PITCH;
    Surface::Cylinder {
        radius: half * half / (2.0 * 1.39e-3),
        bulge: Bulge::TowardLens,
        crown_x: half,
        crown_y: 0.0,
        axis_angle: FRAC_PI_2,
        slope_x: 0.0,
        slope_y: 0.0,
    }
}

/// The check of a page.
fn preflight<'p>(samples: &'p [u8], width: usize, surface: Surface<'p>) -> Preflight<'p> {
    Preflight {
        drawing: Drawing {
            samples,
            width,
            height: samples.len() / width,
            row_stride: width,
            pitch_x: PITCH,
            pitch_y: PITCH,
            left_x: 0.0,
            top_y: 0.0,
            kind: SampleKind::Coverage,
            drawing_use: DrawingUse::BurntRaster,
        },
        exposing: Exposing {
            beam: BEAM,
            focus_z: 0.0,
            surface,
            incidence_loss: true,
            blur_along: 0.0,
            blur_across: 0.0,
            scan: Scan::Unknown,
        },
        answer: Answer::Coating,
        dose_ratio: 2.5,
        edge_tolerance: usual_edge_tolerance(&BEAM),
        speck_area: 0.0,
    }
}

/// What a preflight writes and works in.
struct Desk<'p> {
    plan: PreflightPlan<'p>,
    exposure: Vec<u16>,
    mark: Vec<u64>,
    lost: Vec<u64>,
    filled: Vec<u64>,
    lost_regions: Vec<Region<f64>>,
    filled_regions: Vec<Region<f64>>,
    changes: Vec<Change>,
    room: Vec<u64>,
}

impl<'p> Desk<'p> {
    fn new(preflight: &Preflight<'p>, threads: usize) -> Self {
        let plan = PreflightPlan::new(preflight, &mut Watch::quiet()).expect("a preflight");
        let Drawing { width, height, .. } = preflight.drawing;
        let words = words_in_row(width) * height;
        let room = vec![0; plan.words(threads)];
        Desk {
            plan,
            exposure: vec![0; width * height],
            mark: vec![0; words],
            lost: vec![0; words],
            filled: vec![0; words],
            lost_regions: vec![Region::default(); 100],
            filled_regions: vec![Region::default(); 100],
            changes: vec![Change::NONE; 100],
            room,
        }
    }

    fn run(&mut self, width: usize) -> Report {
        self.run_under(width, &mut Watch::quiet())
    }

    fn run_under(&mut self, width: usize, watch: &mut Watch<'_>) -> Report {
        let height = self.exposure.len() / width;
        let mut output = PreflightOutput {
            exposure: &mut self.exposure,
            mark: mask(&mut self.mark, width, height),
            lost: mask(&mut self.lost, width, height),
            filled: mask(&mut self.filled, width, height),
            lost_regions: &mut self.lost_regions,
            filled_regions: &mut self.filled_regions,
            changes: &mut self.changes,
        };
        self.plan.run(&mut output, &mut self.room, watch).expect("a report")
    }

    /// Bytes of all that is written and worked in.
    fn bytes(&self) -> usize {
        2 * self.exposure.len() + 8 * (3 * self.mark.len() + self.room.len())
    }
}

fn mask(words: &mut [u64], width: usize, height: usize) -> BitmapMut<'_> {
    BitmapMut::new(words, width, height).expect("as many words as the size says")
}

/// Pixels that are ink, as a mask.
fn ink_of(samples: &[u8], width: usize) -> Vec<u64> {
    let words = samples.chunks(width).flat_map(|row| row.chunks(64));
    words
        .map(|word| (0..).zip(word).fold(0, |bits, (place, &s)| bits | u64::from(s >= 128) << place))
        .collect()
}

/// Time that this thread has had of the processor, where the system tells it (Linux), so that a busy machine disturbs
/// little; elsewhere the time of day.
fn clock() -> Duration {
    static START: OnceLock<Instant> = OnceLock::new();
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let busy = told.and_then(|line| line.split(' ').next().and_then(|time| time.parse().ok()));
    busy.map_or_else(|| START.get_or_init(Instant::now).elapsed(), Duration::from_nanos)
}

/// Time of one call, from as many as make the clock's ticks of some milliseconds small.
fn time_of(run: &mut dyn FnMut()) -> Duration {
    let start = clock();
    let mut calls = 0;
    loop {
        run();
        calls += 1;
        let time = clock() - start;
        if time >= Duration::from_millis(100) {
            return time / calls;
        }
    }
}

/// The median of some ratios.
fn median(mut ratios: Vec<f64>) -> f64 {
    ratios.sort_by(f64::total_cmp);
    ratios[ratios.len() / 2]
}

const ROUNDS: usize = 7;

fn main() {
    let said = |argument: &str| std::env::args().any(|one| one == argument);
    if said("--memory") {
        return alone(print_memory);
    }
    #[cfg(feature = "parallel")]
    if said("--threads") {
        return print_threads();
    }
    if said("--gaps") {
        return print_gaps();
    }
    if said("--quick") {
        return alone(print_quick_answers);
    }
    if said("--turns") {
        return alone(take_turns);
    }
    // Cargo says --bench when it means it; otherwise divan runs everything once, as a test.
    if said("--bench") {
        alone(print_steps);
        alone(print_ratios);
        alone(print_quick_answers);
        #[cfg(feature = "parallel")]
        print_threads();
        print_gaps();
        let this = std::env::current_exe().expect("this program");
        Command::new(this).arg("--memory").status().expect("this program again");
    }
    divan::main();
}

/// Runs this on one thread, whatever the features.
fn alone(run: impl FnOnce() + Send) {
    #[cfg(feature = "parallel")]
    rayon::ThreadPoolBuilder::new().num_threads(1).build().expect("a thread").install(run);
    #[cfg(not(feature = "parallel"))]
    run();
}

/// The steps of a preflight, each by itself, over the same page.
struct Steps<'p> {
    preflight: Preflight<'p>,
    exposure_plan: ExposurePlan<'p>,
    noise_plan: ExposurePlan<'p>,
    ink: Vec<u64>,
    /// After a run, so that masks and exposure are there.
    desk: Desk<'p>,
    out: Vec<u64>,
    /// For what is known of the drawing, and for the step.
    parts_room: Vec<u64>,
    room: Vec<u64>,
    ruler: Ruler,
    depths: Ruler,
    tolerance: Disc,
}

impl<'p> Steps<'p> {
    fn new(preflight: Preflight<'p>, noise: &'p [u8]) -> Self {
        let Drawing { samples, width, height, .. } = preflight.drawing;
        let mut desk = Desk::new(&preflight, 1);
        desk.run(width);
        let noise = Drawing { samples: noise, ..preflight.drawing };
        let plan =
            |drawing| ExposurePlan::new(drawing, &preflight.exposing, &mut Watch::quiet()).expect("a plan");
        let exposure_plan = plan(&preflight.drawing);
        let reach = (3.0 * exposure_plan.most_pixels_per_radius()).ceil() as u8;
        let ruler = |reach| Ruler::new(PITCH, PITCH, reach).expect("a ruler");
        let (ruler, depths) = (ruler(reach), ruler(255));
        let tolerance =
            Disc::new(preflight.edge_tolerance, PITCH, PITCH, Param::EdgeTolerance).expect("a disc");
        let room = [
            exposure_plan.words(1),
            centre_line_words(width, height, &ruler),
            widths_words(width, height, &ruler),
            disc_words(width, height, &tolerance),
            region_words::<f64>(width, height) + distances_words(width, height, &depths),
            compare_words(width, height),
            label_words(width, height),
        ];
        Steps {
            preflight,
            noise_plan: plan(&noise),
            exposure_plan,
            ink: ink_of(samples, width),
            out: desk.mark.clone(),
            desk,
            parts_room: vec![0; parts_words(width, height)],
            room: vec![0; room.into_iter().fold(0, usize::max)],
            ruler,
            depths,
            tolerance,
        }
    }

    /// Does one step; the whole if it is not known.
    fn step(&mut self, name: &str) {
        let Drawing { width, height, .. } = self.preflight.drawing;
        let quiet = &mut Watch::quiet();
        let read = |words| Bitmap::new(words, width, height).expect("as many words as the size says");
        let (ink, mark) = (read(&self.ink), read(&self.desk.mark));
        let room = &mut self.room[..];
        let mut out = mask(&mut self.out, width, height);
        match name {
            "plan" => {
                black_box(PreflightPlan::new(&self.preflight, quiet).expect("a plan"));
            }
            "exposure" => self.exposure_plan.expose(&mut self.desk.exposure, room, quiet).expect("room"),
            "exposure of noise" => {
                self.noise_plan.expose(&mut self.desk.exposure, room, quiet).expect("room")
            }
            "parts and topology" => {
                let parts = find_parts(&ink, &mut self.parts_room, quiet).expect("parts");
                black_box(compare(&parts, &mark, room, &mut self.desk.changes, quiet).expect("room"));
            }
            "lost and filled" => {
                lost(ink, mark, &self.tolerance, &mut out, room, quiet).expect("room");
                filled(ink, mark, &self.tolerance, &mut out, room, quiet).expect("room");
            }
            "regions" => {
                let own = region_words::<f64>(width, height);
                for (area, nearest) in [(&self.desk.lost, Nearest::Set), (&self.desk.filled, Nearest::Clear)]
                {
                    let (own, room) = room.split_at_mut(own);
                    let mut finder = RegionFinder::<f64>::new(width, height, own).expect("room");
                    let area = read(area);
                    distances(mark, nearest, Some(area), &self.depths, room, quiet, |y, row| {
                        finder.row(area.row(y), |x| row.metres(x));
                    })
                    .expect("room");
                    finder.finish(&mut self.desk.lost_regions, quiet).expect("regions");
                }
            }
            "centre-line" => {
                black_box(centre_line(ink, Side::Ink, &self.ruler, &mut out, room, quiet).expect("room"));
            }
            "widths" => {
                for side in [Side::Ink, Side::Ground] {
                    black_box(widths(ink, mark, side, &self.ruler, room, quiet).expect("room"));
                }
            }
            "distances" => {
                let ruler = Ruler::new(PITCH, PITCH, 16).expect("a ruler");
                let take = |_: usize, row: spotwise::artwork::DistanceRow<'_>| {
                    black_box(row.pixels());
                };
                distances(ink, Nearest::Set, None, &ruler, room, quiet, take).expect("room");
            }
            "labels" => {
                black_box(label_ink(&ink, room, quiet).expect("labels"));
            }
            _ => {
                black_box(self.desk.run(width));
            }
        }
    }
}

/// The whole and its steps, the least time of a few rounds.
fn print_steps() {
    let samples = page(SIDE, SIDE);
    let noise = noise(SIDE * SIDE);
    let mut steps = Steps::new(preflight(&samples, SIDE, FLAT), &noise);
    let parts = ["exposure", "parts and topology", "lost and filled", "regions", "centre-line", "widths"];
    println!("A page of {SIDE} by {SIDE} pixels, one thread, least of {ROUNDS} rounds:");
    let time = |steps: &mut Steps<'_>, name: &str| {
        let times = (0..ROUNDS).map(|_| time_of(&mut || steps.step(name)));
        let seconds = times.min().unwrap().as_secs_f64();
        println!("  {name}: {:.1} ms, {:.0} Mpx/s", seconds * 1e3, (SIDE * SIDE) as f64 * 1e-6 / seconds);
        seconds
    };
    let whole = time(&mut steps, "whole preflight");
    let sum: f64 = parts.iter().map(|name| time(&mut steps, name)).sum();
    println!("  the rest (ink, mark, median, counts): {:.1} ms", (whole - sum) * 1e3);
    time(&mut steps, "plan");
    time(&mut steps, "labels");
    println!("Exposure of a page without a blank pixel:");
    time(&mut steps, "exposure of noise");
    println!("Distances up to 16 pixels, with nothing left out:");
    time(&mut steps, "distances");
}

fn print_ratios() {
    let samples = page(SIDE, SIDE);
    let mut flat = Desk::new(&preflight(&samples, SIDE, FLAT), 1);
    let mut bent = Desk::new(&preflight(&samples, SIDE, bowed(SIDE)), 1);
    let time = |desk: &mut Desk<'_>| {
        time_of(&mut || {
            black_box(desk.run(SIDE));
        })
    };
    let rounds: Vec<(Duration, Duration)> = (0..ROUNDS).map(|_| (time(&mut bent), time(&mut flat))).collect();
    println!(
        "On a bowed plate: {:.2} times a flat one (median; least {:.1} ms)",
        median(rounds.iter().map(|(bent, flat)| bent.as_secs_f64() / flat.as_secs_f64()).collect()),
        rounds.iter().map(|round| round.0).min().unwrap().as_secs_f64() * 1e3,
    );
    let window = time_of(&mut || {
        black_box(
            flat.plan.dose_window(&flat.exposure, &mut flat.room, &mut Watch::quiet()).expect("a window"),
        );
    });
    println!("Dose window: {:.0} ms, {:.1} times the preflight", window.as_secs_f64() * 1e3, {
        window.as_secs_f64() / rounds.iter().map(|round| round.1).min().unwrap().as_secs_f64()
    });
    let (width, height) = PREVIEW;
    let mut preview = Preview::new(&samples);
    let least = (0..ROUNDS).map(|_| time_of(&mut || preview.draw())).min().unwrap();
    println!(
        "Preview of {width} by {height}, plan, preflight and picture: {:.1} ms",
        least.as_secs_f64() * 1e3
    );
}

const PREVIEW: (usize, usize) = (1200, 800);

/// What a slider redraws: the corner of a page.
struct Preview<'p> {
    preflight: Preflight<'p>,
    ink: Vec<u64>,
    desk: Desk<'p>,
    rgba: Vec<u8>,
}

impl<'p> Preview<'p> {
    fn new(samples: &'p [u8]) -> Self {
        let (width, height) = PREVIEW;
        let mut preflight = preflight(samples, SIDE, FLAT);
        (preflight.drawing.width, preflight.drawing.height) = PREVIEW;
        let mut ink = Vec::new();
        for row in samples.chunks(SIDE).take(height) {
            ink.extend(ink_of(&row[..width], width));
        }
        let view = PictureView::whole(width, height, 1);
        let rgba = vec![0; view.bytes().expect("a size")];
        Preview { preflight, ink, desk: Desk::new(&preflight, 1), rgba }
    }

    fn draw(&mut self) {
        let (width, height) = PREVIEW;
        self.desk.plan = PreflightPlan::new(&self.preflight, &mut Watch::quiet()).expect("a plan");
        self.desk.run(width);
        let read = |words| Bitmap::new(words, width, height).expect("as many words as the size says");
        let layers = PictureLayers {
            ink: read(&self.ink),
            mark: read(&self.desk.mark),
            lost: read(&self.desk.lost),
            filled: read(&self.desk.filled),
            unknown: None,
        };
        draw_picture(&layers, &PictureView::whole(width, height, 1), &mut self.rgba).expect("a picture");
    }
}

/// The quick answer against the whole preflight with its plan, in turns.
fn print_quick_answers() {
    println!("Quick answer against plan and whole preflight (median of ratios; least times):");
    for (width, height) in [PREVIEW, (SIDE, SIDE)] {
        let small = page(width, height);
        for (text, samples) in [("small", &small), ("large", &enlarged(&small, width))] {
            for (what, surface) in [("flat", FLAT), ("bowed", bowed(width))] {
                let preflight = preflight(samples, width, surface);
                let mut desk = Desk::new(&preflight, 1);
                let mut room =
                    vec![0; quick_answer_words(&preflight, 1, &mut Watch::quiet()).expect("words")];
                let mut verdict = QuickVerdict::Unsure;
                let rounds: Vec<(f64, f64)> = (0..ROUNDS)
                    .map(|_| {
                        let quick = time_of(&mut || {
                            let found = quick_answer(&preflight, &mut room, &mut Watch::quiet());
                            verdict = found.expect("an answer").verdict;
                        });
                        let whole = time_of(&mut || {
                            desk.plan = PreflightPlan::new(&preflight, &mut Watch::quiet()).expect("a plan");
                            black_box(desk.run(width));
                        });
                        (quick.as_secs_f64(), whole.as_secs_f64())
                    })
                    .collect();
                let least = |of: fn(&(f64, f64)) -> f64| rounds.iter().map(of).fold(f64::MAX, f64::min) * 1e3;
                println!(
                    "  {width} by {height}, {text} text, {what}, {}: {:.1} times as fast, {:.2} ms against {:.2} ms",
                    verdict.name(),
                    median(rounds.iter().map(|(quick, whole)| whole / quick).collect()),
                    least(|round| round.0),
                    least(|round| round.1),
                );
            }
        }
    }
}

/// Two threads against one, by the time of day: the ratio means little on a busy machine, so that `--threads` prints
/// it alone in a quiet moment.
#[cfg(feature = "parallel")]
fn print_threads() {
    let samples = page(SIDE, SIDE);
    let p = preflight(&samples, SIDE, FLAT);
    let pool = |threads| rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
    let (one, two) = (pool(1), pool(2));
    let (mut alone, mut both) = (Desk::new(&p, 1), Desk::new(&p, 2));
    let time = |pool: &rayon::ThreadPool, desk: &mut Desk<'_>| {
        let start = Instant::now();
        pool.install(|| black_box(desk.run(SIDE)));
        start.elapsed().as_secs_f64()
    };
    let rounds: Vec<(f64, f64)> =
        (0..3 * ROUNDS).map(|_| (time(&one, &mut alone), time(&two, &mut both))).collect();
    let least = |of: fn(&(f64, f64)) -> f64| rounds.iter().map(of).fold(f64::MAX, f64::min);
    println!(
        "Two threads: {:.2} times as fast as one (median; best {:.1} ms against {:.1} ms)",
        median(rounds.iter().map(|(one, two)| one / two).collect()),
        least(|round| round.1) * 1e3,
        least(|round| round.0) * 1e3,
    );
}

/// How long at the most an order to stop waits until it is asked for: the longest time between two questions of a plan,
/// a preflight, a dose window and a quick answer, of a few rounds the least, so that a busy machine disturbs little.
fn print_gaps() {
    let page = |width, height| preflight_of(page(width, height), width);
    let oblong = |mut p: Preflight<'static>| {
        // Unequal pitches, and spots so wide that distances are looked for as far as they ever are.
        p.drawing.pitch_y *= 1.2;
        p.exposing.beam.waist_diameter = 200.0 * PITCH;
        p
    };
    let square = page(SIDE, SIDE);
    let wide = page(65_535, 256);
    let bent = |p: Preflight<'static>, width| Preflight {
        exposing: Exposing { surface: bowed(width), ..p.exposing },
        ..p
    };
    let bridge = |p| Preflight { answer: Answer::Melt { bridge: 400.0 * PITCH }, ..p };
    println!(
        "Longest between two questions whether to go on, of plan, preflight, dose window and quick answer:"
    );
    for (what, preflight) in [
        ("4096 by 4096", square),
        ("… on a bowed plate", bent(square, SIDE)),
        ("… with a bridge of 400 pixels", bridge(square)),
        ("… with oblong pixels, spot radius 100 pixels, and that bridge", bridge(oblong(square))),
        ("65535 by 256", wide),
        ("… on a bowed plate", bent(wide, 65_535)),
        ("… with a bridge of 400 pixels", bridge(wide)),
        ("… with oblong pixels, spot radius 100 pixels, and that bridge", bridge(oblong(wide))),
    ] {
        let gaps = || {
            (0..3)
                .map(|_| gaps(&preflight))
                .fold([f64::MAX; 4], |least, gaps| [0, 1, 2, 3].map(|step| f64::min(least[step], gaps[step])))
        };
        #[cfg(feature = "parallel")]
        for threads in [1, 2] {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
            println!("  {what}, threads {threads}: {:.1?} ms", pool.install(gaps));
        }
        #[cfg(not(feature = "parallel"))]
        println!("  {what}: {:.1?} ms", gaps());
    }
}

/// A check of samples that last as long as the program.
fn preflight_of(samples: Vec<u8>, width: usize) -> Preflight<'static> {
    preflight(samples.leak(), width, FLAT)
}

/// The longest milliseconds between two questions of a plan, a preflight, a dose window and a quick answer, their ends
/// included.
fn gaps(preflight: &Preflight<'_>) -> [f64; 4] {
    let timed = |work: &mut dyn FnMut(&mut Watch<'_>)| {
        let (mut last, mut longest) = (Instant::now(), Duration::ZERO);
        let mut tell = |_: f64| {
            longest = longest.max(last.elapsed());
            last = Instant::now();
            Step::GoOn
        };
        work(&mut Watch::new(&mut tell));
        longest.max(last.elapsed()).as_secs_f64() * 1e3
    };
    let width = preflight.drawing.width;
    let threads = spotwise::artwork::threads();
    let mut desk = Desk::new(preflight, threads);
    let mut quick = vec![0; quick_answer_words(preflight, threads, &mut Watch::quiet()).expect("words")];
    [
        timed(&mut |watch| desk.plan = PreflightPlan::new(preflight, watch).expect("a plan")),
        timed(&mut |watch| {
            black_box(desk.run_under(width, watch));
        }),
        timed(&mut |watch| {
            black_box(desk.plan.dose_window(&desk.exposure, &mut desk.room, watch).expect("a window"));
        }),
        timed(&mut |watch| {
            black_box(quick_answer(preflight, &mut quick, watch).expect("an answer"));
        }),
    ]
}

/// Memory for a page of 8192 by 8192: what is stated, and the most that the system gave this process (Linux).
fn print_memory() {
    const LARGE: usize = 8192;
    const MB: f64 = 1e-6;
    let samples = page(LARGE, LARGE);
    let mut desk = Desk::new(&preflight(&samples, LARGE, FLAT), 1);
    desk.run(LARGE);
    let window = desk.plan.dose_window(&desk.exposure, &mut desk.room, &mut Watch::quiet());
    black_box(window.expect("a window"));
    let stated = samples.len() + desk.bytes();
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or(" not told");
    println!(
        "{LARGE} by {LARGE}: {:.0} MB stated, drawing, output and room together; most in use: {}",
        stated as f64 * MB,
        most.trim_start()
    );
}

/// Answers a program that measures the same work done by others: writes the page to a file, says where, and then does
/// each step that is named on a line, telling how many nanoseconds it took and what was found.
fn take_turns() {
    let samples = page(SIDE, SIDE);
    let noise = noise(SIDE * SIDE);
    let file = std::env::current_exe().expect("this program").with_file_name("page_of_text.raw");
    std::fs::write(&file, &samples).expect("a file for the page");
    println!("{} {SIDE} {SIDE} {}", file.display(), preflight(&samples, SIDE, FLAT).dose_ratio);
    let mut steps = Steps::new(preflight(&samples, SIDE, FLAT), &noise);
    let report = steps.desk.run(SIDE);
    let Topology {
        components_drawing,
        components_mark,
        components_lost,
        components_split,
        components_merged,
        components_new,
        holes_drawing,
        holes_mark,
        holes_closed,
        holes_opened,
        holes_split,
        holes_merged,
        holes_new,
        ..
    } = report.topology;
    let pixels = [report.ink_pixels, report.mark_pixels, report.lost.pixels, report.filled.pixels];
    let pieces = [
        components_drawing,
        components_mark,
        components_lost,
        components_split,
        components_merged,
        components_new,
    ];
    let holes = [holes_drawing, holes_mark, holes_closed, holes_opened, holes_split, holes_merged, holes_new];
    println!("{pixels:?} {pieces:?} {holes:?} {}", report.components_starved);
    for line in std::io::stdin().lock().lines() {
        let name = line.expect("a line");
        println!("{}", time_of(&mut || steps.step(&name)).as_nanos());
    }
}

#[divan::bench(sample_count = 5)]
fn flat_page(bencher: Bencher) {
    let samples = page(SIDE, SIDE);
    let mut desk = Desk::new(&preflight(&samples, SIDE, FLAT), 1);
    bencher.bench_local(|| desk.run(SIDE));
}

#[divan::bench(sample_count = 5)]
fn bowed_page(bencher: Bencher) {
    let samples = page(SIDE, SIDE);
    let mut desk = Desk::new(&preflight(&samples, SIDE, bowed(SIDE)), 1);
    bencher.bench_local(|| desk.run(SIDE));
}

#[divan::bench(sample_count = 20)]
fn preview(bencher: Bencher) {
    let samples = page(SIDE, SIDE);
    let mut preview = Preview::new(&samples);
    bencher.bench_local(|| preview.draw());
}

#[divan::bench(sample_count = 20, args = ["exposure", "exposure of noise", "distances", "labels"])]
fn step(bencher: Bencher, name: &str) {
    let samples = page(SIDE, SIDE);
    let noise = noise(SIDE * SIDE);
    let mut steps = Steps::new(preflight(&samples, SIDE, FLAT), &noise);
    bencher.bench_local(|| steps.step(name));
}
