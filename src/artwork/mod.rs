//! Preflight: the mark that will come out of a drawing, and what is lost of it.
//!
//! The data's way: a [`Drawing`] on a surface is exposed by a spot that grows with the height, the exposure becomes a
//! mark, the mark is compared with the drawing, and what differs becomes findings. Plain numbers in SI units, as in
//! [`model`](crate::model), which holds the formulas of spot, dose and surface.
//!
//! Nothing here takes memory of its own: each step is told how much room it needs and works in the caller's.

mod bitmap;
mod drawing;
mod simd;
mod watch;
mod workspace;

pub use bitmap::{Bitmap, BitmapMut, words_in_row};
pub use drawing::{Drawing, DrawingUse, SampleKind};
pub use watch::{Step, Watch};
