//! A tolerance stack, and the probability that a detail holds in spite of it.

use super::beam::Beam;
use super::detail::FinestDetail;
use super::offset::Offset;
use super::{angle, known, length};
use crate::error::Error;
use crate::model::surface::{self, DetailOdds as ModelDetailOdds, OffsetOdds as ModelOffsetOdds};
use crate::model::surface::{DrawnShare, PlaceOdds, ToleranceSource};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// How a contribution strays about its mean, as
/// [`model::surface::Distribution`](crate::model::surface::Distribution). Half widths are 0 to 1000 m.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Distribution {
    /// Anywhere within ± the half width, alike: all that is known is a limit.
    Uniform {
        /// Half width.
        half_width: Length,
    },
    /// Within ± the half width, more often in the middle.
    Triangular {
        /// Half width.
        half_width: Length,
    },
    /// As a swing of this amplitude that is met at any moment.
    ArcSine {
        /// Half width.
        half_width: Length,
    },
    /// By − or + the half width, either as often, as backlash that is not taken up.
    TwoValued {
        /// Half width.
        half_width: Length,
    },
    /// By a normal law.
    Normal {
        /// Half width; that many deviations as the coverage factor says.
        half_width: Length,
        /// Half width over standard deviation, 1 to 10; 2 in most certificates.
        coverage_factor: f64,
    },
}

impl Distribution {
    fn as_model(self) -> surface::Distribution {
        match self {
            Self::Uniform { half_width } => surface::Distribution::Uniform { half_width: half_width.value },
            Self::Triangular { half_width } => {
                surface::Distribution::Triangular { half_width: half_width.value }
            }
            Self::ArcSine { half_width } => surface::Distribution::ArcSine { half_width: half_width.value },
            Self::TwoValued { half_width } => {
                surface::Distribution::TwoValued { half_width: half_width.value }
            }
            Self::Normal { half_width, coverage_factor } => {
                surface::Distribution::Normal { half_width: half_width.value, coverage_factor }
            }
        }
    }
}

/// One contribution to a tolerance stack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contribution {
    /// What makes the surface stray.
    pub source: ToleranceSource,
    /// How it strays about its mean.
    pub distribution: Distribution,
    /// A known error that nobody corrects, up to 1000 m; [`Offset::ZERO`] for most.
    pub mean: Offset,
}

impl Contribution {
    fn as_model(&self) -> surface::Contribution {
        surface::Contribution {
            source: self.source,
            distribution: self.distribution.as_model(),
            mean: self.mean.metres(),
        }
    }
}

/// The contributions in the terms of the model.
fn in_model(contributions: &[Contribution]) -> impl Iterator<Item = surface::Contribution> + Clone {
    contributions.iter().map(Contribution::as_model)
}

/// How many cases to draw, and from which seed. The same draws give the same numbers on every face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Draws {
    /// How many cases are drawn, 10 to 10 000 000. The standard error of a probability falls with its root.
    pub count: u32,
    /// Any whole number below 2⁵³, which is what every face can hold.
    pub seed: u64,
}

impl Draws {
    fn as_model(self) -> surface::Draws {
        surface::Draws::of(self.count, self.seed)
    }
}

/// The contribution that is greatest of a stack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GreatestContribution {
    /// Its place in the list, from 0; the first of equals.
    pub place: usize,
    /// Its share of the whole; 0 where nothing strays.
    pub share: f64,
}

/// A tolerance stack, added up. Offsets count from where the surface should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToleranceStack {
    /// Sum of the means: where the surface is expected.
    pub bias: Offset,
    /// Sum of the half widths.
    pub worst_half_width: Length,
    /// Farthest toward the lens in the worst case.
    pub worst_toward_lens: Offset,
    /// Farthest away from the lens in the worst case.
    pub worst_away_from_lens: Offset,
    /// Combined standard deviation.
    pub deviation: Length,
    /// Half width over deviation for the coverage probability, of a normal sum.
    pub coverage_factor: f64,
    /// Coverage factor times combined deviation.
    pub expanded_half_width: Length,
    /// Expanded interval, its end toward the lens.
    pub expanded_toward_lens: Offset,
    /// Expanded interval, its end away from the lens.
    pub expanded_away_from_lens: Offset,
    /// The contribution with the greatest variance, and its share of the variance.
    pub dominant: GreatestContribution,
    /// The contribution with the greatest half width, and its share of the worst case.
    pub widest: GreatestContribution,
}

