//! Flat windows and plates in a converging beam, and focus inside a transparent part.
//!
//! | symbol | meaning                                                    | unit | valid    |
//! |--------|------------------------------------------------------------|------|----------|
//! | n      | refractive index of the plate or part, in air              | 1    | 1.01 … 6 |
//! | t      | thickness of the plate                                     | m    | 0 … 10   |
//! | Δ      | how far the lens is lowered from focus on the face         | m    | 0 … 10   |
//! | θ      | **half** angle of the 1/e² cone in air, d₀/(2·z_R)         | rad  | ≤ 0.3    |
//! | k₀     | 2π/λ                                                       | 1/m  |          |
//! | α      | quartic wavefront aberration at the 1/e² cone, W = α·(r/w)⁴ | rad  | ±1e4     |
//!
//! plate: shift = t·(1 − 1/n)
//! edge shift = t·(1 − cos θ/√(n² − sin²θ)) = t·(n² − 1)/(ρ·(ρ + cos θ)), ρ = √(n² − sin²θ)
//! α = −k₀·t·(n² − 1)/(8·n³)·θ⁴
//! part: depth = n·Δ, edge depth = Δ·√(n² − sin²θ)/cos θ, z_R inside = n·z_R
//! α as for a plate as thick as the depth
//!
//! Derivation: Snell's law for the shifts. A plane wave at the angle θ passes a plate with the phase
//! k₀·t·(√(n² − sin²θ) − cos θ); its terms in θ² are the shift, those in θ⁴ are α. A part in which the
//! light comes to focus is a plate whose far face lies in the focus, where it changes nothing. α has the
//! opposite sign to that of a converging singlet: here the edge of the cone focuses farther away.
//!
//! The plate does not change waist diameter, M² nor cone in air. The quartic term is within 1.4 % of
//! the exact phase for n ≥ 1.5 and within 3.1 % for n ≥ 1.01, up to θ = 0.3 rad (computed to 40 digits
//! from the phase above).
//!
//! What α does to the spot is told by [`aberration_growth`](super::aberration_growth). Not modelled:
//! a tilted plate (astigmatism and coma), reflection and absorption, self-focusing in the part.

use super::beam::{Beam, checked_beam};
use crate::error::{Error, Param, check, within_model};
use crate::model::math;
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// What a flat plate does to a focus behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateFocus {
    /// How far the waist moves in metres, + away from the lens: t·(1 − 1/n).
    pub focus_shift: f64,
    /// How far the crossing of the rays at the 1/e² cone moves in metres, by Snell's law.
    pub edge_focus_shift: f64,
    /// Quartic wavefront aberration α of the plate at the 1/e² radius in radians, negative: of the
    /// opposite sign to that of a converging singlet.
    pub aberration_phase: f64,
    /// Magnitude of α over M².
    pub normalised_aberration: f64,
    /// Half angle θ of the cone in air in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A focus inside a transparent part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsideFocus {
    /// From the face of the part to the waist in metres: n times what the lens was lowered.
    pub depth: f64,
    /// From the face to the crossing of the rays at the 1/e² cone in metres, by Snell's law.
    pub edge_depth: f64,
    /// Rayleigh range inside the part in metres, n times that in air; the waist diameter is that in air.
    pub rayleigh_range: f64,
    /// Quartic wavefront aberration α at the 1/e² radius in radians, negative.
    pub aberration_phase: f64,
    /// Magnitude of α over M².
    pub normalised_aberration: f64,
    /// Half angle θ of the cone in air in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// The ray at the 1/e² cone, by Snell's law.
struct EdgeRay {
    /// cos θ, in air.
    cosine: Twofold,
    /// ρ = √(n² − sin²θ).
    root: Twofold,
}

impl EdgeRay {
    fn of(half_angle: Twofold, n: Twofold) -> Self {
        let angle = half_angle.to_f64();
        let sine = Twofold::from(math::sin(angle));
        Self { cosine: Twofold::from(math::cos(angle)), root: (n.squared() - sine.squared()).square_root() }
    }
}

/// n² − 1.
fn squared_less_one(n: Twofold) -> Twofold {
    (n - Twofold::ONE) * (n + Twofold::ONE)
}

/// k₀·(n² − 1)/(8·n³): the aberration phase of a plate is minus this times its thickness and θ⁴.
pub(super) fn plate_phase(wavelength: f64, n: Twofold) -> Twofold {
    // k₀/8 = π/(4·λ)
    Twofold::PI / Twofold::from(4.0 * wavelength) * squared_less_one(n) / (n.squared() * n)
}

/// What a thickness of material does to the wavefront of a converging beam.
struct PlateAberration {
    phase: f64,
    normalised: f64,
    validity: Validity,
}

/// α = −k₀·t·(n² − 1)/(8·n³)·θ⁴, refused where no function would take it.
///
/// t is `over_length` times `length`, which may be all but nothing and is therefore multiplied last.
fn aberration(
    beam: &Beam,
    half_angle: Twofold,
    length: Twofold,
    over_length: Twofold,
    n: Twofold,
) -> Result<PlateAberration, Error> {
    let fourth_power = half_angle.squared().squared();
    let slope = plate_phase(beam.wavelength, n) * over_length * fourth_power;
    let magnitude = slope * length;
    // Less than zero, but +0 for no thickness.
    let phase = within_model(Param::AberrationPhase, (Twofold::ZERO - magnitude).to_f64())?;
    let normalised = (slope / Twofold::from(beam.m2) * length).to_f64();
    Ok(PlateAberration { phase, normalised, validity: Validity::of_aberration(normalised) })
}

