//! The exposure against the Gaussian filter of SciPy: `tests/tables/exposure_gaussian.csv`, made by
//! `tests/reference/outside_exposure.py`.
//!
//! A waist of hardly any size and blurs along and across stand for any two deviations.

use crate::plate::{PITCH, burnt, exact, farthest, fast, level, shapes};
use spotwise::artwork::{Drawing, Exposing, Scan};

/// The filter takes every fifth pixel of every fifth row into the table.
const EVERY: usize = 5;

fn at_table(map: &[f64], width: usize) -> Vec<f64> {
    map.chunks(width).step_by(EVERY).flat_map(|row| row.iter().copied().step_by(EVERY)).collect()
}

/// What exposes by Gaussians of these variances in pixels, across rows and along them: those of a spot are a quarter of
/// the square of its radius.
fn of_variances(rows: f64, columns: f64) -> Exposing<'static> {
    let waist = 1.0;
    let blur = |variance: f64| 2.0 * (4.0 * variance - waist * waist).sqrt() * PITCH;
    Exposing { blur_along: blur(columns), blur_across: blur(rows), ..level(waist, Scan::Unknown) }
}

/// Samples of coverage that are points have the spread of a pixel, 1/12, in them already; the filter knows of no pixels,
/// so its variance is that of the spot less 1/12. In doubles the two agree within 4e-16 (measured), fast within 3e-4
/// (measured 3e-5).
///
/// Boxes that are burnt evenly add 1/12 of their own: less that of the spot, they do what the filter does but for
/// the fourth cumulant of a box, −1/120, times the fourth derivative of the exposure over 24: at most 3/σ⁴ for
/// a point of ink and far less for shapes. Within 5e-5 (measured 9e-6).
#[test]
fn scipy_blurs_alike() {
    let mut lines = include_str!("../tables/exposure_gaussian.csv").lines();
    assert_eq!(lines.next(), Some("width,height,sigma_rows,sigma_columns,samples,shares"));
    let (mut points, mut boxes, mut maps): (f64, f64, f64) = (0.0, 0.0, 0.0);
    let mut compared = 0;
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        let [width, height, sigma_rows, sigma_columns, digits, shares] = cells[..] else { panic!("{line}") };
        let [width, height]: [usize; 2] = [width, height].map(|cell| cell.parse().unwrap());
        let [rows, columns] = [sigma_rows, sigma_columns].map(|cell| cell.parse::<f64>().unwrap().powi(2));
        let samples: Vec<u8> =
            (0..width * height).map(|n| u8::from_str_radix(&digits[2 * n..][..2], 16).unwrap()).collect();
        let wanted: Vec<f64> = shares.split(' ').map(|share| share.parse().unwrap()).collect();
        let apart =
            |exposed: &dyn Fn(&Drawing<'_>, &Exposing<'_>) -> Vec<f64>, drawing: &Drawing<'_>, pixel: f64| {
                farthest(
                    &at_table(&exposed(drawing, &of_variances(rows + pixel, columns + pixel)), width),
                    &wanted,
                )
            };
        points = points.max(apart(&exact, &shapes(&samples, width), 1.0 / 12.0));
        maps = maps.max(apart(&fast, &shapes(&samples, width), 1.0 / 12.0));
        boxes = boxes.max(apart(&exact, &burnt(&samples, width), -1.0 / 12.0));
        compared += wanted.len();
    }
    println!("{compared} shares: points {points:.1e}, maps {maps:.1e}, boxes {boxes:.1e}");
    assert!(compared > 900);
    assert!(points < 1e-14 && maps < 3e-4 && boxes < 5e-5);
}
