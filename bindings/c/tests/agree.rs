//! Each function against the model: the same bits, the same codes, the same reports.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree_marks::{cut_offs, shares, typeface_code};
use super::raw::{Expected, choice, compare, near, place, ratio, share, words_of};
use crate::abi::Plain;
use crate::astigmatic::*;
use crate::beam::*;
use crate::check::*;
use crate::clipping::*;
use crate::cone::*;
use crate::focus::*;
use crate::gantry::*;
use crate::glass::*;
use crate::lens::*;
use crate::mark::*;
use crate::path::*;
use crate::plate::*;
use crate::real_depth::*;
use crate::singlet::*;
use crate::singlet_focus::*;
use crate::status::SPOTWISE_PATH_MOST_ELEMENTS;
use crate::tilt::*;
use crate::wave::*;
use crate::width::*;
use proptest::prelude::*;
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, JobText, Place, RawBeam, Verdict};
use spotwise::model::focus::{Defocus, DepthCriterion, FocusRange, SingletDefocus, SingletDepth};
use spotwise::model::mark::{TextGrade, TextGrades, Typeface};
use spotwise::model::optics::{
    AberratedWaist, AstigmaticBeam, Axis, Beam, Cone, Element, FocusMeasure, FocusedBeam, GantrySpread,
    Glass, LensShape, PathBeam, Singlet, SingletFocus, SpotMeasure, Wave, WidthDefinition,
};
use spotwise::model::{check, focus, mark, optics};
use spotwise::{Error, Param};

fn bits(numbers: &[f64]) -> Vec<u64> {
    numbers.iter().map(|number| number.to_bits()).collect()
}

pub fn number(result: Result<f64, Error>) -> Result<Expected, Error> {
    result.map(|number| Expected::default().numbers(&[number]))
}

