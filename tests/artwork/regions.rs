//! Regions that are lost or filled: the cases, and any mask against a flood fill.

use crate::cases::{self, Case};
use crate::naive::Pixels;
use proptest::prelude::*;
use spotwise::artwork::{PixelBox, Region, RegionFinder, RegionTotals, Watch, region_words};

/// Finds the regions of a mask whose depths are given for every pixel.
fn regions(mask: &Pixels, depths: &[u32], room_for: usize) -> (RegionTotals, Vec<Region<u32>>) {
    let mut room = vec![u64::MAX; region_words::<u32>(mask.width, mask.height)];
    let mut finder = RegionFinder::new(mask.width, mask.height, &mut room).unwrap();
    let words = mask.words();
    for (row, depths) in words.chunks(mask.width.div_ceil(64)).zip(depths.chunks(mask.width)) {
        finder.row(row, |x| depths[x]);
    }
    let mut regions = vec![Region::default(); room_for];
    let totals = finder.finish(&mut regions, &mut Watch::quiet()).unwrap();
    regions.truncate(totals.regions as usize);
    (totals, regions)
}

/// Squared distance of each pixel to the nearest target: down the columns, then along the rows, trying every column.
/// `u32::MAX` stands for a mask without any.
fn squared_distances(targets: &Pixels) -> Vec<u32> {
    let Pixels { width, height, .. } = *targets;
    let in_column = |x: usize, y: usize| {
        (0..height).filter(|j| targets.set[j * width + x]).map(|j| j.abs_diff(y).pow(2) as u32).min()
    };
    let mut all = vec![u32::MAX; width * height];
    for (y, row) in all.chunks_mut(width).enumerate() {
        let columns: Vec<(usize, u32)> =
            (0..width).filter_map(|x| in_column(x, y).map(|squared| (x, squared))).collect();
        for (x, squared) in row.iter_mut().enumerate() {
            let of_column = |&(i, down): &(usize, u32)| i.abs_diff(x).pow(2) as u32 + down;
            *squared = columns.iter().map(of_column).min().unwrap_or(u32::MAX);
        }
    }
    all
}

/// With a frame one pixel wide around it, set or clear.
fn framed(pixels: &Pixels, set: bool) -> Pixels {
    let (width, height) = (pixels.width + 2, pixels.height + 2);
    let inside = |at: usize| {
        let (x, y) = (at % width, at / width);
        let inner = x > 0 && y > 0 && x + 1 < width && y + 1 < height;
        if inner { pixels.set[(y - 1) * pixels.width + x - 1] } else { set }
    };
    Pixels { width, height, set: (0..width * height).map(inside).collect() }
}

/// Ink too far from any mark, or ground too far from any clear pixel, the outside being clear.
fn compare_with_case(case: &Case, lost: bool) {
    let ink = Pixels::from_words(&case.ink_words(), case.width, case.height);
    let mark = Pixels::from_words(&case.mark_words(), case.width, case.height);
    let tolerance = case.facts["tolerance_mm"].as_f64().unwrap() / case.facts["pixel_mm"].as_f64().unwrap();
    let targets = Pixels { set: mark.set.iter().map(|&marked| marked == lost).collect(), ..mark.clone() };
    let framed_distances = squared_distances(&framed(&targets, !lost));
    let depths: Vec<u32> = framed_distances
        .chunks(case.width + 2)
        .skip(1)
        .take(case.height)
        .flat_map(|row| row[1..=case.width].to_vec())
        .collect();
    let set = ink
        .set
        .iter()
        .zip(&depths)
        .map(|(&ink, &squared)| ink == lost && f64::from(squared).sqrt() > tolerance);
    let (totals, found) = regions(&Pixels { set: set.collect(), ..ink.clone() }, &depths, 8);

    let (name, of) = (&case.name, if lost { "lost" } else { "filled" });
    assert_eq!(totals.pixels, case.metric(&format!("{of}_px")), "{name}");
    assert_eq!(u64::from(totals.regions), case.metric(&format!("{of}_regions")), "{name}");
    let told = case.facts["metrics"][format!("{of}_list")].as_array().unwrap();
    assert_eq!(found.len(), told.len(), "{name}");
    for (region, told) in found.iter().zip(told) {
        let extent = region.extent;
        assert_eq!(told["px"], region.pixels, "{name} {of}");
        let corners = [extent.left, extent.top, extent.right, extent.bottom];
        assert_eq!(told["bbox"], serde_json::json!(corners), "{name} {of}");
        assert_eq!(told["worst"], serde_json::json!([region.worst_x, region.worst_y]), "{name} {of}");
        assert_eq!(told["depth_px"], f64::from(region.depth).sqrt(), "{name} {of}");
    }
}

