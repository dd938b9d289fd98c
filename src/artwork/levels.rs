//! The drawing at lower resolutions, for spots so wide that its pixels are far finer than they need.
//!
//! A radius of more than 16 pixels along an axis is halved there until 16 or fewer are left. Each halving weighs four
//! pixels by 1, 3, 3 and 1 eighths, which keeps the place of every pixel's dose and spreads all pixels alike, by a
//! variance of ¾; several halvings from N = 1 by (N² − 1)/4. (An average of two would move edges by their place between
//! coarse pixels: by 1e-3 of full dose for strokes.) Scan lines are laid onto coarse rows by the cubic through the four
//! rows about each, which keeps their place and spread. What halving adds to the variance of a spot is taken off the
//! spot with which the coarse drawing is blurred. The coarse exposure, smooth over 8 and more coarse pixels, is brought
//! back to the pixels by the cubic through four of its neighbours each way.

use super::drawing::{Drawing, SampleKind};
use super::exposing::{Radii, Spot};
use super::scan::{Lines, floor};
use super::watch::Watch;
use crate::error::Error;
use crate::model::math;

/// As many pixels of a spot radius are left at the most.
const MOST_PIXELS: f64 = 16.0;
/// As often an axis is halved for the widest spot, of 10 000 pixels.
const MOST_HALVINGS: usize = 10;
/// More cannot follow from halving either axis so often.
const MOST_LEVELS: usize = 24;
/// Numbers of a coarse drawing that are cleared between two questions whether to go on.
const CLEARED_AT_ONCE: usize = 1 << 20;
/// Rows above and below a coarse drawing, and columns beside it, onto which dose at its edge is laid.
pub(crate) const PAD: usize = 2;
/// With more lines in a row than this, some of them stand for all.
const MOST_LINES: f64 = 1024.0;

/// One resolution: pixels of the drawing in a coarse pixel, as powers of two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Level {
    pub(crate) shift_x: u32,
    pub(crate) shift_y: u32,
    /// As it was when scan lines became rows.
    laid_shift_y: u32,
}

/// The resolutions that the spots of a drawing need, from the finest on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Levels {
    levels: [Level; MOST_LEVELS],
    count: usize,
    width: usize,
    height: usize,
}

/// Samples of a resolution: those of the drawing, or shares from 0 to 1.
#[derive(Clone, Copy)]
pub(crate) enum Samples<'a> {
    Drawing(&'a Drawing<'a>),
    Coarse { samples: &'a [f32], width: usize },
}

fn shift_for(pixels: f64) -> u32 {
    let mut shift = 0;
    let mut left = pixels;
    while left > MOST_PIXELS {
        left *= 0.5;
        shift += 1;
    }
    shift
}

impl Level {
    fn is_drawing(&self) -> bool {
        self.shift_x == 0 && self.shift_y == 0
    }

    /// The spot with which this resolution is blurred, in its own pixels.
    pub(crate) fn radii(&self, radii: &Radii, lines: Option<&Lines>) -> Radii {
        let mut coarse = *radii;
        if self.shift_x > 0 {
            coarse.along = coarse_radius(radii.along, pixel_variance(radii.point_along), 0, self.shift_x);
            coarse.point_along = true;
        }
        if self.shift_y > 0 {
            let pixel = if lines.is_some() { 0.0 } else { pixel_variance(radii.point_across) };
            let laid = if lines.is_some() { self.laid_shift_y } else { 0 };
            coarse.across = coarse_radius(radii.across, pixel, laid, self.shift_y);
            coarse.point_across = true;
        }
        coarse
    }
}

/// What the pixel itself adds to the variance of a spot: a box adds 1/12, a sample of coverage has it in it already.
fn pixel_variance(point: bool) -> f64 {
    if point { -1.0 / 12.0 } else { 1.0 / 12.0 }
}

/// The radius in coarse pixels whose point weights have the variance that halving from one shift to another leaves.
/// Point weights take ⅓ off its square again.
fn coarse_radius(w: f64, pixel: f64, from: u32, to: u32) -> f64 {
    let square = |shift: u32| {
        let side = (1_u64 << shift) as f64;
        side * side
    };
    let variance = 0.25 * (w * w - (square(to) - square(from))) + pixel;
    math::sqrt(4.0 * variance / square(to) + 1.0 / 3.0)
}