/// What was drawn of the surface's offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnOffsets {
    /// Mean.
    pub mean: Offset,
    /// Standard deviation.
    pub deviation: Length,
    /// The one that lay farthest toward the lens.
    pub toward_lens: Offset,
    /// The one that lay farthest away from the lens.
    pub away_from_lens: Offset,
}

/// The probability that the surface stays within limits, as
/// [`model::surface::OffsetOdds`](crate::model::surface::OffsetOdds).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OffsetOdds {
    /// Probability of both limits, as if the sum were normal.
    pub probability: f64,
    /// Probability that the surface lies too near the lens, as if the sum were normal; NaN where a detail does
    /// not even hold in the waist.
    pub too_near_probability: f64,
    /// Probability that the surface lies too far from the lens, likewise.
    pub too_far_probability: f64,
    /// Share of the cases drawn that kept both limits.
    pub drawn: DrawnShare,
    /// The offsets drawn.
    pub offsets: DrawnOffsets,
}

impl OffsetOdds {
    fn from_model(odds: ModelOffsetOdds) -> Self {
        Self {
            probability: odds.probability,
            too_near_probability: odds.too_near_probability,
            too_far_probability: odds.too_far_probability,
            drawn: odds.drawn,
            offsets: DrawnOffsets {
                mean: Offset::from_metres(odds.offsets.mean),
                deviation: length(odds.offsets.deviation),
                toward_lens: Offset::from_metres(odds.offsets.least_z),
                away_from_lens: Offset::from_metres(odds.offsets.greatest_z),
            },
        }
    }
}

/// Where the highest and the lowest place of a surface should lie, from the waist; of a focus yet to be set, from a
/// datum of the caller's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceEnds {
    /// The place nearest to the lens.
    pub highest: Offset,
    /// The place farthest from the lens.
    pub lowest: Offset,
}

/// The probability that a detail holds on a surface, as
/// [`model::surface::DetailOdds`](crate::model::surface::DetailOdds).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DetailOdds {
    /// Whether the detail holds in the waist; if not, all its probabilities are 0.
    pub holds_in_waist: bool,
    /// By how much the surface may stray toward the lens; negative where its highest place lies too near it
    /// already. None where the detail does not hold in the waist.
    pub margin_toward_lens: Option<Length>,
    /// By how much the surface may stray away from the lens, likewise.
    pub margin_away_from_lens: Option<Length>,
    /// Everywhere on the surface.
    pub everywhere: OffsetOdds,
    /// At the highest place.
    pub at_highest: PlaceOdds,
    /// At the lowest place.
    pub at_lowest: PlaceOdds,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl DetailOdds {
    fn from_model(odds: ModelDetailOdds) -> Self {
        Self {
            holds_in_waist: odds.holds_in_waist,
            margin_toward_lens: known(odds.margin_toward_lens).map(length),
            margin_away_from_lens: known(odds.margin_away_from_lens).map(length),
            everywhere: OffsetOdds::from_model(odds.everywhere),
            at_highest: odds.at_highest,
            at_lowest: odds.at_lowest,
            half_angle: angle(odds.half_angle),
            validity: odds.validity,
        }
    }
}

/// Adds up a tolerance stack: worst case, combined deviation, and the half width that covers this share of all
/// cases. As [`model::surface::tolerance_stack`](crate::model::surface::tolerance_stack).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a contribution or the coverage probability, 0.01 to
/// 1 − 1e-12; [`Error::Undetermined`] without any contribution.
///
/// # Example
/// ```
/// use spotwise::units::mm;
/// use spotwise::{Contribution, Distribution, Offset, ToleranceSource, tolerance_stack};
/// let uniform = |source, half_width| Contribution {
///     source,
///     distribution: Distribution::Uniform { half_width: mm(half_width) },
///     mean: Offset::ZERO,
/// };
/// let stack = tolerance_stack(
///     &[uniform(ToleranceSource::PartBow, 0.3), uniform(ToleranceSource::Thickness, 0.1)],
///     0.95,
/// )?;
/// assert_eq!((stack.worst_half_width.value * 1e9).round(), 400_000.0);
/// assert_eq!((stack.deviation.value * 1e9).round(), 182_574.0); // √((0.3² + 0.1²)/3) mm
/// assert_eq!((stack.dominant.place, (stack.dominant.share * 1e9).round()), (0, 9e8)); // 0.3²/(0.3² + 0.1²)
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "RSS")]
#[doc(alias = "error budget")]
pub fn tolerance_stack(
    contributions: &[Contribution],
    coverage_probability: f64,
) -> Result<ToleranceStack, Error> {
    let stack = surface::tolerance::tolerance_stack_of(in_model(contributions), coverage_probability)?;
    Ok(ToleranceStack {
        bias: Offset::from_metres(stack.bias),
        worst_half_width: length(stack.worst_half_width),
        worst_toward_lens: Offset::from_metres(stack.worst_toward_lens_z),
        worst_away_from_lens: Offset::from_metres(stack.worst_away_from_lens_z),
        deviation: length(stack.deviation),
        coverage_factor: stack.coverage_factor,
        expanded_half_width: length(stack.expanded_half_width),
        expanded_toward_lens: Offset::from_metres(stack.expanded_toward_lens_z),
        expanded_away_from_lens: Offset::from_metres(stack.expanded_away_from_lens_z),
        dominant: GreatestContribution { place: stack.dominant as usize, share: stack.dominant_share },
        widest: GreatestContribution { place: stack.widest as usize, share: stack.widest_share },
    })
}

