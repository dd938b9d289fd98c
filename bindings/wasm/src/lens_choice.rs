//! Which lens serves a job best, and where the caustics of two beams cross.

use crate::check::place;
use crate::exchange::{answer, flags, keep_refusals};
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, JobText, RawBeam};
use spotwise::model::focus::{self, Crossing, DepthCriterion};
use spotwise::model::lens_choice::{
    self, LensCandidate, LensChoice, LensFindings, LensRanking, MOST_LENSES, SetUp,
};
use spotwise::model::mark::{TextGrade, TextGrades, Typeface};
use spotwise::model::optics::Beam;
use spotwise::{Error, Param};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a job without lens and focus, and of the set-up.
const JOB: usize = 41;
/// Numbers of one lens.
const LENS: usize = 7;
/// Numbers of one ranking.
const RANKING: usize = 29;

/// As [`focus::caustic_crossing`].
#[wasm_bindgen]
pub fn caustic_crossing(
    first_wavelength: f64,
    first_m2: f64,
    first_waist_diameter: f64,
    second_wavelength: f64,
    second_m2: f64,
    second_waist_diameter: f64,
) -> u32 {
    let first = Beam { wavelength: first_wavelength, m2: first_m2, waist_diameter: first_waist_diameter };
    let second = Beam { wavelength: second_wavelength, m2: second_m2, waist_diameter: second_waist_diameter };
    answer(focus::caustic_crossing(&first, &second).map(|found| {
        let [offset, diameter] = crossing(found.crossing);
        [
            offset,
            diameter,
            f64::from(found.sharper_in_focus as u32),
            f64::from(found.sharper_far_off as u32),
            found.half_angle,
            flags(found.validity),
        ]
    }))
}

/// As [`lens_choice::choose_lens`]; `job` holds the numbers of the list up to the least clearance, `lenses` seven
/// numbers for each, `rankings` has room for 29 of each. Why a lens is refused is told by
/// `lens_refusal`.
#[wasm_bindgen]
pub fn choose_lens(job: &[f64], lenses: &[f64], rankings: &mut [f64]) -> u32 {
    rankings.fill(f64::NAN);
    let (lenses, _) = lenses.as_chunks::<LENS>();
    let mut found = vec![LensRanking::BLANK; lenses.len()];
    let choice = choose(job, lenses, &mut found);
    keep_refusals(found.iter().map(|ranking| ranking.found.err()));
    if choice.is_ok() {
        let (out, _) = rankings.as_chunks_mut::<RANKING>();
        for (out, ranking) in out.iter_mut().zip(&found) {
            *out = layout(ranking);
        }
    }
    answer(choice.map(|choice| {
        let LensChoice { serving, best, focus_z, half_span, .. } = choice;
        let [offset, diameter] = crossing(choice.crossing);
        let flip_span = choice.flip_span.unwrap_or(f64::NAN);
        [f64::from(serving), best as f64, focus_z, half_span, offset, diameter, flip_span]
    }))
}

fn choose(job: &[f64], lenses: &[[f64; LENS]], found: &mut [LensRanking]) -> Result<LensChoice, Error> {
    // Before any choice, as on every face.
    let (least, greatest) = Param::LensCandidates.range();
    if lenses.is_empty() || lenses.len() > MOST_LENSES {
        let value = lenses.len() as f64;
        return Err(Error::OutOfRange { param: Param::LensCandidates, value, least, greatest });
    }
    let (job, set_up) = read_job(job)?;
    let candidates = lenses.iter().map(read_lens).collect::<Result<Vec<_>, Error>>()?;
    lens_choice::choose_lens(&job, &candidates, &set_up, found)
}

/// The codes come from the TypeScript, as small whole numbers.
fn read_lens(numbers: &[f64; LENS]) -> Result<LensCandidate, Error> {
    let [focal_length, lens, glass, lens_shape, shape_factor, clear_aperture, working_distance] = *numbers;
    let lens =
        JobLens::from_code(lens as u32, glass as u32, lens_shape as u32, shape_factor, clear_aperture)?;
    Ok(LensCandidate { focal_length, lens, working_distance })
}

fn read_job(numbers: &[f64]) -> Result<(Job, SetUp), Error> {
    let Ok(numbers) = <&[f64; JOB]>::try_from(numbers) else {
        return Err(Error::LengthMismatch { param: Param::Output, value: numbers.len(), expected: JOB });
    };
    let [
        wavelength,
        m2,
        raw_beam,
        diameter_at_lens,
        waist_diameter,
        waist_to_lens,
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
        tolerance,
        least_clearance,
    ] = *numbers;
    let raw_beam = RawBeam::from_code(
        raw_beam as u32,
        diameter_at_lens,
        waist_diameter,
        waist_to_lens,
        waist_to_expander,
        magnification,
        exit_power,
        expander_to_lens,
    )?;
    let criterion = DepthCriterion::from_code(criterion as u32, growth_ratio, drop, largest_diameter)?;
    let dose = JobDose::from_code(
        dose as u32,
        dose_ratio,
        power,
        speed,
        line_interval,
        threshold,
        response as u32,
        penetration_depth,
        removal_energy,
        diffusivity,
    )?;
    let text = match text as u32 {
        1 => None,
        2 => Some(JobText {
            typeface: Typeface::from_code(
                typeface as u32,
                stem,
                effective_stroke,
                effective_counter,
                effective_gap,
            )?,
            em,
            least_grade: TextGrade::from_code(least_grade as u32)?,
            grades: TextGrades { crisp_exposure, good_window, readable_window },
        }),
        value => return Err(Error::UnknownChoice { param: Param::JobText, value }),
    };
    let job = Job {
        wavelength,
        m2,
        raw_beam,
        // Lens and focus of the job itself are not looked at.
        focal_length: f64::NAN,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: f64::NAN },
        surface_rise,
        surface_fall,
        criterion,
        finest_stroke,
        finest_gap,
        dose,
        text,
    };
    Ok((job, SetUp { tolerance, least_clearance }))
}

fn crossing(found: Option<Crossing>) -> [f64; 2] {
    found.map_or([f64::NAN; 2], |crossing| [crossing.offset, crossing.diameter])
}

fn layout(ranking: &LensRanking) -> [f64; RANKING] {
    let standing = [f64::from(ranking.rank), f64::from(ranking.reasons.bits())];
    let refusal = ranking
        .found
        .map_or_else(|error| [f64::from(error.code()), f64::from(error.param() as u32)], |_| [0.0; 2]);
    let found = ranking.found.map_or_else(|_| [f64::NAN; RANKING - 4], |found| findings(&found));
    let mut all = [f64::NAN; RANKING];
    for (output, value) in all.iter_mut().zip(standing.iter().chain(&refusal).chain(&found)) {
        *output = *value;
    }
    all
}

fn findings(f: &LensFindings) -> [f64; RANKING - 4] {
    let light = [
        f64::from(f.outcome as u32),
        f.waist_diameter,
        f.rayleigh_range,
        f.lens_to_waist,
        f.depth.map_or(f64::NAN, |depth| depth.full),
    ];
    let rest = [f.spare_half_span.unwrap_or(f64::NAN), f.clearance, flags(f.validity)];
    let mut all = [f64::NAN; RANKING - 4];
    for (output, value) in all.iter_mut().zip(light.iter().chain(&place(&f.worst)).chain(&rest)) {
        *output = *value;
    }
    all
}
