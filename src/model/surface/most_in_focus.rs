//! The search for the focus height that keeps most area within the depth of focus.
//!
//! S(f), the share of the area whose heights lie between f + a and f + b, a and b being the ends of the depth, may have
//! any number of peaks, flat tops and jumps. The search asks for it at [`BATCH`] focus heights at once, so that
//! whoever answers need pass over the surface only once for all of them.
//!
//! 1. **Scan**: f at steps of δ = (b − a)/32 over all heights at which the depth lies within the surface's range, from the
//!    lens on; of peaks alike to [`LEEWAY`] the first one is taken. A range of more than 129 depths is scanned in 4096
//!    steps, which are then longer.
//! 2. **Level parts**: S jumps up where a level cell enters the depth at its end away from the lens. Each such f, a hair
//!    beyond, is asked for too, so that the best of a surface of steps is found however narrow its range is.
//! 3. **Climb**: the neighbourhood of the best, narrowed twelve times by 8.5.
//! 4. **Proof**: over all focus heights, that none keeps much more (`no_better.rs` beside this file). One that does
//!    is climbed in turn.
//! 5. **Middle**: the range about it in which S is within [`LEEWAY`] of the greatest is followed to both its ends,
//!    by steps of δ and then by narrowing one step thirteen times by 9. Its middle is the answer: half-way along a flat top,
//!    where surface and focus have most room to err. (It is also how a smooth peak is found to more digits than half
//!    those of a double.)
//!
//! So, whatever the surface: **no focus height keeps more** than the answer does, but for the tolerance of the proof and
//! [`LEEWAY`] of the area. Where two parts lie one depth apart to a millionth of it, the proof does not tell whether
//! both fit: there the promise is that of a depth shorter by that. (Every f lies within half of the narrowest section of one
//! that was asked for, and the shorter depth about that f is part of the full depth about this one.)

use super::bilinear::Band;
use super::no_better::{PLACES, Sections, proven};
use crate::model::math;

/// How many focus heights are asked for at once.
pub(super) const BATCH: usize = 16;
/// Shares that differ by less are alike: a millionth of the area.
pub(super) const LEEWAY: f64 = 1e-6;
const STEPS_IN_DEPTH: f64 = 32.0;
const MOST_STEPS: f64 = 4096.0;
/// How far beyond a jump S is asked for, as a share of the depth: a step must stay in focus over more than that.
const BEYOND_JUMP: f64 = 1e-9;
const CLIMBS: u32 = 12;
const NARROWINGS: u32 = 13;

/// A focus height and the share that it keeps.
#[derive(Clone, Copy)]
pub(super) struct Found {
    pub(super) focus_z: f64,
    pub(super) share: f64,
}

/// Fills a batch by the place in it, counted from zero.
fn batch(at: impl Fn(f64) -> f64) -> [f64; BATCH] {
    let mut all = [0.0; BATCH];
    let mut place = 0.0;
    for each in &mut all {
        *each = at(place);
        place += 1.0;
    }
    all
}

/// The focus height whose depth of focus keeps most of a surface that reaches from `highest` to `lowest`; `depth` is
/// relative to the focus height, `shares` gives the share of the area that each of a batch of focus heights keeps,
/// `sections` what is known between some, `for_each_level` shows the height of every level cell.
pub(super) fn most_in_focus(
    highest: f64,
    lowest: f64,
    depth: Band,
    for_each_level: impl Fn(&mut dyn FnMut(f64)),
    shares: impl Fn(&[f64; BATCH]) -> [f64; BATCH],
    sections: impl Fn(&[f64; PLACES]) -> Sections,
) -> f64 {
    let full = depth.away_from_lens_z - depth.toward_lens_z;
    let range = lowest - highest;
    if range <= full {
        // All of it, with as much room on one side as on the other.
        return 0.5 * ((highest - depth.toward_lens_z) + (lowest - depth.away_from_lens_z));
    }
    let spare = range - full;
    let step = math::greater(full / STEPS_IN_DEPTH, spare / MOST_STEPS);
    let start = highest - depth.toward_lens_z - 0.5 * step;
    let end = lowest - depth.away_from_lens_z + 0.5 * step;
    let entering = depth.away_from_lens_z - BEYOND_JUMP * full;
    let best = at_levels(scanned(start, end, step, &shares), entering, &for_each_level, &shares);
    let climbed_first = climbed(best, step, &shares);
    // Farther out, the depth leaves the surface's range and holds less.
    let all = (highest - depth.toward_lens_z, lowest - depth.away_from_lens_z);
    let best = proven(climbed_first, all, full, &sections);
    let best = if best.share > climbed_first.share { climbed(best, step, &shares) } else { best };
    let middle =
        middle_of_top(best, step, (highest - depth.away_from_lens_z, lowest - depth.toward_lens_z), &shares);
    let [kept, ..] = shares(&[middle; BATCH]);
    // The range may have a dip narrower than a step.
    if kept >= best.share - LEEWAY { middle } else { best.focus_z }
}

