//! What a z-offset does to the spot: growth, irradiance and line dose; and back again.
//!
//! | symbol | meaning                                         | unit |
//! |--------|-------------------------------------------------|------|
//! | z      | offset of the surface from the waist, + away from the lens | m |
//! | u      | z/z_R                                           | 1    |
//! | g      | growth d(z)/d₀                                  | 1    |
//!
//! g = √(1 + u²)                                        \[1\]
//! g − 1 = u²/(1 + √(1 + u²))                           the same, without cancellation
//! irradiance ratio I(z)/I(0) = 1/(1 + u²)              on the axis, \[1\]
//! line dose ratio = 1/g                                peak dose of a scanned line, √(2/π)·P/(v·w);
//! only the diameter **across** the line counts, since the beam is summed along it
//! z = ± z_R·√((g − 1)(g + 1))                          inverse
//!
//! The dose inside a raster fill does not change with focus at all: see
//! [`model::mark`](crate::model::mark).
//!
//! \[1\] H. Kogelnik, T. Li, *Applied Optics* 5, 1550 (1966), from memory. The line dose is the
//! integral of the Gaussian irradiance along the scan, derived here.

use super::depth::FocusRange;
use crate::error::{Error, Param, check};
use crate::model::optics::{AstigmaticBeam, Beam, CheckedBeam, checked_astigmatic, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// A round beam on a surface that is off the waist.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Defocus {
    /// Spot **diameter** on the surface in metres, 1/e² (D4σ).
    pub diameter: f64,
    /// Spot diameter over waist diameter, at least 1.
    pub growth: f64,
    /// Growth less one, exact however small it is.
    pub growth_minus_one: f64,
    /// Irradiance on the axis over that at the waist, at most 1.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist, at most 1.
    pub line_dose_ratio: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// An astigmatic beam on a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticDefocus {
    /// Diameter in x over the waist diameter in x, at least 1.
    pub growth_x: f64,
    /// Diameter in y over the waist diameter in y, at least 1.
    pub growth_y: f64,
    /// Irradiance on the axis over that of both waists at one place, at most 1.
    pub irradiance_ratio: f64,
    /// Peak dose of a line scanned **along x** over that at the waist in y, at most 1.
    pub line_dose_ratio_along_x: f64,
    /// Peak dose of a line scanned **along y** over that at the waist in x, at most 1.
    pub line_dose_ratio_along_y: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// √(1 + u²) as a growth; the line dose is its reciprocal.
fn growth_at(u: Twofold) -> Twofold {
    Twofold::ONE.root_sum_square(u)
}

/// √((r − 1)(r + 1)), the offset in Rayleigh ranges at which the diameter is r waist diameters.
pub(super) fn rayleigh_ranges_for(growth: Twofold) -> Twofold {
    ((growth - Twofold::ONE) * (growth + Twofold::ONE)).square_root()
}

/// √((d − d₀)(d + d₀))/d₀, the offset in Rayleigh ranges at which the diameter is d: the same without
/// the quotient, which would round before the difference. `diameter` is at least that of the waist,
/// which before it was rounded may have been a hair larger.
pub(super) fn rayleigh_ranges_for_diameter(beam: &CheckedBeam, diameter: f64) -> Twofold {
    let wider = Twofold::from(diameter) - beam.waist;
    if wider.to_f64() <= 0.0 {
        return Twofold::ZERO;
    }
    (wider * (Twofold::from(diameter) + beam.waist)).square_root() / beam.waist
}

/// Offset from the waist at which the spot has this diameter, at least that of the waist.
pub(crate) fn offset_for_diameter(beam: &CheckedBeam, diameter: f64) -> Twofold {
    beam.rayleigh_range * rayleigh_ranges_for_diameter(beam, diameter)
}

pub(crate) fn checked_defocus(beam: &CheckedBeam, z_offset: Twofold) -> Defocus {
    let u = beam.rayleigh_ranges_in(z_offset);
    let uu = u.squared();
    let growth = growth_at(u);
    Defocus {
        diameter: (beam.waist * growth).to_f64(),
        growth: growth.to_f64(),
        growth_minus_one: (uu / (Twofold::ONE + growth)).to_f64(),
        irradiance_ratio: (Twofold::ONE / (Twofold::ONE + uu)).to_f64(),
        line_dose_ratio: (Twofold::ONE / growth).to_f64(),
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    }
}

/// Spot diameter, growth, irradiance and line dose of a beam on a surface at `z_offset` from the
/// waist, + away from the lens.
///
/// Formulas and sources in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/defocus.csv`). The diameter may differ in its last
/// digits from that of [`beam_at`](crate::model::optics::beam_at), whose form vectorises.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `z_offset`;
/// [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::{focus::defocus, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let d = defocus(&beam, 0.5e-3)?; // half a millimetre off
/// assert_eq!((d.growth * 1e4).round(), 14_469.0);          // the spot is 45 % larger
/// assert_eq!((d.irradiance_ratio * 1e4).round(), 4_777.0); // less than half the irradiance
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "out of focus")]
#[must_use = "the defocus is the result"]
pub fn defocus(beam: &Beam, z_offset: f64) -> Result<Defocus, Error> {
    let checked = checked_beam(beam)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    Ok(checked_defocus(&checked, Twofold::from(z_offset)))
}