impl Levels {
    /// Those for spots from one radius in metres to another.
    pub(crate) fn between(spot: &Spot, least: f64, greatest: f64, width: usize, height: usize) -> Self {
        let mut levels = Self { levels: [DRAWING; MOST_LEVELS], count: 0, width, height };
        let last = shifts(&spot.radii(greatest));
        let (mut shift_x, mut shift_y) = shifts(&spot.radii(least));
        let mut laid_shift_y = shift_y;
        for level in &mut levels.levels {
            *level = Level { shift_x, shift_y, laid_shift_y };
            levels.count += 1;
            if (shift_x, shift_y) == last {
                break;
            }
            // The axis whose limit a growing spot meets first; both, if it meets them at once.
            let [x, y] = spot.radii_at_pixels(
                MOST_PIXELS * (1_u64 << shift_x) as f64,
                MOST_PIXELS * (1_u64 << shift_y) as f64,
            );
            let (last_x, last_y) = last;
            if shift_x < last_x && (x <= y || shift_y >= last_y) {
                shift_x += 1;
            }
            if shift_y < last_y && (y <= x || shift_x >= last_x) {
                shift_y += 1;
                laid_shift_y = if laid_shift_y == 0 { shift_y } else { laid_shift_y };
            }
        }
        levels
    }

    fn all(&self) -> &[Level] {
        self.levels.get(..self.count).unwrap_or(&self.levels)
    }

    /// The resolution for a spot, and its number.
    pub(crate) fn for_radii(&self, radii: &Radii) -> (usize, Level) {
        let (x, y) = shifts(radii);
        let fits = |level: &&(usize, Level)| level.1.shift_x <= x && level.1.shift_y <= y;
        let mut best = (0, self.levels.first().copied().unwrap_or(DRAWING));
        for candidate in self.all().iter().copied().enumerate() {
            if fits(&&candidate) {
                best = candidate;
            }
        }
        best
    }

    /// Columns and rows of a coarse drawing with what lies beside it.
    fn size(&self, level: &Level) -> (usize, usize) {
        if level.is_drawing() {
            return (0, 0);
        }
        (halved_side(self.width, level.shift_x), halved_side(self.height, level.shift_y))
    }

    /// The most that [`line`](Self::line) and [`pixels`](Self::pixels) can be for a drawing of this size.
    pub(crate) fn most(width: usize, height: usize) -> (usize, usize) {
        // Of each pair of shifts the most that any way to it holds; a way halves one axis at a time, or both.
        let mut most = [0; MOST_HALVINGS + 1];
        for shift_y in 0..=MOST_HALVINGS as u32 {
            let (mut before, mut corner) = (0, 0);
            for (shift_x, most) in (0..).zip(&mut most) {
                let level = Level { shift_x, shift_y, laid_shift_y: 0 };
                let own = if level.is_drawing() {
                    0
                } else {
                    halved_side(width, shift_x) * halved_side(height, shift_y)
                };
                let above = *most;
                *most = own + before.max(corner).max(above);
                (before, corner) = (*most, above);
            }
        }
        (width + 2 * PAD, most.into_iter().fold(0, usize::max))
    }

    /// Numbers in the longest row that is halved, with what lies beside it.
    pub(crate) fn line(&self) -> usize {
        if self.pixels() > 0 { self.width + 2 * PAD } else { 0 }
    }

    /// Numbers that all of them hold together.
    pub(crate) fn pixels(&self) -> usize {
        self.all()
            .iter()
            .map(|level| {
                let (width, height) = self.size(level);
                width * height
            })
            .sum()
    }

