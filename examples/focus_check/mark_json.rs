//! The preflight of the drawing as a document: lengths as text with their unit, doses over the dose that just marks.
//!
//! `as_set` and `at_best_focus` hold the same fields, also of each of the `details`. A dose window's `least` is null if no dose keeps the strokes, a
//! `greatest` is null if none is too high; a width is null if there is none such. A place is a box in x and y on the
//! part. `at_once` is what distances alone say, and how many pieces and counters are surely lost. `smallest_scale` and `focus_reach` are null if the drawing does not hold.

use crate::mark_check::{LensTried, MarkCheck, Marked};
use crate::mark_report;
use serde_json::{Value, json};
use spotwise::artwork::{ChangeKind, Demand, DoseWindow, PixelBox, RegionTotals};
use spotwise::text::LengthText;
use spotwise::uom::si::area::square_millimeter;
use spotwise::uom::si::f64::Length;
use spotwise::{Area, Artwork, BeamWidth, QuickAnswer, TablePlace};

pub fn document(check: &MarkCheck<'_>) -> Value {
    let drawing = check.drawing;
    let [x, y] = drawing.ends();
    json!({
        "drawing": {
            "picture": drawing.name,
            "columns": drawing.width,
            "rows": drawing.height,
            "pitch": length(drawing.pitch),
            "x": [length(x.0), length(x.1)],
            "y": [length(y.0), length(y.1)],
        },
        "demand": match drawing.demand {
            Demand::Apart => "apart",
            _ => "legible",
        },
        "at_once": at_once(&check.at_once),
        "as_set": marked(&check.as_set),
        "at_best_focus": marked(&check.at_best_focus),
        "focus_reach": check.reach.map(|reach| json!({
            "toward_lens": length(reach.toward_lens),
            "away_from_lens": length(reach.away_from_lens),
            "toward_lens_is_open": reach.toward_lens_is_open,
            "away_from_lens_is_open": reach.away_from_lens_is_open,
        })),
        "smallest_scale": check.smallest_scale,
        "details": check.details.iter().map(|detail| json!({
            "name": detail.detail.name,
            "as_set": marked(&detail.as_set),
            "at_best_focus": marked(&detail.at_best_focus),
        })).collect::<Vec<_>>(),
        "lenses": check.lenses.iter().map(lens).collect::<Vec<_>>(),
    })
}

fn at_once(found: &QuickAnswer) -> Value {
    let counts = &found.counts;
    json!({
        "verdict": found.verdict.name(),
        "pieces_lost": counts.components_lost,
        "pieces_merged": counts.components_merged,
        "counters_closed": counts.holes_closed,
        "counters_opened": counts.holes_opened,
    })
}

fn marked(marked: &Marked<'_>) -> Value {
    let verdict = &marked.verdict;
    let report = &verdict.report;
    let found = &report.topology;
    let artwork = &marked.preflight.artwork;
    json!({
        "focus_from_datum": marked.preflight.drawn_on.focus,
        "grade": verdict.judgement.grade.name(),
        "reasons": verdict.judgement.reasons.texts().collect::<Vec<_>>(),
        "dose_ratio": marked.preflight.dose_ratio,
        "dose_window": window(&verdict.window),
        "pixels": {
            "ink": report.ink_pixels,
            "mark": report.mark_pixels,
            "missing": report.missing_pixels,
            "extra": report.extra_pixels,
            "ink_of_unknown_height": report.unknown_ink_pixels,
            "per_spot_radius": report.pixels_per_radius,
            "too_few": report.too_few_pixels,
            "expected_error": report.expected_error,
        },
        "pieces": {
            "drawn": found.components_drawing,
            "marked": found.components_mark,
            "lost": found.components_lost,
            "split": found.components_split,
            "starved": report.components_starved,
            "merged": found.components_merged,
            "new": found.components_new,
            "ignored": { "drawn": found.components_ignored_drawing, "marked": found.components_ignored_mark },
        },
        "counters": {
            "drawn": found.holes_drawing,
            "marked": found.holes_mark,
            "closed": found.holes_closed,
            "opened": found.holes_opened,
            "split": found.holes_split,
            "merged": found.holes_merged,
            "new": found.holes_new,
            "ignored": { "drawn": found.holes_ignored_drawing, "marked": found.holes_ignored_mark },
        },
        "strokes": {
            "length_lost": report.stroke_centres.lost_share(),
            "smallest_kept": report.smallest_stroke_kept.map(length),
            "largest_lost": report.largest_stroke_lost.map(length),
        },
        "gaps": {
            "length_filled": report.gap_centres.lost_share(),
            "smallest_kept": report.smallest_gap_kept.map(length),
            "largest_filled": report.largest_gap_lost.map(length),
        },
        "least_spot": report.least_spot.map(spot),
        "greatest_spot": report.greatest_spot.map(spot),
        "edge_tolerance": length(report.edge_tolerance),
        "lost": areas(artwork, report.lost, &verdict.lost_areas, report.pixel_area),
        "filled": areas(artwork, report.filled, &verdict.filled_areas, report.pixel_area),
        "changes": ChangeKind::ALL.into_iter().flat_map(|kind| verdict.changes_of(kind)).map(|change| json!({
            "what": mark_report::name(change.kind),
            "pixels": change.pixels,
            "box": extent(artwork, &change.extent),
        })).collect::<Vec<_>>(),
    })
}

fn window(window: &DoseWindow) -> Value {
    json!({
        "least": window.least_dose_ratio,
        "greatest": window.greatest_dose_ratio,
        "greatest_for_counters": window.greatest_dose_ratio_for_counters,
    })
}

fn areas(
    artwork: &Artwork<'_>,
    totals: RegionTotals,
    areas: &[Area],
    pixel: spotwise::uom::si::f64::Area,
) -> Value {
    json!({
        "places": totals.regions,
        "pixels": totals.pixels,
        "area_mm2": (pixel * totals.pixels as f64).get::<square_millimeter>(),
        "listed": areas.iter().map(|area| json!({
            "pixels": area.pixels,
            "box": extent(artwork, &area.extent),
            "worst": place(area.worst),
            "depth": length(area.depth),
        })).collect::<Vec<_>>(),
    })
}

fn lens(lens: &LensTried) -> Value {
    json!({
        "candidate": lens.ranked.candidate,
        "focal_length": length(lens.focal_length),
        "dose_window": window(&lens.ranked.window),
        "greatest_spot": lens.ranked.greatest_spot.map(|spot| length(spot.diameter_1e2())),
    })
}

fn extent(artwork: &Artwork<'_>, extent: &PixelBox) -> Value {
    let x = |column: u32| length(artwork.corner.x + artwork.pitch.x * f64::from(column));
    let y = |row: u32| length(artwork.corner.y + artwork.pitch.y * f64::from(row));
    json!({ "x": [x(extent.left), x(extent.right + 1)], "y": [y(extent.top), y(extent.bottom + 1)] })
}

fn spot((width, at): (BeamWidth, TablePlace)) -> Value {
    json!({ "diameter_1e2": length(width.diameter_1e2()), "at": place(at) })
}

fn place(at: TablePlace) -> Value {
    json!({ "x": length(at.x), "y": length(at.y) })
}

fn length(length: Length) -> String {
    LengthText(length.value).to_string()
}
