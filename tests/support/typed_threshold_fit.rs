//! The fit of spot and threshold, called through the typed layer.

use super::metres;
use spotwise::units::m;
use spotwise::*;

/// How many marks a row has.
const MARKS: usize = 6;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "fit_threshold" => {
            let marks: [_; MARKS] = std::array::from_fn(|k| TestMark {
                dose: i[k],
                width: m(i[MARKS + k]),
                deviation: m(i[2 * MARKS + k]),
            });
            let rest = &i[3 * MARKS..];
            let options = ThresholdFitOptions {
                weights: ReadingWeights::from_code(rest[0] as u32)?,
                outlier_limit: rest[1],
                confidence: rest[2],
            };
            let (mut residuals, mut used) = ([m(0.0); MARKS], [false; MARKS]);
            let fit = fit_threshold(&marks, &options, &mut residuals, &mut used)?;
            let (spot, threshold) = (fit.spot, fit.threshold);
            let numbers = [
                metres(spot.value),
                spot.deviation.value,
                metres(spot.least),
                metres(spot.greatest),
                spot.bias.value,
                threshold.value,
                threshold.deviation,
                threshold.least,
                threshold.greatest,
                threshold.bias,
                fit.correlation,
                fit.significance,
                fit.chi_squared,
                f64::from(fit.degrees_of_freedom),
                fit.chi_squared_chance,
                fit.curvature_chance,
                f64::from(fit.marks_used),
                f64::from(fit.warnings.bits()),
            ];
            let residuals = residuals.map(|residual| residual.value);
            [&numbers[..], &residuals, &used.map(f64::from)].concat()
        }
        _ => return Ok(None),
    }))
}
