//! Where the surface really is: its shape, how high it lies in the marked region, what measured heights do to the
//! spot, what heights ask of the focus, and what makes a surface stray.
//!
//! x and y count across the table, heights z **+ away from the lens** from the datum of the surface, as the
//! heights of a job do. The *highest* place is the one nearest the lens, that of the least z.

pub mod astigmatic_height;
pub mod bands;
mod bilinear;
pub mod extremes;
mod field_height;
pub mod focus_height;
mod grid;
pub mod height_map;
pub mod held;
pub mod in_focus;
mod mesh;
mod most_in_focus;
mod no_better;
pub mod odds;
pub mod place;
pub mod random;
pub mod refocus;
pub mod region;
#[cfg(feature = "artwork")]
mod rows;
pub mod scan_field;
pub mod shape;
mod smooth;
pub mod strip;
pub mod through;
pub mod tolerance;

#[doc(inline)]
pub use astigmatic_height::{AstigmaticFocusBetween, focus_between_astigmatic};
#[doc(inline)]
pub use bands::{HeightBands, height_bands};
#[doc(inline)]
pub use extremes::{SurfaceExtremes, surface_extremes};
#[doc(inline)]
pub use focus_height::{DepthEnds, FocusAim, FocusBetween, focus_between};
pub(crate) use focus_height::{fits, parts_fitting, parts_needed};
#[doc(inline)]
pub use height_map::{FocusMask, HeightMap, HeightQuantity, in_focus_mask, map_heights};
#[doc(inline)]
pub use held::{DetailOdds, PlaceOdds, SurfaceDetail, detail_odds};
pub(crate) use in_focus::Measured;
#[doc(inline)]
pub use in_focus::{
    FocusHeight, RegionHeights, ShareInFocus, SurfaceFocus, focus_for_surface, region_heights, share_in_focus,
};
#[doc(inline)]
pub use odds::{DrawnOffsets, DrawnShare, OffsetOdds, offset_odds};
#[doc(inline)]
pub use place::{SurfacePlace, surface_at};
#[doc(inline)]
pub use random::Draws;
#[doc(inline)]
pub use refocus::{RefocusPlan, refocus_plan};
#[doc(inline)]
pub use region::Region;
#[doc(inline)]
pub use scan_field::{
    ScanFieldExtent, ScanFieldFocus, ScanFieldSpot, ScanLens, scan_field_at, scan_field_extent,
    scan_field_focus,
};
#[doc(inline)]
pub use shape::{Bulge, Surface, SurfaceNumbers};
#[doc(inline)]
pub use strip::{CylinderStrip, cylinder_strip};
#[doc(inline)]
pub use through::{SpotThrough, spot_through};
#[doc(inline)]
pub use tolerance::{Contribution, Distribution, ToleranceSource, ToleranceStack, tolerance_stack};
