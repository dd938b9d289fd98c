//! The field of a scan head: symmetries, limits in which it is something simpler, and its searches against
//! plain dense ones.

use super::given::*;
use super::refusal::{beam, beam_inputs, judge, told_well, value_of};
use proptest::prelude::*;
use spotwise::model::focus::{defocus, tilted_spot};
use spotwise::model::optics::{Beam, beam_parameters};
use spotwise::model::surface::{ScanFieldSpot, ScanLens, scan_field_at, scan_field_extent, scan_field_focus};
use spotwise::{Error, Param};

/// A beam and a lens whose foci at the edge lie within some Rayleigh ranges, with that range.
fn beam_and_lens() -> impl Strategy<Value = (Beam, ScanLens, f64)> {
    let edge = || prop_oneof![4 => -8.0f64..8.0, 1 => signed_spread(1e-3, 1e3), 1 => Just(0.0)];
    let incidence = prop_oneof![3 => 0.0f64..1.0, 1 => Just(0.0)];
    let spot_ratio = prop_oneof![3 => 1.0f64..2.0, 1 => Just(1.0), 1 => 1.0f64..10.0];
    (any_beam(), spread(1e-6, 10.0), 0.01f64..1.19, edge(), edge(), incidence, spot_ratio).prop_filter_map(
        "outside its range",
        |(beam, field_radius, field_angle, tangential, sagittal, edge_incidence, edge_spot_ratio)| {
            let zr = beam_parameters(&beam).unwrap().rayleigh_range;
            let lens = ScanLens {
                focal_length: field_radius / field_angle,
                field_radius,
                edge_tangential_z: tangential * zr,
                edge_sagittal_z: sagittal * zr,
                edge_incidence,
                edge_spot_ratio,
            };
            let allowed = [lens.edge_tangential_z, lens.edge_sagittal_z].iter().all(|z| z.abs() <= 10.0);
            (allowed && lens.focal_length >= 1e-5 && zr < 5e5).then_some((beam, lens, zr))
        },
    )
}

/// The same without slant and with equal spots in focus.
fn telecentric(lens: ScanLens) -> ScanLens {
    ScanLens { edge_incidence: 0.0, edge_spot_ratio: 1.0, ..lens }
}

fn at(beam: &Beam, lens: &ScanLens, share: f64, z: f64) -> ScanFieldSpot {
    scan_field_at(beam, lens, share * lens.field_radius, 0.0, z).unwrap()
}

fn larger(spot: &ScanFieldSpot) -> f64 {
    spot.growth_along_radius.max(spot.growth_across_radius)
}