    /// The samples of one of them.
    pub(crate) fn samples<'a>(
        &self,
        number: usize,
        drawing: &'a Drawing<'a>,
        room: &'a [f32],
    ) -> Samples<'a> {
        let mut start = 0;
        for (index, level) in self.all().iter().enumerate() {
            let (width, height) = self.size(level);
            if index == number && !level.is_drawing() {
                return Samples::Coarse {
                    samples: room.get(start..start + width * height).unwrap_or(&[]),
                    width,
                };
            }
            start += width * height;
        }
        Samples::Drawing(drawing)
    }

    /// Fills the room with all of them; `line` has room for a row that is halved.
    pub(crate) fn fill(
        &self,
        spot: &Spot,
        drawing: &Drawing<'_>,
        line: &mut [f32],
        room: &mut [f32],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let mut rest = room;
        let mut finer = (DRAWING, Samples::Drawing(drawing));
        let coarse = self.all().iter().filter(|level| !level.is_drawing());
        let part = 1.0 / coarse.clone().count() as f64;
        for (number, level) in coarse.enumerate() {
            let (width, height) = self.size(level);
            let Some((out, behind)) = rest.split_at_mut_checked(width * height) else { return Ok(()) };
            rest = behind;
            let mut watch = watch.part(number as f64 * part, (number + 1) as f64 * part);
            for out in out.chunks_mut(CLEARED_AT_ONCE) {
                watch.done(0.0)?;
                out.fill(0.0);
            }
            let (from, samples) = finer;
            let (first, end) = samples.rows();
            for row in first..end {
                if row % 8 == 0 {
                    watch.done((row - first) as f64 / (end - first) as f64)?;
                }
                let Some(halved) = samples.halved(row, level.shift_x - from.shift_x, line) else { continue };
                let step = level.shift_y - from.shift_y;
                let (start, shares) = match &spot.lines {
                    Some(lines) if from.shift_y == 0 && step > 0 => lay_lines(lines, row as f64, step),
                    _ => spread_row(row, step),
                };
                for (k, share) in shares.iter().enumerate() {
                    let index = start + k as isize + PAD as isize;
                    let out = usize::try_from(index)
                        .ok()
                        .and_then(|row| out.get_mut(row * width..(row + 1) * width));
                    if let (true, Some(out)) = (*share != 0.0, out) {
                        let share = *share as f32;
                        out.iter_mut().zip(halved).for_each(|(out, halved)| *out += share * halved);
                    }
                }
            }
            finer = (*level, Samples::Coarse { samples: out, width });
        }
        Ok(())
    }
}

/// Coarse pixels along a side with those beside it.
fn halved_side(pixels: usize, shift: u32) -> usize {
    pixels.div_ceil(1 << shift) + 2 * PAD
}

/// The drawing itself.
const DRAWING: Level = Level { shift_x: 0, shift_y: 0, laid_shift_y: 0 };

fn shifts(radii: &Radii) -> (u32, u32) {
    (shift_for(radii.along), shift_for(radii.across))
}

/// Coarse rows to which one row gives, at the most.
const SHARES: usize = 6;

/// What a row gives to coarse rows after so many halvings, from which coarse row on. Three runs of N rows, convolved:
/// the weights 1, 3, 3, 1 applied again and again.
fn spread_row(row: isize, halvings: u32) -> (isize, [f64; SHARES]) {
    let mut shares = [0.0; SHARES];
    let side = 1_isize << halvings;
    let start = row.div_euclid(side) - 1;
    let ways = |k: isize| if k < 0 { 0.0 } else { 0.5 * (k as f64 + 1.0) * (k as f64 + 2.0) };
    let all = (side * side * side) as f64;
    for (k, share) in shares.iter_mut().enumerate().take(3) {
        let place = row - ((start + k as isize) * side - side + 1);
        if place <= 3 * side - 3 {
            *share = (ways(place) - 3.0 * ways(place - side) + 3.0 * ways(place - 2 * side)) / all;
        }
    }
    (start, shares)
}

/// What a row of the drawing gives to coarse rows through its scan lines, from which coarse row on.
fn lay_lines(lines: &Lines, row: f64, halvings: u32) -> (isize, [f64; SHARES]) {
    let mut shares = [0.0; SHARES];
    let side = (1_u64 << halvings) as f64;
    let dense = lines.interval * MOST_LINES < 1.0;
    let lines = if dense { Lines { interval: 1.0 / 64.0, first: 1.0 / 128.0 } } else { *lines };
    let start = floor(row / side - 0.5) - 1.0;
    let mut number = lines.before(row);
    while lines.place(number) < row + 1.0 {
        let place = lines.place(number);
        number += 1.0;
        if place < row {
            continue;
        }
        let t = place / side - 0.5;
        let before = floor(t);
        let first = (before - 1.0 - start) as usize;
        for (share, weight) in shares.iter_mut().skip(first).zip(cubic(t - before)) {
            *share += lines.interval / side * weight;
        }
    }
    (start as isize, shares)
}

