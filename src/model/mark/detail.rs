//! The finest bar, gap, dot and hole that a spot can hold in a dense raster.
//!
//! | symbol | meaning                                      | unit | valid           |
//! |--------|----------------------------------------------|------|-----------------|
//! | d, w   | spot **diameter** 1/e² and its half          | m    | 1e-9 ≤ d ≤ 10   |
//! | q      | dose ratio: fill dose over threshold dose    | 1    | 1.000001 … 1e6  |
//! | a, 2r  | size: width, side or **diameter** of a detail | m   | 1e-9 … 10       |
//! |        | finest stroke, finest gap                    | m    | 1e-9 … 10       |
//!
//! Exposure at the centre, relative to the fill:
//! bar of width a: erf(a/(√2·w)); gap: erfc(a/(√2·w));
//! square of side a: erf(a/(√2·w))²; dot of radius r: 1 − exp(−2·r²/w²); hole: exp(−2·r²/w²).
//! A bar or dot is kept while q times this is at least 1, a gap or hole while it is below 1:
//!
//! smallest bar = √2·w·erfinv(1/q)           smallest gap = √2·w·erfcinv(1/q)
//! smallest dot diameter = d·√(ln(q/(q − 1))/2)   smallest hole diameter = d·√(ln(q)/2)
//! smallest square = √2·w·erfinv(1/√q)
//! edge shift = (w/√2)·erfcinv(2/q), + outward
//!
//! Derived here as the convolution of a sharp edge, strip or disc with exp(−2r²/w²); the widths
//! are exact for one long bar by itself, and for one long gap in a fill without end. Both are the
//! worst case: neighbours add dose to a bar, and a gap between narrow bars gets less than one in a
//! fill.
//! At q = 2 an edge stays where it was drawn; about 2.7 is the habit in coatings that are
//! removed (common practice, no source).
//! Not modelled: heat that stays in the part, melt flow, incubation.

use crate::error::{Error, Param, check};
use crate::model::math;

/// The finest details that hold, all in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SmallestDetails {
    /// Width of the finest long stroke.
    pub bar: f64,
    /// Width of the finest long gap between filled areas.
    pub gap: f64,
    /// Diameter of the finest filled disc.
    pub dot_diameter: f64,
    /// Diameter of the finest open disc, such as a counter.
    pub hole_diameter: f64,
    /// Side of the finest filled square.
    pub square: f64,
    /// How far a straight edge moves, + outward (strokes grow), − inward.
    pub edge_shift: f64,
}

/// Exposure at the centre of a detail, over that of a wide fill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DetailExposure {
    /// A long stroke as wide as the size given.
    pub bar: f64,
    /// A long gap as wide, in a fill.
    pub gap: f64,
    /// A filled square of that side.
    pub square: f64,
    /// A filled disc of that **diameter**.
    pub dot: f64,
    /// An open disc of that **diameter** in a fill.
    pub hole: f64,
}

/// Whether a dose ratio is one of those of this module. Below them only a fill many spots wide would mark, and
/// for the rest of the model nothing does.
pub(crate) fn fill_marks(q: f64) -> bool {
    let (least, _) = Param::DoseRatio.range();
    q >= least
}

/// erfinv(1/q).
pub(super) fn bar_argument(q: f64) -> f64 {
    math::inverse_erf(1.0 / q, (q - 1.0) / q)
}

/// erfcinv(1/q) = erfinv(1 − 1/q).
pub(super) fn gap_argument(q: f64) -> f64 {
    math::inverse_erf((q - 1.0) / q, 1.0 / q)
}

/// erfcinv(2/q) = erfinv(1 − 2/q), odd about q = 2.
pub(super) fn edge_argument(q: f64) -> f64 {
    if q < 2.0 {
        -math::inverse_erf((2.0 - q) / q, 2.0 * ((q - 1.0) / q))
    } else {
        math::inverse_erf((q - 2.0) / q, 2.0 / q)
    }
}

/// erfinv(1/√q), with 1 − 1/√q = (q − 1)/(√q·(√q + 1)).
fn square_argument(q: f64) -> f64 {
    let root = math::sqrt(q);
    math::inverse_erf(1.0 / root, (q - 1.0) / (root * (root + 1.0)))
}

/// What a dose ratio, already checked, makes of any spot: found once, used at every height.
pub(crate) struct Resolution {
    bar: f64,
    gap: f64,
    dot: f64,
    hole: f64,
    square: f64,
    edge: f64,
}

impl Resolution {
    pub(crate) fn at_dose(q: f64) -> Self {
        Self {
            bar: bar_argument(q),
            gap: gap_argument(q),
            // ln(q/(q − 1)) = ln(1 + 1/(q − 1))
            dot: math::sqrt(0.5 * math::log1p(1.0 / (q - 1.0))),
            hole: math::sqrt(0.5 * math::log1p(q - 1.0)),
            square: square_argument(q),
            edge: edge_argument(q),
        }
    }

    /// The finest details of a spot of this diameter.
    pub(crate) fn of_spot(&self, d: f64) -> SmallestDetails {
        // √2·w = d/√2
        let width = d / core::f64::consts::SQRT_2;
        SmallestDetails {
            bar: width * self.bar,
            gap: width * self.gap,
            dot_diameter: d * self.dot,
            hole_diameter: d * self.hole,
            square: width * self.square,
            edge_shift: 0.5 * width * self.edge,
        }
    }

