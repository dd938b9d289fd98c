//! Reads a series of test pieces at stepped heights: where focus is, how large the spot, how much above the threshold
//! the dose, and how far each of these may be trusted.
//!
//! ```text
//! cargo run --release --example read_test_pieces [SERIES.json | READINGS.csv] [PLOT.svg]
//! ```
//!
//! Without a file it takes an invented series: lines on the anodised scale plate of a rain gauge, eleven heights at
//! two powers, measured with a microscope and ranked by eye. `series_file.rs` and `readings.rs` say what a file of
//! your own looks like. Widths of marks, widths of the beam and ranks are each read in their own way, and whatever
//! can be told is printed: a refusal of one does not stop the others. With a lens and a speed, what was found is
//! printed as a calibration, which the checks of jobs take.

mod band;
#[path = "../chart/mod.rs"]
mod chart;
mod findings;
mod plot;
mod readings;
mod report;
mod series_file;

use findings::Findings;
use series_file::Series;
use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

const EXAMPLE: &str = include_str!("rain_gauge_pieces.json");
const EXAMPLE_READINGS: (&str, &str) = ("rain_gauge_pieces.csv", include_str!("rain_gauge_pieces.csv"));
const PLOT: &str = "read_test_pieces.svg";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    if arguments.len() > 2 || arguments.iter().any(|argument| argument.starts_with('-')) {
        eprintln!("usage: read_test_pieces [SERIES.json | READINGS.csv] [PLOT.svg]");
        return ExitCode::FAILURE;
    }
    let plot = arguments.get(1).map_or(PLOT, String::as_str);
    match run(arguments.first().map(String::as_str), Path::new(plot)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("read_test_pieces: {error}");
            ExitCode::FAILURE
        }
    }
}

fn run(file: Option<&str>, plot: &Path) -> Result<(), Box<dyn Error>> {
    let series = match file {
        None => series_file::read_json("embedded example", EXAMPLE, embedded)?,
        Some(path) => read(path)?,
    };
    let findings = Findings::of(&series)?;
    print!("{}", report::text(&series, &findings)?);
    plot::write(plot, &series, &findings)?;
    println!("\nPlot of the series: {}", plot.display());
    println!("\n{}", spotwise::CAUTIONS.trim_end());
    Ok(())
}

fn embedded(name: &str) -> Result<String, String> {
    let (known, text) = EXAMPLE_READINGS;
    if name == known { Ok(text.to_owned()) } else { Err(format!("the embedded example has no {name}")) }
}

fn read(path: &str) -> Result<Series, String> {
    let read_text =
        |path: &Path| fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()));
    let text = read_text(Path::new(path))?;
    if Path::new(path).extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv")) {
        return series_file::read_csv(path, &text);
    }
    series_file::read_json(path, &text, |name| read_text(&Path::new(path).with_file_name(name)))
}
