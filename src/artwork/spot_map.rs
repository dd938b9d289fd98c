//! The spot over a drawing: its radius at each pixel, and how fine the pixels are for it.

use super::bands::Pace;
use super::drawing::{Drawing, DrawingUse, SampleKind};
use super::exposing::{Exposing, Spot};
use super::simd::vectorised;
use super::watch::Watch;
use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::surface::{Region, Surface, shape::CheckedSurface, surface_extremes};

/// So many pixels of a row are worked on at once.
pub(crate) const BLOCK: usize = 128;
/// Rows between two questions whether to go on, at most.
pub(crate) const ROWS_AT_ONCE: usize = 16;
/// Nanoseconds that the spot at a pixel takes, about.
pub(crate) const NANOSECONDS: usize = 10;

/// The spot over the ink of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InkSpots {
    /// Pixels with ink.
    pub ink_pixels: u64,
    /// Pixels of the drawing where the surface has no known height.
    pub unknown_pixels: u64,
    /// How many of them have ink.
    pub unknown_ink_pixels: u64,
    /// Least spot **diameter** over ink in metres, 1/e², without blur; NaN without any ink of known height.
    pub least_diameter: f64,
    /// The first pixel that has it, in x; metres on the surface.
    pub least_x: f64,
    /// That pixel in y.
    pub least_y: f64,
    /// Greatest spot diameter over ink in metres.
    pub greatest_diameter: f64,
    /// The first pixel that has it, in x.
    pub greatest_x: f64,
    /// That pixel in y.
    pub greatest_y: f64,
}

impl InkSpots {
    /// None that were looked for.
    pub(crate) const NONE: Self = Self {
        ink_pixels: 0,
        unknown_pixels: 0,
        unknown_ink_pixels: 0,
        least_diameter: f64::NAN,
        least_x: f64::NAN,
        least_y: f64::NAN,
        greatest_diameter: f64::NAN,
        greatest_x: f64::NAN,
        greatest_y: f64::NAN,
    };
}

/// Expected greatest error of an exposure, as a share of full dose, from the pixels in a spot **radius**.
///
/// 0 for a raster that is burnt as it is. Else the artwork's edges are known only to its pixels, and the table gives
/// what was found for text drawn at 1.5 to 8 pixels to the radius, compared with the same text at 29 to 67; between
/// its places by a power law, and beyond them by the law of their ends.
///
/// | pixels | coverage | bilevel |
/// |--------|----------|---------|
/// | 1.5    | 0.07     |         |
/// | 2      | 0.03     | 0.20    |
/// | 3      | 0.018    | 0.13    |
/// | 4      | 0.009    | 0.11    |
/// | 8      |          | 0.05    |
///
/// With fewer than 3 (coverage) or 8 (bilevel) pixels in the radius a drawing of shapes should be drawn finer.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for `pixels_per_radius`.
///
/// # Example
/// ```
/// use spotwise::artwork::{DrawingUse, SampleKind, expected_exposure_error};
/// let error = expected_exposure_error(SampleKind::Coverage, DrawingUse::Shapes, 3.0)?;
/// assert!((error - 0.018).abs() < 1e-12);
/// assert_eq!(expected_exposure_error(SampleKind::Bilevel, DrawingUse::BurntRaster, 3.0)?, 0.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn expected_exposure_error(
    kind: SampleKind,
    drawing_use: DrawingUse,
    pixels_per_radius: f64,
) -> Result<f64, Error> {
    let pixels = check(Param::PixelsPerRadius, pixels_per_radius)?;
    let table: &[(f64, f64)] = match (drawing_use, kind) {
        (DrawingUse::BurntRaster, _) => return Ok(0.0),
        (DrawingUse::Shapes, SampleKind::Coverage) => &[(1.5, 0.07), (2.0, 0.03), (3.0, 0.018), (4.0, 0.009)],
        (DrawingUse::Shapes, SampleKind::Bilevel) => &[(2.0, 0.20), (3.0, 0.13), (4.0, 0.11), (8.0, 0.05)],
    };
    let intervals = table.windows(2).filter_map(|pair| pair.first().zip(pair.last()));
    let mut error = f64::NAN;
    for (number, (&(from, from_error), &(to, to_error))) in intervals.enumerate() {
        if number == 0 || pixels > from {
            let power = math::log(to_error / from_error) / math::log(to / from);
            error = from_error * math::pow(pixels / from, power);
        }
    }
    // More than all of the dose cannot be wrong.
    Ok(math::lesser(error, 1.0))
}

