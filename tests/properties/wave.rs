//! The diffraction integral. Each case is many sums, so that few are drawn.

use super::given::*;
use proptest::prelude::*;
use spotwise::Validity;
use spotwise::model::focus::{DepthCriterion, wave_depth_of_focus};
use spotwise::model::optics::{
    Beam, FocusMeasure, Wave, beam_at, power_through_aperture, wave_focus, wave_irradiance, wave_map,
    wave_map_workspace, wave_power, wave_widths,
};
use std::f64::consts::PI;

fn slow() -> ProptestConfig {
    let config = config();
    ProptestConfig { cases: config.cases.div_ceil(16), ..config }
}

/// A wave, and planes and radii to look at it by the waist and Rayleigh range of the ideal beam.
#[derive(Debug, Clone, Copy)]
struct Setup {
    wave: Wave,
    /// Waist of the unaberrated, unclipped beam of this M².
    waist: f64,
    /// Its Rayleigh range, were the wave a perfect beam's: λ·L²/(π·w²).
    unit: f64,
}

fn setup(
    m2: BoxedStrategy<f64>,
    ratio: BoxedStrategy<f64>,
    alpha: BoxedStrategy<f64>,
) -> impl Strategy<Value = Setup> {
    (spread(3e-7, 2e-5), m2, spread(2e-3, 0.1), ratio, spread(0.02, 0.5), alpha).prop_map(
        |(wavelength, m2, cone, ratio, lens_to_focus, aberration_phase)| {
            let diameter_at_lens = 2.0 * cone * lens_to_focus;
            let wave = Wave {
                wavelength,
                m2,
                diameter_at_lens,
                clear_aperture: ratio * diameter_at_lens,
                lens_to_focus,
                aberration_phase,
            };
            let f_number = lens_to_focus / diameter_at_lens;
            Setup {
                wave,
                waist: 4.0 * m2 * wavelength * f_number / PI,
                unit: 4.0 * wavelength * f_number * f_number / PI,
            }
        },
    )
}

fn quality() -> BoxedStrategy<f64> {
    prop_oneof![2 => Just(1.0), 2 => 1.0f64..2.0, 1 => (1e-6f64..0.03).prop_map(|more| 1.0 + more)].boxed()
}

fn aperture() -> BoxedStrategy<f64> {
    prop_oneof![3 => 0.7f64..2.5, 1 => Just(3.0)].boxed()
}

fn phase() -> BoxedStrategy<f64> {
    prop_oneof![3 => -1.5f64..1.5, 1 => Just(0.0)].boxed()
}

fn any_wave() -> impl Strategy<Value = Setup> {
    setup(quality(), aperture(), phase())
}

/// Planes that keep far from the lens: the wave's own shape, rather than the distance to the lens, is
/// what they show.
impl Setup {
    fn plane(&self, rayleigh_ranges: f64) -> f64 {
        (rayleigh_ranges * self.unit).clamp(-0.2 * self.wave.lens_to_focus, 0.2 * self.wave.lens_to_focus)
    }

    fn is_far_from_the_lens(&self, share: f64) -> bool {
        self.unit < share * self.wave.lens_to_focus
    }
}

