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
//! A job may name a `calibration`, what test pieces told of the machine, in the place of laser, raw beam, lens, focus and
//! threshold: as an object, or as the name of a file beside the job's.
//!
//! With a choice of lenses, these are ranked for the same drawing, dose and text: on the heights of the part alone,
//! and with a stack of tolerances in place of rise and fall.
//!
//! With a drawing on the part, `artwork`, its mark is predicted: whether it holds, where not, and what would help. The
//! set-up's tolerance plays no part in it. Beside `PICTURE.svg` it writes `PICTURE_mark.png` and `PICTURE_mark.json`.

mod artwork;
mod canvas;
#[path = "../chart/mod.rs"]
mod chart;
mod drawing_file;
mod job_file;
mod lens_choice;
mod machine;
mod mark_check;
mod mark_json;
mod mark_picture;
mod mark_report;
mod part;
mod picture;
mod places;
mod probes;
mod progress;
mod report;
mod surface_report;

use job_file::{JobFile, OnMachine};
use lens_choice::ChoiceText;
use machine::Machine;
use mark_check::MarkCheck;
use part::Part;
use serde::de::DeserializeSeed;
use spotwise::{CellsPerSide, Job, SurfaceVerdict, Verdict};
use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

const EXAMPLE: &str = include_str!("rain_gauge.json");
const EXAMPLE_FILES: [(&str, &[u8]); 2] = [
    ("rain_gauge_probes.csv", include_bytes!("rain_gauge_probes.csv")),
    ("rain_gauge_plate.png", include_bytes!("rain_gauge_plate.png")),
];
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
    let machine = Machine::of(&text, |name| read_beside(job_file, name));
    let machine = machine.map_err(|error| format!("{title}: {error}"))?;
    let JobFile { job, part, artwork, lens_choice } = read_job(&title, &text, machine.as_ref())?;
    let part = part.map(|part| Part::of(part, |name| read_beside(job_file, name))).transpose();
    let part = part.map_err(|error| format!("{title}: {error}"))?;
    let (verdict, on_surface) = check(&job, part.as_ref()).map_err(|error| format!("{title}: {error}"))?;
    let drawing =
        artwork.map(|artwork| artwork.load(part.as_ref(), |name| read_beside(job_file, name))).transpose();
    let drawing = drawing.map_err(|error| format!("{title}: artwork: {error}"))?;
    let heights = on_surface.as_ref().map(|found| found.extremes.range);
    let lenses = lens_choice.as_ref().map_or(Vec::new(), ChoiceText::lenses);
    let calibration = machine.as_ref().map(|machine| &machine.calibration);
    let chosen = lens_choice.map(|lenses| lenses.choose(&job, heights, calibration)).transpose();
    let chosen = chosen.map_err(|error| format!("{title}: lens_choice: {error}"))?;

    let marked = match (&drawing, &part) {
        (Some(drawing), Some(part)) => {
            let tell = |found: &_| println!("{}\n", mark_report::at_once(drawing, found));
            Some(MarkCheck::of(&job, drawing, part, &lenses, tell))
        }
        _ => None,
    };
    let marked = marked.transpose().map_err(|error| format!("{title}: artwork: {error}"))?;

    print!("{}", report::text(&title, &job, &verdict)?);
    if let Some(machine) = &machine {
        print!("{}", machine.text(&job.dose)?);
    }
    if let (Some(part), Some(on_surface)) = (&part, &on_surface) {
        print!("{}", surface_report::text(&job, part, on_surface)?);
    }
    if let Some(chosen) = &chosen {
        print!("{}", chosen.text()?);
    }
    if let Some(marked) = &marked {
        print!("{}", mark_report::text(marked)?);
    }
    picture::write(picture, &job, &verdict)?;
    println!("\nPicture of the beam through focus: {}", picture.display());
    if let Some(marked) = &marked {
        let (mark, document) = (beside(picture, "_mark.png"), beside(picture, "_mark.json"));
        mark_picture::write(&mark, marked)?;
        let text = serde_json::to_string_pretty(&mark_json::document(marked))?;
        fs::write(&document, text + "\n").map_err(|error| format!("{}: {error}", document.display()))?;
        println!("Picture of the mark: {}, and all of it as JSON: {}", mark.display(), document.display());
    }
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

/// A file beside the picture, of its name with another ending.
fn beside(picture: &Path, ending: &str) -> PathBuf {
    let mut name = picture.file_stem().unwrap_or_default().to_owned();
    name.push(ending);
    picture.with_file_name(name)
}

/// Reads a file beside that of the job.
fn read_beside(job_file: Option<&str>, name: &str) -> Result<Vec<u8>, String> {
    match job_file {
        None => EXAMPLE_FILES
            .iter()
            .find(|file| file.0 == name)
            .map(|file| file.1.to_vec())
            .ok_or_else(|| format!("{name}: the embedded example has no such file")),
        Some(job_file) => {
            let path = Path::new(job_file).with_file_name(name);
            fs::read(&path).map_err(|error| format!("{}: {error}", path.display()))
        }
    }
}

/// Reads a job, or says in one line which field is wrong and what it should be.
fn read_job(title: &str, text: &str, machine: Option<&Machine>) -> Result<JobFile, String> {
    let mut json = serde_json::Deserializer::from_str(text);
    let mut track = serde_path_to_error::Track::new();
    let tracked = serde_path_to_error::Deserializer::new(&mut json, &mut track);
    let job = OnMachine(machine).deserialize(tracked).map_err(|error| match track.path().to_string() {
        path if path == "." || path == "?" => format!("{title}: {error}"),
        path => format!("{title}: {path}: {error}"),
    })?;
    json.end().map_err(|error| format!("{title}: {error}"))?;
    Ok(job)
}
