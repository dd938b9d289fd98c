//! Choices and flags of what the spot leaves behind. The header shows them as `#define`s; each is tied
//! to the core's own code by an assertion.

use spotwise::Param;
use spotwise::model::check::JobDose;
use spotwise::model::mark::{
    CompensationLimits, CompensationRule, MarkKind, POINT, Response, Taste, TextGrade, Typeface,
};

/// Kind of mark: one pulse, or any mark that goes by the peak irradiance.
pub const SPOTWISE_MARK_PULSE: u32 = 1;
/// Kind of mark: one scanned line.
pub const SPOTWISE_MARK_LINE: u32 = 2;

/// Response of a material: a coating that is removed above the threshold, and no further.
pub const SPOTWISE_RESPONSE_COATING: u32 = 1;
/// Response of a material: a bulk into which the dose falls off by an exponential law.
pub const SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION: u32 = 2;
/// Response of a material: a bulk of which every joule above the threshold removes its share.
pub const SPOTWISE_RESPONSE_LINEAR_ABLATION: u32 = 3;
/// Response of a material: a melt, whose heat spreads while the spot dwells.
pub const SPOTWISE_RESPONSE_MELT: u32 = 4;

/// Taste in fills: the crispest edge.
pub const SPOTWISE_TASTE_CRISPEST: u32 = 1;
/// Taste in fills: the smoothest one whose edge is no wider than largest_edge_m.
pub const SPOTWISE_TASTE_SMOOTHEST_WITHIN: u32 = 2;
/// Taste in fills: the least cost of edge and ripple together, by crispness_weight.
pub const SPOTWISE_TASTE_COMPROMISE: u32 = 3;

/// Compensation: the dose of a line, or the fluence of a pulse, is to be as it was in focus.
pub const SPOTWISE_COMPENSATION_SAME_DOSE: u32 = 1;
/// Compensation: the width of the mark is to be as it was in focus.
pub const SPOTWISE_COMPENSATION_SAME_WIDTH: u32 = 2;
/// Compensation: not as it was, but a width that no longer reacts to focus.
pub const SPOTWISE_COMPENSATION_FOCUS_INSENSITIVE_WIDTH: u32 = 3;

/// The greatest power is less than is wanted. Where speed cannot make up for it, the dose stays short:
/// always so for a pulse.
pub const SPOTWISE_LIMIT_GREATEST_POWER: u32 = 1;
/// The least speed is more than is wanted, so that the dose stays short. Never set for a pulse.
pub const SPOTWISE_LIMIT_LEAST_SPEED: u32 = 2;
/// The irradiance stays below the least allowed.
pub const SPOTWISE_LIMIT_LEAST_IRRADIANCE: u32 = 4;
/// The greatest speed is less than is wanted to go with the power for the least irradiance.
pub const SPOTWISE_LIMIT_GREATEST_SPEED: u32 = 8;

/// Typeface: sans serif of regular weight.
pub const SPOTWISE_TYPEFACE_SANS: u32 = 1;
/// Typeface: sans serif, bold.
pub const SPOTWISE_TYPEFACE_BOLD_SANS: u32 = 2;
/// Typeface: sans serif, light.
pub const SPOTWISE_TYPEFACE_LIGHT_SANS: u32 = 3;
/// Typeface: with serifs, regular weight.
pub const SPOTWISE_TYPEFACE_SERIF: u32 = 4;
/// Typeface: all letters of one width.
pub const SPOTWISE_TYPEFACE_MONOSPACED: u32 = 5;
/// Typeface: measured by you; reads the shares that stand beside it.
pub const SPOTWISE_TYPEFACE_MEASURED: u32 = 6;

/// Grade of text: edges as sharp as the spot makes them, stems at full dose.
pub const SPOTWISE_GRADE_CRISP: u32 = 1;
/// Grade of text: letters whole, apart and open, with room for error in the dose.
pub const SPOTWISE_GRADE_GOOD: u32 = 2;
/// Grade of text: just readable.
pub const SPOTWISE_GRADE_READABLE: u32 = 3;
/// Grade of text: strokes lost or counters filled. As a least grade it asks for nothing.
pub const SPOTWISE_GRADE_LOST: u32 = 4;

/// A point of 1/72 inch in metres: the em of 4 point type is 4 * SPOTWISE_POINT_M.
pub const SPOTWISE_POINT_M: f64 = 0.0254 / 72.0;

/// Dose of a job: known by dose_ratio.
pub const SPOTWISE_DOSE_BY_RATIO: u32 = 1;
/// Dose of a job: known by power_w, speed_m_per_s, line_interval_m and threshold_j_per_m2, and how the
/// material answers to it by response.
pub const SPOTWISE_DOSE_BY_SCAN: u32 = 2;

