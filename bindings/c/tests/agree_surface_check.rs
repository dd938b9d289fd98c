//! The verdict on a job whose surface has a shape against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, whose arrays have the lengths that they say"
)]

use super::agree::{expected, job, model_job};
use super::agree_shape::{expected_extremes, given, region};
use super::raw::{Expected, compare};
use crate::surface_check::*;
use proptest::prelude::*;
use spotwise::model::check;

proptest! {
    #[test]
    fn surface_check(c_job in job().boxed(), given in given().boxed(), (c_region, region) in region().boxed(), cells in 0u32..9) {
        let model = model_job(&c_job).and_then(|job| {
            let surface = given.model()?;
            check::surface_check(&job, &surface, &region, cells)
        });
        let model = model.map(|found| {
            Expected::of::<spotwise_surface_verdict>()
                .word(found.bands.unwrap_or(0))
                .nested(expected(&found.verdict))
                .nested(expected_extremes(&found.extremes))
                .numbers(&[
                    found.worst_x,
                    found.worst_y,
                    found.worst_z,
                    found.share_in_depth,
                    found.share_that_holds,
                    found.steepest_stretch,
                    found.steepest_irradiance_factor,
                ])
        });
        let c = given.c();
        compare(|out, error| unsafe { spotwise_surface_check(&c_job, &c, &c_region, cells, out, error) }, model)?;
    }
}
