//! How much of a surface is in focus, and where to set focus so that it serves the whole surface best.
//!
//! | symbol | meaning                                                                  | unit |
//! |--------|--------------------------------------------------------------------------|------|
//! | z      | height of the surface, + away from the lens                              | m    |
//! | f      | height at which focus is set                                             | m    |
//! | m, σ   | mean of z over the area whose height is known, and its standard deviation | m   |
//! | h, l   | z at the highest and the lowest place                                    | m    |
//! | z_R, d₀ | Rayleigh range and waist **diameter** of the beam                        | m    |
//!
//! | what focus is to do            | f              | why                                                     |
//! |--------------------------------|----------------|---------------------------------------------------------|
//! | make the worst spot least      | (h + l)/2      | d grows with \|z − f\|, which is largest at h or at l    |
//! | make the mean spot area least  | m              | mean of (d/d₀)² = 1 + ((m − f)² + σ²)/z_R²               |
//! | keep most area in the depth    | by search      | `most_in_focus.rs` beside this file                     |
//!
//! Areas are those across the beam, of the region as seen from the lens. Each surface is measured as bilinear cells:
//! steps, grids and planes are such cells and so are measured exactly; cylinders and spheres are laid over with equal
//! cells, whose number the caller chooses. With 128 cells per side and up to two thirds of
//! the radius marked (to the rim six times as much) the shares of area are within 0.05 %, mean and
//! standard deviation within 0.005 % of the range (`mesh.rs` beside this file has more). The highest and the lowest
//! place are exact on all shapes.
//!
//! Sources: the optimum for the worst is that of any function of |z − f| that grows; that for the mean is the parallel
//! axis theorem, as d² is a quadratic of z for every beam (ISO 11146-1, from memory). Common practice, no source: set
//! focus half-way down the marked area, not on its top.
//! Not modelled: astigmatic beams, which have no one depth for the mean; the drawing, all of the region counting alike.

use super::bilinear::{Band, Split};
use super::extremes::{SurfaceExtremes, checked_extremes};
use super::mesh::Mesh;
use super::most_in_focus::{BATCH, most_in_focus};
use super::no_better::PLACES;
use super::region::Region;
use super::shape::Surface;
use super::smooth::Facet;
use crate::error::{Error, Param, check, check_within};
use crate::model::focus::{DepthCriterion, checked_criterion, checked_defocus, range_of};
use crate::model::optics::{Beam, CheckedBeam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// How the heights of a surface are spread over the area of a region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RegionHeights {
    /// Mean height in metres, + away from the lens.
    pub mean_z: f64,
    /// Standard deviation of the height in metres.
    pub z_deviation: f64,
    /// Height of the place nearest the lens in metres: the **least** z.
    pub highest_z: f64,
    /// Height of the place farthest from the lens in metres: the **greatest** z.
    pub lowest_z: f64,
    /// Share of the region's area about which nothing is known.
    pub unknown_share: f64,
}

/// How the area of a surface divides between heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShareInFocus {
    /// Share of the known area that lies between the two heights, the ends included.
    pub in_focus: f64,
    /// Share of the known area that lies nearer to the lens.
    pub toward_lens: f64,
    /// Share of the known area that lies farther from the lens.
    pub away_from_lens: f64,
    /// Share of the region's area about which nothing is known.
    pub unknown_share: f64,
}

/// A height at which focus may be set, and what it does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusHeight {
    /// Where the waist is, in metres, + away from the lens.
    pub focus_z: f64,
    /// Spot diameter over waist diameter where it is worst.
    pub worst_growth: f64,
    /// Mean over the known area of the square of that ratio: of the area of the spot over that of the waist.
    pub mean_area_growth: f64,
    /// Share of the known area that lies within the depth of focus.
    pub share_in_focus: f64,
}

