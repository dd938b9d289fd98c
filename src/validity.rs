//! Flags that say how far a result may be trusted, and the limits at which they are raised.
//!
//! There are four levels. *Fine*: no flag. *Caution*: the result stands within the error that the
//! flag's documentation states. *Out of domain*: a value is returned, yet its error is not bounded;
//! look at the bracket that comes with it where the lens aberrates (it knows of no aperture), or compute
//! the wave rigorously. *Refused*: no value, but
//! [`Error::OutsideModel`](crate::Error::OutsideModel), or NaN in the one field that is refused.

use crate::flags::readable_flags;

/// How far a result may be trusted: [`Validity::FINE`], or the flags that apply.
///
/// The numbers behind the flags (half angle of the widest cone, aberration phase, normalised aberration,
/// clipping ratio, focus shift, grazing ratio of a tilt) stand in the result that carries them. Bits are
/// permanent and the same on every face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[must_use = "a caution that nobody reads helps nobody"]
pub struct Validity(u32);

readable_flags!(Validity);

/// How much a result is worth. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum Level {
    /// No flag applies.
    Fine = 0,
    /// The result stands within the error that the flag states.
    Caution = 1,
    /// The result lies outside the domain in which its error is known.
    OutOfDomain = 2,
}

impl Validity {
    /// No flag applies.
    pub const FINE: Self = Self(0);
    /// Caution: the half angle of the cone exceeds [`CAUTION_HALF_ANGLE`]: the paraxial formulas
    /// differ by 1.1 % at that limit and by 4.7 % at [`REFUSED_HALF_ANGLE`] (sine against
    /// tangent of the 1/e² half angle).
    pub const WIDE_CONE: Self = Self(1);
    /// Caution: a second, separate range of heights also meets the criterion (astigmatic beams and
    /// waves); the range returned is the one that holds the best focus.
    pub const SECOND_RANGE: Self = Self(2);
    /// Caution: the normalised aberration exceeds [`CAUTION_ABERRATION`]. The 86.5 %-power spot in focus
    /// stays within 2 % of the diffraction integral (1.5 % for M² up to 4), its growth off focus within
    /// 20 %.
    pub const ABERRATED: Self = Self(4);
    /// Out of domain: the normalised aberration exceeds [`DOMAIN_ABERRATION`]. The second moment is
    /// exact for what it is, but far above the 86.5 %-power spot, for which no closed form holds.
    pub const STRONGLY_ABERRATED: Self = Self(8);
    /// Caution: the clipping ratio is below [`CAUTION_CLIPPING`]: diffraction at the aperture
    /// changes the 86.5 %-power spot by up to 6.5 %, in focus and, for a normalised aberration up to 0.3, off it.
    pub const CLIPPED: Self = Self(16);
    /// Out of domain: the clipping ratio is below [`DOMAIN_CLIPPING`]: closed forms that do
    /// not contain the aperture no longer hold.
    pub const STRONGLY_CLIPPED: Self = Self(32);
    /// The 86.5 %-power spot is refused, and where the result has fields for it they are NaN: the
    /// normalised aberration exceeds [`REFUSED_ABERRATION`], the clipping ratio of a real lens is below
    /// [`REFUSED_CLIPPING`], the focus is longer than [`REFUSED_LONG_FOCUS`] allows, or the aperture is
    /// too small for the fit. All else in the result is out of domain.
    pub const NO_POWER86: Self = Self(64);
    /// Caution: the waist lies off the focal point by more than [`CAUTION_FOCUS_SHIFT`] of the focal
    /// length, or its Rayleigh range is more than that share of its distance from the lens. The 86.5 %-power spot
    /// of a single-piece lens is within 2.3 % there and its greatest irradiance within 6 %. The widths of a
    /// clipped beam are those of the focal plane; where it is brightest, nearer the lens, they are smaller by up
    /// to 1.7 times that share and the irradiance higher by up to 1.6 times (`tests/closed_forms/long_focus.rs`).
    pub const FOCUS_SHIFTED: Self = Self(128);
    /// Caution: the grazing ratio of a tilted surface exceeds [`CAUTION_GRAZING`]: the contour at 1/e² of
    /// the greatest irradiance on the surface is longer than the footprint of the beam by up to 1.0 % in
    /// focus and shorter by up to 1.1 % off focus at that limit, by 6.0 % and 7.7 % at a ratio of 0.5.
    pub const TILTED: Self = Self(256);
    /// Caution: irradiance or line dose off focus behind a single-piece lens whose normalised aberration exceeds
    /// [`CAUTION_OFF_FOCUS_IRRADIANCE`] or whose clipping ratio is below [`CAUTION_OFF_FOCUS_CLIPPING`]. They are
    /// those of a Gaussian beam, whose light fades alike on either side, while aberrated light is brightest nearer
    /// the lens than the 86.5 % spot and fades faster on one side. Their error, in parts of the greatest: irradiance
    /// −25 … +10 % and line dose −11.5 … +5.5 % for a normalised aberration up to 0.3, −40 … +21 % and
    /// −20 … +10 % up to 1; by second moments −37 … +53 % and −20 … +31 %. An aperture by itself makes it 10 % and
    /// 4.5 % at a clipping ratio of 1.8, 21.5 % and 11.5 % at 1.5; both together stay within 43 % and 21 % by the
    /// 86.5 % spot. Without the flag 4.2 % and 1.8 % (`tests/closed_forms/off_focus.rs`).
    pub const GAUSSIAN_OFF_FOCUS: Self = Self(512);

