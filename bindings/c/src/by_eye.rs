//! Focus from test pieces that only an eye has judged.

use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, length_fault, numbers};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use crate::text::{sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::model::learn::{
    EyeFocus, EyeJudgement, EyeWarnings, MOST_PIECES, PieceRank, RankFocus, RunEnd, VanishingFocus,
    focus_from_ranks, focus_from_vanishing,
};
use spotwise::model::mark::MarkKind;
use spotwise::{Error, Param};

/// The most pieces of one series.
pub const SPOTWISE_MOST_PIECES: u32 = 256;

/// Not good enough to be sold.
pub const SPOTWISE_RANK_POOR: u32 = 1;
/// Good enough, though not the best.
pub const SPOTWISE_RANK_ACCEPTABLE: u32 = 2;
/// As good as the best.
pub const SPOTWISE_RANK_SHARP: u32 = 3;

/// Pieces are out of order.
pub const SPOTWISE_EYE_OUT_OF_ORDER: u32 = 1;
/// What the deviation makes of a height exceeds half of a run.
pub const SPOTWISE_EYE_COARSE_JUDGEMENT: u32 = 2;
/// A step at an end of a run exceeds half of it.
pub const SPOTWISE_EYE_COARSE_STEPS: u32 = 4;
/// Of ranks: the acceptable run has no end toward the lens.
pub const SPOTWISE_EYE_USABLE_OPEN_TOWARD_LENS: u32 = 8;
/// Of ranks: the acceptable run has no end away from the lens.
pub const SPOTWISE_EYE_USABLE_OPEN_AWAY_FROM_LENS: u32 = 16;
/// Of ranks: no piece is sharp.
pub const SPOTWISE_EYE_NONE_SHARP: u32 = 32;

const _: () = {
    assert!(SPOTWISE_MOST_PIECES as usize == MOST_PIECES);
    assert!(SPOTWISE_RANK_POOR == PieceRank::Poor as u32);
    assert!(SPOTWISE_RANK_ACCEPTABLE == PieceRank::Acceptable as u32);
    assert!(SPOTWISE_RANK_SHARP == PieceRank::Sharp as u32);
    assert!(PieceRank::ALL.len() == 3);
    assert!(SPOTWISE_EYE_OUT_OF_ORDER == EyeWarnings::OUT_OF_ORDER.bits());
    assert!(SPOTWISE_EYE_COARSE_JUDGEMENT == EyeWarnings::COARSE_JUDGEMENT.bits());
    assert!(SPOTWISE_EYE_COARSE_STEPS == EyeWarnings::COARSE_STEPS.bits());
    assert!(SPOTWISE_EYE_USABLE_OPEN_TOWARD_LENS == EyeWarnings::USABLE_OPEN_TOWARD_LENS.bits());
    assert!(SPOTWISE_EYE_USABLE_OPEN_AWAY_FROM_LENS == EyeWarnings::USABLE_OPEN_AWAY_FROM_LENS.bits());
    assert!(SPOTWISE_EYE_NONE_SHARP == EyeWarnings::NONE_SHARP.bits());
    assert!(EyeWarnings::ALL.len() == 6);
};

/// What is known of the eye and the light, and how sure the answer is to be.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_eye_judgement {
    /// Size of this struct; spotwise_eye_judgement_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Rayleigh range of the beam in metres, as it is expected; it only turns the deviation into heights; range:
    /// SPOTWISE_PARAM_RAYLEIGH_RANGE.
    pub rayleigh_range_m: f64,
    /// Relative standard deviation: of ranks, by how much the same eye differs in the width of spot at which it
    /// changes its mind; of vanishing marks, by how much power and material differ from piece to piece. 0.05 is a
    /// steady hand, 0.1 a hasty one (our choice, no source). Range: SPOTWISE_PARAM_JUDGEMENT_DEVIATION.
    pub relative_deviation: f64,
    /// Share of all series whose focus the stated range is to hold, such as 0.95; range:
    /// SPOTWISE_PARAM_COVERAGE_PROBABILITY.
    pub coverage_probability: f64,
}
plain!(
    spotwise_eye_judgement, 32 bytes,
    words: [reserved],
    numbers: [rayleigh_range_m, relative_deviation, coverage_probability]
);

