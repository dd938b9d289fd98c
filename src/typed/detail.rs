//! The finest detail that a spot holds.

use super::length;
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::mark::{self, DetailExposure};
use uom::si::f64::Length;

/// The finest details that hold, as
/// [`model::mark::smallest_details`](crate::model::mark::smallest_details) defines them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Details {
    /// Width of the finest long stroke.
    pub bar: Length,
    /// Width of the finest long gap.
    pub gap: Length,
    /// Diameter of the finest filled disc.
    pub dot_diameter: Length,
    /// Diameter of the finest open disc.
    pub hole_diameter: Length,
    /// Side of the finest filled square.
    pub square: Length,
    /// How far a straight edge moves outward; negative where strokes shrink.
    pub outward_edge_shift: Length,
}

/// The finest stroke and gap of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinestDetail {
    /// Width of the finest stroke.
    pub stroke: Length,
    /// Width of the finest gap.
    pub gap: Length,
}

/// Contrast of a grating at one pitch, as
/// [`model::mark::contrast_at_pitch`](crate::model::mark::contrast_at_pitch) defines it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GratingContrast {
    /// Contrast of a sine pattern.
    pub sine: f64,
    /// Contrast of equal bars and gaps.
    pub bars: f64,
    /// Largest over smallest dose at which bars and gaps both hold.
    pub dose_window: f64,
}

/// The finest bar, gap, dot, hole and square that this spot holds at this dose ratio (fill dose over the
/// dose at which the material just marks).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`]: the dose ratio must exceed 1.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, smallest_details, units::um};
/// let details = smallest_details(BeamWidth::from_diameter_1e2(um(88.0))?, 2.7)?;
/// assert_eq!((details.bar.value * 1e9).round(), 21_219.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "minimum feature")]
pub fn smallest_details(spot: BeamWidth, dose_ratio: f64) -> Result<Details, Error> {
    let details = mark::smallest_details(spot.metres_1e2(), dose_ratio)?;
    Ok(Details {
        bar: length(details.bar),
        gap: length(details.gap),
        dot_diameter: length(details.dot_diameter),
        hole_diameter: length(details.hole_diameter),
        square: length(details.square),
        outward_edge_shift: length(details.edge_shift),
    })
}

/// Exposure at the centre of details of one size, over that of a wide fill. As
/// [`model::mark::detail_exposure`](crate::model::mark::detail_exposure).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the size, 1e-9 to 10 m.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, detail_exposure, units::um};
/// let exposure = detail_exposure(BeamWidth::from_diameter_1e2(um(100.0))?, um(100.0))?;
/// assert_eq!((exposure.bar * 1e4).round(), 9545.0); // erf(√2)
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn detail_exposure(spot: BeamWidth, size: Length) -> Result<DetailExposure, Error> {
    mark::detail_exposure(spot.metres_1e2(), size.value)
}

/// The widest spot at which both the stroke and the gap still hold. As
/// [`model::mark::largest_spot_for_details`](crate::model::mark::largest_spot_for_details).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::{FinestDetail, largest_spot_for_details, units::um};
/// let detail = FinestDetail { stroke: um(100.0), gap: um(100.0) };
/// let spot = largest_spot_for_details(detail, 2.7)?;
/// assert_eq!((spot.diameter_1e2().value * 1e9).round(), 223_269.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn largest_spot_for_details(detail: FinestDetail, dose_ratio: f64) -> Result<BeamWidth, Error> {
    mark::largest_spot_for_details(detail.stroke.value, detail.gap.value, dose_ratio).map(BeamWidth::computed)
}

/// Contrast of a grating of this pitch under this spot.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the pitch.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, contrast_at_pitch, units::um};
/// let c = contrast_at_pitch(BeamWidth::from_diameter_1e2(um(100.0))?, um(100.0))?;
/// assert_eq!((c.dose_window * 1e3).round(), 2179.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn contrast_at_pitch(spot: BeamWidth, pitch: Length) -> Result<GratingContrast, Error> {
    let contrast = mark::contrast_at_pitch(spot.metres_1e2(), pitch.value)?;
    Ok(GratingContrast { sine: contrast.sine, bars: contrast.bars, dose_window: contrast.dose_window })
}

/// The pitches at which patterns keep a contrast, as
/// [`model::mark::pitch_for_contrast`](crate::model::mark::pitch_for_contrast) defines them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ContrastPitch {
    /// Pitch of a sine pattern.
    pub sine: Length,
    /// Pitch of equal bars and gaps.
    pub bars: Length,
}

/// The pitches at which a sine pattern, and equal bars and gaps, keep this contrast under this spot.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the contrast, between 0 and 1.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, pitch_for_contrast, units::um};
/// let pitch = pitch_for_contrast(BeamWidth::from_diameter_1e2(um(100.0))?, 0.5)?;
/// assert_eq!((pitch.sine.value * 1e9).round(), 133_411.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn pitch_for_contrast(spot: BeamWidth, contrast: f64) -> Result<ContrastPitch, Error> {
    let pitch = mark::pitch_for_contrast(spot.metres_1e2(), contrast)?;
    Ok(ContrastPitch { sine: length(pitch.sine), bars: length(pitch.bars) })
}
