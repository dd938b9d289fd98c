//! Units, and jobs and role types as documents: what goes out comes back with the same bits.

use proptest::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use spotwise::text::{
    AngleText, DiffusivityText, DoseText, LengthText, PowerText, ReciprocalLengthText, RemovalEnergyText,
    SpeedText, TypeSizeText, parse_angle, parse_diffusivity, parse_dose, parse_length, parse_number,
    parse_power, parse_reciprocal_length, parse_removal_energy, parse_speed,
};
use spotwise::units::{
    cm, deg, in_per_s, inch, j_per_cm2, j_per_m2, j_per_mm2, kw, m, m_per_min, m_per_s, m2_per_s, mil, mm,
    mm_per_s, mm2_per_s, mrad, mw, nm, per_m, pt, rad, um, w,
};
use spotwise::{
    BeamWidth, Criterion, Divergence, FocusSetting, Glass, Job, JobDose, LensShape, LineInterval, Offset,
    RawBeam, RemovalEnergy, Response, TextGrade, TextGrades, TypeSize, Typeface,
};
use std::sync::LazyLock;

#[path = "documents/calibration.rs"]
mod calibration;

/// A job whose lens is taken for ideal, as documents were before real lenses came.
const JOB: &str = r#"{
    "laser": { "wavelength": "10.6 um", "m_squared": 1.2 },
    "raw_beam": { "waist": { "width": { "d4sigma": "7 mm" }, "position": { "before_lens": "0.8 m" } } },
    "lens": { "focal_length": "1.5 in" },
    "focus": { "from_datum": "zero" },
    "surface": { "rise": "0.2 mm", "fall": "1.2 mm" },
    "depth_criterion": { "irradiance_drop": "50 %" },
    "drawing": { "finest_stroke": "90 um", "finest_gap": "80 um" },
    "dose": { "ratio": 2.7 }
}"#;

/// A job with a real lens behind a beam expander.
const EXAMPLE: &str = include_str!("../examples/focus_check/rain_gauge.json");

