//! Quantities with units and role types over the model. It converts and delegates; it holds no
//! formula.

mod astigmatic;
mod beam;
mod depth;
mod detail;
mod divergence;
mod job;
mod lens;
mod offset;
#[cfg(feature = "serde")]
mod serde_text;
pub mod units;
mod verdict;
mod width;

pub use astigmatic::{
    AstigmaticBeam, AstigmaticDefocus, AstigmaticParameters, AstigmaticParts, AstigmaticSection, AxisParts,
};
pub use beam::{Beam, BeamParameterProduct, BeamParts, BeamSection, Defocus, Divergent, Ranged};
pub use depth::{Criterion, FocusRange};
pub use detail::{
    Details, FinestDetail, GratingContrast, contrast_at_pitch, largest_spot_for_details, pitch_for_contrast,
    smallest_details,
};
pub use divergence::Divergence;
pub use job::{Drawing, FocusSetting, Job, Laser, RawBeam, Surface};
pub use lens::{Focus, Lens, WaistPosition};
pub use offset::{Offset, Side};
pub use verdict::{Place, Verdict};
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
