//! Offsets and depth of focus of a round beam.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::focus::{
    Defocus, DepthCriterion, defocus, depth_of_focus, offsets_for_diameter, offsets_for_growth,
};
use spotwise::model::optics::{Beam, beam_parameters};
use spotwise::{Error, Param};

/// Growths from a hair above 1 to a beam far out of focus.
fn growth() -> BoxedStrategy<f64> {
    prop_oneof![spread(1e-15, 1.0).prop_map(|more| 1.0 + more), spread(1.0, 1e9)].boxed()
}

/// Either kind of drop; both have the same range.
fn drop() -> BoxedStrategy<f64> {
    let (least, greatest) = Param::IrradianceDrop.range();
    assert_eq!(Param::LineDoseDrop.range(), (least, greatest));
    prop_oneof![across(Param::IrradianceDrop), least..greatest].boxed()
}

/// Any criterion that this beam can meet.
fn criterion_for(beam: Beam) -> BoxedStrategy<DepthCriterion> {
    let widest = Param::LargestDiameter.range().1;
    prop_oneof![
        growth().prop_map(|ratio| DepthCriterion::Growth { ratio }),
        Just(DepthCriterion::Rayleigh),
        drop().prop_map(|drop| DepthCriterion::IrradianceDrop { drop }),
        drop().prop_map(|drop| DepthCriterion::LineDoseDrop { drop }),
        growth().prop_map(move |g| DepthCriterion::LargestDiameter {
            diameter: (g * beam.waist_diameter).min(widest)
        }),
    ]
    .boxed()
}

fn beam_and_criterion() -> impl Strategy<Value = (Beam, DepthCriterion)> {
    any_beam().prop_flat_map(|beam| (Just(beam), criterion_for(beam)))
}

/// By how much the growth may exceed 1 under a criterion, from its definition.
fn allowed_growth_minus_one(criterion: DepthCriterion, beam: &Beam) -> f64 {
    match criterion {
        DepthCriterion::Growth { ratio } => ratio - 1.0,
        DepthCriterion::Rayleigh => std::f64::consts::SQRT_2 - 1.0,
        // g = 1/√(1 − p), less one, without cancellation
        DepthCriterion::IrradianceDrop { drop } => (-0.5 * (-drop).ln_1p()).exp_m1(),
        DepthCriterion::LineDoseDrop { drop } => drop / (1.0 - drop),
        DepthCriterion::LargestDiameter { diameter } => {
            (diameter - beam.waist_diameter) / beam.waist_diameter
        }
        other => panic!("{other:?}"),
    }
}

