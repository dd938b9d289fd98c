//! Where on its axis an astigmatic beam is brightest, and how far its brightness holds.
//!
//! The peak irradiance at z is 1/√((1 + u²)(1 + v²)) of what both waists at one place would
//! give, u and v being the distances from the two waists in their Rayleigh ranges. Write t for
//! the distance from the middle between the waists, s for half their separation, and turn the
//! axis so that the waist with the shorter Rayleigh range (a, the other is b) lies at t = −s.
//! Then the brightest place is a root of
//!
//! g(t) = 2·t³ + t·(a² + b² − 2·s²) + s·(b² − a²)
//!
//! and, since g(−s) < 0 < g(0) and the roots sum to zero, it is the only one between −s and 0.
//! If g dips below zero again for t > 0, a dark gap and a second, fainter bright place follow.
//! Derived here; checked against a dense search in `tests/properties.rs`.

use super::astigmatic::CheckedAstigmatic;
use crate::model::math;
use crate::model::twofold::Twofold;

/// A number of halvings that brings any bracket down to neighbouring doubles in practice.
const HALVINGS: u32 = 200;

/// Half separation over Rayleigh range below which its square is nothing to the last digit.
const NEAR: f64 = 1e-16;

/// The irradiance on the axis of one astigmatic beam.
pub(crate) struct Brightness {
    middle: Twofold,
    /// s
    half_separation: Twofold,
    /// a and b
    short: Twofold,
    long: Twofold,
    /// Whether t counts against z.
    turned: bool,
}

/// A stretch of the axis, in t, where the irradiance holds.
pub(crate) struct BrightRange {
    pub(crate) from: Twofold,
    pub(crate) to: Twofold,
    /// A second stretch, separate from this one, also holds.
    pub(crate) second: bool,
}

impl Brightness {
    pub(crate) fn of(beam: &CheckedAstigmatic) -> Self {
        let (zx, zy) = (beam.x_waist_z, beam.y_waist_z);
        let (zr_x, zr_y) = (beam.x.rayleigh_range, beam.y.rayleigh_range);
        let difference = (zr_x - zr_y).to_f64();
        // Equal Rayleigh ranges: the waist nearer the lens leads.
        let x_leads = difference < 0.0 || (difference == 0.0 && zx <= zy);
        let (short, long) = if x_leads { (zr_x, zr_y) } else { (zr_y, zr_x) };
        let (first, second) = if x_leads { (zx, zy) } else { (zy, zx) };
        let half = Twofold::sum(second, -first) * Twofold::from(0.5);
        let turned = first > second;
        Self {
            middle: Twofold::sum(zx, zy) * Twofold::from(0.5),
            half_separation: if turned { -half } else { half },
            short,
            long,
            turned,
        }
    }

    /// The place on the beam's axis that belongs to t.
    pub(crate) fn z_of(&self, t: Twofold) -> Twofold {
        self.middle + if self.turned { -t } else { t }
    }

    /// 1/√((1 + u²)(1 + v²)).
    pub(crate) fn irradiance_ratio(&self, t: Twofold) -> Twofold {
        Twofold::ONE / (Twofold::ONE + self.excess(t)).square_root()
    }

    /// u and v at t.
    fn rayleigh_ranges_at(&self, t: Twofold) -> (Twofold, Twofold) {
        ((t + self.half_separation) / self.short, (t - self.half_separation) / self.long)
    }

    /// (1 + u²)(1 + v²) − 1, without the cancellation.
    fn excess(&self, t: Twofold) -> Twofold {
        let (u, v) = self.rayleigh_ranges_at(t);
        let (uu, vv) = (u.squared(), v.squared());
        uu + vv + uu * vv
    }

    /// Slope of [`Self::excess`].
    fn excess_slope(&self, t: Twofold) -> Twofold {
        let (u, v) = self.rayleigh_ranges_at(t);
        let two = Twofold::from(2.0);
        two * u * (Twofold::ONE + v.squared()) / self.short
            + two * v * (Twofold::ONE + u.squared()) / self.long
    }

    /// a² + b² − 2·s².
    fn linear_term(&self) -> Twofold {
        self.short.squared() + self.long.squared() - Twofold::from(2.0) * self.half_separation.squared()
    }

