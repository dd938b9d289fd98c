//! spotwise answers, before a part is committed, what a laser spot will hold: how small it is,
//! how far the surface may stray, and which stroke, gap and text survive there.
//!
//! # Two layers, one truth
//! * The crate root (feature `units`, on by default) takes quantities with units and role types,
//!   so that a radius for a diameter, an inch for a millimetre, half a depth of focus for the full
//!   one or an offset of unknown sign does not compile. It holds no formula.
//! * [`model`] is the vetted model beneath it and beneath the C and WebAssembly packages: plain
//!   `f64` in SI units, without heap, `unsafe` or panic, the same bits everywhere.
//!
//! # Example
#![cfg_attr(feature = "units", doc = "```")]
#![cfg_attr(not(feature = "units"), doc = "```ignore")]
//! use spotwise::units::{inch, mm, um};
//! use spotwise::{Beam, BeamParts, BeamWidth, Criterion, Lens, Offset, WaistPosition};
//!
//! let raw = Beam::new(BeamParts {
//!     wavelength: um(10.6),
//!     m_squared: 1.2,
//!     waist: BeamWidth::from_diameter_1e2(mm(7.0))?,
//! })?;
//! let focused = Lens::new(inch(1.5)).focused_beam(&raw, WaistPosition::AtLens)?;
//! let depth = focused.depth_of_focus(Criterion::IrradianceDrop(0.2))?;
//! let low = focused.defocus(Offset::away_from_lens(mm(0.5))?)?;
//!
//! assert_eq!((focused.waist().diameter_1e2().value * 1e9).round(), 88_143.0); // 88.1 µm
//! assert_eq!((depth.full().value * 1e6).round(), 480.0); // 0.48 mm from end to end
//! assert_eq!((low.growth * 100.0).round(), 144.0); // 44 % larger, half a millimetre low
//! # Ok::<(), spotwise::Error>(())
//! ```
//!
//! # Features
//! * `std` (default): lets `sqrt` use the processor's instruction; changes speed, never a bit.
//! * `units` (default): the typed layer, over `uom`.
//! * `serde`: jobs and verdicts as documents with units in text.
//! * `artwork`: the preflight of drawings, [`artwork`](crate::artwork).
//! * `parallel`: spreads that work over threads; changes speed, never a bit.
//! * `vector`: draws paths and text as drawings for a preflight; needs a heap.
//!
//! # Cautions
#![doc = include_str!("cautions.md")]
//!
//! # How far a result may be trusted
//! Every optical result carries a [`Validity`]: flags at four levels, whose limits are named constants
//! such as [`CAUTION_ABERRATION`] and [`DOMAIN_CLIPPING`].
//!
//! # Not modelled
//! Aberration off the axis (but for a scan head that you have measured), aspheric lenses, decentring, thermal lensing, polarisation, tilted lenses, heat that
//! stays in the part, melt flow, and beams too wide for the paraxial formulas (half angles above
//! 0.3 rad are refused, above 0.15 rad flagged as [`Validity::WIDE_CONE`]).
#![cfg_attr(not(feature = "std"), no_std)]
#![forbid(unsafe_code)]

#[cfg(any(feature = "vector", all(feature = "artwork", feature = "units")))]
extern crate alloc;

#[cfg(feature = "artwork")]
pub mod artwork;
mod error;
mod flags;
pub mod model;
pub mod text;
#[cfg(feature = "units")]
mod typed;
mod validity;

pub use error::{Error, Kind, Param, TextFault, check_distance};
pub use model::check::{Outcome, Reasons};
pub use model::focus::Sharper;
pub use model::learn::{
    BeamWarnings, EyeWarnings, HeightLabel, PieceRank, PieceRole, SkipReason, SweepDirection,
    ThresholdWarnings,
};
pub use model::lens_choice::LensReasons;
pub use model::optics::WidthDefinition;
#[cfg(feature = "units")]
pub use typed::*;
#[cfg(feature = "units")]
pub use uom;
pub use validity::{
    CAUTION_ABERRATION, CAUTION_CLIPPING, CAUTION_FOCUS_SHIFT, CAUTION_GRAZING, CAUTION_HALF_ANGLE,
    CAUTION_INCIDENCE, CAUTION_OFF_FOCUS_CLIPPING, CAUTION_OFF_FOCUS_IRRADIANCE, DOMAIN_ABERRATION,
    DOMAIN_CLIPPING, Level, REFUSED_ABERRATION, REFUSED_CLIPPING, REFUSED_HALF_ANGLE, REFUSED_LONG_FOCUS,
    Validity,
};

/// The safety cautions that go with every prediction, as plain text.
pub const CAUTIONS: &str = include_str!("cautions.md");

/// The README's Rust snippet, compiled and run with the documentation's examples.
#[cfg(all(doctest, feature = "units"))]
#[doc = include_str!("../README.md")]
struct Readme;
