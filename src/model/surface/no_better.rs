//! The proof that no focus height keeps much more of a surface within the depth than the best one found.
//!
//! | symbol     | meaning                                                                       | unit |
//! |------------|-------------------------------------------------------------------------------|------|
//! | F(z), F⁻(z) | share of the area whose height is at most z; whose height is less           | 1    |
//! | a, b       | ends of the depth, from the focus                                             | m    |
//! | S(f)       | share in focus: F(f + b) − F⁻(f + a)                                          | 1    |
//!
//! Both F rise. Over all f of a **section**, from f₁ to f₂, no S(f) is more than the lesser of
//!
//! F(f₂ + b) − F⁻(f₁ + a)                                the share within the wider band that holds all those depths
//! max(S(f₁), S(f₂)) + Σ bends of all cells              S may leave the chord over the section by no more
//!
//! The first is exact where heights only enter the depth, or only leave it, and stays good however they jump. The
//! second gains with the square of the width. It rests on how the area of one bilinear cell is spread over heights:
//! on a piece of z = c + r·(u − u₀)·(v − v₀) with u − u₀ and v − v₀ of one sign each, the density of heights is
//! |∫ du/(r·(u − u₀))|, the logarithm of the ratio of the ends of u, which rises with z, then stays as it is, then falls.
//! So the density of a cell rises up to its **mode**, from the second of its corner heights to the third, is the same all
//! along it, and falls beyond; of a saddle, both of whose heights on one diagonal exceed those on the other, the mode is
//! the height (z₀₀·z₁₁ − z₁₀·z₀₁)/(z₀₀ + z₁₁ − z₁₀ − z₀₁) at which it is level, where the density is infinite. F of a cell
//! is therefore convex up to the end of its mode, and below its chord, and concave from the start of its mode on. A concave
//! function leaves its chord by at most twice what it leaves it by in the middle. Where a section holds the whole mode
//! of a cell, what F rises by there stands for the bend.
//!
//! The proof walks over all focus heights in sections, wider after those that are proven and narrower after one that is
//! not; a section of no more than [`NARROWEST`] of the depth is let pass. Sections that are one beside another have all their
//! rises together within twice the area, so that at any one width no more than 2/[`TOLERANCE`] of them resist.

use super::bilinear::{Band, Cell, Split};
use super::most_in_focus::{Found, LEEWAY};
use crate::model::math;

/// How many sections are looked at together.
pub(super) const SECTIONS: usize = 8;
/// Their ends and their middles.
pub(super) const PLACES: usize = 2 * SECTIONS + 1;
/// No height keeps more by this share of the area, as far as is proven.
pub(super) const TOLERANCE: f64 = 1e-5;
/// As a share of the depth: a millionth.
const NARROWEST: f64 = 1.0 / (1 << 20) as f64;
/// As a share of the range, so that a section is wider than the last digit of its ends.
const NARROWEST_OF_RANGE: f64 = 1.0 / (1_u64 << 44) as f64;
/// By how much sections are widened or narrowed.
const PACE: f64 = 8.0;

/// What is known of some sections that lie one beside another.
pub(super) struct Sections {
    /// How the area divides about the depth of each end and each middle.
    pub(super) splits: [Split; PLACES],
    /// By how much S may exceed its chord over each section.
    pub(super) bends: [f64; SECTIONS],
}

impl Cell {
    /// The heights between which the density of the cell's heights is greatest.
    pub(super) fn mode(&self) -> (f64, f64) {
        let one = (math::lesser(self.z00, self.z11), math::greater(self.z00, self.z11));
        let other = (math::lesser(self.z10, self.z01), math::greater(self.z10, self.z01));
        let (start, end) = (math::greater(one.0, other.0), math::lesser(one.1, other.1));
        if start <= end {
            return (start, end);
        }
        // All of one diagonal is higher than all of the other. Counted from a corner, nothing cancels.
        let (p, q) = (self.z10 - self.z00, self.z01 - self.z00);
        let level = self.z00 - p * (q / ((self.z11 - self.z10) - q));
        (level, level)
    }
}

/// By how much the share of one cell in focus may exceed its chord over a section: the depths about its ends, and how the
/// cell divides about those and about the depth in the middle.
pub(super) fn bend(mode: (f64, f64), depths: (Band, Band), start: Split, middle: Split, end: Split) -> f64 {
    let (first, last) = depths;
    // At its end away from the lens the depth gains what it reaches: above the chord where that is concave.
    let gained = start.away_from_lens - end.away_from_lens;
    let above = if gained <= 0.0 || last.away_from_lens_z <= mode.1 {
        0.0
    } else if first.away_from_lens_z >= mode.0 {
        start.away_from_lens + end.away_from_lens - 2.0 * middle.away_from_lens
    } else {
        gained
    };
    // At the other it loses: less than the chord says where that is convex.
    let lost = end.toward_lens - start.toward_lens;
    let below = if lost <= 0.0 || first.toward_lens_z >= mode.0 {
        0.0
    } else if last.toward_lens_z <= mode.1 {
        start.toward_lens + end.toward_lens - 2.0 * middle.toward_lens
    } else {
        lost
    };
    math::greater(above, 0.0) + math::greater(below, 0.0)
}

/// The best of all, or one that is no more than [`TOLERANCE`] worse: the one found so far, or a better one met on the way
/// from `start` to `end`.
pub(super) fn proven(
    found: Found,
    (start, end): (f64, f64),
    full: f64,
    sections: impl Fn(&[f64; PLACES]) -> Sections,
) -> Found {
    let mut best = found;
    let narrowest = math::greater(NARROWEST * full, NARROWEST_OF_RANGE * (end - start));
    let mut from = start;
    let mut width = (end - start) / SECTIONS as f64;
    while from < end {
        let mut places = [from; PLACES];
        let mut halves = 0.0;
        for place in &mut places {
            *place = from + halves * (0.5 * width);
            halves += 1.0;
        }
        let Sections { splits, bends } = sections(&places);
        for (&focus_z, split) in places.iter().zip(&splits) {
            if split.within > best.share + LEEWAY {
                best = Found { focus_z, share: split.within };
            }
        }
        let mut passed = 0.0;
        for (ends, bend) in splits.windows(3).step_by(2).zip(bends) {
            let [first, _, last] = ends else { break };
            let in_wider = 1.0 - first.toward_lens - last.away_from_lens;
            let over_chord = math::greater(first.within, last.within) + bend;
            if math::lesser(in_wider, over_chord) > best.share + TOLERANCE {
                break;
            }
            passed += 1.0;
        }
        if passed == 0.0 && width <= narrowest {
            passed = 1.0;
        }
        from += passed * width;
        width = if passed == SECTIONS as f64 { PACE * width } else { math::greater(width / PACE, narrowest) };
    }
    best
}
