//! Time of the main calls. `cargo bench --bench focus` prints divan's table, and before it how
//! long `diameters_at` takes over the plainest loop that could do its work, `map_heights` over a naive loop and
//! one over `defocus`, and `wave_map` over point after point.
//!
//! Nothing here is a test: no run fails for being slow.

use divan::{Bencher, black_box};
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, RawBeam, focus_check};
use spotwise::model::focus::{DepthCriterion, defocus};
use spotwise::model::mark::contrast_at_pitch;
use spotwise::model::optics::{
    Beam, FocusMeasure, Glass, LensShape, Singlet, Wave, beam_parameters, diameters_at, focus_singlet,
    focus_through_lens, wave_focus, wave_irradiance, wave_map, wave_map_workspace, wave_widths,
};
use spotwise::model::surface::{HeightQuantity, in_focus_mask, map_heights};
use std::time::{Duration, Instant};

const BEAM: Beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
const PLACES: usize = 4096;

const JOB: Job = Job {
    wavelength: 10.6e-6,
    m2: 1.2,
    raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
    focal_length: 38.1e-3,
    lens: JobLens::Ideal,
    focus: FocusSetting::FromDatum { focus_z: 0.1e-3 },
    surface_rise: 0.3e-3,
    surface_fall: 0.3e-3,
    criterion: DepthCriterion::Rayleigh,
    finest_stroke: 0.1e-3,
    finest_gap: 0.1e-3,
    dose: JobDose::Ratio { dose_ratio: 2.7 },
    text: None,
};

/// The same job with the lens as it is.
const REAL_JOB: Job = Job {
    lens: JobLens::Singlet {
        glass: Glass::ZincSelenide,
        shape: LensShape::CurvedSideFirst,
        clear_aperture: 18e-3,
    },
    ..JOB
};

/// A beam through a 1.5 inch plano-convex lens of zinc selenide, 9 mm wide.
fn wave(m2: f64) -> Wave {
    Wave {
        wavelength: 10.6e-6,
        m2,
        diameter_at_lens: 9e-3,
        clear_aperture: 18e-3,
        lens_to_focus: 38.1e-3,
        aberration_phase: 0.5,
    }
}

/// Radii out to 0.25 mm and heights from 2 mm before the focus to 2 mm behind it, so many of each.
fn picture(side: usize) -> (Vec<f64>, Vec<f64>) {
    let share = |k: usize| k as f64 / (side - 1) as f64;
    let radii = (0..side).map(|k| share(k) * 0.25e-3).collect();
    let heights = (0..side).map(|k| (share(k) - 0.5) * 4e-3).collect();
    (radii, heights)
}

/// Places from 2 mm before the waist to 2 mm behind it.
fn places() -> Vec<f64> {
    (0..PLACES).map(|k| (k as f64 / (PLACES - 1) as f64 - 0.5) * 4e-3).collect()
}

/// What `diameters_at` computes, without a single check.
fn plain_loop(w0: f64, zr: f64, z: &[f64], out: &mut [f64]) {
    for (out, z) in out.iter_mut().zip(z) {
        let u = z / zr;
        *out = w0 * (1.0 + u * u).sqrt();
    }
}

fn main() {
    // Cargo says --bench when it means it; otherwise divan runs everything once, as a test.
    if std::env::args().any(|argument| argument == "--bench") {
        print_ratio();
        print_height_ratios();
        print_map_ratio();
    }
    divan::main();
}

/// Times two ways of doing the same in turns, so that a busy machine disturbs them alike, and prints the median
/// of the ratios.
fn print_side_by_side(what: &str, against: &str, mut ours: impl FnMut(), mut theirs: impl FnMut()) {
    const ROUNDS: usize = 201;
    const CALLS: u32 = 20;
    let time_of = |run: &mut dyn FnMut()| {
        let start = Instant::now();
        for _ in 0..CALLS {
            run();
        }
        start.elapsed()
    };
    let rounds: Vec<(Duration, Duration)> =
        (0..ROUNDS).map(|_| (time_of(&mut ours), time_of(&mut theirs))).collect();
    let mut ratios: Vec<f64> =
        rounds.iter().map(|(ours, theirs)| ours.as_secs_f64() / theirs.as_secs_f64()).collect();
    ratios.sort_by(f64::total_cmp);
    let least = |of: fn(&(Duration, Duration)) -> Duration| rounds.iter().map(of).min().unwrap();
    let per_place = |time: Duration| time.as_secs_f64() * 1e9 / f64::from(CALLS) / PLACES as f64;
    println!(
        "{what}, {PLACES} places: {:.2} times {against} (median; best {:.2} ns against {:.2} ns a place)",
        ratios[ROUNDS / 2],
        per_place(least(|round| round.0)),
        per_place(least(|round| round.1)),
    );
}

