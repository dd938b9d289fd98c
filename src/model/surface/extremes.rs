//! How high a surface reaches within a region, how low, and where it is steepest.
//!
//! Every extreme is at one of a few places that are known in closed form, so nothing is searched for:
//! * a plane: corners of the region;
//! * a cylinder or sphere, which leaning leaves convex (seen from the lens) or concave: one extreme of the height
//!   is at a corner, the other where the slopes vanish, or on an edge where the slope along the edge does; the
//!   distance from the crown at which a slope s vanishes is R·s/√(1 + s²);
//! * steps and grids: corners of what the region has of each strip or cell.
//!
//! The slope is steepest at such a corner too. On a sphere that leans by s_x this holds while |s_x| ≤ 2: along an
//! edge at dx, with a = dx/√(R² − dx²) and τ the slope of the sag along the edge, the square of the slope is
//! (s_x + a·√(1 + τ²))² + (s_y + τ)², whose second derivative 2·(1 + a² + a·s_x·(1 + τ²)^(−3/2)) is not negative,
//! as |a·s_x| ≤ 2·|a| ≤ 1 + a². That is why no surface may lean by more.
//!
//! Of several places that are equally extreme the one of least y is told, and of these the one of least x.

use super::grid::Patch;
use super::region::Region;
use super::shape::{CheckedSurface, Surface};
use super::smooth::{Facet, HeightAt, Smooth};
use crate::error::{Error, Param};
use crate::model::math;
use crate::model::twofold::Twofold;

/// Extremes of a surface over a region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceExtremes {
    /// Height of the place nearest the lens in metres: the **least** z, as z counts + away from the lens.
    pub highest_z: f64,
    /// Where that is, in metres.
    pub highest_x: f64,
    /// That place in y.
    pub highest_y: f64,
    /// Height of the place farthest from the lens in metres: the **greatest** z.
    pub lowest_z: f64,
    /// Where that is, in metres.
    pub lowest_x: f64,
    /// That place in y.
    pub lowest_y: f64,
    /// From the highest place to the lowest in metres.
    pub range: f64,
    /// Steepest incidence angle in radians.
    pub steepest_incidence: f64,
    /// Where that is, in metres.
    pub steepest_x: f64,
    /// That place in y.
    pub steepest_y: f64,
    /// How many probes that bear on the region found nothing.
    pub missing_probes: u32,
    /// Share of the region's area about which nothing is known: cells that lack a probe, and what lies beside
    /// the steps or the grid.
    pub unknown_share: f64,
}

/// Highest, lowest and steepest place of a surface within a region.
///
/// Where part of the region is unknown, the extremes are those of the rest; `unknown_share` says how much is.
/// Of several places that are equally extreme the one of least y is told, of these the one of least x. Between
/// cells of a grid the steepest of them counts. Method in the [module](self).
///
/// Accuracy: at most 0.75 ulp, 1.5 ulp of the incidence angle (`tests/vectors/surface_extremes.csv`); on a turned
/// cylinder besides what the rounded sine and cosine of its angle make.
///
/// # Errors
/// As [`surface_at`](super::surface_at) for the surface; then [`Error::NotFinite`] or [`Error::OutOfRange`] for an
/// end of the region, then for a width of it of less than 1e-9 m; [`Error::OutsideModel`] where it reaches beside a
/// cylinder or sphere, [`Param::DistanceFromCrown`] having to be less than its radius; [`Error::Undetermined`]
/// naming [`Param::KnownParts`] where it meets no strip, or no cell that has all its probes.
///
/// # Example
/// ```
/// use spotwise::model::surface::{surface_extremes, Bulge, Region, Surface};
/// // A bar of 30 mm diameter along x, marked up to 9 mm on either side of its crown line.
/// let bar = Surface::Cylinder {
///     radius: 15e-3,
///     bulge: Bulge::TowardLens,
///     crown_x: 0.0,
///     crown_y: 0.0,
///     axis_angle: 0.0,
///     slope_x: 0.0,
///     slope_y: 0.0,
/// };
/// let region = Region { x_least: 0.0, x_greatest: 50e-3, y_least: -9e-3, y_greatest: 9e-3 };
/// let extremes = surface_extremes(&bar, &region)?;
/// assert_eq!((extremes.highest_z, extremes.highest_y), (0.0, 0.0));
/// assert_eq!((extremes.range * 1e9).round(), 3e6); // 15 mm − 12 mm
/// assert_eq!((extremes.steepest_incidence.sin() * 1e9).round(), 6e8); // 9/15
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn surface_extremes(surface: &Surface<'_>, region: &Region) -> Result<SurfaceExtremes, Error> {
    let surface = surface.checked()?;
    let region = region.checked()?;
    let (extremes, _) = checked_extremes(&surface, region)?;
    Ok(extremes)
}

