//! The preflight of drawings against cases and peers computed independently of this crate.
//!
//! `tests/tables/artwork` holds the cases: a drawing, the mark expected of it, and what is found in that mark, made
//! with NumPy and SciPy by other hands and kept as they came.

#[path = "artwork/cases.rs"]
mod cases;
#[path = "artwork/components.rs"]
mod components;
#[path = "artwork/exposure.rs"]
mod exposure;
#[path = "artwork/naive.rs"]
mod naive;
#[path = "artwork/preflight.rs"]
mod preflight;
#[path = "artwork/regions.rs"]
mod regions;
#[path = "artwork/topology.rs"]
mod topology;
