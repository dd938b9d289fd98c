//! What would help a drawing: how far focus may stray, how small it may be, which beam serves it best.

use crate::artwork::inputs_and_exposure;
use crate::artwork_job::{JOB, Lists, Progress, bytes_of_words, job, room, watched};
use crate::exchange::answer;
use spotwise::artwork::{
    self, BeamCandidate, Demand, Preflight, RankedBeam, TrialRoom, Watch, focus_reach_words,
    rank_beams_words, smallest_scale_words,
};
use spotwise::model::optics::Beam;
use spotwise::{Error, Param};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of one candidate.
const CANDIDATE: usize = 4;
/// Numbers of one that is ranked.
const RANKED: usize = 7;

fn demand(numbers: &[f64]) -> Result<Demand, Error> {
    Demand::from_code(numbers.get(JOB).map_or(0, |code| *code as u32))
}

/// Exposure and words in memory of their own.
fn rooms(preflight: &Preflight<'_>, words: usize) -> Result<(Vec<u16>, Vec<u64>), Error> {
    Ok((room(preflight.drawing.width * preflight.drawing.height, 0)?, room(words, 0)?))
}

/// Tries for what is demanded, in the room that the tries need.
fn tried<T>(
    lists: Lists<'_>,
    numbers: &[f64],
    watch: &mut Watch<'_>,
    words: impl FnOnce(&Preflight<'_>, usize, &mut Watch<'_>) -> Result<usize, Error>,
    attempt: impl FnOnce(&Preflight<'_>, Demand, &mut TrialRoom<'_>, &mut Watch<'_>) -> Result<T, Error>,
) -> Result<T, Error> {
    let preflight = job(lists, numbers)?;
    let demand = demand(numbers)?;
    let words = words(&preflight, 1, &mut watch.part(0.0, 0.02))?;
    let (mut exposure, mut words) = rooms(&preflight, words)?;
    let mut room = TrialRoom { exposure: &mut exposure, words: &mut words };
    attempt(&preflight, demand, &mut room, &mut watch.part(0.02, 1.0))
}

/// As [`artwork::focus_reach`]; the numbers are those of a preflight, and the demand.
#[wasm_bindgen]
pub fn focus_reach(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    progress: Option<Progress>,
) -> u32 {
    answer(watched(progress.as_ref(), |watch| {
        let lists = Lists { samples, x, y, z };
        let reach = tried(lists, numbers, watch, focus_reach_words, artwork::focus_reach)?;
        let open = [reach.toward_lens_is_open, reach.away_from_lens_is_open].map(u8::from).map(f64::from);
        Ok([reach.toward_lens, reach.away_from_lens, open[0], open[1]])
    }))
}

/// As [`artwork::best_focus_z`]; the numbers are those of a preflight.
#[wasm_bindgen]
pub fn best_focus(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    progress: Option<Progress>,
) -> u32 {
    answer(watched(progress.as_ref(), |watch| {
        Ok([artwork::best_focus_z(&job(Lists { samples, x, y, z }, numbers)?, watch)?])
    }))
}

/// As [`artwork::smallest_scale`]; the numbers are those of a preflight, and the demand.
#[wasm_bindgen]
pub fn smallest_scale(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    progress: Option<Progress>,
) -> u32 {
    answer(watched(progress.as_ref(), |watch| {
        let lists = Lists { samples, x, y, z };
        Ok([tried(lists, numbers, watch, smallest_scale_words, artwork::smallest_scale)?])
    }))
}

fn candidates(numbers: &[f64]) -> Vec<BeamCandidate> {
    let (candidates, _) = numbers.as_chunks::<CANDIDATE>();
    let candidate = |&[wavelength, m2, waist_diameter, focus_z]: &[f64; CANDIDATE]| BeamCandidate {
        beam: Beam { wavelength, m2, waist_diameter },
        focus_z,
    };
    candidates.iter().map(candidate).collect()
}

/// As [`artwork::rank_beams`]; the numbers are those of a preflight, whose own beam is not looked at, `beams` holds four
/// numbers for each candidate, `ranking` has room for seven of each.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn rank_beams(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    beams: &[f64],
    ranking: &mut [f64],
    progress: Option<Progress>,
) -> u32 {
    ranking.fill(f64::NAN);
    let ranked = watched(progress.as_ref(), |watch| {
        let preflight = job(Lists { samples, x, y, z }, numbers)?;
        preflight.drawing.checked()?;
        let candidates = candidates(beams);
        let words = rank_beams_words(&preflight, &candidates, 1, &mut watch.part(0.0, 0.05))?;
        let (mut exposure, mut words) = rooms(&preflight, words)?;
        let mut room = TrialRoom { exposure: &mut exposure, words: &mut words };
        let mut ranked = vec![RankedBeam::NONE; candidates.len()];
        let mut watch = watch.part(0.05, 1.0);
        artwork::rank_beams(&preflight, &candidates, &mut ranked, &mut room, &mut watch)?;
        Ok(ranked)
    });
    if let Ok(ranked) = &ranked {
        let (places, _) = ranking.as_chunks_mut::<RANKED>();
        for (place, beam) in places.iter_mut().zip(ranked) {
            let window = &beam.window;
            *place = [
                beam.candidate as f64,
                window.least_dose_ratio,
                window.greatest_dose_ratio,
                window.greatest_dose_ratio_for_counters,
                window.ratio(),
                window.ratio_for_counters(),
                beam.greatest_diameter,
            ];
        }
    }
    answer(ranked.map(|ranked| [ranked.len() as f64]))
}

/// Bytes that [`focus_reach`] (1), [`smallest_scale`] (2) or [`rank_beams`] (3) takes of the module's memory, its inputs
/// included.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn remedy_bytes(
    remedy: u32,
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    beams: &[f64],
    progress: Option<Progress>,
) -> u32 {
    let lists = Lists { samples, x, y, z };
    answer(watched(progress.as_ref(), |watch| {
        let preflight = job(lists, numbers)?;
        preflight.drawing.checked()?;
        let words = match remedy {
            1 => focus_reach_words(&preflight, 1, watch)?,
            2 => smallest_scale_words(&preflight, 1, watch)?,
            3 => rank_beams_words(&preflight, &candidates(beams), 1, watch)?,
            value => return Err(Error::UnknownChoice { param: Param::Demand, value }),
        };
        Ok([inputs_and_exposure(lists, &preflight.drawing) + bytes_of_words(words)])
    }))
}
