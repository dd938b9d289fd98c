//! The error of the fast exposure against the doubles, over spots, scans, pitches and surfaces.

use spotwise::artwork::{Drawing, DrawingUse, Exposing, ExposurePlan, FULL_DOSE, SampleKind, Scan, Watch};
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Bulge, Surface};

/// Sizes beyond one tile of 256 by 128 pixels, in one way or both.
const BOTH: (usize, usize) = (300, 150);
const WIDE: (usize, usize) = (270, 40);
const TALL: (usize, usize) = (40, 140);
const PITCH: f64 = 10e-6;

/// Strokes, blots and dots drawn by chance, with soft edges in places.
fn random_samples(seed: u64, (width, height): (usize, usize)) -> Vec<u8> {
    let mut state = seed | 1;
    let mut below = move |end: usize| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as usize % end
    };
    let mut samples = vec![0; width * height];
    for _ in 0..25 {
        let (x, y, w, h) = (below(width), below(height), 1 + below(80), 1 + below(12));
        let (w, h) = if below(2) == 0 { (w, h) } else { (h, w) };
        let value = [255, 255, 255, 130, 40, 0][below(6)];
        for row in samples.chunks_mut(width).skip(y).take(h) {
            row.iter_mut().skip(x).take(w).for_each(|sample| *sample = value);
        }
    }
    samples
}

/// A beam of this waist radius in pixels, and its Rayleigh range, 50 radii long.
fn beam(pixels: f64) -> (Beam, f64) {
    let waist = pixels * PITCH;
    let (m2, rayleigh_range) = (1.3, 50.0 * waist);
    let wavelength = std::f64::consts::PI * waist * waist / (m2 * rayleigh_range);
    (Beam { wavelength, m2, waist_diameter: 2.0 * waist }, rayleigh_range)
}

fn drawing(
    samples: &[u8],
    width: usize,
    kind: SampleKind,
    drawing_use: DrawingUse,
    pitch_y: f64,
) -> Drawing<'_> {
    Drawing {
        samples,
        width,
        height: samples.len() / width,
        row_stride: width,
        pitch_x: PITCH,
        pitch_y,
        left_x: -1e-3,
        top_y: 2e-3,
        kind,
        drawing_use,
    }
}

/// The greatest difference between fast and exact, both checked for the missing pixels.
fn error(drawing: &Drawing<'_>, exposing: &Exposing<'_>) -> f64 {
    let plan = ExposurePlan::new(drawing, exposing, &mut Watch::quiet()).unwrap();
    let mut exact = vec![0.0; drawing.samples.len()];
    plan.expose_exactly(&mut exact, &mut vec![0; plan.exact_words()], &mut Watch::quiet()).unwrap();
    let mut fast = vec![7; drawing.samples.len()];
    plan.expose(&mut fast, &mut vec![u64::MAX; plan.words(1)], &mut Watch::quiet()).unwrap();
    let mut worst: f64 = 0.0;
    for (exact, fast) in exact.iter().zip(&fast) {
        if exact.is_nan() {
            assert_eq!(*fast, 0);
        } else {
            // A map holds all the dose there is.
            assert!(*exact < 65_535.0 / f64::from(FULL_DOSE), "{exact}");
            worst = worst.max((exact - f64::from(*fast) / f64::from(FULL_DOSE)).abs());
        }
    }
    worst
}

const LEVEL: Surface<'static> = Surface::Plane { slope_x: 0.0, slope_y: 0.0 };

