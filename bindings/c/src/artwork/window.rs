//! The dose window.

use super::drawing::spotwise_drawing;
use super::exposing::spotwise_exposing;
use super::marking::spotwise_marking;
use super::memory::{Input, Output, first};
use super::preflight::Asked;
use super::watch::{spotwise_tell, watched};
use crate::abi::{Plain, error_pointer_fault, init, plain, pointer_fault, report};
use crate::arrays::array_fault;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::Param;
use spotwise::artwork::{DoseWindow, PreflightPlan};

/// The doses between which a drawing keeps what it shows, over the threshold dose: the result of
/// spotwise_dose_window().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_dose_window_result {
    /// Size of this struct; spotwise_dose_window_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Least dose ratio that keeps every stroke; NaN if none does.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio that leaves every counter open and neighbours apart; INFINITY if all do.
    pub greatest_dose_ratio: f64,
    /// Greatest dose ratio that leaves every counter open; INFINITY if all do.
    pub greatest_dose_ratio_for_counters: f64,
    /// greatest_dose_ratio over least_dose_ratio; below 1 no dose keeps all, NaN if none keeps the strokes.
    pub ratio: f64,
    /// The same for strokes and counters alone, whether neighbours touch or not.
    pub ratio_for_counters: f64,
}
plain!(
    spotwise_dose_window_result, 48 bytes,
    words: [reserved],
    numbers: [
        least_dose_ratio,
        greatest_dose_ratio,
        greatest_dose_ratio_for_counters,
        ratio,
        ratio_for_counters,
    ]
);

impl From<DoseWindow> for spotwise_dose_window_result {
    fn from(window: DoseWindow) -> Self {
        Self {
            least_dose_ratio: window.least_dose_ratio,
            greatest_dose_ratio: window.greatest_dose_ratio,
            greatest_dose_ratio_for_counters: window.greatest_dose_ratio_for_counters,
            ratio: window.ratio(),
            ratio_for_counters: window.ratio_for_counters(),
            ..Self::BLANK
        }
    }
}

impl From<spotwise_dose_window_result> for DoseWindow {
    fn from(window: spotwise_dose_window_result) -> Self {
        Self {
            least_dose_ratio: window.least_dose_ratio,
            greatest_dose_ratio: window.greatest_dose_ratio,
            greatest_dose_ratio_for_counters: window.greatest_dose_ratio_for_counters,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_dose_window_result_init(window: *mut spotwise_dose_window_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(window) }
}

/// The doses between which a drawing keeps what it shows, from the exposure of spotwise_preflight() or
/// spotwise_expose() for the same drawing. Below the window strokes are lost or broken; above it counters fill, or
/// neighbours touch. The dose ratio of the marking plays no part.
///
/// @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  exposure        the exposure; not NULL unless pixels is 0.
/// @param[in]  pixels          length of exposure: width times height.
/// @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing. It must
///                             not overlap an input.
/// @param[in]  workspace_words its length, at least what spotwise_preflight_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] window          result; set with spotwise_dose_window_result_init(); not NULL. On any status other than
///                             SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_preflight().
///
/// Accuracy: each limit is on the safe side, and within 0.1 % of where it changes among the levels of the exposure; with
///           the exposure's error of 5e-4 of full dose a limit q may be wrong by the share 5e-4 q.
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_dose_window(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    exposure: *const u16,
    pixels: usize,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    window: *mut spotwise_dose_window_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let exposure = Input { start: exposure, count: pixels };
    let workspace = Output { start: workspace, count: workspace_words };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(window).or(error_pointer_fault(error));
        let asked = Asked::read(drawing, exposing, marking);
        report(window, error, || {
            let pointers = first([
                asked.pointer_fault(),
                array_fault(&[exposure.extent()], &[]),
                asked.scene.overlap_fault(&[exposure.extent()], &[workspace.extent()]),
                last_fault,
            ]);
            let lengths = exposure.length_fault(Param::Output).or(workspace.length_fault(Param::Workspace));
            if let Some(fault) = pointers.or(lengths) {
                return Err(fault);
            }
            let preflight = asked.preflight()?;
            watched(tell, user, |watch| {
                let plan = PreflightPlan::new(&preflight, &mut watch.part(0.0, 0.1))?;
                let mut watch = watch.part(0.1, 1.0);
                Ok(plan.dose_window(exposure.items(), workspace.items(), &mut watch)?.into())
            })
        })
    }
}
