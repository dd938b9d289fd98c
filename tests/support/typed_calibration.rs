//! The functions of the list on calibrated set-ups, called through the typed layer.

use super::{bits, metres, offset, width};
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
