//! What would help: each answer holds, and a little beyond it does not.

use crate::cases::all;
use crate::plate::{PITCH, bilevel, level};
use crate::preflight::{of_case, run};
use spotwise::artwork::{
    Answer, BeamCandidate, Demand, Preflight, RankedBeam, Scan, TrialRoom, Watch, best_focus_z, focus_reach,
    focus_reach_words, rank_beams, rank_beams_words, smallest_scale, smallest_scale_words,
};
use spotwise::model::optics::beam_parameters;
use spotwise::model::surface::Surface;
use spotwise::{Error, Param};

fn in_room<T>(preflight: &Preflight<'_>, words: usize, work: impl FnOnce(&mut TrialRoom<'_>) -> T) -> T {
    let mut exposure = vec![7; preflight.drawing.width * preflight.drawing.height];
    let mut words = vec![u64::MAX; words];
    work(&mut TrialRoom { exposure: &mut exposure, words: &mut words })
}

fn holds(preflight: &Preflight<'_>, demand: Demand) -> bool {
    let report = run(preflight).report;
    match demand {
        Demand::Apart => report.holds(),
        _ => !report.is_broken() && report.topology.holes_closed == 0,
    }
}

/// The reach of the focus, against tries of our own at and beyond its ends. A level part makes both sides alike.
#[test]
fn beyond_the_reach_of_focus_it_does_not_hold() {
    let case = all().into_iter().find(|case| case.name == "digits_z000").unwrap();
    let preflight = of_case(&case);
    let rayleigh_range = beam_parameters(&preflight.exposing.beam).unwrap().rayleigh_range;
    let mut reaches = Vec::new();
    for demand in [Demand::Legible, Demand::Apart] {
        let words = focus_reach_words(&preflight, 1, &mut Watch::quiet()).unwrap();
        let reach =
            in_room(&preflight, words, |room| focus_reach(&preflight, demand, room, &mut Watch::quiet()));
        let reach = reach.unwrap();
        assert_eq!(reach.toward_lens, reach.away_from_lens);
        assert!(!reach.toward_lens_is_open);
        let at = |away: f64| {
            let mut moved = preflight;
            moved.exposing.focus_z += away;
            holds(&moved, demand)
        };
        assert!(at(reach.away_from_lens) && at(-reach.toward_lens));
        assert!(!at(reach.away_from_lens + rayleigh_range / 125.0));
        reaches.push(reach.away_from_lens);
    }
    assert!(reaches[0] >= reaches[1], "to be apart as well is to ask for more");
}

/// The smallest scale holds, one 1.5 % smaller does not; a drawing that is lost must be made larger.
#[test]
fn below_the_smallest_scale_it_does_not_hold() {
    for (name, more) in [("digits_z000", false), ("digits_z200", true)] {
        let case = all().into_iter().find(|case| case.name == name).unwrap();
        let preflight = of_case(&case);
        let Scan::AlongRows { line_interval, first_line } = preflight.exposing.scan else { panic!("lines") };
        let words = smallest_scale_words(&preflight, 1, &mut Watch::quiet()).unwrap();
        let scale = in_room(&preflight, words, |room| {
            smallest_scale(&preflight, Demand::Legible, room, &mut Watch::quiet())
        })
        .unwrap();
        assert_eq!(scale > 1.0, more, "{name}: {scale}");
        let at = |scale: f64| {
            let mut scaled = preflight;
            scaled.drawing.pitch_x *= scale;
            scaled.drawing.pitch_y *= scale;
            // The lines of a raster are its rows.
            let (line_interval, first_line) = (scale * line_interval, scale * first_line);
            scaled.exposing.scan = Scan::AlongRows { line_interval, first_line };
            holds(&scaled, Demand::Legible)
        };
        assert!(at(scale), "{name}: {scale}");
        assert!(!at(scale / 1.015), "{name}: {scale}");
    }
}

/// On a tilted plane the best focus is at mid-height of the ink, and no other makes the worst spot smaller.
#[test]
fn the_best_focus_makes_the_greatest_spot_least() {
    let case = all().into_iter().find(|case| case.name == "tilt_8deg_3pt").unwrap();
    let mut preflight = of_case(&case);
    let best = best_focus_z(&preflight, &mut Watch::quiet()).unwrap();
    let greatest = |focus_z: f64| {
        preflight.exposing.focus_z = focus_z;
        run(&preflight).report.spots.greatest_diameter
    };
    let ends = [best, best - 0.02e-3, best + 0.02e-3].map(greatest);
    assert!(ends[0] < ends[1] && ends[0] < ends[2], "{ends:?}");
}

