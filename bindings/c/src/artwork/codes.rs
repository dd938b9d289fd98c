//! Choices and flags of a preflight. The header shows them as `#define`s; each is tied to the core's own code by an
//! assertion.

use spotwise::Param;
use spotwise::artwork::{
    Answer, ChangeKind, Demand, DrawingUse, FULL_DOSE, MOST_DOSE_RATIO, MarkGrade, MarkReasons, QuickVerdict,
    SampleKind, Scan,
};

/// What a sample says: 0 is bare, anything else is ink.
pub const SPOTWISE_SAMPLES_BILEVEL: u32 = 1;
/// What a sample says: the share of the pixel that is inked, 0 none, 255 all of it. Ink is from 128 on.
pub const SPOTWISE_SAMPLES_COVERAGE: u32 = 2;

/// What a drawing is: the shapes that are to be marked, which the machine will sample finely.
pub const SPOTWISE_DRAWING_SHAPES: u32 = 1;
/// What a drawing is: the very raster that is burnt, each row of pixels one pass of the spot.
pub const SPOTWISE_DRAWING_BURNT_RASTER: u32 = 2;

/// What is known of the scan: nothing, so that each pixel counts as a box that is burnt evenly.
pub const SPOTWISE_SCAN_UNKNOWN: u32 = 1;
/// What is known of the scan: lines along the rows, burnt while they cross ink.
pub const SPOTWISE_SCAN_ALONG_ROWS: u32 = 2;

/// The dose of a wide even fill in the units of an exposure.
pub const SPOTWISE_FULL_DOSE: u32 = 32768;
/// Greatest dose ratio of a preflight: beyond it, exposures that are wrong by 5e-4 of full dose could be a tenth of what
/// marks.
pub const SPOTWISE_MOST_DOSE_RATIO: f64 = 200.0;

/// Change: a piece of the drawing of which no pixel is marked.
pub const SPOTWISE_CHANGE_COMPONENT_LOST: u32 = 1;
/// Change: a piece of the drawing that is marked in two pieces or more.
pub const SPOTWISE_CHANGE_COMPONENT_SPLIT: u32 = 2;
/// Change: a piece of the mark that joins two pieces of the drawing or more.
pub const SPOTWISE_CHANGE_COMPONENTS_MERGED: u32 = 3;
/// Change: a piece of the mark in which no pixel is drawn.
pub const SPOTWISE_CHANGE_COMPONENT_NEW: u32 = 4;
/// Change: a hole of the drawing of which every pixel is marked.
pub const SPOTWISE_CHANGE_HOLE_CLOSED: u32 = 5;
/// Change: a hole of the drawing that is open to the outside in the mark.
pub const SPOTWISE_CHANGE_HOLE_OPENED: u32 = 6;
/// Change: a hole of the drawing that is parted in the mark.
pub const SPOTWISE_CHANGE_HOLE_SPLIT: u32 = 7;
/// Change: a hole of the mark that joins two holes of the drawing or more.
pub const SPOTWISE_CHANGE_HOLES_MERGED: u32 = 8;
/// Change: a hole of the mark that shares no pixel with a hole of the drawing.
pub const SPOTWISE_CHANGE_HOLE_NEW: u32 = 9;

/// Grade of a mark: everything is whole, with room for error in the dose, and strokes get all but the full dose.
pub const SPOTWISE_MARK_GRADE_CRISP: u32 = 1;
/// Grade of a mark: everything is whole, with room for error in the dose.
pub const SPOTWISE_MARK_GRADE_GOOD: u32 = 2;
/// Grade of a mark: strokes and counters hold, but neighbours touch or the dose has little room.
pub const SPOTWISE_MARK_GRADE_DEGRADED: u32 = 3;
/// Grade of a mark: strokes are lost or broken, or counters filled.
pub const SPOTWISE_MARK_GRADE_LOST: u32 = 4;

