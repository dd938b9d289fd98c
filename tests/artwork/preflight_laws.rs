//! Laws that the mark and what is found in it keep, on drawings by chance.

use crate::plate::{PITCH, burnt, exact, fast, level, strokes};
use crate::preflight::{Run, run};
use proptest::prelude::*;
use spotwise::artwork::{
    Answer, Bitmap, BitmapMut, Disc, FULL_DOSE, Preflight, Scan, Watch, closed, closed_words, depth_map,
    words_in_row,
};
use spotwise::model::mark::{Material, Response, material_mark};
use spotwise::{Error, Param};

const WIDTH: usize = 90;
const HEIGHT: usize = 60;

fn preflight(samples: &[u8], radius: f64, answer: Answer, dose_ratio: f64) -> Preflight<'_> {
    let drawing = burnt(samples, WIDTH);
    let edge_tolerance = 0.5 * radius * PITCH;
    let exposing = level(radius, Scan::Unknown);
    Preflight { drawing, exposing, answer, dose_ratio, edge_tolerance, speck_area: 0.0 }
}

fn answers() -> impl Strategy<Value = Answer> {
    prop_oneof![
        Just(Answer::Coating),
        (0.0..3.0_f64).prop_map(|depth| Answer::LogarithmicBulk {
            penetration_depth: 20e-6,
            visible_depth: depth * 10e-6,
        }),
        (0.0..3.0_f64)
            .prop_map(|depth| Answer::LinearBulk { threshold_depth: 20e-6, visible_depth: depth * 10e-6 }),
        (0.0..12.0_f64).prop_map(|pixels| Answer::Melt { bridge: pixels * PITCH }),
    ]
}

/// Whether every pixel of the one mask is one of the other's.
fn within(one: &[u64], other: &[u64]) -> bool {
    one.iter().zip(other).all(|(one, other)| one & !other == 0)
}

