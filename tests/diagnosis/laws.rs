//! Round trips from simulated marks, limits, and the chain to the compensation.

use super::simulated::{BEAM, Fault, Measured, depth_over};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use spotwise::model::learn::{
    Ambiguities, DepthLaw, DepthReading, FurtherTest, HeightReadings, HeightVerdict, MarkCause, PowerStep,
    diagnose_mark, diagnose_width, settle_by_heights, settle_by_patch, settle_by_power,
};
use spotwise::model::mark::{CompensationRule, MarkKind, MarkSetting, compensate, mark_limits, mark_width};
use spotwise::model::optics::beam_parameters;

fn kind() -> impl Strategy<Value = MarkKind> {
    prop::sample::select(MarkKind::ALL.to_vec())
}

fn law() -> impl Strategy<Value = DepthLaw> {
    prop::sample::select(DepthLaw::ALL.to_vec())
}

/// Any fault that still marks, off focus by up to three Rayleigh ranges.
fn fault() -> impl Strategy<Value = Fault> {
    (kind(), 1.05..30.0_f64, -1.5e-3..1.5e-3_f64, 0.4..3.0_f64)
        .prop_map(|(kind, dose_ratio, z_offset, power_ratio)| Fault {
            kind,
            dose_ratio,
            z_offset,
            power_ratio,
        })
        .prop_filter("marks", |fault| fault.now().is_some_and(|(_, dose)| dose > 1.001))
}

fn measured(fault: &Fault, law: DepthLaw, relative: f64) -> Measured {
    let mut measured = Measured::of(fault, law, relative, [0.0; 5]).unwrap();
    measured.good.dose_ratio_deviation = 0.0;
    measured
}

fn growth(fault: &Fault) -> f64 {
    1.0_f64.hypot(fault.z_offset / beam_parameters(&BEAM).unwrap().rayleigh_range)
}

/// The same cases on every run, as those of `tests/properties`.
fn config() -> ProptestConfig {
    let mut config = ProptestConfig { failure_persistence: None, ..ProptestConfig::default() };
    config.max_global_rejects = config.max_global_rejects.max(10 * config.cases);
    config.max_local_rejects = config.max_local_rejects.max(1000 * config.cases);
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    config
}

