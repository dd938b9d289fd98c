//! Tolerance stacks: the worked examples of the GUM and of its supplement 1, and Wilson's interval. All from
//! memory. Units do not matter to a sum, so that nanometres and degrees enter as if they were metres.

use super::*;
use spotwise::model::surface::{
    Contribution, Distribution, Draws, ToleranceSource, offset_odds, tolerance_stack,
};

fn of(distribution: Distribution) -> Contribution {
    Contribution { source: ToleranceSource::Other, distribution, mean: 0.0 }
}

fn standard(deviation: f64) -> Contribution {
    of(Distribution::Normal { half_width: deviation, coverage_factor: 1.0 })
}

fn deviation(them: &[Contribution]) -> f64 {
    tolerance_stack(them, 0.95).unwrap().deviation
}

/// JCGM 100:2008. 4.3.3, example: 240 µg "at the three standard deviation level" are 80 µg. 4.3.7, example 1:
/// an error within 0.40e-6 of the expansion of copper is u² = 53.3e-15, u = 0.23e-6. 4.3.8, example: limits 0.52e-6
/// apart are u² = 22.5e-15, u = 0.15e-6. 4.3.9: of a triangle u² = a²/6.
#[test]
fn standard_uncertainties_of_the_gum() {
    rounds_to(deviation(&[of(Distribution::Normal { half_width: 240.0, coverage_factor: 3.0 })]), "80");
    let copper = deviation(&[of(Distribution::Uniform { half_width: 0.40e-6 })]);
    rounds_to(copper * 1e6, "0.23");
    rounds_to(copper * copper * 1e15, "53.3");
    let limits = deviation(&[of(Distribution::Uniform { half_width: 0.26e-6 })]);
    rounds_to(limits * 1e6, "0.15");
    rounds_to(limits * limits * 1e15, "22.5");
    let triangle = deviation(&[of(Distribution::Triangular { half_width: 3.0 })]);
    rounds_to(triangle * triangle, "1.5");
}

/// JCGM 100:2008, annex H.1, end-gauge calibration: components of 25, 9.7, 2.9 and 16.6 nm combine to 32 nm.
#[test]
fn end_gauge_of_the_gum() {
    let gauge = [25.0, 9.7, 2.9, 16.6].map(standard);
    rounds_to(deviation(&gauge), "32");
    let stack = tolerance_stack(&gauge, 0.95).unwrap();
    assert_eq!(stack.dominant, 0);
    rounds_to(stack.dominant_share, "0.62"); // 625 of 1003 nm²
}

/// JCGM 100:2008, table G.1: coverage factors of a normal law.
#[test]
fn coverage_factors_of_the_gum() {
    for (p, k) in [
        (0.6827, "1.000"),
        (0.90, "1.645"),
        (0.95, "1.960"),
        (0.9545, "2.000"),
        (0.99, "2.576"),
        (0.9973, "3.000"),
    ] {
        rounds_to(tolerance_stack(&[standard(1.0)], p).unwrap().coverage_factor, k);
    }
}

/// JCGM 101:2008, 9.2: the sum of four quantities. 9.2.2: normal ones of 1 make u = 2.00 and 95 % within ±3.92.
/// 9.2.3: rectangular ones of the same deviation keep u = 2.00, but 95 % lie within ±3.88. 9.2.4: with the
/// deviation of one of them raised to 10, u = 10.1 and a normal sum would need ±19.9, while 95 % lie within ±17.0.
#[test]
fn sums_of_four_of_supplement_1() {
    let draws = Draws::of(100_000, 1);
    let expanded = |them: &[Contribution]| tolerance_stack(them, 0.95).unwrap().expanded_half_width;
    let covers = |them: &[Contribution], limit: f64| {
        let drawn = offset_odds(them, -limit, limit, draws).unwrap().drawn;
        let off = (drawn.share - 0.95) / drawn.standard_error;
        // The printed limits are rounded, which moves the share by less than a standard error more.
        assert!(off.abs() < 4.0, "{} within {limit}", drawn.share);
    };
    let normal = [standard(1.0); 4];
    rounds_to(deviation(&normal), "2.00");
    rounds_to(expanded(&normal), "3.92");
    covers(&normal, 3.92);
    let even = of(Distribution::Uniform { half_width: 3f64.sqrt() });
    rounds_to(deviation(&[even; 4]), "2.00");
    covers(&[even; 4], 3.88);
    let ruled = [even, even, even, of(Distribution::Uniform { half_width: 300f64.sqrt() })];
    rounds_to(deviation(&ruled), "10.1");
    rounds_to(expanded(&ruled), "19.9");
    covers(&ruled, 17.0);
}

/// The interval of a share of which so many of so many cases hit.
fn interval(hits: u32, count: u32) -> (f64, f64) {
    let one = [of(Distribution::Uniform { half_width: 1.0 })];
    let (mut low, mut high) = (-1.0, 1.0);
    loop {
        let limit: f64 = 0.5 * (low + high);
        let drawn = offset_odds(&one, -1.0, limit, Draws::of(count, 1)).unwrap().drawn;
        let found = (drawn.share * f64::from(count)).round() as u32;
        if found == hits {
            return (drawn.least, drawn.greatest);
        }
        if found < hits { low = limit } else { high = limit }
    }
}

/// R. G. Newcombe, *Statistics in Medicine* 17, 857 (1998), table I, the score method without continuity
/// correction, which is Wilson's.
#[test]
fn wilson_intervals_of_newcombe() {
    for (hits, count, least, greatest) in [
        (81, 263, "0.2553", "0.3662"),
        (15, 148, "0.0624", "0.1605"),
        (0, 20, "0.0000", "0.1611"),
        (1, 29, "0.0061", "0.1718"),
    ] {
        let found = interval(hits, count);
        rounds_to(found.0, least);
        rounds_to(found.1, greatest);
    }
}

/// A stack of plates, as in any text on tolerances (from memory): n alike parts of ± t are ± n·t at worst, and
/// ± √n·t by root sum square, if each t is the same number of deviations.
#[test]
fn stack_of_plates() {
    let plate = of(Distribution::Normal { half_width: 0.1, coverage_factor: 3.0 });
    for count in [1, 4, 9, 16, 25] {
        let stack = tolerance_stack(&vec![plate; count], 0.9973).unwrap();
        let n = count as f64;
        assert!((stack.worst_half_width - 0.1 * n).abs() < 1e-15 * n);
        assert!((3.0 * stack.deviation - 0.1 * n.sqrt()).abs() < 1e-15 * n);
        rounds_to(stack.expanded_half_width / n.sqrt(), "0.100");
    }
}
