//! The drawing of a job file: a picture, how large it is, what its samples say, and where it lies on the part.

use crate::drawing_file::{self, Ink};
use crate::job_file::LengthField;
use crate::part::{Part, PlaceText};
use crate::report::mm;
use serde::Deserialize;
use spotwise::artwork::{Demand, DrawingUse, PixelBox, SampleKind};
use spotwise::uom::si::f64::{Area, Length};
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
    /// What is too small to count.
    specks_below: Option<SpeckText>,
    #[serde(default)]
    demand: DemandText,
    /// Parts of the drawing that get a verdict of their own.
    #[serde(default)]
    details: Vec<DetailText>,
}

/// A rectangle of the drawing by its ends on the part, say a serial number.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DetailText {
    name: String,
    x: [LengthField; 2],
    y: [LengthField; 2],
}

/// How large the drawing is; its pixels are square.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum SizeText {
    Pitch(LengthField),
    Width(LengthField),
    DotsPerInch(f64),
}

/// From which size on a piece or a hole counts.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum SpeckText {
    /// The area of so many pixels.
    Pixels(f64),
    /// That of a square with this side.
    Square(LengthField),
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
    pub details: Vec<Detail>,
    samples: Vec<u8>,
    corner: TablePlace,
    kind: SampleKind,
    drawing_use: DrawingUse,
}

/// A part of the drawing, in pixels.
pub struct Detail {
    pub name: String,
    pub extent: PixelBox,
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
        let pitch = self.size.pitch(picture.width)?;
        let mut drawing = Drawing {
            name: self.picture,
            width: picture.width,
            height: picture.height,
            pitch,
            marking: JobMarking {
                visible_depth: self.visible_depth.map_or(Length::default(), |depth| depth.0),
                bridge: self.melt_bridge.map_or(Length::default(), |bridge| bridge.0),
                speck_area: self.specks_below.map_or(Area::default(), |specks| specks.area(pitch)),
            },
            demand: match self.demand {
                DemandText::Legible => Demand::Legible,
                DemandText::Apart => Demand::Apart,
            },
            details: Vec::new(),
            samples: picture.samples,
            corner: self.corner.into(),
            kind,
            drawing_use: match self.is {
                UseText::Shapes => DrawingUse::Shapes,
                UseText::BurntRaster => DrawingUse::BurntRaster,
            },
        };
        drawing.check_on(part)?;
        for (number, detail) in self.details.into_iter().enumerate() {
            let detail = drawing.detail(detail).map_err(|error| format!("details[{number}].{error}"))?;
            drawing.details.push(detail);
        }
        Ok(drawing)
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

impl SpeckText {
    fn area(self, pitch: Length) -> Area {
        match self {
            Self::Pixels(pixels) => pixels * pitch * pitch,
            Self::Square(side) => side.0 * side.0,
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

    fn check_on(&self, part: &Part) -> Result<(), String> {
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
        Ok(())
    }

    /// The pixels that a detail touches.
    fn detail(&self, text: DetailText) -> Result<Detail, String> {
        let pixels = |name: &str, asked: &[LengthField; 2], start: Length, all: usize| {
            let place = |at: &LengthField| ((at.0 - start) / self.pitch).value;
            let [first, end] = [place(&asked[0]), place(&asked[1])];
            // Within a thousandth of a pixel, for the last digit.
            let (first, end) = ((first + 1e-3).floor(), (end - 1e-3).ceil());
            if 0.0 <= first && first < end && end <= all as f64 {
                Ok((first as u32, end as u32 - 1))
            } else {
                Err(format!(
                    "{name}: from {} to {} is no part of the drawing, which reaches from {} to {}",
                    mm(asked[0].0, 3),
                    mm(asked[1].0, 3),
                    mm(start, 3),
                    mm(start + self.pitch * all as f64, 3)
                ))
            }
        };
        let (left, right) = pixels("x", &text.x, self.corner.x, self.width)?;
        let (top, bottom) = pixels("y", &text.y, self.corner.y, self.height)?;
        Ok(Detail { name: text.name, extent: PixelBox { left, top, right, bottom } })
    }

    /// The drawing of a detail alone.
    pub fn artwork_of(&self, detail: &Detail) -> Artwork<'_> {
        let PixelBox { left, top, right, bottom } = detail.extent;
        let first = top as usize * self.width + left as usize;
        Artwork {
            samples: self.samples.get(first..).unwrap_or(&[]),
            width: (right - left + 1) as usize,
            height: (bottom - top + 1) as usize,
            corner: TablePlace {
                x: self.corner.x + self.pitch * f64::from(left),
                y: self.corner.y + self.pitch * f64::from(top),
            },
            ..self.artwork()
        }
    }
}