/// A round beam, for C and for the model.
pub fn beam() -> impl Strategy<Value = (spotwise_beam, Beam)> {
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

/// A raw beam, for C and for the model.
fn raw_beam() -> impl Strategy<Value = (spotwise_beam, Beam)> {
    (beam(), near(5e-3)).prop_map(|((c, beam), waist_diameter)| {
        (spotwise_beam { waist_diameter_m: waist_diameter, ..c }, Beam { waist_diameter, ..beam })
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
pub fn astigmatic(waist_diameter: f64) -> impl Strategy<Value = (spotwise_astigmatic_beam, AstigmaticBeam)> {
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
pub fn criterion() -> impl Strategy<Value = (spotwise_depth_criterion, Result<DepthCriterion, Error>)> {
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

/// A lens, for C and for the model, which may refuse it.
fn singlet() -> impl Strategy<Value = (spotwise_singlet, Result<Singlet, Error>)> {
    (index(), choice(4), place(1.0), place(0.1)).prop_map(|(index, shape, factor, focal_length)| {
        let c = spotwise_singlet {
            lens_shape: shape,
            index,
            shape_factor: factor,
            focal_length_m: focal_length,
            ..spotwise_singlet::BLANK
        };
        let shape = LensShape::from_code(shape, factor);
        (c, shape.map(|shape| Singlet { index, shape, focal_length }))
    })
}

fn index() -> impl Strategy<Value = f64> {
    prop_oneof![40 => 1.3..4.0f64, 1 => near(1.5)]
}

/// A diameter of an aperture, often none.
fn aperture() -> impl Strategy<Value = f64> {
    prop_oneof![3 => near(10e-3), 1 => Just(f64::INFINITY)]
}

/// An element of a path, for C and for the model, which may refuse it.
fn element() -> impl Strategy<Value = (spotwise_path_element, Result<Element, Error>)> {
    let numbers = (near(0.5), place(0.2), index(), ratio(), place(0.2), place(1.0));
    (choice(5), numbers).prop_map(|(code, (length, focal_length, index, magnification, power, factor))| {
        let c = spotwise_path_element {
            element: code,
            length_m: length,
            focal_length_m: focal_length,
            index,
            magnification,
            exit_power_per_m: power,
            shape_factor: factor,
            ..spotwise_path_element::BLANK
        };
        (c, Element::from_code(code, length, focal_length, index, magnification, power, factor))
    })
}

/// A path, for C and for the model, which may refuse one of its elements.
fn path() -> impl Strategy<Value = (Vec<spotwise_path_element>, Result<Vec<Element>, Error>)> {
    prop::collection::vec(element(), 0..5).prop_map(|elements| {
        (elements.iter().map(|(c, _)| *c).collect(), elements.iter().map(|(_, e)| *e).collect())
    })
}

/// A wave, for C and for the model. Few of them leave the model, and none takes long.
fn wave() -> impl Strategy<Value = (spotwise_wave, Wave)> {
    let m2 = prop_oneof![4 => Just(1.0), 4 => 1.05..2.0f64, 1 => near(1.0)];
    let phase = prop_oneof![20 => -1.0..1.0f64, 1 => place(1.0)];
    (near(1e-6), m2, near(3e-3), aperture(), near(0.1), phase).prop_map(
        |(wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase)| {
            let c = spotwise_wave {
                wavelength_m: wavelength,
                m2,
                diameter_at_lens_m: diameter_at_lens,
                clear_aperture_m: clear_aperture,
                lens_to_focus_m: lens_to_focus,
                aberration_phase_rad: aberration_phase,
                ..spotwise_wave::BLANK
            };
            let model =
                Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
            (c, model)
        },
    )
}

fn expected_focused(focused: &FocusedBeam) -> Expected {
    Expected::of::<spotwise_focused_beam>().word(focused.validity.bits()).numbers(&[
        focused.waist_diameter,
        focused.rayleigh_range,
        focused.divergence_full_angle,
        focused.magnification,
        focused.focus_shift,
        focused.lens_to_waist,
        focused.diameter_at_lens,
        focused.half_angle,
    ])
}

fn expected_cone(result: Result<Cone, Error>) -> Result<Expected, Error> {
    let cone = result?;
    Ok(Expected::of::<spotwise_cone>().word(cone.validity.bits()).numbers(&[cone.half_angle]))
}

fn focused_beam(result: Result<FocusedBeam, Error>) -> Result<Expected, Error> {
    result.map(|focused| expected_focused(&focused))
}

fn expected_astigmatic(beam: &AstigmaticBeam) -> Expected {
    Expected::of::<spotwise_astigmatic_beam>().word(0).numbers(&[
        beam.wavelength,
        beam.x.m2,
        beam.x.waist_diameter,
        beam.x.waist_z,
        beam.y.m2,
        beam.y.waist_diameter,
        beam.y.waist_z,
    ])
}

fn expected_waist(waist: &AberratedWaist) -> Expected {
    Expected::of::<spotwise_aberrated_waist>().word(0).numbers(&[
        waist.waist_diameter,
        waist.m2,
        waist.rayleigh_range,
        waist.shift,
        waist.lens_to_waist,
    ])
}

fn expected_singlet_focus(focus: &SingletFocus) -> Expected {
    let numbers = Expected::of::<spotwise_singlet_focus>().word(focus.validity.bits()).numbers(&[
        focus.handbook_diameter,
        focus.quadrature_diameter,
        focus.peak_irradiance_ratio,
        focus.shape_factor,
        focus.aberration_phase,
        focus.normalised_aberration,
        focus.clipping_ratio,
        focus.transmitted,
        focus.relative_focus_shift,
        focus.relative_rayleigh_range,
        focus.lens_to_focus,
        focus.half_angle,
    ]);
    numbers
        .nested(expected_focused(&focus.ideal))
        .nested(expected_waist(&focus.second_moment))
        .nested(expected_waist(&focus.power86))
}

fn expected_spread(spread: &GantrySpread) -> Expected {
    Expected::of::<spotwise_gantry_spread_result>().word(spread.validity.bits()).numbers(&[
        spread.smallest_spot,
        spread.largest_spot,
        spread.spot_ratio,
        spread.least_focus_shift,
        spread.greatest_focus_shift,
        spread.focus_wander,
        spread.half_angle,
    ])
}

fn path_beam(result: Result<PathBeam, Error>) -> Result<Expected, Error> {
    result.map(|found| {
        let numbers = Expected::of::<spotwise_path_beam>().word(found.validity.bits()).numbers(&[
            found.diameter_x,
            found.diameter_y,
            found.distance,
            found.normalised_aberration,
            found.half_angle,
        ]);
        numbers.nested(expected_astigmatic(&found.beam))
    })
}

fn focus_range(result: Result<FocusRange, Error>) -> Result<Expected, Error> {
    result.map(|range| {
        Expected::of::<spotwise_focus_range>().word(range.validity.bits()).numbers(&[
            range.toward_lens_z,
            range.away_from_lens_z,
            range.full,
            range.half_angle,
        ])
    })
}

fn expected_defocus(result: Result<Defocus, Error>) -> Result<Expected, Error> {
    result.map(|result| {
        Expected::of::<spotwise_defocus_result>().word(result.validity.bits()).numbers(&[
            result.diameter,
            result.growth,
            result.growth_minus_one,
            result.irradiance_ratio,
            result.line_dose_ratio,
            result.half_angle,
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
                result.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_beam_at(&c, z, out, error) }, model)?;
    }

    #[test]
    fn diameters_at((c, beam) in beam(), z in prop::collection::vec(place(1e-3), 0..9)) {
        let mut model = vec![0.0; z.len()];
        let result = optics::diameters_at(&beam, &z, &mut model);
        let mut out = vec![7.0; z.len() + 1];
        let (start, count, diameters) = (z.as_ptr(), z.len(), out.as_mut_ptr());
        compare(
            |cone, error| unsafe { spotwise_diameters_at(&c, start, count, diameters, cone, error) },
            expected_cone(result),
        )?;
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
                result.half_angle,
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
                result.half_angle,
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
            let flags = Expected::of::<spotwise_astigmatic_focus>().word(result.validity.bits());
            flags.numbers(&[result.half_angle]).nested(expected_astigmatic(&result.beam))
        });
        compare(|out, error| unsafe { spotwise_focus_astigmatic(&c, f, out, error) }, model)?;
    }

    #[test]
    fn refractive_index(glass in choice(8), wavelength in near(2e-6)) {
        let model = Glass::from_code(glass).and_then(|glass| optics::refractive_index(glass, wavelength));
        let model = model.map(|found| {
            Expected::of::<spotwise_glass_index>().word(0).numbers(&[found.index, found.dispersion])
        });
        compare(|out, error| unsafe { spotwise_refractive_index(glass, wavelength, out, error) }, model)?;
    }

    #[test]
    fn lens_at_wavelength(
        (glass, shape, factor) in (choice(8), choice(4), place(1.0)),
        f in place(0.1),
        design in near(3e-6),
        other in near(3e-6),
    ) {
        let model = Glass::from_code(glass).and_then(|glass| {
            optics::lens_at_wavelength(glass, LensShape::from_code(shape, factor)?, f, design, other)
        });
        let model = model.map(|found| {
            Expected::of::<spotwise_lens_at_wavelength_result>().word(0).numbers(&[
                found.design_index,
                found.index,
                found.focal_length,
                found.focal_shift,
                found.shape_factor,
                found.blur_coefficient,
                found.wavefront_coefficient,
            ])
        });
        compare(
            |out, error| unsafe {
                spotwise_lens_at_wavelength(glass, shape, factor, f, design, other, out, error)
            },
            model,
        )?;
    }

    #[test]
    fn lens_from_radii(index in index(), first in place(0.1), second in place(0.1)) {
        let model = optics::lens_from_radii(index, first, second).map(|form| {
            Expected::of::<spotwise_lens_form>().word(0).numbers(&[form.focal_length, form.shape_factor])
        });
        compare(|out, error| unsafe { spotwise_lens_from_radii(index, first, second, out, error) }, model)?;
    }

    #[test]
    fn lens_aberration((c, lens) in singlet()) {
        let model = lens.and_then(|lens| optics::lens_aberration(&lens)).map(|found| {
            Expected::of::<spotwise_lens_aberration_result>().word(0).numbers(&[
                found.shape_factor,
                found.blur_coefficient,
                found.wavefront_coefficient,
            ])
        });
        compare(|out, error| unsafe { spotwise_lens_aberration(&c, out, error) }, model)?;
    }

    #[test]
    fn aberration_growth(m2 in ratio(), phase in place(1.0)) {
        let model = optics::aberration_growth(m2, phase).map(|growth| {
            Expected::of::<spotwise_aberration_growth_result>().word(growth.validity.bits()).numbers(&[
                growth.second_moment_m2,
                growth.second_moment_growth,
                growth.second_moment_shift,
                growth.power86_growth,
                growth.power86_shift,
                growth.handbook_growth,
                growth.quadrature_growth,
                growth.peak_irradiance_ratio,
                growth.normalised_aberration,
            ])
        });
        compare(|out, error| unsafe { spotwise_aberration_growth(m2, phase, out, error) }, model)?;
    }

    #[test]
    fn focus_singlet((c, raw) in raw_beam(), distance in place(1.0), (c_lens, lens) in singlet(), aperture in aperture()) {
        let model = lens.and_then(|lens| optics::focus_singlet(&raw, distance, &lens, aperture));
        let model = model.map(|focus| expected_singlet_focus(&focus));
        compare(
            |out, error| unsafe { spotwise_focus_singlet(&c, distance, &c_lens, aperture, out, error) },
            model,
        )?;
    }

    #[test]
    fn smallest_spot(wavelength in near(1e-6), m2 in ratio(), (c, lens) in singlet(), measure in choice(3)) {
        let model = lens.and_then(|lens| {
            optics::smallest_spot(wavelength, m2, &lens, SpotMeasure::from_code(measure)?)
        });
        let model = model.map(|spot| {
            Expected::of::<spotwise_smallest_spot_result>().word(spot.validity.bits()).numbers(&[
                spot.diameter_at_lens,
                spot.spot_diameter,
                spot.aberration_phase,
                spot.normalised_aberration,
                spot.relative_rayleigh_range,
                spot.half_angle,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_smallest_spot(wavelength, m2, &c, measure, out, error) },
            model,
        )?;
    }

    #[test]
    fn focus_clipped(wavelength in near(1e-6), diameter in near(5e-3), aperture in aperture(), f in near(0.1)) {
        let model = optics::focus_clipped(wavelength, diameter, aperture, f).map(|found| {
            Expected::of::<spotwise_clipped_focus>().word(found.validity.bits()).numbers(&[
                found.clipping_ratio,
                found.transmitted,
                found.diameter_1e2,
                found.fwhm,
                found.diameter_power86,
                found.peak_irradiance_ratio,
                found.relative_rayleigh_range,
                found.half_angle,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_focus_clipped(wavelength, diameter, aperture, f, out, error) },
            model,
        )?;
    }

    #[test]
    fn focus_behind_plate((c, beam) in beam(), thickness in near(3e-3), index in index()) {
        let model = optics::focus_behind_plate(&beam, thickness, index).map(|found| {
            Expected::of::<spotwise_plate_focus>().word(found.validity.bits()).numbers(&[
                found.focus_shift,
                found.edge_focus_shift,
                found.aberration_phase,
                found.normalised_aberration,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_focus_behind_plate(&c, thickness, index, out, error) }, model)?;
    }

    #[test]
    fn focus_inside((c, beam) in beam(), lowered in near(3e-3), index in index()) {
        let model = optics::focus_inside(&beam, lowered, index).map(|found| {
            Expected::of::<spotwise_inside_focus>().word(found.validity.bits()).numbers(&[
                found.depth,
                found.edge_depth,
                found.rayleigh_range,
                found.aberration_phase,
                found.normalised_aberration,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_focus_inside(&c, lowered, index, out, error) }, model)?;
    }

    #[test]
    fn beam_after_path((c, raw) in astigmatic(5e-3), (c_path, path) in path()) {
        let model = path_beam(path.and_then(|path| optics::beam_after_path(&raw, &path)));
        compare(
            |out, error| unsafe { spotwise_beam_after_path(&c, c_path.as_ptr(), c_path.len(), out, error) },
            model,
        )?;
    }

    #[test]
    fn beam_along_path((c, raw) in astigmatic(5e-3), (c_path, path) in path(), distance in near(0.5)) {
        let model = path_beam(path.and_then(|path| optics::beam_along_path(&raw, &path, distance)));
        let (elements, count) = (c_path.as_ptr(), c_path.len());
        compare(
            |out, error| unsafe { spotwise_beam_along_path(&c, elements, count, distance, out, error) },
            model,
        )?;
    }

    #[test]
    fn focus_along_gantry(
        (c, raw) in raw_beam(),
        places in prop::collection::vec(place(1.0), 0..9),
        f in place(0.1),
    ) {
        let (mut model, mut out) = ([vec![0.0; places.len()], vec![0.0; places.len()]], [7.0; 20]);
        let [spots, shifts] = &mut model;
        let result = optics::focus_along_gantry(&raw, &places, f, spots, shifts);
        let (out_spots, out_shifts) = out.split_at_mut(10);
        let (out_spots, out_shifts) = (out_spots.as_mut_ptr(), out_shifts.as_mut_ptr());
        let (start, count) = (places.as_ptr(), places.len());
        compare(
            |cone, error| unsafe {
                spotwise_focus_along_gantry(&c, start, count, f, out_spots, out_shifts, cone, error)
            },
            expected_cone(result),
        )?;
        for (out, model) in out.chunks(10).zip(&model) {
            prop_assert_eq!(bits(&out[..count]), bits(model));
            prop_assert!(out[count..].iter().all(|number| *number == 7.0)); // nothing beyond the end
        }
    }

    #[test]
    fn gantry_spread((c, raw) in raw_beam(), nearest in place(1.0), farthest in place(3.0), f in near(0.1)) {
        let model = optics::gantry_spread(&raw, nearest, farthest, f).map(|spread| expected_spread(&spread));
        compare(|out, error| unsafe { spotwise_gantry_spread(&c, nearest, farthest, f, out, error) }, model)?;
    }

    #[test]
    fn even_out_gantry(
        (c, raw) in raw_beam(),
        (to_expander, magnification) in (place(0.3), ratio()),
        (nearest, farthest, f) in (near(0.5), near(3.0), near(0.1)),
    ) {
        let model = optics::even_out_gantry(&raw, to_expander, magnification, nearest, farthest, f);
        let model = model.map(|even| {
            let setting = [even.exit_power, even.waist_diameter, even.expander_to_waist];
            Expected::of::<spotwise_even_gantry>()
                .word(u32::from(even.ends_equal))
                .numbers(&setting)
                .nested(expected_spread(&even.spread))
        });
        compare(
            |out, error| unsafe {
                spotwise_even_out_gantry(&c, to_expander, magnification, nearest, farthest, f, out, error)
            },
            model,
        )?;
    }

    #[test]
    fn wave_irradiance((c, wave) in wave(), radius in near(20e-6), z in place(0.3e-3)) {
        let model = optics::wave_irradiance(&wave, radius, z).map(|found| {
            Expected::of::<spotwise_wave_irradiance_result>().word(found.validity.bits()).numbers(&[
                found.irradiance_ratio,
                found.irradiance_per_watt,
                found.error,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_wave_irradiance(&c, radius, z, out, error) }, model)?;
    }

    #[test]
    fn clipped_depth_of_focus(
        (wavelength, diameter, aperture) in (near(1e-6), near(5e-3), aperture()),
        f in near(0.1),
        drop in share(),
    ) {
        let model = focus::clipped_depth_of_focus(wavelength, diameter, aperture, f, drop).map(|depth| {
            let range = depth.range;
            Expected::of::<spotwise_clipped_depth>().word(range.validity.bits()).numbers(&[
                range.toward_lens_z,
                range.away_from_lens_z,
                range.full,
                range.half_angle,
                depth.brightest_z,
                depth.clipping_ratio,
                depth.relative_rayleigh_range,
                depth.relative_half_depth,
            ])
        });
        compare(
            |out, error| unsafe {
                spotwise_clipped_depth_of_focus(wavelength, diameter, aperture, f, drop, out, error)
            },
            model,
        )?;
    }

    #[test]
    fn defocus((c, beam) in beam(), z in place(1e-3)) {
        let model = expected_defocus(focus::defocus(&beam, z));
        compare(|out, error| unsafe { spotwise_defocus(&c, z, out, error) }, model)?;
    }

    #[test]
    fn tilted_spot((c, beam) in beam(), z in place(1e-3), tilt in near(0.3)) {
        let model = focus::tilted_spot(&beam, z, tilt).map(|spot| {
            Expected::of::<spotwise_tilted_spot_result>().word(spot.validity.bits()).numbers(&[
                spot.diameter_across,
                spot.diameter_along,
                spot.contour_along,
                spot.contour_shift,
                spot.irradiance_ratio,
                spot.line_dose_ratio,
                spot.grazing_ratio,
                spot.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_tilted_spot(&c, z, tilt, out, error) }, model)?;
    }

    #[test]
    fn singlet_defocus(
        (c, raw) in raw_beam(),
        distance in place(1.0),
        (c_lens, lens) in singlet(),
        (aperture, measure, z) in (aperture(), choice(3), place(1e-3)),
    ) {
        let model = lens.and_then(|lens| {
            focus::singlet_defocus(&raw, distance, &lens, aperture, SpotMeasure::from_code(measure)?, z)
        });
        compare(
            |out, error| unsafe {
                spotwise_singlet_defocus(&c, distance, &c_lens, aperture, measure, z, out, error)
            },
            model.map(|SingletDefocus { defocus, numbers }| {
                Expected::of::<spotwise_singlet_defocus_result>().word(defocus.validity.bits()).numbers(&[
                    defocus.diameter,
                    defocus.growth,
                    defocus.growth_minus_one,
                    defocus.irradiance_ratio,
                    defocus.line_dose_ratio,
                    defocus.half_angle,
                    numbers.normalised_aberration,
                    numbers.clipping_ratio,
                    numbers.relative_focus_shift,
                    numbers.relative_rayleigh_range,
                ])
            }),
        )?;
    }

    #[test]
    fn singlet_depth_of_focus(
        (c, raw) in raw_beam(),
        distance in place(1.0),
        (c_lens, lens) in singlet(),
        (aperture, measure) in (aperture(), choice(3)),
        (c_criterion, criterion) in criterion(),
    ) {
        let model = lens.and_then(|lens| {
            let measure = SpotMeasure::from_code(measure)?;
            focus::singlet_depth_of_focus(&raw, distance, &lens, aperture, measure, criterion?)
        });
        compare(
            |out, error| unsafe {
                spotwise_singlet_depth_of_focus(
                    &c, distance, &c_lens, aperture, measure, &c_criterion, out, error,
                )
            },
            model.map(|SingletDepth { range, numbers }| {
                Expected::of::<spotwise_singlet_depth>().word(range.validity.bits()).numbers(&[
                    range.toward_lens_z,
                    range.away_from_lens_z,
                    range.full,
                    range.half_angle,
                    numbers.normalised_aberration,
                    numbers.clipping_ratio,
                    numbers.relative_focus_shift,
                    numbers.relative_rayleigh_range,
                ])
            }),
        )?;
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
                result.half_angle,
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
                result.square,
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
        let model = mark::pitch_for_contrast(spot, contrast).map(|pitch| {
            Expected::of::<spotwise_contrast_pitch>().word(0).numbers(&[pitch.sine, pitch.bars])
        });
        compare(|out, error| unsafe { spotwise_pitch_for_contrast(spot, contrast, out, error) }, model)?;
    }

    #[test]
    fn focus_check(c in job()) {
        let model = model_job(&c).and_then(|job| check::focus_check(&job)).map(|verdict| expected(&verdict));
        compare(|out, error| unsafe { spotwise_focus_check(&c, out, error) }, model)?;
    }
}

// Those that take long, with fewer cases.
proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn wave_power((c, wave) in wave(), radius in near(20e-6), z in place(0.3e-3)) {
        let model = optics::wave_power(&wave, radius, z).map(|found| {
            Expected::of::<spotwise_wave_power_result>().word(found.validity.bits()).numbers(&[
                found.share,
                found.share_of_transmitted,
                found.error,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_wave_power(&c, radius, z, out, error) }, model)?;
    }

    #[test]
    fn wave_widths((c, wave) in wave(), z in place(0.3e-3)) {
        let model = optics::wave_widths(&wave, z).map(|found| {
            Expected::of::<spotwise_wave_widths_result>().word(found.validity.bits()).numbers(&[
                found.irradiance_ratio,
                found.diameter_1e2,
                found.fwhm,
                found.diameter_power86,
                found.transmitted,
                found.error,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_wave_widths(&c, z, out, error) }, model)?;
    }

    #[test]
    fn wave_focus((c, wave) in wave(), measure in choice(3)) {
        let model = FocusMeasure::from_code(measure).and_then(|measure| optics::wave_focus(&wave, measure));
        let model = model.map(|found| {
            Expected::of::<spotwise_wave_focus_result>().word(found.validity.bits()).numbers(&[
                found.z,
                found.irradiance_ratio,
                found.diameter_power86,
                found.diameter_d4sigma,
                found.error,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_wave_focus(&c, measure, out, error) }, model)?;
    }

    #[test]
    fn wave_map(
        (c, wave) in wave(),
        radii in prop::collection::vec(near(20e-6), 0..6),
        z in prop::collection::vec(place(0.3e-3), 0..4),
    ) {
        let length = optics::wave_map_workspace(&wave, &radii, &z);
        let (radius, columns, place, rows) = (radii.as_ptr(), radii.len(), z.as_ptr(), z.len());
        let expected = length.map_or_else(Err, |length| {
            Ok(Expected(vec![length as u32, (length as u64 >> 32) as u32]))
        });
        compare::<usize>(
            |out, error| unsafe {
                spotwise_wave_map_workspace(&c, radius, columns, place, rows, out, error)
            },
            expected,
        )?;

        let length = length.unwrap_or(0);
        let (mut model, mut out) = (vec![0.0; columns * rows], vec![7.0; columns * rows + 1]);
        let result = optics::wave_map(&wave, &radii, &z, &mut vec![0.0; length], &mut model);
        let mut workspace = vec![7.0; length + 1];
        let (working, start) = (workspace.as_mut_ptr(), out.as_mut_ptr());
        compare(
            |map, error| unsafe {
                spotwise_wave_map(&c, radius, columns, place, rows, working, length, start, map, error)
            },
            result.map(|map| {
                let flags = Expected::of::<spotwise_wave_map_result>().word(map.validity.bits());
                flags.numbers(&[map.error, map.half_angle])
            }),
        )?;
        prop_assert_eq!((workspace.pop(), out.pop()), (Some(7.0), Some(7.0))); // nothing beyond the ends
        prop_assert_eq!(bits(&out), bits(&model));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn wave_depth_of_focus((c, wave) in wave(), (c_criterion, criterion) in criterion()) {
        let model = criterion.and_then(|criterion| focus::wave_depth_of_focus(&wave, criterion));
        let model = model.map(|depth| {
            let range = depth.range;
            Expected::of::<spotwise_wave_depth>().word(range.validity.bits()).numbers(&[
                depth.best_z,
                range.toward_lens_z,
                range.away_from_lens_z,
                range.full,
                depth.error,
                range.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_wave_depth_of_focus(&c, &c_criterion, out, error) }, model)?;
    }
}

#[test]
fn a_path_may_be_as_long_as_its_limit() {
    let count = SPOTWISE_PATH_MOST_ELEMENTS as usize;
    let space = spotwise_path_element { element: 1, length_m: 0.01, ..spotwise_path_element::BLANK };
    let raw = AstigmaticBeam {
        wavelength: 1e-6,
        x: Axis { m2: 1.0, waist_diameter: 5e-3, waist_z: 0.0 },
        y: Axis { m2: 2.0, waist_diameter: 5e-3, waist_z: 0.0 },
    };
    let model = optics::beam_after_path(&raw, &vec![Element::Space { length: 0.01 }; count]);
    let (c, path) = (raw.into(), vec![space; count]);
    compare(
        |out, error| unsafe { spotwise_beam_after_path(&c, path.as_ptr(), count, out, error) },
        path_beam(model),
    )
    .unwrap();
}

pub fn job() -> impl Strategy<Value = spotwise_job> {
    (
        (choice(3), choice(2), choice(5), choice(2), choice(8), choice(4)),
        (near(1e-6), ratio(), near(5e-3), near(5e-3), place(1.0), near(0.1)),
        (place(0.3e-3), near(0.1), near(0.3e-3), near(0.3e-3)),
        (ratio(), share(), near(100e-6)),
        (near(80e-6), near(80e-6), near(1.0)),
        (place(0.3), ratio(), place(0.2), near(1.0), place(1.0), aperture()),
        (choice(2), near(20.0), near(0.5), near(40e-6), near(0.3e6)),
        (choice(4), near(20e-9), near(1e10), near(1e-7)),
        (choice(2), (typeface_code(), shares()), near(2e-3), choice(4), cut_offs()),
    )
        .prop_map(|(choices, optics, surface, criterion, detail, real, scan, response, text)| {
            spotwise_job {
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
                waist_to_expander_m: real.0,
                magnification: real.1,
                exit_power_per_m: real.2,
                expander_to_lens_m: real.3,
                lens: choices.3,
                glass: choices.4,
                lens_shape: choices.5,
                shape_factor: real.4,
                clear_aperture_m: real.5,
                dose: scan.0,
                power_w: scan.1,
                speed_m_per_s: scan.2,
                line_interval_m: scan.3,
                threshold_j_per_m2: scan.4,
                response: response.0,
                penetration_depth_m: response.1,
                removal_energy_j_per_m3: response.2,
                diffusivity_m2_per_s: response.3,
                text: text.0,
                typeface: text.1.0,
                stem: text.1.1.0,
                effective_stroke: text.1.1.1,
                effective_counter: text.1.1.2,
                effective_gap: text.1.1.3,
                em_m: text.2,
                least_grade: text.3,
                crisp_exposure: text.4.0,
                good_window: text.4.1,
                readable_window: text.4.2,
                ..spotwise_job::BLANK
            }
        })
}

/// The job for the model; choices are refused in the order raw beam, focus setting, criterion, dose,
/// response, lens, glass, shape, text, typeface, least grade.
pub fn model_job(c: &spotwise_job) -> Result<Job, Error> {
    let raw_beam = RawBeam::from_code(
        c.raw_beam,
        c.diameter_at_lens_m,
        c.waist_diameter_m,
        c.waist_to_lens_m,
        c.waist_to_expander_m,
        c.magnification,
        c.exit_power_per_m,
        c.expander_to_lens_m,
    )?;
    let focus = FocusSetting::from_code(c.focus_setting, c.focus_z_m, c.lens_to_surface_m)?;
    let criterion = DepthCriterion::from_code(c.criterion, c.growth_ratio, c.drop, c.largest_diameter_m)?;
    let dose = JobDose::from_code(
        c.dose,
        c.dose_ratio,
        c.power_w,
        c.speed_m_per_s,
        c.line_interval_m,
        c.threshold_j_per_m2,
        c.response,
        c.penetration_depth_m,
        c.removal_energy_j_per_m3,
        c.diffusivity_m2_per_s,
    )?;
    let lens = JobLens::from_code(c.lens, c.glass, c.lens_shape, c.shape_factor, c.clear_aperture_m)?;
    let text = match c.text {
        1 => None,
        2 => Some(JobText {
            typeface: Typeface::from_code(
                c.typeface,
                c.stem,
                c.effective_stroke,
                c.effective_counter,
                c.effective_gap,
            )?,
            em: c.em_m,
            least_grade: TextGrade::from_code(c.least_grade)?,
            grades: TextGrades {
                crisp_exposure: c.crisp_exposure,
                good_window: c.good_window,
                readable_window: c.readable_window,
            },
        }),
        value => return Err(Error::UnknownChoice { param: Param::JobText, value }),
    };
    Ok(Job {
        wavelength: c.wavelength_m,
        m2: c.m2,
        raw_beam,
        focal_length: c.focal_length_m,
        lens,
        focus,
        surface_rise: c.surface_rise_m,
        surface_fall: c.surface_fall_m,
        criterion,
        finest_stroke: c.finest_stroke_m,
        finest_gap: c.finest_gap_m,
        dose,
        text,
    })
}

fn expected_place(place: &Place) -> Expected {
    let flags = Expected::of::<spotwise_place>().word(u32::from(place.details_hold));
    let grade = place.text_grade.map_or(0, |grade| grade as u32);
    let text = place.smallest_text;
    let ems = text.map_or([f64::NAN; 3], |text| [text.crisp_em, text.good_em, text.readable_em]);
    let details = place
        .smallest
        .map_or([f64::NAN; 4], |finest| [finest.bar, finest.gap, finest.dot_diameter, finest.hole_diameter]);
    let numbers = flags.word(u32::from(place.in_depth)).word(grade).numbers(&[
        place.z_offset,
        place.diameter,
        place.growth,
        place.irradiance_ratio,
        place.line_dose_ratio,
        place.seen_diameter,
    ]);
    numbers.numbers(&details).numbers(&[place.ripple_contrast.unwrap_or(f64::NAN)]).numbers(&ems)
}

pub fn expected(verdict: &Verdict) -> Expected {
    let ends = |range: Option<FocusRange>| {
        range.map_or([f64::NAN; 3], |range| [range.toward_lens_z, range.away_from_lens_z, range.full])
    };
    let scan = verdict
        .scan
        .map_or([f64::NAN; 4], |scan| [scan.line_dose, scan.fill_dose, scan.peak_irradiance, scan.dwell]);
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
            focused.half_angle,
            verdict.focus_z,
        ])
        .numbers(&ends(verdict.depth))
        .numbers(&ends(verdict.detail_range))
        .numbers(&ends(verdict.text_range))
        .numbers(&[verdict.dose_ratio])
        .numbers(&scan)
        .numbers(&[verdict.fill_depth.unwrap_or(f64::NAN)])
        .numbers(&[verdict.best_focus_z, verdict.best_worst_growth])
        .nested(expected_place(&verdict.highest))
        .nested(expected_place(&verdict.datum))
        .nested(expected_place(&verdict.lowest))
        .word(verdict.promised as u32)
        .word(u32::from(verdict.real.is_some()))
        .nested(verdict.real.map_or_else(
            || Expected(words_of(&spotwise_singlet_focus::BLANK)),
            |real| expected_singlet_focus(&real),
        ))
}