/// Of two lenses on one raw beam the shorter serves a level part in focus, the longer one that strays far enough.
#[test]
fn the_longer_lens_serves_the_part_that_strays() {
    let case = all().into_iter().find(|case| case.name == "text_4pt_focus").unwrap();
    let mut preflight = of_case(&case);
    let short = preflight.exposing.beam;
    let longer = spotwise::model::optics::Beam { waist_diameter: 142e-6, ..short };
    let candidates = [longer, short].map(|beam| BeamCandidate { beam, focus_z: 0.0 });
    let mut first = |surface| {
        preflight.exposing.surface = surface;
        let words = rank_beams_words(&preflight, &candidates, 1, &mut Watch::quiet()).unwrap();
        let mut ranking = [RankedBeam::NONE; 2];
        in_room(&preflight, words, |room| {
            rank_beams(&preflight, &candidates, &mut ranking, room, &mut Watch::quiet())
        })
        .unwrap();
        ranking.map(|ranked| ranked.candidate)
    };
    assert_eq!(first(Surface::Plane { slope_x: 0.0, slope_y: 0.0 }), [1, 0]);
    assert_eq!(first(Surface::Plane { slope_x: 0.4, slope_y: 0.0 }), [0, 1]);
}

/// Bars scanned by lines 90 µm apart, with a waist radius of 30 µm, a Rayleigh range of 1.5 mm, and 1.2 of that out of
/// focus. There the radius is 46.9 µm and the lines may be 117 µm apart. They are too far apart for less than 36 µm, which
/// is nearer to the focus than √(1.2² − 1) = 0.6633 Rayleigh ranges: the focus may come 0.5367 of them nearer.
#[test]
fn lines_too_far_apart_do_not_hold() {
    let (width, height) = (260, 200);
    let bars: Vec<u8> = (0..width * height)
        .map(|pixel| (pixel % width, pixel / width))
        .map(|(x, y)| {
            u8::from((60..120).contains(&x) || (180..240).contains(&x)) * u8::from((30..170).contains(&y))
        })
        .collect();
    let rayleigh_range = 50.0 * 3.0 * PITCH;
    let scan = Scan::AlongRows { line_interval: 90e-6, first_line: 45e-6 };
    let mut preflight = Preflight {
        drawing: bilevel(&bars, width),
        exposing: level(3.0, scan),
        answer: Answer::Coating,
        dose_ratio: 10.0,
        edge_tolerance: PITCH,
        speck_area: 0.0,
    };
    let refused = |error: Error| {
        let Error::OutsideModel { param: Param::LineInterval, value, greatest, .. } = error else {
            panic!("{error}")
        };
        assert!(value == 90e-6 && (greatest - 75e-6).abs() < 1e-18, "{value} {greatest}");
    };
    let (demand, quiet) = (Demand::Apart, &mut Watch::quiet());
    refused(focus_reach_words(&preflight, 1, quiet).unwrap_err());
    refused(smallest_scale_words(&preflight, 1, quiet).unwrap_err());
    in_room(&preflight, 1_000_000, |room| {
        refused(focus_reach(&preflight, demand, room, &mut Watch::quiet()).unwrap_err());
        refused(smallest_scale(&preflight, demand, room, &mut Watch::quiet()).unwrap_err());
    });

    let fine = preflight.exposing.beam;
    preflight.exposing.focus_z = 1.2 * rayleigh_range;
    let words = focus_reach_words(&preflight, 1, quiet).unwrap();
    let reach = in_room(&preflight, words, |room| focus_reach(&preflight, demand, room, &mut Watch::quiet()))
        .unwrap();
    let toward = reach.toward_lens / rayleigh_range;
    assert!(toward <= 0.5367 && toward > 0.5367 - 1.0 / 127.0 && !reach.toward_lens_is_open, "{toward}");
    assert!(reach.away_from_lens > 0.0);

    let candidates = [0.0, preflight.exposing.focus_z].map(|focus_z| BeamCandidate { beam: fine, focus_z });
    let words = rank_beams_words(&preflight, &candidates, 1, quiet).unwrap();
    let mut ranking = [RankedBeam::NONE; 2];
    in_room(&preflight, words, |room| {
        rank_beams(&preflight, &candidates, &mut ranking, room, &mut Watch::quiet())
    })
    .unwrap();
    let [first, last] = ranking;
    assert!(first.candidate == 1 && first.window.ratio() > 1.0 && first.greatest_diameter > 93e-6);
    assert!(last.candidate == 0 && last.window.ratio().is_nan() && last.greatest_diameter.is_nan());

    // On a slope a larger drawing reaches where the spot is finer, in the end too fine for the lines: these tries are
    // answered too.
    preflight.exposing.surface = Surface::Plane { slope_x: 0.1, slope_y: 0.0 };
    let words = smallest_scale_words(&preflight, 1, quiet).unwrap();
    let scale =
        in_room(&preflight, words, |room| smallest_scale(&preflight, demand, room, &mut Watch::quiet()));
    assert!((0.25..1.0).contains(&scale.unwrap()));
    preflight.dose_ratio = 0.5;
    let scale =
        in_room(&preflight, words, |room| smallest_scale(&preflight, demand, room, &mut Watch::quiet()));
    assert!(scale.unwrap().is_nan());
}
