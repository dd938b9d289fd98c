//! Drawn inputs, and the ways in which two numbers are compared.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, LensShape, Singlet, SingletFocus, beam_parameters, focus_singlet,
    lens_aberration,
};
use spotwise::{Param, REFUSED_HALF_ANGLE};
use std::f64::consts::PI;

/// The same draws on every run, unless the environment asks for others.
pub fn config() -> ProptestConfig {
    let mut config = ProptestConfig { failure_persistence: None, ..ProptestConfig::default() };
    config.max_global_rejects = config.max_global_rejects.max(10 * config.cases);
    config.max_local_rejects = config.max_local_rejects.max(1000 * config.cases);
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    config
}

/// As [`config`], for a test that searches densely in each case.
pub fn few_cases() -> ProptestConfig {
    let config = config();
    ProptestConfig { cases: config.cases.div_ceil(8), ..config }
}

/// Evenly drawn in the logarithm, the ends a little more often.
pub fn spread(least: f64, greatest: f64) -> BoxedStrategy<f64> {
    let inner = (least.ln()..greatest.ln()).prop_map(move |x| x.exp().clamp(least, greatest));
    prop_oneof![18 => inner, 1 => Just(least), 1 => Just(greatest)].boxed()
}

/// Evenly drawn in the logarithm of the magnitude, of either sign, and sometimes zero.
pub fn signed_spread(least: f64, greatest: f64) -> BoxedStrategy<f64> {
    prop_oneof![
        9 => (any::<bool>(), spread(least, greatest)).prop_map(|(minus, x)| if minus { -x } else { x }),
        1 => Just(0.0),
    ]
    .boxed()
}

/// Drawn over the range of a parameter.
pub fn across(param: Param) -> BoxedStrategy<f64> {
    let (least, greatest) = param.range();
    if least > 0.0 { spread(least, greatest) } else { signed_or_positive(least, greatest) }
}

fn signed_or_positive(least: f64, greatest: f64) -> BoxedStrategy<f64> {
    if least < 0.0 {
        signed_spread(1e-12, greatest)
    } else {
        prop_oneof![9 => spread(1e-12, greatest), 1 => Just(0.0)].boxed()
    }
}

/// Power of two, with which every step of the model scales without rounding.
pub fn power_of_two() -> impl Strategy<Value = f64> {
    (-6i32..=6).prop_map(|k| 2f64.powi(k))
}

/// The waist of a cone this wide, if it is one that a beam may have.
fn waist_of_cone(wavelength: f64, m2: f64, half_angle: f64) -> Option<f64> {
    let waist_diameter = 2.0 * m2 * wavelength / (PI * half_angle);
    let (least, greatest) = Param::WaistDiameter.range();
    (least..=greatest).contains(&waist_diameter).then_some(waist_diameter)
}

/// Half angles from nearly collimated to nearly refused.
fn half_angle() -> BoxedStrategy<f64> {
    spread(1e-9, 0.999 * REFUSED_HALF_ANGLE)
}

/// Any beam that the model accepts.
pub fn any_beam() -> impl Strategy<Value = Beam> {
    (across(Param::Wavelength), across(Param::M2), half_angle()).prop_filter_map(
        "waist outside its range",
        |(wavelength, m2, half_angle)| {
            let waist_diameter = waist_of_cone(wavelength, m2, half_angle)?;
            Some(Beam { wavelength, m2, waist_diameter })
        },
    )
}

/// A beam and a place from far inside to far outside its Rayleigh range.
pub fn beam_and_z() -> impl Strategy<Value = (Beam, f64)> {
    (any_beam(), signed_spread(1e-9, 1e9)).prop_filter_map("z outside its range", |(beam, u)| {
        let z = u * beam_parameters(&beam).unwrap().rayleigh_range;
        (z.abs() <= Param::Z.range().1).then_some((beam, z))
    })
}

/// An astigmatic beam whose waists lie within a few Rayleigh ranges of each other, where all of
/// its bright and dark places show.
pub fn close_astigmatic() -> impl Strategy<Value = AstigmaticBeam> {
    (
        spread(2e-7, 2e-5),
        [spread(1.0, 30.0), spread(1.0, 30.0)],
        [spread(3e-3, 0.2), spread(3e-3, 0.2)],
        [-4.0f64..4.0, -4.0f64..4.0],
    )
        .prop_filter_map("waist outside its range", |(wavelength, m2, half_angle, place)| {
            let axis = |at: usize| {
                let waist_diameter = waist_of_cone(wavelength, m2[at], half_angle[at])?;
                let zr = waist_diameter / (2.0 * half_angle[at]);
                Some(Axis { m2: m2[at], waist_diameter, waist_z: place[at] * zr })
            };
            Some(AstigmaticBeam { wavelength, x: axis(0)?, y: axis(1)? })
        })
}

/// An astigmatic beam with nearly equal axes, whose waists lie from next to each other to far
/// apart: one bright place, or two with a dark gap between them.
pub fn paired_astigmatic() -> impl Strategy<Value = AstigmaticBeam> {
    let nearly_equal = signed_spread(1e-6, 0.1).prop_map(|more| 1.0 + more);
    let ratio = prop_oneof![2 => 0.7f64..1.4, 1 => nearly_equal];
    (spread(2e-7, 2e-5), spread(1.0, 30.0), spread(1e-2, 0.2), ratio, 0.01f64..8.0, any::<bool>()).prop_map(
        |(wavelength, m2, half_angle, ratio, apart, swap)| {
            let waist_diameter = 2.0 * m2 * wavelength / (PI * half_angle);
            let zr = waist_diameter / (2.0 * half_angle);
            let x = Axis { m2, waist_diameter, waist_z: -0.5 * apart * zr };
            let y = Axis { m2, waist_diameter: ratio.sqrt() * waist_diameter, waist_z: 0.5 * apart * zr };
            let beam = AstigmaticBeam { wavelength, x, y };
            if swap { swapped(&beam) } else { beam }
        },
    )
}

