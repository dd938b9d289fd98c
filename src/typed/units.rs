//! Short names for the units of the trade.
//!
//! Each is one multiplication by the unit's SI value, the same bits as the text `"38.1 mm"` and as the
//! TypeScript package's `mm(38.1)`.
//!
//! ```
//! use spotwise::units::{inch, m};
//! assert_eq!(inch(1.5), m(1.5 * 0.0254));
//! ```

use uom::si::angle::{degree, radian};
use uom::si::area::square_meter;
use uom::si::diffusion_coefficient::square_meter_per_second;
use uom::si::energy::joule as joules;
use uom::si::f64::{
    Angle, Area, DiffusionCoefficient, Energy, Frequency, HeatFluxDensity, Length, Power, RadiantExposure,
    ReciprocalLength, Time, Velocity, Volume,
};
use uom::si::frequency::hertz;
use uom::si::heat_flux_density::watt_per_square_meter;
use uom::si::length::{centimeter, inch as inches, meter, micrometer, mil as mils, millimeter, nanometer};
use uom::si::power::watt;
use uom::si::radiant_exposure::joule_per_square_meter;
use uom::si::reciprocal_length::reciprocal_meter;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// Metres.
#[must_use]
pub fn m(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// Centimetres.
#[must_use]
pub fn cm(value: f64) -> Length {
    Length::new::<centimeter>(value)
}

/// Millimetres.
#[must_use]
pub fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

/// Micrometres.
#[must_use]
pub fn um(value: f64) -> Length {
    Length::new::<micrometer>(value)
}

/// Nanometres.
#[must_use]
pub fn nm(value: f64) -> Length {
    Length::new::<nanometer>(value)
}

/// International inches of 25.4 mm.
#[must_use]
pub fn inch(value: f64) -> Length {
    Length::new::<inches>(value)
}

/// Thousandths of an inch.
#[must_use]
pub fn mil(value: f64) -> Length {
    Length::new::<mils>(value)
}

/// Typographic points of 1/72 inch.
#[must_use]
pub fn pt(value: f64) -> Length {
    m(value * (0.0254 / 72.0))
}

/// Radians.
#[must_use]
pub fn rad(value: f64) -> Angle {
    Angle::new::<radian>(value)
}

/// Milliradians.
#[must_use]
pub fn mrad(value: f64) -> Angle {
    rad(value * 1e-3)
}

/// Degrees.
#[must_use]
pub fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

/// One over so many metres: 2 per metre is 1/(0.5 m).
#[must_use]
pub fn per_m(value: f64) -> ReciprocalLength {
    ReciprocalLength::new::<reciprocal_meter>(value)
}

/// Watts.
#[must_use]
pub fn w(value: f64) -> Power {
    Power::new::<watt>(value)
}

/// Milliwatts.
#[must_use]
pub fn mw(value: f64) -> Power {
    w(value * 1e-3)
}

/// Kilowatts.
#[must_use]
pub fn kw(value: f64) -> Power {
    w(value * 1e3)
}

/// Metres in a second.
#[must_use]
pub fn m_per_s(value: f64) -> Velocity {
    Velocity::new::<meter_per_second>(value)
}

/// Millimetres in a second.
#[must_use]
pub fn mm_per_s(value: f64) -> Velocity {
    m_per_s(value * 1e-3)
}

/// Metres in a minute.
#[must_use]
pub fn m_per_min(value: f64) -> Velocity {
    m_per_s(value * (1.0 / 60.0))
}

/// Inches in a second.
#[must_use]
pub fn in_per_s(value: f64) -> Velocity {
    m_per_s(value * 0.0254)
}

/// Joules on a square metre.
#[must_use]
pub fn j_per_m2(value: f64) -> RadiantExposure {
    RadiantExposure::new::<joule_per_square_meter>(value)
}

/// Joules on a square centimetre.
#[must_use]
pub fn j_per_cm2(value: f64) -> RadiantExposure {
    j_per_m2(value * 1e4)
}

/// Joules on a square millimetre.
#[must_use]
pub fn j_per_mm2(value: f64) -> RadiantExposure {
    j_per_m2(value * 1e6)
}

/// Watts on a square metre.
#[must_use]
pub fn w_per_m2(value: f64) -> HeatFluxDensity {
    HeatFluxDensity::new::<watt_per_square_meter>(value)
}

/// Joules.
#[must_use]
pub fn joule(value: f64) -> Energy {
    Energy::new::<joules>(value)
}

/// Hertz.
#[must_use]
pub fn hz(value: f64) -> Frequency {
    Frequency::new::<hertz>(value)
}

/// Kilohertz.
#[must_use]
pub fn khz(value: f64) -> Frequency {
    hz(value * 1e3)
}

/// Seconds.
#[must_use]
pub fn s(value: f64) -> Time {
    Time::new::<second>(value)
}

/// Milliseconds.
#[must_use]
pub fn ms(value: f64) -> Time {
    s(value * 1e-3)
}

/// Microseconds.
#[must_use]
pub fn us(value: f64) -> Time {
    s(value * 1e-6)
}

/// Square metres in a second, of a thermal diffusivity.
#[must_use]
pub fn m2_per_s(value: f64) -> DiffusionCoefficient {
    DiffusionCoefficient::new::<square_meter_per_second>(value)
}

/// Square millimetres in a second, of a thermal diffusivity.
#[must_use]
pub fn mm2_per_s(value: f64) -> DiffusionCoefficient {
    m2_per_s(value * 1e-6)
}

/// Square metres.
#[must_use]
pub fn m2(value: f64) -> Area {
    Area::new::<square_meter>(value)
}

/// Cubic metres.
#[must_use]
pub fn m3(value: f64) -> Volume {
    Volume::new::<cubic_meter>(value)
}
