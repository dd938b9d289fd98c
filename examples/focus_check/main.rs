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
//!
//! Without a part, rise and fall of the job's surface are the whole range of heights. With a part, its shape has the
//! heights, and rise and fall are the tolerance of the set-up: by so much more may any place lie nearer to the lens
//! or farther from it. They are added at both ends of the shape.
//!
//! With a choice of lenses, these are ranked for the same drawing, dose and text: on the heights of the part alone,
//! and with a stack of tolerances in place of rise and fall.

mod job_file;
mod lens_choice;
mod part;
mod picture;
mod probes;
mod report;
mod surface_report;

use job_file::JobFile;
use part::Part;
use spotwise::{CellsPerSide, Job, SurfaceVerdict, Verdict};
use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

const EXAMPLE: &str = include_str!("rain_gauge.json");
const EXAMPLE_PROBES: (&str, &str) = ("rain_gauge_probes.csv", include_str!("rain_gauge_probes.csv"));
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
    let JobFile { job, part, lens_choice } = read_job(&title, &text)?;
    let part = part.map(|part| Part::of(part, |name| read_beside(job_file, name))).transpose();
    let part = part.map_err(|error| format!("{title}: {error}"))?;
    let (verdict, on_surface) = check(&job, part.as_ref()).map_err(|error| format!("{title}: {error}"))?;
    let heights = on_surface.as_ref().map(|found| found.extremes.range);
    let chosen = lens_choice.map(|lenses| lenses.choose(&job, heights)).transpose();
    let chosen = chosen.map_err(|error| format!("{title}: lens_choice: {error}"))?;

    print!("{}", report::text(&title, &job, &verdict)?);
    if let (Some(part), Some(on_surface)) = (&part, &on_surface) {
        print!("{}", surface_report::text(&job, part, on_surface)?);
    }
    if let Some(chosen) = &chosen {
        print!("{}", chosen.text()?);
    }
    picture::write(picture, &job, &verdict)?;
    println!("\nPicture of the beam through focus: {}", picture.display());
    println!("\n{}", spotwise::CAUTIONS.trim_end());
    Ok(())
}

/// The verdict, and what the shape of the part adds to it.
fn check(job: &Job, part: Option<&Part>) -> Result<(Verdict, Option<SurfaceVerdict>), spotwise::Error> {
    let Some(part) = part else {
        return Ok((job.check()?, None));
    };
    let on_surface = job.check_on(&part.surface(), part.region, CellsPerSide::default())?;
    Ok((on_surface.verdict, Some(on_surface)))
}

/// Reads a file beside that of the job.
fn read_beside(job_file: Option<&str>, name: &str) -> Result<String, String> {
    match job_file {
        None if name == EXAMPLE_PROBES.0 => Ok(EXAMPLE_PROBES.1.to_owned()),
        None => Err(format!("{name}: the embedded example has no such file")),
        Some(job_file) => {
            let path = Path::new(job_file).with_file_name(name);
            fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))
        }
    }
}

/// Reads a job, or says in one line which field is wrong and what it should be.
fn read_job(title: &str, text: &str) -> Result<JobFile, String> {
    let mut json = serde_json::Deserializer::from_str(text);
    let job =
        serde_path_to_error::deserialize(&mut json).map_err(|error| match error.path().to_string() {
            path if path == "." || path == "?" => format!("{title}: {}", error.inner()),
            path => format!("{title}: {path}: {}", error.inner()),
        })?;
    json.end().map_err(|error| format!("{title}: {error}"))?;
    Ok(job)
}
