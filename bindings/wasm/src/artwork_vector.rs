//! Paths, and text in a font file of the user's, drawn as samples of coverage.
//!
//! What is wrong with a path or a font is told by statuses of its own, above those of errors: 101 for a path, 102 for a
//! number that no parameter names, 103 for a font or a text; [`vector_message`] has the words.

use crate::artwork_job::{Progress, first, room, watched, whole};
use crate::exchange::answer;
use spotwise::artwork::{
    Bounds, FillRule, Font, Frame, InkPath, Inking, LetterSize, PathStep, SampleKind, Stroke, StrokeCap,
    StrokeJoin, VectorError, draw_path, pitch_for_spot as pitch,
};
use spotwise::{Error, Param};
use std::cell::RefCell;
use std::mem::take;
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of a step: code, and three points.
const STEP: usize = 7;
/// Numbers of a frame: width, height, pitch in x and y, left, top.
const FRAME: usize = 6;
/// Numbers of a shape: how many steps it has; rule of its fill, 0 for a stroke; width, cap, join and mitre limit.
const SHAPE: usize = 6;

thread_local! {
    static WORDS: RefCell<String> = RefCell::default();
    /// Samples that wait to be taken.
    static SAMPLES: RefCell<Vec<u8>> = RefCell::default();
    /// Steps that wait to be taken.
    static STEPS: RefCell<Vec<f64>> = RefCell::default();
}

/// Lays out an answer, or the error of a model's function or of a path, a font or a text.
fn drawn<const N: usize>(result: Result<[f64; N], VectorError>) -> u32 {
    let (status, error) = match result {
        Ok(values) => return answer(Ok(values)),
        Err(VectorError::Refused(error)) => return answer::<N>(Err(error)),
        Err(error @ (VectorError::NothingToDraw | VectorError::NoStart | VectorError::TooManyPoints)) => {
            (101, error)
        }
        Err(error @ (VectorError::MiterLimit { .. } | VectorError::LetterSpacing { .. })) => (102, error),
        Err(error) => (103, error),
    };
    WORDS.replace(error.to_string());
    status
}

/// What is wrong with the last path, font or text, in words.
#[wasm_bindgen]
#[must_use]
pub fn vector_message() -> String {
    WORDS.with_borrow(String::clone)
}

fn path(steps: &[f64]) -> InkPath {
    let (steps, _) = steps.as_chunks::<STEP>();
    let mut path = InkPath::new();
    for &[code, x, y, x2, y2, x3, y3] in steps {
        path.step(match code as u32 {
            1 => PathStep::Move { to: [x, y] },
            2 => PathStep::Line { to: [x, y] },
            3 => PathStep::Quad { control: [x, y], to: [x2, y2] },
            4 => PathStep::Cubic { first: [x, y], second: [x2, y2], to: [x3, y3] },
            _ => PathStep::Close,
        });
    }
    path
}

fn frame(numbers: &[f64]) -> Result<Frame, Error> {
    let [width, height, pitch_x, pitch_y, left_x, top_y] = first::<FRAME>(numbers);
    Ok(Frame {
        width: whole(Param::DrawingWidth, width)?,
        height: whole(Param::DrawingHeight, height)?,
        pitch_x,
        pitch_y,
        left_x,
        top_y,
    })
}

fn inking([rule, width, cap, join, limit]: [f64; 5]) -> Inking {
    match rule as u32 {
        1 => return Inking::Fill(FillRule::NonZero),
        2 => return Inking::Fill(FillRule::EvenOdd),
        _ => {}
    }
    let cap = match cap as u32 {
        1 => StrokeCap::Butt,
        2 => StrokeCap::Round,
        _ => StrokeCap::Square,
    };
    let join = match join as u32 {
        1 => StrokeJoin::Miter { limit },
        2 => StrokeJoin::Round,
        _ => StrokeJoin::Bevel,
    };
    Inking::Stroke(Stroke { width, cap, join })
}

