//! The choice of a lens against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::beam;
use super::raw::{Expected, choice, compare, near, words_of};
use crate::abi::Plain;
use crate::check::spotwise_job;
use crate::crossing::*;
use crate::error::spotwise_error;
use crate::lens_choice::*;
use crate::status::*;
use proptest::prelude::*;
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, Place, RawBeam};
use spotwise::model::focus::{self, DepthCriterion};
use spotwise::model::lens_choice::{self, LensCandidate, LensRanking, LensReasons, SetUp};
use spotwise::{Error, Param};
use std::ffi::CStr;

/// A lens, for C and for the model, which may refuse it.
fn candidate() -> impl Strategy<Value = (spotwise_lens_candidate, Result<LensCandidate, Error>)> {
    let choices = (choice(2), prop_oneof![9 => Just(1u32), 1 => choice(8)], choice(4));
    (choices, near(60e-3), near(1.0), near(20e-3), near(40e-3)).prop_map(
        |((lens, glass, lens_shape), focal_length, shape_factor, clear_aperture, working_distance)| {
            let c = spotwise_lens_candidate {
                lens,
                glass,
                lens_shape,
                focal_length_m: focal_length,
                shape_factor,
                clear_aperture_m: clear_aperture,
                working_distance_m: working_distance,
                ..spotwise_lens_candidate::BLANK
            };
            let lens = JobLens::from_code(lens, glass, lens_shape, shape_factor, clear_aperture);
            (c, lens.map(|lens| LensCandidate { focal_length, lens, working_distance }))
        },
    )
}

/// A job on a bowed part and its set-up, for C and for the model.
fn job() -> impl Strategy<Value = ((spotwise_job, spotwise_set_up), (Job, SetUp))> {
    (near(7e-3), near(0.5e-3), near(0.5e-3), near(0.15e-3), near(0.1e-3), near(3e-3)).prop_map(
        |(diameter_at_lens, surface_rise, surface_fall, finest, tolerance, least_clearance)| {
            let c = spotwise_job {
                raw_beam: SPOTWISE_RAW_BEAM_COLLIMATED,
                criterion: SPOTWISE_CRITERION_RAYLEIGH,
                dose: crate::choices::SPOTWISE_DOSE_BY_RATIO,
                text: crate::choices::SPOTWISE_TEXT_NONE,
                wavelength_m: 10.6e-6,
                m2: 1.2,
                diameter_at_lens_m: diameter_at_lens,
                surface_rise_m: surface_rise,
                surface_fall_m: surface_fall,
                finest_stroke_m: finest,
                finest_gap_m: finest,
                dose_ratio: 2.7,
                ..spotwise_job::BLANK
            };
            let set_up = spotwise_set_up {
                tolerance_m: tolerance,
                least_clearance_m: least_clearance,
                ..spotwise_set_up::BLANK
            };
            let model = Job {
                wavelength: 10.6e-6,
                m2: 1.2,
                raw_beam: RawBeam::Collimated { diameter_at_lens },
                focal_length: f64::NAN,
                lens: JobLens::Ideal,
                focus: FocusSetting::FromDatum { focus_z: f64::NAN },
                surface_rise,
                surface_fall,
                criterion: DepthCriterion::Rayleigh,
                finest_stroke: finest,
                finest_gap: finest,
                dose: JobDose::Ratio { dose_ratio: 2.7 },
                text: None,
            };
            ((c, set_up), (model, SetUp { tolerance, least_clearance }))
        },
    )
}

fn expected_place(place: &Place) -> Expected {
    let finest = place.smallest.map_or([f64::NAN; 4], |d| [d.bar, d.gap, d.dot_diameter, d.hole_diameter]);
    Expected::of::<crate::check::spotwise_place>()
        .word(u32::from(place.details_hold))
        .word(u32::from(place.in_depth))
        .word(0)
        .numbers(&[
            place.z_offset,
            place.diameter,
            place.growth,
            place.irradiance_ratio,
            place.line_dose_ratio,
            place.seen_diameter,
        ])
        .numbers(&finest)
        .numbers(&[f64::NAN; 4])
}

