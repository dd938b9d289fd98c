//! What the shape of the part adds to the verdict.

use crate::part::Part;
use crate::report::{distance, mm, offset, percent, share, um};
use spotwise::uom::si::f64::Length;
use spotwise::uom::si::length::meter;
use spotwise::{
    BandColumns, BeamWidth, FocusDepth, Job, Offset, SurfaceEnds, SurfaceHeight, SurfaceVerdict, TablePlace,
    Verdict, height_bands,
};
use std::fmt::{self, Write};

/// Of more bands than this, the report tells these.
const BANDS_TOLD: usize = 12;

pub fn text(job: &Job, part: &Part, found: &SurfaceVerdict) -> Result<String, fmt::Error> {
    let mut out = String::new();
    let extremes = &found.extremes;
    let region = part.region;
    writeln!(out, "\nThe part: {}", part.words())?;
    writeln!(
        out,
        "  marked            {} x {}",
        mm(region.x_greatest - region.x_least, 1),
        mm(region.y_greatest - region.y_least, 1)
    )?;
    writeln!(out, "  highest place     {}", height(&extremes.highest))?;
    writeln!(out, "  lowest place      {}", height(&extremes.lowest))?;
    writeln!(
        out,
        "  steepest place    {:.2} degrees at {}; the dose falls there by {}",
        extremes.steepest_incidence.value.to_degrees(),
        place(extremes.steepest_at),
        percent(1.0 - found.steepest_irradiance_factor)
    )?;
    let area = if extremes.unknown_share > 0.0 {
        writeln!(out, "  unknown           {}", unknown(part, found))?;
        "of the known area"
    } else {
        "of the area"
    };
    writeln!(
        out,
        "  set-up            up to {} nearer to the lens and {} farther; counted in the table above and in the shares",
        distance(job.surface.rise),
        distance(job.surface.fall)
    )?;
    writeln!(out, "  worst spot        {}: {}", height(&found.worst), um(worst_spot(&found.verdict)))?;
    writeln!(out, "  in focus          {} {area}", share(found.share_in_depth))?;
    writeln!(out, "  detail holds on   {} {area}", share(found.share_that_holds))?;
    writeln!(
        out,
        "  set focus         {} the datum; from end to end that is the least bad",
        offset(found.verdict.best_focus_from_datum, "on")
    )?;
    match found.bands {
        None => writeln!(out, "  to hold           no focus does, on any part of it"),
        Some(1) => writeln!(out, "  to hold           focus set there once is enough"),
        Some(bands) => {
            writeln!(
                out,
                "  to hold           at most {bands} bands of height, each in its own focus; heights that do not occur need none"
            )?;
            out.write_str(&bands_told(job, found, bands)?)
        }
    }?;
    Ok(out)
}

/// How much of the region is unknown, and why.
fn unknown(part: &Part, found: &SurfaceVerdict) -> String {
    let extremes = &found.extremes;
    let mut text = format!("{} of the area", share(extremes.unknown_share));
    if extremes.missing_probes > 0 {
        text += &format!(", {} of the probes missing", extremes.missing_probes);
    }
    if let Some(beside) = part.reaches_beside() {
        text += &format!(", the region reaches beside {beside}");
    }
    text + ": nothing is said of it"
}

/// The spot at the end of the surface that is farther from focus, rise and fall included.
fn worst_spot(verdict: &Verdict) -> BeamWidth {
    let (highest, lowest) = (&verdict.highest, &verdict.lowest);
    if lowest.from_waist.distance() > highest.from_waist.distance() { lowest.spot } else { highest.spot }
}

/// Where to set focus for each band, down to which heights.
fn bands_told(job: &Job, found: &SurfaceVerdict, bands: u32) -> Result<String, fmt::Error> {
    let mut out = String::new();
    let count = bands as usize;
    let mut limits = vec![f64::NAN; count + 1];
    let mut focus = vec![f64::NAN; count];
    let columns = BandColumns { limits_away_from_lens_m: &mut limits, focus_away_from_lens_m: &mut focus };
    let ends = SurfaceEnds { highest: found.extremes.highest.height, lowest: found.extremes.lowest.height };
    let divided =
        usable_depth(job, &found.verdict).and_then(|depth| height_bands(ends, depth, 0.0, columns).ok());
    // Of a depth of less than a nanometre the library makes no bands, and within its last digit it may count another
    // number: better none told than others than were promised.
    if divided.is_none_or(|divided| divided.count != bands) {
        return Ok(out);
    }
    for (number, (focus, limit)) in focus.iter().zip(limits.iter().skip(1)).take(BANDS_TOLD).enumerate() {
        writeln!(
            out,
            "  band {:<12} focus {} the datum, for heights down to {} the datum",
            number + 1,
            offset(at(*focus)?, "on"),
            offset(at(*limit)?, "on")
        )?;
    }
    if count > BANDS_TOLD {
        writeln!(out, "                    and so on, each {} lower", step(&focus))?;
    }
    Ok(out)
}

/// Where stroke, gap and text hold wherever within rise and fall a place lies.
fn usable_depth(job: &Job, verdict: &Verdict) -> Option<FocusDepth> {
    let detail = verdict.detail_range?;
    let held = verdict.text_range.filter(|text| text.full() < detail.full()).unwrap_or(detail);
    let toward_lens = held.toward_lens().z_away_from_lens() + job.surface.rise;
    let away_from_lens = held.away_from_lens().z_away_from_lens() - job.surface.fall;
    Some(FocusDepth {
        toward_lens: Offset::from_z_away_from_lens(toward_lens).ok()?,
        away_from_lens: Offset::from_z_away_from_lens(away_from_lens).ok()?,
    })
}

/// From one focus to the next.
fn step(focus: &[f64]) -> String {
    match focus {
        [first, second, ..] => distance(Length::new::<meter>(second - first)),
        _ => String::new(),
    }
}

fn at(metres: f64) -> Result<Offset, fmt::Error> {
    Offset::from_z_away_from_lens(Length::new::<meter>(metres)).map_err(|_| fmt::Error)
}

fn height(found: &SurfaceHeight) -> String {
    format!("{} the datum, at {}", offset(found.height, "on"), place(found.at))
}

pub fn place(at: TablePlace) -> String {
    format!("x = {}, y = {}", mm(at.x, 1), mm(at.y, 1))
}
