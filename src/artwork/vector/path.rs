//! A path: steps in metres.

use super::VectorError;
use crate::error::{Error, Param, check};
use alloc::vec::Vec;

/// One step of a path, from where the last one ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PathStep {
    /// Begins a new part of the path.
    Move {
        /// Where it begins.
        to: [f64; 2],
    },
    /// A straight line.
    Line {
        /// Its end.
        to: [f64; 2],
    },
    /// A quadratic Bézier curve.
    Quad {
        /// Its control point.
        control: [f64; 2],
        /// Its end.
        to: [f64; 2],
    },
    /// A cubic Bézier curve.
    Cubic {
        /// Its first control point.
        first: [f64; 2],
        /// Its second control point.
        second: [f64; 2],
        /// Its end.
        to: [f64; 2],
    },
    /// A straight line to where this part began, and a corner there. What follows begins there too.
    Close,
}

impl PathStep {
    /// The points of the step, in order.
    pub(super) fn points(self) -> ([[f64; 2]; 3], usize) {
        const NONE: [f64; 2] = [0.0; 2];
        match self {
            Self::Move { to } | Self::Line { to } => ([to, NONE, NONE], 1),
            Self::Quad { control, to } => ([control, to, NONE], 2),
            Self::Cubic { first, second, to } => ([first, second, to], 3),
            Self::Close => ([NONE; 3], 0),
        }
    }

    pub(super) fn checked(self) -> Result<Self, Error> {
        let (points, count) = self.points();
        for [x, y] in points.into_iter().take(count) {
            check(Param::DrawingX, x)?;
            check(Param::DrawingY, y)?;
        }
        Ok(self)
    }
}

/// The least box around points: x from `left_x` to `right_x`, y from `top_y` to `bottom_y`, which is the greater.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Least x in metres.
    pub left_x: f64,
    /// Least y in metres.
    pub top_y: f64,
    /// Greatest x in metres.
    pub right_x: f64,
    /// Greatest y in metres.
    pub bottom_y: f64,
}

impl Bounds {
    pub(super) fn around(points: impl Iterator<Item = [f64; 2]>) -> Option<Self> {
        points.fold(None, |bounds, [x, y]| {
            let b = bounds.unwrap_or(Bounds { left_x: x, top_y: y, right_x: x, bottom_y: y });
            Some(Bounds {
                left_x: b.left_x.min(x),
                top_y: b.top_y.min(y),
                right_x: b.right_x.max(x),
                bottom_y: b.bottom_y.max(y),
            })
        })
    }
}

/// A path in metres, x to the right and y downward as in a [`Drawing`](crate::artwork::Drawing).
///
/// The numbers are checked when the path is drawn: each from −1000 to 1000 m, none of them NaN.
///
/// # Example
/// ```
/// use spotwise::artwork::{FillRule, Frame, InkPath, Inking, Sheet};
/// // A ring, 2 mm and 1 mm in diameter, at 10 µm a pixel.
/// let mut ring = InkPath::new();
/// ring.circle([0.0, 0.0], 1e-3).circle([0.0, 0.0], 0.5e-3);
/// let mut sheet = Sheet::new(Frame::around(ring.bounds()?, 0.1e-3, 10e-6)?)?;
/// sheet.draw(&ring, Inking::Fill(FillRule::EvenOdd))?;
/// let pixels: f64 = sheet.samples().iter().map(|&s| f64::from(s) / 255.0).sum();
/// // π (1² − 0.5²) = 2.356 mm²
/// assert_eq!((pixels * 1e-4 * 1e2).round(), 236.0);
/// # Ok::<(), spotwise::artwork::VectorError>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq)]
pub struct InkPath {
    steps: Vec<PathStep>,
}

impl InkPath {
    /// An empty path.
    #[must_use]
    pub const fn new() -> Self {
        Self { steps: Vec::new() }
    }

    /// The steps.
    #[must_use]
    pub fn steps(&self) -> &[PathStep] {
        &self.steps
    }

    /// Adds a step.
    pub fn step(&mut self, step: PathStep) -> &mut Self {
        self.steps.push(step);
        self
    }

    /// Begins a new part.
    pub fn move_to(&mut self, to: [f64; 2]) -> &mut Self {
        self.step(PathStep::Move { to })
    }

    /// Adds a straight line.
    pub fn line_to(&mut self, to: [f64; 2]) -> &mut Self {
        self.step(PathStep::Line { to })
    }

    /// Adds a quadratic Bézier curve.
    pub fn quad_to(&mut self, control: [f64; 2], to: [f64; 2]) -> &mut Self {
        self.step(PathStep::Quad { control, to })
    }

    /// Adds a cubic Bézier curve.
    pub fn cubic_to(&mut self, first: [f64; 2], second: [f64; 2], to: [f64; 2]) -> &mut Self {
        self.step(PathStep::Cubic { first, second, to })
    }

    /// Closes the part.
    pub fn close(&mut self) -> &mut Self {
        self.step(PathStep::Close)
    }

    /// Adds all steps of another path.
    pub fn append(&mut self, other: &Self) -> &mut Self {
        self.steps.extend_from_slice(&other.steps);
        self
    }

    /// Adds a closed rectangle between two opposite corners.
    pub fn rectangle(&mut self, [x0, y0]: [f64; 2], [x1, y1]: [f64; 2]) -> &mut Self {
        self.move_to([x0, y0]).line_to([x1, y0]).line_to([x1, y1]).line_to([x0, y1]).close()
    }

    /// Adds a closed circle of this **radius**: four cubic curves, nowhere farther from it than 0.03 % of the radius.
    pub fn circle(&mut self, [x, y]: [f64; 2], radius: f64) -> &mut Self {
        let r = radius;
        // 4/3·(√2 − 1): the middle of each curve lies on the circle.
        let k = r * (4.0 / 3.0) * (core::f64::consts::SQRT_2 - 1.0);
        self.move_to([x + r, y])
            .cubic_to([x + r, y + k], [x + k, y + r], [x, y + r])
            .cubic_to([x - k, y + r], [x - r, y + k], [x - r, y])
            .cubic_to([x - r, y - k], [x - k, y - r], [x, y - r])
            .cubic_to([x + k, y - r], [x + r, y - k], [x + r, y])
            .close()
    }

    /// The least box around all points of the path, those that control curves included: it holds the path's fill, not
    /// its stroke.
    ///
    /// # Errors
    /// [`VectorError::NothingToDraw`] without a point, [`VectorError::Refused`] for a number.
    pub fn bounds(&self) -> Result<Bounds, VectorError> {
        for step in &self.steps {
            step.checked()?;
        }
        let points = self.steps.iter().flat_map(|step| {
            let (points, count) = step.points();
            points.into_iter().take(count)
        });
        Bounds::around(points).ok_or(VectorError::NothingToDraw)
    }
}
