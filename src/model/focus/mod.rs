//! How far the surface may move: z-offset and depth of focus.

pub mod astigmatic_depth;
pub mod clipped_depth;
pub mod crossing;
pub mod depth;
pub mod offset;
pub mod singlet_focus;
pub mod tilt;
pub mod wave_depth;

#[doc(inline)]
pub use astigmatic_depth::astigmatic_depth_of_focus;
#[doc(inline)]
pub use clipped_depth::{ClippedDepth, clipped_depth_of_focus};
pub(crate) use crossing::crossing_of;
#[doc(inline)]
pub use crossing::{CausticCrossing, Crossing, Sharper, caustic_crossing};
#[doc(inline)]
pub use depth::{DepthCriterion, FocusRange, depth_of_focus};
pub(crate) use depth::{checked_criterion, half_range_of, range_for_diameter, range_of};
#[doc(inline)]
pub use offset::{
    AstigmaticDefocus, Defocus, astigmatic_defocus, defocus, offsets_for_diameter, offsets_for_growth,
};
pub(crate) use offset::{checked_defocus, offset_for_diameter};
pub(crate) use singlet_focus::behind_a_lens;
#[doc(inline)]
pub use singlet_focus::{LensNumbers, SingletDefocus, SingletDepth, singlet_defocus, singlet_depth_of_focus};
#[doc(inline)]
pub use tilt::{TiltedSpot, tilted_spot};
#[doc(inline)]
pub use wave_depth::{WaveDepth, wave_depth_of_focus};
