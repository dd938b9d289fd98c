//! Slopes by themselves, and surfaces with holes.

use crate::plate::{PITCH, burnt, exact, farthest, level, levels, strokes};
use crate::preflight::run;
use spotwise::artwork::{Answer, BitmapMut, Exposing, ExposurePlan, Preflight, Scan, Watch, words_in_row};
use spotwise::model::surface::Surface;
use spotwise::{Error, Param};

/// A slope thins the exposure by the cosine of the incidence angle and does nothing else, if the spot changes with
/// the height in either case: cos = 1/√(1 + slope²), the projection of the beam onto the slope. In doubles within
/// 2e-16 (measured), fast to the rounding of both maps.
#[test]
fn a_slope_thins_by_the_cosine() {
    let (width, height) = (150, 60);
    let samples = strokes(width, height, 11);
    let drawing = burnt(&samples, width);
    for (slope_x, slope_y) in [(0.3_f64, 0.0_f64), (-0.5, 1.2), (0.0, 2.0)] {
        let cosine = 1.0 / (1.0 + slope_x * slope_x + slope_y * slope_y).sqrt();
        let with = Exposing { surface: Surface::Plane { slope_x, slope_y }, ..level(6.0, Scan::Unknown) };
        let without = Exposing { incidence_loss: false, ..with };
        let whole: Vec<f64> = exact(&drawing, &without).iter().map(|share| share * cosine).collect();
        let error = farthest(&exact(&drawing, &with), &whole);
        assert!(error < 1e-15, "{error:e}");
        for (thinned, whole) in levels(&drawing, &with).iter().zip(levels(&drawing, &without)) {
            let error = f64::from(*thinned) - cosine * f64::from(whole);
            assert!(error.abs() < 1.1, "{error}");
        }
    }
}

/// Probes on a level plate, of which one is missing: three columns by three, the last of the lower right.
const PROBES: [f64; 9] = [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, f64::NAN];

/// Where a probe is missing, the exposure is 0, in doubles NaN, and ink there counts as neither kept nor lost; all else
/// is as on the whole plate.
#[test]
fn nothing_is_said_where_no_height_is_known() {
    let (width, height) = (120, 80);
    let samples = strokes(width, height, 4);
    let drawing = burnt(&samples, width);
    let (size_x, size_y) = (width as f64 * PITCH, height as f64 * PITCH);
    let (x, y) = ([0.0, 0.5 * size_x, size_x], [0.0, 0.5 * size_y, size_y]);
    let holed = Exposing { surface: Surface::Grid { x: &x, y: &y, z: &PROBES }, ..level(4.0, Scan::Unknown) };
    let whole = level(4.0, Scan::Unknown);
    let unknown = |x: usize, y: usize| x >= width / 2 && y >= height / 2;

    let (maps, doubles) =
        ([&holed, &whole].map(|e| levels(&drawing, e)), [&holed, &whole].map(|e| exact(&drawing, e)));
    for n in 0..width * height {
        if unknown(n % width, n / width) {
            assert_eq!(maps[0][n], 0);
            assert!(doubles[0][n].is_nan());
        } else {
            assert!(maps[0][n].abs_diff(maps[1][n]) <= 2, "{} {}", maps[0][n], maps[1][n]);
            assert!((doubles[0][n] - doubles[1][n]).abs() < 1e-14);
        }
    }

    let plan = ExposurePlan::new(&drawing, &holed, &mut Watch::quiet()).unwrap();
    let mut words = vec![u64::MAX; words_in_row(width) * height];
    let mut mask = BitmapMut::new(&mut words, width, height).unwrap();
    plan.unknown(&mut mask, &mut Watch::quiet()).unwrap();
    for n in 0..width * height {
        assert_eq!(mask.view().get(n % width, n / width), unknown(n % width, n / width), "pixel {n}");
    }
    let ink = |n: &usize| samples[*n] >= 128;
    let all_ink = (0..width * height).filter(ink).count() as u64;
    let lost_ink = (0..width * height).filter(ink).filter(|n| unknown(n % width, n / width)).count() as u64;
    assert!(lost_ink > 100, "the hole has ink in it");
    let spots = plan.ink_spots();
    assert_eq!((spots.ink_pixels, spots.unknown_ink_pixels), (all_ink, lost_ink));
    assert_eq!(spots.unknown_pixels, (width / 2 * height / 2) as u64);

    let preflight = Preflight {
        drawing,
        exposing: holed,
        answer: Answer::Melt { bridge: 8.0 * PITCH },
        dose_ratio: 2.0,
        edge_tolerance: 2.0 * PITCH,
        speck_area: 0.0,
    };
    let found = run(&preflight);
    assert_eq!(found.report.ink_pixels, all_ink - lost_ink);
    for n in (0..width * height).filter(|n| unknown(n % width, n / width)) {
        let bit = found.mark[n / width * words_in_row(width) + n % width / 64] >> (n % width % 64) & 1;
        assert_eq!(bit, 0, "nothing is marked where nothing is known");
    }
    // As if the drawing ended there: the same report as of one without that ink.
    let mut blank = samples.clone();
    (0..width * height).filter(|n| unknown(n % width, n / width)).for_each(|n| blank[n] = 0);
    let parts =
        run(&Preflight { drawing: burnt(&blank, width), ..preflight }).report.topology.components_drawing;
    assert_eq!(found.report.topology.components_drawing, parts);
}

/// A surface without any height is refused.
#[test]
fn a_surface_without_heights_is_refused() {
    let samples = [255; 100];
    let drawing = burnt(&samples, 10);
    let z = [f64::NAN; 4];
    let known = [1.0, 1.1];
    // Beside the drawing, and all probes missing where it lies.
    let beside = Surface::Grid { x: &known, y: &known, z: &[0.0; 4] };
    let exposing = Exposing { surface: beside, ..level(4.0, Scan::Unknown) };
    let error = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).unwrap_err();
    assert!(matches!(error, Error::Undetermined { param: Param::KnownProbes, .. }), "{error}");
    let across = [0.0, 10.0 * PITCH];
    let missing = Surface::Grid { x: &across, y: &across, z: &z };
    let exposing = Exposing { surface: missing, ..exposing };
    assert!(ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).is_err());
}
