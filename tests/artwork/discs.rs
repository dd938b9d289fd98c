//! Masks of what lies beyond a disc, openings and closings, against their definitions pixel by pixel.

use crate::cases;
use crate::masks::{Mask, any_mask};
use proptest::prelude::*;
use spotwise::artwork::{
    Bitmap, BitmapMut, Disc, Step, Watch, closed, closed_words, disc_words, filled, lost, opened,
    opened_words,
};
use spotwise::{Error, Param};

type Difference = fn(Bitmap, Bitmap, &Disc, &mut BitmapMut, &mut [u64], &mut Watch) -> Result<(), Error>;
type Morphology = fn(Bitmap, &Disc, &mut BitmapMut, &mut [u64], &mut Watch) -> Result<(), Error>;

fn difference(function: Difference, ink: &Mask, mark: &Mask, disc: &Disc) -> Mask {
    let mut out = Mask { words: vec![!0; ink.words.len()], ..*ink };
    let mut room = vec![!0; disc_words(ink.width, ink.height, disc)];
    let mut view = BitmapMut::new(&mut out.words, ink.width, ink.height).unwrap();
    function(ink.view(), mark.view(), disc, &mut view, &mut room, &mut Watch::quiet()).unwrap();
    out
}

fn morphology(function: Morphology, words: usize, mask: &Mask, disc: &Disc) -> Mask {
    let mut out = Mask { words: vec![!0; mask.words.len()], ..*mask };
    let mut room = vec![!0; words];
    let mut view = BitmapMut::new(&mut out.words, mask.width, mask.height).unwrap();
    function(mask.view(), disc, &mut view, &mut room, &mut Watch::quiet()).unwrap();
    out
}

/// Ink lost and ground filled, and their sizes, are those of every case.
#[test]
fn areas_of_the_cases() {
    for case in cases::all() {
        let number = |name: &str| case.facts[name].as_f64().unwrap() * 1e-3;
        let pitch = number("pixel_mm");
        let disc = Disc::new(number("tolerance_mm"), pitch, pitch, Param::EdgeTolerance).unwrap();
        let ink = Mask { words: case.ink_words(), width: case.width, height: case.height };
        let mark = Mask { words: case.mark_words(), width: case.width, height: case.height };
        assert_eq!(
            difference(lost, &ink, &mark, &disc).view().count(),
            case.metric("lost_px"),
            "{}",
            case.name
        );
        assert_eq!(
            difference(filled, &ink, &mark, &disc).view().count(),
            case.metric("filled_px"),
            "{}",
            case.name
        );
        // Without any tolerance, what is lost and filled is what is missing and what is too much.
        let none = Disc::new(0.0, pitch, pitch, Param::EdgeTolerance).unwrap();
        assert_eq!(difference(lost, &ink, &mark, &none).view().count(), case.metric("missing_px"));
        assert_eq!(difference(filled, &ink, &mark, &none).view().count(), case.metric("extra_px"));
    }
}

/// The pixels of a disc, from its definition.
fn offsets(radius: f64, pitch: (f64, f64)) -> Vec<(i64, i64)> {
    let most = (radius / pitch.0.min(pitch.1)) as i64 + 1;
    let all = (-most..=most).flat_map(|y| (-most..=most).map(move |x| (x, y)));
    all.filter(|&(x, y)| (x as f64 * pitch.0).hypot(y as f64 * pitch.1) <= radius * (1.0 + 1e-12)).collect()
}

