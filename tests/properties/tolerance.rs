//! Tolerance stacks, and what holds in spite of them.

use super::given::*;
use super::refusal::{beam, beam_inputs, told_well, value_of};
use super::refusal_real::{Input, input, inputs_of, judge, within};
use proptest::prelude::*;
use spotwise::model::focus::{defocus, offsets_for_diameter};
use spotwise::model::mark::{largest_spot_for_details, smallest_details};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{
    Contribution, DetailOdds, Distribution, Draws, OffsetOdds, SurfaceDetail, ToleranceSource,
    ToleranceStack, detail_odds, offset_odds, tolerance_stack,
};
use spotwise::{Error, Param};

fn distribution(half_width: BoxedStrategy<f64>, factor: BoxedStrategy<f64>) -> BoxedStrategy<Distribution> {
    (1..=5_u32, half_width, factor)
        .prop_map(|(code, half_width, factor)| Distribution::from_code(code, half_width, factor).unwrap())
        .boxed()
}

fn contribution_of(
    distribution: BoxedStrategy<Distribution>,
    mean: BoxedStrategy<f64>,
) -> BoxedStrategy<Contribution> {
    (prop::sample::select(ToleranceSource::ALL.to_vec()), distribution, mean)
        .prop_map(|(source, distribution, mean)| Contribution { source, distribution, mean })
        .boxed()
}

/// Contributions as machines have them.
fn stack() -> impl Strategy<Value = Vec<Contribution>> {
    let distribution = distribution(spread(1e-7, 1e-3), spread(1.0, 4.0));
    prop::collection::vec(contribution_of(distribution, signed_spread(1e-7, 1e-4)), 1..8)
}

fn draws() -> impl Strategy<Value = Draws> {
    (10..80_u32, 0..1_u64 << 53).prop_map(|(count, seed)| Draws::of(count, seed))
}

fn changed(them: &[Contribution], change: impl Fn(f64, f64) -> (f64, f64)) -> Vec<Contribution> {
    them.iter()
        .map(|one| {
            let (half_width, mean) = change(one.distribution.half_width(), one.mean);
            let factor = match one.distribution {
                Distribution::Normal { coverage_factor, .. } => coverage_factor,
                _ => f64::NAN,
            };
            let code = one.distribution.code();
            Contribution {
                distribution: Distribution::from_code(code, half_width, factor).unwrap(),
                mean,
                ..*one
            }
        })
        .collect()
}

/// Standard deviation of one contribution, from the table of the module.
fn deviation_of(one: &Contribution) -> f64 {
    match one.distribution {
        Distribution::Uniform { half_width } => half_width / 3f64.sqrt(),
        Distribution::Triangular { half_width } => half_width / 6f64.sqrt(),
        Distribution::ArcSine { half_width } => half_width / 2f64.sqrt(),
        Distribution::TwoValued { half_width } => half_width,
        Distribution::Normal { half_width, coverage_factor } => half_width / coverage_factor,
        _ => unreachable!("all five are here"),
    }
}

fn numbers(s: &ToleranceStack) -> Vec<f64> {
    vec![
        s.bias,
        s.worst_half_width,
        s.worst_toward_lens_z,
        s.worst_away_from_lens_z,
        s.deviation,
        s.coverage_factor,
        s.expanded_half_width,
        s.expanded_toward_lens_z,
        s.expanded_away_from_lens_z,
        s.dominant_share,
        s.widest_share,
    ]
}

fn odds_numbers(o: &OffsetOdds) -> Vec<f64> {
    vec![
        o.probability,
        o.too_near_probability,
        o.too_far_probability,
        o.drawn.share,
        o.drawn.standard_error,
        o.drawn.least,
        o.drawn.greatest,
        o.offsets.mean,
        o.offsets.deviation,
        o.offsets.least_z,
        o.offsets.greatest_z,
    ]
}

