//! Which share of each pixel an outline covers, tile by tile.
//!
//! What lies beyond a tile is moved to lines one pixel outside it, straight sideways or up and down: an outline
//! left of the tile still counts for the pixels to its right, and one above, below or right of it for none. So the
//! rasteriser's numbers stay within a tile and a pixel.

use super::flatten::Parts;
use crate::model::math;
use alloc::vec::Vec;
use zeno::{Command, Fill, Mask, Point};

/// Greatest width and height of a tile in pixels.
pub(super) const TILE: usize = 256;
/// Longest line handed to the rasteriser, in pixels: its slopes have 24 bits, 12 of which this leaves.
const LONGEST: f64 = 16.0;
/// Points that share a box.
const RUN: usize = 32;
/// After so many points the rasteriser is made to store what it has added up of a pixel.
const FLUSH: usize = 4096;

/// Points in a row, and their box.
struct Run {
    points: Vec<[f64; 2]>,
    least: [f64; 2],
    greatest: [f64; 2],
    /// Whether the part of the outline begins here.
    begins: bool,
}

/// An outline in pixels, ready to be drawn tile by tile.
pub(super) struct Outline {
    runs: Vec<Run>,
}

/// Where a tile lies among the pixels.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tile {
    pub(super) left: usize,
    pub(super) top: usize,
    pub(super) width: usize,
    pub(super) height: usize,
}

impl Outline {
    /// Takes points in pixels from the upper left corner of the drawing.
    pub(super) fn new(parts: &Parts) -> Self {
        // The rasteriser rounds shares of the one sense up where it rounds those of the other down: half a pixel
        // is 128 or 127. Turned so that most of it has the first sense, every drawing is rounded alike.
        let turned = parts.parts().map(|(part, _)| twice_area(part)).sum::<f64>() > 0.0;
        let mut runs = Vec::new();
        for (part, _) in parts.parts() {
            let mut part = part.to_vec();
            if turned {
                part.reverse();
            }
            for (i, chunk) in part.chunks(RUN).enumerate() {
                let mut run = Run {
                    points: chunk.to_vec(),
                    least: [f64::INFINITY; 2],
                    greatest: [f64::NEG_INFINITY; 2],
                    begins: i == 0,
                };
                for &[x, y] in chunk {
                    run.least = [run.least[0].min(x), run.least[1].min(y)];
                    run.greatest = [run.greatest[0].max(x), run.greatest[1].max(y)];
                }
                runs.push(run);
            }
        }
        Self { runs }
    }

    /// Writes the covered share of each pixel of a tile, 0 to 255, row by row. `lines` is room, used anew each time.
    pub(super) fn cover(
        &self,
        tile: Tile,
        even_odd: bool,
        lines: &mut Vec<Command>,
        shares: &mut [u8],
    ) -> bool {
        let mut pen = TilePen {
            origin: [tile.left as f64, tile.top as f64],
            size: [tile.width as f64, tile.height as f64],
            at: [0.0; 2],
            since_flush: 0,
            lines,
        };
        pen.lines.clear();
        let mut start = None;
        for run in &self.runs {
            let mut points = run.points.iter().copied();
            if run.begins {
                if let Some(start) = start {
                    pen.line(start);
                }
                start = points.next();
                if let Some(start) = start {
                    pen.begin(start);
                }
            }
            if pen.all_outside(run) {
                // All moved to one line, on which only the last point counts.
                if let Some(last) = points.last() {
                    pen.line(last);
                }
            } else {
                points.for_each(|point| pen.line(point));
            }
        }
        if let Some(start) = start {
            pen.line(start);
        }
        if pen.lines.iter().all(|command| matches!(command, Command::MoveTo(_))) {
            return false;
        }
        shares.fill(0);
        let fill = if even_odd { Fill::EvenOdd } else { Fill::NonZero };
        Mask::new(pen.lines.as_slice())
            .style(fill)
            .size(tile.width as u32, tile.height as u32)
            .render_into(shares, Some(tile.width));
        true
    }
}

