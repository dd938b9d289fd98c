//! A round beam about its waist: Rayleigh range, divergence, diameter and wavefront along z.
//!
//! | symbol | meaning                              | unit | valid       |
//! |--------|--------------------------------------|------|-------------|
//! | λ      | vacuum wavelength                    | m    | 1e-8 … 1e-2 |
//! | M²     | beam propagation ratio               | 1    | 1 … 1e4     |
//! | d₀     | waist **diameter**, 1/e² = D4σ       | m    | 1e-9 … 10   |
//! | z      | distance from the waist, + along the light | m | ±1e7  |
//! | z_R    | Rayleigh range                       | m    |             |
//! | θ      | far-field divergence, **full** angle | rad  | ≤ 0.6       |
//!
//! z_R = π·d₀² / (4·M²·λ)         \[1\]\[2\]
//! θ = 4·M²·λ / (π·d₀) = d₀/z_R   \[2\]
//! BPP = (d₀/2)·(θ/2) = M²·λ/π    \[2\]
//! d(z) = d₀·√(1 + (z/z_R)²)      \[1\]\[2\]
//! 1/R = z / (z² + z_R²)          \[1\]
//!
//! A beam whose half angle θ/2 exceeds 0.3 rad is refused and one above 0.15 rad carries
//! [`Validity::WIDE_CONE`]: sine and tangent of the angle differ there by 4.7 % and 1.1 %.
//! Not modelled: lens aberration, clipping, thermal lensing, polarisation.
//!
//! \[1\] H. Kogelnik, T. Li, *Applied Optics* 5, 1550 (1966), from memory.
//! \[2\] ISO 11146-1, from memory; read as quoted in the documentation of the open-source Python
//! package `laserbeamsize` 2.5.0.

use crate::error::{Error, Param, check, within_model};
use crate::model::math;
use crate::model::twofold::Twofold;
use crate::validity::{Cone, REFUSED_HALF_ANGLE, Validity};

/// A round beam, described at its waist.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// Vacuum wavelength λ in metres.
    pub wavelength: f64,
    /// Beam propagation ratio M², 1 for a Gaussian beam.
    pub m2: f64,
    /// Waist **diameter** d₀ in metres, 1/e² (D4σ).
    pub waist_diameter: f64,
}

/// What follows from a [`Beam`] alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamParameters {
    /// Distance from the waist at which the diameter has grown by √2, in metres.
    pub rayleigh_range: f64,
    /// Far-field half angle in radians.
    pub divergence_half_angle: f64,
    /// Far-field full angle in radians.
    pub divergence_full_angle: f64,
    /// Waist **radius** times **half** angle, in metre radians.
    pub beam_parameter_product: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// A [`Beam`] at one place along its axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamSection {
    /// 1/e² (D4σ) diameter in metres.
    pub diameter: f64,
    /// Curvature of the wavefront 1/R in 1/m; 0 at the waist, + where the wave diverges along +z.
    pub wavefront_curvature: f64,
    /// Radius of curvature of the wavefront in metres; +∞ at the waist, where the wave is plane.
    pub wavefront_radius: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// A beam that passed its checks, with the Rayleigh range that everything else needs.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CheckedBeam {
    /// Before it was rounded, where it was computed and not given.
    pub(crate) waist: Twofold,
    pub(crate) waist_diameter: f64,
    pub(crate) rayleigh_range: Twofold,
    /// Its cone, and that of the beam it was made from, with the flags of both.
    pub(crate) cone: Cone,
}

/// Names under which the parts of a beam are reported.
pub(crate) struct BeamNames {
    pub(crate) m2: Param,
    pub(crate) waist_diameter: Param,
    pub(crate) half_angle: Param,
}

pub(crate) const ROUND: BeamNames =
    BeamNames { m2: Param::M2, waist_diameter: Param::WaistDiameter, half_angle: Param::DivergenceHalfAngle };

/// π·d₀² / (4·M²·λ), unchecked.
pub(crate) fn rayleigh_range_of(wavelength: f64, m2: f64, waist_diameter: f64) -> Twofold {
    let quarter_pi = Twofold::PI * Twofold::from(0.25);
    quarter_pi * Twofold::product(waist_diameter, waist_diameter) / Twofold::product(m2, wavelength)
}

