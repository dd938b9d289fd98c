//! A lens that travels along a gantry, away from a laser that stands still.

use super::beam::{Beam, Cone};
use super::lens::Lens;
use super::offset::Offset;
use super::path::ExpanderWaist;
use super::units::per_m;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::optics;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length, ReciprocalLength};

/// Over what distances a lens travels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GantryTravel {
    /// The shortest distance to the lens, along the light: from the raw waist, negative where that lies
    /// behind the lens, or from the expander.
    pub nearest: Length,
    /// The longest distance; not less than the shortest.
    pub farthest: Length,
}

/// How much the focus varies over the travel of a lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GantrySpread {
    /// Smallest spot on the travel.
    pub smallest_spot: BeamWidth,
    /// Largest spot on the travel.
    pub largest_spot: BeamWidth,
    /// Largest over smallest spot.
    pub spot_ratio: f64,
    /// The focus shift nearest the lens, from the focal point.
    pub least_focus_shift: Offset,
    /// The focus shift farthest from the lens, from the focal point.
    pub greatest_focus_shift: Offset,
    /// How far the focus wanders in height.
    pub focus_wander: Length,
    /// Greatest 1/e² half angle before and behind the lens.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

impl GantrySpread {
    fn from_model(spread: &optics::GantrySpread) -> Self {
        Self {
            smallest_spot: BeamWidth::computed(spread.smallest_spot),
            largest_spot: BeamWidth::computed(spread.largest_spot),
            spot_ratio: spread.spot_ratio,
            least_focus_shift: Offset::from_metres(spread.least_focus_shift),
            greatest_focus_shift: Offset::from_metres(spread.greatest_focus_shift),
            focus_wander: length(spread.focus_wander),
            half_angle: angle(spread.half_angle),
            validity: spread.validity,
        }
    }
}

/// A beam expander that is to even out the spot, before it is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExpanderToSet {
    /// Where the raw waist lies relative to the expander.
    pub waist: ExpanderWaist,
    /// Beam diameter behind the expander over that before it, 0.01 to 100.
    pub magnification: f64,
}

/// The setting of a beam expander that evens out the spot over the travel of a lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EvenGantry {
    /// By how much the expander must converge collimated light; negative to diverge it.
    pub exit_power: ReciprocalLength,
    /// Width at the waist behind the expander.
    pub waist: BeamWidth,
    /// From the expander to that waist, along the light; negative for a virtual waist.
    pub expander_to_waist: Length,
    /// Whether the spots at both ends of the travel are equal; if not, the beam is too thin to carry its
    /// waist to mid-travel, and this setting only makes the spots least unequal.
    pub ends_equal: bool,
    /// How the focus then varies.
    pub spread: GantrySpread,
}

/// Where [`Lens::focus_along_gantry`] writes, each as long as the distances.
#[derive(Debug)]
pub struct GantryColumns<'a> {
    /// Spot diameters in metres, 1/e² (D4σ).
    pub spot_diameters_1e2_m: &'a mut [f64],
    /// Focus shifts from the focal point in metres, + away from the lens.
    pub focus_shifts_away_from_lens_m: &'a mut [f64],
}

