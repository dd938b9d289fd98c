//! The verdict on a job whose surface has a shape.

use super::check::{focus_of, focused_at, job};
use super::given::*;
use super::strips::{Run, cells_over, counted_share, runs};
use proptest::prelude::*;
use spotwise::model::check::{Job, Outcome, Reasons, SurfaceVerdict, focus_check, surface_check};
use spotwise::model::focus::FocusRange;
use spotwise::model::surface::{Bulge, Region, Surface, surface_at};
use spotwise::{CAUTION_INCIDENCE, Error, Param};

/// So wide that no surface of these tests is steep enough to lose its dose.
const HALF: f64 = 0.5;
const REGION: Region = Region { x_least: -HALF, x_greatest: HALF, y_least: -HALF, y_greatest: HALF };

fn check_on(job: &Job, surface: &Surface) -> SurfaceVerdict {
    surface_check(job, surface, &REGION, 16).unwrap()
}

/// A surface of a region, with the bilinear cells that its area is measured by.
#[derive(Debug, Clone)]
enum Ground {
    Smooth(Surface<'static>),
    Steps([f64; 5], [f64; 4]),
    /// Lines alike in x and in y. One probe of its middle, at most, found nothing.
    Grid([f64; 4], [f64; 16]),
}

impl Ground {
    fn surface(&self) -> Surface<'_> {
        match self {
            Self::Smooth(surface) => *surface,
            Self::Steps(edges, z) => Surface::Steps { edges, z },
            Self::Grid(lines, z) => Surface::Grid { x: lines, y: lines, z },
        }
    }

    fn counted(&self) -> Vec<Run> {
        let surface = self.surface();
        if matches!(surface, Surface::Cylinder { .. } | Surface::Sphere { .. }) {
            let (x, y, z) = cells_over(&surface, &REGION, 16);
            return runs(&Surface::Grid { x: &x, y: &y, z: &z }, &REGION, 40);
        }
        runs(&surface, &REGION, 100)
    }
}

/// A job whose rise and fall are a small part of the range of its surface: a plane, a bar, a dome, steps, a grid, or
/// a grid with a hole.
fn job_on_surface() -> impl Strategy<Value = (Job, Ground)> {
    let heights = prop::array::uniform16(0.0f64..1.0);
    (job(), 0u32..6, 0.0f64..0.2, -1.0f64..1.0, heights).prop_map(|(job, kind, slack, lean, heights)| {
        let range = (job.surface_rise + job.surface_fall).clamp(1e-9, 0.04 * HALF);
        let radius = (HALF * HALF + range * range) / (2.0 * range) * 2.0;
        let (bulge, slope_x, slope_y) = (Bulge::TowardLens, 0.2 * lean * range / HALF, 0.0);
        let (crown_x, crown_y, axis_angle) = (0.1 * HALF, 0.0, 0.0);
        let mut z = heights.map(|part| range * (part - 0.5 + 0.5 * lean));
        let ground = match kind {
            0 => Ground::Smooth(Surface::Plane {
                slope_x: lean * range / (2.0 * HALF),
                slope_y: 0.2 * range / HALF,
            }),
            1 => Ground::Smooth(Surface::Cylinder {
                radius,
                bulge,
                crown_x,
                crown_y,
                axis_angle,
                slope_x,
                slope_y,
            }),
            2 => Ground::Smooth(Surface::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y }),
            3 => Ground::Steps([-HALF, -0.4 * HALF, 0.3 * HALF, 0.5 * HALF, HALF], [z[0], z[1], z[2], z[3]]),
            _ => {
                // Beside its edge lies a part of the region too, of which nothing is known.
                let lines = if kind == 4 { HALF } else { 0.9 * HALF };
                if kind == 5 {
                    z[5] = f64::NAN;
                }
                Ground::Grid([-lines, -0.5 * lines, 0.4 * lines, lines], z)
            }
        };
        let (surface_rise, surface_fall) = (slack * job.surface_rise, slack * job.surface_fall);
        (Job { surface_rise, surface_fall, ..job }, ground)
    })
}

/// Places all over the region, its corners and edges among them.
fn places() -> impl Iterator<Item = (f64, f64)> {
    let along = |i: i32| f64::from(i) / 8.0 * HALF;
    (-8..=8).flat_map(move |i| (-8..=8).map(move |j| (along(i), along(j))))
}

/// The job at one place of the surface, wherever within rise and fall that lies: its datum is the place.
fn at_place(job: &Job, z: f64) -> Job {
    focused_at(job, focus_of(job) - z)
}

