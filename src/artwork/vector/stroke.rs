//! A stroke along a path, as the outline of what it covers.
//!
//! Both sides of each part are followed in turn, always with the ink to the same hand, so that the outline winds
//! around all that the stroke covers in one sense and the non-zero rule fills it.

use super::flatten::Parts;
use super::{VectorError, flatten};
use crate::artwork::vector::path::InkPath;
use crate::error::{Param, check};
use crate::model::math;
use alloc::vec::Vec;
use core::f64::consts::PI;

/// How the ends of an open part look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StrokeCap {
    /// Cut off straight at the end.
    Butt,
    /// A half circle about the end.
    Round,
    /// Half a square beyond the end.
    Square,
}

/// How the outside of a corner looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StrokeJoin {
    /// The edges go on until they meet; bevelled where that is farther from the corner than `limit` half widths.
    Miter {
        /// From 1 to 1000; √2 keeps right angles.
        limit: f64,
    },
    /// An arc about the corner.
    Round,
    /// Cut off straight.
    Bevel,
}

/// A stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Full width in metres, half of it to either side.
    pub width: f64,
    /// Its ends. A part of no length has a round or square dot, or with a butt cap nothing.
    pub cap: StrokeCap,
    /// Its corners.
    pub join: StrokeJoin,
}

impl Stroke {
    /// A stroke of this full width in metres, with butt caps, and mitres up to four half widths.
    #[must_use]
    pub const fn new(width: f64) -> Self {
        Self { width, cap: StrokeCap::Butt, join: StrokeJoin::Miter { limit: 4.0 } }
    }

    pub(super) fn checked(self) -> Result<Self, VectorError> {
        check(Param::DrawnWidth, self.width)?;
        match self.join {
            StrokeJoin::Miter { limit: value } if !(1.0..=1000.0).contains(&value) => {
                Err(VectorError::MiterLimit { value })
            }
            _ => Ok(self),
        }
    }
}

/// The outline of a stroke along a path, within `tolerance` of it, all in metres.
pub(super) fn outlined(path: &InkPath, stroke: &Stroke, tolerance: f64) -> Result<Parts, VectorError> {
    let parts = flatten::flattened(path, tolerance)?;
    let mut pen = Pen { half: 0.5 * stroke.width, stroke, tolerance, out: Parts::default() };
    let mut line: Vec<[f64; 2]> = Vec::new();
    for (points, closed) in parts.parts() {
        line.clear();
        for &point in points {
            if line.last() != Some(&point) {
                line.push(point);
            }
        }
        if closed && line.len() > 1 && line.first() == line.last() {
            line.pop();
        }
        if points.len() == 1 && !closed {
            continue; // A move to nowhere, or what stands behind a close.
        }
        match line.as_slice() {
            [point] => pen.dot(*point)?,
            _ if closed => {
                pen.side(&line, true)?;
                pen.out.end(true);
                line.reverse();
                pen.side(&line, true)?;
            }
            _ => {
                pen.side(&line, false)?;
                line.reverse();
                pen.side(&line, false)?;
            }
        }
        pen.out.end(true);
    }
    Ok(pen.out)
}

struct Pen<'s> {
    half: f64,
    stroke: &'s Stroke,
    tolerance: f64,
    out: Parts,
}

