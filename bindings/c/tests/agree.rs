//! Each function against the model: the same bits, the same codes, the same reports.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::raw::{Expected, choice, compare, near, place, ratio, share};
use crate::abi::Plain;
use crate::astigmatic::*;
use crate::beam::*;
use crate::check::*;
use crate::error::spotwise_error;
use crate::focus::*;
use crate::lens::*;
use crate::mark::*;
use crate::width::*;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::model::check::{FocusSetting, Job, Place, RawBeam, Verdict};
use spotwise::model::focus::{DepthCriterion, FocusRange};
use spotwise::model::optics::{AstigmaticBeam, Axis, Beam, FocusedBeam, WidthDefinition};
use spotwise::model::{check, focus, mark, optics};

fn number(result: Result<f64, Error>) -> Result<Expected, Error> {
    result.map(|number| Expected::default().numbers(&[number]))
}

/// A round beam, for C and for the model.
fn beam() -> impl Strategy<Value = (spotwise_beam, Beam)> {
    (near(1e-6), ratio(), near(80e-6)).prop_map(|(wavelength, m2, waist_diameter)| {
        let c = spotwise_beam {
            wavelength_m: wavelength,
            m2,
            waist_diameter_m: waist_diameter,
            ..spotwise_beam::BLANK
        };
        (c, Beam { wavelength, m2, waist_diameter })
    })
}

fn axis(waist_diameter: f64) -> impl Strategy<Value = Axis> {
    (ratio(), near(waist_diameter), place(1e-3)).prop_map(|(m2, waist_diameter, waist_z)| Axis {
        m2,
        waist_diameter,
        waist_z,
    })
}

/// An astigmatic beam, for C and for the model.
fn astigmatic(waist_diameter: f64) -> impl Strategy<Value = (spotwise_astigmatic_beam, AstigmaticBeam)> {
    (near(1e-6), axis(waist_diameter), axis(waist_diameter)).prop_map(|(wavelength, x, y)| {
        let c = spotwise_astigmatic_beam {
            wavelength_m: wavelength,
            m2_x: x.m2,
            waist_diameter_x_m: x.waist_diameter,
            waist_z_x_m: x.waist_z,
            m2_y: y.m2,
            waist_diameter_y_m: y.waist_diameter,
            waist_z_y_m: y.waist_z,
            ..spotwise_astigmatic_beam::BLANK
        };
        (c, AstigmaticBeam { wavelength, x, y })
    })
}

/// A criterion, for C and for the model, which may refuse it.
fn criterion() -> impl Strategy<Value = (spotwise_depth_criterion, Result<DepthCriterion, Error>)> {
    (choice(5), ratio(), share(), near(100e-6)).prop_map(|(code, growth_ratio, drop, largest_diameter)| {
        let c = spotwise_depth_criterion {
            criterion: code,
            growth_ratio,
            drop,
            largest_diameter_m: largest_diameter,
            ..spotwise_depth_criterion::BLANK
        };
        (c, DepthCriterion::from_code(code, growth_ratio, drop, largest_diameter))
    })
}

fn focused_beam(result: Result<FocusedBeam, Error>) -> Result<Expected, Error> {
    result.map(|focused| {
        Expected::of::<spotwise_focused_beam>().word(focused.validity.bits()).numbers(&[
            focused.waist_diameter,
            focused.rayleigh_range,
            focused.divergence_full_angle,
            focused.magnification,
            focused.focus_shift,
            focused.lens_to_waist,
            focused.diameter_at_lens,
        ])
    })
}

fn focus_range(result: Result<FocusRange, Error>) -> Result<Expected, Error> {
    result.map(|range| {
        Expected::of::<spotwise_focus_range>().word(range.validity.bits()).numbers(&[
            range.toward_lens_z,
            range.away_from_lens_z,
            range.full,
        ])
    })
}

