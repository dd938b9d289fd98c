//! The verdict in words and a table.

use spotwise::text::{DiffusivityText, DoseText, LengthText, PowerText, ReciprocalLengthText, SpeedText};
use spotwise::{
    BeamWidth, Criterion, FocusMeasure, FocusRange, Job, JobDose, JobSinglet, JobText, LensShape, Level,
    Offset, Outcome, Place, RawBeam, Response, Side, SingletFocus, SmallestText, TextGrade, TypeSize,
    Verdict,
};
use std::fmt::{self, Write};
use uom::si::f64::{Length, RadiantExposure};
use uom::si::length::{micrometer, millimeter};
use uom::si::radiant_exposure::joule_per_square_millimeter;
use uom::si::time::microsecond;

use spotwise::uom;

pub fn text(title: &str, job: &Job, verdict: &Verdict) -> Result<String, fmt::Error> {
    let mut out = String::new();
    let focus = &verdict.focus;
    writeln!(out, "Focus check: {title}\n")?;
    writeln!(out, "{}", verdict.outcome.text())?;
    for reason in verdict.reasons.texts() {
        writeln!(out, "  - {reason}")?;
    }
    if verdict.promised != verdict.outcome {
        writeln!(out, "An ideal lens would have promised: {}", verdict.promised.text())?;
    }
    match verdict.level {
        Level::Fine => {}
        Level::Caution => writeln!(out, "Take these numbers with caution:")?,
        _ => writeln!(out, "These numbers lie outside the domain in which their error is known:")?,
    }
    for caution in verdict.validity.texts() {
        writeln!(out, "  - {caution}")?;
    }

    writeln!(out, "\nThe light")?;
    writeln!(
        out,
        "  laser             {}, M2 = {}",
        LengthText(job.laser.wavelength.value),
        job.laser.m_squared
    )?;
    if let RawBeam::Expanded { width, magnification, exit_power, expander_to_lens, .. } = job.raw_beam {
        writeln!(
            out,
            "  path              waist of {}, expander of {magnification} x that converges by {}, {} to the lens",
            mm(width.d4sigma(), 2),
            ReciprocalLengthText(exit_power.value),
            mm(expander_to_lens, 0)
        )?;
    }
    writeln!(out, "  beam at the lens  {}", mm(focus.width_at_lens.diameter_1e2(), 2))?;
    writeln!(out, "  lens              {} focal length", mm(job.lens.focal_length, 2))?;
    match (job.lens.singlet, &verdict.real) {
        (Some(lens), Some(real)) => out.push_str(&real_lens(&lens, real, verdict)?),
        _ => {
            writeln!(out, "  spot in focus     {}  (all widths: 1/e2 diameter)", um(focus.spot))?;
            writeln!(out, "  Rayleigh range    {}", mm(focus.rayleigh_range, 3))?;
            writeln!(
                out,
                "  focus lies        {} the focal point of the lens",
                offset(focus.focus_shift, "at")
            )?;
        }
    }

    out.push_str(&fill(job, verdict)?);

    writeln!(out, "\nThe heights")?;
    writeln!(out, "  focus is set      {} the datum of the surface", offset(verdict.focus_from_datum, "on"))?;
    writeln!(
        out,
        "  depth of focus    {}: {}",
        criterion(job.depth_criterion),
        range(verdict.depth.as_ref())
    )?;
    writeln!(out, "  detail holds      {}", range(verdict.detail_range.as_ref()))?;
    // Text of the lowest grade asks for nothing, so there is no range in which it is kept.
    if let Some(text) = job.text.filter(|text| text.least_grade < TextGrade::Lost) {
        writeln!(out, "  text is {:<9} {}", text.least_grade.name(), range(verdict.text_range.as_ref()))?;
    }
    writeln!(
        out,
        "  best focus        {} the datum; the spot then grows by {} at most",
        offset(verdict.best_focus_from_datum, "on"),
        percent(verdict.best_worst_growth - 1.0)
    )?;

    writeln!(
        out,
        "\nThe surface, against strokes of {} and gaps of {}",
        um_length(job.drawing.finest_stroke),
        um_length(job.drawing.finest_gap)
    )?;
    writeln!(
        out,
        "  {:<8} {:>22} {:>9} {:>8} {:>11} {:>10} {:>9} {:>9}  {:<8} verdict",
        "where", "from focus", "spot", "growth", "irradiance", "line dose", "stroke >=", "gap >=", "in focus"
    )?;
    for (name, place) in
        [("highest", &verdict.highest), ("datum", &verdict.datum), ("lowest", &verdict.lowest)]
    {
        writeln!(
            out,
            "  {:<8} {:>22} {:>9} {:>8} {:>11} {:>10} {:>9} {:>9}  {:<8} {}",
            name,
            from_focus(place.from_waist),
            um(place.spot),
            format!("{:.2} x", place.growth),
            percent(place.irradiance_ratio),
            percent(place.line_dose_ratio),
            or_dash(place.smallest_stroke.map(um_length)),
            or_dash(place.smallest_gap.map(um_length)),
            if place.in_depth { "yes" } else { "no" },
            judgement(job, place),
        )?;
    }
    out.push_str(&fill_and_text(job, verdict)?);
    Ok(out)
}

