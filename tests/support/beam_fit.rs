//! The fit of a beam, called through the model.

use spotwise::Error;
use spotwise::model::learn::{BeamFitOptions, BeamReadings, ReadingWeights, fit_beam};

/// The most readings of a row.
const MOST: usize = 8;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "fit_beam" => {
            let count = (i[0] as usize).min(MOST);
            let (lists, rest) = i[1..].split_at(3 * MOST);
            let list = |place: usize| &lists[place * MOST..place * MOST + count];
            let readings = BeamReadings { heights: list(0), diameters: list(1), deviations: list(2) };
            let options = BeamFitOptions {
                weights: ReadingWeights::from_code(rest[1] as u32)?,
                outlier_limit: rest[2],
                confidence: rest[3],
                mark_dose_ratio: rest[4],
            };
            let (mut residuals, mut used) = ([0.0; MOST], [false; MOST]);
            let fit = fit_beam(&readings, rest[0], &options, &mut residuals[..count], &mut used[..count])?;
            let estimates =
                [fit.waist_z, fit.waist_diameter, fit.rayleigh_range, fit.divergence_full_angle, fit.m2];
            let numbers = [
                fit.z_diameter_correlation,
                fit.z_range_correlation,
                fit.diameter_range_correlation,
                fit.chi_squared,
                f64::from(fit.degrees_of_freedom),
                fit.chi_squared_chance,
                fit.higher_terms_chance,
                f64::from(fit.readings_used),
                f64::from(fit.readings_near),
                f64::from(fit.readings_far),
                f64::from(fit.warnings.bits()),
            ];
            let estimates = estimates.map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias]);
            [estimates.as_flattened(), &numbers, &residuals, &used.map(f64::from)].concat()
        }
        _ => return Ok(None),
    }))
}
