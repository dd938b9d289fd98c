//! Calibrations as documents, and the jobs that they go into.

use super::{JOB, REAL_JOB, round_trip};
use proptest::prelude::*;
use spotwise::model::learn::NORMAL_FACTOR_95;
use spotwise::units::{inch, m, mm, mm_per_s, nm, um, w};
use spotwise::{
    BeamWidth, CalibratedLine, Calibration, FocusSetting, Job, JobDose, LensCandidate, LensRanking, Offset,
    SetUp, tolerance_stack,
};

const CALIBRATION: &str = r#"{
    "wavelength": "10.6 um",
    "focal_length": "1.5 in",
    "focus_shift": { "away_from_lens": "0.1 mm" },
    "focus": { "toward_lens": "0.15 mm" },
    "focus_deviation": "20 um",
    "waist": { "diameter_1e2": "70 um" },
    "waist_diameter_deviation": "1.5 um",
    "m_squared": 0.97,
    "m_squared_deviation": 0.03,
    "coverage_factor_95": 2.306,
    "line": {
        "power": "18 W",
        "speed": "400 mm/s",
        "dose_ratio": 4.2,
        "relative_deviation": "3 %",
        "correlation": -0.6
    }
}"#;

fn calibration() -> Calibration {
    serde_json::from_str(CALIBRATION).unwrap()
}

#[test]
fn it_is_read_by_its_fields_and_survives() {
    let expected = Calibration {
        wavelength: um(10.6),
        focal_length: inch(1.5),
        focus_shift: Offset::away_from_lens(mm(0.1)).unwrap(),
        focus: Offset::toward_lens(mm(0.15)).unwrap(),
        focus_deviation: um(20.0),
        waist: BeamWidth::from_diameter_1e2(um(70.0)).unwrap(),
        waist_diameter_deviation: um(1.5),
        m_squared: 0.97,
        m_squared_deviation: 0.03,
        coverage_factor_95: 2.306,
        line: Some(CalibratedLine {
            power: w(18.0),
            speed: mm_per_s(400.0),
            dose_ratio: 4.2,
            relative_deviation: 3.0 * 0.01,
            correlation: -0.6,
        }),
    };
    assert_eq!(calibration(), expected);
    assert_eq!(round_trip(&expected), expected);
}

#[test]
fn what_may_be_left_out() {
    let short = CALIBRATION
        .replacen("    \"focus_shift\": { \"away_from_lens\": \"0.1 mm\" },\n", "", 1)
        .replacen("    \"coverage_factor_95\": 2.306,\n", "", 1)
        .replacen(",\n        \"correlation\": -0.6", "", 1);
    let read: Calibration = serde_json::from_str(&short).unwrap();
    assert_eq!((read.focus_shift, read.coverage_factor_95), (Offset::ZERO, NORMAL_FACTOR_95));
    assert_eq!(read.line.unwrap().correlation, 0.0);
    assert_eq!(round_trip(&read), read);
    let (before, _) = short.split_once(",\n    \"line\"").unwrap();
    let beam: Calibration = serde_json::from_str(&format!("{before}}}")).unwrap();
    assert_eq!(beam, Calibration { line: None, ..read });
    assert!(!serde_json::to_string(&beam).unwrap().contains("line"));
    assert_eq!(beam.threshold(), Ok(None));
}

proptest! {
    #[test]
    fn any_calibration_survives(
        (wavelength, waist, focus) in (1e-8..1e-2_f64, 1e-9..10.0_f64, -1e3..1e3_f64),
        (m_squared, deviation, correlation) in (0.01..1e4_f64, 0.0..10.0_f64, -1.0..=1.0_f64),
    ) {
        let line = CalibratedLine { relative_deviation: deviation, correlation, ..calibration().line.unwrap() };
        let it = Calibration {
            wavelength: m(wavelength),
            waist: BeamWidth::from_diameter_1e2(m(waist)).unwrap(),
            focus: Offset::from_z_away_from_lens(m(focus)).unwrap(),
            m_squared,
            m_squared_deviation: deviation,
            line: Some(line),
            ..calibration()
        };
        prop_assert_eq!(round_trip(&it), it);
    }
}

