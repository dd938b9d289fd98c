//! Distances against a search over all pairs of pixels, and against the depths that the cases tell.

use crate::cases;
use crate::masks::{Mask, any_mask};
use proptest::prelude::*;
use spotwise::Error;
use spotwise::artwork::{Bitmap, Nearest, Ruler, Step, Watch, distances, distances_words};

/// All distances in units of the pitch in x, squared.
fn squared(mask: &Mask, nearest: Nearest, only: Option<&Mask>, ruler: &Ruler) -> Vec<f64> {
    let mut room = vec![!0; distances_words(mask.width, mask.height, ruler)];
    let mut all = Vec::new();
    let mut expected_row = 0;
    let only = only.map(Mask::view);
    distances(mask.view(), nearest, only, ruler, &mut room, &mut Watch::quiet(), |y, row| {
        assert_eq!(y, expected_row);
        expected_row += 1;
        assert_eq!(row.pixels().is_some(), ruler.pitch_x() == ruler.pitch_y());
        assert_eq!(row.square_metres().is_none(), ruler.pitch_x() == ruler.pitch_y());
        assert!(row.metres(mask.width).is_nan() && row.squared_pixels(mask.width).is_nan());
        all.extend((0..mask.width).map(|x| row.squared_pixels(x)));
        for x in 0..mask.width {
            let metres = row.metres(x) / ruler.pitch_x();
            assert!((metres * metres - row.squared_pixels(x)).abs() <= 1e-13 * row.squared_pixels(x));
        }
    })
    .unwrap();
    assert_eq!(expected_row, mask.height);
    all
}

fn searched(mask: &Mask, nearest: Nearest, pitch: (f64, f64), reach: f64) -> Vec<f64> {
    let squares = mask.nearest_squares(nearest == Nearest::Set, pitch);
    squares.into_iter().map(|square| square.min(reach * reach)).collect()
}

const BOTH: [Nearest; 2] = [Nearest::Set, Nearest::Clear];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn equal_pitches_give_whole_squares_exactly(mask in any_mask(300, 12), reach in 1..=255_u8) {
        let ruler = Ruler::new(12.7e-6, 12.7e-6, reach).unwrap();
        for nearest in BOTH {
            let expected = searched(&mask, nearest, (1.0, 1.0), f64::from(reach));
            prop_assert_eq!(squared(&mask, nearest, None, &ruler), expected);
        }
    }

    #[test]
    fn unequal_pitches_are_right_to_the_last_digits(
        mask in any_mask(60, 60), reach in 1..=255_u8, log_ratio in -3.0..3.0_f64,
    ) {
        let ratio = log_ratio.exp();
        let ruler = Ruler::new(10e-6, 10e-6 * ratio, reach).unwrap();
        for nearest in BOTH {
            let expected = searched(&mask, nearest, (1.0, ratio), f64::from(reach) * ratio.min(1.0));
            for (got, expected) in squared(&mask, nearest, None, &ruler).iter().zip(expected) {
                prop_assert!((got - expected).abs() <= 1e-15 * expected, "{got} {expected}");
            }
        }
    }

    /// Where the distances are wanted they are the same, elsewhere within the bounds told.
    #[test]
    fn distances_of_wanted_pixels_only(mask in any_mask(700, 30), seed in any::<u64>(), reach in 1..=40_u8) {
        let only = Mask::from_fn(mask.width, mask.height, |x, y| crate::masks::unit(seed, x / 60, y / 4) < 0.1);
        let ruler = Ruler::new(1e-5, 1e-5, reach).unwrap();
        for nearest in BOTH {
            let all = squared(&mask, nearest, None, &ruler);
            let some = squared(&mask, nearest, Some(&only), &ruler);
            for (((x, y), all), some) in mask.pixels().zip(all).zip(some) {
                let unwanted = if nearest == Nearest::Set { f64::from(reach).powi(2) } else { 0.0 };
                prop_assert!(all == some || !only.view().get(x, y) && some == unwanted);
            }
        }
    }

    /// Mirrored and turned masks have mirrored and turned distances.
    #[test]
    fn distances_turn_with_the_mask(mask in any_mask(80, 80), reach in 1..=100_u8) {
        let (width, height) = (mask.width, mask.height);
        let mirrored = Mask::from_fn(width, height, |x, y| mask.view().get(width - 1 - x, y));
        let turned = Mask::from_fn(height, width, |x, y| mask.view().get(y, x));
        let ruler = Ruler::new(1e-5, 1e-5, reach).unwrap();
        for nearest in BOTH {
            let all = squared(&mask, nearest, None, &ruler);
            let other = squared(&mirrored, nearest, None, &ruler);
            let third = squared(&turned, nearest, None, &ruler);
            for ((x, y), square) in mask.pixels().zip(&all) {
                prop_assert_eq!(*square, other[y * width + width - 1 - x]);
                prop_assert_eq!(*square, third[x * height + y]);
            }
        }
    }
}

