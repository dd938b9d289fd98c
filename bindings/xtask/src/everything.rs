//! `cargo xtask test`: every check there is, the cheapest first.

use crate::tools::{cargo, run, target_dir, work_dir};
use crate::{c, faces, firmware, header, install, readme, replay, vectors, wasm};
use std::env;
use std::fs::{self, File};
use std::path::Path;
use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Instant;

type Step = (&'static str, fn() -> Result<(), String>);

/// What is soon known comes before all else.
const FIRST: &[Step] = &[("what the tests need", install::check), ("format", format), ("lints", lints)];

/// Lanes that run side by side; the steps of each follow one another. No lane waits long for another:
/// the first builds for debugging, the second hardly builds, the third builds for release.
const LANES: [&[Step]; 3] = [
    &[
        ("feature combinations", features),
        ("documentation", documentation),
        ("Rust tests", rust_tests),
        ("documentation tests", documentation_tests),
    ],
    &[("vectors are the reference's", || vectors::vectors(true)), ("main job", main_job)],
    &[
        ("C header is up to date", || header::header(true)),
        ("C face", c::test),
        ("bare metal", firmware::test),
        ("WebAssembly face", wasm::test),
        ("the README's snippets", readme::check),
        ("every function on every face", faces::check),
        ("the same bits on every face", replay::replay),
    ],
];

/// Runs every step, and stops at the first that fails.
pub fn test() -> Result<(), String> {
    let start = Instant::now();
    for (name, step) in FIRST {
        println!("\n== {name}");
        let started = Instant::now();
        step().map_err(|error| format!("{error}\n== {name}: FAILED"))?;
        println!("== {name}: passed in {:.0} s", started.elapsed().as_secs_f64());
    }

    // A copy, since the tests build this program anew.
    let folder = work_dir("steps")?;
    let program = folder.join("xtask");
    let this = env::current_exe().map_err(|error| error.to_string())?;
    fs::copy(&this, &program).map_err(|error| format!("{}: {error}", this.display()))?;
    let failed = AtomicBool::new(false);
    let results = thread::scope(|scope| {
        let lanes = LANES.map(|lane| {
            let (program, failed) = (&program, &failed);
            scope.spawn(move || run_lane(lane, program, failed))
        });
        lanes.map(|lane| lane.join().unwrap_or_else(|_| Err("a lane broke off".to_owned())))
    });
    let faults: Vec<String> = results.into_iter().filter_map(Result::err).collect();
    if !faults.is_empty() {
        return Err(faults.join("\n"));
    }
    println!("\nall steps passed in {:.0} s", start.elapsed().as_secs_f64());
    Ok(())
}

/// Runs the steps of a lane until one of this or of another lane fails.
fn run_lane(lane: &[Step], program: &Path, failed: &AtomicBool) -> Result<(), String> {
    for (name, _) in lane {
        if failed.load(Ordering::Relaxed) {
            break;
        }
        if let Err(error) = run_apart(name, program) {
            failed.store(true, Ordering::Relaxed);
            return Err(error);
        }
    }
    Ok(())
}

/// Runs a step in a process of its own, whose output shows in one piece once it is done.
fn run_apart(name: &str, program: &Path) -> Result<(), String> {
    println!("== {name}: started");
    let started = Instant::now();
    let log = work_dir("steps")?.join(format!("{name}.log"));
    let failure = |error: std::io::Error| format!("{name}: {error}");
    let file = File::create(&log).map_err(failure)?;
    let mut step = Command::new(program);
    step.args(["test", name]).stdout(file.try_clone().map_err(failure)?).stderr(file);
    let status = step.status().map_err(failure)?;
    let said = String::from_utf8_lossy(&fs::read(&log).map_err(failure)?).into_owned();
    let verdict = if status.success() { "passed" } else { "FAILED" };
    let seconds = started.elapsed().as_secs_f64();
    println!("\n== {name}\n{}\n== {name}: {verdict} in {seconds:.0} s", said.trim_end());
    if status.success() { Ok(()) } else { Err(format!("== {name}: FAILED")) }
}

/// Runs one step, by its name.
pub fn test_one(name: &str) -> Result<(), String> {
    let found = FIRST.iter().chain(LANES.into_iter().flatten()).find(|(known, _)| *known == name);
    let (_, step) = found.ok_or_else(|| format!("no step is called {name:?}"))?;
    step()
}

fn format() -> Result<(), String> {
    run(cargo().args(["fmt", "--all", "--check"]))
}

fn lints() -> Result<(), String> {
    run(cargo().args(["clippy", "--workspace", "--all-targets", "--all-features", "--", "-D", "warnings"]))
}

/// The library by itself, without what the tests switch on.
fn features() -> Result<(), String> {
    let lint = |arguments: &[&str]| {
        let mut command = cargo();
        command.args(["clippy", "--package=spotwise", "--lib", "--no-default-features"]).args(arguments);
        run(command.args(["--", "-D", "warnings"]))
    };
    let combinations =
        ["", "std", "units", "std,units", "serde", "std,serde", "artwork", "std,parallel", "vector,units"];
    for features in combinations {
        lint(&["--features", features])?;
    }
    lint(&["--features", "serde", "--target=thumbv7em-none-eabihf"])
}

fn documentation() -> Result<(), String> {
    run(cargo()
        .args(["doc", "--workspace", "--exclude=xtask", "--no-deps", "--all-features"])
        .env("RUSTDOCFLAGS", "-D warnings"))
}

/// Without the documentation tests, and without the examples, which would be built as tests of their own; but
/// tests run the main one and that of test pieces.
fn rust_tests() -> Result<(), String> {
    let examples = ["--example", "focus_check", "--example", "read_test_pieces"];
    run(cargo().args(["build", "--workspace", "--all-features"]).args(examples))?;
    run(cargo().args(["test", "--workspace", "--all-features", "--tests"]))
}

/// A misuse that must not compile says with which error. Only with this variable does the stable
/// rustdoc compare the code, so that a misuse cannot pass for a mere misspelling.
fn documentation_tests() -> Result<(), String> {
    let mut command = cargo();
    command.args(["test", "--workspace", "--exclude=xtask", "--all-features", "--doc"]);
    run(command.env("RUSTC_BOOTSTRAP", "1"))
}

fn main_job() -> Result<(), String> {
    let folder = work_dir("main_job")?;
    run(cargo().args(["build", "--release", "--example", "focus_check"]))?;
    run(Command::new(target_dir().join("release/examples/focus_check")).current_dir(folder))
}
