//! The functions of the list on learning from test pieces, called through the typed layer.

use super::{offset, z};
use spotwise::units::m;
use spotwise::*;
use uom::si::f64::Length;

/// Most marks of a series.
const MARKS: usize = 9;

/// An estimate, in the order of the outputs.
pub fn numbers(e: Estimate) -> [f64; 5] {
    [e.value, e.deviation, e.least, e.greatest, e.bias]
}

pub fn length_numbers(e: Estimate<Length>) -> [f64; 5] {
    [e.value, e.deviation, e.least, e.greatest, e.bias].map(|length| length.value)
}

pub fn offset_numbers(e: Estimate<Offset, Length>) -> [f64; 5] {
    [z(e.value), e.deviation.value, z(e.least), z(e.greatest), e.bias.value]
}

pub fn width_numbers(e: Estimate<BeamWidth, Length>) -> [f64; 5] {
    let [value, least, greatest] = [e.value, e.least, e.greatest].map(|width| width.diameter_1e2().value);
    [value, e.deviation.value, least, greatest, e.bias.value]
}

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "student_factor" => vec![student_factor(i[0], i[1] as u32)?],
        "chi_squared_chance" => vec![chi_squared_chance(i[0], i[1] as u32)?],
        "fit_mark_widths" => {
            let (count, rest) = ((i[0] as usize).min(MARKS), &i[1 + 4 * MARKS..]);
            let (kind, scatter) =
                (MarkKind::from_code(rest[0] as u32)?, WidthScatter::from_code(rest[8] as u32)?);
            let number = |list: usize, place: usize| i[1 + list * MARKS + place];
            let marks: Vec<SeriesMark> = (0..count)
                .map(|place| {
                    let width = number(1, place);
                    Ok(SeriesMark {
                        height: offset(number(0, place))?,
                        width: (width != 0.0).then_some(m(width)),
                        deviation: m(number(2, place)),
                        power_ratio: number(3, place),
                    })
                })
                .collect::<Result<_, Error>>()?;
            let is_known = |deviation: f64| deviation != f64::INFINITY;
            let waist =
                if is_known(rest[5]) { Some(BeamWidth::from_diameter_1e2(m(rest[4]))?) } else { None };
            let known = SeriesKnown {
                kind,
                wavelength: m(rest[1]),
                m_squared: is_known(rest[3]).then_some(Prior { value: rest[2], relative_deviation: rest[3] }),
                waist: waist.map(|value| Prior { value, relative_deviation: rest[5] }),
            };
            let options = MarkFitOptions { outlier_limit: rest[6], confidence: rest[7], scatter };
            let (mut residuals, mut used) = ([0.0; MARKS], [false; MARKS]);
            let (left, which) = (&mut residuals[..count], &mut used[..count]);
            let f = fit_mark_widths(&marks, &known, &options, left, which)?;
            [
                &offset_numbers(f.waist_height)[..],
                &width_numbers(f.waist),
                &length_numbers(f.rayleigh_range),
                &numbers(f.dose_ratio),
                &numbers(f.m_squared),
                &f.correlations,
                &[
                    f.range_factor,
                    f.chi_squared,
                    f64::from(f.degrees_of_freedom),
                    f.chance,
                    f.shape_significance,
                    f64::from(f.marks_used),
                    f64::from(f.vanished_used),
                    f64::from(f.cautions.bits()),
                    f64::from(f.further.bits()),
                ],
                &residuals,
                &used.map(f64::from),
            ]
            .concat()
        }
        _ => return Ok(None),
    }))
}
