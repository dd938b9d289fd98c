//! What calls that fill arrays say of them as a whole.

use crate::abi::{Plain, init, plain};
use spotwise::model::optics::Cone;

/// How far an array of results may be trusted: the flags of all of them, and the number behind.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_cone {
    /// Size of this struct; spotwise_cone_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply to any of the results.
    pub validity: u32,
    /// Greatest 1/e^2 half angle of the beams involved in radians: the number behind
    /// SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(spotwise_cone, 16 bytes, words: [validity], numbers: [half_angle_rad]);

impl From<Cone> for spotwise_cone {
    fn from(cone: Cone) -> Self {
        Self { validity: cone.validity.bits(), half_angle_rad: cone.half_angle, ..Self::BLANK }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_cone_init(cone: *mut spotwise_cone) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(cone) }
}
