//! Each function on drawings against the core: the same bits, codes and reports.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, whose arrays have the lengths that they say"
)]

use super::agree::{job, model_job, number};
use super::artwork::{Asked, asked, model_beam, rare};
use super::raw::{Expected, compare, near, words_of};
use crate::abi::Plain;
use crate::artwork::*;
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::typeface::spotwise_text_grades;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::artwork::*;
use spotwise::model::mark::TextGrades;
use std::ffi::c_void;
use std::ptr::{null, null_mut};

/// What stands in outputs and room before a call.
const STALE: u64 = 0x5555_5555_5555_5555;

fn counts(mut expected: Expected, counts: &[u64]) -> Expected {
    for &count in counts {
        expected = expected.word(count as u32).word((count >> 32) as u32);
    }
    expected
}

fn expected_words(words: Result<usize, Error>) -> Result<Expected, Error> {
    words.map(|words| counts(Expected::default(), &[words as u64]))
}

fn expected_spots(spots: &InkSpots) -> Expected {
    let expected = Expected::of::<spotwise_ink_spots>().word(0);
    counts(expected, &[spots.ink_pixels, spots.unknown_pixels, spots.unknown_ink_pixels]).numbers(&[
        spots.least_diameter,
        spots.least_x,
        spots.least_y,
        spots.greatest_diameter,
        spots.greatest_x,
        spots.greatest_y,
    ])
}

fn expected_survey(plan: &ExposurePlan<'_>) -> Expected {
    let cone = plan.cone();
    Expected::of::<spotwise_exposure_survey>()
        .word(cone.validity.bits())
        .word(plan.too_few_pixels().into())
        .word(0)
        .numbers(&[
            plan.pixels_per_radius(),
            plan.most_pixels_per_radius(),
            plan.expected_error(),
            cone.half_angle,
        ])
        .nested(expected_spots(plan.ink_spots()))
}

fn expected_report(report: &Report) -> Expected {
    let t = &report.topology;
    let mut expected = Expected::of::<spotwise_mark_report>();
    for word in [
        report.cone.validity.bits(),
        report.holds().into(),
        report.is_broken().into(),
        report.too_few_pixels.into(),
        report.lost.regions,
        report.filled.regions,
        t.changes(),
        t.components_drawing,
        t.components_mark,
        t.components_lost,
        t.components_split,
        t.components_merged,
        t.components_new,
        report.components_starved,
        t.holes_drawing,
        t.holes_mark,
        t.holes_closed,
        t.holes_opened,
        t.holes_split,
        t.holes_merged,
        t.holes_new,
        t.components_ignored_drawing,
        t.components_ignored_mark,
        t.holes_ignored_drawing,
        t.holes_ignored_mark,
    ] {
        expected = expected.word(word);
    }
    let (strokes, gaps) = (report.stroke_centres, report.gap_centres);
    let expected = counts(
        expected,
        &[
            report.ink_pixels,
            report.mark_pixels,
            report.missing_pixels,
            report.extra_pixels,
            report.lost.pixels,
            report.filled.pixels,
            strokes.pixels.into(),
            strokes.kept.into(),
            gaps.pixels.into(),
            gaps.kept.into(),
        ],
    );
    expected
        .numbers(&[
            strokes.lost_share(),
            gaps.lost_share(),
            report.pixel_area,
            report.edge_tolerance,
            report.smallest_stroke_kept,
            report.largest_stroke_lost,
            report.smallest_gap_kept,
            report.largest_gap_lost,
            report.typical_stroke_exposure,
            report.pixels_per_radius,
            report.expected_error,
            report.cone.half_angle,
        ])
        .nested(expected_spots(&report.spots))
}

fn expected_window(window: &DoseWindow) -> Expected {
    Expected::of::<spotwise_dose_window_result>().word(0).numbers(&[
        window.least_dose_ratio,
        window.greatest_dose_ratio,
        window.greatest_dose_ratio_for_counters,
        window.ratio(),
        window.ratio_for_counters(),
    ])
}

fn expected_region(region: &Region<f64>) -> Vec<u32> {
    let PixelBox { left, top, right, bottom } = region.extent;
    let mut expected = Expected::of::<spotwise_mark_region>();
    for word in [region.pixels, left, top, right, bottom, region.worst_x, region.worst_y] {
        expected = expected.word(word);
    }
    expected.numbers(&[region.depth]).0
}

