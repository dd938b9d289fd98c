//! Time of the fits to test pieces, of eleven readings each. `cargo bench --bench learn` prints divan's table.
//!
//! `-- --data` prints what is fitted, and `-- --seconds` how long one fit of it takes and what it finds; with these
//! `benches/peers/learn.py` holds the fits against SciPy's on the same data, in one run.
//!
//! Side by side in November 2026, one core of an AMD EPYC, curve_fit by its fastest call and from one good start:
//!
//! | fit of 11                           | here    | curve_fit | ratio |
//! |-------------------------------------|---------|-----------|-------|
//! | `fit_beam`, measured weights        | 0.45 µs | 147 µs    | 327   |
//! | `fit_beam`, refined weights         | 1.1 µs  | 133 µs    | 120   |
//! | `fit_threshold`                     | 0.55 µs | 109 µs    | 200   |
//! | `fit_mark_widths`, M² unknown       | 72 µs   | 299 µs    | 4     |
//!
//! Medians of 15 turns; the ratio of the first row ranged from 312 to 382. That one is 300 times as fast, which was the aim,
//! the others are not. Ranges, bias and chances are in these times, and not in curve_fit's. An outlier is looked for only
//! where χ² leaves room for one, in none of the first three rows; it takes 0.04 µs more. Refined weights take several fits,
//! one after the other, here seven; half of `fit_threshold` is logarithms, exponentials and error functions.
//! `fit_mark_widths` looks for its start on a grid of 20 places, and finds the best spot and dose for every one that it tries:
//! 19 µs. The rest is the search for the ranges, which χ² itself must tell for these marks: one power hardly tells spot from
//! dose. Where two powers do, there is no such search.
//!
//! Nothing here is a test: no run fails for being slow.

use divan::{Bencher, black_box};
use spotwise::model::learn::{
    BeamFitOptions, BeamReadings, MarkFitOptions, ReadingWeights, SeriesKnown, SeriesMarks, TestMarks,
    ThresholdFitOptions, WidthScatter, fit_beam, fit_mark_widths, fit_threshold,
};
use spotwise::model::mark::MarkKind;
use std::time::Instant;

/// Eleven heights about a focus at 0.1 mm, in metres.
const HEIGHTS: [f64; 11] =
    [-1.0e-3, -0.8e-3, -0.6e-3, -0.4e-3, -0.2e-3, 0.0, 0.2e-3, 0.4e-3, 0.6e-3, 0.8e-3, 1.0e-3];
/// Lines of a spot of 90 µm, zR = 0.5 mm, six times the threshold, and up to 4 µm off, in metres.
const MARK_WIDTHS: [f64; 11] =
    [133e-6, 124e-6, 112e-6, 100e-6, 91e-6, 83e-6, 86e-6, 88e-6, 103e-6, 111e-6, 127e-6];
/// A beam with a waist of 90 µm, zR = 0.4 mm, and up to 4 µm off, in metres.
const BEAM_DIAMETERS: [f64; 11] =
    [263e-6, 223e-6, 179e-6, 144e-6, 115e-6, 91e-6, 95e-6, 109e-6, 146e-6, 178e-6, 224e-6];
/// Eleven pulse energies, in joules.
const ENERGIES: [f64; 11] =
    [25e-6, 32e-6, 40e-6, 50e-6, 63e-6, 80e-6, 100e-6, 125e-6, 160e-6, 200e-6, 250e-6];
/// Dots of a spot of 60 µm with a threshold of 20 µJ, and up to 3 µm off, in metres.
const DOT_WIDTHS: [f64; 11] = [21e-6, 28e-6, 37e-6, 39e-6, 48e-6, 48e-6, 55e-6, 55e-6, 63e-6, 63e-6, 69e-6];
const DEVIATIONS: [f64; 11] = [3e-6; 11];

