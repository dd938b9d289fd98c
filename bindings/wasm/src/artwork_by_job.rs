//! The preflight of a drawing by a job.

use crate::artwork_job::first;
use crate::check::{JOB, job_of};
use crate::exchange::answer;
use spotwise::Error;
use spotwise::artwork::{self, Answer, Drawing, DrawingUse, JobMarking, Preflight, SampleKind, Scan};
use spotwise::model::surface::Surface;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`artwork::preflight_of_job`] for any drawing and surface. The numbers are those of the job as `focus_check` takes
/// them, the visible depth, the bridge and the area of specks; the outputs are the numbers of a preflight without drawing and surface.
#[wasm_bindgen]
pub fn preflight_of_job(numbers: &[f64]) -> u32 {
    let found = || -> Result<_, Error> {
        let job = job_of(&first::<JOB>(numbers))?;
        let [visible_depth, bridge, speck_area] = first(numbers.get(JOB..).unwrap_or(&[]));
        let marking = JobMarking { visible_depth, bridge, speck_area };
        // Neither is looked at here: they pass through.
        let drawing = Drawing {
            samples: &[],
            width: 0,
            height: 0,
            row_stride: 0,
            pitch_x: f64::NAN,
            pitch_y: f64::NAN,
            left_x: f64::NAN,
            top_y: f64::NAN,
            kind: SampleKind::Coverage,
            drawing_use: DrawingUse::Shapes,
        };
        let level = Surface::Plane { slope_x: 0.0, slope_y: 0.0 };
        artwork::preflight_of_job(&job, drawing, level, &marking)
    };
    answer(found().map(|preflight| layout(&preflight)))
}

fn layout(preflight: &Preflight<'_>) -> [f64; 18] {
    let Preflight { exposing, answer, dose_ratio, edge_tolerance, speck_area, .. } = preflight;
    let [line_interval, first_line] = match exposing.scan {
        Scan::AlongRows { line_interval, first_line } => [line_interval, first_line],
        _ => [f64::NAN; 2],
    };
    let [penetration, threshold, visible, bridge] = match *answer {
        Answer::LogarithmicBulk { penetration_depth, visible_depth } => {
            [penetration_depth, f64::NAN, visible_depth, f64::NAN]
        }
        Answer::LinearBulk { threshold_depth, visible_depth } => {
            [f64::NAN, threshold_depth, visible_depth, f64::NAN]
        }
        Answer::Melt { bridge } => [f64::NAN, f64::NAN, f64::NAN, bridge],
        _ => [f64::NAN; 4],
    };
    [
        exposing.beam.wavelength,
        exposing.beam.m2,
        exposing.beam.waist_diameter,
        exposing.focus_z,
        f64::from(u8::from(exposing.incidence_loss)),
        exposing.blur_along,
        exposing.blur_across,
        f64::from(exposing.scan.code()),
        line_interval,
        first_line,
        f64::from(answer.code()),
        penetration,
        threshold,
        visible,
        bridge,
        *dose_ratio,
        *edge_tolerance,
        *speck_area,
    ]
}
