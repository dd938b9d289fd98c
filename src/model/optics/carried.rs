//! A beam carried from element to element in the form (z, z_R), without its wavelength and M².
//!
//! | symbol | meaning                                                        | unit |
//! |--------|----------------------------------------------------------------|------|
//! | z      | place less waist, + where the waist lies behind (upstream)     | m    |
//! | z_R    | Rayleigh range                                                 | m    |
//! | B      | Rayleigh range of a beam as wide as this one, but flat here    | m    |
//! | c      | curvature of the wavefront, + diverging                        | 1/m  |
//! | P      | power of a thin element, + converging                          | 1/m  |
//!
//! B = (z² + z_R²)/z_R = π·D²/(4·M²·λ), c = z/(z² + z_R²)
//! z_R = B/(1 + (c·B)²), z = c·B·z_R                        the same, read backwards
//! space: z + L, window: z + t/n, afocal expander: m²·z and m²·z_R
//! thin element: D stays, c − P; where it changes M² to M²′, B·M²/M²′
//!
//! No step is singular: not a waist at the element, nor one at its focal point.

use super::beam::{Beam, BeamNames, CheckedBeam, ROUND, checked_beam, checked_cone};
use super::lens::BeforeLens;
use crate::error::{Error, Param, check, within_model};
use crate::model::twofold::Twofold;

/// Where a place lies on a beam.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Carried {
    /// z, from the waist to the place, + along the light.
    pub(crate) from_waist: Twofold,
    /// z_R.
    pub(crate) rayleigh_range: Twofold,
}

impl Carried {
    /// The beam of this wavefront curvature c and this B.
    fn of_wavefront(curvature: Twofold, flat_rayleigh_range: Twofold) -> Self {
        let bend = curvature * flat_rayleigh_range;
        let rayleigh_range = flat_rayleigh_range / (Twofold::ONE + bend.squared());
        Self { from_waist: bend * rayleigh_range, rayleigh_range }
    }

    /// c = z/(z² + z_R²).
    pub(crate) fn curvature(&self) -> Twofold {
        self.from_waist / (self.from_waist.squared() + self.rayleigh_range.squared())
    }

    /// B = (z² + z_R²)/z_R.
    pub(crate) fn flat_rayleigh_range(&self) -> Twofold {
        self.rayleigh_range + self.from_waist.squared() / self.rayleigh_range
    }

    /// The place that lies `length` further on.
    pub(crate) fn advanced(&self, length: Twofold) -> Self {
        Self { from_waist: self.from_waist + length, rayleigh_range: self.rayleigh_range }
    }

    /// Behind an afocal expander.
    pub(crate) fn magnified(&self, magnification: f64) -> Self {
        let squared = Twofold::product(magnification, magnification);
        Self { from_waist: squared * self.from_waist, rayleigh_range: squared * self.rayleigh_range }
    }

    /// Behind a thin element of this power, which multiplies M² by `m2_growth`.
    pub(crate) fn refracted(&self, power: Twofold, m2_growth: Twofold) -> Self {
        Self::of_wavefront(self.curvature() - power, self.flat_rayleigh_range() / m2_growth)
    }

    /// Diameter at the place; `spread` is 4·M²·λ/π.
    pub(crate) fn diameter(&self, spread: Twofold) -> Twofold {
        (spread * self.flat_rayleigh_range()).square_root()
    }

    /// The beam as the model takes it, refused if its cone or its waist is outside the model.
    pub(crate) fn checked(&self, names: &BeamNames, spread: Twofold) -> Result<CheckedBeam, Error> {
        let waist = (spread * self.rayleigh_range).square_root();
        let half_angle = waist / (Twofold::from(2.0) * self.rayleigh_range);
        let cone = checked_cone(names, half_angle.to_f64())?;
        let waist_diameter = within_model(names.waist_diameter, waist.to_f64())?;
        Ok(CheckedBeam { waist, waist_diameter, rayleigh_range: self.rayleigh_range, cone })
    }
}

/// 4·M²·λ/π, by which a waist diameter squared exceeds its Rayleigh range.
pub(crate) fn spread(wavelength: f64, m2: Twofold) -> Twofold {
    Twofold::from(4.0) * m2 * Twofold::from(wavelength) / Twofold::PI
}

/// The beam before a lens that stands behind a beam expander: checks the raw beam, then the other
/// numbers in their order, then what comes of them.
pub(crate) fn expanded_before_lens(
    raw: &Beam,
    waist_to_expander: f64,
    magnification: f64,
    exit_power: f64,
    expander_to_lens: f64,
) -> Result<BeforeLens, Error> {
    let beam = checked_beam(raw)?;
    let from_waist = Twofold::from(check(Param::WaistToExpander, waist_to_expander)?);
    let magnification = check(Param::Magnification, magnification)?;
    let exit_power = Twofold::from(check(Param::ExitPower, exit_power)?);
    let expander_to_lens = Twofold::from(check(Param::ExpanderToLens, expander_to_lens)?);
    let behind = Carried { from_waist, rayleigh_range: beam.rayleigh_range }
        .magnified(magnification)
        .refracted(exit_power, Twofold::ONE);
    let mut expanded = behind.checked(&ROUND, spread(raw.wavelength, Twofold::from(raw.m2)))?;
    expanded.cone = expanded.cone.wider(beam.cone);
    let waist_to_lens = behind.advanced(expander_to_lens).from_waist;
    within_model(Param::WaistToLens, waist_to_lens.to_f64())?;
    Ok(BeforeLens { wavelength: raw.wavelength, m2: raw.m2, beam: expanded, waist_to_lens })
}
