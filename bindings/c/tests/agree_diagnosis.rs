//! Focus or power against the model, as in `agree`.
#![expect(clippy::undocumented_unsafe_blocks, reason = "every one is a call with whole structs")]

use super::agree::beam;
use super::raw::{Expected, choice, compare, near, ratio, share};
use crate::abi::Plain;
use crate::diagnosis::*;
use crate::settling::*;
use proptest::prelude::*;
use spotwise::model::learn::{
    self, Ambiguities, DepthLaw, DepthReading, FurtherTest, GoodMark, HeightReadings, MarkCause,
    PossibleHeight, PossiblePower, PowerStep,
};
use spotwise::model::mark::MarkKind;
use spotwise::{Error, Validity};

/// A good mark, for C and for the model, which may refuse it.
fn good() -> impl Strategy<Value = (spotwise_good_mark, Result<GoodMark, Error>)> {
    let numbers = (ratio(), near(0.02), near(70e-6), near(1e-6));
    (choice(2), numbers).prop_map(|(code, (dose_ratio, dose_ratio_deviation, width, width_deviation))| {
        let c = spotwise_good_mark {
            mark_kind: code,
            dose_ratio,
            dose_ratio_deviation,
            width_m: width,
            width_deviation_m: width_deviation,
            ..spotwise_good_mark::BLANK
        };
        let model = MarkKind::from_code(code).map(|kind| GoodMark {
            kind,
            dose_ratio,
            dose_ratio_deviation,
            width,
            width_deviation,
        });
        (c, model)
    })
}

/// Depths, for C and for the model, which may refuse them.
fn depths() -> impl Strategy<Value = (spotwise_depth_reading, Result<DepthReading, Error>)> {
    let numbers = (near(40.0), near(1.0), near(35.0), near(1.0));
    (choice(2), numbers).prop_map(|(code, (good_depth, good_depth_deviation, depth, depth_deviation))| {
        let c = spotwise_depth_reading {
            depth_law: code,
            good_depth,
            good_depth_deviation,
            depth,
            depth_deviation,
            ..spotwise_depth_reading::BLANK
        };
        let model = DepthLaw::from_code(code).map(|law| DepthReading {
            law,
            good_depth,
            good_depth_deviation,
            depth,
            depth_deviation,
        });
        (c, model)
    })
}

fn says<T: Plain>(cause: MarkCause, test: FurtherTest, open: Ambiguities, validity: Validity) -> Expected {
    let codes = Expected::of::<T>().word(cause as u32).word(test as u32).word(open.bits());
    codes.word(validity.bits()).word(0)
}

fn numbers_of(height: Option<PossibleHeight>) -> [f64; 4] {
    height.map_or([f64::NAN; 4], |h| [h.growth, h.offset, h.least_offset, h.greatest_offset])
}

fn powers_of(power: Option<PossiblePower>) -> [f64; 3] {
    power.map_or([f64::NAN; 3], |p| [p.ratio, p.least, p.greatest])
}

