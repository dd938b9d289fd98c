//! Rust's answers to a set of jobs, written down for other faces, which must give the same bits.
//!
//! `cargo xtask wasm test` asks for them. The cases are among the jobs, and others with everything that a job can hold:
//! unequal pitches, gaps between rows of samples, lines at any phase, tilt, a grid with missing probes, every answer.

use crate::cases::{Case, all};
use crate::exposure::{drawing, exposing};
use serde_json::{Map, Value, json};
use spotwise::artwork::{
    Answer, BeamCandidate, Bitmap, BitmapMut, BoundInput, Change, Demand, Drawing, DrawingUse, Exposing,
    FillRule, Font, Frame, InkPath, Inking, LetterSize, PictureLayers, PictureView, PixelBox, Preflight,
    PreflightOutput, PreflightPlan, RankedBeam, Region, Report, SampleKind, Scan, Sheet, Stroke, StrokeCap,
    StrokeJoin, TrialRoom, Watch, best_focus_z, depth_map, draw_box, draw_picture, focus_reach,
    focus_reach_words, judge, quick_answer, quick_answer_words, quick_bound, quick_bound_words, rank_beams,
    rank_beams_words, smallest_scale, smallest_scale_words, usual_edge_tolerance, words_in_row,
};
use spotwise::model::mark::TextGrades;
use spotwise::model::optics::Beam;
use spotwise::model::surface::{Bulge, Surface};
use std::path::PathBuf;

const MASKS: [&str; 4] = ["mark", "lost", "filled", "unknown"];
const SAMPLE_KINDS: [&str; 2] = ["bilevel", "coverage"];
const USES: [&str; 2] = ["shapes", "burnt raster"];
const BULGES: [&str; 2] = ["toward lens", "away from lens"];
const CHANGES: [&str; 9] = [
    "component lost",
    "component split",
    "components merged",
    "component new",
    "hole closed",
    "hole opened",
    "hole split",
    "holes merged",
    "hole new",
];

