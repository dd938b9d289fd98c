//! `cargo xtask firmware`: the C face on an emulated Cortex-M, without an operating system. Proves
//! that nothing panics, shows sizes, stack and instructions, and compares the numbers.
//!
//! The library for bare metal is **sealed**: one object in which every symbol but the functions of
//! the header is local. An open one has the double arithmetic of Rust's compiler support as weak
//! symbols, which a linker may replace by those of GCC's library; and that library's addition is
//! not correctly rounded where the exponents differ by 33 and the sum loses a digit. GCC 12.2
//! gives 1 - 0x1.287260098be55p-33 as 0x1.fffffffed78d9p-1, where ...dap-1 is nearest. (Seen in a
//! replay; the cause read from its code: of the bits shifted out it keeps one and a sticky bit.)
//! The test firmware is therefore linked with GCC's arithmetic forced in.

use crate::c;
use crate::header;
use crate::replay::list::{Function, functions};
use crate::sample;
use crate::tools::{cargo, compile_object, output, root, run, target_dir, work_dir};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const TARGET: &str = "thumbv7em-none-eabihf";
/// The symbol that a program refers to exactly if a panic can be reached.
const PANIC: &str = "spotwise_panic_is_reachable";
const COMPILER: &str = "arm-none-eabi-gcc";
/// With how far each is optimised: calls are measured from the replay, but the tests of the face in `face.c` only
/// run, and would take half a minute to compile.
const SOURCES: [(&str, &str); 4] = [
    ("tests/firmware/startup.c", "-O2"),
    ("tests/firmware/main.c", "-O2"),
    ("tests/c/face.c", "-O1"),
    ("tests/c/replay.c", "-O2"),
];

/// An emulated board.
struct Board {
    machine: &'static str,
    about: &'static str,
    /// For rustc, besides the target.
    rust_flags: &'static str,
    c_flags: &'static [&'static str],
    /// Where its slow memory starts, for the linker script.
    slow_memory: &'static str,
}

const BOARDS: [Board; 2] = [
    Board {
        machine: "mps2-an386",
        about: "Cortex-M4F, doubles in software",
        rust_flags: "",
        c_flags: &["-mcpu=cortex-m4", "-mfpu=fpv4-sp-d16"],
        slow_memory: "0x21000000",
    },
    Board {
        machine: "mps2-an500",
        about: "Cortex-M7, doubles in hardware",
        rust_flags: "-Ctarget-cpu=cortex-m7",
        c_flags: &["-mcpu=cortex-m7", "-mfpu=fpv5-d16"],
        slow_memory: "0x60000000",
    },
];

/// Builds, proves, measures and compares.
pub fn test() -> Result<(), String> {
    let folder = work_dir("firmware")?;
    let [blob, desktop] = ["sample.in", "desktop.out"].map(|name| folder.join(name));
    sample::write(&blob)?;
    c::replay_static(&blob, &desktop)?;
    for board in &BOARDS {
        println!("== {}: {}", board.machine, board.about);
        let out = folder.join(format!("{}.out", board.machine));
        print!("{}", replay_on(board, &blob, &out)?);
        c::same(&desktop, &out)?;
        println!("the same bytes as on this machine for the sample rows");
        sizes(board)?;
    }
    let [board, _] = &BOARDS;
    proof_can_fail(board)?;
    Ok(())
}

/// Replays `blob` on the board with doubles in hardware, and shows what the calls took.
pub fn replay_hardware(blob: &Path, out: &Path) -> Result<(), String> {
    let [_, board] = &BOARDS;
    show(board, &replay_on(board, blob, out)?);
    Ok(())
}

/// Replays what it can of `blob` on the board with doubles in software, shows what the calls took, and
/// compares with `answers`.
pub fn replay_software(blob: &Path, answers: &Path) -> Result<(), String> {
    let [board, _] = &BOARDS;
    let folder = work_dir("firmware")?;
    let [shorter, wanted, found] = ["short.in", "short.wanted", "short.out"].map(|name| folder.join(name));
    let left_out = shorten(blob, answers, &shorter, &wanted)?;
    show(board, &replay_on(board, &shorter, &found)?);
    println!("{left_out} rows of partly coherent waves and of surfaces were left to the other board");
    c::same(&wanted, &found)
}

