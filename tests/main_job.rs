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
    // From the formulas that the modules of the model document, evaluated with 30 digits apart from
    // this crate: behind the expander the beam has its waist of 9.2508 mm 0.46017 m before the lens and is
    // 9.2858 mm wide there; n = 2.402781; alpha = 0.56880, t = 0.47400, F = 1.11167. The spot by the
    // diffraction integral was summed on a fine grid: 1.1045 times 66.13 um.
    for expected in [
        "9.29 mm",
        "spot, 86.5 % of the power               66.5 um            73.5 um",
        "from the lens to focus                38.122 mm          37.905 mm",
        "Rayleigh range                         0.273 mm           0.300 mm",
        "spot, second moment                     66.5 um            79.5 um",
        "from 68.3 um to 82.2 um",
        "the diffraction integral makes the spot 73.0 um",
        "aberration: 0.57 rad at the 1/e2 radius, normalised 0.47",
        "the aperture is 1.94 times as wide as the beam",
        "An ideal lens would have promised: The detail holds, and the whole surface is in focus.",
        "The finest gap fills at the lowest place.",
        "Take these numbers with caution:",
        "The lens aberrates",
        // By hand: 20 W/(0.5 m/s * 40 um) = 1 J/mm2, over 0.37 J/mm2; sqrt(2/pi)*20/(0.5*36.96 um) for one line.
        "20 W at 0.5 m/s, lines 40.0 um apart (635 to the inch)",
        "1.000 J/mm2; the material marks from 0.37 J/mm2 on",
        "2.70 times what just marks",
        "0.868 J/mm2 on its middle in focus",
        "4.0 point sans that must be good at least",
    ] {
        assert!(text.contains(expected), "no {expected:?} in:\n{text}");
    }
    assert!(text.contains("eyewear"), "the cautions are missing");
    let svg = fs::read_to_string(scratch("focus_check.svg")).unwrap();
    for expected in [
        "<svg",
        "2.70 x the dose that just marks, lines 40.0 um apart",
        "depth of focus",
        "surface of the part",
        "behind an ideal lens",
        "lowest: 131 um, lost",
        "lowest: ripple &lt; 0.01 %, good text from",
    ] {
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
    // Focus at mid-height, as the example itself advises: 37.904 mm less 0.075 mm.
    let refocused = verdict("refocused", r#""38.1 mm""#, r#""37.83 mm""#);
    assert!(refocused.contains("The detail holds, and the whole surface is in focus."), "{refocused}");
    assert!(!refocused.contains("would have promised: The detail holds, and"), "{refocused}");
    let deep = verdict("deep", CRITERION, r#"{ "growth_ratio": 1.01 }"#);
    assert!(deep.contains("lowest place is outside the depth of focus"), "{deep}");
    let fine = verdict("fine", "45 um", "20 um");
    assert!(fine.contains("too fine for this spot and dose even in perfect focus"), "{fine}");
    assert!(fine.contains("nowhere, not even in focus"), "{fine}");
    // By hand: 1.25 J/mm2 asks for more than the 1 J/mm2 of the scan.
    let weak = verdict("weak", "0.37 J/mm2", "1.25 J/mm2");
    assert!(weak.contains("Nothing marks, in focus or out of it."), "{weak}");
    assert!(weak.contains("use more power, less speed or a finer interval"), "{weak}");
    assert!(weak.contains("0.80 times what just marks"), "{weak}");
    let bulk = r#""1.25 J/mm2", "response": { "linear_ablation": { "removal_energy": "3 J/mm3" } }"#;
    let weak = verdict("weak_bulk", r#""0.37 J/mm2""#, bulk);
    assert!(weak.contains("Nothing marks") && !weak.contains("removed to a depth"), "{weak}");
    // A melt at the datum, where the spot is 87.65 um (73.51 um grown over 0.195 mm by a Rayleigh range of 0.3002 mm):
    // c = 32*0.5 mm2/s*0.62666/(500 mm/s) = 20.05 um, and sqrt(87.65*(87.65 + 20.05)) = 97.16 um.
    let melt = r#""0.37 J/mm2", "response": { "melt": { "diffusivity": "0.5 mm2/s" } }"#;
    let melt = verdict("melt", r#""0.37 J/mm2""#, melt);
    assert!(melt.contains("a melt of 0.5 mm2/s: heat makes it see a spot of 97.2 um at the datum"), "{melt}");
    // (1 - 0.37) J/mm2 over 3 J/mm3.
    let bulk = r#""0.37 J/mm2", "response": { "linear_ablation": { "removal_energy": "3 J/mm3" } }"#;
    let bulk = verdict("bulk", r#""0.37 J/mm2""#, bulk);
    assert!(bulk.contains("removed to a depth of 210.0 um"), "{bulk}");
}

const CRITERION: &str = r#"{ "largest_spot": { "diameter_1e2": "105 um" } }"#;

const SINGLET: &str = r#""focal_length": "1.5 in",
        "singlet": { "glass": "zinc selenide", "shape": "curved side first", "clear_aperture": "18 mm" }"#;

#[test]
fn the_verdict_follows_the_lens() {
    let verdict = |name, from, to| {
        let output = run(name, from, to);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    // The same job with its lens taken for ideal, in the words of a document older than real lenses.
    let ideal = verdict("ideal", SINGLET, r#""focal_length": "1.5 in""#);
    assert!(ideal.contains("The detail holds, and the whole surface is in focus."), "{ideal}");
    assert!(ideal.contains("spot in focus     66.5 um"), "{ideal}");
    assert!(!ideal.contains("ideal lens"), "{ideal}");
    let svg = fs::read_to_string(scratch("ideal.svg")).unwrap();
    assert!(!svg.contains("ideal lens"));
    // Its flat side toward the laser: q = -1 gives t = 1.520, out of domain yet not refused.
    let reversed = verdict("reversed", "curved side first", "flat side first");
    assert!(reversed.contains("outside the domain in which their error is known"), "{reversed}");
    assert!(reversed.contains("The lens aberrates too strongly"), "{reversed}");
    // 12 mm of aperture over 9.29 mm of beam: 1.29, below the 1.5 of the closed forms.
    let clipped = verdict("clipped", r#""18 mm""#, r#""12 mm""#);
    assert!(clipped.contains("The aperture clips the beam too strongly"), "{clipped}");
    assert!(clipped.contains("the aperture is 1.29 times as wide"), "{clipped}");
    let unknown = verdict("unknown", r#", "clear_aperture": "18 mm""#, "");
    assert!(unknown.contains("of unknown aperture"), "{unknown}");
    assert!(!unknown.contains("clipping:"), "{unknown}");
}

const SET: &str = r#"{ "lens_to_surface": "38.1 mm" }"#;

#[test]
fn a_bad_job_is_refused_in_one_line() {
    // (name, what to replace, by what, what the one line must say)
    let cases: &[(&str, &str, &str, &[&str])] = &[
        ("bare", r#""10.6 um""#, "10.6", &["laser.wavelength", "10.6", "\"10.6 um\""]),
        ("unitless", r#""10.6 um""#, r#""10.6""#, &["laser.wavelength", "the unit is missing"]),
        ("angle", r#""10.6 um""#, r#""10.6 mrad""#, &["laser.wavelength", "10.6 mrad", "units: nm, um"]),
        ("metres", r#""10.6 um""#, r#""10.6 mm""#, &["wavelength = 0.0106 m", "from 1e-8 to 0.01 m"]),
        ("nan", r#""10.6 um""#, r#""NaN um""#, &["laser.wavelength", "no number found"]),
        ("width", r#"{ "d4sigma": "4.2 mm" }"#, r#""4.2 mm""#, &["raw_beam.expanded.width", "by definition"]),
        ("key", "d4sigma", "radius", &["raw_beam.expanded.width", "`radius`", "radius_1e2"]),
        ("side", SET, r#"{ "from_datum": "0.1 mm" }"#, &["focus.from_datum", "toward_lens"]),
        ("sign", SET, r#"{ "from_datum": { "toward_lens": "-0.1 mm" } }"#, &["focus.from_datum", "from 0"]),
        ("m2_low", r#""m_squared": 1.2"#, r#""m_squared": 0.9"#, &["M squared = 0.9", "from 1 to 10000"]),
        ("missing", "\"dose\"", "\"doses\"", &["`doses`", "`dose`"]),
        ("dose", "0.37 J/mm2", "1e8 J/mm2", &["dose ratio = ", "outside the model", "1e-6"]),
        ("bare_power", r#""20 W""#, "20", &["dose.scan.power", "20", "\"20 W\""]),
        ("power", "20 W", "500 mm/s", &["dose.scan.power", "the unit is not known here", "units: W, mW, kW"]),
        ("speed", "500 mm/s", "500 mm", &["dose.scan.speed", "500 mm", "units: m/s, mm/s"]),
        ("interval", r#"{ "dots_per_inch": 635 }"#, "635", &["line_interval", "50 um", "dots_per_inch"]),
        ("coarse", "635", "20", &["interval over spot radius", "outside the model", "20"]),
        ("dpi", "635", "-635", &["dots_per_inch", "dots per inch = -635", "from 0.0254"]),
        ("size", r#""4 pt""#, r#""4""#, &["text.size", "the unit is missing", "pt"]),
        ("face", r#""sans""#, r#""gothic""#, &["text.typeface", "gothic", "\"serif\""]),
        ("grade", r#""good""#, r#""fair""#, &["text.least_grade", "fair", "\"readable\""]),
        ("lens", "1.5 in", "-1.5 in", &["focal length", "from 1e-5 to 10000 m"]),
        ("drop", CRITERION, r#"{ "irradiance_drop": "150 %" }"#, &["irradiance drop = 1.5", "0.999999"]),
        ("short", "1.5 in", "5 mm", &["half angle", "outside the model", "0.3 rad"]),
        ("glass", "zinc selenide", "glass", &["lens.singlet.glass", "\"glass\"", "\"fused silica\""]),
        ("opaque", "zinc selenide", "fused silica", &["wavelength", "out of range", "e-5 m"]),
        (
            "shape",
            "curved side first",
            "plano-convex",
            &["lens.singlet.shape", "plano-convex", "shape_factor"],
        ),
        ("aperture", r#""18 mm""#, "18", &["lens.singlet.clear_aperture", "18", "38.1 mm"]),
        ("narrow", r#""18 mm""#, r#""1 mm""#, &["clipping ratio", "outside the model", "0.2"]),
        ("thin", "1.5 in", "0.75 in", &["normalised aberration", "outside the model", "1.7"]),
        ("exit", "0.1 1/m", "0.1 m", &["raw_beam.expanded.exit_power", "0.1 m", "units: 1/m"]),
        ("bare_exit", r#""0.1 1/m""#, "0.1", &["raw_beam.expanded.exit_power", "0.2 1/m"]),
        ("before", "before_expander", "before_lens", &["waist_to_expander", "before_expander"]),
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
