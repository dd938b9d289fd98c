//! Text against fontTools and FreeType, by `tests/reference/outlines.py`.

use crate::{area, drawn};
use spotwise::artwork::{FillRule, Font, Frame, Inking, LetterSize, VectorError};

pub const FILE: &[u8] = include_bytes!("../../examples/fonts/DejaVuSans-plate.ttf");
const NON_ZERO: Inking = Inking::Fill(FillRule::NonZero);
/// Units of the font in its em.
const UNITS: f64 = 2048.0;

/// The rows of a table, with their fields.
fn rows(text: &str) -> Vec<Vec<String>> {
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    rows.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

fn character(field: &str) -> char {
    char::from_u32(field.parse().unwrap()).unwrap()
}

#[test]
fn outlines_are_those_of_the_font() {
    let font = Font::new(FILE, 0).unwrap();
    let mut drawn_glyphs = 0;
    for row in rows(include_str!("../tables/glyph_outlines.csv")) {
        let character = character(&row[0]);
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        // The em as long as it has units: the path is in font units.
        let line = font.line(&character.to_string(), LetterSize::Em(1.0), 0.0, [0.0, 0.0]);
        if character == ' ' {
            assert_eq!(line, Err(VectorError::NothingToDraw));
            continue;
        }
        let line = line.unwrap();
        assert_eq!(line.advance, number(1) / UNITS, "{character}");
        let bounds = line.path.bounds().unwrap();
        let box_in_units =
            [bounds.left_x, -bounds.bottom_y, bounds.right_x, -bounds.top_y].map(|v| v * UNITS);
        assert_eq!(box_in_units, [number(3), number(4), number(5), number(6)], "{character}");

        // Area at 200 pixels an em, from the sum of its samples. The area pen counts overlaps twice; there are none.
        let pixel = 1.0 / 200.0;
        let sheet = drawn(&line.path, NON_ZERO, Frame::around(bounds, 0.01, pixel).unwrap());
        let want = number(2).abs() / (UNITS * UNITS) * 200.0 * 200.0;
        let got = area(&sheet);
        assert!((got - want).abs() < 2.5 + 1e-3 * want, "{character}: {got} for {want}");
        drawn_glyphs += 1;
    }
    assert_eq!(drawn_glyphs, 98);
}

/// FreeType draws 16 times finer and is averaged: it rounds the scaled outline to 1/64 of its pixel, and takes chords
/// up to 1/16 pixel away from a curve.
#[test]
fn pixels_are_those_of_freetype() {
    let font = Font::new(FILE, 0).unwrap();
    for row in rows(include_str!("../tables/glyph_pixels.csv")) {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let (pixels_per_em, width, height) = (number(1), number(4) as usize, number(5) as usize);
        let pixel = 1e-5;
        let size = LetterSize::Em(pixels_per_em * pixel);
        let line = font.line(&character(&row[0]).to_string(), size, 0.0, [0.0, 0.0]).unwrap();
        let frame = Frame {
            width,
            height,
            pitch_x: pixel,
            pitch_y: pixel,
            left_x: number(2) * pixel,
            top_y: -number(3) * pixel,
        };
        let sheet = drawn(&line.path, NON_ZERO, frame);
        let mut worst = 0;
        let mut sum = 0;
        for (i, &sample) in sheet.samples().iter().enumerate() {
            let theirs = u8::from_str_radix(&row[6][2 * i..2 * i + 2], 16).unwrap();
            worst = worst.max(sample.abs_diff(theirs));
            sum += u32::from(sample.abs_diff(theirs));
        }
        let mean = f64::from(sum) / (width * height) as f64;
        println!("{} at {pixels_per_em}: worst {worst}, mean {mean:.3} of 255", row[0]);
        assert!(worst <= 1 && mean < 0.3, "{}: worst {worst}, mean {mean}", row[0]);
    }
}

#[test]
fn sizes_mean_what_they_say() {
    let font = Font::new(FILE, 0).unwrap();
    let height = |text: &str, size| {
        let bounds = font.line(text, size, 0.0, [0.0, 0.0]).unwrap().path.bounds().unwrap();
        bounds.bottom_y - bounds.top_y
    };
    assert!((height("H", LetterSize::CapHeight(0.6e-3)) - 0.6e-3).abs() < 1e-15);
    assert!((height("1", LetterSize::DigitHeight(0.5e-3)) - 0.5e-3).abs() < 1e-15);
    // DejaVu Sans: capitals and digits are 1493 of 2048 units, .729 em, high (tests/tables/typefaces.csv).
    assert!((font.em(LetterSize::CapHeight(1493.0)).unwrap_err().to_string()).contains("em"));
    assert!((font.em(LetterSize::CapHeight(1.493)).unwrap() - 2.048).abs() < 1e-12);
    assert!((font.em(LetterSize::DigitHeight(1.493)).unwrap() - 2.048).abs() < 1e-12);
    assert_eq!(font.em(LetterSize::Em(1e-3)).unwrap(), 1e-3);
}

/// Letters move by the sum of the advances and spacings before them.
#[test]
fn letters_stand_side_by_side() {
    let font = Font::new(FILE, 0).unwrap();
    let em = 2.048e-3;
    let left = |text: &str, spacing| {
        let line = font.line(text, LetterSize::Em(em), spacing, [1e-3, 2e-3]).unwrap();
        (line.path.bounds().unwrap(), line.advance)
    };
    let (alone, _) = left("7", 0.0);
    // Two spaces (651) and a 1 (1303) before it: the same shape, farther on.
    let (after, advance) = left("1  7", 0.1e-3);
    let moved = (1303.0 + 2.0 * 651.0) * 1e-6 + 3.0 * 0.1e-3;
    assert!((after.right_x - alone.right_x - moved).abs() < 1e-15);
    assert_eq!(after.bottom_y, alone.bottom_y);
    assert!((advance - (moved + 1303.0e-6 + 0.1e-3)).abs() < 1e-15);
}

#[test]
fn a_missing_letter_is_named() {
    let font = Font::new(FILE, 0).unwrap();
    let line = |text: &str| font.line(text, LetterSize::Em(1e-3), 0.0, [0.0, 0.0]).unwrap_err();
    assert_eq!(line("No 5 \u{2116}"), VectorError::MissingGlyph { character: '\u{2116}' });
    assert_eq!(line("a\nb"), VectorError::MissingGlyph { character: '\n' });
    assert_eq!(line(""), VectorError::NothingToDraw);
    let said = line("\u{2116}").to_string();
    assert!(said.contains("U+2116") && said.contains('\u{2116}'), "{said}");
    for spacing in [f64::NAN, -1.1e-3, 10.1e-3, f64::INFINITY] {
        let refused = font.line("1", LetterSize::Em(1e-3), spacing, [0.0, 0.0]);
        assert!(matches!(refused, Err(VectorError::LetterSpacing { .. })), "{spacing}");
    }
}

/// A damaged file is refused or drawn, never a panic.
#[test]
fn damaged_files_do_no_harm() {
    assert_eq!(Font::new(&[], 0).unwrap_err(), VectorError::NotAFont);
    assert_eq!(Font::new(b"no font at all", 0).unwrap_err(), VectorError::NotAFont);
    assert_eq!(Font::new(FILE, 1).unwrap_err(), VectorError::NotAFont);
    let mut refused = 0;
    for i in 0..1500 {
        let mut file = FILE.to_vec();
        if i % 3 == 0 {
            file.truncate(i * FILE.len() / 1500);
        }
        // A fixed sequence of bytes to spoil.
        for k in 0..8_usize {
            let at = (i * 7919 + k * 104_729 + i * i * 31) % FILE.len();
            if let Some(byte) = file.get_mut(at) {
                *byte = byte.wrapping_mul(31).wrapping_add(i as u8);
            }
        }
        let outcome = Font::new(&file, 0)
            .and_then(|font| font.line("Rain 42.5 mm", LetterSize::Em(1e-3), 0.0, [0.0; 2]));
        if let Ok(line) = &outcome {
            let frame =
                Frame { width: 64, height: 16, pitch_x: 1e-4, pitch_y: 1e-4, left_x: 0.0, top_y: -1e-3 };
            let _ = spotwise::artwork::Sheet::new(frame).unwrap().draw(&line.path, NON_ZERO);
        }
        refused += usize::from(outcome.is_err());
    }
    assert!(refused > 300, "{refused}");
}