fn expected_ranking(ranking: &LensRanking) -> Expected {
    let head = |outcome, validity| {
        Expected::of::<spotwise_lens_ranking>()
            .word(ranking.rank)
            .word(ranking.reasons.bits())
            .word(outcome)
            .word(validity)
            .word(0)
    };
    let report = Expected::of::<spotwise_error>();
    match &ranking.found {
        Ok(found) => head(found.outcome as u32, found.validity.bits())
            .nested(report.word(0).word(0).word(0).numbers(&[f64::NAN; 3]))
            .numbers(&[
                found.waist_diameter,
                found.rayleigh_range,
                found.lens_to_waist,
                found.depth.map_or(f64::NAN, |depth| depth.full),
                found.spare_half_span.unwrap_or(f64::NAN),
                found.clearance,
            ])
            .nested(expected_place(&found.worst)),
        Err(error) => {
            let (least, greatest) = error.allowed();
            let report = report.word(error.code()).word(error.param() as u32).word(0);
            let nothing = crate::check::spotwise_place::BLANK;
            head(0, 0)
                .nested(report.numbers(&[error.value(), least, greatest]))
                .numbers(&[f64::NAN; 6])
                .nested(Expected(words_of(&nothing)))
        }
    }
}

proptest! {
    #[test]
    fn caustic_crossing((c1, first) in beam(), (c2, second) in beam()) {
        let model = focus::caustic_crossing(&first, &second).map(|found| {
            let at = found.crossing.map_or([f64::NAN; 2], |at| [at.offset, at.diameter]);
            Expected::of::<spotwise_caustic_crossing_result>()
                .word(found.validity.bits())
                .word(found.sharper_in_focus as u32)
                .word(found.sharper_far_off as u32)
                .numbers(&at)
                .numbers(&[found.half_angle])
        });
        compare(|out, error| unsafe { spotwise_caustic_crossing(&c1, &c2, out, error) }, model)?;
    }

    #[test]
    fn choose_lens(
        ((c_job, c_set_up), (job, set_up)) in job(),
        lenses in prop::collection::vec(candidate(), 0..=9),
    ) {
        let count = lenses.len();
        let c_lenses: Vec<_> = lenses.iter().map(|(c, _)| *c).collect();
        let candidates: Result<Vec<_>, Error> = lenses.iter().map(|(_, lens)| *lens).collect();
        let mut expected = vec![LensRanking::BLANK; count];
        let (least, greatest) = Param::LensCandidates.range();
        let value = count as f64;
        let model = match candidates {
            _ if count == 0 || count > 8 => {
                Err(Error::OutOfRange { param: Param::LensCandidates, value, least, greatest })
            }
            Ok(candidates) => lens_choice::choose_lens(&job, &candidates, &set_up, &mut expected),
            Err(error) => Err(error),
        };
        let mut rankings = vec![spotwise_lens_ranking { rank: 77, ..spotwise_lens_ranking::BLANK }; count];
        let start = rankings.as_mut_ptr();
        let answer = model.map(|found| {
            let at = found.crossing.map_or([f64::NAN; 2], |at| [at.offset, at.diameter]);
            Expected::of::<spotwise_lens_choice>()
                .word(found.serving)
                .word(found.best as u32)
                .word(0)
                .numbers(&[found.focus_z, found.half_span])
                .numbers(&at)
                .numbers(&[found.flip_span.unwrap_or(f64::NAN)])
        });
        let failed = answer.is_err();
        compare(
            |out, error| unsafe {
                spotwise_choose_lens(&c_job, c_lenses.as_ptr(), count, &c_set_up, start, out, error)
            },
            answer,
        )?;
        for (got, expected) in rankings.iter().zip(&expected) {
            let wanted = if failed { words_of(&spotwise_lens_ranking::BLANK) } else { expected_ranking(expected).0 };
            prop_assert_eq!(words_of(got), wanted);
        }
    }
}

#[test]
fn every_reason_has_its_sentence() {
    for (reason, sentence) in LensReasons::ALL {
        let text = spotwise_lens_reason_text(reason.bits());
        assert_eq!(unsafe { CStr::from_ptr(text) }.to_str().unwrap(), sentence);
    }
}
