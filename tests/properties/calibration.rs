//! Calibrated set-ups: the round trip through a job, the covariance, and what is refused.

use super::given::*;
use super::refusal::{judge, value_of, wild};
use proptest::prelude::*;
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, RawBeam, Verdict, focus_check};
use spotwise::model::focus::DepthCriterion;
use spotwise::model::learn::{
    CalibratedSetUp, LearnedFocus, LearnedLine, MarkFitOptions, MarkedLines, NORMAL_FACTOR_95,
    SeriesFindings, SeriesKnown, SeriesMarks, WidthScatter, calibrated_set_up, calibration_from_marks,
    fit_mark_widths, learned_threshold,
};
use spotwise::model::mark::{MarkKind, Response, Scan, mark_width, scan_dose};
use spotwise::model::optics::{Beam, beam_parameters};
use spotwise::{Error, Param};
use std::f64::consts::PI;

/// What was measured of machines as people have them, with a waist up to two Rayleigh ranges off the focal point.
fn ordinary_focus() -> impl Strategy<Value = LearnedFocus> {
    (0.35e-6..11e-6f64, 1.0..3.0f64, 0.05..0.2f64, 40e-3..0.3f64, -2.0..2.0f64, 1e-6..1e-4f64).prop_map(
        |(wavelength, measured_m2, cone, focal_length, shift, focus_deviation)| {
            let waist_diameter = 4.0 * measured_m2 * wavelength / (PI * cone);
            LearnedFocus {
                wavelength,
                measured_m2,
                m2_deviation: 0.05,
                waist_diameter,
                focal_length,
                focus_shift: shift * waist_diameter / cone,
                focus_deviation,
                coverage_factor_95: NORMAL_FACTOR_95,
            }
        },
    )
}

/// Anything of which a set-up can be made.
fn any_focus() -> impl Strategy<Value = (LearnedFocus, CalibratedSetUp)> {
    let shift = prop_oneof![Just(0.0), signed_spread(1e-9, 1e3)];
    (any_beam(), across(Param::FocalLength), shift, across(Param::FocusDeviation)).prop_filter_map(
        "set-up outside the model",
        |(beam, focal_length, shift, focus_deviation)| {
            let learned = LearnedFocus {
                wavelength: beam.wavelength,
                measured_m2: beam.m2,
                m2_deviation: 0.1,
                waist_diameter: beam.waist_diameter,
                focal_length,
                focus_shift: shift * beam_parameters(&beam).unwrap().rayleigh_range,
                focus_deviation,
                coverage_factor_95: 2.5,
            };
            Some((learned, calibrated_set_up(&learned).ok()?))
        },
    )
}

fn any_line() -> impl Strategy<Value = LearnedLine> {
    (
        (1.0..100.0f64, 0.01..5.0f64, 10e-6..1e-3f64, 1e-4..0.2f64),
        (1.01..30.0f64, 1e-4..0.2f64, -1.0..=1.0f64, 1.95..12.8f64),
    )
        .prop_map(
            |((power, speed, waist_diameter, share), (dose_ratio, deviation, correlation, factor))| {
                LearnedLine {
                    power,
                    speed,
                    waist_diameter,
                    waist_diameter_deviation: share * waist_diameter,
                    dose_ratio,
                    relative_dose_ratio_deviation: deviation,
                    correlation,
                    coverage_factor_95: factor,
                }
            },
        )
}

/// A job on the machine of a calibration, as the documentation says.
fn job_on(learned: &LearnedFocus, set_up: &CalibratedSetUp, dose: JobDose) -> Job {
    Job {
        wavelength: learned.wavelength,
        m2: set_up.m2,
        raw_beam: RawBeam::Waist {
            waist_diameter: set_up.raw_waist_diameter,
            waist_to_lens: set_up.waist_to_lens,
        },
        focal_length: learned.focal_length,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: 0.0 },
        surface_rise: 0.0,
        surface_fall: 0.0,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 1e-3,
        finest_gap: 1e-3,
        dose,
        text: None,
    }
}

