//! The same bits on every face: all rows of `tests/vectors/`, answered by each and compared.
//!
//! The rows travel as one file of plain numbers, little endian. In: the magic `SPOTREP1`, the
//! number of rows, then for each the function's place in the list, the number of inputs, and the
//! inputs. Out: `SPOTOUT1`, the number of rows, then for each the error code, the parameter's code,
//! the number of outputs, a zero, and the outputs; on error all NaN. NaN compares by class: every
//! runner writes the same one.

// What the tests read of a row is more than a replay needs.
#[allow(dead_code)]
#[path = "../../../tests/support/list.rs"]
pub mod list;

#[path = "../../../tests/support/dispatch.rs"]
mod dispatch;

use crate::tools::{root, work_dir};
use crate::{c, firmware, wasm};
use list::{Function, Row};
use std::fs;
use std::path::Path;
use std::thread;

type Face = (&'static str, fn(&Path, &Path) -> Result<(), String>);

/// Every face but Rust, whose answers the others must match, and but for the board with doubles in software, which
/// answers most rows only and runs beside these.
const FACES: &[Face] = &[
    ("C, static library", c::replay_static),
    ("C, shared library", c::replay_shared),
    ("TypeScript in Node", wasm::replay_node),
    ("TypeScript in Chromium", wasm::replay_browser),
    ("C on an emulated Cortex-M7", firmware::replay_hardware),
];

/// Replays every row on every face. Each face must have been built.
pub fn replay() -> Result<(), String> {
    let rows = rows()?;
    let folder = work_dir("replay")?;
    let blob = folder.join("rows.bin");
    write(&blob, &questions(&rows))?;
    let expected = rust_answers(&rows);
    let answers = folder.join("rust.bin");
    write(&answers, &expected)?;
    println!("{} rows, {} bytes of answers from Rust", rows.len(), expected.len());

    let (software, mut faults) = thread::scope(|scope| {
        let software = scope.spawn(|| firmware::replay_software(&blob, &answers));
        let faults = compare(&folder, &blob, &rows, &expected);
        (software.join(), faults)
    });
    let software = software.unwrap_or_else(|_| Err("broke off".to_owned()));
    faults.extend(software.err().map(|error| format!("C on an emulated Cortex-M4F: {error}")));
    if faults.is_empty() { Ok(()) } else { Err(faults.join("\n")) }
}

/// Has every face answer, and returns what differs, the first of each.
fn compare(folder: &Path, blob: &Path, rows: &[(u32, Function, Row)], expected: &[u8]) -> Vec<String> {
    let mut faults = Vec::new();
    for (n, (name, answer)) in FACES.iter().enumerate() {
        let out = folder.join(format!("face{n}.bin"));
        let _ = fs::remove_file(&out); // so that no stale answer can pass
        let read = || fs::read(&out).map_err(|error| format!("{}: {error}", out.display()));
        let found = match answer(blob, &out).and_then(|()| read()) {
            Ok(got) => differences(rows, expected, &got),
            Err(error) => vec![error],
        };
        println!("{:>7} differences  {name}", found.len());
        faults.extend(found.into_iter().take(10).map(|fault| format!("{name}: {fault}")));
    }
    faults
}

/// Every row of every function, with the function's place in the list.
fn rows() -> Result<Vec<(u32, Function, Row)>, String> {
    let vectors = root().join("tests/vectors");
    let mut all = Vec::new();
    for (n, function) in (0..).zip(list::functions(&vectors)?) {
        for row in list::rows(&vectors, &function)? {
            all.push((n, function.clone(), row));
        }
    }
    Ok(all)
}

fn count(length: usize) -> [u8; 4] {
    u32::try_from(length).expect("fewer than 2^32 numbers").to_le_bytes()
}

fn questions(rows: &[(u32, Function, Row)]) -> Vec<u8> {
    let mut blob = b"SPOTREP1".to_vec();
    blob.extend(count(rows.len()));
    for (n, _, row) in rows {
        blob.extend(n.to_le_bytes());
        blob.extend(count(row.inputs.len()));
        blob.extend(row.inputs.iter().flat_map(|input| input.to_le_bytes()));
    }
    blob
}

fn rust_answers(rows: &[(u32, Function, Row)]) -> Vec<u8> {
    let mut blob = b"SPOTOUT1".to_vec();
    blob.extend(count(rows.len()));
    for (_, function, row) in rows {
        let (code, param, outputs) = match dispatch::call(&function.name, &row.inputs) {
            Ok(outputs) => (0, 0, outputs),
            Err(error) => (error.code(), error.param() as u32, vec![f64::NAN; function.outputs.len()]),
        };
        for word in [code, param] {
            blob.extend(word.to_le_bytes());
        }
        blob.extend(count(outputs.len()));
        blob.extend(0_u32.to_le_bytes());
        for output in outputs {
            let bits = if output.is_nan() { 0x7ff8_0000_0000_0000 } else { output.to_bits() };
            blob.extend(bits.to_le_bytes());
        }
    }
    blob
}

/// Every row whose answers are not the same bytes.
fn differences(rows: &[(u32, Function, Row)], expected: &[u8], got: &[u8]) -> Vec<String> {
    if got.len() != expected.len() {
        return vec![format!("{} bytes of answers, {} expected", got.len(), expected.len())];
    }
    let mut found = Vec::new();
    let opening = 12;
    if got[..opening] != expected[..opening] {
        found.push("the opening differs".to_owned());
    }
    let mut at = opening;
    for (_, function, row) in rows {
        let end = at + 16 + 8 * function.outputs.len();
        if got[at..end] != expected[at..end] {
            found.push(format!(
                "{}: {} against {}",
                row.id,
                answer(&got[at..end]),
                answer(&expected[at..end])
            ));
        }
        at = end;
    }
    found
}

/// One answer, for a message.
fn answer(bytes: &[u8]) -> String {
    let word = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().expect("four bytes"));
    let outputs: Vec<String> = bytes[16..]
        .chunks_exact(8)
        .map(|chunk| format!("{:e}", f64::from_le_bytes(chunk.try_into().expect("eight bytes"))))
        .collect();
    format!("error {} of {} [{}]", word(0), word(4), outputs.join(" "))
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), String> {
    fs::write(path, bytes).map_err(|error| format!("{}: {error}", path.display()))
}
