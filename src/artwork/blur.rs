//! One tile of a drawing, blurred by one spot at the resolution that the spot asks for.

use super::drawing::SampleKind;
use super::exposing::Radii;
use super::fir::{LANES, across, along, lanes};
use super::kernel::{fill_line_weights, fill_pixel_weights, taps_radius};
use super::levels::{Level, PAD, Samples, cubic};
use super::scan::{Lines, floor};
use super::tile::{Place, Scene, TILE, TILE_HEIGHT, TILE_WIDTH};
use super::workspace::{Workspace, words_for};
use crate::error::{Error, Param};

/// From row to row of what is blurred along: one cache line more than the tile, as rows a power of two apart would
/// share few places of the cache.
const STRIDE: usize = TILE_WIDTH + 16;

/// How far weights reach, in pixels of any resolution, and whether there are several.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BlurNeed {
    pub(crate) along: usize,
    pub(crate) across: usize,
    pub(crate) coarse: bool,
}

/// Room to work in.
pub(crate) struct BlurRoom<'w> {
    need: BlurNeed,
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
    /// The exposure of coarse pixels.
    coarse: &'w mut [f32],
    /// The same brought back to the columns of the drawing.
    wide: &'w mut [f32],
}

/// What a tile needs to know, in pixels of one resolution.
#[derive(Debug, Clone, Copy)]
struct Window {
    column: isize,
    row: isize,
    width: usize,
    height: usize,
}

/// A blurred tile, whose exposure is ready to be summed across rows.
pub(crate) struct Blurred<'a> {
    place: Place,
    level: Level,
    window: Window,
    lines: Option<Lines>,
    reach: usize,
    slots: &'a [f32],
    blurred: &'a [f32],
    inked: &'a [u8],
    coarse: &'a mut [f32],
    wide: &'a mut [f32],
}

impl<'w> BlurRoom<'w> {
    pub(crate) const fn words(need: BlurNeed) -> usize {
        words_for::<f32>(TILE_WIDTH + 2 * need.along)
            + words_for::<f32>(need.along + 1)
            + words_for::<f32>(TILE_HEIGHT * (2 * need.across + 1))
            + words_for::<f32>(STRIDE * (TILE_HEIGHT + 2 * need.across))
            + words_for::<u8>(TILE_HEIGHT + 2 * need.across)
            + if need.coarse { 2 * words_for::<f32>(TILE) } else { 0 }
    }

    pub(crate) fn take(workspace: &mut Workspace<'w>, need: BlurNeed) -> Result<Self, Error> {
        let coarse = if need.coarse { TILE } else { 0 };
        Ok(Self {
            need,
            line: workspace.take(TILE_WIDTH + 2 * need.along)?,
            taps: workspace.take(need.along + 1)?,
            slots: workspace.take(TILE_HEIGHT * (2 * need.across + 1))?,
            blurred: workspace.take(STRIDE * (TILE_HEIGHT + 2 * need.across))?,
            inked: workspace.take(TILE_HEIGHT + 2 * need.across)?,
            coarse: workspace.take(coarse)?,
            wide: workspace.take(coarse)?,
        })
    }