/// A number that a machine may have reckoned, with no more digits than a person would give.
fn to_four_digits(number: f64) -> f64 {
    format!("{number:.3e}").parse().unwrap_or(number)
}

/// The dose of the fill, and what makes it.
fn fill(job: &Job, verdict: &Verdict) -> Result<String, fmt::Error> {
    let mut out = String::new();
    writeln!(out, "\nThe fill")?;
    if let (JobDose::Scan(set), Some(scan)) = (job.dose, &verdict.scan) {
        writeln!(
            out,
            "  scan              {} at {}, {}",
            PowerText(set.power.value),
            SpeedText(set.speed.value),
            interval(job).unwrap_or_default()
        )?;
        writeln!(
            out,
            "  dose              {}; the material marks from {} on",
            dose(scan.fill_dose),
            DoseText(to_four_digits(set.threshold.value))
        )?;
        if let Some(answer) = response(set.response, verdict) {
            writeln!(out, "  material          {answer}")?;
        }
        writeln!(
            out,
            "  one line          {} on its middle in focus, from {:.2} kW/mm2 for {:.1} us",
            dose(scan.line_dose),
            scan.peak_irradiance.value * 1e-9,
            scan.dwell.get::<microsecond>()
        )?;
    }
    writeln!(out, "  dose ratio        {:.2} times what just marks", verdict.dose_ratio)?;
    Ok(out)
}

/// How the material answers, and what comes of it; none for a coating, which is gone or not, and if nothing marks.
fn response(response: Response, verdict: &Verdict) -> Option<String> {
    if verdict.outcome == Outcome::NothingMarks {
        return None;
    }
    match (response, verdict.fill_depth) {
        (Response::Melt { diffusivity }, _) => Some(format!(
            "a melt of {}: heat makes it see a spot of {} at the datum",
            DiffusivityText(diffusivity.value),
            um(verdict.datum.seen_spot)
        )),
        (_, Some(depth)) => Some(format!("removed to a depth of {}", um_length(depth))),
        _ => None,
    }
}

/// "lines 40.0 um apart (635 to the inch)"; none if the job names no interval.
pub fn interval(job: &Job) -> Option<String> {
    let JobDose::Scan(set) = job.dose else {
        return None;
    };
    let to_the_inch = set.line_interval.dots_per_inch().ok()?;
    Some(format!("lines {} apart ({to_the_inch:.0} to the inch)", um_length(set.line_interval.length())))
}

/// Ripple and smallest text at each place, as far as the job speaks of them.
fn fill_and_text(job: &Job, verdict: &Verdict) -> Result<String, fmt::Error> {
    let mut out = String::new();
    if verdict.scan.is_none() && job.text.is_none() {
        return Ok(out);
    }
    let title = job.text.map_or_else(String::new, |text| format!(", against {}", wanted(&text)));
    writeln!(out, "\nFill and text{title}")?;
    writeln!(
        out,
        "  {:<8} {:>12} {:>10} {:>10} {:>12}  text comes out",
        "where", "fill ripple", "crisp >=", "good >=", "readable >="
    )?;
    for (name, place) in
        [("highest", &verdict.highest), ("datum", &verdict.datum), ("lowest", &verdict.lowest)]
    {
        let size = |of: fn(&SmallestText) -> TypeSize| place.smallest_text.as_ref().map(of).map(points);
        writeln!(
            out,
            "  {:<8} {:>12} {:>10} {:>10} {:>12}  {}",
            name,
            or_dash(place.ripple_contrast.map(ripple)),
            or_dash(size(|text| text.crisp)),
            or_dash(size(|text| text.good)),
            or_dash(size(|text| text.readable)),
            place.text_grade.map_or("-", TextGrade::name),
        )?;
    }
    Ok(out)
}

