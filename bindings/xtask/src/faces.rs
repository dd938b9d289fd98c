//! Proves from the one list of functions that each stands on every face, and that none of the model
//! stands on one outside the list. (TypeScript has further words, for units and roles; none of them
//! reaches the model but through the WebAssembly module, which is held to the list.) That they also
//! give the same bits is the replay's to prove.

use crate::replay::list::functions;
use crate::tools::{output, root};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

type Names = BTreeSet<String>;

/// Functions that only tell how long an array of the caller's must be; the replay of the function that
/// takes the array cannot pass without them.
const SIZES: [&str; 1] = ["wave_map_workspace"];

/// Fails with every name that is missing somewhere, or that stands on a face but not in the list.
pub fn check() -> Result<(), String> {
    let list: Names =
        functions(&root().join("tests/vectors"))?.into_iter().map(|function| function.name).collect();
    let mut faults = Vec::new();
    let mut compare = |face: &str, found: &Names| {
        faults.extend(list.difference(found).map(|name| format!("{name} is missing: {face}")));
        let unlisted = found.difference(&list).filter(|name| !SIZES.contains(&name.as_str()));
        faults.extend(unlisted.map(|name| format!("{name} is not in the list: {face}")));
        println!("{:>4} functions  {face}", found.len());
    };
    let mut typed = arms("tests/support/typed.rs")?;
    typed.extend(arms("tests/support/typed_mark.rs")?);
    typed.extend(arms("tests/support/typed_height_map.rs")?);
    typed.extend(arms("tests/support/typed_tolerance.rs")?);
    typed.extend(arms("tests/support/typed_height_budget.rs")?);
    typed.extend(arms("tests/support/typed_shape.rs")?);
    typed.extend(arms("tests/support/typed_lens_choice.rs")?);
    typed.extend(arms("tests/support/typed_in_focus.rs")?);
    typed.extend(arms("tests/support/typed_scan_field.rs")?);
    typed.extend(arms("tests/support/typed_learn.rs")?);
    typed.extend(arms("tests/support/typed_beam_fit.rs")?);
    typed.extend(arms("tests/support/typed_threshold_fit.rs")?);
    typed.extend(arms("tests/support/typed_diagnosis.rs")?);
    typed.extend(arms("tests/support/typed_by_eye.rs")?);
    typed.extend(arms("tests/support/typed_plan.rs")?);
    typed.extend(arms("tests/support/typed_calibration.rs")?);
    compare("Rust model (src/model)", &model_functions()?);
    compare("Rust typed layer (tests/support/typed.rs)", &typed);
    compare("C (include/spotwise.h)", &header_functions()?);
    compare("WebAssembly (bindings/wasm/src)", &module_functions()?);
    compare("TypeScript (bindings/wasm, built)", &typescript_functions(&list)?);
    compare("vectors (tests/vectors)", &vector_files()?);
    if faults.is_empty() { Ok(()) } else { Err(faults.join("\n")) }
}

fn read(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))
}

/// The names of the public free functions of a source. (Methods are indented.)
fn public_functions(source: &str) -> impl Iterator<Item = String> {
    source.lines().filter_map(|line| line.strip_prefix("pub fn ")).map(identifier)
}

/// The identifier at the start of a text.
fn identifier(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

/// Every public free function of the model.
fn model_functions() -> Result<Names, String> {
    fn visit(folder: &Path, names: &mut Names) -> Result<(), String> {
        let entries = fs::read_dir(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
        for entry in entries {
            let path = entry.map_err(|error| error.to_string())?.path();
            if path.is_dir() {
                visit(&path, names)?;
            } else {
                let source = read(&path)?;
                names.extend(public_functions(&source));
            }
        }
        Ok(())
    }
    let mut names = Names::new();
    visit(&root().join("src/model"), &mut names)?;
    Ok(names)
}

/// The names on which a dispatcher matches.
fn arms(file: &str) -> Result<Names, String> {
    let source = read(&root().join(file))?;
    Ok(source
        .lines()
        .filter_map(|line| line.trim_start().strip_prefix('"')?.split_once("\" =>"))
        .map(|(name, _)| name.to_owned())
        .collect())
}

/// Every function of the header that can fail for a reason of the model: those that report one. Those on drawings
/// have no vectors, but tests of their own.
fn header_functions() -> Result<Names, String> {
    let header = crate::header::without_artwork(&read(&root().join("include/spotwise.h"))?);
    let code: String = header.lines().filter(|line| !line.trim_start().starts_with('*')).collect();
    Ok(code
        .split(';')
        .filter(|declaration| declaration.contains("spotwise_error *error)"))
        .filter_map(|declaration| {
            let before_arguments = declaration.split('(').find(|part| part.contains("spotwise_"))?;
            let name = before_arguments.rsplit_once("spotwise_")?.1;
            Some(identifier(name))
        })
        .collect())
}

/// What the WebAssembly module exports of the model.
fn module_functions() -> Result<Names, String> {
    let mut names = Names::new();
    let optics = ["optics", "glass", "singlet", "clipping", "plate", "path", "gantry", "wave"];
    let marking = [
        "dose",
        "material",
        "isolated",
        "fill",
        "raster",
        "blur",
        "crisp",
        "pulsed",
        "compensation",
        "lettering",
        "shape",
        "in_focus",
    ];
    let surface = ["height_map", "tolerance", "height_budget", "lens_choice", "scan_field", "surface_check"];
    let learn =
        ["statistics", "beam_fit", "threshold_fit", "diagnosis", "calibration", "by_eye", "plan", "mark_fit"];
    let modules =
        optics.into_iter().chain(["focus", "mark", "check"]).chain(marking).chain(surface).chain(learn);
    for module in modules {
        let source = read(&root().join(format!("bindings/wasm/src/{module}.rs")))?;
        names.extend(public_functions(&source));
    }
    Ok(names)
}

/// The functions of the list that the built package exports under their names in camel case.
fn typescript_functions(list: &Names) -> Result<Names, String> {
    let script = "import('./bindings/wasm/dist/spotwise.mjs')\
        .then(s => console.log(Object.keys(s).filter(k => typeof s[k] === 'function').join(' ')))";
    let exported = output(Command::new("node").current_dir(root()).args(["-e", script]))?;
    let exported: BTreeSet<&str> = exported.split_whitespace().collect();
    Ok(list.iter().filter(|name| exported.contains(camel_case(name).as_str())).cloned().collect())
}

fn camel_case(name: &str) -> String {
    let mut words = name.split('_');
    let first = words.next().unwrap_or_default().to_owned();
    words.fold(first, |text, word| {
        let (initial, rest) = word.split_at(1);
        text + &initial.to_uppercase() + rest
    })
}

fn vector_files() -> Result<Names, String> {
    let folder = root().join("tests/vectors");
    let entries = fs::read_dir(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    Ok(entries
        .filter_map(|entry| {
            entry.ok()?.file_name().into_string().ok()?.strip_suffix(".csv").map(str::to_owned)
        })
        .collect())
}
