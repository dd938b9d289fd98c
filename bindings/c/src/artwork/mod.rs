//! The preflight of drawings, for desktop programs: every buffer is the caller's, and calls say beforehand how much
//! room they need.

mod beams;
mod bound;
mod codes;
mod drawing;
mod exposing;
mod exposure;
mod findings;
mod job;
mod judgement;
mod marking;
mod memory;
mod picture;
mod preflight;
mod quick_answer;
mod remedies;
mod report;
mod watch;
mod window;

#[cfg(test)]
pub(crate) use {
    beams::*, bound::*, codes::*, drawing::*, exposing::*, exposure::*, findings::*, job::*, judgement::*,
    marking::*, picture::*, preflight::*, quick_answer::*, remedies::*, report::*, window::*,
};
