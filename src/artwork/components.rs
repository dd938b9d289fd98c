//! Components of a mask: its pieces of ink, or of ground, that hang together.
//!
//! Ink hangs together over the eight neighbours of a pixel, ground over the four that share a side with it, so that a
//! closed stroke one pixel wide, however slanting, parts what is inside from what is outside. Ground that reaches the
//! edge of the mask belongs to the outside; every other component of the ground is a hole.
//!
//! Labels count from 1 in the order of the first pixels, row by row, those of specks after all others. The outside has
//! label 0.

use super::runs::{
    MOST_ROWS, Part, Run, check_size, count_runs, find_runs, rows_at_a_time, run_capacity, too_many_runs,
};
use super::simd::vectorised;
use super::specks::{add_sizes, sizes_to_labels};
use super::workspace::{Workspace, words_for};
use super::{Bitmap, Watch};
use crate::error::Error;
use core::ops::Range;

/// A stretch of pixels in a row that belong to one component.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LabelledRun {
    /// Column of the first pixel.
    pub start: usize,
    /// The column after the last pixel.
    pub end: usize,
    /// The component, 1 to [`Components::count`]; 0 is the ground outside.
    pub label: u32,
}

/// The components of a mask.
#[derive(Debug, Default)]
pub struct Components<'w> {
    runs: &'w [Run],
    labels: &'w mut [u32],
    /// Where the runs of each row start, and where the last ones end.
    row_starts: &'w [u32],
    count: u32,
    /// How many of the last labels are those of specks.
    specks: u32,
    width: usize,
    height: usize,
}

impl Components<'_> {
    /// How many there are; the outside is none.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.count
    }

    /// How many of them are specks, whose labels are the last.
    #[must_use]
    pub fn specks(&self) -> u32 {
        self.specks
    }

    /// How many are no specks.
    #[must_use]
    pub(crate) fn counting(&self) -> u32 {
        self.count - self.specks
    }

    /// Makes specks of all that have fewer pixels. `sizes` has room for one number more than there are components.
    pub(crate) fn put_specks_last(
        &mut self,
        least_pixels: u32,
        sizes: &mut [u32],
        watch: &mut Watch,
    ) -> Result<(), Error> {
        let sizes = sizes.get_mut(..=self.count as usize).unwrap_or_default();
        sizes.fill(0);
        add_sizes(self, sizes, watch)?;
        self.specks = sizes_to_labels(sizes, least_pixels);
        if self.specks > 0 {
            for label in self.labels.iter_mut().filter(|label| **label != 0) {
                *label = sizes.get(*label as usize).copied().unwrap_or_default();
            }
        }
        Ok(())
    }

    /// Pixels in a row of the mask.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows of the mask.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// The runs of a row from left to right; none beyond the last row.
    pub fn row(&self, y: usize) -> impl Iterator<Item = LabelledRun> {
        let (runs, labels) = self.row_slices(y);
        runs.iter().zip(labels).map(|(&[start, end], &label)| LabelledRun {
            start: usize::from(start),
            end: usize::from(end),
            label,
        })
    }

    /// The runs of a row, and their labels.
    pub(crate) fn row_slices(&self, y: usize) -> (&[Run], &[u32]) {
        let place = |y: usize| self.row_starts.get(y).map_or(0, |&start| start as usize);
        let rows = place(y)..place(y + 1);
        let runs = self.runs.get(rows.clone()).unwrap_or(&[]);
        (runs, self.labels.get(rows).unwrap_or(&[]))
    }
}

/// Room that [`label_ink`] and [`label_ground`] need, in 64-bit words.
#[must_use]
pub const fn label_words(width: usize, height: usize) -> usize {
    let runs = run_capacity(width, height);
    let height = if height < MOST_ROWS { height } else { MOST_ROWS };
    words_for::<u16>(2 * runs) + words_for::<u32>(runs + 1) + words_for::<u32>(height + 1)
}

