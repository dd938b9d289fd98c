//! Specks: pieces and holes so small that nothing is said of them.
//!
//! A bare pixel within a letter of a scan is a hole as any other, and gets filled. So that it does not tell that the
//! drawing is lost, the caller says how large a piece or hole must be to count. A smaller one of the drawing is a speck,
//! by its own pixels: those of the holes in a piece do not count with it, nor those of what stands in a hole. Of the mark
//! what only specks belong to is left out with them, however large it is, and so is what belongs to nothing and
//! is itself smaller. What belongs to a piece, or a hole, that counts is never left out: a letter that falls into crumbs
//! is split, however small they are.
//!
//! So a greater least size never tells of more changes than a smaller one.

use super::Watch;
use super::components::Components;
use super::runs::{rows_at_a_time, run_capacity};
use super::workspace::words_for;
use crate::error::Error;
use crate::model::math;

/// So much of a pixel may be missing for the last digits of areas.
const ROUNDED: f64 = 4e-12;

/// Least pixels of what counts, where that has at least this area.
pub(crate) fn least_pixels(area: f64, pixel_area: f64) -> u32 {
    let pixels = math::ceil(area / pixel_area * (1.0 - ROUNDED));
    if pixels < f64::from(u32::MAX) { pixels as u32 } else { u32::MAX }
}

/// Room for the pixels of each component of a mask, in 64-bit words.
pub(crate) const fn sizes_words(width: usize, height: usize) -> usize {
    words_for::<u32>(run_capacity(width, height) + 1)
}

/// Adds up the pixels of every component in the place of its label; 0 before.
pub(crate) fn add_sizes(components: &Components, sizes: &mut [u32], watch: &mut Watch) -> Result<(), Error> {
    let height = components.height();
    let piece = rows_at_a_time(components.width());
    for first in (0..height).step_by(piece) {
        for y in first..height.min(first + piece) {
            for run in components.row(y) {
                if let Some(size) = sizes.get_mut(run.label as usize) {
                    *size += (run.end - run.start) as u32;
                }
            }
        }
        watch.done(first as f64 / height as f64)?;
    }
    Ok(())
}

/// Turns the sizes of components into labels that put those that count before all others, each in their old order. Tells
/// how many do not count. The first place is the outside's, which stays what it is.
pub(crate) fn sizes_to_labels(sizes: &mut [u32], least_pixels: u32) -> u32 {
    let counts = |size: u32| size >= least_pixels;
    let sizes = sizes.get_mut(1..).unwrap_or_default();
    let counting = sizes.iter().filter(|&&size| counts(size)).count() as u32;
    let (mut next, mut next_speck) = (1, counting + 1);
    for label in &mut *sizes {
        let next = if counts(*label) { &mut next } else { &mut next_speck };
        *label = *next;
        *next += 1;
    }
    sizes.len() as u32 - counting
}
