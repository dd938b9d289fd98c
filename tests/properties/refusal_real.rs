//! As [`refusal`](super::refusal), for real lenses, paths, gantries and waves: any bits at all neither
//! panic nor get through, and each refusal names the first input that is outside its range.

use super::given::*;
use super::refusal::{
    astigmatic_beam, astigmatic_inputs, beam, beam_inputs, criterion, ends_of, focal_length, limit_of,
    numbers_of, only_known_codes, told_well, value_of, wild,
};
use proptest::prelude::*;
use spotwise::model::focus::{
    DepthCriterion, clipped_depth_of_focus, singlet_defocus, singlet_depth_of_focus, tilted_spot,
    wave_depth_of_focus,
};
use spotwise::model::optics::{
    AberratedWaist, Element, FocusMeasure, GantrySpread, Glass, LensShape, PathBeam, Singlet, SpotMeasure,
    Wave, aberration_growth, beam_after_path, beam_along_path, even_out_gantry, focus_along_gantry,
    focus_behind_plate, focus_clipped, focus_inside, focus_singlet, gantry_spread, lens_aberration,
    lens_at_wavelength, lens_from_radii, refractive_index, smallest_spot, wave_focus, wave_irradiance,
    wave_map, wave_map_workspace, wave_power, wave_widths,
};
use spotwise::{Error, Param, Validity};

/// One number that a function checks.
#[derive(Debug, Clone, Copy)]
pub struct Input {
    param: Param,
    value: f64,
    allowed: bool,
}

impl Input {
    pub fn is_allowed(&self) -> bool {
        self.allowed
    }
}

pub fn input(param: Param, value: f64) -> Input {
    let (least, greatest) = param.range();
    within(param, value, least, greatest)
}

pub fn within(param: Param, value: f64, least: f64, greatest: f64) -> Input {
    Input { param, value, allowed: least <= value && value <= greatest }
}

/// A focal length of either sign.
fn either_sign(param: Param, value: f64) -> Input {
    let (least, greatest) = param.range();
    Input { param, value, allowed: (least..=greatest).contains(&value.abs()) }
}

/// A surface of a lens, which may be flat.
fn surface(param: Param, value: f64) -> Input {
    Input { allowed: value.is_infinite() || either_sign(param, value).allowed, ..input(param, value) }
}

/// A number that may be infinite, for no limit.
pub fn or_infinite(param: Param, value: f64) -> Input {
    let drawn = input(param, value);
    Input { allowed: drawn.allowed || value == f64::INFINITY, ..drawn }
}

/// An aperture, which there may not be.
fn aperture(value: f64) -> Input {
    or_infinite(Param::ClearAperture, value)
}

fn shape_inputs(shape: LensShape) -> Vec<Input> {
    match shape {
        LensShape::ShapeFactor { factor } => vec![input(Param::ShapeFactor, factor)],
        _ => Vec::new(),
    }
}

fn lens_inputs(lens: &Singlet) -> Vec<Input> {
    let mut all = vec![input(Param::RefractiveIndex, lens.index)];
    all.extend(shape_inputs(lens.shape));
    all.push(either_sign(Param::FocalLength, lens.focal_length));
    all
}

pub fn inputs_of(plain: Vec<(Param, f64)>) -> Vec<Input> {
    plain.into_iter().map(|(param, value)| input(param, value)).collect()
}

fn wave_inputs(wave: &Wave) -> Vec<Input> {
    vec![
        input(Param::Wavelength, wave.wavelength),
        within(Param::M2, wave.m2, 1.0, 5.0),
        input(Param::DiameterAtLens, wave.diameter_at_lens),
        aperture(wave.clear_aperture),
        input(Param::LensToFocus, wave.lens_to_focus),
        within(Param::AberrationPhase, wave.aberration_phase, -6.0, 6.0),
    ]
}

/// Holds a result against its inputs, which stand in the order in which they are checked.
pub fn judge(result: Result<Vec<f64>, Error>, inputs: &[Input]) {
    let first_outside = inputs.iter().find(|input| !input.allowed);
    match result {
        Ok(numbers) => {
            assert!(first_outside.is_none(), "{first_outside:?} was let through");
            for number in numbers {
                assert!(number.is_finite(), "{number} among the results for {inputs:?}");
            }
        }
        Err(error) => {
            told_well(&error);
            if matches!(error.code(), 1 | 2) {
                let first =
                    first_outside.unwrap_or_else(|| panic!("{error}, but all are allowed: {inputs:?}"));
                assert_eq!(
                    (error.param(), error.value().to_bits()),
                    (first.param, first.value.to_bits()),
                    "{error}"
                );
                assert_eq!(error.code() == 1, !first.value.is_finite(), "{error}");
            } else {
                // What follows from the inputs may be refused before a later input is looked at.
                assert!(matches!(error.code(), 4 | 5), "{error}");
            }
        }
    }
}

