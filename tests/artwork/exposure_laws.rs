//! Laws that every exposure keeps, on drawings by chance.

use crate::plate::{PITCH, beam, bilevel, burnt, exact, farthest, fast, level, levels, lines, strokes};
use proptest::prelude::*;
use spotwise::artwork::{Drawing, DrawingUse, Exposing, SampleKind, Scan};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Bulge, Surface};

/// Sizes about the blocks of 128 and the tiles of 256 by 128 pixels.
fn sizes() -> impl Strategy<Value = (usize, usize)> {
    prop_oneof![(1..50_usize, 1..40_usize), (250..262_usize, 1..6_usize), (1..6_usize, 124..134_usize)]
}

/// A spot radius in pixels and a scan, with lines up to 2.5 radii apart.
fn spots_and_scans() -> impl Strategy<Value = (f64, Scan)> {
    let lined = (0.5..12.0_f64, 0.0..1.0_f64, 0.0..1.0_f64).prop_map(|(radius, share, first)| {
        let rows = 0.2 + share * (2.5_f64.mul_add(radius, -1e-9).min(3.0) - 0.2);
        (radius, lines(rows, first * rows))
    });
    prop_oneof![(0.5..12.0_f64).prop_map(|radius| (radius, Scan::Unknown)), lined]
}

/// What the scan goes over: a raster burnt evenly, or, by lines that are not its rows, shapes.
fn under(scan: Scan, samples: &[u8], width: usize) -> Drawing<'_> {
    if scan == Scan::Unknown { burnt(samples, width) } else { bilevel(samples, width) }
}

fn kinds() -> impl Strategy<Value = (SampleKind, DrawingUse)> {
    prop_oneof![
        Just((SampleKind::Coverage, DrawingUse::BurntRaster)),
        Just((SampleKind::Coverage, DrawingUse::Shapes)),
        Just((SampleKind::Bilevel, DrawingUse::Shapes)),
    ]
}

fn tilted(slope_x: f64, slope_y: f64) -> Surface<'static> {
    Surface::Plane { slope_x, slope_y }
}

fn mirrored(samples: &[u8], width: usize) -> Vec<u8> {
    samples.chunks(width).flat_map(|row| row.iter().rev().copied()).collect()
}

