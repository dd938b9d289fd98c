//! The caller's room to work in, cut into slices.

use crate::error::{Error, Param};
use bytemuck::AnyBitPattern;

/// What is left of the caller's room.
pub(crate) struct Workspace<'w> {
    rest: &'w mut [u64],
    /// Length of the whole, for the error.
    given: usize,
    /// Length that the whole must have.
    needed: usize,
}

/// 64-bit words that hold so many items of this type.
pub(crate) const fn words_for<T>(items: usize) -> usize {
    (items * size_of::<T>()).div_ceil(8)
}

impl<'w> Workspace<'w> {
    /// Takes the caller's room, of which `needed` words will be used.
    pub(crate) fn new(room: &'w mut [u64], needed: usize) -> Result<Self, Error> {
        let given = room.len();
        let workspace = Workspace { rest: room, given, needed };
        if given < needed { Err(workspace.too_small()) } else { Ok(workspace) }
    }

    /// Cuts off a slice of `items`, all bits of them zero.
    pub(crate) fn take<T: AnyBitPattern + bytemuck::NoUninit>(
        &mut self,
        items: usize,
    ) -> Result<&'w mut [T], Error> {
        let slice = self.take_unset(items)?;
        slice.fill(T::zeroed());
        Ok(slice)
    }

    /// Cuts off a slice of `items`, which hold whatever the room held.
    pub(crate) fn take_unset<T: AnyBitPattern + bytemuck::NoUninit>(
        &mut self,
        items: usize,
    ) -> Result<&'w mut [T], Error> {
        let words = words_for::<T>(items);
        let (head, rest) =
            core::mem::take(&mut self.rest).split_at_mut_checked(words).ok_or_else(|| self.too_small())?;
        self.rest = rest;
        let slice = bytemuck::try_cast_slice_mut(head).map_err(|_| self.too_small())?;
        slice.get_mut(..items).ok_or_else(|| self.too_small())
    }

    /// All that is left.
    pub(crate) fn into_rest(self) -> &'w mut [u64] {
        self.rest
    }

    fn too_small(&self) -> Error {
        Error::LengthMismatch { param: Param::Workspace, value: self.given, expected: self.needed }
    }
}
