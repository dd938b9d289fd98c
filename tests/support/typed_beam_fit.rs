//! The fit of a beam, called through the typed layer.

use super::typed_learn::{length_numbers, numbers, offset_numbers, width_numbers};
use super::{offset, width};
use spotwise::units::m;
use spotwise::*;

/// The most readings of a row.
const MOST: usize = 8;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "fit_beam" => {
            let count = (i[0] as usize).min(MOST);
            let (lists, rest) = i[1..].split_at(3 * MOST);
            let weights = model::learn::ReadingWeights::from_code(rest[1] as u32)?;
            let reading = |place: usize| {
                Ok(BeamReading {
                    height: offset(lists[place])?,
                    width: width(lists[MOST + place])?,
                    deviation: m(lists[2 * MOST + place]),
                })
            };
            let readings = (0..count).map(reading).collect::<Result<Vec<_>, Error>>()?;
            let options = BeamFitOptions {
                weights,
                outlier_limit: rest[2],
                confidence: rest[3],
                mark_dose_ratio: (rest[4] != 0.0).then_some(rest[4]),
            };
            let (mut residuals, mut used) = ([m(0.0); MOST], [false; MOST]);
            let (slots, flags) = (&mut residuals[..count], &mut used[..count]);
            let fit = fit_beam(&readings, m(rest[0]), &options, slots, flags)?;
            let full = |divergence: Divergence| divergence.full_angle().value;
            let divergence = fit.divergence;
            let estimates = [
                offset_numbers(fit.waist_z),
                width_numbers(fit.waist),
                length_numbers(fit.rayleigh_range),
                [
                    full(divergence.value),
                    divergence.deviation.value,
                    full(divergence.least),
                    full(divergence.greatest),
                    divergence.bias.value,
                ],
                numbers(fit.m_squared),
            ];
            let rest = [
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
            let residuals = residuals.map(|residual| residual.value);
            [estimates.as_flattened(), &rest, &residuals, &used.map(f64::from)].concat()
        }
        _ => return Ok(None),
    }))
}
