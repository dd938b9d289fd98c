//! Where the pixels lie, and the drawing on them.

use super::coverage::{Outline, TILE, Tile};
use super::path::{Bounds, InkPath};
use super::{FillRule, Inking, VectorError, flatten, stroke};
use crate::artwork::drawing::{Drawing, DrawingUse, SampleKind};
use crate::artwork::watch::Watch;
use crate::error::{Error, Param, check, check_within};
use crate::model::math;
use alloc::vec;
use alloc::vec::Vec;

/// How far a chord may lie from its curve, and a stroke's outline from its edge, in pixels.
const TOLERANCE: f64 = 1.0 / 256.0;

/// The pitch that a spot demands of a drawing: a quarter of its 1/e² **radius** for samples of coverage, an eighth for
/// bilevel ones, whose edges lie up to half a pixel from where they should. Takes the least 1/e² **diameter** on the
/// part, which is that of the waist if focus may lie there.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the diameter, from 1e-9 to 10 m, or a pitch below 1e-9 m.
///
/// # Example
/// ```
/// use spotwise::artwork::{SampleKind, pitch_for_spot};
/// assert_eq!(pitch_for_spot(88e-6, SampleKind::Coverage)?, 11e-6);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn pitch_for_spot(least_spot_diameter: f64, kind: SampleKind) -> Result<f64, Error> {
    let diameter = check(Param::SpotDiameter, least_spot_diameter)?;
    let pixels_per_diameter = match kind {
        SampleKind::Coverage => 8.0,
        SampleKind::Bilevel => 16.0,
    };
    check(Param::PitchX, diameter / pixels_per_diameter)
}

/// Where the pixels of a drawing lie; the fields are those of a [`Drawing`], with the same limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Pixels in a row, 1 to 65 535.
    pub width: usize,
    /// Rows, 1 to 65 535; at most 2²⁸ pixels in all.
    pub height: usize,
    /// From pixel to pixel in metres, along a row.
    pub pitch_x: f64,
    /// From row to row in metres.
    pub pitch_y: f64,
    /// Where the left edge of the first column lies, in metres.
    pub left_x: f64,
    /// Where the upper edge of the first row lies, in metres; y grows from row to row.
    pub top_y: f64,
}

impl Frame {
    /// The fewest square pixels of a pitch that hold a box and a margin around it; the box's upper left corner, moved by
    /// the margin, is that of the first pixel.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number, or for more pixels than a drawing can have. The
    /// margin is at most 10 m.
    pub fn around(bounds: Bounds, margin: f64, pitch: f64) -> Result<Self, Error> {
        check(Param::PitchX, pitch)?;
        check_within(Param::DrawingX, margin, 0.0, 10.0)?;
        let pixels = |param, from: f64, to: f64| {
            let length = check(Param::DrawingX, to)? - check(Param::DrawingX, from)? + 2.0 * margin;
            // A length of so many pixels but for rounding needs no further one.
            let count = math::ceil(length / pitch - 1e-6).max(1.0);
            check(param, count).map(|count| count as usize)
        };
        let frame = Frame {
            width: pixels(Param::DrawingWidth, bounds.left_x, bounds.right_x)?,
            height: pixels(Param::DrawingHeight, bounds.top_y, bounds.bottom_y)?,
            pitch_x: pitch,
            pitch_y: pitch,
            left_x: bounds.left_x - margin,
            top_y: bounds.top_y - margin,
        };
        check(Param::DrawingPixels, (frame.width * frame.height) as f64)?;
        Ok(frame)
    }

    /// The drawing that these samples are.
    #[must_use]
    pub const fn drawing(self, samples: &[u8], row_stride: usize) -> Drawing<'_> {
        Drawing {
            samples,
            width: self.width,
            height: self.height,
            row_stride,
            pitch_x: self.pitch_x,
            pitch_y: self.pitch_y,
            left_x: self.left_x,
            top_y: self.top_y,
            kind: SampleKind::Coverage,
            drawing_use: DrawingUse::Shapes,
        }
    }
}

