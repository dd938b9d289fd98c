//! The main example, run as a person would run it.

use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::Once;
use std::{env, fs};

#[path = "main_job/artwork.rs"]
mod artwork;

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

const PROBES: &str = include_str!("../examples/focus_check/rain_gauge_probes.csv");

/// A job without its drawing, which takes by far most of the time.
fn without_artwork(job: &str) -> String {
    let start = job.find("    \"artwork\"").expect("the example's job names a drawing");
    let end = start + job[start..].find("\n    },\n").expect("its section ends") + "\n    },\n".len();
    job[..start].to_owned() + &job[end..]
}

/// Runs the example on a job with one text replaced by another.
fn run(name: &str, from: &str, to: &str) -> Output {
    run_with(name, &[(from, to)])
}

/// Runs the example on a job with some texts replaced by others.
fn run_with(name: &str, changes: &[(&str, &str)]) -> Output {
    let mut text = JOB.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "the example's job no longer holds {from}");
        text = text.replacen(from, to, 1);
    }
    let job = scratch(&format!("{name}.json"));
    // Once: the tests run side by side, and one of them might read a file that another has just emptied.
    static PROBES_WRITTEN: Once = Once::new();
    PROBES_WRITTEN.call_once(|| fs::write(scratch("rain_gauge_probes.csv"), PROBES).unwrap());
    fs::write(&job, without_artwork(&text)).unwrap();
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
        // From the file of probes by eye: 0.05 mm high in the middle, 0.20 mm low in a corner; the probe that is
        // missing leaves two cells of twelve unknown.
        "The part: probed at 7 x 3 places, rain_gauge_probes.csv",
        "highest place     0.050 mm above the datum, at x = 0.0 mm, y = 10.0 mm",
        "lowest place      0.200 mm below the datum, at x = 60.0 mm, y = 0.0 mm",
        "unknown           17 % of the area, 1 of the probes missing: nothing is said of it",
        "set-up            up to 0.050 mm nearer to the lens and 0.050 mm farther; counted in the table above",
        // 0.2 mm low, 0.05 mm of set-up and 0.195 mm of focus: 73.496 um times sqrt(1 + (0.445/0.300)^2).
        "worst spot        0.200 mm below the datum, at x = 60.0 mm, y = 0.0 mm: 131.5 um",
        // The waist is 73.4963 um wide with a Rayleigh range of 0.300025 mm, 37.905069 mm behind the lens (mpmath, by
        // tests/reference). In focus is what 105 um allow, 0.306117 mm each way. Detail holds as long as the
        // middle of a gap of 45 um gets less than the threshold from the fill on both sides,
        // erf(sqrt(2)*45 um/spot) >= 1 - 0.37: to a spot of 100.393 um, 0.279178 mm each way. Less 0.05 mm at either
        // end, that is down to 0.061186 mm and 0.034247 mm below the datum; numpy counted these shares of the ten
        // known bilinear cells at 2000 x 2000 places in each: 0.5592 and 0.4654.
        "in focus          56 % of the known area",
        "detail holds on   47 % of the known area",
        "set focus         0.075 mm below the datum",
        "to hold           focus set there once is enough",
        // By hand: 1.96*sqrt(0.03^2/3 + 0.01^2 + 0.01^2/3 + 0.01^2) mm; 0.03 + 0.02 + 0.01 + 0.01; 3/5.33 of the
        // variance. The lenses by tests/reference, on 0.25 mm of height and that at either end.
        "heights           0.250 mm from the highest place to the lowest",
        "up to 0.045 mm off in 95 % of cases, as of a normal sum; 0.070 mm at worst; mostly the fixture (56 % of the variance)",
        "1. 38.1 mm        spot 73.5 um in focus, 84.5 um at worst; clear of the surface by 27.8 mm",
        "2. 50.8 mm        spot 90.8 um in focus, 96.0 um at worst; clear of the surface by 40.8 mm",
        "3. 63.5 mm        spot 111.5 um in focus, 114.3 um at worst; clear of the surface by 52.8 mm",
        "1 and 2 swap      where the heights span 0.566 mm",
        // By SciPy on the PNG, without what lies in the two cells that lack a probe: pieces and holes by
        // ndimage.label, and where each inked pixel lies on the bilinear heights: from 0.04998 mm high to 0.17238 mm
        // low. 73.4963 um grow over 0.300025 mm from 37.905069 mm behind the lens.
        "9280 x 1280 pixels, 116.0 mm x 16.0 mm",
        "pieces            139 drawn",
        "counters          52 drawn",
        "spot              81.6 um at x = 0.0 mm, y = 10.0 mm, to 116.2 um at x = 56.8 mm, y = 5.0 mm",
        "unknown           21 % of the ink",
        "focus             0.061 mm below the datum: ",
        "1. lens 38.1 mm    spot up to 78.4 um with best focus",
        // The two lines of 60 um with a gap of 45 um touch at the ends of the bow, and only there. The gap holds to a
        // spot of 100.4 um, as above.
        "as set            DEGRADED",
        "- Neighbours touch at this dose.",
        "  serial, left      GOOD, ",
        "  serial, right     GOOD, ",
        "2 run together from several",
        "below the datum: GOOD",
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

