//! Steps and probed grids: surfaces of patches.
//!
//! Within a cell of a grid, with u and v from 0 to 1 across it,
//! z = (1 − u)·(1 − v)·z₀₀ + u·(1 − v)·z₁₀ + (1 − u)·v·z₀₁ + u·v·z₁₁
//! (computed as a rise along x on two sides, then from one side to the other), which is linear along x and along y: over any rectangle within the cell its extremes are at corners.

use super::region::{Region, common};
use super::smooth::Facet;
use crate::error::{Error, Param, check};
use crate::model::math::{greater, lesser};
use crate::model::twofold::Twofold;

/// A list of places that ascend.
fn check_ascending(place: Param, distance: Param, list: &[f64]) -> Result<(), Error> {
    let mut before = None;
    for &value in list {
        check(place, value)?;
        if let Some(before) = before {
            check(distance, value - before)?;
        }
        before = Some(value);
    }
    Ok(())
}

/// The intervals of an ascending list of places that hold this place: the one that starts there, or in which
/// it lies, and before it the one that ends there. None outside.
fn intervals_at(list: &[f64], place: f64) -> [Option<usize>; 2] {
    let following = list.partition_point(|value| *value <= place);
    let last = list.len().saturating_sub(1);
    let within = (following >= 1 && following <= last).then(|| following - 1);
    let starts = list.get(following.wrapping_sub(1)) == Some(&place);
    let before = (starts && following >= 2).then(|| following - 2);
    [within, before]
}

/// Refuses a place beside a list of places.
fn check_beside(param: Param, place: f64, list: &[f64]) -> Result<(), Error> {
    let (least, greatest) = ends(list);
    if place >= least && place <= greatest {
        Ok(())
    } else {
        Err(Error::OutOfRange { param, value: place, least, greatest })
    }
}

/// First and last of a list.
fn ends(list: &[f64]) -> (f64, f64) {
    match (list.first(), list.last()) {
        (Some(first), Some(last)) => (*first, *last),
        _ => (f64::NAN, f64::NAN),
    }
}

/// A rectangle of a grid with the heights at its corners, NaN where the probe found nothing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cell {
    pub(crate) area: Region,
    /// At (x least, y least), (x greatest, y least), (x least, y greatest), (x greatest, y greatest).
    pub(crate) z: [f64; 4],
}

impl Cell {
    /// How many of its corners have a height.
    fn known(&self) -> usize {
        self.z.iter().filter(|z| !z.is_nan()).count()
    }

    pub(crate) fn is_complete(&self) -> bool {
        self.known() == 4
    }

    /// As [`at`](Self::at) for its own corners, in the order of [`Region::corners`]; the same bits in less time.
    fn corners(&self) -> [Facet; 4] {
        let [z00, z10, z01, z11] = self.z;
        let width = Twofold::sum(self.area.x_greatest, -self.area.x_least);
        let height = Twofold::sum(self.area.y_greatest, -self.area.y_least);
        let [near, far] = [(z00, z10), (z01, z11)].map(|(from, to)| Twofold::sum(to, -from) / width);
        let [left, right] = [(z00, z01), (z10, z11)].map(|(from, to)| Twofold::sum(to, -from) / height);
        let corner = |z: f64, slope_x, slope_y| Facet { z: z.into(), slope_x, slope_y };
        [corner(z00, near, left), corner(z10, near, right), corner(z01, far, left), corner(z11, far, right)]
    }

    /// Height and slopes at a place within. Exact at the corners, and along what is level.
    pub(crate) fn at(&self, x: f64, y: f64) -> Facet {
        let (u, width) = share(x, self.area.x_least, self.area.x_greatest);
        let (v, height) = share(y, self.area.y_least, self.area.y_greatest);
        let [z00, z10, z01, z11] = self.z;
        let rise = |from: f64, to: f64| Twofold::sum(to, -from);
        let (near, far) = (between(z00.into(), rise(z00, z10), u), between(z01.into(), rise(z01, z11), u));
        let rise_x = between(rise(z00, z10), rise(z01, z11) - rise(z00, z10), v);
        let rise_y = between(rise(z00, z01), rise(z10, z11) - rise(z00, z01), u);
        Facet { z: between(near, far - near, v), slope_x: rise_x / width, slope_y: rise_y / height }
    }
}

