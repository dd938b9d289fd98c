//! When to refocus a deep engraving, and how.
//!
//! | symbol | meaning                                                                  | unit |
//! |--------|--------------------------------------------------------------------------|------|
//! | p, D   | depth that a pass removes, and depth wanted                              | m    |
//! | n      | passes, ⌈D/p⌉                                                            | 1    |
//! | u      | usable depth of focus                                                    | m    |
//! | k      | passes in a stage, ⌊u/p⌋, at least 1                                     | 1    |
//! | t, a   | ends of the depth of focus toward the lens and away from it              | m    |
//!
//! A stage is what is engraved at one focus height: from the depth j·k·p, where it begins, to (j + 1)·k·p, or to
//! n·p in the last one. Its surface must be in focus when its first pass begins and when its last one ends.
//!
//! Focus on the surface as each stage finds it: u = a, f = j·k·p. (Common practice, no source: *refocus when
//! the removed depth reaches the half range*.) Focus midway: u = a − t, f the middle of the stage less
//! (t + a)/2; half as many refocusings, and the worst spot of each stage as small as can be.
//!
//! Where p exceeds u no plan stays in focus: the surface leaves it within one pass. That is told, with a plan
//! of one pass to a stage. Whole numbers are taken as in [`bands`](super::bands), to a part in 1e9.
//!
//! Derived here. Not modelled: that a deeper floor may take less or more with each pass, and walls that clip the
//! cone. p is what test pieces tell.

use super::bands::long_enough;
use super::focus_height::{CheckedDepth, DepthEnds, FocusAim, fits, half, parts_fitting, parts_needed};
use crate::error::{Error, Param, check};
use crate::model::twofold::Twofold;

/// How a deep engraving is divided into stages of one focus height each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RefocusPlan {
    /// Passes in all.
    pub passes: u32,
    /// Depth that they remove in metres, at least the depth wanted.
    pub reached_depth: f64,
    /// Passes before focus is set anew.
    pub passes_per_stage: u32,
    /// Stages; the focus is set anew one time less.
    pub stages: u32,
    /// Passes in the last stage, which may be shorter.
    pub last_stage_passes: u32,
    /// Depth that a full stage removes in metres: by how much focus is lowered from one to the next
    /// (less, with focus midway, into a last stage that is shorter).
    pub stage_depth: f64,
    /// Depth of focus that a stage may use, in metres.
    pub usable_depth: f64,
    /// Whether the surface stays in focus; false where one pass removes more than the usable depth.
    pub stays_in_focus: bool,
}

/// The plan of a deep engraving of `total_depth`, `depth_per_pass` by each pass: how many passes before focus is
/// set anew, how many stages, and the focus height of each.
///
/// `focus_heights` takes one number for each stage in metres, from the surface before the first pass, + away from
/// the lens. Ask first, with an empty slice, how many stages there are; what is longer is filled with NaN. On any
/// error all of it is NaN. Formulas in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/refocus_plan.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for `total_depth`, then `depth_per_pass`, then the ends of the
/// depth of focus; those as [`cylinder_strip`](super::cylinder_strip); [`Error::OutsideModel`] for more than a
/// million passes ([`Param::Passes`]); [`Error::LengthMismatch`] for a slice that is too short, naming what is
/// needed ([`Param::FocusHeights`]).
///
/// # Example
/// ```
/// use spotwise::model::surface::{DepthEnds, FocusAim, refocus_plan};
/// let depth = DepthEnds { toward_lens_z: -0.25e-3, away_from_lens_z: 0.25e-3 };
/// // 1.3 mm deep, 0.1 mm by each pass: two passes before the removed depth would exceed 0.25 mm.
/// let mut focus = [0.0; 7];
/// let plan = refocus_plan(1.3e-3, 0.1e-3, &depth, FocusAim::HighestPlace, &mut focus)?;
/// assert_eq!((plan.passes, plan.passes_per_stage, plan.stages), (13, 2, 7));
/// assert_eq!(focus.map(|z| (z * 1e6).round()), [0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0]);
/// // Focus midway, 0.25 mm below the surface at first: five passes, and two refocusings.
/// let plan = refocus_plan(1.3e-3, 0.1e-3, &depth, FocusAim::Midway, &mut focus)?;
/// assert_eq!((plan.passes_per_stage, plan.stages, plan.last_stage_passes), (5, 3, 3));
/// assert_eq!([focus[0], focus[1], focus[2]].map(|z| (z * 1e6).round()), [250.0, 750.0, 1150.0]);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "multi-pass")]
pub fn refocus_plan(
    total_depth: f64,
    depth_per_pass: f64,
    depth: &DepthEnds,
    aim: FocusAim,
    focus_heights: &mut [f64],
) -> Result<RefocusPlan, Error> {
    focus_heights.fill(f64::NAN);
    let total_depth = check(Param::TotalDepth, total_depth)?;
    let depth_per_pass = check(Param::DepthPerPass, depth_per_pass)?;
    let depth = CheckedDepth::of(depth)?;
    let usable = depth.usable(aim)?;
    let pass = Twofold::from(depth_per_pass);
    let passes = parts_needed(Param::Passes, Twofold::from(total_depth) / pass)?;
    let passes_per_stage = parts_fitting(usable / pass, passes);
    let stages = passes.div_ceil(passes_per_stage);
    long_enough(Param::FocusHeights, focus_heights, stages as usize)?;

    for (stage, focus) in (0..stages).zip(focus_heights.iter_mut()) {
        let before = stage * passes_per_stage;
        let after = (before + passes_per_stage).min(passes);
        *focus = match aim {
            FocusAim::HighestPlace => f64::from(before) * depth_per_pass,
            FocusAim::Midway => {
                let ends = Twofold::product(f64::from(before + after), depth_per_pass);
                half(ends - depth.both_ends()).to_f64()
            }
        };
    }
    Ok(RefocusPlan {
        passes,
        reached_depth: f64::from(passes) * depth_per_pass,
        passes_per_stage,
        stages,
        last_stage_passes: passes - (stages - 1) * passes_per_stage,
        stage_depth: f64::from(passes_per_stage) * depth_per_pass,
        usable_depth: usable.to_f64(),
        stays_in_focus: fits(depth_per_pass, usable),
    })
}
