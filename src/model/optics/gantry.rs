//! A lens that travels along a gantry: how the spot changes with the length of the path.
//!
//! | symbol | meaning                                                        | unit | valid          |
//! |--------|----------------------------------------------------------------|------|----------------|
//! | s      | raw waist to lens, + when the waist lies upstream              | m    | ±1e7           |
//! | f      | focal length, + converging                                     | m    | 1e-5 … 1e4     |
//! | u      | s − f, from the waist to the front focal point of the lens     | m    |                |
//! | L₁, L₂ | least and greatest distance from the expander to the lens      | m    | 0 … 1e7        |
//! | a, b   | L₁ − f and L₂ − f                                              | m    |                |
//! | m      | magnification of the expander                                  | 1    | 0.01 … 100     |
//! | c      | wavefront curvature at the expander, before it, + diverging    | 1/m  |                |
//! | κ      | convergence of the beam just behind the expander               | 1/m  |                |
//! | D, Z   | **diameter** there, and π·D²/(4·M²·λ)                          | m    |                |
//!
//! spot(u) = f·d₀/√(u² + z_R²), shift(u) = f²·u/(u² + z_R²)                 \[1\]
//!
//! Over a travel the spot is largest where abs(u) is least, zero if the travel holds it, and smallest
//! where it is greatest. The shift has its extremes ±f²/(2·z_R) at u = ±z_R, or else at the ends of
//! the travel. The wander between the places u₁ and u₂ is
//! f²·(u₂ − u₁)·(z_R² − u₁·u₂)/((u₁² + z_R²)·(u₂² + z_R²)).
//!
//! # The expander that evens it out
//! The spot is 4·M²·λ·f/(π·d), where d is the diameter that the raw beam has at the **front focal
//! point** of the lens, so the spots differ as d(x)² = D²·((1 − κ·x)² + (x/Z)²) does for x from a to b.
//! In units of Z, with A = a/Z, B = b/Z, k = κ·Z, the waist lies at k/(1 + k²), and over the
//! square of its diameter d² is 1 + g², g(x) = x·(1 + k²) − k. The setting that makes the largest over
//! the smallest spot least is, for A + B ≥ 0 (else mirrored):
//!
//! 1. k = S/(1 + √(1 − S²)), S = A + B, if S ≤ 1 and 2·B·k ≤ 1: the waist lies mid-travel and the spots
//!    at both ends are equal. For k below it g(B) falls with k, beyond it −g(A) is larger and rises.
//! 2. k = 1/(2·B) otherwise, where g(B) is least, if the waist then lies on the travel, which is
//!    A·(1 + 4·B²) ≤ 2·B. The spot is smallest at the far end.
//! 3. k = 2·(1 − A·B)/(S + √((B − A)² + 4·A²·B²)) otherwise, the root of
//!    A·B·k² − S·k + 1 − A·B at which (1 + g(B)²)/(1 + g(A)²) is least: the waist lies before the travel.
//!
//! Each goes over into the next without a step. That no other setting is more even is a property test.
//!
//! Exit power of the expander: κ + c/m², because it must also undo the curvature c/m² that an afocal
//! expander leaves. Not modelled: aberration and clipping (see [`focus_singlet`](super::focus_singlet)), mirrors.
//!
//! \[1\] S. A. Self, *Applied Optics* 22, 658 (1983), from memory; re-derived as told in
//! [`lens`](super::lens).

use super::beam::{Beam, CheckedBeam, ROUND, checked_beam};
use super::carried::{Carried, spread};
use super::lens::{BeforeLens, check_focal_length, checked_image, focus_of, image_beyond};
use crate::error::{Error, Param, check, check_distance, check_within};
use crate::model::math;
use crate::model::twofold::Twofold;
use crate::validity::{Cone, Validity};

/// How much the focus varies over the travel of a lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GantrySpread {
    /// Smallest spot **diameter** on the travel in metres, 1/e² (D4σ).
    pub smallest_spot: f64,
    /// Largest spot **diameter** on the travel in metres, 1/e² (D4σ).
    pub largest_spot: f64,
    /// Largest over smallest spot.
    pub spot_ratio: f64,
    /// Least focus shift on the travel in metres, from the focal point, + away from the lens.
    pub least_focus_shift: f64,
    /// Greatest focus shift on the travel in metres.
    pub greatest_focus_shift: f64,
    /// Greatest less least focus shift: how far the focus wanders in height.
    pub focus_wander: f64,
    /// Greatest 1/e² half angle before and behind the lens, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// The setting of a beam expander that evens out the spot over the travel of a lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EvenGantry {
    /// By how much the expander must converge collimated light, in 1/m.
    pub exit_power: f64,
    /// Waist **diameter** behind the expander in metres.
    pub waist_diameter: f64,
    /// From the expander to that waist in metres, + away from the laser.
    pub expander_to_waist: f64,
    /// Whether the spots at both ends of the travel are equal. If not, the beam is too thin for the
    /// travel, and a weaker convergence makes the whole of it more even.
    pub ends_equal: bool,
    /// How the focus then varies.
    pub spread: GantrySpread,
}

