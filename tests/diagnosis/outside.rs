//! Against `tests/tables/diagnosis.csv`, computed independently at 50 digits, and against SciPy.

use super::simulated::BEAM;
use spotwise::model::learn::{
    DepthLaw, DepthReading, GoodMark, MarkCause, diagnose_mark, diagnose_width, settle_by_patch,
};
use spotwise::model::mark::MarkKind;
use spotwise::model::optics::Beam;

/// The rows of a table, each as its numbers.
fn rows(text: &str) -> Vec<Vec<f64>> {
    text.lines().skip(1).map(|line| line.split(',').map(|cell| cell.parse().unwrap()).collect()).collect()
}

fn near(found: f64, expected: f64, relative: f64) {
    assert!((found - expected).abs() <= relative * expected.abs(), "{found} instead of {expected}");
}

/// Its depths are relative, its widths in millimetres; growths below 1, which it lists, are roots but no heights.
#[test]
fn diagnoses_match_the_table() {
    let rows = rows(include_str!("../tables/diagnosis.csv"));
    assert_eq!(rows.len(), 40);
    let (mut nears, mut fars) = (0, 0);
    for row in rows {
        let [q, growth, power, radius, good_width, width, _, by_log, by_excess, near_growth, far_growth] =
            row[..]
        else {
            panic!("{row:?}")
        };
        let beam = Beam { wavelength: 1.064e-6, m2: 1.2, waist_diameter: 2e-3 * radius };
        let rayleigh_range = std::f64::consts::PI * (1e-3 * radius).powi(2) / (1.2 * 1.064e-6);
        let good = GoodMark {
            kind: MarkKind::Line,
            dose_ratio: q,
            dose_ratio_deviation: 0.0,
            width: 1e-3 * good_width,
            width_deviation: 1e-9 * good_width,
        };
        let (width, deviation) = (1e-3 * width, 1e-9 * width);
        for (law, depth) in [(DepthLaw::Logarithmic, by_log), (DepthLaw::Linear, by_excess)] {
            let depths = DepthReading {
                law,
                good_depth: 1.0,
                good_depth_deviation: 1e-6,
                depth,
                depth_deviation: 1e-6 * depth,
            };
            let found = diagnose_mark(&beam, &good, &depths, width, deviation, 0.95).unwrap();
            near(found.growth, growth, 2e-13);
            near(found.power_ratio, power, 2e-13);
            near(found.offset, rayleigh_range * (growth * growth - 1.0).sqrt(), 4e-12);
            assert_eq!(found.cause, MarkCause::FocusAndPower);
        }
        // The listed roots, where they are heights.
        let found = diagnose_width(&beam, &good, width, deviation, 0.95).unwrap();
        assert_eq!(found.near.is_some(), near_growth >= 1.0);
        assert_eq!(found.far.is_some(), far_growth >= 1.0);
        if let Some(height) = found.near {
            near(height.growth, near_growth, 1e-12);
            nears += 1;
        }
        if let Some(height) = found.far {
            near(height.growth, far_growth, 1e-12);
            fars += 1;
        }
        // With what the patch says of the dose, the height is found from the width alone.
        let patch_q = 100.0_f64;
        let patch = DepthReading {
            law: DepthLaw::Logarithmic,
            good_depth: 1.0,
            good_depth_deviation: 1e-6,
            depth: (patch_q * power).ln() / patch_q.ln(),
            depth_deviation: 1e-6,
        };
        let settled = settle_by_patch(&beam, &good, &patch, patch_q, width, deviation, 0.95).unwrap();
        near(settled.power.ratio, power, 1e-13);
        let heights = [settled.near, settled.far].map(|height| height.map_or(0.0, |height| height.growth));
        let found = heights.into_iter().any(|found| (found - growth).abs() < 1e-10 * growth);
        assert!(found, "{heights:?} instead of {growth}");
        assert_eq!(settled.cause, MarkCause::FocusAndPower);
    }
    assert!(nears >= 20 && fars >= 25, "{nears} and {fars}");
}

/// SciPy's least squares with its own derivatives, and its W. A width that the heights do not explain has none of either.
#[test]
fn diagnoses_match_scipy() {
    let rows = rows(include_str!("../tables/diagnosis_outside.csv"));
    assert_eq!(rows.len(), 100);
    for row in rows {
        let i = &row[..];
        let good = GoodMark {
            kind: MarkKind::from_code(i[0] as u32).unwrap(),
            dose_ratio: i[2],
            dose_ratio_deviation: i[3],
            width: i[4],
            width_deviation: i[5],
        };
        let depths = DepthReading {
            law: DepthLaw::from_code(i[1] as u32).unwrap(),
            good_depth: i[6],
            good_depth_deviation: i[7],
            depth: i[10],
            depth_deviation: i[11],
        };
        let found = diagnose_mark(&BEAM, &good, &depths, i[8], i[9], 0.95).unwrap();
        near(found.growth, i[12], 1e-9);
        near(found.power_ratio, i[14], 1e-9);
        near(found.growth_deviation, i[13], 1e-6);
        near(found.power_ratio_deviation, i[15], 1e-6);
        assert!((found.correlation - i[16]).abs() < 1e-6, "{} instead of {}", found.correlation, i[16]);

        let exact = GoodMark { width_deviation: 1e-12, dose_ratio_deviation: 0.0, ..good };
        let alone = diagnose_width(&BEAM, &exact, i[8], 1e-12, 0.95).unwrap();
        for (height, expected) in [(alone.near, i[17]), (alone.far, i[18])] {
            assert_eq!(height.is_some(), expected >= 1.0);
            if let Some(height) = height {
                near(height.growth, expected, 1e-9);
            }
        }
    }
}
