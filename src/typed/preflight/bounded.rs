//! What is surely marked and surely stays clear of a drawing, from distances alone.

use super::found::Mask;
use super::set_up::Artwork;
use crate::artwork::{self, BoundInput, BoundSummary, Watch};
use crate::error::Error;
use crate::typed::dose::LineInterval;
use crate::typed::width::BeamWidth;
use alloc::vec;

/// The light that bounds the exposure of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoundLight {
    /// Greatest spot anywhere on the drawing, blur included.
    pub greatest_spot: BeamWidth,
    /// Least dose ratio anywhere on the drawing: dose in the middle of a wide fill over that at which it marks.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio anywhere on the drawing, at least the least.
    pub greatest_dose_ratio: f64,
    /// Scan lines that lie apart; none for an even fill.
    pub lines: Option<BoundLines>,
}

/// Scan lines of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoundLines {
    /// From one line to the next, at most 2.5 of the least spot **radius**.
    pub line_interval: LineInterval,
    /// Least spot across the lines anywhere on the drawing, blur included; at most the greatest.
    pub least_spot: BeamWidth,
}

/// What is decided of a drawing without any exposure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuickBound {
    /// What is surely marked.
    pub marked: Mask,
    /// What surely stays clear.
    pub clear: Mask,
    /// How much is decided.
    pub summary: BoundSummary,
}

impl Artwork<'_> {
    /// What is surely marked and what surely stays clear, and whether the drawing holds by that alone: an answer at once.
    ///
    /// "It holds" ([`BoundSummary::holds`]) is said of strokes, pieces and holes whatever becomes of the rest, but for specks
    /// beside edges. It is no preflight: nothing is said of the dose window and the grade, and "no" means that it is for the
    /// exposure to say.
    ///
    /// It holds for an even fill on a surface of any shape; where tilt changes the exposure, the two dose ratios must say
    /// so. Scan lines that lie apart leave more undecided; from 1.25 of the least spot radius on nothing is surely
    /// marked. As [`artwork::quick_bound`].
    ///
    /// # Errors
    /// As there, and for the numbers of the drawing.
    ///
    /// # Example
    /// ```
    /// use spotwise::artwork::{DrawingUse, SampleKind, Watch};
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Artwork, BeamWidth, BoundLight, PixelPitch, TablePlace};
    /// // Bars and gaps of 0.2 mm at 10 µm to the pixel.
    /// let (width, height) = (70, 200);
    /// let samples: Vec<u8> =
    ///     (0..height).flat_map(|y| (0..width).map(move |_| if y / 20 % 2 == 1 { 255 } else { 0 })).collect();
    /// let artwork = Artwork {
    ///     samples: &samples,
    ///     width,
    ///     height,
    ///     row_stride: width,
    ///     pitch: PixelPitch { x: um(10.0), y: um(10.0) },
    ///     corner: TablePlace { x: mm(0.0), y: mm(0.0) },
    ///     kind: SampleKind::Bilevel,
    ///     drawing_use: DrawingUse::Shapes,
    /// };
    /// let light = BoundLight {
    ///     greatest_spot: BeamWidth::from_diameter_1e2(um(80.0))?,
    ///     least_dose_ratio: 2.7,
    ///     greatest_dose_ratio: 2.7,
    ///     lines: None,
    /// };
    /// let bound = artwork.quick_bound(&light, &mut Watch::quiet())?;
    /// // Worked with bc: a pixel surely marks if the next bare centre is more than 40·√(ln(2.7/1.7)/2) + 7.07 = 26.31 µm
    /// // off, and stays clear if the next ink's is more than 40·√(ln(2.7)/2) + 7.07 = 35.26 µm off.
    /// assert!(!bound.marked.get(35, 21) && bound.marked.get(35, 22));
    /// assert!(!bound.clear.get(35, 42) && bound.clear.get(35, 43));
    /// assert_eq!(bound.summary.doubtful_gaps, 0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn quick_bound(&self, light: &BoundLight, watch: &mut Watch<'_>) -> Result<QuickBound, Error> {
        let drawing = self.as_model().checked()?;
        let [mut ink, mut solid, mut touched, mut marked, mut clear] =
            [(); 5].map(|()| Mask::new(drawing.width, drawing.height));
        drawing.ink_masks(
            Some(&mut ink.pixels_mut()?),
            Some(&mut solid.pixels_mut()?),
            Some(&mut touched.pixels_mut()?),
        )?;
        let (line_interval, least_spot_diameter) = match light.lines {
            Some(lines) => (lines.line_interval.length().value, lines.least_spot.diameter_1e2().value),
            None => (0.0, f64::NAN),
        };
        let input = BoundInput {
            ink: ink.pixels()?,
            solid: solid.pixels()?,
            touched: touched.pixels()?,
            pitch_x: drawing.pitch_x,
            pitch_y: drawing.pitch_y,
            greatest_spot_diameter: light.greatest_spot.diameter_1e2().value,
            least_dose_ratio: light.least_dose_ratio,
            greatest_dose_ratio: light.greatest_dose_ratio,
            line_interval,
            least_spot_diameter,
        };
        let mut room = vec![0; artwork::quick_bound_words(&input, artwork::threads())?];
        let (mut marks, mut stays) = (marked.pixels_mut()?, clear.pixels_mut()?);
        let summary = artwork::quick_bound(&input, &mut marks, &mut stays, &mut room, watch)?;
        Ok(QuickBound { marked, clear, summary })
    }
}