/// As [`surface_extremes`], of a surface and a region that are checked; and the facet at the steepest place.
pub(crate) fn checked_extremes(
    surface: &CheckedSurface<'_>,
    region: Region,
) -> Result<(SurfaceExtremes, Facet), Error> {
    let mut found = Found::default();
    match surface {
        CheckedSurface::Smooth(smooth) => {
            smooth.holds(&region)?;
            found.look_at_smooth(smooth, &region)?;
        }
        CheckedSurface::Steps(steps) => {
            found.unknown_area = outside(&region, &steps.extent(&region));
            for patch in steps.patches(region) {
                found.look_at_patch(&patch);
            }
        }
        CheckedSurface::Grid(grid) => {
            found.unknown_area = outside(&region, &grid.extent());
            found.missing_probes = grid.missing(&region);
            for patch in grid.patches(region) {
                found.look_at_patch(&patch);
            }
        }
    }
    found.answer(&region)
}

/// Area of the part of a region that lies outside another.
fn outside(region: &Region, other: &Region) -> Twofold {
    let whole = area(region);
    match region.common(other) {
        None => whole,
        Some(common) => {
            let beside_x = Twofold::sum(common.x_least, -region.x_least)
                + Twofold::sum(region.x_greatest, -common.x_greatest);
            let beside_y = Twofold::sum(common.y_least, -region.y_least)
                + Twofold::sum(region.y_greatest, -common.y_greatest);
            let width_x = Twofold::sum(common.x_greatest, -common.x_least);
            beside_x * Twofold::sum(region.y_greatest, -region.y_least) + width_x * beside_y
        }
    }
}

fn area(region: &Region) -> Twofold {
    Twofold::sum(region.x_greatest, -region.x_least) * Twofold::sum(region.y_greatest, -region.y_least)
}

/// A number and where it is.
#[derive(Clone, Copy)]
struct Extreme {
    value: Twofold,
    x: f64,
    y: f64,
}

impl Extreme {
    /// Whether it is greater than the best so far, by the rule for equal ones.
    fn beats(&self, best: Option<Self>) -> bool {
        best.is_none_or(|best| {
            let gain = (self.value - best.value).to_f64();
            gain > 0.0 || (gain == 0.0 && (self.y < best.y || (self.y == best.y && self.x < best.x)))
        })
    }
}

/// What has been found so far.
struct Found {
    /// The least z, as the greatest −z.
    highest: Option<Extreme>,
    lowest: Option<Extreme>,
    /// The square of the slope's length, and all of the slope.
    steepest: Option<(Extreme, Facet)>,
    missing_probes: usize,
    unknown_area: Twofold,
}

impl Default for Found {
    fn default() -> Self {
        Self { highest: None, lowest: None, steepest: None, missing_probes: 0, unknown_area: Twofold::ZERO }
    }
}

impl Found {
    fn height(&mut self, at: HeightAt) {
        let HeightAt { z, x, y } = at;
        for (best, value) in [(&mut self.highest, -z), (&mut self.lowest, z)] {
            let new = Extreme { value, x, y };
            if new.beats(*best) {
                *best = Some(new);
            }
        }
    }

    /// A place where the surface may be highest, lowest or steepest.
    fn facet(&mut self, facet: Facet, x: f64, y: f64) {
        self.height(HeightAt { z: facet.z, x, y });
        let new = Extreme { value: facet.steepness(), x, y };
        if new.beats(self.steepest.map(|(steepest, _)| steepest)) {
            self.steepest = Some((new, facet));
        }
    }

    fn look_at_smooth(&mut self, smooth: &Smooth, region: &Region) -> Result<(), Error> {
        for (x, y) in region.corners() {
            self.facet(smooth.at(x, y)?, x, y);
        }
        for place in smooth.level_places(region).into_iter().flatten() {
            self.height(place);
        }
        Ok(())
    }

    fn look_at_patch(&mut self, patch: &Patch) {
        if !patch.cell.is_complete() {
            self.unknown_area = self.unknown_area + area(&patch.area);
            return;
        }
        for ((x, y), facet) in patch.area.corners().into_iter().zip(patch.corners()) {
            self.facet(facet, x, y);
        }
    }

    fn answer(&self, region: &Region) -> Result<(SurfaceExtremes, Facet), Error> {
        let (Some(highest), Some(lowest), Some((steepest, facet))) =
            (self.highest, self.lowest, self.steepest)
        else {
            let (least, greatest) = Param::KnownParts.range();
            return Err(Error::Undetermined { param: Param::KnownParts, value: 0.0, least, greatest });
        };
        let extremes = SurfaceExtremes {
            highest_z: (-highest.value).to_f64(),
            highest_x: highest.x,
            highest_y: highest.y,
            lowest_z: lowest.value.to_f64(),
            lowest_x: lowest.x,
            lowest_y: lowest.y,
            // The highest is kept as −z.
            range: (lowest.value + highest.value).to_f64(),
            steepest_incidence: facet.incidence(),
            steepest_x: steepest.x,
            steepest_y: steepest.y,
            missing_probes: u32::try_from(self.missing_probes).unwrap_or(u32::MAX),
            unknown_share: math::lesser((self.unknown_area / area(region)).to_f64(), 1.0),
        };
        Ok((extremes, facet))
    }
}