/// No dose keeps every stroke and every counter: focus or lens is the cause, not power.
pub const SPOTWISE_MARK_REASON_NO_DOSE_SAVES: u32 = 1;
/// At this dose strokes are lost or broken that a higher one keeps.
pub const SPOTWISE_MARK_REASON_DOSE_TOO_LOW: u32 = 2;
/// At this dose counters fill that a lower one leaves open.
pub const SPOTWISE_MARK_REASON_DOSE_TOO_HIGH: u32 = 4;
/// Neighbours touch at this dose.
pub const SPOTWISE_MARK_REASON_NEIGHBOURS_TOUCH: u32 = 8;
/// The dose at which all holds has little room.
pub const SPOTWISE_MARK_REASON_NARROW_DOSE_WINDOW: u32 = 16;
/// Half of the strokes' length gets less than all but the full dose, so that edges are soft.
pub const SPOTWISE_MARK_REASON_SOFT_STROKES: u32 = 32;
/// Part of the drawing lies where the surface has no known height: nothing is said of it.
pub const SPOTWISE_MARK_REASON_PARTLY_UNKNOWN: u32 = 64;
/// The pixels are too coarse for the spot: draw it finer to be sure.
pub const SPOTWISE_MARK_REASON_COARSE_PIXELS: u32 = 128;

/// What must hold of a drawing: strokes whole and counters open.
pub const SPOTWISE_DEMAND_LEGIBLE: u32 = 1;
/// What must hold of a drawing: neighbours apart as well.
pub const SPOTWISE_DEMAND_APART: u32 = 2;

/// What distances alone say: no piece is lost or starved, no two come to touch, no hole closes or opens.
pub const SPOTWISE_QUICK_NOTHING_AT_RISK: u32 = 1;
/// What distances alone say: a piece is lost, two come to touch, or a hole closes or opens; the drawing does not hold.
pub const SPOTWISE_QUICK_SOMETHING_LOST: u32 = 2;
/// What distances alone say: nothing that is sure; it is for spotwise_preflight() to say.
pub const SPOTWISE_QUICK_UNSURE: u32 = 3;

/// What a spotwise_tell function returns for the work to go on; anything else stops it.
pub const SPOTWISE_GO_ON: u32 = 0;
/// What a spotwise_tell function returns to stop the work.
pub const SPOTWISE_STOP: u32 = 1;

