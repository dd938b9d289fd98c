//! `cargo xtask c`: the C face on this machine. Builds the static and the shared library, and
//! compiles and runs every C test with every standard and compiler.

use crate::header;
use crate::sample;
use crate::tools::{cargo, compile_object, output, root, run, target_dir, work_dir};
use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const C_STANDARDS: [&str; 3] = ["c99", "c11", "c17"];
/// The one of them whose programs are optimised.
const OPTIMISED: &str = "c17";
const CPP_STANDARDS: [&str; 4] = ["c++11", "c++14", "c++17", "c++20"];
/// No fusing: the numbers of C code are compared too.
const FLAGS: [&str; 7] =
    ["-O2", "-ffp-contract=off", "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Werror"];
/// The static library by its file name, since the shared one is beside it, and what the Rust
/// standard library in it asks of the system.
const STATIC_LIBRARIES: [&str; 4] = ["-l:libspotwise.a", "-lpthread", "-ldl", "-lm"];

/// How a test is linked.
#[derive(Clone, Copy, PartialEq)]
enum Linkage {
    Static,
    Shared,
}

/// Builds and tests everything.
pub fn test() -> Result<(), String> {
    header::header(true)?;
    let libraries = build()?;
    exported(&libraries)?;
    for [c, cpp] in [["gcc", "g++"], ["clang", "clang++"]] {
        for standard in C_STANDARDS {
            // One of the standards is enough to see what an optimiser does, which takes most of the time.
            let optimised: &[&str] = if standard == OPTIMISED { &[] } else { &["-O0"] };
            for linkage in [Linkage::Static, Linkage::Shared] {
                let test = compile(&libraries, c, standard, "tests/c/face.c", linkage, optimised)?;
                run(&mut runner(&libraries, &test))?;
            }
            compile(&libraries, c, standard, "tests/c/replay.c", Linkage::Static, optimised)?;
        }
        for standard in CPP_STANDARDS {
            for linkage in [Linkage::Static, Linkage::Shared] {
                let test = compile(&libraries, cpp, standard, "tests/c/link.cpp", linkage, &[])?;
                run(&mut runner(&libraries, &test))?;
            }
        }
        println!("{c}, {cpp}: {C_STANDARDS:?}, {CPP_STANDARDS:?}, static and shared: passed");
    }
    // Optimised further, it takes more than a minute longer to compile.
    let checks = ["-fsanitize=address,undefined", "-fno-sanitize-recover=all", "-O1"];
    let test = compile(&libraries, "gcc", "c17", "tests/c/face.c", Linkage::Static, &checks)?;
    run(&mut runner(&libraries, &test))?;
    println!("with address and undefined-behaviour checks of the C side: passed");

    example(&libraries)?;
    static_against_shared()
}

/// Replays `blob` through the static library.
pub fn replay_static(blob: &Path, out: &Path) -> Result<(), String> {
    replay(blob, out, Linkage::Static)
}

/// Replays `blob` through the shared library.
pub fn replay_shared(blob: &Path, out: &Path) -> Result<(), String> {
    replay(blob, out, Linkage::Shared)
}

fn replay(blob: &Path, out: &Path, linkage: Linkage) -> Result<(), String> {
    let libraries = build()?;
    let program = compile(&libraries, "gcc", "c17", "tests/c/replay.c", linkage, &[])?;
    run(runner(&libraries, &program).arg(blob).arg(out))
}

/// Builds both libraries and returns the folder that holds them, by the names they install under.
fn build() -> Result<PathBuf, String> {
    run(cargo().args(["build", "--release", "--package", "spotwise-c"]))?;
    let folder = work_dir("c")?;
    for (from, to) in [
        ("libspotwise.a", "libspotwise.a"),
        ("libspotwise.so", "libspotwise.so.1"),
        ("libspotwise.so", "libspotwise.so"),
    ] {
        let from = target_dir().join("release").join(from);
        fs::copy(&from, folder.join(to)).map_err(|error| format!("{}: {error}", from.display()))?;
    }
    Ok(folder)
}

/// The shared library must export the functions of the header, and nothing else.
fn exported(libraries: &Path) -> Result<(), String> {
    let library = libraries.join("libspotwise.so");
    let list = output(
        Command::new("nm").args(["--dynamic", "--defined-only", "--format=just-symbols"]).arg(&library),
    )?;
    let exported: BTreeSet<String> = list.lines().map(str::to_owned).collect();
    let declared: BTreeSet<String> = header::functions()?.into_iter().collect();
    if exported != declared {
        let difference: Vec<&String> = exported.symmetric_difference(&declared).collect();
        return Err(format!("exported or declared, but not both: {difference:?}"));
    }
    // In English, whatever the language here.
    let mut readelf = Command::new("readelf");
    let dynamic = output(readelf.env("LC_ALL", "C").arg("--dynamic").arg(&library))?;
    if !dynamic.contains("Library soname: [libspotwise.so.1]") {
        return Err("the shared library has no soname".to_owned());
    }
    println!("the shared library exports the {} functions of the header and nothing else", declared.len());
    Ok(())
}

