//! What becomes of the pieces and holes of a drawing in its mark.
//!
//! A piece of the drawing, or of the mark, is a component of its ink; a hole is ground inside a piece. A piece of the
//! drawing and one of the mark belong together if they share a pixel, and so do holes. How many belong to each says
//! what became of it. Areas alone do not tell: a thin bridge between two figures adds next to no area.
//!
//! Of specks nothing is told but how many there are; `artwork/specks.rs` says which pieces and holes are left out.

use super::changes::{Change, ChangeKind};
use super::components::{Components, label, label_words};
use super::overlap::{Overlap, Side, is_ignored, overlap_words, what_became};
use super::queue::share_out;
use super::runs::{Part, check_size, rows_at_a_time, run_capacity};
use super::specks::sizes_words;
use super::threads;
use super::workspace::Workspace;
use super::{Bitmap, Watch};
use crate::error::{Error, Param, check_length};

/// Pieces and holes of a drawing and of its mark, and what became of them. What is ignored is counted by itself, and in
/// nothing else.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Topology {
    /// Pieces of the drawing.
    pub components_drawing: u32,
    /// Pieces of the mark.
    pub components_mark: u32,
    /// Pieces of the drawing of which no pixel is marked.
    pub components_lost: u32,
    /// Pieces of the drawing that are marked in two pieces or more.
    pub components_split: u32,
    /// Pieces of the mark that hold marked pixels of two pieces of the drawing or more.
    pub components_merged: u32,
    /// Pieces of the mark in which no pixel is drawn.
    pub components_new: u32,
    /// Holes of the drawing.
    pub holes_drawing: u32,
    /// Holes of the mark.
    pub holes_mark: u32,
    /// Holes of the drawing of which every pixel is marked.
    pub holes_closed: u32,
    /// Holes of the drawing that are open to the outside in the mark.
    pub holes_opened: u32,
    /// Holes of the drawing that are parted in two or more in the mark, none of them open to the outside.
    pub holes_split: u32,
    /// Holes of the mark that hold clear pixels of two holes of the drawing or more.
    pub holes_merged: u32,
    /// Holes of the mark that share no pixel with a hole of the drawing.
    pub holes_new: u32,
    /// Pieces of the drawing that are specks.
    pub components_ignored_drawing: u32,
    /// Pieces of the mark that share pixels with specks of the drawing alone, or with nothing drawn and are specks.
    pub components_ignored_mark: u32,
    /// Holes of the drawing that are specks.
    pub holes_ignored_drawing: u32,
    /// Holes of the mark that share pixels with holes of the drawing that are specks alone, or with no hole and are specks.
    pub holes_ignored_mark: u32,
}

impl Topology {
    /// Pieces of the drawing less its holes, of those that are not ignored.
    #[must_use]
    pub fn euler_drawing(&self) -> i64 {
        i64::from(self.components_drawing) - i64::from(self.holes_drawing)
    }

    /// Pieces of the mark less its holes, of those that are not ignored.
    #[must_use]
    pub fn euler_mark(&self) -> i64 {
        i64::from(self.components_mark) - i64::from(self.holes_mark)
    }

    /// How many changes of this kind there are.
    #[must_use]
    pub fn changes_of(&self, kind: ChangeKind) -> u32 {
        match kind {
            ChangeKind::ComponentLost => self.components_lost,
            ChangeKind::ComponentSplit => self.components_split,
            ChangeKind::ComponentsMerged => self.components_merged,
            ChangeKind::ComponentNew => self.components_new,
            ChangeKind::HoleClosed => self.holes_closed,
            ChangeKind::HoleOpened => self.holes_opened,
            ChangeKind::HoleSplit => self.holes_split,
            ChangeKind::HolesMerged => self.holes_merged,
            ChangeKind::HoleNew => self.holes_new,
        }
    }