proptest! {
    /// A level plane is a job without a shape, but that no bands divide rise and fall.
    #[test]
    fn level_plane_has_the_verdict_of_the_job(job in job()) {
        let found = check_on(&job, &Surface::Plane { slope_x: 0.0, slope_y: 0.0 });
        let plain = focus_check(&job).unwrap();
        let bands = |reasons: Reasons| reasons.contains(Reasons::BANDS_HELP);
        if bands(found.verdict.reasons) == bands(plain.reasons) {
            prop_assert_eq!(found.verdict, plain);
        } else {
            prop_assert!(!bands(found.verdict.reasons) && found.bands.is_none());
            prop_assert_eq!(found.verdict.outcome, plain.outcome);
            prop_assert_eq!((found.verdict.highest, found.verdict.lowest), (plain.highest, plain.lowest));
        }
        prop_assert_eq!((found.steepest_stretch, found.steepest_irradiance_factor), (1.0, 1.0));
    }

    /// A dense search never finds a place that is worse than the verdict says.
    #[test]
    fn no_place_is_worse((job, ground) in job_on_surface()) {
        let surface = ground.surface();
        let found = check_on(&job, &surface);
        let worst = found.verdict.highest.growth.max(found.verdict.lowest.growth);
        let mut known = 0;
        for (x, y) in places() {
            // In a hole, or beside the grid.
            let Ok(at) = surface_at(&surface, x, y) else { continue };
            known += 1;
            let Ok(there) = focus_check(&at_place(&job, at.z)) else { continue };
            in_order(there.highest.growth.max(there.lowest.growth), worst * (1.0 + 1e-12), 8.0);
            if found.verdict.outcome != Outcome::Lost {
                prop_assert!(there.highest.details_hold && there.lowest.details_hold);
            }
        }
        prop_assert!(known > 100);
    }

    /// Shares are what a count over many strips finds between the ends of the depth and of what holds.
    #[test]
    fn shares_are_what_is_counted((job, ground) in job_on_surface()) {
        let found = check_on(&job, &ground.surface());
        let runs = ground.counted();
        let focus = focus_of(&job);
        // What the verdict tells of ranges, the same on any surface, narrowed by rise and fall.
        let count = |range: Option<FocusRange>| {
            let Some(range) = range else { return (0.0, 0.0) };
            let least = focus + range.toward_lens_z + job.surface_rise;
            let greatest = focus + range.away_from_lens_z - job.surface_fall;
            let last = 1e-15 + 8.0 * f64::EPSILON * (least.abs() + greatest.abs());
            (counted_share(&runs, least + last, greatest - last), counted_share(&runs, least - last, greatest + last))
        };
        let in_waist = focus_check(&Job { surface_rise: 0.0, surface_fall: 0.0, ..focused_at(&job, 0.0) }).unwrap();
        // The drawn jobs have no text.
        let holding = in_waist.detail_range.filter(|_| in_waist.highest.details_hold);
        for (share, (least, most)) in
            [(found.share_in_depth, count(in_waist.depth)), (found.share_that_holds, count(holding))]
        {
            prop_assert!(share > least - 2e-3 && share < most + 2e-3, "{share}, counted {least} to {most}");
        }
    }

    /// Where nothing holds at the worst place, the verdict is lost; where it is out of focus, so is the verdict.
    #[test]
    fn worst_place_is_a_place_of_the_surface((job, ground) in job_on_surface()) {
        let surface = ground.surface();
        let found = check_on(&job, &surface);
        let z = surface_at(&surface, found.worst_x, found.worst_y).unwrap().z;
        near(z, found.worst_z, 1e-15 + 8.0 * f64::EPSILON * z.abs());
        let there = focus_check(&at_place(&job, found.worst_z)).unwrap();
        let holds = there.highest.details_hold && there.lowest.details_hold;
        prop_assert_eq!(found.verdict.outcome == Outcome::Lost, !holds);
    }

    /// In as many bands as it says, each with rise and fall in a focus of its own, all of it holds; in one fewer it
    /// does not.
    #[test]
    fn bands_keep_their_word((job, ground) in job_on_surface()) {
        let found = check_on(&job, &ground.surface());
        let in_waist = focus_check(&Job { surface_rise: 0.0, surface_fall: 0.0, ..focused_at(&job, 0.0) }).unwrap();
        let Some(bands) = found.bands else {
            let room = in_waist.detail_range.map_or(0.0, |range| range.full);
            prop_assert!(room <= (job.surface_rise + job.surface_fall) * (1.0 + 1e-9));
            return Ok(());
        };
        prop_assert!(in_waist.highest.details_hold);
        let outcome_in = |bands: f64| {
            let half = 0.5 * found.extremes.range / bands;
            let band = Job { surface_rise: half + job.surface_rise, surface_fall: half + job.surface_fall, ..job };
            let middle = 0.5 * (band.surface_fall - band.surface_rise);
            focus_check(&focused_at(&band, middle)).map(|verdict| verdict.outcome)
        };
        let slack = 1.0 + 1e-6;
        if let Ok(outcome) = outcome_in(f64::from(bands) * slack) {
            prop_assert_ne!(outcome, Outcome::Lost);
        }
        if bands > 1
            && let Ok(outcome) = outcome_in(f64::from(bands - 1) / slack)
        {
            prop_assert_eq!(outcome, Outcome::Lost);
        }
    }

    /// A surface turned over, with its focus on its other side, swaps high and low and keeps its shares.
    #[test]
    fn turned_over(job in job(), slope in -4e-4f64..4e-4) {
        let turned = Job { surface_rise: job.surface_fall, surface_fall: job.surface_rise, ..focused_at(&job, -focus_of(&job)) };
        let a = check_on(&job, &Surface::Plane { slope_x: slope, slope_y: 0.0 });
        let b = surface_check(&turned, &Surface::Plane { slope_x: -slope, slope_y: 0.0 }, &REGION, 1);
        let Ok(b) = b else { return Ok(()) };
        prop_assert_eq!(a.verdict.outcome, b.verdict.outcome);
        prop_assert_eq!(a.bands, b.bands);
        near(a.share_in_depth, b.share_in_depth, 1e-12);
        near(a.share_that_holds, b.share_that_holds, 1e-12);
    }

    /// Steep is what leans by more than the caution.
    #[test]
    fn steep_is_said_above_the_caution(slope in 0.0f64..0.8) {
        let job = Job { surface_rise: 0.0, surface_fall: 0.0, ..a_job() };
        let region = Region { x_least: 0.0, x_greatest: 1e-5, y_least: 0.0, y_greatest: 1e-5 };
        let found = surface_check(&job, &Surface::Plane { slope_x: slope, slope_y: 0.0 }, &region, 1).unwrap();
        prop_assert_eq!(found.verdict.reasons.contains(Reasons::STEEP), slope.atan() > CAUTION_INCIDENCE);
        close(found.steepest_stretch, slope.hypot(1.0), 4.0);
    }
}

