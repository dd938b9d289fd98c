//! The fit of spot and threshold, called through the model.

use spotwise::Error;
use spotwise::model::learn::{ReadingWeights, TestMarks, ThresholdFitOptions, fit_threshold};

/// How many marks a row has.
const MARKS: usize = 6;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "fit_threshold" => {
            let (lists, rest) = i.split_at(3 * MARKS);
            let list = |place: usize| &lists[place * MARKS..][..MARKS];
            let marks = TestMarks { doses: list(0), widths: list(1), deviations: list(2) };
            let options = ThresholdFitOptions {
                weights: ReadingWeights::from_code(rest[0] as u32)?,
                outlier_limit: rest[1],
                confidence: rest[2],
            };
            let (mut residuals, mut used) = ([0.0; MARKS], [false; MARKS]);
            let fit = fit_threshold(&marks, &options, &mut residuals, &mut used)?;
            let estimates = [fit.spot_diameter, fit.threshold];
            let estimates = estimates.map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias]);
            let numbers = [
                fit.correlation,
                fit.significance,
                fit.chi_squared,
                f64::from(fit.degrees_of_freedom),
                fit.chi_squared_chance,
                fit.curvature_chance,
                f64::from(fit.marks_used),
                f64::from(fit.warnings.bits()),
            ];
            [estimates.as_flattened(), &numbers, &residuals, &used.map(f64::from)].concat()
        }
        _ => return Ok(None),
    }))
}
