//! The ideal lens.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, FocusedBeam, beam_at, beam_parameters, focus_astigmatic, focus_collimated,
    focus_through_lens,
};
use spotwise::{CAUTION_HALF_ANGLE, Param, Validity};

/// A raw beam, the place of its waist and a lens, with what the model makes of them.
#[derive(Debug, Clone, Copy)]
struct Setup {
    raw: Beam,
    s: f64,
    f: f64,
    focused: FocusedBeam,
}

fn focal_length() -> BoxedStrategy<f64> {
    (any::<bool>(), across(Param::FocalLength)).prop_map(|(minus, f)| if minus { -f } else { f }).boxed()
}

/// Setups whose waist lies from far inside to far outside the focal length.
fn setup() -> impl Strategy<Value = Setup> {
    let place = prop_oneof![across(Param::WaistToLens), Just(0.0), signed_spread(1e-3, 1e3)];
    (any_beam(), place, focal_length(), any::<bool>()).prop_filter_map(
        "image outside the model",
        |(raw, place, f, in_focal_lengths)| {
            let s = if in_focal_lengths { place * f } else { place };
            let focused = focus_through_lens(&raw, s, f).ok()?;
            Some(Setup { raw, s, f, focused })
        },
    )
}

impl Setup {
    /// The beam behind the lens, as an input.
    fn image(&self) -> Beam {
        Beam { waist_diameter: self.focused.waist_diameter, ..self.raw }
    }
}

