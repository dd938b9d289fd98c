//! Sagitta and incidence on a cylinder, the range of a tilted plane, extremes of bilinear cells.

use super::marks::compare;
use super::*;
use spotwise::model::surface::{Bulge, Region, Surface, surface_at, surface_extremes};

/// A cylinder along x with its crown on the axis.
fn bar(radius: f64) -> Surface<'static> {
    Surface::Cylinder {
        radius,
        bulge: Bulge::TowardLens,
        crown_x: 0.0,
        crown_y: 0.0,
        axis_angle: 0.0,
        slope_x: 0.0,
        slope_y: 0.0,
    }
}

#[test]
fn sagitta_and_incidence_match_the_table() {
    let table = Table::read(include_str!("surface.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let sag = [("R_mm", -3), ("x_mm", -3)];
        compare(&mut ledger, &row, &sag, [("sag_at_x_mm", -3)], |i| {
            [surface_at(&bar(i[0]), 0.0, i[1]).unwrap().z]
        });
        let edge = [("R_mm", -3), ("half_chord_for_dz_mm", -3)];
        let outputs = [("dz_mm", -3), ("edge_incidence_deg", 0)];
        compare(&mut ledger, &row, &edge, outputs, |i| {
            let half = Region { x_least: 0.0, x_greatest: 1e-3, y_least: -i[1], y_greatest: 0.5 * i[1] };
            let extremes = surface_extremes(&bar(i[0]), &half).unwrap();
            [extremes.range, extremes.steepest_incidence.to_degrees()]
        });
    }
    ledger.finish("surface", 72, 0);
}

/// The table's height across does not count: its plane tilts along one direction.
#[test]
fn the_range_of_a_tilted_plane_matches_the_table() {
    let table = Table::read(include_str!("surface.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let inputs = [("tilt_deg", 0), ("width_mm", -3), ("height_mm", -3)];
        compare(&mut ledger, &row, &inputs, [("tilt_range_mm", -3)], |i| {
            let plane = Surface::Plane { slope_x: i[0].to_radians().tan(), slope_y: 0.0 };
            let region = Region { x_least: 0.0, x_greatest: i[1], y_least: 0.0, y_greatest: i[2] };
            [surface_extremes(&plane, &region).unwrap().range]
        });
    }
    ledger.finish("surface, tilted", 36, 0);
}

#[test]
fn extremes_of_bilinear_cells_match_the_table() {
    let table = Table::read(include_str!("bilinear.csv"));
    for row in table.rows() {
        let z = ["z00", "z10", "z01", "z11"].map(|corner| row.number(corner));
        let cell = Surface::Grid { x: &[0.0, 1.0], y: &[0.0, 1.0], z: &z };
        let region = Region { x_least: 0.0, x_greatest: 1.0, y_least: 0.0, y_greatest: 1.0 };
        let extremes = surface_extremes(&cell, &region).unwrap();
        assert_eq!(extremes.highest_z, row.number("cell_min"));
        assert_eq!(extremes.lowest_z, row.number("cell_max"));
    }
    assert_eq!(table.rows.len(), 36);
}
