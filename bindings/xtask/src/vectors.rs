//! Makes the vectors with the independent reference, or checks that they are what it makes.

use crate::tools::{root, run, work_dir};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Writes `tests/vectors/*.csv` anew; with `check`, fails if a file would change.
pub fn vectors(check: bool) -> Result<(), String> {
    let committed = root().join("tests/vectors");
    if !check {
        return generate(&committed);
    }
    let fresh = work_dir("vectors")?;
    fs::remove_dir_all(&fresh).map_err(|error| format!("{}: {error}", fresh.display()))?;
    fs::create_dir_all(&fresh).map_err(|error| format!("{}: {error}", fresh.display()))?;
    generate(&fresh)?;

    let names: BTreeSet<String> = tables(&committed)?.union(&tables(&fresh)?).cloned().collect();
    let differ: Vec<String> = names
        .into_iter()
        .filter(|name| fs::read(committed.join(name)).ok() != fs::read(fresh.join(name)).ok())
        .collect();
    if differ.is_empty() {
        println!("the vectors are what the reference makes");
        return Ok(());
    }
    Err(format!("not what the reference makes: {}; run `cargo xtask vectors`", differ.join(", ")))
}

fn generate(out: &Path) -> Result<(), String> {
    run(Command::new(python()?).current_dir(root()).arg("tests/reference/generate.py").arg("--out").arg(out))
}

fn tables(folder: &Path) -> Result<BTreeSet<String>, String> {
    let entries = fs::read_dir(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    Ok(entries
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| name.ends_with(".csv"))
        .collect())
}

/// A Python that has what the reference needs, at the releases it was written with.
fn python() -> Result<PathBuf, String> {
    let home = work_dir("python")?;
    let python = home.join("bin/python3");
    // `--clear` does away with what an interrupted run may have left.
    if !home.join("bin/pip").exists() {
        run(Command::new("python3").args(["-m", "venv", "--clear"]).arg(&home))?;
    }
    let requirements = root().join("tests/reference/requirements.txt");
    run(Command::new(&python)
        .args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r"])
        .arg(requirements))?;
    Ok(python)
}