const SHAPE: &str = r#"{ "probes": "rain_gauge_probes.csv" }"#;

#[test]
fn the_verdict_follows_the_part() {
    let verdict = |name, shape| {
        let output = run(name, SHAPE, shape);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    // By hand: 10 mm off the crown of 250 mm of radius is 0.200 mm, from 20 mm on either side 0.801 mm.
    let bar = r#"{ "cylinder": { "radius": "250 mm", "bulge": "toward lens",
        "crown": { "x": "0 mm", "y": "10 mm" }, "axis_angle": "0 deg" } }"#;
    let bar = verdict("bar", bar);
    assert!(bar.contains("The part: a lying cylinder"), "{bar}");
    assert!(bar.contains("highest place     on the datum, at x = -60.0 mm, y = 10.0 mm"), "{bar}");
    assert!(bar.contains("lowest place      0.200 mm below the datum, at x = -60.0 mm, y = 0.0 mm"), "{bar}");
    // 60 mm off: 250 - sqrt(250^2 - 60^2) = 7.307 mm along the plate, with 10 mm across it 7.513 mm.
    let dome = r#"{ "sphere": { "diameter": "500 mm", "bulge": "toward lens", "crown": { "x": "0 mm", "y": "10 mm" } } }"#;
    let dome = verdict("dome", dome);
    assert!(dome.contains("lowest place      7.513 mm below the datum"), "{dome}");
    // Stroke, gap and text hold over 2*0.27918 mm, less 0.1 mm of set-up: 7.513/0.45836 = 16.4. A band is 0.442 mm.
    assert!(dome.contains("to hold           at most 17 bands of height, each in its own focus"), "{dome}");
    assert_eq!(dome.matches("\n  band ").count(), 12, "{dome}");
    assert!(dome.contains("band 12 ") && dome.contains("and so on, each 0.442 mm lower"), "{dome}");
    // 120 mm at 0.01 and 20 mm at 0.005.
    let tilted = r#"{ "plane": { "away_from_lens_along_x": 0.01, "away_from_lens_along_y": 0.005 } }"#;
    let tilted = verdict("tilted", tilted);
    assert!(tilted.contains("flat, tilted"), "{tilted}");
    assert!(
        tilted.contains("highest place     0.600 mm above the datum, at x = -60.0 mm, y = 0.0 mm"),
        "{tilted}"
    );
    assert!(
        tilted.contains("lowest place      0.700 mm below the datum, at x = 60.0 mm, y = 20.0 mm"),
        "{tilted}"
    );
    // Three bands of 1.3 mm, focus in the middle of each.
    assert!(tilted.contains("at most 3 bands of height"), "{tilted}");
    for band in [
        "band 1            focus 0.383 mm above the datum, for heights down to 0.167 mm above the datum",
        "band 2            focus 0.050 mm below the datum, for heights down to 0.267 mm below the datum",
        "band 3            focus 0.483 mm below the datum, for heights down to 0.700 mm below the datum",
    ] {
        assert!(tilted.contains(band), "no {band:?} in {tilted}");
    }
    assert!(!tilted.contains("band 4") && !tilted.contains("and so on"), "{tilted}");
    assert!(!tilted.contains("known"), "{tilted}");
    let steps = r#"{ "steps": { "edges": ["-60 mm", "0 mm", "60 mm"], "heights_toward_lens": ["0 mm", "-0.3 mm"] } }"#;
    let steps = verdict("steps", steps);
    assert!(steps.contains("2 steps"), "{steps}");
    assert!(
        steps.contains("lowest place      0.300 mm below the datum, at x = 0.0 mm, y = 0.0 mm"),
        "{steps}"
    );
    assert!(steps.contains("in focus          50 % of the area"), "{steps}");
}