/// Fewest pixels in a spot radius with which a drawing's exposure is good enough to decide by; none are asked of a
/// raster that is burnt as it is.
pub(crate) fn fewest_pixels(drawing: &Drawing<'_>) -> f64 {
    match (drawing.drawing_use, drawing.kind) {
        (DrawingUse::BurntRaster, _) => 0.0,
        (DrawingUse::Shapes, SampleKind::Coverage) => 3.0,
        (DrawingUse::Shapes, SampleKind::Bilevel) => 8.0,
    }
}

/// The spot at every pixel of a drawing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SpotMap<'a> {
    pub(crate) spot: Spot,
    surface: CheckedSurface<'a>,
    left_x: f64,
    top_y: f64,
    pitch_x: f64,
    pitch_y: f64,
}

/// Heights and spot radii in metres of some pixels of a row (NaN where the surface has no height), and factors of irradiance.
pub(crate) struct Spots {
    pub(crate) z: [f64; BLOCK],
    pub(crate) radius: [f64; BLOCK],
    pub(crate) factor: [f64; BLOCK],
}

impl Spots {
    pub(crate) const fn new() -> Self {
        Self { z: [0.0; BLOCK], radius: [0.0; BLOCK], factor: [1.0; BLOCK] }
    }
}

/// What a look at every pixel finds.
pub(crate) struct Survey {
    pub(crate) ink: InkSpots,
    pub(crate) all: Reach,
}

/// The least and the greatest over all pixels of known height; infinite, the least above the greatest, where there are none.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reach {
    /// Spot radii in metres.
    pub(crate) least: f64,
    pub(crate) greatest: f64,
    /// Factors of irradiance; beside pixels of known height they may be those of others, too.
    pub(crate) least_factor: f64,
    pub(crate) greatest_factor: f64,
}

/// Extremes of the spot's radius.
#[derive(Debug, Clone, Copy)]
struct Extremes {
    least: (f64, usize, usize),
    greatest: (f64, usize, usize),
}

impl<'a> SpotMap<'a> {
    pub(crate) fn checked(drawing: &Drawing<'_>, exposing: &Exposing<'a>) -> Result<Self, Error> {
        let spot = exposing.checked(drawing)?;
        let surface: Surface<'a> = exposing.surface;
        Ok(Self {
            spot,
            surface: surface.checked()?,
            left_x: drawing.left_x,
            top_y: drawing.top_y,
            pitch_x: drawing.pitch_x,
            pitch_y: drawing.pitch_y,
        })
    }

    pub(crate) fn x(&self, column: usize) -> f64 {
        self.left_x + (column as f64 + 0.5) * self.pitch_x
    }

    pub(crate) fn y(&self, row: usize) -> f64 {
        self.top_y + (row as f64 + 0.5) * self.pitch_y
    }

    /// The radius in metres that the spot has at every pixel.
    pub(crate) fn uniform_radius(&self) -> Option<f64> {
        self.surface.level_height().map(|z| self.spot.radius(z))
    }

    /// The extremes over the rectangle that the drawing covers; none if the surface is not known all over it. Those over
    /// the pixels are within, but for last digits.
    pub(crate) fn reach_of_rectangle(&self, drawing: &Drawing<'_>, exposing: &Exposing<'_>) -> Option<Reach> {
        let region = Region {
            x_least: self.left_x,
            x_greatest: self.left_x + drawing.width as f64 * self.pitch_x,
            y_least: self.top_y,
            y_greatest: self.top_y + drawing.height as f64 * self.pitch_y,
        };
        let extremes = surface_extremes(&exposing.surface, &region).ok()?;
        if extremes.missing_probes > 0 || extremes.unknown_share > 0.0 {
            return None;
        }
        let (highest, lowest, focus) = (extremes.highest_z, extremes.lowest_z, self.spot.focus_z);
        let ends = [highest, lowest].map(|z| self.spot.radius(z));
        let nearest = math::lesser(math::greater(focus, highest), lowest);
        let steepest = if self.spot.incidence_loss { math::cos(extremes.steepest_incidence) } else { 1.0 };
        let even = matches!(exposing.surface, Surface::Plane { .. });
        Some(Reach {
            least: self.spot.radius(nearest),
            greatest: math::greater(ends[0], ends[1]),
            least_factor: steepest,
            greatest_factor: if even { steepest } else { 1.0 },
        })
    }

