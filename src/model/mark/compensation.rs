//! Compensation: which power and speed make up for a known defocus, and what stands in the way.
//!
//! | symbol | meaning                                                          | unit | valid |
//! |--------|------------------------------------------------------------------|------|-------|
//! | n      | 2 for a pulse, 1 for a line                                      | 1    |       |
//! | z      | offset from the waist                                            | m    | −1e7 … 1e7 |
//! | g      | growth of the spot at the offset                                 | 1    |       |
//! | q      | dose ratio in the waist before compensation                      | 1    | 1.000001 … 1e6 |
//! | P      | power; the greatest allowed is no less                           | W    | 1e-9 … 1e6 |
//! | v      | speed; the least allowed is no more, the greatest no less        | m/s  | 1e-9 … 1e4 |
//! |        | least irradiance on the axis over that in the waist before       | 1    | 0 … 1e6 |
//! | ρ      | dose factor: by which the dose (P/v for a line, P for a pulse) must change | 1 | |
//!
//! same dose: ρ = gⁿ (a line: its line dose; a pulse: its fluence)
//! same width of the mark: ρ = gⁿ·q^(1/g² − 1)
//! width that does not react to focus: ρ = e^(n/2)·gⁿ/q, so that the local dose ratio is e^(n/2) and the mark
//! is as wide as √n spot radii
//! a raster fill needs none: its mean dose does not change with focus
//!
//! A line's dose rises with power and falls with speed, that of a pulse (at one repetition rate) goes by
//! power alone. Power is changed first, since only power brings back irradiance: to P·ρ, which is less than P
//! where ρ < 1; for a line further up if the irradiance would fall below the least allowed, with the speed
//! raised in step, never beyond the greatest speed; never beyond the greatest power. Speed makes up the rest,
//! never below the least.
//!
//! Derived here from the laws of [`isolated`](super::isolated). At the same line dose the irradiance
//! still falls by 1/g, so that vaporising may turn into melting (common practice, no source); details
//! grow with g, and so does the heat that spreads while a slower spot dwells.

use super::isolated::{MarkKind, width_of};
use crate::error::{Error, Param, check, check_within};
use crate::flags::flags;
use crate::model::focus::checked_defocus;
use crate::model::math::{self, greater, lesser};
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// What is to be as it was in focus. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum CompensationRule {
    /// The dose of a line, or the fluence of a pulse.
    SameDose = 1,
    /// The width of the mark.
    SameWidth = 2,
    /// Not as it was, but a width that no longer reacts to focus.
    FocusInsensitiveWidth = 3,
}

impl CompensationRule {
    /// Every rule, in the order of its code.
    pub const ALL: [Self; 3] = [Self::SameDose, Self::SameWidth, Self::FocusInsensitiveWidth];

    /// The rule with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|rule| *rule as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::CompensationRule, value: code })
    }
}

/// Limits that a compensation meets: a set. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CompensationLimits(u32);

flags!(CompensationLimits);

impl CompensationLimits {
    /// No limit is met.
    pub const NONE: Self = Self(0);
    /// The greatest power is less than is wanted. Where speed cannot make up for it, the dose stays short: always
    /// so for a pulse.
    pub const GREATEST_POWER: Self = Self(1);
    /// The least speed is more than is wanted, so that the dose stays short.
    pub const LEAST_SPEED: Self = Self(2);
    /// The irradiance stays below the least allowed.
    pub const LEAST_IRRADIANCE: Self = Self(4);
    /// The greatest speed is less than is wanted to go with the power for the least irradiance.
    pub const GREATEST_SPEED: Self = Self(8);

    /// Every limit, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 4] = [
        (Self::GREATEST_POWER, "The greatest power is less than is wanted."),
        (Self::LEAST_SPEED, "The least speed is more than is wanted, so that the dose stays short."),
        (Self::LEAST_IRRADIANCE, "The irradiance stays below the least allowed."),
        (
            Self::GREATEST_SPEED,
            "The greatest speed is less than is wanted to go with more power for the irradiance.",
        ),
    ];
}

/// How a mark is made in focus, and how far power and speed may go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkSetting {
    /// Pulse or line.
    pub kind: MarkKind,
    /// Dose ratio in the waist.
    pub dose_ratio: f64,
    /// Power in watts.
    pub power: f64,
    /// Speed in m/s.
    pub speed: f64,
    /// Greatest power in watts, at least `power`.
    pub greatest_power: f64,
    /// Least speed in m/s, at most `speed`.
    pub least_speed: f64,
    /// Greatest speed in m/s, at least `speed`.
    pub greatest_speed: f64,
    /// Least irradiance on the axis over that in the waist before; 0 if it does not matter.
    pub least_irradiance_ratio: f64,
}

/// Power and speed that make up for a defocus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compensation {
    /// Dose factor ρ that the rule asks for.
    pub wanted_factor: f64,
    /// Dose factor that power and speed below give.
    pub reached_factor: f64,
    /// Power in watts.
    pub power: f64,
    /// Speed in m/s.
    pub speed: f64,
    /// Irradiance on the axis over that in the waist before.
    pub irradiance_ratio: f64,
    /// Dose ratio at the offset, with that power and speed.
    pub dose_ratio: f64,
    /// Width of the mark in metres, with that power and speed; 0 if there is none.
    pub mark_width: f64,
    /// The limits that are met.
    pub limits: CompensationLimits,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Power and speed that make up for a known defocus by a rule, within limits.
