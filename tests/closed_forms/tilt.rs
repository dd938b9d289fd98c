//! The spot on a tilted surface, its contour found point by point.

use super::Errors;
use spotwise::model::focus::{defocus, tilted_spot};
use spotwise::model::optics::{Beam, beam_parameters};
use spotwise::{CAUTION_GRAZING, Validity};

/// A cone of 0.1 rad, so that a grazing ratio of 0.9 is still a tilt below 1.5 rad.
fn beam() -> Beam {
    let (wavelength, half_angle) = (1e-6, 0.1);
    Beam { wavelength, m2: 1.0, waist_diameter: 2.0 * wavelength / (std::f64::consts::PI * half_angle) }
}

fn tilt_of(grazing_ratio: f64) -> f64 {
    (grazing_ratio / beam_parameters(&beam()).unwrap().divergence_half_angle).atan()
}

/// Height of a surface over its distance from the waist in Rayleigh ranges.
fn height_of(u: f64) -> f64 {
    u * beam_parameters(&beam()).unwrap().rayleigh_range
}

/// Logarithm of the irradiance on the tilted surface at a distance `s` along the tilt and `x` across
/// it from the axis, over that in the waist on a level one: of the level beam there, times cos φ.
fn brightness(z: f64, tilt: f64, s: f64, x: f64) -> f64 {
    let there = defocus(&beam(), z + s * tilt.sin()).unwrap();
    let from_axis_squared = (s * tilt.cos()).powi(2) + x * x;
    (there.irradiance_ratio * tilt.cos()).ln() - 8.0 * from_axis_squared / there.diameter.powi(2)
}

/// The place between `inside` and `outside` at which `of` becomes negative.
fn crossing(of: impl Fn(f64) -> f64, mut inside: f64, mut outside: f64) -> f64 {
    for _ in 0..80 {
        let middle = 0.5 * (inside + outside);
        if of(middle) >= 0.0 { inside = middle } else { outside = middle }
    }
    inside
}

/// Length along the tilt of the contour at 1/e² of the greatest irradiance on the surface.
fn irradiance_contour(z: f64, tilt: f64) -> f64 {
    const STEPS: i32 = 2000;
    let spot = tilted_spot(&beam(), z, tilt).unwrap();
    // (the contour is never longer than twice the footprint)
    let step = spot.diameter_along / f64::from(STEPS);
    let along = |s: f64| brightness(z, tilt, s, 0.0);
    let (brightest, top) = (-STEPS..=STEPS)
        .map(|at| (f64::from(at) * step, along(f64::from(at) * step)))
        .fold((0.0, f64::NEG_INFINITY), |best, here| if here.1 > best.1 { here } else { best });
    // A parabola through three points finds the top between the steps.
    let [before, behind] = [along(brightest - step), along(brightest + step)];
    let top = top - (behind - before).powi(2) / (8.0 * (before - 2.0 * top + behind));
    let above = |s: f64| along(s) - (top - 2.0);
    // There is one bright place: outward from it the irradiance falls through the level once.
    let inside = (-STEPS..=STEPS).filter(|at| above(f64::from(*at) * step) >= 0.0).count();
    let reach = f64::from(STEPS) * step;
    let ends = [crossing(above, brightest, reach), crossing(above, brightest, -reach)];
    let length = ends[0] - ends[1];
    assert!((inside as f64 - length / step).abs() <= 1.0, "more than one bright place at {z:e}, {tilt}");
    // Nothing beside the axis of the tilt reaches farther along it.
    for end in ends {
        for share in [0.1, 0.5, 1.0] {
            assert!(brightness(z, tilt, end, share * spot.diameter_across) < top - 2.0);
        }
    }
    length
}

