#![cfg_attr(not(feature = "std"), no_std)]
#![forbid(unsafe_code)]
#![cfg_attr(docsrs, feature(doc_cfg))]
//! top
#![allow(missing_docs)]
mod error;
pub mod model;
mod validity;
pub use error::{Error, Kind, Param, TextFault};
pub use validity::{CAUTION_HALF_ANGLE, REFUSED_HALF_ANGLE, Validity};
