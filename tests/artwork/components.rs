//! Components: large masks against a flood fill, refusals, room, and the order to stop.

use crate::naive::Pixels;
use spotwise::artwork::{
    Bitmap, Change, Components, RegionFinder, Step, Watch, compare, compare_words, find_parts, label_ground,
    label_ink, label_words, parts_words, region_words, words_in_row,
};
use spotwise::{Error, Param};

/// The label of every pixel; 0 where there is no run.
fn by_pixel(components: &Components) -> Vec<u32> {
    let mut labels = vec![0; components.width() * components.height()];
    for (y, row) in labels.chunks_mut(components.width()).enumerate() {
        for run in components.row(y) {
            row[run.start..run.end].fill(run.label);
        }
    }
    labels
}

/// Blots of all sizes: sums of waves that do not repeat, with a threshold.
fn blots(width: usize, height: usize, wave: f64) -> Pixels {
    let set = (0..width * height).map(|at| {
        let (x, y) = ((at % width) as f64 / wave, (at / width) as f64 / wave);
        let slow = (0.31 * x + 0.17 * y).sin() + (0.23 * y - 0.29 * x).sin();
        (x + 1.7 * y.sin()).sin() + (1.3 * y - 1.1 * (0.7 * x).sin()).sin() + slow > 0.6
    });
    Pixels { width, height, set: set.collect() }
}

/// Masks of several pieces of work, so that the parts of several threads are joined, give the very labels of a flood
/// fill, which does not know of parts.
#[test]
fn large_masks_have_the_labels_of_a_flood_fill() {
    for (width, height, wave) in [(2500, 1900, 2.0), (700, 6001, 5.0), (65_535, 64, 3.0), (1, 65_535, 2.0)] {
        let mask = blots(width, height, wave);
        let words = mask.words();
        let bitmap = Bitmap::new(&words, width, height).unwrap();
        let mut room = vec![u64::MAX; label_words(width, height)];
        for ink in [true, false] {
            let label = if ink { label_ink } else { label_ground };
            let components = label(&bitmap, &mut room, &mut Watch::quiet()).unwrap();
            let (expected, count) = mask.labels(ink);
            assert!(count > 50 || !ink, "{width} × {height}: {count}");
            assert_eq!(components.count(), count, "{width} × {height}");
            assert!(by_pixel(&components) == expected, "{width} × {height}");
        }
    }
}

/// A spiral and a comb, whose pieces are joined late: the tree of runs grows as deep as it can.
#[test]
fn a_comb_and_a_spiral_are_one_piece_each() {
    let size = 1024;
    let comb = (0..size * size).map(|at| at % size % 2 == 0 || at / size == size - 1).collect();
    let ring = |x: usize, y: usize| x.min(y).min(size - 1 - x).min(size - 1 - y);
    // Rings, each joined to the next by one pixel on its left side.
    let spiral = (0..size * size)
        .map(|at| {
            let (x, y) = (at % size, at / size);
            let at_left = x < size / 2 && y == x + 1;
            ring(x, y) % 2 == 0 || at_left
        })
        .collect();
    for set in [comb, spiral] {
        let mask = Pixels { width: size, height: size, set };
        let words = mask.words();
        let bitmap = Bitmap::new(&words, size, size).unwrap();
        let mut room = vec![0; label_words(size, size)];
        assert_eq!(label_ink(&bitmap, &mut room, &mut Watch::quiet()).unwrap().count(), 1);
    }
}

/// A board of single pixels of 2²⁴ pixels has eight times the runs that there is room for.
#[test]
fn too_many_runs_are_refused() {
    let (width, height) = (4096, 4096);
    let words: Vec<u64> =
        (0..height).flat_map(|y| vec![0x5555_5555_5555_5555 << (y % 2); words_in_row(width)]).collect();
    let bitmap = Bitmap::new(&words, width, height).unwrap();
    let mut room = vec![0; label_words(width, height)];
    let error = label_ink(&bitmap, &mut room, &mut Watch::quiet()).unwrap_err();
    let expected = Error::OutOfRange {
        param: Param::PixelRuns,
        value: (width * height / 2) as f64,
        least: 0.0,
        greatest: (1 << 20) as f64,
    };
    assert_eq!(error, expected);
    // Streamed, the first row that finds no room is told at the end.
    let mut room = vec![0; region_words::<u16>(width, height)];
    let mut finder = RegionFinder::new(width, height, &mut room).unwrap();
    words.chunks(words_in_row(width)).for_each(|row| finder.row(row, |_| 0_u16));
    let error = finder.finish(&mut [], &mut Watch::quiet()).unwrap_err();
    assert_eq!((error.code(), error.param()), (expected.code(), Param::PixelRuns));
}

/// A board of single pixels that may be: all its runs have room.
#[test]
fn the_room_holds_all_that_it_says() {
    for (width, height) in [(1, 1), (2, 2), (3, 3), (65, 31), (1447, 1447), (65_535, 16), (31, 65_535)] {
        let set = (0..width * height).map(|at| at % width % 2 == 0).collect();
        let mask = Pixels { width, height, set };
        let words = mask.words();
        let bitmap = Bitmap::new(&words, width, height).unwrap();
        let mut room = vec![0; label_words(width, height)];
        let components = label_ink(&bitmap, &mut room, &mut Watch::quiet()).unwrap();
        assert_eq!(components.count() as usize, width.div_ceil(2), "{width} × {height}");
    }
}