/// A beam with a detail that it holds somewhere, and the half range in which it does.
fn held() -> impl Strategy<Value = (Beam, SurfaceDetail, f64)> {
    let beam = (spread(3e-7, 2e-5), 1.0f64..3.0, 8.0f64..60.0).prop_map(|(wavelength, m2, waists)| Beam {
        wavelength,
        m2,
        waist_diameter: waists * wavelength,
    });
    (beam, 1.2f64..6.0, 1.1f64..3.0, 1.0f64..2.0, 0.0f64..1.3, -0.5f64..0.5).prop_map(
        |(beam, dose_ratio, growth, wider, uneven, aside)| {
            let finest = smallest_details(growth * beam.waist_diameter, dose_ratio).unwrap();
            let (finest_stroke, finest_gap) = (finest.bar * wider, finest.gap);
            let spot = largest_spot_for_details(finest_stroke, finest_gap, dose_ratio).unwrap();
            let half = offsets_for_diameter(&beam, spot).unwrap().away_from_lens_z;
            let (highest_z, lowest_z) = (half * (aside - uneven), half * (aside + uneven));
            (beam, SurfaceDetail { finest_stroke, finest_gap, dose_ratio, highest_z, lowest_z }, half)
        },
    )
}

/// Contributions about as large as a range.
fn stack_within(half: f64, them: &[Contribution], size: f64) -> Vec<Contribution> {
    let greatest = them.iter().map(|one| one.distribution.half_width()).fold(0.0, f64::max);
    let scale = half * size / greatest;
    changed(them, |half_width, mean| (half_width * scale, mean * scale))
}

