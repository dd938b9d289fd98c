//! Where one formula takes over from another, what neighbouring doubles give differs by rounding only.
//!
//! Each test finds the pair of neighbouring doubles between which the change-over lies. Four of the quantities have
//! an infinite slope there, which turns a rounding ε of the input into √ε; the tests say which. (More such tests
//! stand by their functions, in `mark.rs` and `marks.rs`.)

use super::given::*;
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::mark::{
    FillQuality, FillWidth, GratingContrast, MarkKind, Taste, contrast_at_pitch, fill_limits, fill_quality,
    fill_width, mark_limits, mark_width, offset_for_taste, pulsed_line, raster_ripple,
};
use spotwise::model::optics::Beam;
use std::f64::consts::{PI, SQRT_2};

/// The neighbouring doubles between which what holds for the lower of two positive numbers holds no more, or
/// begins to hold.
fn change_over(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> [f64; 2] {
    let (mut below, mut above) = (low.to_bits(), high.to_bits());
    let at_first = holds(low);
    assert!(holds(high) != at_first, "no change from {low:e} to {high:e}");
    while above - below > 1 {
        let middle = below + (above - below) / 2;
        if holds(f64::from_bits(middle)) == at_first {
            below = middle;
        } else {
            above = middle;
        }
    }
    [f64::from_bits(below), f64::from_bits(above)]
}

/// Those doubles and their own neighbours.
fn around([below, above]: [f64; 2]) -> [f64; 6] {
    [
        below.next_down().next_down(),
        below.next_down(),
        below,
        above,
        above.next_up(),
        above.next_up().next_up(),
    ]
}

fn spot() -> BoxedStrategy<f64> {
    spread(2e-6, 1e-3)
}

fn beam_of(waist_diameter: f64) -> Beam {
    Beam { wavelength: 1e-7, m2: 1.0, waist_diameter }
}

fn rayleigh_range(beam: &Beam) -> f64 {
    PI * beam.waist_diameter.powi(2) / (4.0 * beam.m2 * beam.wavelength)
}

fn kind() -> impl Strategy<Value = MarkKind> {
    prop_oneof![Just(MarkKind::Pulse), Just(MarkKind::Line)]
}

/// way·(1 + |x|) at which a quadrature of erf takes over from its difference, x being the place of the edge and
/// the way the drawn width in units of w/√2.
const SHORT_WAY: f64 = 0.16;
/// r at which the two sums of a ripple change over.
const RIPPLE_CHANGE: f64 = 1.6;
/// r beyond which a compromise leaves the waist by a jump.
const STEEPEST: f64 = 2.136_669_657_679_603;

/// erf(x + way) − erf(x) to a few digits, to find a place with.
fn erf_along(x: f64, way: f64) -> f64 {
    libm::erf(x + way) - libm::erf(x)
}

/// Contrast of the ripple of lines r apart, and the rest to 1, as sums over lines.
fn contrast(r: f64) -> f64 {
    let term = |k: i32| (-0.5 * (f64::from(k) * r).powi(2)).exp();
    let sum = |parity: i32| (-40..=40).filter(|k| (k & 1) == parity).map(term).sum::<f64>();
    (sum(0) - sum(1)) / (sum(0) + sum(1))
}

/// r²·dC/dr.
fn steepness(r: f64) -> f64 {
    let h = 1e-4;
    let slope = |h: f64| (contrast(r + h) - contrast(r - h)) / (2.0 * h);
    r * r * (4.0 * slope(h) - slope(2.0 * h)) / 3.0
}

fn compromise(beam: &Beam, interval: f64, crispness_weight: f64) -> FillQuality {
    offset_for_taste(beam, interval, Taste::Compromise { crispness_weight }).unwrap()
}

proptest! {
    #![proptest_config(few_cases())]

    /// The quadrature of a thin stroke's edge against the difference of erf: where x passes |x| = 0.16/way − 1 as
    /// the dose grows.
    #[test]
    fn short_ways_of_a_stroke(way in 0.06f64..0.16, inside in any::<bool>()) {
        let place = SHORT_WAY / way - 1.0;
        let place = if inside && place < 0.45 * way { -place } else { place };
        // A spot for which 2·√2/d is 1, so that lengths are ways.
        let beam = beam_of(2.0 * SQRT_2);
        let at = |q: f64| fill_width(&beam, way, q, 0.0).unwrap();
        let x = |fill: FillWidth| 0.5 * fill.growth;
        let q = 2.0 / erf_along(place, way);
        let pair = change_over(q * (1.0 - 1e-9), q * (1.0 + 1e-9), |q| x(at(q)) > place);
        // The width moves by so many roundings of the dose: 1 over twice the square of the place of the edge.
        let aside = place + 0.5 * way;
        for pair in around(pair).windows(2) {
            close(at(pair[1]).width, at(pair[0]).width, 2.0 + 6.0 * (1.0 + 0.5 / (aside * aside)));
        }
    }

    /// The same for the widest stroke.
    #[test]
    fn short_ways_of_the_widest_stroke(drawn in spread(1e-5, 1e-3)) {
        // t = (y − h)/a, by which the widest stroke is a·(1 + 2t) wide; its way and place as the model's header has them.
        let argument = |t: f64| ((1.0 / t).ln_1p() * (1.0 + t).powi(2) / (1.0 + 2.0 * t)).sqrt();
        let place = |t: f64| argument(t) * t / (1.0 + t);
        let way = |t: f64| argument(t) / (1.0 + t);
        let [t, _] = change_over(1.0, 100.0, |t| way(t) * (1.0 + place(t)) > SHORT_WAY);
        let q = 2.0 / erf_along(place(t), way(t));
        let beam = beam_of(0.1 * drawn);
        let at = |q: f64| fill_limits(&beam, drawn, q).unwrap();
        let met = |q: f64| at(q).greatest_width > drawn * (1.0 + 2.0 * t);
        for pair in around(change_over(q * (1.0 - 1e-9), q * (1.0 + 1e-9), met)).windows(2) {
            close(at(pair[1]).greatest_width, at(pair[0]).greatest_width, 5.0);
            close(at(pair[1]).widest_offset, at(pair[0]).widest_offset, 6.0);
        }
    }

    /// The two sums of a ripple.
    #[test]
    fn ripples(d in spot()) {
        let at = |p: f64| raster_ripple(d, p).unwrap();
        let pair = change_over(0.79 * d, 0.81 * d, |p| at(p).interval_over_radius > RIPPLE_CHANGE);
        for pair in around(pair).windows(2) {
            let (here, there) = (at(pair[0]), at(pair[1]));
            // A rounding of r is 3.5 of the contrast, 2 of the least and less than 1 of the greatest.
            close(there.contrast, here.contrast, 8.0);
            close(there.least_over_mean, here.least_over_mean, 6.0);
            close(there.greatest_over_mean, here.greatest_over_mean, 4.0);
            close(there.gap_free_dose_ratio, here.gap_free_dose_ratio, 6.0);
            close(there.gap_free_dose_ratio_without_memory, here.gap_free_dose_ratio_without_memory, 6.0);
        }
    }

    /// The two sums of the slope of a ripple: compromises whose r is there.
    #[test]
    fn slopes_of_ripples(d in spread(2e-5, 2e-4), r in 1.65f64..2.1) {
        let beam = beam_of(d);
        let interval = 0.5 * r * d;
        let wanted = steepness(RIPPLE_CHANGE);
        let weight = wanted / (wanted + r);
        let at = |s: f64| compromise(&beam, interval, s);
        let reached = |s: f64| 2.0 * interval / at(s).spot_diameter > RIPPLE_CHANGE;
        let pair = change_over(weight * (1.0 - 1e-6), weight * (1.0 + 1e-6), reached);
        // A slope that is too steep on the far side would hold r fast instead: it moves on, by so much.
        let (low, high) = (pair[0] * (1.0 - 1e-13), pair[1] * (1.0 + 1e-13));
        let bend = (steepness(1.001 * RIPPLE_CHANGE) / steepness(0.999 * RIPPLE_CHANGE)).ln() / 0.002;
        let moved = (high / low - 1.0) / (1.0 - weight) / bend;
        near(at(low).spot_diameter / at(high).spot_diameter - 1.0, moved, 10.0 * f64::EPSILON);
        for pair in around(pair).windows(2) {
            let (here, there) = (at(pair[0]), at(pair[1]));
            close(there.spot_diameter, here.spot_diameter, 5.0);
            close(there.ripple_contrast, here.ripple_contrast, 20.0);
            prop_assert!(there.offset > 0.0);
            close(there.offset, here.offset, 5.0 * (1.0 + 1.0 / ((r / RIPPLE_CHANGE).powi(2) - 1.0)));
        }
    }

    /// The two sums of the contrast of a grating; and where nothing is left of it, which the sums say as well.
    #[test]
    fn gratings(d in spread(1e-6, 1e-2)) {
        let at = |pitch: f64| contrast_at_pitch(d, pitch).unwrap();
        for pair in around([1.25 * d, (1.25 * d).next_up()]).windows(2) {
            let (here, there) = (at(pair[0]), at(pair[1]));
            close(there.sine, here.sine, 4.0);
            close(there.bars, here.bars, 5.0);
            close(there.dose_window, here.dose_window, 8.0);
        }
        for pitch in around([d / 40.0, (d / 40.0).next_up()]).into_iter().chain([d / 25.0]) {
            let nothing = at(pitch);
            prop_assert_eq!((nothing.sine, nothing.bars, nothing.dose_window), (0.0, 0.0, 1.0));
        }
        // Both contrasts fade to the smallest double before they vanish.
        for contrast in [|at: GratingContrast| at.sine, |at: GratingContrast| at.bars] {
            let [_, seen] = change_over(d / 40.0, d / 10.0, |pitch| contrast(at(pitch)) > 0.0);
            prop_assert!(contrast(at(seen)) < 1e-320);
        }
    }

    /// The widest mark leaves the waist at q = e or √e: by no width, and by an offset with a slope of √(q − e).
    #[test]
    fn widest_marks_leave_the_waist(d in spread(2e-5, 2e-4), kind in kind()) {
        let beam = beam_of(d);
        let at = |q: f64| mark_limits(&beam, kind, q).unwrap();
        let flat = kind.focus_insensitive_dose_ratio();
        let pair = change_over(0.999 * flat, 1.001 * flat, |q| at(q).widest_offset > 0.0);
        close(pair[0], flat, 1.0);
        for pair in around(pair).windows(2) {
            let (here, there) = (at(pair[0]), at(pair[1]));
            close(there.greatest_width, here.greatest_width, 3.0);
            close(there.greatest_width, there.width_in_waist, 3.0);
            close(there.vanishing_offset, here.vanishing_offset, 4.0);
            near(there.widest_offset, here.widest_offset, 2e-8 * rayleigh_range(&beam));
        }
    }

    /// A mark comes from nothing at q = 1, as √(ln q) does, and so do its limits.
    #[test]
    fn marks_come_from_nothing(d in spread(2e-5, 2e-4), kind in kind()) {
        let beam = beam_of(d);
        let below = mark_width(&beam, kind, 1.0, 0.0).unwrap();
        prop_assert!(!below.marks && below.width == 0.0);
        let above = mark_width(&beam, kind, 1.0f64.next_up(), 0.0).unwrap();
        prop_assert!(above.marks);
        // √(ε/2)
        near(above.width, (0.5 * f64::EPSILON).sqrt() * d, 1e-15 * d);
        let (below, above) = (mark_limits(&beam, kind, 1.0).unwrap(), mark_limits(&beam, kind, 1.0f64.next_up()).unwrap());
        prop_assert!(!below.marks && above.marks);
        prop_assert_eq!((below.greatest_width, below.vanishing_offset), (0.0, 0.0));
        near(above.greatest_width, (0.5 * f64::EPSILON).sqrt() * d, 1e-15 * d);
        near(above.vanishing_offset, 0.0, 3e-8 * rayleigh_range(&beam));
    }

    /// Dots that just touch dent as far as those that do not; a pitch that is less by ε dents by √(2ε) less.
    #[test]
    fn dots_that_just_touch(d in spot(), q in spread(1.1, 100.0), s in 0.5f64..1.0, n in spread(1.0, 1e6)) {
        let at = |pitch: f64| pulsed_line(d, q, pitch, s, n).unwrap();
        let dot = at(1e-9).dot_diameter;
        let pair = change_over(0.999 * dot, 1.001 * dot, |pitch| at(pitch).connected);
        let (touching, apart) = (at(pair[0]), at(pair[1]));
        prop_assert!(touching.connected && !apart.connected);
        same_bits(pair[1], dot);
        same_bits(apart.scallop, 0.5 * dot);
        in_order(touching.scallop, apart.scallop, 0.0);
        near(touching.scallop, apart.scallop, (2.1 * f64::EPSILON).sqrt() * apart.scallop);
    }

    /// A stroke comes from nothing where its middle gets the threshold dose, as a root does; but at a dose ratio
    /// of 1.000001, below which no stroke marks, however wide, a wide one comes all but 2.38 spots wide.
    #[test]
    fn strokes_come_from_nothing(d in spread(2e-5, 2e-4), a in spread(0.1, 2.0), wide in spread(3.0, 100.0)) {
        let beam = beam_of(d);
        let at = |q: f64| fill_width(&beam, a * d, q, 0.0).unwrap();
        let enough = 1.0 / libm::erf(SQRT_2 * a);
        let [below, above] = change_over(enough * (1.0 - 1e-9), enough * (1.0 + 1e-9), |q| at(q).marks);
        let (lost, found) = (at(below), at(above));
        prop_assert!(!lost.marks && lost.width == 0.0 && lost.growth == -a * d);
        // q grows by a few ε: the dose of the middle falls by 1.6·(4·a/d)·exp(−(√2·a/d)²)·(y/d)² towards the edge.
        let curvature = (8.0 / PI).sqrt() * 4.0 * a * (-2.0 * a * a).exp() / libm::erf(SQRT_2 * a);
        near(found.width, 0.0, d * (8.0 * f64::EPSILON / curvature).sqrt());
        let (least, _) = Param::DoseRatio.range();
        let at = |q: f64| fill_width(&beam, wide * d, q, 0.0).unwrap();
        let (lost, found) = (at(least.next_down()), at(least));
        prop_assert!(!lost.marks && found.marks);
        prop_assert_eq!((lost.width, lost.growth), (0.0, -wide * d));
        // √2·erfinv(2/q − 1)/2 of the spot from each edge, by mpmath.
        near(found.growth, -2.376_712_255 * d, 1e-7 * d);
        near(at(least.next_up()).width, found.width, 1e-10 * d);
    }

    /// A compromise leaves the waist where the spot is to grow by next to nothing: its costs differ by rounding,
    /// the growth by the root of that. Beyond r = 2.14 it jumps, from one place to another of the same cost.
    #[test]
    fn compromises_leave_the_waist(d in spread(2e-5, 2e-4), r in 0.8f64..6.0) {
        let beam = beam_of(d);
        let interval = 0.5 * r * d;
        let at = |s: f64| compromise(&beam, interval, s);
        let cost = |quality: &FillQuality, s: f64| {
            s * (quality.spot_diameter / d - 1.0) + (1.0 - s) * quality.ripple_contrast
        };
        let [left, stays] = change_over(1e-3, 1.0, |s| at(s).offset > 0.0);
        let (away, waist) = (at(left), at(stays));
        prop_assert!(away.offset > 0.0 && waist.offset == 0.0);
        same_bits(waist.ripple_contrast, fill_quality(&beam, interval, 0.0).unwrap().ripple_contrast);
        near(cost(&away, left), cost(&waist, left), 4.0 * f64::EPSILON);
        let grown = away.spot_diameter / d - 1.0;
        if r < STEEPEST - 0.01 {
            prop_assert!(grown < 1e-7, "{}", grown);
        } else if r > STEEPEST + 0.01 {
            prop_assert!(grown > 1e-3, "{}", grown);
        }
    }
}

/// How far it jumps, and at which weight. Reference: the two equations of equal and of least cost, solved with
/// theta functions by mpmath, 25 digits.
#[test]
fn jumps_of_compromises() {
    let d = 1e-4;
    for (r, growth, weight) in [
        (2.5, 1.267_435_341, 0.513_960_314_7),
        (3.0, 1.661_264_684, 0.439_348_631_6),
        (6.0, 3.928_481_193, 0.205_822_950_5),
    ] {
        let at = |s: f64| compromise(&beam_of(d), 0.5 * r * d, s);
        let [left, _] = change_over(1e-3, 1.0, |s| at(s).offset > 0.0);
        near(left, weight, 1e-9);
        near(at(left).spot_diameter / d, growth, 1e-8);
    }
}
