//! The functions of the list on the choice of a lens, called through the model.

use super::{beam, bits, job, place};
use spotwise::Error;
use spotwise::model::check::JobLens;
use spotwise::model::focus::caustic_crossing;
use spotwise::model::lens_choice::{LensCandidate, LensFindings, LensRanking, SetUp, choose_lens};

/// Places for lenses in a row; more lenses repeat them.
pub const PLACES: usize = 3;
/// Numbers of one lens in a row.
const LENS: usize = 7;
/// Where the set-up, the number of lenses and the lenses stand in a row.
pub const SET_UP: usize = 39;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "caustic_crossing" => {
            let found = caustic_crossing(&beam(i), &beam(&i[3..]))?;
            let [offset, diameter] = found.crossing.map_or([f64::NAN; 2], |at| [at.offset, at.diameter]);
            vec![
                offset,
                diameter,
                f64::from(found.sharper_in_focus as u32),
                f64::from(found.sharper_far_off as u32),
                found.half_angle,
                bits(found.validity),
            ]
        }
        "choose_lens" => choose(i)?,
        _ => return Ok(None),
    }))
}

/// The inputs of a job without lens and focus, with an ideal lens and focus on the datum in their places.
pub fn whole_job(i: &[f64]) -> Vec<f64> {
    const NONE: f64 = f64::NAN;
    [&i[..6], &[NONE, 1.0, 0.0, NONE], &i[6..28], &[1.0, 0.0, 0.0, NONE, NONE], &i[28..39]].concat()
}

/// How many lenses a row asks for: as many as that, or more than any call takes.
pub fn lenses(i: &[f64]) -> usize {
    (i[SET_UP + 2] as usize).min(9)
}

/// The numbers of one of the lenses.
pub fn lens(i: &[f64], place: usize) -> &[f64] {
    &i[SET_UP + 3 + place % PLACES * LENS..][..LENS]
}

fn choose(i: &[f64]) -> Result<Vec<f64>, Error> {
    let count = lenses(i);
    let set_up = SetUp { tolerance: i[SET_UP], least_clearance: i[SET_UP + 1] };
    if count == 0 || count > 8 {
        // Refused before anything else.
        let nothing = LensCandidate { focal_length: 0.1, lens: JobLens::Ideal, working_distance: 0.1 };
        let any_job = job(&whole_job(&[1.0; SET_UP]))?;
        choose_lens(&any_job, &vec![nothing; count], &set_up, &mut vec![LensRanking::BLANK; count])?;
    }
    let any_job = job(&whole_job(i))?;
    let candidates = (0..count)
        .map(|place| {
            let i = lens(i, place);
            let lens = JobLens::from_code(i[1] as u32, i[2] as u32, i[3] as u32, i[4], i[5])?;
            Ok(LensCandidate { focal_length: i[0], lens, working_distance: i[6] })
        })
        .collect::<Result<Vec<_>, Error>>()?;
    let mut rankings = vec![LensRanking::BLANK; count];
    let choice = choose_lens(&any_job, &candidates, &set_up, &mut rankings)?;
    let [offset, diameter] = choice.crossing.map_or([f64::NAN; 2], |at| [at.offset, at.diameter]);
    let flip_span = choice.flip_span.unwrap_or(f64::NAN);
    let mut out = vec![
        f64::from(choice.serving),
        choice.best as f64,
        choice.focus_z,
        choice.half_span,
        offset,
        diameter,
        flip_span,
    ];
    for place in 0..PLACES {
        out.extend(rankings.get(place).map_or_else(blank, ranking));
    }
    Ok(out)
}

/// A place without a lens.
fn blank() -> Vec<f64> {
    [&[0.0; 5][..], &[f64::NAN; 4], &[f64::NAN; 14], &[0.0; 3], &[f64::NAN; 2], &[0.0]].concat()
}

fn ranking(ranking: &LensRanking) -> Vec<f64> {
    let standing = [f64::from(ranking.rank), f64::from(ranking.reasons.bits())];
    match &ranking.found {
        Ok(found) => [&standing[..], &[0.0, 0.0], &findings(found)].concat(),
        Err(error) => {
            let refusal = [f64::from(error.code()), f64::from(error.param() as u32)];
            [&standing[..], &refusal, &blank()[4..]].concat()
        }
    }
}

fn findings(found: &LensFindings) -> Vec<f64> {
    let light = [
        f64::from(found.outcome as u32),
        found.waist_diameter,
        found.rayleigh_range,
        found.lens_to_waist,
        found.depth.map_or(f64::NAN, |depth| depth.full),
    ];
    let rest = [found.spare_half_span.unwrap_or(f64::NAN), found.clearance, bits(found.validity)];
    [&light[..], &place(&found.worst), &rest].concat()
}
