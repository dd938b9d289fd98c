//! Details and contrast.

use super::given::*;
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::mark::{
    contrast_at_pitch, largest_spot_for_details, pitch_for_contrast, smallest_details,
};
use spotwise::model::optics::power_through_aperture;
use std::f64::consts::PI;

/// Dose ratios, as often just above 1 as far above it.
fn dose_ratio() -> BoxedStrategy<f64> {
    let (least, greatest) = Param::DoseRatio.range();
    prop_oneof![
        spread(least - 1.0, 1.0).prop_map(move |more| (1.0 + more).max(least)),
        spread(1.0, greatest).prop_map(move |q| q.max(least)),
    ]
    .boxed()
}

/// By how many roundings of q a function of q − 1, or of (q − 1)/q, is moved.
fn condition(q: f64) -> f64 {
    q / (q - 1.0)
}

fn spot() -> BoxedStrategy<f64> {
    spread(2e-6, 1e-3)
}

/// w/Λ at which the two sums of the contrast change over, as their documentation says.
const CHANGE_OVER: f64 = 0.4;

proptest! {
    #![proptest_config(config())]

    /// A gap at the dose ratio q is a bar at q/(q − 1), a hole a dot, and an edge moves back.
    #[test]
    fn bars_and_gaps_are_duals(d in spot(), q in dose_ratio()) {
        let dual = q / (q - 1.0);
        prop_assume!(dual >= Param::DoseRatio.range().0 && dual <= Param::DoseRatio.range().1);
        let (here, there) = (smallest_details(d, q).unwrap(), smallest_details(d, dual).unwrap());
        // The rounding of the dual counts as often as it is close to 1, for either.
        let budget = 8.0 + 2.0 * (condition(q) + condition(dual));
        close(here.gap, there.bar, budget);
        close(here.bar, there.gap, budget);
        close(here.hole_diameter, there.dot_diameter, budget);
        close(here.dot_diameter, there.hole_diameter, budget);
        near(here.edge_shift, -there.edge_shift, budget * f64::EPSILON * (d + here.edge_shift.abs()));
    }

    #[test]
    fn details_scale_with_the_spot(d in spot(), q in dose_ratio(), a in power_of_two()) {
        let (here, there) = (smallest_details(d, q).unwrap(), smallest_details(a * d, q).unwrap());
        same_bits(there.bar, a * here.bar);
        same_bits(there.gap, a * here.gap);
        same_bits(there.dot_diameter, a * here.dot_diameter);
        same_bits(there.hole_diameter, a * here.hole_diameter);
        same_bits(there.edge_shift, a * here.edge_shift);
    }

    /// More dose keeps finer strokes and fills wider gaps.
    #[test]
    fn more_dose_favours_strokes(d in spot(), p in dose_ratio(), q in dose_ratio()) {
        let (low, high) = (smallest_details(d, p.min(q)).unwrap(), smallest_details(d, p.max(q)).unwrap());
        in_order(high.bar, low.bar, 6.0);
        in_order(high.dot_diameter, low.dot_diameter, 6.0);
        in_order(low.gap, high.gap, 6.0);
        in_order(low.hole_diameter, high.hole_diameter, 6.0);
        prop_assert!(low.edge_shift <= high.edge_shift + 6.0 * f64::EPSILON * d);
    }

    /// At q = 2 an edge stays where it was drawn and a bar needs no more than a gap.
    #[test]
    fn nothing_is_favoured_at_two(d in spot()) {
        let at = smallest_details(d, 2.0).unwrap();
        prop_assert_eq!(at.edge_shift, 0.0);
        same_bits(at.bar, at.gap);
        close(at.dot_diameter, at.hole_diameter, 4.0);
    }

    /// By their definition: a dot takes the share 1/q of the spot's power, a hole leaves it.
    #[test]
    fn exposure_of_dots_and_holes(d in spot(), q in dose_ratio()) {
        let at = smallest_details(d, q).unwrap();
        let through_dot = power_through_aperture(d, at.dot_diameter).unwrap();
        close(q * through_dot, 1.0, 12.0);
        let past_hole = 1.0 - power_through_aperture(d, at.hole_diameter).unwrap();
        near(q * past_hole, 1.0, 12.0 * q * f64::EPSILON);
    }

    /// The largest spot holds both details, and one of them only just.
    #[test]
    fn details_to_spot_and_back(stroke in spread(1e-7, 1e-2), ratio in spread(1e-3, 1e3), q in dose_ratio()) {
        let gap = (stroke * ratio).clamp(1e-9, 10.0);
        let spot = largest_spot_for_details(stroke, gap, q).unwrap();
        let (least, greatest) = Param::SpotDiameter.range();
        prop_assume!(spot >= least && spot <= greatest);
        let at = smallest_details(spot, q).unwrap();
        in_order(at.bar, stroke, 6.0);
        in_order(at.gap, gap, 6.0);
        let slack = (stroke / at.bar).min(gap / at.gap);
        close(slack, 1.0, 6.0);
        close(largest_spot_for_details(at.bar.max(1e-9), at.gap.max(1e-9), q).unwrap().max(spot), spot, 8.0);
    }

    #[test]
    fn spot_to_details_and_back(d in spread(1e-5, 1e-1), q in spread(1.01, 1e3)) {
        let at = smallest_details(d, q).unwrap();
        close(largest_spot_for_details(at.bar, at.gap, q).unwrap(), d, 4.0);
        // A roomier gap leaves the stroke to decide, and the other way round.
        close(largest_spot_for_details(at.bar, 2.0 * at.gap, q).unwrap(), d, 4.0);
        close(largest_spot_for_details(2.0 * at.bar, at.gap, q).unwrap(), d, 4.0);
    }

    /// Few dose, few marks: the limits of either end of the dose ratio.
    #[test]
    fn limits_of_the_dose_ratio(more in spread(1e-6, 1e-4), q in spread(1e4, 1e6)) {
        // erfinv(x) → x·√π/2, and ln(1 + x) → x
        let just_above = smallest_details(1.0, 1.0 + more).unwrap();
        let more = (1.0 + more) - 1.0;
        near(just_above.gap * (8.0 / PI).sqrt() / more, 1.0, 2.0 * more);
        near(just_above.hole_diameter / (0.5 * more).sqrt(), 1.0, more);
        let far_above = smallest_details(1.0, q).unwrap();
        near(far_above.bar * (8.0 / PI).sqrt() * q, 1.0, 2.0 / q);
        near(far_above.dot_diameter * (2.0 * q).sqrt(), 1.0, 1.0 / q);
    }

    #[test]
    fn contrast_depends_on_the_ratio_only(d in spot(), pitch in spot(), a in power_of_two()) {
        prop_assert_eq!(contrast_at_pitch(a * d, a * pitch).unwrap(), contrast_at_pitch(d, pitch).unwrap());
        let contrast = 0.3;
        let (scaled, pitch) = (pitch_for_contrast(a * d, contrast).unwrap(), pitch_for_contrast(d, contrast).unwrap());
        same_bits(scaled.sine, a * pitch.sine);
        same_bits(scaled.bars, a * pitch.bars);
    }

    /// A coarser grating keeps more contrast and forgives more dose.
    #[test]
    fn contrast_grows_with_the_pitch(d in spot(), ratio in spread(1e-3, 1e3), wider in spread(1e-6, 1.0)) {
        let fine = contrast_at_pitch(d, ratio * d).unwrap();
        let coarse = contrast_at_pitch(d, ratio * d * (1.0 + wider)).unwrap();
        in_order(fine.sine, coarse.sine, 8.0);
        in_order(fine.bars, coarse.bars, 8.0);
        in_order(fine.dose_window, coarse.dose_window, 16.0);
    }

    /// Bars keep more contrast than a sine, at most 4/π times as much; the window follows from it.
    #[test]
    fn bars_against_a_sine(d in spot(), ratio in spread(1e-2, 1e2)) {
        let c = contrast_at_pitch(d, ratio * d).unwrap();
        prop_assert!((0.0..=1.0).contains(&c.sine) && (0.0..=1.0).contains(&c.bars));
        in_order(c.sine, c.bars, 4.0);
        in_order(c.bars, 4.0 / PI * c.sine, 4.0);
        prop_assert!(c.dose_window >= 1.0);
        if c.bars < 0.999 {
            // A rounding of C counts 1/(1 − C) times.
            close(c.dose_window, (1.0 + c.bars) / (1.0 - c.bars), 4.0 + 4.0 / (1.0 - c.bars));
        }
        if c.dose_window.is_finite() {
            near(c.bars, 1.0 - 2.0 / (c.dose_window + 1.0), 2.0 * f64::EPSILON);
        } else {
            prop_assert_eq!(c.bars, 1.0);
        }
    }

    #[test]
    fn contrast_to_pitch_and_back(d in spread(1e-6, 1e-2), contrast in prop_oneof![spread(1e-12, 0.5), 0.01f64..0.99]) {
        let pitch = pitch_for_contrast(d, contrast).unwrap();
        prop_assume!(pitch.sine <= Param::Pitch.range().1);
        // A rounding of the pitch counts −2·ln C times.
        let steep = -2.0 * contrast.ln();
        close(contrast_at_pitch(d, pitch.sine).unwrap().sine, contrast, 4.0 + 4.0 * steep);
        // Bars keep the same contrast at a finer pitch.
        in_order(pitch.bars, pitch.sine, 4.0);
        close(contrast_at_pitch(d, pitch.bars).unwrap().bars, contrast, 4.0 + 4.0 * steep);
    }

    #[test]
    fn pitch_to_contrast_and_back(d in spread(1e-6, 1e-2), ratio in spread(0.4, 1e2)) {
        let pitch = ratio * d;
        let sine = contrast_at_pitch(d, pitch).unwrap().sine;
        // A rounding of C counts 1/(2·|ln C|) times.
        close(pitch_for_contrast(d, sine).unwrap().sine, pitch, 8.0 + 4.0 / -sine.ln());
    }

    /// Fine gratings leave nothing, coarse ones everything.
    #[test]
    fn limits_of_the_contrast(d in spread(1e-6, 1e-2), ratio in spread(1e2, 1e5)) {
        if d / ratio >= Param::Pitch.range().0 {
            let fine = contrast_at_pitch(d, d / ratio).unwrap();
            prop_assert_eq!((fine.sine, fine.bars, fine.dose_window), (0.0, 0.0, 1.0));
        }
        if d * ratio <= Param::Pitch.range().1 {
            let coarse = contrast_at_pitch(d, d * ratio).unwrap();
            prop_assert_eq!((coarse.bars, coarse.dose_window), (1.0, f64::INFINITY));
            // 1 − π²/(8·ratio²)
            let loss = PI * PI / (8.0 * ratio * ratio);
            near(coarse.sine, 1.0 - loss, loss * loss + 2.0 * f64::EPSILON);
        }
    }

    /// Where the two sums change over, and everywhere else, neighbouring pitches have neighbouring
    /// contrasts.
    #[test]
    fn no_step_where_the_sums_change_over(
        d in spread(1e-6, 1e-2),
        ratio in prop_oneof![Just(CHANGE_OVER), spread(0.05, 2.0)],
        steps in 0u32..4,
    ) {
        let mut pitch = 0.5 * d / ratio;
        for _ in 0..steps {
            pitch = pitch.next_down();
        }
        let mut before = contrast_at_pitch(d, pitch).unwrap();
        for _ in 0..8 {
            pitch = pitch.next_up();
            let after = contrast_at_pitch(d, pitch).unwrap();
            // The steepest of them, the window's loss, moves by (Λ/w)²/4 for each rounding of the
            // pitch, the sine by π²·(w/Λ)².
            let steep = 1.0 + 0.25 / (ratio * ratio) + 10.0 * ratio * ratio;
            close(after.sine, before.sine, 2.0 + steep);
            close(after.bars, before.bars, 4.0 + steep);
            close(after.dose_window, before.dose_window, 8.0 + 2.0 * steep);
            before = after;
        }
    }
}

/// The change-over itself, at w/Λ of exactly 0.4 and its neighbours: one sum on either side.
#[test]
fn both_sums_meet() {
    let ratio_of = |pitch: f64| 0.5 / pitch;
    // Pitches around 1.25 for d = 1; the quotient passes 0.4 somewhere among them.
    let mut pitch = 1.25f64;
    for _ in 0..40 {
        pitch = pitch.next_down();
    }
    let mut sides = (0, 0);
    let mut before = contrast_at_pitch(1.0, pitch).unwrap();
    for _ in 0..80 {
        if ratio_of(pitch) >= CHANGE_OVER {
            sides.0 += 1
        } else {
            sides.1 += 1
        }
        pitch = pitch.next_up();
        let after = contrast_at_pitch(1.0, pitch).unwrap();
        close(after.bars, before.bars, 4.0);
        close(after.dose_window, before.dose_window, 12.0);
        before = after;
    }
    assert!(sides.0 > 20 && sides.1 > 20, "{sides:?}");
}
