//! Preflight: the mark that will come out of a drawing, and what is lost of it.
//!
//! The data's way: a [`Drawing`] on a surface is exposed by a spot that grows with the height ([`ExposurePlan`]), the
//! exposure becomes a mark ([`Answer`]), the mark is compared with the drawing ([`compare`], [`lost`], [`filled`],
//! [`widths`]), and what differs becomes findings ([`PreflightPlan`]), a window of doses ([`DoseWindow`]) and a grade
//! ([`judge`]). Whether it holds may be sure before any of that ([`quick_answer`]). What would help is found by trying
//! ([`focus_reach`], [`best_focus_z`], [`smallest_scale`], [`rank_beams`]). Plain numbers in SI units, as in
//! [`model`](crate::model), which holds the formulas of spot, dose and surface.
//!
//! Nothing here takes memory of its own: each step is told how much room it needs and works in the caller's. Long work
//! tells a [`Watch`] how far it is, and stops within some milliseconds when told to.
//!
//! # Accuracy
//! The exposure is within 5e-4 of full dose of the exact sum of Gaussians over the pixels that are given
//! (`tests/artwork/exposure.rs`); distances, components and centre-lines are exact. How well pixels stand for
//! shapes is told by [`expected_exposure_error`].
//!
//! # What is not modelled
//! A threshold with doses that add: real anodised layers and paints lie between that and lines that each count by
//! themselves. Heat that stays in the part, plumes, the flow of a melt but for a bridge of given width, astigmatic
//! spots, and the shadow of a steep wall. The limits of grades are set to agree with common practice, no source. A
//! prediction is advice: a test piece comes first.
//!
//! # Example
//! ```
//! use spotwise::artwork::{
//!     Answer, BitmapMut, Drawing, DrawingUse, Exposing, Preflight, PreflightOutput, PreflightPlan, SampleKind, Scan,
//!     Watch, usual_edge_tolerance, words_in_row,
//! };
//! use spotwise::model::optics::Beam;
//! use spotwise::model::surface::Surface;
//!
//! // A bar of 0.3 mm and, 0.3 mm beside it, one of 40 µm, drawn at 20 µm to the pixel.
//! let (width, height) = (64, 64);
//! let inked = |x: usize, y: usize| (8..56).contains(&y) && ((8..23).contains(&x) || (38..40).contains(&x));
//! let samples: Vec<u8> = (0..width * height).map(|n| if inked(n % width, n / width) { 255 } else { 0 }).collect();
//! let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 100e-6 };
//! let preflight = Preflight {
//!     drawing: Drawing {
//!         samples: &samples, width, height, row_stride: width, pitch_x: 20e-6, pitch_y: 20e-6,
//!         left_x: 0.0, top_y: 0.0, kind: SampleKind::Coverage, drawing_use: DrawingUse::BurntRaster,
//!     },
//!     exposing: Exposing {
//!         beam, focus_z: 0.0, surface: Surface::Plane { slope_x: 0.0, slope_y: 0.0 }, incidence_loss: true,
//!         blur_along: 0.0, blur_across: 0.0, scan: Scan::Unknown,
//!     },
//!     answer: Answer::Coating,
//!     dose_ratio: 1.5,
//!     edge_tolerance: usual_edge_tolerance(&beam),
//!     speck_area: 0.0,
//! };
//! let plan = PreflightPlan::new(&preflight, &mut Watch::quiet())?;
//! let mut room = vec![0; plan.words(1)];
//! let mut exposure = vec![0; width * height];
//! let mut masks = vec![0; 3 * words_in_row(width) * height];
//! let (mark, rest) = masks.split_at_mut(words_in_row(width) * height);
//! let (lost, filled) = rest.split_at_mut(words_in_row(width) * height);
//! let mut output = PreflightOutput {
//!     exposure: &mut exposure,
//!     mark: BitmapMut::new(mark, width, height)?,
//!     lost: BitmapMut::new(lost, width, height)?,
//!     filled: BitmapMut::new(filled, width, height)?,
//!     lost_regions: &mut [],
//!     filled_regions: &mut [],
//!     changes: &mut [],
//! };
//! let report = plan.run(&mut output, &mut room, &mut Watch::quiet())?;
//! let window = plan.dose_window(&exposure, &mut room, &mut Watch::quiet())?;
//! // In its middle the thin bar gets erf(40/(√2·50)) = 0.576 of the dose of a wide fill: 1/0.576 = 1.74 times the
//! // threshold dose would begin to mark it, and 1.5 does not. Little more marks it well beyond its middle.
//! assert_eq!((report.topology.components_drawing, report.topology.components_lost), (2, 1));
//! assert!(window.least_dose_ratio > 1.7 && window.least_dose_ratio < 2.0);
//! # Ok::<(), spotwise::Error>(())
//! ```