proptest! {
    #![proptest_config(config())]

    /// Width and depth give back offset and dose, whatever the law; the cause says which of them is seen.
    #[test]
    fn every_fault_is_found(fault in fault(), law in law(), relative in 1e-5..0.05_f64) {
        let m = measured(&fault, law, relative);
        let found = diagnose_mark(&BEAM, &m.good, &m.depths, m.width, m.width_deviation, 0.95).unwrap();
        let z = fault.z_offset.abs();
        prop_assert!((found.growth / growth(&fault) - 1.0).abs() < 1e-9);
        prop_assert!((found.power_ratio / fault.power_ratio - 1.0).abs() < 1e-9);
        prop_assert!((found.offset - z).abs() < 1e-6 * z + 1e-8);
        prop_assert!(found.least_offset <= z + 1e-9 && z <= found.greatest_offset);
        prop_assert!(found.least_power_ratio <= fault.power_ratio * (1.0 + 1e-9));
        prop_assert!(found.greatest_power_ratio >= fault.power_ratio * (1.0 - 1e-9));
        let focus = found.least_offset > 0.0;
        let power = found.least_power_ratio > 1.0 || found.greatest_power_ratio < 1.0;
        let expected = match (focus, power) {
            (false, false) => MarkCause::Nothing,
            (true, false) => MarkCause::Focus,
            (false, true) => MarkCause::Power,
            (true, true) => MarkCause::FocusAndPower,
        };
        prop_assert_eq!(found.cause, expected);
        prop_assert_eq!(found.ambiguities.contains(Ambiguities::SIDE), focus);
        prop_assert_eq!(found.further_test == FurtherTest::HeightsEitherSide, focus);
        prop_assert!(found.correlation.abs() <= 1.0 + 1e-12);
    }

    /// Both sides of the focus mark alike, and what is asked for with more coverage has the wider range.
    #[test]
    fn mirrored_and_nested(fault in fault(), law in law(), relative in 1e-3..0.1_f64) {
        let m = measured(&fault, law, relative);
        let other = Fault { z_offset: -fault.z_offset, ..fault };
        let n = measured(&other, law, relative);
        let at = |m: &Measured, coverage| {
            diagnose_mark(&BEAM, &m.good, &m.depths, m.width, m.width_deviation, coverage).unwrap()
        };
        prop_assert_eq!(at(&m, 0.95), at(&n, 0.95));
        let (narrow, wide) = (at(&m, 0.8), at(&m, 0.99));
        prop_assert!(wide.least_offset <= narrow.least_offset && narrow.greatest_offset <= wide.greatest_offset);
        prop_assert!(wide.least_power_ratio < narrow.least_power_ratio);
        prop_assert!(wide.greatest_power_ratio > narrow.greatest_power_ratio);
    }

    /// With the dose as it was, one of the two heights is the true one, and both make that very width.
    #[test]
    fn a_width_gives_back_its_height(fault in fault(), relative in 1e-6..0.02_f64) {
        let fault = Fault { power_ratio: 1.0, ..fault };
        prop_assume!(fault.now().is_some_and(|(_, dose)| dose > 1.001));
        let m = measured(&fault, DepthLaw::Linear, relative);
        let found = diagnose_width(&BEAM, &m.good, m.width, m.width_deviation, 0.95).unwrap();
        prop_assert_ne!(found.cause, MarkCause::PowerPerhapsFocus);
        let z = fault.z_offset.abs();
        let heights: Vec<_> = found.near.into_iter().chain(found.far).collect();
        prop_assert!(heights.iter().any(|h| h.least_offset <= z * (1.0 + 1e-7) && z <= h.greatest_offset + 1e-9));
        let (good, _) = fault.good();
        for height in &heights {
            let (width, _) = fault.mark(1.0, height.offset).unwrap();
            // One that is narrower than the waist's by error only stands in the waist.
            prop_assert!((width / m.width - 1.0).abs() < 1e-6 || height.offset == 0.0 && good >= m.width, "{width}");
        }
        // The widest mark lies between them.
        let widest = mark_limits(&BEAM, fault.kind, fault.dose_ratio).unwrap().widest_offset;
        prop_assert!(found.near.is_none_or(|h| h.offset <= widest * (1.0 + 1e-7)));
        prop_assert!(found.far.is_none_or(|h| h.offset >= widest * (1.0 - 1e-7)));
    }

    /// A dose alone is given back by the width, and a width beyond the greatest of all heights by no height.
    #[test]
    fn a_width_gives_back_its_dose(kind in kind(), dose_ratio in 1.2..30.0_f64, power_ratio in 0.9..4.0_f64) {
        let fault = Fault { kind, dose_ratio, z_offset: 0.0, power_ratio };
        let m = measured(&fault, DepthLaw::Linear, 1e-6);
        let found = diagnose_width(&BEAM, &m.good, m.width, m.width_deviation, 0.95).unwrap();
        let power = found.power.unwrap();
        prop_assert!((power.ratio / power_ratio - 1.0).abs() < 1e-9);
        prop_assert!(power.least < power_ratio && power_ratio < power.greatest);
        let greatest = mark_limits(&BEAM, kind, dose_ratio).unwrap().greatest_width;
        if m.width > greatest * 1.0001 {
            prop_assert_eq!(found.cause, MarkCause::PowerPerhapsFocus);
            prop_assert!(found.near.is_none() && found.far.is_none());
            prop_assert_eq!(found.further_test, FurtherTest::SolidPatch);
        } else if m.width < greatest * 0.9999 {
            prop_assert!(found.far.is_some());
        }
    }

    /// A patch tells the dose whatever the focus, and the line then the height.
    #[test]
    fn a_patch_parts_focus_from_power(fault in fault(), law in law(), patch_q in 3.0..9.0_f64) {
        prop_assume!(fault.dose_ratio * fault.power_ratio > 1.05);
        let m = measured(&fault, law, 1e-6);
        let patch = DepthReading {
            law,
            good_depth: 7.0 * depth_over(law, patch_q),
            good_depth_deviation: 7e-6,
            depth: 7.0 * depth_over(law, patch_q * fault.power_ratio),
            depth_deviation: 7e-6 * depth_over(law, patch_q * fault.power_ratio),
        };
        let found =
            settle_by_patch(&BEAM, &m.good, &patch, patch_q, m.width, m.width_deviation, 0.95).unwrap();
        prop_assert!((found.power.ratio / fault.power_ratio - 1.0).abs() < 1e-9);
        let z = fault.z_offset.abs();
        let heights: Vec<_> = found.near.into_iter().chain(found.far).collect();
        prop_assert!(heights.iter().any(|h| h.least_offset <= z * (1.0 + 1e-7) && z <= h.greatest_offset + 1e-9));
        prop_assert_ne!(found.cause, MarkCause::NotAsAssumed);
    }

    /// The power stepped up tells the spot on the surface, and the dose.
    #[test]
    fn a_power_step_tells_the_spot(fault in fault(), power_step in 1.2..6.0_f64) {
        let (width, dose) = fault.now().unwrap();
        let (stepped_width, _) = fault.mark(fault.power_ratio * power_step, fault.z_offset).unwrap();
        let step = PowerStep {
            kind: fault.kind,
            dose_ratio: fault.dose_ratio,
            dose_ratio_deviation: 0.0,
            power_step,
            width,
            width_deviation: 1e-6 * width,
            stepped_width,
            stepped_width_deviation: 1e-6 * width,
        };
        let found = settle_by_power(&BEAM, &step, 0.95).unwrap();
        let spot = mark_width(&BEAM, fault.kind, 2.0, fault.z_offset).unwrap().spot_diameter;
        prop_assert!((found.spot_diameter / spot - 1.0).abs() < 1e-9);
        prop_assert!((found.dose_ratio / dose - 1.0).abs() < 1e-9);
        prop_assert!((found.power.ratio / fault.power_ratio - 1.0).abs() < 1e-8);
        let z = fault.z_offset.abs();
        prop_assert!(found.least_offset <= z + 1e-9 && z <= found.greatest_offset + 1e-9);
        prop_assert_ne!(found.cause, MarkCause::NotAsAssumed);
    }

    /// Three heights tell the offset of the middle one if it is the nearest to the waist, whatever scale and zero; else the side.
    #[test]
    fn three_heights_tell_the_side(
        kind in kind(),
        law in law(),
        z in -1e-3..1e-3_f64,
        step in 0.1e-3..1e-3_f64,
        (scale, zero) in (1.0..50.0_f64, 60.0..200.0_f64),
    ) {
        let reading = |z: f64| {
            let square = 1.0 + (z / beam_parameters(&BEAM).unwrap().rayleigh_range).powi(2);
            let n = if kind == MarkKind::Pulse { 1.0 } else { 0.5 };
            let fall = match law { DepthLaw::Linear => square.powf(-n), _ => -n * square.ln() };
            zero + scale * fall
        };
        let readings = HeightReadings {
            kind,
            law,
            height_step: step,
            toward_lens: reading(z - step),
            middle: reading(z),
            away_from_lens: reading(z + step),
            deviation: 1e-7,
        };
        prop_assume!(readings.toward_lens > 0.0 && readings.away_from_lens > 0.0);
        let found = settle_by_heights(&BEAM, &readings, 0.95).unwrap();
        if z.abs() < 0.499 * step {
            prop_assert_eq!(found.verdict, HeightVerdict::FocusWithin);
            let its = found.z_offset_deviation.unwrap();
            prop_assert!((found.z_offset.unwrap() - z).abs() < 1e-8 * step + 1e-3 * its, "{:?} for {z}", found);
        } else if z.abs() > 0.51 * step {
            let (verdict, end) = if z > 0.0 {
                (HeightVerdict::FocusTowardLens, found.least_z_offset)
            } else {
                (HeightVerdict::FocusAwayFromLens, found.greatest_z_offset)
            };
            prop_assert_eq!(found.verdict, verdict);
            prop_assert!(end.is_some_and(|end| end.abs() == 0.5 * step && end * z > 0.0 && end.abs() <= z.abs()));
            prop_assert!(found.z_offset.is_none());
        }
    }

    /// Turned over, three heights say the same of the other side.
    #[test]
    fn three_heights_mirrored(kind in kind(), law in law(), a in 20.0..40.0_f64, b in 30.0..50.0_f64, c in 20.0..40.0_f64) {
        let readings = HeightReadings {
            kind, law, height_step: 0.4e-3, toward_lens: a, middle: b, away_from_lens: c, deviation: 0.5,
        };
        let mirrored = HeightReadings { toward_lens: c, away_from_lens: a, ..readings };
        let (one, other) =
            (settle_by_heights(&BEAM, &readings, 0.95).unwrap(), settle_by_heights(&BEAM, &mirrored, 0.95).unwrap());
        let same = |x: Option<f64>, y: Option<f64>| match (x, y) {
            (Some(x), Some(y)) => (x + y).abs() < 1e-15,
            (x, y) => x.is_none() && y.is_none(),
        };
        prop_assert!(same(one.z_offset, other.z_offset), "{one:?} {other:?}");
        prop_assert!(same(one.least_z_offset, other.greatest_z_offset));
        prop_assert!(same(one.greatest_z_offset, other.least_z_offset));
    }

    /// Diagnosed, then compensated: at the height that was found, the setting with the dose that was found brings back the good width,
    /// on whichever side of the focus the surface lies.
    #[test]
    fn what_is_found_is_made_up_for(fault in fault(), law in law()) {
        let m = measured(&fault, law, 0.01);
        let found = diagnose_mark(&BEAM, &m.good, &m.depths, m.width, m.width_deviation, 0.95).unwrap();
        let setting = MarkSetting {
            kind: fault.kind,
            dose_ratio: fault.dose_ratio,
            power: 20.0,
            speed: 0.5,
            greatest_power: 1e5,
            least_speed: 1e-6,
            greatest_speed: 1e3,
            least_irradiance_ratio: 0.0,
        };
        let (good_width, _) = fault.good();
        for offset in [found.offset, -found.offset] {
            let made_up = compensate(&BEAM, offset, CompensationRule::SameWidth, &setting).unwrap();
            // What the laser really gives has changed by the fault; so power is corrected for that first.
            let power_ratio = fault.power_ratio * (made_up.reached_factor / found.power_ratio);
            let (width, _) = fault.mark(power_ratio, fault.z_offset).unwrap();
            prop_assert!((width / good_width - 1.0).abs() < 1e-6, "{width} instead of {good_width}");
            prop_assert!((made_up.mark_width / good_width - 1.0).abs() < 1e-6);
        }
    }
}

