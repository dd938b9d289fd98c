//! A beam's width, built and read by named definition only.

use super::length;
use crate::error::{Error, Param, check};
use crate::model::optics::{self, WidthDefinition};
use uom::si::f64::Length;

/// The width of a Gaussian beam, spot or waist.
///
/// Inside it is the 1/e² **diameter**. It is built and read by definition, so that a radius, a
/// half-maximum width or a bare length cannot be taken for it:
///
/// ```
/// use spotwise::{BeamWidth, units::um};
/// let width = BeamWidth::from_radius_1e2(um(44.0))?;
/// assert_eq!(width, BeamWidth::from_diameter_1e2(um(88.0))?);
/// # Ok::<(), spotwise::Error>(())
/// ```
///
/// A bare length does not compile where a width belongs:
///
/// ```compile_fail,E0308
/// use spotwise::{BeamWidth, smallest_details, units::um};
/// let spot = um(88.0); // a radius? a diameter? at half maximum?
/// let details = smallest_details(spot, 2.7);
/// ```
///
/// With the definition named it does:
///
/// ```
/// use spotwise::{BeamWidth, smallest_details, units::um};
/// let spot = BeamWidth::from_diameter_1e2(um(88.0))?;
/// let details = smallest_details(spot, 2.7)?;
/// # Ok::<(), spotwise::Error>(())
/// ```
///
/// The definitions are in fixed proportion for a Gaussian profile only; see
/// [`model::optics`](crate::model::optics) for how far others differ.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(into = "super::serde_text::WidthText"))]
pub struct BeamWidth {
    diameter_1e2: f64,
}

impl BeamWidth {
    /// From the diameter at 1/e² (13.5 %) of the peak irradiance, 1e-9 … 10 m.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`].
    #[doc(alias = "e-squared")]
    pub fn from_diameter_1e2(diameter: Length) -> Result<Self, Error> {
        Self::from_definition(diameter, WidthDefinition::InverseESquared)
    }

    /// From the **radius** at 1/e² of the peak irradiance.
    ///
    /// # Errors
    /// As [`Self::from_diameter_1e2`], of twice the radius.
    pub fn from_radius_1e2(radius: Length) -> Result<Self, Error> {
        Self::from_diameter_1e2(2.0 * radius)
    }

    /// From the second-moment diameter of ISO 11146.
    ///
    /// # Errors
    /// As [`Self::from_diameter_1e2`].
    #[doc(alias = "second moment")]
    pub fn from_d4sigma(diameter: Length) -> Result<Self, Error> {
        Self::from_definition(diameter, WidthDefinition::D4Sigma)
    }

    /// From the full width at half maximum.
    ///
    /// # Errors
    /// As [`Self::from_diameter_1e2`].
    #[doc(alias = "half maximum")]
    pub fn from_fwhm(width: Length) -> Result<Self, Error> {
        Self::from_definition(width, WidthDefinition::Fwhm)
    }

    /// From the diameter that holds 86.4665 % of the power, known in the trade as 86.5 %.
    ///
    /// # Errors
    /// As [`Self::from_diameter_1e2`].
    #[doc(alias = "power in the bucket")]
    pub fn from_power_86(diameter: Length) -> Result<Self, Error> {
        Self::from_definition(diameter, WidthDefinition::Power86)
    }

    /// From a width by any definition.
    ///
    /// # Errors
    /// As [`Self::from_diameter_1e2`].
    pub fn from_definition(width: Length, definition: WidthDefinition) -> Result<Self, Error> {
        let diameter = optics::convert_width(width.value, definition, WidthDefinition::InverseESquared)?;
        check(Param::BeamDiameter, diameter).map(Self::computed)
    }

    /// From a 1/e² diameter in metres that the model computed. It may be wider than a width that is
    /// given can be; a function that takes it checks it again.
    pub(crate) const fn computed(diameter_1e2: f64) -> Self {
        Self { diameter_1e2 }
    }

    pub(crate) const fn metres_1e2(self) -> f64 {
        self.diameter_1e2
    }

