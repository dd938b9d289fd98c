//! A function of the caller's that is told of progress and may stop the work.

use super::codes::SPOTWISE_GO_ON;
use core::ffi::c_void;
use spotwise::artwork::{Step, Watch};

/// A function of yours that long work tells how much of it is done, from 0 to 1, never less than before. It returns
/// SPOTWISE_GO_ON, or SPOTWISE_STOP for the call to end with SPOTWISE_E_STOPPED within 50 ms. It gets the pointer
/// `user` that came with it, is called on the thread of the call, every few milliseconds, and must return: it must
/// neither jump out nor throw. NULL stands for none.
pub type spotwise_tell = Option<unsafe extern "C" fn(user: *mut c_void, done: f64) -> u32>;

/// Works under the watch of the caller's function.
///
/// # Safety
/// `tell` is NULL, or may be called with `user`.
pub(crate) unsafe fn watched<T>(
    tell: spotwise_tell,
    user: *mut c_void,
    work: impl FnOnce(&mut Watch<'_>) -> T,
) -> T {
    let Some(tell) = tell else { return work(&mut Watch::quiet()) };
    let mut ask = |done: f64| {
        // SAFETY: as the caller vouches.
        if unsafe { tell(user, done) } == SPOTWISE_GO_ON { Step::GoOn } else { Step::Stop }
    };
    work(&mut Watch::new(&mut ask))
}