/// The dose at which a line's width does not react to focus hides it, and the diagnosis says so.
#[test]
fn a_width_that_does_not_react_to_focus() {
    for kind in MarkKind::ALL {
        let dose_ratio = kind.focus_insensitive_dose_ratio() * 1.0001;
        let fault = Fault { kind, dose_ratio, z_offset: 0.15e-3, power_ratio: 1.0 };
        let m = measured(&fault, DepthLaw::Logarithmic, 0.02);
        let found = diagnose_width(&BEAM, &m.good, m.width, m.width_deviation, 0.95).unwrap();
        assert_eq!(found.cause, MarkCause::Nothing);
        assert!(found.ambiguities.contains(Ambiguities::INSENSITIVE));
        assert_eq!(found.further_test, FurtherTest::HeightsEitherSide);
    }
}

/// A mark narrower than any focus makes it: what was good was not.
#[test]
fn a_good_mark_that_was_out_of_focus() {
    let was = Fault { kind: MarkKind::Line, dose_ratio: 6.0, z_offset: 0.5e-3, power_ratio: 1.0 };
    let mut m = measured(&was, DepthLaw::Logarithmic, 0.01);
    // The roles change: the mark now is in focus.
    std::mem::swap(&mut m.good.width, &mut m.width);
    std::mem::swap(&mut m.good.width_deviation, &mut m.width_deviation);
    std::mem::swap(&mut m.depths.good_depth, &mut m.depths.depth);
    std::mem::swap(&mut m.depths.good_depth_deviation, &mut m.depths.depth_deviation);
    m.good.dose_ratio = 6.0 / growth(&was);
    let found = diagnose_mark(&BEAM, &m.good, &m.depths, m.width, m.width_deviation, 0.95).unwrap();
    assert_eq!((found.cause, found.further_test), (MarkCause::NotAsAssumed, FurtherTest::DoublePower));
    assert!((found.growth * growth(&was) - 1.0).abs() < 1e-9 && found.offset == 0.0);
}

