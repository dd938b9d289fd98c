//! Which lens serves best, and where the caustics of two beams cross.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, JobText, Outcome, RawBeam, focus_check};
use spotwise::model::focus::{CausticCrossing, DepthCriterion, Sharper, caustic_crossing, defocus};
use spotwise::model::lens_choice::{
    LensCandidate, LensChoice, LensRanking, LensReasons, MOST_LENSES, SetUp, choose_lens,
};
use spotwise::model::mark::{Response, TextGrade, TextGrades, Typeface};
use spotwise::model::optics::{Beam, Glass, LensShape, beam_parameters};
use spotwise::{Error, Param};

/// Two beams, often of one laser, whose waists differ by up to a hundred times.
fn two_beams() -> impl Strategy<Value = (Beam, Beam)> {
    (any_beam(), spread(1e-2, 1e2), spread(0.2, 5.0), any::<bool>()).prop_filter_map(
        "no beam",
        |(first, wider, poorer, same)| {
            let m2 = if same { first.m2 } else { (first.m2 * poorer).max(1.0) };
            let second = Beam { m2, waist_diameter: first.waist_diameter * wider, ..first };
            beam_parameters(&second).is_ok().then_some((first, second))
        },
    )
}

fn crossing(first: &Beam, second: &Beam) -> CausticCrossing {
    caustic_crossing(first, second).unwrap()
}

fn diameter(beam: &Beam, z: f64) -> f64 {
    defocus(beam, z).unwrap().diameter
}

fn other(sharper: Sharper) -> Sharper {
    match sharper {
        Sharper::First => Sharper::Second,
        Sharper::Second => Sharper::First,
        other => other,
    }
}

/// By how much an error of the diameters counts more where two caustics cross at a flat angle.
fn flatness(first: &Beam, second: &Beam, z: f64) -> f64 {
    let slope = |beam: &Beam| {
        let u = z / beam_parameters(beam).unwrap().rayleigh_range;
        u * u / (1.0 + u * u)
    };
    1.0 / (slope(first) - slope(second)).abs()
}

