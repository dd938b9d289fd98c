//! Focus or power: against tables and SciPy, by the laws that it must obey, by simulated marks that are measured with errors, and
//! chained to the compensation.

#[path = "diagnosis/coverage.rs"]
mod coverage;
#[path = "diagnosis/laws.rs"]
mod laws;
#[path = "diagnosis/outside.rs"]
mod outside;
#[path = "diagnosis/simulated.rs"]
mod simulated;
