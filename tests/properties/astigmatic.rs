//! A beam with two waists.

use super::given::*;
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use spotwise::model::focus::{
    DepthCriterion, astigmatic_defocus, astigmatic_depth_of_focus, defocus, depth_of_focus,
};
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, astigmatic_at, astigmatic_parameters, beam_at, beam_parameters,
};
use spotwise::{Error, Param, Validity};

/// Places of a dense search.
const STEPS: u32 = 1500;

/// Evenly spaced places, from well before the first waist to well behind the last.
fn places(beam: &AstigmaticBeam) -> impl Iterator<Item = f64> {
    let p = astigmatic_parameters(beam).unwrap();
    let reach = 2.0 * p.rayleigh_range_x.max(p.rayleigh_range_y);
    let from = beam.x.waist_z.min(beam.y.waist_z) - reach;
    let to = beam.x.waist_z.max(beam.y.waist_z) + reach;
    (0..=STEPS).map(move |step| from + (to - from) * f64::from(step) / f64::from(STEPS))
}

/// What a criterion limits, at a place: the larger growth or diameter, or the drop.
fn measure(beam: &AstigmaticBeam, criterion: DepthCriterion, z: f64) -> f64 {
    let off = astigmatic_defocus(beam, z).unwrap();
    match criterion {
        DepthCriterion::Growth { .. } | DepthCriterion::Rayleigh => off.growth_x.max(off.growth_y),
        DepthCriterion::LargestDiameter { .. } => {
            let at = astigmatic_at(beam, z).unwrap();
            at.diameter_x.max(at.diameter_y)
        }
        DepthCriterion::IrradianceDrop { .. } => 1.0 - off.irradiance_ratio,
        DepthCriterion::LineDoseDrop { .. } => {
            1.0 - off.line_dose_ratio_along_x.min(off.line_dose_ratio_along_y)
        }
        other => panic!("{other:?}"),
    }
}

/// The limit that a criterion sets to its [`measure`].
fn limit(criterion: DepthCriterion) -> f64 {
    match criterion {
        DepthCriterion::Growth { ratio } => ratio,
        DepthCriterion::Rayleigh => std::f64::consts::SQRT_2,
        DepthCriterion::LargestDiameter { diameter } => diameter,
        DepthCriterion::IrradianceDrop { drop } | DepthCriterion::LineDoseDrop { drop } => drop,
        other => panic!("{other:?}"),
    }
}

/// The same criterion with another limit.
fn with_limit(criterion: DepthCriterion, limit: f64) -> DepthCriterion {
    match criterion {
        DepthCriterion::Growth { .. } => DepthCriterion::Growth { ratio: limit },
        DepthCriterion::LargestDiameter { .. } => DepthCriterion::LargestDiameter { diameter: limit },
        DepthCriterion::IrradianceDrop { .. } => DepthCriterion::IrradianceDrop { drop: limit },
        DepthCriterion::LineDoseDrop { .. } => DepthCriterion::LineDoseDrop { drop: limit },
        other => other,
    }
}

fn criterion() -> BoxedStrategy<DepthCriterion> {
    prop_oneof![
        spread(1.001, 20.0).prop_map(|ratio| DepthCriterion::Growth { ratio }),
        Just(DepthCriterion::Rayleigh),
        (0.001f64..0.99).prop_map(|drop| DepthCriterion::IrradianceDrop { drop }),
        (0.001f64..0.99).prop_map(|drop| DepthCriterion::LineDoseDrop { drop }),
        spread(1e-6, 1e-3).prop_map(|diameter| DepthCriterion::LargestDiameter { diameter }),
    ]
    .boxed()
}

/// The least value that is reached after a greater one; infinite if the values only rise.
fn bottom_of_dip(values: impl Iterator<Item = f64>) -> f64 {
    let (mut top, mut bottom) = (f64::NEG_INFINITY, f64::INFINITY);
    for value in values {
        top = top.max(value);
        if value < top {
            bottom = bottom.min(value);
        }
    }
    bottom
}