/// Share of the way from the first place to the last that lies before a place, and the way.
fn share(place: f64, first: f64, last: f64) -> (Twofold, Twofold) {
    let way = Twofold::sum(last, -first);
    (Twofold::sum(place, -first) / way, way)
}

/// What a number has become after this share of its rise.
fn between(start: Twofold, rise: Twofold, share: Twofold) -> Twofold {
    start + rise * share
}

/// What a region has in common with a strip or cell.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Patch {
    /// The cell as a whole; of a strip, what the region has of it.
    pub(crate) cell: Cell,
    /// What the region has of it.
    pub(crate) area: Region,
}

impl Patch {
    /// Its highest and its lowest place.
    pub(crate) fn ends(&self) -> (f64, f64) {
        let [a, b, c, d] = if self.area == self.cell.area {
            self.cell.z
        } else {
            self.corners().map(|facet| facet.z.to_f64())
        };
        (lesser(lesser(a, b), lesser(c, d)), greater(greater(a, b), greater(c, d)))
    }

    /// Heights and slopes at the corners of `area`, in the order of [`Region::corners`].
    pub(crate) fn corners(&self) -> [Facet; 4] {
        if self.area == self.cell.area {
            return self.cell.corners();
        }
        self.area.corners().map(|(x, y)| self.cell.at(x, y))
    }
}

/// Level strips whose numbers are checked.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Steps<'a> {
    edges: &'a [f64],
    z: &'a [f64],
}

impl<'a> Steps<'a> {
    pub(crate) fn checked(edges: &'a [f64], z: &'a [f64]) -> Result<Self, Error> {
        check(Param::StepEdges, edges.len() as f64)?;
        let expected = edges.len().saturating_sub(1);
        if z.len() != expected {
            return Err(Error::LengthMismatch { param: Param::StepHeights, value: z.len(), expected });
        }
        check_ascending(Param::StepEdge, Param::StepWidth, edges)?;
        for &z in z {
            check(Param::StepHeight, z)?;
        }
        Ok(Self { edges, z })
    }

    /// Height of the strip that starts at a place or in which it lies; of the last one also at its end.
    pub(crate) fn at(&self, x: f64) -> Result<Facet, Error> {
        check_beside(Param::PlaceX, x, self.edges)?;
        let [within, before] = intervals_at(self.edges, x);
        let z = within.or(before).and_then(|strip| self.z.get(strip)).copied().unwrap_or(f64::NAN);
        Ok(Facet { z: z.into(), slope_x: Twofold::ZERO, slope_y: Twofold::ZERO })
    }

    /// What the region has of each strip.
    pub(crate) fn patches(self, region: Region) -> impl Iterator<Item = Patch> + use<'a> {
        self.edges.windows(2).zip(self.z).filter_map(move |(edges, &z)| {
            let [first, last] = *edges else { return None };
            let (x_least, x_greatest) = common(first, last, region.x_least, region.x_greatest)?;
            let area = Region { x_least, x_greatest, ..region };
            Some(Patch { cell: Cell { area, z: [z; 4] }, area })
        })
    }

    /// The strips as a whole, as far as the region goes in y.
    pub(crate) fn extent(&self, region: &Region) -> Region {
        let (x_least, x_greatest) = ends(self.edges);
        Region { x_least, x_greatest, ..*region }
    }
}

/// A probed grid whose numbers are checked.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Grid<'a> {
    x: &'a [f64],
    y: &'a [f64],
    z: &'a [f64],
}

impl<'a> Grid<'a> {
    pub(crate) fn checked(x: &'a [f64], y: &'a [f64], z: &'a [f64]) -> Result<Self, Error> {
        check(Param::GridColumns, x.len() as f64)?;
        check(Param::GridRows, y.len() as f64)?;
        let expected = x.len().saturating_mul(y.len());
        if z.len() != expected {
            return Err(Error::LengthMismatch { param: Param::ProbedHeights, value: z.len(), expected });
        }
        check_ascending(Param::GridX, Param::GridSpacing, x)?;
        check_ascending(Param::GridY, Param::GridSpacing, y)?;
        let mut known = 0.0;
        for &z in z {
            if !z.is_nan() {
                check(Param::ProbedHeight, z)?;
                known += 1.0;
            }
        }
        let (least, greatest) = Param::KnownProbes.range();
        if known < least {
            return Err(Error::Undetermined { param: Param::KnownProbes, value: known, least, greatest });
        }
        Ok(Self { x, y, z })
    }

