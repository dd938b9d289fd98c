//! The fit of a beam to its widths: what must hold of any readings.

use super::given::{config, near};
use core::ops::Range;
use proptest::prelude::*;
use spotwise::model::learn::{BeamFit, BeamFitOptions, BeamReadings, ReadingWeights, fit_beam};
use spotwise::{Error, Param};

/// Heights, diameters, deviations.
type Series = (Vec<f64>, Vec<f64>, Vec<f64>);

/// Readings of a beam of 80 µm with a Rayleigh range of 4 mm, scattered by up to a hundredth.
fn series() -> impl Strategy<Value = Series> {
    series_of(8..16)
}

fn series_of(count: Range<usize>) -> impl Strategy<Value = Series> {
    let reading = (-12e-3..12e-3_f64, 0.99..1.01_f64, 0.5e-6..2e-6_f64);
    prop::collection::vec(reading, count).prop_map(|readings| {
        let heights: Vec<f64> = readings.iter().map(|reading| reading.0).collect();
        let width = |reading: &(f64, f64, f64)| 80e-6 * (1.0 + (reading.0 / 4e-3).powi(2)).sqrt() * reading.1;
        let diameters = readings.iter().map(width).collect();
        (heights, diameters, readings.iter().map(|reading| reading.2).collect())
    })
}

fn options(weights: u32) -> BeamFitOptions {
    BeamFitOptions {
        weights: ReadingWeights::from_code(weights).unwrap(),
        outlier_limit: f64::INFINITY,
        confidence: 0.95,
        mark_dose_ratio: 0.0,
    }
}

fn fitted((heights, diameters, deviations): &Series, options: &BeamFitOptions) -> Result<BeamFit, Error> {
    let readings = BeamReadings { heights, diameters, deviations };
    let (mut residuals, mut used) = (vec![0.0; heights.len()], vec![false; heights.len()]);
    fit_beam(&readings, 1.064e-6, options, &mut residuals, &mut used)
}

fn changed(series: &Series, height: impl Fn(f64) -> f64, width: impl Fn(f64) -> f64) -> Series {
    let of = |list: &[f64], change: &dyn Fn(f64) -> f64| list.iter().map(|value| change(*value)).collect();
    (of(&series.0, &height), of(&series.1, &width), of(&series.2, &width))
}

