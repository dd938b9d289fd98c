//! What lenses, windows and parts are made of.

use super::length;
use super::lens::Lens;
use super::offset::Offset;
use super::units::per_m;
use crate::error::Error;
use crate::model::optics::{self, Glass, LensShape};
use core::ops::RangeInclusive;
use uom::si::f64::{Length, ReciprocalLength};

/// Index of a [`Glass`] at one wavelength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlassIndex {
    /// Refractive index.
    pub index: f64,
    /// Change of the index with wavelength, dn/dλ.
    pub dispersion: ReciprocalLength,
}

impl Glass {
    /// Index and dispersion at this vacuum wavelength. As
    /// [`model::optics::refractive_index`](crate::model::optics::refractive_index).
    ///
    /// # Errors
    /// [`Error::NotFinite`], or [`Error::OutOfRange`] outside [`Self::wavelength_range`].
    ///
    /// # Example
    /// ```
    /// use spotwise::{Glass, units::um};
    /// let at_10_6 = Glass::ZincSelenide.index_at(um(10.6))?;
    /// assert_eq!((at_10_6.index * 1e6).round(), 2_402_781.0); // the published formula, by mpmath
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn index_at(self, wavelength: Length) -> Result<GlassIndex, Error> {
        let found = optics::refractive_index(self, wavelength.value)?;
        Ok(GlassIndex { index: found.index, dispersion: per_m(found.dispersion) })
    }

    /// The vacuum wavelengths for which the published formula holds, ends included.
    #[must_use]
    pub fn wavelength_range(self) -> RangeInclusive<Length> {
        let (least, greatest) = self.wavelengths();
        length(least)..=length(greatest)
    }
}

/// What something is made of: a known glass, or anything of a known index.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Material {
    /// A glass, whose index follows from the wavelength of the beam.
    Glass(Glass),
    /// The refractive index at the working wavelength, 1.01 to 6.
    Index(f64),
}

impl Material {
    /// The index at this vacuum wavelength; for [`Material::Index`] the number itself.
    ///
    /// # Errors
    /// As [`Glass::index_at`]. A number is checked where it is used.
    ///
    /// # Example
    /// ```
    /// use spotwise::{Material, units::um};
    /// assert_eq!(Material::Index(2.4028).index_at(um(10.6))?, 2.4028);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn index_at(self, wavelength: Length) -> Result<f64, Error> {
        match self {
            Self::Glass(glass) => optics::refractive_index(glass, wavelength.value).map(|found| found.index),
            Self::Index(index) => Ok(index),
        }
    }
}

/// The two wavelengths of [`Lens::at_wavelength`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wavelengths {
    /// The one for which the focal length is stated.
    pub design: Length,
    /// The other one, such as that of a visible pointer.
    pub other: Length,
}

/// A thin lens at another wavelength than the one for which its focal length is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensAtWavelength {
    /// Refractive index at the design wavelength.
    pub design_index: f64,
    /// Refractive index at the other wavelength.
    pub index: f64,
    /// Focal length at the other wavelength, + converging.
    pub focal_length: Length,
    /// Where the other light focuses, from where light of the design wavelength does.
    pub focal_shift: Offset,
    /// Shape factor, which is a matter of the radii and the same for all light.
    pub shape_factor: f64,
    /// k in blur = k·D³/f² at the other wavelength, f being the focal length there.
    pub blur_coefficient: f64,
    /// C₄ in W = C₄·r⁴ at the other wavelength, in **1/m³**.
    pub wavefront_coefficient_per_m3: f64,
}

impl Lens {
    /// A single-piece lens of this glass and shape at another wavelength: where does the red pointer
    /// focus, and how sharply? A best form is one at the design wavelength. As [`model::optics::lens_at_wavelength`](crate::model::optics::lens_at_wavelength).
    ///
    /// # Errors
    /// [`Error::NotFinite`], or [`Error::OutOfRange`] where the formula of the glass does not reach.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Glass, Lens, LensShape, Side, Wavelengths};
    /// // By hand: 63.5 mm × 1.402781/1.410597 = 63.148 mm.
    /// let lens = Lens::new(mm(63.5));
    /// let wavelengths = Wavelengths { design: um(10.6), other: um(9.3) };
    /// let shape = LensShape::CurvedSideFirst;
    /// let at_9_3 = lens.at_wavelength(Glass::ZincSelenide, shape, wavelengths)?;
    /// assert_eq!((at_9_3.focal_length.value * 1e6).round(), 63_148.0);
    /// assert_eq!(at_9_3.focal_shift.side(), Side::TowardLens);
    /// assert_eq!(at_9_3.shape_factor, 1.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "chromatic")]
    pub fn at_wavelength(
        &self,
        glass: Glass,
        shape: LensShape,
        wavelengths: Wavelengths,
    ) -> Result<LensAtWavelength, Error> {
        let found = optics::lens_at_wavelength(
            glass,
            shape,
            self.focal_length.value,
            wavelengths.design.value,
            wavelengths.other.value,
        )?;
        Ok(LensAtWavelength {
            design_index: found.design_index,
            index: found.index,
            focal_length: length(found.focal_length),
            focal_shift: Offset::from_metres(found.focal_shift),
            shape_factor: found.shape_factor,
            blur_coefficient: found.blur_coefficient,
            wavefront_coefficient_per_m3: found.wavefront_coefficient,
        })
    }
}