/// What the footprint is worth; header of `model::focus::tilt`.
#[test]
fn footprint_against_the_contour() {
    // Grazing ratio, and the documented errors of the contour over the footprint, in per cent.
    let documented = [
        (0.05, 0.07, -0.07),
        (0.1, 0.25, -0.26),
        (0.2, 1.0, -1.1),
        (0.3, 2.3, -2.5),
        (0.5, 6.0, -7.7),
        (0.9, 14.8, -24.9),
    ];
    for (e, longer, shorter) in documented {
        let tilt = tilt_of(e);
        let mut errors = Errors::new();
        for u in [0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 5.0, 10.0, 30.0, 1e3, 1e5] {
            for sign in [1.0, -1.0] {
                let z = height_of(sign * u);
                let spot = tilted_spot(&beam(), z, tilt).unwrap();
                errors.see(irradiance_contour(z, tilt), spot.diameter_along, sign * u);
                assert_eq!(spot.validity.contains(Validity::TILTED), spot.grazing_ratio > CAUTION_GRAZING);
            }
        }
        let told = errors.told(&format!("contour over footprint at a grazing ratio of {e}"));
        for (found, stated) in [(errors.greatest.0, longer), (errors.least.0, shorter)] {
            // From both sides: nothing exceeds it, and it is rounded up in its last digit.
            let share = 100.0 * found / stated;
            assert!((0.85..=1.0).contains(&share), "documented {stated} %, found {told}");
        }
    }
}

/// The hyperboloid's contour is the ellipse of which the result tells the length and the shift: both its
/// ends lie on the hyperboloid, and no other point of the surface that does lies farther out.
#[test]
fn contour_ends_lie_on_the_hyperboloid() {
    for e in [1e-6, 0.05, 0.2, 0.5, 0.9, 0.999] {
        let tilt = tilt_of(e);
        let (sine, cosine) = tilt.sin_cos();
        for u in [-1e3, -3.0, -1.0, -0.3, 0.0, 0.3, 1.0, 3.0, 1e3] {
            let z = height_of(u);
            let spot = tilted_spot(&beam(), z, tilt).unwrap();
            // How far inside the hyperboloid a point is, over its square radius there.
            let inside = |s: f64, x: f64| {
                let radius = 0.5 * defocus(&beam(), z + s * sine).unwrap().diameter;
                1.0 - ((s * cosine).powi(2) + x * x) / (radius * radius)
            };
            let half = 0.5 * spot.contour_along;
            for side in [-1.0, 1.0] {
                let end = spot.contour_shift + side * half;
                let slack = 1e-13 / (1.0 - e);
                assert!(inside(end, 0.0).abs() < slack, "{e} {u}: {:e}", inside(end, 0.0));
                assert!(inside(end * (1.0 - 1e-6) + spot.contour_shift * 1e-6, 0.0) > 0.0, "{e} {u}");
                assert!(inside(end + side * half * 1e-6, 0.0) < 0.0, "{e} {u}");
                assert!(inside(end, 1e-3 * spot.diameter_across) < 0.0, "{e} {u}");
            }
        }
    }
}

/// Lambert's cosine law of irradiance (J. H. Lambert, *Photometria*, 1760; from memory): light that
/// slants by φ makes cos φ of the irradiance. For a beam of small cone the power that lands on the
/// footprint is then that of the level spot.
#[test]
fn cosine_law() {
    let slender = Beam { waist_diameter: 1e-3, ..beam() };
    let printed = [
        (0.0_f64, 1.0),
        (15.0, 0.965_926),
        (30.0, 0.866_025),
        (45.0, std::f64::consts::FRAC_1_SQRT_2),
        (60.0, 0.5),
        (75.0, 0.258_819),
    ];
    for (degrees, printed) in printed {
        let spot = tilted_spot(&slender, 0.0, degrees.to_radians()).unwrap();
        assert!((spot.irradiance_ratio - printed).abs() < 5e-7, "{degrees}");
        let area = spot.diameter_across * spot.diameter_along / (1e-3 * 1e-3);
        assert!((area * spot.irradiance_ratio - 1.0).abs() < 1e-14);
        // Hardly any cone, and the contour is the footprint.
        assert!((spot.contour_along / spot.diameter_along - 1.0).abs() < 1e-5);
    }
}
