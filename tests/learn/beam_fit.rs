//! The fit of a beam on simulated readings: the cases of the physics paper (a spot of 85 µm with a Rayleigh range of
//! 0.535 mm, at 10.6 µm a beam of M² = 1.0008), coverage, bias, outliers, marks, and data that tell nothing.

use super::drawn::Drawn;
use super::tally::Tally;
use spotwise::model::learn::{
    BeamFit, BeamFitOptions, BeamReadings, BeamWarnings, Estimate, ReadingWeights, fit_beam,
};
use spotwise::{Error, Param};

const WAVELENGTH: f64 = 10.6e-6;
const WAIST: f64 = 85e-6;
const RAYLEIGH: f64 = 0.535e-3;
const RUNS: u32 = 2000;

fn options(outlier_limit: f64) -> BeamFitOptions {
    BeamFitOptions { weights: ReadingWeights::Refined, outlier_limit, confidence: 0.95, mark_dose_ratio: 0.0 }
}

/// Readings as they are drawn, and as they are said to scatter.
struct Series {
    heights: Vec<f64>,
    diameters: Vec<f64>,
    deviations: Vec<f64>,
}

impl Series {
    fn fit(&self, options: &BeamFitOptions) -> Result<BeamFit, Error> {
        let count = self.heights.len();
        let readings =
            BeamReadings { heights: &self.heights, diameters: &self.diameters, deviations: &self.deviations };
        let (mut residuals, mut used) = (vec![0.0; count], vec![true; count]);
        let fit = fit_beam(&readings, WAVELENGTH, options, &mut residuals, &mut used);
        match &fit {
            Ok(fit) => {
                assert!(residuals.iter().all(|residual| residual.is_finite()));
                assert_eq!(used.iter().filter(|used| **used).count(), fit.readings_used as usize);
            }
            Err(_) => assert!(residuals.iter().all(|r| r.is_nan()) && used.iter().all(|used| !used)),
        }
        fit
    }
}

/// So many heights evenly over ± `half_range` Rayleigh ranges, read with this deviation, of what is this wide at so
/// many Rayleigh ranges.
fn drawn(
    drawn: &mut Drawn,
    count: u32,
    half_range: f64,
    deviation: f64,
    width: impl Fn(f64) -> f64,
) -> Series {
    let places = (0..count).map(|i| half_range * (2.0 * f64::from(i) / f64::from(count - 1) - 1.0));
    let u: Vec<f64> = places.collect();
    Series {
        heights: u.iter().map(|u| u * RAYLEIGH).collect(),
        diameters: u.iter().map(|u| (width(*u) + deviation * drawn.normal()).max(1e-7)).collect(),
        deviations: vec![deviation; u.len()],
    }
}

fn beam(u: f64) -> f64 {
    WAIST * (1.0 + u * u).sqrt()
}

/// The line that a beam marks at this dose ratio: b = w·√(2·ln(q/u)) where the dose is enough; else a scratch of 1 µm.
fn line(dose_ratio: f64) -> impl Fn(f64) -> f64 {
    move |u: f64| {
        let growth = (1.0 + u * u).sqrt();
        let left = (dose_ratio / growth).ln();
        if left > 0.0 { WAIST * growth * (left / 2.0).sqrt() } else { 1e-6 }
    }
}

/// Adds what was found, and whether its range holds the truth.
fn add(tally: &mut Tally, found: &Estimate, truth: f64) {
    tally.add(found.value - truth, (found.least..=found.greatest).contains(&truth));
}

/// Tallies of height and diameter of the waist, Rayleigh range and M² over runs, none of which may be refused; and of the
/// plain least-squares numbers.
fn tallies(deviation: f64, count: u32, said: f64) -> [(Tally, Tally); 4] {
    let mut draws = Drawn::from_seed(7);
    let mut tallies: [(Tally, Tally); 4] = Default::default();
    let m2 = std::f64::consts::FRAC_PI_4 * WAIST * WAIST / (RAYLEIGH * WAVELENGTH);
    for _ in 0..RUNS {
        let mut series = drawn(&mut draws, count, 2.0, deviation, beam);
        series.deviations.fill(said * deviation);
        let fit = series.fit(&options(f64::INFINITY)).unwrap();
        let truths = [0.0, WAIST, RAYLEIGH, m2];
        let found = [fit.waist_z, fit.waist_diameter, fit.rayleigh_range, fit.m2];
        for (((tally, plain), truth), found) in tallies.iter_mut().zip(truths).zip(found) {
            add(tally, &found, truth);
            plain.add(found.least_squares() - truth, true);
        }
    }
    tallies
}

