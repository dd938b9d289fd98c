//! What would help: each answer holds, and a little beyond it does not.

use crate::cases::all;
use crate::preflight::{of_case, run};
use spotwise::artwork::{
    BeamCandidate, Demand, Preflight, RankedBeam, TrialRoom, Watch, best_focus_z, focus_reach,
    focus_reach_words, rank_beams, rank_beams_words, smallest_scale, smallest_scale_words,
};
use spotwise::model::optics::beam_parameters;
use spotwise::model::surface::Surface;

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
        let mut preflight = of_case(&case);
        preflight.exposing.scan = spotwise::artwork::Scan::Unknown;
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
