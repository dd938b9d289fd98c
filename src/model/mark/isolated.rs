//! The mark of one pulse or of one line by itself, in focus and out of it.
//!
//! | symbol | meaning                                                          | unit | valid       |
//! |--------|------------------------------------------------------------------|------|-------------|
//! | n      | 2 for a pulse, 1 for a line                                      | 1    |             |
//! | q      | dose ratio in the waist: peak dose there over threshold dose     | 1    | 1e-6 … 1e6  |
//! | z      | offset from the waist                                            | m    | −1e7 … 1e7  |
//! | z_R    | Rayleigh range                                                   | m    |             |
//! | g      | growth √(1 + (z/z_R)²)                                           | 1    |             |
//! | d₀, d  | spot **diameter** in the waist and at z, d = g·d₀                | m    |             |
//! | L      | ln(local dose ratio)                                             | 1    |             |
//! | b      | width of the mark, or **diameter** of the dot                    | m    |             |
//!
//! local dose ratio = q/gⁿ, L = ln q − n·ln g
//! b = d·√(L/2) while L > 0, else there is no mark                                     \[1\]
//! the mark vanishes at ± z_R·√(q^(2/n) − 1)
//! for ln q > n/2 the widest mark lies at ± z_R·√(q^(2/n)/e − 1) and is √n·(d₀/2)·q^(1/n)/√e wide,
//! else it lies in the waist and is d₀·√(ln(q)/2) wide
//! with q ≤ 1 there is no mark at any height
//!
//! Out of focus the spot grows while its dose falls, so that a strong mark first widens, then thins and
//! vanishes. Near the waist b² = 2·(d₀/2)²·(ln q + (ln q − n/2)·(z/z_R)² − …): at **q = √e** for a line
//! and **q = e** for a pulse the width does not react to focus to second order. There a mark is
//! robust in production, and useless for finding focus.
//!
//! Derived here from a dose q/gⁿ·exp(−2y²/w²) that marks where it is at least 1. \[1\] For pulses it is
//! J. M. Liu, *Optics Letters* 7, 196 (1982), from memory.
//! Not modelled: heat that stays or spreads (see [`blur_budget`](super::blur_budget)), incubation
//! (see [`pulsed_line`](super::pulsed_line)), an elliptic spot.

use crate::error::{Error, Param, check};
use crate::model::focus::checked_defocus;
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;
use core::f64::consts::E;

/// What makes a mark. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum MarkKind {
    /// One pulse, or any mark that goes by the peak irradiance.
    Pulse = 1,
    /// One scanned line.
    Line = 2,
}

impl MarkKind {
    /// Every kind, in the order of its code.
    pub const ALL: [Self; 2] = [Self::Pulse, Self::Line];

    /// The kind with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|kind| *kind as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::MarkKind, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pulse => "pulse",
            Self::Line => "line",
        }
    }

    /// n, by which power of the growth the dose falls.
    pub(crate) const fn exponent(self) -> f64 {
        match self {
            Self::Pulse => 2.0,
            Self::Line => 1.0,
        }
    }

    /// The dose ratio in the waist at which the width of the mark does not react to focus to second order.
    ///
    /// e^(n/2), which is e for a pulse and √e for a line, derived in the [module](self).
    ///
    /// Accuracy: at most 0.5 ulp, for both are written as the nearest double
    /// (`tests/vectors/mark_limits.csv`).
    ///
    /// ```
    /// use spotwise::model::mark::MarkKind;
    /// assert_eq!((MarkKind::Line.focus_insensitive_dose_ratio() * 1e4).round(), 16_487.0); // √2.71828
    /// assert_eq!((MarkKind::Pulse.focus_insensitive_dose_ratio() * 1e4).round(), 27_183.0);
    /// ```
    #[must_use]
    pub const fn focus_insensitive_dose_ratio(self) -> f64 {
        match self {
            Self::Pulse => E,
            Self::Line => ROOT_E,
        }
    }
}

/// d·√(L/2), and 0 where nothing marks.
pub(super) fn width_of(spot_diameter: f64, log_dose: f64) -> f64 {
    if log_dose > 0.0 { spot_diameter * math::sqrt(0.5 * log_dose) } else { 0.0 }
}

/// √e.
const ROOT_E: f64 = 1.648_721_270_700_128_2;

