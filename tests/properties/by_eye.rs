//! The laws of focus from test pieces that an eye has judged.

use proptest::prelude::*;
use spotwise::model::learn::{EyeJudgement, EyeWarnings, PieceRank, focus_from_ranks, focus_from_vanishing};
use spotwise::model::mark::MarkKind;
use spotwise::{Error, Param};

/// Even steps about zero, in sixteenths so that sums are exact, and which pieces show a mark: a run with one odd piece.
fn seen_series() -> impl Strategy<Value = (Vec<f64>, Vec<bool>)> {
    (5..20_usize, 1..6_u32, 0.0..1.0, 0.0..1.0, prop::option::of(0..20_usize)).prop_map(
        |(count, sixteenths, a, b, odd)| {
            let step = f64::from(sixteenths) / 16.0;
            let heights = (0..count).map(|i| step * (i as f64 - 4.0)).collect();
            let place = |share: f64| 1 + (share * (count - 2) as f64) as usize;
            let (first, last) = (place(a).min(place(b)), place(a).max(place(b)));
            let mut seen: Vec<bool> = (0..count).map(|i| (first..=last).contains(&i)).collect();
            if let Some(odd) = odd.filter(|odd| (1..count - 1).contains(odd)) {
                seen[odd] = true;
            }
            (heights, seen)
        },
    )
}

fn judgement() -> impl Strategy<Value = EyeJudgement> {
    (0.1..3.0, 0.0..0.3, 0.5..0.999).prop_map(|(rayleigh_range, relative_deviation, coverage_probability)| {
        EyeJudgement { rayleigh_range, relative_deviation, coverage_probability }
    })
}

fn kind() -> impl Strategy<Value = MarkKind> {
    prop_oneof![Just(MarkKind::Pulse), Just(MarkKind::Line)]
}