fn turned(samples: &[u8], width: usize) -> Vec<u8> {
    let height = samples.len() / width;
    (0..samples.len()).map(|n| samples[n % height * width + n / height]).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A drawing and a plane seen in a mirror have the exposure seen in a mirror. In doubles within 1e-14; the maps
    /// are up to 2e-4 apart where the tiles that share a polynomial lie otherwise (both within their error of the same
    /// doubles), and on a level plate by a rounding.
    #[test]
    fn mirrors_change_nothing(
        (width, height) in sizes(), seed: u64, radius in 0.5..9.0_f64, slopes in (-1.0..1.0_f64, -1.0..1.0_f64),
        (kind, drawing_use) in kinds(), is_level: bool,
    ) {
        let samples = strokes(width, height, seed);
        let seen = mirrored(&samples, width);
        let centred = |samples| Drawing {
            kind,
            drawing_use,
            left_x: -0.5 * width as f64 * PITCH,
            top_y: -0.5 * height as f64 * PITCH,
            ..burnt(samples, width)
        };
        let slopes = if is_level { (0.0, 0.0) } else { slopes };
        let exposing = Exposing { surface: tilted(slopes.0, slopes.1), ..level(radius, Scan::Unknown) };
        let other = Exposing { surface: tilted(-slopes.0, slopes.1), ..exposing };
        let (one, two) = (centred(&samples), centred(&seen));
        let back = |map: Vec<f64>| map.chunks(width).flat_map(|row| row.iter().rev().copied()).collect::<Vec<_>>();
        prop_assert!(farthest(&exact(&one, &exposing), &back(exact(&two, &other))) < 1e-14);
        let apart = farthest(&fast(&one, &exposing), &back(fast(&two, &other)));
        prop_assert!(apart < if is_level { 4e-5 } else { 5e-4 }, "{apart:e}");
    }

    /// Rows and columns exchanged, pitches, blurs and slopes with them.
    #[test]
    fn rows_and_columns_are_alike(
        (width, height) in sizes(), seed: u64, radius in 1.0..9.0_f64, stretch in 0.4..2.5_f64,
        blur in 0.0..5.0_f64, slopes in (-1.0..1.0_f64, -1.0..1.0_f64), (kind, drawing_use) in kinds(),
        is_level: bool,
    ) {
        let samples = strokes(width, height, seed);
        let flipped = turned(&samples, width);
        let one = Drawing { pitch_y: stretch * PITCH, kind, drawing_use, ..burnt(&samples, width) };
        let two = Drawing {
            pitch_x: stretch * PITCH, pitch_y: PITCH, kind, drawing_use, ..burnt(&flipped, height)
        };
        let slopes = if is_level { (0.0, 0.0) } else { slopes };
        let exposing = Exposing {
            surface: tilted(slopes.0, slopes.1), blur_along: blur * PITCH, ..level(radius, Scan::Unknown)
        };
        let other = Exposing {
            surface: tilted(slopes.1, slopes.0), blur_along: 0.0, blur_across: blur * PITCH, ..exposing
        };
        let back = |map: Vec<f64>| (0..map.len()).map(|n| map[n % width * height + n / width]).collect::<Vec<_>>();
        prop_assert!(farthest(&exact(&one, &exposing), &back(exact(&two, &other))) < 1e-14);
        let apart = farthest(&fast(&one, &exposing), &back(fast(&two, &other)));
        prop_assert!(apart < if is_level { 4e-5 } else { 5e-4 }, "{apart:e}");
    }

    /// More ink is never less exposure, to the rounding of a sum of doubles, and to a unit of the map on a level plate.
    #[test]
    fn more_ink_is_never_less_exposure(
        (width, height) in sizes(), seeds: (u64, u64), (radius, scan) in spots_and_scans(),
        slope in -1.0..1.0_f64,
    ) {
        let some = strokes(width, height, seeds.0);
        let more: Vec<u8> =
            some.iter().zip(strokes(width, height, seeds.1)).map(|(one, other)| *one.max(&other)).collect();
        let exposing = level(radius, scan);
        let (some, more) = (under(scan, &some, width), under(scan, &more, width));
        for (less, more) in levels(&some, &exposing).iter().zip(levels(&more, &exposing)) {
            prop_assert!(u32::from(*less) <= u32::from(more) + 1, "{less} {more}");
        }
        let exposing = Exposing { surface: tilted(slope, 0.0), ..exposing };
        for (less, more) in exact(&some, &exposing).iter().zip(exact(&more, &exposing)) {
            prop_assert!(*less <= more + 1e-14, "{less} {more}");
        }
    }

    /// Doses add: what ink and its complement give is what a whole fill gives, in doubles to their rounding, in maps
    /// to that of three numbers.
    #[test]
    fn doses_add(
        (width, height) in sizes(), seed: u64, (radius, scan) in spots_and_scans(),
    ) {
        let mut ink = strokes(width, height, seed);
        if scan != Scan::Unknown {
            ink.iter_mut().for_each(|sample| *sample = if *sample < 128 { 0 } else { 255 });
        }
        let ground: Vec<u8> = ink.iter().map(|sample| 255 - sample).collect();
        let fill = vec![255; ink.len()];
        let exposing = level(radius, scan);
        let drawings = [&ink, &ground, &fill].map(|samples| under(scan, samples, width));
        let [ink, ground, fill] = drawings.map(|drawing| exact(&drawing, &exposing));
        let sum: Vec<f64> = ink.iter().zip(&ground).map(|(one, other)| one + other).collect();
        prop_assert!(farthest(&sum, &fill) < 1e-13);
        let [ink, ground, fill] = drawings.map(|drawing| levels(&drawing, &exposing));
        for ((ink, ground), fill) in ink.iter().zip(&ground).zip(&fill) {
            let sum = u32::from(*ink) + u32::from(*ground);
            prop_assert!(sum.abs_diff(u32::from(*fill)) <= 3, "{sum} {fill}");
        }
    }

    /// All lengths multiplied alike: the same exposure, but for the rounding of the lengths. The Rayleigh range is
    /// a length, too, for which M² grows at the same wavelength. No line lies on the border of two rows.
    #[test]
    fn only_ratios_of_lengths_count(
        (width, height) in sizes(), seed: u64, radius in 0.5..9.0_f64, scale in 1.0..3.0_f64,
        lined: bool, blurs in (0.0..4.0_f64, 0.0..4.0_f64), focus in -60.0..60.0_f64, curved: bool,
        (kind, drawing_use) in kinds(),
    ) {
        let samples = strokes(width, height, seed);
        let of = |scale: f64| {
            let drawing = Drawing {
                pitch_x: scale * PITCH,
                pitch_y: 1.3 * scale * PITCH,
                left_x: 5.0 * scale * PITCH,
                top_y: -3.0 * scale * PITCH,
                kind,
                drawing_use,
                ..burnt(&samples, width)
            };
            let Beam { wavelength, m2, waist_diameter } = beam(radius);
            let cylinder = Surface::Cylinder {
                radius: 900.0 * scale * PITCH,
                bulge: Bulge::TowardLens,
                crown_x: 20.0 * scale * PITCH,
                crown_y: 0.0,
                axis_angle: 0.4,
                slope_x: 0.1,
                slope_y: 0.0,
            };
            // Those of a raster are its rows.
            let interval = if drawing_use == DrawingUse::BurntRaster { 1.3 } else { 0.8 };
            let along = Scan::AlongRows {
                line_interval: interval * scale * PITCH,
                first_line: 0.25 * scale * PITCH,
            };
            let along = if lined && interval < 2.5 * radius { along } else { Scan::Unknown };
            let exposing = Exposing {
                beam: Beam { wavelength, m2: scale * m2, waist_diameter: scale * waist_diameter },
                focus_z: focus * scale * PITCH,
                surface: if curved { cylinder } else { tilted(0.0, 0.0) },
                blur_along: blurs.0 * scale * PITCH,
                blur_across: blurs.1 * scale * PITCH,
                ..level(radius, along)
            };
            (exact(&drawing, &exposing), levels(&drawing, &exposing))
        };
        let ((one, one_map), (other, other_map)) = (of(1.0), of(scale));
        prop_assert!(farthest(&one, &other) < 1e-11, "{:e}", farthest(&one, &other));
        for (one, other) in one_map.iter().zip(&other_map) {
            prop_assert!(one.abs_diff(*other) <= 2, "{one} {other}");
        }
    }

    /// Bare pixels around a drawing move it on the surface by whole pixels and change nothing: the same bits on a level
    /// plate.
    #[test]
    fn bare_pixels_around_change_nothing(
        (width, height) in sizes(), seed: u64, radius in 0.5..12.0_f64, left in 0..140_usize, top in 0..140_usize,
        rows in 1..4_usize, lined: bool, slope in -0.5..0.5_f64,
    ) {
        let samples = strokes(width, height, seed);
        let wide = width + left + 3;
        let mut around = vec![0; wide * (height + top + 2)];
        for (to, from) in around.chunks_mut(wide).skip(top).zip(samples.chunks(width)) {
            to[left..left + width].copy_from_slice(from);
        }
        // The lines of the one lie on those of the other.
        let interval = rows as f64;
        let (scan, other_scan) = if lined && interval <= 2.4 * radius {
            let first = (0.3 + top as f64) % interval;
            (lines(interval, 0.3), lines(interval, first))
        } else {
            (Scan::Unknown, Scan::Unknown)
        };
        let one = under(scan, &samples, width);
        let two = under(scan, &around, wide);
        let two = Drawing { left_x: -(left as f64) * PITCH, top_y: -(top as f64) * PITCH, ..two };
        let inside = |map: &[f64]| -> Vec<f64> {
            map.chunks(wide).skip(top).take(height).flat_map(|row| row[left..left + width].to_vec()).collect()
        };
        let (exposing, other) = (level(radius, scan), level(radius, other_scan));
        let apart = farthest(&fast(&one, &exposing), &inside(&fast(&two, &other)));
        prop_assert!(apart < 4e-5, "{apart:e}");
        let exposing = Exposing { surface: tilted(slope, 0.0), ..exposing };
        let other = Exposing { surface: exposing.surface, ..other };
        if left < 40 && top < 40 {
            let apart = farthest(&exact(&one, &exposing), &inside(&exact(&two, &other)));
            prop_assert!(apart < 1e-12, "{apart:e}");
        }
    }

    /// A drawing of pixels three times as tall is one of square pixels in which every row comes three times.
    #[test]
    fn tall_pixels_are_rows_of_square_ones(
        (width, height) in (1..60_usize, 1..20_usize), seed: u64, radius in 1.0..9.0_f64,
    ) {
        let samples = strokes(width, height, seed);
        let square: Vec<u8> = samples.chunks(width).flat_map(|row| row.repeat(3)).collect();
        let tall = Drawing { pitch_y: 3.0 * PITCH, ..burnt(&samples, width) };
        let square = burnt(&square, width);
        let exposing = level(radius, Scan::Unknown);
        let middles = |map: &[f64]| -> Vec<f64> {
            map.chunks(width).skip(1).step_by(3).flatten().copied().collect()
        };
        prop_assert!(farthest(&exact(&tall, &exposing), &middles(&exact(&square, &exposing))) < 1e-14);
        let apart = farthest(&fast(&tall, &exposing), &middles(&fast(&square, &exposing)));
        prop_assert!(apart < 3e-4, "{apart:e}");
    }
}
