//! The preflight of a drawing by a job: the laser, lens, focus and dose that
//! [`focus_check`](crate::model::check::focus_check) judges.
//!
//! | of the job             | becomes                                                                              |
//! |------------------------|--------------------------------------------------------------------------------------|
//! | laser, raw beam, lens  | the focused beam; behind a real lens that of its 86.5 %-power spot                     |
//! | focus                  | the height of the waist                                                              |
//! | dose                   | the dose ratio; of a scan, its lines, the first half an interval from the edge         |
//! | response of a material | what answers to the dose; h = H_th/e_v of a linear bulk                              |
//! | a melt's diffusivity   | a blur across and along of √(c·d): the heat that spreads while the waist dwells      |
//!
//! H_th is the threshold dose, e_v the energy that removes a volume, and c·d what
//! [`blur`](crate::model::mark::blur_budget) adds to d². Rise and fall of the job are tolerances of the set-up, and
//! play no part: the drawing lies on the surface that is given.

use super::drawing::Drawing;
use super::exposing::Exposing;
use super::mark::Answer;
use super::preflight::{Preflight, usual_edge_tolerance};
use super::scan::Scan;
use crate::error::Error;
use crate::model::check::{Job, JobDose, beam_of, focus_check};
use crate::model::mark::{Blur, Response, blur_budget};
use crate::model::math;
use crate::model::optics::Beam;
use crate::model::surface::Surface;

/// What a preflight asks beyond a job.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct JobMarking {
    /// Depth from which on a place of a bulk counts as marked, in metres; 0 for any.
    pub visible_depth: f64,
    /// Width of the gaps that a melt closes, in metres; 0 for none.
    pub bridge: f64,
    /// Area in square metres below which a piece or a hole is a speck, as in [`Preflight`]; 0 for none.
    pub speck_area: f64,
}

/// The preflight of a drawing on a surface by a job, with the usual tolerance of edges.
///
/// The job's line interval is that of the scan. A raster that is burnt as it is must have its rows at that pitch: any
/// other contradicts the job, and its plan is refused (see [`Scan::AlongRows`]).
///
/// Formulas in the module of this function, `artwork/job.rs`.
///
/// # Errors
/// As [`focus_check`].
pub fn preflight_of_job<'a>(
    job: &Job,
    drawing: Drawing<'a>,
    surface: Surface<'a>,
    marking: &JobMarking,
) -> Result<Preflight<'a>, Error> {
    let verdict = focus_check(job)?;
    let focused = beam_of(job)?;
    let (waist_diameter, rayleigh_range) = (focused.waist_diameter, focused.rayleigh_range.to_f64());
    // M² = π·d²/(4·λ·z_R), of an ideal lens that of the laser; a real lens spoils it.
    let m2 =
        core::f64::consts::FRAC_PI_4 * waist_diameter * waist_diameter / (job.wavelength * rayleigh_range);
    let beam = Beam { wavelength: job.wavelength, m2: math::greater(m2, 1.0), waist_diameter };
    let (scan, answer, heat) = match job.dose {
        JobDose::Ratio { .. } => (Scan::Unknown, Answer::Coating, 0.0),
        JobDose::Scan { speed, line_interval, threshold, response, .. } => (
            Scan::AlongRows { line_interval, first_line: 0.5 * line_interval },
            answer_of(response, threshold, marking),
            heat_of(response, waist_diameter, speed)?,
        ),
    };
    let exposing = Exposing {
        beam,
        focus_z: verdict.focus_z,
        surface,
        incidence_loss: true,
        blur_along: heat,
        blur_across: heat,
        scan,
    };
    let edge_tolerance = usual_edge_tolerance(&beam);
    let (dose_ratio, speck_area) = (verdict.dose_ratio, marking.speck_area);
    Ok(Preflight { drawing, exposing, answer, dose_ratio, edge_tolerance, speck_area })
}

fn answer_of(response: Response, threshold: f64, marking: &JobMarking) -> Answer {
    let visible_depth = marking.visible_depth;
    match response {
        Response::Coating => Answer::Coating,
        Response::LogarithmicAblation { penetration_depth } => {
            Answer::LogarithmicBulk { penetration_depth, visible_depth }
        }
        Response::LinearAblation { removal_energy } => {
            Answer::LinearBulk { threshold_depth: threshold / removal_energy, visible_depth }
        }
        Response::Melt { .. } => Answer::Melt { bridge: marking.bridge },
    }
}

/// Diameter of the blur by heat, of a melt.
fn heat_of(response: Response, waist_diameter: f64, speed: f64) -> Result<f64, Error> {
    let Response::Melt { diffusivity } = response else { return Ok(0.0) };
    let budget = blur_budget(&Blur {
        diameter_across: waist_diameter,
        diameter_along: waist_diameter,
        speed,
        diffusivity,
        pixel: 0.0,
        jitter_deviation: 0.0,
        rise_time: 0.0,
        switch_delay: 0.0,
    })?;
    // d² + 8·l² is the square of the diameter with heat, l the diffusion length (model::mark::blur).
    Ok(math::sqrt(8.0) * budget.diffusion_length)
}
