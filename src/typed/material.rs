//! The material of a part, as the user's own test marks show it.

use super::units::{j_per_m2, m};
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::mark;
use uom::si::f64::{DiffusionCoefficient, Length, RadiantExposure, Time};

/// Energy that removes one volume of a material.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct RemovalEnergy {
    j_per_m3: f64,
}

impl RemovalEnergy {
    /// In J/m³, 1 to 1e15; checked where it is used.
    #[must_use]
    pub const fn from_j_per_m3(energy: f64) -> Self {
        Self { j_per_m3: energy }
    }

    /// In J/mm³.
    #[must_use]
    pub const fn from_j_per_mm3(energy: f64) -> Self {
        Self { j_per_m3: energy * 1e9 }
    }

    /// In J/m³.
    #[must_use]
    pub const fn in_j_per_m3(self) -> f64 {
        self.j_per_m3
    }
}

/// How a material answers to dose.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[non_exhaustive]
pub enum Response {
    /// A coating that is removed above the threshold, and no further.
    #[default]
    Coating,
    /// A bulk into which the dose falls off by an exponential law.
    LogarithmicAblation {
        /// Depth at which the dose has fallen by e, 1e-12 to 1 m.
        #[cfg_attr(feature = "serde", serde(with = "super::serde_text::penetration_depth"))]
        penetration_depth: Length,
    },
    /// A bulk of which every joule above the threshold removes its share.
    LinearAblation {
        /// Energy that removes one volume.
        #[cfg_attr(feature = "serde", serde(with = "super::serde_text::removal_energy"))]
        removal_energy: RemovalEnergy,
    },
    /// A melt, whose heat spreads while the spot dwells.
    Melt {
        /// Thermal diffusivity, 0 to 1e-2 m²/s.
        #[cfg_attr(feature = "serde", serde(with = "super::serde_text::diffusivity"))]
        diffusivity: DiffusionCoefficient,
    },
}

impl Response {
    pub(super) fn into_model(self) -> mark::Response {
        match self {
            Self::Coating => mark::Response::Coating,
            Self::LogarithmicAblation { penetration_depth } => {
                mark::Response::LogarithmicAblation { penetration_depth: penetration_depth.value }
            }
            Self::LinearAblation { removal_energy } => {
                mark::Response::LinearAblation { removal_energy: removal_energy.in_j_per_m3() }
            }
            Self::Melt { diffusivity } => mark::Response::Melt { diffusivity: diffusivity.value },
        }
    }
}

/// A material that is marked. There is no table of materials: the numbers come from test marks, see
/// [`fit_threshold`](crate::fit_threshold). ([`Material`](crate::Material) is that of a lens.)
///
/// # Example
/// ```
/// use spotwise::units::{j_per_mm2, nm, s, um};
/// use spotwise::{BeamWidth, PartMaterial, PlaceDose, Response};
/// // Removed from 0.5 J/mm² on, at 2 nm for each e-fold of dose.
/// let bulk = PartMaterial {
///     threshold: j_per_mm2(0.5),
///     incubation: 1.0,
///     response: Response::LogarithmicAblation { penetration_depth: nm(2.0) },
/// };
/// let mark = bulk.mark(PlaceDose {
///     dose: j_per_mm2(2.0),
///     exposures: 1.0,
///     spot: BeamWidth::from_diameter_1e2(um(50.0))?,
///     dwell: s(0.1e-3),
/// })?;
/// assert_eq!(mark.dose_ratio, 4.0);
/// // 2 nm·ln 4 = 2.7726 nm
/// assert_eq!((mark.depth.expect("a bulk tells its depth").value * 1e13).round(), 27_726.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartMaterial {
    /// Dose at which a single exposure just marks, 1e-12 to 1e18 J/m².
    pub threshold: RadiantExposure,
    /// Incubation S, by which the threshold of N exposures falls as N^(S − 1): 0.5 to 1, 1 for none.
    pub incubation: f64,
    /// How it answers above the threshold.
    pub response: Response,
}

/// What falls on one place of a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaceDose {
    /// Dose, 1e-12 to 1e18 J/m².
    pub dose: RadiantExposure,
    /// In how many exposures, 1 to 1e9.
    pub exposures: f64,
    /// The spot.
    pub spot: BeamWidth,
    /// For how long it dwells, 0 to 1e6 s; it matters only to a melt.
    pub dwell: Time,
}

/// What a dose does to a [`PartMaterial`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaterialMark {
    /// Threshold after so many exposures.
    pub threshold: RadiantExposure,
    /// Dose over that threshold.
    pub dose_ratio: f64,
    /// Whether it marks.
    pub marks: bool,
    /// Depth, 0 below the threshold; none for a coating or a melt, which tell none.
    pub depth: Option<Length>,
    /// The spot as the material sees it, widened by heat in a melt.
    pub seen_spot: BeamWidth,
}

impl PartMaterial {
    /// What a dose does, and the spot as the material sees it. As
    /// [`model::mark::material_mark`](crate::model::mark::material_mark).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field, those of the material first.
    pub fn mark(&self, place: PlaceDose) -> Result<MaterialMark, Error> {
        let material = mark::Material {
            threshold: self.threshold.value,
            incubation: self.incubation,
            response: self.response.into_model(),
        };
        let spot = place.spot.metres_1e2();
        let found =
            mark::material_mark(&material, place.dose.value, place.exposures, spot, place.dwell.value)?;
        Ok(MaterialMark {
            threshold: j_per_m2(found.threshold),
            dose_ratio: found.dose_ratio,
            marks: found.marks,
            depth: super::known(found.depth).map(m),
            seen_spot: BeamWidth::computed(found.seen_diameter),
        })
    }
}
