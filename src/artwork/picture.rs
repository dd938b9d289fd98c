//! The predicted mark and what is wrong with it, as a picture of red, green, blue and opacity, 8 bits each (sRGB).
//!
//! | colour                | sRGB      | L* | what it says                                                        |
//! |-----------------------|-----------|----|---------------------------------------------------------------------|
//! | white, bare           | `#FFFFFF` | 100 | no ink, and no mark                                                |
//! | pale yellow, worn edge | `#FFD973` | 88 | ink that does not mark, but lies within the tolerance of the mark    |
//! | pale grey, unknown    | `#B4BECA` | 77 | the height of the surface is not known here                         |
//! | orange, lost          | `#EA7C06` | 63 | ink that does not mark, farther than the tolerance from any mark     |
//! | magenta, box          | `#D03E96` | 51 | a frame around a finding                                            |
//! | blue, filled          | `#005EB2` | 40 | marked without ink, farther than the tolerance from what stays clear |
//! | dark blue, grown edge | `#203A5C` | 24 | marked without ink, but within the tolerance of what stays clear     |
//! | black, kept           | `#0E0E0E` | 4  | ink that marks                                                      |
//!
//! Dark is marked and light is not, as in the work itself. Any two colours differ by 18 or more (CIE 1976 ΔE*ab) for
//! normal sight and for complete protanopia, deuteranopia and tritanopia, and by 10 in lightness L* when printed in
//! grey; `tests/picture.rs` proves it with the matrices of Viénot and of Machado.

use super::bitmap::Bitmap;
use super::pixel_box::PixelBox;
use crate::error::{Error, Param, check, check_length};

/// What a pixel of the picture says. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum PictureColour {
    /// No ink, and no mark.
    Bare = 1,
    /// Ink that marks.
    Kept = 2,
    /// Ink that does not mark, but lies within the tolerance of the mark.
    WornEdge = 3,
    /// Marked without ink, but within the tolerance of what stays clear.
    GrownEdge = 4,
    /// Ink that does not mark, farther than the tolerance from any mark.
    Lost = 5,
    /// Marked without ink, farther than the tolerance from what stays clear.
    Filled = 6,
    /// The height of the surface is not known here.
    Unknown = 7,
    /// A frame around a finding.
    Box = 8,
}

impl PictureColour {
    /// Every colour, in the order of its code: the legend.
    pub const ALL: [Self; 8] = [
        Self::Bare,
        Self::Kept,
        Self::WornEdge,
        Self::GrownEdge,
        Self::Lost,
        Self::Filled,
        Self::Unknown,
        Self::Box,
    ];

    /// Permanent number of this colour.
    #[must_use]
    pub const fn code(self) -> u32 {
        self as u32
    }

    /// Red, green, blue and opacity, sRGB.
    #[must_use]
    pub const fn rgba(self) -> [u8; 4] {
        match self {
            Self::Bare => [255, 255, 255, 255],
            Self::Kept => [14, 14, 14, 255],
            Self::WornEdge => [255, 217, 115, 255],
            Self::GrownEdge => [32, 58, 92, 255],
            Self::Lost => [234, 124, 6, 255],
            Self::Filled => [0, 94, 178, 255],
            Self::Unknown => [180, 190, 202, 255],
            Self::Box => [208, 62, 150, 255],
        }
    }

    /// Name, for a legend.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bare => "bare",
            Self::Kept => "marked",
            Self::WornEdge => "worn edge",
            Self::GrownEdge => "grown edge",
            Self::Lost => "lost",
            Self::Filled => "filled",
            Self::Unknown => "height unknown",
            Self::Box => "finding",
        }
    }
}

/// What the picture shows; all masks of one size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PictureLayers<'b> {
    /// What is to be marked.
    pub ink: Bitmap<'b>,
    /// What will be marked.
    pub mark: Bitmap<'b>,
    /// Ink that is lost.
    pub lost: Bitmap<'b>,
    /// Ground that is filled.
    pub filled: Bitmap<'b>,
    /// Where the height is unknown, and so the mark.
    pub unknown: Option<Bitmap<'b>>,
}

