//! Each function on what the heights of a surface ask of the focus against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::{astigmatic, beam};
use super::raw::{Expected, choice, compare, near, place, share};
use crate::height_budget::*;
use proptest::prelude::*;
use spotwise::model::surface::{self, DepthEnds, FocusAim};

/// Two heights, mostly the right way round.
fn heights() -> impl Strategy<Value = (f64, f64)> {
    (place(1e-3), near(1e-3)).prop_map(|(highest, range)| (highest, highest + range))
}

/// A depth of focus, mostly about its focus.
fn depth() -> impl Strategy<Value = DepthEnds> {
    prop_oneof![
        4 => (near(-0.3e-3), near(0.3e-3)),
        1 => (place(0.3e-3), place(0.3e-3)),
    ]
    .prop_map(|(toward_lens_z, away_from_lens_z)| DepthEnds { toward_lens_z, away_from_lens_z })
}

/// An array of the caller's with something stale in it, and a number beyond its end.
fn stale(count: usize) -> Vec<f64> {
    vec![7.0; count + 1]
}

fn bits(numbers: &[f64]) -> Vec<u64> {
    numbers.iter().map(|number| number.to_bits()).collect()
}

proptest! {
    #[test]
    fn focus_between((c, beam) in beam(), (highest, lowest) in heights()) {
        let model = surface::focus_between(&beam, highest, lowest).map(|best| {
            let d = best.worst;
            Expected::of::<spotwise_focus_between_result>().word(d.validity.bits()).numbers(&[
                best.focus_z,
                best.half_range,
                d.diameter,
                d.growth,
                d.growth_minus_one,
                d.irradiance_ratio,
                d.line_dose_ratio,
                d.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_focus_between(&c, highest, lowest, out, error) }, model)?;
    }

    #[test]
    fn focus_between_astigmatic((c, beam) in astigmatic(50e-6), (highest, lowest) in heights()) {
        let model = surface::focus_between_astigmatic(&beam, highest, lowest).map(|best| {
            Expected::of::<spotwise_astigmatic_focus_between>().word(best.validity.bits()).numbers(&[
                best.focus_z,
                best.worst_diameter,
                best.highest_diameter_x,
                best.highest_diameter_y,
                best.lowest_diameter_x,
                best.lowest_diameter_y,
                best.half_angle,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_focus_between_astigmatic(&c, highest, lowest, out, error) },
            model,
        )?;
    }

    #[test]
    fn height_bands(
        (highest, lowest) in heights(),
        depth in depth(),
        margin in share(),
        limits in 0..12usize,
        heights in 0..12usize,
    ) {
        let (mut expected_limits, mut expected_focus) = (stale(limits), stale(heights));
        let model = surface::height_bands(
            highest,
            lowest,
            &depth,
            margin,
            &mut expected_limits[..limits],
            &mut expected_focus[..heights],
        );
        let model = model.map(|bands| {
            let head = Expected::of::<spotwise_height_bands_result>().word(bands.count);
            head.numbers(&[bands.band_height, bands.share_of_depth])
        });
        let (mut limit_z, mut focus_z) = (stale(limits), stale(heights));
        let (limit, focus) = (limit_z.as_mut_ptr(), focus_z.as_mut_ptr());
        let (toward, away) = (depth.toward_lens_z, depth.away_from_lens_z);
        compare(
            |out, error| unsafe {
                spotwise_height_bands(
                    highest, lowest, toward, away, margin, limit, limits, focus, heights, out, error,
                )
            },
            model,
        )?;
        prop_assert_eq!(bits(&limit_z), bits(&expected_limits));
        prop_assert_eq!(bits(&focus_z), bits(&expected_focus));
    }

    #[test]
    fn cylinder_strip(radius in near(1e-3), depth in depth(), aim in choice(2)) {
        let model = FocusAim::from_code(aim).and_then(|aim| surface::cylinder_strip(radius, &depth, aim));
        let model = model.map(|strip| {
            let head =
                Expected::of::<spotwise_cylinder_strip_result>().word(u32::from(strip.whole_upper_half));
            head.numbers(&[
                strip.half_chord,
                strip.full_chord,
                strip.arc_length,
                strip.edge_sag,
                strip.edge_incidence,
                strip.edge_irradiance_ratio,
                strip.focus_z,
            ])
        });
        let (toward, away) = (depth.toward_lens_z, depth.away_from_lens_z);
        compare(|out, error| unsafe { spotwise_cylinder_strip(radius, toward, away, aim, out, error) }, model)?;
    }

    #[test]
    fn refocus_plan(
        total in near(2e-3),
        each in near(0.1e-3),
        depth in depth(),
        aim in choice(2),
        heights in 0..40usize,
    ) {
        let mut expected_focus = stale(heights);
        let model = FocusAim::from_code(aim);
        if model.is_err() {
            expected_focus[..heights].fill(f64::NAN);
        }
        let model = model
            .and_then(|aim| surface::refocus_plan(total, each, &depth, aim, &mut expected_focus[..heights]));
        let model = model.map(|plan| {
            let counts = [plan.passes, plan.passes_per_stage, plan.stages, plan.last_stage_passes];
            let head = Expected::of::<spotwise_refocus_plan_result>();
            let head = counts.into_iter().fold(head, Expected::word).word(u32::from(plan.stays_in_focus));
            head.numbers(&[plan.reached_depth, plan.stage_depth, plan.usable_depth])
        });
        let mut focus_z = stale(heights);
        let focus = focus_z.as_mut_ptr();
        let (toward, away) = (depth.toward_lens_z, depth.away_from_lens_z);
        compare(
            |out, error| unsafe {
                spotwise_refocus_plan(total, each, toward, away, aim, focus, heights, out, error)
            },
            model,
        )?;
        prop_assert_eq!(bits(&focus_z), bits(&expected_focus));
    }

    #[test]
    fn spot_through((c, beam) in beam(), focus in place(1e-3), thickness in near(3e-3)) {
        let model = surface::spot_through(&beam, focus, thickness).map(|through| {
            Expected::of::<spotwise_spot_through_result>().word(through.validity.bits()).numbers(&[
                through.top_diameter,
                through.bottom_diameter,
                through.widest,
                through.narrowest,
                through.worst_growth,
                through.taper_ratio,
                through.taper_half_angle,
                through.best_focus_z,
                through.best_worst_growth,
                through.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_spot_through(&c, focus, thickness, out, error) }, model)?;
    }
}
