//! The verdict on a job.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::check::{
    FocusSetting, Job, JobDose, JobLens, Outcome, Place, RawBeam, Reasons, Verdict, focus_check,
};
use spotwise::model::focus::{DepthCriterion, defocus, depth_of_focus};
use spotwise::model::mark::smallest_details;
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, Element, Glass, LensShape, Singlet, beam_after_path, focus_collimated,
    focus_singlet, focus_through_lens, refractive_index,
};
use spotwise::{CAUTION_OFF_FOCUS_CLIPPING, CAUTION_OFF_FOCUS_IRRADIANCE, Param, Validity};

/// Rounded to a multiple of 2⁻⁴⁰ m, so that sums of heights are exact.
fn on_grid(height: f64) -> f64 {
    const GRID: f64 = 1.0 / (1u64 << 40) as f64;
    (height / GRID).round() * GRID
}

fn raw_beam() -> BoxedStrategy<RawBeam> {
    prop_oneof![
        spread(1e-3, 2e-2).prop_map(|diameter_at_lens| RawBeam::Collimated { diameter_at_lens }),
        (spread(1e-3, 1e-2), -3.0f64..3.0)
            .prop_map(|(waist_diameter, waist_to_lens)| RawBeam::Waist { waist_diameter, waist_to_lens }),
    ]
    .boxed()
}

/// The criterion by its code and a limit relative to the spot.
fn criterion(code: u32, looseness: f64, waist_diameter: f64) -> DepthCriterion {
    let drop = (looseness / (1.0 + looseness)).min(0.99);
    DepthCriterion::from_code(code, 1.0 + looseness, drop, waist_diameter * (0.8 + looseness)).unwrap()
}

/// Jobs on an ordinary machine, whose heights and details are of the order of the spot's own.
pub(super) fn job() -> impl Strategy<Value = Job> {
    let optics = (spread(3e-7, 1.1e-5), spread(1.0, 5.0), raw_beam(), spread(1e-2, 0.5));
    let heights = [-3.0f64..3.0, 0.0f64..3.0, 0.0f64..3.0];
    let drawing = (spread(0.05, 20.0), spread(0.05, 20.0), spread(1.01, 30.0));
    (optics, heights, 1u32..=5, spread(1e-3, 10.0), drawing).prop_filter_map(
        "no focus, or no room for it",
        |((wavelength, m2, raw_beam, focal_length), heights, code, looseness, (stroke, gap, dose_ratio))| {
            let mut job = Job {
                wavelength,
                m2,
                raw_beam,
                focal_length,
                lens: JobLens::Ideal,
                focus: FocusSetting::FromDatum { focus_z: 0.0 },
                surface_rise: 0.0,
                surface_fall: 0.0,
                criterion: DepthCriterion::Rayleigh,
                finest_stroke: 1e-4,
                finest_gap: 1e-4,
                dose: JobDose::Ratio { dose_ratio },
                text: None,
            };
            let focused = focus_check(&job).ok()?.focused;
            // Room for the lens above any surface that the properties make of this one.
            if focused.lens_to_waist < 12.0 * focused.rayleigh_range {
                return None;
            }
            let [focus_z, rise, fall] = heights.map(|share| on_grid(share * focused.rayleigh_range));
            job.focus = FocusSetting::FromDatum { focus_z };
            (job.surface_rise, job.surface_fall) = (rise, fall);
            job.criterion = criterion(code, looseness, focused.waist_diameter);
            job.finest_stroke = (stroke * focused.waist_diameter).clamp(1e-9, 10.0);
            job.finest_gap = (gap * focused.waist_diameter).clamp(1e-9, 10.0);
            focus_check(&job).is_ok().then_some(job)
        },
    )
}

fn check(job: &Job) -> Verdict {
    focus_check(job).unwrap()
}

pub(super) fn focus_of(job: &Job) -> f64 {
    match job.focus {
        FocusSetting::FromDatum { focus_z } => focus_z,
        other => panic!("{other:?}"),
    }
}