/// Whether a place meets a criterion, told from what the model says of the place.
fn meets(criterion: DepthCriterion, at: &Defocus) -> bool {
    match criterion {
        DepthCriterion::Growth { ratio } => at.growth_minus_one <= ratio - 1.0,
        DepthCriterion::Rayleigh => at.growth * at.growth <= 2.0,
        DepthCriterion::IrradianceDrop { drop } => at.irradiance_ratio >= 1.0 - drop,
        DepthCriterion::LineDoseDrop { drop } => at.line_dose_ratio >= 1.0 - drop,
        DepthCriterion::LargestDiameter { diameter } => at.diameter <= diameter,
        other => panic!("{other:?}"),
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn offset_to_growth_and_back(beam in any_beam(), growth in growth()) {
        let range = offsets_for_growth(&beam, growth).unwrap();
        opposite(range.toward_lens_z, range.away_from_lens_z);
        same_bits(range.full, 2.0 * range.away_from_lens_z);
        prop_assume!(range.away_from_lens_z <= Param::ZOffset.range().1);
        for z in [range.toward_lens_z, range.away_from_lens_z] {
            let there = defocus(&beam, z).unwrap();
            close(there.growth, growth, 3.0);
            close(there.growth_minus_one, growth - 1.0, 6.0);
        }
    }

    #[test]
    fn growth_to_offset_and_back(beam in any_beam(), u in spread(1e-3, 1e6)) {
        let z = u * beam_parameters(&beam).unwrap().rayleigh_range;
        prop_assume!(z <= Param::ZOffset.range().1);
        let growth = defocus(&beam, z).unwrap().growth;
        let back = offsets_for_growth(&beam, growth).unwrap().away_from_lens_z;
        // A rounding of g counts g²/(g² − 1) times, which is 1 + 1/u².
        close(back, z, 4.0 + 2.0 * (1.0 + 1.0 / (u * u)));
    }

    #[test]
    fn offset_to_diameter_and_back(beam in any_beam(), growth in growth()) {
        let diameter = growth * beam.waist_diameter;
        prop_assume!(diameter <= Param::SpotDiameter.range().1);
        let range = offsets_for_diameter(&beam, diameter).unwrap();
        prop_assume!(range.away_from_lens_z <= Param::ZOffset.range().1);
        close(defocus(&beam, range.toward_lens_z).unwrap().diameter, diameter, 4.0);
        close(defocus(&beam, range.away_from_lens_z).unwrap().diameter, diameter, 4.0);
    }

    #[test]
    fn no_spot_is_smaller_than_the_waist(beam in any_beam(), share in 0.0f64..1.0) {
        let diameter = share * beam.waist_diameter;
        prop_assume!(diameter < beam.waist_diameter && diameter >= Param::SpotDiameter.range().0);
        let error = offsets_for_diameter(&beam, diameter).unwrap_err();
        let (least, greatest) = (beam.waist_diameter, Param::SpotDiameter.range().1);
        let want = Error::Unreachable { param: Param::SpotDiameter, value: diameter, least, greatest };
        prop_assert_eq!(error, want);
        // What the error names as the least is reached.
        prop_assert_eq!(offsets_for_diameter(&beam, least).unwrap().full, 0.0);
    }

    /// The ratios of one place agree: growth, irradiance 1/g², line dose 1/g.
    #[test]
    fn one_place_told_three_ways((beam, z) in beam_and_z()) {
        let at = defocus(&beam, z).unwrap();
        close(at.diameter / beam.waist_diameter, at.growth, 4.0);
        close(at.growth * at.line_dose_ratio, 1.0, 2.0);
        close(at.line_dose_ratio * at.line_dose_ratio, at.irradiance_ratio, 4.0);
        close(1.0 + at.growth_minus_one, at.growth, 1.0);
        prop_assert!(at.growth >= 1.0 && at.irradiance_ratio <= 1.0 && at.line_dose_ratio <= 1.0);
    }

    /// At either end the criterion holds with equality; a little inside it holds, a little
    /// outside it does not.
    #[test]
    fn ends_of_the_depth_of_focus((beam, criterion) in beam_and_criterion()) {
        let range = depth_of_focus(&beam, criterion).unwrap();
        opposite(range.toward_lens_z, range.away_from_lens_z);
        same_bits(range.full, 2.0 * range.away_from_lens_z);
        let allowed = allowed_growth_minus_one(criterion, &beam);
        prop_assert!(meets(criterion, &defocus(&beam, 0.0).unwrap()));
        prop_assume!(allowed > 0.0 && range.away_from_lens_z <= 0.5 * Param::ZOffset.range().1);
        for end in [range.toward_lens_z, range.away_from_lens_z] {
            let at = defocus(&beam, end).unwrap();
            // 1 − p is rounded by the test, and by as much more as it is close to zero.
            close(at.growth_minus_one, allowed, 12.0 + 2.0 * (1.0 + allowed).powi(2).min(1e7));
            // A share of 1e-3 of the end moves growth − 1 by about 2e-3 of itself; the ratios
            // that are close to 1 can show that only if it is above their rounding.
            if allowed > 1e-10 {
                prop_assert!(meets(criterion, &defocus(&beam, end * 0.999).unwrap()));
                prop_assert!(!meets(criterion, &defocus(&beam, end * 1.001).unwrap()));
            }
        }
        prop_assert!(range.contains(0.0) && range.contains(range.toward_lens_z));
        prop_assert!(!range.contains(range.away_from_lens_z.next_up()));
    }

    /// The same limit, said in five ways.
    #[test]
    fn criteria_agree_with_each_other(beam in any_beam(), growth in spread(1.01, 900.0)) {
        let half = |criterion| depth_of_focus(&beam, criterion).unwrap().away_from_lens_z;
        let by_growth = half(DepthCriterion::Growth { ratio: growth });
        // 1 − p is rounded before the model sees it, which counts g², or g, times; close to
        // g = 1, where the root is steep, a rounding of g counts 1/(g − 1) times.
        let budget = 8.0 + 2.0 * growth * growth + 2.0 / (growth - 1.0);
        close(half(DepthCriterion::IrradianceDrop { drop: 1.0 - 1.0 / (growth * growth) }), by_growth, budget);
        close(half(DepthCriterion::LineDoseDrop { drop: 1.0 - 1.0 / growth }), by_growth, budget);
        let diameter = growth * beam.waist_diameter;
        if diameter <= Param::LargestDiameter.range().1 {
            close(half(DepthCriterion::LargestDiameter { diameter }), by_growth, budget);
            same_bits(
                half(DepthCriterion::LargestDiameter { diameter }),
                offsets_for_diameter(&beam, diameter).unwrap().away_from_lens_z,
            );
        }
        same_bits(by_growth, offsets_for_growth(&beam, growth).unwrap().away_from_lens_z);
        let rayleigh = half(DepthCriterion::Rayleigh);
        same_bits(rayleigh, beam_parameters(&beam).unwrap().rayleigh_range);
        close(half(DepthCriterion::IrradianceDrop { drop: 0.5 }), rayleigh, 1.0);
        close(half(DepthCriterion::Growth { ratio: std::f64::consts::SQRT_2 }), rayleigh, 3.0);
    }

    #[test]
    fn a_looser_criterion_reaches_farther(beam in any_beam(), a in growth(), b in growth(), p in drop(), q in drop()) {
        let half = |criterion| depth_of_focus(&beam, criterion).unwrap().away_from_lens_z;
        let (strict, loose) = (a.min(b), a.max(b));
        in_order(half(DepthCriterion::Growth { ratio: strict }), half(DepthCriterion::Growth { ratio: loose }), 2.0);
        let (strict, loose) = (p.min(q), p.max(q));
        for of in [|drop| DepthCriterion::IrradianceDrop { drop }, |drop| DepthCriterion::LineDoseDrop { drop }] {
            in_order(half(of(strict)), half(of(loose)), 2.0);
        }
        // The line dose falls with the diameter, the irradiance with its square.
        in_order(half(DepthCriterion::IrradianceDrop { drop: p }), half(DepthCriterion::LineDoseDrop { drop: p }), 2.0);
    }

    /// Half the range goes with z_R, which is with the square of the waist.
    #[test]
    fn depth_scales_with_the_rayleigh_range((beam, criterion) in beam_and_criterion(), a in power_of_two()) {
        prop_assume!(!matches!(criterion, DepthCriterion::LargestDiameter { .. }));
        let wider = Beam { waist_diameter: a * beam.waist_diameter, ..beam };
        if let Ok(range) = depth_of_focus(&wider, criterion) {
            same_bits(range.full, a * a * depth_of_focus(&beam, criterion).unwrap().full);
        }
    }

    /// Half range → z_R·√(2·(g − 1)) close to 1, and → z_R·g far above it.
    #[test]
    fn limits_of_the_offset(beam in any_beam(), more in spread(1e-15, 1e-4), growth in spread(1e4, 1e9)) {
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        let ratio = 1.0 + more;
        let root = (2.0 * (ratio - 1.0)).sqrt();
        let half = offsets_for_growth(&beam, ratio).unwrap().away_from_lens_z / zr;
        in_order(root, half, 4.0);
        in_order(half, root * (1.0 + 0.25 * more), 4.0);
        let half = offsets_for_growth(&beam, growth).unwrap().away_from_lens_z / zr;
        in_order(half, growth, 4.0);
        in_order(growth * (1.0 - 0.5 / (growth * growth) - 1e-16), half, 4.0);
    }
}
