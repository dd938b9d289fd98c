//! The exposure of the cases: in doubles the numbers and the mark that the case states, fast within what is documented.

use crate::cases::{Case, all};
use spotwise::artwork::{Drawing, DrawingUse, Exposing, ExposurePlan, FULL_DOSE, SampleKind, Scan, Watch};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Bulge, Surface};
use std::f64::consts::{FRAC_PI_2, PI};

/// A millimetre.
const MM: f64 = 1e-3;

/// The drawing of a case, as the raster that is burnt.
pub fn drawing(case: &Case) -> Drawing<'_> {
    let pitch = case.facts["pixel_mm"].as_f64().unwrap() * MM;
    Drawing {
        samples: &case.drawing,
        width: case.width,
        height: case.height,
        row_stride: case.width,
        pitch_x: pitch,
        pitch_y: pitch,
        left_x: 0.0,
        top_y: 0.0,
        kind: SampleKind::Coverage,
        drawing_use: DrawingUse::BurntRaster,
    }
}

/// What the case says of beam, surface and kernel. Its heights count from the focus; ours from the datum of a surface.
pub fn exposing(case: &Case) -> Exposing<'static> {
    let length = |name: &str| case.facts[name].as_f64().unwrap() * MM;
    let height = |name: &str| case.facts["height"][name].as_f64().unwrap();
    let plane = |slope_x| Surface::Plane { slope_x, slope_y: 0.0 };
    let (surface, focus_z) = match case.facts["height"]["type"].as_str().unwrap() {
        "uniform" => (plane(0.0), -height("z_mm") * MM),
        "plane_x" => (plane(height("slope")), -height("z0_mm") * MM),
        "cylinder_x" => {
            let cylinder = Surface::Cylinder {
                radius: height("R_mm") * MM,
                bulge: Bulge::TowardLens,
                crown_x: height("axis_x_mm") * MM,
                crown_y: 0.0,
                axis_angle: FRAC_PI_2,
                slope_x: 0.0,
                slope_y: 0.0,
            };
            (cylinder, height("focus_below_crown_mm") * MM)
        }
        other => panic!("a height of type {other}"),
    };
    let (w0, rayleigh_range, pitch) = (length("w0_mm"), length("zR_mm"), length("pixel_mm"));
    let m2 = 1.1;
    let scan = match case.facts["kernel"].as_str().unwrap() {
        "box_x_box_y" => Scan::Unknown,
        "box_x_line_y" => Scan::AlongRows { line_interval: pitch, first_line: 0.5 * pitch },
        other => panic!("a kernel {other}"),
    };
    Exposing {
        beam: Beam { wavelength: PI * w0 * w0 / (rayleigh_range * m2), m2, waist_diameter: 2.0 * w0 },
        focus_z,
        surface,
        incidence_loss: false,
        blur_along: 0.0,
        blur_across: 0.0,
        scan,
    }
}

fn exact(plan: &ExposurePlan<'_>, pixels: usize) -> Vec<f64> {
    let mut exposure = vec![0.0; pixels];
    plan.expose_exactly(&mut exposure, &mut vec![0; plan.exact_words()], &mut Watch::quiet()).unwrap();
    exposure
}

fn fast(plan: &ExposurePlan<'_>, pixels: usize, threads: usize) -> Vec<u16> {
    let mut exposure = vec![7; pixels];
    plan.expose(&mut exposure, &mut vec![u64::MAX; plan.words(threads)], &mut Watch::quiet()).unwrap();
    exposure
}

/// The samples, sum and greatest of a case to 1e-12, its spot radii to 1e-14, and its mark to the pixel.
#[test]
fn in_doubles_every_case_is_exact() {
    let (mut worst_sample, mut worst_sum, mut worst_greatest): (f64, f64, f64) = (0.0, 0.0, 0.0);
    for case in all() {
        let (drawing, exposing) = (drawing(&case), exposing(&case));
        let plan = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).unwrap();
        let exposure = exact(&plan, case.drawing.len());
        let stated = |name: &str| case.facts[name].as_f64().unwrap();
        let relative = |got: f64, wanted: f64| (got - wanted).abs() / wanted;
        for sample in case.facts["exposure_samples"].as_array().unwrap() {
            let place = |name: &str| sample[name].as_u64().unwrap() as usize;
            let (got, wanted) =
                (exposure[place("y") * case.width + place("x")], sample["E"].as_f64().unwrap());
            // Far from all ink the case's differences of erf near 1 have no digits left.
            let error = (got - wanted).abs() / wanted.max(1e-4);
            worst_sample = worst_sample.max(error);
        }
        worst_sum = worst_sum.max(relative(exposure.iter().sum(), stated("exposure_sum")));
        let greatest = exposure.iter().copied().fold(0.0, f64::max);
        worst_greatest = worst_greatest.max(relative(greatest, stated("exposure_max")));
        let q = stated("q");
        let differ = exposure.iter().zip(&case.mark).filter(|(e, mark)| (**e >= 1.0 / q) != (**mark >= 128));
        assert_eq!(differ.count(), 0, "{}", case.name);
    }
    println!("samples {worst_sample:e}, sums {worst_sum:e}, greatest {worst_greatest:e}");
    assert!(worst_sample < 1e-12 && worst_sum < 1e-12 && worst_greatest < 1e-12);
}

/// Fast, no pixel is off by more than 5e-4 of full dose, and the mark differs only where the case says that the
/// exposure is within 1 % of the threshold.
#[test]
fn fast_every_case_is_within_its_error() {
    let mut worst_of_all: f64 = 0.0;
    for case in all() {
        let (drawing, exposing) = (drawing(&case), exposing(&case));
        let plan = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).unwrap();
        let exact = exact(&plan, case.drawing.len());
        let fast = fast(&plan, case.drawing.len(), 1);
        let q = case.facts["q"].as_f64().unwrap();
        let (mut worst, mut differ): (f64, _) = (0.0, 0);
        for ((exact, fast), mark) in exact.iter().zip(&fast).zip(&case.mark) {
            let fast = f64::from(*fast) / f64::from(FULL_DOSE);
            worst = worst.max((fast - exact).abs());
            if (fast >= 1.0 / q) != (*mark >= 128) {
                differ += 1;
                assert!((exact * q - 1.0).abs() < 0.01, "{}", case.name);
            }
        }
        println!("{}: {worst:.2e}, {differ} pixels of the mark", case.name);
        worst_of_all = worst_of_all.max(worst);
    }
    assert!(worst_of_all < 5e-4, "{worst_of_all:e}");
}