proptest! {
    /// Seen from the other side the answer is the same, bit for bit.
    #[test]
    fn it_is_symmetric((heights, seen) in seen_series(), judgement in judgement(), kind in kind()) {
        let found = focus_from_vanishing(&heights, &seen, kind, &judgement).unwrap();
        let mirrored: Vec<f64> = heights.iter().map(|z| -z).collect();
        let other = focus_from_vanishing(&mirrored, &seen, kind, &judgement).unwrap();
        prop_assert_eq!(other.focus.focus_z, -found.focus.focus_z);
        prop_assert_eq!(other.focus.least_z, -found.focus.greatest_z);
        prop_assert_eq!(other.toward_lens.z, -found.away_from_lens.z);
        prop_assert_eq!(other.toward_lens.deviation, found.away_from_lens.deviation);
        prop_assert_eq!(other.half_run, found.half_run);
        prop_assert_eq!(other.warnings, found.warnings);
    }

    /// The order in which the pieces are named, another datum and another unit change nothing but what they must.
    #[test]
    fn order_datum_and_unit_do_not_matter((heights, seen) in seen_series(), judgement in judgement(), kind in kind()) {
        let found = focus_from_vanishing(&heights, &seen, kind, &judgement).unwrap();
        let turned: (Vec<f64>, Vec<bool>) = heights.iter().copied().zip(seen.iter().copied()).rev().unzip();
        prop_assert_eq!(focus_from_vanishing(&turned.0, &turned.1, kind, &judgement).unwrap(), found);
        let shifted: Vec<f64> = heights.iter().map(|z| z + 64.0).collect();
        let other = focus_from_vanishing(&shifted, &seen, kind, &judgement).unwrap();
        prop_assert_eq!(other.focus.focus_z, found.focus.focus_z + 64.0);
        prop_assert_eq!(other.focus.focus_z_deviation, found.focus.focus_z_deviation);
        let scaled: Vec<f64> = heights.iter().map(|z| z / 1024.0).collect();
        let in_unit = EyeJudgement { rayleigh_range: judgement.rayleigh_range / 1024.0, ..judgement };
        let other = focus_from_vanishing(&scaled, &seen, kind, &in_unit).unwrap();
        prop_assert_eq!(other.focus.focus_z * 1024.0, found.focus.focus_z);
        prop_assert_eq!(other.focus.focus_z_deviation * 1024.0, found.focus.focus_z_deviation);
        prop_assert_eq!(other.dose_ratio, found.dose_ratio);
    }

    /// A clean run ends midway between its last pieces and the next; without chance each end is good to s/√12.
    #[test]
    fn a_clean_run_ends_midway(
        count in 3..30_usize,
        first in 1..10_usize,
        length in 1..10_usize,
        step in 1e-5..1e-3,
        judgement in judgement(),
    ) {
        let count = count.max(first + length + 1);
        let heights: Vec<f64> = (0..count).map(|i| step * i as f64).collect();
        let seen: Vec<bool> = (0..count).map(|i| (first..first + length).contains(&i)).collect();
        let sure = EyeJudgement { relative_deviation: 0.0, ..judgement };
        let found = focus_from_vanishing(&heights, &seen, MarkKind::Line, &sure).unwrap();
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-12 * b.abs().max(step);
        prop_assert!(near(found.toward_lens.z, step * (first as f64 - 0.5)));
        prop_assert!(near(found.away_from_lens.z, step * ((first + length) as f64 - 0.5)));
        prop_assert!(near(found.half_run, 0.5 * step * length as f64));
        prop_assert!(near(found.toward_lens.deviation, step / 12_f64.sqrt()));
        prop_assert!(near(found.focus.focus_z_deviation, step / 24_f64.sqrt()));
        prop_assert!(!found.warnings.contains(EyeWarnings::OUT_OF_ORDER));
        // Growth at the ends, by the law of the beam.
        let grown = 1.0 + (found.half_run / sure.rayleigh_range) * (found.half_run / sure.rayleigh_range);
        prop_assert!((found.dose_ratio - grown.sqrt()).abs() <= 1e-14 * grown);
    }

    /// More chance makes less sure, a second series of the same heights makes surer.
    #[test]
    fn chance_and_repeats((heights, seen) in seen_series(), judgement in judgement(), kind in kind()) {
        let found = focus_from_vanishing(&heights, &seen, kind, &judgement).unwrap();
        let worse = EyeJudgement { relative_deviation: judgement.relative_deviation + 0.1, ..judgement };
        let other = focus_from_vanishing(&heights, &seen, kind, &worse).unwrap();
        prop_assert_eq!(other.focus.focus_z, found.focus.focus_z);
        prop_assert!(other.focus.focus_z_deviation > found.focus.focus_z_deviation);
        let twice = ([heights.clone(), heights].concat(), [seen.clone(), seen].concat());
        let surer = focus_from_vanishing(&twice.0, &twice.1, kind, &worse).unwrap();
        prop_assert_eq!(surer.focus.focus_z, found.focus.focus_z);
        prop_assert!(surer.focus.focus_z_deviation < other.focus.focus_z_deviation);
        prop_assert!(surer.focus.focus_z_deviation > 0.7 * other.focus.focus_z_deviation);
    }

    /// Ranks of two kinds say what the vanishing of marks says; the range widens with the coverage.
    #[test]
    fn ranks_without_sharp_pieces_are_vanishing_marks((heights, seen) in seen_series(), judgement in judgement()) {
        let ranks: Vec<PieceRank> =
            seen.iter().map(|seen| if *seen { PieceRank::Acceptable } else { PieceRank::Poor }).collect();
        let found = focus_from_ranks(&heights, &ranks, &judgement).unwrap();
        let vanishing = focus_from_vanishing(&heights, &seen, MarkKind::Line, &judgement).unwrap();
        prop_assert_eq!(found.focus, vanishing.focus);
        prop_assert_eq!(found.usable_toward_lens, Some(vanishing.toward_lens));
        prop_assert_eq!(found.usable_away_from_lens, Some(vanishing.away_from_lens));
        prop_assert!(found.sharp_half_run.is_none() && found.warnings.contains(EyeWarnings::NONE_SHARP));
        let wide = EyeJudgement { coverage_probability: 0.9999, ..judgement };
        let wider = focus_from_ranks(&heights, &ranks, &wide).unwrap();
        prop_assert!(wider.focus.least_z < found.focus.least_z && wider.focus.greatest_z > found.focus.greatest_z);
    }

    /// A run that reaches the end of the series is refused by that side, wherever else pieces are good.
    #[test]
    fn an_open_run_is_refused_by_its_side((heights, seen) in seen_series(), judgement in judgement(), kind in kind()) {
        let mut open = seen.clone();
        open[0] = true;
        let refused = focus_from_vanishing(&heights, &open, kind, &judgement).unwrap_err();
        prop_assert_eq!((refused.code(), refused.param()), (8, Param::BoundTowardLens));
        let mut open = seen.clone();
        *open.last_mut().unwrap() = true;
        let refused = focus_from_vanishing(&heights, &open, kind, &judgement).unwrap_err();
        prop_assert_eq!((refused.code(), refused.param()), (8, Param::BoundAwayFromLens));
        let ranks: Vec<PieceRank> = open.iter().map(|_| PieceRank::Sharp).collect();
        prop_assert_eq!(focus_from_ranks(&heights, &ranks, &judgement).unwrap_err().param(), Param::BoundTowardLens);
    }

    /// Anything at all is answered or refused, never with a number that is none.
    #[test]
    fn anything_is_answered_or_refused(
        pieces in prop::collection::vec((any::<f64>(), 1..4_u32), 0..12),
        rayleigh_range in any::<f64>(),
        relative_deviation in any::<f64>(),
        coverage_probability in any::<f64>(),
    ) {
        let judgement = EyeJudgement { rayleigh_range, relative_deviation, coverage_probability };
        let heights: Vec<f64> = pieces.iter().map(|(z, _)| *z).collect();
        let ranks: Vec<PieceRank> = pieces.iter().map(|(_, code)| PieceRank::from_code(*code).unwrap()).collect();
        if let Ok(found) = focus_from_ranks(&heights, &ranks, &judgement) {
            prop_assert!(found.focus.least_z <= found.focus.focus_z && found.focus.focus_z <= found.focus.greatest_z);
        }
    }
}

