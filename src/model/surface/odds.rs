//! The probability that the surface stays within limits, by a normal sum and by drawing.
//!
//! | symbol | meaning                                                        | unit |
//! |--------|----------------------------------------------------------------|------|
//! | A, B   | limits of the offset, toward the lens and away from it         | m    |
//! | μ, σ   | bias and combined deviation of the [stack](super::tolerance)   | m    |
//! | x, y   | (A − μ)/(√2·σ) and (B − μ)/(√2·σ)                              | 1    |
//! | N, h   | cases drawn, and those of them within the limits               | 1    |
//! | z      | 1.959964, the normal deviate of 95 %                           | 1    |
//!
//! As if the sum were normal, which it is the more, the more like contributions it has:   \[1\]
//! within ½·(erf(y) − erf(x)), too near the lens ½·erfc(−x), too far from it ½·erfc(y)
//!
//! Drawn, from the distributions as they are ([`random`](super::random)):   \[2\]
//! share h/N, its standard error √(h·(N − h)/N)/N
//! its 95 % interval, by E. B. Wilson: the shares s for which (h/N − s)² = z²·s·(1 − s)/N   \[3\]
//!
//! Where both disagree, the drawn share is right to its standard error, and the normal one tells the far tails
//! that no number of draws would show; for contributions with an end it tells too much there.
//!
//! \[1\] JCGM 100:2008 (GUM), G.2: the central limit theorem. \[2\] JCGM 101:2008, propagation of distributions by
//! a Monte Carlo method. \[3\] E. B. Wilson, *Journal of the American Statistical Association* 22, 209 (1927). All
//! from memory.

use super::random::{Draws, Generator};
use super::tolerance::{Contribution, Summed, summed};
use crate::error::{Error, Param, check, check_within};
use crate::model::mark::erf_along;
use crate::model::math;
use crate::model::twofold::Twofold;
use core::f64::consts::FRAC_1_SQRT_2;

/// A share of the cases drawn, and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnShare {
    /// Cases that were within the limits, over those drawn.
    pub share: f64,
    /// Standard error of the share; 0 if all cases agree, which the interval does not take for certain.
    pub standard_error: f64,
    /// Least share that goes with the draws, of the 95 % interval.
    pub least: f64,
    /// Greatest share that goes with the draws, of the 95 % interval.
    pub greatest: f64,
}

/// What was drawn of the surface's offset, + away from the lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnOffsets {
    /// Mean in metres.
    pub mean: f64,
    /// Standard deviation in metres, of N − 1 degrees of freedom.
    pub deviation: f64,
    /// The offset that lay farthest toward the lens, in metres.
    pub least_z: f64,
    /// The offset that lay farthest away from the lens, in metres.
    pub greatest_z: f64,
}

/// The probability that the surface stays within limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OffsetOdds {
    /// Probability of both limits, as if the sum were normal.
    pub probability: f64,
    /// Probability that the surface lies too near the lens, as if the sum were normal.
    pub too_near_probability: f64,
    /// Probability that the surface lies too far from the lens, as if the sum were normal.
    pub too_far_probability: f64,
    /// Share of the cases drawn that kept both limits.
    pub drawn: DrawnShare,
    /// The offsets drawn.
    pub offsets: DrawnOffsets,
}

/// Limits of the offset in metres, their ends included. Nothing lies within a range whose ends are not numbers
/// or in the wrong order.
#[derive(Clone, Copy)]
pub(super) struct Range {
    pub(super) toward_lens: Twofold,
    pub(super) away_from_lens: Twofold,
}

impl Range {
    /// Whether an offset can lie within at all.
    pub(super) fn is_possible(&self) -> bool {
        (self.away_from_lens - self.toward_lens).to_f64() >= 0.0
    }
}

/// Probabilities of a normal sum.
pub(super) struct NormalOdds {
    pub(super) within: f64,
    pub(super) too_near: f64,
    pub(super) too_far: f64,
}

