//! The blur budget: everything that widens the spot before the material sees it.
//!
//! | symbol | meaning                                                    | unit | valid       |
//! |--------|------------------------------------------------------------|------|-------------|
//! | dₐ, d_l | spot **diameter** 1/e² across and along the scan          | m    | 1e-9 … 10   |
//! | κ      | thermal diffusivity of the part                            | m²/s | 0 … 1e-2    |
//! | v      | speed along the scan                                       | m/s  | 1e-9 … 1e4  |
//! | a      | side of the pixels that are burnt as boxes; 0 for none     | m    | 0 … 1       |
//! | σ      | standard deviation of the jitter of the spot               | m    | 0 … 1       |
//! | t_r    | rise time of the power, 10 % to 90 %                       | s    | 0 … 1       |
//! | t_d    | delay of the power behind the motion                       | s    | 0 … 1       |
//! | t      | dwell √(π/2)·w_l/v                                         | s    |             |
//!
//! across: w² = (dₐ/2)² + 8κ·t + a²/3 + 4σ²
//! along:  w² = (d_l/2)² + 8κ·t + a²/3 + 4σ² + 4·(v·t_r/ln 9)²
//! width of an edge, 10 % to 90 % of the dose = 1.2816·w
//! smear of an edge = v·t_r, shift = v·t_d, comb of lines burnt to and fro = 2·v·t_d
//!
//! Each part counts by four times its variance, as the square of a 1/e² radius does: the heat kernel is a
//! Gaussian of variance 2κ·t, a box of side a has a²/12, an exponential rise of time constant t_r/ln 9
//! has its square. Variances of independent blurs add up exactly; that the result acts as a Gaussian is an
//! approximation where box or rise are not small. 1.2816 is the upper tenth point of the normal
//! distribution, whose deviation is w/2 here. The heat spreads for the dwell: a rule of order, not of digits.
//!
//! The lag t_d is that of the power at its half, and so includes t_r·ln 2/ln 9 = 0.32·t_r of an exponential
//! rise. Where box or rise exceed the spot, 1.2816·w is not their own edge: of a box alone it is 0.92 of
//! the true width from 10 % to 90 %, of a rise alone 1.17.
//!
//! Derived here. Heat kernel: H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, from memory.
//! Not modelled: heat left by earlier lines, melt flow, and materials whose marked layer follows the beam
//! though heat spreads below it.

use super::dose::ROOT_EIGHTH_PI;
use crate::error::{Error, Param, check};
use crate::model::math;

/// What blurs a scan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blur {
    /// Spot **diameter** across the scan in metres, 1/e² (D4σ).
    pub diameter_across: f64,
    /// Spot **diameter** along the scan in metres, 1/e² (D4σ).
    pub diameter_along: f64,
    /// Speed along the scan in m/s.
    pub speed: f64,
    /// Thermal diffusivity of the part in m²/s; 0 to leave heat out.
    pub diffusivity: f64,
    /// Side of the square pixels that are burnt as boxes, in metres; 0 for none.
    pub pixel: f64,
    /// Standard deviation of the jitter of the spot in metres, each way.
    pub jitter_deviation: f64,
    /// Rise time of the power from 10 % to 90 % in seconds.
    pub rise_time: f64,
    /// By how much the power lags behind the motion, in seconds.
    pub switch_delay: f64,
}

/// The sum of a [`Blur`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlurBudget {
    /// Dwell √(π/2)·w/v in seconds.
    pub dwell: f64,
    /// Diffusion length √(4κ·t) over the dwell, in metres.
    pub diffusion_length: f64,
    /// Spot **diameter** across the scan with all blurs, in metres.
    pub diameter_across: f64,
    /// Spot **diameter** along the scan with all blurs, in metres.
    pub diameter_along: f64,
    /// Width of an edge that runs along the scan, 10 % to 90 % of the dose, in metres.
    pub edge_across: f64,
    /// Width of an edge that lies across the scan, 10 % to 90 % of the dose, in metres.
    pub edge_along: f64,
    /// Way of the spot while the power rises, in metres.
    pub rise_smear: f64,
    /// Way of the spot while the power lags, by which an edge is shifted, in metres.
    pub delay_shift: f64,
    /// Offset of edges between lines burnt to and fro, in metres.
    pub two_way_comb: f64,
}

