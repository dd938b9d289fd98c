//! The example that reads test pieces, run as a person would run it.

use std::path::PathBuf;
use std::process::{Command, Output};
use std::{env, fs};

/// The example's binary, which cargo builds beside this test's.
fn read_test_pieces() -> Command {
    let mut path = env::current_exe().expect("this test runs from a file");
    path.pop(); // the test's own name
    path.pop(); // deps
    path.push("examples");
    path.push(format!("read_test_pieces{}", env::consts::EXE_SUFFIX));
    assert!(
        path.exists(),
        "`cargo test` builds the examples; with `--test test_pieces` alone, build them first"
    );
    Command::new(path)
}

fn scratch(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name)
}

const SERIES: &str = include_str!("../examples/read_test_pieces/rain_gauge_pieces.json");
const READINGS: &str = include_str!("../examples/read_test_pieces/rain_gauge_pieces.csv");

/// Runs the example on this file about a series and these readings.
fn run(name: &str, series: &str, readings: &str) -> Output {
    let (about, csv) = (scratch(&format!("{name}.json")), format!("{name}.csv"));
    fs::write(scratch(&csv), readings).unwrap();
    fs::write(&about, series.replace("rain_gauge_pieces.csv", &csv)).unwrap();
    read_test_pieces().arg(&about).arg(scratch(&format!("{name}.svg"))).output().unwrap()
}