const _: () = {
    assert!(SPOTWISE_SAMPLES_BILEVEL == SampleKind::Bilevel.code());
    assert!(SPOTWISE_SAMPLES_COVERAGE == SampleKind::Coverage.code());
    assert!(SPOTWISE_SAMPLES_COVERAGE as f64 == Param::SampleKind.range().1);
    assert!(SPOTWISE_DRAWING_SHAPES == DrawingUse::Shapes.code());
    assert!(SPOTWISE_DRAWING_BURNT_RASTER == DrawingUse::BurntRaster.code());
    assert!(SPOTWISE_DRAWING_BURNT_RASTER as f64 == Param::DrawingUse.range().1);
    assert!(SPOTWISE_SCAN_UNKNOWN == Scan::Unknown.code());
    assert!(SPOTWISE_SCAN_ALONG_ROWS == Scan::AlongRows { line_interval: 0.0, first_line: 0.0 }.code());
    assert!(SPOTWISE_SCAN_ALONG_ROWS as f64 == Param::ScanKind.range().1);
    assert!(SPOTWISE_FULL_DOSE == FULL_DOSE as u32);
    assert!(SPOTWISE_MOST_DOSE_RATIO == MOST_DOSE_RATIO);

    // The responses of choices.rs are those of a preflight, too.
    use crate::choices::{
        SPOTWISE_RESPONSE_COATING, SPOTWISE_RESPONSE_LINEAR_ABLATION, SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION,
        SPOTWISE_RESPONSE_MELT,
    };
    let (penetration_depth, threshold_depth, visible_depth) = (0.0, 0.0, 0.0);
    let logarithmic = Answer::LogarithmicBulk { penetration_depth, visible_depth };
    assert!(SPOTWISE_RESPONSE_COATING == Answer::Coating.code());
    assert!(SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION == logarithmic.code());
    assert!(
        SPOTWISE_RESPONSE_LINEAR_ABLATION == Answer::LinearBulk { threshold_depth, visible_depth }.code()
    );
    assert!(SPOTWISE_RESPONSE_MELT == Answer::Melt { bridge: 0.0 }.code());

    assert!(SPOTWISE_CHANGE_COMPONENT_LOST == ChangeKind::ComponentLost.code());
    assert!(SPOTWISE_CHANGE_COMPONENT_SPLIT == ChangeKind::ComponentSplit.code());
    assert!(SPOTWISE_CHANGE_COMPONENTS_MERGED == ChangeKind::ComponentsMerged.code());
    assert!(SPOTWISE_CHANGE_COMPONENT_NEW == ChangeKind::ComponentNew.code());
    assert!(SPOTWISE_CHANGE_HOLE_CLOSED == ChangeKind::HoleClosed.code());
    assert!(SPOTWISE_CHANGE_HOLE_OPENED == ChangeKind::HoleOpened.code());
    assert!(SPOTWISE_CHANGE_HOLE_SPLIT == ChangeKind::HoleSplit.code());
    assert!(SPOTWISE_CHANGE_HOLES_MERGED == ChangeKind::HolesMerged.code());
    assert!(SPOTWISE_CHANGE_HOLE_NEW == ChangeKind::HoleNew.code());
    assert!(ChangeKind::ALL.len() == 9);

    assert!(SPOTWISE_MARK_GRADE_CRISP == MarkGrade::Crisp as u32);
    assert!(SPOTWISE_MARK_GRADE_GOOD == MarkGrade::Good as u32);
    assert!(SPOTWISE_MARK_GRADE_DEGRADED == MarkGrade::Degraded as u32);
    assert!(SPOTWISE_MARK_GRADE_LOST == MarkGrade::Lost as u32);
    assert!(MarkGrade::ALL.len() == 4);

    assert!(SPOTWISE_MARK_REASON_NO_DOSE_SAVES == MarkReasons::NO_DOSE_SAVES.bits());
    assert!(SPOTWISE_MARK_REASON_DOSE_TOO_LOW == MarkReasons::DOSE_TOO_LOW.bits());
    assert!(SPOTWISE_MARK_REASON_DOSE_TOO_HIGH == MarkReasons::DOSE_TOO_HIGH.bits());
    assert!(SPOTWISE_MARK_REASON_NEIGHBOURS_TOUCH == MarkReasons::NEIGHBOURS_TOUCH.bits());
    assert!(SPOTWISE_MARK_REASON_NARROW_DOSE_WINDOW == MarkReasons::NARROW_DOSE_WINDOW.bits());
    assert!(SPOTWISE_MARK_REASON_SOFT_STROKES == MarkReasons::SOFT_STROKES.bits());
    assert!(SPOTWISE_MARK_REASON_PARTLY_UNKNOWN == MarkReasons::PARTLY_UNKNOWN.bits());
    assert!(SPOTWISE_MARK_REASON_COARSE_PIXELS == MarkReasons::COARSE_PIXELS.bits());
    assert!(MarkReasons::ALL.len() == 8);

    assert!(SPOTWISE_DEMAND_LEGIBLE == Demand::Legible.code());
    assert!(SPOTWISE_DEMAND_APART == Demand::Apart.code());
    assert!(SPOTWISE_DEMAND_APART as f64 == Param::Demand.range().1);

    assert!(SPOTWISE_QUICK_NOTHING_AT_RISK == QuickVerdict::NothingAtRisk as u32);
    assert!(SPOTWISE_QUICK_SOMETHING_LOST == QuickVerdict::SomethingLost as u32);
    assert!(SPOTWISE_QUICK_UNSURE == QuickVerdict::Unsure as u32);
    assert!(QuickVerdict::ALL.len() == 3);

    assert!(SPOTWISE_STOP != SPOTWISE_GO_ON);
};
