//! How wide a filled stroke comes out, in focus and out of it.
//!
//! | symbol | meaning                                            | unit | valid       |
//! |--------|----------------------------------------------------|------|-------------|
//! | a, h   | drawn width of a long stroke, and its half         | m    | 1e-9 … 10   |
//! | q      | fill dose over threshold dose                      | 1    | 1e-6 … 1e6  |
//! | d, w   | spot **diameter** 1/e² at the offset, and its half | m    |             |
//! | z      | offset from the waist                              | m    | −1e7 … 1e7  |
//! | y      | half the width that marks                          | m    |             |
//!
//! exposure at y over that of the fill: E(y) = ½·\[erf(√2·(y + h)/w) − erf(√2·(y − h)/w)\]
//! the width that marks is 2y, where q·E(y) = 1
//! the stroke vanishes where erf(√2·h/w) = 1/q, at d = √2·a/erfinv(1/q)
//! with q < 1.000001 no stroke marks at any height: of strokes wider than 2.45·d, which still mark at 1.000001,
//! their a − 2.38·d vanish there at once
//!
//! The fill dose does not change with focus, only the blur does. For q > 2 a stroke that is wide against the
//! spot first grows out of focus, for it loses less than it gains outside; it is widest where also ∂E/∂w = 0:
//! with k = (y − h)/(y + h) and A² = −ln k/(1 − k²), where ½·\[erf(A) − erf(k·A)\] = 1/q, and then
//! w = √8·h/((1 − k)·A), y = h·(1 + k)/(1 − k). For q ≤ 2, and where that w is less than the waist's, it is
//! widest in the waist.
//!
//! A stroke much wider than the spot grows by twice the edge shift of [`detail`](super::detail).
//!
//! Derived here. The fill is taken for even. Where an edge runs along the lines of a raster, half an interval
//! outside the last one, the sum of the lines puts the edge of the mark elsewhere: for q from 1.5 to 8 by up to
//! 0.0061·w at an interval of w/4, 0.025·w at w/2, 0.112·w at w and 0.45·w at 2w. At intervals up to w/2 that is
//! farther in for q > 2 and farther out below (`tests/properties/marks.rs`).
//! Not modelled: neighbours, heat.

use super::detail::{Resolution, edge_argument, fill_marks};
use crate::error::{Error, Param, check};
use crate::model::focus::{checked_defocus, offset_for_diameter};
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;
use core::f64::consts::{FRAC_2_SQRT_PI, SQRT_2};

/// A filled stroke at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillWidth {
    /// Whether the stroke marks at all.
    pub marks: bool,
    /// Width that marks in metres; 0 if nothing does.
    pub width: f64,
    /// That width less the drawn one in metres, + where the stroke grows.
    pub growth: f64,
    /// Exposure on the middle of the stroke over that of a wide fill.
    pub exposure: f64,
    /// Spot **diameter** at this height in metres, 1/e² (D4σ).
    pub spot_diameter: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Where a filled stroke is widest, and where it vanishes. Offsets count from the waist, alike on either
/// side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillLimits {
    /// Whether the stroke marks in the waist; if not, it marks nowhere, and all else is 0.
    pub marks: bool,
    /// Width in the waist in metres.
    pub width_in_waist: f64,
    /// Offset from the waist at which the stroke is widest, in metres; 0 if that is the waist.
    pub widest_offset: f64,
    /// Width there in metres.
    pub greatest_width: f64,
    /// Offset from the waist at which the stroke vanishes, in metres.
    pub vanishing_offset: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// erf(x + way) − erf(x), where the far end lies above 0. Over a short way the difference would cancel.
