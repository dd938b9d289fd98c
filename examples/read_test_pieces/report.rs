//! What was found, in words and tables.

use crate::findings::{BeamFinding, Findings, MarkFinding, Measured};
use crate::readings::WidthOf;
use crate::series_file::Series;
use spotwise::text::{LengthText, PowerText};
use spotwise::uom::si::f64::Length;
use spotwise::uom::si::length::{micrometer, millimeter};
use spotwise::{
    Error, Estimate, Offset, Param, PossibleHeight, RankFocus, Side, VanishingFocus, WidthDiagnosis,
};
use std::fmt::{self, Write};

pub fn text(series: &Series, findings: &Findings) -> Result<String, fmt::Error> {
    let mut out = String::new();
    writeln!(out, "Test pieces: {}\n", series.title)?;
    writeln!(out, "Heights count from the datum of the series. Ranges hold the truth in 95 % of cases.")?;
    match &findings.marks {
        Some(Ok(found)) => marks(&mut out, found)?,
        Some(Err(error)) => refused(&mut out, "The widths of the marks", error)?,
        None => {}
    }
    match &findings.beam {
        Some(Ok(found)) => beam(&mut out, found)?,
        Some(Err(error)) => refused(&mut out, "The widths of the beam", error)?,
        None => {}
    }
    match &findings.ranks {
        Some(Ok(found)) => ranks(&mut out, found)?,
        Some(Err(error)) => refused(&mut out, "The ranks", error)?,
        None => {}
    }
    match &findings.vanishing {
        Some(Ok(found)) => vanishing(&mut out, found)?,
        Some(Err(error)) => refused(&mut out, "Where the marks vanish", error)?,
        None => {}
    }
    if findings.wants_range {
        writeln!(
            out,
            "\nTo read by eye, a JSON file about the series must tell the \"expected_rayleigh_range\" of the beam."
        )?;
    } else if findings.marks.is_none() && findings.beam.is_none() && findings.ranks.is_none() {
        writeln!(out, "\nThere is nothing to read: no reading has a width or a rank.")?;
    }
    match &findings.suspect {
        Some(Ok(found)) => suspect(&mut out, series, found)?,
        Some(Err(error)) => refused(&mut out, "The suspect line", error)?,
        None => {}
    }
    if let Some(calibration) = &findings.calibration {
        let text = serde_json::to_string_pretty(calibration).map_err(|_| fmt::Error)?;
        writeln!(
            out,
            "\nThe machine as these pieces show it, for the field \"calibration\" of a job:\n{text}"
        )?;
    }
    Ok(out)
}

fn refused(out: &mut String, what: &str, error: &Error) -> fmt::Result {
    writeln!(out, "\n{what} cannot be read: {error}")
}

fn marks(out: &mut String, found: &MarkFinding) -> fmt::Result {
    let fit = &found.fit;
    writeln!(out, "\nFrom the widths of the marks")?;
    height(out, &fit.waist_height)?;
    let diameter = |width: spotwise::BeamWidth| width.diameter_1e2();
    size(
        out,
        "spot in focus",
        [
            diameter(fit.waist.value),
            fit.waist.deviation,
            diameter(fit.waist.least),
            diameter(fit.waist.greatest),
        ],
    )?;
    let range = &fit.rayleigh_range;
    size(out, "Rayleigh range", [range.value, range.deviation, range.least, range.greatest])?;
    let at = found.reference.map_or_else(String::new, |power| format!(" at {}", PowerText(power.value)));
    number(out, "dose/threshold", &fit.dose_ratio, &at, Param::AnyDoseRatio)?;
    number(out, "M2", &fit.m_squared, "", Param::M2)?;
    fit_quality(out, fit.chi_squared, fit.degrees_of_freedom, fit.chance)?;
    notes(out, fit.cautions.texts())?;
    notes(out, fit.further.texts())?;
    table(out, &found.readings, WidthOf::Mark)
}

fn beam(out: &mut String, found: &BeamFinding) -> fmt::Result {
    let fit = &found.fit;
    writeln!(out, "\nFrom the widths of the beam")?;
    height(out, &fit.waist_z)?;
    let spot = &fit.waist;
    let [value, least, greatest] = [spot.value, spot.least, spot.greatest].map(|width| width.diameter_1e2());
    size(out, "spot in focus", [value, spot.deviation, least, greatest])?;
    let range = &fit.rayleigh_range;
    size(out, "Rayleigh range", [range.value, range.deviation, range.least, range.greatest])?;
    number(out, "M2", &fit.m_squared, "", Param::M2)?;
    fit_quality(out, fit.chi_squared, fit.degrees_of_freedom, fit.chi_squared_chance)?;
    notes(out, fit.warnings.texts())?;
    table(out, &found.readings, WidthOf::Beam)
}

fn ranks(out: &mut String, found: &RankFocus) -> fmt::Result {
    writeln!(out, "\nFrom the ranks by eye")?;
    let focus = &found.focus;
    by_eye(out, focus.height, focus.deviation, focus.toward_lens, focus.away_from_lens)?;
    if let (Some(toward), Some(away)) = (&found.usable_toward_lens, &found.usable_away_from_lens) {
        writeln!(
            out,
            "  usable            {} to {} (acceptable or sharp)",
            z(toward.height),
            z(away.height)
        )?;
    }
    notes(out, found.warnings.texts())
}

