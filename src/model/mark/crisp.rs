//! Crisp or smooth: the edge of a fill and its ripple against focus, and the offset that serves a taste.
//!
//! | symbol | meaning                                             | unit | valid       |
//! |--------|-----------------------------------------------------|------|-------------|
//! | z      | offset from the waist                               | m    | −1e7 … 1e7  |
//! | d, g   | spot **diameter** at the offset, its growth d/d₀    | m, 1 |             |
//! | p, r   | line interval, and over the spot radius there       | m, 1 | 1e-9 … 1; r ≤ 20 in the waist |
//! | C(r)   | contrast of the ripple                              | 1    |             |
//! |        | largest edge, 10 % to 90 % of the dose              | m    | 0.6408·d₀ … 10, from 1e-9 |
//! | s      | weight of crispness                                 | 1    | 0.001 … 1   |
//!
//! width of an edge, 10 % to 90 % of the dose = 0.6408·d
//! cost of a compromise = s·(g − 1) + (1 − s)·C
//!
//! Out of focus the edge grows as the spot does, and the ripple fades. Which of them matters more is
//! taste, and the user's to say: the crispest edge is in the waist; the smoothest fill whose edge stays
//! under a limit is where the edge reaches it; a compromise has the least cost, in which a growth of
//! the edge by 1 % weighs as much as 1 % of contrast where s = ½.
//!
//! The cost is least in the waist or where r²·C′(r) = s·r₀/(1 − s) on the rising branch of the left-hand
//! side, r₀ being r in the waist; both are tried. As s falls, the compromise leaves the waist steadily where
//! r₀ < 2.137, at which r²·C′ is greatest: from a growth of 1e-7 at most, below which the costs differ by
//! less than a double can tell. Where r₀ is more it leaves by a jump between places of the same cost, at
//! r₀ = 3 and s = 0.43935 to 1.66 times the spot (`tests/properties/switches.rs`).
//!
//! The edge and the ripple are those of [`blur`](super::blur) and [`raster`](super::raster). Derived here; not
//! modelled: what those do not model.
//!
//! The edge is that of an even fill, or one across the lines. One that runs along the lines is steeper, for
//! the last line has no neighbour outside: from 10 % of the mean dose to the first 90 %, the sum of the lines
//! takes 0.99 of 0.6408·d at r = ¼, 0.96 at ½, 0.90 at ¾ and 0.78 at r = 1, where the ripple is 1.4 %. At
//! r = 2, where it is 57 %, it takes 0.50, and behind the last line the dose falls back to 43 %. So the width
//! is good to 5 % for r up to ½; above, the more so where stripes show, it is an upper bound
//! (`tests/properties/marks.rs`).

use super::blur::EDGE;
use super::raster::{check_fill, ripple_contrast, ripple_slope};
use crate::error::{Error, Param, check};
use crate::model::focus::{checked_defocus, offset_for_diameter};
use crate::model::math;
use crate::model::optics::{Beam, CheckedBeam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// What the user wants of a fill.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Taste {
    /// The crispest edge. Code 1.
    Crispest,
    /// The smoothest fill whose edge is no wider than this. Code 2.
    SmoothestWithin {
        /// Greatest width of an edge, 10 % to 90 % of the dose, in metres.
        largest_edge: f64,
    },
    /// The least cost of edge and ripple together. Code 3.
    Compromise {
        /// Weight of crispness, from 0.001 to 1.
        crispness_weight: f64,
    },
}

impl Taste {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Crispest => 1,
            Self::SmoothestWithin { .. } => 2,
            Self::Compromise { .. } => 3,
        }
    }

    /// The choice with this permanent code, ignoring the arguments that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The numbers are checked when they are used.
    pub fn from_code(code: u32, largest_edge: f64, crispness_weight: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Crispest),
            2 => Ok(Self::SmoothestWithin { largest_edge }),
            3 => Ok(Self::Compromise { crispness_weight }),
            value => Err(Error::UnknownChoice { param: Param::Taste, value }),
        }
    }
}

/// Edge and ripple of a fill at one offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillQuality {
    /// Magnitude of the offset from the waist in metres; it serves alike on either side.
    pub offset: f64,
    /// Spot **diameter** there in metres, 1/e² (D4σ).
    pub spot_diameter: f64,
    /// Width of an edge from 10 % to 90 % of the dose, in metres.
    pub edge_width: f64,
    /// Contrast of the ripple of the fill.
    pub ripple_contrast: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

fn quality_at(beam: &CheckedBeam, line_interval: f64, offset: Twofold) -> FillQuality {
    let spot = checked_defocus(beam, offset);
    FillQuality {
        offset: math::fabs(offset.to_f64()),
        spot_diameter: spot.diameter,
        edge_width: EDGE * spot.diameter,
        ripple_contrast: ripple_contrast(spot.diameter, line_interval),
        half_angle: spot.half_angle,
        validity: spot.validity,
    }
}

/// Checks beam and interval; the interval must not exceed 20 radii of the waist.
fn checked_fill(beam: &Beam, line_interval: f64) -> Result<(CheckedBeam, f64), Error> {
    let checked = checked_beam(beam)?;
    let p = check(Param::LineInterval, line_interval)?;
    check_fill(checked.waist_diameter, p)?;
    Ok((checked, p))
}

