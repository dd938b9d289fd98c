//! Shares of area in focus, mean and spread of heights, against the numeric integration of a general-purpose library.

use super::*;
use spotwise::model::surface::{Bulge, Region, Surface, region_heights, share_in_focus};

/// What the documentation promises of a cylinder or sphere with this many cells per side: of shares, and of mean and
/// deviation in parts of the range. It falls with the square of their number.
const CELLS: u32 = 128;
const SHARE: f64 = 5e-4;
const OF_RANGE: f64 = 5e-5;

/// Numbers separated by spaces.
fn list(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|number| number.parse().expect("a number")).collect()
}

/// The lists of a row: columns, rows and heights of its grid.
fn grid_of(row: &Row) -> [Vec<f64>; 3] {
    ["grid_x_m", "grid_y_m", "grid_z_m"].map(|column| list(row.text(column)))
}

fn surface_of<'a>(row: &Row, grid: &'a [Vec<f64>; 3]) -> Surface<'a> {
    let shape = row.text("shape");
    let [x, y, z] = grid;
    if shape == "grid" {
        return Surface::Grid { x, y, z };
    }
    let (slope_x, slope_y) = (row.number("slope_x"), row.number("slope_y"));
    if shape == "plane" {
        return Surface::Plane { slope_x, slope_y };
    }
    let (radius, crown_x, crown_y) =
        (row.number("radius_m"), row.number("crown_x_m"), row.number("crown_y_m"));
    let bulge = match row.text("bulge") {
        "toward" => Bulge::TowardLens,
        "away" => Bulge::AwayFromLens,
        other => panic!("{other}"),
    };
    match shape {
        "sphere" => Surface::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y },
        "cylinder" => {
            let axis_angle = row.number("axis_angle_rad");
            Surface::Cylinder { radius, bulge, crown_x, crown_y, axis_angle, slope_x, slope_y }
        }
        other => panic!("{other}"),
    }
}

/// The worst error of some shapes, over what it may be, and how many numbers were compared.
#[derive(Default)]
struct Worst {
    share: f64,
    of_range: f64,
    rows: usize,
    cut: usize,
}

impl Worst {
    fn compare(&mut self, row: &Row, cells: u32, share_budget: f64, range_budget: f64) {
        let grid = grid_of(row);
        let surface = surface_of(row, &grid);
        let [x_least, x_greatest, y_least, y_greatest] =
            ["x_least_m", "x_greatest_m", "y_least_m", "y_greatest_m"].map(|column| row.number(column));
        let region = Region { x_least, x_greatest, y_least, y_greatest };
        let (toward, away) = (row.number("toward_lens_z_m"), row.number("away_from_lens_z_m"));
        let found = share_in_focus(&surface, &region, cells, toward, away).unwrap();
        let shares = [
            (found.in_focus, "in_focus"),
            (found.toward_lens, "toward_lens"),
            (found.away_from_lens, "away_from_lens"),
        ];
        for (got, column) in shares {
            let error = (got - row.number(column)).abs() / (share_budget + row.number("share_error"));
            assert!(error <= 1.0, "{column}: {got} in {:?}", row.cells);
            self.share = self.share.max(error);
        }
        assert!((found.unknown_share - row.number("unknown_share")).abs() < 1e-15, "{:?}", row.cells);

        let heights = region_heights(&surface, &region, cells).unwrap();
        let range = heights.lowest_z - heights.highest_z;
        for (got, column) in [(heights.mean_z, "mean_m"), (heights.z_deviation, "deviation_m")] {
            let budget = range_budget * range + row.number("moment_error_m");
            let error = (got - row.number(column)).abs();
            assert!(error <= budget, "{column}: {got} in {:?}", row.cells);
            self.of_range = self.of_range.max(if error == 0.0 { 0.0 } else { error / budget });
        }
        self.rows += 1;
        self.cut += usize::from(found.in_focus > 1e-3 && found.in_focus < 0.999);
    }
}

/// Planes and grids are measured exactly: to the error that the library states of its integral, and the last digits.
#[test]
fn areas_of_planes_and_grids_match_the_integration() {
    let table = Table::read(include_str!("areas.csv"));
    let mut worst = Worst::default();
    for row in table.rows().filter(|row| matches!(row.text("shape"), "plane" | "grid")) {
        assert!(row.number("share_error") < 1e-9);
        worst.compare(&row, 1, 4e-15, 4e-15);
    }
    println!("planes and grids: {} of the budget of shares, {} of moments", worst.share, worst.of_range);
    assert_eq!((worst.rows, worst.cut), (96, 76));
}

/// Cylinders and spheres to what the cells laid over them promise, and with four times as many a side sixteen times
/// better.
#[test]
fn areas_of_cylinders_and_spheres_match_the_integration() {
    let table = Table::read(include_str!("areas.csv"));
    for finer in [1, 4] {
        let gain = f64::from(finer * finer);
        let mut worst = Worst::default();
        for row in table.rows().filter(|row| matches!(row.text("shape"), "cylinder" | "sphere")) {
            assert!(row.number("share_error") < 1e-9);
            worst.compare(&row, finer * CELLS, SHARE / gain, OF_RANGE / gain);
        }
        println!(
            "{finer} x 128 cells: {} of the budget of shares, {} of moments",
            worst.share, worst.of_range
        );
        assert_eq!((worst.rows, worst.cut), (50, 40));
    }
}