fn expected_change(change: &Change) -> Vec<u32> {
    let PixelBox { left, top, right, bottom } = change.extent;
    let size = size_of::<spotwise_mark_change>() as u32;
    vec![size, change.kind.code(), change.pixels, left, top, right, bottom, 0]
}

/// As many words as the core says, or none if it says nothing.
fn room(words: &Result<usize, Error>) -> Vec<u64> {
    vec![STALE; *words.as_ref().unwrap_or(&0)]
}

/// What a preflight of the core leaves, in memory of its own.
struct Found {
    exposure: Vec<u16>,
    masks: [Vec<u64>; 3],
    regions: [Vec<Region<f64>>; 2],
    changes: Vec<Change>,
}

/// Places for findings: too few for some drawings.
const FINDINGS: usize = 4;

impl Found {
    fn new(asked: &Asked) -> Self {
        Self {
            exposure: vec![0x5555; asked.pixels()],
            masks: [(); 3].map(|()| vec![STALE; asked.mask_words()]),
            regions: [(); 2].map(|()| vec![Region::default(); FINDINGS]),
            changes: vec![Change::NONE; FINDINGS],
        }
    }

    fn run(
        &mut self,
        preflight: &Preflight<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<Report, Error> {
        let plan = PreflightPlan::new(preflight, &mut watch.part(0.0, 0.1))?;
        let (width, height) = (preflight.drawing.width, preflight.drawing.height);
        let [mark, lost, filled] = &mut self.masks;
        let [lost_regions, filled_regions] = &mut self.regions;
        let mut output = PreflightOutput {
            exposure: &mut self.exposure,
            mark: BitmapMut::new(mark, width, height)?,
            lost: BitmapMut::new(lost, width, height)?,
            filled: BitmapMut::new(filled, width, height)?,
            lost_regions,
            filled_regions,
            changes: &mut self.changes,
        };
        plan.run(&mut output, room, &mut watch.part(0.1, 1.0))
    }

    fn clear(&mut self) {
        self.exposure.fill(0);
        self.masks.iter_mut().for_each(|mask| mask.fill(0));
    }
}

/// Arrays for C.
struct Arrays {
    exposure: Vec<u16>,
    masks: [Vec<u64>; 3],
    regions: [Vec<spotwise_mark_region>; 2],
    changes: Vec<spotwise_mark_change>,
}

impl Arrays {
    fn new(asked: &Asked) -> Self {
        let stale = spotwise_mark_region { pixels: 7, depth_m: 7.0, ..spotwise_mark_region::BLANK };
        Self {
            exposure: vec![0x5555; asked.pixels()],
            masks: [(); 3].map(|()| vec![STALE; asked.mask_words()]),
            regions: [(); 2].map(|()| vec![stale; FINDINGS]),
            changes: vec![spotwise_mark_change { kind: 7, ..spotwise_mark_change::BLANK }; FINDINGS],
        }
    }

    fn output(&mut self) -> spotwise_preflight_output {
        let [mark, lost, filled] = &mut self.masks;
        let [lost_regions, filled_regions] = &mut self.regions;
        spotwise_preflight_output {
            exposure: self.exposure.as_mut_ptr(),
            mark: mark.as_mut_ptr(),
            lost: lost.as_mut_ptr(),
            filled: filled.as_mut_ptr(),
            lost_region: lost_regions.as_mut_ptr(),
            filled_region: filled_regions.as_mut_ptr(),
            change: self.changes.as_mut_ptr(),
            pixels: self.exposure.len(),
            mask_words: mark.len(),
            lost_region_count: FINDINGS,
            filled_region_count: FINDINGS,
            change_count: FINDINGS,
            ..spotwise_preflight_output::BLANK
        }
    }

    /// Whether they hold what the core's hold, and blank structs behind it.
    fn agree(&self, core: &Found, report: Option<&Report>) -> Result<(), TestCaseError> {
        prop_assert_eq!(&self.exposure, &core.exposure);
        prop_assert_eq!(&self.masks, &core.masks);
        let written = report.map_or([0; 2], |report| [report.lost.regions, report.filled.regions]);
        for ((c, core), written) in self.regions.iter().zip(&core.regions).zip(written) {
            for (place, (c, core)) in c.iter().zip(core).enumerate() {
                let blank = words_of(&spotwise_mark_region::BLANK);
                let wanted = if place < written as usize { expected_region(core) } else { blank };
                prop_assert_eq!(words_of(c), wanted);
            }
        }
        let written = report.map_or(0, |report| report.topology.changes());
        for (place, (c, core)) in self.changes.iter().zip(&core.changes).enumerate() {
            let blank = words_of(&spotwise_mark_change::BLANK);
            let wanted = if place < written as usize { expected_change(core) } else { blank };
            prop_assert_eq!(words_of(c), wanted);
        }
        Ok(())
    }
}

/// Notes what a call tells, and stops it after so many times.
struct Notes {
    told: Vec<f64>,
    most: usize,
}

impl Notes {
    fn new(most: usize) -> Self {
        Self { told: Vec::new(), most }
    }

