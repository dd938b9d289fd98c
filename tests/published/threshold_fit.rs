//! Spot and threshold from marks, against a regression that NIST has certified.

use spotwise::model::learn::{ReadingWeights, TestMarks, ThresholdFit, ThresholdFitOptions, fit_threshold};

/// NIST Statistical Reference Datasets, linear regression, "Norris" (calibration of ozone monitors): y and
/// x of its 36 observations and the certified values. Read in NIST's file `Norris.dat` as `scipy` 1.17.1
/// carries it, `scipy/stats/tests/data/nist_linregress/`.
mod norris {
    pub const POINTS: [(f64, f64); 36] = [
        (0.1, 0.2),
        (338.8, 337.4),
        (118.1, 118.2),
        (888.0, 884.6),
        (9.2, 10.1),
        (228.1, 226.5),
        (668.5, 666.3),
        (998.5, 996.3),
        (449.1, 448.6),
        (778.9, 777.0),
        (559.2, 558.2),
        (0.3, 0.4),
        (0.1, 0.6),
        (778.1, 775.5),
        (668.8, 666.9),
        (339.3, 338.0),
        (448.9, 447.5),
        (10.8, 11.6),
        (557.7, 556.0),
        (228.3, 228.1),
        (998.0, 995.8),
        (888.8, 887.6),
        (119.6, 120.2),
        (0.3, 0.3),
        (0.6, 0.3),
        (557.6, 556.8),
        (339.3, 339.1),
        (888.0, 887.2),
        (998.5, 999.0),
        (778.9, 779.0),
        (10.2, 11.1),
        (117.6, 118.3),
        (228.9, 229.2),
        (668.4, 669.1),
        (449.2, 448.9),
        (0.2, 0.5),
    ];
    /// y = B0 + B1·x and the standard deviations of both.
    pub const B0: f64 = -0.262323073774029;
    pub const B0_DEVIATION: f64 = 0.232818234301152;
    pub const B1: f64 = 1.00211681802045;
    pub const B1_DEVIATION: f64 = 0.429796848199937e-3;
    /// Mean square of the residuals, with 34 degrees of freedom.
    pub const RESIDUAL_MEAN_SQUARE: f64 = 0.782864662630069;
    pub const F_STATISTIC: f64 = 5436385.54079785;
}

/// b² = y·1e-10 m² and ln E = x/100: widths of 3 to 316 µm, energies of 1.002 to 21 800. All marks weigh
/// alike, 2bσ = 0.5e-10 m², so that χ²/ν is four times the mean square above, and their deviations are
/// smaller than the scatter.
const SQUARE: f64 = 1e-10;
const LOG_ENERGY: f64 = 0.01;
const SPREAD: f64 = 0.5;

fn fit() -> ThresholdFit {
    let doses = norris::POINTS.map(|(_, x)| (LOG_ENERGY * x).exp());
    let widths = norris::POINTS.map(|(y, _)| (SQUARE * y).sqrt());
    let deviations = widths.map(|b| SPREAD * SQUARE / (2.0 * b));
    let marks = TestMarks { doses: &doses, widths: &widths, deviations: &deviations };
    let options = ThresholdFitOptions {
        weights: ReadingWeights::Measured,
        outlier_limit: f64::INFINITY,
        confidence: 0.95,
    };
    let (mut residuals, mut used) = ([0.0; 36], [false; 36]);
    let fit = fit_threshold(&marks, &options, &mut residuals, &mut used).unwrap();
    assert_eq!((fit.marks_used, used), (36, [true; 36]));
    fit
}

/// The certified digits to 5e-12, for widths and energies are rounded once more than y and x.
#[track_caller]
fn certified(got: f64, want: f64) {
    assert!((got / want - 1.0).abs() < 5e-12, "got {got:e}, certified {want:e}");
}

/// d = √(2m), so that m = d²/2, and its deviation is d times that of d.
#[test]
fn slope_and_its_deviation() {
    let fit = fit();
    let unit = SQUARE / LOG_ENERGY;
    let spot = fit.spot_diameter;
    certified(spot.value.powi(2) / 2.0 / unit, norris::B1);
    certified(spot.value * spot.deviation / unit, norris::B1_DEVIATION);
    // F of a straight line is the square of its slope over its deviation.
    certified(fit.significance.powi(2), norris::F_STATISTIC);
}

/// Where the line crosses zero: x₀ = −B0/B1, its deviation, and its correlation with B1. As for any straight
/// line cov(B0, B1) = −x̄·s1², so that
/// var(x₀) = (s0² + x₀²·s1² − 2·x₀·x̄·s1²)/B1² and cov(x₀, B1) = (x̄ − x₀)·s1²/B1.
fn crossing() -> (f64, f64, f64) {
    use norris::{B0, B0_DEVIATION, B1, B1_DEVIATION, POINTS};
    let mean = POINTS.iter().map(|(_, x)| x).sum::<f64>() / 36.0;
    let crossing = -B0 / B1;
    let slope_variance = B1_DEVIATION.powi(2);
    let variance = B0_DEVIATION.powi(2) + crossing * (crossing - 2.0 * mean) * slope_variance;
    let deviation = variance.sqrt() / B1;
    let covariance = (mean - crossing) * slope_variance / B1;
    (crossing, deviation, covariance / (deviation * B1_DEVIATION))
}

#[test]
fn threshold_and_its_deviation() {
    let fit = fit();
    let (crossing, deviation, correlation) = crossing();
    certified(fit.threshold.value.ln() / LOG_ENERGY, crossing);
    certified(fit.threshold.deviation / fit.threshold.value / LOG_ENERGY, deviation);
    certified(fit.correlation, correlation);
}

#[test]
fn scatter() {
    let fit = fit();
    assert_eq!(fit.degrees_of_freedom, 34);
    certified(fit.chi_squared / 34.0 * SPREAD.powi(2), norris::RESIDUAL_MEAN_SQUARE);
}