/// The three probabilities for a stack and limits that are in order.
pub(super) fn normal_odds(stack: &Summed, range: &Range) -> NormalOdds {
    let below = range.toward_lens - stack.bias;
    let above = range.away_from_lens - stack.bias;
    let deviation = stack.deviation;
    if deviation.to_f64() == 0.0 {
        // The surface is where the bias puts it.
        let (too_near, too_far) = (f64::from(below.to_f64() > 0.0), f64::from(above.to_f64() < 0.0));
        return NormalOdds { within: 1.0 - too_near - too_far, too_near, too_far };
    }
    let (x, y) = (scaled(below, deviation), scaled(above, deviation));
    let way = scaled(above - below, deviation);
    let within = if x >= 0.0 {
        0.5 * erf_along(x, way)
    } else if y <= 0.0 {
        0.5 * erf_along(-y, way)
    } else {
        0.5 * (math::erf(-x) + math::erf(y))
    };
    NormalOdds { within, too_near: 0.5 * math::erfc(-x), too_far: 0.5 * math::erfc(y) }
}

/// A distance over √2 deviations, but no farther than where erfc is nothing.
fn scaled(distance: Twofold, deviation: Twofold) -> f64 {
    const FAR: f64 = 60.0;
    let far = FAR * deviation.to_f64();
    if distance.to_f64() > far {
        FAR * FRAC_1_SQRT_2
    } else if distance.to_f64() < -far {
        -FAR * FRAC_1_SQRT_2
    } else {
        (distance / deviation).to_f64() * FRAC_1_SQRT_2
    }
}

/// Counts and sums of the cases drawn.
pub(super) struct Drawn<const N: usize> {
    /// Cases within each range.
    pub(super) shares: [DrawnShare; N],
    pub(super) offsets: DrawnOffsets,
}

/// Draws the offset and counts how often it lies within each of the ranges.
pub(super) fn draw<const N: usize>(
    contributions: impl Iterator<Item = Contribution> + Clone,
    stack: &Summed,
    ranges: &[Range; N],
    draws: Draws,
) -> Drawn<N> {
    let mut generator = Generator::from_seed(draws.seed);
    let bias = stack.bias.to_f64();
    // Sums in units of the deviation, so that no square underflows.
    let deviation = stack.deviation.to_f64();
    let unit = if deviation > 0.0 { deviation } else { 1.0 };
    let ends = ranges.map(|range| (range.toward_lens.to_f64(), range.away_from_lens.to_f64()));
    let mut hits = [0_u32; N];
    let (mut sum, mut squares) = (Twofold::ZERO, Twofold::ZERO);
    let (mut least, mut greatest) = (f64::INFINITY, f64::NEG_INFINITY);
    // Whole and at most 1e7, as is checked.
    for _ in 0..draws.count as u32 {
        let mut strayed = 0.0;
        for contribution in contributions.clone() {
            strayed += generator.deviate(contribution.distribution);
        }
        let offset = bias + strayed;
        for (hits, (toward_lens, away_from_lens)) in hits.iter_mut().zip(&ends) {
            *hits += u32::from(offset >= *toward_lens && offset <= *away_from_lens);
        }
        // About the bias, where the squares do not cancel.
        let strayed = strayed / unit;
        sum = sum + Twofold::from(strayed);
        squares = squares + Twofold::product(strayed, strayed);
        least = math::lesser(least, offset);
        greatest = math::greater(greatest, offset);
    }
    let count = Twofold::from(draws.count);
    let mean = sum / count;
    let spread = squares - sum * mean;
    let variance = spread / (count - Twofold::ONE);
    // A sum of squares about their mean; where all cases are alike a rounding may put it below zero.
    let deviation = if variance.is_negative() { Twofold::ZERO } else { variance.square_root() };
    let unit = Twofold::from(unit);
    Drawn {
        shares: hits.map(|hits| share_of(hits, draws.count)),
        offsets: DrawnOffsets {
            mean: (stack.bias + unit * mean).to_f64(),
            deviation: (unit * deviation).to_f64(),
            least_z: least,
            greatest_z: greatest,
        },
    }
}