fn any_disc() -> impl Strategy<Value = (f64, (f64, f64))> {
    let ratio = prop_oneof![Just(1.0), 0.3..3.0_f64];
    // Radii of whole pixels too, where ties decide.
    let radius = prop_oneof![0.0..9.0_f64, (0..9_u8).prop_map(f64::from)];
    (radius, ratio).prop_map(|(radius, ratio)| (radius * 1e-5, (1e-5, 1e-5 * ratio)))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn lost_and_filled_are_what_no_disc_reaches(
        mark in any_mask(300, 12), seed in any::<u64>(), (radius, pitch) in any_disc(),
    ) {
        let ink = Mask::from_fn(mark.width, mark.height, |x, y| {
            mark.view().get(x, y) != (crate::masks::unit(seed, x / 5, y / 5) < 0.5)
        });
        let disc = Disc::new(radius, pitch.0, pitch.1, Param::EdgeTolerance).unwrap();
        let offsets = offsets(radius, pitch);
        let near = |x: usize, y: usize, set| {
            offsets.iter().any(|&(dx, dy)| mark.get(x as i64 + dx, y as i64 + dy) == set)
        };
        let lost = difference(lost, &ink, &mark, &disc);
        let filled = difference(filled, &ink, &mark, &disc);
        let expected = Mask::from_fn(ink.width, ink.height, |x, y| ink.view().get(x, y) && !near(x, y, true));
        prop_assert_eq!(lost.words, expected.words);
        let expected = Mask::from_fn(ink.width, ink.height, |x, y| !ink.view().get(x, y) && !near(x, y, false));
        prop_assert_eq!(filled.words, expected.words);
    }

    #[test]
    fn opening_and_closing_by_definition(mask in any_mask(90, 20), (radius, pitch) in any_disc()) {
        let disc = Disc::new(radius, pitch.0, pitch.1, Param::MeltBridge).unwrap();
        let offsets = offsets(radius, pitch);
        let inside = |x: i64, y: i64, set: bool| {
            offsets.iter().all(|&(dx, dy)| mask.get(x + dx, y + dy) == set)
        };
        let covered = |set: bool| {
            Mask::from_fn(mask.width, mask.height, |x, y| {
                offsets.iter().any(|&(dx, dy)| inside(x as i64 + dx, y as i64 + dy, set))
            })
        };
        let (width, height) = (mask.width, mask.height);
        let open = morphology(opened, opened_words(width, height, &disc), &mask, &disc);
        prop_assert_eq!(&open.words, &covered(true).words);
        let close = morphology(closed, closed_words(width, height, &disc), &mask, &disc);
        let bare = covered(false);
        let expected = Mask::from_fn(width, height, |x, y| !bare.view().get(x, y));
        prop_assert_eq!(&close.words, &expected.words);
        // Once is enough.
        let twice = morphology(opened, opened_words(width, height, &disc), &open, &disc);
        prop_assert_eq!(twice.words, open.words);
        let twice = morphology(closed, closed_words(width, height, &disc), &close, &disc);
        prop_assert_eq!(twice.words, close.words);
    }
}

/// A bar of n pixels stays under an opening of a disc of r pixels if n ≥ 2·r + 1, and a gap of n pixels is bridged if
/// n ≤ 2·r; up to the longest disc.
#[test]
fn bars_and_gaps_by_their_width() {
    for radius in [1, 5, 63, 64, 65, 254_usize] {
        let disc = Disc::new(radius as f64 * 1e-5, 1e-5, 1e-5, Param::MeltBridge).unwrap();
        for (width, stays) in [(2 * radius, false), (2 * radius + 1, true)] {
            let size = 2 * radius + 600;
            for upright in [false, true] {
                let at = |x: usize, y: usize| if upright { x } else { y };
                let (across, along) = (width + 40, size);
                let (w, h) = if upright { (across, along) } else { (along, across) };
                let bar = Mask::from_fn(w, h, |x, y| (20..20 + width).contains(&at(x, y)));
                let open = morphology(opened, opened_words(w, h, &disc), &bar, &disc);
                assert_eq!(open.view().get(w / 2, h / 2), stays, "{radius} {width} {upright}");
                let gap = Mask::from_fn(w, h, |x, y| !(20..20 + width).contains(&at(x, y)));
                let close = morphology(closed, closed_words(w, h, &disc), &gap, &disc);
                assert_eq!(close.view().get(w / 2, h / 2), !stays, "{radius} {width} {upright}");
            }
        }
    }
}

#[test]
fn what_is_refused() {
    let disc = |radius| Disc::new(radius, 1e-5, 2e-5, Param::EdgeTolerance);
    assert!(disc(254e-5).is_ok());
    for radius in [254.1e-5, -1e-9, f64::INFINITY] {
        let error = disc(radius).unwrap_err();
        assert_eq!(error.param(), Param::EdgeTolerance, "{error:?}");
    }
    assert!(matches!(disc(f64::NAN), Err(Error::NotFinite { param: Param::EdgeTolerance, .. })));
    let disc = disc(5e-5).unwrap();
    let (mask, small) = (Mask::empty(80, 90), Mask::empty(80, 89));
    let needed = disc_words(80, 90, &disc);
    let mut room = vec![0; needed];
    let mut out = Mask::empty(80, 90);
    let mut view = BitmapMut::new(&mut out.words, 80, 90).unwrap();
    let mut run = |ink: &Mask, mark: &Mask, room: &mut [u64], watch: &mut Watch| {
        lost(ink.view(), mark.view(), &disc, &mut view, room, watch)
    };
    assert!(run(&mask, &mask, &mut room, &mut Watch::quiet()).is_ok());
    for result in [
        run(&mask, &mask, &mut room[1..], &mut Watch::quiet()),
        run(&mask, &small, &mut room, &mut Watch::quiet()),
        run(&small, &small, &mut room, &mut Watch::quiet()),
    ] {
        assert!(matches!(result, Err(Error::LengthMismatch { .. })));
    }
    let mut stop = |_| Step::Stop;
    assert!(matches!(run(&mask, &mask, &mut room, &mut Watch::new(&mut stop)), Err(Error::Stopped { .. })));
}
