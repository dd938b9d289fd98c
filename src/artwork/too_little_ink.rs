//! Which pieces have so little ink around them that no pixel of them can mark.
//!
//! | symbol | meaning                                                                          | unit |
//! |--------|----------------------------------------------------------------------------------|------|
//! | a, b   | pitch of the pixels along a row and from row to row                              | m    |
//! | v_x, v_y | least spot **radius** along and across, blur included                          | m    |
//! | w_x, w_y | greatest spot radius along and across                                          | m    |
//! | X, Y   | half sides of a rectangle of whole pixels about the centre of one                | m    |
//! | n      | pixels with any ink in that rectangle                                            |      |
//! | p      | line interval; 0 for an even fill                                                | m    |
//!
//! exposure of that centre ≤ n·(2/π)·a·b·k/(v_x·v_y) + tail
//! tail = erfc(√2·X/w_x)·m + erfc(√2·(Y − p)/w_y)
//!
//! Derived here: no pixel gives more than all of its area at the peak of the Gaussian, √(2/π)/v along each axis. Of lines
//! a row holds b/p and one more at the most, each with p: k = 1 + p/b, and 1 for an even fill or where all rows have their lines
//! alike. A sample that is a point gives a·√(2/π)/v′ along its axis, v′² = v² − a²/3. What lies beside the rectangle gives at most a
//! full fill's share: beside it in x, m = 1 + p·√(2/π)/v_y times erfc(√2·X/w_x), as lines sum up to no more than their integral
//! and one line more; above and below, lines in a falling curve sum up to no more than the integral from one interval before.
//! Points leave no more there than boxes do (`artwork/quick_answer.rs`).

use super::bands::Pace;
use super::bitmap::Bitmap;
use super::preflight::Known;
use super::runs::rows_at_a_time;
use super::strokes::{CentreShare, add_component_shares};
use super::watch::Watch;
use crate::error::Error;
use crate::model::math;

/// Pixels of the rectangle on either side of its middle: its rows fit into a word.
const WIDEST: f64 = 31.0;
/// So many spot radii the rectangle reaches, if it may.
const REACH: f64 = 1.5;
/// Nanoseconds that a row of a rectangle takes, about.
const NANOSECONDS: usize = 3;
/// √(2/π).
const ROOT_TWO_OVER_PI: f64 = 0.797_884_560_802_865_4;
/// One row of a rectangle is looked at for so many pixels of the drawing, at the most, and some more.
const SHARE_OF_PIXELS: usize = 8;
const SOME_ROWS: usize = 100_000;

/// What bounds the exposure by the ink around.
pub(crate) struct Around {
    pub(crate) pitch: [f64; 2],
    pub(crate) least_radius: [f64; 2],
    pub(crate) greatest_radius: [f64; 2],
    /// Whether samples may be points along that axis.
    pub(crate) points: [bool; 2],
    pub(crate) line_interval: f64,
    /// Whether rows have their lines alike, if there are lines.
    pub(crate) lines_alike: bool,
    /// Least exposure that marks.
    pub(crate) shows: f64,
}

/// The rectangle, and how many pixels with ink in it are too few.
struct Window {
    columns: usize,
    rows: usize,
    enough: f64,
}

impl Around {
    fn window(&self) -> Window {
        let [a, b] = self.pitch;
        let [w_x, w_y] = self.greatest_radius;
        let p = self.line_interval;
        let reach = |w: f64, pitch: f64| math::lesser(math::ceil(REACH * w / pitch), WIDEST);
        let (columns, rows) = (reach(w_x, a), math::lesser(math::ceil((REACH * w_y + p) / b), WIDEST));
        let beside = |half: f64, w: f64| {
            if half > 0.0 { math::erfc(core::f64::consts::SQRT_2 * half / w) } else { 1.0 }
        };
        let peak = |v: f64, pitch: f64, point: bool| {
            let square = if point { v * v - pitch * pitch / 3.0 } else { v * v };
            pitch * ROOT_TWO_OVER_PI / math::sqrt(square)
        };
        let ([v_x, v_y], [point_x, point_y]) = (self.least_radius, self.points);
        let more = if p > 0.0 && !self.lines_alike { 1.0 + p / b } else { 1.0 };
        let each = peak(v_x, a, point_x) * peak(v_y, b, point_y) * more;
        let lines = 1.0 + p * ROOT_TWO_OVER_PI / v_y;
        let tail = beside((columns + 0.5) * a, w_x) * lines + beside((rows + 0.5) * b - p, w_y);
        Window { columns: columns as usize, rows: rows as usize, enough: (self.shows - tail) / each }
    }
}

/// How many pieces, specks left out, surely come to nothing: none of their pixels is surely marked, and none has enough ink
/// around it. None if that would take long to tell. `touched` has all pixels with any ink.
pub(crate) fn pieces_without_enough(
    around: &Around,
    known: &mut Known<'_>,
    surely: Bitmap<'_>,
    touched: Bitmap<'_>,
    watch: &mut Watch<'_>,
) -> Result<u32, Error> {
    let window = around.window();
    // NaN where a spot is too fine for points.
    if window.enough.is_nan() || window.enough <= 0.0 {
        return Ok(0);
    }
    let (width, height) = (touched.width(), touched.height());
    known.shares.fill(CentreShare::default());
    let piece = rows_at_a_time(width);
    for first in (0..height).step_by(piece) {
        for y in first..height.min(first + piece) {
            let runs = known.parts.ink.row(y).map(|run| (run.start, run.end, run.label));
            add_component_shares(surely.row(y), surely.row(y), runs, known.shares);
        }
        watch.done(0.3 * first as f64 / height as f64)?;
    }
    let mut left = width * height / SHARE_OF_PIXELS + SOME_ROWS;
    let mut pace = Pace::new();
    for y in 0..height {
        let before = left;
        for run in known.parts.ink.row(y) {
            let place = (run.label as usize).wrapping_sub(1);
            let Some(share) = known.shares.get_mut(place).filter(|share| share.pixels == 0) else { continue };
            for x in run.start..run.end {
                let Some(rest) = left.checked_sub(2 * window.rows + 1) else { return Ok(0) };
                left = rest;
                if window.ink(touched, x, y) as f64 >= window.enough {
                    share.pixels = 1;
                    break;
                }
            }
        }
        if pace.is_due(width + NANOSECONDS * (before - left)) {
            watch.done(0.3 + 0.7 * y as f64 / height as f64)?;
        }
    }
    Ok(known.shares.iter().filter(|share| share.pixels == 0).count() as u32)
}

impl Window {
    /// Pixels that are set in the rectangle about one.
    fn ink(&self, mask: Bitmap<'_>, x: usize, y: usize) -> u32 {
        let first = x.saturating_sub(self.columns);
        let length = x + self.columns + 1 - first;
        let bits = (1_u64 << length) - 1;
        let (word, shift) = (first / 64, first % 64);
        let rows = y.saturating_sub(self.rows)..(y + self.rows + 1).min(mask.height());
        rows.map(|row| {
            let row = mask.row(row);
            let at = |index: usize| row.get(index).copied().unwrap_or(0);
            let above = if shift == 0 { 0 } else { at(word + 1) << (64 - shift) };
            ((at(word) >> shift | above) & bits).count_ones()
        })
        .sum()
    }
}