proptest! {
    #![proptest_config(config())]

    /// The sums are sums, and each number follows from the others.
    #[test]
    fn sums(them in stack(), p in 0.01f64..0.999) {
        let s = tolerance_stack(&them, p).unwrap();
        let half_widths: Vec<_> = them.iter().map(|one| one.distribution.half_width()).collect();
        close(s.worst_half_width, half_widths.iter().sum(), 8.0);
        let variances: Vec<_> = them.iter().map(|one| deviation_of(one).powi(2)).collect();
        close(s.deviation, variances.iter().sum::<f64>().sqrt(), 8.0);
        close(s.expanded_half_width, s.coverage_factor * s.deviation, 1.0);
        let size = s.bias.abs() + s.worst_half_width + s.expanded_half_width;
        near(s.worst_away_from_lens_z - s.worst_toward_lens_z, 2.0 * s.worst_half_width, 1e-15 * size);
        near(s.expanded_away_from_lens_z - s.expanded_toward_lens_z, 2.0 * s.expanded_half_width, 1e-15 * size);
        near(0.5 * (s.worst_away_from_lens_z + s.worst_toward_lens_z), s.bias, 1e-15 * size);
        // No deviation exceeds its half width, so neither does their root sum square the worst case.
        in_order(s.deviation, s.worst_half_width, 4.0);
        // The greatest has at least its part, and no other is greater.
        let (dominant, widest) = (s.dominant as usize, s.widest as usize);
        in_order(1.0 / them.len() as f64, s.dominant_share, 4.0);
        in_order(1.0 / them.len() as f64, s.widest_share, 4.0);
        close(s.dominant_share, variances[dominant] / variances.iter().sum::<f64>(), 16.0);
        for variance in variances {
            in_order(variance, deviation_of(&them[dominant]).powi(2), 16.0);
        }
        prop_assert!(half_widths.iter().all(|half_width| *half_width <= half_widths[widest]));
    }

    /// In any order, to the last bit or the one before it.
    #[test]
    fn order(them in stack(), turn in 0usize..8) {
        let s = tolerance_stack(&them, 0.95).unwrap();
        let mut turned = them.clone();
        turned.rotate_left(turn % them.len());
        turned.reverse();
        let t = tolerance_stack(&turned, 0.95).unwrap();
        for (got, want) in numbers(&t).into_iter().zip(numbers(&s)) {
            close(got, want, 1.0);
        }
        let alike = |s: u32, t: u32| them[s as usize].distribution == turned[t as usize].distribution;
        prop_assert!(alike(s.widest, t.widest) || them[s.widest as usize].distribution.half_width()
            == turned[t.widest as usize].distribution.half_width());
    }

    /// A power of two scales every length and leaves every share and probability as it is.
    #[test]
    fn scaling(them in stack(), scale in power_of_two(), limit in 0.1f64..3.0, draws in draws()) {
        let large = changed(&them, |half_width, mean| (half_width * scale, mean * scale));
        let (s, l) = (tolerance_stack(&them, 0.95).unwrap(), tolerance_stack(&large, 0.95).unwrap());
        for (got, want) in numbers(&l).into_iter().zip(numbers(&s)).take(5) {
            same_bits(got, scale * want);
        }
        same_bits(l.dominant_share, s.dominant_share);
        let z = limit * s.deviation;
        let one = odds_numbers(&offset_odds(&them, -z, z, draws).unwrap());
        let other = odds_numbers(&offset_odds(&large, -scale * z, scale * z, draws).unwrap());
        for (at, (got, want)) in other.into_iter().zip(one).enumerate() {
            same_bits(got, if at < 7 { want } else { scale * want });
        }
    }

    /// One contribution more never makes a stack narrower.
    #[test]
    fn more(them in stack()) {
        let mut before = (0.0, 0.0);
        for count in 1..=them.len() {
            let s = tolerance_stack(&them[..count], 0.95).unwrap();
            prop_assert!(s.deviation >= before.0 && s.worst_half_width >= before.1);
            before = (s.deviation, s.worst_half_width);
        }
    }

    /// The expanded interval holds the coverage probability, half of what is left lies on either side; a greater
    /// probability needs a wider one.
    #[test]
    fn coverage(them in stack(), p in 0.011f64..0.999, draws in draws()) {
        // Means would cancel against the interval.
        let them = changed(&them, |half_width, _| (half_width, 0.0));
        let s = tolerance_stack(&them, p).unwrap();
        let o = offset_odds(&them, s.expanded_toward_lens_z, s.expanded_away_from_lens_z, draws).unwrap();
        close(o.probability, p, 16.0);
        close(o.too_near_probability, 0.5 * (1.0 - p), 64.0);
        same_bits(o.too_near_probability, o.too_far_probability);
        prop_assert!(tolerance_stack(&them, 0.99 * p).unwrap().coverage_factor < s.coverage_factor);
    }

    /// Looked at from the other side, near is far.
    #[test]
    fn mirror(them in stack(), low in -3.0f64..3.0, way in 0.0f64..3.0, draws in draws()) {
        let s = tolerance_stack(&them, 0.95).unwrap();
        let (low, high) = (s.bias + low * s.deviation, s.bias + (low + way) * s.deviation);
        let there = changed(&them, |half_width, mean| (half_width, -mean));
        let o = offset_odds(&them, low, high, draws).unwrap();
        let m = offset_odds(&there, -high, -low, draws).unwrap();
        same_bits(o.probability, m.probability);
        same_bits(o.too_near_probability, m.too_far_probability);
        same_bits(o.too_far_probability, m.too_near_probability);
        near(o.probability + o.too_near_probability + o.too_far_probability, 1.0, 1e-15);
    }

    /// A wider range holds at least as much; nothing lies outside the worst case but what is normal.
    #[test]
    fn wider(them in stack(), low in -3.0f64..3.0, way in 0.0f64..3.0, more in 0.0f64..1.0, draws in draws()) {
        let s = tolerance_stack(&them, 0.95).unwrap();
        let (low, high) = (s.bias + low * s.deviation, s.bias + (low + way) * s.deviation);
        let narrow = offset_odds(&them, low, high, draws).unwrap();
        let wide = offset_odds(&them, low - more * s.deviation, high + more * s.deviation, draws).unwrap();
        in_order(narrow.probability, wide.probability, 16.0);
        prop_assert!(narrow.drawn.share <= wide.drawn.share && narrow.drawn.least <= wide.drawn.least);
        prop_assert!(narrow.drawn.greatest <= wide.drawn.greatest);
        for o in [narrow, wide] {
            let drawn = o.drawn;
            prop_assert!(0.0 <= drawn.least && drawn.least <= drawn.share);
            prop_assert!(drawn.share <= drawn.greatest && drawn.greatest <= 1.0);
            prop_assert!(o.offsets.least_z <= o.offsets.mean && o.offsets.mean <= o.offsets.greatest_z);
        }
        if them.iter().all(|one| one.distribution.code() != 5) {
            in_order(s.worst_toward_lens_z, narrow.offsets.least_z, 16.0);
            in_order(narrow.offsets.greatest_z, s.worst_away_from_lens_z, 16.0);
        }
    }

    /// The same seed draws the same cases, another one others.
    #[test]
    fn seeds(them in stack(), draws in draws(), other in 0..1_u64 << 53) {
        let odds = |draws| odds_numbers(&offset_odds(&them, -1e-3, 1e-3, draws).unwrap());
        prop_assert_eq!(odds(draws), odds(draws));
        // Of two-valued contributions many seeds draw alike.
        if other as f64 != draws.seed && them.iter().any(|one| one.distribution.code() != 4) {
            prop_assert_ne!(odds(draws)[7].to_bits(), odds(Draws { seed: other as f64, ..draws })[7].to_bits());
        }
    }

    /// The odds of a detail are those of its margins, which are where the detail is lost.
    #[test]
    fn details((beam, detail, half) in held(), them in stack(), size in 0.1f64..2.0, draws in draws()) {
        let them = stack_within(half, &them, size);
        let found = detail_odds(&beam, &detail, &them, draws).unwrap();
        prop_assert!(found.holds_in_waist);
        let (toward, away) = (found.margin_toward_lens, found.margin_away_from_lens);
        near(toward, half + detail.highest_z, 1e-14 * half);
        near(away, half - detail.lowest_z, 1e-14 * half);
        if -toward <= away {
            let same = offset_odds(&them, -toward, away, draws).unwrap();
            prop_assert_eq!(same.drawn, found.everywhere.drawn);
            prop_assert_eq!(same.offsets, found.everywhere.offsets);
            near(same.probability, found.everywhere.probability, 1e-13);
            near(same.too_near_probability, found.everywhere.too_near_probability, 1e-13);
        } else {
            prop_assert_eq!((found.everywhere.probability, found.everywhere.drawn.greatest), (0.0, 0.0));
        }
        for place in [found.at_highest, found.at_lowest] {
            prop_assert!(found.everywhere.probability <= place.probability * (1.0 + 1e-13) + 1e-300);
            prop_assert!(found.everywhere.drawn.share <= place.drawn_share);
        }
        if detail.highest_z == detail.lowest_z {
            prop_assert_eq!(found.everywhere.drawn.share, found.at_highest.drawn_share);
            same_bits(found.at_highest.probability, found.at_lowest.probability);
        }
    }

    /// By brute force: the surface put here and there, the spot looked at in its highest and lowest place.
    #[test]
    fn margins_by_trial((beam, detail, half) in held(), share in -2.0f64..2.0) {
        let one = Contribution {
            source: ToleranceSource::Other,
            distribution: Distribution::Uniform { half_width: 0.0 },
            mean: share * half,
        };
        let found = detail_odds(&beam, &detail, &[one], Draws::of(10, 1)).unwrap();
        let holds = |z: f64| {
            let spot = defocus(&beam, z + one.mean).unwrap().diameter;
            let finest = smallest_details(spot, detail.dose_ratio).unwrap();
            finest.bar <= detail.finest_stroke && finest.gap <= detail.finest_gap
        };
        // Within the roundings of a margin either is right.
        let from_a_limit = [detail.highest_z, detail.lowest_z].map(|z| ((z + one.mean).abs() - half).abs());
        prop_assume!(from_a_limit.into_iter().all(|way| way > 1e-9 * half));
        let expected = [holds(detail.highest_z), holds(detail.lowest_z)].map(f64::from);
        prop_assert_eq!([found.at_highest.probability, found.at_lowest.probability], expected);
        prop_assert_eq!([found.at_highest.drawn_share, found.at_lowest.drawn_share], expected);
        prop_assert_eq!(found.everywhere.drawn.share, expected[0] * expected[1]);
        prop_assert_eq!(found.everywhere.probability, expected[0] * expected[1]);
    }

    /// What not even the waist holds has no margins, and no chance.
    #[test]
    fn too_fine((beam, detail, half) in held(), them in stack(), share in 0.01f64..0.9, draws in draws()) {
        let least = smallest_details(beam.waist_diameter, detail.dose_ratio).unwrap().gap;
        let detail = SurfaceDetail { finest_gap: share * least, ..detail };
        let found = detail_odds(&beam, &detail, &stack_within(half, &them, 1.0), draws).unwrap();
        prop_assert!(!found.holds_in_waist);
        let DetailOdds { margin_toward_lens, margin_away_from_lens, everywhere, at_highest, at_lowest, .. } = found;
        prop_assert!(margin_toward_lens.is_nan() && margin_away_from_lens.is_nan());
        prop_assert!(everywhere.too_near_probability.is_nan() && everywhere.too_far_probability.is_nan());
        let nothing = [
            everywhere.probability, everywhere.drawn.share, everywhere.drawn.greatest, at_highest.probability,
            at_highest.drawn_share, at_lowest.probability, at_lowest.drawn_share,
        ];
        prop_assert_eq!(nothing, [0.0; 7]);
        prop_assert!(everywhere.offsets.deviation.is_finite());
    }
}