fn show(board: &Board, said: &str) {
    println!("== {}: {}\n{said}", board.machine, board.about);
}

/// Of rows that take long in software doubles this board answers one in so many; the other answers all.
fn one_in(function: &Function, question: &[u8]) -> Option<usize> {
    match function.name.as_str() {
        // Over a thousand million instructions each: some seconds.
        "focus_for_surface" => Some(16),
        // Up to three seconds each.
        name if name.starts_with("wave_") && is_partly_coherent(function, question) => Some(3),
        _ => None,
    }
}

/// Copies the rows of a replay, and the answers to them, but for searches over partly coherent waves, each of
/// which takes up to a minute in software doubles, and for most of the rows that `one_in` names. Those refused
/// all stay. Returns how many were left out.
fn shorten(blob: &Path, out: &Path, shorter: &Path, wanted: &Path) -> Result<usize, String> {
    let read = |path: &Path| fs::read(path).map_err(|error| format!("{}: {error}", path.display()));
    let (questions, answers) = (read(blob)?, read(out)?);
    let word = |bytes: &[u8], at: usize| {
        let word = bytes.get(at..at + 4).and_then(|word| word.try_into().ok());
        word.map(u32::from_le_bytes).ok_or("a replay ends too early")
    };
    let list = functions(&root().join("tests/vectors"))?;
    let opening = 12;
    let (mut kept, mut left_out) = (0_u32, 0);
    let mut met = vec![0; list.len()];
    let (mut in_rows, mut out_rows) = (Vec::new(), Vec::new());
    let (mut in_at, mut out_at) = (opening, opening);
    for _ in 0..word(&questions, 8)? {
        let index = word(&questions, in_at)? as usize;
        let function = &list[index];
        let question = &questions[in_at..in_at + 8 + 8 * function.inputs.len()];
        let answer = &answers[out_at..out_at + 16 + 8 * function.outputs.len()];
        (in_at, out_at) = (in_at + question.len(), out_at + answer.len());
        let code = word(answer, 0)?;
        let mut stays = true;
        if sample::is_search(function) && is_partly_coherent(function, question) {
            stays = matches!(code, 1..=3);
        } else if let (0, Some(n)) = (code, one_in(function, question)) {
            stays = met[index] % n == 0;
            met[index] += 1;
        }
        if !stays {
            left_out += 1;
        } else {
            kept += 1;
            in_rows.extend_from_slice(question);
            out_rows.extend_from_slice(answer);
        }
    }
    let write = |path: &Path, magic: &[u8], rows: Vec<u8>| {
        let bytes = [magic, &kept.to_le_bytes(), &rows].concat();
        fs::write(path, bytes).map_err(|error| format!("{}: {error}", path.display()))
    };
    write(shorter, &questions[..8], in_rows)?;
    write(wanted, &answers[..8], out_rows)?;
    Ok(left_out)
}

/// Whether the wave of a row has M² > 1.
fn is_partly_coherent(function: &Function, question: &[u8]) -> bool {
    let numbers = question[8..].chunks_exact(8).map(|bytes| bytes.try_into().map(f64::from_le_bytes));
    numbers.zip(&function.inputs).any(|(number, name)| name == "m2" && number.is_ok_and(|m2| m2 > 1.0))
}