/// Σw·(D² − fitted)² of a beam, with the weights of widths as they were read.
fn chi_squared(series: &Series, z: f64, waist: f64, rayleigh: f64) -> f64 {
    let (heights, diameters, deviations) = series;
    let terms = heights.iter().zip(diameters).zip(deviations).map(|((height, width), deviation)| {
        let square = waist * waist * (1.0 + ((height - z) / rayleigh).powi(2));
        ((width * width - square) / (2.0 * width * deviation)).powi(2)
    });
    terms.sum()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn heights_may_be_mirrored_and_shifted(series in series(), weights in 1..=2_u32, shift in -0.1..0.1_f64) {
        let fit = fitted(&series, &options(weights));
        prop_assume!(fit.is_ok());
        let fit = fit.unwrap();
        let other = fitted(&changed(&series, |z| shift - z, |width| width), &options(weights)).unwrap();
        prop_assert!((other.waist_z.value - (shift - fit.waist_z.value)).abs() < 1e-10 * fit.rayleigh_range.value);
        for (got, want) in [(other.waist_diameter, fit.waist_diameter), (other.m2, fit.m2)] {
            near(got.value, want.value, 1e-10);
            near(got.deviation, want.deviation, 1e-9);
        }
        near(other.chi_squared, fit.chi_squared, 1e-8);
        prop_assert_eq!(other.readings_near, fit.readings_near);
    }

    /// Also of a series so long that not all of it is kept at hand, with an outlier in it.
    #[test]
    fn order_does_not_matter(
        series in series_of(20..60), weights in 1..=2_u32, (outlier, of_width) in (0..20_usize, 1.0..3.0_f64),
    ) {
        let mut series = series;
        series.1[outlier] *= of_width;
        let options = BeamFitOptions { outlier_limit: 3.0, ..options(weights) };
        let found = |(heights, diameters, deviations): &Series| {
            let readings = BeamReadings { heights, diameters, deviations };
            let (mut residuals, mut used) = (vec![0.0; heights.len()], vec![false; heights.len()]);
            let fit = fit_beam(&readings, 1.064e-6, &options, &mut residuals, &mut used);
            fit.map(|fit| (fit, residuals, used))
        };
        let (fit, residuals, used) = found(&series).unwrap();
        for list in [&mut series.0, &mut series.1, &mut series.2] {
            list.reverse();
        }
        let (other, mut other_residuals, mut other_used) = found(&series).unwrap();
        other_residuals.reverse();
        other_used.reverse();
        prop_assert_eq!(used, other_used);
        prop_assert!((other.waist_z.value - fit.waist_z.value).abs() < 1e-10 * fit.rayleigh_range.value);
        for (got, want) in [(other.waist_diameter, fit.waist_diameter), (other.m2, fit.m2)] {
            near(got.value / want.value, 1.0, 1e-10);
            near(got.deviation / want.deviation, 1.0, 1e-9);
        }
        near(other.chi_squared, fit.chi_squared, 1e-8 * (1.0 + fit.chi_squared));
        near(other.higher_terms_chance, fit.higher_terms_chance, 1e-6);
        prop_assert_eq!(other.warnings, fit.warnings);
        for (got, want) in other_residuals.iter().zip(&residuals) {
            prop_assert!((got - want).abs() < 1e-10 * fit.waist_diameter.value);
        }
    }

    #[test]
    fn lengths_scale(series in series(), weights in 1..=2_u32, (of_z, of_width) in (1.0..3.0_f64, 0.3..1.0_f64)) {
        let fit = fitted(&series, &options(weights));
        prop_assume!(fit.is_ok());
        let fit = fit.unwrap();
        let other = fitted(&changed(&series, |z| z * of_z, |width| width * of_width), &options(weights)).unwrap();
        near(other.rayleigh_range.value, fit.rayleigh_range.value * of_z, 1e-10);
        near(other.waist_diameter.greatest, fit.waist_diameter.greatest * of_width, 1e-9);
        near(other.waist_diameter.bias, fit.waist_diameter.bias * of_width, 1e-8);
        near(other.divergence_full_angle.value, fit.divergence_full_angle.value * of_width / of_z, 1e-10);
        near(other.m2.value, fit.m2.value * of_width * of_width / of_z, 1e-10);
        near(other.chi_squared, fit.chi_squared, 1e-8);
    }

    /// A dense search around the fit finds no beam with a smaller χ².
    #[test]
    fn no_beam_nearby_fits_better(series in series()) {
        let fit = fitted(&series, &options(1));
        prop_assume!(fit.is_ok());
        let fit = fit.unwrap();
        let at = |i: i32, estimate: spotwise::model::learn::Estimate| {
            estimate.value + 0.25 * f64::from(i) * estimate.deviation
        };
        let best = chi_squared(&series, at(0, fit.waist_z), at(0, fit.waist_diameter), at(0, fit.rayleigh_range));
        near(best, fit.chi_squared, 1e-7);
        for i in -4..=4 {
            for j in -4..=4 {
                for k in -4..=4 {
                    let (z, waist, rayleigh) =
                        (at(i, fit.waist_z), at(j, fit.waist_diameter), at(k, fit.rayleigh_range));
                    prop_assert!(chi_squared(&series, z, waist, rayleigh) >= best * (1.0 - 1e-9));
                }
            }
        }
    }

    /// θ = D₀/z_R, M² = π·D₀·θ/(4·λ), and correlations are such.
    #[test]
    fn results_hang_together(series in series(), weights in 1..=2_u32) {
        let fit = fitted(&series, &options(weights));
        prop_assume!(fit.is_ok());
        let fit = fit.unwrap();
        let theta = fit.waist_diameter.least_squares() / fit.rayleigh_range.least_squares();
        near(fit.divergence_full_angle.least_squares(), theta, 1e-13);
        let m2 = std::f64::consts::FRAC_PI_4 * fit.waist_diameter.least_squares() * theta / 1.064e-6;
        near(fit.m2.least_squares(), m2, 1e-13);
        for r in [fit.z_diameter_correlation, fit.z_range_correlation, fit.diameter_range_correlation] {
            prop_assert!(r.abs() <= 1.0 + 1e-12);
        }
        // ln M² = 2·ln D₀ − ln z_R + …: its variance follows from theirs and their correlation.
        let relative = |e: spotwise::model::learn::Estimate| e.deviation / e.least_squares();
        let (d, z) = (relative(fit.waist_diameter), relative(fit.rayleigh_range));
        let variance = 4.0 * d * d + z * z - 4.0 * fit.diameter_range_correlation * d * z;
        near(relative(fit.m2), variance.sqrt(), 1e-6);
        prop_assert!(fit.readings_near + fit.readings_far <= fit.readings_used);
    }

    /// Any numbers at all: an answer, or a refusal that names a parameter; nothing stale.
    #[test]
    fn anything_is_answered_or_refused(
        numbers in prop::collection::vec(any::<f64>(), 0..20),
        wild in prop::collection::vec((-1.0..1.0_f64, 0.0..1.0_f64, 0.0..1.0_f64), 0..9),
        limit in any::<f64>(),
    ) {
        let third = numbers.len() / 3;
        let list = |place: usize| numbers[place * third..][..third].to_vec();
        let wild: Series = (
            wild.iter().map(|w| w.0).collect(),
            wild.iter().map(|w| w.1).collect(),
            wild.iter().map(|w| w.2).collect(),
        );
        for (heights, diameters, deviations) in [(list(0), list(1), list(2)), wild] {
            let count = heights.len();
            let readings = BeamReadings { heights: &heights, diameters: &diameters, deviations: &deviations };
            let (mut residuals, mut used) = (vec![7.0; count], vec![true; count]);
            let options = BeamFitOptions { outlier_limit: limit.abs().max(2.0), ..options(2) };
            match fit_beam(&readings, 1.064e-6, &options, &mut residuals, &mut used) {
                Ok(fit) => prop_assert!(fit.m2.value > 0.0 && residuals.iter().all(|r| r.is_finite())),
                Err(_) => prop_assert!(residuals.iter().all(|r| r.is_nan()) && used.iter().all(|used| !used)),
            }
        }
    }
}