/// Any contribution at all.
fn wild_stack() -> impl Strategy<Value = Vec<Contribution>> {
    let distribution = distribution(value_of(Param::HalfWidth), value_of(Param::CoverageFactor));
    prop::collection::vec(contribution_of(distribution, value_of(Param::MeanOffset)), 0..4)
}

fn stack_inputs(them: &[Contribution]) -> Vec<Input> {
    let mut inputs = Vec::new();
    for one in them {
        inputs.push(input(Param::HalfWidth, one.distribution.half_width()));
        if let Distribution::Normal { coverage_factor, .. } = one.distribution {
            inputs.push(input(Param::CoverageFactor, coverage_factor));
        }
        inputs.push(input(Param::MeanOffset, one.mean));
    }
    inputs
}

/// As `judge`; without any contribution the data cannot tell, unless something before them was refused.
fn judge_stack(them: &[Contribution], result: Result<Vec<f64>, Error>, before: &[Input], after: &[Input]) {
    if !them.is_empty() {
        let all = [before, &stack_inputs(them), after].concat();
        return judge(result, &all);
    }
    let error = result.unwrap_err();
    if error.code() == 8 {
        judge(Ok(Vec::new()), before);
        assert_eq!((error.param(), error.value(), error.allowed().0), (Param::Contributions, 0.0, 1.0));
    } else {
        judge(Err(error), before);
    }
}

