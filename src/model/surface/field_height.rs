//! The height of a flat table at which the largest spot over the field of a scan head is smallest.
//!
//! With q = (r/R)² every growth of [`scan_field`](super::scan_field) is a convex function of the height z of the
//! table, least at its focus z_T·q or z_S·q, and the largest of them all is convex too. The best height is where that
//! has its least: below it the place with the largest spot has its focus higher up, above it lower down, so that
//! the height is found by halving. It lies between the highest and the lowest focus.
//!
//! Where light falls straight down and all spots are alike in focus, g² − 1 is the square of the defocus over the Rayleigh
//! range, and the best height is halfway. Else, at one height, the growth along or across the radius is a smooth function of
//! q, whose greatest value is mostly at an end, but not always: each is looked at in [`STEPS`] equal steps, and every
//! peak that may be the greatest is closed in on between its neighbours.
//!
//! At the best height a spot in the middle or at the edge is as large as any. Either the largest is in focus, and then at
//! the edge, as s/cos α rises outward; or of two that are as large one has its focus beyond the table: there the defocus over s,
//! too, rises outward, so that this one is at the edge or, if the table is at the focus on the axis, in the middle.

use super::scan_field::Checked;
use crate::model::math;
use crate::model::twofold::Twofold;

const STEPS: usize = 16;
/// How near the end of a field is looked at to tell whether the growth rises up to there, as a share of a step.
const ASIDE: f64 = 1.0 / 64.0;
/// (√5 − 1)/2, by which each step closes in.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
const CLOSINGS: u32 = 30;
/// No peak of g² − 1 exceeds the step next to it by this share.
const PEAK: f64 = 0.1;
/// More halvings than there are doubles worth telling apart between two foci.
const HALVINGS: u32 = 100;

/// One place of a field: all that does not depend on the height of the table.
#[derive(Clone, Copy)]
pub(super) struct Place {
    /// q
    pub(super) share_squared: f64,
    /// z_T·q and z_S·q
    pub(super) tangential_focus: f64,
    pub(super) sagittal_focus: f64,
    /// z_R·s·cos α
    pub(super) reach: f64,
    /// s² − 1
    pub(super) stretched: f64,
    /// sin α and cos α
    pub(super) sine: f64,
    pub(super) cosine: f64,
}

/// In which direction a spot is measured.
#[derive(Clone, Copy)]
enum Direction {
    Along,
    Across,
}

impl Place {
    fn focus(&self, direction: Direction) -> f64 {
        match direction {
            Direction::Along => self.tangential_focus,
            Direction::Across => self.sagittal_focus,
        }
    }

    /// g² − 1 on a table at this height.
    fn excess(&self, direction: Direction, z: f64) -> f64 {
        let defocus = (z - self.focus(direction)) / self.reach;
        match direction {
            // (s² + u²)/cos² − 1 = (s² − 1 + u² + sin²)/cos²
            Direction::Along => {
                (self.stretched + defocus * defocus + self.sine * self.sine) / (self.cosine * self.cosine)
            }
            Direction::Across => self.stretched + defocus * defocus,
        }
    }
}

/// The best height for the part of a field within this q.
pub(super) fn best_height(field: &Checked, exact_share_squared: Twofold) -> Twofold {
    let share_squared = exact_share_squared.to_f64();
    let step = share_squared / STEPS as f64;
    let mut places = [field.place(share_squared); STEPS + 1];
    let mut steps = 0.0;
    // The last is at the edge as it is.
    for place in places.iter_mut().take(STEPS) {
        *place = field.place(steps * step);
        steps += 1.0;
    }
    let edge = field.place(share_squared);
    let foci = [0.0, edge.tangential_focus, edge.sagittal_focus];
    let worst_focus = |z: f64| focus_of_largest(field, &places, step, z);
    // Where the largest spot is in focus, no height makes it smaller.
    let edge_foci = [0.0, field.lens.edge_tangential_z, field.lens.edge_sagittal_z];
    for (focus, edge_focus) in foci.into_iter().zip(edge_foci) {
        if worst_focus(focus) == focus {
            return exact_share_squared * edge_focus.into();
        }
    }
    let mut highest = foci.into_iter().fold(0.0, math::lesser);
    let mut lowest = foci.into_iter().fold(0.0, math::greater);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (highest + lowest);
        if !(highest < middle && middle < lowest) {
            break;
        }
        if worst_focus(middle) > middle {
            highest = middle;
        } else {
            lowest = middle;
        }
    }
    (0.5 * (highest + lowest)).into()
}

/// The focus, in the direction in which it is largest, of the largest spot on a table at this height.
fn focus_of_largest(field: &Checked, places: &[Place; STEPS + 1], step: f64, z: f64) -> f64 {
    let most = step * STEPS as f64;
    let (mut largest, mut focus) = (f64::NEG_INFINITY, 0.0);
    for direction in [Direction::Along, Direction::Across] {
        let excess_at = |q: f64| field.place(q).excess(direction, z);
        let excesses = places.map(|place| place.excess(direction, z));
        let before = core::iter::once(f64::NEG_INFINITY).chain(excesses);
        let after = excesses.into_iter().skip(1).chain(core::iter::once(f64::NEG_INFINITY));
        for (((place, excess), before), after) in places.iter().zip(excesses).zip(before).zip(after) {
            // A peak next to this step is hardly higher.
            let is_peak = excess > before && excess >= after;
            if !is_peak || excess + PEAK * math::fabs(excess) <= largest {
                continue;
            }
            let at = place.share_squared;
            let inward = if at == 0.0 { step * ASIDE } else { at - step * ASIDE };
            let is_end = at == 0.0 || at >= most;
            let peak = if is_end && excess_at(inward) <= excess {
                *place
            } else {
                field.place(greatest_between(
                    (math::greater(at - step, 0.0), math::lesser(at + step, most)),
                    excess_at,
                ))
            };
            let excess = math::greater(peak.excess(direction, z), excess);
            if excess > largest {
                (largest, focus) = (excess, peak.focus(direction));
            }
        }
    }
    focus
}

/// Where a function that rises and then falls between two places is greatest.
fn greatest_between((mut first, mut last): (f64, f64), function: impl Fn(f64) -> f64) -> f64 {
    let mut inner = [last - GOLDEN * (last - first), first + GOLDEN * (last - first)];
    let mut values = inner.map(&function);
    for _ in 0..CLOSINGS {
        let ([left, right], [at_left, at_right]) = (inner, values);
        if at_left >= at_right {
            last = right;
            inner = [last - GOLDEN * (last - first), left];
            values = [function(inner[0]), at_left];
        } else {
            first = left;
            inner = [right, first + GOLDEN * (last - first)];
            values = [at_right, function(inner[1])];
        }
    }
    0.5 * (first + last)
}
