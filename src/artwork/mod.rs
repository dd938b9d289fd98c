//! Preflight: the mark that will come out of a drawing, and what is lost of it.
//!
//! The data's way: a [`Drawing`] on a surface is exposed by a spot that grows with the height, the exposure becomes a
//! mark, the mark is compared with the drawing, and what differs becomes findings. Plain numbers in SI units, as in
//! [`model`](crate::model), which holds the formulas of spot, dose and surface.
//!
//! Nothing here takes memory of its own: each step is told how much room it needs and works in the caller's.

mod bitmap;
mod changes;
mod components;
mod drawing;
mod euler;
mod exposing;
mod exposure;
mod fir;
mod kernel;
mod overlap;
mod pixel_box;
mod reference;
mod regions;
mod runs;
mod scan;
mod simd;
mod spot_map;
#[cfg(feature = "parallel")]
mod threads;
mod tile;
mod topology;
mod watch;
mod workspace;

pub use bitmap::{Bitmap, BitmapMut, words_in_row};
pub use changes::{Change, ChangeKind};
pub use components::{Components, LabelledRun, label_ground, label_ink, label_words};
pub use drawing::{Drawing, DrawingUse, SampleKind};
pub use euler::euler_number;
pub use exposing::Exposing;
pub use exposure::{ExposurePlan, FULL_DOSE};
pub use pixel_box::PixelBox;
pub use regions::{Depth, Region, RegionFinder, RegionTotals, region_words};
pub use scan::Scan;
pub use spot_map::{InkSpots, expected_exposure_error};
pub use topology::{Parts, Topology, compare, compare_words, find_parts, parts_words};
pub use watch::{Step, Watch};
