//! The verdict on a job whose surface has a shape.

use super::in_focus::CellsPerSide;
use super::job::Job;
use super::shape::{Region, Surface, SurfaceExtremes, SurfaceHeight};
use super::verdict::Verdict;
use crate::error::Error;
use crate::model::check::surface_check;

/// What [`Job::check_on`] finds. It is advice: a test piece comes first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceVerdict {
    /// The verdict, with what the shape adds to its reasons.
    pub verdict: Verdict,
    /// Highest, lowest and steepest place of the surface.
    pub extremes: SurfaceExtremes,
    /// Where the spot is worst: the highest or the lowest place.
    pub worst: SurfaceHeight,
    /// Share of the known area that stays in the depth of focus, rise and fall of the job included.
    pub share_in_depth: f64,
    /// Share of the known area where stroke, gap and text hold, rise and fall of the job included; by the heights
    /// alone, without the slope.
    pub share_that_holds: f64,
    /// In how many bands of height, each in its own focus, stroke, gap and text would hold everywhere; none if no
    /// focus does. A band in which the surface has no height needs none of its own.
    pub bands: Option<u32>,
    /// Length of the spot along the slope over its diameter at the steepest place.
    pub steepest_stretch: f64,
    /// Irradiance, and dose, for each area of the surface over that on a level one, at the steepest place.
    pub steepest_irradiance_factor: f64,
}

impl Job {
    /// Checks whether stroke and gap hold, and the text keeps its grade, all over the region of a surface; says
    /// where it is worst, how much of the area holds, and what would help. Rise and fall of the job are added at
    /// the ends of the surface, for all by which it may lie otherwise than told. `cells` are for
    /// cylinders and spheres. As
    /// [`model::check::surface_check`](crate::model::check::surface_check).
    ///
    /// # Errors
    /// As there; a distance in a waist position must not be negative.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{inch, mm, rad, um};
    /// use spotwise::{
    ///     BeamWidth, Bulge, CellsPerSide, Criterion, Drawing, FocusSetting, Job, JobDose, Laser, Lens, Offset,
    ///     Outcome, RawBeam, Reasons, Region, RoundShape, RoundSize, Surface, SurfaceExtent, SurfaceSlope,
    ///     TablePlace,
    /// };
    /// let job = Job {
    ///     laser: Laser { wavelength: um(10.6), m_squared: 1.2 },
    ///     raw_beam: RawBeam::WidthAtLens(BeamWidth::from_diameter_1e2(mm(7.0))?),
    ///     lens: Lens::new(inch(1.5)).into(),
    ///     focus: FocusSetting::FromDatum(Offset::ZERO),
    ///     surface: SurfaceExtent { rise: mm(0.05), fall: mm(0.05) },
    ///     depth_criterion: Criterion::Rayleigh,
    ///     drawing: Drawing { finest_stroke: mm(0.1), finest_gap: mm(0.1) },
    ///     dose: JobDose::Ratio(2.7),
    ///     text: None,
    /// };
    /// // A bar of 30 mm, marked up to 9 mm on either side of its crown, where it has dropped by 15 mm - 12 mm.
    /// let bar = RoundShape {
    ///     size: RoundSize::Diameter(mm(30.0)),
    ///     bulge: Bulge::TowardLens,
    ///     crown: TablePlace { x: mm(0.0), y: mm(0.0) },
    ///     lean: SurfaceSlope::LEVEL,
    /// };
    /// let bar = Surface::Cylinder { part: bar, axis_angle: rad(0.0) };
    /// let region = Region { x_least: mm(0.0), x_greatest: mm(50.0), y_least: mm(-9.0), y_greatest: mm(9.0) };
    /// let found = job.check_on(&bar, region, CellsPerSide::default())?;
    /// assert_eq!(found.verdict.outcome, Outcome::Lost);
    /// assert!(found.verdict.reasons.contains(Reasons::BANDS_HELP));
    /// assert_eq!((found.worst.height.z_away_from_lens().value * 1e9).round(), 3e6); // at an edge, 3 mm low
    /// assert_eq!((found.steepest_irradiance_factor * 1e9).round(), 8e8); // 12/15
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn check_on(
        &self,
        surface: &Surface<'_>,
        region: Region,
        cells: CellsPerSide,
    ) -> Result<SurfaceVerdict, Error> {
        let found = surface_check(&self.as_model()?, &surface.as_model(), &region.as_model(), cells.0)?;
        let clear_aperture = self.lens.singlet.and_then(|singlet| singlet.clear_aperture);
        Ok(SurfaceVerdict {
            verdict: Verdict::from_model(&found.verdict, self.laser, clear_aperture),
            extremes: SurfaceExtremes::from_model(&found.extremes),
            worst: SurfaceHeight::from_metres(found.worst_z, found.worst_x, found.worst_y),
            share_in_depth: found.share_in_depth,
            share_that_holds: found.share_that_holds,
            bands: found.bands,
            steepest_stretch: found.steepest_stretch,
            steepest_irradiance_factor: found.steepest_irradiance_factor,
        })
    }
}
