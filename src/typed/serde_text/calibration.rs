//! Calibrations in documents.

use super::*;
use crate::model::learn::NORMAL_FACTOR_95;
use crate::typed::calibration::{CalibratedLine, Calibration};

fields! { Length, LengthField, |value, to| to.collect_str(&LengthText(value.value));
    focal_length: range!(FocalLength);
    focus_deviation: range!(FocusDeviation);
    waist_diameter_deviation: range!(WaistDiameterDeviation);
}
fields! { f64, NumberField, |value, to| to.serialize_f64(*value);
    m_squared: range!(MeasuredM2);
    m_squared_deviation: range!(M2Deviation);
    coverage_factor_95: range!(CoverageFactor95);
    dose_ratio: range!(DoseRatio);
    relative_deviation: range!(RelativeDoseRatioDeviation);
    correlation: range!(Correlation);
}

/// What a calibration has that names no factor.
pub(in crate::typed) const fn normal_factor_95() -> f64 {
    NORMAL_FACTOR_95
}

by_field_name! {
    Calibration, "a calibration by its fields: wavelength, focal_length, focus, focus_deviation, waist, waist_diameter_deviation, m_squared, m_squared_deviation, and focus_shift, coverage_factor_95 and line if they are known";
    CalibratedLine, "a marked line by its fields: power, speed, dose_ratio, relative_deviation, and correlation if it is known";
}
