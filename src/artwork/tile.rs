//! The exposure of one tile of a drawing.
//!
//! Where the spot differs within the tile, the exposure is found for a few spots between the least and the greatest,
//! and each pixel takes what a polynomial through them gives at the logarithm of its own spot radius. The spots lie at
//! Chebyshev's points, as few as the range asks for.

use super::blur::{BlurNeed, BlurRoom};
use super::drawing::Drawing;
use super::fir::{LANES, lanes, quantised};
use super::levels::Levels;
use super::spot_map::{BLOCK, SpotMap, Spots};
use super::workspace::{Workspace, words_for};
use crate::error::Error;
use crate::model::math;

/// Columns of a tile.
pub(crate) const TILE_WIDTH: usize = 2 * BLOCK;
/// Rows of a tile.
pub(crate) const TILE_HEIGHT: usize = 128;
/// Pixels of a tile.
pub(crate) const TILE: usize = TILE_WIDTH * TILE_HEIGHT;

/// So much of the logarithm of the spot radius one polynomial spans; what is wider is done part by part.
const WIDEST_SPAN: f64 = 0.4;
/// Spans up to which one, two and three spots suffice.
const SPANS: [(f64, usize); 3] = [(2e-4, 1), (0.03, 2), (0.12, 3)];
const MOST_NODES: usize = 4;
/// The greatest spot radius that is summed pixel by pixel: 16 at the finest of a span.
pub(crate) const WIDEST_TAPS: f64 = 26.0;

/// Room to work in for one tile at a time.
pub(crate) struct TileRoom<'w> {
    blur: BlurRoom<'w>,
    /// What a varying spot needs.
    varying: Option<VaryingRoom<'w>>,
}

struct VaryingRoom<'w> {
    /// Exposure so far.
    sum: &'w mut [f32],
    /// Spot radius in metres, NaN where it is not known or beyond the drawing.
    radius: &'w mut [f32],
    factor: &'w mut [f32],
    /// Its logarithm, about the middle of the span.
    log: &'w mut [f32],
}

impl<'w> TileRoom<'w> {
    /// 64-bit words that one needs.
    pub(crate) const fn words(need: BlurNeed, varies: bool) -> usize {
        BlurRoom::words(need) + if varies { 4 * words_for::<f32>(TILE) } else { 0 }
    }

    pub(crate) fn take(workspace: &mut Workspace<'w>, need: BlurNeed, varies: bool) -> Result<Self, Error> {
        Ok(Self {
            blur: BlurRoom::take(workspace, need)?,
            varying: if varies {
                Some(VaryingRoom {
                    sum: workspace.take(TILE)?,
                    radius: workspace.take(TILE)?,
                    factor: workspace.take(TILE)?,
                    log: workspace.take(TILE)?,
                })
            } else {
                None
            },
        })
    }
}

/// Where a tile lies in the drawing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Place {
    pub(crate) column: usize,
    pub(crate) row: usize,
    pub(crate) width: usize,
    pub(crate) height: usize,
}

/// A drawing, its spots, and its resolutions with their samples.
#[derive(Clone, Copy)]
pub(crate) struct Scene<'a> {
    pub(crate) map: &'a SpotMap<'a>,
    pub(crate) drawing: &'a Drawing<'a>,
    pub(crate) levels: &'a Levels,
    pub(crate) coarse: &'a [f32],
}

/// Exposes one tile, and asks between spans of radii whether to go on. `out` starts at its first pixel; its rows are
/// `stride` apart.
#[inline(always)]
pub(crate) fn expose_tile(
    scene: &Scene<'_>,
    place: Place,
    room: &mut TileRoom<'_>,
    (out, stride): (&mut [u16], usize),
    go_on: &mut dyn FnMut() -> Result<(), Error>,
) -> Result<(), Error> {
    let TileRoom { blur, varying } = room;
    match (scene.map.uniform_radius(), varying) {
        (Some(radius), _) => {
            let radii = scene.map.spot.radii(radius);
            let Some(blurred) = blur.expose(scene, place, &radii, &radii)? else {
                clear(place, out, stride);
                return Ok(());
            };
            blurred.each_block(
                #[inline(always)]
                |row, column, exposure| {
                    if let Some(out) = out.get_mut(row * stride + column..) {
                        let here = place.width - column;
                        for (out, exposure) in out.iter_mut().zip(exposure).take(here) {
                            *out = quantised(*exposure);
                        }
                    }
                },
            );
        }
        (None, Some(varying)) => {
            clear(place, out, stride);
            varying.survey(scene.map, place);
            let mut done = 0.0;
            while let Some(span) = varying.next_span(scene.map, done) {
                go_on()?;
                varying.expose_span(scene, place, blur, &span)?;
                varying.write_span(&span, place, out, stride);
                done = span.greatest;
            }
        }
        (None, None) => {}
    }
    Ok(())
}

/// No exposure in a tile.
fn clear(place: Place, out: &mut [u16], stride: usize) {
    for row in out.chunks_mut(stride).take(place.height) {
        row.iter_mut().take(place.width).for_each(|out| *out = 0);
    }
}

/// Spot radii that one polynomial spans, in metres.
struct Span {
    least: f32,
    greatest: f32,
}

