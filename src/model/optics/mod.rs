//! What the light does: laser, lens, beam.

mod astigmatic;
mod beam;
pub(crate) mod brightness;
mod lens;
mod width;

pub use astigmatic::{
    AstigmaticBeam, AstigmaticParameters, AstigmaticSection, Axis, CIRCULAR_ABOVE, astigmatic_at,
    astigmatic_parameters,
};
pub(crate) use astigmatic::{CheckedAstigmatic, checked_astigmatic};
pub use beam::{
    Beam, BeamParameters, BeamSection, beam_at, beam_parameters, diameters_at, m2_from_divergence,
    waist_from_divergence, waist_from_rayleigh_range,
};
pub(crate) use beam::{CheckedBeam, checked_beam};
pub(crate) use lens::{CheckedFocus, checked_focus};
pub use lens::{FocusedBeam, focus_astigmatic, focus_collimated, focus_through_lens};
pub use width::{WidthDefinition, convert_width, diameter_for_power, power_through_aperture};
