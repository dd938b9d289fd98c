//! Paths and text against closed forms, fontTools, FreeType and brute force.

#[path = "vector/lettering.rs"]
mod lettering;
#[path = "vector/refusal.rs"]
mod refusal;
#[path = "vector/shapes.rs"]
mod shapes;
#[path = "vector/strokes.rs"]
mod strokes;

use spotwise::artwork::{Frame, InkPath, Inking, Sheet, VectorError};

/// A pitch of which pixels are whole numbers in binary.
const PITCH: f64 = 1.0 / 131_072.0;

fn frame(width: usize, height: usize) -> Frame {
    Frame { width, height, pitch_x: PITCH, pitch_y: PITCH, left_x: 0.0, top_y: 0.0 }
}

fn drawn(path: &InkPath, inking: Inking, frame: Frame) -> Sheet {
    let mut sheet = Sheet::new(frame).unwrap();
    sheet.draw(path, inking).unwrap();
    sheet
}

/// The inked area in pixels.
fn area(sheet: &Sheet) -> f64 {
    sheet.samples().iter().map(|&sample| f64::from(sample) / 255.0).sum()
}

/// A point in pixels.
fn px(x: f64, y: f64) -> [f64; 2] {
    [x * PITCH, y * PITCH]
}

/// A path of straight lines between points in pixels.
fn polygon(points: &[[f64; 2]], closed: bool) -> InkPath {
    let mut path = InkPath::new();
    for (i, &[x, y]) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(px(x, y));
        } else {
            path.line_to(px(x, y));
        }
    }
    if closed {
        path.close();
    }
    path
}

fn refused(path: &InkPath, inking: Inking) -> VectorError {
    Sheet::new(frame(8, 8)).unwrap().draw(path, inking).unwrap_err()
}