/// Compares a depth of focus with what a dense search finds.
fn search_depth(beam: &AstigmaticBeam, criterion: DepthCriterion) -> Result<(), TestCaseError> {
    let best = |z: f64| measure(beam, criterion, z);
    let limit = limit(criterion);
    match astigmatic_depth_of_focus(beam, criterion) {
        Ok(range) => {
            prop_assert!(range.toward_lens_z <= range.away_from_lens_z);
            near(
                range.full,
                range.away_from_lens_z - range.toward_lens_z,
                4.0 * f64::EPSILON * (range.toward_lens_z.abs() + range.away_from_lens_z.abs()),
            );
            let mut outside = false;
            let margin = 1e-6 * range.full;
            for z in places(beam) {
                if z > range.toward_lens_z + margin && z < range.away_from_lens_z - margin {
                    prop_assert!(best(z) <= limit * (1.0 + 1e-12), "{} inside", best(z));
                } else if z < range.toward_lens_z - margin || z > range.away_from_lens_z + margin {
                    outside |= best(z) < limit;
                }
            }
            // Only the irradiance can have a second stretch, and then it is said.
            let second = range.validity.contains(Validity::SECOND_RANGE);
            prop_assert!(!outside || second, "a stretch outside {range:?} was not reported");
            // What is said is there, if perhaps between two steps of the search.
            let before: Vec<_> = places(beam).filter(|z| *z < range.toward_lens_z).map(best).collect();
            let behind: Vec<_> = places(beam).filter(|z| *z > range.away_from_lens_z).map(best).collect();
            let beyond = bottom_of_dip(before.into_iter().rev()).min(bottom_of_dip(behind.into_iter()));
            prop_assert!(!second || beyond < limit + 1e-2 * (1.0 - limit), "{beyond} against {limit}");
            let by_irradiance = matches!(criterion, DepthCriterion::IrradianceDrop { .. });
            prop_assert!(by_irradiance || !second);
            if range.full > 0.0 {
                for (end, step) in [(range.toward_lens_z, -1.0), (range.away_from_lens_z, 1.0)] {
                    close(best(end), limit, 1e5);
                    prop_assert!(best(end + step * 1e-3 * range.full) > limit);
                    prop_assert!(best(end - step * 1e-3 * range.full) < limit);
                }
            }
            if by_irradiance {
                prop_assert!(range.contains(astigmatic_parameters(beam).unwrap().brightest_z));
            }
        }
        Err(error) => {
            prop_assert_eq!(error.code(), 5);
            for z in places(beam) {
                prop_assert!(best(z) > limit, "{} at {z:e} meets {criterion:?}", best(z));
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    /// Two equal axes with one waist are a round beam.
    #[test]
    fn equal_axes_are_a_round_beam((beam, z) in beam_and_z(), criterion in criterion()) {
        let axis = Axis { m2: beam.m2, waist_diameter: beam.waist_diameter, waist_z: 0.0 };
        let both = AstigmaticBeam { wavelength: beam.wavelength, x: axis, y: axis };
        let round = beam_parameters(&beam).unwrap();
        let p = astigmatic_parameters(&both).unwrap();
        same_bits(p.rayleigh_range_x, round.rayleigh_range);
        same_bits(p.rayleigh_range_y, round.rayleigh_range);
        close(p.effective_rayleigh_range, round.rayleigh_range, 1.0);
        close(p.effective_waist_diameter, beam.waist_diameter, 1.0);
        close(p.m2_effective, beam.m2, 1.0);
        prop_assert_eq!(p.relative_astigmatism, 0.0);
        prop_assert_eq!((p.effective_waist_z, p.brightest_z, p.brightest_irradiance_ratio), (0.0, 0.0, 1.0));
        prop_assert_eq!(p.validity, round.validity);

        let (at, here) = (astigmatic_at(&both, z).unwrap(), beam_at(&beam, z).unwrap());
        same_bits(at.diameter_x, at.diameter_y);
        close(at.diameter_x, here.diameter, 3.0);
        close(at.effective_diameter, here.diameter, 4.0);
        close(at.equal_area_diameter, here.diameter, 4.0);
        prop_assert!(at.ellipticity == 1.0 && at.circular);
        let (off, here) = (astigmatic_defocus(&both, z).unwrap(), defocus(&beam, z).unwrap());
        close(off.growth_x, here.growth, 1.0);
        close(off.irradiance_ratio, here.irradiance_ratio, 2.0);
        close(off.line_dose_ratio_along_x, here.line_dose_ratio, 1.0);

        match (astigmatic_depth_of_focus(&both, criterion), depth_of_focus(&beam, criterion)) {
            (Ok(range), Ok(here)) => {
                close(range.away_from_lens_z, here.away_from_lens_z, 2.0);
                close(range.toward_lens_z, here.toward_lens_z, 2.0);
                prop_assert_eq!(range.validity, here.validity);
            }
            (Err(error), Err(here)) => {
                prop_assert_eq!((error.code(), error.param()), (here.code(), here.param()));
                close(error.allowed().0, here.allowed().0, 2.0);
            }
            (got, here) => prop_assert!(false, "{got:?} against {here:?}"),
        }
    }

    #[test]
    fn each_axis_is_a_round_beam_by_itself(beam in any_astigmatic(), z in across(Param::Z)) {
        let off = astigmatic_defocus(&beam, z).unwrap();
        let at = astigmatic_at(&beam, z).unwrap();
        for (axis, growth, diameter) in
            [(beam.x, off.growth_x, at.diameter_x), (beam.y, off.growth_y, at.diameter_y)]
        {
            let round = Beam { wavelength: beam.wavelength, m2: axis.m2, waist_diameter: axis.waist_diameter };
            let distance = z - axis.waist_z;
            if distance.abs() <= Param::ZOffset.range().1 {
                // The rounding of the distance, which the model does not make, adds one.
                let here = defocus(&round, distance).unwrap();
                close(growth, here.growth, 2.0);
                close(diameter, here.diameter, 4.0);
            }
        }
        close(off.irradiance_ratio * off.growth_x * off.growth_y, 1.0, 3.0);
        close(off.line_dose_ratio_along_x * off.growth_y, 1.0, 2.0);
        close(off.line_dose_ratio_along_y * off.growth_x, 1.0, 2.0);
        prop_assert!(at.ellipticity > 0.0 && at.ellipticity <= 1.0);
        in_order(at.equal_area_diameter, at.effective_diameter, 1.0);
        in_order(at.diameter_x.min(at.diameter_y), at.equal_area_diameter, 1.0);
        in_order(at.effective_diameter, at.diameter_x.max(at.diameter_y), 1.0);
    }

    #[test]
    fn swapping_the_axes_changes_their_names_only(
        beam in prop_oneof![any_astigmatic().boxed(), close_astigmatic().boxed()],
        criterion in criterion(),
        z in across(Param::Z),
    ) {
        let other = swapped(&beam);
        let (p, q) = (astigmatic_parameters(&beam).unwrap(), astigmatic_parameters(&other).unwrap());
        same_bits(p.rayleigh_range_x, q.rayleigh_range_y);
        opposite(p.waist_separation, q.waist_separation);
        for (a, b) in [
            (p.relative_astigmatism, q.relative_astigmatism),
            (p.m2_effective, q.m2_effective),
            (p.effective_waist_z, q.effective_waist_z),
            (p.effective_waist_diameter, q.effective_waist_diameter),
            (p.brightest_z, q.brightest_z),
            (p.brightest_irradiance_ratio, q.brightest_irradiance_ratio),
        ] {
            same_bits(a, b);
        }
        let (a, b) = (astigmatic_at(&beam, z).unwrap(), astigmatic_at(&other, z).unwrap());
        same_bits(a.diameter_x, b.diameter_y);
        same_bits(a.ellipticity, b.ellipticity);
        same_bits(a.effective_diameter, b.effective_diameter);
        let (a, b) = (astigmatic_defocus(&beam, z).unwrap(), astigmatic_defocus(&other, z).unwrap());
        same_bits(a.irradiance_ratio, b.irradiance_ratio);
        same_bits(a.line_dose_ratio_along_x, b.line_dose_ratio_along_y);
        let (a, b) = (astigmatic_depth_of_focus(&beam, criterion), astigmatic_depth_of_focus(&other, criterion));
        match (a, b) {
            (Ok(a), Ok(b)) => prop_assert_eq!(a, b),
            (Err(a), Err(b)) => {
                prop_assert_eq!((a.code(), a.param()), (b.code(), b.param()));
                close(a.allowed().0, b.allowed().0, 4.0);
            }
            (a, b) => prop_assert!(false, "{a:?} against {b:?}"),
        }
    }

    #[test]
    fn seen_from_the_other_side(beam in close_astigmatic(), criterion in criterion(), z in -1e-2f64..1e-2) {
        let mirror = mirrored(&beam);
        let (p, q) = (astigmatic_parameters(&beam).unwrap(), astigmatic_parameters(&mirror).unwrap());
        opposite(p.effective_waist_z, q.effective_waist_z);
        same_bits(p.effective_waist_diameter, q.effective_waist_diameter);
        let (a, b) = (astigmatic_at(&beam, z).unwrap(), astigmatic_at(&mirror, -z).unwrap());
        prop_assert_eq!(a, b);
        prop_assert_eq!(astigmatic_defocus(&beam, z).unwrap(), astigmatic_defocus(&mirror, -z).unwrap());
        // With equal Rayleigh ranges two places may be equally bright, and the nearer one to the
        // lens is chosen on both sides.
        prop_assume!(p.rayleigh_range_x != p.rayleigh_range_y);
        opposite(p.brightest_z, q.brightest_z);
        same_bits(p.brightest_irradiance_ratio, q.brightest_irradiance_ratio);
        match (astigmatic_depth_of_focus(&beam, criterion), astigmatic_depth_of_focus(&mirror, criterion)) {
            (Ok(a), Ok(b)) => {
                opposite(a.toward_lens_z, b.away_from_lens_z);
                opposite(a.away_from_lens_z, b.toward_lens_z);
                same_bits(a.full, b.full);
                prop_assert_eq!(a.validity, b.validity);
            }
            (a, b) => prop_assert_eq!(a, b),
        }
    }

    /// The effective diameter is that of a round beam about the effective waist.
    #[test]
    fn effective_beam_is_a_parabola(beam in close_astigmatic(), place in -4.0f64..4.0) {
        let p = astigmatic_parameters(&beam).unwrap();
        let z = p.effective_waist_z + place * p.effective_rayleigh_range;
        let want = p.effective_waist_diameter * (1.0 + place * place).sqrt();
        // The places of the waists are rounded relative to their size, not to the Rayleigh range.
        let far = (p.effective_waist_z.abs() + z.abs()) / p.effective_rayleigh_range;
        close(astigmatic_at(&beam, z).unwrap().effective_diameter, want, 8.0 + 8.0 * far);
    }

    /// The middle between the waists of two equal axes.
    #[test]
    fn equal_axes_at_two_places(beam in close_astigmatic()) {
        let y = Axis { waist_z: beam.y.waist_z, ..beam.x };
        let beam = AstigmaticBeam { y, ..beam };
        let p = astigmatic_parameters(&beam).unwrap();
        let (zx, zy, zr) = (beam.x.waist_z, beam.y.waist_z, p.rayleigh_range_x);
        let budget = 4.0 * f64::EPSILON * (zx.abs() + zy.abs());
        near(p.effective_waist_z, 0.5 * (zx + zy), budget);
        // Once the waists are more than two Rayleigh ranges apart, the middle turns dark and the
        // brightest places are √(s² − z_R²) from it; the one nearer the lens is meant.
        let s = 0.5 * (zy - zx).abs();
        let aside = if s > zr { ((s - zr) * (s + zr)).sqrt() } else { 0.0 };
        let steep = if aside > 0.0 { s / aside } else { 1.0 };
        near(p.brightest_z, 0.5 * (zx + zy) - aside, budget * (1.0 + steep) + 8.0 * f64::EPSILON * aside * (1.0 + steep * steep));
    }
}

proptest! {
    #![proptest_config(few_cases())]

    /// No place is brighter than the brightest, none effectively smaller than the effective waist.
    #[test]
    fn nothing_found_beats_the_best(beam in prop_oneof![close_astigmatic().boxed(), paired_astigmatic().boxed()]) {
        let p = astigmatic_parameters(&beam).unwrap();
        let best = astigmatic_defocus(&beam, p.brightest_z).unwrap().irradiance_ratio;
        close(best, p.brightest_irradiance_ratio, 4.0);
        for z in places(&beam) {
            in_order(astigmatic_defocus(&beam, z).unwrap().irradiance_ratio, p.brightest_irradiance_ratio, 2.0);
            in_order(p.effective_waist_diameter, astigmatic_at(&beam, z).unwrap().effective_diameter, 2.0);
        }
    }

    /// A depth of focus is one stretch: it holds throughout, and just outside of it does not.
    #[test]
    fn depth_of_focus_is_what_a_search_finds(
        beam in prop_oneof![close_astigmatic().boxed(), paired_astigmatic().boxed()],
        criterion in criterion(),
    ) {
        search_depth(&beam, criterion)?;
    }

    /// The same of the irradiance about a dark gap, with a drop that often leaves two stretches.
    #[test]
    fn bright_stretches_on_either_side_of_a_gap(beam in paired_astigmatic(), share in 0.0f64..1.2) {
        let p = astigmatic_parameters(&beam).unwrap();
        let middle = 0.5 * (beam.x.waist_z + beam.y.waist_z);
        let dark = 1.0 - astigmatic_defocus(&beam, middle).unwrap().irradiance_ratio;
        let bright = 1.0 - p.brightest_irradiance_ratio;
        // Far enough above the least drop for the stretch to be more than a flat top.
        let drop = (bright + share * (dark - bright)).max(bright + 1e-3 * (1.0 - bright));
        search_depth(&beam, DepthCriterion::IrradianceDrop { drop })?;
    }

    /// The least limit that an error names is the least: the strictest limit that still gives a
    /// range, found by halving down to neighbouring doubles.
    #[test]
    fn an_unreachable_limit_is_told_apart(beam in close_astigmatic(), criterion in criterion()) {
        let param = match criterion {
            DepthCriterion::Growth { .. } => Param::GrowthRatio,
            DepthCriterion::LargestDiameter { .. } => Param::LargestDiameter,
            DepthCriterion::IrradianceDrop { .. } => Param::IrradianceDrop,
            DepthCriterion::LineDoseDrop { .. } => Param::LineDoseDrop,
            _ => return Ok(()),
        };
        let refusal = |limit| astigmatic_depth_of_focus(&beam, with_limit(criterion, limit)).err();
        let (mut refused, mut reached) = param.range();
        prop_assume!(refusal(refused).is_some() && refusal(reached).is_none());
        loop {
            let middle = f64::from_bits(refused.to_bits().midpoint(reached.to_bits()));
            if middle == refused {
                break;
            }
            if refusal(middle).is_some() { refused = middle } else { reached = middle }
        }
        // Refused by a hair: the message must not name a range that holds the value.
        let Some(Error::Unreachable { param: named, value, least, greatest }) = refusal(refused) else {
            panic!("{:?}", refusal(refused));
        };
        prop_assert_eq!((named, value, greatest), (param, refused, param.range().1));
        prop_assert!(value < least, "{value:e} was refused, but {least:e} named as the least");
        close(least, reached, 8.0);
        // Refused by far: the same least is named.
        close(refusal(param.range().0).unwrap().allowed().0, least, 8.0);
    }
}

/// Two equal axes, six Rayleigh ranges apart, have two equally bright places; a drop between those
/// and the dark middle leaves two stretches, of which the one nearer the lens is returned.
#[test]
fn a_second_bright_stretch_is_reported() {
    let axis = |waist_z| Axis { m2: 5.0, waist_diameter: 30e-6, waist_z };
    let probe = AstigmaticBeam { wavelength: 450e-9, x: axis(0.0), y: axis(1e-3) };
    let zr = astigmatic_parameters(&probe).unwrap().rayleigh_range_x;
    let beam = AstigmaticBeam { x: axis(-3.0 * zr), y: axis(3.0 * zr), ..probe };
    // 1/(1 + 3²) in the middle; u and v of the bright places, ±√8 from it, have a product of 1.
    let at = |drop| astigmatic_depth_of_focus(&beam, DepthCriterion::IrradianceDrop { drop }).unwrap();
    let two = at(0.87);
    assert!(two.validity.contains(Validity::SECOND_RANGE) && two.away_from_lens_z < 0.0, "{two:?}");
    let one = at(0.91);
    assert!(!one.validity.contains(Validity::SECOND_RANGE) && one.contains(0.0), "{one:?}");
}