/// The pieces of ink, which hang together over eight neighbours.
///
/// # Errors
/// [`Error::OutOfRange`] for a mask of an impossible size, or with more runs of ink than there is room for;
/// [`Error::LengthMismatch`] for too little room; [`Error::Stopped`].
pub fn label_ink<'w>(mask: &Bitmap, room: &'w mut [u64], watch: &mut Watch) -> Result<Components<'w>, Error> {
    label_alone(mask, Part::Ink, room, watch)
}

/// The outside, and the holes, which hang together over four neighbours.
///
/// # Errors
/// As [`label_ink`].
pub fn label_ground<'w>(
    mask: &Bitmap,
    room: &'w mut [u64],
    watch: &mut Watch,
) -> Result<Components<'w>, Error> {
    label_alone(mask, Part::Ground, room, watch)
}

fn label_alone<'w>(
    mask: &Bitmap,
    part: Part,
    room: &'w mut [u64],
    watch: &mut Watch,
) -> Result<Components<'w>, Error> {
    check_size(mask.width(), mask.height())?;
    let mut workspace = Workspace::new(room, label_words(mask.width(), mask.height()))?;
    label(mask, part, &mut workspace, watch)
}

/// Labels a mask of a size that was checked, in [`label_words`] of the room.
pub(crate) fn label<'w>(
    mask: &Bitmap,
    part: Part,
    workspace: &mut Workspace<'w>,
    watch: &mut Watch,
) -> Result<Components<'w>, Error> {
    let height = mask.height();
    let mut labeller = Labeller::new(part, mask.width(), height, workspace)?;
    let piece = rows_at_a_time(mask.width());
    for first in (0..height).step_by(piece) {
        labeller.add_rows(mask, first..height.min(first + piece))?;
        watch.done(first as f64 / height as f64)?;
    }
    Ok(labeller.finish())
}

/// Labels row by row, or many rows at once.
///
/// Each run is a node of a forest in which every tree is what is known so far of a component; its root is the first
/// run of the component. Run k is node k + 1; node 0 stands for the outside.
pub(crate) struct Labeller<'w> {
    part: Part,
    width: usize,
    height: usize,
    edges: &'w mut [u16],
    nodes: &'w mut [u32],
    row_starts: &'w mut [u32],
    /// Rows and runs so far.
    rows: usize,
    runs: usize,
}

impl<'w> Labeller<'w> {
    /// Takes [`label_words`] of the room. The size must have been checked.
    pub(crate) fn new(
        part: Part,
        width: usize,
        height: usize,
        workspace: &mut Workspace<'w>,
    ) -> Result<Self, Error> {
        let capacity = run_capacity(width, height);
        let edges = workspace.take_unset(2 * capacity)?;
        let nodes: &mut [u32] = workspace.take_unset(capacity + 1)?;
        let row_starts: &mut [u32] = workspace.take(height + 1)?;
        if let Some(outside) = nodes.first_mut() {
            *outside = 0;
        }
        Ok(Labeller { part, width, height, edges, nodes, row_starts, rows: 0, runs: 0 })
    }

    /// Adds the next rows of the mask.
    pub(crate) fn add_rows(&mut self, mask: &Bitmap, rows: Range<usize>) -> Result<(), Error> {
        let (first_row, first_run) = (self.rows, self.runs);
        let room = Rows {
            edges: self.edges.get_mut(2 * first_run..).unwrap_or_default(),
            nodes: self.nodes.get_mut(first_run + 1..).unwrap_or_default(),
            row_ends: self.row_starts.get_mut(first_row + 1..=rows.end).unwrap_or_default(),
            first_run,
        };
        let count = room.label(mask, rows.clone(), self.part).ok_or_else(|| {
            too_many_runs(count_runs(mask, 0..self.height, self.part), self.width, self.height)
        })?;
        self.runs += count;
        self.rows = rows.end;
        self.unite_with_row_above(first_row);
        Ok(())
    }

