//! Folders and outside programs, for every task.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The root folder of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().expect("the repository")
}

/// Where cargo builds.
pub fn target_dir() -> PathBuf {
    root().join(env::var_os("CARGO_TARGET_DIR").unwrap_or_else(|| "target".into()))
}

/// A folder of its own for a task's files, made if need be.
pub fn work_dir(name: &str) -> Result<PathBuf, String> {
    let folder = target_dir().join("xtask").join(name);
    std::fs::create_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    Ok(folder)
}

/// The cargo that runs this task, in the root folder.
pub fn cargo() -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(root()).arg("--quiet").env("CARGO_TARGET_DIR", target_dir());
    command
}

/// Whether this runs in continuous integration, where a missing tool is a failure.
pub fn in_ci() -> bool {
    env::var("CI").is_ok_and(|value| value == "true")
}

/// Whether a program can be started.
pub fn exists(program: &str) -> bool {
    Command::new(program).arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok()
}

/// Runs a command, which must succeed.
pub fn run(command: &mut Command) -> Result<(), String> {
    let status = command.status().map_err(|error| format!("{command:?}: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} failed: {status}")) }
}

/// Runs a command, which must succeed, and returns what it wrote.
pub fn output(command: &mut Command) -> Result<String, String> {
    let output = command.output().map_err(|error| format!("{command:?}: {error}"))?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    if output.status.success() {
        Ok(text)
    } else {
        let errors = String::from_utf8_lossy(&output.stderr);
        Err(format!("{command:?} failed: {}\n{text}{errors}", output.status))
    }
}