/// Ranges of 95 % hold the truth in 94 % to 97.5 % of cases, and half of the bias that is allowed in the paper's cases.
#[test]
fn ranges_hold_and_bias_is_small() {
    for deviation in [5e-6, 10e-6] {
        for count in [7, 11, 21] {
            let tallies = tallies(deviation, count, 1.0);
            for (at, (tally, plain)) in tallies.iter().enumerate() {
                let (bias, coverage) = (tally.bias_in_deviations(), tally.coverage());
                // In deviations of the value that is freed of it.
                let plain = plain.mean() / tally.deviation();
                println!(
                    "{deviation:e} {count} {at}: bias {bias:+.3}, plain {plain:+.3}, coverage {coverage:.4}"
                );
                assert!((0.94..=0.975).contains(&coverage), "{deviation} {count} {at}: {coverage}");
                // Plain least squares find M² too low, by more than a tenth at 10 µm unless the readings are many.
                assert!(at < 3 || deviation < 10e-6 || count > 11 || plain < -0.1, "{count}: plain {plain}");
                assert!(bias.abs() < 0.05, "{deviation} {count} {at}: {bias}");
            }
        }
    }
}

/// Deviations stated three times too small: ranges are Student's then, and hold as well.
#[test]
fn ranges_hold_where_deviations_are_understated() {
    for (tally, _) in tallies(5e-6, 11, 1.0 / 3.0) {
        assert!((0.93..=0.97).contains(&tally.coverage()), "{}", tally.coverage());
    }
}

/// One reading 100 µm too wide: left out, the waist is found as well as without; kept, it is off several times as far.
#[test]
fn an_outlier_is_left_out() {
    let mut draws = Drawn::from_seed(3);
    let (mut cleared, mut kept, mut clean) = (Tally::default(), Tally::default(), Tally::default());
    let (mut caught, mut refused) = (0, 0);
    for run in 0..RUNS {
        let mut series = drawn(&mut draws, 11, 2.0, 5e-6, beam);
        add(&mut clean, &series.fit(&options(3.0)).unwrap().waist_z, 0.0);
        series.diameters[run as usize % 11] += 100e-6;
        let fit = series.fit(&options(3.0)).unwrap();
        add(&mut cleared, &fit.waist_z, 0.0);
        caught += u32::from(fit.readings_used < 11);
        match series.fit(&options(f64::INFINITY)) {
            Ok(fit) => add(&mut kept, &fit.waist_z, 0.0),
            Err(_) => refused += 1,
        }
    }
    let [cleared, kept, clean] = [cleared, kept, clean].map(|tally| 1e6 * tally.rms());
    println!("waist z, rms: {clean:.1} µm clean, {cleared:.1} cleared, {kept:.1} kept; {caught} caught");
    println!("kept: {refused} refused");
    assert!(caught > RUNS * 99 / 100 && cleared < 1.3 * clean && kept > 3.0 * clean);
}

/// Shares of runs in which the wrong kind of data is refused or flagged, as the module documents them.
#[test]
fn widths_of_marks_are_caught() {
    // Dose ratio, half range in Rayleigh ranges, least share caught.
    let cases = [
        (1.3, 1.0, 1.0),
        (1.3, 2.0, 1.0),
        (2.0, 1.0, 0.999),
        (2.0, 3.0, 1.0),
        (3.0, 1.0, 0.999),
        (3.0, 2.0, 1.0),
        (3.0, 3.0, 1.0),
        (5.0, 1.0, 0.99),
        (5.0, 2.0, 1.0),
        (8.0, 1.0, 0.5),
        (8.0, 2.0, 0.999),
        (8.0, 3.0, 1.0),
        (20.0, 2.0, 0.05),
        (20.0, 3.0, 0.5),
    ];
    for (dose_ratio, half_range, least) in cases {
        let mut draws = Drawn::from_seed(11);
        let (mut refused, mut flagged) = (0.0, 0.0);
        for _ in 0..RUNS {
            match drawn(&mut draws, 11, half_range, 5e-6, line(dose_ratio)).fit(&options(f64::INFINITY)) {
                Ok(fit) => flagged += f64::from(fit.warnings.contains(BeamWarnings::MARK_WIDTHS)),
                Err(Error::Undetermined { .. }) => refused += 1.0,
                Err(other) => panic!("{other}"),
            }
        }
        let [refused, flagged] = [refused, flagged].map(|count| count / f64::from(RUNS));
        println!("q {dose_ratio}, ± {half_range} z_R: refused {refused:.3}, flagged {flagged:.3}");
        assert!(refused + flagged >= least, "{dose_ratio} {half_range}: {refused} {flagged}");
    }
}

