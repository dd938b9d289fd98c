//! Depth of focus of a clipped Gaussian beam (M² = 1) behind an ideal lens, by the irradiance on the axis.
//!
//! | symbol | meaning                                                | unit | valid      |
//! |--------|--------------------------------------------------------|------|------------|
//! | D      | 1/e² **diameter** of the beam at the lens              | m    | 1e-9 … 10  |
//! | X, Y   | clipping ratio, clear aperture over D; X²              | 1    | X ≥ 0.2, ∞ |
//! | f      | focal length                                           | m    | 1e-5 … 1e4 |
//! | N      | π·D²/(4·λ·f)                                           | 1    | N, N·Y ≥ 5 |
//! | β      | normalised defocus, + toward the lens                  | 1    | > −N       |
//! | z      | height from the focal point, + away from the lens      | m    |            |
//! | p      | share of the greatest irradiance that may be lost      | 1    | 0.01 … 0.9 |
//!
//! z = −f·β/(N + β)
//! g(β) = (1 + β/N)²·\[1 + (sin(β·Y/2)/sinh(Y/2))²\] / (1 + β²)                           \[1\]
//! range: g ≥ (1 − p)·max g, about the brightest plane
//!
//! g is the irradiance over that in the focal plane, and the first factor the square law of distance: the
//! brightest plane lies nearer the lens than the focal point, and the two ends differ. All of it is exact
//! for the Fresnel integral, for long foci too. Without clipping the range is that of a Gaussian beam.
//!
//! Not modelled: M² > 1 and aberration (see
//! [`wave_depth_of_focus`](super::wave_depth_of_focus)).
//!
//! \[1\] The Fresnel integral over a truncated Gaussian on the axis, derived here:
//! abs(∫₀^Y exp(−(1 + iβ)y) dy)², over its value at β = 0.

use super::depth::FocusRange;
use crate::error::{Error, Param, check_within};
use crate::model::math;
use crate::model::optics::checked_clipping;
use crate::model::twofold::Twofold;
use crate::validity::Validity;
use core::f64::consts::PI;

/// Depth of focus of a clipped beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClippedDepth {
    /// The range, counted from the focal point. Its ends differ.
    pub range: FocusRange,
    /// The brightest place on the axis, counted from the focal point, + away from the lens, in metres.
    pub brightest_z: f64,
    /// Clear aperture over 1/e² beam diameter.
    pub clipping_ratio: f64,
    /// The Rayleigh range, 4·λ·f²/(π·D²) with the aperture for D where that is narrower, over the focal
    /// length.
    pub relative_rayleigh_range: f64,
    /// Half of the full range over the focal length.
    pub relative_half_depth: f64,
}

/// Least and greatest drop: below, the drop is lost in rounding; above, a long focus might never fall so
/// far before the lens.
const DROPS: (f64, f64) = (0.01, 0.9);

/// Y above which the ripple is below 1e-34, nothing that a double could show.
const UNCLIPPED: f64 = 80.0;

/// Steps for each period of the ripple in the search for an end.
const STEPS: f64 = 32.0;

/// The irradiance on the axis.
struct Axis {
    /// N.
    n: f64,
    /// Y/2.
    half_y: f64,
    /// 1/sinh(Y/2); 0 where the aperture does not matter.
    lift: f64,
}

/// The place between `inner`, where `holds`, and `outer`, where it does not, at which that changes.
fn halve(mut inner: f64, mut outer: f64, holds: impl Fn(f64) -> bool) -> f64 {
    // Halving needs no slope and no luck; it ends at neighbouring doubles.
    for _ in 0..100 {
        let middle = 0.5 * (inner + outer);
        if holds(middle) {
            inner = middle;
        } else {
            outer = middle;
        }
    }
    0.5 * (inner + outer)
}

impl Axis {
    fn new(n: f64, clipping_ratio: f64) -> Self {
        let y = clipping_ratio * clipping_ratio;
        let half_y = 0.5 * y;
        let lift = if y > UNCLIPPED { 0.0 } else { 1.0 / math::sinh(half_y) };
        Self { n, half_y, lift }
    }

    /// Whether the aperture makes no difference.
    fn is_open(&self) -> bool {
        self.lift == 0.0
    }

    /// g(β).
    fn irradiance(&self, beta: f64) -> f64 {
        let nearness = 1.0 + beta / self.n;
        let unclipped = nearness * nearness / (1.0 + beta * beta);
        if self.is_open() {
            return unclipped;
        }
        let ripple = self.lift * math::sin(beta * self.half_y);
        unclipped * (1.0 + ripple * ripple)
    }

    /// d(ln g)/dβ, for a beam that is clipped.
    fn slope(&self, beta: f64) -> f64 {
        let (sine, cosine) = math::sincos(beta * self.half_y);
        let ripple = self.lift * sine;
        let rippling = 2.0 * self.half_y * self.lift * cosine * ripple / (1.0 + ripple * ripple);
        2.0 / (self.n + beta) - 2.0 * beta / (1.0 + beta * beta) + rippling
    }