/// Text of a job: there is none.
pub const SPOTWISE_TEXT_NONE: u32 = 1;
/// Text of a job: its typeface, size and least grade are given.
pub const SPOTWISE_TEXT_GIVEN: u32 = 2;

const _: () = {
    assert!(SPOTWISE_MARK_PULSE == MarkKind::Pulse as u32);
    assert!(SPOTWISE_MARK_LINE == MarkKind::Line as u32);
    assert!(MarkKind::ALL.len() == 2);

    let logarithmic = Response::LogarithmicAblation { penetration_depth: 0.0 };
    let linear = Response::LinearAblation { removal_energy: 0.0 };
    assert!(SPOTWISE_RESPONSE_COATING == Response::Coating.code());
    assert!(SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION == logarithmic.code());
    assert!(SPOTWISE_RESPONSE_LINEAR_ABLATION == linear.code());
    assert!(SPOTWISE_RESPONSE_MELT == Response::Melt { diffusivity: 0.0 }.code());
    assert!(SPOTWISE_RESPONSE_MELT as f64 == Param::Response.range().1);

    assert!(SPOTWISE_TASTE_CRISPEST == Taste::Crispest.code());
    assert!(SPOTWISE_TASTE_SMOOTHEST_WITHIN == Taste::SmoothestWithin { largest_edge: 0.0 }.code());
    assert!(SPOTWISE_TASTE_COMPROMISE == Taste::Compromise { crispness_weight: 0.0 }.code());
    assert!(SPOTWISE_TASTE_COMPROMISE as f64 == Param::Taste.range().1);

    assert!(SPOTWISE_COMPENSATION_SAME_DOSE == CompensationRule::SameDose as u32);
    assert!(SPOTWISE_COMPENSATION_SAME_WIDTH == CompensationRule::SameWidth as u32);
    let insensitive = CompensationRule::FocusInsensitiveWidth;
    assert!(SPOTWISE_COMPENSATION_FOCUS_INSENSITIVE_WIDTH == insensitive as u32);
    assert!(CompensationRule::ALL.len() == 3);

    assert!(SPOTWISE_LIMIT_GREATEST_POWER == CompensationLimits::GREATEST_POWER.bits());
    assert!(SPOTWISE_LIMIT_LEAST_SPEED == CompensationLimits::LEAST_SPEED.bits());
    assert!(SPOTWISE_LIMIT_LEAST_IRRADIANCE == CompensationLimits::LEAST_IRRADIANCE.bits());
    assert!(SPOTWISE_LIMIT_GREATEST_SPEED == CompensationLimits::GREATEST_SPEED.bits());
    assert!(CompensationLimits::ALL.len() == 4);

    let (stem, effective_stroke, effective_counter, effective_gap) = (0.0, 0.0, 0.0, 0.0);
    let measured = Typeface::Measured { stem, effective_stroke, effective_counter, effective_gap };
    assert!(SPOTWISE_TYPEFACE_SANS == Typeface::Sans.code());
    assert!(SPOTWISE_TYPEFACE_BOLD_SANS == Typeface::BoldSans.code());
    assert!(SPOTWISE_TYPEFACE_LIGHT_SANS == Typeface::LightSans.code());
    assert!(SPOTWISE_TYPEFACE_SERIF == Typeface::Serif.code());
    assert!(SPOTWISE_TYPEFACE_MONOSPACED == Typeface::Monospaced.code());
    assert!(SPOTWISE_TYPEFACE_MEASURED == measured.code());
    assert!(SPOTWISE_TYPEFACE_MEASURED as f64 == Param::Typeface.range().1);

    assert!(SPOTWISE_GRADE_CRISP == TextGrade::Crisp as u32);
    assert!(SPOTWISE_GRADE_GOOD == TextGrade::Good as u32);
    assert!(SPOTWISE_GRADE_READABLE == TextGrade::Readable as u32);
    assert!(SPOTWISE_GRADE_LOST == TextGrade::Lost as u32);
    assert!(TextGrade::ALL.len() == 4);

    assert!(SPOTWISE_POINT_M == POINT);

    let (power, speed, line_interval, threshold, response) = (0.0, 0.0, 0.0, 0.0, Response::Coating);
    let scan = JobDose::Scan { power, speed, line_interval, threshold, response };
    assert!(SPOTWISE_DOSE_BY_RATIO == JobDose::Ratio { dose_ratio: 0.0 }.code());
    assert!(SPOTWISE_DOSE_BY_SCAN == scan.code());
    assert!(SPOTWISE_DOSE_BY_SCAN as f64 == Param::JobDose.range().1);
    assert!(SPOTWISE_TEXT_GIVEN as f64 == Param::JobText.range().1);
};
