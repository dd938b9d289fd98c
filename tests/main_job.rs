//! The main example, run as a person would run it.

use std::path::PathBuf;
use std::process::{Command, Output};
use std::{env, fs};

/// The example's binary, which cargo builds beside this test's.
fn focus_check() -> Command {
    let mut path = env::current_exe().expect("this test runs from a file");
    path.pop(); // the test's own name
    path.pop(); // deps
    path.push("examples");
    path.push(format!("focus_check{}", env::consts::EXE_SUFFIX));
    assert!(
        path.exists(),
        "`cargo test` builds the examples; with `--test main_job` alone, build them first"
    );
    Command::new(path)
}

fn scratch(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
    folder.join(name)
}

const JOB: &str = include_str!("../examples/focus_check/rain_gauge.json");

/// Runs the example on a job with one text replaced by another.
fn run(name: &str, from: &str, to: &str) -> Output {
    assert!(JOB.contains(from), "the example's job no longer holds {from}");
    let job = scratch(&format!("{name}.json"));
    fs::write(&job, JOB.replacen(from, to, 1)).unwrap();
    focus_check().arg(&job).arg(scratch(&format!("{name}.svg"))).output().unwrap()
}

#[test]
fn prints_a_verdict_and_a_picture() {
    let picture = scratch("verdict.svg");
    let _ = fs::remove_file(&picture);
    let output = focus_check().current_dir(env!("CARGO_TARGET_TMPDIR")).output().unwrap();
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).unwrap();
    // The spot by hand: raw Rayleigh range π·7²/(4·1.2·0.0106) = 3025.6 mm; s − f = 761.9 mm;
    // magnification 38.1/√(761.9² + 3025.6²) = 0.012211; spot 7 mm × 0.012211 = 85.5 µm.
    for expected in ["85.5 um", "The finest gap fills at the lowest place.", "highest", "lowest", "holds"] {
        assert!(text.contains(expected), "no {expected:?} in:\n{text}");
    }
    assert!(text.contains("eyewear"), "the cautions are missing");
    let svg = fs::read_to_string(scratch("focus_check.svg")).unwrap();
    for expected in ["<svg", "depth of focus", "surface of the part", "lowest: 243 um, lost"] {
        assert!(svg.contains(expected), "no {expected:?} in the picture");
    }
}

#[test]
fn the_verdict_follows_the_job() {
    let verdict = |name, from, to| {
        let output = run(name, from, to);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    // Focus at mid-height, as the example itself advises.
    let refocused = verdict("refocused", r#""zero""#, r#"{ "away_from_lens": "0.5 mm" }"#);
    assert!(refocused.contains("The detail holds, but part of the surface is outside"), "{refocused}");
    let flat = verdict("flat", "1.2 mm", "0.2 mm");
    assert!(flat.contains("The detail holds, and the whole surface is in focus."), "{flat}");
    let fine = verdict("fine", "80 um", "30 um");
    assert!(fine.contains("too fine for this spot and dose even in perfect focus"), "{fine}");
    assert!(fine.contains("nowhere, not even in focus"), "{fine}");
}

#[test]
fn a_bad_job_is_refused_in_one_line() {
    // (name, what to replace, by what, what the one line must say)
    let cases: &[(&str, &str, &str, &[&str])] = &[
        ("bare", r#""10.6 um""#, "10.6", &["laser.wavelength", "10.6", "\"10.6 um\""]),
        ("unitless", r#""10.6 um""#, r#""10.6""#, &["laser.wavelength", "the unit is missing"]),
        ("angle", r#""10.6 um""#, r#""10.6 mrad""#, &["laser.wavelength", "10.6 mrad", "units: nm, um"]),
        ("metres", r#""10.6 um""#, r#""10.6 mm""#, &["wavelength = 0.0106 m", "from 1e-8 to 0.01 m"]),
        ("nan", r#""10.6 um""#, r#""NaN um""#, &["laser.wavelength", "no number found"]),
        ("width", r#"{ "d4sigma": "7 mm" }"#, r#""7 mm""#, &["raw_beam.waist.width", "by definition"]),
        ("key", "d4sigma", "radius", &["raw_beam.waist.width", "`radius`", "radius_1e2"]),
        ("side", r#""zero""#, r#""0.1 mm""#, &["focus.from_datum", "toward_lens"]),
        ("sign", r#""zero""#, r#"{ "toward_lens": "-0.1 mm" }"#, &["focus.from_datum", "from 0"]),
        ("m2_low", r#""m_squared": 1.2"#, r#""m_squared": 0.9"#, &["M squared = 0.9", "from 1 to 10000"]),
        ("missing", r#""dose_ratio": 2.7"#, r#""dose": 2.7"#, &["`dose`", "dose_ratio"]),
        ("dose", "2.7", "1", &["dose ratio = 1 ", "from 1.000001"]),
        ("lens", "1.5 in", "-1.5 in", &["focal length", "from 1e-5 to 10000 m"]),
        ("drop", "50 %", "150 %", &["irradiance drop = 1.5", "0.999999"]),
        ("short", "1.5 in", "5 mm", &["half angle", "outside the model", "0.3 rad"]),
    ];
    for (name, from, to, expected) in cases {
        let output = run(name, from, to);
        let error = String::from_utf8(output.stderr).unwrap();
        assert!(!output.status.success(), "{name}: exit code 0 for a bad job");
        assert_eq!(error.lines().count(), 1, "{name}: {error}");
        for part in *expected {
            assert!(error.contains(part), "{name}: no {part:?} in {error}");
        }
    }
}

#[test]
fn a_missing_file_or_folder_is_named() {
    let output = focus_check().arg("no such job.json").output().unwrap();
    assert!(!output.status.success());
    assert!(String::from_utf8_lossy(&output.stderr).contains("no such job.json"));

    let job = scratch("plain.json");
    fs::write(&job, JOB).unwrap();
    let picture = scratch("no such folder").join("picture.svg");
    let output = focus_check().arg(&job).arg(&picture).output().unwrap();
    assert!(!output.status.success());
    assert!(String::from_utf8_lossy(&output.stderr).contains("no such folder"));
}
