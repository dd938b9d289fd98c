//! How far focus may stray, and how small the drawing may be.

use super::drawing::spotwise_drawing;
use super::exposing::{Scene, spotwise_exposing};
use super::marking::spotwise_marking;
use super::memory::{Output, first};
use super::preflight::{Asked, tell_words};
use super::watch::{spotwise_tell, watched};
use crate::abi::{Fault, Plain, error_pointer_fault, init, plain, pointer_fault, report};
use crate::arrays::Extent;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::Param;
use spotwise::artwork::{
    Answer, Demand, FocusReach, Preflight, TrialRoom, best_focus_z, focus_reach, focus_reach_words,
    smallest_scale, smallest_scale_words,
};

/// How far focus may be moved before the drawing no longer holds: the result of spotwise_focus_reach().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_focus_reach_result {
    /// Size of this struct; spotwise_focus_reach_result_init() sets it.
    pub struct_size: u32,
    /// 1 if it held as far toward the lens as was tried.
    pub toward_lens_is_open: u32,
    /// 1 if it held as far away from the lens as was tried.
    pub away_from_lens_is_open: u32,
    /// 0.
    pub reserved: u32,
    /// Farthest that the waist may lie nearer to the lens than it is, in metres; NaN if the drawing does not hold as it
    /// is.
    pub toward_lens_m: f64,
    /// Farthest that it may lie farther from the lens; NaN likewise.
    pub away_from_lens_m: f64,
}
plain!(
    spotwise_focus_reach_result, 32 bytes,
    words: [toward_lens_is_open, away_from_lens_is_open, reserved],
    numbers: [toward_lens_m, away_from_lens_m]
);

impl From<FocusReach> for spotwise_focus_reach_result {
    fn from(reach: FocusReach) -> Self {
        Self {
            toward_lens_is_open: reach.toward_lens_is_open.into(),
            away_from_lens_is_open: reach.away_from_lens_is_open.into(),
            toward_lens_m: reach.toward_lens,
            away_from_lens_m: reach.away_from_lens,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_focus_reach_result_init(reach: *mut spotwise_focus_reach_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(reach) }
}

/// How many 64-bit words of workspace spotwise_focus_reach() needs.
///
/// @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[in]  tell     told of progress, may stop the work; may be NULL.
/// @param[in]  user     given to tell as it is; not looked at.
/// @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_focus_reach(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Looks at each pixel three times. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_reach_workspace(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    threads: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    words: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let asked = Asked::read(drawing, exposing, marking);
        tell_words(asked, tell, user, words, error, |preflight, watch| {
            focus_reach_words(preflight, threads, watch)
        })
    }
}

/// How far the focus may be moved to either side before the drawing no longer holds at its dose.
///
/// Found by trying: steps of a quarter Rayleigh range, up to four Rayleigh ranges, find the first that does not hold;
/// halving then finds the end to 1/128 of it. What is told is always a try that held. Where scan lines lie farther apart
/// than 2.5 of the least spot radius, which may be so nearer to focus only, the drawing does not hold.
///
/// @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  demand          what must hold: one of SPOTWISE_DEMAND_*.
/// @param[out] exposure        room for the exposure of a try; not NULL unless pixels is 0; what it holds afterwards
///                             means nothing.
/// @param[in]  pixels          its length: width times height.
/// @param[out] workspace       room to work in; neither it nor exposure need be set, and they must not overlap each
///                             other or an input. What it holds afterwards means nothing.
/// @param[in]  workspace_words its length, at least what spotwise_focus_reach_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] reach           result; set with spotwise_focus_reach_result_init(); not NULL. On any status other than
///                             SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_preflight(). The focus may not be moved out of the range of SPOTWISE_PARAM_FOCUS_Z.
///
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_reach(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    demand: u32,
    exposure: *mut u16,
    pixels: usize,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    reach: *mut spotwise_focus_reach_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let room = Room::new(exposure, pixels, workspace, workspace_words);
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(reach).or(error_pointer_fault(error));
        let asked = Asked::read(drawing, exposing, marking);
        report(reach, error, || {
            let preflight = trying(asked, &room, last_fault)?;
            let demand = Demand::from_code(demand)?;
            let reach =
                watched(tell, user, |watch| focus_reach(&preflight, demand, &mut room.items(), watch))?;
            Ok(reach.into())
        })
    }
}

