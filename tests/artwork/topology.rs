//! Pieces and holes: cases, pictures, and any two masks against a flood fill.

use crate::cases;
use crate::naive::{Pixels, met};
use proptest::prelude::*;
use spotwise::artwork::{
    Bitmap, Change, ChangeKind, Topology, Watch, compare, compare_words, euler_number, find_parts,
    parts_words,
};

/// All of the comparison, with room for so many changes.
pub fn topology(drawing: &Bitmap, mark: &Bitmap, room_for: usize) -> (Topology, Vec<Change>) {
    let (width, height) = (drawing.width(), drawing.height());
    let mut room = vec![u64::MAX; parts_words(width, height)];
    let mut more_room = vec![u64::MAX; compare_words(width, height)];
    let parts = find_parts(drawing, &mut room, &mut Watch::quiet()).unwrap();
    let mut changes = vec![Change::NONE; room_for];
    let found = compare(&parts, mark, &mut more_room, &mut changes, &mut Watch::quiet()).unwrap();
    changes.truncate(found.changes() as usize);
    (found, changes)
}

pub fn of_pixels(drawing: &Pixels, mark: &Pixels, room_for: usize) -> (Topology, Vec<Change>) {
    let (drawing_words, mark_words) = (drawing.words(), mark.words());
    let drawing = Bitmap::new(&drawing_words, drawing.width, drawing.height).unwrap();
    let mark = Bitmap::new(&mark_words, mark.width, mark.height).unwrap();
    topology(&drawing, &mark, room_for)
}

/// Every count of the topology is that of the case.
#[test]
fn the_cases_count_the_same() {
    for case in cases::all() {
        let (ink, mark) = (case.ink_words(), case.mark_words());
        let drawing = Bitmap::new(&ink, case.width, case.height).unwrap();
        let mark = Bitmap::new(&mark, case.width, case.height).unwrap();
        let (found, _) = topology(&drawing, &mark, 0);
        let counts = [
            ("comps_art", found.components_drawing),
            ("comps_mark", found.components_mark),
            ("comps_lost", found.components_lost),
            ("comps_split", found.components_split),
            ("comps_merged", found.components_merged),
            ("comps_spurious", found.components_new),
            ("holes_art", found.holes_drawing),
            ("holes_mark", found.holes_mark),
            ("holes_closed", found.holes_closed),
            ("holes_opened", found.holes_opened),
            ("holes_split", found.holes_split),
            ("holes_new", found.holes_new),
        ];
        for (metric, count) in counts {
            assert_eq!(u64::from(count), case.metric(metric), "{}: {metric}", case.name);
        }
        assert_eq!(found.euler_drawing(), case.signed_metric("euler_art"), "{}", case.name);
        assert_eq!(found.euler_mark(), case.signed_metric("euler_mark"), "{}", case.name);
        assert_eq!(euler_number(&mark), case.signed_metric("euler_mark_quads"), "{}", case.name);
    }
}

