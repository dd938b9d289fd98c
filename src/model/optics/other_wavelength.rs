//! A lens in other light than that for which it was made: another laser line, or a visible pointer.
//!
//! | symbol | meaning                                     | unit |
//! |--------|---------------------------------------------|------|
//! | n₁, n₂ | index at the design and the other wavelength | 1    |
//! | f₁, f₂ | focal length there, + converging            | m    |
//! | q      | shape factor                                | 1    |
//!
//! f₂ = f₁·(n₁ − 1)/(n₂ − 1)
//! f₂ − f₁ = f₁·(n₁ − n₂)/(n₂ − 1), with n₁ − n₂ from the divided difference of the dispersion formula
//! aberration = that of a lens of index n₂, shape q and focal length f₂
//!
//! From the lensmaker's equation: the radii stay, and with them q. Dispersion formulas and their sources:
//! [`glass`](super::glass); aberration: [`singlet`](super::singlet). Not modelled: thickness, heat.

use super::glass::Glass;
use super::lens::check_focal_length;
use super::singlet::{LensShape, distant_aberration};
use crate::error::{Error, Param, check};
use crate::model::twofold::Twofold;

/// A thin lens at another wavelength than the one for which its focal length is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensAtWavelength {
    /// Refractive index at the design wavelength.
    pub design_index: f64,
    /// Refractive index at the other wavelength.
    pub index: f64,
    /// Focal length at the other wavelength in metres.
    pub focal_length: f64,
    /// Focal length at the other wavelength less that at the design wavelength, in metres, + where the
    /// other light focuses farther from the lens.
    pub focal_shift: f64,
    /// Shape factor q, which is a matter of the radii and the same for all light.
    pub shape_factor: f64,
    /// k in blur = k·D³/f² at the other wavelength, f being the focal length there.
    pub blur_coefficient: f64,
    /// C₄ in W = C₄·r⁴ at the other wavelength, in 1/m³.
    pub wavefront_coefficient: f64,
}

/// Focal length and aberration of a thin lens at another wavelength than the one for which it is stated.
///
/// f₂ = f₁·(n₁ − 1)/(n₂ − 1), aberration by [`lens_aberration`](super::lens_aberration) with the index there
/// and the shape that the lens was ground to; a best form is one at the design wavelength. Sources in the
/// [module](self). It tells how far the focus moves from one
/// laser line to another, and how far from the working focus a visible pointer through the same lens
/// comes to its own, how sharp or not. It holds for a lens of one material. For a raw beam that is not
/// collimated give the result to [`focus_through_lens`](super::focus_through_lens); the red pointer
/// has a beam of its own.
///
/// `focal_length` is that at `design_wavelength` in metres, of either sign. All wavelengths are
/// vacuum wavelengths in metres.
///
/// Accuracy: the indices at most 2 ulp, focal length and shift at most 4 ulp, for any two wavelengths
/// however close (`tests/vectors/lens_at_wavelength.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments; both wavelengths must
/// be within [`Glass::wavelengths`].
///
/// # Example
/// ```
/// use spotwise::model::optics::{lens_at_wavelength, Glass, LensShape};
/// // A zinc selenide lens, 63.5 mm at 10.6 µm, in the light of a red pointer of 650 nm.
/// let form = LensShape::CurvedSideFirst;
/// let red = lens_at_wavelength(Glass::ZincSelenide, form, 63.5e-3, 10.6e-6, 0.65e-6)?;
/// assert_eq!((red.index * 1e6).round(), 2_580_924.0);        // 2.580924
/// assert_eq!((red.focal_length * 1e9).round(), 56_344_640.0); // 56.345 mm
/// assert_eq!((red.focal_shift * 1e9).round(), -7_155_360.0);  // 7.155 mm nearer the lens
/// // Plano-convex: k = (n³ − 2n² + 2)/(32·n·(n − 1)²), by hand 0.02844 for n = 2.580924.
/// assert_eq!((red.blur_coefficient * 1e5).round(), 2844.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "chromatic shift")]
#[doc(alias = "red dot pointer")]
#[must_use = "the lens is the result"]
pub fn lens_at_wavelength(
    glass: Glass,
    shape: LensShape,
    focal_length: f64,
    design_wavelength: f64,
    wavelength: f64,
) -> Result<LensAtWavelength, Error> {
    let formula = glass.formula();
    if let LensShape::ShapeFactor { factor } = shape {
        check(Param::ShapeFactor, factor)?;
    }
    let f = Twofold::from(check_focal_length(focal_length)?);
    let design = formula.checked_micrometres(Param::DesignWavelength, design_wavelength)?;
    let other = formula.checked_micrometres(Param::Wavelength, wavelength)?;
    let (n1, n2) = (formula.index(design), formula.index(other));
    let n2_less_one = n2 - Twofold::ONE;
    // n₁ − n₂ = (λ₂² − λ₁²)·Σ r/((λ₁² − C)·(λ₂² − C)) / (n₁ + n₂)
    let square_difference = (other - design) * (other + design);
    let index_difference = square_difference * formula.divided_difference(design, other) / (n1 + n2);
    let there = f * (n1 - Twofold::ONE) / n2_less_one;
    let shape_factor = shape.checked_factor(n1)?;
    let (blur, coefficient) = distant_aberration(n2, shape_factor, there);
    Ok(LensAtWavelength {
        design_index: n1.to_f64(),
        index: n2.to_f64(),
        focal_length: there.to_f64(),
        focal_shift: (f * index_difference / n2_less_one).to_f64(),
        shape_factor: shape_factor.to_f64(),
        blur_coefficient: blur.to_f64(),
        wavefront_coefficient: coefficient.to_f64(),
    })
}
