//! A clipped Gaussian beam.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::focus::{DepthCriterion, clipped_depth_of_focus, depth_of_focus};
use spotwise::model::optics::{
    Beam, ClippedFocus, focus_clipped, power_through_aperture, waist_from_divergence,
};
use spotwise::{Level, Validity};
use std::f64::consts::PI;

/// Wavelength, beam diameter and focal length of a cone that is accepted, and of a focus that stays sharp
/// however the beam is clipped.
#[derive(Debug, Clone, Copy)]
struct Setup {
    wavelength: f64,
    diameter: f64,
    f: f64,
}

fn setup() -> impl Strategy<Value = Setup> {
    (spread(3e-7, 2e-5), spread(5e-3, 0.5), spread(1e-3, 0.25))
        .prop_map(|(wavelength, f, cone)| Setup { wavelength, diameter: 2.0 * cone * f, f })
        .prop_filter("a long focus is refused", |it| {
            let narrowest = 0.2 * it.diameter;
            4.0 * it.wavelength * it.f / (PI * narrowest * narrowest) < 0.2
        })
}

impl Setup {
    fn focus(&self, ratio: f64) -> ClippedFocus {
        focus_clipped(self.wavelength, self.diameter, ratio * self.diameter, self.f).unwrap()
    }

    /// The unclipped focus, 4·λ·f/(π·D), and its Rayleigh range.
    fn unclipped(&self) -> (f64, f64) {
        let waist = 4.0 * self.wavelength * self.f / (PI * self.diameter);
        (waist, PI * waist * waist / (4.0 * self.wavelength))
    }
}

