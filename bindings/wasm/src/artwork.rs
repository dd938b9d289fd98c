//! The preflight of a drawing: the mark that will come out, and what is lost of it.
//!
//! What is found is longer than the outputs. It waits in the module's memory until the functions `preflight_…` hand
//! it over, each thing once; the next preflight forgets what nobody took.

use crate::artwork_job::{
    JOB, Lists, Progress, bytes, bytes_of_words, first, job, mask, mask_words, room, watched, whole,
};
use crate::exchange::{answer, flags};
use spotwise::artwork::{
    Change, DoseWindow, Drawing, InkSpots, Judgement, MarkReasons, PreflightOutput, PreflightPlan, Region,
    Report, judge,
};
use spotwise::model::mark::TextGrades;
use spotwise::{Error, Param};
use std::cell::RefCell;
use std::mem::take;
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers behind those of a preflight: room for regions and for changes, whether the exposure is kept, whether the
/// dose window is looked for, and the three limits of the grades.
const OPTIONS: usize = 7;
/// Numbers of a report.
const REPORT: usize = 58;
/// Numbers of a report, its dose window and its judgement.
const ALL: usize = REPORT + 7;

/// What waits to be taken.
#[derive(Default)]
struct Found {
    width: usize,
    exposure: Vec<u16>,
    /// Mark, lost, filled, unknown.
    masks: [Vec<u64>; 4],
    /// Lost and filled, eleven numbers for each.
    regions: [Vec<f64>; 2],
    /// Six numbers for each.
    changes: Vec<f64>,
}

thread_local! {
    static FOUND: RefCell<Found> = RefCell::default();
}

struct Options {
    regions: usize,
    changes: usize,
    keeps_exposure: bool,
    /// None: no dose window is looked for.
    grades: Option<TextGrades>,
}

fn options(numbers: &[f64], drawing: &Drawing<'_>) -> Result<Options, Error> {
    let numbers = numbers.get(JOB..).unwrap_or(&[]);
    let [regions, changes, exposure, window, crisp_exposure, good_window, readable_window] =
        first::<OPTIONS>(numbers);
    // No drawing has more findings than pixels, those of the ground around it included.
    let most = (drawing.width + 2) * (drawing.height + 2);
    let grades = TextGrades { crisp_exposure, good_window, readable_window };
    Ok(Options {
        regions: whole(Param::Findings, regions)?.min(most),
        changes: whole(Param::Findings, changes)?.min(most),
        keeps_exposure: exposure != 0.0,
        // Before the work, which would be for nothing.
        grades: if window == 0.0 { None } else { Some(grades.checked()?) },
    })
}

