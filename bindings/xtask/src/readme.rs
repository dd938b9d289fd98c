//! The README's snippets for C and JavaScript, compiled and run as they stand. (Its Rust snippet is
//! a documentation test of the crate.)

use crate::tools::{output, root, work_dir};
use std::fs;
use std::process::Command;

/// What every face prints, says the README.
const ANSWER: &str = "spot 88.143 um, depth 0.480 mm";

/// Runs both snippets. The C libraries and the WebAssembly package must have been built.
pub fn check() -> Result<(), String> {
    let readme = fs::read_to_string(root().join("README.md")).map_err(|error| error.to_string())?;
    if !readme.contains(&format!("`{ANSWER}`")) {
        return Err(format!("README.md no longer promises `{ANSWER}`"));
    }
    let folder = work_dir("readme")?;

    let source = folder.join("snippet.c");
    fs::write(&source, snippet(&readme, "c")?).map_err(|error| error.to_string())?;
    let program = folder.join("snippet");
    crate::c::link_static(&source, &program)?;
    answers("C", &output(&mut Command::new(program))?)?;

    // Inside the package its own name stands for what is built, as it would for a user.
    let script = snippet(&readme, "js")?;
    let node = ["--input-type=module", "-e", script.as_str()];
    answers("JavaScript", &output(Command::new("node").current_dir(root().join("bindings/wasm")).args(node))?)
}

/// The one block of this language.
fn snippet(readme: &str, language: &str) -> Result<String, String> {
    let blocks: Vec<&str> = readme.split(&format!("```{language}\n")).skip(1).collect();
    match blocks.as_slice() {
        [block] => Ok(block.split("```").next().unwrap_or_default().to_owned()),
        blocks => Err(format!("{} blocks of {language} in README.md, not 1", blocks.len())),
    }
}

fn answers(face: &str, printed: &str) -> Result<(), String> {
    println!("{face}: {}", printed.trim_end());
    if printed.trim_end() == ANSWER { Ok(()) } else { Err(format!("{face} does not print `{ANSWER}`")) }
}
