//! Tests of the C face from the Rust side: what it reports is what the model says, bit for bit, and
//! what it cannot say it leaves blank. The C side of the tests is in `tests/c`.

mod agree;
#[cfg(feature = "artwork")]
mod agree_artwork;
mod agree_beam_fit;
mod agree_by_eye;
mod agree_calibration;
mod agree_diagnosis;
mod agree_height_budget;
mod agree_height_map;
mod agree_in_focus;
mod agree_learn;
mod agree_lens_choice;
mod agree_marks;
mod agree_plan;
mod agree_scan_field;
mod agree_shape;
mod agree_surface_check;
mod agree_threshold_fit;
mod agree_tolerance;
#[cfg(feature = "artwork")]
mod artwork;
mod header;
mod pointers;
mod raw;
