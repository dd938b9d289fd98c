//! A drawing as rows of 8-bit samples, and where it lies on the surface.

use super::bitmap::{BitmapMut, pack_row};
use super::watch::Watch;
use crate::error::{Error, Param, check, check_within};

/// What a sample says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum SampleKind {
    /// 0 is bare, anything else is ink. Code 1.
    Bilevel,
    /// The share of the pixel that is inked: 0 none, 255 all of it. Ink is from 128 on. Code 2.
    Coverage,
}

/// What a drawing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum DrawingUse {
    /// A picture of the shapes that are to be marked, which the machine will sample finely. Code 1.
    Shapes,
    /// The very raster that is burnt, each row of pixels one pass of the spot. Code 2.
    BurntRaster,
}

/// The least sample of a pixel with any ink in it.
pub(crate) const TOUCHED: u8 = 1;

impl SampleKind {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(self) -> u32 {
        match self {
            Self::Bilevel => 1,
            Self::Coverage => 2,
        }
    }

    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub const fn from_code(code: u32) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Bilevel),
            2 => Ok(Self::Coverage),
            value => Err(Error::UnknownChoice { param: Param::SampleKind, value }),
        }
    }
}

impl DrawingUse {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(self) -> u32 {
        match self {
            Self::Shapes => 1,
            Self::BurntRaster => 2,
        }
    }

    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub const fn from_code(code: u32) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Shapes),
            2 => Ok(Self::BurntRaster),
            value => Err(Error::UnknownChoice { param: Param::DrawingUse, value }),
        }
    }
}

/// A drawing: `height` rows of `width` samples, the first sample of a row `row_stride` after that of the row before.
///
/// The centre of the pixel in column i and row j lies at x = `left_x` + (i + ½)·`pitch_x` and
/// y = `top_y` + (j + ½)·`pitch_y` of the surface, as seen along the beam. Outside the drawing there is no ink. Lengths and
/// areas that are told of a drawing are those seen along the beam too: on a slope the spot is as round as on a level part
/// when seen so, and the surface's own lengths are longer, by 1/cos of the incidence angle along the slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawing<'d> {
    /// At least (`height` − 1)·`row_stride` + `width` samples.
    pub samples: &'d [u8],
    /// Pixels in a row, 1 to 65 535.
    pub width: usize,
    /// Rows, 1 to 65 535; at most 2²⁸ pixels in all.
    pub height: usize,
    /// Samples from row to row, at least `width`.
    pub row_stride: usize,
    /// From pixel to pixel in metres, along a row.
    pub pitch_x: f64,
    /// From row to row in metres.
    pub pitch_y: f64,
    /// Where the left edge of the first column lies, in metres.
    pub left_x: f64,
    /// Where the upper edge of the first row lies, in metres; y grows from row to row.
    pub top_y: f64,
    /// What a sample says.
    pub kind: SampleKind,
    /// What the drawing is.
    pub drawing_use: DrawingUse,
}

impl<'d> Drawing<'d> {
    /// Checks every number, in the order of the fields but the samples, which come last.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`].
    pub fn checked(self) -> Result<Self, Error> {
        check(Param::DrawingWidth, self.width as f64)?;
        check(Param::DrawingHeight, self.height as f64)?;
        let (_, most) = Param::RowStride.range();
        check_within(Param::RowStride, self.row_stride as f64, self.width as f64, most)?;
        check(Param::PitchX, self.pitch_x)?;
        check(Param::PitchY, self.pitch_y)?;
        check(Param::DrawingX, self.left_x)?;
        check(Param::DrawingY, self.top_y)?;
        check(Param::DrawingPixels, (self.width * self.height) as f64)?;
        let least = (self.height - 1) as f64 * self.row_stride as f64 + self.width as f64;
        let (_, most) = Param::DrawingSamples.range();
        check_within(Param::DrawingSamples, self.samples.len() as f64, least, most)?;
        Ok(self)
    }

    /// Where the centre of a pixel lies on the surface, in x and in y, in metres.
    #[must_use]
    pub fn place(&self, column: usize, row: usize) -> (f64, f64) {
        let x = self.left_x + (column as f64 + 0.5) * self.pitch_x;
        let y = self.top_y + (row as f64 + 0.5) * self.pitch_y;
        (x, y)
    }

    /// Area of a pixel in square metres.
    #[must_use]
    pub fn pixel_area(&self) -> f64 {
        self.pitch_x * self.pitch_y
    }

    /// Sets the pixels that count as ink, those that are ink all over and those with any ink in them, as a
    /// [`BoundInput`](super::BoundInput) takes them; of a bilevel drawing all three are the same. Each may be left out.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for the drawing; [`Error::LengthMismatch`] for a mask of another
    /// size.
    pub fn ink_masks<'m>(
        &self,
        ink: Option<&mut BitmapMut<'m>>,
        solid: Option<&mut BitmapMut<'m>>,
        touched: Option<&mut BitmapMut<'m>>,
    ) -> Result<(), Error> {
        let drawing = self.checked()?;
        let all_over = drawing.solid_level();
        for (mask, level) in [(ink, drawing.ink_level()), (solid, all_over), (touched, TOUCHED)] {
            let Some(mask) = mask else { continue };
            let view = mask.view();
            if view.width() != drawing.width || view.height() != drawing.height {
                let (value, expected) = (view.width() * view.height(), drawing.width * drawing.height);
                return Err(Error::LengthMismatch { param: Param::Output, value, expected });
            }
            for (y, words) in mask.rows_mut().enumerate() {
                drawing.set_from(level, y, words);
            }
        }
        Ok(())
    }

    /// Sets the pixels that are ink in a mask of the drawing's size, over the threads, with one word of room for each.
    pub(crate) fn ink_in_bands(
        &self,
        mask: &mut BitmapMut<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        self.level_in_bands(self.ink_level(), mask, room, watch)
    }

    /// Likewise the pixels whose samples are at least this level.
    pub(crate) fn level_in_bands(
        &self,
        level: u8,
        mask: &mut BitmapMut<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        mask.fill_by_rows(room, watch, |y, words| self.set_from(level, y, words))
    }

    /// Sets the pixels of a row whose samples are at least this level.
    fn set_from(&self, level: u8, y: usize, words: &mut [u64]) {
        pack_row(self.row(y), words, |sample| sample >= level);
    }

    /// Samples of one row; none beyond the last.
    pub(crate) fn row(&self, y: usize) -> &'d [u8] {
        if y >= self.height {
            return &[];
        }
        let start = y * self.row_stride;
        self.samples.get(start..start + self.width).unwrap_or(&[])
    }

    /// The least sample of a pixel that is ink all over.
    pub(crate) fn solid_level(&self) -> u8 {
        match self.kind {
            SampleKind::Bilevel => TOUCHED,
            SampleKind::Coverage => u8::MAX,
        }
    }

    /// The least sample that counts as ink.
    pub(crate) fn ink_level(&self) -> u8 {
        match self.kind {
            SampleKind::Bilevel => 1,
            SampleKind::Coverage => 128,
        }
    }
}
