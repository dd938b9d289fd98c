//! A tolerance stack: what makes the surface stray from where it should be, worst case and root sum square.
//!
//! | symbol | meaning                                                       | unit | valid         |
//! |--------|---------------------------------------------------------------|------|---------------|
//! | a      | half width of a contribution: it strays by −a to +a           | m    | 0 … 1e3       |
//! | k₀     | coverage factor with which the half width of a normal one is stated | 1 | 1 … 10      |
//! | m      | mean of a contribution, a known error, + away from the lens   | m    | −1e3 … 1e3    |
//! | u      | its standard deviation                                        | m    |               |
//! | p      | coverage probability                                          | 1    | 0.01 … 1 − 1e-12 |
//! | k      | coverage factor of the stack                                  | 1    |               |
//!
//! | distribution | strays                                     | u       | source       |
//! |--------------|--------------------------------------------|---------|--------------|
//! | uniform      | anywhere within ±a, alike                  | a/√3    | \[1\] 4.3.7  |
//! | triangular   | within ±a, more often in the middle        | a/√6    | \[1\] 4.3.9  |
//! | arc sine     | as a swing of amplitude a                  | a/√2    | \[2\] 6.4.6  |
//! | two-valued   | by −a or by +a, either as often            | a       | derived here |
//! | normal       | by a normal law; a is k₀ deviations        | a/k₀    | \[1\] 4.3.3  |
//!
//! bias = Σ m                                           the surface is expected so far off
//! worst case = bias ± Σ a
//! combined standard deviation = √(Σ u²)                \[1\] 5.1.2, sensitivities of 1, no correlation
//! expanded half width = k·√(Σ u²), k = √2·erfinv(p)    \[1\] 6.2.1 and G.1.3, for a normal sum
//! share of a contribution in the variance = u²/Σ u², in the worst case a/Σ a
//!
//! The stated coverage is that of a normal sum. A sum of several like contributions is nearly normal; one that
//! is ruled by a single uniform or two-valued contribution is not, and then the expanded half width may even
//! exceed the worst case. [`offset_odds`](super::offset_odds) draws from the distributions themselves.
//!
//! The reach of a normal contribution in the worst case is its half width, though a normal law has no end.
//!
//! \[1\] JCGM 100:2008, *Guide to the expression of uncertainty in measurement* (GUM). \[2\] JCGM 101:2008, its
//! supplement 1. Clauses of both from memory.
//! Not modelled: contributions that depend on each other, effective degrees of freedom (deviations count as
//! known), laws that lean to one side.

use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::twofold::Twofold;
use core::f64::consts::SQRT_2;

/// What makes the surface stray. It names a contribution and enters no number. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum ToleranceSource {
    /// The part bows, warps or is not flat.
    PartBow = 1,
    /// Thickness of the part varies.
    Thickness = 2,
    /// The fixture or the table does not hold parts at one height.
    Fixture = 3,
    /// A lens that was changed or cleaned comes back at another height.
    LensChange = 4,
    /// The gauge, stick or sensor with which the height is set.
    HeightGauge = 5,
    /// Backlash of the axis that sets the height.
    Backlash = 6,
    /// Smallest step of that axis.
    AxisStep = 7,
    /// Machine, lens or part warm up.
    ThermalDrift = 8,
    /// Anything else.
    Other = 9,
}

impl ToleranceSource {
    /// Every source, in the order of its code.
    pub const ALL: [Self; 9] = [
        Self::PartBow,
        Self::Thickness,
        Self::Fixture,
        Self::LensChange,
        Self::HeightGauge,
        Self::Backlash,
        Self::AxisStep,
        Self::ThermalDrift,
        Self::Other,
    ];

    /// The source with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|source| *source as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::ToleranceSource, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    ///
    /// ```
    /// use spotwise::model::surface::ToleranceSource;
    /// assert_eq!(ToleranceSource::from_code(4)?.name(), "lens change");
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::PartBow => "part bow",
            Self::Thickness => "thickness",
            Self::Fixture => "fixture",
            Self::LensChange => "lens change",
            Self::HeightGauge => "height gauge",
            Self::Backlash => "backlash",
            Self::AxisStep => "axis step",
            Self::ThermalDrift => "thermal drift",
            Self::Other => "other",
        }
    }
}

/// How a contribution strays about its mean.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Distribution {
    /// Anywhere within ± the half width, alike: all that is known is a limit. Code 1.
    Uniform {
        /// Half width in metres.
        half_width: f64,
    },
    /// Within ± the half width, more often in the middle. Code 2.
    Triangular {
        /// Half width in metres.
        half_width: f64,
    },
    /// As a swing of this amplitude that is met at any moment: most often near its ends. Code 3.
    ArcSine {
        /// Half width in metres.
        half_width: f64,
    },
    /// By − or + the half width, either as often, as backlash that is not taken up. Code 4.
    TwoValued {
        /// Half width in metres.
        half_width: f64,
    },
    /// By a normal law. Code 5.
    Normal {
        /// Half width in metres; that many deviations as the coverage factor says.
        half_width: f64,
        /// Half width over standard deviation: 1 if the half width is one deviation, 2 for the 95 % of most
        /// certificates, 3 for "practically all".
        coverage_factor: f64,
    },
}

