//! Proof that nothing panics: on bare metal the handler calls a function that does not exist, so
//! that a program in which any panic can be reached fails to link.

#[cfg(target_os = "none")]
unsafe extern "C" {
    /// Defined nowhere.
    fn spotwise_panic_is_reachable() -> !;
}

#[cfg(target_os = "none")]
#[panic_handler]
fn refuse_to_link(_: &core::panic::PanicInfo<'_>) -> ! {
    // SAFETY: this line is never in a program, since it does not link.
    unsafe { spotwise_panic_is_reachable() }
}

/// Panics for one input, to show that the proof can fail.
#[cfg(feature = "reachable-panic")]
pub(crate) fn reachable(code: u32) {
    assert!(core::hint::black_box(code) != u32::MAX, "a panic that can be reached");
}
