//! A surface within a region as bilinear cells.
//!
//! Steps, grids and planes are cells already, and exactly so. Cylinders and spheres are laid over with n × n equal
//! cells, whose corners are on the surface; nothing is stored, each pass computes them anew. Between its corners a
//! cell lies inside of the curve, by the sag over one cell, so that errors fall with 1/n². The largest errors
//! found against closed forms (`errors_of_the_cells` in `tests/properties/in_focus.rs`), on domes and bars of which
//! up to two thirds of the radius are marked, the share being that of a band that just takes in the crown:
//!
//! | cells per side | share of the area | mean of range | deviation of range |
//! |----------------|-------------------|---------------|--------------------|
//! | 16             | 3.1 %             | 0.31 %        | 0.081 %            |
//! | 64             | 0.16 %            | 0.020 %       | 0.0052 %           |
//! | 128            | 0.044 %           | 0.0048 %      | 0.0014 %           |
//!
//! Heights are counted from a datum amid the surface, so that none loses digits to a surface far from z = 0.

use super::bilinear::{Band, Cell, Split};
use super::grid::Patch;
use super::no_better::{PLACES, SECTIONS, Sections, bend};
use super::region::Region;
use super::shape::{Bulge, CheckedSurface};
use super::smooth::{Curve, Smooth};
use crate::model::math;
use crate::model::twofold::Twofold;

/// A surface that is checked, and how it is to be cut.
pub(super) struct Mesh<'a> {
    pub(super) surface: CheckedSurface<'a>,
    /// Within reach of the surface.
    pub(super) region: Region,
    pub(super) cells_per_side: u32,
    /// The height from which those of the cells are counted.
    pub(super) datum: f64,
}

