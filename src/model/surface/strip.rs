//! The largest strip of a lying round part that stays in focus.
//!
//! | symbol | meaning                                                                      | unit |
//! |--------|------------------------------------------------------------------------------|------|
//! | R      | radius of the part                                                           | m    |
//! | s      | sag: how far the edge of the strip lies below the crown                      | m    |
//! | x      | half chord: how far it lies beside the crown                                 | m    |
//! | φ      | angle of incidence at the edge                                               | rad  |
//! | t, a   | ends of the depth of focus toward the lens and away from it                  | m    |
//!
//! x = √(s·(2R − s))                     sagitta of a circle, any handbook
//! tan(φ/2) = x/(2R − s) = √(s/(2R − s))  so that sin φ = x/R and cos φ = (R − s)/R
//! width along the surface = 2R·φ
//!
//! With focus on the crown s = a, half of a depth that reaches as far either way. With focus lower, so that
//! its middle lies midway down, s = a − t, all of it: the strip is about √2 wider.
//! From s = R on the whole upper half of the part is in focus, and more is not to be seen: s = R.
//!
//! No term cancels, neither for s ≪ R, where x ≈ √(2R·s), nor near R. The strip runs the length of the part,
//! which lies level. Not modelled: that the spot is longer by 1/cos φ at the edge (the irradiance ratio
//! tells; see [`tilted_spot`](crate::model::focus::tilted_spot)), and light that the flank reflects.

use super::focus_height::{CheckedDepth, DepthEnds, FocusAim, half};
use crate::error::{Error, Param, check};
use crate::model::math;
use crate::model::twofold::Twofold;

/// A strip along the crown of a lying round part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CylinderStrip {
    /// From the crown to the edge of the strip in metres, straight across: **half** the width as a drawing
    /// has it.
    pub half_chord: f64,
    /// From edge to edge in metres, straight across.
    pub full_chord: f64,
    /// From edge to edge in metres, along the surface.
    pub arc_length: f64,
    /// How far the edges lie below the crown, in metres.
    pub edge_sag: f64,
    /// Angle between the beam and the normal of the surface at the edge, in radians.
    pub edge_incidence: f64,
    /// Irradiance at the edge over that on a level surface, by the incidence alone: its cosine.
    pub edge_irradiance_ratio: f64,
    /// Where to set focus in metres, from the crown, + away from the lens.
    pub focus_z: f64,
    /// Whether the whole upper half of the part is in focus.
    pub whole_upper_half: bool,
}

/// The largest strip of a lying round part of this `radius` that stays within a depth of focus.
///
/// Formulas in the [module](self).
///
/// Accuracy: at most 0.75 ulp, angle and arc at most 2 ulp (`tests/vectors/cylinder_strip.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for `radius`, then the ends of the depth;
/// [`Error::OutsideModel`] where they lie less than 1 nm apart or, with focus on the crown, the end away from the
/// lens less than that from focus ([`Param::UsableDepth`]); [`Error::OutOfRange`] where, with focus on the crown, the
/// end toward the lens lies away from it, so that the crown is out of focus.
///
/// # Example
/// ```
/// use spotwise::model::surface::{DepthEnds, FocusAim, cylinder_strip};
/// let depth = DepthEnds { toward_lens_z: -0.4e-3, away_from_lens_z: 0.4e-3 };
/// // A tube of 50 mm in diameter, focus on the crown. By hand: x² = 0.4·(50 − 0.4) = 19.84 mm².
/// let on_crown = cylinder_strip(25e-3, &depth, FocusAim::HighestPlace)?;
/// assert_eq!((on_crown.full_chord * 1e7).round(), 89_084.0); // 8.9084 mm
/// // 0.4 mm lower: x² = 0.8·(50 − 0.8) = 39.36 mm².
/// let midway = cylinder_strip(25e-3, &depth, FocusAim::Midway)?;
/// assert_eq!((midway.full_chord * 1e7).round(), 125_475.0); // 12.5475 mm
/// assert_eq!((midway.focus_z * 1e9).round(), 400_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "sagitta")]
#[doc(alias = "rotary")]
#[must_use = "the strip is the result"]
pub fn cylinder_strip(radius: f64, depth: &DepthEnds, aim: FocusAim) -> Result<CylinderStrip, Error> {
    let radius = Twofold::from(check(Param::PartRadius, radius)?);
    let depth = CheckedDepth::of(depth)?;
    let usable = depth.usable(aim)?;
    let whole_upper_half = (usable - radius).to_f64() >= 0.0;
    let sag = if whole_upper_half { radius } else { usable };
    let rest = radius + radius - sag;
    let half_chord = (sag * rest).square_root();
    // φ/2, at most π/4.
    let half_incidence = math::atan((sag / rest).square_root().to_f64());
    let focus_z = match aim {
        FocusAim::HighestPlace => Twofold::ZERO,
        FocusAim::Midway if whole_upper_half => half(sag - depth.both_ends()),
        // The crown lies at the end of the depth toward the lens.
        FocusAim::Midway => depth.below_toward_end(),
    };
    Ok(CylinderStrip {
        half_chord: half_chord.to_f64(),
        full_chord: 2.0 * half_chord.to_f64(),
        arc_length: 4.0 * radius.to_f64() * half_incidence,
        edge_sag: sag.to_f64(),
        edge_incidence: 2.0 * half_incidence,
        edge_irradiance_ratio: ((radius - sag) / radius).to_f64(),
        focus_z: focus_z.to_f64(),
        whole_upper_half,
    })
}