    /// β of the brightest plane.
    fn brightest(&self) -> f64 {
        let unclipped = 1.0 / self.n;
        if self.is_open() {
            return unclipped;
        }
        // The slope falls through zero once between the focal plane and the crest of the ripple. A ripple so
        // fine that its crest comes before the brightest plane of the unclipped beam is too faint to matter.
        let crest = 0.5 * PI / self.half_y;
        let beyond = if crest > unclipped { crest } else { 2.0 * unclipped };
        halve(0.0, beyond, |beta| self.slope(beta) > 0.0)
    }

    /// β of the end toward the lens (`side` = 1) or away from it (−1): the first place outward from the
    /// brightest one where g falls below (1 − `drop`)·`greatest`.
    fn end(&self, brightest: f64, greatest: f64, drop: f64, side: f64) -> f64 {
        // The unclipped beam is nowhere brighter, and it falls to that level at
        // β = (1 ± t·N)/(N ∓ t), t² = (1 + 1/N²)/level − 1.
        let open = (1.0 + 1.0 / (self.n * self.n)) / greatest;
        let squared = ((open - 1.0) + drop) / (1.0 - drop);
        let mut inner = brightest;
        if squared > 0.0 {
            let t = side * math::sqrt(squared);
            let unclipped = (1.0 + t * self.n) / (self.n - t);
            if side * (unclipped - brightest) > 0.0 {
                inner = unclipped;
            }
        }
        if self.is_open() {
            return inner;
        }
        // At every sin(β·Y/2) = 0 both are equally bright, so that the end lies within one period.
        let level = (1.0 - drop) * greatest;
        let holds = |beta: f64| self.irradiance(beta) >= level;
        let step = side * PI / (STEPS * self.half_y);
        loop {
            let next = inner + step;
            // At −N no light is left: that is infinitely far from the lens.
            let outer = math::greater(next, -self.n);
            if !holds(outer) {
                return halve(inner, outer, holds);
            }
            // A trough between two bright places may be dark all the same.
            if side * self.slope(inner) < 0.0 && side * self.slope(outer) > 0.0 {
                let trough = halve(inner, outer, |beta| side * self.slope(beta) < 0.0);
                if !holds(trough) {
                    return halve(inner, trough, holds);
                }
            }
            inner = outer;
        }
    }

    /// z over f, from the focal point.
    fn place(&self, beta: f64) -> f64 {
        -beta / (self.n + beta)
    }
}

/// Depth of focus of a collimated Gaussian beam behind an aperture at an ideal lens: where the irradiance
/// on the axis is at least (1 − `irradiance_drop`) times the greatest.
///
/// The law is exact for the Fresnel integral, see the [module](self): the two ends differ, and
/// [`Validity::FOCUS_SHIFTED`] says that they do so visibly, not that they are in error. It stands where
/// the Rayleigh range or half of the range exceeds 5 % of the focal length. Heights count from the focal
/// point; in a long focus both ends may lie on the lens side of it.
///
/// Accuracy: at most 8·(1 + c) ulp, where c is what the problem makes of an error in g: at an end
/// 1/abs((1 + β/N)·β·d(ln g)/dβ), which is near 1/(2p) in a sharp focus and large only for an end that
/// happens to lie at the focal point (`tests/vectors/clipped_depth_of_focus.csv`).
///
/// # Errors
/// As [`focus_clipped`](crate::model::optics::focus_clipped); then [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for a drop outside 0.01 … 0.9.
///
/// # Example
/// ```
/// use spotwise::model::focus::clipped_depth_of_focus;
/// // Nearly uniform light: half a Strehl-0.8 range is 2.06·λ·(f/a)², a constant of optics.
/// let depth = clipped_depth_of_focus(1.064e-6, 40e-3, 10e-3, 0.1, 0.2)?;
/// let over = 0.5 * depth.range.full / (1.064e-6 * 100.0);
/// assert!((over - 2.06).abs() < 0.01);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the range is the result"]
pub fn clipped_depth_of_focus(
    wavelength: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    focal_length: f64,
    irradiance_drop: f64,
) -> Result<ClippedDepth, Error> {
    let clipping = checked_clipping(wavelength, diameter_at_lens, clear_aperture, focal_length)?;
    let drop = check_within(Param::IrradianceDrop, irradiance_drop, DROPS.0, DROPS.1)?;
    let n = PI * diameter_at_lens * diameter_at_lens / (4.0 * wavelength * focal_length);
    let axis = Axis::new(n, clipping.clipping_ratio);
    let brightest = axis.brightest();
    let greatest = axis.irradiance(brightest);
    let z = |beta: f64| focal_length * axis.place(beta);
    let toward_lens = z(axis.end(brightest, greatest, drop, 1.0));
    let away_from_lens = z(axis.end(brightest, greatest, drop, -1.0));
    let relative_half_depth = 0.5 * (away_from_lens - toward_lens) / focal_length;
    let cone = clipping.cone.flagged(Validity::of_focus_shift(relative_half_depth));
    Ok(ClippedDepth {
        range: FocusRange::between(Twofold::from(toward_lens), Twofold::from(away_from_lens), cone),
        brightest_z: z(brightest),
        clipping_ratio: clipping.clipping_ratio,
        relative_rayleigh_range: clipping.relative_rayleigh_range,
        relative_half_depth,
    })
}