/// Inks a path onto samples that hold coverage already, 0 for bare ones.
///
/// The sample in column i of row j is number j·`row_stride` + i. A share b of ink on a sample that has a becomes
/// 1 − (1 − a)·(1 − b), rounded. What lies outside the frame is left out. The watch is asked after each 256 rows.
///
/// Accuracy: curves become chords within 1/256 of a pixel of them, strokes outlines as near to their edges; `zeno` then
/// finds the shares on a grid of 1/256 of a pixel. A sample of a glyph is right to within 1 of 255 (measured against FreeType at
/// sixteen times the resolution), the area of a shape to 1/128 of a pixel for each pixel of its outline. Where a pixel
/// holds edges of several turns of one path, the shares of the turns add up, to all of it at most, though they overlap:
/// a hole of less than a pixel can be lost so. A path that runs more than 8000 times around one pixel has no right
/// answer there.
///
/// Memory: [`MOST_POINTS`](super::MOST_POINTS) points at most, 32 bytes for each point of the outline (64 while it is
/// made from a stroke's line), for a tile of 256 × 256 pixels up to 100 bytes for each of them that lies in it, and
/// 2 MiB.
///
/// # Errors
/// [`VectorError::Refused`] for a number of the frame, the samples, the path or the stroke, or if the watch says stop;
/// then parts of the path may have been drawn if it was the watch. [`VectorError::NothingToDraw`],
/// [`VectorError::NoStart`], [`VectorError::TooManyPoints`], [`VectorError::MiterLimit`].
pub fn draw_path(
    path: &InkPath,
    inking: Inking,
    frame: Frame,
    samples: &mut [u8],
    row_stride: usize,
    watch: &mut Watch<'_>,
) -> Result<(), VectorError> {
    frame.drawing(samples, row_stride).checked()?;
    let tolerance = TOLERANCE * frame.pitch_x.min(frame.pitch_y);
    let mut parts = match inking {
        Inking::Fill(_) => flatten::flattened(path, tolerance)?,
        Inking::Stroke(stroke) => stroke::outlined(path, &stroke.checked()?, tolerance)?,
    };
    parts.map(|[x, y]| [(x - frame.left_x) / frame.pitch_x, (y - frame.top_y) / frame.pitch_y]);
    let outline = Outline::new(&parts);
    drop(parts);

    let even_odd = inking == Inking::Fill(FillRule::EvenOdd);
    let mut lines = Vec::new();
    let mut shares = vec![0; TILE * TILE];
    for top in (0..frame.height).step_by(TILE) {
        watch.done(top as f64 / frame.height as f64)?;
        let height = TILE.min(frame.height - top);
        for left in (0..frame.width).step_by(TILE) {
            let tile = Tile { left, top, width: TILE.min(frame.width - left), height };
            let Some(shares) = shares.get_mut(..tile.width * tile.height) else {
                continue;
            };
            if outline.cover(tile, even_odd, &mut lines, shares) {
                let rows = samples.chunks_mut(row_stride).skip(top);
                for (row, covered) in rows.zip(shares.chunks(tile.width)) {
                    let row = row.get_mut(left..).unwrap_or(&mut []);
                    for (sample, &share) in row.iter_mut().zip(covered) {
                        *sample = over(*sample, share);
                    }
                }
            }
        }
    }
    watch.done(1.0)?;
    Ok(())
}

/// 1 − (1 − a)·(1 − b) in 255ths, rounded to the nearest.
fn over(a: u8, b: u8) -> u8 {
    let bare = u32::from(255 - a) * u32::from(255 - b);
    255 - ((bare + 127) / 255) as u8
}

/// A drawing in the making, with memory of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    frame: Frame,
    samples: Vec<u8>,
}

impl Sheet {
    /// A bare sheet: one byte for each pixel.
    ///
    /// # Errors
    /// [`VectorError::Refused`] for a number of the frame.
    pub fn new(frame: Frame) -> Result<Self, VectorError> {
        check(Param::DrawingWidth, frame.width as f64)?;
        check(Param::DrawingHeight, frame.height as f64)?;
        check(Param::DrawingPixels, (frame.width * frame.height) as f64)?;
        let samples = vec![0; frame.width * frame.height];
        frame.drawing(&samples, frame.width).checked()?;
        Ok(Self { frame, samples })
    }

    /// Inks a path. As [`draw_path`].
    ///
    /// # Errors
    /// As there.
    pub fn draw(&mut self, path: &InkPath, inking: Inking) -> Result<(), VectorError> {
        draw_path(path, inking, self.frame, &mut self.samples, self.frame.width, &mut Watch::quiet())
    }

    /// Where the pixels lie.
    #[must_use]
    pub fn frame(&self) -> Frame {
        self.frame
    }

    /// The covered share of each pixel, 0 to 255, row by row.
    #[must_use]
    pub fn samples(&self) -> &[u8] {
        &self.samples
    }

    /// The drawing.
    #[must_use]
    pub fn drawing(&self) -> Drawing<'_> {
        self.frame.drawing(&self.samples, self.frame.width)
    }
}