/// Edge width and ripple of a fill at `z_offset` from the waist, + away from the lens.
///
/// Formulas in the [module](self).
///
/// Accuracy: at most 4 ulp, the ripple at most 8 ulp times 1 + (π/r)² where r < 1.6, since the spot has
/// rounded before it (`tests/vectors/fill_quality.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then in the order of the
/// arguments; [`Error::OutsideModel`] if the half angle exceeds 0.3 rad or the interval 20 radii of the
/// waist.
///
/// # Example
/// ```
/// use spotwise::model::{mark::fill_quality, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let sharp = fill_quality(&beam, 60e-6, 0.0)?;
/// assert_eq!((sharp.edge_width * 1e9).round(), 56_388.0); // 0.6408·88 µm
/// let soft = fill_quality(&beam, 60e-6, 0.5e-3)?;
/// assert_eq!((soft.edge_width * 1e9).round(), 81_587.0); // 1.4469 times as wide, but …
/// // … the stripes are gone. With 30 digits, elsewhere: C(60/44) and C(60/44/1.4469).
/// assert_eq!((sharp.ripple_contrast * 1e6).round(), 140_756.0);
/// assert_eq!((soft.ripple_contrast * 1e6).round(), 7731.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the quality is the result"]
pub fn fill_quality(beam: &Beam, line_interval: f64, z_offset: f64) -> Result<FillQuality, Error> {
    let (checked, p) = checked_fill(beam, line_interval)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    Ok(quality_at(&checked, p, Twofold::from(z_offset)))
}

/// The offset from the waist that best serves a taste.
///
/// How it is found stands in the [module](self). The library does not say which taste is better. The edge of
/// [`Taste::SmoothestWithin`] may exceed its limit by rounding, some units in the last place.
///
/// Accuracy: at most 4 ulp, the offset that times g²/(g² − 1), g being the growth there; the ripple as in
/// [`fill_quality`]; of a compromise out of the waist all that times 1 + 1/k, where k = |d ln(r²·C′)/d ln r| says
/// how steeply the cost settles its place (`tests/vectors/offset_for_taste.csv`).
///
/// # Errors
/// As [`fill_quality`], then [`Error::NotFinite`] or [`Error::OutOfRange`] for the number in the taste;
/// [`Error::Unreachable`] if the largest edge is below that of the waist.
///
/// # Example
/// ```
/// use spotwise::model::{mark::{offset_for_taste, Taste}, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let smooth = offset_for_taste(&beam, 60e-6, Taste::SmoothestWithin { largest_edge: 70e-6 })?;
/// // By hand: d = 70 µm/0.640776 = 109.24 µm, 0.478 mm·√((109.24/88)² − 1) = 0.3517 mm.
/// assert_eq!((smooth.spot_diameter * 1e8).round(), 10_924.0);
/// assert_eq!((smooth.offset * 1e7).round(), 3517.0);
/// assert_eq!((smooth.ripple_contrast * 1e6).round(), 33_489.0); // C(120/109.24), 30 digits, elsewhere
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the offset is the result"]
pub fn offset_for_taste(beam: &Beam, line_interval: f64, taste: Taste) -> Result<FillQuality, Error> {
    let (checked, p) = checked_fill(beam, line_interval)?;
    let offset = match taste {
        Taste::Crispest => Twofold::ZERO,
        Taste::SmoothestWithin { largest_edge } => {
            let edge = check(Param::LargestEdge, largest_edge)?;
            let least = EDGE * checked.waist_diameter;
            if edge < least {
                let (_, greatest) = Param::LargestEdge.range();
                return Err(Error::Unreachable { param: Param::LargestEdge, value: edge, least, greatest });
            }
            offset_for_diameter(&checked, edge / EDGE)
        }
        Taste::Compromise { crispness_weight } => {
            let weight = check(Param::CrispnessWeight, crispness_weight)?;
            offset_for_diameter(&checked, checked.waist_diameter * best_growth(&checked, p, weight))
        }
    };
    Ok(quality_at(&checked, p, offset))
}

/// r at which r²·C′(r) is greatest.
const STEEPEST: f64 = 2.136_669_657_679_603;

/// The growth of least cost.
fn best_growth(beam: &CheckedBeam, line_interval: f64, weight: f64) -> f64 {
    let in_waist = 2.0 * line_interval / beam.waist_diameter;
    let ripple_weight = 1.0 - weight;
    // C falls while r²·C′ exceeds this.
    let rising = |r: f64| ripple_weight * ripple_slope(r) * r * r > weight * in_waist;
    let (mut low, mut high) = (0.2, math::lesser(in_waist, STEEPEST));
    if !(high > low && rising(high)) {
        return 1.0;
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if rising(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    let growth = 2.0 * in_waist / (low + high);
    let cost = |growth: f64| {
        let contrast = ripple_contrast(beam.waist_diameter * growth, line_interval);
        weight * (growth - 1.0) + ripple_weight * contrast
    };
    if cost(growth) < cost(1.0) { growth } else { 1.0 }
}
