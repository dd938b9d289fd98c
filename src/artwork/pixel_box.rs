//! The box around some pixels.

/// Columns and rows of the outermost pixels, all of them inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PixelBox {
    /// The first column.
    pub left: u32,
    /// The first row.
    pub top: u32,
    /// The last column.
    pub right: u32,
    /// The last row.
    pub bottom: u32,
}

impl PixelBox {
    /// The box around nothing, before any pixel is added to it.
    pub const EMPTY: Self = PixelBox { left: u32::MAX, top: u32::MAX, right: 0, bottom: 0 };

    /// Widens the box to hold a run of pixels in row y, up to the column before `end`.
    pub(crate) fn add(&mut self, y: usize, start: usize, end: usize) {
        self.left = self.left.min(start as u32);
        self.top = self.top.min(y as u32);
        self.right = self.right.max(end.saturating_sub(1) as u32);
        self.bottom = self.bottom.max(y as u32);
    }
}
