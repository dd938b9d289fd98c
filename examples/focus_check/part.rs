//! The part of a job file: the shape of the surface and the region of it that is marked.
//!
//! Rise and fall of the job are no part of the shape: they are the tolerance of the set-up, and are added at both ends
//! of it.

use crate::job_file::{AngleField, LengthField};
use crate::probes::{self, Probes};
use serde::Deserialize;
use spotwise::uom::si::f64::Length;
use spotwise::{Bulge, ProbedGrid, Region, RoundShape, RoundSize, Steps, Surface, SurfaceSlope, TablePlace};

/// What is marked, as the file says it. Slopes and heights count from the datum of the job.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PartText {
    region: RegionText,
    shape: ShapeText,
}

/// The marked rectangle: its ends in x and in y.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RegionText {
    x: [LengthField; 2],
    y: [LengthField; 2],
}

#[derive(Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum ShapeText {
    Plane(SlopeText),
    Cylinder(RoundText),
    Sphere(RoundText),
    Steps {
        edges: Vec<LengthField>,
        heights_toward_lens: Vec<LengthField>,
    },
    /// The name of a file of probes, beside the job file.
    Probes(String),
}

/// A cylinder or a sphere; a sphere has no axis.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RoundText {
    radius: Option<LengthField>,
    diameter: Option<LengthField>,
    bulge: BulgeText,
    crown: PlaceText,
    axis_angle: Option<AngleField>,
    #[serde(default)]
    lean: SlopeText,
}

#[derive(Deserialize)]
enum BulgeText {
    #[serde(rename = "toward lens")]
    TowardLens,
    #[serde(rename = "away from lens")]
    AwayFromLens,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceText {
    x: LengthField,
    y: LengthField,
}

/// How far the surface drops away from the lens on each length.
#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
struct SlopeText {
    away_from_lens_along_x: f64,
    away_from_lens_along_y: f64,
}

/// What is marked, ready to be checked.
pub struct Part {
    pub region: Region,
    shape: Shape,
}

enum Shape {
    Whole(Surface<'static>),
    Steps { edges: Vec<f64>, heights: Vec<f64> },
    Probed { name: String, probes: Probes },
}

impl Part {
    /// Reads the file of probes, if the part names one, by `read`.
    pub fn of(text: PartText, read: impl Fn(&str) -> Result<Vec<u8>, String>) -> Result<Self, String> {
        let RegionText { x: [x_least, x_greatest], y: [y_least, y_greatest] } = text.region;
        let region = Region {
            x_least: x_least.0,
            x_greatest: x_greatest.0,
            y_least: y_least.0,
            y_greatest: y_greatest.0,
        };
        let shape = match text.shape {
            ShapeText::Plane(slope) => Shape::Whole(Surface::Plane(slope.into())),
            ShapeText::Cylinder(round) => {
                let axis_angle = round.axis_angle.as_ref().map(|angle| angle.0);
                let axis_angle = axis_angle.ok_or("part.shape.cylinder: missing field `axis_angle`")?;
                Shape::Whole(Surface::Cylinder { part: round.part("cylinder")?, axis_angle })
            }
            ShapeText::Sphere(round) => {
                if round.axis_angle.is_some() {
                    return Err("part.shape.sphere: a sphere has no `axis_angle`".to_owned());
                }
                Shape::Whole(Surface::Sphere(round.part("sphere")?))
            }
            ShapeText::Steps { edges, heights_toward_lens } => Shape::Steps {
                edges: edges.iter().map(|edge| edge.0.value).collect(),
                heights: heights_toward_lens.iter().map(|height| -height.0.value).collect(),
            },
            ShapeText::Probes(name) => {
                let text = String::from_utf8(read(&name)?);
                let text = text.map_err(|_| format!("{name}: this is no text in UTF-8"))?;
                let probes = probes::read(&name, &text)?;
                Shape::Probed { name, probes }
            }
        };
        Ok(Self { region, shape })
    }

    pub fn surface(&self) -> Surface<'_> {
        match &self.shape {
            Shape::Whole(surface) => *surface,
            Shape::Steps { edges, heights } => {
                Surface::Steps(Steps { edges_m: edges, heights_away_from_lens_m: heights })
            }
            Shape::Probed { probes, .. } => Surface::Grid(ProbedGrid {
                columns_m: &probes.x,
                rows_m: &probes.y,
                heights_away_from_lens_m: &probes.z,
            }),
        }
    }

    /// What the region reaches beside, if it does: the surface is unknown there.
    pub fn reaches_beside(&self) -> Option<&'static str> {
        let Region { x_least, x_greatest, y_least, y_greatest } = self.region;
        let beside = |places: &[f64], least: Length, greatest: Length| {
            places.first().is_some_and(|first| least.value < *first)
                || places.last().is_some_and(|last| greatest.value > *last)
        };
        match &self.shape {
            Shape::Steps { edges, .. } if beside(edges, x_least, x_greatest) => Some("the steps"),
            Shape::Probed { probes, .. }
                if beside(&probes.x, x_least, x_greatest) || beside(&probes.y, y_least, y_greatest) =>
            {
                Some("the probed grid")
            }
            _ => None,
        }
    }

    /// The shape in words.
    pub fn words(&self) -> String {
        match (&self.shape, self.surface()) {
            (Shape::Probed { name, probes }, _) => {
                format!("probed at {} x {} places, {name}", probes.x.len(), probes.y.len())
            }
            (Shape::Steps { heights, .. }, _) => format!("{} steps", heights.len()),
            (_, Surface::Cylinder { .. }) => "a lying cylinder".to_owned(),
            (_, Surface::Sphere(_)) => "a sphere".to_owned(),
            (_, Surface::Plane(SurfaceSlope::LEVEL)) => "flat and level".to_owned(),
            _ => "flat, tilted".to_owned(),
        }
    }
}

impl RoundText {
    fn part(self, name: &str) -> Result<RoundShape, String> {
        let size = match (self.radius, self.diameter) {
            (Some(radius), None) => RoundSize::Radius(radius.0),
            (None, Some(diameter)) => RoundSize::Diameter(diameter.0),
            _ => return Err(format!("part.shape.{name}: give either `radius` or `diameter`")),
        };
        let bulge = match self.bulge {
            BulgeText::TowardLens => Bulge::TowardLens,
            BulgeText::AwayFromLens => Bulge::AwayFromLens,
        };
        Ok(RoundShape { size, bulge, crown: self.crown.into(), lean: self.lean.into() })
    }
}

impl From<PlaceText> for TablePlace {
    fn from(place: PlaceText) -> Self {
        Self { x: place.x.0, y: place.y.0 }
    }
}

impl From<SlopeText> for SurfaceSlope {
    fn from(slope: SlopeText) -> Self {
        Self {
            away_from_lens_along_x: slope.away_from_lens_along_x,
            away_from_lens_along_y: slope.away_from_lens_along_y,
        }
    }
}