/// The job of the documentation.
fn a_job() -> Job {
    use spotwise::model::check::{FocusSetting, JobDose, JobLens, RawBeam};
    use spotwise::model::focus::DepthCriterion;
    Job {
        wavelength: 10.6e-6,
        m2: 1.2,
        raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
        focal_length: 38.1e-3,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: 0.0 },
        surface_rise: 0.0,
        surface_fall: 0.0,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 0.1e-3,
        finest_gap: 0.1e-3,
        dose: JobDose::Ratio { dose_ratio: 2.7 },
        text: None,
    }
}

/// The job of the documentation, as a scan of lines this far apart that brings 2.7 times what just marks.
fn lines(interval: f64) -> Job {
    use spotwise::model::check::JobDose;
    use spotwise::model::mark::Response;
    let (power, speed) = (20.0, 0.2);
    let threshold = power / (speed * interval) / 2.7;
    let dose =
        JobDose::Scan { power, speed, line_interval: interval, threshold, response: Response::Coating };
    Job { finest_stroke: 1e-3, finest_gap: 1e-3, dose, ..a_job() }
}

/// A fill on two steps has the gaps that it has on either of them, wherever focus is, and none of its own where focus lies
/// between them; and where another focus is said to help, it does.
#[test]
fn a_fill_is_judged_where_the_surface_is() {
    let has_gaps = |reasons: Reasons| reasons.contains(Reasons::FILL_HAS_GAPS);
    let (mut with, mut without, mut only_between, mut helped) = (0, 0, 0, 0);
    for tens in 6..30 {
        for half in [0.1e-3, 0.3e-3, 0.6e-3, 1.2e-3] {
            let heights = [-half, half];
            let steps = Surface::Steps { edges: &[-HALF, 0.1 * HALF, HALF], z: &heights };
            for focus in -20..=20 {
                let focus_z = f64::from(focus) * 0.1e-3;
                let job = focused_at(&lines(f64::from(tens) * 10e-6), focus_z);
                let job = Job { surface_rise: 0.02e-3, surface_fall: 0.05e-3, ..job };
                let found = surface_check(&job, &steps, &REGION, 1).unwrap().verdict;
                let on_steps = heights.map(|z| focus_check(&at_place(&job, z)).unwrap());
                let on_either = on_steps.iter().any(|there| has_gaps(there.reasons));
                assert_eq!(has_gaps(found.reasons), on_either, "{job:?} on {heights:?}");
                let nearest = if focus_z.abs() < 1e-9 { found.datum.z_offset.abs() } else { 0.0 };
                assert!(nearest == 0.0 || (nearest - half + 0.05e-3).abs() < 1e-12, "{found:?}");
                with += u32::from(on_either);
                without += u32::from(!on_either);
                let between = Job { surface_rise: half + 0.02e-3, surface_fall: half + 0.05e-3, ..job };
                only_between += u32::from(!on_either && has_gaps(focus_check(&between).unwrap().reasons));
                let at_best =
                    surface_check(&focused_at(&job, found.best_focus_z), &steps, &REGION, 1).unwrap();
                let holds_at_best = at_best.verdict.outcome != Outcome::Lost;
                if found.outcome == Outcome::Lost {
                    assert_eq!(found.reasons.contains(Reasons::REFOCUS_HELPS), holds_at_best, "{found:?}");
                    helped += u32::from(holds_at_best);
                }
            }
        }
    }
    assert!(
        with > 100 && without > 100 && only_between > 100 && helped > 100,
        "{with} {without} {only_between} {helped}"
    );
}