/// Height of the waist of the beam.
fn beam(weights: ReadingWeights) -> f64 {
    let readings = BeamReadings { heights: &HEIGHTS, diameters: &BEAM_DIAMETERS, deviations: &DEVIATIONS };
    let options = BeamFitOptions { weights, outlier_limit: 3.0, confidence: 0.95, mark_dose_ratio: 0.0 };
    let (mut residuals, mut used) = ([0.0; 11], [false; 11]);
    let fit = fit_beam(black_box(&readings), 10.6e-6, &options, &mut residuals, &mut used);
    fit.expect("the readings can be fitted").waist_z.least_squares()
}

/// Height of the waist that made the marks.
fn marks() -> f64 {
    let marks = SeriesMarks {
        heights: &HEIGHTS,
        widths: &MARK_WIDTHS,
        deviations: &DEVIATIONS,
        power_ratios: &[1.0; 11],
    };
    let known = SeriesKnown {
        kind: MarkKind::Line,
        wavelength: 10.6e-6,
        m2: f64::NAN,
        relative_m2_deviation: f64::INFINITY,
        waist_diameter: f64::NAN,
        relative_waist_diameter_deviation: f64::INFINITY,
    };
    let options = MarkFitOptions { outlier_limit: 3.0, confidence: 0.95, scatter: WidthScatter::Stated };
    let (mut residuals, mut used) = ([0.0; 11], [false; 11]);
    let fit = fit_mark_widths(black_box(&marks), &known, &options, &mut residuals, &mut used);
    fit.expect("the series can be fitted").waist_z.least_squares()
}

/// Threshold of the dots.
fn threshold() -> f64 {
    let dots = TestMarks { doses: &ENERGIES, widths: &DOT_WIDTHS, deviations: &DEVIATIONS };
    let options =
        ThresholdFitOptions { weights: ReadingWeights::Measured, outlier_limit: 3.0, confidence: 0.95 };
    let (mut residuals, mut used) = ([0.0; 11], [false; 11]);
    let fit = fit_threshold(black_box(&dots), &options, &mut residuals, &mut used);
    fit.expect("the dots can be fitted").threshold.least_squares()
}

/// A fit, what it is fitted to, and what it finds.
struct Fit {
    name: &'static str,
    places: [f64; 11],
    widths: [f64; 11],
    found: fn() -> f64,
}

const FITS: [Fit; 4] = [
    Fit {
        name: "fit_beam_measured",
        places: HEIGHTS,
        widths: BEAM_DIAMETERS,
        found: || beam(ReadingWeights::Measured),
    },
    Fit {
        name: "fit_beam_refined",
        places: HEIGHTS,
        widths: BEAM_DIAMETERS,
        found: || beam(ReadingWeights::Refined),
    },
    Fit { name: "fit_threshold", places: ENERGIES, widths: DOT_WIDTHS, found: threshold },
    Fit { name: "fit_mark_widths", places: HEIGHTS, widths: MARK_WIDTHS, found: marks },
];

impl std::fmt::Display for Fit {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.name)
    }
}

#[divan::bench(args = FITS)]
fn of_11(bencher: Bencher, fit: &Fit) {
    bencher.bench_local(fit.found);
}

/// Shortest time of one fit.
fn seconds(fit: &Fit) -> f64 {
    const RUNS: u32 = 200;
    let mut shortest = f64::INFINITY;
    for _ in 0..20 {
        let start = Instant::now();
        for _ in 0..RUNS {
            black_box((fit.found)());
        }
        shortest = shortest.min(start.elapsed().as_secs_f64() / f64::from(RUNS));
    }
    shortest
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let asked = |flag: &str| arguments.iter().any(|argument| argument == flag);
    if asked("--data") {
        for fit in &FITS {
            for ((place, width), deviation) in fit.places.iter().zip(fit.widths).zip(DEVIATIONS) {
                println!("{} {place:e} {width:e} {deviation:e}", fit.name);
            }
        }
    } else if asked("--seconds") {
        for fit in &FITS {
            println!("{} {:e} {:e}", fit.name, seconds(fit), (fit.found)());
        }
    } else {
        divan::main();
    }
}
