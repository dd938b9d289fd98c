//! The exposure of a drawing, relative to a wide even fill.

use super::bands::Pace;
use super::bitmap::BitmapMut;
use super::blur::BlurNeed;
use super::drawing::Drawing;
use super::exposing::Exposing;
use super::kernel::taps_radius;
use super::levels::Levels;
use super::queue::share_out;
use super::scan::Scan;
use super::simd::vectorised;
use super::spot_map::{
    BLOCK, InkSpots, NANOSECONDS, ROWS_AT_ONCE, Reach, SpotMap, Spots, Survey, expected_exposure_error,
    fewest_pixels,
};
use super::threads;
use super::tile::{Place, Scene, TILE_HEIGHT, TILE_WIDTH, TileRoom, WIDEST_TAPS, expose_tile};
use super::watch::Watch;
use super::workspace::{Workspace, words_for};
use crate::error::{Error, Param, check_length};
use crate::model::math;
use crate::validity::Cone;

/// The dose of a wide even fill in the units of an exposure map: 2¹⁵. A map holds up to 65 535 of them, and where there
/// is more dose, 65 535.
///
/// More than twice the dose of a fill falls only onto scan lines that lie apart: the middle of a line of interval p gets
/// √(2/π)·p/w, w the spot's **radius** across, so that a map is whole for p up to 2.5·w. Lines farther apart than that,
/// at the least spot anywhere on the drawing, are refused: they are strokes rather than a fill, to be drawn as ink, with
/// the scan unknown.
pub const FULL_DOSE: u16 = 32_768;

/// A drawing and what exposes it, checked, with its spots surveyed and its need of room known.
#[derive(Debug, Clone, Copy)]
pub struct ExposurePlan<'a> {
    pub(super) drawing: Drawing<'a>,
    pub(super) map: SpotMap<'a>,
    ink: InkSpots,
    pub(super) reach: Reach,
    pixels_per_radius: f64,
    most_pixels_per_radius: f64,
    levels: Levels,
    need: BlurNeed,
}

impl<'a> ExposurePlan<'a> {
    /// Checks everything and surveys the spots: one look at each pixel.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the drawing, of `exposing` or of its surface, in
    /// the order of their fields; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad, and naming
    /// [`Param::PixelsPerRadius`] for a spot radius, blur included, below 0.1 pixels or above 10 000, be it over ink
    /// or beside it, as the exposure of every pixel is found with the spot that it has itself, and then naming
    /// [`Param::LineInterval`] for lines farther apart than 2.5 of the least radius, blur across included;
    /// [`Error::Undetermined`] naming [`Param::KnownProbes`] if the surface has no height at any pixel;
    /// [`Error::Stopped`] if the watch says so.
    pub fn new(drawing: &Drawing<'a>, exposing: &Exposing<'a>, watch: &mut Watch<'_>) -> Result<Self, Error> {
        let drawing = drawing.checked()?;
        let map = SpotMap::checked(&drawing, exposing)?;
        let survey = map.survey(&drawing, watch)?;
        Self::of_survey(drawing, map, &exposing.scan, survey)
    }

    /// As [`new`](Self::new), but for the spots over the ink, which are not looked for where the surface is known all over
    /// the drawing: then the reach is that over the rectangle of the drawing, and may be wider than over its pixels.
    pub(super) fn unsurveyed(
        drawing: &Drawing<'a>,
        exposing: &Exposing<'a>,
        watch: &mut Watch<'_>,
    ) -> Result<Self, Error> {
        let checked = drawing.checked()?;
        let map = SpotMap::checked(&checked, exposing)?;
        let plan = map.reach_of_rectangle(&checked, exposing).map(|all| {
            let ink = InkSpots::NONE;
            Self::of_survey(checked, map, &exposing.scan, Survey { ink, all })
        });
        match plan {
            Some(Ok(plan)) => Ok(plan),
            // What the rectangle has too much of need not be refused.
            _ => Self::new(drawing, exposing, watch),
        }
    }