/// Clipping ratios from all but uniform light to all but none clipped.
fn ratio() -> BoxedStrategy<f64> {
    spread(0.2001, 20.0)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn power_and_peak(it in setup(), ratio in ratio()) {
        let focus = it.focus(ratio);
        close(focus.clipping_ratio, ratio, 2.0);
        close(focus.transmitted, power_through_aperture(it.diameter, ratio * it.diameter).unwrap(), 8.0);
        // The peak goes with the square of the field that is let through: (1 − exp(−X²))², and the
        // power with 1 − exp(−2X²) = (1 − e)·(1 + e).
        let e = (-ratio * ratio).exp();
        close(focus.peak_irradiance_ratio, (1.0 - e).powi(2), 128.0 / (1.0 - e));
        close(focus.transmitted / focus.peak_irradiance_ratio, (1.0 + e) / (1.0 - e), 128.0 / (1.0 - e));
    }

    /// Without an aperture the focus is the Gaussian beam's, and its widths those of a Gaussian profile.
    #[test]
    fn no_aperture(it in setup(), ratio in spread(2.8, 100.0)) {
        let open = focus_clipped(it.wavelength, it.diameter, f64::INFINITY, it.f).unwrap();
        let waist = waist_from_divergence(it.wavelength, 1.0, it.diameter / it.f).unwrap();
        close(open.diameter_1e2, waist, 8.0);
        close(open.diameter_power86, waist, 8.0);
        close(open.fwhm, waist * (0.5 * 2f64.ln()).sqrt(), 8.0);
        prop_assert_eq!((open.transmitted, open.peak_irradiance_ratio), (1.0, 1.0));
        // A wide one leaves the widths the same to the bit.
        let wide = it.focus(ratio);
        same_bits(wide.diameter_1e2, open.diameter_1e2);
        same_bits(wide.fwhm, open.fwhm);
        same_bits(wide.diameter_power86, open.diameter_power86);
        prop_assert_eq!(wide.validity.level(), open.validity.level());
    }

    /// A narrower aperture makes a larger spot and a fainter one, but for the error of the fits.
    #[test]
    fn a_narrower_aperture_makes_a_larger_spot(it in setup(), ratio in ratio(), wider in 1.0f64..3.0) {
        let (narrow, wide) = (it.focus(ratio), it.focus(wider * ratio));
        // (1/e² 0.08 %, FWHM 0.11 %, 86.5 % 0.13 %, each of both)
        prop_assert!(wide.diameter_1e2 <= 1.0016 * narrow.diameter_1e2);
        prop_assert!(wide.fwhm <= 1.0022 * narrow.fwhm);
        in_order(narrow.transmitted, wide.transmitted, 4.0);
        in_order(narrow.peak_irradiance_ratio, wide.peak_irradiance_ratio, 8.0);
        prop_assert!(narrow.fwhm < narrow.diameter_1e2);
        if narrow.diameter_power86.is_nan() {
            prop_assert!(narrow.validity.contains(Validity::NO_POWER86));
            prop_assert_eq!(narrow.validity.level(), Level::OutOfDomain);
            prop_assert!(narrow.clipping_ratio < 0.8);
        } else {
            prop_assert!(wide.diameter_power86 <= 1.0026 * narrow.diameter_power86);
            prop_assert!(!narrow.validity.contains(Validity::NO_POWER86) && narrow.clipping_ratio >= 0.8);
        }
    }

    #[test]
    fn scales_with_all_lengths(it in setup(), ratio in ratio(), k in power_of_two(), drop in 0.01f64..0.9) {
        let aperture = ratio * it.diameter;
        let Ok(b) = focus_clipped(k * it.wavelength, k * it.diameter, k * aperture, k * it.f) else { return Ok(()) };
        let a = it.focus(ratio);
        same_bits(b.diameter_1e2, k * a.diameter_1e2);
        same_bits(b.fwhm, k * a.fwhm);
        prop_assert_eq!(a.validity, b.validity);
        let a = clipped_depth_of_focus(it.wavelength, it.diameter, aperture, it.f, drop).unwrap();
        let b = clipped_depth_of_focus(k * it.wavelength, k * it.diameter, k * aperture, k * it.f, drop).unwrap();
        same_bits(b.range.away_from_lens_z, k * a.range.away_from_lens_z);
        same_bits(b.relative_half_depth, a.relative_half_depth);
    }

    /// At the ends of the depth the irradiance has fallen as asked, by a sum over the aperture's rings,
    /// abs(∫ exp(−(1 + iβ)·y) dy)² from 0 to X²; and nowhere nearer has it fallen as far.
    #[test]
    fn depth_meets_its_drop(it in setup(), ratio in ratio(), drop in 0.01f64..0.9, nearer in 0.0f64..1.0) {
        let depth = clipped_depth_of_focus(it.wavelength, it.diameter, ratio * it.diameter, it.f, drop).unwrap();
        let range = depth.range;
        in_order(range.toward_lens_z, depth.brightest_z, 1.0);
        in_order(depth.brightest_z, range.away_from_lens_z, 1.0);
        prop_assert!(depth.brightest_z < 0.0);
        let y = (ratio * ratio).min(50.0);
        let n = PI * it.diameter * it.diameter / (4.0 * it.wavelength * it.f);
        let at = |beta: f64| {
            const RINGS: u32 = 4000;
            let (mut real, mut imaginary, mut still) = (0.0, 0.0, 0.0);
            for ring in 0..RINGS {
                let here = y * (f64::from(ring) + 0.5) / f64::from(RINGS);
                real += (-here).exp() * (beta * here).cos();
                imaginary += (-here).exp() * (beta * here).sin();
                still += (-here).exp();
            }
            (1.0 + beta / n).powi(2) * (real * real + imaginary * imaginary) / (still * still)
        };
        let beta = |z: f64| -n * z / (it.f + z);
        let brightest = beta(depth.brightest_z);
        let greatest = at(brightest);
        for end in [beta(range.toward_lens_z), beta(range.away_from_lens_z)] {
            // The midpoint rule with 4000 rings of at most 1/80.
            near(at(end) / greatest, 1.0 - drop, 2e-4);
            let between = at(brightest + nearer * (end - brightest)) / greatest;
            prop_assert!(between >= 1.0 - drop - 2e-4 && between <= 1.0 + 2e-4);
        }
    }

    /// Clipping lengthens the depth; without it the depth is the Gaussian beam's. (Between two apertures
    /// the narrower one need not have the longer depth: the irradiance ripples along the axis.)
    #[test]
    fn clipping_lengthens_the_depth(it in setup(), ratio in ratio(), drop in 0.01f64..0.9, more in 0.0f64..1.0) {
        let depth = |aperture, drop| clipped_depth_of_focus(it.wavelength, it.diameter, aperture, it.f, drop).unwrap().range.full;
        let (narrow, open) = (depth(ratio * it.diameter, drop), depth(f64::INFINITY, drop));
        in_order(open, narrow, 64.0 + 16.0 / drop);
        let (waist, _) = it.unclipped();
        // (Seen from the lens the waist lies nearer than the focal point, and is narrower by 1/√(1 + zR²/f²).)
        let share = it.unclipped().1 / it.f;
        let waist_diameter = waist / (1.0 + share * share).sqrt();
        let beam = Beam { wavelength: it.wavelength, m2: 1.0, waist_diameter };
        let gaussian = depth_of_focus(&beam, DepthCriterion::IrradianceDrop { drop }).unwrap().full;
        close(open, gaussian, 64.0 + 16.0 / drop);
        // The more may be lost, the deeper.
        let looser = drop + more * (0.9 - drop);
        in_order(narrow, depth(ratio * it.diameter, looser), 64.0 + 16.0 / drop);
    }
}
