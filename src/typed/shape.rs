//! Shapes of a surface.

use super::offset::Offset;
use super::{angle, length};
use crate::error::Error;
use crate::model::surface::{self, Bulge};
use uom::si::f64::{Angle, Length};

/// A place across the table, −1 to 1 km each way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TablePlace {
    /// Along x.
    pub x: Length,
    /// Along y.
    pub y: Length,
}

impl TablePlace {
    pub(super) fn from_metres(x: f64, y: f64) -> Self {
        Self { x: length(x), y: length(y) }
    }
}

/// The part of the table that is marked: 1 nm to 2 km wide, −1 to 1 km each way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Region {
    /// Its end of least x.
    pub x_least: Length,
    /// Its end of greatest x.
    pub x_greatest: Length,
    /// Its end of least y.
    pub y_least: Length,
    /// Its end of greatest y.
    pub y_greatest: Length,
}

impl Region {
    pub(crate) fn as_model(&self) -> surface::Region {
        surface::Region {
            x_least: self.x_least.value,
            x_greatest: self.x_greatest.value,
            y_least: self.y_least.value,
            y_greatest: self.y_greatest.value,
        }
    }
}

/// How a surface leans: how far it drops **away from the lens** on each length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceSlope {
    /// On each length in x; −2 to 2 where it is given.
    pub away_from_lens_along_x: f64,
    /// On each length in y.
    pub away_from_lens_along_y: f64,
}

impl SurfaceSlope {
    /// Not leaning.
    pub const LEVEL: Self = Self { away_from_lens_along_x: 0.0, away_from_lens_along_y: 0.0 };
}

/// Size of something round, by the measure that was taken: 1 µm to 1e9 m of radius.
///
/// ```compile_fail,E0308
/// use spotwise::{RoundSize, units::mm};
/// let bar: RoundSize = mm(30.0); // across, or from the middle?
/// ```
///
/// ```
/// use spotwise::{RoundSize, units::mm};
/// let bar = RoundSize::Diameter(mm(30.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RoundSize {
    /// Its radius.
    Radius(Length),
    /// Its diameter.
    Diameter(Length),
}

impl RoundSize {
    pub(super) fn radius(self) -> f64 {
        match self {
            Self::Radius(radius) => radius.value,
            Self::Diameter(diameter) => diameter.value / 2.0,
        }
    }
}

/// A cylinder or sphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundShape {
    /// Its radius or diameter.
    pub size: RoundSize,
    /// Which way it bulges.
    pub bulge: Bulge,
    /// Its crown, of a cylinder a place on its crown line; there the surface is at its datum.
    pub crown: TablePlace,
    /// A slope that is added to it; the crown stays at the datum.
    pub lean: SurfaceSlope,
}

/// Level strips across x, in plain metres, endless in y.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps<'a> {
    /// Edges in x, ascending by at least 1e-9 m; one more than there are strips.
    pub edges_m: &'a [f64],
    /// Height of each strip, + away from the lens.
    pub heights_away_from_lens_m: &'a [f64],
}

/// Heights that a probe found on a grid, in plain metres, bilinear between its places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProbedGrid<'a> {
    /// Places of the columns in x, two or more, ascending by at least 1e-9 m; the spacing may vary.
    pub columns_m: &'a [f64],
    /// Places of the rows in y, likewise.
    pub rows_m: &'a [f64],
    /// Heights, row after row, + away from the lens; NaN where the probe found nothing.
    pub heights_away_from_lens_m: &'a [f64],
}

/// Turns heights that count + **toward** the lens, as many gauges give them, into such as count away from it, in
/// place.
///
/// # Example
/// ```
/// use spotwise::heights_from_toward_lens;
/// let mut gauge = [0.2e-3, -0.1e-3];
/// assert_eq!(heights_from_toward_lens(&mut gauge), [-0.2e-3, 0.1e-3]);
/// ```
pub fn heights_from_toward_lens(heights_m: &mut [f64]) -> &[f64] {
    for height in heights_m.iter_mut() {
        *height = 0.0 - *height;
    }
    heights_m
}

/// Shape of a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Surface<'a> {
    /// A flat surface, level or tilted, at its datum where x and y are zero.
    Plane(SurfaceSlope),
    /// A lying cylinder.
    Cylinder {
        /// Its size, crown and lean.
        part: RoundShape,
        /// Angle of its axis from the x axis toward + y, −10 to 10 rad.
        axis_angle: Angle,
    },
    /// A sphere, dome or bowl.
    Sphere(RoundShape),
    /// Level strips.
    Steps(Steps<'a>),
    /// Probed heights.
    Grid(ProbedGrid<'a>),
}

/// A surface at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfacePlace {
    /// Height, relative to the datum of the surface.
    pub height: Offset,
    /// How it leans there.
    pub slope: SurfaceSlope,
    /// Angle between the normal of the surface and the beam axis.
    pub incidence: Angle,
    /// Length of the spot along the slope over its diameter.
    pub stretch: f64,
    /// Irradiance for each area of the surface over that on a level one.
    pub irradiance_factor: f64,
}

/// A height and where it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceHeight {
    /// Relative to the datum of the surface.
    pub height: Offset,
    /// Where it is.
    pub at: TablePlace,
}

/// Extremes of a surface over a region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceExtremes {
    /// The place nearest the lens.
    pub highest: SurfaceHeight,
    /// The place farthest from the lens.
    pub lowest: SurfaceHeight,
    /// From the highest place to the lowest.
    pub range: Length,
    /// The steepest incidence angle.
    pub steepest_incidence: Angle,
    /// Where that is.
    pub steepest_at: TablePlace,
    /// How many probes that bear on the region found nothing.
    pub missing_probes: u32,
    /// Share of the region about which nothing is known: cells that lack a probe, and what lies beside.
    pub unknown_share: f64,
}

