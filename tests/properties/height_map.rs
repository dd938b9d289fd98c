//! Maps of heights: each place as it would be by itself, extremes as a plain search finds them, masks as the
//! depth of focus says.

use super::given::*;
use super::refusal::{beam, beam_inputs, criterion, judge, limit_of, value_of};
use proptest::prelude::*;
use spotwise::model::focus::{DepthCriterion, defocus, depth_of_focus};
use spotwise::model::mark::smallest_details;
use spotwise::model::optics::{Beam, beam_at, beam_parameters};
use spotwise::model::surface::{HeightMap, HeightQuantity, in_focus_mask, map_heights};
use spotwise::{Error, Param};

const FOUR: [HeightQuantity; 4] = [
    HeightQuantity::Growth,
    HeightQuantity::Diameter,
    HeightQuantity::IrradianceRatio,
    HeightQuantity::LineDoseRatio,
];

fn any_quantity() -> BoxedStrategy<HeightQuantity> {
    let stroke =
        across(Param::DoseRatio).prop_map(|dose_ratio| HeightQuantity::SmallestStroke { dose_ratio });
    prop_oneof![4 => prop::sample::select(FOUR.to_vec()), 1 => stroke].boxed()
}

/// A beam with heights some Rayleigh ranges about its focus, some missing, some alike. Longer than a block
/// now and then.
fn beam_and_map() -> impl Strategy<Value = (Beam, f64, Vec<f64>)> {
    let height = prop_oneof![
        8 => signed_spread(1e-6, 1e4),
        4 => (-40i32..=40).prop_map(|step| f64::from(step) * 0.1),
        1 => Just(f64::NAN),
    ];
    let length = prop_oneof![6 => 0usize..70, 1 => 500usize..1100];
    let map = length.prop_flat_map(move |length| prop::collection::vec(height.clone(), length));
    (any_beam(), signed_spread(1e-3, 1e3), map).prop_filter_map("out of range", |(beam, focus, mut map)| {
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        let focus = (focus * zr).clamp(-1e3, 1e3);
        for z in &mut map {
            *z = focus + *z * zr;
        }
        let (least, greatest) = Param::Z.range();
        map.iter().all(|z| z.is_nan() || (least..=greatest).contains(z)).then_some((beam, focus, map))
    })
}

fn mapped(beam: &Beam, focus: f64, quantity: HeightQuantity, z: &[f64]) -> (Vec<f64>, HeightMap) {
    let mut out = vec![7.0; z.len()];
    let map = map_heights(beam, focus, quantity, z, &mut out).unwrap();
    (out, map)
}

fn alike(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits() || a.is_nan() && b.is_nan()
}