/// Number, order, box, worst pixel and depth of the regions are those of the cases.
#[test]
fn the_cases_have_the_same_regions() {
    for case in cases::all() {
        compare_with_case(&case, true);
        compare_with_case(&case, false);
    }
}

/// Two regions that touch at no corner, and one that only corners hold together.
#[test]
fn a_picture_with_three_regions() {
    let mask = Pixels::from_picture(&["##...#", "....#.", "...#..", "......", "#....."]);
    let depths: Vec<u32> = (0..30).map(|at| if at == 10 { 7 } else { 3 }).collect();
    let (totals, found) = regions(&mask, &depths, 3);
    assert_eq!(totals, RegionTotals { regions: 3, pixels: 6 });
    let region = |pixels, [left, top, right, bottom]: [u32; 4], [worst_x, worst_y]: [u32; 2], depth| Region {
        pixels,
        extent: PixelBox { left, top, right, bottom },
        worst_x,
        worst_y,
        depth,
    };
    let expected = [
        region(3, [3, 0, 5, 2], [4, 1], 7),
        region(2, [0, 0, 1, 0], [0, 0], 3),
        region(1, [0, 4, 0, 4], [0, 4], 3),
    ];
    assert_eq!(found, expected);
}

/// A region whose depths are all zero, or lower than any default, still has a worst pixel: its first.
#[test]
fn depths_of_nothing_have_a_worst_pixel() {
    let mask = Pixels::from_picture(&["...", ".##"]);
    let (_, found) = regions(&mask, &[0; 6], 1);
    assert_eq!((found[0].worst_x, found[0].worst_y, found[0].depth), (1, 1, 0));
    let mut room = vec![0; region_words::<f64>(3, 2)];
    let mut finder = RegionFinder::new(3, 2, &mut room).unwrap();
    finder.row(&[0], |_| -1.0);
    finder.row(&[0b110], |x| [-1.0, -2.0, -1.5][x]);
    let mut found = [Region::default()];
    finder.finish(&mut found, &mut Watch::quiet()).unwrap();
    assert_eq!((found[0].worst_x, found[0].worst_y, found[0].depth), (2, 1, -1.5));
}

fn naive_regions(mask: &Pixels, depths: &[u32]) -> Vec<Region<u32>> {
    let (labels, count) = mask.labels(true);
    let mut found = vec![Region::default(); count as usize];
    for (at, &label) in labels.iter().enumerate().filter(|(_, label)| **label > 0) {
        let (x, y) = ((at % mask.width) as u32, (at / mask.width) as u32);
        let region: &mut Region<u32> = &mut found[label as usize - 1];
        if region.pixels == 0 || depths[at] > region.depth {
            (region.worst_x, region.worst_y, region.depth) = (x, y, depths[at]);
        }
        region.pixels += 1;
        let old = region.extent;
        region.extent = PixelBox {
            left: old.left.min(x),
            top: old.top.min(y),
            right: old.right.max(x),
            bottom: old.bottom.max(y),
        };
    }
    // Stable: the first pixel decides between regions that are alike.
    found.sort_by_key(|region| (std::cmp::Reverse(region.pixels), region.extent));
    found
}

fn mask_with_depths() -> impl Strategy<Value = (Pixels, Vec<u32>)> {
    (1_usize..150, 1_usize..24, 0.02_f64..0.98, 1_u32..40).prop_flat_map(|(width, height, ink, deep)| {
        let set = proptest::collection::vec(proptest::bool::weighted(ink), width * height);
        let depths = proptest::collection::vec(0..deep, width * height);
        (set, depths).prop_map(move |(set, depths)| (Pixels { width, height, set }, depths))
    })
}

proptest! {
    /// All regions, and the greatest of them, against a flood fill.
    #[test]
    fn regions_are_those_of_a_flood_fill((mask, depths) in mask_with_depths(), room_for in 0_usize..6) {
        let expected = naive_regions(&mask, &depths);
        let (totals, found) = regions(&mask, &depths, 10_000);
        prop_assert_eq!(totals.regions as usize, expected.len());
        prop_assert_eq!(totals.pixels as usize, mask.set.iter().filter(|set| **set).count());
        prop_assert_eq!(&found, &expected);
        let (totals_again, some) = regions(&mask, &depths, room_for);
        prop_assert_eq!(totals_again, totals);
        prop_assert_eq!(&some[..], &expected[..room_for.min(expected.len())]);
    }
}
