//! Where to start: a coarse grid over the height of the waist and the Rayleigh range, on which spot and dose follow by
//! linear least squares.

use super::Mark;
use super::series::Series;
use crate::model::math;

/// The grid of starts: heights of the waist over half the run, and Rayleigh ranges over it.
const START_HEIGHTS: [f64; 5] = [-0.8, -0.4, 0.0, 0.4, 0.8];
const START_RANGES: [f64; 4] = [0.15, 0.35, 0.8, 1.8];

/// A place and a range of the waist to start from.
#[derive(Clone, Copy)]
pub(super) struct Start {
    pub(super) at: [f64; 2],
    /// χ² of the spot and the dose that roughly fit there.
    squares: f64,
    /// Whether the next heights on the grid fit worse.
    pub(super) is_least: bool,
}

const NOWHERE: Start = Start { at: [f64::NAN; 2], squares: f64::INFINITY, is_least: false };

impl Start {
    fn comes_before(&self, other: &Self) -> bool {
        if self.is_least == other.is_least { self.squares < other.squares } else { self.is_least }
    }
}

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    fn start(&self, waist: f64, range: f64, room: &mut [f64]) -> Start {
        let at = [waist, math::log(range)];
        match self.rough_spot(&at, room) {
            Some(spot) if spot[0] > 0.0 => {
                Start { at, squares: self.squares(&at, &spot, room), is_least: false }
            }
            _ => NOWHERE,
        }
    }

    /// The best start at each height of the grid; those first that are better than their neighbours, the better first.
    pub(super) fn starts(&self, room: &mut [f64]) -> [Start; START_HEIGHTS.len()] {
        let mut starts = START_HEIGHTS.map(|waist| {
            START_RANGES.map(|range| self.start(waist, range, room)).into_iter().fold(
                NOWHERE,
                |best, other| {
                    if other.squares < best.squares { other } else { best }
                },
            )
        });
        let mut before = f64::INFINITY;
        let after = starts.map(|start| start.squares).into_iter().skip(1).chain([f64::INFINITY]);
        for (start, after) in starts.iter_mut().zip(after) {
            start.is_least = start.squares < before && start.squares <= after;
            before = start.squares;
        }
        let mut sorted = [NOWHERE; START_HEIGHTS.len()];
        for start in starts {
            let mut moving = start;
            for kept in &mut sorted {
                if moving.comes_before(kept) {
                    core::mem::swap(kept, &mut moving);
                }
            }
        }
        sorted
    }
}
