//! Tolerance stacks, and what holds in spite of them.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::optics::Beam;
use spotwise::model::surface::{
    self, Contribution, DetailOdds, Distribution, Draws, OffsetOdds, SurfaceDetail, ToleranceSource,
};
use wasm_bindgen::prelude::wasm_bindgen;

/// Numbers of one contribution: source, distribution, half width, coverage factor, mean.
const CONTRIBUTION: usize = 5;

/// As [`surface::tolerance_stack`]; `contributions` holds five numbers for each.
#[wasm_bindgen]
pub fn tolerance_stack(contributions: &[f64], coverage_probability: f64) -> u32 {
    let stack =
        || -> Result<_, Error> { surface::tolerance_stack(&read(contributions)?, coverage_probability) };
    answer(stack().map(|s| {
        [
            s.bias,
            s.worst_half_width,
            s.worst_toward_lens_z,
            s.worst_away_from_lens_z,
            s.deviation,
            s.coverage_factor,
            s.expanded_half_width,
            s.expanded_toward_lens_z,
            s.expanded_away_from_lens_z,
            f64::from(s.dominant),
            s.dominant_share,
            f64::from(s.widest),
            s.widest_share,
        ]
    }))
}

/// As [`surface::offset_odds`]; `contributions` holds five numbers for each.
#[wasm_bindgen]
pub fn offset_odds(
    contributions: &[f64],
    toward_lens_z: f64,
    away_from_lens_z: f64,
    draws: f64,
    seed: f64,
) -> u32 {
    let odds = || -> Result<_, Error> {
        let draws = Draws { count: draws, seed };
        surface::offset_odds(&read(contributions)?, toward_lens_z, away_from_lens_z, draws)
    };
    answer(odds().map(|o| layout(&o)))
}

/// As [`surface::detail_odds`]; `contributions` holds five numbers for each.
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn detail_odds(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    finest_stroke: f64,
    finest_gap: f64,
    dose_ratio: f64,
    highest_z: f64,
    lowest_z: f64,
    contributions: &[f64],
    draws: f64,
    seed: f64,
) -> u32 {
    let odds = || -> Result<_, Error> {
        let beam = Beam { wavelength, m2, waist_diameter };
        let detail = SurfaceDetail { finest_stroke, finest_gap, dose_ratio, highest_z, lowest_z };
        surface::detail_odds(&beam, &detail, &read(contributions)?, Draws { count: draws, seed })
    };
    answer(odds().map(|o| detail_layout(&o)))
}

/// Margins, odds everywhere, odds at the two places, flags.
fn detail_layout(o: &DetailOdds) -> [f64; 20] {
    let mut all = [f64::NAN; 20];
    let margins = [f64::from(o.holds_in_waist), o.margin_toward_lens, o.margin_away_from_lens];
    let places = [o.at_highest, o.at_lowest].map(|place| [place.probability, place.drawn_share]);
    let cone = [o.half_angle, flags(o.validity)];
    let parts: [&[f64]; 4] = [&margins, &layout(&o.everywhere), places.as_flattened(), &cone];
    for (output, value) in all.iter_mut().zip(parts.into_iter().flatten()) {
        *output = *value;
    }
    all
}

fn read(contributions: &[f64]) -> Result<Vec<Contribution>, Error> {
    let (contributions, _) = contributions.as_chunks::<CONTRIBUTION>();
    contributions
        .iter()
        .map(|[source, distribution, half_width, coverage_factor, mean]| {
            // The codes come from the TypeScript, as small whole numbers.
            Ok(Contribution {
                source: ToleranceSource::from_code(*source as u32)?,
                distribution: Distribution::from_code(*distribution as u32, *half_width, *coverage_factor)?,
                mean: *mean,
            })
        })
        .collect()
}

fn layout(o: &OffsetOdds) -> [f64; 11] {
    [
        o.probability,
        o.too_near_probability,
        o.too_far_probability,
        o.drawn.share,
        o.drawn.standard_error,
        o.drawn.least,
        o.drawn.greatest,
        o.offsets.mean,
        o.offsets.deviation,
        o.offsets.least_z,
        o.offsets.greatest_z,
    ]
}