proptest! {
    #![proptest_config(config())]

    /// Both spots are equal there; this side the one is smaller, beyond it the other.
    #[test]
    fn the_spots_are_equal_where_they_cross((first, second) in two_beams()) {
        let found = crossing(&first, &second);
        let Some(at) = found.crossing else { return Ok(()) };
        prop_assume!(at.offset < 0.5e7);
        for beam in [&first, &second] {
            close(diameter(beam, at.offset), at.diameter, 4.0);
            close(diameter(beam, -at.offset), at.diameter, 4.0);
        }
        let (sharp, blunt) =
            if found.sharper_in_focus == Sharper::First { (&first, &second) } else { (&second, &first) };
        prop_assert_eq!(found.sharper_far_off, other(found.sharper_in_focus));
        for share in [0.0, 0.1, 0.5, 0.9] {
            in_order(diameter(sharp, share * at.offset), diameter(blunt, share * at.offset), 2.0);
        }
        for times in [1.1, 1.5, 2.0] {
            in_order(diameter(blunt, times * at.offset), diameter(sharp, times * at.offset), 2.0);
        }
    }

    /// The same place as is found by halving, looking at spots alone.
    #[test]
    fn as_found_by_halving((first, second) in two_beams()) {
        let found = crossing(&first, &second);
        let Some(at) = found.crossing else { return Ok(()) };
        prop_assume!(at.offset < 0.5e7);
        let is_before = |z: f64| {
            let (one, other) = (diameter(&first, z), diameter(&second, z));
            if found.sharper_in_focus == Sharper::First { one < other } else { other < one }
        };
        let (mut low, mut high) = (0.0, 1e7);
        for _ in 0..200 {
            let middle = 0.5 * (low + high);
            if is_before(middle) { low = middle } else { high = middle }
        }
        close(at.offset, low, 16.0 + 16.0 * flatness(&first, &second, at.offset));
    }

    /// Where they do not cross one is the smaller at every height.
    #[test]
    fn or_one_is_smaller_everywhere((first, second) in two_beams()) {
        let found = crossing(&first, &second);
        if found.crossing.is_some() {
            return Ok(());
        }
        let zr = beam_parameters(&first).unwrap().rayleigh_range;
        for u in [0.0, 1e-3, 0.1, 0.5, 1.0, 2.0, 10.0, 1e3] {
            let z = (u * zr).min(1e7);
            let (one, two) = (diameter(&first, z), diameter(&second, z));
            match (found.sharper_in_focus, found.sharper_far_off) {
                (Sharper::Neither, Sharper::Neither) => prop_assert_eq!(one, two),
                (Sharper::First, _) | (Sharper::Neither, Sharper::First) => in_order(one, two, 2.0),
                _ => in_order(two, one, 2.0),
            }
        }
    }

    #[test]
    fn neither_is_favoured((first, second) in two_beams()) {
        let (there, back) = (crossing(&first, &second), crossing(&second, &first));
        prop_assert_eq!(there.crossing, back.crossing);
        prop_assert_eq!(there.sharper_in_focus, other(back.sharper_in_focus));
        prop_assert_eq!(there.sharper_far_off, other(back.sharper_far_off));
        prop_assert_eq!((there.half_angle, there.validity), (back.half_angle, back.validity));
        let alone = crossing(&first, &first);
        prop_assert_eq!((alone.crossing, alone.sharper_in_focus), (None, Sharper::Neither));
    }

    /// Of one brightness: at √(z_R1·z_R2), with a spot of √(d₁² + d₂²).
    #[test]
    fn two_ideal_lenses_on_one_beam(first in any_beam(), wider in spread(1.0 + 1e-9, 1e2)) {
        let second = Beam { waist_diameter: first.waist_diameter * wider, ..first };
        let Ok(parameters) = beam_parameters(&second) else { return Ok(()) };
        let at = crossing(&first, &second).crossing.expect("the smaller waist spreads more");
        let zr = beam_parameters(&first).unwrap().rayleigh_range;
        close(at.offset, zr.sqrt() * parameters.rayleigh_range.sqrt(), 6.0);
        close(at.diameter, first.waist_diameter.hypot(second.waist_diameter), 6.0);
    }

    #[test]
    fn crossing_scales_with_all_lengths((first, second) in two_beams(), k in power_of_two()) {
        let larger = |beam: &Beam| {
            Beam { wavelength: k * beam.wavelength, waist_diameter: k * beam.waist_diameter, ..*beam }
        };
        let Ok(scaled) = caustic_crossing(&larger(&first), &larger(&second)) else { return Ok(()) };
        match (scaled.crossing, crossing(&first, &second).crossing) {
            (Some(scaled), Some(at)) => {
                same_bits(scaled.offset, k * at.offset);
                same_bits(scaled.diameter, k * at.diameter);
            }
            (scaled, at) => prop_assert_eq!(scaled, at),
        }
    }
}

fn lens() -> impl Strategy<Value = JobLens> {
    let shape = prop_oneof![
        Just(LensShape::BestForm),
        Just(LensShape::CurvedSideFirst),
        Just(LensShape::FlatSideFirst),
        (-1.0f64..3.0).prop_map(|factor| LensShape::ShapeFactor { factor }),
    ];
    let aperture = prop_oneof![Just(f64::INFINITY), spread(8e-3, 30e-3)];
    let glass = prop_oneof![9 => Just(Glass::ZincSelenide), 1 => Just(Glass::NBk7)];
    prop_oneof![
        3 => Just(JobLens::Ideal),
        1 => (glass, shape, aperture)
            .prop_map(|(glass, shape, clear_aperture)| JobLens::Singlet { glass, shape, clear_aperture }),
    ]
}

fn candidate() -> impl Strategy<Value = LensCandidate> {
    let focal_length = prop_oneof![9 => spread(25e-3, 200e-3), 1 => spread(1e-3, 25e-3)];
    (focal_length, lens(), 0.3f64..1.1).prop_map(|(focal_length, lens, share)| LensCandidate {
        focal_length,
        lens,
        working_distance: share * focal_length,
    })
}

fn dose() -> impl Strategy<Value = JobDose> {
    let scan = (spread(5.0, 50.0), spread(0.05, 2.0), spread(20e-6, 200e-6), 0.8f64..4.0, any::<bool>())
        .prop_map(|(power, speed, line_interval, ratio, melts)| JobDose::Scan {
            power,
            speed,
            line_interval,
            threshold: power / speed / line_interval / ratio,
            response: if melts { Response::Melt { diffusivity: 1e-7 } } else { Response::Coating },
        });
    prop_oneof![2 => (1.2f64..4.0).prop_map(|dose_ratio| JobDose::Ratio { dose_ratio }), 1 => scan]
}

