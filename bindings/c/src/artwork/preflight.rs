//! The whole preflight.

use super::drawing::spotwise_drawing;
use super::exposing::{Scene, spotwise_exposing};
use super::findings::{spotwise_mark_change, spotwise_mark_region};
use super::marking::{Marking, spotwise_marking};
use super::memory::{Output, first, mask_mut, pointer_fault_of, pointing};
use super::report::spotwise_mark_report;
use super::watch::{spotwise_tell, watched};
use crate::abi::{Fault, Plain, error_pointer_fault, init, input, pointer_fault, report};
use crate::arrays::{Extent, structs_fault};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::artwork::{Change, Preflight, PreflightOutput, PreflightPlan, Region, Report, Watch};
use spotwise::{Error, Param};

/// Where spotwise_preflight() writes what it finds. The arrays are yours; they must be apart from each other, from the
/// workspace and from every input.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_preflight_output {
    /// Size of this struct; spotwise_preflight_output_init() sets it.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// The exposure of every pixel, as that of spotwise_expose().
    pub exposure: *mut u16,
    /// The mark, a mask as that of spotwise_ink_masks().
    pub mark: *mut u64,
    /// Mask of the ink that is lost beyond the tolerance.
    pub lost: *mut u64,
    /// Mask of the ground that is filled beyond the tolerance.
    pub filled: *mut u64,
    /// Places where ink is lost, those of most pixels first; each set with spotwise_mark_region_init(). As many as find
    /// room are written; spotwise_mark_report tells how many there are.
    pub lost_region: *mut spotwise_mark_region,
    /// Places where ground is filled, likewise.
    pub filled_region: *mut spotwise_mark_region,
    /// Pieces and holes that changed, kind by kind; each set with spotwise_mark_change_init(). As many as find room.
    pub change: *mut spotwise_mark_change,
    /// Length of exposure: width times height.
    pub pixels: usize,
    /// Length of each of the three masks: height times (width + 63) / 64.
    pub mask_words: usize,
    /// Length of lost_region; may be 0.
    pub lost_region_count: usize,
    /// Length of filled_region; may be 0.
    pub filled_region_count: usize,
    /// Length of change; may be 0.
    pub change_count: usize,
}
pointing!(
    spotwise_preflight_output,
    words: [reserved],
    numbers: [],
    nested: [],
    pointers: [exposure, mark, lost, filled, lost_region, filled_region, change],
    lengths: [pixels, mask_words, lost_region_count, filled_region_count, change_count],
);

/// Sets struct_size, and all pointers and lengths to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_preflight_output_init(output: *mut spotwise_preflight_output) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(output) }
}

/// What a preflight is asked, as far as it could be read.
pub(crate) struct Asked<'a> {
    pub scene: Scene<'a>,
    pub marking: Result<Marking, Fault>,
}

impl<'a> Asked<'a> {
    /// # Safety
    /// Pointers are NULL or valid, those to arrays for their items, while `'a` lasts.
    pub(crate) unsafe fn read(
        drawing: *const spotwise_drawing,
        exposing: *const spotwise_exposing,
        marking: *const spotwise_marking,
    ) -> Self {
        // SAFETY: as the caller vouches.
        unsafe { Self { scene: Scene::read(drawing, exposing), marking: Marking::read(marking) } }
    }

    pub(crate) fn pointer_fault(&self) -> Option<Fault> {
        self.scene.pointer_fault().or(pointer_fault_of(&self.marking))
    }

    pub(crate) fn preflight(self) -> Result<Preflight<'a>, Fault> {
        let (drawing, exposing) = self.scene.parts()?;
        let Marking { answer, dose_ratio, edge_tolerance, speck_area } = self.marking?;
        Ok(Preflight { drawing, exposing, answer, dose_ratio, edge_tolerance, speck_area })
    }
}

/// Tells how many words of workspace what is asked needs.
///
/// # Safety
/// `words` and `error` are NULL or valid, `user` is what `tell` takes.
pub(crate) unsafe fn tell_words(
    asked: Asked<'_>,
    tell: spotwise_tell,
    user: *mut c_void,
    words: *mut usize,
    error: *mut spotwise_error,
    count: impl FnOnce(&Preflight<'_>, &mut Watch<'_>) -> Result<usize, Error>,
) -> spotwise_status {
    // SAFETY: as the caller vouches.
    unsafe {
        let last_fault = pointer_fault(words).or(error_pointer_fault(error));
        report(words, error, || {
            if let Some(fault) = asked.pointer_fault().or(last_fault) {
                return Err(fault);
            }
            let preflight = asked.preflight()?;
            Ok(watched(tell, user, |watch| count(&preflight, watch))?)
        })
    }
}