impl Pen<'_> {
    /// Follows one side of a line; of an open one, its far end too.
    fn side(&mut self, line: &[[f64; 2]], closed: bool) -> Result<(), VectorError> {
        let first = line.first().copied().unwrap_or_default();
        let next = line.iter().skip(1).copied().chain(closed.then_some(first));
        let mut before: Option<Edge> = None;
        let mut opening = None;
        for (&from, to) in line.iter().zip(next) {
            let edge = Edge::new(from, to);
            match before {
                Some(before) => self.corner(from, before, edge)?,
                None if closed => opening = Some(edge),
                None => self.at(from, edge.normal, self.half)?,
            }
            before = Some(edge);
        }
        match (before, opening) {
            (Some(before), Some(opening)) => self.corner(first, before, opening),
            (Some(before), None) => {
                let end = line.last().copied().unwrap_or_default();
                self.at(end, before.normal, self.half)?;
                self.cap(end, before.normal)
            }
            (None, _) => Ok(()),
        }
    }

    /// A point so far from another along a direction.
    fn at(&mut self, [x, y]: [f64; 2], [nx, ny]: [f64; 2], distance: f64) -> Result<(), VectorError> {
        self.out.push([x + distance * nx, y + distance * ny])
    }

    /// The end of one edge, the beginning of the next, and what joins them at the corner between them.
    fn corner(&mut self, pivot: [f64; 2], before: Edge, after: Edge) -> Result<(), VectorError> {
        let [bx, by] = before.normal;
        let [ax, ay] = after.normal;
        let cross = bx * ay - by * ax;
        let dot = bx * ax + by * ay;
        // Where the edges meet: the sum of the normals over 1 + cos, √(2/(1 + cos)) half widths from the corner.
        let (meeting, meeting_at) = ([bx + ax, by + ay], self.half / (1.0 + dot));
        if dot > 0.0 && self.half * math::fabs(cross) < self.tolerance {
            // A smooth curve.
            return self.at(pivot, meeting, meeting_at);
        }
        if cross > 0.0 && meeting_at * cross <= 0.5 * before.length.min(after.length) {
            // The inside of the corner: each edge ends where it meets the other.
            return self.at(pivot, meeting, meeting_at);
        }
        self.at(pivot, before.normal, self.half)?;
        if cross > 0.0 {
            // Edges too short to meet: a way over the corner keeps the ink between them.
            self.out.push(pivot)?;
        } else {
            match self.stroke.join {
                StrokeJoin::Bevel => {}
                StrokeJoin::Round => self.arc(pivot, before.normal, turn(cross, dot))?,
                StrokeJoin::Miter { limit } => {
                    if 2.0 <= limit * limit * (1.0 + dot) && dot > -1.0 {
                        self.at(pivot, meeting, meeting_at)?;
                    }
                }
            }
        }
        self.at(pivot, after.normal, self.half)
    }

    /// The end of an open line; its side lies along the normal, which turned back a quarter is the way out.
    fn cap(&mut self, end: [f64; 2], normal: [f64; 2]) -> Result<(), VectorError> {
        let [nx, ny] = normal;
        match self.stroke.cap {
            StrokeCap::Butt => Ok(()),
            StrokeCap::Round => self.arc(end, normal, PI),
            StrokeCap::Square => {
                self.at(end, [nx + ny, ny - nx], self.half)?;
                self.at(end, [ny - nx, -nx - ny], self.half)
            }
        }
    }

    /// A part of no length.
    fn dot(&mut self, at: [f64; 2]) -> Result<(), VectorError> {
        match self.stroke.cap {
            StrokeCap::Butt => Ok(()),
            StrokeCap::Round => {
                for end in [[1.0, 0.0], [-1.0, 0.0]] {
                    self.at(at, end, self.half)?;
                    self.arc(at, end, PI)?;
                }
                Ok(())
            }
            StrokeCap::Square => {
                for corner in [[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]] {
                    self.at(at, corner, self.half)?;
                }
                Ok(())
            }
        }
    }

    /// The inner points of an arc that turns back from a direction by an angle, in chords within the tolerance.
    fn arc(&mut self, centre: [f64; 2], [nx, ny]: [f64; 2], angle: f64) -> Result<(), VectorError> {
        // A chord of the angle a lies within half·a²/8 of its arc.
        let widest = math::sqrt(8.0 * self.tolerance / self.half);
        let count = (angle / widest).min(super::MOST_POINTS as f64) as usize + 1;
        for i in 1..count {
            let (sin, cos) = math::sincos(angle * (i as f64 / count as f64));
            self.at(centre, [nx * cos + ny * sin, ny * cos - nx * sin], self.half)?;
        }
        Ok(())
    }
}

/// A straight piece of a line.
#[derive(Debug, Clone, Copy)]
struct Edge {
    /// Its direction, turned by a quarter.
    normal: [f64; 2],
    length: f64,
}

impl Edge {
    fn new([x0, y0]: [f64; 2], [x1, y1]: [f64; 2]) -> Self {
        let (x, y) = (x1 - x0, y1 - y0);
        let length = math::sqrt(x * x + y * y);
        Self { normal: if length > 0.0 { [-y / length, x / length] } else { [0.0, 1.0] }, length }
    }
}

/// The angle between two directions, 0 to π, from the sine and cosine of it.
fn turn(cross: f64, dot: f64) -> f64 {
    if 1.0 + dot > 0.0 { 2.0 * math::atan(math::fabs(cross) / (1.0 + dot)) } else { PI }
}
