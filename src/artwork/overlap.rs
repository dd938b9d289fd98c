//! Which components of a drawing and of its mark share pixels.

use super::Watch;
use super::changes::ChangeKind;
use super::components::Components;
use super::runs::{Part, rows_at_a_time, run_capacity};
use super::specks::add_sizes;
use super::workspace::{Workspace, words_for};
use crate::error::Error;

/// Which of the two a component is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    Drawing,
    Mark,
}

/// For each label, the outside's first, whom it meets on the other side: the label of the one component that it meets,
/// or [`MANY`], or none; and [`OUTSIDE`] besides if it meets that. A component of the mark that meets specks has
/// [`SPECKS`] instead of them, and one that is smaller than what counts has [`SMALL`].
#[derive(Default)]
pub(crate) struct Overlap<'w> {
    pub(crate) of_drawing: &'w mut [u32],
    pub(crate) of_mark: &'w mut [u32],
}

/// A bit that no label has.
const OUTSIDE: u32 = 1 << 31;
const SPECKS: u32 = 1 << 30;
const SMALL: u32 = 1 << 29;
/// Greater than any label.
const MANY: u32 = SMALL - 1;

/// Room for an [`Overlap`].
pub(crate) const fn overlap_words(width: usize, height: usize) -> usize {
    2 * words_for::<u32>(run_capacity(width, height) + 1)
}

impl<'w> Overlap<'w> {
    /// Looks at all pixels that both have. Of the mark, what has fewer pixels than the least is small.
    pub(crate) fn find(
        drawing: &Components,
        mark: &Components,
        least_pixels: u32,
        workspace: &mut Workspace<'w>,
        watch: &mut Watch,
    ) -> Result<Self, Error> {
        let (width, height) = (drawing.width(), drawing.height());
        // Specks of the drawing have the last labels, and no place here.
        let of_drawing = workspace.take(drawing.counting() as usize + 1)?;
        let of_mark = workspace.take(mark.count() as usize + 1)?;
        // Every component has a pixel.
        let sized = if least_pixels > 1 { 0.3 } else { 0.0 };
        if least_pixels > 1 {
            add_sizes(mark, of_mark, &mut watch.part(0.0, sized))?;
            for met in &mut *of_mark {
                *met = if *met < least_pixels { SMALL } else { 0 };
            }
        }
        let watch = &mut watch.part(sized, 1.0);
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
                let one = if one.label > drawing.counting() { SPECKS } else { one.label };
                meet(self.of_mark, other.label, one);
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
        } else if other == SPECKS {
            *met |= SPECKS;
        } else if one == 0 {
            *met |= other;
        } else if one != other {
            *met |= MANY;
        }
    }
}

/// Whether a component of the mark is left out: what met specks alone, or nothing and is small.
pub(crate) fn is_ignored(met: u32) -> bool {
    met & MANY == 0 && met & (SPECKS | SMALL) != 0
}

/// What became of a component that counts and met these.
pub(crate) fn what_became(part: Part, side: Side, met: u32) -> Option<ChangeKind> {
    let (none, many) = (met & MANY == 0, met & MANY == MANY);
    match (part, side) {
        (_, Side::Mark) if is_ignored(met) => None,
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