/// A name by its code, which counts from 1.
fn name<const N: usize>(names: [&'static str; N], code: u32) -> &'static str {
    names[code as usize - 1]
}

/// A number, also one that JSON has not. NaN stands for what is not there.
fn number(value: f64) -> Value {
    match value {
        _ if value.is_nan() => Value::Null,
        f64::INFINITY => json!("Infinity"),
        f64::NEG_INFINITY => json!("-Infinity"),
        _ => json!(value),
    }
}

/// A list that may hold NaN, as an array of doubles.
fn list(values: &[f64]) -> Value {
    let value = |value: &f64| if value.is_nan() { json!("NaN") } else { number(*value) };
    json!({ "float64": values.iter().map(value).collect::<Vec<_>>() })
}

/// Everything in bytes, one thing after the other; JSON tells where each lies.
#[derive(Default)]
struct Blob(Vec<u8>);

impl Blob {
    fn add(&mut self, bytes: &[u8]) -> Value {
        // Each begins where a double may lie.
        self.0.resize(self.0.len().next_multiple_of(8), 0);
        let from = self.0.len();
        self.0.extend_from_slice(bytes);
        json!({ "from": from, "to": self.0.len() })
    }

    fn add_mask(&mut self, mask: Bitmap<'_>) -> Value {
        let pixel = |(x, y)| u8::from(mask.get(x, y));
        let places = (0..mask.height()).flat_map(|y| (0..mask.width()).map(move |x| (x, y)));
        self.add(&places.map(pixel).collect::<Vec<_>>())
    }
}

fn place(x: f64, y: f64) -> Value {
    json!({ "x": number(x), "y": number(y) })
}

fn width(diameter: f64) -> Value {
    json!({ "diameter1e2": number(diameter) })
}

fn offset(z: f64) -> Value {
    json!({ "zAwayFromLens": number(z) })
}

fn beam(beam: &Beam) -> Value {
    json!({ "wavelength": beam.wavelength, "m2": beam.m2, "waist": width(beam.waist_diameter) })
}

fn slope(x: f64, y: f64) -> Value {
    json!({ "awayFromLensAlongX": x, "awayFromLensAlongY": y })
}

fn surface(surface: &Surface<'_>) -> Value {
    match *surface {
        Surface::Plane { slope_x, slope_y } => json!({ "kind": "plane", "slope": slope(slope_x, slope_y) }),
        Surface::Cylinder { radius, bulge, crown_x, crown_y, axis_angle, slope_x, slope_y } => json!({
            "kind": "cylinder", "bulge": name(BULGES, bulge.code()), "crown": place(crown_x, crown_y),
            "axisAngle": axis_angle, "lean": slope(slope_x, slope_y), "radius": radius,
        }),
        Surface::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y } => json!({
            "kind": "sphere", "bulge": name(BULGES, bulge.code()), "crown": place(crown_x, crown_y),
            "lean": slope(slope_x, slope_y), "radius": radius,
        }),
        Surface::Steps { edges, z } => json!({
            "kind": "steps", "edgesInMetres": list(edges), "heightsAwayFromLensInMetres": list(z),
        }),
        Surface::Grid { x, y, z } => json!({
            "kind": "grid", "columnsInMetres": list(x), "rowsInMetres": list(y),
            "heightsAwayFromLensInMetres": list(z),
        }),
        _ => panic!("a shape that is not told"),
    }
}

fn drawing_job(drawing: &Drawing<'_>, blob: &mut Blob) -> Value {
    json!({
        "samples": blob.add(drawing.samples), "width": drawing.width, "height": drawing.height,
        "rowStride": drawing.row_stride, "pitchX": drawing.pitch_x, "pitchY": drawing.pitch_y,
        "left": drawing.left_x, "top": drawing.top_y, "kind": name(SAMPLE_KINDS, drawing.kind.code()),
        "use": name(USES, drawing.drawing_use.code()),
    })
}

fn job(preflight: &Preflight<'_>, blob: &mut Blob) -> Value {
    let Preflight { drawing, exposing, answer, dose_ratio, edge_tolerance, speck_area } = preflight;
    let scan = match exposing.scan {
        Scan::Unknown => json!({ "kind": "unknown" }),
        Scan::AlongRows { line_interval, first_line } => {
            json!({ "kind": "along rows", "lineInterval": line_interval, "firstLine": first_line })
        }
        _ => panic!("a scan that is not told"),
    };
    let answer = match *answer {
        Answer::Coating => json!({ "kind": "coating" }),
        Answer::LogarithmicBulk { penetration_depth, visible_depth } => json!({
            "kind": "logarithmic ablation", "penetrationDepth": penetration_depth, "visibleDepth": visible_depth,
        }),
        Answer::LinearBulk { threshold_depth, visible_depth } => json!({
            "kind": "linear ablation", "thresholdDepth": threshold_depth, "visibleDepth": visible_depth,
        }),
        Answer::Melt { bridge } => json!({ "kind": "melt", "bridge": bridge }),
        _ => panic!("an answer that is not told"),
    };
    json!({
        "drawing": drawing_job(drawing, blob), "beam": beam(&exposing.beam), "focus": offset(exposing.focus_z),
        "surface": surface(&exposing.surface), "incidenceLoss": exposing.incidence_loss,
        "blur": { "along": width(exposing.blur_along), "across": width(exposing.blur_across) },
        "scan": scan, "answer": answer, "doseRatio": dose_ratio, "edgeTolerance": edge_tolerance,
        "speckArea": speck_area,
    })
}

fn report(r: &Report) -> Value {
    let t = &r.topology;
    let centres = |share: spotwise::artwork::CentreShare| json!({ "pixels": share.pixels, "kept": share.kept, "lostShare": share.lost_share() });
    let spot = |diameter: f64, x, y| {
        if diameter.is_nan() { Value::Null } else { json!({ "spot": width(diameter), "at": place(x, y) }) }
    };
    let s = &r.spots;
    json!({
        "inkPixels": r.ink_pixels, "markPixels": r.mark_pixels, "missingPixels": r.missing_pixels,
        "extraPixels": r.extra_pixels, "pixelArea": r.pixel_area, "edgeTolerance": r.edge_tolerance,
        "lost": { "regions": r.lost.regions, "pixels": r.lost.pixels },
        "filled": { "regions": r.filled.regions, "pixels": r.filled.pixels },
        "topology": {
            "componentsDrawing": t.components_drawing, "componentsMark": t.components_mark,
            "componentsLost": t.components_lost, "componentsSplit": t.components_split,
            "componentsMerged": t.components_merged, "componentsNew": t.components_new,
            "holesDrawing": t.holes_drawing, "holesMark": t.holes_mark, "holesClosed": t.holes_closed,
            "holesOpened": t.holes_opened, "holesSplit": t.holes_split, "holesMerged": t.holes_merged,
            "holesNew": t.holes_new, "eulerDrawing": t.euler_drawing(), "eulerMark": t.euler_mark(),
            "changes": t.changes(), "componentsIgnoredDrawing": t.components_ignored_drawing,
            "componentsIgnoredMark": t.components_ignored_mark,
            "holesIgnoredDrawing": t.holes_ignored_drawing, "holesIgnoredMark": t.holes_ignored_mark,
        },
        "componentsStarved": r.components_starved,
        "strokeCentres": centres(r.stroke_centres), "gapCentres": centres(r.gap_centres),
        "smallestStrokeKept": number(r.smallest_stroke_kept), "largestStrokeLost": number(r.largest_stroke_lost),
        "smallestGapKept": number(r.smallest_gap_kept), "largestGapLost": number(r.largest_gap_lost),
        "typicalStrokeExposure": number(r.typical_stroke_exposure),
        "spots": {
            "inkPixels": s.ink_pixels, "unknownPixels": s.unknown_pixels, "unknownInkPixels": s.unknown_ink_pixels,
            "least": spot(s.least_diameter, s.least_x, s.least_y),
            "greatest": spot(s.greatest_diameter, s.greatest_x, s.greatest_y),
        },
        "pixelsPerRadius": r.pixels_per_radius, "expectedError": r.expected_error,
        "tooFewPixels": r.too_few_pixels, "halfAngle": r.cone.half_angle, "isBroken": r.is_broken(),
        "holds": r.holds(),
    })
}

fn window(w: &spotwise::artwork::DoseWindow) -> Value {
    json!({
        "leastDoseRatio": number(w.least_dose_ratio), "greatestDoseRatio": number(w.greatest_dose_ratio),
        "greatestDoseRatioForCounters": number(w.greatest_dose_ratio_for_counters),
        "ratio": number(w.ratio()), "ratioForCounters": number(w.ratio_for_counters()),
    })
}

fn extent(extent: &PixelBox) -> Value {
    json!({ "left": extent.left, "top": extent.top, "right": extent.right, "bottom": extent.bottom })
}

fn area(region: &Region<f64>, drawing: &Drawing<'_>) -> Value {
    let (x, y) = drawing.place(region.worst_x as usize, region.worst_y as usize);
    json!({
        "pixels": region.pixels, "size": f64::from(region.pixels) * drawing.pixel_area(),
        "box": extent(&region.extent),
        "worst": { "column": region.worst_x, "row": region.worst_y, "at": place(x, y) },
        "depth": region.depth,
    })
}

fn change(change: &Change) -> Value {
    json!({
        "kind": name(CHANGES, change.kind.code()), "pixels": change.pixels, "box": extent(&change.extent),
    })
}

/// Everything that a preflight gives, and its picture with the first boxes.
fn answers(preflight: &Preflight<'_>, blob: &mut Blob) -> Map<String, Value> {
    let watch = &mut Watch::quiet();
    let plan = PreflightPlan::new(preflight, watch).unwrap();
    let drawing = &preflight.drawing;
    let (width, height) = (drawing.width, drawing.height);
    let mut room = vec![u64::MAX; plan.words(1)];
    let mut exposure = vec![7; width * height];
    let mut masks = vec![vec![0; words_in_row(width) * height]; 7];
    let mut regions = [vec![Region::default(); 100], vec![Region::default(); 100]];
    let mut changes = vec![Change::NONE; 100];
    let [mark, lost, filled, unknown, ink, solid, touched] =
        masks.get_disjoint_mut([0, 1, 2, 3, 4, 5, 6]).unwrap();
    let mask = |words| BitmapMut::new(words, width, height).unwrap();
    let [lost_regions, filled_regions] = &mut regions;
    let mut output = PreflightOutput {
        exposure: &mut exposure,
        mark: mask(mark),
        lost: mask(lost),
        filled: mask(filled),
        lost_regions,
        filled_regions,
        changes: &mut changes,
    };
    let found = plan.run(&mut output, &mut room, watch).unwrap();
    let dose = plan.dose_window(&exposure, &mut room, watch).unwrap();
    let judgement = judge(&found, &dose, &TextGrades::default()).unwrap();
    plan.exposure().unknown(&mut mask(unknown), watch).unwrap();
    let (mut ink, mut solid, mut touched) = (mask(ink), mask(solid), mask(touched));
    drawing.ink_masks(Some(&mut ink), Some(&mut solid), Some(&mut touched)).unwrap();
    leave_found(&mut regions, &found);
    changes.truncate(found.topology.changes() as usize);

    let view = |place: usize| Bitmap::new(&masks[place], width, height).unwrap();
    let is_known = found.spots.unknown_pixels == 0;
    let unknown = if is_known { None } else { Some(view(3)) };
    let layers = PictureLayers { ink: view(4), mark: view(0), lost: view(1), filled: view(2), unknown };
    let shown = PictureView { left: 3, top: 2, width: width.min(90), height: height.min(70), zoom: 2 };
    let mut rgba = vec![0; shown.bytes().unwrap()];
    draw_picture(&layers, &shown, &mut rgba).unwrap();
    for region in &regions[0] {
        draw_box(&region.extent, &shown, &mut rgba).unwrap();
    }
    let mut depths = vec![0.0; exposure.len()];
    depth_map(&exposure, &preflight.answer, preflight.dose_ratio, &mut depths).unwrap();

    let mut all = Map::new();
    all.insert("report".into(), report(&found));
    all.insert("window".into(), window(&dose));
    let grade = judgement.grade.name();
    let reasons: Vec<_> = judgement.reasons.texts().collect();
    let told = json!({ "grade": grade, "reasonBits": judgement.reasons.bits(), "reasons": reasons });
    all.insert("judgement".into(), told);
    let areas = |regions: &[Region<f64>]| regions.iter().map(|one| area(one, drawing)).collect::<Vec<_>>();
    all.insert("lostRegions".into(), areas(&regions[0]).into());
    all.insert("filledRegions".into(), areas(&regions[1]).into());
    all.insert("changes".into(), changes.iter().map(change).collect());
    for (place, name) in MASKS.into_iter().enumerate() {
        let told = if place == 3 && is_known { Value::Null } else { blob.add_mask(view(place)) };
        all.insert(name.into(), told);
    }
    all.insert("exposure".into(), blob.add(little_endian(&exposure).as_slice()));
    let depths: Vec<u8> = depths.iter().flat_map(|depth: &f32| depth.to_le_bytes()).collect();
    all.insert("depths".into(), blob.add(&depths));
    let shown = json!({
        "left": shown.left, "top": shown.top, "width": shown.width, "height": shown.height, "zoom": shown.zoom,
    });
    all.insert("picture".into(), json!({ "view": shown, "rgba": blob.add(&rgba) }));
    all.insert("quick".into(), quick(preflight));
    all.insert("bound".into(), bound(drawing, [view(4), view(5), view(6)], preflight, blob));
    all
}

fn leave_found(regions: &mut [Vec<Region<f64>>; 2], found: &Report) {
    for (regions, total) in regions.iter_mut().zip([found.lost.regions, found.filled.regions]) {
        regions.truncate(total as usize);
    }
}

fn little_endian(values: &[u16]) -> Vec<u8> {
    values.iter().flat_map(|value| value.to_le_bytes()).collect()
}

fn bound(
    drawing: &Drawing<'_>,
    [ink, solid, touched]: [Bitmap<'_>; 3],
    preflight: &Preflight<'_>,
    blob: &mut Blob,
) -> Value {
    let greatest_spot_diameter = 1.3 * preflight.exposing.beam.waist_diameter;
    let input = BoundInput {
        ink,
        solid,
        touched,
        pitch_x: drawing.pitch_x,
        pitch_y: drawing.pitch_y,
        greatest_spot_diameter,
        least_dose_ratio: 1.9,
        greatest_dose_ratio: 2.3,
        line_interval: 0.1 * greatest_spot_diameter,
        least_spot_diameter: greatest_spot_diameter,
    };
    let words = words_in_row(drawing.width) * drawing.height;
    let (mut marked, mut clear) = (vec![0; words], vec![0; words]);
    let mut room = vec![0; quick_bound_words(&input, 1).unwrap()];
    let [mut marked, mut clear] =
        [&mut marked, &mut clear].map(|words| BitmapMut::new(words, drawing.width, drawing.height).unwrap());
    let found = quick_bound(&input, &mut marked, &mut clear, &mut room, &mut Watch::quiet()).unwrap();
    json!({
        "input": {
            "greatestSpot": width(greatest_spot_diameter), "leastDoseRatio": 1.9, "greatestDoseRatio": 2.3,
            "lines": { "lineInterval": input.line_interval, "leastSpot": width(greatest_spot_diameter) },
        },
        "found": {
            "marked": blob.add_mask(marked.view()), "clear": blob.add_mask(clear.view()),
            "markedPixels": found.marked, "clearPixels": found.clear, "undecidedPixels": found.undecided,
            "strokePixels": found.stroke_pixels, "doubtfulStrokes": found.doubtful_strokes,
            "gapPixels": found.gap_pixels, "doubtfulGaps": found.doubtful_gaps, "farInk": found.far_ink,
            "components": found.components, "componentsMaybeLost": found.components_maybe_lost,
            "componentsMaybeSplit": found.components_maybe_split,
            "componentsMaybeMerged": found.components_maybe_merged,
            "componentsMaybeStarved": found.components_maybe_starved,
            "holes": found.holes, "holesMaybeClosed": found.holes_maybe_closed,
            "holesMaybeOpened": found.holes_maybe_opened,
            "holds": found.holds(),
        },
    })
}

/// What would help, and the exact exposure: for small drawings.
fn quick(preflight: &Preflight<'_>) -> Value {
    let mut room = vec![0; quick_answer_words(preflight, 1, &mut Watch::quiet()).unwrap()];
    let found = quick_answer(preflight, &mut room, &mut Watch::quiet()).unwrap();
    let (counts, light) = (found.counts, found.light);
    let lines = json!({
        "lineInterval": number(light.line_interval), "leastSpot": width(light.least_spot_diameter),
    });
    json!({
        "verdict": found.verdict.name(),
        "components": counts.components, "componentsLost": counts.components_lost,
        "componentsMaybeLost": counts.components_maybe_lost,
        "componentsMaybeSplit": counts.components_maybe_split,
        "componentsMerged": counts.components_merged,
        "componentsMaybeMerged": counts.components_maybe_merged,
        "componentsMaybeStarved": counts.components_maybe_starved,
        "holes": counts.holes, "holesClosed": counts.holes_closed,
        "holesMaybeClosed": counts.holes_maybe_closed, "holesOpened": counts.holes_opened,
        "holesMaybeOpened": counts.holes_maybe_opened,
        "unknownInkPixels": counts.unknown_ink_pixels, "farInk": counts.far_ink,
        "light": {
            "greatestSpot": width(light.greatest_spot_diameter),
            "leastDoseRatio": number(light.least_dose_ratio),
            "greatestDoseRatio": number(light.greatest_dose_ratio),
            "lines": if light.line_interval > 0.0 { lines } else { Value::Null },
        },
    })
}

fn remedies(preflight: &Preflight<'_>, blob: &mut Blob) -> Value {
    let watch = &mut Watch::quiet();
    let pixels = preflight.drawing.width * preflight.drawing.height;
    let mut exposure = vec![0; pixels];
    let mut within = |words: usize, work: &mut dyn FnMut(&mut TrialRoom<'_>)| {
        work(&mut TrialRoom { exposure: &mut exposure, words: &mut vec![0; words] });
    };
    let (mut reach, mut scale) = (Value::Null, Value::Null);
    within(focus_reach_words(preflight, 1, watch).unwrap(), &mut |room| {
        let found = focus_reach(preflight, Demand::Legible, room, &mut Watch::quiet()).unwrap();
        if !found.toward_lens.is_nan() {
            reach = json!({
                "towardLens": found.toward_lens, "awayFromLens": found.away_from_lens,
                "towardLensIsOpen": found.toward_lens_is_open, "awayFromLensIsOpen": found.away_from_lens_is_open,
            });
        }
    });
    within(smallest_scale_words(preflight, 1, watch).unwrap(), &mut |room| {
        scale = number(smallest_scale(preflight, Demand::Apart, room, &mut Watch::quiet()).unwrap());
    });
    let own = preflight.exposing.beam;
    let wider = Beam { waist_diameter: 1.5 * own.waist_diameter, ..own };
    let finer = Beam { waist_diameter: 0.75 * own.waist_diameter, ..own };
    let candidates =
        [wider, finer, own].map(|beam| BeamCandidate { beam, focus_z: preflight.exposing.focus_z });
    let mut ranking = [RankedBeam::NONE; 3];
    within(rank_beams_words(preflight, &candidates, 1, watch).unwrap(), &mut |room| {
        rank_beams(preflight, &candidates, &mut ranking, room, &mut Watch::quiet()).unwrap();
    });
    let ranked = |ranked: &RankedBeam| {
        json!({
            "candidate": ranked.candidate, "window": window(&ranked.window),
            "greatestSpot": width(ranked.greatest_diameter),
        })
    };
    let plan = PreflightPlan::new(preflight, watch).unwrap();
    let mut exact = vec![0.0; pixels];
    plan.exposure().expose_exactly(&mut exact, &mut vec![0; plan.exposure().exact_words()], watch).unwrap();
    let exact: Vec<u8> = exact.iter().flat_map(|share: &f64| share.to_le_bytes()).collect();
    json!({
        "focusReach": reach, "smallestScale": scale, "bestFocus": offset(best_focus_z(preflight, watch).unwrap()),
        "beams": candidates.map(|one| json!({ "beam": beam(&one.beam), "focus": offset(one.focus_z) })),
        "ranking": ranking.iter().map(ranked).collect::<Vec<_>>(), "exact": blob.add(&exact),
    })
}

fn of_case(case: &Case) -> Preflight<'_> {
    Preflight {
        drawing: drawing(case),
        exposing: exposing(case),
        answer: Answer::Coating,
        dose_ratio: case.facts["q"].as_f64().unwrap(),
        edge_tolerance: case.facts["tolerance_mm"].as_f64().unwrap() * 1e-3,
        speck_area: 0.0,
    }
}

/// Rings and bars of several widths.
fn pattern(width: usize, height: usize, row_stride: usize, shades: bool) -> Vec<u8> {
    let mut samples = vec![200; row_stride * height];
    for (y, row) in samples.chunks_mut(row_stride).enumerate() {
        for (x, sample) in row.iter_mut().enumerate().take(width) {
            let (dx, dy) = (x % 60, y % 50);
            let square = dx.abs_diff(30).pow(2) + dy.abs_diff(25).pow(2);
            let ring = (100..260).contains(&square) || square < 9;
            let bar = (2..2 + y / 30).contains(&dx) && dy > 4;
            *sample = match (ring || bar, shades) {
                (false, _) => 0,
                (true, false) => 1 + (x % 250) as u8,
                (true, true) => {
                    if square % 7 == 3 {
                        140
                    } else {
                        255
                    }
                }
            };
        }
    }
    samples
}

const CO2: Beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };

