//! The C face of spotwise. It checks pointers, converts, delegates to [`spotwise::model`] and
//! reports; it holds no formula, and its only `unsafe` is reading and writing through pointers.
//!
//! The doc comments of public items are written for C: `cargo xtask header` makes
//! `include/spotwise.h` of them. The contract of the pointers stands at the top of that header
//! ([`SPOTWISE_ABI_VERSION`](status::SPOTWISE_ABI_VERSION) changes when it does), which is why no
//! function repeats it in a section on safety.
#![cfg_attr(target_os = "none", no_std)]
#![allow(non_camel_case_types, clippy::missing_safety_doc)]

mod abi;
mod arrays;

mod status;

mod error;

mod cone;

mod beam;
mod width;

mod astigmatic;
mod glass;
mod lens;
mod singlet;

mod clipping;
mod gantry;
mod path;
mod plate;

mod wave;

mod focus;
mod height_map;
mod real_depth;
mod scan_field;
mod singlet_focus;
mod tilt;

mod crossing;

mod mark;

mod choices;
mod dose;
mod material;

mod fill_width;
mod isolated;
mod pulsed;

mod blur;
mod crisp;
mod exposure;
mod raster;

mod compensation;
mod typeface;

mod height_budget;
mod in_focus;
mod shape;
mod tolerance;

mod calibration;
mod check;
mod surface_check;

mod lens_choice;

mod beam_fit;
mod by_eye;
mod fit_arrays;
mod mark_fit;

mod from_marks;
mod plan;
mod statistics;
mod threshold_fit;

mod diagnosis;
mod settling;

mod parameter;
mod text;

#[cfg(feature = "artwork")]
mod artwork;

#[cfg(any(target_os = "none", feature = "reachable-panic"))]
mod panic;

#[cfg(test)]
#[path = "../tests/mod.rs"]
mod tests;
