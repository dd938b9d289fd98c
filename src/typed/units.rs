//! Short names for the units of the trade.
//!
//! Each is `uom`'s own constructor: one multiplication by the unit's SI value, the same bits as
//! the text `"38.1 mm"` and as the TypeScript package's `mm(38.1)`.
//!
//! ```
//! use spotwise::units::{inch, m};
//! assert_eq!(inch(1.5), m(1.5 * 0.0254));
//! ```

use uom::si::angle::{degree, radian};
use uom::si::f64::{Angle, Length, ReciprocalLength};
use uom::si::length::{centimeter, inch as inches, meter, micrometer, mil as mils, millimeter, nanometer};
use uom::si::reciprocal_length::reciprocal_meter;

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