/// Jobs with everything that a job can hold.
fn own_jobs<'a>(
    shades: &'a [u8],
    bilevel: &'a [u8],
    grid: &'a [Vec<f64>; 3],
) -> [(&'static str, Preflight<'a>); 5] {
    let shaded = Drawing {
        samples: shades,
        width: 190,
        height: 120,
        row_stride: 197,
        pitch_x: 11e-6,
        pitch_y: 14e-6,
        left_x: -1.2e-3,
        top_y: 0.4e-3,
        kind: SampleKind::Coverage,
        drawing_use: DrawingUse::Shapes,
    };
    let tilted = Exposing {
        beam: CO2,
        focus_z: 0.05e-3,
        surface: Surface::Plane { slope_x: 0.2, slope_y: -0.1 },
        incidence_loss: true,
        blur_along: 20e-6,
        blur_across: 12e-6,
        scan: Scan::AlongRows { line_interval: 33e-6, first_line: 7e-6 },
    };
    let [x, y, z] = grid;
    let lines = Preflight {
        drawing: shaded,
        exposing: tilted,
        answer: Answer::LogarithmicBulk { penetration_depth: 30e-6, visible_depth: 5e-6 },
        dose_ratio: 3.1,
        edge_tolerance: 9e-6,
        // The dots have 25 pixels.
        speck_area: 26.0 * 11e-6 * 14e-6,
    };
    let probed = Preflight {
        drawing: Drawing {
            samples: bilevel,
            row_stride: 190,
            pitch_y: 11e-6,
            left_x: 0.0,
            top_y: 0.0,
            kind: SampleKind::Bilevel,
            ..shaded
        },
        exposing: Exposing {
            surface: Surface::Grid { x, y, z },
            incidence_loss: false,
            scan: Scan::Unknown,
            ..tilted
        },
        answer: Answer::Melt { bridge: 30e-6 },
        dose_ratio: 2.0,
        edge_tolerance: usual_edge_tolerance(&CO2),
        speck_area: 0.0,
    };
    let bowl = Surface::Sphere {
        radius: 4e-3,
        bulge: Bulge::AwayFromLens,
        crown_x: 0.9e-3,
        crown_y: 0.5e-3,
        slope_x: 0.0,
        slope_y: 0.05,
    };
    let wide = Preflight {
        exposing: Exposing {
            beam: Beam { waist_diameter: 300e-6, ..CO2 },
            surface: bowl,
            scan: Scan::AlongRows { line_interval: 14e-6, first_line: 7e-6 },
            ..tilted
        },
        drawing: Drawing { drawing_use: DrawingUse::BurntRaster, left_x: 0.0, top_y: 0.0, ..shaded },
        answer: Answer::LinearBulk { threshold_depth: 10e-6, visible_depth: 2e-6 },
        dose_ratio: 2.4,
        edge_tolerance: 40e-6,
        speck_area: 9.5 * 11e-6 * 14e-6,
    };
    let edges: &'static [f64] = &[0.0, 0.7e-3, 1.5e-3, 2.2e-3];
    let steps = Preflight {
        exposing: Exposing {
            surface: Surface::Steps { edges, z: &[-0.3e-3, 0.1e-3, 0.6e-3] },
            blur_along: 0.0,
            blur_across: 0.0,
            ..probed.exposing
        },
        answer: Answer::Coating,
        ..probed
    };
    // Fine enough for all that is drawn.
    let fine = Preflight {
        exposing: Exposing {
            beam: Beam { waist_diameter: 40e-6, wavelength: 1.06e-6, m2: 1.3 },
            surface: Surface::Plane { slope_x: 0.0, slope_y: 0.0 },
            focus_z: 0.0,
            ..steps.exposing
        },
        dose_ratio: 3.0,
        ..steps
    };
    [
        ("fine", fine),
        ("lines on a tilted plane", lines),
        ("a probed grid", probed),
        ("a wide spot in a bowl", wide),
        ("steps", steps),
    ]
}