/// By hand: the cap, the outside that counts as clear, and Pythagoras' triangle 3, 4, 5.
#[test]
fn small_masks_by_hand() {
    let dot = Mask::from_fn(8, 7, |x, y| (x, y) == (1, 1));
    let row = |reach| squared(&dot, Nearest::Set, None, &Ruler::new(1e-5, 1e-5, reach).unwrap());
    assert_eq!(row(255)[5 * 8 + 4], 25.0);
    assert_eq!(row(4)[5 * 8 + 4], 16.0);
    assert_eq!(row(255)[6 * 8 + 7], 36.0 + 25.0);
    let full = Mask::from_fn(5, 3, |_, _| true);
    let clear = squared(&full, Nearest::Clear, None, &Ruler::new(1e-5, 1e-5, 255).unwrap());
    assert_eq!(clear, [1., 1., 1., 1., 1., 1., 4., 4., 4., 1., 1., 1., 1., 1., 1.]);
    let twice = squared(&full, Nearest::Clear, None, &Ruler::new(1e-5, 2e-5, 255).unwrap());
    assert_eq!(twice[7], 9.0, "3 columns are nearer than 2 rows of twice the pitch");
    assert_eq!(twice[6], 4.0);
}

/// Each region that a case lists is as deep as it says at the pixel that it names, to the last digits.
#[test]
fn depths_of_the_cases() {
    let mut regions = 0;
    for case in cases::all() {
        let (ink, mark) = (case.ink_words(), case.mark_words());
        let mask = Mask { words: mark, width: case.width, height: case.height };
        let only = Mask { words: ink, width: case.width, height: case.height };
        let pitch = case.facts["pixel_mm"].as_f64().unwrap() * 1e-3;
        let ruler = Ruler::new(pitch, pitch, 255).unwrap();
        let ground = Mask::from_fn(case.width, case.height, |x, y| !only.view().get(x, y));
        let to_mark = squared(&mask, Nearest::Set, Some(&only), &ruler);
        let to_clear = squared(&mask, Nearest::Clear, Some(&ground), &ruler);
        for (list, squares) in [("lost_list", &to_mark), ("filled_list", &to_clear)] {
            for region in case.facts["metrics"][list].as_array().unwrap() {
                let worst = |k: usize| region["worst"][k].as_u64().unwrap() as usize;
                let depth = region["depth_px"].as_f64().unwrap();
                let got = squares[worst(1) * case.width + worst(0)].sqrt();
                assert_eq!(got, depth, "{} {list} {region}", case.name);
                regions += 1;
            }
        }
    }
    assert!(regions > 100, "{regions}");
}

#[test]
fn what_is_refused() {
    for (x, y) in [(0.0, 1e-5), (1e-5, f64::NAN), (f64::INFINITY, 1e-5), (1e-5, -1e-5)] {
        assert!(matches!(Ruler::new(x, y, 16), Err(Error::OutOfRange { .. } | Error::NotFinite { .. })));
    }
    let mask = Mask::empty(100, 100);
    let ruler = Ruler::new(1e-5, 1e-5, 0).unwrap();
    assert_eq!(ruler.reach(), 1e-5);
    let needed = distances_words(100, 100, &ruler);
    let run = |room: &mut [u64], only: Option<Bitmap>, watch: &mut Watch| {
        distances(mask.view(), Nearest::Set, only, &ruler, room, watch, |_, _| {})
    };
    let mut room = vec![0; needed];
    assert!(run(&mut room, None, &mut Watch::quiet()).is_ok());
    let short = run(&mut room[1..], None, &mut Watch::quiet()).unwrap_err();
    assert!(
        matches!(short, Error::LengthMismatch { value, expected, .. } if expected == needed && value + 1 == needed)
    );
    let other = Mask::empty(99, 100);
    assert!(matches!(
        run(&mut room, Some(other.view()), &mut Watch::quiet()),
        Err(Error::LengthMismatch { .. })
    ));
    let mut stop = |_| Step::Stop;
    assert!(matches!(run(&mut room, None, &mut Watch::new(&mut stop)), Err(Error::Stopped { .. })));
}

/// The room told is used to the last word: what `needed` says is what is taken.
#[test]
fn room_is_exact() {
    for (width, height, pitch_y, reach) in [(1, 1, 1e-5, 1), (700, 9, 1e-5, 255), (65, 200, 3e-5, 16)] {
        let ruler = Ruler::new(1e-5, pitch_y, reach).unwrap();
        let mask = Mask::from_fn(width, height, |x, y| x % 50 == 3 && y % 7 == 1);
        let mark = 0x5a5a_5a5a_5a5a_5a5a;
        let mut room = vec![mark; distances_words(width, height, &ruler) + 8];
        distances(mask.view(), Nearest::Clear, None, &ruler, &mut room, &mut Watch::quiet(), |_, _| {})
            .unwrap();
        let used = room.iter().rposition(|word| *word != mark).unwrap() + 1;
        assert_eq!(used, distances_words(width, height, &ruler));
    }
}
