//! What may have changed since a good mark, what stays open, and the test that settles it: as codes and as sentences.

use crate::flags::flags;

/// What has changed since the good mark. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum MarkCause {
    /// No change shows.
    Nothing = 1,
    /// Focus has.
    Focus = 2,
    /// The dose has.
    Power = 3,
    /// Both have.
    FocusAndPower = 4,
    /// One of them has, and the width alone cannot tell which.
    FocusOrPower = 5,
    /// The dose must have, for no height explains the mark; focus may have as well.
    PowerPerhapsFocus = 6,
    /// What was taken for good was not in focus, or the laws are others.
    NotAsAssumed = 7,
}

impl MarkCause {
    /// Every cause, in the order of its code.
    pub const ALL: [Self; 7] = [
        Self::Nothing,
        Self::Focus,
        Self::Power,
        Self::FocusAndPower,
        Self::FocusOrPower,
        Self::PowerPerhapsFocus,
        Self::NotAsAssumed,
    ];

    /// One sentence for the person at the machine.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Nothing => "No change shows: focus and dose are as they were, within the ranges given.",
            Self::Focus => "The surface is out of focus; the dose is as it was.",
            Self::Power => "The dose has changed; the surface is in focus, within the range given.",
            Self::FocusAndPower => "The surface is out of focus, and the dose has changed as well.",
            Self::FocusOrPower => "Focus or the dose has changed; the width alone cannot tell which.",
            Self::PowerPerhapsFocus => {
                "The dose must have changed, for no height explains this width; focus may have changed as well."
            }
            Self::NotAsAssumed => {
                "No focus and no dose explain this mark: the good one was not in focus, or the material follows another law."
            }
        }
    }

    pub(super) fn of(focus: bool, power: bool) -> Self {
        match (focus, power) {
            (false, false) => Self::Nothing,
            (true, false) => Self::Focus,
            (false, true) => Self::Power,
            (true, true) => Self::FocusAndPower,
        }
    }
}

/// The one further test that settles what stays open. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum FurtherTest {
    /// None is needed.
    Nothing = 1,
    /// The same mark a step nearer and a step farther.
    HeightsEitherSide = 2,
    /// A solid patch and a thin line in one job.
    SolidPatch = 3,
    /// The same line once more, with the power doubled.
    DoublePower = 4,
}

impl FurtherTest {
    /// Every test, in the order of its code.
    pub const ALL: [Self; 4] = [Self::Nothing, Self::HeightsEitherSide, Self::SolidPatch, Self::DoublePower];

    /// One sentence for the person at the machine.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Nothing => "No further test is needed.",
            Self::HeightsEitherSide => {
                "Make the same mark again with the surface a step nearer the lens and a step farther: better on one side, focus is the fault and lies there; worse on both, it is the dose."
            }
            Self::SolidPatch => {
                "Engrave a solid patch and a thin line in one job: the inside of the patch goes by the dose alone, the line by dose and focus."
            }
            Self::DoublePower => {
                "Make the same line once more with the power doubled: by how much it widens tells the spot on the surface, whatever the good mark was."
            }
        }
    }
}

/// What stays open: a set. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Ambiguities(u32);

flags!(Ambiguities);

impl Ambiguities {
    /// Nothing stays open.
    pub const NONE: Self = Self(0);
    /// On which side of the focus the surface lies.
    pub const SIDE: Self = Self(1);
    /// Which of two heights it is.
    pub const TWO_HEIGHTS: Self = Self(2);
    /// Whether focus or the dose has changed.
    pub const FOCUS_OR_POWER: Self = Self(4);
    /// Whether heat has widened the mark, should the material melt.
    pub const MELT: Self = Self(8);
    /// What has changed the dose.
    pub const POWER_OR_SPEED: Self = Self(16);
    /// Whether the surface is in focus: at this dose the width hardly reacts to it.
    pub const INSENSITIVE: Self = Self(32);

    /// Every one, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 6] = [
        (Self::SIDE, "On which side of the focus the surface lies stays open."),
        (Self::TWO_HEIGHTS, "Two heights explain the width: one before the mark is widest, one beyond."),
        (Self::FOCUS_OR_POWER, "Whether focus or the dose has changed stays open."),
        (
            Self::MELT,
            "If the material melts, too much power and too slow a scan widen the mark as defocus does.",
        ),
        (
            Self::POWER_OR_SPEED,
            "Whether power, speed or the threshold of the material has changed stays open.",
        ),
        (Self::INSENSITIVE, "At this dose the width hardly reacts to focus, and does not show it."),
    ];

    /// Those that apply.
    pub(super) fn of<const N: usize>(members: [(Self, bool); N]) -> Self {
        let mut set = Self::NONE;
        for (member, applies) in members {
            set.add(member, applies);
        }
        set
    }
}
