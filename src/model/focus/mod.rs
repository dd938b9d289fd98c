//! How far the surface may move: z-offset and depth of focus.

mod astigmatic_depth;
mod depth;
mod offset;

pub use astigmatic_depth::astigmatic_depth_of_focus;
pub use depth::{DepthCriterion, FocusRange, depth_of_focus};
pub(crate) use depth::{checked_criterion, range_for_diameter, range_of};
pub(crate) use offset::checked_defocus;
pub use offset::{
    AstigmaticDefocus, Defocus, astigmatic_defocus, defocus, offsets_for_diameter, offsets_for_growth,
};
