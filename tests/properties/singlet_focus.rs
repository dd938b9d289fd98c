//! Z-offset and depth of focus behind a single-piece lens.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::focus::{
    DepthCriterion, SingletDefocus, SingletDepth, defocus, depth_of_focus, singlet_defocus,
    singlet_depth_of_focus,
};
use spotwise::model::optics::{AberratedWaist, Beam, SingletFocus, SpotMeasure};
use spotwise::{CAUTION_OFF_FOCUS_CLIPPING, CAUTION_OFF_FOCUS_IRRADIANCE, Error, Param, Validity};

/// Normalised aberrations with a value by either measure, or by second moments alone.
fn aberration() -> BoxedStrategy<f64> {
    prop_oneof![5 => 0.0f64..1.7, 1 => spread(1e-9, 1.0), 1 => 1.71f64..5.0].boxed()
}

fn measure() -> impl Strategy<Value = SpotMeasure> {
    prop::sample::select(vec![SpotMeasure::SecondMoment, SpotMeasure::Power86])
}

/// Clear apertures over the beam, of which the narrow ones clip it.
fn aperture() -> BoxedStrategy<f64> {
    prop_oneof![2 => Just(f64::INFINITY), 2 => 1.0f64..3.0].boxed()
}

fn waist_by(focus: &SingletFocus, measure: SpotMeasure) -> AberratedWaist {
    match measure {
        SpotMeasure::SecondMoment => focus.second_moment,
        SpotMeasure::Power86 => focus.power86,
        other => panic!("{other:?}"),
    }
}

fn criterion() -> BoxedStrategy<DepthCriterion> {
    prop_oneof![
        (1.0f64..5.0).prop_map(|ratio| DepthCriterion::Growth { ratio }),
        Just(DepthCriterion::Rayleigh),
        (0.01f64..0.9).prop_map(|drop| DepthCriterion::IrradianceDrop { drop }),
        (0.01f64..0.9).prop_map(|drop| DepthCriterion::LineDoseDrop { drop }),
    ]
    .boxed()
}

