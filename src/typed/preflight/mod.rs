//! The preflight of a drawing, with units, in memory that it takes for itself.

mod at_once;
mod bounded;
mod by_job;
#[cfg(feature = "vector")]
mod drawn;
mod found;
mod pictured;
mod set_up;
mod tries;

pub use at_once::QuickAnswer;
pub use bounded::{BoundLight, BoundLines, QuickBound};
pub use by_job::JobMarking;
pub use found::{Area, DoseWindow, MarkReport, Mask, PartChange, PreflightVerdict};
pub use set_up::{Artwork, DrawnOn, MarkAnswer, PixelPitch, Preflight, RasterScan, ScanBlur};
pub use tries::{BeamToTry, FocusReach, RankedBeam};