/// As [`PreflightPlan::run`], and [`PreflightPlan::dose_window`] and [`judge`] where they are wanted. The numbers are
/// those of the drawing (width, height, row stride, pitches, left, top, kind of samples, use), the beam, the height of
/// its waist, the surface as `surface_at` takes it but for the lists, whether incidence counts, the blurs along and
/// across, the scan (code, interval, first line), the answer (code, penetration depth, threshold depth, visible depth,
/// bridge), dose ratio, tolerance, whether the usual tolerance is meant instead; then the options.
#[wasm_bindgen]
pub fn preflight(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    progress: Option<Progress>,
) -> u32 {
    FOUND.take();
    let lists = Lists { samples, x, y, z };
    answer(watched(progress.as_ref(), |watch| {
        let preflight = job(lists, numbers)?;
        let drawing = &preflight.drawing;
        // Before any number of the drawing is made use of.
        drawing.checked()?;
        let options = options(numbers, drawing)?;
        let shares = if options.grades.is_some() { [0.02, 0.3] } else { [0.05, 1.0] };
        let [planned, marked] = shares;
        let plan = PreflightPlan::new(&preflight, &mut watch.part(0.0, planned))?;

        let mut words = room(plan.words(1), 0)?;
        let mut exposure = room(drawing.width * drawing.height, 0)?;
        let mut masks =
            [room(mask_words(drawing), 0)?, room(mask_words(drawing), 0)?, room(mask_words(drawing), 0)?];
        let mut regions =
            [room(options.regions, Region::default())?, room(options.regions, Region::default())?];
        let mut changes = room(options.changes, Change::NONE)?;
        let [mark, lost, filled] = &mut masks;
        let [lost_regions, filled_regions] = &mut regions;
        let mut output = PreflightOutput {
            exposure: &mut exposure,
            mark: mask(mark, drawing)?,
            lost: mask(lost, drawing)?,
            filled: mask(filled, drawing)?,
            lost_regions,
            filled_regions,
            changes: &mut changes,
        };
        let report = plan.run(&mut output, &mut words, &mut watch.part(planned, marked))?;
        let window = match options.grades {
            None => None,
            Some(grades) => {
                let window = plan.dose_window(&exposure, &mut words, &mut watch.part(marked, 1.0))?;
                Some((window, judge(&report, &window, &grades)?))
            }
        };
        drop(words);

        let mut unknown = Vec::new();
        if report.spots.unknown_pixels > 0 {
            unknown = room(mask_words(drawing), 0)?;
            plan.exposure().unknown(&mut mask(&mut unknown, drawing)?, &mut watch.part(1.0, 1.0))?;
        }
        let totals = [report.lost.regions, report.filled.regions];
        for (regions, total) in regions.iter_mut().zip(totals) {
            regions.truncate(total as usize);
        }
        changes.truncate(report.topology.changes() as usize);
        if !options.keeps_exposure {
            exposure = Vec::new();
        }
        let [mark, lost, filled] = masks;
        FOUND.replace(Found {
            width: drawing.width,
            exposure,
            masks: [mark, lost, filled, unknown],
            regions: regions.map(|regions| regions.iter().flat_map(|found| region(found, drawing)).collect()),
            changes: changes.iter().flat_map(change).collect(),
        });
        Ok(layout(&report, window))
    }))
}

/// Bytes that [`preflight()`] takes of the module's memory, its inputs included and what it hands over not.
#[wasm_bindgen]
pub fn preflight_bytes(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    progress: Option<Progress>,
) -> u32 {
    let lists = Lists { samples, x, y, z };
    answer(watched(progress.as_ref(), |watch| {
        let preflight = job(lists, numbers)?;
        let drawing = &preflight.drawing;
        drawing.checked()?;
        let options = options(numbers, drawing)?;
        let plan = PreflightPlan::new(&preflight, watch)?;
        let findings = 2 * options.regions * size_of::<Region<f64>>() + options.changes * size_of::<Change>();
        let words = plan.words(1) + 4 * mask_words(drawing);
        Ok([inputs_and_exposure(lists, drawing) + bytes_of_words(words) + findings as f64])
    }))
}

/// Bytes of the inputs and of an exposure.
pub(crate) fn inputs_and_exposure(lists: Lists<'_>, drawing: &Drawing<'_>) -> f64 {
    let numbers = lists.x.len() + lists.y.len() + lists.z.len();
    let pixels = drawing.width as f64 * drawing.height as f64;
    lists.samples.len() as f64 + bytes_of_words(numbers) + pixels * size_of::<u16>() as f64
}

/// Hands over the exposure; empty if it was not kept.
#[wasm_bindgen]
#[must_use]
pub fn preflight_exposure() -> Vec<u16> {
    FOUND.with_borrow_mut(|found| take(&mut found.exposure))
}

/// Hands over a mask, 0 or 1 for each pixel: 0 the mark, 1 what is lost, 2 what is filled, 3 where no height is known,
/// which is empty if it is known everywhere.
#[wasm_bindgen]
#[must_use]
pub fn preflight_mask(which: usize) -> Vec<u8> {
    let (words, width) = FOUND
        .with_borrow_mut(|found| (found.masks.get_mut(which).map(take).unwrap_or_default(), found.width));
    bytes(&words, width)
}

/// Hands over the regions of what is lost (0) or filled (1), eleven numbers for each.
#[wasm_bindgen]
#[must_use]
pub fn preflight_regions(which: usize) -> Vec<f64> {
    FOUND.with_borrow_mut(|found| found.regions.get_mut(which).map(take).unwrap_or_default())
}

/// Hands over what changed, six numbers for each.
#[wasm_bindgen]
#[must_use]
pub fn preflight_changes() -> Vec<f64> {
    FOUND.with_borrow_mut(|found| take(&mut found.changes))
}

