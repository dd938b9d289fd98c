//! From a part and what its set-up may be off by to the lens that serves: the typed functions one after another.
//!
//! A brass tube of 120 mm, engraved 16 or 24 mm across, so that its crown is higher than the edges by
//! 60 − √(60² − 8²) = 0.535725 mm or 60 − √(60² − 12²) = 1.212246 mm. By hand, in mm: the fixture, ± 0.15, is
//! 0.15/√3; the height gauge 0.1/2; the backlash 0.05; together √(0.0075 + 0.0025 + 0.0025) = 0.111803. Of a normal
//! sum 95 % are within 1.959964 times that, 0.219131; the table is warm and 0.06 lower: 0.279131 at most.

use spotwise::units::{inch, mm, rad, um};
use spotwise::uom::si::f64::Length;
use spotwise::{
    BeamWidth, Bulge, CellsPerSide, Contribution, Criterion, Distribution, Drawing, Error, FocusSetting, Job,
    JobDose, Laser, Lens, LensCandidate, LensChoice, LensRanking, LensReasons, Offset, RawBeam, Region,
    RoundShape, RoundSize, SetUp, Surface, SurfaceExtent, SurfaceSlope, TablePlace, ToleranceSource,
    tolerance_stack,
};

#[path = "chain/calibration.rs"]
mod calibration;

const LENSES: usize = 2;

fn tube() -> Surface<'static> {
    let part = RoundShape {
        size: RoundSize::Diameter(mm(120.0)),
        bulge: Bulge::TowardLens,
        crown: TablePlace { x: mm(0.0), y: mm(0.0) },
        lean: SurfaceSlope::LEVEL,
    };
    Surface::Cylinder { part, axis_angle: rad(0.0) }
}

fn across(width: Length) -> Region {
    Region { x_least: mm(0.0), x_greatest: mm(50.0), y_least: -0.5 * width, y_greatest: 0.5 * width }
}

fn set_up() -> [Contribution; 3] {
    let fixture = Contribution {
        source: ToleranceSource::Fixture,
        distribution: Distribution::Uniform { half_width: mm(0.15) },
        mean: Offset::ZERO,
    };
    let gauge = Contribution {
        source: ToleranceSource::HeightGauge,
        distribution: Distribution::Normal { half_width: mm(0.1), coverage_factor: 2.0 },
        mean: Offset::ZERO,
    };
    let backlash = Contribution {
        source: ToleranceSource::Backlash,
        distribution: Distribution::TwoValued { half_width: mm(0.05) },
        mean: Offset::away_from_lens(mm(0.06)).unwrap(),
    };
    [fixture, gauge, backlash]
}

fn job() -> Job {
    Job {
        laser: Laser { wavelength: um(10.6), m_squared: 1.2 },
        raw_beam: RawBeam::WidthAtLens(BeamWidth::from_diameter_1e2(mm(7.0)).unwrap()),
        lens: Lens::new(inch(1.5)).into(),
        focus: FocusSetting::FromDatum(Offset::ZERO),
        surface: SurfaceExtent { rise: mm(0.0), fall: mm(0.0) },
        depth_criterion: Criterion::Rayleigh,
        drawing: Drawing { finest_stroke: mm(0.15), finest_gap: mm(0.15) },
        dose: JobDose::Ratio(2.7),
        text: None,
    }
}

/// The farther end of an interval, from where the surface should be.
fn farther(toward_lens: Offset, away_from_lens: Offset) -> Length {
    let (toward, away) = (toward_lens.distance(), away_from_lens.distance());
    if toward > away { toward } else { away }
}

/// The choice for a tube engraved so far across, with the tolerance of its set-up at 95 %.
fn chosen(width: Length) -> Result<(LensChoice, [LensRanking; LENSES]), Error> {
    let extremes = tube().extremes(across(width))?;
    let stack = tolerance_stack(&set_up(), 0.95)?;
    let set_up = SetUp {
        tolerance: farther(stack.expanded_toward_lens, stack.expanded_away_from_lens),
        least_clearance: mm(3.0),
    };
    // From the highest place down.
    let job = Job { surface: SurfaceExtent { rise: mm(0.0), fall: extremes.range }, ..job() };
    let lenses = [(1.5, 25.0), (2.5, 50.0)].map(|(focal_length, gap)| LensCandidate {
        lens: Lens::new(inch(focal_length)).into(),
        working_distance: mm(gap),
    });
    let mut rankings = [LensRanking::BLANK; LENSES];
    Ok((job.choose_lens(&lenses, set_up, &mut rankings)?, rankings))
}

/// Nanometres, as nothing here is told more finely.
fn nm(length: Length) -> f64 {
    (length.value * 1e9).round()
}

#[test]
fn a_part_and_its_set_up_choose_a_lens() {
    let stack = tolerance_stack(&set_up(), 0.95).unwrap();
    assert_eq!((nm(stack.deviation), nm(stack.expanded_half_width)), (111_803.0, 219_131.0));
    assert_eq!(stack.dominant.place, 0); // the fixture, with 0.0075 of 0.0125 mm²
    assert_eq!((stack.dominant.share * 1e9).round(), 6e8);

    let (narrow, rankings) = chosen(mm(16.0)).unwrap();
    assert_eq!(nm(narrow.half_span), 546_993.0); // 0.535725/2 + 0.279131
    assert_eq!(nm(narrow.focus_from_datum.z_away_from_lens()), 267_863.0); // below the crown
    assert_eq!((narrow.best, narrow.serving), (0, 2));
    assert!(rankings[0].reasons.contains(LensReasons::SMALLEST_ON_SURFACE));
    // They cross at √(0.479714·1.332163) = 0.799410: twice what is left of it over the tolerance.
    assert_eq!(nm(narrow.flip_span.unwrap()), 1_040_559.0);

    // Half as much again across, and the crown is above the edges by more than that.
    let (wide, rankings) = chosen(mm(24.0)).unwrap();
    assert_eq!(nm(wide.half_span), 885_254.0); // 1.212246/2 + 0.279131
    assert_eq!((wide.best, wide.flip_span), (1, narrow.flip_span));
    assert!(rankings[0].reasons.contains(LensReasons::SMALLEST_IN_FOCUS));
    assert!(rankings[1].reasons.contains(LensReasons::SMALLEST_ON_SURFACE));
}

/// What the choice says of a lens is what the verdict on the surface says of the same job, focus at mid-height and
/// the tolerance as rise and fall.
#[test]
fn the_choice_agrees_with_the_verdict_on_the_surface() {
    let (choice, rankings) = chosen(mm(16.0)).unwrap();
    let stack = tolerance_stack(&set_up(), 0.95).unwrap();
    let tolerance = farther(stack.expanded_toward_lens, stack.expanded_away_from_lens);
    // The crown of the tube is its datum.
    let job = Job {
        focus: FocusSetting::FromDatum(choice.focus_from_datum),
        surface: SurfaceExtent { rise: tolerance, fall: tolerance },
        ..job()
    };
    let found = job.check_on(&tube(), across(mm(16.0)), CellsPerSide::default()).unwrap();
    assert_eq!(found.extremes.range, tube().extremes(across(mm(16.0))).unwrap().range);
    let lens = rankings[0].found.unwrap();
    assert_eq!(found.verdict.outcome, lens.outcome);
    for place in [found.verdict.highest, found.verdict.lowest] {
        assert!((place.growth / lens.worst.growth - 1.0).abs() < 1e-14);
        assert!((nm(place.from_waist.distance()) - nm(choice.half_span)).abs() < 1e-9);
    }
}