impl Distribution {
    /// Permanent number of this distribution, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Uniform { .. } => 1,
            Self::Triangular { .. } => 2,
            Self::ArcSine { .. } => 3,
            Self::TwoValued { .. } => 4,
            Self::Normal { .. } => 5,
        }
    }

    /// The distribution with this permanent code; only a normal one reads the coverage factor.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The numbers are checked when they are used.
    pub fn from_code(code: u32, half_width: f64, coverage_factor: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Uniform { half_width }),
            2 => Ok(Self::Triangular { half_width }),
            3 => Ok(Self::ArcSine { half_width }),
            4 => Ok(Self::TwoValued { half_width }),
            5 => Ok(Self::Normal { half_width, coverage_factor }),
            value => Err(Error::UnknownChoice { param: Param::Distribution, value }),
        }
    }

    /// Half width in metres.
    #[must_use]
    pub const fn half_width(&self) -> f64 {
        match *self {
            Self::Uniform { half_width }
            | Self::Triangular { half_width }
            | Self::ArcSine { half_width }
            | Self::TwoValued { half_width }
            | Self::Normal { half_width, .. } => half_width,
        }
    }

    /// a²/u².
    fn half_width_over_deviation_squared(&self) -> Twofold {
        match *self {
            Self::Uniform { .. } => Twofold::from(3.0),
            Self::Triangular { .. } => Twofold::from(6.0),
            Self::ArcSine { .. } => Twofold::from(2.0),
            Self::TwoValued { .. } => Twofold::ONE,
            Self::Normal { coverage_factor, .. } => Twofold::product(coverage_factor, coverage_factor),
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
    /// Mean in metres, **+ away from the lens**: a known error that nobody corrects; 0 for most.
    pub mean: f64,
}

/// A tolerance stack, added up. Offsets count from where the surface should be, + away from the lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToleranceStack {
    /// Sum of the means in metres.
    pub bias: f64,
    /// Sum of the half widths in metres.
    pub worst_half_width: f64,
    /// Farthest toward the lens in the worst case, in metres.
    pub worst_toward_lens_z: f64,
    /// Farthest away from the lens in the worst case, in metres.
    pub worst_away_from_lens_z: f64,
    /// Combined standard deviation in metres.
    pub deviation: f64,
    /// Half width over deviation for the coverage probability, of a normal sum.
    pub coverage_factor: f64,
    /// Coverage factor times combined deviation, in metres.
    pub expanded_half_width: f64,
    /// Expanded interval, its end toward the lens, in metres.
    pub expanded_toward_lens_z: f64,
    /// Expanded interval, its end away from the lens, in metres.
    pub expanded_away_from_lens_z: f64,
    /// Place, from 0, of the contribution with the greatest variance; the first of equals.
    pub dominant: u32,
    /// Its share of the combined variance; 0 where nothing strays.
    pub dominant_share: f64,
    /// Place, from 0, of the contribution with the greatest half width; the first of equals.
    pub widest: u32,
    /// Its share of the worst case; 0 where nothing strays.
    pub widest_share: f64,
}

/// What contributions add up to, before it is rounded.
pub(super) struct Summed {
    pub(super) bias: Twofold,
    pub(super) deviation: Twofold,
    half_widths: Twofold,
    dominant: Greatest,
    widest: Greatest,
}

/// The greatest term of a sum: its place, and its share of the sum.
struct Greatest {
    place: u32,
    share: f64,
}

/// Finds the greatest of terms as they are added.
struct Adding {
    sum: Twofold,
    greatest: Twofold,
    place: u32,
}

impl Adding {
    const NOTHING: Self = Self { sum: Twofold::ZERO, greatest: Twofold::ZERO, place: 0 };

    fn add(&mut self, term: Twofold, place: u32) {
        self.sum = self.sum + term;
        if (self.greatest - term).is_negative() {
            self.greatest = term;
            self.place = place;
        }
    }

    fn greatest(&self) -> Greatest {
        let nothing = self.sum.to_f64() == 0.0;
        let share = if nothing { 0.0 } else { (self.greatest / self.sum).to_f64() };
        Greatest { place: self.place, share }
    }
}