/// How many 64-bit words of workspace spotwise_preflight() and spotwise_dose_window() need. Together with samples,
/// exposure and masks that is all the memory that they use.
///
/// @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[in]  tell     told of progress, may stop the work; may be NULL.
/// @param[in]  user     given to tell as it is; not looked at.
/// @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return as spotwise_preflight(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Looks at each pixel once. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_preflight_workspace(
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
            Ok(PreflightPlan::new(preflight, watch)?.words(threads))
        })
    }
}

/// Predicts the mark that will come out of a drawing, and finds what is lost of it: exposes, marks, compares.
///
/// @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
/// @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  output          where to write exposure, mark and findings; set with spotwise_preflight_output_init()
///                             and filled in; not NULL, nor any of its arrays that is not empty. On any status other
///                             than SPOTWISE_OK exposure and masks are 0, and regions and changes as their init
///                             functions make them, but for an array of structs of which one is not of this ABI, and
///                             if a length is one that no array can have: then nothing is written to any of them.
/// @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing.
/// @param[in]  workspace_words its length, at least what spotwise_preflight_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] found           result; set with spotwise_mark_report_init(); not NULL. On any status other than
///                             SPOTWISE_OK its numbers are set to a quiet NaN, its counts and flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
///         long for memory; not of the drawing's size, as SPOTWISE_PARAM_OUTPUT; too little room, as
///         SPOTWISE_PARAM_WORKSPACE; surface as spotwise_surface_at()), SPOTWISE_E_UNKNOWN_CHOICE,
///         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also a drawing or mark that is too intricate, as
///         SPOTWISE_PARAM_PIXEL_RUNS), SPOTWISE_E_OUTSIDE_MODEL and SPOTWISE_E_UNDETERMINED as spotwise_expose(),
///         SPOTWISE_E_STOPPED. Numbers come in the order of the members of drawing, marking, exposing and its surface.
///
/// Accuracy: that of the exposure, 5e-4 of full dose, besides expected_error of the report; all else is counted.
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors; the parts are those of spotwise_expose(), and of discrete geometry at large.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_preflight(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    output: *const spotwise_preflight_output,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    found: *mut spotwise_mark_report,
    error: *mut spotwise_error,
) -> spotwise_status {
    let workspace = Output { start: workspace, count: workspace_words };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(found).or(error_pointer_fault(error));
        let asked = Asked::read(drawing, exposing, marking);
        report(found, error, || {
            let (preflight, arrays) = writing(asked, output, workspace, last_fault)?;
            watched(tell, user, |watch| Ok(ran(&preflight, &arrays, workspace, watch)?.into()))
        })
    }
}

/// The arrays that a preflight fills.
struct Arrays {
    exposure: Output<u16>,
    masks: [Output<u64>; 3],
    regions: [Output<spotwise_mark_region>; 2],
    changes: Output<spotwise_mark_change>,
}

impl From<spotwise_preflight_output> for Arrays {
    fn from(output: spotwise_preflight_output) -> Self {
        Self {
            exposure: Output { start: output.exposure, count: output.pixels },
            masks: [output.mark, output.lost, output.filled]
                .map(|start| Output { start, count: output.mask_words }),
            regions: [
                Output { start: output.lost_region, count: output.lost_region_count },
                Output { start: output.filled_region, count: output.filled_region_count },
            ],
            changes: Output { start: output.change, count: output.change_count },
        }
    }
}

impl Arrays {
    fn length_fault(&self) -> Option<Fault> {
        let masks = self.masks.iter().find_map(|mask| mask.length_fault(Param::Output));
        let regions = self.regions.iter().find_map(|regions| regions.length_fault(Param::Findings));
        first([
            self.exposure.length_fault(Param::Output),
            masks,
            regions,
            self.changes.length_fault(Param::Findings),
        ])
    }

