//! A series of test pieces, planned; and its drift.

use crate::abi::{Fault, Plain, error_pointer_fault, init, init_as, input, plain, pointer_fault, report};
use crate::arrays::{longest_of, structs_fault};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::UNKNOWN;
use core::ffi::c_char;
use spotwise::model::learn::{
    HeightLabel, PieceLayout, PieceRole, PlannedPiece, RepeatedWidth, SeriesAxis, SeriesDrift, SeriesPlan,
    SeriesPurpose, SeriesRequest, SkipReason, SweepDirection, series_drift,
};
use spotwise::model::mark::MarkKind;
use spotwise::{Error, Param};

/// To measure widths, or to rank pieces by eye.
pub const SPOTWISE_SERIES_WIDTHS: u32 = 1;
/// To see where marks of little power vanish.
pub const SPOTWISE_SERIES_VANISHING: u32 = 2;

/// From the height nearest the lens on.
pub const SPOTWISE_SWEEP_AWAY_FROM_LENS: u32 = 1;
/// From the height farthest from the lens on.
pub const SPOTWISE_SWEEP_TOWARD_LENS: u32 = 2;

/// A height of the sweep.
pub const SPOTWISE_PIECE_SWEEP: u32 = 1;
/// Engraved before the sweep, to reveal drift.
pub const SPOTWISE_PIECE_FIRST_REPEAT: u32 = 2;
/// The same after the sweep.
pub const SPOTWISE_PIECE_LAST_REPEAT: u32 = 3;

/// The head would come closer than the least clearance.
pub const SPOTWISE_SKIP_TOO_NEAR_HEAD: u32 = 1;
/// Beyond the travel toward the lens.
pub const SPOTWISE_SKIP_BEYOND_TRAVEL_TOWARD_LENS: u32 = 2;
/// Beyond the travel away from the lens.
pub const SPOTWISE_SKIP_BEYOND_TRAVEL_AWAY_FROM_LENS: u32 = 3;
/// No room to approach it in the direction of the sweep.
pub const SPOTWISE_SKIP_NO_ROOM_TO_APPROACH: u32 = 4;

/// Room for the text of a height with its NUL.
pub const SPOTWISE_LABEL_ROOM: u32 = 13;

const _: () = {
    assert!(SPOTWISE_SERIES_WIDTHS == SeriesPurpose::Widths.code());
    let vanishing = SeriesPurpose::Vanishing { kind: MarkKind::Line, dose_ratio: 2.0 };
    assert!(SPOTWISE_SERIES_VANISHING == vanishing.code());
    assert!(SPOTWISE_SWEEP_AWAY_FROM_LENS == SweepDirection::AwayFromLens as u32);
    assert!(SPOTWISE_SWEEP_TOWARD_LENS == SweepDirection::TowardLens as u32);
    assert!(SPOTWISE_PIECE_SWEEP == PieceRole::Sweep as u32);
    assert!(SPOTWISE_PIECE_FIRST_REPEAT == PieceRole::FirstRepeat as u32);
    assert!(SPOTWISE_PIECE_LAST_REPEAT == PieceRole::LastRepeat as u32);
    assert!(SPOTWISE_SKIP_TOO_NEAR_HEAD == SkipReason::TooNearHead as u32);
    assert!(SPOTWISE_SKIP_BEYOND_TRAVEL_TOWARD_LENS == SkipReason::BeyondTravelTowardLens as u32);
    assert!(SPOTWISE_SKIP_BEYOND_TRAVEL_AWAY_FROM_LENS == SkipReason::BeyondTravelAwayFromLens as u32);
    assert!(SPOTWISE_SKIP_NO_ROOM_TO_APPROACH == SkipReason::NoRoomToApproach as u32);
    assert!(SPOTWISE_LABEL_ROOM as usize == HeightLabel::ROOM + 1);
};