fn said(output: &Output) -> String {
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn refused(output: &Output) -> String {
    assert!(!output.status.success());
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// The embedded series was made from a focus at 0.16 mm, a spot of 91.6 um, a Rayleigh range of 0.527 mm and a dose of
/// 2.9 times the threshold at 10 W, with deviations of 3 um; the ranges that are told hold these.
#[test]
fn the_embedded_series_is_read() {
    let plot = scratch("read_test_pieces.svg");
    let _ = fs::remove_file(&plot);
    let text = said(&read_test_pieces().current_dir(env!("CARGO_TARGET_TMPDIR")).output().unwrap());
    for (name, truth) in [
        ("focus", 0.16),
        ("spot in focus", 91.6),
        ("Rayleigh range", 526.9),
        ("dose/threshold", 2.9),
        ("M2", 1.18),
    ] {
        let line = text.lines().find(|line| line.trim_start().starts_with(name)).expect(name);
        let range = line.split(['(', ')']).nth(1).expect("a range in brackets").replace(" mm", "");
        let (least, greatest) = range.split_once(" to ").expect("two ends");
        let (least, greatest): (f64, f64) = (least.parse().unwrap(), greatest.parse().unwrap());
        assert!(least < truth && truth < greatest, "{line}");
    }
    assert!(text.contains("From the ranks by eye"));
    assert!(text.contains("The suspect line, 108 um wide at 20 W"));
    assert!(text.contains("Lasers blind and burn"));
    let svg = fs::read_to_string(plot).unwrap();
    for expected in ["<svg", "10 W: readings, fit, 95 % band", "focus, and its 95 % range", "sharp"] {
        assert!(svg.contains(expected), "{expected}");
    }
}

/// What it prints for the field "calibration" of a job is one that a job takes.
#[test]
fn the_calibration_is_one_that_jobs_take() {
    let text = said(&run("calibration_pieces", SERIES, READINGS));
    let (_, rest) = text.split_once("of a job:\n").expect("a calibration is printed");
    let (document, _) = rest.split_once("\n}\n").expect("it ends");
    let calibration: spotwise::Calibration = serde_json::from_str(&format!("{document}\n}}")).unwrap();
    let threshold = calibration.threshold().unwrap().expect("lines were marked");
    // sqrt(8/pi)*10/(0.5*91.6e-6*2.9) = 120.1 kJ/m2, of the truth; the range of the series is some 5 %.
    assert!((threshold.threshold.value / 120_150.0 - 1.0).abs() < 0.05);
}

/// Widths of a beam are read as such: a hyperbola of 90 um and 0.5 mm about 0.1 mm, by hand to 0.1 um, with deviations of
/// 0.5 um.
#[test]
fn widths_of_a_beam_are_read() {
    let mut readings = "away from lens (mm),beam width (um),deviation (um)\n".to_owned();
    for step in -6..=6 {
        let z = 0.2 * f64::from(step);
        let width = 90.0 * 1.0_f64.hypot((z - 0.1) / 0.5);
        readings += &format!("{z:.1},{width:.1},0.5\n");
    }
    let text = said(&run("beam_pieces", SERIES, &readings));
    for expected in [
        "From the widths of the beam",
        "0.100 mm away from the lens",
        "spot in focus     90.",
        "Rayleigh range    ",
    ] {
        assert!(text.contains(expected), "{expected}: {text}");
    }
    let svg = fs::read_to_string(scratch("beam_pieces.svg")).unwrap();
    assert!(svg.contains("beam: readings, fit, 95 % band"));
}

/// Of few marks at one power nothing is told but which further ones would.
#[test]
fn a_poor_series_says_what_would_help() {
    let one_power: Vec<&str> = READINGS.lines().filter(|line| !line.contains(",20,")).collect();
    let series = SERIES.replace("    \"m_squared_relative_deviation\": 0.1,\n", "");
    let text = said(&run("one_power_pieces", &series, &one_power.join("\n").replace(",3,", ",9,")));
    assert!(text.contains("The widths of the marks cannot be read") && text.contains("vanish"), "{text}");
}

#[test]
fn what_is_wrong_with_a_file_is_told_by_place() {
    let cases = [
        ("unit", READINGS.replace("(mm)", ""), "must name its unit"),
        (
            "number",
            READINGS.replacen("-1.0,", "one,", 1),
            "line 2, column away from lens: \"one\" is no number of mm",
        ),
        ("blank", READINGS.replacen("-1.0,", ",", 1), "line 2: the height is blank"),
        ("rank", READINGS.replacen(",poor", ",bad", 1), "\"bad\" is not poor, acceptable or sharp"),
        ("column", READINGS.replacen("rank", "colour", 1), "must be one of"),
        ("deviation", READINGS.replacen(",63,3,", ",63,,", 1), "has a width, but no deviation"),
        ("twice", READINGS.replacen("rank", "power (W)", 1), "stands there twice"),
    ];
    for (name, readings, expected) in cases {
        let error = refused(&run(&format!("wrong_{name}_pieces"), SERIES, &readings));
        assert!(error.contains(expected), "{name}: {error}");
    }
    let error = refused(&run("wrong_field_pieces", &SERIES.replace("speed", "sped"), READINGS));
    assert!(error.contains("sped"), "{error}");
    let alone = scratch("alone_pieces.csv");
    fs::write(&alone, READINGS).unwrap();
    let error = refused(&read_test_pieces().arg(&alone).arg(scratch("alone_pieces.svg")).output().unwrap());
    assert!(error.contains("wavelength"), "{error}");
}

/// Readings alone do with a column for the wavelength; what cannot be told is refused, and the rest is told.
#[test]
fn readings_may_stand_alone() {
    let mut lines = READINGS.lines();
    let header = lines.next().unwrap();
    let readings: Vec<String> = lines.map(|line| format!("{line},10.6")).collect();
    let alone = scratch("alone_good_pieces.csv");
    fs::write(&alone, format!("{header},wavelength (um)\n{}\n", readings.join("\n"))).unwrap();
    let output = read_test_pieces().arg(&alone).arg(scratch("alone_good_pieces.svg")).output().unwrap();
    let text = said(&output);
    assert!(
        text.contains("From the widths of the marks") && text.contains("From the ranks by eye"),
        "{text}"
    );
    fs::write(&alone, format!("{header},wavelength (um)\n{}\n", readings[..4].join("\n"))).unwrap();
    let output = read_test_pieces().arg(&alone).arg(scratch("alone_few_pieces.svg")).output().unwrap();
    assert!(said(&output).contains("The widths of the marks cannot be read"));
}