    /// The largest spot that holds a stroke.
    pub(super) fn largest_spot_for_bar(&self, stroke: f64) -> f64 {
        core::f64::consts::SQRT_2 * stroke / self.bar
    }

    /// The largest spot that holds both a stroke and a gap.
    pub(crate) fn largest_spot(&self, stroke: f64, gap: f64) -> f64 {
        let for_stroke = self.largest_spot_for_bar(stroke);
        let for_gap = core::f64::consts::SQRT_2 * gap / self.gap;
        math::lesser(for_stroke, for_gap)
    }
}

/// The finest bar, gap, dot and hole that this spot and dose ratio hold, and the shift of an edge.
///
/// Formulas and derivation in the [module](self).
///
/// Accuracy: at most 4 ulp (`tests/vectors/smallest_details.csv`), the edge shift's too, where it
/// passes through zero at q = 2; the square at most 5 ulp.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`]: at a dose ratio of 1 or below nothing marks.
///
/// # Example
/// ```
/// use spotwise::model::mark::smallest_details;
/// // With 30 digits, elsewhere: w = 44 µm, erfinv(1/2.7) = 0.341001, erfcinv(1/2.7) = 0.633412.
/// let detail = smallest_details(88e-6, 2.7)?;
/// assert_eq!((detail.bar * 1e9).round(), 21_219.0); // strokes down to 21 µm
/// assert_eq!((detail.gap * 1e9).round(), 39_414.0); // gaps down to 39 µm
/// assert_eq!((detail.dot_diameter * 1e9).round(), 42_323.0); // 88·√(ln(2.7/1.7)/2)
/// assert_eq!((detail.hole_diameter * 1e9).round(), 62_015.0); // 88·√(ln(2.7)/2)
/// assert_eq!((detail.square * 1e9).round(), 37_710.0);
/// assert_eq!((detail.edge_shift * 1e9).round(), 7279.0); // each edge moves out by 7.3 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "minimum feature")]
#[doc(alias = "resolution")]
#[must_use = "the details are the result"]
pub fn smallest_details(spot_diameter: f64, dose_ratio: f64) -> Result<SmallestDetails, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let q = check(Param::DoseRatio, dose_ratio)?;
    Ok(Resolution::at_dose(q).of_spot(d))
}

/// Exposure at the centre of a bar, gap, square, dot and hole of one size, over that of a wide fill.
///
/// Formulas and derivation in the [module](self). A detail is kept while the dose ratio times this is at
/// least 1, a gap or hole while it is below 1.
///
/// Accuracy: at most 4 ulp, the square at most 6 ulp; gap and hole at most 4 ulp times
/// 1 + 2·(size/spot diameter)² (`tests/vectors/detail_exposure.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::detail_exposure;
/// // Details as wide as the spot: erf(√2) = 0.9545, 1 − exp(−2) = 0.8647, and what they leave.
/// let exposure = detail_exposure(100e-6, 100e-6)?;
/// assert_eq!((exposure.bar * 1e4).round(), 9545.0);
/// assert_eq!((exposure.gap * 1e4).round(), 455.0);
/// assert_eq!((exposure.square * 1e4).round(), 9111.0); // 0.9545²
/// assert_eq!((exposure.dot * 1e4).round(), 8647.0);
/// assert_eq!((exposure.hole * 1e4).round(), 1353.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the exposure is the result"]
pub fn detail_exposure(spot_diameter: f64, size: f64) -> Result<DetailExposure, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let size = check(Param::DetailSize, size)?;
    // a/(√2·w) = √2·a/d, and 2·r²/w² = 2·(2r/d)²
    let ratio = size / d;
    let across = core::f64::consts::SQRT_2 * ratio;
    let exponent = 2.0 * ratio * ratio;
    let bar = math::erf(across);
    Ok(DetailExposure {
        bar,
        gap: math::erfc(across),
        square: bar * bar,
        dot: -math::expm1(-exponent),
        hole: math::exp(-exponent),
    })
}

/// Largest spot diameter in metres at which both a stroke and a gap of these widths still hold.
///
/// The smaller of √2·stroke/erfinv(1/q) and √2·gap/erfcinv(1/q), the inverse of
/// [`smallest_details`]; derivation in the [module](self). With
/// [`offsets_for_diameter`](crate::model::focus::offsets_for_diameter) it tells how far a surface may stray
/// before the detail suffers.
///
/// Accuracy: at most 3 ulp (`tests/vectors/largest_spot_for_details.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::largest_spot_for_details;
/// let d = largest_spot_for_details(100e-6, 100e-6, 2.7)?;
/// assert_eq!((d * 1e9).round(), 223_269.0); // √2·100 µm/0.633412: the gap is what limits it
/// let d = largest_spot_for_details(100e-6, 1e-3, 2.7)?;
/// assert_eq!((d * 1e9).round(), 414_724.0); // √2·100 µm/0.341001: now the stroke
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the diameter is the result"]
pub fn largest_spot_for_details(finest_stroke: f64, finest_gap: f64, dose_ratio: f64) -> Result<f64, Error> {
    let stroke = check(Param::FinestStroke, finest_stroke)?;
    let gap = check(Param::FinestGap, finest_gap)?;
    let q = check(Param::DoseRatio, dose_ratio)?;
    Ok(Resolution::at_dose(q).largest_spot(stroke, gap))
}