impl From<spotwise_eye_judgement> for EyeJudgement {
    fn from(judgement: spotwise_eye_judgement) -> Self {
        Self {
            rayleigh_range: judgement.rayleigh_range_m,
            relative_deviation: judgement.relative_deviation,
            coverage_probability: judgement.coverage_probability,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_eye_judgement_init(judgement: *mut spotwise_eye_judgement) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(judgement) }
}

/// Focus from where marks vanish: the result of spotwise_focus_from_vanishing(). Heights count as those of the
/// pieces, + away from the lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_vanishing_focus {
    /// Size of this struct; spotwise_vanishing_focus_init() sets it.
    pub struct_size: u32,
    /// What to beware of: SPOTWISE_EYE_* bits.
    pub warnings: u32,
    /// Height of focus in metres.
    pub focus_z_m: f64,
    /// Its standard deviation in metres; also that of half_run_m.
    pub focus_z_deviation_m: f64,
    /// Range for the coverage probability, its end toward the lens, in metres.
    pub least_z_m: f64,
    /// Its end away from the lens in metres.
    pub greatest_z_m: f64,
    /// Where the mark vanishes toward the lens, in metres.
    pub toward_lens_z_m: f64,
    /// Standard deviation of that in metres.
    pub toward_lens_deviation_m: f64,
    /// Where it vanishes away from the lens, in metres.
    pub away_from_lens_z_m: f64,
    /// Standard deviation of that in metres.
    pub away_from_lens_deviation_m: f64,
    /// From focus to either, in metres.
    pub half_run_m: f64,
    /// Dose in focus over threshold dose, by the Rayleigh range.
    pub dose_ratio: f64,
}
plain!(
    spotwise_vanishing_focus, 88 bytes,
    words: [warnings],
    numbers: [
        focus_z_m,
        focus_z_deviation_m,
        least_z_m,
        greatest_z_m,
        toward_lens_z_m,
        toward_lens_deviation_m,
        away_from_lens_z_m,
        away_from_lens_deviation_m,
        half_run_m,
        dose_ratio,
    ]
);

