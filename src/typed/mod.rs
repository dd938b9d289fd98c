//! Quantities with units and role types over the model. It converts and delegates; it holds no
//! formula.

mod astigmatic;
mod beam;
mod clipping;
mod depth;
mod detail;
mod divergence;
mod gantry;
mod glass;
mod job;
mod lens;
mod offset;
mod path;
mod plate;
#[cfg(feature = "serde")]
mod serde_text;
mod singlet;
mod tilt;
pub mod units;
mod verdict;
mod wave;
mod width;

#[doc(inline)]
pub use crate::model::optics::{FocusMeasure, Glass, LensShape, SpotMeasure};

pub use astigmatic::{
    AstigmaticBeam, AstigmaticDefocus, AstigmaticParameters, AstigmaticParts, AstigmaticSection, AxisParts,
};
pub use beam::{Beam, BeamParameterProduct, BeamParts, BeamSection, Cone, Defocus, Divergent, Ranged};
pub use clipping::{ClippedBeam, ClippedDepth, ClippedFocus};
pub use depth::{Criterion, FocusRange};
pub use detail::{
    Details, FinestDetail, GratingContrast, contrast_at_pitch, largest_spot_for_details, pitch_for_contrast,
    smallest_details,
};
pub use divergence::Divergence;
pub use gantry::{EvenGantry, ExpanderToSet, GantryColumns, GantrySpread, GantryTravel};
pub use glass::{GlassIndex, LensAtWavelength, Material, Wavelengths};
pub use job::{Drawing, FocusSetting, Job, JobLens, JobSinglet, Laser, RawBeam, Surface};
pub use lens::{AstigmaticFocus, Focus, Lens, WaistPosition};
pub use offset::{Offset, Side};
pub use path::{Element, Expander, ExpanderWaist, PathBeam, beam_after_path, beam_along_path};
pub use plate::{InsideFocus, Plate, PlateFocus};
pub use singlet::{
    AberratedWaist, AberrationGrowth, LensAberration, LensForm, LensNumbers, Power86Growth, RadiiParts,
    Singlet, SingletDefocus, SingletDepth, SingletFocus, SmallestSpot, SurfaceRadius, aberration_growth,
};
pub use tilt::TiltedSpot;
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

/// An angle of so many radians.
pub(crate) fn angle(radians: f64) -> Angle {
    units::rad(radians)
}

/// A number of the model, which is NaN where it refuses to give one.
fn known(value: f64) -> Option<f64> {
    (!value.is_nan()).then_some(value)
}
