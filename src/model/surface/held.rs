//! The probability that a detail holds everywhere on a surface that strays.
//!
//! | symbol | meaning                                                                | unit |
//! |--------|------------------------------------------------------------------------|------|
//! | h      | offset from the waist up to which the finest stroke and gap hold       | m    |
//! | H, L   | highest and lowest place of the surface, from the waist, + away from the lens | m |
//! | X      | by how much the whole surface strays, + away from the lens             | m    |
//!
//! h by [`largest_spot_for_details`] and
//! [`offsets_for_diameter`](crate::model::focus::offsets_for_diameter); a spot grows alike on either side
//! everywhere: −h ≤ H + X and L + X ≤ h; at the highest place alone −h ≤ H + X ≤ h, at the lowest likewise
//! margin toward the lens h + H, away from it h − L; where their sum is negative the surface is too uneven
//!
//! The places between the highest and the lowest hold wherever those two do. The contributions move the surface
//! as a whole; what differs from place to place belongs into H and L.
//! Not modelled: the incidence angle, and what stretches the spot with it.

use super::odds::{Drawn, DrawnShare, OffsetOdds, Range, draw, normal_odds};
use super::random::Draws;
use super::tolerance::{Contribution, summed};
use crate::error::{Error, Param, check, check_within};
use crate::model::focus::offset_for_diameter;
use crate::model::mark::largest_spot_for_details;
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// The finest detail of a drawing, and the surface on which it is to hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceDetail {
    /// Width of the finest stroke in metres.
    pub finest_stroke: f64,
    /// Width of the finest gap in metres.
    pub finest_gap: f64,
    /// Fill dose over threshold dose.
    pub dose_ratio: f64,
    /// Place of the surface that should lie nearest to the lens: its z in metres from the waist, + away from
    /// the lens.
    pub highest_z: f64,
    /// Place that should lie farthest from the lens, likewise; at least `highest_z`.
    pub lowest_z: f64,
}

/// The probability that a detail holds at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaceOdds {
    /// As if the sum of the contributions were normal.
    pub probability: f64,
    /// Share of the cases drawn.
    pub drawn_share: f64,
}

/// The probability that a detail holds on a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DetailOdds {
    /// Whether the detail holds in the waist. If not, it holds nowhere: its probabilities are 0, and there are
    /// no margins.
    pub holds_in_waist: bool,
    /// By how much the surface may stray toward the lens, in metres; negative where its highest place lies too
    /// near it already. NaN where the detail does not hold in the waist.
    pub margin_toward_lens: f64,
    /// By how much the surface may stray away from the lens, in metres; negative where its lowest place lies too
    /// far from it already. NaN where the detail does not hold in the waist.
    pub margin_away_from_lens: f64,
    /// Everywhere on the surface: the limits of the offset are the two margins. The greater of
    /// `too_near_probability` and `too_far_probability` tells which side fails more; both are NaN where the
    /// detail does not hold in the waist.
    pub everywhere: OffsetOdds,
    /// At the highest place.
    pub at_highest: PlaceOdds,
    /// At the lowest place.
    pub at_lowest: PlaceOdds,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// The probability that the finest stroke and gap hold everywhere on a surface of given heights, which strays by