/// What a series of test pieces is to be.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_series_request {
    /// Size of this struct; spotwise_series_request_init() sets it.
    pub struct_size: u32,
    /// What it is engraved for: one of SPOTWISE_SERIES_*.
    pub purpose: u32,
    /// What the pieces are made of: one of SPOTWISE_MARK_*; for SPOTWISE_SERIES_VANISHING.
    pub mark_kind: u32,
    /// Which way to sweep: one of SPOTWISE_SWEEP_*.
    pub direction: u32,
    /// Dose in focus over threshold dose, as expected, 1.2 to 2 is best; for SPOTWISE_SERIES_VANISHING; range:
    /// SPOTWISE_PARAM_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Where focus is expected, in metres from the caller's datum, + away from the lens; range:
    /// SPOTWISE_PARAM_FOCUS_Z.
    pub expected_focus_z_m: f64,
    /// How far focus may be from there in metres, either way; range: SPOTWISE_PARAM_SET_UP_TOLERANCE.
    pub focus_uncertainty_m: f64,
    /// Step from height to height in metres; 0, which spotwise_series_request_init() sets, to have it chosen; range:
    /// SPOTWISE_PARAM_SERIES_STEP.
    pub step_m: f64,
    /// Half of the range in metres; 0, which spotwise_series_request_init() sets, to have it chosen; range:
    /// SPOTWISE_PARAM_SERIES_HALF_RANGE.
    pub half_range_m: f64,
    /// Smallest step of the axis in metres; 0, which spotwise_series_request_init() sets, if it takes any height;
    /// range: SPOTWISE_PARAM_AXIS_STEP.
    pub axis_step_m: f64,
    /// Backlash of the axis in metres; range: SPOTWISE_PARAM_AXIS_BACKLASH.
    pub backlash_m: f64,
    /// From the lowest part of the head to a piece in expected focus, in metres; range:
    /// SPOTWISE_PARAM_WORKING_DISTANCE.
    pub clearance_m: f64,
    /// What must be left of it over any piece, in metres; range: SPOTWISE_PARAM_LEAST_CLEARANCE.
    pub least_clearance_m: f64,
    /// How far pieces can move from expected focus toward the lens, in metres; INFINITY, which
    /// spotwise_series_request_init() sets, if that is no limit; range: SPOTWISE_PARAM_AXIS_TRAVEL.
    pub travel_toward_lens_m: f64,
    /// How far they can move away from the lens, likewise.
    pub travel_away_from_lens_m: f64,
    /// Width of a piece on the drawing in metres; range of this and the next three: SPOTWISE_PARAM_PIECE_SIZE.
    pub piece_width_m: f64,
    /// Height of a piece on the drawing in metres.
    pub piece_height_m: f64,
    /// Width of the room for a label in metres.
    pub label_width_m: f64,
    /// Height of the room for a label in metres.
    pub label_height_m: f64,
    /// What is left free between a piece, its label and its neighbours, in metres; range: SPOTWISE_PARAM_PIECE_GAP.
    pub gap_m: f64,
    /// Greatest width of a row in metres; INFINITY, which spotwise_series_request_init() sets, for one row; range:
    /// SPOTWISE_PARAM_ROW_WIDTH, and at least a piece and its label.
    pub row_width_m: f64,
}
plain!(
    spotwise_series_request, 152 bytes,
    words: [purpose, mark_kind, direction],
    numbers: [
        dose_ratio,
        expected_focus_z_m,
        focus_uncertainty_m,
        step_m,
        half_range_m,
        axis_step_m,
        backlash_m,
        clearance_m,
        least_clearance_m,
        travel_toward_lens_m,
        travel_away_from_lens_m,
        piece_width_m,
        piece_height_m,
        label_width_m,
        label_height_m,
        gap_m,
        row_width_m,
    ]
);

impl TryFrom<spotwise_series_request> for SeriesRequest {
    type Error = Error;

    fn try_from(request: spotwise_series_request) -> Result<Self, Error> {
        Ok(Self {
            purpose: SeriesPurpose::from_code(request.purpose, request.mark_kind, request.dose_ratio)?,
            expected_focus_z: request.expected_focus_z_m,
            focus_uncertainty: request.focus_uncertainty_m,
            step: request.step_m,
            half_range: request.half_range_m,
            axis: SeriesAxis {
                axis_step: request.axis_step_m,
                backlash: request.backlash_m,
                direction: SweepDirection::from_code(request.direction)?,
                clearance: request.clearance_m,
                least_clearance: request.least_clearance_m,
                travel_toward_lens: request.travel_toward_lens_m,
                travel_away_from_lens: request.travel_away_from_lens_m,
            },
            layout: PieceLayout {
                piece_width: request.piece_width_m,
                piece_height: request.piece_height_m,
                label_width: request.label_width_m,
                label_height: request.label_height_m,
                gap: request.gap_m,
                row_width: request.row_width_m,
            },
        })
    }
}

/// Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but step_m, half_range_m and
/// axis_step_m to 0, and both travels and row_width_m to INFINITY. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_series_request_init(request: *mut spotwise_series_request) {
    let fresh = spotwise_series_request {
        step_m: 0.0,
        half_range_m: 0.0,
        axis_step_m: 0.0,
        travel_toward_lens_m: f64::INFINITY,
        travel_away_from_lens_m: f64::INFINITY,
        row_width_m: f64::INFINITY,
        ..spotwise_series_request::BLANK
    };
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(request, fresh) }
}

