//! Which lens serves a job best, and where the caustics of two beams cross.

use crate::check::{self, job_of, place};
use crate::exchange::{answer, flags, keep_refusals};
use spotwise::model::check::{Job, JobLens};
use spotwise::model::focus::{self, Crossing};
use spotwise::model::lens_choice::{
    self, LensCandidate, LensChoice, LensFindings, LensRanking, MOST_LENSES, SetUp,
};
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

/// The job of these numbers, which are those of `focus_check` without lens and focus, and the set-up behind them.
fn read_job(numbers: &[f64]) -> Result<(Job, SetUp), Error> {
    let Ok([job @ .., tolerance, least_clearance]) = <&[f64; JOB]>::try_from(numbers) else {
        return Err(Error::LengthMismatch { param: Param::Output, value: numbers.len(), expected: JOB });
    };
    // Lens and focus of the job itself are not looked at: an ideal one, on the datum.
    let (raw, rest) = job.split_at(6);
    let (work, text) = rest.split_at(22);
    let parts = [raw, &[f64::NAN, 1.0, f64::NAN, f64::NAN], work, &[1.0, 0.0, 0.0, f64::NAN, f64::NAN], text];
    let mut whole = [f64::NAN; check::JOB];
    for (place, number) in whole.iter_mut().zip(parts.into_iter().flatten()) {
        *place = *number;
    }
    Ok((job_of(&whole)?, SetUp { tolerance: *tolerance, least_clearance: *least_clearance }))
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
