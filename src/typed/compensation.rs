//! Power and speed that make up for a known defocus.

use super::beam::Beam;
use super::offset::Offset;
use super::units::{m_per_s, w};
use super::{angle, length};
use crate::error::Error;
use crate::model::mark::{self, CompensationLimits, CompensationRule, MarkKind};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length, Power, Velocity};

/// How a mark is made in focus, and how far power and speed may go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkSetting {
    /// Pulse or line.
    pub kind: MarkKind,
    /// Dose ratio in the waist, 1.000001 to 1e6.
    pub dose_ratio: f64,
    /// Power, 1e-9 to 1e6 W.
    pub power: Power,
    /// Speed, 1e-9 to 1e4 m/s.
    pub speed: Velocity,
    /// Greatest power, at least `power`.
    pub greatest_power: Power,
    /// Least speed, at most `speed`.
    pub least_speed: Velocity,
    /// Greatest speed, at least `speed`.
    pub greatest_speed: Velocity,
    /// Least irradiance on the axis over that in the waist before; 0 if it does not matter.
    pub least_irradiance_ratio: f64,
}

/// Power and speed that make up for a defocus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compensation {
    /// Dose factor that the rule asks for.
    pub wanted_factor: f64,
    /// Dose factor that power and speed below give.
    pub reached_factor: f64,
    /// Power.
    pub power: Power,
    /// Speed.
    pub speed: Velocity,
    /// Irradiance on the axis over that in the waist before.
    pub irradiance_ratio: f64,
    /// Dose ratio at the offset, with that power and speed.
    pub dose_ratio: f64,
    /// Width of the mark, with that power and speed; 0 if there is none.
    pub mark_width: Length,
    /// The limits that are met.
    pub limits: CompensationLimits,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Compensation.
impl Beam {
    /// Power and speed that make up for a surface off the waist, within limits. As
    /// [`model::mark::compensate`](crate::model::mark::compensate).
    ///
    /// A rule that cannot be met is no error: the nearest setting is returned, with the limits that bind.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the setting.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{m_per_s, mm, um, w};
    /// use spotwise::{
    ///     Beam, BeamParts, BeamWidth, CompensationLimits, CompensationRule, MarkKind, MarkSetting, Offset,
    /// };
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// let setting = MarkSetting {
    ///     kind: MarkKind::Line,
    ///     dose_ratio: 2.7,
    ///     power: w(20.0),
    ///     speed: m_per_s(0.5),
    ///     greatest_power: w(25.0),
    ///     least_speed: m_per_s(0.1),
    ///     greatest_speed: m_per_s(2.0),
    ///     least_irradiance_ratio: 0.0,
    /// };
    /// let low = Offset::away_from_lens(mm(0.5))?;
    /// let made_up = beam.compensate(low, CompensationRule::SameDose, &setting)?;
    /// assert_eq!(made_up.power, w(25.0));
    /// assert_eq!((made_up.speed.value * 1e4).round(), 4320.0); // 0.5·25/20/1.4469
    /// assert_eq!(made_up.limits, CompensationLimits::GREATEST_POWER);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn compensate(
        &self,
        surface: Offset,
        rule: CompensationRule,
        setting: &MarkSetting,
    ) -> Result<Compensation, Error> {
        let setting = mark::MarkSetting {
            kind: setting.kind,
            dose_ratio: setting.dose_ratio,
            power: setting.power.value,
            speed: setting.speed.value,
            greatest_power: setting.greatest_power.value,
            least_speed: setting.least_speed.value,
            greatest_speed: setting.greatest_speed.value,
            least_irradiance_ratio: setting.least_irradiance_ratio,
        };
        let found = mark::compensate(self.as_model(), surface.metres(), rule, &setting)?;
        Ok(Compensation {
            wanted_factor: found.wanted_factor,
            reached_factor: found.reached_factor,
            power: w(found.power),
            speed: m_per_s(found.speed),
            irradiance_ratio: found.irradiance_ratio,
            dose_ratio: found.dose_ratio,
            mark_width: length(found.mark_width),
            limits: found.limits,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
