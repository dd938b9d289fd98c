//! The spot through the thickness of a part that is cut or deeply marked.
//!
//! | symbol | meaning                                                            | unit |
//! |--------|--------------------------------------------------------------------|------|
//! | T      | thickness, from the top to the bottom                              | m    |
//! | f      | focus, from the top surface, + away from the lens (into the part)  | m    |
//! | θ/2    | half angle of the cone, d₀/(2·z_R)                                 | rad  |
//! | d₁, d₂ | diameters at the top and at the bottom                             | m    |
//! | β      | half angle of the taper, + where the spot narrows downward         | rad  |
//!
//! d₁ = d₀·√(1 + (f/z_R)²), d₂ = d₀·√(1 + ((T − f)/z_R)²)
//! tan β = (d₁ − d₂)/(2T) = 2·(θ/2)²·(2f − T)/(d₁ + d₂)     without cancellation, and for T = 0 too
//! best focus f = T/2: the middle, as over any surface that spans these heights
//!
//! The light travels as in air, in a gap that is clear. Not modelled: light that the walls of the cut guide,
//! block or reflect, which is much of it in a deep narrow cut, so that a real kerf is straighter or narrower than
//! the spot; the material's threshold; and a transparent part, in which the light bends at the face (see
//! [`focus_inside`](crate::model::optics::focus_inside)). A taper is that of straight lines between the two ends.

use super::focus_height::half;
use crate::error::{Error, Param, check};
use crate::model::focus::checked_defocus;
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// The spot from the top of a part to its bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotThrough {
    /// Spot **diameter** at the top in metres, 1/e² (D4σ).
    pub top_diameter: f64,
    /// Spot diameter at the bottom in metres.
    pub bottom_diameter: f64,
    /// The greatest diameter in the thickness in metres: the larger of the two.
    pub widest: f64,
    /// The least diameter in the thickness in metres: the waist where that lies inside.
    pub narrowest: f64,
    /// Widest over waist diameter.
    pub worst_growth: f64,
    /// Diameter at the bottom over that at the top.
    pub taper_ratio: f64,
    /// **Half** angle of the taper in radians, + where the bottom is narrower than the top.
    pub taper_half_angle: f64,
    /// The focus below the top surface, in metres, that makes the widest spot as small as can be.
    pub best_focus_z: f64,
    /// The greatest growth with that focus.
    pub best_worst_growth: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// The spot of a round beam through a part of this `thickness`, with focus at `focus_z` from its top
/// surface, + away from the lens; and the best such focus.
///
/// Formulas, and what they leave out, in the [module](self).
///
/// Accuracy: at most 0.75 ulp, the taper's angle at most 1.5 ulp (`tests/vectors/spot_through.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for `focus_z`, then for
/// `thickness`, which may be 0; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::{optics::Beam, surface::spot_through};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// // 3 mm, focus on the top. By hand: z_R = π·88²/(4·1.2·10.6) µm = 0.478154 mm, 88·√(1 + 6.27412²) = 559.09 µm.
/// let through = spot_through(&beam, 0.0, 3e-3)?;
/// assert_eq!((through.bottom_diameter * 1e7).round(), 5591.0);
/// // Focus at mid-thickness: 88·√(1 + 3.13706²) = 289.75 µm at both ends.
/// let best = spot_through(&beam, through.best_focus_z, 3e-3)?;
/// assert_eq!((best.widest * 1e8).round(), 28_975.0);
/// assert_eq!(best.taper_half_angle, 0.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "kerf taper")]
#[must_use = "the spot is the result"]
pub fn spot_through(beam: &Beam, focus_z: f64, thickness: f64) -> Result<SpotThrough, Error> {
    let beam = checked_beam(beam)?;
    let focus_z = check(Param::FocusZ, focus_z)?;
    let thickness = check(Param::Thickness, thickness)?;
    let (focus, depth) = (Twofold::from(focus_z), Twofold::from(thickness));
    let top = checked_defocus(&beam, -focus);
    let bottom = checked_defocus(&beam, depth - focus);
    let growth = |z: Twofold| Twofold::ONE.root_sum_square(beam.rayleigh_ranges_in(z));
    let (top_growth, bottom_growth) = (growth(focus), growth(depth - focus));
    let waist_inside = focus_z >= 0.0 && focus_z <= thickness;
    // 2·(θ/2)²·(2f − T)/(d₁ + d₂)
    let lean = focus + focus - depth;
    let both = beam.waist * (top_growth + bottom_growth);
    let slope = Twofold::from(2.0) * beam.half_angle().squared() * lean / both;
    let best_focus = half(depth);
    Ok(SpotThrough {
        top_diameter: top.diameter,
        bottom_diameter: bottom.diameter,
        widest: math::greater(top.diameter, bottom.diameter),
        narrowest: if waist_inside {
            beam.waist_diameter
        } else {
            math::lesser(top.diameter, bottom.diameter)
        },
        worst_growth: math::greater(top.growth, bottom.growth),
        taper_ratio: (bottom_growth / top_growth).to_f64(),
        taper_half_angle: math::atan(slope.to_f64()),
        best_focus_z: best_focus.to_f64(),
        best_worst_growth: growth(best_focus).to_f64(),
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    })
}