proptest! {
    #![proptest_config(slow())]

    /// Without aperture and aberration the wave is the Gaussian beam of its M², everywhere.
    #[test]
    fn unspoilt_it_is_the_beam(it in setup(quality(), Just(f64::INFINITY).boxed(), Just(0.0).boxed()), u in -2.0f64..2.0, share in 0.0f64..1.5) {
        prop_assume!(it.is_far_from_the_lens(0.01));
        let z = u * it.unit * it.wave.m2;
        let beam = Beam { wavelength: it.wave.wavelength, m2: it.wave.m2, waist_diameter: it.waist };
        let section = beam_at(&beam, z).unwrap();
        // What the waist's own distance from the focal point makes of it.
        let off = 8.0 * (it.unit * it.wave.m2 / it.wave.lens_to_focus) * (1.0 + u.abs());
        let widths = wave_widths(&it.wave, z).unwrap();
        for diameter in [widths.diameter_1e2, widths.diameter_power86, widths.fwhm / (0.5 * 2f64.ln()).sqrt()] {
            near(diameter / section.diameter, 1.0, off + widths.error);
        }
        prop_assert_eq!(widths.transmitted, 1.0);
        let radius = 0.5 * share * section.diameter;
        let at = wave_irradiance(&it.wave, radius, z).unwrap();
        let want = (it.waist / section.diameter).powi(2) * (-2.0 * share * share).exp();
        near(at.irradiance_ratio, want, 4.0 * off + at.error);
        let power = wave_power(&it.wave, radius, z).unwrap();
        near(power.share, power_through_aperture(section.diameter, 2.0 * radius).unwrap(), 4.0 * off + power.error);
    }

    /// The power grows with the circle, to what the aperture lets through and no further.
    #[test]
    fn power_is_conserved(it in any_wave(), u in -4.0f64..4.0, share in 0.0f64..3.0, wider in 1.0f64..3.0) {
        let z = it.plane(u);
        let widths = wave_widths(&it.wave, z).unwrap();
        let within = |radius| wave_power(&it.wave, radius, z).unwrap();
        let radius = share * 0.5 * widths.diameter_power86;
        let (small, large) = (within(radius), within(wider * radius));
        prop_assert!(small.share >= -small.error && small.share <= large.share + small.error + large.error);
        let transmitted = power_through_aperture(it.wave.diameter_at_lens, it.wave.clear_aperture).unwrap();
        prop_assert!(large.share <= transmitted + large.error);
        near(small.share_of_transmitted * transmitted, small.share, 1e-14);
        close(widths.transmitted, transmitted, 8.0);
        // At the 86.5 % diameter the circle holds as much.
        let there = within(0.5 * widths.diameter_power86);
        near(there.share_of_transmitted, 1.0 - (-2f64).exp(), 4.0 * widths.error + 2.0 * there.error + 1e-12);
        // Far out hardly anything is missing: the edge of the aperture scatters in proportion to 1/v.
        // (59 radii of the ideal spot of a perfect beam, to where the integral goes)
        let reach = 0.5 * 59.0 * it.waist / it.wave.m2 * (1.0 + z / it.wave.lens_to_focus);
        let far = within(reach.min(8.0 * widths.diameter_power86));
        prop_assert!(far.share_of_transmitted > 0.985, "{}", far.share_of_transmitted);
    }

    /// The power in a thin ring is the irradiance there times its area.
    #[test]
    fn irradiance_is_the_slope_of_power(it in any_wave(), u in -3.0f64..3.0, share in 0.05f64..1.2) {
        let z = it.plane(u);
        let radius = 0.5 * share * wave_widths(&it.wave, z).unwrap().diameter_power86;
        let half = 0.02 * radius;
        let (inner, outer) = (wave_power(&it.wave, radius - half, z).unwrap(), wave_power(&it.wave, radius + half, z).unwrap());
        let here = wave_irradiance(&it.wave, radius, z).unwrap();
        let area = 4.0 * PI * radius * half;
        let rest = |r: f64| wave_irradiance(&it.wave, r, z).unwrap().irradiance_per_watt;
        // Simpson's rule over the ring, r·I at its ends and its middle.
        let mean = ((radius - half) * rest(radius - half) + 4.0 * radius * here.irradiance_per_watt + (radius + half) * rest(radius + half)) / (6.0 * radius);
        near((outer.share - inner.share) / (area * mean), 1.0, 1e-4 + (outer.error + inner.error) / (area * mean));
        // Per watt it is 8/(π·d₀²) times the ratio.
        close(here.irradiance_per_watt, here.irradiance_ratio * 8.0 / (PI * it.waist * it.waist), 32.0);
    }

    /// The widths are where the profile says.
    #[test]
    fn widths_are_where_they_say(it in any_wave(), u in -3.0f64..3.0) {
        let z = it.plane(u);
        let widths = wave_widths(&it.wave, z).unwrap();
        let at = |radius| wave_irradiance(&it.wave, radius, z).unwrap();
        close(widths.irradiance_ratio, at(0.0).irradiance_ratio, 1e6);
        let (half, one_over_e2) = (at(0.5 * widths.fwhm), at(0.5 * widths.diameter_1e2));
        prop_assert!(widths.fwhm < widths.diameter_1e2);
        // Both are shares of the greatest irradiance of the plane, wherever it lies.
        near(one_over_e2.irradiance_ratio / half.irradiance_ratio, 2.0 * (-2f64).exp(), 1e-6);
        prop_assert!(half.irradiance_ratio >= 0.5 * widths.irradiance_ratio * (1.0 - 1e-9));
        // Beyond the outermost circle nothing is as bright.
        for more in [1.01, 1.1, 1.5, 2.5] {
            prop_assert!(at(0.5 * more * widths.fwhm).irradiance_ratio < half.irradiance_ratio);
            prop_assert!(at(0.5 * more * widths.diameter_1e2).irradiance_ratio < one_over_e2.irradiance_ratio);
        }
    }

    /// An aberration of the other sign is the same picture seen from the other side.
    #[test]
    fn mirrored_by_the_sign_of_the_aberration(it in any_wave(), u in -4.0f64..4.0, share in 0.0f64..2.0) {
        prop_assume!(it.is_far_from_the_lens(1e-3));
        let other = Wave { aberration_phase: -it.wave.aberration_phase, ..it.wave };
        // The planes of equal β, of which one is nearer the lens: 1/l = 1/L ± β/Z_L.
        let far = it.wave.lens_to_focus;
        let z_of = |beta: f64| -far * beta * it.unit / (far + beta * it.unit);
        let (here, there) = (z_of(u), z_of(-u));
        let radius = 0.5 * share * it.waist;
        // The picture is as many times larger as it lies farther from the lens, and as much fainter.
        let scale = |z: f64| 1.0 + z / far;
        let a = wave_irradiance(&it.wave, radius * scale(here), here).unwrap();
        let b = wave_irradiance(&other, radius * scale(there), there).unwrap();
        let (a_bright, b_bright) = (a.irradiance_ratio * scale(here).powi(2), b.irradiance_ratio * scale(there).powi(2));
        near(a_bright, b_bright, 2.0 * (a.error + b.error) + 1e-9);
    }

    /// All lengths times k is the same picture k times as large, to the bit.
    #[test]
    fn scales_with_all_lengths(it in any_wave(), u in -4.0f64..4.0, share in 0.0f64..2.0, k in power_of_two()) {
        let larger = Wave {
            wavelength: k * it.wave.wavelength,
            diameter_at_lens: k * it.wave.diameter_at_lens,
            clear_aperture: k * it.wave.clear_aperture,
            lens_to_focus: k * it.wave.lens_to_focus,
            ..it.wave
        };
        let (z, radius) = (it.plane(u), share * it.waist);
        let Ok(b) = wave_irradiance(&larger, k * radius, k * z) else { return Ok(()) };
        let a = wave_irradiance(&it.wave, radius, z).unwrap();
        same_bits(b.irradiance_ratio, a.irradiance_ratio);
        same_bits(b.irradiance_per_watt, a.irradiance_per_watt / (k * k));
        same_bits(b.error, a.error);
        let (a, b) = (wave_widths(&it.wave, z).unwrap(), wave_widths(&larger, k * z).unwrap());
        same_bits(b.diameter_power86, k * a.diameter_power86);
        same_bits(b.diameter_1e2, k * a.diameter_1e2);
    }

    /// A map holds the points that can be asked for one by one, within its error and theirs.
    #[test]
    fn a_map_holds_the_points(it in any_wave(), planes in prop::collection::vec(-4.0f64..4.0, 1..4), shares in prop::collection::vec(0.0f64..3.0, 1..5)) {
        let radii: Vec<_> = shares.iter().map(|share| share * it.waist).collect();
        let z: Vec<_> = planes.iter().map(|u| it.plane(*u)).collect();
        let mut workspace = vec![0.0; wave_map_workspace(&it.wave, &radii, &z).unwrap()];
        let mut map = vec![0.0; radii.len() * z.len()];
        let found = wave_map(&it.wave, &radii, &z, &mut workspace, &mut map).unwrap();
        let error = found.error;
        prop_assert!(error < 1e-4, "{error:e}");
        for (row, z) in map.chunks(radii.len()).zip(&z) {
            for (got, radius) in row.iter().zip(&radii) {
                let point = wave_irradiance(&it.wave, *radius, *z).unwrap();
                near(*got, point.irradiance_ratio, error + point.error);
                same_bits(found.half_angle, point.half_angle);
                prop_assert_eq!(found.validity, point.validity);
            }
        }
        // What stood in the working space before does not matter.
        let mut again = vec![0.0; map.len()];
        workspace.fill(f64::NAN);
        wave_map(&it.wave, &radii, &z, &mut workspace, &mut again).unwrap();
        for (a, b) in map.iter().zip(&again) {
            same_bits(*a, *b);
        }
    }

    /// Hardly any loss of coherence hardly changes anything.
    #[test]
    fn coherence_is_a_limit(it in setup(Just(1.0).boxed(), aperture(), phase()), u in -3.0f64..3.0, share in 0.0f64..1.5, more in spread(1e-12, 1e-5)) {
        let poorer = Wave { m2: 1.0 + more, ..it.wave };
        let (z, radius) = (it.plane(u), 0.5 * share * it.waist);
        let (a, b) = (wave_irradiance(&it.wave, radius, z).unwrap(), wave_irradiance(&poorer, radius, z).unwrap());
        // M⁴ scales the ratio, and the picture is blurred by 4·(M² − 1).
        near(b.irradiance_ratio, a.irradiance_ratio, 20.0 * more + a.error + b.error + 1e-13);
    }

    /// A wider aperture lets more through, and any flag is that of the cone.
    #[test]
    fn flags_are_those_of_the_cone(it in any_wave(), cone in 0.05f64..0.4) {
        let lens_to_focus = it.wave.diameter_at_lens * 0.5 * (it.wave.clear_aperture / it.wave.diameter_at_lens).min(1.0) / cone;
        let wave = Wave { lens_to_focus, ..it.wave };
        match wave_irradiance(&wave, 0.0, 0.0) {
            Ok(at) => {
                prop_assert!(cone <= 0.3 * (1.0 + 1e-12));
                prop_assert_eq!(at.validity, if cone > 0.15 { Validity::WIDE_CONE } else { Validity::FINE });
            }
            Err(error) => prop_assert!(error.param() == spotwise::Param::DivergenceHalfAngle && cone >= 0.3 * (1.0 - 1e-12)),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: config().cases.div_ceil(64), ..config() })]

    /// No plane that is tried is better than the best focus.
    #[test]
    fn nothing_beats_the_best_focus(it in any_wave(), u in -6.0f64..6.0) {
        prop_assume!(it.is_far_from_the_lens(0.02));
        let z = it.plane(u);
        let here = wave_widths(&it.wave, z).unwrap();
        let tight = wave_focus(&it.wave, FocusMeasure::Power86).unwrap();
        let bright = wave_focus(&it.wave, FocusMeasure::PeakIrradiance).unwrap();
        prop_assert!(tight.diameter_power86 <= here.diameter_power86 * (1.0 + tight.error + here.error));
        prop_assert!(bright.irradiance_ratio >= here.irradiance_ratio * (1.0 - bright.error - 1e-12));
        for focus in [tight, bright] {
            let again = wave_widths(&it.wave, focus.z).unwrap();
            near(again.diameter_power86 / focus.diameter_power86, 1.0, again.error + focus.error + 1e-9);
            near(again.irradiance_ratio / focus.irradiance_ratio, 1.0, focus.error + 1e-7);
            prop_assert!(focus.diameter_d4sigma.is_nan(), "a clipped beam has no second moment");
        }
        // The edge of the lens focuses nearer to it, and takes every best focus along.
        if it.wave.aberration_phase.abs() > 0.1 && it.wave.clear_aperture > 1.2 * it.wave.diameter_at_lens {
            prop_assert!(tight.z * it.wave.aberration_phase < 0.0 && bright.z * it.wave.aberration_phase < 0.0);
        }
    }

    /// At both ends of the depth the criterion is just met, and between them it is.
    #[test]
    fn the_depth_is_where_it_says(it in any_wave(), growth in 1.05f64..1.6, drop in 0.05f64..0.6, within in 0.0f64..1.0) {
        prop_assume!(it.is_far_from_the_lens(0.02));
        let width = |z: f64| wave_widths(&it.wave, z).unwrap().diameter_power86;
        let axis = |z: f64| wave_irradiance(&it.wave, 0.0, z).unwrap().irradiance_ratio;
        let best = wave_focus(&it.wave, FocusMeasure::Power86).unwrap().diameter_power86;
        for (criterion, limit) in [
            (DepthCriterion::Growth { ratio: growth }, growth * best),
            (DepthCriterion::LargestDiameter { diameter: growth * best }, growth * best),
            (DepthCriterion::Rayleigh, 2f64.sqrt() * best),
        ] {
            let depth = wave_depth_of_focus(&it.wave, criterion).unwrap();
            let range = depth.range;
            prop_assert!(range.toward_lens_z < 0.0 && range.away_from_lens_z > 0.0);
            near(range.full, range.away_from_lens_z - range.toward_lens_z, 1e-12 * range.full);
            for end in [range.toward_lens_z, range.away_from_lens_z] {
                near(width(depth.best_z + end) / limit, 1.0, 1e-6);
                prop_assert!(width(depth.best_z + within * end) <= limit * (1.0 + 1e-6));
            }
        }
        let depth = wave_depth_of_focus(&it.wave, DepthCriterion::IrradianceDrop { drop }).unwrap();
        let peak = wave_focus(&it.wave, FocusMeasure::PeakIrradiance).unwrap().irradiance_ratio;
        for end in [depth.range.toward_lens_z, depth.range.away_from_lens_z] {
            near(axis(depth.best_z + end) / peak, 1.0 - drop, 1e-6);
            prop_assert!(axis(depth.best_z + within * end) / peak >= 1.0 - drop - 1e-6);
        }
    }

    /// Second moments of an unclipped wave have their closed form, whose plane the integral does not need.
    #[test]
    fn second_moment_focus(it in setup(Just(1.0).boxed(), Just(f64::INFINITY).boxed(), phase())) {
        prop_assume!(it.is_far_from_the_lens(0.001));
        let focus = wave_focus(&it.wave, FocusMeasure::SecondMoment).unwrap();
        let alpha = it.wave.aberration_phase;
        let away = it.unit / it.wave.lens_to_focus * 16.0;
        near(focus.diameter_d4sigma / it.waist, (1.0 + 2.0 * alpha * alpha).sqrt(), 8.0 * away);
        near(focus.z / it.unit, -2.0 * alpha, away * (1.0 + alpha.abs()));
    }
}