/// The probability that the offset of the surface stays between two limits. As
/// [`model::surface::offset_odds`](crate::model::surface::offset_odds).
///
/// # Errors
/// As [`tolerance_stack`] for the contributions; [`Error::OutOfRange`] for limits in the wrong order, and for a
/// count or seed of [`Draws`] that is not allowed.
///
/// # Example
/// ```
/// use spotwise::units::mm;
/// use spotwise::{Contribution, Distribution, Draws, Offset, ToleranceSource, offset_odds};
/// let gauge = Contribution {
///     source: ToleranceSource::HeightGauge,
///     distribution: Distribution::Normal { half_width: mm(0.1), coverage_factor: 1.0 },
///     mean: Offset::ZERO,
/// };
/// let (near, far) = (Offset::toward_lens(mm(0.1))?, Offset::away_from_lens(mm(0.2))?);
/// let odds = offset_odds(&[gauge], near, far, Draws { count: 1000, seed: 1 })?;
/// // Φ(2) − Φ(−1) = 0.97725 − 0.15866.
/// assert_eq!((odds.probability * 1e4).round(), 8186.0);
/// assert!((odds.drawn.least..=odds.drawn.greatest).contains(&0.8186));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "Monte Carlo")]
pub fn offset_odds(
    contributions: &[Contribution],
    toward_lens: Offset,
    away_from_lens: Offset,
    draws: Draws,
) -> Result<OffsetOdds, Error> {
    let limits = (toward_lens.metres(), away_from_lens.metres());
    let odds = surface::odds::offset_odds_of(in_model(contributions), limits.0, limits.1, draws.as_model())?;
    Ok(OffsetOdds::from_model(odds))
}

impl Beam {
    /// The probability that the finest stroke and gap hold everywhere on a surface that strays by the sum of
    /// some contributions; `dose_ratio` is fill dose over threshold dose. As
    /// [`model::surface::detail_odds`](crate::model::surface::detail_odds).
    ///
    /// # Errors
    /// As there: [`Error::OutOfRange`] also where the lowest place lies nearer the lens than the highest.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{
    ///     Beam, BeamParts, BeamWidth, Contribution, Distribution, Draws, FinestDetail, Offset, SurfaceEnds,
    ///     ToleranceSource,
    /// };
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// let fine = FinestDetail { stroke: um(60.0), gap: um(60.0) };
    /// let flat = SurfaceEnds { highest: Offset::ZERO, lowest: Offset::ZERO };
    /// let bow = Contribution {
    ///     source: ToleranceSource::PartBow,
    ///     distribution: Distribution::Uniform { half_width: mm(0.5) },
    ///     mean: Offset::ZERO,
    /// };
    /// let odds = beam.detail_odds(fine, 2.7, flat, &[bow], Draws { count: 100, seed: 1 })?;
    /// // It holds within ± 0.549 mm (see the model), and nothing strays so far.
    /// assert_eq!((odds.margin_toward_lens.unwrap().value * 1e6).round(), 549.0);
    /// assert_eq!(odds.everywhere.drawn.share, 1.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn detail_odds(
        &self,
        detail: FinestDetail,
        dose_ratio: f64,
        surface: SurfaceEnds,
        contributions: &[Contribution],
        draws: Draws,
    ) -> Result<DetailOdds, Error> {
        let detail = surface::SurfaceDetail {
            finest_stroke: detail.stroke.value,
            finest_gap: detail.gap.value,
            dose_ratio,
            highest_z: surface.highest.metres(),
            lowest_z: surface.lowest.metres(),
        };
        let odds = surface::held::detail_odds_of(
            self.as_model(),
            &detail,
            in_model(contributions),
            draws.as_model(),
        )?;
        Ok(DetailOdds::from_model(odds))
    }
}
