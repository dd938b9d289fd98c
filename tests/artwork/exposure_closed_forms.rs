//! The exposure of bars, gaps, squares, dots, holes, edges, gratings and fills against the closed forms of the model,
//! which are held against their own vectors and handbooks elsewhere.

use crate::plate::{PITCH, beam, bilevel, burnt, exact, fast, level, lines, shapes};
use spotwise::artwork::{ExposurePlan, Scan, Watch};
use spotwise::model::mark::{
    contrast_at_pitch, detail_exposure, fill_width, raster_ripple, smallest_details,
};
use spotwise::{Error, Param};
use std::f64::consts::PI;

/// Error of the fast exposure beside the doubles.
const FAST: f64 = 3e-4;

/// Coverage of a shape in a square of `side` pixels, by 32 × 32 places in each.
fn coverage(side: usize, inside: impl Fn(f64, f64) -> bool) -> Vec<u8> {
    const PLACES: usize = 32;
    let middle = 0.5 * side as f64;
    let share = |x: usize, y: usize| {
        let place = |pixel: usize, n: usize| pixel as f64 + (n as f64 + 0.5) / PLACES as f64 - middle;
        let all = (0..PLACES * PLACES).filter(|n| inside(place(x, n % PLACES), place(y, n / PLACES)));
        (all.count() as f64 / (PLACES * PLACES) as f64 * 255.0).round() as u8
    };
    (0..side * side).map(|n| share(n % side, n / side)).collect()
}

fn inverse(samples: &[u8]) -> Vec<u8> {
    samples.iter().map(|sample| 255 - sample).collect()
}

/// Bars, gaps and squares whose edges are those of pixels, burnt pixel by pixel: nothing is left of the pixels, as the
/// error functions of neighbours add up to those of the whole. Exposed in doubles within 6e-16 (measured), fast within
/// 3e-4 (measured 9e-5).
#[test]
fn bars_gaps_and_squares() {
    // Long enough for 1 − erf to vanish, with a pixel in the very middle.
    let side = 211;
    let middle = side * (side / 2) + side / 2;
    let (mut worst, mut worst_fast): (f64, f64) = (0.0, 0.0);
    for radius in [1.5, 4.0, 7.3, 12.0] {
        for across in [1, 3, 7, 11, 25] {
            let (from, to) = ((side - across) / 2, (side + across) / 2);
            let within = |n: usize| (from..to).contains(&n);
            let drawn = |inside: &dyn Fn(usize, usize) -> bool| -> Vec<u8> {
                (0..side * side).map(|n| if inside(n % side, n / side) { 255 } else { 0 }).collect()
            };
            let expected = detail_exposure(2.0 * radius * PITCH, across as f64 * PITCH).unwrap();
            let (bar, square) = (drawn(&|x, _| within(x)), drawn(&|x, y| within(x) && within(y)));
            let rows = drawn(&|_, y| within(y));
            let cases = [
                (inverse(&bar), expected.gap),
                (inverse(&rows), expected.gap),
                (bar, expected.bar),
                (rows, expected.bar),
                (square, expected.square),
            ];
            for (samples, expected) in cases {
                let drawing = burnt(&samples, side);
                let exposing = level(radius, Scan::Unknown);
                worst = worst.max((exact(&drawing, &exposing)[middle] - expected).abs());
                worst_fast = worst_fast.max((fast(&drawing, &exposing)[middle] - expected).abs());
            }
        }
    }
    println!("bars, gaps and squares: {worst:.1e} in doubles, {worst_fast:.1e} fast");
    assert!(worst < 1e-14 && worst_fast < FAST);
}

/// Dots and holes drawn as coverage, sampled at points: the pixels have to be fine beside the spot, and what they are
/// wrong by shrinks with the square of the pitch or faster. Measured, in doubles: 3.1e-3 at 4 pixels to the spot
/// radius, 8.0e-4 at 8 and 1.8e-4 at 16.
#[test]
fn dots_and_holes() {
    for (radius, allowed) in [(4.0, 5e-3), (8.0, 2e-3), (16.0, 1e-3)] {
        let side = (14.0 * radius) as usize | 1;
        let middle = side * (side / 2) + side / 2;
        let (mut worst, mut worst_fast): (f64, f64) = (0.0, 0.0);
        for size in [0.4, 0.7, 1.0, 1.4, 2.5] {
            let half = size * radius;
            let dot = coverage(side, |x, y| x * x + y * y < half * half);
            let expected = detail_exposure(2.0 * radius * PITCH, 2.0 * half * PITCH).unwrap();
            for (samples, expected) in [(inverse(&dot), expected.hole), (dot, expected.dot)] {
                let (drawing, exposing) = (shapes(&samples, side), level(radius, Scan::Unknown));
                worst = worst.max((exact(&drawing, &exposing)[middle] - expected).abs());
                worst_fast = worst_fast.max((fast(&drawing, &exposing)[middle] - expected).abs());
            }
        }
        println!("dots and holes at {radius} pixels: {worst:.1e} in doubles, {worst_fast:.1e} fast");
        assert!(worst < allowed && worst_fast < allowed + FAST);
    }
}

