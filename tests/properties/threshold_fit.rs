//! The fit of spot and threshold to marks at several doses: what must hold of any marks.

use super::given::{config, near, power_of_two, spread};
use core::ops::Range;
use proptest::prelude::*;
use spotwise::model::learn::{
    ReadingWeights, TestMarks, ThresholdFit, ThresholdFitOptions, ThresholdWarnings, fit_threshold,
};
use spotwise::{Error, Param};

/// Doses, widths, deviations.
type Series = (Vec<f64>, Vec<f64>, Vec<f64>);

/// Marks of a spot of 60 µm that marks from 1 on, scattered by up to some hundredths.
fn series() -> impl Strategy<Value = Series> {
    series_of(5..12)
}

fn series_of(count: Range<usize>) -> impl Strategy<Value = Series> {
    let mark = (1.2..20.0_f64, 0.97..1.03_f64, 0.5e-6..2e-6_f64);
    prop::collection::vec(mark, count).prop_map(|marks| {
        let width = |mark: &(f64, f64, f64)| 60e-6 * (mark.0.ln() / 2.0).sqrt() * mark.1;
        let doses = marks.iter().map(|mark| mark.0).collect();
        (doses, marks.iter().map(width).collect(), marks.iter().map(|mark| mark.2).collect())
    })
}

fn options(weights: u32) -> ThresholdFitOptions {
    ThresholdFitOptions {
        weights: ReadingWeights::from_code(weights).unwrap(),
        outlier_limit: f64::INFINITY,
        confidence: 0.95,
    }
}

fn fitted(
    (doses, widths, deviations): &Series,
    options: &ThresholdFitOptions,
) -> Result<(ThresholdFit, Vec<f64>, Vec<bool>), Error> {
    let marks = TestMarks { doses, widths, deviations };
    let (mut residuals, mut used) = (vec![7.0; doses.len()], vec![true; doses.len()]);
    let fit = fit_threshold(&marks, options, &mut residuals, &mut used);
    if fit.is_err() {
        assert!(residuals.iter().all(|residual| residual.is_nan()) && used.iter().all(|used| !used));
    }
    Ok((fit?, residuals, used))
}

/// Σw·(b² − fitted)² of a spot and threshold, with the weights of widths as they were read.
fn chi_squared((doses, widths, deviations): &Series, spot: f64, threshold: f64) -> f64 {
    let terms = doses.iter().zip(widths).zip(deviations).map(|((dose, width), deviation)| {
        let square = spot * spot / 2.0 * (dose / threshold).ln();
        ((width * width - square) / (2.0 * width * deviation)).powi(2)
    });
    terms.sum()
}