/// A mark at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkWidth {
    /// Whether there is a mark at all.
    pub marks: bool,
    /// Width of the line or diameter of the dot in metres; 0 without a mark.
    pub width: f64,
    /// Dose ratio at this height.
    pub dose_ratio: f64,
    /// Spot **diameter** at this height in metres, 1/e² (D4σ).
    pub spot_diameter: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Where a mark is widest, and where it vanishes. Offsets count from the waist, alike on either side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkLimits {
    /// Whether there is a mark in the waist; if not, there is none anywhere, and widths and offsets are 0.
    pub marks: bool,
    /// Width of the mark in the waist in metres.
    pub width_in_waist: f64,
    /// Offset from the waist at which the mark is widest, in metres; 0 if that is the waist.
    pub widest_offset: f64,
    /// Width of the mark there in metres.
    pub greatest_width: f64,
    /// Offset from the waist at which the mark vanishes, in metres.
    pub vanishing_offset: f64,
    /// Dose ratio in the waist at which the width would not react to focus to second order.
    pub focus_insensitive_dose_ratio: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Width of the mark of one pulse or line at `z_offset` from the waist, + away from the lens.
///
/// `dose_ratio` is that in the waist. Formulas and sources in the [module](self). No mark is no error:
/// the width is then 0 and `marks` false.
///
/// Accuracy: at most 4 ulp times the condition number 1 + (1 + |ln q|)/L, which is large where the mark is
/// about to vanish (`tests/vectors/mark_width.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then in the order of the
/// arguments; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::{mark::{mark_width, MarkKind}, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// // Twice the threshold: b = 88 µm·√(ln 2/2) = 51.8 µm in the waist …
/// let sharp = mark_width(&beam, MarkKind::Line, 2.0, 0.0)?;
/// assert_eq!((sharp.width * 1e9).round(), 51_806.0);
/// // … and nothing beyond √3 = 1.732 Rayleigh ranges, here 0.8282 mm.
/// assert!(mark_width(&beam, MarkKind::Line, 2.0, 0.828e-3)?.marks);
/// assert!(!mark_width(&beam, MarkKind::Line, 2.0, 0.829e-3)?.marks);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "kerf")]
#[doc(alias = "line width")]
#[must_use = "the mark is the result"]
pub fn mark_width(beam: &Beam, kind: MarkKind, dose_ratio: f64, z_offset: f64) -> Result<MarkWidth, Error> {
    let checked = checked_beam(beam)?;
    let q = check(Param::AnyDoseRatio, dose_ratio)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    let spot = checked_defocus(&checked, Twofold::from(z_offset));
    // L = ln q − n·ln g, which keeps its digits where both are small
    let log_dose = math::log(q) - kind.exponent() * math::log1p(spot.growth_minus_one);
    let marks = log_dose > 0.0;
    let fall = match kind {
        MarkKind::Pulse => spot.irradiance_ratio,
        MarkKind::Line => spot.line_dose_ratio,
    };
    Ok(MarkWidth {
        marks,
        width: width_of(spot.diameter, log_dose),
        dose_ratio: q * fall,
        spot_diameter: spot.diameter,
        half_angle: spot.half_angle,
        validity: spot.validity,
    })
}

/// Where the mark of a pulse or line is widest and where it vanishes.
///
/// Formulas and sources in the [module](self). No mark is no error: `marks` is then false.
///
/// Accuracy: at most 4 ulp; the offset of the widest mark at most 4 ulp times 1 + 1/(q^(2/n)/e − 1), which
/// is large where it leaves the waist (`tests/vectors/mark_limits.csv`).
///
/// # Errors
/// As [`mark_width`].
///
/// # Example
/// ```
/// use spotwise::model::{mark::{mark_limits, MarkKind}, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let limits = mark_limits(&beam, MarkKind::Line, 4.0)?;
/// // By hand: 44 µm·4/√e = 106.7 µm, 46 % wider than the 88 µm·√(ln 4/2) = 73.3 µm in the waist.
/// assert_eq!((limits.greatest_width * 1e9).round(), 106_749.0);
/// assert_eq!((limits.width_in_waist * 1e9).round(), 73_265.0);
/// // z_R = 0.47815 mm, times √(16/e − 1) = 2.2105 and √15 = 3.8730.
/// assert_eq!((limits.widest_offset * 1e7).round(), 10_569.0);
/// assert_eq!((limits.vanishing_offset * 1e7).round(), 18_519.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the limits are the result"]
pub fn mark_limits(beam: &Beam, kind: MarkKind, dose_ratio: f64) -> Result<MarkLimits, Error> {
    let checked = checked_beam(beam)?;
    let q = check(Param::AnyDoseRatio, dose_ratio)?;
    let mut limits = MarkLimits {
        marks: q > 1.0,
        width_in_waist: 0.0,
        widest_offset: 0.0,
        greatest_width: 0.0,
        vanishing_offset: 0.0,
        focus_insensitive_dose_ratio: kind.focus_insensitive_dose_ratio(),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    };
    if !limits.marks {
        return Ok(limits);
    }
    let zr = checked.rayleigh_range.to_f64();
    let d0 = checked.waist_diameter;
    limits.width_in_waist = width_of(d0, math::log(q));
    limits.greatest_width = limits.width_in_waist;
    // q^(2/n) − 1, and q^(1/n)
    let (power_less_one, root) = match kind {
        MarkKind::Pulse => (q - 1.0, math::sqrt(q)),
        MarkKind::Line => ((q - 1.0) * (q + 1.0), q),
    };
    let beyond = (power_less_one - (E - 1.0)) / E;
    if beyond > 0.0 {
        limits.widest_offset = zr * math::sqrt(beyond);
        limits.greatest_width = 0.5 * d0 * math::sqrt(kind.exponent()) * (root / ROOT_E);
    }
    limits.vanishing_offset = zr * math::sqrt(power_less_one);
    Ok(limits)
}
