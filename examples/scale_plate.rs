//! Draws the scale plate of an invented rain gauge, for the preflight of the main job.
//!
//! ```text
//! cargo run --release --example scale_plate [PLATE.png]
//! ```
//!
//! The plate is 120 mm × 20 mm, its drawing 116 mm × 16 mm, at 12.5 µm a pixel: a quarter of the radius of a spot of
//! 100 µm. Dark is ink. Scale lines are 60 to 120 µm wide, the double line below them has a gap of 45 µm, and the
//! serial number stands in 3 point type near both ends, where the plate bows away from the lens.

use spotwise::artwork::{
    FillRule, Font, Frame, InkPath, Inking, LetterSize, SampleKind, Sheet, Stroke, StrokeCap, StrokeJoin,
    pitch_for_spot,
};
use spotwise::model::mark::POINT;
use std::error::Error;
use std::fs::File;
use std::io::BufWriter;

const PLATE: &str = "examples/focus_check/rain_gauge_plate.png";
const FONT: &[u8] = include_bytes!("fonts/DejaVuSans-plate.ttf");
const LEAST_SPOT_DIAMETER: f64 = 100e-6;
const MM: f64 = 1e-3;
const FILL: Inking = Inking::Fill(FillRule::NonZero);

fn main() -> Result<(), Box<dyn Error>> {
    let file = std::env::args().nth(1).unwrap_or_else(|| PLATE.to_owned());
    let sheet = plate()?;
    write(&file, &sheet)?;
    let frame = sheet.frame();
    println!("{file}: {} x {} pixels of {} um", frame.width, frame.height, frame.pitch_x * 1e6);
    Ok(())
}

/// A line of text, and where along it the place stands.
enum Place {
    Left(f64),
    Middle(f64),
    Right(f64),
}

fn plate() -> Result<Sheet, Box<dyn Error>> {
    let pitch = pitch_for_spot(LEAST_SPOT_DIAMETER, SampleKind::Coverage)?;
    let frame = Frame {
        width: (116.0 * MM / pitch).round() as usize,
        height: (16.0 * MM / pitch).round() as usize,
        pitch_x: pitch,
        pitch_y: pitch,
        left_x: -58.0 * MM,
        top_y: 2.0 * MM,
    };
    let mut sheet = Sheet::new(frame)?;
    let font = Font::new(FONT, 0)?;
    let text = |sheet: &mut Sheet, said: &str, points: f64, spacing: f64, place: Place, baseline: f64| {
        let size = LetterSize::Em(points * POINT);
        let line = font.line(said, size, spacing, [0.0, 0.0])?;
        // Without what follows the last letter.
        let width = line.advance - spacing;
        let x = match place {
            Place::Left(x) => x,
            Place::Middle(x) => x - 0.5 * width,
            Place::Right(x) => x - width,
        };
        sheet.draw(&font.line(said, size, spacing, [x, baseline])?.path, FILL)
    };

    title(&mut sheet)?;
    text(&mut sheet, "RAIN GAUGE", 9.0, 0.25 * MM, Place::Left(-52.3 * MM), 5.9 * MM)?;
    text(&mut sheet, "Collector 200 cm²", 6.0, 0.0, Place::Middle(5.0 * MM), 5.9 * MM)?;
    text(&mut sheet, "read in mm of rain", 6.0, 0.0, Place::Right(57.0 * MM), 5.9 * MM)?;

    scale(&mut sheet)?;
    for mm_of_rain in (0..=40).step_by(5) {
        text(&mut sheet, &mm_of_rain.to_string(), 7.0, 0.0, Place::Middle(at(mm_of_rain)), 14.6 * MM)?;
    }
    text(&mut sheet, "Serial no. RG-0042-1786", 3.0, 0.0, Place::Left(-57.0 * MM), 17.3 * MM)?;
    // A hair to the left, or sampling leaves a single bare pixel inside the last 6: a counter that no spot can keep.
    text(&mut sheet, "Serial no. RG-0042-1786", 3.0, 0.0, Place::Right(56.995 * MM), 17.3 * MM)?;
    text(
        &mut sheet,
        "Read at the lower edge of the water. Empty after each reading.",
        4.0,
        0.0,
        Place::Middle(0.0),
        17.3 * MM,
    )?;
    Ok(sheet)
}