/// A share with its standard error and Wilson's interval.
fn share_of(hits: u32, n: f64) -> DrawnShare {
    const Z: f64 = 1.959_963_984_540_054_2;
    let h = f64::from(hits);
    let missed = n - h;
    let zz = Z * Z;
    // The greater root of (n + z²)·s² − (2h + z²)·s + h²/n = 0, and the lesser by their product.
    let top = (2.0 * h + zz) + Z * math::sqrt(zz + 4.0 * h * missed / n);
    DrawnShare {
        share: h / n,
        standard_error: math::sqrt(h * missed / n) / n,
        least: 2.0 * h * h / n / top,
        greatest: if missed == 0.0 { 1.0 } else { top / (2.0 * (n + zz)) },
    }
}

impl DrawnShare {
    /// Of what cannot be, however often it is drawn.
    pub(super) const NEVER: Self = Self { share: 0.0, standard_error: 0.0, least: 0.0, greatest: 0.0 };
}

/// The probability that the offset of the surface stays from `toward_lens_z` to `away_from_lens_z`, which count
/// as the means do, + away from the lens: as if it were normal, and by drawing from the contributions as they
/// are.
///
/// Formulas and sources in the [module](self). The draws are the same on every face; time goes with their
/// number times that of the contributions, and nothing is stored.
///
/// Accuracy: probabilities at most 3 ulp times 1 + 2x² or 1 + 2y², as of any tail; shares 2 ulp; mean, deviation
/// and ends of the draws 3 ulp of the contributions drawn (`tests/vectors/offset_odds.csv`). A case counts by
/// its offset as a double, so that one that falls on a limit to the last digit may be told either way.
///
/// # Errors
/// As [`tolerance_stack`](super::tolerance_stack) for the contributions; then [`Error::NotFinite`] or
/// [`Error::OutOfRange`] in the order of the arguments: `away_from_lens_z` must be `toward_lens_z` or more.
///
/// # Example
/// ```
/// use spotwise::model::surface::{Contribution, Distribution, Draws, ToleranceSource, offset_odds};
/// // Two alike uniform contributions add up to a triangle from −2 to +2: within ± 1 lies 1 − (1/2)² = 3/4.
/// let one = Contribution {
///     source: ToleranceSource::Thickness,
///     distribution: Distribution::Uniform { half_width: 1e-3 },
///     mean: 0.0,
/// };
/// let odds = offset_odds(&[one, one], -1e-3, 1e-3, Draws::of(20_000, 7))?;
/// assert!((odds.drawn.share - 0.75).abs() < 3.0 * odds.drawn.standard_error);
/// // A normal sum of u = √(2/3) mm would say erf(1/(√2·u)) = 0.7793.
/// assert_eq!((odds.probability * 1e4).round(), 7793.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "Monte Carlo")]
#[doc(alias = "yield")]
pub fn offset_odds(
    contributions: &[Contribution],
    toward_lens_z: f64,
    away_from_lens_z: f64,
    draws: Draws,
) -> Result<OffsetOdds, Error> {
    offset_odds_of(contributions.iter().copied(), toward_lens_z, away_from_lens_z, draws)
}

/// As [`offset_odds`], of contributions that the caller keeps in another form.
pub(crate) fn offset_odds_of(
    contributions: impl Iterator<Item = Contribution> + Clone,
    toward_lens_z: f64,
    away_from_lens_z: f64,
    draws: Draws,
) -> Result<OffsetOdds, Error> {
    let stack = summed(contributions.clone())?;
    let toward_lens = check(Param::TowardLensZ, toward_lens_z)?;
    let (_, greatest) = Param::AwayFromLensZ.range();
    let away_from_lens = check_within(Param::AwayFromLensZ, away_from_lens_z, toward_lens, greatest)?;
    let draws = draws.checked()?;
    let range =
        Range { toward_lens: Twofold::from(toward_lens), away_from_lens: Twofold::from(away_from_lens) };
    let normal = normal_odds(&stack, &range);
    let Drawn { shares: [drawn], offsets } = draw(contributions, &stack, &[range], draws);
    Ok(OffsetOdds {
        probability: normal.within,
        too_near_probability: normal.too_near,
        too_far_probability: normal.too_far,
        drawn,
        offsets,
    })
}