proptest! {
    #[test]
    fn convert_width(diameter in near(1e-3), from in choice(4), to in choice(4)) {
        let model = WidthDefinition::from_code(from).and_then(|from| {
            let to = WidthDefinition::from_code(to)?;
            optics::convert_width(diameter, from, to)
        });
        compare(|out, error| unsafe { spotwise_convert_width(diameter, from, to, out, error) }, number(model))?;
    }

    #[test]
    fn power_through_aperture(beam in near(1e-3), aperture in near(1e-3)) {
        let model = number(optics::power_through_aperture(beam, aperture));
        compare(|out, error| unsafe { spotwise_power_through_aperture(beam, aperture, out, error) }, model)?;
    }

    #[test]
    fn diameter_for_power(beam in near(1e-3), share in share()) {
        let model = number(optics::diameter_for_power(beam, share));
        compare(|out, error| unsafe { spotwise_diameter_for_power(beam, share, out, error) }, model)?;
    }

    #[test]
    fn beam_parameters((c, beam) in beam()) {
        let model = optics::beam_parameters(&beam).map(|result| {
            Expected::of::<spotwise_beam_parameters_result>().word(result.validity.bits()).numbers(&[
                result.rayleigh_range,
                result.divergence_half_angle,
                result.divergence_full_angle,
                result.beam_parameter_product,
            ])
        });
        compare(|out, error| unsafe { spotwise_beam_parameters(&c, out, error) }, model)?;
    }

    #[test]
    fn beam_at((c, beam) in beam(), z in place(1e-3)) {
        let model = optics::beam_at(&beam, z).map(|result| {
            Expected::of::<spotwise_beam_section>().word(result.validity.bits()).numbers(&[
                result.diameter,
                result.wavefront_curvature,
                result.wavefront_radius,
            ])
        });
        compare(|out, error| unsafe { spotwise_beam_at(&c, z, out, error) }, model)?;
    }

    #[test]
    fn diameters_at((c, beam) in beam(), z in prop::collection::vec(place(1e-3), 0..9)) {
        let mut model = vec![0.0; z.len()];
        let result = optics::diameters_at(&beam, &z, &mut model);
        let mut out = vec![7.0; z.len() + 1];
        let mut error = spotwise_error::BLANK;
        let status = unsafe { spotwise_diameters_at(&c, z.as_ptr(), z.len(), out.as_mut_ptr(), &mut error) };
        prop_assert_eq!(status, result.map_or_else(|error| error.code(), |()| 0));
        prop_assert_eq!(error.parameter, result.map_or_else(|error| error.param() as u32, |()| 0));
        prop_assert_eq!(out.pop(), Some(7.0)); // nothing beyond the end
        for (c, model) in out.iter().zip(&model) {
            prop_assert_eq!(c.to_bits(), model.to_bits());
        }
    }

    #[test]
    fn waist_from_rayleigh_range(wavelength in near(1e-6), m2 in ratio(), range in near(1e-3)) {
        let model = number(optics::waist_from_rayleigh_range(wavelength, m2, range));
        compare(
            |out, error| unsafe { spotwise_waist_from_rayleigh_range(wavelength, m2, range, out, error) },
            model,
        )?;
    }

    #[test]
    fn waist_from_divergence(wavelength in near(1e-6), m2 in ratio(), angle in near(0.05)) {
        let model = number(optics::waist_from_divergence(wavelength, m2, angle));
        compare(
            |out, error| unsafe { spotwise_waist_from_divergence(wavelength, m2, angle, out, error) },
            model,
        )?;
    }

    #[test]
    fn m2_from_divergence(wavelength in near(1e-6), waist in near(50e-6), angle in near(0.05)) {
        let model = number(optics::m2_from_divergence(wavelength, waist, angle));
        compare(
            |out, error| unsafe { spotwise_m2_from_divergence(wavelength, waist, angle, out, error) },
            model,
        )?;
    }

    #[test]
    fn astigmatic_parameters((c, beam) in astigmatic(50e-6)) {
        let model = optics::astigmatic_parameters(&beam).map(|result| {
            Expected::of::<spotwise_astigmatic_parameters_result>().word(result.validity.bits()).numbers(&[
                result.rayleigh_range_x,
                result.rayleigh_range_y,
                result.waist_separation,
                result.relative_astigmatism,
                result.m2_effective,
                result.effective_waist_z,
                result.effective_waist_diameter,
                result.effective_rayleigh_range,
                result.brightest_z,
                result.brightest_irradiance_ratio,
            ])
        });
        compare(|out, error| unsafe { spotwise_astigmatic_parameters(&c, out, error) }, model)?;
    }

    #[test]
    fn astigmatic_at((c, beam) in astigmatic(50e-6), z in place(1e-3)) {
        let model = optics::astigmatic_at(&beam, z).map(|result| {
            let flags = Expected::of::<spotwise_astigmatic_section>().word(result.validity.bits());
            flags.word(u32::from(result.circular)).word(0).numbers(&[
                result.diameter_x,
                result.diameter_y,
                result.ellipticity,
                result.effective_diameter,
                result.equal_area_diameter,
            ])
        });
        compare(|out, error| unsafe { spotwise_astigmatic_at(&c, z, out, error) }, model)?;
    }

    #[test]
    fn focus_through_lens((c, raw) in beam(), distance in place(1.0), f in place(0.1)) {
        let model = focused_beam(optics::focus_through_lens(&raw, distance, f));
        compare(|out, error| unsafe { spotwise_focus_through_lens(&c, distance, f, out, error) }, model)?;
    }

    #[test]
    fn focus_collimated(wavelength in near(1e-6), m2 in ratio(), diameter in near(5e-3), f in place(0.1)) {
        let model = focused_beam(optics::focus_collimated(wavelength, m2, diameter, f));
        compare(
            |out, error| unsafe { spotwise_focus_collimated(wavelength, m2, diameter, f, out, error) },
            model,
        )?;
    }

    #[test]
    fn focus_astigmatic((c, raw) in astigmatic(5e-3), f in place(0.1)) {
        let model = optics::focus_astigmatic(&raw, f).map(|result| {
            Expected::of::<spotwise_astigmatic_beam>().word(0).numbers(&[
                result.wavelength,
                result.x.m2,
                result.x.waist_diameter,
                result.x.waist_z,
                result.y.m2,
                result.y.waist_diameter,
                result.y.waist_z,
            ])
        });
        compare(|out, error| unsafe { spotwise_focus_astigmatic(&c, f, out, error) }, model)?;
    }

    #[test]
    fn defocus((c, beam) in beam(), z in place(1e-3)) {
        let model = focus::defocus(&beam, z).map(|result| {
            Expected::of::<spotwise_defocus_result>().word(result.validity.bits()).numbers(&[
                result.diameter,
                result.growth,
                result.growth_minus_one,
                result.irradiance_ratio,
                result.line_dose_ratio,
            ])
        });
        compare(|out, error| unsafe { spotwise_defocus(&c, z, out, error) }, model)?;
    }

    #[test]
    fn astigmatic_defocus((c, beam) in astigmatic(50e-6), z in place(1e-3)) {
        let model = focus::astigmatic_defocus(&beam, z).map(|result| {
            Expected::of::<spotwise_astigmatic_defocus_result>().word(result.validity.bits()).numbers(&[
                result.growth_x,
                result.growth_y,
                result.irradiance_ratio,
                result.line_dose_ratio_along_x,
                result.line_dose_ratio_along_y,
            ])
        });
        compare(|out, error| unsafe { spotwise_astigmatic_defocus(&c, z, out, error) }, model)?;
    }

    #[test]
    fn offsets_for_diameter((c, beam) in beam(), diameter in near(200e-6)) {
        let model = focus_range(focus::offsets_for_diameter(&beam, diameter));
        compare(|out, error| unsafe { spotwise_offsets_for_diameter(&c, diameter, out, error) }, model)?;
    }

    #[test]
    fn offsets_for_growth((c, beam) in beam(), growth in ratio()) {
        let model = focus_range(focus::offsets_for_growth(&beam, growth));
        compare(|out, error| unsafe { spotwise_offsets_for_growth(&c, growth, out, error) }, model)?;
    }

    #[test]
    fn depth_of_focus((c, beam) in beam(), (c_criterion, criterion) in criterion()) {
        let model = focus_range(criterion.and_then(|criterion| focus::depth_of_focus(&beam, criterion)));
        compare(|out, error| unsafe { spotwise_depth_of_focus(&c, &c_criterion, out, error) }, model)?;
    }

    #[test]
    fn astigmatic_depth_of_focus((c, beam) in astigmatic(50e-6), (c_criterion, criterion) in criterion()) {
        let model =
            focus_range(criterion.and_then(|criterion| focus::astigmatic_depth_of_focus(&beam, criterion)));
        compare(
            |out, error| unsafe { spotwise_astigmatic_depth_of_focus(&c, &c_criterion, out, error) },
            model,
        )?;
    }

    #[test]
    fn smallest_details(spot in near(80e-6), dose in ratio()) {
        let model = mark::smallest_details(spot, dose).map(|result| {
            Expected::of::<spotwise_smallest_details_result>().word(0).numbers(&[
                result.bar,
                result.gap,
                result.dot_diameter,
                result.hole_diameter,
                result.edge_shift,
            ])
        });
        compare(|out, error| unsafe { spotwise_smallest_details(spot, dose, out, error) }, model)?;
    }

    #[test]
    fn largest_spot_for_details(stroke in near(80e-6), gap in near(80e-6), dose in ratio()) {
        let model = number(mark::largest_spot_for_details(stroke, gap, dose));
        compare(
            |out, error| unsafe { spotwise_largest_spot_for_details(stroke, gap, dose, out, error) },
            model,
        )?;
    }

    #[test]
    fn contrast_at_pitch(spot in near(80e-6), pitch in near(100e-6)) {
        let model = mark::contrast_at_pitch(spot, pitch).map(|result| {
            Expected::of::<spotwise_grating_contrast>().word(0).numbers(&[
                result.sine,
                result.bars,
                result.dose_window,
            ])
        });
        compare(|out, error| unsafe { spotwise_contrast_at_pitch(spot, pitch, out, error) }, model)?;
    }

    #[test]
    fn pitch_for_contrast(spot in near(80e-6), contrast in share()) {
        let model = number(mark::pitch_for_contrast(spot, contrast));
        compare(|out, error| unsafe { spotwise_pitch_for_contrast(spot, contrast, out, error) }, model)?;
    }

    #[test]
    fn focus_check(c in job()) {
        let model = model_job(&c).and_then(|job| check::focus_check(&job)).map(|verdict| expected(&verdict));
        compare(|out, error| unsafe { spotwise_focus_check(&c, out, error) }, model)?;
    }
}

