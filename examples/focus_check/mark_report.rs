//! The mark in words: the verdict, what is lost and filled and where, and what would help.

use crate::artwork::Drawing;
use crate::mark_check::{MarkCheck, Marked};
use crate::places::{AREAS_TOLD, is_told};
use crate::report::{distance, mm, offset, percent, share, um};
use crate::surface_report::place;
use spotwise::artwork::{ChangeKind, Demand, DoseWindow, MarkGrade, QuickVerdict, RegionTotals};
use spotwise::uom::si::area::square_millimeter;
use spotwise::uom::si::f64::Length;
use spotwise::{Area, MarkReport, PreflightVerdict, QuickAnswer};
use std::fmt::{self, Write};

/// What is sure before any exposure, in one line.
pub fn at_once(drawing: &Drawing, found: &QuickAnswer) -> String {
    let told = match found.verdict {
        QuickVerdict::NothingAtRisk => "no piece or counter is at risk as the job is set",
        QuickVerdict::SomethingLost => "something is lost as the job is set",
        _ => "unsure; the whole preflight must tell",
    };
    format!("At once, {}: {told}", drawing.name)
}

pub fn text(check: &MarkCheck<'_>) -> Result<String, fmt::Error> {
    let mut out = String::new();
    let drawing = check.drawing;
    let [x, y] = drawing.ends();
    let set = &check.as_set;
    let report = &set.verdict.report;
    writeln!(
        out,
        "\nThe drawing: {}, {} x {} pixels, {} x {}",
        drawing.name,
        drawing.width,
        drawing.height,
        mm(x.1 - x.0, 1),
        mm(y.1 - y.0, 1)
    )?;
    writeln!(out, "  as set            {}", verdict(&set.verdict))?;
    for reason in set.verdict.judgement.reasons.texts() {
        writeln!(out, "    - {reason}")?;
    }
    for detail in &check.details {
        let (set, best) = (&detail.as_set.verdict, &detail.at_best_focus.verdict);
        let grade = |found: &PreflightVerdict| found.judgement.grade.name();
        writeln!(
            out,
            "  {:<17} {}, {} with the best focus; as set, dose: {}",
            detail.detail.name,
            grade(set).to_uppercase(),
            grade(best),
            doses(&set.window)
        )?;
    }
    writeln!(
        out,
        "  dose              {:.2} times what just marks; {}",
        set.preflight.dose_ratio,
        doses(&set.verdict.window)
    )?;
    writeln!(out, "  pieces            {}", pieces(report))?;
    writeln!(out, "  counters          {}", counters(report))?;
    writeln!(out, "  strokes           {}", strokes(report))?;
    writeln!(out, "  gaps              {}", gaps(report))?;
    if let (Some(least), Some(greatest)) = (report.least_spot, report.greatest_spot) {
        writeln!(
            out,
            "  spot              {} at {}, to {} at {}",
            um(least.0),
            place(least.1),
            um(greatest.0),
            place(greatest.1)
        )?;
    }
    areas(&mut out, set, "lost", &set.verdict.lost_areas, report.lost)?;
    areas(&mut out, set, "filled", &set.verdict.filled_areas, report.filled)?;
    changes(&mut out, set)?;
    if report.unknown_ink_pixels > 0 {
        let all = report.ink_pixels + report.unknown_ink_pixels;
        let unknown = report.unknown_ink_pixels as f64 / all as f64;
        writeln!(out, "  unknown           {} of the ink lies where no height is known", share(unknown))?;
    }
    if report.too_few_pixels {
        writeln!(
            out,
            "  pixels            {:.1} to a spot radius: exposures are up to {} of full dose off",
            report.pixels_per_radius,
            percent(report.expected_error)
        )?;
    }
    out.push_str(&help(check)?);
    Ok(out)
}

/// "LOST: strokes are lost ..."
fn verdict(found: &PreflightVerdict) -> String {
    let grade = found.judgement.grade;
    let meaning = match grade {
        MarkGrade::Crisp => "all is whole, its edges are sharp, and the dose has room",
        MarkGrade::Good => "all is whole, and the dose has room",
        MarkGrade::Degraded => "strokes and counters hold, but neighbours touch or the dose has little room",
        _ => "strokes are lost or broken, or counters fill",
    };
    format!("{}: {meaning}", grade.name().to_uppercase())
}

