//! What the spot leaves behind: dose, marks, fills and the finest detail.
//!
//! A drawing is blurred by a Gaussian spot and marked where the dose reaches a threshold, so that all depends
//! on the spot and on dose ratios, doses over the dose at which the material just marks. Three laws differ
//! in how the dose falls out of focus: with the square of the growth for a pulse, with the growth for a
//! line, and not at all inside a raster fill.

pub mod blur;
pub mod compensation;
pub mod contrast;
pub mod crisp;
pub mod detail;
pub mod dose;
pub mod fill_width;
pub mod isolated;
pub mod material;
pub mod pulsed;
pub mod raster;
pub mod text;

#[doc(inline)]
pub use blur::{Blur, BlurBudget, blur_budget};
#[doc(inline)]
pub use compensation::{Compensation, CompensationLimits, CompensationRule, MarkSetting, compensate};
#[doc(inline)]
pub use contrast::{ContrastPitch, GratingContrast, contrast_at_pitch, pitch_for_contrast};
#[doc(inline)]
pub use crisp::{FillQuality, Taste, fill_quality, offset_for_taste};
#[doc(inline)]
pub use detail::{
    DetailExposure, SmallestDetails, detail_exposure, largest_spot_for_details, smallest_details,
};
pub(crate) use detail::{Resolution, fill_marks};
#[doc(inline)]
pub use dose::{
    PulseDose, Scan, ScanDose, dose_over_threshold, dots_per_inch, line_interval, pulse_dose, scan_dose,
};
pub(crate) use fill_width::erf_along;
#[doc(inline)]
pub use fill_width::{FillLimits, FillWidth, fill_limits, fill_width};
#[doc(inline)]
pub use isolated::{MarkKind, MarkLimits, MarkWidth, mark_limits, mark_width};
pub(crate) use material::SeenSpot;
#[doc(inline)]
pub use material::{Material, MaterialMark, Response, material_mark};
#[doc(inline)]
pub use pulsed::{ConnectedSpeed, Crater, Groove, PulsedLine, connected_speed, crater, groove, pulsed_line};
#[doc(inline)]
pub use raster::{RasterRipple, interval_for_ripple, raster_ripple};
pub(crate) use raster::{check_fill, least_over_mean, ripple_contrast};
pub(crate) use text::{LetterShape, TextLimits};
#[doc(inline)]
pub use text::{
    POINT, SmallestText, TextGrade, TextGrades, TextOffset, TextQuality, Typeface, TypefaceShares,
    offset_for_text, smallest_text, text_quality, typeface_shares,
};