/// The dose over the threshold dose at which a place counts as marked: the laws of Beer and Lambert and of the joules
/// that remove, as `model::mark::Material` states them.
fn least_dose(answer: &Answer) -> f64 {
    match *answer {
        Answer::LogarithmicBulk { penetration_depth, visible_depth } => {
            (visible_depth / penetration_depth).exp()
        }
        Answer::LinearBulk { threshold_depth, visible_depth } => 1.0 + visible_depth / threshold_depth,
        _ => 1.0,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// More dose marks more, and what is lost and filled moves one way only.
    #[test]
    fn marks_are_nested_in_the_dose(
        seed: u64, radius in 1.0..8.0_f64, answer in answers(), dose in 1.0..6.0_f64, more in 1.0..2.0_f64,
    ) {
        let samples = strokes(WIDTH, HEIGHT, seed);
        let [one, other] = [dose, more * dose].map(|dose| run(&preflight(&samples, radius, answer, dose)));
        prop_assert!(within(&one.mark, &other.mark));
        let (less, more) = (one.report, other.report);
        prop_assert!(less.missing_pixels >= more.missing_pixels && less.extra_pixels <= more.extra_pixels);
        prop_assert!(less.lost.pixels >= more.lost.pixels && less.filled.pixels <= more.filled.pixels);
        prop_assert!(less.topology.components_lost >= more.topology.components_lost);
        prop_assert!(less.topology.holes_closed <= more.topology.holes_closed);
        prop_assert!(less.components_starved >= more.components_starved);
        prop_assert!(less.stroke_centres.kept <= more.stroke_centres.kept);
        prop_assert!(less.gap_centres.kept >= more.gap_centres.kept);
        // Neither the window nor the exposure hangs on the dose that is asked about.
        prop_assert_eq!(format!("{:?}", one.window), format!("{:?}", other.window));
        let same = (less.typical_stroke_exposure, more.typical_stroke_exposure);
        prop_assert!(same.0 == same.1 || same.0.is_nan());
    }

    /// The mark is where the exposure in doubles says, but for pixels within the error of the fast one, 5e-4 of full
    /// dose.
    #[test]
    fn the_mark_is_where_the_dose_suffices(
        seed: u64, radius in 1.0..8.0_f64, answer in answers(), dose in 1.0..6.0_f64,
    ) {
        let answer = if let Answer::Melt { .. } = answer { Answer::Melt { bridge: 0.0 } } else { answer };
        let samples = strokes(WIDTH, HEIGHT, seed);
        let preflight = preflight(&samples, radius, answer, dose);
        let mark = run(&preflight).mark;
        let mark = Bitmap::new(&mark, WIDTH, HEIGHT).unwrap();
        let threshold = least_dose(&answer) / dose;
        for (n, share) in exact(&preflight.drawing, &preflight.exposing).into_iter().enumerate() {
            if (share - threshold).abs() > 5e-4 {
                prop_assert_eq!(mark.get(n % WIDTH, n / WIDTH), share > threshold, "{} {}", share, threshold);
            }
        }
    }

    /// A melt without a bridge marks what a coating does; with one, that mark closed by a disc, and never less.
    #[test]
    fn a_melt_closes_gaps_and_only_that(
        seed: u64, radius in 1.0..6.0_f64, dose in 1.0..4.0_f64, bridge in 0.1..20.0_f64,
    ) {
        let samples = strokes(WIDTH, HEIGHT, seed);
        let of = |answer| run(&preflight(&samples, radius, answer, dose)).mark;
        let coating = of(Answer::Coating);
        prop_assert_eq!(&of(Answer::Melt { bridge: 0.0 }), &coating);
        let melt = of(Answer::Melt { bridge: bridge * PITCH });
        prop_assert!(within(&coating, &melt));
        let disc = Disc::new(0.5 * bridge * PITCH, PITCH, PITCH, Param::MeltBridge).unwrap();
        let mut wanted = vec![u64::MAX; words_in_row(WIDTH) * HEIGHT];
        let mut room = vec![u64::MAX; closed_words(WIDTH, HEIGHT, &disc)];
        let mut mask = BitmapMut::new(&mut wanted, WIDTH, HEIGHT).unwrap();
        let open = Bitmap::new(&coating, WIDTH, HEIGHT).unwrap();
        closed(open, &disc, &mut mask, &mut room, &mut Watch::quiet()).unwrap();
        prop_assert_eq!(melt, wanted);
    }

    /// At its ends the dose window keeps what it says, and one step beyond it does not. A step is what the window is
    /// known to: 1/2048 of a level of the exposure map, or one level.
    #[test]
    fn the_window_ends_where_it_says(seed: u64, radius in 1.0..7.0_f64, answer in answers()) {
        let samples = strokes(WIDTH, HEIGHT, seed);
        let at = |dose_ratio: f64| run(&preflight(&samples, radius, answer, dose_ratio));
        let Run { window, .. } = at(2.0);
        let scale = f64::from(FULL_DOSE) * least_dose(&answer);
        // The level of a limit, and the dose ratio in the middle of what has a level.
        let level = |dose_ratio: f64| (scale / dose_ratio).round();
        let dose = |level: f64| scale / (level - 0.25);
        let allowed = |dose: f64| (1e-6..=200.0).contains(&dose);
        let step = |level: f64| (level / 2048.0).floor().max(1.0);

        let least = window.least_dose_ratio;
        if least.is_finite() {
            let found = level(least);
            if allowed(dose(found)) {
                prop_assert!(!at(dose(found)).report.is_broken());
            }
            // Beyond the doses that a preflight takes there is nothing to look at.
            if allowed(dose(found + 1.0)) {
                let beyond = (1..=step(found) as u32).map(|n| dose(found + f64::from(n)));
                let mut broken = beyond.map(|dose| at(dose).report.is_broken());
                prop_assert!(broken.any(|broken| broken), "{}", least);
            }
        }
        let ends = [
            (window.greatest_dose_ratio_for_counters, false),
            (window.greatest_dose_ratio, true),
        ];
        for (greatest, apart) in ends {
            let fails = |dose_ratio: f64| {
                let topology = at(dose_ratio).report.topology;
                topology.holes_closed > 0 || (apart && topology.components_merged > 0)
            };
            if greatest.is_finite() {
                let found = level(greatest);
                prop_assert!(!allowed(dose(found)) || !fails(dose(found)), "{} {}", greatest, apart);
                let beyond = found - step(found);
                if beyond >= 1.0 && allowed(dose(beyond)) {
                    prop_assert!(fails(dose(beyond)), "{} {}", greatest, apart);
                }
            } else {
                prop_assert!(!fails(200.0));
            }
        }
        prop_assert!(window.greatest_dose_ratio <= window.greatest_dose_ratio_for_counters);
    }

    /// Depths are those of a material of the same law at the dose of the place, as `material_mark` tells them from
    /// joules; 0 for what has none. To the 24 bits of a depth, 6e-8, and near the threshold, where the logarithm of a
    /// ratio near 1 is taken, to 1e-15 of the depth that doubling it would give.
    #[test]
    fn depths_are_those_of_the_material(
        seed: u64, radius in 1.0..6.0_f64, dose_ratio in 0.3..40.0_f64, depth in 1e-6..1e-3_f64,
    ) {
        let samples = strokes(40, 30, seed);
        let drawing = burnt(&samples, 40);
        let shares = fast(&drawing, &level(radius, Scan::Unknown));
        let levels: Vec<u16> = shares.iter().map(|share| (share * f64::from(FULL_DOSE)) as u16).collect();
        let threshold = 3e4;
        let laws = [
            (
                Answer::LogarithmicBulk { penetration_depth: depth, visible_depth: 0.0 },
                Response::LogarithmicAblation { penetration_depth: depth },
            ),
            (
                // The threshold depth is the threshold dose over the energy that removes a volume.
                Answer::LinearBulk { threshold_depth: depth, visible_depth: 0.0 },
                Response::LinearAblation { removal_energy: threshold / depth },
            ),
        ];
        for (answer, response) in laws {
            let material = Material { threshold, incubation: 1.0, response };
            let mut depths = vec![7.0_f32; levels.len()];
            depth_map(&levels, &answer, dose_ratio, &mut depths).unwrap();
            for (&found, share) in depths.iter().zip(&shares) {
                let dose = dose_ratio * share * threshold;
                let wanted = if dose == 0.0 { 0.0 } else {
                    material_mark(&material, dose, 1.0, 50e-6, 0.0).unwrap().depth
                };
                let error = (f64::from(found) - wanted).abs();
                prop_assert!(error <= 1.2e-7 * wanted + 1e-14 * depth, "{} {}", found, wanted);
            }
        }
        for answer in [Answer::Coating, Answer::Melt { bridge: PITCH }] {
            let mut depths = vec![7.0_f32; levels.len()];
            depth_map(&levels, &answer, dose_ratio, &mut depths).unwrap();
            prop_assert!(depths.iter().all(|&depth| depth == 0.0));
        }
    }
}

/// Depths after a refusal are NaN.
#[test]
fn refused_depths_are_not_left_as_they_were() {
    let levels = [40_000; 6];
    let bulk = Answer::LinearBulk { threshold_depth: 1e-5, visible_depth: 0.0 };
    let mut depths = [7.0_f32; 6];
    for dose_ratio in [f64::NAN, 0.0, -1.0, 1.1e6, f64::INFINITY] {
        depths.fill(7.0);
        let error = depth_map(&levels, &bulk, dose_ratio, &mut depths).unwrap_err();
        assert_eq!(error.param(), Param::AnyDoseRatio);
        assert!(depths.iter().all(|depth| depth.is_nan()));
    }
    let bad = Answer::LinearBulk { threshold_depth: f64::NAN, visible_depth: 0.0 };
    assert_eq!(depth_map(&levels, &bad, 1.0, &mut depths).unwrap_err().param(), Param::ThresholdDepth);
    let mut short = [7.0_f32; 5];
    let error = depth_map(&levels, &bulk, 1.0, &mut short).unwrap_err();
    assert_eq!(error, Error::LengthMismatch { param: Param::Output, value: 5, expected: 6 });
    assert!(short.iter().all(|depth| depth.is_nan()));
}