/// Edges move to where the exposure falls to the threshold. The dose ratio is taken that puts the edge of the mark on the
/// centre of a column, of strokes and of an edge so far from the other that this does not count. Measured: 1.2e-14 pixels.
#[test]
fn edges_and_strokes_move() {
    let (radius, width, from) = (12.0, 301, 70);
    let mut worst: f64 = 0.0;
    let mut compared = 0;
    for across in [21, 31, 60, 150] {
        let row: Vec<u8> =
            (0..width).map(|x| if (from..from + across).contains(&x) { 255 } else { 0 }).collect();
        let samples = row.repeat(161);
        let exposure = exact(&burnt(&samples, width), &level(radius, Scan::Unknown));
        for column in from - 9..from + 6 {
            let dose_ratio = 1.0 / exposure[80 * width + column];
            // By how much the edge moves outward to the middle of this column.
            let shift = from as f64 - (column as f64 + 0.5);
            let stroke = fill_width(&beam(radius), across as f64 * PITCH, dose_ratio, 0.0).unwrap();
            assert!(stroke.marks);
            worst = worst.max((shift - 0.5 * stroke.growth / PITCH).abs());
            if across == 150 {
                let edge = smallest_details(2.0 * radius * PITCH, dose_ratio).unwrap().edge_shift;
                worst = worst.max((shift - edge / PITCH).abs());
            }
            compared += 1;
        }
    }
    println!("{compared} edges: {worst:.1e} pixels");
    assert!(worst < 1e-12);
}

/// Gratings of bars and of a sine, in the middle of a field of them. Bars burnt pixel by pixel within 3e-16
/// (measured); a sine rounded to 8 bits within 1/255 of the contrast (measured 1.4e-3).
#[test]
fn gratings() {
    let (mut bars, mut sines): (f64, f64) = (0.0, 0.0);
    for radius in [3.0, 6.0, 10.0] {
        for half in [5, 9, 15] {
            let pitch = 2 * half;
            let width = pitch * ((16.0 * radius) as usize / pitch + 2);
            let expected = contrast_at_pitch(2.0 * radius * PITCH, pitch as f64 * PITCH).unwrap();
            let contrast_of = |row: Vec<u8>, exposed: &dyn Fn(&[u8]) -> Vec<f64>| {
                let exposure = exposed(&row.repeat(161));
                let middle = width / 2 / pitch * pitch;
                let period = &exposure[80 * width + middle..][..pitch];
                let greatest = period.iter().copied().fold(0.0, f64::max);
                let least = period.iter().copied().fold(1.0, f64::min);
                (greatest - least) / (greatest + least)
            };
            // An odd half period has a pixel in the middle of each bar and gap.
            let row = (0..width).map(|x| if x % pitch < half { 255 } else { 0 }).collect();
            let exposed = |samples: &[u8]| exact(&burnt(samples, width), &level(radius, Scan::Unknown));
            bars = bars.max((contrast_of(row, &exposed) - expected.bars).abs());
            // Samples of a sine are its values at points; the coarsest drawing of 10 to the period still holds it.
            let row = (0..width)
                .map(|x| {
                    let phase = 2.0 * PI * (x as f64 + 0.5 - 0.5 * half as f64) / pitch as f64;
                    (127.5 + 127.5 * phase.cos()).round() as u8
                })
                .collect();
            // A box of one pixel lowers the contrast of a sine by sinc, which is known.
            let box_of_pixel = (PI / pitch as f64).sin() / (PI / pitch as f64);
            let sine = contrast_of(row, &exposed) / box_of_pixel;
            sines = sines.max((sine - expected.sine).abs());
        }
    }
    println!("gratings: bars {bars:.1e}, sines {sines:.1e}");
    assert!(bars < 1e-14 && sines < 4e-3);
}

/// A wide fill by lines up to 2.5 spot radii apart: greatest on a line, least midway, as `raster_ripple` says. In
/// doubles within 4e-16 (measured), fast within 3e-4 (measured 4e-5). Lines farther apart are refused.
#[test]
fn fills_ripple() {
    let (width, height) = (151, 181);
    let samples = vec![255; width * height];
    let (mut worst, mut worst_fast): (f64, f64) = (0.0, 0.0);
    for radius in [3.0, 5.0, 9.0] {
        for interval in [2, 4, 6, 12, 22] {
            // The first line is in the middle of the first row, midway is in that of row interval/2.
            let exposing = level(radius, lines(interval as f64, 0.5));
            let drawing = bilevel(&samples, width);
            if interval as f64 > 2.5 * radius {
                let refused = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).unwrap_err();
                assert!(
                    matches!(refused, Error::OutsideModel { param: Param::LineInterval, .. }),
                    "{refused}"
                );
                continue;
            }
            let ripple = raster_ripple(2.0 * radius * PITCH, interval as f64 * PITCH).unwrap();
            let line = height / 2 / interval * interval;
            let off = |exposure: &[f64]| {
                let at = |row: usize| exposure[row * width + width / 2];
                let on = at(line) - ripple.greatest_over_mean;
                on.abs().max((at(line + interval / 2) - ripple.least_over_mean).abs())
            };
            worst = worst.max(off(&exact(&drawing, &exposing)));
            worst_fast = worst_fast.max(off(&fast(&drawing, &exposing)));
        }
    }
    println!("ripple: {worst:.1e} in doubles, {worst_fast:.1e} fast");
    assert!(worst < 1e-14 && worst_fast < FAST);
}