fn step(code: &str, points: &[[f64; 2]]) -> Value {
    let names: &[&str] = match points.len() {
        0 => &[],
        1 => &["to"],
        2 => &["control", "to"],
        _ => &["first", "second", "to"],
    };
    let mut step = Map::new();
    step.insert("kind".into(), code.into());
    for (name, [x, y]) in names.iter().zip(points) {
        step.insert((*name).into(), place(*x, *y));
    }
    step.into()
}

fn path(path: &InkPath) -> Value {
    use spotwise::artwork::PathStep::{Close, Cubic, Line, Move, Quad};
    let told = |one: &spotwise::artwork::PathStep| match *one {
        Move { to } => step("move", &[to]),
        Line { to } => step("line", &[to]),
        Quad { control, to } => step("quadratic", &[control, to]),
        Cubic { first, second, to } => step("cubic", &[first, second, to]),
        Close => step("close", &[]),
    };
    path.steps().iter().map(told).collect()
}

/// Paths, strokes and a line of text, drawn.
fn shapes(blob: &mut Blob) -> Value {
    let file = std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/examples/fonts/DejaVuSans-plate.ttf"));
    let file = file.expect("the font of the examples");
    let font = Font::new(&file, 0).unwrap();
    let line = font.line("0.35 mm", LetterSize::DigitHeight(1.1e-3), 20e-6, [0.2e-3, 1.6e-3]).unwrap();
    let mut curve = InkPath::new();
    curve.move_to([0.1e-3, 2.4e-3]).quad_to([0.8e-3, 1.4e-3], [1.6e-3, 2.3e-3]).line_to([2.4e-3, 2.0e-3]);
    let mut ring = InkPath::new();
    ring.circle([3.2e-3, 2.2e-3], 0.4e-3).circle([3.2e-3, 2.2e-3], 0.2e-3);
    let frame = Frame::around(line.path.bounds().unwrap(), 0.9e-3, 13e-6).unwrap();
    let mut sheet = Sheet::new(frame).unwrap();
    let stroke = Stroke { width: 90e-6, cap: StrokeCap::Round, join: StrokeJoin::Bevel };
    sheet.draw(&line.path, Inking::Fill(FillRule::NonZero)).unwrap();
    sheet.draw(&curve, Inking::Stroke(stroke)).unwrap();
    sheet.draw(&curve, Inking::Stroke(Stroke::new(31e-6))).unwrap();
    sheet.draw(&ring, Inking::Fill(FillRule::EvenOdd)).unwrap();
    json!({
        "font": blob.add(&file),
        "line": { "path": path(&line.path), "em": line.em, "advance": line.advance },
        "shapes": [
            { "path": path(&line.path), "fill": "non-zero" },
            { "path": path(&curve), "stroke": { "width": 90e-6, "cap": "round", "join": "bevel" } },
            { "path": path(&curve), "stroke": { "width": 31e-6 } },
            { "path": path(&ring), "fill": "even-odd" },
        ],
        "frame": {
            "width": frame.width, "height": frame.height, "pitchX": frame.pitch_x, "pitchY": frame.pitch_y,
            "left": frame.left_x, "top": frame.top_y,
        },
        "samples": blob.add(sheet.samples()),
    })
}

