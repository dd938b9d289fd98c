//! Curves to chords.
//!
//! The chords of a curve B(t) over n equal steps of t lie within max|B″|/(8·n²) of it. For a quadratic curve
//! B″ = 2·(p₀ − 2·p₁ + p₂); for a cubic one |B″| ≤ 6·max(|p₀ − 2·p₁ + p₂|, |p₁ − 2·p₂ + p₃|).

use super::path::{InkPath, PathStep};
use super::{MOST_POINTS, VectorError};
use crate::model::math;
use alloc::vec::Vec;

/// Points, and where each part of the path ends among them.
#[derive(Debug, Default)]
pub(super) struct Parts {
    points: Vec<[f64; 2]>,
    ends: Vec<Part>,
}

#[derive(Debug, Clone, Copy)]
struct Part {
    end: usize,
    closed: bool,
}

impl Parts {
    pub(super) fn push(&mut self, point: [f64; 2]) -> Result<(), VectorError> {
        if self.points.len() >= MOST_POINTS {
            return Err(VectorError::TooManyPoints);
        }
        self.points.push(point);
        Ok(())
    }

    /// Ends a part, if it has a point.
    pub(super) fn end(&mut self, closed: bool) {
        let end = self.points.len();
        if end > self.ends.last().map_or(0, |part| part.end) {
            self.ends.push(Part { end, closed });
        }
    }

    /// The points of each part, and whether it is closed.
    pub(super) fn parts(&self) -> impl Iterator<Item = (&[[f64; 2]], bool)> {
        let starts = core::iter::once(0).chain(self.ends.iter().map(|part| part.end));
        starts
            .zip(&self.ends)
            .map(|(start, part)| (self.points.get(start..part.end).unwrap_or(&[]), part.closed))
    }

    /// Turns every point into another.
    pub(super) fn map(&mut self, new: impl Fn([f64; 2]) -> [f64; 2]) {
        for point in &mut self.points {
            *point = new(*point);
        }
    }
}

/// The path as chords within `tolerance` of it, both in metres.
pub(super) fn flattened(path: &InkPath, tolerance: f64) -> Result<Parts, VectorError> {
    let mut out = Parts::default();
    let mut start = None;
    let mut at = [0.0; 2];
    let mut drawn = false;
    for step in path.steps() {
        let step = step.checked()?;
        if let PathStep::Move { to } = step {
            out.end(false);
            out.push(to)?;
            (start, at) = (Some(to), to);
            continue;
        }
        let Some(begun) = start else {
            return Err(VectorError::NoStart);
        };
        drawn = true;
        match step {
            PathStep::Close => {
                out.end(true);
                // What follows without a move begins where this part began.
                out.push(begun)?;
                at = begun;
            }
            PathStep::Line { to } => {
                out.push(to)?;
                at = to;
            }
            PathStep::Quad { control, to } => {
                let bend = 2.0 * second_difference(at, control, to);
                for t in steps(bend, tolerance) {
                    let s = 1.0 - t;
                    let weigh =
                        |i: usize| s * s * axis(at, i) + 2.0 * s * t * axis(control, i) + t * t * axis(to, i);
                    out.push([weigh(0), weigh(1)])?;
                }
                out.push(to)?;
                at = to;
            }
            PathStep::Cubic { first, second, to } => {
                let bend =
                    6.0 * second_difference(at, first, second).max(second_difference(first, second, to));
                for t in steps(bend, tolerance) {
                    let s = 1.0 - t;
                    let weigh = |i: usize| {
                        s * s * s * axis(at, i)
                            + 3.0 * s * s * t * axis(first, i)
                            + 3.0 * s * t * t * axis(second, i)
                            + t * t * t * axis(to, i)
                    };
                    out.push([weigh(0), weigh(1)])?;
                }
                out.push(to)?;
                at = to;
            }
            PathStep::Move { .. } => {}
        }
    }
    out.end(false);
    if drawn { Ok(out) } else { Err(VectorError::NothingToDraw) }
}

fn axis([x, y]: [f64; 2], i: usize) -> f64 {
    if i == 0 { x } else { y }
}

fn second_difference([x0, y0]: [f64; 2], [x1, y1]: [f64; 2], [x2, y2]: [f64; 2]) -> f64 {
    let (x, y) = (x0 - 2.0 * x1 + x2, y0 - 2.0 * y1 + y2);
    math::sqrt(x * x + y * y)
}

/// The steps of t between the ends of a curve with this greatest |B″|.
fn steps(bend: f64, tolerance: f64) -> impl Iterator<Item = f64> {
    // n = √(|B″|/(8·tolerance)); more than the limit of points ends in its error.
    let count = math::sqrt(bend / (8.0 * tolerance)).min(MOST_POINTS as f64) as usize + 1;
    (1..count).map(move |i| i as f64 / count as f64)
}