/// The words of a reason by its bit; none for what is no reason.
#[wasm_bindgen]
#[must_use]
pub fn mark_reason_text(bit: u32) -> String {
    let reason = MarkReasons::ALL.into_iter().find(|(reason, _)| reason.bits() == bit);
    reason.map_or_else(String::new, |(_, text)| text.to_owned())
}

fn region(region: &Region<f64>, drawing: &Drawing<'_>) -> [f64; 11] {
    let Region { pixels, extent, worst_x, worst_y, depth } = *region;
    let (x, y) = drawing.place(worst_x as usize, worst_y as usize);
    let [left, top, right, bottom] = [extent.left, extent.top, extent.right, extent.bottom].map(f64::from);
    let size = f64::from(pixels) * drawing.pixel_area();
    [f64::from(pixels), size, left, top, right, bottom, f64::from(worst_x), f64::from(worst_y), depth, x, y]
}

fn change(change: &Change) -> [f64; 6] {
    let extent = change.extent;
    [change.kind.code(), change.pixels, extent.left, extent.top, extent.right, extent.bottom].map(f64::from)
}

/// Nine numbers of the spots over the ink.
pub(crate) fn spots(s: &InkSpots) -> [f64; 9] {
    [
        s.ink_pixels as f64,
        s.unknown_pixels as f64,
        s.unknown_ink_pixels as f64,
        s.least_diameter,
        s.least_x,
        s.least_y,
        s.greatest_diameter,
        s.greatest_x,
        s.greatest_y,
    ]
}

fn layout(report: &Report, window: Option<(DoseWindow, Judgement)>) -> [f64; ALL] {
    let r = report;
    let t = &r.topology;
    let areas = [
        r.ink_pixels as f64,
        r.mark_pixels as f64,
        r.missing_pixels as f64,
        r.extra_pixels as f64,
        r.pixel_area,
        r.edge_tolerance,
        f64::from(r.lost.regions),
        r.lost.pixels as f64,
        f64::from(r.filled.regions),
        r.filled.pixels as f64,
    ];
    let topology = [
        t.components_drawing,
        t.components_mark,
        t.components_lost,
        t.components_split,
        t.components_merged,
        t.components_new,
        t.holes_drawing,
        t.holes_mark,
        t.holes_closed,
        t.holes_opened,
        t.holes_split,
        t.holes_merged,
        t.holes_new,
        r.components_starved,
    ]
    .map(f64::from);
    let widths = [
        t.euler_drawing() as f64,
        t.euler_mark() as f64,
        f64::from(r.stroke_centres.pixels),
        f64::from(r.stroke_centres.kept),
        r.stroke_centres.lost_share(),
        f64::from(r.gap_centres.pixels),
        f64::from(r.gap_centres.kept),
        r.gap_centres.lost_share(),
        r.smallest_stroke_kept,
        r.largest_stroke_lost,
        r.smallest_gap_kept,
        r.largest_gap_lost,
        r.typical_stroke_exposure,
    ];
    let rest = [
        r.pixels_per_radius,
        r.expected_error,
        f64::from(u8::from(r.too_few_pixels)),
        r.cone.half_angle,
        flags(r.cone.validity),
        f64::from(u8::from(r.is_broken())),
        f64::from(u8::from(r.holds())),
        f64::from(t.changes()),
        f64::from(t.components_ignored_drawing),
        f64::from(t.components_ignored_mark),
        f64::from(t.holes_ignored_drawing),
        f64::from(t.holes_ignored_mark),
    ];
    let dose = window.map_or([f64::NAN; ALL - REPORT], |(w, judgement)| {
        [
            w.least_dose_ratio,
            w.greatest_dose_ratio,
            w.greatest_dose_ratio_for_counters,
            w.ratio(),
            w.ratio_for_counters(),
            f64::from(judgement.grade as u32),
            f64::from(judgement.reasons.bits()),
        ]
    });
    let spots = spots(&r.spots);
    let parts: [&[f64]; 6] = [&areas, &topology, &widths, &spots, &rest, &dose];
    let mut all = [f64::NAN; ALL];
    for (output, value) in all.iter_mut().zip(parts.into_iter().flatten()) {
        *output = *value;
    }
    all
}