    /// The spots of the pixels from a column on, as many as `count`, at most a block.
    #[inline(always)]
    pub(crate) fn fill(&self, first: usize, count: usize, row: usize, spots: &mut Spots) {
        let mut x = [0.0; BLOCK];
        for (number, x) in x.iter_mut().enumerate() {
            *x = self.x(first + number);
        }
        // Beyond the drawing nothing is asked of the surface.
        let count = count.min(BLOCK);
        let (Some(x), Some(z)) = (x.get(..count), spots.z.get_mut(..count)) else { return };
        let Some(factor) = spots.factor.get_mut(..count) else { return };
        self.surface.row(self.y(row), x, z, factor);
        if !self.spot.incidence_loss {
            factor.fill(1.0);
        }
        for (radius, z) in spots.radius.iter_mut().zip(spots.z) {
            *radius = self.spot.radius(z);
        }
    }

    /// The least and the greatest height under ink; infinite, the least above the greatest, if there is none.
    pub(crate) fn ink_heights(
        &self,
        drawing: &Drawing<'_>,
        watch: &mut Watch<'_>,
    ) -> Result<(f64, f64), Error> {
        let ink_level = drawing.ink_level();
        let (mut least, mut greatest) = (f64::INFINITY, f64::NEG_INFINITY);
        let mut spots = Spots::new();
        let mut pace = Pace::new();
        for row in 0..drawing.height {
            if pace.is_due(drawing.width * NANOSECONDS) || row % ROWS_AT_ONCE == 0 {
                watch.done(row as f64 / drawing.height as f64)?;
            }
            for (number, samples) in drawing.row(row).chunks(BLOCK).enumerate() {
                vectorised(|| self.fill(number * BLOCK, samples.len(), row, &mut spots));
                for (&z, &sample) in spots.z.iter().zip(samples) {
                    // An unknown height is NaN, and neither less nor greater.
                    if sample >= ink_level {
                        least = if z < least { z } else { least };
                        greatest = if z > greatest { z } else { greatest };
                    }
                }
            }
        }
        Ok((least, greatest))
    }

