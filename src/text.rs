//! Quantities as text: `"10.6 um"`, `"1.5 in"`, `"2 mrad"`, `"0.2 1/m"`, `"20 W"`, and back without losing a bit.
//!
//! A unit is **one multiplication** by the double nearest to its exact value in SI, on every face
//! (Rust text, `uom` constructors, TypeScript); so 10.6 µm is 10.6 × 1e-6 everywhere, which may
//! differ by one unit in the last place from the literal `10.6e-6`.
//!
//! A space between number and unit is optional. A number without a unit is refused.

use crate::error::{Error, Kind, TextFault};
use core::fmt::{self, Write};

/// Metres in a typographic point.
const POINT: f64 = 0.0254 / 72.0;

/// Units of length, and their metres.
const LENGTHS: &[(&str, f64)] = &[
    ("nm", 1e-9),
    ("um", 1e-6),
    ("\u{b5}m", 1e-6),  // micro sign
    ("\u{3bc}m", 1e-6), // Greek mu
    ("mm", 1e-3),
    ("cm", 1e-2),
    ("m", 1.0),
    ("in", 0.0254),
    ("inch", 0.0254),
    ("mil", 2.54e-5),
    ("pt", POINT),
];

/// Units of plane angle, and their radians.
const ANGLES: &[(&str, f64)] = &[
    ("rad", 1.0),
    ("mrad", 1e-3),
    ("urad", 1e-6),
    ("\u{b5}rad", 1e-6),
    ("\u{3bc}rad", 1e-6),
    ("deg", core::f64::consts::PI / 180.0),
    ("\u{b0}", core::f64::consts::PI / 180.0),
];

/// Units of reciprocal length, and how many of one per metre they are.
const RECIPROCAL_LENGTHS: &[(&str, f64)] = &[("1/m", 1.0), ("/m", 1.0)];

/// Units of power, and their watts.
const POWERS: &[(&str, f64)] = &[("W", 1.0), ("mW", 1e-3), ("kW", 1e3)];

/// Units of speed, and their metres in a second.
const SPEEDS: &[(&str, f64)] = &[("m/s", 1.0), ("mm/s", 1e-3), ("m/min", 1.0 / 60.0), ("in/s", 0.0254)];

/// Units of dose, and their joules on a square metre.
const DOSES: &[(&str, f64)] = &[
    ("J/m2", 1.0),
    ("J/cm2", 1e4),
    ("J/mm2", 1e6),
    ("J/m\u{b2}", 1.0),
    ("J/cm\u{b2}", 1e4),
    ("J/mm\u{b2}", 1e6),
];

/// Units of thermal diffusivity, and their square metres in a second.
const DIFFUSIVITIES: &[(&str, f64)] = &[
    ("m2/s", 1.0),
    ("cm2/s", 1e-4),
    ("mm2/s", 1e-6),
    ("m\u{b2}/s", 1.0),
    ("cm\u{b2}/s", 1e-4),
    ("mm\u{b2}/s", 1e-6),
];

/// Units of removal energy, and their joules for a cubic metre.
const REMOVAL_ENERGIES: &[(&str, f64)] = &[
    ("J/m3", 1.0),
    ("J/cm3", 1e6),
    ("J/mm3", 1e9),
    ("J/m\u{b3}", 1.0),
    ("J/cm\u{b3}", 1e6),
    ("J/mm\u{b3}", 1e9),
];

/// A length in metres from text such as `"38.1 mm"` or `"1.5 in"`.
///
/// Units: nm, um or µm, mm, cm, m, in or inch, mil (inch/1000), pt (inch/72). The value is the
/// number times the unit's metres, one rounding.
///
/// # Errors
/// [`Error::NotAQuantity`] that says what is wrong and shows a right example.
///
/// # Example
/// ```
/// use spotwise::text::parse_length;
/// assert_eq!(parse_length("1.5 in")?, 1.5 * 0.0254);
/// assert_eq!(
///     parse_length("1.5").unwrap_err().to_string(),
///     "the unit is missing; give a length with its unit, such as \"10.6 um\", \"38.1 mm\" or \
///      \"1.5 in\" (units: nm, um, mm, cm, m, in, mil, pt)",
/// );
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_length(text: &str) -> Result<f64, Error> {
    parse(text, LENGTHS, Kind::Length)
}

