//! How much of a surface is in focus, and where focus serves it best.

use super::beam::Beam;
use super::depth::Criterion;
use super::offset::Offset;
use super::shape::{Region, Surface};
use super::{angle, length};
use crate::error::Error;
use crate::model::surface;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// How many equal cells are laid over a cylinder or sphere in x and in y, 1 to 1000; 128 unless said otherwise, which
/// tells shares of area to 0.05 % and heights to 0.005 % of their range where up to two thirds of the radius are
/// marked (to the rim 0.2 % and 0.03 %). The other shapes are measured exactly,
/// whatever it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct CellsPerSide(pub u32);

impl Default for CellsPerSide {
    fn default() -> Self {
        Self(128)
    }
}

/// A band of heights by its two ends, both relative to the datum of the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightBand {
    /// The end nearer the lens.
    pub toward_lens: Offset,
    /// The end farther from the lens.
    pub away_from_lens: Offset,
}

/// How the heights of a surface are spread over the area of a region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RegionHeights {
    /// Mean height, relative to the datum of the surface.
    pub mean: Offset,
    /// Standard deviation of the height.
    pub deviation: Length,
    /// Height of the place nearest the lens.
    pub highest: Offset,
    /// Height of the place farthest from the lens.
    pub lowest: Offset,
    /// Share of the region about which nothing is known.
    pub unknown_share: f64,
}

/// How the area of a surface divides between heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShareInFocus {
    /// Share of the known area within the band.
    pub in_focus: f64,
    /// Share of the known area that lies nearer to the lens.
    pub toward_lens: f64,
    /// Share of the known area that lies farther from the lens.
    pub away_from_lens: f64,
    /// Share of the region about which nothing is known.
    pub unknown_share: f64,
}

/// A height at which focus may be set, and what it does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusHeight {
    /// Where the waist is, relative to the datum of the surface.
    pub focus: Offset,
    /// Spot diameter over waist diameter where it is worst.
    pub worst_growth: f64,
    /// Mean over the known area of the area of the spot over that of the waist.
    pub mean_area_growth: f64,
    /// Share of the known area that lies within the depth of focus.
    pub share_in_focus: f64,
}

impl FocusHeight {
    fn from_model(height: &surface::FocusHeight) -> Self {
        Self {
            focus: Offset::from_metres(height.focus_z),
            worst_growth: height.worst_growth,
            mean_area_growth: height.mean_area_growth,
            share_in_focus: height.share_in_focus,
        }
    }
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
    /// Share of the region about which nothing is known.
    pub unknown_share: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Surface<'_> {
    /// Mean and spread of the height over a region. As
    /// [`model::surface::region_heights`](crate::model::surface::region_heights).
    ///
    /// # Errors
    /// As there: [`Error::OutOfRange`] for the cells.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::mm;
    /// use spotwise::{CellsPerSide, Region, Surface, SurfaceSlope};
    /// // A plate that falls by 0.6 mm over its 60 mm.
    /// let plate = Surface::Plane(SurfaceSlope { away_from_lens_along_x: 0.01, away_from_lens_along_y: 0.0 });
    /// let region = Region { x_least: mm(0.0), x_greatest: mm(60.0), y_least: mm(0.0), y_greatest: mm(40.0) };
    /// let heights = plate.heights(region, CellsPerSide::default())?;
    /// assert_eq!((heights.deviation.value * 1e9).round(), 173_205.0); // 0.6 mm/√12
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn heights(&self, region: Region, cells: CellsPerSide) -> Result<RegionHeights, Error> {
        let found = surface::region_heights(&self.as_model(), &region.as_model(), cells.0)?;
        Ok(RegionHeights {
            mean: Offset::from_metres(found.mean_z),
            deviation: length(found.z_deviation),
            highest: Offset::from_metres(found.highest_z),
            lowest: Offset::from_metres(found.lowest_z),
            unknown_share: found.unknown_share,
        })
    }