/// As [`draw_path`] for each shape on one sheet; the codes come from the TypeScript. `shapes` holds six numbers for
/// each shape, `steps` seven for each step of all of them.
#[wasm_bindgen]
pub fn draw_shapes(frame: &[f64], shapes: &[f64], steps: &[f64], progress: Option<Progress>) -> u32 {
    SAMPLES.take();
    let mut fault = None;
    let samples = watched(progress.as_ref(), |watch| {
        let frame = self::frame(frame)?;
        // Before any number of the frame is made use of; without samples there is nothing else to refuse.
        check_frame(frame)?;
        let mut samples = room(frame.width * frame.height, 0)?;
        let (shapes, _) = shapes.as_chunks::<SHAPE>();
        let mut steps = steps;
        for (number, &[count, inking @ ..]) in shapes.iter().enumerate() {
            let (own, rest) = steps.split_at((count as usize).saturating_mul(STEP).min(steps.len()));
            steps = rest;
            let share = |number: usize| number as f64 / shapes.len() as f64;
            let mut watch = watch.part(share(number), share(number + 1));
            let (path, inking) = (path(own), self::inking(inking));
            let done = draw_path(&path, inking, frame, &mut samples, frame.width, &mut watch);
            match done {
                Ok(()) => {}
                Err(VectorError::Refused(error)) => return Err(error),
                Err(error) => {
                    fault = Some(error);
                    break;
                }
            }
        }
        Ok(samples)
    });
    drawn(match (samples, fault) {
        (Err(error), _) => Err(VectorError::Refused(error)),
        (_, Some(fault)) => Err(fault),
        (Ok(samples), None) => {
            let pixels = samples.len() as f64;
            SAMPLES.replace(samples);
            Ok([pixels])
        }
    })
}

/// Refuses a frame that no drawing has.
fn check_frame(frame: Frame) -> Result<(), Error> {
    match frame.drawing(&[], frame.width).checked() {
        Err(error) if error.param() != Param::DrawingSamples => Err(error),
        _ => Ok(()),
    }
}

/// Hands over the samples.
#[wasm_bindgen]
#[must_use]
pub fn drawn_samples() -> Vec<u8> {
    SAMPLES.take()
}

/// As [`InkPath::bounds`].
#[wasm_bindgen]
pub fn path_bounds(steps: &[f64]) -> u32 {
    drawn(path(steps).bounds().map(|b| [b.left_x, b.top_y, b.right_x, b.bottom_y]))
}

/// As [`Frame::around`].
#[wasm_bindgen]
pub fn frame_around(left_x: f64, top_y: f64, right_x: f64, bottom_y: f64, margin: f64, pitch: f64) -> u32 {
    let frame = Frame::around(Bounds { left_x, top_y, right_x, bottom_y }, margin, pitch);
    answer(frame.map(|f| [f.width as f64, f.height as f64, f.pitch_x, f.pitch_y, f.left_x, f.top_y]))
}

/// As [`pitch()`].
#[wasm_bindgen]
pub fn pitch_for_spot(least_spot_diameter: f64, kind: u32) -> u32 {
    answer(SampleKind::from_code(kind).and_then(|kind| Ok([pitch(least_spot_diameter, kind)?])))
}

/// As [`Font::line`]; the size is that of the em (1), of capitals (2) or of digits (3). Its steps wait to be taken, the
/// outputs are em and advance.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn text_line(
    font: &[u8],
    face: f64,
    text: &str,
    size_by: u32,
    size: f64,
    letter_spacing: f64,
    x: f64,
    y: f64,
) -> u32 {
    STEPS.take();
    let line = || -> Result<_, VectorError> {
        let size = match size_by {
            1 => LetterSize::Em(size),
            2 => LetterSize::CapHeight(size),
            _ => LetterSize::DigitHeight(size),
        };
        Font::new(font, face as u32)?.line(text, size, letter_spacing, [x, y])
    };
    drawn(line().map(|line| {
        STEPS.replace(line.path.steps().iter().flat_map(step).collect());
        [line.em, line.advance]
    }))
}

/// Hands over the steps of a line of text, seven numbers for each.
#[wasm_bindgen]
#[must_use]
pub fn text_steps() -> Vec<f64> {
    STEPS.with_borrow_mut(take)
}

fn step(step: &PathStep) -> [f64; STEP] {
    const NONE: f64 = f64::NAN;
    match *step {
        PathStep::Move { to: [x, y] } => [1.0, x, y, NONE, NONE, NONE, NONE],
        PathStep::Line { to: [x, y] } => [2.0, x, y, NONE, NONE, NONE, NONE],
        PathStep::Quad { control: [x, y], to: [x2, y2] } => [3.0, x, y, x2, y2, NONE, NONE],
        PathStep::Cubic { first: [x, y], second: [x2, y2], to: [x3, y3] } => [4.0, x, y, x2, y2, x3, y3],
        PathStep::Close => [5.0, NONE, NONE, NONE, NONE, NONE, NONE],
    }
}
