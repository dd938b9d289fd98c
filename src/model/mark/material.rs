//! How a material answers to dose: coatings that are removed, bulk that is ablated, plastics that melt.
//!
//! | symbol | meaning                                                           | unit  | valid       |
//! |--------|-------------------------------------------------------------------|-------|-------------|
//! | H      | dose of **each** exposure on one place, such as the fluence of one pulse | J/m² | 1e-12 … 1e18 |
//! | H₁     | threshold of a single exposure                                    | J/m²  | 1e-12 … 1e18 |
//! | S      | incubation: 1 for none                                            | 1     | 0.5 … 1     |
//! | N      | exposures of that place                                           | 1     | 1 … 1e9     |
//! | q      | dose ratio H/(H₁·N^(S − 1))                                       | 1     |             |
//! | ℓ      | depth at which the dose has fallen by e                           | m     | 1e-12 … 1   |
//! | h      | energy that removes one volume                                    | J/m³  | 1 … 1e15    |
//! | κ      | thermal diffusivity                                               | m²/s  | 0 … 1e-2    |
//! | d      | spot **diameter**, 1/e²                                           | m     | 1e-9 … 10   |
//! | t      | dwell of the scan, see [`dose`](super::dose)                      | s     | 0 … 1e6     |
//!
//! coating: gone where q ≥ 1, and no more dose changes it
//! logarithmic ablation: depth = ℓ·ln q                          \[1\]
//! linear ablation: depth = (H − H₁·N^(S − 1))/h                  \[2\]
//! melt: marks where q ≥ 1 under a spot widened by heat, seen **diameter** √(d² + 32·κ·t) (see
//! [`blur`](super::blur))
//!
//! The numbers are the user's own, from test marks: [`fit_threshold`](crate::model::learn::fit_threshold) finds a
//! threshold. There is no table of materials here, and there will be none: coatings of one name differ by
//! more than any table could tell.
//!
//! \[1\] The dose falls as exp(−depth/ℓ) (Beer and Lambert) and removes while it exceeds the threshold.
//! \[2\] Every joule above the threshold removes its share. Threshold after N exposures: Y. Jee,
//! M. F. Becker, R. M. Walser, *J. Opt. Soc. Am. B* 5, 648 (1988), an empirical law, from memory.
//! Not modelled: coatings in which doses of neighbouring lines add up only in part, plumes, recoil.

use super::blur::heat_spread;
use super::dose::ROOT_EIGHTH_PI;
use crate::error::{Error, Param, check};
use crate::model::math;

/// How a material answers to dose.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Response {
    /// A coating that is removed above the threshold, and no further. Code 1.
    Coating,
    /// A bulk into which the dose falls off by an exponential law. Code 2.
    LogarithmicAblation {
        /// Depth at which the dose has fallen by e, in metres.
        penetration_depth: f64,
    },
    /// A bulk of which every joule above the threshold removes its share. Code 3.
    LinearAblation {
        /// Energy that removes one volume, in J/m³.
        removal_energy: f64,
    },
    /// A melt, whose heat spreads while the spot dwells. Code 4.
    Melt {
        /// Thermal diffusivity in m²/s.
        diffusivity: f64,
    },
}

impl Response {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Coating => 1,
            Self::LogarithmicAblation { .. } => 2,
            Self::LinearAblation { .. } => 3,
            Self::Melt { .. } => 4,
        }
    }

    /// The choice with this permanent code, ignoring the arguments that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The numbers are checked when they are used.
    pub fn from_code(
        code: u32,
        penetration_depth: f64,
        removal_energy: f64,
        diffusivity: f64,
    ) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Coating),
            2 => Ok(Self::LogarithmicAblation { penetration_depth }),
            3 => Ok(Self::LinearAblation { removal_energy }),
            4 => Ok(Self::Melt { diffusivity }),
            value => Err(Error::UnknownChoice { param: Param::Response, value }),
        }
    }

    /// Checks the number of the response.
    pub(crate) fn checked(self) -> Result<Self, Error> {
        match self {
            Self::Coating => {}
            Self::LogarithmicAblation { penetration_depth } => {
                check(Param::PenetrationDepth, penetration_depth)?;
            }
            Self::LinearAblation { removal_energy } => {
                check(Param::RemovalEnergy, removal_energy)?;
            }
            Self::Melt { diffusivity } => {
                check(Param::Diffusivity, diffusivity)?;
            }
        }
        Ok(self)
    }

    /// Depth that a dose digs; none for a coating or a melt.
    pub(crate) fn depth(self, dose: f64, threshold: f64) -> Option<f64> {
        let beyond = if dose >= threshold { dose - threshold } else { 0.0 };
        match self {
            // ln q = ln(1 + (H − H_N)/H_N)
            Self::LogarithmicAblation { penetration_depth } => {
                Some(penetration_depth * math::log1p(beyond / threshold))
            }
            Self::LinearAblation { removal_energy } => Some(beyond / removal_energy),
            Self::Coating | Self::Melt { .. } => None,
        }
    }
}

