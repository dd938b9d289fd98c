//! A simple astigmatic beam: two axes, each with a waist of its own.
//!
//! | symbol   | meaning                                       | unit |
//! |----------|-----------------------------------------------|------|
//! | dx, dy   | diameters in the two axes, 1/e² (D4σ)         | m    |
//! | zx, zy   | places of the two waists, + along the light | m   |
//! | ε        | ellipticity, smaller over larger diameter     | 1    |
//! | d        | effective diameter √((dx² + dy²)/2)           | m    |
//!
//! d(z) of each axis as for a round beam            \[1\]
//! ε = min(dx, dy) / max(dx, dy); circular if ε > 0.87  \[1\]
//! d = √((dx² + dy²)/2), an exact parabola in z when squared, so that it has a waist, a place
//! and a Rayleigh range of its own; √(dx·dy) is the diameter of the circle of equal area.
//! The two differ by 0.5 % at ε = 0.87 and by 11.8 % at ε = 0.5.
//! M²_eff = √(M²x·M²y)                              \[1\]
//! irradiance ratio = 1/√((1 + ux²)(1 + uy²)), u = (z − z_waist)/z_R
//!
//! The irradiance is compared with that of the same two waists at one place, the best the beam
//! could do without astigmatism; so the greatest ratio of an astigmatic beam is below 1.
//! The axes of the lens, the beam and the scan must coincide (no general astigmatism).
//!
//! \[1\] ISO 11146-1, from memory; the 0.87 read as quoted in the help text on its vocabulary of an
//! open-source beam-image program.

use super::beam::{BeamNames, CheckedBeam, checked_axis};
use super::brightness::Brightness;
use crate::error::{Error, Param, check};
use crate::model::twofold::Twofold;
use crate::validity::{Cone, Validity};

/// Ellipticity above which ISO 11146 calls a profile circular.
pub const CIRCULAR_ABOVE: f64 = 0.87;

/// One axis of an [`AstigmaticBeam`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// Beam propagation ratio M² in this axis.
    pub m2: f64,
    /// Waist **diameter** in metres, 1/e² (D4σ).
    pub waist_diameter: f64,
    /// Where the waist lies in metres, + along the light.
    pub waist_z: f64,
}

/// A simple astigmatic beam: its two axes are fixed and at right angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticBeam {
    /// Vacuum wavelength λ in metres.
    pub wavelength: f64,
    /// The first axis.
    pub x: Axis,
    /// The second axis.
    pub y: Axis,
}

/// What follows from an [`AstigmaticBeam`] alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticParameters {
    /// Rayleigh range in x, in metres.
    pub rayleigh_range_x: f64,
    /// Rayleigh range in y, in metres.
    pub rayleigh_range_y: f64,
    /// From the waist in x to the waist in y, in metres, + along the light.
    pub waist_separation: f64,
    /// Magnitude of the separation over the mean of the two Rayleigh ranges.
    pub relative_astigmatism: f64,
    /// √(M²x·M²y).
    pub m2_effective: f64,
    /// Where the effective diameter is smallest, in metres, + along the light.
    pub effective_waist_z: f64,
    /// Smallest effective diameter √((dx² + dy²)/2), in metres.
    pub effective_waist_diameter: f64,
    /// Distance at which the effective diameter has grown by √2, in metres.
    pub effective_rayleigh_range: f64,
    /// Where the irradiance on the axis is greatest, in metres, + along the light.
    pub brightest_z: f64,
    /// The irradiance there, over that of the two waists at one place.
    pub brightest_irradiance_ratio: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// An [`AstigmaticBeam`] at one place along its axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticSection {
    /// Diameter in x in metres, 1/e² (D4σ).
    pub diameter_x: f64,
    /// Diameter in y in metres, 1/e² (D4σ).
    pub diameter_y: f64,
    /// Smaller over larger diameter.
    pub ellipticity: f64,
    /// Whether the ellipticity exceeds [`CIRCULAR_ABOVE`].
    pub circular: bool,
    /// √((dx² + dy²)/2) in metres, the effective diameter of ISO 11146.
    pub effective_diameter: f64,
    /// √(dx·dy) in metres, the diameter of the circle of equal area.
    pub equal_area_diameter: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

