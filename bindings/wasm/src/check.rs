//! One job in, one verdict out.

use crate::dose;
use crate::exchange::{answer, flags};
use crate::lettering::sizes;
use crate::optics::focused;
use crate::singlet::{REAL, real};
use spotwise::model::check::{self, FocusSetting, Job, JobDose, JobLens, JobText, Place, RawBeam, Verdict};
use spotwise::model::focus::{DepthCriterion, FocusRange};
use spotwise::model::mark::{TextGrade, TextGrades, Typeface};
use spotwise::{Error, Param};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of one place.
const PLACE: usize = 17;
/// Outputs of [`focus_check`] that `functions.toml` lists: outcome and reasons, the focused beam,
/// where it lies, three ranges, the dose and the depth that it digs, three places, the best focus, what the
/// ideal lens promised, the real focus and the flags.
const LISTED: usize = 2 + 8 + 1 + 3 * 3 + 6 + 3 * PLACE + 2 + 1 + REAL + 1;
/// After them, what the list leaves out: half angle and flags of the three ranges, and the flags of the ideal
/// and the real focus.
pub(crate) const ALL: usize = LISTED + 3 * 2 + 2;

/// As [`check::focus_check`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn focus_check(
    wavelength: f64,
    m2: f64,
    raw_beam: u32,
    diameter_at_lens: f64,
    waist_diameter: f64,
    waist_to_lens: f64,
    focal_length: f64,
    focus_setting: u32,
    focus_z: f64,
    lens_to_surface: f64,
    surface_rise: f64,
    surface_fall: f64,
    criterion: u32,
    growth_ratio: f64,
    drop: f64,
    largest_diameter: f64,
    finest_stroke: f64,
    finest_gap: f64,
    dose: u32,
    dose_ratio: f64,
    power: f64,
    speed: f64,
    line_interval: f64,
    threshold: f64,
    response: u32,
    penetration_depth: f64,
    removal_energy: f64,
    diffusivity: f64,
    waist_to_expander: f64,
    magnification: f64,
    exit_power: f64,
    expander_to_lens: f64,
    lens: u32,
    glass: u32,
    lens_shape: u32,
    shape_factor: f64,
    clear_aperture: f64,
    text: u32,
    typeface: u32,
    stem: f64,
    effective_stroke: f64,
    effective_counter: f64,
    effective_gap: f64,
    em: f64,
    least_grade: u32,
    crisp_exposure: f64,
    good_window: f64,
    readable_window: f64,
) -> u32 {
    let numbers = [
        wavelength,
        m2,
        f64::from(raw_beam),
        diameter_at_lens,
        waist_diameter,
        waist_to_lens,
        focal_length,
        f64::from(focus_setting),
        focus_z,
        lens_to_surface,
        surface_rise,
        surface_fall,
        f64::from(criterion),
        growth_ratio,
        drop,
        largest_diameter,
        finest_stroke,
        finest_gap,
        f64::from(dose),
        dose_ratio,
        power,
        speed,
        line_interval,
        threshold,
        f64::from(response),
        penetration_depth,
        removal_energy,
        diffusivity,
        waist_to_expander,
        magnification,
        exit_power,
        expander_to_lens,
        f64::from(lens),
        f64::from(glass),
        f64::from(lens_shape),
        shape_factor,
        clear_aperture,
        f64::from(text),
        f64::from(typeface),
        stem,
        effective_stroke,
        effective_counter,
        effective_gap,
        em,
        f64::from(least_grade),
        crisp_exposure,
        good_window,
        readable_window,
    ];
    answer(job_of(&numbers).and_then(|job| check::focus_check(&job)).map(|verdict| layout(&verdict)))
}

/// So many numbers make a job.
pub(crate) const JOB: usize = 48;

