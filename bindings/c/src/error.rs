//! The report on a call that failed.

use crate::abi::{Fault, Plain, init, plain};

/// What was refused, and what would have been accepted. Every call fills it if it is given one.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_error {
    /// Size of this struct; spotwise_error_init() sets it.
    pub struct_size: u32,
    /// The status that the call returned.
    pub code: u32,
    /// Which value was refused: one of SPOTWISE_PARAM_*; 0 on success and for pointers.
    pub parameter: u32,
    /// 0.
    pub reserved: u32,
    /// The value that was refused, in the SI unit of the parameter; NaN where there is none.
    pub value: f64,
    /// Least value that would have been accepted; NaN where there is none.
    pub least: f64,
    /// Greatest value that would have been accepted; NaN where there is none, DBL_MAX where none is the greatest.
    /// A distance from a crown must be less than it.
    pub greatest: f64,
}
plain!(spotwise_error, 40 bytes, words: [code, parameter, reserved], numbers: [value, least, greatest]);

impl spotwise_error {
    pub(crate) fn of(fault: Option<Fault>) -> Self {
        let code = fault.map_or(0, Fault::status);
        match fault {
            Some(Fault::Refused(error)) => {
                let (least, greatest) = error.allowed();
                let parameter = error.param() as u32;
                Self { code, parameter, value: error.value(), least, greatest, ..Self::BLANK }
            }
            Some(Fault::TooLong { array, count, most }) => Self {
                code,
                parameter: array as u32,
                value: count as f64,
                least: 0.0,
                greatest: most as f64,
                ..Self::BLANK
            },
            _ => Self { code, ..Self::BLANK },
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_error_init(report: *mut spotwise_error) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(report) }
}
