//! Focus from test pieces that only an eye has judged.

use super::length;
use super::offset::Offset;
use crate::error::Error;
use crate::model::learn::{self, EyeWarnings, PieceRank, by_eye};
use crate::model::mark::MarkKind;
use uom::si::f64::Length;

/// A piece of a series of little power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeenPiece {
    /// Its height, from any datum, up to 1 km.
    pub height: Offset,
    /// Whether it shows a mark.
    pub seen: bool,
}

/// A piece that an eye has ranked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RankedPiece {
    /// Its height, from any datum, up to 1 km.
    pub height: Offset,
    /// How good it is.
    pub rank: PieceRank,
}

/// What is known of the eye and the light, and how sure the answer is to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeJudgement {
    /// Rayleigh range of the beam, as it is expected; it only turns the deviation into heights.
    pub rayleigh_range: Length,
    /// Relative standard deviation, 0 to 1: of ranks, by how much the same eye differs in the width of spot at which
    /// it changes its mind; of vanishing marks, by how much power and material differ from piece to piece. 0.05 is a
    /// steady hand, 0.1 a hasty one (our choice, no source).
    pub relative_deviation: f64,
    /// Share of all series whose focus the stated range is to hold, 0.01 to 1 − 1e-12.
    pub coverage_probability: f64,
}

impl EyeJudgement {
    fn as_model(self) -> learn::EyeJudgement {
        learn::EyeJudgement {
            rayleigh_range: self.rayleigh_range.value,
            relative_deviation: self.relative_deviation,
            coverage_probability: self.coverage_probability,
        }
    }
}

/// Focus height by an eye, counted from the datum of the pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeFocus {
    /// Height of focus.
    pub height: Offset,
    /// Its standard deviation.
    pub deviation: Length,
    /// The range for the coverage probability, its end toward the lens.
    pub toward_lens: Offset,
    /// Its end away from the lens.
    pub away_from_lens: Offset,
}

impl EyeFocus {
    fn from_model(focus: learn::EyeFocus) -> Self {
        Self {
            height: Offset::from_metres(focus.focus_z),
            deviation: length(focus.focus_z_deviation),
            toward_lens: Offset::from_metres(focus.least_z),
            away_from_lens: Offset::from_metres(focus.greatest_z),
        }
    }
}

/// One end of a run of good pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunEnd {
    /// Its height.
    pub height: Offset,
    /// Its standard deviation.
    pub deviation: Length,
}

impl RunEnd {
    fn from_model(end: learn::RunEnd) -> Self {
        Self { height: Offset::from_metres(end.z), deviation: length(end.deviation) }
    }
}

/// Focus from where marks vanish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VanishingFocus {
    /// Where focus is.
    pub focus: EyeFocus,
    /// Where the mark vanishes toward the lens.
    pub toward_lens: RunEnd,
    /// Where it vanishes away from the lens.
    pub away_from_lens: RunEnd,
    /// From focus to either; its deviation is that of focus.
    pub half_run: Length,
    /// Dose in focus over threshold dose, by the Rayleigh range.
    pub dose_ratio: f64,
    /// What to beware of.
    pub warnings: EyeWarnings,
}

/// Focus and usable range from ranks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RankFocus {
    /// Where focus is.
    pub focus: EyeFocus,
    /// End of the run of acceptable pieces or better, toward the lens; none unless the run is bounded on both sides.
    pub usable_toward_lens: Option<RunEnd>,
    /// Its end away from the lens, likewise.
    pub usable_away_from_lens: Option<RunEnd>,
    /// Half of the run of sharp pieces; none if no piece is.
    pub sharp_half_run: Option<Length>,
    /// What to beware of.
    pub warnings: EyeWarnings,
}