/// The job of these numbers, in the order of the arguments of [`focus_check`]; codes are whole numbers.
pub(crate) fn job_of(numbers: &[f64; JOB]) -> Result<Job, Error> {
    let [
        wavelength,
        m2,
        raw_beam,
        diameter_at_lens,
        waist_diameter,
        waist_to_lens,
        focal_length,
        focus_setting,
        focus_z,
        lens_to_surface,
        surface_rise,
        surface_fall,
        criterion,
        growth_ratio,
        drop,
        largest_diameter,
        finest_stroke,
        finest_gap,
        dose,
        dose_ratio,
        power,
        speed,
        line_interval,
        threshold,
        response,
        penetration_depth,
        removal_energy,
        diffusivity,
        waist_to_expander,
        magnification,
        exit_power,
        expander_to_lens,
        lens,
        glass,
        lens_shape,
        shape_factor,
        clear_aperture,
        text,
        typeface,
        stem,
        effective_stroke,
        effective_counter,
        effective_gap,
        em,
        least_grade,
        crisp_exposure,
        good_window,
        readable_window,
    ] = *numbers;
    let [
        raw_beam,
        focus_setting,
        criterion,
        dose,
        response,
        lens,
        glass,
        lens_shape,
        text,
        typeface,
        least_grade,
    ] = [
        raw_beam,
        focus_setting,
        criterion,
        dose,
        response,
        lens,
        glass,
        lens_shape,
        text,
        typeface,
        least_grade,
    ]
    .map(|code| code as u32);
    // Choices are refused in the order of the inputs, which is not that of the job's fields.
    let raw_beam = RawBeam::from_code(
        raw_beam,
        diameter_at_lens,
        waist_diameter,
        waist_to_lens,
        waist_to_expander,
        magnification,
        exit_power,
        expander_to_lens,
    )?;
    let focus = FocusSetting::from_code(focus_setting, focus_z, lens_to_surface)?;
    let criterion = DepthCriterion::from_code(criterion, growth_ratio, drop, largest_diameter)?;
    let dose = JobDose::from_code(
        dose,
        dose_ratio,
        power,
        speed,
        line_interval,
        threshold,
        response,
        penetration_depth,
        removal_energy,
        diffusivity,
    )?;
    let lens = JobLens::from_code(lens, glass, lens_shape, shape_factor, clear_aperture)?;
    let text = match text {
        1 => None,
        2 => Some(JobText {
            typeface: Typeface::from_code(
                typeface,
                stem,
                effective_stroke,
                effective_counter,
                effective_gap,
            )?,
            em,
            least_grade: TextGrade::from_code(least_grade)?,
            grades: TextGrades { crisp_exposure, good_window, readable_window },
        }),
        value => return Err(Error::UnknownChoice { param: Param::JobText, value }),
    };
    Ok(Job {
        wavelength,
        m2,
        raw_beam,
        focal_length,
        lens,
        focus,
        surface_rise,
        surface_fall,
        criterion,
        finest_stroke,
        finest_gap,
        dose,
        text,
    })
}

pub(crate) fn layout(v: &Verdict) -> [f64; ALL] {
    let [focused @ .., ideal_flags] = focused(&v.focused);
    let parts: [&[f64]; 20] = [
        &[f64::from(v.outcome as u32), f64::from(v.reasons.bits())],
        &focused,
        &[v.focus_z],
        &ends(v.depth),
        &ends(v.detail_range),
        &ends(v.text_range),
        &[v.dose_ratio],
        &v.scan.map_or([f64::NAN; 4], |scan| dose::layout(&scan)),
        &[v.fill_depth.unwrap_or(f64::NAN)],
        &place(&v.highest),
        &place(&v.datum),
        &place(&v.lowest),
        &[v.best_focus_z, v.best_worst_growth],
        &[f64::from(v.promised as u32)],
        &v.real.map_or([f64::NAN; REAL], |focus| real(&focus)),
        &[flags(v.validity)],
        &range_cone(v.depth),
        &range_cone(v.detail_range),
        &range_cone(v.text_range),
        &[ideal_flags, v.real.map_or(f64::NAN, |focus| flags(focus.validity))],
    ];
    let mut all = [f64::NAN; ALL];
    for (output, value) in all.iter_mut().zip(parts.into_iter().flatten()) {
        *output = *value;
    }
    all
}

/// Ends and length of a range, NaN where there is none.
fn ends(range: Option<FocusRange>) -> [f64; 3] {
    range.map_or([f64::NAN; 3], |r| [r.toward_lens_z, r.away_from_lens_z, r.full])
}

fn range_cone(range: Option<FocusRange>) -> [f64; 2] {
    range.map_or([f64::NAN; 2], |r| [r.half_angle, flags(r.validity)])
}

pub(crate) fn place(p: &Place) -> [f64; PLACE] {
    let [stroke, gap, dot_diameter, hole_diameter] =
        p.smallest.map_or([f64::NAN; 4], |d| [d.bar, d.gap, d.dot_diameter, d.hole_diameter]);
    let [crisp_em, good_em, readable_em] = p.smallest_text.map_or([f64::NAN; 3], |text| sizes(&text));
    [
        p.z_offset,
        p.diameter,
        p.growth,
        p.irradiance_ratio,
        p.line_dose_ratio,
        p.seen_diameter,
        stroke,
        gap,
        dot_diameter,
        hole_diameter,
        p.ripple_contrast.unwrap_or(f64::NAN),
        crisp_em,
        good_em,
        readable_em,
        f64::from(p.text_grade.map_or(0, |grade| grade as u32)),
        f64::from(p.details_hold),
        f64::from(p.in_depth),
    ]
}
