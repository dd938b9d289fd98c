//! Quantities in documents: text with a unit in, text with a unit out.
//!
//! A field that holds a quantity names its module here with `#[serde(with = …)]`, so that a fault
//! is reported with the field's name, what was given, and what is allowed. `uom`'s own serde form
//! is a bare number in SI, the very mistake these documents must stop, and is not used.

use super::depth::Criterion;
use super::divergence::Divergence;
use super::job::{FocusSetting, RawBeam};
use super::lens::WaistPosition;
use super::offset::{Offset, Side};
use super::width::BeamWidth;
use crate::error::{Error, Kind};
use crate::model::check::{Outcome, Reasons};
use crate::text::{AngleText, LengthText, parse_angle, parse_length, parse_number};
use core::fmt;
use core::marker::PhantomData;
use serde::de::value::MapAccessDeserializer;
use serde::de::{self, IntoDeserializer, MapAccess, Unexpected, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uom::si::f64::{Angle, Length};

/// Fields that hold a quantity of one kind, each with the visitor that reads it and the way it is
/// written.
macro_rules! fields {
    ($type:ty, $visitor:ident, $write:expr; $($field:ident)+) => { $(
        pub(super) mod $field {
            #[allow(unused_imports)]
            use super::*;

            #[allow(dead_code)] // a result is only written, a field may be only read
            pub(crate) fn serialize<S: Serializer>(value: &$type, to: S) -> Result<S::Ok, S::Error> {
                let write: fn(&$type, S) -> Result<S::Ok, S::Error> = $write;
                write(value, to)
            }

            #[allow(dead_code)]
            pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<$type, D::Error> {
                from.deserialize_any($visitor(stringify!($field)))
            }
        }
    )+ };
}

fields! { Length, LengthField, |value, to| to.collect_str(&LengthText(value.value));
    length
    wavelength focal_length lens_to_surface rise fall finest_stroke finest_gap
    before_lens behind_lens toward_lens away_from_lens
    diameter_1e2 radius_1e2 d4sigma fwhm power_86
}
fields! { Angle, AngleField, |value, to| to.collect_str(&AngleText(value.value));
    full_angle half_angle
}
fields! { f64, NumberField, |value, to| to.serialize_f64(*value);
    m_squared dose_ratio growth_ratio irradiance_drop line_dose_drop
}

/// A length of this field's name.
struct LengthField(&'static str);

impl Visitor<'_> for LengthField {
    type Value = Length;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.0, Kind::Length.advice())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Length, E> {
        parse_length(text).map(super::length).map_err(|error| fault(self.0, text, &error))
    }
}

/// An angle of this field's name.
struct AngleField(&'static str);

impl Visitor<'_> for AngleField {
    type Value = Angle;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.0, Kind::Angle.advice())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Angle, E> {
        parse_angle(text).map(super::angle).map_err(|error| fault(self.0, text, &error))
    }
}

/// A pure number of this field's name.
struct NumberField(&'static str);

impl Visitor<'_> for NumberField {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.0, Kind::Number.advice())
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<f64, E> {
        Ok(value)
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<f64, E> {
        Ok(value as f64)
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<f64, E> {
        Ok(value as f64)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<f64, E> {
        parse_number(text).map_err(|error| fault(self.0, text, &error))
    }
}

/// One line that names the field, what was given and what is allowed.
fn fault<E: de::Error>(field: &str, given: &str, error: &Error) -> E {
    E::custom(format_args!("`{field}` = \"{given}\": {error}"))
}

/// A value written as `{"name": …}`, or by a name alone where that says all. Anything else is
/// refused with an example of what belongs there.
pub(super) struct ByName<T> {
    expected: &'static str,
    value: PhantomData<T>,
}

impl<T> ByName<T> {
    pub(super) const fn expecting(expected: &'static str) -> Self {
        Self { expected, value: PhantomData }
    }
}

impl<'de, T: Deserialize<'de>> Visitor<'de> for ByName<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.expected)
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<T, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map))
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        let by_name: Result<T, E> = T::deserialize(text.into_deserializer());
        by_name.map_err(|_| E::invalid_value(Unexpected::Str(text), &self))
    }
}

/// How each choice in a job is read, with an example of it.
macro_rules! choices {
    ($($field:ident: $type:ty, $expected:literal;)+) => { $(
        pub(super) fn $field<'de, D: Deserializer<'de>>(from: D) -> Result<$type, D::Error> {
            from.deserialize_any(ByName::expecting($expected))
        }
    )+ };
}