fn vanishing(out: &mut String, found: &VanishingFocus) -> fmt::Result {
    writeln!(out, "\nFrom where the marks of the least power vanish")?;
    let focus = &found.focus;
    by_eye(out, focus.height, focus.deviation, focus.toward_lens, focus.away_from_lens)?;
    notes(out, found.warnings.texts())
}

fn suspect(out: &mut String, series: &Series, found: &WidthDiagnosis) -> fmt::Result {
    let Some(line) = &series.suspect else { return Ok(()) };
    writeln!(
        out,
        "\nThe suspect line, {} wide at {}",
        LengthText(line.width.0.value),
        PowerText(line.power.0.value)
    )?;
    writeln!(out, "  {}", found.cause.text())?;
    for (name, height) in [("out of focus by", &found.near), ("or, far off, by", &found.far)] {
        if let Some(PossibleHeight { offset, least_offset, greatest_offset, .. }) = height {
            let (least, greatest) = (mm(*least_offset), mm(*greatest_offset));
            writeln!(
                out,
                "  {name:<17} {:.2} mm ({least:.2} to {greatest:.2}), to either side",
                mm(*offset)
            )?;
        }
    }
    if let Some(power) = &found.power {
        writeln!(
            out,
            "  or power          {:.2} x what it was ({:.2} to {:.2})",
            power.ratio, power.least, power.greatest
        )?;
    }
    notes(out, found.ambiguities.texts())?;
    writeln!(out, "  {}", found.further_test.text())
}

fn height(out: &mut String, found: &Estimate<Offset, Length>) -> fmt::Result {
    by_eye(out, found.value, found.deviation, found.least, found.greatest)
}

fn by_eye(
    out: &mut String,
    focus: Offset,
    deviation: Length,
    least: Offset,
    greatest: Offset,
) -> fmt::Result {
    let (least, greatest) = (z(least), z(greatest));
    writeln!(
        out,
        "  focus             {}, +- {:.0} um ({least} to {greatest})",
        place(focus),
        deviation.get::<micrometer>()
    )
}

/// A length, and the range from `least` to `greatest`.
fn size(out: &mut String, name: &str, [value, deviation, least, greatest]: [Length; 4]) -> fmt::Result {
    let um = |length: Length| length.get::<micrometer>();
    // No fit gives more than that of its own accord.
    let (_, most) = Param::WaistDiameter.range();
    let range = range(um(least), um(greatest), 1e6 * most, 1);
    writeln!(out, "  {name:<17} {:.1} um +- {:.1} ({range})", um(value), um(deviation))
}

fn number(out: &mut String, name: &str, found: &Estimate, at: &str, param: Param) -> fmt::Result {
    let Estimate { value, deviation, least, greatest, .. } = *found;
    let (_, most) = param.range();
    writeln!(out, "  {name:<17} {value:.2} +- {deviation:.2} ({}){at}", range(least, greatest, most, 2))
}

/// A range that may be open, below at 0 and above at the most that the model knows.
fn range(least: f64, greatest: f64, most: f64, digits: usize) -> String {
    match (least > 0.0, greatest < most) {
        (true, true) => format!("{least:.digits$} to {greatest:.digits$}"),
        (false, true) => format!("up to {greatest:.digits$}"),
        (true, false) => format!("from {least:.digits$} on"),
        (false, false) => String::from("open"),
    }
}

fn fit_quality(out: &mut String, chi_squared: f64, degrees: u32, chance: f64) -> fmt::Result {
    writeln!(
        out,
        "  scatter           chi2 = {chi_squared:.1} with {degrees} degrees of freedom, met or exceeded by chance in {:.0} %",
        100.0 * chance
    )
}

fn notes<'a>(out: &mut String, texts: impl Iterator<Item = &'a str>) -> fmt::Result {
    for text in texts {
        writeln!(out, "  - {text}")?;
    }
    Ok(())
}

fn table(out: &mut String, readings: &[Measured], of: WidthOf) -> fmt::Result {
    let name = match of {
        WidthOf::Mark => "mark",
        WidthOf::Beam => "beam",
    };
    writeln!(out, "  {:>10} {:>8} {name:>10} {:>22}", "height", "power", "off the fit")?;
    for reading in readings {
        let power = reading.power.map_or_else(String::new, |power| PowerText(power.value).to_string());
        let width = reading
            .width
            .map_or_else(|| "none".to_owned(), |width| format!("{:.1} um", width.get::<micrometer>()));
        let off = if reading.used { String::new() } else { ", left out".to_owned() };
        writeln!(
            out,
            "  {:>10} {power:>8} {width:>10} {:>12.1} deviations{off}",
            z(reading.height),
            reading.residual
        )?;
    }
    Ok(())
}

/// "0.16 mm away from the lens"
fn place(offset: Offset) -> String {
    let distance = mm(offset.distance());
    match offset.side() {
        Side::TowardLens => format!("{distance:.3} mm toward the lens"),
        Side::AwayFromLens => format!("{distance:.3} mm away from the lens"),
        _ => "at the datum".to_owned(),
    }
}

/// "+0.16 mm", + away from the lens.
fn z(offset: Offset) -> String {
    format!("{:+.2} mm", mm(offset.z_away_from_lens()))
}

fn mm(length: Length) -> f64 {
    length.get::<millimeter>()
}