pub(crate) fn erf_along(x: f64, way: f64) -> f64 {
    if way * (1.0 + math::fabs(x)) > SHORT_WAY {
        return math::erfc(x) - math::erfc(x + way);
    }
    // ∫ exp(−t²) by Gauss and Legendre's 5 points (Abramowitz and Stegun, table 25.4, from memory).
    const POINTS: [(f64, f64); 5] = [
        (-0.906_179_845_938_664, 0.236_926_885_056_189_08),
        (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
        (0.0, 0.568_888_888_888_888_9),
        (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
        (0.906_179_845_938_664, 0.236_926_885_056_189_08),
    ];
    let half = 0.5 * way;
    let middle = x + half;
    let mut sum = 0.0;
    for (place, weight) in POINTS {
        let t = middle + half * place;
        sum += weight * math::exp(-t * t);
    }
    FRAC_2_SQRT_PI * half * sum
}

/// way·(1 + |x|) up to which the 5 points are taken. What they leave out is at most 1.3e-16 of the integral, at
/// x = 0, and falls with the tenth power of the way; with the roundings of their sum they err by at most 5e-16.
/// The difference of two values of erfc, beyond, errs by at most 8e-16 up to a way of 0.5. Both are read off the
/// widths of strokes that hang on it, for which |x| < 0.5 (`tests/special.rs`); farther out, x² times more, as the
/// probabilities of `tests/vectors/offset_odds.csv` show.
const SHORT_WAY: f64 = 0.16;

/// By how much each edge of a stroke moves, + outward, for this spot; none if the stroke is lost.
fn edge_movement(spot_diameter: f64, drawn_width: f64, q: f64) -> Option<f64> {
    let scale = 2.0 * SQRT_2 / spot_diameter;
    let half = 0.5 * drawn_width;
    if !fill_marks(q) || q * math::erf(scale * half) < 1.0 {
        return None;
    }
    // At the distance x outside the drawn edge E = ½·[erf(√2·(x + a)/w) − erf(√2·x/w)] falls with x. The
    // other edge only takes, so that the mark ends no farther out than that of a wide stroke.
    let alone = edge_argument(q) / scale;
    let (mut inside, mut outside) = (-half, math::greater(alone, 0.0));
    for _ in 0..64 {
        let x = 0.5 * (inside + outside);
        let (near, way) = (scale * x, scale * drawn_width);
        let marks = if q < 2.0 {
            // Both sides taken from 2, which q near 1 comes close to.
            math::erfc(-near) + math::erfc(near + way) <= 2.0 * ((q - 1.0) / q)
        } else {
            erf_along(near, way) >= 2.0 / q
        };
        if marks {
            inside = x;
        } else {
            outside = x;
        }
    }
    Some(0.5 * (inside + outside))
}

/// Width of a long filled stroke at `z_offset` from the waist, + away from the lens.
///
/// Formulas in the [module](self). A stroke that is lost is no error: the width is then 0 and `marks` false.
///
/// Accuracy: width and growth at most 8 ulp of the larger of drawn width and spot, and times that over the
/// width where the stroke comes out narrower: about to vanish, its width hangs on the last digit of the dose
/// (`tests/vectors/fill_width.csv`). Exposure at most 4 ulp.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then in the order of the
/// arguments; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::{mark::fill_width, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// // At q = 2 a wide stroke keeps its width whatever the focus.
/// let wide = fill_width(&beam, 1e-3, 2.0, 0.5e-3)?;
/// assert_eq!((wide.width * 1e12).round(), 1e9);
/// // At q = 2.7 each edge moves out by 0.1654·44 µm in the waist.
/// let grown = fill_width(&beam, 1e-3, 2.7, 0.0)?;
/// assert_eq!((grown.growth * 1e9).round(), 14_558.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the width is the result"]
pub fn fill_width(beam: &Beam, drawn_width: f64, dose_ratio: f64, z_offset: f64) -> Result<FillWidth, Error> {
    let checked = checked_beam(beam)?;
    let drawn = check(Param::DrawnWidth, drawn_width)?;
    let q = check(Param::AnyDoseRatio, dose_ratio)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    let spot = checked_defocus(&checked, Twofold::from(z_offset));
    let moved = edge_movement(spot.diameter, drawn, q);
    Ok(FillWidth {
        marks: moved.is_some(),
        width: moved.map_or(0.0, |moved| drawn + 2.0 * moved),
        growth: moved.map_or(-drawn, |moved| 2.0 * moved),
        exposure: math::erf(SQRT_2 * (drawn / spot.diameter)),
        spot_diameter: spot.diameter,
        half_angle: spot.half_angle,
        validity: spot.validity,
    })
}

/// Spot **diameter** at which a stroke is widest, and its width there, for q > 2.
fn widest(drawn_width: f64, q: f64) -> (f64, f64) {
    // In t = k/(1 − k) = (y − h)/a, by which both k and 1 − k keep their digits. The exposure falls with t,
    // from ½ to nothing; q from the first double above 2 to 1e6 puts t between 3e-17 and 3e5.
    let (mut low, mut high) = (1e-17, 1e6);
    let argument = |t: f64| {
        // A² = −ln k/((1 − k)·(1 + k)), 1/(1 − k) = 1 + t
        math::sqrt(math::log1p(1.0 / t) * (1.0 + t) * (1.0 + t) / (1.0 + 2.0 * t))
    };
    for _ in 0..64 {
        let t = math::sqrt(low * high);
        let a = argument(t);
        let (near, way) = (a * (t / (1.0 + t)), a / (1.0 + t));
        let marks = if q < 4.0 {
            // Both sides taken from 1, which q near 2 comes close to.
            math::erfc(a) + math::erf(near) <= (q - 2.0) / q
        } else {
            erf_along(near, way) >= 2.0 / q
        };
        if marks {
            low = t;
        } else {
            high = t;
        }
    }
    let t = math::sqrt(low * high);
    // d = √8·a/((1 − k)·A), 2y = a·(1 + k)/(1 − k)
    (2.0 * SQRT_2 * drawn_width * (1.0 + t) / argument(t), drawn_width * (1.0 + 2.0 * t))
}

/// Where a long filled stroke is widest and where it vanishes.
///
/// Formulas in the [module](self).
///
/// Accuracy: the width in the waist as that of [`fill_width`]; the greatest width, off the waist, at most 16 ulp;
/// offsets at most 16 ulp times r²/(r² − 1), r being the growth of the spot there
/// (`tests/vectors/fill_limits.csv`).
///
/// # Errors
/// As [`fill_width`].
///
/// # Example
/// ```
/// use spotwise::model::{mark::fill_limits, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// // A stroke of 100 µm at q = 2 is lost where erf(√2·50/w) = ½: at d = √2·100 µm/0.476936 = 296.5 µm.
/// let limits = fill_limits(&beam, 100e-6, 2.0)?;
/// assert_eq!((limits.vanishing_offset * 1e7).round(), 15_386.0); // 0.4782 mm·√((296.5/88)² − 1)
/// assert_eq!(limits.widest_offset, 0.0);
/// // At q = 4 it is widest where erf(A) − erf(k·A) = ½: with 30 digits, elsewhere, k = 0.319158 and
/// // A = 1.127651, so d = √8·100 µm/((1 − k)·A) = 368.4 µm and the width 100 µm·(1 + k)/(1 − k) = 193.75 µm.
/// let strong = fill_limits(&beam, 100e-6, 4.0)?;
/// assert_eq!((strong.greatest_width * 1e9).round(), 193_754.0);
/// assert_eq!((strong.widest_offset * 1e7).round(), 19_438.0); // 0.4782 mm·√((368.4/88)² − 1)
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the limits are the result"]
pub fn fill_limits(beam: &Beam, drawn_width: f64, dose_ratio: f64) -> Result<FillLimits, Error> {
    let checked = checked_beam(beam)?;
    let drawn = check(Param::DrawnWidth, drawn_width)?;
    let q = check(Param::AnyDoseRatio, dose_ratio)?;
    let d0 = checked.waist_diameter;
    let mut limits = FillLimits {
        marks: false,
        width_in_waist: 0.0,
        widest_offset: 0.0,
        greatest_width: 0.0,
        vanishing_offset: 0.0,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    };
    let Some(moved) = edge_movement(d0, drawn, q) else {
        return Ok(limits);
    };
    let offset = |diameter: f64| offset_for_diameter(&checked, diameter).to_f64();
    limits.marks = true;
    limits.width_in_waist = drawn + 2.0 * moved;
    limits.greatest_width = limits.width_in_waist;
    limits.vanishing_offset = offset(Resolution::at_dose(q).largest_spot_for_bar(drawn));
    if q > 2.0 {
        let (diameter, width) = widest(drawn, q);
        if diameter > d0 {
            limits.widest_offset = offset(diameter);
            limits.greatest_width = width;
        }
    }
    Ok(limits)
}
