//! Each function on surfaces in focus against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, whose arrays have the lengths that they say"
)]

use super::agree::{beam, criterion};
use super::agree_shape::{given, region};
use super::raw::{Expected, compare, place};
use crate::in_focus::*;
use proptest::prelude::*;
use spotwise::model::surface::{self, FocusHeight};

/// Few cells, sometimes none or too many.
fn cells() -> impl Strategy<Value = u32> {
    prop_oneof![12 => 1u32..9, 1 => Just(0), 1 => Just(1001)]
}

fn height(height: &FocusHeight) -> Expected {
    Expected::of::<spotwise_focus_height>().word(0).numbers(&[
        height.focus_z,
        height.worst_growth,
        height.mean_area_growth,
        height.share_in_focus,
    ])
}

proptest! {
    #[test]
    fn region_heights(given in given(), (c_region, region) in region(), cells in cells()) {
        let model = given.model().and_then(|surface| surface::region_heights(&surface, &region, cells));
        let model = model.map(|found| {
            Expected::of::<spotwise_region_heights_result>().word(0).numbers(&[
                found.mean_z,
                found.z_deviation,
                found.highest_z,
                found.lowest_z,
                found.unknown_share,
            ])
        });
        let c = given.c();
        compare(|out, error| unsafe { spotwise_region_heights(&c, &c_region, cells, out, error) }, model)?;
    }

    #[test]
    fn share_in_focus(
        given in given(),
        (c_region, region) in region(),
        cells in cells(),
        toward in place(1e-3),
        away in place(1e-3),
    ) {
        let model = given
            .model()
            .and_then(|surface| surface::share_in_focus(&surface, &region, cells, toward, away));
        let model = model.map(|found| {
            Expected::of::<spotwise_share_in_focus_result>().word(0).numbers(&[
                found.in_focus,
                found.toward_lens,
                found.away_from_lens,
                found.unknown_share,
            ])
        });
        let c = given.c();
        compare(
            |out, error| unsafe { spotwise_share_in_focus(&c, &c_region, cells, toward, away, out, error) },
            model,
        )?;
    }

    #[test]
    fn focus_for_surface(
        (c_beam, beam) in beam(),
        (c_criterion, criterion) in criterion(),
        given in given(),
        (c_region, region) in region(),
        cells in cells(),
    ) {
        let model = criterion.and_then(|criterion| {
            surface::focus_for_surface(&beam, criterion, &given.model()?, &region, cells)
        });
        let model = model.map(|found| {
            Expected::of::<spotwise_surface_focus>()
                .word(found.validity.bits())
                .nested(height(&found.least_worst))
                .nested(height(&found.least_mean_area))
                .nested(height(&found.most_in_focus))
                .numbers(&[found.unknown_share, found.half_angle])
        });
        let c = given.c();
        compare(
            |out, error| unsafe {
                spotwise_focus_for_surface(&c_beam, &c_criterion, &c, &c_region, cells, out, error)
            },
            model,
        )?;
    }
}