/// Far-field half angle 2·M²·λ / (π·d₀), unchecked.
fn half_angle_of(wavelength: f64, m2: f64, waist_diameter: f64) -> Twofold {
    Twofold::from(2.0) * Twofold::product(m2, wavelength) / (Twofold::PI * Twofold::from(waist_diameter))
}

/// Checks one axis of a beam whose wavelength is checked already.
pub(crate) fn checked_axis(
    names: &BeamNames,
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
) -> Result<CheckedBeam, Error> {
    let m2 = check(names.m2, m2)?;
    let waist_diameter = check(names.waist_diameter, waist_diameter)?;
    let half_angle = half_angle_of(wavelength, m2, waist_diameter).to_f64();
    Ok(CheckedBeam {
        waist: Twofold::from(waist_diameter),
        waist_diameter,
        rayleigh_range: rayleigh_range_of(wavelength, m2, waist_diameter),
        cone: checked_cone(names, half_angle)?,
    })
}

/// Refuses a cone too wide for the model, and flags one that is nearly so. A waist that was computed
/// from the widest angle allowed passes, whichever way it was rounded.
pub(crate) fn checked_cone(names: &BeamNames, half_angle: f64) -> Result<Cone, Error> {
    const ROUNDING: f64 = 1.0 + 4.0 * f64::EPSILON;
    if half_angle > REFUSED_HALF_ANGLE * ROUNDING {
        within_model(names.half_angle, half_angle)?;
    }
    Ok(Cone::of(half_angle))
}

pub(crate) fn checked_beam(beam: &Beam) -> Result<CheckedBeam, Error> {
    let wavelength = check(Param::Wavelength, beam.wavelength)?;
    checked_axis(&ROUND, wavelength, beam.m2, beam.waist_diameter)
}

impl CheckedBeam {
    /// u = z/z_R.
    pub(crate) fn rayleigh_ranges_in(&self, z: Twofold) -> Twofold {
        z / self.rayleigh_range
    }

    /// d₀/(2·z_R), before it was rounded.
    pub(crate) fn half_angle(&self) -> Twofold {
        self.waist / (Twofold::from(2.0) * self.rayleigh_range)
    }

    /// d(z) = d₀·√(1 + (z/z_R)²). One rounding at each step: the same bits, one at a time or many.
    pub(crate) fn diameter_at(&self, z: f64) -> f64 {
        let u = z / self.rayleigh_range.to_f64();
        self.waist_diameter * math::sqrt(1.0 + u * u)
    }
}

/// Rayleigh range, divergence and beam parameter product of a beam.
///
/// z_R = π·d₀² / (4·M²·λ), θ = 4·M²·λ / (π·d₀), BPP = M²·λ/π; sources in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/beam_parameters.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field outside its range, in the order of
/// the fields; [`Error::OutsideModel`] if the half angle exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::optics::{beam_parameters, Beam};
/// // A helium-neon beam with a waist of 100 µm in diameter.
/// let beam = Beam { wavelength: 633e-9, m2: 1.0, waist_diameter: 100e-6 };
/// let p = beam_parameters(&beam)?;
/// assert_eq!((p.rayleigh_range * 1e6).round(), 12_408.0); // 12.408 mm
/// assert!(p.validity.is_fine());
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "confocal parameter")] // b = 2·z_R
#[doc(alias = "beam quality")]
#[must_use = "the parameters are the result"]
pub fn beam_parameters(beam: &Beam) -> Result<BeamParameters, Error> {
    let checked = checked_beam(beam)?;
    let half_angle = half_angle_of(beam.wavelength, beam.m2, beam.waist_diameter);
    Ok(BeamParameters {
        rayleigh_range: checked.rayleigh_range.to_f64(),
        divergence_half_angle: half_angle.to_f64(),
        divergence_full_angle: (Twofold::from(2.0) * half_angle).to_f64(),
        // BPP = M²·λ/π
        beam_parameter_product: (Twofold::product(beam.m2, beam.wavelength) / Twofold::PI).to_f64(),
        validity: checked.cone.validity,
    })
}