/// The example's job without what is the example's own and none of a job, with a surface that reaches as far as its
/// part does with what the set-up adds.
static REAL_JOB: LazyLock<String> = LazyLock::new(|| {
    let set_up = r#"{ "rise": "0.05 mm", "fall": "0.05 mm" }"#;
    assert!(EXAMPLE.contains(set_up));
    let job = ["part", "artwork", "lens_choice"]
        .into_iter()
        .fold(EXAMPLE.to_owned(), |job, section| without(&job, section));
    job.replace(set_up, r#"{ "rise": "0.1 mm", "fall": "0.25 mm" }"#)
});

/// A document without one of its sections, if it has it.
fn without(document: &str, section: &str) -> String {
    let Some((before, rest)) = document.split_once(&format!("    \"{section}\": {{\n")) else {
        return document.to_owned();
    };
    let (_, behind) = rest.split_once("\n    }").unwrap();
    // The last section has no comma behind it, and leaves one before it.
    match behind.strip_prefix(",\n") {
        Some(behind) => before.to_owned() + behind,
        None => before.trim_end().trim_end_matches(',').to_owned() + behind,
    }
}

#[test]
fn text_and_constructors_give_the_same_bits() {
    for number in [1.0, 10.6, 38.1, 1.5, 0.1, 532.0, 1.064, 1e-3, 7.77e5] {
        for (unit, length) in [
            ("nm", nm(number)),
            ("um", um(number)),
            ("\u{b5}m", um(number)),
            ("\u{3bc}m", um(number)),
            ("mm", mm(number)),
            ("cm", cm(number)),
            ("m", m(number)),
            ("in", inch(number)),
            ("inch", inch(number)),
            ("mil", mil(number)),
            ("pt", pt(number)),
        ] {
            for text in
                [format!("{number} {unit}"), format!(" {number}{unit} "), format!("{number:e} {unit}")]
            {
                let parsed = parse_length(&text).unwrap();
                assert_eq!(parsed.to_bits(), length.value.to_bits(), "{text}");
            }
        }
        for text in [format!("{number} 1/m"), format!("{number}/m"), format!(" {number:e} /m ")] {
            let parsed = parse_reciprocal_length(&text).unwrap();
            assert_eq!(parsed.to_bits(), per_m(number).value.to_bits(), "{text}");
        }
        for (unit, angle) in [("rad", rad(number)), ("mrad", mrad(number)), ("deg", deg(number))] {
            let text = format!("{number} {unit}");
            assert_eq!(parse_angle(&text).unwrap().to_bits(), angle.value.to_bits(), "{text}");
        }
        for (unit, power) in [("W", w(number)), ("mW", mw(number)), ("kW", kw(number))] {
            let text = format!("{number} {unit}");
            assert_eq!(parse_power(&text).unwrap().to_bits(), power.value.to_bits(), "{text}");
        }
        for (unit, speed) in [
            ("m/s", m_per_s(number)),
            ("mm/s", mm_per_s(number)),
            ("m/min", m_per_min(number)),
            ("in/s", in_per_s(number)),
        ] {
            let text = format!("{number} {unit}");
            assert_eq!(parse_speed(&text).unwrap().to_bits(), speed.value.to_bits(), "{text}");
        }
        for (unit, dose) in [
            ("J/m2", j_per_m2(number)),
            ("J/cm2", j_per_cm2(number)),
            ("J/mm2", j_per_mm2(number)),
            ("J/m\u{b2}", j_per_m2(number)),
            ("J/cm\u{b2}", j_per_cm2(number)),
            ("J/mm\u{b2}", j_per_mm2(number)),
        ] {
            let text = format!("{number} {unit}");
            assert_eq!(parse_dose(&text).unwrap().to_bits(), dose.value.to_bits(), "{text}");
        }
        for (unit, diffusivity) in [("m2/s", m2_per_s(number)), ("mm\u{b2}/s", mm2_per_s(number))] {
            let text = format!("{number} {unit}");
            assert_eq!(parse_diffusivity(&text).unwrap().to_bits(), diffusivity.value.to_bits(), "{text}");
        }
        for (unit, energy) in [
            ("J/m3", RemovalEnergy::from_j_per_m3(number)),
            ("J/mm\u{b3}", RemovalEnergy::from_j_per_mm3(number)),
        ] {
            let text = format!("{number} {unit}");
            let parsed = parse_removal_energy(&text).unwrap();
            assert_eq!(parsed.to_bits(), energy.in_j_per_m3().to_bits(), "{text}");
        }
    }
}

/// Exact definitions: international inch of 25.4 mm (1959 agreement), point of 1/72 inch
/// (PostScript, CSS), mil of a thousandth of an inch.
#[test]
fn units_have_their_defined_size() {
    let close = |a: f64, b: f64| (a - b).abs() <= 2.0 * f64::EPSILON * b.abs();
    assert!(close(inch(1.0).value, 0.0254));
    assert!(close(mil(1000.0).value, 0.0254));
    assert!(close(pt(72.0).value, 0.0254));
    assert!(close(deg(180.0).value, std::f64::consts::PI));
    assert!(close(m_per_min(60.0).value, 1.0));
    assert!(close(j_per_mm2(1.0).value, j_per_cm2(100.0).value));
    assert!(close(TypeSize::from_points(72.0).unwrap().em().value, inch(1.0).value));
    assert!(close(LineInterval::from_dots_per_inch(254.0).unwrap().length().value, 1e-4));
}

#[test]
fn what_is_not_a_quantity_is_refused() {
    for text in [
        "",
        "mm",
        "10.6",
        "10.6 furlong",
        "NaN mm",
        "inf mm",
        "1e400 mm",
        "1 mm mm",
        "1,5 mm",
        "--1 mm",
        "1 rad",
    ] {
        assert_eq!(parse_length(text).unwrap_err().code(), 7, "{text:?}");
    }
    for text in ["", "0.2", "0.2 m", "1/m 1/m", "0.2 1/mm", "0.2 m^-1", "NaN 1/m", "0.2 1/m 1/m"] {
        assert_eq!(parse_reciprocal_length(text).unwrap_err().code(), 7, "{text:?}");
    }
    assert_eq!(parse_number("2 mm").unwrap_err().code(), 7);
    for text in ["", "20", "20 J", "20 m/s", "20 w", "inf W"] {
        assert_eq!(parse_power(text).unwrap_err().code(), 7, "{text:?}");
    }
    for text in ["", "500", "500 mm", "500 W", "500 mm/min", "NaN m/s"] {
        assert_eq!(parse_speed(text).unwrap_err().code(), 7, "{text:?}");
    }
    for text in ["", "0.3", "0.3 J", "0.3 W/mm2", "0.3 J/mm", "1e400 J/m2"] {
        assert_eq!(parse_dose(text).unwrap_err().code(), 7, "{text:?}");
    }
    assert_eq!(parse_number("20%"), Ok(20.0 * 0.01));
}

proptest! {
    #[test]
    fn any_length_survives_text(bits in any::<u64>()) {
        let length = f64::from_bits(bits);
        prop_assume!(length.is_finite());
        let text = LengthText(length).to_string();
        prop_assert_eq!(parse_length(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = AngleText(length).to_string();
        prop_assert_eq!(parse_angle(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = ReciprocalLengthText(length).to_string();
        prop_assert_eq!(parse_reciprocal_length(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = TypeSizeText(length).to_string();
        prop_assert_eq!(parse_length(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = PowerText(length).to_string();
        prop_assert_eq!(parse_power(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = SpeedText(length).to_string();
        prop_assert_eq!(parse_speed(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = DoseText(length).to_string();
        prop_assert_eq!(parse_dose(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = DiffusivityText(length).to_string();
        prop_assert_eq!(parse_diffusivity(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
        let text = RemovalEnergyText(length).to_string();
        prop_assert_eq!(parse_removal_energy(&text).unwrap().to_bits(), length.to_bits(), "{}", text);
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,12}") {
        let _ = (parse_length(&text), parse_angle(&text), parse_number(&text));
        let _ = (parse_reciprocal_length(&text), parse_power(&text), parse_speed(&text), parse_dose(&text));
    }

    #[test]
    fn role_types_survive_documents(d in 1e-9..10.0_f64, z in -1e3..1e3_f64, angle in 1e-6..0.6_f64) {
        let interval = LineInterval::from_length(m(0.1 * d + 1e-9)).unwrap();
        prop_assert_eq!(round_trip(&interval), interval);
        let size = TypeSize::from_em(m(d)).unwrap();
        prop_assert_eq!(round_trip(&size), size);
        let width = BeamWidth::from_diameter_1e2(m(d)).unwrap();
        prop_assert_eq!(round_trip(&width), width);
        let offset = Offset::from_z_away_from_lens(m(z)).unwrap();
        prop_assert_eq!(round_trip(&offset), offset);
        let divergence = Divergence::from_full_angle(rad(angle)).unwrap();
        prop_assert_eq!(round_trip(&divergence), divergence);
    }
}

fn round_trip<T: Serialize + DeserializeOwned>(value: &T) -> T {
    serde_json::from_str(&serde_json::to_string(value).unwrap()).unwrap()
}

#[test]
fn jobs_survive_documents() {
    let job: Job = serde_json::from_str(JOB).unwrap();
    assert_eq!(round_trip(&job), job);
    for (from, to) in [
        (r#"{ "irradiance_drop": "50 %" }"#, r#""rayleigh""#),
        (r#"{ "irradiance_drop": "50 %" }"#, r#"{ "growth_ratio": 1.05 }"#),
        (r#"{ "irradiance_drop": "50 %" }"#, r#"{ "largest_spot": { "fwhm": "0.1 mm" } }"#),
        (r#"{ "irradiance_drop": "50 %" }"#, r#"{ "line_dose_drop": 0.2 }"#),
        (r#"{ "from_datum": "zero" }"#, r#"{ "lens_to_surface": "38.2 mm" }"#),
        (r#"{ "before_lens": "0.8 m" }"#, r#""at_lens""#),
        (r#"{ "before_lens": "0.8 m" }"#, r#"{ "behind_lens": "3 m" }"#),
    ] {
        assert!(JOB.contains(from));
        let job: Job = serde_json::from_str(&JOB.replacen(from, to, 1)).unwrap();
        assert_eq!(round_trip(&job), job, "{to}");
        job.check().unwrap();
    }
}

#[test]
fn jobs_with_a_real_lens_survive_documents() {
    let singlet = r#"{ "glass": "zinc selenide", "shape": "curved side first", "clear_aperture": "18 mm" }"#;
    for (from, to) in [
        ("1.5 in", "38.1 mm"),
        ("curved side first", "flat side first"),
        ("curved side first", "best form"),
        (r#""curved side first""#, r#"{ "shape_factor": 1.5 }"#),
        ("zinc selenide", "germanium"),
        ("zinc selenide", "gallium arsenide"),
        (r#", "clear_aperture": "18 mm""#, ""),
        (singlet, "null"),
        (r#"{ "before_expander": "0.4 m" }"#, r#""at_expander""#),
        (r#"{ "before_expander": "0.4 m" }"#, r#"{ "behind_expander": "0.3 m" }"#),
        (r#""0.1 1/m""#, r#""-0.05 /m""#),
    ] {
        assert!(REAL_JOB.contains(from), "{from}");
        let job: Job = serde_json::from_str(&REAL_JOB.replacen(from, to, 1)).unwrap();
        assert_eq!(round_trip(&job), job, "{to}");
        job.check().unwrap();
    }
}

#[test]
fn glasses_and_shapes_are_read_by_name() {
    for glass in Glass::ALL {
        assert_eq!(serde_json::to_string(&glass).unwrap(), format!("\"{}\"", glass.name()));
        assert_eq!(round_trip(&glass), glass);
    }
    for shape in [
        LensShape::BestForm,
        LensShape::CurvedSideFirst,
        LensShape::FlatSideFirst,
        LensShape::ShapeFactor { factor: -0.1 },
    ] {
        assert_eq!(round_trip(&shape), shape);
    }
    for refused in [r#""ZnSe""#, r#""Zinc selenide""#, "1", "null", r#"["germanium"]"#, "{}"] {
        let error = serde_json::from_str::<Glass>(refused).unwrap_err().to_string();
        assert!(error.contains("\"sapphire\""), "{error}");
    }
    for refused in [
        r#""plano-convex""#,
        r#""shape_factor""#,
        "1.5",
        "null",
        r#"{ "shape_factor": "1.5 mm" }"#,
        r#"{ "shape_factor": 101 }"#,
        r#"{ "shape_factor": 1, "best form": null }"#,
        r#"{ "best form": 1 }"#,
    ] {
        assert!(serde_json::from_str::<LensShape>(refused).is_err(), "{refused}");
    }
}

#[test]
fn a_faulty_real_lens_is_refused() {
    for (from, to, expected) in [
        (r#""glass": "zinc selenide", "#, "", "missing field `glass`"),
        (r#""shape": "curved side first", "#, "", "missing field `shape`"),
        ("clear_aperture", "aperture", "unknown field `aperture`"),
        (r#""18 mm""#, "18", "expected `clear_aperture` to be a length"),
        (r#""18 mm""#, "null", "expected `clear_aperture` to be a length"),
        (r#""18 mm""#, r#""-20 mm""#, "clear aperture = -0.02 m is out of range"),
        (r#""18 mm""#, r#""inf mm""#, "no number found"),
        (r#""singlet": {"#, r#""doublet": {"#, "unknown field `doublet`"),
        (r#""magnification": 2.1"#, r#""magnification": 0"#, "expander magnification = 0 is out of range"),
        (r#""magnification": 2.1"#, r#""magnification": "2.1 mm""#, "a pure number"),
        (r#""0.1 1/m""#, "0.1", "a reciprocal length with its unit"),
        (r#""0.1 1/m""#, r#""0.1""#, "the unit is missing"),
        (r#""0.1 1/m""#, r#""0.1 mm""#, "the unit is not known here"),
        (r#""0.1 1/m""#, r#""2000 1/m""#, "exit power = 2000 1/m is out of range"),
        (r#""1.4 m""#, r#""-1.4 m""#, "expander to lens = -1.4 m is out of range"),
        (r#"{ "before_expander": "0.4 m" }"#, r#""0.4 m""#, "expected a waist position"),
        (r#""0.4 m""#, r#""-0.4 m""#, "waist to expander = -0.4 m is out of range (must be from 0"),
        (r#"{ "before_expander": "0.4 m" }"#, r#"{ "before_lens": "0.4 m" }"#, "before_expander"),
    ] {
        assert!(REAL_JOB.contains(from), "{from}");
        let error = serde_json::from_str::<Job>(&REAL_JOB.replacen(from, to, 1)).unwrap_err().to_string();
        assert!(error.contains(expected), "{to}: {error}");
    }
}

/// What the ideal lens would have promised stands beside what the real one gives.
#[test]
fn a_verdict_on_a_real_lens_is_written_with_both() {
    let job: Job = serde_json::from_str(&REAL_JOB).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert_eq!(written["outcome"], "lost");
    assert_eq!(written["promised"], "holds");
    assert_eq!(written["level"], "caution");
    assert!(written["cautions"][0].as_str().unwrap().contains("aberrates"));
    // As tests/main_job.rs has them.
    let real = &written["real"];
    let length = |text: &serde_json::Value| parse_length(text.as_str().unwrap()).unwrap();
    assert!((length(&written["focus"]["spot"]["diameter_1e2"]) - 66.49e-6).abs() < 1e-8);
    assert!((length(&real["power86"]["diameter"]) - 73.496e-6).abs() < 1e-8);
    assert!((length(&real["second_moment"]["diameter"]) - 79.51e-6).abs() < 1e-8);
    assert!((length(&real["power86"]["shift"]["toward_lens"]) - 0.21674e-3).abs() < 1e-8);
    assert!((parse_angle(real["aberration_phase"].as_str().unwrap()).unwrap() - 0.56880).abs() < 1e-5);
    assert!((real["normalised_aberration"].as_f64().unwrap() - 0.47400).abs() < 1e-5);
    assert!((real["clipping_ratio"].as_f64().unwrap() - 1.93844).abs() < 1e-5);

    // Without an aperture nothing is clipped, and without a real lens there is nothing to say of it.
    let no_aperture = REAL_JOB.replacen(r#", "clear_aperture": "18 mm""#, "", 1);
    let job: Job = serde_json::from_str(&no_aperture).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert_eq!(written["real"]["clipping_ratio"], serde_json::Value::Null);
    assert_eq!(written["real"]["transmitted"], 1.0);
    let job: Job = serde_json::from_str(JOB).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert_eq!(written["real"], serde_json::Value::Null);
    assert_eq!(written["promised"], written["outcome"]);
    assert_eq!(written["level"], "fine");
}

#[test]
fn widths_are_read_by_definition() {
    let read = |text: &str| serde_json::from_str::<BeamWidth>(text);
    assert_eq!(read(r#"{"radius_1e2": "3.5 mm"}"#).unwrap(), read(r#"{"diameter_1e2": "7 mm"}"#).unwrap());
    assert_eq!(read(r#"{"d4sigma": "7 mm"}"#).unwrap(), read(r#"{"power_86": "7 mm"}"#).unwrap());
    // FWHM = d·√(ln 2/2): 0.5887 of the 1/e² diameter.
    let from_fwhm = read(r#"{"fwhm": "0.588705 mm"}"#).unwrap();
    assert!((from_fwhm.diameter_1e2().value - 1e-3).abs() < 1e-9);
    for refused in ["7", r#""7 mm""#, r#"{"diameter": "7 mm"}"#, r#"{"diameter_1e2": 7}"#, "{}", "null"] {
        assert!(read(refused).is_err(), "{refused}");
    }
}

#[test]
fn a_verdict_is_written_with_units() {
    let job: Job = serde_json::from_str(JOB).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert_eq!(written["outcome"], "lost");
    assert!(written["highest"]["from_waist"]["toward_lens"].as_str().unwrap().ends_with("um"));
    let spot = parse_length(written["focus"]["spot"]["diameter_1e2"].as_str().unwrap()).unwrap();
    // By hand: raw Rayleigh range π·7²/(4·1.2·0.0106) = 3025.6 mm; s − f = 761.9 mm;
    // magnification 38.1/√(761.9² + 3025.6²) = 0.012211; spot 7 mm × 0.012211 = 85.48 µm.
    assert!((spot - 85.48e-6).abs() < 5e-8, "{spot}");
    assert_eq!(written["reasons"].as_array().unwrap().len(), 3);
    assert!(written["reasons"][2].as_str().unwrap().contains("mid-height"));
}

/// A second name contradicts the first, and a list leaves the order to guesswork.
#[test]
fn contradictions_and_lists_are_refused() {
    let json = |text: &str| serde_json::from_str::<BeamWidth>(text).map_err(|error| error.to_string());
    let error = json(r#"{"radius_1e2": "1 mm", "diameter_1e2": "2 mm"}"#).unwrap_err();
    assert!(error.contains("more than one name given"), "{error}");
    // Another format takes another way through serde.
    #[derive(serde::Deserialize, Debug)]
    struct Holder {
        #[allow(dead_code)]
        o: Offset,
    }
    assert!(toml::from_str::<Holder>("[o]\ntoward_lens = '0.1 mm'").is_ok());
    assert!(toml::from_str::<Holder>("[o]\ntoward_lens = '0.1 mm'\naway_from_lens = '0.2 mm'").is_err());

    for (from, to) in [
        (r#"{ "rise": "0.2 mm", "fall": "1.2 mm" }"#, r#"["0.2 mm", "1.2 mm"]"#),
        (r#"{ "wavelength": "10.6 um", "m_squared": 1.2 }"#, r#"["10.6 um", 1.2]"#),
        (r#"{ "focal_length": "1.5 in" }"#, r#"["1.5 in"]"#),
        (r#"{ "finest_stroke": "90 um", "finest_gap": "80 um" }"#, r#"["90 um", "80 um"]"#),
        (r#"{ "focal_length": "1.5 in" }"#, r#"{ "focal_length": "1.5 in", "singlet": ["germanium"] }"#),
    ] {
        assert!(JOB.contains(from), "{from}");
        let error = serde_json::from_str::<Job>(&JOB.replacen(from, to, 1)).unwrap_err().to_string();
        assert!(error.contains("sequence, expected a"), "{error}");
    }
    assert!(serde_json::from_str::<Job>("[]").is_err());
}

/// A beam so wide that the formulas are off by per cents says so wherever its verdict is written.
#[test]
fn a_caution_is_written_with_the_verdict() {
    let wide: Job = serde_json::from_str(&JOB.replacen("7 mm", "20 mm", 1)).unwrap();
    let written = serde_json::to_value(wide.check().unwrap()).unwrap();
    for cautions in [&written["cautions"], &written["focus"]["cautions"], &written["depth"]["cautions"]] {
        assert!(cautions[0].as_str().unwrap().contains("cone is wide"), "{written}");
    }
    // And the number behind the flag stands beside it.
    for half_angle in [&written["focus"]["half_angle"], &written["depth"]["half_angle"]] {
        let number = half_angle.as_str().unwrap().strip_suffix(" mrad").unwrap();
        assert!(number.parse::<f64>().unwrap() > 150.0, "{half_angle}");
    }
    let narrow: Job = serde_json::from_str(JOB).unwrap();
    let written = serde_json::to_value(narrow.check().unwrap()).unwrap();
    assert_eq!(written["cautions"], serde_json::json!([]));
}

#[test]
fn a_choice_is_spelt_out() {
    assert!(serde_json::from_str::<Criterion>(r#"{"drop": 0.2}"#).is_err());
    assert!(serde_json::from_str::<FocusSetting>(r#"{"from_datum": {"up": "1 mm"}}"#).is_err());
    assert!(serde_json::from_str::<RawBeam>(r#"{"waist": {"width": {"d4sigma": "7 mm"}}}"#).is_err());
}

const SCAN: &str = r#"{
        "scan": {
            "power": "20 W",
            "speed": "500 mm/s",
            "line_interval": { "dots_per_inch": 635 },
            "threshold": "0.37 J/mm2"
        }
    }"#;
const TEXT: &str = r#"{ "typeface": "sans", "size": "4 pt", "least_grade": "good" }"#;

#[test]
fn jobs_with_a_scan_and_a_text_survive_documents() {
    let measured = r#"{ "measured": { "stem": 0.08, "effective_stroke": "9 %", "effective_counter": 0.14, "effective_gap": 0.13 } }"#;
    for (from, to) in [
        (SCAN, r#"{ "ratio": 2.7 }"#),
        (r#"{ "dots_per_inch": 635 }"#, r#""40 um""#),
        ("20 W", "0.02 kW"),
        ("500 mm/s", "30 m/min"),
        ("0.37 J/mm2", "37 J/cm2"),
        (TEXT, "null"),
        ("4 pt", "1.4 mm"),
        (r#""sans""#, r#""bold sans""#),
        (r#""sans""#, r#""light sans""#),
        (r#""sans""#, r#""serif""#),
        (r#""sans""#, r#""monospaced""#),
        (r#""sans""#, measured),
        (r#""good""#, r#""crisp""#),
        (r#""good""#, r#""readable""#),
        (r#""good""#, r#""lost""#),
        (r#""good""#, r#""good", "grades": { "good_window": 3 }"#),
        (r#""good""#, r#""good", "grades": {}"#),
    ] {
        assert!(REAL_JOB.contains(from), "{from}");
        let job: Job = serde_json::from_str(&REAL_JOB.replacen(from, to, 1)).unwrap();
        assert_eq!(round_trip(&job), job, "{to}");
        job.check().unwrap();
    }
    // What is left out of the grades keeps its default.
    let moved = REAL_JOB.replacen(
        r#""good""#,
        r#""good", "grades": { "good_window": 3, "crisp_exposure": "99 %" }"#,
        1,
    );
    let job: Job = serde_json::from_str(&moved).unwrap();
    let grades = job.text.unwrap().grades;
    assert_eq!(grades.good_window, 3.0);
    assert_eq!(grades.crisp_exposure, 99.0 * 0.01);
    assert_eq!(grades.readable_window, TextGrades::default().readable_window);
    // Two ways to write one interval.
    let by_length: Job =
        serde_json::from_str(&REAL_JOB.replacen(r#"{ "dots_per_inch": 635 }"#, r#""40 um""#, 1)).unwrap();
    let by_number: Job = serde_json::from_str(&REAL_JOB).unwrap();
    let interval = |job: &Job| match job.dose {
        JobDose::Scan(scan) => scan.line_interval.length().value,
        _ => panic!("{:?}", job.dose),
    };
    assert!((interval(&by_length) - interval(&by_number)).abs() < 1e-19);
}

/// A response is read and written by name, with its unit, and a coating may be left out.
#[test]
fn responses_are_read_by_name() {
    let job = |response: &str| -> Job {
        let scan = r#""0.37 J/mm2", "response": "#.to_owned() + response;
        serde_json::from_str(&REAL_JOB.replacen(r#""0.37 J/mm2""#, &scan, 1)).unwrap()
    };
    let answer = |job: Job| match job.dose {
        JobDose::Scan(scan) => scan.response,
        _ => panic!("{:?}", job.dose),
    };
    let plain: Job = serde_json::from_str(&REAL_JOB).unwrap();
    assert_eq!(answer(plain), Response::Coating);
    assert_eq!(answer(job(r#""coating""#)), Response::Coating);
    let melt = job(r#"{ "melt": { "diffusivity": "0.11 mm2/s" } }"#);
    assert_eq!(answer(melt), Response::Melt { diffusivity: mm2_per_s(0.11) });
    let linear = job(r#"{ "linear_ablation": { "removal_energy": "3 J/mm3" } }"#);
    assert_eq!(
        answer(linear),
        Response::LinearAblation { removal_energy: RemovalEnergy::from_j_per_mm3(3.0) }
    );
    let logarithmic = job(r#"{ "logarithmic_ablation": { "penetration_depth": "2 um" } }"#);
    assert_eq!(answer(logarithmic), Response::LogarithmicAblation { penetration_depth: um(2.0) });
    for job in [plain, melt, linear, logarithmic] {
        assert_eq!(round_trip(&job), job);
    }
    for (text, written) in [("0.11 mm²/s", "0.11 mm2/s"), ("0.000003 m2/s", "3 mm2/s")] {
        assert_eq!(DiffusivityText(parse_diffusivity(text).unwrap()).to_string(), written);
    }
    for (text, written) in [("3 J/mm³", "3 J/mm3"), ("20 J/cm3", "0.02 J/mm3"), ("5 J/m3", "5 J/m3")] {
        assert_eq!(RemovalEnergyText(parse_removal_energy(text).unwrap()).to_string(), written);
    }
    // By hand: (1 - 0.37) J/mm2 over 3 J/mm3 is 0.21 mm.
    let written = serde_json::to_value(linear.check().unwrap()).unwrap();
    assert!((parse_length(written["fill_depth"].as_str().unwrap()).unwrap() - 0.21e-3).abs() < 1e-15);
}

/// A dose too weak to mark is a finding, and what there is none of is null.
#[test]
fn a_weak_job_is_written_without_details() {
    let job: Job = serde_json::from_str(&REAL_JOB.replacen("0.37 J/mm2", "1.25 J/mm2", 1)).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert_eq!(written["outcome"], "nothing marks");
    assert!(written["reasons"].to_string().contains("more power"), "{}", written["reasons"]);
    assert_eq!(written["lowest"]["text_grade"], "lost");
    for nothing in ["smallest_stroke", "smallest_gap", "smallest_dot_diameter", "smallest_text"] {
        assert_eq!(written["lowest"][nothing], serde_json::Value::Null);
    }
}

#[test]
fn a_faulty_dose_or_text_is_refused() {
    for (from, to, expected) in [
        (SCAN, "2.7", "expected a dose: {\"ratio\": 2.7}"),
        (SCAN, r#"{ "ratio": "2.7 mm" }"#, "a pure number"),
        (SCAN, r#"{ "ratio": 1e-7 }"#, "dose ratio = 1e-7 is out of range"),
        (SCAN, r#"{ "ratio": 2.7, "scan": {} }"#, "more than one name given"),
        (SCAN, r#"{ "scan": ["20 W", "500 mm/s", "40 um", "0.37 J/mm2"] }"#, "sequence, expected a scan"),
        (r#""power": "20 W","#, "", "missing field `power`"),
        (r#""power""#, r#""energy""#, "unknown field `energy`"),
        (r#""20 W""#, "20", "expected `power` to be a power with its unit"),
        (r#""20 W""#, r#""0 W""#, "power = 0 W is out of range"),
        (r#""500 mm/s""#, r#""-500 mm/s""#, "speed = -0.5 m/s is out of range"),
        (r#""0.37 J/mm2""#, r#""0.37 J""#, "the unit is not known here"),
        (r#""0.37 J/mm2""#, r#""0.37 J/mm2", "response": "paint""#, "expected how the material answers"),
        (r#""0.37 J/mm2""#, r#""0.37 J/mm2", "response": { "melt": {} }"#, "missing field `diffusivity`"),
        (
            r#""0.37 J/mm2""#,
            r#""0.37 J/mm2", "response": { "melt": { "diffusivity": 0.1 } }"#,
            "expected `diffusivity` to be a thermal diffusivity with its unit",
        ),
        (
            r#""0.37 J/mm2""#,
            r#""0.37 J/mm2", "response": { "melt": { "diffusivity": "-1 mm2/s" } }"#,
            "thermal diffusivity = -1e-6 m^2/s is out of range",
        ),
        (
            r#""0.37 J/mm2""#,
            r#""0.37 J/mm2", "response": { "linear_ablation": { "removal_energy": "3 J/mm2" } }"#,
            "the unit is not known here; give a removal energy with its unit",
        ),
        (
            r#""0.37 J/mm2""#,
            r#""0.37 J/mm2", "response": { "logarithmic_ablation": { "penetration_depth": "0 um" } }"#,
            "penetration depth = 0 m is out of range",
        ),
        (r#"{ "dots_per_inch": 635 }"#, "635", "expected `line_interval` to be a length with its unit"),
        (r#"{ "dots_per_inch": 635 }"#, r#""0 um""#, "line interval = 0 m is out of range"),
        (r#"{ "dots_per_inch": 635 }"#, r#"{ "dots_per_inch": 0 }"#, "dots per inch = 0 is out of range"),
        (r#"{ "dots_per_inch": 635 }"#, r#"{ "dots_per_mm": 25 }"#, "unknown field `dots_per_mm`"),
        (r#"{ "dots_per_inch": 635 }"#, r#"{ "dots_per_inch": "635 um" }"#, "a pure number"),
        (TEXT, r#"["sans", "4 pt", "good"]"#, "sequence, expected a text by its fields"),
        (r#""4 pt""#, "4", "expected `size` to be a length with its unit"),
        (r#""4 pt""#, r#""0 pt""#, "em = 0 m is out of range"),
        (r#""sans""#, r#""measured""#, "expected a typeface"),
        (r#""sans""#, r#"{ "measured": { "stem": 0.08 } }"#, "missing field `effective_stroke`"),
        (r#""sans""#, r#"{ "sans": null, "serif": null }"#, "more than one name given"),
        (r#""good""#, "2", "expected a grade of text"),
        (r#""good""#, r#""good", "grades": [0.98, 2, 1.1]"#, "sequence, expected cut-offs by their fields"),
        (r#""good""#, r#""good", "grades": { "good": 2 }"#, "unknown field `good`"),
        (r#""good""#, r#""good", "grades": { "good_window": 0.5 }"#, "dose window = 0.5 is out of range"),
    ] {
        assert!(REAL_JOB.contains(from), "{from}");
        let error = serde_json::from_str::<Job>(&REAL_JOB.replacen(from, to, 1)).unwrap_err().to_string();
        assert!(error.contains(expected), "{to}: {error}");
    }
}

#[test]
fn typefaces_and_grades_are_read_by_name() {
    for typeface in
        [Typeface::Sans, Typeface::BoldSans, Typeface::LightSans, Typeface::Serif, Typeface::Monospaced]
    {
        assert_eq!(serde_json::to_string(&typeface).unwrap(), format!("\"{}\"", typeface.name()));
        assert_eq!(round_trip(&typeface), typeface);
    }
    for grade in TextGrade::ALL {
        assert_eq!(serde_json::to_string(&grade).unwrap(), format!("\"{}\"", grade.name()));
        assert_eq!(round_trip(&grade), grade);
    }
    assert_eq!(round_trip(&TextGrades::default()), TextGrades::default());
    // Sizes are written in points where points have the same bits.
    assert_eq!(serde_json::to_string(&TypeSize::from_points(4.0).unwrap()).unwrap(), "\"4 pt\"");
}

/// By hand: 20 W over 0.5 m/s and 40 um is 1 J/mm2. The rest of the verdict is as tests/main_job.rs has it.
#[test]
fn a_verdict_on_a_scan_is_written_with_units() {
    let job: Job = serde_json::from_str(&REAL_JOB).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert!((parse_dose(written["scan"]["fill_dose"].as_str().unwrap()).unwrap() - 1e6).abs() < 1e-6);
    assert!((parse_dose(written["scan"]["line_dose"].as_str().unwrap()).unwrap() - 0.8685e6).abs() < 100.0);
    assert!(written["scan"]["peak_irradiance"].as_str().unwrap().ends_with(" W/m2"));
    assert!(written["scan"]["dwell"].as_str().unwrap().ends_with(" s"));
    assert!((written["dose_ratio"].as_f64().unwrap() - 1.0 / 0.37).abs() < 1e-12);
    let lowest = &written["lowest"];
    assert!(lowest["ripple_contrast"].as_f64().unwrap() < 1e-4);
    assert_eq!(lowest["text_grade"], "good");
    let good = parse_length(lowest["smallest_text"]["good"].as_str().unwrap()).unwrap();
    assert!(good > 0.0 && good <= pt(4.0).value);
    assert!(written["text_range"]["full"].as_str().is_some());

    assert_eq!(written["fill_depth"], serde_json::Value::Null, "a coating tells no depth");

    // A job without scan and text says nothing of them.
    let job: Job = serde_json::from_str(JOB).unwrap();
    let written = serde_json::to_value(job.check().unwrap()).unwrap();
    assert_eq!(written["dose_ratio"], 2.7);
    for nothing in [
        &written["scan"],
        &written["text_range"],
        &written["datum"]["ripple_contrast"],
        &written["datum"]["smallest_text"],
        &written["datum"]["text_grade"],
    ] {
        assert_eq!(*nothing, serde_json::Value::Null);
    }
}
