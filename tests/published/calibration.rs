//! Calibrated set-ups: the covariance of two measured numbers, and the factor of a normal law.

use super::*;
use spotwise::model::learn::{LearnedLine, NORMAL_FACTOR_95, learned_threshold};

/// JCGM 100:2008 (GUM), annex H.2, the simultaneous measurement of resistance and reactance: five readings of a voltage
/// and of a current (Table H.2, from memory: that the printed results follow from them vouches for the readings).
/// Printed: means of 4.9990 V and 19.6610 mA with 0.0032 V and 0.0095 mA, r(V, I) = −0.36, and Z = V/I = 254.260 Ω with
/// a combined standard uncertainty of 0.236 Ω. A threshold goes with 1/(d·q), so that what is V/I there is here 1/(d·q)
/// with the correlation of the other sign.
#[test]
fn an_impedance_of_the_gum() {
    let voltage: [f64; 5] = [5.007, 4.994, 5.005, 4.990, 4.999];
    let current: [f64; 5] = [19.663, 19.639, 19.640, 19.685, 19.678];
    let mean = |them: &[f64; 5]| them.iter().sum::<f64>() / 5.0;
    let covariance = |a: &[f64; 5], b: &[f64; 5]| {
        a.iter().zip(b).map(|(x, y)| (x - mean(a)) * (y - mean(b))).sum::<f64>() / (4.0 * 5.0)
    };
    let deviation = |them| covariance(them, them).sqrt();
    rounds_to(mean(&voltage), "4.9990");
    rounds_to(mean(&current), "19.6610");
    rounds_to(deviation(&voltage), "0.0032");
    rounds_to(deviation(&current), "0.0095");
    let correlation = covariance(&voltage, &current) / (deviation(&voltage) * deviation(&current));
    rounds_to(correlation, "-0.36");
    let found = learned_threshold(&LearnedLine {
        power: 1.0,
        speed: 1.0,
        waist_diameter: mean(&voltage),
        waist_diameter_deviation: deviation(&voltage),
        dose_ratio: mean(&current),
        relative_dose_ratio_deviation: deviation(&current) / mean(&current),
        correlation: -correlation,
        coverage_factor_95: NORMAL_FACTOR_95,
    })
    .unwrap();
    let impedance = 1e3 * mean(&voltage) / mean(&current);
    rounds_to(impedance, "254.260");
    rounds_to(impedance * found.relative_deviation, "0.236");
}

/// JCGM 100:2008, Table G.2, from memory: t₉₅ of infinitely many degrees of freedom is 1.960, of one 12.71, which the
/// range of the factor takes in.
#[test]
fn the_factor_of_a_normal_law() {
    rounds_to(NORMAL_FACTOR_95, "1.960");
    let (least, greatest) = spotwise::Param::CoverageFactor95.range();
    assert!(least < 1.96 && 12.71 < greatest);
}