/// The focus of a lens at many places along a gantry: `spot_diameters[i]` and `focus_shifts[i]` belong
/// to `waist_to_lens[i]`.
///
/// Each is the same bits as waist diameter and focus shift of
/// [`focus_through_lens`](super::focus_through_lens). All lengths are in metres. On any error every
/// element of both outputs is NaN, none is stale. Returns the widest cone, with the flags of all.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/focus_along_gantry.csv`).
///
/// # Errors
/// [`Error::LengthMismatch`] if an output is not as long as `waist_to_lens`; then
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the raw beam, the distances and the focal length;
/// then [`Error::OutsideModel`] as [`focus_through_lens`](super::focus_through_lens), for the first
/// distance that is refused.
///
/// # Example
/// ```
/// use spotwise::model::optics::{focus_along_gantry, Beam};
/// // 10.6 µm, M² = 1.2, a raw waist of 3.5 mm, and a 50.8 mm (2 inch) lens 0.5 m to 2.5 m away.
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 3.5e-3 };
/// let (mut spots, mut shifts) = ([0.0; 2], [0.0; 2]);
/// let cone = focus_along_gantry(&raw, &[0.5, 2.5], 50.8e-3, &mut spots, &mut shifts)?;
/// assert_eq!((spots[0] * 1e9).round(), 202_112.0); // 202 µm near the laser
/// assert_eq!((spots[1] * 1e9).round(), 69_363.0);  // 69 µm at the far end
/// assert!(cone.validity.is_fine()); // of the raw beam and of all foci
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "flying optics")]
pub fn focus_along_gantry(
    raw: &Beam,
    waist_to_lens: &[f64],
    focal_length: f64,
    spot_diameters: &mut [f64],
    focus_shifts: &mut [f64],
) -> Result<Cone, Error> {
    let result = fill_along_gantry(raw, waist_to_lens, focal_length, spot_diameters, focus_shifts);
    if result.is_err() {
        spot_diameters.fill(f64::NAN);
        focus_shifts.fill(f64::NAN);
    }
    result
}

fn fill_along_gantry(
    raw: &Beam,
    waist_to_lens: &[f64],
    focal_length: f64,
    spot_diameters: &mut [f64],
    focus_shifts: &mut [f64],
) -> Result<Cone, Error> {
    for length in [spot_diameters.len(), focus_shifts.len()] {
        if length != waist_to_lens.len() {
            let expected = waist_to_lens.len();
            return Err(Error::LengthMismatch { param: Param::Output, value: length, expected });
        }
    }
    let beam = checked_beam(raw)?;
    for &distance in waist_to_lens {
        check(Param::WaistToLens, distance)?;
    }
    check_focal_length(focal_length)?;
    let mut cone = beam.cone;
    let outputs = spot_diameters.iter_mut().zip(focus_shifts);
    for (&distance, (spot, shift)) in waist_to_lens.iter().zip(outputs) {
        let waist_to_lens = Twofold::from(distance);
        let before = BeforeLens { wavelength: raw.wavelength, m2: raw.m2, beam, waist_to_lens };
        let focused = focus_of(&before, focal_length)?.focused;
        *spot = focused.waist_diameter;
        *shift = focused.focus_shift;
        cone = cone.wider(focused.cone());
    }
    Ok(cone)
}

