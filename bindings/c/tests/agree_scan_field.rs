//! The field of a scan head against the model: the same bits, the same codes, the same reports.
#![expect(clippy::undocumented_unsafe_blocks, reason = "every one is a call with whole structs")]

use super::agree::beam;
use super::raw::{Expected, compare, near, place, ratio, share};
use crate::abi::Plain;
use crate::scan_field::*;
use proptest::prelude::*;
use spotwise::model::surface::{self, ScanLens};

fn lens() -> impl Strategy<Value = (spotwise_scan_lens, ScanLens)> {
    let numbers = (near(1.0), near(30e-3), place(1e-3), place(1e-3), share(), ratio());
    numbers.prop_map(|(focal_length, field_radius, tangential, sagittal, incidence, spot_ratio)| {
        let c = spotwise_scan_lens {
            focal_length_m: focal_length,
            field_radius_m: field_radius,
            edge_tangential_z_m: tangential,
            edge_sagittal_z_m: sagittal,
            edge_incidence_rad: incidence,
            edge_spot_ratio: spot_ratio,
            ..spotwise_scan_lens::BLANK
        };
        let model = ScanLens {
            focal_length,
            field_radius,
            edge_tangential_z: tangential,
            edge_sagittal_z: sagittal,
            edge_incidence: incidence,
            edge_spot_ratio: spot_ratio,
        };
        (c, model)
    })
}

proptest! {
    #[test]
    fn scan_field_at(
        (c, beam) in beam(),
        (c_lens, lens) in lens(),
        x in place(5e-3),
        y in place(5e-3),
        z in place(1e-3),
    ) {
        let model = surface::scan_field_at(&beam, &lens, x, y, z).map(|spot| {
            Expected::of::<spotwise_scan_field_spot>().word(spot.validity.bits()).numbers(&[
                spot.radius,
                spot.field_angle,
                spot.incidence,
                spot.tangential_focus_z,
                spot.sagittal_focus_z,
                spot.diameter_along_radius,
                spot.diameter_across_radius,
                spot.growth_along_radius,
                spot.growth_across_radius,
                spot.irradiance_ratio,
                spot.line_dose_ratio_along_radius,
                spot.line_dose_ratio_across_radius,
                spot.grazing_ratio,
                spot.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_scan_field_at(&c, &c_lens, x, y, z, out, error) }, model)?;
    }

    #[test]
    fn scan_field_extent((c, beam) in beam(), (c_lens, lens) in lens(), z in place(1e-4), growth in ratio()) {
        let model = surface::scan_field_extent(&beam, &lens, z, growth).map(|extent| {
            let flags = Expected::of::<spotwise_scan_field_extent_result>().word(extent.validity.bits());
            flags.word(u32::from(extent.whole_field)).word(0).numbers(&[
                extent.radius,
                extent.square_side,
                extent.grazing_ratio,
                extent.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_scan_field_extent(&c, &c_lens, z, growth, out, error) }, model)?;
    }

    #[test]
    fn scan_field_focus((c, beam) in beam(), (c_lens, lens) in lens(), radius in near(10e-3)) {
        let model = surface::scan_field_focus(&beam, &lens, radius).map(|focus| {
            Expected::of::<spotwise_scan_field_focus_result>().word(focus.validity.bits()).numbers(&[
                focus.best_z,
                focus.greatest_defocus,
                focus.centre_growth,
                focus.edge_growth_along_radius,
                focus.edge_growth_across_radius,
                focus.grazing_ratio,
                focus.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_scan_field_focus(&c, &c_lens, radius, out, error) }, model)?;
    }
}
