//! Flat plates, and focus inside a transparent part.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::optics::{Beam, beam_parameters, focus_behind_plate, focus_inside};
use spotwise::{Param, Validity};

fn index() -> BoxedStrategy<f64> {
    prop_oneof![4 => 1.01f64..6.0, 1 => Just(1.01), 1 => Just(1.5)].boxed()
}

/// A beam as machines have it and a plate that does not spoil it beyond measure.
fn beam() -> impl Strategy<Value = Beam> {
    (spread(2e-7, 2e-5), spread(1.0, 50.0), spread(1e-3, 0.299)).prop_map(|(wavelength, m2, half_angle)| {
        Beam { wavelength, m2, waist_diameter: 2.0 * m2 * wavelength / (std::f64::consts::PI * half_angle) }
    })
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn no_plate_does_nothing(beam in beam(), n in index()) {
        let p = focus_behind_plate(&beam, 0.0, n).unwrap();
        prop_assert_eq!((p.focus_shift, p.edge_focus_shift, p.normalised_aberration), (0.0, 0.0, 0.0));
        prop_assert_eq!(p.aberration_phase, 0.0);
        let inside = focus_inside(&beam, 0.0, n).unwrap();
        prop_assert_eq!((inside.depth, inside.edge_depth, inside.normalised_aberration), (0.0, 0.0, 0.0));
    }

    /// Two plates do what one of their joint thickness does.
    #[test]
    fn plates_add_up(beam in beam(), n in index(), a in spread(1e-6, 1e-2), b in spread(1e-6, 1e-2)) {
        let of = |t| focus_behind_plate(&beam, t, n).unwrap();
        let (one, other, both) = (of(a), of(b), of(a + b));
        close(both.focus_shift, one.focus_shift + other.focus_shift, 4.0);
        close(both.edge_focus_shift, one.edge_focus_shift + other.edge_focus_shift, 8.0);
        close(both.aberration_phase, one.aberration_phase + other.aberration_phase, 6.0);
    }

    /// The edge of the cone is moved farther than its middle, and by as much in a narrow cone.
    #[test]
    fn the_edge_is_moved_farther(beam in beam(), n in index(), t in spread(1e-6, 1e-2)) {
        let p = focus_behind_plate(&beam, t, n).unwrap();
        prop_assert!(0.0 < p.focus_shift && p.focus_shift < t);
        in_order(p.focus_shift, p.edge_focus_shift, 2.0);
        prop_assert!(p.edge_focus_shift < t);
        prop_assert!(p.aberration_phase < 0.0);
        close(p.normalised_aberration, -p.aberration_phase / beam.m2, 2.0);
        let theta = beam_parameters(&beam).unwrap().divergence_half_angle;
        // The next order of the edge's shift: t·(n² − 1)/(2·n³)·θ², and θ⁴ beyond.
        let next = t * (n * n - 1.0) / (2.0 * n.powi(3)) * theta * theta;
        near(p.edge_focus_shift - p.focus_shift, next, theta * theta * next + 8.0 * f64::EPSILON * t);
    }

    /// Lowering the lens by Δ is a depth of n·Δ, which as a plate brings the focus back by what it gained.
    #[test]
    fn inside_is_a_plate_as_thick_as_the_depth(beam in beam(), n in index(), lowered in spread(1e-6, 1e-2)) {
        let inside = focus_inside(&beam, lowered, n).unwrap();
        close(inside.depth, n * lowered, 1.0);
        close(inside.rayleigh_range, n * beam_parameters(&beam).unwrap().rayleigh_range, 2.0);
        in_order(inside.depth, inside.edge_depth, 2.0);
        let plate = focus_behind_plate(&beam, inside.depth, n).unwrap();
        close(plate.aberration_phase, inside.aberration_phase, 4.0);
        near(plate.focus_shift, inside.depth - lowered, 4.0 * f64::EPSILON * inside.depth);
        // A plate as thick as the edge's depth brings the edge's crossing to where it was without it.
        let edge = focus_behind_plate(&beam, inside.edge_depth, n).unwrap();
        near(edge.edge_focus_shift, inside.edge_depth - lowered, 8.0 * f64::EPSILON * inside.edge_depth);
    }

    #[test]
    fn scales_with_all_lengths(beam in beam(), n in index(), t in spread(1e-6, 1e-2), k in power_of_two()) {
        let scaled = Beam { wavelength: k * beam.wavelength, m2: beam.m2, waist_diameter: k * beam.waist_diameter };
        let Ok(b) = focus_behind_plate(&scaled, k * t, n) else { return Ok(()) };
        let a = focus_behind_plate(&beam, t, n).unwrap();
        same_bits(b.focus_shift, k * a.focus_shift);
        same_bits(b.edge_focus_shift, k * a.edge_focus_shift);
        same_bits(b.aberration_phase, a.aberration_phase);
        prop_assert_eq!(a.validity, b.validity);
        let (a, b) = (focus_inside(&beam, t, n).unwrap(), focus_inside(&scaled, k * t, n).unwrap());
        same_bits(b.edge_depth, k * a.edge_depth);
        same_bits(b.aberration_phase, a.aberration_phase);
    }

    /// More glass never makes the result more trustworthy.
    #[test]
    fn flags_grow_with_the_thickness(beam in beam(), n in index(), t in spread(1e-6, 5e-3), more in 1.0f64..100.0) {
        let (thin, thick) = (focus_behind_plate(&beam, t, n), focus_behind_plate(&beam, more * t, n));
        let Ok(thick) = thick else {
            prop_assert_eq!(thick.unwrap_err().param(), Param::AberrationPhase);
            return Ok(());
        };
        let thin = thin.unwrap();
        prop_assert!(thick.validity.contains(thin.validity) && thin.validity.level() <= thick.validity.level());
        prop_assert_eq!(thick.validity.contains(Validity::ABERRATED), thick.normalised_aberration > 0.3);
        prop_assert_eq!(thick.validity.contains(Validity::STRONGLY_ABERRATED), thick.normalised_aberration > 1.0);
        prop_assert_eq!(thick.validity.contains(Validity::NO_POWER86), thick.normalised_aberration > 1.7);
    }
}
