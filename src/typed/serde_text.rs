//! Quantities in documents: text with a unit in, text with a unit out.
//!
//! A field that holds a quantity names its module here with `#[serde(with = …)]`, so that a fault
//! is reported with the field's name, what was given, and what is allowed. `uom`'s own serde form
//! is a bare number in SI, the very mistake these documents must stop, and is not used.

use super::depth::Criterion;
use super::divergence::Divergence;
use super::job::{Drawing, FocusSetting, Job, JobLens, JobSinglet, Laser, RawBeam, SurfaceExtent};
use super::lens::{Lens, WaistPosition};
use super::offset::{Offset, Side};
use super::path::ExpanderWaist;
use super::width::{Aperture, BeamWidth};
use crate::error::{Error, Kind, Param, check, check_distance};
use crate::model::check::{Outcome, Reasons};
use crate::model::optics::{Glass, LensShape};
use crate::text::{
    AngleText, LengthText, ReciprocalLengthText, parse_angle, parse_length, parse_number,
    parse_reciprocal_length,
};
use crate::validity::{Level, Validity};
use core::fmt;
use core::marker::PhantomData;
use serde::de::value::MapAccessDeserializer;
use serde::de::{self, IgnoredAny, IntoDeserializer, MapAccess, Unexpected, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uom::si::f64::{Angle, Length, ReciprocalLength};

/// Fields that hold a quantity of one kind: how it is read and written, and for each field the check
/// of its value. What depends on other fields is checked with the job.
macro_rules! fields {
    ($type:ty, $read:ident, $write:expr; $($field:ident: $check:expr;)+) => { $(
        pub(in crate::typed) mod $field {
            #[allow(unused_imports)]
            use super::*;

            #[allow(dead_code)] // a result is only written
            pub(crate) fn serialize<S: Serializer>(value: &$type, to: S) -> Result<S::Ok, S::Error> {
                let write: fn(&$type, S) -> Result<S::Ok, S::Error> = $write;
                write(value, to)
            }

            #[allow(dead_code)]
            pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<$type, D::Error> {
                from.deserialize_any($read { name: stringify!($field), check: $check })
            }
        }
    )+ };
}

/// The check of a value that has one range of its own.
macro_rules! range {
    ($param:ident) => {
        |value| check(Param::$param, value)
    };
}

fields! { Length, LengthField, |value, to| to.collect_str(&LengthText(value.value));
    length: Ok;
    wavelength: range!(Wavelength);
    focal_length: Ok;
    lens_to_surface: range!(LensToSurface);
    rise: range!(SurfaceRise);
    fall: range!(SurfaceFall);
    finest_stroke: range!(FinestStroke);
    finest_gap: range!(FinestGap);
    before_lens: |value| check_distance(Param::WaistToLens, value);
    behind_lens: |value| check_distance(Param::WaistToLens, value);
    before_expander: |value| check_distance(Param::WaistToExpander, value);
    behind_expander: |value| check_distance(Param::WaistToExpander, value);
    expander_to_lens: range!(ExpanderToLens);
    toward_lens: Ok;
    away_from_lens: Ok;
    diameter_1e2: Ok;
    radius_1e2: Ok;
    d4sigma: Ok;
    fwhm: Ok;
    power_86: Ok;
}
fields! { Angle, AngleField, |value, to| to.collect_str(&AngleText(value.value));
    angle: Ok;
    full_angle: Ok;
    half_angle: Ok;
}
fields! { ReciprocalLength, ReciprocalLengthField, |value, to| to.collect_str(&ReciprocalLengthText(value.value));
    exit_power: range!(ExitPower);
}
fields! { f64, NumberField, |value, to| to.serialize_f64(*value);
    m_squared: range!(M2);
    dose_ratio: range!(AnyDoseRatio);
    magnification: range!(Magnification);
    shape_factor: range!(ShapeFactor);
    growth_ratio: range!(GrowthRatio);
    irradiance_drop: range!(IrradianceDrop);
    line_dose_drop: range!(LineDoseDrop);
}

/// A length of this field's name.
struct LengthField {
    name: &'static str,
    check: fn(f64) -> Result<f64, Error>,
}

impl Visitor<'_> for LengthField {
    type Value = Length;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.name, Kind::Length.advice())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Length, E> {
        let read = parse_length(text).and_then(self.check);
        read.map(super::length).map_err(|error| fault(self.name, &Quoted(text), &error))
    }
}

