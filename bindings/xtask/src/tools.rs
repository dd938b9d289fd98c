//! Folders and outside programs, for every task.

use std::env;
use std::fs;
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

/// Folders of the repository that C sources, and what they include, lie in.
const C_FOLDERS: [&str; 4] = ["include", "tests/c", "tests/firmware", "examples/c"];

/// Compiles a C source into `object`, unless the same command has done so and no source has changed since.
/// (Optimising the tests of the C face takes a compiler as long as half of the library takes another.)
pub fn compile_object(compiler: &mut Command, source: &Path, object: &Path) -> Result<(), String> {
    compiler.arg("-c").arg(source).arg("-o").arg(object);
    let (how, note) = (format!("{compiler:?}"), object.with_extension("command"));
    let is_made = fs::read_to_string(&note).is_ok_and(|noted| noted == how);
    if is_made && is_newer_than_sources(object)? {
        return Ok(());
    }
    let failed = |error: std::io::Error| format!("{}: {error}", note.display());
    if note.exists() {
        fs::remove_file(&note).map_err(failed)?;
    }
    run(compiler)?;
    fs::write(&note, how).map_err(failed)
}

fn is_newer_than_sources(object: &Path) -> Result<bool, String> {
    let Ok(made) = object.metadata().and_then(|file| file.modified()) else { return Ok(false) };
    for folder in C_FOLDERS {
        let failed = |error: std::io::Error| format!("{folder}: {error}");
        for entry in fs::read_dir(root().join(folder)).map_err(failed)? {
            let changed = entry.and_then(|entry| entry.metadata()?.modified()).map_err(failed)?;
            if changed >= made {
                return Ok(false);
            }
        }
    }
    Ok(true)
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