impl VaryingRoom<'_> {
    /// Finds the spots of the tile.
    #[inline(always)]
    fn survey(&mut self, map: &SpotMap<'_>, place: Place) {
        let mut spots = Spots::new();
        let radii = self.radius.chunks_exact_mut(TILE_WIDTH);
        let factors = self.factor.chunks_exact_mut(TILE_WIDTH);
        for (row, (radii, factors)) in radii.zip(factors).enumerate() {
            let blocks = radii.chunks_exact_mut(BLOCK).zip(factors.chunks_exact_mut(BLOCK));
            for (number, (radii, factors)) in blocks.enumerate() {
                let column = number * BLOCK;
                let count = if row < place.height { place.width.saturating_sub(column) } else { 0 };
                if count > 0 {
                    map.fill(place.column + column, count, place.row + row, &mut spots);
                    for (radius, found) in radii.iter_mut().zip(&spots.radius) {
                        *radius = *found as f32;
                    }
                    for (factor, found) in factors.iter_mut().zip(&spots.factor) {
                        *factor = *found as f32;
                    }
                }
                radii.iter_mut().skip(count).for_each(|radius| *radius = f32::NAN);
            }
        }
    }

    /// The next span of radii beyond those that are done.
    #[inline(always)]
    fn next_span(&self, map: &SpotMap<'_>, done: f32) -> Option<Span> {
        let mut least = [f32::INFINITY; LANES];
        for radii in self.radius.chunks_exact(LANES) {
            for (least, &radius) in least.iter_mut().zip(radii) {
                let beyond = if radius > done { radius } else { f32::INFINITY };
                *least = if beyond < *least { beyond } else { *least };
            }
        }
        let least = least.into_iter().fold(f32::INFINITY, f32::min);
        if !least.is_finite() {
            return None;
        }
        let limit = (f64::from(least) * math::exp(WIDEST_SPAN)) as f32;
        let limit = map.spot.same_layout_below(least, limit);
        let mut greatest = [least; LANES];
        for radii in self.radius.chunks_exact(LANES) {
            for (greatest, &radius) in greatest.iter_mut().zip(radii) {
                let within = if radius < limit { radius } else { 0.0 };
                *greatest = if within > *greatest { within } else { *greatest };
            }
        }
        Some(Span { least, greatest: greatest.into_iter().fold(least, f32::max) })
    }

    /// The exposure of the span's spots, in the sum.
    #[inline(always)]
    fn expose_span(
        &mut self,
        scene: &Scene<'_>,
        place: Place,
        blur: &mut BlurRoom<'_>,
        span: &Span,
    ) -> Result<(), Error> {
        let spot = &scene.map.spot;
        let (least, greatest) = (f64::from(span.least), f64::from(span.greatest));
        let length = math::log(greatest / least);
        let middle = math::sqrt(least * greatest);
        self.fill_log(middle as f32);
        self.sum.fill(0.0);
        let count = SPANS.iter().find(|(most, _)| length <= *most).map_or(MOST_NODES, |(_, count)| *count);
        // Chebyshev's points of the span.
        let mut logs = [0.0; MOST_NODES];
        for (n, log) in logs.iter_mut().enumerate() {
            let angle = core::f64::consts::PI * (n as f64 + 0.5) / count as f64;
            *log = 0.5 * length * math::cos(angle);
        }
        let logs = logs.get(..count).unwrap_or(&logs);
        let finest = spot.radii(least);
        for (n, log) in logs.iter().enumerate() {
            let radii = spot.radii(middle * math::exp(*log));
            let Some(blurred) = blur.expose(scene, place, &finest, &radii)? else { break };
            let others = logs.iter().enumerate().filter(|(m, _)| *m != n);
            let scale = others.clone().fold(1.0, |scale, (_, other)| scale / (log - other));
            let mut zeros = [0.0; MOST_NODES - 1];
            for (zero, (_, other)) in zeros.iter_mut().zip(others) {
                *zero = *other as f32;
            }
            let zeros = zeros.get(..count - 1).unwrap_or(&zeros);
            let (sum, log) = (&mut self.sum, &self.log);
            blurred.each_block(
                #[inline(always)]
                |row, column, exposure| {
                    let at = row * TILE_WIDTH + column;
                    let Some(sum) = sum.get_mut(at..at + LANES) else { return };
                    let Some(log) = lanes(log, at) else { return };
                    let mut share = [scale as f32; LANES];
                    for zero in zeros {
                        for (share, log) in share.iter_mut().zip(log) {
                            *share *= log - zero;
                        }
                    }
                    for ((sum, share), exposure) in sum.iter_mut().zip(&share).zip(exposure) {
                        *sum += share * exposure;
                    }
                },
            );
        }
        Ok(())
    }

    /// ln(w/middle) by its series in (w − middle)/(w + middle), for w within a factor of 1.3: within 2e-7.
    #[inline(always)]
    fn fill_log(&mut self, middle: f32) {
        for (log, &radius) in self.log.iter_mut().zip(self.radius.iter()) {
            let x = (radius - middle) / (radius + middle);
            let square = x * x;
            *log = 2.0 * x * (1.0 + square * (1.0 / 3.0 + square * (0.2 + square * (1.0 / 7.0))));
        }
    }

    /// Writes the pixels whose spots are of the span.
    #[inline(always)]
    fn write_span(&self, span: &Span, place: Place, out: &mut [u16], stride: usize) {
        let rows = self.sum.chunks_exact(TILE_WIDTH).zip(self.factor.chunks_exact(TILE_WIDTH));
        let rows = rows.zip(self.radius.chunks_exact(TILE_WIDTH)).zip(out.chunks_mut(stride));
        for (((sum, factor), radius), out) in rows.take(place.height) {
            let pixels = out.iter_mut().zip(sum).zip(factor).zip(radius).take(place.width);
            for (((out, sum), factor), radius) in pixels {
                let exposure = quantised(sum * factor);
                let of_span = *radius >= span.least && *radius <= span.greatest;
                *out = if of_span { exposure } else { *out };
            }
        }
    }
}
