//! What the spot leaves behind: the finest detail, and the contrast of a grating.
//!
//! Everything here is a Gaussian blur of the drawing followed by a threshold, so that it depends
//! only on the spot and on the dose ratio q, the fill dose over the dose at which the material
//! just marks. The dose inside a raster fill does not change with focus; the spot does.

pub mod contrast;
pub mod detail;

#[doc(inline)]
pub use contrast::{GratingContrast, contrast_at_pitch, pitch_for_contrast};
pub(crate) use detail::Resolution;
#[doc(inline)]
pub use detail::{SmallestDetails, largest_spot_for_details, smallest_details};
