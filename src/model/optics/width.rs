//! Beam widths by their definitions, and the power inside an aperture, for a Gaussian profile.
//!
//! | symbol | meaning                                  | unit | valid        |
//! |--------|------------------------------------------|------|--------------|
//! | d      | **diameter** at 1/e² of the irradiance   | m    | 1e-9 … 10    |
//! | a      | **diameter** of a centred round aperture | m    | 0 … 100      |
//! | s      | share of the power inside the aperture   | 1    | 0 ≤ s < 1    |
//!
//! FWHM = d·√(ln 2 / 2)                    \[1\]
//! D4σ = d                                 \[1\] for this profile only
//! s(a) = 1 − exp(−2·a²/d²)                \[1\]
//! a(s) = d·√(−ln(1 − s) / 2)              inverse of the line above
//!
//! The four definitions are in fixed proportion **only for a Gaussian profile**. A beam with
//! M² > 1 has another profile: at the same D4σ, the 86 % diameter of a mixture of the two lowest
//! modes is 0.982 of it at M² = 1.5 and 0.956 at M² = 1.8. Measure in the definition you use.
//!
//! \[1\] A. E. Siegman, *Lasers* (1986), section 17.1, from memory; each re-derived by integration
//! of exp(−2r²/w²), and printed values checked in `tests/published.rs`.

use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::twofold::Twofold;

/// By which rule a beam's width is read. The codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum WidthDefinition {
    /// Where the irradiance has fallen to 1/e² (13.5 %) of its peak.
    #[doc(alias = "e-squared")]
    InverseESquared = 1,
    /// Four standard deviations of the irradiance, the width of ISO 11146.
    #[doc(alias = "second moment")]
    D4Sigma = 2,
    /// Full width at half maximum.
    #[doc(alias = "half maximum")]
    Fwhm = 3,
    /// The diameter that holds 1 − e⁻² = 86.4665 % of the power, which the trade and standards
    /// round to 86.5 %. For another share use [`diameter_for_power`].
    #[doc(alias = "power in the bucket")]
    Power86 = 4,
}

impl WidthDefinition {
    /// Every definition, in the order of its code.
    pub const ALL: [Self; 4] = [Self::InverseESquared, Self::D4Sigma, Self::Fwhm, Self::Power86];

    /// The definition with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|definition| *definition as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::WidthDefinition, value: code })
    }

    /// This width over the 1/e² width of a Gaussian profile.
    fn over_inverse_e_squared(self) -> Twofold {
        match self {
            Self::InverseESquared | Self::D4Sigma | Self::Power86 => Twofold::ONE,
            // √(ln 2 / 2) = 0.588705…
            Self::Fwhm => (Twofold::LN_2 / Twofold::from(2.0)).square_root(),
        }
    }
}

/// The same Gaussian beam's diameter by another definition, in metres.
///
/// Gaussian profile only: see the [module](self) for how far other profiles differ.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/convert_width.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a diameter outside 1e-9 … 10 m.
///
/// # Example
/// ```
/// use spotwise::model::optics::{convert_width, WidthDefinition};
/// let fwhm = convert_width(100e-6, WidthDefinition::InverseESquared, WidthDefinition::Fwhm)?;
/// assert_eq!((fwhm * 1e9).round(), 58_871.0); // 58.871 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the converted diameter is the result"]
pub fn convert_width(diameter: f64, from: WidthDefinition, to: WidthDefinition) -> Result<f64, Error> {
    let diameter = check(Param::BeamDiameter, diameter)?;
    let ratio = to.over_inverse_e_squared() / from.over_inverse_e_squared();
    Ok((Twofold::from(diameter) * ratio).to_f64())
}

/// Share of a Gaussian beam's power that passes a centred round aperture.
///
/// s = 1 − exp(−2·a²/d²), both diameters. Diffraction at the aperture is not modelled.
///
/// Accuracy: at most 2 ulp (`tests/vectors/power_through_aperture.csv`), however small the share.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], checked in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::optics::power_through_aperture;
/// let share = power_through_aperture(10e-3, 10e-3)?; // an aperture as wide as the beam
/// assert_eq!((share * 1e6).round(), 864_665.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "clipping")]
#[must_use = "the share is the result"]
pub fn power_through_aperture(beam_diameter: f64, aperture_diameter: f64) -> Result<f64, Error> {
    let d = Twofold::from(check(Param::BeamDiameter, beam_diameter)?);
    let a = Twofold::from(check(Param::ApertureDiameter, aperture_diameter)?);
    // s = 1 − exp(−2·a²/d²)
    let exponent = Twofold::from(2.0) * (a / d).squared();
    Ok(-math::expm1(-exponent.to_f64()))
}

/// Diameter of the centred round aperture that passes this share of a Gaussian beam's power, in
/// metres.
///
/// a = d·√(−ln(1 − s) / 2).
///
/// Accuracy: at most 2 ulp (`tests/vectors/diameter_for_power.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`]: a share of 1 needs an infinite aperture.
///
/// # Example
/// ```
/// use spotwise::model::optics::diameter_for_power;
/// let a = diameter_for_power(10e-3, 0.99)?; // 99 % of the power needs 1.52 beam diameters
/// assert_eq!((a * 1e6).round(), 15_174.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the diameter is the result"]
pub fn diameter_for_power(beam_diameter: f64, power_share: f64) -> Result<f64, Error> {
    let d = check(Param::BeamDiameter, beam_diameter)?;
    let s = check(Param::PowerShare, power_share)?;
    // a = d·√(−ln(1 − s) / 2)
    // (twice under the root and half outside it, so that no tiny share is halved away)
    Ok(d * (0.5 * math::sqrt(-2.0 * math::log1p(-s))))
}
