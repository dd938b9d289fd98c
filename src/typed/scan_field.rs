//! A scan head with a flat-field lens that its user has measured.

use super::beam::Beam;
use super::offset::Offset;
use super::{angle, length};
use crate::error::Error;
use crate::model::surface;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// A lens for scanning by your own measurements in the middle and at the edge of its field. Formulas in
/// [`model::surface::scan_field`](crate::model::surface::scan_field).
///
/// ```compile_fail,E0308
/// use spotwise::units::{mm, rad};
/// use spotwise::{Offset, ScanLens};
/// let lens = ScanLens {
///     focal_length: mm(160.0),
///     field_radius: mm(70.0),
///     edge_tangential_focus: mm(1.0), // above or below the focus in the middle?
///     edge_sagittal_focus: Offset::ZERO,
///     edge_incidence: rad(0.0),
///     edge_spot_ratio: 1.0,
/// };
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanLens {
    /// Focal length, 10 µm to 10 km.
    pub focal_length: Length,
    /// Radius of the field at whose edge the rest was measured, 1 µm to 10 m.
    pub field_radius: Length,
    /// The table where the spot at the edge is narrowest **along** the radius, from the focus on the axis.
    pub edge_tangential_focus: Offset,
    /// The table where the spot at the edge is narrowest **across** the radius, from the focus on the axis; if
    /// you know but one focus, give it for both.
    pub edge_sagittal_focus: Offset,
    /// Angle between the middle of the beam and the normal of the table at the edge, up to 1 rad; 0 for a
    /// telecentric lens.
    pub edge_incidence: Angle,
    /// Narrowest spot at the edge **across** the radius over that on the axis, 1 to 10; 1 if not measured.
    pub edge_spot_ratio: f64,
}

/// A place in a field, from its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldPlace {
    /// In x.
    pub x: Length,
    /// In y.
    pub y: Length,
}