impl Lens {
    /// Spot and focus shift at many distances in metres from the raw waist to the lens, + where the waist
    /// lies upstream: for plots. As
    /// [`model::optics::focus_along_gantry`](crate::model::optics::focus_along_gantry).
    ///
    /// # Errors
    /// As there; on any error every element of both columns is NaN.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, GantryColumns, Lens};
    /// let raw = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(mm(3.5))?,
    /// })?;
    /// let (mut spots, mut shifts) = ([0.0; 2], [0.0; 2]);
    /// let columns =
    ///     GantryColumns { spot_diameters_1e2_m: &mut spots, focus_shifts_away_from_lens_m: &mut shifts };
    /// let cone = Lens::new(mm(50.8)).focus_along_gantry(&raw, &[0.5, 2.5], columns)?;
    /// // By hand: 3.5 mm × 50.8/√(449.2² + 756.4²) = 0.2021 mm, and 0.0694 mm at the far end.
    /// assert_eq!(spots.map(|spot| (spot * 1e7).round()), [2021.0, 694.0]);
    /// assert_eq!(shifts.map(|shift| (shift * 1e5).round()), [150.0, 96.0]);
    /// assert!(cone.validity.is_fine());
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "flying optics")]
    pub fn focus_along_gantry(
        &self,
        raw: &Beam,
        waist_to_lens_m: &[f64],
        columns: GantryColumns<'_>,
    ) -> Result<Cone, Error> {
        optics::focus_along_gantry(
            raw.as_model(),
            waist_to_lens_m,
            self.focal_length.value,
            columns.spot_diameters_1e2_m,
            columns.focus_shifts_away_from_lens_m,
        )
        .map(Cone::from_model)
    }

    /// How much spot and focus vary while the lens travels over distances from the raw waist. As
    /// [`model::optics::gantry_spread`](crate::model::optics::gantry_spread).
    ///
    /// # Errors
    /// As there; the lens must converge.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{m, mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, GantryTravel, Lens};
    /// let raw = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(mm(3.5))?,
    /// })?;
    /// let travel = GantryTravel { nearest: m(0.5), farthest: m(2.5) };
    /// let spread = Lens::new(mm(50.8)).gantry_spread(&raw, travel)?;
    /// // The raw beam grows, so the spot shrinks from 0.2021 mm to 0.0694 mm.
    /// assert_eq!((spread.largest_spot.diameter_1e2().value * 1e7).round(), 2021.0);
    /// assert_eq!((spread.smallest_spot.diameter_1e2().value * 1e7).round(), 694.0);
    /// // The shift is greatest between the ends, one Rayleigh range from the focal point: 1.706 mm.
    /// assert_eq!((spread.greatest_focus_shift.distance().value * 1e6).round(), 1706.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn gantry_spread(&self, raw: &Beam, travel: GantryTravel) -> Result<GantrySpread, Error> {
        let (nearest, farthest) = (travel.nearest.value, travel.farthest.value);
        optics::gantry_spread(raw.as_model(), nearest, farthest, self.focal_length.value)
            .map(|spread| GantrySpread::from_model(&spread))
    }

    /// The setting of an expander that makes the spots at both ends of the travel equal, or least unequal;
    /// the travel counts from the expander. As
    /// [`model::optics::even_out_gantry`](crate::model::optics::even_out_gantry).
    ///
    /// # Errors
    /// As there; the lens must converge.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{m, mm, um};
    /// use spotwise::{
    ///     Beam, BeamParts, BeamWidth, ExpanderToSet, ExpanderWaist, GantryTravel, Lens,
    /// };
    /// let raw = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(mm(4.0))?,
    /// })?;
    /// let expander = ExpanderToSet { waist: ExpanderWaist::AtExpander, magnification: 2.0 };
    /// let travel = GantryTravel { nearest: m(0.5), farthest: m(2.5) };
    /// let even = Lens::new(mm(50.8)).even_out_gantry(&raw, expander, travel)?;
    /// assert!(even.ends_equal && even.spread.spot_ratio < 1.06);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn even_out_gantry(
        &self,
        raw: &Beam,
        expander: ExpanderToSet,
        travel: GantryTravel,
    ) -> Result<EvenGantry, Error> {
        let found = optics::even_out_gantry(
            raw.as_model(),
            expander.waist.metres_to_expander()?,
            expander.magnification,
            travel.nearest.value,
            travel.farthest.value,
            self.focal_length.value,
        )?;
        Ok(EvenGantry {
            exit_power: per_m(found.exit_power),
            waist: BeamWidth::computed(found.waist_diameter),
            expander_to_waist: length(found.expander_to_waist),
            ends_equal: found.ends_equal,
            spread: GantrySpread::from_model(&found.spread),
        })
    }
}
