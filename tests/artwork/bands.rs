//! Masks so large that the work on them is cut into bands, and spread over threads with the feature `parallel`.

use crate::masks::{Mask, unit};
use spotwise::Param;
use spotwise::artwork::{
    BitmapMut, Disc, Nearest, Ruler, Side, Watch, centre_line, centre_line_words, disc_words, distances,
    distances_words, filled, lost, widths, widths_words,
};

/// Round blots of many sizes.
fn blots(width: usize, height: usize, seed: u64) -> Mask {
    Mask::from_fn(width, height, |x, y| {
        let (i, j) = (x / 80, y / 80);
        let radius = 38.0 * unit(seed, i, j);
        ((x % 80) as f64 - 40.0).hypot((y % 80) as f64 - 40.0) < radius
    })
}

/// Bands and threads change nothing: one share of room and three give the same, and both what the distances, which are
/// found in one go, say.
#[test]
fn bands_change_nothing() {
    let (width, height) = (4000, 1100);
    let (ink, mark) = (blots(width, height, 1), blots(width, height, 2));
    let ruler = Ruler::new(1e-5, 1e-5, 40).unwrap();
    let disc = Disc::new(5e-5, 1e-5, 1e-5, Param::EdgeTolerance).unwrap();
    let mut out = [ink.words.clone(), ink.words.clone(), ink.words.clone()];
    let mut found = Vec::new();
    for shares in [1, 3] {
        let [one, two, three] = &mut out;
        let [mut one, mut two, mut three] =
            [one, two, three].map(|words| BitmapMut::new(words, width, height).unwrap());
        let mut room = vec![!0; shares * disc_words(width, height, &disc)];
        let quiet = &mut Watch::quiet();
        lost(ink.view(), mark.view(), &disc, &mut one, &mut room, quiet).unwrap();
        filled(ink.view(), mark.view(), &disc, &mut two, &mut room, quiet).unwrap();
        let mut room = vec![!0; shares * centre_line_words(width, height, &ruler)];
        let pixels = centre_line(ink.view(), Side::Ink, &ruler, &mut three, &mut room, quiet).unwrap();
        let mut room = vec![!0; shares * widths_words(width, height, &ruler)];
        let widths = widths(ink.view(), mark.view(), Side::Ink, &ruler, &mut room, quiet).unwrap();
        assert_eq!(u64::from(widths.total().pixels), pixels);
        found.push((out.clone(), pixels, widths));
    }
    assert!(found[0] == found[1]);

    let squares = |mask: &Mask, nearest| {
        let mut room = vec![!0; distances_words(width, height, &ruler)];
        let mut all = vec![vec![0; width + 2]];
        distances(mask.view(), nearest, None, &ruler, &mut room, &mut Watch::quiet(), |_, row| {
            all.push([&[0], row.pixels().unwrap(), &[0]].concat());
        })
        .unwrap();
        all.push(vec![0; width + 2]);
        all
    };
    let (to_mark, to_clear) = (squares(&mark, Nearest::Set), squares(&mark, Nearest::Clear));
    let inside = squares(&ink, Nearest::Clear);
    let ([lost, filled, line], ..) = &found[0];
    let far = |x, y| ink.view().get(x, y) && to_mark[y + 1][x + 1] > 25;
    assert!(*lost == Mask::from_fn(width, height, far).words);
    let far = |x, y| !ink.view().get(x, y) && to_clear[y + 1][x + 1] > 25;
    assert!(*filled == Mask::from_fn(width, height, far).words);
    let centre = |x: usize, y: usize| {
        let at = |dx: usize, dy: usize| inside[y + dy][x + dx];
        let here = at(1, 1);
        let across = [(0, 1), (1, 0), (0, 0), (0, 2)].iter().any(|&(dx, dy)| {
            let (one, other) = (at(dx, dy), at(2 - dx, 2 - dy));
            here >= one && here >= other && (here > one || here > other)
        });
        here > 0 && (across || (0..3).all(|dy| (0..3).all(|dx| here >= at(dx, dy))))
    };
    assert!(*line == Mask::from_fn(width, height, centre).words);
}
