//! The WebAssembly package: build it, test it, and answer a replay with it.

use crate::tools::{cargo, root, run, target_dir};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use wasm_bindgen_cli_support::Bindgen;

/// Flags of the compiler for the module alone: vectors of 128 bits, whatever flags the caller has set. Each result comes
/// from the same additions in the same order, so they change speed and never a bit.
const FLAGS: &str = "-Ctarget-feature=+simd128";

/// Builds the package into `bindings/wasm/dist`, and says how large it is.
pub fn build() -> Result<(), String> {
    run(cargo().env("CARGO_ENCODED_RUSTFLAGS", FLAGS).args([
        "build",
        "--package=spotwise-wasm",
        "--lib",
        "--profile=wasm",
        "--target=wasm32-unknown-unknown",
    ]))?;
    glue(&target_dir().join("wasm32-unknown-unknown/wasm/spotwise_wasm.wasm"))?;
    install()?;
    run(Command::new("node").current_dir(package()).arg("bundle.mjs"))
}

/// Writes the module and the JavaScript that speaks to it into `dist/glue`.
fn glue(compiled: &Path) -> Result<(), String> {
    let dist = package().join("dist");
    if dist.exists() {
        fs::remove_dir_all(&dist).map_err(|error| format!("{}: {error}", dist.display()))?;
    }
    let glue = dist.join("glue");
    Bindgen::new()
        .input_path(compiled)
        .web(true)
        .and_then(|bindgen| {
            bindgen
                .typescript(true)
                // Its bytes come with the bundle, never from an address.
                .omit_default_module_path(true)
                .remove_name_section(true)
                .remove_producers_section(true)
                .generate(&glue)
        })
        .map_err(|error| format!("wasm-bindgen: {error:#}"))?;
    // Describes the module's raw exports, and would hide from TypeScript that the bundler turns
    // the module into bytes.
    let raw = glue.join("spotwise_wasm_bg.wasm.d.ts");
    fs::remove_file(&raw).map_err(|error| format!("{}: {error}", raw.display()))
}

/// Builds the package and runs its tests, those of its types, bundlers and browser included.
pub fn test() -> Result<(), String> {
    build()?;
    // What Rust finds in drawings, for comparison.
    run(cargo().args([
        "test",
        "--package=spotwise",
        "--all-features",
        "--test=artwork",
        "answers_for_other_faces",
        "--",
        "--ignored",
    ]))?;
    // The folder that cargo gives to tests.
    let answers = target_dir().join("tmp");
    let mut npm = Command::new("npm");
    run(npm.current_dir(package()).args(["test", "--silent"]).env("SPOTWISE_ANSWERS", answers))
}

/// Answers a replay in Node. Needs [`build`] first.
pub fn replay_node(blob: &Path, out: &Path) -> Result<(), String> {
    replay("tests/replay-node.mjs", blob, out)
}

/// Answers a replay in Chromium. Needs [`build`] first.
pub fn replay_browser(blob: &Path, out: &Path) -> Result<(), String> {
    replay("tests/replay-browser.mjs", blob, out)
}

fn replay(script: &str, blob: &Path, out: &Path) -> Result<(), String> {
    let absolute =
        |path: &Path| std::path::absolute(path).map_err(|error| format!("{}: {error}", path.display()));
    run(Command::new("node").current_dir(package()).arg(script).arg(absolute(blob)?).arg(absolute(out)?))
}

/// Installs the locked npm packages unless they are there already. None of them needs its install
/// script.
fn install() -> Result<(), String> {
    let changed = |name: &str| package().join(name).metadata().and_then(|file| file.modified()).ok();
    let installed = changed("node_modules/.package-lock.json");
    if installed.is_some() && installed >= changed("package-lock.json") {
        return Ok(());
    }
    run(Command::new("npm").current_dir(package()).args(["ci", "--ignore-scripts"]))
}

fn package() -> PathBuf {
    root().join("bindings/wasm")
}