/// One word less than stated is refused, with both numbers.
#[test]
fn too_little_room_is_refused() {
    for (width, height) in [(1, 1), (64, 3), (65, 30), (1000, 700)] {
        let words =
            vec![u64::MAX >> (64 * words_in_row(width) - width).min(63); words_in_row(width) * height];
        let bitmap = Bitmap::new(&words, width, height).unwrap();
        let refused = |needed: usize, error: Error| {
            let param = Param::Workspace;
            assert_eq!(error, Error::LengthMismatch { param, value: needed - 1, expected: needed });
        };
        let quiet = &mut Watch::quiet();
        let needed = label_words(width, height);
        refused(needed, label_ink(&bitmap, &mut vec![0; needed - 1], quiet).unwrap_err());
        refused(needed, label_ground(&bitmap, &mut vec![0; needed - 1], quiet).unwrap_err());
        let needed = parts_words(width, height);
        refused(needed, find_parts(&bitmap, &mut vec![0; needed - 1], quiet).unwrap_err());
        let needed = region_words::<u16>(width, height);
        let mut room = vec![0; needed - 1];
        refused(needed, RegionFinder::<u16>::new(width, height, &mut room).err().unwrap());
        let mut room = vec![0; parts_words(width, height)];
        let parts = find_parts(&bitmap, &mut room, quiet).unwrap();
        let needed = compare_words(width, height);
        refused(needed, compare(&parts, &bitmap, &mut vec![0; needed - 1], &mut [], quiet).unwrap_err());
    }
}

/// Sizes that no drawing may have are refused, and the room for them is a number all the same.
#[test]
fn impossible_sizes_are_refused() {
    let huge = usize::MAX;
    for words in
        [label_words(huge, huge), parts_words(huge, 1), compare_words(1, huge), region_words::<f64>(huge, 7)]
    {
        assert!(words < 1 << 30, "{words}");
    }
    for (width, height, param) in [
        (0, 1, Param::DrawingWidth),
        (1, 0, Param::DrawingHeight),
        (65_536, 1, Param::DrawingWidth),
        (1, 65_536, Param::DrawingHeight),
        (20_000, 20_000, Param::DrawingPixels),
    ] {
        let words = vec![0; words_in_row(width) * height];
        let bitmap = Bitmap::new(&words, width, height).unwrap();
        let error = label_ink(&bitmap, &mut [], &mut Watch::quiet()).unwrap_err();
        assert_eq!((error.code(), error.param()), (2, param), "{width} × {height}");
        let error = find_parts(&bitmap, &mut [], &mut Watch::quiet()).unwrap_err();
        assert_eq!(error.param(), param, "{width} × {height}");
        assert_eq!(RegionFinder::<u16>::new(width, height, &mut []).err().unwrap().param(), param);
    }
}

/// Rows too many, too few, too short or too long are refused, and so is a mark of another size.
#[test]
fn rows_and_sizes_that_do_not_fit_are_refused() {
    let mismatch = |error: Error| matches!(error, Error::LengthMismatch { param: Param::DrawingPixels, .. });
    let mut room = vec![0; region_words::<u16>(70, 2)];
    let mut regions_of = |rows: &[&[u64]]| {
        let mut finder = RegionFinder::new(70, 2, &mut room).unwrap();
        rows.iter().for_each(|row| finder.row(row, |_| 0_u16));
        finder.finish(&mut [], &mut Watch::quiet())
    };
    let (row, short, long) = (&[0_u64; 2][..], &[0_u64; 1][..], &[0_u64; 3][..]);
    regions_of(&[row, row]).unwrap();
    for rows in [&[row][..], &[], &[row, row, row], &[short, row], &[row, long], &[row, short, row]] {
        assert!(mismatch(regions_of(rows).unwrap_err()), "{rows:?}");
    }

    let words = [0; 6];
    let mut room = vec![0; parts_words(70, 3)];
    let parts = find_parts(&Bitmap::new(&words, 70, 3).unwrap(), &mut room, &mut Watch::quiet()).unwrap();
    for (width, height) in [(69, 3), (70, 2), (3, 70)] {
        let words = vec![0; words_in_row(width) * height];
        let mark = Bitmap::new(&words, width, height).unwrap();
        let mut room = vec![0; compare_words(width, height)];
        let error = compare(&parts, &mark, &mut room, &mut [Change::NONE], &mut Watch::quiet()).unwrap_err();
        assert!(mismatch(error));
    }
}

/// The share of the work done never falls, and the order to stop is obeyed at each report of it.
#[test]
fn the_watch_is_told_and_obeyed() {
    let mask = blots(3000, 2500, 4.0);
    let words = mask.words();
    let bitmap = Bitmap::new(&words, 3000, 2500).unwrap();
    let mut room = vec![0; parts_words(3000, 2500)];
    let parts = find_parts(&bitmap, &mut room, &mut Watch::quiet()).unwrap();
    let mut more_room = vec![0; compare_words(3000, 2500)];
    let mut shares = Vec::new();
    let mut tell = |share: f64| {
        shares.push(share);
        Step::GoOn
    };
    compare(&parts, &bitmap, &mut more_room, &mut [], &mut Watch::new(&mut tell)).unwrap();
    assert!(shares.len() >= 10, "{shares:?}");
    assert!(shares.is_sorted() && shares.iter().all(|share| (0.0..=1.0).contains(share)), "{shares:?}");
    assert_eq!(shares.last(), Some(&1.0));
    for (stop_at, &done) in shares.iter().enumerate() {
        let mut told = 0;
        let mut tell = |_: f64| {
            told += 1;
            if told > stop_at { Step::Stop } else { Step::GoOn }
        };
        let error =
            compare(&parts, &bitmap, &mut more_room, &mut [], &mut Watch::new(&mut tell)).unwrap_err();
        assert_eq!(error, Error::Stopped { done });
    }
}
