//! Arrays of any kind of the caller's, and structs that point to them.

use crate::abi::{Fault, Plain};
use crate::arrays::{Extent, LONGEST, longest_of};
use core::slice;
use spotwise::Error;
use spotwise::Param;
use spotwise::artwork::{Bitmap, BitmapMut};

/// An array that a call reads.
#[derive(Clone, Copy)]
pub(crate) struct Input<T> {
    pub start: *const T,
    pub count: usize,
}

/// An array that a call fills.
#[derive(Clone, Copy)]
pub(crate) struct Output<T> {
    pub start: *mut T,
    pub count: usize,
}

impl<T: Copy> Input<T> {
    pub(crate) fn extent(self) -> Extent {
        Extent::of(self.start, self.count)
    }

    /// The fault of an array that no memory can hold.
    pub(crate) fn length_fault(self, array: Param) -> Option<Fault> {
        length_fault::<T>(array, self.count)
    }

    /// # Safety
    /// Aligned and readable for its items, and not longer than memory; or empty.
    pub(crate) unsafe fn items<'a>(self) -> &'a [T] {
        // SAFETY: as the caller vouches; an empty slice is made of nothing.
        if self.count == 0 { &[] } else { unsafe { slice::from_raw_parts(self.start, self.count) } }
    }
}

impl<T: Copy> Output<T> {
    pub(crate) fn extent(self) -> Extent {
        Extent::of(self.start.cast_const(), self.count)
    }

    /// The fault of an array that no memory can hold.
    pub(crate) fn length_fault(self, array: Param) -> Option<Fault> {
        length_fault::<T>(array, self.count)
    }

    /// Fills it with one value, unless it is NULL.
    ///
    /// # Safety
    /// NULL, or aligned and writable for its items, and not longer than memory.
    pub(crate) unsafe fn fill(self, value: T) {
        if !self.start.is_null() {
            for i in 0..self.count {
                // SAFETY: not NULL, and writable as the caller vouches.
                unsafe { self.start.add(i).write(value) }
            }
        }
    }

    /// # Safety
    /// Aligned and writable for its items, which C has handed over as memory that is all there, and nothing else
    /// shares it; or empty.
    pub(crate) unsafe fn items<'a>(self) -> &'a mut [T] {
        // SAFETY: as the caller vouches; an empty slice is made of nothing.
        if self.count == 0 { &mut [] } else { unsafe { slice::from_raw_parts_mut(self.start, self.count) } }
    }
}

impl<C: Plain> Output<C> {
    /// Lends its memory, before it is filled with structs, to as many items of the core's own.
    ///
    /// # Safety
    /// As [`items`](Output::items).
    pub(crate) unsafe fn lent<'a, R: Copy>(self, fresh: R) -> &'a mut [R] {
        const { assert!(size_of::<R>() <= size_of::<C>() && align_of::<R>() <= align_of::<C>()) };
        let items = Output { start: self.start.cast::<R>(), count: self.count };
        // SAFETY: as the caller vouches, and an item needs no more than a struct.
        unsafe {
            items.fill(fresh);
            items.items()
        }
    }

    /// Writes its structs: the first `found` of what was written to the memory that was lent, then blank ones.
    ///
    /// # Safety
    /// As [`items`](Output::items); [`lent`](Output::lent) has been called with the same kind of item, and its slice
    /// is no longer used.
    pub(crate) unsafe fn take_back<R: Copy + Into<C>>(self, found: usize) {
        // From the last to the first, since a struct may lie over items that come later.
        for i in (0..self.count).rev() {
            // SAFETY: as the caller vouches; item i has not been written over, since it starts before struct i + 1.
            unsafe {
                let item = if i < found { self.start.cast::<R>().add(i).read().into() } else { C::BLANK };
                self.start.add(i).write(item);
            }
        }
    }
}

fn length_fault<T>(array: Param, count: usize) -> Option<Fault> {
    let most = LONGEST.min(longest_of(size_of::<T>()));
    (count > most).then_some(Fault::TooLong { array, count, most })
}

/// The first of some faults.
pub(crate) fn first<const N: usize>(faults: [Option<Fault>; N]) -> Option<Fault> {
    faults.into_iter().flatten().next()
}

/// The fault of reading an argument, if it is one of pointers: these come before all others, over all arguments.
pub(crate) fn pointer_fault_of<T>(read: &Result<T, Fault>) -> Option<Fault> {
    match read {
        Err(fault @ (Fault::Null | Fault::StructSize | Fault::Overlap)) => Some(*fault),
        _ => None,
    }
}

/// Refuses a size that no drawing has.
pub(crate) fn checked_size(width: usize, height: usize) -> Result<(), Error> {
    for (param, size) in [(Param::DrawingWidth, width), (Param::DrawingHeight, height)] {
        let (least, greatest) = param.range();
        let value = size as f64;
        if value < least || value > greatest {
            return Err(Error::OutOfRange { param, value, least, greatest });
        }
    }
    Ok(())
}

/// A mask to read, over the caller's words.
pub(crate) fn mask(words: &[u64], width: usize, height: usize) -> Result<Bitmap<'_>, Error> {
    checked_size(width, height)?;
    Bitmap::new(words, width, height)
}

/// A mask to write, over the caller's words.
pub(crate) fn mask_mut(words: &mut [u64], width: usize, height: usize) -> Result<BitmapMut<'_>, Error> {
    checked_size(width, height)?;
    BitmapMut::new(words, width, height)
}

/// Makes a struct that holds pointers [`Plain`] and asserts, while it compiles, that its members lie where C puts
/// them: 4-byte words (an odd number of them after the size), 8-byte numbers, nested structs, then pointers and
/// lengths of the target's size, without gaps.
macro_rules! pointing {
    (
        $name:ident,
        words: [$($word:ident),* $(,)?],
        numbers: [$($number:ident),* $(,)?],
        nested: [$($nested:ident: $kind:ident),* $(,)?],
        pointers: [$($pointer:ident),* $(,)?],
        lengths: [$($length:ident),* $(,)?] $(,)?
    ) => {
        impl $crate::abi::Plain for $name {
            const BLANK: Self = Self {
                struct_size: size_of::<Self>() as u32,
                $($word: 0,)*
                $($number: f64::NAN,)*
                $($nested: <$kind as $crate::abi::Plain>::BLANK,)*
                $($pointer: core::ptr::null_mut(),)*
                $($length: 0,)*
            };

            unsafe fn is_known(this: *const Self) -> bool {
                // SAFETY: the caller vouches for `this`; only its first member is read.
                unsafe { (&raw const (*this).struct_size).read() == Self::BLANK.struct_size }
            }
        }

        const _: () = {
            use core::mem::offset_of;
            assert!(offset_of!($name, struct_size) == 0);
            let mut at = 4;
            $(assert!(offset_of!($name, $word) == at); at += 4;)*
            $(assert!(offset_of!($name, $number) == at); at += 8;)*
            $(assert!(offset_of!($name, $nested) == at); at += size_of::<$kind>();)*
            $(assert!(offset_of!($name, $pointer) == at); at += size_of::<usize>();)*
            $(assert!(offset_of!($name, $length) == at); at += size_of::<usize>();)*
            assert!(size_of::<$name>() == at.next_multiple_of(align_of::<$name>()));
        };
    };
}
pub(crate) use pointing;
