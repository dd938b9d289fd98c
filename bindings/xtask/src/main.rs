//! The task runner: `cargo xtask <task>`.

mod c;
mod everything;
mod faces;
mod firmware;
mod header;
mod install;
mod readme;
mod replay;
mod sample;
mod tools;
mod vectors;
mod wasm;

use std::process::ExitCode;

const USAGE: &str = "\
usage: cargo xtask <task>
  test          everything below; what CI runs
  test STEP     one step of it, by the name that it prints
  install       install what the tests need, on Debian
  vectors       make tests/vectors anew; with --check, fail if a file would change
  replay        give every row to every face and compare the bits; build the faces first
  faces         prove that every function of the list stands on every face
  readme        run the README's snippets
  c             build the C libraries and run their tests on this machine
  firmware      run the tests of the C library for bare metal on an emulated Cortex-M
  firmware build  build that library and say where it is
  header        write include/spotwise.h; with --check, fail if it would change
  wasm          build the WebAssembly package
  wasm test     build it and run its tests";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let result = match arguments.as_slice() {
        ["test"] => everything::test(),
        ["test", step] => everything::test_one(step),
        ["install"] => install::install(),
        ["vectors"] => vectors::vectors(false),
        ["vectors", "--check"] => vectors::vectors(true),
        ["replay"] => replay::replay(),
        ["faces"] => faces::check(),
        ["readme"] => readme::check(),
        ["c"] => c::test(),
        ["firmware", "build"] => firmware::build(),
        ["firmware"] => firmware::test(),
        ["header"] => header::header(false),
        ["header", "--check"] => header::header(true),
        ["wasm"] => wasm::build(),
        ["wasm", "test"] => wasm::test(),
        _ => Err(USAGE.to_owned()),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}
