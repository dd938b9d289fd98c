//! The preflight of drawings against cases and peers computed independently of this crate.
//!
//! `tests/tables/artwork` holds the cases: a drawing, the mark expected of it, and what is found in that mark, made
//! with NumPy and SciPy by other hands and kept as they came.

#[path = "artwork/answers.rs"]
mod answers;
#[path = "artwork/bands.rs"]
mod bands;
#[path = "artwork/cases.rs"]
mod cases;
#[path = "artwork/centre_line.rs"]
mod centre_line;
#[path = "artwork/components.rs"]
mod components;
#[path = "artwork/discs.rs"]
mod discs;
#[path = "artwork/distances.rs"]
mod distances;
#[path = "artwork/exposure.rs"]
mod exposure;
#[path = "artwork/exposure_closed_forms.rs"]
mod exposure_closed_forms;
#[path = "artwork/exposure_error.rs"]
mod exposure_error;
#[path = "artwork/exposure_laws.rs"]
mod exposure_laws;
#[path = "artwork/exposure_peer.rs"]
mod exposure_peer;
#[path = "artwork/hostile.rs"]
mod hostile;
#[path = "artwork/level_surfaces.rs"]
mod level_surfaces;
#[path = "artwork/masks.rs"]
mod masks;
#[path = "artwork/naive.rs"]
mod naive;
#[path = "artwork/outside.rs"]
mod outside;
#[path = "artwork/peers.rs"]
mod peers;
#[path = "artwork/plate.rs"]
mod plate;
#[path = "artwork/preflight.rs"]
mod preflight;
#[path = "artwork/preflight_laws.rs"]
mod preflight_laws;
#[path = "artwork/questions.rs"]
mod questions;
#[path = "artwork/quick_answer.rs"]
mod quick_answer;
#[path = "artwork/quick_bound.rs"]
mod quick_bound;
#[path = "artwork/quick_bound_holds.rs"]
mod quick_bound_holds;
#[path = "artwork/regions.rs"]
mod regions;
#[path = "artwork/remedies.rs"]
mod remedies;
#[path = "artwork/room_and_watch.rs"]
mod room_and_watch;
#[cfg(feature = "parallel")]
#[path = "artwork/several_threads.rs"]
mod several_threads;
#[path = "artwork/specks.rs"]
mod specks;
#[path = "artwork/topology.rs"]
mod topology;
#[path = "artwork/unknown_heights.rs"]
mod unknown_heights;