/// The best focus heights for a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceFocus {
    /// Makes the worst spot least: half-way between the highest and the lowest place.
    pub least_worst: FocusHeight,
    /// Makes the mean area of the spot least: the mean height.
    pub least_mean_area: FocusHeight,
    /// Keeps most of the area within the depth of focus.
    pub most_in_focus: FocusHeight,
    /// Share of the region's area about which nothing is known.
    pub unknown_share: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// A surface that is checked and cut into cells.
pub(crate) struct Measured<'a> {
    mesh: Mesh<'a>,
    pub(crate) extremes: SurfaceExtremes,
    /// Slopes at the steepest place.
    pub(crate) steepest: Facet,
}

impl<'a> Measured<'a> {
    pub(crate) fn checked(
        surface: &Surface<'a>,
        region: &Region,
        cells_per_side: u32,
    ) -> Result<Self, Error> {
        let surface = surface.checked()?;
        let region = region.checked()?;
        let (extremes, steepest) = checked_extremes(&surface, region)?;
        check(Param::CellsPerSide, f64::from(cells_per_side))?;
        let datum = 0.5 * (extremes.highest_z + extremes.lowest_z);
        Ok(Self { mesh: Mesh { surface, region, cells_per_side, datum }, extremes, steepest })
    }

    /// The stretches of height that are known.
    pub(crate) fn for_each_stretch(&self, show: impl FnMut(f64, f64)) {
        let ends = (self.extremes.highest_z, self.extremes.lowest_z);
        self.mesh.surface.for_each_stretch(self.mesh.region, ends, show);
    }

    /// How the area divides about the heights between two.
    pub(crate) fn split(&self, toward_lens_z: f64, away_from_lens_z: f64) -> Split {
        let datum = self.mesh.datum;
        let band = Band { toward_lens_z: toward_lens_z - datum, away_from_lens_z: away_from_lens_z - datum };
        let [split] = self.mesh.splits(&[band]);
        split
    }
}

/// Mean and spread of a surface's height over a region.
///
/// `cells_per_side` is how many equal cells are laid over a cylinder or sphere in x and in y, 1 to 1000; 128 is
/// plenty. The other shapes are measured exactly, whatever it is. Where part of the region is unknown, the numbers are
/// those of the rest. Formulas in the [module](self).
///
/// Accuracy, the cells being taken as they are: at most 1 ulp of the number and 1 ulp of the range, on a cylinder or
/// sphere of what the heights at the corners of the region are made of (`tests/vectors/region_heights.csv`).
///
/// # Errors
/// As [`surface_extremes`](super::surface_extremes); then [`Error::OutOfRange`] for `cells_per_side`.
///
/// # Example
/// ```
/// use spotwise::model::surface::{region_heights, Region, Surface};
/// // A plate that falls by 0.6 mm over its 60 mm.
/// let plate = Surface::Plane { slope_x: 0.01, slope_y: 0.0 };
/// let region = Region { x_least: 0.0, x_greatest: 60e-3, y_least: 0.0, y_greatest: 40e-3 };
/// let heights = region_heights(&plate, &region, 1)?;
/// assert_eq!((heights.mean_z * 1e9).round(), 300_000.0);
/// assert_eq!((heights.z_deviation * 1e9).round(), 173_205.0); // 0.6 mm/√12
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the heights are the result"]
pub fn region_heights(
    surface: &Surface<'_>,
    region: &Region,
    cells_per_side: u32,
) -> Result<RegionHeights, Error> {
    let Measured { mesh, extremes, .. } = Measured::checked(surface, region, cells_per_side)?;
    let (mean, z_deviation) = mesh.mean_and_deviation(extremes.range);
    Ok(RegionHeights {
        mean_z: mesh.datum + mean,
        z_deviation,
        highest_z: extremes.highest_z,
        lowest_z: extremes.lowest_z,
        unknown_share: extremes.unknown_share,
    })
}