fn text() -> impl Strategy<Value = Option<JobText>> {
    let some = (spread(0.3e-3, 5e-3), 1u32..=4).prop_map(|(em, grade)| {
        Some(JobText {
            typeface: Typeface::Sans,
            em,
            least_grade: TextGrade::from_code(grade).unwrap(),
            grades: TextGrades::default(),
        })
    });
    prop_oneof![2 => Just(None), 1 => some]
}

/// A job at 10.6 µm whose surface spans up to some depths of focus; its own lens and focus are no good.
fn job() -> impl Strategy<Value = Job> {
    let beam = (spread(3e-3, 15e-3), 1.0f64..2.0);
    let surface = prop_oneof![1 => Just((0.0, 0.0)), 4 => (0.0f64..3e-3, 0.0f64..3e-3)];
    let criterion = prop_oneof![
        3 => Just(DepthCriterion::Rayleigh),
        1 => spread(60e-6, 600e-6).prop_map(|diameter| DepthCriterion::LargestDiameter { diameter }),
    ];
    (beam, surface, criterion, spread(30e-6, 1e-3), spread(30e-6, 1e-3), dose(), text()).prop_map(
        |(
            (diameter_at_lens, m2),
            (surface_rise, surface_fall),
            criterion,
            finest_stroke,
            finest_gap,
            dose,
            text,
        )| Job {
            wavelength: 10.6e-6,
            m2,
            raw_beam: RawBeam::Collimated { diameter_at_lens },
            focal_length: f64::NAN,
            lens: JobLens::Ideal,
            focus: FocusSetting::FromDatum { focus_z: f64::NAN },
            surface_rise,
            surface_fall,
            criterion,
            finest_stroke,
            finest_gap,
            dose,
            text,
        },
    )
}

fn set_up() -> impl Strategy<Value = SetUp> {
    let tolerance = prop_oneof![Just(0.0), 0.0f64..1e-3];
    (tolerance, 0.0f64..30e-3).prop_map(|(tolerance, least_clearance)| SetUp { tolerance, least_clearance })
}

fn lenses() -> impl Strategy<Value = Vec<LensCandidate>> {
    prop::collection::vec(candidate(), 1..=MOST_LENSES)
}

/// A choice that is not refused as a whole: whatever light its lenses make.
fn chosen(job: &Job, lenses: &[LensCandidate], set_up: &SetUp) -> Option<(LensChoice, Vec<LensRanking>)> {
    let mut rankings = vec![LensRanking::BLANK; lenses.len()];
    let choice = choose_lens(job, lenses, set_up, &mut rankings).ok()?;
    Some((choice, rankings))
}

/// The rank of each lens, the long way round: each checked by itself on the widened surface, then sorted.
fn ranks_by_hand(job: &Job, lenses: &[LensCandidate], set_up: &SetUp) -> Vec<u32> {
    let half = 0.5 * (job.surface_rise + job.surface_fall) + set_up.tolerance;
    let mut keys: Vec<(usize, u32, f64, f64)> = Vec::new();
    for (place, lens) in lenses.iter().enumerate() {
        let focus_z = 0.25e-3;
        let job = Job {
            focal_length: lens.focal_length,
            lens: lens.lens,
            focus: FocusSetting::FromDatum { focus_z },
            surface_rise: (half - focus_z).max(0.0),
            surface_fall: half + focus_z,
            ..*job
        };
        // Where the rise would be negative the datum itself lies too high; then the waist is put at the datum.
        let job = if half < focus_z {
            Job {
                focus: FocusSetting::FromDatum { focus_z: 0.0 },
                surface_rise: half,
                surface_fall: half,
                ..job
            }
        } else {
            job
        };
        keys.push(match focus_check(&job) {
            Err(_) => (place, 3, 0.0, 0.0),
            Ok(verdict) => {
                let holds = matches!(verdict.outcome, Outcome::Holds | Outcome::HoldsOutOfFocus);
                let clear = lens.working_distance - half >= set_up.least_clearance;
                let class = if holds && clear {
                    0
                } else if holds {
                    1
                } else {
                    2
                };
                let worst = verdict.highest.diameter.max(verdict.lowest.diameter);
                (place, class, worst, -verdict.depth.map_or(0.0, |depth| depth.full))
            }
        });
    }
    keys.sort_by(|a, b| (a.1, a.2, a.3).partial_cmp(&(b.1, b.2, b.3)).unwrap());
    let mut ranks = vec![0; lenses.len()];
    for (rank, (place, ..)) in keys.iter().enumerate() {
        ranks[*place] = rank as u32 + 1;
    }
    ranks
}