/// One array of another length, one result array of another length, too many readings.
#[test]
fn lengths_must_agree() {
    let heights = [0.0, 1e-3, 2e-3, 3e-3];
    let fit = |diameters: usize, deviations: usize, residuals: usize, used: usize| {
        let (diameters, deviations) = (vec![1e-4; diameters], vec![1e-6; deviations]);
        let readings = BeamReadings { heights: &heights, diameters: &diameters, deviations: &deviations };
        let (mut residuals, mut used) = (vec![7.0; residuals], vec![true; used]);
        let error = fit_beam(&readings, 1e-6, &options(2), &mut residuals, &mut used).unwrap_err();
        assert!(residuals.iter().all(|residual| residual.is_nan()) && used.iter().all(|used| !used));
        error
    };
    let mismatch = |param, value| Error::LengthMismatch { param, value, expected: 4 };
    assert_eq!(fit(3, 4, 4, 4), mismatch(Param::Widths, 3));
    assert_eq!(fit(4, 5, 4, 4), mismatch(Param::Deviations, 5));
    assert_eq!(fit(4, 4, 3, 4), mismatch(Param::Output, 3));
    assert_eq!(fit(4, 4, 4, 5), mismatch(Param::Output, 5));

    let many: Vec<f64> = (0..100_004).map(|i| f64::from(i) * 1e-6).collect();
    let series: Series = (many, vec![1e-4; 100_004], vec![1e-6; 100_004]);
    assert_eq!(fitted(&series, &options(1)).unwrap_err().param(), Param::Readings);
}
