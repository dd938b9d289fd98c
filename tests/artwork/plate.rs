//! Drawings at a pitch of 10 µm on a level plate, and their exposure: what the checks of the exposure share.

use crate::masks::unit;
use spotwise::artwork::{
    Drawing, DrawingUse, Exposing, ExposurePlan, FULL_DOSE, SampleKind, Scan, Watch, words_in_row,
};
use spotwise::model::optics::Beam;
use spotwise::model::surface::Surface;
use std::f64::consts::PI;

/// From pixel to pixel in metres.
pub const PITCH: f64 = 10e-6;

/// A beam whose waist radius is so many pixels of [`PITCH`], and whose Rayleigh range is 50 waist radii.
pub fn beam(pixels: f64) -> Beam {
    let waist = pixels * PITCH;
    let m2 = 1.3;
    Beam { wavelength: PI * waist / (50.0 * m2), m2, waist_diameter: 2.0 * waist }
}

/// Coverage that is burnt as it is.
pub fn burnt(samples: &[u8], width: usize) -> Drawing<'_> {
    Drawing {
        samples,
        width,
        height: samples.len() / width,
        row_stride: width,
        pitch_x: PITCH,
        pitch_y: PITCH,
        left_x: 0.0,
        top_y: 0.0,
        kind: SampleKind::Coverage,
        drawing_use: DrawingUse::BurntRaster,
    }
}

/// Shapes of whole pixels, which lines of any interval may go over; any sample but 0 is ink.
pub fn bilevel(samples: &[u8], width: usize) -> Drawing<'_> {
    Drawing { kind: SampleKind::Bilevel, drawing_use: DrawingUse::Shapes, ..burnt(samples, width) }
}

/// Coverage of shapes.
pub fn shapes(samples: &[u8], width: usize) -> Drawing<'_> {
    Drawing { drawing_use: DrawingUse::Shapes, ..burnt(samples, width) }
}

/// A level plate in the waist, whose spot radius is so many pixels.
pub fn level(pixels: f64, scan: Scan) -> Exposing<'static> {
    Exposing {
        beam: beam(pixels),
        focus_z: 0.0,
        surface: Surface::Plane { slope_x: 0.0, slope_y: 0.0 },
        incidence_loss: true,
        blur_along: 0.0,
        blur_across: 0.0,
        scan,
    }
}

/// Lines that are so many rows of [`PITCH`] apart, the first of them that far from the upper edge.
pub fn lines(rows: f64, first: f64) -> Scan {
    Scan::AlongRows { line_interval: rows * PITCH, first_line: first * PITCH }
}

/// The exposure in units of 1/[`FULL_DOSE`], in a room of just the size and full of garbage.
pub fn levels(drawing: &Drawing<'_>, exposing: &Exposing<'_>) -> Vec<u16> {
    let plan = ExposurePlan::new(drawing, exposing, &mut Watch::quiet()).unwrap();
    let mut exposure = vec![7; drawing.width * drawing.height];
    plan.expose(&mut exposure, &mut vec![u64::MAX; plan.words(1)], &mut Watch::quiet()).unwrap();
    exposure
}

/// The same as shares of full dose.
pub fn fast(drawing: &Drawing<'_>, exposing: &Exposing<'_>) -> Vec<f64> {
    levels(drawing, exposing).iter().map(|&level| f64::from(level) / f64::from(FULL_DOSE)).collect()
}

/// The exposure in doubles.
pub fn exact(drawing: &Drawing<'_>, exposing: &Exposing<'_>) -> Vec<f64> {
    let plan = ExposurePlan::new(drawing, exposing, &mut Watch::quiet()).unwrap();
    let mut exposure = vec![7.0; drawing.width * drawing.height];
    let mut room = vec![u64::MAX; plan.exact_words()];
    plan.expose_exactly(&mut exposure, &mut room, &mut Watch::quiet()).unwrap();
    exposure
}

/// Greatest difference.
pub fn farthest(one: &[f64], other: &[f64]) -> f64 {
    assert_eq!(one.len(), other.len());
    one.iter().zip(other).map(|(one, other)| (one - other).abs()).fold(0.0, f64::max)
}

/// Strokes along and across, some of them soft or bare, drawn by chance one over the other.
pub fn strokes(width: usize, height: usize, seed: u64) -> Vec<u8> {
    let mut samples = vec![0; width * height];
    for stroke in 0..14 {
        let draw = |what: usize, end: usize| (unit(seed, stroke, what) * end as f64) as usize;
        let (x, y, long, thick) = (draw(0, width), draw(1, height), 1 + draw(2, width), 1 + draw(3, 9));
        let (w, h) = if draw(4, 2) == 0 { (long, thick) } else { (thick, long) };
        let value = [255, 255, 255, 130, 40, 0][draw(5, 6).min(5)];
        for row in samples.chunks_mut(width).skip(y).take(h) {
            row.iter_mut().skip(x).take(w).for_each(|sample| *sample = value);
        }
    }
    samples
}

/// A mask as rows of words, for any that is to be written.
pub fn mask_words(width: usize, height: usize) -> Vec<u64> {
    vec![u64::MAX; words_in_row(width) * height]
}
