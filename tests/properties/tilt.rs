//! The spot on a tilted surface.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::focus::{TiltedSpot, defocus, tilted_spot};
use spotwise::model::optics::{Beam, beam_parameters};
use spotwise::{CAUTION_GRAZING, Error, Param, Validity};

/// Tilts from none to the greatest, the steep ones of slender beams among them.
fn tilt() -> BoxedStrategy<f64> {
    prop_oneof![6 => 0.0f64..1.5, 2 => spread(1e-12, 1.5), 1 => Just(0.0), 1 => Just(1.5)].boxed()
}

/// A beam, a place and a tilt at which the contour is closed.
fn closed() -> impl Strategy<Value = (Beam, f64, f64)> {
    (beam_and_z(), tilt())
        .prop_filter_map("the edge of the cone runs along the surface", |((beam, z), tilt)| {
            tilted_spot(&beam, z, tilt).is_ok().then_some((beam, z, tilt))
        })
}

/// By how much rounding counts more as the contour opens.
fn opening(spot: &TiltedSpot) -> f64 {
    1.0 / ((1.0 - spot.grazing_ratio) * (1.0 + spot.grazing_ratio))
}

proptest! {
    #![proptest_config(config())]

    /// A level surface is one that is merely off focus.
    #[test]
    fn a_level_surface((beam, z) in beam_and_z()) {
        let (spot, level) = (tilted_spot(&beam, z, 0.0).unwrap(), defocus(&beam, z).unwrap());
        for along in [spot.diameter_across, spot.diameter_along, spot.contour_along] {
            same_bits(along, level.diameter);
        }
        same_bits(spot.irradiance_ratio, level.irradiance_ratio);
        same_bits(spot.line_dose_ratio, level.line_dose_ratio);
        same_bits(spot.half_angle, level.half_angle);
        prop_assert_eq!((spot.contour_shift, spot.grazing_ratio), (0.0, 0.0));
        prop_assert_eq!(spot.validity, level.validity);
    }

    /// The power on the footprint is that of the level spot; the contour is no shorter, and in focus longer
    /// by 1/√(1 − e²).
    #[test]
    fn made_of_its_parts((beam, z, tilt) in closed()) {
        let (spot, level) = (tilted_spot(&beam, z, tilt).unwrap(), defocus(&beam, z).unwrap());
        same_bits(spot.diameter_across, level.diameter);
        close(spot.diameter_along * spot.irradiance_ratio, level.diameter * level.irradiance_ratio, 4.0);
        close(spot.irradiance_ratio / spot.line_dose_ratio, level.line_dose_ratio, 4.0);
        in_order(spot.diameter_along, spot.contour_along, 4.0 * opening(&spot));
        let half_angle = beam_parameters(&beam).unwrap().divergence_half_angle;
        close(spot.grazing_ratio, half_angle * tilt.tan(), 4.0 + 4.0 * tilt / tilt.sin().max(f64::MIN_POSITIVE));
        let in_focus = tilted_spot(&beam, 0.0, tilt).unwrap();
        close(in_focus.contour_along / in_focus.diameter_along, opening(&spot).sqrt(), 6.0 * opening(&spot));
        prop_assert_eq!(in_focus.contour_shift, 0.0);
        prop_assert_eq!(spot.validity.contains(Validity::TILTED), spot.grazing_ratio > CAUTION_GRAZING);
        prop_assert!(spot.validity.contains(level.validity));
    }

    /// Above and below focus the spot is the same, but its contour lies to the other side.
    #[test]
    fn the_same_on_both_sides((beam, z, tilt) in closed()) {
        let (here, there) = (tilted_spot(&beam, z, tilt).unwrap(), tilted_spot(&beam, -z, tilt).unwrap());
        opposite(there.contour_shift, here.contour_shift);
        prop_assert_eq!(TiltedSpot { contour_shift: here.contour_shift, ..there }, here);
        // It lies where the light is wider: away from the lens behind the waist.
        prop_assert!(here.contour_shift * z >= 0.0);
    }

    /// Steeper: longer, dimmer, and its contour no nearer the axis.
    #[test]
    fn steeper((beam, z, tilt) in closed(), share in 0.0f64..=1.0) {
        let (less, more) = (tilted_spot(&beam, z, share * tilt).unwrap(), tilted_spot(&beam, z, tilt).unwrap());
        in_order(less.diameter_along, more.diameter_along, 4.0);
        in_order(less.contour_along, more.contour_along, 8.0 * opening(&more));
        in_order(less.contour_shift.abs(), more.contour_shift.abs(), 8.0 * opening(&more));
        in_order(less.grazing_ratio, more.grazing_ratio, 4.0);
        in_order(more.irradiance_ratio, less.irradiance_ratio, 4.0);
        in_order(more.line_dose_ratio, less.line_dose_ratio, 4.0);
        prop_assert!(more.validity.contains(less.validity));
    }

    #[test]
    fn scales_with_all_lengths((beam, z, tilt) in closed(), k in power_of_two()) {
        let larger = Beam { wavelength: k * beam.wavelength, waist_diameter: k * beam.waist_diameter, ..beam };
        let spot = tilted_spot(&beam, z, tilt).unwrap();
        let Ok(scaled) = tilted_spot(&larger, k * z, tilt) else { return Ok(()) };
        same_bits(scaled.diameter_across, k * spot.diameter_across);
        same_bits(scaled.diameter_along, k * spot.diameter_along);
        same_bits(scaled.contour_along, k * spot.contour_along);
        opposite(-scaled.contour_shift, k * spot.contour_shift);
        same_bits(scaled.irradiance_ratio, spot.irradiance_ratio);
        same_bits(scaled.grazing_ratio, spot.grazing_ratio);
    }

    /// Where the edge of the cone runs along the surface or slants away from it there is no spot.
    #[test]
    fn refused_where_the_contour_is_open((beam, z) in beam_and_z(), tilt in tilt()) {
        let grazing = beam_parameters(&beam).unwrap().divergence_half_angle * tilt.tan();
        // (no closer to the limit than rounding tells)
        prop_assume!((grazing - 1.0).abs() > 1e-14);
        match tilted_spot(&beam, z, tilt) {
            Ok(spot) => prop_assert!(grazing < 1.0 && spot.grazing_ratio < 1.0),
            Err(Error::OutsideModel { param: Param::GrazingRatio, value, .. }) => {
                prop_assert!(grazing > 1.0);
                close(value, grazing, 8.0);
            }
            Err(error) => panic!("{error}"),
        }
    }
}

/// A beam so wide in angle and a tilt so steep that the draws above may miss them.
#[test]
fn an_open_contour_is_refused() {
    let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 40e-6 };
    let half_angle = beam_parameters(&beam).unwrap().divergence_half_angle;
    let limit = (1.0 / half_angle).atan();
    assert!(limit < 1.5);
    assert!(tilted_spot(&beam, 0.0, limit - 1e-6).is_ok());
    let error = tilted_spot(&beam, 0.0, limit + 1e-6).unwrap_err();
    assert_eq!((error.code(), error.param()), (4, Param::GrazingRatio));
}