fn verdict_on(learned: &LearnedFocus, set_up: &CalibratedSetUp) -> Result<Verdict, Error> {
    focus_check(&job_on(learned, set_up, JobDose::Ratio { dose_ratio: 2.7 }))
}

proptest! {
    #![proptest_config(config())]

    /// A job with the set-up has the measured focus, to a few last digits.
    #[test]
    fn the_job_has_the_measured_focus(learned in ordinary_focus()) {
        let set_up = calibrated_set_up(&learned).unwrap();
        let focus = verdict_on(&learned, &set_up).unwrap().focused;
        close(focus.waist_diameter, learned.waist_diameter, 8.0);
        close(focus.rayleigh_range, set_up.rayleigh_range, 16.0);
        close(focus.diameter_at_lens, set_up.diameter_at_lens, 8.0);
        // The distance from the lens, of which the shift is a small part.
        near(focus.focus_shift, learned.focus_shift, 16.0 * f64::EPSILON * learned.focal_length);
        let measured = Beam {
            wavelength: learned.wavelength,
            m2: set_up.m2,
            waist_diameter: learned.waist_diameter,
        };
        same_bits(set_up.rayleigh_range, beam_parameters(&measured).unwrap().rayleigh_range);
        // Told by the waist as it was given here, by what the lens makes of it there.
        close(set_up.half_angle, focus.half_angle, 8.0);
    }

    /// And so has every job in the model, but for what the rounded distance of the raw waist makes of it.
    #[test]
    fn every_job_has_the_measured_focus((learned, set_up) in any_focus()) {
        let Ok(verdict) = verdict_on(&learned, &set_up) else {
            // The raw waist as it was rounded may lie just outside the model.
            prop_assume!(false);
            unreachable!()
        };
        let focus = verdict.focused;
        let h = learned.focal_length / focus.magnification;
        let tolerance = 12.0 * f64::EPSILON + 2.0 * f64::EPSILON * set_up.waist_to_lens.abs() / h;
        near(focus.waist_diameter, learned.waist_diameter, tolerance * learned.waist_diameter);
        let reach = learned.focal_length + learned.focus_shift.abs() + set_up.rayleigh_range;
        near(focus.lens_to_waist, learned.focal_length + learned.focus_shift, 2.0 * tolerance * reach);
    }

    /// In the front focal plane the raw waist is the cone's diameter there: d = θ·f.
    #[test]
    fn the_raw_beam_of_a_waist_at_the_focal_point(learned in ordinary_focus()) {
        let learned = LearnedFocus { focus_shift: 0.0, ..learned };
        let set_up = calibrated_set_up(&learned).unwrap();
        same_bits(set_up.waist_to_lens, learned.focal_length);
        let cone = learned.waist_diameter / set_up.rayleigh_range;
        close(set_up.raw_waist_diameter, cone * learned.focal_length, 4.0);
    }

    /// Light scales with its wavelength.
    #[test]
    fn lengths_scale((learned, set_up) in any_focus(), k in power_of_two()) {
        let larger = LearnedFocus {
            wavelength: k * learned.wavelength,
            waist_diameter: k * learned.waist_diameter,
            focal_length: k * learned.focal_length,
            focus_shift: k * learned.focus_shift,
            focus_deviation: k * learned.focus_deviation,
            ..learned
        };
        let Ok(larger) = calibrated_set_up(&larger) else { return Ok(()) };
        same_bits(larger.m2, set_up.m2);
        same_bits(larger.raw_waist_diameter, k * set_up.raw_waist_diameter);
        same_bits(larger.waist_to_lens, k * set_up.waist_to_lens);
        same_bits(larger.diameter_at_lens, k * set_up.diameter_at_lens);
        same_bits(larger.rayleigh_range, k * set_up.rayleigh_range);
        same_bits(larger.focus_deviation, k * set_up.focus_deviation);
        same_bits(larger.half_angle, set_up.half_angle);
    }

    /// M² below 1 counts as 1 as far as its range reaches, and is refused by name beyond.
    #[test]
    fn m2_below_one(learned in ordinary_focus(), m2 in 0.02..1.0f64, deviation in 0.001..0.4f64, factor in 1.95..12.0f64) {
        let noisy = LearnedFocus { measured_m2: m2, m2_deviation: deviation, coverage_factor_95: factor, ..learned };
        let perfect = LearnedFocus { measured_m2: 1.0, ..noisy };
        let least = 1.0 - factor * deviation;
        match calibrated_set_up(&noisy) {
            Ok(set_up) => {
                prop_assert!(m2 >= least);
                prop_assert_eq!(Ok(set_up), calibrated_set_up(&perfect));
                prop_assert_eq!(set_up.m2, 1.0);
            }
            Err(error) if error.param() == Param::MeasuredM2 => {
                prop_assert!(m2 < least);
                prop_assert_eq!((error.code(), error.value(), error.allowed().0), (4, m2, least));
            }
            Err(error) => prop_assert_eq!(error.param(), Param::DivergenceHalfAngle),
        }
    }

    /// A wider range is that of a wider normal law: the greater factor of few marks is not lost.
    #[test]
    fn the_range_is_kept(learned in ordinary_focus(), factor in 1.95..12.8f64) {
        let set_up = calibrated_set_up(&LearnedFocus { coverage_factor_95: factor, ..learned }).unwrap();
        close(NORMAL_FACTOR_95 * set_up.focus_deviation, factor * learned.focus_deviation, 4.0);
        let normal = calibrated_set_up(&learned).unwrap();
        same_bits(normal.focus_deviation, learned.focus_deviation);
    }

    /// The threshold is the line dose of the scan over the dose ratio.
    #[test]
    fn the_threshold_is_a_line_dose(line in any_line()) {
        let d = line.waist_diameter;
        let scan = Scan { power: line.power, speed: line.speed, diameter_across: d, diameter_along: d, line_interval: d };
        let expected = scan_dose(&scan).unwrap().line_dose / line.dose_ratio;
        close(learned_threshold(&line).unwrap().threshold, expected, 6.0);
    }

    /// A job with the threshold has the dose ratio of the line where its fill is as dense as the middle of the line,
    /// with lines √(π/8)·d apart; and at the power at which the line just marks, it does not any more.
    #[test]
    fn the_threshold_is_that_of_a_fill(learned in ordinary_focus(), line in any_line()) {
        let set_up = calibrated_set_up(&learned).unwrap();
        let d = learned.waist_diameter;
        let line = LearnedLine { waist_diameter: d, waist_diameter_deviation: 0.0, ..line };
        let threshold = learned_threshold(&line).unwrap().threshold;
        let scan = |power| JobDose::Scan {
            power,
            speed: line.speed,
            line_interval: (PI / 8.0).sqrt() * d,
            threshold,
            response: Response::Coating,
        };
        let q = |power| focus_check(&job_on(&learned, &set_up, scan(power))).unwrap().dose_ratio;
        close(q(line.power), line.dose_ratio, 8.0);
        close(q(line.power / line.dose_ratio), 1.0, 10.0);
        let beam = Beam { wavelength: learned.wavelength, m2: set_up.m2, waist_diameter: d };
        let kind = MarkKind::Line;
        prop_assert!(mark_width(&beam, kind, line.dose_ratio, 0.0).unwrap().width > 0.0);
        prop_assert_eq!(mark_width(&beam, kind, 1.0 - 1e-9, 0.0).unwrap().width, 0.0);
    }

    /// The deviation is that of a pair of correlated normal numbers: here by the four corners of two independent
    /// ones, of which two points each, at ±1, have the moments of a normal law up to the third.
    #[test]
    fn the_deviation_is_of_the_full_covariance(line in any_line()) {
        let s = line.waist_diameter_deviation / line.waist_diameter;
        let sigma = line.relative_dose_ratio_deviation;
        let rest = ((1.0 - line.correlation) * (1.0 + line.correlation)).sqrt();
        let corners = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
        let squares: f64 =
            corners.iter().map(|(a, b)| (-s * a - sigma * (line.correlation * a + rest * b)).powi(2)).sum();
        let found = learned_threshold(&line).unwrap().relative_deviation;
        let widened = line.coverage_factor_95 / NORMAL_FACTOR_95;
        near(found, widened * (squares / 4.0).sqrt(), 1e-14 * widened * (s + sigma));
        // Between what the two leave if they undo each other, and their sum.
        prop_assert!(found >= widened * (s - sigma).abs() * (1.0 - 1e-14));
        prop_assert!(found <= widened * (s + sigma) * (1.0 + 1e-14));
    }

    /// A stronger tie that undoes leaves less.
    #[test]
    fn the_deviation_grows_with_the_correlation(line in any_line(), other in -1.0..=1.0f64) {
        let of = |correlation| learned_threshold(&LearnedLine { correlation, ..line }).unwrap().relative_deviation;
        let (less, more) = if other < line.correlation { (other, line.correlation) } else { (line.correlation, other) };
        prop_assert!(of(less) <= of(more));
    }

    #[test]
    fn twice_the_power_is_twice_the_threshold(line in any_line(), k in power_of_two()) {
        let one = learned_threshold(&line).unwrap();
        let scaled = |line| learned_threshold(&line).unwrap().threshold;
        same_bits(scaled(LearnedLine { power: k * line.power, ..line }), k * one.threshold);
        same_bits(scaled(LearnedLine { speed: k * line.speed, ..line }), one.threshold / k);
    }

    #[test]
    fn any_focus_at_all(
        (wavelength, measured_m2, m2_deviation) in (value_of(Param::Wavelength), value_of(Param::MeasuredM2), value_of(Param::M2Deviation)),
        (waist_diameter, focal_length) in (value_of(Param::WaistDiameter), value_of(Param::FocalLength)),
        (focus_shift, focus_deviation) in (value_of(Param::FocusShift), value_of(Param::FocusDeviation)),
        coverage_factor_95 in value_of(Param::CoverageFactor95),
    ) {
        // A diverging lens has no focus; its sign is no part of the range of a focal length.
        prop_assume!(focal_length > 0.0 || focal_length.is_nan());
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
        let numbers = calibrated_set_up(&learned).map(|found| {
            vec![
                found.m2,
                found.raw_waist_diameter,
                found.waist_to_lens,
                found.diameter_at_lens,
                found.rayleigh_range,
                found.focus_deviation,
                found.half_angle,
            ]
        });
        judge(numbers, &[
            (Param::Wavelength, wavelength),
            (Param::MeasuredM2, measured_m2),
            (Param::M2Deviation, m2_deviation),
            (Param::WaistDiameter, waist_diameter),
            (Param::FocalLength, focal_length),
            (Param::FocusShift, focus_shift),
            (Param::FocusDeviation, focus_deviation),
            (Param::CoverageFactor95, coverage_factor_95),
        ]);
    }

    #[test]
    fn any_line_at_all(
        (power, speed) in (value_of(Param::Power), value_of(Param::Speed)),
        (waist_diameter, waist_diameter_deviation) in (value_of(Param::WaistDiameter), value_of(Param::WaistDiameterDeviation)),
        (dose_ratio, relative_dose_ratio_deviation) in (value_of(Param::DoseRatio), value_of(Param::RelativeDoseRatioDeviation)),
        (correlation, coverage_factor_95) in (value_of(Param::Correlation), value_of(Param::CoverageFactor95)),
    ) {
        let line = LearnedLine {
            power,
            speed,
            waist_diameter,
            waist_diameter_deviation,
            dose_ratio,
            relative_dose_ratio_deviation,
            correlation,
            coverage_factor_95,
        };
        let numbers = learned_threshold(&line).map(|found| vec![found.threshold, found.relative_deviation]);
        judge(numbers, &[
            (Param::Power, power),
            (Param::Speed, speed),
            (Param::WaistDiameter, waist_diameter),
            (Param::WaistDiameterDeviation, waist_diameter_deviation),
            (Param::DoseRatio, dose_ratio),
            (Param::RelativeDoseRatioDeviation, relative_dose_ratio_deviation),
            (Param::Correlation, correlation),
            (Param::CoverageFactor95, coverage_factor_95),
        ]);
    }

    /// Lines of a machine, fitted: what is learned of it makes such lines again, and a fit for another confidence than 95 %
    /// is refused, however its deviations were found.
    #[test]
    fn marks_make_a_calibration(
        (spot, rayleigh, q, z) in (40e-6..200e-6f64, 0.4e-3..2e-3f64, 2.5..8.0f64, -0.2..0.2f64),
        (power, speed, found) in (1.0..50.0f64, 0.05..2.0f64, any::<bool>()),
        confidence in prop_oneof![Just(0.95), 0.6..0.94f64, 0.96..0.999f64],
    ) {
        let places = [-1.5, -1.2, -0.9, -0.6, -0.3, 0.0, 0.3, 0.6, 0.9, 1.2, 1.5];
        let heights = places.map(|u: f64| u * rayleigh);
        let widths = places.map(|u: f64| {
            let growth = 1.0_f64.hypot(u - z);
            spot * growth * ((q / growth).ln() / 2.0).sqrt()
        });
        let deviations = [1e-3 * spot; 11];
        let marks = SeriesMarks {
            heights: &heights,
            widths: &widths,
            deviations: &deviations,
            power_ratios: &[1.0; 11],
        };
        let wavelength = PI * spot * spot / (4.0 * 1.2 * rayleigh);
        let known = SeriesKnown {
            kind: MarkKind::Line,
            wavelength,
            m2: f64::NAN,
            relative_m2_deviation: f64::INFINITY,
            waist_diameter: f64::NAN,
            relative_waist_diameter_deviation: f64::INFINITY,
        };
        let scatter = if found { WidthScatter::Found } else { WidthScatter::Stated };
        let options = MarkFitOptions { outlier_limit: f64::INFINITY, confidence, scatter };
        let fit = fit_mark_widths(&marks, &known, &options, &mut [0.0; 11], &mut [false; 11]).unwrap();
        let lines = MarkedLines { wavelength, focal_length: 50e-3, power, speed };
        let learned = calibration_from_marks(&SeriesFindings::from(&fit), &lines);
        if confidence != 0.95 {
            let refused = learned.unwrap_err();
            prop_assert_eq!((refused.code(), refused.param()), (2, Param::CoverageFactor95));
            return Ok(());
        }
        let learned = learned.unwrap();
        near(learned.focus_z, z * rayleigh, 1e-4 * rayleigh);
        near(learned.focus.waist_diameter, spot, 1e-3 * spot);
        let threshold = learned_threshold(&learned.line).unwrap().threshold;
        let exact = (8.0 / PI).sqrt() * power / (speed * spot * q);
        near(threshold, exact, 2e-3 * exact);
        near(calibrated_set_up(&learned.focus).unwrap().rayleigh_range, rayleigh, 3e-3 * rayleigh);
        // The deviation of the logarithm, as the covariance has it; the range of a bent law is not quite as wide on the
        // whole.
        let (q, relative) = (fit.dose_ratio, learned.line.relative_dose_ratio_deviation);
        near(relative, q.deviation / q.value, 1e-12);
        near((q.greatest / q.least).ln() / (2.0 * fit.range_factor), relative, 0.05 * relative + 1e-12);
    }

    /// What is no number, or beyond its range, is refused by its name, in order.
    #[test]
    fn any_findings_at_all(
        (waist_z, waist_z_deviation) in (value_of(Param::FocusZ), value_of(Param::FocusDeviation)),
        (waist_diameter, waist_diameter_deviation) in
            (value_of(Param::WaistDiameter), value_of(Param::WaistDiameterDeviation)),
        (m2, m2_deviation) in (value_of(Param::MeasuredM2), value_of(Param::M2Deviation)),
        (dose_ratio, deviation) in (value_of(Param::DoseRatio), value_of(Param::RelativeDoseRatioDeviation)),
        correlation in value_of(Param::Correlation),
        (range_factor, degrees_of_freedom) in
            (prop_oneof![2 => Just(NORMAL_FACTOR_95), 1 => Just(2.364_624_251_592_784_4), 1 => wild()], 7..9_u32),
        (wavelength, focal_length) in (value_of(Param::Wavelength), value_of(Param::FocalLength)),
        (power, speed) in (value_of(Param::Power), value_of(Param::Speed)),
    ) {
        let findings = SeriesFindings {
            waist_z,
            waist_z_deviation,
            waist_diameter,
            waist_diameter_deviation,
            m2,
            m2_deviation,
            dose_ratio,
            dose_ratio_deviation: deviation,
            correlation,
            range_factor,
            degrees_of_freedom,
        };
        let lines = MarkedLines { wavelength, focal_length, power, speed };
        let learned = calibration_from_marks(&findings, &lines);
        // t of 95 % for 7 degrees, as printed in tables: 2.3646; none for 8.
        let wrong = range_factor != NORMAL_FACTOR_95 && !(degrees_of_freedom == 7 && range_factor > 2.364_624 && range_factor < 2.364_625);
        if wrong && Param::CoverageFactor95.range().0 <= range_factor && range_factor <= 13.0 {
            prop_assert!(learned.is_err());
            return Ok(());
        }
        let relative = if deviation < 0.0 { deviation } else { deviation / dose_ratio };
        judge(learned.map(|learned| vec![learned.focus_z, learned.line.relative_dose_ratio_deviation]), &[
            (Param::FocusZ, waist_z),
            (Param::FocusDeviation, waist_z_deviation),
            (Param::WaistDiameter, waist_diameter),
            (Param::WaistDiameterDeviation, waist_diameter_deviation),
            (Param::MeasuredM2, m2),
            (Param::M2Deviation, m2_deviation),
            (Param::DoseRatio, dose_ratio),
            (Param::RelativeDoseRatioDeviation, relative),
            (Param::Correlation, correlation),
            (Param::CoverageFactor95, range_factor),
            (Param::Wavelength, wavelength),
            (Param::FocalLength, focal_length),
            (Param::Power, power),
            (Param::Speed, speed),
        ]);
    }

    /// A job of another wavelength is of another machine.
    #[test]
    fn only_the_same_wavelength(calibrated in across(Param::Wavelength), job in wild()) {
        prop_assert_eq!(LearnedFocus::check_same_wavelength(calibrated, calibrated), Ok(calibrated));
        match LearnedFocus::check_same_wavelength(calibrated, job) {
            Ok(same) => prop_assert_eq!((same, job), (calibrated, calibrated)),
            Err(error) => {
                prop_assert_eq!(error.param(), Param::Wavelength);
                prop_assert_eq!(error.code() == 1, !job.is_finite());
            }
        }
    }
}

/// A diverging lens is refused, whatever the rest.
#[test]
fn a_diverging_lens() {
    let learned = LearnedFocus {
        wavelength: 10.6e-6,
        measured_m2: 1.2,
        m2_deviation: 0.05,
        waist_diameter: 95e-6,
        focal_length: -38.1e-3,
        focus_shift: 0.0,
        focus_deviation: 20e-6,
        coverage_factor_95: NORMAL_FACTOR_95,
    };
    let error = calibrated_set_up(&learned).unwrap_err();
    assert_eq!((error.code(), error.param()), (2, Param::FocalLength));
    // So far before the focal point that the waist would be at the lens.
    let at_lens = LearnedFocus { focal_length: 38.1e-3, focus_shift: -38.1e-3, ..learned };
    let error = calibrated_set_up(&at_lens).unwrap_err();
    assert_eq!((error.code(), error.param()), (4, Param::LensToWaist));
}