/// Share of a surface's area that lies between two heights, such as the ends of a depth of focus.
///
/// `cells_per_side` as for [`region_heights`]. Shares are of the area whose height is known, and add up to one.
/// Formulas in `bilinear.rs` beside this file.
///
/// Accuracy, the cells being taken as they are: at most 2 ulp of the share, 2 ulp of the whole, and what 2 ulp of the
/// heights make of it (`tests/vectors/share_in_focus.csv`). Cells that are nearly plane lose nothing.
///
/// # Errors
/// As [`region_heights`]; then [`Error::NotFinite`] or [`Error::OutOfRange`] for `toward_lens_z`, then for
/// `away_from_lens_z`, which must not be nearer to the lens.
///
/// # Example
/// ```
/// use spotwise::model::surface::{share_in_focus, Region, Surface};
/// // A plate that falls by 0.6 mm over its 60 mm; focus is 0.2 mm below its top, and good for 0.1 mm each way.
/// let plate = Surface::Plane { slope_x: 0.01, slope_y: 0.0 };
/// let region = Region { x_least: 0.0, x_greatest: 60e-3, y_least: 0.0, y_greatest: 40e-3 };
/// let share = share_in_focus(&plate, &region, 1, 0.1e-3, 0.3e-3)?;
/// assert_eq!((share.in_focus * 1e9).round(), 333_333_333.0); // 0.2 mm of 0.6 mm
/// assert_eq!((share.toward_lens * 1e9).round(), 166_666_667.0); // 0.1 mm of 0.6 mm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the shares are the result"]
pub fn share_in_focus(
    surface: &Surface<'_>,
    region: &Region,
    cells_per_side: u32,
    toward_lens_z: f64,
    away_from_lens_z: f64,
) -> Result<ShareInFocus, Error> {
    let measured = Measured::checked(surface, region, cells_per_side)?;
    let toward_lens_z = check(Param::TowardLensZ, toward_lens_z)?;
    let (_, greatest) = Param::AwayFromLensZ.range();
    let away_from_lens_z = check_within(Param::AwayFromLensZ, away_from_lens_z, toward_lens_z, greatest)?;
    let Split { toward_lens, within, away_from_lens } = measured.split(toward_lens_z, away_from_lens_z);
    let unknown_share = measured.extremes.unknown_share;
    Ok(ShareInFocus { in_focus: within, toward_lens, away_from_lens, unknown_share })
}

