//! The beam through focus as an SVG: its outline, that behind an ideal lens, the depth of focus, and
//! where the surface lies.

use crate::chart::{self, FINE, INK, font, line, swatch};
use crate::report;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use spotwise::uom::si::length::{micrometer, millimeter};
use spotwise::{Beam, BeamParts, BeamWidth, Job, JobText, Offset, Place, Verdict};
use std::error::Error;
use std::path::Path;

/// A palette that colour-blind readers can tell apart (M. Okabe, K. Ito, 2008), and a dash or a
/// shape beside each colour.
const BEAM: RGBColor = RGBColor(0, 114, 178);
const DEPTH: RGBColor = RGBColor(0, 158, 115);
const DETAIL: RGBColor = RGBColor(204, 121, 167);
const SURFACE: RGBColor = RGBColor(213, 94, 0);

const SAMPLES: usize = 241;

pub fn write(path: &Path, job: &Job, verdict: &Verdict) -> Result<(), Box<dyn Error>> {
    let mut svg = String::new();
    draw(&mut svg, job, verdict)?;
    Ok(chart::write(path, &svg)?)
}

fn draw(svg: &mut String, job: &Job, verdict: &Verdict) -> Result<(), Box<dyn Error>> {
    let reach = 1.15 * farthest(verdict);
    let z_mm: Vec<f64> =
        (0..SAMPLES).map(|i| reach * (2.0 * i as f64 / (SAMPLES - 1) as f64 - 1.0)).collect();
    let ideal = Beam::new(BeamParts {
        wavelength: job.laser.wavelength,
        m_squared: job.laser.m_squared,
        waist: verdict.focus.spot,
    })?;
    // The verdict rests on the 86.5 %-power spot of a real lens. This beam has its outline and none of its
    // flags, which the report prints.
    let real = verdict.real.and_then(|real| real.power86);
    let beam = match real {
        Some(waist) => Beam::new(BeamParts {
            wavelength: job.laser.wavelength,
            m_squared: waist.m_squared,
            waist: BeamWidth::from_power_86(waist.diameter)?,
        })?,
        None => ideal,
    };
    let radius_um = radii(&beam, &z_mm, 0.0)?;
    let ideal_radius_um = real.map(|waist| radii(&ideal, &z_mm, -mm(waist.shift))).transpose()?;
    let widest = radius_um.iter().chain(ideal_radius_um.iter().flatten()).fold(0.0_f64, |a, &b| a.max(b));
    let tallest = 1.75 * widest;

    let fill = report::interval(job).map_or_else(String::new, |interval| format!(", {interval}"));
    let title = format!("Beam through focus: {:.2} x the dose that just marks{fill}", verdict.dose_ratio);
    let root = SVGBackend::with_string(svg, chart::MADE).into_drawing_area();
    root.fill(&WHITE)?;
    let mut chart = ChartBuilder::on(&root)
        .margin(20 * FINE)
        .caption(title, font(18))
        .x_label_area_size(45 * FINE)
        .y_label_area_size(70 * FINE)
        .build_cartesian_2d(-reach..reach, -tallest..tallest)?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .light_line_style(WHITE)
        .bold_line_style(INK.mix(0.1))
        // The middle of the axis may come out as a tiny negative number.
        .x_label_formatter(&|offset| format!("{:.1}", (10.0 * offset).round() / 10.0 + 0.0))
        .x_desc("offset from focus in mm (lens on the left, + away from it)")
        .y_desc("distance from the axis in um")
        .label_style(font(14))
        .axis_style(line(INK, 1))
        .set_all_tick_mark_size(5 * FINE)
        .draw()?;

    if let Some(depth) = verdict.depth {
        let (from, to) = (mm(depth.toward_lens()).max(-reach), mm(depth.away_from_lens()).min(reach));
        chart
            .draw_series([Rectangle::new([(from, -tallest), (to, tallest)], DEPTH.mix(0.18).filled())])?
            .label("depth of focus")
            .legend(|at| swatch(at, 5, DEPTH.mix(0.3).filled()));
    }

    let mut outline: Vec<(f64, f64)> = z_mm.iter().copied().zip(radius_um.iter().copied()).collect();
    outline.extend(z_mm.iter().copied().zip(radius_um.iter().map(|r| -r)).rev());
    chart
        .draw_series([Polygon::new(outline.clone(), BEAM.mix(0.25))])?
        .label(if real.is_some() { "beam, 86.5 % of the power" } else { "beam, 1/e2" })
        .legend(|at| swatch(at, 5, BEAM.mix(0.4).filled()));
    let (upper, lower) = outline.split_at(SAMPLES);
    chart.draw_series(LineSeries::new(upper.to_vec(), line(BEAM, 2)))?;
    chart.draw_series(LineSeries::new(lower.to_vec(), line(BEAM, 2)))?;

    if let Some(ideal_radius_um) = ideal_radius_um {
        for (i, sign) in [1.0, -1.0].into_iter().enumerate() {
            let points: Vec<_> = z_mm.iter().zip(&ideal_radius_um).map(|(z, r)| (*z, sign * r)).collect();
            let dashes = DashedLineSeries::new(points, 3 * FINE, 3 * FINE, line(INK, 2));
            let series = chart.draw_series(dashes)?;
            if i == 0 {
                series.label("behind an ideal lens").legend(|at| swatch(at, 1, INK.filled()));
            }
        }
    }

    if let Some(range) = verdict.detail_range {
        for (i, end) in [mm(range.toward_lens()), mm(range.away_from_lens())].into_iter().enumerate() {
            if end.abs() > reach {
                continue;
            }
            let line =
                DashedLineSeries::new([(end, -tallest), (end, tallest)], 7 * FINE, 5 * FINE, line(DETAIL, 2));
            let series = chart.draw_series(line)?;
            if i == 0 {
                series.label("detail holds between").legend(|at| swatch(at, 1, DETAIL.filled()));
            }
        }
    }

    // The surface: a bar from its highest to its lowest place, each with its mark.
    let (high, low) = (mm(verdict.highest.from_waist), mm(verdict.lowest.from_waist));
    chart
        .draw_series([Rectangle::new(
            [(high, -0.03 * tallest), (low, 0.03 * tallest)],
            SURFACE.mix(0.5).filled(),
        )])?
        .label("surface of the part")
        .legend(|at| swatch(at, 2, SURFACE.filled()));
    let places = [
        ("highest", &verdict.highest, 0.93),
        ("datum", &verdict.datum, 0.86),
        ("lowest", &verdict.lowest, 0.79),
    ];
    for (name, place, height) in places {
        let z = mm(place.from_waist);
        chart.draw_series(LineSeries::new([(z, -0.7 * tallest), (z, height * tallest)], line(SURFACE, 2)))?;
        let spot = place.spot.diameter_1e2().get::<micrometer>();
        let said = if place.details_hold { "holds" } else { "lost" };
        // Near the right edge the words stand to the left of their line.
        let (side, anchor) = if z > 0.5 * reach { (-1.0, HPos::Right) } else { (1.0, HPos::Left) };
        chart.draw_series([Text::new(
            format!("{name}: {spot:.0} um, {said}"),
            (z + side * 0.01 * reach, height * tallest),
            font(13).pos(Pos::new(anchor, VPos::Center)),
        )])?;
    }

    // What the fill leaves at each place stands below the lines of the surface, on a ground of its own.
    let left: Vec<String> =
        places.iter().filter_map(|(name, place, _)| fill_and_text(job, name, place)).collect();
    if !left.is_empty() {
        let ground = WHITE.mix(0.85).filled();
        let corners = [(0.18 * reach, -0.73 * tallest), (0.99 * reach, -0.98 * tallest)];
        chart.draw_series([Rectangle::new(corners, ground)])?;
    }
    for (row, said) in left.into_iter().enumerate() {
        let at = (0.98 * reach, -(0.77 + 0.08 * row as f64) * tallest);
        let style = font(13).pos(Pos::new(HPos::Right, VPos::Center));
        chart.draw_series([Text::new(said, at, style)])?;
    }

    chart
        .configure_series_labels()
        .position(SeriesLabelPosition::LowerLeft)
        .margin(8 * FINE)
        .legend_area_size(28 * FINE)
        .background_style(WHITE.mix(0.85))
        .border_style(INK.mix(0.3))
        .label_font(font(13))
        .draw()?;
    root.present()?;
    Ok(())
}