    /// Share of the area that lies in a band of heights. As
    /// [`model::surface::share_in_focus`](crate::model::surface::share_in_focus).
    ///
    /// # Errors
    /// As there: [`Error::OutOfRange`] also where the ends are in the wrong order.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::mm;
    /// use spotwise::{CellsPerSide, HeightBand, Offset, ProbedGrid, Region, Surface};
    /// // One corner of a plate of 50 mm stands 1 mm off: z = 1 mm·u·v.
    /// let plate = Surface::Grid(ProbedGrid {
    ///     columns_m: &[0.0, 0.05],
    ///     rows_m: &[0.0, 0.05],
    ///     heights_away_from_lens_m: &[0.0, 0.0, 0.0, 1e-3],
    /// });
    /// let whole = Region { x_least: mm(0.0), x_greatest: mm(50.0), y_least: mm(0.0), y_greatest: mm(50.0) };
    /// let band = HeightBand { toward_lens: Offset::ZERO, away_from_lens: Offset::away_from_lens(mm(0.2))? };
    /// let share = plate.share_in_focus(whole, CellsPerSide::default(), band)?;
    /// assert_eq!((share.in_focus * 1e9).round(), 521_887_582.0); // 0.2·(1 − ln 0.2)
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn share_in_focus(
        &self,
        region: Region,
        cells: CellsPerSide,
        band: HeightBand,
    ) -> Result<ShareInFocus, Error> {
        let (toward, away) = (band.toward_lens.metres(), band.away_from_lens.metres());
        let found = surface::share_in_focus(&self.as_model(), &region.as_model(), cells.0, toward, away)?;
        Ok(ShareInFocus {
            in_focus: found.in_focus,
            toward_lens: found.toward_lens,
            away_from_lens: found.away_from_lens,
            unknown_share: found.unknown_share,
        })
    }
}

impl Beam {
    /// The focus heights that serve a surface best: for the worst spot, for the mean spot, and for the area in
    /// focus. As [`model::surface::focus_for_surface`](crate::model::surface::focus_for_surface).
    ///
    /// # Errors
    /// As there.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, CellsPerSide, Criterion, Region, Steps, Surface};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// // A tray of rain gauges: two thirds of the area lie level, one third is 2 mm lower.
    /// let tray = Surface::Steps(Steps { edges_m: &[0.0, 0.2, 0.3], heights_away_from_lens_m: &[0.0, 2e-3] });
    /// let region = Region { x_least: mm(0.0), x_greatest: mm(300.0), y_least: mm(0.0), y_greatest: mm(200.0) };
    /// let focus = beam.focus_for_surface(Criterion::Rayleigh, &tray, region, CellsPerSide::default())?;
    /// let micrometres = |height: &spotwise::FocusHeight| (height.focus.z_away_from_lens().value * 1e6).round();
    /// assert_eq!(micrometres(&focus.least_worst), 1000.0); // half-way: nothing is in focus
    /// assert_eq!(micrometres(&focus.least_mean_area), 667.0);
    /// assert_eq!(micrometres(&focus.most_in_focus), 0.0);
    /// assert_eq!((focus.most_in_focus.share_in_focus * 1e9).round(), 666_666_667.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "best focus")]
    pub fn focus_for_surface(
        &self,
        criterion: Criterion,
        surface: &Surface<'_>,
        region: Region,
        cells: CellsPerSide,
    ) -> Result<SurfaceFocus, Error> {
        let found = surface::focus_for_surface(
            self.as_model(),
            criterion.into_model(),
            &surface.as_model(),
            &region.as_model(),
            cells.0,
        )?;
        Ok(SurfaceFocus {
            least_worst: FocusHeight::from_model(&found.least_worst),
            least_mean_area: FocusHeight::from_model(&found.least_mean_area),
            most_in_focus: FocusHeight::from_model(&found.most_in_focus),
            unknown_share: found.unknown_share,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
