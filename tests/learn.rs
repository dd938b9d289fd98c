//! Learning from test pieces, on simulated series: how often a stated range holds the truth, by how much an answer is biased,
//! how often an outlier or a wrong kind of data is caught, and what hostile data do. Each bound that is asserted here
//! is stated in the documentation. The draws are the same on every run.

#[path = "learn/beam_fit.rs"]
mod beam_fit;
#[path = "learn/drawn.rs"]
mod drawn;
#[path = "learn/tally.rs"]
mod tally;
#[path = "learn/threshold_fit.rs"]
mod threshold_fit;
