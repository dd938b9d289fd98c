//! Flat windows in a converging beam, and focus inside a transparent part.

use super::beam::Beam;
use super::glass::Material;
use super::offset::Offset;
use super::{angle, length};
use crate::error::Error;
use crate::model::optics;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// A flat plate or window, its faces parallel and at right angles to the beam.
///
/// # Example
/// ```
/// use spotwise::units::{mm, um};
/// use spotwise::{Beam, BeamParts, BeamWidth, Material, Plate, Side};
/// let beam = Beam::new(BeamParts {
///     wavelength: um(10.6),
///     m_squared: 1.2,
///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
/// })?;
/// let window = Plate { thickness: mm(3.0), material: Material::Index(2.4) };
/// let behind = window.focus_behind(&beam)?;
/// // By hand: 3 mm × (1 − 1/2.4) = 1.75 mm.
/// assert_eq!((behind.focus_shift.distance().value * 1e9).round(), 1_750_000.0);
/// assert_eq!(behind.focus_shift.side(), Side::AwayFromLens);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Thickness, 0 to 10 m.
    pub thickness: Length,
    /// What it is made of.
    pub material: Material,
}

/// What a [`Plate`] does to a focus behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateFocus {
    /// How far the waist moves.
    pub focus_shift: Offset,
    /// How far the crossing of the rays at the 1/e² cone moves, by Snell's law.
    pub edge_focus_shift: Offset,
    /// Quartic wavefront aberration of the plate at the 1/e² radius, negative: of the opposite sign to that
    /// of a converging singlet.
    pub aberration_phase: Angle,
    /// Magnitude of the aberration phase over M².
    pub normalised_aberration: f64,
    /// Half angle of the cone, in air.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A focus inside a transparent part. Its waist is as wide as in air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsideFocus {
    /// From the face of the part to the waist.
    pub depth: Length,
    /// From the face to the crossing of the rays at the 1/e² cone, by Snell's law.
    pub edge_depth: Length,
    /// Rayleigh range inside the part.
    pub rayleigh_range: Length,
    /// Quartic wavefront aberration at the 1/e² radius, negative.
    pub aberration_phase: Angle,
    /// Magnitude of the aberration phase over M².
    pub normalised_aberration: f64,
    /// Half angle of the cone, in air.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Plate {
    /// The focus of a beam that passes the plate on its way to the waist. As
    /// [`model::optics::focus_behind_plate`](crate::model::optics::focus_behind_plate).
    ///
    /// # Errors
    /// As there, and as [`Material::index_at`].
    pub fn focus_behind(&self, beam: &Beam) -> Result<PlateFocus, Error> {
        let index = self.material.index_at(beam.wavelength())?;
        let found = optics::focus_behind_plate(beam.as_model(), self.thickness.value, index)?;
        Ok(PlateFocus {
            focus_shift: Offset::from_metres(found.focus_shift),
            edge_focus_shift: Offset::from_metres(found.edge_focus_shift),
            aberration_phase: angle(found.aberration_phase),
            normalised_aberration: found.normalised_aberration,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}

impl Material {
    /// The focus inside a part of this material when the lens, in focus on the part's face, is lowered by so
    /// much. As [`model::optics::focus_inside`](crate::model::optics::focus_inside).
    ///
    /// # Errors
    /// As there, and as [`Self::index_at`].
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, nm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, Material};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: nm(532.0),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(20.0))?,
    /// })?;
    /// let inside = Material::Index(1.5).focus_inside(&beam, mm(2.0))?;
    /// assert_eq!((inside.depth.value * 1e9).round(), 3_000_000.0); // 1.5 times 2 mm
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn focus_inside(self, beam: &Beam, lens_lowered_by: Length) -> Result<InsideFocus, Error> {
        let index = self.index_at(beam.wavelength())?;
        let found = optics::focus_inside(beam.as_model(), lens_lowered_by.value, index)?;
        Ok(InsideFocus {
            depth: length(found.depth),
            edge_depth: length(found.edge_depth),
            rayleigh_range: length(found.rayleigh_range),
            aberration_phase: angle(found.aberration_phase),
            normalised_aberration: found.normalised_aberration,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