/// The doses that keep all, in words.
fn doses(window: &DoseWindow) -> String {
    let least = window.least_dose_ratio;
    let limit = |greatest: f64| {
        if greatest.is_finite() { format!("to {greatest:.2}") } else { "on, however high".to_owned() }
    };
    if least.is_nan() {
        "none keeps the strokes".to_owned()
    } else if window.ratio_for_counters() < 1.0 {
        format!(
            "none holds: strokes need {least:.2}, counters fill from {:.2} on",
            window.greatest_dose_ratio_for_counters
        )
    } else if window.ratio() < 1.0 {
        format!(
            "from {least:.2} {} strokes and counters hold, but neighbours touch",
            limit(window.greatest_dose_ratio_for_counters)
        )
    } else {
        format!("from {least:.2} {} all holds", limit(window.greatest_dose_ratio))
    }
}

fn pieces(report: &MarkReport) -> String {
    let found = &report.topology;
    listed(
        drawn(found.components_drawing, found.components_ignored_drawing),
        &[
            (found.components_lost, "lost"),
            (found.components_split, "split"),
            (report.components_starved, "marked for less than half of their length"),
            (found.components_merged, "run together from several"),
            (found.components_new, "new"),
        ],
    )
}

fn counters(report: &MarkReport) -> String {
    let found = &report.topology;
    listed(
        drawn(found.holes_drawing, found.holes_ignored_drawing),
        &[
            (found.holes_closed, "filled"),
            (found.holes_opened, "open to the outside"),
            (found.holes_split, "parted"),
            (found.holes_merged, "joined"),
            (found.holes_new, "new"),
        ],
    )
}

fn drawn(count: u32, ignored: u32) -> String {
    match ignored {
        0 => format!("{count} drawn"),
        1 => format!("{count} drawn and 1 speck, which is ignored"),
        _ => format!("{count} drawn and {ignored} specks, which are ignored"),
    }
}

fn listed(mut text: String, counts: &[(u32, &str)]) -> String {
    let mut none = true;
    for (count, what) in counts.iter().filter(|(count, _)| *count > 0) {
        text += &format!(", {count} {what}");
        none = false;
    }
    text + if none { ", all whole" } else { "" }
}

fn strokes(report: &MarkReport) -> String {
    let lost = report.stroke_centres.lost_share();
    widths(lost, "of their length lost", report.smallest_stroke_kept, report.largest_stroke_lost, "lost")
}

fn gaps(report: &MarkReport) -> String {
    let filled = report.gap_centres.lost_share();
    widths(filled, "of their length filled", report.smallest_gap_kept, report.largest_gap_lost, "filled")
}

fn widths(lost: f64, of_length: &str, kept: Option<Length>, gone: Option<Length>, how: &str) -> String {
    let mut text = format!("{} {of_length}", share(lost));
    if let Some(kept) = kept {
        text += &format!("; all kept from {} on", distance(kept));
    }
    if let Some(gone) = gone {
        text += &format!("; all {how} up to {}", distance(gone));
    }
    text
}

/// The largest places where something is lost or filled.
fn areas(out: &mut String, marked: &Marked<'_>, how: &str, areas: &[Area], all: RegionTotals) -> fmt::Result {
    let report = &marked.verdict.report;
    if all.regions == 0 {
        return writeln!(out, "  {how:<17} nowhere by more than {}", distance(report.edge_tolerance));
    }
    let size = (report.pixel_area * all.pixels as f64).get::<square_millimeter>();
    let count = all.regions;
    writeln!(
        out,
        "  {how:<17} {count} {}, {size:.4} mm2 by more than {}{}",
        if count == 1 { "place" } else { "places" },
        distance(report.edge_tolerance),
        if count as usize > AREAS_TOLD { "; the largest:" } else { ":" }
    )?;
    let pitch = marked.preflight.artwork.pitch;
    for area in areas.iter().take(AREAS_TOLD) {
        let extent = area.extent;
        writeln!(
            out,
            "    {} x {} at {}, {} deep",
            mm(pitch.x * f64::from(extent.right - extent.left + 1), 2),
            mm(pitch.y * f64::from(extent.bottom - extent.top + 1), 2),
            place(area.worst),
            distance(area.depth)
        )?;
    }
    Ok(())
}

