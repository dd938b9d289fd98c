//! Where the surface really is: what a measured one does to the spot, and what makes one stray.

pub mod height_map;
pub mod held;
pub mod odds;
pub mod random;
pub mod tolerance;

#[doc(inline)]
pub use height_map::{FocusMask, HeightMap, HeightQuantity, in_focus_mask, map_heights};
#[doc(inline)]
pub use held::{DetailOdds, PlaceOdds, SurfaceDetail, detail_odds};
#[doc(inline)]
pub use odds::{DrawnOffsets, DrawnShare, OffsetOdds, offset_odds};
#[doc(inline)]
pub use random::Draws;
#[doc(inline)]
pub use tolerance::{Contribution, Distribution, ToleranceSource, ToleranceStack, tolerance_stack};
