//! Segments of circles, against a handbook.

use super::*;
use spotwise::model::surface::{CylinderStrip, DepthEnds, FocusAim, cylinder_strip};

/// The strip that is a segment of this height of a circle of this radius.
fn segment(radius: f64, height: f64) -> CylinderStrip {
    let depth = DepthEnds { toward_lens_z: -height, away_from_lens_z: height };
    cylinder_strip(radius, &depth, FocusAim::HighestPlace).unwrap()
}

/// *Machinery's Handbook*, "Circular Segment", from memory: c = 2·√(h·(2r − h)); its example, a radius of 60 and
/// a height of 8, has the chord 2·√896 = 2·29.93. Another, a chord of 16 and a height of 6, has the radius 8⅓ (in
/// units of length of any kind).
#[test]
fn the_chord_of_a_segment() {
    rounds_to(segment(60.0, 8.0).half_chord, "29.93");
    rounds_to(segment(25.0 / 3.0, 6.0).full_chord, "16.00");
    // With the lens lowered by half the sag, a depth half as deep either way reaches as far.
    let half = DepthEnds { toward_lens_z: -4.0, away_from_lens_z: 4.0 };
    let midway = cylinder_strip(60.0, &half, FocusAim::Midway).unwrap();
    rounds_to(midway.half_chord, "29.93");
    assert_eq!(midway.focus_z, 4.0);
}

/// *Machinery's Handbook*, "Segments of Circles for Radius = 1", from memory: central angle, height, chord and arc.
#[test]
fn segments_for_radius_1() {
    for (degrees, height, chord, arc) in [
        (30.0f64, "0.03407", "0.51764", "0.52360"),
        (60.0, "0.13397", "1.00000", "1.04720"),
        (90.0, "0.29289", "1.41421", "1.57080"),
        (120.0, "0.50000", "1.73205", "2.09440"),
        (180.0, "1.00000", "2.00000", "3.14159"),
    ] {
        let half_angle = 0.5 * degrees.to_radians();
        let strip = segment(1.0, 2.0 * (0.5 * half_angle).sin().powi(2));
        rounds_to(strip.edge_sag, height);
        rounds_to(strip.full_chord, chord);
        rounds_to(strip.arc_length, arc);
        rounds_to(2.0 * strip.edge_incidence.to_degrees(), &format!("{degrees:.9}"));
    }
}
