//! What the heights of a surface ask of the focus.

use super::*;
use spotwise::model::surface::{DepthEnds, FocusAim, cylinder_strip, focus_between, height_bands};

/// The strip, whose depth is used from its end toward the lens on, with focus on the crown and midway; the best focus
/// over a tilted plate; the bands over the sag of a part.
#[test]
fn heights_match_the_table() {
    let table = Table::read(include_str!("surface.csv"));
    let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
    let mut ledger = Ledger::default();
    for row in table.rows() {
        ledger.compared += 1;
        let (radius, depth) = (row.metres("R_mm"), row.metres("dz_mm"));
        let crown = DepthEnds { toward_lens_z: -depth, away_from_lens_z: depth };
        let midway = DepthEnds { toward_lens_z: -0.5 * depth, away_from_lens_z: 0.5 * depth };
        for (ends, aim) in [(crown, FocusAim::HighestPlace), (midway, FocusAim::Midway)] {
            let strip = cylinder_strip(radius, &ends, aim).unwrap();
            // √(s·(2R − s)): ½ in each, times at most 2R/(2R − s).
            ledger.length(&row, "half_chord_for_dz_mm", strip.half_chord, 2.0);
            ledger.length(&row, "full_chord_mm", strip.full_chord, 2.0);
            ledger.length(&row, "arc_length_mm", strip.arc_length, 3.0);
            ledger.number(&row, "edge_incidence_deg", strip.edge_incidence.to_degrees(), 4.0);
            assert!(!strip.whole_upper_half);
        }
        let best = focus_between(&beam, 0.0, row.metres("tilt_range_mm")).unwrap();
        ledger.length(&row, "best_focus_residual_mm", best.half_range, 1.0);
        let bands = height_bands(0.0, row.metres("sag_at_x_mm"), &midway, 0.0, &mut [], &mut []).unwrap();
        ledger.near(
            "bands_ceil_sag_over_dz",
            f64::from(bands.count),
            row.number("bands_ceil_sag_over_dz"),
            0.0,
        );
    }
    ledger.finish("surface, budget", 36, 0);
}
