//! Calibrated set-ups against the model, as in `agree`.
#![expect(clippy::undocumented_unsafe_blocks, reason = "every one is a call with whole structs")]

use super::raw::{Expected, compare, near, place, ratio};
use crate::abi::Plain;
use crate::calibration::*;
use crate::from_marks::*;
use crate::mark_fit::spotwise_mark_fit;
use proptest::prelude::*;
use spotwise::model::learn::{
    self, LearnedFocus, LearnedLine, MarkedLines, NORMAL_FACTOR_95, SeriesFindings,
};

fn factor() -> impl Strategy<Value = f64> {
    prop_oneof![40 => 1.95..12.8f64, 1 => near(2.0)]
}

proptest! {
    #[test]
    fn calibrated_set_up(
        (wavelength, measured_m2, m2_deviation) in (near(2e-6), ratio(), near(0.1)),
        (waist_diameter, focal_length, focus_shift) in (near(80e-6), near(60e-3), place(0.5e-3)),
        (focus_deviation, coverage_factor_95) in (near(20e-6), factor()),
    ) {
        let c = spotwise_learned_focus {
            wavelength_m: wavelength,
            measured_m2,
            m2_deviation,
            waist_diameter_m: waist_diameter,
            focal_length_m: focal_length,
            focus_shift_m: focus_shift,
            focus_deviation_m: focus_deviation,
            coverage_factor_95,
            ..spotwise_learned_focus::BLANK
        };
        let learned = LearnedFocus {
            wavelength,
            measured_m2,
            m2_deviation,
            waist_diameter,
            focal_length,
            focus_shift,
            focus_deviation,
            coverage_factor_95,
        };
        let model = learn::calibrated_set_up(&learned).map(|set_up| {
            Expected::of::<spotwise_calibrated_set_up_result>().word(set_up.validity.bits()).numbers(&[
                set_up.m2,
                set_up.raw_waist_diameter,
                set_up.waist_to_lens,
                set_up.diameter_at_lens,
                set_up.rayleigh_range,
                set_up.focus_deviation,
                set_up.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_calibrated_set_up(&c, out, error) }, model)?;
    }

    #[test]
    fn learned_threshold(
        (power, speed, waist_diameter) in (near(20.0), near(0.5), near(80e-6)),
        (waist_diameter_deviation, dose_ratio) in (near(1e-6), ratio()),
        (relative_dose_ratio_deviation, correlation) in (near(0.03), place(0.3)),
        coverage_factor_95 in factor(),
    ) {
        let c = spotwise_learned_line {
            power_w: power,
            speed_m_per_s: speed,
            waist_diameter_m: waist_diameter,
            waist_diameter_deviation_m: waist_diameter_deviation,
            dose_ratio,
            relative_dose_ratio_deviation,
            correlation,
            coverage_factor_95,
            ..spotwise_learned_line::BLANK
        };
        let learned = LearnedLine {
            power,
            speed,
            waist_diameter,
            waist_diameter_deviation,
            dose_ratio,
            relative_dose_ratio_deviation,
            correlation,
            coverage_factor_95,
        };
        let model = learn::learned_threshold(&learned).map(|learned| {
            Expected::of::<spotwise_learned_threshold_result>()
                .word(0)
                .numbers(&[learned.threshold, learned.relative_deviation])
        });
        compare(|out, error| unsafe { spotwise_learned_threshold(&c, out, error) }, model)?;
    }

    #[test]
    fn calibration_from_marks(
        (waist_z, waist_z_deviation) in (place(0.2e-3), near(20e-6)),
        (waist_diameter, waist_diameter_deviation, m2, m2_deviation) in (near(80e-6), near(1e-6), ratio(), near(0.1)),
        (dose_ratio, dose_ratio_deviation, correlation) in (ratio(), near(0.1), place(0.3)),
        (range_factor, degrees_of_freedom) in (prop_oneof![4 => Just(NORMAL_FACTOR_95), 1 => factor()], 0..50_u32),
        (wavelength, focal_length, power, speed) in (near(2e-6), near(60e-3), near(20.0), near(0.5)),
    ) {
        let c = spotwise_mark_fit {
            degrees_of_freedom,
            waist_z_m: waist_z,
            waist_z_deviation_m: waist_z_deviation,
            waist_diameter_m: waist_diameter,
            waist_diameter_deviation_m: waist_diameter_deviation,
            m2,
            m2_deviation,
            dose_ratio,
            dose_ratio_deviation,
            correlation_diameter_dose: correlation,
            range_factor,
            ..spotwise_mark_fit::BLANK
        };
        let findings = SeriesFindings {
            waist_z,
            waist_z_deviation,
            waist_diameter,
            waist_diameter_deviation,
            m2,
            m2_deviation,
            dose_ratio,
            dose_ratio_deviation,
            correlation,
            range_factor,
            degrees_of_freedom,
        };
        let lines = MarkedLines { wavelength, focal_length, power, speed };
        let mut out = spotwise_learned_machine::BLANK;
        let mut error = crate::error::spotwise_error::BLANK;
        let status = unsafe {
            spotwise_calibration_from_marks(&c, wavelength, focal_length, power, speed, &mut out, &mut error)
        };
        match learn::calibration_from_marks(&findings, &lines) {
            Ok(learned) => {
                prop_assert_eq!((status, out.reserved, out.focus_z_m.to_bits()), (0, 0, learned.focus_z.to_bits()));
                prop_assert_eq!(LearnedFocus::from(out.focus), learned.focus);
                prop_assert_eq!(LearnedLine::from(out.line), learned.line);
            }
            Err(refused) => {
                prop_assert_eq!((status, error.parameter), (refused.code(), refused.param() as u32));
                prop_assert!(out.focus_z_m.is_nan() && out.focus.measured_m2.is_nan() && out.line.power_w.is_nan());
            }
        }
    }
}
