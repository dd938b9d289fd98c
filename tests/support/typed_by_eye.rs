//! The functions of the list on test pieces that an eye has judged, called through the typed layer.

use super::{offset, unknown, z};
use spotwise::units::m;
use spotwise::*;

/// Room for pieces in a row.
const PIECES: usize = 12;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "focus_from_vanishing" => {
            let pieces = places(i)
                .map(|place| Ok(SeenPiece { height: offset(i[1 + place])?, seen: i[13 + place] != 0.0 }))
                .collect::<Result<Vec<_>, Error>>()?;
            let kind = match i[25] as u32 {
                1 => MarkKind::Pulse,
                2 => MarkKind::Line,
                _ => return Err(unknown(Param::MarkKind, i[25])),
            };
            let found = focus_from_vanishing(&pieces, kind, judgement(&i[26..]))?;
            let ends = [found.toward_lens, found.away_from_lens].map(Some).map(end).concat();
            let rest = [found.half_run.value, found.dose_ratio, f64::from(found.warnings.bits())];
            [&focus(&found.focus)[..], &ends, &rest].concat()
        }
        "focus_from_ranks" => {
            let pieces = places(i)
                .map(|place| {
                    let rank = PieceRank::from_code(i[13 + place] as u32)?;
                    Ok(RankedPiece { height: offset(i[1 + place])?, rank })
                })
                .collect::<Result<Vec<_>, Error>>()?;
            let found = focus_from_ranks(&pieces, judgement(&i[25..]))?;
            let ends = [found.usable_toward_lens, found.usable_away_from_lens].map(end).concat();
            let sharp = found.sharp_half_run.map_or(f64::NAN, |half| half.value);
            [&focus(&found.focus)[..], &ends, &[sharp, f64::from(found.warnings.bits())]].concat()
        }
        _ => return Ok(None),
    }))
}

fn places(i: &[f64]) -> std::ops::Range<usize> {
    0..(i[0] as usize).min(PIECES)
}

fn judgement(i: &[f64]) -> EyeJudgement {
    EyeJudgement { rayleigh_range: m(i[0]), relative_deviation: i[1], coverage_probability: i[2] }
}

fn focus(f: &EyeFocus) -> [f64; 4] {
    [z(f.height), f.deviation.value, z(f.toward_lens), z(f.away_from_lens)]
}

fn end(end: Option<RunEnd>) -> [f64; 2] {
    end.map_or([f64::NAN; 2], |end| [z(end.height), end.deviation.value])
}
