//! Whether a drawing survives its preflight, at once where distances alone suffice to say so.

use super::drawing::spotwise_drawing;
use super::exposing::spotwise_exposing;
use super::marking::spotwise_marking;
use super::memory::{Output, first};
use super::preflight::{Asked, tell_words};
use super::watch::{spotwise_tell, watched};
use crate::abi::{Plain, error_pointer_fault, init, plain, pointer_fault, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::Param;
use spotwise::artwork::{QuickAnswer, quick_answer, quick_answer_words};

/// What distances alone say of a preflight: the result of spotwise_quick_answer(). Of pieces and holes specks are left out,
/// and what lies where no height is known.
///
/// The least mark that may come out is looked at first, then the greatest, then what is far and what is starved. Where one
/// of these leaves a doubt that the next cannot take away, it is not looked at: what it would tell stays 0.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_quick_answer_result {
    /// Size of this struct; spotwise_quick_answer_result_init() sets it.
    pub struct_size: u32,
    /// What is sure: one of SPOTWISE_QUICK_*.
    pub verdict: u32,
    /// Pixels with ink where no height is known: nothing is said of them.
    pub unknown_ink_pixels: u64,
    /// Pixels of ink farther than the greatest spot DIAMETER, and half a pixel's diagonal, from whatever is surely marked.
    pub far_ink: u64,
    /// Pieces of the drawing.
    pub components: u32,
    /// Pieces that are surely lost.
    pub components_lost: u32,
    /// Pieces that may be lost, those that surely are included, as in all that follow.
    pub components_maybe_lost: u32,
    /// Pieces whose surely marked pixels are in two parts or more.
    pub components_maybe_split: u32,
    /// Pieces of the least mark that join two pieces of the drawing or more: these surely come to touch.
    pub components_merged: u32,
    /// Pieces of the greatest mark that join two pieces of the drawing or more.
    pub components_maybe_merged: u32,
    /// Pieces of which less than half of the middle of strokes is surely marked.
    pub components_maybe_starved: u32,
    /// Holes of the drawing.
    pub holes: u32,
    /// Holes that surely close.
    pub holes_closed: u32,
    /// Holes that may close.
    pub holes_maybe_closed: u32,
    /// Holes that surely open to the outside.
    pub holes_opened: u32,
    /// Holes that may open.
    pub holes_maybe_opened: u32,
    /// Greatest 1/e^2 DIAMETER of the spot anywhere on the drawing and in either direction, in metres, blur included; this
    /// and the numbers that follow are what spotwise_bound_input takes.
    pub greatest_spot_diameter_m: f64,
    /// Least 1/e^2 DIAMETER of the spot across the rows, likewise.
    pub least_spot_diameter_m: f64,
    /// Least dose ratio over the dose that shows, with what an exposure may be off taken off.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio, with what an exposure may be off added.
    pub greatest_dose_ratio: f64,
    /// From one scan line to the next in metres; 0 for an even fill.
    pub line_interval_m: f64,
}
plain!(
    spotwise_quick_answer_result, 112 bytes,
    words: [verdict],
    counts: [unknown_ink_pixels, far_ink],
    words: [
        components,
        components_lost,
        components_maybe_lost,
        components_maybe_split,
        components_merged,
        components_maybe_merged,
        components_maybe_starved,
        holes,
        holes_closed,
        holes_maybe_closed,
        holes_opened,
        holes_maybe_opened
    ],
    numbers: [
        greatest_spot_diameter_m,
        least_spot_diameter_m,
        least_dose_ratio,
        greatest_dose_ratio,
        line_interval_m
    ]
);

impl From<QuickAnswer> for spotwise_quick_answer_result {
    fn from(QuickAnswer { verdict, counts, light }: QuickAnswer) -> Self {
        Self {
            verdict: verdict as u32,
            unknown_ink_pixels: counts.unknown_ink_pixels,
            far_ink: counts.far_ink,
            components: counts.components,
            components_lost: counts.components_lost,
            components_maybe_lost: counts.components_maybe_lost,
            components_maybe_split: counts.components_maybe_split,
            components_merged: counts.components_merged,
            components_maybe_merged: counts.components_maybe_merged,
            components_maybe_starved: counts.components_maybe_starved,
            holes: counts.holes,
            holes_closed: counts.holes_closed,
            holes_maybe_closed: counts.holes_maybe_closed,
            holes_opened: counts.holes_opened,
            holes_maybe_opened: counts.holes_maybe_opened,
            greatest_spot_diameter_m: light.greatest_spot_diameter,
            least_spot_diameter_m: light.least_spot_diameter,
            least_dose_ratio: light.least_dose_ratio,
            greatest_dose_ratio: light.greatest_dose_ratio,
            line_interval_m: light.line_interval,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, the verdict and counts to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_quick_answer_result_init(found: *mut spotwise_quick_answer_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(found) }
}

/// How many 64-bit words of workspace spotwise_quick_answer() needs. Together with the samples that is all the memory that
/// it uses.
///
/// @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[in]  tell     told of progress, may stop the work; may be NULL.
/// @param[in]  user     given to tell as it is; not looked at.
/// @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_quick_answer(), but for its workspace.
///
/// No allocation, no globals, no errno; any thread. Looks at pixels only where the surface is not known all over the drawing.
/// Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_quick_answer_workspace(
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
            quick_answer_words(preflight, threads, watch)
        })
    }
}

/// Says at once whether a drawing survives, where distances alone suffice for that; SPOTWISE_QUICK_UNSURE where the whole
/// preflight must tell.
///
/// It takes what spotwise_preflight() takes, spotwise_preflight_of_job() sets two of them by a job, and it never contradicts
/// that function: where nothing is at risk, the report has no piece lost, starved or merged and no hole closed or opened;
/// where something is lost, the report does not hold. Not shown is that no further speck of a piece comes out beside it, as
/// a part of a split piece; it would lie within a spot diameter of what is surely marked. Nothing is said of grade, dose
/// window and areas. What is several spot diameters wide passes; what is finer, or only just comes out, stays unsure, and so
/// does most of what is lost: told at once is that no ink gets enough dose, that a small piece has too little ink around
/// it, and that a melt closes a gap.
///
/// @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing. It must
///                             not overlap an input.
/// @param[in]  workspace_words its length, at least what spotwise_quick_answer_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] found           result; set with spotwise_quick_answer_result_init(); not NULL. On any status other than
///                             SPOTWISE_OK its numbers are set to a quiet NaN, its verdict and counts to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_preflight(), which writes more.
///
/// Accuracy: the answer allows for the 5e-4 of full dose by which an exposure may be off.
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors from spotwise_smallest_details(), as spotwise_quick_bound().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_quick_answer(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    found: *mut spotwise_quick_answer_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let workspace = Output { start: workspace, count: workspace_words };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(found).or(error_pointer_fault(error));
        let asked = Asked::read(drawing, exposing, marking);
        report(found, error, || {
            let pointers = first([
                asked.pointer_fault(),
                asked.scene.overlap_fault(&[], &[workspace.extent()]),
                last_fault,
            ]);
            if let Some(fault) = pointers.or(workspace.length_fault(Param::Workspace)) {
                return Err(fault);
            }
            let preflight = asked.preflight()?;
            watched(tell, user, |watch| Ok(quick_answer(&preflight, workspace.items(), watch)?.into()))
        })
    }
}
