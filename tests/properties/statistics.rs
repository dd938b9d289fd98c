//! Student's t and χ².

use super::given::config;
use proptest::prelude::*;
use spotwise::model::learn::{chi_squared_chance, student_factor};
use spotwise::{Error, Param};

fn degrees() -> impl Strategy<Value = f64> {
    prop_oneof![(1..60_u32).prop_map(f64::from), (60..3000_u32).prop_map(f64::from)]
}

fn confidence() -> impl Strategy<Value = f64> {
    0.5..0.9999_f64
}

/// Any double: within a range, beside it, or none.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![0.0..2.0_f64, any::<f64>(), Just(f64::NAN), Just(f64::INFINITY), Just(-0.0)]
}

/// Share of cases within ± t, by Simpson's rule on the density over θ = atan(t/√ν), where it is cos^{ν−1} θ.
fn share_within(t: f64, degrees: f64) -> f64 {
    let steps = 4000;
    let integral = |end: f64| {
        let at = |i: u32| (end * f64::from(i) / f64::from(steps)).cos().powf(degrees - 1.0);
        let inner: f64 = (1..steps).map(|i| if i % 2 == 1 { 4.0 } else { 2.0 } * at(i)).sum();
        (at(0) + inner + at(steps)) * end / f64::from(steps) / 3.0
    };
    integral((t / degrees.sqrt()).atan()) / integral(std::f64::consts::FRAC_PI_2)
}

proptest! {
    #![proptest_config(config())]
    #[test]
    fn so_many_cases_lie_within_t(confidence in confidence(), degrees in degrees()) {
        let t = student_factor(confidence, degrees).unwrap();
        prop_assert!((share_within(t, degrees) - confidence).abs() < 1e-9, "{t}");
    }

    #[test]
    fn more_confidence_needs_more_and_more_degrees_need_less(
        (less, more) in (confidence(), confidence()),
        degrees in degrees(),
    ) {
        let t = |confidence, degrees| student_factor(confidence, degrees).unwrap();
        prop_assert_eq!(less < more, t(less, degrees) < t(more, degrees));
        prop_assert!(t(less, degrees + 1.0) < t(less, degrees));
        prop_assert!(t(less, 1e5) < t(less, degrees) + 1e-9);
    }

    /// κ_{ν+2}: what two more degrees add to the chance, from the density of χ².
    #[test]
    fn two_more_degrees_add_a_known_chance(degrees in 1..40_u32, reduced in 0.0..4.0_f64) {
        let chi_squared = reduced * f64::from(degrees);
        let chance = |degrees: u32| chi_squared_chance(chi_squared, f64::from(degrees)).unwrap();
        // h^{ν/2}·e^{−h}/Γ(ν/2 + 1)
        let half = 0.5 * chi_squared;
        let odd = degrees % 2 == 1;
        let start = if odd { 0.5 * std::f64::consts::PI.sqrt() } else { 1.0 };
        let gamma = (1..=degrees / 2).fold(start, |g, r| g * (f64::from(r) + if odd { 0.5 } else { 0.0 }));
        let added = half.powf(0.5 * f64::from(degrees)) * (-half).exp() / gamma;
        prop_assert!((chance(degrees + 2) - chance(degrees) - added).abs() < 1e-13);
    }

    #[test]
    fn a_greater_chi_squared_is_less_likely(degrees in degrees(), (a, b) in (0.0..3.0_f64, 0.0..3.0_f64)) {
        let chance = |reduced: f64| chi_squared_chance(reduced * degrees, degrees).unwrap();
        let (less, more) = if a < b { (a, b) } else { (b, a) };
        prop_assert!(chance(more) <= chance(less) * (1.0 + 1e-12) && chance(less) <= 1.0);
        prop_assert_eq!(chance(0.0), 1.0);
    }

    /// One degree of freedom is a normal law of its own.
    #[test]
    fn one_degree_is_a_normal_law(deviations in 0.0..8.0_f64) {
        let chance = chi_squared_chance(deviations * deviations, 1.0).unwrap();
        prop_assert!((chance - libm::erfc(deviations / std::f64::consts::SQRT_2)).abs() <= 1e-13 * chance);
    }

    #[test]
    fn what_is_refused(confidence in number(), degrees in prop_oneof![number(), degrees()]) {
        let refused = |param: Param, value: f64| {
            let (least, greatest) = param.range();
            if !value.is_finite() {
                return Some(Error::NotFinite { param, value });
            }
            let whole = param != Param::DegreesOfFreedom || value.fract() == 0.0;
            let within = (least..=greatest).contains(&value) && whole;
            (!within).then_some(Error::OutOfRange { param, value, least, greatest })
        };
        let of_degrees = refused(Param::DegreesOfFreedom, degrees);
        let wanted = refused(Param::Confidence, confidence).or(of_degrees);
        prop_assert_eq!(format!("{:?}", student_factor(confidence, degrees).err()), format!("{wanted:?}"));
        let wanted = refused(Param::ChiSquared, confidence).or(of_degrees);
        prop_assert_eq!(format!("{:?}", chi_squared_chance(confidence, degrees).err()), format!("{wanted:?}"));
    }
}

#[test]
fn chances_vanish_without_a_trace_of_nan() {
    for degrees in [1.0, 2.0, 701.0, 100_000.0] {
        for chi_squared in [1e4, 2e5, 1e30, 1e100] {
            let chance = chi_squared_chance(chi_squared, degrees).unwrap();
            assert!((0.0..=1.0).contains(&chance), "{degrees} {chi_squared}: {chance}");
        }
        assert_eq!(chi_squared_chance(1e100, degrees).unwrap(), 0.0);
    }
}