/// The focus heights that serve a surface best: for the worst spot, for the mean spot, and for the area in focus.
///
/// What counts as in focus is told by `criterion`; `cells_per_side` as for [`region_heights`]. Formulas in the
/// [module](self).
///
/// `most_in_focus` is found by search, and then proven: no other height keeps more by over 1.1e-5 of the area. (Where
/// parts of the surface lie one depth apart to a millionth of the depth, or to 2⁻⁴⁴ of the range, whether both fit is told
/// for level parts only; for others the promise is that of a depth shorter by that.) Of a range of heights that keep
/// as much, to a millionth, its middle is told; of several such ranges that of the heights nearest the lens. Where the
/// whole surface is in focus at once that is the height of `least_worst`.
///
/// Cost: at most 30 + 6·(range/depth) passes over the cells, each for 16 heights, and never more than 900, besides one
/// for every 16 heights of level cells; then the proof: 5 to 60 passes for a few cells or a smooth shape, 200 for a dome of
/// 128 × 128 cells, more for many level parts and for a probed plane of many cells, of which every height keeps
/// as much. A cell that lies in one band takes four comparisons for each height, one that is cut some hundred operations.
/// 128 × 128 cells take a desktop 0.1 to 1 s, a probed plane of them, or noise, up to 4 s. On a bare-metal
/// target take few cells: the 9 to 36 of the vectors take up to 14 million instructions of a Cortex-M7, those of
/// a surface hundreds of depths high three times as many; with doubles in software 30 times as many.
///
/// Accuracy, the cells being taken as they are: `most_in_focus` within 1e-11 of the depth of focus, the other heights at
/// most 2 ulp and 2 ulp of the highest and lowest place; the numbers of each, 2 ulp besides what that makes of them
/// (`tests/vectors/focus_for_surface.csv`).
///
/// # Errors
/// As [`depth_of_focus`](crate::model::focus::depth_of_focus), then as [`region_heights`].
///
/// # Example
/// ```
/// use spotwise::model::focus::DepthCriterion;
/// use spotwise::model::optics::Beam;
/// use spotwise::model::surface::{focus_for_surface, Region, Surface};
/// // A tray of gauge dials: two thirds lie level, one third is 2 mm lower.
/// let tray = Surface::Steps { edges: &[0.0, 0.2, 0.3], z: &[0.0, 2e-3] };
/// let region = Region { x_least: 0.0, x_greatest: 0.3, y_least: 0.0, y_greatest: 0.2 };
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let focus = focus_for_surface(&beam, DepthCriterion::Rayleigh, &tray, &region, 1)?;
/// assert_eq!((focus.least_worst.focus_z * 1e9).round(), 1e6); // half-way: nothing is in focus
/// assert_eq!(focus.least_worst.share_in_focus, 0.0);
/// assert_eq!((focus.least_mean_area.focus_z * 1e9).round(), 666_667.0);
/// assert_eq!((focus.most_in_focus.focus_z * 1e9).round(), 0.0); // on the larger part
/// assert_eq!((focus.most_in_focus.share_in_focus * 1e9).round(), 666_666_667.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "best focus")]
#[must_use = "the heights are the result"]
pub fn focus_for_surface(
    beam: &Beam,
    criterion: DepthCriterion,
    surface: &Surface<'_>,
    region: &Region,
    cells_per_side: u32,
) -> Result<SurfaceFocus, Error> {
    let beam = checked_beam(beam)?;
    let depth = range_of(&beam, checked_criterion(criterion)?)?;
    let depth = Band { toward_lens_z: depth.toward_lens_z, away_from_lens_z: depth.away_from_lens_z };
    let Measured { mesh, extremes, .. } = &Measured::checked(surface, region, cells_per_side)?;
    let (mean, deviation) = mesh.mean_and_deviation(extremes.range);
    let over_datum = |z: f64| z - mesh.datum;
    let most = most_in_focus(
        over_datum(extremes.highest_z),
        over_datum(extremes.lowest_z),
        depth,
        |show: &mut dyn FnMut(f64)| mesh.for_each_level(show),
        |heights: &[f64; BATCH]| {
            mesh.splits(&heights.map(|focus| depth.about(focus))).map(|split| split.within)
        },
        |heights: &[f64; PLACES]| mesh.sections(heights, depth),
    );
    let heights = [0.0, mean, most];
    let bands = heights.map(|focus| depth.about(focus));
    let [least_worst, least_mean_area, most_in_focus] = {
        let [a, b, c] = mesh.splits(&bands).map(|split| split.within);
        let [worst, mean_area, most] = heights;
        let height = |focus, share_in_focus| FocusHeight {
            focus_z: mesh.datum + focus,
            worst_growth: worst_growth(&beam, extremes, mesh.datum, focus),
            mean_area_growth: mean_area_growth(&beam, mean - focus, deviation),
            share_in_focus,
        };
        [height(worst, a), height(mean_area, b), height(most, c)]
    };
    Ok(SurfaceFocus {
        least_worst,
        least_mean_area,
        most_in_focus,
        unknown_share: extremes.unknown_share,
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    })
}

/// Growth at the extreme that is farther from a focus height over the datum.
fn worst_growth(beam: &CheckedBeam, extremes: &SurfaceExtremes, datum: f64, focus: f64) -> f64 {
    let from_focus = |z: f64| Twofold::sum(z, -datum) - focus.into();
    let (above, below) = (-from_focus(extremes.highest_z), from_focus(extremes.lowest_z));
    let farther = if (below - above).is_negative() { above } else { below };
    checked_defocus(beam, farther).growth
}

/// 1 + (offset² + deviation²)/z_R²
fn mean_area_growth(beam: &CheckedBeam, offset: f64, deviation: f64) -> f64 {
    let zr = beam.rayleigh_range.to_f64();
    let (u, s) = (offset / zr, deviation / zr);
    1.0 + (u * u + s * s)
}