/// The spot at one place of a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanFieldSpot {
    /// Distance from the middle of the field.
    pub radius: Length,
    /// Angle off the axis by which the mirrors turn the light; a mirror turns by half of it.
    pub field_angle: Angle,
    /// Angle of incidence on the table.
    pub incidence: Angle,
    /// The table where the spot here is narrowest along the radius, from the focus on the axis.
    pub tangential_focus: Offset,
    /// The table where the spot here is narrowest across the radius, from the focus on the axis.
    pub sagittal_focus: Offset,
    /// **Diameter** on the table **along** the radius, 1/e² (D4σ).
    pub diameter_along_radius: Length,
    /// **Diameter** on the table **across** the radius, 1/e² (D4σ).
    pub diameter_across_radius: Length,
    /// Diameter along the radius over the waist diameter on the axis.
    pub growth_along_radius: f64,
    /// Diameter across the radius over the waist diameter on the axis.
    pub growth_across_radius: f64,
    /// Irradiance in the middle of the spot over that at the waist on the axis.
    pub irradiance_ratio: f64,
    /// Peak dose of a line scanned **along** the radius over that at the waist on the axis.
    pub line_dose_ratio_along_radius: f64,
    /// Peak dose of a line scanned **across** the radius over that at the waist on the axis.
    pub line_dose_ratio_across_radius: f64,
    /// Tangent of the incidence times the half angle of the cone; flagged above 0.2.
    pub grazing_ratio: f64,
    /// 1/e² half angle of the beam on the axis.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// How far a field reaches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanFieldExtent {
    /// Largest radius within which no spot grows by more than asked.
    pub radius: Length,
    /// Side of the largest square in that circle.
    pub square_side: Length,
    /// Whether that is the whole field of the lens.
    pub whole_field: bool,
    /// Grazing ratio at that radius.
    pub grazing_ratio: f64,
    /// 1/e² half angle of the beam on the axis.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Where to put the table for a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanFieldFocus {
    /// Best height of the table, from the focus on the axis: that at which the largest spot is smallest.
    pub best: Offset,
    /// The greatest distance of any focus of the field from there.
    pub greatest_defocus: Length,
    /// Growth in the middle of the field.
    pub centre_growth: f64,
    /// Growth at the edge of the field along the radius.
    pub edge_growth_along_radius: f64,
    /// Growth at the edge of the field across the radius.
    pub edge_growth_across_radius: f64,
    /// Grazing ratio at the edge of the field.
    pub grazing_ratio: f64,
    /// 1/e² half angle of the beam on the axis.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl ScanLens {
    fn as_model(&self) -> surface::ScanLens {
        surface::ScanLens {
            focal_length: self.focal_length.value,
            field_radius: self.field_radius.value,
            edge_tangential_z: self.edge_tangential_focus.metres(),
            edge_sagittal_z: self.edge_sagittal_focus.metres(),
            edge_incidence: self.edge_incidence.value,
            edge_spot_ratio: self.edge_spot_ratio,
        }
    }

    /// The spot at a place of the field on a table at an offset from the focus on the axis; `beam` is that at
    /// its focus on the axis. As [`model::surface::scan_field_at`](crate::model::surface::scan_field_at).
    ///
    /// # Errors
    /// As there: [`Error::OutsideModel`] for a place outside the field.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, rad, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, FieldPlace, Offset, ScanLens};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(1.064),
    ///     m_squared: 1.3,
    ///     waist: BeamWidth::from_diameter_1e2(um(60.0))?,
    /// })?;
    /// let lens = ScanLens {
    ///     focal_length: mm(160.0),
    ///     field_radius: mm(70.0),
    ///     edge_tangential_focus: Offset::toward_lens(mm(1.0))?,
    ///     edge_sagittal_focus: Offset::toward_lens(mm(0.4))?,
    ///     edge_incidence: rad(0.25),
    ///     edge_spot_ratio: 1.0,
    /// };
    /// let spot = lens.spot_at(&beam, FieldPlace { x: mm(21.0), y: mm(28.0) }, Offset::ZERO)?;
    /// assert_eq!((spot.incidence.value * 1e6).round(), 125_000.0); // halfway to the edge
    /// // z_R = 2.0441 mm; √(1 + (0.25/(2.0441·cos 0.125))²)/cos 0.125 = 1.01549
    /// assert_eq!((spot.growth_along_radius * 1e5).round(), 101_549.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn spot_at(&self, beam: &Beam, place: FieldPlace, table: Offset) -> Result<ScanFieldSpot, Error> {
        let (x, y) = (place.x.value, place.y.value);
        let spot = surface::scan_field_at(beam.as_model(), &self.as_model(), x, y, table.metres())?;
        Ok(ScanFieldSpot {
            radius: length(spot.radius),
            field_angle: angle(spot.field_angle),
            incidence: angle(spot.incidence),
            tangential_focus: Offset::from_metres(spot.tangential_focus_z),
            sagittal_focus: Offset::from_metres(spot.sagittal_focus_z),
            diameter_along_radius: length(spot.diameter_along_radius),
            diameter_across_radius: length(spot.diameter_across_radius),
            growth_along_radius: spot.growth_along_radius,
            growth_across_radius: spot.growth_across_radius,
            irradiance_ratio: spot.irradiance_ratio,
            line_dose_ratio_along_radius: spot.line_dose_ratio_along_radius,
            line_dose_ratio_across_radius: spot.line_dose_ratio_across_radius,
            grazing_ratio: spot.grazing_ratio,
            half_angle: angle(spot.half_angle),
            validity: spot.validity,
        })
    }

    /// How far from the middle the spot grows by at most this ratio in both directions, on a flat table at an
    /// offset from the focus on the axis. As
    /// [`model::surface::scan_field_extent`](crate::model::surface::scan_field_extent).
    ///
    /// # Errors
    /// As there: [`Error::Unreachable`] if the spot in the middle is larger already.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, rad, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, Offset, ScanLens};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(1.064),
    ///     m_squared: 1.3,
    ///     waist: BeamWidth::from_diameter_1e2(um(60.0))?,
    /// })?;
    /// let edge = Offset::toward_lens(mm(3.0))?;
    /// let lens = ScanLens {
    ///     focal_length: mm(160.0),
    ///     field_radius: mm(70.0),
    ///     edge_tangential_focus: edge,
    ///     edge_sagittal_focus: edge,
    ///     edge_incidence: rad(0.0),
    ///     edge_spot_ratio: 1.0,
    /// };
    /// let extent = lens.field_within_growth(&beam, Offset::ZERO, 1.1)?;
    /// // 70 mm·√(√(1.1² − 1)·2.0441/3)
    /// assert_eq!((extent.radius.value * 1e6).round(), 39_115.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn field_within_growth(
        &self,
        beam: &Beam,
        table: Offset,
        growth_ratio: f64,
    ) -> Result<ScanFieldExtent, Error> {
        let extent =
            surface::scan_field_extent(beam.as_model(), &self.as_model(), table.metres(), growth_ratio)?;
        Ok(ScanFieldExtent {
            radius: length(extent.radius),
            square_side: length(extent.square_side),
            whole_field: extent.whole_field,
            grazing_ratio: extent.grazing_ratio,
            half_angle: angle(extent.half_angle),
            validity: extent.validity,
        })
    }

    /// The best height of a flat table for the part of the field within a radius: that at which the largest spot is
    /// smallest. As [`model::surface::scan_field_focus`](crate::model::surface::scan_field_focus).
    ///
    /// # Errors
    /// As there: the radius must be within that of the field.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, rad, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, Offset, ScanLens};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(1.064),
    ///     m_squared: 1.3,
    ///     waist: BeamWidth::from_diameter_1e2(um(60.0))?,
    /// })?;
    /// let lens = ScanLens {
    ///     focal_length: mm(160.0),
    ///     field_radius: mm(70.0),
    ///     edge_tangential_focus: Offset::toward_lens(mm(3.0))?,
    ///     edge_sagittal_focus: Offset::toward_lens(mm(1.0))?,
    ///     edge_incidence: rad(0.0),
    ///     edge_spot_ratio: 1.0,
    /// };
    /// let focus = lens.best_table(&beam, mm(70.0))?;
    /// assert_eq!(focus.best, Offset::toward_lens(mm(1.5))?);
    /// assert_eq!((focus.centre_growth * 1e5).round(), 124_035.0); // √(1 + (1.5/2.0441)²)
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn best_table(&self, beam: &Beam, radius: Length) -> Result<ScanFieldFocus, Error> {
        let focus = surface::scan_field_focus(beam.as_model(), &self.as_model(), radius.value)?;
        Ok(ScanFieldFocus {
            best: Offset::from_metres(focus.best_z),
            greatest_defocus: length(focus.greatest_defocus),
            centre_growth: focus.centre_growth,
            edge_growth_along_radius: focus.edge_growth_along_radius,
            edge_growth_across_radius: focus.edge_growth_across_radius,
            grazing_ratio: focus.grazing_ratio,
            half_angle: angle(focus.half_angle),
            validity: focus.validity,
        })
    }
}
