//! The predicted mark as a PNG: the whole drawing with the places of findings framed, a legend, and the details that
//! the job names and the worst of these places enlarged, as the job is set and below it with the best focus.

use crate::canvas::{Canvas, INK, Rgb};
use crate::mark_check::{MarkCheck, Marked};
use crate::places::{FoundPlace, found_places, near, told};
use crate::report::{mm, offset};
use spotwise::artwork::{PictureColour, PictureView, PixelBox, draw_box};
use spotwise::uom::si::f64::Length;
use spotwise::uom::si::length::millimeter;
use std::error::Error;
use std::path::Path;

const WIDTH: usize = 2400;
const MARGIN: usize = 40;
const INNER: usize = WIDTH - 2 * MARGIN;
/// Tallest that the whole drawing is shown.
const TALLEST: usize = 1600;
/// How many places are shown enlarged, and how tall and how large at most.
const PLACES: usize = 3;
const PLACE_HEIGHT: usize = 300;
const LEAST_ZOOM: usize = 2;
const MOST_ZOOM: usize = 12;
/// Room for the words at the bar that says how long a millimetre is.
const BAR_TEXT: usize = 130;
const GREY: Rgb = [140, 140, 140];

pub fn write(path: &Path, check: &MarkCheck<'_>) -> Result<(), Box<dyn Error>> {
    let mut canvas = Canvas::new(WIDTH);
    let set = &check.as_set;
    let places = found_places(set);
    // At least the worst place.
    let lettered = PLACES.saturating_sub(check.details.len()).max(1);
    canvas.grow(MARGIN);
    line(&mut canvas, &format!("{} as the job is set: {}", check.drawing.name, grade(set)), 44)?;
    for reason in set.verdict.judgement.reasons.texts() {
        line(&mut canvas, reason, 26)?;
    }
    canvas.grow(20);
    overview(&mut canvas, set, &places, lettered)?;
    legend(&mut canvas)?;
    for detail in check.details.iter().take(PLACES) {
        let view = view(set, detail.detail.extent, None);
        let (name, best) = (&detail.detail.name, grade(&detail.at_best_focus));
        enlarged(&mut canvas, check, view, [&format!("{name}: {}", grade(&detail.as_set)), best])?;
    }
    for (letter, place) in ('A'..).zip(places.iter().take(lettered)) {
        let view = view(set, place.extent, place.worst);
        let found = format!("{letter}, {}: {}", around(set, &view), place.found.join(", "));
        let best = format!("{} on the whole", grade(&check.at_best_focus));
        enlarged(&mut canvas, check, view, [&found, &best])?;
    }
    canvas.grow(MARGIN);
    canvas.write(path)
}

/// A part of the drawing as the job is set, and with the best focus.
fn enlarged(
    canvas: &mut Canvas,
    check: &MarkCheck<'_>,
    view: PictureView,
    [set, best]: [&str; 2],
) -> Result<(), Box<dyn Error>> {
    canvas.grow(16);
    caption(canvas, set, &check.as_set, &view)?;
    strip(canvas, &check.as_set, &view)?;
    let focus = check.at_best_focus.preflight.drawn_on.focus;
    // Where focus is right already, a second picture would show the same.
    if focus != check.as_set.preflight.drawn_on.focus {
        line(canvas, &format!("with focus {} the datum: {best}", offset(focus, "on")), 26)?;
        strip(canvas, &check.at_best_focus, &view)?;
    }
    Ok(())
}