/// Pictures whose answer is plain to see: one for each kind of change.
#[test]
fn each_change_is_told_by_a_picture() {
    // kind, drawing, mark, pixels and box of the change
    type Told = (ChangeKind, [&'static str; 5], [&'static str; 5], u32, [u32; 4]);
    let ring = [".......", ".#####.", ".#...#.", ".#####.", "......."];
    let two_rings = ["#####..", "#.#.#..", "#####..", ".......", "......."];
    let told: [Told; 9] = [
        (
            ChangeKind::ComponentLost,
            [".......", ".##.#..", ".......", ".......", "......."],
            [".......", ".##....", ".......", ".......", "......."],
            1,
            [4, 1, 4, 1],
        ),
        (
            ChangeKind::ComponentSplit,
            [".......", ".#####.", ".......", ".......", "......."],
            [".......", ".##.##.", ".......", ".......", "......."],
            5,
            [1, 1, 5, 1],
        ),
        (
            ChangeKind::ComponentsMerged,
            [".......", ".##.##.", ".......", ".......", "......."],
            [".......", ".##.##.", "...#...", ".......", "......."],
            5,
            [1, 1, 5, 2],
        ),
        (
            ChangeKind::ComponentNew,
            [".......", ".##....", ".......", ".......", "......."],
            [".......", ".##.##.", ".......", ".......", "......."],
            2,
            [4, 1, 5, 1],
        ),
        (
            ChangeKind::HoleClosed,
            ring,
            [".......", ".#####.", ".#####.", ".#####.", "......."],
            3,
            [2, 2, 4, 2],
        ),
        (
            ChangeKind::HoleOpened,
            ring,
            [".......", ".#####.", ".#.....", ".#####.", "......."],
            3,
            [2, 2, 4, 2],
        ),
        (
            ChangeKind::HoleSplit,
            ring,
            [".......", ".#####.", ".#.#.#.", ".#####.", "......."],
            3,
            [2, 2, 4, 2],
        ),
        (
            ChangeKind::HolesMerged,
            two_rings,
            ["#####..", "#...#..", "#####..", ".......", "......."],
            3,
            [1, 1, 3, 1],
        ),
        (
            ChangeKind::HoleNew,
            [".......", ".#####.", ".#####.", ".#####.", "......."],
            [".......", ".#####.", ".##.##.", ".#####.", "......."],
            1,
            [3, 2, 3, 2],
        ),
    ];
    for (kind, drawing, mark, pixels, [left, top, right, bottom]) in told {
        let (found, changes) = of_pixels(&Pixels::from_picture(&drawing), &Pixels::from_picture(&mark), 4);
        assert_eq!((found.changes(), found.changes_of(kind)), (1, 1), "{kind:?}: {found:?}");
        let [change] = changes[..] else { panic!("{kind:?}: {changes:?}") };
        assert_eq!((change.kind, change.pixels), (kind, pixels));
        let extent = change.extent;
        assert_eq!(
            [extent.left, extent.top, extent.right, extent.bottom],
            [left, top, right, bottom],
            "{kind:?}"
        );
    }
}

/// A slanting stroke one pixel wide is one piece, and a slanting ring of them holds ground that is not outside.
#[test]
fn corners_join_ink_and_part_ground() {
    let diamond = Pixels::from_picture(&["...#...", "..#.#..", ".#...#.", "..#.#..", "...#..."]);
    let (found, _) = of_pixels(&diamond, &diamond, 0);
    assert_eq!((found.components_drawing, found.holes_drawing), (1, 1));
    assert_eq!(found.changes(), 0);
}

/// Blank and full masks, single pixels, and a board of single pixels.
#[test]
fn extremes_have_plain_answers() {
    for (width, height) in [(1, 1), (1, 9), (9, 1), (64, 3), (65, 2), (63, 5), (128, 128)] {
        let all = |set: bool| Pixels { width, height, set: vec![set; width * height] };
        let (found, _) = of_pixels(&all(true), &all(false), 0);
        let expected = Topology { components_drawing: 1, components_lost: 1, ..Topology::default() };
        assert_eq!(found, expected, "{width} × {height}");
        let (found, _) = of_pixels(&all(false), &all(true), 0);
        let expected = Topology { components_mark: 1, components_new: 1, ..Topology::default() };
        assert_eq!(found, expected, "{width} × {height}");
        // Over corners all fields of one colour are one piece; those of the other that are not at the edge are holes.
        let board = |odd: usize| {
            let set = (0..width * height).map(|at| (at % width + at / width) % 2 == odd).collect();
            Pixels { width, height, set }
        };
        for odd in [0, 1] {
            let board = board(odd);
            let inside = |at: usize| {
                let (x, y) = (at % width, at / width);
                x > 0 && y > 0 && x + 1 < width && y + 1 < height && !board.set[at]
            };
            let holes = (0..width * height).filter(|&at| inside(at)).count();
            let (found, _) = of_pixels(&board, &board, 0);
            assert_eq!(found.holes_drawing as usize, holes, "{width} × {height}");
            if width > 1 && height > 1 {
                assert_eq!(found.components_drawing, 1, "{width} × {height}");
            }
        }
    }
}

