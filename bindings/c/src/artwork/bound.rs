//! What a spot surely marks and what it surely leaves clear, without any exposure.

use super::memory::{Input, Output, first, mask, mask_mut, pointing};
use super::watch::{spotwise_tell, watched};
use crate::abi::{Fault, Plain, error_pointer_fault, init, input, plain, pointer_fault, report};
use crate::arrays::array_fault;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::artwork::{BoundInput, BoundSummary, quick_bound, quick_bound_words};
use spotwise::{Error, Param};

/// What bounds the exposure of a drawing, whose masks spotwise_ink_masks() makes. They stay yours and are only read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_bound_input {
    /// Size of this struct; spotwise_bound_input_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// From pixel to pixel in metres, along a row; range: SPOTWISE_PARAM_PITCH_X.
    pub pitch_x_m: f64,
    /// From row to row in metres; range: SPOTWISE_PARAM_PITCH_Y.
    pub pitch_y_m: f64,
    /// Greatest 1/e^2 DIAMETER of the spot anywhere on the drawing, in metres; range: SPOTWISE_PARAM_SPOT_DIAMETER.
    pub greatest_spot_diameter_m: f64,
    /// Least dose ratio anywhere on the drawing: dose in the middle of a wide fill over that at which it marks; range:
    /// SPOTWISE_PARAM_ANY_DOSE_RATIO.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio anywhere on the drawing, at least the least; range: SPOTWISE_PARAM_ANY_DOSE_RATIO.
    pub greatest_dose_ratio: f64,
    /// From one scan line to the next in metres; 0 for an even fill; range: SPOTWISE_PARAM_LINE_INTERVAL, and at most 2.5
    /// of the least spot RADIUS.
    pub line_interval_m: f64,
    /// Least 1/e^2 DIAMETER of the spot across the lines anywhere on the drawing, in metres, at most the greatest; of an
    /// even fill it is not read; range: SPOTWISE_PARAM_SPOT_DIAMETER.
    pub least_spot_diameter_m: f64,
    /// Mask of what counts as ink when centre-lines are sought.
    pub ink: *const u64,
    /// Mask of what is ink all over; NULL if it is the same.
    pub solid: *const u64,
    /// Mask of what has any ink in it; NULL if it is the same.
    pub touched: *const u64,
    /// Length of each mask: height times (width + 63) / 64.
    pub mask_words: usize,
    /// Pixels in a row; range: SPOTWISE_PARAM_DRAWING_WIDTH.
    pub width: usize,
    /// Rows; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
    pub height: usize,
}
pointing!(
    spotwise_bound_input,
    words: [reserved],
    numbers: [
        pitch_x_m,
        pitch_y_m,
        greatest_spot_diameter_m,
        least_dose_ratio,
        greatest_dose_ratio,
        line_interval_m,
        least_spot_diameter_m
    ],
    nested: [],
    pointers: [ink, solid, touched],
    lengths: [mask_words, width, height],
);

/// Sets struct_size, pointers and lengths to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_bound_input_init(bound: *mut spotwise_bound_input) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(bound) }
}

