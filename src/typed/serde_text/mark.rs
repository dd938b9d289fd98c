//! Doses and text in documents.

use super::*;
use crate::model::mark::{TextGrade, TextGrades, Typeface};
use crate::text::{
    DiffusivityText, DoseText, PowerText, RemovalEnergyText, SpeedText, TypeSizeText, parse_diffusivity,
    parse_dose, parse_power, parse_removal_energy, parse_speed,
};
use crate::typed::dose::LineInterval;
use crate::typed::job::{JobDose, JobScan, JobText};
use crate::typed::lettering::TypeSize;
use crate::typed::material::{RemovalEnergy, Response};
use crate::typed::units;
use uom::si::f64::{DiffusionCoefficient, HeatFluxDensity, Power, RadiantExposure, Time, Velocity};

fields! { Power, PowerField, |value, to| to.collect_str(&PowerText(value.value));
    power: range!(Power);
}
fields! { Velocity, SpeedField, |value, to| to.collect_str(&SpeedText(value.value));
    speed: range!(Speed);
}
fields! { RadiantExposure, DoseField, |value, to| to.collect_str(&DoseText(value.value));
    dose: Ok;
    threshold: range!(Threshold);
}
fields! { DiffusionCoefficient, DiffusivityField, |value, to| to.collect_str(&DiffusivityText(value.value));
    diffusivity: range!(Diffusivity);
}
fields! { RemovalEnergy, RemovalEnergyField, |value, to| to.collect_str(&RemovalEnergyText(value.in_j_per_m3()));
    removal_energy: range!(RemovalEnergy);
}
fields! { Length, LengthField, |value, to| to.collect_str(&LengthText(value.value));
    penetration_depth: range!(PenetrationDepth);
    line_interval: range!(LineInterval);
    size: range!(Em);
}
fields! { f64, NumberField, |value, to| to.serialize_f64(*value);
    dots_per_inch: range!(DotsPerInch);
    stem: range!(StemShare);
    effective_stroke: range!(StrokeShare);
    effective_counter: range!(CounterShare);
    effective_gap: range!(GapShare);
    crisp_exposure: range!(CrispExposure);
    good_window: range!(DoseWindow);
    readable_window: range!(DoseWindow);
}

/// Fields that hold a quantity of one kind, read by its parser.
macro_rules! quantities {
    ($($field:ident: $type:ty, $kind:ident, $parse:ident, $of:path;)+) => { $(
        struct $field {
            name: &'static str,
            check: fn(f64) -> Result<f64, Error>,
        }

        impl Visitor<'_> for $field {
            type Value = $type;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "`{}` to be {}", self.name, Kind::$kind.advice())
            }

            fn visit_str<E: de::Error>(self, text: &str) -> Result<$type, E> {
                let read = $parse(text).and_then(self.check);
                read.map($of).map_err(|error| fault(self.name, &Quoted(text), &error))
            }
        }
    )+ };
}

quantities! {
    PowerField: Power, Power, parse_power, units::w;
    SpeedField: Velocity, Speed, parse_speed, units::m_per_s;
    DoseField: RadiantExposure, Dose, parse_dose, units::j_per_m2;
    DiffusivityField: DiffusionCoefficient, Diffusivity, parse_diffusivity, units::m2_per_s;
    RemovalEnergyField: RemovalEnergy, RemovalEnergy, parse_removal_energy, RemovalEnergy::from_j_per_m3;
}

choices! {
    job_dose: JobDose, "a dose: {\"ratio\": 2.7} or {\"scan\": {\"power\": \"20 W\", \"speed\": \"500 mm/s\", \"line_interval\": \"50 um\", \"threshold\": \"0.3 J/mm2\"}}";
    response: Response, "how the material answers: \"coating\", {\"logarithmic_ablation\": {\"penetration_depth\": \"2 um\"}}, {\"linear_ablation\": {\"removal_energy\": \"3 J/mm3\"}} or {\"melt\": {\"diffusivity\": \"0.1 mm2/s\"}}";
    typeface: TypefaceText, "a typeface: \"sans\", \"bold sans\", \"light sans\", \"serif\", \"monospaced\" or {\"measured\": ...} with stem, effective_stroke, effective_counter and effective_gap in ems";
}

by_field_name! {
    JobScan, "a scan by its fields: power, speed, line_interval, threshold, and response if the material is no coating";
    JobText, "a text by its fields: typeface, size, least_grade, and grades if they are moved";
}

/// A line interval as it stands in a document: a length, or lines to the inch by name.
struct LineIntervalField;

/// The other way to write a line interval.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ByDotsPerInch {
    #[serde(deserialize_with = "dots_per_inch::deserialize")]
    dots_per_inch: f64,
}

