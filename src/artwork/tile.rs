//! The exposure of one tile of a drawing.
//!
//! Where the spot differs within the tile, the exposure is found for a few spots between the least and the greatest,
//! and each pixel takes what a polynomial through them gives at the logarithm of its own spot radius. The spots lie at
//! Chebyshev's points, as few as the range asks for.

use super::drawing::{Drawing, SampleKind};
use super::exposing::Radii;
use super::fir::{LANES, across, along, lanes, quantised};
use super::kernel::{fill_line_weights, fill_pixel_weights, taps_radius};
use super::spot_map::{BLOCK, SpotMap, Spots};
use super::workspace::{Workspace, words_for};
use crate::error::Error;
use crate::model::math;

/// Columns of a tile.
pub(crate) const TILE_WIDTH: usize = 2 * BLOCK;
/// Rows of a tile.
pub(crate) const TILE_HEIGHT: usize = 128;
const TILE: usize = TILE_WIDTH * TILE_HEIGHT;

/// So much of the logarithm of the spot radius one polynomial spans; what is wider is done part by part.
const WIDEST_SPAN: f64 = 0.45;
/// Spans up to which one, two and three spots suffice.
const SPANS: [(f64, usize); 3] = [(2e-4, 1), (0.03, 2), (0.15, 3)];
const MOST_NODES: usize = 4;