pub(super) fn focused_at(job: &Job, focus_z: f64) -> Job {
    Job { focus: FocusSetting::FromDatum { focus_z }, ..*job }
}

/// The job with its surface shrunk to one height, `z` from the waist.
fn at_height(job: &Job, z: f64) -> Place {
    check(&Job { surface_rise: 0.0, surface_fall: 0.0, ..focused_at(job, -z) }).datum
}

/// The job with a flat surface in focus.
fn at_focus(job: &Job) -> Job {
    Job { surface_rise: 0.0, surface_fall: 0.0, ..focused_at(job, 0.0) }
}

fn worst_growth(verdict: &Verdict) -> f64 {
    verdict.highest.growth.max(verdict.lowest.growth)
}

/// Lenses whose waist is virtual: the light spreads from the lens on, and nothing is in focus.
#[test]
fn a_virtual_waist_is_no_focus() {
    let job = Job {
        wavelength: 1e-6,
        m2: 1.0,
        raw_beam: RawBeam::Waist { waist_diameter: 36e-6, waist_to_lens: 30e-3 },
        focal_length: 50e-3,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: 0.0 },
        surface_rise: 0.0,
        surface_fall: 0.0,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 1e-3,
        finest_gap: 1e-3,
        dose: JobDose::Ratio { dose_ratio: 2.0 },
        text: None,
    };
    let error = focus_check(&job).unwrap_err();
    assert_eq!((error.code(), error.param()), (4, Param::LensToWaist));
}

#[test]
fn the_surface_stays_behind_the_lens() {
    let job = |focus, surface_rise| Job {
        wavelength: 10.6e-6,
        m2: 1.2,
        raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
        focal_length: 38.1e-3,
        lens: JobLens::Ideal,
        focus,
        surface_rise,
        surface_fall: 0.0,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 1e-3,
        finest_gap: 1e-3,
        dose: JobDose::Ratio { dose_ratio: 2.0 },
        text: None,
    };
    let low = FocusSetting::LensHeight { lens_to_surface: 38e-3 };
    assert!(focus_check(&job(low, 37.9e-3)).is_ok());
    for (focus, rise) in [(low, 38.1e-3), (FocusSetting::FromDatum { focus_z: 39e-3 }, 0.0)] {
        let error = focus_check(&job(focus, rise)).unwrap_err();
        assert_eq!((error.code(), error.param()), (4, Param::LensToHighest));
    }
}

