//! What a preflight is told.

use crate::artwork::{self, DrawingUse, SampleKind};
use crate::typed::beam::Beam;
use crate::typed::dose::LineInterval;
use crate::typed::offset::Offset;
use crate::typed::shape::{Surface, TablePlace};
use uom::si::f64::{Area, Length};

/// From pixel to pixel of a drawing, 1e-9 to 1 m each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PixelPitch {
    /// Along a row.
    pub x: Length,
    /// From row to row.
    pub y: Length,
}

/// A drawing as rows of 8-bit samples. Outside it there is no ink.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Artwork<'a> {
    /// The samples, row after row: at least (`height` − 1)·`row_stride` + `width` of them.
    pub samples: &'a [u8],
    /// Pixels in a row, 1 to 65 535.
    pub width: usize,
    /// Rows, 1 to 65 535; at most 2²⁸ pixels in all.
    pub height: usize,
    /// Samples from the start of one row to that of the next, at least `width`.
    pub row_stride: usize,
    /// From pixel to pixel.
    pub pitch: PixelPitch,
    /// Where the upper left corner of the drawing lies; y grows from row to row.
    pub corner: TablePlace,
    /// What a sample says.
    pub kind: SampleKind,
    /// What the drawing is.
    pub drawing_use: DrawingUse,
}

/// How the machine goes over a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RasterScan {
    /// Not known: each pixel counts as burnt evenly.
    Unknown,
    /// Lines along the rows, burnt while they cross ink.
    ///
    /// Lines farther apart than 2.5 of the least spot radius anywhere on the drawing, blur across included, are refused:
    /// they are strokes rather than a fill, to be drawn as ink with the scan unknown. Of a raster that is burnt as it is
    /// the rows are the lines: any interval but their pitch, to one part in a million, is refused.
    AlongRows {
        /// From one line to the next.
        line_interval: LineInterval,
        /// From the upper edge of the drawing to the first line, up to an interval.
        first_line: Length,
    },
}

/// What widens the spot besides focus, as 1/e² diameters that add by squares: heat, jitter, the rise of the power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanBlur {
    /// Along the rows.
    pub along: Length,
    /// From row to row.
    pub across: Length,
}

/// On what a drawing is burnt, and with which focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnOn<'a> {
    /// The focused beam.
    pub beam: Beam,
    /// Where its waist lies, from the datum of the surface.
    pub focus: Offset,
    /// The surface. Of places where it has no height nothing is said.
    pub surface: Surface<'a>,
    /// Whether a slope thins the irradiance by the cosine of the incidence angle, as it does.
    pub incidence_loss: bool,
    /// What widens the spot besides.
    pub blur: ScanBlur,
    /// How the machine goes over the drawing.
    pub scan: RasterScan,
}

/// What answers to the dose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MarkAnswer {
    /// A coating that is removed above the threshold, and no further.
    Coating,
    /// A bulk into which the dose falls off by an exponential law.
    LogarithmicBulk {
        /// Depth at which the dose has fallen by e.
        penetration_depth: Length,
        /// Depth from which on a place counts as marked; 0 for any.
        visible_depth: Length,
    },
    /// A bulk of which every joule above the threshold removes its share.
    LinearBulk {
        /// Depth that doubling the dose adds to what just marks.
        threshold_depth: Length,
        /// Depth from which on a place counts as marked; 0 for any.
        visible_depth: Length,
    },
    /// A melt, which closes gaps up to a width.
    Melt {
        /// Width of the gaps that close; 0 for none.
        bridge: Length,
    },
}