#[test]
fn the_report_tells_set_up_gaps_and_small_heights() {
    let report = |name, changes: &[(&str, &str)]| {
        let output = run_with(name, changes);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    // The same 0.1 mm of set-up as in the job, all of it toward the lens: every focus lies 0.05 mm nearer to it.
    let tilted = r#"{ "plane": { "away_from_lens_along_x": 0.01, "away_from_lens_along_y": 0.005 } }"#;
    let set_up = (r#""rise": "0.05 mm", "fall": "0.05 mm""#, r#""rise": "0.1 mm", "fall": "0 mm""#);
    let risen = report("risen", &[(SHAPE, tilted), set_up]);
    assert!(risen.contains("up to 0.100 mm nearer to the lens and 0.000 mm farther"), "{risen}");
    assert!(risen.contains("band 1            focus 0.433 mm above the datum, for heights down to 0.167 mm"));

    // Nothing is told of 20 mm in 120, though no probe is missing.
    let short = r#"{ "steps": { "edges": ["-60 mm", "0 mm", "40 mm"], "heights_toward_lens": ["0 mm", "-0.3 mm"] } }"#;
    let short = report("short_steps", &[(SHAPE, short)]);
    assert!(
        short.contains(
            "unknown           17 % of the area, the region reaches beside the steps: nothing is said"
        ),
        "{short}"
    );
    assert!(short.contains("in focus          60 % of the known area"), "{short}");
    assert!(!short.contains("probes missing"), "{short}");
    // Two cells of fourteen lack a probe, and two lie beside.
    let beside = report("beside_grid", &[(r#""60 mm"]"#, r#""80 mm"]"#)]);
    assert!(
        beside
            .contains("29 % of the area, 1 of the probes missing, the region reaches beside the probed grid"),
        "{beside}"
    );

    // What rounds to nothing has no sign; only what is nothing lies on the datum.
    let unsigned = report("unsigned", &[(SHAPE, tilted), (r#""-60 mm""#, r#""-0.01 mm""#)]);
    assert!(unsigned.contains("at x = 0.0 mm, y = 0.0 mm"), "{unsigned}");
    assert!(!unsigned.contains("-0.0 mm"), "{unsigned}");
    for (name, fall, told) in [
        ("small_step", "-0.0003 mm", "lowest place      0.300 um below the datum"),
        ("tiny_step", "-0.1 nm", "lowest place      under 0.001 um below the datum"),
        ("no_step", "0 mm", "lowest place      on the datum"),
    ] {
        let steps = format!(
            r#"{{ "steps": {{ "edges": ["-60 mm", "0 mm", "60 mm"], "heights_toward_lens": ["0 mm", "{fall}"] }} }}"#
        );
        let steps = report(name, &[(SHAPE, &steps)]);
        assert!(steps.contains(told), "no {told:?} in {steps}");
    }
}

#[test]
fn blank_lines_of_a_file_of_probes_are_skipped() {
    let spaced = PROBES.replace("-60,10,", " , ,\n\n   \n-60,10,") + ",,\n";
    fs::write(scratch("spaced.csv"), spaced).unwrap();
    let text = |name, file| {
        let output = run(name, "rain_gauge_probes.csv", file);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let text = String::from_utf8(output.stdout).unwrap();
        text[text.find("marked  ").unwrap()..text.find("Picture").unwrap()].to_owned()
    };
    assert_eq!(text("spaced", "spaced.csv"), text("unspaced", "rain_gauge_probes.csv"));
}

#[test]
fn a_job_without_a_part_is_a_job_still() {
    let part = JOB[JOB.find("    \"part\"").unwrap()..].split_inclusive("    },\n").next().unwrap();
    let output = run("bare_job", part, "");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("The surface") && !text.contains("The part"), "{text}");
}

/// With tests/reference: 0.72 mm of height, and the stack of 0.045 mm, are more than the shortest lens is best for.
#[test]
fn the_choice_of_a_lens_follows_part_and_set_up() {
    let tilted = r#"{ "plane": { "away_from_lens_along_x": 0.006, "away_from_lens_along_y": 0 } }"#;
    let text = |name, changes: &[(&str, &str)]| {
        let output = run_with(name, changes);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    let steep = text("tilted_choice", &[(SHAPE, tilted), ("45 um", "60 um")]);
    for expected in [
        "1. 50.8 mm        spot 90.8 um in focus, 117.3 um at worst; clear of the surface by 40.6 mm",
        "2. 38.1 mm        spot 73.5 um in focus, 123.5 um at worst; clear of the surface by 27.6 mm",
        "3. 63.5 mm        spot 111.5 um in focus, 126.4 um at worst; clear of the surface by 52.6 mm",
        "1 and 2 swap      where the heights span 0.566 mm",
    ] {
        assert!(steep.contains(expected), "no {expected:?} in:\n{steep}");
    }
    // A mean error of 0.02 mm adds to the farther end, and backlash of 0.1 mm takes over.
    let mean = (
        r#"{ "two_valued": "0.01 mm" }"#,
        r#"{ "two_valued": "0.1 mm" }, "mean": { "away_from_lens": "0.02 mm" }"#,
    );
    let slack = text("slack", &[mean]);
    // By hand: 1.96*sqrt(0.03^2/3 + 0.01^2 + 0.01^2/3 + 0.1^2) + 0.02; 0.06 + 0.1 + 0.02.
    let expected = "up to 0.220 mm off in 95 % of cases, as of a normal sum; 0.180 mm at worst; mostly backlash (96 % of the variance)";
    assert!(slack.contains(expected), "{slack}");
    // A mount that would end below the focus.
    let long = text("long_mount", &[(r#""28 mm""#, r#""39 mm""#)]);
    assert!(long.contains("Its working distance is greater than from the lens to its focus"), "{long}");
    // Without a part the heights are rise and fall of the job.
    let part = JOB[JOB.find("    \"part\"").unwrap()..].split_inclusive("    },\n").next().unwrap();
    let bare = text("bare_choice", &[(part, "")]);
    assert!(bare.contains("heights           0.100 mm from the highest place to the lowest"), "{bare}");
}

#[test]
fn a_bad_choice_of_lenses_is_refused_in_one_line() {
    let choice = &JOB[JOB.find("    \"lens_choice\"").unwrap()..JOB.rfind('}').unwrap()];
    let cases: &[(&str, &str, &str, &[&str])] = &[
        (
            "source",
            r#""fixture""#,
            r#""jig""#,
            &["lens_choice.tolerance.contributions[0].source", "`jig`", "`fixture`"],
        ),
        ("strays", r#""uniform": "0.03 mm""#, r#""evenly": "0.03 mm""#, &["strays", "`evenly`", "`uniform`"]),
        ("bare_width", r#""0.03 mm""#, "0.03", &["contributions[0].strays", "0.03"]),
        ("no_factor", r#", "coverage_factor": 2"#, "", &["contributions[1].strays", "coverage_factor"]),
        (
            "factor",
            r#""coverage_factor": 2"#,
            r#""coverage_factor": 0.5"#,
            &["lens_choice", "coverage factor = 0.5", "from 1 to 10"],
        ),
        ("coverage", "0.95", "1", &["lens_choice", "coverage probability = 1 ", "from 0.01"]),
        (
            "gap",
            r#""28 mm""#,
            r#""-28 mm""#,
            &["lens_choice", "working distance = -0.028 m", "from 0 to 10000 m"],
        ),
        ("short_gap", r#""28 mm""#, "28", &["lens_choice.lenses[0].working_distance", "28"]),
        (
            "two_choices",
            choice,
            &format!("{},{choice}", choice.trim_end()),
            &["duplicate field `lens_choice`"],
        ),
        (
            "no_lenses",
            choice,
            r#"    "lens_choice": { "lenses": [], "least_clearance": "5 mm", "tolerance": { "coverage_probability": 0.95, "contributions": [{ "source": "other", "strays": { "uniform": "1 um" } }] } }"#,
            &["lens_choice", "lenses to choose from = 0", "from 1 to 8"],
        ),
        (
            "no_stack",
            choice,
            r#"    "lens_choice": { "lenses": [], "least_clearance": "5 mm", "tolerance": { "coverage_probability": 0.95, "contributions": [] } }"#,
            &["lens_choice", "number of contributions = 0", "at least 1"],
        ),
    ];
    for (name, from, to, expected) in cases {
        one_line(name, &run(&format!("choice_{name}"), from, to), expected);
    }
}

#[test]
fn a_bad_part_is_refused_in_one_line() {
    let cases: &[(&str, &str, &str, &[&str])] = &[
        ("no_file", "rain_gauge_probes.csv", "no_such.csv", &["no_such.csv"]),
        ("no_shape", r#""probes""#, r#""proves""#, &["part.shape", "`proves`", "`probes`"]),
        ("bare_end", r#""60 mm""#, "60", &["part.region.x", "60"]),
        ("no_unit", r#""60 mm""#, r#""60""#, &["part.region.x", "the unit is missing"]),
        ("no_region", r#"["-60 mm", "60 mm"]"#, r#"["60 mm", "-60 mm"]"#, &["region width in x", "-0.12 m"]),
        (
            "beside",
            SHAPE,
            r#"{ "sphere": { "radius": "50 mm", "bulge": "toward lens", "crown": { "x": "0 mm", "y": "0 mm" } } }"#,
            &["distance from the crown", "outside the model (must be from 0 to less than 0.05 m)"],
        ),
        (
            "both_sizes",
            SHAPE,
            r#"{ "sphere": { "radius": "5 m", "diameter": "10 m", "bulge": "toward lens", "crown": { "x": "0 mm", "y": "0 mm" } } }"#,
            &["part.shape.sphere", "either `radius` or `diameter`"],
        ),
        (
            "twice",
            r#"    "part": {"#,
            r#"    "part": { "region": { "x": ["0 mm", "1 mm"], "y": ["0 mm", "1 mm"] }, "shape": { "probes": "a" } },
    "part": {"#,
            &["duplicate field `part`"],
        ),
    ];
    for (name, from, to, expected) in cases {
        one_line(name, &run(name, from, to), expected);
    }
}

#[test]
fn a_bad_file_of_probes_is_refused_in_one_line() {
    // Twelve probes of a grid of 4 x 3, each a little beside its place: no two share an x or a y.
    let mut jittered = "x (mm),y (mm),toward lens (mm)\n".to_owned();
    for probe in 0..12 {
        let (column, row, strays) = (probe % 4, probe / 4, f64::from(probe) * 0.01);
        jittered +=
            &format!("{},{},0\n", f64::from(column) * 40.0 - 60.0 + strays, f64::from(row) * 10.0 + strays);
    }
    let cases: &[(&str, &str, &str, &[&str])] = &[
        ("column", "toward lens (mm)", "height (mm)", &["\"height (mm)\"", "toward lens"]),
        ("unit", "x (mm)", "x", &["\"x\"", "\"x (mm)\""]),
        ("unit_kind", "y (mm)", "y (deg)", &["column \"y (deg)\"", "unit is not known"]),
        ("unit_blank", "y (mm)", "y ()", &["column \"y ()\"", "the unit is missing"]),
        ("bracket", "y (mm)", "y (mm", &["column \"y (mm\"", "closing bracket is missing", "\"y (mm)\""]),
        (
            "height_bracket",
            "toward lens (mm)",
            "away from lens (mm",
            &["column \"away from lens (mm\"", "closing bracket is missing"],
        ),
        (
            "semicolons",
            "x (mm),y (mm),toward",
            "x (mm);y (mm);toward",
            &["three columns separated by commas"],
        ),
        ("two_columns", ",toward lens (mm)", "", &["must name three columns, as in"]),
        ("number", "-60,0,-0.18", "-60,0,low", &["line 2, column toward lens: \"low\" is no number of mm"]),
        ("comma", "-40,0,-0.08", "-40,0;5,-0.08", &["line 3, column y: \"0;5\" is no number of mm"]),
        ("with_unit", "-40,0,-0.08", "-40 mm,0,-0.08", &["line 3, column x: \"-40 mm\" is no number of mm"]),
        ("blank_place", "-40,0,-0.08", "-40,,-0.08", &["line 3, column y: the field is blank"]),
        (
            "jitter",
            PROBES,
            &jittered,
            &["only 12 of 144 places of the grid are probed: round x and y to the grid"],
        ),
        ("again", "-40,0,-0.08", "-60,0,-0.08", &["line 3", "line 2"]),
        ("ragged", "-60,0,-0.18", "-60,0", &["probes_ragged.csv: line 2", "three fields", "not 2"]),
        (
            "one_row",
            PROBES,
            "x (mm),y (mm),toward lens (mm)\n0,0,1\n1,0,1\n",
            &["number of grid rows = 1 ", "must be at least 2"],
        ),
        ("empty", PROBES, "x (mm),y (mm),toward lens (mm)\n", &["number of grid columns", "2"]),
        (
            "all_missing",
            PROBES,
            "x (mm),y (mm),toward lens (mm)\n0,0,\n1,0,\n0,1,\n1,1,\n",
            &["known probes"],
        ),
        ("nan", "-60,0,-0.18", "-60,0,NaN", &["line 2", "no number"]),
    ];
    for (name, from, to, expected) in cases {
        assert!(PROBES.contains(from), "{name}");
        let file = format!("probes_{name}.csv");
        fs::write(scratch(&file), PROBES.replacen(from, to, 1)).unwrap();
        one_line(name, &run(&format!("probes_{name}"), "rain_gauge_probes.csv", &file), expected);
    }
}

/// The example refused, and said why in one line that holds all of these.
fn one_line(name: &str, output: &Output, expected: &[&str]) {
    let error = String::from_utf8_lossy(&output.stderr);
    assert!(!output.status.success(), "{name}: exit code 0 for a bad job");
    assert_eq!(error.lines().count(), 1, "{name}: {error}");
    for part in expected {
        assert!(error.contains(part), "{name}: no {part:?} in {error}");
    }
}

/// What test pieces told of a machine, in the place of the fields of the example's job that it tells.
const CALIBRATION: &str = r#""calibration": {
        "wavelength": "10.6 um",
        "focal_length": "1.5 in",
        "focus": { "away_from_lens": "0.1 mm" },
        "focus_deviation": "20 um",
        "waist": { "diameter_1e2": "80 um" },
        "waist_diameter_deviation": "1 um",
        "m_squared": 1.3,
        "m_squared_deviation": 0.05,
        "line": {
            "power": "20 W",
            "speed": "500 mm/s",
            "dose_ratio": 3,
            "relative_deviation": "3 %",
            "correlation": -0.5
        }
    }"#;

/// The fields of the example's job that a calibration tells.
fn told_by_a_calibration() -> &'static str {
    let start = JOB.find(r#""laser""#).unwrap();
    let end = start + JOB[start..].find(SET).unwrap() + SET.len();
    &JOB[start..end]
}

const THRESHOLD: &str = ",\n            \"threshold\": \"0.37 J/mm2\"";

/// By hand: z_R = π·80²/(4·1.3·10.6) um = 364.771 um, and 80 um·38.1 mm/z_R = 8.3559 mm; √(8/π)·20/(0.5·80e-6·3) =
/// 265 962 J/m², of which 1 J/mm² is 3.76 times as much; √(0.0125² + 0.03² − 0.0125·0.03) = 2.610 %. The contribution of
/// 20 um makes 1.96·√(0.03²/3 + 0.01² + 0.01²/3 + 0.01² + 0.02²) mm, most of it, 0.0004 of 0.000933, its own.
#[test]
fn a_job_on_a_calibrated_machine() {
    let (fields, threshold) = (told_by_a_calibration(), THRESHOLD);
    fs::write(scratch("our_machine.json"), CALIBRATION.trim_start_matches(r#""calibration": "#)).unwrap();
    let beside = r#""calibration": "our_machine.json""#;
    for (name, calibration) in [("calibrated", CALIBRATION), ("calibrated_beside", beside)] {
        let output = run_with(name, &[(fields, calibration), (threshold, "")]);
        let text = String::from_utf8_lossy(&output.stdout);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        for expected in [
            "The machine, as test pieces told it",
            "focus lies        0.100 mm below the datum, known to a standard deviation of 0.020 mm",
            "spot in focus     80.0 um +- 1.0 um, M2 = 1.3 +- 0.05",
            "as if from        a beam of 8.36 mm on an ideal lens of 38.1 mm",
            "threshold         0.266 J/mm2 +- 2.6 %",
            "spot in focus     80.0 um  (all widths: 1/e2 diameter)",
            "Rayleigh range    0.365 mm",
            "focus is set      0.100 mm below the datum of the surface",
            "the material marks from 0.266 J/mm2 on",
            "3.76 times what just marks",
            "up to 0.060 mm off in 95 % of cases",
            "mostly the height of focus, as test pieces told it (43 % of the variance)",
        ] {
            assert!(text.contains(expected), "no {expected:?} in\n{text}");
        }
    }
    // What it tells must not be told twice, and what it does not tell must be.
    type Changes<'a> = &'a [(&'a str, &'a str)];
    let cases: &[(&str, Changes, &[&str])] = &[
        ("told_threshold", &[(fields, CALIBRATION)], &["`threshold` is what the calibration tells"]),
        (
            "told_laser",
            &[
                (SET, r#"{ "lens_to_surface": "38.1 mm" }, "calibration": "our_machine.json""#),
                (threshold, ""),
            ],
            &["`laser` is what the calibration tells: leave it out"],
        ),
        ("told_nothing", &[(fields, r#""calibration": {}"#)], &["calibration: missing field `wavelength`"]),
        (
            "told_low",
            &[(fields, &CALIBRATION.replacen("1.3", "0.8", 1)), (threshold, "")],
            &["calibration: measured M squared = 0.8 is outside the model (must be from 0.902"],
        ),
        (
            "told_wrong",
            &[(fields, &CALIBRATION.replacen("20 um", "20 W", 1)), (threshold, "")],
            &["calibration: focus_deviation", "the unit is not known here"],
        ),
        ("told_elsewhere", &[(fields, r#""calibration": "none.json""#)], &["none.json"]),
        ("told_no_power", &[(fields, CALIBRATION), (threshold, ""), ("20 W", "20 mm")], &["power", "mW, kW"]),
    ];
    for (name, changes, expected) in cases {
        one_line(name, &run_with(name, changes), expected);
    }
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
        one_line(name, &run(name, from, to), expected);
    }
}

#[test]
fn a_missing_file_or_folder_is_named() {
    let output = focus_check().arg("no such job.json").output().unwrap();
    assert!(!output.status.success());
    assert!(String::from_utf8_lossy(&output.stderr).contains("no such job.json"));

    let job = scratch("plain.json");
    fs::write(&job, without_artwork(JOB)).unwrap();
    let picture = scratch("no such folder").join("picture.svg");
    let output = focus_check().arg(&job).arg(&picture).output().unwrap();
    assert!(!output.status.success());
    assert!(String::from_utf8_lossy(&output.stderr).contains("no such folder"));
}
