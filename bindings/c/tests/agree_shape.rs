//! Each function on the shape of a surface against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, whose arrays have the lengths that they say"
)]

use super::raw::{Expected, choice, compare, near, place};
use crate::abi::Plain;
use crate::shape::*;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::model::surface::{self, Region, Surface, SurfaceExtremes, SurfaceNumbers};

/// A surface for C, which points into the arrays beside it, and its arrays.
#[derive(Debug)]
pub struct Given {
    c: spotwise_surface,
    x: Vec<f64>,
    y: Vec<f64>,
    z: Vec<f64>,
}

impl Given {
    /// A surface whose pointers and lengths are set when it is asked for.
    pub fn new(c: spotwise_surface, [x, y, z]: [Vec<f64>; 3]) -> Self {
        Self { c, x, y, z }
    }

    /// For C.
    pub fn c(&self) -> spotwise_surface {
        spotwise_surface {
            x_m: self.x.as_ptr(),
            y_m: self.y.as_ptr(),
            z_m: self.z.as_ptr(),
            x_count: self.x.len(),
            y_count: self.y.len(),
            z_count: self.z.len(),
            ..self.c
        }
    }

    /// For the model, which may refuse its choices.
    pub fn model(&self) -> Result<Surface<'_>, Error> {
        let numbers = SurfaceNumbers {
            slope_x: self.c.slope_x,
            slope_y: self.c.slope_y,
            radius: self.c.curvature_radius_m,
            bulge: self.c.bulge,
            crown_x: self.c.crown_x_m,
            crown_y: self.c.crown_y_m,
            axis_angle: self.c.axis_angle_rad,
            x: &self.x,
            y: &self.y,
            z: &self.z,
        };
        Surface::from_code(self.c.surface, &numbers)
    }
}

/// Places that mostly ascend.
fn places() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(near(20e-3), 1..5).prop_map(|distances| {
        let mut sum = -30e-3;
        distances.iter().map(|distance| (sum, sum += distance).0).collect()
    })
}

/// A height, now and then one that was not found.
fn height() -> impl Strategy<Value = f64> {
    prop_oneof![8 => place(1e-3), 1 => Just(f64::NAN)]
}

/// Any surface, mostly with as many heights as it needs.
pub fn given() -> impl Strategy<Value = Given> {
    let numbers = (place(0.1), place(0.1), near(0.3), place(10e-3), place(10e-3), place(1.0));
    let arrays = (places(), places(), prop::collection::vec(height(), 16), 0..20usize);
    (choice(5), choice(2), numbers, arrays).prop_map(|(surface, bulge, numbers, (x, y, z, off))| {
        let (slope_x, slope_y, curvature_radius_m, crown_x_m, crown_y_m, axis_angle_rad) = numbers;
        let fitting = if surface == 4 { x.len() - 1 } else { x.len() * y.len() };
        let count = if off == 0 { fitting + 1 } else { fitting };
        let z = z.into_iter().cycle().take(count).collect();
        let c = spotwise_surface {
            surface,
            bulge,
            slope_x,
            slope_y,
            curvature_radius_m,
            crown_x_m,
            crown_y_m,
            axis_angle_rad,
            ..spotwise_surface::BLANK
        };
        Given { c, x, y, z }
    })
}

/// A region, for C and for the model.
pub fn region() -> impl Strategy<Value = (spotwise_region, Region)> {
    (place(20e-3), near(20e-3), place(20e-3), near(20e-3)).prop_map(|(x_least, width, y_least, height)| {
        let region = Region { x_least, x_greatest: x_least + width, y_least, y_greatest: y_least + height };
        let c = spotwise_region {
            x_least_m: region.x_least,
            x_greatest_m: region.x_greatest,
            y_least_m: region.y_least,
            y_greatest_m: region.y_greatest,
            ..spotwise_region::BLANK
        };
        (c, region)
    })
}

pub fn expected_extremes(found: &SurfaceExtremes) -> Expected {
    Expected::of::<spotwise_surface_extremes_result>().word(found.missing_probes).numbers(&[
        found.highest_z,
        found.highest_x,
        found.highest_y,
        found.lowest_z,
        found.lowest_x,
        found.lowest_y,
        found.range,
        found.steepest_incidence,
        found.steepest_x,
        found.steepest_y,
        found.unknown_share,
    ])
}

proptest! {
    #[test]
    fn surface_at(given in given(), x in place(20e-3), y in place(20e-3)) {
        let model = given.model().and_then(|surface| surface::surface_at(&surface, x, y));
        let model = model.map(|place| {
            Expected::of::<spotwise_surface_place>().word(0).numbers(&[
                place.z,
                place.slope_x,
                place.slope_y,
                place.incidence,
                place.stretch,
                place.irradiance_factor,
            ])
        });
        let c = given.c();
        compare(|out, error| unsafe { spotwise_surface_at(&c, x, y, out, error) }, model)?;
    }

    #[test]
    fn surface_extremes(given in given(), (c_region, region) in region()) {
        let model = given.model().and_then(|surface| surface::surface_extremes(&surface, &region));
        let model = model.map(|found| expected_extremes(&found));
        let c = given.c();
        compare(|out, error| unsafe { spotwise_surface_extremes(&c, &c_region, out, error) }, model)?;
    }
}
