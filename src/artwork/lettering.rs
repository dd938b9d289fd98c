//! A line of text in a font file of the user's, as a path.
//!
//! The outlines are those of the font, unhinted, in units of the em; `skrifa` reads them. Letters stand side by side
//! from left to right, each as far from the last as the font's advance widths say, plus a spacing of the caller's.
//!
//! Not done: kerning, ligatures and every other substitution, marks placed over letters, scripts that join or run
//! from right to left, more than one line. Of a variable font the default instance is used.

use super::vector::{InkPath, VectorError};
use crate::error::{Param, check};
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::outline::{DrawSettings, OutlineGlyphCollection, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};

/// How large letters are, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LetterSize {
    /// The em; [`POINT`](crate::model::mark::POINT) metres for each point.
    Em(f64),
    /// The height of the font's capital H.
    CapHeight(f64),
    /// The height of the font's digit 1.
    DigitHeight(f64),
}

/// A line of text, and the room that it takes.
#[derive(Debug, Clone, PartialEq)]
pub struct TextLine {
    /// All letters; fill it by the non-zero rule.
    pub path: InkPath,
    /// The em, in metres.
    pub em: f64,
    /// From the origin of the first letter to where a next one would begin, in metres.
    pub advance: f64,
}

/// A font file of the user's: TrueType or OpenType, also one of a collection.
///
/// # Example
/// ```
/// use spotwise::artwork::{FillRule, Font, Frame, Inking, LetterSize, Sheet};
/// # let file = include_bytes!(concat!(env!("CARGO_MANIFEST_DIR"), "/examples/fonts/DejaVuSans-plate.ttf"));
/// let font = Font::new(file, 0)?;
/// // 3 point digits, at a quarter of a spot radius of 44 µm.
/// let size = LetterSize::Em(3.0 * spotwise::model::mark::POINT);
/// let serial = font.line("0042", size, 0.0, [0.0, 0.0])?;
/// // DejaVu Sans: each digit advances by 1303 of 2048 units.
/// assert_eq!((serial.advance * 1e9).round(), (4.0 * 1303.0 / 2048.0 * 3.0 * 25.4e6 / 72.0_f64).round());
/// let mut sheet = Sheet::new(Frame::around(serial.path.bounds()?, 0.1e-3, 11e-6)?)?;
/// sheet.draw(&serial.path, Inking::Fill(FillRule::NonZero))?;
/// # Ok::<(), spotwise::artwork::VectorError>(())
/// ```
pub struct Font<'f> {
    font: FontRef<'f>,
    outlines: OutlineGlyphCollection<'f>,
    advances: GlyphMetrics<'f>,
    units_per_em: f64,
}

impl core::fmt::Debug for Font<'_> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Font").field("units_per_em", &self.units_per_em).finish_non_exhaustive()
    }
}

impl<'f> Font<'f> {
    /// Reads a font file; `face` chooses one of a collection, 0 in a file of one.
    ///
    /// # Errors
    /// [`VectorError::NotAFont`].
    pub fn new(file: &'f [u8], face: u32) -> Result<Self, VectorError> {
        let font = FontRef::from_index(file, face).map_err(|_| VectorError::NotAFont)?;
        let units_per_em = font.metrics(Size::unscaled(), LocationRef::default()).units_per_em;
        let outlines = font.outline_glyphs();
        if !font.charmap().has_map() || outlines.format().is_none() || units_per_em == 0 {
            return Err(VectorError::NotAFont);
        }
        let advances = font.glyph_metrics(Size::unscaled(), LocationRef::default());
        Ok(Self { font, outlines, advances, units_per_em: f64::from(units_per_em) })
    }

    /// The em in metres at which letters have this size.
    ///
    /// # Errors
    /// [`VectorError::Refused`] for a size that makes the em other than 1e-9 to 10 m, [`VectorError::MissingGlyph`] if
    /// the font lacks the H or the 1 that the size speaks of.
    pub fn em(&self, size: LetterSize) -> Result<f64, VectorError> {
        let em = match size {
            LetterSize::Em(em) => em,
            LetterSize::CapHeight(height) => height / self.height('H')?,
            LetterSize::DigitHeight(height) => height / self.height('1')?,
        };
        Ok(check(Param::Em, em)?)
    }