/// "4 point sans that must be good".
fn wanted(text: &JobText) -> String {
    let size = format!("{:.1} point {}", text.size.points(), text.typeface.name());
    match text.least_grade {
        TextGrade::Lost => size,
        grade => format!("{size} that must be {} at least", grade.name()),
    }
}

/// The smallest type that has a grade; none for the grade that asks for nothing.
pub fn smallest(text: &SmallestText, grade: TextGrade) -> Option<TypeSize> {
    match grade {
        TextGrade::Crisp => Some(text.crisp),
        TextGrade::Good => Some(text.good),
        TextGrade::Readable => Some(text.readable),
        _ => None,
    }
}

/// A size of type, rounded up so that what is printed still has the grade.
pub fn points(size: TypeSize) -> String {
    format!("{:.1} pt", (size.points() * 10.0).ceil() / 10.0)
}

/// The contrast of a ripple; below a hundredth of a per cent nothing is worth telling.
pub fn ripple(contrast: f64) -> String {
    if contrast < 1e-4 { "< 0.01 %".to_owned() } else { format!("{:.2} %", 100.0 * contrast) }
}

fn or_dash(text: Option<String>) -> String {
    text.unwrap_or_else(|| "-".to_owned())
}

fn dose(dose: RadiantExposure) -> String {
    format!("{:.3} J/mm2", dose.get::<joule_per_square_millimeter>())
}

/// What an ideal lens of the same focal length would make of the beam, beside what this one makes.
fn real_lens(lens: &JobSinglet, real: &SingletFocus, verdict: &Verdict) -> Result<String, fmt::Error> {
    let mut out = String::new();
    let aperture = lens.clear_aperture.map_or_else(
        || "of unknown aperture".to_owned(),
        |aperture| format!("clear to {}", mm(aperture.diameter(), 1)),
    );
    writeln!(out, "                    {}, {}, {aperture}", lens.glass.name(), shape(lens.shape))?;

    writeln!(out, "\nWhat an ideal lens promises, and what this one gives")?;
    let mut row = |what: &str, ideal: &str, real: &str| writeln!(out, "  {what:<28} {ideal:>18} {real:>18}");
    let ideal = &real.ideal;
    row("", "ideal lens", "this lens")?;
    row("outcome", verdict.promised.name(), verdict.outcome.name())?;
    if let Some(waist) = &real.power86 {
        row("spot, 86.5 % of the power", &um(ideal.spot), &um_length(waist.diameter))?;
        row("from the lens to focus", &mm(ideal.lens_to_waist, 3), &mm(waist.lens_to_waist, 3))?;
        row("Rayleigh range", &mm(ideal.rayleigh_range, 3), &mm(waist.rayleigh_range, 3))?;
    }
    row("spot, second moment", &um(ideal.spot), &um_length(real.second_moment.diameter))?;
    if let Some(peak) = real.peak_irradiance_ratio {
        row("greatest irradiance", &percent(1.0), &percent(peak))?;
    }

    writeln!(
        out,
        "  handbook estimates of the spot: from {} to {}",
        um_length(real.quadrature_diameter),
        um_length(real.handbook_diameter)
    )?;
    match real.wave().and_then(|wave| wave.focus(FocusMeasure::Power86)) {
        Ok(best) => {
            writeln!(out, "  the diffraction integral makes the spot {}", um_length(best.diameter_power86))?;
        }
        Err(refused) => writeln!(out, "  the diffraction integral does not reach here: {refused}")?,
    }
    writeln!(
        out,
        "  aberration: {:.2} rad at the 1/e2 radius, normalised {:.2}",
        real.aberration_phase.value, real.normalised_aberration
    )?;
    if let Some(ratio) = real.clipping_ratio {
        writeln!(
            out,
            "  clipping: the aperture is {ratio:.2} times as wide as the beam, and {:.2} % of the power passes",
            100.0 * real.transmitted
        )?;
    }
    Ok(out)
}