fn print_ratio() {
    let (z, mut out, mut plain) = (places(), vec![0.0; PLACES], vec![0.0; PLACES]);
    let zr = beam_parameters(&BEAM).unwrap().rayleigh_range;
    print_side_by_side(
        "diameters_at",
        "the plain loop",
        || {
            let _ = diameters_at(black_box(&BEAM), black_box(&z), black_box(&mut out)).unwrap();
        },
        || plain_loop(black_box(BEAM.waist_diameter), black_box(zr), black_box(&z), black_box(&mut plain)),
    );
}

/// A map of heights with a tenth of its places missing.
fn probed() -> Vec<f64> {
    places().into_iter().enumerate().map(|(k, z)| if k % 10 == 7 { f64::NAN } else { z }).collect()
}

/// What `map_heights` does of growth, one place after another: no checks, but counts and extremes.
fn naive_map(zr: f64, focus: f64, z: &[f64], out: &mut [f64]) -> (usize, Option<usize>, Option<usize>) {
    let (mut missing, mut least, mut greatest) = (0, None, None);
    for i in 0..z.len() {
        let u = (z[i] - focus) / zr;
        out[i] = (1.0 + u * u).sqrt();
        if out[i].is_nan() {
            missing += 1;
            continue;
        }
        if least.is_none_or(|so_far: usize| out[i] < out[so_far]) {
            least = Some(i);
        }
        if greatest.is_none_or(|so_far: usize| out[i] > out[so_far]) {
            greatest = Some(i);
        }
    }
    (missing, least, greatest)
}

fn print_height_ratios() {
    let (z, mut out, mut plain) = (probed(), vec![0.0; PLACES], vec![0.0; PLACES]);
    let zr = beam_parameters(&BEAM).unwrap().rayleigh_range;
    let mut map = || {
        let map = map_heights(black_box(&BEAM), 0.1e-3, HeightQuantity::Growth, black_box(&z), &mut out);
        black_box(map.unwrap());
    };
    print_side_by_side("map_heights of growth", "a naive loop", &mut map, || {
        black_box(naive_map(black_box(zr), 0.1e-3, black_box(&z), black_box(&mut plain)));
    });
    print_side_by_side("map_heights of growth", "a loop over defocus", &mut map, || {
        for &z in black_box(&z) {
            black_box(defocus(black_box(&BEAM), z - 0.1e-3).map_or(f64::NAN, |there| there.growth));
        }
    });
    let (mut bits, mut plain) = (vec![false; PLACES], vec![false; PLACES]);
    print_side_by_side(
        "in_focus_mask",
        "a naive loop",
        || {
            let criterion = DepthCriterion::Rayleigh;
            black_box(in_focus_mask(black_box(&BEAM), 0.1e-3, criterion, black_box(&z), &mut bits).unwrap());
        },
        || {
            let (least, greatest) = (0.1e-3 - black_box(zr), 0.1e-3 + black_box(zr));
            for (out, &z) in black_box(&mut plain).iter_mut().zip(black_box(&z)) {
                *out = least <= z && z <= greatest;
            }
        },
    );
}

/// Times a map and the same points one after another, in turns, and prints the median of the ratios.
fn print_map_ratio() {
    const ROUNDS: usize = 11;
    const SIDE: usize = 24;
    for m2 in [1.0, 1.5] {
        let wave = wave(m2);
        let (radii, heights) = picture(SIDE);
        let mut workspace = vec![0.0; wave_map_workspace(&wave, &radii, &heights).unwrap()];
        let mut out = vec![0.0; SIDE * SIDE];
        let mut ratios: Vec<f64> = (0..ROUNDS)
            .map(|_| {
                let start = Instant::now();
                wave_map(black_box(&wave), &radii, &heights, &mut workspace, &mut out).unwrap();
                let map = start.elapsed();
                let start = Instant::now();
                for z in &heights {
                    for radius in &radii {
                        black_box(wave_irradiance(black_box(&wave), *radius, *z).unwrap());
                    }
                }
                start.elapsed().as_secs_f64() / map.as_secs_f64()
            })
            .collect();
        ratios.sort_by(f64::total_cmp);
        println!(
            "wave_map, {SIDE} by {SIDE}, M2 = {m2}: {:.1} times as fast as point after point (median)",
            ratios[ROUNDS / 2]
        );
    }
}