    fn hear(&mut self, done: f64) -> bool {
        self.told.push(done);
        self.told.len() <= self.most
    }

    fn bits(&self) -> Vec<u64> {
        self.told.iter().map(|done| done.to_bits()).collect()
    }
}

unsafe extern "C" fn note(user: *mut c_void, done: f64) -> u32 {
    let go_on = unsafe { &mut *user.cast::<Notes>() }.hear(done);
    if go_on { SPOTWISE_GO_ON } else { SPOTWISE_STOP }
}

/// Runs what the core does under the same watch.
fn noting<T>(notes: &mut Notes, work: impl FnOnce(&mut Watch<'_>) -> T) -> T {
    let mut tell = |done: f64| if notes.hear(done) { Step::GoOn } else { Step::Stop };
    work(&mut Watch::new(&mut tell))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn exposures(asked in asked()) {
        let (drawing, surface) = (asked.drawing(), asked.surface());
        let exposing = asked.exposing(&surface);
        let scene = || Ok((asked.model_drawing()?, asked.model_exposing()?));
        let plan = scene().and_then(|(drawing, exposing)| {
            ExposurePlan::new(&drawing, &exposing, &mut Watch::quiet())
        });
        let words = plan.map(|plan| plan.words(3));
        compare(
            |out, error| unsafe {
                spotwise_expose_workspace(&drawing, &exposing, 3, None, null_mut(), out, error)
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        let mut wanted = vec![0; asked.pixels()];
        let model = plan.and_then(|plan| {
            plan.expose(&mut wanted, &mut work, &mut Watch::quiet())?;
            Ok(expected_survey(&plan))
        });
        let mut found = vec![0x5555; asked.pixels()];
        compare(
            |out, error| unsafe {
                let (start, room) = (found.as_mut_ptr(), work.as_mut_ptr());
                spotwise_expose(
                    &drawing, &exposing, start, asked.pixels(), room, work.len(), None, null_mut(), out, error,
                )
            },
            model,
        )?;
        prop_assert_eq!(found, wanted);

        let words = plan.map(|plan| plan.exact_words());
        compare(
            |out, error| unsafe {
                spotwise_expose_exactly_workspace(&drawing, &exposing, None, null_mut(), out, error)
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        let mut wanted = vec![f64::NAN; asked.pixels()];
        let model = plan.and_then(|plan| {
            plan.expose_exactly(&mut wanted, &mut work, &mut Watch::quiet())?;
            Ok(expected_survey(&plan))
        });
        let mut found = vec![7.0; asked.pixels()];
        compare(
            |out, error| unsafe {
                let (start, room) = (found.as_mut_ptr(), work.as_mut_ptr());
                spotwise_expose_exactly(
                    &drawing, &exposing, start, asked.pixels(), room, work.len(), None, null_mut(), out, error,
                )
            },
            model,
        )?;
        for (found, wanted) in found.iter().zip(&wanted) {
            prop_assert!(found.to_bits() == wanted.to_bits() || found.is_nan() && wanted.is_nan());
        }

        let (width, height) = asked.size();
        let mut wanted = vec![0; asked.mask_words()];
        let model = plan.and_then(|plan| {
            plan.unknown(&mut BitmapMut::new(&mut wanted, width, height)?, &mut Watch::quiet())
        });
        let mut found = vec![STALE; asked.mask_words()];
        let status = unsafe {
            let (start, words) = (found.as_mut_ptr(), found.len());
            spotwise_unknown_mask(&drawing, &exposing, start, words, None, null_mut(), null_mut())
        };
        prop_assert_eq!(status, model.map_or_else(|error| error.code(), |()| 0));
        prop_assert_eq!(found, wanted);

        let preflight = scene().map(|(drawing, exposing)| Preflight {
            drawing,
            exposing,
            answer: Answer::Coating,
            dose_ratio: 1.0,
            edge_tolerance: 0.0,
            speck_area: 0.0,
        });
        compare(
            |out, error| unsafe { spotwise_best_focus_z(&drawing, &exposing, None, null_mut(), out, error) },
            number(preflight.and_then(|preflight| best_focus_z(&preflight, &mut Watch::quiet()))),
        )?;
    }

    #[test]
    fn preflights(asked in asked(), too_small in 0..20u32) {
        let (drawing, surface) = (asked.drawing(), asked.surface());
        let (exposing, marking) = (asked.exposing(&surface), asked.marking);
        let preflight = asked.model();
        let plan = preflight.and_then(|preflight| PreflightPlan::new(&preflight, &mut Watch::quiet()));
        let words = plan.as_ref().map(|plan| plan.words(1)).map_err(|error| *error);
        compare(
            |out, error| unsafe {
                spotwise_preflight_workspace(&drawing, &exposing, &marking, 1, None, null_mut(), out, error)
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        if too_small == 0 {
            work.pop();
        }
        let mut core = Found::new(&asked);
        let model = preflight.and_then(|preflight| core.run(&preflight, &mut work, &mut Watch::quiet()));
        if model.is_err() {
            core.clear();
        }
        let mut arrays = Arrays::new(&asked);
        let output = arrays.output();
        let mut c_report = spotwise_mark_report::BLANK;
        compare(
            |out, error| unsafe {
                let (room, words) = (work.as_mut_ptr(), work.len());
                let (tell, user) = (None, null_mut());
                let status = spotwise_preflight(
                    &drawing, &exposing, &marking, &output, room, words, tell, user, out, error,
                );
                c_report = *out;
                status
            },
            model.map(|report| expected_report(&report)),
        )?;
        arrays.agree(&core, model.as_ref().ok())?;

        let window = plan.and_then(|plan| {
            plan.dose_window(&core.exposure, &mut work, &mut Watch::quiet())
        });
        let mut c_window = spotwise_dose_window_result::BLANK;
        compare(
            |out, error| unsafe {
                let (exposure, pixels) = (arrays.exposure.as_ptr(), arrays.exposure.len());
                let (room, words) = (work.as_mut_ptr(), work.len());
                let (tell, user) = (None, null_mut());
                let status = spotwise_dose_window(
                    &drawing, &exposing, &marking, exposure, pixels, room, words, tell, user, out, error,
                );
                c_window = *out;
                status
            },
            window.map(|window| expected_window(&window)),
        )?;
        if let (Ok(report), Ok(window)) = (model, window) {
            let grades = spotwise_text_grades::from(TextGrades::default());
            let judgement = judge(&report, &window, &TextGrades::default());
            compare(
                |out, error| unsafe { spotwise_judge_mark(&c_report, &c_window, &grades, out, error) },
                judgement.map(|judgement| {
                    Expected::of::<spotwise_judgement>()
                        .word(judgement.grade as u32)
                        .word(judgement.reasons.bits())
                        .word(0)
                }),
            )?;
        }
    }

    fn watches(asked in asked(), most in 0..60usize) {
        let (drawing, surface) = (asked.drawing(), asked.surface());
        let (exposing, marking) = (asked.exposing(&surface), asked.marking);
        let preflight = asked.model();
        let plan = preflight.and_then(|preflight| PreflightPlan::new(&preflight, &mut Watch::quiet()));
        let mut work = room(&plan.map(|plan| plan.words(1)));
        let (mut core, mut notes) = (Found::new(&asked), Notes::new(most));
        let model = noting(&mut notes, |watch| {
            preflight.and_then(|preflight| core.run(&preflight, &mut work, watch))
        });
        if model.is_err() {
            core.clear();
        }
        let mut arrays = Arrays::new(&asked);
        let output = arrays.output();
        let mut c_notes = Notes::new(most);
        let user = (&raw mut c_notes).cast::<c_void>();
        compare(
            |out, error| unsafe {
                let (room, words) = (work.as_mut_ptr(), work.len());
                spotwise_preflight(
                    &drawing, &exposing, &marking, &output, room, words, Some(note), user, out, error,
                )
            },
            model.map(|report| expected_report(&report)),
        )?;
        prop_assert_eq!(c_notes.bits(), notes.bits());
        prop_assert!(notes.told.is_sorted(), "{:?}", notes.told);
        arrays.agree(&core, model.as_ref().ok())?;
    }

    #[test]
    fn masks_and_bounds(
        asked in asked(),
        (diameter, least, greatest) in (near(80e-6), 0.5..4.0f64, 0.5..6.0f64),
        (interval, finest) in (prop_oneof![Just(0.0), near(20e-6)], near(60e-6)),
        alike in any::<bool>(),
    ) {
        let drawing = asked.drawing();
        let (width, height) = asked.size();
        let mut core = [(); 3].map(|()| vec![0; asked.mask_words()]);
        let model = asked.model_drawing().and_then(|drawing| {
            let [ink, solid, touched] = &mut core;
            let mut ink = BitmapMut::new(ink, width, height)?;
            let mut solid = BitmapMut::new(solid, width, height)?;
            let mut touched = BitmapMut::new(touched, width, height)?;
            drawing.ink_masks(Some(&mut ink), Some(&mut solid), Some(&mut touched))
        });
        let [mut ink, mut solid, mut touched] = [(); 3].map(|()| vec![STALE; asked.mask_words()]);
        let status = unsafe {
            let masks = (ink.as_mut_ptr(), solid.as_mut_ptr(), touched.as_mut_ptr());
            spotwise_ink_masks(&drawing, masks.0, masks.1, masks.2, ink.len(), null_mut())
        };
        prop_assert_eq!(status, model.map_or_else(|error| error.code(), |()| 0));
        prop_assert_eq!([&ink, &solid, &touched], [&core[0], &core[1], &core[2]]);

        let input = BoundInput {
            ink: Bitmap::new(&ink, width, height).unwrap(),
            solid: Bitmap::new(if alike { &ink } else { &solid }, width, height).unwrap(),
            touched: Bitmap::new(if alike { &ink } else { &touched }, width, height).unwrap(),
            pitch_x: drawing.pitch_x_m,
            pitch_y: drawing.pitch_y_m,
            greatest_spot_diameter: diameter,
            least_dose_ratio: least,
            greatest_dose_ratio: greatest,
            line_interval: interval,
            least_spot_diameter: finest,
        };
        let bound = spotwise_bound_input {
            pitch_x_m: input.pitch_x,
            pitch_y_m: input.pitch_y,
            greatest_spot_diameter_m: diameter,
            least_dose_ratio: least,
            greatest_dose_ratio: greatest,
            line_interval_m: interval,
            least_spot_diameter_m: finest,
            ink: ink.as_ptr(),
            solid: if alike { null() } else { solid.as_ptr() },
            touched: if alike { null() } else { touched.as_ptr() },
            mask_words: ink.len(),
            width,
            height,
            ..spotwise_bound_input::BLANK
        };
        let threads = 2;
        let words = quick_bound_words(&input, threads);
        compare(
            |out, error| unsafe { spotwise_quick_bound_workspace(&bound, threads, out, error) },
            expected_words(words),
        )?;
        let mut work = room(&words);
        let mut core = [(); 2].map(|()| vec![0; asked.mask_words()]);
        let model = {
            let [marked, clear] = &mut core;
            let mut marked = BitmapMut::new(marked, width, height).unwrap();
            let mut clear = BitmapMut::new(clear, width, height).unwrap();
            quick_bound(&input, &mut marked, &mut clear, &mut work, &mut Watch::quiet())
        };
        let [mut marked, mut clear] = [(); 2].map(|()| vec![STALE; asked.mask_words()]);
        compare(
            |out, error| unsafe {
                let (tell, user) = (None, null_mut());
                let (room, words) = (work.as_mut_ptr(), work.len());
                let (marked, clear) = (marked.as_mut_ptr(), clear.as_mut_ptr());
                spotwise_quick_bound(&bound, marked, clear, room, words, tell, user, out, error)
            },
            model.map(|found| {
                let expected = Expected::of::<spotwise_quick_bound_result>().word(found.holds().into());
                let sums = [
                    found.marked,
                    found.clear,
                    found.undecided,
                    found.stroke_pixels,
                    found.doubtful_strokes,
                    found.gap_pixels,
                    found.doubtful_gaps,
                    found.far_ink,
                ];
                let parts = [
                    found.components,
                    found.components_maybe_lost,
                    found.components_maybe_split,
                    found.components_maybe_merged,
                    found.components_maybe_starved,
                    found.holes,
                    found.holes_maybe_closed,
                    found.holes_maybe_opened,
                ];
                parts.into_iter().fold(counts(expected, &sums), Expected::word)
            }),
        )?;
        prop_assert_eq!([&marked, &clear], [&core[0], &core[1]]);
    }

    #[test]
    fn quick_answers(asked in asked(), too_small in 0..20u32) {
        let (drawing, surface) = (asked.drawing(), asked.surface());
        let (exposing, marking) = (asked.exposing(&surface), asked.marking);
        let preflight = asked.model();
        let words = preflight.and_then(|preflight| quick_answer_words(&preflight, 2, &mut Watch::quiet()));
        compare(
            |out, error| unsafe {
                spotwise_quick_answer_workspace(&drawing, &exposing, &marking, 2, None, null_mut(), out, error)
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        if too_small == 0 {
            work.truncate(work.len() / 4);
        }
        let model = preflight.and_then(|preflight| quick_answer(&preflight, &mut work, &mut Watch::quiet()));
        compare(
            |out, error| unsafe {
                let (room, words) = (work.as_mut_ptr(), work.len());
                spotwise_quick_answer(&drawing, &exposing, &marking, room, words, None, null_mut(), out, error)
            },
            model.map(|QuickAnswer { verdict, counts: found, light }| {
                let expected = Expected::of::<spotwise_quick_answer_result>().word(verdict as u32);
                let parts = [
                    found.components,
                    found.components_lost,
                    found.components_maybe_lost,
                    found.components_maybe_split,
                    found.components_merged,
                    found.components_maybe_merged,
                    found.components_maybe_starved,
                    found.holes,
                    found.holes_closed,
                    found.holes_maybe_closed,
                    found.holes_opened,
                    found.holes_maybe_opened,
                ];
                let expected = counts(expected, &[found.unknown_ink_pixels, found.far_ink]);
                parts.into_iter().fold(expected, Expected::word).numbers(&[
                    light.greatest_spot_diameter,
                    light.least_spot_diameter,
                    light.least_dose_ratio,
                    light.greatest_dose_ratio,
                    light.line_interval,
                ])
            }),
        )?;
    }

    #[test]
    fn depths(asked in asked(), exposure in prop::collection::vec(any::<u16>(), 0..20)) {
        let marking = asked.marking;
        let mut wanted = vec![f32::NAN; exposure.len()];
        let model = asked.model_answer().and_then(|answer| {
            depth_map(&exposure, &answer, marking.dose_ratio, &mut wanted)
        });
        let mut found = vec![7.0_f32; exposure.len()];
        let status = unsafe {
            let (from, to) = (exposure.as_ptr(), found.as_mut_ptr());
            spotwise_depth_map(from, &marking, to, exposure.len(), null_mut())
        };
        prop_assert_eq!(status, model.map_or_else(|error| error.code(), |()| 0));
        for (found, wanted) in found.iter().zip(&wanted) {
            prop_assert!(found.to_bits() == wanted.to_bits() || found.is_nan() && wanted.is_nan());
        }
    }

    #[test]
    fn pictures(
        masks in prop::collection::vec(any::<u64>(), 5 * 12),
        (left, top) in (0..80usize, 0..8usize),
        (width, height, zoom) in (0..80usize, 0..8usize, 0..4usize),
        has_unknown in any::<bool>(),
        frame in (0..90u32, 0..10u32, 0..90u32, 0..10u32),
    ) {
        let masks: Vec<&[u64]> = masks.chunks(12).collect();
        let of = |place: usize| Bitmap::new(masks[place], 128, 6).unwrap();
        let layers = PictureLayers {
            ink: of(0),
            mark: of(1),
            lost: of(2),
            filled: of(3),
            unknown: has_unknown.then(|| of(4)),
        };
        let view = PictureView { left, top, width, height, zoom };
        let c_layers = spotwise_picture_layers {
            ink: masks[0].as_ptr(),
            mark: masks[1].as_ptr(),
            lost: masks[2].as_ptr(),
            filled: masks[3].as_ptr(),
            unknown: if has_unknown { masks[4].as_ptr() } else { null() },
            mask_words: 12,
            width: 128,
            height: 6,
            ..spotwise_picture_layers::BLANK
        };
        let c_view = spotwise_picture_view { left, top, width, height, zoom, ..spotwise_picture_view::BLANK };
        let bytes = view.bytes();
        compare(
            |out, error| unsafe { spotwise_picture_bytes(&c_view, out, error) },
            expected_words(bytes),
        )?;
        let length = bytes.unwrap_or(8);
        let mut wanted = vec![0; length];
        let found = (PixelBox { left: frame.0, top: frame.1, right: frame.2, bottom: frame.3 }, &view);
        let model = draw_picture(&layers, &view, &mut wanted);
        let mut rgba = vec![0x55; length];
        let status = unsafe {
            spotwise_draw_picture(&c_layers, &c_view, rgba.as_mut_ptr(), length, null_mut())
        };
        prop_assert_eq!(status, model.map_or_else(|error| error.code(), |()| 0));
        prop_assert_eq!(&rgba, &wanted);
        let model = draw_box(&found.0, found.1, &mut wanted);
        let (left, top, right, bottom) = frame;
        let status = unsafe {
            let start = rgba.as_mut_ptr();
            spotwise_draw_box(left, top, right, bottom, &c_view, start, length, null_mut())
        };
        prop_assert_eq!(status, model.map_or_else(|error| error.code(), |()| 0));
        prop_assert_eq!(&rgba, &wanted);
    }

    #[test]
    fn preflights_of_jobs(job in job().boxed(), visible_depth in near(1e-6), bridge in near(50e-6)) {
        let marking = JobMarking { visible_depth, bridge, speck_area: 0.0 };
        let model = model_job(&job).and_then(|job| {
            let drawing = Drawing {
                samples: &[],
                width: 1,
                height: 1,
                row_stride: 1,
                pitch_x: 1e-6,
                pitch_y: 1e-6,
                left_x: 0.0,
                top_y: 0.0,
                kind: SampleKind::Coverage,
                drawing_use: DrawingUse::BurntRaster,
            };
            let level = spotwise::model::surface::Surface::Plane { slope_x: 0.0, slope_y: 0.0 };
            preflight_of_job(&job, drawing, level, &marking)
        });
        let mut exposing = spotwise_exposing { scan: 7, ..spotwise_exposing::BLANK };
        let mut answering = spotwise_marking { response: 7, dose_ratio: 7.0, ..spotwise_marking::BLANK };
        let mut error = spotwise_error::BLANK;
        let status = unsafe {
            spotwise_preflight_of_job(&job, visible_depth, bridge, &mut exposing, &mut answering, &mut error)
        };
        prop_assert_eq!(error.code, status);
        match model {
            Ok(model) => {
                prop_assert_eq!(status, 0);
                prop_assert_eq!(model_beam(&exposing.beam), model.exposing.beam);
                prop_assert_eq!(exposing.focus_z_m.to_bits(), model.exposing.focus_z.to_bits());
                prop_assert_eq!(exposing.blur_along_m.to_bits(), model.exposing.blur_along.to_bits());
                prop_assert_eq!(exposing.blur_across_m.to_bits(), model.exposing.blur_across.to_bits());
                let (interval, first) = (exposing.line_interval_m, exposing.first_line_m);
                prop_assert_eq!(Scan::from_code(exposing.scan, interval, first).unwrap(), model.exposing.scan);
                prop_assert_eq!(exposing.incidence_loss, 1);
                prop_assert!(exposing.surface.is_null());
                let answer = Answer::from_code(
                    answering.response,
                    answering.penetration_depth_m,
                    answering.threshold_depth_m,
                    answering.visible_depth_m,
                    answering.melt_bridge_m,
                );
                // As texts, since a depth that is not checked yet may be NaN.
                prop_assert_eq!(format!("{:?}", answer.unwrap()), format!("{:?}", model.answer));
                prop_assert_eq!(answering.dose_ratio.to_bits(), model.dose_ratio.to_bits());
                prop_assert_eq!(answering.edge_tolerance_m.to_bits(), model.edge_tolerance.to_bits());
                prop_assert_eq!(answering.speck_area_m2.to_bits(), 0);
            }
            Err(refused) => {
                prop_assert_eq!(status, refused.code());
                prop_assert_eq!(words_of(&answering), words_of(&spotwise_marking::BLANK));
                prop_assert!(exposing.scan == 0 && exposing.focus_z_m.is_nan() && exposing.beam.m2.is_nan());
            }
        }
    }
}

/// Beams to choose from, for C.
fn candidates() -> impl Strategy<Value = Vec<spotwise_beam_candidate>> {
    let beam = (0.5e-6..10.6e-6f64, 1.0..2.0f64, 30e-6..150e-6f64, -1e-3..1e-3f64);
    let beam = beam.prop_map(|(wavelength_m, m2, waist_diameter_m, focus_z_m)| spotwise_beam_candidate {
        focus_z_m,
        beam: spotwise_beam { wavelength_m, m2, waist_diameter_m, ..spotwise_beam::BLANK },
        ..spotwise_beam_candidate::BLANK
    });
    prop::collection::vec(beam, 0..4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn remedies(asked in asked(), demand in rare(2), candidates in candidates()) {
        let (drawing, surface) = (asked.drawing(), asked.surface());
        let (exposing, marking) = (asked.exposing(&surface), asked.marking);
        let preflight = asked.model();
        let pixels = asked.pixels();
        let mut exposure = vec![0x5555; pixels];
        let start = exposure.as_mut_ptr();
        let (tell, user) = (None, null_mut());

        let words = preflight.and_then(|preflight| focus_reach_words(&preflight, 1, &mut Watch::quiet()));
        compare(
            |out, error| unsafe {
                spotwise_focus_reach_workspace(&drawing, &exposing, &marking, 1, tell, user, out, error)
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        let asks = preflight.and_then(|preflight| Ok((preflight, Demand::from_code(demand)?)));
        let model = asks.and_then(|(preflight, demand)| {
            let mut room = TrialRoom { exposure: &mut vec![0; pixels], words: &mut work };
            focus_reach(&preflight, demand, &mut room, &mut Watch::quiet())
        });
        compare(
            |out, error| unsafe {
                let (room, words) = (work.as_mut_ptr(), work.len());
                spotwise_focus_reach(
                    &drawing, &exposing, &marking, demand, start, pixels, room, words, tell, user, out, error,
                )
            },
            model.map(|reach| {
                Expected::of::<spotwise_focus_reach_result>()
                    .word(reach.toward_lens_is_open.into())
                    .word(reach.away_from_lens_is_open.into())
                    .word(0)
                    .numbers(&[reach.toward_lens, reach.away_from_lens])
            }),
        )?;

        let words = preflight.and_then(|preflight| smallest_scale_words(&preflight, 1, &mut Watch::quiet()));
        compare(
            |out, error| unsafe {
                spotwise_smallest_scale_workspace(&drawing, &exposing, &marking, 1, tell, user, out, error)
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        let model = asks.and_then(|(preflight, demand)| {
            let mut room = TrialRoom { exposure: &mut vec![0; pixels], words: &mut work };
            smallest_scale(&preflight, demand, &mut room, &mut Watch::quiet())
        });
        compare(
            |out, error| unsafe {
                let (room, words) = (work.as_mut_ptr(), work.len());
                spotwise_smallest_scale(
                    &drawing, &exposing, &marking, demand, start, pixels, room, words, tell, user, out, error,
                )
            },
            number(model),
        )?;

        let beams: Vec<BeamCandidate> = candidates
            .iter()
            .map(|one| BeamCandidate { beam: model_beam(&one.beam), focus_z: one.focus_z_m })
            .collect();
        let (list, count) = (candidates.as_ptr(), candidates.len());
        let words = preflight.and_then(|preflight| {
            rank_beams_words(&preflight, &beams, 1, &mut Watch::quiet())
        });
        compare(
            |out, error| unsafe {
                spotwise_rank_beams_workspace(
                    &drawing, &exposing, &marking, list, count, 1, tell, user, out, error,
                )
            },
            expected_words(words),
        )?;
        let mut work = room(&words);
        let mut ranking = vec![RankedBeam::NONE; count];
        let model = preflight.and_then(|preflight| {
            let mut room = TrialRoom { exposure: &mut vec![0; pixels], words: &mut work };
            rank_beams(&preflight, &beams, &mut ranking, &mut room, &mut Watch::quiet())
        });
        let stale = spotwise_ranked_beam { candidate: 7, ..spotwise_ranked_beam::BLANK };
        let mut found = vec![stale; count];
        let status = unsafe {
            let (room, words, found) = (work.as_mut_ptr(), work.len(), found.as_mut_ptr());
            let error = null_mut();
            spotwise_rank_beams(
                &drawing, &exposing, &marking, list, count, start, pixels, room, words, tell, user, found, error,
            )
        };
        prop_assert_eq!(status, model.map_or_else(|error| error.code(), |()| 0));
        for (found, wanted) in found.iter().zip(&ranking) {
            let expected = Expected::of::<spotwise_ranked_beam>()
                .word(wanted.candidate as u32)
                .numbers(&[wanted.greatest_diameter])
                .nested(expected_window(&wanted.window));
            prop_assert_eq!(words_of(found), expected.0);
        }
    }
}

/// What a watch is told depends on which of several threads is done first.
#[test]
fn a_watch_hears_the_same_and_stops_the_same() {
    rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap().install(watches);
}