/// The same of a grid, whose only cells with all their probes lie apart in height.
#[test]
fn a_hole_in_a_grid_is_no_surface() {
    let (x, nan) = ([-HALF, -0.5 * HALF, 0.5 * HALF, HALF], f64::NAN);
    let (high, low) = (-0.6e-3, 0.6e-3);
    let row = [high, high, low, low];
    let z = [row, row].concat();
    // With all its probes the grid has a slope that passes through focus; without those of the middle column…
    let whole = Surface::Grid { x: &x, y: &[-HALF, HALF], z: &z };
    let x = [-HALF, -0.5 * HALF, 0.0, 0.5 * HALF, HALF];
    let row = [high, high, nan, low, low];
    let z = [row, row].concat();
    let holed = Surface::Grid { x: &x, y: &[-HALF, HALF], z: &z };
    let job = Job { surface_rise: 0.0, surface_fall: 0.0, ..lines(110e-6) };
    let gaps = |surface: &Surface| {
        let found = surface_check(&job, surface, &REGION, 1).unwrap().verdict;
        (found.reasons.contains(Reasons::FILL_HAS_GAPS), found.datum.z_offset)
    };
    assert_eq!(gaps(&whole), (true, 0.0));
    // …it leaves no gaps, and of the two places as near the datum the one toward the lens is told.
    assert_eq!(gaps(&holed), (false, high));
}

/// Bands are said to help only where their number is told.
#[test]
fn no_more_than_a_million_bands_help() {
    let level = focus_check(&Job { finest_stroke: 1e-3, finest_gap: 1e-3, ..a_job() }).unwrap();
    let finest = level.highest.smallest.unwrap();
    for (more, expected) in [(1e-13, false), (1e-9, true)] {
        let finest = finest.bar.max(finest.gap) * (1.0 + more);
        let job = Job { finest_stroke: finest, finest_gap: finest, ..a_job() };
        let found = check_on(&job, &Surface::Plane { slope_x: 1e-3, slope_y: 0.0 });
        assert_eq!(found.verdict.outcome, Outcome::Lost);
        assert_eq!(found.bands.is_some(), expected, "{found:?}");
        assert_eq!(found.verdict.reasons.contains(Reasons::BANDS_HELP), expected);
    }
}

/// Surface, region and cells are refused before the job's numbers.
#[test]
fn refusals_come_in_order() {
    let plane = Surface::Plane { slope_x: 0.0, slope_y: 0.0 };
    let bad_job = Job { m2: f64::NAN, ..a_job() };
    let refused = |surface: &Surface, region: &Region, cells| {
        let error: Error = surface_check(&bad_job, surface, region, cells).unwrap_err();
        error.param()
    };
    assert_eq!(refused(&Surface::Plane { slope_x: 9.0, slope_y: 0.0 }, &REGION, 0), Param::SlopeX);
    assert_eq!(refused(&plane, &Region { x_least: f64::NAN, ..REGION }, 0), Param::RegionX);
    assert_eq!(refused(&plane, &REGION, 0), Param::CellsPerSide);
    assert_eq!(refused(&plane, &REGION, 1001), Param::CellsPerSide);
    assert_eq!(refused(&plane, &REGION, 1), Param::M2);
}