///
/// `z_offset` is that of the surface from the waist, + away from the lens. Formulas, and which of power and
/// speed is changed first, in the [module](self). A rule that cannot be met is no error: the nearest
/// setting is returned, with the limits that bind and the dose factor reached.
///
/// Accuracy: at most 6 ulp, to keep the width that times 1 + (1 − 1/g²)·ln q; the width of the mark that
/// times 1 + 1/ln(local dose ratio) (`tests/vectors/compensate.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `z_offset`, then for the
/// fields of the setting in order; [`Error::OutsideModel`] if the half angle exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::mark::{compensate, CompensationLimits, CompensationRule, MarkKind, MarkSetting};
/// use spotwise::model::optics::Beam;
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let setting = MarkSetting {
///     kind: MarkKind::Line, dose_ratio: 2.7, power: 20.0, speed: 0.5,
///     greatest_power: 25.0, least_speed: 0.1, greatest_speed: 2.0, least_irradiance_ratio: 0.0,
/// };
/// // z_R = 0.478154 mm, so that half a millimetre off the spot is √(1 + (0.5/z_R)²) = 1.4469 times as large:
/// // the power is not enough, so it slows down.
/// let made_up = compensate(&beam, 0.5e-3, CompensationRule::SameDose, &setting)?;
/// assert_eq!((made_up.wanted_factor * 1e4).round(), 14_469.0);
/// assert_eq!(made_up.power, 25.0);
/// assert_eq!((made_up.speed * 1e4).round(), 4320.0); // 0.5·25/20/1.4469
/// assert_eq!((made_up.irradiance_ratio * 1e4).round(), 5971.0); // 25/20/1.4469²
/// assert_eq!((made_up.dose_ratio * 1e12).round(), 2.7e12); // as it was
/// assert_eq!((made_up.mark_width * 1e9).round(), 89_728.0); // 1.4469·88 µm·√(ln(2.7)/2)
/// assert_eq!(made_up.limits, CompensationLimits::GREATEST_POWER);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the setting is the result"]
pub fn compensate(
    beam: &Beam,
    z_offset: f64,
    rule: CompensationRule,
    setting: &MarkSetting,
) -> Result<Compensation, Error> {
    let checked = checked_beam(beam)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    let q = check(Param::DoseRatio, setting.dose_ratio)?;
    let power = check(Param::Power, setting.power)?;
    let speed = check(Param::Speed, setting.speed)?;
    let (_, most) = Param::GreatestPower.range();
    let greatest_power = check_within(Param::GreatestPower, setting.greatest_power, power, most)?;
    let (least, _) = Param::LeastSpeed.range();
    let least_speed = check_within(Param::LeastSpeed, setting.least_speed, least, speed)?;
    let (_, most) = Param::GreatestSpeed.range();
    let greatest_speed = check_within(Param::GreatestSpeed, setting.greatest_speed, speed, most)?;
    let least_irradiance = check(Param::LeastIrradianceRatio, setting.least_irradiance_ratio)?;

    let spot = checked_defocus(&checked, Twofold::from(z_offset));
    // gⁿ and g^−n
    let (growth, fall) = match setting.kind {
        MarkKind::Line => (spot.growth, spot.line_dose_ratio),
        MarkKind::Pulse => (spot.growth * spot.growth, spot.irradiance_ratio),
    };
    let wanted_factor = match rule {
        CompensationRule::SameDose => growth,
        // 1/g² − 1 = −(g − 1)·(g + 1)/g²
        CompensationRule::SameWidth => {
            let exponent = spot.growth_minus_one * (spot.growth + 1.0) * spot.irradiance_ratio;
            growth * math::exp(-exponent * math::log(q))
        }
        CompensationRule::FocusInsensitiveWidth => setting.kind.focus_insensitive_dose_ratio() * growth / q,
    };

    // Factors of the power: what the irradiance asks for, and what the greatest speed still makes up for.
    let for_irradiance = match setting.kind {
        MarkKind::Pulse => 0.0,
        MarkKind::Line => least_irradiance / spot.irradiance_ratio,
    };
    let at_greatest_speed = wanted_factor * (greatest_speed / speed);
    let wanted_power = power * greater(wanted_factor, lesser(for_irradiance, at_greatest_speed));
    let new_power = lesser(wanted_power, greatest_power);
    let power_factor = new_power / power;
    // Speed does nothing for a pulse, and stays.
    let wanted_speed = match setting.kind {
        MarkKind::Pulse => speed,
        MarkKind::Line => speed * power_factor / wanted_factor,
    };
    let new_speed = lesser(greater(wanted_speed, least_speed), greatest_speed);
    let reached_factor = power_factor * (speed / new_speed);
    let irradiance_ratio = power_factor * spot.irradiance_ratio;
    let dose_ratio = q * reached_factor * fall;

    let mut limits = CompensationLimits::NONE;
    const ROUNDING: f64 = 1.0 - 8.0 * f64::EPSILON;
    let power_binds = wanted_power > greatest_power / ROUNDING;
    limits.add(CompensationLimits::GREATEST_POWER, power_binds);
    limits.add(CompensationLimits::LEAST_SPEED, wanted_speed < new_speed * ROUNDING);
    limits.add(CompensationLimits::LEAST_IRRADIANCE, irradiance_ratio < least_irradiance * ROUNDING);
    let speed_binds = for_irradiance * ROUNDING > at_greatest_speed;
    limits.add(CompensationLimits::GREATEST_SPEED, speed_binds && !power_binds);
    Ok(Compensation {
        wanted_factor,
        reached_factor,
        power: new_power,
        speed: new_speed,
        irradiance_ratio,
        dose_ratio,
        mark_width: width_of(spot.diameter, math::log(dose_ratio)),
        limits,
        half_angle: spot.half_angle,
        validity: spot.validity,
    })
}
