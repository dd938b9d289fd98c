//! Focus from test pieces that only an eye has judged.

use crate::exchange::answer;
use spotwise::Error;
use spotwise::model::learn::{self, EyeFocus, EyeJudgement, PieceRank, RunEnd};
use spotwise::model::mark::MarkKind;
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`learn::focus_from_vanishing`]; `seen` says with 1 which pieces show a mark.
#[wasm_bindgen]
pub fn focus_from_vanishing(
    heights: &[f64],
    seen: &[u8],
    mark_kind: u32,
    rayleigh_range: f64,
    relative_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let judgement = EyeJudgement { rayleigh_range, relative_deviation, coverage_probability };
    let seen: Vec<bool> = seen.iter().map(|seen| *seen != 0).collect();
    let found = MarkKind::from_code(mark_kind)
        .and_then(|kind| learn::focus_from_vanishing(heights, &seen, kind, &judgement));
    answer(found.map(|found| {
        let [z, deviation, least, greatest] = focus(&found.focus);
        let [toward, toward_deviation] = end(Some(found.toward_lens));
        let [away, away_deviation] = end(Some(found.away_from_lens));
        let warnings = f64::from(found.warnings.bits());
        [
            z,
            deviation,
            least,
            greatest,
            toward,
            toward_deviation,
            away,
            away_deviation,
            found.half_run,
            found.dose_ratio,
            warnings,
        ]
    }))
}

/// As [`learn::focus_from_ranks`]; `ranks` are codes.
#[wasm_bindgen]
pub fn focus_from_ranks(
    heights: &[f64],
    ranks: &[u32],
    rayleigh_range: f64,
    relative_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let judgement = EyeJudgement { rayleigh_range, relative_deviation, coverage_probability };
    let ranks: Result<Vec<PieceRank>, Error> = ranks.iter().map(|rank| PieceRank::from_code(*rank)).collect();
    let found = ranks.and_then(|ranks| learn::focus_from_ranks(heights, &ranks, &judgement));
    answer(found.map(|found| {
        let [z, deviation, least, greatest] = focus(&found.focus);
        let [toward, toward_deviation] = end(found.usable_toward_lens);
        let [away, away_deviation] = end(found.usable_away_from_lens);
        let sharp = found.sharp_half_run.unwrap_or(f64::NAN);
        let warnings = f64::from(found.warnings.bits());
        [z, deviation, least, greatest, toward, toward_deviation, away, away_deviation, sharp, warnings]
    }))
}

fn focus(f: &EyeFocus) -> [f64; 4] {
    [f.focus_z, f.focus_z_deviation, f.least_z, f.greatest_z]
}

fn end(end: Option<RunEnd>) -> [f64; 2] {
    end.map_or([f64::NAN; 2], |end| [end.z, end.deviation])
}
