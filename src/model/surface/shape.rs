//! Shapes of a surface.

use super::grid::{Grid, Steps};
use super::region::Region;
use super::smooth::{Curve, Smooth};
use crate::error::{Error, Param, check};

/// Which way a cylinder or sphere bulges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Bulge {
    /// Toward the lens: a bar or a dome. Its crown is the place nearest the lens. Code 1.
    TowardLens,
    /// Away from the lens: a trough or a bowl. Its crown is the place farthest from the lens. Code 2.
    AwayFromLens,
}

impl Bulge {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(self) -> u32 {
        match self {
            Self::TowardLens => 1,
            Self::AwayFromLens => 2,
        }
    }

    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub const fn from_code(code: u32) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::TowardLens),
            2 => Ok(Self::AwayFromLens),
            value => Err(Error::UnknownChoice { param: Param::Bulge, value }),
        }
    }
}

/// Shape of a surface: heights z in metres, + away from the lens, over x and y in metres.
///
/// A cylinder or sphere may lean: its slopes are **added** to it, so that its crown stays at z = 0. That is no rotation,
/// but as good as one while slight: the sag of a cylinder that is tilted along its axis is larger by 1/cos of the tilt,
/// by 0.5 % at 6° and 12 % at 27°. A sphere
/// that is turned as a whole is the same sphere with its crown elsewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Surface<'a> {
    /// A flat surface, level or tilted: z = `slope_x`·x + `slope_y`·y. Code 1.
    Plane {
        /// How far it drops away from the lens on each length in x, −2 to 2; 0 is level.
        slope_x: f64,
        /// Likewise in y.
        slope_y: f64,
    },
    /// A lying cylinder, seen from the side to which it is marked. Code 2.
    Cylinder {
        /// Its **radius**, 1e-6 to 1e9 m.
        radius: f64,
        /// Which way it bulges.
        bulge: Bulge,
        /// A place on its crown line, at z = 0.
        crown_x: f64,
        /// That place in y.
        crown_y: f64,
        /// Angle of its axis from the x axis toward + y, in radians, −10 to 10.
        axis_angle: f64,
        /// How far it leans in x, −2 to 2.
        slope_x: f64,
        /// How far it leans in y, −2 to 2.
        slope_y: f64,
    },
    /// A sphere, dome or bowl. Code 3.
    Sphere {
        /// Its **radius**, 1e-6 to 1e9 m.
        radius: f64,
        /// Which way it bulges.
        bulge: Bulge,
        /// Where its crown is, at z = 0.
        crown_x: f64,
        /// The crown in y.
        crown_y: f64,
        /// How far it leans in x, −2 to 2.
        slope_x: f64,
        /// How far it leans in y, −2 to 2.
        slope_y: f64,
    },
    /// Level strips across x, each from one edge to the next, endless in y. Code 4.
    Steps {
        /// The edges in x, ascending by at least 1e-9 m; one more than there are strips.
        edges: &'a [f64],
        /// The height of each strip.
        z: &'a [f64],
    },
    /// Heights that a probe found on a grid, bilinear between its places. Code 5.
    Grid {
        /// Places of the columns in x, two or more, ascending by at least 1e-9 m; the spacing may vary.
        x: &'a [f64],
        /// Places of the rows in y, likewise.
        y: &'a [f64],
        /// Heights, row after row: the first of each column for the first y, and so on. NaN where the probe
        /// found nothing.
        z: &'a [f64],
    },
}

/// The numbers of every shape side by side, as plain faces give them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceNumbers<'a> {
    /// Slope in x of a plane, cylinder or sphere.
    pub slope_x: f64,
    /// Slope in y.
    pub slope_y: f64,
    /// **Radius** of a cylinder or sphere.
    pub radius: f64,
    /// Code of its [`Bulge`].
    pub bulge: u32,
    /// Its crown in x.
    pub crown_x: f64,
    /// Its crown in y.
    pub crown_y: f64,
    /// Angle of a cylinder's axis.
    pub axis_angle: f64,
    /// Edges of steps, or columns of a grid.
    pub x: &'a [f64],
    /// Rows of a grid.
    pub y: &'a [f64],
    /// Heights of steps, or of a grid.
    pub z: &'a [f64],
}

