//! Test pieces that an eye has judged against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::raw::{Expected, choice, compare, near, place, share};
use crate::abi::Plain;
use crate::by_eye::*;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::model::learn::{self, EyeFocus, EyeJudgement, PieceRank, RunEnd};
use spotwise::model::mark::MarkKind;

fn judgement() -> impl Strategy<Value = (spotwise_eye_judgement, EyeJudgement)> {
    (near(0.5e-3), near(0.05), share()).prop_map(
        |(rayleigh_range, relative_deviation, coverage_probability)| {
            let c = spotwise_eye_judgement {
                rayleigh_range_m: rayleigh_range,
                relative_deviation,
                coverage_probability,
                ..spotwise_eye_judgement::BLANK
            };
            (c, EyeJudgement { rayleigh_range, relative_deviation, coverage_probability })
        },
    )
}

/// Heights in even steps, good in the middle but for some, with what an odd height may be.
fn series() -> impl Strategy<Value = (Vec<f64>, Vec<u32>)> {
    let odd = prop::option::weighted(0.1, (0..12_usize, place(1e-3)));
    let flipped = prop::option::weighted(0.5, (0..12_usize, choice(3)));
    (0..13_usize, odd, flipped).prop_map(|(count, odd, flipped)| {
        let mut heights: Vec<f64> = (0..count).map(|i| 0.2e-3 * i as f64).collect();
        let mut ranks: Vec<u32> =
            (0..count).map(|i| [1, 1, 2, 2, 3, 3, 3, 2, 2, 1, 1, 1].get(i).copied().unwrap_or(1)).collect();
        if let Some((i, z)) = odd {
            heights.get_mut(i).into_iter().for_each(|height| *height = z);
        }
        if let Some((i, rank)) = flipped {
            ranks.get_mut(i).into_iter().for_each(|old| *old = rank);
        }
        (heights, ranks)
    })
}

fn focus(f: &EyeFocus) -> [f64; 4] {
    [f.focus_z, f.focus_z_deviation, f.least_z, f.greatest_z]
}

fn end(end: Option<RunEnd>) -> [f64; 2] {
    end.map_or([f64::NAN; 2], |end| [end.z, end.deviation])
}

proptest! {
    #[test]
    fn focus_from_vanishing((heights, ranks) in series(), kind in choice(2), (c, judgement) in judgement()) {
        let seen: Vec<bool> = ranks.iter().map(|rank| *rank > 1).collect();
        let bytes: Vec<u8> = ranks.iter().map(|rank| if *rank > 1 { *rank as u8 } else { 0 }).collect();
        let model = MarkKind::from_code(kind)
            .and_then(|kind| learn::focus_from_vanishing(&heights, &seen, kind, &judgement))
            .map(|found| {
                let ends = [found.toward_lens, found.away_from_lens].map(|one| end(Some(one))).concat();
                let numbers = [&focus(&found.focus)[..], &ends, &[found.half_run, found.dose_ratio]].concat();
                Expected::of::<spotwise_vanishing_focus>().word(found.warnings.bits()).numbers(&numbers)
            });
        compare(
            |out, error| unsafe {
                spotwise_focus_from_vanishing(heights.as_ptr(), bytes.as_ptr(), heights.len(), kind, &c, out, error)
            },
            model,
        )?;
    }

    #[test]
    fn focus_from_ranks((heights, codes) in series(), (c, judgement) in judgement()) {
        let ranks: Result<Vec<PieceRank>, Error> = codes.iter().map(|code| PieceRank::from_code(*code)).collect();
        let model = ranks.and_then(|ranks| learn::focus_from_ranks(&heights, &ranks, &judgement)).map(|found| {
            let ends = [found.usable_toward_lens, found.usable_away_from_lens].map(end).concat();
            let sharp = found.sharp_half_run.unwrap_or(f64::NAN);
            let numbers = [&focus(&found.focus)[..], &ends, &[sharp]].concat();
            Expected::of::<spotwise_rank_focus>().word(found.warnings.bits()).numbers(&numbers)
        });
        compare(
            |out, error| unsafe {
                spotwise_focus_from_ranks(heights.as_ptr(), codes.as_ptr(), heights.len(), &c, out, error)
            },
            model,
        )?;
    }
}
