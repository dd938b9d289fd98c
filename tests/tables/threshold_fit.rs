//! Spot and threshold fitted to marks at several doses, against SciPy.

use super::*;
use spotwise::model::learn::{ReadingWeights, TestMarks, ThresholdFitOptions, fit_threshold};

#[track_caller]
fn agrees(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got:e}, want {want:e}");
}

/// Plain least squares by `curve_fit`, with both kinds of weights: parameters to 1e-9, deviations to 1e-6.
#[test]
fn fits_match_a_general_purpose_library() {
    let marks = Table::read(include_str!("threshold_marks.csv"));
    let table = Table::read(include_str!("threshold_scipy.csv"));
    for row in table.rows() {
        let of = |column: &str| {
            let of_set = marks.rows().filter(|mark| mark.text("set") == row.text("set"));
            of_set.map(|mark| mark.number(column)).collect::<Vec<_>>()
        };
        let metres =
            |column: &str| of(column).iter().map(|millimetres| millimetres * 1e-3).collect::<Vec<_>>();
        let (doses, widths, deviations) = (of("dose"), metres("width_mm"), metres("sigma_mm"));
        let weights = match row.text("weights") {
            "measured" => ReadingWeights::Measured,
            _ => ReadingWeights::Refined,
        };
        let options = ThresholdFitOptions { weights, outlier_limit: f64::INFINITY, confidence: 0.95 };
        let (mut residuals, mut used) = (vec![0.0; doses.len()], vec![false; doses.len()]);
        let given = TestMarks { doses: &doses, widths: &widths, deviations: &deviations };
        let fit = fit_threshold(&given, &options, &mut residuals, &mut used).unwrap();
        let enlarged = (fit.chi_squared / f64::from(fit.degrees_of_freedom)).max(1.0).sqrt();
        agrees(fit.spot_diameter.least_squares(), row.metres("d_mm"), 1e-9);
        agrees(fit.threshold.least_squares().ln(), row.number("ln_E0"), 1e-9);
        agrees(fit.spot_diameter.deviation / enlarged, row.metres("se_d_mm"), 1e-6);
        agrees(fit.threshold.deviation / fit.threshold.value / enlarged, row.number("se_ln_E0"), 1e-6);
        agrees(fit.correlation, row.number("correlation"), 1e-6);
        agrees(fit.chi_squared, row.number("chi2"), 1e-8);
    }
    assert_eq!(table.rows.len(), 12);
}
