//! A white sheet that grows downward, with text and pictures on it, written as a PNG.

use spotwise::artwork::{FillRule, Font, Frame, Inking, LetterSize, Sheet, VectorError};
use std::error::Error;
use std::fs::File;
use std::io::BufWriter;
use std::path::Path;

const FONT: &[u8] = include_bytes!("../fonts/DejaVuSans-plate.ttf");
/// What the library takes for a pixel, in metres; any will do.
const PIXEL: f64 = 1e-4;

pub type Rgb = [u8; 3];
pub const WHITE: Rgb = [255, 255, 255];
pub const INK: Rgb = [14, 14, 14];

/// Rows of red, green and blue.
pub struct Canvas {
    width: usize,
    pixels: Vec<Rgb>,
}

impl Canvas {
    pub fn new(width: usize) -> Self {
        Self { width, pixels: Vec::new() }
    }

    /// Adds white rows below, and tells the first.
    pub fn grow(&mut self, rows: usize) -> usize {
        let first = self.pixels.len() / self.width;
        self.pixels.resize(self.pixels.len() + rows * self.width, WHITE);
        first
    }

    /// Copies a picture of red, green, blue and opacity to its place; what lies beside the sheet is left out.
    pub fn copy(&mut self, left: usize, top: usize, width: usize, rgba: &[u8]) {
        for (row, pixels) in rgba.chunks_exact(4 * width).enumerate() {
            for (column, pixel) in pixels.chunks_exact(4).enumerate() {
                if let [red, green, blue, _] = *pixel {
                    self.set(left + column, top + row, [red, green, blue]);
                }
            }
        }
    }

    pub fn fill(&mut self, left: usize, top: usize, width: usize, height: usize, colour: Rgb) {
        for y in top..top + height {
            for x in left..left + width {
                self.set(x, y, colour);
            }
        }
    }

    /// A frame whose line lies outside of the box.
    pub fn frame(&mut self, [left, top, width, height]: [usize; 4], line: usize, colour: Rgb) {
        let (x, y) = (left.saturating_sub(line), top.saturating_sub(line));
        let (across, down) = (width + 2 * line, height + 2 * line);
        self.fill(x, y, across, line, colour);
        self.fill(x, top + height, across, line, colour);
        self.fill(x, y, line, down, colour);
        self.fill(left + width, y, line, down, colour);
    }

    /// Writes a line of text of so many pixels to the em from a place on its baseline, and tells how far it reaches.
    pub fn text(
        &mut self,
        text: &str,
        em: usize,
        (x, baseline): (usize, usize),
        colour: Rgb,
    ) -> Result<usize, Box<dyn Error>> {
        // The font of the examples has no other characters.
        let text: String =
            text.chars().map(|one| if one == ' ' || one.is_ascii_graphic() { one } else { '?' }).collect();
        let size = LetterSize::Em(em as f64 * PIXEL);
        let line = match Font::new(FONT, 0)?.line(&text, size, 0.0, [0.0, 0.0]) {
            Err(VectorError::NothingToDraw) => return Ok(x),
            line => line?,
        };
        let frame = Frame {
            width: (line.advance / PIXEL) as usize + em,
            height: 2 * em,
            pitch_x: PIXEL,
            pitch_y: PIXEL,
            left_x: 0.0,
            top_y: -(em as f64) * PIXEL,
        };
        let mut sheet = Sheet::new(frame)?;
        sheet.draw(&line.path, Inking::Fill(FillRule::NonZero))?;
        for (row, covered) in sheet.samples().chunks_exact(frame.width).enumerate() {
            for (column, covered) in covered.iter().enumerate().filter(|(_, covered)| **covered > 0) {
                let Some(y) = (baseline + row).checked_sub(em) else { continue };
                self.blend(x + column, y, colour, *covered);
            }
        }
        Ok(x + (line.advance / PIXEL) as usize)
    }

    fn set(&mut self, x: usize, y: usize, colour: Rgb) {
        self.blend(x, y, colour, 255);
    }

    fn blend(&mut self, x: usize, y: usize, colour: Rgb, share: u8) {
        if x >= self.width {
            return;
        }
        if let Some(pixel) = self.pixels.get_mut(y * self.width + x) {
            for (old, new) in pixel.iter_mut().zip(colour) {
                let mixed = u16::from(*old) * u16::from(255 - share) + u16::from(new) * u16::from(share);
                *old = ((mixed + 127) / 255) as u8;
            }
        }
    }

    pub fn write(&self, path: &Path) -> Result<(), Box<dyn Error>> {
        let height = self.pixels.len() / self.width;
        let file = File::create(path).map_err(|error| format!("{}: {error}", path.display()))?;
        let mut png = png::Encoder::new(BufWriter::new(file), self.width.try_into()?, height.try_into()?);
        png.set_color(png::ColorType::Rgb);
        png.set_depth(png::BitDepth::Eight);
        let mut writer = png.write_header()?;
        writer.write_image_data(self.pixels.as_flattened())?;
        writer.finish()?;
        Ok(())
    }
}
