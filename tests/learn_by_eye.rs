//! How well an eye does: simulated series, judged as an eye judges, read by the library. All seeds are fixed.
//!
//! The standard deviations are those of the project's physics paper, which simulated the same with another program
//! (NumPy): vanishing marks of 5 % jitter at dose ratios of 1.2 to 2 with z_R = 0.535 mm, 40 to 45 µm in steps of
//! 0.1 mm and 56 to 59 µm in steps of 0.2 mm; ranks in steps of 0.4 z_R, 0.081 z_R for 5 % and 0.121 z_R for 10 %
//! noise of judgement. Its 0.044 z_R without any noise is that of one pair of limits; here limits vary.

use spotwise::Param;
use spotwise::model::learn::{EyeJudgement, EyeWarnings, PieceRank, focus_from_ranks, focus_from_vanishing};
use spotwise::model::mark::MarkKind;
use std::f64::consts::TAU;

/// SplitMix64 (from memory), and normal numbers by Box and Muller's method.
struct Chance(u64);

impl Chance {
    fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, least: f64, greatest: f64) -> f64 {
        least + (greatest - least) * self.even()
    }

    fn normal(&mut self) -> f64 {
        (-2.0 * (1.0 - self.even()).ln()).sqrt() * (TAU * self.even()).cos()
    }
}

/// How many series are simulated of each kind.
const SERIES: u32 = 5000;

/// What many series came to.
#[derive(Default, Debug)]
struct Tally {
    refused: u32,
    open: u32,
    held: u32,
    errors: Vec<f64>,
    stated_variance: f64,
}

impl Tally {
    fn add(&mut self, error: f64, reach: f64, deviation: f64) {
        self.errors.push(error);
        self.held += u32::from(error.abs() <= reach);
        self.stated_variance += deviation * deviation;
    }

    fn count(&self) -> f64 {
        self.errors.len() as f64
    }

    fn bias(&self) -> f64 {
        self.errors.iter().sum::<f64>() / self.count()
    }

    fn deviation(&self) -> f64 {
        let bias = self.bias();
        (self.errors.iter().map(|error| (error - bias) * (error - bias)).sum::<f64>() / self.count()).sqrt()
    }

    fn coverage(&self) -> f64 {
        f64::from(self.held) / self.count()
    }

    /// Stated over actual standard deviation.
    fn honesty(&self) -> f64 {
        (self.stated_variance / self.count()).sqrt() / self.deviation()
    }

    fn refusals(&self) -> f64 {
        f64::from(self.refused) / (self.count() + f64::from(self.refused))
    }

    fn show(&self, what: &str) {
        println!(
            "{what}: deviation {:.4}, bias {:.4}, coverage {:.4}, stated/actual {:.3}, refused {:.4}, open {}",
            self.deviation(),
            self.bias(),
            self.coverage(),
            self.honesty(),
            self.refusals(),
            self.open
        );
    }
}

/// Series of this many pieces in steps of so many Rayleigh ranges, which an eye with this noise ranks.
fn ranked(pieces: u32, step: f64, noise: f64, limits: impl Fn(&mut Chance) -> (f64, f64)) -> Tally {
    let mut chance = Chance(7);
    let mut tally = Tally::default();
    let judgement =
        EyeJudgement { rayleigh_range: 1.0, relative_deviation: noise, coverage_probability: 0.95 };
    let heights: Vec<f64> = (0..pieces).map(|i| step * (f64::from(i) - f64::from(pieces / 2))).collect();
    for _ in 0..SERIES {
        let focus = step * chance.between(-0.5, 0.5);
        let (sharp, usable) = limits(&mut chance);
        let ranks: Vec<PieceRank> = heights
            .iter()
            .map(|z| {
                let seen = (1.0 + (z - focus) * (z - focus)).sqrt() * (1.0 + noise * chance.normal());
                match seen {
                    _ if seen < sharp => PieceRank::Sharp,
                    _ if seen < usable => PieceRank::Acceptable,
                    _ => PieceRank::Poor,
                }
            })
            .collect();
        match focus_from_ranks(&heights, &ranks, &judgement) {
            Ok(found) => {
                tally.open += u32::from(found.usable_toward_lens.is_none());
                let reach = found.focus.greatest_z - found.focus.focus_z;
                tally.add(found.focus.focus_z - focus, reach, found.focus.focus_z_deviation);
            }
            Err(error) => {
                assert!(
                    [Param::GoodPieces, Param::BoundTowardLens, Param::BoundAwayFromLens]
                        .contains(&error.param())
                );
                tally.refused += 1;
            }
        }
    }
    tally
}

#[test]
fn ranks_tell_focus_as_well_as_the_paper_says() {
    let fixed = |_: &mut Chance| (1.1, 1.4);
    for (noise, paper, within) in [(0.0, 0.044, 0.2), (0.05, 0.081, 0.08), (0.1, 0.121, 0.12)] {
        let tally = ranked(11, 0.4, noise, fixed);
        tally.show(&format!("ranks, noise {noise}"));
        assert!((tally.deviation() / paper - 1.0).abs() < within, "{}", tally.deviation());
        assert!(tally.bias().abs() < 0.1 * tally.deviation());
        assert!(tally.refusals() < 0.001);
    }
}

