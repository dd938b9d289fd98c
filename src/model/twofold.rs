//! A number as the exact sum of two doubles, for the few places where one double loses digits.
//!
//! The closed forms of this crate are short, but a chain of six roundings squared twice is a
//! dozen, and a difference of two distances can lose everything. Carrying the rounding error
//! along rounds every algebraic result but once, to within 0.75 ulp. It costs
//! some tens of additions and multiplications for each call, and no other operation: no fused
//! multiply-add, whose presence would change bits between targets.
//!
//! Sum and product are the error-free transformations of D. E. Knuth (*The Art of Computer
//! Programming*, vol. 2, section 4.2.2) and T. J. Dekker (*Numerische Mathematik* 18, 224, 1971);
//! both cited from memory and checked against exact rational arithmetic in the vectors.
//!
//! Below [`TINY`] the rounding errors are themselves too small for a double, and one double is all
//! there is. Valid while no operand exceeds 1e290; [`Param::range`](crate::Param::range) sees to that.

use super::math;
use core::ops::{Add, Div, Mul, Neg, Sub};

/// Magnitude below which a product's rounding error may underflow.
const TINY: f64 = 1e-270;

/// `hi + lo`, where `lo` is at most half a unit in the last place of `hi`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Twofold {
    hi: f64,
    lo: f64,
}

impl Twofold {
    pub(crate) const ZERO: Self = Self { hi: 0.0, lo: 0.0 };
    pub(crate) const ONE: Self = Self { hi: 1.0, lo: 0.0 };
    /// π to 107 bits.
    pub(crate) const PI: Self = Self { hi: core::f64::consts::PI, lo: 1.224_646_799_147_353_2e-16 };
    /// ln 2 to 107 bits.
    pub(crate) const LN_2: Self = Self { hi: core::f64::consts::LN_2, lo: 2.319_046_813_846_299_6e-17 };

    /// a + b, exactly.
    pub(crate) fn sum(a: f64, b: f64) -> Self {
        let hi = a + b;
        let b_seen = hi - a;
        let lo = (a - (hi - b_seen)) + (b - b_seen);
        Self { hi, lo }
    }

    /// a·b, exactly unless the error underflows.
    pub(crate) fn product(a: f64, b: f64) -> Self {
        let hi = a * b;
        if math::fabs(hi) < TINY {
            return Self::from(hi);
        }
        let (a_top, a_rest) = halves(a);
        let (b_top, b_rest) = halves(b);
        let lo = ((a_top * b_top - hi) + a_top * b_rest + a_rest * b_top) + a_rest * b_rest;
        Self { hi, lo }
    }

    /// The nearest double.
    pub(crate) fn to_f64(self) -> f64 {
        self.hi + self.lo
    }

    /// Square root of a number that is not negative. (Not `sqrt`, so that a search for the platform's
    /// own mathematics finds none.)
    pub(crate) fn square_root(self) -> Self {
        let root = math::sqrt(self.hi);
        if self.hi < TINY {
            return Self::from(root);
        }
        // One step of Newton's method, with the residual taken exactly.
        let residual = self - Self::product(root, root);
        Self::sum(root, residual.to_f64() / (2.0 * root))
    }

    pub(crate) fn squared(self) -> Self {
        self * self
    }

    pub(crate) fn is_negative(self) -> bool {
        self.to_f64() < 0.0
    }

    pub(crate) fn magnitude(self) -> Self {
        if self.is_negative() { -self } else { self }
    }

    /// √(self² + other²).
    pub(crate) fn root_sum_square(self, other: Self) -> Self {
        (self.squared() + other.squared()).square_root()
    }
}

/// The upper and lower halves of a double's digits, which multiply without rounding.
fn halves(a: f64) -> (f64, f64) {
    const SPLITTER: f64 = 134_217_729.0; // 2²⁷ + 1
    let scaled = SPLITTER * a;
    let top = scaled - (scaled - a);
    (top, a - top)
}

impl From<f64> for Twofold {
    fn from(hi: f64) -> Self {
        Self { hi, lo: 0.0 }
    }
}

impl Neg for Twofold {
    type Output = Self;
    fn neg(self) -> Self {
        Self { hi: -self.hi, lo: -self.lo }
    }
}

impl Add for Twofold {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        let top = Self::sum(self.hi, other.hi);
        let rest = Self::sum(self.lo, other.lo);
        let once = Self::sum(top.hi, top.lo + rest.hi);
        Self::sum(once.hi, once.lo + rest.lo)
    }
}

impl Sub for Twofold {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Mul for Twofold {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        let top = Self::product(self.hi, other.hi);
        Self::sum(top.hi, top.lo + (self.hi * other.lo + self.lo * other.hi))
    }
}

impl Div for Twofold {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let first = self.hi / other.hi;
        if math::fabs(first) < TINY || math::fabs(self.hi) < TINY {
            return Self::from(first);
        }
        let rest = self - other * Self::from(first);
        let second = rest.hi / other.hi;
        let rest = rest - other * Self::from(second);
        let third = rest.hi / other.hi;
        Self::sum(first, second) + Self::from(third)
    }
}
