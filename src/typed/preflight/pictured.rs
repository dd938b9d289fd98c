//! The mark that a preflight predicts, as a picture.

use super::found::{Mask, PreflightVerdict};
use super::set_up::Preflight;
use crate::artwork::{PictureLayers, PictureView, draw_picture};
use crate::error::Error;
use alloc::vec;
use alloc::vec::Vec;

impl Preflight<'_> {
    /// The mark that this preflight's verdict predicts, and what is wrong with it: red, green, blue and opacity of each
    /// pixel, in the colours of [`PictureColour`](crate::artwork::PictureColour). As [`draw_picture`];
    /// [`draw_box`](crate::artwork::draw_box) frames a finding in it.
    ///
    /// # Errors
    /// As there: [`Error::LengthMismatch`] for the verdict on a drawing of another size.
    pub fn picture(&self, verdict: &PreflightVerdict, view: &PictureView) -> Result<Vec<u8>, Error> {
        let drawing = self.as_model().drawing.checked()?;
        let mut ink = Mask::new(drawing.width, drawing.height);
        drawing.ink_masks(Some(&mut ink.pixels_mut()?), None, None)?;
        let layers = PictureLayers {
            ink: ink.pixels()?,
            mark: verdict.mark.pixels()?,
            lost: verdict.lost.pixels()?,
            filled: verdict.filled.pixels()?,
            unknown: Some(verdict.unknown.pixels()?),
        };
        let mut rgba = vec![0; view.bytes()?];
        draw_picture(&layers, view, &mut rgba)?;
        Ok(rgba)
    }
}