proptest! {
    #![proptest_config(config())]

    /// The verdict is made of the parts that can be asked for one by one.
    #[test]
    fn made_of_its_parts(job in job()) {
        let verdict = check(&job);
        let focused = match job.raw_beam {
            RawBeam::Collimated { diameter_at_lens } => {
                focus_collimated(job.wavelength, job.m2, diameter_at_lens, job.focal_length)
            }
            RawBeam::Waist { waist_diameter, waist_to_lens } => {
                let raw = Beam { wavelength: job.wavelength, m2: job.m2, waist_diameter };
                focus_through_lens(&raw, waist_to_lens, job.focal_length)
            }
            other => panic!("{other:?}"),
        }
        .unwrap();
        prop_assert_eq!(verdict.focused, focused);
        prop_assert_eq!(verdict.validity, focused.validity);
        // The waist is rounded on its way out, and z_R goes with its square.
        let beam = Beam { wavelength: job.wavelength, m2: job.m2, waist_diameter: focused.waist_diameter };
        match depth_of_focus(&beam, job.criterion) {
            Ok(depth) => {
                let found = verdict.depth.unwrap();
                let steep = match job.criterion {
                    DepthCriterion::LargestDiameter { diameter } => {
                        let excess = diameter / beam.waist_diameter - 1.0;
                        1.0 / excess
                    }
                    _ => 0.0,
                };
                close(found.away_from_lens_z, depth.away_from_lens_z, 8.0 + 4.0 * steep);
                opposite(found.toward_lens_z, found.away_from_lens_z);
            }
            Err(_) => prop_assert!(verdict.depth.is_none()),
        }
        for place in [verdict.highest, verdict.datum, verdict.lowest] {
            let off = defocus(&beam, place.z_offset).unwrap();
            close(place.diameter, off.diameter, 8.0);
            close(place.growth, off.growth, 6.0);
            close(place.irradiance_ratio, off.irradiance_ratio, 8.0);
            close(place.line_dose_ratio, off.line_dose_ratio, 6.0);
            let detail = smallest_details(place.diameter, verdict.dose_ratio).unwrap();
            prop_assert_eq!(place.smallest, Some(detail));
            same_bits(place.seen_diameter, place.diameter);
            let holds = detail.bar <= job.finest_stroke && detail.gap <= job.finest_gap;
            prop_assert_eq!(place.details_hold, holds);
            prop_assert_eq!(place.in_depth, verdict.depth.is_some_and(|depth| depth.contains(place.z_offset)));
        }
    }

    #[test]
    fn heights_count_from_the_waist(job in job()) {
        let (verdict, focus) = (check(&job), focus_of(&job));
        // The grid makes these sums exact.
        prop_assert_eq!(verdict.focus_z, focus);
        prop_assert_eq!(verdict.highest.z_offset, -job.surface_rise - focus);
        prop_assert_eq!(verdict.datum.z_offset, -focus);
        prop_assert_eq!(verdict.lowest.z_offset, job.surface_fall - focus);
        prop_assert_eq!(verdict.best_focus_z, 0.5 * (job.surface_fall - job.surface_rise));
        // The datum lies between the ends, so that it is never the worst place.
        in_order(verdict.datum.growth, worst_growth(&verdict), 1.0);
    }

    /// The outcome and the reasons say what the places say.
    #[test]
    fn outcome_follows_from_the_places(job in job()) {
        let v = check(&job);
        let places = [v.highest, v.datum, v.lowest];
        let holds = places.iter().all(|place| place.details_hold);
        let in_depth = places.iter().all(|place| place.in_depth);
        let want = if !holds { Outcome::Lost } else if in_depth { Outcome::Holds } else { Outcome::HoldsOutOfFocus };
        prop_assert_eq!(v.outcome, want);

        let said = |reason| v.reasons.contains(reason);
        let (high, low) = (v.highest.smallest.unwrap(), v.lowest.smallest.unwrap());
        prop_assert_eq!(said(Reasons::STROKE_LOST_HIGH), high.bar > job.finest_stroke);
        prop_assert_eq!(said(Reasons::STROKE_LOST_LOW), low.bar > job.finest_stroke);
        prop_assert_eq!(said(Reasons::GAP_FILLED_HIGH), high.gap > job.finest_gap);
        prop_assert_eq!(said(Reasons::GAP_FILLED_LOW), low.gap > job.finest_gap);
        prop_assert!(!said(Reasons::NOTHING_MARKS));
        prop_assert_eq!(said(Reasons::HIGH_OUT_OF_FOCUS), !v.highest.in_depth);
        prop_assert_eq!(said(Reasons::LOW_OUT_OF_FOCUS), !v.lowest.in_depth);
        prop_assert_eq!(said(Reasons::NO_DEPTH), v.depth.is_none());
        // Too fine in the waist is too fine everywhere, and no focus helps.
        if said(Reasons::STROKE_TOO_FINE) {
            prop_assert!(said(Reasons::STROKE_LOST_HIGH) && said(Reasons::STROKE_LOST_LOW));
        }
        if said(Reasons::GAP_TOO_FINE) {
            prop_assert!(said(Reasons::GAP_FILLED_HIGH) && said(Reasons::GAP_FILLED_LOW));
        }
        let too_fine = said(Reasons::STROKE_TOO_FINE) || said(Reasons::GAP_TOO_FINE);
        prop_assert!(!(too_fine && (holds || said(Reasons::REFOCUS_HELPS))));
        // Good news comes without reasons, bad news never does.
        prop_assert_eq!(v.outcome == Outcome::Holds, v.reasons.bits() == 0);
        prop_assert_eq!(v.reasons.texts().count(), v.reasons.bits().count_ones() as usize);
        prop_assert!(v.validity == Validity::FINE || v.validity == Validity::WIDE_CONE);
    }

    /// Moving surface and focus together changes nothing but the datum.
    #[test]
    fn moving_everything_together(job in job(), share in 0.0f64..=1.0) {
        let lift = on_grid(share * job.surface_rise).min(job.surface_rise);
        let moved = Job {
            surface_rise: job.surface_rise - lift,
            surface_fall: job.surface_fall + lift,
            ..focused_at(&job, focus_of(&job) + lift)
        };
        let (a, b) = (check(&job), check(&moved));
        prop_assert_eq!((a.highest, a.lowest), (b.highest, b.lowest));
        prop_assert_eq!((a.outcome, a.reasons), (b.outcome, b.reasons));
        prop_assert_eq!((a.focused, a.depth, a.detail_range), (b.focused, b.depth, b.detail_range));
        prop_assert_eq!(a.best_focus_z + lift, b.best_focus_z);
        same_bits(a.best_worst_growth, b.best_worst_growth);
    }

    /// A surface turned over, with the focus on its other side, swaps high and low.
    #[test]
    fn turned_over(job in job()) {
        let turned = Job {
            surface_rise: job.surface_fall,
            surface_fall: job.surface_rise,
            ..focused_at(&job, -focus_of(&job))
        };
        let (a, b) = (check(&job), check(&turned));
        prop_assert_eq!(a.outcome, b.outcome);
        for (here, there) in [(a.highest, b.lowest), (a.lowest, b.highest), (a.datum, b.datum)] {
            opposite(here.z_offset, there.z_offset);
            prop_assert_eq!(Place { z_offset: 0.0, ..here }, Place { z_offset: 0.0, ..there });
        }
        opposite(a.best_focus_z, b.best_focus_z);
        let pairs = [
            (Reasons::STROKE_LOST_HIGH, Reasons::STROKE_LOST_LOW),
            (Reasons::GAP_FILLED_HIGH, Reasons::GAP_FILLED_LOW),
            (Reasons::HIGH_OUT_OF_FOCUS, Reasons::LOW_OUT_OF_FOCUS),
        ];
        for (high, low) in pairs {
            prop_assert_eq!(a.reasons.contains(high), b.reasons.contains(low));
            prop_assert_eq!(a.reasons.contains(low), b.reasons.contains(high));
        }
        prop_assert_eq!(a.reasons.contains(Reasons::REFOCUS_HELPS), b.reasons.contains(Reasons::REFOCUS_HELPS));
    }

    /// A collimated beam is one whose waist lies at the lens.
    #[test]
    fn collimated_is_a_waist_at_the_lens(job in job()) {
        if let RawBeam::Collimated { diameter_at_lens } = job.raw_beam {
            let raw_beam = RawBeam::Waist { waist_diameter: diameter_at_lens, waist_to_lens: 0.0 };
            prop_assert_eq!(check(&job), check(&Job { raw_beam, ..job }));
        }
    }

    /// The same place of the waist, told by the height of the lens.
    #[test]
    fn focus_by_the_height_of_the_lens(job in job(), share in 0.5f64..1.5) {
        let place = check(&job).focused.lens_to_waist;
        let lens_to_surface = share * place;
        prop_assume!(lens_to_surface > 1e-6);
        let by_height = check(&Job { focus: FocusSetting::LensHeight { lens_to_surface }, ..job });
        // The place of the waist is rounded on its way out.
        let budget = f64::EPSILON * place.abs();
        near(by_height.focus_z, place - lens_to_surface, budget);
        let by_datum = check(&focused_at(&job, by_height.focus_z));
        for (a, b) in [(by_height.highest, by_datum.highest), (by_height.lowest, by_datum.lowest)] {
            near(a.z_offset, b.z_offset, budget + f64::EPSILON * b.z_offset.abs());
        }
        prop_assert_eq!(by_height.focused, by_datum.focused);
        prop_assert_eq!(by_height.best_focus_z, by_datum.best_focus_z);
    }

    /// Focus set where the verdict says it is best gives the growth that it says.
    #[test]
    fn best_focus_keeps_its_word(job in job()) {
        let first = check(&job);
        let again = check(&focused_at(&job, first.best_focus_z));
        close(worst_growth(&again), first.best_worst_growth, 2.0);
        opposite(again.highest.z_offset, again.lowest.z_offset);
        in_order(first.best_worst_growth, worst_growth(&first), 2.0);
        let helps = first.outcome == Outcome::Lost && again.outcome != Outcome::Lost;
        prop_assert_eq!(first.reasons.contains(Reasons::REFOCUS_HELPS), helps);
        prop_assert!(!again.reasons.contains(Reasons::REFOCUS_HELPS));
    }

    /// Bands are proposed where they keep their word: where focus at mid-height does not do, each band holds
    /// in a focus of its own.
    #[test]
    fn bands_keep_their_word(job in job()) {
        let whole = check(&job);
        let proposed = whole.reasons.contains(Reasons::BANDS_HELP);
        prop_assert!(!(proposed && whole.reasons.contains(Reasons::REFOCUS_HELPS)));
        let span = job.surface_rise + job.surface_fall;
        if let Some(range) = whole.detail_range.filter(|range| proposed && range.full > span / 1000.0) {
            let bands = (span / range.full).ceil() + 1.0;
            prop_assert!(span > 0.999_999 * range.full);
            // A band, told from a datum of its own at its middle; they are all alike.
            let half = 0.5 * span / bands;
            let band = check(&Job { surface_rise: half, surface_fall: half, ..focused_at(&job, 0.0) });
            prop_assert_ne!(band.outcome, Outcome::Lost);
        }
        if whole.outcome == Outcome::Lost && whole.detail_range.is_some_and(|range| range.full > 0.0) {
            let room = whole.focused.lens_to_waist > span * 1.000_001;
            prop_assert!(!room || proposed || whole.reasons.contains(Reasons::REFOCUS_HELPS));
        }
    }

    /// Within the range of heights that it names, the detail holds; outside, it does not.
    #[test]
    fn detail_range(job in job()) {
        let verdict = check(&job);
        let in_waist = at_height(&job, 0.0);
        match verdict.detail_range {
            None => prop_assert!(!in_waist.details_hold),
            Some(range) => {
                prop_assert!(in_waist.details_hold);
                opposite(range.toward_lens_z, range.away_from_lens_z);
                for end in [range.toward_lens_z, range.away_from_lens_z] {
                    if end.abs() > 0.9 * verdict.focused.lens_to_waist {
                        continue; // the lens is in the way
                    }
                    // Close to the waist growth is flat, and a share of the end shows nothing.
                    let growth = at_height(&job, end).growth;
                    if growth > 1.0 + 1e-9 && end.abs() < 900.0 {
                        prop_assert!(at_height(&job, 0.999 * end).details_hold);
                        prop_assert!(!at_height(&job, 1.001 * end).details_hold);
                    }
                }
            }
        }
        let too_fine = verdict.reasons.contains(Reasons::STROKE_TOO_FINE) || verdict.reasons.contains(Reasons::GAP_TOO_FINE);
        prop_assert_eq!(verdict.detail_range.is_none(), too_fine);
    }

    /// The spot in focus, as it is told, is reached; and a detail that just holds there has a range.
    #[test]
    fn the_verdict_agrees_with_itself_in_the_waist(job in job()) {
        let found = check(&job);
        let spot = found.focused.waist_diameter;
        let detail = smallest_details(spot, found.dose_ratio).unwrap();
        let just = check(&Job {
            criterion: DepthCriterion::LargestDiameter { diameter: spot },
            finest_stroke: detail.bar,
            finest_gap: detail.gap,
            ..at_focus(&job)
        });
        prop_assert!(just.depth.is_some_and(|depth| depth.contains(0.0)));
        prop_assert!(just.detail_range.is_some_and(|range| range.contains(0.0)));
        prop_assert_eq!((just.outcome, just.reasons.bits()), (Outcome::Holds, 0));
        let below = DepthCriterion::LargestDiameter { diameter: spot.next_down() };
        let none = check(&Job { criterion: below, ..job }).depth;
        prop_assert!(none.is_none());
    }

    /// Focus at mid-height is told to help wherever it would.
    #[test]
    fn refocusing_is_told(job in job()) {
        let first = check(&job);
        let again = check(&focused_at(&job, first.best_focus_z));
        let in_depth = |v: &Verdict| v.highest.in_depth && v.datum.in_depth && v.lowest.in_depth;
        prop_assert_eq!(first.reasons.contains(Reasons::REFOCUS_SHARPENS), !in_depth(&first) && in_depth(&again));
    }

    /// A bolder drawing never fares worse.
    #[test]
    fn a_bolder_drawing(job in job(), stroke in 1.0f64..4.0, gap in 1.0f64..4.0) {
        let bolder = Job { finest_stroke: stroke * job.finest_stroke, finest_gap: gap * job.finest_gap, ..job };
        let (a, b) = (check(&job), check(&bolder));
        prop_assert!(b.outcome as u32 <= a.outcome as u32);
        prop_assert_eq!((a.highest.growth, a.lowest.growth), (b.highest.growth, b.lowest.growth));
    }

    /// A flat surface has one height.
    #[test]
    fn flat_surface(job in job()) {
        let v = check(&Job { surface_rise: 0.0, surface_fall: 0.0, ..job });
        prop_assert_eq!((v.highest, v.lowest), (v.datum, v.datum));
        prop_assert_eq!((v.best_focus_z, v.best_worst_growth), (0.0, 1.0));
    }
}

