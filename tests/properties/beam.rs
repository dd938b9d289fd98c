//! A round beam about its waist.

use super::given::*;
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::focus::defocus;
use spotwise::model::optics::{
    Beam, beam_at, beam_parameters, diameters_at, m2_from_divergence, waist_from_divergence,
    waist_from_rayleigh_range,
};
use std::f64::consts::SQRT_2;

proptest! {
    #![proptest_config(config())]

    #[test]
    fn symmetric_about_the_waist((beam, z) in beam_and_z()) {
        let (there, here) = (beam_at(&beam, z).unwrap(), beam_at(&beam, -z).unwrap());
        same_bits(there.diameter, here.diameter);
        opposite(there.wavefront_curvature, here.wavefront_curvature);
        if z != 0.0 {
            opposite(there.wavefront_radius, here.wavefront_radius);
        }
        prop_assert_eq!(defocus(&beam, z).unwrap(), defocus(&beam, -z).unwrap());
    }

    #[test]
    fn grows_away_from_the_waist((beam, z) in beam_and_z(), share in 0.0f64..=1.0) {
        let (nearer, farther) = (beam_at(&beam, share * z).unwrap(), beam_at(&beam, z).unwrap());
        // Each of its steps keeps the order, rounding included.
        prop_assert!(beam.waist_diameter <= nearer.diameter && nearer.diameter <= farther.diameter);
        let (nearer, farther) = (defocus(&beam, share * z).unwrap(), defocus(&beam, z).unwrap());
        in_order(nearer.growth_minus_one, farther.growth_minus_one, 2.0);
        in_order(farther.irradiance_ratio, nearer.irradiance_ratio, 2.0);
        in_order(farther.line_dose_ratio, nearer.line_dose_ratio, 2.0);
    }

    #[test]
    fn one_diameter_by_every_way((beam, z) in beam_and_z()) {
        let diameter = beam_at(&beam, z).unwrap().diameter;
        let mut many = [0.0; 3];
        let cone = diameters_at(&beam, &[z, 0.0, -z], &mut many).unwrap();
        let here = beam_at(&beam, z).unwrap();
        same_bits(cone.half_angle, here.half_angle);
        prop_assert_eq!(cone.validity, here.validity);
        same_bits(many[0], diameter);
        same_bits(many[1], beam.waist_diameter);
        same_bits(many[2], diameter);
        // The form that vectorises rounds at every step, this one once.
        close(defocus(&beam, z).unwrap().diameter, diameter, 6.0);
    }

    /// z_R goes with d₀² and 1/(M²·λ), θ with M²·λ/d₀, and all lengths together change nothing.
    #[test]
    fn scaling_laws((beam, z) in beam_and_z(), a in power_of_two()) {
        let p = beam_parameters(&beam).unwrap();
        let scaled = |wavelength, m2, waist_diameter| {
            beam_parameters(&Beam {
                wavelength: beam.wavelength * wavelength,
                m2: beam.m2 * m2,
                waist_diameter: beam.waist_diameter * waist_diameter,
            })
        };
        if let Ok(q) = scaled(1.0, 1.0, a) {
            same_bits(q.rayleigh_range, p.rayleigh_range * (a * a));
            same_bits(q.divergence_full_angle, p.divergence_full_angle / a);
            same_bits(q.beam_parameter_product, p.beam_parameter_product);
        }
        for result in [scaled(a, 1.0, 1.0), scaled(1.0, a, 1.0)].into_iter().flatten() {
            same_bits(result.rayleigh_range, p.rayleigh_range / a);
            same_bits(result.divergence_half_angle, p.divergence_half_angle * a);
            same_bits(result.beam_parameter_product, p.beam_parameter_product * a);
        }
        let larger = Beam {
            wavelength: beam.wavelength * a,
            m2: beam.m2,
            waist_diameter: beam.waist_diameter * a,
        };
        if let (Ok(there), here) = (defocus(&larger, z * a), defocus(&beam, z).unwrap()) {
            same_bits(there.diameter, here.diameter * a);
            same_bits(there.growth_minus_one, here.growth_minus_one);
            same_bits(there.irradiance_ratio, here.irradiance_ratio);
        }
    }

    #[test]
    fn parameters_agree_with_each_other(beam in any_beam()) {
        let p = beam_parameters(&beam).unwrap();
        same_bits(p.divergence_full_angle, 2.0 * p.divergence_half_angle);
        close(p.beam_parameter_product, beam.waist_diameter * p.divergence_full_angle / 4.0, 3.0);
        close(p.rayleigh_range * p.divergence_full_angle, beam.waist_diameter, 3.0);
    }

    #[test]
    fn waist_comes_back(beam in any_beam()) {
        let p = beam_parameters(&beam).unwrap();
        // At the ends of a range the way back may round to the outside.
        prop_assume!(!at_an_end(&beam));
        let d0 = waist_from_rayleigh_range(beam.wavelength, beam.m2, p.rayleigh_range).unwrap();
        close(d0, beam.waist_diameter, 2.0);
        if p.divergence_full_angle >= Param::DivergenceFullAngle.range().0 {
            let d0 = waist_from_divergence(beam.wavelength, beam.m2, p.divergence_full_angle).unwrap();
            close(d0, beam.waist_diameter, 2.0);
        }
    }

    #[test]
    fn m2_comes_back(beam in any_beam()) {
        prop_assume!(!at_an_end(&beam));
        let angle = beam_parameters(&beam).unwrap().divergence_full_angle;
        let m2 = m2_from_divergence(beam.wavelength, beam.waist_diameter, angle).unwrap();
        close(m2, beam.m2, 2.0);
    }

    /// A perfect beam's own angle is never taken for less than M² = 1, however it was rounded.
    #[test]
    fn a_perfect_beam_is_not_refused(beam in any_beam()) {
        prop_assume!(!at_an_end(&beam));
        let beam = Beam { m2: 1.0, ..beam };
        let angle = beam_parameters(&beam).unwrap().divergence_full_angle;
        prop_assume!(angle >= Param::DivergenceFullAngle.range().0);
        let m2 = m2_from_divergence(beam.wavelength, beam.waist_diameter, angle).unwrap();
        in_order(1.0, m2, 0.0);
        close(m2, 1.0, 2.0);
    }

    /// The widest angle allowed gives a beam that is allowed, however its waist was rounded.
    #[test]
    fn the_widest_angle_is_not_refused(beam in any_beam()) {
        let (_, widest) = Param::DivergenceFullAngle.range();
        let waist = waist_from_divergence(beam.wavelength, beam.m2, widest);
        prop_assume!(waist.is_ok() || waist.as_ref().unwrap_err().param() == Param::WaistDiameter);
        if let Ok(waist_diameter) = waist {
            beam_parameters(&Beam { waist_diameter, ..beam }).unwrap();
        }
    }

    /// d → θ·z far from the waist, from above: d/(θ·z) = √(1 + 1/u²).
    #[test]
    fn far_field(beam in any_beam(), u in spread(1e2, 1e8)) {
        let p = beam_parameters(&beam).unwrap();
        let z = u * p.rayleigh_range;
        prop_assume!(z <= Param::Z.range().1);
        let section = beam_at(&beam, z).unwrap();
        let ratio = section.diameter / (p.divergence_full_angle * z);
        in_order(1.0, ratio, 6.0);
        in_order(ratio, 1.0 + 0.5 / (u * u), 6.0);
        // The wave is a sphere about the waist: R → z, from above.
        in_order(z, section.wavefront_radius, 2.0);
        in_order(section.wavefront_radius, z * (1.0 + 1.0 / (u * u)), 6.0);
    }

    /// Growth − 1 → u²/2 near the waist, from below; R → z_R²/z.
    #[test]
    fn near_field(beam in any_beam(), u in spread(1e-12, 1e-3)) {
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        let z = u * zr;
        prop_assume!(z <= Param::Z.range().1);
        let growth = defocus(&beam, z).unwrap().growth_minus_one;
        in_order(growth, 0.5 * u * u, 6.0);
        in_order(0.5 * u * u * (1.0 - 0.25 * u * u), growth, 6.0);
        let radius = beam_at(&beam, z).unwrap().wavefront_radius;
        in_order(zr / u, radius, 6.0);
        in_order(radius, zr / u * (1.0 + u * u), 6.0);
    }

    /// The wave is most curved one Rayleigh range from the waist, where d has grown by √2.
    #[test]
    fn wavefront((beam, z) in beam_and_z()) {
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        let section = beam_at(&beam, z).unwrap();
        in_order(section.wavefront_curvature.abs(), 0.5 / zr, 2.0);
        if z != 0.0 {
            close(section.wavefront_curvature * section.wavefront_radius, 1.0, 3.0);
            in_order(2.0 * zr, section.wavefront_radius.abs(), 2.0);
        } else {
            prop_assert_eq!(section.wavefront_curvature, 0.0);
            prop_assert_eq!(section.wavefront_radius, f64::INFINITY);
        }
        if zr <= Param::Z.range().1 {
            let section = beam_at(&beam, zr).unwrap();
            close(section.wavefront_radius, 2.0 * zr, 2.0);
            close(section.diameter, SQRT_2 * beam.waist_diameter, 3.0);
        }
    }
}

/// Whether a beam lies so close to the end of a range that a rounding may leave it.
fn at_an_end(beam: &Beam) -> bool {
    let close_to = |value: f64, end: f64| (value / end - 1.0).abs() < 1e-14;
    let ends =
        |param: Param, value: f64| close_to(value, param.range().0) || close_to(value, param.range().1);
    ends(Param::M2, beam.m2) || ends(Param::WaistDiameter, beam.waist_diameter)
}