impl<'a> Surface<'a> {
    pub(crate) fn as_model(&self) -> surface::Surface<'a> {
        match *self {
            Self::Plane(slope) => surface::Surface::Plane {
                slope_x: slope.away_from_lens_along_x,
                slope_y: slope.away_from_lens_along_y,
            },
            Self::Cylinder { part: RoundShape { size, bulge, crown, lean }, axis_angle } => {
                surface::Surface::Cylinder {
                    radius: size.radius(),
                    bulge,
                    crown_x: crown.x.value,
                    crown_y: crown.y.value,
                    axis_angle: axis_angle.value,
                    slope_x: lean.away_from_lens_along_x,
                    slope_y: lean.away_from_lens_along_y,
                }
            }
            Self::Sphere(RoundShape { size, bulge, crown, lean }) => surface::Surface::Sphere {
                radius: size.radius(),
                bulge,
                crown_x: crown.x.value,
                crown_y: crown.y.value,
                slope_x: lean.away_from_lens_along_x,
                slope_y: lean.away_from_lens_along_y,
            },
            Self::Steps(steps) => {
                surface::Surface::Steps { edges: steps.edges_m, z: steps.heights_away_from_lens_m }
            }
            Self::Grid(grid) => {
                surface::Surface::Grid { x: grid.columns_m, y: grid.rows_m, z: grid.heights_away_from_lens_m }
            }
        }
    }

    /// Height, slope and incidence angle at one place. As
    /// [`model::surface::surface_at`](crate::model::surface::surface_at).
    ///
    /// # Errors
    /// As there: [`Error::OutsideModel`] beside a cylinder or sphere, [`Error::Undetermined`] where a probe is
    /// missing.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, rad};
    /// use spotwise::{Bulge, RoundShape, RoundSize, Surface, SurfaceSlope, TablePlace};
    /// // 9 mm beside the crown of a bar of 30 mm: a triangle of 9, 12 and 15 mm.
    /// let bar = RoundShape {
    ///     size: RoundSize::Diameter(mm(30.0)),
    ///     bulge: Bulge::TowardLens,
    ///     crown: TablePlace { x: mm(0.0), y: mm(0.0) },
    ///     lean: SurfaceSlope::LEVEL,
    /// };
    /// let bar = Surface::Cylinder { part: bar, axis_angle: rad(0.0) };
    /// let place = bar.at(TablePlace { x: mm(50.0), y: mm(9.0) })?;
    /// assert_eq!((place.height.z_away_from_lens().value * 1e9).round(), 3e6); // 15 mm − 12 mm
    /// assert_eq!((place.irradiance_factor * 1e9).round(), 8e8); // 12/15
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "sagitta")]
    #[doc(alias = "angle of incidence")]
    pub fn at(&self, place: TablePlace) -> Result<SurfacePlace, Error> {
        let found = surface::surface_at(&self.as_model(), place.x.value, place.y.value)?;
        Ok(SurfacePlace {
            height: Offset::from_metres(found.z),
            slope: SurfaceSlope {
                away_from_lens_along_x: found.slope_x,
                away_from_lens_along_y: found.slope_y,
            },
            incidence: angle(found.incidence),
            stretch: found.stretch,
            irradiance_factor: found.irradiance_factor,
        })
    }

    /// Highest, lowest and steepest place within a region. As
    /// [`model::surface::surface_extremes`](crate::model::surface::surface_extremes).
    ///
    /// # Errors
    /// As there.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::mm;
    /// use spotwise::{ProbedGrid, Region, Surface};
    /// let plate = Surface::Grid(ProbedGrid {
    ///     columns_m: &[0.0, 0.02, 0.05],
    ///     rows_m: &[0.0, 0.01],
    ///     heights_away_from_lens_m: &[0.1e-3, 0.3e-3, -0.2e-3, 0.5e-3, 0.7e-3, f64::NAN],
    /// });
    /// let whole = Region { x_least: mm(0.0), x_greatest: mm(50.0), y_least: mm(0.0), y_greatest: mm(10.0) };
    /// let extremes = plate.extremes(whole)?;
    /// // The last cell lacks a probe, and with it 30 mm of 50 are unknown.
    /// assert_eq!((extremes.range.value * 1e9).round(), 600_000.0);
    /// assert_eq!((extremes.missing_probes, (extremes.unknown_share * 1e9).round()), (1, 6e8));
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn extremes(&self, region: Region) -> Result<SurfaceExtremes, Error> {
        let found = surface::surface_extremes(&self.as_model(), &region.as_model())?;
        Ok(SurfaceExtremes::from_model(&found))
    }
}

impl SurfaceHeight {
    pub(super) fn from_metres(z: f64, x: f64, y: f64) -> Self {
        Self { height: Offset::from_metres(z), at: TablePlace::from_metres(x, y) }
    }
}

impl SurfaceExtremes {
    pub(super) fn from_model(found: &surface::SurfaceExtremes) -> Self {
        Self {
            highest: SurfaceHeight::from_metres(found.highest_z, found.highest_x, found.highest_y),
            lowest: SurfaceHeight::from_metres(found.lowest_z, found.lowest_x, found.lowest_y),
            range: length(found.range),
            steepest_incidence: angle(found.steepest_incidence),
            steepest_at: TablePlace::from_metres(found.steepest_x, found.steepest_y),
            missing_probes: found.missing_probes,
            unknown_share: found.unknown_share,
        }
    }
}
