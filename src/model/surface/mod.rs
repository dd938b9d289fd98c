//! Where the surface really is: what a measured one does to the spot.

pub mod height_map;

#[doc(inline)]
pub use height_map::{FocusMask, HeightMap, HeightQuantity, in_focus_mask, map_heights};
