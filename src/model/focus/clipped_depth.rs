//! Depth of focus of a clipped Gaussian beam (M² = 1) behind an ideal lens, by the irradiance on the axis.
//!
//! I(β)/I(0) = \[1 + (sin(β·Y/2)/sinh(Y/2))²\] / (1 + β²),   Y = X², X = aperture over beam diameter
//! β = z·π·D²/(4·λ·f²), the offset in Rayleigh ranges of the unclipped beam             \[1\]
//!
//! Exact in β; without clipping it is 1/(1 + β²), and under uniform light sinc²(β·Y/2). That z and
//! β are in proportion holds while the depth is short against the focal length: half a depth above 5 %
//! of it is flagged ([`Validity::FOCUS_SHIFTED`]).
//!
//! Not modelled: M² > 1 and aberration (see
//! [`wave_depth_of_focus`](super::wave_depth_of_focus)).
//!
//! \[1\] The Fresnel integral over a truncated Gaussian on the axis, derived here:
//! abs(∫₀^Y exp(−(1 + iβ)y) dy)².

use super::depth::FocusRange;
use crate::error::{Error, Param, check_within};
use crate::model::math;
use crate::model::optics::checked_clipping;
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// Least and greatest drop: below, the drop is lost in rounding; above, the irradiance may rise again
/// before it is reached.
const DROPS: (f64, f64) = (0.01, 0.9);

/// 1 − I(β)/I(0), written so that little is lost near focus.
fn drop_at(beta: f64, y: f64) -> f64 {
    let ripple = math::sin(0.5 * beta * y) / math::sinh(0.5 * y);
    (beta - ripple) * (beta + ripple) / (1.0 + beta * beta)
}

/// The least β at which the irradiance has fallen by `drop`.
fn beta_for(drop: f64, clipping_ratio: f64) -> f64 {
    // The irradiance never falls faster than that of the unclipped beam …
    let unclipped = math::sqrt(drop / (1.0 - drop));
    let y = clipping_ratio * clipping_ratio;
    // (sinh overflows here, where no clipping is left to see)
    if y > 700.0 {
        return unclipped;
    }
    let mut near = unclipped;
    // … and has fallen by as much at the first trough of the ripple if that is deep enough, or else
    // where the ripple can no longer lift it.
    let trough = 2.0 * core::f64::consts::PI / y;
    let lift = 1.0 / math::sinh(0.5 * y);
    let mut far =
        if drop_at(trough, y) >= drop { trough } else { math::sqrt((drop + lift * lift) / (1.0 - drop)) };
    // Halving needs no slope and no luck; 60 halvings end at neighbouring doubles.
    for _ in 0..60 {
        let middle = 0.5 * (near + far);
        if drop_at(middle, y) < drop {
            near = middle;
        } else {
            far = middle;
        }
    }
    0.5 * (near + far)
}

/// Depth of focus of a collimated Gaussian beam behind an aperture at an ideal lens: where the
/// irradiance on the axis has fallen by this share.
///
/// The law is exact, see the [module](self). Heights count from the focal point.
///
/// Accuracy: at most 200 ulp (`tests/vectors/clipped_depth_of_focus.csv`).
///
/// # Errors
/// As [`focus_clipped`](crate::model::optics::focus_clipped); then [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for a drop outside 0.01 … 0.9.
///
/// # Example
/// ```
/// use spotwise::model::focus::clipped_depth_of_focus;
/// // Nearly uniform light: half a Strehl-0.8 range is 2.06·λ·(f/a)², a constant of optics.
/// let depth = clipped_depth_of_focus(1.064e-6, 40e-3, 10e-3, 0.1, 0.2)?;
/// let over = depth.away_from_lens_z / (1.064e-6 * 100.0);
/// assert!((over - 2.06).abs() < 0.01);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the range is the result"]
pub fn clipped_depth_of_focus(
    wavelength: f64,
    diameter_at_lens: f64,
    clear_aperture: f64,
    focal_length: f64,
    irradiance_drop: f64,
) -> Result<FocusRange, Error> {
    let clipping = checked_clipping(wavelength, diameter_at_lens, clear_aperture, focal_length)?;
    let drop = check_within(Param::IrradianceDrop, irradiance_drop, DROPS.0, DROPS.1)?;
    let beta = beta_for(drop, clipping.clipping_ratio);
    // z = β·4·λ·f²/(π·D²)
    let f_over_d = Twofold::from(focal_length) / Twofold::from(diameter_at_lens);
    let rayleigh_range = Twofold::from(4.0 * wavelength) * f_over_d.squared() / Twofold::PI;
    let half = Twofold::from(beta) * rayleigh_range;
    let validity = clipping.validity.union(Validity::of_focus_shift(half.to_f64() / focal_length));
    Ok(FocusRange::about_waist(half, validity))
}
