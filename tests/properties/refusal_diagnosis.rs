//! As [`refusal`](super::refusal), for focus or power: any bits at all neither panic nor get through, no answer holds a NaN where it
//! holds a number, and each refusal names the first input that is outside its range.

use super::given::*;
use super::refusal::{beam, beam_inputs, only_known_codes, told_well, value_of, wild};
use super::refusal_real::{Input, input, inputs_of, judge, within};
use proptest::prelude::*;
use spotwise::model::learn::{
    DepthLaw, DepthReading, GoodMark, HeightReadings, HeightVerdict, PossibleHeight, PossiblePower,
    PowerStep, diagnose_mark, diagnose_width, settle_by_heights, settle_by_patch, settle_by_power,
};
use spotwise::model::mark::MarkKind;
use spotwise::{Error, Param};

/// A measure and its deviation, mostly a share of it.
fn measured(param: Param, ordinary: f64) -> impl Strategy<Value = (f64, f64)> {
    let value = prop_oneof![3 => spread(0.3 * ordinary, 3.0 * ordinary), 1 => value_of(param)];
    let share = prop_oneof![12 => spread(1e-4, 0.29), 1 => spread(0.29, 0.31)];
    (value, share, prop_oneof![16 => Just(None), 1 => wild().prop_map(Some)])
        .prop_map(|(value, share, given)| (value, given.unwrap_or(share * value)))
}

fn width() -> impl Strategy<Value = (f64, f64)> {
    measured(Param::MarkWidth, 80e-6)
}

fn measured_inputs(measure: Param, deviation: Param, (value, its): (f64, f64)) -> [Input; 2] {
    let (least, greatest) = deviation.range();
    [input(measure, value), within(deviation, its, least, greatest.min(0.3 * value))]
}

fn width_inputs(width: (f64, f64)) -> [Input; 2] {
    measured_inputs(Param::MarkWidth, Param::WidthDeviation, width)
}

/// A dose ratio and its deviation.
fn dose() -> impl Strategy<Value = (f64, f64)> {
    let dose = prop_oneof![3 => spread(1.05, 50.0), 1 => value_of(Param::DoseRatio)];
    let share = prop_oneof![2 => Just(0.0), 12 => spread(1e-3, 0.29), 1 => spread(0.3001, 0.4)];
    (dose, share, prop_oneof![16 => Just(None), 1 => wild().prop_map(Some)])
        .prop_map(|(dose, share, given)| (dose, given.unwrap_or(share * dose.ln())))
}

fn dose_inputs((dose, its): (f64, f64)) -> [Input; 2] {
    let greatest = (0.3 * dose.ln()).min(1.0);
    [input(Param::DoseRatio, dose), within(Param::DoseRatioDeviation, its, 0.0, greatest)]
}

fn kind() -> impl Strategy<Value = MarkKind> {
    prop::sample::select(MarkKind::ALL.to_vec())
}

fn law() -> impl Strategy<Value = DepthLaw> {
    prop::sample::select(DepthLaw::ALL.to_vec())
}

fn good() -> impl Strategy<Value = (GoodMark, Vec<Input>)> {
    (kind(), dose(), width()).prop_map(|(kind, dose, width)| {
        let good = GoodMark {
            kind,
            dose_ratio: dose.0,
            dose_ratio_deviation: dose.1,
            width: width.0,
            width_deviation: width.1,
        };
        (good, [dose_inputs(dose), width_inputs(width)].concat())
    })
}

fn depths() -> impl Strategy<Value = (DepthReading, Vec<Input>)> {
    let depth = || measured(Param::MarkDepth, 40.0);
    (law(), depth(), depth()).prop_map(|(law, good, now)| {
        let reading = DepthReading {
            law,
            good_depth: good.0,
            good_depth_deviation: good.1,
            depth: now.0,
            depth_deviation: now.1,
        };
        let inputs = |depth| measured_inputs(Param::MarkDepth, Param::DepthDeviation, depth);
        (reading, [inputs(good), inputs(now)].concat())
    })
}

fn coverage() -> impl Strategy<Value = f64> {
    prop_oneof![3 => 0.5..0.999_f64, 1 => value_of(Param::CoverageProbability)]
}

fn height(found: Option<PossibleHeight>) -> Vec<f64> {
    let Some(found) = found else { return Vec::new() };
    assert!(found.least_offset <= found.offset && found.offset <= found.greatest_offset, "{found:?}");
    assert!(found.growth >= 1.0, "{found:?}");
    vec![found.growth, found.offset, found.least_offset, found.greatest_offset]
}

