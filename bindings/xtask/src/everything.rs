//! `cargo xtask test`: every check there is, cheapest first.

use crate::tools::{cargo, run, target_dir, work_dir};
use crate::{c, faces, firmware, header, install, readme, replay, vectors, wasm};
use std::process::Command;
use std::time::Instant;

type Step = (&'static str, fn() -> Result<(), String>);

const STEPS: &[Step] = &[
    ("what the tests need", install::check),
    ("format", format),
    ("lints", lints),
    ("feature combinations", features),
    ("documentation", documentation),
    ("Rust tests", rust_tests),
    ("misuse does not compile", misuse),
    ("main job", main_job),
    ("vectors are the reference's", || vectors::vectors(true)),
    ("C header is up to date", || header::header(true)),
    ("C face", c::test),
    ("bare metal", firmware::test),
    ("WebAssembly face", wasm::test),
    ("the README's snippets", readme::check),
    ("every function on every face", faces::check),
    ("the same bits on every face", replay::replay),
];

/// Runs every step, and stops at the first that fails.
pub fn test() -> Result<(), String> {
    let start = Instant::now();
    for (name, step) in STEPS {
        println!("\n== {name}");
        let started = Instant::now();
        step().map_err(|error| format!("{error}\n== {name}: FAILED"))?;
        println!("== {name}: passed in {:.0} s", started.elapsed().as_secs_f64());
    }
    println!("\nall {} steps passed in {:.0} s", STEPS.len(), start.elapsed().as_secs_f64());
    Ok(())
}

fn format() -> Result<(), String> {
    run(cargo().args(["fmt", "--all", "--check"]))
}

fn lints() -> Result<(), String> {
    run(cargo().args(["clippy", "--workspace", "--all-targets", "--all-features", "--", "-D", "warnings"]))
}

/// The library by itself, without what the tests switch on.
fn features() -> Result<(), String> {
    for features in ["", "std", "units", "std,units", "serde", "std,serde"] {
        let arguments =
            ["check", "--package=spotwise", "--lib", "--no-default-features", "--features", features];
        run(cargo().args(arguments).env("RUSTFLAGS", "-D warnings"))?;
    }
    run(cargo()
        .args(["check", "--package=spotwise", "--lib", "--target=thumbv7em-none-eabihf"])
        .args(["--no-default-features", "--features", "serde"])
        .env("RUSTFLAGS", "-D warnings"))
}

fn documentation() -> Result<(), String> {
    run(cargo()
        .args(["doc", "--workspace", "--exclude=xtask", "--no-deps", "--all-features"])
        .env("RUSTDOCFLAGS", "-D warnings"))
}

/// Without `--all-targets`, which would build the examples as tests of their own.
fn rust_tests() -> Result<(), String> {
    run(cargo().args(["test", "--workspace", "--all-features"]))
}

/// A misuse that must not compile says with which error. Only with this variable does the stable
/// rustdoc compare the code, so that a misuse cannot pass for a mere misspelling.
fn misuse() -> Result<(), String> {
    run(cargo().args(["test", "--package=spotwise", "--all-features", "--doc"]).env("RUSTC_BOOTSTRAP", "1"))
}

fn main_job() -> Result<(), String> {
    let folder = work_dir("main_job")?;
    run(cargo().args(["build", "--release", "--example", "focus_check"]))?;
    run(Command::new(target_dir().join("release/examples/focus_check")).current_dir(folder))
}
