//! The functions of the list on calibrated set-ups, called through the model.

use super::bits;
use spotwise::Error;
use spotwise::model::learn::{LearnedFocus, LearnedLine, calibrated_set_up, learned_threshold};

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "calibrated_set_up" => {
            let set_up = calibrated_set_up(&LearnedFocus {
                wavelength: i[0],
                measured_m2: i[1],
                m2_deviation: i[2],
                waist_diameter: i[3],
                focal_length: i[4],
                focus_shift: i[5],
                focus_deviation: i[6],
                coverage_factor_95: i[7],
            })?;
            vec![
                set_up.m2,
                set_up.raw_waist_diameter,
                set_up.waist_to_lens,
                set_up.diameter_at_lens,
                set_up.rayleigh_range,
                set_up.focus_deviation,
                set_up.half_angle,
                bits(set_up.validity),
            ]
        }
        "learned_threshold" => {
            let learned = learned_threshold(&LearnedLine {
                power: i[0],
                speed: i[1],
                waist_diameter: i[2],
                waist_diameter_deviation: i[3],
                dose_ratio: i[4],
                relative_dose_ratio_deviation: i[5],
                correlation: i[6],
                coverage_factor_95: i[7],
            })?;
            vec![learned.threshold, learned.relative_deviation]
        }
        _ => return Ok(None),
    }))
}