/// Growth, irradiance and line dose of an astigmatic beam on a surface at `z`, + away from the
/// lens.
///
/// irradiance ratio = 1/(gx·gy), line dose ratio = 1/g of the axis across the line; the
/// irradiance is compared with that of both waists at one place.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/astigmatic_defocus.csv`).
///
/// # Errors
/// As [`astigmatic_at`](crate::model::optics::astigmatic_at).
///
/// # Example
/// ```
/// use spotwise::model::{focus::astigmatic_defocus, optics::{AstigmaticBeam, Axis}};
/// let axis = |waist_z| Axis { m2: 5.0, waist_diameter: 30e-6, waist_z };
/// let beam = AstigmaticBeam { wavelength: 450e-9, x: axis(0.0), y: axis(0.2e-3) };
/// let d = astigmatic_defocus(&beam, 0.0)?; // in the waist of x
/// assert_eq!(d.growth_x, 1.0);
/// assert_eq!((d.growth_y * 1e4).round(), 11_854.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the defocus is the result"]
pub fn astigmatic_defocus(beam: &AstigmaticBeam, z: f64) -> Result<AstigmaticDefocus, Error> {
    let checked = checked_astigmatic(beam)?;
    let z = check(Param::Z, z)?;
    let (ux, uy) = checked.rayleigh_ranges_at(Twofold::from(z));
    let (gx, gy) = (growth_at(ux), growth_at(uy));
    Ok(AstigmaticDefocus {
        growth_x: gx.to_f64(),
        growth_y: gy.to_f64(),
        irradiance_ratio: (Twofold::ONE / (gx * gy)).to_f64(),
        line_dose_ratio_along_x: (Twofold::ONE / gy).to_f64(),
        line_dose_ratio_along_y: (Twofold::ONE / gx).to_f64(),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}

/// The two offsets, one on each side of the waist, at which the spot has this diameter.
///
/// z = ± z_R·√((d/d₀ − 1)(d/d₀ + 1)).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/offsets_for_diameter.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `diameter`
/// (named [`Param::SpotDiameter`]); [`Error::Unreachable`] if it is smaller than the waist.
///
/// # Example
/// ```
/// use spotwise::model::{focus::offsets_for_diameter, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let at = offsets_for_diameter(&beam, 120e-6)?;
/// assert_eq!((at.away_from_lens_z * 1e9).round(), 443_294.0); // ± 0.443 mm
/// assert_eq!(at.toward_lens_z, -at.away_from_lens_z);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the offsets are the result"]
pub fn offsets_for_diameter(beam: &Beam, diameter: f64) -> Result<FocusRange, Error> {
    let checked = checked_beam(beam)?;
    super::depth::range_for_diameter(&checked, Param::SpotDiameter, check(Param::SpotDiameter, diameter)?)
}

/// The two offsets, one on each side of the waist, at which the spot has grown by this ratio.
///
/// z = ± z_R·√((g − 1)(g + 1)).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/offsets_for_growth.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `growth`.
///
/// # Example
/// ```
/// use spotwise::model::{focus::offsets_for_growth, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let at = offsets_for_growth(&beam, 1.05)?; // 5 % larger
/// assert_eq!((at.away_from_lens_z * 1e9).round(), 153_084.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the offsets are the result"]
pub fn offsets_for_growth(beam: &Beam, growth: f64) -> Result<FocusRange, Error> {
    let checked = checked_beam(beam)?;
    let growth = check(Param::GrowthRatio, growth)?;
    Ok(FocusRange::about_waist(
        checked.rayleigh_range * rayleigh_ranges_for(Twofold::from(growth)),
        checked.cone,
    ))
}
