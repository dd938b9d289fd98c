//! As [`refusal`](super::refusal), for doses, marks, fills, pulses, compensation, text and the fit of test marks:
//! any bits at all neither panic nor get through, no answer holds a NaN, and each refusal names the first input
//! that is outside its range.

use super::given::*;
use super::refusal::{beam, beam_inputs, only_known_codes, told_well, value_of, wild};
use super::refusal_real::{Input, input, inputs_of, judge, or_infinite, within};
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::learn::{ReadingWeights, TestMarks, ThresholdFitOptions, fit_threshold};
use spotwise::model::mark::{
    Blur, CompensationRule, FillQuality, MarkKind, MarkSetting, Material, Response, Scan, Taste, TextGrade,
    TextGrades, Typeface, blur_budget, compensate, connected_speed, crater, detail_exposure,
    dose_over_threshold, dots_per_inch, fill_limits, fill_quality, fill_width, groove, interval_for_ripple,
    line_interval, mark_limits, mark_width, material_mark, offset_for_taste, offset_for_text, pulse_dose,
    pulsed_line, raster_ripple, scan_dose, smallest_text, text_quality, typeface_shares,
};
use spotwise::model::optics::Beam;

fn scan() -> impl Strategy<Value = Scan> {
    (
        value_of(Param::Power),
        value_of(Param::Speed),
        value_of(Param::DiameterAcross),
        value_of(Param::DiameterAlong),
        value_of(Param::LineInterval),
    )
        .prop_map(|(power, speed, diameter_across, diameter_along, line_interval)| Scan {
            power,
            speed,
            diameter_across,
            diameter_along,
            line_interval,
        })
}

fn scan_inputs(scan: &Scan) -> Vec<Input> {
    vec![
        input(Param::Power, scan.power),
        input(Param::Speed, scan.speed),
        input(Param::DiameterAcross, scan.diameter_across),
        input(Param::DiameterAlong, scan.diameter_along),
        input(Param::LineInterval, scan.line_interval),
    ]
}

fn response() -> BoxedStrategy<Response> {
    prop_oneof![
        Just(Response::Coating),
        value_of(Param::PenetrationDepth)
            .prop_map(|penetration_depth| Response::LogarithmicAblation { penetration_depth }),
        value_of(Param::RemovalEnergy).prop_map(|removal_energy| Response::LinearAblation { removal_energy }),
        value_of(Param::Diffusivity).prop_map(|diffusivity| Response::Melt { diffusivity }),
    ]
    .boxed()
}

fn material_inputs(material: &Material) -> Vec<Input> {
    let mut all =
        vec![input(Param::Threshold, material.threshold), input(Param::Incubation, material.incubation)];
    all.extend(match material.response {
        Response::LogarithmicAblation { penetration_depth } => {
            Some(input(Param::PenetrationDepth, penetration_depth))
        }
        Response::LinearAblation { removal_energy } => Some(input(Param::RemovalEnergy, removal_energy)),
        Response::Melt { diffusivity } => Some(input(Param::Diffusivity, diffusivity)),
        _ => None,
    });
    all
}

fn blur() -> impl Strategy<Value = Blur> {
    let spot = (value_of(Param::DiameterAcross), value_of(Param::DiameterAlong), value_of(Param::Speed));
    let part = (value_of(Param::Diffusivity), value_of(Param::Pixel), value_of(Param::JitterDeviation));
    let power = (value_of(Param::RiseTime), value_of(Param::SwitchDelay));
    (spot, part, power).prop_map(
        |((diameter_across, diameter_along, speed), (diffusivity, pixel, jitter_deviation), power)| Blur {
            diameter_across,
            diameter_along,
            speed,
            diffusivity,
            pixel,
            jitter_deviation,
            rise_time: power.0,
            switch_delay: power.1,
        },
    )
}

fn blur_inputs(blur: &Blur) -> Vec<Input> {
    vec![
        input(Param::DiameterAcross, blur.diameter_across),
        input(Param::DiameterAlong, blur.diameter_along),
        input(Param::Speed, blur.speed),
        input(Param::Diffusivity, blur.diffusivity),
        input(Param::Pixel, blur.pixel),
        input(Param::JitterDeviation, blur.jitter_deviation),
        input(Param::RiseTime, blur.rise_time),
        input(Param::SwitchDelay, blur.switch_delay),
    ]
}

fn kind() -> impl Strategy<Value = MarkKind> {
    prop::sample::select(MarkKind::ALL.to_vec())
}