/// Numbers that are all there, or all missing under the flag that says so.
fn unless_refused(numbers: &[f64], validity: Validity) -> Vec<f64> {
    if validity.contains(Validity::NO_POWER86) {
        assert!(numbers.iter().all(|number| number.is_nan()), "{numbers:?}");
        return Vec::new();
    }
    numbers.to_vec()
}

fn waist(waist: &AberratedWaist) -> [f64; 5] {
    [waist.waist_diameter, waist.m2, waist.rayleigh_range, waist.shift, waist.lens_to_waist]
}

fn path_numbers(at: &PathBeam) -> Vec<f64> {
    let beam = at.beam;
    vec![
        beam.wavelength,
        beam.x.m2,
        beam.x.waist_diameter,
        beam.x.waist_z,
        beam.y.m2,
        beam.y.waist_diameter,
        beam.y.waist_z,
        at.diameter_x,
        at.diameter_y,
        at.distance,
        at.normalised_aberration,
    ]
}

fn spread_numbers(spread: &GantrySpread) -> Vec<f64> {
    assert!(spread.spot_ratio >= 1.0 && spread.focus_wander >= 0.0);
    vec![
        spread.smallest_spot,
        spread.largest_spot,
        spread.spot_ratio,
        spread.least_focus_shift,
        spread.greatest_focus_shift,
        spread.focus_wander,
    ]
}

// --- Draws -------------------------------------------------------------------------------------

fn glass() -> impl Strategy<Value = Glass> {
    prop::sample::select(Glass::ALL.to_vec())
}

/// A wavelength, mostly one that some glass passes.
fn light() -> BoxedStrategy<f64> {
    prop_oneof![4 => spread(2e-7, 2e-5), 1 => value_of(Param::Wavelength)].boxed()
}

fn shape() -> BoxedStrategy<LensShape> {
    prop_oneof![
        3 => lens_shape(),
        1 => value_of(Param::ShapeFactor).prop_map(|factor| LensShape::ShapeFactor { factor }),
    ]
    .boxed()
}

fn singlet() -> impl Strategy<Value = Singlet> {
    (value_of(Param::RefractiveIndex), shape(), focal_length())
        .prop_map(|(index, shape, focal_length)| Singlet { index, shape, focal_length })
}

fn radius(param: Param) -> BoxedStrategy<f64> {
    prop_oneof![
        4 => (any::<bool>(), value_of(param)).prop_map(|(minus, r)| if minus { -r } else { r }),
        1 => Just(f64::INFINITY),
        1 => wild(),
    ]
    .boxed()
}

fn clear_aperture() -> BoxedStrategy<f64> {
    prop_oneof![4 => value_of(Param::ClearAperture), 2 => Just(f64::INFINITY)].boxed()
}

fn element() -> BoxedStrategy<Element> {
    prop_oneof![
        value_of(Param::SpaceLength).prop_map(|length| Element::Space { length }),
        focal_length().prop_map(|focal_length| Element::ThinLens { focal_length }),
        (value_of(Param::Thickness), value_of(Param::RefractiveIndex))
            .prop_map(|(thickness, index)| Element::Window { thickness, index }),
        (value_of(Param::Magnification), value_of(Param::ExitPower))
            .prop_map(|(magnification, exit_power)| Element::Expander { magnification, exit_power }),
        (focal_length(), value_of(Param::RefractiveIndex), value_of(Param::ShapeFactor)).prop_map(
            |(focal_length, index, shape_factor)| Element::Singlet { focal_length, index, shape_factor }
        ),
    ]
    .boxed()
}

