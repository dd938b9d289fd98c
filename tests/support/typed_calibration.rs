//! The functions of the list on calibrated set-ups, called through the typed layer.

use super::{bits, metres, offset, width, z};
use spotwise::units::{m, m_per_s, w};
use spotwise::*;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "calibrated_set_up" => {
            let learned = Calibration {
                wavelength: m(i[0]),
                m_squared: i[1],
                m_squared_deviation: i[2],
                waist: width(i[3])?,
                focal_length: m(i[4]),
                focus_shift: offset(i[5])?,
                focus_deviation: m(i[6]),
                coverage_factor_95: i[7],
                focus: Offset::ZERO,
                waist_diameter_deviation: m(0.0),
                line: None,
            };
            let set_up = learned.set_up()?;
            let RawBeam::Waist { width, position } = set_up.raw_beam else {
                panic!("a calibrated beam is given by its waist")
            };
            vec![
                set_up.laser.m_squared,
                metres(width),
                metres_to_lens(position),
                metres(set_up.width_at_lens),
                set_up.rayleigh_range.value,
                set_up.focus_deviation.value,
                set_up.half_angle.value,
                bits(set_up.validity),
            ]
        }
        "learned_threshold" => {
            let line = CalibratedLine {
                power: w(i[0]),
                speed: m_per_s(i[1]),
                dose_ratio: i[4],
                relative_deviation: i[5],
                correlation: i[6],
            };
            let learned = Calibration {
                wavelength: m(10.6e-6),
                focal_length: m(0.05),
                focus_shift: Offset::ZERO,
                focus: Offset::ZERO,
                focus_deviation: m(0.0),
                waist: width(i[2])?,
                waist_diameter_deviation: m(i[3]),
                m_squared: 1.2,
                m_squared_deviation: 0.0,
                coverage_factor_95: i[7],
                line: Some(line),
            };
            let learned = learned.threshold()?.expect("a line tells a threshold");
            vec![learned.threshold.value, learned.relative_deviation]
        }
        "calibration_from_marks" => {
            let learned = Calibration::from_marks(&fit(i)?, m(i[11]), m(i[12]), w(i[13]), m_per_s(i[14]))?;
            let line = learned.line.expect("lines were marked");
            vec![
                z(learned.focus),
                learned.wavelength.value,
                learned.m_squared,
                learned.m_squared_deviation,
                metres(learned.waist),
                learned.focal_length.value,
                z(learned.focus_shift),
                learned.focus_deviation.value,
                learned.coverage_factor_95,
                line.power.value,
                line.speed.value,
                learned.waist_diameter_deviation.value,
                line.dose_ratio,
                line.relative_deviation,
                line.correlation,
            ]
        }
        _ => return Ok(None),
    }))
}

fn metres_to_lens(position: WaistPosition) -> f64 {
    match position {
        WaistPosition::AtLens => 0.0,
        WaistPosition::BeforeLens(distance) => distance.value,
        WaistPosition::BehindLens(distance) => -distance.value,
    }
}

/// A fit of marks that found these numbers; the others are none.
fn fit(i: &[f64]) -> Result<MarkFit, Error> {
    let number = |value: f64, deviation: f64| Estimate {
        value,
        deviation,
        least: f64::NAN,
        greatest: f64::NAN,
        bias: f64::NAN,
    };
    let (height, waist) = (offset(i[0])?, width(i[2])?);
    let none = m(f64::NAN);
    Ok(MarkFit {
        waist_height: Estimate {
            value: height,
            deviation: m(i[1]),
            least: height,
            greatest: height,
            bias: none,
        },
        waist: Estimate { value: waist, deviation: m(i[3]), least: waist, greatest: waist, bias: none },
        rayleigh_range: Estimate { value: none, deviation: none, least: none, greatest: none, bias: none },
        dose_ratio: number(i[6], i[7]),
        m_squared: number(i[4], i[5]),
        correlations: [f64::NAN, f64::NAN, f64::NAN, f64::NAN, i[8], f64::NAN],
        range_factor: i[9],
        chi_squared: f64::NAN,
        degrees_of_freedom: i[10] as u32,
        chance: f64::NAN,
        shape_significance: f64::NAN,
        marks_used: 0,
        vanished_used: 0,
        cautions: MarkFitCautions::default(),
        further: FurtherMarks::default(),
    })
}
