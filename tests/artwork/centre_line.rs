//! Centre-lines, the shares of them that are kept, and widths: against the cases and against plain definitions.

use crate::cases;
use crate::masks::{Mask, any_mask, unit};
use proptest::prelude::*;
use spotwise::Error;
use spotwise::artwork::{
    BitmapMut, CentreShare, Ruler, Side, Step, Watch, Widths, add_component_shares, centre_line,
    centre_line_words, centre_share, starved_components, widths, widths_words,
};

fn line(ink: &Mask, side: Side, ruler: &Ruler) -> Mask {
    let mut out = Mask { words: vec![!0; ink.words.len()], ..*ink };
    let mut room = vec![!0; centre_line_words(ink.width, ink.height, ruler)];
    let mut view = BitmapMut::new(&mut out.words, ink.width, ink.height).unwrap();
    let pixels = centre_line(ink.view(), side, ruler, &mut view, &mut room, &mut Watch::quiet()).unwrap();
    assert_eq!(pixels, out.view().count());
    out
}

fn widths_of(ink: &Mask, mark: &Mask, side: Side, ruler: &Ruler) -> Widths {
    let mut room = vec![!0; widths_words(ink.width, ink.height, ruler)];
    widths(ink.view(), mark.view(), side, ruler, &mut room, &mut Watch::quiet()).unwrap()
}

/// The labels of the pieces of ink, which hang together over eight neighbours, by a plain flood fill: 0 for ground.
fn labels(ink: &Mask) -> (Vec<u32>, u32) {
    let mut labels = vec![0; ink.width * ink.height];
    let mut count = 0;
    for (x, y) in ink.pixels() {
        if !ink.view().get(x, y) || labels[y * ink.width + x] != 0 {
            continue;
        }
        count += 1;
        let mut left = vec![(x as i64, y as i64)];
        while let Some((x, y)) = left.pop() {
            if ink.get(x, y) && labels[y as usize * ink.width + x as usize] == 0 {
                labels[y as usize * ink.width + x as usize] = count;
                left.extend((-1..=1).flat_map(|dy| (-1..=1).map(move |dx| (x + dx, y + dy))));
            }
        }
    }
    (labels, count)
}

fn component_shares(ink: &Mask, line: &Mask, mark: &Mask) -> Vec<CentreShare> {
    let (labels, count) = labels(ink);
    let mut shares = vec![CentreShare::default(); count as usize];
    for (y, row) in labels.chunks(ink.width).enumerate() {
        let mut runs = Vec::new();
        let mut start = 0;
        for chunk in row.chunk_by(|a, b| a == b) {
            runs.push((start, start + chunk.len(), chunk[0]));
            start += chunk.len();
        }
        add_component_shares(line.view().row(y), mark.view().row(y), runs, &mut shares);
    }
    shares
}

/// Pixels of the centre-line, those of them that are marked, and starved pieces: as every case counts them. The widths
/// add up to the same.
#[test]
fn centre_lines_of_the_cases() {
    for case in cases::all() {
        let ink = Mask { words: case.ink_words(), width: case.width, height: case.height };
        let mark = Mask { words: case.mark_words(), width: case.width, height: case.height };
        let pitch = case.facts["pixel_mm"].as_f64().unwrap() * 1e-3;
        let ruler = Ruler::new(pitch, pitch, 255).unwrap();
        let line = line(&ink, Side::Ink, &ruler);
        let share = centre_share(line.view(), mark.view(), Side::Ink).unwrap();
        assert_eq!(u64::from(share.pixels), case.metric("centerline_px"), "{}", case.name);
        assert_eq!(u64::from(share.kept), case.metric("centerline_marked_px"), "{}", case.name);
        assert_eq!(widths_of(&ink, &mark, Side::Ink, &ruler).total(), share);
        let shares = component_shares(&ink, &line, &mark);
        assert_eq!(starved_components(&shares) as u64, case.metric("comps_starved"), "{}", case.name);
        let sum = |of: fn(&CentreShare) -> u32| shares.iter().map(of).sum::<u32>();
        assert_eq!((sum(|share| share.pixels), sum(|share| share.kept)), (share.pixels, share.kept));
    }
}

