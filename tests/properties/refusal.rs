//! Any bits at all: no function panics, none succeeds with a number that is not one, and each
//! refusal names a parameter whose range excludes the value.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::check::{FocusSetting, Job, JobDose, JobLens, Place, RawBeam, Verdict, focus_check};
use spotwise::model::focus::{
    DepthCriterion, FocusRange, astigmatic_defocus, astigmatic_depth_of_focus, defocus, depth_of_focus,
    offsets_for_diameter, offsets_for_growth,
};
use spotwise::model::mark::{
    contrast_at_pitch, largest_spot_for_details, pitch_for_contrast, smallest_details,
};
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, FocusedBeam, WidthDefinition, astigmatic_at, astigmatic_parameters, beam_at,
    beam_parameters, convert_width, diameter_for_power, diameters_at, focus_astigmatic, focus_collimated,
    focus_through_lens, m2_from_divergence, power_through_aperture, waist_from_divergence,
    waist_from_rayleigh_range,
};
use spotwise::{Error, Param};

/// Any bits, with more than their share of those that break things.
pub fn wild() -> BoxedStrategy<f64> {
    prop_oneof![
        4 => any::<u64>().prop_map(f64::from_bits),
        2 => signed_spread(1e-20, 1e20),
        1 => prop::sample::select(vec![
            0.0, -0.0, 1.0, -1.0, f64::NAN, -f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN,
            f64::MIN_POSITIVE, f64::from_bits(1), -f64::from_bits(1), f64::EPSILON,
        ]),
    ]
    .boxed()
}

/// A value for a parameter: mostly allowed, often at the very end of its range or a hair beyond,
/// now and then anything.
pub fn value_of(param: Param) -> BoxedStrategy<f64> {
    let (least, greatest) = param.range();
    let ends =
        vec![least, greatest, least.next_up(), least.next_down(), greatest.next_up(), greatest.next_down()];
    prop_oneof![
        16 => across(param),
        2 => prop::sample::select(ends),
        1 => wild(),
    ]
    .boxed()
}

pub fn focal_length() -> BoxedStrategy<f64> {
    (any::<bool>(), value_of(Param::FocalLength)).prop_map(|(minus, f)| if minus { -f } else { f }).boxed()
}

pub fn beam() -> BoxedStrategy<Beam> {
    let drawn = (value_of(Param::Wavelength), value_of(Param::M2), value_of(Param::WaistDiameter));
    let drawn = drawn.prop_map(|(wavelength, m2, waist_diameter)| Beam { wavelength, m2, waist_diameter });
    // Half of them with a cone that the model accepts, so that what comes after is reached.
    prop_oneof![drawn, any_beam()].boxed()
}

pub fn astigmatic_beam() -> BoxedStrategy<AstigmaticBeam> {
    let axis = |m2, waist_diameter, waist_z| {
        (value_of(m2), value_of(waist_diameter), value_of(waist_z))
            .prop_map(|(m2, waist_diameter, waist_z)| Axis { m2, waist_diameter, waist_z })
    };
    let drawn = (
        value_of(Param::Wavelength),
        axis(Param::M2X, Param::WaistDiameterX, Param::WaistZX),
        axis(Param::M2Y, Param::WaistDiameterY, Param::WaistZY),
    );
    let drawn = drawn.prop_map(|(wavelength, x, y)| AstigmaticBeam { wavelength, x, y });
    prop_oneof![drawn, any_astigmatic(), close_astigmatic()].boxed()
}

fn definition() -> impl Strategy<Value = WidthDefinition> {
    prop::sample::select(WidthDefinition::ALL.to_vec())
}

pub fn criterion() -> BoxedStrategy<DepthCriterion> {
    prop_oneof![
        value_of(Param::GrowthRatio).prop_map(|ratio| DepthCriterion::Growth { ratio }),
        Just(DepthCriterion::Rayleigh),
        value_of(Param::IrradianceDrop).prop_map(|drop| DepthCriterion::IrradianceDrop { drop }),
        value_of(Param::LargestDiameter).prop_map(|diameter| DepthCriterion::LargestDiameter { diameter }),
        value_of(Param::LineDoseDrop).prop_map(|drop| DepthCriterion::LineDoseDrop { drop }),
    ]
    .boxed()
}

