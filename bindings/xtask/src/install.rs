//! What the tests need beyond Rust: says what is missing, and on Debian installs it.

use crate::tools::{exists, in_ci, output, run};
use std::process::Command;

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
    ("chromium", "chromium fonts-dejavu-core"),
    ("python3", "python3 python3-venv"),
];

const TARGETS: &[&str] = &["wasm32-unknown-unknown", "thumbv7em-none-eabihf"];

/// The commands that would install what is missing, one a line.
fn missing() -> Result<Vec<Vec<String>>, String> {
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    let mut commands = Vec::new();

    let packages: Vec<&str> =
        PROGRAMS.iter().filter(|(program, _)| !exists(program)).map(|(_, packages)| *packages).collect();
    if !packages.is_empty() {
        commands.push(words("apt-get update"));
        commands
            .push(words(&format!("apt-get install --yes --no-install-recommends {}", packages.join(" "))));
    }

    let installed = output(Command::new("rustup").args(["target", "list", "--installed"]))?;
    let targets: Vec<&str> =
        TARGETS.iter().copied().filter(|target| !installed.lines().any(|line| line == *target)).collect();
    if !targets.is_empty() {
        commands.push(words(&format!("rustup target add {}", targets.join(" "))));
    }
    Ok(commands)
}

/// Installs what is missing. Needs Debian or its like, and the right to install packages.
pub fn install() -> Result<(), String> {
    for command in missing()? {
        println!("{}", command.join(" "));
        run(Command::new(&command[0]).args(&command[1..]).env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    Ok(())
}

/// Fails with the commands to run if anything is missing.
pub fn check() -> Result<(), String> {
    let commands = missing()?;
    if commands.is_empty() {
        return Ok(());
    }
    let commands: Vec<String> = commands.iter().map(|command| format!("  {}", command.join(" "))).collect();
    let advice = if in_ci() { "" } else { "\nor `cargo xtask install` with the right to install packages" };
    Err(format!("the tests need more than is installed here; on Debian run\n{}{advice}", commands.join("\n")))
}