fn taste() -> BoxedStrategy<Taste> {
    prop_oneof![
        Just(Taste::Crispest),
        value_of(Param::LargestEdge).prop_map(|largest_edge| Taste::SmoothestWithin { largest_edge }),
        value_of(Param::CrispnessWeight).prop_map(|crispness_weight| Taste::Compromise { crispness_weight }),
    ]
    .boxed()
}

fn taste_input(taste: Taste) -> Option<Input> {
    match taste {
        Taste::SmoothestWithin { largest_edge } => Some(input(Param::LargestEdge, largest_edge)),
        Taste::Compromise { crispness_weight } => Some(input(Param::CrispnessWeight, crispness_weight)),
        _ => None,
    }
}

fn quality_numbers(quality: &FillQuality) -> Vec<f64> {
    vec![
        quality.offset,
        quality.spot_diameter,
        quality.edge_width,
        quality.ripple_contrast,
        quality.half_angle,
    ]
}

/// A setting whose limits lie about its power and speed, mostly on the right side.
fn setting() -> impl Strategy<Value = MarkSetting> {
    let aside = || prop_oneof![8 => spread(1.0, 100.0), 1 => spread(0.5, 1.0), 1 => wild()];
    let here = (kind(), value_of(Param::DoseRatio), value_of(Param::Power), value_of(Param::Speed));
    (here, aside(), aside(), aside(), value_of(Param::LeastIrradianceRatio)).prop_map(
        |((kind, dose_ratio, power, speed), more, slower, faster, least_irradiance_ratio)| MarkSetting {
            kind,
            dose_ratio,
            power,
            speed,
            greatest_power: power * more,
            least_speed: speed / slower,
            greatest_speed: speed * faster,
            least_irradiance_ratio,
        },
    )
}

fn setting_inputs(setting: &MarkSetting) -> Vec<Input> {
    let (least, _) = Param::LeastSpeed.range();
    let (_, most_power) = Param::GreatestPower.range();
    let (_, fastest) = Param::GreatestSpeed.range();
    vec![
        input(Param::DoseRatio, setting.dose_ratio),
        input(Param::Power, setting.power),
        input(Param::Speed, setting.speed),
        within(Param::GreatestPower, setting.greatest_power, setting.power, most_power),
        within(Param::LeastSpeed, setting.least_speed, least, setting.speed),
        within(Param::GreatestSpeed, setting.greatest_speed, setting.speed, fastest),
        input(Param::LeastIrradianceRatio, setting.least_irradiance_ratio),
    ]
}

fn typeface() -> BoxedStrategy<Typeface> {
    let kinds =
        vec![Typeface::Sans, Typeface::BoldSans, Typeface::LightSans, Typeface::Serif, Typeface::Monospaced];
    let shares = (
        value_of(Param::StemShare),
        value_of(Param::StrokeShare),
        value_of(Param::CounterShare),
        value_of(Param::GapShare),
    );
    prop_oneof![
        prop::sample::select(kinds),
        shares.prop_map(|(stem, effective_stroke, effective_counter, effective_gap)| Typeface::Measured {
            stem,
            effective_stroke,
            effective_counter,
            effective_gap,
        }),
    ]
    .boxed()
}

fn typeface_inputs(typeface: Typeface) -> Vec<Input> {
    match typeface {
        Typeface::Measured { stem, effective_stroke, effective_counter, effective_gap } => vec![
            input(Param::StemShare, stem),
            input(Param::StrokeShare, effective_stroke),
            input(Param::CounterShare, effective_counter),
            input(Param::GapShare, effective_gap),
        ],
        _ => Vec::new(),
    }
}

fn grades() -> impl Strategy<Value = TextGrades> {
    let drawn = (value_of(Param::CrispExposure), value_of(Param::DoseWindow), value_of(Param::DoseWindow));
    let drawn = drawn.prop_map(|(crisp_exposure, good_window, readable_window)| TextGrades {
        crisp_exposure,
        good_window,
        readable_window,
    });
    prop_oneof![drawn, Just(TextGrades::default())]
}

fn text_inputs(dose_ratio: f64, typeface: Typeface, grades: &TextGrades) -> Vec<Input> {
    let mut all = vec![input(Param::DoseRatio, dose_ratio)];
    all.extend(typeface_inputs(typeface));
    all.extend([
        input(Param::CrispExposure, grades.crisp_exposure),
        input(Param::DoseWindow, grades.good_window),
        input(Param::DoseWindow, grades.readable_window),
    ]);
    all
}

