//! What the fit found, in the units of the caller, and the refusal of what the marks cannot tell.

use super::Mark;
use super::cautions::beware;
use super::checks::log_m2_of_one;
use super::correction::Correction;
use super::law::{Law, Place};
use super::outliers::Standing;
use super::ranges::{Ends, Ranges};
use super::series::Series;
use super::{FurtherMarks, MarkFitCautions, MarkFitOptions, WidthScatter};
use crate::error::{Error, Param, undetermined, within_model};
use crate::model::learn::estimate::Estimate;
use crate::model::learn::statistics::{chi_squared_chance, normal_factor, student_factor};
use crate::model::math;
use crate::validity::{LEAST_CERTAINTY, LEAST_PLACE_CERTAINTY, LEAST_SHAPE_SIGNIFICANCE};

/// T from which on ranges are those of the likelihood.
const BENT: f64 = 0.2;

/// What a series of marks tells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkFit {
    /// Height of the waist in metres, from the datum of the heights, + away from the lens.
    pub waist_z: Estimate,
    /// Waist **diameter** in metres, 1/e².
    pub waist_diameter: Estimate,
    /// Rayleigh range in metres.
    pub rayleigh_range: Estimate,
    /// Dose over threshold in the waist, at the power of reference.
    pub dose_ratio: Estimate,
    /// M². One clearly below 1 is flagged, not refused.
    pub m2: Estimate,
    /// Correlations of z₀, ln d, ln zR and ln q in the order (z₀, d), (z₀, zR), (z₀, q), (d, zR), (d, q), (zR, q).
    pub correlations: [f64; 6],
    /// Half width of a range over the deviation.
    pub range_factor: f64,
    /// Sum of squared residuals over their variances.
    pub chi_squared: f64,
    /// Marks seen and used, and what was known before, less four.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² so great or greater, if the stated deviations hold.
    pub chance: f64,
    /// By how many deviations the widths change with height.
    pub shape_significance: f64,
    /// How many marks were used that were seen.
    pub marks_used: u32,
    /// How many marks were used that vanished.
    pub vanished_used: u32,
    /// What to beware of.
    pub cautions: MarkFitCautions,
    /// Which further marks would make the answer better.
    pub further: FurtherMarks,
}