    /// How many changes there are in all; with none, each piece and each hole of the drawing has its own in the mark, but for
    /// those that are ignored.
    #[must_use]
    pub fn changes(&self) -> u32 {
        ChangeKind::ALL.iter().map(|&kind| self.changes_of(kind)).sum()
    }
}

/// The pieces and the ground of a drawing, with which any number of marks can be compared.
#[derive(Debug)]
pub struct Parts<'w> {
    /// The pieces.
    pub ink: Components<'w>,
    /// The holes, and the outside.
    pub ground: Components<'w>,
    /// Pixels below which a piece or a hole is a speck.
    least_pixels: u32,
}

/// Room that [`find_parts`] needs, in 64-bit words.
#[must_use]
pub const fn parts_words(width: usize, height: usize) -> usize {
    2 * label_words(width, height)
}

/// Finds the pieces and the holes of a drawing.
///
/// # Errors
/// [`Error::OutOfRange`] for a mask of an impossible size, or with more runs of ink or ground than there is room for;
/// [`Error::LengthMismatch`] for too little room; [`Error::Stopped`].
pub fn find_parts<'w>(drawing: &Bitmap, room: &'w mut [u64], watch: &mut Watch) -> Result<Parts<'w>, Error> {
    let (width, height) = (drawing.width(), drawing.height());
    check_size(width, height)?;
    let mut workspace = Workspace::new(room, parts_words(width, height))?;
    let words = label_words(width, height);
    let rooms = [workspace.take_unset(words)?, workspace.take_unset(words)?];
    let [ink, ground] = both(rooms, watch, |part, room, watch| {
        label(drawing, part, &mut Workspace::new(room, words)?, watch)
    })?;
    Ok(Parts { ink: ink?, ground: ground?, least_pixels: 0 })
}

/// Does the same for the ink and for the ground, each in a room of its own, on two threads if there are.
///
/// What is wrong with either is told beside the other, so that it does not depend on which of them comes first.
fn both<'w, T: Default + Send>(
    [ink_room, ground_room]: [&'w mut [u64]; 2],
    watch: &mut Watch,
    work: impl Fn(Part, &'w mut [u64], &mut Watch) -> Result<T, Error> + Sync,
) -> Result<[Result<T, Error>; 2], Error> {
    let (mut ink, mut ground) = (Ok(T::default()), Ok(T::default()));
    let pieces = [(Part::Ink, ink_room, &mut ink), (Part::Ground, ground_room, &mut ground)];
    share_out(2, pieces.into_iter(), [(), ()].into_iter(), watch, |(part, room, found), (), watch| {
        *found = work(part, room, watch);
        match found {
            Err(stopped @ Error::Stopped { .. }) => Err(*stopped),
            _ => Ok(()),
        }
    })?;
    Ok([ink, ground])
}

/// Room that [`Parts::ignore_specks`] needs, in 64-bit words.
#[must_use]
pub const fn specks_words(width: usize, height: usize) -> usize {
    sizes_words(width, height)
}

impl Parts<'_> {
    /// Leaves pieces and holes of fewer pixels than these out of every later comparison: they become specks, and get the
    /// last labels. With 1 or 0 all count.
    ///
    /// By the same number [`compare`] leaves specks of a mark out.
    ///
    /// # Errors
    /// [`Error::LengthMismatch`] for too little room; [`Error::Stopped`], after which some specks may have been left out.
    pub fn ignore_specks(
        &mut self,
        least_pixels: u32,
        room: &mut [u64],
        watch: &mut Watch,
    ) -> Result<(), Error> {
        let (width, height) = (self.ink.width(), self.ink.height());
        let mut workspace = Workspace::new(room, specks_words(width, height))?;
        let sizes = workspace.take_unset(run_capacity(width, height) + 1)?;
        self.ink.put_specks_last(least_pixels, sizes, &mut watch.part(0.0, 0.5))?;
        self.ground.put_specks_last(least_pixels, sizes, &mut watch.part(0.5, 1.0))?;
        self.least_pixels = least_pixels;
        Ok(())
    }
}