/// Whether two of the lenses come so close that the last digit decides.
fn too_close(rankings: &[LensRanking]) -> bool {
    let worst: Vec<f64> = rankings.iter().filter_map(|lens| Some(lens.found.ok()?.worst.diameter)).collect();
    worst.iter().enumerate().any(|(i, a)| worst[..i].iter().any(|b| (a / b - 1.0).abs() < 1e-12))
}

proptest! {
    #![proptest_config(config())]

    /// The verdicts are those of the check, with focus at mid-height, and sorting them gives the same order.
    #[test]
    fn as_checked_one_by_one(job in job(), lenses in lenses(), set_up in set_up()) {
        let Some((choice, rankings)) = chosen(&job, &lenses, &set_up) else { return Ok(()) };
        prop_assume!(!too_close(&rankings));
        let ranks: Vec<u32> = rankings.iter().map(|lens| lens.rank).collect();
        prop_assert_eq!(&ranks, &ranks_by_hand(&job, &lenses, &set_up));
        prop_assert_eq!(rankings[choice.best].rank, 1);
        let serves = |lens: &&LensRanking| lens.reasons.contains(LensReasons::SERVES);
        prop_assert_eq!(choice.serving as usize, rankings.iter().filter(serves).count());
        // Those that serve stand before those that do not.
        for lens in &rankings {
            prop_assert_eq!(serves(&lens), lens.rank <= choice.serving);
            prop_assert_eq!(lens.reasons.contains(LensReasons::REFUSED), lens.found.is_err());
        }
    }

    /// A dense search over lenses and focus heights finds no lens that holds everything with a smaller worst spot than the
    /// first of those that serve has at mid-height. (A fill whose lines do not meet there may meet off focus: such a
    /// lens is not asked.)
    #[test]
    fn no_lens_at_any_height_is_better(job in job(), lenses in lenses(), set_up in set_up()) {
        let Some((choice, rankings)) = chosen(&job, &lenses, &set_up) else { return Ok(()) };
        prop_assume!(choice.serving > 0);
        let best = rankings[choice.best].found.unwrap().worst.diameter;
        let (rise, fall) = (job.surface_rise + set_up.tolerance, job.surface_fall + set_up.tolerance);
        for (lens, ranking) in lenses.iter().zip(&rankings) {
            let Ok(found) = ranking.found else { continue };
            if ranking.reasons.contains(LensReasons::FILL_HAS_GAPS)
                || lens.working_distance - 0.5 * (rise + fall) < set_up.least_clearance
            {
                continue;
            }
            for step in -40..=40 {
                let focus_z = 0.5 * (fall - rise) + 0.5 * (rise + fall + found.depth.map_or(0.0, |depth| depth.full)) * f64::from(step) / 40.0;
                let there = Job {
                    focal_length: lens.focal_length,
                    lens: lens.lens,
                    focus: FocusSetting::FromDatum { focus_z },
                    surface_rise: rise,
                    surface_fall: fall,
                    ..job
                };
                let Ok(verdict) = focus_check(&there) else { continue };
                let holds = matches!(verdict.outcome, Outcome::Holds | Outcome::HoldsOutOfFocus);
                let worst = verdict.highest.diameter.max(verdict.lowest.diameter);
                prop_assert!(!holds || worst >= best * (1.0 - 1e-12), "{worst} at {focus_z} against {best}");
            }
        }
    }

    /// What it finds of each lens is what the check says of the job on a surface about the waist.
    #[test]
    fn each_lens_as_the_check_finds_it(job in job(), lenses in lenses(), set_up in set_up()) {
        let Some((choice, rankings)) = chosen(&job, &lenses, &set_up) else { return Ok(()) };
        for (lens, ranking) in lenses.iter().zip(&rankings) {
            let alone = focus_check(&Job {
                focal_length: lens.focal_length,
                lens: lens.lens,
                focus: FocusSetting::FromDatum { focus_z: 0.0 },
                surface_rise: choice.half_span,
                surface_fall: choice.half_span,
                ..job
            });
            match (alone, &ranking.found) {
                (Ok(verdict), Ok(found)) => {
                    prop_assert_eq!(verdict.outcome, found.outcome);
                    prop_assert_eq!(verdict.lowest, found.worst);
                    prop_assert_eq!(verdict.depth, found.depth);
                    prop_assert_eq!(verdict.validity, found.validity);
                    close(found.clearance, lens.working_distance - choice.half_span, 4.0);
                    // The model has no lens whose mount ends below its focus; the order does not ask.
                    prop_assert_eq!(
                        ranking.reasons.contains(LensReasons::WORKING_DISTANCE_BEYOND_FOCUS),
                        lens.working_distance > found.lens_to_waist
                    );
                    // Spare room, looked for: the details hold just within it and no longer just beyond.
                    if let Some(spare) = found.spare_half_span {
                        let reach = choice.half_span + spare;
                        let at = |half: f64| {
                            let job = Job {
                                focal_length: lens.focal_length,
                                lens: lens.lens,
                                focus: FocusSetting::FromDatum { focus_z: 0.0 },
                                surface_rise: 0.0,
                                surface_fall: half,
                                ..job
                            };
                            focus_check(&job).map(|verdict| verdict.lowest.details_hold)
                        };
                        if reach > 1e-9 && reach < 1e2 {
                            prop_assert_eq!(at(reach * (1.0 - 1e-6)).ok(), Some(true));
                            prop_assert_eq!(at(reach * (1.0 + 1e-6)).ok(), Some(false));
                        }
                    }
                }
                (Err(error), Err(refused)) => prop_assert_eq!(&error, refused),
                (alone, found) => panic!("{alone:?} but {found:?}"),
            }
        }
    }

    /// More tolerance never makes a lens better.
    #[test]
    fn tolerance_never_helps(job in job(), lenses in lenses(), set_up in set_up(), more in 0.0f64..1e-3) {
        let wider = SetUp { tolerance: set_up.tolerance + more, ..set_up };
        let (Some((_, before)), Some((_, after))) =
            (chosen(&job, &lenses, &set_up), chosen(&job, &lenses, &wider)) else { return Ok(()) };
        for (before, after) in before.iter().zip(&after) {
            if after.reasons.contains(LensReasons::SERVES) {
                prop_assert!(before.reasons.contains(LensReasons::SERVES));
            }
            if let (Ok(before), Ok(after)) = (&before.found, &after.found) {
                in_order(before.worst.diameter, after.worst.diameter, 2.0);
                prop_assert!(after.clearance <= before.clearance);
                if let (Some(before), Some(after)) = (before.spare_half_span, after.spare_half_span) {
                    prop_assert!(after <= before);
                }
            }
        }
    }

    /// Naming the lenses in another order changes nothing but the order in which they are named.
    #[test]
    fn order_of_naming(job in job(), mut lenses in lenses(), set_up in set_up(), by in 0usize..8) {
        let Some((choice, rankings)) = chosen(&job, &lenses, &set_up) else { return Ok(()) };
        prop_assume!(!too_close(&rankings) && rankings.iter().filter(|lens| lens.found.is_err()).count() < 2);
        let by = by % lenses.len();
        lenses.rotate_left(by);
        let (turned, mut turned_rankings) = chosen(&job, &lenses, &set_up).unwrap();
        turned_rankings.rotate_right(by);
        prop_assert_eq!(&turned_rankings, &rankings);
        prop_assert_eq!((turned.serving, turned.half_span), (choice.serving, choice.half_span));
        prop_assert_eq!((turned.crossing, turned.flip_span), (choice.crossing, choice.flip_span));
    }

    /// A lens whose light cannot be followed stands last, says why, and changes nothing for the others.
    #[test]
    fn a_bad_lens_spoils_nothing(job in job(), lenses in lenses(), set_up in set_up(), at in 0usize..8) {
        prop_assume!(lenses.len() < MOST_LENSES);
        let Some((choice, rankings)) = chosen(&job, &lenses, &set_up) else { return Ok(()) };
        let at = at % (lenses.len() + 1);
        let mut more = lenses.clone();
        // f/0.1: its cone is far wider than the model allows.
        more.insert(at, LensCandidate { focal_length: 1e-4, lens: JobLens::Ideal, working_distance: 0.0 });
        let (with, mut all) = chosen(&job, &more, &set_up).unwrap();
        let bad = all.remove(at);
        let refused = matches!(bad.found, Err(Error::OutsideModel { .. }));
        prop_assert!(refused);
        prop_assert_eq!(bad.reasons, LensReasons::REFUSED);
        for (alone, together) in rankings.iter().zip(&all) {
            prop_assert_eq!((alone.reasons, &alone.found), (together.reasons, &together.found));
            if alone.found.is_ok() {
                prop_assert!(alone.rank == together.rank && together.rank < bad.rank);
            }
        }
        prop_assert_eq!((with.serving, with.crossing), (choice.serving, choice.crossing));
    }

    /// Two lenses of which both serve swap where the choice says, and there alone.
    #[test]
    fn the_order_flips_where_it_says(
        diameter_at_lens in spread(4e-3, 14e-3),
        short in spread(30e-3, 60e-3),
        longer in 1.1f64..4.0,
        tolerance in 0.0f64..1e-3,
        lens in lens(),
    ) {
        let job = Job {
            wavelength: 10.6e-6,
            m2: 1.2,
            raw_beam: RawBeam::Collimated { diameter_at_lens },
            focal_length: f64::NAN,
            lens: JobLens::Ideal,
            focus: FocusSetting::FromDatum { focus_z: f64::NAN },
            surface_rise: 0.0,
            surface_fall: 0.0,
            criterion: DepthCriterion::Rayleigh,
            finest_stroke: 10.0,
            finest_gap: 10.0,
            dose: JobDose::Ratio { dose_ratio: 2.7 },
            text: None,
        };
        let lenses =
            [short, short * longer].map(|focal_length| LensCandidate { focal_length, lens, working_distance: 1.0 });
        let set_up = SetUp { tolerance, least_clearance: 0.0 };
        let Some((choice, _)) = chosen(&job, &lenses, &set_up) else { return Ok(()) };
        let best_at = |span: f64| {
            let job = Job { surface_rise: 0.3 * span, surface_fall: 0.7 * span, ..job };
            chosen(&job, &lenses, &set_up).map(|(choice, rankings)| {
                (choice.best, rankings.iter().all(|lens| lens.reasons.contains(LensReasons::SERVES)))
            })
        };
        let Some(flip) = choice.flip_span else {
            // No span flips it: whatever the surface, the same lens is the best, as long as both reach.
            for span in [1e-5, 1e-4, 1e-3, 3e-3] {
                if let Some((best, true)) = best_at(span) {
                    prop_assert_eq!(best, choice.best);
                }
            }
            return Ok(());
        };
        if let (Some((flatter, true)), Some((rougher, true))) = (best_at(0.999 * flip), best_at(1.001 * flip)) {
            prop_assert_eq!(flatter, choice.best);
            prop_assert_eq!(rougher, 1 - choice.best);
        }
    }
}

