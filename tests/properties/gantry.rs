//! A lens that travels, and the expander that evens out its spot.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, Element, beam_after_path, beam_parameters, even_out_gantry,
    focus_along_gantry, focus_through_lens, gantry_spread,
};

/// A raw beam and a travel on a machine of ordinary size.
#[derive(Debug, Clone, Copy)]
struct Gantry {
    raw: Beam,
    nearest: f64,
    farthest: f64,
    f: f64,
}

fn gantry() -> impl Strategy<Value = Gantry> {
    let beam = (spread(3e-7, 2e-5), spread(1.0, 3.0), spread(1e-3, 2e-2));
    (beam, -2.0f64..3.0, spread(0.01, 4.0), spread(0.02, 0.3)).prop_map(
        |((wavelength, m2, waist_diameter), nearest, travel, f)| {
            let raw = Beam { wavelength, m2, waist_diameter };
            Gantry { raw, nearest, farthest: nearest + travel, f }
        },
    )
}

/// A gantry behind an expander: distance to it, its magnification, and a travel that starts behind it.
fn expanded() -> impl Strategy<Value = (Gantry, f64, f64)> {
    (gantry(), -2.0f64..2.0, spread(0.3, 5.0)).prop_map(|(gantry, waist_to_expander, magnification)| {
        let travel = gantry.farthest - gantry.nearest;
        let nearest = gantry.nearest.abs();
        (Gantry { nearest, farthest: nearest + travel, ..gantry }, waist_to_expander, magnification)
    })
}

/// The spot behind the expander set to this power, with the lens so far from it; by the path.
fn spot_behind(
    it: &Gantry,
    to_expander: f64,
    magnification: f64,
    exit_power: f64,
    to_lens: f64,
) -> Option<f64> {
    let axis = Axis { m2: it.raw.m2, waist_diameter: it.raw.waist_diameter, waist_z: -to_expander };
    let raw = AstigmaticBeam { wavelength: it.raw.wavelength, x: axis, y: axis };
    let elements = [
        Element::Expander { magnification, exit_power },
        Element::Space { length: to_lens },
        Element::ThinLens { focal_length: it.f },
    ];
    beam_after_path(&raw, &elements).ok().map(|after| after.beam.x.waist_diameter)
}