/// An angle in radians from text such as `"2 mrad"` or `"5 deg"`.
///
/// Units: rad, mrad, urad or µrad, deg or °.
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_angle("2 mrad")?, 2.0 * 1e-3);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_angle(text: &str) -> Result<f64, Error> {
    parse(text, ANGLES, Kind::Angle)
}

/// A reciprocal length in 1/m from text such as `"0.2 1/m"`, by which an expander converges or a
/// lens refracts.
///
/// Units: 1/m, also written /m. The number stands apart from `1/m`, since `"0.21/m"` is 0.21 per metre.
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// use spotwise::text::parse_reciprocal_length;
/// assert_eq!(parse_reciprocal_length("0.2 1/m")?, 0.2);
/// assert_eq!(parse_reciprocal_length("-0.2 /m")?, -0.2);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_reciprocal_length(text: &str) -> Result<f64, Error> {
    parse(text, RECIPROCAL_LENGTHS, Kind::ReciprocalLength)
}

/// A power in watts from text such as `"20 W"`.
///
/// Units: W, mW, kW.
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_power("20 W")?, 20.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_power(text: &str) -> Result<f64, Error> {
    parse(text, POWERS, Kind::Power)
}

/// A speed in m/s from text such as `"500 mm/s"`.
///
/// Units: m/s, mm/s, m/min, in/s.
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_speed("500 mm/s")?, 0.5);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_speed(text: &str) -> Result<f64, Error> {
    parse(text, SPEEDS, Kind::Speed)
}

/// A dose in J/m² from text such as `"0.25 J/mm2"`.
///
/// Units: J/m2, J/cm2, J/mm2, also written with ².
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_dose("0.25 J/mm2")?, 250_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_dose(text: &str) -> Result<f64, Error> {
    parse(text, DOSES, Kind::Dose)
}

/// A thermal diffusivity in m²/s from text such as `"0.1 mm2/s"`.
///
/// Units: m2/s, cm2/s, mm2/s, also written with ².
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_diffusivity("0.5 mm2/s")?, 0.5e-6);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_diffusivity(text: &str) -> Result<f64, Error> {
    parse(text, DIFFUSIVITIES, Kind::Diffusivity)
}

/// The energy that removes one volume in J/m³ from text such as `"3 J/mm3"`.
///
/// Units: J/m3, J/cm3, J/mm3, also written with ³.
///
/// # Errors
/// As [`parse_length`].
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_removal_energy("3 J/mm3")?, 3e9);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_removal_energy(text: &str) -> Result<f64, Error> {
    parse(text, REMOVAL_ENERGIES, Kind::RemovalEnergy)
}

/// A pure number from text such as `"0.2"` or `"20 %"`.
///
/// # Errors
/// As [`parse_length`], but a missing unit is right here.
///
/// # Example
/// ```
/// assert_eq!(spotwise::text::parse_number("20 %")?, 0.2);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn parse_number(text: &str) -> Result<f64, Error> {
    parse(text, &[("", 1.0), ("%", 0.01)], Kind::Number)
}

fn parse(text: &str, units: &[(&str, f64)], wanted: Kind) -> Result<f64, Error> {
    let refuse = |fault| Err(Error::NotAQuantity { fault, wanted });
    let text = text.trim();
    let (number, unit) = text.split_at(number_length(text));
    let unit = unit.trim_start();
    let Ok(number) = number.parse::<f64>() else {
        return refuse(TextFault::NoNumber);
    };
    let Some((_, coefficient)) = units.iter().find(|(name, _)| *name == unit) else {
        return refuse(if unit.is_empty() { TextFault::NoUnit } else { TextFault::WrongUnit });
    };
    let value = number * coefficient;
    if value.is_finite() { Ok(value) } else { refuse(TextFault::NotFinite) }
}

/// Length of the decimal number at the start of a text.
fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let is_digit = |i: usize| bytes.get(i).is_some_and(u8::is_ascii_digit);
    let is_sign = |i: usize| matches!(bytes.get(i), Some(b'+' | b'-'));
    let mut end = usize::from(is_sign(0));
    while is_digit(end) || bytes.get(end) == Some(&b'.') {
        end += 1;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let digits = end + 1 + usize::from(is_sign(end + 1));
        if is_digit(digits) {
            end = digits;
            while is_digit(end) {
                end += 1;
            }
        }
    }
    end
}

/// A length in metres, written in the unit that suits it: `"88.1 um"`.
///
/// The text is the shortest that [`parse_length`] turns back into the same bits; where there is none
/// in the suitable unit, another is written.
///
/// # Example
/// ```
/// use spotwise::text::{parse_length, LengthText};
/// let length = parse_length("10.6 um")?;
/// assert_eq!(LengthText(length).to_string(), "10.6 um");
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthText(pub f64);