/// How far the spot and the height of focus vary while a lens travels from `nearest` to `farthest`,
/// both counted in metres from the raw waist, + when the waist lies upstream.
///
/// The extremes are exact, wherever on the travel they lie; formulas in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/gantry_spread.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the raw beam, then in the order of the arguments:
/// `farthest` must not be less than `nearest`, and the focal length must be positive.
/// [`Error::OutsideModel`] if the smallest or the largest spot is outside 1e-9 … 10 m, or its half angle
/// exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::optics::{gantry_spread, Beam};
/// // 10.6 µm, M² = 1.2, a raw waist of 3.5 mm, and a 50.8 mm (2 inch) lens 0.5 m to 2.5 m away.
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 3.5e-3 };
/// let spread = gantry_spread(&raw, 0.5, 2.5, 50.8e-3)?;
/// assert_eq!((spread.spot_ratio * 1e6).round(), 2_913_844.0);           // a factor of 2.9
/// assert_eq!((spread.greatest_focus_shift * 1e9).round(), 1_705_920.0); // 1.71 mm, on the way
/// assert_eq!((spread.least_focus_shift * 1e9).round(), 961_924.0);      // 0.96 mm, at the far end
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the spread is the result"]
pub fn gantry_spread(
    raw: &Beam,
    nearest: f64,
    farthest: f64,
    focal_length: f64,
) -> Result<GantrySpread, Error> {
    let beam = checked_beam(raw)?;
    let nearest = check(Param::Nearest, nearest)?;
    let farthest = check_farthest(farthest, nearest)?;
    let f = check(Param::FocalLength, focal_length)?;
    spread_of(&beam, Twofold::sum(nearest, -f), Twofold::sum(farthest, -f), f)
}

/// Checks the far end of a travel, which must not lie before the near one.
fn check_farthest(farthest: f64, nearest: f64) -> Result<f64, Error> {
    let (_, greatest) = Param::Farthest.range();
    check_within(Param::Farthest, farthest, nearest, greatest)
}

/// The spread over a travel of the front focal point, `near` to `far` from the waist, for f > 0.
fn spread_of(
    beam: &CheckedBeam,
    near: Twofold,
    far: Twofold,
    focal_length: f64,
) -> Result<GantrySpread, Error> {
    let f = Twofold::from(focal_length);
    let zr = beam.rayleigh_range;
    let on_travel = |u: Twofold| !(u - near).is_negative() && !(far - u).is_negative();
    let imaged = |u: Twofold| image_beyond(beam, u, focal_length);

    let far_is_farther = (near.magnitude() - far.magnitude()).is_negative();
    let (farther, closer) = if far_is_farther { (far, near) } else { (near, far) };
    let closest = if on_travel(Twofold::ZERO) { Twofold::ZERO } else { closer };
    let smallest = checked_image(&imaged(farther), &ROUND)?;
    let largest = checked_image(&imaged(closest), &ROUND)?;

    let near_shifts_more = (imaged(far).focus_shift - imaged(near).focus_shift).is_negative();
    let (more, less) = if near_shifts_more { (near, far) } else { (far, near) };
    let greatest = if on_travel(zr) { zr } else { more };
    let least = if on_travel(-zr) { -zr } else { less };
    // f²·(u₂ − u₁)·(z_R² − u₁·u₂)/((u₁² + z_R²)·(u₂² + z_R²))
    let zr_squared = zr.squared();
    let squares = (least.squared() + zr_squared) * (greatest.squared() + zr_squared);
    let wander = f.squared() * (greatest - least) * (zr_squared - least * greatest) / squares;

    let cone = beam.cone.wider(smallest.cone).wider(largest.cone);
    Ok(GantrySpread {
        smallest_spot: smallest.waist_diameter,
        largest_spot: largest.waist_diameter,
        spot_ratio: (largest.waist / smallest.waist).to_f64(),
        least_focus_shift: imaged(least).focus_shift.to_f64(),
        greatest_focus_shift: imaged(greatest).focus_shift.to_f64(),
        // Never negative, and +0 for a travel of no length.
        focus_wander: math::fabs(wander.to_f64()),
        half_angle: cone.half_angle,
        validity: cone.validity,
    })
}

