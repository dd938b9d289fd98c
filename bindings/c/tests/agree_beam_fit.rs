//! The fit of a beam against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::raw::{Expected, choice, compare, near, place, share};
use crate::abi::Plain;
use crate::beam_fit::*;
use proptest::prelude::*;
use spotwise::model::learn::{self, BeamFitOptions, BeamReadings, ReadingWeights};

proptest! {
    #[test]
    fn fit_beam(
        readings in prop::collection::vec((place(4e-3), 0.95..1.05_f64, near(2e-6)), 0..14),
        wavelength in near(1e-6),
        (weights, outlier_limit, confidence) in (choice(2), near(4.0), share()),
        mark_dose_ratio in prop_oneof![3 => Just(0.0), 1 => near(3.0)],
    ) {
        // A beam of 80 um with a Rayleigh range of 2 mm, a little off.
        let width = |reading: &(f64, f64, f64)| 80e-6 * (1.0 + (reading.0 / 2e-3).powi(2)).sqrt() * reading.1;
        let heights: Vec<f64> = readings.iter().map(|reading| reading.0).collect();
        let diameters: Vec<f64> = readings.iter().map(width).collect();
        let deviations: Vec<f64> = readings.iter().map(|reading| reading.2).collect();
        let count = readings.len();
        let confidence = 0.5 + 0.5 * confidence;
        let (mut expected_residuals, mut expected_used) = (vec![f64::NAN; count], vec![false; count]);
        let readings = BeamReadings { heights: &heights, diameters: &diameters, deviations: &deviations };
        let model = ReadingWeights::from_code(weights).and_then(|weights| {
            let options = BeamFitOptions { weights, outlier_limit, confidence, mark_dose_ratio };
            learn::fit_beam(&readings, wavelength, &options, &mut expected_residuals, &mut expected_used)
        });
        let model = model.map(|fit| {
            let estimates =
                [fit.waist_z, fit.waist_diameter, fit.rayleigh_range, fit.divergence_full_angle, fit.m2];
            let estimates = estimates.map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias]);
            let words = [fit.degrees_of_freedom, fit.readings_used, fit.readings_near, fit.readings_far];
            let expected = words.into_iter().fold(Expected::of::<spotwise_beam_fit>(), Expected::word);
            expected.word(fit.warnings.bits()).numbers(estimates.as_flattened()).numbers(&[
                fit.z_diameter_correlation,
                fit.z_range_correlation,
                fit.diameter_range_correlation,
                fit.chi_squared,
                fit.chi_squared_chance,
                fit.higher_terms_chance,
            ])
        });
        let options = spotwise_beam_fit_options {
            weights,
            outlier_limit,
            confidence,
            mark_dose_ratio,
            ..spotwise_beam_fit_options::BLANK
        };
        let (mut residuals, mut used) = (vec![7.0; count + 1], vec![7; count + 1]);
        let (height, diameter, deviation) = (heights.as_ptr(), diameters.as_ptr(), deviations.as_ptr());
        let (residual, which) = (residuals.as_mut_ptr(), used.as_mut_ptr());
        compare(
            |fit, error| unsafe {
                let readings = (height, diameter, deviation);
                spotwise_fit_beam(
                    readings.0, readings.1, readings.2, count, wavelength, &options, residual, which, fit, error,
                )
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
