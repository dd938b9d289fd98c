//! Arrays of the caller, for the calls that take or fill many numbers at once.

use crate::abi::{Fault, Plain, pointer_fault};
use core::slice;
use spotwise::Param;

/// The most numbers that an array can hold: no object is larger than half of memory.
pub(crate) const LONGEST: usize = isize::MAX as usize / size_of::<f64>();

/// The most items of this size that an array can hold.
pub(crate) const fn longest_of(item: usize) -> usize {
    isize::MAX as usize / if item == 0 { 1 } else { item }
}

/// Where an array of the caller starts, how many items it is said to hold, and their size.
#[derive(Clone, Copy)]
pub(crate) struct Extent {
    address: usize,
    count: usize,
    item: usize,
}

impl Extent {
    pub(crate) fn of<T>(start: *const T, count: usize) -> Self {
        Self { address: start.addr(), count, item: size_of::<T>() }
    }

    fn is_missing(self) -> bool {
        self.count > 0 && self.address == 0
    }

    fn is_too_long(self) -> bool {
        self.count > LONGEST.min(longest_of(self.item))
    }

    /// Whether two arrays share memory. One that is too long is none.
    fn shares_with(self, other: Self) -> bool {
        let holds = |one: Self, other: Self| {
            one.address <= other.address && other.address - one.address < one.count * one.item
        };
        let are_arrays = [self, other].iter().all(|array| array.count > 0 && !array.is_too_long());
        are_arrays && (holds(self, other) || holds(other, self))
    }
}

/// What is wrong with the pointers of a call's arrays: one is NULL, or an output shares memory with
/// another array.
pub(crate) fn array_fault(inputs: &[Extent], outputs: &[Extent]) -> Option<Fault> {
    if inputs.iter().chain(outputs).any(|array| array.is_missing()) {
        return Some(Fault::Null);
    }
    let overlap = outputs.iter().enumerate().any(|(i, output)| {
        inputs.iter().chain(outputs.iter().skip(i + 1)).any(|other| output.shares_with(*other))
    });
    overlap.then_some(Fault::Overlap)
}

/// The fault of an array that no memory can hold.
pub(crate) fn length_fault(array: Param, count: usize) -> Option<Fault> {
    (count > LONGEST).then_some(Fault::TooLong { array, count, most: LONGEST })
}

/// Makes an output blank, unless it is NULL. Done before anything else, so that the memory holds
/// numbers when a slice is made of it.
///
/// # Safety
/// `start` is NULL, or aligned and writable for `count` numbers, which memory can hold.
pub(crate) unsafe fn blank(start: *mut f64, count: usize) {
    if !start.is_null() {
        for i in 0..count {
            // SAFETY: not NULL, and writable for `count` numbers as the caller vouches.
            unsafe { start.add(i).write(f64::BLANK) }
        }
    }
}

/// The numbers of an input, which may be NULL only if there are none.
///
/// # Safety
/// `start` is aligned and readable for `count` numbers, and no output shares its memory.
pub(crate) unsafe fn numbers<'a>(start: *const f64, count: usize) -> &'a [f64] {
    // SAFETY: as the caller vouches; an empty slice is made of nothing.
    if count == 0 { &[] } else { unsafe { slice::from_raw_parts(start, count) } }
}

/// The numbers of an output, which may be NULL only if there are none.
///
/// # Safety
/// `start` is aligned, writable and blank for `count` numbers, and nothing else shares its memory.
pub(crate) unsafe fn numbers_mut<'a>(start: *mut f64, count: usize) -> &'a mut [f64] {
    // SAFETY: as the caller vouches; an empty slice is made of nothing.
    if count == 0 { &mut [] } else { unsafe { slice::from_raw_parts_mut(start, count) } }
}

/// Makes an array of flags blank, unless it is NULL, as [`blank`] does with numbers.
///
/// # Safety
/// `start` is NULL, or writable for `count` bytes, which memory can hold.
pub(crate) unsafe fn blank_flags(start: *mut u8, count: usize) {
    if !start.is_null() {
        // SAFETY: not NULL, and writable for `count` bytes as the caller vouches.
        unsafe { start.write_bytes(0, count) }
    }
}

/// The flags of an output, which may be NULL only if there are none. A byte of 0 or 1 is a `bool`.
///
/// # Safety
/// `start` is writable and blank for `count` bytes, and nothing else shares its memory.
pub(crate) unsafe fn flags_mut<'a>(start: *mut u8, count: usize) -> &'a mut [bool] {
    // SAFETY: as the caller vouches; an empty slice is made of nothing.
    if count == 0 { &mut [] } else { unsafe { slice::from_raw_parts_mut(start.cast(), count) } }
}

/// What is wrong with an array of structs.
///
/// # Safety
/// `start` is NULL, or aligned and readable for `count` structs.
pub(crate) unsafe fn structs_fault<T: Plain>(start: *const T, count: usize) -> Option<Fault> {
    if count > 0 && start.is_null() {
        return Some(Fault::Null);
    }
    // SAFETY: not NULL, and readable as the caller vouches.
    (0..count).find_map(|i| unsafe { pointer_fault(start.add(i)) })
}