    /// The spots over the ink, and the extremes over all pixels.
    pub(crate) fn survey(&self, drawing: &Drawing<'_>, watch: &mut Watch<'_>) -> Result<Survey, Error> {
        let none = Extremes { least: (f64::INFINITY, 0, 0), greatest: (f64::NEG_INFINITY, 0, 0) };
        let (mut over_ink, mut over_all) = (none, none);
        let (mut ink_pixels, mut unknown_pixels, mut unknown_ink_pixels) = (0, 0, 0);
        let uniform = self.uniform_radius();
        // A level surface thins nothing.
        let (mut least_factor, mut greatest_factor) =
            if uniform.is_some() { (1.0, 1.0) } else { (f64::INFINITY, 0.0) };
        let ink_level = drawing.ink_level();
        let mut spots = Spots::new();
        let mut pace = Pace::new();
        for row in 0..drawing.height {
            if pace.is_due(drawing.width * NANOSECONDS) || row % ROWS_AT_ONCE == 0 {
                watch.done(row as f64 / drawing.height as f64)?;
            }
            let samples = drawing.row(row);
            let ink = vectorised(|| samples.iter().map(|&s| u64::from(s >= ink_level)).sum::<u64>());
            ink_pixels += ink;
            if let Some(radius) = uniform {
                over_all.note(radius, 0, row);
                if ink > 0 && over_ink.least.0 > radius {
                    let column = samples.iter().position(|&s| s >= ink_level).unwrap_or(0);
                    over_ink.note(radius, column, row);
                }
                continue;
            }
            for (number, samples) in samples.chunks(BLOCK).enumerate() {
                let first = number * BLOCK;
                // The radii over ink, and none beside it.
                let mut inked = [f64::NAN; BLOCK];
                let (all, ink, factors) = vectorised(
                    #[inline(always)]
                    || {
                        self.fill(first, samples.len(), row, &mut spots);
                        let radii = spots.radius.get(..samples.len()).unwrap_or(&[]);
                        for ((inked, radius), sample) in inked.iter_mut().zip(radii).zip(samples) {
                            *inked = if *sample >= ink_level { *radius } else { f64::NAN };
                        }
                        let factors = spots.factor.get(..samples.len()).unwrap_or(&[]);
                        (Range::of(radii), Range::of(&inked), Range::of(factors))
                    },
                );
                over_all.note_block(&all, &spots.radius, first, row);
                over_ink.note_block(&ink, &inked, first, row);
                least_factor = math::lesser(least_factor, factors.least);
                greatest_factor = math::greater(greatest_factor, factors.greatest);
                if all.known < samples.len() as u64 {
                    unknown_pixels += samples.len() as u64 - all.known;
                    let inked = samples.iter().zip(&spots.radius);
                    let unknown = inked.filter(|(sample, radius)| **sample >= ink_level && radius.is_nan());
                    unknown_ink_pixels += unknown.count() as u64;
                }
            }
        }
        let place = |(_, column, row): (f64, usize, usize)| (self.x(column), self.y(row));
        let found = over_ink.least.0 <= over_ink.greatest.0;
        let or_none = |value: f64| if found { value } else { f64::NAN };
        let ((least_x, least_y), (greatest_x, greatest_y)) =
            (place(over_ink.least), place(over_ink.greatest));
        let ink_spots = InkSpots {
            ink_pixels,
            unknown_pixels,
            unknown_ink_pixels,
            least_diameter: or_none(2.0 * over_ink.least.0),
            least_x: or_none(least_x),
            least_y: or_none(least_y),
            greatest_diameter: or_none(2.0 * over_ink.greatest.0),
            greatest_x: or_none(greatest_x),
            greatest_y: or_none(greatest_y),
        };
        let all =
            Reach { least: over_all.least.0, greatest: over_all.greatest.0, least_factor, greatest_factor };
        Ok(Survey { ink: ink_spots, all })
    }
}

/// Least and greatest of the numbers that are known, and how many are.
struct Range {
    least: f64,
    greatest: f64,
    known: u64,
}

impl Range {
    #[inline(always)]
    fn of(radii: &[f64]) -> Self {
        const SIDE_BY_SIDE: usize = 8;
        let mut least = [f64::INFINITY; SIDE_BY_SIDE];
        let mut greatest = [f64::NEG_INFINITY; SIDE_BY_SIDE];
        let mut known = [0; SIDE_BY_SIDE];
        for radii in radii.chunks(SIDE_BY_SIDE) {
            let lanes = least.iter_mut().zip(&mut greatest).zip(&mut known);
            for (((least, greatest), known), &radius) in lanes.zip(radii) {
                // A radius that is not known is NaN, and neither less nor greater.
                *least = if radius < *least { radius } else { *least };
                *greatest = if radius > *greatest { radius } else { *greatest };
                *known += u64::from(!radius.is_nan());
            }
        }
        Self {
            least: least.into_iter().fold(f64::INFINITY, math::lesser),
            greatest: greatest.into_iter().fold(f64::NEG_INFINITY, math::greater),
            known: known.into_iter().sum(),
        }
    }
}

impl Extremes {
    fn note(&mut self, radius: f64, column: usize, row: usize) {
        if radius < self.least.0 {
            self.least = (radius, column, row);
        }
        if radius > self.greatest.0 {
            self.greatest = (radius, column, row);
        }
    }

    /// Looks for a place in a block only where that has a new extreme.
    fn note_block(&mut self, range: &Range, radii: &[f64; BLOCK], first: usize, row: usize) {
        for extreme in [range.least, range.greatest] {
            if extreme.is_finite() && (extreme < self.least.0 || extreme > self.greatest.0) {
                let place = radii.iter().position(|radius| *radius == extreme).unwrap_or(0);
                self.note(extreme, first + place, row);
            }
        }
    }
}