/// The one number in a criterion, if it has one.
pub fn limit_of(criterion: DepthCriterion) -> Option<(Param, f64)> {
    match criterion {
        DepthCriterion::Growth { ratio } => Some((Param::GrowthRatio, ratio)),
        DepthCriterion::IrradianceDrop { drop } => Some((Param::IrradianceDrop, drop)),
        DepthCriterion::LargestDiameter { diameter } => Some((Param::LargestDiameter, diameter)),
        DepthCriterion::LineDoseDrop { drop } => Some((Param::LineDoseDrop, drop)),
        _ => None,
    }
}

pub fn beam_inputs(beam: &Beam) -> Vec<(Param, f64)> {
    vec![
        (Param::Wavelength, beam.wavelength),
        (Param::M2, beam.m2),
        (Param::WaistDiameter, beam.waist_diameter),
    ]
}

pub fn astigmatic_inputs(beam: &AstigmaticBeam) -> Vec<(Param, f64)> {
    vec![
        (Param::Wavelength, beam.wavelength),
        (Param::M2X, beam.x.m2),
        (Param::WaistDiameterX, beam.x.waist_diameter),
        (Param::WaistZX, beam.x.waist_z),
        (Param::M2Y, beam.y.m2),
        (Param::WaistDiameterY, beam.y.waist_diameter),
        (Param::WaistZY, beam.y.waist_z),
    ]
}

/// A focal length by its magnitude, as its range is given.
fn focal_input(f: f64) -> (Param, f64) {
    (Param::FocalLength, f)
}

fn outside(param: Param, value: f64) -> bool {
    let (least, greatest) = param.range();
    let value = if param == Param::FocalLength { value.abs() } else { value };
    !(least <= value && value <= greatest)
}

/// Holds a result against its inputs, which stand in the order in which they are checked.
pub fn judge(result: Result<Vec<f64>, Error>, inputs: &[(Param, f64)]) {
    let first_outside = inputs.iter().find(|(param, value)| outside(*param, *value));
    match result {
        Ok(numbers) => {
            assert!(first_outside.is_none(), "{first_outside:?} was let through");
            for number in numbers {
                assert!(number.is_finite(), "{number} among the results for {inputs:?}");
            }
        }
        Err(error) => {
            told_well(&error);
            let (param, value) = (error.param(), error.value());
            if matches!(error.code(), 1 | 2) {
                let first =
                    first_outside.unwrap_or_else(|| panic!("{error}, but all are in range: {inputs:?}"));
                assert_eq!((param, value.to_bits()), (first.0, first.1.to_bits()), "{error}");
                assert_eq!(error.code() == 1, !value.is_finite(), "{error}");
            } else {
                // What follows from the inputs may be refused before a later input is looked at.
                assert!(matches!(error.code(), 4 | 5), "{error}");
            }
        }
    }
}

/// An error excludes the value that it names, and its message says which, of what and why.
pub fn told_well(error: &Error) {
    let (least, greatest) = error.allowed();
    let value = error.value();
    // A place on the rim of a round part lies beside it.
    let on_the_rim = error.param() == Param::DistanceFromCrown && value == greatest;
    assert!(!(least <= value && value <= greatest) || on_the_rim, "{error}");
    // A beam may meet no limit that is allowed at all; then the least it would meet is above them.
    assert!(least <= greatest || error.code() == 5, "{error}");
    let message = error.to_string();
    assert!(message.starts_with(error.param().name()) && message.contains("must be"), "{message}");
}

pub fn numbers_of(focused: &FocusedBeam) -> Vec<f64> {
    vec![
        focused.waist_diameter,
        focused.rayleigh_range,
        focused.divergence_full_angle,
        focused.magnification,
        focused.focus_shift,
        focused.lens_to_waist,
        focused.diameter_at_lens,
        focused.half_angle,
    ]
}

pub fn ends_of(range: &FocusRange) -> Vec<f64> {
    assert!(range.toward_lens_z <= range.away_from_lens_z && range.full >= 0.0, "{range:?}");
    vec![range.toward_lens_z, range.away_from_lens_z, range.full, range.half_angle]
}

fn numbers_at(place: &Place) -> Vec<f64> {
    let here = [
        place.z_offset,
        place.diameter,
        place.growth,
        place.irradiance_ratio,
        place.line_dose_ratio,
        place.seen_diameter,
    ];
    let smallest = place.smallest.map(|d| [d.bar, d.gap, d.dot_diameter, d.hole_diameter]);
    [&here[..], smallest.as_ref().map_or(&[], |details| details)].concat()
}