    fn of_survey(
        drawing: Drawing<'a>,
        map: SpotMap<'a>,
        scan: &Scan,
        Survey { ink, all: reach }: Survey,
    ) -> Result<Self, Error> {
        let (least, greatest) = (reach.least, reach.greatest);
        if greatest < least {
            let (least, greatest) = Param::KnownProbes.range();
            return Err(Error::Undetermined { param: Param::KnownProbes, value: 0.0, least, greatest });
        }
        map.spot.check_pixels(least, greatest)?;
        map.spot.check_lines(scan, least)?;
        let levels = Levels::between(&map.spot, least, greatest, drawing.width, drawing.height);
        // A tile whose spots differ holds them as floats, which may be a little wider.
        let widest = math::greater(greatest, f64::from(greatest as f32));
        let widest = map.spot.radii(widest);
        let (finest, most) = (map.spot.radii(least), map.spot.radii(greatest));
        Ok(Self {
            drawing,
            map,
            ink,
            reach,
            pixels_per_radius: math::lesser(finest.along, finest.across),
            most_pixels_per_radius: math::greater(most.along, most.across),
            need: BlurNeed {
                along: taps_radius(math::lesser(widest.along, WIDEST_TAPS)),
                across: taps_radius(math::lesser(widest.across, WIDEST_TAPS)),
                coarse: levels.pixels() > 0,
            },
            levels,
        })
    }

    /// The spots over the ink.
    #[must_use]
    pub fn ink_spots(&self) -> &InkSpots {
        &self.ink
    }

    /// Half angle and validity of the beam.
    pub fn cone(&self) -> Cone {
        self.map.spot.cone
    }

    /// The fewest pixels in a spot radius, blur included, anywhere on the drawing and in either direction.
    #[must_use]
    pub fn pixels_per_radius(&self) -> f64 {
        self.pixels_per_radius
    }

    /// The most pixels in a spot radius, blur included.
    #[must_use]
    pub fn most_pixels_per_radius(&self) -> f64 {
        self.most_pixels_per_radius
    }

    /// Expected greatest error of the exposure for want of pixels, as a share of full dose: see
    /// [`expected_exposure_error`].
    #[must_use]
    pub fn expected_error(&self) -> f64 {
        let Drawing { kind, drawing_use, .. } = self.drawing;
        expected_exposure_error(kind, drawing_use, self.pixels_per_radius).unwrap_or(f64::NAN)
    }

    /// Whether the drawing should be drawn finer: fewer than 3 pixels in a spot radius for coverage, 8 for bilevel
    /// shapes. Never of a raster that is burnt as it is.
    #[must_use]
    pub fn too_few_pixels(&self) -> bool {
        self.pixels_per_radius < fewest_pixels(&self.drawing)
    }

    /// 64-bit words of room that [`expose`](Self::expose) needs for so many threads, at least one.
    #[must_use]
    pub fn words(&self, threads: usize) -> usize {
        self.coarse_words().saturating_add(self.tile_words().saturating_mul(threads.max(1)))
    }

    /// Room that is enough for so many threads whatever the spot, the surface and the blur are, for a drawing of this
    /// size. What [`words`](Self::words) says may rise and fall again between one spot and another.
    #[must_use]
    pub fn most_words(&self, threads: usize) -> usize {
        let taps = taps_radius(WIDEST_TAPS);
        let need = BlurNeed { along: taps, across: taps, coarse: true };
        let (line, pixels) = Levels::most(self.drawing.width, self.drawing.height);
        let coarse = words_for::<f32>(line) + words_for::<f32>(pixels);
        coarse.saturating_add(TileRoom::words(need, true).saturating_mul(threads.max(1)))
    }

    /// Words for the drawing at lower resolutions: none unless a spot radius exceeds 16 pixels; at most half a word
    /// for each pixel, and a few for each row and column.
    fn coarse_words(&self) -> usize {
        words_for::<f32>(self.levels.line()) + words_for::<f32>(self.levels.pixels())
    }

    fn tile_words(&self) -> usize {
        TileRoom::words(self.need, self.varies())
    }

    pub(super) fn varies(&self) -> bool {
        self.map.uniform_radius().is_none()
    }

    /// The exposure at the centre of every pixel, row by row without gaps, in units of 1/[`FULL_DOSE`]; 0 where the
    /// surface has no known height. No exposure is beyond 65 535 units: see [`FULL_DOSE`].
    ///
    /// With feature `parallel` as many threads work as `room` has words for, at most those of the current `rayon` pool.
    /// On any error `exposure` is all 0.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] naming [`Param::Output`] if `exposure` is not one number for each pixel, naming
    /// [`Param::Workspace`] if `room` is too small for one thread; [`Error::Stopped`] if the watch says so.
    pub fn expose(&self, exposure: &mut [u16], room: &mut [u64], watch: &mut Watch<'_>) -> Result<(), Error> {
        let done = self.exposed(exposure, room, watch);
        if done.is_err() {
            exposure.fill(0);
        }
        done
    }

