//! A raster fill: its ripple, and the offset at which it serves a taste.

use super::beam::Beam;
use super::dose::LineInterval;
use super::offset::Offset;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::mark::{self, RasterRipple};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// Ripple of the dose of a raster fill. As
/// [`model::mark::raster_ripple`](crate::model::mark::raster_ripple).
///
/// # Errors
/// [`Error::OutsideModel`] where the interval exceeds twenty spot radii.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, LineInterval, raster_ripple, units::um};
/// let spot = BeamWidth::from_diameter_1e2(um(100.0))?;
/// // Lines one spot radius apart: by Poisson summation the contrast is 2·exp(−π²/2) = 1.44 %.
/// let ripple = raster_ripple(spot, LineInterval::from_length(um(50.0))?)?;
/// assert_eq!((ripple.contrast * 1e4).round(), 144.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn raster_ripple(spot: BeamWidth, line_interval: LineInterval) -> Result<RasterRipple, Error> {
    mark::raster_ripple(spot.metres_1e2(), line_interval.metres())
}

/// The largest interval at which the ripple of a fill has no more than this contrast. As
/// [`model::mark::interval_for_ripple`](crate::model::mark::interval_for_ripple).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the contrast, 1e-12 to 0.999999.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, interval_for_ripple, units::um};
/// let spot = BeamWidth::from_diameter_1e2(um(100.0))?;
/// // The contrast of lines one radius apart, as for `raster_ripple`.
/// let interval = interval_for_ripple(spot, 0.014_383_9)?;
/// assert_eq!((interval.length().value * 1e8).round(), 5000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn interval_for_ripple(spot: BeamWidth, ripple_contrast: f64) -> Result<LineInterval, Error> {
    mark::interval_for_ripple(spot.metres_1e2(), ripple_contrast).map(LineInterval::computed)
}

/// What is wanted of a fill. The library does not say which is better.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Taste {
    /// The crispest edge.
    Crispest,
    /// The smoothest fill whose edge is no wider than this.
    SmoothestWithin {
        /// Greatest width of an edge, 10 % to 90 % of the dose.
        largest_edge: Length,
    },
    /// The least cost of edge and ripple together.
    Compromise {
        /// Weight of crispness, from 0.001 to 1.
        crispness_weight: f64,
    },
}

/// Edge and ripple of a fill at one offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillQuality {
    /// How far from the waist; it serves alike on either side.
    pub offset: Length,
    /// Spot there.
    pub spot: BeamWidth,
    /// Width of an edge from 10 % to 90 % of the dose.
    pub edge_width: Length,
    /// Contrast of the ripple of the fill.
    pub ripple_contrast: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl FillQuality {
    fn from_model(found: mark::FillQuality) -> Self {
        Self {
            offset: length(found.offset),
            spot: BeamWidth::computed(found.spot_diameter),
            edge_width: length(found.edge_width),
            ripple_contrast: found.ripple_contrast,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        }
    }
}

/// Raster fills.
impl Beam {
    /// Edge and ripple of a fill on a surface off the waist. As
    /// [`model::mark::fill_quality`](crate::model::mark::fill_quality).
    ///
    /// # Errors
    /// As there.
    pub fn fill_quality(&self, line_interval: LineInterval, surface: Offset) -> Result<FillQuality, Error> {
        mark::fill_quality(self.as_model(), line_interval.metres(), surface.metres())
            .map(FillQuality::from_model)
    }

    /// The offset that best serves a taste. As
    /// [`model::mark::offset_for_taste`](crate::model::mark::offset_for_taste).
    ///
    /// # Errors
    /// As there: [`Error::Unreachable`] for an edge finer than that in the waist.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{Beam, BeamParts, BeamWidth, LineInterval, Offset, Taste};
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// let interval = LineInterval::from_dots_per_inch(250.0)?;
    /// let smooth = Taste::SmoothestWithin { largest_edge: um(80.0) };
    /// let (crisp, smooth) = (
    ///     beam.fill_quality(interval, Offset::ZERO)?,
    ///     beam.offset_for_taste(interval, smooth)?,
    /// );
    /// // 0.64078 spot diameters, by erf(0.906194) = 0.8.
    /// assert_eq!((crisp.edge_width.value * 1e9).round(), 56_388.0);
    /// assert_eq!((smooth.edge_width.value * 1e9).round(), 80_000.0);
    /// assert!(smooth.ripple_contrast < crisp.ripple_contrast);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn offset_for_taste(&self, line_interval: LineInterval, taste: Taste) -> Result<FillQuality, Error> {
        let taste = match taste {
            Taste::Crispest => mark::Taste::Crispest,
            Taste::SmoothestWithin { largest_edge } => {
                mark::Taste::SmoothestWithin { largest_edge: largest_edge.value }
            }
            Taste::Compromise { crispness_weight } => mark::Taste::Compromise { crispness_weight },
        };
        mark::offset_for_taste(self.as_model(), line_interval.metres(), taste).map(FillQuality::from_model)
    }
}