/// Better on both sides, or hardly different.
#[test]
fn three_heights_that_tell_nothing() {
    let mut readings = HeightReadings {
        kind: MarkKind::Line,
        law: DepthLaw::Linear,
        height_step: 0.3e-3,
        toward_lens: 50.0,
        middle: 30.0,
        away_from_lens: 45.0,
        deviation: 1.0,
    };
    let verdict = |readings: &HeightReadings| settle_by_heights(&BEAM, readings, 0.95).unwrap().verdict;
    assert_eq!(verdict(&readings), HeightVerdict::Contradiction);
    readings.deviation = 30.0;
    assert_eq!(verdict(&readings), HeightVerdict::NoDifference);
}

/// A stain whose optical density keeps to ln q tells focus from power as a depth does; its contrast does not.
#[test]
fn a_stain_by_its_density_and_by_its_contrast() {
    // Out of focus by a growth of 1.5, the power unchanged; in focus four times the threshold, a density of 0.7·log₁₀(4).
    let rayleigh = beam_parameters(&BEAM).unwrap().rayleigh_range;
    let fault = Fault {
        kind: MarkKind::Line,
        dose_ratio: 4.0,
        z_offset: rayleigh * 1.25_f64.sqrt(),
        power_ratio: 1.0,
    };
    let m = measured(&fault, DepthLaw::Logarithmic, 0.01);
    let bare = 0.82;
    let reflectance = |q: f64| bare * q.powf(-0.7);
    let found = |reading: &dyn Fn(f64) -> f64| {
        let (good_depth, depth) = (reading(reflectance(4.0)), reading(reflectance(4.0 / 1.5)));
        let depths = DepthReading {
            law: DepthLaw::Logarithmic,
            good_depth,
            good_depth_deviation: 0.01 * good_depth,
            depth,
            depth_deviation: 0.01 * depth,
        };
        diagnose_mark(&BEAM, &m.good, &depths, m.width, m.width_deviation, 0.95).unwrap()
    };
    let by_density = found(&|r| (bare / r).log10());
    assert!((by_density.growth - 1.5).abs() < 1e-9 && (by_density.power_ratio - 1.0).abs() < 1e-9);
    assert_eq!(by_density.cause, MarkCause::Focus);
    assert!(by_density.least_offset < fault.z_offset && fault.z_offset < by_density.greatest_offset);
    // A contrast saturates: 0.62 and 0.50 are in the ratio 0.80, the densities in the ratio 0.71.
    let by_contrast = found(&|r| 1.0 - r / bare);
    println!("by contrast: growth {}, power {}", by_contrast.growth, by_contrast.power_ratio);
    assert!(by_contrast.greatest_offset < fault.z_offset && by_contrast.least_power_ratio > 1.0);
    assert_eq!(by_contrast.cause, MarkCause::FocusAndPower);
}