/// Runs the whole firmware on a board with `blob` as its replay, and returns what it printed.
fn replay_on(board: &Board, blob: &Path, out: &Path) -> Result<String, String> {
    let folder = work_dir(&format!("firmware/{}", board.machine))?;
    let program = folder.join("firmware.elf");
    run(&mut link(board, &library(board, false)?, &program)?)?;
    // Linked, so that the symbol cannot be in it; but a link may be made lenient one day.
    if output(Command::new("arm-none-eabi-nm").arg(&program))?.contains(PANIC) {
        return Err(format!("the firmware refers to {PANIC}"));
    }

    let failed = |error: std::io::Error| format!("{}: {error}", folder.display());
    let written = folder.join("replay.out");
    fs::copy(blob, folder.join("replay.in")).map_err(failed)?;
    if written.exists() {
        fs::remove_file(&written).map_err(failed)?;
    }
    let mut emulator = Command::new("qemu-system-arm");
    emulator.current_dir(&folder).args(["-M", board.machine, "-display", "none", "-monitor", "none"]);
    emulator.args(["-serial", "none", "-semihosting-config", "enable=on,target=native"]);
    // Each instruction takes 2^5 ns of virtual time: the counts are the same on every run.
    emulator.args(["-icount", "shift=5", "-kernel"]).arg(&program);
    let said = output(&mut emulator)?;
    if !said.contains("firmware: passed") {
        return Err(format!("{}: the firmware did not finish:\n{said}", board.machine));
    }
    fs::copy(&written, out).map_err(failed)?;
    Ok(said)
}

/// Builds the sealed library for each kind of processor, and says where it is.
pub fn build() -> Result<(), String> {
    for board in &BOARDS {
        println!("{}: {}", board.about, library(board, false)?.display());
    }
    Ok(())
}

/// The sealed library; with `panics`, the one in which a panic can be reached.
fn library(board: &Board, panics: bool) -> Result<PathBuf, String> {
    let build = target_dir().join("xtask").join("firmware").join(board.machine).join("cargo");
    let mut command = cargo();
    command.args(["rustc", "--package", "spotwise-c", "--profile", "firmware", "--target", TARGET]);
    command.args(["--no-default-features", "--crate-type", "staticlib", "--target-dir"]).arg(&build);
    command.env("RUSTFLAGS", board.rust_flags);
    if panics {
        command.args(["--features", "reachable-panic"]);
    }
    run(&mut command)?;
    let built = build.join(TARGET).join("firmware").join("libspotwise.a");
    let folder = if panics {
        format!("firmware/{}/with-panic", board.machine)
    } else {
        format!("firmware/{}", board.machine)
    };
    seal(&built, &work_dir(&folder)?)
}

/// Makes one object of what the functions of the header need, with every other symbol local.
fn seal(open: &Path, folder: &Path) -> Result<PathBuf, String> {
    let [object, sealed] = ["spotwise.o", "libspotwise.a"].map(|name| folder.join(name));
    let mut link = Command::new("arm-none-eabi-ld");
    link.args(["--relocatable", "--gc-sections"]);
    link.args(header::bare_metal_functions()?.iter().map(|name| format!("--undefined={name}")));
    run(link.arg(open).arg("-o").arg(&object))?;
    let mut hide = Command::new("arm-none-eabi-objcopy");
    hide.args(["--wildcard", "--keep-global-symbol=spotwise_*", "--strip-debug"]);
    // What Rust keeps for its own linking confuses plugins of the binary tools.
    run(hide.args(["--remove-section=.llvmbc", "--remove-section=.llvmcmd"]).arg(&object))?;
    if sealed.exists() {
        fs::remove_file(&sealed).map_err(|error| format!("{}: {error}", sealed.display()))?;
    }
    run(Command::new("arm-none-eabi-ar").arg("rcs").arg(&sealed).arg(&object))?;
    Ok(sealed)
}

fn compiler(board: &Board) -> Command {
    let mut command = Command::new(COMPILER);
    command.current_dir(root()).args(["-mthumb", "-mfloat-abi=hard"]).args(board.c_flags);
    command
}

/// The sources of the test firmware, compiled.
fn objects(board: &Board) -> Result<Vec<PathBuf>, String> {
    let folder = work_dir(&format!("firmware/{}", board.machine))?;
    let object = |(source, optimised): &(&str, &str)| {
        let mut command = compiler(board);
        command.args([
            "-std=c11",
            optimised,
            "-g",
            "-ffp-contract=off",
            "-ffunction-sections",
            "-fdata-sections",
        ]);
        command.args(["-Wall", "-Wextra", "-Werror", "-DSPOTWISE_BARE_METAL", "-DSPOTWISE_MEASURE"]);
        command.args(["-Iinclude", "-Itests/c", "-Itests/firmware"]);
        let source = Path::new(source);
        let object = folder.join(source.file_name().expect("a source file")).with_extension("o");
        compile_object(&mut command, source, &object)?;
        Ok(object)
    };
    SOURCES.iter().map(object).collect()
}

