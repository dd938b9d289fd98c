//! The fit of spot and threshold against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::raw::{Expected, choice, compare, near, share};
use crate::abi::Plain;
use crate::threshold_fit::*;
use proptest::prelude::*;
use spotwise::model::learn::{self, ReadingWeights, TestMarks, ThresholdFitOptions};

proptest! {
    #[test]
    fn fit_threshold(
        marks in prop::collection::vec((1.5..60.0f64, 0.9..1.1f64, near(1e-6)), 0..12),
        outlier_limit in prop_oneof![8 => near(4.0), 1 => Just(f64::INFINITY)],
        (weights, confidence) in (choice(2), share()),
    ) {
        // Dots of a spot of 60 um that marks from 1 on, a little off.
        let doses: Vec<f64> = marks.iter().map(|mark| mark.0).collect();
        let widths: Vec<f64> = marks.iter().map(|mark| 60e-6 * (mark.0.ln() / 2.0).sqrt() * mark.1).collect();
        let deviations: Vec<f64> = marks.iter().map(|mark| mark.2).collect();
        let count = marks.len();
        let confidence = 0.5 + 0.5 * confidence;
        let (mut expected_residuals, mut expected_used) = (vec![f64::NAN; count], vec![false; count]);
        let test_marks = TestMarks { doses: &doses, widths: &widths, deviations: &deviations };
        let model = ReadingWeights::from_code(weights).and_then(|weights| {
            let options = ThresholdFitOptions { weights, outlier_limit, confidence };
            learn::fit_threshold(&test_marks, &options, &mut expected_residuals, &mut expected_used)
        });
        let model = model.map(|fit| {
            let estimates = [fit.spot_diameter, fit.threshold];
            let estimates = estimates.map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias]);
            let words = [fit.marks_used, fit.degrees_of_freedom, fit.warnings.bits()];
            let expected = words.into_iter().fold(Expected::of::<spotwise_threshold_fit>(), Expected::word);
            expected.numbers(estimates.as_flattened()).numbers(&[
                fit.correlation,
                fit.significance,
                fit.chi_squared,
                fit.chi_squared_chance,
                fit.curvature_chance,
            ])
        });
        let options = spotwise_threshold_fit_options {
            weights,
            outlier_limit,
            confidence,
            ..spotwise_threshold_fit_options::BLANK
        };
        let (mut residuals, mut used) = (vec![7.0; count + 1], vec![7; count + 1]);
        let (dose, width, deviation) = (doses.as_ptr(), widths.as_ptr(), deviations.as_ptr());
        let (residual, which) = (residuals.as_mut_ptr(), used.as_mut_ptr());
        compare(
            |fit, error| unsafe {
                spotwise_fit_threshold(dose, width, deviation, count, &options, residual, which, fit, error)
            },
            model,
        )?;
        // Nothing beyond the end.
        prop_assert_eq!((residuals.pop(), used.pop()), (Some(7.0), Some(7)));
        prop_assert_eq!(used, expected_used.into_iter().map(u8::from).collect::<Vec<_>>());
        for (residual, expected) in residuals.into_iter().zip(expected_residuals) {
            prop_assert!(residual.to_bits() == expected.to_bits() || residual.is_nan() && expected.is_nan());
        }
    }
}