proptest! {
    #![proptest_config(config())]

    /// In bulk and one by one, the same bits.
    #[test]
    fn in_bulk(it in gantry(), shares in prop::collection::vec(0.0f64..=1.0, 0..6)) {
        let places: Vec<_> = shares.iter().map(|share| it.nearest + share * (it.farthest - it.nearest)).collect();
        let (mut spots, mut shifts) = (vec![0.0; places.len()], vec![0.0; places.len()]);
        let bulk = focus_along_gantry(&it.raw, &places, it.f, &mut spots, &mut shifts);
        let single: Result<Vec<_>, _> = places.iter().map(|s| focus_through_lens(&it.raw, *s, it.f)).collect();
        match (bulk, single) {
            (Ok(cone), Ok(single)) => {
                for ((spot, shift), one) in spots.iter().zip(&shifts).zip(&single) {
                    same_bits(*spot, one.waist_diameter);
                    same_bits(*shift, one.focus_shift);
                }
                // The widest cone and the flags of all; of no place, those of the raw beam.
                let raw = beam_parameters(&it.raw).unwrap();
                let widest = single.iter().fold(raw.divergence_half_angle, |w, one| w.max(one.half_angle));
                same_bits(cone.half_angle, widest);
                let flags = single.iter().fold(raw.validity, |flags, one| flags.union(one.validity));
                prop_assert_eq!(cone.validity, flags);
            },
            (bulk, single) => {
                prop_assert_eq!(bulk.unwrap_err(), single.unwrap_err());
                prop_assert!(spots.iter().chain(&shifts).all(|number| number.is_nan()));
            }
        }
    }

    /// The spread holds every place of the travel.
    #[test]
    fn holds_the_travel(it in gantry(), share in 0.0f64..=1.0) {
        let Ok(spread) = gantry_spread(&it.raw, it.nearest, it.farthest, it.f) else { return Ok(()) };
        let place = (it.nearest + share * (it.farthest - it.nearest)).min(it.farthest);
        let one = focus_through_lens(&it.raw, place, it.f).unwrap();
        in_order(spread.smallest_spot, one.waist_diameter, 2.0);
        in_order(one.waist_diameter, spread.largest_spot, 2.0);
        prop_assert!(spread.least_focus_shift <= one.focus_shift + 2.0 * f64::EPSILON * one.focus_shift.abs());
        in_order(one.focus_shift, spread.greatest_focus_shift, 2.0);
        close(spread.spot_ratio, spread.largest_spot / spread.smallest_spot, 3.0);
        let both = spread.greatest_focus_shift.abs() + spread.least_focus_shift.abs();
        near(spread.focus_wander, spread.greatest_focus_shift - spread.least_focus_shift, 2.0 * f64::EPSILON * both);
    }

    /// Its extremes are met: at an end, at the front focal point, or a Rayleigh range from there.
    #[test]
    fn extremes_are_met(it in gantry()) {
        let Ok(spread) = gantry_spread(&it.raw, it.nearest, it.farthest, it.f) else { return Ok(()) };
        let zr = beam_parameters(&it.raw).unwrap().rayleigh_range;
        let met: Vec<_> = [it.nearest, it.farthest, it.f, it.f - zr, it.f + zr]
            .into_iter()
            .filter(|place| (it.nearest..=it.farthest).contains(place))
            .map(|place| focus_through_lens(&it.raw, place, it.f).unwrap())
            .collect();
        let met = |of: fn(&spotwise::model::optics::FocusedBeam) -> f64, want: f64, budget: f64| {
            assert!(met.iter().any(|one| (of(one) - want).abs() <= budget), "{want:e} is not met");
        };
        met(|one| one.waist_diameter, spread.smallest_spot, 2.0 * f64::EPSILON * spread.smallest_spot);
        met(|one| one.waist_diameter, spread.largest_spot, 2.0 * f64::EPSILON * spread.largest_spot);
        // f − z_R is rounded before it is a place.
        let budget = 4.0 * f64::EPSILON * (it.f * it.f / zr + it.f);
        met(|one| one.focus_shift, spread.least_focus_shift, budget);
        met(|one| one.focus_shift, spread.greatest_focus_shift, budget);
    }

    #[test]
    fn no_travel_no_spread(it in gantry()) {
        let Ok(spread) = gantry_spread(&it.raw, it.nearest, it.nearest, it.f) else { return Ok(()) };
        let one = focus_through_lens(&it.raw, it.nearest, it.f).unwrap();
        same_bits(spread.smallest_spot, one.waist_diameter);
        same_bits(spread.largest_spot, one.waist_diameter);
        prop_assert_eq!((spread.spot_ratio, spread.focus_wander), (1.0, 0.0));
        same_bits(spread.least_focus_shift, one.focus_shift);
        same_bits(spread.greatest_focus_shift, one.focus_shift);
    }

    /// A longer travel never varies less.
    #[test]
    fn a_longer_travel_varies_more(it in gantry(), more in spread(1e-3, 2.0)) {
        let short = gantry_spread(&it.raw, it.nearest, it.farthest, it.f);
        let long = gantry_spread(&it.raw, it.nearest, it.farthest + more, it.f);
        if let (Ok(short), Ok(long)) = (short, long) {
            in_order(short.spot_ratio, long.spot_ratio, 2.0);
            in_order(short.focus_wander, long.focus_wander, 4.0);
        }
    }

    // --- Evened out --------------------------------------------------------------------------

    /// What it says of the beam behind the expander is what the path says, and so are the spots.
    #[test]
    fn the_path_agrees((it, to_expander, m) in expanded()) {
        let Ok(even) = even_out_gantry(&it.raw, to_expander, m, it.nearest, it.farthest, it.f) else { return Ok(()) };
        let behind = Beam { waist_diameter: even.waist_diameter, ..it.raw };
        let spread = gantry_spread(&behind, it.nearest - even.expander_to_waist, it.farthest - even.expander_to_waist, it.f).unwrap();
        let reach = it.farthest + even.expander_to_waist.abs();
        let zr = beam_parameters(&behind).unwrap().rayleigh_range;
        let rounding = 16.0 * f64::EPSILON * (1.0 + reach / zr);
        near(spread.smallest_spot / even.spread.smallest_spot, 1.0, rounding);
        near(spread.largest_spot / even.spread.largest_spot, 1.0, rounding);
        for to_lens in [it.nearest, it.farthest] {
            if let Some(spot) = spot_behind(&it, to_expander, m, even.exit_power, to_lens) {
                let one = focus_through_lens(&behind, to_lens - even.expander_to_waist, it.f).unwrap();
                // The exit power is rounded; what that does grows with the beam's own curvature.
                near(one.waist_diameter / spot, 1.0, 64.0 * rounding + 64.0 * f64::EPSILON * reach * (even.exit_power.abs() + 1.0 / zr));
            }
        }
    }

    /// Spots at both ends are equal if it says so.
    #[test]
    fn ends_are_equal_if_it_says_so((it, to_expander, m) in expanded()) {
        let Ok(even) = even_out_gantry(&it.raw, to_expander, m, it.nearest, it.farthest, it.f) else { return Ok(()) };
        let near = spot_behind(&it, to_expander, m, even.exit_power, it.nearest);
        let far = spot_behind(&it, to_expander, m, even.exit_power, it.farthest);
        if let (true, Some(near), Some(far)) = (even.ends_equal, near, far) {
            prop_assert!((near / far - 1.0).abs() < 1e-8, "{near:e} against {far:e}");
        }
    }

    /// No other setting makes the whole travel more even.
    #[test]
    fn no_other_setting_is_more_even((it, to_expander, m) in expanded(), change in signed_spread(1e-3, 3.0)) {
        let Ok(even) = even_out_gantry(&it.raw, to_expander, m, it.nearest, it.farthest, it.f) else { return Ok(()) };
        let axis = Axis { m2: it.raw.m2, waist_diameter: it.raw.waist_diameter, waist_z: -to_expander };
        let raw = AstigmaticBeam { wavelength: it.raw.wavelength, x: axis, y: axis };
        // By a share of the convergence itself, and by what a Rayleigh range at the expander makes of one.
        let behind = Beam { waist_diameter: even.waist_diameter, ..it.raw };
        let zr = beam_parameters(&behind).unwrap().rayleigh_range;
        for power in [even.exit_power * (1.0 + change), even.exit_power + change / (zr + even.expander_to_waist.abs())] {
            let element = Element::Expander { magnification: m, exit_power: power };
            let Ok(behind) = beam_after_path(&raw, &[element]) else { continue };
            let (beam, place) = (Beam { waist_diameter: behind.beam.x.waist_diameter, ..it.raw }, behind.beam.x.waist_z);
            if let Ok(other) = gantry_spread(&beam, it.nearest - place, it.farthest - place, it.f) {
                let (best, other) = (even.spread.spot_ratio, other.spot_ratio);
                prop_assert!(best <= other * (1.0 + 1e-8), "{best} against {other}");
            }
        }
    }

    #[test]
    fn scales_with_all_lengths((it, to_expander, m) in expanded(), k in power_of_two()) {
        let raw = Beam { wavelength: k * it.raw.wavelength, m2: it.raw.m2, waist_diameter: k * it.raw.waist_diameter };
        let (a, b) = (
            even_out_gantry(&it.raw, to_expander, m, it.nearest, it.farthest, it.f),
            even_out_gantry(&raw, k * to_expander, m, k * it.nearest, k * it.farthest, k * it.f),
        );
        if let (Ok(a), Ok(b)) = (a, b) {
            same_bits(k * b.exit_power, a.exit_power);
            same_bits(b.waist_diameter, k * a.waist_diameter);
            same_bits(b.expander_to_waist, k * a.expander_to_waist);
            same_bits(b.spread.spot_ratio, a.spread.spot_ratio);
            same_bits(b.spread.focus_wander, k * a.spread.focus_wander);
            prop_assert_eq!(a.ends_equal, b.ends_equal);
        }
    }
}
