//! Lets a loop use the widest vectors of the processor on which it runs.
//!
//! The compiler writes the loop once for each kind of vectors; `pulp` chooses when the program runs. Each result
//! comes from the same additions and multiplications in the same order, none of them fused, so the choice changes
//! speed and never a bit.

/// Runs `loops`, which must be written so that it is inlined here.
#[inline(always)]
pub(crate) fn vectorised<R>(loops: impl FnOnce() -> R) -> R {
    pulp::Arch::new().dispatch(loops)
}