fn job() -> impl Strategy<Value = spotwise_job> {
    (
        (choice(2), choice(2), choice(5)),
        (near(1e-6), ratio(), near(5e-3), near(5e-3), place(1.0), near(0.1)),
        (place(0.3e-3), near(0.1), near(0.3e-3), near(0.3e-3)),
        (ratio(), share(), near(100e-6)),
        (near(80e-6), near(80e-6), ratio()),
    )
        .prop_map(|(choices, optics, surface, criterion, detail)| spotwise_job {
            raw_beam: choices.0,
            focus_setting: choices.1,
            criterion: choices.2,
            wavelength_m: optics.0,
            m2: optics.1,
            diameter_at_lens_m: optics.2,
            waist_diameter_m: optics.3,
            waist_to_lens_m: optics.4,
            focal_length_m: optics.5,
            focus_z_m: surface.0,
            lens_to_surface_m: surface.1,
            surface_rise_m: surface.2,
            surface_fall_m: surface.3,
            growth_ratio: criterion.0,
            drop: criterion.1,
            largest_diameter_m: criterion.2,
            finest_stroke_m: detail.0,
            finest_gap_m: detail.1,
            dose_ratio: detail.2,
            ..spotwise_job::BLANK
        })
}

/// The job for the model; choices are refused in the order raw beam, focus setting, criterion.
fn model_job(c: &spotwise_job) -> Result<Job, Error> {
    let raw_beam =
        RawBeam::from_code(c.raw_beam, c.diameter_at_lens_m, c.waist_diameter_m, c.waist_to_lens_m)?;
    let focus = FocusSetting::from_code(c.focus_setting, c.focus_z_m, c.lens_to_surface_m)?;
    let criterion = DepthCriterion::from_code(c.criterion, c.growth_ratio, c.drop, c.largest_diameter_m)?;
    Ok(Job {
        wavelength: c.wavelength_m,
        m2: c.m2,
        raw_beam,
        focal_length: c.focal_length_m,
        focus,
        surface_rise: c.surface_rise_m,
        surface_fall: c.surface_fall_m,
        criterion,
        finest_stroke: c.finest_stroke_m,
        finest_gap: c.finest_gap_m,
        dose_ratio: c.dose_ratio,
    })
}

