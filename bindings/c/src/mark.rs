//! What the spot leaves behind: the finest detail, and the contrast of a grating.

use crate::abi::{Plain, init, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::mark::{
    ContrastPitch, GratingContrast, SmallestDetails, contrast_at_pitch, largest_spot_for_details,
    pitch_for_contrast, smallest_details,
};

/// The finest details that hold: the result of spotwise_smallest_details().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_smallest_details_result {
    /// Size of this struct; spotwise_smallest_details_result_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Width of the finest long stroke in metres.
    pub bar_m: f64,
    /// Width of the finest long gap between filled areas in metres.
    pub gap_m: f64,
    /// Diameter of the finest filled disc in metres.
    pub dot_diameter_m: f64,
    /// Diameter of the finest open disc, such as a counter, in metres.
    pub hole_diameter_m: f64,
    /// Side of the finest filled square in metres.
    pub square_m: f64,
    /// How far a straight edge moves in metres, + outward (strokes grow), - inward.
    pub edge_shift_m: f64,
}
plain!(
    spotwise_smallest_details_result, 56 bytes,
    words: [reserved],
    numbers: [bar_m, gap_m, dot_diameter_m, hole_diameter_m, square_m, edge_shift_m]
);

impl From<SmallestDetails> for spotwise_smallest_details_result {
    fn from(result: SmallestDetails) -> Self {
        Self {
            bar_m: result.bar,
            gap_m: result.gap,
            dot_diameter_m: result.dot_diameter,
            hole_diameter_m: result.hole_diameter,
            square_m: result.square,
            edge_shift_m: result.edge_shift,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_smallest_details_result_init(
    details: *mut spotwise_smallest_details_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(details) }
}

/// Contrast of a grating at one pitch.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_grating_contrast {
    /// Size of this struct; spotwise_grating_contrast_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Contrast of a sinusoidal pattern, (max - min)/(max + min).
    pub sine: f64,
    /// Contrast of equal bars and gaps.
    pub bars: f64,
    /// Largest over smallest dose at which equal bars and gaps both hold; infinite where the gaps
    /// stay clear at any dose that a double can tell.
    pub dose_window_ratio: f64,
}
plain!(
    spotwise_grating_contrast, 32 bytes,
    words: [reserved],
    numbers: [sine, bars, dose_window_ratio]
);

impl From<GratingContrast> for spotwise_grating_contrast {
    fn from(result: GratingContrast) -> Self {
        Self { sine: result.sine, bars: result.bars, dose_window_ratio: result.dose_window, ..Self::BLANK }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_grating_contrast_init(contrast: *mut spotwise_grating_contrast) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(contrast) }
}

/// The finest bar, gap, dot, hole and square that a spot holds in a dense raster, and the shift of an edge.
///
/// A bar by itself, and a gap in a fill without end: both are the worst case, since neighbours add
/// dose to a bar, and a gap between narrow bars gets less than one in a fill. Heat that stays in the
/// part, melt flow and incubation are not modelled.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
///                             SPOTWISE_PARAM_DOSE_RATIO.
/// @param[out] details         result; set with spotwise_smallest_details_result_init(); not NULL.
///                             On any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result, the square at most 5 ulp.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors, an edge, strip or disc convolved with a Gaussian spot.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_smallest_details(
    spot_diameter_m: f64,
    dose_ratio: f64,
    details: *mut spotwise_smallest_details_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(details, error, || Ok(smallest_details(spot_diameter_m, dose_ratio)?.into())) }
}

/// Largest spot diameter at which both a stroke and a gap of these widths still hold.
///
/// C does not notice if stroke and gap are swapped; spotwise_focus_check() takes them as named
/// members.
///
/// @param[in]  finest_stroke_m width of the finest stroke in metres; range:
///                             SPOTWISE_PARAM_FINEST_STROKE.
/// @param[in]  finest_gap_m    width of the finest gap in metres; range: SPOTWISE_PARAM_FINEST_GAP.
/// @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
///                             SPOTWISE_PARAM_DOSE_RATIO.
/// @param[out] spot_diameter_m spot diameter in metres, 1/e^2 (D4 sigma); not NULL. On any status
///                             other than SPOTWISE_OK it is set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 3 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors, as spotwise_smallest_details().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_largest_spot_for_details(
    finest_stroke_m: f64,
    finest_gap_m: f64,
    dose_ratio: f64,
    spot_diameter_m: *mut f64,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(spot_diameter_m, error, || {
            Ok(largest_spot_for_details(finest_stroke_m, finest_gap_m, dose_ratio)?)
        })
    }
}

/// Pitches at which a pattern keeps a contrast: the result of spotwise_pitch_for_contrast().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_contrast_pitch {
    /// Size of this struct; spotwise_contrast_pitch_init() sets it.
    pub struct_size: u32,
    /// 0.
    pub reserved: u32,
    /// Pitch of a sinusoidal pattern in metres.
    pub sine_m: f64,
    /// Pitch of equal bars and gaps in metres; smaller, since their contrast starts out higher.
    pub bars_m: f64,
}
plain!(
    spotwise_contrast_pitch, 24 bytes,
    words: [reserved],
    numbers: [sine_m, bars_m]
);

impl From<ContrastPitch> for spotwise_contrast_pitch {
    fn from(result: ContrastPitch) -> Self {
        Self { sine_m: result.sine, bars_m: result.bars, ..Self::BLANK }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_contrast_pitch_init(pitch: *mut spotwise_contrast_pitch) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(pitch) }
}

/// Contrast of a sine pattern and of equal bars and gaps at this pitch, and the dose window.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  pitch_m         one bar and one gap in metres; range: SPOTWISE_PARAM_PITCH.
/// @param[out] contrast        result; set with spotwise_grating_contrast_init(); not NULL. On any
///                             status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors, a square wave convolved with a Gaussian spot.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_contrast_at_pitch(
    spot_diameter_m: f64,
    pitch_m: f64,
    contrast: *mut spotwise_grating_contrast,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(contrast, error, || Ok(contrast_at_pitch(spot_diameter_m, pitch_m)?.into())) }
}

/// Pitches at which a sine pattern, and equal bars and gaps, keep this contrast.
///
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  contrast        contrast to keep, above 0 and below 1; range:
///                             SPOTWISE_PARAM_CONTRAST.
/// @param[out] pitch           result; set with spotwise_contrast_pitch_init(); not NULL. On any status
///                             other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: derived by the authors, as spotwise_contrast_at_pitch().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_pitch_for_contrast(
    spot_diameter_m: f64,
    contrast: f64,
    pitch: *mut spotwise_contrast_pitch,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(pitch, error, || Ok(pitch_for_contrast(spot_diameter_m, contrast)?.into())) }
}