fn power(found: PossiblePower) -> Vec<f64> {
    assert!(found.least <= found.ratio && found.ratio <= found.greatest, "{found:?}");
    vec![found.ratio, found.least, found.greatest]
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn marks(beam in beam(), (good, of_good) in good(), (depths, of_depths) in depths(), now in width(), p in coverage()) {
        let last = [input(Param::CoverageProbability, p)];
        let inputs =
            [&inputs_of(beam_inputs(&beam))[..], &of_good, &of_depths, &width_inputs(now), &last].concat();
        let found = diagnose_mark(&beam, &good, &depths, now.0, now.1, p).map(|d| {
            vec![
                d.growth, d.growth_deviation, d.offset, d.least_offset, d.greatest_offset, d.power_ratio,
                d.power_ratio_deviation, d.least_power_ratio, d.greatest_power_ratio, d.correlation, d.dose_ratio,
                d.half_angle,
            ]
        });
        judge(found, &inputs);
    }

    #[test]
    fn widths(beam in beam(), (good, of_good) in good(), now in width(), p in coverage()) {
        let last = [input(Param::CoverageProbability, p)];
        let inputs = [&inputs_of(beam_inputs(&beam))[..], &of_good, &width_inputs(now), &last].concat();
        let found = diagnose_width(&beam, &good, now.0, now.1, p)
            .map(|d| [height(d.near), height(d.far), d.power.map_or(Vec::new(), power), vec![d.half_angle]].concat());
        judge(found, &inputs);
    }

    #[test]
    fn patches(
        beam in beam(),
        (good, of_good) in good(),
        (patch, of_patch) in depths(),
        (now, p) in (width(), coverage()),
        patch_dose in prop_oneof![3 => spread(1.05, 50.0), 1 => value_of(Param::DoseRatio)],
    ) {
        let last = [input(Param::CoverageProbability, p)];
        let patch_input = [input(Param::DoseRatio, patch_dose)];
        let inputs = [
            &inputs_of(beam_inputs(&beam))[..], &of_good, &of_patch, &patch_input, &width_inputs(now), &last,
        ]
        .concat();
        let found = settle_by_patch(&beam, &good, &patch, patch_dose, now.0, now.1, p)
            .map(|d| [height(d.near), height(d.far), power(d.power), vec![d.half_angle]].concat());
        judge(found, &inputs);
    }

    #[test]
    fn power_steps(
        beam in beam(),
        (kind, dose) in (kind(), dose()),
        power_step in value_of(Param::PowerStep),
        (first, stepped, p) in (width(), width(), coverage()),
    ) {
        let step = PowerStep {
            kind,
            dose_ratio: dose.0,
            dose_ratio_deviation: dose.1,
            power_step,
            width: first.0,
            width_deviation: first.1,
            stepped_width: stepped.0,
            stepped_width_deviation: stepped.1,
        };
        let inputs = [
            &inputs_of(beam_inputs(&beam))[..],
            &dose_inputs(dose),
            &[input(Param::PowerStep, power_step)],
            &width_inputs(first),
            &width_inputs(stepped),
            &[input(Param::CoverageProbability, p)],
        ]
        .concat();
        match settle_by_power(&beam, &step, p) {
            Err(error @ Error::Undetermined { param, .. }) => {
                prop_assert_eq!(param, Param::Significance);
                prop_assert!(inputs.iter().all(Input::is_allowed) && error.value() < 3.0, "{error}");
            }
            found => judge(
                found.map(|d| {
                    let plain = vec![
                        d.spot_diameter, d.spot_diameter_deviation, d.growth, d.offset, d.least_offset,
                        d.greatest_offset, d.dose_ratio, d.half_angle,
                    ];
                    [plain, power(d.power)].concat()
                }),
                &inputs,
            ),
        }
    }

    #[test]
    fn heights(
        beam in beam(),
        (kind, law, height_step) in (kind(), law(), value_of(Param::HeightStep)),
        (a, b, c) in (value_of(Param::MarkDepth), value_of(Param::MarkDepth), value_of(Param::MarkDepth)),
        close in any::<bool>(),
        (deviation, p) in (value_of(Param::DepthDeviation), coverage()),
    ) {
        // Readings over the whole range are seldom alike; half of them are.
        let (a, c) = if close { (0.9 * b, 0.8 * b) } else { (a, c) };
        let readings =
            HeightReadings { kind, law, height_step, toward_lens: a, middle: b, away_from_lens: c, deviation };
        let more = [
            input(Param::HeightStep, height_step),
            input(Param::MarkDepth, a),
            input(Param::MarkDepth, b),
            input(Param::MarkDepth, c),
            input(Param::DepthDeviation, deviation),
            input(Param::CoverageProbability, p),
        ];
        let inputs = [&inputs_of(beam_inputs(&beam))[..], &more].concat();
        let found = settle_by_heights(&beam, &readings, p).map(|d| {
            let places = [d.z_offset, d.z_offset_deviation, d.least_z_offset, d.greatest_z_offset];
            assert_eq!(places.iter().all(Option::is_some), d.verdict == HeightVerdict::FocusWithin);
            assert!(d.z_offset.is_none_or(|z| z.abs() <= 0.5 * height_step * (1.0 + 1e-12)), "{d:?}");
            [places.into_iter().flatten().collect(), vec![d.half_angle]].concat()
        });
        judge(found, &inputs);
    }

    #[test]
    fn laws(code in prop_oneof![any::<u32>(), 0u32..8]) {
        only_known_codes(code, 2, Param::DepthLaw, DepthLaw::from_code(code).map(|law| law as u32));
    }

    /// Infinite and missing deviations by name, not as a doubt that covers everything.
    #[test]
    fn deviations(bad in prop::sample::select(vec![f64::NAN, f64::INFINITY, 0.0, -1e-6, 30e-6])) {
        let beam = spotwise::model::optics::Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
        let good = GoodMark {
            kind: MarkKind::Line, dose_ratio: 4.0, dose_ratio_deviation: 0.0, width: 73e-6, width_deviation: 1e-6,
        };
        let error = diagnose_width(&beam, &good, 80e-6, bad, 0.95).unwrap_err();
        prop_assert_eq!(error.param(), Param::WidthDeviation);
        told_well(&error);
    }
}
