//! The functions of the list on tolerance stacks, called through the model.

use super::{beam, bits};
use spotwise::Error;
use spotwise::model::surface::{
    Contribution, Distribution, Draws, OffsetOdds, SurfaceDetail, ToleranceSource, detail_odds, offset_odds,
    tolerance_stack,
};

/// Numbers of one contribution.
const NUMBERS: usize = 5;
/// Numbers of all contributions of a row.
const ALL: usize = 4 * NUMBERS;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "tolerance_stack" => {
            let s = tolerance_stack(&contributions(&i[..ALL])?, i[ALL])?;
            vec![
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
        }
        "offset_odds" => {
            let [toward, away, count, seed] = [i[ALL], i[ALL + 1], i[ALL + 2], i[ALL + 3]];
            odds(&offset_odds(&contributions(&i[..ALL])?, toward, away, Draws { count, seed })?)
        }
        "detail_odds" => {
            let (detail, rest) = i[3..].split_at(5);
            let detail = SurfaceDetail {
                finest_stroke: detail[0],
                finest_gap: detail[1],
                dose_ratio: detail[2],
                highest_z: detail[3],
                lowest_z: detail[4],
            };
            let (them, draws) =
                (contributions(&rest[..ALL])?, Draws { count: rest[ALL], seed: rest[ALL + 1] });
            let found = detail_odds(&beam(i), &detail, &them, draws)?;
            let margins =
                [f64::from(found.holds_in_waist), found.margin_toward_lens, found.margin_away_from_lens];
            let places = [
                found.at_highest.probability,
                found.at_highest.drawn_share,
                found.at_lowest.probability,
                found.at_lowest.drawn_share,
                found.half_angle,
                bits(found.validity),
            ];
            [&margins[..], &odds(&found.everywhere), &places].concat()
        }
        _ => return Ok(None),
    }))
}

/// As the faces do: every choice is read before any number.
fn contributions(i: &[f64]) -> Result<Vec<Contribution>, Error> {
    i.chunks(NUMBERS)
        .map(|c| {
            Ok(Contribution {
                source: ToleranceSource::from_code(c[0] as u32)?,
                distribution: Distribution::from_code(c[1] as u32, c[2], c[3])?,
                mean: c[4],
            })
        })
        .collect()
}

fn odds(o: &OffsetOdds) -> Vec<f64> {
    vec![
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
