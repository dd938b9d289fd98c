//! The series as an SVG: what was read, the fitted curve with its band of confidence, and the depth of focus.

use crate::band;
use crate::chart::{self, FINE, INK, font, line, swatch};
use crate::findings::{BeamFinding, Findings, MarkFinding, Measured, fitted_beam};
use crate::series_file::Series;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use spotwise::text::PowerText;
use spotwise::units::mm;
use spotwise::uom::si::f64::{Length, Power};
use spotwise::uom::si::length::{micrometer, millimeter};
use spotwise::{Beam, Criterion, Offset, PieceRank};
use std::error::Error;
use std::path::Path;

/// A palette that colour-blind readers can tell apart (M. Okabe, K. Ito, 2008); neighbouring powers
/// differ in shape besides: dots and triangles.
const POWERS: [RGBColor; 4] =
    [RGBColor(0, 114, 178), RGBColor(213, 94, 0), RGBColor(204, 121, 167), RGBColor(86, 180, 233)];
const DEPTH: RGBColor = RGBColor(0, 158, 115);

const SAMPLES: usize = 161;
/// Height of the plot over the greatest width in it; the legend stands above.
const TALLEST: f64 = 1.5;

/// One curve with its readings.
struct Curve {
    name: String,
    /// Height in mm, width in um, half the band in um.
    points: Vec<(f64, f64, f64)>,
    readings: Vec<Measured>,
}

/// Everything that is drawn.
struct Plot {
    title: String,
    curves: Vec<Curve>,
    /// Heights in mm and ranks of the pieces that an eye has ranked.
    pieces: Vec<(f64, PieceRank)>,
    /// Focus and the ends of its range, in mm.
    focus: Option<[f64; 3]>,
    /// Ends of the depth of focus in mm.
    depth: Option<[f64; 2]>,
}

pub fn write(path: &Path, series: &Series, findings: &Findings) -> Result<(), Box<dyn Error>> {
    let mut plot = Plot {
        title: series.title.clone(),
        curves: Vec::new(),
        pieces: ranked(series),
        focus: None,
        depth: None,
    };
    if let Some(Ok(found)) = &findings.marks {
        plot.of_marks(series, found)?;
    } else if let Some(Ok(found)) = &findings.beam {
        plot.of_beam(found)?;
    } else if let Some(Ok(found)) = &findings.ranks {
        let focus = &found.focus;
        plot.focus = Some([z(focus.height), z(focus.toward_lens), z(focus.away_from_lens)]);
    }
    let mut svg = String::new();
    draw(&mut svg, &plot)?;
    Ok(chart::write(path, &svg)?)
}

impl Plot {
    fn of_marks(&mut self, series: &Series, found: &MarkFinding) -> Result<(), spotwise::Error> {
        let fit = &found.fit;
        let at = &fit.waist_height;
        self.focus = Some([z(at.value), z(at.least), z(at.greatest)]);
        self.depth = depth(&fitted_beam(series.laser.wavelength, fit)?, at.value)?;
        let mut powers: Vec<Option<Power>> = Vec::new();
        for reading in &found.readings {
            if !powers.contains(&reading.power) {
                powers.push(reading.power);
            }
        }
        for power in powers {
            let readings: Vec<Measured> =
                found.readings.iter().filter(|reading| reading.power == power).copied().collect();
            let ratio = match (power, found.reference) {
                (Some(power), Some(reference)) => (power / reference).value,
                _ => 1.0,
            };
            let points = heights(&readings)
                .map(|height_mm| {
                    let (width, half_band) = band::width_of(fit, offset(height_mm)?, ratio)?;
                    Ok((height_mm, um(width), um(half_band)))
                })
                .collect::<Result<_, spotwise::Error>>()?;
            let name = power.map_or_else(|| "marks".to_owned(), |power| PowerText(power.value).to_string());
            self.curves.push(Curve { name, points, readings });
        }
        Ok(())
    }

    fn of_beam(&mut self, found: &BeamFinding) -> Result<(), spotwise::Error> {
        let fit = &found.fit;
        let at = &fit.waist_z;
        self.focus = Some([z(at.value), z(at.least), z(at.greatest)]);
        self.depth = depth(&band::beam_of(fit)?, at.value)?;
        let points = heights(&found.readings)
            .map(|height_mm| {
                let (diameter, half_band) = band::diameter_of(fit, offset(height_mm)?)?;
                Ok((height_mm, um(diameter), um(half_band)))
            })
            .collect::<Result<_, spotwise::Error>>()?;
        self.curves.push(Curve { name: "beam".to_owned(), points, readings: found.readings.clone() });
        Ok(())
    }
}

/// Heights from somewhat before the first reading to somewhat behind the last, in mm.
fn heights(readings: &[Measured]) -> impl Iterator<Item = f64> + use<> {
    let (least, greatest) = ends(readings.iter().map(|reading| z(reading.height)));
    let margin = 0.06 * (greatest - least);
    (0..SAMPLES).map(move |i| {
        let share = i as f64 / (SAMPLES - 1) as f64;
        least - margin + share * (greatest - least + 2.0 * margin)
    })
}

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, greatest), value| {
        (least.min(value), greatest.max(value))
    })
}

/// Where the spot is at most a tenth larger than in focus.
fn depth(beam: &Beam, focus: Offset) -> Result<Option<[f64; 2]>, spotwise::Error> {
    let range = beam.depth_of_focus(Criterion::GrowthRatio(1.1))?;
    Ok(Some([z(focus) + z(range.toward_lens()), z(focus) + z(range.away_from_lens())]))
}