/// Twice the area of a closed part, with the sign of its sense.
fn twice_area(part: &[[f64; 2]]) -> f64 {
    let next = part.iter().skip(1).chain(part.first());
    part.iter().zip(next).map(|([x0, y0], [x1, y1])| x0 * y1 - x1 * y0).sum()
}

struct TilePen<'l> {
    origin: [f64; 2],
    size: [f64; 2],
    /// Where the last line ended, before it was moved.
    at: [f64; 2],
    since_flush: usize,
    lines: &'l mut Vec<Command>,
}

impl TilePen<'_> {
    fn all_outside(&self, run: &Run) -> bool {
        let [least_x, least_y] = self.local(run.least);
        let [greatest_x, greatest_y] = self.local(run.greatest);
        // The line into the run counts too.
        let [x, y] = self.at;
        let [width, height] = self.size;
        least_x.min(x) >= width + 1.0
            || greatest_x.max(x) <= -1.0
            || least_y.min(y) >= height + 1.0
            || greatest_y.max(y) <= -1.0
    }

    fn local(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [left, top] = self.origin;
        [x - left, y - top]
    }

    /// A point moved to the tile and a pixel around it, on the grid of 1/256 pixel.
    fn moved(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [width, height] = self.size;
        let on_grid = |v: f64, most: f64| math::round(256.0 * v.clamp(-1.0, most + 1.0)) / 256.0;
        [on_grid(x, width), on_grid(y, height)]
    }

    fn begin(&mut self, point: [f64; 2]) {
        let point = self.local(point);
        self.at = point;
        let [x, y] = self.moved(point);
        self.lines.push(Command::MoveTo(Point::new(x as f32, y as f32)));
    }

    fn line(&mut self, to: [f64; 2]) {
        let to = self.local(to);
        let from = self.at;
        self.at = to;
        let [width, height] = self.size;
        // Where it crosses the lines around the tile, as shares of its length.
        let mut cuts = [0.0; 5];
        let [x_cuts, y_cuts] = [crossings(from[0], to[0], width), crossings(from[1], to[1], height)];
        let mut count = 0;
        for (cut, share) in cuts.iter_mut().zip(x_cuts.into_iter().chain(y_cuts).flatten()) {
            *cut = share;
            count += 1;
        }
        if let Some(found) = cuts.get_mut(..count) {
            found.sort_unstable_by(f64::total_cmp);
        }
        for &t in cuts.iter().take(count) {
            self.piece([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
        }
        self.piece(to);
    }

    /// A line that crosses none of the lines around the tile.
    fn piece(&mut self, to: [f64; 2]) {
        let to = self.moved(to);
        let Some(Command::MoveTo(from) | Command::LineTo(from)) = self.lines.last().copied() else {
            return;
        };
        let from = [f64::from(from.x), f64::from(from.y)];
        let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        if dx == 0.0 && dy == 0.0 {
            return;
        }
        let longest = math::fabs(dx).max(math::fabs(dy));
        // Level and upright lines are exact at any length.
        let count = if dx == 0.0 || dy == 0.0 { 1 } else { math::ceil(longest / LONGEST) as usize };
        for i in 1..=count {
            let t = i as f64 / count as f64;
            let [x, y] = self.moved([from[0] + t * dx, from[1] + t * dy]);
            self.lines.push(Command::LineTo(Point::new(x as f32, y as f32)));
        }
        self.since_flush += count;
        if self.since_flush >= FLUSH {
            // Over to another pixel and back, level: covers nothing.
            self.since_flush = 0;
            let aside = if to[0] < 1.0 { to[0] + 1.0 } else { to[0] - 1.0 };
            self.lines.push(Command::LineTo(Point::new(aside as f32, to[1] as f32)));
            self.lines.push(Command::LineTo(Point::new(to[0] as f32, to[1] as f32)));
        }
    }
}

/// Where a line crosses −1 and `most` + 1, as shares of it.
fn crossings(from: f64, to: f64, most: f64) -> [Option<f64>; 2] {
    [-1.0, most + 1.0].map(|edge| {
        let crosses = (from < edge) != (to < edge);
        crosses.then(|| (edge - from) / (to - from)).filter(|t| *t > 0.0 && *t < 1.0)
    })
}