/// Compiles a test, links it, and returns the program.
fn compile(
    libraries: &Path,
    compiler: &str,
    standard: &str,
    source: &str,
    linkage: Linkage,
    more: &[&str],
) -> Result<PathBuf, String> {
    let source = root().join(source);
    let stem = source.file_stem().expect("a source file").to_string_lossy();
    let kind = if linkage == Linkage::Static { "static" } else { "shared" };
    let otherwise = if more.is_empty() { "" } else { "-otherwise" };
    let object = libraries.join(format!("{stem}-{compiler}-{standard}{otherwise}.o"));
    compile_object(compiling(compiler, standard).args(more), &source, &object)?;
    let program = libraries.join(format!("{stem}-{compiler}-{standard}-{kind}{otherwise}"));
    link(libraries, compiler, linkage, more, &object, &program)?;
    Ok(program)
}

/// Compiles a program of one source, and links it with the static library.
pub fn link_static(source: &Path, program: &Path) -> Result<(), String> {
    let object = program.with_extension("o");
    run(compiling("gcc", "c99").arg("-c").arg(source).arg("-o").arg(&object))?;
    link(&build()?, "gcc", Linkage::Static, &[], &object, program)
}

/// A compiler with its flags, but without a source.
fn compiling(compiler: &str, standard: &str) -> Command {
    let mut command = Command::new(compiler);
    command.arg(format!("-std={standard}")).args(FLAGS);
    command.arg(concat("-I", &root().join("include"))).arg(concat("-I", &root().join("tests/c")));
    command
}

fn link(
    libraries: &Path,
    compiler: &str,
    linkage: Linkage,
    more: &[&str],
    object: &Path,
    program: &Path,
) -> Result<(), String> {
    let mut command = Command::new(compiler);
    command.args(more).arg(concat("-L", libraries)).arg("-o").arg(program).arg(object);
    match linkage {
        Linkage::Static => command.arg("-Wl,--gc-sections").args(STATIC_LIBRARIES),
        Linkage::Shared => command.args(["-lspotwise", "-lm"]),
    };
    run(&mut command)
}

fn concat(option: &str, path: &Path) -> OsString {
    let mut text = OsString::from(option);
    text.push(path);
    text
}

/// A program that finds the shared library.
fn runner(libraries: &Path, program: &Path) -> Command {
    let mut command = Command::new(program);
    command.env("LD_LIBRARY_PATH", libraries);
    command
}

/// The example must say what the reference says: the numbers are those of `tests/reference/model_check.py`.
fn example(libraries: &Path) -> Result<(), String> {
    let program = compile(libraries, "gcc", "c99", "examples/c/focus_check.c", Linkage::Static, &[])?;
    let said = output(&mut runner(libraries, &program))?;
    for wanted in [
        "The detail holds, and the whole surface is in focus.",
        "Spot in focus 88.143 um.",
        "Spot in focus 89.378 um instead of 88.143 um, 0.138 mm nearer the lens.",
        "Spot in focus 97.524 um instead of 88.143 um, 0.391 mm nearer the lens.",
    ] {
        if !said.contains(wanted) {
            return Err(format!("the example does not say {wanted:?} but:\n{said}"));
        }
    }
    println!("examples/c/focus_check.c says what the reference says");

    // A tick of width a gets erf(a/(sqrt(2) w)) cos(incidence) of the full dose: at twice the threshold dose half of it is
    // enough. With focus on the crown the ticks at 4, 5 and 6 mm get 0.607, 0.458 and 0.334 of it; 0.6 mm below, all get
    // 0.52 or more. 1/0.334 is 2.99, to which the window's own precision adds.
    let program = compile(libraries, "gcc", "c99", "examples/c/preflight.c", Linkage::Static, &[])?;
    let said = output(&mut runner(libraries, &program))?;
    let parts: Vec<&str> = said.split("\n\n").collect();
    let wanted = [
        &["Grade: lost. Ticks lost: 2 of 7.", "x = 5.00 mm", "x = 6.00 mm", "ratio of 3.0"][..],
        &["Focus 0.63 mm below it.", "Ticks lost: 0 of 7."],
    ];
    for (part, wanted) in parts.iter().zip(wanted) {
        if let Some(missing) = wanted.iter().find(|wanted| !part.contains(**wanted)) {
            return Err(format!("the example does not say {missing:?} but:\n{said}"));
        }
    }
    println!("examples/c/preflight.c says what closed forms say");
    Ok(())
}

/// The same bytes from both libraries.
fn static_against_shared() -> Result<(), String> {
    let folder = work_dir("c")?;
    let [blob, one, other] = ["sample.in", "static.out", "shared.out"].map(|name| folder.join(name));
    sample::write(&blob)?;
    replay_static(&blob, &one)?;
    replay_shared(&blob, &other)?;
    same(&one, &other)?;
    println!("static and shared library: the same bytes for the sample rows");
    Ok(())
}

/// Whether two files hold the same bytes.
pub fn same(one: &Path, other: &Path) -> Result<(), String> {
    let read = |path: &Path| fs::read(path).map_err(|error| format!("{}: {error}", path.display()));
    if read(one)? == read(other)? {
        Ok(())
    } else {
        Err(format!("{} and {} differ", one.display(), other.display()))
    }
}