/// Which pixels of the drawing the picture shows, and how large.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PictureView {
    /// First column shown.
    pub left: usize,
    /// First row shown.
    pub top: usize,
    /// Columns shown, at least 1.
    pub width: usize,
    /// Rows shown, at least 1.
    pub height: usize,
    /// Pixels of the picture along each side of one of the drawing, at least 1.
    pub zoom: usize,
}

impl PictureView {
    /// The whole of a drawing.
    #[must_use]
    pub const fn whole(width: usize, height: usize, zoom: usize) -> Self {
        Self { left: 0, top: 0, width, height, zoom }
    }

    /// Bytes of the picture: four for each of its `width`·`zoom` × `height`·`zoom` pixels.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a width, a height or a number of the picture's pixels (2²⁸ at most) that a drawing could
    /// not have; none if `zoom` is 0.
    pub fn bytes(&self) -> Result<usize, Error> {
        check(Param::DrawingWidth, self.width as f64)?;
        check(Param::DrawingHeight, self.height as f64)?;
        let zoom = self.zoom as f64;
        let pixels = self.width as f64 * zoom * (self.height as f64 * zoom);
        check(Param::DrawingPixels, pixels)?;
        Ok(4 * self.width * self.height * self.zoom * self.zoom)
    }
}

/// Draws the picture into the caller's bytes, row by row, of each pixel red, green, blue and opacity.
///
/// Pixels of the view beyond the drawing are bare. Where layers overlap, an unknown height comes before what is lost or
/// filled, and that before the mark.
///
/// # Errors
/// As [`PictureView::bytes`]; [`Error::LengthMismatch`] unless there are so many bytes and all masks have the size of
/// `ink`.
///
/// # Example
/// ```
/// use spotwise::artwork::{Bitmap, PictureColour, PictureLayers, PictureView, draw_picture};
/// // Four pixels: ink on the first two, a mark on the second and third; the first is lost.
/// let mask = |word: &'static [u64; 1]| Bitmap::new(word, 4, 1);
/// let layers = PictureLayers {
///     ink: mask(&[0b0011])?,
///     mark: mask(&[0b0110])?,
///     lost: mask(&[0b0001])?,
///     filled: mask(&[0])?,
///     unknown: None,
/// };
/// let view = PictureView::whole(4, 1, 1);
/// let mut rgba = [0; 16];
/// draw_picture(&layers, &view, &mut rgba)?;
/// assert_eq!(rgba[..4], PictureColour::Lost.rgba());
/// assert_eq!(rgba[4..8], PictureColour::Kept.rgba());
/// assert_eq!(rgba[8..12], PictureColour::GrownEdge.rgba());
/// assert_eq!(rgba[12..], PictureColour::Bare.rgba());
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn draw_picture(layers: &PictureLayers<'_>, view: &PictureView, rgba: &mut [u8]) -> Result<(), Error> {
    checked_bytes(view, rgba)?;
    for mask in [layers.mark, layers.lost, layers.filled].into_iter().chain(layers.unknown) {
        check_length(Param::DrawingWidth, mask.width(), layers.ink.width())?;
        check_length(Param::DrawingHeight, mask.height(), layers.ink.height())?;
    }
    let row_bytes = 4 * view.width * view.zoom;
    for (j, rows) in rgba.chunks_exact_mut(row_bytes * view.zoom).enumerate() {
        let row = LayerRow::of(layers, view.top.saturating_add(j));
        let (first, others) = rows.split_at_mut(row_bytes);
        let mut words = row.words(view.left / 64);
        for (i, pixels) in first.chunks_exact_mut(4 * view.zoom).enumerate() {
            let x = view.left.saturating_add(i);
            if x % 64 == 0 {
                words = row.words(x / 64);
            }
            let colour = words.colour(x % 64).rgba();
            for pixel in pixels.chunks_exact_mut(4) {
                pixel.copy_from_slice(&colour);
            }
        }
        for other in others.chunks_exact_mut(row_bytes) {
            other.copy_from_slice(first);
        }
    }
    Ok(())
}