    fn exposed(&self, exposure: &mut [u16], room: &mut [u64], watch: &mut Watch<'_>) -> Result<(), Error> {
        let Drawing { width, height, .. } = self.drawing;
        check_length(Param::Output, exposure.len(), width * height)?;
        let mut workspace = Workspace::new(room, self.words(1))?;
        let line = workspace.take(self.levels.line())?;
        let coarse: &mut [f32] = workspace.take_unset(self.levels.pixels())?;
        let coarsening = if self.need.coarse { 0.2 } else { 0.0 };
        self.levels.fill(&self.map.spot, &self.drawing, line, coarse, &mut watch.part(0.0, coarsening))?;
        let scene = Scene { map: &self.map, drawing: &self.drawing, levels: &self.levels, coarse };
        let watch = &mut watch.part(coarsening, 1.0);
        let rows = self.rows_of_tiles();
        let bands = exposure.chunks_mut(width * rows).enumerate();
        let rooms = workspace.into_rest().chunks_exact_mut(self.tile_words()).take(threads());
        share_out(height.div_ceil(rows), bands, rooms, watch, |(number, band), room, watch| {
            self.expose_band(&scene, number * rows, band, &mut self.tile_room(room)?, watch)
        })
    }

    /// Height of the tiles: all of about one height, in an even number of rows, so that two threads end at nearly the
    /// same time in a low drawing too. The number of threads plays no part in it.
    fn rows_of_tiles(&self) -> usize {
        let height = self.drawing.height;
        height.div_ceil(height.div_ceil(TILE_HEIGHT).next_multiple_of(2))
    }

    fn tile_room<'w>(&self, room: &'w mut [u64]) -> Result<TileRoom<'w>, Error> {
        let mut workspace = Workspace::new(room, self.tile_words())?;
        TileRoom::take(&mut workspace, self.need, self.varies())
    }

    /// Exposes the tiles from a row on, and asks before each whether to go on.
    fn expose_band(
        &self,
        scene: &Scene<'_>,
        row: usize,
        band: &mut [u16],
        room: &mut TileRoom<'_>,
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let width = self.drawing.width;
        let height = band.len() / width;
        for column in (0..width).step_by(TILE_WIDTH) {
            let done = column as f64 / width as f64;
            watch.done(done)?;
            let place = Place { column, row, width: (width - column).min(TILE_WIDTH), height };
            if let Some(out) = band.get_mut(column..) {
                vectorised(
                    #[inline(always)]
                    || expose_tile(scene, place, room, (out, width), &mut || watch.done(done)),
                )?;
            }
        }
        Ok(())
    }

    /// Sets the pixels at which the surface has no known height, and clears the others.
    ///
    /// On any error `mask` is clear.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] naming [`Param::Output`] for a mask of another size; [`Error::Stopped`].
    pub fn unknown(&self, mask: &mut BitmapMut<'_>, watch: &mut Watch<'_>) -> Result<(), Error> {
        let done = self.find_unknown(mask, watch);
        if done.is_err() {
            mask.words_mut().fill(0);
        }
        done
    }

    fn find_unknown(&self, mask: &mut BitmapMut<'_>, watch: &mut Watch<'_>) -> Result<(), Error> {
        let Drawing { width, height, .. } = self.drawing;
        let view = mask.view();
        if view.width() != width || view.height() != height {
            let (value, expected) = (view.width() * view.height(), width * height);
            return Err(Error::LengthMismatch { param: Param::Output, value, expected });
        }
        if self.ink.unknown_pixels == 0 {
            mask.rows_mut().for_each(|row| row.fill(0));
            return Ok(());
        }
        let mut spots = Spots::new();
        let mut pace = Pace::new();
        for (y, row) in mask.rows_mut().enumerate() {
            if pace.is_due(width * NANOSECONDS) || y % ROWS_AT_ONCE == 0 {
                watch.done(y as f64 / height as f64)?;
            }
            for (number, words) in row.chunks_mut(BLOCK / 64).enumerate() {
                let first = number * BLOCK;
                self.map.fill(first, width - first, y, &mut spots);
                let known = width - first;
                for (word, (number, radii)) in words.iter_mut().zip(spots.radius.chunks(64).enumerate()) {
                    *word = 0;
                    for (bit, radius) in radii.iter().enumerate().take(known.saturating_sub(64 * number)) {
                        *word |= u64::from(radius.is_nan()) << bit;
                    }
                }
            }
        }
        Ok(())
    }
}