/// What a flat plate at right angles to a converging beam does to the focus behind it.
///
/// shift = t·(1 − 1/n), α = −k₀·t·(n² − 1)/(8·n³)·θ⁴; derivation in the [module](self). `beam` is the
/// focused beam in air, `thickness` is in metres. It does not matter where between lens and focus the
/// plate stands. The two shifts differ by what the plate aberrates.
///
/// Accuracy: at most 0.75 ulp (1.5 for a thickness below 1e-260 m), the edge at most 4 ulp
/// (`tests/vectors/focus_behind_plate.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], for the beam as a whole, then in the order of the
/// arguments; [`Error::OutsideModel`] if the half angle exceeds 0.3 rad or the aberration phase 1e4 rad.
///
/// # Example
/// ```
/// use spotwise::model::optics::{focus_behind_plate, Beam};
/// // A protective window of 3 mm fused silica in a beam of 1064 nm with a spot of 20 µm.
/// let beam = Beam { wavelength: 1.064e-6, m2: 1.1, waist_diameter: 20e-6 };
/// let plate = focus_behind_plate(&beam, 3e-3, 1.4496)?;
/// assert_eq!((plate.focus_shift * 1e9).round(), 930_464.0);         // 0.930 mm farther away
/// assert_eq!((plate.edge_focus_shift * 1e9).round(), 931_217.0);
/// assert_eq!((plate.aberration_phase * 1e9).round(), -1_542_354.0); // -1.54 mrad: nothing
/// assert!(plate.validity.is_fine());
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "protective window")]
#[must_use = "the focus is the result"]
pub fn focus_behind_plate(beam: &Beam, thickness: f64, index: f64) -> Result<PlateFocus, Error> {
    let checked = checked_beam(beam)?;
    let t = Twofold::from(check(Param::Thickness, thickness)?);
    let n = Twofold::from(check(Param::RefractiveIndex, index)?);
    let half_angle = checked.half_angle();
    let aberration = aberration(beam, half_angle, t, Twofold::ONE, n)?;
    let edge = EdgeRay::of(half_angle, n);
    Ok(PlateFocus {
        // t·(1 − 1/n)
        focus_shift: ((n - Twofold::ONE) / n * t).to_f64(),
        // t·(n² − 1)/(ρ·(ρ + cos θ))
        edge_focus_shift: (squared_less_one(n) / (edge.root * (edge.root + edge.cosine)) * t).to_f64(),
        aberration_phase: aberration.phase,
        normalised_aberration: aberration.normalised,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity.union(aberration.validity),
    })
}

/// Where a beam comes to focus inside a transparent part, when its lens is lowered from focus on the
/// face of the part.
///
/// depth = n·Δ; derivation in the [module](self). `beam` is the focused beam in air,
/// `lens_lowered_by` the way of the lens toward the part in metres. The waist diameter in the part is
/// that in air; the Rayleigh range is n times longer.
///
/// Accuracy: at most 0.75 ulp (1.5 for a way below 1e-260 m), the edge at most 4 ulp
/// (`tests/vectors/focus_inside.csv`).
///
/// # Errors
/// As [`focus_behind_plate`].
///
/// # Example
/// ```
/// use spotwise::model::optics::{focus_inside, Beam};
/// // Green light with a spot of 20 µm in a block of index 1.5, the lens lowered by 10 mm.
/// let beam = Beam { wavelength: 532e-9, m2: 1.2, waist_diameter: 20e-6 };
/// let inside = focus_inside(&beam, 10e-3, 1.5)?;
/// assert_eq!((inside.depth * 1e9).round(), 15_000_000.0);       // 15 mm below the face
/// assert_eq!((inside.edge_depth * 1e9).round(), 15_001_721.0);
/// assert_eq!((inside.rayleigh_range * 1e9).round(), 738_156.0); // 0.738 mm, 0.492 mm in air
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "subsurface engraving")]
#[must_use = "the focus is the result"]
pub fn focus_inside(beam: &Beam, lens_lowered_by: f64, index: f64) -> Result<InsideFocus, Error> {
    let checked = checked_beam(beam)?;
    let lowered = Twofold::from(check(Param::LensLoweredBy, lens_lowered_by)?);
    let n = Twofold::from(check(Param::RefractiveIndex, index)?);
    let half_angle = checked.half_angle();
    let depth = n * lowered;
    let aberration = aberration(beam, half_angle, lowered, n, n)?;
    let edge = EdgeRay::of(half_angle, n);
    Ok(InsideFocus {
        depth: depth.to_f64(),
        edge_depth: (edge.root / edge.cosine * lowered).to_f64(),
        rayleigh_range: (n * checked.rayleigh_range).to_f64(),
        aberration_phase: aberration.phase,
        normalised_aberration: aberration.normalised,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity.union(aberration.validity),
    })
}
