//! Heights at many places of one row, in plain doubles: for maps of millions of places.
//!
//! The formulas are those of the shapes beside this file, without the second double that carries the last digit: a
//! height is within a few roundings of its parts. Where a surface has no height (beside the part, beside a grid, in a
//! cell that lacks a probe) it is NaN.

use super::grid::{Cell, Grid, Steps};
use super::region::Region;
use super::shape::{Bulge, CheckedSurface};
use super::smooth::{Curve, Smooth};
use crate::model::math;

impl CheckedSurface<'_> {
    /// The one height of a level surface.
    pub(crate) fn level_height(&self) -> Option<f64> {
        match self {
            Self::Smooth(Smooth { curve: Curve::Flat, slope_x, slope_y, .. }) => {
                (*slope_x == 0.0 && *slope_y == 0.0).then_some(0.0)
            }
            _ => None,
        }
    }

    /// Heights at the places `x` of the row `y`, and by how much the slope there thins the irradiance.
    #[inline(always)]
    pub(crate) fn row(&self, y: f64, x: &[f64], z: &mut [f64], irradiance_factor: &mut [f64]) {
        match self {
            Self::Smooth(smooth) => smooth.row(y, x, z, irradiance_factor),
            Self::Steps(steps) => {
                irradiance_factor.fill(1.0);
                steps.row(x, z);
            }
            Self::Grid(grid) => grid.row(y, x, z, irradiance_factor),
        }
    }
}

/// 1/√(1 + p² + q²), the cosine of the incidence angle.
#[inline(always)]
fn factor(p: f64, q: f64) -> f64 {
    1.0 / math::sqrt(1.0 + (p * p + q * q))
}

impl Smooth {
    #[inline(always)]
    fn row(&self, y: f64, x: &[f64], z: &mut [f64], irradiance_factor: &mut [f64]) {
        let dy = y - self.crown_y;
        let (slope_x, slope_y) = (self.slope_x, self.slope_y);
        let side = |bulge| match bulge {
            Bulge::TowardLens => 1.0,
            Bulge::AwayFromLens => -1.0,
        };
        let places = x.iter().zip(z).zip(irradiance_factor);
        match self.curve {
            Curve::Flat => {
                let even = factor(slope_x, slope_y);
                for ((x, z), out) in places {
                    *z = slope_x * (x - self.crown_x) + slope_y * dy;
                    *out = even;
                }
            }
            Curve::Cylinder { radius, bulge, sine, cosine } => {
                let side = side(bulge);
                for ((x, z), out) in places {
                    let dx = x - self.crown_x;
                    let t = dy * cosine - dx * sine;
                    // NaN beside the part, and infinite slope at its very edge.
                    let root = math::sqrt((radius - t) * (radius + t));
                    let slope = side * (t / root);
                    let height = slope_x * dx + slope_y * dy + side * (t * t / (radius + root));
                    *z = if root > 0.0 { height } else { f64::NAN };
                    *out = factor(slope_x - slope * sine, slope_y + slope * cosine);
                }
            }
            Curve::Sphere { radius, bulge } => {
                let side = side(bulge);
                for ((x, z), out) in places {
                    let dx = x - self.crown_x;
                    let squared = dx * dx + dy * dy;
                    let root = math::sqrt(radius * radius - squared);
                    let over = side / root;
                    let height = slope_x * dx + slope_y * dy + side * (squared / (radius + root));
                    *z = if root > 0.0 { height } else { f64::NAN };
                    *out = factor(slope_x + dx * over, slope_y + dy * over);
                }
            }
        }
    }
}

impl Steps<'_> {
    fn row(&self, x: &[f64], z: &mut [f64]) {
        for (x, z) in x.iter().zip(z) {
            *z = self.at(*x).map_or(f64::NAN, |facet| facet.z.to_f64());
        }
    }
}

impl Grid<'_> {
    #[inline(always)]
    fn row(&self, y: f64, x: &[f64], z: &mut [f64], irradiance_factor: &mut [f64]) {
        let (mut x, mut z, mut out) = (x, z, irradiance_factor);
        while let Some(&first) = x.first() {
            let stretch = self.stretch_at(first, y);
            let within = |x: &&f64| **x > stretch.x_least && **x < stretch.x_greatest;
            let length = 1 + x.iter().skip(1).take_while(within).count();
            let parts = (
                x.split_at_checked(length),
                z.split_at_mut_checked(length),
                out.split_at_mut_checked(length),
            );
            let (Some((x_here, x_rest)), Some((z_here, z_rest)), Some((out_here, out_rest))) = parts else {
                return;
            };
            match &stretch.heights {
                Some(heights) => {
                    for ((x, z), out) in x_here.iter().zip(z_here).zip(out_here) {
                        (*z, *out) = heights.at(*x);
                    }
                }
                None => {
                    z_here.fill(f64::NAN);
                    out_here.fill(1.0);
                }
            }
            (x, z, out) = (x_rest, z_rest, out_rest);
        }
    }

    /// What lies about a place of a row.
    #[inline(never)]
    fn stretch_at(&self, x: f64, y: f64) -> Stretch {
        if let Ok(cell) = self.cell_at(x, y) {
            let Region { x_least, x_greatest, .. } = cell.area;
            return Stretch { x_least, x_greatest, heights: Some(Heights::of(&cell, y)) };
        }
        // No cell that meets the row here has a height, and so it is as far as the next line of probes. Beside the
        // grid there are no lines.
        let (x_least, x_greatest) = self.columns_about(x).unwrap_or((f64::NAN, f64::NAN));
        Stretch { x_least, x_greatest, heights: None }
    }
}

