//! A surface that happens to be level is exposed like a level plane, whatever it is called and however its spot falls on
//! the pixels.

use spotwise::artwork::{Drawing, DrawingUse, Exposing, ExposurePlan, FULL_DOSE, SampleKind, Scan, Watch};
use spotwise::model::optics::Beam;
use spotwise::model::surface::Surface;

const WIDTH: usize = 40;
const HEIGHT: usize = 30;

/// The exposure of a bar and a blot by a spot of this diameter, in focus, at this pitch.
fn exposure(diameter: f64, pitch: f64, surface: Surface<'_>) -> Vec<u16> {
    let ink = |at: usize| {
        let (x, y) = (at % WIDTH, at / WIDTH);
        x == 20 || (5..15).contains(&x) && (8..20).contains(&y)
    };
    let samples: Vec<u8> = (0..WIDTH * HEIGHT).map(|at| 255 * u8::from(ink(at))).collect();
    let drawing = Drawing {
        samples: &samples,
        width: WIDTH,
        height: HEIGHT,
        row_stride: WIDTH,
        pitch_x: pitch,
        pitch_y: pitch,
        left_x: 0.0,
        top_y: 0.0,
        kind: SampleKind::Coverage,
        drawing_use: DrawingUse::Shapes,
    };
    let exposing = Exposing {
        beam: Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: diameter },
        focus_z: 0.0,
        surface,
        incidence_loss: true,
        blur_along: 0.0,
        blur_across: 0.0,
        scan: Scan::Unknown,
    };
    let plan = ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet()).unwrap();
    let mut exposure = vec![7; samples.len()];
    plan.expose(&mut exposure, &mut vec![u64::MAX; plan.words(1)], &mut Watch::quiet()).unwrap();
    exposure
}

/// At the recommended pitch, an eighth of the spot's diameter, two radii are a whole number of pixels: the f32 in which
/// the radius of a varying spot is held may round to either side of it.
#[test]
fn level_surfaces_of_every_kind_are_exposed_alike() {
    let ends = [-1.0, 1.0];
    let grid = Surface::Grid { x: &ends, y: &ends, z: &[0.0; 4] };
    let steps = Surface::Steps { edges: &[-1.0, 1.0, 2.0], z: &[0.0; 2] };
    let plane = Surface::Plane { slope_x: 0.0, slope_y: 0.0 };
    for whole in 20..=300 {
        let diameter = f64::from(whole) * 1e-6;
        // Spot radii of 4, 12 and 20 pixels: the last at a lower resolution.
        for pixels in [4.0, 12.0, 20.0] {
            let pitch = 0.5 * diameter / pixels;
            let expected = exposure(diameter, pitch, plane);
            assert!(expected.iter().any(|level| *level > FULL_DOSE / 20), "{whole} um");
            for surface in [grid, steps] {
                let got = exposure(diameter, pitch, surface);
                let worst = got.iter().zip(&expected).map(|(a, b)| a.abs_diff(*b)).max().unwrap();
                assert!(worst <= 1, "{whole} um, {pixels} pixels, {surface:?}: {worst}");
            }
        }
    }
}