/// The spot of a scan as a material sees it: in a melt, heat spreads while the spot dwells.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SeenSpot {
    /// c of d² + c·d, the square of the seen diameter: 32·κ·√(π/8)/v, in metres.
    heat: f64,
}

impl SeenSpot {
    /// No heat spreads.
    pub(crate) const AS_IT_IS: Self = Self { heat: 0.0 };

    pub(crate) fn of_scan(response: Response, speed: f64) -> Self {
        match response {
            Response::Melt { diffusivity } => Self { heat: heat_spread(diffusivity, ROOT_EIGHTH_PI / speed) },
            _ => Self::AS_IT_IS,
        }
    }

    /// Seen **diameter** of a spot.
    pub(crate) fn of_spot(self, diameter: f64) -> f64 {
        if self.heat == 0.0 { diameter } else { math::sqrt(diameter * (diameter + self.heat)) }
    }

    /// **Diameter** of the spot that is seen as large as this.
    pub(crate) fn spot_seen_as(self, seen: f64) -> f64 {
        if self.heat == 0.0 {
            return seen;
        }
        // The root of d² + c·d = seen² that does not cancel.
        let twice = 2.0 * seen;
        twice * seen / (self.heat + math::sqrt(self.heat * self.heat + twice * twice))
    }
}

/// A material, as the user's own test marks show it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// Dose at which a single exposure just marks, in J/m².
    pub threshold: f64,
    /// Incubation S, by which the threshold of N exposures falls as N^(S − 1); 1 for none.
    pub incubation: f64,
    /// How it answers above the threshold.
    pub response: Response,
}

/// What a dose does to a [`Material`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaterialMark {
    /// Threshold after so many exposures in J/m².
    pub threshold: f64,
    /// Dose over that threshold.
    pub dose_ratio: f64,
    /// Whether it marks.
    pub marks: bool,
    /// Depth that one exposure adds in metres, 0 below the threshold; NaN for a coating or a melt, which tell
    /// none.
    pub depth: f64,
    /// Spot **diameter** as the material sees it, widened by heat in a melt, in metres.
    pub seen_diameter: f64,
}

/// (1 − S)·ln N: the threshold after N exposures is e to the minus this of that of one.
pub(super) fn log_threshold_fall(incubation: f64, exposures: f64) -> f64 {
    (1.0 - incubation) * math::log(exposures)
}

/// What a dose does to a material, and the spot as the material sees it.
///
/// `dose` is that of each of so many `exposures` of one place in J/m²: the fluence of one pulse, or the dose of
/// one pass; `spot_diameter` in metres and `dwell` in seconds are those of the scan (see
/// [`scan_dose`](super::scan_dose)) and matter only to a melt. Formulas and sources in the [module](self).
///
/// Accuracy: seen diameter at most 4 ulp; threshold and dose ratio at most 4 ulp times 1 + (1 − S)·ln N, which
/// is 1 without incubation; depth at most 4 ulp times that and times 1 + q/(q − 1) with incubation, 2 without
/// (`tests/vectors/material_mark.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], for the fields of the material in order, then in the order
/// of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::{material_mark, Material, Response};
/// // Removed from 0.5 J/mm² on, at 2 nm for each e-fold of dose.
/// let response = Response::LogarithmicAblation { penetration_depth: 2e-9 };
/// let bulk = Material { threshold: 0.5e6, incubation: 1.0, response };
/// let mark = material_mark(&bulk, 2.0e6, 1.0, 50e-6, 0.1e-3)?;
/// assert_eq!(mark.dose_ratio, 4.0);
/// assert_eq!((mark.depth * 1e13).round(), 27_726.0); // 2 nm·ln 4 = 2.7726 nm
/// // A melt that conducts 1.09e-7 m²/s, under 100 µm for 1 ms: √(100² + 32·0.109·1000) µm = 116.14 µm.
/// let melt = Material { response: Response::Melt { diffusivity: 1.09e-7 }, ..bulk };
/// let mark = material_mark(&melt, 2.0e6, 1.0, 100e-6, 1e-3)?;
/// assert_eq!((mark.seen_diameter * 1e8).round(), 11_614.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the mark is the result"]
pub fn material_mark(
    material: &Material,
    dose: f64,
    exposures: f64,
    spot_diameter: f64,
    dwell: f64,
) -> Result<MaterialMark, Error> {
    let single = check(Param::Threshold, material.threshold)?;
    let incubation = check(Param::Incubation, material.incubation)?;
    let response = material.response.checked()?;
    let dose = check(Param::Dose, dose)?;
    let exposures = check(Param::Pulses, exposures)?;
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let dwell = check(Param::Dwell, dwell)?;

    let threshold = single * math::exp(-log_threshold_fall(incubation, exposures));
    let marks = dose >= threshold;
    let depth = response.depth(dose, threshold).unwrap_or(f64::NAN);
    let seen_diameter = match response {
        Response::Melt { diffusivity } => math::sqrt(d * d + heat_spread(diffusivity, dwell)),
        _ => d,
    };
    Ok(MaterialMark { threshold, dose_ratio: dose / threshold, marks, depth, seen_diameter })
}