/// The best of all steps, or the first of those that are alike.
fn scanned(start: f64, end: f64, step: f64, shares: &impl Fn(&[f64; BATCH]) -> [f64; BATCH]) -> Found {
    let mut best = Found { focus_z: start, share: -1.0 };
    // Whether S has been lower since the best: then what follows is another peak.
    let mut has_fallen = false;
    let mut done = 0.0;
    while start + done * step <= end {
        let asked = batch(|place| start + (done + place) * step);
        for (&focus_z, share) in asked.iter().zip(shares(&asked)) {
            let wanted = if has_fallen { best.share + LEEWAY } else { best.share };
            if share > wanted {
                best = Found { focus_z, share };
                has_fallen = false;
            } else if share < best.share - LEEWAY {
                has_fallen = true;
            }
        }
        done += BATCH as f64;
    }
    best
}

/// The best so far, or a better one at which a level cell has just entered the depth, `entering` beyond the focus.
fn at_levels(
    found: Found,
    entering: f64,
    for_each_level: &impl Fn(&mut dyn FnMut(f64)),
    shares: &impl Fn(&[f64; BATCH]) -> [f64; BATCH],
) -> Found {
    let mut best = found;
    let mut look_at = |asked: &[f64; BATCH]| {
        for (&focus_z, share) in asked.iter().zip(shares(asked)) {
            if share > best.share + LEEWAY {
                best = Found { focus_z, share };
            }
        }
    };
    let mut asked = [found.focus_z; BATCH];
    let mut waiting = 0;
    let mut last = f64::NAN;
    for_each_level(&mut |z| {
        if z == last {
            return;
        }
        last = z;
        if let Some(place) = asked.get_mut(waiting) {
            *place = z - entering;
        }
        waiting += 1;
        if waiting == BATCH {
            look_at(&asked);
            waiting = 0;
        }
    });
    // Those of the batch that were asked for before do no harm.
    look_at(&asked);
    best
}

/// The best in the neighbourhood of a place.
fn climbed(found: Found, step: f64, shares: &impl Fn(&[f64; BATCH]) -> [f64; BATCH]) -> Found {
    let mut best = found;
    let mut reach = step;
    for _ in 0..CLIMBS {
        let spacing = 2.0 * reach / (BATCH as f64 + 1.0);
        let from = best.focus_z - reach;
        let asked = batch(|place| from + (place + 1.0) * spacing);
        for (&focus_z, share) in asked.iter().zip(shares(&asked)) {
            if share > best.share {
                best = Found { focus_z, share };
            }
        }
        reach = spacing;
    }
    best
}

/// One end of the range in which S is nearly the greatest.
#[derive(Clone, Copy)]
struct End {
    /// The outermost place known to belong to it.
    within: f64,
    /// How far on the next place is that does not; the sign says which way.
    gap: f64,
    /// Whether that place was found.
    is_closed: bool,
}

impl End {
    /// The place of a batch that is this many parts of the gap away.
    fn at(&self, parts: f64, divisor: f64) -> f64 {
        self.within + self.gap * (parts / divisor)
    }

    /// Moves on over places in order, from near to far, as far as they belong to the range.
    fn follow(&mut self, asked: impl Iterator<Item = (f64, f64)>, least: f64) {
        for (place, share) in asked {
            if share < least {
                self.is_closed = true;
                return;
            }
            self.within = place;
        }
    }
}

/// The middle of the range about the best in which S is at most [`LEEWAY`] less; it ends at `bounds` at the latest.
fn middle_of_top(
    best: Found,
    step: f64,
    bounds: (f64, f64),
    shares: &impl Fn(&[f64; BATCH]) -> [f64; BATCH],
) -> f64 {
    const HALF: usize = BATCH / 2;
    let least = best.share - LEEWAY;
    let mut toward = End { within: best.focus_z, gap: -step, is_closed: false };
    let mut away = End { within: best.focus_z, gap: step, is_closed: false };
    // Half of each batch goes one way and half the other.
    let half = HALF as f64;
    let ask = |toward: &End, away: &End, divisor: f64| {
        let asked = batch(|place| {
            if place < half { toward.at(place + 1.0, divisor) } else { away.at(place + 1.0 - half, divisor) }
        });
        let kept = shares(&asked);
        (asked, kept)
    };
    // There are no more steps than this between the bounds.
    for _ in 0..(2 * MOST_STEPS as u32) / HALF as u32 {
        let (asked, kept) = ask(&toward, &away, 1.0);
        let pairs = || asked.iter().copied().zip(kept);
        if !toward.is_closed {
            toward.follow(pairs().take(HALF), least);
            toward.is_closed |= toward.within < bounds.0;
        }
        if !away.is_closed {
            away.follow(pairs().skip(HALF), least);
            away.is_closed |= away.within > bounds.1;
        }
        if toward.is_closed && away.is_closed {
            break;
        }
    }
    for _ in 0..NARROWINGS {
        let parts = half + 1.0;
        let (asked, kept) = ask(&toward, &away, parts);
        let pairs = || asked.iter().copied().zip(kept);
        toward.follow(pairs().take(HALF), least);
        away.follow(pairs().skip(HALF), least);
        toward.gap /= parts;
        away.gap /= parts;
    }
    0.5 * (toward.within + away.within)
}