/// Where pieces and counters changed.
fn changes(out: &mut String, marked: &Marked<'_>) -> fmt::Result {
    let artwork = &marked.preflight.artwork;
    for kind in ChangeKind::ALL {
        let count = marked.verdict.report.topology.changes_of(kind) as usize;
        if count == 0 || !is_told(kind) {
            continue;
        }
        let places: Vec<String> = marked
            .verdict
            .changes_of(kind)
            .take(AREAS_TOLD)
            .map(|change| {
                let middle = |least: u32, greatest: u32| 0.5 * f64::from(least + greatest + 1);
                let x = artwork.corner.x + artwork.pitch.x * middle(change.extent.left, change.extent.right);
                let y = artwork.corner.y + artwork.pitch.y * middle(change.extent.top, change.extent.bottom);
                format!("({}, {})", mm(x, 1), mm(y, 1))
            })
            .collect();
        let more = if count > AREAS_TOLD { ", ..." } else { "" };
        writeln!(out, "  {:<17} around {}{more}", name(kind), places.join(", "))?;
    }
    Ok(())
}

/// What became of a piece or a counter.
pub fn name(kind: ChangeKind) -> &'static str {
    match kind {
        ChangeKind::ComponentLost => "piece lost",
        ChangeKind::ComponentSplit => "piece split",
        ChangeKind::ComponentsMerged => "pieces touch",
        ChangeKind::ComponentNew => "new piece",
        ChangeKind::HoleClosed => "counter filled",
        ChangeKind::HoleOpened => "counter opened",
        ChangeKind::HoleSplit => "counter parted",
        ChangeKind::HolesMerged => "counters joined",
        ChangeKind::HoleNew => "new counter",
        _ => "other change",
    }
}

fn help(check: &MarkCheck<'_>) -> Result<String, fmt::Error> {
    let mut out = String::new();
    let what = match check.drawing.demand {
        Demand::Apart => "strokes whole, counters open, neighbours apart",
        _ => "strokes whole, counters open",
    };
    writeln!(out, "\nWhat would help, for {what}")?;
    let best = &check.at_best_focus;
    writeln!(
        out,
        "  focus             {} the datum: {}",
        offset(best.preflight.drawn_on.focus, "on"),
        verdict(&best.verdict)
    )?;
    writeln!(out, "                    dose: {}", doses(&best.verdict.window))?;
    match check.reach {
        Some(reach) => {
            let far = |reach: Length, is_open: bool| {
                let more = if is_open { " or more" } else { "" };
                format!("{}{more}", distance(reach))
            };
            writeln!(
                out,
                "                    from there it may stray by {} toward the lens and {} away from it",
                far(reach.toward_lens, reach.toward_lens_is_open),
                far(reach.away_from_lens, reach.away_from_lens_is_open)
            )?;
        }
        None => writeln!(out, "                    the drawing does not hold there at this dose")?,
    }
    match check.smallest_scale {
        Some(scale) if scale > 1.0 => {
            writeln!(out, "  larger            {} of its size holds as the job is set", percent(scale))?;
        }
        Some(scale) => writeln!(
            out,
            "  smaller           down to {} of its size holds as the job is set",
            percent(scale)
        )?,
        None => writeln!(
            out,
            "  larger            of the sizes tried, up to four times its own, none holds as the job is set"
        )?,
    }
    for (number, lens) in check.lenses.iter().enumerate() {
        let spot = lens.ranked.greatest_spot.map_or_else(|| "-".to_owned(), um);
        writeln!(
            out,
            "  {}. lens {:<10} spot up to {spot} with best focus; dose: {}",
            number + 1,
            mm(lens.focal_length, 1),
            doses(&lens.ranked.window)
        )?;
    }
    Ok(out)
}