/// Frames a finding in a picture: a line of one pixel of the drawing around its box, with one pixel left free between.
///
/// What of the line lies beyond the view is left out; an empty box has none.
///
/// # Errors
/// As [`PictureView::bytes`]; [`Error::LengthMismatch`] for another number of bytes.
pub fn draw_box(found: &PixelBox, view: &PictureView, rgba: &mut [u8]) -> Result<(), Error> {
    checked_bytes(view, rgba)?;
    if found.left > found.right || found.top > found.bottom {
        return Ok(());
    }
    // Columns and rows of the line, counted from two before the first of the drawing.
    let line = |least: u32, greatest: u32| (least as usize, (greatest as usize).saturating_add(4));
    let (columns, rows) = (line(found.left, found.right), line(found.top, found.bottom));
    let colour = PictureColour::Box.rgba();
    let start = columns.0.saturating_sub(view.left.saturating_add(2));
    let count = columns.1.saturating_sub(columns.0).saturating_add(1);
    for (j, pixels) in rgba.chunks_exact_mut(4 * view.width * view.zoom).enumerate() {
        let y = view.top.saturating_add(j / view.zoom).saturating_add(2);
        if !(rows.0..=rows.1).contains(&y) {
            continue;
        }
        let columns_shown = pixels.chunks_exact_mut(4 * view.zoom).enumerate().skip(start).take(count);
        for (i, wide) in columns_shown {
            let x = view.left.saturating_add(i).saturating_add(2);
            let on_line = x == columns.0 || x == columns.1 || y == rows.0 || y == rows.1;
            if on_line && (columns.0..=columns.1).contains(&x) {
                wide.chunks_exact_mut(4).for_each(|pixel| pixel.copy_from_slice(&colour));
            }
        }
    }
    Ok(())
}

fn checked_bytes(view: &PictureView, rgba: &[u8]) -> Result<(), Error> {
    check_length(Param::Output, rgba.len(), view.bytes()?)
}

/// The words of one row of each layer; none of them beyond the drawing.
struct LayerRow<'b> {
    ink: &'b [u64],
    mark: &'b [u64],
    lost: &'b [u64],
    filled: &'b [u64],
    unknown: &'b [u64],
}

impl<'b> LayerRow<'b> {
    fn of(layers: &PictureLayers<'b>, y: usize) -> Self {
        let row = |mask: Bitmap<'b>| if y < mask.height() { mask.row(y) } else { &[] };
        Self {
            ink: row(layers.ink),
            mark: row(layers.mark),
            lost: row(layers.lost),
            filled: row(layers.filled),
            unknown: layers.unknown.map_or(&[], row),
        }
    }

    fn words(&self, n: usize) -> LayerWords {
        let word = |row: &[u64]| row.get(n).copied().unwrap_or(0);
        LayerWords {
            ink: word(self.ink),
            mark: word(self.mark),
            lost: word(self.lost),
            filled: word(self.filled),
            unknown: word(self.unknown),
        }
    }
}

/// 64 columns of one row of each layer. Bits beyond the width are zero.
struct LayerWords {
    ink: u64,
    mark: u64,
    lost: u64,
    filled: u64,
    unknown: u64,
}

impl LayerWords {
    fn colour(&self, bit: usize) -> PictureColour {
        let set = |word: u64| word >> bit & 1 == 1;
        if set(self.unknown) {
            PictureColour::Unknown
        } else if set(self.lost) {
            PictureColour::Lost
        } else if set(self.filled) {
            PictureColour::Filled
        } else {
            match (set(self.ink), set(self.mark)) {
                (false, false) => PictureColour::Bare,
                (true, true) => PictureColour::Kept,
                (true, false) => PictureColour::WornEdge,
                (false, true) => PictureColour::GrownEdge,
            }
        }
    }
}
