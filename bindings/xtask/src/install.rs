//! What the tests need beyond Rust: says what is missing, and on Debian installs it.

use crate::tools::{exists, in_ci, output, run};
use std::process::{Command, Stdio};

/// A program of the tests, and the Debian packages that bring it.
const PROGRAMS: &[(&str, &str)] = &[
    ("gcc", "gcc libc6-dev"),
    ("g++", "g++"),
    ("clang", "clang"),
    ("clang++", "clang"),
    ("arm-none-eabi-gcc", "gcc-arm-none-eabi libnewlib-arm-none-eabi"),
    ("qemu-system-arm", "qemu-system-arm"),
    ("node", "nodejs"),
    ("npm", "npm"),
];

/// Names under which the browser may be installed; the tests of the page look for the same.
const BROWSERS: &[&str] = &["chromium", "chromium-browser", "google-chrome"];

/// Parts of the toolchain that a minimal one lacks.
const COMPONENTS: &[(&str, &str)] = &[("cargo-fmt", "rustfmt"), ("cargo-clippy", "clippy")];

const TARGETS: &[&str] = &["wasm32-unknown-unknown", "thumbv7em-none-eabihf"];

/// The oldest Node that runs the package's tools.
const NODE: (u32, u32) = (20, 19);

/// The commands that would install what is missing.
fn missing() -> Result<Vec<String>, String> {
    let mut packages: Vec<&str> =
        PROGRAMS.iter().filter(|(program, _)| !exists(program)).map(|(_, packages)| *packages).collect();
    if std::env::var_os("CHROMIUM").is_none() && !BROWSERS.iter().any(|browser| exists(browser)) {
        packages.push("chromium fonts-dejavu-core");
    }
    if !succeeds(Command::new("python3").args(["-c", "import venv, ensurepip"])) {
        packages.push("python3 python3-venv");
    }
    let mut commands = Vec::new();
    if !packages.is_empty() {
        commands.push("apt-get update".to_owned());
        commands.push(format!("apt-get install --yes --no-install-recommends {}", packages.join(" ")));
    }

    let components: Vec<&str> =
        COMPONENTS.iter().filter(|(program, _)| !exists(program)).map(|(_, component)| *component).collect();
    if !components.is_empty() {
        commands.push(format!("rustup component add {}", components.join(" ")));
    }
    let installed = output(Command::new("rustup").args(["target", "list", "--installed"]))?;
    let targets: Vec<&str> =
        TARGETS.iter().copied().filter(|target| !installed.lines().any(|line| line == *target)).collect();
    if !targets.is_empty() {
        commands.push(format!("rustup target add {}", targets.join(" ")));
    }
    Ok(commands)
}

fn succeeds(command: &mut Command) -> bool {
    let status = command.stdout(Stdio::null()).stderr(Stdio::null()).status();
    status.is_ok_and(|status| status.success())
}

/// A distribution's own Node may be too old, and no package of it would help.
fn node_is_new_enough() -> Result<(), String> {
    let version = output(Command::new("node").arg("--version"))?;
    let numbers: Vec<u32> =
        version.trim().trim_start_matches('v').split('.').filter_map(|n| n.parse().ok()).collect();
    match numbers.as_slice() {
        [major, minor, ..] if (*major, *minor) >= NODE => Ok(()),
        _ => Err(format!("Node.js {}.{} or later is needed, not {}", NODE.0, NODE.1, version.trim())),
    }
}

/// Installs what is missing. Needs Debian or its like, and the right to install packages.
pub fn install() -> Result<(), String> {
    for command in missing()? {
        println!("{command}");
        let words: Vec<&str> = command.split_whitespace().collect();
        run(Command::new(words[0]).args(&words[1..]).env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    node_is_new_enough()
}

/// Fails with the commands to run if anything is missing.
pub fn check() -> Result<(), String> {
    let commands = missing()?;
    if commands.is_empty() {
        return node_is_new_enough();
    }
    let commands = commands.join("\n  ");
    let advice = if in_ci() { "" } else { "\nor `cargo xtask install` with the right to install packages" };
    Err(format!("the tests need more than is installed here; on Debian run\n  {commands}{advice}"))
}