/// An angle of this field's name.
struct AngleField {
    name: &'static str,
    check: fn(f64) -> Result<f64, Error>,
}

impl Visitor<'_> for AngleField {
    type Value = Angle;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.name, Kind::Angle.advice())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Angle, E> {
        let read = parse_angle(text).and_then(self.check);
        read.map(super::angle).map_err(|error| fault(self.name, &Quoted(text), &error))
    }
}

/// A reciprocal length of this field's name.
struct ReciprocalLengthField {
    name: &'static str,
    check: fn(f64) -> Result<f64, Error>,
}

impl Visitor<'_> for ReciprocalLengthField {
    type Value = ReciprocalLength;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.name, Kind::ReciprocalLength.advice())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<ReciprocalLength, E> {
        let read = parse_reciprocal_length(text).and_then(self.check);
        read.map(super::units::per_m).map_err(|error| fault(self.name, &Quoted(text), &error))
    }
}

/// A pure number of this field's name.
struct NumberField {
    name: &'static str,
    check: fn(f64) -> Result<f64, Error>,
}

impl Visitor<'_> for NumberField {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` to be {}", self.name, Kind::Number.advice())
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<f64, E> {
        (self.check)(value).map_err(|error| fault(self.name, &value, &error))
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<f64, E> {
        self.visit_f64(value as f64)
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<f64, E> {
        self.visit_f64(value as f64)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<f64, E> {
        let read = parse_number(text).and_then(self.check);
        read.map_err(|error| fault(self.name, &Quoted(text), &error))
    }
}

/// A text as it stands in a document.
struct Quoted<'a>(&'a str);

impl fmt::Display for Quoted<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\"", self.0)
    }
}

/// One line that names the field, what was given and what is allowed.
fn fault<E: de::Error>(field: &str, given: &dyn fmt::Display, error: &Error) -> E {
    E::custom(format_args!("`{field}` = {given}: {error}"))
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

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<T, A::Error> {
        let value = T::deserialize(MapAccessDeserializer::new(&mut map))?;
        // A second name would contradict the first, and must not be passed over.
        match map.next_key::<IgnoredAny>()? {
            None => Ok(value),
            Some(_) => {
                Err(de::Error::custom(format_args!("more than one name given; give {}", self.expected)))
            }
        }
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        let by_name: Result<T, E> = T::deserialize(text.into_deserializer());
        by_name.map_err(|_| E::invalid_value(Unexpected::Str(text), &self))
    }
}

/// How each choice in a job is read, with an example of it.
macro_rules! choices {
    ($($field:ident: $type:ty, $expected:literal;)+) => { $(
        pub(in crate::typed) fn $field<'de, D: Deserializer<'de>>(from: D) -> Result<$type, D::Error> {
            from.deserialize_any(ByName::expecting($expected))
        }
    )+ };
}

choices! {
    raw_beam: RawBeam, "a raw beam, such as {\"width_at_lens\": {\"diameter_1e2\": \"7 mm\"}} or {\"waist\": {\"width\": {\"d4sigma\": \"7 mm\"}, \"position\": {\"before_lens\": \"0.8 m\"}}}, or {\"expanded\": ...} with a beam expander";
    focus: FocusSetting, "a focus setting, such as {\"from_datum\": {\"toward_lens\": \"0.2 mm\"}}, {\"from_datum\": \"zero\"} or {\"lens_to_surface\": \"38.2 mm\"}";
    criterion: Criterion, "a depth criterion: \"rayleigh\", {\"growth_ratio\": 1.05}, {\"irradiance_drop\": \"20 %\"}, {\"largest_spot\": {\"diameter_1e2\": \"0.12 mm\"}} or {\"line_dose_drop\": \"10 %\"}";
    waist_to_expander: ExpanderWaist, "a waist position: {\"before_expander\": \"0.3 m\"}, {\"behind_expander\": \"2 m\"} or \"at_expander\"";
    shape_text: ShapeText, "a shape: \"best form\", \"curved side first\", \"flat side first\" or {\"shape_factor\": 1.5}";
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

/// A shape of a lens as it stands in a document: by its name, or by its shape factor.
#[derive(Clone, Copy, Serialize, Deserialize)]
pub(super) enum ShapeText {
    #[serde(rename = "best form")]
    BestForm,
    #[serde(rename = "curved side first")]
    CurvedSideFirst,
    #[serde(rename = "flat side first")]
    FlatSideFirst,
    #[serde(rename = "shape_factor", with = "shape_factor")]
    ShapeFactor(f64),
}

impl<'de> Deserialize<'de> for LensShape {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Ok(match shape_text(from)? {
            ShapeText::BestForm => Self::BestForm,
            ShapeText::CurvedSideFirst => Self::CurvedSideFirst,
            ShapeText::FlatSideFirst => Self::FlatSideFirst,
            ShapeText::ShapeFactor(factor) => Self::ShapeFactor { factor },
        })
    }
}