/// A count and a seed, some of them refused.
fn any_draws() -> impl Strategy<Value = Draws> {
    let count = prop_oneof![8 => (10..50_u32).prop_map(f64::from), 1 => prop::sample::select(vec![
        0.0, 9.0, 1e7 + 1.0, -10.0, f64::NAN, f64::INFINITY, 1e300,
    ])];
    let seed = prop_oneof![8 => (0..1_u64 << 53).prop_map(|seed| seed as f64), 1 => prop::sample::select(vec![
        -1.0, 2f64.powi(53), f64::NAN, f64::NEG_INFINITY, 1e300,
    ])];
    (count, seed).prop_map(|(count, seed)| Draws { count, seed })
}

fn draws_inputs(draws: Draws) -> [Input; 2] {
    [input(Param::Draws, draws.count), input(Param::Seed, draws.seed)]
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn stacks_are_refused(them in wild_stack(), p in value_of(Param::CoverageProbability)) {
        let stack = tolerance_stack(&them, p).map(|s| numbers(&s));
        judge_stack(&them, stack, &[], &[input(Param::CoverageProbability, p)]);
    }

    #[test]
    fn odds_are_refused(
        them in wild_stack(), low in value_of(Param::TowardLensZ), high in value_of(Param::AwayFromLensZ),
        draws in any_draws(),
    ) {
        let odds = offset_odds(&them, low, high, draws).map(|o| odds_numbers(&o));
        let (_, greatest) = Param::AwayFromLensZ.range();
        let mut after = vec![input(Param::TowardLensZ, low), within(Param::AwayFromLensZ, high, low, greatest)];
        after.extend(draws_inputs(draws));
        judge_stack(&them, odds, &[], &after);
    }

    #[test]
    fn details_are_refused(
        beam in beam(), them in wild_stack(), draws in any_draws(),
        stroke in value_of(Param::FinestStroke), gap in value_of(Param::FinestGap), q in value_of(Param::DoseRatio),
        highest in value_of(Param::HighestZ), lowest in value_of(Param::LowestZ),
    ) {
        let detail = SurfaceDetail {
            finest_stroke: stroke, finest_gap: gap, dose_ratio: q, highest_z: highest, lowest_z: lowest,
        };
        let mut before = inputs_of(beam_inputs(&beam));
        let (_, greatest) = Param::LowestZ.range();
        before.extend([
            input(Param::FinestStroke, stroke), input(Param::FinestGap, gap), input(Param::DoseRatio, q),
            input(Param::HighestZ, highest), within(Param::LowestZ, lowest, highest, greatest),
        ]);
        let odds = detail_odds(&beam, &detail, &them, draws);
        if matches!(&odds, Err(error) if error.code() == 4) {
            return Ok(());
        }
        let odds = odds.map(|o| {
            let always = [o.at_highest.probability, o.at_lowest.probability, o.everywhere.offsets.mean, o.half_angle];
            let held = [o.margin_toward_lens, o.margin_away_from_lens];
            if o.holds_in_waist { [&always[..], &held, &odds_numbers(&o.everywhere)].concat() } else { always.to_vec() }
        });
        judge_stack(&them, odds, &before, &draws_inputs(draws));
    }

    /// Counts and seeds that are within their range, but not whole.
    #[test]
    fn parts_of_a_draw(count in 10.0f64..1e6, seed in 0.0f64..1e9) {
        prop_assume!(count.fract() != 0.0 && seed.fract() != 0.0);
        let one = Contribution {
            source: ToleranceSource::Other,
            distribution: Distribution::TwoValued { half_width: 1.0 },
            mean: 0.0,
        };
        let param = |draws| offset_odds(&[one], -1.0, 1.0, draws).map_err(|error| (error.code(), error.param()));
        prop_assert_eq!(param(Draws { count, seed: 1.0 }), Err((2, Param::Draws)));
        prop_assert_eq!(param(Draws { count: 10.0, seed }), Err((2, Param::Seed)));
    }

    #[test]
    fn codes(code in any::<u32>()) {
        for code in [code, code % 12] {
            let source = ToleranceSource::from_code(code).map(|source| source as u32);
            super::refusal::only_known_codes(code, 9, Param::ToleranceSource, source);
            let distribution = Distribution::from_code(code, 1.0, 2.0).map(|distribution| distribution.code());
            super::refusal::only_known_codes(code, 5, Param::Distribution, distribution);
        }
    }
}