fn element_inputs(element: &Element) -> Vec<Input> {
    match *element {
        Element::Space { length } => vec![input(Param::SpaceLength, length)],
        Element::ThinLens { focal_length } => vec![either_sign(Param::FocalLength, focal_length)],
        Element::Window { thickness, index } => {
            vec![input(Param::Thickness, thickness), input(Param::RefractiveIndex, index)]
        }
        Element::Expander { magnification, exit_power } => {
            vec![input(Param::Magnification, magnification), input(Param::ExitPower, exit_power)]
        }
        Element::Singlet { focal_length, index, shape_factor } => vec![
            either_sign(Param::FocalLength, focal_length),
            input(Param::RefractiveIndex, index),
            input(Param::ShapeFactor, shape_factor),
        ],
        other => panic!("{other:?}"),
    }
}

/// A wave of ordinary size, of which now and then one number is anything.
fn wave() -> impl Strategy<Value = Wave> {
    let ordinary = (
        spread(3e-7, 2e-5),
        prop_oneof![Just(1.0), 1.0f64..2.5],
        0.005f64..0.2,
        spread(0.3, 4.0),
        spread(0.02, 1.0),
        -1.5f64..1.5,
    );
    (ordinary, 0u32..24, wild(), any::<bool>()).prop_map(
        |((wavelength, m2, cone, ratio, lens_to_focus, aberration_phase), spoilt, value, open)| {
            let diameter_at_lens = 2.0 * cone * lens_to_focus;
            let clear_aperture = if open { 3.0 * diameter_at_lens } else { ratio * diameter_at_lens };
            let mut wave =
                Wave { wavelength, m2, diameter_at_lens, clear_aperture, lens_to_focus, aberration_phase };
            match spoilt {
                0 => wave.wavelength = value,
                1 => wave.m2 = value,
                2 => wave.diameter_at_lens = value,
                3 => wave.clear_aperture = value,
                4 => wave.lens_to_focus = value,
                5 => wave.aberration_phase = value,
                _ => {}
            }
            wave
        },
    )
}

