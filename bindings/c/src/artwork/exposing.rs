//! What exposes a drawing.

use super::drawing::{drawing_of, spotwise_drawing};
use super::memory::{pointer_fault_of, pointing};
use crate::abi::{Fault, Plain, init_as, input, pointer_fault};
use crate::arrays::{Extent, array_fault};
use crate::beam::spotwise_beam;
use crate::shape::{spotwise_surface, surface_of};
use spotwise::artwork::{Drawing, Exposing, Scan};
use spotwise::model::surface::Surface;

/// What exposes a drawing. Heights count + away from the lens, as those of the surface.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_exposing {
    /// Size of this struct; spotwise_exposing_init() sets it, and that of the beam.
    pub struct_size: u32,
    /// What is known of the scan: one of SPOTWISE_SCAN_*.
    pub scan: u32,
    /// 1 if a slope thins the irradiance by the cosine of the incidence angle, as it does, and as
    /// spotwise_exposing_init() sets it; 0 to leave that out.
    pub incidence_loss: u32,
    /// Set to 0.
    pub reserved: u32,
    /// Height of the waist in metres; range: SPOTWISE_PARAM_FOCUS_Z.
    pub focus_z_m: f64,
    /// What widens the spot along the rows besides focus, as a 1/e^2 DIAMETER in metres; adds by squares; 0 for
    /// none; range: SPOTWISE_PARAM_BLUR_ALONG.
    pub blur_along_m: f64,
    /// Likewise from row to row; range: SPOTWISE_PARAM_BLUR_ACROSS.
    pub blur_across_m: f64,
    /// From one line to the next in metres; for SPOTWISE_SCAN_ALONG_ROWS; range: SPOTWISE_PARAM_LINE_INTERVAL. Lines
    /// farther apart than 2.5 of the least spot RADIUS anywhere on the drawing, blur across included, are refused
    /// (SPOTWISE_E_OUTSIDE_MODEL): they are strokes rather than a fill, to be drawn as ink with the scan unknown. Of a
    /// raster that is burnt as it is the rows are the lines: any interval but pitch_y_m, to one part in a million, is
    /// refused (SPOTWISE_E_OUT_OF_RANGE).
    pub line_interval_m: f64,
    /// From the upper edge of the drawing to the first line in metres, at most line_interval_m; for
    /// SPOTWISE_SCAN_ALONG_ROWS; range: SPOTWISE_PARAM_FIRST_LINE.
    pub first_line_m: f64,
    /// The focused beam.
    pub beam: spotwise_beam,
    /// The surface on which the drawing lies, set with spotwise_surface_init() and filled in; not NULL. Where it has
    /// no height (beside it, or where a probe is missing) the exposure is not known.
    pub surface: *const spotwise_surface,
}
pointing!(
    spotwise_exposing,
    words: [scan, incidence_loss, reserved],
    numbers: [focus_z_m, blur_along_m, blur_across_m, line_interval_m, first_line_m],
    nested: [beam: spotwise_beam],
    pointers: [surface],
    lengths: [],
);

/// What exposes a drawing, behind an input pointer, with its surface.
///
/// # Safety
/// `exposing` is NULL, or aligned and readable, and so are its surface and the surface's arrays while `'a` lasts.
pub(crate) unsafe fn exposing_of<'a>(exposing: *const spotwise_exposing) -> Result<Exposing<'a>, Fault> {
    // SAFETY: as the caller vouches.
    let given = unsafe { input(exposing)? };
    // SAFETY: a whole struct.
    if let Some(fault) = unsafe { pointer_fault(&raw const given.beam) } {
        return Err(fault);
    }
    // SAFETY: as the caller vouches.
    let surface = unsafe { surface_of(given.surface) }?;
    Ok(Exposing {
        beam: given.beam.into(),
        focus_z: given.focus_z_m,
        surface,
        incidence_loss: given.incidence_loss != 0,
        blur_along: given.blur_along_m,
        blur_across: given.blur_across_m,
        scan: Scan::from_code(given.scan, given.line_interval_m, given.first_line_m)?,
    })
}

/// Sets struct_size, also of the beam, incidence_loss to 1, scan and surface to 0, and every number to a quiet NaN.
/// NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_exposing_init(exposing: *mut spotwise_exposing) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(exposing, spotwise_exposing { incidence_loss: 1, ..spotwise_exposing::BLANK }) }
}

/// A drawing and what exposes it, as far as they could be read.
pub(crate) struct Scene<'a> {
    drawing: Result<Drawing<'a>, Fault>,
    exposing: Result<Exposing<'a>, Fault>,
}

impl<'a> Scene<'a> {
    /// # Safety
    /// Pointers are NULL or valid, those to arrays for their items, while `'a` lasts.
    pub(crate) unsafe fn read(drawing: *const spotwise_drawing, exposing: *const spotwise_exposing) -> Self {
        // SAFETY: as the caller vouches.
        unsafe { Self { drawing: drawing_of(drawing), exposing: exposing_of(exposing) } }
    }

    pub(crate) fn pointer_fault(&self) -> Option<Fault> {
        pointer_fault_of(&self.drawing).or(pointer_fault_of(&self.exposing))
    }

    /// What is wrong with the pointers of outputs, one being NULL or sharing memory.
    pub(crate) fn overlap_fault(&self, more_inputs: &[Extent], outputs: &[Extent]) -> Option<Fault> {
        let samples = self.drawing.as_ref().map_or(&[][..], |drawing| drawing.samples);
        let none: &[f64] = &[];
        let [x, y, z] = match self.exposing.as_ref().map(|exposing| exposing.surface) {
            Ok(Surface::Steps { edges, z }) => [edges, none, z],
            Ok(Surface::Grid { x, y, z }) => [x, y, z],
            _ => [none; 3],
        }
        .map(|array| Extent::of(array.as_ptr(), array.len()));
        // Outputs among themselves and with some of the inputs, then with the others.
        array_fault(more_inputs, outputs)
            .or(array_fault(&[Extent::of(samples.as_ptr(), samples.len()), x, y, z], outputs))
    }

    pub(crate) fn parts(self) -> Result<(Drawing<'a>, Exposing<'a>), Fault> {
        Ok((self.drawing?, self.exposing?))
    }
}