/// Room to work in for one tile at a time.
pub(crate) struct TileRoom<'w> {
    /// A row of the drawing with what lies beside the tile.
    line: &'w mut [f32],
    /// Weights along a row, from the centre outward.
    taps: &'w mut [f32],
    /// Weights of the rows about each row.
    slots: &'w mut [f32],
    /// Rows blurred along, those above and below the tile too.
    blurred: &'w mut [f32],
    /// Whether there is ink in them.
    inked: &'w mut [u8],
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
    /// 64-bit words that one needs, for weights that reach so far.
    pub(crate) const fn words(reach_along: usize, reach_across: usize, varies: bool) -> usize {
        words_for::<f32>(TILE_WIDTH + 2 * reach_along)
            + words_for::<f32>(reach_along + 1)
            + words_for::<f32>(TILE_HEIGHT * (2 * reach_across + 1))
            + words_for::<f32>(TILE_WIDTH * (TILE_HEIGHT + 2 * reach_across))
            + words_for::<u8>(TILE_HEIGHT + 2 * reach_across)
            + if varies { 4 * words_for::<f32>(TILE) } else { 0 }
    }

    pub(crate) fn take(
        workspace: &mut Workspace<'w>,
        reach_along: usize,
        reach_across: usize,
        varies: bool,
    ) -> Result<Self, Error> {
        Ok(Self {
            line: workspace.take(TILE_WIDTH + 2 * reach_along)?,
            taps: workspace.take(reach_along + 1)?,
            slots: workspace.take(TILE_HEIGHT * (2 * reach_across + 1))?,
            blurred: workspace.take(TILE_WIDTH * (TILE_HEIGHT + 2 * reach_across))?,
            inked: workspace.take(TILE_HEIGHT + 2 * reach_across)?,
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

/// The part of a drawing that a tile takes from, and how.
struct Blur<'a, 'w> {
    map: &'a SpotMap<'a>,
    drawing: &'a Drawing<'a>,
    place: Place,
    line: &'a mut [f32],
    taps: &'w mut [f32],
    slots: &'w mut [f32],
    blurred: &'w mut [f32],
    inked: &'w mut [u8],
}

/// Exposes one tile. `out` starts at its first pixel; its rows are `stride` apart.
#[inline(always)]
pub(crate) fn expose_tile(
    map: &SpotMap<'_>,
    drawing: &Drawing<'_>,
    place: Place,
    room: &mut TileRoom<'_>,
    out: &mut [u16],
    stride: usize,
) {
    let TileRoom { line, taps, slots, blurred, inked, varying } = room;
    let mut blur = Blur { map, drawing, place, line, taps, slots, blurred, inked };
    match (map.uniform_radius(), varying) {
        (Some(radius), _) => {
            let radii = map.spot.radii(radius);
            if !blur.prepare(&radii) {
                clear(place, out, stride);
                return;
            }
            blur.each_block(&radii, |row, column, exposure| {
                if let Some(out) = out.get_mut(row * stride + column..) {
                    let here = place.width - column;
                    for (out, exposure) in out.iter_mut().zip(exposure).take(here) {
                        *out = quantised(*exposure);
                    }
                }
            });
        }
        (None, Some(varying)) => {
            clear(place, out, stride);
            varying.survey(map, place);
            let mut done = 0.0;
            while let Some(span) = varying.next_span(map, done) {
                varying.expose_span(&mut blur, &span);
                varying.write_span(&span, place, out, stride);
                done = span.greatest;
            }
        }
        (None, None) => {}
    }
}

/// No exposure in a tile.
fn clear(place: Place, out: &mut [u16], stride: usize) {
    for row in out.chunks_mut(stride).take(place.height) {
        row.iter_mut().take(place.width).for_each(|out| *out = 0);
    }
}

impl Blur<'_, '_> {
    /// Blurs along, and lays out the weights across. False if no ink comes near the tile.
    #[inline(always)]
    fn prepare(&mut self, radii: &Radii) -> bool {
        let reach = taps_radius(radii.across);
        let any = self.blur_along(radii, reach);
        if any {
            self.weigh_rows(radii, reach);
        }
        any
    }

    #[inline(always)]
    fn blur_along(&mut self, radii: &Radii, reach: usize) -> bool {
        let r = taps_radius(radii.along);
        let scale = match self.drawing.kind {
            SampleKind::Bilevel => 1.0,
            SampleKind::Coverage => 1.0 / 255.0,
        };
        let Some(taps) = self.taps.get_mut(..=r) else { return false };
        fill_pixel_weights(radii.along, radii.point_along, scale, taps);
        let Some(line) = self.line.get_mut(..TILE_WIDTH + 2 * r) else { return false };
        let mut any = false;
        let rows = self.place.height + 2 * reach;
        let blurred = self.blurred.chunks_exact_mut(TILE_WIDTH);
        for (number, (out, inked)) in blurred.zip(self.inked.iter_mut()).enumerate().take(rows) {
            let row = (self.place.row + number).checked_sub(reach);
            let samples = row.map_or(&[][..], |row| self.drawing.row(row));
            let ink = fill_line(samples, self.drawing.kind, self.place.column, r, line);
            *inked = u8::from(ink);
            if ink {
                along(line, taps, out);
            }
            any |= ink;
        }
        any
    }

    /// Lays out what each row takes from the rows about it.
    #[inline(always)]
    fn weigh_rows(&mut self, radii: &Radii, reach: usize) {
        let length = 2 * reach + 1;
        let mut rows = self.slots.chunks_exact_mut(length).enumerate().take(self.place.height);
        let Some((_, first)) = rows.next() else { return };
        let lines = match &self.map.spot.lines {
            None => {
                // From the centre outward, then mirrored.
                let (before, from_centre) = first.split_at_mut(reach);
                fill_pixel_weights(radii.across, radii.point_across, 1.0, from_centre);
                for (mirrored, weight) in before.iter_mut().rev().zip(from_centre.iter().skip(1)) {
                    *mirrored = *weight;
                }
                return;
            }
            Some(lines) => lines,
        };
        fill_line_weights(lines, radii.across, self.place.row as f64, first);
        if !lines.alike_in_all_rows() {
            for (row, slots) in rows {
                fill_line_weights(lines, radii.across, (self.place.row + row) as f64, slots);
            }
        }
    }

    /// Hands over the exposure, block by block of columns and row by row.
    #[inline(always)]
    fn each_block(&self, radii: &Radii, mut take: impl FnMut(usize, usize, &[f32; LANES])) {
        let length = 2 * taps_radius(radii.across) + 1;
        let alike = self.map.spot.lines.is_none_or(|lines| lines.alike_in_all_rows());
        for column in (0..self.place.width).step_by(LANES) {
            for row in 0..self.place.height {
                let slots = if alike { 0 } else { row * length };
                let (Some(slots), Some(inked), Some(rows)) = (
                    self.slots.get(slots..slots + length),
                    self.inked.get(row..),
                    self.blurred.get(row * TILE_WIDTH + column..),
                ) else {
                    continue;
                };
                take(row, column, &across(rows, TILE_WIDTH, inked, slots));
            }
        }
    }
}

/// Fills a line with the samples from `column` − r on, 0 beside the drawing. Whether there is ink.
#[inline(always)]
fn fill_line(samples: &[u8], kind: SampleKind, column: usize, r: usize, line: &mut [f32]) -> bool {
    let beside = r.saturating_sub(column);
    let from = column.saturating_sub(r);
    let samples = samples.get(from..).unwrap_or(&[]);
    let samples = samples.get(..line.len() - beside.min(line.len())).unwrap_or(samples);
    if samples.iter().fold(0, |all, sample| all | sample) == 0 {
        return false;
    }
    let (before, rest) = line.split_at_mut(beside.min(line.len()));
    before.fill(0.0);
    let (inside, behind) = rest.split_at_mut(samples.len().min(rest.len()));
    match kind {
        SampleKind::Bilevel => {
            for (pixel, sample) in inside.iter_mut().zip(samples) {
                *pixel = if *sample == 0 { 0.0 } else { 1.0 };
            }
        }
        SampleKind::Coverage => {
            for (pixel, sample) in inside.iter_mut().zip(samples) {
                *pixel = f32::from(*sample);
            }
        }
    }
    behind.fill(0.0);
    true
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
    fn expose_span(&mut self, blur: &mut Blur<'_, '_>, span: &Span) {
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
        let layout = blur.map.spot.radii(least);
        for (n, log) in logs.iter().enumerate() {
            let mut radii = blur.map.spot.radii(middle * math::exp(*log));
            (radii.point_along, radii.point_across) = (layout.point_along, layout.point_across);
            if !blur.prepare(&radii) {
                continue;
            }
            let others = logs.iter().enumerate().filter(|(m, _)| *m != n);
            let scale = others.clone().fold(1.0, |scale, (_, other)| scale / (log - other));
            let mut zeros = [0.0; MOST_NODES - 1];
            for (zero, (_, other)) in zeros.iter_mut().zip(others) {
                *zero = *other as f32;
            }
            let zeros = zeros.get(..count - 1).unwrap_or(&zeros);
            let (sum, log) = (&mut self.sum, &self.log);
            blur.each_block(&radii, |row, column, exposure| {
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
            });
        }
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
