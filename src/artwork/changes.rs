//! What may become of a piece or a hole of a drawing.

use super::PixelBox;

/// What became of a piece or a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ChangeKind {
    /// A piece of the drawing of which no pixel is marked. Code 1.
    ComponentLost,
    /// A piece of the drawing that is marked in two pieces or more. Code 2.
    ComponentSplit,
    /// A piece of the mark that joins two pieces of the drawing or more. Code 3.
    ComponentsMerged,
    /// A piece of the mark in which no pixel is drawn. Code 4.
    ComponentNew,
    /// A hole of the drawing of which every pixel is marked. Code 5.
    HoleClosed,
    /// A hole of the drawing that is open to the outside in the mark. Code 6.
    HoleOpened,
    /// A hole of the drawing that is parted in the mark. Code 7.
    HoleSplit,
    /// A hole of the mark that joins two holes of the drawing or more. Code 8.
    HolesMerged,
    /// A hole of the mark that shares no pixel with a hole of the drawing. Code 9.
    HoleNew,
}

impl ChangeKind {
    /// All kinds, in the order in which [`compare`](super::compare) writes them.
    pub const ALL: [Self; 9] = [
        Self::ComponentLost,
        Self::ComponentSplit,
        Self::ComponentsMerged,
        Self::ComponentNew,
        Self::HoleClosed,
        Self::HoleOpened,
        Self::HoleSplit,
        Self::HolesMerged,
        Self::HoleNew,
    ];

    /// Permanent number of this kind, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(self) -> u32 {
        match self {
            Self::ComponentLost => 1,
            Self::ComponentSplit => 2,
            Self::ComponentsMerged => 3,
            Self::ComponentNew => 4,
            Self::HoleClosed => 5,
            Self::HoleOpened => 6,
            Self::HoleSplit => 7,
            Self::HolesMerged => 8,
            Self::HoleNew => 9,
        }
    }

    /// Its place in [`ALL`](Self::ALL).
    pub(crate) fn place(self) -> usize {
        self.code() as usize - 1
    }
}

/// A piece or a hole that changed, and where it lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Change {
    /// What became of it.
    pub kind: ChangeKind,
    /// Its pixels: those of the drawing, or those of the mark for what is merged or new.
    pub pixels: u32,
    /// The box around these.
    pub extent: PixelBox,
}

impl Change {
    /// Fills a slice before [`compare`](super::compare) writes to it.
    pub const NONE: Self = Change { kind: ChangeKind::ComponentLost, pixels: 0, extent: PixelBox::EMPTY };
}
