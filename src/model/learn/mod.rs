//! Learning from test pieces: what a series of readings or marks at stepped heights tells of the focus, and how well.

pub mod statistics;

#[doc(inline)]
pub use statistics::{chi_squared_chance, student_factor};