impl fmt::Display for LengthText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let magnitude = self.0.abs();
        // The suitable unit first, then smaller ones, which a few lengths need.
        let units: &[(&str, f64)] = if magnitude == 0.0 || magnitude >= 1.0 || !magnitude.is_finite() {
            &[]
        } else if magnitude >= 1e-3 {
            &[("mm", 1e-3), ("um", 1e-6), ("nm", 1e-9)]
        } else if magnitude >= 1e-6 {
            &[("um", 1e-6), ("nm", 1e-9), ("mm", 1e-3)]
        } else {
            &[("nm", 1e-9), ("um", 1e-6), ("mm", 1e-3)]
        };
        for (unit, coefficient) in units {
            if let Some(number) = shortest(self.0, *coefficient) {
                return write!(f, "{number} {unit}");
            }
        }
        write!(f, "{} m", self.0)
    }
}

/// An angle in radians, written in milliradians or radians: `"2 mrad"`. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AngleText(pub f64);

impl fmt::Display for AngleText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match shortest(self.0, 1e-3) {
            Some(number) if self.0 != 0.0 && self.0.abs() < 1.0 => write!(f, "{number} mrad"),
            _ => write!(f, "{} rad", self.0),
        }
    }
}

/// A reciprocal length in 1/m, written as `"0.2 1/m"`. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReciprocalLengthText(pub f64);

impl fmt::Display for ReciprocalLengthText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} 1/m", self.0)
    }
}

/// A size of type, as em in metres, written in points: `"4 pt"`. As [`LengthText`], which it is where no
/// number of points has the same bits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TypeSizeText(pub f64);

impl fmt::Display for TypeSizeText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match shortest(self.0, POINT) {
            Some(number) => write!(f, "{number} pt"),
            None => LengthText(self.0).fmt(f),
        }
    }
}

/// A power in watts, written as `"20 W"`. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerText(pub f64);

impl fmt::Display for PowerText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} W", self.0)
    }
}

/// A speed in m/s, written as `"0.5 m/s"`. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedText(pub f64);

impl fmt::Display for SpeedText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} m/s", self.0)
    }
}

/// A dose in J/m², written as `"0.25 J/mm2"` or in J/m2. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoseText(pub f64);

impl fmt::Display for DoseText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match shortest(self.0, 1e6) {
            Some(number) if self.0.abs() >= 1e3 => write!(f, "{number} J/mm2"),
            _ => write!(f, "{} J/m2", self.0),
        }
    }
}

/// A thermal diffusivity in m²/s, written as `"0.1 mm2/s"` or in m2/s. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiffusivityText(pub f64);

impl fmt::Display for DiffusivityText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match shortest(self.0, 1e-6) {
            Some(number) => write!(f, "{number} mm2/s"),
            None => write!(f, "{} m2/s", self.0),
        }
    }
}

/// The energy that removes one volume in J/m³, written as `"3 J/mm3"` or in J/m3. As [`LengthText`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RemovalEnergyText(pub f64);

impl fmt::Display for RemovalEnergyText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match shortest(self.0, 1e9) {
            Some(number) if self.0.abs() >= 1e6 => write!(f, "{number} J/mm3"),
            _ => write!(f, "{} J/m3", self.0),
        }
    }
}

/// The number with the fewest digits that times `coefficient` is exactly `value`.
fn shortest(value: f64, coefficient: f64) -> Option<f64> {
    let near = value / coefficient;
    (0..17).find_map(|digits| {
        let mut text = Digits::default();
        write!(text, "{near:.digits$e}").ok()?;
        let number = text.as_str().parse::<f64>().ok()?;
        (number * coefficient == value).then_some(number)
    })
}

/// Room for the digits of one number; a double in scientific notation needs at most 24 bytes.
#[derive(Default)]
struct Digits {
    bytes: [u8; 32],
    length: usize,
}

impl Digits {
    fn as_str(&self) -> &str {
        self.bytes.get(..self.length).and_then(|bytes| core::str::from_utf8(bytes).ok()).unwrap_or("")
    }
}

impl fmt::Write for Digits {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        let end = self.length + text.len();
        self.bytes.get_mut(self.length..end).ok_or(fmt::Error)?.copy_from_slice(text.as_bytes());
        self.length = end;
        Ok(())
    }
}
