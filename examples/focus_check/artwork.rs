//! The drawing of a job file: a picture, how large it is, what its samples say, and where it lies on the part.

use crate::drawing_file::{self, Ink};
use crate::job_file::LengthField;
use crate::part::{Part, PlaceText};
use crate::report::mm;
use serde::Deserialize;
use spotwise::artwork::{Demand, DrawingUse, SampleKind};
use spotwise::uom::si::f64::Length;
use spotwise::uom::si::length::{inch, meter};
use spotwise::{Artwork, JobMarking, PixelPitch, TablePlace};

/// The drawing, as the file says it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArtworkText {
    /// The name of a PNG file, beside the job file.
    picture: String,
    size: SizeText,
    samples: SamplesText,
    ink: InkText,
    /// What the drawing is.
    is: UseText,
    /// Where its upper left corner lies on the part; y grows from row to row.
    corner: PlaceText,
    visible_depth: Option<LengthField>,
    melt_bridge: Option<LengthField>,
    #[serde(default)]
    demand: DemandText,
}

/// How large the drawing is; its pixels are square.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum SizeText {
    Pitch(LengthField),
    Width(LengthField),
    DotsPerInch(f64),
}

#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum SamplesText {
    Bilevel,
    Coverage,
}

#[derive(Deserialize)]
enum InkText {
    #[serde(rename = "dark")]
    Dark,
    #[serde(rename = "light")]
    Light,
}

#[derive(Deserialize)]
enum UseText {
    #[serde(rename = "shapes")]
    Shapes,
    #[serde(rename = "burnt raster")]
    BurntRaster,
}

#[derive(Deserialize, Default)]
enum DemandText {
    #[default]
    #[serde(rename = "legible")]
    Legible,
    #[serde(rename = "apart")]
    Apart,
}

/// The drawing, read.
pub struct Drawing {
    pub name: String,
    pub width: usize,
    pub height: usize,
    pub pitch: Length,
    pub marking: JobMarking,
    pub demand: Demand,
    samples: Vec<u8>,
    corner: TablePlace,
    kind: SampleKind,
    drawing_use: DrawingUse,
}

impl ArtworkText {
    /// Reads the picture by `read`, and sees that it lies on the part.
    pub fn load(
        self,
        part: Option<&Part>,
        read: impl Fn(&str) -> Result<Vec<u8>, String>,
    ) -> Result<Drawing, String> {
        let part = part.ok_or("a drawing needs a `part` on whose surface it lies")?;
        let kind = match self.samples {
            SamplesText::Bilevel => SampleKind::Bilevel,
            SamplesText::Coverage => SampleKind::Coverage,
        };
        let ink = match self.ink {
            InkText::Dark => Ink::Dark,
            InkText::Light => Ink::Light,
        };
        let file = read(&self.picture).map_err(|error| format!("picture: {error}"))?;
        let picture = drawing_file::read(&file, ink, kind)
            .map_err(|error| format!("picture: {}: {error}", self.picture))?;
        let drawing = Drawing {
            name: self.picture,
            width: picture.width,
            height: picture.height,
            pitch: self.size.pitch(picture.width)?,
            marking: JobMarking {
                visible_depth: self.visible_depth.map_or(Length::default(), |depth| depth.0),
                bridge: self.melt_bridge.map_or(Length::default(), |bridge| bridge.0),
            },
            demand: match self.demand {
                DemandText::Legible => Demand::Legible,
                DemandText::Apart => Demand::Apart,
            },
            samples: picture.samples,
            corner: self.corner.into(),
            kind,
            drawing_use: match self.is {
                UseText::Shapes => DrawingUse::Shapes,
                UseText::BurntRaster => DrawingUse::BurntRaster,
            },
        };
        drawing.on(part)
    }
}

impl SizeText {
    fn pitch(self, columns: usize) -> Result<Length, String> {
        let (name, pitch) = match self {
            Self::Pitch(pitch) => ("pitch", pitch.0),
            Self::Width(width) => ("width", width.0 / columns as f64),
            Self::DotsPerInch(dots) => ("dots_per_inch", Length::new::<inch>(1.0 / dots)),
        };
        // The range of a pitch in the library, told of the field that was given.
        if (1e-9..=1.0).contains(&pitch.value) {
            Ok(pitch)
        } else {
            Err(format!(
                "size.{name}: from pixel to pixel that is {} m (must be from 1e-9 to 1 m)",
                pitch.value
            ))
        }
    }
}

/// A drawing may stray so far beside the region, for the last digit of its size.
const ROUNDED: f64 = 1e-9;

impl Drawing {
    pub fn artwork(&self) -> Artwork<'_> {
        Artwork {
            samples: &self.samples,
            width: self.width,
            height: self.height,
            row_stride: self.width,
            pitch: PixelPitch { x: self.pitch, y: self.pitch },
            corner: self.corner,
            kind: self.kind,
            drawing_use: self.drawing_use,
        }
    }

    /// Its ends in x and in y, on the part.
    pub fn ends(&self) -> [(Length, Length); 2] {
        let end = |start: Length, pixels: usize| (start, start + self.pitch * pixels as f64);
        [end(self.corner.x, self.width), end(self.corner.y, self.height)]
    }

    fn on(self, part: &Part) -> Result<Self, String> {
        let region = part.region;
        let limits = [(region.x_least, region.x_greatest), (region.y_least, region.y_greatest)];
        for ((name, end), limit) in ["x", "y"].into_iter().zip(self.ends()).zip(limits) {
            let rounded = Length::new::<meter>(ROUNDED);
            if !(end.0 >= limit.0 - rounded && end.1 <= limit.1 + rounded) {
                return Err(format!(
                    "the drawing reaches from {name} = {} to {}, beside part.region.{name} from {} to {}",
                    mm(end.0, 3),
                    mm(end.1, 3),
                    mm(limit.0, 3),
                    mm(limit.1, 3)
                ));
            }
        }
        Ok(self)
    }
}
