//! The marks as the fit sees them: those that are used, in the units of the law.

use super::Mark;
use super::law::{Law, Scaled};
use crate::model::math;

/// Marks by their place, however the caller keeps them, with what the fit makes of them.
pub(super) struct Series<'a, At> {
    pub(super) count: usize,
    pub(super) at: At,
    pub(super) law: Law,
    pub(super) used: &'a mut [bool],
}

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// The marks that are used, scaled, with their place.
    pub(super) fn used(&self) -> impl Iterator<Item = (usize, Scaled)> {
        scaled(&self.at, &self.law, self.count)
            .zip(self.used.iter())
            .filter(|(_, used)| **used)
            .map(|(mark, _)| mark)
    }

    /// How many marks are used: seen, and vanished.
    pub(super) fn counts(&self) -> (u32, u32) {
        let mut counts = (0_u32, 0_u32);
        for (_, mark) in self.used() {
            let count = if mark.width == 0.0 { &mut counts.1 } else { &mut counts.0 };
            *count = count.saturating_add(1);
        }
        counts
    }
}

/// The marks, scaled, with their place; ln ρ is worked out where ρ changes.
pub(super) fn scaled<At: Fn(usize) -> Mark>(
    at: &At,
    law: &Law,
    count: usize,
) -> impl Iterator<Item = (usize, Scaled)> {
    let (mut ratio, mut log_power) = (1.0, 0.0);
    (0..count).map(move |index| {
        let mark = at(index);
        if mark.power_ratio != ratio {
            ratio = mark.power_ratio;
            log_power = math::log(ratio);
        }
        (index, law.scaled(&mark, log_power))
    })
}