    fn extents(&self, workspace: Output<u64>) -> [Extent; 8] {
        let ([mark, lost, filled], [lost_regions, filled_regions]) = (self.masks, self.regions);
        [
            self.exposure.extent(),
            mark.extent(),
            lost.extent(),
            filled.extent(),
            lost_regions.extent(),
            filled_regions.extent(),
            self.changes.extent(),
            workspace.extent(),
        ]
    }

    /// What is wrong with the structs in the arrays; each array without such a fault is made blank, like all else.
    ///
    /// # Safety
    /// Arrays are NULL or valid for their items, and not longer than memory.
    unsafe fn made_blank(&self) -> Option<Fault> {
        // SAFETY: as the caller vouches.
        unsafe {
            self.exposure.fill(0);
            self.masks.iter().for_each(|mask| mask.fill(0));
            let [lost, filled] = self.regions.map(|regions| blank_structs(regions));
            first([lost, filled, blank_structs(self.changes)])
        }
    }
}

/// # Safety
/// As [`Arrays::made_blank`].
unsafe fn blank_structs<C: Plain>(structs: Output<C>) -> Option<Fault> {
    // SAFETY: as the caller vouches.
    let fault = unsafe { structs_fault(structs.start.cast_const(), structs.count) };
    if fault.is_none() {
        // SAFETY: as the caller vouches.
        unsafe { structs.fill(C::BLANK) };
    }
    fault
}

/// Makes the outputs blank; hands on what is asked and the arrays if no pointer or length is at fault.
///
/// # Safety
/// Pointers are NULL or valid for their items.
unsafe fn writing<'a>(
    asked: Asked<'a>,
    output: *const spotwise_preflight_output,
    workspace: Output<u64>,
    last_fault: Option<Fault>,
) -> Result<(Preflight<'a>, Arrays), Fault> {
    let before = asked.pointer_fault();
    // SAFETY: NULL or readable, as the caller vouches.
    let arrays: Arrays = match unsafe { input(output) } {
        Ok(output) => output.into(),
        Err(fault) => return Err(before.unwrap_or(fault)),
    };
    let overlap = asked.scene.overlap_fault(&[], &arrays.extents(workspace));
    if let Some(fault) = arrays.length_fault().or(workspace.length_fault(Param::Workspace)) {
        return Err(first([before, overlap, last_fault]).unwrap_or(fault));
    }
    // SAFETY: NULL or valid for their items, as the caller vouches; none is longer than memory.
    let structs = unsafe { arrays.made_blank() };
    match first([before, structs, overlap, last_fault]) {
        Some(fault) => Err(fault),
        None => Ok((asked.preflight()?, arrays)),
    }
}

/// # Safety
/// Arrays and workspace are valid for their items, apart, and blank but for the workspace.
unsafe fn ran(
    preflight: &Preflight<'_>,
    arrays: &Arrays,
    workspace: Output<u64>,
    watch: &mut Watch<'_>,
) -> Result<Report, Fault> {
    let (width, height) = (preflight.drawing.width, preflight.drawing.height);
    let plan = PreflightPlan::new(preflight, &mut watch.part(0.0, 0.1))?;
    let ([mark, lost, filled], [lost_regions, filled_regions]) = (arrays.masks, arrays.regions);
    // SAFETY: as the caller vouches. The regions and changes are blank structs again however the run ends.
    unsafe {
        let mut output = PreflightOutput {
            exposure: arrays.exposure.items(),
            mark: mask_mut(mark.items(), width, height)?,
            lost: mask_mut(lost.items(), width, height)?,
            filled: mask_mut(filled.items(), width, height)?,
            lost_regions: lost_regions.lent(Region::<f64>::default()),
            filled_regions: filled_regions.lent(Region::<f64>::default()),
            changes: arrays.changes.lent(Change::NONE),
        };
        let found = plan.run(&mut output, workspace.items(), &mut watch.part(0.1, 1.0));
        let count = |count: fn(&Report) -> u32| found.as_ref().map_or(0, |found| count(found) as usize);
        lost_regions.take_back::<Region<f64>>(count(|found| found.lost.regions));
        filled_regions.take_back::<Region<f64>>(count(|found| found.filled.regions));
        arrays.changes.take_back::<Change>(count(|found| found.topology.changes()));
        Ok(found?)
    }
}
