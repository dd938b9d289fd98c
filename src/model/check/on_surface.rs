//! The verdict on a job whose surface has a shape.
//!
//! The surface is a [`Surface`] over a [`Region`], from whose extremes the verdict follows as in
//! [`focus_check`](super::focus_check). The rise and the fall of the job are then no part of the shape: they are
//! added at its ends, for all by which the surface may lie nearer to the lens or farther from it than it is told
//! (see [`tolerance_stack`](crate::model::surface::tolerance_stack); its bias moves the focus).
//!
//! | symbol | meaning                                                        |
//! |--------|----------------------------------------------------------------|
//! | h, l   | heights of the highest and the lowest place, + away from the lens |
//! | r, f   | rise and fall of the job                                       |
//! | t, a   | heights between which stroke, gap and text hold                |
//!
//! A place holds, wherever it lies within rise and fall, if t + r ≤ z ≤ a − f; bands needed
//! ⌈(l − h)/(a − t − r − f)⌉.
//!
//! What a slope does to the dose: on a surface that leans by φ it is that on a level one times cos φ. Where that
//! leaves too little to mark at the steepest place, the verdict is lost, whatever the focus
//! ([`Reasons::TOO_STEEP_TO_MARK`]). Else the slope's stretch and loss are told beside the verdict, not in it, and
//! above [`CAUTION_INCIDENCE`] a reason, [`Reasons::STEEP`], says so.

use super::{Heights, Job, Outcome, Reasons, Verdict, holding_range, verdict_over};
use crate::error::{Error, Param};
use crate::model::focus::FocusRange;
use crate::model::mark::fill_marks;
use crate::model::math::{fabs, greater, lesser};
use crate::model::surface::{Measured, Region, Surface, SurfaceExtremes, parts_needed};
use crate::model::twofold::Twofold;
use crate::validity::CAUTION_INCIDENCE;

/// The verdict on a job whose surface has a shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceVerdict {
    /// The verdict, with what [`surface_check`] adds to its reasons.
    pub verdict: Verdict,
    /// Highest, lowest and steepest place of the surface.
    pub extremes: SurfaceExtremes,
    /// Where the spot is worst, in metres: at the highest or the lowest place, whichever is farther from focus, and
    /// at the highest if both are as far.
    pub worst_x: f64,
    /// That place in y.
    pub worst_y: f64,
    /// Its height in metres, + away from the lens.
    pub worst_z: f64,
    /// Share of the known area that stays in the depth of focus, rise and fall included; 0 if there is no depth.
    pub share_in_depth: f64,
    /// Share of the known area where stroke, gap and text hold, rise and fall included; 0 if they do not even in
    /// the waist. It goes by the heights alone: neither the slope nor lines of a fill that leave gaps are in it.
    pub share_that_holds: f64,
    /// In how many bands of height, each in its own focus, stroke, gap and text would hold everywhere; none if
    /// they do not even in the waist, if rise and fall leave no range, if the steepest place does not mark, or if it
    /// would take over a million. A band in which the surface has no height needs no focus of its own.
    pub bands: Option<u32>,
    /// Length of the spot along the slope over its diameter at the steepest place.
    pub steepest_stretch: f64,
    /// Irradiance, and dose, for each area of the surface over that on a level one, at the steepest place.
    pub steepest_irradiance_factor: f64,
}

