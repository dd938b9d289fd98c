//! Quantities with units and role types over the model. It converts and delegates; it holds no
//! formula.

mod astigmatic;
mod beam;
mod beam_fit;
mod blur;
mod by_eye;
mod calibration;
mod clipping;
mod compensation;
mod depth;
mod detail;
mod diagnosis;
mod divergence;
mod dose;
mod estimate;
mod gantry;
mod glass;
mod height_budget;
mod height_map;
mod in_focus;
mod job;
mod lens;
mod lens_choice;
mod lettering;
mod mark_fit;
mod marks;
mod material;
mod offset;
mod path;
mod plan;
mod plate;
#[cfg(feature = "artwork")]
mod preflight;
mod pulsed;
mod raster;
mod scan_field;
#[cfg(feature = "serde")]
mod serde_text;
mod shape;
mod singlet;
mod statistics;
mod surface_verdict;
mod threshold_fit;
mod tilt;
mod tolerance;
pub mod units;
mod verdict;
mod wave;
mod width;

pub use crate::model::learn::ReadingWeights;
#[doc(inline)]
pub use crate::model::learn::{
    Ambiguities, DepthLaw, DepthReading, FurtherTest, HeightVerdict, MarkCause, PossiblePower,
};
pub use crate::model::learn::{FurtherMarks, MarkFitCautions, WidthScatter};
#[doc(inline)]
pub use crate::model::mark::{
    CompensationLimits, CompensationRule, DetailExposure, MarkKind, RasterRipple, TextGrade, TextGrades,
    TextQuality, Typeface, TypefaceShares, typeface_shares,
};
#[doc(inline)]
pub use crate::model::optics::{FocusMeasure, Glass, LensShape, SpotMeasure};
#[doc(inline)]
pub use crate::model::surface::{Bulge, DrawnShare, FocusAim, HeightQuantity, PlaceOdds, ToleranceSource};