choices! {
    raw_beam: RawBeam, "a raw beam, such as {\"width_at_lens\": {\"diameter_1e2\": \"7 mm\"}} or {\"waist\": {\"width\": {\"d4sigma\": \"7 mm\"}, \"position\": {\"before_lens\": \"0.8 m\"}}}";
    focus: FocusSetting, "a focus setting, such as {\"from_datum\": {\"toward_lens\": \"0.2 mm\"}}, {\"from_datum\": \"zero\"} or {\"lens_to_surface\": \"38.2 mm\"}";
    criterion: Criterion, "a depth criterion: \"rayleigh\", {\"growth_ratio\": 1.05}, {\"irradiance_drop\": \"20 %\"}, {\"largest_spot\": {\"diameter_1e2\": \"0.12 mm\"}} or {\"line_dose_drop\": \"10 %\"}";
    position: WaistPosition, "a waist position: {\"before_lens\": \"0.8 m\"}, {\"behind_lens\": \"2 m\"} or \"at_lens\"";
    width: WidthText, "a beam width by definition, such as {\"diameter_1e2\": \"7 mm\"} (definitions: diameter_1e2, radius_1e2, d4sigma, fwhm, power_86)";
    offset: OffsetText, "an offset by its side: {\"toward_lens\": \"0.2 mm\"}, {\"away_from_lens\": \"0.2 mm\"} or \"zero\"";
    divergence: DivergenceText, "a divergence: {\"full_angle\": \"4 mrad\"} or {\"half_angle\": \"2 mrad\"}";
}

/// Reads a role type through the form that it has in documents.
macro_rules! through_text {
    ($($type:ty: $read:ident)+) => { $(
        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                $read(from)?.try_into().map_err(de::Error::custom)
            }
        }
    )+ };
}

through_text! { BeamWidth: width Offset: offset Divergence: divergence }

/// A beam width as it stands in a document: by one named definition.
#[derive(Clone, Copy, Serialize, Deserialize)]
pub(super) enum WidthText {
    #[serde(rename = "diameter_1e2", with = "diameter_1e2")]
    Diameter(Length),
    #[serde(rename = "radius_1e2", with = "radius_1e2")]
    Radius(Length),
    #[serde(rename = "d4sigma", with = "d4sigma")]
    D4Sigma(Length),
    #[serde(rename = "fwhm", with = "fwhm")]
    Fwhm(Length),
    #[serde(rename = "power_86", with = "power_86")]
    Power86(Length),
}

impl TryFrom<WidthText> for BeamWidth {
    type Error = Error;
    fn try_from(text: WidthText) -> Result<Self, Error> {
        match text {
            WidthText::Diameter(width) => Self::from_diameter_1e2(width),
            WidthText::Radius(radius) => Self::from_radius_1e2(radius),
            WidthText::D4Sigma(width) => Self::from_d4sigma(width),
            WidthText::Fwhm(width) => Self::from_fwhm(width),
            WidthText::Power86(width) => Self::from_power_86(width),
        }
    }
}

impl From<BeamWidth> for WidthText {
    fn from(width: BeamWidth) -> Self {
        Self::Diameter(width.diameter_1e2())
    }
}

/// An offset as it stands in a document: by the side it points to.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum OffsetText {
    Zero,
    #[serde(with = "toward_lens")]
    TowardLens(Length),
    #[serde(with = "away_from_lens")]
    AwayFromLens(Length),
}

impl TryFrom<OffsetText> for Offset {
    type Error = Error;
    fn try_from(text: OffsetText) -> Result<Self, Error> {
        match text {
            OffsetText::Zero => Ok(Self::ZERO),
            OffsetText::TowardLens(distance) => Self::toward_lens(distance),
            OffsetText::AwayFromLens(distance) => Self::away_from_lens(distance),
        }
    }
}

impl From<Offset> for OffsetText {
    fn from(offset: Offset) -> Self {
        match offset.side() {
            Side::Neither => Self::Zero,
            Side::TowardLens => Self::TowardLens(offset.distance()),
            Side::AwayFromLens => Self::AwayFromLens(offset.distance()),
        }
    }
}

/// A divergence as it stands in a document: by the full or the half angle.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum DivergenceText {
    #[serde(with = "full_angle")]
    FullAngle(Angle),
    #[serde(with = "half_angle")]
    HalfAngle(Angle),
}

impl TryFrom<DivergenceText> for Divergence {
    type Error = Error;
    fn try_from(text: DivergenceText) -> Result<Self, Error> {
        match text {
            DivergenceText::FullAngle(angle) => Self::from_full_angle(angle),
            DivergenceText::HalfAngle(angle) => Self::from_half_angle(angle),
        }
    }
}

impl From<Divergence> for DivergenceText {
    fn from(divergence: Divergence) -> Self {
        Self::FullAngle(divergence.full_angle())
    }
}

/// The outcome by its name.
pub(super) fn outcome<S: Serializer>(outcome: &Outcome, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(outcome.name())
}

/// The reasons as a list of sentences.
pub(super) fn reasons<S: Serializer>(reasons: &Reasons, to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(reasons.texts())
}