proptest! {
    #![proptest_config(config())]

    /// A lens does not change M²: d₀·θ stays, and so does d₀²/z_R.
    #[test]
    fn beam_quality_stays(it in setup()) {
        let before = beam_parameters(&it.raw).unwrap();
        let raw = it.raw.waist_diameter;
        close(it.focused.waist_diameter * it.focused.divergence_full_angle, raw * before.divergence_full_angle, 4.0);
        close(it.focused.waist_diameter.powi(2) / it.focused.rayleigh_range, raw.powi(2) / before.rayleigh_range, 6.0);
        close(it.focused.waist_diameter / raw, it.focused.magnification, 2.0);
        close(it.focused.rayleigh_range / before.rayleigh_range, it.focused.magnification.powi(2), 5.0);
    }

    /// Light runs both ways: the image, sent back through the lens, returns the raw beam.
    #[test]
    fn reversible(it in setup()) {
        let Ok(back) = focus_through_lens(&it.image(), it.focused.lens_to_waist, it.f) else {
            // The rounded waist or its place lies just outside a range.
            prop_assume!(false);
            unreachable!()
        };
        // What the rounding of the distance does to s − f, as a share of h on the way back.
        let rounding = f64::EPSILON * it.focused.lens_to_waist.abs();
        let h = it.f.abs() * it.focused.magnification;
        let tolerance = 12.0 * f64::EPSILON + 2.0 * rounding / h;
        near(back.waist_diameter, it.raw.waist_diameter, tolerance * it.raw.waist_diameter);
        let reach = it.f.abs() + it.s.abs() + beam_parameters(&it.raw).unwrap().rayleigh_range;
        near(back.lens_to_waist, it.s, 2.0 * tolerance * reach);
    }

    /// Turning object, image and lens inside out changes signs only.
    #[test]
    fn a_diverging_lens_mirrors_a_converging_one(it in setup()) {
        let mirror = focus_through_lens(&it.raw, -it.s, -it.f).unwrap();
        same_bits(mirror.waist_diameter, it.focused.waist_diameter);
        same_bits(mirror.magnification, it.focused.magnification);
        opposite(mirror.focus_shift, it.focused.focus_shift);
        opposite(mirror.lens_to_waist, it.focused.lens_to_waist);
        same_bits(mirror.diameter_at_lens, it.focused.diameter_at_lens);
    }

    #[test]
    fn scales_with_all_lengths(it in setup(), a in power_of_two()) {
        let raw = Beam {
            wavelength: it.raw.wavelength * a,
            m2: it.raw.m2,
            waist_diameter: it.raw.waist_diameter * a,
        };
        if let Ok(scaled) = focus_through_lens(&raw, it.s * a, it.f * a) {
            same_bits(scaled.waist_diameter, it.focused.waist_diameter * a);
            same_bits(scaled.rayleigh_range, it.focused.rayleigh_range * a);
            same_bits(scaled.focus_shift, it.focused.focus_shift * a);
            same_bits(scaled.lens_to_waist, it.focused.lens_to_waist * a);
            same_bits(scaled.magnification, it.focused.magnification);
            same_bits(scaled.divergence_full_angle, it.focused.divergence_full_angle);
        }
    }

    /// At the lens both beams are equally wide, and the distances add up.
    #[test]
    fn both_sides_meet_at_the_lens(it in setup()) {
        close(it.focused.diameter_at_lens, beam_at(&it.raw, it.s).unwrap().diameter, 3.0);
        near(
            it.focused.lens_to_waist,
            it.f + it.focused.focus_shift,
            f64::EPSILON * (it.f.abs() + it.focused.focus_shift.abs()),
        );
        let place = it.focused.lens_to_waist;
        if place.abs() <= Param::Z.range().1
            && let Ok(behind) = beam_at(&it.image(), -place)
        {
            close(behind.diameter, it.focused.diameter_at_lens, 12.0);
        }
    }

    /// No waist is imaged larger than one in the focal plane, by f/z_R; and its image lies in the
    /// other focal plane.
    #[test]
    fn a_waist_in_the_focal_plane(it in setup()) {
        let zr = beam_parameters(&it.raw).unwrap().rayleigh_range;
        in_order(it.focused.magnification, it.f.abs() / zr, 2.0);
        if let Ok(focal) = focus_through_lens(&it.raw, it.f, it.f) {
            close(focal.magnification, it.f.abs() / zr, 2.0);
            prop_assert_eq!(focal.focus_shift, 0.0);
            same_bits(focal.lens_to_waist, it.f);
        }
    }

    /// 4·M²·λ·f/(π·D) is the limit for a long Rayleigh range, and √(1 + (f/z_R)²) what it misses.
    #[test]
    fn collimated_beam(raw in any_beam(), f in focal_length()) {
        let collimated = focus_collimated(raw.wavelength, raw.m2, raw.waist_diameter, f);
        prop_assert_eq!(&collimated, &focus_through_lens(&raw, 0.0, f));
        let Ok(focused) = collimated else { return Ok(()) };
        same_bits(focused.diameter_at_lens, raw.waist_diameter);
        let limit = 4.0 * raw.m2 * raw.wavelength * f.abs() / (std::f64::consts::PI * raw.waist_diameter);
        let ratio = f / beam_parameters(&raw).unwrap().rayleigh_range;
        in_order(focused.waist_diameter, limit, 6.0);
        close(focused.waist_diameter * 1f64.hypot(ratio), limit, 12.0);
        // −f³/(f² + z_R²): the waist of a collimated beam lies inside the focal length.
        close(focused.focus_shift, -f * ratio * ratio / (1.0 + ratio * ratio), 16.0);
    }

    /// A waist far away is imaged to the focal plane: shift → f²/s, magnification → f/s.
    #[test]
    fn a_distant_waist(raw in any_beam(), f in focal_length(), far in spread(1e3, 1e9), minus in any::<bool>()) {
        let zr = beam_parameters(&raw).unwrap().rayleigh_range;
        let distance = far * zr.max(f.abs());
        prop_assume!(distance <= Param::WaistToLens.range().1);
        let s = if minus { -distance } else { distance };
        if let Ok(focused) = focus_through_lens(&raw, s, f) {
            near(focused.focus_shift * s / (f * f), 1.0, 4.0 / far);
            near(focused.magnification * distance / f.abs(), 1.0, 4.0 / far);
        }
    }

    #[test]
    fn the_flag_follows_the_cone(it in setup()) {
        let raw = beam_parameters(&it.raw).unwrap();
        let wide = it.focused.divergence_full_angle * 0.5 > CAUTION_HALF_ANGLE
            || raw.divergence_half_angle > CAUTION_HALF_ANGLE;
        prop_assert_eq!(it.focused.validity.contains(Validity::WIDE_CONE), wide);
    }

    /// An astigmatic beam passes a lens axis by axis.
    #[test]
    fn astigmatic_beam_axis_by_axis(beam in any_astigmatic(), f in focal_length()) {
        let round = |axis: Axis| {
            let raw = Beam { wavelength: beam.wavelength, m2: axis.m2, waist_diameter: axis.waist_diameter };
            focus_through_lens(&raw, -axis.waist_z, f)
        };
        if let Ok(found) = focus_astigmatic(&beam, f) {
            let focused = found.beam;
            let (x, y) = (round(beam.x).unwrap(), round(beam.y).unwrap());
            same_bits(found.half_angle, x.half_angle.max(y.half_angle));
            prop_assert_eq!(found.validity, x.validity.union(y.validity));
            for (axis, raw) in [(focused.x, beam.x), (focused.y, beam.y)] {
                let alone = round(raw).unwrap();
                same_bits(axis.waist_diameter, alone.waist_diameter);
                same_bits(axis.waist_z, alone.focus_shift);
                same_bits(axis.m2, raw.m2);
            }
        } else {
            // An axis that fails in the pair fails alone, but for a rounded waist at a range's end.
            let refused = |axis| match round(axis) {
                Err(_) => true,
                Ok(focused) => focused.divergence_full_angle > 0.6 * (1.0 - 1e-14),
            };
            prop_assert!(refused(beam.x) || refused(beam.y));
        }
    }

    #[test]
    fn swapping_the_axes_swaps_the_image(beam in any_astigmatic(), f in focal_length()) {
        if let Ok(found) = focus_astigmatic(&beam, f) {
            let AstigmaticBeam { x, y, .. } = found.beam;
            let other = focus_astigmatic(&swapped(&beam), f).unwrap().beam;
            prop_assert_eq!((other.x, other.y), (y, x));
        }
    }
}
