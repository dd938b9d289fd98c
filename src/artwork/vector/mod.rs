//! Shapes in metres, drawn to the 8-bit coverage that a preflight reads.
//!
//! A path is moves, lines, quadratic and cubic Bézier curves; it is inked by a rule (even-odd or non-zero winding)
//! or by a stroke of some width. Curves become chords that lie within 1/256 of a pixel of them, strokes become
//! outlines of the same fineness, and `zeno` finds which share of each pixel they cover. It works on a grid of
//! 1/256 of a pixel and is handed a tile of at most 256 × 256 pixels at a time, with every line cut to at most
//! 16 pixels, so that its whole-number arithmetic neither overflows nor loses digits, however large the drawing.
//!
//! Accuracy and memory: [`draw_path`].
//!
//! Not modelled: dashes, gradients, clips, text on a path.

mod coverage;
mod flatten;
mod path;
mod sheet;
mod stroke;

pub use path::{Bounds, InkPath, PathStep};
pub use sheet::{Frame, Sheet, draw_path, pitch_for_spot};
pub use stroke::{Stroke, StrokeCap, StrokeJoin};

use crate::error::Error;
use core::fmt;

/// Most points of one path, after curves have become chords and strokes outlines.
pub const MOST_POINTS: usize = 1 << 21;

/// Which points lie inside a path. Open parts count as closed by a straight line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FillRule {
    /// Those around which the path turns, counted with its direction, other than zero times.
    NonZero,
    /// Those from which a ray crosses the path an odd number of times.
    EvenOdd,
}

/// How a path is inked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Inking {
    /// Its inside.
    Fill(FillRule),
    /// A stroke along it.
    Stroke(Stroke),
}

/// Why nothing was drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum VectorError {
    /// A number was refused, or the watch said stop.
    Refused(Error),
    /// There is nothing to draw: no line, no curve, no letter.
    NothingToDraw,
    /// A line or curve comes before the first move.
    NoStart,
    /// More than [`MOST_POINTS`].
    TooManyPoints,
    /// The limit of a mitre is not from 1 to 1000.
    MiterLimit {
        /// What was given.
        value: f64,
    },
    /// The space added between letters is not from −1 to 10 ems.
    LetterSpacing {
        /// What was given, in metres.
        value: f64,
        /// The em, in metres.
        em: f64,
    },
    /// The bytes are no font file, or one with neither a character map nor outlines that can be read.
    NotAFont,
    /// The font has no letter for this character.
    MissingGlyph {
        /// The character.
        character: char,
    },
    /// The font has a letter for this character, but its outline cannot be read.
    BrokenGlyph {
        /// The character.
        character: char,
    },
}

impl From<Error> for VectorError {
    fn from(error: Error) -> Self {
        Self::Refused(error)
    }
}

impl fmt::Display for VectorError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Refused(error) => error.fmt(f),
            Self::NothingToDraw => f.write_str("there is nothing to draw: no line, no curve, no letter"),
            Self::NoStart => f.write_str("a path must begin with a move"),
            Self::TooManyPoints => {
                write!(f, "the path has more than {MOST_POINTS} points once its curves are chords")
            }
            Self::MiterLimit { value } => {
                write!(f, "mitre limit = {value} is out of range (must be from 1 to 1000)")
            }
            Self::LetterSpacing { value, em } => {
                write!(f, "letter spacing = {value} m is out of range (must be from -1 to 10 ems of {em} m)")
            }
            Self::NotAFont => f.write_str("the bytes are no font file with a character map and outlines"),
            Self::MissingGlyph { character } => {
                write!(f, "the font has no letter for {character:?} (U+{:04X})", character as u32)
            }
            Self::BrokenGlyph { character } => {
                write!(f, "the font's outline for {character:?} (U+{:04X}) cannot be read", character as u32)
            }
        }
    }
}

impl core::error::Error for VectorError {}