/// Every argument is refused by name, and every entry then holds the error.
#[test]
fn every_argument_is_refused() {
    let job = Job {
        wavelength: 10.6e-6,
        m2: 1.2,
        raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
        focal_length: f64::NAN,
        lens: JobLens::Ideal,
        focus: FocusSetting::LensHeight { lens_to_surface: f64::NAN },
        surface_rise: 0.1e-3,
        surface_fall: 0.1e-3,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 0.1e-3,
        finest_gap: 0.1e-3,
        dose: JobDose::Ratio { dose_ratio: 2.7 },
        text: None,
    };
    let shape = LensShape::CurvedSideFirst;
    let real = |shape, clear_aperture| JobLens::Singlet { glass: Glass::ZincSelenide, shape, clear_aperture };
    let good = LensCandidate { focal_length: 38.1e-3, lens: real(shape, 18e-3), working_distance: 30e-3 };
    let set_up = SetUp { tolerance: 0.1e-3, least_clearance: 3e-3 };
    let refused = |job: &Job, lens: LensCandidate, set_up: SetUp| {
        let mut rankings = [LensRanking::BLANK; 2];
        let error = choose_lens(job, &[good, lens], &set_up, &mut rankings).unwrap_err();
        for entry in &rankings {
            assert_eq!((entry.rank, entry.reasons, &entry.found), (0, LensReasons::default(), &Err(error)));
        }
        error.param()
    };
    assert!(choose_lens(&job, &[good; 2], &set_up, &mut [LensRanking::BLANK; 2]).is_ok());
    for bad in [f64::NAN, f64::INFINITY, -1.0, 1e300] {
        let jobs = [
            (Param::Wavelength, Job { wavelength: bad, ..job }),
            (Param::M2, Job { m2: bad, ..job }),
            (Param::DiameterAtLens, Job { raw_beam: RawBeam::Collimated { diameter_at_lens: bad }, ..job }),
            (Param::SurfaceRise, Job { surface_rise: bad, ..job }),
            (Param::SurfaceFall, Job { surface_fall: bad, ..job }),
            (Param::GrowthRatio, Job { criterion: DepthCriterion::Growth { ratio: bad }, ..job }),
            (Param::FinestStroke, Job { finest_stroke: bad, ..job }),
            (Param::FinestGap, Job { finest_gap: bad, ..job }),
            (Param::AnyDoseRatio, Job { dose: JobDose::Ratio { dose_ratio: bad }, ..job }),
        ];
        for (param, job) in jobs {
            assert_eq!(refused(&job, good, set_up), param);
        }
        assert_eq!(refused(&job, good, SetUp { tolerance: bad, ..set_up }), Param::SetUpTolerance);
        assert_eq!(refused(&job, good, SetUp { least_clearance: bad, ..set_up }), Param::LeastClearance);
        assert_eq!(refused(&job, LensCandidate { focal_length: bad, ..good }, set_up), Param::FocalLength);
        let far = LensCandidate { working_distance: bad, ..good };
        assert_eq!(refused(&job, far, set_up), Param::WorkingDistance);
        let bent =
            LensCandidate { lens: real(LensShape::ShapeFactor { factor: 200.0 * bad }, 18e-3), ..good };
        assert_eq!(refused(&job, bent, set_up), Param::ShapeFactor);
        if bad != f64::INFINITY {
            let stopped = LensCandidate { lens: real(shape, bad), ..good };
            assert_eq!(refused(&job, stopped, set_up), Param::ClearAperture);
        }
    }
    let deep = Job { surface_rise: 900.0, surface_fall: 900.0, ..job };
    assert_eq!(refused(&deep, good, SetUp { tolerance: 200.0, ..set_up }), Param::SurfaceRise);
}