proptest! {
    #![proptest_config(config())]

    /// One at a time, in a part, or at another place in memory: the same bits.
    #[test]
    fn length_and_place_change_no_bit(
        (beam, focus, z) in beam_and_map(),
        quantity in any_quantity(),
        shift in 0usize..9,
        cut in 0.0f64..1.0,
    ) {
        let (whole, _) = mapped(&beam, focus, quantity, &z);
        for (&z, &together) in z.iter().zip(&whole) {
            let (alone, _) = mapped(&beam, focus, quantity, &[z]);
            prop_assert!(alike(alone[0], together), "{} against {together}", alone[0]);
        }
        let first = (cut * z.len() as f64) as usize;
        let (part, _) = mapped(&beam, focus, quantity, &z[first..]);
        prop_assert!(part.iter().zip(&whole[first..]).all(|(a, b)| alike(*a, *b)));
        let moved: Vec<f64> = std::iter::repeat_n(0.0, shift).chain(z.iter().copied()).collect();
        let mut out = vec![7.0; z.len() + 2 * shift];
        map_heights(&beam, focus, quantity, &moved[shift..], &mut out[shift..shift + z.len()]).unwrap();
        prop_assert!(out[shift..].iter().zip(&whole).all(|(a, b)| alike(*a, *b)));
        // Nothing beyond either end.
        prop_assert!(out[..shift].iter().chain(&out[shift + z.len()..]).all(|&other| other == 7.0));
    }

    /// The scalar functions, which round but once, within the error that the module states.
    #[test]
    fn as_the_scalar_functions((beam, focus, z) in beam_and_map(), q in across(Param::DoseRatio)) {
        let maps = FOUR.map(|quantity| mapped(&beam, focus, quantity, &z).0);
        let strokes = mapped(&beam, focus, HeightQuantity::SmallestStroke { dose_ratio: q }, &z).0;
        for (i, &z) in z.iter().enumerate() {
            if z.is_nan() {
                prop_assert!(maps.iter().all(|map| map[i].is_nan()) && strokes[i].is_nan());
                continue;
            }
            let Ok(here) = defocus(&beam, z - focus) else { continue };
            let scalar = [here.growth, here.diameter, here.irradiance_ratio, here.line_dose_ratio];
            for (map, scalar) in maps.iter().zip(scalar) {
                close(map[i], scalar, 4.0);
            }
            if let Ok(details) = smallest_details(here.diameter, q) {
                close(strokes[i], details.bar, 6.0);
            }
        }
    }

    /// About a focus at the datum: the bits of `beam_at`.
    #[test]
    fn diameters_have_the_bits_of_the_beam((beam, z) in beam_and_z()) {
        let (out, _) = mapped(&beam, 0.0, HeightQuantity::Diameter, &[z]);
        same_bits(out[0], beam_at(&beam, z).unwrap().diameter);
    }

    /// Counts and extremes as the plainest search finds them, the first of equals.
    #[test]
    fn extremes_and_counts_by_search((beam, focus, z) in beam_and_map(), quantity in any_quantity()) {
        let (out, map) = mapped(&beam, focus, quantity, &z);
        let known: Vec<(usize, f64)> = out.iter().copied().enumerate().filter(|(_, v)| !v.is_nan()).collect();
        prop_assert_eq!((map.measured, map.missing), (known.len(), out.len() - known.len()));
        prop_assert_eq!(map.missing, z.iter().filter(|z| z.is_nan()).count());
        let mut least = known.first().copied();
        let mut greatest = least;
        for &(i, value) in &known {
            if least.is_some_and(|(_, so_far)| value < so_far) {
                least = Some((i, value));
            }
            if greatest.is_some_and(|(_, so_far)| value > so_far) {
                greatest = Some((i, value));
            }
        }
        let (low, high) = (least.unwrap_or((0, f64::NAN)), greatest.unwrap_or((0, f64::NAN)));
        prop_assert!(alike(map.least, low.1) && map.least_index == low.0, "{map:?} {low:?}");
        prop_assert!(alike(map.greatest, high.1) && map.greatest_index == high.0, "{map:?} {high:?}");
    }

    /// Farther from focus the spot is no smaller, the light no brighter, whichever side it is.
    #[test]
    fn grows_with_the_distance_from_focus((beam, z) in beam_and_z(), share in 0.0f64..=1.0) {
        for quantity in FOUR {
            let (out, _) = mapped(&beam, 0.0, quantity, &[0.0, share * z, z, -z]);
            same_bits(out[2], out[3]);
            let rises = matches!(quantity, HeightQuantity::Growth | HeightQuantity::Diameter);
            let ordered = if rises { [out[0], out[1], out[2]] } else { [out[2], out[1], out[0]] };
            prop_assert!(ordered.is_sorted(), "{quantity:?} {out:?}");
        }
    }

    /// A map and its focus may be moved together, by a step that no height loses digits to.
    #[test]
    fn only_the_distance_from_focus_counts((beam, focus, z) in beam_and_map(), quantity in any_quantity(), up in any::<bool>()) {
        let turn = if up { 1.0 } else { -1.0 };
        let turned: Vec<f64> = z.iter().map(|z| turn * z).collect();
        let (here, there) = (mapped(&beam, focus, quantity, &z), mapped(&beam, turn * focus, quantity, &turned));
        prop_assert!(here.0.iter().zip(&there.0).all(|(a, b)| alike(*a, *b)));
        prop_assert_eq!(here.1.least_index, there.1.least_index);
    }

    /// In focus is what lies within the depth of focus, and nothing else.
    #[test]
    fn masks_are_the_depth_of_focus((beam, focus, z) in beam_and_map(), criterion in criterion()) {
        let mut in_focus = vec![true; z.len()];
        let depth = match (depth_of_focus(&beam, criterion), in_focus_mask(&beam, focus, criterion, &z, &mut in_focus)) {
            (Ok(depth), Ok(mask)) => {
                close(mask.toward_lens_z, focus + depth.toward_lens_z, 1e4);
                let within = |z: f64| mask.toward_lens_z <= z && z <= mask.away_from_lens_z;
                for (&z, &in_focus) in z.iter().zip(&in_focus) {
                    prop_assert_eq!(in_focus, within(z));
                }
                let count = |of: &dyn Fn(f64) -> bool| z.iter().filter(|z| of(**z)).count();
                prop_assert_eq!(mask.in_focus, count(&within));
                prop_assert_eq!(mask.too_near_lens, count(&|z| z < mask.toward_lens_z));
                prop_assert_eq!(mask.too_far_from_lens, count(&|z| z > mask.away_from_lens_z));
                prop_assert_eq!(mask.missing, count(&f64::is_nan));
                depth
            }
            (Err(depth), Err(mask)) => {
                prop_assert_eq!(depth, mask);
                prop_assert!(in_focus.iter().all(|in_focus| !in_focus));
                return Ok(());
            }
            (depth, mask) => return Err(TestCaseError::fail(format!("{depth:?} {mask:?}"))),
        };
        // About the datum the ends are the same bits, and they are in focus.
        let ends = [depth.toward_lens_z, depth.away_from_lens_z];
        if ends.iter().all(|z| z.abs() <= Param::Z.range().1) {
            let mut held = [false; 2];
            let mask = in_focus_mask(&beam, 0.0, criterion, &ends, &mut held).unwrap();
            prop_assert_eq!((mask.toward_lens_z, mask.away_from_lens_z), (ends[0], ends[1]));
            prop_assert_eq!(held, [true; 2]);
        }
    }

    /// A growth of the map at most that of the criterion is what its mask shows, but for the last digits.
    #[test]
    fn a_mask_agrees_with_its_map((beam, focus, z) in beam_and_map(), more in spread(1e-3, 1e3)) {
        let ratio = 1.0 + more;
        let (growths, _) = mapped(&beam, focus, HeightQuantity::Growth, &z);
        let mut in_focus = vec![false; z.len()];
        in_focus_mask(&beam, focus, DepthCriterion::Growth { ratio }, &z, &mut in_focus).unwrap();
        for ((&growth, &in_focus), &z) in growths.iter().zip(&in_focus).zip(&z) {
            // What the end of the range has lost to rounding beside a far focus.
            let zr = beam_parameters(&beam).unwrap().rayleigh_range;
            let unsure = 1e-9 + 4.0 * f64::EPSILON * (focus.abs() + z.abs()) / zr / more.min(1.0);
            if (growth / ratio - 1.0).abs() > unsure {
                prop_assert_eq!(in_focus, growth < ratio, "{} {} {}", growth, ratio, z);
            }
        }
    }

    #[test]
    fn any_bits_at_all(
        beam in beam(),
        focus in value_of(Param::FocusZ),
        ratio in value_of(Param::DoseRatio),
        code in 1u32..=5,
        criterion in criterion(),
        z in prop::collection::vec(value_of(Param::Z), 0..4),
    ) {
        let quantity = HeightQuantity::from_code(code, ratio).unwrap();
        let mut inputs = beam_inputs(&beam);
        inputs.push((Param::FocusZ, focus));
        let heights = z.iter().filter(|z| !z.is_nan()).map(|z| (Param::Z, *z));
        let dose = (code == 5).then_some((Param::DoseRatio, ratio));
        let all: Vec<_> = inputs.iter().copied().chain(dose).chain(heights.clone()).collect();
        let mut out = vec![1.0; z.len()];
        let map = map_heights(&beam, focus, quantity, &z, &mut out);
        match &map {
            Ok(_) => prop_assert!(out.iter().zip(&z).all(|(out, z)| out.is_nan() == z.is_nan())),
            Err(_) => prop_assert!(out.iter().all(|out| out.is_nan())),
        }
        judge(map.map(|map| if map.measured > 0 { vec![map.least, map.greatest] } else { vec![] }), &all);

        let all: Vec<_> = inputs.iter().copied().chain(limit_of(criterion)).chain(heights).collect();
        let mut in_focus = vec![true; z.len()];
        let mask = in_focus_mask(&beam, focus, criterion, &z, &mut in_focus);
        prop_assert!(mask.is_ok() || in_focus.iter().all(|in_focus| !in_focus));
        judge(mask.map(|mask| vec![mask.toward_lens_z, mask.away_from_lens_z]), &all);
    }
}

