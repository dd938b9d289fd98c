//! A job file: a job, and beside its fields what the library's job does not hold.

use crate::artwork::ArtworkText;
use crate::lens_choice::ChoiceText;
use crate::part::PartText;
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{DeserializeSeed, Deserializer, Error as _, IntoDeserializer, MapAccess, Visitor};
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

impl<'de> Deserialize<'de> for JobFile {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(JobFileVisitor)
    }
}

struct JobFileVisitor;

impl<'de> Visitor<'de> for JobFileVisitor {
    type Value = JobFile;

    fn expecting(&self, to: &mut fmt::Formatter) -> fmt::Result {
        to.write_str("a job")
    }

    fn visit_map<A: MapAccess<'de>>(self, fields: A) -> Result<JobFile, A::Error> {
        let (mut part, mut artwork, mut lens_choice) = (None, None, None);
        let fields =
            JobFields { fields, part: &mut part, artwork: &mut artwork, lens_choice: &mut lens_choice };
        let job = Job::deserialize(MapAccessDeserializer::new(fields))?;
        Ok(JobFile { job, part, artwork, lens_choice })
    }
}

/// The fields of a job, from which the others are taken out on the way.
struct JobFields<'a, A> {
    fields: A,
    part: &'a mut Option<PartText>,
    artwork: &'a mut Option<ArtworkText>,
    lens_choice: &'a mut Option<ChoiceText>,
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for JobFields<'_, A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, A::Error> {
        while let Some(name) = self.fields.next_key::<String>()? {
            let twice = match name.as_str() {
                "part" => self.part.replace(self.fields.next_value()?).is_some().then_some("part"),
                "artwork" => self.artwork.replace(self.fields.next_value()?).is_some().then_some("artwork"),
                "lens_choice" => {
                    self.lens_choice.replace(self.fields.next_value()?).is_some().then_some("lens_choice")
                }
                _ => return seed.deserialize(name.into_deserializer()).map(Some),
            };
            if let Some(name) = twice {
                return Err(A::Error::duplicate_field(name));
            }
        }
        Ok(None)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, A::Error> {
        self.fields.next_value_seed(seed)
    }
}