fn expected_place(place: &Place) -> Expected {
    let flags = Expected::of::<spotwise_place>().word(u32::from(place.details_hold));
    flags.word(u32::from(place.in_depth)).word(0).numbers(&[
        place.z_offset,
        place.diameter,
        place.growth,
        place.irradiance_ratio,
        place.line_dose_ratio,
        place.smallest_stroke,
        place.smallest_gap,
        place.smallest_dot_diameter,
        place.smallest_hole_diameter,
    ])
}

fn expected(verdict: &Verdict) -> Expected {
    let ends = |range: Option<FocusRange>| {
        range.map_or([f64::NAN; 3], |range| [range.toward_lens_z, range.away_from_lens_z, range.full])
    };
    let focused = &verdict.focused;
    Expected::of::<spotwise_verdict>()
        .word(verdict.validity.bits())
        .word(verdict.outcome as u32)
        .word(verdict.reasons.bits())
        .numbers(&[
            focused.waist_diameter,
            focused.rayleigh_range,
            focused.divergence_full_angle,
            focused.magnification,
            focused.focus_shift,
            focused.lens_to_waist,
            focused.diameter_at_lens,
            verdict.focus_z,
        ])
        .numbers(&ends(verdict.depth))
        .numbers(&ends(verdict.detail_range))
        .numbers(&[verdict.best_focus_z, verdict.best_worst_growth])
        .nested(expected_place(&verdict.highest))
        .nested(expected_place(&verdict.datum))
        .nested(expected_place(&verdict.lowest))
}
