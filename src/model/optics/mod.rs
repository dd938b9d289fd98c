//! What the light does: laser, lens, beam.

pub mod astigmatic;
pub mod beam;
pub(crate) mod brightness;
pub(crate) mod carried;
pub mod clipping;
pub mod gantry;
pub mod glass;
pub mod lens;
pub mod other_wavelength;
pub mod path;
pub mod plate;
pub mod singlet;
pub mod wave;
pub mod width;

#[doc(inline)]
pub use crate::validity::Cone;

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
pub(crate) use clipping::checked_clipping;
#[doc(inline)]
pub use clipping::{ClippedFocus, focus_clipped};
#[doc(inline)]
pub use gantry::{EvenGantry, GantrySpread, even_out_gantry, focus_along_gantry, gantry_spread};
#[doc(inline)]
pub use glass::{Glass, GlassIndex, refractive_index};
#[doc(inline)]
pub use lens::{AstigmaticFocus, FocusedBeam, focus_astigmatic, focus_collimated, focus_through_lens};
pub(crate) use lens::{BeforeLens, CheckedFocus, before_lens, focus_of};
#[doc(inline)]
pub use other_wavelength::{LensAtWavelength, lens_at_wavelength};
#[doc(inline)]
pub use path::{Element, PathBeam, beam_after_path, beam_along_path};
#[cfg(feature = "units")]
pub(crate) use path::{after_elements, along_elements};
#[doc(inline)]
pub use plate::{InsideFocus, PlateFocus, focus_behind_plate, focus_inside};
#[doc(inline)]
pub use singlet::{
    AberratedWaist, AberrationGrowth, LensAberration, LensForm, LensShape, Singlet, SingletFocus,
    SmallestSpot, SpotMeasure, aberration_growth, focus_singlet, lens_aberration, lens_from_radii,
    smallest_spot,
};
pub(crate) use singlet::{check_clear_aperture, checked_singlet_beam, checked_singlet_of, singlet_focus_of};
#[doc(inline)]
pub use wave::{
    FocusMeasure, Wave, WaveFocus, WaveIrradiance, WaveMap, WavePower, WaveWidths, wave_focus,
    wave_irradiance, wave_map, wave_map_workspace, wave_power, wave_widths,
};
#[doc(inline)]
pub use width::{WidthDefinition, convert_width, diameter_for_power, power_through_aperture};