/// Where so many millimetres of rain stand on the scale, 2.7 mm for each.
fn at(mm_of_rain: i32) -> f64 {
    (f64::from(mm_of_rain) - 20.0) * 2.7 * MM
}

/// A drop, as a ring between two drops by the even-odd rule.
fn title(sheet: &mut Sheet) -> Result<(), Box<dyn Error>> {
    let mut drop = InkPath::new();
    for size in [1.0, 0.72] {
        let place = |x: f64, y: f64| [(-55.0 + size * x) * MM, (4.9 + size * y) * MM];
        drop.move_to(place(0.0, -2.4))
            .cubic_to(place(0.5, -1.2), place(1.3, -0.5), place(1.3, 0.3))
            .cubic_to(place(1.3, 1.02), place(0.72, 1.6), place(0.0, 1.6))
            .cubic_to(place(-0.72, 1.6), place(-1.3, 1.02), place(-1.3, 0.3))
            .cubic_to(place(-1.3, -0.5), place(-0.5, -1.2), place(0.0, -2.4))
            .close();
    }
    Ok(sheet.draw(&drop, Inking::Fill(FillRule::EvenOdd))?)
}

/// Lines each half millimetre of rain, longer and wider ones at whole ones and at fives, and a double line below.
fn scale(sheet: &mut Sheet) -> Result<(), Box<dyn Error>> {
    let foot = 11.6;
    let mut lines = |width: f64, length: f64, halves: &mut dyn Iterator<Item = i32>| {
        let mut path = InkPath::new();
        for half in halves {
            let x = 0.5 * (at(half / 2) + at((half + 1) / 2));
            path.move_to([x, foot * MM]).line_to([x, (foot - length) * MM]);
        }
        sheet.draw(&path, Inking::Stroke(Stroke::new(width)))
    };
    lines(60e-6, 1.5, &mut (0..=80).filter(|half| half % 2 == 1))?;
    lines(80e-6, 2.3, &mut (0..=80).filter(|half| half % 2 == 0 && half % 10 != 0))?;
    lines(120e-6, 3.4, &mut (0..=80).filter(|half| half % 10 == 0))?;

    // Two lines of 60 µm with a gap of 45 µm between them.
    let rule = Stroke { width: 60e-6, cap: StrokeCap::Square, join: StrokeJoin::Bevel };
    let mut double = InkPath::new();
    for y in [foot * MM, foot * MM + 105e-6] {
        double.move_to([at(0), y]).line_to([at(40), y]);
    }
    Ok(sheet.draw(&double, Inking::Stroke(rule))?)
}

fn write(file: &str, sheet: &Sheet) -> Result<(), Box<dyn Error>> {
    let frame = sheet.frame();
    let mut png = png::Encoder::new(
        BufWriter::new(File::create(file)?),
        frame.width.try_into()?,
        frame.height.try_into()?,
    );
    png.set_color(png::ColorType::Grayscale);
    png.set_depth(png::BitDepth::Eight);
    png.set_compression(png::Compression::High);
    png.set_pixel_dims(Some(png::PixelDimensions {
        xppu: (1.0 / frame.pitch_x).round() as u32,
        yppu: (1.0 / frame.pitch_y).round() as u32,
        unit: png::Unit::Meter,
    }));
    let dark_is_ink: Vec<u8> = sheet.samples().iter().map(|covered| 255 - covered).collect();
    let mut writer = png.write_header()?;
    writer.write_image_data(&dark_is_ink)?;
    writer.finish()?;
    Ok(())
}