/// The largest growth of a field within a part of its radius, looked at in many places.
fn worst(beam: &Beam, lens: &ScanLens, share: f64, z: f64) -> f64 {
    (0..=60).map(|k| larger(&at(beam, lens, share * f64::from(k) / 60.0, z))).fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(config())]

    /// Only the distance from the middle counts.
    #[test]
    fn round_about_the_axis((beam, lens, zr) in beam_and_lens(), x in 0.0f64..0.7, y in 0.0f64..0.7, u in -3.0f64..3.0) {
        let (x, y, z) = (x * lens.field_radius, y * lens.field_radius, u * zr);
        let spot = scan_field_at(&beam, &lens, x, y, z).unwrap();
        for (x, y) in [(-x, y), (x, -y), (y, x), (-y, -x)] {
            prop_assert_eq!(scan_field_at(&beam, &lens, x, y, z).unwrap(), spot);
        }
        let along_axis = at(&beam, &lens, x.hypot(y) / lens.field_radius, z);
        // The turned place is rounded, and a steep focal surface makes more of that.
        let steep = 1.0 + (lens.edge_tangential_z.abs() + lens.edge_sagittal_z.abs()) / zr;
        close(spot.growth_along_radius, along_axis.growth_along_radius, 40.0 * steep);
        close(spot.growth_across_radius, along_axis.growth_across_radius, 40.0 * steep);
    }

    /// In the middle it is the beam by itself; under a lens without fault everywhere.
    #[test]
    fn the_beam_itself((beam, lens, zr) in beam_and_lens(), u in -9.0f64..9.0, share in 0.0f64..=1.0) {
        let alone = defocus(&beam, u * zr).unwrap();
        let flawless = ScanLens { edge_tangential_z: 0.0, edge_sagittal_z: 0.0, ..telecentric(lens) };
        for spot in [at(&beam, &lens, 0.0, u * zr), at(&beam, &flawless, share, u * zr)] {
            close(spot.growth_along_radius, alone.growth, 1.0);
            close(spot.growth_across_radius, alone.growth, 1.0);
            close(spot.irradiance_ratio, alone.irradiance_ratio, 4.0);
            close(spot.line_dose_ratio_along_radius, alone.line_dose_ratio, 2.0);
            close(spot.diameter_across_radius, alone.diameter, 2.0);
        }
    }

    /// Slanted light on a flat field is a tilted surface, so much farther along the light as it slants.
    #[test]
    fn slanted_light_on_a_tilted_surface((beam, lens, zr) in beam_and_lens(), u in -3.0f64..3.0, share in 0.01f64..=1.0) {
        let flat = ScanLens { edge_tangential_z: 0.0, edge_sagittal_z: 0.0, edge_spot_ratio: 1.0, ..lens };
        let spot = at(&beam, &flat, share, u * zr);
        let tilted = tilted_spot(&beam, u * zr / spot.incidence.cos(), spot.incidence).unwrap();
        close(spot.diameter_along_radius, tilted.diameter_along, 12.0);
        close(spot.diameter_across_radius, tilted.diameter_across, 12.0);
        close(spot.irradiance_ratio, tilted.irradiance_ratio, 20.0);
        close(spot.grazing_ratio, tilted.grazing_ratio, 8.0);
        prop_assert_eq!(spot.validity, tilted.validity);
    }

    /// Each focus is where its own diameter is least, and no narrower than the lens makes it.
    #[test]
    fn each_focus_is_the_narrowest((beam, lens, zr) in beam_and_lens(), share in 0.0f64..=1.0, u in 0.01f64..3.0) {
        let spot = at(&beam, &lens, share, 0.0);
        let narrow = at(&beam, &lens, share, spot.tangential_focus_z).growth_along_radius;
        let s = 1.0 + (lens.edge_spot_ratio - 1.0) * share * share;
        // What is lost of a focus beside which the Rayleigh range is short.
        let lost = 8.0 + 8.0 * (lens.edge_tangential_z / zr).powi(2) * f64::EPSILON;
        close(narrow, s / spot.incidence.cos(), lost);
        for side in [-u, u] {
            prop_assert!(at(&beam, &lens, share, spot.tangential_focus_z + side * zr).growth_along_radius > narrow);
        }
        let narrow = at(&beam, &lens, share, spot.sagittal_focus_z).growth_across_radius;
        for side in [-u, u] {
            prop_assert!(at(&beam, &lens, share, spot.sagittal_focus_z + side * zr).growth_across_radius > narrow);
        }
    }

    /// Curvature goes with the square of the radius, angles with the radius.
    #[test]
    fn laws_of_the_radius((beam, lens, _) in beam_and_lens()) {
        let (half, edge) = (at(&beam, &lens, 0.5, 0.0), at(&beam, &lens, 1.0, 0.0));
        same_bits(4.0 * half.tangential_focus_z, edge.tangential_focus_z);
        same_bits(edge.tangential_focus_z, lens.edge_tangential_z);
        same_bits(4.0 * half.sagittal_focus_z, edge.sagittal_focus_z);
        same_bits(2.0 * half.field_angle, edge.field_angle);
        same_bits(2.0 * half.incidence, edge.incidence);
        same_bits(edge.incidence, lens.edge_incidence);
    }

    /// All lengths together change no ratio.
    #[test]
    fn lengths_may_be_scaled((beam, lens, zr) in beam_and_lens(), share in 0.0f64..=1.0, u in -3.0f64..3.0, k in power_of_two()) {
        let larger_beam = Beam { wavelength: k * beam.wavelength, waist_diameter: k * beam.waist_diameter, ..beam };
        let larger_lens = ScanLens {
            focal_length: k * lens.focal_length,
            field_radius: k * lens.field_radius,
            edge_tangential_z: k * lens.edge_tangential_z,
            edge_sagittal_z: k * lens.edge_sagittal_z,
            ..lens
        };
        let here = at(&beam, &lens, share, u * zr);
        let x = share * lens.field_radius;
        if let Ok(there) = scan_field_at(&larger_beam, &larger_lens, k * x, 0.0, k * (u * zr)) {
            same_bits(there.growth_along_radius, here.growth_along_radius);
            same_bits(there.growth_across_radius, here.growth_across_radius);
            same_bits(there.diameter_along_radius, k * here.diameter_along_radius);
            same_bits(there.field_angle, here.field_angle);
        }
        if let (Ok(here), Ok(there)) = (
            scan_field_extent(&beam, &lens, u * zr, 1.5),
            scan_field_extent(&larger_beam, &larger_lens, k * (u * zr), 1.5),
        ) {
            same_bits(there.radius, k * here.radius);
        }
    }

    #[test]
    fn any_bits_at_all(
        beam in beam(),
        numbers in (
            value_of(Param::FocalLength),
            value_of(Param::FieldRadius),
            value_of(Param::EdgeTangentialZ),
            value_of(Param::EdgeSagittalZ),
            value_of(Param::EdgeIncidence),
            value_of(Param::EdgeSpotRatio),
        ),
        x in value_of(Param::FieldX),
        y in value_of(Param::FieldY),
        z in value_of(Param::ZOffset),
        growth in value_of(Param::GrowthRatio),
        radius in value_of(Param::Radius),
    ) {
        let (focal_length, field_radius, edge_tangential_z, edge_sagittal_z, edge_incidence, edge_spot_ratio) = numbers;
        let lens = ScanLens {
            focal_length,
            field_radius,
            edge_tangential_z,
            edge_sagittal_z,
            edge_incidence,
            edge_spot_ratio,
        };
        let mut given = beam_inputs(&beam);
        given.extend([
            (Param::FocalLength, focal_length),
            (Param::FieldRadius, field_radius),
            (Param::EdgeTangentialZ, edge_tangential_z),
            (Param::EdgeSagittalZ, edge_sagittal_z),
            (Param::EdgeIncidence, edge_incidence),
            (Param::EdgeSpotRatio, edge_spot_ratio),
        ]);
        let with = |more: &[(Param, f64)]| [given.as_slice(), more].concat();
        // `judge` takes a focal length by its magnitude, which here must not be negative.
        prop_assume!(focal_length >= 0.0 || focal_length.is_nan());
        let spot = scan_field_at(&beam, &lens, x, y, z).map(|s| {
            let lengths = [s.radius, s.tangential_focus_z, s.sagittal_focus_z, s.diameter_along_radius, s.diameter_across_radius];
            [&lengths[..], &[s.growth_along_radius, s.growth_across_radius, s.irradiance_ratio, s.grazing_ratio]].concat()
        });
        judge(spot, &with(&[(Param::FieldX, x), (Param::FieldY, y), (Param::ZOffset, z)]));
        let extent = scan_field_extent(&beam, &lens, z, growth);
        judge(
            extent.map(|e| {
                assert!(e.radius >= 0.0 && e.radius <= field_radius);
                vec![e.radius, e.square_side, e.grazing_ratio]
            }),
            &with(&[(Param::ZOffset, z), (Param::GrowthRatio, growth)]),
        );
        match scan_field_focus(&beam, &lens, radius) {
            // The radius is held against the field.
            Err(error) if error.param() == Param::Radius => {
                told_well(&error);
                prop_assert!(error.code() == 1 || error.allowed() == (0.0, field_radius), "{error}");
            }
            focus => judge(
                focus.map(|f| vec![f.best_z, f.greatest_defocus, f.centre_growth, f.edge_growth_along_radius]),
                &given,
            ),
        }
    }
}

