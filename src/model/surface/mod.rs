//! Where the surface really is: what a measured one does to the spot, what heights ask of the focus, and what
//! makes a surface stray.
//!
//! Heights count **+ away from the lens**, so that the highest place of a surface has the least z.

pub mod astigmatic_height;
pub mod bands;
pub mod focus_height;
pub mod height_map;
pub mod held;
pub mod odds;
pub mod random;
pub mod refocus;
pub mod strip;
pub mod through;
pub mod tolerance;

#[doc(inline)]
pub use astigmatic_height::{AstigmaticFocusBetween, focus_between_astigmatic};
#[doc(inline)]
pub use bands::{HeightBands, height_bands};
#[doc(inline)]
pub use focus_height::{DepthEnds, FocusAim, FocusBetween, focus_between};
#[doc(inline)]
pub use height_map::{FocusMask, HeightMap, HeightQuantity, in_focus_mask, map_heights};
#[doc(inline)]
pub use held::{DetailOdds, PlaceOdds, SurfaceDetail, detail_odds};
#[doc(inline)]
pub use odds::{DrawnOffsets, DrawnShare, OffsetOdds, offset_odds};
#[doc(inline)]
pub use random::Draws;
#[doc(inline)]
pub use refocus::{RefocusPlan, refocus_plan};
#[doc(inline)]
pub use strip::{CylinderStrip, cylinder_strip};
#[doc(inline)]
pub use through::{SpotThrough, spot_through};
#[doc(inline)]
pub use tolerance::{Contribution, Distribution, ToleranceSource, ToleranceStack, tolerance_stack};
