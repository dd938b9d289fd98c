//! A file about a series of test pieces: what made them, and what was read off them.
//!
//! ```text
//! {
//!     "title": "scale plate, 1.5 inch lens",
//!     "laser": { "wavelength": "10.6 um", "m_squared": 1.2 },
//!     "m_squared_relative_deviation": 0.1,
//!     "lens": { "focal_length": "1.5 in" },
//!     "speed": "500 mm/s",
//!     "readings": "rain_gauge_pieces.csv",
//!     "judgement_relative_deviation": 0.05,
//!     "suspect": { "width": "104 um", "deviation": "3 um", "power": "20 W" }
//! }
//! ```
//!
//! `laser` and `readings` must be there. `m_squared` counts only with `m_squared_relative_deviation`, by which it may
//! be off. `lens` and `speed` make a calibration of what is found. `suspect` is a line that came out too wide or too
//! narrow on a part, at the height that was focus. Readings are in a file of their own, see `readings.rs`.

use crate::readings::{self, Readings};
use serde::Deserialize;
use spotwise::text::{parse_length, parse_power, parse_speed};
use spotwise::units::m;
use spotwise::uom::si::f64::{Length, Power, Velocity};
use spotwise::uom::si::length::meter;
use spotwise::uom::si::power::watt;
use spotwise::uom::si::velocity::meter_per_second;
use spotwise::{JobLens, Laser};

/// Everything that is known of a series.
pub struct Series {
    pub title: String,
    pub laser: Laser,
    pub m_squared_relative_deviation: Option<f64>,
    pub lens: Option<JobLens>,
    pub speed: Option<Velocity>,
    pub expected_rayleigh_range: Option<Length>,
    pub judgement_relative_deviation: f64,
    pub suspect: Option<Suspect>,
    pub readings: Readings,
}

/// A line on a part that is not as it was.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Suspect {
    pub width: LengthField,
    pub deviation: LengthField,
    /// Power at which it was made.
    pub power: PowerField,
}

/// A length with its unit.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(try_from = "String")]
pub struct LengthField(pub Length);

/// A power with its unit.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(try_from = "String")]
pub struct PowerField(pub Power);

/// A speed with its unit.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(try_from = "String")]
struct SpeedField(Velocity);

impl TryFrom<String> for LengthField {
    type Error = spotwise::Error;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        parse_length(&text).map(|metres| Self(Length::new::<meter>(metres)))
    }
}

impl TryFrom<String> for PowerField {
    type Error = spotwise::Error;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        parse_power(&text).map(|watts| Self(Power::new::<watt>(watts)))
    }
}

impl TryFrom<String> for SpeedField {
    type Error = spotwise::Error;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        parse_speed(&text).map(|speed| Self(Velocity::new::<meter_per_second>(speed)))
    }
}

/// The file as it stands.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SeriesText {
    title: Option<String>,
    laser: Laser,
    m_squared_relative_deviation: Option<f64>,
    lens: Option<JobLens>,
    speed: Option<SpeedField>,
    expected_rayleigh_range: Option<LengthField>,
    judgement_relative_deviation: Option<f64>,
    suspect: Option<Suspect>,
    readings: String,
}

/// A hand that is steady: by so much of the spot's width it may change its mind from one piece to the next.
const STEADY_HAND: f64 = 0.05;

/// Reads a file that names its readings; `read_beside` finds them.
pub fn read_json(
    name: &str,
    text: &str,
    read_beside: impl FnOnce(&str) -> Result<String, String>,
) -> Result<Series, String> {
    let mut json = serde_json::Deserializer::from_str(text);
    let file: SeriesText =
        serde_path_to_error::deserialize(&mut json).map_err(|error| match error.path().to_string() {
            path if path == "." || path == "?" => format!("{name}: {}", error.inner()),
            path => format!("{name}: {path}: {}", error.inner()),
        })?;
    json.end().map_err(|error| format!("{name}: {error}"))?;
    let readings = readings::read(&file.readings, &read_beside(&file.readings)?)?;
    if readings.wavelength.is_some() {
        return Err(format!("{}: the wavelength stands in {name} already", file.readings));
    }
    Ok(Series {
        title: file.title.unwrap_or_else(|| name.to_owned()),
        laser: file.laser,
        m_squared_relative_deviation: file.m_squared_relative_deviation,
        lens: file.lens,
        speed: file.speed.map(|speed| speed.0),
        expected_rayleigh_range: file.expected_rayleigh_range.map(|range| range.0),
        judgement_relative_deviation: file.judgement_relative_deviation.unwrap_or(STEADY_HAND),
        suspect: file.suspect,
        readings,
    })
}

/// Reads readings that stand alone; they must name the wavelength.
pub fn read_csv(name: &str, text: &str) -> Result<Series, String> {
    let readings = readings::read(name, text)?;
    let wavelength = readings.wavelength.ok_or_else(|| {
        format!(
            "{name}: without a JSON file about the series a column \"wavelength (um)\" must tell the laser's"
        )
    })?;
    Ok(Series {
        title: name.to_owned(),
        laser: Laser { wavelength: m(wavelength), m_squared: 1.0 },
        m_squared_relative_deviation: None,
        lens: None,
        speed: None,
        expected_rayleigh_range: None,
        judgement_relative_deviation: STEADY_HAND,
        suspect: None,
        readings,
    })
}
