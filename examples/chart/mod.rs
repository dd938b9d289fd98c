//! What the SVG pictures of the examples have in common: their ink, their sizes, and how they are written.

use plotters::prelude::*;
use std::path::Path;

pub const INK: RGBColor = RGBColor(40, 40, 40);

/// A drawing is made of whole pixels, so it is made this many times larger than it is shown.
pub const FINE: u32 = 4;
const WIDTH: u32 = 900;
const HEIGHT: u32 = 560;

/// How large a drawing is made.
pub const MADE: (u32, u32) = (WIDTH * FINE, HEIGHT * FINE);

/// Writes a drawing, to be shown in its proper size.
pub fn write(path: &Path, svg: &str) -> Result<(), String> {
    let (width, height) = MADE;
    let made = format!("width=\"{width}\" height=\"{height}\"");
    let shown = format!("width=\"{WIDTH}\" height=\"{HEIGHT}\"");
    std::fs::write(path, svg.replacen(&made, &shown, 1))
        .map_err(|error| format!("{}: {error}", path.display()))
}

pub fn font(size: u32) -> TextStyle<'static> {
    ("sans-serif", size * FINE).into_font().color(&INK)
}

pub fn line(color: RGBColor, width: u32) -> ShapeStyle {
    color.stroke_width(width * FINE)
}

/// A sample of a colour in the legend, so many pixels to each side of its middle line.
pub fn swatch((x, y): (i32, i32), half: u32, style: ShapeStyle) -> Rectangle<(i32, i32)> {
    let (width, half) = ((20 * FINE).cast_signed(), (half * FINE).cast_signed());
    Rectangle::new([(x, y - half), (x + width, y + half)], style)
}
