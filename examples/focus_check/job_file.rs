//! A job file: a job, and beside its fields what the library's job does not hold.

use crate::artwork::ArtworkText;
use crate::lens_choice::ChoiceText;
use crate::machine::Machine;
use crate::part::PartText;
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, Error as _, IgnoredAny, IntoDeserializer, MapAccess, Visitor,
};
use serde_json::Value;
use spotwise::Job;
use spotwise::text::{parse_angle, parse_length};
use spotwise::units::rad;
use spotwise::uom::si::f64::{Angle, Length};
use spotwise::uom::si::length::meter;
use std::fmt;

/// A [`Job`], with or without a part, a drawing and a choice of lenses.
pub struct JobFile {
    pub job: Job,
    pub part: Option<PartText>,
    pub artwork: Option<ArtworkText>,
    pub lens_choice: Option<ChoiceText>,
}

/// A length with its unit.
#[derive(Deserialize)]
#[serde(try_from = "String")]
pub struct LengthField(pub Length);

impl TryFrom<String> for LengthField {
    type Error = spotwise::Error;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        parse_length(&text).map(|metres| Self(Length::new::<meter>(metres)))
    }
}

/// An angle with its unit.
#[derive(Deserialize)]
#[serde(try_from = "String")]
pub struct AngleField(pub Angle);

impl TryFrom<String> for AngleField {
    type Error = spotwise::Error;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        parse_angle(&text).map(|angle| Self(rad(angle)))
    }
}

/// Reads a job file, of which a machine may tell some fields.
pub struct OnMachine<'a>(pub Option<&'a Machine>);

impl<'de> DeserializeSeed<'de> for OnMachine<'_> {
    type Value = JobFile;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<JobFile, D::Error> {
        from.deserialize_map(self)
    }
}

impl<'de> Visitor<'de> for OnMachine<'_> {
    type Value = JobFile;

    fn expecting(&self, to: &mut fmt::Formatter) -> fmt::Result {
        to.write_str("a job")
    }

    fn visit_map<A: MapAccess<'de>>(self, fields: A) -> Result<JobFile, A::Error> {
        let (mut part, mut artwork, mut lens_choice) = (None, None, None);
        let fields = JobFields {
            fields,
            part: &mut part,
            artwork: &mut artwork,
            lens_choice: &mut lens_choice,
            machine: self.0,
            calibration: None,
            told: self.0.map_or(Vec::new(), Machine::fields),
            held: None,
        };
        let job = Job::deserialize(MapAccessDeserializer::new(fields))?;
        Ok(JobFile { job, part, artwork, lens_choice })
    }
}

/// The fields of a job, from which the others are taken out on the way, and to which those are added that its machine
/// tells.
struct JobFields<'a, A> {
    fields: A,
    part: &'a mut Option<PartText>,
    artwork: &'a mut Option<ArtworkText>,
    lens_choice: &'a mut Option<ChoiceText>,
    machine: Option<&'a Machine>,
    /// Read before, for the machine.
    calibration: Option<IgnoredAny>,
    /// What the machine tells, and is not added yet.
    told: Vec<(&'static str, Value)>,
    /// The value of the last key, if it does not come from the file as it is.
    held: Option<Value>,
}

impl<'de, A: MapAccess<'de>> JobFields<'_, A> {
    /// The dose of the file with the threshold of the machine.
    fn dose(&mut self, machine: &Machine) -> Result<Value, A::Error> {
        let mut dose: Value = self.fields.next_value()?;
        if let Some(scan) = machine.scan_without_threshold(&mut dose) {
            let threshold = machine.threshold().unwrap_or_default();
            if scan.insert("threshold".to_owned(), threshold).is_some() {
                return Err(told_twice("threshold"));
            }
        }
        Ok(dose)
    }
}

/// A field that the file has beside the calibration that tells it.
fn told_twice<E: serde::de::Error>(name: &str) -> E {
    E::custom(format_args!("`{name}` is what the calibration tells: leave it out"))
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for JobFields<'_, A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, A::Error> {
        while let Some(name) = self.fields.next_key::<String>()? {
            if self.told.iter().any(|(told, _)| *told == name) {
                return Err(told_twice(&name));
            }
            let twice = match (name.as_str(), self.machine) {
                ("part", _) => self.part.replace(self.fields.next_value()?).is_some().then_some("part"),
                ("artwork", _) => {
                    self.artwork.replace(self.fields.next_value()?).is_some().then_some("artwork")
                }
                ("lens_choice", _) => {
                    self.lens_choice.replace(self.fields.next_value()?).is_some().then_some("lens_choice")
                }
                ("calibration", Some(_)) => {
                    self.calibration.replace(self.fields.next_value()?).is_some().then_some("calibration")
                }
                ("dose", Some(machine)) => {
                    self.held = Some(self.dose(machine)?);
                    return seed.deserialize(name.into_deserializer()).map(Some);
                }
                _ => return seed.deserialize(name.into_deserializer()).map(Some),
            };
            if let Some(name) = twice {
                return Err(A::Error::duplicate_field(name));
            }
        }
        // Behind the last of the file's own.
        let Some((name, value)) = self.told.pop() else { return Ok(None) };
        self.held = Some(value);
        seed.deserialize(name.into_deserializer()).map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, A::Error> {
        match self.held.take() {
            Some(value) => seed.deserialize(value).map_err(A::Error::custom),
            None => self.fields.next_value_seed(seed),
        }
    }
}