/// What the definitions say, pixel by pixel.
pub fn naive_topology(drawing: &Pixels, mark: &Pixels) -> Topology {
    let both = |ink: bool| move |at: usize| drawing.set[at] == ink && mark.set[at] == ink;
    let ((ink, components_drawing), (mark_ink, components_mark)) = (drawing.labels(true), mark.labels(true));
    let ((ground, holes_drawing), (mark_ground, holes_mark)) = (drawing.labels(false), mark.labels(false));
    let of_drawing = met(&ink, components_drawing, &mark_ink, both(true));
    let of_mark = met(&mark_ink, components_mark, &ink, both(true));
    let holes = met(&ground, holes_drawing, &mark_ground, both(false));
    let mark_holes = met(&mark_ground, holes_mark, &ground, both(false));
    let count = |many: usize| many as u32;
    let drawn_holes = |met: &std::collections::BTreeSet<u32>| met.iter().filter(|&&label| label > 0).count();
    Topology {
        components_drawing,
        components_mark,
        components_lost: count(of_drawing.iter().filter(|met| met.is_empty()).count()),
        components_split: count(of_drawing.iter().filter(|met| met.len() > 1).count()),
        components_merged: count(of_mark.iter().filter(|met| met.len() > 1).count()),
        components_new: count(of_mark.iter().filter(|met| met.is_empty()).count()),
        holes_drawing,
        holes_mark,
        holes_closed: count(holes.iter().filter(|met| met.is_empty()).count()),
        holes_opened: count(holes.iter().filter(|met| met.contains(&0)).count()),
        holes_split: count(holes.iter().filter(|met| !met.contains(&0) && met.len() > 1).count()),
        holes_merged: count(mark_holes.iter().filter(|met| drawn_holes(met) > 1).count()),
        holes_new: count(mark_holes.iter().filter(|met| drawn_holes(met) == 0).count()),
        ..Topology::default()
    }
}

/// Two masks of one size, from sparse to dense, wide enough for several words in a row.
pub fn two_masks() -> impl Strategy<Value = (Pixels, Pixels)> {
    (1_usize..150, 1_usize..24, 0.02_f64..0.98, 0.0_f64..0.4).prop_flat_map(|(width, height, ink, noise)| {
        let set = proptest::collection::vec(proptest::bool::weighted(ink), width * height);
        let flips = proptest::collection::vec(proptest::bool::weighted(noise), width * height);
        (set, flips).prop_map(move |(set, flips)| {
            let marked = set.iter().zip(&flips).map(|(set, flip)| set ^ flip).collect();
            (Pixels { width, height, set }, Pixels { width, height, set: marked })
        })
    })
}

proptest! {
    /// All counts against a flood fill; the Euler number against both; and the changes against the counts.
    #[test]
    fn counts_are_those_of_a_flood_fill((drawing, mark) in two_masks()) {
        let (found, changes) = of_pixels(&drawing, &mark, 10_000);
        prop_assert_eq!(found, naive_topology(&drawing, &mark));
        for (pixels, euler) in [(&drawing, found.euler_drawing()), (&mark, found.euler_mark())] {
            let words = pixels.words();
            let bitmap = Bitmap::new(&words, pixels.width, pixels.height).unwrap();
            prop_assert_eq!(euler_number(&bitmap), euler);
        }
        prop_assert_eq!(changes.len() as u32, found.changes());
        for kind in ChangeKind::ALL {
            let told = changes.iter().filter(|change| change.kind == kind).count();
            prop_assert_eq!(told as u32, found.changes_of(kind));
        }
        prop_assert!(changes.is_sorted_by_key(|change| change.kind.code()));
    }

    /// A short slice holds the first of all changes.
    #[test]
    fn a_short_slice_holds_the_first_changes((drawing, mark) in two_masks(), room_for in 0_usize..6) {
        let (found, all) = of_pixels(&drawing, &mark, 10_000);
        let (found_again, some) = of_pixels(&drawing, &mark, room_for);
        prop_assert_eq!(found, found_again);
        prop_assert_eq!(&some[..], &all[..room_for.min(all.len())]);
    }

    /// Pieces and holes know nothing of left and right, up and down, or what the mark is called.
    #[test]
    fn mirrored_masks_count_the_same((drawing, mark) in two_masks()) {
        let (found, _) = of_pixels(&drawing, &mark, 0);
        let mirrored = |pixels: &Pixels, flip: &dyn Fn(&mut Vec<bool>)| {
            let mut set = pixels.set.clone();
            flip(&mut set);
            Pixels { set, ..pixels.clone() }
        };
        let width = drawing.width;
        let sideways = |set: &mut Vec<bool>| set.chunks_mut(width).for_each(<[bool]>::reverse);
        let around = |set: &mut Vec<bool>| set.reverse();
        for flip in [&sideways as &dyn Fn(&mut Vec<bool>), &around] {
            let (again, _) = of_pixels(&mirrored(&drawing, flip), &mirrored(&mark, flip), 0);
            prop_assert_eq!(again, found);
        }
        let (swapped, _) = of_pixels(&mark, &drawing, 0);
        prop_assert_eq!(swapped.components_lost, found.components_new);
        prop_assert_eq!(swapped.components_split, found.components_merged);
    }
}
