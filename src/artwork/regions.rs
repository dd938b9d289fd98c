//! Regions of a mask: where something is lost, or filled, and how deep.
//!
//! Pixels hang together over eight neighbours. Each comes with a depth, such as the squared distance to the nearest
//! pixel that is marked; the worst pixel of a region is the deepest, and the first of these row by row. Rows are handed
//! over one by one with their depths, so that no map of depths is ever held as a whole.

use super::components::{Components, Labeller, label_words};
use super::runs::{Part, Run, check_size, rows_at_a_time, run_capacity};
use super::workspace::{Workspace, words_for};
use super::{PixelBox, Watch, words_in_row};
use crate::error::{Error, Param};
use bytemuck::{AnyBitPattern, NoUninit};
use core::cmp::Ordering;

/// A region, and its worst pixel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Region<D> {
    /// How many pixels it has.
    pub pixels: u32,
    /// The box around them.
    pub extent: PixelBox,
    /// Column of the worst pixel.
    pub worst_x: u32,
    /// Row of the worst pixel.
    pub worst_y: u32,
    /// Depth of the worst pixel, as it was handed over.
    pub depth: D,
}

impl<D: Default> Default for Region<D> {
    /// Fills a slice before [`RegionFinder::finish`] writes to it.
    fn default() -> Self {
        Region { pixels: 0, extent: PixelBox::EMPTY, worst_x: 0, worst_y: 0, depth: D::default() }
    }
}

/// A row that stands for a worst pixel not found yet.
const UNKNOWN: u32 = u32::MAX;

/// All regions together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RegionTotals {
    /// How many there are, also if there was room for fewer.
    pub regions: u32,
    /// Pixels of all of them.
    pub pixels: u64,
}

/// A kind of number that tells how deep a pixel lies.
pub trait Depth: Copy + Default + PartialOrd + AnyBitPattern + NoUninit {}
impl<D: Copy + Default + PartialOrd + AnyBitPattern + NoUninit> Depth for D {}

/// Finds the regions of a mask that is handed over row by row.
pub struct RegionFinder<'w, D> {
    labeller: Labeller<'w>,
    width: usize,
    rows_left: usize,
    /// Of each run, its deepest pixel's depth and column.
    depths: &'w mut [D],
    columns: &'w mut [u16],
    /// By label, once the regions are known.
    pixels: &'w mut [u32],
    boxes: &'w mut [[u16; 4]],
    order: &'w mut [u32],
    runs: usize,
    /// What is wrong with the rows so far.
    fault: Option<Error>,
}

/// Room that a [`RegionFinder`] needs, in 64-bit words.
#[must_use]
pub const fn region_words<D>(width: usize, height: usize) -> usize {
    let runs = run_capacity(width, height);
    let of_runs = words_for::<D>(runs) + words_for::<u16>(runs);
    let of_labels = 2 * words_for::<u32>(runs + 1) + words_for::<[u16; 4]>(runs + 1);
    label_words(width, height) + of_runs + of_labels
}

impl<'w, D: Depth> RegionFinder<'w, D> {
    /// Takes room for the regions of a mask of this size.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for an impossible size; [`Error::LengthMismatch`] for less room than [`region_words`].
    pub fn new(width: usize, height: usize, room: &'w mut [u64]) -> Result<Self, Error> {
        check_size(width, height)?;
        let mut workspace = Workspace::new(room, region_words::<D>(width, height))?;
        let runs = run_capacity(width, height);
        Ok(RegionFinder {
            labeller: Labeller::new(Part::Ink, width, height, &mut workspace)?,
            width,
            rows_left: height,
            depths: workspace.take_unset(runs)?,
            columns: workspace.take_unset(runs)?,
            pixels: workspace.take_unset(runs + 1)?,
            order: workspace.take_unset(runs + 1)?,
            boxes: workspace.take_unset(runs + 1)?,
            runs: 0,
            fault: None,
        })
    }

    /// Adds the next row: its words of the mask, and what tells the depth of a pixel of that row by its column.
    ///
    /// What is wrong with a row is told by [`finish`](Self::finish), so that this can be called from within a search
    /// for distances.
    pub fn row(&mut self, mask: &[u64], depth: impl Fn(usize) -> D) {
        if self.fault.is_none() {
            self.fault = self.add_row(mask, depth).err();
        }
    }

    fn add_row(&mut self, mask: &[u64], depth: impl Fn(usize) -> D) -> Result<(), Error> {
        let words = words_in_row(self.width);
        if mask.len() != words {
            return Err(unexpected_length(words, mask.len()));
        }
        self.rows_left = self.rows_left.checked_sub(1).ok_or(unexpected_length(0, 1))?;
        let runs = self.labeller.add_row(mask)?;
        let of_runs = self.depths.iter_mut().zip(self.columns.iter_mut()).skip(self.runs);
        for ((place, column), &run) in of_runs.zip(runs) {
            (*place, *column) = deepest(run, &depth);
        }
        self.runs += runs.len();
        Ok(())
    }

