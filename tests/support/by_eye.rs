//! The functions of the list on test pieces that an eye has judged, called through the model.

use spotwise::Error;
use spotwise::model::learn::{
    EyeFocus, EyeJudgement, PieceRank, RunEnd, focus_from_ranks, focus_from_vanishing,
};
use spotwise::model::mark::MarkKind;

/// Room for pieces in a row.
const PIECES: usize = 12;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "focus_from_vanishing" => {
            let (heights, seen, rest) = pieces(i);
            let seen: Vec<bool> = seen.iter().map(|seen| *seen != 0.0).collect();
            let kind = MarkKind::from_code(rest[0] as u32)?;
            let found = focus_from_vanishing(heights, &seen, kind, &judgement(&rest[1..]))?;
            let ends = [found.toward_lens, found.away_from_lens].map(Some).map(end).concat();
            let rest = [found.half_run, found.dose_ratio, f64::from(found.warnings.bits())];
            [&focus(&found.focus)[..], &ends, &rest].concat()
        }
        "focus_from_ranks" => {
            let (heights, ranks, rest) = pieces(i);
            let ranks =
                ranks.iter().map(|rank| PieceRank::from_code(*rank as u32)).collect::<Result<Vec<_>, _>>()?;
            let found = focus_from_ranks(heights, &ranks, &judgement(rest))?;
            let ends = [found.usable_toward_lens, found.usable_away_from_lens].map(end).concat();
            let rest = [found.sharp_half_run.unwrap_or(f64::NAN), f64::from(found.warnings.bits())];
            [&focus(&found.focus)[..], &ends, &rest].concat()
        }
        _ => return Ok(None),
    }))
}

/// Heights and judgements of the pieces of a row, as many as it has, and what stands behind them.
fn pieces(i: &[f64]) -> (&[f64], &[f64], &[f64]) {
    let count = (i[0] as usize).min(PIECES);
    let (heights, rest) = i[1..].split_at(PIECES);
    let (judgements, rest) = rest.split_at(PIECES);
    (&heights[..count], &judgements[..count], rest)
}

fn judgement(i: &[f64]) -> EyeJudgement {
    EyeJudgement { rayleigh_range: i[0], relative_deviation: i[1], coverage_probability: i[2] }
}

fn focus(f: &EyeFocus) -> [f64; 4] {
    [f.focus_z, f.focus_z_deviation, f.least_z, f.greatest_z]
}

fn end(end: Option<RunEnd>) -> [f64; 2] {
    end.map_or([f64::NAN; 2], |end| [end.z, end.deviation])
}