/// A part of a row, between two lines of probes, that lies in one cell; or in one without heights.
struct Stretch {
    x_least: f64,
    x_greatest: f64,
    heights: Option<Heights>,
}

/// What the heights of one cell along a row follow from.
struct Heights {
    x_least: f64,
    width: f64,
    depth: f64,
    v: f64,
    z00: f64,
    near: f64,
    left: f64,
    twist: f64,
    slope_x: f64,
}

impl Heights {
    fn of(cell: &Cell, y: f64) -> Self {
        let area = cell.area;
        let (width, depth) = (area.x_greatest - area.x_least, area.y_greatest - area.y_least);
        let v = (y - area.y_least) / depth;
        let [z00, z10, z01, z11] = cell.z;
        let (near, far) = (z10 - z00, z11 - z01);
        let (left, right) = (z01 - z00, z11 - z10);
        let slope_x = (near + v * (far - near)) / width;
        Self { x_least: area.x_least, width, depth, v, z00, near, left, twist: right - left, slope_x }
    }

    /// Height, and by how much the slope thins the irradiance.
    #[inline(always)]
    fn at(&self, x: f64) -> (f64, f64) {
        let u = (x - self.x_least) / self.width;
        let along_y = self.left + u * self.twist;
        (self.z00 + u * self.near + self.v * along_y, factor(self.slope_x, along_y / self.depth))
    }
}

#[cfg(test)]
mod tests {
    use crate::model::surface::{Bulge, Surface, surface_at};

    /// Heights and factors of a row are those of the careful formulas, and missing where those refuse.
    #[test]
    fn a_row_is_the_places_one_by_one() {
        let lean = (0.1, -0.2);
        let cylinder = |bulge| Surface::Cylinder {
            radius: 6e-3,
            bulge,
            crown_x: 1e-3,
            crown_y: -2e-3,
            axis_angle: 0.7,
            slope_x: lean.0,
            slope_y: lean.1,
        };
        let sphere = |bulge| Surface::Sphere {
            radius: 7e-3,
            bulge,
            crown_x: 1e-3,
            crown_y: -2e-3,
            slope_x: lean.0,
            slope_y: lean.1,
        };
        let (x_grid, y_grid) = ([-4e-3, 0.0, 3e-3, 5e-3], [-3e-3, 0.5e-3, 4e-3]);
        let probes =
            [0.1e-3, 0.2e-3, -0.3e-3, 0.4e-3, 0.0, f64::NAN, 0.3e-3, 0.1e-3, 0.2e-3, 0.5e-3, 0.0, -0.1e-3];
        let surfaces = [
            Surface::Plane { slope_x: 0.3, slope_y: -1.1 },
            cylinder(Bulge::TowardLens),
            cylinder(Bulge::AwayFromLens),
            sphere(Bulge::TowardLens),
            sphere(Bulge::AwayFromLens),
            Surface::Steps { edges: &[-5e-3, 0.0, 2e-3, 5e-3], z: &[1e-3, -2e-3, 0.0] },
            Surface::Grid { x: &x_grid, y: &y_grid, z: &probes },
        ];
        let x: Vec<f64> = (-80..=80).map(|i| f64::from(i) * 0.1e-3).collect();
        let (mut z, mut factor) = (vec![0.0; x.len()], vec![0.0; x.len()]);
        let (mut known, mut missing) = (0, 0);
        for surface in &surfaces {
            let checked = surface.checked().unwrap();
            for y in [-4e-3, -3e-3, -0.1e-3, 0.5e-3, 0.7e-3, 3.9e-3] {
                checked.row(y, &x, &mut z, &mut factor);
                for ((&x, &z), &factor) in x.iter().zip(&z).zip(&factor) {
                    if let Ok(place) = surface_at(surface, x, y) {
                        // Next to the edge of a part the height follows the place by the slope there.
                        let roundings = 1e-17 / place.irradiance_factor;
                        assert!((z - place.z).abs() < roundings, "{surface:?} at {x} {y}: {z} {}", place.z);
                        assert!((factor - place.irradiance_factor).abs() < 1e-11, "{surface:?} at {x} {y}");
                        known += 1;
                    } else {
                        assert!(z.is_nan(), "{surface:?} at {x} {y}: {z}");
                        missing += 1;
                    }
                }
            }
        }
        assert!(known > 3000 && missing > 500, "{known} {missing}");
    }
}