proptest! {
    #![proptest_config(few_cases())]

    /// No focus height has a smaller worst growth than the best.
    #[test]
    fn no_focus_beats_the_best(job in job()) {
        let best = check(&job).best_worst_growth;
        let reach = job.surface_rise + job.surface_fall;
        for step in 0..=300 {
            let focus_z = -job.surface_rise + reach * f64::from(step) / 300.0;
            in_order(best, worst_growth(&check(&focused_at(&job, focus_z))), 2.0);
        }
    }
}

// --- Expanders and real lenses -------------------------------------------------------------------

/// A waist, an expander and the way to the lens.
#[derive(Debug, Clone, Copy)]
struct Expander {
    waist_diameter: f64,
    waist_to_expander: f64,
    magnification: f64,
    exit_power: f64,
    expander_to_lens: f64,
}

fn expander() -> impl Strategy<Value = Expander> {
    (spread(1e-3, 5e-3), -1.0f64..2.0, spread(0.5, 4.0), -0.3f64..0.3, 0.0f64..3.0).prop_map(
        |(waist_diameter, waist_to_expander, magnification, exit_power, expander_to_lens)| Expander {
            waist_diameter,
            waist_to_expander,
            magnification,
            exit_power,
            expander_to_lens,
        },
    )
}

impl Expander {
    fn raw_beam(&self) -> RawBeam {
        let Self { waist_diameter, waist_to_expander, magnification, exit_power, expander_to_lens } = *self;
        RawBeam::Expanded { waist_diameter, waist_to_expander, magnification, exit_power, expander_to_lens }
    }
}