#[test]
fn arrays_of_other_lengths_are_refused() {
    let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
    for (length, other) in [(3, 2), (3, 4), (0, 1)] {
        let z = vec![0.0; length];
        let mismatch = Error::LengthMismatch { param: Param::Output, value: other, expected: length };
        let mut out = vec![1.0; other];
        assert_eq!(map_heights(&beam, 0.0, HeightQuantity::Growth, &z, &mut out), Err(mismatch));
        assert!(out.iter().all(|out| out.is_nan()));
        let mut mask = vec![true; other];
        assert_eq!(in_focus_mask(&beam, 0.0, DepthCriterion::Rayleigh, &z, &mut mask), Err(mismatch));
        assert!(mask.iter().all(|in_focus| !in_focus));
    }
    for code in [0, 6, u32::MAX] {
        let unknown = Error::UnknownChoice { param: Param::HeightQuantity, value: code };
        assert_eq!(HeightQuantity::from_code(code, 2.0), Err(unknown));
    }
}

/// The one fault that stands in the last block of many.
#[test]
fn a_fault_far_down_the_map_is_found() {
    let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
    let mut z = vec![0.1e-3; 5000];
    z[4990] = f64::INFINITY;
    let (mut out, mut mask) = (vec![1.0; 5000], vec![true; 5000]);
    let error = map_heights(&beam, 0.0, HeightQuantity::Growth, &z, &mut out).unwrap_err();
    assert_eq!(error, Error::NotFinite { param: Param::Z, value: f64::INFINITY });
    assert!(out.iter().all(|out| out.is_nan()));
    assert_eq!(in_focus_mask(&beam, 0.0, DepthCriterion::Rayleigh, &z, &mut mask).unwrap_err(), error);
    assert!(mask.iter().all(|in_focus| !in_focus));
}