    /// Every flag, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 10] = [
        (Self::WIDE_CONE, "The cone is wide: the paraxial formulas are off by one to five per cent."),
        (Self::SECOND_RANGE, "A second, separate range of heights also meets the criterion."),
        (
            Self::ABERRATED,
            "The lens aberrates: the spot in focus is good to about 2 %, its growth off focus to 20 %.",
        ),
        (
            Self::STRONGLY_ABERRATED,
            "The lens aberrates too strongly for the closed forms: use the bracket, or the diffraction integral.",
        ),
        (Self::CLIPPED, "The aperture clips the beam: the spot may be off by up to 6.5 %."),
        (
            Self::STRONGLY_CLIPPED,
            "The aperture clips the beam too strongly for the closed forms: use the diffraction integral.",
        ),
        (Self::NO_POWER86, "No closed form gives the 86.5 %-power spot here: use the diffraction integral."),
        (
            Self::FOCUS_SHIFTED,
            "The focus is long or lies well off the focal point: spots are good to about 2 %, but of a clipped beam only in the focal plane.",
        ),
        (
            Self::TILTED,
            "The tilt lies so near the edge of the cone that the spot is longer or shorter than its footprint.",
        ),
        (
            Self::GAUSSIAN_OFF_FOCUS,
            "Irradiance and line dose off focus are those of a Gaussian beam: behind this lens they may miss by tens of per cent of the greatest.",
        ),
    ];

    /// How much the result is worth.
    #[must_use]
    pub const fn level(self) -> Level {
        const OUT: u32 =
            Validity::STRONGLY_ABERRATED.0 | Validity::STRONGLY_CLIPPED.0 | Validity::NO_POWER86.0;
        if self.0 & OUT != 0 {
            Level::OutOfDomain
        } else if self.0 != 0 {
            Level::Caution
        } else {
            Level::Fine
        }
    }

    /// The flags with these bits. Bits that stand for no flag are dropped.
    pub fn from_bits(bits: u32) -> Self {
        let set = Self::ALL.into_iter().filter(|(flag, _)| bits & flag.bits() != 0);
        set.fold(Self::FINE, |all, (flag, _)| all.union(flag))
    }

    /// Whether no flag applies.
    #[must_use]
    pub const fn is_fine(self) -> bool {
        self.0 == 0
    }

    /// The flags of both.
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// `flag` if it applies.
    pub(crate) fn when(applies: bool, flag: Self) -> Self {
        if applies { flag } else { Self::FINE }
    }

    /// The flags for this magnitude of the normalised aberration. A stronger flag stands with the
    /// weaker ones.
    pub(crate) fn of_aberration(normalised: f64) -> Self {
        Self::when(normalised > CAUTION_ABERRATION, Self::ABERRATED)
            .union(Self::when(normalised > DOMAIN_ABERRATION, Self::STRONGLY_ABERRATED))
            .union(Self::when(normalised > REFUSED_ABERRATION, Self::NO_POWER86))
    }

    /// The caution for irradiance or line dose off focus with this normalised aberration and clipping ratio.
    pub(crate) fn of_off_focus_irradiance(normalised: f64, clipping_ratio: f64) -> Self {
        Self::when(
            normalised > CAUTION_OFF_FOCUS_IRRADIANCE || clipping_ratio < CAUTION_OFF_FOCUS_CLIPPING,
            Self::GAUSSIAN_OFF_FOCUS,
        )
    }

    /// The flags for this clipping ratio. A stronger flag stands with the weaker one.
    pub(crate) fn of_clipping(ratio: f64) -> Self {
        Self::when(ratio < CAUTION_CLIPPING, Self::CLIPPED)
            .union(Self::when(ratio < DOMAIN_CLIPPING, Self::STRONGLY_CLIPPED))
            .union(Self::when(ratio < REFUSED_CLIPPING, Self::NO_POWER86))
    }

    /// The flags for this Rayleigh range over the distance of the waist from the lens.
    pub(crate) fn of_long_focus(share: f64) -> Self {
        Self::of_focus_shift(share).union(Self::when(share > REFUSED_LONG_FOCUS, Self::NO_POWER86))
    }

    /// The caution for a waist that lies off the focal point by this share of the focal length.
    pub(crate) fn of_focus_shift(share: f64) -> Self {
        Self::when(share > CAUTION_FOCUS_SHIFT, Self::FOCUS_SHIFTED)
    }

    /// The caution for this grazing ratio.
    pub(crate) fn of_grazing(ratio: f64) -> Self {
        Self::when(ratio > CAUTION_GRAZING, Self::TILTED)
    }
}