impl From<VanishingFocus> for spotwise_vanishing_focus {
    fn from(found: VanishingFocus) -> Self {
        let EyeFocus { focus_z, focus_z_deviation, least_z, greatest_z } = found.focus;
        Self {
            warnings: found.warnings.bits(),
            focus_z_m: focus_z,
            focus_z_deviation_m: focus_z_deviation,
            least_z_m: least_z,
            greatest_z_m: greatest_z,
            toward_lens_z_m: found.toward_lens.z,
            toward_lens_deviation_m: found.toward_lens.deviation,
            away_from_lens_z_m: found.away_from_lens.z,
            away_from_lens_deviation_m: found.away_from_lens.deviation,
            half_run_m: found.half_run,
            dose_ratio: found.dose_ratio,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_vanishing_focus_init(focus: *mut spotwise_vanishing_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// Focus and usable range from ranks: the result of spotwise_focus_from_ranks(). Heights count as those of the
/// pieces, + away from the lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_rank_focus {
    /// Size of this struct; spotwise_rank_focus_init() sets it.
    pub struct_size: u32,
    /// What to beware of: SPOTWISE_EYE_* bits.
    pub warnings: u32,
    /// Height of focus in metres.
    pub focus_z_m: f64,
    /// Its standard deviation in metres.
    pub focus_z_deviation_m: f64,
    /// Range for the coverage probability, its end toward the lens, in metres.
    pub least_z_m: f64,
    /// Its end away from the lens in metres.
    pub greatest_z_m: f64,
    /// End of the run of acceptable pieces or better, toward the lens, in metres; NaN, as the next three, unless
    /// the run is bounded on both sides.
    pub usable_toward_lens_z_m: f64,
    /// Standard deviation of that in metres.
    pub usable_toward_lens_deviation_m: f64,
    /// Its end away from the lens in metres.
    pub usable_away_from_lens_z_m: f64,
    /// Standard deviation of that in metres.
    pub usable_away_from_lens_deviation_m: f64,
    /// Half of the run of sharp pieces in metres; NaN if no piece is.
    pub sharp_half_run_m: f64,
}
plain!(
    spotwise_rank_focus, 80 bytes,
    words: [warnings],
    numbers: [
        focus_z_m,
        focus_z_deviation_m,
        least_z_m,
        greatest_z_m,
        usable_toward_lens_z_m,
        usable_toward_lens_deviation_m,
        usable_away_from_lens_z_m,
        usable_away_from_lens_deviation_m,
        sharp_half_run_m,
    ]
);

impl From<RankFocus> for spotwise_rank_focus {
    fn from(found: RankFocus) -> Self {
        let EyeFocus { focus_z, focus_z_deviation, least_z, greatest_z } = found.focus;
        let end = |end: Option<RunEnd>| end.map_or([f64::BLANK; 2], |end| [end.z, end.deviation]);
        let [usable_toward_lens_z_m, usable_toward_lens_deviation_m] = end(found.usable_toward_lens);
        let [usable_away_from_lens_z_m, usable_away_from_lens_deviation_m] = end(found.usable_away_from_lens);
        Self {
            warnings: found.warnings.bits(),
            focus_z_m: focus_z,
            focus_z_deviation_m: focus_z_deviation,
            least_z_m: least_z,
            greatest_z_m: greatest_z,
            usable_toward_lens_z_m,
            usable_toward_lens_deviation_m,
            usable_away_from_lens_z_m,
            usable_away_from_lens_deviation_m,
            sharp_half_run_m: found.sharp_half_run.unwrap_or(f64::BLANK),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_rank_focus_init(focus: *mut spotwise_rank_focus) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// Focus height from a series of little power, of which only the pieces near focus show a mark.
///
/// Focus is midway between the two heights at which the mark vanishes. Each is found from the seen pieces, counted
/// from the middle of the run outward (the sum of Spearman and Kaerber); its deviation comes from the step and from
/// how much chance there is in a piece. Heights may stand in any order, and more than one piece at the same height.
/// Where nothing is left to chance the range holds on average over all places of focus between two heights, not at
/// each. Not modelled: astigmatic light.
///
/// @param[in]  z_m       pieces heights in metres, + away from the lens, from any datum; not NULL unless pieces is
///                       0; range: SPOTWISE_PARAM_PIECE_HEIGHT.
/// @param[in]  seen      pieces bytes, 0 for a piece without a mark; not NULL unless pieces is 0.
/// @param[in]  pieces    length of both arrays, 1 to SPOTWISE_MOST_PIECES.
/// @param[in]  mark_kind what the pieces are made of: SPOTWISE_MARK_PULSE or SPOTWISE_MARK_LINE.
/// @param[in]  judgement what is known of the eye and the light; set with spotwise_eye_judgement_init(); not NULL.
/// @param[out] focus     result; set with spotwise_vanishing_focus_init(); not NULL. On any status other than
///                       SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error     what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH (a length that memory
///         cannot hold), SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_OUT_OF_RANGE (a number of pieces as
///         SPOTWISE_PARAM_PIECES), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (heights, then Rayleigh range,
///         deviation, coverage probability), SPOTWISE_E_UNDETERMINED (no piece shows a mark, as
///         SPOTWISE_PARAM_GOOD_PIECES: more power or other heights would tell; the run has no end on one side, as
///         SPOTWISE_PARAM_BOUND_TOWARD_LENS or SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS: further pieces there would
///         tell), SPOTWISE_E_OUTSIDE_MODEL (half the range exceeds 1 km, as SPOTWISE_PARAM_HALF_WIDTH).
///
/// Accuracy: heights and half_run_m at most 0.75 ulp (units in the last place) of the exact result, deviations and
///           dose_ratio 2, the range 6 times (|focus| + half width)/|end|.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: lines in steps of 0.1 mm from 0, the third to the seventh seen: focus at 0.4 mm.
/// Source: C. Spearman, British Journal of Psychology 2, 227 (1908); G. Kaerber, Archiv fuer experimentelle
///         Pathologie und Pharmakologie 162, 480 (1931), from memory; the deviation is derived in the model.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_from_vanishing(
    z_m: *const f64,
    seen: *const u8,
    pieces: usize,
    mark_kind: u32,
    judgement: *const spotwise_eye_judgement,
    focus: *mut spotwise_vanishing_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(focus).or(error_pointer_fault(error));
        report(focus, error, || {
            let (heights, judgement) = series(z_m, seen, pieces, judgement, last_fault)?;
            let kind = MarkKind::from_code(mark_kind)?;
            let mut room = [false; MOST_PIECES];
            let them = room_for(&mut room, pieces)?;
            for (i, one) in them.iter_mut().enumerate() {
                *one = seen.add(i).read() != 0;
            }
            Ok(focus_from_vanishing(heights, them, kind, &judgement)?.into())
        })
    }
}

/// Focus height and usable range from the ranks of a series of pieces.
///
/// Focus is the mean of the middle of the sharp pieces and that of the acceptable or better ones, as far as each run
/// is bounded on both sides; how ends and deviations are found: spotwise_focus_from_vanishing(). The usable range is
/// the run of acceptable pieces or better; where it is open, that is flagged.
///
/// @param[in]  z_m       pieces heights in metres, + away from the lens, from any datum; not NULL unless pieces is
///                       0; range: SPOTWISE_PARAM_PIECE_HEIGHT.
/// @param[in]  rank      pieces codes, each one of SPOTWISE_RANK_*; not NULL unless pieces is 0.
/// @param[in]  pieces    length of both arrays, 1 to SPOTWISE_MOST_PIECES.
/// @param[in]  judgement what is known of the eye and the light; set with spotwise_eye_judgement_init(); not NULL.
/// @param[out] focus     result; set with spotwise_rank_focus_init(); not NULL. On any status other than
///                       SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error     what was refused; may be NULL.
/// @return as spotwise_focus_from_vanishing(); SPOTWISE_E_UNKNOWN_CHOICE for a rank comes before any number, but
///         after a number of pieces beyond SPOTWISE_MOST_PIECES; SPOTWISE_PARAM_BOUND_TOWARD_LENS or
///         SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS names the side on which the sharp run (without any sharp piece the
///         acceptable one) has no end.
///
/// Accuracy: heights and sharp_half_run_m at most 0.75 ulp (units in the last place) of the exact result,
///           deviations 2, the range 6 times (|focus| + half width)/|end|.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: steps of 0.2 mm from 0, ranked 1, 1, 2, 3, 3, 2, 2, 1, 1: focus at 0.75 mm, usable from 0.3 to 1.3 mm.
/// Source: that of spotwise_focus_from_vanishing().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_from_ranks(
    z_m: *const f64,
    rank: *const u32,
    pieces: usize,
    judgement: *const spotwise_eye_judgement,
    focus: *mut spotwise_rank_focus,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(focus).or(error_pointer_fault(error));
        report(focus, error, || {
            let (heights, judgement) = series(z_m, rank, pieces, judgement, last_fault)?;
            let mut room = [PieceRank::Poor; MOST_PIECES];
            let them = room_for(&mut room, pieces)?;
            for (i, one) in them.iter_mut().enumerate() {
                *one = PieceRank::from_code(rank.add(i).read())?;
            }
            Ok(focus_from_ranks(heights, them, &judgement)?.into())
        })
    }
}

/// One sentence for a warning of these; "unknown" unless exactly one is given.
///
/// @param[in] warning one bit, one of SPOTWISE_EYE_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_eye_warning_text(warning: u32) -> *const c_char {
    const SENTENCES: [&str; EyeWarnings::ALL.len()] = sentences!(EyeWarnings);
    texts!(WARNINGS, SENTENCES);
    text_of_bit(&WARNINGS, warning)
}

/// The heights and what is known of the eye, once every pointer is found good.
///
/// # Safety
/// Pointers are NULL or valid for their items.
unsafe fn series<'a, T>(
    z: *const f64,
    judgements: *const T,
    pieces: usize,
    judgement: *const spotwise_eye_judgement,
    last_fault: Option<Fault>,
) -> Result<(&'a [f64], EyeJudgement), Fault> {
    let arrays = [Extent::of(z, pieces), Extent::of(judgements, pieces)];
    if let Some(fault) = array_fault(&arrays, &[]) {
        return Err(fault);
    }
    // SAFETY: NULL or readable, as the caller vouches.
    let judgement = unsafe { input(judgement)? };
    if let Some(fault) = last_fault.or(length_fault(Param::Judgements, pieces)) {
        return Err(fault);
    }
    // SAFETY: not NULL unless empty, as looked at above, and valid for its items as the caller vouches.
    Ok((unsafe { numbers(z, pieces) }, judgement.into()))
}

/// As much of the room as there are pieces.
fn room_for<T>(room: &mut [T; MOST_PIECES], pieces: usize) -> Result<&mut [T], Error> {
    let (least, greatest) = Param::Pieces.range();
    let value = pieces as f64;
    room.get_mut(..pieces).ok_or(Error::OutOfRange { param: Param::Pieces, value, least, greatest })
}
