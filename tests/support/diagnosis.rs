//! The functions of the list on focus or power, called through the model.

use super::{beam, bits};
use spotwise::Error;
use spotwise::model::learn::{
    DepthLaw, DepthReading, GoodMark, HeightReadings, PossibleHeight, PossiblePower, PowerStep,
    diagnose_mark, diagnose_width, settle_by_heights, settle_by_patch, settle_by_power,
};
use spotwise::model::mark::MarkKind;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "diagnose_mark" => {
            let good = good(&i[3..8])?;
            let found = diagnose_mark(&beam(i), &good, &depths(&i[8..13])?, i[13], i[14], i[15])?;
            vec![
                f64::from(found.cause as u32),
                f64::from(found.further_test as u32),
                f64::from(found.ambiguities.bits()),
                found.growth,
                found.growth_deviation,
                found.offset,
                found.least_offset,
                found.greatest_offset,
                found.power_ratio,
                found.power_ratio_deviation,
                found.least_power_ratio,
                found.greatest_power_ratio,
                found.correlation,
                found.dose_ratio,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "diagnose_width" => {
            let found = diagnose_width(&beam(i), &good(&i[3..8])?, i[8], i[9], i[10])?;
            [
                vec![
                    f64::from(found.cause as u32),
                    f64::from(found.further_test as u32),
                    f64::from(found.ambiguities.bits()),
                ],
                height(found.near),
                height(found.far),
                power(found.power),
                vec![found.half_angle, bits(found.validity)],
            ]
            .concat()
        }
        "settle_by_patch" => {
            let good = good(&i[3..8])?;
            let patch = depths(&i[8..13])?;
            let found = settle_by_patch(&beam(i), &good, &patch, i[13], i[14], i[15], i[16])?;
            [
                vec![
                    f64::from(found.cause as u32),
                    f64::from(found.further_test as u32),
                    f64::from(found.ambiguities.bits()),
                ],
                power(Some(found.power)),
                height(found.near),
                height(found.far),
                vec![found.half_angle, bits(found.validity)],
            ]
            .concat()
        }
        "settle_by_power" => {
            let step = PowerStep {
                kind: MarkKind::from_code(i[3] as u32)?,
                dose_ratio: i[4],
                dose_ratio_deviation: i[5],
                power_step: i[6],
                width: i[7],
                width_deviation: i[8],
                stepped_width: i[9],
                stepped_width_deviation: i[10],
            };
            let found = settle_by_power(&beam(i), &step, i[11])?;
            [
                vec![
                    f64::from(found.cause as u32),
                    f64::from(found.further_test as u32),
                    f64::from(found.ambiguities.bits()),
                    found.spot_diameter,
                    found.spot_diameter_deviation,
                    found.growth,
                    found.offset,
                    found.least_offset,
                    found.greatest_offset,
                    found.dose_ratio,
                ],
                power(Some(found.power)),
                vec![found.half_angle, bits(found.validity)],
            ]
            .concat()
        }
        "settle_by_heights" => {
            let readings = HeightReadings {
                kind: MarkKind::from_code(i[3] as u32)?,
                law: DepthLaw::from_code(i[4] as u32)?,
                height_step: i[5],
                toward_lens: i[6],
                middle: i[7],
                away_from_lens: i[8],
                deviation: i[9],
            };
            let found = settle_by_heights(&beam(i), &readings, i[10])?;
            vec![
                f64::from(found.verdict as u32),
                found.z_offset.unwrap_or(f64::NAN),
                found.z_offset_deviation.unwrap_or(f64::NAN),
                found.least_z_offset.unwrap_or(f64::NAN),
                found.greatest_z_offset.unwrap_or(f64::NAN),
                found.half_angle,
                bits(found.validity),
            ]
        }
        _ => return Ok(None),
    }))
}

fn good(i: &[f64]) -> Result<GoodMark, Error> {
    Ok(GoodMark {
        kind: MarkKind::from_code(i[0] as u32)?,
        dose_ratio: i[1],
        dose_ratio_deviation: i[2],
        width: i[3],
        width_deviation: i[4],
    })
}

fn depths(i: &[f64]) -> Result<DepthReading, Error> {
    Ok(DepthReading {
        law: DepthLaw::from_code(i[0] as u32)?,
        good_depth: i[1],
        good_depth_deviation: i[2],
        depth: i[3],
        depth_deviation: i[4],
    })
}

fn height(found: Option<PossibleHeight>) -> Vec<f64> {
    found.map_or_else(
        || vec![f64::NAN; 4],
        |height| vec![height.growth, height.offset, height.least_offset, height.greatest_offset],
    )
}

fn power(found: Option<PossiblePower>) -> Vec<f64> {
    found.map_or_else(|| vec![f64::NAN; 3], |power| vec![power.ratio, power.least, power.greatest])
}