proptest! {
    #![proptest_config(few_cases())]

    /// No place within the extent grows by more, and the next one beyond does.
    #[test]
    fn extents_by_a_dense_search((beam, lens, zr) in beam_and_lens(), u in -2.0f64..2.0, more in spread(1e-6, 3.0)) {
        let z = u * zr;
        let ratio = (1.0 + more) * at(&beam, &lens, 0.0, z).growth_across_radius;
        let extent = scan_field_extent(&beam, &lens, z, ratio).unwrap();
        let share = extent.radius / lens.field_radius;
        for k in 0..=400 {
            let grown = larger(&at(&beam, &lens, share * f64::from(k) / 400.0, z));
            prop_assert!(grown <= ratio * (1.0 + 1e-12), "{grown} at {k}/400 of {extent:?}");
        }
        if extent.whole_field {
            same_bits(extent.radius, lens.field_radius);
        } else {
            let at_end = larger(&at(&beam, &lens, share, z));
            let beyond = larger(&at(&beam, &lens, (share * (1.0 + 1e-6)).min(1.0), z));
            let excess = |g: f64| (g - 1.0) * (g + 1.0);
            // As documented: not where growth hardly changes.
            let slope = (excess(beyond) / excess(at_end) - 1.0) / 1e-6;
            prop_assert!(slope.abs() < 0.01 || beyond > ratio * (1.0 - 1e-12), "{beyond} of {ratio}: {extent:?}");
        }
        close(extent.square_side, std::f64::consts::SQRT_2 * extent.radius, 1.0);
        // More growth, more field.
        let wider = scan_field_extent(&beam, &lens, z, ratio * 1.1).unwrap();
        prop_assert!(wider.radius >= extent.radius);
    }

    /// Under a telecentric lens no other height has all foci of the field nearer.
    #[test]
    fn the_greatest_defocus_is_least((beam, lens, zr) in beam_and_lens(), share in 0.01f64..=1.0) {
        let lens = telecentric(lens);
        let focus = scan_field_focus(&beam, &lens, share * lens.field_radius).unwrap();
        let least = farthest(&lens, share, focus.best_z);
        prop_assert!((least - focus.greatest_defocus).abs() <= 1e-12 * least + 1e-300);
        let span = focus.greatest_defocus.max(1e-6 * zr);
        for k in -100..=100 {
            prop_assert!(farthest(&lens, share, focus.best_z + span * f64::from(k) / 50.0) >= least * (1.0 - 1e-12));
        }
    }

    /// A dense search over heights of the table and places of the field never finds a height with a smaller largest spot,
    /// under any lens; and no place with a larger spot than those that are told.
    #[test]
    fn the_largest_spot_is_smallest((beam, lens, zr) in beam_and_lens(), share in 0.01f64..=1.0, is_telecentric: bool) {
        let lens = if is_telecentric { telecentric(lens) } else { lens };
        let focus = scan_field_focus(&beam, &lens, share * lens.field_radius).unwrap();
        let (least, at) = worst_place(&beam, &lens, share, focus.best_z);
        let told = focus.centre_growth.max(focus.edge_growth_along_radius).max(focus.edge_growth_across_radius);
        close(told, least, 1e4);
        let defocus = farthest(&lens, share, focus.best_z);
        prop_assert!((defocus - focus.greatest_defocus).abs() <= 1e-12 * defocus + 1e-300);
        // From highest to lowest focus and beyond, and closely about the answer.
        let span = 2.0 * focus.greatest_defocus + 1e-3 * zr;
        for k in -60..=60 {
            let part = f64::from(k) / 60.0;
            for z in [focus.best_z + span * part, focus.best_z + span * part.powi(7)] {
                // Places between the steps of the search are looked at about the worst.
                let other = worst(&beam, &lens, share, z).max(larger(&at_place(&beam, &lens, at, z)));
                prop_assert!(other >= least * (1.0 - 1e-9), "{other} at {z} against {least}: {focus:?}");
            }
        }
    }

    /// Halfway the largest spot is at most 14 % larger, within the bounds of the module's documentation.
    #[test]
    fn halfway_the_largest_spot_is_nearly_smallest(
        (beam, lens, zr) in beam_and_lens(),
        edges in (-5.0f64..5.0, -5.0f64..5.0),
        edge_incidence in 0.0f64..0.5,
        edge_spot_ratio in 1.0f64..1.5,
    ) {
        let (edge_tangential_z, edge_sagittal_z) = (edges.0 * zr, edges.1 * zr);
        prop_assume!(edge_tangential_z.abs() <= 10.0 && edge_sagittal_z.abs() <= 10.0);
        let lens = ScanLens { edge_tangential_z, edge_sagittal_z, edge_incidence, edge_spot_ratio, ..lens };
        let focus = scan_field_focus(&beam, &lens, lens.field_radius).unwrap();
        let halfway = scan_field_focus(&beam, &telecentric(lens), lens.field_radius).unwrap();
        let (best, halfway) = (worst(&beam, &lens, 1.0, focus.best_z), worst(&beam, &lens, 1.0, halfway.best_z));
        prop_assert!(halfway <= 1.145 * best, "{halfway} against {best}");
    }
}