    /// Blurs a tile by a spot, at the resolution and with the layout of dose of the finest spot that is to be
    /// compared with it. None if no ink comes near.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] naming [`Param::Workspace`] for a spot that reaches further than the room was taken for.
    #[inline(always)]
    pub(crate) fn expose(
        &mut self,
        scene: &Scene<'_>,
        place: Place,
        finest: &Radii,
        radii: &Radii,
    ) -> Result<Option<Blurred<'_>>, Error> {
        let (number, level) = scene.levels.for_radii(finest);
        let samples = scene.levels.samples(number, scene.drawing, scene.coarse);
        let lines = if level.shift_y == 0 { scene.map.spot.lines } else { None };
        let same_layout =
            Radii { point_along: finest.point_along, point_across: finest.point_across, ..*radii };
        let radii = level.radii(&same_layout, scene.map.spot.lines.as_ref());
        let window = Window::of(place, level);
        let reach = taps_radius(radii.across);
        for (expected, value) in [(taps_radius(radii.along), self.need.along), (reach, self.need.across)] {
            if expected > value {
                return Err(Error::LengthMismatch { param: Param::Workspace, value, expected });
            }
        }
        if !self.blur_along(&samples, window, &radii, reach) {
            return Ok(None);
        }
        self.weigh_rows(lines.as_ref(), window, &radii, reach);
        Ok(Some(Blurred {
            place,
            level,
            window,
            lines,
            reach,
            slots: self.slots,
            blurred: self.blurred,
            inked: self.inked,
            coarse: self.coarse,
            wide: self.wide,
        }))
    }

    #[inline(always)]
    fn blur_along(&mut self, samples: &Samples<'_>, window: Window, radii: &Radii, reach: usize) -> bool {
        let r = taps_radius(radii.along);
        let scale = match samples {
            Samples::Drawing(drawing) if drawing.kind == SampleKind::Coverage => 1.0 / 255.0,
            _ => 1.0,
        };
        let columns = window.width.next_multiple_of(LANES);
        let Some(taps) = self.taps.get_mut(..=r) else { return false };
        let Some(line) = self.line.get_mut(..columns + 2 * r) else { return false };
        fill_pixel_weights(radii.along, radii.point_along, scale, taps);
        let mut any = false;
        let rows = self.blurred.chunks_exact_mut(STRIDE).zip(self.inked.iter_mut());
        for (number, (out, inked)) in rows.enumerate().take(window.height + 2 * reach) {
            let row = window.row + number as isize - reach as isize;
            let ink = fill_line(samples, row, window.column - r as isize, line);
            *inked = u8::from(ink);
            if let (true, Some(out)) = (ink, out.get_mut(..columns)) {
                along(line, taps, out);
            }
            any |= ink;
        }
        any
    }

    /// Lays out what each row takes from the rows about it.
    #[inline(always)]
    fn weigh_rows(&mut self, lines: Option<&Lines>, window: Window, radii: &Radii, reach: usize) {
        let length = 2 * reach + 1;
        let mut rows = self.slots.chunks_exact_mut(length).enumerate().take(window.height);
        let Some((_, first)) = rows.next() else { return };
        let Some(lines) = lines else {
            // From the centre outward, then mirrored.
            let (before, from_centre) = first.split_at_mut(reach);
            fill_pixel_weights(radii.across, radii.point_across, 1.0, from_centre);
            for (mirrored, weight) in before.iter_mut().rev().zip(from_centre.iter().skip(1)) {
                *mirrored = *weight;
            }
            return;
        };
        fill_line_weights(lines, radii.across, window.row as f64, first);
        if !lines.alike_in_all_rows() {
            for (row, slots) in rows {
                fill_line_weights(lines, radii.across, window.row as f64 + row as f64, slots);
            }
        }
    }
}

impl Window {
    /// The pixels of a tile; of a coarse resolution those about each that the cubic goes through.
    fn of(place: Place, level: Level) -> Self {
        let (column, width) = span(place.column, place.width, level.shift_x);
        let (row, height) = span(place.row, place.height, level.shift_y);
        Self { column, row, width, height }
    }
}

fn span(first: usize, count: usize, shift: u32) -> (isize, usize) {
    if shift == 0 {
        return (first as isize, count);
    }
    let before = floor(coarse_place(first, shift)) as isize - 1;
    let last = floor(coarse_place(first + count - 1, shift)) as isize + 2;
    (before, last.abs_diff(before) + 1)
}

/// Where the centre of a pixel lies, in coarse pixels from the centre of the first.
#[inline(always)]
fn coarse_place(pixel: usize, shift: u32) -> f64 {
    (pixel as f64 + 0.5) / (1_u64 << shift) as f64 - 0.5
}