    /// g(t).
    fn cubic(&self, t: Twofold) -> Twofold {
        let spread = (self.long - self.short) * (self.long + self.short);
        t * (Twofold::from(2.0) * t.squared() + self.linear_term()) + self.half_separation * spread
    }

    /// g′(t).
    fn cubic_slope(&self, t: Twofold) -> Twofold {
        Twofold::from(6.0) * t.squared() + self.linear_term()
    }

    /// The brightest t.
    pub(crate) fn brightest(&self) -> Twofold {
        let s = self.half_separation;
        if s.to_f64() == 0.0 {
            return Twofold::ZERO;
        }
        if (self.long - self.short).to_f64() == 0.0 {
            // g factors: t = 0 or t² = s² − a², the bright pair once the gap between them opens.
            let squared = (s - self.short) * (s + self.short);
            return if squared.to_f64() > 0.0 { -squared.square_root() } else { Twofold::ZERO };
        }
        let waists_meet = s.to_f64() < NEAR * self.short.to_f64();
        if waists_meet {
            // t³ and t·s² are below the last digit, and s² may underflow: the root is linear.
            let (a, b) = (self.short, self.long);
            return -s * ((b - a) * (b + a) / (a.squared() + b.squared()));
        }
        root(-s.to_f64(), 0.0, |t| self.cubic(t), |t| self.cubic_slope(t))
    }

    /// The dark place between two bright ones and the second bright one, if there are two.
    fn gap(&self) -> Option<(Twofold, Twofold)> {
        let turning_squared = -self.linear_term().to_f64() / 6.0;
        if turning_squared <= 0.0 {
            return None;
        }
        let turning = math::sqrt(turning_squared);
        if self.cubic(Twofold::from(turning)).to_f64() >= 0.0 {
            return None;
        }
        let darkest = root(0.0, turning, |t| -self.cubic(t), |t| -self.cubic_slope(t));
        let second = root(turning, self.half_separation.to_f64(), |t| self.cubic(t), |t| self.cubic_slope(t));
        Some((darkest, second))
    }

    /// The stretch around the brightest place on which (1 + u²)(1 + v²) − 1 ≤ `excess`; none if
    /// even the brightest place is above it.
    pub(crate) fn range(&self, excess: Twofold) -> Option<BrightRange> {
        let brightest = self.brightest();
        let above = |t: Twofold| self.excess(t) - excess;
        if above(brightest).to_f64() > 0.0 {
            return None;
        }
        // Neither u² nor v² can exceed the excess by itself.
        let reach = excess.square_root();
        let s = self.half_separation;
        let latest = smaller(self.short * reach - s, self.long * reach + s);
        let earliest = -smaller(self.short * reach + s, self.long * reach - s);

        let mut bracket = latest;
        let mut second = false;
        if let Some((darkest, fainter)) = self.gap()
            && above(darkest).to_f64() > 0.0
        {
            bracket = darkest;
            second = above(fainter).to_f64() <= 0.0;
        }
        let slope = |t| self.excess_slope(t);
        Some(BrightRange {
            from: -root(-brightest.to_f64(), -earliest.to_f64(), |t| above(-t), |t| -slope(-t)),
            to: root(brightest.to_f64(), bracket.to_f64(), above, slope),
            second,
        })
    }
}

fn smaller(a: Twofold, b: Twofold) -> Twofold {
    if (a - b).to_f64() <= 0.0 { a } else { b }
}

/// The root between `low` and `high` of a function that is below zero at `low` and rises through
/// zero once: halving down to neighbouring doubles, then Newton's steps for the digits beyond.
fn root(
    mut low: f64,
    mut high: f64,
    value: impl Fn(Twofold) -> Twofold,
    slope: impl Fn(Twofold) -> Twofold,
) -> Twofold {
    for _ in 0..HALVINGS {
        let middle = low + 0.5 * (high - low);
        if middle <= low || middle >= high {
            break;
        }
        if value(Twofold::from(middle)).to_f64() < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    let mut t = Twofold::from(low);
    for _ in 0..2 {
        let rise = slope(t);
        if rise.to_f64() <= 0.0 {
            break; // a flat top: no more digits to be had
        }
        let better = t - value(t) / rise;
        // A step that leaves the bracket by more than its width says the same.
        let width = high - low;
        if math::fabs((better - Twofold::from(low)).to_f64()) > 2.0 * width {
            break;
        }
        t = better;
    }
    t
}