impl Mesh<'_> {
    /// Shows every cell whose heights are known, in an order that is always the same.
    pub(super) fn for_each(&self, mut show: impl FnMut(&Cell)) {
        match &self.surface {
            CheckedSurface::Smooth(smooth) => match smooth.curve {
                Curve::Flat => self.plane(smooth, show),
                Curve::Cylinder { radius, bulge, sine, cosine } => self.curved(smooth, show, |dx, dy| {
                    let t = dy * cosine - dx * sine;
                    sag(radius, bulge, t * t)
                }),
                Curve::Sphere { radius, bulge } => {
                    self.curved(smooth, show, |dx, dy| sag(radius, bulge, dx * dx + dy * dy));
                }
            },
            CheckedSurface::Steps(steps) => {
                steps.patches(self.region).for_each(|patch| show(&self.cell(&patch)))
            }
            CheckedSurface::Grid(grid) => {
                for patch in grid.patches(self.region).filter(|patch| patch.cell.is_complete()) {
                    show(&self.cell(&patch));
                }
            }
        }
    }

    /// Shows the height over the datum of every cell that is level.
    pub(super) fn for_each_level(&self, show: &mut dyn FnMut(f64)) {
        self.for_each(|cell| {
            if cell.z00 == cell.z10 && cell.z00 == cell.z01 && cell.z00 == cell.z11 {
                show(cell.z00);
            }
        });
    }

    fn over_datum(&self, z: Twofold) -> f64 {
        (z - self.datum.into()).to_f64()
    }

    fn cell(&self, patch: &Patch) -> Cell {
        let [z00, z10, z01, z11] = if patch.area == patch.cell.area {
            patch.cell.z.map(|z| z - self.datum)
        } else {
            patch.corners().map(|facet| self.over_datum(facet.z))
        };
        Cell { area: patch.area.width_x() * patch.area.width_y(), z00, z10, z01, z11 }
    }

    /// One cell, exactly.
    fn plane(&self, smooth: &Smooth, mut show: impl FnMut(&Cell)) {
        let [z00, z10, z01, z11] = self.region.corners().map(|(x, y)| self.over_datum(smooth.lean_at(x, y)));
        show(&Cell { area: self.region.width_x() * self.region.width_y(), z00, z10, z01, z11 });
    }

    /// Equal cells with their corners on the surface, row after row.
    fn curved(&self, smooth: &Smooth, mut show: impl FnMut(&Cell), sag_at: impl Fn(f64, f64) -> f64) {
        let Region { x_least, x_greatest, y_least, y_greatest } = self.region;
        let (width_x, width_y) = (self.region.width_x(), self.region.width_y());
        let from_crown = |place: f64, crown: f64| Twofold::sum(place, -crown).to_f64();
        let (left, right) = (from_crown(x_least, smooth.crown_x), from_crown(x_greatest, smooth.crown_x));
        let (near, far) = (from_crown(y_least, smooth.crown_y), from_crown(y_greatest, smooth.crown_y));
        let lean = self.over_datum(smooth.lean_at(x_least, y_least));
        let parts = f64::from(self.cells_per_side);
        let z_at = |column: u32, row: u32| {
            let (u, v) = (f64::from(column), f64::from(row));
            let dx = (left * (parts - u) + right * u) / parts;
            let dy = (near * (parts - v) + far * v) / parts;
            let rise_x = smooth.slope_x * width_x * u / parts;
            let rise_y = smooth.slope_y * width_y * v / parts;
            lean + (rise_x + rise_y) + sag_at(dx, dy)
        };
        let area = (width_x / parts) * (width_y / parts);
        for row in 0..self.cells_per_side {
            let (mut z00, mut z01) = (z_at(0, row), z_at(0, row + 1));
            for column in 1..=self.cells_per_side {
                let (z10, z11) = (z_at(column, row), z_at(column, row + 1));
                show(&Cell { area, z00, z10, z01, z11 });
                (z00, z01) = (z10, z11);
            }
        }
    }

    /// How the area of known height divides about each of several bands, in shares of it.
    pub(super) fn splits<const N: usize>(&self, bands: &[Band; N]) -> [Split; N] {
        let mut splits = [Split::default(); N];
        let mut area = 0.0;
        self.for_each(|cell| {
            area += cell.area;
            for (split, band) in splits.iter_mut().zip(bands) {
                split.add(cell.area, cell.split(*band));
            }
        });
        splits.map(|split| split.over(area))
    }

    /// How the area of known height divides about the depth of each of several focus heights in order, and by how much its
    /// share in focus may exceed its chord between every other one and the next but one.
    pub(super) fn sections(&self, heights: &[f64; PLACES], depth: Band) -> Sections {
        let bands = heights.map(|focus| depth.about(focus));
        let mut splits = [Split::default(); PLACES];
        let mut bends = [0.0; SECTIONS];
        let mut area = 0.0;
        self.for_each(|cell| {
            area += cell.area;
            let of_cell = bands.map(|band| cell.split(band));
            for (split, part) in splits.iter_mut().zip(&of_cell) {
                split.add(cell.area, *part);
            }
            let mode = cell.mode();
            let ends = bands.windows(3).step_by(2).zip(of_cell.windows(3).step_by(2));
            for (total, section) in bends.iter_mut().zip(ends) {
                let ([first, _, last], [start, middle, end]) = section else { return };
                *total += cell.area * bend(mode, (*first, *last), *start, *middle, *end);
            }
        });
        Sections { splits: splits.map(|split| split.over(area)), bends: bends.map(|bend| bend / area) }
    }

    /// Mean height over the datum, and standard deviation of the height, of a surface of this range.
    pub(super) fn mean_and_deviation(&self, range: f64) -> (f64, f64) {
        let (mut area, mut moment) = (0.0, 0.0);
        self.for_each(|cell| {
            area += cell.area;
            moment += cell.area * cell.mean();
        });
        let mean = moment / area;
        if range <= 0.0 {
            return (mean, 0.0);
        }
        let mut squares = 0.0;
        self.for_each(|cell| {
            let off = (cell.mean() - mean) / range;
            squares += cell.area * (off * off + cell.variance_over(range));
        });
        (mean, range * math::sqrt(squares / area))
    }
}

/// Sag at a distance from the crown, from its square, + where the surface bulges toward the lens.
fn sag(radius: f64, bulge: Bulge, squared: f64) -> f64 {
    let distance = math::sqrt(squared);
    // The region is on the part, a corner of a cell perhaps a last digit beside it.
    let room = math::greater(radius - distance, 0.0);
    let sag = squared / (radius + math::sqrt(room * (radius + distance)));
    match bulge {
        Bulge::TowardLens => sag,
        Bulge::AwayFromLens => -sag,
    }
}