    pub(crate) fn extent(&self) -> Region {
        let (x_least, x_greatest) = ends(self.x);
        let (y_least, y_greatest) = ends(self.y);
        Region { x_least, x_greatest, y_least, y_greatest }
    }

    /// The cell of this column and row.
    fn cell(&self, column: usize, row: usize) -> Option<Cell> {
        let columns = self.x.len();
        let z = |column: usize, row: usize| self.z.get(row * columns + column).copied();
        let area = Region {
            x_least: *self.x.get(column)?,
            x_greatest: *self.x.get(column + 1)?,
            y_least: *self.y.get(row)?,
            y_greatest: *self.y.get(row + 1)?,
        };
        let z = [z(column, row)?, z(column + 1, row)?, z(column, row + 1)?, z(column + 1, row + 1)?];
        Some(Cell { area, z })
    }

    /// The complete cell at a place. Between cells it is the one of greater x and y, then that of greater x,
    /// then that of greater y, the first of these that is complete.
    pub(crate) fn cell_at(&self, x: f64, y: f64) -> Result<Cell, Error> {
        check_beside(Param::PlaceX, x, self.x)?;
        check_beside(Param::PlaceY, y, self.y)?;
        let [column, column_before] = intervals_at(self.x, x);
        let [row, row_before] = intervals_at(self.y, y);
        let places = [(column, row), (column, row_before), (column_before, row), (column_before, row_before)];
        let mut known: usize = 0;
        for (column, row) in places {
            let (Some(column), Some(row)) = (column, row) else { continue };
            let Some(cell) = self.cell(column, row) else { continue };
            if cell.is_complete() {
                return Ok(cell);
            }
            known = known.max(cell.known());
        }
        let (least, greatest) = (4.0, 4.0);
        Err(Error::Undetermined { param: Param::KnownProbes, value: known as f64, least, greatest })
    }

    /// The lines of probes that a place lies between, or on the first of; None beside the grid.
    #[cfg(feature = "artwork")]
    pub(crate) fn columns_about(&self, x: f64) -> Option<(f64, f64)> {
        let [column, _] = intervals_at(self.x, x);
        let column = column?;
        Some((*self.x.get(column)?, *self.x.get(column + 1)?))
    }

    /// What the region has of each cell, complete or not, row after row.
    pub(crate) fn patches(self, region: Region) -> impl Iterator<Item = Patch> + use<'a> {
        let meets = |list: &'a [f64], least: f64, greatest: f64| {
            move |index: &usize| interval_meets(list, Some(*index), least, greatest)
        };
        let rows = (0..self.y.len()).filter(meets(self.y, region.y_least, region.y_greatest));
        rows.flat_map(move |row| {
            let columns = (0..self.x.len()).filter(meets(self.x, region.x_least, region.x_greatest));
            columns.filter_map(move |column| {
                let cell = self.cell(column, row)?;
                Some(Patch { cell, area: cell.area.common(&region)? })
            })
        })
    }

    /// How many probes at the corners of the cells that the region meets found nothing.
    pub(crate) fn missing(&self, region: &Region) -> usize {
        let columns = self.x.len();
        let bears_x = |column| bears(self.x, column, region.x_least, region.x_greatest);
        let bears_y = |row| bears(self.y, row, region.y_least, region.y_greatest);
        let lacks =
            |row: usize, column: usize| self.z.get(row * columns + column).is_some_and(|z| z.is_nan());
        let rows = (0..self.y.len()).filter(|row| bears_y(*row));
        rows.map(|row| (0..columns).filter(|column| bears_x(*column) && lacks(row, *column)).count()).sum()
    }
}

/// Whether the interval that starts at this place of a list has a length in common with a stretch.
fn interval_meets(list: &[f64], start: Option<usize>, least: f64, greatest: f64) -> bool {
    let place = |index: usize| list.get(index).copied();
    let ends = start.and_then(|start| Some((place(start)?, place(start + 1)?)));
    ends.is_some_and(|(first, last)| common(first, last, least, greatest).is_some())
}

/// Whether the interval before or behind a place of a list has a length in common with a stretch.
fn bears(list: &[f64], index: usize, least: f64, greatest: f64) -> bool {
    interval_meets(list, index.checked_sub(1), least, greatest)
        || interval_meets(list, Some(index), least, greatest)
}