/// A beam of M² = 1.0008 is taken for marks in less than 5 % of runs, one of M² = 1.25 in less than 2 %.
#[test]
fn a_beam_is_seldom_taken_for_marks() {
    for (m2, most) in [(1.0008, 0.05), (1.25, 0.02)] {
        for half_range in [1.0, 2.0, 3.0] {
            let mut draws = Drawn::from_seed(5);
            let root = f64::sqrt(m2 / 1.0008);
            let flagged: u32 = (0..RUNS)
                .map(|_| {
                    let series = drawn(&mut draws, 11, half_range, 5e-6, |u| root * beam(u));
                    let fit = series.fit(&options(f64::INFINITY)).unwrap();
                    u32::from(fit.warnings.contains(BeamWarnings::MARK_WIDTHS))
                })
                .sum();
            let share = f64::from(flagged) / f64::from(RUNS);
            println!("M² {m2}, ± {half_range} z_R: flagged {share:.4}");
            assert!(share < most, "{m2} {half_range}: {share}");
        }
    }
}

/// A dose that is reported is enough.
#[test]
fn reported_marks_are_called_marks() {
    let series = drawn(&mut Drawn::from_seed(1), 11, 2.0, 5e-6, beam);
    let fit = series.fit(&BeamFitOptions { mark_dose_ratio: 8.0, ..options(3.0) }).unwrap();
    assert!(fit.warnings.contains(BeamWarnings::MARK_WIDTHS));
    let without = series.fit(&options(3.0)).unwrap();
    assert!(!without.warnings.contains(BeamWarnings::MARK_WIDTHS));
    assert_eq!(BeamFit { warnings: without.warnings, ..fit }, without);
}

/// Noise on a constant width is refused, by the name of what it lacks, nearly always.
#[test]
fn noise_alone_is_refused() {
    let mut draws = Drawn::from_seed(9);
    let mut answered = 0;
    for _ in 0..RUNS {
        match drawn(&mut draws, 11, 2.0, 5e-6, |_| WAIST).fit(&options(3.0)) {
            Ok(_) => answered += 1,
            Err(Error::Undetermined { param, .. }) => {
                assert!(matches!(param, Param::CurvatureSignificance | Param::SteadyWeights));
            }
            Err(other) => panic!("{other}"),
        }
    }
    println!("noise answered: {answered} of {RUNS}");
    assert!(answered < RUNS / 100);
}

#[test]
fn data_that_tell_nothing_are_refused_by_name() {
    let of = |heights: &[f64], diameters: &[f64], deviation: f64| Series {
        heights: heights.to_vec(),
        diameters: diameters.to_vec(),
        deviations: vec![deviation; heights.len()],
    };
    let lacks = |series: &Series| match series.fit(&options(3.0)) {
        Err(Error::Undetermined { param, value, .. }) => (param, value),
        other => panic!("{other:?}"),
    };
    let z = [-1e-3, -0.5e-3, 0.0, 0.5e-3, 1e-3];
    assert_eq!(lacks(&of(&[], &[], 1e-6)), (Param::Readings, 0.0));
    assert_eq!(lacks(&of(&z[..2], &[1e-4; 2], 1e-6)), (Param::Readings, 2.0));
    assert_eq!(lacks(&of(&[1.0; 5], &[1e-4; 5], 1e-6)), (Param::DistinctHeights, 1.0));
    assert_eq!(lacks(&of(&[0.0, 1e-3, 0.0, 1e-3], &[1e-4; 4], 1e-6)), (Param::DistinctHeights, 2.0));
    // Widths that fall on either side, as those of marks do: below −3.
    let (param, value) = lacks(&of(&z, &[60e-6, 85e-6, 100e-6, 85e-6, 60e-6], 1e-6));
    assert!(param == Param::CurvatureSignificance && value < -5.0, "{value}");
    // A point: widths in proportion to the distance.
    let (param, _) = lacks(&of(&z, &[1e-3, 0.5e-3, 1e-7, 0.5e-3, 1e-3], 20e-6));
    assert_eq!(param, Param::WaistSignificance);
    for bad in [f64::NAN, f64::INFINITY, -1e-6, 0.0] {
        let mut series = of(&z, &[150e-6, 120e-6, 100e-6, 120e-6, 150e-6], 1e-6);
        series.diameters[2] = bad;
        let refused = series.fit(&options(3.0)).unwrap_err();
        assert_eq!(refused.param(), Param::BeamDiameter);
        series.diameters[2] = 100e-6;
        series.deviations[4] = bad;
        assert_eq!(series.fit(&options(3.0)).unwrap_err().param(), Param::WidthDeviation);
    }
}
