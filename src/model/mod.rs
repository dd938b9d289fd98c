//! The vetted model: plain `f64` in SI units, the same bits on every target.
//!
//! Free functions and small structs, without heap, `unsafe` or panic, and with no mathematics but
//! `+ - * /`, square root and the `libm` crate. The modules follow the light: what the laser and
//! the lens do ([`optics`]), how far the surface may move ([`focus`]), what the spot leaves
//! behind ([`mark`]), what test pieces tell of all that ([`learn`]), where the surface really is
//! ([`surface`]), all of it in one verdict ([`check`]), and which lens serves best ([`lens_choice`]).
//!
//! Widths are **diameters** at 1/e² of the irradiance (D4σ), distances along the axis count
//! **+ away from the lens** (along the light; so a raw waist upstream of the lens is negative), angles
//! are radians with half or full in their name. If you write Rust and can afford types, use the crate
//! root instead, where such mistakes do not compile.
//!
//! # Accuracy
//! Each function states its worst error in units in the last place (ulp) against a reference
//! computed to 50 digits, over the rows of its file in `tests/vectors/`; 0.75 ulp means that the
//! result was the nearest double in every row; only among subnormal numbers may it not be. The limits are enforced
//! by `tests/vectors.rs`; that every face returns the same bits is enforced by
//! `cargo xtask replay`.

pub mod check;
pub mod focus;
pub mod learn;
pub mod lens_choice;
pub mod mark;
pub(crate) mod math;
pub mod optics;
pub mod surface;
pub(crate) mod twofold;