/// The greatest distance of a focus of a part of the field from a height.
fn farthest(lens: &ScanLens, share: f64, z: f64) -> f64 {
    let off = |k: u32| {
        let q = (share * f64::from(k) / 50.0).powi(2);
        (lens.edge_tangential_z * q - z).abs().max((lens.edge_sagittal_z * q - z).abs())
    };
    (0..=50).map(off).fold(0.0, f64::max)
}

/// As `at`, of a share whose product with the radius may be rounded beyond the edge.
fn at_place(beam: &Beam, lens: &ScanLens, share: f64, z: f64) -> ScanFieldSpot {
    scan_field_at(beam, lens, (share * lens.field_radius).min(lens.field_radius), 0.0, z).unwrap()
}

/// The largest growth, looked at in many places and then in many about the largest; and where it is.
fn worst_place(beam: &Beam, lens: &ScanLens, share: f64, z: f64) -> (f64, f64) {
    let mut found = (0.0, 0.0);
    let (mut least, mut greatest) = (0.0, share);
    for _ in 0..4 {
        let step = (greatest - least) / 60.0;
        for k in 0..=60 {
            let place = if k == 60 { greatest } else { least + step * f64::from(k) };
            let grown = larger(&at_place(beam, lens, place, z));
            if grown > found.0 {
                found = (grown, place);
            }
        }
        (least, greatest) = ((found.1 - step).max(0.0), (found.1 + step).min(share));
    }
    found
}

