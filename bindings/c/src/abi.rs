//! How every call reads its inputs, writes its outputs and reports.

use crate::error::spotwise_error;
use crate::status::{
    SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_E_NULL, SPOTWISE_E_OVERLAP, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_OK,
    spotwise_status,
};
use spotwise::{Error, Param};

/// Why a call failed.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Fault {
    /// A pointer that must not be NULL is.
    Null,
    /// A `struct_size` is not that of this ABI.
    StructSize,
    /// Two arrays that must be apart are not.
    Overlap,
    /// An array is said to hold this many items, more than it can.
    TooLong { array: Param, count: usize, most: usize },
    /// The model refuses the values.
    Refused(Error),
}

impl From<Error> for Fault {
    fn from(error: Error) -> Self {
        Self::Refused(error)
    }
}

impl Fault {
    pub(crate) fn status(self) -> spotwise_status {
        match self {
            Self::Null => SPOTWISE_E_NULL,
            Self::StructSize => SPOTWISE_E_STRUCT_SIZE,
            Self::Overlap => SPOTWISE_E_OVERLAP,
            Self::TooLong { .. } => SPOTWISE_E_LENGTH_MISMATCH,
            Self::Refused(error) => error.code(),
        }
    }
}

/// Plain data that crosses the boundary: a number, or a struct that opens with its size.
pub(crate) trait Plain: Copy {
    /// Size set, whole numbers 0, every other number a quiet NaN: a struct before it is filled,
    /// and every output of a call that failed.
    const BLANK: Self;

    /// Whether the `struct_size` is the one that this ABI knows.
    ///
    /// # Safety
    /// `this` is readable and aligned.
    unsafe fn is_known(this: *const Self) -> bool;
}

impl Plain for f64 {
    const BLANK: Self = f64::NAN;

    unsafe fn is_known(_: *const Self) -> bool {
        true
    }
}

/// A length.
impl Plain for usize {
    const BLANK: Self = 0;

    unsafe fn is_known(_: *const Self) -> bool {
        true
    }
}

/// Makes a struct [`Plain`] and asserts, while it compiles, that its members lie where C puts
/// them on every target: in groups of 4-byte words (an odd number of them after the size, an even
/// one later), 8-byte counts, 8-byte numbers and nested structs, without gaps.
macro_rules! plain {
    (@blank words) => { 0 };
    (@blank counts) => { 0 };
    (@blank numbers) => { f64::NAN };
    (@blank nested $kind:ident) => { <$kind as $crate::abi::Plain>::BLANK };
    (@size words) => { 4 };
    (@size counts) => { 8 };
    (@size numbers) => { 8 };
    (@size nested $kind:ident) => { core::mem::size_of::<$kind>() };
    (
        $name:ident, $size:literal bytes,
        $($group:ident: [$($member:ident $(: $kind:ident)?),* $(,)?]),+ $(,)?
    ) => {
        impl $crate::abi::Plain for $name {
            const BLANK: Self = Self {
                struct_size: $size,
                $($($member: $crate::abi::plain!(@blank $group $($kind)?),)*)+
            };

            unsafe fn is_known(this: *const Self) -> bool {
                // SAFETY: the caller vouches for `this`; only its first member is read.
                unsafe { (&raw const (*this).struct_size).read() == $size }
            }
        }

        const _: () = {
            use core::mem::{offset_of, size_of};
            let mut at = 0;
            assert!(offset_of!($name, struct_size) == at);
            at += 4;
            $($(
                assert!(offset_of!($name, $member) == at);
                at += $crate::abi::plain!(@size $group $($kind)?);
            )*)+
            assert!(at == $size && size_of::<$name>() == $size);
        };
    };
}
pub(crate) use plain;

/// The struct behind an input pointer.
///
/// # Safety
/// `this` is NULL, or aligned and readable.
pub(crate) unsafe fn input<T: Plain>(this: *const T) -> Result<T, Fault> {
    // SAFETY: as the caller vouches.
    match unsafe { pointer_fault(this) } {
        // SAFETY: not NULL, and as large as this ABI knows it.
        None => Ok(unsafe { this.read() }),
        Some(fault) => Err(fault),
    }
}

