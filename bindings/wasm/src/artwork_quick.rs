//! Whether a drawing survives its preflight, at once where distances alone suffice to say so.

use crate::artwork_job::{Lists, Progress, bytes_of_words, job, room, watched};
use crate::exchange::answer;
use spotwise::artwork::{self, QuickAnswer, quick_answer_words};
use wasm_bindgen::prelude::wasm_bindgen;

/// As [`artwork::quick_answer`]; the numbers are those of a preflight without its options.
#[wasm_bindgen]
pub fn quick_answer(
    samples: &[u8],
    numbers: &[f64],
    x: &[f64],
    y: &[f64],
    z: &[f64],
    progress: Option<Progress>,
) -> u32 {
    let lists = Lists { samples, x, y, z };
    answer(watched(progress.as_ref(), |watch| {
        let preflight = job(lists, numbers)?;
        let mut words = room(quick_answer_words(&preflight, 1, &mut watch.part(0.0, 0.02))?, 0)?;
        Ok(layout(&artwork::quick_answer(&preflight, &mut words, &mut watch.part(0.02, 1.0))?))
    }))
}

/// Bytes that [`quick_answer`] takes of the module's memory, its inputs included.
#[wasm_bindgen]
pub fn quick_answer_bytes(samples: &[u8], numbers: &[f64], x: &[f64], y: &[f64], z: &[f64]) -> u32 {
    let lists = Lists { samples, x, y, z };
    answer(watched(None, |watch| {
        let words = quick_answer_words(&job(lists, numbers)?, 1, watch)?;
        Ok([samples.len() as f64 + bytes_of_words(words + x.len() + y.len() + z.len())])
    }))
}

fn layout(QuickAnswer { verdict, counts, light }: &QuickAnswer) -> [f64; 20] {
    let sums = [counts.unknown_ink_pixels, counts.far_ink].map(|count| count as f64);
    let parts = [
        *verdict as u32,
        counts.components,
        counts.components_lost,
        counts.components_maybe_lost,
        counts.components_maybe_split,
        counts.components_merged,
        counts.components_maybe_merged,
        counts.components_maybe_starved,
        counts.holes,
        counts.holes_closed,
        counts.holes_maybe_closed,
        counts.holes_opened,
        counts.holes_maybe_opened,
    ]
    .map(f64::from);
    let light = [
        light.greatest_spot_diameter,
        light.least_spot_diameter,
        light.least_dose_ratio,
        light.greatest_dose_ratio,
        light.line_interval,
    ];
    let mut all = [f64::NAN; 20];
    for (output, value) in all.iter_mut().zip(parts.iter().chain(&sums).chain(&light)) {
        *output = *value;
    }
    all
}