/// the sum of some contributions.
///
/// Formulas in the [module](self); the stack as [`tolerance_stack`](super::tolerance_stack), normal and drawn
/// probabilities as [`offset_odds`](super::offset_odds).
///
/// Accuracy: margins at most 3 ulp, times h·(1 + r²/(r² − 1)) over the margin, r being the largest spot over the waist;
/// probabilities as those of [`offset_odds`](super::offset_odds), and what the margins make of them
/// (`tests/vectors/detail_odds.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam; [`Error::OutsideModel`] if its half
/// angle exceeds 0.3 rad; then for stroke, gap, dose ratio, and the two places, of which the lowest must have the
/// greater z; then as [`offset_odds`](super::offset_odds) for contributions and draws.
///
/// # Example
/// ```
/// use spotwise::model::{optics::Beam, surface::*};
/// // Strokes and gaps of 60 µm at q = 2.7 hold up to a spot of √2·60 µm/0.633412 = 133.96 µm, which a waist of
/// // 88 µm reaches at 0.4782 mm·√((133.96/88)² − 1) = 0.5489 mm.
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let detail = SurfaceDetail {
///     finest_stroke: 60e-6,
///     finest_gap: 60e-6,
///     dose_ratio: 2.7,
///     highest_z: -0.2e-3,
///     lowest_z: 0.1e-3,
/// };
/// let bow = Contribution {
///     source: ToleranceSource::PartBow,
///     distribution: Distribution::Normal { half_width: 0.2e-3, coverage_factor: 1.0 },
///     mean: 0.0,
/// };
/// let odds = detail_odds(&beam, &detail, &[bow], Draws::of(1000, 3))?;
/// assert_eq!((odds.margin_toward_lens * 1e6).round(), 349.0);
/// assert_eq!((odds.margin_away_from_lens * 1e6).round(), 449.0);
/// // Of a normal law 4.06 % lie more than 349/200 deviations below and 1.24 % more than 449/200 above.
/// assert_eq!((odds.everywhere.too_near_probability * 1e4).round(), 406.0);
/// assert_eq!((odds.everywhere.too_far_probability * 1e4).round(), 124.0);
/// assert_eq!((odds.everywhere.probability * 1e4).round(), 9470.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn detail_odds(
    beam: &Beam,
    detail: &SurfaceDetail,
    contributions: &[Contribution],
    draws: Draws,
) -> Result<DetailOdds, Error> {
    detail_odds_of(beam, detail, contributions.iter().copied(), draws)
}

/// As [`detail_odds`], of contributions that the caller keeps in another form.
pub(crate) fn detail_odds_of(
    beam: &Beam,
    detail: &SurfaceDetail,
    contributions: impl Iterator<Item = Contribution> + Clone,
    draws: Draws,
) -> Result<DetailOdds, Error> {
    let beam = checked_beam(beam)?;
    let largest_spot = largest_spot_for_details(detail.finest_stroke, detail.finest_gap, detail.dose_ratio)?;
    let highest = check(Param::HighestZ, detail.highest_z)?;
    let (_, farthest) = Param::LowestZ.range();
    let lowest = check_within(Param::LowestZ, detail.lowest_z, highest, farthest)?;
    let stack = summed(contributions.clone())?;
    let draws = draws.checked()?;

    let holds_in_waist = largest_spot >= beam.waist_diameter;
    let half =
        if holds_in_waist { offset_for_diameter(&beam, largest_spot) } else { Twofold::from(f64::NAN) };
    let at =
        |z: f64| Range { toward_lens: -half - Twofold::from(z), away_from_lens: half - Twofold::from(z) };
    let (at_highest, at_lowest) = (at(highest), at(lowest));
    let everywhere = Range { toward_lens: at_highest.toward_lens, away_from_lens: at_lowest.away_from_lens };

    let ranges = [everywhere, at_highest, at_lowest];
    let Drawn { shares: [drawn, drawn_at_highest, drawn_at_lowest], offsets } =
        draw(contributions, &stack, &ranges, draws);
    let [normal, normal_at_highest, normal_at_lowest] = ranges.map(|range| normal_odds(&stack, &range));
    let possible = everywhere.is_possible();
    let place = |probability: f64, drawn: DrawnShare| PlaceOdds {
        probability: if holds_in_waist { probability } else { 0.0 },
        drawn_share: drawn.share,
    };
    Ok(DetailOdds {
        holds_in_waist,
        margin_toward_lens: (-everywhere.toward_lens).to_f64(),
        margin_away_from_lens: everywhere.away_from_lens.to_f64(),
        everywhere: OffsetOdds {
            probability: if possible { normal.within } else { 0.0 },
            too_near_probability: if holds_in_waist { normal.too_near } else { f64::NAN },
            too_far_probability: if holds_in_waist { normal.too_far } else { f64::NAN },
            drawn: if possible { drawn } else { DrawnShare::NEVER },
            offsets,
        },
        at_highest: place(normal_at_highest.within, drawn_at_highest),
        at_lowest: place(normal_at_lowest.within, drawn_at_lowest),
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    })
}