/// One piece of a planned series.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_planned_piece {
    /// Size of this struct; spotwise_planned_piece_init() sets it.
    pub struct_size: u32,
    /// Why it is in the series: one of SPOTWISE_PIECE_*; 0 for no piece.
    pub role: u32,
    /// Why it is left out: one of SPOTWISE_SKIP_*; 0 if it is engraved.
    pub skipped: u32,
    /// 0.
    pub reserved: u32,
    /// Its height in metres from the caller's datum, + away from the lens; its label: spotwise_height_label().
    pub z_m: f64,
    /// Where the axis is to be before it goes to that height, in metres; of a piece that follows another one in the
    /// sweep the height of that; NaN, as the next, for a piece that is left out.
    pub approach_z_m: f64,
    /// Lower left corner of the piece on the drawing in metres, to the right.
    pub x_m: f64,
    /// The same, upward.
    pub y_m: f64,
    /// Lower left corner of the room for its label in metres, to the right.
    pub label_x_m: f64,
    /// The same, upward.
    pub label_y_m: f64,
}
plain!(
    spotwise_planned_piece, 64 bytes,
    words: [role, skipped, reserved],
    numbers: [z_m, approach_z_m, x_m, y_m, label_x_m, label_y_m]
);

impl From<PlannedPiece> for spotwise_planned_piece {
    fn from(piece: PlannedPiece) -> Self {
        Self {
            role: piece.role as u32,
            skipped: piece.skipped.map_or(0, |reason| reason as u32),
            z_m: piece.z,
            approach_z_m: piece.approach_z,
            x_m: piece.x,
            y_m: piece.y,
            label_x_m: piece.label_x,
            label_y_m: piece.label_y,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, the codes to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_planned_piece_init(piece: *mut spotwise_planned_piece) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(piece) }
}

/// A planned series: the result of spotwise_plan_series().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_series_plan {
    /// Size of this struct; spotwise_series_plan_init() sets it.
    pub struct_size: u32,
    /// Steps on either side of expected focus, skipped ones among them.
    pub steps_per_side: u32,
    /// Steps that are engraved on the side toward the lens.
    pub steps_toward_lens: u32,
    /// Steps that are engraved on the side away from the lens.
    pub steps_away_from_lens: u32,
    /// Pieces in all, skipped ones among them: as many entries has the list.
    pub pieces: u32,
    /// Pieces that are engraved.
    pub engraved: u32,
    /// Pieces in a full row of the drawing.
    pub columns: u32,
    /// Rows of the drawing.
    pub rows: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 0.
    pub reserved: u32,
    /// Step from height to height in metres.
    pub step_m: f64,
    /// Half of the range in metres: so many steps.
    pub half_range_m: f64,
    /// From how far before its height the first piece of the sweep, and every repeat, is approached, in metres.
    pub pre_travel_m: f64,
    /// Rayleigh range of the expected beam in metres.
    pub rayleigh_range_m: f64,
    /// How far from focus the mark is expected to vanish, in metres; NaN unless that is what the series is for.
    pub vanishing_offset_m: f64,
    /// Width of the whole drawing in metres.
    pub width_m: f64,
    /// Height of the whole drawing in metres.
    pub height_m: f64,
    /// Half angle of the cone of the expected beam in radians.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_series_plan, 104 bytes,
    words: [
        steps_per_side,
        steps_toward_lens,
        steps_away_from_lens,
        pieces,
        engraved,
        columns,
        rows,
        validity,
        reserved,
    ],
    numbers: [
        step_m,
        half_range_m,
        pre_travel_m,
        rayleigh_range_m,
        vanishing_offset_m,
        width_m,
        height_m,
        half_angle_rad,
    ]
);