#[test]
fn every_argument_is_checked_in_its_order() {
    let heights = [0.0, 1.0, 2.0];
    let seen = [false, true, false];
    let good = EyeJudgement { rayleigh_range: 1.0, relative_deviation: 0.1, coverage_probability: 0.95 };
    let refused = |heights: &[f64], seen: &[bool], judgement: &EyeJudgement| -> Error {
        focus_from_vanishing(heights, seen, MarkKind::Line, judgement).unwrap_err()
    };
    assert_eq!(refused(&heights, &seen[..2], &good).param(), Param::Judgements);
    assert_eq!(refused(&[], &[], &good).param(), Param::Pieces);
    assert_eq!(refused(&[0.0; 257], &[true; 257], &good).param(), Param::Pieces);
    assert_eq!(refused(&[0.0, f64::NAN, 2.0], &seen, &good).param(), Param::PieceHeight);
    assert_eq!(refused(&[0.0, 1.0, 1001.0], &seen, &good).param(), Param::PieceHeight);
    let bad = |rayleigh_range, relative_deviation, coverage_probability| {
        refused(&heights, &seen, &EyeJudgement { rayleigh_range, relative_deviation, coverage_probability })
            .param()
    };
    assert_eq!(bad(0.0, 2.0, 2.0), Param::RayleighRange);
    assert_eq!(bad(1.0, -0.1, 2.0), Param::JudgementDeviation);
    assert_eq!(bad(1.0, 0.1, 1.0), Param::CoverageProbability);
    let none = refused(&heights, &[false; 3], &good);
    assert_eq!(none.to_string(), "the data cannot tell: good test pieces = 0 (must be at least 1)");
    let open = refused(&heights[1..], &seen[1..], &good);
    assert_eq!(
        open.to_string(),
        "the data cannot tell: heights beyond the good test pieces, toward the lens = 0 (must be at least 1)"
    );
    let long = EyeJudgement { rayleigh_range: 1e10, ..good };
    assert_eq!(refused(&heights, &seen, &long).param(), Param::HalfWidth);
}