/// Names are words, and no two are alike.
#[test]
fn names() {
    let names: std::collections::BTreeSet<_> =
        ToleranceSource::ALL.iter().map(|source| source.name()).collect();
    assert_eq!(names.len(), ToleranceSource::ALL.len());
    let error = ToleranceSource::from_code(0).unwrap_err();
    told_well(&error);
}

/// So many draws that a wrong distribution shows, and few enough for a test.
const MANY: u32 = 40_000;

fn of(code: u32, half_width: f64) -> Contribution {
    let distribution = Distribution::from_code(code, half_width, 2.0).unwrap();
    Contribution { source: ToleranceSource::Other, distribution, mean: 0.0 }
}

/// Shares drawn against probabilities in closed form, within four standard errors; the mean and the deviation too.
#[test]
fn shares_that_are_known() {
    let cases: [(&[Contribution], f64, f64); 9] = [
        // Contributions, limit to either side, probability
        (&[of(1, 1.0)], 0.3, 0.3),
        (&[of(2, 1.0)], 0.5, 0.75),      // 1 − (1 − ½)²
        (&[of(3, 1.0)], 0.5, 1.0 / 3.0), // (2/π)·asin ½
        (&[of(4, 1.0), of(4, 1.0)], 0.5, 0.5),
        (&[of(4, 1.0), of(4, 1.0), of(4, 1.0), of(4, 1.0)], 2.5, 14.0 / 16.0), // all but four of a kind
        (&[of(5, 2.0)], 1.0, 0.682_689_492_137_085_9),                         // one deviation
        (&[of(1, 1.0), of(1, 1.0)], 1.0, 0.75),                                // a triangle from −2 to 2
        (&[of(1, 1.0), of(1, 1.0), of(1, 1.0)], 1.0, 2.0 / 3.0),               // Irwin and Hall, of three
        (&[of(1, 1.0), of(1, 1.0), of(1, 1.0), of(1, 1.0)], 2.0, 1.0 - 2.0 / 24.0), // of four: 1/4! on either side
    ];
    for (seed, (them, limit, probability)) in (1..).zip(cases) {
        let o = offset_odds(them, -limit, limit, Draws::of(MANY, seed)).unwrap();
        let error = (probability * (1.0 - probability) / f64::from(MANY)).sqrt();
        let off = (o.drawn.share - probability) / error;
        assert!(off.abs() < 4.0, "{them:?}: {} is off by {off} deviations", o.drawn.share);
        assert!(o.drawn.least < probability + 2.0 * error && o.drawn.greatest > probability - 2.0 * error);
        let deviation = tolerance_stack(them, 0.95).unwrap().deviation;
        assert!(o.offsets.mean.abs() < 4.0 * deviation / f64::from(MANY).sqrt(), "{them:?}");
        assert!((o.offsets.deviation / deviation - 1.0).abs() < 0.02, "{them:?}: {}", o.offsets.deviation);
    }
}

