//! The functions of the list on the choice of a lens, called through the typed layer.

use super::{aperture, beam, bits, glass, job, length_or_nan, place, shape, unknown};
use spotwise::units::m;
use spotwise::*;

/// Places for lenses in a row; more lenses repeat them.
const PLACES: usize = 3;
const LENS: usize = 7;
const SET_UP: usize = 39;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "caustic_crossing" => {
            let found = beam(i)?.crossing_with(&beam(&i[3..])?)?;
            let ends = [f64::from(found.sharper_in_focus as u32), f64::from(found.sharper_far_off as u32)];
            [&crossing(found.crossing)[..], &ends, &[found.half_angle.value, bits(found.validity)]].concat()
        }
        "choose_lens" => choose(i)?,
        _ => return Ok(None),
    }))
}

fn crossing(found: Option<Crossing>) -> [f64; 2] {
    found.map_or([f64::NAN; 2], |at| [at.distance_from_waist.value, at.spot.diameter_1e2().value])
}

/// A job without lens and focus, with an ideal lens and focus on the datum in their places.
fn whole_job(i: &[f64]) -> Vec<f64> {
    const NONE: f64 = f64::NAN;
    [&i[..6], &[NONE, 1.0, 0.0, NONE], &i[6..28], &[1.0, 0.0, 0.0, NONE, NONE], &i[28..39]].concat()
}

fn candidate(i: &[f64]) -> Result<LensCandidate, Error> {
    let singlet = match i[1] as u32 {
        1 => None,
        2 => {
            Some(JobSinglet { glass: glass(i[2])?, shape: shape(&i[3..5])?, clear_aperture: aperture(i[5]) })
        }
        _ => return Err(unknown(Param::LensKind, i[1])),
    };
    Ok(LensCandidate { lens: JobLens { focal_length: m(i[0]), singlet }, working_distance: m(i[6]) })
}

fn choose(i: &[f64]) -> Result<Vec<f64>, Error> {
    let count = (i[SET_UP + 2] as usize).min(9);
    let lenses = (0..count)
        .map(|place| candidate(&i[SET_UP + 3 + place % PLACES * LENS..][..LENS]))
        .collect::<Result<Vec<_>, Error>>()?;
    let mut rankings = vec![LensRanking::BLANK; count];
    let set_up = SetUp { tolerance: m(i[SET_UP]), least_clearance: m(i[SET_UP + 1]) };
    let choice = job(&whole_job(i))?.choose_lens(&lenses, set_up, &mut rankings)?;
    let standing = [f64::from(choice.serving), choice.best as f64];
    let lengths = [choice.focus_from_datum.z_away_from_lens().value, choice.half_span.value];
    let mut out =
        [&standing[..], &lengths, &crossing(choice.crossing), &[length_or_nan(choice.flip_span)]].concat();
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
        found.spot_in_focus.diameter_1e2().value,
        found.rayleigh_range.value,
        found.lens_to_waist.value,
        length_or_nan(found.depth.map(|depth| depth.full())),
    ];
    let rest = [length_or_nan(found.spare_half_span), found.clearance.value, bits(found.validity)];
    [&light[..], &place(&found.worst), &rest].concat()
}
