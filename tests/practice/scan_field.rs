//! Scan heads. Every saying is common practice, no source.

use super::*;
use spotwise::model::surface::{ScanLens, scan_field_at, scan_field_extent, scan_field_focus};

const YAG: f64 = 1.064e-6;

/// A lens of 160 mm, flat to a millimetre over the corners of its square, nearly telecentric or not at all.
fn lens(edge_incidence: f64) -> ScanLens {
    ScanLens {
        focal_length: 0.16,
        field_radius: 78e-3,
        edge_tangential_z: -1e-3,
        edge_sagittal_z: -0.5e-3,
        edge_incidence,
        edge_spot_ratio: 1.0,
    }
}

/// The spot of a beam of 10 mm behind that lens.
fn spot() -> Beam {
    let focused = focus_collimated(YAG, 1.3, 10e-3, 0.16).unwrap();
    Beam { wavelength: YAG, m2: 1.3, waist_diameter: focused.waist_diameter }
}

/// Common practice, no source: "a lens marks a square of about seven tenths of its focal length", 110 mm for one of
/// 160 mm. Mirrors that turn by 10 degrees to either side turn the light by 20: 2·0.349·f.
#[test]
fn a_square_of_seven_tenths_of_the_focal_length() {
    let side = scan_field_at(&spot(), &lens(0.0), 55e-3, 0.0, 0.0).unwrap();
    let mirror = 0.5 * side.field_angle.to_degrees();
    assert!((9.5..10.5).contains(&mirror), "{mirror}");
    // Its corners are within the field.
    assert!(scan_field_at(&spot(), &lens(0.0), 55e-3, -55e-3, 0.0).is_ok());
}

/// Common practice, no source: "away from the middle a plain scan lens makes ellipses, a telecentric one dots". At
/// 20 degrees the footprint is longer by 1/cos 20°, 6 %.
#[test]
fn ellipses_in_the_corners() {
    let beam = Beam { waist_diameter: 200e-6, ..spot() }; // so long a focus that curvature hardly counts
    let corner = |incidence: f64| {
        let spot = scan_field_at(&beam, &lens(incidence), 55e-3, 55e-3, -0.6e-3).unwrap();
        spot.diameter_along_radius / spot.diameter_across_radius
    };
    let (plain, telecentric) = (corner(20f64.to_radians()), corner(0.0));
    assert!((1.055..1.07).contains(&plain), "{plain}");
    assert!((telecentric - 1.0).abs() < 0.002, "{telecentric}");
}

/// Common practice, no source: "set the height by a spot halfway to the corner, not by one in the middle". Halfway
/// by area the field is between its extremes: more of it is then sharp, here all of it.
#[test]
fn focus_halfway_to_the_corner() {
    let beam = spot();
    let lens = ScanLens { edge_tangential_z: -0.6e-3, edge_sagittal_z: -0.6e-3, ..lens(0.0) };
    let by_the_middle = scan_field_extent(&beam, &lens, 0.0, 1.3).unwrap();
    let halfway = scan_field_at(&beam, &lens, 39e-3, 39e-3, 0.0).unwrap().tangential_focus_z;
    let by_halfway = scan_field_extent(&beam, &lens, halfway, 1.3).unwrap();
    assert!(!by_the_middle.whole_field && by_halfway.whole_field, "{by_the_middle:?} {by_halfway:?}");
    // 39·√2 = 55.2 mm is 0.707 of the way: half of the curvature, which is the best height.
    let best = scan_field_focus(&beam, &lens, 78e-3).unwrap();
    assert!((best.best_z - halfway).abs() < 1e-9);
}