proptest! {
    #![proptest_config(config())]

    /// In the waist it is the waist of the focus, and everywhere it carries the flags and cone of the focus.
    #[test]
    fn starts_from_the_waist(it in machine(aberration()), measure in measure(), ratio in aperture(), u in -20.0f64..20.0, criterion in criterion()) {
        let clear = ratio * it.raw.waist_diameter;
        let Ok(focus) = it.focus(clear) else { return Ok(()) };
        let waist = waist_by(&focus, measure);
        let at = |z| singlet_defocus(&it.raw, it.waist_to_lens, &it.lens, clear, measure, z);
        let range = singlet_depth_of_focus(&it.raw, it.waist_to_lens, &it.lens, clear, measure, criterion);
        if waist.waist_diameter.is_nan() {
            // No spot, no number that follows from it.
            for error in [at(0.0).unwrap_err(), range.unwrap_err()] {
                prop_assert_eq!(error.code(), 4);
                prop_assert!(matches!(
                    error.param(), Param::NormalisedAberration | Param::ClippingRatio | Param::RayleighRange
                ));
            }
            prop_assert!(focus.validity.contains(Validity::NO_POWER86));
            return Ok(());
        }
        let in_focus = at(0.0).unwrap().defocus;
        same_bits(in_focus.diameter, waist.waist_diameter);
        prop_assert_eq!((in_focus.growth, in_focus.growth_minus_one), (1.0, 0.0));
        // Off focus it is a hyperbola with the Rayleigh range that the focus tells.
        let SingletDefocus { defocus: off, numbers } = at(u * waist.rayleigh_range).unwrap();
        close(off.growth, 1f64.hypot(u), 4.0);
        close(off.irradiance_ratio, 1.0 / (1.0 + u * u), 6.0);
        let SingletDepth { range, numbers: of_range } = range.unwrap();
        opposite(range.toward_lens_z, range.away_from_lens_z);
        // The beam of the same waist and M² has the same numbers, but not the flags.
        let bare = Beam { wavelength: it.raw.wavelength, m2: waist.m2, waist_diameter: waist.waist_diameter };
        close(off.diameter, defocus(&bare, u * waist.rayleigh_range).unwrap().diameter, 12.0);
        close(range.full, depth_of_focus(&bare, criterion).unwrap().full, 12.0);
        // Offsets tell irradiance and line dose, and so does a depth by either.
        let aberrated = focus.normalised_aberration > CAUTION_OFF_FOCUS_IRRADIANCE
            || focus.clipping_ratio < CAUTION_OFF_FOCUS_CLIPPING;
        let by_light =
            matches!(criterion, DepthCriterion::IrradianceDrop { .. } | DepthCriterion::LineDoseDrop { .. });
        let flagged = |tells: bool| {
            focus.validity.union(if tells && aberrated { Validity::GAUSSIAN_OFF_FOCUS } else { Validity::FINE })
        };
        for (half_angle, validity, tells) in [
            (in_focus.half_angle, in_focus.validity, true),
            (off.half_angle, off.validity, true),
            (range.half_angle, range.validity, by_light),
        ] {
            same_bits(half_angle, focus.half_angle);
            prop_assert_eq!(validity, flagged(tells));
        }
        for told in [numbers, of_range] {
            same_bits(told.normalised_aberration, focus.normalised_aberration);
            same_bits(told.clipping_ratio, focus.clipping_ratio);
            same_bits(told.relative_focus_shift, focus.relative_focus_shift);
            same_bits(told.relative_rayleigh_range, focus.relative_rayleigh_range);
        }
    }

    /// The less the lens aberrates, the nearer it comes to the ideal lens: by t² in the waist, and by the
    /// shift of the waist, a share t of the Rayleigh range, over its distance.
    #[test]
    fn the_ideal_lens_is_a_limit(it in machine(spread(1e-6, 1e-2)), measure in measure(), u in -5.0f64..5.0) {
        let it = Machine { waist_to_lens: 0.0, ..it };
        let focus = it.focus(f64::INFINITY).unwrap();
        let (ideal, t, share) = (focus.ideal, focus.normalised_aberration, focus.relative_rayleigh_range);
        prop_assume!(share < 0.2);
        let z = u * ideal.rayleigh_range;
        let real = singlet_defocus(&it.raw, 0.0, &it.lens, f64::INFINITY, measure, z).unwrap().defocus;
        let beam = Beam { waist_diameter: ideal.waist_diameter, ..it.raw };
        let want = defocus(&beam, z).unwrap();
        let budget = 2.0 * t * t + 4.0 * t * share + 1e-14;
        near(real.diameter / want.diameter, 1.0, budget);
        near(real.irradiance_ratio, want.irradiance_ratio, 2.0 * budget);
    }

    /// The largest diameter is met at the ends, and below the waist there are none.
    #[test]
    fn largest_diameter(it in machine((0.0f64..1.7).boxed()), measure in measure(), growth in 1.001f64..50.0) {
        let focus = it.focus(f64::INFINITY).unwrap();
        let waist = waist_by(&focus, measure).waist_diameter;
        prop_assume!(!waist.is_nan());
        let depth = |diameter| {
            let criterion = DepthCriterion::LargestDiameter { diameter };
            singlet_depth_of_focus(&it.raw, it.waist_to_lens, &it.lens, f64::INFINITY, measure, criterion)
        };
        let end = depth(growth * waist).unwrap().range.away_from_lens_z;
        let there = singlet_defocus(&it.raw, it.waist_to_lens, &it.lens, f64::INFINITY, measure, end).unwrap();
        close(there.defocus.diameter, growth * waist, 12.0);
        let error = depth(waist / growth).unwrap_err();
        prop_assert_eq!((error.code(), error.param()), (5, Param::LargestDiameter));
    }

    /// The handbook gives a spot but no beam, and says so before any number is looked at.
    #[test]
    fn the_handbook_gives_no_beam(it in machine((0.0f64..1.0).boxed())) {
        let want = Error::UnknownChoice { param: Param::SpotMeasure, value: SpotMeasure::Handbook as u32 };
        let nothing = Beam { wavelength: f64::NAN, ..it.raw };
        for raw in [it.raw, nothing] {
            let off = singlet_defocus(&raw, it.waist_to_lens, &it.lens, f64::INFINITY, SpotMeasure::Handbook, 0.0);
            prop_assert_eq!(off.unwrap_err(), want);
            let depth = singlet_depth_of_focus(
                &raw, it.waist_to_lens, &it.lens, f64::INFINITY, SpotMeasure::Handbook, DepthCriterion::Rayleigh,
            );
            prop_assert_eq!(depth.unwrap_err(), want);
        }
        prop_assert!(want.to_string().contains("not offered here"));
    }
}