    /// Diameter at 1/e² of the peak irradiance.
    #[must_use]
    pub fn diameter_1e2(self) -> Length {
        length(self.diameter_1e2)
    }

    /// **Radius** at 1/e² of the peak irradiance.
    #[must_use]
    pub fn radius_1e2(self) -> Length {
        length(0.5 * self.diameter_1e2)
    }

    /// Second-moment diameter of ISO 11146.
    #[must_use]
    pub fn d4sigma(self) -> Length {
        self.diameter_1e2()
    }

    /// Full width at half maximum.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a computed width above 10 m, which has no meaning by another definition.
    pub fn fwhm(self) -> Result<Length, Error> {
        self.by_definition(WidthDefinition::Fwhm)
    }

    /// Diameter that holds 86.4665 % of the power.
    #[must_use]
    pub fn power_86(self) -> Length {
        self.diameter_1e2()
    }

    /// The width by any definition.
    ///
    /// # Errors
    /// As [`Self::fwhm`].
    pub fn by_definition(self, definition: WidthDefinition) -> Result<Length, Error> {
        optics::convert_width(self.diameter_1e2, WidthDefinition::InverseESquared, definition).map(length)
    }
}

/// A centred round aperture, built and read as diameter or radius by name.
///
/// ```compile_fail,E0308
/// use spotwise::{BeamWidth, power_through_aperture, units::mm};
/// fn share(beam: BeamWidth) {
///     let _ = power_through_aperture(beam, mm(5.0)); // a radius?
/// }
/// ```
///
/// ```
/// use spotwise::{Aperture, BeamWidth, power_through_aperture, units::mm};
/// fn share(beam: BeamWidth) {
///     let _ = power_through_aperture(beam, Aperture::from_radius(mm(5.0)));
/// }
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Aperture {
    diameter: f64,
}

impl Aperture {
    /// From its **diameter**; checked where it is used, 0 to 100 m.
    #[must_use]
    pub fn from_diameter(diameter: Length) -> Self {
        Self { diameter: diameter.value }
    }

    /// From its **radius**.
    #[must_use]
    pub fn from_radius(radius: Length) -> Self {
        Self::from_diameter(2.0 * radius)
    }

    /// Its diameter in metres, infinite where there is none, as the model has it.
    pub(crate) const fn metres_or_none(aperture: Option<Self>) -> f64 {
        match aperture {
            Some(aperture) => aperture.diameter,
            None => f64::INFINITY,
        }
    }

    /// Its **diameter**.
    #[must_use]
    pub fn diameter(self) -> Length {
        length(self.diameter)
    }

    /// Its **radius**.
    #[must_use]
    pub fn radius(self) -> Length {
        length(0.5 * self.diameter)
    }
}

/// Share of a beam's power that passes a centred round aperture.
///
/// As [`model::optics::power_through_aperture`](crate::model::optics::power_through_aperture).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the aperture.
///
/// # Example
/// ```
/// use spotwise::{Aperture, BeamWidth, power_through_aperture, units::mm};
/// let beam = BeamWidth::from_diameter_1e2(mm(10.0))?;
/// let share = power_through_aperture(beam, Aperture::from_diameter(mm(15.0)))?;
/// assert_eq!((share * 1e4).round(), 9889.0); // 98.9 %
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn power_through_aperture(beam: BeamWidth, aperture: Aperture) -> Result<f64, Error> {
    optics::power_through_aperture(beam.diameter_1e2, aperture.diameter)
}

/// The centred round aperture that passes this share of a beam's power.
///
/// As [`model::optics::diameter_for_power`](crate::model::optics::diameter_for_power).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the share, 0 to just below 1.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, aperture_for_power, units::mm};
/// let aperture = aperture_for_power(BeamWidth::from_diameter_1e2(mm(10.0))?, 0.99)?;
/// assert_eq!((aperture.diameter().value * 1e6).round(), 15_174.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn aperture_for_power(beam: BeamWidth, power_share: f64) -> Result<Aperture, Error> {
    optics::diameter_for_power(beam.diameter_1e2, power_share).map(|diameter| Aperture { diameter })
}
