//! The functions of the list on calibrated set-ups, called through the model.

use super::bits;
use spotwise::Error;
use spotwise::model::learn::{
    LearnedFocus, LearnedLine, MarkedLines, SeriesFindings, calibrated_set_up, calibration_from_marks,
    learned_threshold,
};

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
        "calibration_from_marks" => {
            let findings = SeriesFindings {
                waist_z: i[0],
                waist_z_deviation: i[1],
                waist_diameter: i[2],
                waist_diameter_deviation: i[3],
                m2: i[4],
                m2_deviation: i[5],
                dose_ratio: i[6],
                dose_ratio_deviation: i[7],
                correlation: i[8],
                range_factor: i[9],
                degrees_of_freedom: i[10] as u32,
            };
            let lines = MarkedLines { wavelength: i[11], focal_length: i[12], power: i[13], speed: i[14] };
            let learned = calibration_from_marks(&findings, &lines)?;
            let (focus, line) = (learned.focus, learned.line);
            assert_eq!(focus.waist_diameter.to_bits(), line.waist_diameter.to_bits());
            assert_eq!(focus.coverage_factor_95.to_bits(), line.coverage_factor_95.to_bits());
            vec![
                learned.focus_z,
                focus.wavelength,
                focus.measured_m2,
                focus.m2_deviation,
                focus.waist_diameter,
                focus.focal_length,
                focus.focus_shift,
                focus.focus_deviation,
                focus.coverage_factor_95,
                line.power,
                line.speed,
                line.waist_diameter_deviation,
                line.dose_ratio,
                line.relative_dose_ratio_deviation,
                line.correlation,
            ]
        }
        _ => return Ok(None),
    }))
}