/// Distances from the axis and along it, from those at which a spot is seen to anything.
fn place() -> BoxedStrategy<f64> {
    prop_oneof![6 => signed_spread(1e-7, 1e-3), 1 => wild(), 1 => signed_spread(1e-3, 1e3)].boxed()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn glasses(glass in glass(), shape in shape(), f in focal_length(), design in light(), wavelength in light()) {
        let (least, greatest) = glass.wavelengths();
        judge(
            refractive_index(glass, wavelength).map(|at| vec![at.index, at.dispersion]),
            &[within(Param::Wavelength, wavelength, least, greatest)],
        );
        let mut inputs = shape_inputs(shape);
        inputs.extend([
            either_sign(Param::FocalLength, f),
            within(Param::DesignWavelength, design, least, greatest),
            within(Param::Wavelength, wavelength, least, greatest),
        ]);
        let lens = lens_at_wavelength(glass, shape, f, design, wavelength);
        judge(lens.map(|lens| vec![
            lens.design_index, lens.index, lens.focal_length, lens.focal_shift, lens.shape_factor,
            lens.blur_coefficient, lens.wavefront_coefficient,
        ]), &inputs);
    }

    #[test]
    fn lens_forms(n in value_of(Param::RefractiveIndex), first in radius(Param::FirstRadius), second in radius(Param::SecondRadius), lens in singlet()) {
        let inputs = [input(Param::RefractiveIndex, n), surface(Param::FirstRadius, first), surface(Param::SecondRadius, second)];
        judge(lens_from_radii(n, first, second).map(|form| vec![form.focal_length, form.shape_factor]), &inputs);
        let aberration = lens_aberration(&lens);
        judge(aberration.map(|a| vec![a.shape_factor, a.blur_coefficient, a.wavefront_coefficient]), &lens_inputs(&lens));
    }

    #[test]
    fn aberrations(m2 in value_of(Param::M2), phase in value_of(Param::AberrationPhase)) {
        let growth = aberration_growth(m2, phase).map(|g| {
            let mut all = vec![
                g.second_moment_m2, g.second_moment_growth, g.second_moment_shift, g.handbook_growth, g.quadrature_growth,
            ];
            all.extend(unless_refused(&[g.power86_growth, g.power86_shift, g.peak_irradiance_ratio], g.validity));
            all
        });
        judge(growth, &[input(Param::M2, m2), input(Param::AberrationPhase, phase)]);
    }

    #[test]
    fn singlets(raw in beam(), s in value_of(Param::WaistToLens), lens in singlet(), clear in clear_aperture()) {
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.push(input(Param::WaistToLens, s));
        inputs.extend(lens_inputs(&lens));
        inputs.push(aperture(clear));
        let focus = focus_singlet(&raw, s, &lens, clear).map(|focus| {
            let mut all = numbers_of(&focus.ideal);
            all.extend(waist(&focus.second_moment));
            all.extend(unless_refused(&waist(&focus.power86), focus.validity));
            all.extend(unless_refused(&[focus.peak_irradiance_ratio], focus.validity));
            all.extend([
                focus.handbook_diameter, focus.quadrature_diameter, focus.shape_factor, focus.aberration_phase,
                focus.normalised_aberration, focus.transmitted, focus.relative_focus_shift, focus.half_angle,
            ]);
            // Light that the lens makes parallel converges nowhere.
            assert!(!focus.lens_to_focus.is_nan());
            // No aperture, no clipping.
            assert!(focus.clipping_ratio >= 0.2 && focus.clipping_ratio.is_infinite() == clear.is_infinite());
            all
        });
        judge(focus, &inputs);
    }

    #[test]
    fn off_focus_of_singlets(raw in beam(), s in value_of(Param::WaistToLens), lens in singlet(), clear in clear_aperture(), power86 in any::<bool>(), z in value_of(Param::ZOffset), criterion in criterion()) {
        let measure = if power86 { SpotMeasure::Power86 } else { SpotMeasure::SecondMoment };
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.push(input(Param::WaistToLens, s));
        inputs.extend(lens_inputs(&lens));
        inputs.push(aperture(clear));
        let depth = singlet_depth_of_focus(&raw, s, &lens, clear, measure, criterion);
        let mut limited = inputs.clone();
        limited.extend(inputs_of(limit_of(criterion).into_iter().collect()));
        judge(depth.map(|depth| ends_of(&depth.range)), &limited);
        inputs.push(input(Param::ZOffset, z));
        let off = singlet_defocus(&raw, s, &lens, clear, measure, z).map(|found| {
            let d = found.defocus;
            vec![d.diameter, d.growth, d.growth_minus_one, d.irradiance_ratio, d.line_dose_ratio, d.half_angle]
        });
        judge(off, &inputs);
    }

    #[test]
    fn tilted_surfaces(beam in beam(), z in value_of(Param::ZOffset), tilt in value_of(Param::Tilt)) {
        let mut inputs = inputs_of(beam_inputs(&beam));
        inputs.extend([input(Param::ZOffset, z), input(Param::Tilt, tilt)]);
        let spot = tilted_spot(&beam, z, tilt).map(|spot| {
            vec![
                spot.diameter_across, spot.diameter_along, spot.contour_along, spot.contour_shift,
                spot.irradiance_ratio, spot.line_dose_ratio, spot.grazing_ratio, spot.half_angle,
            ]
        });
        judge(spot, &inputs);
    }

    #[test]
    fn smallest_spots(wavelength in value_of(Param::Wavelength), m2 in value_of(Param::M2), lens in singlet(), measure in prop::sample::select(SpotMeasure::ALL.to_vec())) {
        let mut inputs = vec![input(Param::Wavelength, wavelength), input(Param::M2, m2)];
        inputs.extend(lens_inputs(&lens));
        // It must converge; that is looked at last.
        inputs.push(input(Param::FocalLength, lens.focal_length));
        let best = smallest_spot(wavelength, m2, &lens, measure);
        judge(best.map(|best| vec![best.diameter_at_lens, best.spot_diameter, best.aberration_phase]), &inputs);
    }

    #[test]
    fn clipped_beams(wavelength in value_of(Param::Wavelength), d in value_of(Param::DiameterAtLens), ratio in spread(0.1, 10.0), clear in clear_aperture(), in_proportion in any::<bool>(), f in focal_length(), drop in prop_oneof![3 => 0.0f64..1.0, 1 => wild()]) {
        let clear = if in_proportion { ratio * d } else { clear };
        let mut inputs = vec![
            input(Param::Wavelength, wavelength), input(Param::DiameterAtLens, d), aperture(clear), input(Param::FocalLength, f),
        ];
        let focus = focus_clipped(wavelength, d, clear, f).map(|focus| {
            let mut all = vec![focus.transmitted, focus.diameter_1e2, focus.fwhm, focus.peak_irradiance_ratio];
            all.extend(unless_refused(&[focus.diameter_power86], focus.validity));
            assert!(focus.clipping_ratio >= 0.2);
            all
        });
        judge(focus, &inputs);
        inputs.push(within(Param::IrradianceDrop, drop, 0.01, 0.9));
        judge(clipped_depth_of_focus(wavelength, d, clear, f, drop).map(|depth| {
            let mut all = ends_of(&depth.range);
            all.extend([depth.brightest_z, depth.relative_rayleigh_range, depth.relative_half_depth]);
            all
        }), &inputs);
    }

    #[test]
    fn plates(raw in beam(), t in value_of(Param::Thickness), lowered in value_of(Param::LensLoweredBy), n in value_of(Param::RefractiveIndex)) {
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.extend([input(Param::Thickness, t), input(Param::RefractiveIndex, n)]);
        let plate = focus_behind_plate(&raw, t, n);
        judge(plate.map(|p| vec![p.focus_shift, p.edge_focus_shift, p.aberration_phase, p.normalised_aberration]), &inputs);
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.extend([input(Param::LensLoweredBy, lowered), input(Param::RefractiveIndex, n)]);
        let inside = focus_inside(&raw, lowered, n).map(|p| {
            vec![p.depth, p.edge_depth, p.rayleigh_range, p.aberration_phase, p.normalised_aberration]
        });
        judge(inside, &inputs);
    }

    #[test]
    fn paths(raw in astigmatic_beam(), elements in prop::collection::vec(element(), 0..5), distance in value_of(Param::PathDistance)) {
        let mut inputs = inputs_of(astigmatic_inputs(&raw));
        inputs.extend(elements.iter().flat_map(element_inputs));
        judge(beam_after_path(&raw, &elements).map(|at| path_numbers(&at)), &inputs);
        inputs.push(input(Param::PathDistance, distance));
        judge(beam_along_path(&raw, &elements, distance).map(|at| path_numbers(&at)), &inputs);
    }

    /// A failed bulk call leaves no number behind.
    #[test]
    fn along_a_gantry(raw in beam(), places in prop::collection::vec(value_of(Param::WaistToLens), 0..5), f in focal_length(), lengths in [0usize..5, 0usize..5]) {
        let (mut spots, mut shifts) = (vec![1.0; lengths[0]], vec![1.0; lengths[1]]);
        let result = focus_along_gantry(&raw, &places, f, &mut spots, &mut shifts);
        if result.is_err() {
            prop_assert!(spots.iter().chain(&shifts).all(|number| number.is_nan()));
        }
        if lengths != [places.len(); 2] {
            let error = result.unwrap_err();
            assert_eq!((error.code(), error.param()), (6, Param::Output));
            told_well(&error);
            return Ok(());
        }
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.extend(places.iter().map(|place| input(Param::WaistToLens, *place)));
        inputs.push(either_sign(Param::FocalLength, f));
        judge(result.map(|cone| spots.into_iter().chain(shifts).chain([cone.half_angle]).collect()), &inputs);
    }

    #[test]
    fn gantries(raw in beam(), to_expander in value_of(Param::WaistToExpander), m in value_of(Param::Magnification), nearest in value_of(Param::Nearest), farthest in value_of(Param::Farthest), f in focal_length(), ordered in any::<bool>()) {
        let (nearest, farthest) = if ordered && nearest > farthest { (farthest, nearest) } else { (nearest, farthest) };
        let (least, greatest) = Param::Farthest.range();
        // A nearest distance that is refused is told before the farthest is compared with it.
        let not_before = if nearest.is_finite() { nearest } else { least };
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.extend([
            input(Param::Nearest, nearest), within(Param::Farthest, farthest, not_before, greatest), input(Param::FocalLength, f),
        ]);
        judge(gantry_spread(&raw, nearest, farthest, f).map(|spread| spread_numbers(&spread)), &inputs);
        let mut inputs = inputs_of(beam_inputs(&raw));
        inputs.extend([
            input(Param::WaistToExpander, to_expander), input(Param::Magnification, m),
            within(Param::Nearest, nearest, 0.0, greatest), within(Param::Farthest, farthest, not_before, greatest),
            input(Param::FocalLength, f),
        ]);
        let even = even_out_gantry(&raw, to_expander, m, nearest, farthest, f).map(|even| {
            let mut all = spread_numbers(&even.spread);
            all.extend([even.exit_power, even.waist_diameter, even.expander_to_waist]);
            all
        });
        judge(even, &inputs);
    }

    /// Codes that stand for no choice.
    #[test]
    fn choices(code in prop_oneof![any::<u32>(), 0u32..12], number in wild()) {
        let check = |known, param, result| only_known_codes(code, known, param, result);
        check(8, Param::Glass, Glass::from_code(code).map(|glass| glass as u32));
        check(4, Param::LensShape, LensShape::from_code(code, number).map(|shape| shape.code()));
        check(3, Param::SpotMeasure, SpotMeasure::from_code(code).map(|measure| measure as u32));
        check(3, Param::FocusMeasure, FocusMeasure::from_code(code).map(|measure| measure as u32));
        let element = Element::from_code(code, number, number, number, number, number, number);
        check(5, Param::PathElement, element.map(|element| element.code()));
    }
}