impl<'de> Visitor<'de> for LineIntervalField {
    type Value = LineInterval;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            "`line_interval` to be a length with its unit, such as \"50 um\", or {\"dots_per_inch\": 500}",
        )
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<LineInterval, E> {
        let field = LengthField { name: "line_interval", check: range!(LineInterval) };
        field.visit_str(text).map(|length| LineInterval::computed(length.value))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<LineInterval, A::Error> {
        let ByDotsPerInch { dots_per_inch } = Deserialize::deserialize(MapAccessDeserializer::new(map))?;
        LineInterval::from_dots_per_inch(dots_per_inch).map_err(de::Error::custom)
    }
}

impl<'de> Deserialize<'de> for LineInterval {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(LineIntervalField)
    }
}

impl Serialize for LineInterval {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        line_interval::serialize(&self.length(), to)
    }
}

impl<'de> Deserialize<'de> for TypeSize {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        size::deserialize(from).map(|em| Self::computed(em.value))
    }
}

impl Serialize for TypeSize {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&TypeSizeText(self.metres()))
    }
}

/// A typeface as it stands in a document: by its name, or by its measured shares.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(in crate::typed) enum TypefaceText {
    Sans,
    #[serde(rename = "bold sans")]
    BoldSans,
    #[serde(rename = "light sans")]
    LightSans,
    Serif,
    Monospaced,
    Measured(MeasuredText),
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::typed) struct MeasuredText {
    #[serde(with = "stem")]
    stem: f64,
    #[serde(with = "effective_stroke")]
    effective_stroke: f64,
    #[serde(with = "effective_counter")]
    effective_counter: f64,
    #[serde(with = "effective_gap")]
    effective_gap: f64,
}

impl<'de> Deserialize<'de> for Typeface {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Ok(match typeface(from)? {
            TypefaceText::Sans => Self::Sans,
            TypefaceText::BoldSans => Self::BoldSans,
            TypefaceText::LightSans => Self::LightSans,
            TypefaceText::Serif => Self::Serif,
            TypefaceText::Monospaced => Self::Monospaced,
            TypefaceText::Measured(shares) => {
                let MeasuredText { stem, effective_stroke, effective_counter, effective_gap } = shares;
                Self::Measured { stem, effective_stroke, effective_counter, effective_gap }
            }
        })
    }
}

impl Serialize for Typeface {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let text = match *self {
            Self::Sans => TypefaceText::Sans,
            Self::BoldSans => TypefaceText::BoldSans,
            Self::LightSans => TypefaceText::LightSans,
            Self::Serif => TypefaceText::Serif,
            Self::Monospaced => TypefaceText::Monospaced,
            Self::Measured { stem, effective_stroke, effective_counter, effective_gap } => {
                TypefaceText::Measured(MeasuredText {
                    stem,
                    effective_stroke,
                    effective_counter,
                    effective_gap,
                })
            }
        };
        text.serialize(to)
    }
}

/// A grade of text as it stands in a document: by its name.
struct GradeName;

impl Visitor<'_> for GradeName {
    type Value = TextGrade;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a grade of text: \"crisp\", \"good\", \"readable\", or \"lost\" to ask for nothing")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<TextGrade, E> {
        let named = TextGrade::ALL.into_iter().find(|grade| grade.name() == text);
        named.ok_or_else(|| E::invalid_value(Unexpected::Str(text), &self))
    }
}

impl<'de> Deserialize<'de> for TextGrade {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(GradeName)
    }
}

impl Serialize for TextGrade {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.name())
    }
}

/// The cut-offs of the grades as they stand in a document: those that are left out keep their defaults.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct GradesText {
    #[serde(with = "crisp_exposure", default = "default_crisp_exposure")]
    crisp_exposure: f64,
    #[serde(with = "good_window", default = "default_good_window")]
    good_window: f64,
    #[serde(with = "readable_window", default = "default_readable_window")]
    readable_window: f64,
}

fn default_crisp_exposure() -> f64 {
    TextGrades::default().crisp_exposure
}

fn default_good_window() -> f64 {
    TextGrades::default().good_window
}

fn default_readable_window() -> f64 {
    TextGrades::default().readable_window
}

/// The cut-offs by name; serde's own form would also take a list.
struct GradesFields;

impl<'de> Visitor<'de> for GradesFields {
    type Value = TextGrades;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("cut-offs by their fields: crisp_exposure, good_window, readable_window")
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<TextGrades, A::Error> {
        let text = GradesText::deserialize(MapAccessDeserializer::new(map))?;
        let GradesText { crisp_exposure, good_window, readable_window } = text;
        Ok(TextGrades { crisp_exposure, good_window, readable_window })
    }
}

impl<'de> Deserialize<'de> for TextGrades {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(GradesFields)
    }
}

impl Serialize for TextGrades {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let Self { crisp_exposure, good_window, readable_window } = *self;
        GradesText { crisp_exposure, good_window, readable_window }.serialize(to)
    }
}

/// An irradiance in W/m2; a result is only written.
pub(in crate::typed) fn irradiance<S: Serializer>(value: &HeatFluxDensity, to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(&format_args!("{} W/m2", value.value))
}

/// A time in seconds; a result is only written.
pub(in crate::typed) fn time<S: Serializer>(value: &Time, to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(&format_args!("{} s", value.value))
}
