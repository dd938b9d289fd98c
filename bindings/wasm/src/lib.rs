//! WebAssembly face of spotwise, flat: numbers in, a status out.
//!
//! Nobody is meant to call this by hand. The TypeScript in `ts/` gives it shape: branded numbers,
//! objects with named fields, thrown errors. No formula lives on either side; each function here
//! names one function of the model, passes its numbers on and lays the answer out.
//!
//! **Convention.** Inputs are SI numbers, in the order of `tests/vectors/functions.toml`; choices
//! are their permanent codes. The result is the permanent code of the error, 0 for none. Outputs
//! lie in one buffer, [`outputs`], in the order of the same list; flags, codes and yes/no are
//! whole numbers, an absent range is NaN. After an error every output is NaN, and
//! [`error_parameter`] and its neighbours tell the rest.

mod artwork_job;
mod exchange;

pub mod artwork;
pub mod artwork_bound;
pub mod artwork_by_job;
pub mod artwork_exposure;
pub mod artwork_picture;
pub mod artwork_quick;
pub mod artwork_remedies;
pub mod artwork_vector;
pub mod beam_fit;
pub mod blur;
pub mod by_eye;
pub mod calibration;
pub mod check;
pub mod clipping;
pub mod compensation;
pub mod crisp;
pub mod diagnosis;
pub mod dose;
pub mod fill;
pub mod focus;
pub mod gantry;
pub mod glass;
pub mod height_budget;
pub mod height_map;
pub mod in_focus;
pub mod isolated;
pub mod lens_choice;
pub mod lettering;
pub mod mark;
pub mod mark_fit;
pub mod material;
pub mod optics;
pub mod path;
pub mod plan;
pub mod plate;
pub mod pulsed;
pub mod raster;
pub mod scan_field;
pub mod shape;
pub mod singlet;
pub mod statistics;
mod surface_check;
pub mod text;
pub mod threshold_fit;
pub mod tolerance;
pub mod wave;

pub use exchange::{
    error_greatest, error_least, error_message, error_parameter, error_parameter_name, error_value, outputs,
};