pub(crate) const X: BeamNames = BeamNames {
    m2: Param::M2X,
    waist_diameter: Param::WaistDiameterX,
    half_angle: Param::DivergenceHalfAngleX,
};
pub(crate) const Y: BeamNames = BeamNames {
    m2: Param::M2Y,
    waist_diameter: Param::WaistDiameterY,
    half_angle: Param::DivergenceHalfAngleY,
};

/// A beam that passed its checks: its two axes and where their waists lie.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CheckedAstigmatic {
    pub(crate) x: CheckedBeam,
    pub(crate) y: CheckedBeam,
    pub(crate) x_waist_z: f64,
    pub(crate) y_waist_z: f64,
    pub(crate) cone: Cone,
}

pub(crate) fn checked_astigmatic(beam: &AstigmaticBeam) -> Result<CheckedAstigmatic, Error> {
    let wavelength = check(Param::Wavelength, beam.wavelength)?;
    let x = checked_axis(&X, wavelength, beam.x.m2, beam.x.waist_diameter)?;
    let x_waist_z = check(Param::WaistZX, beam.x.waist_z)?;
    let y = checked_axis(&Y, wavelength, beam.y.m2, beam.y.waist_diameter)?;
    let y_waist_z = check(Param::WaistZY, beam.y.waist_z)?;
    Ok(CheckedAstigmatic { x, y, x_waist_z, y_waist_z, cone: x.cone.wider(y.cone) })
}

impl CheckedAstigmatic {
    /// (ux, uy), each the distance from that axis's waist in its Rayleigh ranges.
    pub(crate) fn rayleigh_ranges_at(&self, z: Twofold) -> (Twofold, Twofold) {
        (
            (z - Twofold::from(self.x_waist_z)) / self.x.rayleigh_range,
            (z - Twofold::from(self.y_waist_z)) / self.y.rayleigh_range,
        )
    }
}

/// d₀·√(1 + u²).
fn diameter(axis: &CheckedBeam, u: Twofold) -> Twofold {
    axis.waist * Twofold::ONE.root_sum_square(u)
}

/// √((dx² + dy²)/2).
fn effective(dx: Twofold, dy: Twofold) -> Twofold {
    ((dx.squared() + dy.squared()) * Twofold::from(0.5)).square_root()
}

