//! Maps of heights against the model: the same bits, the same codes, the same reports.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::{beam, criterion};
use super::raw::{Expected, choice, compare, near, place};
use crate::height_map::*;
use proptest::prelude::*;
use spotwise::model::surface::{self, HeightQuantity};

fn heights() -> impl Strategy<Value = Vec<f64>> {
    let height = prop_oneof![20 => place(1e-3), 1 => Just(f64::NAN)];
    prop::collection::vec(height, 0..9)
}

/// A count in two words, the lower first.
fn counts(mut expected: Expected, counts: &[usize]) -> Expected {
    for &count in counts {
        expected = expected.word(count as u32).word((count as u64 >> 32) as u32);
    }
    expected
}

proptest! {
    #[test]
    fn map_heights(
        (c, beam) in beam(),
        focus_z in place(1e-3),
        code in choice(5),
        dose_ratio in near(3.0),
        z in heights(),
    ) {
        let mut map = vec![1.0; z.len()];
        let model = HeightQuantity::from_code(code, dose_ratio)
            .inspect_err(|_| map.fill(f64::NAN))
            .and_then(|quantity| surface::map_heights(&beam, focus_z, quantity, &z, &mut map))
            .map(|found| {
                let expected = Expected::of::<spotwise_height_map>().word(found.validity.bits());
                counts(expected, &[found.measured, found.missing, found.least_index, found.greatest_index])
                    .numbers(&[found.least, found.greatest, found.half_angle])
            });
        let mut out = vec![7.0; z.len() + 1];
        let (places, count, start) = (z.as_ptr(), z.len(), out.as_mut_ptr());
        compare(
            |found, error| unsafe {
                spotwise_map_heights(&c, focus_z, code, dose_ratio, places, count, start, found, error)
            },
            model,
        )?;
        prop_assert_eq!(out.pop(), Some(7.0)); // nothing beyond the end
        for (c, model) in out.iter().zip(&map) {
            prop_assert!(c.to_bits() == model.to_bits() || c.is_nan() && model.is_nan());
        }
    }

    #[test]
    fn in_focus_mask(
        (c, beam) in beam(),
        focus_z in place(1e-3),
        (limit, criterion) in criterion(),
        z in heights(),
    ) {
        let mut mask = vec![false; z.len()];
        let model = criterion
            .and_then(|criterion| surface::in_focus_mask(&beam, focus_z, criterion, &z, &mut mask))
            .map(|found| {
                let expected = Expected::of::<spotwise_focus_mask>().word(found.validity.bits());
                let sorted =
                    [found.in_focus, found.too_near_lens, found.too_far_from_lens, found.missing];
                counts(expected, &sorted).numbers(&[
                    found.toward_lens_z,
                    found.away_from_lens_z,
                    found.half_angle,
                ])
            });
        let mut out = vec![7; z.len() + 1];
        let (places, count, start) = (z.as_ptr(), z.len(), out.as_mut_ptr());
        compare(
            |found, error| unsafe {
                spotwise_in_focus_mask(&c, focus_z, &limit, places, count, start, found, error)
            },
            model,
        )?;
        prop_assert_eq!(out.pop(), Some(7)); // nothing beyond the end
        prop_assert_eq!(out, mask.into_iter().map(u8::from).collect::<Vec<_>>());
    }
}
