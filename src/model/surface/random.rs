//! Random numbers that are the same on every face: a published generator, and deviates by inversion.
//!
//! The generator is SplitMix64: a counter that grows by γ = 0x9E3779B97F4A7C15 from the seed on, and of each
//! value z
//! z = (z ^ (z >> 30))·0xBF58476D1CE4E5B9, z = (z ^ (z >> 27))·0x94D049BB133111EB, z ^ (z >> 31)   \[1\]
//! all modulo 2⁶⁴. It never repeats within 2⁶⁴ numbers, and any seed is as good as any other.
//!
//! Of each number the upper 52 bits n give t = (2n + 1)/2⁵² − 1, exactly: evenly in −1 … 1, symmetric, and
//! never −1, 0 or 1. That is 2F − 1, F being the distribution function, and its inverse gives the deviate, for
//! a half width a:
//!
//! | distribution | deviate                                             |
//! |--------------|-----------------------------------------------------|
//! | uniform      | a·t                                                 |
//! | triangular   | a·t/(1 + √(1 − abs(t))), which is a·(1 − √(1 − t)) for t > 0 |
//! | arc sine     | a·sin(π·t/2)                                        |
//! | two-valued   | a with the sign of t                                |
//! | normal       | (a/k₀)·√2·erfinv(t)                                 |
//!
//! Only `+ - * /`, the square root, and sine and the inverse of erf as everywhere in the model are used, so that
//! one seed gives the same bits on a desktop, in a browser and on a controller.
//!
//! \[1\] G. L. Steele Jr., D. Lea, C. H. Flood, *Fast splittable pseudorandom number generators*, OOPSLA 2014,
//! from memory; the inversions are derived here.

use super::tolerance::Distribution;
use crate::error::{Error, Param, check_whole};
use crate::model::math;
use core::f64::consts::{FRAC_PI_2, SQRT_2};

/// How many cases to draw, and from which seed. The same draws give the same numbers on every face. Both are whole
/// numbers, and doubles only because that is what every face can hold.
///
/// ```
/// use spotwise::model::surface::Draws;
/// assert_eq!(Draws::of(10_000, 1), Draws { count: 10_000.0, seed: 1.0 });
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draws {
    /// How many cases are drawn, 10 to 10 000 000. The standard error of a probability falls with its root.
    pub count: f64,
    /// Any whole number from 0 to 2⁵³ − 1.
    pub seed: f64,
}

impl Draws {
    /// Of whole numbers. A seed of 2⁵³ or more, which a double may not hold, is refused when it is used.
    #[must_use]
    pub fn of(count: u32, seed: u64) -> Self {
        Self { count: f64::from(count), seed: seed as f64 }
    }

    /// Checks the count, then the seed.
    pub(super) fn checked(self) -> Result<Self, Error> {
        Ok(Self { count: check_whole(Param::Draws, self.count)?, seed: check_whole(Param::Seed, self.seed)? })
    }
}

/// SplitMix64.
pub(super) struct Generator {
    state: u64,
}

impl Generator {
    /// Of a seed that is checked.
    pub(super) fn from_seed(seed: f64) -> Self {
        Self { state: seed as u64 }
    }

    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = self.state;
        let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// t, evenly in −1 … 1.
    fn even(&mut self) -> f64 {
        const TWO_TO_52: f64 = 4_503_599_627_370_496.0;
        let n = (self.next() >> 12) as f64;
        // The two terms and their sum have 53 bits or less, so that nothing is rounded.
        ((2.0 * n + 1.0) - TWO_TO_52) / TWO_TO_52
    }

    /// By how much a contribution strays from its mean.
    pub(super) fn deviate(&mut self, distribution: Distribution) -> f64 {
        let t = self.even();
        let rest = 1.0 - math::fabs(t);
        match distribution {
            Distribution::Uniform { half_width } => half_width * t,
            Distribution::Triangular { half_width } => half_width * (t / (1.0 + math::sqrt(rest))),
            Distribution::ArcSine { half_width } => half_width * math::sin(FRAC_PI_2 * t),
            Distribution::TwoValued { half_width } => signed(half_width, t),
            Distribution::Normal { half_width, coverage_factor } => {
                let deviates = SQRT_2 * math::inverse_erf(math::fabs(t), rest);
                signed(half_width / coverage_factor * deviates, t)
            }
        }
    }
}

/// A magnitude with the sign of t.
fn signed(magnitude: f64, t: f64) -> f64 {
    if t < 0.0 { -magnitude } else { magnitude }
}

#[cfg(test)]
mod tests {
    use super::Generator;
    use crate::model::math::inverse_erf;

    /// What `inverse_erf` promises beyond a complement of 1e-13, at the rarest deviates: erfcinv(n/2⁵²) with 25
    /// digits, from mpmath.
    #[test]
    fn rarest_deviates() {
        let exact = [
            (1.0, 5.805_018_683_193_453),
            (3.0, 5.710_998_125_755_054),
            (29.0, 5.511_918_909_360_778),
            (1001.0, 5.186_395_670_788_682),
        ];
        for (n, exact) in exact {
            let complement = n * f64::EPSILON;
            let off = (inverse_erf(1.0 - complement, complement) - exact) / (4.0 * f64::EPSILON);
            assert!((-9.0..=9.0).contains(&off), "{n}: off by {off} ulp");
        }
    }

    /// The first numbers from two seeds, as they are printed in many places for SplitMix64: 1234567 at Rosetta
    /// Code ("Pseudo-random numbers/Splitmix64"), 0 in tests of generators that are seeded by it; both from
    /// memory.
    #[test]
    fn published_sequences() {
        let mut generator = Generator::from_seed(1_234_567.0);
        let first = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        for expected in first {
            assert_eq!(generator.next(), expected);
        }
        let mut generator = Generator::from_seed(0.0);
        for expected in [0xE220_A839_7B1D_CDAF, 0x6E78_9E6A_A1B9_65F4, 0x06C4_5D18_8009_454F] {
            assert_eq!(generator.next(), expected);
        }
    }
}