pub(super) fn answer(
    series: &Series<'_, impl Fn(usize) -> Mark>,
    standing: &Standing,
    wavelength: f64,
    options: &MarkFitOptions,
) -> Result<MarkFit, Error> {
    let Law { middle, reach, widest, .. } = series.law;
    let chi_squared = 2.0 * standing.least.local.value;
    let degrees = f64::from(standing.freedom);
    let shape_significance = series.shape_significance(standing);
    if shape_significance < LEAST_SHAPE_SIGNIFICANCE {
        return Err(undetermined(Param::ShapeSignificance, shape_significance));
    }
    let [waist, log_rayleigh, half_square, _] = standing.least.at;
    let log_diameter = 0.5 * math::log(2.0 * half_square);
    let log_dose = Place::of(&standing.least.at).log_dose();
    let waist_z = middle + reach * waist;
    if math::fabs(waist) > 1.0 {
        let (least, greatest) = (middle - reach, middle + reach);
        return Err(Error::Undetermined {
            param: Param::WaistWithinHeights,
            value: waist_z,
            least,
            greatest,
        });
    }
    let (scale, range_factor) = match options.scatter {
        WidthScatter::Stated => (1.0, normal_factor(options.confidence)),
        WidthScatter::Found => (chi_squared / degrees, student_factor(options.confidence, degrees)?),
    };
    let vague = undetermined(Param::SizeCertainty, 0.0);
    let Correction { covariance, bias: [of_z, of_d, of_r, of_q], bend } =
        series.correction(&standing.least, scale).ok_or(vague)?;
    let [[zz, zd, zr, zq], [_, dd, dr, dq], [_, _, rr, rq], [_, _, _, qq]] = covariance;
    // Of what the widths are taken at, not of what scatters, which may be nothing.
    let correlation = |mixed: f64, one: f64, other: f64| mixed / math::sqrt(one * other);
    let correlations = [
        correlation(zd, zz, dd),
        correlation(zr, zz, rr),
        correlation(zq, zz, qq),
        correlation(dr, dd, rr),
        correlation(dq, dd, qq),
        correlation(rq, rr, qq),
    ];
    let [z_deviation, d_deviation, r_deviation, q_deviation] =
        [zz, dd, rr, qq].map(|variance| math::sqrt(scale * variance));
    let certainty = 1.0 / z_deviation;
    if certainty.is_nan() || certainty < LEAST_PLACE_CERTAINTY {
        return Err(undetermined(Param::WaistZCertainty, certainty));
    }
    let certainty = 1.0 / d_deviation;
    if certainty.is_nan() || certainty < LEAST_CERTAINTY {
        return Err(undetermined(Param::SizeCertainty, certainty));
    }
    // ln M² = 2·ln d − ln zR + a constant
    let log_m2 = log_m2_of_one(wavelength, widest, reach) + 2.0 * log_diameter - log_rayleigh;
    let m2_variance = scale * (4.0 * (dd - dr) + rr);
    let m2_deviation = math::sqrt(math::greater(m2_variance, 0.0));
    let around =
        |value: f64, bias: f64, deviation: f64| Estimate::of_logarithm(value, bias, deviation, range_factor);
    let waist_diameter = around(widest * math::exp(log_diameter), of_d, d_deviation);
    let rayleigh_range = around(reach * math::exp(log_rayleigh), of_r, r_deviation);
    let dose_ratio = around(math::exp(log_dose), of_q, q_deviation);
    within_model(Param::WaistDiameter, waist_diameter.value)?;
    within_model(Param::RayleighRange, rayleigh_range.value)?;
    within_model(Param::AnyDoseRatio, dose_ratio.value)?;
    let chance = chi_squared_chance(chi_squared, degrees)?;

    let mut fit = MarkFit {
        waist_z: Estimate::even(waist_z, reach * of_z, reach * z_deviation, range_factor),
        waist_diameter,
        rayleigh_range,
        dose_ratio,
        m2: around(math::exp(log_m2), 2.0 * of_d - of_r, m2_deviation),
        correlations,
        range_factor,
        chi_squared,
        degrees_of_freedom: standing.freedom,
        chance,
        shape_significance,
        marks_used: standing.seen,
        vanished_used: standing.vanished,
        cautions: MarkFitCautions::default(),
        further: FurtherMarks::default(),
    };
    if bend > BENT {
        let ranges = series.ranges(&standing.least, range_factor * math::sqrt(scale));
        in_ranges(&mut fit, &ranges, &series.law, log_m2_of_one(wavelength, widest, reach));
    }
    beware(&mut fit, series, standing, options.scatter, bend);
    Ok(fit)
}

/// Gives the fit the ranges of the likelihood; an open end is that of the model.
fn in_ranges(fit: &mut MarkFit, ranges: &Ranges, law: &Law, log_m2_of_one: f64) {
    let set = |estimate: &mut Estimate, param: Param, ends: &Ends, by: &dyn Fn(f64) -> f64| {
        let (_, most) = param.range();
        let end = |number: Option<f64>| number.map(|number| math::lesser(by(number), most));
        *estimate = estimate.with_ends(end(ends.least), end(ends.greatest));
    };
    let Ranges { waist, log_rayleigh, half_square, half_square_over_rayleigh, .. } = ranges;
    set(&mut fit.waist_z, Param::ZOffset, waist, &|waist| law.middle + law.reach * waist);
    set(&mut fit.rayleigh_range, Param::RayleighRange, log_rayleigh, &|log| law.reach * math::exp(log));
    set(&mut fit.waist_diameter, Param::WaistDiameter, half_square, &|half| {
        law.widest * math::sqrt(2.0 * half)
    });
    let m2_of_one = math::exp(log_m2_of_one);
    set(&mut fit.m2, Param::M2, half_square_over_rayleigh, &|ratio| m2_of_one * 2.0 * ratio);
    // The greater 1/ln q, the lesser the dose.
    let Ends { least, greatest } = ranges.over_log_dose;
    let ends = Ends { least: greatest, greatest: least };
    set(&mut fit.dose_ratio, Param::AnyDoseRatio, &ends, &|over| math::exp(1.0 / over));
}
