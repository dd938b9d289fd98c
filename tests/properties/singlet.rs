//! The single-piece lens: its form, its aberration, and what it makes of a beam.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::focus::{DepthCriterion, defocus, depth_of_focus};
use spotwise::model::optics::{
    AberratedWaist, AberrationGrowth, AstigmaticBeam, Axis, Beam, Element, LensShape, Singlet, SingletFocus,
    SpotMeasure, aberration_growth, beam_after_path, beam_parameters, focus_singlet, focus_through_lens,
    lens_aberration, lens_from_radii, power_through_aperture, smallest_spot,
};
use spotwise::{Level, Param, Validity};
use std::f64::consts::PI;

/// A radius of either sign, or a flat.
fn radius() -> BoxedStrategy<f64> {
    prop_oneof![
        6 => (any::<bool>(), spread(1e-3, 1e3)).prop_map(|(minus, r)| if minus { -r } else { r }),
        1 => prop::sample::select(vec![f64::INFINITY, f64::NEG_INFINITY]),
    ]
    .boxed()
}

fn singlet() -> impl Strategy<Value = Singlet> {
    (lens_index(), lens_shape(), any::<bool>(), spread(1e-3, 10.0)).prop_map(|(index, shape, minus, f)| {
        Singlet { index, shape, focal_length: if minus { -f } else { f } }
    })
}

/// Normalised aberrations from none to beyond all that has a value.
fn any_aberration() -> BoxedStrategy<f64> {
    prop_oneof![4 => 0.0f64..1.7, 1 => spread(1e-9, 1.0), 1 => spread(1.7, 20.0)].boxed()
}

/// The flags that a normalised aberration raises.
fn flags_of(t: f64) -> Validity {
    let when = |applies, flag| if applies { flag } else { Validity::FINE };
    when(t > 0.3, Validity::ABERRATED)
        .union(when(t > 1.0, Validity::STRONGLY_ABERRATED))
        .union(when(t > 1.7, Validity::NO_POWER86))
}

/// The fields that are NaN if refused.
fn refusable(growth: &AberrationGrowth) -> [f64; 3] {
    [growth.power86_growth, growth.power86_shift, growth.peak_irradiance_ratio]
}

/// π·d²/(4·M²·λ) is the Rayleigh range of a waist that is told with it.
fn is_a_beam(waist: &AberratedWaist, wavelength: f64) {
    let beam = Beam { wavelength, m2: waist.m2, waist_diameter: waist.waist_diameter };
    close(beam_parameters(&beam).unwrap().rayleigh_range, waist.rayleigh_range, 4.0);
    let half = depth_of_focus(&beam, DepthCriterion::Rayleigh).unwrap().away_from_lens_z;
    close(defocus(&beam, half).unwrap().diameter, waist.waist_diameter * 2f64.sqrt(), 8.0);
}

