//! What the shape of the part adds to the verdict.

use crate::part::Part;
use crate::report::{mm, offset, percent};
use spotwise::{SurfaceHeight, SurfaceVerdict, TablePlace};
use std::fmt::{self, Write};

pub fn text(part: &Part, found: &SurfaceVerdict) -> Result<String, fmt::Error> {
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
    if extremes.unknown_share > 0.0 {
        writeln!(
            out,
            "  unknown           {} of the area, {} of the probes missing: nothing is said of it",
            percent(extremes.unknown_share),
            extremes.missing_probes
        )?;
    }
    writeln!(out, "  worst spot        {}", height(&found.worst))?;
    writeln!(out, "  in focus          {} of the area", percent(found.share_in_depth))?;
    writeln!(out, "  detail holds on   {} of the area", percent(found.share_that_holds))?;
    writeln!(
        out,
        "  set focus         {} the datum; from end to end that is the least bad",
        offset(found.verdict.best_focus_from_datum, "on")
    )?;
    match found.bands {
        None => writeln!(out, "  to hold           no focus does, on any part of it"),
        Some(1) => writeln!(out, "  to hold           focus set there once is enough"),
        Some(bands) => writeln!(out, "  to hold           {bands} bands of height, each in its own focus"),
    }?;
    Ok(out)
}

fn height(found: &SurfaceHeight) -> String {
    format!("{} the datum, at {}", offset(found.height, "on"), place(found.at))
}

fn place(at: TablePlace) -> String {
    format!("x = {}, y = {}", mm(at.x, 1), mm(at.y, 1))
}