/// Any astigmatic beam that the model accepts.
pub fn any_astigmatic() -> impl Strategy<Value = AstigmaticBeam> {
    (
        across(Param::Wavelength),
        [across(Param::M2X), across(Param::M2Y)],
        [half_angle(), half_angle()],
        [across(Param::WaistZX), across(Param::WaistZY)],
    )
        .prop_filter_map("waist outside its range", |(wavelength, m2, half_angle, place)| {
            let axis = |at: usize| {
                let waist_diameter = waist_of_cone(wavelength, m2[at], half_angle[at])?;
                Some(Axis { m2: m2[at], waist_diameter, waist_z: place[at] })
            };
            Some(AstigmaticBeam { wavelength, x: axis(0)?, y: axis(1)? })
        })
}

/// The same beam with its axes exchanged.
pub fn swapped(beam: &AstigmaticBeam) -> AstigmaticBeam {
    AstigmaticBeam { wavelength: beam.wavelength, x: beam.y, y: beam.x }
}

/// The same beam, looked at from the other side.
pub fn mirrored(beam: &AstigmaticBeam) -> AstigmaticBeam {
    let turned = |axis: Axis| Axis { waist_z: -axis.waist_z, ..axis };
    AstigmaticBeam { wavelength: beam.wavelength, x: turned(beam.x), y: turned(beam.y) }
}

/// The same bits, for numbers that must not even be rounded differently.
#[track_caller]
pub fn same_bits(got: f64, want: f64) {
    assert_eq!(got.to_bits(), want.to_bits(), "got {got:e}, want {want:e}");
}

/// The same number with the other sign; the sign of zero is left open.
#[track_caller]
pub fn opposite(got: f64, other: f64) {
    assert!(got == -other, "got {got:e}, want the opposite of {other:e}");
}

/// Equal to within `ulps` units in the last place at their widest, 2.2e-16 of the value.
#[track_caller]
pub fn close(got: f64, want: f64, ulps: f64) {
    assert!(
        got == want || (got - want).abs() <= ulps * f64::EPSILON * want.abs(),
        "got {got:e}, want {want:e}: off by {:.1} of {ulps} ulp",
        ((got - want) / want).abs() / f64::EPSILON
    );
}

/// Equal to within an absolute `budget`.
#[track_caller]
pub fn near(got: f64, want: f64, budget: f64) {
    assert!((got - want).abs() <= budget, "got {got:e}, want {want:e}: off by more than {budget:e}");
}

/// `smaller` ≤ `larger`, but for `ulps` units in the last place.
#[track_caller]
pub fn in_order(smaller: f64, larger: f64, ulps: f64) {
    assert!(
        smaller <= larger + ulps * f64::EPSILON * larger.abs(),
        "{smaller:e} should not exceed {larger:e}"
    );
}

/// Indices of lens materials, those of the handbooks a little more often.
pub fn lens_index() -> BoxedStrategy<f64> {
    prop_oneof![3 => 1.3f64..4.2, 1 => prop::sample::select(vec![1.5, 2.402_781, 4.003_556])].boxed()
}

/// Every way to tell a lens's shape.
pub fn lens_shape() -> BoxedStrategy<LensShape> {
    prop_oneof![
        Just(LensShape::BestForm),
        Just(LensShape::CurvedSideFirst),
        Just(LensShape::FlatSideFirst),
        (-8.0f64..8.0).prop_map(|factor| LensShape::ShapeFactor { factor }),
    ]
    .boxed()
}

/// A beam from a machine: its waist within a few metres of the lens, millimetres wide.
#[derive(Debug, Clone, Copy)]
pub struct Machine {
    pub raw: Beam,
    pub waist_to_lens: f64,
    pub lens: Singlet,
}

impl Machine {
    pub fn focus(&self, clear_aperture: f64) -> Result<SingletFocus, spotwise::Error> {
        focus_singlet(&self.raw, self.waist_to_lens, &self.lens, clear_aperture)
    }
}

/// Singlets before which a beam is as wide as makes them aberrate by this much and no more, so that
/// weak and strong aberration are drawn alike.
pub fn machine(normalised_aberration: BoxedStrategy<f64>) -> impl Strategy<Value = Machine> {
    let beam = (spread(3e-7, 2e-5), spread(1.0, 5.0), -3.0f64..3.0);
    let lens = (lens_index(), lens_shape(), spread(1e-2, 0.5));
    (beam, lens, normalised_aberration).prop_filter_map(
        "a lens this fast makes no such beam",
        |((wavelength, m2, waist_to_lens), (index, shape, focal_length), t)| {
            let lens = Singlet { index, shape, focal_length };
            let k = lens_aberration(&lens).unwrap().blur_coefficient;
            // D from α = π·k·D⁴/(2·λ·f³); not far from it for a beam that is not collimated.
            let diameter = (2.0 * wavelength * focal_length.powi(3) * t * m2 / (PI * k)).powf(0.25);
            let raw = Beam { wavelength, m2, waist_diameter: diameter };
            let machine = Machine { raw, waist_to_lens, lens };
            machine.focus(f64::INFINITY).is_ok().then_some(machine)
        },
    )
}