impl Serialize for LensShape {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let text = match *self {
            Self::BestForm => ShapeText::BestForm,
            Self::CurvedSideFirst => ShapeText::CurvedSideFirst,
            Self::FlatSideFirst => ShapeText::FlatSideFirst,
            Self::ShapeFactor { factor } => ShapeText::ShapeFactor(factor),
        };
        text.serialize(to)
    }
}

/// A glass as it stands in a document: by its name.
struct GlassName;

impl Visitor<'_> for GlassName {
    type Value = Glass;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a glass by its name: ")?;
        for (at, glass) in Glass::ALL.into_iter().enumerate() {
            write!(f, "{}\"{}\"", if at == 0 { "" } else { ", " }, glass.name())?;
        }
        Ok(())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Glass, E> {
        let named = Glass::ALL.into_iter().find(|glass| glass.name() == text);
        named.ok_or_else(|| E::invalid_value(Unexpected::Str(text), &self))
    }
}

impl<'de> Deserialize<'de> for Glass {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(GlassName)
    }
}

impl Serialize for Glass {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.name())
    }
}

/// A clear aperture that may be left out, by its diameter.
pub(super) mod clear_aperture {
    use super::*;

    pub(crate) fn serialize<S: Serializer>(aperture: &Option<Aperture>, to: S) -> Result<S::Ok, S::Error> {
        length_or_none(&aperture.map(Aperture::diameter), to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Aperture>, D::Error> {
        let field = LengthField { name: "clear_aperture", check: range!(ClearAperture) };
        from.deserialize_any(field).map(|diameter| Some(Aperture::from_diameter(diameter)))
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

/// Documents whose fields are named. Left to itself serde would also take a list in the order of the
/// fields, where two lengths change places unseen.
macro_rules! by_field_name {
    ($($type:ty, $expected:literal;)+) => { $(
        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                struct Fields;

                impl<'de> Visitor<'de> for Fields {
                    type Value = $type;

                    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                        f.write_str($expected)
                    }

                    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<$type, A::Error> {
                        // The function that serde derives beside this implementation.
                        <$type>::deserialize(MapAccessDeserializer::new(map))
                    }
                }

                from.deserialize_map(Fields)
            }
        }

        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                <$type>::serialize(self, to)
            }
        }
    )+ };
}

pub(in crate::typed) mod calibration;
mod mark;
pub(in crate::typed) use mark::*;

by_field_name! {
    JobLens, "a lens by its fields: focal_length, and singlet for a real one";
    JobSinglet, "a single-piece lens by its fields: glass, shape, and clear_aperture if it is known";
    Job, "a job by its fields: laser, raw_beam, lens, focus, surface, depth_criterion, drawing, dose, and text if there is any";
    Laser, "a laser by its fields: wavelength, m_squared";
    Lens, "a lens by its field: focal_length";
    SurfaceExtent, "a surface by its fields: rise, fall";
    Drawing, "a drawing by its fields: finest_stroke, finest_gap";
}

/// A length that there may be none of; a result is only written.
pub(super) fn length_or_none<S: Serializer>(value: &Option<Length>, to: S) -> Result<S::Ok, S::Error> {
    match value {
        Some(value) => length::serialize(value, to),
        None => to.serialize_none(),
    }
}

/// The cautions as a list of sentences.
pub(super) fn cautions<S: Serializer>(validity: &Validity, to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(validity.texts())
}

/// The outcome by its name.
pub(super) fn outcome<S: Serializer>(outcome: &Outcome, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(outcome.name())
}

/// The level by its name.
pub(super) fn level<S: Serializer>(level: &Level, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(match level {
        Level::Fine => "fine",
        Level::Caution => "caution",
        Level::OutOfDomain => "out of domain",
    })
}

/// The reasons as a list of sentences.
pub(super) fn reasons<S: Serializer>(reasons: &Reasons, to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(reasons.texts())
}