fn shape(shape: LensShape) -> String {
    match shape {
        LensShape::BestForm => "best form".to_owned(),
        LensShape::CurvedSideFirst => "curved side toward the laser".to_owned(),
        LensShape::FlatSideFirst => "flat side toward the laser".to_owned(),
        LensShape::ShapeFactor { factor } => format!("shape factor {factor}"),
        _ => "of another shape".to_owned(),
    }
}

fn judgement(job: &Job, place: &Place) -> &'static str {
    let (Some(finest_stroke), Some(finest_gap)) = (place.smallest_stroke, place.smallest_gap) else {
        return "nothing marks";
    };
    let stroke = finest_stroke <= job.drawing.finest_stroke;
    let gap = finest_gap <= job.drawing.finest_gap;
    match (stroke, gap) {
        (true, true) if !place.details_hold => "text suffers",
        (true, true) => "holds",
        (false, true) => "stroke lost",
        (true, false) => "gap fills",
        (false, false) => "stroke and gap lost",
    }
}

pub fn um(width: BeamWidth) -> String {
    um_length(width.diameter_1e2())
}

pub fn um_length(length: Length) -> String {
    format!("{:.1} um", length.get::<micrometer>())
}

pub fn mm(length: Length, decimals: usize) -> String {
    let number = format!("{:.decimals$}", length.get::<millimeter>());
    // What rounds to nothing has no sign.
    match number.strip_prefix('-') {
        Some(digits) if digits.chars().all(|digit| matches!(digit, '0' | '.')) => format!("{digits} mm"),
        _ => format!("{number} mm"),
    }
}

/// A distance along the axis, down to the nanometre.
pub fn distance(length: Length) -> String {
    let micrometres = length.get::<micrometer>();
    if micrometres == 0.0 || micrometres >= 1.0 {
        mm(length, 3)
    } else if micrometres >= 0.001 {
        format!("{micrometres:.3} um")
    } else {
        "under 0.001 um".to_owned()
    }
}

pub fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// A share of area; one that is not nothing or all does not read so.
pub fn share(share: f64) -> String {
    if 0.0 < share && share < 0.005 {
        "under 1 %".to_owned()
    } else if (0.995..1.0).contains(&share) {
        "over 99 %".to_owned()
    } else {
        percent(share)
    }
}

/// An offset before a noun: "0.10 mm above the datum", or with `at_zero` "on the datum".
pub fn offset(offset: Offset, at_zero: &str) -> String {
    match offset.side() {
        Side::Neither => at_zero.to_owned(),
        Side::TowardLens => format!("{} above", distance(offset.distance())),
        Side::AwayFromLens => format!("{} below", distance(offset.distance())),
    }
}

/// An offset from the waist, for the table.
fn from_focus(offset: Offset) -> String {
    match offset.side() {
        Side::Neither => "in focus".to_owned(),
        Side::TowardLens => format!("{} toward lens", mm(offset.distance(), 2)),
        Side::AwayFromLens => format!("{} away", mm(offset.distance(), 2)),
    }
}

fn range(range: Option<&FocusRange>) -> String {
    range.map_or_else(
        || "nowhere, not even in focus".to_owned(),
        |range| {
            format!(
                "from {} to {} ({} in all)",
                from_focus(range.toward_lens()),
                from_focus(range.away_from_lens()),
                mm(range.full(), 2)
            )
        },
    )
}

fn criterion(criterion: Criterion) -> String {
    match criterion {
        Criterion::GrowthRatio(ratio) => format!("spot grown by {}", percent(ratio - 1.0)),
        Criterion::Rayleigh => "spot grown to 1.41 x (Rayleigh)".to_owned(),
        Criterion::IrradianceDrop(drop) => format!("irradiance down by {}", percent(drop)),
        Criterion::LargestSpot(width) => format!("spot at most {}", um(width)),
        Criterion::LineDoseDrop(drop) => format!("line dose down by {}", percent(drop)),
        _ => "by another criterion".to_owned(),
    }
}
