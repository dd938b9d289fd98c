//! Learning from test pieces: what a series of readings or marks at stepped heights tells of the focus, and how well; and
//! what one mark says that came out otherwise than a good one.

pub mod beam_fit;
mod bias;
pub mod by_eye;
pub mod calibration;
pub mod causes;
mod curve;
pub mod diagnosis;
pub mod estimate;
pub mod from_marks;
pub mod from_width;
mod likelihood;
pub mod mark_fit;
pub mod plan;
pub mod settling;
mod solver;
mod squares;
pub mod statistics;
pub mod threshold_fit;

#[doc(inline)]
pub use beam_fit::{BeamFit, BeamFitOptions, BeamReadings, BeamWarnings, fit_beam};
#[doc(inline)]
pub use by_eye::{
    EyeFocus, EyeJudgement, EyeWarnings, MOST_PIECES, PieceRank, RankFocus, RunEnd, VanishingFocus,
    focus_from_ranks, focus_from_vanishing,
};
#[doc(inline)]
pub use calibration::{
    CalibratedSetUp, LearnedFocus, LearnedLine, LearnedThreshold, NORMAL_FACTOR_95, calibrated_set_up,
    learned_threshold,
};
#[doc(inline)]
pub use causes::{Ambiguities, FurtherTest, MarkCause};
#[doc(inline)]
pub use diagnosis::{
    DepthLaw, DepthReading, GREATEST_RELATIVE_DEVIATION, GoodMark, MarkDiagnosis, diagnose_mark,
};
#[doc(inline)]
pub use estimate::Estimate;
#[doc(inline)]
pub use from_marks::{LearnedMachine, MarkedLines, SeriesFindings, calibration_from_marks};
#[doc(inline)]
pub use from_width::{PossibleHeight, PossiblePower, WidthDiagnosis, diagnose_width};
#[doc(inline)]
pub use mark_fit::{
    FurtherMarks, MarkFit, MarkFitCautions, MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter,
    fit_mark_widths,
};
#[doc(inline)]
pub use plan::{
    HeightLabel, PieceLayout, PieceRole, PlannedPiece, RepeatedWidth, SeriesAxis, SeriesDrift, SeriesPlan,
    SeriesPurpose, SeriesRequest, SkipReason, SweepDirection, plan_series, series_drift,
};
#[doc(inline)]
pub use settling::{
    HeightReadings, HeightSettlement, HeightVerdict, PatchSettlement, PowerSettlement, PowerStep,
    settle_by_heights, settle_by_patch, settle_by_power,
};
#[doc(inline)]
pub use squares::ReadingWeights;
#[doc(inline)]
pub use statistics::{chi_squared_chance, student_factor};
#[doc(inline)]
pub use threshold_fit::{TestMarks, ThresholdFit, ThresholdFitOptions, ThresholdWarnings, fit_threshold};