proptest! {
    #![proptest_config(config())]

    /// Marks made by the law give back spot and threshold, whatever the unit of dose.
    #[test]
    fn fit_finds_what_made_the_marks(d in spread(1e-5, 1e-3), threshold in spread(1e-6, 1e6), unit in power_of_two()) {
        let ratios = [1.5, 2.0, 3.0, 5.0, 9.0];
        let widths = ratios.map(|q: f64| d * (q.ln() / 2.0).sqrt()).to_vec();
        let doses = ratios.map(|q| q * threshold * unit).to_vec();
        let (fit, residuals, _) = fitted(&(doses, widths, vec![1e-3 * d; 5]), &options(1)).unwrap();
        near(fit.spot_diameter.value, d, 1e-11 * d);
        near(fit.threshold.value, threshold * unit, 1e-10 * threshold * unit);
        prop_assert!(residuals.iter().all(|residual| residual.abs() < 1e-10 * d));
        prop_assert_eq!((fit.marks_used, fit.degrees_of_freedom), (5, 3));
        prop_assert_eq!(fit.warnings, ThresholdWarnings::LITTLE_SCATTER);
    }

    /// One mark measured wrongly is left out, and the answer is as if it had not been there.
    #[test]
    fn fit_leaves_out_an_outlier(d in spread(1e-5, 1e-3), wrong in 0usize..6, weights in 1..=2_u32) {
        let mut doses = vec![1.5, 2.0, 3.0, 4.5, 7.0, 10.0];
        let mut widths: Vec<f64> = doses.iter().map(|q: &f64| d * (q.ln() / 2.0).sqrt()).collect();
        let right = widths[wrong];
        widths[wrong] *= 1.5;
        let mut deviations = vec![5e-3 * d; 6];
        let options = ThresholdFitOptions { outlier_limit: 3.0, ..options(weights) };
        let spoilt = (doses.clone(), widths.clone(), deviations.clone());
        let (fit, residuals, used) = fitted(&spoilt, &options).unwrap();
        for list in [&mut doses, &mut widths, &mut deviations] {
            list.remove(wrong);
        }
        let (without, ..) = fitted(&(doses, widths, deviations), &options).unwrap();
        prop_assert_eq!(fit.marks_used, 5);
        prop_assert!(!used[wrong] && fit.warnings.contains(ThresholdWarnings::OUTLIERS));
        near(residuals[wrong], 0.5 * right, 2e-3 * d);
        near(fit.spot_diameter.value, without.spot_diameter.value, 1e-10 * d);
        near(fit.threshold.value, without.threshold.value, 1e-9);
        prop_assert_eq!(ThresholdWarnings::OUTLIERS.bits() + without.warnings.bits(), fit.warnings.bits());
    }

    /// A dense search around the plain least squares finds no spot and threshold with a smaller χ².
    #[test]
    fn no_line_nearby_fits_better(series in series()) {
        let found = fitted(&series, &options(1));
        prop_assume!(found.is_ok());
        let (fit, ..) = found.unwrap();
        let spot = |i: i32| fit.spot_diameter.value + 0.2 * f64::from(i) * fit.spot_diameter.deviation;
        let threshold = |i: i32| fit.threshold.value + 0.1 * f64::from(i) * fit.threshold.deviation;
        let best = chi_squared(&series, spot(0), threshold(0));
        near(best, fit.chi_squared, 1e-7 * (1.0 + best));
        for i in -8..=8 {
            for j in -8..=8 {
                prop_assert!(chi_squared(&series, spot(i), threshold(j)) >= best * (1.0 - 1e-9) - 1e-12);
            }
        }
    }

    /// Also of a series so long that not all of it is kept at hand, with an outlier in it.
    #[test]
    fn order_does_not_matter(
        series in series_of(20..60), weights in 1..=2_u32, (outlier, of_width) in (0..20_usize, 1.0..1.3_f64),
    ) {
        let mut series = series;
        series.1[outlier] *= of_width;
        let options = ThresholdFitOptions { outlier_limit: 3.0, ..options(weights) };
        let (fit, residuals, used) = fitted(&series, &options).unwrap();
        for list in [&mut series.0, &mut series.1, &mut series.2] {
            list.reverse();
        }
        let (other, mut other_residuals, mut other_used) = fitted(&series, &options).unwrap();
        other_residuals.reverse();
        other_used.reverse();
        prop_assert_eq!(used, other_used);
        for (got, want) in [(other.spot_diameter, fit.spot_diameter), (other.threshold, fit.threshold)] {
            near(got.value / want.value, 1.0, 1e-10);
            near(got.deviation / want.deviation, 1.0, 1e-9);
        }
        near(other.chi_squared, fit.chi_squared, 1e-8 * (1.0 + fit.chi_squared));
        near(other.curvature_chance, fit.curvature_chance, 1e-6);
        prop_assert_eq!(other.warnings, fit.warnings);
        for (got, want) in other_residuals.iter().zip(&residuals) {
            prop_assert!((got - want).abs() < 1e-10 * fit.spot_diameter.value);
        }
    }

    /// Widths and deviations scale together; doses have no unit. The order of marks does not matter.
    #[test]
    fn marks_scale(series in series(), weights in 1..=2_u32, scale in 0.3..3.0_f64, unit in spread(1e-6, 1e6)) {
        let found = fitted(&series, &options(weights));
        prop_assume!(found.is_ok());
        let (fit, residuals, _) = found.unwrap();
        let times = |list: &[f64], factor: f64| list.iter().rev().map(|value| value * factor).collect();
        let other = (times(&series.0, unit), times(&series.1, scale), times(&series.2, scale));
        let (other, mut mirrored, _) = fitted(&other, &options(weights)).unwrap();
        for (one, factor, other) in [(fit.spot_diameter, scale, other.spot_diameter), (fit.threshold, unit, other.threshold)] {
            near(other.value, one.value * factor, 1e-9 * other.value);
            near(other.deviation, one.deviation * factor, 1e-8 * other.deviation);
            near(other.least, one.least * factor, 1e-8 * other.value);
            near(other.greatest, one.greatest * factor, 1e-8 * other.greatest);
        }
        near(other.chi_squared, fit.chi_squared, 1e-7 * (1.0 + fit.chi_squared));
        mirrored.reverse();
        for (one, other) in residuals.iter().zip(mirrored) {
            near(other, one * scale, 1e-12);
        }
    }

    /// Value and bias are the plain least squares, whose residuals are those told; the bias has the sign of its curvature,
    /// and is less than a tenth of the deviation where the slope is known to a tenth.
    #[test]
    fn value_and_bias_are_least_squares(series in series(), weights in 1..=2_u32) {
        let found = fitted(&series, &options(weights));
        prop_assume!(found.is_ok());
        let (fit, residuals, _) = found.unwrap();
        let (spot, threshold) = (fit.spot_diameter.least_squares(), fit.threshold.least_squares());
        for ((dose, width), residual) in series.0.iter().zip(&series.1).zip(&residuals) {
            let square = spot * spot / 2.0 * (dose / threshold).ln();
            near(width - square.max(0.0).sqrt(), *residual, 1e-9 * width);
        }
        let biases = [fit.spot_diameter.bias, fit.threshold.bias];
        if weights == 1 {
            prop_assert_eq!(biases, [0.0; 2]);
        } else {
            prop_assert!(biases.iter().all(|bias| *bias < 0.0));
            if fit.significance > 10.0 {
                prop_assert!(-biases[1] <= 0.1 * fit.threshold.deviation);
                prop_assert!(-biases[0] <= 0.025 * fit.spot_diameter.deviation * 1.000_001);
            }
        }
        prop_assert!((0.0..=1.0).contains(&fit.chi_squared_chance) && (0.0..=1.0).contains(&fit.curvature_chance));
        prop_assert!(fit.correlation.abs() <= 1.0);
    }

    /// Marks that do not grow with dose tell nothing, and are refused with a reason.
    #[test]
    fn fit_refuses_what_cannot_tell(d in spread(1e-5, 1e-3), q in 1.1..50.0_f64, weights in 1..=2_u32) {
        let lacks = |doses: &[f64], widths: &[f64], share: f64| {
            let series = (doses.to_vec(), widths.to_vec(), vec![share * d; doses.len()]);
            let refused = fitted(&series, &options(weights)).unwrap_err();
            assert_eq!(refused.code(), 8);
            refused.param()
        };
        prop_assert_eq!(lacks(&[q; 4], &[d; 4], 0.1), Param::Significance);
        prop_assert_eq!(lacks(&[1.0, 2.0, 4.0, 8.0], &[4.0 * d, 3.0 * d, 2.0 * d, d], 0.01), Param::Significance);
        prop_assert_eq!(lacks(&[1.0, 2.0, 4.0, 8.0], &[d; 4], 0.01), Param::Significance);
        prop_assert_eq!(lacks(&[1.0, 2.0], &[d, 2.0 * d], 0.01), Param::MarksUsed);
        prop_assert_eq!(lacks(&[], &[], 0.01), Param::MarksUsed);
    }

    /// Marks far above their threshold do not tell it.
    #[test]
    fn fit_refuses_a_threshold_out_of_sight(d in spread(1e-5, 1e-3), far in 1e4f64..1e8, weights in 1..=2_u32) {
        let ratios = [1.0, 1.1, 1.2, 1.4].map(|factor| factor * far);
        let widths = ratios.map(|q: f64| d * (q.ln() / 2.0).sqrt());
        let series = (ratios.to_vec(), widths.to_vec(), widths.map(|width| 4e-3 * width).to_vec());
        prop_assert_eq!(fitted(&series, &options(weights)).unwrap_err().code(), 8);
    }

    /// Any numbers at all: an answer, or a refusal that names a parameter; nothing stale.
    #[test]
    fn anything_is_answered_or_refused(
        numbers in prop::collection::vec(any::<f64>(), 0..20),
        wild in prop::collection::vec((1e-12..1e3_f64, 1e-9..1.0_f64, 1e-12..1.0_f64), 0..9),
        (limit, weights) in (any::<f64>(), 1..=2_u32),
    ) {
        let third = numbers.len() / 3;
        let list = |place: usize| numbers[place * third..][..third].to_vec();
        let of = |pick: fn(&(f64, f64, f64)) -> f64| wild.iter().map(pick).collect();
        let wild: Series = (of(|w| w.0), of(|w| w.1), of(|w| w.2));
        for series in [(list(0), list(1), list(2)), wild] {
            let options = ThresholdFitOptions { outlier_limit: limit.abs().max(2.0), ..options(weights) };
            if let Ok((fit, residuals, _)) = fitted(&series, &options) {
                prop_assert!(fit.spot_diameter.value > 0.0 && fit.threshold.value > 0.0);
                prop_assert!(residuals.iter().all(|residual| residual.is_finite()));
            }
        }
    }
}
