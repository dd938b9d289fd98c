//! Shapes of a surface: formulas of handbooks, and examples worked with them.

use spotwise::model::surface::{Bulge, Region, Surface, surface_at, surface_extremes};

const INCH: f64 = 25.4e-3;

fn sphere(radius: f64) -> Surface<'static> {
    let (bulge, zero) = (Bulge::TowardLens, 0.0);
    Surface::Sphere { radius, bulge, crown_x: zero, crown_y: zero, slope_x: zero, slope_y: zero }
}

fn sag(radius: f64, distance: f64) -> f64 {
    surface_at(&sphere(radius), distance, 0.0).unwrap().z
}

/// Height of a segment from radius and chord, h = R − ½·√(4·R² − c²), as handbooks of machinists give it (from
/// memory). Right triangles in whole numbers have whole heights: 3-4-5, 5-12-13 and 20-21-29.
#[test]
fn height_of_a_segment() {
    for (radius, chord, height) in [(5.0, 8.0, 2.0), (13.0, 10.0, 1.0), (29.0, 40.0, 8.0), (29.0, 42.0, 9.0)]
    {
        let found = sag(radius * 1e-3, chord / 2.0 * 1e-3) * 1e3;
        assert!((found / height - 1.0).abs() < 1e-14, "{radius}, {chord}: {found}");
        let formula = radius - 0.5 * (4.0 * radius * radius - chord * chord).sqrt();
        assert!((found / formula - 1.0).abs() < 1e-13);
    }
}

/// A spherometer: R = l²/(6·h) + h/2 for three legs a distance l apart and a screw raised by h, as books of
/// laboratory physics have it (from memory). The legs stand on a circle of the radius l/√3.
#[test]
fn spherometer() {
    for (radius, legs) in [(0.2f64, 40e-3f64), (1.0, 40e-3), (0.05, 50e-3)] {
        let h = sag(radius, legs / 3f64.sqrt());
        let found = legs * legs / (6.0 * h) + h / 2.0;
        assert!((found / radius - 1.0).abs() < 1e-13, "{found}");
    }
}

/// Curvature of the Earth in levelling: 0.0785·K² metres at K kilometres, as textbooks of surveying have it (from
/// memory), for a radius of 6370 km.
#[test]
fn curvature_of_the_earth_in_levelling() {
    for kilometres in [0.1f64, 0.5, 1.0] {
        let drop = sag(6370e3, kilometres * 1e3);
        assert!((drop / (0.0785 * kilometres * kilometres) - 1.0).abs() < 1e-3, "{drop}");
    }
}

/// Lambert's cosine law: at 60 degrees half the irradiance, at 45 degrees 1/√2. On a sphere the angle of incidence
/// is the one that the place has about the centre.
#[test]
fn cosine_law() {
    for (degrees, factor) in [(60f64, 0.5), (45.0, 0.5f64.sqrt()), (30.0, 0.75f64.sqrt())] {
        let place = surface_at(&sphere(0.1), 0.0, 0.1 * degrees.to_radians().sin()).unwrap();
        assert!((place.incidence.to_degrees() / degrees - 1.0).abs() < 1e-14);
        assert!((place.irradiance_factor / factor - 1.0).abs() < 1e-14);
        assert!((place.stretch * factor - 1.0).abs() < 1e-14);
    }
}

/// Wikipedia, "Bilinear interpolation", section on image processing (from memory): 91 and 210 in columns 14 and 15
/// of row 20, 162 and 95 in row 21, give 150.5 and 128.5 in column 14.5, and 146.1 in row 20.2.
#[test]
fn bilinear_interpolation_of_an_image() {
    let grid = Surface::Grid { x: &[14.0, 15.0], y: &[20.0, 21.0], z: &[91.0, 210.0, 162.0, 95.0] };
    let at = |x, y| surface_at(&grid, x, y).unwrap();
    assert_eq!((at(14.5, 20.0).z, at(14.5, 21.0).z), (150.5, 128.5));
    assert!((at(14.5, 20.2).z - 146.1).abs() < 1e-12);
    // By hand: the rise along x is 119 in row 20 and −67 in row 21, 0.8·119 − 0.2·67 between.
    assert!((at(14.5, 20.2).slope_x - 81.8).abs() < 1e-12);
}

/// A sine bar: a bar of 5 inch raised by half an inch on one side leans by asin(0.1) = 5.739 degrees (from memory:
/// 5° 44′ 21″), and its top rises by 0.5 inch over the 4.975 inch that it covers.
#[test]
fn sine_bar() {
    let covers = 5.0 * INCH * 0.99f64.sqrt();
    let plane = Surface::Plane { slope_x: -0.5 * INCH / covers, slope_y: 0.0 };
    let whole = Region { x_least: 0.0, x_greatest: covers, y_least: 0.0, y_greatest: INCH };
    let extremes = surface_extremes(&plane, &whole).unwrap();
    let wanted = 5.0 + 44.0 / 60.0 + 21.0 / 3600.0;
    assert!((extremes.steepest_incidence.to_degrees() - wanted).abs() < 0.5 / 3600.0);
    assert!((extremes.highest_z / (-0.5 * INCH) - 1.0).abs() < 1e-14);
    assert_eq!((extremes.highest_x, extremes.lowest_x, extremes.lowest_z), (covers, 0.0, 0.0));
}