/// Room that [`compare`] needs, in 64-bit words; with the feature `parallel` two threads work if there is twice as much.
#[must_use]
pub const fn compare_words(width: usize, height: usize) -> usize {
    label_words(width, height) + overlap_words(width, height)
}

/// What became of the drawing's pieces and holes in the mark.
///
/// Writes what changed to `changes`: kind by kind in the order of [`ChangeKind::ALL`], and within a kind by the first
/// pixel, row by row. What finds no room there is counted all the same; [`Topology::changes`] tells how many there are.
///
/// # Errors
/// [`Error::LengthMismatch`] for a mark of another size than the drawing, or for too little room;
/// [`Error::OutOfRange`] for a mark with more runs than there is room for; [`Error::Stopped`].
pub fn compare(
    drawing: &Parts,
    mark: &Bitmap,
    room: &mut [u64],
    changes: &mut [Change],
    watch: &mut Watch,
) -> Result<Topology, Error> {
    check_length(Param::DrawingPixels, mark.width(), drawing.ink.width())?;
    check_length(Param::DrawingPixels, mark.height(), drawing.ink.height())?;
    let mut ledger = Ledger { counts: [0; 9], changes };
    let words = compare_words(mark.width(), mark.height());
    let (components, holes) = match room.split_at_mut_checked(words) {
        Some((ink_room, ground_room)) if threads() > 1 && ground_room.len() >= words => {
            let rooms = [ink_room, ground_room];
            let [ink, ground] = both(rooms, &mut watch.part(0.0, 0.8), |part, room, watch| {
                Met::find(drawing, mark, part, room, watch)
            })?;
            (
                ink?.tell(drawing, Part::Ink, &mut ledger, &mut watch.part(0.8, 0.9))?,
                ground?.tell(drawing, Part::Ground, &mut ledger, &mut watch.part(0.9, 1.0))?,
            )
        }
        _ => {
            let mut one = |part, watch: &mut Watch| {
                let met = Met::find(drawing, mark, part, room, &mut watch.part(0.0, 0.8))?;
                met.tell(drawing, part, &mut ledger, &mut watch.part(0.8, 1.0))
            };
            (one(Part::Ink, &mut watch.part(0.0, 0.5))?, one(Part::Ground, &mut watch.part(0.5, 1.0))?)
        }
    };
    let [lost, split, merged, new, closed, opened, parted, joined, new_holes] = ledger.counts;
    Ok(Topology {
        components_drawing: drawing.ink.counting(),
        components_mark: components.counting,
        components_lost: lost,
        components_split: split,
        components_merged: merged,
        components_new: new,
        holes_drawing: drawing.ground.counting(),
        holes_mark: holes.counting,
        holes_closed: closed,
        holes_opened: opened,
        holes_split: parted,
        holes_merged: joined,
        holes_new: new_holes,
        components_ignored_drawing: drawing.ink.specks(),
        components_ignored_mark: components.ignored,
        holes_ignored_drawing: drawing.ground.specks(),
        holes_ignored_mark: holes.ignored,
    })
}

/// How many components a mark has.
struct OfMark {
    counting: u32,
    ignored: u32,
}

/// The ink of a mark, or its ground, and whom its components meet in the drawing.
#[derive(Default)]
struct Met<'w> {
    mark: Components<'w>,
    overlap: Overlap<'w>,
}

impl Parts<'_> {
    fn of(&self, part: Part) -> &Components<'_> {
        match part {
            Part::Ink => &self.ink,
            Part::Ground => &self.ground,
        }
    }
}