/// Weights of the four places −1, 0, 1 and 2 in the cubic through them, at s from 0 to 1.
pub(crate) fn cubic(s: f64) -> [f64; 4] {
    [
        -s * (s - 1.0) * (s - 2.0) / 6.0,
        (s + 1.0) * (s - 1.0) * (s - 2.0) / 2.0,
        -(s + 1.0) * s * (s - 2.0) / 2.0,
        (s + 1.0) * s * (s - 1.0) / 6.0,
    ]
}

impl Samples<'_> {
    /// The first row that may hold ink, and the one behind the last.
    fn rows(&self) -> (isize, isize) {
        match self {
            Self::Drawing(drawing) => (0, drawing.height as isize),
            Self::Coarse { samples, width } => {
                (-(PAD as isize), (samples.len() / width.max(&1)) as isize - PAD as isize)
            }
        }
    }

    /// The samples of a coarse row and [`PAD`] more on either side of it; none above and below.
    #[inline(always)]
    pub(crate) fn with_pads(&self, row: isize) -> &[f32] {
        match self {
            Self::Drawing(_) => &[],
            Self::Coarse { samples, width } => {
                let row = row.checked_add_unsigned(PAD).and_then(|row| usize::try_from(row).ok());
                row.and_then(|row| samples.get(row * width..(row + 1) * width)).unwrap_or(&[])
            }
        }
    }

    /// A row halved so many times, with what lies beside it. None if there is no ink in it.
    fn halved<'l>(&self, row: isize, halvings: u32, line: &'l mut [f32]) -> Option<&'l [f32]> {
        let mut count = match self {
            Self::Drawing(drawing) => {
                let samples = usize::try_from(row).map_or(&[][..], |row| drawing.row(row));
                if samples.iter().fold(0, |all, sample| all | sample) == 0 {
                    return None;
                }
                let (before, inside) = line.split_at_mut_checked(PAD)?;
                before.fill(0.0);
                let (inside, behind) = inside.split_at_mut_checked(samples.len())?;
                for (pixel, sample) in inside.iter_mut().zip(samples) {
                    *pixel = match drawing.kind {
                        SampleKind::Bilevel => f32::from(u8::from(*sample != 0)),
                        SampleKind::Coverage => f32::from(*sample) / 255.0,
                    };
                }
                behind.iter_mut().take(PAD).for_each(|pixel| *pixel = 0.0);
                samples.len()
            }
            Self::Coarse { .. } => {
                let samples = self.with_pads(row);
                if samples.iter().all(|sample| *sample == 0.0) {
                    return None;
                }
                line.get_mut(..samples.len())?.copy_from_slice(samples);
                samples.len().checked_sub(2 * PAD)?
            }
        };
        for _ in 0..halvings {
            count = halve(line, count);
        }
        line.get(..count + 2 * PAD)
    }
}

/// Halves in place a row of so many pixels between pads; how many are left.
fn halve(line: &mut [f32], count: usize) -> usize {
    let half = count.div_ceil(2);
    // The new pixel J is at J + 2 and takes from 2J − 1 to 2J + 2, which are at 2J + 1 to 2J + 4: two of them are those
    // of the pixel before, kept since they may be overwritten.
    let at = |line: &[f32], index: usize| {
        if index < count + 2 * PAD { line.get(index).copied().unwrap_or(0.0) } else { 0.0 }
    };
    let (mut a, mut b) = (0.0, 0.0);
    for index in 0..half + 2 * PAD {
        // index = J + 2, so that 2J + 3 = 2·index − 1.
        let (c, d) =
            if index == 0 { (0.0, at(line, 0)) } else { (at(line, 2 * index - 1), at(line, 2 * index)) };
        if let Some(out) = line.get_mut(index) {
            *out = 0.125 * (a + d) + 0.375 * (b + c);
        }
        (a, b) = (c, d);
    }
    half
}