proptest! {
    #![proptest_config(config())]

    // --- Form --------------------------------------------------------------------------------

    /// A lens turned round has the same focal length, and its shape factor with the other sign.
    #[test]
    fn a_lens_turned_round(n in lens_index(), first in radius(), second in radius()) {
        let (here, there) = (lens_from_radii(n, first, second), lens_from_radii(n, -second, -first));
        match (here, there) {
            (Ok(here), Ok(there)) => {
                same_bits(there.focal_length, here.focal_length);
                opposite(there.shape_factor, here.shape_factor);
            }
            (Err(here), Err(there)) => prop_assert_eq!(here.param(), there.param()),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn form_scales_with_its_radii(n in lens_index(), first in radius(), second in radius(), k in power_of_two()) {
        if let (Ok(form), Ok(scaled)) = (lens_from_radii(n, first, second), lens_from_radii(n, k * first, k * second)) {
            same_bits(scaled.focal_length, k * form.focal_length);
            same_bits(scaled.shape_factor, form.shape_factor);
        }
    }

    /// From focal length and shape factor back to the radii: 1/R₁ = (q + 1)/(2·f·(n − 1)),
    /// 1/R₂ = (q − 1)/(2·f·(n − 1)).
    #[test]
    fn radii_come_back(n in lens_index(), first in radius(), second in radius()) {
        if let Ok(form) = lens_from_radii(n, first, second) {
            let power = 2.0 * form.focal_length * (n - 1.0);
            let curvature = |r: f64| if r.is_infinite() { 0.0 } else { 1.0 / r };
            let scale = (1.0 / power).abs() * (1.0 + form.shape_factor.abs());
            near((form.shape_factor + 1.0) / power, curvature(first), 16.0 * f64::EPSILON * scale);
            near((form.shape_factor - 1.0) / power, curvature(second), 16.0 * f64::EPSILON * scale);
        }
    }

    #[test]
    fn plano_convex_is_one(n in lens_index(), r in spread(1e-3, 1e3), other in any::<bool>()) {
        let flat = if other { f64::INFINITY } else { f64::NEG_INFINITY };
        let form = lens_from_radii(n, r, flat).unwrap();
        prop_assert_eq!(form.shape_factor, 1.0);
        close(form.focal_length, r / (n - 1.0), 1.0);
        prop_assert_eq!(lens_from_radii(n, flat, -r).unwrap().shape_factor, -1.0);
        prop_assert_eq!(lens_from_radii(n, r, -r).unwrap().shape_factor, 0.0);
    }

    // --- Aberration --------------------------------------------------------------------------

    /// No shape has less aberration than the best form, and the growth away from it is a parabola.
    #[test]
    fn nothing_beats_the_best_form(lens in singlet(), q in -20.0f64..20.0) {
        let of = |shape| lens_aberration(&Singlet { shape, ..lens }).unwrap();
        let best = of(LensShape::BestForm);
        let one = of(LensShape::ShapeFactor { factor: q });
        in_order(best.blur_coefficient, one.blur_coefficient, 2.0);
        // S − S_best = (n + 2)/(n·(n − 1)²)·(q − q_best)²
        let n = lens.index;
        let bend = (n + 2.0) / (n * (n - 1.0).powi(2)) / 128.0;
        let off = q - best.shape_factor;
        near(one.blur_coefficient, best.blur_coefficient + bend * off * off, 16.0 * f64::EPSILON * one.blur_coefficient);
        // The named shapes are those of their factors.
        for (named, factor) in [(LensShape::CurvedSideFirst, 1.0), (LensShape::FlatSideFirst, -1.0)] {
            prop_assert_eq!(of(named), of(LensShape::ShapeFactor { factor }));
        }
    }

    /// The blur k is that of the wavefront: C₄ = 4·k/f³, of the sign of f.
    #[test]
    fn blur_and_wavefront(lens in singlet(), scale in power_of_two()) {
        let here = lens_aberration(&lens).unwrap();
        close(here.wavefront_coefficient, 4.0 * here.blur_coefficient / lens.focal_length.powi(3), 6.0);
        let other = lens_aberration(&Singlet { focal_length: -scale * lens.focal_length, ..lens }).unwrap();
        same_bits(other.blur_coefficient, here.blur_coefficient);
        same_bits(other.wavefront_coefficient, -here.wavefront_coefficient / scale.powi(3));
    }

    // --- Growth ------------------------------------------------------------------------------

    #[test]
    fn growth_does_not_know_the_sign(m2 in spread(1.0, 50.0), t in any_aberration()) {
        let (plus, minus) = (aberration_growth(m2, t * m2).unwrap(), aberration_growth(m2, -t * m2).unwrap());
        opposite(plus.second_moment_shift, minus.second_moment_shift);
        prop_assert!(plus.power86_shift.is_nan() || plus.power86_shift == -minus.power86_shift);
        // A positive phase brings the focus nearer to the lens.
        prop_assert!(plus.second_moment_shift < 0.0);
        let rest = |g: AberrationGrowth| {
            let g = AberrationGrowth { second_moment_shift: 0.0, power86_shift: 0.0, ..g };
            format!("{g:?}")
        };
        prop_assert_eq!(rest(plus), rest(minus));
    }

    /// Everything grows with the aberration, and the peak falls.
    #[test]
    fn growth_grows(m2 in spread(1.0, 50.0), t in any_aberration(), more in 1.0f64..3.0) {
        let (weak, strong) = (aberration_growth(m2, t * m2).unwrap(), aberration_growth(m2, more * t * m2).unwrap());
        in_order(weak.second_moment_growth, strong.second_moment_growth, 2.0);
        in_order(weak.handbook_growth, strong.handbook_growth, 2.0);
        in_order(weak.quadrature_growth, strong.quadrature_growth, 2.0);
        in_order(strong.second_moment_shift, weak.second_moment_shift, 2.0);
        if !strong.power86_growth.is_nan() {
            in_order(weak.power86_growth, strong.power86_growth, 4.0);
            in_order(strong.power86_shift, weak.power86_shift, 4.0);
            in_order(strong.peak_irradiance_ratio, weak.peak_irradiance_ratio, 4.0);
            // The bracket.
            in_order(weak.quadrature_growth, weak.handbook_growth, 2.0);
            if weak.validity.level() < Level::OutOfDomain {
                in_order(weak.quadrature_growth, weak.power86_growth, 4.0);
                in_order(weak.power86_growth, weak.handbook_growth, 4.0);
            }
        }
    }

    /// Second moments know M² and α only as t.
    #[test]
    fn second_moments_go_with_the_normalised_aberration(m2 in spread(1.0, 50.0), t in any_aberration()) {
        let g = aberration_growth(m2, t * m2).unwrap();
        close(g.second_moment_growth, (1.0 + 2.0 * t * t).sqrt(), 8.0);
        close(g.second_moment_m2, m2 * g.second_moment_growth, 4.0);
        close(g.second_moment_shift, -2.0 * t, 4.0);
        close(g.handbook_growth, 1.0 + 0.5 * t, 4.0);
        close(g.quadrature_growth, 1f64.hypot(0.5 * t), 4.0);
    }

    #[test]
    fn no_aberration_no_growth(m2 in across(Param::M2), zero in prop::sample::select(vec![0.0, -0.0])) {
        let g = aberration_growth(m2, zero).unwrap();
        same_bits(g.second_moment_m2, m2);
        for growth in [g.second_moment_growth, g.power86_growth, g.handbook_growth, g.quadrature_growth] {
            same_bits(growth, 1.0);
        }
        prop_assert_eq!((g.peak_irradiance_ratio, g.second_moment_shift, g.power86_shift), (1.0, 0.0, 0.0));
        prop_assert_eq!(g.validity, Validity::FINE);
    }

    /// A flag for each threshold and no other; a number is missing only where its flag is set.
    #[test]
    fn flags_follow_the_normalised_aberration(m2 in spread(1.0, 50.0), t in any_aberration(), more in 1.0f64..3.0) {
        let (weak, strong) = (aberration_growth(m2, t * m2).unwrap(), aberration_growth(m2, more * t * m2).unwrap());
        prop_assume!([0.3, 1.0, 1.7].iter().all(|limit| (t / limit - 1.0).abs() > 1e-12));
        prop_assert_eq!(weak.validity, flags_of(t));
        prop_assert!(strong.validity.contains(weak.validity) && strong.validity.level() >= weak.validity.level());
        for g in [weak, strong] {
            let refused = g.validity.contains(Validity::NO_POWER86);
            prop_assert!(refusable(&g).iter().all(|number| number.is_nan() == refused));
        }
    }

    // --- Focus -------------------------------------------------------------------------------

    /// The ideal part is that of the ideal lens, and the real parts follow from α by its growth.
    #[test]
    fn made_of_its_parts(it in machine(any_aberration())) {
        let focus = it.focus(f64::INFINITY).unwrap();
        let ideal = focus_through_lens(&it.raw, it.waist_to_lens, it.lens.focal_length).unwrap();
        prop_assert_eq!(focus.ideal, ideal);
        let g = aberration_growth(it.raw.m2, focus.aberration_phase).unwrap();
        close(focus.second_moment.m2, g.second_moment_m2, 2.0);
        close(focus.handbook_diameter, g.handbook_growth * ideal.waist_diameter, 3.0);
        close(focus.quadrature_diameter, g.quadrature_growth * ideal.waist_diameter, 3.0);
        close(focus.normalised_aberration, focus.aberration_phase.abs() / it.raw.m2, 2.0);
        is_a_beam(&focus.second_moment, it.raw.wavelength);
        let sum = |waist: &AberratedWaist| near(
            waist.lens_to_waist, ideal.lens_to_waist + waist.shift,
            2.0 * f64::EPSILON * (ideal.lens_to_waist.abs() + waist.shift.abs()),
        );
        sum(&focus.second_moment);
        if g.power86_growth.is_nan() {
            let none = focus.power86;
            for number in [none.waist_diameter, none.m2, none.rayleigh_range, none.shift, none.lens_to_waist] {
                prop_assert!(number.is_nan());
            }
            prop_assert!(focus.peak_irradiance_ratio.is_nan());
        } else {
            close(focus.power86.m2, g.power86_growth * it.raw.m2, 8.0);
            // A beam of the same width at the lens and of that M², converged by what the shift of a sharp
            // focus stands for.
            let d = ideal.diameter_at_lens;
            let flat = 4.0 * it.raw.wavelength / (PI * d * d);
            let convergence = 1.0 / focus.lens_to_focus - g.power86_shift * it.raw.m2 * flat;
            let spread = flat * focus.power86.m2;
            let hypotenuse = convergence.hypot(spread);
            near(focus.power86.waist_diameter / (d * spread / hypotenuse), 1.0, 1e-12);
            near(focus.power86.rayleigh_range / (spread / hypotenuse.powi(2)), 1.0, 1e-11);
            let waist = convergence / hypotenuse.powi(2);
            near(focus.power86.lens_to_waist, waist, 1e-11 * (waist.abs() + ideal.rayleigh_range));
            // Brighter or dimmer than in a sharp focus by no more than twice its nearness.
            let share = focus.relative_rayleigh_range;
            near(focus.peak_irradiance_ratio / g.peak_irradiance_ratio, 1.0, 6.0 * share + 12.0 * share * share);
            is_a_beam(&focus.power86, it.raw.wavelength);
            sum(&focus.power86);
        }
        prop_assert!(focus.validity.contains(ideal.validity) && focus.validity.contains(g.validity));
    }

    /// A path of space and singlet comes to the same second-moment waist.
    #[test]
    fn the_path_says_the_same(it in machine(any_aberration())) {
        prop_assume!(it.waist_to_lens >= 0.0);
        let focus = it.focus(f64::INFINITY).unwrap();
        let axis = Axis { m2: it.raw.m2, waist_diameter: it.raw.waist_diameter, waist_z: 0.0 };
        let round = AstigmaticBeam { wavelength: it.raw.wavelength, x: axis, y: axis };
        let elements = [
            Element::Space { length: it.waist_to_lens },
            Element::Singlet {
                focal_length: it.lens.focal_length,
                index: it.lens.index,
                shape_factor: focus.shape_factor,
            },
        ];
        let after = beam_after_path(&round, &elements).unwrap();
        close(after.normalised_aberration, focus.normalised_aberration, 16.0);
        for axis in [after.beam.x, after.beam.y] {
            close(axis.m2, focus.second_moment.m2, 16.0);
            close(axis.waist_diameter, focus.second_moment.waist_diameter, 64.0);
            let reach = focus.second_moment.lens_to_waist.abs() + focus.second_moment.rayleigh_range;
            near(axis.waist_z, focus.second_moment.lens_to_waist, 64.0 * f64::EPSILON * reach);
        }
    }

    /// Of a lens that hardly aberrates all waists are that of the ideal lens.
    #[test]
    fn a_weak_aberration_leaves_the_ideal_lens(it in machine(spread(1e-12, 1e-6))) {
        let focus = it.focus(f64::INFINITY).unwrap();
        let (ideal, t) = (focus.ideal, focus.normalised_aberration);
        // (a beam that spreads on its way to the lens is larger there than was drawn)
        prop_assume!(t < 1e-3);
        // (a long focus has no 86.5 %-power spot)
        let power86 = if focus.power86.waist_diameter.is_nan() { focus.second_moment } else { focus.power86 };
        for waist in [focus.second_moment, power86] {
            near(waist.waist_diameter / ideal.waist_diameter, 1.0, 4.0 * t + 1e-14);
            near(waist.rayleigh_range / ideal.rayleigh_range, 1.0, 8.0 * t + 1e-14);
            near(waist.lens_to_waist, ideal.lens_to_waist, (4.0 * t + 1e-14) * (ideal.rayleigh_range + ideal.lens_to_waist.abs()));
        }
        prop_assert!(focus.peak_irradiance_ratio.is_nan() || (focus.peak_irradiance_ratio - 1.0).abs() <= 2.0 * t + 1e-14);
        near(focus.handbook_diameter / ideal.waist_diameter, 1.0, t);
    }

    /// A focus far closer to the focal point than the focal length is long: second moments grow and shift
    /// as they do relative to the ideal focus.
    #[test]
    fn tight_focus_by_second_moments(it in machine((0.01f64..3.0).boxed())) {
        let focus = it.focus(f64::INFINITY).unwrap();
        let g = aberration_growth(it.raw.m2, focus.aberration_phase).unwrap();
        // What the focus shift leaves out is of the order of a few Rayleigh ranges over the focal length.
        let away = (1.0 + 4.0 * focus.normalised_aberration.powi(2)) * focus.ideal.rayleigh_range
            / focus.ideal.lens_to_waist.abs();
        prop_assume!(away < 0.01);
        near(focus.second_moment.waist_diameter / (g.second_moment_growth * focus.ideal.waist_diameter), 1.0, 8.0 * away);
        near(focus.second_moment.shift / (g.second_moment_shift * focus.ideal.rayleigh_range), 1.0, 8.0 * away / focus.normalised_aberration.min(1.0));
    }

    /// All lengths times k, wavelength included, is the same picture k times as large.
    #[test]
    fn scales_with_all_lengths(it in machine(any_aberration()), ratio in spread(0.3, 5.0), k in power_of_two()) {
        let aperture = ratio * it.raw.waist_diameter;
        let Ok(focus) = it.focus(aperture) else { return Ok(()) };
        let raw = Beam { wavelength: k * it.raw.wavelength, m2: it.raw.m2, waist_diameter: k * it.raw.waist_diameter };
        let lens = Singlet { focal_length: k * it.lens.focal_length, ..it.lens };
        let Ok(scaled) = focus_singlet(&raw, k * it.waist_to_lens, &lens, k * aperture) else { return Ok(()) };
        same_bits(scaled.ideal.waist_diameter, k * focus.ideal.waist_diameter);
        for (a, b) in [(focus.second_moment, scaled.second_moment), (focus.power86, scaled.power86)] {
            prop_assert!(a.waist_diameter.is_nan() == b.waist_diameter.is_nan());
            if !a.waist_diameter.is_nan() {
                same_bits(b.waist_diameter, k * a.waist_diameter);
                same_bits(b.m2, a.m2);
                same_bits(b.rayleigh_range, k * a.rayleigh_range);
                same_bits(b.shift, k * a.shift);
                same_bits(b.lens_to_waist, k * a.lens_to_waist);
            }
        }
        same_bits(scaled.aberration_phase, focus.aberration_phase);
        same_bits(scaled.clipping_ratio, focus.clipping_ratio);
        same_bits(scaled.transmitted, focus.transmitted);
        same_bits(scaled.lens_to_focus, k * focus.lens_to_focus);
        prop_assert_eq!(scaled.validity, focus.validity);
    }

    /// An aperture takes power, raises flags and changes nothing else; a wider one does less of both.
    #[test]
    fn apertures(it in machine((0.0f64..1.7).boxed()), ratio in spread(0.2, 20.0), wider in 1.0f64..3.0) {
        let open = it.focus(f64::INFINITY).unwrap();
        prop_assert!(open.clipping_ratio == f64::INFINITY && open.transmitted == 1.0);
        let aperture = ratio * open.ideal.diameter_at_lens;
        let Ok(narrow) = it.focus(aperture) else {
            prop_assert!(ratio < 0.2 * (1.0 + 1e-12));
            return Ok(());
        };
        let wide = it.focus(wider * aperture).unwrap();
        close(narrow.clipping_ratio, ratio, 2.0);
        close(narrow.transmitted, power_through_aperture(open.ideal.diameter_at_lens, aperture).unwrap(), 8.0);
        in_order(narrow.transmitted, wide.transmitted, 4.0);
        prop_assert!(narrow.validity.contains(wide.validity) && wide.validity.contains(open.validity));
        prop_assert!(narrow.validity.level() >= wide.validity.level());
        let (caution, out) = (Validity::CLIPPED, Validity::STRONGLY_CLIPPED);
        prop_assert_eq!(narrow.validity.contains(caution), narrow.clipping_ratio < 1.8);
        prop_assert_eq!(narrow.validity.contains(out), narrow.clipping_ratio < 1.5);
        // (as text, which takes one NaN for another)
        let rest = |focus: &SingletFocus| format!("{:?}", (focus.ideal, focus.second_moment));
        prop_assert_eq!(rest(&narrow), rest(&open));
        if narrow.clipping_ratio < 1.2 {
            prop_assert!(narrow.validity.contains(Validity::NO_POWER86) && narrow.power86.waist_diameter.is_nan());
        } else {
            prop_assert_eq!(format!("{:?}", narrow.power86), format!("{:?}", open.power86));
        }
    }

    /// Formulas for a collimated beam are off by the relative focus shift, as its flag says.
    #[test]
    fn what_the_focus_shift_says(it in machine((0.0f64..1.7).boxed())) {
        let focus = it.focus(f64::INFINITY).unwrap();
        let relative = focus.ideal.focus_shift.abs() / it.lens.focal_length;
        close(focus.relative_focus_shift, relative, 2.0);
        let long = focus.ideal.rayleigh_range / focus.ideal.lens_to_waist.abs();
        prop_assume!((long - 0.05).abs() > 1e-12);
        prop_assert_eq!(focus.validity.contains(Validity::FOCUS_SHIFTED), focus.relative_focus_shift > 0.05 || long > 0.05);
        // 4·M²·λ·f/(π·D) against the waist, if the waist is a small one.
        prop_assume!(focus.ideal.waist_diameter < 0.05 * focus.ideal.diameter_at_lens);
        let collimated = 4.0 * it.raw.m2 * it.raw.wavelength * it.lens.focal_length / (PI * focus.ideal.diameter_at_lens);
        let off = (focus.ideal.waist_diameter / collimated - 1.0).abs();
        prop_assert!(off <= relative + 0.002, "{off} against {relative}");
    }

    /// 1/(1/f − c): the wavefront's own radius behind the lens, by the lens equation of rays.
    #[test]
    fn where_rays_converge(it in machine((0.0f64..1.7).boxed())) {
        let focus = it.focus(f64::INFINITY).unwrap();
        let zr = beam_parameters(&it.raw).unwrap().rayleigh_range;
        let curvature = it.waist_to_lens / (it.waist_to_lens.powi(2) + zr * zr);
        close(1.0 / focus.lens_to_focus, 1.0 / it.lens.focal_length - curvature, 64.0);
    }

    // --- Smallest spot -----------------------------------------------------------------------

    /// No other diameter makes a smaller spot, and one 10 % off a hardly larger one.
    #[test]
    fn nothing_beats_the_smallest_spot(
        wavelength in spread(3e-7, 2e-5), m2 in spread(1.0, 20.0), index in lens_index(), shape in lens_shape(),
        f in spread(0.02, 1.0), factor in 0.3f64..3.0, measure in prop::sample::select(SpotMeasure::ALL.to_vec()),
    ) {
        let lens = Singlet { index, shape, focal_length: f };
        let Ok(best) = smallest_spot(wavelength, m2, &lens, measure) else { return Ok(()) };
        let k = lens_aberration(&lens).unwrap().blur_coefficient;
        let spot = |diameter: f64| {
            let alpha = PI * k * diameter.powi(4) / (2.0 * wavelength * f.powi(3));
            let g = aberration_growth(m2, alpha).unwrap();
            let growth = match measure {
                SpotMeasure::SecondMoment => g.second_moment_growth,
                SpotMeasure::Power86 => g.power86_growth,
                _ => g.handbook_growth,
            };
            (4.0 * m2 * wavelength * f / (PI * diameter) * growth, alpha)
        };
        let (there, alpha) = spot(best.diameter_at_lens);
        close(best.spot_diameter, there, 32.0);
        close(best.aberration_phase, alpha, 64.0);
        let other = spot(factor * best.diameter_at_lens).0;
        if !other.is_nan() {
            in_order(best.spot_diameter, other, 64.0);
        }
        if measure == SpotMeasure::Power86 {
            for off in [0.9, 1.1] {
                prop_assert!(spot(off * best.diameter_at_lens).0 < 1.022 * best.spot_diameter);
            }
            let t = best.aberration_phase / m2;
            prop_assert!((0.68..0.95).contains(&t), "{t}");
        }
        prop_assert_eq!(best.validity.contains(Validity::ABERRATED), best.aberration_phase / m2 > 0.3);
    }

    /// A collimated beam of that diameter, through that lens, makes that spot.
    #[test]
    fn the_smallest_spot_is_made(m2 in spread(1.0, 5.0), index in lens_index(), shape in lens_shape(), f in spread(0.02, 0.3)) {
        let (wavelength, lens) = (1e-6, Singlet { index, shape, focal_length: f });
        let Ok(best) = smallest_spot(wavelength, m2, &lens, SpotMeasure::Power86) else { return Ok(()) };
        let raw = Beam { wavelength, m2, waist_diameter: best.diameter_at_lens };
        let focus = focus_singlet(&raw, 0.0, &lens, f64::INFINITY).unwrap();
        // The waist of a beam that is collimated by name only lies f/z_R inside the focal point.
        // Its focus lies nearer by up to two Rayleigh ranges, and is smaller by that share of the focal length.
        let budget = 2.0 * f / beam_parameters(&raw).unwrap().rayleigh_range + 1e-13;
        near(focus.power86.waist_diameter / best.spot_diameter, 1.0, budget);
        near(focus.aberration_phase / best.aberration_phase, 1.0, 1e-13);
    }
}