fn grade(marked: &Marked<'_>) -> &'static str {
    marked.verdict.judgement.grade.name()
}

fn line(canvas: &mut Canvas, text: &str, em: usize) -> Result<(), Box<dyn Error>> {
    let top = canvas.grow(em * 3 / 2);
    canvas.text(text, em, (MARGIN, top + em), INK)?;
    Ok(())
}

/// The whole drawing, reduced or enlarged to the width of the sheet, with its places framed.
fn overview(
    canvas: &mut Canvas,
    marked: &Marked<'_>,
    places: &[FoundPlace],
    lettered: usize,
) -> Result<(), Box<dyn Error>> {
    let artwork = &marked.preflight.artwork;
    let fewer = artwork.width.div_ceil(INNER).max(artwork.height.div_ceil(TALLEST));
    let zoom = (INNER / artwork.width).min(TALLEST / artwork.height).clamp(1, MOST_ZOOM);
    let (columns, rows) = (artwork.width.div_ceil(fewer), artwork.height.div_ceil(fewer));
    let top = canvas.grow(rows * zoom + 2 * MARGIN);
    let top = top + MARGIN / 2;
    if fewer == 1 {
        let whole = PictureView::whole(columns, rows, zoom);
        canvas.copy(MARGIN, top, columns * zoom, &marked.preflight.picture(&marked.verdict, &whole)?);
    } else {
        let whole = PictureView::whole(artwork.width, artwork.height, 1);
        let rgba = marked.preflight.picture(&marked.verdict, &whole)?;
        for (row, band) in rgba.chunks(4 * artwork.width * fewer).enumerate() {
            canvas.copy(MARGIN, top + row, columns, &reduced(band, artwork.width, fewer));
        }
    }
    canvas.frame([MARGIN, top, columns * zoom, rows * zoom], 1, GREY);
    let [red, green, blue, _] = PictureColour::Box.rgba();
    let colour = [red, green, blue];
    for (number, place) in places.iter().enumerate() {
        let shown = |pixels: u32| pixels as usize * zoom / fewer;
        let extent = place.extent;
        let (x, y) = (MARGIN + shown(extent.left), top + shown(extent.top));
        let (across, down) =
            (shown(extent.right - extent.left) + zoom, shown(extent.bottom - extent.top) + zoom);
        canvas.frame([x.saturating_sub(4), y.saturating_sub(4), across + 8, down + 8], 3, colour);
        if let Some(letter) = ('A'..).nth(number).filter(|_| number < lettered) {
            canvas.text(&letter.to_string(), 30, (x, y.saturating_sub(12)), colour)?;
        }
    }
    Ok(())
}

/// The mean colours of one row of squares of so many pixels.
fn reduced(band: &[u8], width: usize, side: usize) -> Vec<u8> {
    let columns = width.div_ceil(side);
    let mut sums = vec![[0_u32; 4]; columns];
    let mut counts = vec![0_u32; columns];
    for row in band.chunks_exact(4 * width) {
        for ((pixels, sums), count) in row.chunks(4 * side).zip(&mut sums).zip(&mut counts) {
            for pixel in pixels.chunks_exact(4) {
                for (sum, part) in sums.iter_mut().zip(pixel) {
                    *sum += u32::from(*part);
                }
                *count += 1;
            }
        }
    }
    sums.iter().zip(counts).flat_map(|(sums, count)| sums.map(|sum| (sum / count) as u8)).collect()
}

fn legend(canvas: &mut Canvas) -> Result<(), Box<dyn Error>> {
    const SIDE: usize = 28;
    let top = canvas.grow(2 * SIDE);
    let mut x = MARGIN;
    for colour in PictureColour::ALL {
        let [red, green, blue, _] = colour.rgba();
        canvas.fill(x, top, SIDE, SIDE, [red, green, blue]);
        canvas.frame([x, top, SIDE, SIDE], 1, GREY);
        x = canvas.text(colour.name(), 26, (x + SIDE + 10, top + 23), INK)? + 40;
    }
    Ok(())
}

/// What to show of the drawing around a place, and how large.
fn view(marked: &Marked<'_>, extent: PixelBox, worst: Option<((u32, u32), u32)>) -> PictureView {
    let artwork = &marked.preflight.artwork;
    let near = near(marked) as usize;
    let across = (extent.right - extent.left) as usize + near;
    let down = (extent.bottom - extent.top) as usize + near;
    let zoom = (INNER / across).min(PLACE_HEIGHT / down).clamp(LEAST_ZOOM, MOST_ZOOM);
    // What is too wide to be shown is shown where it is worst.
    let middle = ((extent.left + extent.right) / 2, (extent.top + extent.bottom) / 2);
    let (x, y) = worst.filter(|_| across * zoom > INNER).map_or(middle, |(worst, _)| worst);
    let width = (INNER / zoom).min(artwork.width);
    let height = (PLACE_HEIGHT / zoom).min(artwork.height);
    let start =
        |middle: u32, shown: usize, all: usize| (middle as usize).saturating_sub(shown / 2).min(all - shown);
    PictureView {
        left: start(x, width, artwork.width),
        top: start(y, height, artwork.height),
        width,
        height,
        zoom,
    }
}

/// Where the middle of a view lies on the part.
fn around(marked: &Marked<'_>, view: &PictureView) -> String {
    let artwork = &marked.preflight.artwork;
    let x = artwork.corner.x + artwork.pitch.x * (view.left as f64 + 0.5 * view.width as f64);
    let y = artwork.corner.y + artwork.pitch.y * (view.top as f64 + 0.5 * view.height as f64);
    format!("around x = {}, y = {}", mm(x, 1), mm(y, 1))
}

/// A line of text, and at its end how long a round length is.
fn caption(
    canvas: &mut Canvas,
    text: &str,
    marked: &Marked<'_>,
    view: &PictureView,
) -> Result<(), Box<dyn Error>> {
    line(canvas, text, 26)?;
    let pitch = marked.preflight.artwork.pitch.x;
    let pixels = |length: Length| ((length / pitch).value * view.zoom as f64).round();
    let lengths = [100.0, 10.0, 1.0, 0.1, 0.01].map(Length::new::<millimeter>);
    if let Some(length) = lengths.into_iter().find(|length| pixels(*length) <= 400.0) {
        let bar = pixels(length) as usize;
        let end = MARGIN + view.width * view.zoom;
        let bottom = canvas.grow(4);
        let start = end.saturating_sub(bar + BAR_TEXT);
        canvas.fill(start, bottom - 14, bar, 6, INK);
        let decimals = if length >= Length::new::<millimeter>(1.0) { 0 } else { 2 };
        canvas.text(&mm(length, decimals), 26, (start + bar + 12, bottom - 4), INK)?;
    }
    Ok(())
}

/// A part of the mark, enlarged, with its findings framed.
fn strip(canvas: &mut Canvas, marked: &Marked<'_>, view: &PictureView) -> Result<(), Box<dyn Error>> {
    let mut rgba = marked.preflight.picture(&marked.verdict, view)?;
    // A frame that reaches beyond the view would only be lines across it.
    let (right, bottom) = (view.left + view.width, view.top + view.height);
    for place in told(marked) {
        let across = place.left as usize >= view.left && (place.right as usize) < right;
        let down = place.top as usize >= view.top && (place.bottom as usize) < bottom;
        if across && down {
            draw_box(&place, view, &mut rgba)?;
        }
    }
    let top = canvas.grow(view.height * view.zoom + 16);
    canvas.copy(MARGIN, top, view.width * view.zoom, &rgba);
    canvas.frame([MARGIN, top, view.width * view.zoom, view.height * view.zoom], 1, GREY);
    Ok(())
}