/// Focus height from a series of little power, of which only the pieces near focus show a mark; in any order. As
/// [`model::learn::focus_from_vanishing`](crate::model::learn::focus_from_vanishing).
///
/// # Errors
/// As there: [`Error::Undetermined`] if no piece shows a mark, and if there is none without a mark on one side.
///
/// # Example
/// ```
/// use spotwise::model::mark::MarkKind;
/// use spotwise::units::mm;
/// use spotwise::{EyeJudgement, Offset, SeenPiece, focus_from_vanishing};
/// let pieces: [SeenPiece; 9] = core::array::from_fn(|i| SeenPiece {
///     height: Offset::away_from_lens(mm(0.1 * i as f64)).unwrap(),
///     seen: (2..=6).contains(&i),
/// });
/// let judgement =
///     EyeJudgement { rayleigh_range: mm(0.5), relative_deviation: 0.05, coverage_probability: 0.95 };
/// let found = focus_from_vanishing(&pieces, MarkKind::Line, judgement)?;
/// // Ends at 0.15 and 0.65 mm.
/// assert_eq!((found.focus.height.z_away_from_lens().value * 1e9).round(), 400_000.0);
/// assert_eq!((found.half_run.value * 1e9).round(), 250_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn focus_from_vanishing(
    pieces: &[SeenPiece],
    kind: MarkKind,
    judgement: EyeJudgement,
) -> Result<VanishingFocus, Error> {
    let height = |place: usize| pieces.get(place).map_or(f64::NAN, |piece| piece.height.metres());
    let seen = |place: usize| pieces.get(place).is_some_and(|piece| piece.seen);
    let count = pieces.len();
    let found = by_eye::vanishing_of(count, height, count, seen, kind, &judgement.as_model())?;
    Ok(VanishingFocus {
        focus: EyeFocus::from_model(found.focus),
        toward_lens: RunEnd::from_model(found.toward_lens),
        away_from_lens: RunEnd::from_model(found.away_from_lens),
        half_run: length(found.half_run),
        dose_ratio: found.dose_ratio,
        warnings: found.warnings,
    })
}

/// Focus height and usable range from the ranks of a series of pieces; in any order. As
/// [`model::learn::focus_from_ranks`](crate::model::learn::focus_from_ranks).
///
/// # Errors
/// As there: [`Error::Undetermined`] if no piece is good enough, and if the good ones are not bounded on both sides.
///
/// # Example
/// ```
/// use spotwise::PieceRank::{Acceptable, Poor, Sharp};
/// use spotwise::units::mm;
/// use spotwise::{EyeJudgement, Offset, RankedPiece, focus_from_ranks};
/// let ranks = [Poor, Poor, Acceptable, Sharp, Sharp, Acceptable, Acceptable, Poor, Poor];
/// let pieces: [RankedPiece; 9] = core::array::from_fn(|i| RankedPiece {
///     height: Offset::away_from_lens(mm(0.2 * i as f64)).unwrap(),
///     rank: ranks[i],
/// });
/// let judgement =
///     EyeJudgement { rayleigh_range: mm(0.5), relative_deviation: 0.1, coverage_probability: 0.95 };
/// let found = focus_from_ranks(&pieces, judgement)?;
/// // Sharp from 0.5 to 0.9 mm, acceptable from 0.3 to 1.3 mm: midway 0.7 and 0.8 mm.
/// assert_eq!((found.focus.height.z_away_from_lens().value * 1e9).round(), 750_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn focus_from_ranks(pieces: &[RankedPiece], judgement: EyeJudgement) -> Result<RankFocus, Error> {
    let height = |place: usize| pieces.get(place).map_or(f64::NAN, |piece| piece.height.metres());
    let rank = |place: usize| pieces.get(place).map_or(PieceRank::Poor, |piece| piece.rank);
    let count = pieces.len();
    let found = by_eye::ranks_of(count, height, count, rank, &judgement.as_model())?;
    Ok(RankFocus {
        focus: EyeFocus::from_model(found.focus),
        usable_toward_lens: found.usable_toward_lens.map(RunEnd::from_model),
        usable_away_from_lens: found.usable_away_from_lens.map(RunEnd::from_model),
        sharp_half_run: found.sharp_half_run.map(length),
        warnings: found.warnings,
    })
}
