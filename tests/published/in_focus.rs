//! How heights are spread over surfaces, against printed distributions and handbook formulas.

use spotwise::model::surface::{Bulge, Region, Surface, region_heights, share_in_focus};

const SQUARE: Region = Region { x_least: -0.05, x_greatest: 0.05, y_least: -0.05, y_greatest: 0.05 };

/// JCGM 100:2008 (GUM), 4.3.7 and 4.3.9, from memory: a quantity spread evenly over ±a has the standard deviation
/// a/√3, one with a triangular distribution over ±a has a/√6. The height of a plane that leans in x is spread evenly
/// over a square; that of one that leans alike in x and y is the sum of two such, which is triangular.
#[test]
fn deviations_of_the_gum() {
    let a = 0.5e-3;
    let deviation = |slope_x, slope_y| {
        let heights = region_heights(&Surface::Plane { slope_x, slope_y }, &SQUARE, 1).unwrap();
        assert!((heights.lowest_z - a).abs() < 1e-18 && (heights.highest_z + a).abs() < 1e-18);
        heights.z_deviation
    };
    assert!((deviation(0.01, 0.0) / (a / 3f64.sqrt()) - 1.0).abs() < 1e-15);
    assert!((deviation(0.005, 0.005) / (a / 6f64.sqrt()) - 1.0).abs() < 1e-15);
}

/// The same, 6.3 of the GUM, from memory: for an evenly spread quantity an interval of k standard deviations has the
/// probability k/√3: 57.74 % within one. For a triangular one it is 1 − (1 − k/√6)²: 64.98 %, as handbooks print.
#[test]
fn shares_within_one_deviation() {
    for (slope_x, slope_y, printed) in [(0.01, 0.0, 0.5774), (0.005, 0.005, 0.6498)] {
        let plane = Surface::Plane { slope_x, slope_y };
        let s = region_heights(&plane, &SQUARE, 1).unwrap().z_deviation;
        let share = share_in_focus(&plane, &SQUARE, 1, -s, s).unwrap().in_focus;
        assert!((share - printed).abs() < 0.5e-4, "{share}");
    }
}

/// Area of a circular segment, (r²/2)(θ − sin θ), of any handbook, from memory: with r = 10 and a chord of 16 the height
/// is 4, θ = 1.854590 and the area 44.7295. So the mean sag under a bar of 10 mm radius, 16 mm of it marked, is
/// 4 − 44.7295/16 = 1.20441 mm.
#[test]
fn mean_sag_by_the_circular_segment() {
    let bar = Surface::Cylinder {
        radius: 10e-3,
        bulge: Bulge::TowardLens,
        crown_x: 0.0,
        crown_y: 0.0,
        axis_angle: 0.0,
        slope_x: 0.0,
        slope_y: 0.0,
    };
    let region = Region { x_least: 0.0, x_greatest: 30e-3, y_least: -8e-3, y_greatest: 8e-3 };
    let heights = region_heights(&bar, &region, 512).unwrap();
    assert!((heights.mean_z - 1.204_41e-3).abs() < 0.02e-6, "{:e}", heights.mean_z);
}

/// A dome seen from above: the share that lies within a sag h is that of the circle of radius √(h·(2r − h)) (handbook,
/// from memory). With r = 10 and h = 1 the circle has the radius √19 = 4.35890; of a square of 10 by 10 it takes
/// 59.690 %.
#[test]
fn cap_of_a_dome() {
    let dome = Surface::Sphere {
        radius: 10e-3,
        bulge: Bulge::TowardLens,
        crown_x: 0.0,
        crown_y: 0.0,
        slope_x: 0.0,
        slope_y: 0.0,
    };
    let region = Region { x_least: -5e-3, x_greatest: 5e-3, y_least: -5e-3, y_greatest: 5e-3 };
    let share = share_in_focus(&dome, &region, 512, 0.0, 1e-3).unwrap().in_focus;
    assert!((share - 0.596_90).abs() < 0.5e-4, "{share}");
}