/// Diameter and wavefront of a beam at a distance `z` from its waist, + along the light.
///
/// d(z) = d₀·√(1 + (z/z_R)²), 1/R = z/(z² + z_R²); sources in the [module](self). What the
/// change of diameter means for a surface is told by [`defocus`](crate::model::focus::defocus).
///
/// Accuracy: diameter at most 3 ulp, wavefront at most 1.1 ulp (`tests/vectors/beam_at.csv`).
///
/// # Errors
/// As [`beam_parameters`], then [`Error::NotFinite`] or [`Error::OutOfRange`] for `z`.
///
/// # Example
/// ```
/// use spotwise::model::optics::{beam_at, Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let section = beam_at(&beam, 1e-3)?;
/// assert_eq!((section.diameter * 1e9).round(), 203_998.0); // 203.998 µm, 1 mm from the waist
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "caustic")]
#[must_use = "the section is the result"]
pub fn beam_at(beam: &Beam, z: f64) -> Result<BeamSection, Error> {
    let checked = checked_beam(beam)?;
    let z = check(Param::Z, z)?;
    let zr = checked.rayleigh_range;
    let wide_z = Twofold::from(z);
    let squares = wide_z.squared() + zr.squared();
    Ok(BeamSection {
        diameter: checked.diameter_at(z),
        // 1/R = z / (z² + z_R²)
        wavefront_curvature: (wide_z / squares).to_f64(),
        wavefront_radius: wavefront_radius(z, zr),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}

/// R = z + z_R²/z, and +∞ for the plane wave at the waist.
fn wavefront_radius(z: f64, zr: Twofold) -> f64 {
    if z == 0.0 {
        return f64::INFINITY;
    }
    // So near the waist R comes close to the largest double, or passes it, and z adds nothing.
    if math::fabs(z) < 1e-250 {
        return zr.squared().to_f64() / z;
    }
    let wide_z = Twofold::from(z);
    (wide_z + zr.squared() / wide_z).to_f64()
}

/// Diameters of one beam at many distances from its waist: `out[i]` belongs to `z[i]`.
///
/// Each is the same bits as [`beam_at`] gives; the loop has no branch, so that it vectorises.
/// Accuracy: at most 3 ulp (`tests/vectors/diameters_at.csv`).
/// On any error every element of `out` is NaN, none is stale. Returns the cone of the beam and its flags.
///
/// # Errors
/// [`Error::LengthMismatch`] if `out` is not as long as `z`; else as [`beam_at`], for the first
/// distance that is refused.
///
/// # Example
/// ```
/// use spotwise::model::optics::{diameters_at, Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let mut out = [0.0; 3];
/// let cone = diameters_at(&beam, &[-1e-3, 0.0, 1e-3], &mut out)?;
/// assert_eq!(out[1], 88e-6);
/// assert_eq!(out[0], out[2]);
/// assert!(cone.validity.is_fine());
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn diameters_at(beam: &Beam, z: &[f64], out: &mut [f64]) -> Result<Cone, Error> {
    let checked = (|| {
        if out.len() != z.len() {
            return Err(Error::LengthMismatch { param: Param::Output, value: out.len(), expected: z.len() });
        }
        let checked = checked_beam(beam)?;
        check_all(Param::Z, z)?;
        Ok(checked)
    })();
    match checked {
        Ok(checked) => {
            for (out, &z) in out.iter_mut().zip(z) {
                *out = checked.diameter_at(z);
            }
            Ok(checked.cone)
        }
        Err(error) => {
            out.fill(f64::NAN);
            Err(error)
        }
    }
}

/// Checks many values, and names the first that is refused. The search for it starts only when there
/// is one, so that the usual pass has no branch.
fn check_all(param: Param, values: &[f64]) -> Result<(), Error> {
    let (least, greatest) = param.range();
    let all_allowed = values.iter().fold(true, |allowed, value| allowed & (least..=greatest).contains(value));
    if !all_allowed {
        for &value in values {
            check(param, value)?;
        }
    }
    Ok(())
}

/// Waist diameter in metres of the beam that has this Rayleigh range.
///
/// d₀ = √(4·M²·λ·z_R / π), the inverse of [`beam_parameters`].
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/waist_from_rayleigh_range.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments;
/// [`Error::OutsideModel`] if the waist would be outside its range or the cone too wide.
///
/// # Example
/// ```
/// use spotwise::model::optics::waist_from_rayleigh_range;
/// let d0 = waist_from_rayleigh_range(10.6e-6, 1.2, 0.5e-3)?;
/// assert_eq!((d0 * 1e9).round(), 89_988.0); // 89.988 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the diameter is the result"]
pub fn waist_from_rayleigh_range(wavelength: f64, m2: f64, rayleigh_range: f64) -> Result<f64, Error> {
    let wavelength = check(Param::Wavelength, wavelength)?;
    let m2 = check(Param::M2, m2)?;
    let zr = check(Param::RayleighRange, rayleigh_range)?;
    // d₀ = √(4·M²·λ·z_R / π)
    let squared = Twofold::from(4.0) * Twofold::product(m2, wavelength) * Twofold::from(zr) / Twofold::PI;
    reachable_waist(wavelength, m2, squared.square_root().to_f64())
}

/// Waist diameter in metres of the beam that has this far-field **full** angle.
///
/// d₀ = 4·M²·λ / (π·θ), the inverse of [`beam_parameters`].
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/waist_from_divergence.csv`).
///
/// # Errors
/// As [`waist_from_rayleigh_range`].
///
/// # Example
/// ```
/// use spotwise::model::optics::waist_from_divergence;
/// let d0 = waist_from_divergence(1.064e-6, 1.1, 0.04)?;
/// assert_eq!((d0 * 1e9).round(), 37_255.0); // 37.255 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the diameter is the result"]
pub fn waist_from_divergence(wavelength: f64, m2: f64, divergence_full_angle: f64) -> Result<f64, Error> {
    let wavelength = check(Param::Wavelength, wavelength)?;
    let m2 = check(Param::M2, m2)?;
    let angle = check(Param::DivergenceFullAngle, divergence_full_angle)?;
    // d₀ = 4·M²·λ / (π·θ)
    let d0 = Twofold::from(4.0) * Twofold::product(m2, wavelength) / (Twofold::PI * Twofold::from(angle));
    reachable_waist(wavelength, m2, d0.to_f64())
}

/// A waist that was computed, not given: outside its range it is the model's limit, not a typing
/// error.
fn reachable_waist(wavelength: f64, m2: f64, waist_diameter: f64) -> Result<f64, Error> {
    within_model(Param::WaistDiameter, waist_diameter)?;
    checked_axis(&ROUND, wavelength, m2, waist_diameter)?;
    Ok(waist_diameter)
}

/// M² of the beam with this waist diameter and far-field **full** angle.
///
/// M² = π·d₀·θ / (4·λ), by the definition of the beam parameter product.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/m2_from_divergence.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments;
/// [`Error::OutsideModel`] if M² would be below 1 by more than rounding, which no beam can be: one of the three
/// measurements is wrong, often a radius taken for a diameter or a half angle for the full one.
///
/// # Example
/// ```
/// use spotwise::model::optics::m2_from_divergence;
/// let m2 = m2_from_divergence(1.064e-6, 40e-6, 0.04)?;
/// assert_eq!((m2 * 1e4).round(), 11_810.0); // 1.1810
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "beam quality factor")]
#[must_use = "the ratio is the result"]
pub fn m2_from_divergence(
    wavelength: f64,
    waist_diameter: f64,
    divergence_full_angle: f64,
) -> Result<f64, Error> {
    let wavelength = check(Param::Wavelength, wavelength)?;
    let d0 = check(Param::WaistDiameter, waist_diameter)?;
    let angle = check(Param::DivergenceFullAngle, divergence_full_angle)?;
    // M² = π·d₀·θ / (4·λ)
    let m2 = Twofold::PI * Twofold::product(d0, angle) / (Twofold::from(4.0) * Twofold::from(wavelength));
    let m2 = m2.to_f64();
    // The angle of a perfect beam passes, whichever way it was rounded.
    const ALMOST_ONE: f64 = 1.0 - 4.0 * f64::EPSILON;
    within_model(Param::M2, if (ALMOST_ONE..1.0).contains(&m2) { 1.0 } else { m2 })
}
