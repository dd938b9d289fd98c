//! A beam through a list of elements.

use super::given::*;
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, Element, PathBeam, astigmatic_parameters, beam_after_path, beam_along_path,
    focus_astigmatic, focus_behind_plate,
};
use std::f64::consts::PI;

/// A raw beam from a machine, millimetres wide and metres from its waist.
fn raw() -> impl Strategy<Value = AstigmaticBeam> {
    let axis = || (spread(1.0, 5.0), spread(1e-3, 2e-2), -3.0f64..3.0);
    (spread(3e-7, 2e-5), axis(), axis()).prop_map(|(wavelength, x, y)| {
        let axis = |(m2, waist_diameter, waist_z)| Axis { m2, waist_diameter, waist_z };
        AstigmaticBeam { wavelength, x: axis(x), y: axis(y) }
    })
}

fn focal_length() -> BoxedStrategy<f64> {
    (any::<bool>(), spread(0.05, 5.0)).prop_map(|(minus, f)| if minus { -f } else { f }).boxed()
}

/// Rounded to a multiple of 2⁻⁴⁰ m, so that sums of lengths are exact.
fn on_grid(length: f64) -> f64 {
    const GRID: f64 = 1.0 / (1u64 << 40) as f64;
    (length / GRID).round() * GRID
}

/// An element that leaves M² as it is.
fn ideal_element() -> BoxedStrategy<Element> {
    prop_oneof![
        3 => prop_oneof![9 => spread(1e-3, 3.0), 1 => Just(0.0)]
            .prop_map(|length| Element::Space { length: on_grid(length) }),
        2 => focal_length().prop_map(|focal_length| Element::ThinLens { focal_length }),
        1 => (spread(1e-3, 2e-2), 1.01f64..4.2).prop_map(|(thickness, index)| Element::Window { thickness: on_grid(thickness), index }),
        2 => (spread(0.2, 5.0), signed_spread(1e-3, 2.0))
            .prop_map(|(magnification, exit_power)| Element::Expander { magnification, exit_power }),
    ]
    .boxed()
}

fn any_element() -> BoxedStrategy<Element> {
    let singlet =
        (focal_length(), lens_index(), -3.0f64..3.0).prop_map(|(focal_length, index, shape_factor)| {
            Element::Singlet { focal_length, index, shape_factor }
        });
    prop_oneof![4 => ideal_element(), 1 => singlet].boxed()
}

fn path(element: BoxedStrategy<Element>) -> impl Strategy<Value = Vec<Element>> {
    prop::collection::vec(element, 0..6)
}

fn length_of(element: &Element) -> f64 {
    match *element {
        Element::Space { length } => length,
        Element::Window { thickness, .. } => thickness,
        _ => 0.0,
    }
}

/// The element as the light meets it that comes back.
fn turned(element: &Element) -> Element {
    match *element {
        // The inverse of [1 0; −P 1]·[m 0; 0 1/m], with the light's direction reversed, is
        // [1 0; −P·m² 1]·[1/m 0; 0 m].
        Element::Expander { magnification: m, exit_power } => {
            Element::Expander { magnification: 1.0 / m, exit_power: exit_power * m * m }
        }
        other => other,
    }
}

/// z and z_R of an axis at z = 0, as one complex number's two parts, and how large it is.
fn place_of(wavelength: f64, axis: &Axis) -> (f64, f64) {
    (-axis.waist_z, PI * axis.waist_diameter.powi(2) / (4.0 * axis.m2 * wavelength))
}

/// The same beam: q = z + i·z_R agrees in both axes to within `tolerance` as waves of
/// that size tell it, abs(q − q') against z_R.
fn same_beam(a: &AstigmaticBeam, b: &AstigmaticBeam, tolerance: f64) {
    for (a_axis, b_axis) in [(&a.x, &b.x), (&a.y, &b.y)] {
        let ((az, ar), (bz, br)) = (place_of(a.wavelength, a_axis), place_of(b.wavelength, b_axis));
        // abs(q − q')²/(z_R·z_R') does not change from lens to lens or along free space, so that it
        // measures by how much two beams differ wherever they are compared.
        let off = (az - bz).hypot(ar - br) / (ar * br).sqrt();
        assert!(off <= tolerance, "{a:?} against {b:?}: {off:e} of {tolerance:e}");
        assert!((a_axis.m2 / b_axis.m2 - 1.0).abs() <= tolerance, "{a:?} against {b:?}");
    }
}

