//! Drawings from shapes and text, with units at the edge.

use super::set_up::{Artwork, PixelPitch};
use crate::artwork::{LetterSize, SampleKind, Sheet, pitch_for_spot};
use crate::error::Error;
use crate::typed::length;
use crate::typed::lettering::TypeSize;
use crate::typed::shape::TablePlace;
use crate::typed::width::BeamWidth;

impl PixelPitch {
    /// The pitch that a spot demands of a drawing. As [`pitch_for_spot`].
    ///
    /// # Errors
    /// As there.
    ///
    /// # Example
    /// ```
    /// use spotwise::artwork::SampleKind;
    /// use spotwise::{BeamWidth, PixelPitch, units::um};
    /// let pitch = PixelPitch::for_spot(BeamWidth::from_diameter_1e2(um(88.0))?, SampleKind::Coverage)?;
    /// assert_eq!((pitch.x.value * 1e9).round(), 11_000.0); // a quarter of the radius
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn for_spot(least_spot: BeamWidth, kind: SampleKind) -> Result<Self, Error> {
        let pitch = length(pitch_for_spot(least_spot.diameter_1e2().value, kind)?);
        Ok(Self { x: pitch, y: pitch })
    }
}

impl<'a> Artwork<'a> {
    /// What was drawn on a sheet.
    #[must_use]
    pub fn of_sheet(sheet: &'a Sheet) -> Self {
        let drawing = sheet.drawing();
        Self {
            samples: drawing.samples,
            width: drawing.width,
            height: drawing.height,
            row_stride: drawing.row_stride,
            pitch: PixelPitch { x: length(drawing.pitch_x), y: length(drawing.pitch_y) },
            corner: TablePlace::from_metres(drawing.left_x, drawing.top_y),
            kind: drawing.kind,
            drawing_use: drawing.drawing_use,
        }
    }
}

impl From<TypeSize> for LetterSize {
    /// By its em.
    fn from(size: TypeSize) -> Self {
        Self::Em(size.em().value)
    }
}