/// The link of the test firmware, with every function of the header in it.
fn link(board: &Board, library: &Path, program: &Path) -> Result<Command, String> {
    let mut command = compiler(board);
    // GCC's own arithmetic comes first: the library must not use it.
    command.args(["-Wl,--undefined=__aeabi_dadd", "-Wl,--undefined=__aeabi_ddiv", "-lgcc"]);
    command.args(objects(board)?).arg(library);
    command.args(["-nostartfiles", "--specs=rdimon.specs", "-T", "tests/firmware/board.ld"]);
    command.arg(format!("-Wl,--defsym=slow_memory={}", board.slow_memory));
    command.args(["-Wl,--gc-sections", "-Wl,-z,noexecstack"]);
    command.args(header::bare_metal_functions()?.iter().map(|name| format!("-Wl,--undefined={name}")));
    command.arg("-o").arg(program);
    Ok(command)
}

/// A library in which a panic can be reached must not link, and the linker must say why.
fn proof_can_fail(board: &Board) -> Result<(), String> {
    let program = work_dir(&format!("firmware/{}", board.machine))?.join("must-not-link.elf");
    let mut command = link(board, &library(board, true)?, &program)?;
    let result = command.output().map_err(|error| format!("{command:?}: {error}"))?;
    let said = String::from_utf8_lossy(&result.stderr);
    if result.status.success() {
        return Err("a library in which a panic can be reached links: the proof proves nothing".to_owned());
    }
    if !said.contains(&format!("undefined reference to `{PANIC}'")) {
        return Err(format!("the link fails, but not for the panic:\n{said}"));
    }
    println!("no panic can be reached; and one that could be does not link");
    Ok(())
}

/// Bytes of the library in a program that calls all of it, or one function.
fn sizes(board: &Board) -> Result<(), String> {
    let library = library(board, false)?;
    let all = header::bare_metal_functions()?;
    println!("{:<28} {:>8} {:>8} {:>8}", "bytes of the library", ".text", ".rodata", ".bss");
    size(board, &library, "every function", &all)?;
    for one in [
        "spotwise_focus_check",
        "spotwise_depth_of_focus",
        "spotwise_defocus",
        "spotwise_focus_singlet",
        "spotwise_wave_irradiance",
        "spotwise_wave_depth_of_focus",
        "spotwise_wave_map",
    ] {
        size(board, &library, one, &[one.to_owned()])?;
    }
    Ok(())
}

fn size(board: &Board, library: &Path, name: &str, functions: &[String]) -> Result<(), String> {
    let program = work_dir(&format!("firmware/{}", board.machine))?.join("size.elf");
    let mut command = compiler(board);
    command
        .args(["-nostartfiles", "-nostdlib", "-Wl,--gc-sections"])
        .arg(format!("-Wl,--entry={}", functions[0]));
    command.args(functions.iter().map(|name| format!("-Wl,--undefined={name}")));
    command.arg(library).args(["-lc", "-lgcc", "-o"]).arg(&program);
    run(&mut command)?;
    let table = output(Command::new("arm-none-eabi-size").arg("-A").arg(&program))?;
    let bytes = |section: &str| -> u64 {
        let rows = table.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
        rows.filter(|row| row.len() == 3 && row[0] == section)
            .filter_map(|row| row[1].parse::<u64>().ok())
            .sum()
    };
    let (data, bss) = (bytes(".data"), bytes(".bss"));
    if data + bss != 0 {
        return Err(format!(
            "{name}: the library has {data} bytes of .data and {bss} of .bss, but no globals are allowed"
        ));
    }
    println!("{name:<28} {:>8} {:>8} {bss:>8}", bytes(".text"), bytes(".rodata"));
    Ok(())
}
