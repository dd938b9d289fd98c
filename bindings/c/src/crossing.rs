//! Where the caustics of two beams cross.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::focus::{CausticCrossing, Sharper, caustic_crossing};

/// Which of two beams is the sharper: neither, their spots are equal.
pub const SPOTWISE_SHARPER_NEITHER: u32 = 0;
/// Which of two beams is the sharper: the first.
pub const SPOTWISE_SHARPER_FIRST: u32 = 1;
/// Which of two beams is the sharper: the second.
pub const SPOTWISE_SHARPER_SECOND: u32 = 2;

const _: () = {
    assert!(SPOTWISE_SHARPER_NEITHER == Sharper::Neither as u32);
    assert!(SPOTWISE_SHARPER_FIRST == Sharper::First as u32);
    assert!(SPOTWISE_SHARPER_SECOND == Sharper::Second as u32);
};

/// Which of two beams is the sharper, and where that changes: the result of spotwise_caustic_crossing().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_caustic_crossing_result {
    /// Size of this struct; spotwise_caustic_crossing_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Which has the smaller waist: one of SPOTWISE_SHARPER_*.
    pub sharper_in_focus: u32,
    /// Which has the smaller spot far from the waist: one of SPOTWISE_SHARPER_*.
    pub sharper_far_off: u32,
    /// Distance from the common waist, on either side, at which the two spots are equal, in metres; NaN, as
    /// the next, if one beam is the sharper everywhere, or the two are alike.
    pub offset_m: f64,
    /// Spot diameter of both there in metres, 1/e^2 (D4 sigma).
    pub diameter_m: f64,
    /// Greatest 1/e^2 half angle of both in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_caustic_crossing_result, 40 bytes,
    words: [validity, sharper_in_focus, sharper_far_off],
    numbers: [offset_m, diameter_m, half_angle_rad]
);

impl From<CausticCrossing> for spotwise_caustic_crossing_result {
    fn from(result: CausticCrossing) -> Self {
        let [offset_m, diameter_m] =
            result.crossing.map_or([f64::BLANK; 2], |crossing| [crossing.offset, crossing.diameter]);
        Self {
            validity: result.validity.bits(),
            sharper_in_focus: result.sharper_in_focus as u32,
            sharper_far_off: result.sharper_far_off as u32,
            offset_m,
            diameter_m,
            half_angle_rad: result.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_caustic_crossing_result_init(
    crossing: *mut spotwise_caustic_crossing_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(crossing) }
}

/// Which of two beams with their waists at one height has the smaller spot, and the offset beyond which it
/// is the other.
///
/// Two lenses on one beam: the shorter one has the smaller spot in focus and the larger one beyond the
/// crossing, sqrt(zR1 zR2) from the waist if both lenses are ideal. On a surface whose heights span twice
/// that, with focus at mid-height, their worst spots are equal. That one beam is the sharper everywhere is no
/// error but a finding: offset_m is then NaN.
///
/// @param[in]  first    a beam; set with spotwise_beam_init(); not NULL.
/// @param[in]  second   another; set with spotwise_beam_init(); not NULL. Its wavelength may differ.
/// @param[out] crossing result; set with spotwise_caustic_crossing_result_init(); not NULL. On any status
///                      other than SPOTWISE_OK its numbers are set to a quiet NaN, codes and flags to 0.
/// @param[out] error    what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad), for the first
///         beam, then for the second.
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: waists of 85 and 142 um at 10.6 um with M^2 = 1: Rayleigh ranges 535.3 and 1494.0 um,
///          crossing at 894 um.
/// Source: derived by the authors from spotwise_beam_at().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_caustic_crossing(
    first: *const spotwise_beam,
    second: *const spotwise_beam,
    crossing: *mut spotwise_caustic_crossing_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(crossing, error, || {
            let (first, second) = (input(first)?, input(second)?);
            Ok(caustic_crossing(&first.into(), &second.into())?.into())
        })
    }
}