/// What rounding the two numbers of a beam in the course of a path can do by this measure: as many units
/// in the last place as z holds Rayleigh ranges.
fn rounding(beam: &AstigmaticBeam) -> f64 {
    let of = |axis: &Axis| {
        let (z, zr) = place_of(beam.wavelength, axis);
        1.0 + (z / zr).abs()
    };
    of(&beam.x).max(of(&beam.y)) * f64::EPSILON
}

/// Every number the same, bit for bit.
fn same(a: &PathBeam, b: &PathBeam) {
    assert_eq!(format!("{a:?}"), format!("{b:?}"));
}

proptest! {
    #![proptest_config(config())]

    /// Sent back through all elements in the opposite order, the light is the raw beam again.
    #[test]
    fn reversible(raw in raw(), elements in path(ideal_element())) {
        let Ok(there) = beam_after_path(&raw, &elements) else { return Ok(()) };
        let back: Vec<_> = elements.iter().rev().map(turned).collect();
        let allowed = |element: &Element| match *element {
            Element::Expander { exit_power, .. } => exit_power.abs() <= Param::ExitPower.range().1,
            _ => true,
        };
        prop_assume!(back.iter().all(allowed));
        let Ok(home) = beam_after_path(&mirrored(&there.beam), &back) else {
            // Rounding moved a beam across a limit of the model.
            prop_assume!(false);
            unreachable!()
        };
        let tolerance = 64.0 * (rounding(&raw) + rounding(&there.beam));
        same_beam(&mirrored(&home.beam), &raw, tolerance);
        close(home.distance, there.distance, 8.0);
    }

    /// Ideal elements leave the beam quality alone.
    #[test]
    fn beam_quality_stays(raw in raw(), elements in path(ideal_element())) {
        let Ok(after) = beam_after_path(&raw, &elements) else { return Ok(()) };
        same_bits(after.beam.x.m2, raw.x.m2);
        same_bits(after.beam.y.m2, raw.y.m2);
        // Windows aberrate, yet only the flags count it.
        let windows = elements.iter().any(|element| matches!(element, Element::Window { .. }));
        let aberrates = after.normalised_aberration > 0.0;
        prop_assert!(windows || !aberrates);
    }

    /// The aberration of a window in a path is that of a plate in the same cone, whatever stands before it.
    #[test]
    fn a_window_is_a_plate(raw in raw(), f in spread(0.05, 0.5), thickness in spread(1e-3, 0.05), index in 1.2f64..4.2) {
        let round = AstigmaticBeam { y: raw.x, ..raw };
        let lens = [Element::ThinLens { focal_length: f }];
        let Ok(before) = beam_after_path(&round, &lens) else { return Ok(()) };
        let Ok(after) = beam_after_path(&round, &[lens[0], Element::Window { thickness, index }]) else { return Ok(()) };
        let beam = Beam { wavelength: raw.wavelength, m2: raw.x.m2, waist_diameter: before.beam.x.waist_diameter };
        let plate = focus_behind_plate(&beam, thickness, index).unwrap();
        near(after.normalised_aberration, plate.normalised_aberration, 1e-12 * plate.normalised_aberration);
        prop_assert!(after.validity.contains(plate.validity));
    }

    /// Wavefront errors of lenses that touch add up before they are squared: of two alike that is twice the
    /// phase of one, and of a lens and its opposite nothing.
    #[test]
    fn aberrations_of_touching_lenses_add(raw in raw(), f in spread(0.05, 0.5), index in 1.3f64..4.2) {
        let round = AstigmaticBeam { y: raw.x, ..raw };
        // With a flat wavefront between them the second lens sees the conjugate of the first: an ideal lens
        // undoes the power, which aberration makes a little stronger.
        let one = Element::Singlet { focal_length: f, index, shape_factor: 1.0 };
        let Ok(once) = beam_after_path(&round, &[one]) else { return Ok(()) };
        prop_assume!(once.normalised_aberration > 1e-3 && once.normalised_aberration < 10.0);
        let undo = Element::ThinLens { focal_length: -f };
        let Ok(twice) = beam_after_path(&round, &[one, undo, one]) else { return Ok(()) };
        let phase = |m2: f64| ((m2 * m2 - raw.x.m2 * raw.x.m2) / 2.0).sqrt();
        let (single, double) = (phase(once.beam.x.m2), phase(twice.beam.x.m2));
        // The opposite lens sees the light the other way round: S(n, −q, −p) = S(n, q, p), with the sign of f³.
        let flat = AstigmaticBeam { x: Axis { waist_z: 0.0, ..round.x }, y: Axis { waist_z: 0.0, ..round.x }, ..round };
        let opposite = Element::Singlet { focal_length: -f, index, shape_factor: -1.0 };
        if let (Ok(spoilt), Ok(mended)) = (beam_after_path(&flat, &[one]), beam_after_path(&flat, &[one, opposite])) {
            let (spoilt, mended) = (phase(spoilt.beam.x.m2), phase(mended.beam.x.m2));
            prop_assert!(mended < 0.3 * spoilt, "{mended} of {spoilt} is left");
        }
        // The conjugate of the second differs by the aberration's own power.
        near(double / single, 2.0, 0.2);
        prop_assert!(double / single > 1.6, "squares would add to √2");
    }

    /// A singlet never improves it.
    #[test]
    fn singlets_cost_quality(raw in raw(), elements in path(any_element())) {
        let Ok(after) = beam_after_path(&raw, &elements) else { return Ok(()) };
        prop_assert!(after.beam.x.m2 >= raw.x.m2 && after.beam.y.m2 >= raw.y.m2);
        let spoilt = after.beam.x.m2 > raw.x.m2 || after.beam.y.m2 > raw.y.m2;
        prop_assert!(!spoilt || after.normalised_aberration > 0.0);
    }

    /// A path walked in two parts comes to the same beam.
    #[test]
    fn split_anywhere(raw in raw(), elements in path(any_element()), at in 0usize..6, share in 0.0f64..=1.0) {
        let Ok(whole) = beam_after_path(&raw, &elements) else { return Ok(()) };
        let at = at.min(elements.len());
        let first = beam_after_path(&raw, &elements[..at]).unwrap();
        let Ok(second) = beam_after_path(&first.beam, &elements[at..]) else { return Ok(()) };
        let tolerance = 64.0 * (rounding(&raw) + rounding(&first.beam) + rounding(&whole.beam));
        // A part knows nothing of the wavefront errors before it, to which those of its own lenses would add.
        let aberrates = |part: &[Element]| part.iter().any(|element| matches!(element, Element::Singlet { .. }));
        prop_assume!(!(aberrates(&elements[..at]) && aberrates(&elements[at..])));
        same_beam(&second.beam, &whole.beam, tolerance);
        close(first.distance + second.distance, whole.distance, 4.0);
        prop_assert!(whole.validity.contains(first.validity) && whole.validity.contains(second.validity));
        prop_assert!(whole.normalised_aberration >= first.normalised_aberration);
        // Within the next space too.
        if let Some((Element::Space { length }, rest)) = elements[at..].split_first() {
            let parts = [share * length, length - share * length];
            let into = beam_after_path(&first.beam, &[Element::Space { length: parts[0] }]).unwrap();
            let mut left = vec![Element::Space { length: parts[1] }];
            left.extend_from_slice(rest);
            let end = beam_after_path(&into.beam, &left).unwrap();
            same_beam(&end.beam, &whole.beam, tolerance + 64.0 * rounding(&into.beam));
        }
    }

    /// Along the path: at its ends and at each element it is the beam after that many elements.
    #[test]
    fn along_is_after(raw in raw(), elements in path(any_element()), beyond in spread(1e-3, 3.0)) {
        let Ok(whole) = beam_after_path(&raw, &elements) else { return Ok(()) };
        let mut distance = 0.0;
        for at in 0..=elements.len() {
            let here = beam_after_path(&raw, &elements[..at]).unwrap();
            // (elements of no length at the same place are passed at once)
            let next_is_long = elements.get(at).is_none_or(|next| length_of(next) > 0.0);
            if next_is_long {
                let along = beam_along_path(&raw, &elements, distance).unwrap();
                same_beam(&along.beam, &here.beam, 64.0 * (rounding(&raw) + rounding(&here.beam)));
                close(along.diameter_x, here.diameter_x, 64.0 * rounding(&here.beam) / f64::EPSILON);
                close(along.distance, distance, 2.0);
            }
            distance += elements.get(at).map_or(0.0, length_of);
        }
        // Free space goes on behind the last element.
        let mut longer = elements.clone();
        longer.push(Element::Space { length: beyond });
        let (along, after) = (beam_along_path(&raw, &elements, whole.distance + beyond), beam_after_path(&raw, &longer));
        if let (Ok(along), Ok(after)) = (along, after) {
            same_beam(&along.beam, &after.beam, 64.0 * (rounding(&whole.beam) + rounding(&after.beam)));
        }
    }

    /// Inside a window the beam goes on as in air that is n times as long.
    #[test]
    fn inside_a_window(raw in raw(), thickness in spread(1e-3, 1.0), index in 1.01f64..4.2, share in 0.0f64..=1.0) {
        let within = share * thickness;
        let inside = beam_along_path(&raw, &[Element::Window { thickness, index }], within).unwrap();
        let air = beam_after_path(&raw, &[Element::Space { length: within / index }]).unwrap();
        same_beam(&inside.beam, &air.beam, 64.0 * rounding(&raw));
        close(inside.distance, within, 1.0);
    }

    /// A window is a shorter space, and moves a waist behind it by t·(1 − 1/n).
    #[test]
    fn a_window_is_a_shorter_space(raw in raw(), thickness in spread(1e-3, 1.0), index in 1.01f64..4.2) {
        let glass = beam_after_path(&raw, &[Element::Window { thickness, index }]).unwrap();
        let air = beam_after_path(&raw, &[Element::Space { length: thickness / index }]).unwrap();
        same_beam(&glass.beam, &air.beam, 64.0 * rounding(&raw));
        same_bits(glass.distance, thickness);
        let round = Beam { wavelength: raw.wavelength, m2: raw.x.m2, waist_diameter: raw.x.waist_diameter };
        let shift = focus_behind_plate(&round, thickness, index).unwrap().focus_shift;
        let empty = beam_after_path(&raw, &[Element::Space { length: thickness }]).unwrap();
        near(
            glass.beam.x.waist_z - empty.beam.x.waist_z, shift,
            4.0 * f64::EPSILON * (glass.beam.x.waist_z.abs() + thickness),
        );
    }

    /// An expander and its opposite are nothing, and so are a lens and its opposite.
    #[test]
    fn opposites_cancel(raw in raw(), m in spread(0.2, 5.0), power in signed_spread(1e-3, 2.0), f in focal_length()) {
        // m then 1/m: the power of the first is seen by the second 1/m² times as strong … as P·m².
        let there = Element::Expander { magnification: m, exit_power: power };
        let back = Element::Expander { magnification: 1.0 / m, exit_power: -power * m * m };
        let pairs = [
            [there, back],
            [Element::Expander { magnification: m, exit_power: 0.0 }, Element::Expander { magnification: 1.0 / m, exit_power: 0.0 }],
            [Element::ThinLens { focal_length: f }, Element::ThinLens { focal_length: -f }],
        ];
        for pair in pairs {
            let Ok(between) = beam_after_path(&raw, &pair[..1]) else { continue };
            let Ok(same) = beam_after_path(&raw, &pair) else { continue };
            same_beam(&same.beam, &raw, 64.0 * (rounding(&raw) + rounding(&between.beam)));
        }
    }

    /// Two lenses a sum of focal lengths apart, and space to undo their length, are an expander.
    #[test]
    fn two_lenses_are_an_expander(raw in raw(), f in spread(0.05, 0.5), m in spread(0.3, 4.0)) {
        let apart = f * (1.0 + m);
        let telescope = [
            Element::ThinLens { focal_length: f },
            Element::Space { length: apart },
            Element::ThinLens { focal_length: m * f },
            // [−m, apart; 0, −1/m] and this much space are −[m 0; 0 1/m].
            Element::Space { length: apart * m },
        ];
        let Ok(real) = beam_after_path(&raw, &telescope) else { return Ok(()) };
        let between = beam_after_path(&raw, &telescope[..1]).unwrap();
        let ideal = beam_after_path(&raw, &[Element::Expander { magnification: m, exit_power: 0.0 }]).unwrap();
        let tolerance = 256.0 * (rounding(&raw) + rounding(&between.beam) + rounding(&real.beam));
        same_beam(&real.beam, &ideal.beam, tolerance);
        near(ideal.diameter_x / beam_after_path(&raw, &[]).unwrap().diameter_x, m, 8.0 * f64::EPSILON * m);
    }

    /// One lens is the lens, and no element is nothing.
    #[test]
    fn one_lens_is_the_lens(raw in raw(), f in focal_length()) {
        if let Ok(lens) = focus_astigmatic(&raw, f) {
            let path = beam_after_path(&raw, &[Element::ThinLens { focal_length: f }]).unwrap();
            for (behind, focused) in [(path.beam.x, lens.beam.x), (path.beam.y, lens.beam.y)] {
                close(behind.waist_diameter, focused.waist_diameter, 2.0);
                // The path counts from the lens, the lens from its focal point.
                near(behind.waist_z, f + focused.waist_z, 2.0 * f64::EPSILON * (f.abs() + focused.waist_z.abs()));
            }
        }
        let nothing = beam_after_path(&raw, &[]).unwrap();
        prop_assert_eq!(nothing.beam, raw);
        same(&beam_along_path(&raw, &[], 0.0).unwrap(), &nothing);
    }

    /// Where the light is only turned round, a beam's two axes change places.
    #[test]
    fn swapping_the_axes(raw in raw(), elements in path(any_element())) {
        let (here, there) = (beam_after_path(&raw, &elements), beam_after_path(&swapped(&raw), &elements));
        match (here, there) {
            (Ok(here), Ok(there)) => {
                prop_assert_eq!(swapped(&there.beam), here.beam);
                prop_assert_eq!((there.diameter_y, there.diameter_x), (here.diameter_x, here.diameter_y));
                prop_assert_eq!(there.validity, here.validity);
            }
            (here, there) => prop_assert!(here.is_err() && there.is_err()),
        }
    }

    #[test]
    fn scales_with_all_lengths(raw in raw(), elements in path(any_element()), k in power_of_two()) {
        let axis = |axis: Axis| Axis { waist_diameter: k * axis.waist_diameter, waist_z: k * axis.waist_z, ..axis };
        let larger = AstigmaticBeam { wavelength: k * raw.wavelength, x: axis(raw.x), y: axis(raw.y) };
        let elements_k: Vec<_> = elements.iter().map(|element| match *element {
            Element::Space { length } => Element::Space { length: k * length },
            Element::ThinLens { focal_length } => Element::ThinLens { focal_length: k * focal_length },
            Element::Window { thickness, index } => Element::Window { thickness: k * thickness, index },
            Element::Expander { magnification, exit_power } => {
                Element::Expander { magnification, exit_power: exit_power / k }
            }
            Element::Singlet { focal_length, index, shape_factor } => {
                Element::Singlet { focal_length: k * focal_length, index, shape_factor }
            }
            other => panic!("{other:?}"),
        }).collect();
        if let (Ok(a), Ok(b)) = (beam_after_path(&raw, &elements), beam_after_path(&larger, &elements_k)) {
            for (a, b) in [(a.beam.x, b.beam.x), (a.beam.y, b.beam.y)] {
                same_bits(b.m2, a.m2);
                same_bits(b.waist_diameter, k * a.waist_diameter);
                same_bits(b.waist_z, k * a.waist_z);
            }
            same_bits(b.normalised_aberration, a.normalised_aberration);
            same_bits(b.diameter_x, k * a.diameter_x);
        }
    }

    /// What comes out is accepted as an input.
    #[test]
    fn a_beam_comes_out(raw in raw(), elements in path(any_element())) {
        if let Ok(after) = beam_after_path(&raw, &elements) {
            prop_assert!(astigmatic_parameters(&after.beam).is_ok());
            same(&after, &beam_after_path(&raw, &elements).unwrap());
        }
    }
}