    /// Sets a line of text from an origin on its baseline, `letter_spacing` metres farther apart than the font says.
    ///
    /// # Errors
    /// As [`Self::em`]; [`VectorError::LetterSpacing`]; [`VectorError::MissingGlyph`] and
    /// [`VectorError::BrokenGlyph`] with the character, which for a line break or other control character is always
    /// missing; [`VectorError::NothingToDraw`] for a text without a letter; [`VectorError::TooManyPoints`].
    pub fn line(
        &self,
        text: &str,
        size: LetterSize,
        letter_spacing: f64,
        origin: [f64; 2],
    ) -> Result<TextLine, VectorError> {
        let em = self.em(size)?;
        if !(-em..=10.0 * em).contains(&letter_spacing) {
            return Err(VectorError::LetterSpacing { value: letter_spacing, em });
        }
        let [x, y] = origin;
        check(Param::DrawingX, x)?;
        check(Param::DrawingY, y)?;
        let scale = em / self.units_per_em;
        let mut pen = Pen { path: InkPath::new(), x, y, scale };
        for character in text.chars() {
            let glyph = self.glyph(character)?;
            self.draw(character, glyph, &mut pen)?;
            if pen.path.steps().len() > super::vector::MOST_POINTS {
                return Err(VectorError::TooManyPoints);
            }
            let advance = self.advances.advance_width(glyph).ok_or(VectorError::BrokenGlyph { character })?;
            pen.x += f64::from(advance) * scale + letter_spacing;
        }
        if pen.path.steps().is_empty() {
            return Err(VectorError::NothingToDraw);
        }
        Ok(TextLine { path: pen.path, em, advance: pen.x - x })
    }

    fn glyph(&self, character: char) -> Result<GlyphId, VectorError> {
        let found = if character.is_control() { None } else { self.font.charmap().map(character) };
        // Glyph 0 is the one that stands for missing ones.
        found.filter(|glyph| glyph.to_u32() != 0).ok_or(VectorError::MissingGlyph { character })
    }

    fn draw(&self, character: char, glyph: GlyphId, pen: &mut Pen) -> Result<(), VectorError> {
        let broken = VectorError::BrokenGlyph { character };
        let outline = self.outlines.get(glyph).ok_or(broken)?;
        let settings = DrawSettings::unhinted(Size::unscaled(), LocationRef::default());
        outline.draw(settings, pen).map_err(|_| broken)?;
        Ok(())
    }

    /// How far a letter reaches above the baseline, in ems.
    fn height(&self, character: char) -> Result<f64, VectorError> {
        let mut pen = Pen { path: InkPath::new(), x: 0.0, y: 0.0, scale: 1.0 / self.units_per_em };
        self.draw(character, self.glyph(character)?, &mut pen)?;
        let height = -pen.path.bounds()?.top_y;
        if height > 0.0 { Ok(height) } else { Err(VectorError::BrokenGlyph { character }) }
    }
}

/// Puts an outline in font units, y upward, where its letter stands.
struct Pen {
    path: InkPath,
    x: f64,
    y: f64,
    scale: f64,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> [f64; 2] {
        [self.x + f64::from(x) * self.scale, self.y - f64::from(y) * self.scale]
    }
}

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        self.path.move_to(to);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        self.path.line_to(to);
    }

    fn quad_to(&mut self, cx0: f32, cy0: f32, x: f32, y: f32) {
        let (control, to) = (self.at(cx0, cy0), self.at(x, y));
        self.path.quad_to(control, to);
    }

    fn curve_to(&mut self, cx0: f32, cy0: f32, cx1: f32, cy1: f32, x: f32, y: f32) {
        let (first, second, to) = (self.at(cx0, cy0), self.at(cx1, cy1), self.at(x, y));
        self.path.cubic_to(first, second, to);
    }

    fn close(&mut self) {
        self.path.close();
    }
}
