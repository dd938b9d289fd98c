//! Marks by themselves and filled strokes, in focus and off it.

use super::beam::Beam;
use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::mark::{self, MarkKind};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// The mark of one pulse or line at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkWidth {
    /// Whether there is a mark at all.
    pub marks: bool,
    /// Width of the line or diameter of the dot; 0 without a mark.
    pub width: Length,
    /// Dose ratio at this height.
    pub dose_ratio: f64,
    /// Spot at this height.
    pub spot: BeamWidth,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// How the mark of one pulse or line fares through focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkLimits {
    /// Whether there is a mark in the waist; if not, there is none anywhere, and all lengths are 0.
    pub marks: bool,
    /// Width of the mark in the waist.
    pub width_in_waist: Length,
    /// How far from the waist, on either side, the mark is widest; 0 if that is the waist.
    pub widest_offset: Length,
    /// Width of the mark there.
    pub greatest_width: Length,
    /// How far from the waist, on either side, the mark vanishes.
    pub vanishing_offset: Length,
    /// Dose ratio in the waist at which the width would not react to focus to second order.
    pub focus_insensitive_dose_ratio: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A filled stroke at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillWidth {
    /// Whether the stroke marks at all.
    pub marks: bool,
    /// Width that marks; 0 if nothing does.
    pub width: Length,
    /// That width less the drawn one; negative where the stroke shrinks.
    pub growth: Length,
    /// Exposure on the middle of the stroke over that of a wide fill.
    pub exposure: f64,
    /// Spot at this height.
    pub spot: BeamWidth,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// How a filled stroke fares through focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillLimits {
    /// Whether the stroke marks in the waist; if not, it marks nowhere, and all lengths are 0.
    pub marks: bool,
    /// Width in the waist.
    pub width_in_waist: Length,
    /// How far from the waist, on either side, the stroke is widest; 0 if that is the waist.
    pub widest_offset: Length,
    /// Width there.
    pub greatest_width: Length,
    /// How far from the waist, on either side, the stroke vanishes.
    pub vanishing_offset: Length,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Marks. The dose ratio is that in the waist, 1e-6 to 1e6. Up to 1 a pulse or line leaves no mark, below 1.000001 no
/// fill does.
impl Beam {
    /// Width of the mark of one pulse or line on a surface off the waist. As
    /// [`model::mark::mark_width`](crate::model::mark::mark_width).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for the dose ratio.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{Beam, BeamParts, BeamWidth, MarkKind, Offset};
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// // At e² times the threshold a dot is as wide as the spot.
    /// let dot = beam.mark_width(MarkKind::Pulse, 7.389_056_098_930_65, Offset::ZERO)?;
    /// assert_eq!((dot.width.value * 1e12).round(), 88_000_000.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn mark_width(&self, kind: MarkKind, dose_ratio: f64, surface: Offset) -> Result<MarkWidth, Error> {
        let found = mark::mark_width(self.as_model(), kind, dose_ratio, surface.metres())?;
        Ok(MarkWidth {
            marks: found.marks,
            width: length(found.width),
            dose_ratio: found.dose_ratio,
            spot: BeamWidth::computed(found.spot_diameter),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Where the mark of one pulse or line is widest, where it vanishes, and the dose at which its width
    /// does not react to focus. As [`model::mark::mark_limits`](crate::model::mark::mark_limits).
    ///
    /// # Errors
    /// As [`Self::mark_width`].
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{Beam, BeamParts, BeamWidth, MarkKind};
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// // A dot at twice the threshold vanishes where the area has doubled: one Rayleigh range away.
    /// let dot = beam.mark_limits(MarkKind::Pulse, 2.0)?;
    /// assert!(((dot.vanishing_offset / beam.rayleigh_range()).value - 1.0).abs() < 1e-15);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn mark_limits(&self, kind: MarkKind, dose_ratio: f64) -> Result<MarkLimits, Error> {
        let found = mark::mark_limits(self.as_model(), kind, dose_ratio)?;
        Ok(MarkLimits {
            marks: found.marks,
            width_in_waist: length(found.width_in_waist),
            widest_offset: length(found.widest_offset),
            greatest_width: length(found.greatest_width),
            vanishing_offset: length(found.vanishing_offset),
            focus_insensitive_dose_ratio: found.focus_insensitive_dose_ratio,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Width that a stroke, drawn so wide and raster-filled, has on a surface off the waist. As
    /// [`model::mark::fill_width`](crate::model::mark::fill_width()).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for the drawn width, 1e-9 to 10 m, or the dose ratio.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, Offset};
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// // At twice the threshold the edges of a wide stroke stay where they are drawn.
    /// let stroke = beam.fill_width(mm(2.0), 2.0, Offset::ZERO)?;
    /// assert_eq!((stroke.width.value * 1e9).round(), 2_000_000.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn fill_width(&self, drawn: Length, dose_ratio: f64, surface: Offset) -> Result<FillWidth, Error> {
        let found = mark::fill_width(self.as_model(), drawn.value, dose_ratio, surface.metres())?;
        Ok(FillWidth {
            marks: found.marks,
            width: length(found.width),
            growth: length(found.growth),
            exposure: found.exposure,
            spot: BeamWidth::computed(found.spot_diameter),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Where a filled stroke is widest, and where it vanishes. As
    /// [`model::mark::fill_limits`](crate::model::mark::fill_limits).
    ///
    /// # Errors
    /// As [`Self::fill_width`].
    pub fn fill_limits(&self, drawn: Length, dose_ratio: f64) -> Result<FillLimits, Error> {
        let found = mark::fill_limits(self.as_model(), drawn.value, dose_ratio)?;
        Ok(FillLimits {
            marks: found.marks,
            width_in_waist: length(found.width_in_waist),
            widest_offset: length(found.widest_offset),
            greatest_width: length(found.greatest_width),
            vanishing_offset: length(found.vanishing_offset),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
