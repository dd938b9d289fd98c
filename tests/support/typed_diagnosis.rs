//! The functions of the list on focus or power, called through the typed layer.

use super::{beam, bits, z};
use spotwise::units::m;
use spotwise::*;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "diagnose_mark" => {
            let (good, depths) = (good(&i[3..8])?, depths(&i[8..13])?);
            let found = beam(i)?.diagnose_mark(&good, &depths, width(&i[13..]), i[15])?;
            vec![
                f64::from(found.cause as u32),
                f64::from(found.further_test as u32),
                f64::from(found.ambiguities.bits()),
                found.growth,
                found.growth_deviation,
                found.offset.value,
                found.least_offset.value,
                found.greatest_offset.value,
                found.power.ratio,
                found.power_ratio_deviation,
                found.power.least,
                found.power.greatest,
                found.correlation,
                found.dose_ratio,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "diagnose_width" => {
            let good = good(&i[3..8])?;
            let found = beam(i)?.diagnose_width(&good, width(&i[8..]), i[10])?;
            [
                says(found.cause, found.further_test, found.ambiguities),
                height(found.near),
                height(found.far),
                power(found.power),
                vec![found.half_angle.value, bits(found.validity)],
            ]
            .concat()
        }
        "settle_by_patch" => {
            let (good, patch) = (good(&i[3..8])?, depths(&i[8..13])?);
            let found = beam(i)?.settle_by_patch(&good, &patch, i[13], width(&i[14..]), i[16])?;
            [
                says(found.cause, found.further_test, found.ambiguities),
                power(Some(found.power)),
                height(found.near),
                height(found.far),
                vec![found.half_angle.value, bits(found.validity)],
            ]
            .concat()
        }
        "settle_by_power" => {
            let step = PowerStep {
                kind: MarkKind::from_code(i[3] as u32)?,
                dose_ratio: i[4],
                dose_ratio_deviation: i[5],
                power_step: i[6],
                first: width(&i[7..]),
                stepped: width(&i[9..]),
            };
            let found = beam(i)?.settle_by_power(&step, i[11])?;
            [
                says(found.cause, found.further_test, found.ambiguities),
                vec![
                    found.spot_diameter.value,
                    found.spot_diameter_deviation.value,
                    found.growth,
                    found.offset.value,
                    found.least_offset.value,
                    found.greatest_offset.value,
                    found.dose_ratio,
                ],
                power(Some(found.power)),
                vec![found.half_angle.value, bits(found.validity)],
            ]
            .concat()
        }
        "settle_by_heights" => {
            let readings = HeightReadings {
                kind: MarkKind::from_code(i[3] as u32)?,
                law: DepthLaw::from_code(i[4] as u32)?,
                height_step: m(i[5]),
                toward_lens: i[6],
                middle: i[7],
                away_from_lens: i[8],
                deviation: i[9],
            };
            let found = beam(i)?.settle_by_heights(&readings, i[10])?;
            vec![
                f64::from(found.verdict as u32),
                found.surface.map_or(f64::NAN, z),
                found.deviation.map_or(f64::NAN, |deviation| deviation.value),
                found.toward_lens.map_or(f64::NAN, z),
                found.away_from_lens.map_or(f64::NAN, z),
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        _ => return Ok(None),
    }))
}

fn width(i: &[f64]) -> WidthReading {
    WidthReading { width: m(i[0]), deviation: m(i[1]) }
}

fn good(i: &[f64]) -> Result<GoodMark, Error> {
    Ok(GoodMark {
        kind: MarkKind::from_code(i[0] as u32)?,
        dose_ratio: i[1],
        dose_ratio_deviation: i[2],
        width: width(&i[3..]),
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

fn says(cause: MarkCause, test: FurtherTest, ambiguities: Ambiguities) -> Vec<f64> {
    vec![f64::from(cause as u32), f64::from(test as u32), f64::from(ambiguities.bits())]
}

fn height(found: Option<PossibleHeight>) -> Vec<f64> {
    found.map_or_else(
        || vec![f64::NAN; 4],
        |h| vec![h.growth, h.offset.value, h.least_offset.value, h.greatest_offset.value],
    )
}

fn power(found: Option<PossiblePower>) -> Vec<f64> {
    found.map_or_else(|| vec![f64::NAN; 3], |power| vec![power.ratio, power.least, power.greatest])
}
