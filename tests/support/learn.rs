//! The functions of the list on learning from test pieces, called through the model.

use spotwise::Error;
use spotwise::model::learn::{
    Estimate, MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter, chi_squared_chance, fit_mark_widths,
    student_factor,
};
use spotwise::model::mark::MarkKind;

/// Most marks of a series.
const MARKS: usize = 9;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "student_factor" => vec![student_factor(i[0], i[1])?],
        "chi_squared_chance" => vec![chi_squared_chance(i[0], i[1])?],
        "fit_mark_widths" => {
            let count = (i[0] as usize).min(MARKS);
            let list = |place: usize| &i[1 + place * MARKS..][..count];
            let marks =
                SeriesMarks { heights: list(0), widths: list(1), deviations: list(2), power_ratios: list(3) };
            let rest = &i[1 + 4 * MARKS..];
            let kind = MarkKind::from_code(rest[0] as u32)?;
            let scatter = WidthScatter::from_code(rest[8] as u32)?;
            let known = SeriesKnown {
                kind,
                wavelength: rest[1],
                m2: rest[2],
                relative_m2_deviation: rest[3],
                waist_diameter: rest[4],
                relative_waist_diameter_deviation: rest[5],
            };
            let options = MarkFitOptions { outlier_limit: rest[6], confidence: rest[7], scatter };
            let (mut residuals, mut used) = ([0.0; MARKS], [false; MARKS]);
            let (left, which) = (&mut residuals[..count], &mut used[..count]);
            let fit = fit_mark_widths(&marks, &known, &options, left, which)?;
            let estimate = |e: Estimate| [e.value, e.deviation, e.least, e.greatest, e.bias];
            [
                &[fit.waist_z, fit.waist_diameter, fit.rayleigh_range, fit.dose_ratio, fit.m2]
                    .map(estimate)
                    .concat(),
                &fit.correlations[..],
                &[
                    fit.range_factor,
                    fit.chi_squared,
                    f64::from(fit.degrees_of_freedom),
                    fit.chance,
                    fit.shape_significance,
                    f64::from(fit.marks_used),
                    f64::from(fit.vanished_used),
                    f64::from(fit.cautions.bits()),
                    f64::from(fit.further.bits()),
                ],
                &residuals,
                &used.map(f64::from),
            ]
            .concat()
        }
        _ => return Ok(None),
    }))
}