/// "datum: ripple 0.51 %, good text from 1.1 pt", as far as the job speaks of them.
fn fill_and_text(job: &Job, name: &str, place: &Place) -> Option<String> {
    let ripple = place.ripple_contrast.map(|contrast| format!("ripple {}", report::ripple(contrast)));
    let size = |text: JobText| report::smallest(&place.smallest_text?, text.least_grade);
    let text = job.text.and_then(|text| {
        Some(format!("{} text from {}", text.least_grade.name(), report::points(size(text)?)))
    });
    let said: Vec<String> = [ripple, text].into_iter().flatten().collect();
    (!said.is_empty()).then(|| format!("{name}: {}", said.join(", ")))
}

fn mm(offset: Offset) -> f64 {
    offset.z_away_from_lens().get::<millimeter>()
}

/// How far from the waist the picture must reach, in mm.
fn farthest(verdict: &Verdict) -> f64 {
    let mut farthest = verdict.focus.rayleigh_range.get::<millimeter>();
    if let Some(waist) = verdict.real.and_then(|real| real.power86) {
        farthest = farthest.max(mm(waist.shift).abs());
    }
    for place in [&verdict.highest, &verdict.datum, &verdict.lowest] {
        farthest = farthest.max(mm(place.from_waist).abs());
    }
    for range in [verdict.depth, verdict.detail_range].into_iter().flatten() {
        let end = mm(range.away_from_lens()).abs();
        // A range far wider than the surface would only shrink the picture.
        if end < 3.0 * farthest {
            farthest = farthest.max(end);
        }
    }
    farthest
}

/// The radius in um at each height in mm, of a beam whose waist lies at `waist_mm`.
fn radii(beam: &Beam, z_mm: &[f64], waist_mm: f64) -> Result<Vec<f64>, spotwise::Error> {
    let z_m: Vec<f64> = z_mm.iter().map(|z| (z - waist_mm) * 1e-3).collect();
    let mut diameter_m = vec![0.0; z_m.len()];
    let _cone = beam.diameters_1e2_at(&z_m, &mut diameter_m)?;
    Ok(diameter_m.into_iter().map(|d| 0.5 * d * 1e6).collect())
}