impl<'a> Surface<'a> {
    /// Permanent number of this shape, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Plane { .. } => 1,
            Self::Cylinder { .. } => 2,
            Self::Sphere { .. } => 3,
            Self::Steps { .. } => 4,
            Self::Grid { .. } => 5,
        }
    }

    /// The shape with this permanent code, ignoring the numbers that it does not have.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code, and for an unknown bulge of a cylinder or sphere. The
    /// numbers are checked when they are used.
    pub const fn from_code(code: u32, numbers: &SurfaceNumbers<'a>) -> Result<Self, Error> {
        let SurfaceNumbers { slope_x, slope_y, radius, bulge, crown_x, crown_y, axis_angle, x, y, z } =
            *numbers;
        Ok(match code {
            1 => Self::Plane { slope_x, slope_y },
            2 | 3 => match (code, Bulge::from_code(bulge)) {
                (_, Err(error)) => return Err(error),
                (2, Ok(bulge)) => {
                    Self::Cylinder { radius, bulge, crown_x, crown_y, axis_angle, slope_x, slope_y }
                }
                (_, Ok(bulge)) => Self::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y },
            },
            4 => Self::Steps { edges: x, z },
            5 => Self::Grid { x, y, z },
            value => return Err(Error::UnknownChoice { param: Param::SurfaceShape, value }),
        })
    }

    /// The surface with all its numbers checked, in the order in which they are declared.
    pub(crate) fn checked(&self) -> Result<CheckedSurface<'a>, Error> {
        Ok(match *self {
            Self::Plane { slope_x, slope_y } => CheckedSurface::Smooth(Smooth {
                curve: Curve::Flat,
                crown_x: 0.0,
                crown_y: 0.0,
                slope_x: check(Param::SlopeX, slope_x)?,
                slope_y: check(Param::SlopeY, slope_y)?,
            }),
            Self::Cylinder { radius, bulge, crown_x, crown_y, axis_angle, slope_x, slope_y } => {
                CheckedSurface::Smooth(Smooth {
                    curve: Curve::cylinder(check(Param::CurvatureRadius, radius)?, bulge, {
                        check(Param::CrownX, crown_x)?;
                        check(Param::CrownY, crown_y)?;
                        check(Param::AxisAngle, axis_angle)?
                    }),
                    crown_x,
                    crown_y,
                    slope_x: check(Param::SlopeX, slope_x)?,
                    slope_y: check(Param::SlopeY, slope_y)?,
                })
            }
            Self::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y } => {
                CheckedSurface::Smooth(Smooth {
                    curve: Curve::Sphere { radius: check(Param::CurvatureRadius, radius)?, bulge },
                    crown_x: check(Param::CrownX, crown_x)?,
                    crown_y: check(Param::CrownY, crown_y)?,
                    slope_x: check(Param::SlopeX, slope_x)?,
                    slope_y: check(Param::SlopeY, slope_y)?,
                })
            }
            Self::Steps { edges, z } => CheckedSurface::Steps(Steps::checked(edges, z)?),
            Self::Grid { x, y, z } => CheckedSurface::Grid(Grid::checked(x, y, z)?),
        })
    }
}

/// A surface whose numbers are checked.
#[derive(Debug, Clone, Copy)]
pub(crate) enum CheckedSurface<'a> {
    Smooth(Smooth),
    Steps(Steps<'a>),
    Grid(Grid<'a>),
}

impl CheckedSurface<'_> {
    /// Shows the highest and the lowest place of every stretch of heights that the surface has within a region: all its
    /// heights lie in one, and every height of a stretch is one of its own. `ends` are those of the whole surface.
    pub(crate) fn for_each_stretch(&self, region: Region, ends: (f64, f64), mut show: impl FnMut(f64, f64)) {
        match self {
            // The region is in one piece, and so are the heights over it.
            Self::Smooth(_) => show(ends.0, ends.1),
            Self::Steps(steps) => steps.patches(region).for_each(|patch| {
                let (highest, lowest) = patch.ends();
                show(highest, lowest);
            }),
            Self::Grid(grid) => {
                for patch in grid.patches(region).filter(|patch| patch.cell.is_complete()) {
                    let (highest, lowest) = patch.ends();
                    show(highest, lowest);
                }
            }
        }
    }
}