/// From a rise of 10 % to 90 % to the time constant: 1/ln 9.
const TIME_CONSTANT: f64 = 0.455_119_613_313_418_7;
/// Width of an edge from 10 % to 90 % over the 1/e² **diameter**: 0.906194/√2, with erf(0.906194) = 0.8.
pub(crate) const EDGE: f64 = 0.640_775_782_772_300_2;

/// 32·κ·t, by which heat adds to the square of a spot's diameter.
pub(super) fn heat_spread(diffusivity: f64, dwell: f64) -> f64 {
    32.0 * (diffusivity * dwell)
}

/// Adds up what blurs a scan, across and along.
///
/// Formulas, sources and what the sum is worth in the [module](self).
///
/// Accuracy: at most 4 ulp (`tests/vectors/blur_budget.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the fields.
///
/// # Example
/// ```
/// use spotwise::model::mark::{blur_budget, Blur};
/// // 1.09e-7 m²/s, as acrylic has (from memory), at 20 mm/s under a spot of 100 µm: over a dwell of
/// // √(π/2)·50 µm/(20 mm/s) = 3.1333 ms heat spreads √(4κ·t) = 36.96 µm.
/// let slow = Blur {
///     diameter_across: 100e-6, diameter_along: 100e-6, speed: 20e-3, diffusivity: 1.09e-7,
///     pixel: 0.0, jitter_deviation: 0.0, rise_time: 0.0, switch_delay: 0.0,
/// };
/// let budget = blur_budget(&slow)?;
/// assert_eq!((budget.dwell * 1e7).round(), 31_333.0);
/// assert_eq!((budget.diffusion_length * 1e9).round(), 36_961.0);
/// assert_eq!((budget.diameter_across * 1e9).round(), 144_668.0); // √(100² + 8·36.96²) µm
/// assert_eq!((budget.edge_across * 1e9).round(), 92_700.0); // 1.2816·72.334 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "heat affected zone")]
#[must_use = "the budget is the result"]
pub fn blur_budget(blur: &Blur) -> Result<BlurBudget, Error> {
    let across = check(Param::DiameterAcross, blur.diameter_across)?;
    let along = check(Param::DiameterAlong, blur.diameter_along)?;
    let speed = check(Param::Speed, blur.speed)?;
    let diffusivity = check(Param::Diffusivity, blur.diffusivity)?;
    let pixel = check(Param::Pixel, blur.pixel)?;
    let jitter = check(Param::JitterDeviation, blur.jitter_deviation)?;
    let rise = check(Param::RiseTime, blur.rise_time)?;
    let delay = check(Param::SwitchDelay, blur.switch_delay)?;

    let dwell = ROOT_EIGHTH_PI * (along / speed);
    // The squares of diameters: four times those of radii.
    let both_ways = heat_spread(diffusivity, dwell) + pixel * pixel * (4.0 / 3.0) + 16.0 * (jitter * jitter);
    let rise_smear = speed * rise;
    let rise_radius = TIME_CONSTANT * rise_smear;
    let diameter_across = math::sqrt(across * across + both_ways);
    let diameter_along = math::sqrt(along * along + both_ways + 16.0 * (rise_radius * rise_radius));
    let delay_shift = speed * delay;
    Ok(BlurBudget {
        dwell,
        // One root each: a product next to nothing would lose its digits.
        diffusion_length: 2.0 * math::sqrt(diffusivity) * math::sqrt(dwell),
        diameter_across,
        diameter_along,
        edge_across: EDGE * diameter_across,
        edge_along: EDGE * diameter_along,
        rise_smear,
        delay_shift,
        two_way_comb: 2.0 * delay_shift,
    })
}
