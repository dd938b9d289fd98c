//! Widths by their definitions, and the power inside an aperture.

use super::given::*;
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::optics::{WidthDefinition, convert_width, diameter_for_power, power_through_aperture};

fn definition() -> impl Strategy<Value = WidthDefinition> {
    prop::sample::select(WidthDefinition::ALL.to_vec())
}

/// Diameters that stay in range when they are converted.
fn diameter() -> BoxedStrategy<f64> {
    spread(2e-9, 5.0)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn there_and_back(d in diameter(), from in definition(), to in definition()) {
        let there = convert_width(d, from, to).unwrap();
        close(convert_width(there, to, from).unwrap(), d, 2.0);
    }

    #[test]
    fn by_way_of_a_third(d in diameter(), a in definition(), b in definition(), c in definition()) {
        let by_way_of_b = convert_width(convert_width(d, a, b).unwrap(), b, c).unwrap();
        close(by_way_of_b, convert_width(d, a, c).unwrap(), 2.0);
    }

    /// Of a Gaussian beam, three of the definitions are one; the fourth bounds half of its power.
    #[test]
    fn meaning_of_the_definitions(d in diameter()) {
        use WidthDefinition::{D4Sigma, Fwhm, InverseESquared, Power86};
        same_bits(convert_width(d, InverseESquared, D4Sigma).unwrap(), d);
        same_bits(convert_width(d, D4Sigma, Power86).unwrap(), d);
        let fwhm = convert_width(d, Power86, Fwhm).unwrap();
        prop_assert!(fwhm < d);
        // Half the irradiance at r leaves half the power outside: both are exp(−2·r²/w²).
        close(power_through_aperture(d, fwhm).unwrap(), 0.5, 4.0);
        close(power_through_aperture(d, d).unwrap(), 1.0 - (-2.0f64).exp(), 4.0);
        close(diameter_for_power(d, 0.5).unwrap(), fwhm, 4.0);
    }

    #[test]
    fn share_comes_back(d in diameter(), share in prop_oneof![spread(1e-300, 1.0 - 1e-16), 0.0f64..1.0]) {
        let aperture = diameter_for_power(d, share).unwrap();
        // A long way out, the share says less and less about the aperture, but not the reverse.
        close(power_through_aperture(d, aperture).unwrap(), share, 6.0);
    }

    #[test]
    fn aperture_comes_back(d in diameter(), ratio in spread(1e-9, 2.0)) {
        let aperture = ratio * d;
        let share = power_through_aperture(d, aperture).unwrap();
        // With x = 2·a²/d² the error of the share counts (eˣ − 1)/(2·x) times.
        let x = 2.0 * ratio * ratio;
        close(diameter_for_power(d, share).unwrap(), aperture, 4.0 + 4.0 * x.exp_m1() / x);
    }

    #[test]
    fn a_wider_aperture_passes_more(d in diameter(), a in across(Param::ApertureDiameter), share in 0.0f64..=1.0) {
        let (narrow, wide) = (power_through_aperture(d, share * a).unwrap(), power_through_aperture(d, a).unwrap());
        prop_assert!((0.0..=1.0).contains(&narrow) && (0.0..=1.0).contains(&wide));
        in_order(narrow, wide, 4.0);
    }

    #[test]
    fn only_ratios_count(d in spread(1e-6, 0.1), a in spread(1e-6, 1.0), share in 0.0f64..1.0, k in power_of_two()) {
        same_bits(power_through_aperture(k * d, k * a).unwrap(), power_through_aperture(d, a).unwrap());
        same_bits(diameter_for_power(k * d, share).unwrap(), k * diameter_for_power(d, share).unwrap());
        let (from, to) = (WidthDefinition::InverseESquared, WidthDefinition::Fwhm);
        same_bits(convert_width(k * d, from, to).unwrap(), k * convert_width(d, from, to).unwrap());
    }
}
