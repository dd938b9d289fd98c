//! Each function on learning from test pieces against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::number;
use super::raw::{compare, near, share};
use crate::statistics::*;
use proptest::prelude::*;
use spotwise::model::learn;

fn degrees() -> impl Strategy<Value = u32> {
    prop_oneof![40 => 1..60_u32, 1 => Just(0), 1 => Just(100_000), 1 => Just(100_001), 1 => any::<u32>()]
}

proptest! {
    #[test]
    fn student_factor(confidence in share().prop_map(|share| 0.5 + 0.5 * share), degrees in degrees()) {
        let model = number(learn::student_factor(confidence, f64::from(degrees)));
        compare(|out, error| unsafe { spotwise_student_factor(confidence, degrees, out, error) }, model)?;
    }

    #[test]
    fn chi_squared_chance(chi_squared in near(9.0), degrees in degrees()) {
        let model = number(learn::chi_squared_chance(chi_squared, f64::from(degrees)));
        compare(|out, error| unsafe { spotwise_chi_squared_chance(chi_squared, degrees, out, error) }, model)?;
    }
}
