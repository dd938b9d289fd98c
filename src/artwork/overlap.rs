//! Which components of a drawing and of its mark share pixels.

use super::Watch;
use super::changes::ChangeKind;
use super::components::Components;
use super::runs::{Part, rows_at_a_time, run_capacity};
use super::workspace::{Workspace, words_for};
use crate::error::Error;

/// Which of the two a component is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    Drawing,
    Mark,
}

/// For each label, the outside's first, whom it meets on the other side: the label of the one component that it meets,
/// or [`MANY`], or none; and [`OUTSIDE`] besides if it meets that.
pub(crate) struct Overlap<'w> {
    pub(crate) of_drawing: &'w mut [u32],
    pub(crate) of_mark: &'w mut [u32],
}

/// A bit that no label has.
const OUTSIDE: u32 = 1 << 31;
/// Greater than any label.
const MANY: u32 = OUTSIDE - 1;

/// Room for an [`Overlap`].
pub(crate) const fn overlap_words(width: usize, height: usize) -> usize {
    2 * words_for::<u32>(run_capacity(width, height) + 1)
}

impl<'w> Overlap<'w> {
    /// Looks at all pixels that both have.
    pub(crate) fn find(
        drawing: &Components,
        mark: &Components,
        workspace: &mut Workspace<'w>,
        watch: &mut Watch,
    ) -> Result<Self, Error> {
        let (width, height) = (drawing.width(), drawing.height());
        let of_drawing = workspace.take(drawing.count() as usize + 1)?;
        let of_mark = workspace.take(mark.count() as usize + 1)?;
        let mut overlap = Overlap { of_drawing, of_mark };
        let piece = rows_at_a_time(width);
        for first in (0..height).step_by(piece) {
            for y in first..height.min(first + piece) {
                overlap.add_row(drawing, mark, y);
            }
            watch.done(first as f64 / height as f64)?;
        }
        Ok(overlap)
    }

    fn add_row(&mut self, drawing: &Components, mark: &Components, y: usize) {
        let (mut of_drawing, mut of_mark) = (drawing.row(y), mark.row(y));
        let (mut next_drawing, mut next_mark) = (of_drawing.next(), of_mark.next());
        while let (Some(one), Some(other)) = (next_drawing, next_mark) {
            if one.start < other.end && other.start < one.end {
                meet(self.of_drawing, one.label, other.label);
                meet(self.of_mark, other.label, one.label);
            }
            if one.end < other.end {
                next_drawing = of_drawing.next();
            } else {
                next_mark = of_mark.next();
            }
        }
    }
}

/// Notes that a component meets another.
fn meet(table: &mut [u32], label: u32, other: u32) {
    if let Some(met) = table.get_mut(label as usize) {
        let one = *met & MANY;
        if other == 0 {
            *met |= OUTSIDE;
        } else if one == 0 {
            *met |= other;
        } else if one != other {
            *met |= MANY;
        }
    }
}

/// What became of a component that met these.
pub(crate) fn what_became(part: Part, side: Side, met: u32) -> Option<ChangeKind> {
    let (none, many) = (met & MANY == 0, met & MANY == MANY);
    match (part, side) {
        (Part::Ink, Side::Drawing) if none => Some(ChangeKind::ComponentLost),
        (Part::Ink, Side::Drawing) if many => Some(ChangeKind::ComponentSplit),
        (Part::Ink, Side::Mark) if none => Some(ChangeKind::ComponentNew),
        (Part::Ink, Side::Mark) if many => Some(ChangeKind::ComponentsMerged),
        (Part::Ground, Side::Drawing) if met & OUTSIDE != 0 => Some(ChangeKind::HoleOpened),
        (Part::Ground, Side::Drawing) if none => Some(ChangeKind::HoleClosed),
        (Part::Ground, Side::Drawing) if many => Some(ChangeKind::HoleSplit),
        (Part::Ground, Side::Mark) if none => Some(ChangeKind::HoleNew),
        (Part::Ground, Side::Mark) if many => Some(ChangeKind::HolesMerged),
        _ => None,
    }
}