impl Blurred<'_> {
    /// Hands over the exposure, block by block of columns and row by row.
    #[inline(always)]
    pub(crate) fn each_block(mut self, mut take: impl FnMut(usize, usize, &[f32; LANES])) {
        if self.level.shift_x == 0 && self.level.shift_y == 0 {
            self.sum_across(take);
            return;
        }
        let coarse = core::mem::take(&mut self.coarse);
        self.sum_across(
            #[inline(always)]
            |row, column, exposure| {
                if let Some(out) = coarse.get_mut(row * TILE_WIDTH + column..) {
                    out.iter_mut().zip(exposure).for_each(|(out, exposure)| *out = *exposure);
                }
            },
        );
        let rows = if self.level.shift_x == 0 {
            &*coarse
        } else {
            self.widen(coarse);
            &*self.wide
        };
        for row in 0..self.place.height {
            let (first, weights) = if self.level.shift_y == 0 {
                (row, [1.0, 0.0, 0.0, 0.0])
            } else {
                self.between(self.place.row + row, self.window.row, self.level.shift_y)
            };
            for column in (0..self.place.width).step_by(LANES) {
                let mut sums = [0.0; LANES];
                for (k, weight) in weights.iter().enumerate() {
                    if let Some(pixels) = lanes(rows, (first + k) * TILE_WIDTH + column) {
                        for (sum, pixel) in sums.iter_mut().zip(pixels) {
                            *sum += weight * pixel;
                        }
                    }
                }
                take(row, column, &sums);
            }
        }
    }

    /// The first of the four coarse pixels about a pixel, counted from the window's, and their weights.
    #[inline(always)]
    fn between(&self, pixel: usize, window: isize, shift: u32) -> (usize, [f32; 4]) {
        let place = coarse_place(pixel, shift);
        let before = floor(place);
        let first = (before as isize - 1).abs_diff(window);
        (first, cubic(place - before).map(|weight| weight as f32))
    }

    /// Brings coarse columns back to those of the drawing.
    #[inline(always)]
    fn widen(&mut self, coarse: &[f32]) {
        let mut places = [(0, [0.0; 4]); TILE_WIDTH];
        for (column, place) in places.iter_mut().enumerate().take(self.place.width) {
            *place = self.between(self.place.column + column, self.window.column, self.level.shift_x);
        }
        let rows = self.wide.chunks_exact_mut(TILE_WIDTH).zip(coarse.chunks_exact(TILE_WIDTH));
        for (out, coarse) in rows.take(self.window.height) {
            for (out, (first, weights)) in out.iter_mut().zip(&places) {
                if let Some([a, b, c, d]) = coarse.get(*first..).and_then(|from| from.first_chunk()) {
                    let [wa, wb, wc, wd] = weights;
                    *out = wa * a + wb * b + wc * c + wd * d;
                }
            }
        }
    }

    #[inline(always)]
    fn sum_across(&self, mut take: impl FnMut(usize, usize, &[f32; LANES])) {
        let length = 2 * self.reach + 1;
        let alike = self.lines.is_none_or(|lines| lines.alike_in_all_rows());
        for column in (0..self.window.width).step_by(LANES) {
            for row in 0..self.window.height {
                let slots = if alike { 0 } else { row * length };
                let (Some(slots), Some(inked), Some(rows)) = (
                    self.slots.get(slots..slots + length),
                    self.inked.get(row..),
                    self.blurred.get(row * STRIDE + column..),
                ) else {
                    continue;
                };
                take(row, column, &across(rows, STRIDE, inked, slots));
            }
        }
    }
}

/// Fills a line with the samples of a row from `first` on, 0 beside the drawing. Whether there is ink.
#[inline(always)]
fn fill_line(samples: &Samples<'_>, row: isize, first: isize, line: &mut [f32]) -> bool {
    match samples {
        Samples::Drawing(drawing) => {
            let row = usize::try_from(row).map_or(&[][..], |row| drawing.row(row));
            let (beside, row) = beginning(row, first, line.len());
            if row.iter().fold(0, |all, sample| all | sample) == 0 {
                return false;
            }
            let inside = clear_beside(line, beside, row.len());
            match drawing.kind {
                SampleKind::Bilevel => {
                    for (pixel, sample) in inside.iter_mut().zip(row) {
                        *pixel = if *sample == 0 { 0.0 } else { 1.0 };
                    }
                }
                SampleKind::Coverage => {
                    for (pixel, sample) in inside.iter_mut().zip(row) {
                        *pixel = f32::from(*sample);
                    }
                }
            }
        }
        Samples::Coarse { .. } => {
            let (beside, row) = beginning(samples.with_pads(row), first + PAD as isize, line.len());
            if row.iter().all(|sample| *sample == 0.0) {
                return false;
            }
            clear_beside(line, beside, row.len()).copy_from_slice(row);
        }
    }
    true
}

/// How many places of a line lie before the row, and what it holds of the row.
#[inline(always)]
fn beginning<T>(row: &[T], first: isize, length: usize) -> (usize, &[T]) {
    let beside = usize::try_from(-first).unwrap_or(0).min(length);
    let row = row.get(usize::try_from(first).unwrap_or(0)..).unwrap_or(&[]);
    (beside, row.get(..length - beside).unwrap_or(row))
}

/// Clears a line beside the samples, and returns their place in it.
#[inline(always)]
fn clear_beside(line: &mut [f32], beside: usize, count: usize) -> &mut [f32] {
    let (before, rest) = line.split_at_mut(beside.min(line.len()));
    let (inside, behind) = rest.split_at_mut(count.min(rest.len()));
    before.fill(0.0);
    behind.fill(0.0);
    inside
}
