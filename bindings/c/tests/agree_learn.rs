//! Each function on learning from test pieces against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::number;
use super::raw::{Expected, choice, compare, near, share};
use crate::mark_fit::*;
use crate::statistics::*;
use core::ffi::CStr;
use proptest::prelude::*;
use spotwise::model::learn::{
    self, FurtherMarks, MarkFitCautions, MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter,
};
use spotwise::model::mark::MarkKind;

fn degrees() -> impl Strategy<Value = u32> {
    prop_oneof![40 => 1..60_u32, 1 => Just(0), 1 => Just(100_000), 1 => Just(100_001), 1 => any::<u32>()]
}

proptest! {
    #[test]
    fn student_factor(confidence in share().prop_map(|share| 0.5 + 0.5 * share), degrees in degrees()) {
        let model = number(learn::student_factor(confidence, f64::from(degrees)));
        compare(|out, error| unsafe { spotwise_student_factor(confidence, degrees, out, error) }, model)?;
    }

    #[test]
    fn chi_squared_chance(chi_squared in near(9.0), degrees in degrees()) {
        let model = number(learn::chi_squared_chance(chi_squared, f64::from(degrees)));
        compare(|out, error| unsafe { spotwise_chi_squared_chance(chi_squared, degrees, out, error) }, model)?;
    }

    #[test]
    fn fit_mark_widths(
        off in prop::collection::vec((0.97..1.03f64, 0.5..2.0f64), 0..14),
        (kind, scatter) in (choice(2), choice(2)),
        priors in (prop::bool::ANY, prop::bool::ANY, near(1.3), near(0.2)),
        (outlier_limit, confidence) in (near(4.0), share().prop_map(|share| 0.5 + 0.5 * share)),
        dose in 1.3..9.0f64,
    ) {
        // Marks of a spot of 80 um, zR = 0.4 mm, a little off.
        let heights: Vec<f64> = (0..off.len()).map(|i| (i as f64 - 6.0) * 0.15e-3).collect();
        let width = |(z, off): (&f64, &(f64, f64))| {
            let u = 1.0_f64.hypot(z / 0.4e-3);
            if dose > u { 80e-6 * u * ((dose / u).ln() / 2.0).sqrt() * off.0 } else { 0.0 }
        };
        let widths: Vec<f64> = heights.iter().zip(&off).map(width).collect();
        let deviations: Vec<f64> = off.iter().map(|off| off.1 * 1e-6).collect();
        let power_ratios = vec![1.0; off.len()];
        let count = off.len();
        let (knows_m2, knows_diameter, m2, prior) = priors;
        let or_infinite = |known: bool| if known { prior } else { f64::INFINITY };
        let mut series = spotwise_mark_series {
            mark_kind: kind,
            scatter,
            wavelength_m: 10.6e-6,
            m2,
            relative_m2_deviation: or_infinite(knows_m2),
            waist_diameter_m: 90e-6,
            relative_waist_diameter_deviation: or_infinite(knows_diameter),
            outlier_limit,
            confidence,
            ..crate::abi::Plain::BLANK
        };
        series.reserved = 7; // not read
        let (mut residuals, mut used) = (vec![f64::NAN; count], vec![false; count]);
        let model = MarkKind::from_code(kind).and_then(|kind| {
            let known = SeriesKnown {
                kind,
                wavelength: 10.6e-6,
                m2,
                relative_m2_deviation: or_infinite(knows_m2),
                waist_diameter: 90e-6,
                relative_waist_diameter_deviation: or_infinite(knows_diameter),
            };
            let options =
                MarkFitOptions { outlier_limit, confidence, scatter: WidthScatter::from_code(scatter)? };
            let marks = SeriesMarks {
                heights: &heights,
                widths: &widths,
                deviations: &deviations,
                power_ratios: &power_ratios,
            };
            learn::fit_mark_widths(&marks, &known, &options, &mut residuals, &mut used)
        });
        let model = model.map(|fit| {
            let flags = Expected::of::<spotwise_mark_fit>().word(fit.marks_used).word(fit.vanished_used);
            let flags = flags.word(fit.degrees_of_freedom).word(fit.cautions.bits()).word(fit.further.bits());
            let estimates = [fit.waist_z, fit.waist_diameter, fit.rayleigh_range, fit.dose_ratio, fit.m2]
                .map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias])
                .concat();
            let tail = [fit.range_factor, fit.chi_squared, fit.chance, fit.shape_significance];
            flags.numbers(&[&estimates[..], &fit.correlations, &tail].concat())
        });
        let (mut left, mut which) = (vec![7.0; count + 1], vec![7; count + 1]);
        let inputs = [&heights, &widths, &deviations, &power_ratios].map(|list| list.as_ptr());
        let [height, width, deviation, power] = inputs;
        let (residual, flag) = (left.as_mut_ptr(), which.as_mut_ptr());
        compare(
            |fit, error| unsafe {
                spotwise_fit_mark_widths(
                    height, width, deviation, power, count, &series, residual, flag, fit, error,
                )
            },
            model,
        )?;
        prop_assert_eq!((left.pop(), which.pop()), (Some(7.0), Some(7))); // nothing beyond the end
        prop_assert_eq!(which, used.into_iter().map(u8::from).collect::<Vec<_>>());
        let bits = |list: &[f64]| list.iter().map(|number| number.to_bits()).collect::<Vec<_>>();
        prop_assert!(left.iter().zip(&residuals).all(|(a, b)| a.is_nan() && b.is_nan()) || bits(&left) == bits(&residuals));
    }
}

#[test]
fn every_bit_has_its_sentence() {
    let text = |text| unsafe { CStr::from_ptr(text) }.to_str().unwrap();
    for (caution, sentence) in MarkFitCautions::ALL {
        assert_eq!(text(spotwise_mark_fit_caution_text(caution.bits())), sentence);
    }
    for (further, sentence) in FurtherMarks::ALL {
        assert_eq!(text(spotwise_further_marks_text(further.bits())), sentence);
    }
}
