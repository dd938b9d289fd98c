//! `cargo xtask header`: the C header, made from the doc comments and items of `bindings/c`.

use crate::tools::root;
use cbindgen::{Builder, Config, DocumentationStyle, Language, Style};
use std::fs;

/// The first lines of the header, before any declaration. The cautions come from the core.
const OPENING: &str = include_str!("header_opening.txt");
const CAUTIONS: &str = include_str!("../../../src/cautions.md");
/// Widest line of the opening.
const WIDTH: usize = 100;

/// Marks calls whose status must not be dropped.
const MUST_USE: &str = "
/* Warns where the result of a call is dropped. */
#ifndef SPOTWISE_MUST_USE
#if defined(__GNUC__) || defined(__clang__)
#define SPOTWISE_MUST_USE __attribute__((warn_unused_result))
#else
#define SPOTWISE_MUST_USE
#endif
#endif

/* Calls on drawings are for desktop programs: the library for bare metal has none. */
#if !defined(SPOTWISE_BARE_METAL) && !defined(SPOTWISE_ARTWORK)
#define SPOTWISE_ARTWORK
#endif";

/// What opens each part of the header that the library for bare metal has not; `#endif` closes it.
const ARTWORK: &str = "#if defined(SPOTWISE_ARTWORK)";

/// Writes `include/spotwise.h`; with `check_only`, fails if the file differs from what would be
/// written.
pub fn header(check_only: bool) -> Result<(), String> {
    let path = root().join("include").join("spotwise.h");
    let wanted = generate()?;
    if !check_only {
        return fs::write(&path, wanted).map_err(|error| format!("{}: {error}", path.display()));
    }
    let found = fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
    if found == wanted {
        println!("include/spotwise.h is what bindings/c says");
        return Ok(());
    }
    let line = found.lines().zip(wanted.lines()).take_while(|(found, wanted)| found == wanted).count() + 1;
    Err(format!("include/spotwise.h differs from bindings/c at line {line}: run `cargo xtask header`"))
}

fn generate() -> Result<String, String> {
    let mut config = Config {
        language: Language::C,
        style: Style::Both,
        cpp_compat: true,
        include_guard: Some("SPOTWISE_H".to_owned()),
        header: Some(opening()),
        after_includes: Some(MUST_USE.to_owned()),
        no_includes: true,
        sys_includes: vec!["stddef.h".to_owned(), "stdint.h".to_owned()],
        usize_is_size_t: true,
        documentation_style: DocumentationStyle::Doxy,
        line_length: 110,
        tab_width: 4,
        ..Config::default()
    };
    config.defines.insert("feature = artwork".to_owned(), "SPOTWISE_ARTWORK".to_owned());
    config.function.must_use = Some("SPOTWISE_MUST_USE".to_owned());
    config.export.exclude = vec!["spotwise_panic_is_reachable".to_owned()];
    let bindings = Builder::new()
        .with_crate(root().join("bindings").join("c"))
        .with_config(config)
        .generate()
        .map_err(|error| format!("cbindgen: {error}"))?;
    let mut bytes = Vec::new();
    bindings.write(&mut bytes);
    let text = String::from_utf8(bytes).map_err(|error| error.to_string())?;
    // What stands together stands under one condition.
    let text = text.replace(&format!("#endif\n\n{ARTWORK}\n"), "\n");
    if text.is_ascii() {
        Ok(text)
    } else {
        Err("the header must be plain ASCII, for any compiler's source character set".to_owned())
    }
}

/// The opening, with the cautions folded to its width.
fn opening() -> String {
    let margin = " *   ";
    let mut lines = vec![margin.to_owned()];
    for word in CAUTIONS.split_whitespace() {
        let last = lines.last_mut().expect("never empty");
        if last.len() + word.len() > WIDTH {
            lines.push(format!("{margin}{word} "));
        } else {
            last.push_str(word);
            last.push(' ');
        }
    }
    let lines: Vec<&str> = lines.iter().map(|line| line.trim_end()).collect();
    OPENING.trim_end().replace(" *   @CAUTIONS@", &lines.join("\n"))
}

/// Every function that the header declares.
pub fn functions() -> Result<Vec<String>, String> {
    Ok(declared(&generate()?))
}

/// Every function that the header declares with SPOTWISE_BARE_METAL.
pub fn bare_metal_functions() -> Result<Vec<String>, String> {
    Ok(declared(&without_artwork(&generate()?)))
}

/// The header without the parts that are for desktop programs.
pub fn without_artwork(header: &str) -> String {
    let mut inside = false;
    let kept = header.lines().filter(|line| {
        inside |= *line == ARTWORK;
        let kept = !inside;
        inside &= *line != "#endif";
        kept
    });
    kept.map(|line| format!("{line}\n")).collect()
}

fn declared(header: &str) -> Vec<String> {
    let mut names: Vec<String> = header
        .lines()
        .filter(|line| !line.starts_with([' ', '#', '/', '}']) && line.contains('('))
        .filter_map(|line| line.split('(').next()?.rsplit([' ', '*']).next())
        .filter(|name| name.starts_with("spotwise_"))
        .map(str::to_owned)
        .collect();
    names.sort();
    names
}
