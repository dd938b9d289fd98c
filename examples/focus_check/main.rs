//! The main job: will this drawing's finest stroke, gap and text hold over this surface?
//!
//! ```text
//! cargo run --release --example focus_check [JOB.json] [PICTURE.svg]
//! ```
//!
//! Without a job file it takes an invented one: the scale plate of a rain gauge, a strip of
//! anodised aluminium that bows away from the lens toward its ends. Its lens is a plano-convex one of
//! zinc selenide, set at its nominal focal length from the plate. An ideal lens would hold the detail
//! there; this one focuses nearer to itself, and to a larger spot. The dose follows from power, speed, line
//! interval and the threshold that test marks of this coating gave; its text is set in 4 point type.

mod picture;
mod report;

use spotwise::{Job, Verdict};
use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

const EXAMPLE: &str = include_str!("rain_gauge.json");
const EXAMPLE_TITLE: &str = "rain-gauge scale plate (embedded example)";
const PICTURE: &str = "focus_check.svg";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    if arguments.len() > 2 || arguments.iter().any(|argument| argument.starts_with('-')) {
        eprintln!("usage: focus_check [JOB.json] [PICTURE.svg]");
        return ExitCode::FAILURE;
    }
    let picture = arguments.get(1).map_or(PICTURE, String::as_str);
    match run(arguments.first().map(String::as_str), Path::new(picture)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("focus_check: {error}");
            ExitCode::FAILURE
        }
    }
}

fn run(job_file: Option<&str>, picture: &Path) -> Result<(), Box<dyn Error>> {
    let (title, text) = match job_file {
        None => (EXAMPLE_TITLE.to_owned(), EXAMPLE.to_owned()),
        Some(path) => {
            (path.to_owned(), fs::read_to_string(path).map_err(|error| format!("{path}: {error}"))?)
        }
    };
    let job = read_job(&title, &text)?;
    let verdict: Verdict = job.check().map_err(|error| format!("{title}: {error}"))?;

    print!("{}", report::text(&title, &job, &verdict)?);
    picture::write(picture, &job, &verdict)?;
    println!("\nPicture of the beam through focus: {}", picture.display());
    println!("\n{}", spotwise::CAUTIONS.trim_end());
    Ok(())
}

/// Reads a job, or says in one line which field is wrong and what it should be.
fn read_job(title: &str, text: &str) -> Result<Job, String> {
    let mut json = serde_json::Deserializer::from_str(text);
    let job =
        serde_path_to_error::deserialize(&mut json).map_err(|error| match error.path().to_string() {
            path if path == "." || path == "?" => format!("{title}: {}", error.inner()),
            path => format!("{title}: {path}: {}", error.inner()),
        })?;
    json.end().map_err(|error| format!("{title}: {error}"))?;
    Ok(job)
}
