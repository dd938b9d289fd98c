//! Time of the fits to test pieces. `cargo bench --bench learn` prints divan's table.
//!
//! `-- --series` prints the series of marks that is fitted, and `-- --seconds` how long one fit of it takes; with
//! these `benches/peers/learn.py` holds the fit against SciPy's on the same marks, in one run.
//!
//! Nothing here is a test: no run fails for being slow.

use divan::{Bencher, black_box};
use spotwise::model::learn::{MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter, fit_mark_widths};
use spotwise::model::mark::MarkKind;
use std::time::Instant;

/// Eleven heights about a focus at 0.1 mm, in metres.
const HEIGHTS: [f64; 11] =
    [-1.0e-3, -0.8e-3, -0.6e-3, -0.4e-3, -0.2e-3, 0.0, 0.2e-3, 0.4e-3, 0.6e-3, 0.8e-3, 1.0e-3];
/// Lines of a spot of 90 µm, zR = 0.5 mm, six times the threshold, and up to 4 µm off, in metres.
const WIDTHS: [f64; 11] =
    [133e-6, 124e-6, 112e-6, 100e-6, 91e-6, 83e-6, 86e-6, 88e-6, 103e-6, 111e-6, 127e-6];
const DEVIATIONS: [f64; 11] = [3e-6; 11];
const POWER_RATIOS: [f64; 11] = [1.0; 11];

fn fit() -> f64 {
    let marks = SeriesMarks {
        heights: &HEIGHTS,
        widths: &WIDTHS,
        deviations: &DEVIATIONS,
        power_ratios: &POWER_RATIOS,
    };
    let known = SeriesKnown {
        kind: MarkKind::Line,
        wavelength: 10.6e-6,
        m2: f64::NAN,
        relative_m2_deviation: f64::INFINITY,
        waist_diameter: f64::NAN,
        relative_waist_diameter_deviation: f64::INFINITY,
    };
    let options =
        MarkFitOptions { outlier_limit: f64::INFINITY, confidence: 0.95, scatter: WidthScatter::Stated };
    let (mut residuals, mut used) = ([0.0; 11], [false; 11]);
    let fit = fit_mark_widths(black_box(&marks), &known, &options, &mut residuals, &mut used);
    fit.expect("the series can be fitted").waist_z.value
}

#[divan::bench]
fn fit_mark_widths_of_11(bencher: Bencher) {
    bencher.bench_local(fit);
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if arguments.iter().any(|argument| argument == "--series") {
        for (height, width) in HEIGHTS.iter().zip(WIDTHS) {
            println!("{height:e} {width:e}");
        }
    } else if arguments.iter().any(|argument| argument == "--seconds") {
        let count = 1000;
        let start = Instant::now();
        for _ in 0..count {
            black_box(fit());
        }
        println!("{:e}", start.elapsed().as_secs_f64() / f64::from(count));
        println!("{:e}", fit());
    } else {
        divan::main();
    }
}