/// The widest cone that a result rests on, with the flags of that result.
#[derive(Debug, Clone, Copy, PartialEq)]
#[must_use = "a caution that nobody reads helps nobody"]
pub struct Cone {
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the result may be trusted.
    pub validity: Validity,
}

impl Cone {
    /// A cone of this half angle, with its caution.
    pub(crate) fn of(half_angle: f64) -> Self {
        let validity = Validity::when(half_angle > CAUTION_HALF_ANGLE, Validity::WIDE_CONE);
        Self { half_angle, validity }
    }

    /// The wider of two, with the flags of both.
    pub(crate) fn wider(self, other: Self) -> Self {
        let half_angle = if other.half_angle > self.half_angle { other.half_angle } else { self.half_angle };
        Self { half_angle, validity: self.validity.union(other.validity) }
    }

    /// The same cone with further flags.
    pub(crate) fn flagged(self, validity: Validity) -> Self {
        Self { validity: self.validity.union(validity), ..self }
    }
}

/// Half angle in radians above which a cone carries [`Validity::WIDE_CONE`].
pub const CAUTION_HALF_ANGLE: f64 = 0.15;
/// Half angle in radians above which a beam is refused as not paraxial.
pub const REFUSED_HALF_ANGLE: f64 = 0.3;
/// Normalised aberration above which a result carries [`Validity::ABERRATED`].
pub const CAUTION_ABERRATION: f64 = 0.3;
/// Normalised aberration above which a result carries [`Validity::STRONGLY_ABERRATED`].
pub const DOMAIN_ABERRATION: f64 = 1.0;
/// Normalised aberration above which the 86.5 %-power spot has no value.
pub const REFUSED_ABERRATION: f64 = 1.7;
/// Normalised aberration above which irradiance and line dose off focus carry [`Validity::GAUSSIAN_OFF_FOCUS`].
pub const CAUTION_OFF_FOCUS_IRRADIANCE: f64 = 0.03;
/// Clipping ratio below which irradiance and line dose off focus carry [`Validity::GAUSSIAN_OFF_FOCUS`].
pub const CAUTION_OFF_FOCUS_CLIPPING: f64 = 2.5;
/// Clipping ratio below which a result carries [`Validity::CLIPPED`].
pub const CAUTION_CLIPPING: f64 = 1.8;
/// Clipping ratio below which a result carries [`Validity::STRONGLY_CLIPPED`].
pub const DOMAIN_CLIPPING: f64 = 1.5;
/// Clipping ratio below which the 86.5 %-power spot of a real lens has no value.
pub const REFUSED_CLIPPING: f64 = 1.2;
/// Focus shift over focal length, or Rayleigh range over the distance of the waist from the lens, above
/// which a result carries [`Validity::FOCUS_SHIFTED`].
pub const CAUTION_FOCUS_SHIFT: f64 = 0.05;
/// Rayleigh range over the distance of the waist from the lens above which no focus is sharp enough for
/// the closed forms of clipped and aberrated light.
pub const REFUSED_LONG_FOCUS: f64 = 0.2;
/// Grazing ratio of a tilted surface above which a result carries [`Validity::TILTED`]. At 1, where the edge
/// of the cone runs along the surface, there is no value.
pub const CAUTION_GRAZING: f64 = 0.2;
/// Incidence angle in radians, about 20 degrees, above which a surface is called steep: the spot is stretched by more
/// than 6.4 % along the slope, and irradiance and dose fall by more than 6 %.
pub const CAUTION_INCIDENCE: f64 = 0.35;
/// Least slope of a fit over its standard deviation with which the fit is answered.
pub const LEAST_SIGNIFICANCE: f64 = 3.0;
/// Least threshold over its standard deviation with which a fit is answered: below, the marks lie so far from
/// the threshold that they do not tell it.
pub const LEAST_CERTAINTY: f64 = 1.0;
/// A series of marks is fitted where its widths change with height by at least so many deviations. Of 20 000 series
/// of noise alone 15 were (`tests/mark_fit.rs`).
pub const LEAST_SHAPE_SIGNIFICANCE: f64 = 4.0;
/// The height of a waist is told where half the run of heights is at least so many of its deviations.
pub const LEAST_PLACE_CERTAINTY: f64 = 2.0;
/// Least square of a fitted waist diameter over its standard deviation with which a fit is answered: below, the diameter
/// has a deviation of a quarter of itself or more.
pub const LEAST_WAIST_SIGNIFICANCE: f64 = 2.0;