pub use astigmatic::{
    AstigmaticBeam, AstigmaticDefocus, AstigmaticParameters, AstigmaticParts, AstigmaticSection, AxisParts,
};
pub use beam::{Beam, BeamParameterProduct, BeamParts, BeamSection, Cone, Defocus, Divergent, Ranged};
pub use beam_fit::{BeamFit, BeamFitOptions, BeamReading, fit_beam};
pub use blur::{Blur, BlurBudget};
pub use by_eye::{
    EyeFocus, EyeJudgement, RankFocus, RankedPiece, RunEnd, SeenPiece, VanishingFocus, focus_from_ranks,
    focus_from_vanishing,
};
pub use calibration::{CalibratedLine, CalibratedSetUp, Calibration, LearnedThreshold};
pub use clipping::{ClippedBeam, ClippedDepth, ClippedFocus};
pub use compensation::{Compensation, MarkSetting};
pub use depth::{Criterion, FocusRange};
pub use detail::{
    ContrastPitch, Details, FinestDetail, GratingContrast, contrast_at_pitch, detail_exposure,
    largest_spot_for_details, pitch_for_contrast, smallest_details,
};
pub use diagnosis::{
    GoodMark, HeightReadings, HeightSettlement, MarkDiagnosis, PatchSettlement, PossibleHeight,
    PowerSettlement, PowerStep, WidthDiagnosis, WidthReading,
};
pub use divergence::Divergence;
pub use dose::{LineInterval, PulseDose, Scan, ScanDose, dose_over_threshold};
pub use estimate::Estimate;
pub use gantry::{EvenGantry, ExpanderToSet, GantryColumns, GantrySpread, GantryTravel};
pub use glass::{GlassIndex, LensAtWavelength, Material, Wavelengths};
pub use height_budget::{
    AstigmaticFocusBetween, BandColumns, CylinderStrip, DeepEngraving, FocusBetween, FocusDepth, HeightBands,
    RefocusPlan, SpotThrough, ThroughCut, height_bands,
};
pub use height_map::{FocusMask, HeightMap, MapExtreme};
pub use in_focus::{CellsPerSide, FocusHeight, HeightBand, RegionHeights, ShareInFocus, SurfaceFocus};
pub use job::{
    Drawing, FocusSetting, Job, JobDose, JobLens, JobScan, JobSinglet, JobText, Laser, RawBeam, SurfaceExtent,
};
pub use lens::{AstigmaticFocus, Focus, Lens, WaistPosition};
pub use lens_choice::{
    CausticCrossing, Crossing, LensCandidate, LensChoice, LensFindings, LensRanking, SetUp,
};
pub use lettering::{Lettering, SmallestText, TextOffset, TypeSize};
pub use mark_fit::{MarkFit, MarkFitOptions, Prior, SeriesKnown, SeriesMark, fit_mark_widths};
pub use marks::{FillLimits, FillWidth, MarkLimits, MarkWidth};
pub use material::{MaterialMark, PartMaterial, PlaceDose, RemovalEnergy, Response};
pub use offset::{Offset, Side};
pub use path::{Element, Expander, ExpanderWaist, PathBeam, beam_after_path, beam_along_path};
pub use plan::{
    DrawingPlace, EngravedPiece, MeasuredWidth, PieceLayout, PlannedPiece, SeriesAxis, SeriesDrift,
    SeriesPlan, SeriesPurpose, SeriesRequest, series_drift,
};
pub use plate::{InsideFocus, Plate, PlateFocus};
#[cfg(feature = "artwork")]
pub use preflight::{
    Area, Artwork, BeamToTry, BoundLight, BoundLines, DoseWindow, DrawnOn, FocusReach, JobMarking,
    MarkAnswer, MarkReport, Mask, PartChange, PixelPitch, Preflight, PreflightVerdict, QuickAnswer,
    QuickBound, RankedBeam, RasterScan, ScanBlur,
};
pub use pulsed::{
    ConnectedSpeed, Crater, CraterPlace, Groove, GroovePlace, Incubation, PulseSpot, PulsedLine,
};
pub use raster::{FillQuality, Taste, interval_for_ripple, raster_ripple};
pub use scan_field::{FieldPlace, ScanFieldExtent, ScanFieldFocus, ScanFieldSpot, ScanLens};
pub use shape::{
    ProbedGrid, Region, RoundShape, RoundSize, Steps, Surface, SurfaceExtremes, SurfaceHeight, SurfacePlace,
    SurfaceSlope, TablePlace, heights_from_toward_lens,
};
pub use singlet::{
    AberratedWaist, AberrationGrowth, LensAberration, LensForm, LensNumbers, Power86Growth, RadiiParts,
    Singlet, SingletDefocus, SingletDepth, SingletFocus, SmallestSpot, SurfaceRadius, aberration_growth,
};
pub use statistics::{chi_squared_chance, student_factor};
pub use surface_verdict::SurfaceVerdict;
pub use threshold_fit::{TestMark, ThresholdFit, ThresholdFitOptions, VariedDose, fit_threshold};
pub use tilt::TiltedSpot;
pub use tolerance::{
    Contribution, DetailOdds, Distribution, DrawnOffsets, Draws, GreatestContribution, OffsetOdds,
    SurfaceEnds, ToleranceStack, offset_odds, tolerance_stack,
};
pub use verdict::{Place, Verdict};
pub use wave::{
    MapBuffers, MapGrid, Wave, WaveDepth, WaveFocus, WaveIrradiance, WaveMap, WaveParts, WavePower,
    WaveWidths,
};
pub use width::{Aperture, BeamWidth, aperture_for_power, power_through_aperture};

use uom::si::f64::{Angle, Length};

/// A length of so many metres.
pub(crate) fn length(metres: f64) -> Length {
    units::m(metres)
}

/// An area of so many square metres.
#[cfg(feature = "artwork")]
pub(crate) fn area(square_metres: f64) -> uom::si::f64::Area {
    uom::si::f64::Area::new::<uom::si::area::square_meter>(square_metres)
}

/// An angle of so many radians.
pub(crate) fn angle(radians: f64) -> Angle {
    units::rad(radians)
}

/// A number of the model, which is NaN where it refuses to give one.
fn known(value: f64) -> Option<f64> {
    (!value.is_nan()).then_some(value)
}
