//! Heights of a surface along many strips in x: an independent count of shares and means of its area.

use spotwise::model::surface::{Region, Surface, surface_at};

/// A piece of a strip, of one cell, so narrow that it is a plane.
#[derive(Debug, Clone, Copy)]
pub struct Run {
    /// Its part of the area.
    area: f64,
    /// Height in its middle.
    middle: f64,
    /// By how much the height changes along it, and across.
    rise: (f64, f64),
}

impl Run {
    /// The part of it that lies between two heights.
    fn share_within(&self, least: f64, greatest: f64) -> f64 {
        let (along, across) = (self.rise.0.abs(), self.rise.1.abs());
        let (p, q) = (along.max(across), along.min(across));
        if p == 0.0 {
            return f64::from(u8::from((least..=greatest).contains(&self.middle)));
        }
        (share_below(greatest - self.middle, p, q) - share_below(least - self.middle, p, q)).max(0.0)
    }
}

/// Share of a plane over a rectangle that lies below a height over its middle, p and q being what it rises by along
/// and across, p ≥ q: the distribution of the sum of two numbers spread evenly, a trapezium.
fn share_below(z: f64, p: f64, q: f64) -> f64 {
    // Where the one hardly counts, the other alone, free of cancellation.
    if q < 1e-6 * p {
        return (0.5 + z / p).clamp(0.0, 1.0);
    }
    let (outer, inner) = (0.5 * (p + q), 0.5 * (p - q));
    let corner = |z: f64| (z + outer).max(0.0).powi(2) / (2.0 * p * q);
    if z.abs() <= inner {
        0.5 + z / p
    } else if z < 0.0 {
        corner(z)
    } else {
        1.0 - corner(-z)
    }
}

/// A grid with its corners on a surface, n × n equal cells: how a cylinder or a sphere is measured.
pub fn cells_over(surface: &Surface<'_>, region: &Region, n: u32) -> (Vec<f64>, Vec<f64>, Vec<f64>) {
    let places =
        |least: f64, greatest: f64| -> Vec<f64> {
            (0..=n)
                .map(|k| {
                    if k == n { greatest } else { least + (greatest - least) * (f64::from(k) / f64::from(n)) }
                })
                .collect()
        };
    let (x, y) = (places(region.x_least, region.x_greatest), places(region.y_least, region.y_greatest));
    let z = y.iter().flat_map(|y| x.iter().map(|x| surface_at(surface, *x, *y).unwrap().z)).collect();
    (x, y, z)
}

/// The ends of a stretch and all lines between, in order.
fn cuts(lines: &[f64], least: f64, greatest: f64) -> Vec<f64> {
    let within = lines.iter().copied().filter(|line| *line > least && *line < greatest);
    std::iter::once(least).chain(within).chain(std::iter::once(greatest)).collect()
}

/// Runs along this many strips of equal width in each row of a grid, cut where the surface has an edge. What is
/// unknown is left out. A cell is linear along x and along y, so that the mean height of the runs is that of the area.
pub fn runs(surface: &Surface<'_>, region: &Region, strips: u32) -> Vec<Run> {
    let (lines_x, lines_y): (&[f64], &[f64]) = match surface {
        Surface::Grid { x, y, .. } => (x, y),
        Surface::Steps { edges, .. } => (edges, &[]),
        Surface::Plane { .. } => (&[], &[]),
        curved => panic!("not made of bilinear cells: {curved:?}"),
    };
    let x_cuts = cuts(lines_x, region.x_least, region.x_greatest);
    let y_cuts = cuts(lines_y, region.y_least, region.y_greatest);
    let mut found = Vec::new();
    for row in y_cuts.windows(2) {
        let width = row[1] - row[0];
        for strip in 0..strips {
            let y = row[0] + width * ((f64::from(strip) + 0.5) / f64::from(strips));
            for run in x_cuts.windows(2) {
                let length = run[1] - run[0];
                // Never at an edge, where the next cell might answer.
                let height = |along: f64, across: f64| {
                    let aside = across * width / f64::from(strips);
                    surface_at(surface, run[0] + along * length, y + aside).map(|at| at.z)
                };
                let Ok(middle) = height(0.5, 0.0) else { continue };
                let rise_along = 2.0 * (height(0.75, 0.0).unwrap() - height(0.25, 0.0).unwrap());
                let rise_across = 2.0 * (height(0.5, 0.25).unwrap() - height(0.5, -0.25).unwrap());
                let area = length * width / f64::from(strips);
                found.push(Run { area, middle, rise: (rise_along, rise_across) });
            }
        }
    }
    found
}

/// Their mean of a number.
fn mean(runs: &[Run], number: impl Fn(&Run) -> f64) -> f64 {
    let all: f64 = runs.iter().map(|run| run.area).sum();
    runs.iter().map(|run| run.area * number(run)).sum::<f64>() / all
}

/// The share of their area that lies between two heights, the ends included.
pub fn counted_share(runs: &[Run], least: f64, greatest: f64) -> f64 {
    mean(runs, |run| run.share_within(least, greatest))
}

/// The mean over their area of the square of the height over `z`.
pub fn mean_square_from(runs: &[Run], z: f64) -> f64 {
    mean(runs, |run| (run.middle - z).powi(2) + (run.rise.0.powi(2) + run.rise.1.powi(2)) / 12.0)
}