/// The centre-line from its definition, with squares of distances up to the reach.
fn defined(ink: &Mask, side: Side, pitch: (f64, f64), reach: f64) -> Mask {
    let to = side == Side::Ground;
    let inside = ink.nearest_squares(to, pitch);
    let square = |x: i64, y: i64| {
        if x < 0 || y < 0 || x >= ink.width as i64 || y >= ink.height as i64 {
            return if to { reach * reach } else { 0.0 };
        }
        inside[y as usize * ink.width + x as usize].min(reach * reach)
    };
    let mut squares = vec![0.0; (ink.width + 2) * (ink.height + 2)];
    for (index, value) in squares.iter_mut().enumerate() {
        *value = square((index % (ink.width + 2)) as i64 - 1, (index / (ink.width + 2)) as i64 - 1);
    }
    Mask::from_fn(ink.width, ink.height, |x, y| {
        let at = |dx: i64, dy: i64| {
            squares[(y as i64 + 1 + dy) as usize * (ink.width + 2) + (x as i64 + 1 + dx) as usize]
        };
        let here = at(0, 0);
        let across = [(1, 0), (0, 1), (1, 1), (1, -1)].iter().any(|&(dx, dy)| {
            let (one, other) = (at(dx, dy), at(-dx, -dy));
            here >= one && here >= other && (here > one || here > other)
        });
        let all = (-1..=1).all(|dy| (-1..=1).all(|dx| here >= at(dx, dy)));
        ink.view().get(x, y) != to && here < reach * reach && (across || all)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn centre_lines_by_definition(
        ink in any_mask(300, 12), reach in 1..=60_u8, double in any::<bool>(), side in any::<bool>(),
    ) {
        // A ratio of 2 keeps all squares exact, so that ties are the same ties.
        let ratio = if double { 2.0 } else { 1.0 };
        let side = if side { Side::Ink } else { Side::Ground };
        let unit = 2.0_f64.powi(-16);
        let ruler = Ruler::new(unit, unit * ratio, reach).unwrap();
        let expected = defined(&ink, side, (1.0, ratio), f64::from(reach));
        prop_assert_eq!(line(&ink, side, &ruler).words, expected.words);
    }

    /// The shares of the components add up to that of the whole, whatever the mark.
    #[test]
    fn shares_add_up(ink in any_mask(200, 40), seed in any::<u64>()) {
        let mark = Mask::from_fn(ink.width, ink.height, |x, y| unit(seed, x / 3, y / 2) < 0.6);
        let ruler = Ruler::new(1e-5, 1e-5, 255).unwrap();
        for side in [Side::Ink, Side::Ground] {
            let line = line(&ink, side, &ruler);
            let share = centre_share(line.view(), mark.view(), side).unwrap();
            let widths = widths_of(&ink, &mark, side, &ruler);
            prop_assert_eq!(widths.total(), share);
            let kept = widths.smallest_kept(1.0);
            let lost = widths.largest_lost(1.0);
            for (width, share) in widths.shares() {
                prop_assert!(share.pixels > 0 && share.kept <= share.pixels);
                prop_assert!(kept.is_none_or(|kept| width < kept || share.kept == share.pixels));
                prop_assert!(lost.is_none_or(|lost| width > lost || share.kept == 0));
            }
            if share.lost_share() == 0.0 && share.pixels > 0 {
                prop_assert_eq!(kept, widths.shares().next().map(|(width, _)| width));
                prop_assert_eq!(lost, None);
            }
            if side == Side::Ink {
                let mut sum = CentreShare::default();
                for share in component_shares(&ink, &line, &mark) {
                    sum.pixels += share.pixels;
                    sum.kept += share.kept;
                }
                prop_assert_eq!(sum, share);
            }
        }
    }
}

/// Bars of 2, 4, 6 … pixels without ends: the middle two rows are the centre-line, 2·d is the width, and of a mark that
/// holds from 6 pixels on, the smallest kept is 6 and the largest lost 4. Gaps likewise.
#[test]
fn widths_of_bars() {
    let tops: Vec<(usize, usize)> = (1..=6).map(|k| (10 + (k - 1) * (k - 1 + 10), 2 * k)).collect();
    let height = tops.last().unwrap().0 + 30;
    let bar = |y: usize| tops.iter().find(|(top, rows)| (*top..top + rows).contains(&y));
    let ink = Mask::from_fn(90, height, |_, y| bar(y).is_some());
    let mark = Mask::from_fn(90, height, |_, y| bar(y).is_some_and(|(_, rows)| *rows >= 6));
    let ruler = Ruler::new(1e-5, 1e-5, 40).unwrap();
    // Away from the ends, where the line forks into the corners.
    let middle = Mask::from_fn(90, height, |x, _| (30..60).contains(&x));
    let cut = |mask: &Mask| Mask {
        words: mask.words.iter().zip(&middle.words).map(|(a, b)| a & b).collect(),
        ..*mask
    };
    let strokes = cut(&line(&ink, Side::Ink, &ruler));
    let expected = Mask::from_fn(90, height, |x, y| {
        (30..60).contains(&x)
            && bar(y).is_some_and(|(top, rows)| y == top + rows / 2 || y + 1 == top + rows / 2)
    });
    assert_eq!(strokes.words, expected.words);
    let bars = widths_of(&ink, &mark, Side::Ink, &ruler);
    // The corners of the bars that are kept count as narrow, so no width is wholly lost.
    assert_eq!(bars.largest_lost(1.0), None);
    assert!((bars.smallest_kept(1.0).unwrap() - 6e-5).abs() < 1e-18);
    let shares: Vec<_> = bars.shares().map(|(width, share)| ((width * 1e5).round(), share)).collect();
    assert!(shares.iter().any(|(width, share)| *width == 12.0 && share.kept == share.pixels));

    // The same as gaps in an endless plate; their ends run out of the drawing, so there are no corners.
    let plate = Mask::from_fn(90, height, |_, y| bar(y).is_none());
    let gaps = Mask::from_fn(90, height, |_, y| bar(y).is_none_or(|(_, rows)| *rows <= 4));
    let gaps = widths_of(&plate, &gaps, Side::Ground, &ruler);
    let all: Vec<_> =
        gaps.shares().map(|(width, share)| ((width * 1e5).round(), share.pixels, share.kept)).collect();
    let pair = 2 * 90;
    let expected = [
        (2., pair, 0),
        (4., pair, 0),
        (6., pair, pair),
        (8., pair, pair),
        (10., pair, pair),
        (12., pair, pair),
    ];
    assert_eq!(all, expected);
    assert!((gaps.largest_lost(1.0).unwrap() - 4e-5).abs() < 1e-18);
    assert!((gaps.smallest_kept(1.0).unwrap() - 6e-5).abs() < 1e-18);
    assert_eq!(gaps.smallest_kept(f64::NAN), None);
}

/// With pitches of 10 and 20 µm a bar of 4 rows is 80 µm wide, 8 times the smaller pitch.
#[test]
fn widths_count_the_smaller_pitch() {
    let ink = Mask::from_fn(400, 24, |_, y| (10..14).contains(&y));
    let ruler = Ruler::new(1e-5, 2e-5, 255).unwrap();
    let widths = widths_of(&ink, &ink, Side::Ink, &ruler);
    let (width, share) = widths.shares().next_back().unwrap();
    assert!((width - 8e-5).abs() < 1e-18 && share.kept == share.pixels, "{width}");
}

/// Beyond the reach there is no centre-line: neither of a broad plate nor of broad ground.
#[test]
fn what_is_wide_has_no_centre_line() {
    let ink = Mask::from_fn(300, 200, |x, y| (50..250).contains(&x) && (50..150).contains(&y));
    let near = Ruler::new(1e-5, 1e-5, 8).unwrap();
    let far = Ruler::new(1e-5, 1e-5, 255).unwrap();
    let (short, whole) = (line(&ink, Side::Ink, &near), line(&ink, Side::Ink, &far));
    assert!(whole.view().get(150, 99) && !short.view().get(150, 99));
    assert!(short.words.iter().zip(&whole.words).all(|(short, whole)| short & !whole == 0));
    assert_eq!(line(&ink, Side::Ground, &near).view().count(), 0);
    let none = Mask::empty(64, 64);
    assert_eq!(line(&none, Side::Ground, &far).view().count(), 0);
    assert_eq!(line(&none, Side::Ink, &far).view().count(), 0);
    assert_eq!(CentreShare::default().lost_share(), 0.0);
    assert!(!CentreShare::default().is_starved());
}

#[test]
fn what_is_refused() {
    let ruler = Ruler::new(1e-5, 1e-5, 16).unwrap();
    let (mask, other) = (Mask::empty(70, 80), Mask::empty(80, 70));
    let needed = centre_line_words(70, 80, &ruler);
    let mut room = vec![0; needed];
    let short = widths(mask.view(), mask.view(), Side::Ink, &ruler, &mut room[1..], &mut Watch::quiet());
    assert!(matches!(short, Err(Error::LengthMismatch { .. })));
    let sizes = widths(mask.view(), other.view(), Side::Ink, &ruler, &mut room, &mut Watch::quiet());
    assert!(matches!(sizes, Err(Error::LengthMismatch { .. })));
    assert!(matches!(centre_share(mask.view(), other.view(), Side::Ink), Err(Error::LengthMismatch { .. })));
    let mut out = Mask::empty(80, 70);
    let mut view = BitmapMut::new(&mut out.words, 80, 70).unwrap();
    let sizes = centre_line(mask.view(), Side::Ink, &ruler, &mut view, &mut room, &mut Watch::quiet());
    assert!(matches!(sizes, Err(Error::LengthMismatch { .. })));
    let mut stop = |_| Step::Stop;
    let stopped = widths(mask.view(), mask.view(), Side::Ink, &ruler, &mut room, &mut Watch::new(&mut stop));
    assert!(matches!(stopped, Err(Error::Stopped { .. })));
    // Runs of labels that have no share are left out.
    let mut shares = [CentreShare::default()];
    add_component_shares(&[!0], &[!0], [(0, 5, 0), (5, 9, 2), (9, 640, 1)], &mut shares);
    assert_eq!(shares, [CentreShare { pixels: 55, kept: 55 }]);
}