/// A lens on a machine with a carbon dioxide laser, whose aberration is weak, strong or too strong.
fn real_lens() -> impl Strategy<Value = (f64, Glass, LensShape, f64)> {
    let glass = prop::sample::select(vec![Glass::ZincSelenide, Glass::Germanium, Glass::GalliumArsenide]);
    let aperture = prop_oneof![3 => Just(f64::INFINITY), 2 => spread(4e-3, 30e-3)];
    (spread(30e-3, 0.3), glass, lens_shape(), aperture)
}

/// The job with its raw beam, light and lens exchanged, if it is still one.
fn with_lens(job: &Job, raw_beam: RawBeam, focal_length: f64, lens: JobLens) -> Job {
    Job { wavelength: 10.6e-6, m2: 1.0 + 0.2 * job.m2, raw_beam, focal_length, lens, ..at_focus(job) }
}

proptest! {
    #![proptest_config(config())]

    /// An expander before the lens is what a path of the same elements makes of the beam.
    #[test]
    fn expanded_job(job in job(), it in expander()) {
        let expanded = Job { raw_beam: it.raw_beam(), ..job };
        let Ok(verdict) = focus_check(&expanded) else { return Ok(()) };
        let axis = Axis { m2: job.m2, waist_diameter: it.waist_diameter, waist_z: -it.waist_to_expander };
        let raw = AstigmaticBeam { wavelength: job.wavelength, x: axis, y: axis };
        let elements = [
            Element::Expander { magnification: it.magnification, exit_power: it.exit_power },
            Element::Space { length: it.expander_to_lens },
            Element::ThinLens { focal_length: job.focal_length },
        ];
        let behind = beam_after_path(&raw, &elements).unwrap().beam.x;
        let focused = verdict.focused;
        let reach = 1.0 + (focused.lens_to_waist / focused.rayleigh_range).abs();
        near(focused.waist_diameter / behind.waist_diameter, 1.0, 64.0 * f64::EPSILON * reach);
        near(focused.lens_to_waist, behind.waist_z, 64.0 * f64::EPSILON * reach * focused.rayleigh_range);
        prop_assert_eq!(verdict.promised, verdict.outcome);
        prop_assert!(verdict.real.is_none());
    }

    /// An expander that does nothing is no expander.
    #[test]
    fn an_idle_expander(job in job(), it in expander()) {
        let idle = Expander { magnification: 1.0, exit_power: 0.0, expander_to_lens: on_grid(it.expander_to_lens), waist_to_expander: on_grid(it.waist_to_expander), ..it };
        let waist = RawBeam::Waist {
            waist_diameter: idle.waist_diameter,
            waist_to_lens: idle.waist_to_expander + idle.expander_to_lens,
        };
        match (focus_check(&Job { raw_beam: idle.raw_beam(), ..job }), focus_check(&Job { raw_beam: waist, ..job })) {
            (Ok(expanded), Ok(plain)) => {
                close(expanded.focused.waist_diameter, plain.focused.waist_diameter, 2.0);
                close(expanded.focused.lens_to_waist, plain.focused.lens_to_waist, 2.0);
                prop_assert_eq!(expanded.outcome, plain.outcome);
            }
            (expanded, plain) => prop_assert!(expanded.is_err() && plain.is_err()),
        }
    }

    /// With a real lens the verdict rests on its 86.5 %-power waist, and tells what the ideal one promised.
    #[test]
    fn a_real_lens(job in job(), it in expander(), (f, glass, shape, clear_aperture) in real_lens()) {
        let lens = JobLens::Singlet { glass, shape, clear_aperture };
        let waist = RawBeam::Waist { waist_diameter: it.waist_diameter, waist_to_lens: it.expander_to_lens };
        let real_job = with_lens(&job, waist, f, lens);
        let ideal_job = Job { lens: JobLens::Ideal, ..real_job };
        let raw = Beam { wavelength: real_job.wavelength, m2: real_job.m2, waist_diameter: it.waist_diameter };
        let singlet = Singlet { index: refractive_index(glass, raw.wavelength).unwrap().index, shape, focal_length: f };
        // The index is rounded on its way out, which a steep shape makes more of.
        let focus = focus_singlet(&raw, it.expander_to_lens, &singlet, clear_aperture);
        let (verdict, promised) = match (focus_check(&real_job), focus_check(&ideal_job)) {
            (Ok(verdict), Ok(promised)) => (verdict, promised),
            (Err(error), _) => {
                if error.param() == Param::NormalisedAberration {
                    prop_assert!(focus.unwrap().normalised_aberration > 1.7 * (1.0 - 1e-12));
                }
                return Ok(());
            }
            (Ok(_), Err(error)) => panic!("a real lens where the ideal one is refused: {error}"),
        };
        let (real, focus) = (verdict.real.unwrap(), focus.unwrap());
        prop_assert_eq!(verdict.focused, promised.focused);
        prop_assert_eq!(verdict.promised, promised.outcome);
        // Its places tell irradiance and line dose off focus.
        let off_focus = real.normalised_aberration > CAUTION_OFF_FOCUS_IRRADIANCE
            || real.clipping_ratio < CAUTION_OFF_FOCUS_CLIPPING;
        let flag = if off_focus { Validity::GAUSSIAN_OFF_FOCUS } else { Validity::FINE };
        prop_assert_eq!(verdict.validity, real.validity.union(flag));
        prop_assert_eq!(real.ideal, focus.ideal);
        close(real.power86.waist_diameter, focus.power86.waist_diameter, 64.0);
        close(real.second_moment.waist_diameter, focus.second_moment.waist_diameter, 64.0);
        close(real.normalised_aberration, focus.normalised_aberration, 256.0);
        let beam = Beam { m2: real.power86.m2, waist_diameter: real.power86.waist_diameter, ..raw };
        for place in [verdict.highest, verdict.datum, verdict.lowest] {
            let off = defocus(&beam, place.z_offset).unwrap();
            close(place.diameter, off.diameter, 16.0);
            close(place.growth, off.growth, 16.0);
        }
        // In focus nothing is better than an ideal lens whose focus lies as near; a share of the Rayleigh range
        // squared and less is beyond what that proportion says.
        let (in_focus, ideally) = (check(&at_focus(&real_job)).datum, check(&at_focus(&ideal_job)).datum);
        let nearer = real.power86.lens_to_waist / real.ideal.lens_to_waist;
        let beyond = real.relative_rayleigh_range.powi(2);
        prop_assert!(in_focus.diameter >= nearer * ideally.diameter * (1.0 - beyond - 1e-14));
        prop_assert!(!in_focus.details_hold || ideally.details_hold || in_focus.diameter < ideally.diameter);
    }

    /// A real lens that hardly aberrates says what the ideal one does.
    #[test]
    fn a_long_lens_is_ideal(job in job(), (_, glass, shape, _) in real_lens()) {
        let raw_beam = RawBeam::Collimated { diameter_at_lens: 1e-3 };
        let lens = JobLens::Singlet { glass, shape, clear_aperture: f64::INFINITY };
        let (Ok(real), Ok(ideal)) = (
            focus_check(&with_lens(&job, raw_beam, 0.5, lens)),
            focus_check(&with_lens(&job, raw_beam, 0.5, JobLens::Ideal)),
        ) else {
            return Ok(());
        };
        near(real.datum.diameter / ideal.datum.diameter, 1.0, 1e-6);
        if let (Some(a), Some(b)) = (real.depth, ideal.depth) {
            prop_assert!(b.full < 1e-3 * real.focused.rayleigh_range || (a.full / b.full - 1.0).abs() < 1e-2);
        }
    }

    /// The height of the lens counts from the real waist.
    #[test]
    fn the_height_of_a_real_lens(job in job(), (f, glass, shape, _) in real_lens(), share in 0.9f64..1.1) {
        let raw_beam = RawBeam::Collimated { diameter_at_lens: 6e-3 };
        let lens = JobLens::Singlet { glass, shape, clear_aperture: f64::INFINITY };
        let mut by_height = with_lens(&job, raw_beam, f, lens);
        let lens_to_surface = share * f;
        by_height.focus = FocusSetting::LensHeight { lens_to_surface };
        let Ok(verdict) = focus_check(&by_height) else { return Ok(()) };
        let place = verdict.real.unwrap().power86.lens_to_waist;
        near(verdict.focus_z, place - lens_to_surface, 2.0 * f64::EPSILON * place);
        near(verdict.datum.z_offset, lens_to_surface - place, 2.0 * f64::EPSILON * place);
    }
}