/// Writes `artwork-answers.json` and the bytes that it speaks of.
#[test]
#[ignore = "writes what other faces are compared with; `cargo xtask wasm test` runs it"]
fn answers_for_other_faces() {
    let mut blob = Blob::default();
    let mut jobs = Vec::new();
    let cases = all();
    for case in &cases {
        let preflight = of_case(case);
        let job = job(&preflight, &mut blob);
        let answers = answers(&preflight, &mut blob);
        jobs.push(json!({ "name": case.name, "job": job, "answers": answers }));
    }
    let shades = pattern(190, 120, 197, true);
    let bilevel = pattern(190, 120, 190, false);
    let heights = |[i, j]: [usize; 2]| {
        if [i, j] == [1, 0] { f64::NAN } else { 1e-4 * (i as f64 - 1.5) * (1.0 + 0.3 * j as f64) }
    };
    let grid = [
        vec![0.0, 0.5e-3, 1.2e-3, 1.7e-3, 2.2e-3],
        vec![0.0, 0.4e-3, 0.9e-3, 1.4e-3],
        (0..20).map(|k| heights([k % 5, k / 5])).collect(),
    ];
    for (name, preflight) in own_jobs(&shades, &bilevel, &grid) {
        let job = job(&preflight, &mut blob);
        let answers = answers(&preflight, &mut blob);
        let remedies = remedies(&preflight, &mut blob);
        jobs.push(json!({ "name": name, "job": job, "answers": answers, "remedies": remedies }));
    }
    let shapes = shapes(&mut blob);
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
    let file = json!({ "jobs": jobs, "shapes": shapes });
    std::fs::write(folder.join("artwork-answers.json"), file.to_string()).expect("a folder to write to");
    std::fs::write(folder.join("artwork-answers.bin"), &blob.0).expect("a folder to write to");
}