/// A preflight: what mark will come out of a drawing, what is lost of it, and what would help.
///
/// # Example
/// ```
/// use spotwise::artwork::{DrawingUse, MarkGrade, SampleKind, Watch};
/// use spotwise::units::{mm, um};
/// use spotwise::{
///     Artwork, Beam, BeamParts, BeamWidth, DrawnOn, MarkAnswer, Offset, PixelPitch, Preflight, RasterScan,
///     ScanBlur, Surface, SurfaceSlope, TablePlace,
/// };
/// // Two bars of 0.3 mm, 0.3 mm apart, drawn at 20 µm to the pixel.
/// let (width, height) = (100, 100);
/// let samples: Vec<u8> = (0..height)
///     .flat_map(|y| (0..width).map(move |x| {
///         let in_bar = (30..45).contains(&x) || (60..75).contains(&x);
///         if in_bar && (20..80).contains(&y) { 255 } else { 0 }
///     }))
///     .collect();
/// let waist = BeamWidth::from_diameter_1e2(um(100.0))?;
/// let preflight = Preflight {
///     artwork: Artwork {
///         samples: &samples,
///         width,
///         height,
///         row_stride: width,
///         pitch: PixelPitch { x: um(20.0), y: um(20.0) },
///         corner: TablePlace { x: mm(0.0), y: mm(0.0) },
///         kind: SampleKind::Coverage,
///         drawing_use: DrawingUse::BurntRaster,
///     },
///     drawn_on: DrawnOn {
///         beam: Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?,
///         focus: Offset::ZERO,
///         surface: Surface::Plane(SurfaceSlope::LEVEL),
///         incidence_loss: true,
///         blur: ScanBlur { along: um(0.0), across: um(0.0) },
///         scan: RasterScan::Unknown,
///     },
///     answer: MarkAnswer::Coating,
///     dose_ratio: 2.0,
///     edge_tolerance: None,
///     // Whatever is smaller than two by two pixels is a speck.
///     speck_area: um(40.0) * um(40.0),
/// };
/// let verdict = preflight.run(&mut Watch::quiet())?;
/// assert_eq!(verdict.judgement.grade, MarkGrade::Crisp);
/// assert_eq!(verdict.report.topology.components_mark, 2);
/// // The edge stays where it is drawn at twice the threshold dose, where it gets half of a wide fill: across their
/// // middle the bars keep their 15 pixels each.
/// assert_eq!((0..width).filter(|&x| verdict.mark.get(x, 50)).count(), 30);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Preflight<'a> {
    /// The drawing.
    pub artwork: Artwork<'a>,
    /// On what it is burnt, and with which focus.
    pub drawn_on: DrawnOn<'a>,
    /// What answers to the dose.
    pub answer: MarkAnswer,
    /// Dose inside a wide even fill over the dose at which the material just marks, 1e-6 to 200.
    pub dose_ratio: f64,
    /// How far an edge may stray before it counts as lost or filled, at most 254 pixels; none for a quarter of the
    /// waist's 1/e² diameter.
    pub edge_tolerance: Option<Length>,
    /// Area below which a piece of ink, or a hole in one, is a speck: a grain of dust in a scan, a bare pixel in a letter.
    /// Of specks the report says how many are ignored, and no more: they play no part in what becomes of pieces and
    /// holes, in the grade, in the dose window and in what would help. Lost and filled areas, centre-lines and widths
    /// are those of all pixels. Zero for none, at most 100 mm².
    ///
    /// The area is one on the surface, of the drawing as it is; at another scale ([`Preflight::smallest_scale`]) specks
    /// stay specks. As [`artwork::Preflight::speck_area`].
    pub speck_area: Area,
}

impl<'a> Artwork<'a> {
    pub(super) fn as_model(&self) -> artwork::Drawing<'a> {
        artwork::Drawing {
            samples: self.samples,
            width: self.width,
            height: self.height,
            row_stride: self.row_stride,
            pitch_x: self.pitch.x.value,
            pitch_y: self.pitch.y.value,
            left_x: self.corner.x.value,
            top_y: self.corner.y.value,
            kind: self.kind,
            drawing_use: self.drawing_use,
        }
    }
}

impl RasterScan {
    fn as_model(&self) -> artwork::Scan {
        match *self {
            Self::Unknown => artwork::Scan::Unknown,
            Self::AlongRows { line_interval, first_line } => artwork::Scan::AlongRows {
                line_interval: line_interval.length().value,
                first_line: first_line.value,
            },
        }
    }
}

impl MarkAnswer {
    /// The answer in plain metres, as [`artwork::depth_map`] takes it.
    #[must_use]
    pub fn as_model(&self) -> artwork::Answer {
        match *self {
            Self::Coating => artwork::Answer::Coating,
            Self::LogarithmicBulk { penetration_depth, visible_depth } => artwork::Answer::LogarithmicBulk {
                penetration_depth: penetration_depth.value,
                visible_depth: visible_depth.value,
            },
            Self::LinearBulk { threshold_depth, visible_depth } => artwork::Answer::LinearBulk {
                threshold_depth: threshold_depth.value,
                visible_depth: visible_depth.value,
            },
            Self::Melt { bridge } => artwork::Answer::Melt { bridge: bridge.value },
        }
    }
}

impl DrawnOn<'_> {
    fn as_model(&self) -> artwork::Exposing<'_> {
        artwork::Exposing {
            beam: *self.beam.as_model(),
            focus_z: self.focus.metres(),
            surface: self.surface.as_model(),
            incidence_loss: self.incidence_loss,
            blur_along: self.blur.along.value,
            blur_across: self.blur.across.value,
            scan: self.scan.as_model(),
        }
    }
}

impl Preflight<'_> {
    pub(super) fn as_model(&self) -> artwork::Preflight<'_> {
        let exposing = self.drawn_on.as_model();
        artwork::Preflight {
            drawing: self.artwork.as_model(),
            exposing,
            answer: self.answer.as_model(),
            dose_ratio: self.dose_ratio,
            edge_tolerance: self
                .edge_tolerance
                .map_or_else(|| artwork::usual_edge_tolerance(&exposing.beam), |tolerance| tolerance.value),
            speck_area: self.speck_area.value,
        }
    }
}
