//! What the light does: laser, lens, beam.

pub mod astigmatic;
pub mod beam;
pub(crate) mod brightness;
pub mod lens;
pub mod width;

#[doc(inline)]
pub use astigmatic::{
    AstigmaticBeam, AstigmaticParameters, AstigmaticSection, Axis, CIRCULAR_ABOVE, astigmatic_at,
    astigmatic_parameters,
};
pub(crate) use astigmatic::{CheckedAstigmatic, checked_astigmatic};
#[doc(inline)]
pub use beam::{
    Beam, BeamParameters, BeamSection, beam_at, beam_parameters, diameters_at, m2_from_divergence,
    waist_from_divergence, waist_from_rayleigh_range,
};
pub(crate) use beam::{CheckedBeam, checked_beam};
pub(crate) use lens::{CheckedFocus, checked_focus};
#[doc(inline)]
pub use lens::{FocusedBeam, focus_astigmatic, focus_collimated, focus_through_lens};
#[doc(inline)]
pub use width::{WidthDefinition, convert_width, diameter_for_power, power_through_aperture};