/// How much of a drawing is decided without exposure: the result of spotwise_quick_bound().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_quick_bound_result {
    /// Size of this struct; spotwise_quick_bound_result_init() sets it.
    pub struct_size: u32,
    /// 1 if the drawing holds whatever becomes of what is undecided, but for specks beside edges: all that is doubtful of
    /// pieces and holes, and far_ink, are 0. Then no piece is lost or starved, no two come to touch, no hole closes or opens,
    /// and all that is surely marked of a piece hangs together. Not shown is that no further speck of a piece comes out
    /// beside it, as a part of a split piece; it would lie within a spot diameter of what is surely marked. 0 says nothing:
    /// the spot may still do.
    pub holds: u32,
    /// Pixels that are surely marked.
    pub marked: u64,
    /// Pixels that surely stay clear.
    pub clear: u64,
    /// All others.
    pub undecided: u64,
    /// Pixels in the middle of strokes.
    pub stroke_pixels: u64,
    /// Those that are not surely marked.
    pub doubtful_strokes: u64,
    /// Pixels in the middle of gaps.
    pub gap_pixels: u64,
    /// Those that do not surely stay clear.
    pub doubtful_gaps: u64,
    /// Pixels of ink farther than the greatest spot diameter, and half a pixel's diagonal, from whatever is surely marked.
    pub far_ink: u64,
    /// Pieces of the drawing.
    pub components: u32,
    /// Pieces of which no pixel is surely marked.
    pub components_maybe_lost: u32,
    /// Pieces whose surely marked pixels are in two parts or more.
    pub components_maybe_split: u32,
    /// Pieces of what does not surely stay clear that hold two pieces of the drawing or more: these may come to touch.
    pub components_maybe_merged: u32,
    /// Pieces of which less than half of the middle of strokes is surely marked.
    pub components_maybe_starved: u32,
    /// Holes of the drawing.
    pub holes: u32,
    /// Holes of which no pixel surely stays clear.
    pub holes_maybe_closed: u32,
    /// Holes that what is surely marked does not part from the outside.
    pub holes_maybe_opened: u32,
}
plain!(
    spotwise_quick_bound_result, 104 bytes,
    words: [holds],
    counts: [
        marked,
        clear,
        undecided,
        stroke_pixels,
        doubtful_strokes,
        gap_pixels,
        doubtful_gaps,
        far_ink
    ],
    words: [
        components,
        components_maybe_lost,
        components_maybe_split,
        components_maybe_merged,
        components_maybe_starved,
        holes,
        holes_maybe_closed,
        holes_maybe_opened
    ]
);

impl From<BoundSummary> for spotwise_quick_bound_result {
    fn from(summary: BoundSummary) -> Self {
        Self {
            holds: summary.holds().into(),
            marked: summary.marked,
            clear: summary.clear,
            undecided: summary.undecided,
            stroke_pixels: summary.stroke_pixels,
            doubtful_strokes: summary.doubtful_strokes,
            gap_pixels: summary.gap_pixels,
            doubtful_gaps: summary.doubtful_gaps,
            far_ink: summary.far_ink,
            components: summary.components,
            components_maybe_lost: summary.components_maybe_lost,
            components_maybe_split: summary.components_maybe_split,
            components_maybe_merged: summary.components_maybe_merged,
            components_maybe_starved: summary.components_maybe_starved,
            holes: summary.holes,
            holes_maybe_closed: summary.holes_maybe_closed,
            holes_maybe_opened: summary.holes_maybe_opened,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and flag and counts to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_quick_bound_result_init(found: *mut spotwise_quick_bound_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(found) }
}

/// How many 64-bit words of workspace spotwise_quick_bound() needs.
///
/// @param[in]  bound   masks and spot, set with spotwise_bound_input_init() and filled in; not NULL.
/// @param[in]  threads how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[out] words   that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error   what was refused; may be NULL.
/// @return as spotwise_quick_bound(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_quick_bound_workspace(
    bound: *const spotwise_bound_input,
    threads: usize,
    words: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(words).or(error_pointer_fault(error));
        report(words, error, || {
            let bound = input(bound)?;
            let pointers = array_fault(&bound.masks().map(Input::extent), &[]).or(last_fault);
            if let Some(fault) = pointers.or(bound.length_fault()) {
                return Err(fault);
            }
            Ok(quick_bound_words(&bound.as_model()?, threads)?)
        })
    }
}

