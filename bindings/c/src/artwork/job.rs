//! The preflight of a drawing by a job.

use super::exposing::spotwise_exposing;
use super::marking::spotwise_marking;
use crate::abi::{Fault, Plain, error_pointer_fault, input, pointer_fault, report};
use crate::beam::spotwise_beam;
use crate::check::spotwise_job;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ptr::null;
use spotwise::artwork::{
    Answer, Drawing, DrawingUse, JobMarking, Preflight, SampleKind, Scan, preflight_of_job,
};
use spotwise::model::check::Job;
use spotwise::model::surface::Surface;

/// What exposes a drawing and what answers, by a job: the laser, lens, focus and dose that spotwise_focus_check()
/// judges, with the usual tolerance of edges, a quarter of the waist diameter. Set the surface of exposing afterwards,
/// and the speck area of marking, which is 0, if there are specks.
///
/// Behind a real lens the beam is that of its 86.5 %-power spot. A dose by power and speed gives lines along the rows,
/// the first half an interval from the edge, and the response of the material; the heat that spreads in a melt becomes a
/// blur. Rise and fall of the job are tolerances of the set-up, and play no part.
///
/// @param[in]  job             job to read; set with spotwise_job_init(); not NULL.
/// @param[in]  visible_depth_m depth from which on a place of a bulk counts as marked, in metres; 0 for any; checked when
///                             it is used; range: SPOTWISE_PARAM_VISIBLE_DEPTH.
/// @param[in]  melt_bridge_m   width of the gaps that a melt closes, in metres; 0 for none; checked when it is used;
///                             range: SPOTWISE_PARAM_MELT_BRIDGE.
/// @param[out] exposing        what exposes a drawing, its surface NULL; set with spotwise_exposing_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet NaN, all else to 0.
/// @param[out] marking         what answers; set with spotwise_marking_init(); not NULL. On any status other than
///                             SPOTWISE_OK its numbers are set to a quiet NaN, its response to 0. Numbers that the
///                             response does not name are NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_focus_check().
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
/// Source: as spotwise_focus_check() and spotwise_blur_budget().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_preflight_of_job(
    job: *const spotwise_job,
    visible_depth_m: f64,
    melt_bridge_m: f64,
    exposing: *mut spotwise_exposing,
    marking: *mut spotwise_marking,
    error: *mut spotwise_error,
) -> spotwise_status {
    let asked = JobMarking { visible_depth: visible_depth_m, bridge: melt_bridge_m, speck_area: 0.0 };
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        let marking_fault = pointer_fault(marking);
        let before = pointer_fault(exposing);
        let last_fault = before.or(marking_fault).or(error_pointer_fault(error));
        report(exposing, error, || {
            let found = input(job).and_then(|job| match last_fault {
                Some(fault) => Err(fault),
                None => of_job(&job.try_into()?, &asked),
            });
            if marking_fault.is_none() {
                marking.write(found.as_ref().map_or(spotwise_marking::BLANK, answering));
            }
            Ok(exposed(&found?))
        })
    }
}

/// The preflight of any drawing on any surface.
fn of_job(job: &Job, asked: &JobMarking) -> Result<Preflight<'static>, Fault> {
    let drawing = Drawing {
        samples: &[],
        width: 0,
        height: 0,
        row_stride: 0,
        pitch_x: f64::NAN,
        pitch_y: f64::NAN,
        left_x: f64::NAN,
        top_y: f64::NAN,
        kind: SampleKind::Bilevel,
        drawing_use: DrawingUse::Shapes,
    };
    let level = Surface::Plane { slope_x: 0.0, slope_y: 0.0 };
    Ok(preflight_of_job(job, drawing, level, asked)?)
}

fn exposed(preflight: &Preflight<'_>) -> spotwise_exposing {
    let exposing = &preflight.exposing;
    let (line_interval_m, first_line_m) = match exposing.scan {
        Scan::AlongRows { line_interval, first_line } => (line_interval, first_line),
        _ => (f64::BLANK, f64::BLANK),
    };
    spotwise_exposing {
        scan: exposing.scan.code(),
        incidence_loss: exposing.incidence_loss.into(),
        focus_z_m: exposing.focus_z,
        blur_along_m: exposing.blur_along,
        blur_across_m: exposing.blur_across,
        line_interval_m,
        first_line_m,
        beam: spotwise_beam {
            wavelength_m: exposing.beam.wavelength,
            m2: exposing.beam.m2,
            waist_diameter_m: exposing.beam.waist_diameter,
            ..spotwise_beam::BLANK
        },
        surface: null(),
        ..spotwise_exposing::BLANK
    }
}

fn answering(preflight: &Preflight<'_>) -> spotwise_marking {
    let blank = spotwise_marking {
        response: preflight.answer.code(),
        dose_ratio: preflight.dose_ratio,
        edge_tolerance_m: preflight.edge_tolerance,
        speck_area_m2: preflight.speck_area,
        ..spotwise_marking::BLANK
    };
    match preflight.answer {
        Answer::LogarithmicBulk { penetration_depth, visible_depth } => spotwise_marking {
            penetration_depth_m: penetration_depth,
            visible_depth_m: visible_depth,
            ..blank
        },
        Answer::LinearBulk { threshold_depth, visible_depth } => {
            spotwise_marking { threshold_depth_m: threshold_depth, visible_depth_m: visible_depth, ..blank }
        }
        Answer::Melt { bridge } => spotwise_marking { melt_bridge_m: bridge, ..blank },
        _ => blank,
    }
}