impl From<SeriesPlan> for spotwise_series_plan {
    fn from(plan: SeriesPlan) -> Self {
        Self {
            steps_per_side: plan.steps_per_side,
            steps_toward_lens: plan.steps_toward_lens,
            steps_away_from_lens: plan.steps_away_from_lens,
            pieces: plan.pieces,
            engraved: plan.engraved,
            columns: plan.columns,
            rows: plan.rows,
            validity: plan.validity.bits(),
            step_m: plan.step,
            half_range_m: plan.half_range,
            pre_travel_m: plan.pre_travel,
            rayleigh_range_m: plan.rayleigh_range,
            vanishing_offset_m: plan.vanishing_offset.unwrap_or(f64::BLANK),
            width_m: plan.width,
            height_m: plan.height,
            half_angle_rad: plan.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_series_plan_init(plan: *mut spotwise_series_plan) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(plan) }
}

/// A height that was engraved before and after a sweep, as it was measured.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_repeated_width {
    /// Size of this struct; spotwise_repeated_width_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Width of the mark before the sweep in metres; range of both widths: SPOTWISE_PARAM_MARK_WIDTH.
    pub first_width_m: f64,
    /// Standard deviation of that in metres; range of both: SPOTWISE_PARAM_WIDTH_DEVIATION.
    pub first_deviation_m: f64,
    /// Width of the mark after the sweep in metres.
    pub last_width_m: f64,
    /// Standard deviation of that in metres.
    pub last_deviation_m: f64,
}
plain!(
    spotwise_repeated_width, 40 bytes,
    words: [reserved],
    numbers: [first_width_m, first_deviation_m, last_width_m, last_deviation_m]
);

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_repeated_width_init(repeats: *mut spotwise_repeated_width) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(repeats) }
}

/// What two repeats of one height say: the result of spotwise_series_drift().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_drift {
    /// Size of this struct; spotwise_drift_init() sets it.
    pub struct_size: u32,
    /// 1 if the chance is less than 1 - coverage probability, else 0.
    pub drifted: u32,
    /// Last width less first in metres.
    pub change_m: f64,
    /// Its standard deviation in metres.
    pub change_deviation_m: f64,
    /// Change over its deviation.
    pub significance: f64,
    /// The chance of a change so great either way, were there no drift.
    pub chance: f64,
}
plain!(
    spotwise_drift, 40 bytes,
    words: [drifted],
    numbers: [change_m, change_deviation_m, significance, chance]
);

impl From<SeriesDrift> for spotwise_drift {
    fn from(drift: SeriesDrift) -> Self {
        Self {
            drifted: u32::from(drift.drifted),
            change_m: drift.change,
            change_deviation_m: drift.change_deviation,
            significance: drift.significance,
            chance: drift.chance,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_drift_init(drift: *mut spotwise_drift) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(drift) }
}

/// Plans a series of test pieces at stepped heights.
///
/// Unless told otherwise: for widths or ranks, steps of 0.4 Rayleigh ranges over 2 of them on either side and the
/// uncertainty of focus; for vanishing marks, steps of a quarter of the offset at which they vanish, over 1.5 times that
/// offset and the uncertainty. A step is rounded to whole steps of the axis. The axis sweeps one way; every piece is
/// approached in that direction, the first and every repeat from two backlashes before its height. Expected focus and,
/// of widths, the farthest height within a Rayleigh range away from it are engraved before and after the sweep, for
/// spotwise_series_drift(). A height without clearance, travel or room to approach it is left out and says why.
/// Pieces stand in rows in the order in which they are engraved, the height below each.
///
/// @param[in]  beam    the expected beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  request what is wanted; set with spotwise_series_request_init(); not NULL.
/// @param[out] pieces  room entries, filled in the order in which they are engraved, those that are left out among
///                     them; each set with spotwise_planned_piece_init(); not NULL unless room is 0. What is not
///                     filled, and all of it on any status other than SPOTWISE_OK, is made as that makes it, but for
///                     a room that no array can have: then nothing is written to it.
/// @param[in]  room    entries of pieces; 0 to ask for their number first. 245 are always enough.
/// @param[out] plan    result; set with spotwise_series_plan_init(); not NULL. On any status other than SPOTWISE_OK
///                     its numbers are set to a quiet NaN, its counts and flags to 0.
/// @param[out] error   what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (purpose, mark kind,
///         direction), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the beam, then the request from dose_ratio
///         on), SPOTWISE_E_OUTSIDE_MODEL (a cone too wide; a step, or heights, out of range; fewer than 2 or more than
///         120 steps on either side as SPOTWISE_PARAM_STEPS_PER_SIDE: make the step greater or the range less; fewer
///         than two steps left on one side as SPOTWISE_PARAM_STEPS_TOWARD_LENS or
///         SPOTWISE_PARAM_STEPS_AWAY_FROM_LENS: take smaller steps, or make room there),
///         SPOTWISE_E_LENGTH_MISMATCH (too little room, as SPOTWISE_PARAM_PLANNED_PIECES).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result, counted from the step as it is rounded.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a spot of 60 um, 1.064 um, M2 1.2 has a Rayleigh range of 2.2145 mm: steps of 0.886 mm, 11 heights.
/// Source: common practice of stepped test pieces (no source); steps and ranges by simulation.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_plan_series(
    beam: *const spotwise_beam,
    request: *const spotwise_series_request,
    pieces: *mut spotwise_planned_piece,
    room: usize,
    plan: *mut spotwise_series_plan,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, that to the array for its items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(plan).or(error_pointer_fault(error));
        report(plan, error, || {
            let most = longest_of(size_of::<spotwise_planned_piece>());
            if room > most {
                let array = Param::PlannedPieces;
                return Err(Fault::TooLong { array, count: room, most });
            }
            let pieces_fault = structs_fault(pieces, room);
            if pieces_fault.is_none() {
                blank_pieces(pieces, room);
            }
            let inputs = pointer_fault(beam).or(pointer_fault(request));
            if let Some(fault) = inputs.or(pieces_fault).or(last_fault) {
                return Err(fault);
            }
            let request = SeriesRequest::try_from(input(request)?)?;
            let planned = request.plan(&input(beam)?.into(), room, |place, piece| {
                if place < room {
                    pieces.add(place).write(piece.into());
                }
            });
            Ok(planned?.into())
        })
    }
}