    /// Writes the regions to the slice: those of most pixels first, and among equals those whose box starts farther to
    /// the left, then farther up. What finds no room is counted all the same.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] for a row too many or missing, or one with another number of words than a row has;
    /// [`Error::OutOfRange`] for more runs than there is room for; [`Error::Stopped`].
    pub fn finish(self, regions: &mut [Region<D>], watch: &mut Watch) -> Result<RegionTotals, Error> {
        let RegionFinder { labeller, fault, rows_left, depths, columns, pixels, boxes, order, .. } = self;
        if let Some(fault) = fault {
            return Err(fault);
        }
        if rows_left > 0 {
            return Err(unexpected_length(rows_left, 0));
        }
        let components = labeller.finish();
        let labels = components.count() as usize;
        let pixels = pixels.get_mut(..=labels).unwrap_or_default();
        let boxes = boxes.get_mut(..=labels).unwrap_or_default();
        let order = order.get_mut(..labels).unwrap_or_default();
        measure(&components, pixels, boxes, &mut watch.part(0.0, 0.4))?;
        let totals = RegionTotals {
            regions: components.count(),
            pixels: pixels.iter().map(|&pixels| u64::from(pixels)).sum(),
        };
        let first = greatest(pixels, boxes, order, regions.len());
        watch.done(0.6)?;
        write(first, pixels, boxes, regions);
        let worst = depths.iter().copied().zip(columns.iter().copied());
        find_worst(&components, pixels, worst, regions, &mut watch.part(0.6, 1.0))?;
        watch.done(1.0)?;
        Ok(totals)
    }
}

fn unexpected_length(expected: usize, value: usize) -> Error {
    Error::LengthMismatch { param: Param::DrawingPixels, value, expected }
}

/// The greatest depth in a run, and the column of the first pixel that is so deep.
fn deepest<D: Depth>([start, end]: Run, depth: impl Fn(usize) -> D) -> (D, u16) {
    let mut worst = (depth(usize::from(start)), start);
    for column in start.saturating_add(1)..end {
        let here = depth(usize::from(column));
        if here > worst.0 {
            worst = (here, column);
        }
    }
    worst
}

/// Pixels and boxes of all components, by label.
fn measure(
    components: &Components,
    pixels: &mut [u32],
    boxes: &mut [[u16; 4]],
    watch: &mut Watch,
) -> Result<(), Error> {
    pixels.fill(0);
    boxes.fill([u16::MAX, u16::MAX, 0, 0]);
    let height = components.height();
    let piece = rows_at_a_time(components.width());
    for first in (0..height).step_by(piece) {
        for y in first..height.min(first + piece) {
            let (runs, labels) = components.row_slices(y);
            for (&[start, end], &label) in runs.iter().zip(labels) {
                let label = label as usize;
                if let (Some(pixels), Some([left, top, right, bottom])) =
                    (pixels.get_mut(label), boxes.get_mut(label))
                {
                    *pixels += u32::from(end - start);
                    *left = start.min(*left);
                    *top = (y as u16).min(*top);
                    *right = (end - 1).max(*right);
                    *bottom = y as u16;
                }
            }
        }
        watch.done(first as f64 / height as f64)?;
    }
    Ok(())
}

/// The labels of so many regions, the greatest first.
fn greatest<'o>(pixels: &[u32], boxes: &[[u16; 4]], order: &'o mut [u32], wanted: usize) -> &'o [u32] {
    for (place, label) in order.iter_mut().zip(1..) {
        *place = label;
    }
    let key = |label: u32| (pixels.get(label as usize), boxes.get(label as usize), label);
    let compare = |one: &u32, other: &u32| -> Ordering {
        let ((pixels, extent, label), (other_pixels, other_extent, other_label)) = (key(*one), key(*other));
        other_pixels.cmp(&pixels).then(extent.cmp(&other_extent)).then(label.cmp(&other_label))
    };
    if wanted < order.len() {
        order.select_nth_unstable_by(wanted, compare);
    }
    let first = order.get_mut(..wanted.min(order.len())).unwrap_or_default();
    first.sort_unstable_by(compare);
    first
}

/// Writes pixels and boxes of the regions. Afterwards `pixels` holds the place of each region, from 1, or 0 for none.
fn write<D: Depth>(labels: &[u32], pixels: &mut [u32], boxes: &[[u16; 4]], regions: &mut [Region<D>]) {
    for (region, &label) in regions.iter_mut().zip(labels) {
        let [left, top, right, bottom] =
            boxes.get(label as usize).copied().unwrap_or_default().map(u32::from);
        *region = Region {
            pixels: pixels.get(label as usize).copied().unwrap_or_default(),
            extent: PixelBox { left, top, right, bottom },
            worst_y: UNKNOWN,
            ..Region::default()
        };
    }
    pixels.fill(0);
    for (place, &label) in (1..).zip(labels) {
        if let Some(of_label) = pixels.get_mut(label as usize) {
            *of_label = place;
        }
    }
}

/// Finds the worst pixel of each region that has a place.
fn find_worst<D: Depth>(
    components: &Components,
    places: &[u32],
    mut worst_of_runs: impl Iterator<Item = (D, u16)>,
    regions: &mut [Region<D>],
    watch: &mut Watch,
) -> Result<(), Error> {
    let height = components.height();
    let piece = rows_at_a_time(components.width());
    for first in (0..height).step_by(piece) {
        for y in first..height.min(first + piece) {
            let (_, labels) = components.row_slices(y);
            for (&label, (depth, column)) in labels.iter().zip(&mut worst_of_runs) {
                let place = places.get(label as usize).copied().unwrap_or_default() as usize;
                // Place 0 stands for none.
                let Some(region) = regions.get_mut(place.wrapping_sub(1)) else { continue };
                if depth > region.depth || region.worst_y == UNKNOWN {
                    (region.depth, region.worst_x, region.worst_y) = (depth, u32::from(column), y as u32);
                }
            }
        }
        watch.done(first as f64 / height as f64)?;
    }
    Ok(())
}