#[test]
fn a_faulty_one_is_refused() {
    for (from, to, expected) in [
        (r#""wavelength": "10.6 um","#, "", "missing field `wavelength`"),
        (r#""focus": { "toward_lens": "0.15 mm" },"#, "", "missing field `focus`"),
        (r#""waist": {"#, r#""spot": {"#, "unknown field `spot`"),
        (r#"{ "diameter_1e2": "70 um" }"#, r#""70 um""#, "expected a beam width by definition"),
        (r#"{ "toward_lens": "0.15 mm" }"#, r#""-0.15 mm""#, "expected an offset by its side"),
        (r#""20 um""#, "20", "expected `focus_deviation` to be a length with its unit"),
        (r#""20 um""#, r#""-1 um""#, "deviation of the height of focus = -1e-6 m is out of range"),
        (r#""1.5 um""#, r#""-1 um""#, "deviation of the waist diameter = -1e-6 m is out of range"),
        (r#""1.5 in""#, r#""-1 in""#, "focal length = -0.0254 m is out of range"),
        ("0.97", "0", "measured M squared = 0 is out of range (must be from 0.01 to 10000)"),
        ("0.03", "-0.03", "deviation of M squared = -0.03 is out of range"),
        ("2.306", "1", "95 % coverage factor = 1 is out of range (must be from 1.9 to 13)"),
        ("4.2", "1", "dose ratio = 1 is out of range"),
        (r#""3 %""#, r#""3 W""#, "a pure number"),
        ("-0.6", "-1.6", "correlation = -1.6 is out of range (must be from -1 to 1)"),
        (r#""18 W""#, "18", "expected `power` to be a power with its unit"),
        (r#""dose_ratio""#, r#""ratio""#, "unknown field `ratio`"),
        (r#""line": {"#, r#""line": ["18 W"], "speed": {"#, "sequence, expected a marked line by its fields"),
    ] {
        assert!(CALIBRATION.contains(from), "{from}");
        let text = CALIBRATION.replacen(from, to, 1);
        let error = serde_json::from_str::<Calibration>(&text).unwrap_err().to_string();
        assert!(error.contains(expected), "{to}: {error}");
    }
    let error = serde_json::from_str::<Calibration>(r#"["10.6 um"]"#).unwrap_err().to_string();
    assert!(error.contains("expected a calibration by its fields: wavelength"), "{error}");
}

/// What depends on several fields is refused when it is used, as of a job.
#[test]
fn a_contradiction_is_refused_when_it_is_used() {
    let job: Job = serde_json::from_str(JOB).unwrap();
    let low: Calibration = serde_json::from_str(&CALIBRATION.replacen("0.97", "0.9", 1)).unwrap();
    let error = job.with_calibration(&low).unwrap_err();
    let message = error.to_string();
    assert!(
        message.starts_with("measured M squared = 0.9 is outside the model (must be from 0.93"),
        "{message}"
    );
    assert!((error.allowed().0 - 0.930_82).abs() < 1e-15); // 1 − 2.306·0.03
    assert_eq!(low.set_up(), Err(error));
    assert_eq!(low.focus_contribution(), Err(error));
    let other = Calibration { wavelength: nm(1064.0), ..calibration() };
    let error = job.with_calibration(&other).unwrap_err().to_string();
    assert!(
        error.starts_with("wavelength = 1.0") && error.contains("(must be from 1.064e-6 to 1.064e-6 m)"),
        "{error}"
    );
}

/// All that a calibration tells takes the place of what the job says, whatever its raw beam, lens and focus; all else
/// stays.
#[test]
fn it_goes_into_any_job() {
    let calibration = calibration();
    for document in [JOB, REAL_JOB.as_str()] {
        let job: Job = serde_json::from_str(document).unwrap();
        let on_machine = job.with_calibration(&calibration).unwrap();
        assert_eq!(round_trip(&on_machine), on_machine);
        let verdict = on_machine.check().unwrap();
        assert!((verdict.focus.spot.diameter_1e2().value / 70e-6 - 1.0).abs() < 1e-14);
        assert!((verdict.focus.focus_shift.z_away_from_lens().value / 0.1e-3 - 1.0).abs() < 1e-12);
        assert_eq!(verdict.focus_from_datum, calibration.focus);
        assert_eq!((on_machine.laser.m_squared, verdict.real), (1.0, None));
        let kept = Job {
            laser: job.laser,
            raw_beam: job.raw_beam,
            lens: job.lens,
            focus: job.focus,
            dose: job.dose,
            ..on_machine
        };
        assert_eq!(kept, job);
        // The dose of a scan gets the threshold, √(8/π)·18/(0.4·70e-6·4.2) J/m²; a ratio stays.
        match (job.dose, on_machine.dose) {
            (JobDose::Scan(planned), JobDose::Scan(scan)) => {
                assert!((scan.threshold.value / 244_250.375_755_979 - 1.0).abs() < 1e-14);
                assert_eq!((scan.power, scan.line_interval), (planned.power, planned.line_interval));
            }
            (planned, kept) => assert_eq!(planned, kept),
        }
        // Without a line the threshold stays as well.
        let beam = Calibration { line: None, ..calibration };
        assert_eq!(job.with_calibration(&beam).unwrap().dose, job.dose);
        // The choice of a lens keeps the raw beam: the lens of the calibration has the measured spot.
        let candidate = LensCandidate { lens: on_machine.lens, working_distance: mm(30.0) };
        let mut rankings = [LensRanking::BLANK];
        let set_up = SetUp { tolerance: mm(0.0), least_clearance: mm(1.0) };
        on_machine.choose_lens(&[candidate], set_up, &mut rankings).unwrap();
        let spot = rankings[0].found.unwrap().spot_in_focus.diameter_1e2();
        assert!((spot.value / 70e-6 - 1.0).abs() < 1e-14);
    }
}

/// The range of the height of focus, ± 2.306·20 µm, in a stack of tolerances; and a focus asked for on top.
#[test]
fn the_height_of_focus_is_used_as_it_is_known() {
    let calibration = calibration();
    let stack = tolerance_stack(&[calibration.focus_contribution().unwrap()], 0.95).unwrap();
    assert!((stack.expanded_half_width.value / (2.306 * 20e-6) - 1.0).abs() < 1e-14);
    assert_eq!(stack.bias, Offset::ZERO);
    let job: Job = serde_json::from_str(JOB).unwrap();
    let asked = FocusSetting::FromDatum(Offset::away_from_lens(mm(0.3)).unwrap());
    let job = Job { focus: asked, ..job.with_calibration(&calibration).unwrap() };
    assert_eq!(job.check().unwrap().focus_from_datum, Offset::away_from_lens(mm(0.3)).unwrap());
}
