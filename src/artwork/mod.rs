//! Preflight: the mark that will come out of a drawing, and what is lost of it.
//!
//! The data's way: a [`Drawing`] on a surface is exposed by a spot that grows with the height, the exposure becomes a
//! mark, the mark is compared with the drawing, and what differs becomes findings. Plain numbers in SI units, as in
//! [`model`](crate::model), which holds the formulas of spot, dose and surface.
//!
//! Nothing here takes memory of its own: each step is told how much room it needs and works in the caller's.
//! Only paths and text (feature `vector`) take some.

mod across;
mod bands;
mod bitmap;
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
mod mark;
mod median;
mod overlap;
mod picture;
mod pixel_box;
mod preflight;
mod reference;
mod regions;
mod remedies;
mod report;
mod runs;
mod scan;
mod simd;
mod spot_map;
mod strokes;
#[cfg(feature = "parallel")]
mod threads;
mod tile;
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
pub use preflight::{Preflight, PreflightOutput, PreflightPlan, usual_edge_tolerance};
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
pub use topology::{Parts, Topology, compare, compare_words, find_parts, parts_words};
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