/// The setting of a beam expander with which the spot varies least over a travel.
///
/// `waist_to_expander` counts from the raw waist, + when the waist lies upstream; `nearest` and
/// `farthest` from the expander to the lens, in metres. Formulas and derivation in the [module](self).
/// [`EvenGantry::exit_power`] is what [`Element::Expander`](super::Element::Expander) and a job's
/// expanded raw beam take. On the expander itself, set the light behind it by what it makes at a
/// known distance: a power of 0.5 per metre brings collimated light to a focus 2 m away.
///
/// Accuracy: at most 4 ulp (`tests/vectors/even_out_gantry.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the raw beam, then in the order of the arguments:
/// 0 ≤ `nearest` ≤ `farthest`, and the focal length must be positive. [`Error::OutsideModel`] if the
/// half angle behind the expander exceeds 0.3 rad, the waist behind it is outside 1e-9 … 10 m, or as
/// [`gantry_spread`].
///
/// # Example
/// ```
/// use spotwise::model::optics::{even_out_gantry, Beam};
/// // 10.6 µm, M² = 1.2, a raw waist of 4 mm in the laser's exit, expanded 2 times at 0.3 m, and a
/// // 50.8 mm (2 inch) lens 0.5 m to 2.5 m behind the expander.
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 4e-3 };
/// let even = even_out_gantry(&raw, 0.3, 2.0, 0.5, 2.5, 50.8e-3)?;
/// assert!(even.ends_equal);
/// assert_eq!((even.exit_power * 1e9).round(), 159_725_731.0);       // 0.16 per metre
/// assert_eq!((even.expander_to_waist * 1e9).round(), 1_449_200_000.0); // mid-travel, less f
/// assert_eq!((even.spread.smallest_spot * 1e9).round(), 101_923.0);  // 102 µm at both ends
/// assert_eq!((even.spread.spot_ratio * 1e6).round(), 1_034_815.0);   // 3.5 % larger in between
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "collimator")]
#[must_use = "the setting is the result"]
pub fn even_out_gantry(
    raw: &Beam,
    waist_to_expander: f64,
    magnification: f64,
    nearest: f64,
    farthest: f64,
    focal_length: f64,
) -> Result<EvenGantry, Error> {
    let beam = checked_beam(raw)?;
    let from_waist = Twofold::from(check(Param::WaistToExpander, waist_to_expander)?);
    let magnification = check(Param::Magnification, magnification)?;
    let nearest = check_distance(Param::Nearest, nearest)?;
    let farthest = check_farthest(farthest, nearest)?;
    let focal_length = check(Param::FocalLength, focal_length)?;

    let (near, far) = (Twofold::sum(nearest, -focal_length), Twofold::sum(farthest, -focal_length));
    let behind_afocal = Carried { from_waist, rayleigh_range: beam.rayleigh_range }.magnified(magnification);
    let even = even_convergence(near, far, behind_afocal.flat_rayleigh_range());
    // What is left of the curvature, c/m² − P, is to be −κ.
    let exit_power = even.convergence + behind_afocal.curvature();
    let behind = behind_afocal.refracted(exit_power, Twofold::ONE);
    let mut expanded = behind.checked(&ROUND, spread(raw.wavelength, Twofold::from(raw.m2)))?;
    expanded.cone = expanded.cone.wider(beam.cone);
    let (expander_to_waist, near, far) = if even.ends_equal {
        // The waist lies mid-travel, exactly.
        let half = Twofold::from(0.5);
        let half_travel = half * Twofold::sum(farthest, -nearest);
        (half * (near + far), -half_travel, half_travel)
    } else {
        let expander_to_waist = Twofold::ZERO - behind.from_waist;
        (expander_to_waist, near - expander_to_waist, far - expander_to_waist)
    };
    Ok(EvenGantry {
        exit_power: exit_power.to_f64(),
        waist_diameter: expanded.waist_diameter,
        expander_to_waist: expander_to_waist.to_f64(),
        ends_equal: even.ends_equal,
        spread: spread_of(&expanded, near, far, focal_length)?,
    })
}

/// A convergence κ, and whether it makes the ends of the travel equal.
struct EvenConvergence {
    convergence: Twofold,
    ends_equal: bool,
}

/// κ for a travel from a to b of the front focal point and a beam of this Z.
fn even_convergence(a: Twofold, b: Twofold, z: Twofold) -> EvenConvergence {
    let mirrored = (a + b).is_negative();
    let (near, far) = if mirrored { (-b / z, -a / z) } else { (a / z, b / z) };
    let (one, two, four) = (Twofold::ONE, Twofold::from(2.0), Twofold::from(4.0));
    let sum = near + far;
    let at_most = |x: Twofold, limit: Twofold| !(limit - x).is_negative();

    // The waist mid-travel, if the beam is wide enough to carry it there.
    let room = (one - sum) * (one + sum);
    let middle = if room.is_negative() { None } else { Some(sum / (one + room.square_root())) };
    let (k, ends_equal) = match middle {
        Some(k) if at_most(two * far * k, one) => (k, true),
        _ if at_most(near * (one + four * far.squared()), two * far) => (one / (two * far), false),
        _ => {
            let product = near * far;
            let root = (far - near).root_sum_square(two * product);
            (two * (one - product) / (sum + root), false)
        }
    };
    EvenConvergence { convergence: if mirrored { -k } else { k } / z, ends_equal }
}
