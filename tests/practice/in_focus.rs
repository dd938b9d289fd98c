//! Where focus is set on a surface that is not flat.

use super::*;
use spotwise::model::surface::{Bulge, Region, Surface, focus_for_surface, region_heights};

/// Common practice, no source: "on a round part set focus half-way down the marked area, not on its top". A tumbler
/// of 80 mm, marked over 20 mm, falls by R − √(R² − c²) = 40 − √(40² − 10²) = 1.270 mm at the edges. Focus on its top
/// leaves all of that as offset, half-way half of it: 2.99 waist diameters become 1.73. For the mean spot, focus goes
/// a third of the way down, as the height of a parabola, c²/2R·(y/c)², has its mean there.
#[test]
fn focus_half_way_down_a_round_part() {
    let half = 10e-3;
    let tumbler = Surface::Cylinder {
        radius: 40e-3,
        bulge: Bulge::TowardLens,
        crown_x: 0.0,
        crown_y: 0.0,
        axis_angle: 0.0,
        slope_x: 0.0,
        slope_y: 0.0,
    };
    let region = Region { x_least: 0.0, x_greatest: 50e-3, y_least: -half, y_greatest: half };
    // A Rayleigh range of 0.45 mm.
    let beam = Beam { wavelength: CO2, m2: 1.2, waist_diameter: 85.367e-6 };
    let found = focus_for_surface(&beam, DepthCriterion::Rayleigh, &tumbler, &region, 64).unwrap();
    let sag = 40e-3 - (40e-3f64.powi(2) - half * half).sqrt();
    assert!((sag - 1.270e-3).abs() < 0.5e-6);
    assert!((found.least_worst.focus_z - 0.5 * sag).abs() < 1e-12);
    let growth = |offset: f64| (1.0 + (offset / 0.45e-3).powi(2)).sqrt();
    assert!((growth(sag) - 2.99).abs() < 0.006);
    assert!((found.least_worst.worst_growth - growth(0.5 * sag)).abs() < 1e-4);
    assert!((found.least_worst.worst_growth - 1.73).abs() < 0.006);
    let share = found.least_mean_area.focus_z / sag;
    assert!((share - 1.0 / 3.0).abs() < 0.01, "{share}");
    // Most in focus: the strip about the crown that the whole depth of 0.9 mm covers, the crown at its top.
    let strip = (0.9e-3 * (80e-3 - 0.9e-3f64)).sqrt() / half;
    assert!((found.most_in_focus.share_in_focus - strip).abs() < 2e-3, "{:?}", found.most_in_focus);
    assert!((found.most_in_focus.focus_z - 0.45e-3).abs() < 5e-6, "{:?}", found.most_in_focus);
}

/// Common practice, no source: "a part that leans wants focus at its middle". All three focus heights agree there.
#[test]
fn a_leaning_part_wants_focus_at_its_middle() {
    let plate = Surface::Plane { slope_x: 0.02, slope_y: 0.0 };
    let region = Region { x_least: 0.0, x_greatest: 0.1, y_least: 0.0, y_greatest: 0.05 };
    let beam = Beam { wavelength: CO2, m2: 1.2, waist_diameter: 88e-6 };
    let found = focus_for_surface(&beam, DepthCriterion::Growth { ratio: 1.2 }, &plate, &region, 1).unwrap();
    for height in [found.least_worst, found.least_mean_area, found.most_in_focus] {
        assert!((height.focus_z - 1e-3).abs() < 1e-14, "{height:?}");
    }
    assert!((region_heights(&plate, &region, 1).unwrap().mean_z - 1e-3).abs() < 1e-17);
}