fn draw(svg: &mut String, plot: &Plot) -> Result<(), Box<dyn Error>> {
    let root = SVGBackend::with_string(svg, chart::MADE).into_drawing_area();
    root.fill(&WHITE)?;
    let (least, greatest) = plot.across();
    let widest = plot.widest();
    let mut chart = ChartBuilder::on(&root)
        .margin(20 * FINE)
        .caption(&plot.title, font(18))
        .x_label_area_size(45 * FINE)
        .y_label_area_size(70 * FINE)
        .build_cartesian_2d(least..greatest, 0.0..TALLEST * widest)?;
    chart
        .configure_mesh()
        .light_line_style(WHITE)
        .bold_line_style(INK.mix(0.1))
        // The middle of the axis may come out as a tiny negative number.
        .x_label_formatter(&|height| format!("{:.1}", (10.0 * height).round() / 10.0 + 0.0))
        .x_desc("height of the surface in mm (+ away from the lens)")
        .y_desc("width in um")
        .label_style(font(14))
        .axis_style(line(INK, 1))
        .set_all_tick_mark_size(5 * FINE)
        .draw()?;

    if let Some([from, to]) = plot.depth {
        let (from, to) = (from.max(least), to.min(greatest));
        chart
            .draw_series([Rectangle::new([(from, 0.0), (to, TALLEST * widest)], DEPTH.mix(0.18).filled())])?
            .label("spot at most 10 % larger")
            .legend(|at| swatch(at, 5, DEPTH.mix(0.3).filled()));
    }
    if let Some([focus, from, to]) = plot.focus {
        for end in [from, to] {
            let ends = [(end, 0.0), (end, TALLEST * widest)];
            chart.draw_series(DashedLineSeries::new(ends, 4 * FINE, 4 * FINE, line(INK, 1)))?;
        }
        chart
            .draw_series(LineSeries::new([(focus, 0.0), (focus, TALLEST * widest)], line(INK, 2)))?
            .label("focus, and its 95 % range")
            .legend(|at| swatch(at, 1, INK.filled()));
        chart.draw_series([Text::new(
            format!("{focus:+.2} mm"),
            (to.min(greatest) + 0.01 * (greatest - least), 0.96 * TALLEST * widest),
            font(14).pos(Pos::new(HPos::Left, VPos::Center)),
        )])?;
    }
    for (number, (curve, color)) in plot.curves.iter().zip(POWERS.into_iter().cycle()).enumerate() {
        let mut band: Vec<(f64, f64)> =
            curve.points.iter().map(|(z, width, half)| (*z, width + half)).collect();
        band.extend(curve.points.iter().rev().map(|(z, width, half)| (*z, (width - half).max(0.0))));
        chart.draw_series([Polygon::new(band, color.mix(0.2))])?;
        let fitted = curve.points.iter().map(|(z, width, _)| (*z, *width));
        chart
            .draw_series(LineSeries::new(fitted, line(color, 2)))?
            .label(format!("{}: readings, fit, 95 % band", curve.name))
            .legend(move |at| swatch(at, 3, color.filled()));
        for reading in &curve.readings {
            let at = z(reading.height);
            let (width, deviation) = (reading.width.map_or(0.0, um), um(reading.deviation));
            let bar = [(at, (width - deviation).max(0.0)), (at, width + deviation)];
            chart.draw_series(LineSeries::new(bar, line(color, 1)))?;
            // A reading that was left out, or a mark that is not there, is hollow.
            let filled = reading.used && reading.width.is_some();
            let style = if filled { color.filled() } else { line(color, 2) };
            let size = 4 * FINE;
            if number % 2 == 0 {
                chart.draw_series([Circle::new((at, width), size, style)])?;
            } else {
                chart.draw_series([TriangleMarker::new((at, width), size + FINE, style)])?;
            }
        }
    }
    for (height, rank) in &plot.pieces {
        let style = font(12).pos(Pos::new(HPos::Center, VPos::Bottom));
        chart.draw_series([Text::new(rank.name(), (*height, 0.01 * widest), style)])?;
    }
    chart
        .configure_series_labels()
        .position(SeriesLabelPosition::UpperRight)
        .margin(8 * FINE)
        .legend_area_size(28 * FINE)
        .background_style(WHITE.mix(0.85))
        .border_style(INK.mix(0.3))
        .label_font(font(13))
        .draw()?;
    root.present()?;
    Ok(())
}

impl Plot {
    /// From where to where the plot reaches, in mm.
    fn across(&self) -> (f64, f64) {
        let curves = self.curves.iter().flat_map(|curve| curve.points.iter().map(|point| point.0));
        let pieces = self.pieces.iter().map(|(height, _)| *height);
        let (least, greatest) = ends(curves.chain(pieces));
        if least < greatest { (least, greatest) } else { (-1.0, 1.0) }
    }

    /// The greatest width, in um.
    fn widest(&self) -> f64 {
        let fitted = self.curves.iter().flat_map(|curve| &curve.points).map(|(_, width, half)| width + half);
        let read = self.curves.iter().flat_map(|curve| &curve.readings).filter_map(|reading| reading.width);
        fitted.chain(read.map(um)).fold(1.0, f64::max)
    }
}

/// The pieces that an eye has ranked.
fn ranked(series: &Series) -> Vec<(f64, PieceRank)> {
    let all = series.readings.all.iter();
    all.filter_map(|reading| reading.rank.map(|rank| (1e3 * reading.z, rank))).collect()
}

fn offset(height_mm: f64) -> Result<Offset, spotwise::Error> {
    Offset::from_z_away_from_lens(mm(height_mm))
}

/// In mm, + away from the lens.
fn z(offset: Offset) -> f64 {
    offset.z_away_from_lens().get::<millimeter>()
}

fn um(length: Length) -> f64 {
    length.get::<micrometer>()
}