#[test]
fn numbers_of_lenses() {
    let beam = RawBeam::Collimated { diameter_at_lens: 7e-3 };
    let job = Job {
        wavelength: 10.6e-6,
        m2: 1.2,
        raw_beam: beam,
        focal_length: f64::NAN,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: f64::NAN },
        surface_rise: 0.0,
        surface_fall: 0.0,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 0.1e-3,
        finest_gap: 0.1e-3,
        dose: JobDose::Ratio { dose_ratio: 2.7 },
        text: None,
    };
    let lens = LensCandidate { focal_length: 38.1e-3, lens: JobLens::Ideal, working_distance: 30e-3 };
    let set_up = SetUp { tolerance: 0.0, least_clearance: 0.0 };
    let choose = |lenses: usize, entries: usize| {
        let mut rankings = vec![LensRanking::BLANK; entries];
        choose_lens(&job, &vec![lens; lenses], &set_up, &mut rankings)
    };
    for count in [0, MOST_LENSES + 1, 1000] {
        let error = choose(count, count).unwrap_err();
        assert_eq!((error.code(), error.param(), error.value()), (2, Param::LensCandidates, count as f64));
    }
    let error = choose(2, 3).unwrap_err();
    assert_eq!((error.code(), error.param(), error.value()), (6, Param::Output, 3.0));
    // The same lens over and over: in the order in which it was named, and no two to cross.
    for count in 1..=MOST_LENSES {
        let mut rankings = vec![LensRanking::BLANK; count];
        let choice = choose_lens(&job, &vec![lens; count], &set_up, &mut rankings).unwrap();
        assert_eq!((choice.best, choice.serving as usize, choice.crossing), (0, count, None));
        let ranks: Vec<usize> = rankings.iter().map(|lens| lens.rank as usize).collect();
        assert_eq!(ranks, (1..=count).collect::<Vec<_>>());
    }
}
