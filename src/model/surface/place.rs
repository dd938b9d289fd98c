//! Height, slope and incidence angle at one place of a surface.
//!
//! | symbol   | meaning                                            | unit |
//! |----------|----------------------------------------------------|------|
//! | z        | height, + away from the lens                       | m    |
//! | p, q     | slopes dz/dx and dz/dy                             | 1    |
//! | φ        | incidence angle, between normal and beam axis      | rad  |
//!
//! tan φ = √(p² + q²)
//! stretch of the spot along the slope = 1/cos φ = √(1 + p² + q²)
//! irradiance factor = cos φ: the same power on a larger area
//!
//! The formulas of each shape stand in the sources beside this one. On the slope the spot is a footprint as
//! in [`focus::tilt`](crate::model::focus::tilt), which has more of it.
//! Not modelled: the change of absorption with the angle, walls of steps, and shadows.

use super::shape::{CheckedSurface, Surface};
use super::smooth::Facet;
use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::twofold::Twofold;

/// A surface at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfacePlace {
    /// Height in metres, + away from the lens.
    pub z: f64,
    /// How far the surface drops away from the lens on each length in x.
    pub slope_x: f64,
    /// Likewise in y.
    pub slope_y: f64,
    /// Angle in radians between the normal of the surface and the beam axis.
    pub incidence: f64,
    /// Length of the spot along the slope over its diameter.
    pub stretch: f64,
    /// Irradiance for each area of the surface over that on a level one.
    pub irradiance_factor: f64,
}

/// Height, slope and incidence angle of a surface at `x` and `y` metres.
///
/// On a place of a grid between cells, the height is that of all of them, the slope that of the cell of
/// greater x and y; where that lacks a probe, of the cell of greater x and lesser y, then of that of lesser x
/// and greater y, then of the last. Each step counts from its first edge; the last one also at its end.
///
/// Formulas in the [module](self). All numbers of the surface are checked in every call, also those elsewhere.
///
/// Accuracy: at most 0.75 ulp, 1.5 ulp of the incidence angle (`tests/vectors/surface_at.csv`); on a turned
/// cylinder besides what the rounded sine and cosine of its angle make, a rounding of the reach along it.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the surface, then for `x`, then for `y`;
/// outside steps or a grid the range is theirs. [`Error::LengthMismatch`] where the heights are not as many as
/// there are strips, or columns times rows. [`Error::OutsideModel`] for a place beside a cylinder or sphere,
/// [`Param::DistanceFromCrown`] having to be less than its radius. [`Error::Undetermined`] naming
/// [`Param::KnownProbes`] where the cell of a grid lacks a probe, or all of the grid does.
///
/// # Example
/// ```
/// use spotwise::model::surface::{surface_at, Bulge, Surface};
/// // A bar of 30 mm diameter along x, 9 mm off its crown line: a triangle of 9, 12 and 15 mm.
/// let bar = Surface::Cylinder {
///     radius: 15e-3,
///     bulge: Bulge::TowardLens,
///     crown_x: 0.0,
///     crown_y: 0.0,
///     axis_angle: 0.0,
///     slope_x: 0.0,
///     slope_y: 0.0,
/// };
/// let place = surface_at(&bar, 50e-3, 9e-3)?;
/// assert_eq!((place.z * 1e9).round(), 3e6); // 15 mm − 12 mm
/// assert_eq!((place.slope_y * 1e9).round(), 75e7); // 9/12
/// assert_eq!((place.irradiance_factor * 1e9).round(), 8e8); // 12/15
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "sagitta")]
#[doc(alias = "angle of incidence")]
pub fn surface_at(surface: &Surface<'_>, x: f64, y: f64) -> Result<SurfacePlace, Error> {
    let surface = surface.checked()?;
    let x = check(Param::PlaceX, x)?;
    let y = check(Param::PlaceY, y)?;
    let facet = surface.facet(x, y)?;
    let stretch = facet.stretch();
    Ok(SurfacePlace {
        z: facet.z.to_f64(),
        slope_x: facet.slope_x.to_f64(),
        slope_y: facet.slope_y.to_f64(),
        incidence: facet.incidence(),
        stretch: stretch.to_f64(),
        irradiance_factor: (Twofold::ONE / stretch).to_f64(),
    })
}

impl Facet {
    /// The square of the slope's length.
    pub(crate) fn steepness(&self) -> Twofold {
        self.slope_x.squared() + self.slope_y.squared()
    }

    /// 1/cos φ: length of the spot along the slope over its diameter.
    pub(crate) fn stretch(&self) -> Twofold {
        (Twofold::ONE + self.steepness()).square_root()
    }

    /// The incidence angle.
    pub(crate) fn incidence(&self) -> f64 {
        let [p, q] = [self.slope_x, self.slope_y].map(Twofold::magnitude);
        let (greater, lesser) = if (p - q).is_negative() { (q, p) } else { (p, q) };
        if greater.to_f64() == 0.0 {
            return 0.0;
        }
        // The square of a slight slope would vanish; that of a ratio may.
        let length = greater * (Twofold::ONE + (lesser / greater).squared()).square_root();
        math::atan(length.to_f64())
    }
}

impl CheckedSurface<'_> {
    /// Height and slopes at a place whose coordinates are checked.
    pub(crate) fn facet(&self, x: f64, y: f64) -> Result<Facet, Error> {
        match self {
            Self::Smooth(smooth) => smooth.at(x, y),
            Self::Steps(steps) => steps.at(x),
            Self::Grid(grid) => Ok(grid.cell_at(x, y)?.at(x, y)),
        }
    }
}