    /// Adds the next row. Tells where its runs are.
    pub(crate) fn add_row(&mut self, row: &[u64]) -> Result<&[Run], Error> {
        let (y, first) = (self.rows, self.runs);
        let outside = Outside::of_row(self.part, y, self.width, self.height);
        let too_many = || too_many_runs(self.runs + 1, self.width, self.height);
        let edges = self.edges.get_mut(2 * self.runs..).unwrap_or_default();
        let found = find_runs(row, self.width, self.part, edges).ok_or_else(too_many)?;
        let nodes = self.nodes.get_mut(first + 1..).unwrap_or_default();
        let runs = edges.get(..found).unwrap_or_default().as_chunks().0;
        start_row(nodes, first, runs, outside);
        self.runs += runs.len();
        self.rows += 1;
        if let Some(end) = self.row_starts.get_mut(y + 1) {
            *end = self.runs as u32;
        }
        if found > 0 {
            self.unite_with_row_above(y);
        }
        let runs = self.edges.as_chunks().0;
        Ok(runs.get(first..self.runs).unwrap_or_default())
    }

    /// Joins the components that meet between row y − 1 and row y.
    fn unite_with_row_above(&mut self, y: usize) {
        let place = |y: usize| self.row_starts.get(y).map_or(0, |&start| start as usize);
        if y == 0 {
            return;
        }
        let (above, here, end) = (place(y - 1), place(y), place(y + 1));
        let runs = self.edges.as_chunks().0;
        let nodes = self.nodes.get_mut(1..).unwrap_or_default();
        let above_runs = runs.get(above..here).unwrap_or_default();
        let here_runs = runs.get(here..end).unwrap_or_default();
        unite_rows(nodes, 0, (above_runs, above), (here_runs, here), self.part);
    }

    /// Numbers the components.
    pub(crate) fn finish(self) -> Components<'w> {
        let Labeller { edges, nodes, row_starts, runs, width, height, .. } = self;
        let mut count = 0;
        for node in 1..=runs {
            let parent = nodes.get(node).map_or(0, |&parent| parent as usize);
            // What comes before has its label already, and a parent comes before its children.
            let label = if parent == node {
                count += 1;
                count
            } else {
                nodes.get(parent).copied().unwrap_or_default()
            };
            if let Some(place) = nodes.get_mut(node) {
                *place = label;
            }
        }
        let edges: &'w [u16] = edges;
        Components {
            runs: edges.as_chunks().0.get(..runs).unwrap_or_default(),
            labels: nodes.get_mut(1..=runs).unwrap_or_default(),
            row_starts,
            count,
            specks: 0,
            width,
            height,
        }
    }
}

/// Room for the runs of some rows, from the first of them on.
struct Rows<'r> {
    edges: &'r mut [u16],
    /// Nodes of these runs alone: the first is that of the run numbered `first_run`.
    nodes: &'r mut [u32],
    /// Number of the run after the last of each row.
    row_ends: &'r mut [u32],
    first_run: usize,
}

impl Rows<'_> {
    /// Finds and unites the runs of these rows. Tells how many there are, or nothing if there is no room for them.
    fn label(self, mask: &Bitmap, rows: Range<usize>, part: Part) -> Option<usize> {
        vectorised(|| self.label_here(mask, rows, part))
    }

    #[inline(always)]
    fn label_here(self, mask: &Bitmap, rows: Range<usize>, part: Part) -> Option<usize> {
        let (width, height) = (mask.width(), mask.height());
        let (mut above, mut here) = (0, 0);
        for (y, row_end) in rows.zip(self.row_ends) {
            let found = find_runs(mask.row(y), width, part, self.edges.get_mut(2 * here..)?)?;
            let end = here + found / 2;
            let runs: &[Run] = self.edges.as_chunks().0;
            let (above_runs, here_runs) = (runs.get(above..here)?, runs.get(here..end)?);
            start_row(
                self.nodes.get_mut(here..end)?,
                self.first_run + here,
                here_runs,
                Outside::of_row(part, y, width, height),
            );
            unite_rows(
                self.nodes,
                self.first_run,
                (above_runs, self.first_run + above),
                (here_runs, self.first_run + here),
                part,
            );
            (above, here) = (here, end);
            *row_end = (self.first_run + end) as u32;
        }
        Some(here)
    }
}

