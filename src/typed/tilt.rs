//! The spot on a tilted surface.

use super::beam::Beam;
use super::offset::Offset;
use super::{angle, length};
use crate::error::Error;
use crate::model::focus;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// The spot of a [`Beam`] on a surface that leans.
///
/// *Footprint* is the 1/e² circle of the beam, projected onto the surface; *contour* is the ellipse in which
/// the surface cuts the 1/e² hyperboloid. [`model::focus::tilt`](crate::model::focus::tilt) says how far
/// either is from the line of equal irradiance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltedSpot {
    /// **Diameter** of the footprint across the tilt, 1/e² (D4σ).
    pub diameter_across: Length,
    /// **Diameter** of the footprint along the tilt, measured on the surface.
    pub diameter_along: Length,
    /// Length of the contour along the tilt, measured on the surface.
    pub contour_along: Length,
    /// From the beam axis to the centre of the contour along the surface, **positive** to the side of the
    /// surface that lies farther from the lens.
    pub contour_shift_to_far_side: Length,
    /// Irradiance on the axis, for each area of the surface, over that at the waist on a level surface.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist on a level surface.
    pub line_dose_ratio: f64,
    /// Tangent of the tilt times the half angle of the cone; flagged above 0.2, refused from 1.
    pub grazing_ratio: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Beam {
    /// The spot on a surface that meets the beam axis at an offset from the waist, its normal tilted by this
    /// angle from the axis. As [`model::focus::tilted_spot`](crate::model::focus::tilted_spot).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the tilt must be from 0 to 1.5 rad;
    /// [`Error::OutsideModel`] where the edge of the cone runs along the surface.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{deg, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, Offset};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// let spot = beam.on_tilted_surface(Offset::ZERO, deg(30.0))?;
    /// assert_eq!((spot.diameter_along.value * 1e9).round(), 101_614.0); // 88 µm/cos 30°
    /// assert_eq!((spot.irradiance_ratio * 1e6).round(), 866_025.0); // cos 30°
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "angle of incidence")]
    pub fn on_tilted_surface(&self, surface: Offset, tilt: Angle) -> Result<TiltedSpot, Error> {
        let spot = focus::tilted_spot(self.as_model(), surface.metres(), tilt.value)?;
        Ok(TiltedSpot {
            diameter_across: length(spot.diameter_across),
            diameter_along: length(spot.diameter_along),
            contour_along: length(spot.contour_along),
            contour_shift_to_far_side: length(spot.contour_shift),
            irradiance_ratio: spot.irradiance_ratio,
            line_dose_ratio: spot.line_dose_ratio,
            grazing_ratio: spot.grazing_ratio,
            half_angle: angle(spot.half_angle),
            validity: spot.validity,
        })
    }
}