#[divan::bench]
fn check_a_job_with_a_real_lens(bencher: Bencher) {
    bencher.bench(|| focus_check(black_box(&REAL_JOB)));
}

#[divan::bench]
fn singlet(bencher: Bencher) {
    let raw = Beam { waist_diameter: 9e-3, ..BEAM };
    let lens = Singlet { index: 2.4028, shape: LensShape::BestForm, focal_length: 38.1e-3 };
    bencher.bench(|| focus_singlet(black_box(&raw), black_box(0.8), black_box(&lens), black_box(18e-3)));
}

#[divan::bench(args = [1.0, 1.5])]
fn widths_of_a_wave(bencher: Bencher, m2: f64) {
    bencher.bench(|| wave_widths(black_box(&wave(m2)), black_box(-0.3e-3)));
}

#[divan::bench(args = [1.0, 1.5])]
fn best_focus_of_a_wave(bencher: Bencher, m2: f64) {
    bencher.bench(|| wave_focus(black_box(&wave(m2)), black_box(FocusMeasure::Power86)));
}

/// The live picture: 128 by 128 points.
#[divan::bench(args = [1.0, 1.5])]
fn map_of_a_wave(bencher: Bencher, m2: f64) {
    let (radii, heights) = picture(128);
    let mut workspace = vec![0.0; wave_map_workspace(&wave(m2), &radii, &heights).unwrap()];
    let mut out = vec![0.0; 128 * 128];
    bencher
        .bench_local(|| wave_map(black_box(&wave(m2)), &radii, &heights, &mut workspace, &mut out).unwrap());
}

#[divan::bench]
fn check_a_job(bencher: Bencher) {
    bencher.bench(|| focus_check(black_box(&JOB)));
}

#[divan::bench]
fn defocus_of_a_beam(bencher: Bencher) {
    bencher.bench(|| defocus(black_box(&BEAM), black_box(0.5e-3)));
}

#[divan::bench]
fn lens(bencher: Bencher) {
    let raw = Beam { waist_diameter: 5e-3, ..BEAM };
    bencher.bench(|| focus_through_lens(black_box(&raw), black_box(1.5), black_box(50e-3)));
}

/// At a coarse pitch, where the sum of erfc serves, and at a fine one, where that of exp does.
#[divan::bench(args = [300e-6, 100e-6])]
fn contrast(bencher: Bencher, pitch: f64) {
    bencher.bench(|| contrast_at_pitch(black_box(100e-6), black_box(pitch)));
}

#[divan::bench]
fn diameters_of_many_places(bencher: Bencher) {
    let z = places();
    let mut out = vec![0.0; PLACES];
    bencher
        .counter(divan::counter::ItemsCount::new(PLACES))
        .bench_local(|| diameters_at(black_box(&BEAM), black_box(&z), black_box(&mut out)).unwrap());
}

#[divan::bench]
fn diameters_by_a_plain_loop(bencher: Bencher) {
    let z = places();
    let mut out = vec![0.0; PLACES];
    let zr = beam_parameters(&BEAM).unwrap().rayleigh_range;
    bencher.counter(divan::counter::ItemsCount::new(PLACES)).bench_local(|| {
        plain_loop(black_box(BEAM.waist_diameter), black_box(zr), black_box(&z), black_box(&mut out));
    });
}

#[divan::bench]
fn map_of_heights(bencher: Bencher) {
    let (z, mut out) = (probed(), vec![0.0; PLACES]);
    bencher.counter(divan::counter::ItemsCount::new(PLACES)).bench_local(|| {
        map_heights(black_box(&BEAM), 0.1e-3, HeightQuantity::Growth, black_box(&z), &mut out).unwrap()
    });
}

#[divan::bench]
fn mask_of_heights(bencher: Bencher) {
    let (z, mut in_focus) = (probed(), vec![false; PLACES]);
    bencher.counter(divan::counter::ItemsCount::new(PLACES)).bench_local(|| {
        in_focus_mask(black_box(&BEAM), 0.1e-3, DepthCriterion::Rayleigh, black_box(&z), &mut in_focus)
            .unwrap()
    });
}