/// The worst corner of what `halfway_the_largest_spot_is_nearly_smallest` draws from, by hand: with foci at 5 and 0.5
/// Rayleigh ranges at the edge and 0.5 rad there, halfway gives √(1 + (2.5/cos 0.5)²)/cos 0.5 = 3.4403 waists, and
/// 2.8476 Rayleigh ranges give 3.018: 14 % more. There the spots in the middle and at the edge are alike:
/// with c = cos² 0.5 = 0.770151, 1 + z² = (1 + (5 − z)²/c)/c has the root z = 2.84763.
#[test]
fn halfway_is_fourteen_per_cent_off_at_worst() {
    let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
    let zr = beam_parameters(&beam).unwrap().rayleigh_range;
    let lens = ScanLens {
        focal_length: 0.16,
        field_radius: 70e-3,
        edge_tangential_z: 5.0 * zr,
        edge_sagittal_z: 0.5 * zr,
        edge_incidence: 0.5,
        edge_spot_ratio: 1.0,
    };
    let focus = scan_field_focus(&beam, &lens, lens.field_radius).unwrap();
    assert!((focus.best_z / zr - 2.84763).abs() < 1e-5, "{}", focus.best_z / zr);
    let ratio = worst(&beam, &lens, 1.0, 2.5 * zr) / worst(&beam, &lens, 1.0, focus.best_z);
    assert!(ratio > 1.13 && ratio < 1.14, "{ratio}");
    assert!((focus.centre_growth / focus.edge_growth_along_radius - 1.0).abs() < 1e-14);
}