/// Rayleigh ranges, astigmatism, and the waist of the effective diameter.
///
/// With θ the divergence of an axis, the effective waist lies at (θx²·zx + θy²·zy)/(θx² + θy²);
/// sources and symbols in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/astigmatic_parameters.csv`), but for `brightest_z`, at
/// most 2 ulp. Where the irradiance has a flat top, that is near equal Rayleigh ranges half the
/// separation long, that place is ill-defined and carries fewer digits; the ratio there does not.
/// Where two places are equally bright, the one nearer the lens is returned.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field outside its range, x before y;
/// [`Error::OutsideModel`] if the half angle of an axis exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::optics::{astigmatic_parameters, AstigmaticBeam, Axis};
/// let beam = AstigmaticBeam {
///     wavelength: 450e-9,
///     x: Axis { m2: 5.0, waist_diameter: 30e-6, waist_z: 0.0 },
///     y: Axis { m2: 5.0, waist_diameter: 30e-6, waist_z: 0.2e-3 },
/// };
/// let p = astigmatic_parameters(&beam)?;
/// assert_eq!((p.effective_waist_z * 1e9).round(), 100_000.0); // half-way, by symmetry
/// assert_eq!((p.relative_astigmatism * 1e4).round(), 6366.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "circle of least confusion")]
#[must_use = "the parameters are the result"]
pub fn astigmatic_parameters(beam: &AstigmaticBeam) -> Result<AstigmaticParameters, Error> {
    let checked = checked_astigmatic(beam)?;
    let (zx, zy) = (Twofold::from(checked.x_waist_z), Twofold::from(checked.y_waist_z));
    let (zr_x, zr_y) = (checked.x.rayleigh_range, checked.y.rayleigh_range);
    let separation = zy - zx;
    let mean_zr = (zr_x + zr_y) * Twofold::from(0.5);

    // The effective diameter squared is a parabola; its vertex weighs each waist by θ².
    let theta_x = (checked.x.waist / zr_x).squared();
    let theta_y = (checked.y.waist / zr_y).squared();
    let both = theta_x + theta_y;
    let waist_z = (theta_x / both) * zx + (theta_y / both) * zy;
    let (ux, uy) = checked.rayleigh_ranges_at(waist_z);
    let waist = effective(diameter(&checked.x, ux), diameter(&checked.y, uy));
    let angle = (both * Twofold::from(0.5)).square_root();

    let brightness = Brightness::of(&checked);
    let brightest = brightness.brightest();
    Ok(AstigmaticParameters {
        rayleigh_range_x: zr_x.to_f64(),
        rayleigh_range_y: zr_y.to_f64(),
        waist_separation: separation.to_f64(),
        relative_astigmatism: crate::model::math::fabs((separation / mean_zr).to_f64()),
        m2_effective: Twofold::product(beam.x.m2, beam.y.m2).square_root().to_f64(),
        effective_waist_z: waist_z.to_f64(),
        effective_waist_diameter: waist.to_f64(),
        effective_rayleigh_range: (waist / angle).to_f64(),
        brightest_z: brightness.z_of(brightest).to_f64(),
        brightest_irradiance_ratio: brightness.irradiance_ratio(brightest).to_f64(),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}

/// Diameters and ellipticity of an astigmatic beam at a place `z`, + along the light.
///
/// Sources and symbols in the [module](self). What the place means for irradiance and dose is
/// told by [`astigmatic_defocus`](crate::model::focus::astigmatic_defocus).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/astigmatic_at.csv`).
///
/// # Errors
/// As [`astigmatic_parameters`], then [`Error::NotFinite`] or [`Error::OutOfRange`] for `z`.
///
/// # Example
/// ```
/// use spotwise::model::optics::{astigmatic_at, AstigmaticBeam, Axis};
/// let beam = AstigmaticBeam {
///     wavelength: 450e-9,
///     x: Axis { m2: 5.0, waist_diameter: 28.648e-6, waist_z: 0.0 },
///     y: Axis { m2: 15.0, waist_diameter: 85.942e-6, waist_z: 0.0 },
/// };
/// let section = astigmatic_at(&beam, 0.0)?;
/// assert_eq!((section.ellipticity * 1e4).round(), 3333.0);
/// assert_eq!((section.effective_diameter * 1e8).round(), 6406.0);  // 64.1 µm
/// assert_eq!((section.equal_area_diameter * 1e8).round(), 4962.0); // 49.6 µm
/// assert!(!section.circular);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the section is the result"]
pub fn astigmatic_at(beam: &AstigmaticBeam, z: f64) -> Result<AstigmaticSection, Error> {
    let checked = checked_astigmatic(beam)?;
    let z = check(Param::Z, z)?;
    let (ux, uy) = checked.rayleigh_ranges_at(Twofold::from(z));
    let (dx, dy) = (diameter(&checked.x, ux), diameter(&checked.y, uy));
    let x_is_smaller = dx.to_f64() <= dy.to_f64();
    let ellipticity = if x_is_smaller { dx / dy } else { dy / dx }.to_f64();
    Ok(AstigmaticSection {
        diameter_x: dx.to_f64(),
        diameter_y: dy.to_f64(),
        ellipticity,
        circular: ellipticity > CIRCULAR_ABOVE,
        effective_diameter: effective(dx, dy).to_f64(),
        equal_area_diameter: (dx * dy).square_root().to_f64(),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}
