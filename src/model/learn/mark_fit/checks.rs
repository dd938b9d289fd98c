//! What is given, checked, and what all the marks have in common, in units that bring all numbers near 1.

use super::law::{Known, Law};
use super::{Mark, MarkFitOptions, SeriesKnown};
use crate::error::{Error, Param, check, check_unless_infinite, undetermined};
use crate::model::math;
use core::f64::consts::FRAC_PI_4;

/// Checks all, and gives what the marks have in common.
pub(super) fn checked_law(
    count: usize,
    at: &impl Fn(usize) -> Mark,
    known: &SeriesKnown,
    options: &MarkFitOptions,
) -> Result<Law, Error> {
    let all = || (0..count).map(at);
    let (mut least, mut greatest, mut widest) = (f64::INFINITY, f64::NEG_INFINITY, 0.0);
    for mark in all() {
        let height = check(Param::ZOffset, mark.height)?;
        (least, greatest) = (math::lesser(least, height), math::greater(greatest, height));
    }
    for mark in all() {
        if mark.width != 0.0 {
            widest = math::greater(widest, check(Param::MarkWidth, mark.width)?);
        }
    }
    for mark in all() {
        check(Param::WidthDeviation, mark.deviation)?;
    }
    for mark in all() {
        check(Param::PowerRatio, mark.power_ratio)?;
    }
    let wavelength = check(Param::Wavelength, known.wavelength)?;
    let knows_m2 = check_unless_infinite(Param::PriorDeviation, known.relative_m2_deviation)?;
    if knows_m2 {
        check(Param::M2, known.m2)?;
    }
    let knows_diameter =
        check_unless_infinite(Param::PriorDeviation, known.relative_waist_diameter_deviation)?;
    if knows_diameter {
        check(Param::WaistDiameter, known.waist_diameter)?;
    }
    check_unless_infinite(Param::OutlierLimit, options.outlier_limit)?;
    check(Param::Confidence, options.confidence)?;

    let seen = all().filter(|mark| mark.width > 0.0).count();
    let needed = 5_u8 - u8::from(knows_m2) - u8::from(knows_diameter);
    if seen < usize::from(needed) {
        let (_, greatest) = Param::MarksUsed.range();
        return Err(Error::Undetermined {
            param: Param::MarksUsed,
            value: seen as f64,
            least: f64::from(needed),
            greatest,
        });
    }
    let between = all().any(|mark| mark.height > least && mark.height < greatest);
    if !between {
        return Err(undetermined(Param::DistinctHeights, if least < greatest { 2.0 } else { 1.0 }));
    }
    let (middle, reach) = (0.5 * (least + greatest), 0.5 * (greatest - least));
    // M² = π·d²/(4·λ·zR), with d in units of the widest and zR in units of the reach
    let log_m2_of_one = log_m2_of_one(wavelength, widest, reach);
    Ok(Law {
        middle,
        reach,
        widest,
        over_reach: 1.0 / reach,
        over_widest: 1.0 / widest,
        half_exponent: 0.5 * known.kind.exponent(),
        known: [
            Known {
                coefficients: [2.0, -1.0],
                target: math::log(known.m2) - log_m2_of_one,
                deviation: known.relative_m2_deviation,
            },
            Known {
                coefficients: [1.0, 0.0],
                target: math::log(known.waist_diameter / widest),
                deviation: known.relative_waist_diameter_deviation,
            },
        ],
    })
}

/// ln M² where d is the widest mark and zR the reach.
pub(super) fn log_m2_of_one(wavelength: f64, widest: f64, reach: f64) -> f64 {
    math::log(FRAC_PI_4 * (widest / wavelength) * (widest / reach))
}
