//! Tolerance stacks against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::beam;
use super::raw::{Expected, choice, compare, near, place, ratio, share};
use crate::abi::Plain;
use crate::tolerance::*;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::model::surface::{
    self, Contribution, Distribution, Draws, OffsetOdds, SurfaceDetail, ToleranceSource,
};

/// Contributions, for C and for the model, which may refuse them.
fn contributions() -> impl Strategy<Value = (Vec<spotwise_contribution>, Result<Vec<Contribution>, Error>)> {
    let one = (choice(9), choice(5), near(0.1e-3), ratio(), place(0.05e-3));
    prop::collection::vec(one, 0..7).prop_map(|them| {
        let c = them.iter().map(|(source, distribution, half_width, factor, mean)| spotwise_contribution {
            source: *source,
            distribution: *distribution,
            half_width_m: *half_width,
            coverage_factor: *factor,
            mean_m: *mean,
            ..spotwise_contribution::BLANK
        });
        let model = them.iter().map(|(source, distribution, half_width, factor, mean)| {
            Ok(Contribution {
                source: ToleranceSource::from_code(*source)?,
                distribution: Distribution::from_code(*distribution, *half_width, *factor)?,
                mean: *mean,
            })
        });
        (c.collect(), model.collect())
    })
}

fn draws() -> impl Strategy<Value = (u32, u64)> {
    let count = prop_oneof![40 => 10..60_u32, 1 => 0..12_u32, 1 => Just(10_000_001), 1 => Just(u32::MAX)];
    let seed = prop_oneof![40 => 0..1_u64 << 53, 1 => any::<u64>()];
    (count, seed)
}

fn odds(o: &OffsetOdds) -> Expected {
    Expected::of::<spotwise_offset_odds_result>().word(0).numbers(&[
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
    ])
}

proptest! {
    #[test]
    fn tolerance_stack((c, model) in contributions(), coverage in share()) {
        let model = model.and_then(|them| surface::tolerance_stack(&them, coverage)).map(|s| {
            let words = Expected::of::<spotwise_tolerance_stack_result>().word(s.dominant).word(s.widest);
            words.word(0).numbers(&[
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
            ])
        });
        compare(|out, error| unsafe { spotwise_tolerance_stack(c.as_ptr(), c.len(), coverage, out, error) }, model)?;
    }

    #[test]
    fn offset_odds((c, model) in contributions(), low in near(-0.1e-3), high in near(0.1e-3), (count, seed) in draws()) {
        let model = model.and_then(|them| surface::offset_odds(&them, low, high, Draws::of(count, seed))).map(|o| odds(&o));
        compare(
            |out, error| unsafe { spotwise_offset_odds(c.as_ptr(), c.len(), low, high, count, seed, out, error) },
            model,
        )?;
    }

    #[test]
    fn detail_odds(
        (c_beam, beam) in beam(),
        (c, model) in contributions(),
        (finest_stroke, finest_gap, dose_ratio) in (near(80e-6), near(80e-6), ratio()),
        (highest_z, lowest_z) in (near(-0.1e-3), near(0.1e-3)),
        (count, seed) in draws(),
    ) {
        let detail = SurfaceDetail { finest_stroke, finest_gap, dose_ratio, highest_z, lowest_z };
        let c_detail = spotwise_surface_detail {
            finest_stroke_m: finest_stroke,
            finest_gap_m: finest_gap,
            dose_ratio,
            highest_z_m: highest_z,
            lowest_z_m: lowest_z,
            ..spotwise_surface_detail::BLANK
        };
        let model = model.and_then(|them| surface::detail_odds(&beam, &detail, &them, Draws::of(count, seed))).map(|o| {
            Expected::of::<spotwise_detail_odds_result>()
                .word(u32::from(o.holds_in_waist))
                .word(o.validity.bits())
                .word(0)
                .numbers(&[
                    o.margin_toward_lens,
                    o.margin_away_from_lens,
                    o.at_highest.probability,
                    o.at_highest.drawn_share,
                    o.at_lowest.probability,
                    o.at_lowest.drawn_share,
                    o.half_angle,
                ])
                .nested(odds(&o.everywhere))
        });
        let (start, length) = (c.as_ptr(), c.len());
        compare(
            |out, error| unsafe {
                spotwise_detail_odds(&c_beam, &c_detail, start, length, count, seed, out, error)
            },
            model,
        )?;
    }
}

#[test]
fn a_stack_may_have_as_many_contributions_as_its_limit() {
    let count = SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS as usize;
    let c = spotwise_contribution {
        source: 9,
        distribution: 4,
        half_width_m: 1e-3,
        mean_m: 0.0,
        ..spotwise_contribution::BLANK
    };
    let one = Contribution {
        source: ToleranceSource::Other,
        distribution: Distribution::TwoValued { half_width: 1e-3 },
        mean: 0.0,
    };
    let draws = Draws::of(50, 1);
    let model = surface::offset_odds(&vec![one; count], -5e-3, 5e-3, draws).map(|o| odds(&o));
    let them = vec![c; count];
    compare(
        |out, error| unsafe { spotwise_offset_odds(them.as_ptr(), count, -5e-3, 5e-3, 50, 1, out, error) },
        model,
    )
    .unwrap();
}
