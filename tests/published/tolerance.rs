//! Tolerance stacks: the worked examples of the GUM, of its supplement 1 and of EA-4/02, and Wilson's interval. All
//! from memory: that the printed results follow from the inputs recalled vouches for both. Units do not matter to a
//! sum, so that nanometres and degrees enter as if they were metres.

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

/// EA-4/02 (European co-operation for Accreditation), *Evaluation of the uncertainty of measurement in calibration*,
/// supplement 1, example S4: a gauge block of 50 mm. Limits and deviations in nm: the reference block, ± 30 at k = 2;
/// its drift ± 30; five readings of a comparator of pooled deviation 12; offset and non-linearity of the comparator
/// ± 32; ± 0.05 K between the blocks at 11.5e-6 /K; a difference of the expansions, triangular ± 2e-6 /K, times one of
/// the temperatures, ± 0.5 K; and ± 6.7 for the place of the probe. Printed as 15.0, 17.3, 5.37, 18.5, 16.6, 11.8 and
/// 3.87 nm, combined 36.4 nm.
#[test]
fn gauge_block_of_ea_4_02() {
    let block = 50e6; // nm
    let expansions = deviation(&[of(Distribution::Triangular { half_width: 2e-6 })]);
    let temperatures = deviation(&[of(Distribution::Uniform { half_width: 0.5 })]);
    rounds_to(expansions * temperatures * 1e6, "0.236");
    let budget = [
        of(Distribution::Normal { half_width: 30.0, coverage_factor: 2.0 }),
        of(Distribution::Uniform { half_width: 30.0 }),
        standard(12.0 / 5f64.sqrt()),
        of(Distribution::Uniform { half_width: 32.0 }),
        of(Distribution::Uniform { half_width: 11.5e-6 * block * 0.05 }),
        standard(block * expansions * temperatures),
        of(Distribution::Uniform { half_width: 6.7 }),
    ];
    for (one, printed) in budget.iter().zip(["15.0", "17.3", "5.37", "18.5", "16.6", "11.8", "3.87"]) {
        rounds_to(deviation(&[*one]), printed);
    }
    let stack = tolerance_stack(&budget, 0.9545).unwrap();
    rounds_to(stack.deviation, "36.4");
    rounds_to(stack.coverage_factor, "2.0");
    rounds_to(stack.expanded_half_width, "73"); // printed as 2 × 36.4 nm ≅ 73 nm
    assert_eq!(stack.dominant, 3); // the comparator, though its share is but 342 of 1325 nm²
    rounds_to(stack.dominant_share, "0.26");
}

/// EA-4/02, supplement 2, example S10: a vernier caliper at 150 mm, a stack that two rectangles dominate. Half widths
/// in µm: the block 0.8; ± 2 K at 11.5e-6 /K; half a step of the scale, 25; mechanical effects, 50. Printed standard
/// uncertainties: 0.46, 2.0, 15 and 29 µm, combined 33 µm. As the sum is a trapezoid, whose flat part over its whole
/// is 0.33, 95 % lie within 1.83 standard deviations; U = 1.83 × 0.033 mm ≅ 0.06 mm.
#[test]
fn vernier_caliper_of_ea_4_02() {
    let block = of(Distribution::Uniform { half_width: 0.8 });
    let warmth = of(Distribution::Uniform { half_width: 150e3 * 11.5e-6 * 2.0 });
    let scale = of(Distribution::Uniform { half_width: 25.0 });
    let mechanics = of(Distribution::Uniform { half_width: 50.0 });
    rounds_to(deviation(&[block]), "0.46");
    rounds_to(deviation(&[warmth]), "2.0");
    rounds_to(deviation(&[mechanics]), "29");
    // Printed rounded up: 25 µm/√3 is 14.4 µm, and with that the sum is 32.3 µm.
    assert!((14.0..15.0).contains(&deviation(&[scale])));
    rounds_to(deviation(&[0.46, 2.0, 15.0, 29.0].map(standard)), "33");
    let budget = [block, warmth, scale, mechanics];
    let stack = tolerance_stack(&budget, 0.95).unwrap();
    rounds_to(stack.deviation, "32.3");
    assert_eq!((stack.dominant, stack.widest), (3, 3));
    rounds_to(stack.dominant_share, "0.80"); // 833 of 1045 µm²

    // A trapezoid's factor by EA's own formula; of a normal sum it would be 1.96.
    let flat: f64 = (50.0 - 25.0) / (50.0 + 25.0);
    let factor = (1.0 - (0.05 * (1.0 - flat * flat)).sqrt()) / ((1.0 + flat * flat) / 6.0).sqrt();
    rounds_to(factor, "1.83");
    rounds_to(stack.coverage_factor, "1.96");
    let draws = Draws::of(100_000, 1);
    let within = |them: &[Contribution], limit: f64| offset_odds(them, -limit, limit, draws).unwrap().drawn;
    let both = [scale, mechanics];
    let drawn = within(&both, factor * deviation(&both));
    assert!(((drawn.share - 0.95) / drawn.standard_error).abs() < 4.0, "{}", drawn.share);
    // All four: 95 % lie within what is printed, and more within what a normal sum would need.
    let limit = factor * stack.deviation;
    rounds_to(limit * 1e-3, "0.06");
    let drawn = within(&budget, limit);
    assert!(((drawn.share - 0.95) / drawn.standard_error).abs() < 6.0, "{}", drawn.share);
    rounds_to(stack.expanded_half_width, "63");
    assert!(within(&budget, stack.expanded_half_width).share > 0.965);
}