fn exposing(pixels: f64, surface: Surface<'_>, scan: Scan) -> Exposing<'_> {
    let (beam, _) = beam(pixels);
    Exposing { beam, focus_z: 0.0, surface, incidence_loss: true, blur_along: 0.0, blur_across: 0.0, scan }
}

fn lines(rows: f64, first: f64) -> Scan {
    Scan::AlongRows { line_interval: rows * PITCH, first_line: first * rows * PITCH }
}

/// The scan with lines as near to its own as are taken: up to 2.5 spot radii apart, and those of a raster on its rows.
fn taken(scan: Scan, drawing: &Drawing<'_>, pixels: f64) -> Scan {
    let Scan::AlongRows { line_interval, first_line } = scan else { return scan };
    let widest = 2.499 * pixels * PITCH;
    let burnt = drawing.drawing_use == DrawingUse::BurntRaster;
    if burnt && drawing.pitch_y > widest {
        return Scan::Unknown;
    }
    let interval = if burnt { drawing.pitch_y } else { line_interval.min(widest) };
    Scan::AlongRows { line_interval: interval, first_line: first_line / line_interval * interval }
}

/// One spot everywhere, from a third of a pixel to a thousand, and every kind of scan and drawing: measured 1.2e-4.
#[test]
fn one_spot_everywhere() {
    let samples = random_samples(3, BOTH);
    let kinds = [
        (SampleKind::Coverage, DrawingUse::BurntRaster),
        (SampleKind::Coverage, DrawingUse::Shapes),
        (SampleKind::Bilevel, DrawingUse::Shapes),
    ];
    let scans = [
        Scan::Unknown,
        lines(1.0, 0.5),
        lines(0.37, 0.9),
        lines(3.3, 0.2),
        lines(0.01, 0.0),
        lines(0.25, 0.1),
    ];
    let mut worst: f64 = 0.0;
    for (n, pixels) in [0.3, 1.6, 3.0, 6.0, 15.9, 16.1, 31.9, 60.0, 150.0, 1000.0].into_iter().enumerate() {
        for (m, scan) in scans.into_iter().enumerate() {
            let (kind, drawing_use) = kinds[(n + m) % kinds.len()];
            let pitch_y = [PITCH, 2.6 * PITCH][m % 2];
            let drawing = drawing(&samples, BOTH.0, kind, drawing_use, pitch_y);
            worst = worst.max(error(&drawing, &exposing(pixels, LEVEL, taken(scan, &drawing, pixels))));
        }
    }
    println!("one spot everywhere: {worst:.2e}");
    assert!(worst < 3e-4, "{worst:e}");
}

/// The room that is enough for any spot holds that of each, also of spots far longer one way than the other.
#[test]
fn most_words_are_never_exceeded() {
    let samples = [255; 4096];
    let mut closest: f64 = 0.0;
    for (width, height) in [(4096, 1), (1, 4096), (64, 64), (1000, 4), (2, 3), (1, 1)] {
        let samples = &samples[..width * height];
        let drawing = Drawing {
            samples,
            width,
            height,
            row_stride: width,
            ..drawing(samples, width, SampleKind::Coverage, DrawingUse::BurntRaster, PITCH)
        };
        for step in 0..60 {
            // Waists from 0.11 to 9000 pixels, alone, and with either direction blurred to 9900.
            let pixels = 0.11 * 1.211_f64.powi(step);
            for [along, across] in [[0.0, 0.0], [19_800.0, 0.0], [0.0, 19_800.0], [100.0, 1000.0]] {
                let mut exposing = exposing(pixels, LEVEL, Scan::Unknown);
                exposing.beam = Beam { wavelength: 1e-6, m2: 4.0, waist_diameter: 2.0 * pixels * PITCH };
                (exposing.blur_along, exposing.blur_across) = (along * PITCH, across * PITCH);
                let farther = 20.0 * pixels * PITCH;
                exposing.surface = Surface::Plane { slope_x: farther / (width as f64 * PITCH), slope_y: 0.0 };
                for surface in [LEVEL, exposing.surface] {
                    exposing.surface = surface;
                    let Ok(plan) = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()) else {
                        continue;
                    };
                    assert_eq!(plan.words(usize::MAX), usize::MAX);
                    for threads in [1, 7] {
                        assert!(
                            plan.words(threads) <= plan.most_words(threads),
                            "{width} by {height}, {pixels}"
                        );
                    }
                    closest = closest.max(plan.words(1) as f64 / plan.most_words(1) as f64);
                }
            }
        }
    }
    println!("of the most room {closest:.3} is used");
    assert!(closest > 0.5);
}

/// Spots that differ: planes, parts, steps and probed grids with holes: measured 2.5e-4.
#[test]
fn spots_that_differ() {
    let sizes = [WIDE, TALL].map(|size| (random_samples(5, size), size.0));
    let x = [-1.1e-3, 0.0, 1.2e-3, 2.5e-3];
    let y = [1.9e-3, 2.6e-3, 3.8e-3];
    let mut worst: f64 = 0.0;
    let runs = [(1.2, SampleKind::Coverage, Scan::Unknown), (3.0, SampleKind::Bilevel, lines(0.7, 0.3))];
    for (pixels, kind, scan) in runs {
        let (_, zr) = beam(pixels);
        let size = BOTH.0 as f64 * PITCH;
        let probes = [0.1, 0.5, -1.0, 2.0, 0.0, 1.5, 3.0, f64::NAN, -0.5, 0.3, 0.8, 1.0].map(|z| z * zr);
        let steps = [0.0, 2.0, 0.3, 9.0].map(|z| z * zr);
        let (crown_x, crown_y) = (0.0, 2.5e-3);
        let surfaces = [
            Surface::Plane { slope_x: 0.3 * zr / size, slope_y: 0.1 * zr / size },
            Surface::Plane { slope_x: (6.0 * zr / size).min(2.0), slope_y: (-3.0 * zr / size).max(-2.0) },
            Surface::Cylinder {
                radius: 0.7 * size,
                bulge: Bulge::TowardLens,
                crown_x,
                crown_y,
                axis_angle: 1.2,
                slope_x: 0.0,
                slope_y: 0.0,
            },
            Surface::Sphere {
                radius: 0.5 * size,
                bulge: Bulge::AwayFromLens,
                crown_x,
                crown_y,
                slope_x: 0.1,
                slope_y: 0.0,
            },
            Surface::Steps { edges: &[-1e-3, -0.5e-3, 0.2e-3, 0.21e-3, 1.5e-3], z: &steps },
            Surface::Grid { x: &x, y: &y, z: &probes },
        ];
        for surface in surfaces {
            for (samples, width) in &sizes {
                let drawing = drawing(samples, *width, kind, DrawingUse::Shapes, PITCH);
                worst = worst.max(error(&drawing, &exposing(pixels, surface, scan)));
            }
        }
    }
    println!("spots that differ: {worst:.2e}");
    assert!(worst < 3e-4, "{worst:e}");
}