impl<'w> Met<'w> {
    fn find(
        drawing: &Parts,
        mark: &Bitmap,
        part: Part,
        room: &'w mut [u64],
        watch: &mut Watch,
    ) -> Result<Self, Error> {
        let mut workspace = Workspace::new(room, compare_words(mark.width(), mark.height()))?;
        let mark = label(mark, part, &mut workspace, &mut watch.part(0.0, 0.6))?;
        let overlap = Overlap::find(
            drawing.of(part),
            &mark,
            drawing.least_pixels,
            &mut workspace,
            &mut watch.part(0.6, 1.0),
        )?;
        Ok(Met { mark, overlap })
    }

    /// Notes what became of them. Tells how many components the mark has.
    fn tell(
        self,
        drawing: &Parts,
        part: Part,
        ledger: &mut Ledger,
        watch: &mut Watch,
    ) -> Result<OfMark, Error> {
        let Met { mark, overlap } = self;
        // The first is the outside.
        let ignored = overlap.of_mark.iter().skip(1).filter(|met| is_ignored(**met)).count() as u32;
        ledger.count(part, Side::Drawing, overlap.of_drawing);
        ledger.count(part, Side::Mark, overlap.of_mark);
        watch.done(0.0)?;
        if ledger.write(part, Side::Drawing, overlap.of_drawing) {
            ledger.measure(drawing.of(part), overlap.of_drawing, &mut watch.part(0.0, 0.5))?;
        }
        if ledger.write(part, Side::Mark, overlap.of_mark) {
            ledger.measure(&mark, overlap.of_mark, &mut watch.part(0.5, 1.0))?;
        }
        watch.done(1.0)?;
        Ok(OfMark { counting: mark.count() - ignored, ignored })
    }
}

/// Changes, counted by kind, and written as far as there is room.
struct Ledger<'c> {
    /// In the order of [`ChangeKind::ALL`].
    counts: [u32; 9],
    changes: &'c mut [Change],
}

impl Ledger<'_> {
    /// Counts what became of the components that met these; the first is the outside, of which nothing becomes.
    fn count(&mut self, part: Part, side: Side, met: &[u32]) {
        for kind in met.iter().skip(1).filter_map(|&met| what_became(part, side, met)) {
            if let Some(count) = self.counts.get_mut(kind.place()) {
                *count += 1;
            }
        }
    }

    /// Gives each change its place, and puts the number of the place, from 1, where there was what the component met;
    /// 0 if it did not change, or has no place. Tells whether any has a place.
    fn write(&mut self, part: Part, side: Side, table: &mut [u32]) -> bool {
        // The places of a kind follow those of the kinds before it.
        let mut next = [0; 9];
        let mut sum = 0;
        for (next, count) in next.iter_mut().zip(self.counts) {
            *next = sum;
            sum += count;
        }
        let mut any = false;
        for (label, met) in table.iter_mut().enumerate() {
            let kind = if label == 0 { None } else { what_became(part, side, *met) };
            *met = 0;
            let Some(kind) = kind else { continue };
            let Some(place) = next.get_mut(kind.place()) else { continue };
            if let Some(change) = self.changes.get_mut(*place as usize) {
                *change = Change { kind, ..Change::NONE };
                *met = *place + 1;
                any = true;
            }
            *place += 1;
        }
        any
    }

    /// Adds up pixels and boxes of the components that have a place.
    fn measure(&mut self, components: &Components, places: &[u32], watch: &mut Watch) -> Result<(), Error> {
        let height = components.height();
        let piece = rows_at_a_time(components.width());
        for first in (0..height).step_by(piece) {
            for y in first..height.min(first + piece) {
                for run in components.row(y) {
                    let place = places.get(run.label as usize).copied().unwrap_or_default() as usize;
                    // Place 0 stands for none.
                    if let Some(change) = self.changes.get_mut(place.wrapping_sub(1)) {
                        change.pixels += (run.end - run.start) as u32;
                        change.extent.add(y, run.start, run.end);
                    }
                }
            }
            watch.done(first as f64 / height as f64)?;
        }
        Ok(())
    }
}