proptest! {
    #[test]
    fn diagnose_mark(
        (c_beam, beam) in beam(),
        (c_good, good) in good(),
        (c_depths, depths) in depths(),
        (width, deviation, coverage) in (near(80e-6), near(1e-6), share()),
    ) {
        let model = good.and_then(|good| learn::diagnose_mark(&beam, &good, &depths?, width, deviation, coverage)).map(|d| {
            says::<spotwise_mark_diagnosis>(d.cause, d.further_test, d.ambiguities, d.validity).numbers(&[
                d.growth,
                d.growth_deviation,
                d.offset,
                d.least_offset,
                d.greatest_offset,
                d.power_ratio,
                d.power_ratio_deviation,
                d.least_power_ratio,
                d.greatest_power_ratio,
                d.correlation,
                d.dose_ratio,
                d.half_angle,
            ])
        });
        compare(
            |out, error| unsafe {
                spotwise_diagnose_mark(&c_beam, &c_good, &c_depths, width, deviation, coverage, out, error)
            },
            model,
        )?;
    }

    #[test]
    fn diagnose_width(
        (c_beam, beam) in beam(),
        (c_good, good) in good(),
        (width, deviation, coverage) in (near(80e-6), near(1e-6), share()),
    ) {
        let model = good.and_then(|good| learn::diagnose_width(&beam, &good, width, deviation, coverage)).map(|d| {
            let numbers =
                [&numbers_of(d.near)[..], &numbers_of(d.far), &powers_of(d.power), &[d.half_angle]].concat();
            says::<spotwise_width_diagnosis>(d.cause, d.further_test, d.ambiguities, d.validity).numbers(&numbers)
        });
        compare(
            |out, error| unsafe {
                spotwise_diagnose_width(&c_beam, &c_good, width, deviation, coverage, out, error)
            },
            model,
        )?;
    }

    #[test]
    fn settle_by_patch(
        (c_beam, beam) in beam(),
        (c_good, good) in good(),
        (c_patch, patch) in depths(),
        (patch_dose, width, deviation, coverage) in (ratio(), near(80e-6), near(1e-6), share()),
    ) {
        let model = good
            .and_then(|good| learn::settle_by_patch(&beam, &good, &patch?, patch_dose, width, deviation, coverage))
            .map(|d| {
                let power = powers_of(Some(d.power));
                let numbers = [&power[..], &numbers_of(d.near), &numbers_of(d.far), &[d.half_angle]].concat();
                says::<spotwise_patch_settlement>(d.cause, d.further_test, d.ambiguities, d.validity).numbers(&numbers)
            });
        compare(
            |out, error| unsafe {
                spotwise_settle_by_patch(
                    &c_beam, &c_good, &c_patch, patch_dose, width, deviation, coverage, out, error,
                )
            },
            model,
        )?;
    }

    #[test]
    fn settle_by_power(
        (c_beam, beam) in beam(),
        (code, dose_ratio, dose_ratio_deviation, power_step) in (choice(2), ratio(), near(0.02), near(2.0)),
        (width, width_deviation) in (near(80e-6), near(1e-6)),
        (stepped_width, stepped_width_deviation) in (near(100e-6), near(1e-6)),
        coverage in share(),
    ) {
        let c_step = spotwise_power_step {
            mark_kind: code,
            dose_ratio,
            dose_ratio_deviation,
            power_step,
            width_m: width,
            width_deviation_m: width_deviation,
            stepped_width_m: stepped_width,
            stepped_width_deviation_m: stepped_width_deviation,
            ..spotwise_power_step::BLANK
        };
        let model = MarkKind::from_code(code)
            .map(|kind| PowerStep {
                kind,
                dose_ratio,
                dose_ratio_deviation,
                power_step,
                width,
                width_deviation,
                stepped_width,
                stepped_width_deviation,
            })
            .and_then(|step| learn::settle_by_power(&beam, &step, coverage))
            .map(|d| {
                says::<spotwise_power_settlement>(d.cause, d.further_test, d.ambiguities, d.validity).numbers(&[
                    d.spot_diameter,
                    d.spot_diameter_deviation,
                    d.growth,
                    d.offset,
                    d.least_offset,
                    d.greatest_offset,
                    d.dose_ratio,
                    d.power.ratio,
                    d.power.least,
                    d.power.greatest,
                    d.half_angle,
                ])
            });
        compare(
            |out, error| unsafe { spotwise_settle_by_power(&c_beam, &c_step, coverage, out, error) },
            model,
        )?;
    }

    #[test]
    fn settle_by_heights(
        (c_beam, beam) in beam(),
        (kind, law, height_step) in (choice(2), choice(2), near(0.3e-3)),
        (toward_lens, middle, away_from_lens, deviation) in (near(38.0), near(40.0), near(38.0), near(0.5)),
        coverage in share(),
    ) {
        let c_readings = spotwise_height_readings {
            mark_kind: kind,
            depth_law: law,
            height_step_m: height_step,
            toward_lens,
            middle,
            away_from_lens,
            deviation,
            ..spotwise_height_readings::BLANK
        };
        let readings = || -> Result<_, Error> {
            let (kind, law) = (MarkKind::from_code(kind)?, DepthLaw::from_code(law)?);
            Ok(HeightReadings { kind, law, height_step, toward_lens, middle, away_from_lens, deviation })
        };
        let model = readings().and_then(|readings| learn::settle_by_heights(&beam, &readings, coverage)).map(|d| {
            let of = |number: Option<f64>| number.unwrap_or(f64::NAN);
            let codes = Expected::of::<spotwise_height_settlement>().word(d.verdict as u32);
            codes.word(d.validity.bits()).word(0).numbers(&[
                of(d.z_offset),
                of(d.z_offset_deviation),
                of(d.least_z_offset),
                of(d.greatest_z_offset),
                d.half_angle,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_settle_by_heights(&c_beam, &c_readings, coverage, out, error) },
            model,
        )?;
    }
}
