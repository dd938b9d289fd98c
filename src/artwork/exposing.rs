//! What exposes a drawing: beam, focus, surface, blur and scan.

use super::drawing::{Drawing, DrawingUse, SampleKind};
use super::kernel::POINT_FROM;
use super::scan::{Lines, Scan, WIDEST_INTERVAL};
use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::model::surface::Surface;
use crate::validity::Cone;

/// What exposes a drawing. Heights count + away from the lens, as those of the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposing<'s> {
    /// The focused beam.
    pub beam: Beam,
    /// Height of the waist in metres.
    pub focus_z: f64,
    /// The surface on which the drawing lies. Where it has no height (beside it, or where a probe is missing) the
    /// exposure is not known.
    pub surface: Surface<'s>,
    /// Whether a slope thins the irradiance by the cosine of the incidence angle, as it does.
    pub incidence_loss: bool,
    /// What widens the spot along the rows besides focus, as a 1/e² **diameter** in metres; adds by squares.
    pub blur_along: f64,
    /// Likewise from row to row.
    pub blur_across: f64,
    /// How the machine goes over the drawing.
    pub scan: Scan,
}

/// The numbers of a checked [`Exposing`] that turn heights into spots, lengths in pixels of the drawing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spot {
    /// Waist **radius** in metres.
    pub(crate) waist: f64,
    pub(crate) rayleigh_range: f64,
    pub(crate) focus_z: f64,
    pub(crate) incidence_loss: bool,
    pub(crate) cone: Cone,
    /// Blur as a radius in metres.
    blur: [f64; 2],
    pitch: [f64; 2],
    /// Lines in rows, if they are known.
    pub(crate) lines: Option<Lines>,
    /// Samples that say how much of the pixel is inked, of a drawing that is not itself burnt.
    coverage_of_shapes: bool,
}

/// Spot radii in pixels, blur included, and how the dose of a pixel is laid out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Radii {
    pub(crate) along: f64,
    pub(crate) across: f64,
    /// Whether a sample is a point in that direction.
    pub(crate) point_along: bool,
    pub(crate) point_across: bool,
}

impl Exposing<'_> {
    pub(crate) fn checked(&self, drawing: &Drawing<'_>) -> Result<Spot, Error> {
        let beam = checked_beam(&self.beam)?;
        let focus_z = check(Param::FocusZ, self.focus_z)?;
        self.surface.checked()?;
        let along = check(Param::BlurAlong, self.blur_along)?;
        let across = check(Param::BlurAcross, self.blur_across)?;
        Ok(Spot {
            waist: 0.5 * beam.waist_diameter,
            rayleigh_range: beam.rayleigh_range.to_f64(),
            focus_z,
            incidence_loss: self.incidence_loss,
            cone: beam.cone,
            blur: [0.5 * along, 0.5 * across],
            pitch: [drawing.pitch_x, drawing.pitch_y],
            lines: self.scan.checked(drawing)?,
            coverage_of_shapes: drawing.kind == SampleKind::Coverage
                && drawing.drawing_use == DrawingUse::Shapes,
        })
    }
}

impl Spot {
    /// Radius in metres of the spot alone on a surface of this height.
    #[inline(always)]
    pub(crate) fn radius(&self, z: f64) -> f64 {
        let u = (z - self.focus_z) / self.rayleigh_range;
        self.waist * math::sqrt(1.0 + u * u)
    }

    /// Radii in metres along and across with the blur, for a radius of the spot alone.
    pub(crate) fn blurred(&self, radius: f64) -> [f64; 2] {
        self.blur.map(|blur| math::sqrt(radius * radius + blur * blur))
    }

    /// From line to line in metres; 0 where lines are not known.
    pub(crate) fn line_interval(&self) -> f64 {
        let [_, pitch_y] = self.pitch;
        self.lines.map_or(0.0, |lines| lines.interval * pitch_y)
    }

    /// Radii in pixels with the blur, for a radius of the spot alone in metres.
    fn pixels(&self, radius: f64) -> [f64; 2] {
        let [along, across] = self.blurred(radius);
        let [pitch_x, pitch_y] = self.pitch;
        [along / pitch_x, across / pitch_y]
    }

    /// The spot of this radius in metres, in pixels.
    pub(crate) fn radii(&self, radius: f64) -> Radii {
        let [along, across] = self.pixels(radius);
        let [point_along, point_across] = [along, across].map(|w| self.coverage_of_shapes && w >= POINT_FROM);
        Radii { along, across, point_along, point_across: point_across && self.lines.is_none() }
    }

    /// The radii in metres at which the spot spans so many pixels along and across; 0 if the blur alone spans more.
    pub(crate) fn radii_at_pixels(&self, along: f64, across: f64) -> [f64; 2] {
        let [pitch_x, pitch_y] = self.pitch;
        let [blur_x, blur_y] = self.blur;
        [(along * pitch_x, blur_x), (across * pitch_y, blur_y)]
            .map(|(wide, blur)| math::sqrt(math::greater(wide * wide - blur * blur, 0.0)))
    }

    /// The radius in metres below which the dose is laid out as it is for a lesser one; at most `limit`.
    pub(crate) fn same_layout_below(&self, least: f32, limit: f32) -> f32 {
        let mut limit = limit;
        if self.coverage_of_shapes {
            for radius in self.radii_at_pixels(POINT_FROM, POINT_FROM) {
                let radius = radius as f32;
                limit = if least < radius && radius < limit { radius } else { limit };
            }
        }
        limit
    }

    /// Refuses lines that lie so far apart for the least spot that an exposure map does not hold their dose.
    pub(crate) fn check_lines(&self, scan: &Scan, least: f64) -> Result<(), Error> {
        let Scan::AlongRows { line_interval, .. } = *scan else { return Ok(()) };
        let [_, blur] = self.blur;
        let greatest = WIDEST_INTERVAL * math::sqrt(least * least + blur * blur);
        if line_interval <= greatest {
            return Ok(());
        }
        let (lowest, _) = Param::LineInterval.range();
        Err(Error::OutsideModel { param: Param::LineInterval, value: line_interval, least: lowest, greatest })
    }

    /// Refuses spots that are far finer or far wider than the pixels.
    pub(crate) fn check_pixels(&self, least: f64, greatest: f64) -> Result<(), Error> {
        let (lowest, highest) = Param::PixelsPerRadius.range();
        for value in self.pixels(least).into_iter().chain(self.pixels(greatest)) {
            if !(value >= lowest && value <= highest) {
                return Err(Error::OutsideModel {
                    param: Param::PixelsPerRadius,
                    value,
                    least: lowest,
                    greatest: highest,
                });
            }
        }
        Ok(())
    }
}