/// Light so slanted that a spot between the middle and the edge is longer than either along the radius: the best height
/// goes by it, and by the spot across the radius at the edge, which is as large.
#[test]
fn a_spot_as_large_inside_of_the_field() {
    let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
    let zr = beam_parameters(&beam).unwrap().rayleigh_range;
    let mut inside = 0;
    for step in 0..12 {
        let lens = ScanLens {
            focal_length: 0.16,
            field_radius: 70e-3,
            edge_tangential_z: 6.67 * zr,
            edge_sagittal_z: (12.0 + 0.6 * f64::from(step)) * zr,
            edge_incidence: 1.0,
            edge_spot_ratio: 1.0,
        };
        let focus = scan_field_focus(&beam, &lens, lens.field_radius).unwrap();
        let (least, _) = worst_place(&beam, &lens, 1.0, focus.best_z);
        let along = |k: u32| at(&beam, &lens, f64::from(k) / 4000.0, focus.best_z).growth_along_radius;
        let longest = (0..4000).map(along).fold(0.0, f64::max);
        let told = [focus.centre_growth, focus.edge_growth_along_radius, focus.edge_growth_across_radius];
        inside += u32::from(longest > 1.001 * told[0].max(told[1]) && (longest / told[2] - 1.0).abs() < 1e-6);
        for k in -40..=40 {
            let z = focus.best_z + 0.05 * zr * f64::from(k) / 40.0;
            let (other, _) = worst_place(&beam, &lens, 1.0, z);
            assert!(other >= least * (1.0 - 1e-12), "{other} against {least} at {}", z / zr);
        }
    }
    assert!(inside > 5, "{inside}");
}

/// What a field grows to in its middle is never too much for its middle, however it is rounded: a field that is
/// sharper farther out holds as a whole.
#[test]
fn the_growth_in_the_middle_holds_in_the_middle() {
    let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
    let lens = ScanLens {
        focal_length: 0.16,
        field_radius: 70e-3,
        edge_tangential_z: -1e-3,
        edge_sagittal_z: -1e-3,
        edge_incidence: 0.0,
        edge_spot_ratio: 1.0,
    };
    for step in 0..400 {
        let z = -1.0e-3 - f64::from(step) * 2.5e-6;
        let growth = scan_field_at(&beam, &lens, 0.0, 0.0, z).unwrap().growth_along_radius;
        let extent = scan_field_extent(&beam, &lens, z, growth).unwrap();
        assert!(extent.whole_field, "{z}: {}", extent.radius);
    }
}

/// A place beyond the edge, and a field too wide for its lens.
#[test]
fn beyond_the_field() {
    let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
    let lens = ScanLens {
        focal_length: 0.16,
        field_radius: 70e-3,
        edge_tangential_z: -1e-3,
        edge_sagittal_z: -0.4e-3,
        edge_incidence: 0.25,
        edge_spot_ratio: 1.0,
    };
    assert!(scan_field_at(&beam, &lens, 42e-3, -56e-3, 0.0).is_ok()); // 70 mm exactly
    let error = scan_field_at(&beam, &lens, 42.001e-3, -56e-3, 0.0).unwrap_err();
    assert_eq!((error.code(), error.param(), error.allowed()), (4, Param::Radius, (0.0, 70e-3)));
    told_well(&error);
    let wide = ScanLens { focal_length: 58e-3, ..lens };
    let error = scan_field_focus(&beam, &wide, 0.0).unwrap_err();
    let angle = 70e-3 / 58e-3;
    assert_eq!(
        error,
        Error::OutsideModel { param: Param::FieldAngle, value: angle, least: 0.0, greatest: 1.2 }
    );
    let negative = ScanLens { focal_length: -0.16, ..lens };
    assert_eq!(scan_field_focus(&beam, &negative, 0.0).unwrap_err().param(), Param::FocalLength);
    // The middle is too large already: at least that is asked for.
    let error = scan_field_extent(&beam, &lens, 2e-3, 1.1).unwrap_err();
    let in_middle = defocus(&beam, 2e-3).unwrap().growth;
    assert_eq!((error.code(), error.param(), error.allowed().0), (5, Param::GrowthRatio, in_middle));
    // No growth at all: in the middle alone, or everywhere.
    assert_eq!(scan_field_extent(&beam, &lens, 0.0, 1.0).unwrap().radius, 0.0);
    let flawless = ScanLens { edge_tangential_z: 0.0, edge_sagittal_z: 0.0, edge_incidence: 0.0, ..lens };
    assert!(scan_field_extent(&beam, &flawless, 0.0, 1.0).unwrap().whole_field);
}