proptest! {
    #![proptest_config(few_cases())]

    #[test]
    fn waves(wave in wave(), radius in place(), z in place()) {
        let in_plane = |mut inputs: Vec<Input>| {
            inputs.push(input(Param::Z, z));
            inputs
        };
        let mut inputs = wave_inputs(&wave);
        judge(
            wave_widths(&wave, z).map(|w| {
                vec![w.irradiance_ratio, w.diameter_1e2, w.fwhm, w.diameter_power86, w.transmitted, w.error]
            }),
            &in_plane(inputs.clone()),
        );
        inputs.push(input(Param::Radius, radius));
        let inputs = in_plane(inputs);
        judge(
            wave_irradiance(&wave, radius, z).map(|w| vec![w.irradiance_ratio, w.irradiance_per_watt, w.error]),
            &inputs,
        );
        judge(wave_power(&wave, radius, z).map(|w| vec![w.share, w.share_of_transmitted, w.error]), &inputs);
    }

    /// A failed map leaves no number behind.
    #[test]
    fn maps(wave in wave(), radii in prop::collection::vec(place(), 0..4), z in prop::collection::vec(place(), 0..4), short in prop::sample::select(vec![0usize, 0, 0, 1]), output in prop::sample::select(vec![0usize, 0, 0, 1])) {
        let mut inputs = wave_inputs(&wave);
        inputs.extend(radii.iter().map(|radius| input(Param::Radius, *radius)));
        inputs.extend(z.iter().map(|z| input(Param::Z, *z)));
        let needed = wave_map_workspace(&wave, &radii, &z);
        let mut workspace = vec![0.0; needed.unwrap_or(64).saturating_sub(short)];
        let mut map = vec![1.0; radii.len() * z.len() + output];
        let result = wave_map(&wave, &radii, &z, &mut workspace, &mut map);
        if result.is_err() {
            prop_assert!(map.iter().all(|number| number.is_nan()));
        }
        match result {
            Err(error) if error.code() == 6 => {
                prop_assert!(matches!(error.param(), Param::Output | Param::Workspace));
                prop_assert!(output > 0 || short > 0 || needed.is_err(), "{error}");
                told_well(&error);
            }
            result => {
                // (the wave is looked at before the lengths)
                prop_assert!(output == 0 || result.is_err());
                judge(result.map(|found| { map.extend([found.error, found.half_angle]); map.clone() }), &inputs);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: config().cases.div_ceil(32), ..config() })]

    #[test]
    fn best_foci(wave in wave(), measure in prop::sample::select(FocusMeasure::ALL.to_vec()), criterion in criterion()) {
        let inputs = wave_inputs(&wave);
        let focus = wave_focus(&wave, measure).map(|focus| {
            let wide = wave.clear_aperture >= 5.0 * wave.diameter_at_lens;
            assert!(focus.diameter_d4sigma.is_finite() || !wide);
            vec![focus.z, focus.irradiance_ratio, focus.diameter_power86, focus.error]
        });
        judge(focus, &inputs);
        let depth = wave_depth_of_focus(&wave, criterion);
        if let DepthCriterion::LineDoseDrop { .. } = criterion {
            // A wave has no line dose: the choice itself is refused, before any number.
            let error = depth.unwrap_err();
            assert_eq!((error.code(), error.param(), error.value()), (3, Param::DepthCriterion, 5.0));
            return Ok(());
        }
        let mut inputs = inputs;
        inputs.extend(inputs_of(limit_of(criterion).into_iter().collect()));
        judge(depth.map(|depth| {
            let mut all = ends_of(&depth.range);
            all.extend([depth.best_z, depth.error]);
            all
        }), &inputs);
    }
}