#[test]
fn ranges_from_ranks_hold_as_often_as_they_say() {
    // Every eye has limits of its own.
    let any = |chance: &mut Chance| (chance.between(1.08, 1.25), chance.between(1.35, 1.6));
    for noise in [0.02, 0.05, 0.1] {
        let tally = ranked(13, 0.4, noise, any);
        tally.show(&format!("ranks of any eye, noise {noise}"));
        assert!((0.92..=0.975).contains(&tally.coverage()), "{noise}: {}", tally.coverage());
        assert!(tally.bias().abs() < 0.1 * tally.deviation());
        assert!((tally.honesty() - 1.0).abs() < 0.15, "{}", tally.honesty());
        assert!(tally.refusals() < 0.001);
    }
}

#[test]
fn too_short_a_series_leaves_the_usable_range_open() {
    // Half a range of 1 z_R hardly reaches the limit of 1.4, which lies at 0.98 z_R.
    let tally = ranked(11, 0.2, 0.05, |_| (1.1, 1.4));
    tally.show("ranks, short series");
    let open = f64::from(tally.open) / tally.count();
    assert!((0.5..0.9).contains(&open), "{open}");
    assert!(tally.refusals() < 0.01);
}

/// Lines in steps over half a range, of which one with a dose that jitters shows a mark or not.
fn vanishing(zr: f64, dose_ratio: f64, step: f64, noise: f64) -> Tally {
    let mut chance = Chance(11);
    let mut tally = Tally::default();
    let judgement =
        EyeJudgement { rayleigh_range: zr, relative_deviation: noise, coverage_probability: 0.95 };
    let reach = zr * (dose_ratio * dose_ratio - 1.0).sqrt() + 6.0 * step;
    let half = (reach / step).ceil() as i32;
    let heights: Vec<f64> = (-half..=half).map(|i| step * f64::from(i)).collect();
    for _ in 0..SERIES {
        let focus = step * chance.between(-0.5, 0.5);
        let seen: Vec<bool> = heights
            .iter()
            .map(|z| {
                let u = (1.0 + ((z - focus) / zr) * ((z - focus) / zr)).sqrt();
                dose_ratio * (1.0 + noise * chance.normal()) >= u
            })
            .collect();
        match focus_from_vanishing(&heights, &seen, MarkKind::Line, &judgement) {
            Ok(found) => {
                let reach = found.focus.greatest_z - found.focus.focus_z;
                tally.add(found.focus.focus_z - focus, reach, found.focus.focus_z_deviation);
            }
            Err(_) => tally.refused += 1,
        }
    }
    tally
}

#[test]
fn vanishing_marks_tell_focus_as_well_as_the_paper_says() {
    for (step, least, greatest) in [(0.1, 0.038, 0.046), (0.2, 0.055, 0.061)] {
        for dose_ratio in [1.2, 1.5, 2.0] {
            let tally = vanishing(0.535, dose_ratio, step, 0.05);
            tally.show(&format!("vanishing, step {step}, dose ratio {dose_ratio}"));
            assert!((least..=greatest).contains(&tally.deviation()), "{}", tally.deviation());
            assert!((0.92..=0.975).contains(&tally.coverage()), "{}", tally.coverage());
            assert!(tally.bias().abs() < 0.1 * tally.deviation());
            assert!((tally.honesty() - 1.0).abs() < 0.1, "{}", tally.honesty());
            assert!(tally.refusals() < 0.001);
        }
    }
}

/// The variance is the whole of it, from next to no chance to chance over several steps.
#[test]
fn the_stated_deviation_is_the_actual_one() {
    for noise in [0.003, 0.01, 0.02, 0.05, 0.1] {
        // A run whose half takes every place between two steps as the dose ratio does.
        let (mut stated, mut actual, mut count) = (0.0, 0.0, 0.0);
        for k in 0..8 {
            let tally = vanishing(1.0, 2.0 + 0.05 * f64::from(k), 0.2, noise);
            stated += tally.stated_variance;
            actual += tally.errors.iter().map(|error| error * error).sum::<f64>();
            count += tally.count();
            assert!(tally.refusals() < 0.001);
        }
        println!(
            "noise {noise}: {:.5} stated, {:.5} actual",
            (stated / count).sqrt(),
            (actual / count).sqrt()
        );
        assert!(((stated / actual).sqrt() - 1.0).abs() < 0.03, "{noise}: {}", (stated / actual).sqrt());
    }
}

#[test]
fn a_judgement_that_is_nothing_but_chance_is_flagged() {
    let judgement = EyeJudgement { rayleigh_range: 1.0, relative_deviation: 1.0, coverage_probability: 0.95 };
    let heights = [-2.0, -1.0, 0.0, 1.0, 2.0];
    let seen = [false, false, true, false, false];
    let found = focus_from_vanishing(&heights, &seen, MarkKind::Line, &judgement).unwrap();
    assert!(found.warnings.contains(EyeWarnings::COARSE_JUDGEMENT));
    assert!(found.warnings.contains(EyeWarnings::COARSE_STEPS));
    assert!(found.focus.focus_z_deviation > 0.5);
}
