//! Beams fitted to widths, against tables computed by other hands and against SciPy.

use super::*;
use spotwise::model::learn::{BeamFit, BeamFitOptions, BeamReadings, Estimate, ReadingWeights, fit_beam};

/// Heights and widths of the readings of one set, in metres.
fn readings(table: &Table, set: &str, width: &str) -> (Vec<f64>, Vec<f64>) {
    let of_set = table.rows().filter(|row| row.text("set") == set);
    of_set.map(|row| (row.metres("z_mm"), row.metres(width))).unzip()
}

fn fit(
    (heights, diameters): &(Vec<f64>, Vec<f64>),
    deviations: &[f64],
    wavelength: f64,
    weights: ReadingWeights,
) -> BeamFit {
    let options =
        BeamFitOptions { weights, outlier_limit: f64::INFINITY, confidence: 0.95, mark_dose_ratio: 0.0 };
    let (mut residuals, mut used) = (vec![0.0; heights.len()], vec![false; heights.len()]);
    let readings = BeamReadings { heights, diameters, deviations };
    fit_beam(&readings, wavelength, &options, &mut residuals, &mut used).unwrap()
}

/// The deviation before it is enlarged for scatter.
fn plain(fit: &BeamFit, estimate: Estimate) -> f64 {
    estimate.deviation / (fit.chi_squared / f64::from(fit.degrees_of_freedom)).max(1.0).sqrt()
}

#[track_caller]
fn agrees(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got:e}, want {want:e}");
}

/// Heights are stretched by this much, exactly, so that sets with a cone too wide for the model can be compared too.
const STRETCH: f64 = 16.0;

/// A fit of stretched heights, with what it says of them.
fn stretched((heights, diameters): &(Vec<f64>, Vec<f64>), sigma: f64, weights: ReadingWeights) -> BeamFit {
    let heights: Vec<f64> = heights.iter().map(|z| STRETCH * z).collect();
    let deviations = vec![sigma; heights.len()];
    // The wavelength enters M² alone.
    fit(&(heights, diameters.clone()), &deviations, 1e-7, weights)
}

/// Weights of widths as they were read, no correction: the mpmath fits of the table, to 1e-9; its deviations to 1e-6.
#[test]
fn fits_match_the_table() {
    let widths = Table::read(include_str!("series_widths.csv"));
    let table = Table::read(include_str!("series_fit.csv"));
    for row in table.rows() {
        let given = readings(&widths, row.text("set"), "width_mm");
        assert_eq!(given.0.len() as f64, row.number("n"));
        let fit = stretched(&given, row.metres("sigma_mm"), ReadingWeights::Measured);
        // A height is told to so much of the Rayleigh range.
        let z = STRETCH * row.metres("z0_mm");
        assert!((fit.waist_z.value - z).abs() < 1e-11 * fit.rayleigh_range.value, "{}", row.text("set"));
        agrees(fit.waist_diameter.value, row.metres("D0_mm"), 1e-9);
        agrees(fit.rayleigh_range.value, STRETCH * row.metres("zR_mm"), 1e-9);
        agrees(fit.chi_squared, row.number("chi2"), 1e-9);
        agrees(plain(&fit, fit.waist_z), STRETCH * row.metres("se_z0"), 1e-6);
        agrees(plain(&fit, fit.waist_diameter), row.metres("se_D0"), 1e-6);
        agrees(plain(&fit, fit.rayleigh_range), STRETCH * row.metres("se_zR"), 1e-6);
    }
    assert_eq!(table.rows.len(), 36);
}

/// The same readings through SciPy's `curve_fit`, with both kinds of weights; it takes no bias off.
#[test]
fn fits_match_a_general_purpose_library() {
    let widths = Table::read(include_str!("series_widths.csv"));
    let truths = Table::read(include_str!("series_fit.csv"));
    let table = Table::read(include_str!("series_scipy.csv"));
    for row in table.rows() {
        let given = readings(&widths, row.text("set"), "width_mm");
        let sigma = truths.rows().find(|truth| truth.text("set") == row.text("set")).unwrap();
        let weights = match row.text("weights") {
            "measured" => ReadingWeights::Measured,
            _ => ReadingWeights::Refined,
        };
        let fit = stretched(&given, sigma.metres("sigma_mm"), weights);
        let z = STRETCH * row.metres("z0_mm");
        assert!(
            (fit.waist_z.least_squares() - z).abs() < 1e-9 * fit.rayleigh_range.least_squares(),
            "{}",
            row.text("set")
        );
        agrees(fit.waist_diameter.least_squares(), row.metres("D0_mm"), 1e-9);
        agrees(fit.rayleigh_range.least_squares(), STRETCH * row.metres("zR_mm"), 1e-9);
        agrees(fit.chi_squared, row.number("chi2"), 1e-8);
        agrees(plain(&fit, fit.waist_z), STRETCH * row.metres("se_z0_mm"), 1e-6);
        agrees(plain(&fit, fit.waist_diameter), row.metres("se_D0_mm"), 1e-6);
        agrees(plain(&fit, fit.rayleigh_range), STRETCH * row.metres("se_zR_mm"), 1e-6);
    }
    assert_eq!(table.rows.len(), 72);
}

/// Deviations in proportion to the width, to nothing, and to its reciprocal give the weights 1/D⁴, 1/D² and 1 of the
/// table. They are stated far too small, so that the scatter alone makes the deviations of the results, as there.
#[test]
fn caustics_match_the_table() {
    let widths = Table::read(include_str!("caustic_widths.csv"));
    let table = Table::read(include_str!("caustic_fit.csv"));
    for row in table.rows() {
        let set = row.text("set");
        let given = readings(&widths, set, "d_mm");
        let first = widths.rows().find(|reading| reading.text("set") == set).unwrap();
        let deviations: Vec<f64> = match row.text("weights") {
            "rel" => given.1.iter().map(|width| 1e-6 * width).collect(),
            "const" => vec![1e-11; given.1.len()],
            _ => given.1.iter().map(|width| 1e-14 / width).collect(),
        };
        let fit = fit(&given, &deviations, first.metres("lambda_mm"), ReadingWeights::Measured);
        // Heights up to 5 m from the middle of their scale, printed in millimetres.
        let z = row.metres("z0_mm");
        assert!((fit.waist_z.value - z).abs() < 1e-10 * z.abs().max(fit.rayleigh_range.value), "{set}");
        agrees(fit.waist_diameter.value, row.metres("d0_mm"), 1e-9);
        agrees(fit.divergence_full_angle.value, row.number("theta_rad"), 1e-9);
        agrees(fit.rayleigh_range.value, row.metres("zR_mm"), 1e-9);
        agrees(fit.m2.value, row.number("M2"), 1e-9);
        assert_eq!(f64::from(fit.readings_near), row.number("n_within_1zR"), "{set}");
        if set.contains("noise0_") || set.ends_with("noise0") {
            continue; // nothing scatters
        }
        agrees(fit.waist_z.deviation, row.metres("sd_z0"), 1e-6);
        agrees(fit.waist_diameter.deviation, row.metres("sd_d0"), 1e-6);
        agrees(fit.divergence_full_angle.deviation, row.number("sd_theta"), 1e-6);
        agrees(fit.rayleigh_range.deviation, row.metres("sd_zR"), 1e-6);
        agrees(fit.m2.deviation, row.number("sd_M2"), 1e-6);
    }
    assert_eq!(table.rows.len(), 63);
}
