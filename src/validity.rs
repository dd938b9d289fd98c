//! Flags that say how far a result may be trusted.

/// How far a result may be trusted: [`Validity::FINE`], or the cautions that apply.
///
/// A result outside the domain of the model is not flagged but refused, as
/// [`Error::OutsideModel`](crate::Error::OutsideModel). Bits are permanent and the same on every
/// face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[must_use = "a caution that nobody reads helps nobody"]
pub struct Validity(u32);

impl Validity {
    /// No caution applies.
    pub const FINE: Self = Self(0);
    /// The half angle of the cone exceeds [`CAUTION_HALF_ANGLE`]: the paraxial formulas
    /// differ by 1.1 % at that limit and by 4.7 % at [`REFUSED_HALF_ANGLE`] (sine against
    /// tangent of the 1/e² half angle).
    pub const WIDE_CONE: Self = Self(1);
    /// A second, separate range of heights also meets the criterion (astigmatic beams only);
    /// the range returned is the one that holds the greatest irradiance.
    pub const SECOND_RANGE: Self = Self(2);

    /// Every flag, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 2] = [
        (Self::WIDE_CONE, "The cone is wide: the paraxial formulas are off by one to five per cent."),
        (Self::SECOND_RANGE, "A second, separate range of heights also meets the criterion."),
    ];

    /// The sentences of the flags set, in a fixed order.
    pub fn texts(self) -> impl Iterator<Item = &'static str> {
        Self::ALL.into_iter().filter(move |(flag, _)| self.contains(*flag)).map(|(_, text)| text)
    }

    /// The flags as bits.
    #[must_use]
    pub const fn bits(self) -> u32 {
        self.0
    }

    /// Whether no caution applies.
    #[must_use]
    pub const fn is_fine(self) -> bool {
        self.0 == 0
    }

    /// Whether every flag of `other` is set.
    #[must_use]
    pub const fn contains(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }

    /// The flags of both.
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// The caution for a cone of this half angle, in radians.
    pub(crate) fn of_cone(half_angle: f64) -> Self {
        if half_angle > CAUTION_HALF_ANGLE { Self::WIDE_CONE } else { Self::FINE }
    }
}

/// Half angle in radians above which a cone carries [`Validity::WIDE_CONE`].
pub const CAUTION_HALF_ANGLE: f64 = 0.15;
/// Half angle in radians above which a beam is refused as not paraxial.
pub const REFUSED_HALF_ANGLE: f64 = 0.3;