/// Writes a blank struct, unless the pointer is NULL.
///
/// # Safety
/// `this` is NULL, or aligned and writable.
pub(crate) unsafe fn init<T: Plain>(this: *mut T) {
    // SAFETY: as the caller vouches.
    unsafe { init_as(this, T::BLANK) }
}

/// Writes a struct as it is to be before the caller sets its members, unless the pointer is NULL.
///
/// # Safety
/// `this` is NULL, or aligned and writable.
pub(crate) unsafe fn init_as<T: Plain>(this: *mut T, fresh: T) {
    if !this.is_null() {
        // SAFETY: not NULL, and writable as the caller vouches.
        unsafe { this.write(fresh) }
    }
}

/// Runs one call: writes its answer to `out`, or a blank where it fails, and says why in `error`.
///
/// Faults are reported in this order: those of `compute` that concern pointers, then those of
/// `out` and `error`, then lengths and refused values. What cannot be written safely is left alone.
///
/// # Safety
/// `out` and `error` are NULL, or aligned, readable and writable.
pub(crate) unsafe fn report<T: Plain>(
    out: *mut T,
    error: *mut spotwise_error,
    compute: impl FnOnce() -> Result<T, Fault>,
) -> spotwise_status {
    // SAFETY: as the caller vouches.
    let out_fault = unsafe { pointer_fault(out) };
    // SAFETY: as the caller vouches.
    let error_fault = unsafe { error_pointer_fault(error) };
    let answer = match (compute(), out_fault.or(error_fault)) {
        (Ok(_) | Err(Fault::TooLong { .. } | Fault::Refused(_)), Some(fault)) => Err(fault),
        (answer, _) => answer,
    };
    if out_fault.is_none() {
        // SAFETY: not NULL, and as large as this ABI knows it.
        unsafe { out.write(answer.unwrap_or(T::BLANK)) }
    }
    // SAFETY: as the caller vouches.
    unsafe { tell(error, answer.err()) }
}

/// As [`report`], for a call whose answer is in arrays, which `compute` fills.
///
/// # Safety
/// `error` is NULL, or aligned, readable and writable.
#[cfg(feature = "artwork")]
pub(crate) unsafe fn report_alone(
    error: *mut spotwise_error,
    compute: impl FnOnce() -> Result<(), Fault>,
) -> spotwise_status {
    // SAFETY: as the caller vouches.
    unsafe { tell(error, compute().err()) }
}

/// Fills `error`, if it can be filled, and returns the status.
///
/// # Safety
/// `error` is NULL, or aligned, readable and writable.
unsafe fn tell(error: *mut spotwise_error, fault: Option<Fault>) -> spotwise_status {
    // SAFETY: as the caller vouches.
    if !error.is_null() && unsafe { spotwise_error::is_known(error) } {
        // SAFETY: not NULL, and as large as this ABI knows it.
        unsafe { error.write(spotwise_error::of(fault)) }
    }
    fault.map_or(SPOTWISE_OK, Fault::status)
}

/// What is wrong with a pointer that must not be NULL.
///
/// # Safety
/// `this` is NULL, or aligned and readable.
pub(crate) unsafe fn pointer_fault<T: Plain>(this: *const T) -> Option<Fault> {
    if this.is_null() {
        return Some(Fault::Null);
    }
    // SAFETY: not NULL, and readable as the caller vouches.
    if unsafe { T::is_known(this) } { None } else { Some(Fault::StructSize) }
}

/// What is wrong with the pointer to the error report, which may be NULL.
///
/// # Safety
/// `error` is NULL, or aligned and readable.
pub(crate) unsafe fn error_pointer_fault(error: *const spotwise_error) -> Option<Fault> {
    // SAFETY: as the caller vouches.
    if error.is_null() { None } else { unsafe { pointer_fault(error) } }
}