/// Checks the contributions, in their order, and adds them up.
pub(super) fn summed(contributions: impl Iterator<Item = Contribution> + Clone) -> Result<Summed, Error> {
    let mut count = 0_u32;
    let mut widest = 0.0;
    for contribution in contributions.clone() {
        let half_width = check(Param::HalfWidth, contribution.distribution.half_width())?;
        if let Distribution::Normal { coverage_factor, .. } = contribution.distribution {
            check(Param::CoverageFactor, coverage_factor)?;
        }
        check(Param::MeanOffset, contribution.mean)?;
        count = count.saturating_add(1);
        widest = math::greater(widest, half_width);
    }
    if count == 0 {
        let (least, greatest) = Param::Contributions.range();
        return Err(Error::Undetermined { param: Param::Contributions, value: 0.0, least, greatest });
    }

    let mut bias = Twofold::ZERO;
    let (mut half_widths, mut variances) = (Adding::NOTHING, Adding::NOTHING);
    for (place, contribution) in (0_u32..).zip(contributions) {
        let half_width = Twofold::from(contribution.distribution.half_width());
        bias = bias + Twofold::from(contribution.mean);
        half_widths.add(half_width, place);
        // In units of the widest, so that no square underflows that counts.
        if widest > 0.0 {
            let ratio = half_width / Twofold::from(widest);
            let variance = ratio.squared() / contribution.distribution.half_width_over_deviation_squared();
            variances.add(variance, place);
        }
    }
    Ok(Summed {
        bias,
        deviation: Twofold::from(widest) * variances.sum.square_root(),
        half_widths: half_widths.sum,
        dominant: variances.greatest(),
        widest: half_widths.greatest(),
    })
}

/// Adds up a tolerance stack: worst case, combined deviation, and the half width that covers this share of all
/// cases.
///
/// Formulas and sources in the [module](self). Contributions must not depend on each other; the order in which
/// they are given changes at most the last bit.
///
/// Accuracy: at most 0.75 ulp, the coverage factor 2 and the expanded half width 3; the ends of the expanded
/// interval that times (abs(bias) + half width)/abs(end) (`tests/vectors/tolerance_stack.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], contribution by contribution: half width, coverage factor,
/// mean; [`Error::Undetermined`] without any contribution; then for the coverage probability.
///
/// # Example
/// ```
/// use spotwise::model::surface::{Contribution, Distribution, ToleranceSource, tolerance_stack};
/// // Thickness ± 0.10 mm, of which nothing else is known; a gauge certified to ± 0.04 mm with k = 2; backlash
/// // of ± 0.03 mm. u² = 0.10²/3 + (0.04/2)² + 0.03² = 0.0046333 mm², by hand.
/// let stack = tolerance_stack(
///     &[
///         Contribution {
///             source: ToleranceSource::Thickness,
///             distribution: Distribution::Uniform { half_width: 0.10e-3 },
///             mean: 0.0,
///         },
///         Contribution {
///             source: ToleranceSource::HeightGauge,
///             distribution: Distribution::Normal { half_width: 0.04e-3, coverage_factor: 2.0 },
///             mean: 0.0,
///         },
///         Contribution {
///             source: ToleranceSource::Backlash,
///             distribution: Distribution::TwoValued { half_width: 0.03e-3 },
///             mean: 0.0,
///         },
///     ],
///     0.95,
/// )?;
/// assert_eq!((stack.worst_half_width * 1e9).round(), 170_000.0);
/// assert_eq!((stack.deviation * 1e9).round(), 68_069.0); // √0.0046333 mm
/// assert_eq!((stack.coverage_factor * 1e6).round(), 1_959_964.0); // the familiar 1.96
/// assert_eq!((stack.dominant, (stack.dominant_share * 1e3).round()), (0, 719.0)); // 0.0033333/0.0046333
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "RSS")]
#[doc(alias = "error budget")]
#[doc(alias = "combined standard uncertainty")]
pub fn tolerance_stack(
    contributions: &[Contribution],
    coverage_probability: f64,
) -> Result<ToleranceStack, Error> {
    tolerance_stack_of(contributions.iter().copied(), coverage_probability)
}

/// As [`tolerance_stack`], of contributions that the caller keeps in another form.
pub(crate) fn tolerance_stack_of(
    contributions: impl Iterator<Item = Contribution> + Clone,
    coverage_probability: f64,
) -> Result<ToleranceStack, Error> {
    let Summed { bias, deviation, half_widths, dominant, widest } = summed(contributions)?;
    let p = check(Param::CoverageProbability, coverage_probability)?;
    let coverage_factor = SQRT_2 * math::inverse_erf(p, 1.0 - p);
    let expanded = Twofold::from(coverage_factor) * deviation;
    Ok(ToleranceStack {
        bias: bias.to_f64(),
        worst_half_width: half_widths.to_f64(),
        worst_toward_lens_z: (bias - half_widths).to_f64(),
        worst_away_from_lens_z: (bias + half_widths).to_f64(),
        deviation: deviation.to_f64(),
        coverage_factor,
        expanded_half_width: expanded.to_f64(),
        expanded_toward_lens_z: (bias - expanded).to_f64(),
        expanded_away_from_lens_z: (bias + expanded).to_f64(),
        dominant: dominant.place,
        dominant_share: dominant.share,
        widest: widest.place,
        widest_share: widest.share,
    })
}
