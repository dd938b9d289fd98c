//! A drawing from a PNG file.
//!
//! Its samples are grey of 1, 2, 4 or 8 bits. A palette, or red, green and blue, will do if all of the pixels are grey:
//! what a colour is to mean for a laser nobody can tell from its brightness. A pixel that lets the ground through has
//! by so much less ink. 16 bits are refused: a drawing has no use for them.

use png::{BitDepth, Decoder, Limits, Transformations};
use spotwise::artwork::SampleKind;
use std::io::Cursor;

/// Which of the samples are ink.
#[derive(Clone, Copy)]
pub enum Ink {
    Dark,
    Light,
}

/// A drawing's samples as the preflight takes them.
pub struct Picture {
    pub samples: Vec<u8>,
    pub width: usize,
    pub height: usize,
}

/// Most pixels of a drawing.
const MOST_PIXELS: u64 = 1 << 28;

/// Reads a PNG file, or says in one line what is wrong with it.
pub fn read(file: &[u8], ink: Ink, kind: SampleKind) -> Result<Picture, String> {
    let no_png = |error: png::DecodingError| format!("this is no PNG that can be read: {error}");
    // Four bytes for each of the most pixels, so that a small file cannot ask for more.
    let mut decoder = Decoder::new_with_limits(Cursor::new(file), Limits { bytes: 4 << 28 });
    decoder.set_transformations(Transformations::EXPAND);
    let mut reader = decoder.read_info().map_err(no_png)?;
    let (width, height) = reader.info().size();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(format!("{width} x {height} pixels are more than the 268435456 of a drawing"));
    }
    let (colour, depth) = reader.output_color_type();
    if depth != BitDepth::Eight {
        return Err("samples of 16 bits: save it with 8 bits or fewer".to_owned());
    }
    let bytes = reader.output_buffer_size().ok_or("too large for this computer")?;
    let mut pixels = vec![0; bytes];
    reader.next_frame(&mut pixels).map_err(no_png)?;
    let per_pixel = colour.samples();
    let mut samples = Vec::with_capacity(bytes / per_pixel);
    for (number, pixel) in pixels.chunks_exact(per_pixel).enumerate() {
        let (grey, opacity) = grey(pixel).ok_or_else(|| {
            let (column, row) = (number % width as usize, number / width as usize);
            format!("the pixel in column {column} and row {row} is coloured: save the drawing in grey")
        })?;
        let inked = match ink {
            Ink::Dark => 255 - grey,
            Ink::Light => grey,
        };
        let covered = ((u16::from(inked) * u16::from(opacity) + 127) / 255) as u8;
        samples.push(match kind {
            // More than half of the way to ink.
            SampleKind::Bilevel => u8::from(covered >= 128),
            _ => covered,
        });
    }
    Ok(Picture { samples, width: width as usize, height: height as usize })
}

/// Grey and opacity of a pixel; none if it is coloured and can be seen.
fn grey(pixel: &[u8]) -> Option<(u8, u8)> {
    match *pixel {
        [grey] => Some((grey, 255)),
        [grey, opacity] => Some((grey, opacity)),
        [red, green, blue] if red == green && green == blue => Some((red, 255)),
        [red, green, blue, opacity] if red == green && green == blue || opacity == 0 => Some((red, opacity)),
        _ => None,
    }
}
