//! Where a mark differs from its drawing.

use crate::abi::{Plain, init, plain};
use spotwise::artwork::{Change, Region};

/// A place where ink is lost or ground filled: pixels that hang together over eight neighbours.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_region {
    /// Size of this struct; spotwise_mark_region_init() sets it.
    pub struct_size: u32,
    /// How many pixels it has; 0 if there is no such place.
    pub pixels: u32,
    /// First column of the box around them.
    pub left: u32,
    /// First row of the box.
    pub top: u32,
    /// Last column of the box.
    pub right: u32,
    /// Last row of the box.
    pub bottom: u32,
    /// Column of the worst pixel.
    pub worst_x: u32,
    /// Row of the worst pixel.
    pub worst_y: u32,
    /// From there to the nearest mark where ink is lost, to the nearest unmarked place where ground is filled, in
    /// metres.
    pub depth_m: f64,
}
plain!(
    spotwise_mark_region, 40 bytes,
    words: [pixels, left, top, right, bottom, worst_x, worst_y],
    numbers: [depth_m]
);

impl From<Region<f64>> for spotwise_mark_region {
    fn from(region: Region<f64>) -> Self {
        Self {
            pixels: region.pixels,
            left: region.extent.left,
            top: region.extent.top,
            right: region.extent.right,
            bottom: region.extent.bottom,
            worst_x: region.worst_x,
            worst_y: region.worst_y,
            depth_m: region.depth,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, every count to 0, and the depth to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_region_init(region: *mut spotwise_mark_region) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(region) }
}

/// A piece or a hole that changed, and where it lies.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_mark_change {
    /// Size of this struct; spotwise_mark_change_init() sets it.
    pub struct_size: u32,
    /// What became of it: one of SPOTWISE_CHANGE_*; 0 if there is no such change.
    pub kind: u32,
    /// Its pixels: those of the drawing, or those of the mark for what is merged or new.
    pub pixels: u32,
    /// First column of the box around these.
    pub left: u32,
    /// First row of the box.
    pub top: u32,
    /// Last column of the box.
    pub right: u32,
    /// Last row of the box.
    pub bottom: u32,
    /// 0.
    pub reserved: u32,
}
plain!(
    spotwise_mark_change, 32 bytes,
    words: [kind, pixels, left, top, right, bottom, reserved]
);

impl From<Change> for spotwise_mark_change {
    fn from(change: Change) -> Self {
        Self {
            kind: change.kind.code(),
            pixels: change.pixels,
            left: change.extent.left,
            top: change.extent.top,
            right: change.extent.right,
            bottom: change.extent.bottom,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and all else to 0. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_mark_change_init(change: *mut spotwise_mark_change) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(change) }
}