/// Checks whether a drawing's finest stroke and gap hold, and its text keeps its grade, all over the region of a
/// surface; says where it is worst, how much of the area holds, and what would help.
///
/// The heights of the surface count from the datum of the job. Shares of area are measured with `cells_per_side`
/// as in [`region_heights`](crate::model::surface::region_heights); 128 is plenty, and only a cylinder or a sphere
/// needs it. Where part of the region is unknown, the verdict is that on the rest. Method in the
/// [module](self); a level plane has the verdict of [`focus_check`](super::focus_check) to the bit, but that no
/// bands are proposed, which could not divide rise and fall.
///
/// Only heights count that the surface has, wherever within rise and fall: the datum's place of the verdict is the
/// one nearest to the datum, of two as near the one toward the lens; and a fill is judged where the surface comes nearest to
/// the waist, as its lines lie apart the most there: on one of two steps, where focus lies between them.
///
/// Accuracy: that of [`focus_check`](super::focus_check) and of
/// [`surface_extremes`](crate::model::surface::surface_extremes); shares as
/// [`share_in_focus`](crate::model::surface::share_in_focus), stretch and factor at most 0.75 ulp
/// (`tests/vectors/surface_check.csv`).
///
/// # Errors
/// As [`surface_extremes`](crate::model::surface::surface_extremes), then for `cells_per_side`, then as
/// [`focus_check`](super::focus_check).
///
/// # Example
/// ```
/// use spotwise::model::check::{
///     FocusSetting, Job, JobDose, JobLens, Outcome, RawBeam, Reasons, surface_check,
/// };
/// use spotwise::model::focus::DepthCriterion;
/// use spotwise::model::surface::{Bulge, Region, Surface};
/// let job = Job {
///     wavelength: 10.6e-6,
///     m2: 1.2,
///     raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
///     focal_length: 38.1e-3,
///     lens: JobLens::Ideal,
///     focus: FocusSetting::FromDatum { focus_z: 0.0 },
///     surface_rise: 0.0,
///     surface_fall: 0.0,
///     criterion: DepthCriterion::Rayleigh,
///     finest_stroke: 0.1e-3,
///     finest_gap: 0.1e-3,
///     dose: JobDose::Ratio { dose_ratio: 2.7 },
///     text: None,
/// };
/// // A bar of 30 mm diameter, marked up to 9 mm on either side of its crown: it drops by 15 mm − 12 mm.
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
/// let found = surface_check(&job, &bar, &region, 128)?;
/// assert_eq!(found.verdict.outcome, Outcome::Lost);
/// assert_eq!((found.worst_z * 1e9).round(), 3e6); // at an edge, 3 mm low
/// assert_eq!(found.worst_y, -9e-3);
/// assert!(found.verdict.reasons.contains(Reasons::BANDS_HELP));
/// assert!(found.verdict.reasons.contains(Reasons::STEEP)); // asin(9/15) = 37 degrees there
/// assert_eq!((found.steepest_irradiance_factor * 1e9).round(), 8e8); // 12/15
/// # Ok::<(), spotwise::Error>(())
/// ```
// Inline, as focus_check is.
#[inline]
#[must_use = "the verdict is the result"]
pub fn surface_check(
    job: &Job,
    surface: &Surface<'_>,
    region: &Region,
    cells_per_side: u32,
) -> Result<SurfaceVerdict, Error> {
    let measured = Measured::checked(surface, region, cells_per_side)?;
    let Measured { extremes, steepest, .. } = measured;
    let rise_and_fall = job.surface_rise + job.surface_fall;
    let heights = Heights {
        highest: extremes.highest_z,
        lowest: extremes.lowest_z,
        lost_to_bands: rise_and_fall,
        shape: Some(&measured),
    };
    let mut verdict = verdict_over(job, &heights)?;
    let stretch = steepest.stretch();
    let steepest_irradiance_factor = (Twofold::ONE / stretch).to_f64();
    verdict.reasons.add(Reasons::STEEP, extremes.steepest_incidence > CAUTION_INCIDENCE);
    verdict.reasons.add(Reasons::PARTLY_UNKNOWN, extremes.unknown_share > 0.0);
    let steepest_marks = fill_marks(verdict.dose_ratio * steepest_irradiance_factor);
    if fill_marks(verdict.dose_ratio) && !steepest_marks {
        verdict.reasons.add(Reasons::TOO_STEEP_TO_MARK, true);
        verdict.reasons.remove(Reasons::REFOCUS_HELPS);
        (verdict.outcome, verdict.promised) = (Outcome::Lost, Outcome::Lost);
    }

    let worst_is_lowest = fabs(verdict.lowest.z_offset) > fabs(verdict.highest.z_offset);
    let (worst_x, worst_y, worst_z) = if worst_is_lowest {
        (extremes.lowest_x, extremes.lowest_y, extremes.lowest_z)
    } else {
        (extremes.highest_x, extremes.highest_y, extremes.highest_z)
    };

    // The share that lies within a range of heights from the waist, wherever within rise and fall it lies.
    let share_within = |range: Option<FocusRange>| {
        let Some(range) = range else { return 0.0 };
        let least = verdict.focus_z + range.toward_lens_z + job.surface_rise;
        let greatest = verdict.focus_z + range.away_from_lens_z - job.surface_fall;
        let (highest, lowest) = (extremes.highest_z, extremes.lowest_z);
        if least > greatest || least > lowest || greatest < highest {
            return 0.0;
        }
        if least <= highest && greatest >= lowest {
            return 1.0;
        }
        measured.split(greater(least, highest), lesser(greatest, lowest)).within
    };
    let text_keeps_in_waist = !verdict.reasons.contains(Reasons::TEXT_TOO_SMALL);
    let holding = holding_range(verdict.detail_range, verdict.text_range, text_keeps_in_waist);
    let share_in_depth = share_within(verdict.depth);
    let share_that_holds = share_within(holding);
    let range = Twofold::sum(extremes.lowest_z, -extremes.highest_z);
    let bands = holding.filter(|_| steepest_marks).and_then(|holding| {
        let usable = Twofold::sum(holding.full, -rise_and_fall);
        (usable.to_f64() > 0.0).then(|| parts_needed(Param::HeightBands, range / usable).ok()).flatten()
    });

    if bands.is_none() {
        verdict.reasons.remove(Reasons::BANDS_HELP);
    }

    Ok(SurfaceVerdict {
        verdict,
        extremes,
        worst_x,
        worst_y,
        worst_z,
        share_in_depth,
        share_that_holds,
        bands,
        steepest_stretch: stretch.to_f64(),
        steepest_irradiance_factor,
    })
}
