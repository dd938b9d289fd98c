//! The spot on a tilted surface.
//!
//! | symbol | meaning                                                       | unit | valid   |
//! |--------|---------------------------------------------------------------|------|---------|
//! | φ      | tilt, between the normal of the surface and the beam axis     | rad  | 0 … 1.5 |
//! | z      | offset of the surface **on the axis** from the waist, + away from the lens | m | ±1e7 |
//! | u      | z/z_R                                                         | 1    |         |
//! | d, g   | diameter d₀·g there, growth √(1 + u²)                         | m, 1 |         |
//! | e      | grazing ratio tan φ·θ/2, θ/2 the half angle of the cone       | 1    | < 1     |
//!
//! footprint along the tilt = d/cos φ, across it = d
//! irradiance ratio = cos φ/(1 + u²), line dose ratio = cos φ/g
//! contour along the tilt = d/cos φ·√(1 − e²/(1 + u²))/(1 − e²)
//! its centre = (d/2)·e·u/(g·cos φ·(1 − e²)) from the axis, + to the side farther from the lens
//!
//! *Footprint*: the circle of diameter d, projected onto the surface. *Contour*: the ellipse in which the
//! surface cuts the hyperboloid of the 1/e² radius, which is exact: with s along the tilt, the points
//! where s²·cos²φ = w₀² + (θ/2)²·(z + s·sin φ)². It is closed while e < 1; at 1 the edge of the cone runs
//! along the surface. In the waist it is longer than the footprint by 1/√(1 − e²).
//!
//! The contour at 1/e² of the greatest irradiance **on the surface** is neither: the irradiance on the
//! axis falls along the tilt too. Compared with the footprint it is longer in the waist, as long near
//! u = 1 and shorter beyond: by +0.07/+0.25/+1.0/+2.3/+6.0/+14.8 % and
//! −0.07/−0.26/−1.1/−2.5/−7.7/−24.9 % at most for e = 0.05/0.1/0.2/0.3/0.5/0.9
//! (`tests/closed_forms/tilt.rs` finds it point by point).
//!
//! The line dose is exact in either direction: a point of the surface sees the beam pass at its own
//! height, and light that slants by φ spreads over 1/cos φ of surface. The speed is that of the head.
//!
//! Derived here from d(z) of [`model::optics`](crate::model::optics). Not modelled: an astigmatic beam, a
//! curved surface, and the change of absorption with the angle.

use super::offset::checked_defocus;
use crate::error::{Error, Param, check, within_model};
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// The spot on a tilted surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltedSpot {
    /// **Diameter** of the footprint across the tilt in metres, 1/e² (D4σ).
    pub diameter_across: f64,
    /// **Diameter** of the footprint along the tilt in metres, measured on the surface.
    pub diameter_along: f64,
    /// Length along the tilt of the ellipse in which the surface cuts the 1/e² hyperboloid, in metres.
    pub contour_along: f64,
    /// From the beam axis to the centre of that ellipse in metres, along the surface, + to the side that
    /// lies farther from the lens.
    pub contour_shift: f64,
    /// Irradiance on the axis, for each area of the surface, over that at the waist on a level surface.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist on a level surface.
    pub line_dose_ratio: f64,
    /// Grazing ratio e: the tangent of the tilt times the half angle of the cone.
    pub grazing_ratio: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// The spot of a round beam on a surface tilted by `tilt` radians, which meets the beam axis at
/// `z_offset` metres from the waist, + away from the lens.
///
/// Formulas, and what the footprint is worth, in the [module](self). A tilt has no sign: the spot is the
/// same whichever way the surface leans.
///
/// Accuracy: at most 4 ulp (`tests/vectors/tilted_spot.csv`); the contour at most 4 ulp times
/// 1/(1 − e²).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `z_offset`, then for
/// `tilt`, which must be from 0 to 1.5 rad (86 degrees); [`Error::OutsideModel`] if the half angle of the
/// beam exceeds 0.3 rad, and for a grazing ratio of 1 or more, where the contour has no end.
///
/// # Example
/// ```
/// use spotwise::model::{focus::tilted_spot, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let spot = tilted_spot(&beam, 0.0, 30f64.to_radians())?;
/// assert_eq!((spot.diameter_along * 1e9).round(), 101_614.0);  // 88 µm/cos 30°
/// assert_eq!((spot.irradiance_ratio * 1e6).round(), 866_025.0); // cos 30°
/// // By hand: θ/2 = 2·M²·λ/(π·d₀) = 0.09202, e = 0.09202·tan 30° = 0.05313.
/// assert_eq!((spot.grazing_ratio * 1e5).round(), 5313.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "angle of incidence")]
#[must_use = "the spot is the result"]
pub fn tilted_spot(beam: &Beam, z_offset: f64, tilt: f64) -> Result<TiltedSpot, Error> {
    let checked = checked_beam(beam)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    let tilt = check(Param::Tilt, tilt)?;
    let (sine, cosine) = (math::sin(tilt), math::cos(tilt));
    let tangent = Twofold::from(sine) / Twofold::from(cosine);
    let half_angle = checked.half_angle();
    // Twofold, since 1 − e² leaves few digits near e = 1.
    let e = half_angle * tangent;
    let grazing_ratio = within_model(Param::GrazingRatio, e.to_f64())?;
    let open = Twofold::ONE - e.squared();

    let level = checked_defocus(&checked, Twofold::from(z_offset));
    let diameter_along = level.diameter / cosine;
    // u/g, from which 1 − e²/(1 + u²) = (1 − e²) + e²·u²/(1 + u²) leaves nothing to cancel
    let u = checked.rayleigh_ranges_in(Twofold::from(z_offset)).to_f64();
    let lean = grazing_ratio * (u / level.growth);
    let reach = math::sqrt(open.to_f64() + lean * lean);
    // (d/2)·e·u/g = z·tan φ·(θ/2)². Either of z and tan φ may be next to nothing: their product is the
    // only one that may lose digits, and the last.
    let slant = half_angle.squared() / (Twofold::from(cosine) * open);
    let shift = Twofold::from(z_offset) * tangent * slant;
    Ok(TiltedSpot {
        diameter_across: level.diameter,
        diameter_along,
        contour_along: diameter_along * reach / open.to_f64(),
        contour_shift: shift.to_f64(),
        irradiance_ratio: cosine * level.irradiance_ratio,
        line_dose_ratio: cosine * level.line_dose_ratio,
        grazing_ratio,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity.union(Validity::of_grazing(grazing_ratio)),
    })
}