/// Which runs of a row belong to the outside.
#[derive(Clone, Copy)]
struct Outside {
    /// All of them.
    all: bool,
    /// Those that start here.
    start: u16,
    /// Those that end here.
    end: u16,
}

impl Outside {
    fn of_row(part: Part, y: usize, width: usize, height: usize) -> Self {
        match part {
            // No run starts at the last column's end, or ends at the first column.
            Part::Ink => Outside { all: false, start: u16::MAX, end: 0 },
            Part::Ground => Outside { all: y == 0 || y + 1 == height, start: 0, end: width as u16 },
        }
    }
}

/// Makes each run of a row a root, or a child of the outside. `nodes` are those of the row.
#[inline(always)]
fn start_row(nodes: &mut [u32], first_run: usize, runs: &[Run], outside: Outside) {
    for ((node, &[start, end]), own) in nodes.iter_mut().zip(runs).zip(first_run as u32 + 1..) {
        let is_outside = outside.all || start == outside.start || end == outside.end;
        *node = if is_outside { 0 } else { own };
    }
}

/// Joins the trees of runs that touch. Each row is its runs and the number of the first of them; `nodes` starts with
/// the node of the run numbered `first_run`.
#[inline(always)]
fn unite_rows(
    nodes: &mut [u32],
    first_run: usize,
    (above, first_above): (&[Run], usize),
    (here, first_here): (&[Run], usize),
    part: Part,
) {
    let mut forest = Forest { nodes, first_node: first_run as u32 + 1 };
    // How much farther than its own columns a run reaches into the row above.
    let reach = match part {
        Part::Ink => 1,
        Part::Ground => 0,
    };
    let mut passed = 0;
    for (&[start, end], node) in here.iter().zip(first_here as u32 + 1..) {
        let (start, end) = (u32::from(start), u32::from(end) + reach);
        while above.get(passed).is_some_and(|run| u32::from(run[1]) + reach <= start) {
            passed += 1;
        }
        let touching = above.iter().skip(passed).take_while(|run| u32::from(run[0]) < end);
        for (_, other) in touching.zip((first_above + passed) as u32 + 1..) {
            forest.unite(node, other);
        }
    }
}

/// A forest whose roots come before all of their trees.
struct Forest<'n> {
    nodes: &'n mut [u32],
    /// Number of the first of the nodes.
    first_node: u32,
}

impl Forest<'_> {
    /// What a node hangs from; the outside, which is not among the nodes, hangs from itself.
    #[inline(always)]
    fn parent(&self, node: u32) -> u32 {
        let place = node.wrapping_sub(self.first_node) as usize;
        self.nodes.get(place).copied().unwrap_or(node)
    }

    #[inline(always)]
    fn hang(&mut self, node: u32, parent: u32) {
        if let Some(place) = self.nodes.get_mut(node.wrapping_sub(self.first_node) as usize) {
            *place = parent;
        }
    }

    /// The root of a tree. Halves the way to it for the next who asks.
    #[inline(always)]
    fn root(&mut self, mut node: u32) -> u32 {
        loop {
            let parent = self.parent(node);
            if parent == node {
                return node;
            }
            let next = self.parent(parent);
            self.hang(node, next);
            node = next;
        }
    }

    #[inline(always)]
    fn unite(&mut self, one: u32, other: u32) {
        let (one, other) = (self.root(one), self.root(other));
        if one < other {
            self.hang(other, one);
        } else if other < one {
            self.hang(one, other);
        }
    }
}