/// Makes every entry blank.
///
/// # Safety
/// `pieces` is writable for `room` entries.
unsafe fn blank_pieces(pieces: *mut spotwise_planned_piece, room: usize) {
    for i in 0..room {
        // SAFETY: writable, as the caller vouches.
        unsafe { pieces.add(i).write(spotwise_planned_piece::BLANK) };
    }
}

/// Whether something drifted in the course of a series, from a height that was engraved before and after it.
///
/// In focus a change tells of dose: power, speed, material. On the flank, about a Rayleigh range off, it tells of
/// height as well, of which focus tells next to nothing. Deviations are taken for known and errors for normal.
///
/// @param[in]  repeats              the widths; set with spotwise_repeated_width_init(); not NULL.
/// @param[in]  coverage_probability how sure to be, such as 0.95; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] drift                result; set with spotwise_drift_init(); not NULL. On any status other than
///                                  SPOTWISE_OK its numbers are set to a quiet NaN, drifted to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the
///         members in their order, then the coverage probability).
///
/// Accuracy: change_m at most 0.75 ulp (units in the last place) of the exact result, its deviation 2, significance 3,
///           chance 3 times (1 + significance^2).
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 60 +- 3 um before and 70 +- 4 um after: two deviations, chance 0.0455.
/// Source: the difference of two normal numbers; any textbook of statistics.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_series_drift(
    repeats: *const spotwise_repeated_width,
    coverage_probability: f64,
    drift: *mut spotwise_drift,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(drift, error, || {
            let repeats = input(repeats)?;
            let repeats = RepeatedWidth {
                first_width: repeats.first_width_m,
                first_deviation: repeats.first_deviation_m,
                last_width: repeats.last_width_m,
                last_deviation: repeats.last_deviation_m,
            };
            Ok(series_drift(&repeats, coverage_probability)?.into())
        })
    }
}

/// Text of a height for the label of a piece: millimetres with three decimals and a sign, such as +0.400.
///
/// @param[in]  z_m  height in metres; range: SPOTWISE_PARAM_PIECE_HEIGHT.
/// @param[out] text SPOTWISE_LABEL_ROOM characters, the text and its NUL; empty for what is no height of up to 1000 m;
///                  NULL does nothing.
/// @return characters of the text, without its NUL; 0 if it is empty. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_height_label(z_m: f64, text: *mut c_char) -> u32 {
    let label = HeightLabel::of(z_m);
    let bytes = label.as_str().as_bytes();
    if !text.is_null() {
        for (i, byte) in bytes.iter().copied().chain([0]).enumerate() {
            // SAFETY: at most as many characters as the header demands, each of them ASCII.
            unsafe { text.add(i).write(byte as c_char) };
        }
    }
    // At most the room of a label.
    bytes.len() as u32
}

/// One sentence for why a height is left out, with what would bring it back; "unknown" for any other number.
///
/// @param[in] reason one of SPOTWISE_SKIP_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_skip_reason_text(reason: u32) -> *const c_char {
    const SENTENCES: [&str; SkipReason::ALL.len()] = {
        let mut sentences = [""; SkipReason::ALL.len()];
        let mut i = 0;
        while i < sentences.len() {
            sentences[i] = SkipReason::ALL[i].text();
            i += 1;
        }
        sentences
    };
    crate::text::texts!(REASONS, SENTENCES);
    let place = (reason as usize).wrapping_sub(1);
    REASONS.get(place).copied().unwrap_or(UNKNOWN).as_ptr()
}