/// Finds what is surely marked and what surely stays clear, and whether the drawing holds by that alone, from distances
/// and without any exposure: an answer at once. It is no preflight: nothing is said of the dose window and the grade.
///
/// Surely marked is what lies deeper in the ink than a disc of the smallest dot of spotwise_smallest_details(), surely
/// clear what lies deeper in the ground than one of the smallest hole, each and half the diagonal of a pixel more. It
/// holds for an even fill: where tilt changes the exposure, the two dose ratios must say so. Scan lines that lie apart leave
/// more undecided: sqrt(2/pi) times the interval over the least spot radius is what they may take from full dose, and from
/// 1.25 of that radius on nothing is surely marked. Many pixels beside edges stay undecided. Where the spot is so large that its disc would be more than 254 pixels in radius, nothing is
/// decided.
///
/// @param[in]  bound           masks and spot, set with spotwise_bound_input_init() and filled in; not NULL.
/// @param[out] marked          mask of what is surely marked, as long as those of bound; not NULL.
/// @param[out] clear           mask of what surely stays clear; not NULL; none is in both. On any status other than
///                             SPOTWISE_OK both are 0, but for a length that no array can have: then nothing is
///                             written to them.
/// @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing. Masks
///                             and workspace must not overlap.
/// @param[in]  workspace_words its length, at least what spotwise_quick_bound_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] found           result; set with spotwise_quick_bound_result_init(); not NULL. On any status other than
///                             SPOTWISE_OK its counts and flag are set to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
///         long for memory; mask_words, as SPOTWISE_PARAM_OUTPUT; too little room, as SPOTWISE_PARAM_WORKSPACE),
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also for a drawing that is too intricate, as
///         SPOTWISE_PARAM_PIXEL_RUNS), SPOTWISE_E_OUTSIDE_MODEL (lines farther apart than 2.5 of the
///         least spot radius), SPOTWISE_E_STOPPED.
///
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors from spotwise_smallest_details().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_quick_bound(
    bound: *const spotwise_bound_input,
    marked: *mut u64,
    clear: *mut u64,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    found: *mut spotwise_quick_bound_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let workspace = Output { start: workspace, count: workspace_words };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(found).or(error_pointer_fault(error));
        report(found, error, || {
            let bound = input(bound)?;
            let masks = [marked, clear].map(|start| Output { start, count: bound.mask_words });
            let inputs = bound.masks().map(Input::extent);
            let outputs = [masks[0].extent(), masks[1].extent(), workspace.extent()];
            let pointers = first([array_fault(&inputs, &[]), array_fault(&inputs, &outputs), last_fault]);
            if let Some(fault) = bound.length_fault().or(workspace.length_fault(Param::Workspace)) {
                return Err(pointers.unwrap_or(fault));
            }
            masks.iter().for_each(|mask| mask.fill(0));
            if let Some(fault) = pointers {
                return Err(fault);
            }
            let (model, size) = (bound.as_model()?, (bound.width, bound.height));
            let [mut marked, mut clear] =
                [mask_mut(masks[0].items(), size.0, size.1)?, mask_mut(masks[1].items(), size.0, size.1)?];
            let summary = watched(tell, user, |watch| {
                quick_bound(&model, &mut marked, &mut clear, workspace.items(), watch)
            });
            match summary {
                Ok(summary) => Ok(summary.into()),
                Err(error) => {
                    masks.iter().for_each(|mask| mask.fill(0));
                    Err(error.into())
                }
            }
        })
    }
}

impl spotwise_bound_input {
    fn masks(&self) -> [Input<u64>; 3] {
        let or_ink = |start: *const u64| if start.is_null() { self.ink } else { start };
        [self.ink, or_ink(self.solid), or_ink(self.touched)]
            .map(|start| Input { start, count: self.mask_words })
    }

    fn length_fault(&self) -> Option<Fault> {
        Input { start: self.ink, count: self.mask_words }.length_fault(Param::Output)
    }

    /// # Safety
    /// The masks are readable while `'a` lasts.
    unsafe fn as_model<'a>(&self) -> Result<BoundInput<'a>, Error> {
        // SAFETY: as the caller vouches.
        let [ink, solid, touched] = self.masks().map(|words| unsafe { words.items() });
        let (width, height) = (self.width, self.height);
        Ok(BoundInput {
            ink: mask(ink, width, height)?,
            solid: mask(solid, width, height)?,
            touched: mask(touched, width, height)?,
            pitch_x: self.pitch_x_m,
            pitch_y: self.pitch_y_m,
            greatest_spot_diameter: self.greatest_spot_diameter_m,
            least_dose_ratio: self.least_dose_ratio,
            greatest_dose_ratio: self.greatest_dose_ratio,
            line_interval: self.line_interval_m,
            least_spot_diameter: self.least_spot_diameter_m,
        })
    }
}