mod across;
mod bands;
mod between;
mod bitmap;
mod blur;
mod bound;
mod centre_line;
mod changes;
mod components;
mod disc;
mod distance;
mod dose_window;
mod drawing;
mod euler;
mod exposing;
mod exposure;
mod fir;
mod job;
mod judgement;
mod kernel;
#[cfg(feature = "vector")]
mod lettering;
mod levels;
mod mark;
mod median;
mod overlap;
mod picture;
mod pixel_box;
mod preflight;
mod queue;
mod quick_answer;
mod reference;
mod regions;
mod remedies;
mod report;
mod runs;
mod scan;
mod simd;
mod specks;
mod spot_map;
mod strokes;
mod tile;
mod too_little_ink;
mod topology;
#[cfg(feature = "vector")]
mod vector;
mod watch;
mod workspace;

pub use across::Nearest;
pub use bitmap::{Bitmap, BitmapMut, words_in_row};
pub use bound::{BoundInput, BoundSummary, quick_bound, quick_bound_words};
pub use centre_line::{Side, centre_line, centre_line_words};
pub use changes::{Change, ChangeKind};
pub use components::{Components, LabelledRun, label_ground, label_ink, label_words};
pub use disc::{Disc, closed, closed_words, disc_words, filled, lost, opened, opened_words};
pub use distance::{DistanceRow, Ruler, distances, distances_words};
pub use dose_window::DoseWindow;
pub use drawing::{Drawing, DrawingUse, SampleKind};
pub use euler::euler_number;
pub use exposing::Exposing;
pub use exposure::{ExposurePlan, FULL_DOSE};
pub use job::{JobMarking, preflight_of_job};
pub use judgement::{Judgement, MarkGrade, MarkReasons, judge};
#[cfg(feature = "vector")]
pub use lettering::{Font, LetterSize, TextLine};
pub use mark::{Answer, depth_map};
pub use picture::{PictureColour, PictureLayers, PictureView, draw_box, draw_picture};
pub use pixel_box::PixelBox;
pub use preflight::{MOST_DOSE_RATIO, Preflight, PreflightOutput, PreflightPlan, usual_edge_tolerance};
pub use quick_answer::{
    QuickAnswer, QuickCounts, QuickLight, QuickVerdict, quick_answer, quick_answer_words,
};
pub use regions::{Depth, Region, RegionFinder, RegionTotals, region_words};
pub use remedies::{
    BeamCandidate, Demand, FocusReach, RankedBeam, TrialRoom, best_focus_z, focus_reach, focus_reach_words,
    rank_beams, rank_beams_words, smallest_scale, smallest_scale_words,
};
pub use report::Report;
pub use scan::Scan;
pub use spot_map::{InkSpots, expected_exposure_error};
pub use strokes::{
    CentreShare, Widths, add_component_shares, centre_share, starved_components, widths, widths_words,
};
pub use topology::{Parts, Topology, compare, compare_words, find_parts, parts_words, specks_words};
#[cfg(feature = "vector")]
pub use vector::{
    Bounds, FillRule, Frame, InkPath, Inking, MOST_POINTS, PathStep, Sheet, Stroke, StrokeCap, StrokeJoin,
    VectorError, draw_path, pitch_for_spot,
};
pub use watch::{Step, Watch};

/// Threads that share the work: with the feature `parallel` those of the current `rayon` pool, else one.
#[must_use]
pub fn threads() -> usize {
    #[cfg(feature = "parallel")]
    return rayon::current_num_threads();
    #[cfg(not(feature = "parallel"))]
    return 1;
}
