//! Short lens or long lens.

use super::{CO2, LONG_LENS, SHORT_LENS};
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, RawBeam};
use spotwise::model::focus::{DepthCriterion, Sharper, caustic_crossing};
use spotwise::model::lens_choice::{LensCandidate, LensRanking, LensReasons, SetUp, choose_lens};
use spotwise::model::optics::{Beam, beam_parameters};

/// Common practice, no source: "a short lens for fine detail on flat parts, a long one for parts that bow". Spots
/// of 85 and 142 µm at 10.6 µm, with Rayleigh ranges of 0.535 and 1.486 mm, swap near 0.9 mm from focus.
#[test]
fn spots_of_85_and_142_um_swap_near_0_9_mm() {
    let beam = |waist_diameter: f64, rayleigh_range: f64| {
        let m2 = std::f64::consts::PI * waist_diameter * waist_diameter / (4.0 * CO2 * rayleigh_range);
        let beam = Beam { wavelength: CO2, m2, waist_diameter };
        assert!((beam_parameters(&beam).unwrap().rayleigh_range / rayleigh_range - 1.0).abs() < 1e-12);
        beam
    };
    let found = caustic_crossing(&beam(85e-6, 0.535e-3), &beam(142e-6, 1.486e-3)).unwrap();
    let at = found.crossing.unwrap();
    println!("they swap {:.3} mm from focus, both {:.1} um wide", at.offset * 1e3, at.diameter * 1e6);
    assert!((at.offset - 0.9e-3).abs() < 0.02e-3);
    assert_eq!((found.sharper_in_focus, found.sharper_far_off), (Sharper::First, Sharper::Second));
}

/// The same saying, of a whole job: 0.1 mm of stroke and gap on a flat part, then on one that bows by 2.4 mm.
#[test]
fn a_short_lens_for_flat_parts_and_a_long_one_for_bowed_parts() {
    let job = |span: f64, finest: f64| Job {
        wavelength: CO2,
        m2: 1.2,
        raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
        focal_length: SHORT_LENS,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: 0.0 },
        surface_rise: 0.0,
        surface_fall: span,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: finest,
        finest_gap: finest,
        dose: JobDose::Ratio { dose_ratio: 2.7 },
        text: None,
    };
    let lenses = [SHORT_LENS, LONG_LENS].map(|focal_length| LensCandidate {
        focal_length,
        lens: JobLens::Ideal,
        working_distance: 0.7 * focal_length,
    });
    let set_up = SetUp { tolerance: 0.2e-3, least_clearance: 3e-3 };
    let mut rankings = [LensRanking::BLANK; 2];

    // Fine detail on a flat part: the long lens's spot is too large for it even in focus.
    let flat = choose_lens(&job(0.0, 50e-6), &lenses, &set_up, &mut rankings).unwrap();
    assert_eq!((flat.best, flat.serving), (0, 1));
    assert!(rankings[1].reasons.contains(LensReasons::SPOT_TOO_LARGE));
    // Coarser detail on a bowed one: the short lens loses it at the ends.
    let bowed = choose_lens(&job(2.4e-3, 0.12e-3), &lenses, &set_up, &mut rankings).unwrap();
    assert_eq!((bowed.best, bowed.serving), (1, 1));
    assert!(rankings[0].reasons.contains(LensReasons::DEPTH_TOO_SHORT));
    assert!(rankings[1].reasons.contains(LensReasons::DEEPEST));
    // Where neither loses it the flip is the same for both parts, and lies between them.
    assert_eq!(flat.flip_span, bowed.flip_span);
    assert!(bowed.flip_span.unwrap() < 2.4e-3);
    // A high clamp takes the short lens out, whatever its spot.
    let clamped = SetUp { least_clearance: 35e-3, ..set_up };
    let choice = choose_lens(&job(0.0, 0.2e-3), &lenses, &clamped, &mut rankings).unwrap();
    assert_eq!((choice.best, choice.serving), (1, 1));
    assert!(rankings[0].reasons.contains(LensReasons::CLEARANCE_TOO_SMALL));
}
