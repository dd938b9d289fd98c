//! The functions of the list on tolerance stacks, called through the typed layer.

use super::{beam, bits, offset, unknown, z};
use spotwise::units::m;
use spotwise::*;

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
                z(s.bias),
                s.worst_half_width.value,
                z(s.worst_toward_lens),
                z(s.worst_away_from_lens),
                s.deviation.value,
                s.coverage_factor,
                s.expanded_half_width.value,
                z(s.expanded_toward_lens),
                z(s.expanded_away_from_lens),
                s.dominant.place as f64,
                s.dominant.share,
                s.widest.place as f64,
                s.widest.share,
            ]
        }
        "offset_odds" => {
            let limits = (offset(i[ALL])?, offset(i[ALL + 1])?);
            let draws = draws(i[ALL + 2], i[ALL + 3]);
            odds(&offset_odds(&contributions(&i[..ALL])?, limits.0, limits.1, draws)?)
        }
        "detail_odds" => {
            let (detail, rest) = i[3..].split_at(5);
            let fine = FinestDetail { stroke: m(detail[0]), gap: m(detail[1]) };
            let ends = SurfaceEnds { highest: offset(detail[3])?, lowest: offset(detail[4])? };
            let (them, draws) = (contributions(&rest[..ALL])?, draws(rest[ALL], rest[ALL + 1]));
            let found = beam(i)?.detail_odds(fine, detail[2], ends, &them, draws)?;
            let margin = |margin: Option<uom::si::f64::Length>| margin.map_or(f64::NAN, |m| m.value);
            let margins = [
                f64::from(found.holds_in_waist),
                margin(found.margin_toward_lens),
                margin(found.margin_away_from_lens),
            ];
            let places = [
                found.at_highest.probability,
                found.at_highest.drawn_share,
                found.at_lowest.probability,
                found.at_lowest.drawn_share,
                found.half_angle.value,
                bits(found.validity),
            ];
            [&margins[..], &odds(&found.everywhere), &places].concat()
        }
        _ => return Ok(None),
    }))
}

fn contributions(i: &[f64]) -> Result<Vec<Contribution>, Error> {
    i.chunks(NUMBERS)
        .map(|c| {
            let (half_width, coverage_factor) = (m(c[2]), c[3]);
            Ok(Contribution {
                source: ToleranceSource::from_code(c[0] as u32)?,
                distribution: match c[1] as u32 {
                    1 => Distribution::Uniform { half_width },
                    2 => Distribution::Triangular { half_width },
                    3 => Distribution::ArcSine { half_width },
                    4 => Distribution::TwoValued { half_width },
                    5 => Distribution::Normal { half_width, coverage_factor },
                    _ => return Err(unknown(Param::Distribution, c[1])),
                },
                mean: offset(c[4])?,
            })
        })
        .collect()
}

fn draws(count: f64, seed: f64) -> Draws {
    Draws { count: count as u32, seed: seed as u64 }
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
        z(o.offsets.mean),
        o.offsets.deviation.value,
        z(o.offsets.toward_lens),
        z(o.offsets.away_from_lens),
    ]
}