/// What a function of a beam checks: the beam, then these.
fn beam_and(beam: &Beam, more: &[Input]) -> Vec<Input> {
    let mut all = inputs_of(beam_inputs(beam));
    all.extend_from_slice(more);
    all
}

/// A fraction of a length that another function gave, mostly below one; now and then anything.
fn share_or_wild() -> BoxedStrategy<(f64, Option<f64>)> {
    (spread(1e-6, 1.5), prop_oneof![6 => Just(None), 1 => wild().prop_map(Some)]).boxed()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn doses(scan in scan(), rate in value_of(Param::RepetitionRate), dose in value_of(Param::Dose), threshold in value_of(Param::Threshold), p in value_of(Param::LineInterval), n in value_of(Param::DotsPerInch)) {
        let mut inputs = scan_inputs(&scan);
        let found = scan_dose(&scan);
        judge(found.map(|d| vec![d.line_dose, d.fill_dose, d.peak_irradiance, d.dwell]), &inputs);
        inputs.push(input(Param::RepetitionRate, rate));
        let pulses = pulse_dose(&scan, rate).map(|p| {
            vec![p.pulse_energy, p.peak_fluence, p.pulse_pitch, p.overlap, p.pulses_per_diameter, p.effective_pulses]
        });
        judge(pulses, &inputs);
        judge(
            dose_over_threshold(dose, threshold).map(|q| vec![q]),
            &[input(Param::Dose, dose), input(Param::Threshold, threshold)],
        );
        // Each takes what the other gives, up to the ends of their ranges.
        judge(line_interval(n).map(|p| vec![p]), &[input(Param::DotsPerInch, n)]);
        judge(dots_per_inch(p).map(|n| vec![n]), &[input(Param::LineInterval, p)]);
    }

    #[test]
    fn materials(threshold in value_of(Param::Threshold), incubation in value_of(Param::Incubation), response in response(), dose in value_of(Param::Dose), n in value_of(Param::Pulses), d in value_of(Param::SpotDiameter), dwell in value_of(Param::Dwell)) {
        let material = Material { threshold, incubation, response };
        let mut inputs = material_inputs(&material);
        inputs.extend([
            input(Param::Dose, dose), input(Param::Pulses, n), input(Param::SpotDiameter, d), input(Param::Dwell, dwell),
        ]);
        let mark = material_mark(&material, dose, n, d, dwell).map(|mark| {
            let mut all = vec![mark.threshold, mark.dose_ratio, mark.seen_diameter];
            if let Response::Coating | Response::Melt { .. } = response {
                // They tell no depth.
                assert!(mark.depth.is_nan());
            } else {
                all.push(mark.depth);
            }
            all
        });
        judge(mark, &inputs);
    }

    #[test]
    fn isolated_marks(beam in beam(), kind in kind(), q in value_of(Param::AnyDoseRatio), z in value_of(Param::ZOffset)) {
        let dose = input(Param::AnyDoseRatio, q);
        let width = mark_width(&beam, kind, q, z).map(|mark| {
            assert!(mark.marks == (mark.width > 0.0) && mark.width >= 0.0);
            vec![mark.width, mark.dose_ratio, mark.spot_diameter, mark.half_angle]
        });
        judge(width, &beam_and(&beam, &[dose, input(Param::ZOffset, z)]));
        let limits = mark_limits(&beam, kind, q).map(|limits| {
            vec![
                limits.width_in_waist, limits.widest_offset, limits.greatest_width, limits.vanishing_offset,
                limits.focus_insensitive_dose_ratio, limits.half_angle,
            ]
        });
        judge(limits, &beam_and(&beam, &[dose]));
    }

    #[test]
    fn fills(beam in beam(), drawn in value_of(Param::DrawnWidth), q in value_of(Param::AnyDoseRatio), z in value_of(Param::ZOffset)) {
        let stroke = [input(Param::DrawnWidth, drawn), input(Param::AnyDoseRatio, q)];
        let width = fill_width(&beam, drawn, q, z).map(|fill| {
            assert!(fill.width >= 0.0 && (fill.marks || fill.width == 0.0));
            vec![fill.width, fill.growth, fill.exposure, fill.spot_diameter, fill.half_angle]
        });
        judge(width, &beam_and(&beam, &[stroke[0], stroke[1], input(Param::ZOffset, z)]));
        let limits = fill_limits(&beam, drawn, q).map(|limits| {
            vec![
                limits.width_in_waist, limits.widest_offset, limits.greatest_width, limits.vanishing_offset,
                limits.half_angle,
            ]
        });
        judge(limits, &beam_and(&beam, &stroke));
    }

    #[test]
    fn rasters(d in value_of(Param::SpotDiameter), p in value_of(Param::LineInterval), r in spread(1e-3, 30.0), near in any::<bool>(), contrast in value_of(Param::RippleContrast), size in value_of(Param::DetailSize), blur in blur()) {
        // Half of them of an interval that makes a fill.
        let p = if near { 0.5 * r * d } else { p };
        let ripple = raster_ripple(d, p).map(|ripple| {
            vec![
                ripple.greatest_over_mean, ripple.least_over_mean, ripple.contrast, ripple.gap_free_dose_ratio,
                ripple.gap_free_dose_ratio_without_memory,
                ripple.interval_over_radius,
            ]
        });
        judge(ripple, &[input(Param::SpotDiameter, d), input(Param::LineInterval, p)]);
        judge(
            interval_for_ripple(d, contrast).map(|p| vec![p]),
            &[input(Param::SpotDiameter, d), input(Param::RippleContrast, contrast)],
        );
        judge(
            detail_exposure(d, size).map(|e| vec![e.bar, e.gap, e.square, e.dot, e.hole]),
            &[input(Param::SpotDiameter, d), input(Param::DetailSize, size)],
        );
        let budget = blur_budget(&blur).map(|b| {
            vec![
                b.dwell, b.diffusion_length, b.diameter_across, b.diameter_along, b.edge_across, b.edge_along,
                b.rise_smear, b.delay_shift, b.two_way_comb,
            ]
        });
        judge(budget, &blur_inputs(&blur));
    }

    #[test]
    fn tastes(beam in beam(), p in value_of(Param::LineInterval), r in spread(1e-3, 30.0), near in any::<bool>(), z in value_of(Param::ZOffset), taste in taste()) {
        let p = if near { 0.5 * r * beam.waist_diameter } else { p };
        let interval = input(Param::LineInterval, p);
        let here = fill_quality(&beam, p, z);
        judge(here.map(|quality| quality_numbers(&quality)), &beam_and(&beam, &[interval, input(Param::ZOffset, z)]));
        let mut inputs = beam_and(&beam, &[interval]);
        inputs.extend(taste_input(taste));
        judge(offset_for_taste(&beam, p, taste).map(|quality| quality_numbers(&quality)), &inputs);
    }

    #[test]
    fn pulses(d in value_of(Param::SpotDiameter), any_q in value_of(Param::AnyDoseRatio), q in value_of(Param::DoseRatio), pitch in value_of(Param::PulsePitch), s in value_of(Param::Incubation), n in value_of(Param::Pulses), depth in value_of(Param::PenetrationDepth), radius in value_of(Param::Radius), rate in value_of(Param::RepetitionRate), part in share_or_wild()) {
        let spot = input(Param::SpotDiameter, d);
        let line = pulsed_line(d, any_q, pitch, s, n).map(|line| {
            assert!(line.marks == (line.dot_diameter > 0.0) && line.scallop <= 0.5 * line.dot_diameter);
            vec![line.threshold_ratio, line.dose_ratio, line.dot_diameter, line.scallop]
        });
        let inputs = [
            spot, input(Param::AnyDoseRatio, any_q), input(Param::PulsePitch, pitch), input(Param::Incubation, s),
            input(Param::Pulses, n),
        ];
        judge(line, &inputs);
        let dug = crater(d, q, depth, radius);
        let mut inputs = vec![spot, input(Param::DoseRatio, q), input(Param::PenetrationDepth, depth)];
        let dot = crater(d, q, 1e-9, 0.0).map_or(1.0, |one| one.diameter);
        let radius_input = input(Param::Radius, radius);
        let crater_inputs = [&inputs[..], &[radius_input]].concat();
        judge(dug.map(|c| vec![c.diameter, c.depth, c.depth_at_radius, c.volume]), &crater_inputs);

        // A pitch and a scallop of about the size of a dot, or anything.
        let (share, anything) = part;
        let pitch = anything.unwrap_or(share * dot);
        // A dot may be smaller than any pitch elsewhere.
        let (least, _) = Param::PulsePitch.range();
        inputs.extend([within(Param::PulsePitch, pitch, least.min(dot), dot), radius_input]);
        let grooved = groove(d, q, depth, pitch, radius);
        judge(grooved.map(|g| vec![g.width, g.depth, g.depth_aside, g.area]), &inputs);
        let scallop = anything.unwrap_or(0.5 * share * dot);
        let (least, _) = Param::Scallop.range();
        let inputs = [
            spot, input(Param::DoseRatio, q), input(Param::RepetitionRate, rate), input(Param::Incubation, s),
            within(Param::Scallop, scallop, least, 0.5 * dot),
        ];
        let fastest = connected_speed(d, q, rate, s, scallop).map(|c| {
            assert!(c.pulses >= 1.0 && (1e-9..=1e4).contains(&c.speed));
            vec![c.pulse_pitch, c.pulses, c.speed]
        });
        judge(fastest, &inputs);
    }

    #[test]
    fn compensations(beam in beam(), z in value_of(Param::ZOffset), rule in prop::sample::select(CompensationRule::ALL.to_vec()), setting in setting()) {
        let mut inputs = beam_and(&beam, &[input(Param::ZOffset, z)]);
        inputs.extend(setting_inputs(&setting));
        let made_up = compensate(&beam, z, rule, &setting).map(|c| {
            vec![
                c.wanted_factor, c.reached_factor, c.power, c.speed, c.irradiance_ratio, c.dose_ratio,
                c.mark_width, c.half_angle,
            ]
        });
        judge(made_up, &inputs);
    }

    #[test]
    fn texts(beam in beam(), d in value_of(Param::SpotDiameter), em in value_of(Param::Em), spots in spread(1.0, 1e5), near in any::<bool>(), grade in prop::sample::select(TextGrade::ALL.to_vec()), q in value_of(Param::DoseRatio), typeface in typeface(), grades in grades()) {
        let shares = typeface_shares(typeface).map(|shares| {
            let of_outlines = [
                shares.cap_height, shares.x_height, shares.digit_height, shares.thinnest_stroke, shares.smallest_counter,
            ];
            // Of a typeface that the user has measured these are not known.
            let measured = matches!(typeface, Typeface::Measured { .. });
            assert!(of_outlines.iter().all(|share| share.is_nan() == measured));
            let mut all = vec![shares.stem, shares.effective_stroke, shares.effective_counter, shares.effective_gap];
            all.extend(of_outlines.into_iter().filter(|_| !measured));
            all
        });
        judge(shares, &typeface_inputs(typeface));

        let of_text = text_inputs(q, typeface, &grades);
        let spot = input(Param::SpotDiameter, d);
        let smallest = smallest_text(d, q, typeface, &grades);
        judge(smallest.map(|t| vec![t.crisp_em, t.good_em, t.readable_em]), &[&[spot], &of_text[..]].concat());

        // Half of them of some spots and more.
        let em = if near { spots * beam.waist_diameter } else { em };
        let size = input(Param::Em, em);
        let quality = text_quality(d, em, q, typeface, &grades).map(|quality| {
            // A gap that nothing can fill is infinite.
            let greatest = [quality.greatest_dose_ratio, quality.greatest_dose_ratio_for_counters];
            assert!(greatest.iter().all(|ratio| *ratio >= 1.0));
            vec![quality.stem_exposure, quality.least_dose_ratio]
        });
        judge(quality, &[&[spot, size], &of_text[..]].concat());

        let offset = offset_for_text(&beam, em, grade, q, typeface, &grades);
        if grade == TextGrade::Lost {
            // Nothing need keep it: the choice itself is refused, before any number.
            let error = offset.unwrap_err();
            prop_assert_eq!((error.code(), error.param(), error.value()), (3, Param::TextGrade, 4.0));
            return Ok(());
        }
        let inputs = [&beam_and(&beam, &[size])[..], &of_text[..]].concat();
        judge(offset.map(|o| vec![o.offset, o.spot_diameter, o.half_angle]), &inputs);
    }

    /// A failed fit leaves no mark used and no residual. The lengths are looked at first, then every dose, every width and every
    /// deviation.
    #[test]
    fn fits(
        marks in prop::collection::vec((value_of(Param::Dose), value_of(Param::MarkWidth), value_of(Param::WidthDeviation)), 0..10),
        by_law in any::<bool>(), limit in prop_oneof![4 => value_of(Param::OutlierLimit), 1 => Just(f64::INFINITY)],
        (refined, confidence) in (any::<bool>(), value_of(Param::Confidence)),
        wrong in prop::sample::select(vec![[0usize; 4], [0; 4], [0; 4], [0; 4], [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]),
    ) {
        let count = marks.len();
        let doses: Vec<_> = marks.iter().map(|mark| mark.0).collect();
        let mut widths: Vec<_> = marks.iter().map(|mark| mark.1).collect();
        let mut deviations: Vec<_> = marks.iter().map(|mark| mark.2).collect();
        if by_law {
            // Marks of one law, each off by up to a few deviations.
            let least = doses.iter().copied().fold(f64::INFINITY, f64::min);
            for (at, (width, deviation)) in widths.iter_mut().zip(&mut deviations).enumerate() {
                *width = 1e-4 * (0.5 * (2.0 * doses[at] / least).ln()).sqrt();
                *deviation = 1e-6 * (1.0 + at as f64);
            }
        }
        widths.extend(vec![1e-4; wrong[0]]);
        deviations.extend(vec![1e-6; wrong[1]]);
        let (mut residuals, mut used) = (vec![7.0; count + wrong[3]], vec![true; count + wrong[2]]);
        let marks = TestMarks { doses: &doses, widths: &widths, deviations: &deviations };
        let weights = if refined { ReadingWeights::Refined } else { ReadingWeights::Measured };
        let options = ThresholdFitOptions { weights, outlier_limit: limit, confidence };
        let fit = fit_threshold(&marks, &options, &mut residuals, &mut used);
        if fit.is_err() {
            prop_assert!(used.iter().all(|used| !used) && residuals.iter().all(|residual| residual.is_nan()));
        } else {
            prop_assert!(residuals.iter().all(|residual| residual.is_finite()));
        }
        if let Some(at) = wrong.iter().position(|more| *more > 0) {
            let error = fit.unwrap_err();
            let param = [Param::Widths, Param::Deviations, Param::Output, Param::Output][at];
            prop_assert_eq!((error.code(), error.param(), error.value()), (6, param, (count + 1) as f64));
            told_well(&error);
            return Ok(());
        }
        if let Err(error) = fit && error.code() == 8 {
            // Marks that are all allowed may yet not tell; the message begins with that.
            let (least, greatest) = error.allowed();
            prop_assert!(error.value() < least && least <= greatest, "{}", error);
            let message = error.to_string();
            prop_assert!(message.contains(error.param().name()) && message.contains("must be"), "{}", message);
            return Ok(());
        }
        let mut inputs: Vec<_> = doses.iter().map(|dose| input(Param::Dose, *dose)).collect();
        inputs.extend(widths.iter().map(|width| input(Param::MarkWidth, *width)));
        inputs.extend(deviations.iter().map(|deviation| input(Param::WidthDeviation, *deviation)));
        inputs.push(or_infinite(Param::OutlierLimit, limit));
        inputs.push(input(Param::Confidence, confidence));
        let found = fit.map(|fit| {
            let kept = used.iter().filter(|used| **used).count();
            assert!(fit.marks_used as usize == kept && kept >= 3 && fit.spot_diameter.value > 0.0);
            let estimates = [fit.spot_diameter, fit.threshold].map(|e| [e.value, e.deviation, e.least, e.greatest, e.bias]);
            let numbers = [fit.correlation, fit.significance, fit.chi_squared, fit.chi_squared_chance, fit.curvature_chance];
            [estimates.as_flattened(), &numbers].concat()
        });
        judge(found, &inputs);
    }

    /// Codes that stand for no choice.
    #[test]
    fn choices(code in prop_oneof![any::<u32>(), 0u32..8], number in wild()) {
        let check = |known, param, result| only_known_codes(code, known, param, result);
        check(2, Param::MarkKind, MarkKind::from_code(code).map(|kind| kind as u32));
        check(4, Param::Response, Response::from_code(code, number, number, number).map(|response| response.code()));
        check(3, Param::Taste, Taste::from_code(code, number, number).map(|taste| taste.code()));
        check(3, Param::CompensationRule, CompensationRule::from_code(code).map(|rule| rule as u32));
        let typeface = Typeface::from_code(code, number, number, number, number);
        check(6, Param::Typeface, typeface.map(|typeface| typeface.code()));
        check(4, Param::TextGrade, TextGrade::from_code(code).map(|grade| grade as u32));
    }
}