/// The height of the waist that makes the greatest spot over the ink least: half-way between the highest and the lowest
/// place with ink, as the spot grows alike to both sides.
///
/// @param[in]  drawing   drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing  what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  tell      told of progress, may stop the work; may be NULL.
/// @param[in]  user      given to tell as it is; not looked at.
/// @param[out] focus_z_m the height in metres, + away from the lens; not NULL. On any status other than SPOTWISE_OK it is
///                       set to a quiet NaN.
/// @param[out] error     what was refused; may be NULL.
/// @return as spotwise_expose(), but for its arrays; SPOTWISE_E_UNDETERMINED for a drawing without ink of known height, as
///         SPOTWISE_PARAM_INK_PIXELS.
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_best_focus_z(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    tell: spotwise_tell,
    user: *mut c_void,
    focus_z_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(focus_z_m).or(error_pointer_fault(error));
        let scene = Scene::read(drawing, exposing);
        report(focus_z_m, error, || {
            if let Some(fault) = scene.pointer_fault().or(last_fault) {
                return Err(fault);
            }
            let (drawing, exposing) = scene.parts()?;
            // What answers to the dose plays no part.
            let (answer, dose_ratio, edge_tolerance, speck_area) = (Answer::Coating, 1.0, 0.0, 0.0);
            let preflight = Preflight { drawing, exposing, answer, dose_ratio, edge_tolerance, speck_area };
            Ok(watched(tell, user, |watch| best_focus_z(&preflight, watch))?)
        })
    }
}

/// How many 64-bit words of workspace spotwise_smallest_scale() needs.
///
/// @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[in]  tell     told of progress, may stop the work; may be NULL.
/// @param[in]  user     given to tell as it is; not looked at.
/// @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_smallest_scale(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Looks at each pixel twice. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_smallest_scale_workspace(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    threads: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    words: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let asked = Asked::read(drawing, exposing, marking);
        tell_words(asked, tell, user, words, error, |preflight, watch| {
            smallest_scale_words(preflight, threads, watch)
        })
    }
}

/// The smallest scale of the drawing about its middle at which it holds at its dose, 0.25 to 4, to 1.1 %; above 1 it
/// must be made larger. 0.25 if it holds down to that, NaN if it holds nowhere up to 4.
///
/// Steps of half an octave, down from 1 if it holds there and up if not, find where that changes; halving then finds the
/// place. What is told is a try that held. Where the model does not take a scale, because of the pixels, a bridge or the
/// area of specks, the ends are nearer to 1. The tolerance of edges plays no part in it, and specks keep their pixels.
/// The pixels grow with the drawing: far above 1 they may be too coarse. The lines of a raster that is burnt as it is go with its rows, and the dose ratio stays that of its
/// fills; those of other drawings stay as they are. A drawing that reaches places of unknown height that it did not reach
/// before does not hold, nor does one that reaches a spot so fine that the lines lie farther apart than 2.5 of its radius.
///
/// @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  demand          what must hold: one of SPOTWISE_DEMAND_*.
/// @param[out] exposure        room for the exposure of a try; not NULL unless pixels is 0; what it holds afterwards
///                             means nothing.
/// @param[in]  pixels          its length: width times height.
/// @param[out] workspace       room to work in; neither it nor exposure need be set, and they must not overlap each
///                             other or an input. What it holds afterwards means nothing.
/// @param[in]  workspace_words its length, at least what spotwise_smallest_scale_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] scale           the scale; not NULL. On any status other than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_preflight(), for any scale that is tried.
///
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_smallest_scale(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    demand: u32,
    exposure: *mut u16,
    pixels: usize,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    scale: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    let room = Room::new(exposure, pixels, workspace, workspace_words);
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(scale).or(error_pointer_fault(error));
        let asked = Asked::read(drawing, exposing, marking);
        report(scale, error, || {
            let preflight = trying(asked, &room, last_fault)?;
            let demand = Demand::from_code(demand)?;
            Ok(watched(tell, user, |watch| smallest_scale(&preflight, demand, &mut room.items(), watch))?)
        })
    }
}

/// The caller's room for trying.
pub(crate) struct Room {
    exposure: Output<u16>,
    workspace: Output<u64>,
}

impl Room {
    pub(crate) fn new(
        exposure: *mut u16,
        pixels: usize,
        workspace: *mut u64,
        workspace_words: usize,
    ) -> Self {
        Self {
            exposure: Output { start: exposure, count: pixels },
            workspace: Output { start: workspace, count: workspace_words },
        }
    }

    pub(crate) fn length_fault(&self) -> Option<Fault> {
        let exposure = self.exposure.length_fault(Param::Output);
        exposure.or(self.workspace.length_fault(Param::Workspace))
    }

    pub(crate) fn extents(&self) -> [Extent; 2] {
        [self.exposure.extent(), self.workspace.extent()]
    }

    /// # Safety
    /// The arrays are valid for their items and apart.
    pub(crate) unsafe fn items<'a>(&self) -> TrialRoom<'a> {
        // SAFETY: as the caller vouches.
        unsafe { TrialRoom { exposure: self.exposure.items(), words: self.workspace.items() } }
    }
}

/// What is asked, if no pointer or length is at fault.
fn trying<'a>(asked: Asked<'a>, room: &Room, last_fault: Option<Fault>) -> Result<Preflight<'a>, Fault> {
    let overlap = asked.scene.overlap_fault(&[], &room.extents());
    match first([asked.pointer_fault(), overlap, last_fault]).or(room.length_fault()) {
        Some(fault) => Err(fault),
        None => asked.preflight(),
    }
}
