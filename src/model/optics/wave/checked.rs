//! A wave in normalised numbers, checked.

use super::Wave;
use super::profile::{Profile, Smear};
use super::pupil::{Effort, FINE, Pupil};
use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::math::{self, sqrt};
use crate::model::optics::beam::{ROUND, checked_cone};
use crate::model::optics::singlet::{check_clear_aperture, clipped};
use crate::model::twofold::Twofold;
use crate::validity::Cone;
use core::f64::consts::PI;

/// Greatest M² of a wave.
const GREATEST_M2: f64 = 5.0;
/// Greatest magnitude of the aberration phase of a wave.
const GREATEST_PHASE: f64 = 6.0;

/// A wave that may be computed.
pub(crate) struct CheckedWave {
    pub(super) m2: f64,
    pub(super) smear: Smear,
    pub(super) alpha: f64,
    /// Clipping ratio X.
    pub(super) clip: f64,
    /// Share of the power that passes the aperture.
    pub(super) transmitted: f64,
    /// 1/e² diameter at the lens D.
    pub(super) diameter: f64,
    /// From the lens to where the wave converges, L.
    pub(super) focus: f64,
    /// Rayleigh range at the lens with M² = 1: ZL = πD²/(4λ).
    pub(super) rayleigh: f64,
    /// ZL/L, which is π Fresnel numbers of the 1/e² radius.
    pub(super) fresnel: f64,
    /// Irradiance in the ideal focus for each watt, in 1/m².
    pub(super) ideal_per_watt: f64,
    pub(crate) cone: Cone,
}

/// One plane of a wave.
pub(super) struct Plane {
    pub(super) pupil: Pupil,
    /// v for each metre of radius: k₀w/l.
    pub(super) v_per_metre: f64,
    /// Irradiance over that in the ideal focus, for each unit of the normalised one: M⁴(L/l)².
    pub(super) brightness: f64,
}

/// Checks a wave: its fields in order, then its clipping and its cone.
pub(crate) fn checked_wave(wave: &Wave) -> Result<CheckedWave, Error> {
    let wavelength = check(Param::Wavelength, wave.wavelength)?;
    let (least, _) = Param::M2.range();
    let m2 = check_within(Param::M2, wave.m2, least, GREATEST_M2)?;
    let diameter = check(Param::DiameterAtLens, wave.diameter_at_lens)?;
    let aperture = check_clear_aperture(wave.clear_aperture)?;
    let focus = check(Param::LensToFocus, wave.lens_to_focus)?;
    let alpha = check_within(Param::AberrationPhase, wave.aberration_phase, -GREATEST_PHASE, GREATEST_PHASE)?;
    let (clip, transmitted) = clipped(aperture, Twofold::from(diameter))?;
    let widest = math::lesser(aperture, diameter);
    let cone = checked_cone(&ROUND, 0.5 * widest / focus)?;
    let rayleigh = PI * diameter * diameter / (4.0 * wavelength);
    let ideal_diameter = 4.0 * m2 * wavelength * focus / (PI * diameter);
    Ok(CheckedWave {
        m2,
        smear: Smear::new(m2),
        alpha,
        clip,
        transmitted,
        diameter,
        focus,
        rayleigh,
        fresnel: rayleigh / focus,
        ideal_per_watt: 8.0 / (PI * ideal_diameter * ideal_diameter),
        cone,
    })
}

impl CheckedWave {
    /// The plane at `z`, from its place.
    pub(super) fn plane(&self, z: f64) -> Result<Plane, Error> {
        let l = self.focus + z;
        // β = −ZL·z/(L·l); no plane lies at or before the lens.
        let beta = if l > 0.0 { -self.fresnel * z / l } else { f64::INFINITY };
        within_model(Param::NormalisedDefocus, beta)?;
        Ok(self.plane_of(beta, self.focus / l, &FINE))
    }

    /// The plane at a normalised defocus, which must exceed −ZL/L.
    pub(super) fn plane_at(&self, beta: f64) -> Plane {
        self.plane_of(beta, 1.0 + beta / self.fresnel, &FINE)
    }

    /// `nearness` is L/l.
    pub(super) fn plane_of(&self, beta: f64, nearness: f64, effort: &Effort) -> Plane {
        Plane {
            pupil: Pupil::new(self.alpha, beta, self.clip, effort),
            // k₀·w/l = 2π/λ·(D/2)/l = 4·ZL/(D·l)
            v_per_metre: 4.0 * self.fresnel * nearness / self.diameter,
            brightness: self.m2 * self.m2 * nearness * nearness,
        }
    }

    /// z of a normalised defocus: −L·β/(ZL/L + β).
    pub(crate) fn z_of(&self, beta: f64) -> f64 {
        -self.focus * beta / (self.fresnel + beta)
    }

    /// z of one normalised defocus less that of another, without cancellation.
    pub(crate) fn z_between(&self, from: f64, to: f64) -> f64 {
        let g = self.fresnel;
        self.focus * g * (from - to) / ((g + from) * (g + to))
    }

    /// Metres of z for a unit of normalised defocus: L·(ZL/L)/(ZL/L + β)².
    pub(crate) fn depth_of_unit(&self, beta: f64) -> f64 {
        let nearness = self.fresnel + beta;
        self.focus * self.fresnel / (nearness * nearness)
    }

    pub(super) fn profile(&self, plane: &Plane) -> Profile {
        Profile::new(plane.pupil, self.smear, 0.0, &FINE)
    }

    /// D4σ diameter at `z` behind the lens of the unclipped wave.
    ///
    /// A quartic phase makes M′ = √(M⁴ + 2α²) and adds the power 2α/ZL; then
    /// d(l) = D·√((1 − lκ)² + (l/B)²) with κ = 1/L + 2α/ZL, B = ZL/M′.
    pub(super) fn second_moment_diameter(&self, z: f64) -> f64 {
        let l = self.focus + z;
        let added = 2.0 * self.alpha / self.rayleigh;
        // 1 − lκ = −z/L − l·2α/ZL
        let converged = -z / self.focus - l * added;
        let spread = l * self.second_moment_m2() / self.rayleigh;
        self.diameter * sqrt(converged * converged + spread * spread)
    }

    /// M′ = √(M⁴ + 2α²).
    pub(super) fn second_moment_m2(&self) -> f64 {
        sqrt(self.m2 * self.m2 + 2.0 * self.alpha * self.alpha)
    }

    /// z of the smallest second moment: κ/(κ² + 1/B²) − L.
    pub(super) fn second_moment_z(&self) -> f64 {
        let added = 2.0 * self.alpha / self.rayleigh;
        let kappa = 1.0 / self.focus + added;
        let inverse_b = self.second_moment_m2() / self.rayleigh;
        let square = inverse_b * inverse_b;
        -self.focus * (kappa * added + square) / (kappa * kappa + square)
    }
}

/// Radius over which a profile is known, refused beyond the model.
pub(super) fn check_normalised_radius(v: f64) -> Result<f64, Error> {
    within_model(Param::NormalisedRadius, 0.5 * v).map(|half| 2.0 * half)
}