fn numbers_in(verdict: &Verdict) -> Vec<f64> {
    let mut all = numbers_of(&verdict.focused);
    all.extend([verdict.focus_z, verdict.best_focus_z, verdict.best_worst_growth]);
    for range in [verdict.depth, verdict.detail_range].into_iter().flatten() {
        all.extend(ends_of(&range));
    }
    for place in [verdict.highest, verdict.datum, verdict.lowest] {
        all.extend(numbers_at(&place));
    }
    all
}

/// Inputs of a function, in order: a beam's, then more.
fn after(mut first: Vec<(Param, f64)>, more: &[(Param, f64)]) -> Vec<(Param, f64)> {
    first.extend_from_slice(more);
    first
}

/// A choice is known by its code from 1 on; any other code is refused by the name of its parameter.
pub fn only_known_codes(code: u32, known: u32, param: Param, result: Result<u32, Error>) {
    match result {
        Ok(back) => assert!(back == code && (1..=known).contains(&code)),
        Err(error) => {
            assert!(!(1..=known).contains(&code));
            assert_eq!((error.code(), error.param(), error.value()), (3, param, f64::from(code)));
            told_well(&error);
        }
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn widths(d in value_of(Param::BeamDiameter), a in value_of(Param::ApertureDiameter), share in value_of(Param::PowerShare), from in definition(), to in definition()) {
        judge(convert_width(d, from, to).map(|x| vec![x]), &[(Param::BeamDiameter, d)]);
        judge(
            power_through_aperture(d, a).map(|x| vec![x]),
            &[(Param::BeamDiameter, d), (Param::ApertureDiameter, a)],
        );
        judge(
            diameter_for_power(d, share).map(|x| vec![x]),
            &[(Param::BeamDiameter, d), (Param::PowerShare, share)],
        );
    }

    #[test]
    fn beams(beam in beam(), z in value_of(Param::Z)) {
        let inputs = beam_inputs(&beam);
        let parameters = beam_parameters(&beam).map(|p| {
            vec![p.rayleigh_range, p.divergence_half_angle, p.divergence_full_angle, p.beam_parameter_product]
        });
        judge(parameters, &inputs);
        let section = beam_at(&beam, z).map(|section| {
            // The radius is infinite at the waist and too large for a double right beside it.
            assert!(!section.wavefront_radius.is_nan());
            assert!(section.wavefront_radius.is_finite() || z.abs() < 1e-250);
            vec![section.diameter, section.wavefront_curvature]
        });
        judge(section, &after(inputs.clone(), &[(Param::Z, z)]));
        let off = defocus(&beam, z).map(|d| {
            vec![d.diameter, d.growth, d.growth_minus_one, d.irradiance_ratio, d.line_dose_ratio]
        });
        judge(off, &after(inputs, &[(Param::ZOffset, z)]));
    }

    /// A failed bulk call leaves no number behind.
    #[test]
    fn many_diameters(beam in beam(), z in prop::collection::vec(value_of(Param::Z), 0..6), length in 0usize..6) {
        let mut out = vec![1.0; length];
        let result = diameters_at(&beam, &z, &mut out);
        if length != z.len() {
            let error = result.unwrap_err();
            assert_eq!((error.code(), error.param()), (6, Param::Output));
            told_well(&error);
            assert!(out.iter().all(|number| number.is_nan()));
            return Ok(());
        }
        if result.is_err() {
            assert!(out.iter().all(|number| number.is_nan()));
        }
        let places: Vec<_> = z.iter().map(|z| (Param::Z, *z)).collect();
        judge(result.map(|cone| { out.push(cone.half_angle); out }), &after(beam_inputs(&beam), &places));
    }

    #[test]
    fn waists(wavelength in value_of(Param::Wavelength), m2 in value_of(Param::M2), d0 in value_of(Param::WaistDiameter), angle in value_of(Param::DivergenceFullAngle), zr in value_of(Param::RayleighRange)) {
        let laser = [(Param::Wavelength, wavelength), (Param::M2, m2)];
        judge(
            waist_from_rayleigh_range(wavelength, m2, zr).map(|x| vec![x]),
            &after(laser.to_vec(), &[(Param::RayleighRange, zr)]),
        );
        judge(
            waist_from_divergence(wavelength, m2, angle).map(|x| vec![x]),
            &after(laser.to_vec(), &[(Param::DivergenceFullAngle, angle)]),
        );
        judge(
            m2_from_divergence(wavelength, d0, angle).map(|x| vec![x]),
            &[(Param::Wavelength, wavelength), (Param::WaistDiameter, d0), (Param::DivergenceFullAngle, angle)],
        );
    }

    #[test]
    fn astigmatic_beams(beam in astigmatic_beam(), z in value_of(Param::Z), criterion in criterion()) {
        let inputs = astigmatic_inputs(&beam);
        let parameters = astigmatic_parameters(&beam).map(|p| {
            vec![
                p.rayleigh_range_x, p.rayleigh_range_y, p.waist_separation, p.relative_astigmatism,
                p.m2_effective, p.effective_waist_z, p.effective_waist_diameter, p.effective_rayleigh_range,
                p.brightest_z, p.brightest_irradiance_ratio,
            ]
        });
        judge(parameters, &inputs);
        let section = astigmatic_at(&beam, z).map(|at| {
            vec![at.diameter_x, at.diameter_y, at.ellipticity, at.effective_diameter, at.equal_area_diameter]
        });
        judge(section, &after(inputs.clone(), &[(Param::Z, z)]));
        let off = astigmatic_defocus(&beam, z).map(|d| {
            vec![
                d.growth_x, d.growth_y, d.irradiance_ratio, d.line_dose_ratio_along_x, d.line_dose_ratio_along_y,
            ]
        });
        judge(off, &after(inputs.clone(), &[(Param::Z, z)]));
        let limit: Vec<_> = limit_of(criterion).into_iter().collect();
        judge(astigmatic_depth_of_focus(&beam, criterion).map(|range| ends_of(&range)), &after(inputs, &limit));
    }

    #[test]
    fn lenses(beam in beam(), astigmatic in astigmatic_beam(), s in value_of(Param::WaistToLens), f in focal_length()) {
        judge(
            focus_through_lens(&beam, s, f).map(|focused| numbers_of(&focused)),
            &after(beam_inputs(&beam), &[(Param::WaistToLens, s), focal_input(f)]),
        );
        let collimated = focus_collimated(beam.wavelength, beam.m2, beam.waist_diameter, f);
        let inputs = [
            (Param::Wavelength, beam.wavelength),
            (Param::M2, beam.m2),
            (Param::DiameterAtLens, beam.waist_diameter),
            focal_input(f),
        ];
        judge(collimated.map(|focused| numbers_of(&focused)), &inputs);
        let focused = focus_astigmatic(&astigmatic, f).map(|found| {
            let beam = found.beam;
            // What comes out must be accepted as an input.
            assert!(astigmatic_parameters(&beam).is_ok() || beam.x.waist_z.abs().max(beam.y.waist_z.abs()) > 1e7);
            vec![beam.x.waist_diameter, beam.x.waist_z, beam.y.waist_diameter, beam.y.waist_z, found.half_angle]
        });
        judge(focused, &after(astigmatic_inputs(&astigmatic), &[focal_input(f)]));
    }

    #[test]
    fn depths(beam in beam(), criterion in criterion(), d in value_of(Param::SpotDiameter), growth in value_of(Param::GrowthRatio)) {
        let inputs = beam_inputs(&beam);
        let limit: Vec<_> = limit_of(criterion).into_iter().collect();
        judge(depth_of_focus(&beam, criterion).map(|range| ends_of(&range)), &after(inputs.clone(), &limit));
        judge(
            offsets_for_diameter(&beam, d).map(|range| ends_of(&range)),
            &after(inputs.clone(), &[(Param::SpotDiameter, d)]),
        );
        judge(
            offsets_for_growth(&beam, growth).map(|range| ends_of(&range)),
            &after(inputs, &[(Param::GrowthRatio, growth)]),
        );
    }

    #[test]
    fn marks(d in value_of(Param::SpotDiameter), q in value_of(Param::DoseRatio), stroke in value_of(Param::FinestStroke), gap in value_of(Param::FinestGap), pitch in value_of(Param::Pitch), contrast in value_of(Param::Contrast)) {
        let details = smallest_details(d, q).map(|at| {
            assert!(at.bar > 0.0 && at.gap > 0.0 && at.dot_diameter > 0.0 && at.hole_diameter > 0.0);
            vec![at.bar, at.gap, at.dot_diameter, at.hole_diameter, at.edge_shift]
        });
        judge(details, &[(Param::SpotDiameter, d), (Param::DoseRatio, q)]);
        judge(
            largest_spot_for_details(stroke, gap, q).map(|x| vec![x]),
            &[(Param::FinestStroke, stroke), (Param::FinestGap, gap), (Param::DoseRatio, q)],
        );
        let at_pitch = contrast_at_pitch(d, pitch).map(|c| {
            // The window is infinite where nothing is lost that a double can tell.
            assert!(c.dose_window >= 1.0 && (c.dose_window.is_finite() || c.bars == 1.0));
            vec![c.sine, c.bars]
        });
        judge(at_pitch, &[(Param::SpotDiameter, d), (Param::Pitch, pitch)]);
        judge(
            pitch_for_contrast(d, contrast).map(|pitch| vec![pitch.sine, pitch.bars]),
            &[(Param::SpotDiameter, d), (Param::Contrast, contrast)],
        );
    }

    #[test]
    fn jobs(
        raw in beam(), collimated in any::<bool>(), s in value_of(Param::WaistToLens), f in value_of(Param::FocalLength),
        by_height in any::<bool>(), focus_z in value_of(Param::FocusZ), lens_to_surface in value_of(Param::LensToSurface),
        surface in (value_of(Param::SurfaceRise), value_of(Param::SurfaceFall)), criterion in criterion(),
        drawing in (value_of(Param::FinestStroke), value_of(Param::FinestGap), value_of(Param::AnyDoseRatio)),
    ) {
        let (surface_rise, surface_fall) = surface;
        let (finest_stroke, finest_gap, dose_ratio) = drawing;
        let mut inputs = vec![(Param::Wavelength, raw.wavelength), (Param::M2, raw.m2)];
        let raw_beam = if collimated {
            inputs.push((Param::DiameterAtLens, raw.waist_diameter));
            RawBeam::Collimated { diameter_at_lens: raw.waist_diameter }
        } else {
            inputs.extend([(Param::WaistDiameter, raw.waist_diameter), (Param::WaistToLens, s)]);
            RawBeam::Waist { waist_diameter: raw.waist_diameter, waist_to_lens: s }
        };
        inputs.push(focal_input(f));
        let focus = if by_height {
            inputs.push((Param::LensToSurface, lens_to_surface));
            FocusSetting::LensHeight { lens_to_surface }
        } else {
            inputs.push((Param::FocusZ, focus_z));
            FocusSetting::FromDatum { focus_z }
        };
        inputs.extend([(Param::SurfaceRise, surface_rise), (Param::SurfaceFall, surface_fall)]);
        inputs.extend(limit_of(criterion));
        inputs.extend([
            (Param::FinestStroke, finest_stroke), (Param::FinestGap, finest_gap), (Param::AnyDoseRatio, dose_ratio),
        ]);
        let job = Job {
            wavelength: raw.wavelength, m2: raw.m2, raw_beam, focal_length: f, lens: JobLens::Ideal, focus, surface_rise,
            surface_fall, criterion, finest_stroke, finest_gap, dose: JobDose::Ratio { dose_ratio }, text: None,
        };
        let result = focus_check(&job);
        if f < 0.0 {
            // A job focuses onto a surface: its lens must converge.
            told_well(&result.unwrap_err());
            return Ok(());
        }
        judge(result.map(|verdict| numbers_in(&verdict)), &inputs);
    }

    /// Codes that stand for no choice.
    #[test]
    fn choices(code in prop_oneof![any::<u32>(), 0u32..8], number in wild()) {
        let check = |known, param, result| only_known_codes(code, known, param, result);
        check(4, Param::WidthDefinition, WidthDefinition::from_code(code).map(|choice| choice as u32));
        let criterion = DepthCriterion::from_code(code, number, number, number);
        check(5, Param::DepthCriterion, criterion.map(|choice| choice.code()));
        let raw = RawBeam::from_code(code, number, number, number, number, number, number, number);
        check(3, Param::RawBeam, raw.map(|choice| choice.code()));
        check(2, Param::FocusSetting, FocusSetting::from_code(code, number, number).map(|choice| choice.code()));
    }
}