/// Ten even classes of a uniform contribution hold a tenth each: χ² of nine degrees of freedom stays below its
/// point of 0.1 %, 27.88 (any table, from memory). Each class is also that of its mirror image, and their sum is
/// all that was drawn.
#[test]
fn classes_are_even() {
    for seed in [0, 1, 2, 1_000_000_007, (1 << 53) - 1] {
        let draws = Draws::of(MANY, seed);
        let share = |k: u32| {
            let low = -1.0 + 0.2 * f64::from(k);
            offset_odds(&[of(1, 1.0)], low, low + 0.2, draws).unwrap().drawn.share
        };
        let shares: Vec<_> = (0..10).map(share).collect();
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-3, "{shares:?}");
        let chi_squared: f64 = shares.iter().map(|s| f64::from(MANY) * (s - 0.1).powi(2) / 0.1).sum();
        assert!(chi_squared < 27.88, "seed {seed}: {chi_squared}");
    }
}

/// Neighbouring draws, and the contributions of one case, do not hang together: the variance of a sum of two is the
/// sum of their variances, to what so many draws tell.
#[test]
fn contributions_are_drawn_apart() {
    for (a, b) in [(1, 1), (1, 4), (5, 5), (3, 2)] {
        let both = [of(a, 1.0), of(b, 1.0)];
        let sum = offset_odds(&both, -9.0, 9.0, Draws::of(MANY, 5)).unwrap().offsets.deviation;
        let want = tolerance_stack(&both, 0.95).unwrap().deviation;
        assert!((sum / want - 1.0).abs() < 0.02, "{a} and {b}: {sum}, {want}");
    }
}
